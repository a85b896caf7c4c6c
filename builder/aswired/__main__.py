"""`python -m aswired` is the command `aswired`."""

import sys
from typing import NoReturn


def entry() -> NoReturn:
    """Run the command line of this process. Ctrl+C while its parts are still being loaded ends it with words too."""
    try:
        from aswired.cli.run import main
    except KeyboardInterrupt:
        sys.stderr.write("Stopped before it was done.\n")
        sys.exit(2)
    sys.exit(main(sys.argv[1:]))


if __name__ == "__main__":
    entry()

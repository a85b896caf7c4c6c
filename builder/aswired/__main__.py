"""`python -m aswired` is the command `aswired`."""

from aswired.cli import entry

if __name__ == "__main__":
    entry()

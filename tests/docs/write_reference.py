"""What the manual holds of the program's own words: the table of codes and the keys of the format.

`python -m tests.docs.write_reference` writes both anew.
"""

from __future__ import annotations

from pathlib import Path

from aswired.checks.codes import SUBJECTS
from aswired.cli.reference import reference

ROOT = Path(__file__).resolve().parents[2]
MANUAL = ROOT / "builder" / "aswired" / "manual"


def keys_block() -> str:
    """`aswired reference` without its title."""
    return reference().partition("\n")[2].strip()


def codes_block() -> str:
    """A table of codes for each subject, as `aswired explain` lists them."""
    parts = []
    for title, codes in SUBJECTS:
        rows = [f"| {code.code} | {', '.join(code.ranks)} | {code.says} |" for code in codes]
        parts.append("\n".join([f"## {title}", "", "| code | rank | says |", "|---|---|---|", *rows]))
    return "\n\n".join(parts)


BLOCKS = {"codes": codes_block, "reference": keys_block}  # a page of the manual each


def between(page: str, name: str) -> str:
    """What stands between the two marks of a block."""
    return page.partition(f"<!-- {name}: begin -->")[2].partition(f"<!-- {name}: end -->")[0].strip()


def written_anew(page: str, name: str) -> str:
    """The page with its block as the program has it now."""
    before, begin, rest = page.partition(f"<!-- {name}: begin -->")
    _, end, after = rest.partition(f"<!-- {name}: end -->")
    return f"{before}{begin}\n{BLOCKS[name]()}\n{end}{after}"


if __name__ == "__main__":
    for name in BLOCKS:
        page = MANUAL / f"{name}.md"
        page.write_text(written_anew(page.read_text(encoding="utf-8"), name), encoding="utf-8")

"""What the manual holds of the program's own words: codes, kinds of change, keys of the format, sheets.

`python -m tests.docs.write_reference` writes them anew.
"""

from __future__ import annotations

from pathlib import Path

from aswired.car.changes import KINDS
from aswired.checks.codes import subjects
from aswired.cli.reference import reference
from aswired.sheets.registry import SHEETS

ROOT = Path(__file__).resolve().parents[2]
MANUAL = ROOT / "builder" / "aswired" / "manual"


def keys_block() -> str:
    """`aswired reference` without its title."""
    return reference().partition("\n")[2].strip()


def codes_block() -> str:
    """A table of codes for each subject, as `aswired explain` lists them."""
    parts = []
    for title, codes in subjects():
        rows = [f"| {code.code} | {', '.join(code.ranks)} | {code.says} |" for code in codes]
        parts.append("\n".join([f"## {title}", "", "| code | rank | says |", "|---|---|---|", *rows]))
    return "\n\n".join(parts)


def kinds_block() -> str:
    """The kinds of change, each with the keys that say it."""
    return "\n".join(["| kind | does |", "|---|---|", *(f"| `{kind.name}` | {kind.written} |" for kind in KINDS)])


def sheets_block() -> str:
    """The sheets of a job, what each is for, and which of them the owner does not get."""
    rows = (f"| {s.number} {s.title} | {s.purpose}{' (shop only)' if s.shop_only else ''} |" for s in SHEETS)
    return "\n".join(["| sheet | shows |", "|---|---|", *rows])


# block -> its page of the manual, and what stands there
BLOCKS = {
    "codes": ("codes", codes_block),
    "kinds": ("writing", kinds_block),
    "reference": ("reference", keys_block),
    "sheets": ("site", sheets_block),
}


def between(page: str, name: str) -> str:
    """What stands between the two marks of a block."""
    return page.partition(f"<!-- {name}: begin -->")[2].partition(f"<!-- {name}: end -->")[0].strip()


def written_anew(page: str, name: str) -> str:
    """The page with its block as the program has it now."""
    before, begin, rest = page.partition(f"<!-- {name}: begin -->")
    _, end, after = rest.partition(f"<!-- {name}: end -->")
    return f"{before}{begin}\n{BLOCKS[name][1]()}\n{end}{after}"


if __name__ == "__main__":
    for name, (page_name, _) in BLOCKS.items():
        page = MANUAL / f"{page_name}.md"
        page.write_text(written_anew(page.read_text(encoding="utf-8"), name), encoding="utf-8")

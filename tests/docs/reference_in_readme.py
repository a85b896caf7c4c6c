"""What README holds of the program's own words: the table of codes and the format reference.

`python -m tests.docs.reference_in_readme` writes both anew.
"""

from __future__ import annotations

from pathlib import Path

from aswired.checks.codes import SUBJECTS
from aswired.cli.reference import reference

README = Path(__file__).resolve().parents[2] / "README.md"


def block() -> str:
    """`aswired reference` with its headings one level down and its title left out."""
    lines = reference().splitlines()
    told = [("#" + line if line.startswith("#") else line) for line in lines if not line.startswith("# ")]
    return "\n".join(told).strip()


def codes_block() -> str:
    """A table of codes for each subject, as `aswired explain` lists them."""
    parts = []
    for title, codes in SUBJECTS:
        rows = [f"| {code.code} | {', '.join(code.ranks)} | {code.says} |" for code in codes]
        parts.append("\n".join([f"**{title}**", "", "| code | rank | says |", "|---|---|---|", *rows]))
    return "\n\n".join(parts)


BLOCKS = {"codes": codes_block, "reference": block}


def between(text: str, name: str) -> str:
    """What stands between the two marks of a block."""
    return text.partition(f"<!-- {name}: begin -->")[2].partition(f"<!-- {name}: end -->")[0].strip()


def written_anew(text: str) -> str:
    """README with both blocks as the program has them now."""
    for name, make in BLOCKS.items():
        before, begin, rest = text.partition(f"<!-- {name}: begin -->")
        _, end, after = rest.partition(f"<!-- {name}: end -->")
        text = f"{before}{begin}\n{make()}\n{end}{after}"
    return text


if __name__ == "__main__":
    README.write_text(written_anew(README.read_text(encoding="utf-8")), encoding="utf-8")

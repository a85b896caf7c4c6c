"""The format reference as it stands in README. `python -m tests.docs.reference_in_readme` writes it anew."""

from __future__ import annotations

from pathlib import Path

from aswired.reference import reference

README = Path(__file__).resolve().parents[2] / "README.md"
BEGIN, END = "<!-- reference: begin -->", "<!-- reference: end -->"


def block() -> str:
    """`aswired reference` with its headings one level down and its title left out."""
    lines = reference().splitlines()
    told = [("#" + line if line.startswith("#") else line) for line in lines if not line.startswith("# ")]
    return "\n".join(told).strip()


if __name__ == "__main__":
    before, _, rest = README.read_text(encoding="utf-8").partition(BEGIN)
    after = rest.partition(END)[2]
    README.write_text(f"{before}{BEGIN}\n{block()}\n{END}{after}", encoding="utf-8")

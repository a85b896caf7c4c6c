"""Files as nobody lays them out: written right, or refused with nothing changed."""

from __future__ import annotations

import random
import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from aswired.files import read_job
from aswired.files.writing import NotWritten, write_pieces
from writing.mutate import mutated
from writing.test_writing_layouts import LAYOUTS
from writing.texts import NEW, OFFCUT, PIECE, folder_of, laid_out, meant, plain

TAME = [
    "\n",
    "\n\n",
    "\n# note\n",
    " ",
    "  ",
    " # note",
    "\t",
    "\r",
    "'",
    '"',
    "é",
    "\U0001f600",
    "\u2028",
    ", ",
    "-",
    "x",
]


def a_text(chance: random.Random) -> str:
    """A layout, with or without its piece and its list, hit one to three times; mostly with what may stand in YAML."""
    text = laid_out(chance.choice(list(LAYOUTS.values())), chance.random() < 0.5, chance.random() < 0.7)
    if chance.random() < 0.3:
        return mutated(chance, text, chance.randrange(1, 3))
    for _ in range(chance.randrange(1, 4)):
        at = chance.choice([found.start() for found in re.finditer(r"\b|$|(?<=\n)", text)])
        text = text[:at] + chance.choice(TAME) + text[at:]
    line_end = chance.choice(["\n", "\n", "\r\n", "\r"])
    return chance.choice(["", "", "\ufeff"]) + re.sub("\r?\n", line_end, text)


def words(text: Any) -> str:
    return "".join(re.findall(r"\w", str(text)))


def middle(before: str, after: str) -> tuple[str, str]:
    """What stands in two texts between what they begin with and what they end with."""
    shorter = min(len(before), len(after))
    same = next((at for at in range(shorter) if before[at] != after[at]), shorter)
    rest = shorter - same
    end = next((at for at in range(rest) if before[-1 - at] != after[-1 - at]), rest)
    return before[same : len(before) - end], after[same : len(after) - end]


def judge(folder: Path, before: bytes, piece: bool) -> None:
    """That the piece was set, or else the offcut listed, and nothing else was touched: judged without our writer."""
    after = (folder / "job.yml").read_bytes()
    typed = plain(before)
    assert plain(after) == meant(typed, piece, not piece), (before, after)
    gone, come = middle(before.decode(), after.decode())
    rows = typed["changes"] if isinstance(typed["changes"], list) else [typed["changes"]]
    row = next(row for row in rows if row["id"].split() == ["C1"])
    wires = row["wires"] if isinstance(row.get("wires"), dict) else {}
    old = wires.get("W1", row.get("piece", "")) if piece else ""
    notes = re.compile("#[^\r\n\x85\u2028\u2029]*")
    assert all(note in come for note in notes.findall(gone)), (before, after)
    gone, come = notes.sub("", gone), notes.sub("", come)
    assert words(gone) in words(old), (before, after)
    assert len(gone) < 60, (before, after)
    assert words(come) in f"piece{words(PIECE)}offcutsR1{words(OFFCUT)}", (before, after)
    assert (before.startswith(b"\xef\xbb\xbf"), before.count(b"\r\n") > 0) == (
        after.startswith(b"\xef\xbb\xbf"),
        after.count(b"\r\n") > 0,
    )


@pytest.mark.parametrize(
    ("seed", "jobs"), [(1, 60), pytest.param(2, 2500, marks=pytest.mark.slow)], ids=["few", "many"]
)
def test_mutated_files_are_written_right_or_not_at_all(tmp_path, seed, jobs, tell):
    chance = random.Random(seed)
    told: Counter[str] = Counter()
    while told["written"] + told["refused"] + told["as it was"] < jobs:
        before = a_text(chance).encode("utf-8")
        folder = folder_of(tmp_path, {"job.yml": before})
        job = read_job(folder).job
        row = job.change("C1") if job is not None else None
        if job is None or row is None or (job.offcuts and "R1" in job.offcuts):
            told["no job to write into"] += 1
            continue
        piece = chance.random() < 0.5
        try:
            changed = write_pieces(job, NEW if piece else [], {} if piece else {"R1": OFFCUT})
        except NotWritten as refused:
            told["refused"] += 1
            told[f"  {re.sub(r'[(:].*', '', str(refused))}"] += 1
            assert (folder / "job.yml").read_bytes() == before
            continue
        assert changed == (folder / "job.yml",)
        told["written"] += 1
        judge(folder, before, piece)
    assert told["written"] > 0.9 * jobs
    tell(", ".join(f"{what}: {number}" for what, number in told.items()))

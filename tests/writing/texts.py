"""What the tests of writing share: a job as text, and a judge of what was written that does not use our own writer."""

from __future__ import annotations

import copy
import re
from pathlib import Path
from typing import Any

import yaml

from aswired.files import read_job
from aswired.files.writing import NewPiece, write_pieces
from aswired.record import Job
from aswired.text import yamltext

PIECE, OLD = "BU 18 AWG from O3", "GN 18 AWG"
OFFCUT = "GN 18 AWG 900 mm, PVC"
NEW = [NewPiece("C1", "W1", PIECE)]
HEAD = """\
job: Van
wires:
  W1: GN 18 AWG, F1 to lamp.1, 2 m
  W2: RD 18 AWG, F2 to lamp.2, 2 m
⟪offcuts:
  O3: BU 18 AWG 2 m
⟫"""  # the brackets are marks of the tests: without piece or offcuts their text is left out


def laid_out(text: str, piece: bool = True, offcuts: bool = True) -> str:
    """A layout as a file's text: the piece stands between ⟦ and ⟧, the list of offcuts between ⟪ and ⟫."""
    for first, last, wanted in (("⟦", "⟧", piece), ("⟪", "⟫", offcuts)):
        text = re.sub(f"{first}(.*?){last}", r"\1" if wanted else "", text, flags=re.DOTALL)
    return text


def folder_of(shop: Path, files: dict[str, bytes], name: str = "van") -> Path:
    folder = shop / "jobs" / name
    folder.mkdir(parents=True, exist_ok=True)
    for file, data in files.items():
        (folder / file).write_bytes(data)
    return folder


def read(folder: Path) -> Job:
    got = read_job(folder)
    assert got.job is not None, got.faults
    return got.job


def write(folder: Path, piece: bool = True, offcut: bool = False) -> tuple[Path, ...]:
    return write_pieces(read(folder), NEW if piece else [], {"R1": OFFCUT} if offcut else {})


def plain(data: bytes) -> Any:
    """A file as lists, mappings and words, without our reader."""
    return yaml.load(data.decode("utf-8-sig"), Loader=yamltext._Loader)  # noqa: S506 (it makes words only)


def meant(before: Any, piece: bool, offcut: bool) -> Any:
    """What a file has to hold after the piece was set and the offcut listed."""
    after = copy.deepcopy(before)
    rows = after["changes"]
    row = next(row for row in (rows if isinstance(rows, list) else [rows]) if row["id"].split() == ["C1"])
    if piece and isinstance(row.get("wires"), dict):
        row["wires"]["W1"] = PIECE
    elif piece:
        row["piece"] = PIECE
    if offcut:
        after["offcuts"] = {**(after.get("offcuts") or {}), "R1": OFFCUT}
    return after


def one_place(before: str, after: str, gone: tuple[str, ...]) -> str | None:
    """What stands in one place of a text instead of one of `gone`, all around being the same; None if it is not so."""
    same = next(
        (at for at, (a, b) in enumerate(zip(before, after, strict=False)) if a != b), min(map(len, (before, after)))
    )
    for start in range(same, max(-1, same - 80), -1):
        for old in gone:
            rest = before[start + len(old) :]
            if before[start : start + len(old)] == old and after.endswith(rest) and len(after) >= start + len(rest):
                return after[start : len(after) - len(rest)]
    return None

"""A shop folder written by a test: jobs from text, a rack, and the proposal for one of them."""

from __future__ import annotations

import datetime
import textwrap
from pathlib import Path

from aswired.files import read_job
from aswired.rack import Proposal, propose
from aswired.rack.shelf import pieces_left, read_rack
from aswired.record import Job
from aswired.work import work_out

TODAY = datetime.date(2031, 6, 1)

HEAD = """\
job: Van
supply: 13.5 V
donor colours: [BK]
usual: {joint: "lap, soldered", overlap: 10 mm, slack: 50 mm, ring strip: 6 mm, cut to next: 5 mm}
plugs: {lamp: {ways: 4}, horn: {ways: 2}}
grounds: {L1: {back to: battery-}}
wires:
  W1: GN 18 AWG, F1 to lamp.1, 2 m
  W2: RD/WH 18 AWG, F2 to lamp.2, 2 m
  W3: BK 16 AWG, lamp.3 to L1, 2 m
  W4: VT 18 AWG, F3 to horn.1, 2 m
"""  # a piece with gap 430 is cut 430 + 50 + 10 + 10 = 500 mm; nothing is rounded there


def written(shop: Path, name: str, text: str, rack: str = "") -> Path:
    folder = shop / name
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "job.yml").write_text(textwrap.dedent(text).lstrip("\n"), encoding="utf-8")
    if rack:
        (shop / "rack.yml").write_text(textwrap.dedent(rack).lstrip("\n"), encoding="utf-8")
    return folder


def read(folder: Path) -> Job:
    got = read_job(folder)
    assert got.job is not None, got.faults
    return got.job


def proposal(folder: Path) -> Proposal:
    rack, faults = read_rack(folder.parent)
    assert faults == ()
    return propose(work_out(read(folder), TODAY), pieces_left(folder.parent, rack))


def cuts(of: Proposal) -> dict[str, str]:
    """Piece -> the offcut it is cut from."""
    return {cut.wanted.piece.id: cut.offcut.name for cut in of.cuts}

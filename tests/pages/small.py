"""A small job as a person writes it, read and worked out: one siren, its feed extended, its return moved."""

from __future__ import annotations

import datetime
from pathlib import Path

from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.work import work_out

TODAY = datetime.date(2031, 6, 12)
TEXT = """\
job: Siren only
supply: 13.5 V
temperature: 20 C
body returns: no
units: mm
usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm,
  cut to next: 5 mm, joint resistance: 0.2 mohm, cavity resistance: 2 mohm, ring resistance: 1 mohm,
  fuse resistance: 5 mohm}
landmarks: {fuse-box: lid of the fuse box, split: takeout, siren-plug: back of the plug, lug: stud on the rail}
route:
  - {from: fuse-box, to: split, length: 1500 mm, zone: dry}
  - {from: split, to: siren-plug, length: 900 mm, zone: wet}
  - {from: split, to: lug, length: 700 mm}
plugs:
  siren-plug: {ways: 2, at: siren-plug}
  old-plug: {ways: 2}
fuses:
  F7: {rating: 15 A, in: fuse-box, fed: ignition}
  F8: {rating: 10 A, in: fuse-box}
  F9: {rating: 5 A, in: fuse-box, use: spare}
loads:
  siren: {between: siren-plug.1 siren-plug.2, draws: 5 A, class: horn}
  bell: {between: old-plug.1 old-plug.2, draws: unknown, return: not examined}
grounds:
  G2: {what: wing screw, gone: yes}
  L1: {at: lug, stud: M6, bolted to: rail, conducts: yes, cable: 10 mm2, cable length: 2 m, back to: battery-}
  L2: {what: spare stud, at: unknown, back to: battery-}
wires:
  W31: {colour: VT/WH, size: 1.5 mm2, FROM_TO_31, length: 2000 mm}
  W52: {colour: BN, size: 1.5 mm2, from: siren-plug.2, to: G2, length: 1200 mm}
  W60: {colour: GY, size: 1.5 mm2, from: F8, to: old-plug.1}
changes:
  - {id: C14, kind: extend, wire: W31, plug: siren-plug, gap: 400 mm, pigtail: 150 mm, piece: BU 1.5 mm2,
     made: 2031-05-04 AK}
  - {id: C21, kind: ground, wire: W52, end: G2, to: L1, gap: 300 mm, pigtail: 1100 mm, piece: BK 2.5 mm2,
     ring: "new, M6", made: 2031-05-05 AK}
  - {id: C30, kind: extend, wire: W60, plug: old-plug, pigtail: 100 mm, piece: GY 1.5 mm2}
"""


def small(folder: Path, from_to: str = "from: F7, to: siren-plug.1") -> JobResult:
    """The job, with the ends of W31 written in either order."""
    return work(folder, TEXT.replace("FROM_TO_31", from_to))


def work(folder: Path, text: str) -> JobResult:
    """The job of a text, read from a folder and worked out."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "job.yml").write_text(text, encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    return work_out(read.job, TODAY)

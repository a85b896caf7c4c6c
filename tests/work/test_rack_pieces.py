"""The rack of a shop: what the jobs beside it have cut from each of its pieces, and what is not a piece of it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from aswired.car.harness import OffcutUse
from aswired.files import read_job
from aswired.rack.shelf import RackPiece, of_rack, pieces_left, read_rack
from aswired.text.colours import UNKNOWN
from aswired.text.one_line import UNREAD_SIZE

RACK = """rack:
  R1: RD 1.5 mm2 2 m
  R2: BU 1 mm2 unknown
  R3: YE 1 mm2 1 m
  R4: GN 1 mm2 1 m
  R.5: GN 1 mm2 1 m
"""
JOB = """job: {name}
offcuts: {offcuts}
fuses: {{F1: {{rating: 5 A}}}}
wires:
  W1: {{colour: RD, size: 1.5 mm2, from: F1, to: a.1, length: 1000 mm}}
changes:
{rows}"""


def add(number: int, piece: str, cut: str = "300 mm", more: str = "") -> str:
    return (
        f"  - {{id: C{number}, kind: add, wire: W9{number}, from: a.{number}9, to: b.{number}, piece: {piece}, "
        f"cut: {cut}{more}}}\n"
    )


def shop(folder: Path, jobs: dict[str, tuple[str, str]]) -> dict[str, RackPiece]:
    (folder / "rack.yml").write_text(RACK, encoding="utf-8")
    for name, (offcuts, rows) in jobs.items():
        (folder / name).mkdir()
        text = JOB.format(name=name, offcuts=offcuts, rows=rows)
        (folder / name / "job.yml").write_text(text, encoding="utf-8")
    rack, faults = read_rack(folder)
    assert faults == ()
    return {piece.name: piece for piece in pieces_left(folder, rack)}


def test_every_job_takes_its_cuts_off_the_piece_that_it_names(tmp_path: Path) -> None:
    left = shop(
        tmp_path,
        {
            # made or planned, listed under its own offcuts or not
            "a-van": (
                "{R1: RD 1.5 mm2 2 m}",
                add(1, "RD 1.5 mm2 from R1", more=", made: 2031-05-03") + add(2, "RD 1.5 mm2 from R1", "200 mm"),
            ),
            "b-van": ("{}", add(1, "RD 1.5 mm2 from R1", "500 mm") + add(2, "BU 1 mm2 from R2")),
            # a piece of its own that has the name of one of the rack: another colour, another size, or its own wire
            "c-van": ("{R3: BK 1 mm2 1 m}", add(1, "BK 1 mm2 from R3")),
            "d-van": ("{R3: YE 2 mm2 1 m}", add(1, "YE 2 mm2 from R3")),
            "e-van": (
                "{}",
                "  - {id: C1, kind: remove, wire: W1, ends: {F1: pulled, a.1: pulled}, reclaimed: {R1: RD 900 mm}}\n"
                + add(2, "RD 1.5 mm2 from R1"),
            ),
            # how much was cut nobody knows
            "f-van": ("{}", add(1, "YE 1 mm2 from R3", "unknown") + add(2, "YE 1 mm2 from R3", "100 mm")),
            # a job that cannot be read names one of them
            "g-van": (
                "{}",
                add(1, "GN 1 mm2 from R4")
                + add(3, "GN 1 mm2 from Rx5")
                + add(4, "GN 1 mm2 from R1-b")
                + "  - {id: C2, kind: nonsense}\n",
            ),
        },
    )
    cuts = {name: piece.cuts for name, piece in left.items()}
    assert cuts == {
        "R1": (("a-van", "C1-W91", 300), ("a-van", "C2-W92", 200), ("b-van", "C1-W91", 500)),
        "R2": (("b-van", "C2-W92", 300),),
        "R3": (("f-van", "C1-W91", None), ("f-van", "C2-W92", 100)),
        "R4": (),
        "R.5": (),
    }
    assert {name: piece.left_mm for name, piece in left.items()} == {
        "R1": 1000,  # 2000 - 300 - 200 - 500
        "R2": None,
        "R3": None,
        "R4": None,
        "R.5": 1000,
    }
    assert {name: piece.unread for name, piece in left.items() if piece.unread} == {"R4": ("g-van",)}


def test_a_jobs_own_piece_is_the_racks_where_colour_and_size_are_alike(tmp_path: Path) -> None:
    shop(tmp_path, {"van": ("{R1: RD 1.5 mm2 9 m, R3: YE 2 mm2 1 m, R4: BK 1 mm2 1 m}", add(1, "RD 1.5 mm2"))})
    rack, _ = read_rack(tmp_path)
    job = read_job(tmp_path / "van").job
    assert job is not None
    assert {name: of_rack(job, name, offcut) for name, offcut in rack.rack.items()} == {
        "R1": True,
        "R2": True,
        "R3": False,
        "R4": False,
        "R.5": True,
    }


def test_a_shop_without_a_rack_has_no_pieces(tmp_path: Path) -> None:
    rack, faults = read_rack(tmp_path)
    assert (dict(rack.rack), faults, pieces_left(tmp_path, rack)) == ({}, (), ())
    (tmp_path / "rack.yml").write_text("rack: {R1: RD 1,5 mm2 2 m}\n", encoding="utf-8")
    rack, faults = read_rack(tmp_path)
    assert [(fault.at.file, fault.at.line, fault.code) for fault in faults] == [("rack.yml", 1, "YML05")]
    assert dict(rack.rack) == {}


def test_what_a_row_that_was_done_again_had_cut_stays_cut_though_the_job_does_not_list_the_piece(
    tmp_path: Path,
) -> None:
    row = "kind: extend, wire: W1, end: a.1, pigtail: 300 mm, gap: 90 mm, piece: RD 1.5 mm2 from R1, made: 2031-05-03"
    rows = f"  - {{id: C1, {row}, cut: 500 mm}}\n  - {{id: C2, {row}, cut: 600 mm, redoes: C1}}\n"
    for number, offcuts in enumerate(("{}", "{R1: RD 1.5 mm2 2 m}")):
        (tmp_path / str(number)).mkdir()
        left = shop(tmp_path / str(number), {"van": (offcuts, rows)})["R1"]
        assert left.cuts == (("van", "C1-W1", 500), ("van", "C2-W1", 600)), offcuts
        assert left.left_mm == 900  # 2000 - 500 - 600


def test_what_is_left_of_an_offcut_is_not_recorded_once_a_cut_from_it_is_not() -> None:
    offcut = OffcutUse("O1", UNKNOWN, UNREAD_SIZE, 2000.0, "", (("C1", 500.0), ("C2", None)))
    assert (offcut.left_mm, replace(offcut, cuts=offcut.cuts[:1]).left_mm) == (None, 1500.0)

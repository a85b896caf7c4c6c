"""What is told of a bundle, word by word: which wires and splices lie where, what is sized by them, and from what."""

from __future__ import annotations

from math import pi, sqrt
from pathlib import Path

import pytest
from tests.findings.jobs import figure, figures, proved, work

from aswired.figures.bundles import HoleFit, Wrap
from aswired.figures.worked import JobResult
from aswired.physics.figure import Figure

Told = dict[str, tuple[float | str | None, str, str]]

# dash --600-- wall --900-- nose --700-- left
#                              \--500-- right
# The second leg is written from the nose, so that a place measured from the wall counts from its other end: FS1 lies
# 600 mm from the nose, FS2 599 mm, FS3 100 mm.
TRUNK = """
    job: Bundles
    landmarks: {dash: fuse box, wall: front wall, nose: takeout, left: plug, right: plug}
    route:
      - {from: dash, to: wall, length: 600 mm}
      - {from: nose, to: wall, length: 900 mm}
      - {from: nose, to: left, length: 700 mm}
      - {from: nose, to: right, length: 500 mm}
    holes: {left: {bore: 20 mm}, nose: {bore: 20 mm}, wall: {bore: 20 mm}}
    plugs: {lamp-left: {at: left}, lamp-right: {at: right}}
    fuses: {F1: {in: wall}, F2: {in: wall}}
    splices:
      FS1: {at: 300 mm from wall towards nose}
      FS2: {at: 301 mm from wall towards nose}
      FS3: {at: 100 mm from nose towards wall}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp-left.1, outside: 2 mm}
      W2: {size: 1.0 mm2, from: F1, to: FS1, outside: 3 mm}
      W3: {size: 1.0 mm2, from: FS2, to: lamp-right.1, outside: 2 mm}
      W4: {size: 1.0 mm2, from: FS2, to: FS1, outside: 1 mm}
      W5: {size: 1.0 mm2, from: FS3, to: unknown, length: 50 mm}
"""


def trunk(folder: Path, *changed: tuple[str, str], shop: str = "", rows: str = "") -> JobResult:
    text = TRUNK
    for old, new in changed:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    folder.mkdir(exist_ok=True)
    if shop:
        (folder / "shop.yml").write_text(shop, encoding="utf-8")
    return work(folder / "job", text + rows if rows else proved(text))


def stations(worked: JobResult) -> dict[str, tuple[float, float | None, str, str, str]]:
    """Key -> beginning, end, the wires, those that may lie there too, the splices."""
    return {
        s.key: (
            s.start_mm,
            s.end_mm,
            " ".join(wire.wire for wire in s.wires),
            " ".join(s.perhaps),
            " ".join(s.joints),
        )
        for s in worked.bundles.stations
    }


def inputs(found: Figure) -> Told:
    return {given.name: (given.value, given.unit, given.source) for given in found.inputs}


def words(found: Figure) -> tuple[str, str, str, tuple[str, ...], str]:
    return found.name, found.unit, found.rule, found.missing_words, found.note


def test_places_a_millimetre_apart_are_two_and_a_splice_counts_on_either_side_of_itself(tmp_path: Path) -> None:
    worked = trunk(tmp_path)
    assert stations(worked) == {
        "nose.wall.0": (0, 599, "W1 W3", "W5", "FS2 FS3"),
        "nose.wall.599": (599, 600, "W1 W4", "", "FS1 FS2"),
        "nose.wall.600": (600, 900, "W1 W2", "", "FS1"),
        "nose.left.0": (0, 700, "W1", "", ""),
        "nose.right.0": (0, 500, "W3", "", ""),
    }
    assert worked.bundles.off_route == ("W5",)
    # half a millimetre apart they are one: W4 has no run of its own
    one = trunk(tmp_path / "one", ("FS2: {at: 301 mm", "FS2: {at: 300.5 mm"))
    assert list(stations(one)) == ["nose.wall.0", "nose.wall.600", "nose.left.0", "nose.right.0"]
    assert stations(one)["nose.wall.600"][2:] == ("W1 W2", "", "FS1 FS2")


def test_a_wire_between_two_splices_lies_between_them_whichever_is_written_first(tmp_path: Path) -> None:
    apart = ("FS2: {at: 301 mm", "FS2: {at: 500 mm")
    turned = ("W4: {size: 1.0 mm2, from: FS2, to: FS1", "W4: {size: 1.0 mm2, from: FS1, to: FS2")
    for folder, changed in (("one", (apart,)), ("other", (apart, turned))):
        found = stations(trunk(tmp_path / folder, *changed))
        assert found["nose.wall.400"][:3] == (400, 600, "W1 W4"), folder


def test_a_wire_of_unknown_way_may_lie_where_it_begins_though_it_reaches_no_end_of_the_run(tmp_path: Path) -> None:
    # W5 begins 100 mm from the nose and is 50 mm long: it reaches neither the nose nor the next splice
    assert stations(trunk(tmp_path))["nose.wall.0"][3] == "W5"
    # 150 mm reach the nose and 50 mm of each leg beyond it; what is not measured may lie anywhere
    longer = trunk(tmp_path / "longer", ("to: unknown, length: 50 mm", "to: unknown, length: 150 mm"))
    assert {key: told[3] for key, told in stations(longer).items() if told[3]} == {
        "nose.wall.0": "W5",
        "nose.left.0": "W5",
        "nose.right.0": "W5",
    }
    unread = trunk(tmp_path / "unread", ("to: unknown, length: 50 mm", "to: unknown"))
    assert all(told[3] == "W5" for told in stations(unread).values())
    # nor does it matter which of its ends is the unknown one
    turned = trunk(tmp_path / "turned", ("from: FS3, to: unknown, length: 50", "from: unknown, to: FS3, length: 50"))
    assert stations(turned) == stations(trunk(tmp_path / "again"))


def test_a_wire_of_unknown_way_does_not_lie_in_a_run_before_the_one_it_begins_in(tmp_path: Path) -> None:
    # FS3 lies here 800 mm from the nose, in the last of the three runs; 50 mm reach neither end of it
    worked = trunk(tmp_path, ("FS3: {at: 100 mm from nose towards wall}", "FS3: {at: 100 mm from wall towards nose}"))
    assert {key: told[3] for key, told in stations(worked).items() if told[3]} == {"nose.wall.600": "W5"}
    # a leg that was not measured: beyond 500 mm from the right plug to the nose 100 mm do not reach into it, 600 mm do
    unread = ("from: nose, to: left, length: 700 mm", "from: nose, to: left, length: unknown")
    for reach, may in (("100 mm", ""), ("600 mm", "W5")):
        there = ("W5: {size: 1.0 mm2, from: FS3, to: unknown, length: 50 mm}",
                 f"W5: {{size: 1.0 mm2, from: lamp-right.2, to: unknown, length: {reach}}}")  # fmt: skip
        assert stations(trunk(tmp_path / reach, unread, there))["nose.left.0"][3] == may


def test_a_wire_of_unknown_way_may_lie_on_a_part_of_the_route_that_is_joined_to_its_own_by_no_leg(
    tmp_path: Path,
) -> None:
    apart = ("from: nose, to: right, length: 500 mm", "from: island, to: right, length: 500 mm")
    there = ("W5: {size: 1.0 mm2, from: FS3, to: unknown, length: 50 mm}",
             "W5: {size: 1.0 mm2, from: lamp-right.2, to: unknown, length: 50 mm}")  # fmt: skip
    worked = trunk(tmp_path, apart, there, ("right: plug}", "right: plug, island: box}"))
    assert stations(worked)["nose.left.0"][3].split() == ["W3", "W5"]  # nor has W3 a way any more


def test_what_is_told_of_one_run_of_bundle(tmp_path: Path) -> None:
    worked = trunk(tmp_path, shop="conduits: [17 mm, 8 mm, 5 mm, 30 mm]\n")
    diameter = figure(worked, "nose.wall.599.diameter")
    assert diameter.value == 3.0  # 2 and 1 mm side by side
    assert words(diameter) == (
        "bundle, nose to wall, from 599 mm", "mm", "two wires side by side", (),
        "Lies between 3.0 and 3.0 mm; counted are the wires on record.",
    )  # fmt: skip
    assert inputs(diameter) == {
        "1 wire: W1": ("2.00", "mm", "measured; recorded"),
        "1 wire: W4": ("1.00", "mm", "measured; recorded"),
    }
    # FS1 is 2.25 x 3 mm (W2), FS2 2.25 x 2 mm (W3), 1 mm apart and so side by side, in place of W4; with W1 that is
    # 1.2 x sqrt(6.75^2 + 4.5^2 + 2^2) = 10.03, less than the two side by side, 11.25.
    # Least 2 x 3 + 2 x 2 = 10; most 1.45 x sqrt(7.5^2 + 5^2 + 2^2) = 13.39, more than 7.5 + 5
    splice = figure(worked, "nose.wall.599.splice")
    assert splice.value == pytest.approx(11.25)
    assert 1.45 * sqrt(7.5**2 + 5**2 + 2**2) == pytest.approx(13.39, abs=0.005)
    assert words(splice) == (
        "bundle over its splices, nose to wall, from 599 mm", "mm",
        "bundle with 2 to 2.5 x the wire for a splice (common practice)", (),
        "Lies between 10.0 and 13.4 mm.",
    )  # fmt: skip
    sleeve = "joint in its sleeve, 2 to 2.5 x the wire"
    assert inputs(splice) == {"FS1": ("6.75", "mm", sleeve), "FS2": ("4.50", "mm", sleeve)}
    # the splice, not the wires alone, has to pass a conduit: 11.25 x 1.1 = 12.375 mm
    bore, conduit = figure(worked, "nose.wall.599.bore"), figure(worked, "nose.wall.599.conduit")
    assert bore.value == pytest.approx(12.375)
    assert inputs(bore) == {
        "D": (pytest.approx(11.25), "mm", "nose.wall.599.splice"),
        "share": (10, "%", "common practice, no source"),
    }
    assert conduit.value == 17
    assert inputs(conduit) == {
        "bore needed": (pytest.approx(12.375), "mm", "nose.wall.599.bore"),
        "on hand": ("5, 8, 17, 30", "mm", "shop.yml"),
    }
    # 10 x the largest wire; of the bundle of 3 mm 10 x are 30 mm and 5 x are 15 mm
    bend = figure(worked, "nose.wall.599.bend")
    assert (bend.value, inputs(bend)) == (20.0, {"largest wire": ("2.00", "mm", "W1")})
    assert words(bend) == (
        "least bend radius, nose to wall, from 599 mm", "mm", "AC 43.13-1B para 11-117 (read, second hand)", (),
        "Counted on the bundle: 30 mm (10 x, aviation practice); on cars 15 mm (4 to 5 x, common practice, no source).",
    )  # fmt: skip
    # a run from the beginning of its leg says no place; one without a splice is sized by its wires
    assert figure(worked, "nose.left.0.bore").name == "bore that a conduit needs, nose to left"
    assert inputs(figure(worked, "nose.left.0.bore"))["D"] == (2.0, "mm", "nose.left.0.diameter")
    assert figure(worked, "nose.wall.600.bend").value == 30.0  # W2, the second of its two wires


def test_one_splice_of_a_run_stands_apart_from_another(tmp_path: Path) -> None:
    # FS3 is 2.25 x 2.1 mm (1.0 mm2 by the table, from memory) and the thicker of the two; 499 mm lie between them.
    # Beside W1 and W3, of 2 mm: 1.2 x sqrt(4.725^2 + 8) = 6.63, less than 4.725 + 2 = 6.725
    found = figure(trunk(tmp_path), "nose.wall.0.splice")
    assert found.value == pytest.approx(6.725)
    assert list(inputs(found)) == ["FS3"]
    # W3 of 4 mm makes the other the thicker: FS2 is 9 mm, W1 beside it 2 mm
    other = figure(trunk(tmp_path / "other", ("lamp-right.1, outside: 2 mm", "lamp-right.1, outside: 4 mm")),
                   "nose.wall.0.splice")  # fmt: skip
    assert other.value == pytest.approx(11.0)
    assert list(inputs(other)) == ["FS2"]


@pytest.mark.parametrize(("apart", "value", "names"), [(49, 11.25, ["FS1", "FS2"]), (50, 8.75, ["FS1"])])
def test_splices_count_together_when_they_are_less_apart_than_they_are_to_keep(
    apart: int, value: float, names: list[str], tmp_path: Path
) -> None:
    # with less than the 50 mm of the limit between them 6.75 + 4.5, else FS1 and W1 alone, 6.75 + 2
    worked = trunk(
        tmp_path,
        ("FS2: {at: 301 mm", f"FS2: {{at: {300 + apart} mm"),
        ("    job: Bundles", "    job: Bundles\n    limits: {joint clear: 50 mm}"),
    )
    found = figure(worked, f"nose.wall.{600 - apart}.splice")
    assert (found.value, list(inputs(found))) == (pytest.approx(value), names)


def test_a_wire_or_a_splice_of_unknown_thickness_is_named_and_sizes_nothing(tmp_path: Path) -> None:
    worked = trunk(tmp_path, ("W1: {size: 1.0 mm2, from: F1, to: lamp-left.1, outside: 2 mm}",
                              "W1: {from: F1, to: lamp-left.1}"))  # fmt: skip
    waits = ("outer diameter of W1",)
    diameter = figure(worked, "nose.wall.0.diameter")
    assert words(diameter) == ("bundle, nose to wall", "mm", "bundle of wires", waits, "")
    assert inputs(diameter) == {"1 wire: W1": (None, "mm", ""), "1 wire: W3": ("2.00", "mm", "measured; recorded")}
    for key in ("splice", "bore", "conduit", "bend"):
        found = figure(worked, f"nose.wall.0.{key}")
        assert (found.value, found.unit, found.missing_words) == (None, "mm", waits), key
    # of W5 only its splice is in the bundle for certain
    worked = trunk(tmp_path / "splice", ("W5: {size: 1.0 mm2, from", "W5: {from"))
    waits = ("outer diameter of the wires in FS3",)
    assert figure(worked, "nose.wall.0.diameter").value == 4.0
    assert (figure(worked, "nose.wall.0.splice").value, figure(worked, "nose.wall.0.splice").missing_words) == (
        None,
        waits,
    )
    assert (figure(worked, "nose.wall.0.bore").value, figure(worked, "nose.wall.0.bore").missing_words) == (None, waits)
    assert figure(worked, "nose.wall.0.bend").value == 20.0
    assert figure(worked, "nose.wall.599.splice").value == pytest.approx(11.25)


def test_no_conduit_on_hand_is_told_as_none_wide_enough(tmp_path: Path) -> None:
    found = figure(trunk(tmp_path, shop="conduits: [8 mm, 12 mm]\n"), "nose.wall.599.conduit")
    assert (found.value, words(found)) == (
        None,
        (
            "conduit on hand, nose to wall, from 599 mm", "mm", "the next bore on hand", ("a conduit wide enough",),
            "None of the conduits on hand is wide enough.",
        ),
    )  # fmt: skip
    # a size that is not known is none of those on hand
    found = figure(trunk(tmp_path / "unread", shop="conduits: [unknown, 14 mm]\n"), "nose.wall.599.conduit")
    assert (found.value, inputs(found)["on hand"][0]) == (14.0, "14")


def test_the_smallest_conduit_that_fits_exactly_is_wide_enough(tmp_path: Path) -> None:
    # 2 mm and nothing over it
    none_over = ("    job: Bundles", "    job: Bundles\n    limits: {conduit over bundle: 0 %}")
    worked = trunk(tmp_path, none_over, shop="conduits: [3 mm, 2 mm]\n")
    assert figures(worked)["nose.left.0.conduit"] == 2.0


# ---- holes ----------------------------------------------------------------------------------------------------------
def holes(worked: JobResult) -> dict[str, HoleFit]:
    return {found.landmark: found for found in worked.bundles.holes}


def test_a_hole_is_passed_by_the_run_that_ends_there_with_most_wires(tmp_path: Path) -> None:
    found = holes(trunk(tmp_path))
    # at the nose two wires, and one on each branch; at the wall the run from FS1 on, not the one from the nose
    assert {name: " ".join(wire.wire for wire in one.wires) for name, one in found.items()} == {
        "left": "W1",
        "nose": "W1 W3",
        "wall": "W1 W2",
    }
    assert words(found["nose"].diameter) == (
        "bundle through the hole at nose", "mm", "two wires side by side", (),
        "Lies between 4.0 and 4.0 mm; counted are the wires on record."
        " At least: 1 more wire (W5) may lie here too, their way is not recorded.",
    )  # fmt: skip
    assert (found["nose"].perhaps, found["nose"].band, found["nose"].least_mm) == (("W5",), (4.0, 4.0), 4.0)
    assert (found["wall"].perhaps, found["wall"].diameter.value, found["wall"].diameter.key) == ((), 5.0, "wall.hole")


@pytest.mark.parametrize(("first", "second", "passing"), [("left", "right", "W1"), ("right", "left", "W3")])
def test_of_two_branches_with_as_many_wires_the_leg_that_is_written_first_is_meant(
    first: str, second: str, passing: str, tmp_path: Path
) -> None:
    worked = trunk(
        tmp_path,
        ("F2: {in: wall}", "F2: {in: nose}"),
        ("from: F1, to: lamp-left.1", f"from: F2, to: lamp-{first}.1"),
        ("from: FS2, to: lamp-right.1", f"from: F2, to: lamp-{second}.1"),
    )
    assert [wire.wire for wire in holes(worked)["nose"].wires] == [passing]


def test_a_hole_in_a_leg_that_was_not_measured_is_passed_by_the_wires_through_it(tmp_path: Path) -> None:
    found = holes(trunk(tmp_path, ("from: nose, to: left, length: 700 mm", "from: nose, to: left, length: unknown")))
    assert [wire.wire for wire in found["left"].wires] == ["W1"]
    assert [wire.wire for wire in found["nose"].wires] == ["W1", "W3"]


# ---- what a wire is thick -------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("wire", "mm"),
    [
        # SAE J1128 (computed, walls from memory): GPT and GXL 18 are 2.34 mm, cross-linked 14 is 2.97 mm
        ("size: 18 AWG, outside: 3.1 mm", 3.1),
        ("size: 18 AWG, outside: unknown, insulation: PVC", 2.34),
        ("size: 14 AWG, insulation: cross-linked", 2.97),
        ("size: 18 AWG, insulation: silicone", None),
        ("outside: 3.1 mm", 3.1),
    ],
)
def test_a_wire_is_as_thick_as_measured_else_as_its_table_says(wire: str, mm: float | None, tmp_path: Path) -> None:
    old = "W1: {size: 1.0 mm2, from: F1, to: lamp-left.1, outside: 2 mm}"
    assert figures(trunk(tmp_path, (old, f"W1: {{{wire}, from: F1, to: lamp-left.1}}")))["nose.left.0.diameter"] == mm


@pytest.mark.parametrize(
    ("usual", "offcut", "row", "told"),
    [
        # the row's own word before that of the offcut, that before the house method; what is unknown says nothing
        ("cross-linked", "cross-linked", "PVC", "GPT (PVC), nominal wall"),
        ("cross-linked", "PVC", "", "GPT (PVC), nominal wall"),
        ("cross-linked", "PVC", "unknown", "GPT (PVC), nominal wall"),
        ("PVC", "unknown", "unknown", "GPT (PVC), nominal wall"),
        ("PVC", "cross-linked", "", "GXL, between TXL and SXL"),
        ("unknown", "unknown", "", "GXL, between TXL and SXL; insulation not recorded"),
    ],
)
def test_whose_word_the_insulation_of_a_piece_is(usual: str, offcut: str, row: str, told: str, tmp_path: Path) -> None:
    said = f", insulation: {row}" if row else ""
    text = TRUNK.replace(
        "    job: Bundles",
        f'    job: Bundles\n    usual: {{insulation: {usual}}}\n    offcuts: {{O1: "BU 18 AWG 3 m, {offcut}"}}',
    )
    rows = f"""    changes:
      - {{id: C1, kind: add, wire: W9, from: F1, to: lamp-left.2, piece: BU 18 AWG from O1, cut: 2 m{said},
         made: 2031-05-03 AK}}
"""
    worked = work(tmp_path / "job", text + rows)
    (wire,) = [wire for s in worked.bundles.stations if s.key == "nose.left.0" for wire in s.wires if wire.wire == "W9"]
    assert wire.outside is not None
    assert wire.outside.source == f"SAE J1128 {told}"


# ---- where ends lie -------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("head", "runs"),
    [
        # the other end of a switch that lies at the right plug, in a connector of which nobody said where it is ...
        ("switches: {S1: {between: S.1 S.2, at: right}}", ["nose.right.0"]),
        # ... one whose own place is written lies there
        ("switches: {S1: {between: S.1 S.2, at: right}}\n    plugs: {S: {at: left}}", ["nose.left.0"]),
        # ... and a switch without a place tells nothing
        ("switches: {S1: {between: S.1 S.2}}", []),
        # of two contacts in one part the first that has a place
        ("switches: {S1: {between: S.1 S.2, at: right}, S2: {between: S.3 S.4, at: left}}", ["nose.right.0"]),
        ("switches: {S1: {between: S.3 S.4}, S2: {between: S.1 S.2, at: right}}", ["nose.right.0"]),
    ],
)
def test_a_wire_in_a_switch_ends_where_the_switch_is(head: str, runs: list[str], tmp_path: Path) -> None:
    text = proved(f"""
    job: One wire
    landmarks: {{nose: takeout, left: plug, right: plug}}
    route:
      - {{from: nose, to: left, length: 700 mm}}
      - {{from: nose, to: right, length: 500 mm}}
    fuses: {{F1: {{in: nose}}}}
    {head}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: S.2, length: 1 m}}
    """)
    worked = work(tmp_path, text)
    assert [s.key for s in worked.bundles.stations] == runs
    assert worked.bundles.off_route == (() if runs else ("W1",))


# ---- what is wrapped over it ----------------------------------------------------------------------------------------
def wrap(folder: Path, row: str, *changed: tuple[str, str], usual: str = "") -> Wrap:
    head = ("    job: Bundles", f"    job: Bundles\n    usual: {{{usual}}}")
    rows = f"    changes:\n      - {{id: C1, kind: cover, {row}, made: 2031-05-03 AK}}\n"
    (found,) = trunk(folder, head, *changed, rows=rows).bundles.wraps
    return found


def test_what_is_told_of_a_wrap_that_begins_and_ends_on_a_leg(tmp_path: Path) -> None:
    row = "from: 800 mm from wall towards left, to: 200 mm from nose towards left, cover: cloth tape"
    found = wrap(tmp_path, row, usual="tape width: 20 mm, tape overlap: 25 %")
    # the 100 mm before the nose, 4 mm thick (W1 and W3), and 200 mm behind it, 2 mm (W1)
    assert found.runs == ((1, 0.0, 100.0), (2, 0.0, 200.0))
    assert found.stations == ("nose.wall.0", "nose.left.0")
    assert found.tape is not None
    assert found.tape.value == pytest.approx(pi * (4 * 100 + 2 * 200) / (20 * 0.75))
    assert words(found.tape) == (
        "tape for C1", "mm", "tape wound on a bundle (geometry)", (),
        "At least: more wires may lie in it, their way is not recorded.",
    )  # fmt: skip
    assert inputs(found.tape) == {
        "run": (300.0, "mm", "row C1"),
        "width w": (20.0, "mm", "usual, tape width"),
        "overlap f": (25.0, "%", "usual, tape overlap"),
        "D nose.wall.0": (4.0, "mm", "nose.wall.0.diameter"),
        "D nose.left.0": (2.0, "mm", "nose.left.0.diameter"),
    }
    half = wrap(tmp_path / "half", row.replace("tape", "tape, half-lap").replace("cloth tape, half-lap",
                '"cloth tape, half-lap"'), usual="tape width: 20 mm, tape overlap: 25 %")  # fmt: skip
    assert half.tape is not None
    assert half.tape.value == pytest.approx(pi * (4 * 100 + 2 * 200) / (20 * 0.5))
    assert inputs(half.tape)["overlap f"] == (50.0, "%", "row C1")


@pytest.mark.parametrize(
    ("ends", "runs"),
    [
        ("from: nose, to: left", ((2, 0.0, 700.0),)),  # landmarks
        ("from: lamp-left.1, to: nose", ((2, 0.0, 700.0),)),  # the end of a wire
        ("from: FS1, to: FS2", ((1, 599.0, 600.0),)),  # two splices of one leg
        ("from: FS1, to: wall", ((1, 600.0, 900.0),)),
        ("from: FS3, to: nose", ((1, 0.0, 100.0),)),
        ("from: 100 mm from nose towards left, to: 100 mm from nose towards right",
         ((2, 0.0, 100.0), (3, 0.0, 100.0))),
        ("from: 250 mm from dash towards wall, to: 150 mm from nose towards left",  # a whole leg lies between
         ((0, 250.0, 600.0), (1, 0.0, 900.0), (2, 0.0, 150.0))),
        ("from: 150 mm from nose towards left, to: 250 mm from dash towards wall",
         ((0, 250.0, 600.0), (1, 0.0, 900.0), (2, 0.0, 150.0))),
        ("from: FS1", ()),
        ("from: 5 m from nose towards left, to: nose", ()),  # beyond the end of the leg
        ("from: nobody.1, to: nose", ()),
    ],
)  # fmt: skip
def test_where_a_wrap_lies(ends: str, runs: tuple[tuple[int, float, float], ...], tmp_path: Path) -> None:
    found = wrap(tmp_path, f"{ends}, cover: cloth tape half lapped", usual="tape width: 20 mm")
    assert set(found.runs) == set(runs)
    assert found.tape is not None
    beyond = bool(runs) and runs[0][0] == 0  # no wire on record lies between dash and wall
    assert found.tape.missing_words == (
        ("wires in a part of it",) if beyond else () if runs else ("places from and to",)
    )


def test_a_wrap_over_a_leg_that_was_not_measured_covers_what_runs_through_it(tmp_path: Path) -> None:
    unread = ("from: nose, to: left, length: 700 mm", "from: nose, to: left, length: unknown")
    found = wrap(tmp_path, "from: nose, to: left, cover: cloth tape half lapped", unread, usual="tape width: 20 mm")
    assert (found.runs, found.stations) == (((2, 0.0, None),), ("nose.left.0",))
    assert found.tape is not None
    assert (found.tape.value, found.tape.missing_words) == (None, ("length of a leg",))
    # from its far end no place on it is known, alone or with another
    for to in ("nose", "200 mm from left towards nose"):
        far = wrap(tmp_path / to, f"from: 100 mm from left towards nose, to: {to}, cover: tape", unread)
        assert far.runs == ()


@pytest.mark.parametrize(
    ("row", "usual", "missing"),
    [
        ("from: dash, to: nose, cover: tape half lapped", "tape width: 20 mm", ("wires in a part of it",)),
        ("from: wall, to: nose, cover: tape", "tape width: 20 mm, tape overlap: 100 %",
         ("a width and overlap that make a turn",)),
        ("from: wall, to: nose, cover: tape", "tape width: 20 mm, tape overlap: 99 %", ()),
    ],
)  # fmt: skip
def test_why_tape_is_not_told(row: str, usual: str, missing: tuple[str, ...], tmp_path: Path) -> None:
    found = wrap(tmp_path, row, usual=usual).tape
    assert found is not None
    assert (found.missing_words, found.value is None) == (missing, bool(missing))


def test_of_two_rows_of_one_number_the_first_covers(tmp_path: Path) -> None:
    made = "cover: cloth tape half lapped, made: 2031-05-03 AK}"
    rows = (
        f"    changes:\n      - {{id: C1, kind: cover, from: nose, to: right, {made}\n"
        f"      - {{id: C1, kind: cover, from: nose, to: left, {made}\n"
        f"      - {{id: C2, kind: cover, from: wall, to: nose, {made}\n"
    )
    assert [(found.row, found.runs) for found in trunk(tmp_path, rows=rows).bundles.wraps] == [
        ("C1", ((3, 0.0, 500.0),)),
        ("C2", ((1, 0.0, 900.0),)),
    ]


def test_a_conduit_has_its_bore_and_a_sleeve_has_none(tmp_path: Path) -> None:
    found = wrap(tmp_path, 'from: nose, to: left, cover: "split Conduit, 20 mm"', usual="tape width: 20 mm")
    assert (found.row, found.cover, found.bore_mm, found.tape) == ("C1", "split Conduit, 20 mm", 20.0, None)
    sleeve = wrap(tmp_path / "sleeve", "from: nose, to: left, cover: braided sleeve 20 mm")
    assert (sleeve.bore_mm, sleeve.tape) == (None, None)

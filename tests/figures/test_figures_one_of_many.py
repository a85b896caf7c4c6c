"""Opinions on a fuse, insulation, fusible links, rings, other cars: of many wires, rows, loads the one that counts."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.figures.test_figures_protection import NOSE
from tests.findings.jobs import copper_alone, figure, proved, work

from aswired.car.insulation import insulation_of
from aswired.figures.electric import transfer_of
from aswired.figures.links import gauge_numbers, protects
from aswired.figures.rings import ring_currents
from aswired.figures.variants import Variant, variants
from aswired.figures.ways_home import Carrying, divided, grounds_of, returns_of
from aswired.network.grid import Branch
from aswired.physics.figure import Figure
from aswired.record import Job
from aswired.text.units import Size


def given(of: Figure) -> dict[str, float | str | None]:
    return {each.name: each.value for each in of.inputs}


def told(of: Figure, name: str) -> str:
    (found,) = [each.source for each in of.inputs if each.name == name]
    return found


# ---- second opinions ------------------------------------------------------------------------------------------------
# From the bulkhead to the mid W1, W2 and all of TRUNK; on to the nose W1, W2 and the two of the horn, of which one
# carries nothing. So of the two runs the first has more that carry, whichever stands first in the file.
TRUNK = "".join(
    f"      W{n}: {{size: 1.5 mm2, from: {a}, to: {b}, length: 1 m}}\n"
    for n, (a, b) in enumerate([("F2", "bell.1"), ("bell.2", "L1"), ("F2", "fan.1"), ("fan.2", "L1")], 10)
)
RUNS = NOSE.replace("nose: takeout", "nose: takeout, mid: clip")
RUNS = RUNS.replace("W5: {size: 0.5 mm2", "W6: {size: 0.5 mm2, from: unit.2, to: sensor.2}\n      W5: {size: 0.5 mm2")
RUNS = RUNS.replace("    loads:", f"{TRUNK}    loads:\n      bell: {{between: bell.1 bell.2, draws: 1 A}}\n"
                    "      fan: {between: fan.1 fan.2, draws: 1 A, verdict: VERDICT}")  # fmt: skip
RUNS = RUNS.replace("plugs: {", "plugs: {bell: {at: mid}, fan: {at: mid}, ")
LEG = "{from: bulkhead, to: nose, length: 1000 mm, zone: wet}"
FIRST, SECOND = "{from: bulkhead, to: mid, length: 600 mm}", "{from: mid, to: nose, length: 400 mm}"


@pytest.mark.parametrize("legs", [f"{FIRST}, {SECOND}", f"{SECOND}, {FIRST}"])
@pytest.mark.parametrize(
    ("verdict", "carrying", "factor", "more"),
    # W1 to W4 and the four of bell and fan make eight of which the sensor's W5 and W6 are none: 0.5 (note 2, read).
    # With the fan deleted its two carry nothing: six, 0.6, and four more lie there.
    [("kept", "8", 0.5, 2), ("deleted", "6", 0.6, 4)],
)
def test_the_bundle_counts_where_most_wires_that_carry_lie_together(
    legs: str, verdict: str, carrying: str, factor: float, more: int, tmp_path: Path
) -> None:
    assert RUNS.count(LEG) == 1
    bundled = figure(work(tmp_path, RUNS.replace(LEG, legs).replace("VERDICT", verdict)), "F1.cfr.bundled")
    assert (given(bundled)["wires that carry current"], given(bundled)["bundle"]) == (carrying, factor)
    assert told(bundled, "wires that carry current") == (
        f"by traced loads, {more} more lie there with no traced current"
    )
    assert bundled.value == pytest.approx(25 * factor)


def test_where_every_wire_of_the_bundle_carries_nothing_more_is_told(tmp_path: Path) -> None:
    lines = [line for line in NOSE.splitlines(keepends=True) if "W5:" not in line]
    bundled = figure(work(tmp_path, "".join(lines)), "F1.cfr.bundled")
    assert told(bundled, "wires that carry current") == "by traced loads"
    assert bundled.missing_words == ()


def test_insulation_colder_than_any_column_is_not_judged_whatever_else_is_missing(tmp_path: Path) -> None:
    """50 C lies below the first column, 60 C: no way of the wire and no bundle would make a number."""
    text = NOSE.replace("job: Nose", "job: Nose\n    limits: {heat of PVC: 50 C}").replace(
        "lamp: {at: nose}", "lamp: {}"
    )
    alone = figure(work(tmp_path, text), "F1.cfr")
    assert (alone.value, alone.missing_words) == (None, ())
    assert alone.note.startswith("Not judged: the table has no column for insulation good to 50 C.")
    assert figure(work(tmp_path / "b", text), "F1.cfr.bundled").missing_words == ()


def test_a_size_below_the_table_is_not_judged_whatever_else_is_missing(tmp_path: Path) -> None:
    text = NOSE.replace("14 AWG, insulation: PVC", "0.75 mm2").replace("lamp: {at: nose}", "lamp: {}")
    worked = work(tmp_path, text)
    alone, bundled = figure(worked, "F1.cfr"), figure(worked, "F1.cfr.bundled")
    assert (alone.value, alone.missing_words, bundled.value, bundled.missing_words) == (None, (), None, ())


def test_the_parts_of_an_opinion_say_where_each_was_had(tmp_path: Path) -> None:
    worked = work(tmp_path, NOSE.replace("zone: wet", "zone: hot, hottest: unknown"))
    alone = figure(worked, "F1.cfr")
    assert [(one.name, one.value, one.unit, one.source) for one in alone.inputs] == [
        ("wire", "14 AWG", "", "W1 from F1 to lamp.1"),
        ("row", "row 14 AWG", "", "33 CFR 183.425 Table 5"),
        ("insulation", "PVC", "", "recorded, good to 85 C (heat of PVC)"),
        ("column", 80, "C", "next lower of the table"),
        ("table", 25, "A", "read"),
        ("engine space", 0.78, "", "note 1 of the table: hot from bulkhead to nose"),  # how hot was not measured
    ]
    assert alone.name == "33 CFR 183.425 lets W1 carry, by itself"
    assert figure(worked, "F1.cfr.bundled").name == "33 CFR 183.425 lets W1 carry, in its bundle"
    faa = figure(worked, "F1.faa")
    # AC 43.13-1B Table 11-3 (read): a fuse of 15 A with 14 AWG, where its breaker is 20 A
    assert (faa.name, faa.value, faa.missing_words) == ("fuse that AC 43.13-1B sets for W1", 15, ())
    unread = figure(work(tmp_path / "b", NOSE.replace("size: 14 AWG", "size: unknown")), "F1.faa")
    assert (unread.name, unread.value) == ("fuse that AC 43.13-1B sets for the thinnest wire behind F1", None)
    assert (unread.missing_words, unread.inputs) == (("size of a wire it protects",), ())


def test_insulation_that_nobody_recorded_is_no_word_in_the_list(tmp_path: Path) -> None:
    alone = figure(work(tmp_path, NOSE.replace(", insulation: PVC", "")), "F1.cfr")
    assert [(one.value, one.source) for one in alone.inputs if one.name == "insulation"] == [(None, "")]
    assert given(alone)["column"] is None
    assert given(alone)["engine space"] is None


def test_of_two_hot_legs_one_that_was_not_measured_hides_nothing(tmp_path: Path) -> None:
    hot = "{from: bulkhead, to: mid, length: 600 mm, zone: hot}", "{from: mid, to: nose, length: 400 mm, hottest: 70 C}"
    for legs in (hot, hot[::-1]):
        text = RUNS.replace("VERDICT", "kept").replace(LEG, ", ".join(legs))
        said = told(figure(work(tmp_path / legs[0][7:10], text), "F1.cfr"), "engine space")
        assert said.endswith("; it gets 70 C, the note counts with 50 C")


# ---- insulation -----------------------------------------------------------------------------------------------------
PIECES = """
    job: Insulation
    usual: {joint: "lap, soldered", overlap: 10 mm, slack: 0 mm, SHOP}
    offcuts: {O1: "BU 1.0 mm2 2 m, silicone", O2: BU 1.0 mm2 2 m}
    wires:
      W1: {colour: BU, size: 1.0 mm2, insulation: PVC, from: u.1, to: lamp.1, length: 1 m}
    changes:
      - id: C1
        kind: extend
        wire: W1
        plug: lamp
        pigtail: 100 mm
        gap: 200 mm
        piece: BU 1.0 mm2FROM
        cover: adhesive sleeve 40 mmROW
"""


@pytest.mark.parametrize(
    ("shop", "from_", "row", "found", "line"),
    [
        ("insulation: cross-linked", "", "", "cross-linked", 14),
        ("slack: 0 mm", "", "", "", 14),
        ("insulation: cross-linked", " from O1", "", "silicone", 14),  # an offcut is no new wire
        ("insulation: cross-linked", " from O2", "", "", 14),
        ("insulation: cross-linked", " from O1", "\n        insulation: fluoropolymer", "fluoropolymer", 16),
    ],
)
def test_a_piece_has_the_insulation_of_its_row_else_of_its_offcut_else_of_the_shop(
    shop: str, from_: str, row: str, found: str, line: int, tmp_path: Path
) -> None:
    text = PIECES.replace(", SHOP", "" if "slack" in shop else f", {shop}").replace("FROM", from_).replace("ROW", row)
    worked = work(tmp_path, text)
    by_origin = {s.origin: insulation_of(worked.job, s) for s in worked.plan.of_wire("W1")}
    assert set(by_origin) == {"", "C1"}
    assert by_origin[""][0] == "PVC"  # the donor's own wire on either side of it
    assert by_origin[""][1].line == 5
    assert (by_origin["C1"][0], by_origin["C1"][1].line) == (found, line - 1)


# ---- fusible links --------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("link", "wire", "numbers"),
    [
        (("AWG", 20), ("AWG", 16), 4),
        (("AWG", 16), ("AWG", 20), -4),
        (("mm2", 1.0), ("mm2", 2.5), 4),
        (("mm2", 2.5), ("mm2", 1.0), -4),
        # 1.0 mm2 against 14 AWG of SAE J1128, 1.85 mm2 (from memory): ln 1.85 / ln 1.261 = 2.65
        (("mm2", 1.0), ("AWG", 14), 3),
        (("AWG", 14), ("mm2", 1.0), -3),
        ((None, None), ("AWG", 16), None),
        (("AWG", 16), (None, None), None),
        # no table of wire for cars has 13 AWG: between two gauges the numbers tell, against square millimetres nothing
        (("AWG", 13), ("AWG", 9), 4),
        (("AWG", 13), ("mm2", 2.5), None),
        (("mm2", 1.0), ("AWG", 13), None),
    ],
)
def test_a_link_is_thinner_by_gauge_numbers(
    link: tuple[str | None, float | None], wire: tuple[str | None, float | None], numbers: int | None
) -> None:
    job = Job(job="Link")
    assert gauge_numbers(Size("", *link), Size("", *wire), job) == numbers


def test_a_link_protects_what_the_wire_list_and_the_row_that_put_it_in_say(tmp_path: Path) -> None:
    text = """
    job: Links
    wires:
      K1: {size: 1.0 mm2, from: B1, to: FS1, special: fusible link, protects: [W5, W6]}
      W5: {size: 2.5 mm2, from: FS1, to: u.1}
      W6: {size: 2.5 mm2, from: FS1, to: u.2}
      W7: {size: 2.5 mm2, from: FS1, to: u.3}
    changes:
      - {id: C1, kind: add, wire: K2, from: B1, to: FS1, piece: BK 1.0 mm2, cut: 150 mm, special: fusible link}
      - {id: C2, kind: add, wire: K3, from: B1, to: FS1, piece: BK 1.0 mm2, cut: 150 mm, special: fusible link,
         protects: [W7, W5]}
    """
    job = work(tmp_path, text).job
    assert [protects(job, link) for link in ("K1", "K2", "K3", "W5")] == [("W5", "W6"), (), ("W7", "W5"), ()]


# ---- rings on a stud ------------------------------------------------------------------------------------------------
STUD = """
    job: Rings
    usual: {ring strip: 6 mm, slack: 0 mm}
    fuses: {F1: {rating: 20 A, fed: always}, F2: {rating: 20 A, fed: always}}
    splices: {FS1: {}}
    grounds: {L1: {stud: M6, back to: battery-}, L2: {back to: battery-}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: left.1, length: 1 m}
      W2: {size: 1.0 mm2, from: F2, to: right.1, length: 1 m}
      W3: {size: 1.0 mm2, from: left.2, to: FS1, length: 1 m}
      W4: {size: 1.0 mm2, from: right.2, to: FS1, length: 1 m}
      W5: {size: 1.0 mm2, from: FS1, to: L1, length: 1 m}
    loads:
      left: {between: left.1 left.2, draws: 4 A}
      right: {between: right.1 right.2, draws: 6 A}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""


@pytest.mark.parametrize(
    ("old", "new", "least_a", "whole"),
    [
        ("", "", 10, True),  # both behind the splice
        ("draws: 6 A", "draws: unknown", 4, False),
        ("draws: 4 A", "draws: unknown", 6, False),
        ("draws: 6 A", "draws: 6 A, verdict: deleted", 4, True),
        # something else hangs on the splice of which nobody knows what it brings
        ("    loads:", "      W6: {size: 1.0 mm2, from: FS1, to: unknown, length: 1 m}\n    loads:", 10, False),
        ("    loads:", "      W6: {size: 1.0 mm2, from: FS1, to: L2, length: 1 m}\n    loads:", 10, False),
        ("    loads:", "      W6: {size: 1.0 mm2, from: FS1, to: F2, length: 1 m}\n    loads:", None, False),
    ],
)
def test_a_ring_carries_what_every_load_behind_it_sends_there(
    old: str, new: str, least_a: float | None, whole: bool, tmp_path: Path
) -> None:
    worked = work(tmp_path, STUD.replace(old, new) if old else STUD)
    (point,) = [ground for ground in worked.grounds if ground.name == "L1"]
    (found,) = ring_currents(worked.job, worked.shown, worked.circuits, "L1", point.rings)
    assert found.whole is whole
    if least_a is not None:
        assert found.least_a == least_a


# ---- the ways home of a load ----------------------------------------------------------------------------------------
TWO_WAYS = copper_alone(
    proved("""
    job: Two ways home
    supply: 12 V
    body returns: no
    fuses: {F1: {rating: 30 A, fed: always}}
    splices: {FS1: {}}
    grounds:
      L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 1 m}
      L3: {back to: battery-, cable: 10 mm2, cable length: 2 m}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: fan.1, length: 1 m}
      W2: {size: 2.5 mm2, from: fan.2, to: FS1, length: 1 m}
      W3: {size: 1.0 mm2, from: FS1, to: L1, length: 1 m}
      W4: {size: 1.0 mm2, from: FS1, to: L2, length: 1 m}
      W5: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}
      W6: {size: 1.0 mm2, from: lamp.2, to: L3, length: 2 m}
    loads: {fan: {between: fan.1 fan.2, draws: 20 A}, lamp: {between: lamp.1 lamp.2, draws: 2 A}}
""")
)


def test_the_wires_of_a_return_carry_their_shares_in_the_direction_of_the_current(tmp_path: Path) -> None:
    """Both ways are 18.5 mohm of wire and 1.82 of cable: each has half of the 20 A."""
    worked = work(tmp_path, TWO_WAYS)
    transfer = transfer_of(worked.job, worked.shown, worked.circuits)
    carried = {one.name: one for one in returns_of("fan", transfer, 20.0)}
    assert {name: (one.start, one.end, one.amps) for name, one in carried.items()} == {
        "W2": ("fan.2", "FS1", pytest.approx(20)),
        "W3": ("FS1", "L1", pytest.approx(10)),
        "W4": ("FS1", "L2", pytest.approx(10)),
        "L1 to battery-": ("L1", "battery-", pytest.approx(10)),
        "L2 to battery-": ("L2", "battery-", pytest.approx(10)),
    }
    assert {name: (one.length_mm, one.planned_a) for name, one in carried.items()} == {
        "W2": (1000, 20),  # planning ratings of 2.5, 1.0 and 10 mm2
        "W3": (1000, 10),
        "W4": (1000, 10),
        "L1 to battery-": (1000, 60),
        "L2 to battery-": (1000, 60),
    }
    assert (divided("fan", transfer), divided("lamp", transfer)) == (True, False)
    assert grounds_of("fan", "L2", transfer) == ("L2", "L1")  # the one of its traced way first
    assert grounds_of("fan", "", transfer) == ("L1", "L2")
    assert grounds_of("lamp", "L3", transfer) == ("L3",)


def test_without_its_current_the_wires_of_a_return_are_named_all_the_same(tmp_path: Path) -> None:
    worked = work(tmp_path, TWO_WAYS.replace("10 mm2", "unknown"))
    transfer = transfer_of(worked.job, worked.shown, worked.circuits)
    found = returns_of("lamp", transfer, None)
    assert [(one.name, one.start, one.end, one.amps, one.overloaded) for one in found] == [
        ("W6", "lamp.2", "L3", None, False),
        ("L3 to battery-", "L3", "battery-", None, False),
    ]


@pytest.mark.parametrize(
    ("amps", "planned_a", "overloaded"),
    [(10.0, 10.0, False), (10.1, 10.0, True), (9.9, 10.0, False), (None, 10.0, False), (10.0, None, False)],
)
def test_a_wire_is_overloaded_above_its_planning_rating(
    amps: float | None, planned_a: float | None, overloaded: bool
) -> None:
    branch = Branch("cable L1 to battery-", "cable", "L1 to battery-", "L1", "battery-", ())
    assert Carrying(branch, None, None, None, "L1", "battery-", amps, None, planned_a).overloaded is overloaded


# ---- other cars of the recipe ---------------------------------------------------------------------------------------
CARS = """
    job: Recipe
    supply: 12 V
    options: {steering: {is: left, could be: [left, right, middle]}, roof: {is: soft, could be: [hard, soft]}}
    fuses: {F1: {rating: 30 A, fed: always}, F2: {rating: 5 A, fed: always}}
    loads:
      fan: {between: fan.1 fan.2, draws: 6 A, class: motor, not with: [pump]}
      pump: {between: pump.1 pump.2, draws: 4 A, class: pump}
      glow: {between: glow.1 glow.2, draws: 1 A, class: other}
      dark: {between: dark.1 dark.2, draws: 1 A, class: other}
    grounds:
      L1: {cable: 1.0 mm2, cable length: 1 m, back to: battery-}
      L2: {cable: 1.0 mm2, cable length: 2 m, back to: battery-}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: fan.1, length: 1 m}
      W2: {size: 2.5 mm2, from: fan.2, to: L1, length: 1 m}
      W3: {size: 2.5 mm2, from: F2, to: glow.1, length: 1 m}
      W4: {size: 2.5 mm2, from: glow.2, to: L2, length: 1 m}
      W5: {size: 2.5 mm2, from: F1, to: pump.1, length: 1 m}
      W6: {size: 2.5 mm2, from: pump.2, to: L2, length: 1 m}
      W7: {size: 2.5 mm2, from: F2, to: dark.1}
      W8: {size: 2.5 mm2, from: dark.2, to: L2, length: 1 m}
    changes:
      - {id: C1, kind: ground, wire: W2, end: L1, to: L2, ring: "new, M8", only if: steering is right}
"""


def cars(folder: Path, text: str = CARS) -> tuple[Variant, ...]:
    worked = work(folder, copper_alone(text).replace("usual: {", "usual: {ring strip: 0 mm, "))
    return variants(worked.job, worked.plan)


def test_a_load_is_compared_with_all_on_that_can_be_on_together(tmp_path: Path) -> None:
    """The fan takes more than the pump it is never on with, so that all on is fan, glow and dark.

    The middle one and the hard roof differ in nothing, and are not told.
    """
    (car,) = cars(tmp_path)
    assert (car.option, car.value) == ("steering", "right")
    here = {one.load: one.here for one in car.loads}
    # of `dark`, whose drop is known in neither, nothing is told; the pump is never on with what moves
    assert list(here) == ["fan", "glow"]
    glow = car.loads[1]
    assert glow.here is not None
    assert glow.there is not None
    # 1 A over 2 m of 7.6 mohm/m; over the 37 mohm of L2 its own and dark's 1 A, there the fan's 6 A besides
    assert glow.here.drop.value == pytest.approx(0.0152 + 2 * 0.037)
    assert glow.there.drop.value == pytest.approx(0.0152 + 8 * 0.037)
    assert (glow.here.current, glow.here.fuses, glow.here.ground) == (1, ("F2",), "L2")


def test_a_load_of_the_other_car_only_is_told_there(tmp_path: Path) -> None:
    text = CARS.replace("draws: 1 A, class: other}", "draws: 1 A, class: other, for: steering is middle}", 1)
    cars_of = {car.value: car for car in cars(tmp_path, text)}
    assert set(cars_of) == {"right", "middle"}
    (glow,) = [one for one in cars_of["middle"].loads if one.load == "glow"]
    assert glow.here is None
    assert glow.there is not None
    assert glow.there.ground == "L2"

"""The network of a view: what is gathered into one run and what is not, and what each run has, by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.network.grid import PLACEHOLDER_MOHM, Grid, Run
from tests.findings.jobs import copper_alone, proved, work


def grid(folder: Path, text: str) -> Grid:
    worked = work(folder, proved(text))
    return Grid(worked.job, worked.shown)


def run(found: Grid, a: str, b: str) -> Run:
    """The one run between two nodes, whichever way round it lies."""
    (only,) = [run for run in found.runs if {run.a, run.b} == {a, b}]
    return only


def parts(found: Run) -> list[str]:
    """What a run is made of: wires by their name, the rest by their key."""
    return [branch.name.split()[0] if branch.kind == "stretch" else branch.key for branch in found.branches]


# ISO 6722-1 (from memory): 1.0 mm2 18.5, 2.5 mm2 7.6, 10 mm2 1.82 mohm/m
LINE = """
    job: One line
    body returns: no
    fuses: {F1: {rating: 10 A, fed: ignition}}
    plugs: {bulkhead: {in line: yes}}
    switches: {S: {between: s.1 s.2}}
    splices: {FS1: {}, FS2: {}}
    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: FS1, length: 1 m}
      W2: {size: 1.0 mm2, from: FS1, to: s.1, length: 2 m}
      W3: {size: 1.0 mm2, from: s.2, to: bulkhead.4, length: 1 m}
      W4: {size: 1.0 mm2, from: bulkhead.4, to: lamp.1, length: 3 m}
      W5: {size: 1.0 mm2, from: lamp.2, to: FS2, length: 1 m}
      W6: {size: 1.0 mm2, from: FS2, to: L1, length: 1 m}
      W7: {size: 1.0 mm2, from: horn.2, to: FS2, length: 1 m}
      W8: {size: 1.0 mm2, from: F1, to: horn.1, length: 1 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A}
      horn: {between: horn.1 horn.2, draws: 4 A}
"""


def test_a_splice_of_two_wires_is_passed_and_nothing_else_is(tmp_path: Path) -> None:
    found = grid(tmp_path, LINE)
    assert {frozenset((run.a, run.b)): sorted(parts(run)) for run in found.runs} == {
        frozenset(("F1.feed", "F1")): ["fuse F1"],
        frozenset(("F1", "s.1")): ["W1", "W2"],  # through FS1
        frozenset(("s.1", "s.2")): ["switch S"],
        frozenset(("s.2", "bulkhead.4")): ["W3"],  # a meter gets to the cavity
        frozenset(("bulkhead.4", "lamp.1")): ["W4"],
        frozenset(("lamp.2", "FS2")): ["W5"],  # three wires meet in FS2
        frozenset(("FS2", "L1")): ["W6"],
        frozenset(("horn.2", "FS2")): ["W7"],
        frozenset(("F1", "horn.1")): ["W8"],
        frozenset(("L1", "battery-")): ["cable L1 to battery-"],
    }
    assert run(found, "s.1", "s.2").switch == "S"
    assert [run.switch for run in found.runs if run.switch] == ["S"]
    assert found.sources == {"F1.feed": "ignition"}


def test_a_run_lists_its_branches_in_order_and_adds_them_up(tmp_path: Path) -> None:
    found = grid(tmp_path, LINE)
    feed = run(found, "F1", "s.1")
    assert parts(feed) == (["W1", "W2"] if feed.a == "F1" else ["W2", "W1"])
    # W1 7.6, half of FS1 0.5; W2 37, the other half, the switch's cavity 4
    assert feed.mohm == pytest.approx(7.6 + 0.5 + 0.5 + 37 + 4)
    # a mated pair whose two wires end in it counts once, half to either side
    assert run(found, "s.2", "bulkhead.4").mohm == pytest.approx(4 + 18.5 + 2)
    assert run(found, "bulkhead.4", "lamp.1").mohm == pytest.approx(2 + 3 * 18.5 + 4)
    assert run(found, "FS2", "L1").mohm == pytest.approx(0.5 + 18.5 + 1.5)
    assert run(found, "L1", "battery-").mohm == pytest.approx(1.82 + 1.5)  # the cable has a ring on the stud too
    assert run(found, "F1.feed", "F1").mohm == pytest.approx(7.7)
    assert run(found, "s.1", "s.2").mohm == pytest.approx(20)
    assert not any(run.unknown for run in found.runs)


def test_a_switch_let_into_a_wire_is_a_run_of_its_own(tmp_path: Path) -> None:
    # its two ends are in no plug: without the switch they would be passed
    text = LINE.replace("s.1", "FS7").replace("s.2", "FS8")
    found = grid(tmp_path, text)
    assert parts(run(found, "FS7", "FS8")) == ["switch S"]
    assert parts(run(found, "FS8", "bulkhead.4")) == ["W3"]
    assert sorted(parts(run(found, "F1", "FS7"))) == ["W1", "W2"]


def test_a_run_has_a_band(tmp_path: Path) -> None:
    feed = run(grid(tmp_path / "table", LINE), "F1", "s.1")
    # wires 44.6 mohm within a tenth; one joint 0.2 to 2, one cavity 3 to 5
    assert feed.low == pytest.approx(44.6 * 0.9 + 0.2 + 3)
    assert feed.high == pytest.approx(44.6 * 1.1 + 2 + 5)
    assert feed.worst == pytest.approx(feed.high)  # no leg of it is marked hot
    fuse = run(grid(tmp_path / "fuse", LINE), "F1.feed", "F1")
    assert (fuse.low, fuse.high) == pytest.approx((7.7 * 0.8, 7.7 * 1.43 * 1.2))
    # what the job states is within a half of itself, or as near as its limits say
    said = LINE.replace("    body", "    usual: {joint resistance: 0.6 mohm, cavity resistance: 2 mohm}\n    body")
    feed = run(grid(tmp_path / "stated", said), "F1", "s.1")
    assert (feed.low, feed.high) == pytest.approx((44.6 * 0.9 + 1.3, 44.6 * 1.1 + 3.9))
    near = said.replace("    body", "    limits: {band of wire: 5 %, band of allowances: 20 %}\n    body")
    feed = run(grid(tmp_path / "near", near), "F1", "s.1")
    assert (feed.low, feed.high) == pytest.approx((44.6 * 0.95 + 2.6 * 0.8, 44.6 * 1.05 + 2.6 * 1.2))


def test_at_worst_a_wire_is_as_hot_as_its_hottest_leg(tmp_path: Path) -> None:
    worked = work(tmp_path, proved(LINE))
    (hot,) = [index for index, stretch in enumerate(worked.shown.stretches) if stretch.wire == "W4"]
    found = run(Grid(worked.job, worked.shown, {hot: 105.0}), "bulkhead.4", "lamp.1")
    # copper: (234.5 + 105) / (234.5 + 20) = 1.33399 (AC 43.13-1B para 11-66, read); half a cavity and a whole one at 5
    assert found.worst == pytest.approx(3 * 18.5 * 1.1 * 339.5 / 254.5 + 7.5)
    assert found.high == pytest.approx(3 * 18.5 * 1.1 + 7.5)
    # a leg colder than the figures are for takes nothing off
    cold = run(Grid(worked.job, worked.shown, {hot: -20.0}), "bulkhead.4", "lamp.1")
    assert cold.worst == pytest.approx(cold.high)
    cable = run(Grid(worked.job, worked.shown, {"L1": 105.0}), "L1", "battery-")
    assert cable.worst == pytest.approx(1.82 * 1.1 * 339.5 / 254.5 + 2)  # and its ring at 2


def test_a_ring_of_wires_with_no_end_is_kept_as_a_run(tmp_path: Path) -> None:
    text = copper_alone(LINE).replace(
        "    loads:",
        "      W9: {size: 1.0 mm2, from: FS8, to: FS9, length: 1 m}\n"
        "      W10: {size: 1.0 mm2, from: FS9, to: FS8, length: 2 m}\n    loads:",
    )
    found = grid(tmp_path, text)
    assert sorted(branch.key for run in found.runs for branch in run.branches) == sorted(found.by_key)
    (ring,) = [run for run in found.runs if "W9" in parts(run)]
    assert sorted(parts(ring)) == ["W10", "W9"]
    assert ring.mohm == pytest.approx(3 * 18.5)


# ---- what is not recorded -------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("fact", "instead", "ends", "copper", "named"),
    [
        ("to: FS1, length: 1 m", "to: FS1", ("F1", "s.1"), 37.0, "W1 from F1 to FS1: length not recorded"),
        ("W1: {size: 2.5 mm2", "W1: {size: unknown", ("F1", "s.1"), 37.0, "W1 from F1 to FS1: size unknown"),
        ("cable: 10 mm2, ", "", ("L1", "battery-"), 0.0, "cable L1 to battery-: cable size not recorded"),
        ("rating: 10 A", "rating: unknown", ("F1.feed", "F1"), 0.0, "fuse F1: its rating is not recorded"),
    ],
)
def test_what_is_not_recorded_is_named_and_has_a_placeholder(
    fact: str, instead: str, ends: tuple[str, str], copper: float, named: str, tmp_path: Path
) -> None:
    # a fuse of unknown rating has a resistance where `usual:` states it for all, so it is left out there
    text = copper_alone(LINE).replace(", fuse resistance: 0 mohm", "")
    assert text.count(fact) == 1
    found = grid(tmp_path, text.replace(fact, instead))
    unread = run(found, *ends)
    assert unread.mohm == pytest.approx(copper + PLACEHOLDER_MOHM)
    assert tuple(map(str, unread.unknown)) == (named,)
    assert [run for run in found.runs if run.unknown] == [unread]


@pytest.mark.parametrize(("body", "kept"), [("unknown", True), ("yes", True), ("no", False)])
def test_a_ground_without_a_cable_goes_back_through_the_body_unless_that_carries_nothing(
    body: str, kept: bool, tmp_path: Path
) -> None:
    text = LINE.replace("body returns: no", f"body returns: {body}").replace(
        "{back to: battery-, cable: 10 mm2, cable length: 1 m}", "{stud: M6}"
    )
    found = grid(tmp_path, text)
    assert ("body L1" in found.by_key) is kept
    if kept:
        assert [str(lack) for lack in run(found, "L1", "battery-").unknown] == ["the way back from L1: not recorded"]


@pytest.mark.parametrize("fact", ["gone: yes", 'conducts: "no"'])
def test_a_ground_point_that_left_the_car_or_carries_nothing_leads_nowhere(fact: str, tmp_path: Path) -> None:
    found = grid(tmp_path, LINE.replace("L1: {back to", f"L1: {{{fact}, back to"))
    assert not any("battery-" in (run.a, run.b) for run in found.runs)


# ---- modules --------------------------------------------------------------------------------------------------------
MODULE = """
    job: Control unit
    body returns: no
    fuses: {F9: {rating: 10 A, fed: always}}
    modules: {unit: {out: {14: switched feed}, ground: [31]}}
    wires:
      W1: {size: 1.0 mm2, from: unit.14, to: lamp.1, length: 1 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: unit.31, length: 1 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
"""


def test_a_module_feeds_and_grounds_without_a_resistance_of_its_own(tmp_path: Path) -> None:
    found = grid(tmp_path, MODULE)
    assert found.sources == {"F9.feed": "always", "unit.14": "module"}
    inside = run(found, "unit.31", "battery-")
    assert (inside.mohm, inside.unknown) == (0, ())
    assert run(found, "lamp.2", "unit.31").mohm == pytest.approx(4 + 18.5 + 4)


@pytest.mark.parametrize("lamp_to", ["unit.31", "battery-"])
def test_a_module_that_is_itself_a_load_returns_by_its_wire(lamp_to: str, tmp_path: Path) -> None:
    text = MODULE.replace("to: unit.31", f"to: {lamp_to}").replace(
        "loads: {", "loads: {unit: {between: unit.30 unit.31, draws: 1 A}, "
    )
    text = text.replace(
        "    loads:",
        "      W3: {size: 1.0 mm2, from: F9, to: unit.30, length: 1 m}\n"
        "      W4: {size: 1.0 mm2, from: unit.31, to: battery-, length: 2 m}\n    loads:",
    )
    found = grid(tmp_path, text)
    assert "module unit.31" not in found.by_key
    if (
        lamp_to == "unit.31"
    ):  # its two wires meet in one terminal, and the module's own current alone passes its contact
        assert parts(run(found, "unit.31, wires", "battery-")) == ["W4"]
        assert parts(run(found, "unit.31, wires", "unit.31")) == ["pair unit.31"]
    else:
        assert parts(run(found, "unit.31", "battery-")) == ["W4"]


# ---- what was measured ----------------------------------------------------------------------------------------------
def measured(folder: Path, *readings: str, fact: str = "", instead: str = "") -> Grid:
    lines = "".join(f"      - {{id: R{number}, {line}}}\n" for number, line in enumerate(readings, 1))
    text = LINE.replace(fact, instead) if fact else LINE
    return grid(folder, text + "    readings:\n" + lines)


@pytest.mark.parametrize(
    ("ends", "reading", "mohm", "low", "high"),
    [
        # half a digit is 0.5 mohm either way; a twentieth, 0.6 mohm, is more
        (("F1.feed", "F1"), "red: F1.feed, black: F1, read: 0.012 ohm", 12.0, 11.4, 12.6),
        # 30 mV / 5 A; 29.5 mV / 5.5 A and 30.5 mV / 4.5 A
        (("F1.feed", "F1"), "red: F1, black: F1.feed, read: 0.030 V, through: 5 A", 6.0, 29.5 / 5.5, 30.5 / 4.5),
        (("s.1", "s.2"), "red: s.1, black: s.2, read: 0.05 V, through: 4 A", 12.5, 45 / 4.5, 55 / 3.5),
        (("L1", "battery-"), "red: L1, black: battery-, read: 0.02 V, through: 8.0 A", 2.5, 15 / 8.05, 25 / 7.95),
    ],
)
def test_a_reading_right_across_a_part_counts_in_place_of_its_allowance(
    ends: tuple[str, str], reading: str, mohm: float, low: float, high: float, tmp_path: Path
) -> None:
    found = run(measured(tmp_path, reading), *ends)
    assert found.mohm == pytest.approx(mohm)
    assert (found.low, found.high, found.worst) == pytest.approx((low, high, high))
    (part,) = found.branches[0].parts
    assert part.source.startswith("measured: 0.0")
    assert "(R1)" in part.source


def test_the_reading_of_the_last_day_counts_whatever_their_order(tmp_path: Path) -> None:
    first = "red: F1.feed, black: F1, read: 0.009 ohm, on: 2031-05-02"
    last = "red: F1.feed, black: F1, read: 0.012 ohm, on: 2031-05-20"
    undated = "red: F1.feed, black: F1, read: 0.030 ohm"
    for number, order in enumerate([(first, last, undated), (undated, last, first), (last, first)]):
        assert run(measured(tmp_path / str(number), *order), "F1.feed", "F1").mohm == pytest.approx(12)


def test_a_reading_says_what_a_fuse_of_unknown_rating_has(tmp_path: Path) -> None:
    reading = "red: F1.feed, black: F1, read: 0.012 ohm"
    found = measured(tmp_path, reading, fact="rating: 10 A", instead="rating: unknown")
    assert (run(found, "F1.feed", "F1").mohm, run(found, "F1.feed", "F1").unknown) == (12, ())


def test_a_reading_counts_before_the_resistance_that_the_switch_says(tmp_path: Path) -> None:
    said = {"fact": "between: s.1 s.2", "instead": "between: s.1 s.2, resistance: 3 mohm"}
    other = measured(tmp_path / "other", "red: s.1, black: L1, read: 0.05 ohm", **said)
    assert run(other, "s.1", "s.2").mohm == pytest.approx(3)
    own = measured(tmp_path / "own", "red: s.1, black: s.2, read: 0.002 ohm", **said)
    assert run(own, "s.1", "s.2").mohm == pytest.approx(2)


@pytest.mark.parametrize(
    "reading",
    [
        "red: F1.feed, black: F1, read: not measured",
        "red: F1.feed, black: F1, read: 0.03 V",  # nobody noted the current
        "red: F1.feed, black: F1, read: 14 mA",
        "red: F1.feed, black: F1, read: 0.0 ohm",  # less than the meter's last digit: no fuse has no resistance
        "red: F1.feed, black: F1, read: 0.00 V, through: 5 A",
        "red: F1.feed, black: s.1, read: 0.03 ohm",  # over more than the fuse
    ],
)
def test_a_reading_that_does_not_tell_a_part_leaves_its_allowance(reading: str, tmp_path: Path) -> None:
    assert run(measured(tmp_path, reading), "F1.feed", "F1").mohm == pytest.approx(7.7)


def test_a_wire_is_what_its_length_says_though_a_meter_was_held_to_its_ends(tmp_path: Path) -> None:
    found = measured(tmp_path, "red: bulkhead.4, black: lamp.1, read: 0.2 ohm")
    assert run(found, "bulkhead.4", "lamp.1").mohm == pytest.approx(2 + 3 * 18.5 + 4)

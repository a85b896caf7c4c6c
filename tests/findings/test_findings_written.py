"""What is written and cannot be: how it is mended, what follows from it and what must not."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.car.route import Route
from aswired.figures.worked import JobResult
from aswired.sheets.readings import reading_rows
from tests.findings import cases_written
from tests.findings.jobs import figures, proved, work

LAMP = """
    job: Lamp
    supply: 13.5 V
    fuses: {F7: {rating: 10 A, fed: always}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F7, to: lamp.1, length: 1 m}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
"""


def told(worked: JobResult, code: str) -> dict[str, str]:
    """Entry -> problem of every finding of a code."""
    return {found.entry: found.problem for found in worked.findings if found.code == code}


def mends(worked: JobResult, code: str) -> list[str]:
    return [found.mend for found in worked.findings if found.code == code]


# ---- ground points in a circle --------------------------------------------------------------------------------------
def returning(folder: Path, ways_back: str) -> JobResult:
    """A lamp on L1; `ways_back` like 'L1 L2, L2 L1'."""
    pairs = (pair.split() for pair in ways_back.split(", "))
    points = ", ".join(f"{name}: {{cable: 10 mm2, cable length: 1 m, back to: {to}}}" for name, to in pairs)
    return work(folder, proved(LAMP + f"    grounds: {{{points}}}\n"))


@pytest.mark.parametrize(
    ("ways_back", "circle", "behind"),
    [
        ("L1 L1", {"L1"}, set()),
        ("L1 L2, L2 L1", {"L1", "L2"}, set()),
        ("L1 L2, L2 L3, L3 L1", {"L1", "L2", "L3"}, set()),
        ("L1 L2, L2 L3, L3 L2", {"L2", "L3"}, {"L1"}),
        ("L1 L2, L2 battery-, L3 L4, L4 L3", {"L3", "L4"}, set()),
    ],
)
def test_a_circle_is_told_on_each_of_its_points_and_on_what_leads_into_it(
    ways_back: str, circle: set[str], behind: set[str], tmp_path: Path
) -> None:
    problems = told(returning(tmp_path, ways_back), "GND13")
    assert problems.keys() == circle | behind
    for name, problem in problems.items():
        assert f"what lands on '{name}' never reaches battery-" in problem
        assert all(other in problem for other in circle)


@pytest.mark.parametrize("ways_back", ["L1 L1", "L1 L2, L2 L1", "L1 L2, L2 L3, L3 L2"])
def test_nothing_passes_as_if_a_circle_reached_the_battery(ways_back: str, tmp_path: Path) -> None:
    worked = returning(tmp_path, ways_back)
    back = worked.circuits["lamp"].back
    assert back.state == "not examined"
    assert "said to lead back" in back.why
    assert "battery-" not in [step.name for step in back.steps]
    values = figures(worked)
    assert values["lamp.feed.alone"] is not None  # the other side is known
    assert [values[key] for key in ("lamp.return.alone", "lamp.drop.alone", "L1.rise")] == [None, None, None]
    (rise,) = [point.rise for point in worked.grounds if point.name == "L1"]
    assert rise.missing_words[0].startswith("a way to battery negative: ")
    assert any(told.what.startswith("return: ") and "lead back" in told.what for told in worked.not_examined)


@pytest.mark.parametrize("end", ["battery+", "FS4", "lamp.1", "F7"])
def test_nothing_goes_home_by_what_is_no_ground_point(end: str, tmp_path: Path) -> None:
    worked = work(tmp_path, cases_written.NO_GROUND.replace("END", end))
    back = worked.circuits["lamp"].back
    assert (back.state, back.why) == ("not examined", f"it is said to lead back to {end}, which is no ground point")
    assert figures(worked)["lamp.return.alone"] is None


def test_a_second_way_home_counts_where_the_nearer_point_goes_round(tmp_path: Path) -> None:
    other = LAMP + (
        "      W3: {colour: BN, size: 1.0 mm2, from: L2, to: lamp.2, length: 3 m}\n"
        "    grounds: {L1: {back to: L1}, L2: {cable: 10 mm2, cable length: 1 m, back to: battery-}}\n"
    )
    back = work(tmp_path, proved(other)).circuits["lamp"].back
    assert back.state == "complete"
    assert "L2" in [step.name for step in back.steps]


# ---- ends -----------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("end", "mend"),
    [
        ("F7.fed", "Did you mean F7.feed?"),
        ("F7.FEED", "Did you mean F7.feed?"),
        ("F7.load", "Write F7 for its load side"),
        ("F7.9", "Write F7 for its load side, or F7.feed for its side towards the battery"),
        ("L1.1", "Write L1"),
        ("FS4.feed", "Write FS4"),
        ("bat-minus", "Write battery-"),
        ("BATERY+", "Write battery+"),
    ],
)
def test_the_mend_of_a_suffix_says_what_was_meant(end: str, mend: str, tmp_path: Path) -> None:
    worked = work(tmp_path, cases_written.FUSE.replace("END", end))
    assert mends(worked, "REF06") == [mend]
    assert not told(worked, "FUS06")  # L1.feed makes no fuse of a ground point


@pytest.mark.parametrize(
    "end", ["F7", "F7.feed", "L1", "FS4", "battery+", "B+", "battery-tray", "lamp.left", "unknown"]
)
def test_an_end_that_can_be_is_taken_as_it_is(end: str, tmp_path: Path) -> None:
    worked = work(tmp_path, cases_written.FUSE.replace("from: FS4", "from: horn.1").replace("END", end))
    assert not told(worked, "REF06") | told(worked, "REF07") | told(worked, "REF08")


def test_a_landmark_may_be_called_like_a_part(tmp_path: Path) -> None:
    assert not told(work(tmp_path, cases_written.WRAPPED), "REF01")  # Lamp is a landmark, lamp a plug


@pytest.mark.parametrize(("contact", "mend"), [("78", "K1.87?"), ("87A", "K1.87a?"), ("68", "K1.86?")])
def test_the_mend_of_a_relay_contact_says_which_was_meant(contact: str, mend: str, tmp_path: Path) -> None:
    worked = work(tmp_path, cases_written.RELAY.replace("CONTACT", contact))
    assert mends(worked, "REF06") == [f"Did you mean {mend}"]


@pytest.mark.parametrize("contact", ["87a", "87b", "30", "coil"])
def test_a_contact_that_relays_have_is_no_slip(contact: str, tmp_path: Path) -> None:
    assert not told(work(tmp_path, cases_written.RELAY.replace("CONTACT", contact)), "REF06")


def test_a_socket_marked_30_to_87_is_not_numbered_by_position(tmp_path: Path) -> None:
    plugs = cases_written.RELAY.replace("switches:", "plugs: {K1: {ways: 4}}\nswitches:").replace("CONTACT", "87a")
    assert not told(work(tmp_path, plugs), "REF07")


ENDLESS = "9" * 5000  # Python reads no number of so many digits


def test_a_row_of_digits_that_counts_nothing_is_larger_than_every_connector(tmp_path: Path) -> None:
    lamp = LAMP.replace("to: lamp.1", "to: lamp.CAVITY") + "    plugs: {lamp: {ways: WAYS}}\n"
    row = "    changes: [{id: C1, kind: ground, wire: W2, end: L1, to: L1, ring: 'new, 5/16 in'}]\n"
    worked = work(tmp_path, lamp.replace("WAYS", "4").replace("CAVITY", ENDLESS) + row)
    assert told(worked, "REF07") == {"lamp": f"W1 names cavity {ENDLESS} of 'lamp', which has 4 ways"}
    many = lamp.replace("WAYS", ENDLESS).replace("CAVITY", "9") + row
    assert not told(work(tmp_path, many), "REF07")
    assert not told(work(tmp_path, f"{many}    grounds: {{L1: {{stud: {ENDLESS}/16 in}}}}\n"), "GND03")


def test_a_wire_of_one_end_is_not_told_again_at_a_row_that_leads_it_elsewhere(tmp_path: Path) -> None:
    led = cases_written.LOOP.replace(cases_written.ROW, "") + (
        "landmarks: {nose: takeout, tail: corner}\nroute: [{from: nose, to: tail, length: 1 m}]\n"
        "changes: [{id: C1, kind: reroute, wire: W1, by: [tail], made: 2031-05-03 AK}]\n"
    )
    assert told(work(tmp_path, led), "REF08") == {"W1": "both ends of W1 are 'lamp.1'"}


# ---- readings at no point -------------------------------------------------------------------------------------------
CHANGED = """
job: Changed
handed over: 2031-05-09
supply: 13.5 V
plugs: {lamp: {ways: 2}}
loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
fuses: {F7: {rating: 10 A, fed: always}}
grounds: {L1: {back to: battery-}}
wires:
  W1: {colour: GN, size: 1.0 mm2, from: F7, to: lamp.1, length: 1 m}
  W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
changes:
  - {id: C1, kind: shorten, wire: W1, end: lamp.1, pigtail: 100 mm, take out: 200 mm, made: 2031-05-03 AK}
readings:
  - {id: R1, of: C1, red: lamp.1, black: L1, read: 13.1 V, on: 2031-05-04}
"""


def test_a_reading_at_no_point_proves_no_row(tmp_path: Path) -> None:
    assert not told(work(tmp_path / "sound", CHANGED), "PRO03")
    lost = work(tmp_path / "lost", CHANGED.replace("red: lamp.1", "red: lamp.11"))
    assert told(lost, "RDG03") == {
        "R1": "the red lead was at 'lamp.11', where the car of 2031-05-04 has no point; R1 proves nothing"
    }
    assert told(lost, "PRO03").keys() == {""}


def test_the_cavity_that_a_wire_passes_is_a_point(tmp_path: Path) -> None:
    passed = CHANGED.replace("to: lamp.1, length: 1 m}", "to: lamp.1, via: link.3, length: 1 m}")
    assert not told(work(tmp_path / "via", passed.replace("red: lamp.1", "red: link.3")), "RDG03")
    assert told(work(tmp_path / "other", passed.replace("red: lamp.1", "red: link.4")), "RDG03")


def test_a_splice_counts_from_the_day_of_its_row_on(tmp_path: Path) -> None:
    joint = next(iter(work(tmp_path / "name", CHANGED).plan.joints))
    at_the_splice = CHANGED.replace("red: lamp.1,", f"red: {joint},")
    assert not told(work(tmp_path / "after", at_the_splice), "RDG03")
    before = at_the_splice.replace("on: 2031-05-04", "on: 2031-05-02")
    assert told(work(tmp_path / "before", before), "RDG03").keys() == {"R1"}
    undated = at_the_splice.replace(", on: 2031-05-04", "")
    assert not told(work(tmp_path / "undated", undated), "RDG03")


def test_a_reading_at_no_point_is_within_nothing_on_the_page(tmp_path: Path) -> None:
    limited = CHANGED.replace("read: 13.1 V", "read: 13.1 V, at least: 12 V")
    (sound,) = reading_rows(work(tmp_path / "sound", limited))
    (lost,) = reading_rows(work(tmp_path / "lost", limited.replace("black: L1", "black: L7")))
    assert (sound.verdict, sound.bad) == ("within", False)
    assert (lost.verdict, lost.bad) == ("proves nothing", True)
    (low,) = reading_rows(work(tmp_path / "low", limited.replace("black: L1", "black: L7").replace("13.1", "9.1")))
    assert low.verdict == "too low"


# ---- places ---------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("place", "mend"),
    [
        ("300 mm past nose", "Write 300 mm from nose towards bulkhead"),
        ("3 ft 4 in past bulkhead", "Write 3 ft 4 in from bulkhead towards nose or tail"),
        ("6 in left of nose", "Write 6 in from nose towards bulkhead"),
        ("300 mm from nose to tail", "Write 300 mm from nose towards tail, or the other way round"),
    ],
)
def test_a_place_that_says_no_direction_is_told_how_to_be_written(place: str, mend: str, tmp_path: Path) -> None:
    worked = work(tmp_path, cases_written.PART.replace("PLACE", place))
    assert mends(worked, "PLC06") == [mend]
    assert f"'{place}'" in told(worked, "PLC06")["lamp"]


def test_a_part_may_be_where_another_part_is(tmp_path: Path) -> None:
    plugs = "splices: {FS4: {at: 300 mm from nose towards bulkhead}}\nplugs:\n"
    worked = work(tmp_path, cases_written.PART.replace("plugs:\n", plugs).replace("PLACE", "FS4"))
    assert not told(worked, "PLC05")
    route = Route(worked.job)
    assert route.of_end("lamp.1") == route.place("300 mm from nose towards bulkhead")


def test_the_place_of_a_row_is_told_at_its_joints_or_at_the_row(tmp_path: Path) -> None:
    extended = (
        "job: Extended\nlandmarks: {nose: takeout}\n"
        "wires: {W1: {colour: GN, size: 1.0 mm2, from: F7, to: lamp.1, length: 2 m}}\nchanges:\n"
        "  - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 300 mm, piece: GN 1.0 mm2, "
        "where: 300 mm past nose, made: 2031-05-03 AK}\n"
    )
    entries = told(work(tmp_path, extended), "PLC06").keys()
    assert entries
    assert all(entry.startswith("C1-") for entry in entries)


def test_parts_that_point_only_to_each_other_are_told_though_a_landmark_has_nearly_their_name(tmp_path: Path) -> None:
    plugs = cases_written.PART.replace("  lamp: {at: PLACE}  # <", "  nosea: {at: noseb}\n  noseb: {at: nosea}")
    assert told(work(tmp_path, plugs), "PLC02").keys() == {"nosea", "noseb"}


@pytest.mark.parametrize("end", ["lamp", "lamp.1", "horn.1", "FS9"])
def test_the_end_of_a_wrap_without_a_place_is_not_recorded_and_not_told(end: str, tmp_path: Path) -> None:
    parts = "plugs: {lamp: {ways: 2}}\nwires: {W1: {from: horn.1, to: FS9}}\nchanges:"
    wrap = cases_written.WRAP.replace("changes:", parts).replace("PLACE", end)
    assert not [found for found in work(tmp_path, wrap).findings if found.code.startswith("PLC")]


@pytest.mark.parametrize(
    "words", ["beside the 12 V battery", "slot 7 in nose", "7 in the nose box", "2nd row of nose", "under the M8 stud"]
)
def test_words_are_shown_and_counted_and_never_told(words: str, tmp_path: Path) -> None:
    worked = work(tmp_path, cases_written.PART.replace("PLACE", words))
    assert not [found for found in worked.findings if found.code.startswith("PLC")]
    (counted,) = [unseen for unseen in worked.not_examined if unseen.entry == "lamp"]
    assert (counted.subject, counted.what) == ("route", f"its place is in words only: {words}")


def test_words_count_for_nothing_missing_where_no_route_is_recorded(tmp_path: Path) -> None:
    words = cases_written.PART.replace(cases_written.ROUTE, "\n").replace("PLACE", "beside the battery")
    assert not [unseen for unseen in work(tmp_path, words).not_examined if unseen.entry == "lamp"]


def test_the_place_of_a_joint_in_words_is_counted(tmp_path: Path) -> None:
    worked = work(tmp_path, cases_written.JOINT.replace("PLACE", "under the seat"))
    assert ("C1", "its place is in words only: under the seat") in [(u.entry, u.what) for u in worked.not_examined]

"""First power on the work sheet: which fuse goes in next and what must read then, of small cars worked out by hand."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.ledger.record import MayGoIn
from aswired.sheets import tests as sheet_of_steps
from aswired.sheets import worksheet
from aswired.sheets.first_power import FirstPower, FuseIn, first_power, in_order
from aswired.sheets.ledger_head import head
from aswired.sheets.tests import sheet_of_tests
from aswired.work import work_out
from tests.crawl.tree import Element
from tests.electric.on_one_lug import with_each
from tests.findings.jobs import work
from tests.pages.test_agree import page
from tests.pages.test_cells import rows, stands

YES, BY_NAME, OPEN, NO = MayGoIn.YES, MayGoIn.BY_NAME, MayGoIn.OPEN, MayGoIn.NO
# F1: 10 A on 1.0 mm2, planned for 10. F2 and F4: 15 A on 1.0 mm2 PVC, above that and within the public figure: AK lets
# it stand of F2. F3: nobody read the size of its wire. Every load takes 2 A at 12 V, 6 ohm.
CAR = """\
job: One fuse of each state
system: 12 V
supply: 12 V
temperature: 20 C
ground side: negative
body returns: no
systems: {restraint: never fitted, high voltage: never fitted, declared by: AK}
usual: {joint resistance: 0 mohm, cavity resistance: 0 mohm, ring resistance: 0 mohm, fuse resistance: 0 mohm,
  switch resistance: 0 mohm, contact resistance: 0 mohm}
accepted: [{finding: FUS01, of: F2, by: AK, why: the maker's own}]
plugs: {one: {ways: 2}, two: {ways: 2}, three: {ways: 2}, four: {ways: 2}}
fuses:
  F4: {rating: 15 A, fed: always, in: dash box}
  F3: {rating: 10 A, fed: always, in: dash box}
  F2: {rating: 15 A, fed: always, in: dash box}
  F1: {rating: 10 A, fed: ignition, in: dash box}
switches: {s1: {between: s1.1 s1.2}}
loads:
  lamp: {between: one.1 one.2, draws: 2 A, class: lamp, light: LED}
  fan: {between: two.1 two.2, draws: 2 A, class: motor}
  horn: {between: three.1 three.2, draws: 2 A, class: horn}
  pump: {between: four.1 four.2, draws: 2 A, class: pump}
grounds:
  L1: {cable: 16 mm2, cable length: 1 m, conducts: yes, back to: battery-}
  L2: {cable: 16 mm2, cable length: 1 m, conducts: yes, back to: battery-}
wires:
  W1: {size: 1.0 mm2, from: F1, to: s1.1, length: 1 m}
  W2: {size: 1.0 mm2, from: s1.2, to: one.1, length: 1 m}
  W3: {size: 1.5 mm2, from: one.2, to: L1, length: 1 m}
  W4: {size: 1.0 mm2, insulation: PVC, from: F2, to: two.1, length: 1 m}
  W5: {size: 1.5 mm2, from: two.2, to: L1, length: 1 m}
  W6: {size: unknown, from: F3, to: three.1, length: 1 m}
  W7: {size: 1.5 mm2, from: three.2, to: L2, length: 1 m}
  W8: {size: 1.0 mm2, insulation: PVC, from: F4, to: four.1, length: 1 m}
  W9: {size: 1.5 mm2, from: four.2, to: L1, length: 1 m}
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""


def car(folder: Path, *changed: tuple[str, str]) -> JobResult:
    return work(folder, with_each(CAR, changed))


def truck() -> JobResult:
    read = read_job(Path(__file__).parents[2] / "jobs" / "trail-truck")
    assert read.job is not None, read.faults
    return work_out(read.job, datetime.date(2026, 1, 1))


def by(worked: JobResult, **may: MayGoIn) -> JobResult:
    """The same car, the ledger saying this of its fuses."""
    fuses = {name: replace(line, may=may.get(name, line.may)) for name, line in worked.ledger.fuses.items()}
    return replace(worked, ledger=replace(worked.ledger, fuses=fuses))


def names(found: FirstPower) -> tuple[list[str], list[str]]:
    """The fuses that go in, and those that do not, in their order."""
    return [fuse.name for fuse in found.fuses], [name for row in found.outside for name in row.names]


def fuse(found: FirstPower, name: str) -> FuseIn:
    (row,) = [row for row in found.fuses if row.name == name]
    return row


def section(worked: JobResult) -> Element:
    return page(worksheet, worked, "worksheet.html").first("section", id="first-power")


def text(of: Element) -> str:
    return " ".join(of.text.split())


# ---- order and states -----------------------------------------------------------------------------------------------
def test_those_that_may_go_in_come_first_then_those_on_a_persons_word_and_the_others_stay_out(tmp_path: Path) -> None:
    worked = car(tmp_path)
    found = first_power(worked)
    assert (found.off, found.none, found.helps) == ("", "", ())
    assert names(found) == (["F1", "F2"], ["F3", "F4"])
    assert [(row.may, row.stands) for row in found.fuses] == [
        ("May go in", ()),
        ("Only on the word of AK", ("F2 lets 15 A through, and the wire may carry 10 A",)),
    ]
    assert [(row.may, row.why) for row in found.outside] == [
        ("Not shown", ("The size of W6 is not read",)),
        ("Stays out", ("F4 lets 15 A through, and the wire may carry 10 A",)),
    ]


def test_order_and_states_are_those_of_the_sheet_of_tests_and_of_the_head(tmp_path: Path) -> None:
    worked = car(tmp_path)
    found = first_power(worked)
    tests = sheet_of_tests(worked).fuses
    assert [row.name for row in tests] == ["F1", "F2", "F3", "F4"]
    assert {row.name: row.may for row in tests if row.name in ("F1", "F2")} == {r.name: r.may for r in found.fuses}
    assert head(worked).fuses == "F1 may go in; F4 stays out; F2 on the word of AK; F3 not yet"


MAIN: tuple[tuple[str, str], ...] = (
    ("fuses:", "fuses:\n  F0: {rating: 30 A, fed: always}"),
    ("changes:", "  W10: {size: 4 mm2, from: F0, to: F1.feed, length: 1 m}\nchanges:"),
)


@pytest.mark.parametrize(
    ("may", "order"),
    [
        ({"F0": YES, "F1": YES, "F2": YES, "F3": YES, "F4": YES}, "F0 F4 F3 F2 F1"),
        ({"F0": BY_NAME, "F1": YES, "F2": YES, "F3": BY_NAME, "F4": YES}, "F4 F2 F0 F3 F1"),
        ({"F0": YES, "F1": BY_NAME, "F2": YES, "F3": NO, "F4": OPEN}, "F0 F2 F1 F4 F3"),
        ({"F0": NO, "F1": YES, "F2": BY_NAME, "F3": OPEN, "F4": YES}, "F4 F2 F3 F0 F1"),
        ({"F0": OPEN, "F1": NO, "F2": NO, "F3": OPEN, "F4": NO}, "F0 F3 F4 F2 F1"),
    ],
)
def test_a_main_fuse_comes_before_what_it_feeds_and_not_before_what_is_safer(
    may: Mapping[str, MayGoIn], order: str, tmp_path: Path
) -> None:
    """F0 feeds F1 alone. Among alike: main fuses, then the order of the file, then what hangs behind another."""
    worked = by(car(tmp_path, *MAIN), **may)
    assert [row.name for row in in_order(worked)] == order.split()
    assert [row.name for row in sheet_of_tests(worked).fuses] == order.split()


def test_behind_a_main_fuse_that_stays_out_nothing_is_expected(tmp_path: Path) -> None:
    worked = car(tmp_path, *MAIN)
    dark = fuse(first_power(by(worked, F0=NO, F1=YES, F2=NO)), "F1")
    assert (dark.reading.red.id, dark.reading.expected, dark.of) == ("F1", "", "")
    assert dark.waits == "Dark: F0 before it is out. Not yet at lamp: F0 does not go in."
    lit = fuse(first_power(by(worked, F0=YES, F1=YES, F2=NO)), "F1")
    assert (lit.of, lit.waits) == ("lamp", "")


def test_a_fuse_that_feeds_nothing_on_record_and_a_spare_one_do_not_go_in(tmp_path: Path) -> None:
    more = ("fuses:", "fuses:\n  F7: {rating: 5 A}\n  F8: {rating: 5 A, use: spare}")
    found = first_power(car(tmp_path, more))
    assert names(found) == (["F1", "F2"], ["F3", "F4", "F7"])
    assert (found.outside[-1].may, found.outside[-1].why) == (
        "Feeds nothing on record",
        ("No wire that it feeds is on record",),
    )


def test_fuses_of_which_the_same_is_told_stand_in_one_row(tmp_path: Path) -> None:
    """Horn and pump come home by W7, of which nobody read the size; all else of F3 and F4 is as it should be."""
    shared = (
        ("size: unknown, from: F3", "size: 1.0 mm2, from: F3"),
        ("F4: {rating: 15 A", "F4: {rating: 10 A"),
        ("size: 1.5 mm2, from: three.2", "size: unknown, from: three.2"),
        ("from: four.2, to: L1", "from: four.2, to: three.2"),
    )
    (row,) = first_power(car(tmp_path, *shared)).outside
    assert (row.names, row.may) == (("F4", "F3"), "Not shown")
    assert row.why == ("The size of W7 is not read (its way home W7)",)


def test_of_many_reasons_the_first_are_told_and_the_others_counted(tmp_path: Path) -> None:
    """The sizes of W6 and W10, what is behind the bell that W10 leads to, and the size of the way home."""
    more = (
        ("size: 1.5 mm2, from: three.2", "size: unknown, from: three.2"),
        ("changes:", "  W10: {size: unknown, from: F3, to: bell.1}\nchanges:"),
    )
    (row,) = [row for row in first_power(car(tmp_path, *more)).outside if "F3" in row.names]
    assert row.why == ("The size of W6 is not read", "What is behind bell is not written", "And 2 more")


# ---- the reading that must come -------------------------------------------------------------------------------------
def test_the_reading_is_that_of_the_sheet_of_tests(tmp_path: Path) -> None:
    """Lamp: 6 ohm behind 2 m of 18.5 and before 1 m of 12.7 mohm; three loads raise L1, 1.16 mohm, by 7 mV:
    11.993 x 6 / 6.0497 = 11.89 V. Fan: 1 m of each, two loads: 11.995 x 6 / 6.0312 = 11.93 V. Of what is lost, 105 mV
    and 67, a tenth of wire and 15 % of current are less than the 30 mV that a band is wide at least."""
    worked = car(tmp_path)
    found = first_power(worked)
    lamp, fan = fuse(found, "F1"), fuse(found, "F2")
    assert (lamp.of, lamp.state) == ("lamp", (("Key", "ignition"), ("By hand", "s1")))
    assert (lamp.reading.red.id, lamp.reading.expected) == ("one.1", "11.89 V")
    assert (fan.of, fan.reading.expected) == ("fan", "11.93 V")
    tests = {c.tests.load: c.tests.live for c in sheet_of_tests(worked).circuits}
    assert lamp.reading in tests["lamp"]
    assert fan.reading in tests["fan"]


RELAY = (
    ("switches: {s1: {between: s1.1 s1.2}}", "switches: {contact: {between: s1.1 s1.2, worked by: coil}}"),
    ("grounds:", "  coil: {between: K.86 K.85, draws: 0.15 A, class: coil}\ngrounds:"),
    ("changes:", "  W11: {size: 1.5 mm2, from: K.85, to: L1, length: 1 m}\nchanges:"),
)


@pytest.mark.parametrize(
    ("coil_on", "of", "waits"),
    [
        ("F1", "lamp", ""),
        ("F2", "", "Not yet at lamp: F2 is not in yet."),  # it comes next
        ("F3", "", "Not yet at lamp: F3 does not go in."),
    ],
)
def test_a_load_whose_relay_hangs_on_a_fuse_that_is_out_is_not_read_yet(
    coil_on: str, of: str, waits: str, tmp_path: Path
) -> None:
    lead = ("changes:", f"  W12: {{size: 1.5 mm2, from: {coil_on}, to: K.86, length: 1 m}}\nchanges:")
    text = with_each(with_each(CAR, RELAY), (lead,))
    row = fuse(first_power(by(work(tmp_path, text), F1=YES, F2=BY_NAME, F3=OPEN, F4=NO)), "F1")
    assert (row.of, row.waits) == (of, waits)
    if not of:
        assert (row.reading.red.id, row.reading.expected, row.reading.band) == ("F1", "battery volts", "as the battery")
        assert row.state == (("Key", "ignition"),)


def test_a_load_that_a_module_switches_waits_for_what_feeds_the_module(tmp_path: Path) -> None:
    """The coil of the lamp's relay is fed by the unit; of that one it is recorded, or not, that it hangs on F3."""
    unit = (
        ("loads:", "modules: {unit: {out: {5: feed of the coil}}}\nloads:"),
        ("changes:", "  W12: {size: 0.75 mm2, from: unit.5, to: K.86, length: 1 m}\nchanges:"),
    )
    text = with_each(with_each(CAR, RELAY), unit)
    row = fuse(first_power(by(work(tmp_path, text), F1=YES)), "F1")
    assert (row.of, row.waits) == ("", "Not yet at lamp: what feeds unit is not recorded.")
    supply = (
        ("grounds:", "  unit: {between: unit.1 unit.2, draws: 0.1 A, class: electronics}\ngrounds:"),
        (
            "changes:",
            "  W13: {size: 1.0 mm2, from: F3, to: unit.1}\n  W14: {size: 1.0 mm2, from: unit.2, to: L2}\nchanges:",
        ),
    )
    fed = with_each(text, supply)
    assert (
        fuse(first_power(by(work(tmp_path / "fed", fed), F1=YES)), "F1").waits == "Not yet at lamp: F3 does not go in."
    )


def test_of_a_fuse_of_which_nobody_said_when_it_is_live_that_is_named(tmp_path: Path) -> None:
    """What the lamp takes is not recorded, so that the fuse itself is read."""
    blind = ("lamp: {between: one.1 one.2, draws: 2 A", "lamp: {between: one.1 one.2, draws: unknown")
    row = fuse(first_power(by(car(tmp_path, blind, ("fed: ignition", "fed: unknown")), F1=YES)), "F1")
    assert row.reading.unknown == "when the feed of F1 is live is not recorded"
    assert (row.reading.band, row.state) == ("", ())
    known = fuse(first_power(by(car(tmp_path / "known", blind), F1=YES)), "F1")
    assert (known.reading.unknown, known.reading.expected) == ("", "battery volts")
    assert known.waits == "What lamp should read is not known: current of lamp not recorded."


# ---- before the first fuse ------------------------------------------------------------------------------------------
def test_with_every_fuse_out_the_car_takes_what_no_fuse_stands_before(tmp_path: Path) -> None:
    first = first_power(car(tmp_path)).before
    assert first is not None
    assert (first.expected, first.unknown, first.dark) == ("0 A", "", True)
    clock = (
        ("grounds:", "  clock: {between: clock.1 clock.2, draws: 0.5 A, unfused: by its maker}\ngrounds:"),
        (
            "changes:",
            "  W10: {size: 1.0 mm2, from: battery+, to: clock.1, length: 100 mm}\n"
            "  W11: {size: 1.0 mm2, from: clock.2, to: battery-, length: 100 mm}\nchanges:",
        ),
    )
    worked = car(tmp_path / "clock", *clock)
    # 24 ohm and 3.7 mohm at 12 V
    quiet = first_power(replace(worked, findings=(), ledger=car(tmp_path / "plain").ledger)).before
    assert quiet is not None
    assert (quiet.expected, quiet.unknown, quiet.dark) == ("500 mA", "", False)


@pytest.mark.parametrize(
    ("change", "unknown"),
    [
        (("supply: 12 V\n", ""), "the supply is not recorded"),
        (("class: horn}", "class: horn, feed: not examined}"), "what feeds horn is not recorded"),
    ],
)
def test_what_is_not_recorded_of_the_car_with_every_fuse_out_is_named(
    change: tuple[str, str], unknown: str, tmp_path: Path
) -> None:
    first = first_power(by(car(tmp_path, change), F1=YES)).before
    assert first is not None
    assert (first.expected, first.unknown, first.dark) == ("not recorded", unknown, False)


# ---- where the power stays off --------------------------------------------------------------------------------------
def test_a_car_with_something_that_nobody_may_let_stand_has_no_table(tmp_path: Path) -> None:
    """20 A on 1.0 mm2: above every public figure."""
    worked = car(tmp_path, ("F1: {rating: 10 A", "F1: {rating: 20 A"))
    found = first_power(worked)
    assert found.off == head(worked).sentences[0].text
    assert found.off.startswith("Leave the power off. W1, W2: F1 lets 20 A through")
    assert (found.fuses, found.outside, found.before) == ((), (), None)
    shown = section(worked)
    assert text(shown) == f"First power {found.off}"
    assert not list(shown.all("table"))
    steps = page(sheet_of_steps, worked, "tests.html")  # the test sheet goes on, but not without a word
    assert [box.text for box in steps.all("div", class_="error")] == [found.off]


def test_a_car_that_these_sheets_are_not_for_has_no_table(tmp_path: Path) -> None:
    worked = car(tmp_path, ("restraint: never fitted", "restraint: removed in part"))
    assert first_power(worked).fuses == ()
    assert not list(section(worked).all("table"))


def test_a_car_of_which_nothing_is_shown_says_so_and_what_to_find_out_first(tmp_path: Path) -> None:
    sizes = CAR.replace("size: 1.0 mm2", "size: unknown").replace("rating: 15 A", "rating: 10 A")
    worked = work(tmp_path, sizes.replace("accepted: [{finding: FUS01, of: F2, by: AK, why: the maker's own}]\n", ""))
    found = first_power(worked)
    assert (found.none, found.helps) == ("No fuse may go in yet.", head(worked).helps)
    assert names(found) == ([], ["F4", "F3", "F2", "F1"])
    shown = text(section(worked))
    assert shown.startswith(
        "First power No fuse may go in yet. Find out first: Read or measure the size of W1, W2, W4, W6 and W8 (size:)."
    )
    assert "Must read" not in shown
    assert "battery on through a lamp" not in shown


def test_where_a_persons_word_is_needed_for_every_fuse_that_is_said(tmp_path: Path) -> None:
    found = first_power(by(car(tmp_path), F1=OPEN))
    assert found.none == "No fuse may go in without a person's word."
    assert names(found) == (["F2"], ["F3", "F1", "F4"])


def test_a_car_without_a_fuse_says_that(tmp_path: Path) -> None:
    found = section(work(tmp_path, "job: Bare\nchanges: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n"))
    assert "No fuse may go in yet." in text(found)
    assert "No fuse in use is on record." in text(found)


# ---- on the page ----------------------------------------------------------------------------------------------------
def test_the_page_has_a_row_a_fuse_each_cell_under_its_heading(tmp_path: Path) -> None:
    shown = page(worksheet, car(tmp_path), "worksheet.html")
    stands(
        shown,
        "Fuse | It feeds | Switch on | Meter | Must read | Sound | Read | By",
        "Before the first | nothing: battery on through a lamp or a 5 A breaker, every fuse out | Key: off. "
        "| amperes, in the battery's negative lead | 0 A | lamp dark | |",
        "F1 10 Adash boxMay go in. | lamp | lamp. Key: ignition. By hand: s1. | red one.1, black one.2"
        "back of the connector | 11.89 V | 11.86 to 11.92 V | |",
        "F2 15 Adash boxOnly on the word of AK.F2 lets 15 A through, and the wire may carry 10 A. | fan "
        "| fan. Key: any position. | red two.1, black two.2back of the connector | 11.93 V | 11.90 to 11.96 V | |",
    )
    stands(
        shown,
        "Fuse | Why",
        "F3 Not shown | The size of W6 is not read.",
        "F4 Stays out | F4 lets 15 A through, and the wire may carry 10 A.",
    )
    said = text(section(car(tmp_path / "b")))
    assert "A lamp or a 5 A breaker in place of the fuse first" in said
    assert "Put in the next fuse only when the reading of this one has come" in said
    assert "Volts are for 12 V at the battery" in said
    assert "powered" not in said


def test_a_car_that_was_handed_over_with_nothing_planned_still_has_its_rows(tmp_path: Path) -> None:
    worked = car(tmp_path, ("temperature:", "handed over: 2031-05-20\ntemperature:"))
    shown = page(worksheet, worked, "worksheet.html")
    assert "Nothing is planned for this car." in text(shown)
    assert [row["Fuse"][:2] for row in rows(shown) if "Must read" in row] == ["Be", "F1", "F2"]
    assert {row["Read"] for row in rows(shown) if "Must read" in row} == {""}
    assert first_power(worked).moment == ""


def test_what_is_planned_is_told_beside_the_car_that_stands_there(tmp_path: Path) -> None:
    row = "{id: C2, kind: extend, wire: W5, plug: two, gap: 100 mm, piece: BU 1.5 mm2}"
    worked = car(tmp_path, ("made: 2031-05-03 AK}]", f"made: 2031-05-03 AK}}, {row}]"))
    assert "For the car as it is now. What is planned changes it: look again when that is made." in text(
        section(worked)
    )
    plan = car(tmp_path / "plan", ("proves: [C1], made: 2031-05-03 AK}]", f"proves: [C1]}}, {row}]"))
    assert "Of the plan, not of a car: 2 rows not made so far." in text(section(plan))


def test_a_step_that_misleads_says_so_here_too(tmp_path: Path) -> None:
    """A switch stands in the battery's minus lead, and the lamp is behind a contact that nobody recorded a coil of."""
    changed = (
        ("switches: {s1: {between: s1.1 s1.2}}", "switches: {s1: {between: s1.1 s1.2, worked by: relay}}"),
        ("one: {ways: 2}", "one: {ways: 2, seen from: wire side}"),
    )
    row = fuse(first_power(by(car(tmp_path, *changed), F1=YES)), "F1")
    assert (row.of, row.reading.only) == ("lamp", "only if s1 is closed")
    told = text(section(by(car(tmp_path / "b", *changed), F1=YES)))
    assert "What closes s1 is not recorded: live or dead here is not known, key on or off." in told
    assert "11.89 V only if s1 is closed" in told


@pytest.mark.slow
def test_the_trucks_page_has_a_row_for_each_fuse_that_may_go_in() -> None:
    worked = truck()
    may = {name for name, line in worked.ledger.fuses.items() if line.may in (YES, BY_NAME) and line.feeds}
    found = rows(page(worksheet, worked, "worksheet.html"))
    shown = [row["Fuse"].split()[0] for row in found if "Must read" in row]
    assert len(may) >= 4
    assert shown[0] == "Before"
    assert set(shown[1:]) == may
    assert shown[1:] == [row.name for row in sheet_of_tests(worked).fuses if row.name in may]


BAG = (
    ("restraint: never fitted", "restraint: untouched"),
    ("four: {ways: 2}}", "four: {ways: 2}, bag: {ways: 2, behind: restraint unit}}"),
    ("switches:", "splices: {S1: {all members known: yes}}\nswitches:"),
    ("fuses:\n", "fuses:\n  F6: {rating: 10 A, fed: ignition}\n  F7: {rating: 5 A}\n"),
    ("wires:\n", "wires:\n  W20: {size: 2.5 mm2, from: F6, to: S1, length: 1 m}\n"
     "  W21: {size: 2.5 mm2, from: S1, to: F7.feed, length: 1 m}\n"
     "  W22: {size: 1.0 mm2, from: F7, to: bag.1, length: 1 m, special: restraint}\n"),
)  # fmt: skip


def test_a_fuse_whose_wire_is_declared_restraint_never_goes_in_by_the_sheet(tmp_path: Path) -> None:
    """No load is on record behind F7: its wire alone says what it feeds."""
    worked = car(tmp_path, *BAG)
    assert worked.ledger.fuses["F7"].may is YES
    found = first_power(worked)
    assert "F7" not in names(found)[0]
    (why,) = [outside.why for outside in found.outside if "F7" in outside.names]
    assert why == ("It feeds restraint: not by this sheet, no lamp and no breaker",)


def test_no_fuse_is_drawn_that_feeds_a_wire_declared_restraint(tmp_path: Path) -> None:
    """A fan on the splice before the unit's fuse: to make it dead would take the unit off."""
    sound = car(tmp_path / "sound", *BAG)
    assert sound.steps.circuits["fan"].out is not None
    worked = car(tmp_path / "bag", *BAG, ("from: F2, to: two.1", "from: S1, to: two.1"))
    assert worked.circuits["fan"].fuses == ("F6",)
    assert worked.steps.circuits["fan"].barred == ""
    assert worked.steps.circuits["fan"].out is None


def test_what_a_person_lets_stand_of_the_car_goes_with_every_fuse(tmp_path: Path) -> None:
    """Restraint is said to be taken out, and a wire of it is there: AK lets that stand, and each fuse says so."""
    car_alone = (
        ("restraint: never fitted", "restraint: removed complete"),
        ("wires:\n", "wires:\n  W30: {size: 0.5 mm2, from: bag.1, to: bag.2, length: 1 m, special: restraint}\n"),
        ("plugs: {", "plugs: {bag: {ways: 2}, "),
    )
    against = first_power(car(tmp_path / "against", *car_alone))
    assert against.fuses == ()
    stands = ("accepted: [", "accepted: [{finding: SPC10, of: restraint, by: AK, why: cut at both plugs}, ")
    first = next(fuse for fuse in first_power(car(tmp_path / "stands", *car_alone, stands)).fuses if fuse.name == "F1")
    assert first.may == "Only on the word of AK"
    assert first.stands == ("The restraint system is written as removed complete, but W30 is still in the car",)


def test_where_no_fuse_cuts_off_what_is_open_the_battery_stays_off_on_the_bench_pages_too() -> None:
    """The head of the truck says so; its table of fuses begins with the battery on."""
    worked = truck()
    (said,) = [found.text for found in head(worked).sentences if "The battery stays off" in found.text]
    wires = said[said.index("no fuse on record") :]
    for module, uri in ((worksheet, "worksheet.html"), (sheet_of_steps, "tests.html")):
        boxes = [box.text for box in page(module, worked, uri).all("div", class_="error")]
        assert f"The battery stays off until this is settled: {wires}" in boxes


def test_where_every_wire_is_proved_nothing_keeps_the_battery_off(tmp_path: Path) -> None:
    assert first_power(car(tmp_path)).stays_off == ""

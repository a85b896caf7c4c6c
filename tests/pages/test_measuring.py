"""The test sheet and what to measure on a circuit's page: as they are read at the bench."""

from __future__ import annotations

import datetime
import re
from dataclasses import replace
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.ledger.record import MayGoIn
from aswired.sheets import circuits as circuits_page
from aswired.sheets import tests as tests_page
from aswired.sheets.circuit_tests import CircuitTests, StepRow
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.templates import environment, render
from aswired.sheets.tests import circuit_tests, sheet_of_tests
from aswired.work import work_out
from tests.crawl.tree import Element, parse
from tests.electric.on_one_lug import LAMP, RELAY
from tests.findings.jobs import work

pytestmark = pytest.mark.slow  # each works the whole sheet of a demo job out

THEME = Path(__file__).parents[2] / "site_theme"


def job(folder: Path, text: str = LAMP) -> JobResult:
    return work(folder / "job", text)


def truck() -> JobResult:
    read = read_job(THEME.parent / "jobs" / "trail-truck")
    assert read.job is not None, read.faults
    return work_out(read.job, datetime.date(2026, 1, 1))


def lamp(folder: Path, text: str = LAMP) -> CircuitTests:
    found = circuit_tests("lamp", job(folder, text))
    assert found is not None
    return found


def sheet(worked: JobResult, edition: str = "owner") -> Element:
    (page,) = tests_page.pages(frame_of(worked, ShopFacts(edition)))
    return parse(render(environment(THEME), page))


def circuit(worked: JobResult, name: str) -> str:
    (page,) = [
        page for page in circuits_page.pages(frame_of(worked, ShopFacts("owner"))) if page.context["page_title"] == name
    ]
    return parse(render(environment(THEME), page)).first("main").text


def row(rows: tuple[StepRow, ...], what: str) -> StepRow:
    (found,) = [row for row in rows if row.what == what]
    return found


def test_a_step_says_where_both_leads_go_what_is_expected_and_what_is_sound(tmp_path: Path) -> None:
    (step,) = [row for row in lamp(tmp_path).live if (row.red.id, row.black and row.black.id) == ("mid.1", "lamp.1")]
    # by hand: 5.847 A x 18.2 mohm = 106 mV, band 75 to 143 mV (tests of the figures)
    assert (step.expected, step.band) == ("0.11 V", "0.08 to 0.14 V")
    assert [(item.what, item.id) for item in step.between] == [
        ("contact", "mid.1"),
        ("wire", "W2"),
        ("contact", "lamp.1"),
    ]
    assert step.red.what == "back of the connector"


def test_before_power_a_way_reads_less_than_its_own_and_a_fifth_of_an_ohm(tmp_path: Path) -> None:
    before = lamp(tmp_path).before
    assert [(row.what, row.expected, row.band) for row in before] == [
        ("Feed, end to end", "26.8 mΩ", "under 0.23 Ω"),
        ("Return, end to end", "20.7 mΩ", "under 0.22 Ω"),
        ("Feed, clear of ground", "open", "over 100 kΩ"),
    ]
    assert before[2].how == "unplug lamp"


def test_before_power_the_black_lead_goes_to_the_clamp_that_is_off_and_with_power_to_the_post(tmp_path: Path) -> None:
    """With the negative clamp off, a lead on the post would show every feed clear of ground, whatever it touches."""
    found = lamp(tmp_path)
    before = {row.black.what for row in found.before if row.black is not None and row.black.id == "battery-"}
    assert before == {"the clamp that was taken off, not the post"}
    live = {row.black.what for row in found.live if row.black is not None and row.black.id == "battery-"}
    assert live == {"battery post"}


def test_switches_and_relays_of_the_state_are_told(tmp_path: Path) -> None:
    found = circuit_tests("fan", job(tmp_path, RELAY))
    assert found is not None
    assert found.state == (
        ("Key", "ignition"),
        ("By hand", "button"),
        ("Closes with its coil", "K contact"),
        ("On with it", "lamp, K coil"),
    )


def test_a_load_that_does_not_come_on_by_the_record_is_told(tmp_path: Path) -> None:
    # the coil has 11.8 V of 12: a relay that pulls in at 99.9 % of them stays as it is
    text = RELAY.replace("temperature:", "limits: {relay pulls in: 99.9 %}\ntemperature:")
    found = circuit_tests("fan", job(tmp_path, text))
    assert found is not None
    assert found.state[-1] == ("By the record", "it does not come on in this state")
    known = circuit_tests("fan", job(tmp_path / "b", RELAY))
    assert known is not None
    assert "By the record" not in dict(known.state)


def test_a_neighbour_is_told_with_what_switches_it_on_and_its_step(tmp_path: Path) -> None:
    (beside,) = lamp(tmp_path).neighbours
    # 96.3 mV by hand, and 30.2 mV above it (tests of the figures)
    assert (beside.what, beside.how) == ("fan", "key to ignition; close fan switch")
    assert (beside.expected, beside.band) == ("up by 96 mV", "at most 127 mV")


def test_fuse_out_says_what_else_goes_dead(tmp_path: Path) -> None:
    assert row(lamp(tmp_path, RELAY).live, "F1 out: dead").how == "dead too: K coil"
    assert row(lamp(tmp_path / "b").live, "F1 out: dead").how == "nothing else goes dead by the record"


def test_what_is_not_recorded_stands_in_place_of_the_value(tmp_path: Path) -> None:
    worked = job(tmp_path, LAMP.replace("to: lamp.1, length: 2 m", "to: lamp.1, length: unknown"))
    text = sheet(worked).first("main").text
    assert "W2 from lamp.1 to mid.1: length not recorded" in text
    found = circuit_tests("lamp", worked)
    assert found is not None
    (step,) = [row for row in found.live if (row.red.id, row.black and row.black.id) == ("mid.1", "lamp.1")]
    assert (step.band, step.expected) == ("", "not recorded")


def test_no_ohmmeter_goes_into_a_module_or_a_sensor(tmp_path: Path) -> None:
    found = lamp(tmp_path, LAMP.replace("class: lamp, light: LED", "class: electronics"))
    assert row(found.before, "Feed, end to end").how == "unplug lamp"
    assert row(found.before, "Return, end to end").how == "unplug lamp"
    text = LAMP.replace("from: F1, to: mid.1", "from: unit.4, to: mid.1")
    text = text.replace("loads:", "modules:\n  unit: {out: {4: lamp feed}}\nloads:")
    found = lamp(tmp_path / "b", text)
    assert row(found.before, "Feed, end to end").how == "unplug unit"
    assert row(found.before, "Feed, clear of ground").how == "unplug unit, lamp"


def test_a_module_that_hangs_on_the_same_feed_is_unplugged_though_no_lead_touches_it() -> None:
    """The cab lamp of the truck is rung from F11, which feeds three modules too (by hand from its wires)."""
    found = circuit_tests("cab lamp", truck())
    assert found is not None
    assert row(found.before, "Feed, end to end").how == "unplug cab-unit, cluster, speed-unit"


def test_no_lamp_stands_in_for_a_fuse_that_feeds_a_restraint_wire(tmp_path: Path) -> None:
    (sound,) = sheet_of_tests(job(tmp_path / "sound")).fuses[:1]
    worked = job(tmp_path / "restraint", LAMP.replace("W2: {", "W2: {special: restraint, "))
    (fuse,) = [fuse for fuse in sheet_of_tests(worked).fuses if fuse.name == sound.name]
    assert (sound.never, fuse.never) == ("", "restraint")
    assert "it feeds restraint. No lamp, no breaker." in sheet(worked).first("main").text


@pytest.mark.parametrize(("kind", "words"), [("restraint", "restraint systems"), ("high voltage", "high voltage")])
def test_a_load_on_a_wire_that_is_never_measured_has_the_refusal_only(kind: str, words: str, tmp_path: Path) -> None:
    worked = job(tmp_path, LAMP.replace("W2: {", f"W2: {{special: {kind}, "))
    found = circuit_tests("lamp", worked)
    assert found is not None
    assert words in found.refused
    assert (found.before, found.live, found.neighbours, found.figures) == ((), (), (), ())
    page = circuit(worked, "lamp").partition("What to measure")[2]
    assert "Not by this sheet" in page
    assert "Expected" not in page.partition("Readings on this circuit")[0]


@pytest.mark.parametrize("systems", ["{restraint: removed in part}", "{high voltage: untouched}"])
def test_a_car_that_these_pages_are_not_for_has_no_steps_at_all(systems: str, tmp_path: Path) -> None:
    worked = job(tmp_path, LAMP.replace("temperature:", f"systems: {systems}\ntemperature:"))
    assert sheet_of_tests(worked).circuits == ()
    assert circuit_tests("lamp", worked) is None
    text = sheet(worked).first("main").text
    assert "There are no steps for this car" in text
    assert "end to end" not in text
    assert "What to measure" not in circuit(worked, "lamp")


def test_the_sheet_goes_from_before_power_to_key_off(tmp_path: Path) -> None:
    for edition in ("shop", "owner"):
        text = sheet(job(tmp_path / edition), edition).first("main").text
        at = [text.index(words) for words in ("1 Before power", "2 First power", "3 Circuit by circuit", "4 Key off")]
        assert at == sorted(at)
        assert "lamp or a 5 A breaker in place of the fuse first" in text
        assert "Never pierce insulation" in text


def test_a_main_fuse_comes_first_under_power() -> None:
    """The last of the truck's list, F17 feeds the fuse box: until it is in, no lamp in place of another can light.
    Behind it those first that may go in, then in the order of the list."""
    worked = truck()
    names = [fuse.name for fuse in sheet_of_tests(worked).fuses]
    assert names[0] == "F17"
    ways = [MayGoIn.YES, MayGoIn.BY_NAME, MayGoIn.OPEN, MayGoIn.NO]
    may = {name: ways.index(line.may) for name, line in worked.ledger.fuses.items()}
    assert names[1:] == sorted(names[1:], key=lambda name: (may[name], int(name.removeprefix("F"))))
    assert len({may[name] for name in names}) > 1


def test_each_fuse_says_what_the_ledger_says_of_putting_it_in(tmp_path: Path) -> None:
    worked = job(tmp_path, LAMP)
    line = worked.ledger.fuses["F1"]

    def told(may: MayGoIn, *by: str, feeds: tuple[str, ...] = ("W1",)) -> str:
        fuse = replace(line, may=may, by=by, feeds=feeds)
        return sheet_of_tests(replace(worked, ledger=replace(worked.ledger, fuses={"F1": fuse}))).fuses[0].may

    assert told(MayGoIn.YES) == "May go in"
    assert told(MayGoIn.BY_NAME, "AK", "JT") == "Only on the word of AK and JT"
    assert told(MayGoIn.OPEN) == "Leave it out: not all of its wires are proved"
    assert told(MayGoIn.NO) == "Leave it out: something stands against its wires"
    assert told(MayGoIn.YES, feeds=()) == ""


def test_key_off_tells_what_is_on_for_good_and_what_sleeps() -> None:
    text = " ".join(sheet(truck()).first("main").text.split())
    assert re.search(r"On for good by the record: auxiliary heater [\d.]+ A, cab lamp \d+ mA", text)
    assert "what they take asleep is not recorded: cluster supply, cab unit, speed unit" in text


def test_millivolts_are_told_for_each_fuse_that_stays_live(tmp_path: Path) -> None:
    (fuse,) = sheet_of_tests(job(tmp_path, re.sub(r"fuse resistance: 5 mohm,? *", "", LAMP))).millivolts
    assert (fuse.name, fuse.rating, fuse.mohm) == ("F1", "15 A", "4.80 mΩ")
    assert "data sheet" in fuse.source
    assert fuse.at == ("0.05", "0.24", "0.48")  # 0.48 mV at 100 mA: teaching text (read)


def test_each_circuit_leads_to_its_page_and_the_page_to_the_sheet() -> None:
    worked = truck()
    links = {link.attributes.get("href") for link in sheet(worked).all("a")}
    assert {"circuits/dip-left.html", "circuits/fuel-pump.html", "readings.html"} <= links
    (page,) = [
        p for p in circuits_page.pages(frame_of(worked, ShopFacts("owner"))) if p.context["page_title"] == "dip left"
    ]
    assert "../tests.html" in {link.attributes.get("href") for link in parse(render(environment(THEME), page)).all("a")}


def leads(step: StepRow) -> tuple[str, str, str]:
    return step.what, step.red.id, step.black.id if step.black else ""


def test_a_step_that_two_loads_share_stands_on_the_sheet_once() -> None:
    # both stop lamps come on by the one switch: fuse, its wire, the switch and the cable of L4 are measured once;
    # FS8 and FS10 divide their wires, so that the rest of each way is its own
    (right,) = [circuit for circuit in sheet_of_tests(truck()).circuits if circuit.tests.load == "stop right"]
    assert right.under == (("stop left", 7),)
    assert [leads(step)[1:] for step in right.tests.live] == [
        ("stop-switch.2", "tail-right.2"),
        ("tail-right.2", "tail-right.5"),
        ("tail-right.5", "L4"),
    ]


def test_no_step_of_a_circuit_is_lost_on_the_sheet() -> None:
    worked = truck()
    told = {circuit.tests.load: circuit for circuit in sheet_of_tests(worked).circuits}
    before = {(load, row.step) for row in sheet_of_tests(worked).before for load in row.loads}
    assert len(told) >= 20
    for load, circuit in told.items():
        own = circuit_tests(load, worked)
        assert own is not None
        under = {name: [leads(step) for step in told[name].tests.live] for name, _ in circuit.under}
        elsewhere = [step for step in own.live if step not in circuit.tests.live]
        assert len(elsewhere) == sum(many for _, many in circuit.under)
        assert all(any(leads(step) in steps for steps in under.values()) for step in elsewhere)
        assert circuit.tests.neighbours == own.neighbours
        assert {(load, step) for step in own.before} <= before


def test_what_is_on_whichever_load_is_measured_is_told_once() -> None:
    found = sheet_of_tests(truck())
    # fed for good without a switch on record, as the sheet of what is on with the key off says
    assert found.always == ("auxiliary heater", "cab lamp", "cluster supply", "cab unit", "speed unit")
    assert not [c for c in found.circuits for name, on in c.tests.state if name == "On with it" and "cab unit" in on]


def test_the_post_of_the_steps_before_power_is_told_apart_from_the_one_with_power_on() -> None:
    found = sheet_of_tests(truck())
    assert "not the post" in found.post
    assert dict(found.points)["battery post"] == ("battery-",)


def test_a_step_is_told_in_the_unit_of_its_band() -> None:
    steps = [step for circuit in sheet_of_tests(truck()).circuits for step in circuit.tests.live if step.band]
    mixed = [step for step in steps if step.band.endswith(" mV") != step.expected.endswith(" mV")]
    assert not [step for step in mixed if step.expected != "0.00 V"]
    assert len([step for step in steps if step.band.endswith(" mV")]) > 20

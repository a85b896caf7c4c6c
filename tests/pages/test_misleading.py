"""Steps that would mislead say so, in one sentence at the step: small jobs by hand, each with a twin that is silent.

The pages and the printed record take the sentence from the same row.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures.misleading import Doubt, Lacks, Mislead
from aswired.figures.tests import FuseOut
from aswired.figures.worked import JobResult
from aswired.sheets import circuits, record, tests
from aswired.sheets.circuit_tests import CircuitTests, StepRow
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.templates import environment, render
from aswired.sheets.tests import circuit_tests
from aswired.site.theme import theme_dir
from tests.crawl.tree import Element, parse
from tests.electric.on_one_lug import LAMP, RELAY, with_each
from tests.findings.jobs import work
from tests.pages.test_agree import page
from tests.pages.test_cells import stands

Changes = tuple[tuple[str, str], ...]


def car(folder: Path, *changed: tuple[str, str], text: str = LAMP) -> JobResult:
    return work(folder, with_each(text, changed))


def wires(*lines: str) -> tuple[str, str]:
    """Further wires of 1 m of 2.5 mm2, each as 'W10: a to b'."""
    new = ""
    for line in lines:
        name, _, ends = line.partition(": ")
        one, _, other = ends.partition(" to ")
        new += f"  {name}: {{size: 2.5 mm2, from: {one}, to: {other}, length: 1 m}}\n"
    return "changes:", f"{new}changes:"


def steps(worked: JobResult, load: str) -> CircuitTests:
    found = circuit_tests(load, worked)
    assert found is not None
    return found


def step(worked: JobResult, load: str, what: str) -> StepRow:
    of = steps(worked, load)
    (found,) = [row for row in (*of.before, *of.live) if row.what.startswith(what)]
    return found


def out(worked: JobResult, load: str) -> FuseOut:
    found = worked.steps.circuits[load].out
    assert found is not None
    return found


def told(worked: JobResult) -> dict[str, tuple[tuple[str, tuple[str, ...]], ...]]:
    """Of every load the steps that say something."""
    found = {load: steps(worked, load).misled for load in worked.job.kept_loads}
    return {load: misled for load, misled in found.items() if misled}


def circuit_page(worked: JobResult, load: str) -> Element:
    pages = circuits.pages(frame_of(worked, ShopFacts("owner")))
    (found,) = [found for found in pages if found.context["page_title"] == load]
    return parse(render(environment(theme_dir()), found))


@pytest.mark.parametrize("text", [LAMP, RELAY], ids=["switch", "relay"])
def test_a_car_of_which_all_is_recorded_has_no_such_sentence(text: str, tmp_path: Path) -> None:
    worked = car(tmp_path, text=text)
    assert told(worked) == {}
    assert all(not row.only for load in worked.job.kept_loads for row in steps(worked, load).live)


# ---- 1 a relay contact of which it is not known what closes it ------------------------------------------------------
CONTACTS = [
    (("worked by: K coil", "worked by: pump relay"), Lacks.COIL, "", "What closes K contact is not recorded"),
    (("from: K.85, to: L1,", "from: K.85, to: unknown,"), Lacks.COILS_WAY, "K coil", "The way of K coil, which closes"),
    (("draws: 0.15 A", "draws: unknown"), Lacks.COILS_CURRENT, "K coil", "The current of K coil, which closes"),
]


@pytest.mark.parametrize(("change", "lacks", "coil", "words"), CONTACTS, ids=["coil", "way", "current"])
def test_behind_a_contact_that_nobody_knows_to_be_closed_no_step_promises_live_or_dead(
    change: tuple[str, str], lacks: Lacks, coil: str, words: str, tmp_path: Path
) -> None:
    """F2 feeds the fan through K contact: F2 and K.30 lie before it, K.87 and the fan behind."""
    worked = car(tmp_path, change, text=RELAY)
    powered = worked.steps.circuits["fan"].powered
    assert powered is not None
    facts = {(t.kind, t.span.red, t.span.black): worked.misleading.volts("fan", t) for t in powered.volts}
    contact = ("K contact",)
    assert {where: found for where, found in facts.items() if found} == {
        ("drop", "K.30", "K.87"): (Mislead(Doubt.CONTACT_BETWEEN, contact, lacks, coil),),
        ("load", "fan.1", "fan.2"): (Mislead(Doubt.CONTACT, contact, lacks, coil),),
    }
    assert worked.misleading.out("fan", out(worked, "fan")) == (Mislead(Doubt.CONTACT_BEHIND, contact, lacks, coil),)
    at_load = step(worked, "fan", "Volts at the load")
    (said,) = at_load.misleads
    assert said.startswith(words)
    assert said.endswith("live or dead here is not known, key on or off.")
    assert at_load.only == "only if K contact is closed"
    pulled = step(worked, "fan", "F2 out")
    assert (pulled.what, pulled.expected, pulled.only) == ("F2 out", "0 V", "at the fuse alone")
    assert pulled.misleads[0].endswith("0 V at the fuse does not show that fan is dead.")
    assert "lamp" not in told(worked)  # it does not hang on that contact
    assert step(car(tmp_path / "sound", text=RELAY), "fan", "F2 out").what == "F2 out: dead"


def test_a_contact_in_the_way_home_leaves_the_fuse_as_it_is(tmp_path: Path) -> None:
    """The fan is switched on its ground side: its feed is dead with F2 out, whatever the contact does."""
    low = (
        ("from: F2, to: K.30,", "from: F2, to: fan.1,"),
        ("from: K.87, to: fan.1,", "from: fan.2, to: K.30,"),
        ("from: fan.2, to: L1,", "from: K.87, to: L1,"),
    )
    worked = car(tmp_path, *low, ("worked by: K coil", "worked by: pump relay"), text=RELAY)
    assert worked.misleading.out("fan", out(worked, "fan")) == ()
    assert step(worked, "fan", "F2 out").what == "F2 out: dead"
    assert step(worked, "fan", "Volts at the load").only == "only if K contact is closed"
    assert told(car(tmp_path / "sound", *low, text=RELAY)) == {}


# ---- 2 feeds of two positions of the key ----------------------------------------------------------------------------
JOIN = (wires("W10: lamp.1 to s.1"),)
BY_COPPER = "May be live with the key off: copper joins F1, F2, live in different positions of the key."
# F2 and F3 hang on one rail of the key; the bell hangs on F3
RAIL = (
    ("F2: {rating: 20 A, fed: ignition}", "F2: {rating: 20 A, fed: ignition}\n  F3: {rating: 5 A, fed: ignition}"),
    ("grounds:", "  bell: {between: bell.1 bell.2, draws: 1 A}\ngrounds:"),
    wires(
        "W10: lamp.1 to s.1",
        "W11: key.1 to F2.feed",
        "W12: key.1 to F3.feed",
        "W13: F3 to bell.1",
        "W14: bell.2 to L1",
        "W15: battery+ to key.2",
    ),
    ("loads:", "  key: {between: key.1 key.2}\nloads:"),
)


def test_a_feed_of_the_key_that_copper_joins_to_another_may_be_live_with_the_key_off(tmp_path: Path) -> None:
    worked = car(tmp_path, *JOIN)
    assert told(worked) == {"fan": (("Feed, live", (BY_COPPER,)),)}
    assert step(worked, "fan", "Volts at the load").misleads == (BY_COPPER,)
    assert step(worked, "fan", "F1, F2 out").what == "F1, F2 out: dead"  # `_out` already names both
    assert told(car(tmp_path / "sound", *JOIN, ("fed: ignition", "fed: always"))) == {}


def test_what_hangs_on_the_same_rail_of_the_key_may_be_live_too(tmp_path: Path) -> None:
    """With the key off F1 feeds backwards through F2 the rail, and on through F3 the bell."""
    worked = car(tmp_path, *RAIL)
    assert told(worked)["bell"] == (("Volts at the load", (BY_COPPER,)),)
    apart = (*RAIL[:2], (RAIL[2][0], RAIL[2][1].replace("from: lamp.1, to: s.1", "from: s.2, to: s.1")), RAIL[3])
    assert told(car(tmp_path / "sound", *apart)) == {}


BETWEEN = (
    ("grounds:", "  choke: {between: choke.1 choke.2, draws: 1 A}\ngrounds:"),
    wires("W10: lamp.1 to choke.1", "W11: s.1 to choke.2"),
)


def test_a_load_between_two_positions_of_the_key_feeds_backwards(tmp_path: Path) -> None:
    worked = car(tmp_path, *BETWEEN)
    by_choke = (
        "May be live with the key off, backwards through choke: it lies between feeds of two positions of the key."
    )
    assert step(worked, "fan", "Feed, live").misleads == (by_choke,)
    pulled = step(worked, "fan", "F2 out")
    assert (pulled.what, pulled.expected) == ("F2 out: may be live", "may be live")
    assert pulled.misleads == ("May still be fed from choke.",)
    assert out(worked, "lamp").through == ("choke",)
    sound = car(tmp_path / "sound", BETWEEN[0], wires("W10: lamp.1 to choke.1", "W11: L1 to choke.2"))
    assert told(sound) == {}
    assert out(sound, "lamp") == FuseOut(("F1",), ("choke",), ())


def test_two_loads_in_a_row_feed_backwards_and_a_grounded_middle_does_not(tmp_path: Path) -> None:
    """From the lamp's feed through choke and coil to the fan's; with their middle grounded neither feeds the fan."""
    two = ("grounds:", "  choke: {between: choke.1 choke.2}\n  coil: {between: coil.1 coil.2}\ngrounds:")
    row = ["W10: lamp.1 to choke.1", "W11: choke.2 to coil.1", "W12: coil.2 to s.1"]
    assert out(car(tmp_path, two, wires(*row)), "fan").through == ("coil",)
    assert out(car(tmp_path / "sound", two, wires(*row, "W13: choke.2 to L1")), "fan").through == ()


# ---- 3 home by the body ---------------------------------------------------------------------------------------------
BODY = (
    ("body returns: no", "body returns: yes"),
    ("L1: {cable: 10 mm2, cable length: 5 m, conducts: yes, back to: battery-}", "L1: {conducts: yes}"),
)
OFF = "Home by the body: taking the ground L1 off does not make it dead."
POOR = "Home from L1 by the body: a poor stud and a poor body cable read alike."


def test_a_load_that_goes_home_by_the_body_is_not_dead_with_its_ground_off(tmp_path: Path) -> None:
    strap = ("grounds:", "body strap: {cable: 16 mm2, cable length: 400 mm}\ngrounds:")
    worked = car(tmp_path, *BODY, strap)
    assert steps(worked, "lamp").misled == (("Return, end to end", (POOR,)), ("F1 out: dead", (OFF,)))
    (at_body,) = [row for row in steps(worked, "lamp").live if row.red.id == "L1"]
    assert at_body.misleads == (POOR,)
    assert not step(worked, "lamp", "Volts at the load").misleads  # its leads are on the load itself
    assert told(car(tmp_path / "sound", BODY[0])) == {}  # L1 has a cable of its own to battery-
    assert told(car(tmp_path / "wired", *BODY, wires("W10: L1 to battery-"))) == {}  # and here a wire


@pytest.mark.parametrize(
    ("returns", "at_return", "at_fuse"),
    [
        ("yes", " The body's cable to battery- is not recorded.", ""),
        ("unknown", *(" Whether the body carries returns is not recorded." for _ in range(2))),
    ],
)
def test_what_is_not_recorded_of_the_body_is_named(returns: str, at_return: str, at_fuse: str, tmp_path: Path) -> None:
    worked = car(tmp_path, (BODY[0][0], f"body returns: {returns}"), BODY[1])
    assert step(worked, "fan", "Return, end to end").misleads == (POOR + at_return,)
    assert step(worked, "fan", "F2 out").misleads == (OFF + at_fuse,)


# ---- 4 a switch in the battery's minus lead -------------------------------------------------------------------------
ISOLATOR = ("  fan switch: {between: s.1 s.2}", "  fan switch: {between: s.1 s.2}\n  Q1: {between: q.1 q.2}")
POST = "Black lead on the battery's minus post: with Q1 open the body reads 0 V beside a live wire."


@pytest.mark.parametrize(
    "ground",
    [
        "L1: {conducts: yes}",  # the wires alone lead home
        "L1: {conducts: yes, back to: battery-, cable: 10 mm2}",  # its cable is what leads through Q1
        "L1: {conducts: yes, back to: L2}\n  L2: {back to: battery-}",
    ],
)
def test_with_a_switch_in_the_minus_lead_the_black_lead_goes_to_the_post(ground: str, tmp_path: Path) -> None:
    at = "L2" if "L2" in ground else "L1"
    home = ("L1: {cable: 10 mm2, cable length: 5 m, conducts: yes, back to: battery-}", ground)
    worked = car(tmp_path, ISOLATOR, BODY[0], home, wires("W10: battery- to q.1", f"W11: q.2 to {at}"))
    assert worked.misleading.isolators == ("Q1",)
    for load, fuse in (("lamp", "F1"), ("fan", "F2")):
        assert step(worked, load, "Feed, live").misleads == (POST,)
        assert step(worked, load, f"{fuse} out").misleads == (POST,)
        assert not step(worked, load, "Volts at the load").misleads


@pytest.mark.parametrize(
    "lines",
    [
        ("W10: battery+ to q.1", "W11: q.2 to F1.feed"),  # in the plus lead
        ("W10: battery- to q.1", "W11: q.2 to lamp.2"),  # beside the lamp's own ground, with a wire past it
        ("W10: L1 to q.1", "W11: q.2 to fan.2"),  # between a load and its ground
    ],
)
def test_a_switch_elsewhere_says_nothing(lines: tuple[str, ...], tmp_path: Path) -> None:
    past = ("W12: lamp.2 to battery-",) if "lamp.2" in lines[1] else ()
    assert car(tmp_path, ISOLATOR, wires(*lines, *past)).misleading.isolators == ()


# ---- 5 what else may feed it ----------------------------------------------------------------------------------------
SOURCE = ("loads:", "sources: {aux: {plus: aux.plus, minus: battery-}}\nloads:")
FURTHER = "May still be fed from the further source aux."


def test_a_further_source_on_the_feed_leaves_it_live_with_the_fuse_out(tmp_path: Path) -> None:
    worked = car(tmp_path, SOURCE, wires("W10: aux.plus to lamp.1"))
    assert out(worked, "lamp") == FuseOut(("F1",), (), (), further=("aux",))
    pulled = step(worked, "lamp", "F1 out")
    assert (pulled.what, pulled.expected, pulled.misleads) == ("F1 out: may be live", "may be live", (FURTHER,))
    assert step(worked, "fan", "F2 out").what == "F2 out: dead"
    # behind a fuse of its own it is dead with both out, as the step says
    third = ("switches:", "  F3: {rating: 10 A}\nswitches:")
    sound = car(tmp_path / "sound", SOURCE, third, wires("W10: aux.plus to F3.feed", "W11: F3 to lamp.1"))
    assert out(sound, "lamp").fuses == ("F1", "F3")
    assert out(sound, "lamp").dead
    assert told(sound) == {}


def test_what_hangs_on_the_leg_of_the_same_fuse_is_fed_by_way_of_it(tmp_path: Path) -> None:
    """Coil and lamp hang on the load leg of F1, where they meet: what comes in at the lamp reaches the coil."""
    worked = car(tmp_path, SOURCE, wires("W10: aux.plus to lamp.1"), text=RELAY)
    assert out(worked, "K coil") == FuseOut(("F1",), (), (), further=("aux",))
    third = ("switches:", "  F3: {rating: 10 A, fed: always}\nswitches:")
    joined = car(tmp_path / "joined", third, wires("W10: F3 to lamp.1"), text=RELAY)
    assert {load: out(joined, load).fuses for load in ("lamp", "K coil")} == dict.fromkeys(
        ("lamp", "K coil"), ("F1", "F3")
    )
    assert out(joined, "K coil").dead


def test_a_cavity_in_which_two_wires_meet_is_within_reach(tmp_path: Path) -> None:
    worked = car(tmp_path, wires("W10: lamp.1 to horn.1"))
    assert worked.steps.circuits["lamp"].skipped == ()
    hidden = car(
        tmp_path / "hidden", ("lamp: {ways: 2}", "lamp: {ways: 2, reachable: no}"), wires("W10: lamp.1 to horn.1")
    )
    assert hidden.steps.circuits["lamp"].skipped == ("lamp",)


def test_a_load_that_a_further_source_feeds_too_is_not_called_dead_with_anothers_fuse(tmp_path: Path) -> None:
    """Lamp and bell hang on F1, the bell by a fuse of its own and on the further source too."""
    bell = ("grounds:", "  bell: {between: bell.1 bell.2, draws: 1 A}\ngrounds:")
    lines = ("W10: F1 to F3.feed", "W11: F3 to bell.1", "W12: bell.2 to L1")
    third = ("fuses:", "fuses:\n  F3: {rating: 10 A}")
    assert out(car(tmp_path, SOURCE, bell, third, wires(*lines)), "lamp").also_dead == ("bell",)
    fed = wires(*lines, "W13: aux.plus to bell.1")
    assert out(car(tmp_path / "fed", SOURCE, bell, third, fed), "lamp").also_dead == ()


@pytest.mark.parametrize("plus", ["unknown", "aux.plus"])
def test_a_further_source_that_hangs_nowhere_on_record_may_be_anywhere(plus: str, tmp_path: Path) -> None:
    worked = car(tmp_path, (SOURCE[0], SOURCE[1].replace("aux.plus", plus)))
    for load in ("lamp", "fan"):
        assert out(worked, load).nowhere == ("aux",)
        pulled = step(worked, load, f"F{1 + (load == 'fan')} out")
        assert pulled.expected == "may be live"
        assert pulled.misleads == ("Where the further source aux feeds in is not recorded: it may be here.",)
    assert out(car(tmp_path / "sound", SOURCE, wires("W10: aux.plus to F2.feed")), "lamp").dead


def test_an_output_of_a_module_and_a_cavity_that_is_not_listed_may_feed(tmp_path: Path) -> None:
    def of(module: str, folder: str) -> StepRow:
        known = "{FS1: {all members known: yes}, FS2: {all members known: yes}}"
        unit = ("loads:", f"modules: {{unit: {module}}}\nsplices: {known}\nloads:")
        return step(
            car(tmp_path / folder, unit, wires("W10: unit.4 to FS1", "W11: FS1 to FS2", "W12: FS2 to lamp.1")),
            "lamp",
            "F1 out",
        )

    output = of("{out: {4: lamp feed}}", "output")
    assert (output.what, output.misleads) == ("F1 out: may be live", ("May still be fed from unit.4.",))
    silent = of("{}", "silent")
    assert silent.what == "F1 out: may be live"
    assert silent.misleads == ("What its module does with unit.4 is not recorded: it may feed.",)
    for what, folder in (("{reference: [4]}", "reference"), ("{out: {4: data bus}}", "data")):
        assert of(what, folder).what == "F1 out: dead"


MEMBERS = ("loads:", "splices: {FS1: {all members known: yes}}\nloads:")


@pytest.mark.parametrize(
    ("changes", "names"),
    [
        ((wires("W10: FS1 to lamp.1"),), ("FS1",)),
        ((wires("W10: unknown to lamp.1"),), ("W10",)),
        ((wires("W10: F7 to FS1", "W11: FS1 to lamp.1"), MEMBERS), ("F7",)),
        ((wires("W10: aux.1 to lamp.1"), ("plugs:\n", "plugs:\n  aux: {ways: 2}\n")), ("aux",)),
        ((wires("W10: aux.1 to lamp.1"), ("plugs:\n", "plugs:\n  aux: {ways: 2, behind: solar panel}\n")), ("aux",)),
        ((wires("W10: aux.1 to lamp.1"), ("plugs:\n", "plugs:\n  aux: {ways: 2, behind: horn}\n")), ()),
    ],
)
def test_where_the_record_of_the_copper_stops_nobody_promises_dead(
    changes: Changes, names: tuple[str, ...], tmp_path: Path
) -> None:
    """What else meets in a splice, at the other end of a wire or behind a plug may be live without the fuse."""
    row = step(car(tmp_path, *changes), "lamp", "F1 out")
    told = (f"The record stops at {names[0]}: what else is joined there may still feed lamp.",) if names else ()
    assert row.misleads == told
    assert (row.what, row.only) == (("F1 out", "by what is on record") if names else ("F1 out: dead", ""))


def test_a_row_that_is_not_settled_may_have_joined_a_further_feed(tmp_path: Path) -> None:
    row = "{id: C8, kind: add, wire: W10, piece: RD 2.5 mm2, from: F2, to: lamp.1, terminal: double crimp, cut: 1 m, "
    row += "made: 2031-05-03 AK, only if: trailer is yes}"
    undecided = (("job:", "options: {trailer: unknown}\njob:"), ("changes: [", f"changes: [{row}, "))
    found = step(car(tmp_path, *undecided), "lamp", "F1 out")
    assert (found.what, found.only) == ("F1 out", "by what is on record")
    assert found.misleads == ("The record stops at C8: what else is joined there may still feed lamp.",)


# ---- on the pages ---------------------------------------------------------------------------------------------------
def test_sheet_circuit_and_record_print_the_sentence_with_its_step(tmp_path: Path) -> None:
    """The fan of 10 A at 12 V is 1.2 ohm, its own way 28.4 mohm (the fuse 5; 3.8 and 2, the contact 3, 2 and 3.8 and 2;
    2, 3.8 and a ring of 1), the lamp's 2.0424 ohm in all. Both come home by L1, 10.1 mohm: it rises by 156 mV, so that
    (12 - 0.156) x 1.2 / 1.2284 = 11.57 V are over the fan."""
    worked = car(tmp_path, ("worked by: K coil", "worked by: pump relay"), text=RELAY)
    closes = "What closes K contact is not recorded:"
    hidden = f"{closes} 0 V at the fuse does not show that fan is dead."
    unknown = f"{closes} live or dead here is not known, key on or off."
    fan = circuit_page(worked, "fan")
    for shown in (page(tests, worked), fan):
        stands(
            shown,
            "Step | Expected",
            f"F2 out nothing else goes dead by the record {hidden} | 0 V at the fuse alone",
            f"Volts at the load {unknown} | 11.57 V only if K contact is closed",
        )
    printed = " ".join(page(record, worked).first("main").text.split())
    assert f"Volts at the load. {unknown}" in printed
    assert f"F2 out. {hidden}" in printed
    assert "Taken as closed: K contact. " in " ".join(fan.first("main").text.split())
    sound = " ".join(page(record, car(tmp_path / "sound", text=RELAY)).first("main").text.split())
    assert "K contact is not recorded" not in sound


def test_what_is_rung_through_the_body_says_so_before_power_too(tmp_path: Path) -> None:
    worked = car(tmp_path, *BODY)
    text = " ".join(page(tests, worked).first("section", id="before").text.split())
    assert text.count(f"Return, end to end the way back from L1: not recorded {POOR}") == 2, text

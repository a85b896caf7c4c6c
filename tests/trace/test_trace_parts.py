"""What a trace passes and what it stops at: in-line plugs, modules, switches and relays, fuses with both sides."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, figures, proved, work

from aswired.car.circuits import Circuit
from aswired.figures.worked import JobResult


def wires(circuit: Circuit) -> tuple[list[str], list[str]]:
    return [s.wire for s in circuit.feed.stretches], [s.wire for s in circuit.back.stretches]


def states(circuit: Circuit) -> tuple[str, str]:
    return circuit.feed.state, circuit.back.state


# ---- in-line plugs --------------------------------------------------------------------------------------------------
INLINE = """
    job: Through the bulkhead
    fuses: {F1: {rating: 10 A}}
    plugs: {bulkhead: {ways: 12, in line: yes}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: bulkhead.4, length: 1 m}
      W2: {colour: YE, size: 1.5 mm2, from: bulkhead.4, to: lamp.1, length: 2 m}
      W3: {colour: BN, size: 1.0 mm2, from: lamp.2, to: battery-, via: bulkhead.5, length: 3 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
"""


def test_the_same_cavity_of_an_in_line_plug_joins_through(tmp_path: Path) -> None:
    worked = work(tmp_path, copper_alone(proved(INLINE)))
    circuit = worked.circuits["lamp"]
    assert states(circuit) == ("complete", "complete")
    assert wires(circuit) == (["W1", "W2"], ["W3"])
    assert circuit.back.stretches[0].via == "bulkhead.5"
    assert figures(worked)["lamp.feed.resistance"] == pytest.approx(18.5 + 2 * 12.7)  # ISO 6722-1 mohm/m


def test_another_cavity_of_it_does_not(tmp_path: Path) -> None:
    circuit = work(tmp_path, proved(INLINE.replace("from: bulkhead.4", "from: bulkhead.3"))).circuits["lamp"]
    assert circuit.feed.state == "not examined"
    assert "bulkhead.3" in circuit.feed.why


@pytest.mark.parametrize(("in_line", "state"), [("yes", "open"), ("no", "not examined")])
def test_a_wire_taken_out_of_the_other_half_opens_the_way_through(in_line: str, state: str, tmp_path: Path) -> None:
    # any other part may hold more than the wires of its cavity: what sits behind it stays not examined
    text = (
        INLINE.replace("in line: yes", f"in line: {in_line}")
        + """
    changes:
      - {id: C3, kind: remove, wires: {W1: {F1: pulled, bulkhead.4: pulled}}, made: 2031-05-03 AK}
    """
    )
    feed = work(tmp_path, text).circuits["lamp"].feed
    assert feed.state == state
    assert ("W1 was taken out by C3" in feed.why) is (state == "open")


def test_a_wire_that_leaves_one_that_goes_through_is_joined_to_it_there(tmp_path: Path) -> None:
    # W4 ends in the cavity that W3 passes: the horn's return goes on through it
    text = INLINE.replace(
        "    loads: {",
        "      W4: {size: 1.0 mm2, from: horn.2, to: bulkhead.5}\n    loads: {horn: {between: horn.1 horn.2}, ",
    )
    circuit = work(tmp_path, proved(text)).circuits["horn"]
    assert circuit.back.state == "complete"
    assert wires(circuit)[1] == ["W4", "W3"]


# ---- modules --------------------------------------------------------------------------------------------------------
MODULE = """
    job: Control unit
    fuses: {F9: {rating: 10 A}}
    modules: {unit: {out: {14: switched feed from F9, 22: data to the dash}, ground: [31]}}
    wires:
      W1: {size: 1.0 mm2, from: unit.14, to: lamp.1, length: 1 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: unit.31, length: 1 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
"""


def test_a_module_feeds_and_grounds_where_it_is_said_to(tmp_path: Path) -> None:
    circuit = work(tmp_path, proved(MODULE)).circuits["lamp"]
    assert states(circuit) == ("complete", "complete")
    assert [step.name for step in circuit.feed.steps][:2] == ["switched feed from F9", "unit.14"]
    assert circuit.back.steps[-1].name == "unit.31"
    assert circuit.fuses == ()  # the inside is not traced: F9 is words here


@pytest.mark.parametrize(
    ("said", "instead", "says"),
    [
        ("from: unit.14", "from: unit.15", "inside of unit not recorded"),
        ("from: unit.14", "from: unit.22", "unit.22 carries data"),
    ],
)
def test_any_other_cavity_ends_the_trace_without_a_verdict(said: str, instead: str, says: str, tmp_path: Path) -> None:
    worked = work(tmp_path, proved(MODULE.replace(said, instead)))
    assert states(worked.circuits["lamp"]) == ("not examined", "complete")
    assert says in worked.circuits["lamp"].feed.why
    assert worked.may_power


def test_a_cut_data_wire_is_open_but_not_live(tmp_path: Path) -> None:
    text = (
        MODULE.replace("    loads:", "      W3: {from: unit.22, to: dash.4}\n    loads:")
        + """
    changes:
      - {id: C1, kind: remove, wires: {W3: {unit.22: uncapped, dash.4: gone}}, made: 2031-05-03 AK}
    """
    )
    worked = work(tmp_path, text)
    assert [finding.code for finding in worked.findings if finding.entry == "C1-W3-unit.22"] == ["END02"]


# ---- switches and relays --------------------------------------------------------------------------------------------
RELAY = """
    job: Horn by a relay
    fuses: {F1: {rating: 20 A, fed: always}, F2: {rating: 5 A, fed: ignition}}
    switches:
      horn relay: {between: relay.30 relay.87, worked by: horn coil}
      horn button: {between: button.1 button.2}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: relay.30, length: 1 m}
      W2: {size: 1.5 mm2, from: relay.87, to: horn.1, length: 2 m}
      W3: {size: 1.5 mm2, from: horn.2, to: battery-, length: 1 m}
      W4: {size: 0.5 mm2, from: F2, to: relay.86, length: 1 m}
      W5: {size: 0.5 mm2, from: relay.85, to: button.1, length: 2 m}
      W6: {size: 0.5 mm2, from: button.2, to: battery-, length: 1 m}
    loads:
      horn: {between: horn.1 horn.2, draws: 8 A, class: horn}
      horn coil: {between: relay.85 relay.86, draws: 0.15 A, class: coil}
"""


def test_contact_and_coil_of_a_relay_are_two_circuits(tmp_path: Path) -> None:
    worked = work(tmp_path, proved(RELAY))
    horn, coil = worked.circuits["horn"], worked.circuits["horn coil"]
    assert (horn.fuses, wires(horn)) == (("F1",), (["W1", "W2"], ["W3"]))
    assert [step.name for step in horn.feed.steps if step.kind == "switch"] == ["horn relay"]
    # the coil is fed at 86 and switched on its ground side
    assert (coil.feed_end, coil.return_end, coil.fuses) == ("relay.86", "relay.85", ("F2",))
    assert wires(coil) == (["W4"], ["W5", "W6"])
    assert [step.name for step in coil.back.steps if step.kind == "switch"] == ["horn button"]
    assert (horn.feed_with, coil.feed_with) == ((), ())


def test_a_relay_contact_whose_feed_was_taken_out_is_open(tmp_path: Path) -> None:
    text = (
        RELAY
        + """
    changes:
      - {id: C4, kind: remove, wires: {W1: {F1: pulled, relay.30: pulled}}, made: 2031-05-03 AK}
    """
    )
    worked = work(tmp_path, text)
    horn = worked.circuits["horn"]
    assert (horn.feed.state, horn.feed.why) == ("open", "W1 was taken out by C4")
    assert not worked.may_power
    assert worked.circuits["horn coil"].feed.state == "complete"


def test_a_relay_contact_that_nobody_followed_is_not_examined(tmp_path: Path) -> None:
    text = RELAY.replace("      W1: {size: 2.5 mm2, from: F1, to: relay.30, length: 1 m}\n", "")
    worked = work(tmp_path, proved(text))
    assert worked.circuits["horn"].feed.state == "not examined"
    assert "relay.30" in worked.circuits["horn"].feed.why
    assert worked.may_power


def test_a_coil_is_no_way_through(tmp_path: Path) -> None:
    # without the button's wire the coil's low side reaches nothing: not F2 through the coil
    text = (
        RELAY
        + """
    changes:
      - {id: C5, kind: remove, wires: {W5: {relay.85: pulled, button.1: pulled}}, made: 2031-05-03 AK}
    """
    )
    coil = work(tmp_path, text).circuits["horn coil"]
    assert states(coil) == ("complete", "open")
    assert coil.back.why == "W5 was taken out by C5"


# ---- fuses with both sides ------------------------------------------------------------------------------------------
BOTH = """
    job: Fuse behind fuse
    fuses: {F1: {rating: 40 A, fed: always}, F2: {rating: 10 A}}
    splices: {FS1: {}}
    wires:
      W1: {size: 6 mm2, from: battery+, to: F1.feed, length: 0.5 m}
      W2: {size: 4 mm2, from: F1, to: F2.feed, length: 1 m}
      W3: {size: 1.0 mm2, from: F2, to: lamp.1, length: 2 m}
      W4: {size: 1.0 mm2, from: lamp.2, to: battery-, length: 2 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
"""


def lamp(worked: JobResult) -> Circuit:
    return worked.circuits["lamp"]


def test_fuses_with_a_recorded_feed_side_are_passed_back_to_the_battery(tmp_path: Path) -> None:
    worked = work(tmp_path, copper_alone(proved(BOTH)))
    assert wires(lamp(worked)) == (["W1", "W2", "W3"], ["W4"])
    assert lamp(worked).fuses == ("F1", "F2")  # nearest the battery first
    assert lamp(worked).feed.steps[0].name == "battery+"
    # ISO 6722-1 (from memory): 6 mm2 3.14, 4 mm2 4.71, 1.0 mm2 18.5 mohm/m
    assert figures(worked)["lamp.feed.resistance"] == pytest.approx(0.5 * 3.14 + 4.71 + 2 * 18.5)


def test_a_fuse_without_a_recorded_feed_side_is_where_the_feed_begins(tmp_path: Path) -> None:
    text = BOTH.replace("      W1: {size: 6 mm2, from: battery+, to: F1.feed, length: 0.5 m}\n", "")
    circuit = lamp(work(tmp_path, proved(text)))
    assert circuit.fuses == ("F1", "F2")
    assert circuit.feed.steps[0].name == "feed of F1: always"


def test_a_feed_side_that_was_cut_off_opens_everything_behind_it(tmp_path: Path) -> None:
    text = (
        BOTH
        + """
    changes:
      - {id: C6, kind: remove, wires: {W2: {F1: pulled, F2.feed: capped 30 mm}}, made: 2031-05-03 AK}
    """
    )
    circuit = lamp(work(tmp_path, text))
    assert circuit.feed.state == "open"
    assert "C6-W2-F2.feed" in circuit.feed.why


def test_a_feed_side_that_was_emptied_is_no_feed(tmp_path: Path) -> None:
    # nothing sits in F2.feed any more: the fuse must not be taken for fed again
    text = (
        BOTH
        + """
    changes:
      - {id: C6, kind: remove, wires: {W2: {F1: pulled, F2.feed: pulled}}, made: 2031-05-03 AK}
    """
    )
    circuit = lamp(work(tmp_path, text))
    assert circuit.feed.state == "open"
    assert circuit.feed.why == "W2 was taken out by C6"


def test_two_lamps_on_one_output_of_a_module_share_their_feed(tmp_path: Path) -> None:
    # each by a wire of its own from the cavity; the third hangs on another output
    text = """
    job: One output
    modules: {unit: {out: {1: feed, 2: feed}}}
    grounds: {G1: {back to: battery-}, G2: {back to: battery-}, G3: {back to: battery-}}
    loads: {one: {between: one.1 one.2}, two: {between: two.1 two.2}, three: {between: three.1 three.2}}
    wires:
      W1: {size: 1.0 mm2, from: unit.1, to: one.1}
      W2: {size: 1.0 mm2, from: unit.1, to: two.1}
      W3: {size: 1.0 mm2, from: unit.2, to: three.1}
      W4: {size: 1.0 mm2, from: one.2, to: G1}
      W5: {size: 1.0 mm2, from: two.2, to: G2}
      W6: {size: 1.0 mm2, from: three.2, to: G3}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
    """
    circuits = work(tmp_path, text).circuits
    assert {name: circuit.feed_with for name, circuit in circuits.items()} == {
        "one": ("two",), "two": ("one",), "three": (),
    }  # fmt: skip

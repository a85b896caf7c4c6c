"""Walking from a load to what feeds it and back to the battery: what is found, and where the record stops."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import figures, proved, work

from aswired.car.circuits import Circuit
from aswired.figures.worked import JobResult

LAMP = """
    job: Lamp
    fuses: {F1: {rating: 10 A, fed: ignition}}
    grounds: {G1: {back to: battery-, cable: 10 mm2, cable length: 1 m}}
    splices: {FS1: {}, FS9: {}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: FS1, length: 2 m}
      W2: {size: 1.0 mm2, from: FS1, to: lamp.1, length: 1 m}
      W3: {size: 1.0 mm2, from: lamp.2, to: FS9, length: 1 m}
      W4: {size: 1.0 mm2, from: FS9, to: G1, length: 1 m}
      W5: {size: 1.0 mm2, from: FS1, to: horn.1, length: 4 m}
      W6: {size: 1.0 mm2, from: horn.2, to: G1, length: 4 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A}
      horn: {between: horn.1 horn.2, draws: 4 A}
"""


def steps(circuit: Circuit) -> tuple[list[str], list[str]]:
    """What lies on the feed and on the return: wires by their name, the rest by theirs."""

    def names(side: str) -> list[str]:
        path = circuit.feed if side == "feed" else circuit.back
        return [step.stretch.wire if step.stretch is not None else step.name for step in path.steps]

    return names("feed"), names("return")


def lamp(worked: JobResult) -> Circuit:
    return worked.circuits["lamp"]


def states(circuit: Circuit) -> tuple[str, str]:
    return circuit.feed.state, circuit.back.state


def changed(*rows: str) -> str:
    return LAMP + "    changes:\n" + "".join(f"      - {{{row}, made: 2031-05-03 AK}}\n" for row in rows)


def test_a_circuit_runs_from_its_fuse_to_battery_negative(tmp_path: Path) -> None:
    circuit = lamp(work(tmp_path, proved(LAMP)))
    assert states(circuit) == ("complete", "complete")
    assert steps(circuit) == (
        ["feed of F1: ignition", "F1", "W1", "FS1", "W2", "lamp.1"],
        ["lamp.2", "W3", "FS9", "W4", "G1", "G1 to battery-", "battery-"],
    )
    assert (circuit.feed_end, circuit.return_end) == ("lamp.1", "lamp.2")
    assert (circuit.fuses, circuit.ground) == (("F1",), "G1")


@pytest.mark.parametrize(
    ("said", "instead"),
    [
        ("between: lamp.1 lamp.2", "between: lamp.2 lamp.1"),
        ("from: FS1, to: lamp.1", "from: lamp.1, to: FS1"),
        ("from: lamp.2, to: FS9", "from: FS9, to: lamp.2"),
        ("from: F1, to: FS1", "from: FS1, to: F1"),
    ],
)
def test_which_end_is_fed_is_found_not_said(said: str, instead: str, tmp_path: Path) -> None:
    assert LAMP.count(said) == 1
    one, other = work(tmp_path / "1", proved(LAMP)), work(tmp_path / "2", proved(LAMP.replace(said, instead)))
    assert other.circuits == one.circuits
    assert figures(other) == figures(one)
    assert lamp(other).feed_end == "lamp.1"


def test_the_other_end_is_fed_when_the_wires_are_the_other_way_round(tmp_path: Path) -> None:
    text = LAMP.replace("lamp.1", "lamp.x").replace("lamp.2", "lamp.1").replace("lamp.x", "lamp.2")
    circuit = lamp(work(tmp_path, proved(text)))
    assert (circuit.feed_end, circuit.return_end) == ("lamp.2", "lamp.1")


def test_what_is_shared_is_told_of_kept_loads_only(tmp_path: Path) -> None:
    kept = lamp(work(tmp_path / "kept", proved(LAMP)))
    assert (kept.feed_with, kept.return_with) == (("horn",), ("horn",))
    deleted = work(tmp_path / "deleted", proved(LAMP.replace("draws: 4 A", "draws: 4 A, verdict: deleted")))
    assert (lamp(deleted).feed_with, lamp(deleted).return_with) == ((), ())
    assert states(deleted.circuits["horn"]) == ("complete", "complete")  # still traced: it must not stay live


def test_a_trace_passes_no_load(tmp_path: Path) -> None:
    # with its own feed gone the lamp is joined to the horn's ground side only, and the horn is not a way to the fuse
    worked = work(tmp_path, changed("id: C1, kind: remove, wires: {W2: {FS1: flush, lamp.1: pulled}}"))
    assert states(lamp(worked)) == ("open", "complete")
    assert worked.circuits["horn"].feed.state == "complete"


# ---- taken out ------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("id: C7, kind: remove, wires: {W2: {FS1: flush, lamp.1: pulled}}", "W2 was taken out by C7"),
        ("id: C7, kind: remove, wires: {W1: {F1: pulled, FS1: flush}}", "W1 was taken out by C7"),
        ("id: C7, kind: remove, wires: {W2: {FS1: flush, lamp.1: capped 30 mm}}", "C7-W2-lamp.1"),
        ("id: C7, kind: cap, wire: W2, end: FS1, stub: 40 mm, far: capped", "C7-W2-lamp.1"),
    ],
)
def test_a_feed_that_was_taken_out_is_open_and_names_the_row(row: str, says: str, tmp_path: Path) -> None:
    circuit = lamp(work(tmp_path, changed(row)))
    assert states(circuit) == ("open", "complete")
    assert says in circuit.feed.why
    assert circuit.feed_end in ("lamp.1", "")


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("id: C8, kind: remove, wires: {W3: {FS9: flush, lamp.2: pulled}}", "W3 was taken out by C8"),
        ("id: C8, kind: remove, wires: {W4: {FS9: flush, G1: gone}}", "W4 was taken out by C8"),
    ],
)
def test_a_return_that_was_taken_out_is_open_and_names_the_row(row: str, says: str, tmp_path: Path) -> None:
    circuit = lamp(work(tmp_path, changed(row)))
    assert states(circuit) == ("complete", "open")
    assert says in circuit.back.why


def test_a_row_that_is_only_planned_opens_nothing_once_something_is_made(tmp_path: Path) -> None:
    text = changed("id: C1, kind: verify, proves: [C2]")
    text += "      - {id: C2, kind: remove, wires: {W2: {FS1: flush, lamp.1: pulled}}}\n"
    assert states(lamp(work(tmp_path, text))) == ("complete", "complete")


# ---- where the record stops -----------------------------------------------------------------------------------------
OPENED = changed("id: C7, kind: remove, wires: {W1: {F1: pulled, FS1: flush}}")


@pytest.mark.parametrize(
    ("said", "instead", "says"),
    [
        ("splices: {FS1: {}, FS9: {}}", "splices: {FS1: {all members known: no}, FS9: {}}", "other members of FS1"),
        ("splices: {FS1: {}, FS9: {}}", "splices: {FS9: {}}", "FS1 is not declared"),
        ("to: horn.1, length: 4 m", "to: unknown, length: 4 m", "where W5 ends is not known"),
        ("to: horn.1, length: 4 m", "to: bulkhead.7, length: 4 m", "what sits behind bulkhead.7"),
        ("fuses:", "modules: {unit: {}}\n    fuses:", "inside of unit"),
    ],
)
def test_where_the_record_stops_a_side_is_not_examined_and_not_open(
    said: str, instead: str, says: str, tmp_path: Path
) -> None:
    assert OPENED.count(said) == 1
    text = OPENED.replace(said, instead)
    if "unit" in says:
        text = text.replace("to: horn.1", "to: unit.4")
    worked = work(tmp_path, text)
    assert lamp(worked).feed.state == "not examined"
    assert says in lamp(worked).feed.why
    assert [
        finding.code for finding in worked.findings if finding.severity.word == "stop" and finding.entry == "lamp"
    ] == []


def test_the_same_side_is_open_where_the_record_does_not_stop(tmp_path: Path) -> None:
    worked = work(tmp_path, OPENED)
    assert lamp(worked).feed.state == "open"
    assert ("LOD01", "lamp") in [(finding.code, finding.entry) for finding in worked.findings]


def test_a_side_that_is_said_to_be_not_examined_is_not_walked(tmp_path: Path) -> None:
    text = LAMP.replace("draws: 2 A", "draws: 2 A, feed: not examined, return: not examined")
    circuit = lamp(work(tmp_path, proved(text)))
    assert states(circuit) == ("not examined", "not examined")
    assert (circuit.fuses, circuit.ground) == ((), "")


def test_a_load_whose_wires_nobody_recorded_is_not_examined(tmp_path: Path) -> None:
    text = LAMP.replace("    loads:", "    loads:\n      fan: {between: fan.1 fan.2, draws: 9 A}")
    circuit = work(tmp_path, proved(text)).circuits["fan"]
    assert states(circuit) == ("not examined", "not examined")


# ---- grounds --------------------------------------------------------------------------------------------------------
def test_a_ground_point_that_is_gone_is_passed_by_where_another_serves(tmp_path: Path) -> None:
    two = LAMP.replace("grounds: {", "grounds: {G0: {gone: yes}, ").replace(
        "    loads:", "      W7: {size: 1.0 mm2, from: lamp.2, to: G0}\n    loads:"
    )
    circuit = lamp(work(tmp_path / "two", proved(two)))
    assert (circuit.back.state, circuit.ground) == ("complete", "G1")
    only = proved(two.replace("to: FS9,", "to: G0,"))
    circuit = lamp(work(tmp_path / "only", only))
    assert (circuit.back.state, circuit.ground) == ("open", "G0")
    assert "G0 is not on this car" in circuit.back.why


@pytest.mark.parametrize(("body", "state"), [("yes", "complete"), ("unknown", "complete"), ("no", "not examined")])
def test_a_ground_without_a_cable_counts_while_the_body_may_carry_the_return(
    body: str, state: str, tmp_path: Path
) -> None:
    text = LAMP.replace("    fuses:", f"    body returns: {body}\n    fuses:").replace(
        "back to: battery-, cable: 10 mm2, cable length: 1 m", "stud: M6"
    )
    worked = work(tmp_path, proved(text))
    assert lamp(worked).back.state == state
    assert figures(worked)["lamp.return.alone"] is None


def test_a_load_that_sits_on_what_feeds_it_has_a_feed_of_no_wire(tmp_path: Path) -> None:
    text = """
    job: On the post
    modules: {unit: {out: {3: fan feed}}}
    loads:
      winch: {between: battery+ winch.2, draws: 60 A, class: motor}
      fan: {between: unit.3 fan.2, draws: 6 A, class: motor}
    wires:
      W1: {size: 25 mm2, from: winch.2, to: battery-, length: 1 m}
      W2: {size: 1.0 mm2, from: fan.2, to: battery-, length: 1 m}
    """
    circuits = work(tmp_path, proved(text)).circuits
    assert [states(circuits[name]) for name in ("winch", "fan")] == [("complete", "complete")] * 2
    assert steps(circuits["winch"]) == (["battery+", "battery+"], ["winch.2", "W1", "battery-"])
    assert steps(circuits["fan"]) == (["fan feed", "unit.3", "unit.3"], ["fan.2", "W2", "battery-"])

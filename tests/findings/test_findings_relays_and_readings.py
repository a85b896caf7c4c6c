"""Relays and readings, whole sentences: which contact of several is told, against which band, and what excuses one."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.cases_process import EXPECTED
from tests.findings.cases_relays import BUZZER, CHASE, LIFTED
from tests.findings.jobs import copper_alone, proved
from tests.findings.said import entries, said

FEED_BEFORE = "Feed the coil from before the contact, or write 'at rest:' as the contact is"
OWN_WIRE = "Find what takes its volts: a load in its way, a thin or long wire; feed the coil by a wire of its own"


def relays(text: str) -> str:
    return copper_alone(proved(text.replace("# <", "# contact")))


def test_a_buzzer_is_told_at_its_contact(tmp_path: Path) -> None:
    problem = (
        "'K1 contact' never comes to rest when 'K1 coil' is switched on: its coil 'K1 coil' hangs on the contact itself"
    )
    assert said(tmp_path, relays(BUZZER), "REL01") == [("error", "K1 contact", "contact", problem, FEED_BEFORE)]


# Two rings apart from each other; K5 is a relay that nothing is wrong with, K6 hangs on a contact of the second ring.
TWO_RINGS = (
    CHASE.replace(
        "    switches:\n",
        """    switches:
      K5 contact: {between: K5.30 K5.87, worked by: K5 coil}
      K3 contact: {between: K3.30 K3.87a, at rest: closed, worked by: K3 coil} # third
      K6 contact: {between: K6.30 K6.87, worked by: K6 coil}
""",
    )
    .replace(
        "    loads:\n",
        """    loads:
      K5 coil: {between: K5.86 K5.85, draws: 150 mA, class: coil}
      K3 coil: {between: K3.86 K3.85, draws: 150 mA, class: coil}
      K6 coil: {between: K6.86 K6.85, draws: 150 mA, class: coil}
""",
    )
    .replace(
        "    wires:\n",
        """    wires:
      W11: {size: 1.0 mm2, from: F1, to: K5.86, length: 1 m}
      W12: {size: 1.0 mm2, from: K5.85, to: battery-, length: 1 m}
      W13: {size: 1.0 mm2, from: F1, to: K5.30, length: 1 m}
      W14: {size: 1.0 mm2, from: F2, to: K3.30, length: 1 m}
      W15: {size: 1.0 mm2, from: K3.87a, to: K3.86, length: 1 m}
      W16: {size: 1.0 mm2, from: K3.85, to: battery-, length: 1 m}
      W17: {size: 1.0 mm2, from: K3.87a, to: K6.86, length: 1 m}
      W18: {size: 1.0 mm2, from: K6.85, to: battery-, length: 1 m}
      W19: {size: 1.0 mm2, from: F1, to: K6.30, length: 1 m}
""",
    )
)


@pytest.mark.parametrize("feed", ["F2", "K1.87"])  # by itself, or by a contact of the other ring
@pytest.mark.parametrize("behind", [False, True])
def test_of_each_ring_of_relays_one_contact_is_told_and_nothing_that_hangs_on_it(
    behind: bool, feed: str, tmp_path: Path
) -> None:
    text = TWO_RINGS.replace("W14: {size: 1.0 mm2, from: F2", f"W14: {{size: 1.0 mm2, from: {feed}")
    if behind:  # the second ring is written behind the first
        third = next(line + "\n" for line in text.splitlines() if "# third" in line)
        text = text.replace(third, "").replace("    loads:\n", f"{third}    loads:\n")
    told = said(tmp_path, relays(text), "REL01", "REL02")
    assert {(rank, entry, line) for rank, entry, line, _, _ in told} == {
        ("error", "K1 contact", "contact"), ("error", "K3 contact", "third"),
    }  # fmt: skip
    assert len(told) == 2


@pytest.mark.parametrize(("fan", "told"), [("fan", True), ("second fan", True), ("horn", False)])
def test_a_coil_with_too_few_volts_is_told_with_what_it_has_and_what_it_wants(
    fan: str, told: bool, tmp_path: Path
) -> None:
    # as beside the job: 12 x 0.6 / (0.6 + 0.445) = 6.9 V of the 7.8 V that 65 % of 12 V are; a horn of 1 A lifts it
    # by less than 0.5 V
    text = LIFTED.replace("fan: {between: fan.1 fan.2, draws: 20 A", f"{fan}: {{between: fan.1 fan.2, draws: AMPS")
    text = text.replace("AMPS", "1 A" if fan == "horn" else "20 A")
    problem = "'K1 coil' has 6.9 V when it is switched on; 7.8 V (65 % of 12 V) pull 'K1 contact' over"
    found = said(tmp_path, relays(text), "REL02")
    assert found == ([("warning", "K1 contact", "contact", problem, OWN_WIRE)] if told else [])


@pytest.mark.parametrize(("system", "told"), [("12 V", True), ("10 V", False)])
def test_what_pulls_in_is_a_share_of_the_system_and_not_of_the_supply(system: str, told: bool, tmp_path: Path) -> None:
    # 65 % of 10 V are 6.5 V, of 12 V 7.8 V; the coil has 6.9 V at a supply of 12 V
    text = LIFTED.replace("system: 12 V", f"system: {system}")
    assert entries(tmp_path, relays(text), "REL02") == (["K1 contact"] if told else [])


@pytest.mark.parametrize("line", ["    system: 12 V\n", "    supply: 12 V\n"])
def test_without_a_supply_nothing_is_worked_out_and_without_a_system_it_stands_for_both(
    line: str, tmp_path: Path
) -> None:
    assert LIFTED.count(line) == 1
    found = entries(tmp_path, relays(LIFTED.replace(line, "")), "REL02")
    assert found == (["K1 contact"] if "system" in line else [])


@pytest.mark.parametrize("says", ["system: unknown", "limits: {relay pulls in: 65 %}"])
def test_a_system_that_is_not_known_is_taken_as_the_supply(says: str, tmp_path: Path) -> None:
    assert entries(tmp_path, relays(LIFTED.replace("system: 12 V", says)), "REL02") == ["K1 contact"]


def test_a_coil_that_works_two_contacts_is_told_once(tmp_path: Path) -> None:
    second = "      K1 other: {between: K1.30b K1.87b, worked by: K1 coil}\n    loads:\n"
    assert entries(tmp_path, relays(LIFTED.replace("    loads:\n", second)), "REL02") == ["K1 contact"]


def test_a_coil_that_is_deleted_is_not_asked_to_pull_in(tmp_path: Path) -> None:
    text = LIFTED.replace("draws: 150 mA, class: coil", "draws: 150 mA, class: coil, verdict: deleted")
    assert entries(tmp_path, relays(text), "REL02") == []


# ---- readings against what is expected ------------------------------------------------------------------------------
CHECK = "    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n"
LOOK_BETWEEN = (
    "Look for a joint, a terminal or a nut that has gone bad between the leads; then write the new reading of the same "
    "two points"
)
LOOK_ON = (
    "Look at what was on, and whether the record says what is in the car; then write the new reading of the same two "
    "points"
)
# W2 is 0.9 m of 18.5 mohm/m (ISO 6722-1), 16.65 mohm; both wires 33.3 mohm. The lamp is 12 V / 1 A = 12 ohm: it takes
# 12 / 12.0333 = 0.9972 A: 0.0166 V on W2. Volts have 0.03 V either way at least: 0.00 to 0.05 V. Draws have 15 %.
RETURN = "red: lamp.2, black: battery-, loads on: lamp"


def readings(*lines: str, changes: str = CHECK) -> str:
    return (
        copper_alone(EXPECTED)
        + changes
        + "    readings:\n"
        + "".join(f"      - {{id: R{n}, {line}}} # R{n}\n" for n, line in enumerate(lines, 1))
    )


@pytest.mark.parametrize(("line", "problem", "mend"), [
    ("on: 2031-05-04, red: lamp.2, black: battery-, loads on: lamp, read: 0.06 V",
     "R1 read 0.06 V between lamp.2 and battery-; 0.00 V to 0.05 V is expected there", LOOK_BETWEEN),
    ("on: 2031-05-04, red: battery-, black: lamp.2, loads on: lamp, read: -0.06 V",
     "R1 read -0.06 V between battery- and lamp.2; 0.00 V to 0.05 V is expected there", LOOK_BETWEEN),
    ("red: lamp.2, black: battery-, loads on: lamp, read: 0.06 V", "", ""),  # of which day is not known
    ("on: 2031-05-04, red: lamp.2, black: battery-, loads on: lamp, read: 0.06 V, limit: 1 V", "", ""),
    ("on: 2031-05-04, red: lamp.2, black: battery-, loads on: lamp, read: 0.06 V, limit: 1 A",
     "R1 read 0.06 V between lamp.2 and battery-; 0.00 V to 0.05 V is expected there", LOOK_BETWEEN),
    ("on: 2031-05-04, red: lamp.2, black: battery-, loads on: lamp, read: 0.06 V, at least: 0.01 V", "", ""),
    ("on: 2031-05-04, red: lamp.2, black: battery-, loads on: lamp, read: 0.06 V, limit: unknown, at least: unknown",
     "R1 read 0.06 V between lamp.2 and battery-; 0.00 V to 0.05 V is expected there", LOOK_BETWEEN),
    ("on: 2031-05-04, red: lamp.2, black: battery-, loads on: lamp, read: 0.06 V, at least: 1 ohm",
     "R1 read 0.06 V between lamp.2 and battery-; 0.00 V to 0.05 V is expected there", LOOK_BETWEEN),
    ("on: 2031-05-04, red: lamp.2, black: battery-, loads on: lamp, read: not measured", "", ""),
    ("on: 2031-05-04, red: lamp.2, black: lamp.2, loads on: lamp, read: 0.00 V", "", ""),
])  # fmt: skip
def test_a_reading_is_held_to_what_is_expected_there(line: str, problem: str, mend: str, tmp_path: Path) -> None:
    found = said(tmp_path, readings(line), "RDG02")
    assert found == ([("warning", "R1", "R1", problem, mend)] if problem else [])


def test_too_few_volts_and_a_wrong_current_ask_what_was_on(tmp_path: Path) -> None:
    found = said(
        tmp_path,
        readings(
            "on: 2031-05-04, red: lamp.1, black: lamp.2, of: lamp, supply: 12.0 V, read: 10.5 V",
            "on: 2031-05-04, red: F1, black: lamp.1, loads on: lamp, read: 2.0 A",
            "on: 2031-05-04, red: lamp.2, black: battery-, read: 0.30 ohm",
        ),
        "RDG02",
    )
    assert [(entry, mend) for _, entry, _, _, mend in found] == [
        ("R1", LOOK_ON), ("R2", LOOK_ON), ("R3", LOOK_BETWEEN),
    ]  # fmt: skip
    assert found[0][3].startswith("R1 read 10.5 V between lamp.1 and lamp.2; 11.")  # 11.97 V less the band
    assert found[1][3].startswith("R2 read 2.0 A between F1 and lamp.1; 0.8")  # 0.997 A less 15 %: 0.848 A
    assert ".848 A to 1." in found[1][3]


@pytest.mark.parametrize(("read", "told"), [("1.30 A", True), ("1.20 A", False), ("0.00 A", False)])
def test_with_everything_off_a_current_has_no_least(read: str, told: bool, tmp_path: Path) -> None:
    # the lamp is live for good: 0.9972 A x 1.15 and the key-off draw of 0.05 A (house limit) make 1.197 A
    text = readings(f"on: 2031-05-04, red: F1, black: lamp.1, loads on: none, read: {read}")
    problem = f"R1 read {read} between F1 and lamp.1; up to 1.197 A is expected there"
    assert said(tmp_path, text, "RDG02") == ([("warning", "R1", "R1", problem, LOOK_ON)] if told else [])


LONGER = (
    "{{id: C{n}, kind: extend, wire: {wire}, plug: lamp, pigtail: 200 mm, gap: 100 mm, slack: 0 mm, "
    'joint: "lap, soldered", overlap: 10 mm, piece: BN 1.0 mm2, {made}}}'
)


@pytest.mark.parametrize(("wire", "made", "line", "told"), [
    ("W2", "made: 2031-05-10 AK", f"{RETURN}, read: 0.3 V", False),  # that very wire was worked on since
    ("W2", "made: 2031-05-03 AK", f"{RETURN}, read: 0.3 V", True),
    ("W2", "why: next week", f"{RETURN}, read: 0.3 V", True),
    ("W1", "made: 2031-05-10 AK", f"{RETURN}, read: 0.3 V", True),  # what lies between the leads is as it was
    ("W2", "made: 2031-05-10 AK", "red: F1, black: lamp.1, loads on: lamp, read: 3 A", False),
    ("W1", "made: 2031-05-10 AK", "red: F1, black: lamp.1, loads on: lamp, read: 3 A", False),
    ("W3", "made: 2031-05-10 AK", "red: F1, black: lamp.1, loads on: lamp, read: 3 A", False),  # for a current: any
    ("W3", "made: 2031-05-04 AK", "red: F1, black: lamp.1, loads on: lamp, read: 3 A", True),  # of the same day
    ("W3", "made: yes", "red: F1, black: lamp.1, loads on: lamp, read: 3 A", True),
    ("W3", "why: next week", "red: F1, black: lamp.1, loads on: lamp, read: 3 A", True),
])  # fmt: skip
def test_what_was_changed_since_excuses_a_reading(wire: str, made: str, line: str, told: bool, tmp_path: Path) -> None:
    more = "      W3: {size: 1.0 mm2, from: F1, to: lamp.3, length: 900 mm}\n"
    changes = f"{more}    changes:\n      - {LONGER.format(n=1, wire=wire, made=made)}\n"
    changes += "      - {id: C9, kind: verify, proves: [C1], made: 2031-05-20 AK}\n"  # a check changes no wire
    text = readings(f"on: 2031-05-04, {line}", changes=changes)
    assert entries(tmp_path, text, "RDG02") == (["R1"] if told else [])


@pytest.mark.parametrize(("made", "told"), [("2031-05-10", False), ("2031-05-03", True)])
def test_a_change_at_the_far_end_of_a_wire_excuses_a_reading_as_one_at_its_near_end_does(
    made: str, told: bool, tmp_path: Path
) -> None:
    # the splice near the lamp is older than the reading; then the other end of the wire goes to a ground point
    changes = "    grounds: {L1: {cable: 10 mm2, cable length: 1 m, back to: battery-}}\n    changes:\n"
    changes += f"      - {LONGER.format(n=1, wire='W2', made='made: 2031-05-02 AK')}\n"
    changes += f"      - {{id: C2, kind: ground, wire: W2, end: battery-, to: L1, made: {made} AK}}\n"
    text = readings(f"on: 2031-05-04, {RETURN}, read: 0.3 V", changes=changes)
    assert entries(tmp_path, text, "RDG02") == (["R1"] if told else [])


@pytest.mark.parametrize(("second", "told"), [
    ("on: 2031-05-05, red: lamp.2, black: battery-, loads on: lamp, read: 0.07 V", ["R2"]),
    ("red: lamp.2, black: battery-, loads on: lamp, read: 0.02 V", ["R1"]),  # a day that is not known comes first
    ("on: 2131-05-05, red: lamp.2, black: battery-, loads on: lamp, read: 0.02 V", ["R1"]),  # shows nothing
    ("on: 2031-05-04, red: lamp.2, black: battery-, loads on: lamp, read: 0.02 V", []),
])  # fmt: skip
def test_of_two_readings_of_one_place_the_last_counts(second: str, told: list[str], tmp_path: Path) -> None:
    text = readings(f"on: 2031-05-04, {RETURN}, read: 0.06 V", second)
    assert entries(tmp_path, text, "RDG02") == told


@pytest.mark.parametrize(("key", "limit", "mended"), [
    ("limit", "-0.2 V", "0.2 V"), ("at least", "-1.5 V", "1.5 V"), ("limit", "0 V", ""), ("at least", "0.1 V", ""),
])  # fmt: skip
def test_a_limit_below_zero_is_told_with_the_amount_that_was_meant(
    key: str, limit: str, mended: str, tmp_path: Path
) -> None:
    text = f"""
    job: Limits
    grounds: {{L1: {{back to: battery-}}}}
    wires: {{W1: {{from: lamp.2, to: L1}}}}
    readings:
      - {{id: R1, of: L1, limit: 0.2 V, read: 0.1 V}}
      - id: R2
        of: L1
        {key}: {limit} # {key}
        read: 0.15 V
{CHECK}"""
    problem = f"{key}: {limit} is below zero; a reading is judged by its amount, so this judges nothing"
    mend = f"Write {key}: {mended}, or take the line out"
    assert said(tmp_path, text, "RDG11") == ([("warning", "R2", key, problem, mend)] if mended else [])

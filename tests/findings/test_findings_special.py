"""Rows on special wires, whole sentences: which of several wires, with which partner, by which of the row's keys."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.cases_splices import USUAL
from tests.findings.jobs import work
from tests.findings.said import entries, said

MADE = "made: 2031-05-03 AK"
LONGER = f"pigtail: 200 mm, gap: 300 mm, {MADE}"


def wires(*kinds: str, length: str = "length: 900 mm") -> str:
    """W1, W2 ... from unit.1, unit.2 ... to lamp.1, lamp.2 ..., each of a kind."""
    return f"{USUAL}\n    wires:\n" + "".join(
        f"      W{n}: {{size: 0.5 mm2, from: unit.{n}, to: lamp.{n}, {length}, special: {kind}}}\n"
        for n, kind in enumerate(kinds, 1)
    )


def rows(*rows: str) -> str:
    """Rows C1, C2 ..., each marked with its id."""
    return "    changes:\n" + "".join(f"      - {{id: C{n}, {row}}} # C{n}\n" for n, row in enumerate(rows, 1))


# ---- what is never altered ------------------------------------------------------------------------------------------
WHOLE = "Leave it whole, or have it taken out complete by a person who is trained for it"


@pytest.mark.parametrize(("row", "told"), [
    ("kind: remove, wire: W2, ends: {unit.2: gone, lamp.2: gone}", False),
    ("kind: remove, wire: W2, ends: {unit.2: gone, lamp.2: pulled}", False),
    ("kind: remove, wire: W2, ends: {unit.2: gone, lamp.2: capped 30 mm}", True),
    ("kind: remove, wire: W2, ends: {unit.2: gone}", True),  # what became of the other end is not said
    ("kind: cap, wire: W2, end: unit.2, stub: 30 mm, far: gone, cover: adhesive sleeve", True),
])  # fmt: skip
def test_restraint_wiring_is_taken_out_whole_and_nothing_else(row: str, told: bool, tmp_path: Path) -> None:
    text = wires("none", "restraint", "none") + rows(f"{row}, {MADE}")
    problem = "C1 works on a restraint system (W2), or puts a hand on a part of it"
    assert said(tmp_path, text, "SPC01") == ([("stop", "C1", "C1", problem, WHOLE)] if told else [])


def test_no_test_is_made_on_restraint_wiring(tmp_path: Path) -> None:
    text = wires("none", "restraint", "none") + rows(f"kind: verify, proves: [C1], wire: W2, {MADE}")
    problem = "C1 works on a restraint system (W2), or puts a hand on a part of it"
    assert said(tmp_path, text, "SPC01") == [("stop", "C1", "C1", problem, WHOLE)]


def test_restraint_wiring_is_not_led_elsewhere_either(tmp_path: Path) -> None:
    text = (
        wires("none", "restraint", "none")
        + "    landmarks: {bulkhead: grommet, nose: end}\n    route: [{from: bulkhead, to: nose, length: 1 m}]\n"
        + rows(f"kind: reroute, wire: W2, by: [nose], {MADE}")
    )
    problem = "C1 works on a restraint system (W2), or puts a hand on a part of it"
    assert said(tmp_path, text, "SPC01") == [("stop", "C1", "C1", problem, WHOLE)]


@pytest.mark.parametrize(("row", "told"), [
    ("kind: reroute, wire: W2, by: [nose]", False),
    ("kind: remove, wire: W2, ends: {unit.2: gone, lamp.2: capped 30 mm}", False),
    ("kind: extend, wire: W2, plug: lamp, piece: BU 0.5 mm2, pigtail: 200 mm, gap: 300 mm", True),
])  # fmt: skip
def test_a_resistance_wire_keeps_its_length_and_may_be_led_elsewhere_or_go(
    row: str, told: bool, tmp_path: Path
) -> None:
    text = (
        wires("none", "resistance wire", "none")
        + "    landmarks: {bulkhead: grommet, nose: end}\n    route: [{from: bulkhead, to: nose, length: 1 m}]\n"
        + rows(f"{row}, {MADE}")
    )
    problem = "W2 is a resistance wire; its length is its value"
    mend = "Keep it whole between its own ends, or replace it by the maker's part"
    assert said(tmp_path, text, "SPC04") == ([("error", "C1", "C1", problem, mend)] if told else [])


def test_the_high_voltage_wires_of_a_row_are_told_together(tmp_path: Path) -> None:
    text = wires("high voltage", "none", "high voltage") + rows(
        f"kind: extend, plug: lamp, wires: {{W1: OG 0.5 mm2, W2: OG 0.5 mm2, W3: OG 0.5 mm2}}, stagger: 50 mm, {LONGER}"
    )
    problem = "C1 works on a high-voltage system (W1 and W3), or puts a hand on a part of it"
    mend = "Stop, and hand it to a person who is trained for it"
    assert said(tmp_path, text, "SPC02") == [("stop", "C1", "C1", problem, mend)]


def test_the_wire_that_another_is_tapped_onto_is_altered_too(tmp_path: Path) -> None:
    text = wires("none", "restraint") + rows(
        f"kind: tap, wire: N1, onto: W2, to: horn.1, reach: 300 mm, piece: BU 0.5 mm2, {MADE}"
    )
    assert entries(tmp_path, text, "SPC01") == ["C1"]


# ---- pairs ----------------------------------------------------------------------------------------------------------
def pair(*more: str, length: str = "length: 900 mm") -> str:
    """W1 and W2 are twisted, which W1 says; W3 and W4 are, which W4 says; W5 is alone."""
    text = wires(*["twisted pair"] * 4, "none", length=length)
    text = text.replace("lamp.1, ", "lamp.1, pair: W2, ").replace("lamp.4, ", "lamp.4, pair: W3, ")
    return text + rows(*more)


@pytest.mark.parametrize(("wire", "partner"), [("W1", "W2"), ("W2", "W1"), ("W3", "W4"), ("W4", "W3")])
@pytest.mark.parametrize("row", [
    f"kind: extend, plug: lamp, piece: BU 0.5 mm2, {LONGER}",
    f"kind: shorten, plug: lamp, take out: 100 mm, {MADE}",
    f"kind: terminate, end: END, into: new.1, tail: 700 mm, {MADE}",
])  # fmt: skip
def test_a_wire_that_is_changed_without_the_other_of_its_pair_is_told_of_that_other(
    row: str, wire: str, partner: str, tmp_path: Path
) -> None:
    text = pair(f"wire: {wire}, {row.replace('END', f'lamp.{wire[1]}')}")
    problem = f"{wire} is twisted with {partner}, which is not changed with it"
    assert said(tmp_path, text, "SPC03") == [("error", "C1", "C1", problem, "Change both alike")]


@pytest.mark.parametrize(("says", "told"), [
    ("tail: 700 mm", True),
    ("gap: 60 mm, piece: BU 0.5 mm2", True),
    ("pigtail: 80 mm, gap: 60 mm, piece: BU 0.5 mm2", True),
    ("piece: BU 0.5 mm2", True),
    ("cut: 400 mm", True),
    ("gap: 60 mm", True),
    ("pigtail: 80 mm", True),
    ("terminal: pin", False),  # the end keeps its length
])  # fmt: skip
def test_a_new_pin_counts_where_it_changes_the_length(says: str, told: bool, tmp_path: Path) -> None:
    text = pair(f"wire: W1, kind: terminate, end: lamp.1, into: new.1, {says}, {MADE}")
    assert entries(tmp_path, text, "SPC03") == (["C1"] if told else [])


def test_two_wires_of_a_pair_changed_in_two_ways_are_told_on_both_rows(tmp_path: Path) -> None:
    text = pair(
        f"wire: W1, kind: extend, plug: lamp, piece: BU 0.5 mm2, {LONGER}",
        f"wire: W5, kind: shorten, plug: lamp, take out: 100 mm, {MADE}",
        f"wire: W2, kind: shorten, plug: lamp, take out: 100 mm, {MADE}",
    )
    assert [(row, line, problem) for _, row, line, problem, _ in said(tmp_path, text, "SPC03")] == [
        ("C1", "C1", "W1 is twisted with W2, which is not changed with it"),
        ("C3", "C3", "W2 is twisted with W1, which is not changed with it"),
    ]


@pytest.mark.parametrize("first", ["W1", "W2"])
def test_pieces_of_unlike_length_are_told_once_on_the_row_of_the_first_wire(first: str, tmp_path: Path) -> None:
    # 300 + 2 x 10 mm of lap + 50 mm of slack = 370 mm; 306 mm make 376 mm. The joints lie 5 mm inside of the pigtails:
    # 195 and 245 mm, 50 mm apart
    second = "W2" if first == "W1" else "W1"
    text = pair(
        f"wire: {first}, kind: extend, plug: lamp, piece: BU 0.5 mm2, pigtail: 200 mm, gap: 300 mm, {MADE}",
        f"wire: {second}, kind: extend, plug: lamp, piece: BU 0.5 mm2, pigtail: 250 mm, gap: 306 mm, {MADE}",
        f"wire: W5, kind: extend, plug: lamp, piece: BU 0.5 mm2, pigtail: 300 mm, gap: 900 mm, {MADE}",
    )
    one, two = (370, 376) if first == "W1" else (376, 370)
    row = "C1" if first == "W1" else "C2"
    problem = f"the pieces of the pair W1, W2 are {one} and {two} mm"
    assert said(tmp_path, text, "SPC03") == [("error", row, row, problem, "Cut both alike; 5 mm is allowed")]


def test_a_piece_of_unknown_length_is_held_against_nothing(tmp_path: Path) -> None:
    for folder, (one, two) in {"first": ("unknown", "306 mm"), "second": ("306 mm", "unknown")}.items():
        text = pair(
            f"wire: W1, kind: extend, plug: lamp, piece: BU 0.5 mm2, pigtail: 200 mm, gap: {one}, {MADE}",
            f"wire: W2, kind: extend, plug: lamp, piece: BU 0.5 mm2, pigtail: 250 mm, gap: {two}, {MADE}",
        )
        assert entries(tmp_path / folder, text, "SPC03") == []


@pytest.mark.parametrize(("gap", "told"), [("300 mm", ["C3"]), ("unknown", [])])
def test_a_wire_with_a_stretch_of_unknown_length_has_no_length(gap: str, told: list[str], tmp_path: Path) -> None:
    """Shortened by 100 and 106 mm, the two differ by 6 mm, if what was let in before is alike in both."""
    text = pair(
        f"kind: extend, plug: lamp, wires: {{W1: BU 0.5 mm2, W2: BU 0.5 mm2}}, stagger: 50 mm, pigtail: 200 mm, "
        f"gap: {gap}, {MADE}",
        f"wire: W5, kind: shorten, plug: unit, take out: 50 mm, {MADE}",
        "wire: W1, kind: shorten, end: unit.1, pigtail: 200 mm, take out: 100 mm, made: 2031-05-04 AK",
        "wire: W2, kind: shorten, end: unit.2, pigtail: 250 mm, take out: 106 mm, made: 2031-05-04 AK",
    )
    assert entries(tmp_path, text, "SPC03") == told


@pytest.mark.parametrize(("second", "told"), [("219 mm", True), ("220 mm", False), ("181 mm", True), ("180 mm", False)])
def test_the_joints_of_a_pair_are_staggered_by_20_mm(second: str, told: bool, tmp_path: Path) -> None:
    text = pair(
        f"wire: W1, kind: extend, plug: lamp, piece: BU 0.5 mm2, pigtail: 200 mm, gap: 300 mm, {MADE}",
        f"wire: W2, kind: extend, plug: lamp, piece: BU 0.5 mm2, pigtail: {second}, gap: 300 mm, {MADE}",
    )
    problem = "C1-W1-plug and C2-W2-plug of the pair lie side by side"
    found = [finding for finding in said(tmp_path, text, "SPC03") if "-plug" in finding[3]]
    assert found == ([("error", "C1", "C1", problem, "Stagger them by about 30 mm")] if told else [])


def test_a_new_wire_that_is_said_to_be_of_a_pair_has_no_other_to_follow(tmp_path: Path) -> None:
    text = wires("none") + rows(
        f"kind: add, wire: N1, from: unit.7, to: lamp.7, piece: BU 0.5 mm2, cut: 900 mm, special: twisted pair, {MADE}",
        "kind: extend, wire: N1, plug: lamp, piece: BU 0.5 mm2, pigtail: 200 mm, gap: 300 mm, made: 2031-05-04 AK",
    )
    worked = work(tmp_path, text)
    assert all(row.counts for row in worked.plan.rows)
    assert [finding for finding in worked.findings if finding.code == "SPC03"] == []


@pytest.mark.parametrize(("kinds", "told"), [
    (("twisted pair", "none", "twisted pair"), "W1, W3"), (("none", "data pair", "twisted pair"), "W3"),
    (("none", "none", "none"), ""),
])  # fmt: skip
def test_of_the_wires_of_a_row_the_twisted_ones_are_told_to_be_untwisted(
    kinds: tuple[str, ...], told: str, tmp_path: Path
) -> None:
    text = (
        wires(*kinds)
        + f"""    changes:
      - id: C1
        kind: extend
        plug: lamp
        stagger: 50 mm
        wires: {{W1: BU 0.5 mm2, W2: BU 0.5 mm2, W3: BU 0.5 mm2}}
        pigtail: 200 mm
        gap: 300 mm
        untwisted: 51 mm # untwisted
        {MADE}
    """
    )
    problem = f"{told} run 51 mm untwisted; 50 mm is allowed"
    mend = "Twist the pair again up to the joint and the plug, as the maker had it"
    found = [finding for finding in said(tmp_path, text, "SPC03") if "untwisted;" in finding[3]]
    assert found == ([("error", "C1", "untwisted", problem, mend)] if told else [])


# ---- shields and sensors --------------------------------------------------------------------------------------------
CARRY = "Join the shield past the splice and cover it; then write shield: carried through"


@pytest.mark.parametrize(("kinds", "shield", "rank", "problem"), [
    (("none", "shielded", "none"), "", "warning",
     "W2 is shielded; the row does not say what became of the shield"),
    (("shielded", "none", "shielded"), "", "warning",
     "W1, W3 are shielded; the row does not say what became of the shield"),
    (("shielded", "none", "shielded"), "shield: left open, ", "error",
     "the shield of W1, W3 is left open at the joint"),
    (("shielded", "none", "shielded"), "shield: carried through, ", "", ""),
    (("shielded", "none", "shielded"), "shield: unknown, ", "", ""),
    (("none", "none", "none"), "shield: left open, ", "", ""),
])  # fmt: skip
def test_the_shielded_wires_of_a_row_are_told_in_one_sentence(
    kinds: tuple[str, ...], shield: str, rank: str, problem: str, tmp_path: Path
) -> None:
    text = wires(*kinds) + rows(
        f"kind: extend, plug: lamp, stagger: 50 mm, wires: {{W1: BU 0.5 mm2, W2: BU 0.5 mm2, W3: BU 0.5 mm2}}, "
        f"{shield}{LONGER}"
    )
    assert said(tmp_path, text, "SPC06") == ([(rank, "C1", "C1", problem, CARRY)] if rank else [])


@pytest.mark.parametrize("row", [
    "kind: extend, wire: W1, plug: lamp, piece: BU 0.5 mm2, pigtail: 200 mm, gap: 300 mm",
    "kind: shorten, wire: W1, plug: lamp, pigtail: 200 mm, take out: 100 mm",
    "kind: join, ends: [W1 at lamp.1, W2 at lamp.2]",
    "kind: terminate, wire: W1, end: lamp.1, into: new.1, gap: 60 mm, tail: 100 mm, piece: BU 0.5 mm2",
])  # fmt: skip
def test_every_row_with_a_joint_in_it_opens_a_shield(row: str, tmp_path: Path) -> None:
    text = wires("shielded", "none") + rows(f"{row}, {MADE}")
    problem = "W1 is shielded; the row does not say what became of the shield"
    assert said(tmp_path, text, "SPC06") == [("warning", "C1", "C1", problem, CARRY)]


@pytest.mark.parametrize("row", [
    "kind: reroute, wire: W1, by: [nose]", "kind: remove, wire: W1, ends: {unit.1: gone, lamp.1: capped 30 mm}",
])  # fmt: skip
def test_a_row_without_a_joint_in_it_opens_no_shield(row: str, tmp_path: Path) -> None:
    text = (
        wires("shielded", "none")
        + "    landmarks: {bulkhead: grommet, nose: end}\n    route: [{from: bulkhead, to: nose, length: 1 m}]\n"
        + rows(f"{row}, {MADE}")
    )
    assert entries(tmp_path, text, "SPC06") == []


@pytest.mark.parametrize(("at", "told"), [
    ("[unit.9, body]", "unit.9 and body"), ("[unit.9]", ""), ("[unit.9, unknown]", ""), ("[body, unit.9]",
                                                                                         "body and unit.9"),
])  # fmt: skip
def test_a_shield_lies_on_one_end_only(at: str, told: str, tmp_path: Path) -> None:
    text = f"""
    job: Shield
    wires:
      W1: {{from: unit.1, to: sensor.1, special: shielded, shield at: [unit.8]}}
      W2:
        from: unit.2
        to: sensor.2
        special: shielded
        shield at: {at} # at
    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    """
    problem = f"the shield of W2 is connected at {told}: current runs along it"
    mend = "Connect it at one end only, unless the donor's maker has it at both; then let it stand by name"
    assert said(tmp_path, text, "SPC06") == ([("error", "W2", "at", problem, mend)] if told else [])


SENSOR_MEND = "Crimp it, and keep grease and flux off the lead"


@pytest.mark.parametrize(("fixed", "told"), [("soldered", True), ("both", True), ("crimped", False)])
def test_a_soldered_terminal_on_the_lead_of_an_oxygen_sensor_is_told(fixed: str, told: bool, tmp_path: Path) -> None:
    text = wires("none", "oxygen sensor") + rows(
        f"kind: terminate, wire: W1, end: lamp.1, into: new.1, tail: 700 mm, terminal fixed: soldered, {MADE}",
        f"kind: terminate, wire: W2, end: lamp.2, into: new.2, tail: 700 mm, terminal fixed: {fixed}, {MADE}",
    )
    problem = "the oxygen sensor's lead W2 is soldered; sensor makers ask for a crimp"
    assert said(tmp_path, text, "SPC07") == ([("warning", "C2", "C2", problem, SENSOR_MEND)] if told else [])


def test_solder_is_told_at_the_row_whose_joint_it_is_in_and_of_the_sensors_in_it(tmp_path: Path) -> None:
    text = wires("oxygen sensor", "none", "oxygen sensor", "oxygen sensor") + rows(
        "kind: extend, plug: lamp, stagger: 50 mm, wires: {W1: BU 0.5 mm2, W2: BU 0.5 mm2, W3: BU 0.5 mm2}, "
        f"{LONGER}",
        f"kind: terminate, wire: W1, end: unit.1, into: new.1, tail: 700 mm, terminal fixed: crimped, {MADE}",
        f'kind: extend, plug: lamp, wire: W4, piece: BU 0.5 mm2, joint: "butt, crimped", {LONGER}',
        f'kind: extend, plug: unit, wire: W4, piece: BU 0.5 mm2, joint: "lap, both", {LONGER}',
    )
    assert said(tmp_path, text, "SPC07") == [
        ("warning", row, row, f"the oxygen sensor's lead {leads} is soldered; sensor makers ask for a crimp",
         SENSOR_MEND)
        for row, leads in (("C1", "W1, W3"), ("C4", "W4"))
    ]  # fmt: skip


def test_a_joint_whose_method_nobody_wrote_is_not_called_soldered(tmp_path: Path) -> None:
    text = wires("oxygen sensor").replace('joint: "lap, soldered", ', "") + rows(
        f"kind: extend, plug: lamp, wire: W1, piece: BU 0.5 mm2, {LONGER}"
    )
    assert entries(tmp_path, text, "SPC07") == []


def test_pieces_that_another_row_let_in_are_not_held_against_those_of_this_one(tmp_path: Path) -> None:
    """The two rows at the lamp are alike; the new ends at the unit, 60 and 90 mm longer, are told at their own row."""
    text = pair(
        f"wire: W1, kind: extend, plug: lamp, piece: BU 0.5 mm2, pigtail: 200 mm, gap: 300 mm, {MADE}",
        f"wire: W2, kind: extend, plug: lamp, piece: BU 0.5 mm2, pigtail: 250 mm, gap: 300 mm, {MADE}",
        f"wire: W1, kind: terminate, end: unit.1, into: new.1, gap: 60 mm, tail: 600 mm, piece: BU 0.5 mm2, {MADE}",
        f"wire: W2, kind: terminate, end: unit.2, into: new.2, gap: 90 mm, tail: 600 mm, piece: BU 0.5 mm2, {MADE}",
    )
    found = [(entry, problem.partition(" are ")[0]) for _, entry, _, problem, _ in said(tmp_path, text, "SPC03")]
    assert found == [("C3", "the wires of the pair W1, W2")]

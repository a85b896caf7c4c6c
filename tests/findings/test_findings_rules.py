"""What holds for findings as a whole: silence where nothing is known, acceptance, and rows that are refused."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from aswired.car.harness import View
from aswired.figures.worked import JobResult
from tests.findings.cases_circuits import LAMP, removed
from tests.findings.cases_rows import TWO
from tests.findings.cases_splices import made
from tests.findings.jobs import work

UNKNOWN = """
    job: Nothing is known
    options: {heater: {is: unknown, could be: [diesel]}}
    supply: unknown
    temperature: unknown
    ground side: unknown
    body returns: unknown
    usual: {joint: unknown, overlap: unknown, cover: unknown, slack: unknown, ring strip: unknown, cut to next: unknown}
    landmarks: {bulkhead: unknown, nose: unknown}
    route: [{from: bulkhead, to: nose, length: unknown}]
    plugs: {lamp: {seen from: unknown, cavities not examined: others}}
    fuses: {F1: {rating: unknown, fed: unknown}}
    switches: {inertia: {between: inertia.1 inertia.2, cuts fuel: unknown}}
    modules: {unit: {cavities not examined: others}}
    grounds: {G1: {conducts: unknown, cable: unknown, cable length: unknown}}
    splices: {FS1: {at: unknown, all members known: no}}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: unknown}
      pump: {between: pump.1 pump.2, draws: unknown, feed: not examined, return: not examined}
      fuel pump: {between: fuel.1 fuel.2, class: fuel pump, duty: unknown}
      shift lock: {between: lock.1 lock.2, for: heater is diesel}
      fan: {between: fan.1 fan.2, draws: unknown}
      wiper: {between: wiper.1 wiper.2, draws: unknown, verdict: deleted}
    wires:
      W1: {colour: unknown, size: unknown, from: unknown, to: lamp.1, length: unknown}
      W2: {colour: unknown, size: unknown, from: lamp.2, to: unknown}
      W3: {colour: unknown, size: unknown, from: FS1, to: wiper.1}
      W4: {colour: unknown, size: unknown, from: unknown, to: unknown}
      W5: {colour: unknown, size: unknown, from: unit.3, to: fan.1}
      W6: {colour: unknown, size: unknown, from: fan.2, to: FS1}
      W7: {colour: unknown, size: unknown, from: F1, to: inertia.1}
      W8: {colour: unknown, size: unknown, from: inertia.2, to: fuel.1, for: heater is diesel}
      W9: {colour: unknown, size: unknown, from: fuel.2, to: unknown}
    changes:
      - {id: C1, kind: remove, wires: {W3: {FS1: unknown, wiper.1: unknown}}, made: yes}
      - {id: C2, kind: extend, wire: W1, plug: lamp, gap: unknown, pigtail: unknown, piece: unknown, joint: unknown,
         cover: unknown, made: yes, photos: []}
      - {id: C3, kind: cap, wire: W6, end: FS1, stub: unknown, far: unknown, cover: unknown, made: yes}
      - {id: C4, kind: cap, wire: W5, end: unit.3, far: gone, only if: heater is diesel}
      - {id: C5, kind: ground, wire: W2, to: G1, gap: unknown, piece: unknown, ring: unknown, made: yes}
"""


def test_what_is_not_known_is_neither_stop_nor_error(tmp_path: Path) -> None:
    worked = work(tmp_path, UNKNOWN)
    assert [(f.code, f.entry, f.problem) for f in worked.findings if f.severity.word in ("stop", "error")] == []
    assert all(row.status in ("in force", "undecided") for row in worked.plan.rows)
    assert worked.may_power
    assert worked.may_hand_over
    entries = {(unseen.subject, unseen.entry) for unseen in worked.not_examined}
    assert entries >= {
        ("splices", "FS1"), ("splices", "C2-W1-plug"), ("cut ends", "C1-W3-FS1"), ("circuits", "lamp"),
        ("circuits", "pump"), ("circuits", "fan"), ("circuits", "fuel pump"), ("circuits", "shift lock"),
        ("wires", "W1"), ("wires", "W4"), ("cavities", "lamp"),
        ("cavities", "unit"), ("grounds", "G1"), ("fuses", "F1"), ("route", "bulkhead to nose"), ("changes", "C4"),
    }  # fmt: skip


def test_no_figure_is_made_from_what_is_not_known(tmp_path: Path) -> None:
    worked = work(tmp_path, UNKNOWN)
    assert {figure.key: figure.value for figure in worked.all_figures() if figure.value is not None} == {}
    assert [figure.key for figure in worked.all_figures() if figure.value is None and not figure.missing_words] == []


def stop(accepted_on_row: str = "", accepted_in_header: str = "") -> str:
    """A joint that is bare, and that nothing feeds."""
    text = made("lap, soldered").replace("made:", "cover: none\n        made:").replace(" # <", "")
    text = text.replace("    wires:", f"    accepted: {accepted_in_header}\n    wires:") if accepted_in_header else text
    return text.rstrip() + f"\n        accepted: {accepted_on_row}\n" if accepted_on_row else text


def live(accepted_on_row: str = "", accepted_in_header: str = "") -> str:
    """An end that is bare and live."""
    head = LAMP.replace("    fuses:", f"    accepted: {accepted_in_header}\n    fuses:") if accepted_in_header else LAMP
    row = removed("W1", "F1: uncapped, lamp.1: pulled", mark="")
    return head + (row.rstrip() + f"\n        accepted: {accepted_on_row}\n" if accepted_on_row else row)


SAID = "{finding: SPL04, by: AK, why: fuse is out}"


@pytest.mark.parametrize(
    "text",
    [
        stop(accepted_on_row=SAID),
        stop(accepted_in_header="{finding: SPL04, of: C1, by: AK, why: fuse is out}"),
    ],
    ids=["on the row", "in the header, of one thing"],
)
def test_what_a_named_person_lets_stand_stays_to_be_seen(text: str, tmp_path: Path) -> None:
    plain, accepted = work(tmp_path / "plain", stop()), work(tmp_path / "accepted", text)
    assert (plain.may_power, plain.may_hand_over) == (True, False)
    assert (accepted.may_power, accepted.may_hand_over) == (True, True)
    (finding,) = [finding for finding in accepted.findings if finding.code == "SPL04"]
    assert (finding.accepted_by, finding.accepted_why) == ("AK", "fuse is out")
    (before,) = [finding for finding in plain.findings if finding.code == "SPL04"]
    assert (finding.severity, finding.entry, finding.problem) == (before.severity, before.entry, before.problem)


@pytest.mark.parametrize(
    "text",
    [
        stop(accepted_on_row="{finding: END02, by: AK, why: another code}"),
        stop(accepted_in_header="{finding: SPL04, of: C2, by: AK, why: another joint}"),
        stop(accepted_in_header="{finding: SPL04, of: C, by: AK, why: not the whole id}"),
        stop(accepted_in_header="{finding: SPL04, by: AK, why: no thing is named}"),
    ],
    ids=["another code", "another entry", "part of an id", "no entry"],
)
def test_an_acceptance_of_something_else_clears_nothing(text: str, tmp_path: Path) -> None:
    worked = work(tmp_path, text)
    assert not worked.may_hand_over
    assert [finding.accepted_by for finding in worked.findings if finding.code == "SPL04"] == [""]


@pytest.mark.parametrize(
    "text",
    [
        live(accepted_on_row="{finding: END01, by: AK, why: fuse is out}"),
        live(accepted_in_header="{finding: END01, by: AK, why: fuse is out}"),
        live(accepted_in_header="{finding: END01, of: C1-W1-F1, by: AK, why: fuse is out}"),
    ],
    ids=["on the row", "in the header", "in the header, of one thing"],
)
def test_nobody_lets_a_bare_live_end_stand(text: str, tmp_path: Path) -> None:
    worked = work(tmp_path, text)
    assert not worked.may_power
    assert [finding.accepted_by for finding in worked.findings if finding.code == "END01"] == [""]
    assert [finding.code for finding in worked.findings if finding.code.startswith("ACC")] == ["ACC03"]


def test_rings_on_a_stud_are_let_stand_on_the_row_that_is_one_too_many(tmp_path: Path) -> None:
    # the finding stands under the stud, not under the row: the manual's own example of `accepted:`
    rows = "".join(
        f"      - {{id: C{n}, kind: ground, wire: W{n}, end: G1, to: L1, made: 2031-05-03 AK}}\n" for n in range(1, 5)
    )
    wires = "".join(f"      W{n}: {{from: plug{n}.1, to: G1}}\n" for n in range(1, 6))
    text = f"""
    job: Rings
    grounds: {{L1: {{back to: battery-}}}}
    wires:
{wires}    changes:
{rows}      - id: C5
        kind: ground
        wire: W5
        end: G1
        to: L1
        made: 2031-05-03 AK
        accepted: {{finding: GND02, by: AK, why: bus follows in spring}}
    """
    (finding,) = [finding for finding in work(tmp_path, text).findings if finding.code == "GND02"]
    assert (finding.entry, finding.accepted_by) == ("L1", "AK")


def test_the_acceptance_of_one_row_does_not_reach_another(tmp_path: Path) -> None:
    text = (
        stop(accepted_on_row=SAID)
        + """
      - id: C2
        kind: remove
        wires: {W3: {c.1: uncapped, FS2: uncapped}}
        made: 2031-05-03 AK
        accepted: [{finding: SPL04, by: AK, why: nothing there}]
    """
    )
    text = text.replace("    changes:", "      W3: {colour: RD, size: 1.0 mm2, from: c.1, to: FS2}\n    changes:")
    worked = work(tmp_path, text)
    assert {f.entry: f.accepted_by for f in worked.findings if f.code in ("SPL04", "END02")} == {
        "C1": "AK",
        "C2-W3-c.1": "",
        "C2-W3-FS2": "",
    }
    assert worked.may_power
    assert not worked.may_hand_over


def test_corrections_that_point_to_each_other_are_both_told(tmp_path: Path) -> None:
    text = TWO.replace("id: C1\n", "id: C1\n        corrects: C2\n") + "        corrects: C1\n"
    told = [(f.code, f.entry) for f in work(tmp_path, text).findings if f.code == "ROW10"]
    assert told == [("ROW10", "C1"), ("ROW10", "C2")]


# ---- refused rows ---------------------------------------------------------------------------------------------------
SHOP = """
    job: Refusals
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
    fuses: {F1: {rating: 10 A, fed: always}}
    grounds: {G1: {back to: battery-}, L1: {back to: battery-}}
    splices: {FS1: {}}
    offcuts: {O1: BU 1.0 mm2 500 mm}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: FS1, length: 300 mm}
      W3: {colour: BN, size: 1.0 mm2, from: horn.2, to: FS1, length: 900 mm}
      W4: {colour: BN, size: 1.0 mm2, from: FS1, to: G1, length: 900 mm}
    changes:
      - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 300 mm, piece: BU 1.0 mm2 from O1,
         made: 2031-05-03 AK}
"""
# each of them does part of its work before it finds that it cannot be so
REFUSED = {
    "the second wire of a grouped extension": "kind: extend, plug: lamp, pigtail: 250 mm, gap: 100 mm, "
    "stagger: 60 mm, wires: {W2: BU 1.0 mm2, W1: BU 1.0 mm2 from O1}",
    "the second stub of a removal": "kind: remove, wires: {W3: {horn.2: gone, FS1: flush}, "
    "W2: {lamp.2: gone, FS1: capped 400 mm}}",
    "the ring of another row": "kind: ground, wire: W4, end: G1, to: L1, gap: 100 mm, tail: 400 mm, "
    "piece: BK 1.0 mm2, ring: with C9",
    "the far end of a new lead": "kind: add, wire: W9, piece: BK 1.0 mm2, from: FS1, to: lamp.1, reach: 400 mm",
    "a tapped lead without an end": "kind: tap, wire: W9, onto: W4, from: FS1, tail: 300 mm, piece: BK 1.0 mm2",
    "one end twice in a join": "kind: join, ends: [W3 at FS1, W3 at FS1]",
    "an overdrawn offcut, planned": "kind: ground, wire: W4, end: G1, to: L1, gap: 400 mm, tail: 400 mm, "
    "piece: BU 1.0 mm2 from O1",
    "a cavity that is taken": "kind: terminate, wire: W4, end: G1, into: lamp.1, gap: 100 mm, piece: BK 1.0 mm2",
    "too much taken out": "kind: shorten, wires: [W3, W2], gap: -500 mm, tail: 100 mm, end: FS1",
    "an option that is not declared": "kind: cap, wire: W4, end: G1, stub: 40 mm, far: gone, only if: roof is open",
}


def harness(view: View) -> View:
    """A view without what is said about its rows."""
    return replace(view, rows=(), findings=())


@pytest.mark.parametrize("row", REFUSED.values(), ids=REFUSED.keys())
def test_a_refused_row_leaves_no_trace(row: str, tmp_path: Path) -> None:
    without = work(tmp_path / "without", SHOP)
    worked = work(tmp_path / "with", SHOP + f"      - {{id: C2, {row}}}\n")
    assert status(worked, "C2") == "refused"
    assert harness(worked.plan) == harness(without.plan)
    assert [finding.entry for finding in worked.findings if finding.code.startswith("ROW")] == ["C2"]


def status(worked: JobResult, row: str) -> str:
    found = worked.plan.row(row)
    return found.status if found is not None else "absent"


def test_rows_that_rest_on_a_refused_row_are_not_judged_and_leave_no_trace(tmp_path: Path) -> None:
    rows = """
      - {id: C2, kind: add, wire: W9, piece: BK 1.0 mm2, from: FS1, to: lamp.1}
      - {id: C3, kind: ground, wire: W4, end: G1, to: L1, ring: with C2}
      - {id: C4, kind: join, ends: [C2-W9-FS1, W2 at lamp.2]}
      - {id: C5, kind: cap, wire: W3, end: horn.2, stub: 40 mm, far: gone}
    """
    worked = work(tmp_path / "with", SHOP + rows)
    alone = work(tmp_path / "alone", SHOP + rows[rows.index("      - {id: C5") :])
    assert {row: status(worked, row) for row in ("C2", "C3", "C4", "C5")} == {
        "C2": "refused", "C3": "not judged", "C4": "not judged", "C5": "in force",
    }  # fmt: skip
    assert harness(worked.plan) == harness(alone.plan)


def test_work_on_a_lead_that_was_refused_is_not_judged(tmp_path: Path) -> None:
    rows = """
      - {id: C2, kind: add, wire: W9, piece: BK 1.0 mm2, from: FS1, to: lamp.1}
      - {id: C3, kind: extend, wire: W9, end: lamp.1, pigtail: 200 mm, gap: 300 mm, piece: BK 1.0 mm2}
    """
    assert status(work(tmp_path, SHOP + rows), "C3") == "not judged"

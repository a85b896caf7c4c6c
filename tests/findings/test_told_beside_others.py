"""What is told of one thing where another of nearly the same name, place or kind stands beside it."""

from __future__ import annotations

import textwrap
from pathlib import Path

import pytest

from aswired.checks.options_apart import parts_touched
from aswired.files import read_job
from tests.findings.jobs import work
from tests.findings.whole import MADE, assert_told


def test_what_a_row_lets_stand_is_not_that_of_a_row_whose_name_begins_alike(tmp_path: Path) -> None:
    lengthened = "kind: extend, plug: lamp, pigtail: 100 mm, gap: 200 mm, piece: BU 0.5 mm2"
    text = f"""
    job: C1 and C10
    usual: {{joint: "lap, soldered", overlap: 10 mm, slack: 0 mm}}
    fuses: {{F1: {{rating: 10 A}}, F2: {{rating: 10 A}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F2, to: lamp.2, length: 900 mm}}
    changes:
      - {{id: C1, wire: W1, {lengthened}, accepted: [{{finding: SIZ01, by: AK, why: short}}], {MADE}}}
      - {{id: C10, wire: W2, {lengthened}, {MADE}}}
    """
    found = [(f.entry, f.accepted_by) for f in work(tmp_path, text).findings if f.code == "SIZ01"]
    assert sorted(found) == [("C1-W1", "AK"), ("C10-W2", "")]


def test_heat_that_nobody_measured_is_not_told_as_measured(tmp_path: Path) -> None:
    # nobody measured: what a hot zone counts as stands in the table of thresholds
    text = f"""
    job: Hot
    landmarks: {{dash: fuse box, engine: block}}
    route: [{{from: dash, to: engine, length: 900 mm, zone: hot, hottest: unknown}}]
    changes:
      - {{id: C1, kind: cover, from: dash, to: engine, cover: vinyl tape, {MADE}}}
    """
    (told,) = [finding.problem for finding in work(tmp_path, text).findings if finding.code == "BUN02"]
    assert "a hot zone, counted as" in told
    assert "measured" not in told


def test_a_plug_of_which_one_cavity_alone_is_a_side_of_a_switch_is_an_ordinary_plug(tmp_path: Path) -> None:
    text = f"""
    job: One cavity of a switch
    switches: {{button: {{between: lamp.1 panel.1}}}}
    wires: {{W1: {{colour: BU, size: 1.0 mm2, from: a.1, to: lamp.1}}}}
    changes:
      - {{id: C1, kind: add, wire: W90, from: b.1, to: lamp.2, piece: BU 1.0 mm2, {MADE}}} # it
    """
    assert_told(tmp_path, text, "COL02", [
        ("COL02", "error", "C1-W90", "# it", "BU sits in lamp twice: this piece and W1",
         "Take another colour, or flag both at the plug"),
    ])  # fmt: skip


def test_options_whose_groups_of_wires_are_cut_from_one_offcut_are_tried_together(tmp_path: Path) -> None:
    group = "kind: extend, pigtail: 100 mm, gap: 200 mm, stagger: 50 mm"
    text = f"""
    job: One rack
    options: {{one: {{is: no, could be: [yes]}}, two: {{is: no, could be: [yes]}}}}
    offcuts: {{O1: BU 1.0 mm2 500 mm}}
    fuses: {{F1: {{}}, F2: {{}}, F3: {{}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: a.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F2, to: b.1, length: 900 mm}}
    changes:
      - {{id: C1, {group}, plug: a, wires: {{W1: BU 1.0 mm2 from O1}}, only if: one is yes}}
      - {{id: C2, {group}, plug: b, wires: {{W2: BU 1.0 mm2 from O1}}, only if: two is yes}}
    """
    (tmp_path / "job.yml").write_text(textwrap.dedent(text).lstrip("\n"), encoding="utf-8")
    job = read_job(tmp_path).job
    assert job is not None
    parts = parts_touched(job)
    assert parts["one"] & parts["two"]


def test_a_choice_of_ways_that_a_row_has_made_is_not_asked_for_again(tmp_path: Path) -> None:
    # a ring of legs: W1 and W2 may go by sill or by tunnel; a row says it of W1
    text = f"""
    job: A ring
    landmarks: {{dash: fuse box, sill: left, tunnel: middle, tail: lamps}}
    route:
      - {{from: dash, to: sill, length: 900 mm}}
      - {{from: sill, to: tail, length: 900 mm}}
      - {{from: dash, to: tunnel, length: 700 mm}}
      - {{from: tunnel, to: tail, length: 700 mm}}
    fuses: {{F1: {{in: dash}}, F2: {{in: dash}}}}
    plugs: {{lamp: {{at: tail}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: lamp.1}}
      W2: {{size: 1.0 mm2, from: F2, to: lamp.2}} # two
    changes:
      - {{id: C1, kind: reroute, wire: W1, by: [sill], {MADE}}}
    """
    assert_told(tmp_path, text, "PLC04", [
        ("PLC04", "warning", "W2", "# two", "the route leads W2 from dash to tail in more than one way",
         "Write by: and a landmark it passes, such as sill"),
    ])  # fmt: skip


def test_of_two_runs_too_thick_for_a_conduit_the_thicker_is_told_though_neither_is_known_whole(tmp_path: Path) -> None:
    # W1 is 3 mm thick and runs over the first leg; W2 and W3, 3 mm each, lie side by side on the second: 6 mm at least.
    # On each lies a wire of unread size besides.
    text = f"""
    job: A conduit over two legs
    landmarks: {{dash: fuse box, mid: clip, nose: takeout}}
    route: [{{from: dash, to: mid, length: 900 mm}}, {{from: mid, to: nose, length: 900 mm}}]
    plugs: {{a: {{at: dash}}, b: {{at: mid}}, c: {{at: nose}}}}
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: b.1, outside: 3 mm}}
      W2: {{size: 1.0 mm2, from: b.2, to: c.2, outside: 3 mm}}
      W3: {{size: 1.0 mm2, from: b.3, to: c.3, outside: 3 mm}}
      W4: {{size: unknown, from: a.4, to: c.4}}
    changes:
      - {{id: C1, kind: cover, from: dash, to: nose, cover: conduit 2 mm, {MADE}}}
    """
    (told,) = [finding.problem for finding in work(tmp_path, text).findings if finding.code == "BUN01"]
    assert "mid to nose" in told
    assert "dash to mid" not in told


@pytest.mark.parametrize(("fed", "told"), [("fed: always", 1), ("fed: unknown", 0), ("feeds: pump", 0)])
def test_a_fuel_pump_behind_a_fuse_of_which_nobody_wrote_when_it_is_live_is_not_judged(
    fed: str, told: int, tmp_path: Path
) -> None:
    text = f"""
    job: Pump
    fuses: {{F1: {{rating: 15 A, {fed}}}}}
    loads: {{pump: {{between: pump.1 pump.2, class: fuel pump}}}}
    wires:
      W1: {{size: 1.5 mm2, from: F1, to: pump.1}}
      W2: {{size: 1.5 mm2, from: pump.2, to: battery-}}
    changes: [{{id: C1, kind: verify, proves: [C1], {MADE}}}]
    """
    worked = work(tmp_path, text)
    assert sum(finding.code == "LOD04" for finding in worked.findings) == told
    assert worked.may_power is not bool(told)


def test_a_relay_that_only_a_row_brings_in_is_a_name_of_the_job(tmp_path: Path) -> None:
    text = f"""
    job: A relay by a row
    wires: {{W1: {{size: 1.0 mm2, from: a.1, to: b.1}}}}
    changes:
      - {{id: C1, kind: protect, relay: K5, feeds: the horn, {MADE}}}
    photos: [{{id: P1, file: photos/p1.jpg, shows: [K5]}}, {{id: P2, file: photos/p2.jpg, shows: [K6]}}]
    """
    assert [f.entry for f in work(tmp_path, text).findings if f.code == "REF02"] == ["P2"]


def test_a_picture_that_a_row_named_stays_named_when_the_row_is_done_again(tmp_path: Path) -> None:
    cap = "kind: cap, wire: W1, end: b.1, stub: 90 mm, far: gone, cover: adhesive sleeve 40 mm"
    text = f"""
    job: Done again
    wires: {{W1: {{size: 1.0 mm2, from: a.1, to: b.1, length: 900 mm}}}}
    changes:
      - {{id: C1, {cap}, photos: [P1], made: 2031-05-03 AK}}
      - {{id: C2, {cap}, redoes: C1, made: 2031-05-04 AK}}
    photos: [{{id: P1, file: photos/p1.jpg}}, {{id: P2, file: photos/p2.jpg}}]
    """
    worked = work(tmp_path, text)
    assert [row.status for row in worked.plan.rows] == ["redone", "in force"]
    assert [f.entry for f in worked.findings if f.code == "PHO05"] == ["P2"]

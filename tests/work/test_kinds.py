"""What reroute, protect, bridge and swap come to on a car: lengths and places by hand, traces, what the pages say."""

from __future__ import annotations

import dataclasses
import re
from pathlib import Path

import pytest

from aswired.car.asbuilt import fold
from aswired.car.changes import KINDS, Kind
from aswired.car.harness import NodeKind
from aswired.car.route import Route
from aswired.car.trace import Net
from aswired.figures.feeds import protected
from aswired.figures.places import placed_joints
from aswired.figures.worked import JobResult
from aswired.ledger.record import Why
from aswired.network.unmeasured import lines_to_write
from aswired.sheets.cautions import cautions
from aswired.sheets.changes import change_rows
from aswired.sheets.connectors import connector_views
from aswired.sheets.fuses import fuse_sheet
from aswired.sheets.open_work import OpenWork, open_work
from aswired.sheets.places import places_of_nodes
from aswired.sheets.recorded import load_facts
from aswired.sheets.search import entries_of
from aswired.sheets.worksheet import work_sheet
from findings.jobs import DAY, work

# two ways from dash to tail: 500 + 500 over the roof, 700 + 700 along the sill
HEAD = """job: Van
usual: {joint: "lap, soldered", overlap: 10 mm, slack: 50 mm, ring strip: 6 mm, cover: adhesive sleeve 40 mm}
landmarks: {dash: d, roof: r, sill: s, tail: t}
route:
  - {from: dash, to: roof, length: 500 mm}
  - {from: roof, to: tail, length: 500 mm}
  - {from: dash, to: sill, length: 700 mm}
  - {from: sill, to: tail, length: 700 mm}
plugs: {lamp: {ways: 2, at: tail, seen from: wire side}, neutral: {ways: 2}}
modules: {unit: {out: {3: fan feed, 4: data to the dash}, ground: [31], at: dash}}
fuses: {F1: {rating: 15 A, in: dash, fed: ignition}, F9: {rating: 5 A, in: dash, use: spare}}
grounds: {G1: {back to: battery-, conducts: yes, cable: 10 mm2, cable length: 1 m}}
loads: {tail lamp: {between: lamp.1 lamp.2, draws: 4 A, class: lamp}}
wires:
  W1: {colour: RD, size: 1.5 mm2, from: F1, to: lamp.1, length: 1000 mm, by: [roof]}
  W2: {colour: BK, size: 1.5 mm2, from: lamp.2, to: G1, length: 900 mm}
  W3: {colour: RD, size: 2.5 mm2, from: battery+, to: F1.feed, length: 800 mm}
  W4: {colour: YE, size: 1 mm2, from: neutral.1, to: S5, length: 600 mm}
  W5: {colour: VT, size: 1 mm2, from: neutral.2, to: S6, length: 600 mm}
  W6: {colour: GN, size: 1 mm2, from: unit.3, to: fan.1, length: 700 mm}
  W7: {colour: GY, size: 1 mm2, from: S5, to: S6, length: 400 mm}
changes:
"""
NEAR = HEAD.replace("to: F1.feed, length: 800 mm", "to: F1.feed, length: 300 mm")  # the fuse as near as it has to be


@pytest.fixture
def van(tmp_path: Path):
    def made(*rows: str, head: str = HEAD) -> JobResult:
        worked = work(tmp_path / "van", head + "".join(f"  - {{{row}}}\n" for row in rows))
        left_out = {result.id: result.why for result in worked.plan.rows if not result.counts}
        assert left_out == {}
        return worked

    return made


def ends(worked: JobResult, wire: str) -> dict[tuple[str, str], float | None]:
    return {stretch.ends: stretch.length_mm for stretch in worked.plan.of_wire(wire)}


def errors(worked: JobResult) -> list[str]:
    return [f"{f.severity.word} {f.code} {f.entry}: {f.problem}" for f in worked.findings if f.severity <= 1]


# ---- reroute --------------------------------------------------------------------------------------------------------
EXTEND = (
    "id: C2, kind: extend, wire: W1, plug: lamp, tail: 700 mm, pigtail: 300 mm, piece: RD 1.5 mm2, made: 2031-05-04 AK"
)


def test_a_piece_is_as_long_as_the_way_the_wire_takes_when_it_is_cut(van):
    # over the roof 1000 mm, along the sill 1400: gap 0 or 400 beside 700 + 300; e = gap + 50 + 10 + 10
    roof = van(EXTEND)
    sill = van("id: C1, kind: reroute, wire: W1, by: [sill], made: 2031-05-03 AK", EXTEND)
    assert [piece.length_mm for piece in roof.pieces] == [70]
    assert [piece.length_mm for piece in sill.pieces] == [470]


def test_a_splice_lies_on_the_way_that_its_wire_takes_in_that_view(van):
    worked = van(EXTEND, "id: C3, kind: reroute, wires: [W1], by: [sill]")
    route = Route(worked.job)
    places = {
        view.name: {placed.joint.id: placed.place for placed in placed_joints(worked.job, view, route)}
        for view in (worked.now, worked.plan)
    }
    # its centre lies 300 mm less half the overlap of 10 mm from the plug
    assert places["now"]["C2-W1-plug"] == "295 mm from tail towards roof"
    assert places["plan"]["C2-W1-plug"] == "295 mm from tail towards sill"
    assert worked.donor.wires["W1"].by == ("roof",)


def test_a_rerouted_wire_keeps_its_conductor_and_its_row_says_which_way(van):
    worked = van("id: C1, kind: reroute, wires: [W1, W2], by: [sill], from: roof, to: tail, made: yes")
    assert ends(worked, "W1") == {("F1", "lamp.1"): 1000}
    assert [(line.wire, line.before_mm, line.after_mm, line.scrap_mm) for line in worked.plan.conductor_account] == [
        ("W1", 1000, 1000, 0),
        ("W2", 900, 900, 0),
    ]
    (row,) = change_rows(worked)
    assert row.what == "Rerouting of W1, W2 by sill"
    assert ("rerouted", "from roof to tail") in [(fact.name, fact.value) for fact in row.facts]


# ---- protect --------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("end", "tail"), [("battery+", "150 mm"), ("F1.feed", "650 mm")])
def test_the_feed_side_of_an_inline_fuse_is_told_by_the_wires_ends(van, end, tail):
    worked = van(f"id: C1, kind: protect, fuse: F16, rating: 20 A, wire: W3, end: {end}, tail: {tail}, made: yes")
    assert ends(worked, "W3") == {("F16.feed", "battery+"): 150, ("F1.feed", "F16"): 650}
    assert worked.circuits["tail lamp"].fuses == ("F16", "F1")
    assert worked.circuits["tail lamp"].feed.state == "complete"
    assert [s.name for s in protected(Net(worked.job, worked.shown), "F16")] == ["W3 from F1.feed to F16"]


def test_the_feed_side_is_told_by_a_modules_output_and_else_by_the_row(van):
    module = van("id: C1, kind: protect, fuse: F16, wire: W6, end: fan.1, tail: 100 mm, made: yes")
    assert ends(module, "W6") == {("F16", "fan.1"): 100, ("F16.feed", "unit.3"): 600}
    for end, other in (("S5", "S6"), ("S6", "S5")):
        neither = van(f"id: C1, kind: protect, fuse: F16, wire: W7, end: {end}, tail: 100 mm, made: yes")
        assert ends(neither, "W7") == {tuple(sorted((end, "F16.feed"))): 100, tuple(sorted((other, "F16"))): 300}


# a wire by what its two ends sit in, and by which of them it is fed; where that does not tell, the row's end is the fed
# one
FED = [
    ("battery+", "lamp.9", "battery+"),
    ("F1", "lamp.9", "F1"),
    ("unit.3", "lamp.9", "unit.3"),  # said to give a feed
    ("battery-", "lamp.9", "lamp.9"),
    ("G1", "lamp.9", "lamp.9"),
    ("F1.feed", "lamp.9", "lamp.9"),  # what the wire feeds is the fuse
    ("unit.31", "lamp.9", "lamp.9"),  # said to be a ground
    ("battery+", "F1.feed", "battery+"),
    ("F1", "G1", "F1"),
    ("unit.4", "lamp.9", None),  # data is no feed
    ("unit.7", "lamp.9", None),  # nothing is said of it
    ("S9", "lamp.9", None),
    ("battery+", "F1", None),  # both give
    ("battery-", "G1", None),  # both take
]


@pytest.mark.parametrize("written", [0, 1], ids=["as written", "from its other end"])
@pytest.mark.parametrize(("one", "other", "fed_by"), FED)
def test_the_feed_side_of_a_fuse_let_in_is_towards_what_feeds_the_wire(one, other, fed_by, written, van):
    ends_of = (one, other)
    head = HEAD.replace(
        "changes:\n",
        f"  W9: {{colour: RD, size: 1 mm2, from: {ends_of[written]}, to: {ends_of[1 - written]}, length: 500 mm}}\n"
        "changes:\n",
    )
    for end, beyond in ((one, other), (other, one)):
        fed = fed_by or end
        worked = van(f"id: C1, kind: protect, fuse: F16, wire: W9, end: {end}, tail: 100 mm, made: yes", head=head)
        # 100 from the row's end, the other 400 on the far side
        sides = {end: 100, beyond: 400}
        load = beyond if fed == end else end
        assert ends(worked, "W9") == {
            tuple(sorted((fed, "F16.feed"))): sides[fed],
            tuple(sorted((load, "F16"))): sides[load],
        }


@pytest.mark.parametrize(
    ("one", "other", "moves", "to"),
    [
        ("battery+", "lamp.9", "lamp.9", "F16.feed"),  # it brings the feed to the fuse
        ("battery+", "lamp.9", "battery+", "F16"),  # what it fed hangs on the fuse now
        ("battery-", "lamp.9", "battery-", "F16.feed"),
        ("battery-", "lamp.9", "lamp.9", "F16"),
        ("unit.3", "lamp.9", "lamp.9", "F16.feed"),
        ("unit.31", "lamp.9", "lamp.9", "F16"),
        ("S9", "lamp.9", "lamp.9", "F16"),
        ("F1", "lamp.9", "F1", "F16"),  # from one fuse to another it stays on its side
        ("F1.feed", "lamp.9", "F1.feed", "F16.feed"),
    ],
)
def test_an_end_that_moves_to_a_fuse_goes_to_the_side_that_its_other_end_tells(one, other, moves, to, van):
    head = HEAD.replace(
        "changes:\n",
        f"  W9: {{colour: RD, size: 1 mm2, from: {one}, to: {other}, length: 500 mm}}\nchanges:\n",
    )
    worked = van(f"id: C1, kind: protect, fuse: F16, wire: W9, end: {moves}, made: yes", head=head)
    stays = other if moves == one else one
    assert ends(worked, "W9") == {tuple(sorted((stays, to))): 500}


def test_an_inline_fuse_cuts_and_loses_nothing(van):
    row = "id: C1, kind: protect, fuse: F16, wire: W3, end: battery+, tail: 150 mm, made: yes"
    worked = van(row)
    (line,) = worked.plan.conductor_account
    assert (line.before_mm, line.piece_mm, line.after_mm, line.scrap_mm) == (800, 0, 800, 0)
    # 6 mm of each new end lie in the holder's terminals
    assert sorted(s.effective_mm or 0 for s in worked.plan.of_wire("W3")) == [144, 644]
    bare = van(row, head=HEAD.replace(", ring strip: 6 mm", ""))
    assert {s.effective_mm for s in bare.plan.of_wire("W3")} == {None}
    unknown = van(row.replace("150 mm", "unknown"))
    assert set(ends(unknown, "W3").values()) == {None}
    assert unknown.plan.conductor_account[0].scrap_mm is None


def test_a_wire_end_moves_to_the_same_side_of_another_fuse(van):
    worked = van(
        "id: C1, kind: protect, fuse: F9, rating: 10 A, feeds: tail lamp, wire: W1, end: F1, made: 2031-05-03 AK",
        "id: C2, kind: protect, fuse: F9, wire: W3, end: F1.feed, made: 2031-05-04 AK",
        "id: C3, kind: protect, fuse: F1, use: spare, made: 2031-05-05 AK",
    )
    assert ends(worked, "W1") == {("F9", "lamp.1"): 1000}
    assert ends(worked, "W3") == {("F9.feed", "battery+"): 800}
    facts = {name: (f.facts.rating.text, f.facts.use, f.rows) for name, f in worked.shown.fuses.items()}
    assert facts == {"F1": ("15 A", "spare", ("C3",)), "F9": ("10 A", "in use", ("C1", "C2"))}
    assert {name: (f.facts.rating.text, f.facts.use) for name, f in worked.donor.fuses.items()} == {
        "F1": ("15 A", "in use"),
        "F9": ("5 A", "spare"),
    }
    early = fold(worked.job, "now", DAY.replace(month=5, day=3))
    assert (early.fuses["F9"].rows, early.fuses["F1"].spare) == (("C1",), False)
    assert worked.shown.fuses["F9"].facts.line_of("rating") == worked.job.changes[0].line_of("rating")
    rows = {row.name: row for row in fuse_sheet(worked).rows}
    assert (rows["F9"].rating, rows["F9"].loads, rows["F9"].rows) == ("10 A", ("tail lamp",), ("C1", "C2"))
    assert rows["F1"].spare


def test_an_end_that_brings_the_feed_goes_to_the_feed_side(van):
    head = HEAD.replace("from: battery+, to: F1.feed", "from: battery+, to: stud.1")
    worked = van("id: C1, kind: protect, fuse: F16, wire: W3, end: stud.1, made: yes", head=head)
    assert ends(worked, "W3") == {("F16.feed", "battery+"): 800}


def test_a_fuse_and_a_relay_that_rows_create_stand_on_the_fuse_page(van):
    worked = van(
        "id: C1, kind: protect, fuse: F16, rating: 20 A, wire: W3, end: battery+, tail: 150 mm, made: yes",
        "id: C2, kind: protect, relay: K3, feeds: fan, fed: ignition, made: yes",
    )
    assert (worked.plan.fuses["F16"].declared, worked.plan.fuses["F16"].rows) == (False, ("C1",))
    assert "F16" not in worked.donor.fuses
    assert worked.plan.nodes["F16"].kind is NodeKind.FUSE
    sheet = fuse_sheet(worked)
    assert {row.name: row.where for row in sheet.rows}["F16"] == "in line in W3"
    assert [(relay.name, relay.words, relay.fed) for relay in sheet.relays] == [("K3", "fan", "ignition")]


def test_a_row_that_removes_leaves_a_fuse_spare_from_then_on(van):
    row = "id: C1, kind: remove, wires: {W1: {F1: pulled, lamp.1: gone}}, spare: [F1]"
    planned = van(row)
    assert (planned.donor.fuses["F1"].spare, planned.plan.fuses["F1"].spare) == (False, True)


# ---- bridge ---------------------------------------------------------------------------------------------------------
BRIDGE = (
    "id: C1, kind: bridge, ends: [neutral.1, neutral.2], piece: BU 1 mm2, cut: 80 mm, interlock: park or neutral, "
    "decided by: AK, instead: switch on the clutch pedal, warning: starts in gear with the pedal down, "
    "why: manual gearbox, made: yes"
)


def test_a_jumper_joins_what_the_cavities_hold(van):
    worked = van(BRIDGE)
    assert ends(worked, "C1") == {("neutral.1", "neutral.2"): 80}
    assert {s.wire for s in worked.plan.at_node["neutral.1"]} == {"W4", "C1"}
    assert "S6" in Net(worked.job, worked.plan).reach("neutral.1").nodes
    assert [(p.id, p.wire, p.recorded_mm) for p in worked.pieces] == [("C1", "C1", 80)]
    (line,) = worked.plan.conductor_account
    assert (line.wire, line.before_mm, line.piece_mm, line.after_mm) == ("C1", 0, 80, 80)
    unknown = van(BRIDGE.replace("80 mm", "unknown"))
    assert unknown.plan.conductor_account[0].after_mm is None


def test_two_free_ends_meet_in_one_splice(van):
    worked = van(
        "id: C1, kind: cap, wire: W5, end: S6, stub: 200 mm, far: gone, made: yes",
        "id: C2, kind: bridge, ends: [W4 at neutral.1, C1-W5-S6], interlock: clutch, decided by: AK, made: yes",
    )
    assert {s.wire for s in worked.plan.at_node["C2"]} == {"W4", "W5"}
    assert worked.plan.joints["C2"].wires == ("W4", "W5")
    assert not worked.pieces


def test_a_cut_end_is_known_by_a_shorter_name_also_after_it_was_sealed_anew(van):
    cut = "id: C1, kind: cap, wire: W5, end: S6, stub: 200 mm, far: gone, made: yes"
    anew = "id: C2, kind: cap, wire: W5, end: C1-W5, stub: 150 mm, cover: crimp cap, made: yes"
    joined = "id: C3, kind: bridge, ends: [W4 at neutral.1, C1-W5], interlock: clutch, decided by: AK, made: yes"
    worked = van(cut, anew, joined)
    assert worked.plan.joints["C3"].wires == ("W4", "W5")
    assert "C1-W5-S6" not in worked.plan.nodes
    # cut back from 200 to 150; of the joint W5 keeps its 150
    assert ends(worked, "W5") == {("C3", "S6"): 150}
    assert ends(van(cut, anew), "W5") == {("C1-W5-S6", "S6"): 150}


@pytest.mark.parametrize(
    ("spoken_of", "length_mm"),
    # a way of 400 mm takes the usual slack of 50 mm and 10 mm of overlap at each end
    [("reach: 400 mm", 470.0), ("cut: 400 mm", 400.0), ("piece: BU 1 mm2", None), ("wire: J1", None)],
)
def test_whatever_is_said_of_a_jumper_makes_it_a_wire_of_its_own_between_two_cut_ends(spoken_of, length_mm, van):
    worked = van(
        "id: C1, kind: cap, wire: W5, end: S6, stub: 200 mm, far: gone, made: yes",
        "id: C2, kind: cap, wire: W4, end: neutral.1, stub: 200 mm, far: gone, made: yes",
        f"id: C3, kind: bridge, ends: [C2-W4-neutral.1, C1-W5-S6], decided by: AK, {spoken_of}, made: yes",
    )
    lead = "J1" if spoken_of == "wire: J1" else "C3"
    assert [piece.wire for piece in worked.pieces] == [lead]
    assert {run.length_mm for run in worked.plan.of_wire(lead)} == {length_mm}


@pytest.mark.parametrize(("wires", "named"), [("W1, W2, W4", "W1, W2, W4"), ("W1, W2, W4, W5", "4 wires")])
def test_a_heading_names_up_to_three_wires_and_counts_more(wires, named, van):
    worked = van(f"id: C1, kind: reroute, wires: [{wires}], by: [sill], made: yes")
    assert [row.what for row in change_rows(worked)] == [f"Rerouting of {named} by sill"]


def test_a_check_names_every_fuse_that_was_drawn_for_it(van):
    worked = van("id: C1, kind: verify, proves: [C1], dead without: [F1, F9], made: yes")
    (row,) = change_rows(worked)
    assert [fact.value for fact in row.facts if fact.name == "circuits dead with the fuse out"] == ["F1, F9"]


def test_the_cautions_say_who_decided_and_what_stands_in_its_place(van):
    def said(*rows: str) -> list[tuple[str, str, tuple[str, ...]]]:
        return [(c.title, c.text, c.ids) for c in cautions(van(*rows)) if "bridged" in c.title]

    assert said(BRIDGE) == [
        (
            "Interlock bridged: park or neutral",
            "Starts in gear with the pedal down. Decided by AK. In its place: switch on the clutch pedal. "
            "Why: manual gearbox.",
            ("C1",),
        )
    ]
    plain = "id: C1, kind: bridge, ends: [neutral.1, neutral.2], piece: BU 1 mm2, decided by: unknown, made: yes"
    assert said(plain) == [
        (
            "Interlock bridged: neutral.1 with neutral.2",
            "Who decided it is not recorded. What stands in its place is not recorded.",
            ("C1",),
        )
    ]
    made = "id: C9, kind: verify, proves: [C1], made: yes"
    assert said(BRIDGE.replace(", made: yes", ""), made) == []  # planned: nothing is bridged yet


# ---- swap -----------------------------------------------------------------------------------------------------------
SWAP = "id: C1, kind: swap, plug: lamp, new plug: lamp-b, cavities: {1: 2, 2: 1}, seen from: wire side, made: yes"


def test_wires_move_by_the_map_and_the_load_goes_with_the_connector(van):
    worked = van(SWAP, head=NEAR)
    assert ends(worked, "W1") == {("F1", "lamp-b.2"): 1000}
    assert ends(worked, "W2") == {("G1", "lamp-b.1"): 900}
    circuit = worked.circuits["tail lamp"]
    assert (circuit.feed_end, circuit.return_end) == ("lamp-b.2", "lamp-b.1")
    assert (circuit.feed.state, circuit.back.state) == ("complete", "complete")
    assert worked.donor_circuits["tail lamp"].feed_end == "lamp.1"
    assert worked.circuit_figures["tail lamp"].together.whole.value is not None
    assert errors(worked) == []


def test_a_load_declared_behind_the_new_connector_is_another_load(van):
    head = HEAD.replace(
        "loads: {tail lamp: {",
        "loads: {new lamp: {between: lamp-b.2 lamp-b.1, draws: 1 A}, tail lamp: {verdict: deleted, ",
    )
    worked = van(SWAP, head=head)
    assert worked.circuits["new lamp"].feed.state == "complete"
    assert worked.circuits["tail lamp"].feed.state != "complete"
    assert "LOD02" not in {finding.code for finding in worked.findings}


def test_the_new_connector_shows_its_map_and_stands_where_the_old_one_stood(van):
    row = "id: C2, kind: extend, wire: W1, plug: lamp-b, pigtail: 300 mm, gap: 100 mm, piece: RD 1.5 mm2, made: yes"
    worked = van(SWAP, row)
    assert {placed.joint.id: placed.place for placed in worked.joints}["C2-W1-plug"] == "295 mm from tail towards roof"
    assert places_of_nodes(worked)("lamp-b.2") == "tail, t"
    views = {view.name: view for view in connector_views(worked)}
    new, old = views["lamp-b"], views["lamp"]
    assert (new.replaces, new.place, new.seen_from) == ("lamp", "tail", "wire side")
    assert [(c.cavity, c.was, c.carries) for c in new.cavities] == [
        ("1", "lamp.2", "tail lamp"),
        ("2", "lamp.1", "tail lamp"),
    ]
    assert (old.replaced_by, old.gone) == ("lamp-b", True)
    assert [(c.cavity, c.now_in) for c in old.cavities] == [("1", "lamp-b.2"), ("2", "lamp-b.1")]


def test_terminals_are_used_again_or_cut_off(van):
    ring = "id: C0, kind: terminate, wire: W1, end: lamp.1, into: lamp.3, terminal: new, made: yes"
    swap = SWAP.replace("{1: 2, 2: 1}", "{3: 2, 2: 1}")
    # a new terminal holds 6 mm; used again it goes along, cut off it stays behind and a new one takes 6 mm more
    (again,) = van(ring, swap).plan.of_wire("W1")
    assert (again.length_mm, again.effective_mm) == (1000, 994)
    (cut,) = van(ring, swap.replace("made", "terminal: new, made")).plan.of_wire("W1")
    assert (cut.length_mm, cut.effective_mm) == (994, 988)


def test_a_second_swap_is_followed_and_an_unknown_cavity_stays_unknown(van):
    again = SWAP.replace("C1", "C2").replace("plug: lamp, new plug: lamp-b", "plug: lamp-b, new plug: lamp-c")
    again = again.replace("{1: 2, 2: 1}", "{2: 7, 1: unknown}")
    worked = van(SWAP, again, head=NEAR)
    assert worked.plan.replaced == {"lamp.1": "lamp-c.7", "lamp.2": "lamp-b.1", "lamp-b.2": "lamp-c.7"}
    assert ends(worked, "W2") == {("G1", "unknown W2"): 900}
    assert errors(worked) == []


# ---- all four -------------------------------------------------------------------------------------------------------
def test_what_is_written_unknown_raises_no_stop_and_no_error(van):
    worked = van(
        SWAP.replace("{1: 2, 2: 1}", "{1: unknown, 2: unknown}").replace("wire side", "unknown"),
        "id: C2, kind: protect, fuse: F16, rating: unknown, fed: unknown, wire: W3, end: battery+, tail: unknown, "
        "made: yes",
        "id: C3, kind: bridge, ends: [neutral.1, neutral.2], piece: unknown, cut: unknown, interlock: other, "
        "decided by: unknown, instead: unknown, made: yes",
        head=HEAD.replace("fuses: {", "fuses: {F16: {rating: unknown}, "),
    )
    assert errors(worked) == []
    assert "C1" in {thing.entry for thing in worked.not_examined if "cavity map" in thing.what}


def test_search_finds_what_the_new_rows_say(van):
    worked = van(
        SWAP,
        "id: C2, kind: reroute, wire: W4, by: [sill], made: yes",
        "id: C3, kind: protect, fuse: F16, wire: W3, end: battery+, tail: 150 mm, made: yes",
        BRIDGE.replace("C1", "C4"),
    )
    text = {entry.id: f"{entry.title} {entry.text}" for entry in reversed(entries_of(worked))}  # rows come first
    assert "lamp-b.2" in text["C1"]
    assert "sill" in text["C2"]
    assert "F16" in text["C3"]
    assert "F16" in text
    assert re.search("park or neutral.*clutch pedal", text["C4"])


@pytest.mark.parametrize(
    ("known", "stays"),
    [("lamp.2", {"lamp.2", "L1"}), ("G2", {"L1", "unknown W1"}), ("FS9", {"L1", "unknown W1"})],
)
def test_a_ground_row_without_an_end_leaves_a_lead_on_its_plug(known: str, stays: set[str], tmp_path: Path) -> None:
    text = f"""
    job: Ends
    grounds: {{G2: {{}}, L1: {{back to: battery-}}}}
    wires: {{W1: {{colour: BN, size: 1.5 mm2, from: {known}, to: unknown}}}}
    changes: [{{id: C1, kind: ground, wire: W1, to: L1, made: 2031-05-03 AK}}]
    """
    (stretch,) = work(tmp_path, text).plan.of_wire("W1")
    assert set(stretch.ends) == stays


# ---- what a kind is made of, and what other rooms ask of it ---------------------------------------------------------
def test_a_kind_that_lacks_a_part_cannot_be_made() -> None:
    parts = {field.name: getattr(KINDS[0], field.name) for field in dataclasses.fields(Kind)}
    assert Kind(**parts) == KINDS[0]
    for name in parts:
        with pytest.raises(TypeError, match=f"'{name}'"):
            Kind(**{other: value for other, value in parts.items() if other != name})


def test_the_piece_of_a_tap_waits_for_the_ring_strip_that_its_terminal_takes(van):
    tap = "id: C1, kind: tap, wire: T1, onto: W1, piece: RD 1.5 mm2, to: horn.1, reach: 300 mm"
    worked = van(tap, head=HEAD.replace(", ring strip: 6 mm", ""))
    (lead,) = worked.plan.of_wire("T1")
    assert lines_to_write(lead, worked.plan, worked.job) == "usual: {ring strip: 6 mm}"


def test_a_jumper_in_the_place_of_a_fusible_link_is_ordinary_wire(van):
    head = HEAD.replace("W3: {colour: RD,", "W3: {colour: RD, special: fusible link,")
    gone = "id: C1, kind: remove, wire: W3, ends: {battery+: gone, F1.feed: gone}"
    jumper = "id: C2, kind: bridge, wire: J2, ends: [battery+, F1.feed], piece: RD 2.5 mm2, cut: 310 mm"
    worked = van(gone, jumper, head=head)
    assert [reason.why for reason in worked.ledger.accounts["J2"].reasons] == [Why.UNFUSED_LONG]


@pytest.mark.parametrize(("only_if", "told"), [("", True), (", only if: gearbox is automatic", False)])
def test_a_plug_said_to_be_gone_may_still_be_emptied_by_a_bridge_that_is_not_decided(
    only_if: str, told: bool, tmp_path: Path
) -> None:
    head = HEAD.replace("neutral: {ways: 2}", "neutral: {ways: 2, gone: yes}").replace(
        "changes:", "options: {gearbox: {is: unknown, could be: [manual, automatic]}}\nchanges:"
    )
    row = "id: C1, kind: bridge, ends: [W4 at neutral.1, W5 at neutral.2], interlock: park or neutral"
    made_otherwise = "id: C2, kind: extend, wire: W6, gap: 100 mm"
    rows = (f"{row}{only_if}", made_otherwise) if only_if else (made_otherwise,)
    worked = work(tmp_path / "van", head + "".join(f"  - {{{line}}}\n" for line in rows))
    assert any(finding.entry == "neutral" and "W4" in finding.problem for finding in worked.findings) is told


@pytest.mark.parametrize(
    ("row", "ends"),
    [
        ("id: C1, kind: bridge, wire: J1, ends: [neutral.1, neutral.2], piece: YE 1 mm2", ["neutral.1", "neutral.2"]),
        ("id: C1, kind: protect, fuse: F16, wire: W1, end: lamp.1, tail: 200 mm", ["F16", "F16.feed"]),
        ("id: C1, kind: protect, fuse: F16, wire: W1, end: F1, use: in use", ["F16"]),
    ],
)
def test_a_soldered_terminal_is_judged_where_a_bridge_or_a_fuse_puts_it(row: str, ends: list[str], van) -> None:
    flexes = re.sub("( +- {from: .*)}", r"\1, zone: [flex]}", HEAD).replace("neutral: {", "neutral: {at: dash, ")
    worked = van(f"{row}, terminal fixed: soldered", head=flexes.replace("F9: {", "F16: {in: dash}, F9: {"))
    told = [finding.problem for finding in worked.findings if finding.code == "TRM01"]
    why = "is soldered, and it lies where the bundle flexes"
    assert sorted(told) == [f"the terminal at {end} {why}" for end in ends]


# ---- label ----------------------------------------------------------------------------------------------------------
ONE_WAY = "".join(line for line in HEAD.splitlines(True) if "to: sill" not in line and "from: sill" not in line)
TAG = "id: C1, kind: label, wire: W1, where: 100 mm from tail towards roof, reads: TAIL LAMP F1, tag: printed sleeve"


def test_a_tag_leaves_the_car_as_it_was_and_asks_for_no_test(van) -> None:
    other = "id: C2, kind: reroute, wire: W4, by: [roof]"
    before, tagged = van(other, head=ONE_WAY), van(other, f"{TAG}, made: 2031-05-20 AK", head=ONE_WAY)
    for part in ("nodes", "stretches", "joints", "wires", "pieces", "conductor_account", "figures"):
        assert getattr(tagged.plan, part) == getattr(before.plan, part)
    assert [f for f in tagged.findings if f.entry == "C1"] == []
    assert open_work(tagged) == OpenWork((), (), ("C2",))


def test_a_tag_stands_on_the_change_list_and_on_the_circuits_of_its_wire_alone(van) -> None:
    tail = ONE_WAY.replace("loads: {", "loads: {fan: {between: fan.1 fan.2, draws: 4 A, class: motor}, ")
    worked = van(TAG, head=tail)
    (row,) = change_rows(worked)
    assert (row.what, [wire.name for wire in row.wires]) == ("Tag on W1", ["W1"])
    facts = [(fact.name, fact.value) for fact in row.facts]
    assert facts == [("where", "100 mm from tail towards roof"), ("reads", "TAIL LAMP F1"), ("tag", "printed sleeve")]
    told = "TAIL LAMP F1, printed sleeve, 100 mm from tail towards roof (C1)"
    assert [fact.value for fact in load_facts("tail lamp", worked) if fact.name == "tag on W1"] == [told]
    assert [fact for fact in load_facts("fan", worked) if fact.name.startswith("tag")] == []
    assert "TAIL LAMP F1" in {entry.id: entry.text for entry in reversed(entries_of(worked))}["C1"]


@pytest.mark.parametrize(
    ("where", "place"),
    [
        ("100 mm from tail towards roof", "tail, t"),
        ("roof", "roof, r"),
        ("behind the trim", "behind the trim"),
        ("unknown", "Place not recorded"),
    ],
)
def test_a_tag_is_put_on_where_its_row_says_behind_the_work_on_its_wire(where: str, place: str, van) -> None:
    shorten = "id: C2, kind: shorten, wire: W1, end: lamp.1, take out: 100 mm, pigtail: 150 mm"
    sheet = work_sheet(van(shorten, TAG.replace("100 mm from tail towards roof", where), head=ONE_WAY))
    (step,) = [step for group in sheet.groups for step in group.steps if step.id == "C1"]
    assert [group.place for group in sheet.groups if step in group.steps] == [place]
    assert [step.id for step in sheet.steps] == ["C2", "C1"]
    assert (step.ticks, step.dead, step.fuses, step.drops) == (("tagged",), (), (), ())
    assert [(wire.name, wire.cuts, wire.piece, wire.joints) for wire in step.wires] == [("W1", (), None, ())]


@pytest.mark.parametrize(
    ("to", "mm", "source"),
    # dash to tail by the roof, 500 + 500, or by the sill: two ways leave it open; of horn no place is written
    [("rear.1", 800, "route, place of both ends"), ("lamp.9", None, "not recorded"), ("horn.9", None, "not recorded")],
)
def test_a_lead_of_which_no_reach_is_written_says_whether_the_route_gave_it(to, mm, source, van):
    head = HEAD.replace("plugs: {", "plugs: {rear: {at: shed}, ").replace("tail: t}", "tail: t, shed: s}")
    head = head.replace("route:\n", "route:\n  - {from: shed, to: dash, length: 800 mm}\n")
    worked = van(f"id: C1, kind: add, wire: W9, from: F1, to: {to}, piece: BU 1 mm2", head=head)
    (cut,) = [figure for figure in worked.plan.figures if figure.key == "C1-W9.cut"]
    assert (cut.inputs[0].name, cut.inputs[0].value, cut.inputs[0].source) == ("reach", mm, source)
    # the usual slack and 6 into a terminal at each end
    assert cut.value == (None if mm is None else mm + 50 + 6 + 6)


def test_pointers_that_lead_nowhere_leave_the_rows_that_are_done_again_as_they_are(tmp_path: Path):
    cut = "kind: extend, wire: W1, plug: lamp, pigtail: 300 mm, gap: 100 mm, piece: RD 1.5 mm2"
    rows = (
        f"id: C1, {cut}, made: 2031-05-03 AK",
        f"id: C2, {cut}, redoes: C1, made: 2031-05-04 AK",
        "id: C3, kind: verify, proves: [C1], corrects: X7, made: 2031-05-05 AK",
        "id: C4, kind: verify, proves: [C1], redoes: X8, made: 2031-05-05 AK",
        "id: C5, kind: reroute, wires: [W7], by: [roof]",  # not made, so what redoes it finds nothing that counts now
        "id: C6, kind: verify, proves: [C1], redoes: C5, made: 2031-05-06 AK",
        f"id: C7, {cut.replace('gap: 100', 'gap: 200')}, redoes: C2, made: 2031-05-07 AK",
    )
    worked = work(tmp_path, HEAD + "".join(f"  - {{{row}}}\n" for row in rows))
    assert [result.id for result in worked.plan.rows if result.status == "in force"][-1] == "C7"
    # of the last piece: 200 of gap, 50 of slack, two laps of 10
    for view in (worked.plan, worked.shown):
        assert sorted(s.length_mm for s in view.of_wire("W1")) == [270, 300, 700]

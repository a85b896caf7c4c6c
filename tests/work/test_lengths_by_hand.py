"""What rows come to in millimetres: lengths, what each end sits in, the accounts, the gap and its terms, by hand.

The house: slack 50, laps of 10, 6 mm into a barrel. A lap counts half to either side (geometry of the joint, no outside
source).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.car.asbuilt import fold
from aswired.car.harness import View
from aswired.files import read_job
from aswired.physics.figure import Figure

HEAD = """job: Van
usual: {joint: "lap, soldered", overlap: 10 mm, slack: 50 mm, ring strip: 6 mm, cover: adhesive sleeve 40 mm}
landmarks: {dash: a, roof: b, sill: c, tail: d}
route:
  - {from: dash, to: roof, length: 700 mm}
  - {from: roof, to: tail, length: 800 mm}
  - {from: dash, to: sill, length: 900 mm}
  - {from: sill, to: tail, length: 900 mm}
plugs: {lamp: {at: tail}, horn: {at: dash}, gone-b: {gone: yes}}
fuses: {F1: {rating: 5 A, in: dash, fed: ignition, feeds: lamp}, F2: {rating: 5 A, in: dash}}
grounds: {G1: {gone: yes}, L1: {}}
offcuts: {O1: RD 1.5 mm2 2000 mm, O2: YE 1 mm2 unknown}
wires:
  W1: {colour: RD, size: 1.5 mm2, from: F1, to: lamp.1, length: 1000 mm, by: [roof]}
  W2: {colour: BK, size: 1.5 mm2, from: lamp.2, to: G1, length: 900 mm}
  W3: {colour: GN, size: 1 mm2, from: FS1, to: horn.1, length: 300 mm}
  W4: {colour: YE, size: 1 mm2, from: unknown, to: FS1, length: 600 mm}
  W5: {colour: VT, size: 1 mm2, from: gone-b.1, to: FS1, length: 400 mm}
  W6: {colour: BN, size: 1 mm2, from: horn.2, to: lamp.3, by: [roof]}
  W7: {colour: BU, size: 1 mm2, from: horn.3, to: lamp.4, length: 1000 mm}
changes:
"""
USUAL = HEAD.split("\n")[1]


def after(folder: Path, *rows: str, head: str = HEAD) -> View:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "job.yml").write_text(head + "".join(f"  - {{{row}}}\n" for row in rows), encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    view = fold(read.job, "plan")
    assert [row.why for row in view.rows if not row.counts] == []
    return view


def lengths(view: View, wire: str) -> dict[tuple[str, str], tuple[float | None, float | None]]:
    """Ends of each stretch -> conductor, and what of it carries current."""
    return {tuple(sorted(s.ends)): (s.length_mm, s.effective_mm) for s in view.of_wire(wire)}  # type: ignore[misc]


def of(view: View, key: str) -> Figure:
    (found,) = [figure for figure in view.figures if figure.key == key]
    return found


def inputs(figure: Figure) -> list[tuple[str, float | None]]:
    return [(given.name, given.value) for given in figure.inputs]


BY_ROUTE = "id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 300 mm, piece: RD 1.5 mm2"
TAKES = [("slack", 50), ("o1, take-up of the first joint", 10), ("o2, take-up of the second joint", 10)]


@pytest.mark.parametrize(
    ("row", "terms", "cut"),
    [
        # by the roof 1500 of route; 700 + 300 of wire stay: 500 of gap, and 50 + 10 + 10
        (BY_ROUTE, [("gap", 500), ("route", 1500), ("tail", 700), ("pigtail", 300)], 570),
        (BY_ROUTE + ", reach: 1200 mm", [("gap", 200), ("reach", 1200), ("tail", 700), ("pigtail", 300),
                                         ("other statement of the gap differs by", 300)], 270),
        (BY_ROUTE + ", gap: 400 mm", [("gap", 400), ("other statement of the gap differs by", 100)], 470),
        # nothing is said of the cut: 1000 stay, wherever it lies
        (BY_ROUTE.replace("pigtail: 300 mm, ", ""),
         [("gap", 500), ("route", 1500), ("tail and pigtail together", 1000)], 570),
        # 200 fell out between the cuts: 1500 - 500 - 300
        (BY_ROUTE + ", tail: 500 mm", [("gap", 700), ("route", 1500), ("tail", 500), ("pigtail", 300)], 770),
        (BY_ROUTE + ", reach: unknown", [("gap", None), ("reach", None)], None),
        (BY_ROUTE + ", gap: unknown", [("gap", None)], None),
        (BY_ROUTE + ", tail: unknown", [("gap", None), ("tail", None)], None),
        # where it was cut nobody knows; it was cut once, so all 1000 stay
        (BY_ROUTE.replace("300 mm", "unknown"),
         [("gap", 500), ("route", 1500), ("tail and pigtail together", 1000)], 570),
        # two ways from horn to lamp, and none is named: nothing but the gap would help
        (BY_ROUTE.replace("W1", "W7"), [("gap", None)], None),
        # a route, and a wire of which nobody knows how long it is
        (BY_ROUTE.replace("W1", "W6"), [("gap", None), ("tail", None)], None),
    ],
)  # fmt: skip
def test_the_gap_and_the_terms_it_came_from(
    row: str, terms: list[tuple[str, float | None]], cut: float | None, tmp_path: Path
) -> None:
    view = after(tmp_path, row)
    (piece,) = view.pieces
    assert inputs(piece.computed) == [*terms, *TAKES]
    assert (piece.computed.value, piece.length_mm) == (cut, cut)
    assert piece.computed.missing_words == tuple(name for name, value in terms if value is None)


def test_statements_of_the_gap_that_differ_say_what_each_comes_to(tmp_path: Path) -> None:
    said = of(after(tmp_path, BY_ROUTE + ", reach: 900 mm, gap: 400 mm"), "C1-W1.cut").inputs[1]
    # by reach 900 - 1000 = -100; by route 1500 - 1000 = 500; the largest difference is 600
    assert (said.value, said.source) == (
        600,
        "400 mm as written, none by its reach, which the wire exceeds by 100 mm, 500 mm by its 1500 mm of route",
    )


@pytest.mark.parametrize(
    ("row", "usual", "length", "slack", "note"),
    [
        ("", "", 470, 50, "exact 470.0 mm; slack after rounding 50.0 mm"),
        ("", ", cut to next: 25 mm", 475, 55, "exact 470.0 mm; slack after rounding 55.0 mm"),
        (", cut: 500 mm", ", cut to next: 25 mm", 500, 80,
         "exact 470.0 mm; recorded cut 500.0 mm leaves 80.0 mm slack"),
        (", cut: 400 mm", "", 400, -20, "exact 470.0 mm; recorded cut 400.0 mm leaves -20.0 mm slack"),
        (", cut: unknown", "", None, None, "exact 470.0 mm; how long it was cut is not known"),
        (", slack: unknown, cut: 500 mm", "", 500, None, ""),
        (", slack: unknown", "", None, None, ""),
        (", slack: 20 mm", "", 440, 20, "exact 440.0 mm; slack after rounding 20.0 mm"),
    ],
)  # fmt: skip
def test_a_piece_is_as_long_as_it_was_cut_and_the_slack_is_what_is_left(
    row: str, usual: str, length: float | None, slack: float | None, note: str, tmp_path: Path
) -> None:
    head = HEAD.replace(USUAL, USUAL[:-1] + usual + "}")
    view = after(tmp_path, BY_ROUTE + ", gap: 400 mm" + row, head=head)
    (piece,) = view.pieces
    (stretch,) = [s for s in view.of_wire("W1") if s.origin]
    assert (piece.length_mm, stretch.length_mm, stretch.slack_mm) == (length, length, slack)
    assert piece.computed.note == note
    assert piece.gain_mm == (None if length is None else length - 20)
    # tail 700 less half a lap; piece less two halves; pigtail 300 less half a lap
    assert lengths(view, "W1") == {
        ("C1-W1-loom", "F1"): (700, 695),
        ("C1-W1-loom", "C1-W1-plug"): (length, None if length is None else length - 10),
        ("C1-W1-plug", "lamp.1"): (300, 295),
    }


def test_a_stagger_takes_from_the_tail_what_it_gives_to_the_pigtail(tmp_path: Path) -> None:
    row = "id: C1, kind: extend, wires: {W7: BU 1 mm2, W1: RD 1.5 mm2}, plug: lamp, pigtail: 300 mm, stagger: 40 mm, "
    view = after(tmp_path, row + "gap: 400 mm")
    # the first wire as written, the second 40 further from the plug
    assert lengths(view, "W7")["C1-W7-plug", "lamp.4"][0] == 300
    assert lengths(view, "W7")["C1-W7-loom", "horn.3"][0] == 700
    assert lengths(view, "W1")["C1-W1-plug", "lamp.1"][0] == 340
    assert lengths(view, "W1")["C1-W1-loom", "F1"][0] == 660
    both = after(tmp_path / "both", row + "tail: 600 mm, gap: 400 mm")
    # 600 + 300 stay of each, 100 fell out of each: tails 600 and 560, pigtails 300 and 340
    assert [piece.gain_mm for piece in both.pieces] == [350, 350]  # 470 - 20 - 100
    assert lengths(both, "W1")["C1-W1-loom", "F1"][0] == 560
    assert lengths(both, "W1")["C1-W1-plug", "lamp.1"][0] == 340
    nobody = after(tmp_path / "nobody", row.replace("40 mm", "unknown") + "gap: 400 mm")
    assert lengths(nobody, "W1")["C1-W1-plug", "lamp.1"][0] is None
    # by how much each is moved nobody knows, but 100 fell out of each all the same
    fell = after(tmp_path / "fell", row.replace("40 mm", "unknown") + "tail: 600 mm, gap: 400 mm")
    assert [piece.gain_mm for piece in fell.pieces] == [350, 350]
    # nobody knows by how much they are staggered: the first one is not moved by it
    assert lengths(nobody, "W7")["C1-W7-plug", "lamp.4"][0] == 300


@pytest.mark.parametrize(
    ("row", "wire", "ends"),
    [
        # the whole of it stays but what is in the terminal; 6 mm go into a new one
        ("kind: terminate, wire: W7, end: lamp.4, into: lamp.9, terminal: new", "W7",
         {("horn.3", "lamp.9"): (1000, 994)}),
        ("kind: terminate, wire: W7, end: lamp.4, into: lamp.9", "W7", {("horn.3", "lamp.9"): (1000, 1000)}),
        ("kind: terminate, wire: W7, end: lamp.4, into: lamp.9, tail: 800 mm, terminal: new", "W7",
         {("horn.3", "lamp.9"): (800, 794)}),
        ("kind: ground, wire: W2, end: G1, to: L1", "W2", {("L1", "lamp.2"): (900, 900)}),
        ("kind: ground, wire: W2, end: G1, to: L1, ring: new", "W2", {("L1", "lamp.2"): (900, 894)}),
        ("kind: ground, wire: W2, to: L1, end: lamp.2, ring: new", "W2", {("G1", "L1"): (900, 894)}),
        # a piece of 300 + 50 + 10 + 6; the lap counts half on either side, the strip is in the ring
        ("kind: ground, wire: W2, end: G1, to: L1, pigtail: 500 mm, gap: 300 mm, piece: BK 1.5 mm2", "W2",
         {("C1", "lamp.2"): (500, 495), ("C1", "L1"): (366, 355)}),
        ("kind: ground, wire: W2, end: G1, to: L1, gap: 300 mm", "W2",
         {("C1", "lamp.2"): (900, 895), ("C1", "L1"): (366, 355)}),
        ("kind: ground, wire: W2, end: G1, to: L1, cut: 300 mm", "W2",
         {("C1", "lamp.2"): (900, 895), ("C1", "L1"): (300, 289)}),
        ("kind: ground, wire: W2, end: G1, to: L1, piece: BK 1.5 mm2", "W2",
         {("C1", "lamp.2"): (900, 895), ("C1", "L1"): (None, None)}),
        ("kind: ground, wire: W2, end: G1, to: L1, tail: unknown, gap: 300 mm", "W2",
         {("C1", "lamp.2"): (None, None), ("C1", "L1"): (366, 355)}),
        ("kind: ground, wire: W2, end: G1, to: L1, tail: unknown", "W2", {("L1", "lamp.2"): (None, None)}),
        # an end that nobody followed; the one that is known moves, and a cavity keeps its lead
        ("kind: terminate, wire: W4, into: lamp.9, terminal: new", "W4", {("lamp.9", "unknown W4"): (600, 594)}),
        # shorten: 1000 - 800 - 50 - 10 = 140 come out; 860 left, 300 on the plug
        ("kind: shorten, wire: W7, end: lamp.4, new reach: 800 mm, pigtail: 300 mm", "W7",
         {("C1", "horn.3"): (560, 555), ("C1", "lamp.4"): (300, 295)}),
        ("kind: shorten, wire: W7, end: lamp.4, new reach: 800 mm, tail: 300 mm", "W7",
         {("C1", "horn.3"): (300, 295), ("C1", "lamp.4"): (560, 555)}),
        # by the overlap of its halves: 200 - 50 - 10 = 140
        ("kind: shorten, wire: W7, plug: lamp, gap: -200 mm, pigtail: 300 mm", "W7",
         {("C1", "horn.3"): (560, 555), ("C1", "lamp.4"): (300, 295)}),
        # both are written: the new reach goes before the gap
        ("kind: shorten, wire: W7, plug: lamp, gap: -200 mm, new reach: 700 mm, pigtail: 300 mm", "W7",
         {("C1", "horn.3"): (460, 455), ("C1", "lamp.4"): (300, 295)}),
        ("kind: shorten, wire: W7, end: lamp.4, take out: unknown, new reach: 800 mm, pigtail: 300 mm", "W7",
         {("C1", "horn.3"): (None, None), ("C1", "lamp.4"): (300, 295)}),
        # 1000 - 800 - 50 - 6 = 144 are cut off
        ("kind: shorten, wire: W7, end: lamp.4, new reach: 800 mm, terminal: new", "W7",
         {("horn.3", "lamp.4"): (856, 850)}),
        ("kind: shorten, wire: W7, end: lamp.4, take out: 100 mm, terminal: new", "W7",
         {("horn.3", "lamp.4"): (900, 894)}),
        # the wire's only stretch, and the row says nothing of where
        ("kind: shorten, wire: W7, take out: 100 mm", "W7",
         {("C1", "horn.3"): (None, None), ("C1", "lamp.4"): (None, None)}),
        # cut 200 from the lamp, 800 left on the other side; or gone with its part
        ("kind: cap, wire: W7, end: lamp.4, stub: 200 mm", "W7",
         {("C1-W7-lamp.4", "lamp.4"): (200, 200), ("C1-W7-horn.3", "horn.3"): (800, 800)}),
        ("kind: cap, wire: W7, end: lamp.4, stub: 200 mm, far: gone", "W7", {("C1-W7-lamp.4", "lamp.4"): (200, 200)}),
        ("kind: cap, wire: W7, end: lamp.4", "W7",
         {("C1-W7-lamp.4", "lamp.4"): (None, None), ("C1-W7-horn.3", "horn.3"): (None, None)}),
        # 200 from the fuse, 800 left; a fuse in line takes 6 into each side of its holder
        ("kind: protect, fuse: F9, wire: W1, end: F1, tail: 200 mm", "W1",
         {("F1", "F9.feed"): (200, 194), ("F9", "lamp.1"): (800, 794)}),
        ("kind: protect, fuse: F9, wire: W1, end: lamp.1, tail: 200 mm", "W1",
         {("F9", "lamp.1"): (200, 194), ("F1", "F9.feed"): (800, 794)}),
        # a lead of its own: 400 + 50 + 6 + 6; its conductor in the barrels carries nothing
        ("kind: add, wire: W9, from: horn.9, to: L1, reach: 400 mm", "W9", {("L1", "horn.9"): (462, 450)}),
        ("kind: add, wire: W9, from: FS1, to: L1, reach: 400 mm", "W9", {("FS1", "L1"): (466, 455)}),
        ("kind: add, wire: W9, from: horn.9, to: lamp.9", "W9", {("horn.9", "lamp.9"): (None, None)}),
        # a tap 200 from the fuse takes up one overlap of 10, all of it on the lead
        ("kind: tap, wire: W9, onto: W1, from: F1, tail: 200 mm, to: L1, reach: 400 mm", "W1",
         {("C1", "F1"): (200, 200), ("C1", "lamp.1"): (800, 800)}),
        ("kind: tap, wire: W9, onto: W1, from: lamp.1, tail: 200 mm, to: L1, reach: 400 mm", "W1",
         {("C1", "lamp.1"): (200, 200), ("C1", "F1"): (800, 800)}),
        ("kind: tap, wire: W9, onto: W1, from: F1, tail: 200 mm, to: L1, reach: 400 mm", "W9",
         {("C1", "L1"): (466, 450)}),
        ("kind: tap, wire: W9, onto: W1, to: L1, reach: 400 mm", "W1",
         {("C1", "F1"): (None, None), ("C1", "lamp.1"): (None, None)}),
    ],
)  # fmt: skip
def test_what_a_row_leaves_of_a_wire(
    row: str, wire: str, ends: dict[tuple[str, str], tuple[float | None, float | None]], tmp_path: Path
) -> None:
    assert lengths(after(tmp_path, f"id: C1, {row}"), wire) == ends


@pytest.mark.parametrize(
    ("ends", "stays"),
    [
        ("{F1: pulled, lamp.1: pulled}", {}),
        ("{F1: pulled, lamp.1: capped 30 mm}", {("C1-W1-lamp.1", "lamp.1"): (30, 30)}),
        ("{F1: taped 20 mm, lamp.1: uncapped}",
         {("C1-W1-F1", "F1"): (20, 20), ("C1-W1-lamp.1", "lamp.1"): (None, None)}),
        ("{F1: flush, lamp.1: unknown}", {("C1-W1-lamp.1", "lamp.1"): (None, None)}),
        # of an end that the row does not name a stub stays
        ("{F1: gone}", {("C1-W1-lamp.1", "lamp.1"): (None, None)}),
    ],
)  # fmt: skip
def test_what_of_a_removed_wire_hangs_in_the_car(
    ends: str, stays: dict[tuple[str, str], tuple[float | None, float | None]], tmp_path: Path
) -> None:
    view = after(tmp_path, f"id: C1, kind: remove, wire: W1, ends: {ends}")
    assert lengths(view, "W1") == stays
    assert view.wires["W1"].removed_by == "C1"


def test_nothing_hangs_where_the_connector_or_the_ground_point_is_gone_or_nobody_followed_the_wire(
    tmp_path: Path,
) -> None:
    for wire, end in (("W2", "lamp.2"), ("W5", "FS1"), ("W4", "FS1")):
        # the other end: G1, which is gone; a cavity of gone-b, which is gone; an end that is not known
        view = after(tmp_path / wire, f"id: C1, kind: remove, wire: {wire}, ends: {{{end}: flush}}")
        assert lengths(view, wire) == {}, wire


def test_each_row_accounts_for_the_conductor_of_each_wire(tmp_path: Path) -> None:
    view = after(
        tmp_path,
        "id: C1, kind: extend, wires: {W1: RD 1.5 mm2 from O1, W7: BU 1 mm2}, "
        "plug: lamp, pigtail: 300 mm, stagger: 0 mm, gap: 400 mm",
        "id: C2, kind: remove, wires: {W3: {FS1: flush, horn.1: capped 30 mm}, W4: {FS1: flush}}, "
        "reclaimed: {O7: GN 250 mm, O8: GN 10 mm}",
        "id: C3, kind: remove, wire: W5, ends: {FS1: flush}, reclaimed: {O9: VT unknown}",
        "id: C4, kind: add, wire: W9, from: horn.9, to: L1, reach: 400 mm, piece: YE 1 mm2 from O2",
        "id: C5, kind: remove, wire: W2, ends: {lamp.2: pulled}, reclaimed: {O6: BK 700 mm, O5: BK 2.5 mm2 100 mm}, "
        "spare: [F1, F9]",
    )
    booked = {
        (line.row, line.wire): (line.before_mm, line.piece_mm, line.after_mm, line.reclaimed_mm, line.scrap_mm)
        for line in view.conductor_account
    }
    assert booked == {
        ("C1", "W1"): (1000, 470, 1470, 0, 0),
        ("C1", "W7"): (1000, 470, 1470, 0, 0),
        ("C2", "W3"): (300, 0, 30, 260, 10),  # both pieces are green, as W3 is
        ("C2", "W4"): (600, 0, 0, 0, 600),
        ("C3", "W5"): (400, 0, 0, None, None),
        ("C4", "W9"): (0, 462, 462, 0, 0),
        ("C5", "W2"): (900, 0, 0, 800, 100),
    }
    rack = {name: (o.source, o.size.number, o.length_mm, o.cuts, o.left_mm) for name, o in view.offcuts.items()}
    assert rack == {
        "O1": ("", 1.5, 2000, (("C1-W1", 470),), 1530),
        "O2": ("", 1, None, (("C4-W9", 462),), None),
        "O7": ("C2", None, 250, (), 250),  # of two wires: of which of them it is nobody said
        "O8": ("C2", None, 10, (), 10),
        "O9": ("C3", 1, None, (), None),  # of the size of the wire that it came off
        "O6": ("C5", 1.5, 700, (), 700),
        "O5": ("C5", 2.5, 100, (), 100),  # of the size that is written
    }
    assert {name: (fuse.spare, fuse.rows) for name, fuse in view.fuses.items()} == {
        "F1": (True, ("C5",)),
        "F2": (False, ()),
    }
    assert {name: state.rows for name, state in view.wires.items()} == {
        "W1": ("C1",), "W2": ("C5",), "W3": ("C2",), "W4": ("C2",), "W5": ("C3",), "W6": (), "W7": ("C1",),
        "W9": ("C4",),
    }  # fmt: skip
    leads = {piece.id: (view.is_lead(piece), piece.offcut, piece.replaced.code) for piece in view.pieces}
    assert leads == {
        "C1-W1": (False, "O1", "RD"),
        "C1-W7": (False, "", "BU"),
        "C4-W9": (True, "O2", "unknown"),
    }


def test_a_fuse_or_a_relay_keeps_what_earlier_rows_said_of_it(tmp_path: Path) -> None:
    view = after(
        tmp_path,
        "id: C1, kind: protect, fuse: F1, rating: 10 A",
        "id: C2, kind: protect, fuse: F2, use: spare",
        "id: C3, kind: protect, fuse: F2, feeds: horn, fed: always",
        "id: C4, kind: protect, relay: K1, fed: always, feeds: horn, use: spare",
        "id: C5, kind: protect, relay: K1, feeds: lamp",
        "id: C6, kind: protect, relay: K2, use: spare",
    )
    fuses = {n: (f.facts.rating and f.facts.rating.text, f.facts.fed, f.facts.feeds, f.spare, f.rows)
             for n, f in view.fuses.items()}  # fmt: skip
    assert fuses == {
        "F1": ("10 A", "ignition", "lamp", False, ("C1",)),
        "F2": ("5 A", "always", "horn", False, ("C2", "C3")),
    }
    relays = {n: (r.fed, r.feeds, r.use, r.rows) for n, r in view.relays.items()}
    assert relays == {"K1": ("always", "lamp", "in use", ("C4", "C5")), "K2": ("", "", "spare", ("C6",))}


def test_what_moves_with_a_grounded_end_is_all_behind_it_and_nothing_beyond_a_connector(tmp_path: Path) -> None:
    head = HEAD.replace(
        "changes:\n",
        "  W8: {colour: BK, size: 1 mm2, from: FS2, to: G1}\n  W9: {colour: BK, size: 1 mm2, from: FS2, to: FS3}\n"
        "  W10: {colour: BK, size: 1 mm2, from: FS3, to: lamp.5}\n"
        "  W11: {colour: BK, size: 1 mm2, from: FS3, to: FS2}\n"
        "  W12: {colour: BK, size: 1 mm2, from: lamp.5, to: horn.5}\nchanges:\n",
    )
    view = after(tmp_path, "id: C1, kind: ground, wire: W8, end: G1, to: L1", head=head)
    (row,) = view.rows
    assert set(row.moved_with) == {"W9", "W10", "W11"}
    assert row.touched_wires == ("W8",)


def test_rings_go_with_the_wires_that_are_in_them(tmp_path: Path) -> None:
    view = after(
        tmp_path,
        "id: C1, kind: ground, wire: W2, end: G1, to: L1, ring: 'new, M6, 1st from base'",
        "id: C2, kind: add, wire: W9, from: horn.9, to: L1, reach: 90 mm, ring: with C1",
        "id: C3, kind: add, wire: W10, from: horn.8, to: L1, reach: 90 mm, ring: 'new, M8, 2nd from base'",
        "id: C4, kind: add, wire: W11, from: G1, to: L1, reach: 90 mm",
        "id: C5, kind: ground, wire: W2, end: L1, to: G2",
        "id: C6, kind: ground, wire: W10, end: L1, to: G2, ring: 'new, M5'",
        "id: C7, kind: ground, wire: W11, end: L1, to: G3",  # its ring on G1 stays
    )
    assert [(ring.ground, ring.row, ring.wires, ring.hole, ring.position) for ring in view.rings] == [
        ("L1", "C1", ("W9",), "M6", 1),
        ("G1", "C4", ("W11",), "", None),
        ("G2", "C5", ("W2",), "", None),
        ("G2", "C6", ("W10",), "M5", None),
        ("G3", "C7", ("W11",), "", None),
    ]


def test_a_splice_keeps_the_wires_that_still_end_in_it(tmp_path: Path) -> None:
    view = after(
        tmp_path,
        "id: C1, kind: join, ends: [W3 at horn.1, W1 at lamp.1, W7 at lamp.4]",
        "id: C2, kind: add, wire: W9, from: C1, to: L1, reach: 90 mm",
        "id: C3, kind: terminate, wire: W1, end: C1, into: lamp.7, terminal: new",
    )
    assert view.joints["C1"].wires == ("W3", "W7", "W9")
    assert view.nodes["C1"].opened_by == ("C3",)
    assert {s.wire for s in view.at_node["C1"]} == {"W3", "W7", "W9"}
    # the middle of the lap lies half of it inside each of them; the lead, 90 + 50 + 10 + 6, gives 6 to its ring too
    assert lengths(view, "W7") == {("C1", "horn.3"): (1000, 995)}
    assert lengths(view, "W9") == {("C1", "L1"): (156, 145)}
    assert view.had["lamp.1"] == ("W1",)
    assert view.had["L1"] == ("W9",)
    assert "lamp.1" not in view.nodes or view.at_node["lamp.1"] == ()


@pytest.mark.parametrize(
    ("first", "second", "moves"),
    [
        ("horn.2", "lamp.3", {"horn.2": "box.2", "horn.9": "box.9"}),
        ("lamp.3", "horn.2", {"horn.2": "box.2", "horn.9": "box.9"}),
    ],
)
def test_a_connector_is_replaced_for_ends_and_for_wires_that_pass_through_it(
    first: str, second: str, moves: dict[str, str], tmp_path: Path
) -> None:
    head = HEAD.replace("from: horn.2, to: lamp.3", f"from: {first}, to: {second}").replace(
        "length: 1000 mm}\nchanges", "length: 1000 mm, via: horn.9}\nchanges"
    ).replace("from: horn.3, to: lamp.4", "from: pump.1, to: lamp.4").replace("to: horn.1", "to: pump.2")  # fmt: skip
    view = after(
        tmp_path,
        "id: C1, kind: swap, plug: horn, new plug: box, cavities: {2: 2, 9: 9}, seen from: wire side",
        head=head,
    )
    assert view.replaced == moves
    assert set(lengths(view, "W6")) == {("box.2", "lamp.3")}
    (passing,) = view.of_wire("W7")
    assert (passing.via, passing.ends, passing.length_mm) == ("box.9", ("lamp.4", "pump.1"), 1000)
    assert [row.touched_wires for row in view.rows] == [("W6", "W7")]


# ---- joints ---------------------------------------------------------------------------------------------------------
def lies(view: View, name: str) -> tuple[object, ...]:
    """How far the middle is from an end along the wire and by tape; where the cut was; how far from the other end."""
    joint = view.joints[name]
    measured = (joint.from_end, joint.centre_mm, joint.beside_mm)
    return (*measured, (joint.cut_from, joint.cut_face_mm), (joint.other_end, joint.other_mm))


EXTEND = "id: C1, kind: extend, wire: W7, plug: lamp, pigtail: 300 mm, gap: 400 mm, piece: BU 1 mm2, where: 9 mm from x"


@pytest.mark.parametrize(
    ("rows", "joints"),
    [
        # half a lap inside each cut; the far one by tape 300 + 400 + 5 from the plug, the slack moves it not
        ((EXTEND,), {
            "C1-W7-plug": ("lamp.4", 295, 295, ("lamp.4", 300), ("", None)),
            "C1-W7-loom": ("horn.3", 695, 695, ("horn.3", 700), ("lamp.4", 705)),
        }),
        ((EXTEND.replace("plug: lamp", "end: lamp.4"),), {
            "C1-W7-lamp.4": ("lamp.4", 295, 295, ("lamp.4", 300), ("", None)),
            "C1-W7-horn.3": ("horn.3", 695, 695, ("horn.3", 700), ("lamp.4", 705)),
        }),
        # a wire of which nobody knows how long it is: 295 and 460 of the piece along the wire, 50 less by tape
        ((EXTEND.replace("W7", "W6"),), {
            "C1-W6-plug": ("lamp.3", 295, 295, ("lamp.3", 300), ("", None)),
            "C1-W6-loom": ("lamp.3", 755, 705, ("lamp.3", 700), ("", None)),
        }),
        ((EXTEND.replace("W7", "W6").replace("pigtail: 300", "tail: 600"),), {
            "C1-W6-plug": ("lamp.3", None, None, ("lamp.3", None), ("", None)),
            "C1-W6-loom": ("horn.2", 595, 595, ("horn.2", 600), ("lamp.3", None)),
        }),
        (("id: C1, kind: terminate, wire: W7, end: lamp.4, into: lamp.9, tail: 600 mm, gap: 300 mm, terminal: new",), {
            "C1": ("horn.3", 595, 595, ("horn.3", 600), ("lamp.9", 305)),
        }),
        (("id: C1, kind: tap, wire: W9, onto: W1, from: F1, tail: 200 mm, to: L1, reach: 400 mm",), {
            "C1": ("F1", 200, 200, ("F1", 200), ("", None)),
        }),
        (("id: C1, kind: tap, wire: W9, onto: W1, from: F1, to: L1, reach: 400 mm",), {
            "C1": ("", None, None, ("", None), ("", None)),
        }),
        (("id: C1, kind: shorten, wire: W7, end: lamp.4, new reach: 800 mm, pigtail: 300 mm",), {
            "C1": ("lamp.4", 295, 295, ("lamp.4", 300), ("", None)),
        }),
        # 100 more out on the other side: 195 of 200, 390 of 400 between two laps; where it was cut stays told
        ((EXTEND, "id: C2, kind: shorten, wire: W7, end: horn.3, take out: 100 mm, pigtail: 200 mm"), {
            "C1-W7-plug": ("lamp.4", 295, 295, ("lamp.4", 300), ("", None)),
            "C1-W7-loom": ("horn.3", 585, 585, ("horn.3", 700), ("lamp.4", 705)),
            "C2": ("horn.3", 195, 195, ("horn.3", 200), ("", None)),
        }),
        # a new terminal, 6 inside it: 300 - 6 - 5; the far joint keeps no distance from an end that is not there
        ((EXTEND, "id: C2, kind: terminate, wire: W7, end: lamp.4, into: lamp.9, terminal: new"), {
            "C1-W7-plug": ("lamp.9", 289, 289, ("lamp.4", 300), ("", None)),
            "C1-W7-loom": ("horn.3", 695, 695, ("horn.3", 700), ("", None)),
        }),
        # cut between the joint and its plug: 200 are left on the joint's side
        ((EXTEND, "id: C2, kind: cap, wire: W7, end: lamp.4, stub: 100 mm, far: capped"), {
            "C1-W7-plug": ("C2-W7-horn.3", 195, 195, ("lamp.4", 300), ("", None)),
            "C1-W7-loom": ("horn.3", 695, 695, ("horn.3", 700), ("", None)),
        }),
        # the end that it was measured from sits in another fuse now; with the other one gone too none of them is it
        (("id: C1, kind: tap, wire: W9, onto: W1, from: F1, tail: 200 mm, to: L1, reach: 400 mm",
          "id: C2, kind: protect, fuse: F2, wire: W1, end: F1"), {
            "C1": ("F2", 200, 200, ("F1", 200), ("", None)),
        }),
        (("id: C1, kind: tap, wire: W9, onto: W1, from: F1, tail: 200 mm, to: L1, reach: 400 mm",
          "id: C2, kind: protect, fuse: F2, wire: W1, end: F1",
          "id: C3, kind: terminate, wire: W1, end: lamp.1, into: lamp.9"), {
            "C1": ("", None, None, ("F1", 200), ("", None)),
        }),
        # longer on the plug's side: 400 - 200 = 200 from the plug, half laps, 200 of gap with 50 of slack
        ((EXTEND, "id: C2, kind: extend, wire: W7, plug: lamp, pigtail: 100 mm, gap: 200 mm, piece: BU 1 mm2"), {
            "C2-W7-plug": ("lamp.4", 95, 95, ("lamp.4", 100), ("", None)),
            # 200 of the pigtail stay on the splice before it, which is the fixed end of this cut
            "C2-W7-loom": ("C1-W7-plug", 190, 190, ("C1-W7-plug", 200), ("lamp.4", 305)),
            # along: 95, then 270 less two half laps, then 200 less two
            "C1-W7-plug": ("lamp.4", 545, 495, ("lamp.4", 300), ("", None)),
            # and 460 more along the first piece, of which 50 are slack too
            "C1-W7-loom": ("horn.3", 695, 695, ("horn.3", 700), ("lamp.4", 905)),
        }),
    ],
)  # fmt: skip
def test_where_the_middle_of_a_joint_lies(
    rows: tuple[str, ...], joints: dict[str, tuple[object, ...]], tmp_path: Path
) -> None:
    view = after(tmp_path, *rows)
    assert {name: lies(view, name) for name in view.joints} == joints


def test_what_a_joint_is_made_of(tmp_path: Path) -> None:
    view = after(
        tmp_path,
        EXTEND + ', joint: "butt, crimped", cover: none',
        "id: C2, kind: tap, wire: W9, onto: W1, from: F1, tail: 200 mm, to: L1, reach: 400 mm, overlap: 12 mm",
        "id: C3, kind: cap, wire: W3, end: horn.1, stub: 100 mm, far: capped",
        "id: C4, kind: add, wire: W10, from: C3-W3-horn.1, to: C3-W3-FS1, reach: 400 mm, where: 5 mm from dash",
    )
    made = {
        name: (j.row, j.wires, j.method and j.method.form, j.overlap_mm, j.cover and j.cover.text, j.tap, j.through,
               j.recorded_place)
        for name, j in view.joints.items()
    }  # fmt: skip
    sleeve = "adhesive sleeve 40 mm"
    assert made == {
        "C1-W7-plug": ("C1", ("W7",), "butt", 10, "none", False, "", ""),
        "C1-W7-loom": ("C1", ("W7",), "butt", 10, "none", False, "", "9 mm from x"),
        "C2": ("C2", ("W1", "W9"), "lap", 12, sleeve, True, "W1", ""),
        "C4": ("C4", ("W3", "W10"), "lap", 10, sleeve, False, "", "5 mm from dash"),
        "C4-C3-W3-FS1": ("C4", ("W3", "W10"), "lap", 10, sleeve, False, "", "5 mm from dash"),
    }
    # a butt joint takes up nothing: the piece is 400 + 50
    assert lengths(view, "W7")["C1-W7-loom", "C1-W7-plug"] == (450, 450)
    # a tap takes up its overlap of the lead; its cut is 400 + 50 + 12 + 6
    assert lengths(view, "W9") == {("C2", "L1"): (468, 450)}
    # both cut ends of W3 have become splices; 400 + 50 + 10 + 10
    assert lengths(view, "W10") == {("C4", "C4-C3-W3-FS1"): (470, 460)}
    assert lengths(view, "W3") == {("C4", "horn.1"): (100, 95), ("C4-C3-W3-FS1", "FS1"): (200, 195)}


# ---- names ----------------------------------------------------------------------------------------------------------
def test_ends_that_nobody_noted_are_apart_and_ends_that_are_one_are_one(tmp_path: Path) -> None:
    head = HEAD.replace(
        "changes:\n",
        "  U1: {colour: RD, size: 1 mm2, from: unknown, to: unknown}\n"
        "  U2: {colour: RD, size: 1 mm2, from: loose, to: loose}\n"
        "  U3: {colour: RD, size: 1 mm2, from: box.unknown, to: U2-loose}\n"
        "  U4: {colour: RD, size: 1 mm2, from: box.unknown, to: box.1, via: mid.1}\n"
        "  U5: {colour: RD, size: 1 mm2, from: box.1, to: cup.unknown, length: 50 mm, via: mid.2}\n"
        "  U6: {colour: RD, size: 1 mm2, from: mid.1, to: U6-loose}\n"
        "  U7: {colour: RD, size: 1 mm2, from: X-loose, to: F2.feed}\n"
        "  U8: {colour: RD, size: 1 mm2, from: grey, to: FS1}\n"
        "changes:\n",
    )
    view = after(tmp_path, "id: C1, kind: verify, proves: [C1]", head=head)
    ends = {wire: sorted({end for s in view.of_wire(wire) for end in s.ends}) for wire in view.wires if wire[0] == "U"}
    assert ends == {
        "U1": ["unknown U1 1", "unknown U1 2"],
        "U2": ["U2-loose", "U2-loose-2"],
        "U3": ["U3-loose", "box.unknown U3"],
        "U4": ["box.1", "box.unknown U4", "mid.1"],  # U6 ends in the cavity that it passes: it is cut there
        "U5": ["box.1", "cup.unknown"],
        "U6": ["U6-loose", "mid.1"],
        "U7": ["F2.feed", "X-loose"],
        "U8": ["FS1", "grey"],
    }
    assert [s.via for s in view.of_wire("U5")] == ["mid.2"]
    assert [s.length_mm for s in view.of_wire("U4")] == [None, None]
    kinds = {name: str(view.nodes[name].kind) for name in ("U2-loose", "X-loose", "F2.feed", "F1", "mid.1", "G1", "L1",
             "grey", "FS1") if name in view.nodes}  # fmt: skip
    assert kinds == {
        "U2-loose": "cut end", "X-loose": "factory splice", "F2.feed": "fuse, feed side", "F1": "fuse",
        "mid.1": "cavity", "G1": "ground point", "grey": "factory splice", "FS1": "factory splice",
    }  # fmt: skip
    loose = [end for end in view.nodes if view.is_end(end, "loose")]
    assert loose == ["U2-loose", "U2-loose-2", "U3-loose", "U6-loose"]
    assert [end for end in view.nodes if view.is_end(end, "F1")] == ["F1"]
    assert {end for end in view.nodes if view.is_end(end, "unknown")} == {"unknown U1 1", "unknown U1 2", "unknown W4"}
    assert not view.is_end("nowhere", "loose")


def test_a_name_close_to_a_declared_one_is_told_where_it_stands(tmp_path: Path) -> None:
    head = HEAD.replace("offcuts:", "splices: {SPL12: {}, LEFT3: {}}\noffcuts:").replace(
        "from: FS1, to: horn.1", "from: SPL13, to: horn.1"
    )
    view = after(
        tmp_path,
        "id: C1, kind: add, wire: W20, from: horn.9, to: LEFT2, reach: 90 mm",
        "id: C2, kind: add, wire: W21, from: LEFT2, to: horn.8, reach: 90 mm",
        head=head,
    )
    told = [(f.severity.word, f.code, f.entry, f.problem, f.mend, f.at.text.strip()[:10]) for f in view.findings]
    assert told == [
        ("note", "REF01", "LEFT2", "'LEFT2' is not declared and was made by its first use; 'LEFT3' is declared",
         "None needed, or write LEFT3", "- {id: C1,"),
        ("note", "REF01", "SPL13", "'SPL13' is not declared and was made by its first use; 'SPL12' is declared",
         "None needed, or write SPL12", "W3: {colou"),
    ]  # fmt: skip


PASSING = HEAD.replace("length: 1000 mm}\nchanges", "length: 1000 mm, via: mid.3}\nchanges")


@pytest.mark.parametrize(
    ("row", "passes"),
    [
        # the cut lies between the end that is named and the connector that the wire passes
        ("kind: extend, wire: W7, plug: lamp, pigtail: 90 mm, gap: 90 mm", ("C1-W7-loom", "horn.3")),
        ("kind: extend, wire: W7, end: lamp.4, pigtail: 90 mm, gap: 90 mm", ("C1-W7-horn.3", "horn.3")),
        ("kind: extend, wire: W7, plug: horn, pigtail: 90 mm, gap: 90 mm", ("C1-W7-loom", "lamp.4")),
        ("kind: shorten, wire: W7, end: lamp.4, take out: 90 mm, pigtail: 90 mm", ("C1", "horn.3")),
        ("kind: shorten, wire: W7, end: horn.3, take out: 90 mm, pigtail: 90 mm", ("C1", "lamp.4")),
        ("kind: cap, wire: W7, end: lamp.4, stub: 90 mm", ("C1-W7-horn.3", "horn.3")),
        ("kind: cap, wire: W7, end: lamp.4, stub: 90 mm, far: gone", None),
        ("kind: remove, wire: W7, ends: {lamp.4: capped, horn.3: capped}", None),
        ("kind: protect, fuse: F9, wire: W7, end: lamp.4, tail: 90 mm", ("F9", "horn.3")),
        ("kind: tap, wire: W9, onto: W7, from: lamp.4, tail: 90 mm, to: L1, reach: 90 mm", ("C1", "horn.3")),
        ("kind: terminate, wire: W7, end: lamp.4, into: lamp.9, terminal: new", ("horn.3", "lamp.9")),
        ("kind: terminate, wire: W7, end: lamp.4, into: lamp.9, terminal: new, gap: 90 mm, tail: 500 mm",
         ("C1", "horn.3")),
        ("kind: swap, plug: mid, new plug: box, cavities: {3: 1}, seen from: wire side", ("horn.3", "lamp.4")),
        ("kind: swap, plug: mid, new plug: box, cavities: {3: unknown}, seen from: wire side", None),
    ],
)  # fmt: skip
def test_which_part_of_a_wire_passes_the_connector_in_its_way(
    row: str, passes: tuple[str, str] | None, tmp_path: Path
) -> None:
    view = after(tmp_path, f"id: C1, {row}", head=PASSING)
    found = {stretch.ends: stretch.via for stretch in view.of_wire("W7") if stretch.via}
    via = "box.1" if "swap" in row else "mid.3"
    # a fuse let in is named by its two sides: which of them is towards the horn its own tests tell
    found = {tuple(end.removesuffix(".feed") for end in ends): via for ends, via in found.items()}
    assert found == ({} if passes is None else {passes: via})


@pytest.mark.parametrize(
    ("rows", "slack"),
    [
        # of a shortened wire the slack lies on the side that was not measured
        (("id: C1, kind: shorten, wire: W7, end: lamp.4, new reach: 800 mm, pigtail: 300 mm",),
         {"horn.3": 50, "lamp.4": 0}),
        (("id: C1, kind: shorten, wire: W7, end: lamp.4, new reach: 800 mm, tail: 300 mm",),
         {"horn.3": 0, "lamp.4": 50}),
        (("id: C1, kind: shorten, wire: W7, end: lamp.4, gap: -200 mm, pigtail: 300 mm, slack: 20 mm",),
         {"horn.3": 20, "lamp.4": 0}),
        # what came out was measured: how much is left on purpose nobody wrote, or none
        (("id: C1, kind: shorten, wire: W7, end: lamp.4, new reach: 800 mm, take out: 100 mm, pigtail: 300 mm",),
         {"horn.3": None, "lamp.4": 0}),
        (("id: C1, kind: shorten, wire: W7, end: lamp.4, take out: 100 mm, pigtail: 300 mm",),
         {"horn.3": 0, "lamp.4": 0}),
        (("id: C1, kind: terminate, wire: W7, end: lamp.4, into: lamp.9, gap: 90 mm, terminal: new",),
         {"horn.3": 0, "lamp.9": 50}),
        (("id: C1, kind: add, wire: W7b, from: horn.8, to: lamp.8, reach: 90 mm, cut: 190 mm",),
         {"horn.8": 88, "lamp.8": 88}),  # 190 - 90 - 6 - 6
        # a piece with slack is cut: on which side it lies nobody knows
        (("id: C1, kind: terminate, wire: W7, end: lamp.4, into: lamp.9, gap: 90 mm, terminal: new",
          "id: C2, kind: cap, wire: W7, end: lamp.9, stub: 30 mm"),
         {"horn.3": 0, "lamp.9": None, "C2-W7-horn.3": None, "C2-W7-lamp.9": None}),
    ],
)  # fmt: skip
def test_in_which_part_the_slack_lies(rows: tuple[str, ...], slack: dict[str, float | None], tmp_path: Path) -> None:
    view = after(tmp_path, *rows)
    wire = "W7b" if "W7b" in view.wires else "W7"
    at = {end: s.slack_mm for s in view.of_wire(wire) for end in s.ends}
    assert {end: at[end] for end in slack} == slack


@pytest.mark.parametrize(
    ("fate", "opened", "stays"),
    [("capped 30 mm", (), {"W3", "W4", "W5"}), ("flush", ("C1",), {"W4", "W5"}), ("unknown", (), {"W3", "W4", "W5"})],
)
def test_a_splice_is_opened_by_a_wire_that_left_it_and_not_by_one_that_was_cut_off_beside_it(
    fate: str, opened: tuple[str, ...], stays: set[str], tmp_path: Path
) -> None:
    view = after(tmp_path, f"id: C1, kind: remove, wire: W3, ends: {{FS1: {fate}, horn.1: gone}}")
    assert view.nodes["FS1"].opened_by == opened
    assert {stretch.wire for stretch in view.at_node["FS1"]} == stays
    # the donor's rings are in the car without a row
    assert [(ring.ground, ring.row, ring.wires) for ring in view.rings] == [("G1", "", ("W2",))]


@pytest.mark.parametrize(
    ("colour", "of_w3", "of_w4"),
    [
        ("GN", (260, 40), (0, 600)),  # W3 is green, W4 yellow
        ("YE", (0, 300), (260, 340)),
        ("RD", (None, None), (None, None)),  # neither is red
    ],
)
def test_of_which_wire_of_a_row_an_offcut_was_cut_is_told_by_its_colour_or_not_at_all(
    colour: str, of_w3: tuple[float | None, ...], of_w4: tuple[float | None, ...], tmp_path: Path
) -> None:
    row = "id: C1, kind: remove, wires: {W3: {FS1: flush, horn.1: pulled}, W4: {FS1: flush}}, reclaimed: "
    line = {found.wire: (found.reclaimed_mm, found.scrap_mm)
            for found in after(tmp_path, row + f"{{O7: {colour} 260 mm}}").conductor_account}  # fmt: skip
    assert line == {"W3": of_w3, "W4": of_w4}
    # two of its colour: of which of them it is nobody said
    head = HEAD.replace("W4: {colour: YE", "W4: {colour: GN")
    both = after(tmp_path / "both", row + "{O7: GN 260 mm}", head=head).conductor_account
    assert [(found.reclaimed_mm, found.scrap_mm) for found in both] == [(None, None)] * 2


def test_a_splice_that_rows_emptied_is_still_told_of(tmp_path: Path) -> None:
    rows = [
        f"id: C{number}, kind: remove, wire: {wire}, ends: {{FS1: flush}}"
        for number, wire in enumerate(("W3", "W4", "W5"), 1)
    ]
    view = after(tmp_path, *(row.replace("flush}", "flush, horn.1: gone}") if "W3" in row else row for row in rows))
    assert view.nodes["FS1"].opened_by == ("C1", "C2")  # the last wire left nothing behind to open
    assert view.at_node["FS1"] == ()
    assert view.had["FS1"] == ("W3", "W4", "W5")
    assert view.taken_out_of("FS1") == "W3 was taken out by C1"
    assert (view.taken_out_of("F1"), view.taken_out_of("nowhere")) == ("", "")

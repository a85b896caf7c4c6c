"""Places, sizes and terminals, whole sentences: which leg, landmark, wire or end is meant, and how it is mended."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.cases_splices import USUAL
from tests.findings.said import entries, said

MADE = "made: 2031-05-03 AK"
CHECK = "    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n"


# ---- places ---------------------------------------------------------------------------------------------------------
LOOP = f"""
    job: Loop
    landmarks: {{bulkhead: a, tunnel: b, tail: c, sill: d, nose: e}}
    route:
      - {{from: bulkhead, to: tunnel, length: 1 m}}
      - {{from: tunnel, to: tail, length: 2 m}}
      - {{from: bulkhead, to: sill, length: 1 m}}
      - {{from: sill, to: tail, length: 3 m}}
      - {{from: bulkhead, to: nose, length: 3 m}}
    plugs: {{lamp: {{at: tail}}, horn: {{at: nose}}}}
    fuses: {{F1: {{rating: 10 A, in: bulkhead}}}}
    wires:
      W1: {{from: F1, to: horn.1}}
      W2: {{from: F1, to: lamp.1}} # W2
      W3: {{from: F1, to: lamp.2, by: [sill]}}
      W4: {{from: F1, to: q.1}}
{CHECK}"""


def test_a_wire_that_the_route_leaves_a_choice_is_told_a_landmark_to_write(tmp_path: Path) -> None:
    problem = "the route leads W2 from bulkhead to tail in more than one way"
    mend = "Write by: and a landmark it passes, such as sill"  # the first of sill and tunnel
    assert said(tmp_path, LOOP, "PLC04") == [("warning", "W2", "W2", problem, mend)]


def test_of_two_legs_between_the_same_landmarks_one_is_to_go(tmp_path: Path) -> None:
    text = f"""
    job: Two legs
    landmarks: {{bulkhead: a, tail: c}}
    route:
      - {{from: bulkhead, to: tail, length: 1 m}}
      - {{from: bulkhead, to: tail, length: 2 m}}
    plugs: {{lamp: {{at: tail}}}}
    fuses: {{F1: {{rating: 10 A, in: bulkhead}}}}
    wires: {{W1: {{from: F1, to: lamp.1}}}} # W1
{CHECK}"""
    problem = "the route leads W1 from bulkhead to tail in more than one way"
    assert said(tmp_path, text, "PLC04") == [("warning", "W1", "W1", problem, "Take one of the two legs out")]


def test_landmarks_that_nothing_declares_are_told_where_they_are_named(tmp_path: Path) -> None:
    text = f"""
    job: Landmarks
    landmarks: {{bulkhead: a, nose: b, island: c}}
    route:
      - {{from: bulkhead, to: nose, length: 1 m}}
      - {{from: bulkhead, length: 1 m, to: sill}} # sill
      - {{from: noze, to: nose, length: 1 m}} # noze
    holes:
      nose: {{through: sheet metal, grommet: yes}}
      firewall: {{through: sheet metal, grommet: yes}} # firewall
    wires:
      W1: {{from: a.1, to: b.1, by: [nose]}}
      W2: {{from: a.2, to: b.2, by: [island]}} # W2
      W3: {{from: a.3, to: b.3, by: [moon]}} # W3
      W4: {{from: a.4, to: b.4, by: [unknown]}}
      W5: {{from: a.5, to: b.5, by: [bulkhaed]}} # W5
{CHECK}"""
    more = ", and its leg under 'route:'"
    assert sorted(said(tmp_path, text, "PLC05")) == sorted([
        ("warning", "sill", "sill",
         "the leg from bulkhead to sill ends in 'sill', which is not declared as a landmark",
         "Declare it: landmarks: {sill: what it is}"),
        ("warning", "firewall", "firewall", "the hole 'firewall' is at no landmark, so nothing is led through it",
         f"Declare it: landmarks: {{firewall: what it is}}{more}"),
        ("warning", "W2", "W2", "W2 is led by 'island', but no leg of the route ends in it",
         f"Declare it: landmarks: {{island: what it is}}{more}"),
        ("warning", "W3", "W3", "W3 is led by 'moon', but it is no landmark",
         f"Declare it: landmarks: {{moon: what it is}}{more}"),
        ("warning", "W5", "W5", "W5 is led by 'bulkhaed', but it is no landmark", "Did you mean bulkhead?"),
    ])  # fmt: skip
    close = "'noze' is no landmark and was taken as a name of its own; 'nose' is declared"
    assert said(tmp_path / "close", text, "REF01") == [("note", "noze", "noze", close, "None needed, or write nose")]


@pytest.mark.parametrize(("place", "code", "rank", "problem", "mend"), [
    ("nose", "", "", "", ""),
    ("unknown", "", "", "", ""),
    ("noze", "REF01", "note", "'noze' is no landmark and was taken as a name of its own; 'nose' is declared",
     "None needed, or write nose"),
    ("noses", "REF01", "note", "'noses' is no landmark and was taken as a name of its own; 'nose' is declared",
     "None needed, or write nose"),
    ("hose", "PLC05", "note", "the place 'hose' of lamp is no landmark; it is shown as it is written",
     "Did you mean nose?"),  # another word, its first letter is another
    ("nosexy", "PLC05", "note", "the place 'nosexy' of lamp is no landmark; it is shown as it is written",
     "Did you mean nose?"),
    ("shelf", "PLC05", "note", "the place 'shelf' of lamp is no landmark; it is shown as it is written",
     "None needed for words; else declare it: landmarks: {shelf: ...}"),
    ("horn", "", "", "", ""),  # where the horn is
    ("relay coil", "", "", "", ""),
    ("no se", "", "", "", ""),  # two words are no slip for a landmark
    ("300 mm", "PLC01", "error", "the place '300 mm' of lamp is a distance without a landmark",
     "Write it like: 24 in from bulkhead towards nose-split"),
    ("300 mm past there", "PLC01", "error", "the place '300 mm past there' of lamp is a distance without a landmark",
     "Write it like: 24 in from bulkhead towards nose-split"),
    ("some 300 mm past there", "", "", "", ""),
    ("the first 300 mm of nose", "PLC06", "error",
     "the place 'the first 300 mm of nose' of lamp does not say from which landmark towards which",
     "Write 300 mm from nose towards bulkhead"),
    ("300 mm past island", "PLC06", "error",
     "the place '300 mm past island' of lamp does not say from which landmark towards which",
     "Write 300 mm from island towards another landmark, and the leg between them under 'route:'"),
    ("300 mm past nose-split", "PLC01", "error",
     "the place '300 mm past nose-split' of lamp is a distance without a landmark",
     "Write it like: 24 in from bulkhead towards nose-split"),
    ("300 mm from nose to tail", "PLC06", "error",
     "the place '300 mm from nose to tail' of lamp does not say from which landmark towards which",
     "Write 300 mm from nose towards tail, or the other way round"),
    ("300 mm beside bulkhead", "PLC06", "error",
     "the place '300 mm beside bulkhead' of lamp does not say from which landmark towards which",
     "Write 300 mm from bulkhead towards nose or tail or roof"),
])  # fmt: skip
def test_a_place_is_told_by_what_is_wrong_with_it(
    place: str, code: str, rank: str, problem: str, mend: str, tmp_path: Path
) -> None:
    text = f"""
    job: Places
    landmarks: {{bulkhead: a, nose: b, tail: c, island: d, roof: e, sill: f}}
    route:
      - {{from: bulkhead, to: nose, length: 1 m}}
      - {{from: bulkhead, to: tail, length: 1 m}}
      - {{from: bulkhead, to: roof, length: 1 m}}
      - {{from: bulkhead, to: sill, length: 1 m}}
    plugs:
      horn: {{at: nose}}
      lamp: {{at: {place}}} # lamp
      fan: {{at: tail}}
{CHECK}"""
    found = said(tmp_path, text, "REF01", "PLC01", "PLC02", "PLC05", "PLC06")
    assert found == ([(rank, "lamp", "lamp", problem, mend)] if code else [])
    assert found == said(tmp_path, text, code or "PLC01")


GOES_ON = (
    "from to towards past behind before after beyond above below under over along beside off of ahead forward outside "
    "inside"
)


def test_inches_that_go_on_by_a_word_of_direction_are_a_length_and_those_of_another_word_are_not(
    tmp_path: Path,
) -> None:
    ways = [*GOES_ON.split(), "left of", "right of", "in front"]
    words = ["the", "row", "at", "left", "right", "on"]  # slot 7 in the nose box
    plugs = "".join(f"      p{n}: {{at: 7 in {way} nose}}\n" for n, way in enumerate(ways + words))
    text = f"""
    job: Inches
    landmarks: {{bulkhead: a, nose: b}}
    route: [{{from: bulkhead, to: nose, length: 1 m}}]
    plugs:
{plugs}{CHECK}"""
    told = {problem.partition("'")[2].partition(" nose'")[0] for *_, problem, _ in said(tmp_path, text, "PLC06")}
    assert told == {f"7 in {way}" for way in ways}


def test_every_kind_of_part_has_its_place_looked_at(tmp_path: Path) -> None:
    text = f"""
    job: Parts
    landmarks: {{bulkhead: a, nose: b}}
    route: [{{from: bulkhead, to: nose, length: 1 m}}]
    plugs: {{lamp: {{at: 1 mm}}}} # plug
    grounds: {{L1: {{at: 2 mm, back to: battery-}}}} # ground
    splices: {{FS1: {{at: 3 mm}}}} # splice
    modules: {{unit: {{at: 4 mm}}}} # module
    switches: {{horn: {{at: 5 mm, between: h.1 h.2}}}} # switch
    fuses: {{F1: {{in: 6 mm}}}} # fuse
{CHECK}"""
    found = said(tmp_path, text, "PLC01")
    assert {(entry, line, problem.partition(" is ")[0]) for _, entry, line, problem, _ in found} == {
        ("lamp", "plug", "the place '1 mm' of lamp"),
        ("L1", "ground", "the place '2 mm' of L1"),
        ("FS1", "splice", "the place '3 mm' of FS1"),
        ("unit", "module", "the place '4 mm' of unit"),
        ("horn", "switch", "the place '5 mm' of horn"),
        ("F1", "fuse", "the place '6 mm' of F1"),
    }


def test_the_places_of_rows_and_wraps_are_told_by_their_own_words(tmp_path: Path) -> None:
    text = f"""
    job: Rows
    landmarks: {{bulkhead: a, nose: b}}
    route: [{{from: bulkhead, to: nose, length: 1 m}}]
    wires: {{W1: {{from: F7, to: lamp.1, size: 1.0 mm2}}, W2: {{from: F7, to: horn.1, size: 1.0 mm2}}}}
    changes:
      - id: C1
        kind: cap
        wire: W1
        end: F7
        stub: 30 mm
        where: 9 m from nose towards bulkhead # where
        {MADE}
      - id: C2
        kind: cover
        cover: cloth tape
        from: sill # from
        to: 300 mm past nose # to
        {MADE}
      - {{id: C3, kind: cover, cover: cloth tape, from: lamp.1, to: F7, {MADE}}}
      - {{id: C4, kind: cap, wire: W2, end: horn.1, stub: 30 mm, where: nose, {MADE}}}
    """
    found = sorted(said(tmp_path, text, "PLC02", "PLC05", "PLC06"), key=lambda finding: (finding[1], finding[2]))
    assert [(rank, entry, line) for rank, entry, line, _, _ in found] == [
        ("error", "C1", "where"), ("note", "C2", "from"), ("error", "C2", "to"),
    ]  # fmt: skip
    assert found[0][3].startswith("the place '9 m from nose towards bulkhead' cannot be found: ")
    assert found[1][3] == "'sill' is no landmark; it is shown as it is written"
    assert found[2][3] == "'300 mm past nose' does not say from which landmark towards which"


# ---- sizes ----------------------------------------------------------------------------------------------------------
SAME = "Take wire of the same size or larger"


@pytest.mark.parametrize(("piece", "problem"), [
    ("0.75 mm2", "the piece is 0.75 mm2, smaller than W2, 1.0 mm2"),
    ("1.0 mm2", ""), ("1.5 mm2", ""), ("unknown", ""),
])  # fmt: skip
def test_a_piece_is_held_to_the_wire_it_is_let_into(piece: str, problem: str, tmp_path: Path) -> None:
    text = f"""{USUAL}
    wires:
      W1: {{size: 0.5 mm2, from: F1, to: a.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F1, to: a.2, length: 900 mm}}
      W3: {{from: F1, to: a.3, length: 900 mm}}
    changes:
      - id: C1
        kind: extend
        plug: a
        stagger: 50 mm
        wires: {{W1: BU 0.5 mm2, W2: BU {piece}, W3: BU 0.5 mm2}} # wires
        pigtail: 200 mm
        gap: 300 mm
        {MADE}
      - id: C2
        kind: extend
        wire: W2
        end: F1
        piece: BU {piece} # piece
        pigtail: 200 mm
        gap: 300 mm
        {MADE}
    """
    assert said(tmp_path, text, "SIZ01") == (
        [("error", "C1-W2", "wires", problem, SAME), ("error", "C2-W2", "piece", problem, SAME)] if problem else []
    )


def test_a_piece_of_a_new_wire_is_smaller_than_nothing(tmp_path: Path) -> None:
    text = f"""{USUAL}
    wires: {{W1: {{size: 2.5 mm2, from: F1, to: a.1, length: 900 mm}}}}
    changes:
      - {{id: C1, kind: add, wire: N1, from: F1, to: a.2, piece: BU 1.0 mm2, cut: 1 m, {MADE}}}
      - {{id: C2, kind: extend, wire: N1, plug: a, pigtail: 200 mm, gap: 300 mm, piece: BU 0.75 mm2,
         made: 2031-05-04 AK}}
    """
    assert entries(tmp_path, text, "SIZ01") == []


@pytest.mark.parametrize(("size", "other", "steps"), [
    # two numbers of a gauge are a step: 18 and 16 AWG are one apart, 18 and 14 AWG two. 16 AWG is 1.3 mm2 at most, and
    # 2.5 mm2 nearly twice that
    ("16 AWG", "2.5 mm2", "told"), ("16 AWG", "unknown", ""), ("unknown", "2.5 mm2", ""), ("1.0 mm2", "1.0 mm2", ""),
    ("18 AWG", "16 AWG", ""),  # one step
    ("18 AWG", "14 AWG", "2.0"), ("14 AWG", "18 AWG", "2.0"),
])  # fmt: skip
def test_two_sizes_of_one_wire_are_a_step_apart_at_most(size: str, other: str, steps: str, tmp_path: Path) -> None:
    text = f"""
    job: Sizes
    wires:
      W1: {{size: 1.0 mm2, from: a.1, to: b.1}}
      W2:
        size: {size}
        other size: {other} # other
        from: a.2
        to: b.2
{CHECK}"""
    found = said(tmp_path, text, "SIZ03")
    problem = f"W2 is {size} and {other}: they are {steps} steps of size apart"
    if steps == "told":
        assert [finding[:3] for finding in found] == [("warning", "W2", "other")]
        return
    mend = "Read the print again, or measure the conductor"
    assert found == ([("warning", "W2", "other", problem, mend)] if steps else [])


def test_an_unread_size_is_told_of_the_wire_or_piece_that_carries_much(tmp_path: Path) -> None:
    text = f"""{USUAL}
    fuses: {{F1: {{rating: 30 A, fed: always}}}}
    splices: {{FS1: {{}}}}
    loads:
      lamp: {{between: lamp.1 lamp.2, draws: 5.1 A}}
      fan: {{between: fan.1 fan.2, draws: 9 A}}
      horn: {{between: horn.1 horn.2, draws: 5 A}}
      seat: {{between: seat.1 seat.2, draws: 9 A, verdict: deleted}}
      unread: {{between: unread.1 unread.2}}
    wires:
      W1: {{from: F1, to: FS1, length: 900 mm}} # W1
      W2: {{size: 2.5 mm2, from: FS1, to: lamp.1, length: 900 mm}}
      W3: {{size: 2.5 mm2, from: FS1, to: fan.1, length: 900 mm}}
      W4: {{from: F1, to: horn.1, length: 900 mm}}
      W5: {{from: F1, to: seat.1, length: 900 mm}}
      W6: {{from: F1, to: unread.1, length: 900 mm}}
      W7: {{size: 2.5 mm2, from: lamp.2, to: battery-, length: 900 mm}}
      W8: {{size: 2.5 mm2, from: fan.2, to: battery-, length: 900 mm}}
      W9: {{size: 2.5 mm2, from: horn.2, to: battery-, length: 900 mm}}
    changes:
      - id: C1
        kind: extend
        wire: W7
        plug: lamp
        piece: BU unknown # piece
        pigtail: 200 mm
        gap: 300 mm
        {MADE}
      - id: C2
        kind: extend
        plug: fan
        stagger: 50 mm
        wires: {{W8: BU unknown}} # wires
        pigtail: 200 mm
        gap: 300 mm
        {MADE}
    """
    mend = "Read or measure it: fuse and drop are not judged without it"

    def unread(entry: str, line: str, what: str, loads: str) -> tuple[str, str, str, str, str]:
        return ("warning", entry, line, f"the size of {what} was not read, and it carries {loads}", mend)

    assert sorted(said(tmp_path, text, "SIZ03")) == sorted([
        unread("W1", "W1", "W1", "lamp (5.1 A), fan (9.0 A)"),
        unread("C1-W7", "piece", "the piece in W7", "lamp (5.1 A)"),
        unread("C2-W8", "wires", "the piece in W8", "fan (9.0 A)"),
    ])  # fmt: skip


def test_conductors_that_are_not_for_a_car_are_told_while_any_of_them_is_in_it(tmp_path: Path) -> None:
    text = f"""
    job: Conductors
    wires:
      W1: {{from: a.1, to: b.1, conductor: aluminium}} # W1
      W2: {{from: a.2, to: b.2, conductor: solid copper}}
      W3: {{from: a.3, to: b.3}}
      W4: {{from: a.4, to: b.4, conductor: copper-clad aluminium}} # W4
    changes:
      - {{id: C1, kind: remove, wire: W2, ends: {{a.2: gone, b.2: gone}}, {MADE}}}
      - id: C2
        kind: add
        wire: N1
        from: a.9
        to: b.9
        piece: BU 1.0 mm2
        cut: 1 m
        conductor: solid copper # C2
        {MADE}
    """
    mend = "Take stranded annealed copper: anything else breaks or creeps loose where a car shakes it"
    assert sorted(said(tmp_path, text, "MAT01")) == sorted(
        [
            ("error", "W1", "W1", "W1 has a conductor of aluminium", mend),
            ("error", "W4", "W4", "W4 has a conductor of copper-clad aluminium", mend),
            ("error", "C2", "C2", "the piece put in by C2 has a conductor of solid copper", mend),
        ]
    )


# ---- terminals ------------------------------------------------------------------------------------------------------
MAKER, BREAKS = "Crimp a new terminal, and use no solder", "Crimp a new terminal: a wire breaks where the solder ends"
FLEX = f"""{USUAL}
    landmarks: {{bulkhead: a, door: b, nose: c, roof: d, island: e}}
    route:
      - {{from: bulkhead, to: door, length: 1 m, zone: flex}}
      - {{from: bulkhead, to: nose, length: 1 m}}
      - {{from: nose, to: roof, length: 1 m, zone: flex}}
    plugs: {{in-door: {{at: door}}, front: {{at: nose}}, strict: {{solder: not allowed, at: nose}}, loose: {{}},
      alone: {{at: island}},
      on-leg: {{at: 300 mm from bulkhead towards door}}, off-leg: {{at: 300 mm from bulkhead towards nose}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: in-door.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F1, to: front.1, length: 900 mm}}
    changes:
"""


@pytest.mark.parametrize(("row", "told"), [
    ("kind: terminate, wire: W2, end: front.1, into: strict.1, tail: 300 mm", [("strict.1", "maker")]),
    ("kind: terminate, wire: W2, end: front.1, into: in-door.2, tail: 300 mm", [("in-door.2", "flex")]),
    ("kind: terminate, wire: W2, end: front.1, into: front.2, tail: 300 mm", []),  # one of its legs does not flex
    ("kind: terminate, wire: W2, end: front.1, into: loose.2, tail: 300 mm", []),
    ("kind: terminate, wire: W2, end: front.1, into: alone.2, tail: 300 mm", []),  # no leg leads there
    ("kind: terminate, wire: W2, end: front.1, into: on-leg.2, tail: 300 mm", [("on-leg.2", "flex")]),
    ("kind: terminate, wire: W2, end: front.1, into: off-leg.2, tail: 300 mm", []),
    ("kind: add, wire: N1, from: strict.1, to: in-door.2, piece: BU 1.0 mm2, cut: 1 m",
     [("strict.1", "maker"), ("in-door.2", "flex")]),
    ("kind: tap, wire: N1, onto: W2, to: in-door.2, reach: 400 mm, piece: BU 1.0 mm2", [("in-door.2", "flex")]),
    ("kind: shorten, wire: W1, plug: in-door, take out: 100 mm, terminal: pin", [("in-door.1", "flex")]),
    ("kind: shorten, wire: W1, end: in-door.1, take out: 100 mm, terminal: pin", [("in-door.1", "flex")]),
    ("kind: shorten, wire: W1, plug: in-door, pigtail: 200 mm, take out: 100 mm", []),  # no terminal was put on
    ("kind: swap, plug: front, new plug: strict, cavities: {1: 3}, seen from: wire side, terminal: pin",
     [("strict.3", "maker")]),
    ("kind: swap, plug: front, new plug: strict, cavities: {1: 3}, seen from: wire side", []),
])  # fmt: skip
@pytest.mark.parametrize(("fixed", "how"), [
    ("soldered", "soldered"), ("both", "crimped and soldered"), ("crimped", ""),
])  # fmt: skip
def test_a_soldered_terminal_is_told_at_the_end_that_it_was_put_on(
    row: str, told: list[tuple[str, str]], fixed: str, how: str, tmp_path: Path
) -> None:
    text = f"{FLEX}      - {{id: C1, {row}, terminal fixed: {fixed}, {MADE}}} # C1\n"
    why = {"maker": "its maker does not allow solder", "flex": "it lies where the bundle flexes"}
    mend = {"maker": MAKER, "flex": BREAKS}
    assert said(tmp_path, text, "TRM01") == [
        ("warning", "C1", "C1", f"the terminal at {end} is {how}, and {why[what]}", mend[what])
        for end, what in (told if how else [])
    ]


@pytest.mark.parametrize(("takes", "piece", "steps"), [
    ("18-16 AWG", "12 AWG", ""),  # two steps of two numbers are let go
    ("18-16 AWG", "10 AWG", "3.0"),
    ("18-16 AWG", "unknown", ""),
    ("0.5-1.0 mm2", "1.0 mm2", ""),
])  # fmt: skip
def test_a_piece_is_held_to_the_thickest_wire_that_its_plug_takes(
    takes: str, piece: str, steps: str, tmp_path: Path
) -> None:
    text = f"""{USUAL}
    plugs: {{lamp: {{takes: {takes}}}, horn: {{ways: 2}}}}
    wires:
      W1: {{size: 18 AWG, from: F1, to: lamp.1, length: 900 mm}}
      W2: {{size: 18 AWG, from: F1, to: horn.1, length: 900 mm}}
    changes:
      - {{id: C1, kind: terminate, wire: W2, end: horn.1, into: horn.2, gap: 300 mm, tail: 300 mm, piece: BU {piece},
         {MADE}}}
      - id: C2
        kind: terminate
        wire: W1
        end: lamp.1
        into: lamp.2
        gap: 300 mm
        tail: 300 mm
        piece: BU {piece} # piece
        {MADE}
    """
    problem = f"the piece is {piece}; lamp.2 takes {takes}, {steps} steps of size less"
    mend = "Take thinner wire for the last stretch where the fuse allows it, or a plug that takes this size"
    assert said(tmp_path, text, "SIZ02") == ([("warning", "C2-W1", "piece", problem, mend)] if steps else [])

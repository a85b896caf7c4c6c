"""The route walked by hand: which way, how far, on which leg and from which side, and what is said of no way."""

from __future__ import annotations

import textwrap

import pytest

from aswired.car.route import PlaceError, Position, Route
from aswired.files import read_job

# box -500- cowl, from pillar back to cowl 300, pillar -1000- tail, or by roof 400 + 800; cowl - dash not measured,
# dash -200- knob; one leg by itself, one landmark on no leg
JOB = """
    job: Walk
    landmarks: {box: a, cowl: b, pillar: c, tail: d, roof: e, dash: f, knob: g, shed: h, yard: i, alone: j}
    route:
      - {from: box, to: cowl, length: 500 mm, zone: [hot]}
      - {from: pillar, to: cowl, length: 300 mm, zone: [wet, flex]}
      - {from: pillar, to: tail, length: 1000 mm}
      - {from: pillar, to: roof, length: 400 mm}
      - {from: roof, to: tail, length: 800 mm}
      - {from: cowl, to: dash, length: unknown}
      - {from: dash, to: knob, length: 200 mm}
      - {from: shed, to: yard, length: 100 mm}
    plugs: {lamp: {at: tail}, horn: {at: 50 mm from box towards cowl}, cowl: {at: box}, lost: {at: nowhere to be seen},
            odd: {at: 5 mm from box towards moon}, first: {at: second}, second: {at: first}}
    fuses: {F1: {rating: 5 A, in: knob}, F2: {rating: 5 A}}
    grounds: {G1: {at: horn}}
    modules: {unit: {at: roof}}
    wires:
      W1: {colour: RD, size: 1 mm2, from: F1, to: lamp.1}
      S9: {colour: RD, size: 1 mm2, from: own-b.1, to: F2}
    splices: {S1: {at: pillar}}
    changes:
      - {id: C1, kind: swap, plug: lamp, new plug: lamp-b, cavities: {1: 1}, seen from: wire side}
      - {id: C2, kind: swap, plug: lamp-b, new plug: lamp-c, cavities: {1: 1}, seen from: wire side}
      - {id: C3, kind: swap, plug: lamp, new plug: own-b, cavities: {1: 1}, seen from: wire side}
"""
BOX, COWL, PILLAR, TAIL, ROOF, DASH, KNOB, SHED, YARD = (
    Position(name, None, None) for name in ("box", "cowl", "pillar", "tail", "roof", "dash", "knob", "shed", "yard")
)


@pytest.fixture(scope="module")
def route(tmp_path_factory: pytest.TempPathFactory) -> Route:
    folder = tmp_path_factory.mktemp("walk")
    (folder / "job.yml").write_text(textwrap.dedent(JOB).lstrip("\n"), encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    return Route(read.job)


def on(leg: int, offset: float | None) -> Position:
    return Position("", leg, offset)


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("box", BOX),
        ("  box  ", BOX),
        ("alone", Position("alone", None, None)),  # declared, though on no leg
        ("cowl", COWL),  # a landmark goes before the connector of that name
        ("120 mm from box towards cowl", on(0, 120)),
        ("120 mm from cowl towards box", on(0, 380)),  # 500 - 120: counted from the leg's own beginning
        ("500 mm from box towards cowl", COWL),
        ("0 mm from cowl towards box", COWL),
        ("600 mm from box towards pillar", on(1, 200)),  # 100 beyond cowl, 300 - 100 from pillar
        ("800 mm from box towards pillar", PILLAR),
        ("50 mm from cowl towards dash", on(5, 50)),  # the only leg there, however long
        ("50 mm from dash towards cowl", on(5, None)),  # how far from cowl cannot be told
        ("50 mm from cowl towards knob", Position("", None, None)),  # on the leg, or beyond it
        ("150 mm from knob towards cowl", on(6, 50)),
        ("250 mm from knob towards cowl", on(5, None)),
        ("550 mm from box towards dash", on(5, 50)),
        ("unknown from box towards cowl", None),
        ("behind the seat", None),
        ("lamp", TAIL),
        ("horn", on(0, 50)),
        ("G1", on(0, 50)),  # at the connector that lies there
        ("unit", ROOF),
        ("S1", PILLAR),
        ("lost", None),
    ],
)
def test_where_a_written_place_is(route: Route, text: str, where: Position | None) -> None:
    assert route.place(text) == where


@pytest.mark.parametrize(
    ("text", "problem", "mend"),
    [
        ("5 mm from bx towards cowl", "'bx' is not a landmark", "Did you mean box?"),
        ("5 mm from box towards moon", "'moon' is not a landmark", "Declare it under 'landmarks:' and 'route:'"),
        ("5 mm from pillar towards tail", "the route leads from pillar to tail in more than one way",
         "Name a landmark before the fork"),
        ("5 mm from box towards shed", "the route does not lead from box to shed",
         "Add the leg to 'route:', or choose another landmark"),
        ("5 mm from box towards alone", "the route does not lead from box to alone",
         "Add the leg to 'route:', or choose another landmark"),
        ("801 mm from box towards pillar", "801 mm from box lies beyond pillar, which is 800 mm away",
         "Measure again, or measure from pillar towards the next landmark"),
        ("5 from box towards cowl", "the length '5' has no unit", "Write the unit: 5 mm, 5 in or 5 m"),
        ("first", "the places of first and second only point to each other", "Give one a landmark"),
    ],
)  # fmt: skip
def test_a_place_that_cannot_be_says_why(route: Route, text: str, problem: str, mend: str) -> None:
    with pytest.raises(PlaceError) as caught:
        route.place(text)
    assert (caught.value.problem, caught.value.mend) == (problem, mend)


@pytest.mark.parametrize(
    ("p", "q", "by", "mm"),
    [
        (BOX, PILLAR, (), 800),
        (PILLAR, BOX, (), 800),
        (on(0, 100), on(0, 450), (), 350),
        (on(0, 450), on(0, 100), (), 350),
        (on(0, 100), COWL, (), 400),
        (COWL, on(0, 100), (), 400),
        (on(0, 100), BOX, (), 100),
        (on(0, 100), on(1, 50), (), 650),  # 400 to cowl, 250 towards pillar
        (on(0, 100), PILLAR, (), 700),
        (PILLAR, TAIL, (), None),  # two ways
        (PILLAR, TAIL, ("roof",), 1200),
        (BOX, TAIL, ("roof",), 2000),
        (BOX, TAIL, ("pillar",), None),  # both ways go by it
        (BOX, TAIL, ("roof", "pillar"), 2000),
        (BOX, TAIL, ("shed",), None),
        (BOX, PILLAR, ("shed",), 800),  # where there is one way only it is that
        (COWL, DASH, (), None),  # not measured
        (BOX, KNOB, (), None),
        (DASH, KNOB, (), 200),
        (on(5, 50), on(5, None), (), None),
        (on(5, None), on(5, 50), (), None),
        (on(5, 50), COWL, (), 50),
        (on(5, 50), DASH, (), None),
        (BOX, SHED, (), None),
        (Position("", None, None), BOX, (), None),
    ],
)
def test_the_length_of_route_between_two_places(
    route: Route, p: Position, q: Position, by: tuple[str, ...], mm: float | None
) -> None:
    assert route.distance(p, q, by) == mm


@pytest.mark.parametrize(
    ("p", "q", "mm", "by", "where"),
    [
        (BOX, PILLAR, 200, (), on(0, 200)),
        (BOX, PILLAR, 600, (), on(1, 200)),  # 100 beyond cowl on the leg from pillar
        (PILLAR, BOX, 100, (), on(1, 100)),
        (PILLAR, BOX, 400, (), on(0, 400)),  # 100 beyond cowl on the way to box
        (BOX, PILLAR, 801, (), None),
        (BOX, PILLAR, -1, (), None),
        (on(0, 100), on(0, 400), 250, (), on(0, 350)),
        (on(0, 400), on(0, 100), 250, (), on(0, 150)),
        (on(0, 100), on(0, 400), 300, (), on(0, 400)),
        (on(0, 100), on(0, 400), 301, (), None),
        (on(0, 100), PILLAR, 150, (), on(0, 250)),
        (on(0, 100), PILLAR, 450, (), on(1, 250)),  # 400 to cowl, 50 beyond
        (on(0, 100), BOX, 60, (), on(0, 40)),
        (on(0, 100), on(1, 100), 450, (), on(1, 250)),  # 400 to cowl, 50 of the 200 beyond
        (on(0, 100), on(1, 100), 600, (), on(1, 100)),
        (on(0, 100), on(1, 100), 601, (), None),
        (on(1, 100), on(0, 100), 250, (), on(0, 450)),  # 200 to cowl, 50 beyond on the way to box
        (on(1, 100), on(2, 300), 150, (), on(2, 50)),
        (BOX, TAIL, 1000, (), None),
        (BOX, TAIL, 1000, ("roof",), on(3, 200)),
        (BOX, TAIL, 1400, ("roof",), on(4, 200)),
        (COWL, KNOB, 50, (), None),  # over a leg that was not measured
        (BOX, KNOB, 50, (), on(0, 50)),
        (BOX, KNOB, 550, (), None),
        (on(5, None), COWL, 10, (), None),
        (on(5, 50), KNOB, 10, (), None),
        (KNOB, on(5, 50), 150, (), on(6, 50)),
        (KNOB, on(5, 50), 250, (), None),
        (BOX, on(5, 80), 550, (), on(5, 50)),
        (BOX, SHED, 10, (), None),
    ],
)
def test_where_one_gets_by_walking(
    route: Route, p: Position, q: Position, mm: float, by: tuple[str, ...], where: Position | None
) -> None:
    assert route.along(p, q, mm, by) == where


def test_which_legs_are_walked_and_whether_a_way_goes_by_a_landmark(route: Route) -> None:
    def legs(p: Position, q: Position, by: tuple[str, ...] = ()) -> list[tuple[int, bool]] | None:
        way = route.way(p, q, by)
        return None if way is None else [(hop.leg, hop.forward) for hop in way]

    assert legs(BOX, PILLAR) == [(0, True), (1, False)]
    assert legs(PILLAR, BOX) == [(1, True), (0, False)]
    assert legs(BOX, TAIL, ("roof",)) == [(0, True), (1, False), (3, True), (4, True)]
    assert legs(BOX, TAIL) is None
    assert legs(on(0, 100), on(1, 100)) == []  # both legs end in cowl
    assert legs(on(0, 100), PILLAR) == [(1, False)]
    assert legs(BOX, SHED) is None
    told = {by: route.leads(BOX, TAIL, by) for by in (("roof",), ("pillar", "roof"), ("box", "tail"), ("dash",))}
    assert told == {("roof",): True, ("pillar", "roof"): True, ("box", "tail"): True, ("dash",): False}
    assert [route.leads(p, q, ("cowl",)) for p, q in ((on(0, 1), on(1, 1)), (PILLAR, TAIL), (BOX, SHED))] == [
        True,
        False,
        False,
    ]
    assert (route.leads(on(0, 5), BOX, ("box",)), route.leads(TAIL, on(0, 5), ("roof", "box"))) == (True, True)


def test_the_only_way_from_the_end_of_the_route(route: Route) -> None:
    assert route.only_way(BOX, 100) == on(0, 100)
    assert route.only_way(BOX, 500) == on(0, 500)
    assert route.only_way(BOX, 0) == on(0, 0)
    assert route.only_way(KNOB, 50) == on(6, 150)  # against the leg: 200 - 50
    assert route.only_way(YARD, 30) == on(7, 70)
    assert [route.only_way(BOX, mm) for mm in (501, -1)] == [None, None]
    assert route.only_way(COWL, 10) is None  # three ways
    assert route.only_way(on(0, 50), 10) is None
    assert route.only_way(Position("alone", None, None), 10) is None


def test_landmarks_branches_neighbours_and_zones(route: Route) -> None:
    every = {"box", "cowl", "pillar", "tail", "roof", "dash", "knob", "shed", "yard"}
    assert set(route.landmarks) == every | {"alone"}
    assert set(route.on_legs) == every
    assert route.beside("pillar") == ("cowl", "tail", "roof")
    assert route.beside("alone") == ()
    assert {name for name in route.landmarks if route.branches(name)} == {"cowl", "pillar"}
    assert [route.zone(at) for at in (on(0, 1), on(1, 1), on(2, 1), COWL)] == [("hot",), ("wet", "flex"), (), ()]
    assert route.ends_of(on(0, 100)) == (("box", 100), ("cowl", 400))
    assert route.ends_of(on(5, 50)) == (("cowl", 50), ("dash", None))
    assert route.ends_of(on(0, None)) == (("box", None), ("cowl", None))
    assert route.ends_of(COWL) == (("cowl", 0),)


@pytest.mark.parametrize(
    ("end", "where"),
    [
        ("F1", KNOB),
        ("F1.feed", KNOB),
        ("F2", None),
        ("lamp.1", TAIL),
        ("lamp-b.1", TAIL),  # in the place of the one it took the place of
        ("lamp-c.7", TAIL),  # and so on
        ("own-b.1", None),  # a connector of the donor is where it was, and that is not said
        ("horn.2", on(0, 50)),
        ("unit.3", ROOF),
        ("S1", PILLAR),
        ("G1", on(0, 50)),
        ("shed", SHED),  # by the name of a landmark
        ("shed.1", SHED),
        ("cowl.1", BOX),  # a part's own place goes before its name
        ("odd.1", None),  # told where it is written; here nobody knows
        ("nobody.1", None),
    ],
)
def test_where_the_part_is_that_an_end_sits_in(route: Route, end: str, where: Position | None) -> None:
    assert route.of_end(end) == where

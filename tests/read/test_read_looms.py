"""Several harnesses in one car: each wire's colour is read by the letters of its own loom."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.crawl.tree import Element, parse
from tests.findings.jobs import work

from aswired.figures.worked import JobResult
from aswired.sheets import connectors, record
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.looms import loom_rows
from aswired.sheets.search import entries_of
from aswired.sheets.templates import environment, render
from aswired.site.theme import theme_dir

# B is black in the nose's donor, blue in the rear's; L means blue in the one and nothing in the other
CAR = """
job: Two harnesses
donor: 2000s estate
donor colours: B
colour letters: {B: BK, L: BU}
looms:
  rear: {donor: 1990s hatchback, colour letters: {B: BU, S: GN, W: brown}, donor colours: W}
  roof: {donor: caravan}
plugs: {lamp: {ways: 4}}
fuses: {F1: {rating: 15 A, fed: always}}
wires:
  W1: {colour: B, size: 1.0 mm2, from: F1, to: lamp.1}
  W2: {colour: B/S, size: 1.0 mm2, from: F1, to: lamp.2, loom: rear, by diagram: S}
  W3: {colour: L, size: 1.0 mm2, from: F1, to: lamp.3, loom: roof}
changes:
  - {id: C1, kind: remove, wire: W9, was: "S 18 AWG, F1 to bell.1", loom: rear, ends: {F1: pulled, bell.1: gone},
     made: 2031-05-03 AK}
  - {id: C2, kind: extend, wire: W2, plug: lamp, pigtail: 100 mm, gap: 300 mm, piece: B 1.0 mm2, made: 2031-05-03 AK}
"""


@pytest.fixture(scope="module")
def car(tmp_path_factory: pytest.TempPathFactory) -> JobResult:
    return work(tmp_path_factory.mktemp("car"), CAR)


def test_each_wire_is_read_by_its_looms_letters(car: JobResult) -> None:
    wires = car.job.wires
    assert wires["W1"].colour.code == "BK"  # the job's own letters
    assert wires["W2"].colour.code == "BU/GN"  # the rear's
    assert wires["W2"].by_diagram is not None
    assert wires["W2"].by_diagram.code == "GN"
    assert wires["W3"].colour.code == "BU"  # a loom without letters of its own: the job's


def test_a_wire_told_on_its_row_is_read_by_the_rows_loom_and_a_piece_by_the_shops_letters(car: JobResult) -> None:
    assert car.donor.wires["W9"].colour.code == "GN"
    assert car.job.loom_of("W9") == "rear"
    assert [piece.colour.code for piece in car.pieces] == ["BK"]


def test_ground_colours_are_those_of_the_wires_own_donor(car: JobResult) -> None:
    assert [colour.code for colour in car.job.ground_colours_of("W1")] == ["BK"]
    assert [colour.code for colour in car.job.ground_colours_of("W2")] == ["BN"]  # W is brown there
    assert [colour.code for colour in car.job.ground_colours_of("W3")] == ["BK"]  # none written: the job's


def test_the_legend_has_the_jobs_donor_and_each_loom(car: JobResult) -> None:
    rows = {row.name: row for row in loom_rows(car)}
    assert list(rows) == ["", "rear", "roof"]
    assert [(letter.letter, letter.colour and letter.colour.code) for letter in rows["rear"].letters] == [
        ("B", "BU"),
        ("S", "GN"),
        ("W", "BN"),
    ]
    assert [letter.letter for letter in rows["roof"].letters] == ["B", "L"]
    assert (rows["rear"].donor, rows["rear"].wires, rows[""].wires) == ("1990s hatchback", "2 wires", "1 wire")


def test_a_car_of_one_harness_has_no_legend(tmp_path: Path) -> None:
    plain = work(tmp_path, "job: One\nchanges: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]\n")
    assert loom_rows(plain) == ()


def text_of(element: Element) -> str:
    return " ".join("".join(part if isinstance(part, str) else text_of(part) + " " for part in element.inside).split())


@pytest.mark.parametrize("module", [connectors, record], ids=["connectors", "record"])
def test_the_legend_stands_beside_the_connectors_and_in_the_record(module, car: JobResult) -> None:
    (out,) = module.pages(frame_of(car, ShopFacts("owner")))
    told = text_of(parse(render(environment(theme_dir()), out)))
    assert "Looms and colour letters" in told
    assert "1990s hatchback" in told
    assert "S GN green" in told


def test_a_wires_loom_is_shown_where_it_sits_and_found_by_search(car: JobResult) -> None:
    (out,) = connectors.pages(frame_of(car, ShopFacts("shop")))
    assert "W2 (rear loom)" in text_of(parse(render(environment(theme_dir()), out))).replace(" (", " (")
    assert "rear" in next(entry.text for entry in entries_of(car) if entry.id == "W2").split()

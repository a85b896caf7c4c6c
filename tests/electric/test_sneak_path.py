"""Rear ground of the trail truck come loose, brake pressed: every lamp against ngspice, and what the pages say."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from aswired.figures.backfeed import FED, LESS, Opened
from aswired.figures.worked import JobResult
from aswired.sheets import circuits as circuits_page
from aswired.sheets import grounds as grounds_page
from aswired.sheets import record as record_page
from aswired.sheets.backfeed import if_opened
from aswired.sheets.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.templates import environment, render
from tests.crawl.tree import parse
from tests.demos import demo
from tests.electric import spice

ROOT = Path(__file__).parents[2]
WITHIN = 0.001

# load -> its nodes in sneak.cir, fed end first
NODES = {
    "stop left": ("tl2", "tl5"), "stop right": ("tr2", "tr5"),
    "tail left": ("tl1", "tl5"), "tail right": ("tr1", "tr5"),
    "indicator rear left": ("tl3", "tl5"), "indicator rear right": ("tr3", "tr5"), "number lamp": ("n1", "n2"),
    "position left": ("ll2", "ll4"), "position right": ("lr2", "lr4"), "indicator front left": ("ll3", "ll4"),
    "indicator front right": ("lr3", "lr4"),
}  # fmt: skip


def truck() -> JobResult:
    return demo("trail-truck")


def braking() -> Opened:
    point = truck().ground_states.opened["L4"]
    (found,) = [opened for opened in point.opened if opened.switched.short == "stop switch closed"]
    return found


def text(page: PageOut) -> str:
    return " ".join(parse(render(environment(ROOT / "site_theme"), page)).first("main").text.split())


def test_every_lamp_has_the_volts_of_the_circuit_drawn_by_hand() -> None:
    spice.needed()
    volts = spice.volts(spice.NETLISTS / "sneak.cir")
    found = {over.load: over.open_v for over in braking().over}
    assert set(found) == set(NODES)
    for load, (fed, back) in NODES.items():
        assert abs(volts[fed] - volts[back]) > 1
        assert found[load] == pytest.approx(volts[fed] - volts[back], rel=WITHIN), load


def test_the_netlist_tells_which_lamps_are_fed_and_which_the_wrong_way_round() -> None:
    spice.needed()
    volts = spice.volts(spice.NETLISTS / "sneak.cir")
    wrong = {load for load, (fed, back) in NODES.items() if volts[fed] < volts[back]}
    opened = braking()
    assert wrong == {"tail left", "tail right", "indicator rear left", "indicator rear right", "number lamp"}
    assert {over.load for over in opened.over if over.backwards} == wrong
    assert {over.load for over in opened.having(FED)} == set(NODES) - {"stop left", "stop right"}
    assert [over.load for over in opened.having(LESS)] == ["stop left", "stop right"]


def test_the_current_goes_down_the_lamps_by_the_way_that_carries_most() -> None:
    # by hand: of what leaves tail-left.5 the 21 W indicator takes more than the 5 W tail lamp, and FS6 leads on to the
    # front indicator alone
    names = [name for name, _ in braking().way]
    assert names == ["stop left", "indicator rear left", "FS6", "indicator front left", "FS9", "L1", "L6", "battery-"]


def test_the_page_of_grounds_says_it() -> None:
    (page,) = grounds_page.pages(frame_of(truck(), ShopFacts("shop")))
    said = text(page)
    # 5.09 and 3.73 V of ngspice; a filament glows from three tenths of its volts: 5.09 / 13.5 = 0.38,
    # 3.73 / 12.8 = 0.29
    assert "With L4 open and stop switch closed (on the brake pedal): stop left, stop right are dim at 5.8 V" in said
    assert "position left, position right glow at 5.1 V; indicator front left, indicator front right glow dimly" in said
    wrong = "tail left, tail right, indicator rear left, indicator rear right, number lamp"
    assert f"{wrong} glow dimly at 2.4 to 3.7 V, the wrong way round." in said
    assert (
        "The largest part of the current goes from stop left by indicator rear left (the wrong way round), FS6, "
        "indicator front left, FS9, L1, L6 to battery-." in said
    )


def test_the_circuit_and_the_record_say_it_in_short() -> None:
    pages = circuits_page.pages(frame_of(truck(), ShopFacts("shop")))
    (page,) = [page for page in pages if page.context["page_title"] == "stop left"]
    assert "If L4 opens It is dim at 5.8 V in place of 13.2 V, and position left, position right," in text(page)
    (record,) = record_page.pages(frame_of(truck(), ShopFacts("shop")))
    (line,) = re.findall(r"L4, 9\.6 A, 0\.07 V\. If it opens: (.*?)\. L5,", text(record))
    less = "stop left 5.8 V, stop right 5.8 V, tail left"
    fed = "position left 5.1 V, position right 5.1 V, indicator front left"
    assert f"gets less in some states: {less}" in line
    assert f"fed though off in some states: {fed}" in line


def test_a_point_whose_current_all_goes_on_by_another_is_told_once() -> None:
    # all that lands on L1 goes on by L6, and what lands on L6 itself is not recorded to be switched on by anything
    said = text(next(iter(grounds_page.pages(frame_of(truck(), ShopFacts("shop"))))))
    assert "For the rest it is as with L1 open: its current has no other way." in said
    assert if_opened("L6", truck()).note == (
        "as with L1 open; not worked out: windscreen wiper (its feed was not examined), "
        "engine unit (its feed was not examined)"
    )

"""Where the volts go: every thing on the way of a load, against sums by hand.

ISO 6722-1 (from memory, as in the product's own table): 0.5 mm2 has 37.1 mohm/m, 1.0 mm2 18.5, 1.5 mm2 12.7, 4.0 mm2
4.71, 10 mm2 1.82.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, proved, work

from aswired.car.circuits import CircuitFigures, Element

WAY = proved("""
    job: One way
    usual: {joint resistance: 2 mohm, cavity resistance: 3 mohm, ring resistance: 1 mohm, fuse resistance: 6 mohm,
      switch resistance: 5 mohm}
    fuses: {F1: {rating: 15 A}, F2: {rating: 15 A}}
    splices: {FS1: {}, FS9: {}}
    switches: {lever: {between: lever.1 lever.2}}
    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 2 m}}
    wires:
      W1: {size: 1.5 mm2, from: lever.1, to: F1, length: 1 m}
      W2: {size: 1.0 mm2, from: FS1, to: lever.2, length: 2 m}
      W3: {size: 0.5 mm2, from: lamp.1, to: FS1, length: 1 m}
      W4: {size: 1.0 mm2, from: L1, to: FS9, length: 1 m}
      W5: {size: 1.0 mm2, from: FS9, to: lamp.2, length: 1 m}
      W6: {size: 1.0 mm2, from: FS1, to: horn.1, length: 1 m}
      W7: {size: 1.0 mm2, from: horn.2, to: L1, length: 1 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A, class: lamp}
      horn: {between: horn.1 horn.2, draws: 5 A, class: horn}
""")


def told(elements: tuple[Element, ...]) -> list[tuple[str, str, float | None, float | None]]:
    return [(element.kind, element.name, rounded(element.mohm), rounded(element.amps)) for element in elements]


def rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 6)


def volts(elements: tuple[Element, ...], state: str) -> float:
    return sum(getattr(element, f"{state}_v") for element in elements)


def sides_add_up(figures: CircuitFigures) -> bool:
    """Whether the elements of both sides add up to their drops, alone and together."""
    pairs = [
        (volts(figures.feed_elements, "alone"), figures.alone.feed.value),
        (volts(figures.return_elements, "alone"), figures.alone.back.value),
        (volts(figures.feed_elements, "together"), figures.together.feed.value),
        (volts(figures.return_elements, "together"), figures.together.back.value),
    ]
    return all(mine == pytest.approx(drop, abs=1e-9) for mine, drop in pairs)


def test_the_feed_in_the_direction_of_the_current(tmp_path: Path) -> None:
    lamp = work(tmp_path, WAY).circuit_figures["lamp"]
    # the horn's 5 A join the lamp's 2 A up to FS1; a splice that a current leaves by stands in two halves
    assert told(lamp.feed_elements) == [
        ("fuse", "fuse F1", 6.0, 7.0),
        ("wire", "W1 from F1 to lever.1", 12.7, 7.0),
        ("join", "cavity lever.1", 3.0, 7.0),
        ("switch", "switch lever", 5.0, 7.0),
        ("join", "cavity lever.2", 3.0, 7.0),
        ("wire", "W2 from FS1 to lever.2", 37.0, 7.0),
        ("join", "half the joint FS1", 1.0, 7.0),
        ("join", "half the joint FS1", 1.0, 2.0),
        ("wire", "W3 from FS1 to lamp.1", 37.1, 2.0),
        ("join", "cavity lamp.1", 3.0, 2.0),
    ]
    # 6 + 12.7 + 3 + 5 + 3 + 37 + 1 = 67.7 mohm and 1 + 37.1 + 3 = 41.1 mohm
    assert volts(lamp.feed_elements, "alone") == pytest.approx(2 * 0.1088)
    assert volts(lamp.feed_elements, "together") == pytest.approx(7 * 0.0677 + 2 * 0.0411)
    assert sides_add_up(lamp)


def test_the_return_and_a_splice_that_is_passed(tmp_path: Path) -> None:
    lamp = work(tmp_path, WAY).circuit_figures["lamp"]
    assert told(lamp.return_elements) == [
        ("join", "cavity lamp.2", 3.0, 2.0),
        ("wire", "W5 from FS9 to lamp.2", 18.5, 2.0),
        ("join", "joint FS9", 2.0, 2.0),
        ("wire", "W4 from FS9 to L1", 18.5, 2.0),
        ("join", "ring on L1", 1.0, 2.0),
        ("join", "cable ring on L1", 1.0, 7.0),
        ("cable", "cable L1 to battery-", 3.64, 7.0),
    ]
    assert volts(lamp.return_elements, "together") == pytest.approx(2 * 0.043 + 7 * 0.00464)
    assert [element.at for element in lamp.return_elements] == ["lamp.2", "", "FS9", "", "L1", "L1", ""]
    wires = [element.stretch.wire for element in lamp.return_elements if element.stretch is not None]
    assert wires == ["W5", "W4"]


def test_what_is_not_recorded_is_told_where_it_lies(tmp_path: Path) -> None:
    text = WAY.replace("size: 1.0 mm2, from: FS1, to: lever.2", "size: unknown, from: FS1, to: lever.2")
    lamp = work(tmp_path, text).circuit_figures["lamp"]
    unknown = [element for element in lamp.feed_elements if element.mohm is None]
    assert [(element.name, rounded(element.amps), element.alone_v, element.together_v) for element in unknown] == [
        ("W2 from FS1 to lever.2", 7.0, None, None)
    ]
    assert lamp.alone.feed.value is None


def test_without_the_horns_current_only_what_it_shares_is_unknown(tmp_path: Path) -> None:
    lamp = work(tmp_path, WAY.replace("draws: 5 A", "draws: unknown")).circuit_figures["lamp"]
    assert [rounded(element.amps) for element in lamp.feed_elements] == [*[None] * 7, 2.0, 2.0, 2.0]
    assert volts(lamp.feed_elements, "alone") == pytest.approx(2 * 0.1088)
    assert lamp.feed_elements[0].together_v is None


def test_a_way_back_that_is_not_recorded_is_an_element(tmp_path: Path) -> None:
    text = WAY.replace("{back to: battery-, cable: 10 mm2, cable length: 2 m}", "{what: body}")
    lamp = work(tmp_path, text).circuit_figures["lamp"]
    last = lamp.return_elements[-1]
    assert (last.kind, last.name, last.mohm, last.alone_v) == ("body", "way back from L1", None, None)


def test_a_way_that_is_not_complete_has_none(tmp_path: Path) -> None:
    text = WAY.replace("class: lamp}", "class: lamp, return: not examined}")
    lamp = work(tmp_path, text).circuit_figures["lamp"]
    assert lamp.return_elements == ()
    assert lamp.feed_elements


# Two wires from one splice to another share the lamp's current: 18.5 and 37.1 mohm, 3 A x 37.1 / 55.6 = 2.0018 A in
# the first.
PARALLEL = copper_alone(
    proved("""
    job: Two wires beside each other
    fuses: {F1: {rating: 15 A}}
    splices: {FS1: {}, FS2: {}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: FS1, length: 1 m}
      W2: {size: 1.0 mm2, from: FS1, to: FS2, length: 1 m}
      W3: {size: 0.5 mm2, from: FS1, to: FS2, length: 1 m}
      W4: {size: 1.0 mm2, from: FS2, to: lamp.1, length: 1 m}
      W5: {size: 1.0 mm2, from: lamp.2, to: battery-, length: 1 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 3 A, class: lamp}}
""")
)


def test_where_a_current_divides_the_traced_wire_has_its_share(tmp_path: Path) -> None:
    lamp = work(tmp_path, PARALLEL).circuit_figures["lamp"]
    shared = {element.name: element for element in lamp.feed_elements if element.name.startswith(("W2", "W3"))}
    (name,) = shared
    assert shared[name].amps == pytest.approx(2.0018 if name.startswith("W2") else 0.9982, abs=1e-4)
    assert shared[name].alone_v == pytest.approx(0.037033, abs=1e-6)  # 2.0018 A x 18.5 mohm, 0.9982 A x 37.1 alike
    assert sides_add_up(lamp)


# The lamp's return divides at FS9 into W5 to L1 (12.7 mohm) and W6 to L2 (18.5 mohm); L1 goes on to L2 by 10 m of
# 4.0 mm2 (47.1 mohm). The pump's 20 A at L1 go back by the cable, and by W5, FS9 and W6 (31.2 mohm): of them
# 20 x 47.1 / 78.3 = 12.0307 A run through W5 against the lamp's own 1 A x 18.5 / 78.3 = 0.2363 A.
PUSHED = copper_alone(
    proved("""
    job: Pushed back
    fuses: {F1: {rating: 15 A}, F2: {rating: 30 A}}
    splices: {FS9: {}}
    grounds:
      L1: {back to: L2, cable: 4.0 mm2, cable length: 10 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 1 m}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 1 m}
      W2: {size: 4.0 mm2, from: F2, to: pump.1, length: 1 m}
      W3: {size: 4.0 mm2, from: pump.2, to: L1, length: 1 m}
      W4: {size: 1.0 mm2, from: lamp.2, to: FS9, length: 1 m}
      W5: {size: 1.5 mm2, from: FS9, to: L1, length: 1 m}
      W6: {size: 1.0 mm2, from: FS9, to: L2, length: 1 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 1 A, class: lamp}
      pump: {between: pump.1 pump.2, draws: 20 A, class: pump}
""")
)


def test_volts_are_below_nought_where_another_load_pushes_back(tmp_path: Path) -> None:
    lamp = work(tmp_path, PUSHED).circuit_figures["lamp"]
    by_wire = {element.stretch.wire: element for element in lamp.return_elements if element.stretch is not None}
    assert by_wire["W5"].alone_v == pytest.approx(0.2363 * 0.0127, rel=1e-3)
    assert by_wire["W5"].amps == pytest.approx(0.2363 - 12.0307, abs=1e-3)
    assert by_wire["W5"].together_v == pytest.approx((0.2363 - 12.0307) * 0.0127, rel=1e-3)
    assert sides_add_up(lamp)

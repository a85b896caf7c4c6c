"""Leads of a meter that were at no point of the car, and sleeves wide enough for what they are pushed across."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import work

from aswired.car.route import Route
from aswired.figures.leads import at_no_point, declared_points, points_of
from aswired.figures.sleeves import bore_on_hand, least_bore_mm
from aswired.text.units import read_length

CAR = """
    job: Leads
    usual: {joint: "lap, soldered", overlap: 10 mm, slack: 0 mm}
    plugs: {link: {in line: yes}}
    fuses: {F1: {rating: 10 A, fed: always}}
    switches: {stalk: {between: st.1 st.2}}
    modules: {unit: {out: {1: feed}, ground: [31], reference: [7]}}
    grounds: {L1: {back to: battery-}, L2: {back to: battery-}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}, horn: {between: horn.1 horn.2, draws: 2 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, via: link.3, length: 1 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
      W3: {size: 1.0 mm2, from: FS1, to: bell.1, length: 1 m}
    changes:
      - {id: C1, kind: shorten, wire: W1, end: lamp.1, pigtail: 100 mm, take out: 200 mm, made: 2031-05-03 AK}
      - {id: C2, kind: remove, wire: W3, ends: {FS1: gone, bell.1: gone}, made: 2031-05-10 AK}
    readings:
"""


def lost(folder: Path, *readings: str) -> dict[str, tuple[str, ...]]:
    lines = "".join(f"      - {{id: R{n}, {reading}, read: 12 V}}\n" for n, reading in enumerate(readings))
    worked = work(folder, CAR + lines)
    views = (worked.donor, worked.shown, worked.plan)
    return {reading.id: keys for reading, keys in at_no_point(worked.job, views, Route(worked.job))}


@pytest.mark.parametrize(
    "point",
    # of parts that are declared, though no wire ends there; of wires; of what a wire passes; and words
    ["battery+", "battery-", "L1", "L2", "horn.1", "st.2", "unit.1", "unit.31", "unit.7", "lamp.1", "link.3", "F1",
     "F1.feed", "C1", "negative clamp", "unknown"],
)  # fmt: skip
def test_a_lead_may_have_been_at_any_point_of_the_car(point: str, tmp_path: Path) -> None:
    assert lost(tmp_path, f"red: {point}, black: battery-, on: 2031-05-04") == {}
    assert lost(tmp_path / "b", f"red: battery+, black: {point}, on: 2031-05-04") == {}


@pytest.mark.parametrize("point", ["lamp.9", "F2", "F2.feed", "L9", "unit.2", "st.9", "link.4", "C9"])
def test_a_lead_at_no_point_is_named_by_its_colour(point: str, tmp_path: Path) -> None:
    found = lost(
        tmp_path,
        f"red: {point}, black: battery-, on: 2031-05-04",
        f"red: battery+, black: {point}, on: 2031-05-04",
        f"red: {point}, black: {point}, on: 2031-05-04",
        f"red: {point}, on: 2031-05-04",
        "red: lamp.1, black: L1, on: 2031-05-04",
    )
    assert found == {"R0": ("red",), "R1": ("black",), "R2": ("red", "black"), "R3": ("red",)}


@pytest.mark.parametrize(
    ("point", "day", "there"),
    [
        ("C1", "2031-05-02", False),  # the splice is made on the third
        ("C1", "2031-05-03", True),
        ("bell.1", "2031-05-09", True),  # its wire goes out on the tenth
        ("bell.1", "2031-05-11", False),
        ("C1", "", True),  # on some day the car had it
        ("bell.1", "", True),
        ("lamp.2", "2031-05-01", True),
    ],
)
def test_a_point_counts_on_the_days_on_which_the_car_had_it(point: str, day: str, there: bool, tmp_path: Path) -> None:
    on = f", on: {day}" if day else ""
    assert lost(tmp_path, f"red: {point}, black: battery-{on}") == ({} if there else {"R0": ("red",)})


def test_points_of_a_view_and_points_that_are_declared(tmp_path: Path) -> None:
    worked = work(tmp_path, CAR.removesuffix("    readings:\n"))
    assert points_of(worked.donor) >= {"F1", "F1.feed", "link.3", "lamp.1", "lamp.2", "L1", "FS1", "bell.1"}
    assert "C1" not in points_of(worked.donor)
    assert set(declared_points(worked.job)) == {
        "battery+", "battery-", "L1", "L2", "st.1", "st.2", "lamp.1", "lamp.2", "horn.1", "horn.2", "unit.1", "unit.31",
        "unit.7",
    }  # fmt: skip


# ---- sleeves --------------------------------------------------------------------------------------------------------
WIRES = """
    job: Sleeves
    wires:
      W1: {size: 1.0 mm2, from: a.1, to: b.1, outside: 2 mm}
      W2: {size: 1.0 mm2, from: a.2, to: b.2, outside: 5 mm}
      W3: {size: 1.0 mm2, from: a.3, to: b.3, outside: 3 mm}
      W4: {size: unknown, from: a.4, to: b.4}
      W5: {size: 1.0 mm2, from: a.5, to: b.5}
    changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""


@pytest.mark.parametrize(
    ("wires", "bore"),
    [
        (("W1",), 1.2 * 2),
        (("W1", "W2"), 1.2 * 5),  # one on either side: the thicker
        (("W2", "W1"), 1.2 * 5),
        (("W1", "W2", "W3"), 1.2 * (5 + 3)),  # two side by side: the two thickest, whichever they are
        (("W3", "W2", "W1", "W1"), 1.2 * (5 + 3)),
        (("W5",), 1.2 * (2.1 + 0.3)),  # not measured: the largest that the thin-wall table (from memory) lets it have
        (("W1", "W4"), None),
        (("W2", "W1", "W4"), None),
        ((), None),
    ],
)
def test_a_sleeve_is_a_fifth_wider_than_what_it_passes(
    wires: tuple[str, ...], bore: float | None, tmp_path: Path
) -> None:
    worked = work(tmp_path, WIRES)
    ends = [worked.donor.of_wire(name)[0] for name in wires]
    assert least_bore_mm(worked.job, ends) == (None if bore is None else pytest.approx(bore))


@pytest.mark.parametrize(("least", "bore"), [(4.8, 4.8), (4.81, 6.4), (6.4, 6.4), (6.5, None), (0.1, 3.2)])
def test_the_narrowest_sleeve_on_hand_that_is_wide_enough(least: float, bore: float | None) -> None:
    hand = tuple(read_length(text) for text in ("6.4 mm", "3.2 mm", "unknown", "4.8 mm"))
    assert bore_on_hand(hand, least) == bore
    assert bore_on_hand((), least) is None
    assert bore_on_hand(hand[2:3], least) is None

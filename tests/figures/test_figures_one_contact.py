"""Contacts that several wires share, rings of ground cables, and a resistance that agrees with its drop, by hand."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.demos import demo
from tests.findings.jobs import figure, figures, proved, work

from aswired.car.trace import Net
from aswired.figures.worked import JobResult
from aswired.network.pairs import shared_pairs

# 1 m of 1.0 mm2 is 18.5 mohm, of 10 mm2 1.82 mohm (ISO 6722-1, from memory)
USUAL = (
    "{cavity resistance: 4 mohm, ring resistance: 1.5 mohm, joint resistance: 0 mohm, fuse resistance: 0 mohm, "
    "switch resistance: 0 mohm}"
)
HEAD = f"""
    job: One contact
    supply: 12 V
    temperature: 20 C
    body returns: no
    usual: {USUAL}
    fuses: {{F1: {{rating: 30 A, fed: always}}}}
"""
TWO_HOME = proved(
    HEAD
    + """
    loads: {fan: {between: fan.1 fan.2, draws: 10 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: fan.1, length: 1 m}
      W2: {size: 1.0 mm2, from: fan.2, to: battery-, length: 1 m}
      W3: {size: 1.0 mm2, from: fan.2, to: battery-, length: 1 m}
"""
)


def test_two_wires_home_from_one_cavity_share_one_contact(tmp_path: Path) -> None:
    # the contact carries all 10 A, each wire 5: 10 x 4 + 5 x 18.5 = 132.5 mV
    value = figures(work(tmp_path / "two", TWO_HOME))
    assert value["fan.return.alone"] == pytest.approx(0.1325)
    assert value["fan.return.resistance"] == pytest.approx(4 + 18.5 / 2)
    # one wire: 10 x (4 + 18.5) = 225 mV
    one = TWO_HOME.replace("      W3: {size: 1.0 mm2, from: fan.2, to: battery-, length: 1 m}\n", "")
    assert figures(work(tmp_path / "one", one))["fan.return.alone"] == pytest.approx(0.225)


DAISY = proved(
    HEAD
    + """
    loads: {near: {between: near.1 near.2, draws: 5 A}, far: {between: far.1 far.2, draws: 2 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: near.1, length: 1 m}
      W2: {size: 1.0 mm2, from: near.1, to: far.1, length: 1 m}
      W3: {size: 1.0 mm2, from: near.2, to: battery-, length: 1 m}
      W4: {size: 1.0 mm2, from: far.2, to: battery-, length: 1 m}
"""
)


def contacts(worked: JobResult, load: str) -> list[tuple[str, float | None]]:
    elements = worked.circuit_figures[load].feed_elements
    return [(element.name, element.amps) for element in elements if element.kind == "join"]


def test_a_wire_that_goes_on_from_the_same_terminal_passes_no_contact(tmp_path: Path) -> None:
    # near: W1 carries 7 A, the contact its own 5; far: W1 7 A, W2 and its contact 2 A
    worked = work(tmp_path, DAISY)
    value = figures(worked)
    assert value["near.feed.together"] == pytest.approx((7 * 18.5 + 5 * 4) / 1000)
    assert value["far.feed.together"] == pytest.approx((7 * 18.5 + 2 * (18.5 + 4)) / 1000)
    assert contacts(worked, "near") == [("cavity near.1", pytest.approx(5))]
    assert contacts(worked, "far") == [("cavity far.1", pytest.approx(2))]
    for load in ("near", "far"):
        volts = [element.together_v for element in worked.circuit_figures[load].feed_elements]
        assert sum(v for v in volts if v is not None) == pytest.approx(value[f"{load}.feed.together"])


FORK = proved(
    HEAD
    + """
    plugs: {bulkhead: {ways: 4, in line: yes}}
    loads: {near: {between: near.1 near.2, draws: 5 A}, far: {between: far.1 far.2, draws: 2 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: bulkhead.1, length: 1 m}
      W2: {size: 1.0 mm2, from: bulkhead.1, to: near.1, length: 1 m}
      W5: {size: 1.0 mm2, from: bulkhead.1, to: far.1, length: 1 m}
      W3: {size: 1.0 mm2, from: near.2, to: battery-, length: 1 m}
      W4: {size: 1.0 mm2, from: far.2, to: battery-, length: 1 m}
"""
)


def test_a_cavity_where_one_wire_goes_on_as_two_carries_both_currents(tmp_path: Path) -> None:
    # W1 and the contact of bulkhead.1 carry 7 A, then each its own
    worked = work(tmp_path / "fork", FORK)
    assert figures(worked)["near.feed.together"] == pytest.approx((7 * (18.5 + 4) + 5 * (18.5 + 4)) / 1000)
    assert figures(worked)["far.feed.together"] == pytest.approx((7 * (18.5 + 4) + 2 * (18.5 + 4)) / 1000)
    assert contacts(worked, "far") == [("cavity bulkhead.1", pytest.approx(7)), ("cavity far.1", pytest.approx(2))]
    # one wire on either half: the pair counts once, as before
    plain = FORK.replace("      W5: {size: 1.0 mm2, from: bulkhead.1, to: far.1, length: 1 m}\n", "")
    assert figures(work(tmp_path / "plain", plain))["near.feed.alone"] == pytest.approx(5 * (2 * 18.5 + 8) / 1000)


STUDS = proved(
    HEAD
    + """
    grounds:
      L1: {back to: L2, cable: 10 mm2, cable length: 1 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 1 m}
    loads: {fan: {between: fan.1 fan.2, draws: 10 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: fan.1, length: 1 m}
      W2: {size: 1.0 mm2, from: fan.2, to: L1, length: 1 m}
    READINGS
"""
)


def test_a_cable_has_a_ring_on_each_stud_that_it_lies_on(tmp_path: Path) -> None:
    value = figures(work(tmp_path, STUDS.replace("    READINGS\n", "")))
    # L2: 1.82 and its ring 1.5; L1: 1.82 and two rings; W2: contact 4, 18.5, its ring 1.5
    assert value["L2.rise"] == pytest.approx(10 * 3.32 / 1000)
    assert value["L1.rise"] == pytest.approx(10 * (3.32 + 4.82) / 1000)
    assert value["fan.return.resistance"] == pytest.approx(4 + 18.5 + 1.5 + 4.82 + 3.32)


def test_a_reading_over_a_cable_counts_in_its_rise_too(tmp_path: Path) -> None:
    # 50 mV at 10 A are 5 mohm, rings and all, in place of 1.82 + 1.5
    reading = "    readings: [{id: R1, red: L2, black: battery-, read: 50 mV, through: 10 A, on: 2031-05-03}]\n"
    value = figures(work(tmp_path, STUDS.replace("    READINGS\n", reading)))
    assert value["L2.rise"] == pytest.approx(0.050)
    assert value["fan.return.alone"] == pytest.approx(10 * (4 + 18.5 + 1.5 + 4.82 + 5) / 1000)


# ---- resistance and drop --------------------------------------------------------------------------------------------
def disagreeing(worked: JobResult) -> list[str]:
    """Sides of which ohms times amperes are not the drop alone that stands beside them."""
    found = []
    for name, told in worked.circuit_figures.items():
        amps = told.current.value
        pairs = ((told.feed_resistance, told.alone.feed), (told.return_resistance, told.alone.back))
        for mohm, drop in pairs if amps is not None else ():
            volts = None if mohm.value is None or amps is None else mohm.value * amps / 1000
            if volts != (None if drop.value is None else pytest.approx(drop.value, abs=1e-9)):
                found.append(f"{name}: {mohm.key} {mohm.value}, {drop.key} {drop.value}")
    return found


@pytest.mark.parametrize("text", [TWO_HOME, DAISY, FORK, STUDS.replace("    READINGS\n", "")])
def test_ohms_times_amperes_are_the_drop_that_stands_beside_them(text: str, tmp_path: Path) -> None:
    assert disagreeing(work(tmp_path, text)) == []


@pytest.mark.parametrize("slug", ["trail-truck", "flatbed", "taken-over"])
def test_the_same_holds_for_the_demo_jobs(slug: str) -> None:
    assert disagreeing(demo(slug)) == []


def test_of_a_return_that_divides_the_resistance_says_how(tmp_path: Path) -> None:
    back = figure(work(tmp_path, TWO_HOME), "fan.return.resistance")
    assert back.formula == "R = sum of R x the square of the share it carries"
    shares = {given.name.split()[0]: given.source.rpartition("; carries ")[2] for given in back.inputs}
    assert shares == {"cavity": "100.0% of it", "W2": "50.0% of it", "W3": "50.0% of it"}


def test_wires_side_by_side_are_walked_once_each(tmp_path: Path) -> None:
    """Three wires between each two of fourteen splices: a walk of every way would take 3^13 of them."""
    wires = "".join(
        f"      W{n}{side}: {{size: 1.0 mm2, from: S{n}, to: S{n + 1}, length: 1 m}}\n"
        for n in range(1, 14)
        for side in "abc"
    )
    splices = ", ".join(f"S{n}: {{}}" for n in range(1, 15))
    text = f"""
    job: Many ways
    splices: {{{splices}}}
    wires:
{wires}      W1: {{size: 1.0 mm2, from: S1, to: plug.1, length: 1 m}}
      W2: {{size: 1.0 mm2, from: plug.1, to: lamp.1, length: 1 m}}
      W3: {{size: 1.0 mm2, from: plug.1, to: fan.1, length: 1 m}}
"""
    worked = work(tmp_path, proved(text))
    asked = 0

    class Counted(Net):
        def is_ground(self, name: str) -> bool:
            nonlocal asked
            asked += 1
            return super().is_ground(name)

    assert shared_pairs(Counted(worked.job, worked.shown)) == {}  # nothing is fed, and no ground is reached
    # from each of three wires at the plug: at most the 14 splices and the three other ends
    assert 3 <= asked <= 3 * 17

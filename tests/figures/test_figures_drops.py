"""Resistance and drop from the text of a job to the figure, against arithmetic by hand with the rows named here."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, figure, figures, proved, work

# ISO 6722-1: nominal area -> maximum resistance at 20 °C, mohm/m (from memory, as in the product's own table)
ISO = {"1.0": 18.5, "1.5": 12.7, "2.0": 9.42, "2.5": 7.6, "4.0": 4.71, "10": 1.82}


# A shared rear ground, trade handbook arithmetic: tail lamps 0.8 A, stop lamps 3.4 A, reversing lamp 1.7 A and the
# fuel pump 7 A come to 12.9 A on 3.5 m of 2.0 mm2. The loads sit at the lug: their own wires have no length.
REAR = copper_alone(
    proved("""
    job: Shared rear ground
    supply: 12 V
    fuses: {F1: {rating: 10 A}, F2: {rating: 10 A}, F3: {rating: 10 A}, F4: {rating: 15 A}}
    grounds: {L2: {back to: battery-, cable: 2.0 mm2, cable length: 3.5 m}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: tail.1, length: 0}
      W2: {size: 1.0 mm2, from: tail.2, to: L2, length: 0}
      W3: {size: 1.0 mm2, from: F2, to: stop.1, length: 0}
      W4: {size: 1.0 mm2, from: stop.2, to: L2, length: 0}
      W5: {size: 1.0 mm2, from: F3, to: reverse.1, length: 0}
      W6: {size: 1.0 mm2, from: reverse.2, to: L2, length: 0}
      W7: {size: 1.5 mm2, from: F4, to: pump.1, length: 0}
      W8: {size: 1.5 mm2, from: pump.2, to: L2, length: 0}
    loads:
      tail: {between: tail.1 tail.2, draws: 0.8 A, class: lamp}
      stop: {between: stop.1 stop.2, draws: 3.4 A, class: lamp}
      reverse: {between: reverse.1 reverse.2, draws: 1.7 A, class: lamp}
      pump: {between: pump.1 pump.2, draws: 7 A, class: pump}
""")
)


def test_a_shared_rear_ground(tmp_path: Path) -> None:
    worked = work(tmp_path, REAR)
    value = figures(worked)
    assert value["L2.total"] == pytest.approx(12.9)
    # 9.42 x 3.5 = 32.97 mohm; x 12.9 A = 0.4253 V; x 7 A = 0.2308 V
    for load in ("tail", "stop", "reverse", "pump"):
        assert value[f"{load}.return.resistance"] == pytest.approx(32.97)
        assert value[f"{load}.return.together"] == pytest.approx(0.425313)
        assert value[f"{load}.drop.together"] == pytest.approx(0.425313)  # the feeds have no length
    assert value["L2.rise"] == pytest.approx(0.425313)
    assert value["pump.return.alone"] == pytest.approx(0.23079)
    # the handbook prints 33 mohm, 0.43 V (12.9 x 33 = 0.4257) and 0.23 V
    assert round(value["pump.return.resistance"] or 0) == 33
    assert 0.42 <= (value["pump.return.together"] or 0) <= 0.43
    assert round(value["pump.return.alone"] or 0, 2) == 0.23
    # too much for the pump with the lamps on (3 % of 12 V is 0.36 V), not by itself
    assert worked.circuit_figures["pump"].ok is False


def test_a_shared_rear_ground_with_a_thicker_cable(tmp_path: Path) -> None:
    # handbook: with 4.0 mm2 0.21 V; 4.71 x 3.5 x 12.9 = 212.7 mV
    worked = work(tmp_path, REAR.replace("cable: 2.0 mm2", "cable: 4.0 mm2"))
    assert figures(worked)["pump.return.together"] == pytest.approx(0.2126565)
    assert worked.circuit_figures["pump"].ok is True


def test_a_bad_lug_moves_the_pump_when_the_brake_is_pressed(tmp_path: Path) -> None:
    # the lug carries two rings, the wire's and the cable's, of 30 mohm each
    # handbook: a lug of 60 mohm adds 0.77 V; the brake moves the pump's ground by 3.4 A x 93 mohm = 0.32 V
    trunk = REAR.replace("to: L2", "to: FS9").replace(
        "    loads:", "      W9: {size: 4.0 mm2, from: FS9, to: L2, length: 0}\n    loads:"
    )
    bad = trunk.replace("ring resistance: 0 mohm", "ring resistance: 30 mohm")
    assert bad != trunk
    good_v = figures(work(tmp_path / "good", trunk))["pump.return.together"] or 0
    bad_v = figures(work(tmp_path / "bad", bad))["pump.return.together"] or 0
    braking_off = bad.replace("draws: 3.4 A", "draws: 0 A")
    released_v = figures(work(tmp_path / "off", braking_off))["pump.return.together"] or 0
    assert bad_v - good_v == pytest.approx(12.9 * 0.060)
    assert bad_v - released_v == pytest.approx(3.4 * (0.060 + 0.03297))
    assert (round(bad_v - good_v, 2), round(bad_v - released_v, 2)) == (0.77, 0.32)


@pytest.mark.parametrize(
    ("amps", "metres", "mm2", "printed_v"),
    [
        (8, 3.2, "1.0", 0.47),  # horn; the volts are printed in the handbook examples
        (8, 3.2, "1.5", 0.33),
        (7, 4.5, "1.5", 0.40),  # pump
        (7, 4.5, "2.5", 0.24),
        (20, 2.5, "4.0", 0.24),  # fan
    ],
)
def test_drop_of_one_feed(amps: float, metres: float, mm2: str, printed_v: float, tmp_path: Path) -> None:
    value = figures(work(tmp_path, one_load(f"{mm2} mm2", f"{metres} m", f"{amps} A")))
    by_hand = amps * ISO[mm2] * metres / 1000
    assert value["load.feed.alone"] == pytest.approx(by_hand)
    assert value["load.feed.together"] == pytest.approx(by_hand)
    assert value["load.feed.resistance"] == pytest.approx(ISO[mm2] * metres)
    assert by_hand == pytest.approx(printed_v, abs=0.01)


def one_load(size: str, length: str, draws: str, head: str = "", load: str = "") -> str:
    """Its arithmetic by hand is that of the copper alone."""
    text = f"""
    job: One load
    {head or "note_free: no"}
    fuses: {{F1: {{rating: 30 A}}}}
    wires:
      W1: {{size: {size}, from: F1, to: load.1, length: {length}}}
      W2: {{size: 10 mm2, from: load.2, to: battery-, length: 1 m}}
    loads: {{load: {{between: load.1 load.2, draws: {draws}{load}}}}}
    """
    return copper_alone(proved(text.replace("    note_free: no\n", "")))


@pytest.mark.parametrize(
    ("size", "system", "mohm_per_m"),
    [
        # 1000/58 mohm mm2/m of IEC 60028 copper (read) over the least area of SAE J1128 (from memory): 1.85, 0.76 mm2
        ("14 AWG", "SAE J1128", 1000 / 58 / 1.85),
        ("18 AWG", "SAE J1128", 1000 / 58 / 0.76),
        # over the solid gauge of ASTM B258, pi/4 x (0.127 x 92^((36-n)/39))^2 (computed): 2.081 and 0.8231 mm2
        ("14 AWG", "ASTM B258", 1000 / 58 / 2.0809),
        ("18 AWG", "ASTM B258", 1000 / 58 / 0.82307),
        # square millimetres do not ask what a gauge means
        ("1.5 mm2", "SAE J1128", 12.7),
        ("1.5 mm2", "ASTM B258", 12.7),
    ],
)
def test_what_a_gauge_means_is_the_jobs_word(size: str, system: str, mohm_per_m: float, tmp_path: Path) -> None:
    worked = work(tmp_path, one_load(size, "2 m", "5 A", f"AWG means: {system}"))
    feed = figure(worked, "load.feed.resistance")
    assert feed.value == pytest.approx(2 * mohm_per_m, rel=1e-4)
    (wire,) = [term for term in feed.inputs if term.name.startswith("W1")]
    assert ("ISO 6722-1" if "mm2" in size else system) in wire.source


def test_the_default_gauge_is_the_one_with_least_copper(tmp_path: Path) -> None:
    unsaid = figures(work(tmp_path / "a", one_load("14 AWG", "2 m", "5 A")))
    said = figures(work(tmp_path / "b", one_load("14 AWG", "2 m", "5 A", "AWG means: SAE J1128")))
    assert unsaid["load.feed.resistance"] == said["load.feed.resistance"]


@pytest.mark.parametrize(("celsius", "times"), [(20, 1.0), (85, 319.5 / 254.5), (-20, 214.5 / 254.5)])
def test_warm_copper_resists_more(celsius: int, times: float, tmp_path: Path) -> None:
    # R2 = R20 x (234.5 + T) / 254.5, AC 43.13-1B para 11-66 (read): 1.2554 at 85 °C
    value = figures(work(tmp_path, one_load("1.0 mm2", "2 m", "5 A", f"temperature: {celsius} C")))
    assert value["load.feed.resistance"] == pytest.approx(2 * 18.5 * times)
    assert value["load.return.alone"] == pytest.approx(5 * 1.82 * times / 1000)


def test_watts_are_read_at_their_volts(tmp_path: Path) -> None:
    # 55 W at 12.8 V is 4.296875 A; 2 m of 1.0 mm2 is 37 mohm
    value = figures(work(tmp_path, one_load("1.0 mm2", "2 m", "55 W at 12.8 V")))
    assert value["load.current"] == pytest.approx(4.296875)
    assert value["load.feed.alone"] == pytest.approx(4.296875 * 0.037)


@pytest.mark.parametrize("class_", ["lamp", "pump", "electronics", "ignition"])
def test_what_must_not_lose_more_than_three_per_cent(class_: str, tmp_path: Path) -> None:
    # ABYC E-11 (read): 3 % of 12 V is 0.36 V. 4 m of 1.0 mm2 and 1 m of 10 mm2 are 75.82 mohm: 0.355 V at 4.68 A
    for amps, within in (("4.74 A", True), ("4.75 A", False)):
        worked = work(tmp_path / amps, one_load("1.0 mm2", "4 m", amps, "supply: 12 V", f", class: {class_}"))
        assert figures(worked)["load.limit"] == pytest.approx(0.36)
        assert worked.circuit_figures["load"].ok is within


@pytest.mark.parametrize("class_", ["motor", "heater", "horn", "coil", "other"])
def test_what_may_lose_ten_per_cent(class_: str, tmp_path: Path) -> None:
    # 10 % of 13.5 V is 1.35 V; 75.82 mohm x 17.80 A = 1.3496 V, x 17.81 A = 1.3504 V
    for amps, within in (("17.80 A", True), ("17.81 A", False)):
        worked = work(tmp_path / amps, one_load("1.0 mm2", "4 m", amps, "supply: 13.5 V", f", class: {class_}"))
        assert figures(worked)["load.limit"] == pytest.approx(1.35)
        assert worked.circuit_figures["load"].ok is within


@pytest.mark.parametrize("head", ["", "supply: unknown"], ids=["absent", "unknown"])
def test_without_a_supply_nothing_is_judged(head: str, tmp_path: Path) -> None:
    worked = work(tmp_path, one_load("1.0 mm2", "4 m", "20 A", head))
    limit = figure(worked, "load.limit")
    assert (limit.value, limit.missing_words) == (None, ("supply",))
    assert worked.circuit_figures["load"].ok is None
    assert figures(worked)["load.drop.alone"] == pytest.approx(20 * 0.07582)

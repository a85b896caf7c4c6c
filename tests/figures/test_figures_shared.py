"""Currents that meet: shared feeds and grounds, parallel wires, allowances, and what is not measured."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, figure, figures, proved, work


def test_a_loads_draw_on_a_shared_feed_is_the_sum_on_the_shared_part_only(tmp_path: Path) -> None:
    text = proved("""
    job: Shared feed
    fuses: {F1: {rating: 20 A}}
    splices: {FS1: {}}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: FS1, length: 2 m}
      W2: {size: 1.0 mm2, from: FS1, to: left.1, length: 1 m}
      W3: {size: 1.5 mm2, from: FS1, to: right.1, length: 3 m}
      W4: {size: 1.0 mm2, from: left.2, to: battery-, length: 1 m}
      W5: {size: 1.0 mm2, from: right.2, to: battery-, length: 1 m}
    loads:
      left: {between: left.1 left.2, draws: 4 A}
      right: {between: right.1 right.2, draws: 6 A}
      gone: {between: right.1 right.2, draws: 9 A, verdict: deleted}
    """)
    value = figures(work(tmp_path, copper_alone(text)))
    # W1 15.2 mohm, W2 18.5, W3 38.1
    assert value["left.feed.alone"] == pytest.approx(4 * (15.2 + 18.5) / 1000)
    assert value["left.feed.together"] == pytest.approx((10 * 15.2 + 4 * 18.5) / 1000)
    assert value["right.feed.together"] == pytest.approx((10 * 15.2 + 6 * 38.1) / 1000)
    assert value["left.return.together"] == pytest.approx(4 * 18.5 / 1000)  # nothing else on that way
    assert value["F1.total"] == pytest.approx(10)
    assert not any(key.startswith("gone.") for key in value)


PARALLEL = copper_alone(
    proved("""
    job: Two ways back
    fuses: {F1: {rating: 20 A}}
    splices: {FS9: {}}
    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: fan.1, length: 1 m}
      W2: {size: 2.5 mm2, from: fan.2, to: FS9, length: 1 m}
      W3: {size: 1.0 mm2, from: FS9, to: L1, length: 2 m}
      W4: {size: 2.5 mm2, from: FS9, to: L1, length: 3 m}
    loads: {fan: {between: fan.1 fan.2, draws: 10 A}}
""")
)


def test_two_wires_to_one_lug_share_the_current_by_their_conductance(tmp_path: Path) -> None:
    # W3 37.0 mohm, W4 22.8 mohm: 10 A divide 22.8 : 37.0, and 37.0 x 22.8 / 59.8 = 14.107 mohm
    worked = work(tmp_path, PARALLEL)
    share_w3, share_w4 = 10 * 22.8 / 59.8, 10 * 37.0 / 59.8
    assert share_w3 * 37.0 == pytest.approx(share_w4 * 22.8)
    expected = 10 * (7.6 + 37.0 * 22.8 / 59.8 + 1.82) / 1000
    assert figures(worked)["fan.return.alone"] == pytest.approx(expected)
    assert figures(worked)["fan.return.together"] == pytest.approx(expected)
    back = figure(worked, "fan.return.together")
    carried = {}
    for term in back.inputs:
        amps = re.search(r"carries ([\d.]+) A", term.source)
        assert amps is not None
        carried[term.name.split()[0]] = float(amps[1])
    assert carried["W2"] == pytest.approx(10)
    assert carried["cable"] == pytest.approx(10)
    assert carried.get("W3", share_w3) == pytest.approx(share_w3, abs=0.005)
    assert carried.get("W4", share_w4) == pytest.approx(share_w4, abs=0.005)
    assert {"W3", "W4"} & set(carried)
    # what the inputs say adds up to the figure: ohms times amperes along the way shown
    total = sum((float(term.value or 0)) * carried[term.name.split()[0]] / 1000 for term in back.inputs)
    assert total == pytest.approx(expected, abs=0.0005)


@pytest.mark.parametrize("wire", ["W3: {size: 1.0 mm2, from: FS9, to: L1", "W4: {size: 2.5 mm2, from: FS9, to: L1"])
def test_one_of_two_parallel_wires_unmeasured_leaves_the_drop_unknown(wire: str, tmp_path: Path) -> None:
    number = re.compile(re.escape(wire) + r", length: \d m")
    text, count = number.subn(wire + ", length: unknown", PARALLEL)
    assert count == 1
    back = figure(work(tmp_path, text), "fan.return.alone")
    assert back.value is None
    assert back.missing_words
    assert figures(work(tmp_path, text))["fan.feed.alone"] == pytest.approx(10 * 0.0076)


UNMEASURED = copper_alone(
    proved("""
    job: Something is not measured
    supply: 12 V
    fuses: {F1: {rating: 20 A}, F2: {rating: 20 A}}
    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}}
    splices: {FS9: {}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 2 m}
      W2: {size: 1.0 mm2, from: lamp.2, to: FS9, length: 2 m}
      W3: {size: 1.0 mm2, from: FS9, to: L1, length: 2 m}
      W4: {size: 1.0 mm2, from: F2, to: horn.1, length: 2 m}
      W5: {size: 1.0 mm2, from: horn.2, to: FS9, length: 2 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A}
      horn: {between: horn.1 horn.2, draws: 4 A}
""")
)


@pytest.mark.parametrize(
    ("fact", "instead", "side", "named"),
    [
        ("to: lamp.1, length: 2 m", "to: lamp.1, length: unknown", "feed", "W1"),
        ("to: lamp.1, length: 2 m", "to: lamp.1", "feed", "W1"),
        ("W1: {size: 1.0 mm2", "W1: {size: unknown", "feed", "W1"),
        ("W1: {size: 1.0 mm2", "W1: {size: 0.9 mm2", "feed", ""),  # between two rows: still a figure
        ("to: L1, length: 2 m", "to: L1, length: unknown", "return", "W3"),
        ("cable length: 1 m", "cable length: unknown", "return", "cable L1"),
        ("cable: 10 mm2, ", "", "return", "cable L1"),
        ("back to: battery-, ", "", "return", "L1"),
        ("draws: 2 A", "draws: unknown", "feed", "current of lamp"),
    ],
)
def test_what_is_not_measured_is_named_and_never_nought(
    fact: str, instead: str, side: str, named: str, tmp_path: Path
) -> None:
    assert UNMEASURED.count(fact) == 1
    worked = work(tmp_path, UNMEASURED.replace(fact, instead))
    for state in ("alone", "together"):
        found, whole = figure(worked, f"lamp.{side}.{state}"), figure(worked, f"lamp.drop.{state}")
        if not named:
            assert found.value is not None
            assert found.missing_words == whole.missing_words == ()
            continue
        assert found.value is None
        assert whole.value is None
        assert any(named in words for words in found.missing_words)
        assert any(named in words for words in whole.missing_words)
    assert (worked.circuit_figures["lamp"].ok is None) is bool(named)


def test_another_loads_unknown_current_spoils_only_what_it_passes(tmp_path: Path) -> None:
    worked = work(tmp_path, UNMEASURED.replace("draws: 4 A", "draws: unknown"))
    value = figures(worked)
    assert value["lamp.return.alone"] == pytest.approx(2 * (37 + 37 + 1.82) / 1000)
    assert value["lamp.feed.together"] == pytest.approx(2 * 0.037)  # the horn is not on the lamp's feed
    assert value["lamp.return.together"] is None
    assert any("current of horn" in words for words in figure(worked, "lamp.return.together").missing_words)
    assert value["L1.total"] is None
    assert value["L1.rise"] is None


STATED = (
    "joint resistance: 0.6 mohm, cavity resistance: 2.5 mohm, ring resistance: 0.9 mohm, fuse resistance: 6 mohm,"
    " switch resistance: 12 mohm, contact resistance: 3 mohm"
)
# What is counted where the job states nothing, typed here from the sources of the product's table: 7.7 mohm is one
# maker's data sheet of a 10 A blade fuse, cold (read), 3.38 its 20 A (from memory); the others are estimates.
FUSE_10, FUSE_20, JOINT, CAVITY, RING, SWITCH, CONTACT = 7.7, 3.38, 1.0, 4.0, 1.5, 20.0, 7.5


@pytest.mark.parametrize(
    ("usual", "fuse", "joint", "cavity", "ring"),
    [(STATED, 6.0, 0.6, 2.5, 0.9), ("", FUSE_10, JOINT, CAVITY, RING), ("cavity resistance: 0 mohm", 7.7, 1, 0, 1.5)],
    ids=["stated", "from the table", "one line of it overridden"],
)
def test_allowances_count_once_for_each_joint_cavity_ring_and_fuse(
    usual: str, fuse: float, joint: float, cavity: float, ring: float, tmp_path: Path
) -> None:
    text = """
    job: Allowances
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm, USUAL}
    fuses: {F1: {rating: 10 A}}
    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}}
    plugs: {bulkhead: {in line: yes}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, via: bulkhead.3, length: 900 mm}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: L1, length: 1 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 5 A}}
    changes:
      - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.5 mm2,
         made: 2031-05-03 AK}
    """.replace(", USUAL", f", {usual}" if usual else "")
    value = figures(work(tmp_path, text))
    # 700 + 200 mm of 1.0 mm2 and a piece of 400 + 50 + 10 + 10 = 470 mm of 1.5 mm2; each overlap is counted once,
    # half to either side: 695 + 195 mm and 460 mm
    copper = (0.695 + 0.195) * 18.5 + 0.460 * 12.7
    assert value["lamp.feed.resistance"] == pytest.approx(copper + fuse + 2 * joint + 2 * cavity)
    assert value["lamp.return.resistance"] == pytest.approx(
        18.5 + cavity + ring + ring + 1.82
    )  # and the ground's cable, with a ring
    # in the donor W1 was whole: 900 mm, a cavity passed, a cavity at the lamp, the fuse
    assert value["lamp.feed.alone.donor"] == pytest.approx(5 * (0.9 * 18.5 + fuse + 2 * cavity) / 1000)


RELAY = proved("""
    job: Relay
    fuses: {F1: {rating: 20 A}}
    switches: {relay: {between: relay.30 relay.87, worked by: coil}}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: relay.30, length: 1 m}
      W2: {size: 1.5 mm2, from: relay.87, to: horn.1, length: 2 m}
      W3: {size: 1.5 mm2, from: horn.2, to: battery-, length: 1 m}
    loads: {horn: {between: horn.1 horn.2, draws: 8 A}}
""")


@pytest.mark.parametrize(
    ("fact", "instead", "mohm"),
    [
        ("worked by: coil", "worked by: coil", CONTACT),
        (", worked by: coil", "", SWITCH),
        ("worked by: coil", "worked by: coil, resistance: 3.2 mohm", 3.2),
    ],
    ids=["a relay's contact", "a switch", "measured"],
)
def test_a_closed_switch_counts_as_allowed_until_it_is_measured(
    fact: str, instead: str, mohm: float, tmp_path: Path
) -> None:
    assert RELAY.count(fact) == 1
    value = figures(work(tmp_path, RELAY.replace(fact, instead)))
    # fuse, 1 m of 2.5 mm2 at 7.6 mohm/m, two cavities of the switch, 2 m of 1.5 mm2 at 12.7, the horn's cavity
    assert value["horn.feed.resistance"] == pytest.approx(FUSE_20 + 7.6 + mohm + 2 * CAVITY + 2 * 12.7 + CAVITY)


def test_a_relay_contact_of_no_resistance_is_passed(tmp_path: Path) -> None:
    assert figures(work(tmp_path, copper_alone(RELAY)))["horn.feed.alone"] == pytest.approx(8 * (7.6 + 25.4) / 1000)


def test_a_kept_end_shorter_than_its_joint_gives_no_resistance(tmp_path: Path) -> None:
    # 1 mm is kept at the fuse, half the overlap is 5 mm: no such joint can be made, and no ohms are made up for it
    text = """
    job: Too short to lap
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm}
    fuses: {F1: {rating: 10 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}
      W2: {size: 1.0 mm2, from: lamp.2, to: battery-, length: 900 mm}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}}
    changes:
      - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 899 mm, gap: 400 mm, piece: BU 1.0 mm2, made: yes}
    """
    feed = figure(work(tmp_path, text), "lamp.feed.alone")
    assert feed.value is None
    assert any("W1" in words and "shorter" in words for words in feed.missing_words)


def test_a_load_of_another_car_adds_nothing_to_fuse_or_ground(tmp_path: Path) -> None:
    text = """
    job: Options
    options: {gearbox: {is: manual, could be: [automatic]}}
    fuses: {F1: {rating: 10 A, in: box, fed: always}}
    grounds: {L1: {stud: M6, back to: battery-}}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A}
      shift lock: {between: lock.1 lock.2, draws: 3 A, for: gearbox is GEARBOX}
    wires:
      W1: RD 18 AWG, F1 to lamp.1
      W2: BK 18 AWG, lamp.2 to L1
      W3: RD 18 AWG, F1 to lock.1
      W4: BK 18 AWG, lock.2 to L1
"""
    own = figures(work(tmp_path / "own", proved(text.replace("GEARBOX", "manual"))))
    other = figures(work(tmp_path / "other", proved(text.replace("GEARBOX", "automatic"))))
    assert (own["F1.total"], own["L1.total"]) == (5.0, 5.0)
    assert (other["F1.total"], other["L1.total"]) == (2.0, 2.0)

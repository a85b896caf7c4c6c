"""What a load may lose by each rule, a lamp's volts and light, drop against the donor: jobs of 6, 12, 24 V by hand.

ISO 6722-1 (from memory, as in the product's own table): 1.0 mm2 has 18.5 mohm/m, 2.5 mm2 7.6, 10 mm2 1.82.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, figure, figures, proved, work

from aswired.car.circuits import CircuitFigures
from aswired.figures.worked import JobResult


def one_load(load: str, head: str = "", metres: float = 5, back_m: float = 1) -> str:
    """A load on `metres` of 1.0 mm2 and `back_m` of 10 mm2, copper alone."""
    text = f"""
    job: One load
    note_free: no
    fuses: {{F1: {{rating: 30 A}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: load.1, length: {metres} m}}
      W2: {{size: 10 mm2, from: load.2, to: battery-, length: {back_m} m}}
    loads: {{load: {{between: load.1 load.2, {load}}}}}
    """
    return copper_alone(proved(text.replace("    note_free: no\n", f"    {head}\n" if head else "")))


def of_load(worked: JobResult) -> CircuitFigures:
    return worked.circuit_figures["load"]


# ---- limits side by side --------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("supply", "load", "share_v", "table_v"),
    [
        # ABYC E-11 (read): 3 % or 10 % of the supply. AC 43.13-1B Table 11-6 (from memory, cross-checked): 0.5 V and
        # 1.0 V at 14 V, 1.0 V and 2.0 V at 28 V, no row for 6 V
        ("6 V", "class: lamp, duty: continuous", 0.18, None),
        ("6 V", "class: motor, duty: intermittent", 0.6, None),
        ("12 V", "class: lamp, duty: continuous", 0.36, 0.5),
        ("12 V", "class: horn, duty: intermittent", 1.2, 1.0),
        ("14 V", "class: pump, duty: intermittent", 0.42, 1.0),
        ("24 V", "class: lamp, duty: continuous", 0.72, 1.0),
        ("24 V", "class: motor, duty: intermittent", 2.4, 2.0),
    ],
)
def test_both_limits_stand_side_by_side(
    supply: str, load: str, share_v: float, table_v: float | None, tmp_path: Path
) -> None:
    value = figures(work(tmp_path, one_load(f"draws: 4 A, {load}", f"supply: {supply}")))
    assert value["load.limit.share"] == pytest.approx(share_v)
    assert value["load.limit.table"] == (None if table_v is None else pytest.approx(table_v))
    assert value["load.limit"] == value["load.limit.share"]


@pytest.mark.parametrize(
    ("head", "load", "share", "table"),
    [
        ("supply: 6 V", "duty: continuous", (), ("AC 43.13-1B Table 11-6: no row for 6 V",)),
        ("supply: 12 V", "duty: unknown", (), ("duty",)),
        ("supply: 12 V", "class: lamp", (), ("duty",)),
        ("", "duty: continuous", ("supply",), ("supply",)),
        ("", "class: lamp", ("supply",), ("supply", "duty")),
    ],
)
def test_a_limit_says_what_it_lacks(
    head: str, load: str, share: tuple[str, ...], table: tuple[str, ...], tmp_path: Path
) -> None:
    worked = work(tmp_path, one_load(f"draws: 4 A, {load}", head))
    assert figure(worked, "load.limit.share").missing_words == share
    assert figure(worked, "load.limit.table").missing_words == table
    assert (figure(worked, "load.limit.table").value is None) == bool(table)


@pytest.mark.parametrize(
    ("supply", "amps", "held_to", "limit_v", "ok"),
    [
        # 5 m of 18.5 and 1 m of 1.82 mohm/m are 94.32 mohm: x 4 A = 0.3773 V
        ("12 V", 4, "3 % and 10 %", 0.36, False),
        ("12 V", 4, "AC 43.13-1B", 0.5, True),
        ("12 V", 5.4, "AC 43.13-1B", 0.5, False),  # 0.5093 V
        ("24 V", 7, "3 % and 10 %", 0.72, True),  # 0.6602 V
        ("24 V", 8, "3 % and 10 %", 0.72, False),  # 0.7546 V
        ("24 V", 8, "AC 43.13-1B", 1.0, True),
        ("6 V", 1.9, "3 % and 10 %", 0.18, True),  # 0.1792 V
        ("6 V", 2, "3 % and 10 %", 0.18, False),  # 0.1886 V
        ("6 V", 2, "AC 43.13-1B", None, None),
    ],
)
def test_the_jobs_own_rule_is_the_verdict(
    supply: str, amps: float, held_to: str, limit_v: float | None, ok: bool | None, tmp_path: Path
) -> None:
    head = f"supply: {supply}\n    drops held to: {held_to}"
    worked = work(tmp_path, one_load(f"draws: {amps} A, class: lamp, duty: continuous", head))
    assert of_load(worked).together.whole.value == pytest.approx(amps * 0.09432)
    assert figures(worked)["load.limit"] == (None if limit_v is None else pytest.approx(limit_v))
    assert of_load(worked).ok is ok
    told = [finding.problem for finding in worked.findings if finding.code == "DRP01"]
    rule = "AC 43.13-1B, continuous" if held_to == "AC 43.13-1B" else "3 % of the supply"
    assert [words.endswith(f"is allowed ({rule})") for words in told] == ([True] if ok is False else [])


# ---- lamps ----------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("supply", "draws", "least_v", "metres", "socket_v", "ok"),
    [
        # 85 % of the design voltage, California 13 CCR 1249(c) (read); 35/6 A x (metres x 18.5 + 1.82) mohm
        ("6 V", "35 W at 6 V", 5.1, 8, 6 - 35 / 6 * 0.14982, True),
        ("6 V", "35 W at 6 V", 5.1, 9, 6 - 35 / 6 * 0.16832, False),
        ("12 V", "55 W at 12.8 V", 10.88, 13.9, 12 - 55 / 12.8 * 0.25897, True),  # 10.887 V
        ("12 V", "55 W at 12.8 V", 10.88, 14, 12 - 55 / 12.8 * 0.26082, False),  # 10.879 V
        ("24 V", "70 W at 24 V", 20.4, 66, 24 - 70 / 24 * 1.22282, True),
        ("24 V", "70 W at 24 V", 20.4, 67, 24 - 70 / 24 * 1.24132, False),
    ],
)
def test_the_volts_at_a_lamps_socket(
    supply: str, draws: str, least_v: float, metres: float, socket_v: float, ok: bool, tmp_path: Path
) -> None:
    worked = work(tmp_path, one_load(f"draws: {draws}, class: lamp", f"supply: {supply}", metres))
    lamp = of_load(worked).lamp
    assert lamp is not None
    assert lamp.socket.value == pytest.approx(socket_v)
    assert lamp.least.value == pytest.approx(least_v)
    assert lamp.ok is ok
    assert [finding.code for finding in worked.findings if finding.code == "DRP03"] == ([] if ok else ["DRP03"])


def test_a_draw_in_amperes_has_no_design_voltage(tmp_path: Path) -> None:
    lamp = of_load(work(tmp_path, one_load("draws: 4 A, class: indicator", "supply: 12 V", 40))).lamp
    assert lamp is not None
    assert (lamp.least.value, lamp.least.missing_words, lamp.ok) == (None, ("design voltage",), None)
    assert lamp.socket.value == pytest.approx(12 - 4 * (0.740 + 0.00182))


@pytest.mark.parametrize("light", ["LED", "gas discharge", "unknown"])
def test_what_is_no_filament_loses_no_light_that_is_computed(light: str, tmp_path: Path) -> None:
    text = one_load(f"draws: 55 W at 12.8 V, class: lamp, light: {light}", "supply: 12 V", 40)
    worked = work(tmp_path, text)
    lamp = of_load(worked).lamp
    assert lamp is not None
    assert (lamp.ok, lamp.lost_alone, lamp.lost_together) == (None, None, None)
    assert lamp.dark
    assert not [key for key in figures(worked) if ".light." in key]


def test_what_is_no_lamp_has_neither(tmp_path: Path) -> None:
    assert of_load(work(tmp_path, one_load("draws: 55 W at 12.8 V, class: motor", "supply: 12 V", 40))).lamp is None


def test_light_of_the_worked_example(tmp_path: Path) -> None:
    # Lamp re-rating, exponent 3.4 (read): 13.2 V -> 12.0 V leaves 0.723 of the light. 10 m of 18.5 mohm/m take 1.2 V at
    # 6.4865 A
    worked = work(tmp_path, one_load("draws: 6.4865 A, class: lamp", "supply: 13.2 V", 10, 0))
    assert figures(worked)["load.drop.alone"] == pytest.approx(1.2, abs=1e-5)
    assert figures(worked)["load.light.alone"] == pytest.approx(100 * (1 - 0.723), abs=0.05)
    assert figures(worked)["load.light.together"] == figures(worked)["load.light.alone"]


def test_light_lost_with_a_neighbour_on(tmp_path: Path) -> None:
    # shared 10 m of 18.5 mohm/m to battery negative; 2 A and 4.4865 A: alone 0.37 V, with both 1.2 V of 13.2 V
    text = copper_alone(
        proved("""
    job: Two on a wire
    supply: 13.2 V
    fuses: {F1: {rating: 30 A}, F2: {rating: 30 A}}
    splices: {FS1: {}}
    wires:
      W1: {size: 10 mm2, from: F1, to: load.1, length: 0}
      W2: {size: 10 mm2, from: F2, to: other.1, length: 0}
      W3: {size: 10 mm2, from: load.2, to: FS1, length: 0}
      W4: {size: 10 mm2, from: other.2, to: FS1, length: 0}
      W5: {size: 1.0 mm2, from: FS1, to: battery-, length: 10 m}
    loads:
      load: {between: load.1 load.2, draws: 2 A, class: lamp}
      other: {between: other.1 other.2, draws: 4.4865 A, class: motor}
    """)
    )
    value = figures(work(tmp_path, text))
    # (12.83 / 13.2)^3.4: 3.4 x ln 0.97197 = -0.09667, so 0.90786 is left
    assert value["load.light.alone"] == pytest.approx(9.21, abs=0.01)
    assert value["load.light.together"] == pytest.approx(27.7, abs=0.05)


def test_more_lost_than_there_is_leaves_no_light(tmp_path: Path) -> None:
    worked = work(tmp_path, one_load("draws: 20 A, class: lamp", "supply: 6 V", 40))  # 14.8 V of 6 V
    value = figures(worked)
    assert (value["load.socket"], value["load.light.alone"]) == (0.0, 100.0)


def test_without_a_supply_neither_volts_nor_light_are_told(tmp_path: Path) -> None:
    worked = work(tmp_path, one_load("draws: 55 W at 12.8 V, class: lamp"))
    for key in ("load.socket", "load.light.alone", "load.light.together"):
        assert (figure(worked, key).value, figure(worked, key).missing_words) == (None, ("supply",))
    lamp = of_load(worked).lamp
    assert lamp is not None
    assert lamp.ok is None


def test_a_length_not_recorded_makes_them_unknown(tmp_path: Path) -> None:
    text = one_load("draws: 55 W at 12.8 V, class: lamp", "supply: 12 V").replace("length: 5 m", "length: unknown")
    worked = work(tmp_path, text)
    for key in ("load.socket", "load.light.alone"):
        told = figure(worked, key)
        assert told.value is None
        assert any("length" in words for words in told.missing_words)
    assert not [finding for finding in worked.findings if finding.code.startswith("DRP")]


# ---- against the donor ----------------------------------------------------------------------------------------------
HORN = """
    job: Horn
    usual: {joint: "lap, soldered", overlap: 10 mm, slack: 0 mm}
    fuses: {F1: {rating: 15 A, fed: always}}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: horn.1, length: 1 m}
      W2: {size: 2.5 mm2, from: horn.2, to: battery-, length: 1 m}
    loads: {horn: {between: horn.1 horn.2, draws: 8 A, class: horn}}
    changes:
      - {id: C1, kind: extend, wire: W1, plug: horn, pigtail: 100 mm, gap: 600 mm, piece: RD 1.0 mm2,
         made: 2031-05-03 AK}
"""


def test_how_much_worse_than_in_the_donor(tmp_path: Path) -> None:
    worked = work(tmp_path, HORN)
    found = worked.circuit_figures["horn"]
    # donor: fuse 15 A 4.8 mohm (from memory), 2 x 7.6, two cavities of 4: 28 mohm x 8 A
    assert found.donor is not None
    assert found.donor.whole.value == pytest.approx(0.224)
    # in come 610 mm of 18.5 mohm/m and two joints of 1 mohm, 10 mm of 7.6 mohm/m go under the laps: 13.209 mohm
    assert figures(worked)["horn.worse"] == pytest.approx(0.105672)
    assert found.worse_of == ""
    told = figure(worked, "horn.drop.alone.donor")
    assert [term.source for term in told.inputs] == ["horn.feed.alone.donor", "horn.return.alone.donor"]


def test_a_donor_that_returned_by_its_body_is_compared_on_the_feed(tmp_path: Path) -> None:
    text = HORN.replace("to: battery-", "to: G1").replace("    loads:", "    grounds: {G1: {gone: yes}}\n    loads:")
    text += '      - {id: C2, kind: ground, wire: W2, end: G1, to: L1, ring: "new, M6", made: 2031-05-03 AK}\n'
    worked = work(tmp_path, text)
    found = worked.circuit_figures["horn"]
    assert found.donor is not None
    assert (found.donor.whole.value, found.donor.back.value) == (None, None)
    assert found.donor.feed.value == pytest.approx(8 * (4.8 + 7.6 + 4) / 1000)
    assert found.worse_of == "feed"
    assert figures(worked)["horn.worse"] == pytest.approx(0.105672)
    (told,) = [finding for finding in worked.findings if finding.code == "DRP02"]
    assert told.problem.startswith("the feed of 'horn' loses 0.24 V by itself and lost 0.13 V in the donor")


def test_a_load_that_is_new_is_compared_with_nothing(tmp_path: Path) -> None:
    text = """
    job: New lamp
    usual: {slack: 0 mm, ring strip: 6 mm}
    fuses: {F1: {rating: 15 A, fed: always}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 8 A, class: lamp}}
    changes:
      - {id: C1, kind: add, wire: W1, from: F1, to: lamp.1, piece: RD 1.0 mm2, reach: 9 m, made: 2031-05-03 AK}
      - {id: C2, kind: add, wire: W2, from: lamp.2, to: battery-, piece: BK 1.0 mm2, reach: 9 m, made: 2031-05-03 AK}
    """
    worked = work(tmp_path, text)
    assert worked.circuit_figures["lamp"].alone.whole.value is not None
    assert (worked.circuit_figures["lamp"].donor, worked.circuit_figures["lamp"].worse) == (None, None)
    assert not [finding for finding in worked.findings if finding.code == "DRP02"]


# ---- positive ground ------------------------------------------------------------------------------------------------
def test_a_positive_ground_is_refused_in_one_line(tmp_path: Path) -> None:
    text = one_load("draws: 4 A, class: lamp", "supply: 6 V\n    ground side: positive").replace(
        "    loads:", "      W3: {size: 1.0 mm2, from: lug.1, to: L1, length: 1 m}\n"
        "    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}}\n    loads:"
    )  # fmt: skip
    worked = work(tmp_path, text)
    told = {one.key: one for one in worked.all_figures()}
    for key in ("load.feed.resistance", "load.return.resistance", "load.feed.alone", "load.drop.together",
                "load.drop.worst", "load.socket", "load.light.alone", "L1.rise"):  # fmt: skip
        assert (told[key].value, told[key].missing_words) == (None, ("positive ground: not computed",)), key
    found = of_load(worked)
    assert (found.ok, found.donor, found.feed_elements, found.return_elements) == (None, None, (), ())
    assert not [finding for finding in worked.findings if finding.code.startswith("DRP")]
    assert [(finding.code, finding.severity.word) for finding in worked.findings if finding.code == "HDR01"] == [
        ("HDR01", "error")
    ]
    notes = [unseen for unseen in worked.not_examined if "drop" in unseen.what]
    assert [(unseen.entry, unseen.what) for unseen in notes] == [
        ("ground side", "positive ground: no resistance, drop or rise is computed")
    ]
    twin = figures(work(tmp_path / "negative", text.replace("positive", "negative")))
    assert twin["load.drop.alone"] == pytest.approx(4 * 0.09432)

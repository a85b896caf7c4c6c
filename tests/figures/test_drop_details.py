"""What is told of limits, lamps, currents, resistances and drops, word by word, with the loads that are on."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.figures.test_figures_drop_rules import HORN, of_load, one_load
from tests.figures.test_fuse_and_ground_details import several
from tests.findings.jobs import copper_alone, figure, figures, proved, work

from aswired.physics.figure import Figure

SOLVED = "nodal solution of the resistive network"
SUPPLY = ("supply", 12.0, "V", "supply:")
LIGHT = "Standard Handbook for Electrical Engineers, 11th ed., p. 22-8, and a lamp maker; read"


def words(found: Figure) -> tuple[str, str, str, str, tuple[str, ...], str]:
    return found.name, found.unit, found.rule, found.formula, found.missing_words, found.note


def inputs(found: Figure) -> list[tuple[str, object, str, str]]:
    return [(given.name, given.value, given.unit, given.source) for given in found.inputs]


# ---- what may be lost -----------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("class_", "share", "need"),
    # ABYC E-11 (read): 3 % for what must not lose more, 10 % for all else
    [(name, "3 %", "critical") for name in ("lamp", "indicator", "pump", "fuel pump")]
    + [(name, "3 %", "critical") for name in ("electronics", "sensor", "ignition")]
    + [(name, "10 %", "non-critical") for name in ("motor", "heater", "horn", "coil", "starter", "other")],
)  # fmt: skip
def test_which_share_of_the_supply_a_load_may_lose(class_: str, share: str, need: str, tmp_path: Path) -> None:
    found = figure(work(tmp_path, one_load(f"draws: 4 A, class: {class_}", "supply: 12 V")), "load.limit.share")
    assert found.value == pytest.approx(0.36 if share == "3 %" else 1.2)
    assert words(found)[:4] == (
        "most drop of load by its share of the supply", "V", "share of the supply", f"U = {share} of supply",
    )  # fmt: skip
    assert inputs(found) == [SUPPLY, ("share", share, "", f"class {class_} ({need})")]


def test_what_is_told_of_a_limit_by_the_table_and_of_the_one_that_is_held_to(tmp_path: Path) -> None:
    load = "draws: 4 A, class: lamp, duty: intermittent"
    worked = work(tmp_path, one_load(load, "supply: 12 V\n    drops held to: AC 43.13-1B"))
    table, limit = figure(worked, "load.limit.table"), figure(worked, "load.limit")
    assert table.value == 1.0
    assert words(table) == (
        "most drop of load by AC 43.13-1B", "V", "AC 43.13-1B Table 11-6, bus to equipment ground",
        "U = value of the table", (),
        "AC 43.13-1B Table 11-6 (from memory, cross-checked); 14 V row, intermittent",
    )  # fmt: skip
    assert inputs(table) == [SUPPLY, ("duty", "intermittent", "", "duty: intermittent")]
    assert (limit.value, limit.name, limit.rule) == (1.0, "most drop allowed for load", table.rule)
    other = figure(work(tmp_path / "o", one_load(load, "supply: 12 V")), "load.limit")
    assert (other.value, other.name, other.rule) == (
        pytest.approx(0.36), "most drop allowed for load", "share of the supply",
    )  # fmt: skip
    unsaid = work(tmp_path / "u", one_load("draws: 4 A, class: lamp"))
    assert words(figure(unsaid, "load.limit.share"))[4:] == (("supply",), "")
    assert inputs(figure(unsaid, "load.limit.table")) == [
        ("supply", None, "V", "supply:"), ("duty", None, "", "duty: unknown"),
    ]  # fmt: skip
    assert figure(unsaid, "load.limit.table").note == ""


# ---- lamps ----------------------------------------------------------------------------------------------------------
def test_what_is_told_of_the_volts_and_the_light_of_a_lamp(tmp_path: Path) -> None:
    # the starter is never on with the others: 2 A of the lamp, 4 of the pump, 5 of the horn; see `several`
    worked = several(tmp_path, ("draws: 2 A, class: lamp", "draws: 24 W at 12 V, class: lamp"))
    alone, together = figure(worked, "lamp.drop.alone"), figure(worked, "lamp.drop.together")
    assert alone.value is not None
    assert together.value is not None
    assert together.value > 2 * alone.value
    socket = figure(worked, "lamp.socket")
    assert socket.value == pytest.approx(12 - together.value)
    assert words(socket) == (
        "volts at the socket of lamp, every load on that can be on together", "V", "supply less what is lost",
        "U = supply - drop", (), "",
    )  # fmt: skip
    assert inputs(socket) == [SUPPLY, ("drop", pytest.approx(together.value), "V", "lamp.drop.together")]
    least = figure(worked, "lamp.socket.least")
    assert least.value == pytest.approx(10.2)  # 85 % of 12 V
    assert words(least) == (
        "least volts at the socket of lamp", "V", "share of the design voltage", "U = 85 % of the design voltage", (),
        "California 13 CCR 1249(c) (read), engine running",
    )  # fmt: skip
    assert inputs(least) == [("design voltage", 12.0, "V", "draws: 24 W at 12 V")]
    for state, drop, on in (
        ("alone", alone.value, "alone"),
        ("together", together.value, "every load on that can be on together"),
    ):
        light = figure(worked, f"lamp.light.{state}")
        assert light.value == pytest.approx(100 * (1 - ((12 - drop) / 12) ** 3.4))
        assert words(light) == (
            f"light that the wiring costs lamp, {on}", "%", "light of a filament lamp",
            "lost = 1 - ((U - drop) / U)^p", (),
            "Against the light with the whole supply at its socket; halogen lamps lose a little less",
        )  # fmt: skip
        assert inputs(light) == [
            ("U", 12.0, "V", "supply:"),
            ("drop", pytest.approx(drop), "V", f"lamp.drop.{state}"),
            ("p", 3.4, "", LIGHT),
        ]
    unsaid = several(tmp_path / "u", ("draws: 2 A, class: lamp", "class: lamp"))
    assert inputs(figure(unsaid, "lamp.socket.least")) == [("design voltage", None, "V", "not recorded")]


@pytest.mark.parametrize(
    ("light", "why"),
    [
        ("LED", "an LED's own driver decides what it makes of the volts"),
        ("gas discharge", "its ballast decides what it makes of the volts"),
        ("unknown", "what gives the light is not recorded"),
    ],
)
def test_of_a_light_that_is_no_filament_it_is_said_why_nothing_is_computed(
    light: str, why: str, tmp_path: Path
) -> None:
    text = one_load(f"draws: 55 W at 12.8 V, class: indicator, light: {light}", "supply: 12 V")
    lamp = of_load(work(tmp_path, text)).lamp
    assert lamp is not None
    assert (lamp.dark, lamp.ok, lamp.lost_alone) == (why, None, None)
    filament = of_load(work(tmp_path / "f", text.replace(f"light: {light}", "light: filament"))).lamp
    assert filament is not None
    assert (filament.dark, filament.ok) == ("", True)
    assert filament.lost_alone is not None


# ---- currents -------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("draws", "amps", "rule", "formula", "given"),
    [
        ("draws: 4 A", 4.0, "as recorded", "I", [("I", 4.0, "A", "draws: 4 A")]),
        ("draws: 55 W at 12.8 V", 4.296875, "watts at a voltage", "I = P / U",
         [("P", 55.0, "W", "draws: 55 W at 12.8 V"), ("U", 12.8, "V", "draws: 55 W at 12.8 V")]),
        ("draws: unknown", None, "as recorded", "I", []),
        ("class: horn", None, "as recorded", "I", []),
    ],
)  # fmt: skip
def test_what_is_told_of_the_current_of_a_load(
    draws: str, amps: float | None, rule: str, formula: str, given: list[object], tmp_path: Path
) -> None:
    found = figure(work(tmp_path, one_load(draws, "supply: 12 V")), "load.current")
    assert found.value == (None if amps is None else pytest.approx(amps))
    assert words(found) == ("current of load", "A", rule, formula, () if amps else ("draws",), "")
    assert inputs(found) == given


# ---- resistances and drops ------------------------------------------------------------------------------------------
# Copper alone: W1 1 m of 2.5 mm2, 7.6 mohm, for lamp, pump and horn together; L0's cables as in `several`.
def test_what_is_told_of_a_resistance_and_a_drop(tmp_path: Path) -> None:
    worked = several(tmp_path, ("size: 18 AWG", "size: 1.5 mm2"), ("W4: {size: unknown", "W4: {size: 1.5 mm2"))
    feed = figure(worked, "pump.feed.resistance")
    assert feed.value == pytest.approx(7.6 + 12.7)
    assert words(feed) == (
        "resistance of the feed of pump", "mohm", "in series, along the traced way", "R = sum of R", (), "",
    )  # fmt: skip
    back = figure(worked, "pump.return.resistance")
    assert (back.value, back.name) == (pytest.approx(18.5 + 3.64 + 5.46), "resistance of the return of pump")
    assert {name: (ohms, unit) for name, ohms, unit, _ in inputs(back) if ohms} == {
        "W7 from L1 to pump.2": (pytest.approx(18.5), "mohm"),
        "cable L1 to L2": (pytest.approx(3.64), "mohm"),
        "cable L2 to battery-": (pytest.approx(5.46), "mohm"),
    }
    # alone 4 A everywhere; with the lamp's 2 A and the horn's 5 A there are 11 A in W1, and 6 and 11 A in the cables
    states = {
        "alone": ("this load alone", 4 * 0.0203, 4 * 0.0276, (4, 4, 4), ""),
        "together": (
            "every load on that can be on together", 11 * 0.0076 + 4 * 0.0127,
            4 * 0.0185 + 6 * 0.00364 + 11 * 0.00546, (11, 6, 11), "",
        ),
        # what costs it most is a tenth more copper, and no starter
        "worst": (
            "what costs it most on, wires as hot as they get, contacts at their worst",
            1.1 * (11 * 0.0076 + 4 * 0.0127), 1.1 * (4 * 0.0185 + 6 * 0.00364 + 11 * 0.00546), (11, 6, 11),
            "on: lamp, pump, horn",
        ),
    }  # fmt: skip
    for state, (on, feed_v, back_v, carried, note) in states.items():
        feed, back = figure(worked, f"pump.feed.{state}"), figure(worked, f"pump.return.{state}")
        whole = figure(worked, f"pump.drop.{state}")
        assert (feed.value, back.value) == (pytest.approx(feed_v), pytest.approx(back_v)), state
        assert words(feed) == (
            f"drop of the feed of pump, {on}",
            "V",
            SOLVED,
            "U = sum of I x R along the path",
            (),
            note,
        )
        assert back.name == f"drop of the return of pump, {on}"
        assert whole.value == pytest.approx(feed_v + back_v)
        assert words(whole) == (f"drop of pump, feed and return, {on}", "V", "feed plus return", "U = Uf + Ur", (), "")
        assert inputs(whole) == [
            ("feed drop", pytest.approx(feed_v), "V", f"pump.feed.{state}"),
            ("return drop", pytest.approx(back_v), "V", f"pump.return.{state}"),
        ]
        told = {name: (ohms, source.partition("; carries ")[2]) for name, ohms, _, source in inputs(feed)}
        told |= {name: (ohms, source.partition("; carries ")[2]) for name, ohms, _, source in inputs(back)}
        more = 1.1 if state == "worst" else 1
        assert told["W1 from F1 to FS1"] == (pytest.approx(7.6 * more), f"{carried[0]:.2f} A")
        assert told["cable L1 to L2"] == (pytest.approx(3.64 * more), f"{carried[1]:.2f} A")
        assert told["cable L2 to battery-"] == (pytest.approx(5.46 * more), f"{carried[2]:.2f} A")


def test_a_load_that_is_never_on_with_all_others_is_judged_with_those_it_can_be_on_with(tmp_path: Path) -> None:
    text = ("crank: {between: crank.1 crank.2, draws: 100 A, class: starter",
            "crank: {between: crank.1 crank.2, draws: 100 A, class: starter, not with: [horn]")  # fmt: skip
    worked = several(tmp_path, text, ("size: 18 AWG", "size: 1.5 mm2"), ("W4: {size: unknown", "W4: {size: 1.5 mm2"))
    # the lamp's 2 and the pump's 4 A come on its way home beside its own 100 A; 4.0 mm2 have 4.71 mohm a metre
    assert figures(worked)["crank.return.together"] == pytest.approx(100 * 0.00471 + 106 * 0.00546)
    assert figures(worked)["crank.drop.together"] == pytest.approx(2 * 100 * 0.00471 + 106 * 0.00546)
    assert worked.circuit_figures["crank"].never_with == frozenset({"horn"})
    assert worked.circuit_figures["horn"].never_with == frozenset({"crank"})
    assert figure(worked, "crank.return.worst").note == "on: lamp, pump, crank"
    assert worked.circuit_figures["crank"].ok is False  # 1.52 V, and 10 % of 12 V are allowed
    assert worked.circuit_figures["lamp"].ok is True


def test_what_comes_on_with_a_load_is_told_where_it_costs_it_something(tmp_path: Path) -> None:
    # every fuse is live for good and no load has a switch: what is switched on with the lamp is all of them
    worked = several(tmp_path, ("W4: {size: unknown", "W4: {size: 1.5 mm2"))
    switched = figure(worked, "lamp.return.switched")
    assert switched.value == pytest.approx(2 * (0.0185 + 0.00182) + 6 * 0.00364 + 111 * 0.00546)
    assert words(switched) == (
        "drop of the return of lamp, as it is switched on, with what comes on with it", "V", SOLVED,
        "U = sum of I x R along the path", (), "on: lamp, pump, horn, crank",
    )  # fmt: skip
    alone = work(tmp_path / "one", one_load("draws: 4 A, class: lamp", "supply: 12 V"))
    assert of_load(alone).switched is None


def test_a_drop_of_which_something_is_missing_names_it_on_the_side_it_lies(tmp_path: Path) -> None:
    worked = several(tmp_path, ("draws: 48 W at 12 V", "draws: unknown"), ("W4: {size: unknown", "W4: {size: 1.5 mm2"))
    # alone the lamp is not touched by what the pump takes; with it on both of its sides are
    assert (figure(worked, "lamp.drop.alone").missing_words, figure(worked, "lamp.drop.together").missing_words) == (
        (), ("current of pump",),
    )  # fmt: skip
    told = {name: source.rpartition("; ")[2] for name, _, _, source in inputs(figure(worked, "lamp.return.together"))}
    assert told["W6 from L0 to lamp.2"] == "carries 2.00 A"
    assert told["cable L1 to L2"] == "carries current not determined"
    unread = several(tmp_path / "u", ("W3: {size: 1.5 mm2, from: FS1", "W3: {size: unknown, from: FS1"),
                     ("W7: {size: 1.0 mm2, from: pump.2", "W7: {size: unknown, from: pump.2"))  # fmt: skip
    assert figure(unread, "pump.feed.resistance").missing_words == ("W3 from FS1 to pump.1: size unknown",)
    assert figure(unread, "pump.drop.alone").missing_words == (
        "W3 from FS1 to pump.1: size unknown", "W7 from L1 to pump.2: size unknown",
    )  # fmt: skip
    assert figure(unread, "lamp.drop.alone").value is not None
    open_ = several(tmp_path / "o", ("draws: 5 A, class: horn", "draws: 5 A, class: horn, feed: not examined"))
    assert figure(open_, "horn.feed.resistance").missing_words == ("not examined: said to be not examined",)
    assert figure(open_, "horn.feed.alone").missing_words == ("feed not examined: said to be not examined",)
    assert inputs(figure(open_, "horn.feed.alone")) == []
    assert figure(open_, "horn.return.resistance").value == pytest.approx(18.5 + 5.46)


def test_of_a_way_that_divides_it_is_told_what_part_each_wire_carries(tmp_path: Path) -> None:
    text = copper_alone(
        proved("""
    job: Two wires beside each other
    supply: 12 V
    fuses: {F1: {rating: 15 A}}
    splices: {FS1: {}, FS2: {}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: FS1, length: 1 m}
      W2: {size: 1.0 mm2, from: FS1, to: FS2, length: 1 m}
      W3: {size: 1.0 mm2, from: FS1, to: FS2, length: 3 m}
      W4: {size: 1.0 mm2, from: FS2, to: lamp.1, length: 1 m}
      W5: {size: 1.0 mm2, from: lamp.2, to: battery-, length: 1 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 4 A, class: lamp}}
    """)
    )
    found = figure(work(tmp_path, text), "lamp.feed.resistance")
    # 1 m and 3 m beside each other are 3/4 m: 2.75 m in all
    assert found.value == pytest.approx(2.75 * 18.5)
    assert words(found)[1:5] == ("mohm", SOLVED, "R = sum of R x the square of the share it carries", ())
    told = {
        name.partition(" ")[0]: source.partition("; carries ")[2] for name, ohms, _, source in inputs(found) if ohms
    }
    assert told == {"W1": "100.0% of it", "W2": "75.0% of it", "W3": "25.0% of it", "W4": "100.0% of it"}


# ---- against the donor ----------------------------------------------------------------------------------------------
def test_what_is_told_of_a_drop_beside_that_of_the_donor(tmp_path: Path) -> None:
    worked = work(tmp_path, HORN)
    worse = figure(worked, "horn.worse")
    now, was = figure(worked, "horn.drop.alone"), figure(worked, "horn.drop.alone.donor")
    assert words(worse) == (
        "drop of horn alone above that in the donor", "V", "now less donor", "U = U now - U donor", (), "",
    )  # fmt: skip
    assert inputs(worse) == [
        ("drop now", now.value, "V", "horn.drop.alone"),
        ("drop in the donor", was.value, "V", "horn.drop.alone.donor"),
    ]
    assert was.name == f"{now.name}, in the donor"
    assert figure(worked, "horn.feed.alone.donor").name == "drop of the feed of horn, this load alone, in the donor"


@pytest.mark.parametrize("side", ["feed", "return"])
def test_where_one_side_was_not_known_in_the_donor_the_other_is_compared(side: str, tmp_path: Path) -> None:
    wire = "W2" if side == "feed" else "W1"
    text = HORN if side == "feed" else HORN.replace("wire: W1, plug: horn", "wire: W2, plug: horn")
    other = f"{wire}: {{size: 2.5 mm2"
    assert text.count(other) == 1
    found = work(tmp_path, text.replace(other, f"{wire}: {{size: unknown")).circuit_figures["horn"]
    assert found.worse is not None
    # in come 610 mm of 18.5 mohm/m and two joints of 1 mohm, 10 mm of 7.6 mohm/m go under the laps
    assert found.worse.value == pytest.approx(8 * (11.285 + 2 - 0.076) / 1000)
    assert found.worse_of == side
    assert found.worse.name == f"drop of the {side} of horn alone above that in the donor"
    assert [source for _, _, _, source in inputs(found.worse)] == [f"horn.{side}.alone", f"horn.{side}.alone.donor"]
    assert found.donor is not None


# ---- exactly at the limit -------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("mohm", "ok"), [(100, True), (101, False)])
def test_a_drop_of_exactly_the_limit_is_allowed(mohm: int, ok: bool, tmp_path: Path) -> None:
    # wires of no length, and 5 A through a fuse of 100 mohm: the 0.5 V of the table
    head = "supply: 12 V\n    drops held to: AC 43.13-1B"
    text = one_load("draws: 5 A, class: lamp, duty: continuous", head, 0, 0)
    found = of_load(work(tmp_path, text.replace("fuse resistance: 0 mohm", f"fuse resistance: {mohm} mohm")))
    assert (found.together.whole.value == 0.5) == ok
    assert found.ok is ok


@pytest.mark.parametrize(("mohm", "ok"), [(1000, True), (1001, False)])
def test_exactly_the_least_volts_are_enough_at_a_socket(mohm: int, ok: bool, tmp_path: Path) -> None:
    # 3 A through 1 ohm lose 3 V: 9 V are left, the 75 % of 12 V that this job holds its lamps to
    head = "supply: 12 V\n    limits: {lamp volts: 75 %}"
    text = one_load("draws: 36 W at 12 V, class: lamp", head, 0, 0)
    lamp = of_load(work(tmp_path, text.replace("fuse resistance: 0 mohm", f"fuse resistance: {mohm} mohm"))).lamp
    assert lamp is not None
    assert (lamp.socket.value == lamp.least.value == 9, lamp.ok) == (ok, ok)


def test_of_two_loads_that_are_never_on_together_all_on_has_the_greater_and_the_worst_what_costs_most(
    tmp_path: Path,
) -> None:
    # the horn takes 5 A, the pump 4 A; but the pump's current takes the cable from L1 too:
    # 4 x (7.6 + 3.64 + 5.46) are 66.8 mV, 5 x (7.6 + 5.46) are 65.3 mV
    worked = several(
        tmp_path,
        ("W4: {size: unknown", "W4: {size: 1.5 mm2"),
        ("draws: 5 A, class: horn", "draws: 5 A, class: horn, not with: [pump]"),
    )
    own = 2 * (0.0185 + 0.00182 + 0.00364 + 0.00546)
    assert figures(worked)["lamp.return.together"] == pytest.approx(own + 5 * 0.00546)
    assert figures(worked)["lamp.return.worst"] == pytest.approx(1.1 * (own + 4 * (0.00364 + 0.00546)))
    assert figure(worked, "lamp.return.worst").note == "on: lamp, pump"
    # the pump is judged with the lamp, since it is never on with all others
    assert figures(worked)["pump.return.together"] == pytest.approx(4 * 0.0185 + 6 * (0.00364 + 0.00546))
    assert figures(worked)["L2.total"] == pytest.approx(2 + 5)


def test_a_return_by_the_body_names_its_way_back_beside_what_else_is_missing(tmp_path: Path) -> None:
    changed = (
        ("body returns: no", "body returns: yes"),
        ("L0: {back to: L1, cable: 10 mm2, cable length: 1 m}", "L0: {conducts: yes}"),
    )
    alone = figure(several(tmp_path, *changed), "lamp.return.resistance")
    assert alone.value is None
    (why,) = alone.missing_words
    assert "L0" in why
    both = several(tmp_path / "both", *changed, ("from: lamp.2, to: L0, length: 1 m", "from: lamp.2, to: L0"))
    assert figure(both, "lamp.return.resistance").missing_words == ("W6 from L0 to lamp.2: length not recorded", why)

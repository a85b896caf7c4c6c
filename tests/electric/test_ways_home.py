"""A ground that opens in a loop of ground wires, against a netlist drawn by hand: volts and currents of each wire."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures.backfeed import Opened
from aswired.figures.worked import JobResult
from aswired.sheets import circuits as circuits_page
from aswired.sheets import record as record_page
from aswired.sheets.backfeed import ground_of_load, if_opened
from aswired.sheets.circuits import circuit_sheet
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.text import amount
from tests.electric import spice
from tests.findings.jobs import proved, work
from tests.pages.test_grounds import said, text_of

# L1, L2 and L3 each have a cable home; W10 and W11 join L1 to L2 and L2 to L3. The fan is on L1, the pump on L3, and
# the lamp hangs on FS1 with a wire to L1 and one to L2. Thin wires home: an opened cable is felt.
LOOP = proved("""
    job: Loop of grounds
    supply: 12 V
    system: 12 V
    temperature: 20 C
    body returns: no
    usual: {joint resistance: 1 mohm, cavity resistance: 4 mohm, ring resistance: 1.5 mohm, fuse resistance: 5 mohm,
      switch resistance: 20 mohm}
    fuses: {F1: {rating: 30 A, fed: always}, F2: {rating: 10 A, fed: ignition}, F3: {rating: 10 A, fed: ignition}}
    switches: {fan switch: {between: sw.1 sw.2}}
    loads:
      fan: {between: fan.1 fan.2, draws: 20 A, class: motor}
      pump: {between: pump.1 pump.2, draws: 4 A, class: pump}
      lamp: {between: lamp.1 lamp.2, draws: 2 A, class: lamp, light: LED}
    grounds:
      L1: {back to: battery-, cable: 4 mm2, cable length: 1 m}
      L2: {back to: battery-, cable: 4 mm2, cable length: 2 m}
      L3: {back to: battery-, cable: 4 mm2, cable length: 3 m}
    splices: {FS1: {}}
    wires:
      W1: {size: 4 mm2, from: F1, to: sw.1, length: 1 m}
      W2: {size: 4 mm2, from: sw.2, to: fan.1, length: 1 m}
      W3: {size: 4 mm2, from: fan.2, to: L1, length: 1 m}
      W4: {size: 1.0 mm2, from: F2, to: pump.1, length: 2 m}
      W5: {size: 1.0 mm2, from: pump.2, to: L3, length: 1 m}
      W6: {size: 1.0 mm2, from: F3, to: lamp.1, length: 2 m}
      W7: {size: 1.0 mm2, from: lamp.2, to: FS1, length: 1 m}
      W8: {size: 1.0 mm2, from: FS1, to: L1, length: 1 m}
      W9: {size: 1.0 mm2, from: FS1, to: L2, length: 2 m}
      W10: {colour: BN, size: 1.0 mm2, from: L1, to: L2, length: 1.5 m}
      W11: {colour: BN/WH, size: 1.5 mm2, from: L2, to: L3, length: 1 m}
""")
# The same drawn by hand, all on. Millimetres times mohm/m: 1.0 mm2 18.5, 1.5 mm2 12.7, 4 mm2 4.71 (ISO 6722-1, from
# memory). A cavity 4 mohm, half a joint 0.5, a ring 1.5 at each stud, for cables too, a switch 20, a fuse 5.
# Loads as resistances: 12 V over 20, 4 and 2 A.
NETLIST = """* loop of grounds
.param cavity=4m half=0.5m ring=1.5m
VS vs 0 12
RF1 vs f1 5m
RW1 f1 sw1 {4.71m + cavity}
RSW sw1 sw2 20m
RW2 sw2 fan1 {4.71m + 2*cavity}
RFAN fan1 fan2 0.6
RW3 fan2 l1 {4.71m + cavity + ring}
RF2 vs f2 5m
RW4 f2 pump1 {37m + cavity}
RPUMP pump1 pump2 3
RW5 pump2 l3 {18.5m + cavity + ring}
RF3 vs f3 5m
RW6 f3 lamp1 {37m + cavity}
RLAMP lamp1 lamp2 6
RW7 lamp2 fs1 {18.5m + cavity + half}
RW8 fs1 l1 {18.5m + half + ring}
RW9 fs1 l2 {37m + half + ring}
RW10 l1 l2 {27.75m + 2*ring}
RW11 l2 l3 {12.7m + 2*ring}
RL1 l1 0 {4.71m + ring}
RL2 l2 0 {9.42m + ring}
RL3 l3 0 {14.13m + ring}
.control
set numdgt=12
op
print v(fan1) v(fan2) v(pump1) v(pump2) v(lamp1) v(lamp2) v(fs1) v(l1) v(l2) v(l3)
quit
.endc
.end
"""
ALL_ON = "all on that can be on together"
NODES = {
    "fan.1": "fan1", "fan.2": "fan2", "pump.1": "pump1", "pump.2": "pump2", "lamp.1": "lamp1", "lamp.2": "lamp2",
    "FS1": "fs1", "L1": "l1", "L2": "l2", "L3": "l3",
}  # fmt: skip
OHM = {  # from the netlist, the wires that lie between the points
    ("L1", "L2"): 0.02775 + 0.003, ("L2", "L3"): 0.0127 + 0.003, ("FS1", "L1"): 0.0205, ("FS1", "L2"): 0.039,
    ("L1", "battery-"): 0.00621, ("L2", "battery-"): 0.01092, ("L3", "battery-"): 0.01563,
}  # fmt: skip


def loop(folder: Path, *changed: tuple[str, str]) -> JobResult:
    text = LOOP
    for old, new in changed:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return work(folder / "job", text)


def opened(worked: JobResult, point: str, state: str) -> Opened:
    (found,) = [one for one in worked.ground_states.opened[point].opened if one.switched.words == state]
    return found


@pytest.fixture(scope="module")
def volts(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, float]]:
    """Volts of the circuit sound, and with each cable taken out; of the whole with all on, and with the fan alone."""
    spice.needed()
    folder, found = tmp_path_factory.mktemp("loop"), {}
    for name, without in {"sound": "", "L1": "RL1 ", "L2": "RL2 ", "L3": "RL3 "}.items():
        lines = [line for line in NETLIST.splitlines() if not (without and line.startswith(without))]
        found[name] = {"0": 0.0, **spice.run("\n".join(lines) + "\n", folder)}
    return found


@pytest.mark.parametrize("point", ["L1", "L2", "L3"])
def test_each_wire_of_the_other_way_home_has_the_current_and_the_volts_of_the_drawn_circuit(
    point: str, volts: dict[str, dict[str, float]], tmp_path: Path
) -> None:
    found, node = opened(loop(tmp_path), point, ALL_ON), {**NODES, "battery-": "0"}
    now, was = volts[point], volts["sound"]
    assert found.rise_v == pytest.approx(now[NODES[point]], abs=1e-5)
    told = {(one.start, one.end): one for one in found.carrying}
    expected = {}
    for (a, b), ohm in OHM.items():
        amps = (now[node[a]] - now[node[b]]) / ohm
        before = (was[node[a]] - was[node[b]]) / ohm
        if (a, b) != (point, "battery-") and (abs(amps) > abs(before) + 0.005 or amps * before < 0):
            expected[(a, b) if amps > 0 else (b, a)] = abs(amps)
    assert {ends: one.amps for ends, one in told.items()} == pytest.approx(expected, abs=1e-3)
    for (start, _), one in told.items():
        assert one.rise_v == pytest.approx(now[node[start]], abs=1e-4)


def test_the_sound_loop_has_the_volts_of_the_drawn_circuit(volts: dict[str, dict[str, float]], tmp_path: Path) -> None:
    worked = loop(tmp_path)
    solved = worked.ground_states
    behaviour = solved.behaviour
    assert behaviour is not None
    live = behaviour.operate(opened(worked, "L1", ALL_ON).switched.state)
    for end, name in NODES.items():
        assert live.volts[end] == pytest.approx(volts["sound"][name], abs=1e-5), end


def test_with_l1_open_the_wire_between_the_points_is_overloaded_and_named(
    volts: dict[str, dict[str, float]], tmp_path: Path
) -> None:
    worked = loop(tmp_path)
    amps = (volts["L1"]["l1"] - volts["L1"]["l2"]) / OHM["L1", "L2"]
    assert amps > 10  # W10 is 1.0 mm2, planned for 10 A
    (row,) = [row for row in if_opened("L1", worked).rows if row.state == ALL_ON]
    assert row.overloaded == f"W10 (1.0 mm²) carries {amps:.1f} A, may carry 10.0 A"
    wire = next(one for one in row.ways if one.name == "W10")
    assert (wire.start, wire.end, wire.colour.code, wire.size) == ("L1", "L2", "BN", "1.0 mm²")
    assert wire.length.replace("\u202f", " ") == "1 500 mm"
    assert (wire.amps, wire.planned, wire.overloaded) == (f"{amps:.1f} A", "10.0 A", True)
    assert "Too much for its wire: W10 (1.0 mm²) carries" in said(worked)
    # twin: the same loop with a wire between them that bears it
    thick = loop(tmp_path / "thick", ("W10: {colour: BN, size: 1.0 mm2", "W10: {colour: BN, size: 4 mm2"))
    assert "W10" not in "".join(row.overloaded for row in if_opened("L1", thick).rows)


def test_every_state_of_the_list_is_answered(tmp_path: Path) -> None:
    worked = loop(tmp_path)
    for point in ("L1", "L2", "L3"):
        told = if_opened(point, worked)
        answered = {*(row.state for row in told.rows), *(state for state, _ in told.quiet)}
        listed = {carried.words for carried in worked.ground_states.carried[point]}
        assert {words for words in listed if not words.startswith("the same")} == answered


def test_nobody_is_said_to_lose_its_return_that_has_another_way_home(tmp_path: Path) -> None:
    worked = loop(tmp_path)
    told = if_opened("L1", worked)
    assert (told.lost, told.no_way, set(told.others)) == ((), (), {"fan", "pump", "lamp"})
    page = said(worked)
    for words in ("lose their return", "loses its return", "Dead", "dead"):
        assert words not in page[page.index("If one opens") : page.index("Order on the studs")], words
    # twin: without W10, the lamp's wire to L2 and W11 the fan has nothing else
    lonely = loop(
        tmp_path / "lonely",
        ("      W10: {colour: BN, size: 1.0 mm2, from: L1, to: L2, length: 1.5 m}\n", ""),
        ("      W9: {size: 1.0 mm2, from: FS1, to: L2, length: 2 m}\n", ""),
    )
    assert if_opened("L1", lonely).no_way == ("fan", "lamp")
    assert "Dead, with no other way home: fan, lamp." in said(lonely)


def test_what_is_not_recorded_of_the_other_way_leaves_its_currents_not_recorded(tmp_path: Path) -> None:
    worked = loop(tmp_path, ("from: L1, to: L2, length: 1.5 m", "from: L1, to: L2"))
    (row,) = [row for row in if_opened("L1", worked).rows if row.state == ALL_ON]
    assert {(one.name or one.start): one.amps for one in row.ways}["W10"] == "not recorded"
    assert "W10 from L1 to L2: length not recorded" in row.unknown
    assert all("loses a part" not in group.words for group in row.less)


def test_a_load_whose_feed_nobody_looked_at_is_said_to_be_just_that(tmp_path: Path) -> None:
    worked = loop(tmp_path, ("draws: 4 A, class: pump", "draws: 4 A, class: pump, feed: not examined"))
    assert if_opened("L3", worked).untold == (("pump", "its feed was not examined"),)
    assert "Not worked out for pump: its feed was not examined." in said(worked)
    sentence = ground_of_load("pump", worked)
    assert sentence is not None
    assert sentence.words == "not worked out for this load: its feed was not examined"


# ---- dead and fed of one load ---------------------------------------------------------------------------------------
def test_a_load_that_is_dead_when_on_and_fed_when_off_is_not_said_to_have_no_way(tmp_path: Path) -> None:
    from tests.figures.test_figures_backfeed import car  # the car of three loads in a row

    worked = car(tmp_path)
    told = if_opened("L1", worked)
    # b: with the second switch alone its return leads nowhere; with the first it is fed through a
    assert (told.lost, told.no_way) == (("b",), ())
    assert "no other way home: b" not in said(worked)
    assert "Dead whenever it is switched on, though other loads still join it to the battery: b." in said(worked)


def test_the_record_names_all_that_goes_dead_or_dim_or_is_fed(tmp_path: Path) -> None:
    from tests.figures.test_figures_backfeed import car

    worked = car(tmp_path)
    # 12 V over 6, 12 and 12 ohm: 2.4, 4.8 and 4.8 V (test_figures_backfeed)
    note = if_opened("L1", worked).note
    assert note == (
        "dead whenever switched on: b; dead with all on together: a; gets less with first closed: a 2.4 V; "
        "fed though off with first closed: b 4.8 V, c 4.8 V"
    )
    (record,) = record_page.pages(frame_of(worked, ShopFacts("shop")))
    assert f"If it opens: {note}." in text_of(record)


# ---- two ways home on the page of a circuit -------------------------------------------------------------------------
def test_a_second_way_home_is_shown_on_the_circuits_page(tmp_path: Path) -> None:
    worked = loop(tmp_path)
    sheet = circuit_sheet("lamp", worked)
    assert sheet.grounds == ("L1", "L2", "L3")
    # the lamp's 2 A alone, into FS1 of the drawn circuit
    spice.needed()
    alone = [
        line for line in NETLIST.splitlines() if line.startswith(("RW8", "RW9", "RW10", "RW11", "RL1", "RL2", "RL3"))
    ]
    now = spice.solved([".param half=0.5m ring=1.5m", *alone, "IL 0 fs1 2"], ["fs1", "l1", "l2", "l3"], tmp_path)
    expected = {ends: (now[NODES.get(a, "0")] - now[NODES.get(b, "0")]) / OHM[ends] for ends in OHM for a, b in (ends,)}
    ways = {(one.start, one.end): one for one in sheet.ways}
    assert ways["lamp.2", "FS1"].amps == "2.0 A"
    for (a, b), amps in expected.items():
        told = ways[(a, b) if amps > 0 else (b, a)]
        assert told.amps == amount(abs(amps), "A"), (a, b)
    (page,) = [p for p in circuits_page.pages(frame_of(worked, ShopFacts("shop"))) if p.context["page_title"] == "lamp"]
    assert "More than one way home" in text_of(page)
    assert "back by L1 and L2 and L3" in text_of(page)
    # twin: one way only
    single = loop(
        tmp_path / "single",
        ("      W10: {colour: BN, size: 1.0 mm2, from: L1, to: L2, length: 1.5 m}\n", ""),
        ("      W9: {size: 1.0 mm2, from: FS1, to: L2, length: 2 m}\n", ""),
    )
    assert (circuit_sheet("lamp", single).grounds, circuit_sheet("lamp", single).ways) == (("L1",), ())

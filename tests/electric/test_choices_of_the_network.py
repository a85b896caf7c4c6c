"""Small decisions of the network and of how a car behaves: contacts, coils, readings, placeholders; each by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.figures.electric import transfer_of
from aswired.figures.worked import JobResult
from aswired.network.behaviour import TOLD_WITHIN_A, TOLD_WITHIN_V, Behaviour, SolvedState, scattered
from aswired.network.copper import measured_part
from aswired.network.grid import Grid
from aswired.network.states import OperatingState, at_rest, everything_off, follows, needs_of, state, unfollowed
from aswired.network.transfer import FEED, RETURN, SHORTED, UnitSolutions, is_whole
from tests.electric.on_one_lug import LAMP, RELAY, with_each
from tests.findings.jobs import copper_alone, figure, proved, work


def solved(folder: Path, text: str) -> UnitSolutions:
    worked = work(folder / "job", text)
    return transfer_of(worked.job, worked.shown, worked.circuits)


def grid(worked: JobResult) -> Grid:
    return Grid(worked.job, worked.shown)


def live(found: UnitSolutions, load: str) -> SolvedState:
    needs = needs_of(load, found.grid, found.circuits)
    assert needs is not None
    return Behaviour(found.grid, found.circuits).operate(state(needs, found.grid))


# ---- contacts that no load's current passes -------------------------------------------------------------------------
# A wiper: its park contact grounds its feed at rest. By hand: 4 A over 1 m there and 1 m back, 18.5 mohm each.
WIPER = copper_alone(
    proved("""
    job: A motor that brakes
    supply: 12 V
    body returns: no
    fuses: {F1: {rating: 10 A, fed: always}}
    switches: {stalk: {between: st.1 st.2}, park: {between: PARK battery-}}
    loads: {wiper: {between: m.1 m.2, draws: 4 A, class: motor}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: st.1, length: 0 mm}
      W2: {size: 1.0 mm2, from: st.2, to: m.1, length: 1 m}
      W3: {size: 1.0 mm2, from: m.2, to: battery-, length: 1 m}
""")
)


def test_a_contact_that_grounds_a_feed_at_rest_is_left_open_while_the_motor_runs(tmp_path: Path) -> None:
    worked = work(tmp_path, WIPER.replace("PARK", "m.1"))
    assert figure(worked, "wiper.feed.alone").value == pytest.approx(4 * 0.0185)
    assert figure(worked, "wiper.return.alone").value == pytest.approx(4 * 0.0185)


def test_a_feed_joined_to_ground_by_a_wire_is_told_as_that_on_either_lead(tmp_path: Path) -> None:
    text = WIPER.replace("park: {between: PARK battery-}", "park: {between: p.1 p.2}").replace(
        "    wires:", "    wires:\n      W4: {size: 1.0 mm2, from: m.1, to: battery-, length: 1 m}"
    )
    found = solved(tmp_path, text)
    amps = found.stated
    assert found.lost("wiper", FEED, amps).missing == (SHORTED,)
    assert found.lost("wiper", RETURN, amps).volts == pytest.approx(4 * 0.0185)
    for leads in (("m.1", "m.2"), ("m.2", "m.1")):
        assert found.between(*leads, amps).missing == (SHORTED,)
    assert (found.shorted("m.1"), found.shorted("m.2"), found.shorted("elsewhere.1")) == (True, False, False)


def test_how_a_current_divides_round_a_ring_without_resistance_is_not_told(tmp_path: Path) -> None:
    """Two closed switches side by side, both of nought: each carries what nobody knows, and nothing is lost in them."""
    text = WIPER.replace("park: {between: PARK battery-}", "other: {between: st.1 st.2}")
    found = solved(tmp_path, text)
    amps = found.stated
    for name in ("stalk", "other"):
        assert found.through(f"switch {name}", amps).missing_words == (
            "how a current divides round a ring without resistance",
        )
    assert found.through("fuse F1", amps).volts == pytest.approx(4)
    assert found.lost("wiper", FEED, amps).volts == pytest.approx(4 * 0.0185)


def test_of_a_positive_ground_nothing_is_computed(tmp_path: Path) -> None:
    found = solved(
        tmp_path, WIPER.replace("PARK", "p.1").replace("supply: 12 V", "supply: 12 V\n    ground side: positive")
    )
    words = ("positive ground: not computed",)
    assert tuple(map(str, found.refused)) == words
    amps = found.stated
    assert found.through("fuse F1", amps).missing_words == words
    assert found.lost("wiper", FEED, amps).missing_words == words
    assert found.between("F1", "m.1", amps).missing_words == words
    assert solved(tmp_path / "b", WIPER.replace("PARK", "p.1")).refused == ()


@pytest.mark.parametrize(("share", "whole"), [(1, True), (-1, True), (0.999, False), (1 - 1e-8, True), (0.5, False)])
def test_a_share_is_all_of_a_current_whichever_way_it_runs(share: float, whole: bool) -> None:
    assert is_whole(share) is whole


# ---- coils ----------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("old", "new", "followed"),
    [
        ("", "", True),
        ("draws: 0.15 A, class: coil", "draws: unknown, class: coil", False),
        ("draws: 0.15 A, class: coil", "draws: 0 A, class: coil", False),
        ("draws: 0.15 A, class: coil", "class: coil", False),
        ("draws: 0.15 A, class: coil", "draws: 0.15 A, class: coil, feed: not examined", False),
        ("draws: 0.15 A, class: coil", "draws: 0.15 A, class: coil, return: not examined", False),
        ("draws: 0.15 A, class: coil", "draws: 0.15 A, class: coil, verdict: deleted", False),
        ("worked by: K coil", "worked by: lamp", True),
    ],
)
def test_a_contact_follows_a_kept_coil_of_known_current_on_a_traced_way(
    old: str, new: str, followed: bool, tmp_path: Path
) -> None:
    found = solved(tmp_path, with_each(RELAY, ((old, new),)) if old else RELAY)
    assert unfollowed(found.grid, found.circuits) == (() if followed else ("K contact",))
    coil = found.grid.contacts["K contact"]
    assert follows(coil, found.grid, found.circuits) is followed
    needs = needs_of("fan", found.grid, found.circuits)
    assert needs is not None
    assert (needs.relays, needs.assumed) == (("K contact",), ()) if followed else ((), ("K contact",))


def test_a_coil_fed_by_its_own_contact_asks_for_no_more_than_itself(tmp_path: Path) -> None:
    """A latch: the coil hangs behind its own contact, and the fan behind it too."""
    text = with_each(RELAY, (("from: F1, to: b.1", "from: K.87, to: b.1"),))
    found = solved(tmp_path, text)
    for load in ("K coil", "fan"):
        needs = needs_of(load, found.grid, found.circuits)
        assert needs is not None
        assert (needs.relays, needs.by_hand, needs.key) == (("K contact",), ("button",), "ignition")


def test_switches_closed_at_rest_need_no_hand_and_a_resting_contact_opens(tmp_path: Path) -> None:
    rest = with_each(RELAY, (("worked by: K coil}", "worked by: K coil, at rest: closed}"),))
    found = solved(tmp_path, rest)
    fan = needs_of("fan", found.grid, found.circuits)
    assert fan is not None
    assert (fan.relays, fan.resting, fan.by_hand) == ((), ("K contact",), ())
    assert list(at_rest(found.grid)) == ["K contact"]
    assert everything_off(found.grid) == OperatingState(frozenset({"K contact"}), frozenset({"F1.feed"}))
    plain = solved(
        tmp_path / "b",
        LAMP.replace("fan switch: {between: s.1 s.2}", "fan switch: {between: s.1 s.2, at rest: closed}"),
    )
    fan = needs_of("fan", plain.grid, plain.circuits)
    assert fan is not None
    assert (fan.by_hand, fan.resting, fan.key) == ((), (), "ignition")


@pytest.mark.parametrize(
    ("fed", "key", "live_now"),
    [
        ("always", "off", {"F1.feed", "F2.feed"}),
        ("accessory", "accessory", {"F1.feed", "F2.feed"}),
        ("ignition", "ignition", {"F1.feed", "F2.feed"}),
        ("unknown", "off", {"F1.feed", "F2.feed"}),  # its own feed is live for it, whatever the key
    ],
)
def test_a_state_has_live_what_its_key_reaches(fed: str, key: str, live_now: set[str], tmp_path: Path) -> None:
    text = LAMP.replace("fed: ignition", f"fed: {fed}")
    found = solved(tmp_path, text)
    fan, lamp = (needs_of(load, found.grid, found.circuits) for load in ("fan", "lamp"))
    assert fan is not None
    assert lamp is not None
    assert fan.key == key
    assert state(fan, found.grid).live == live_now
    assert state(lamp, found.grid).live == ({"F1.feed", "F2.feed"} if fed == "always" else {"F1.feed"})
    both = lamp.and_(fan)
    assert (both.key, both.sources, both.by_hand) == (key, ("F1.feed", "F2.feed"), ("fan switch",))
    assert fan.and_(lamp).key == key


@pytest.mark.parametrize("says", ["feed: not examined", "return: not examined"])
def test_a_load_of_which_one_side_is_not_traced_has_no_state(says: str, tmp_path: Path) -> None:
    found = solved(tmp_path, LAMP.replace("class: motor}", f"class: motor, {says}}}"))
    assert needs_of("fan", found.grid, found.circuits) is None
    assert needs_of("elsewhere", found.grid, found.circuits) is None
    assert needs_of("lamp", found.grid, found.circuits) is not None


@pytest.mark.parametrize(("volts", "pulls"), [(7.79, False), (7.81, True)])
def test_a_coil_pulls_at_its_share_of_the_system_not_of_the_supply(volts: float, pulls: bool, tmp_path: Path) -> None:
    """65 % of 12 V are 7.8 V. Every allowance is nought and the wires of the coil are 0 mm, so it has the supply."""
    head, _, tail = RELAY.partition("usual: {")
    text = copper_alone(head + tail.partition("}\n")[2])
    for wire in ("W7", "W8", "W9"):
        (line,) = [line for line in text.splitlines() if f"{wire}:" in line]
        text = text.replace(line, line.replace("length: 1 m", "length: 0 mm"))
    # the lug lies 1.82 mohm/m x 5 m above battery negative: the lamp's 4 A lift it by 35 mV, the fan off
    text = text.replace("cable length: 5 m", "cable length: 0 mm")
    low = solved(tmp_path, text.replace("supply: 12 V", f"supply: {volts} V"))
    found = live(low, "fan")
    assert ("K contact" in found.state.closed) is pulls
    # without a nominal voltage the supply itself counts, of which it has all
    bare = solved(tmp_path / "b", text.replace("supply: 12 V", f"supply: {volts} V").replace("system: 12 V\n", ""))
    assert "K contact" in live(bare, "fan").state.closed
    unknown = text.replace("supply: 12 V", f"supply: {volts} V").replace("system: 12 V\n", "system: unknown\n")
    assert "K contact" in live(solved(tmp_path / "c", unknown), "fan").state.closed


# ---- loads as they behave -------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("draws", "ohm"),
    [
        ("draws: 6 A", 12 / 6),
        ("draws: 84 W at 14 V", 14 / 6),  # written for other volts than the supply
        ("draws: 72 W at 12 V", 144 / 72),
    ],
)
def test_a_load_is_the_resistance_that_its_own_volts_say(draws: str, ohm: float, tmp_path: Path) -> None:
    found = live(solved(tmp_path, LAMP.replace("draws: 6 A", draws)), "lamp")
    assert found.load_amps["lamp"] == pytest.approx(12 / (ohm + 0.0525))
    assert found.load_amps["fan"] == 0.0


def test_a_load_of_no_current_takes_none_and_one_that_is_not_recorded_is_not_told(tmp_path: Path) -> None:
    none = live(solved(tmp_path, LAMP.replace("draws: 6 A", "draws: 0 A")), "lamp")
    assert none.load_amps["lamp"] == 0.0
    unread = live(solved(tmp_path / "b", LAMP.replace("draws: 6 A", "draws: unknown")), "lamp")
    assert (unread.load_amps["lamp"], unread.load_volts["lamp"]) == (None, None)
    assert unread.load_amps["fan"] == 0.0
    assert unread.volts["F1.feed"] == 12


def test_the_other_supply_drives_the_same_loads(tmp_path: Path) -> None:
    found = solved(tmp_path, LAMP)
    higher = Behaviour(found.grid, found.circuits, 14.0)
    needs = needs_of("lamp", found.grid, found.circuits)
    assert needs is not None
    # 6 A at the job's 12 V: 2 ohm, and 52.5 mohm of way
    assert higher.operate(state(needs, found.grid)).load_amps["lamp"] == pytest.approx(14 / 2.0525)


@pytest.mark.parametrize("supply", ["", "supply: unknown\n"])
def test_without_a_supply_nothing_behaves(supply: str, tmp_path: Path) -> None:
    found = solved(tmp_path, LAMP.replace("supply: 12 V\n", supply))
    with pytest.raises(ValueError, match="the supply is not recorded"):
        Behaviour(found.grid, found.circuits)


def test_with_the_ground_opened_the_way_back_is_gone_and_the_sound_state_stays(tmp_path: Path) -> None:
    found = solved(tmp_path, LAMP)
    behaviour = Behaviour(found.grid, found.circuits)
    needs = needs_of("lamp", found.grid, found.circuits)
    assert needs is not None
    asked = state(needs, found.grid)
    opened = behaviour.operate(asked, frozenset({"cable L1 to battery-"}))
    assert opened.load_amps["lamp"] == pytest.approx(0, abs=1e-9)
    assert opened.volts["L1"] == pytest.approx(12)  # through the lamp, with no way home
    assert behaviour.operate(asked).load_amps["lamp"] == pytest.approx(12 / 2.0525)
    elsewhere = behaviour.operate(asked, frozenset({"switch fan switch"}))
    assert elsewhere.load_amps["lamp"] == pytest.approx(12 / 2.0525)


def test_two_filaments_on_one_pair_of_nodes_take_twice_the_current_of_one(tmp_path: Path) -> None:
    """Each takes 4 A (V / 12)^0.55; the wire there and back is 2 m of 1.0 mm2, 37 mohm, no allowance."""
    text = copper_alone(
        proved("""
    job: Two bulbs in one holder
    supply: 12 V
    body returns: no
    fuses: {F1: {rating: 20 A, fed: always}}
    loads:
      left: {between: h.1 h.2, draws: 4 A, class: lamp}
      right: {between: h.1 h.2, draws: 4 A, class: KIND}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: h.1, length: 1 m}
      W2: {size: 1.0 mm2, from: h.2, to: battery-, length: 1 m}
    """)
    )
    volts = 12.0
    for _ in range(200):
        volts = 12 - 0.037 * 2 * 4 * (volts / 12) ** 0.55
    found = live(solved(tmp_path, text.replace("KIND", "indicator")), "left")
    assert found.load_volts["left"] == pytest.approx(volts)
    assert found.load_amps["right"] == pytest.approx(4 * (volts / 12) ** 0.55)
    # beside a resistance of 3 ohm the bulb has other volts
    mixed = 12.0
    for _ in range(200):
        mixed = 12 - 0.037 * (4 * (mixed / 12) ** 0.55 + mixed / 3)
    assert live(solved(tmp_path / "b", text.replace("KIND", "heater")), "left").load_volts["left"] == pytest.approx(
        mixed
    )


def test_what_is_told_is_held_to_a_fifth_of_what_is_printed_and_placeholders_all_differ() -> None:
    assert (TOLD_WITHIN_V, TOLD_WITHIN_A) == (0.002, 0.005)  # two and one decimals are printed
    spread = [scattered(place) for place in range(200)]
    assert len({round(value, 9) for value in spread}) == 200
    assert all(0 <= value < 1 for value in spread)


# ---- what was measured, and what a part has -------------------------------------------------------------------------
def test_a_measured_part_is_known_to_a_twentieth_or_the_last_digit_and_never_below_nought() -> None:
    wide, near = measured_part("a", 10.0, "", 7.0, 14.0), measured_part("a", 10.0, "", 9.9, 10.1)
    assert (wide.low, wide.high, wide.worst) == (7.0, 14.0, 14.0)
    assert (near.low, near.high, near.worst) == pytest.approx((9.5, 10.5, 10.5))
    assert measured_part("a", 0.4, "", -0.1, 0.9).low == 0.0


FUSES = LAMP.replace("changes: [", "changes: [{id: C2, kind: protect, fuse: F1, rating: 10 A, made: 2031-05-10 AK}, "
    "{id: C3, kind: protect, fuse: F1, rating: 15 A, made: 2031-05-20 AK}, ")  # fmt: skip


@pytest.mark.parametrize(
    ("days", "mohm"),
    [
        (("2031-05-01", "2031-05-12"), 5.0),  # both of a fuse that is not in any more
        (("2031-05-01", "2031-05-20"), 12.0),  # of the day it was put in on
        (("2031-05-25", "2031-05-22"), 11.0),  # the last by its day, not by the file
        (("2031-05-25", ""), 11.0),  # a reading of no day may be of the fuse before
        (("", ""), 5.0),
    ],
)
def test_a_reading_of_a_fuse_counts_from_the_last_row_that_changed_it(
    days: tuple[str, str], mohm: float, tmp_path: Path
) -> None:
    read = ("11 mohm", "12 mohm")
    lines = ", ".join(
        f"{{id: R{n}, red: F1.feed, black: F1, read: {value}{f', on: {day}' if day else ''}}}"
        for n, (value, day) in enumerate(zip(read, days, strict=True))
    )
    found = solved(tmp_path, FUSES + f"readings: [{lines}]\n").grid
    assert found.by_key["fuse F1"].mohm == pytest.approx(mohm)
    assert found.by_key["fuse F2"].mohm == pytest.approx(5)


@pytest.mark.parametrize(
    ("reading", "counts"),
    [
        ("red: F1.feed, black: F1, read: 12 mohm", True),
        ("red: F1.feed, black: F1, read: 0.06 V, through: 5 A", True),  # 60 mV / 5 A = 12 mohm
        ("red: F1.feed, black: F1, read: 0.06 V, through: unknown", False),
        ("red: F1.feed, black: F1, read: 0.06 V", False),
        ("red: F1.feed, black: F1, read: not measured", False),
        ("red: F1.feed, black: F1, read: 0.0 mohm", False),
        ("red: F1.feed, read: 12 mohm", False),
        ("black: F1, read: 12 mohm", False),
        ("red: F1.feed, black: F1, read: 5 A, through: 5 A", False),
    ],
)
def test_a_reading_counts_that_tells_a_resistance_and_both_its_leads(
    reading: str, counts: bool, tmp_path: Path
) -> None:
    found = solved(tmp_path, LAMP + f"readings: [{{id: R1, {reading}}}]\n").grid
    assert found.by_key["fuse F1"].mohm == pytest.approx(12 if counts else 5)
    assert found.measured == ({"R1": "fuse F1"} if counts else {})


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("W2: {size: 2.5 mm2", "W2: {size: unknown", "W2 from lamp.1 to mid.1: size unknown"),
        ("W2: {size: 2.5 mm2", "W2: {size: 13 AWG", "W2 from lamp.1 to mid.1: 13 AWG is not in SAE J1128"),
        ("W2: {size: 2.5 mm2", "W2: {size: 2.5 mm2, conductor: aluminium",
         "W2 from lamp.1 to mid.1: its conductor is aluminium, and only copper is computed"),
        ("to: lamp.1, length: 2 m", "to: lamp.1", "W2 from lamp.1 to mid.1: length not recorded"),
        ("L1: {cable: 10 mm2, cable length: 5 m", "L1: {cable length: 5 m",
         "cable L1 to battery-: cable size not recorded"),
        ("L1: {cable: 10 mm2, cable length: 5 m", "L1: {cable: 10 mm2",
         "cable L1 to battery-: length not recorded"),
        ("L1: {cable: 10 mm2, cable length: 5 m", "L1: {cable: unknown, cable length: 5 m",
         "cable L1 to battery-: size unknown"),
    ],
)  # fmt: skip
def test_what_is_not_recorded_of_a_part_is_said_in_its_own_words(
    old: str, new: str, words: str, tmp_path: Path
) -> None:
    found = solved(tmp_path, with_each(LAMP, ((old, new),))).grid
    assert {str(lack) for branch in found.branches for lack in branch.unknown} == {words}


@pytest.mark.parametrize(("fed", "when"), [(", fed: always", "always"), (", fed: unknown", "unknown"), ("", "unknown")])
def test_a_fuse_of_which_nobody_said_when_it_is_live_is_fed_at_no_known_time(
    fed: str, when: str, tmp_path: Path
) -> None:
    found = solved(tmp_path, LAMP.replace("F2: {rating: 20 A, fed: ignition}", f"F2: {{rating: 20 A{fed}}}")).grid
    assert found.sources == {"F1.feed": "always", "F2.feed": when}

"""What hangs on something that is not recorded is not told, in operating states too."""

from __future__ import annotations

import tempfile
from itertools import pairwise
from pathlib import Path
from random import Random

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from aswired.network.behaviour import TOLD_WITHIN_V, Behaviour, SolvedState
from aswired.network.grid import Grid
from aswired.network.states import OperatingState
from tests.electric.chance import chance, state_of
from tests.electric.harnesses import HEAD, harness
from tests.electric.test_laws import DRAWS, WIRE_SIZE, loads_of
from tests.findings.jobs import work

SIZES, AMPS = ("0.5 mm2", "1.5 mm2", "4 mm2"), ("1 A", "2 A", "3.3 A", "5 A")


def operated(text: str, seed: int) -> SolvedState:
    """The harness in the state of a seed."""
    with tempfile.TemporaryDirectory() as folder:
        worked = work(Path(folder) / "job", text)
    grid = Grid(worked.job, worked.shown)
    state, loose = state_of(worked.job, grid, chance(seed, worked.job, grid))
    return Behaviour(grid, worked.circuits).operate(state, loose)


def with_words(text: str, spans: list[tuple[int, int]], words: list[str]) -> str:
    kept = [text[a:b] for (_, a), (b, _) in pairwise([(0, 0), *spans, (len(text), len(text))])]
    return kept[0] + "".join(word + rest for word, rest in zip(words, kept[1:], strict=True))


@settings(max_examples=10)
@given(st.integers(0, 100_000), st.integers(1, 3))
def test_volts_that_hang_on_what_is_not_recorded_are_not_told(seed: int, how_many: int) -> None:
    text, random = harness(seed).text, Random(seed)
    # what a coil takes is left recorded: the contacts of one whose current is not are taken as they are said to stand
    draws = [
        found.span() for found, name in zip(DRAWS.finditer(text), loads_of(text), strict=True) if "coil" not in name
    ]
    sizes = [found.span() for found in WIRE_SIZE.finditer(text)]
    silent = sorted(random.sample(draws + sizes, how_many))
    told = operated(with_words(text, silent, ["unknown"] * how_many), seed)
    for _ in range(3):
        words = [random.choice(SIZES if span in sizes else AMPS) for span in silent]
        one = operated(with_words(text, silent, words), seed)
        assume(told.settles and one.settles)
        for load, volts in told.load_volts.items():
            if volts is not None:
                assert volts == pytest.approx(one.load_volts[load], abs=2 * TOLD_WITHIN_V), (load, words)


# Two loads in one row between the feed and battery negative, as when a shared ground has come off.
ROW = f"""\
{HEAD}fuses: {{F1: {{rating: 10 A, fed: always}}}}
splices: {{FS1: {{}}}}
grounds: {{L1: {{cable: 10 mm2, cable length: 1 m, conducts: yes, back to: battery-}}}}
loads:
  first: {{between: a.1 a.2, draws: 2 A}}
  second: {{between: b.1 b.2, draws: 2 A}}
wires:
  W1: {{size: 2.5 mm2, from: F1, to: a.1, length: 1 m}}
  W2: {{size: 2.5 mm2, from: a.2, to: FS1, length: 1 m}}
  W3: {{size: 2.5 mm2, from: FS1, to: b.1, length: 1 m}}
  W4: {{size: 2.5 mm2, from: b.2, to: L1, length: 1 m}}
"""
FED = OperatingState(frozenset(), frozenset({"F1.feed"}))


def row(folder: Path, text: str) -> SolvedState:
    worked = work(folder / "job", text)
    return Behaviour(Grid(worked.job, worked.shown), worked.circuits).operate(FED)


def test_two_like_loads_in_one_row_share_the_volts(tmp_path: Path) -> None:
    # twice 13.5 V / 2 A = 6.75 ohm, the rest of the row a few hundredths of an ohm
    assert row(tmp_path, ROW).load_volts["first"] == pytest.approx(6.75, abs=0.05)


def test_two_loads_of_currents_not_recorded_share_them_nobody_knows_how(tmp_path: Path) -> None:
    live = row(tmp_path, ROW.replace("draws: 2 A", "draws: unknown"))
    assert live.load_volts == {"first": None, "second": None}
    assert live.volts["a.1"] is None


COIL = f"""\
{HEAD}fuses: {{F1: {{rating: 10 A, fed: always}}, F2: {{rating: 10 A, fed: always}}}}
grounds: {{L1: {{cable: 10 mm2, cable length: 1 m, conducts: yes, back to: battery-}}}}
switches: {{contact: {{between: K1.30 K1.87, worked by: coil}}}}
loads:
  pump: {{between: p.1 p.2, draws: 5 A}}
  coil: {{between: K1.86 K1.85, draws: 150 mA, class: coil}}
wires:
  W1: {{size: 2.5 mm2, from: F1, to: K1.30, length: 1 m}}
  W2: {{size: 2.5 mm2, from: K1.87, to: p.1, length: 1 m}}
  W3: {{size: 2.5 mm2, from: p.2, to: L1, length: 1 m}}
  W4: {{size: unknown, from: F2, to: K1.86, length: 1 m}}
  W5: {{size: 0.75 mm2, from: K1.85, to: L1, length: 1 m}}
"""


def pump(folder: Path, text: str) -> float | None:
    worked = work(folder / "job", text)
    both = OperatingState(frozenset(), frozenset({"F1.feed", "F2.feed"}))
    return Behaviour(Grid(worked.job, worked.shown), worked.circuits).operate(both).load_volts["pump"]


def test_a_coil_behind_a_wire_of_unread_size_closes_its_contact_all_the_same(tmp_path: Path) -> None:
    # by hand: 90 ohm of coil behind any wire has more than 7.8 V. The pump's way: fuse 4, wires 3 x 7.6, cavities 4 x
    # 2.5, contact 3, ring 0.6, cable 1.8 and its ring 0.6 = 42.8 mohm, with the pump's 2.7 ohm 4.92 A: 0.2107 V lost
    assert pump(tmp_path, COIL) == pytest.approx(13.5 - 0.2107, abs=0.002)


def test_a_contact_of_which_nobody_can_say_how_it_stands_gives_no_volts(tmp_path: Path) -> None:
    # a load of unknown current shares one thin long wire with the coil, which may close or not
    text = COIL.replace("W4: {size: unknown", "W4: {size: 0.5 mm2").replace("K1.86, length: 1 m", "K1.86, length: 30 m")
    drawn = text.replace("  coil:", "  heater: {between: K1.86 K1.85, draws: unknown}\n  coil:")
    assert pump(tmp_path / "without", text) == pytest.approx(13.5 - 0.2107, abs=0.002)
    assert pump(tmp_path / "with", drawn) is None

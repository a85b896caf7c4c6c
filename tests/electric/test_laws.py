"""Laws that hold in every network of resistances, on random harnesses: nothing here knows how the program computes."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from aswired.physics.figure import Figure
from tests.electric.harnesses import harness
from tests.findings.jobs import work

NO_ALLOWANCE = re.compile(r"(resistance: )[\d.]+ mohm")
LENGTH = re.compile(r"(length: )(\d+) mm")
WIRE_SIZE = re.compile(r"(?<=\{size: )[\w. ]+(?=,)")
pytestmark = pytest.mark.slow

DRAWS = re.compile(r"(?<=draws: )[^,}]+")
FEW = settings(max_examples=12)
seeds = st.integers(0, 100_000)


def drops(text: str) -> dict[str, Figure]:
    """What every load loses on either side with every load on, and the rise of every ground point that is used."""
    with tempfile.TemporaryDirectory() as folder:
        worked = work(Path(folder) / "job", text)
    unused = {point.rise.key for point in worked.grounds if not point.loads}
    found = re.compile(r"\.(feed|return)\.together$|^L\d+\.rise$")
    return {
        figure.key: figure for figure in worked.all_figures() if found.search(figure.key) and figure.key not in unused
    }


def values(text: str) -> dict[str, float | None]:
    return {key: figure.value for key, figure in drops(text).items()}


def loads_of(text: str) -> list[str]:
    return re.findall(r"^  ([\w ]+): \{between.*draws", text, re.MULTILINE)


def only(text: str, draws: dict[str, str]) -> str:
    """The harness with these loads drawing what is given, and every other 0 A."""
    for name in loads_of(text):
        line = re.compile(rf"^(  {name}: .*draws: )[^,}}]+", re.MULTILINE)
        text = line.sub(rf"\g<1>{draws.get(name, '0 A')}", text)
    return text


@FEW
@given(seeds)
def test_twice_the_length_loses_twice_the_volts(seed: int) -> None:
    copper = NO_ALLOWANCE.sub(r"\g<1>0 mohm", harness(seed).all_on)
    longer = LENGTH.sub(lambda found: f"{found[1]}{2 * int(found[2])} mm", copper)
    once, twice = values(copper), values(longer)
    assert once
    for key, volts in once.items():
        assert volts is not None
        assert twice[key] == pytest.approx(2 * volts, rel=1e-9), key


@FEW
@given(seeds)
def test_no_current_loses_nothing(seed: int) -> None:
    found = values(only(harness(seed).all_on, {}))
    assert found
    assert set(found.values()) == {0.0}


@FEW
@given(seeds)
def test_what_is_lost_is_the_sum_of_what_each_load_causes_alone(seed: int) -> None:
    text = harness(seed).all_on
    together = values(text)
    draws = dict(zip(loads_of(text), DRAWS.findall(text), strict=True))
    each = [values(only(text, {name: stated})) for name, stated in draws.items()]
    assert together
    for key, volts in together.items():
        alone = [one[key] for one in each]
        assert None not in alone
        assert volts == pytest.approx(sum(part or 0.0 for part in alone), rel=1e-9), key


@FEW
@given(seeds, st.data())
def test_what_one_load_does_to_another_is_what_the_other_does_to_it(seed: int, data: st.DataObject) -> None:
    text = harness(seed).all_on
    names = loads_of(text)
    one = data.draw(st.sampled_from(names))
    two = data.draw(st.sampled_from([name for name in names if name != one]))
    by_one, by_two = values(only(text, {one: "1 A"})), values(only(text, {two: "1 A"}))
    for side in ("feed", "return"):
        assert by_one[f"{two}.{side}.together"] == pytest.approx(by_two[f"{one}.{side}.together"], rel=1e-9, abs=1e-12)


def held_back(text: str, with_low: str, with_high: str, named: str) -> None:
    """The figures of a job in which one thing is not recorded keep back every number that hangs on it, and say why."""
    low, high, silent = values(with_low), values(with_high), drops(text)
    hang = [key for key in low if low[key] != pytest.approx(high[key], rel=1e-6, abs=1e-9)]
    kept = [key for key, figure in silent.items() if figure.value is None]
    for key in hang:
        assert silent[key].value is None, key
    for key in kept:
        assert any(named in words for words in silent[key].missing_words), (key, silent[key].missing_words)
    for key, figure in silent.items():
        assert figure.value is None or figure.value == pytest.approx(low[key], rel=1e-6, abs=1e-9), key


@FEW
@given(seeds, st.data())
def test_a_size_not_recorded_gives_no_number_that_hangs_on_it(seed: int, data: st.DataObject) -> None:
    text = harness(seed).all_on
    sizes = list(WIRE_SIZE.finditer(text))
    place = data.draw(st.integers(0, len(sizes) - 1))
    cut = sizes[place].span()
    unread, thin, thick = (text[: cut[0]] + size + text[cut[1] :] for size in ("unknown", "0.5 mm2", "4 mm2"))
    held_back(unread, thin, thick, f"W{place + 1} ")


@FEW
@given(seeds, st.data())
def test_a_current_not_recorded_gives_no_number_that_hangs_on_it(seed: int, data: st.DataObject) -> None:
    text = harness(seed).all_on
    draws = list(DRAWS.finditer(text))
    place = data.draw(st.integers(0, len(draws) - 1))
    cut = draws[place].span()
    unread, little, much = (text[: cut[0]] + amps + text[cut[1] :] for amps in ("unknown", "1 A", "6 A"))
    held_back(unread, little, much, loads_of(text)[place])


@FEW
@given(seeds, st.data())
def test_a_cable_not_recorded_gives_no_number_that_hangs_on_it(seed: int, data: st.DataObject) -> None:
    text = harness(seed).all_on
    points = list(re.finditer(r"^  (L\d+): \{cable: ([\w. ]+),", text, re.MULTILINE))
    point = data.draw(st.sampled_from(points))
    cut = point.span(2)
    unread, thin, thick = (text[: cut[0]] + size + text[cut[1] :] for size in ("unknown", "6 mm2", "25 mm2"))
    held_back(unread, thin, thick, f"cable {point[1]}")

"""Places for joints: held to a search over every place of a millimetre grid."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from aswired.physics.stagger import Keep, broken, spread


def by_search(length: int, keeps: list[Keep], sleeves: list[int], apart: int) -> bool:
    """Whether the joints go on the stretch in this order, by trying every millimetre. All numbers are even, so a
    solution anywhere means one on the grid: each place may be rounded down without coming nearer to anything."""

    def free(at: int, sleeve: int) -> bool:
        for keep in keeps:
            off = max(keep.clear_mm, (sleeve + keep.sleeve_mm) / 2)
            if keep.start_mm - off < at < keep.end_mm + off:
                return False
        return True

    @cache
    def fits(index: int, first: int) -> bool:
        if index == len(sleeves):
            return True
        for at in range(first, length + 1):
            if free(at, sleeves[index]):
                after = sleeves[index + 1] if index + 1 < len(sleeves) else 0
                if fits(index + 1, at + max(apart, (sleeves[index] + after) // 2)):
                    return True
        return False

    return fits(0, 0)


even = st.integers(0, 60).map(lambda number: 2 * number)


@st.composite
def stretches(draw: st.DrawFn, least: int = 0, most: int = 160) -> tuple[int, list[Keep], list[int], int]:
    length = draw(st.integers(least, most).map(lambda number: 2 * number))
    keeps = [Keep(0, 0, draw(even)), Keep(length, length, draw(even))]
    for _ in range(draw(st.integers(0, 4))):
        start = 2 * draw(st.integers(0, length // 2))
        end = min(length, start + draw(even)) if draw(st.booleans()) else start
        keeps.append(Keep(start, end, draw(even), "", 2 * draw(even)))
    sleeves = draw(st.lists(st.integers(0, 20).map(lambda number: 4 * number), min_size=1, max_size=4))
    return length, keeps, sleeves, draw(even)


@given(stretches())
def test_places_are_found_exactly_when_there_are_any(stretch: tuple[int, list[Keep], list[int], int]) -> None:
    length, keeps, sleeves, apart = stretch
    assert (spread(length, keeps, sleeves, apart).places_mm is not None) is by_search(length, keeps, sleeves, apart)


@given(stretches(250, 500), st.lists(st.integers(-50, 1000), min_size=4, max_size=4))
def test_no_place_breaks_a_limit(stretch: tuple[int, list[Keep], list[int], int], wishes: list[int]) -> None:
    length, keeps, sleeves, apart = stretch
    assume(spread(length, keeps, sleeves, apart).places_mm is not None)
    for near in ((), tuple(wishes[: len(sleeves)])):
        found = spread(length, keeps, sleeves, apart, near).places_mm
        assert found is not None
        assert len(found) == len(sleeves)
        for at, sleeve in zip(found, sleeves, strict=True):
            assert -1e-6 <= at <= length + 1e-6
            for keep in keeps:
                off = max(keep.clear_mm, (sleeve + keep.sleeve_mm) / 2)
                assert at <= keep.start_mm - off + 1e-5 or at >= keep.end_mm + off - 1e-5
        for index in range(1, len(found)):
            assert found[index] - found[index - 1] >= max(apart, (sleeves[index] + sleeves[index - 1]) / 2) - 1e-5
        assert broken(found, keeps, sleeves, apart) == set()


@given(stretches())
def test_a_stretch_of_the_wanted_length_does_and_a_shorter_one_does_not(
    stretch: tuple[int, list[Keep], list[int], int],
) -> None:
    length, keeps, sleeves, apart = stretch
    found = spread(length, keeps, sleeves, apart)
    assume(found.wants_mm is not None)
    assert found.wants_mm is not None

    def at_length(new: int) -> list[Keep]:
        """What lies at the end moves out with it."""
        return [
            Keep(k.start_mm + new - length, k.end_mm + new - length, k.clear_mm, k.what, k.sleeve_mm)
            if k.end_mm >= length
            else k
            for k in keeps
        ]

    wanted = round(found.wants_mm)
    assert wanted == pytest.approx(found.wants_mm)
    assert wanted > length
    assert by_search(wanted, at_length(wanted), sleeves, apart)
    assert not by_search(wanted - 2, at_length(wanted - 2), sleeves, apart)


def test_the_rule_of_thumb_of_the_repair_manuals() -> None:
    # n splices need about 40 + n x 50 + 40 mm; exactly, one gap fewer: 40 + (n - 1) x 50 + 40
    ends = [Keep(0, 0, 40), Keep(200, 200, 40)]
    assert spread(200, ends, [40] * 3, 50).places_mm == (40, 90, 140)
    assert spread(200, ends, [40] * 4, 50).places_mm is None
    assert spread(200, ends, [40] * 4, 50).wants_mm == 40 + 3 * 50 + 40
    assert spread(200, ends, [40] * 4, 40).places_mm == (40, 80, 120, 160)  # the least instead of the preferred


def test_long_sleeves_keep_joints_further_apart_than_the_stagger() -> None:
    assert spread(400, [], [80, 80, 40], 50).places_mm == (0, 80, 140)


def test_joints_stay_near_where_they_are_when_they_may() -> None:
    ends = [Keep(0, 0, 40), Keep(400, 400, 40)]
    assert spread(400, ends, [40, 40], 50, (210, 300)).places_mm == (210, 300)
    assert spread(400, ends, [40, 40], 50, (350, 355)).places_mm == (310, 360)  # the first yields, so that both go
    flexing = Keep(100, 200, 0)  # no part of a sleeve of 40 mm in it
    assert spread(400, [flexing], [40], 50, (130,)).places_mm == (80,)
    assert spread(400, [flexing], [40], 50, (160,)).places_mm == (220,)
    with pytest.raises(ValueError, match="2 joints, but 1"):
        spread(400, [], [40, 40], 50, (10,))


def test_a_stretch_that_flexes_all_along_has_no_place_at_any_length() -> None:
    found = spread(300, [Keep(0, 300, 0)], [40], 50)
    assert (found.places_mm, found.wants_mm) == (None, None)


def test_which_joints_break_a_limit() -> None:
    ends = [Keep(0, 0, 40), Keep(300, 300, 40)]
    assert broken([45, 80, 200], ends, [40, 40, 40], 40) == {0, 1}
    assert broken([200, 20, 100], ends, [40, 40, 40], 40) == {1}
    assert broken([40, 80, 260], ends, [40, 40, 40], 40) == set()

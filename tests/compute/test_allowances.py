"""What joins and closes a circuit is counted with, against a data sheet typed here and arithmetic by hand."""

import statistics

import pytest

from aswired.physics.allowances import BLADE_FUSE_MOHM, BLADE_FUSE_WARM, BY_KEY, ESTIMATE, TABLE, fuse_allowance

# One maker's standard blade fuses: rating [A] -> cold [mohm], drop at the rating [mV]. 1, 2, 4 and 10 A are read from a
# copy that quotes the data sheet, the others are from memory of the same sheet.
DATA_SHEET = {
    1: (123.0, 176), 2: (53.5, 141), 3: (31.1, 137), 4: (22.8, 136), 5: (17.85, 128), 7.5: (10.91, 116),
    10: (7.7, 109), 15: (4.8, 102), 20: (3.38, 98), 25: (2.52, 92), 30: (1.97, 84), 35: (1.61, 87), 40: (1.44, 96),
}  # fmt: skip
SEEN = {1, 2, 4, 10}


@pytest.mark.parametrize(
    ("key", "mohm", "low", "high"),
    [
        ("joint", 1.0, 0.2, 2.0),
        ("cavity", 4.0, 3.0, 5.0),
        ("ring", 1.5, 1.0, 2.0),
        ("switch", 20.0, 10.0, 30.0),
        ("contact", 7.5, 5.0, 10.0),
    ],
)
def test_what_nobody_has_a_source_for_says_that_it_is_an_estimate(
    key: str, mohm: float, low: float, high: float
) -> None:
    line = BY_KEY[key]
    assert (line.mohm, line.low_mohm, line.high_mohm) == (mohm, low, high)
    assert (line.source, line.mark) == ("", ESTIMATE)
    assert len(TABLE) == len(BY_KEY) == 5


@pytest.mark.parametrize("rating_a", DATA_SHEET)
def test_a_blade_fuse_has_what_the_data_sheet_gives_cold_and_its_band_holds_it_warm(rating_a: float) -> None:
    cold_mohm, drop_mv = DATA_SHEET[rating_a]
    found = fuse_allowance(rating_a)
    assert found is not None
    assert found.mohm == cold_mohm
    assert found.low_mohm == pytest.approx(0.8 * cold_mohm)  # other makers differ by up to a fifth
    assert found.low_mohm < cold_mohm < drop_mv / rating_a < found.high_mohm
    assert (found.mark == "read") is (rating_a in SEEN)
    assert "data sheet" in found.source
    assert set(BLADE_FUSE_MOHM) == set(DATA_SHEET)


def test_a_warm_fuse_has_the_median_of_the_data_sheet_over_its_cold_one() -> None:
    warm = [drop_mv / rating_a / cold_mohm for rating_a, (cold_mohm, drop_mv) in DATA_SHEET.items()]
    assert statistics.median(warm) == pytest.approx(BLADE_FUSE_WARM, abs=0.005)
    ten = fuse_allowance(10)
    assert ten is not None
    assert ten.high_mohm == pytest.approx(7.7 * 1.43 * 1.2)


@pytest.mark.parametrize(
    ("rating_a", "by_hand_mohm", "row"),
    [
        (12, 77 / 12, "read"),  # the 10 A loses 10 x 7.7 = 77 mV at its rating
        (60, 57.6 / 60, "from memory, not sure"),  # the 40 A 40 x 1.44 = 57.6 mV
        (80, 57.6 / 80, "from memory, not sure"),
        (0.5, 123 / 0.5, "read"),  # the 1 A 123 mV
    ],
)
def test_a_rating_that_is_not_in_the_sheet_loses_as_much_as_the_next_below(
    rating_a: float, by_hand_mohm: float, row: str
) -> None:
    found = fuse_allowance(rating_a)
    assert found is not None
    assert found.mohm == pytest.approx(by_hand_mohm)
    assert found.mark == f"computed, its row {row}"


def test_a_fuse_of_unknown_rating_has_no_allowance() -> None:
    assert fuse_allowance(None) is None

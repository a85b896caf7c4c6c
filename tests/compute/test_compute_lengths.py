"""The length rules L1 to L11: worked lengths by hand, identities by hypothesis."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aswired.physics import lengths

IN_MM = 25.4  # exact
measure = st.integers(0, 40_000).map(lambda quarter: quarter / 4)  # [mm] quarters: sums are exact
overlap = st.integers(0, 160).map(lambda quarter: quarter / 4)
any_sign = st.integers(-4000, 40_000).map(lambda quarter: quarter / 4)


def known(value_mm: float | None) -> float:
    assert value_mm is not None
    return value_mm


def test_l3_worked_extension_18_in() -> None:
    # 18 in gap, 50 slack, laps of 10 and 10: 457.2 + 50 + 10 + 10 = 527.2, cut 530 to the next 5
    exact = known(lengths.extension_piece(18 * IN_MM, 50, 10, 10))
    assert exact == pytest.approx(527.2, abs=1e-9)
    cut = lengths.round_up(exact, 50, 5)
    assert cut.cut_mm == 530
    assert cut.slack_mm == pytest.approx(52.8, abs=1e-9)


def test_l4_worked_ground_lead_23_in() -> None:
    # 23 in gap, 50 slack, one lap of 10, 6 into the ring: 584.2 + 50 + 10 + 6 = 650.2, cut 655 to the next 5
    exact = known(lengths.terminated_piece(23 * IN_MM, 50, 10, 6))
    assert exact == pytest.approx(650.2, abs=1e-9)
    cut = lengths.round_up(exact, 50, 5)
    assert cut.cut_mm == 655
    assert cut.slack_mm == pytest.approx(54.8, abs=1e-9)


def test_l4_new_wire_has_a_strip_at_each_end() -> None:
    assert lengths.new_wire(900, 50, 6, 4) == 960


@pytest.mark.parametrize(
    ("method", "take_up_mm"), [("lap", 10), ("butt", 0), ("lineman", 10), ("closed-end", 20), ("clip", 10), ("tap", 10)]
)
def test_l2_take_up_of_each_method_at_10_mm_overlap(method: str, take_up_mm: float) -> None:
    assert lengths.take_up(method, 10) == take_up_mm


def test_l2_the_through_wire_of_a_tap_loses_nothing() -> None:
    assert lengths.take_up("tap", None, through_wire=True) == 0
    with pytest.raises(ValueError, match="a lap joint has no through wire"):
        lengths.take_up("lap", 10, through_wire=True)


def test_l2_overlap_not_recorded_gives_no_take_up_except_for_a_butt() -> None:
    assert [lengths.take_up(method, None) for method in lengths.JOINT_METHODS] == [None, 0, None, None, None, None]


def test_l2_a_method_not_known_or_a_negative_overlap_is_refused() -> None:
    with pytest.raises(ValueError, match="joint 'glue' is not known; known: lap, butt, lineman, closed-end, clip, tap"):
        lengths.take_up("glue", 10)
    with pytest.raises(ValueError, match="overlap_mm must not be below zero, got -1"):
        lengths.take_up("lap", -1)


def test_l1_l8_gap_from_what_was_measured() -> None:
    assert lengths.gap(gap_mm=450) == lengths.Gap(450, "gap", None)
    assert lengths.gap(reach_mm=1200, tail_mm=600, pigtail_mm=150) == lengths.Gap(450, "reach", None)
    assert lengths.gap(route_mm=1190, tail_mm=600, pigtail_mm=150) == lengths.Gap(440, "route", None)
    overlapping = lengths.gap(reach_mm=700, tail_mm=600, pigtail_mm=150)
    assert overlapping == lengths.Gap(-50, "reach", None)


def test_l8_two_statements_are_compared_and_the_gap_wins() -> None:
    agreeing = lengths.gap(gap_mm=450, reach_mm=1220, tail_mm=600, pigtail_mm=150)
    assert agreeing == lengths.Gap(450, "gap", 20)
    apart = lengths.gap(gap_mm=450, reach_mm=1221, tail_mm=600, pigtail_mm=150)
    assert apart == lengths.Gap(450, "gap", 21)
    three = lengths.gap(gap_mm=450, reach_mm=1215, route_mm=1185, tail_mm=600, pigtail_mm=150)
    assert three == lengths.Gap(450, "gap", 30)  # 465 by reach, 435 by route


@pytest.mark.parametrize("missing", ["reach_mm", "tail_mm", "pigtail_mm"])
def test_l8_an_incomplete_statement_gives_no_gap(missing: str) -> None:
    stated: dict[str, float | None] = {"reach_mm": 1200, "tail_mm": 600, "pigtail_mm": 150}
    stated[missing] = None
    assert lengths.gap(**stated) is None


def test_what_is_not_recorded_is_never_taken_as_zero() -> None:
    assert lengths.extension_piece(None, 50, 10, 10) is None
    assert lengths.extension_piece(450, None, 10, 10) is None
    assert lengths.extension_piece(450, 50, None, 10) is None
    assert lengths.extension_piece(450, 50, 10, None) is None
    assert lengths.terminated_piece(450, 50, 10, None) is None
    assert lengths.new_wire(None, 50, 6, 6) is None
    assert lengths.shorten_take_out(None, 800, 50, 10) is None
    assert lengths.shorten_take_out_of_overlap(-90, None, 10) is None
    assert lengths.gain(530, 10, 10, None) is None
    assert lengths.middle_out(1000, 400, None) is None
    assert lengths.staggered_pigtail(150, None, 1) is None
    assert lengths.joint_centres(None, 150, None, 10, 10) == lengths.JointCentres(145, None, None)


def test_l5_m11_joint_centres() -> None:
    # pigtail 6 in = 152.4, tail 600, piece 530, laps of 10: half a lap inside each cut face
    centres = lengths.joint_centres(600, 152.4, 530, 10, 10)
    assert centres.from_plug_mm == pytest.approx(147.4)
    assert (centres.from_fixed_mm, centres.apart_mm) == (595, 520)


def test_m11_one_joint_row_tells_the_joint_from_the_kept_end() -> None:
    assert lengths.joint_centres(300, None, 650, 10, None) == lengths.JointCentres(None, 295, None)


def test_l6_shorten_with_a_lap_and_with_a_new_terminal() -> None:
    assert lengths.shorten_take_out(1000, 800, 50, 10) == 140  # lap of 10
    assert lengths.shorten_take_out(1000, 800, 50, 6) == 144  # 6 into the new terminal
    assert lengths.shorten_take_out(850, 800, 50, 10) == -10  # cannot be lapped: 10 too short
    assert lengths.shorten_take_out_of_overlap(-200, 50, 10) == 140  # L unknown, halves overlap by 200


def test_l7_m2_gain() -> None:
    # "9 ft added" with laps of 10 and 10 is 20 less; 100 taken out of the middle is 100 less again
    assert lengths.gain(9 * 12 * IN_MM, 10, 10) == pytest.approx(2723.2)
    assert lengths.middle_out(1000, 600, 300) == 100
    assert lengths.gain(530, 10, 10, lengths.middle_out(1000, 600, 300)) == 410
    assert lengths.middle_out(1000, 700, 300) == 0
    assert lengths.middle_out(1000, 800, 300) == -100  # the three measures contradict each other


@pytest.mark.parametrize(
    ("exact_mm", "step_mm", "cut_mm"),
    [(530, 5, 530), (530.0000000001, 5, 530), (530.001, 5, 535), (0, 5, 0), (527.2, 25.4, 533.4), (527.2, None, 527.2)],
)
def test_l9_cut_to_the_next_step(exact_mm: float, step_mm: float | None, cut_mm: float) -> None:
    cut = lengths.round_up(exact_mm, 50, step_mm)
    assert cut.cut_mm == pytest.approx(cut_mm, abs=1e-9)
    assert cut.slack_mm == pytest.approx(50 + cut_mm - exact_mm, abs=1e-6)


def test_l9_a_step_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="step_mm must be above zero, got 0"):
        lengths.round_up(527.2, 50, 0)


def test_m4_a_recorded_cut_shows_what_slack_is_left() -> None:
    assert lengths.recorded_cut(540, 520, 50) == lengths.CutLength(540, 70)
    assert lengths.recorded_cut(450, 520, 50) == lengths.CutLength(450, -20)  # 20 too short


def test_l10_stagger() -> None:
    assert [lengths.staggered_pigtail(150, 50, index) for index in range(4)] == [150, 200, 250, 300]
    assert lengths.staggered_pigtail(150, None, 0) == 150  # the first wire needs no stagger
    with pytest.raises(ValueError, match="index must not be below zero, got -1"):
        lengths.staggered_pigtail(150, 50, -1)


# L11 -- identities


@given(measure, overlap, measure, overlap, measure, measure)
def test_l11_swapping_the_ends_leaves_the_piece(
    tail: float, take_up_1: float, pigtail: float, take_up_2: float, reach: float, slack: float
) -> None:
    one = lengths.gap(reach_mm=reach, tail_mm=tail, pigtail_mm=pigtail)
    other = lengths.gap(reach_mm=reach, tail_mm=pigtail, pigtail_mm=tail)
    assert one is not None
    assert other is not None
    assert lengths.extension_piece(one.gap_mm, slack, take_up_1, take_up_2) == lengths.extension_piece(
        other.gap_mm, slack, take_up_2, take_up_1
    )
    here = lengths.joint_centres(tail, pigtail, 500, take_up_1, take_up_2)
    there = lengths.joint_centres(pigtail, tail, 500, take_up_2, take_up_1)
    assert (here.from_plug_mm, here.from_fixed_mm, here.apart_mm) == (
        there.from_fixed_mm,
        there.from_plug_mm,
        there.apart_mm,
    )


@given(measure, measure, measure)
def test_l11_without_take_up_and_slack_the_parts_make_the_reach(tail: float, pigtail: float, reach: float) -> None:
    measured = lengths.gap(reach_mm=reach, tail_mm=tail, pigtail_mm=pigtail)
    assert measured is not None
    assert tail + known(lengths.extension_piece(measured.gap_mm, 0, 0, 0)) + pigtail == reach


@given(measure, measure, overlap, overlap, overlap)
def test_l11_extend_then_shorten_by_the_gain_less_a_lap_gives_the_wire_back(
    length: float, piece: float, take_up_1: float, take_up_2: float, lap: float
) -> None:
    gained = known(lengths.gain(piece, take_up_1, take_up_2))
    taken_out = known(lengths.shorten_take_out(length + gained, length, 0, lap))
    assert taken_out == gained - lap
    assert length + gained - taken_out - lap == length  # the shortening's own lap takes the rest


@given(any_sign, measure, overlap, overlap)
def test_l11_a_strip_counts_like_the_second_take_up(gap: float, slack: float, take_up: float, strip: float) -> None:
    assert lengths.extension_piece(gap, slack, take_up, strip) == lengths.terminated_piece(gap, slack, take_up, strip)


@given(measure, measure, measure, overlap, overlap, measure)
def test_l5_both_ways_to_the_fixed_side_joint_meet(
    tail: float, pigtail: float, reach: float, take_up_1: float, take_up_2: float, slack: float
) -> None:
    # from the plug: pigtail + gap + slack + o1/2; from the fixed end: tail - o1/2; together reach + slack
    measured = lengths.gap(reach_mm=reach, tail_mm=tail, pigtail_mm=pigtail)
    assert measured is not None
    piece = lengths.extension_piece(measured.gap_mm, slack, take_up_1, take_up_2)
    centres = lengths.joint_centres(tail, pigtail, piece, take_up_1, take_up_2)
    from_plug = known(centres.from_plug_mm) + known(centres.apart_mm)
    assert from_plug == pigtail + measured.gap_mm + slack + take_up_1 / 2
    assert from_plug + known(centres.from_fixed_mm) == reach + slack


@given(st.floats(0, 20_000), st.floats(0, 500), st.sampled_from([1.0, 5.0, 10.0, 25.4]))
def test_l9_rounding_adds_less_than_a_step_and_all_of_it_is_slack(exact: float, slack: float, step: float) -> None:
    cut = lengths.round_up(exact, slack, step)
    added = cut.cut_mm - exact
    assert -1e-6 <= added < step
    assert cut.slack_mm - slack == pytest.approx(added, abs=1e-6)
    assert cut.cut_mm / step == pytest.approx(round(cut.cut_mm / step), abs=1e-9)

"""What is told of a fuse and of a ground point, word by word: of several wires, loads and points those meant."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import copper_alone, figure, proved, work

from aswired.figures.fuses import FuseSummary
from aswired.figures.grounds import GroundSummary
from aswired.figures.worked import JobResult
from aswired.physics.figure import Figure

# ISO 6722-1 (from memory, as in the product's own table): 10 mm2 has 1.82 mohm/m. The three points are a chain, and
# their cables 1, 2 and 3 m: 1.82, 3.64 and 5.46 mohm. The lamp's 2 A pass all of them, the pump's 4 A the last two, the
# horn's 5 A and the starter's 100 A the last. Planning ratings of the project: 0.75 mm2 7.5 A, 1.5 mm2 15 A, 4.0 mm2
# 30 A.
SEVERAL = copper_alone(
    proved("""
    job: Fuses and points
    supply: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 15 A, fed: always}, F2: {rating: 5 A, fed: always}, F3: {rating: 40 A, fed: always}}
    splices: {FS1: {}, FS2: {}}
    grounds:
      L0: {back to: L1, cable: 10 mm2, cable length: 1 m}
      L1: {back to: L2, cable: 10 mm2, cable length: 2 m}
      L2: {back to: battery-, cable: 10 mm2, cable length: 3 m}
      L3: {back to: battery-, cable: 10 mm2, cable length: 1 m}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: FS1, length: 1 m}
      W2: {size: 18 AWG, from: FS1, to: lamp.1, length: 1 m}
      W3: {size: 1.5 mm2, from: FS1, to: pump.1, length: 1 m}
      W4: {size: unknown, from: FS1, to: horn.1, length: 1 m}
      W5: {size: 0.5 mm2, from: FS1, to: spare.1, length: 1 m, conductor: aluminium}
      W6: {size: 1.0 mm2, from: lamp.2, to: L0, length: 1 m}
      W7: {size: 1.0 mm2, from: pump.2, to: L1, length: 1 m}
      W8: {size: 1.0 mm2, from: horn.2, to: L2, length: 1 m}
      W9: {size: 4.0 mm2, from: F3, to: crank.1, length: 1 m}
      W10: {size: 4.0 mm2, from: crank.2, to: L2, length: 1 m}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 2 A, class: lamp, duty: continuous}
      pump: {between: pump.1 pump.2, draws: 48 W at 12 V, class: pump, duty: unknown}
      horn: {between: horn.1 horn.2, draws: 5 A, class: horn, duty: intermittent}
      crank: {between: crank.1 crank.2, draws: 100 A, class: starter}
""")
)


def several(folder: Path, *changed: tuple[str, str]) -> JobResult:
    text = SEVERAL
    for old, new in changed:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return work(folder / "job", text)


def fuse(worked: JobResult, name: str) -> FuseSummary:
    (found,) = [found for found in worked.fuses if found.name == name]
    return found


def point(worked: JobResult, name: str) -> GroundSummary:
    (found,) = [found for found in worked.grounds if found.name == name]
    return found


def inputs(found: Figure) -> list[tuple[str, object, str, str]]:
    return [(given.name, given.value, given.unit, given.source) for given in found.inputs]


def words(found: Figure) -> tuple[str, str, str, str, tuple[str, ...], str]:
    return found.name, found.unit, found.rule, found.formula, found.missing_words, found.note


# ---- fuses ----------------------------------------------------------------------------------------------------------
def test_what_is_told_of_the_wire_that_a_fuse_is_held_to(tmp_path: Path) -> None:
    rating = figure(several(tmp_path), "F1.rating")
    assert rating.value == 7.5
    assert words(rating) == (
        "planning rating of the thinnest wire behind F1", "A", "planning table", "rating of the next smaller row", (),
        "planning value, estimate set conservatively between published shop figures; 0.76 mm² counts as the 0.75 mm² "
        "row; size not read: W4; not judged: W5: its conductor is aluminium, and only copper is "
        "computed",
    )  # fmt: skip
    # the SAE least copper of 18 AWG (from memory)
    assert inputs(rating) == [
        ("thinnest wire", "W2 from FS1 to lamp.1", "", "recorded sizes of what it feeds"),
        ("its copper", 0.76, "mm2", "18 AWG"),
        ("row of the planning table", 0.75, "mm2", "planning table"),
    ]
    # the aluminium wire alone: not one word of a size that nobody wrote
    alone = several(
        tmp_path / "alone",
        ("W1: {size: 2.5 mm2, from: F1, to: FS1", "W1: {size: 2.5 mm2, from: F2, to: FS1"),
        ("W5: {size: 0.5 mm2, from: FS1", "W5: {size: 0.5 mm2, from: F1"),
    )
    rating = figure(alone, "F1.rating")
    assert (rating.value, rating.missing_words) == (
        None,
        ("W5: its conductor is aluminium, and only copper is computed",),
    )
    assert inputs(rating)[:2] == [
        ("thinnest wire", None, "", "recorded sizes of what it feeds"),
        ("its copper", None, "mm2", "not recorded"),
    ]
    assert "size not read" not in rating.note
    # and a fuse behind which nothing is read
    rating = figure(several(tmp_path / "bare"), "F2.rating")
    assert (rating.value, rating.missing_words) == (None, ("size of a wire it protects",))


def test_what_is_told_of_the_current_through_a_fuse(tmp_path: Path) -> None:
    worked = several(tmp_path)
    total = figure(worked, "F1.total")
    assert total.value == pytest.approx(2 + 4 + 5)
    assert words(total) == (
        "current through F1, every load on it on together", "A", "sum of the loads", "I = sum of I", (), "",
    )  # fmt: skip
    assert inputs(total) == [
        ("lamp", 2.0, "A", "draws: 2 A"),
        ("pump", pytest.approx(4.0), "A", "draws: 48 W at 12 V"),
        ("horn", 5.0, "A", "draws: 5 A"),
    ]
    assert fuse(worked, "F1").loads == ("lamp", "pump", "horn")
    # one that is never on with the others is told by itself where nothing else is
    assert figure(worked, "F3.total").value == 100
    nothing = figure(worked, "F2.total")
    assert (nothing.value, nothing.missing_words, nothing.inputs) == (None, ("a load of this list on F2",), ())
    unread = figure(several(tmp_path / "u", ("draws: 48 W at 12 V", "draws: unknown")), "F1.total")
    assert (unread.value, unread.missing_words) == (None, ("current of pump",))
    unsaid = figure(several(tmp_path / "n", ("draws: 48 W at 12 V, ", "")), "F1.total")
    assert (unsaid.value, unsaid.missing_words) == (None, ("current of pump",))
    assert inputs(unsaid)[1] == ("pump", None, "A", "not recorded")


def test_what_is_told_of_the_share_that_stays_on(tmp_path: Path) -> None:
    share = figure(several(tmp_path), "F1.share")
    assert share.value is None
    assert words(share) == (
        "share of F1 that loads take which stay on", "%", "continuous loads against the rating",
        "share = sum of I / rating", ("duty of pump",),
        "80 % is allowed. Recorded to stay on: 2.0 A, 13 %.",  # 2 of 15 A
    )  # fmt: skip
    assert inputs(share) == [
        ("rating of the fuse", 15.0, "A", "as moulded on it"),
        ("lamp", 2.0, "A", "duty: continuous"),
        ("pump", pytest.approx(4.0), "A", "how long it is on is not recorded"),
    ]
    # both stay on: 6 of 15 A; the horn does not
    both = figure(several(tmp_path / "both", ("duty: unknown", "duty: continuous")), "F1.share")
    assert (both.value, both.missing_words, both.note) == (pytest.approx(40), (), "80 % is allowed.")
    # of two that stay on the current of one is not recorded
    one = figure(several(tmp_path / "one", ("48 W at 12 V, class: pump, duty: unknown",
                                            "unknown, class: pump, duty: continuous")), "F1.share")  # fmt: skip
    assert (one.value, one.missing_words) == (None, ("current of pump",))
    assert one.note == "80 % is allowed. Recorded to stay on: 2.0 A, 13 %."
    # without a rating there is no share of it
    bare = figure(several(tmp_path / "bare", ("F1: {rating: 15 A", "F1: {rating: unknown")), "F1.share")
    assert (bare.value, bare.missing_words, bare.note) == (None, ("rating of F1", "duty of pump"), "80 % is allowed.")
    assert inputs(bare)[0] == ("rating of the fuse", None, "A", "not recorded")
    empty = figure(several(tmp_path / "empty"), "F2.share")
    assert (empty.value, empty.missing_words) == (None, ("a load of this list on F2",))


def test_what_mends_a_fuse_of_several_loads_and_wires(tmp_path: Path) -> None:
    mend = fuse(several(tmp_path), "F1").mend
    # all three are 11 A, and the two that may stay on want 6 / 0.8 = 7.5 A; the wire of 7.5 A bears no fuse of 11 A.
    # The row of 15 A is 1.5 mm2: 16 AWG has 1.12 mm2 of copper, 14 AWG 1.85 (SAE, from memory). W3 suits it.
    assert mend is not None
    assert (mend.fuse_a, mend.needed_a, mend.load_a, mend.area_mm2, mend.gauge) == (None, 11.0, 11.0, 1.5, 14)
    assert [stretch.wire for stretch in mend.wires] == ["W2"]
    # nor is a wire told to be replaced that is thicker than the table goes
    thick = fuse(several(tmp_path / "t", ("W1: {size: 2.5 mm2", "W1: {size: 10 mm2")), "F1").mend
    assert thick is not None
    assert [stretch.wire for stretch in thick.wires] == ["W2"]
    # 15 A of the wire of 1.5 mm2 that is then the thinnest suit the fuse
    assert fuse(several(tmp_path / "m", ("size: 18 AWG", "size: 1.5 mm2")), "F1").mend is None
    # with the horn off that fuse 7.5 A bear what is left, exactly its share
    less = fuse(several(tmp_path / "less", ("draws: 5 A", "draws: 0 A")), "F1").mend
    assert less is not None
    assert (less.fuse_a, less.needed_a, less.load_a) == (7.5, pytest.approx(7.5), pytest.approx(6.0))
    # a load of unknown current counts nothing in what is needed, and leaves the load unknown
    unread = fuse(several(tmp_path / "u", ("draws: 5 A", "draws: unknown")), "F1").mend
    assert unread is not None
    assert (unread.fuse_a, unread.needed_a, unread.load_a) == (7.5, pytest.approx(7.5), None)
    # the starter's 100 A count as staying on: 125 A; the row of 40 A is 6 mm2, 8 AWG the next even gauge of that
    crank = fuse(several(tmp_path / "c"), "F3").mend
    assert crank is not None
    assert (crank.needed_a, crank.load_a, crank.area_mm2, crank.gauge) == (125.0, 100.0, 6.0, 8)
    assert [stretch.wire for stretch in crank.wires] == ["W9"]


@pytest.mark.parametrize(
    ("ways", "source", "length"),
    [
        # of two ways the longer; of a way that was not measured nobody knows how long it is
        (("B1: 300 mm", "battery+: 500 mm"), "battery+", 500),
        (("B1: 500 mm", "battery+: 300 mm"), "B1", 500),
        (("B1: unknown", "battery+: 500 mm"), "B1", None),
        (("B1: 500 mm", "battery+: unknown"), "battery+", None),
    ],
)
def test_of_two_ways_to_a_fuse_the_longer_has_no_fuse_in_it(
    ways: tuple[str, str], source: str, length: float | None, tmp_path: Path
) -> None:
    wires = "".join(
        f"      W2{number}: {{size: 4 mm2, from: {way.partition(': ')[0]}, to: F2.feed, "
        f"length: {way.partition(': ')[2]}}}\n"
        for number, way in enumerate(ways)
    )
    worked = several(
        tmp_path,
        ("F2: {rating: 5 A, fed: always}", "F2: {rating: 5 A}"),
        ("FS2: {}", "B1: {bus: yes}"),
        ("    loads:\n", f"{wires}    loads:\n"),
    )
    found = figure(worked, "F2.unprotected")
    number = 0 if source == "B1" else 1
    name = f"W2{number} from {' to '.join(sorted((source, 'F2.feed')))}"
    assert found.value == length
    assert words(found) == (
        f"wire with no fuse between {source} and F2", "mm", "sum of the whole lengths", "L = sum of L",
        () if length else (f"length of {name}",), "",
    )  # fmt: skip
    assert inputs(found) == [(name, length, "mm", "whole length, with what sits in terminals")]


def test_a_way_of_which_a_part_was_measured_is_at_least_that_long(tmp_path: Path) -> None:
    wires = (
        "      W20: {size: 4 mm2, from: battery+, to: FS2, length: 300 mm}\n"
        "      W21: {size: 4 mm2, from: FS2, to: FS3}\n"
        "      W22: {size: 4 mm2, from: FS3, to: F2.feed, length: 120 mm}\n"
    )
    worked = several(
        tmp_path,
        ("F2: {rating: 5 A, fed: always}", "F2: {rating: 5 A}"),
        ("FS2: {}", "FS2: {}, FS3: {}"),
        ("    loads:\n", f"{wires}    loads:\n"),
    )
    found = figure(worked, "F2.unprotected")
    assert (found.value, found.missing_words, found.note) == (
        None,
        ("length of W21 from FS2 to FS3",),
        "at least 420 mm",
    )
    assert {name: given for name, given, *_ in inputs(found)} == {
        "W20 from FS2 to battery+": 300.0,
        "W21 from FS2 to FS3": None,
        "W22 from F2.feed to FS3": 120.0,
    }


def test_a_way_to_a_fuse_leads_through_no_other_fuse_and_through_no_ground(tmp_path: Path) -> None:
    wires = (
        "      W20: {size: 4 mm2, from: battery+, to: F3.feed, length: 300 mm}\n"
        "      W21: {size: 4 mm2, from: F3, to: F2.feed, length: 120 mm}\n"
        "      W22: {size: 4 mm2, from: F2.feed, to: L3, length: 120 mm}\n"
        "      W23: {size: 4 mm2, from: L3, to: battery+, length: 120 mm}\n"
    )
    worked = several(
        tmp_path,
        ("F2: {rating: 5 A, fed: always}", "F2: {rating: 5 A}"),
        ("F3: {rating: 40 A, fed: always}", "F3: {rating: 40 A}"),
        ("    loads:\n", f"{wires}    loads:\n"),
    )
    assert fuse(worked, "F2").unprotected is None
    assert (fuse(worked, "F2").feeders, fuse(worked, "F3").feeders) == (("F3",), ())
    assert figure(worked, "F3.unprotected").value == 300


# ---- cut ends behind a fuse -----------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("splice", "fates", "ends"),
    [
        ("all members known: yes", ("capped 40 mm", "capped 40 mm"), ("C1-W1-FS1", "C1-W2-FS1")),
        ("all members known: no", ("capped 40 mm", "capped 40 mm"), None),  # other wires may come to the splice
        ("all members known: yes", ("capped 40 mm", "unknown"), None),  # what became of one nobody wrote
        ("all members known: yes", ("unknown", "capped 40 mm"), None),
    ],
)
def test_a_fuse_whose_wires_are_all_cut_feeds_nothing_but_cut_ends(
    splice: str, fates: tuple[str, str], ends: tuple[str, ...] | None, tmp_path: Path
) -> None:
    first, second = fates
    worked = work(
        tmp_path,
        f"""
    job: Cut ends
    fuses: {{F1: {{rating: 10 A}}, F2: {{rating: 10 A}}}}
    splices: {{FS1: {{{splice}}}}}
    wires:
      W1: {{size: 1.0 mm2, from: FS1, to: lamp.1, length: 1 m}}
      W2: {{size: 1.0 mm2, from: FS1, to: horn.1, length: 1 m}}
      W3: {{size: 1.0 mm2, from: F1, to: FS1, length: 1 m}}
      W4: {{size: 1.0 mm2, from: F2, to: fan.1, length: 1 m}}
    changes:
      - {{id: C1, kind: remove, wires: {{W1: {{FS1: {first}, lamp.1: gone}}, W2: {{FS1: {second}, horn.1: gone}}}},
         made: 2031-05-03 AK}}
    """,
    )
    assert fuse(worked, "F1").dead_ends == ends
    assert fuse(worked, "F2").dead_ends is None  # it feeds a plug


# ---- ground points --------------------------------------------------------------------------------------------------
def test_what_is_told_of_the_current_and_the_rise_of_a_point(tmp_path: Path) -> None:
    worked = several(tmp_path)
    assert {one.name: (one.loads, one.behind, one.back_to, one.lands, one.state, one.ring_limit)
            for one in worked.grounds} == {
        "L0": (("lamp",), (), "L1", ("W6",), "in use", 4),
        "L1": (("lamp", "pump"), ("L0",), "L2", ("W7",), "in use", 4),
        "L2": (("lamp", "pump", "horn", "crank"), ("L0", "L1"), "battery-", ("W8", "W10"), "in use", 4),
        "L3": ((), (), "battery-", (), "unused", 4),
    }  # fmt: skip
    assert [tuple(ring.wires) for ring in point(worked, "L2").rings] == [("W8",), ("W10",)]
    # the starter is never on with the others
    assert [figure(worked, f"L{n}.total").value for n in range(3)] == pytest.approx([2, 6, 11])
    rise = figure(worked, "L1.rise")
    assert rise.value == pytest.approx(6 * 0.00364 + 11 * 0.00546)
    assert words(rise) == (
        "rise of L1 above battery negative, all on that can be on together", "V",
        "cables in series, each with its sum", "U = sum of R x I", (), "",
    )  # fmt: skip
    cables = [(name, given, unit, source.partition("; carries ")[2]) for name, given, unit, source in inputs(rise)
              if name.startswith("cable L") ]  # fmt: skip
    assert cables == [
        ("cable L1 to L2", pytest.approx(3.64), "mohm", "6.00 A"),
        ("cable L2 to battery-", pytest.approx(5.46), "mohm", "11.00 A"),
    ]
    assert figure(worked, "L0.rise").value == pytest.approx(2 * 0.00182 + 6 * 0.00364 + 11 * 0.00546)
    nothing = figure(worked, "L3.rise")
    assert (nothing.value, nothing.missing_words) == (None, ("a load of this list on L3",))


def test_on_a_point_of_its_own_a_starter_is_on_and_nothing_else(tmp_path: Path) -> None:
    worked = several(tmp_path, ("from: crank.2, to: L2", "from: crank.2, to: L3"))
    assert figure(worked, "L3.total").value == 100
    rise = figure(worked, "L3.rise")
    assert rise.value == pytest.approx(100 * 0.00182)
    assert inputs(rise)[0][3].endswith("carries 100.00 A")
    assert figure(worked, "L2.total").value == pytest.approx(11)
    # on a point behind which it shares a way home its current passes that way, and no other's
    shared = several(
        tmp_path / "shared",
        ("from: crank.2, to: L2", "from: crank.2, to: L3"),
        ("L3: {back to: battery-", "L3: {back to: L2"),
    )
    assert figure(shared, "L3.rise").value == pytest.approx(100 * (0.00182 + 0.00546))
    assert figure(shared, "L2.rise").value == pytest.approx(11 * 0.00546)


def test_a_current_that_is_not_recorded_leaves_every_point_on_its_way_without_a_rise(tmp_path: Path) -> None:
    worked = several(tmp_path, ("draws: 48 W at 12 V", "draws: unknown"))
    totals = [figure(worked, f"L{n}.total") for n in range(3)]
    assert {n: (total.value, total.missing_words) for n, total in enumerate(totals)} == {
        0: (2, ()), 1: (None, ("current of pump",)), 2: (None, ("current of pump",)),
    }  # fmt: skip
    for n in range(3):
        rise = figure(worked, f"L{n}.rise")
        assert (rise.value, rise.missing_words) == (None, ("current of pump",)), n
    carried = {name: source.partition("; carries ")[2] for name, _, _, source in inputs(figure(worked, "L0.rise"))}
    assert carried["cable L0 to L1"] == "2.00 A"
    assert "current not determined" in inputs(figure(worked, "L1.rise"))[0][3]


def test_a_cable_without_a_length_is_named_in_the_rise_of_every_point_before_it(tmp_path: Path) -> None:
    worked = several(tmp_path, ("back to: L2, cable: 10 mm2, cable length: 2 m", "back to: L2, cable: 10 mm2"))
    missing = {n: figure(worked, f"L{n}.rise").missing_words for n in range(3)}
    assert missing[0] == missing[1] != ()
    assert missing[2] == ()
    assert figure(worked, "L2.rise").value == pytest.approx(11 * 0.00546)


def test_points_that_lead_round_in_a_circle_have_no_rise_and_say_which(tmp_path: Path) -> None:
    worked = several(tmp_path, ("L2: {back to: battery-", "L2: {back to: L0"))
    for name in ("L0", "L1", "L2"):
        rise = figure(worked, f"{name}.rise")
        assert rise.value is None
        (circle,) = [said for said in rise.missing_words if said.startswith("a way to battery negative: ")]
        assert all(one in circle for one in ("L0", "L1", "L2"))
    assert figure(worked, "L3.rise").missing_words == ("a load of this list on L3",)
    assert point(worked, "L1").behind == ("L0", "L2")


def test_the_points_behind_a_point_whose_way_is_not_recorded_name_it(tmp_path: Path) -> None:
    worked = several(tmp_path, ("L2: {back to: battery-, cable: 10 mm2, cable length: 3 m}", "L2: {}"))
    for n in range(3):
        rise = figure(worked, f"L{n}.rise")
        assert (rise.value, rise.missing_words) == (None, ("the way back from L2",)), n


# ---- where a return divides -----------------------------------------------------------------------------------------
# From FS2 by W11 to L2 and by W12 to L3, the same length and size; L2's cable is here 1 m like that of L3: half each.
DIVIDED = (
    ("from: horn.2, to: L2", "from: horn.2, to: FS2"),
    ("cable length: 3 m", "cable length: 1 m"),
    (
        "    loads:\n",
        "      W11: {size: 1.0 mm2, from: FS2, to: L2, length: 1 m}\n"
        "      W12: {size: 1.0 mm2, from: FS2, to: L3, length: 1 m}\n    loads:\n",
    ),
    ("to: L1, length: 1 m", "to: L3, length: 1 m"),
    ("from: lamp.2, to: L0", "from: lamp.2, to: L3"),
)


def test_where_a_return_divides_a_point_has_the_part_that_the_network_gives_it(tmp_path: Path) -> None:
    worked = several(tmp_path, *DIVIDED)
    # The 2 + 4 A that land on L3 take its cable, and by W12, W11 and the cable of L2 a part of
    # 1.82 / (1.82 + 2 x 18.5 + 1.82) = 0.044783; the horn's 5 A are 2.5 A on each
    round_about = 6 * 1.82 / (2 * 1.82 + 2 * 18.5)
    total = figure(worked, "L2.total")
    assert total.value == pytest.approx(2.5 + round_about)
    assert words(total)[1:5] == (
        "A", "nodal solution of the resistive network", "share of the currents that takes this way", (),
    )  # fmt: skip
    assert figure(worked, "L3.total").value == pytest.approx(2.5 + 6 - round_about)
    rise = figure(worked, "L3.rise")
    assert rise.value == pytest.approx((2.5 + 6 - round_about) * 0.00182)
    assert words(rise)[1:4] == (
        "V", "nodal solution of the resistive network", "U = sum of I x R along the way back",
    )  # fmt: skip
    carried = {name: source.partition("; carries ")[2] for name, _, _, source in inputs(rise)}
    assert carried["cable L3 to battery-"] == f"{2.5 + 6 - round_about:.2f} A"
    # one length on either way not recorded, and no part is told
    unread = several(tmp_path / "u", *DIVIDED, ("to: L2, length: 1 m}\n      W12", "to: L2}\n      W12"))
    for name in ("L2", "L3"):
        for what in ("total", "rise"):
            found = figure(unread, f"{name}.{what}")
            assert (found.value, found.missing_words) == (None, ("W11 from FS2 to L2: length not recorded",)), found.key


# ---- where the load side of a fuse ends -----------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("at", "wire"),
    [
        ("L3", "W2"),  # what lies on a ground point beside a wire of the fuse is no wire of the fuse
        ("unit.4", "W2"),  # nor what else hangs on an output of a module
        ("battery+", "W2"),  # nor what else hangs on the battery
        ("F4.feed", "W2"),  # nor what lies behind the next fuse
        ("mid.1", "W21"),  # through a connector it goes on
        ("FS2", "W21"),
        ("s1.1", "W21"),  # and through a switch, closed or not
    ],
)
def test_which_wires_a_fuse_protects(at: str, wire: str, tmp_path: Path) -> None:
    beyond = {"F4.feed": "F4", "s1.1": "s1.2"}.get(at, at)
    worked = several(
        tmp_path,
        (
            "    splices:",
            "    modules: {unit: {out: {4: lamps}}}\n    switches: {s1: {between: s1.1 s1.2}}\n    splices:",
        ),
        ("fuses: {", "fuses: {F4: {rating: 3 A}, "),
        (
            "    loads:\n",
            f"      W20: {{size: 2.5 mm2, from: FS1, to: {at}, length: 1 m}}\n"
            f"      W21: {{size: 0.5 mm2, from: {beyond}, to: far.1, length: 1 m}}\n    loads:\n",
        ),
    )
    thinnest = fuse(worked, "F1").thinnest
    assert thinnest is not None
    assert thinnest.wire == wire


def test_a_load_that_is_deleted_counts_on_no_fuse_and_on_no_point(tmp_path: Path) -> None:
    worked = several(tmp_path, ("draws: 5 A, class: horn", "draws: 5 A, class: horn, verdict: deleted"))
    assert fuse(worked, "F1").loads == ("lamp", "pump")
    assert figure(worked, "F1.total").value == pytest.approx(6)
    assert point(worked, "L2").loads == ("lamp", "pump", "crank")


def test_a_point_that_only_carries_what_comes_from_the_points_behind_it_is_in_use(tmp_path: Path) -> None:
    worked = several(
        tmp_path,
        ("from: horn.2, to: L2", "from: horn.2, to: L3"),
        ("from: crank.2, to: L2", "from: crank.2, to: L3"),
        ("L3: {back", "L4: {back to: battery-, gone: yes}\n      L3: {back"),
    )
    assert {one.name: (one.state, one.lands, one.rings) for one in worked.grounds if one.name in ("L2", "L4")} == {
        "L2": ("in use", (), ()),
        "L4": ("gone", (), ()),
    }
    assert point(worked, "L2").loads == ("lamp", "pump")
    assert figure(worked, "L2.total").value == pytest.approx(6)


def test_what_became_of_a_fuse_by_the_rows_is_told_with_it(tmp_path: Path) -> None:
    worked = several(
        tmp_path,
        ("changes: [", "changes: [{id: C2, kind: remove, wire: W9, ends: {F3: pulled, crank.1: gone}, spare: [F3], "
         "made: 2031-05-03 AK}, "),
    )  # fmt: skip
    assert {one.name: (one.spare, one.rows) for one in worked.fuses} == {
        "F1": (False, ()), "F2": (False, ()), "F3": (True, ("C2",)),
    }  # fmt: skip
    assert fuse(worked, "F3").loads == ()
    assert fuse(worked, "F3").fuse is not None


def test_the_rise_of_a_point_is_no_sum_where_a_return_divides_on_the_way_behind_it(tmp_path: Path) -> None:
    # the horn's 5 A divide at FS2: W11 and the cable of L2 are 23.96 mohm, W12 and that of L3 20.32, 44.28 all round
    worked = several(
        tmp_path,
        ("from: horn.2, to: L2", "from: horn.2, to: FS2"),
        (
            "    loads:\n",
            "      W11: {size: 1.0 mm2, from: FS2, to: L2, length: 1 m}\n"
            "      W12: {size: 1.0 mm2, from: FS2, to: L3, length: 1 m}\n    loads:\n",
        ),
    )
    last = 6 * (1 - 5.46 / 44.28) + 5 * 20.32 / 44.28
    rise = figure(worked, "L0.rise")
    assert rise.value == pytest.approx(2 * 0.00182 + 6 * 0.00364 + last * 0.00546)
    assert (rise.rule, rise.formula) == (
        "nodal solution of the resistive network", "U = sum of I x R along the way back",
    )  # fmt: skip
    # what comes to L0 and L1 comes there whole
    assert [figure(worked, f"L{n}.total").rule for n in (0, 1)] == ["sum of the loads"] * 2
    assert figure(worked, "L2.total").value == pytest.approx(last)

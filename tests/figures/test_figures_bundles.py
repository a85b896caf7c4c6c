"""Bundles from the text of a job to their figures, against arithmetic by hand that stands beside each value."""

from __future__ import annotations

import re
from itertools import pairwise
from math import pi, sqrt
from pathlib import Path

import pytest
from tests.demos import demo
from tests.findings.jobs import figure, figures, proved, work

from aswired.figures.bundles import Station
from aswired.figures.worked import JobResult

# dash --600-- bulkhead --900-- nose --700-- left
#                                  \--500-- right
ROUTE = """
    job: Bundles
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm}
    landmarks: {dash: fuse box, bulkhead: front wall, nose: takeout, left: plug, right: plug}
    route:
      - {from: dash, to: bulkhead, length: 600 mm}
      - {from: bulkhead, to: nose, length: 900 mm}
      - {from: nose, to: left, length: 700 mm}
      - {from: nose, to: right, length: 500 mm}
    plugs: {lamp-left: {at: left}, lamp-right: {at: right}}
    fuses: {F1: {in: dash}, F2: {in: dash}}
    splices: {FS1: {at: 300 mm from bulkhead towards nose}}
    wires:
"""
# seven wires from the fuse box to the splice, four on to the left lamp, two to the right one, all of 2.0 mm
SEVEN = ROUTE + "".join(
    f"      W{number}: {{size: 1.0 mm2, from: {start}, to: {end}, outside: 2 mm}}\n"
    for number, (start, end) in enumerate(
        [("F1", "FS1")] * 7
        + [("FS1", f"lamp-left.{n}") for n in range(4)]
        + [("FS1", f"lamp-right.{n}") for n in (0, 1)],
        1,
    )
)


def runs(worked: JobResult) -> dict[str, tuple[float, float | None, int]]:
    """Leg and beginning -> beginning, end, number of wires."""
    return {s.key: (s.start_mm, s.end_mm, len(s.wires)) for s in worked.bundles.stations}


def station(worked: JobResult, key: str) -> Station:
    (found,) = [station for station in worked.bundles.stations if station.key == key]
    return found


def test_the_bundle_changes_where_wires_join_and_leave(tmp_path: Path) -> None:
    worked = work(tmp_path, proved(SEVEN))
    assert runs(worked) == {
        "dash.bulkhead.0": (0, 600, 7),
        "bulkhead.nose.0": (0, 300, 7),
        "bulkhead.nose.300": (300, 900, 6),
        "nose.left.0": (0, 700, 4),
        "nose.right.0": (0, 500, 2),
    }
    value = figures(worked)
    assert value["dash.bulkhead.0.diameter"] == 6.0  # seven of 2.0 mm: one in the middle, six round it
    assert value["bulkhead.nose.300.diameter"] == 6.0  # six need as much as seven
    assert value["nose.left.0.diameter"] == pytest.approx(2 * (1 + sqrt(2)), abs=1e-3)  # four in a square
    assert value["nose.right.0.diameter"] == 4.0
    # the maker's splice of thirteen ends is not thinner than they are side by side: 13 equal wires, 2 + sqrt(5)
    assert value["bulkhead.nose.0.splice"] == pytest.approx(2 * (2 + sqrt(5)), abs=1e-3)
    assert "dash.bulkhead.0.splice" not in value
    assert station(worked, "bulkhead.nose.0").band == pytest.approx((6.0, 1.45 * sqrt(7 * 4)))


def test_what_is_sized_by_a_bundle(tmp_path: Path) -> None:
    (tmp_path / "shop.yml").write_text("conduits: [6 mm, 8 mm, 5 mm, 7 mm]\n", encoding="utf-8")
    value = figures(work(tmp_path / "job", proved(SEVEN)))
    assert value["dash.bulkhead.0.bore"] == pytest.approx(6.6)  # 10 % over 6.0
    assert value["dash.bulkhead.0.conduit"] == 7.0
    assert value["dash.bulkhead.0.bend"] == 20.0  # 10 x the largest wire, AC 43.13-1B para 11-117
    # over the splice 8.47 x 1.1 = 9.3: none on hand
    assert value["bulkhead.nose.0.bore"] == pytest.approx(1.1 * 2 * (2 + sqrt(5)), abs=1e-3)
    assert value["bulkhead.nose.0.conduit"] is None
    wide = SEVEN.replace("    job: Bundles", "    job: Bundles\n    limits: {conduit over bundle: 40 %}")
    assert figures(work(tmp_path / "wide", proved(wide)))["dash.bulkhead.0.conduit"] is None  # 8.4 mm
    narrow = SEVEN.replace("    job: Bundles", "    job: Bundles\n    limits: {conduit over bundle: 0 %}")
    assert figures(work(tmp_path / "narrow", proved(narrow)))["dash.bulkhead.0.conduit"] == 6.0


def test_without_conduits_on_record_none_is_named(tmp_path: Path) -> None:
    worked = work(tmp_path, proved(SEVEN))
    found = figure(worked, "dash.bulkhead.0.conduit")
    assert (found.value, found.missing_words) == (None, ("conduits in shop.yml",))
    assert figure(worked, "dash.bulkhead.0.bore").known


def covered(cover: str, usual: str) -> str:
    return SEVEN.replace("slack: 50 mm}", f"slack: 50 mm{usual}}}") + (
        f"    changes: [{{id: C1, kind: cover, from: dash, to: left, cover: {cover}, made: 2031-05-03 AK}}]\n"
    )


def test_tape_over_runs_of_different_thickness(tmp_path: Path) -> None:
    # half lapped, 19 mm: pi x (6.0 x 1500 + 4.828 x 700) / 9.5 = 4094 mm
    by_hand = pi * (6.0 * 1500 + 2 * (1 + sqrt(2)) * 700) / 9.5
    assert by_hand == pytest.approx(4094, abs=1)
    half = work(tmp_path / "half", covered("cloth tape half lapped", ", tape width: 19 mm"))
    assert figures(half)["C1.tape"] == pytest.approx(by_hand, abs=1)
    usual = work(tmp_path / "usual", covered("cloth tape", ", tape width: 19 mm, tape overlap: 50 %"))
    assert figures(usual)["C1.tape"] == pytest.approx(by_hand, abs=1)
    quarter = work(tmp_path / "quarter", covered("cloth tape", ", tape width: 19 mm, tape overlap: 25 %"))
    assert figures(quarter)["C1.tape"] == pytest.approx(by_hand * 0.5 / 0.75, abs=1)


@pytest.mark.parametrize(
    ("cover", "usual", "missing"),
    [
        ("cloth tape half lapped", "", ("tape width: not recorded, write usual: {tape width: 19 mm}",)),
        (
            "cloth tape",
            ", tape width: 19 mm",
            ("tape overlap: not recorded, write usual: {tape overlap: 50 %}",),
        ),
        (
            "cloth tape",
            "",
            (
                "tape width: not recorded, write usual: {tape width: 19 mm}",
                "tape overlap: not recorded, write usual: {tape overlap: 50 %}",
            ),
        ),
        ("cloth tape", ", tape width: unknown, tape overlap: 50 %", ("tape width",)),
        ("cloth tape", ", tape width: 0 mm, tape overlap: 50 %", ("a width and overlap that make a turn",)),
    ],
)
def test_tape_that_cannot_be_told_says_what_is_missing(
    cover: str, usual: str, missing: tuple[str, ...], tmp_path: Path
) -> None:
    found = figure(work(tmp_path, covered(cover, usual)), "C1.tape")
    assert (found.value, found.missing_words) == (None, missing)


def test_one_leg_or_one_wire_that_is_not_known_leaves_the_whole_wrap_without_a_number(tmp_path: Path) -> None:
    """The other legs alone would say too little tape."""
    text = covered("cloth tape half lapped", ", tape width: 19 mm")
    leg = work(tmp_path / "leg", text.replace("to: left, length: 700 mm", "to: left, length: unknown"))
    assert (figure(leg, "C1.tape").value, figure(leg, "C1.tape").missing_words) == (None, ("length of a leg",))
    # W8 runs from the splice to the left lamp; up to the splice every diameter is known
    unread = text.replace("W8: {size: 1.0 mm2, from: FS1, to: lamp-left.0, outside: 2 mm}",
                          "W8: {from: FS1, to: lamp-left.0}")  # fmt: skip
    wire = work(tmp_path / "wire", unread)
    assert figure(wire, "dash.bulkhead.0.diameter").value == 6.0
    assert (figure(wire, "C1.tape").value, figure(wire, "C1.tape").missing_words) == (
        None,
        ("diameter of a part of it",),
    )


def test_tape_over_a_part_where_more_wires_may_lie_is_told_as_the_least(tmp_path: Path) -> None:
    # W20 reaches 100 mm behind the bulkhead: it may lie in two of the four parts that are wrapped
    text = covered("cloth tape half lapped", ", tape width: 19 mm").replace(
        "    changes:", "      W20: {size: 1.0 mm2, from: F2, to: unknown, length: 700 mm}\n    changes:"
    )
    worked = work(tmp_path / "more", text)
    assert [bool(s.perhaps) for s in worked.bundles.stations] == [True, True, False, False, False]
    assert figure(worked, "C1.tape").note.startswith("At least: more wires may lie in it")
    assert (
        figure(work(tmp_path / "all", covered("cloth tape half lapped", ", tape width: 19 mm")), "C1.tape").note == ""
    )


def test_a_conduit_with_tape_ends_is_no_tape(tmp_path: Path) -> None:
    worked = work(tmp_path, covered("conduit 20 mm with tape ends", ", tape width: 19 mm, tape overlap: 50 %"))
    (wrap,) = worked.bundles.wraps
    assert (wrap.bore_mm, wrap.tape) == (20.0, None)
    assert wrap.runs == ((0, 0.0, 600.0), (1, 0.0, 900.0), (2, 0.0, 700.0))


def test_a_wire_of_unread_size_makes_the_bundle_not_recorded_but_not_nothing(tmp_path: Path) -> None:
    worked = work(
        tmp_path,
        proved(
            SEVEN.replace("W1: {size: 1.0 mm2,", "W1: {size: unknown,").replace(
                "to: FS1, outside: 2 mm}\n      W2", "to: FS1}\n      W2"
            )
        ),
    )
    found = station(worked, "dash.bulkhead.0")
    assert found.diameter.value is None
    assert found.diameter.missing_words == ("outer diameter of W1",)
    assert found.least_mm == 6.0  # the six others
    assert (found.bore.value, found.bend.value, found.conduit.value) == (None, None, None)
    assert station(worked, "nose.left.0").diameter.known


def test_wires_without_a_way_may_lie_where_they_reach(tmp_path: Path) -> None:
    text = SEVEN + (
        "      W20: {size: 1.0 mm2, from: F2, to: unknown, length: 700 mm}\n"  # reaches 100 mm behind the bulkhead
        "      W21: {size: 1.0 mm2, from: unknown, to: nobody.1}\n"  # may lie anywhere
    )
    worked = work(tmp_path, proved(text))
    assert {s.key: s.perhaps for s in worked.bundles.stations} == {
        "dash.bulkhead.0": ("W20", "W21"),
        "bulkhead.nose.0": ("W20", "W21"),
        "bulkhead.nose.300": ("W21",),
        "nose.left.0": ("W21",),
        "nose.right.0": ("W21",),
    }
    assert worked.bundles.off_route == ("W20", "W21")
    assert "At least: 2 more wires (W20, W21)" in figure(worked, "dash.bulkhead.0.diameter").note
    assert figure(worked, "dash.bulkhead.0.diameter").value == 6.0  # what is not known adds nothing


def test_a_leg_of_unknown_length_has_the_wires_that_run_through_it(tmp_path: Path) -> None:
    text = SEVEN.replace("to: nose, length: 900 mm", "to: nose, length: unknown") + (
        "      W20: {size: 1.0 mm2, from: F2, to: lamp-left.9, outside: 2 mm}\n"
    )
    worked = work(tmp_path, proved(text))
    assert runs(worked)["bulkhead.nose.0"] == (0, None, 1)
    assert runs(worked)["dash.bulkhead.0"] == (0, 600, 8)
    # the seven end on the leg, and the wires beyond the splice begin on it at a place that is not measured
    assert set(station(worked, "bulkhead.nose.0").perhaps) == {f"W{number}" for number in range(1, 14)}


ONE = """
    changes:
      - id: C1
        kind: extend
        wire: W1
        plug: lamp-left
        pigtail: 105 mm
        gap: 300 mm
        piece: BU 1.0 mm2
        made: 2031-05-03 AK
"""
FOUR = ROUTE + "".join(
    f"      W{number}: {{colour: GN, size: 1.0 mm2, from: F1, to: lamp-left.{number}, outside: 2 mm}}\n"
    for number in range(1, 5)
)


def test_a_splice_counts_as_a_lump_where_it_lies(tmp_path: Path) -> None:
    worked = work(tmp_path, FOUR + ONE)
    found = station(worked, "nose.left.0")
    assert found.joints == ("C1-W1-plug", "C1-W1-loom")
    # the piece was not measured: 1.0 mm2 is 2.1 mm by the table (from memory), the others are 2.0 mm
    # D = 1.2 x sqrt(2.1^2 + 3 x 2.0^2) = 4.861; a splice of 2.25 x 2.1 = 4.725 in place of one wire:
    # 1.2 x sqrt(4.725^2 + 12) = 7.031, more than 4.725 + 2.0
    assert found.diameter.value == pytest.approx(1.2 * sqrt(2.1**2 + 12), abs=1e-6)
    assert found.at_joint is not None
    assert found.at_joint.value == pytest.approx(1.2 * sqrt(4.725**2 + 12), abs=1e-6)
    assert [wire.outside.mm for wire in found.wires if wire.outside] == [2.1, 2.0, 2.0, 2.0]
    assert found.bore.value == pytest.approx(1.1 * 1.2 * sqrt(4.725**2 + 12), abs=1e-6)


def test_a_thick_piece_counts_wherever_on_the_run_it_lies(tmp_path: Path) -> None:
    row = ONE.replace("gap: 300 mm", "gap: 60 mm").replace("BU 1.0 mm2", "BU 2.5 mm2")  # near the plug, not half way
    worked = work(tmp_path, FOUR + row)
    # 2.5 mm2 is 3.0 mm (from memory): 1.2 x sqrt(9 + 12)
    assert figures(worked)["nose.left.0.diameter"] == pytest.approx(1.2 * sqrt(21), abs=1e-6)
    assert figures(worked)["bulkhead.nose.0.diameter"] == pytest.approx(2 * (1 + sqrt(2)), abs=1e-3)


def test_splices_side_by_side_count_together(tmp_path: Path) -> None:
    text = (
        FOUR
        + """
    changes:
      - {id: C1, kind: shorten, wire: W1, plug: lamp-left, pigtail: 205 mm, take out: 50 mm, made: 2031-05-03 AK}
      - {id: C2, kind: shorten, wire: W2, plug: lamp-left, pigtail: SECOND mm, take out: 50 mm, made: 2031-05-03 AK}
"""
    )
    apart = work(tmp_path / "apart", text.replace("SECOND", "245"))  # 40 mm: one sleeve behind the other
    beside = work(tmp_path / "beside", text.replace("SECOND", "235"))
    assert figures(apart)["nose.left.0.splice"] == pytest.approx(1.2 * sqrt(4.5**2 + 12), abs=1e-6)
    # 1.2 x sqrt(2 x 4.5^2 + 8) = 8.36, but two of 4.5 side by side are 9.0 already
    assert figures(beside)["nose.left.0.splice"] == pytest.approx(9.0)


def test_a_wire_spliced_at_an_unknown_place_still_runs_from_end_to_end(tmp_path: Path) -> None:
    row = ONE.replace("        pigtail: 105 mm\n        gap: 300 mm\n", "").replace("BU 1.0 mm2", "BU 2.5 mm2")
    worked = work(tmp_path, FOUR + row)
    assert [placed.leg for placed in worked.joints] == [None, None]
    assert runs(worked)["dash.bulkhead.0"] == (0, 600, 4)
    # the thick piece may lie anywhere on the way, so that it counts everywhere: 2.5 mm2 is 3.0 mm (from memory)
    thickest = {s.key: max(w.outside.mm for w in s.wires if w.outside) for s in worked.bundles.stations}
    assert thickest == {"dash.bulkhead.0": 3.0, "bulkhead.nose.0": 3.0, "nose.left.0": 3.0}


def test_insulation_of_a_piece_is_that_of_its_row_then_of_the_shop(tmp_path: Path) -> None:
    row = ONE.replace("BU 1.0 mm2", "BU 18 AWG")
    silicone = row.replace("made:", "insulation: silicone\n        made:")
    assert figures(work(tmp_path / "row", FOUR + silicone))["nose.left.0.diameter"] is None  # no table has it
    shop = FOUR.replace("slack: 50 mm}", "slack: 50 mm, insulation: PVC}")
    found = station(work(tmp_path / "shop", shop + row), "nose.left.0").wires[0].outside
    assert found is not None
    assert (found.mm, found.source) == (2.34, "SAE J1128 GPT (PVC), nominal wall")


def test_stubs_of_cut_ends(tmp_path: Path) -> None:
    text = (
        FOUR
        + """
    changes:
      - id: C1
        kind: remove
        wires: {W1: {F1: FATE, lamp-left.1: gone}}
        made: 2031-05-03 AK
"""
    )
    for fate, more in (("capped 60 mm", ()), ("capped 400 mm", ("W1",)), ("capped", ("W1",)), ("pulled", ())):
        worked = work(tmp_path / fate.replace(" ", "-"), text.replace("FATE", fate))
        assert runs(worked)["dash.bulkhead.0"] == (0, 600, 3), fate
        assert station(worked, "dash.bulkhead.0").perhaps == more, fate


def test_a_wire_that_the_route_leads_two_ways(tmp_path: Path) -> None:
    loop = FOUR.replace(
        "    plugs:",
        "      - {from: bulkhead, to: side, length: 400 mm}\n"
        "      - {from: side, to: nose, length: 400 mm}\n    plugs:",
    )
    assert set(runs(work(tmp_path / "two", proved(loop)))) == set()
    rerouted = (
        loop
        + """
    changes:
      - {id: C1, kind: reroute, wires: [W1, W2, W3], by: [side], made: 2031-05-03 AK}
"""
    )
    assert runs(work(tmp_path / "by", rerouted)) == {
        "dash.bulkhead.0": (0, 600, 3),
        "nose.left.0": (0, 700, 3),
        "bulkhead.side.0": (0, 400, 3),
        "side.nose.0": (0, 400, 3),
    }


def test_ends_of_a_relay_lie_where_its_contacts_are(tmp_path: Path) -> None:
    text = ROUTE.replace("    wires:", "    switches: {K1 contact: {between: K1.30 K1.87, at: nose}}\n    wires:") + (
        "      W1: {size: 1.0 mm2, from: K1.86, to: lamp-left.1}\n"
        "      W2: {size: 1.0 mm2, from: K1.87, to: lamp-right.1}\n"
    )
    assert runs(work(tmp_path, proved(text))) == {"nose.left.0": (0, 700, 1), "nose.right.0": (0, 500, 1)}


def test_a_hole_is_passed_by_the_trunk(tmp_path: Path) -> None:
    worked = work(
        tmp_path, proved(SEVEN.replace("    wires:", "    holes: {nose: {bore: 20 mm}, left: {}}\n    wires:"))
    )
    nose, left = worked.bundles.holes
    assert (nose.landmark, len(nose.wires), nose.diameter.key, nose.diameter.value) == ("nose", 6, "nose.hole", 6.0)
    assert (left.landmark, len(left.wires)) == ("left", 4)
    # a hole at a landmark that nothing on record reaches
    alone = work(tmp_path / "alone", proved(ROUTE.rstrip().removesuffix("wires:") + "holes: {nose: {bore: 20 mm}}\n"))
    assert alone.bundles.holes[0].diameter.missing_words == ("wires in it",)
    assert not [finding for finding in alone.findings if finding.code.startswith("BUN")]


PLANNED = (
    ROUTE
    + """      W1: {colour: GN, size: 18 AWG, from: F1, to: lamp-left.1, length: 1.9 m}
      W2: {colour: YE, size: 18 AWG, from: F1, to: lamp-left.2, length: 1.9 m}
      W3: {colour: BN, size: 18 AWG, from: F1, to: lamp-left.3, length: 1.9 m}
    changes:
      - id: C1
        kind: extend
        plug: lamp-left
        pigtail: 60 mm
        stagger: 20 mm
        gap: 300 mm
        wires: {W1: GN 18 AWG, W2: YE 18 AWG, W3: BN 18 AWG}
"""
)


def test_planned_splices_are_given_places_and_the_cuts_for_them(tmp_path: Path) -> None:
    worked = work(tmp_path, PLANNED)
    (found,) = worked.bundles.staggers
    # centres half an overlap inside the cuts: 55, 75, 95 mm from the plug, and beyond a gap of 300 mm (slack moves no
    # joint by tape measure) 365, 385, 405; the leg is 700 mm long
    assert {s.joint: s.at_mm for s in found.shifts} == {
        "C1-W1-plug": 645, "C1-W2-plug": 625, "C1-W3-plug": 605,
        "C1-W1-loom": 335, "C1-W2-loom": 315, "C1-W3-loom": 295,
    }  # fmt: skip
    to = [s.to_mm for s in found.shifts]
    assert all(place is not None and 40 <= place <= 660 for place in to)
    places = sorted(place for place in to if place is not None)
    assert min(b - a for a, b in pairwise(places)) >= 50
    (recut,) = found.recuts
    assert (recut.row, recut.pigtail_mm, recut.stagger_mm) == ("C1", 60, 50)
    # cut so, nothing is found against its splices any more
    mended = work(tmp_path / "mended", PLANNED.replace("stagger: 20 mm", "stagger: 50 mm"))
    assert {f.code for f in worked.findings} & {"SPL01", "SPL02"} == {"SPL01"}
    assert not {f.code for f in mended.findings} & {"SPL01", "SPL02"}
    (kept,) = mended.bundles.staggers
    assert [s.to_mm for s in kept.shifts] == [s.at_mm for s in kept.shifts]
    assert kept.recuts == ()


def test_a_leg_too_short_for_its_splices_says_how_long_it_must_be(tmp_path: Path) -> None:
    short = (
        ROUTE.replace("to: right, length: 500 mm", "to: right, length: 150 mm")
        + "".join(f"      W{n}: {{size: 18 AWG, from: F1, to: lamp-right.{n}, length: 2 m}}\n" for n in range(1, 5))
        + "    changes:\n"
        + "".join(
            f"      - {{id: C{n}, kind: shorten, wire: W{n}, plug: lamp-right, pigtail: {30 + 20 * n} mm,"
            " take out: 90 mm}\n"
            for n in range(1, 5)
        )
    )
    (found,) = work(tmp_path, short).bundles.staggers
    assert [s.to_mm for s in found.shifts] == [None] * 4
    assert (found.apart_mm, found.wants_mm) == (40, 40 + 3 * 40 + 40)  # branch, four splices, plug


def test_the_cuts_that_are_told_are_the_nearest_to_those_written(tmp_path: Path) -> None:
    """One wire, its plug joint 15 mm from the plug: from 40 mm on it keeps clear, its other joint all along."""
    one = PLANNED.replace("wires: {W1: GN 18 AWG, W2: YE 18 AWG, W3: BN 18 AWG}", "wire: W1\n        piece: GN 18 AWG")
    (near,) = work(tmp_path / "near", one.replace("pigtail: 60 mm", "pigtail: 20 mm")).bundles.staggers
    # its centre lies half an overlap of 10 mm inside the cut: 45 mm of pigtail put it 40 mm from the plug
    assert [(recut.row, recut.pigtail_mm) for recut in near.recuts] == [("C1", 45)]
    assert {s.joint: (s.at_mm, s.to_mm) for s in near.shifts} == {"C1-W1-plug": (685, 660), "C1-W1-loom": (375, 375)}
    # too near the branch with its other joint: 700 - 360 - 300 - 5 = 35 mm; 5 mm less of pigtail make it 40 mm
    (far,) = work(tmp_path / "far", one.replace("pigtail: 60 mm", "pigtail: 360 mm")).bundles.staggers
    assert [(recut.row, recut.pigtail_mm) for recut in far.recuts] == [("C1", 355)]
    assert {s.joint: (s.at_mm, s.to_mm) for s in far.shifts} == {"C1-W1-plug": (345, 345), "C1-W1-loom": (35, 40)}


def test_a_little_of_both_is_nearer_than_much_of_the_pigtail(tmp_path: Path) -> None:
    """W3 has its splice 145 mm from the plug already, and the two planned ones would lie at 55 and 115."""
    made = "kind: shorten, wire: W3, plug: lamp-left, pigtail: 150 mm, take out: 50 mm, made: 2031-05-03 AK"
    rows = f"      - {{id: C9, {made}}}\n      - id: C1"
    two = PLANNED.replace(", W3: BN 18 AWG}", "}").replace("stagger: 20 mm", "stagger: 60 mm")
    (found,) = work(tmp_path, two.replace("      - id: C1", rows)).bundles.staggers
    # 50 mm clear of it, 40 of the plug: with the 60 mm as written only beyond it, from 195 on: 140 mm more of pigtail.
    # With 50 mm the second may lie at 95, the first at 45: 10 mm less of pigtail, and 10 mm less for each of two wires
    assert [(recut.row, recut.pigtail_mm, recut.stagger_mm) for recut in found.recuts] == [("C1", 50, 50)]


def test_made_splices_that_keep_the_limits_ask_for_nothing(tmp_path: Path) -> None:
    assert work(tmp_path, FOUR + ONE).bundles.staggers == ()
    near = work(tmp_path / "near", FOUR + ONE.replace("pigtail: 105 mm", "pigtail: 25 mm"))
    (found,) = near.bundles.staggers
    assert [(s.joint, s.at_mm, s.to_mm) for s in found.shifts] == [("C1-W1-plug", 680, 660)]  # 20 mm from the plug


def test_no_place_on_a_leg_that_flexes(tmp_path: Path) -> None:
    flexing = FOUR.replace("to: left, length: 700 mm", "to: left, length: 700 mm, zone: flex")
    (found,) = work(tmp_path, flexing + ONE).bundles.staggers
    assert found.why == "the whole leg from nose to left flexes"
    assert [s.to_mm for s in found.shifts] == [None, None]


@pytest.mark.parametrize("name", ["trail-truck", "flatbed", "taken-over"])
def test_figures_of_the_demo_have_keys_of_their_own_as_the_manual_says(name: str) -> None:
    worked = demo(name)
    keys = [figure.key for figure in worked.bundles.figures]
    assert len(set(keys)) == len(keys) > 10
    assert len({figure.key for figure in worked.all_figures()}) == len(worked.all_figures())
    landmark = "|".join(re.escape(name) for leg in worked.job.route for name in (leg.from_, leg.to))
    form = rf"({landmark})\.({landmark})\.\d+\.(diameter|splice|bore|conduit|bend)|({landmark})\.hole|C\d+\.tape"
    assert [key for key in keys if not re.fullmatch(form, key)] == []
    for told in worked.bundles.figures:
        assert (told.value is None) == bool(told.missing_words), told.key


def test_nothing_known_is_nothing_found(tmp_path: Path) -> None:
    worked = work(
        tmp_path,
        """
    job: Nothing known
    landmarks: {a: unknown, b: unknown}
    holes: {a: {through: unknown, grommet: unknown, bore: unknown}}
    route: [{from: a, to: b, length: unknown}]
    wires: {W1: {colour: unknown, size: unknown, from: unknown, to: unknown, length: unknown}}
    changes: [{id: C1, kind: cover, from: unknown, to: unknown, cover: unknown, made: 2031-05-03 AK}]
    """,
    )
    assert worked.bundles.stations == ()
    assert worked.bundles.off_route == ("W1",)
    assert not [finding for finding in worked.findings if finding.code.startswith("BUN")]

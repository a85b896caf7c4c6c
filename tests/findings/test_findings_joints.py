"""Where joints lie, whole sentences: which neighbour, which branch, at what distance, and how it is mended."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.findings.cases_splices import ROUTE, USUAL, joined, placed
from tests.findings.said import entries, said

MADE = "made: 2031-05-03 AK"
FURTHER = "Stagger the cuts further"


# ---- plugs and branches ---------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("end", "told"), [("lamp.1", True), ("unit.7", True), ("FS1", False), ("F2", False)])
def test_a_joint_keeps_clear_of_a_plug_and_of_a_module_and_of_nothing_else(
    end: str, told: bool, tmp_path: Path
) -> None:
    # the middle of a lap of 10 mm lies 5 mm inside of the 44 mm left at the end
    text = f"""{USUAL}
    modules: {{unit: {{}}}}
    wires: {{W1: {{size: 1.0 mm2, from: F1, to: {end}, length: 900 mm}}}}
    changes:
      - {{id: C1, kind: extend, wire: W1, end: {end}, pigtail: 44 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}} # C1
    """
    found = [(rank, line, problem, mend) for rank, _, line, problem, mend in said(tmp_path, text, "SPL01")]
    problem = f"C1-W1-{end} lies 39 mm from {end}; 40 mm is wanted"
    assert found == ([("error", "C1", problem, "Cut further from the connector")] if told else [])


BRANCHES = """
      - {from: nose, to: left, length: 300 mm}
      - {from: nose, to: right, length: 300 mm}
"""


@pytest.mark.parametrize("leg", ["from: bulkhead, to: nose", "from: nose, to: bulkhead"])
@pytest.mark.parametrize(("where", "told"), [
    ("39 mm from nose towards bulkhead", "39 mm"), ("961 mm from bulkhead towards nose", "39 mm"),
    ("40 mm from nose towards bulkhead", ""), ("39 mm from bulkhead towards nose", ""),
])  # fmt: skip
def test_a_joint_keeps_clear_of_a_branch_at_either_end_of_its_leg(
    leg: str, where: str, told: str, tmp_path: Path
) -> None:
    route = ROUTE.replace("from: bulkhead, to: nose", leg) + BRANCHES
    problem = f"C1 lies {told} from the branch at nose; 40 mm is wanted"
    found = said(tmp_path, placed(where, route, marked="").replace("# <", "# row"), "SPL01")
    assert found == ([("error", "C1", "row", problem, "Move the joint out of the branch")] if told else [])


@pytest.mark.parametrize(("leg", "told"), [
    ("from: nose, to: bulkhead", ["C1"]), ("from: bulkhead, to: nose", []),
])  # fmt: skip
def test_of_a_leg_of_unknown_length_only_the_end_it_is_measured_from_is_known(
    leg: str, told: list[str], tmp_path: Path
) -> None:
    route = ROUTE.replace("from: bulkhead, to: nose, length: 1000 mm", f"{leg}, length: unknown") + BRANCHES
    where = f"30 mm from {leg.removeprefix('from: ').replace(', to:', ' towards')}"
    assert entries(tmp_path, placed(where, route), "SPL01") == told


# ---- neighbours -----------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("second", "rank", "wanted"), [
    ("339.4", "error", "39 mm apart; 40"),  # 39.4 mm are told as 39
    ("339.5", "warning", "40 mm apart; 50"),  # half a millimetre is let go
    ("349.4", "warning", "49 mm apart; 50"),
    ("349.5", "", ""),
])  # fmt: skip
def test_two_joints_on_a_leg_are_clear_at_40_mm_and_staggered_at_50(
    second: str, rank: str, wanted: str, tmp_path: Path
) -> None:
    text = joined(f"300 mm from bulkhead towards nose | {second} mm from bulkhead towards nose").replace("# <", "# C2")
    found = said(tmp_path, text, "SPL01", "SPL02")
    problem = f"C1 and C2 lie {wanted} mm is wanted"
    assert found == ([(rank, "C2", "C2", problem, FURTHER)] if rank else [])


FOUR = (
    USUAL
    + ROUTE
    + "    wires:\n"
    + "".join(f"      W{n}: {{size: 1.0 mm2, from: a.{n}, to: FS{(n + 1) // 2}}}\n" for n in range(1, 9))
    + "    changes:\n"
)


def four(*places: str) -> str:
    return FOUR + "".join(
        f"      - {{id: C{n}, kind: join, ends: [W{2 * n - 1} at FS{n}, W{2 * n} at FS{n}], where: {place}, {MADE}}} "
        f"# C{n}\n"
        for n, place in enumerate(places, 1)
    )


def test_neighbours_are_those_next_to_each_other_along_the_leg_however_the_rows_stand(tmp_path: Path) -> None:
    # along the leg: C2 at 100, C4 at 130, C1 at 175, C3 at 300 mm
    text = four(*(f"{mm} mm from bulkhead towards nose" for mm in (175, 100, 300, 130)))
    assert said(tmp_path, text, "SPL01", "SPL02") == [
        ("error", "C4", "C4", "C2 and C4 lie 30 mm apart; 40 mm is wanted", FURTHER),
        ("warning", "C1", "C1", "C4 and C1 lie 45 mm apart; 50 mm is wanted", FURTHER),
    ]


def test_joints_on_two_legs_are_no_neighbours(tmp_path: Path) -> None:
    text = four("500 mm from bulkhead towards nose", "500 mm from nose towards tail").replace(
        "zone: dry}\n", "zone: dry}\n      - {from: nose, to: tail, length: 1000 mm}\n"
    )
    assert entries(tmp_path, text, "SPL01", "SPL02") == []


@pytest.mark.parametrize(("plug", "told"), [("lamp", ["C2-W2-plug"]), ("horn", [])])
def test_without_a_route_joints_are_measured_from_the_plug_they_share(
    plug: str, told: list[str], tmp_path: Path
) -> None:
    # the middles of both lie 5 mm inside: 195 and 225 mm, 30 mm apart
    text = f"""{USUAL}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F2, to: {plug}.2, length: 1900 mm}}
    changes:
      - {{id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}} # C1
      - {{id: C2, kind: extend, wire: W2, plug: {plug}, pigtail: 230 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}} # C2
    """
    problem = "C1-W1-plug and C2-W2-plug lie 30 mm apart; 40 mm is wanted"
    assert said(tmp_path, text, "SPL01", "SPL02") == [("error", name, "C2", problem, FURTHER) for name in told]


# ---- covers and zones -----------------------------------------------------------------------------------------------
BARE = "The joint C1 has no cover, though nothing on record feeds it"
COVER_IT = "Cover and seal it, and write the cover, or let it stand by name, with the reason"


@pytest.mark.parametrize(("cover", "zone", "code", "rank", "problem", "mend"), [
    ("none", "dry", "SPL04", "error", BARE, COVER_IT),
    ("none", "wet", "SPL04", "error", BARE, COVER_IT),
    ("adhesive sleeve 34.4 mm", "dry", "SPL06", "warning",
     "the sleeve on C1 is 34 mm; overlap and 25 mm make 35 mm", "Take a longer sleeve"),
    ("adhesive sleeve 34.5 mm", "dry", "", "", "", ""),
    ("Adhesive Sleeve 34.4 mm", "dry", "SPL06", "warning",
     "the sleeve on C1 is 34 mm; overlap and 25 mm make 35 mm", "Take a longer sleeve"),
    ("Adhesive Sleeve 34.5 mm", "dry", "", "", "", ""),
    ("adhesive sleeve 30 mm", "wet", "SPL06", "warning",
     "the sleeve on C1 is 30 mm; overlap and 25 mm make 35 mm", "Take a longer sleeve"),
    ("cloth tape 20 mm", "dry", "", "", "", ""),  # tape is wound as long as it has to be
    ("cloth tape", "wet", "SPL05", "error", "joint C1 lies in a wet zone under 'cloth tape'",
     "Seal it with an adhesive-lined sleeve"),
    ("adhesive sleeve 40 mm", "wet", "", "", "", ""),
    ("adhesive sleeve 40 mm", "flex", "SPL03", "error", "joint C1 lies in a stretch that flexes",
     "Move it to a stretch that does not move"),
])  # fmt: skip
def test_a_cover_is_told_by_what_it_is_and_where_it_lies(
    cover: str, zone: str, code: str, rank: str, problem: str, mend: str, tmp_path: Path
) -> None:
    mark = "" if zone == "flex" else "cover"
    route = ROUTE.replace("zone: dry", f"zone: {zone}")
    text = placed("300 mm from bulkhead towards nose", route, cover, mark).replace("# <", "# here")
    found = said(tmp_path, text, "SPL03", "SPL04", "SPL05", "SPL06")
    assert found == ([(rank, "C1", "here", problem, mend)] if code else [])
    assert found == said(tmp_path, text, code or "SPL04")


def test_a_joint_without_a_cover_in_the_wet_is_not_recorded_rather_than_wrong(tmp_path: Path) -> None:
    text = placed("300 mm from bulkhead towards nose", ROUTE.replace("dry", "wet"))
    text = text.replace("cover: adhesive sleeve 40 mm, ", "").replace("        cover: adhesive sleeve 40 mm\n", "")
    assert entries(tmp_path, text, "SPL04", "SPL05", "SPL06") == []


# ---- what holds the bundle ------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("what", "where", "told"), [
    ("rubber grommet", "nose", "grommet"), ("door hinge", "0 mm from nose towards bulkhead", "hinge"),
    ("CLIP of the loom", "nose", "clip"), ("rubber grommet", "60 mm from nose towards bulkhead", ""),
    ("rubber grommet", "bulkhead", ""),
])  # fmt: skip
def test_a_joint_lies_at_no_landmark_that_holds_the_bundle(what: str, where: str, told: str, tmp_path: Path) -> None:
    text = placed(where, ROUTE.replace("nose: takeout", f"nose: {what}")).replace("# <", "# where")
    found = [finding for finding in said(tmp_path, text, "SPL03") if "lies at" in finding[3]]
    problem, mend = f"joint C1 lies at a {told}", f"Move it clear of the {told}"
    assert found == ([("error", "C1", "where", problem, mend)] if told else [])


CONDUIT_MEND = "Let the conduit begin clear of the joint, or run it over the whole of it"


@pytest.mark.parametrize(("where", "wrap", "told"), [
    # half a sleeve of 40 mm is 20 mm; the leg is 1000 mm
    ("980 mm from bulkhead towards nose", "from: nose, to: bulkhead, cover: conduit 12 mm", "20 mm, nose"),
    ("980 mm from bulkhead towards nose", "from: bulkhead, to: nose, cover: Conduit 12 mm", "20 mm, nose"),
    ("5 mm from bulkhead towards nose", "from: nose, to: bulkhead, cover: conduit 12 mm", "5 mm, bulkhead"),
    ("500 mm from bulkhead towards nose", "from: nose, to: bulkhead, cover: conduit 12 mm", ""),
    ("980 mm from bulkhead towards nose", "from: nose, to: bulkhead, cover: cloth tape", ""),
    ("980 mm from bulkhead towards nose", "from: nose, to: bulkhead", ""),
    ("980 mm from bulkhead towards nose", "from: bulkhead, cover: conduit 12 mm", ""),
    ("980 mm from bulkhead towards nose", "to: nose, cover: conduit 12 mm", "20 mm, nose"),
    ("980 mm from bulkhead towards nose", "from: the seat, to: nose, cover: conduit 12 mm", "20 mm, nose"),
    ("980 mm from bulkhead towards nose", "over: [C1], cover: conduit 12 mm", ""),
])  # fmt: skip
def test_a_sleeve_reaches_no_mouth_of_a_conduit(where: str, wrap: str, told: str, tmp_path: Path) -> None:
    wraps = f"      - {{id: C2, kind: cover, {wrap}, made: 2031-05-04 AK}}\n"
    text = f"{placed(where).replace('# <', '# where').rstrip()}\n{wraps}"
    apart, _, end = told.partition(", ")
    problem = f"joint C1 lies {apart} from the end of the conduit of C2 at {end}"
    assert said(tmp_path, text, "SPL03") == ([("error", "C1", "where", problem, CONDUIT_MEND)] if told else [])


@pytest.mark.parametrize(("line", "instead"), [
    ("where: 980 mm from bulkhead towards nose", "note: none"),
    ("where: 980 mm from bulkhead towards nose", "where: beside the seat"),
    ("cover: adhesive sleeve 40 mm", "cover: cloth tape"),
    ("cover: adhesive sleeve 40 mm", "cover: unknown"),
])  # fmt: skip
def test_a_joint_of_which_place_or_length_of_sleeve_is_not_recorded_reaches_no_mouth(
    line: str, instead: str, tmp_path: Path
) -> None:
    wrap = "      - {id: C2, kind: cover, from: nose, to: bulkhead, cover: conduit 12 mm, made: 2031-05-04 AK}\n"
    text = f"{placed('980 mm from bulkhead towards nose').replace(' # <', '').rstrip()}\n{wrap}"
    head, _, rows = text.partition("changes:")
    assert rows.count(line) == 1
    assert entries(tmp_path / "as it is", text, "SPL03") == ["C1"]
    assert entries(tmp_path / "instead", f"{head}changes:{rows.replace(line, instead)}", "SPL03") == []


def test_a_conduit_over_a_new_wire_is_no_wrap_with_a_mouth(tmp_path: Path) -> None:
    text = placed("980 mm from bulkhead towards nose").rstrip() + (
        "\n      - {id: C2, kind: add, wire: N1, from: q.1, to: r.1, piece: BU 1.0 mm2, cut: 400 mm, "
        "cover: conduit 12 mm, made: 2031-05-04 AK}\n    plugs: {q: {at: nose}, r: {at: bulkhead}}\n"
    )
    assert entries(tmp_path, text, "SPL03") == []


# ---- recorded and computed places -----------------------------------------------------------------------------------
@pytest.mark.parametrize(("where", "told"), [
    # the loom's end of it lies 900 - 200 - 5 = 695 mm from the fuse box, which is at the bulkhead; 20 mm are let go
    ("716 mm from bulkhead towards nose", "21 mm"), ("715 mm from bulkhead towards nose", ""),
    ("674 mm from bulkhead towards nose", "21 mm"), ("675 mm from bulkhead towards nose", ""),
    ("beside the seat", ""),
])  # fmt: skip
def test_a_place_is_held_against_the_lengths_either_way(where: str, told: str, tmp_path: Path) -> None:
    text = f"""{USUAL}{ROUTE}
    fuses: {{F1: {{rating: 10 A, in: bulkhead}}}}
    plugs: {{lamp: {{at: nose}}}}
    wires: {{W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}}}
    changes:
      - id: C1
        kind: extend
        wire: W1
        plug: lamp
        pigtail: 200 mm
        gap: 100 mm
        piece: BU 1.0 mm2
        where: {where} # where
        {MADE}
    """
    problem = f"the recorded place of C1-W1-loom lies {told} from where its lengths put it"
    found = [finding for finding in said(tmp_path, text, "PLC03") if finding[1] == "C1-W1-loom"]
    assert found == ([("warning", "C1-W1-loom", "where", problem, "Measure both again")] if told else [])


def test_a_place_on_legs_that_do_not_join_is_held_against_no_length(tmp_path: Path) -> None:
    text = f"""{USUAL}
    landmarks: {{bulkhead: a, nose: b, roof: c, hatch: d}}
    route:
      - {{from: bulkhead, to: nose, length: 1000 mm}}
      - {{from: roof, to: hatch, length: 1000 mm}}
    fuses: {{F1: {{rating: 10 A, in: bulkhead}}}}
    plugs: {{lamp: {{at: nose}}}}
    wires: {{W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}}}
    changes:
      - {{id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 100 mm, piece: BU 1.0 mm2,
         where: 300 mm from roof towards hatch, {MADE}}}
    """
    assert entries(tmp_path, text, "PLC03") == []


def test_a_joint_without_an_overlap_or_a_pigtail_is_held_to_none(tmp_path: Path) -> None:
    usual = USUAL.replace("overlap: 10 mm, ", "")
    text = f"""{usual}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F2, to: horn.1, length: 900 mm}}
    changes:
      - {{id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 300 mm, piece: BU 1.0 mm2,
         joint: "butt, crimped", cover: adhesive sleeve 20 mm, {MADE}}}
      - {{id: C2, kind: extend, wire: W2, plug: horn, pigtail: unknown, gap: 300 mm, piece: BU 1.0 mm2, {MADE}}}
    """
    assert entries(tmp_path, text, "SPL01", "SPL06") == []

"""Heat where a wire's way is recorded, conductors that are not of copper, lines of the house method left out."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.findings.jobs import figure, figures, proved, work
from tests.pages.test_grounds import text_of

from aswired.figures.worked import JobResult
from aswired.sheets import circuits as circuits_page
from aswired.sheets import not_examined as not_examined_page
from aswired.sheets.frame import ShopFacts, frame_of


def unseen(worked: JobResult) -> list[str]:
    return [f"{item.entry}: {item.what}" for item in worked.not_examined]


# ---- heat -----------------------------------------------------------------------------------------------------------
# From the box a leg leads over the hot manifold, another to the nose. W1 is lengthened at the box and runs to the nose.
HOT = """
    job: Hot leg
    supply: 12 V
    temperature: 20 C
    body returns: no
    usual: {joint: "butt, crimped", cover: adhesive sleeve 40 mm, slack: 0 mm, ring strip: 6 mm,
      joint resistance: 0 mohm, cavity resistance: 0 mohm, ring resistance: 0 mohm, fuse resistance: 0 mohm,
      insulation: PVC}
    landmarks: {box: lid, manifold: rear bolt, nose: end}
    route:
      - {from: box, to: manifold, length: 1 m, zone: hot, hottest: 150 C}
      - {from: box, to: nose, length: 3 m}
    plugs: {lamp: {ways: 2, at: nose}}
    fuses: {F1: {rating: 10 A, in: box, fed: always}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 5 A}}
    wires:
      W1: {colour: RD, size: 1.0 mm2, from: F1, to: lamp.1, length: 2 m, insulation: PVC}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: battery-, length: 1 m, insulation: PVC}
    changes:
      - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 1500 mm, gap: 1 m, piece: BU 1.0 mm2, where: WHERE,
         made: 2031-05-03 AK}
"""


def hot(folder: Path, where: str, *changed: tuple[str, str]) -> JobResult:
    text = HOT.replace("WHERE", where)
    for old, new in changed:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return work(folder / "job", text)


def test_a_splice_at_a_landmark_lies_on_none_of_its_legs(tmp_path: Path) -> None:
    # 500 mm from the fuse to the splice, 1 m of piece, 1.5 m left: 3 m of 1.0 mm2, a tenth up at worst and no heat:
    # 3 x 18.5 x 1.1 = 61.05 mohm
    worked = hot(tmp_path, "box")
    assert [finding.entry for finding in worked.findings if finding.code == "INS01"] == []
    assert figures(worked)["lamp.feed.worst"] == pytest.approx(5 * 3 * 18.5 * 1.1 / 1000)
    # twin: the splice is on the hot leg, and so is what leads to it
    worked = hot(tmp_path / "twin", "500 mm from box towards manifold")
    assert {finding.entry for finding in worked.findings if finding.code == "INS01"} == {"W1", "C1-W1"}
    # copper at 150 C: (234.5 + 150) / 254.5 (AC 43.13-1B para 11-66, read)
    warm = 384.5 / 254.5
    assert figures(worked)["lamp.feed.worst"] == pytest.approx(5 * (1.5 * warm + 1.5) * 18.5 * 1.1 / 1000, rel=1e-3)


def test_a_wire_of_which_no_way_is_recorded_is_not_examined_for_heat(tmp_path: Path) -> None:
    # battery- has no place: whether W2 passes the manifold nobody wrote
    worked = hot(tmp_path, "box")
    heat = "heat on its way not examined: its way on the route is not recorded"
    assert f"W2: {heat}" in unseen(worked)
    worst = figure(worked, "lamp.return.worst")
    assert worst.value == pytest.approx(5 * 18.5 * 1.1 / 1000)
    assert "no heat counted, since the way is not recorded: W2" in worst.note
    # twin: W2 ends on a stud whose place is recorded; and a car without a hot leg has nothing of the kind to look at
    stud = (
        "    loads:",
        "    grounds: {L1: {at: nose, back to: battery-, cable: 10 mm2, cable length: 1 m}}\n    loads:",
    )
    there = hot(tmp_path / "there", "box", stud, ("to: battery-, length", "to: L1, length"))
    assert not [line for line in unseen(there) if "heat on its way" in line]
    assert "no heat counted" not in figure(there, "lamp.return.worst").note
    cold = hot(tmp_path / "cold", "box", (", zone: hot, hottest: 150 C", ""))
    assert not [line for line in unseen(cold) if "heat on its way" in line]


# ---- not of copper --------------------------------------------------------------------------------------------------
METAL = proved("""
    job: Metal
    supply: 12 V
    temperature: 20 C
    body returns: no
    fuses: {F1: {rating: 30 A, fed: always}}
    loads: {fan: {between: fan.1 fan.2, draws: 10 A, class: motor}}
    wires:
      W1: {size: 2.5 mm2, from: F1, to: fan.1, length: 1 m, conductor: METAL}
      W2: {size: 2.5 mm2, from: fan.2, to: battery-, length: 1 m}
""")


@pytest.mark.parametrize("metal", ["aluminium", "copper-clad aluminium"])
def test_no_figure_is_computed_with_the_tables_of_copper_for_another_metal(metal: str, tmp_path: Path) -> None:
    worked = work(tmp_path, METAL.replace("METAL", metal))
    why = f"W1 from F1 to fan.1: its conductor is {metal}, and only copper is computed"
    for key in ("fan.feed.resistance", "fan.feed.alone", "fan.drop.alone", "fan.feed.worst"):
        assert (figure(worked, key).value, figure(worked, key).missing_words) == (None, (why,)), key
    rating = figure(worked, "F1.rating")
    assert rating.value is None
    assert rating.missing_words == (f"W1: its conductor is {metal}, and only copper is computed",)
    (fuse,) = worked.fuses
    assert (fuse.ok, fuse.mend) == (None, None)
    # what it may carry is a share of copper's 20 A: 0.78 of aluminium, 0.80 of copper-clad (computed)
    planned = {"aluminium": "15.6 A", "copper-clad aluminium": "16 A"}[metal]
    (told,) = [finding.problem for finding in worked.findings if finding.code == "FUS01"]
    assert told.endswith(f"F1 lets 30 A through, and the wire may carry {planned}")
    assert [opinion.value for opinion in fuse.opinions] == [None, None, None]
    assert f"fan: drop not computed: {why}" in unseen(worked)
    assert figures(worked)["fan.return.alone"] == pytest.approx(10 * (7.6 + 4) / 1000)  # the copper side is


@pytest.mark.parametrize("metal", ["stranded copper", "solid copper", "unknown"])
def test_copper_is_computed_and_the_fuse_judged(metal: str, tmp_path: Path) -> None:
    # 30 A on 2.5 mm2, which is planned for 20 A
    worked = work(tmp_path, METAL.replace("METAL", metal))
    assert figures(worked)["fan.feed.resistance"] == pytest.approx(7.6 + 1.97 + 4)
    assert [finding.code for finding in worked.findings if finding.code == "FUS01"] == ["FUS01"]


def test_a_thicker_wire_of_aluminium_leaves_the_second_opinions_unsaid(tmp_path: Path) -> None:
    text = METAL.replace("METAL", "stranded copper, insulation: PVC").replace(
        "      W2:", "      W3: {size: 6 mm2, from: F1, to: spare.1, length: 1 m, conductor: aluminium}\n      W2:"
    )
    (fuse,) = work(tmp_path / "aluminium", text).fuses
    assert [opinion.value for opinion in fuse.opinions] == [None, None, None]
    (fuse,) = work(tmp_path / "copper", text.replace(", conductor: aluminium", "")).fuses
    assert fuse.opinions[2].value is not None


# ---- lines of the house method --------------------------------------------------------------------------------------
USUAL = {
    "joint": '"lap, soldered"', "overlap": "10 mm", "cover": "adhesive sleeve 40 mm", "slack": "50 mm",
    "ring strip": "6 mm",
}  # fmt: skip
MOVED = """
    job: House method
    supply: 12 V
    body returns: no
    usual: {USUAL}
    fuses: {F1: {rating: 10 A, fed: always}}
    grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 1 m}, G1: {gone: yes}, G2: {gone: yes}}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 2 A}, horn: {between: horn.1 horn.2, draws: 2 A}}
    wires:
      W1: {colour: RD, size: 1.0 mm2, from: F1, to: lamp.1, length: 2 m}
      W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: G1, length: 1 m}
      W3: {colour: RD, size: 1.0 mm2, from: F1, to: horn.1, length: 2 m}
      W4: {colour: BN, size: 1.0 mm2, from: horn.2, to: G2, length: 1 m}
    changes:
      - {id: C1, kind: ground, wire: W2, end: G1, to: L1, gap: 300 mm, pigtail: 800 mm, piece: BK 1.0 mm2,
         ring: "new, M6", made: 2031-05-03 AK}
      - {id: C2, kind: ground, wire: W4, end: G2, to: L1, ring: "new, M6", made: 2031-05-03 AK}
"""


def house(folder: Path, without: str) -> JobResult:
    said = ", ".join(f"{key}: {value}" for key, value in USUAL.items() if key != without)
    return work(folder / "job", MOVED.replace("USUAL", said))


@pytest.mark.parametrize(
    ("key", "line", "drops"),
    [
        ("ring strip", "usual: {ring strip: 6 mm}", ("lamp", "horn")),
        ("slack", "usual: {slack: 50 mm}", ("lamp",)),
        ("overlap", "usual: {overlap: 10 mm}", ("lamp",)),
        ("joint", 'usual: {joint: "lap, soldered"}', ("lamp",)),
    ],
)
def test_what_a_missing_line_keeps_from_being_computed_names_it(
    key: str, line: str, drops: tuple[str, ...], tmp_path: Path
) -> None:
    worked = house(tmp_path, key)
    cut = figure(worked, "C1-W2.cut")
    assert cut.value is None
    assert all(f"write {line}" in words for words in cut.missing_words)
    for load in ("lamp", "horn"):
        back = figure(worked, f"{load}.return.alone")
        assert (back.value is None) == (load in drops), load
        assert not back.missing_words or all(
            f"length not recorded, write {line}" in words for words in back.missing_words
        )
    lines = unseen(worked)
    assert [said for said in lines if said.startswith("C1-W2: cut length not computed") and f"write {line}" in said]
    for load in drops:
        assert [said for said in lines if said.startswith(f"{load}: drop not computed") and f"write {line}" in said]
    (page,) = [p for p in circuits_page.pages(frame_of(worked, ShopFacts("shop"))) if p.context["page_title"] == "lamp"]
    assert f"write {line}" in text_of(page)
    (page,) = not_examined_page.pages(frame_of(worked, ShopFacts("shop")))
    assert f"write {line}" in text_of(page)


def test_with_all_lines_of_the_house_method_written_nothing_of_the_kind_is_told(tmp_path: Path) -> None:
    worked = house(tmp_path, "")
    # piece 300 + 50 + 10 + 6 = 366 mm
    assert figures(worked)["C1-W2.cut"] == pytest.approx(366)
    assert not [line for line in unseen(worked) if "write usual" in line]
    # W4 reaches as it is, less 6 mm in its new barrel: 0.994 x 18.5, cavity 4, ring 1.5; the cable 1.82 and its ring
    assert figures(worked)["horn.return.resistance"] == pytest.approx(0.994 * 18.5 + 4 + 1.5 + 1.82 + 1.5)


def test_a_line_that_is_written_as_not_known_is_not_asked_for(tmp_path: Path) -> None:
    worked = work(
        tmp_path, MOVED.replace("USUAL", 'joint: "lap, soldered", overlap: 10 mm, slack: 50 mm, ring strip: unknown')
    )
    assert figure(worked, "C1-W2.cut").missing_words == ("k, strip into the ring",)
    assert not [line for line in unseen(worked) if "write usual" in line]

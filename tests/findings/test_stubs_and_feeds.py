"""What is said of cut ends under tape, of a fuse that feeds nothing else, and of feeds of one colour in one plug."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets.connectors import connector_views
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.fuses import fuse_sheet
from aswired.sheets.pages import pages_of
from aswired.sheets.record import record
from aswired.sheets.templates import environment, render
from aswired.site.theme import theme_dir
from findings.jobs import work

CAR = """
    job: Van
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm}
    DONOR
    fuses: {F1: {rating: 5 A, fed: always}, F2: {rating: 5 A, fed: always, feeds: siren}}
    grounds: {L1: {back to: battery-}}
    wires:
      W1: {colour: GN, size: 1 mm2, from: F1, to: FS1, length: 1200 mm}
      W2: {colour: VT, size: 1 mm2, from: F1, to: lamp.2, length: 1200 mm}
      W3: {colour: GY, size: 1 mm2, from: lamp.3, to: L1, length: 300 mm}
      W6: {colour: RD, size: 1 mm2, from: F2, to: siren.1, length: 900 mm}
    splices: {FS1: {}}
    loads:
      lamp a: {between: lamp.1 lamp.3, draws: 1 A}
      lamp b: {between: lamp.2 lamp.3, draws: 1 A}
    changes:
"""
STUB = "      - {id: C1, kind: remove, wires: {W6: {siren.1: gone, F2: HOW}}, made: 2031-05-03 AK}\n"
FEEDS = """
      - {id: C1, kind: terminate, wire: W1, end: FS1, into: lamp.1, gap: 200 mm, piece: COLOUR 1 mm2,
         made: 2031-05-03 AK}
      - {id: C2, kind: terminate, wire: W2, end: lamp.2, into: lamp.5, gap: 200 mm, piece: COLOUR 1 mm2,
         made: 2031-05-03 AK}
"""
GROUNDS = """
      - {id: C1, kind: add, wire: W8, piece: COLOUR 1 mm2, from: lamp.7, to: L1, cut: 300 mm, made: 2031-05-03 AK}
      - {id: C2, kind: add, wire: W9, piece: COLOUR 1 mm2, from: lamp.8, to: L1, cut: 300 mm, made: 2031-05-03 AK}
"""


def car(folder: Path, rows: str, donor: str = "donor colours: BK") -> JobResult:
    return work(folder, CAR.replace("DONOR", donor) + rows)


def same_colour(worked: JobResult) -> list[str]:
    return [finding.entry for finding in worked.findings if finding.code == "COL02"]


@pytest.mark.parametrize("letters", ["BK", "BN", "BK, BN", "BU"])
def test_feeds_of_one_colour_in_one_plug_are_told_whatever_means_ground(tmp_path: Path, letters: str) -> None:
    for colour in ("BK", "BN", "BU"):
        worked = car(tmp_path / colour, FEEDS.replace("COLOUR", colour), f"donor colours: [{letters}]")
        assert same_colour(worked) == ["C1-W1"], (letters, colour)


def test_grounds_of_one_colour_in_one_plug_are_as_it_should_be(tmp_path: Path) -> None:
    assert same_colour(car(tmp_path / "ground", GROUNDS.replace("COLOUR", "BN"), "donor colours: BN")) == []
    assert same_colour(car(tmp_path / "other", GROUNDS.replace("COLOUR", "GN"), "donor colours: BN")) == ["C1-W8"]


# ---- stubs ----------------------------------------------------------------------------------------------------------
def pages(worked: JobResult) -> dict[str, str]:
    """Address within the job -> the words of the page, every page of the job."""
    made, shop = environment(theme_dir()), ShopFacts("shop", {})
    found = list(pages_of(frame_of(worked, shop)))
    return {page.uri: " ".join(html.unescape(re.sub(r"<[^>]+>", " ", render(made, page))).split()) for page in found}


@pytest.mark.parametrize("row", [
    "      - {id: C1, kind: cap, wire: W6, end: F2, stub: 30 mm, far: gone, cover: cloth tape, made: 2031-05-03 AK}\n",
    STUB.replace("HOW", "taped 30 mm"),
])  # fmt: skip
def test_a_stub_closed_by_tape_is_nowhere_called_capped(tmp_path: Path, row: str) -> None:
    worked = car(tmp_path, row)
    told = pages(worked)
    assert len(told) > 15
    for uri, words in told.items():
        assert not re.search(r"\b[Cc]ap(s|ped)? ", words.replace("Cap it, and write the cap and its seal", "")), uri
    assert [finding.code for finding in worked.findings if finding.entry == "C1-W6-F2"] == ["END07"]


@pytest.mark.parametrize(("how", "closed"), [("taped 30 mm", "under tape"), ("capped 30 mm", "capped")])
def test_a_fuse_that_feeds_only_a_stub_is_so_on_every_page(tmp_path: Path, how: str, closed: str) -> None:
    worked = car(tmp_path, STUB.replace("HOW", how))
    said = f"only the cut end C1-W6-F2, {closed}"
    (finding,) = [finding for finding in worked.findings if finding.code == "FUS02"]
    assert finding.problem == f"F2 feeds {said} (see C1)"
    told = pages(worked)
    assert {"fuses.html", "record.html", "tests.html"} <= {
        uri.rpartition("/")[2]
        for uri, words in told.items()
        if said[1:] in words  # it may begin a sentence
    }
    assert not any("no traced load" in words for words in told.values())
    row = next(row for row in fuse_sheet(worked).rows if row.name == "F2")
    assert row.beside is not None
    assert (row.amps, row.beside.share) == ("nothing", "nothing")  # not "not recorded": a cut end takes no current


def test_a_fuse_whose_stub_nobody_looked_at_may_feed_something(tmp_path: Path) -> None:
    worked = car(tmp_path, STUB.replace("HOW", "unknown"))
    assert not [finding for finding in worked.findings if finding.code == "FUS02"]
    assert any("no traced load" in words for words in pages(worked).values())


def test_a_fuse_that_feeds_only_a_loose_end_is_told_though_no_row_touched_it(tmp_path: Path) -> None:
    donor = "donor colours: BK"
    car_as_it_came = CAR.replace("DONOR", donor).replace("from: F2, to: siren.1", "from: F2, to: loose")
    worked = work(tmp_path, car_as_it_came + "      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}\n")
    (finding,) = [finding for finding in worked.findings if finding.code == "FUS02"]
    assert finding.problem == "F2 feeds only the cut end W6-loose, cut off before"


def test_a_stub_on_a_spare_fuse_is_live_only_with_a_fuse_in_it(tmp_path: Path) -> None:
    said = "fed by F2 (left spare: only with a fuse in it)"
    worked = car(tmp_path, STUB.replace("HOW", "capped 30 mm").replace("made:", "spare: [F2], made:"))
    assert said in pages(worked)[next(uri for uri in pages(worked) if uri.endswith("record.html"))]


@pytest.mark.parametrize(("cover", "told"), [("cloth wrap", True), ("friction band", True), ("crimp cap", False)])
def test_what_is_only_wound_on_is_no_cap(tmp_path: Path, cover: str, told: bool) -> None:
    row = f"      - {{id: C1, kind: cap, wire: W6, end: F2, far: gone, cover: {cover}, made: 2031-05-03 AK}}\n"
    assert ("END07" in {finding.code for finding in car(tmp_path, row).findings}) is told


def test_a_ground_colour_on_a_fed_wire_is_told_though_no_load_is_on_record(tmp_path: Path) -> None:
    feed = "      - {id: C1, kind: add, wire: W8, piece: BN 1 mm2, from: F2, to: dome.3, cut: 900 mm}\n"
    assert [
        finding.entry for finding in car(tmp_path, feed, "donor colours: BN").findings if finding.code == "COL03"
    ] == ["C1-W8"]
    ground = feed.replace("from: F2", "from: L1")
    assert "COL03" not in {finding.code for finding in car(tmp_path / "ground", ground, "donor colours: BN").findings}
    red = ground.replace("BN", "RD")
    assert "COL03" in {finding.code for finding in car(tmp_path / "red", red, "donor colours: BN").findings}


def test_wires_of_one_plug_that_are_lengthened_by_two_rows_lie_in_one_bundle(tmp_path: Path) -> None:
    rows = """
      - {id: C1, kind: extend, plug: lamp, wire: W2, pigtail: 200 mm, gap: 400 mm, piece: BU 1 mm2}
      - {id: C2, kind: extend, plug: PLUG, wire: W6, pigtail: 260 mm, gap: 400 mm, piece: BU 1 mm2}
    """
    text = CAR.replace("DONOR", "donor colours: BK").replace("to: siren.1", "to: lamp.5")
    assert same_colour(work(tmp_path / "one", text + rows.replace("PLUG", "lamp"))) == ["C1-W2"]
    assert same_colour(car(tmp_path / "two", rows.replace("PLUG", "siren"))) == []


def test_a_cap_whose_rest_went_with_its_part_says_what_a_removal_says(tmp_path: Path) -> None:
    rows = {
        "remove": STUB.replace("HOW", "capped 30 mm").replace("made:", "why: no siren, made:"),
        "cap": "      - {id: C1, kind: cap, wire: W6, end: F2, stub: 30 mm, far: gone, cover: crimp cap, "
        "why: no siren, made: 2031-05-03 AK}\n",
    }
    text = CAR.replace("DONOR", "donor colours: BK").replace(
        "    changes:", "      siren: {between: siren.1 siren.2, draws: 5 A, verdict: deleted}\n    changes:"
    )
    for kind, row in rows.items():
        worked = work(tmp_path / kind, text + row)
        (siren,) = [view for view in connector_views(worked) if view.name == "siren"]
        assert [cavity.now_words for cavity in siren.cavities] == ["left the car"], kind
        assert [(gone.name, gone.why, gone.rows) for gone in record(worked).deleted] == [("siren", "no siren", ("C1",))]
        other = row + "      - {id: C2, kind: add, wire: W9, piece: BU 1 mm2, from: siren.2, to: L1}\n"
        found = work(tmp_path / f"{kind} and more", text + other).findings
        assert [finding.entry for finding in found if finding.code == "END08"] == ["C1"], kind


@pytest.mark.parametrize(("second_mm", "code"), [(200, "SPL01"), (245, "SPL02"), (250, "")])
def test_splices_of_one_plug_are_held_apart_though_no_route_is_on_record(
    tmp_path: Path, second_mm: int, code: str
) -> None:
    # centres lie as far apart as the cuts: 0, 45 and 50 mm; 40 mm is wanted, staggered 50 mm (limits)
    rows = f"""
      - {{id: C1, kind: extend, plug: lamp, wire: W2, pigtail: 200 mm, gap: 400 mm, piece: BU 1 mm2}}
      - {{id: C2, kind: extend, plug: lamp, wire: W6, pigtail: {second_mm} mm, gap: 400 mm, piece: RD 1 mm2}}
    """
    text = CAR.replace("DONOR", "donor colours: BK").replace("to: siren.1", "to: lamp.5")
    found = [(f.code, f.entry) for f in work(tmp_path, text + rows).findings if f.code in ("SPL01", "SPL02")]
    assert found == ([(code, "C2-W6-plug")] if code else [])


def test_the_areas_of_two_metals_are_not_one_measure(tmp_path: Path) -> None:
    row = "      - {id: C1, kind: extend, plug: lamp, wire: W2, pigtail: 200 mm, gap: 400 mm, piece: BU 0.75 mm2}\n"
    text = CAR.replace("DONOR", "donor colours: BK") + row
    assert "SIZ01" in {finding.code for finding in work(tmp_path / "copper", text).findings}
    clad = text.replace("to: lamp.2, length: 1200 mm", "to: lamp.2, length: 1200 mm, conductor: aluminium")
    assert "SIZ01" not in {finding.code for finding in work(tmp_path / "aluminium", clad).findings}


def test_a_wire_that_a_switch_joins_to_source_and_ground_is_on_neither_side(tmp_path: Path) -> None:
    feed = "      - {id: C1, kind: add, wire: W8, piece: BN 1 mm2, from: F2, to: sw.1, cut: 900 mm}\n"
    ground = "      - {id: C2, kind: add, wire: W9, piece: GY 1 mm2, from: sw.2, to: L1, cut: 900 mm}\n"
    text = CAR.replace("DONOR", "donor colours: BN").replace(
        "    loads:", "    switches: {horn: {between: sw.1 sw.2}}\n    loads:"
    )
    colours = {f.entry for f in work(tmp_path / "joined", text + feed + ground).findings if f.code == "COL03"}
    assert colours == set()  # a horn ring switched to ground: the same wire is feed and return
    alone = {f.entry for f in work(tmp_path / "alone", text + feed).findings if f.code == "COL03"}
    assert alone == {"C1-W8"}

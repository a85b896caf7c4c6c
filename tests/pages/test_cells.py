"""What stands in which column of a page's tables: each cell under its own heading, of small jobs worked by hand."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from aswired.pages import (
    bundles,
    circuits,
    connectors,
    differences,
    extensions,
    fuses,
    grounds,
    materials,
    readings,
    record,
    splices,
    tests,
    worksheet,
)
from aswired.worked import Worked
from tests.crawl.tree import Element
from tests.findings.jobs import work
from tests.pages.test_agree import page

# A cell whose own heading (shown where the table is stacked) is shorter than the head of its column, or stands for none
SHORT = {
    ("Thickest bundle in it", "Thickest in it"),
    ("Joints, centre on the finished car", "Joints"),
    ("", "Fits"),
    ("", "That is"),
}

# One lamp and one pump. Nothing but copper has a resistance, so that what is lost is length times mohm/m.
VAN = """
    job: Van
    supply: 12 V
    temperature: 20 C
    body returns: no
    handed over: 2031-05-20
    usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm, ring strip: 6 mm,
      joint resistance: 0 mohm, cavity resistance: 0 mohm, ring resistance: 0 mohm, fuse resistance: 0 mohm,
      switch resistance: 0 mohm, tape width: 19 mm}
    accepted: [{finding: COL04, by: JT, why: no other reel}]
    looms: {rear: {donor: hatchback, colour letters: {B: BU}, donor colours: BN}}
    modules: {unit: {out: {1: sender feed}}}
    landmarks: {box: under the seat, wall: firewall, nose: takeout, lug: stud on the rail}
    holes: {wall: {through: sheet metal, grommet: yes, bore: 20 mm}}
    route:
      - {from: box, to: wall, length: 1000 mm, zone: dry, name: cabin leg}
      - {from: wall, to: nose, length: 2000 mm, zone: wet}
    plugs:
      lamp: {ways: 2, at: nose}
      pump: {ways: 2, at: nose}
    fuses:
      F0: {rating: 20 A, in: box, fed: always}
      F1: {rating: 15 A, in: box, fed: unknown}
      F2: {rating: 5 A, in: wall, fed: ignition}
    switches: {lamp switch: {between: sw.1 sw.2}}
    loads:
      lamp: {between: lamp.1 lamp.2, draws: 10 A, class: lamp}
      pump: {between: pump.1 pump.2, draws: 2 A, class: pump}
      sender: {between: sender.1 sender.2, draws: 10 mA, class: sensor}
    grounds:
      L1: {at: lug, what: wing stud, stud: M6, bolted to: rail, conducts: yes, cable: 10 mm2, cable length: 1 m,
        back to: battery-}
      L2: {at: wall, stud: M5, bolted to: rail, conducts: yes, cable: 4 mm2, cable length: 1 m, back to: battery-}
      G9: {what: old stud, at: nose, gone: yes}
    wires:
      W0: {colour: RD, size: 2.5 mm2, from: F0, to: F1.feed, length: 1 m}
      W1: {colour: GN, size: 2.5 mm2, from: F1, to: sw.1, length: 1 m}
      W2: {colour: GN/WH, size: 2.5 mm2, from: sw.2, to: lamp.1, length: 2 m}
      W3: {colour: BN, size: 1.5 mm2, from: lamp.2, to: L1, length: 1 m}
      W4: {colour: VT, size: 1.0 mm2, from: F2, to: pump.1, length: 3 m}
      W5: {colour: BK, size: 1.0 mm2, from: pump.2, to: L1, length: 1 m}
      W8: {colour: B, size: 0.5 mm2, from: F2, to: sender.1, length: 1 m, loom: rear}
      W9: {colour: BN, size: 0.5 mm2, from: sender.2, to: L2, length: 1 m, note: brittle}
      W10: {colour: PK, size: 0.75 mm2, from: F2, to: horn.1, length: 1 m}
      K1: {colour: BK, size: 0.5 mm2, from: battery+, to: F2.feed, length: 150 mm, special: fusible link,
        protects: [W4]}
      W6: {colour: GY, size: 0.5 mm2, from: old.1, to: old.2, length: 1 m}
    changes:
      - {id: C1, kind: extend, wire: W4, plug: pump, gap: 400 mm, pigtail: 100 mm, piece: BU 1.0 mm2, batch: [reel 9],
         made: 2031-05-02 AK, sealed: 2031-05-02 AK}
      - {id: C2, kind: verify, proves: [C1], test: pump on, expect: runs, made: 2031-05-03 JT}
      - {id: C3, kind: remove, wire: W6, ends: {old.1: pulled, old.2: pulled}, reclaimed: {O1: GY 900 mm},
         why: no such lamp, made: 2031-05-03 AK}
      - {id: C4, kind: add, wire: W7, from: F2, to: pump.3, piece: GY 0.5 mm2 from O1, cut: 300 mm, made: 2031-05-04 AK}
      - {id: C5, kind: protect, fuse: F1, rating: 10 A, made: 2031-05-05 AK}
      - {id: C6, kind: cover, cover: cloth tape half lapped, from: wall, to: nose,
         made: 2031-05-06 AK}
      - {id: C7, kind: extend, wire: W2, plug: lamp, gap: 200 mm, pigtail: 100 mm, piece: OG 2.5 mm2}
      - {id: C8, kind: remove, wire: W10, ends: {F2: capped 30 mm, horn.1: gone}, made: 2031-05-06 AK,
         sealed: 2031-05-06 AK}
      - {id: C9, kind: protect, relay: K3, feeds: fan, fed: ignition, made: 2031-05-07 AK}
    service:
      - {id: S1, on: 2031-05-25 JT, complaint: lamp dim, measured: [R3 low], found: bulb old, readings: [R3]}
    readings:
      - {id: R1, red: lamp.1, black: battery-, with: lamp on, of: lamp, read: 11.2 V, limit: 11 V, on: 2031-05-06, by: AK}
      - {id: R2, red: lamp.1, black: lamp.2, of: lamp, read: 11.3 V, on: 2031-05-07}
      - {id: R3, red: lamp.1, black: battery-, with: lamp on, of: lamp, read: 11.0 V, on: 2031-05-25}
"""


def rows(shown: Element) -> Iterator[dict[str, str]]:
    """Every row of every table of a page: heading of the column -> text of the cell. A cell that names its heading
    itself, for a narrow screen, names that of its column."""
    for table in shown.first("main").all("table"):
        heads = [head.text for head in table.first("thead").all("th")]
        for body in table.all("tbody"):
            for row in body.all("tr"):
                cells = [cell for cell in row.inside if isinstance(cell, Element)]
                if any("colspan" in cell.attributes for cell in cells):
                    continue
                assert len(cells) == len(heads), (heads, [cell.text for cell in cells])
                found = {}
                for place, (head, cell) in enumerate(zip(heads, cells, strict=True)):
                    own = cell.attributes.get("data-h", head)
                    assert own == head or (head, own) in SHORT or head == f"mV at {own}", (head, own)
                    found[own if own not in found else f"{own} {place}"] = cell.text
                yield found


def stands(shown: Element, heads: str, *lines: str) -> None:
    """Heads of a table and some of its rows, cells set apart by |: each row stands on the page, each cell in its
    column. Columns that are not named are not looked at."""
    names = [name.strip() for name in heads.split("|")]
    known = [{name: row.get(name) for name in names} for row in rows(shown) if set(names) <= set(row)]
    for line in lines:
        said = dict(zip(names, (cell.strip() for cell in line.split("|")), strict=True))
        assert said in known, (said, known)


@pytest.fixture(scope="module")
def van(tmp_path_factory: pytest.TempPathFactory) -> Worked:
    return work(tmp_path_factory.mktemp("van"), VAN)


# ---- fuses, extensions, splices -------------------------------------------------------------------------------------
def test_fuses(van: Worked) -> None:
    """2.5 mm2 is planned for 20 A and 0.5 mm2 for 5 A; AC 43.13-1B Table 11-3: 14 AWG 15 A, 22 AWG 5 A (from memory).
    Link: 1.0 mm2 to 0.5 mm2 is half the copper, and a gauge number is a factor of 1.26 = 2 ** (1/3): 3 numbers."""
    shown = page(fuses, van)
    stands(
        shown,
        "Fuse | Rating | Feeds now | Live | All on | Thinnest wire | Planning | Verdict",
        "F0 | 20 A | lamp | live: always | 10.0 A all on | RD W0, 2.5 mm² | planned for 20.0 A | suits the wire",
        "F1 | 10 A | lamp set by C5 | live: unknown | 10.0 A all on | GN W1, 2.5 mm² | planned for 20.0 A "
        "| suits the wire",
        "F2 | 5 A | pump, sender where: wall, firewall | live: ignition | 2.0 A all on | BU W8, 0.5 mm² "
        "| planned for 5.0 A | suits the wire",
    )
    stands(
        shown,
        "Fuse | Rating | AC 43.13-1B | Stay on | Bare wire",
        "F1 | 10 A | AC 43.13-1B 15.0 A | stay on not recorded | bare wire none, behind F0",
        "F2 | 5 A | AC 43.13-1B 5.0 A | stay on not recorded | bare wire not recorded",
    )
    stands(
        shown,
        "Link | Size | Length | Protects",
        "K1 | BK 0.5 mm² | 150 mm | W4 1.0 mm², the link is 3 gauge numbers thinner",
    )
    stands(
        shown,
        "Relay | Where | Worked by | Feeds | Live | Set by",
        "K3 | not recorded | not recorded | fan | ignition | C9",
    )


def test_extensions(van: Worked) -> None:
    """C1: 400 + 50 of slack + 2 laps of 10 = 470, which gain 470 - 20 = 450. C7: 200 + 50 + 20 = 270, gains 250.
    O1: 900 - 300 = 600."""
    shown = page(extensions, van)
    stands(
        shown,
        "Piece | Colour | Size | Cut | Gain | From | State",
        "C1 W4 | BU blue on VT | 1.0 mm² | cut 470 mm | gain 450 mm | no offcut noted | tested",
        "C7 W2 | OG orange on GN/WH | 2.5 mm² | cut 270 mm | gain 250 mm | no offcut noted | planned",
    )
    stands(shown, "Piece | Gain | From | State", "C4 W7 | gain a new wire | offcut O1 | made")
    stands(
        shown,
        "Colour | Size | Pieces | Length | Without offcut",
        "BU blue | 1.0 mm² | 1 | 470 mm | 470 mm",
        "GY grey | 0.5 mm² | 1 | 300 mm | none",
    )
    stands(shown, "Circuit | Pieces | Length", "lamp | 1 | 270 mm", "pump | 1 | 470 mm")
    stands(
        shown,
        "Offcut | Colour | Size | Length | Came from | Cut from it | Left",
        "O1 | GY grey | 0.5 mm² | 900 mm | C3 | C4-W7 300 mm | 600 mm",
    )


def test_splices(van: Worked) -> None:
    """Half a lap of 10 beyond the cut face: 100 - 5 and 3000 - 100 - 5. By tape the far one lies 95 + 5 + 400 + 5 =
    505 mm from the nose, so 2000 - 505 from the wall."""
    shown = page(splices, van)
    stands(
        shown,
        "Splice | Place | Wires joined | How | State | Photo",
        "C1-W4-plug | 95 mm from nose towards wall wet centre 95 mm from pump.1; cut mark 100 mm from pump.1 "
        "| BU blue 1.0 mm², W4 to C1-W4-loom VT violet 1.0 mm², W4 to pump.1 pump | as all | tested | no photo",
        "C1-W4-loom | 1 495 mm from wall towards nose wet centre 2 895 mm from F2; cut mark 2 900 mm from F2 "
        "| VT violet 1.0 mm², W4 to F2 BU blue 1.0 mm², W4 to C1-W4-plug pump | as all | tested | no photo",
    )
    stands(
        shown,
        "From | To | Length | Runs through | Called",
        "box | wall | 1 000 mm | dry | cabin leg",
        "wall | nose | 2 000 mm | wet |",
    )

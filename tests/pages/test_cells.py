"""What stands in which column of a page's tables: each cell under its own heading, of small jobs worked by hand."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets import (
    bundles,
    circuits,
    connectors,
    differences,
    extensions,
    fuses,
    grounds,
    materials,
    overview,
    readings,
    record,
    splices,
    tests,
    worksheet,
)
from aswired.sheets.search import entries_of
from tests.crawl.tree import Element
from tests.electric.test_ways_home import LOOP
from tests.figures.test_figures_protection import NOSE
from tests.findings.jobs import proved, work
from tests.pages.small import small
from tests.pages.test_agree import page
from tests.work.test_places_after_later_rows import MOVED, later

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
    switches: {lamp switch: {between: sw.1 sw.2, what: toggle, at: wall}}
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
      W11: {colour: PK, size: 0.75 mm2, from: F2, to: bell.1, length: 1 m}
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
      - {id: C10, kind: remove, wire: W11, ends: {F2: capped 20 mm, bell.1: gone}}
      - {id: C11, kind: add, wire: W13, from: F2, to: bell.2, piece: GY 0.5 mm2 from O1, cut: 200 mm, terminal: spade,
         only if: bell is fitted}
    options: {bell: {is: fitted, could be: [none]}}
    service:
      - {id: S1, on: 2031-05-25 JT, complaint: lamp dim, measured: [R3 low], found: bulb old, readings: [R3]}
    readings:
      - {id: R1, red: lamp.1, black: battery-, with: lamp on, of: lamp, read: 11.2 V, limit: 11 V, on: 2031-05-06,
         by: AK, supply: 12 V}
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
def van(tmp_path_factory: pytest.TempPathFactory) -> JobResult:
    """The van, in a shop with conduits and sleeves on the wall."""
    shop = tmp_path_factory.mktemp("shop")
    (shop / "shop.yml").write_text("conduits: [10 mm, 15 mm]\nsleeves: [3 mm, 6 mm]\n", encoding="utf-8")
    return work(shop / "van", VAN)


# ---- fuses, extensions, splices -------------------------------------------------------------------------------------
def test_fuses(van: JobResult) -> None:
    """2.5 mm2 is planned for 20 A and 0.5 mm2 for 5 A; AC 43.13-1B Table 11-3: 14 AWG 15 A, 22 AWG 5 A (from memory).
    Link: 1.0 mm2 to 0.5 mm2 is half the copper, and a gauge number is a factor of 1.26 = 2 ** (1/3): 3 numbers."""
    shown = page(fuses, van)
    stands(
        shown,
        "Fuse | Rating | Feeds now | Live | All on | Thinnest wire | Planning | Verdict",
        "F0 | 20 A | lamp | live: always | 10.0 A all on | RD W0, 2.5 mm² | may carry 20.0 A | suits the wire",
        "F1 | 10 A | lamp set by C5 | live: unknown | 10.0 A all on | GN W1, 2.5 mm² | may carry 20.0 A "
        "| suits the wire",
        "F2 | 5 A | pump, sender also on it: not written: what is behind bell, what is behind pump "
        "where: wall, firewall | live: ignition | 2.0 A all on | BU W8, 0.5 mm² "
        "| may carry 5.0 A | suits the wire",
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


def test_extensions(van: JobResult) -> None:
    """C1: 400 + 50 of slack + 2 laps of 10 = 470, which gain 470 - 20 = 450. C7: 200 + 50 + 20 = 270, gains 250.
    O1: 900 - 300 - 200 = 400."""
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
        "GY grey | 0.5 mm² | 2 | 500 mm | none",
    )
    stands(shown, "Circuit | Pieces | Length", "lamp | 1 | 270 mm", "pump | 1 | 470 mm")
    stands(
        shown,
        "Offcut | Colour | Size | Length | Came from | Cut from it | Left",
        "O1 | GY grey | 0.5 mm² | 900 mm | C3 | C4-W7 300 mm, C11-W13 200 mm | 400 mm",
    )


def test_splices(van: JobResult) -> None:
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


# ---- grounds, circuits, readings, tests -----------------------------------------------------------------------------
def test_grounds(van: JobResult) -> None:
    """10 mm2: 1.82 mohm/m (ISO 6722-1, from memory). 12 A 21.8 mV, 2 A of the pump alone 3.6 mV."""
    shown = page(grounds, van)
    stands(
        shown,
        "Point | Where | Wires that land here | Rings | All on | Rise | Back to",
        "L1 | lug, stud on the rail wing stud stud M6, bolted to rail | BN W3 1.5 mm² BK W5 1.0 mm² | rings 2 of 4 "
        "| 12.0 A all on | 0.02 V rise | back to battery-, 10 mm², 1 000 mm",
        "L2 | wall, firewall stud M5, bolted to rail | BN W9 0.5 mm² | rings 1 of 4 | 10 mA all on | 0.0 mV rise "
        "| back to battery-, 4 mm², 1 000 mm",
    )
    stands(shown, "Point | Sensors | Else on it | Verdict", "L2 | sender | nothing else on record | apart")
    stands(
        shown,
        "State | On | Current | Rise",
        "key off, nothing switched on | pump | 2.0 A current | 3.6 mV rise",
        "lamp switch closed (toggle) | lamp, pump | 12.0 A current | 0.02 V rise",
    )
    stands(shown, "Point | State | Where | What", "G9 | gone | nose, takeout | old stud")


def test_circuits(van: JobResult) -> None:
    """Millimetres squared to mohm/m: 0.5 37.1, 1.0 18.5, 1.5 12.7, 2.5 7.6, 10 1.82 (ISO 6722-1, from memory).
    Lamp: 10 A over 4 m of 2.5 mm2 304 mV, 1 m of 1.5 mm2 127 and the cable 18.2: 0.45 V.
    Pump: 2 A over 2895 + 460 + 95 mm of 1.0 mm2 127.7 mV, the link 0.15 m 11.1, back 37.0 and the cable 3.6: 0.18 V;
    with 12 A in the cable 21.8: 0.20 V. 3 % of 12 V: 0.36 V."""
    shown = page(circuits, van, "circuits.html")
    stands(
        shown,
        "Load | Fuse | Feed | Colours along the feed | Return | Ground | Current | Drop alone | Drop, all on | Limit "
        "| Verdict",
        "lamp | fuse F0 F1 | feed complete | RD then GN then GN/WH | return complete | ground L1 | 10.0 A current "
        "| 0.45 V drop alone | 0.45 V all on | 0.36 V limit | over",
        "pump | fuse F2 | feed complete | BK then VT then BU then VT | return complete | ground L1 | 2.0 A current "
        "| 0.18 V drop alone | 0.20 V all on | 0.36 V limit | within",
    )
    stands(
        shown,
        "Name | What | Where | Joins | At rest | Worked by",
        "lamp switch | toggle | wall, firewall | sw.1 and sw.2 | open |",
    )
    pump = page(circuits, van, "pump.html")
    stands(
        pump,
        "State | Feed | Return | Whole",
        "alone | 0.14 V | 0.04 V | 0.18 V",
        "all loads on | 0.14 V | 0.06 V | 0.20 V",
    )
    stands(pump, "Rule | Allowed | Expected | Verdict", "3 % of the supply | 0.36 V | 0.20 V | within")
    stands(
        pump,
        "What | A, all on | mΩ | mV alone | mV all on | Bar",
        "W5 1.0 mm², 1 000 mm | 2.0 A | 18.5 mΩ | 37.0 mV alone | 37.0 mV all on |",
        "cable L1 to battery- | 12.0 A | 1.8 mΩ | 3.6 mV alone | 21.8 mV all on |",
    )
    stands(
        pump,
        "Point or wire | What | Length",
        "W4 | VT violet 1.0 mm² | 3 000 mm",
        "F2 | Fuse, 5 A |",
    )
    (link,) = [row for row in rows(pump) if row.get("Part") == "K1 from F2.feed to battery+"]
    assert (link["No"], link["Length"], link["mΩ"], link["From"]) == ("1", "150 mm", "5.6", "a")
    assert float(link["at worst"]) > 5.6
    # 0.449 of 12 V less: (1 - 0.0374) ** 3.4 = 0.878 of a filament's light
    lamp = page(circuits, van, "lamp.html")
    stands(lamp, "State | Feed | Return | Whole | Light lost", "alone | 0.30 V | 0.15 V | 0.45 V | 12.2 %")
    stands(
        lamp,
        "Reading | Red lead | Black lead | With | Read | When",
        "R1 | lamp.1 | battery- | lamp on | 11.2 V | 6 May 2031",
        "R2 | lamp.1 | lamp.2 | not recorded | 11.3 V | 7 May 2031",
    )


def test_steps_of_a_circuit_and_of_the_test_sheet(van: JobResult) -> None:
    """Way of the lamp: 3 m of 2.5 mm2 22.8 mohm, with 0.2 ohm under 0.22. Back 12.7 + 1.8 = 14.5. Pump back:
    18.5 + 1.8 = 20.3, and 18 mV: 10 A more over 1.8 mohm."""
    lamp, sheet = page(circuits, van, "lamp.html"), page(tests, van, "tests.html")
    lead = "F1load leg of the fuse, box | lamp.1back of the connector, nose"
    stands(
        lamp,
        "Step | Red lead | Black lead | Own | Meter shows | Outside it, look at",
        f"Feed, end to end close by hand: lamp switch | {lead} | 22.8 mΩ | under 0.22 Ω "
        "| wire W1, contact sw.1, switch lamp switch wall, firewall, contact sw.2, wire W2, contact lamp.1",
    )
    stands(
        lamp,
        "Step | Red lead | Black lead | Expected | Sound | Outside it, look at",
        "Feed, live | F0.feedfeed leg of the fuse, box | battery-battery post | 12.00 V | as the battery |",
    )
    stands(
        sheet,
        "Step | Red lead | Black lead | Own | Meter shows | Read | By",
        f"lamp Feed, end to end close by hand: lamp switch | {lead} | 22.8 mΩ | under 0.22 Ω | |",
    )
    stands(
        sheet,
        "Step | Red lead | Black lead | Expected | Sound | Read | By",
        "Feed, live | F0.feedfeed leg of the fuse, box | battery-battery post | 12.00 V | as the battery | |",
    )
    stands(
        page(circuits, van, "pump.html"),
        "Switched on beside it | Moves",
        "lamp close lamp switch | up by 18 mV",
    )


def test_fuses_of_the_test_sheet(van: JobResult, tmp_path: Path) -> None:
    """A fuse whose feed side was not read is live when the fuse before it is in. 5 mohm: 0.05 mV at 10 mA."""
    stands(
        page(tests, van, "tests.html"),
        "Fuse | Where | Live | Loads behind it | Dark | Fuse in",
        "F0 20 A | box, under the seat | always | May go in. lamp | |",
        "F1 10 A | box, under the seat | behind F0 | May go in. lamp | |",
        "F2 5 A | wall, firewall | key on ignition | Leave it out: not all of its wires are proved. pump, sender | |",
    )
    five = work(tmp_path, VAN.replace("fuse resistance: 0 mohm", "fuse resistance: 5 mohm"))
    stands(
        page(tests, five, "tests.html"),
        "Fuse | Resistance | From | 10 mA | 50 mA | 100 mA | Read | By",
        "F0 20 A | 5.00 mΩ | allowance, usual: fuse resistance 5 mΩ | 0.05 | 0.25 | 0.50 | |",
    )


def test_readings(van: JobResult) -> None:
    """A filament's current goes with the 0.55th power of its volts: 9.8 A at 11.56 V, so 12 - 9.8 * 0.0304 = 11.70 V
    at lamp.1 and 12 - 9.8 * 0.0449 = 11.56 V over the lamp. R3 after R1: 11.0 - 11.2."""
    shown = page(readings, van)
    heads = "Reading | Of | Red lead | Black lead | Switched on | Limit | Read | Verdict | Battery | When"
    stands(
        shown,
        heads,
        "R1 | lamp | lamp.1 | battery- | lamp on | 11 V | 11.2 V | over the limit as expected | 12 V | 6 May 2031, AK",
        "R2 | lamp | lamp.1 | lamp.2 | not recorded | not recorded | 11.3 V | as expected | not recorded | 7 May 2031",
    )
    (second,) = [row for row in rows(shown) if row.get("Reading") == "R2" and "Expected" in row]
    assert second["Expected"].startswith("11.56 V ")
    since = "Since the hand-over, 6 May 2031"
    stands(
        shown,
        f"Reading | When | Read | {since} | Battery",
        "R1 | 6 May 2031 | 11.2 V | hand-over | 12 V",
        "R3 | 25 May 2031 | 11.0 V | −0.20 V | not recorded",
    )
    stands(
        shown,
        "Check | Proves | What is measured | Should read | Read | State",
        "C2 | C1 | pump on | runs | no figure recorded | made",
    )


# ---- record, material, bundles, work sheet --------------------------------------------------------------------------
def test_record(van: JobResult) -> None:
    """Figures as on the sheets themselves, see above."""
    shown = page(record, van)
    stands(shown, "What | Why | Change", "wire W6 | no such lamp | C3")
    stands(
        shown,
        "Fuse | Rating | Feeds now | Live | All on | Thinnest wire | Verdict",
        "F0 | 20 A | lamp | always | 10.0 A | 2.5 mm², W0 | suits the wire",
    )
    stands(
        shown,
        "Loom | Harness from | Its colour letters | Ground colours | Wires",
        "rear | hatchback | B BU blue | BN | 1 wire",
    )
    stands(
        shown,
        "Change | What was done | When",
        "C5 made | Fuse F1 assigned. Rating 10 A. | made 5 May 2031, AK",
    )
    stands(
        shown,
        "Cut end | Wire | Hangs on | Length | Cover | Live",
        "C8-W10-F2 | W10 PK 0.75 mm² | F2 | 30 mm | capped | fed by battery+",
    )
    stands(
        shown,
        "Splice | Place | Wires joined | Circuit",
        "C1-W4-plug | 95 mm from nose towards wall wet wire: 95 mm from pump.1; tested "
        "| BU blue 1.0 mm² VT violet 1.0 mm² | pump",
    )
    stands(
        shown,
        "Piece | Colour | Size | Length | Gain | From",
        "C1 W4 | BU blue on VT | 1.0 mm² | 470 mm | 450 mm | no offcut noted",
        "C4 W7 | GY grey | 0.5 mm² | 300 mm | a new wire | offcut O1",
    )
    stands(
        shown,
        "Offcut | Colour | Size | Length | Came from | Pieces cut from it | Left",
        "O1 | GY | 0.5 mm² | 900 mm | C3 | C4-W7 300 mm, C11-W13 200 mm | 400 mm",
    )
    stands(
        shown,
        "Point | Where | Loads that return here | Rings | All on | Rise | Back to | Read 20__",
        "L1 | lug, stud on the rail M6 | lamp, pump | 2 of 4 | 12.0 A | 0.02 V | battery-, 10 mm², 1 000 mm |",
    )
    stands(
        shown,
        "Reading | Red to black lead | With | Read | When | 20__",
        "R1 lamp | lamp.1 to battery- | lamp on | 11.2 V over the limit | 6 May 2031, AK |",
    )
    (first,) = [row for row in rows(shown) if row.get("Reading") == "R1 lamp"]
    assert first["Limit"].startswith("11 V expected ")
    stands(
        shown,
        "Check | Proves | What is measured | Should read | State | Readings",
        "C2 | C1 | pump on | runs | made | no figure recorded",
    )
    (let,) = [row for row in rows(shown) if "Accepted by" in row]
    assert let["At"] == "C7-W2"
    assert "orange" in let["Finding"]
    assert (let["Accepted by"], let["Why"]) == ("JT", "no other reel")
    (drop,) = [row for row in rows(shown) if row.get("At") == "lamp"]
    assert "'lamp' loses 0.45 V" in drop["Finding"]
    assert drop["To mend it"].startswith("Shorten the way")
    stands(
        shown,
        "Visit | Complaint | What was measured | It was | Done and read",
        "S1 25 May 2031 JT | lamp dim | 1. R3 low | bulb old | R3",
    )
    blank = next(row for row in rows(shown) if "Distance" in row)  # lines to write on
    assert list(blank.items()) == [("Date", ""), ("Distance", ""), ("What was done, to which id", ""), ("By", "")]


def test_material(van: JobResult, tmp_path: Path) -> None:
    """Outer diameters of thin-wall wire: 0.5 1.6, 1.0 2.1, 2.5 3.0 mm (ISO 6722-1, from memory). Sleeves: 1.2 * 3.0 =
    3.6, the next half 4; 1.2 * 2.1 = 2.5, 3. Tape half lapped covers 9.5 mm a turn: pi * 5.1 / 9.5
    of 2000 mm, 3373."""
    shown = page(materials, van)
    stands(
        shown,
        "Colour | Size | Length | Pieces",
        "OG orange | 2.5 mm² | 270 mm | C7-W2",
        "BU blue | 1.0 mm² | 470 mm | C1-W4",
    )
    stands(
        shown,
        "Cover | Bore, at least | On hand | Each | Number | Together | Over",
        "adhesive sleeve 40 mm | 4 mm | 6 mm | 40 mm | 2 | 80 mm | C7-W2-plug, C7-W2-loom",
    )
    stands(
        shown,
        "Offcut | Wire | Still to cut | Cut already",
        "O1 | GY grey 0.5 mm² | C11-W13 200 mm | C4-W7 300 mm",
    )
    stands(shown, "Terminal | Number | Rows", "spade | 1 | C11")
    stands(shown, "Row | Cover | Length of the run | Tape", "C6 | cloth tape half lapped | 2 000 mm | 3 373 mm")
    stands(shown, "Batch | Went into", "reel 9 | C1 extend W4 pump")
    stands(page(materials, small(tmp_path)), "Hole | Wire | Number | Rows", "M6 | 2.5 mm² | 1 | C21")


def test_bundles(van: JobResult) -> None:
    """Behind the wall lie W2 3.0 mm, W4 2.1 and W7 1.6: the two larger side by side are 5.1, and the smallest fits in
    the gap beside them (Descartes: 1/1.5 + 1/1.05 - 1/2.55 = 1/0.815). Bend: ten times the largest. In the cabin
    W2 alone."""
    shown = page(bundles, van)
    stands(
        shown,
        "Hole | In | Grommet | Clear | Wires | Bundle | Fits",
        "wall firewall | sheet metal | yes | 20.0 mm | 3 wires | 5.1 mm | wide enough for these",
    )
    stands(
        shown,
        "Row | Cover | From, to | Length | Thickest in it | Tape | State",
        "C6 | cloth tape half lapped | wall to nose | 2 000 mm | 5.1 mm | 3.4 m | made",
    )
    # 95 mm from the nose, too near to the splice of W4
    (shift,) = [row for row in rows(shown) if row.get("Splice") == "C7-W2-plug" and "That is" in row]
    assert (shift["Lies at"], shift["State"]) == ("1 905 mm from wall", "planned")
    moved = int(shift["That is"].removeprefix("moves ").removesuffix(" mm"))
    assert shift["Would lie at"] == f"1 {905 - moved} mm from wall"
    stands(
        shown,
        "Splice | Lies at | Would lie at | That is | State",
        "C7-W2-loom | 1 695 mm from wall | 1 695 mm from wall | stays | planned",
    )
    (run,) = [row for row in rows(shown) if row.get("Run from wall") == "whole leg"]
    assert run["Wires"].startswith("3 wires ")
    assert run["Diameter"].startswith("5.1 mm ")
    over, bore = (float(run[head].removesuffix(" mm")) for head in ("Over a splice", "Conduit needs"))
    assert over > 5.1
    assert bore == pytest.approx(1.1 * over, abs=0.1)  # a tenth more
    assert (run["On hand"], run["Bend radius"]) == ("15.0 mm", "30 mm")
    assert run["Splices in it"] == "C1-W4-plug, C1-W4-loom, C7-W2-plug, C7-W2-loom"
    stands(
        shown,
        "Run from box | Over a splice | Conduit needs | On hand | Bend radius | Splices in it",
        "whole leg | | 3.3 mm | 10.0 mm | 30 mm |",
    )


def test_work_sheet(van: JobResult) -> None:
    """C7 adds 250 mm of 2.5 mm2 to the way of the lamp: 10 A over 1.9 mohm 19 mV more than 449."""
    shown = page(worksheet, van, "worksheet.html")
    stands(
        shown,
        "Wire | Cut | Piece | Joints",
        "W2GN/WH green, white stripe 2.5 mm²lamp.1 to sw.2 | 100 mm stays on lamp.11 900 mm stays on sw.2 "
        "| OG orange 2.5 mm²cut to 270 mm "
        "| C7-W2-plug 95 mm from nose towards wallC7-W2-loom 305 mm from nose towards wall",
    )
    stands(shown, "Wire | Leave its ends", "W11PK pink 0.75 mm²F2 to bell.1 | F2 capped 20 mm, bell.1 gone")
    stands(shown, "Load | Computed | Limit | Read", "lamp | 0.47 V above the limit | 0.36 V |")


# ---- connectors, differences ----------------------------------------------------------------------------------------
def test_connectors(van: JobResult) -> None:
    shown = page(connectors, van)
    stands(
        shown,
        "Cavity | Now | In the donor | For | Changed by",
        "1 | VT violet 1.0 mm² W4 to C1-W4-plug | the same wireto F2 | pump | C1",
    )
    stands(shown, "Cavity | Now | For", "2 | BN brown 1.5 mm² W3 to L1 | lamp")
    stands(shown, "Cavity | Says | Wire now", "1 | sender feed | not recorded")
    stands(
        shown,
        "Wire | Colour and size | Ends | Recorded of it",
        "W9 | BN brown 0.5 mm² | sender.2 to L2 1 000 mm | Note: brittle",
    )


def test_differences(van: JobResult) -> None:
    """W7 was cut 300 mm, of which 6 are in the terminal at either end."""
    shown = page(differences, van)
    stands(
        shown,
        "Fuses | Donor | Handed over",
        "F1 | 15 A; box; fed unknown; wires W1 | 10 A; box; fed unknown; wires W1",
    )
    stands(shown, "Cavities | Donor | Plan", "horn.1 | W10 | empty", "pump.3 | empty | W7")
    stands(
        shown,
        "Wire | What differs | Donor | Handed over",
        "W7 | put in | no such wire | F2 GY 0.5 mm², 288 mm pump.3",
        "W6 | taken out | old.1 GY 0.5 mm², 1 000 mm old.2 | no such wire",
    )


# ---- words that stand in one place only -----------------------------------------------------------------------------
LINE = """
    job: Line
    supply: 12 V
    body returns: no
    plugs: {mid: {ways: 1, in line: yes}, pump: {ways: 2}}
    fuses: {F1: {rating: 5 A, fed: always}}
    wires:
      W1: {colour: GN, size: 1.0 mm2, from: F1, to: mid.1, length: 1 m}
      W2: {colour: GN, size: 1.0 mm2, from: mid.1, to: pump.1, length: 1 m}
"""


def test_a_way_home_is_told_from_where_its_current_comes(tmp_path: Path) -> None:
    """L1 open: what lands on it goes by W10 to L2. Of a wire whose size was not read nothing is planned."""
    heads = "Wire | From, to | Length"
    shown = page(grounds, work(tmp_path / "read", LOOP))
    stands(shown, heads + " | May carry", "W10 BN 1.0 mm² | L1 to L2 | 1 500 mm | may carry 10.0 A")
    unread = work(
        tmp_path / "unread", LOOP.replace("W10: {colour: BN, size: 1.0 mm2", "W10: {colour: BN, size: unknown")
    )
    stands(
        page(grounds, unread),
        heads + " | May carry",
        "W10 BN size not read | L1 to L2 | 1 500 mm | may carry not recorded",
    )


def test_beside_the_path_stand_only_volts_against_battery_negative(van: JobResult) -> None:
    """R2 was read over the lamp, R1 and R3 from lamp.1 to the battery."""
    (node,) = [one for one in page(circuits, van, "lamp.html").all("li", class_="node") if "R1" in one.text]
    volts = node.first("div", class_="volt").text
    assert volts == "11.2 V R1, 6 May 2031 11.0 V R3, 25 May 2031"


def test_a_plug_in_line_is_not_where_a_wire_leads(tmp_path: Path) -> None:
    (fuse,) = [row for row in rows(page(fuses, work(tmp_path, proved(LINE)))) if "Planning" in row]
    assert fuse["Feeds now"] == "its wire leads to pump.1; what that feeds is not recorded"


def test_the_diagram_is_quoted_where_the_donors_wire_sits_and_not_at_a_piece(tmp_path: Path) -> None:
    text = """
        job: Diagram
        plugs: {a: {ways: 2}, b: {ways: 2}}
        wires: {W1: {colour: BU, by diagram: GN, size: 1.0 mm2, from: a.1, to: b.1, length: 1 m}}
        changes:
          - {id: C1, kind: terminate, wire: W1, end: a.1, into: a.2, pigtail: 100 mm, gap: 200 mm, piece: YE 1.0 mm2,
             made: 2031-05-03 AK}
    """
    shown = [row for row in rows(page(connectors, work(tmp_path, text))) if "Now" in row]
    (moved,) = [row for row in shown if row["Cavity"] == "2" and "W1" in row["Now"]]
    assert moved["Now"].startswith("YE yellow")
    assert "in the diagram" not in moved["Now"]
    (other,) = [row for row in shown if row["Now"].startswith("BU blue")]
    assert "in the diagram GN" in other["Now"]


def test_the_warning_of_a_bridge_is_found(tmp_path: Path) -> None:
    row = (
        "    changes:\n      - {id: C1, kind: bridge, ends: [mid.1, pump.1], piece: BU 1 mm2, cut: 80 mm, "
        "interlock: clutch,"
        " decided by: AK, instead: nothing, warning: lurches, made: 2031-05-03 AK}\n"
    )
    (found,) = [entry for entry in entries_of(work(tmp_path, LINE + row)) if "lurches" in entry.text]
    assert found.id == "C1"


def test_a_cut_mark_is_told_from_the_end_it_was_measured_from(tmp_path: Path) -> None:
    """The plug that the wire was cut from is not where it ends any more: cut 200 mm from lamp.1; from horn.1 the
    centre is 200 - 6 - 5."""
    shown = page(splices, later(tmp_path, MOVED, "terminal: new crimp"))
    (near,) = [row for row in rows(shown) if row.get("Splice") == "C1-W1-plug"]
    assert near["Place"].endswith("centre 189 mm from horn.1; cut mark 200 mm from lamp.1")


# ---- tables that the van does not fill ------------------------------------------------------------------------------
def test_factory_splices_and_other_cars(tmp_path: Path) -> None:
    """Where the wiring is new the pump is fed by F2. 2 A over 1 m of 1.0 mm2 there and 1 m back, 18.5 mohm each:
    74 mV."""
    text = """
        job: Factory
        supply: 12 V
        temperature: 20 C
        body returns: no
        usual: {joint resistance: 0 mohm, cavity resistance: 0 mohm, ring resistance: 0 mohm, fuse resistance: 0 mohm}
        landmarks: {nose: takeout}
        options: {wiring: {is: old, could be: [new]}}
        fuses: {F1: {rating: 5 A, fed: always, in: nose}, F2: {rating: 5 A, fed: always, in: tail}}
        loads: {pump: {between: pump.1 pump.2, draws: 2 A, class: pump}}
        grounds: {L1: {back to: battery-, cable: 10 mm2, cable length: 0 m}}
        splices: {FS1: {at: nose, note: under the tape}}
        switches:
          K1: {between: K1.30 K1.87, worked by: coil, at: nose, what: fan relay}
        wires:
          W1: {colour: GN, size: 1.0 mm2, from: F1, to: FS1, length: 500 mm}
          W2: {colour: VT, size: 1.0 mm2, from: FS1, to: pump.1, length: 500 mm}
          W3: {colour: BN, size: 1.0 mm2, from: pump.2, to: L1, length: 1 m}
        changes:
          - {id: C1, kind: protect, relay: K1, feeds: fan, fed: ignition, made: 2031-05-03 AK}
          - {id: C2, kind: terminate, wire: W1, end: F1, into: F2, only if: wiring is new}
    """
    worked = work(tmp_path, text)
    shown = page(fuses, worked)
    stands(
        page(splices, worked),
        "Splice | Place | Wires | Notes",
        "FS1 | nose | GN green W1 to F1 VT violet W2 to pump.1 | under the tape",
    )
    stands(shown, "Fuse | Rating | Where | Feeds now | Live", "F1 | 5 A | nose, takeout | pump | live: always")
    stands(page(record, worked), "Fuse | Rating | Where | Feeds now | Live", "F1 | 5 A | nose, takeout | pump | always")
    stands(
        shown, "Relay | Where | Worked by | Feeds | Live | Set by", "K1 | nose, takeout | coil | fan | ignition | C1"
    )
    stands(
        page(circuits, worked, "circuits.html"),
        "Load | Fuse | Ground | Current | Drop, all on",
        "pump | F1 to F2 | L1 | 2.0 A | 0.07 V",
    )
    (found,) = [row for row in rows(page(overview, worked)) if row.get("Code") == "REF02"]
    assert found["Rank"] == "Error"
    assert found["What is wrong"] == "K1 is worked by 'coil', which is no load of this job"
    assert found["Mend"].startswith("Mend: Write the name of a load")


def test_second_opinions(tmp_path: Path) -> None:
    """14 AWG of PVC may carry 25 A by 33 CFR 183.425 Table 5, read; 0.6 of that in a bundle of four. 6 A of 15 A
    stay on."""
    stands(
        page(fuses, work(tmp_path / "nose", NOSE)),
        "Fuse | 33 CFR | in its bundle | AC 43.13-1B | Stay on",
        "F1 | 33 CFR 25.0 A | in its bundle 15.0 A | AC 43.13-1B 15.0 A | stay on 40.0 %",
    )


def test_of_a_way_home_current_and_volts_agree(tmp_path: Path) -> None:
    """W10 with its two rings has 1.5 m * 18.5 + 2 * 1.5 = 30.75 mohm: L1 stands that much times its current above L2,
    and L2 what its cable carries times 2 m * 4.71 + 1.5 = 10.92 mohm above the battery."""
    ways = [row for row in rows(page(grounds, work(tmp_path, LOOP))) if "At its beginning" in row]
    bridge, cable = (
        next(row for row in ways if row["From, to"] == between) for between in ("L1 to L2", "L2 to battery-")
    )

    def figure(row: dict[str, str], head: str, unit: str) -> float:
        found = re.match(rf"([\d.]+) {unit} ", row[head])
        assert found is not None, row
        return float(found[1])

    upper = figure(bridge, "At its beginning", "V")
    lower = figure(cable, "At its beginning", "V")
    assert lower == pytest.approx(figure(cable, "Current", "A") * 0.01092, abs=0.01)
    assert upper - lower == pytest.approx(figure(bridge, "Current", "A") * 0.03075, abs=0.02)

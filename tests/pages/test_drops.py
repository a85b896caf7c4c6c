"""The drop of a circuit as rows: states, limits, light, where the volts go, the line of the record. Numbers by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.sheets.circuits import CircuitSheet, circuit_rows, circuit_sheet
from aswired.sheets.drops import DropSheet
from tests.findings.jobs import copper_alone, proved, work

# ISO 6722-1 (from memory): 1.0 mm2 18.5 mohm/m, 10 mm2 1.82. 10 m and 1 m: 186.82 mohm. 55 W at 12.8 V is 4.296875 A:
# feed 0.7949 V, return 0.0078 V, whole 0.8027 V; socket 12 - 0.8027 = 11.197 V; (11.197 / 12)^3.4 = 0.7902
LAMP = """
    job: One lamp
    supply: 12 V
    fuses: {F1: {rating: 15 A}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 10 m}
      W2: {size: 10 mm2, from: lamp.2, to: battery-, length: 1 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 55 W at 12.8 V, class: lamp, duty: continuous}}
"""


def sheet(folder: Path, text: str, load: str = "lamp") -> CircuitSheet:
    return circuit_sheet(load, work(folder, copper_alone(proved(text))))


def drops(folder: Path, text: str, load: str = "lamp") -> DropSheet:
    found = sheet(folder, text, load).drops
    assert found is not None
    return found


def test_each_state_with_the_light_it_costs(tmp_path: Path) -> None:
    alone, together, worst, donor = drops(tmp_path, LAMP).rows
    assert (alone.feed, alone.back, alone.whole, alone.light) == ("0.79 V", "7.8 mV", "0.80 V", "21.0 %")
    assert (together.whole, together.light) == ("0.80 V", "21.0 %")
    assert (worst.whole, worst.light) == ("0.88 V", "")  # wires 10 % above their table: 0.8830 V
    assert (donor.state, donor.whole) == ("in the donor, alone", "0.80 V")


def test_rules_stand_side_by_side_and_one_judges(tmp_path: Path) -> None:
    share, table, lamp = drops(tmp_path, LAMP).limits
    assert (share.rule, share.allows, share.there, share.verdict) == ("3 % of the supply", "0.36 V", "0.80 V", "over")
    assert (share.judges, share.bad) == (True, True)
    assert (table.rule, table.allows, table.verdict) == ("AC 43.13-1B, continuous", "0.50 V", "over")
    assert (table.judges, table.bad) == (False, False)
    assert (lamp.allows, lamp.there, lamp.verdict, lamp.bad) == ("least 10.88 V", "11.20 V", "within", False)
    held = drops(tmp_path / "held", LAMP.replace("supply: 12 V", "supply: 12 V\n    drops held to: AC 43.13-1B"))
    assert [(row.judges, row.bad) for row in held.limits] == [(False, False), (True, True), (True, False)]


@pytest.mark.parametrize(
    ("fact", "instead", "allows"),
    [
        (", duty: continuous", "", ["0.36 V", "duty not recorded", "least 10.88 V"]),
        ("supply: 12 V", "supply: 6 V", ["0.18 V", "no row for 6 V", "least 10.88 V"]),
        ("supply: 12 V", "supply: unknown", ["supply not recorded", "supply not recorded", "least 10.88 V"]),
        ("55 W at 12.8 V", "4 A", ["0.36 V", "0.50 V", "design voltage not recorded"]),
        ("class: lamp", "class: lamp, light: LED", ["0.36 V", "0.50 V"]),
        ("class: lamp", "class: horn", ["1.20 V", "0.50 V"]),
    ],
)
def test_what_a_rule_lacks_is_said_in_its_place(fact: str, instead: str, allows: list[str], tmp_path: Path) -> None:
    found = drops(tmp_path, LAMP.replace(fact, instead))
    assert [row.allows for row in found.limits] == allows
    assert [row.known for row in found.limits] == [words[-1] == "V" and "no row" not in words for words in allows]
    assert all(row.verdict == "not judged" for row in found.limits if not row.known)


@pytest.mark.parametrize("light", ["LED", "gas discharge", "unknown"])
def test_light_that_is_not_computed_says_why(light: str, tmp_path: Path) -> None:
    found = drops(tmp_path, LAMP.replace("class: lamp", f"class: lamp, light: {light}"))
    assert found.no_light.startswith("Light lost: not computed, ")
    assert [row.light for row in found.rows] == ["", "", "", ""]


def test_the_longest_bar_is_the_most_that_is_lost_in_one_place(tmp_path: Path) -> None:
    text = LAMP.replace("job: One lamp", "job: One lamp\n    usual: {cavity resistance: 2 mohm, "
                        "fuse resistance: 46.25 mohm}")  # fmt: skip
    found = circuit_sheet("lamp", work(tmp_path, proved(text))).drops
    assert found is not None
    fuse, wire, plug = found.feed
    assert (fuse.id, fuse.what, fuse.mohm, fuse.amps, fuse.alone) == ("F1", "fuse", "46.2", "4.3", "198.7")
    assert (fuse.alone_part, fuse.together_part) == (25.0, 25.0)  # 46.25 of 185 mohm
    assert (wire.id, wire.what, wire.alone_part) == ("W1", "1.0 mm², 10\u202f000 mm", 100.0)
    assert (plug.id, plug.what, plug.alone) == ("lamp.1", "cavity", "8.6")


def test_small_places_stand_in_one_line_at_the_end(tmp_path: Path) -> None:
    # two spliced joints and a cavity of 0.5 mohm each: 2.1 mV of 0.80 V, below its fiftieth
    text = LAMP.replace(
        "job: One lamp",
        "job: One lamp\n    usual: {cavity resistance: 0.5 mohm, joint resistance: "
        "0.5 mohm, ring resistance: 0 mohm, fuse resistance: 0 mohm}\n    splices: {FS1: {}, FS2: {}}",
    )
    text = text.replace("from: F1, to: lamp.1, length: 10 m}", "from: F1, to: FS1, length: 4 m}\n"
                        "      W3: {size: 1.0 mm2, from: FS1, to: FS2, length: 3 m}\n"
                        "      W4: {size: 1.0 mm2, from: FS2, to: lamp.1, length: 3 m}")  # fmt: skip
    found = circuit_sheet("lamp", work(tmp_path, proved(text))).drops
    assert found is not None
    assert [row.id for row in found.feed] == ["F1", "W1", "W3", "W4", ""]
    last = found.feed[-1]
    assert (last.what, last.mohm, last.amps, last.alone) == ("3 small places on the way", "1.5", "", "6.4")
    assert [row.what for row in found.back] == ["cavity", "10 mm², 1\u202f000 mm"]  # one alone keeps its line


def test_what_is_not_recorded_has_no_bar(tmp_path: Path) -> None:
    found = drops(tmp_path, LAMP.replace("length: 10 m", "length: unknown"))
    (wire,) = [row for row in found.feed if row.id == "W1"]
    assert (wire.mohm, wire.alone, wire.together, wire.together_part) == (*["not recorded"] * 3, 0.0)
    assert found.wanting == "not computed: length of W1 not recorded"


def test_the_line_of_the_record(tmp_path: Path) -> None:
    row = sheet(tmp_path, LAMP).row
    assert row.short == "drop 0.80 V of 0.36 V allowed (3 %)"
    assert row.resistances == "185.0 mΩ feed, 1.8 mΩ return"
    assert (row.verdict, row.beside) == ("over", ())
    no_limit = sheet(tmp_path / "a", LAMP.replace("supply: 12 V", "supply: unknown")).row
    assert no_limit.short == "drop 0.80 V, no limit"
    unknown = sheet(tmp_path / "b", LAMP.replace("length: 10 m", "length: unknown")).row
    assert (unknown.short, unknown.resistances) == ("", "")


def test_a_lamp_that_is_starved_and_worse_says_so_in_the_list(tmp_path: Path) -> None:
    text = """
    job: Work lamp
    supply: 12 V
    usual: {joint: "lap, soldered", overlap: 10 mm, slack: 0 mm}
    fuses: {F1: {rating: 15 A, fed: always}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1, length: 10 m}
      W2: {size: 10 mm2, from: lamp.2, to: battery-, length: 1 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 55 W at 12.8 V, class: lamp}}
    changes:
      - {id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 1 m, gap: 5 m, piece: RD 1.0 mm2, made: 2031-05-03 AK}
    """
    # 5 m more of 18.5 mohm/m and two joints of 1 mohm: 94.5 mohm x 4.2969 A = 0.406 V; with a fuse of 4.8 mohm, two
    # cavities of 4 and the 186.82 mohm of the donor 294.12 mohm and 1.264 V: 10.74 V at the socket
    (row,) = circuit_rows(work(tmp_path, text))
    assert row.beside == ("0.41 V worse than in the donor", "10.74 V at the lamp, 10.88 V is the least")


def test_who_is_never_on_with_it_is_named(tmp_path: Path) -> None:
    text = LAMP.replace("loads: {", "loads: {dip: {between: dip.1 dip.2, draws: 4 A, class: lamp, not with: [lamp]}, ")
    assert drops(tmp_path, text).on == "Never on with it: dip."
    assert drops(tmp_path / "dip", text, "dip").on == "Never on with it: lamp."


def test_a_figure_is_opened_once(tmp_path: Path) -> None:
    keys = [figure.key for figure in sheet(tmp_path, LAMP).figures]
    assert len(keys) == len(set(keys))
    assert {"lamp.limit", "lamp.limit.table", "lamp.socket", "lamp.socket.least", "lamp.drop.worst"} <= set(keys)
    assert "lamp.limit.share" not in keys  # it is the limit


def test_a_positive_ground_is_said_in_one_phrase(tmp_path: Path) -> None:
    found = sheet(tmp_path, LAMP.replace("supply: 12 V", "supply: 12 V\n    ground side: positive"))
    assert (found.row.wanting, found.row.drop_together) == ("positive ground: not computed", "not recorded")
    (feed,) = [figure for figure in found.figures if figure.key == "lamp.feed.resistance"]
    assert feed.missing == "Positive ground: not computed"


def test_what_a_figure_lacks_is_a_sentence(tmp_path: Path) -> None:
    found = sheet(tmp_path, LAMP.replace("length: 10 m", "length: unknown").replace("55 W at 12.8 V", "unknown"))
    missing = {figure.key: figure.missing for figure in found.figures}
    assert missing["lamp.current"] == "Not computed: draws not recorded"
    assert (
        missing["lamp.feed.alone"]
        == "Not computed: current of lamp not recorded; W1 from F1 to lamp.1: length not recorded"
    )

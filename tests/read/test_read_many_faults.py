"""A job of many slips: each is told once, at its own line and entry, with what to write; none hides another."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.car.changes import kind_of
from aswired.files import read_job
from aswired.record import Job
from aswired.text.diagnostics import Fault


def read(folder: Path, **files: str) -> tuple[Fault, ...]:
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / f"{name}.yml").write_text(text, encoding="utf-8")
    got = read_job(folder)
    assert (got.job is None) == bool(got.faults)
    return got.faults


END_FORM = "what a wire end sits in: plug.cavity, FS4, F7, L1, C14-W31-loom, battery-, loose, unknown"
COLOUR_FORM = "base/stripe in letters or words: VT/WH, light GN, green/black, unknown"
NAME_FORM = "a name without blanks, as written on the tape"
PIECE_FORM = "BU 18 AWG, BU 18 AWG from O3, unknown"
NOTE = "Take it out, or put the words in 'note:'"

# line by line; behind each what is told of it: code, entry, problem, mend
JOB: tuple[tuple[str, tuple[tuple[str, str, str, str], ...]], ...] = (
    ("job: Van", ()),
    ("wires:", ()),
    ("  W1:", ()),
    ("    colour: RD", ()),
    ("    from: F1", ()),
    ("    colour: BK", (("YML04", "W1", "'colour' is written twice", "Keep one; the other is in line 4"),)),
    ("    to: a.1", ()),
    ("  W1: {colour: RD, from: F1, to: a.2}",
     (("YML04", "W1", "'W1' is written twice in 'wires'", "Keep one; the other is in line 3"),)),
    ("  W3: {colour: [RD], from: {a: b}, to: , lenght: 3 m, xyzzy: 4}", (
        ("KEY01", "W3", "'lenght' is not a key of the wire W3", "Did you mean length?"),
        ("KEY01", "W3", "'xyzzy' is not a key of the wire W3", NOTE),
        ("VAL01", "W3", "'colour' wants one value, not a list", f"Write one value: {COLOUR_FORM}"),
        ("VAL01", "W3", "'from' wants one value, not keys", f"Write one value: {END_FORM}"),
        ("VAL02", "W3", "'to' is empty", f"Write a value: {END_FORM}; or take 'to:' out"),
    )),
    ("  W4: {loom: nose, colour: reddish, size: 18, to: a.3}", (
        ("KEY02", "W4", "the wire W4 has no 'from:'", f"Add 'from:', one end ({END_FORM})"),
        ("VAL03", "W4", "'nose' is not a loom of this job", "Declare it: looms: {nose: {donor: ...}}"),
        ("VAL04", "W4", "colour: 'reddish' is not a colour", "Did you mean red?"),
        ("VAL04", "W4", "size: the size '18' has no unit", "Write 18 AWG or 18 mm2"),
    )),
    ('  "": {colour: RD}', (("VAL01", "", "a wire in 'wires' has no name", "Write a name, a colon, the value"),)),
    ("  ? [a, b]", (("VAL01", "", "a wire in 'wires' has no name", "Write a name, a colon, the value"),)),
    ("  : {colour: RD}", ()),
    ("  W5: some words", (("VAL04", "W5", "W5: 'some words' does not say what the wire was",
      "Write colour and size, a comma, then its two ends: GN/WH 18 AWG, FS4 to siren-plug.1"),)),
    ("  W6: [RD, BK]", (("VAL01", "W6", "'W6' wants keys with values, not 'a list'",
      "Write its keys, each with a colon and a value: colour, size, from ..."),)),
    ("plugs: {lamp: , horn: {ways: 2, seen from: above}}",
     (("VAL03", "horn", "'above' is not a word for 'seen from'", "Write one of: wire side, mating side, unknown"),)),
    ("fuses: a fuse", (("VAL01", "", "'fuses' wants names, each with a value of its own",
      "Write one fuse to a line: its name, a colon, its value"),)),
    ("grounds:", ()),  # empty: there are none
    ("splices:", (("VAL01", "", "'splices' wants names, each with a value of its own",
      "Write one splice to a line: its name, a colon, its value"),)),
    ("  - S1", ()),
    ("donor colours: BK, BN", ()),  # a list on one line
    ("frobnicate: 3", (("KEY01", "", "'frobnicate' is not a key of the job",
      "Take it out; the reference lists the keys that belong here"),)),
    ("changes:", ()),
    ("  - C1", (("VAL01", "", "the change wants keys with values, not 'C1'",
      "Write its keys, each with a colon and a value: id, kind, wire ..."),)),
    ("  - [C2]", (("VAL01", "", "the change wants keys with values, not 'a list'",
      "Write its keys, each with a colon and a value: id, kind, wire ..."),)),
    ("  - {kind: remove, wire: W1}",
     (("KEY02", "", "the change has no 'id:'", "Add id: C13, the next free one"),)),  # C12 is the highest
    ("  - {id: C7, kind: removed, wire: W1}",
     (("KND01", "C7", "'removed' is not a kind of change", "Did you mean remove?"),)),
    ("  - {id: C 8, kind: verify, colour: x}", (
        ("KEY01", "C 8", "'colour' is not a key of the change C 8", NOTE),
        ("VAL04", "C 8", "the id 'C 8' has a blank", "Write it as one word: C8; the same goes on the tape"),
    )),
    ("  - {id: C-7, kind: shorten, wire: W1, wires: [W2], piece: RD 1 mm2, scren: 1}", (
        ("KEY01", "C-7", "'scren' is not a key of the change C-7", "Did you mean scrap or spare?"),
        ("KND02", "C-7", "'piece' has no meaning on a row of kind shorten",
         "Take it out; it belongs to extend, tap, ground, terminate, bridge, add"),
        ("KND02", "C-7", "'wire' and 'wires' stand on the same row",
         "Keep one: name each wire under 'wires:' and take 'wire:' out, or the other way round"),
        # C7 is another row's
        ("VAL04", "C-7", "the id 'C-7' has a dash, which parts the id from the wire in C14-W31",
         "Write it as one word: C13; the same goes on the tape"),
    )),
    ("  - {id: C9, kind: reroute, wire: W1, by: roof, sill}", (("YML05", "C9",
      "by: the comma in 'roof, sill' ends the value, as any comma inside { } does",
      "Put the list in brackets: by: [roof, sill]"),)),
    ("  - {id: C10, kind: , wire: W1}", (("VAL02", "C10", "'kind' is empty",
      f"Write a value: {NAME_FORM}; or take 'kind:' out"),)),
    ("  - id: C11", ()),
    ("    kind: extend", ()),
    ("    gap: 1,5 m", (("VAL04", "C11", "gap: '1,5 m' has a comma in its number", "Write 1.5 m"),)),
    ("    wires: {W1: RD 1,5 mm2, W2: , W3: [x]}", (
        ("VAL01", "C11", "'W3' wants one value, not a list", f"Write one value: {PIECE_FORM}"),
        ("VAL02", "C11", "'W2' is empty", f"Write a value: {PIECE_FORM}; or take 'W2:' out"),
        ("YML05", "C11", "W1: the comma in 'RD 1,5 mm2' ends the value, as any comma inside { } does",
         "Write W1: RD 1.5 mm2"),
    )),
    ("  - {id: C12, kind: remove, wires: {W1: {F1: gone, a.1: capd}, W2: pulled}, made: 2031-02-30, note: [a]}", (
        ("VAL01", "C12", "'W2' wants names, each with a value of its own",
         "Write one end to a line: its name, a colon, its value"),
        ("VAL01", "C12", "'note' wants one value, not a list", "Write one value: anything worth knowing"),
        ("VAL04", "C12", "a.1: 'capd' does not say how the end was left", "Did you mean capped?"),
        ("VAL04", "C12", "made: '2031-02-30' is not a day of the calendar",
         "Check the month and the day; they are written year-month-day"),
    )),
    ("readings:", ()),
    ("  - {on: x}", (
        ("KEY02", "", "the reading has no 'id:'", f"Add 'id:', id of the reading ({NAME_FORM})"),
        ("KEY02", "", "the reading has no 'read:'",
         "Add 'read:', what the meter showed (0.06 V, 14 mA, 0.2 ohm, not measured)"),
        ("VAL04", "", "on: 'x' is not a date", "Write year-month-day and initials: 2024-05-03 AK, or yes"),
    )),
)  # fmt: skip


def test_every_slip_of_a_file_is_told_at_its_line(tmp_path: Path) -> None:
    found = read(tmp_path / "van", job="\n".join(line for line, _ in JOB) + "\n")
    expected = {
        (number, *told): line.strip() for number, (line, faults) in enumerate(JOB, 1) for told in faults
    }  # fmt: skip
    assert {(f.at.line, f.code, f.entry, f.problem, f.mend): f.at.text.strip() for f in found} == expected
    assert len(found) == len(expected)
    assert [f.at.line for f in found] == sorted(f.at.line for f in found)


PHOTOS: tuple[tuple[str, tuple[tuple[str, str, str, str], ...]], ...] = (
    ("photos:", ()),
    ("  - id: P1", ()),
    ("    file: ../a.jpg", (("PHO01", "P1", "the picture '../a.jpg' lies outside the job folder",
      "Copy the picture itself into photos/ and write photos/ and its name"),)),
    ("    hide: [[0.1, 0.2, 0.3]]", (("PHO02", "P1", "a hidden box wants 4 fractions, not 3",
      "Write x, y, width, height: [0.70, 0.10, 0.20, 0.08]"),)),
    ("    marks:", ()),
    ("      - {ring: [0.1, 0.2]}", (("PHO02", "P1", "ring wants 3 fractions, not 2",
      "Write them as in ring: [0.42, 0.31, 0.05]"),)),
    ("      - {ring: [0.1, 0.2, 0.3]}", ()),
    ("      - {box: [0.1, 0.2, 0.3]}", (("PHO02", "P1", "box wants 4 fractions, not 3",
      "Write them as in box: [0.70, 0.10, 0.20, 0.08]"),)),
    ("      - {arrow: [0.1, 0.2, 0.3, 0.4, 0.5]}", (("PHO02", "P1", "arrow wants 4 fractions, not 5",
      "Write them as in arrow: [0.10, 0.90, 0.30, 0.60]"),)),
    ("      - {label: [0.1], says: x}", (("PHO02", "P1", "label wants 2 fractions, not 1",
      "Write them as in label: [0.5, 0.5]"),)),
    ("      - {ring: [0.1, 0.2, 0.3], box: [0.1, 0.2, 0.3, 0.4]}", (("PHO02", "P1",
      "a mark wants one shape; this one has ring and box", "Write a mark for each"),)),
    ("      - {says: x}", (("PHO02", "P1", "a mark wants one shape; this one has none",
      "Add ring:, arrow:, box: or label: with its fractions"),)),
    ("  - {id: P2, file: /a.jpg}", (("PHO01", "P2", "the picture '/a.jpg' lies outside the job folder",
      "Copy the picture itself into photos/ and write photos/ and its name"),)),
    ('  - {id: P3, file: "c:a.jpg"}', (("PHO01", "P3", "the picture 'c:a.jpg' lies outside the job folder",
      "Copy the picture itself into photos/ and write photos/ and its name"),)),
    ("  - {id: P4, file: 'b\\\\a.jpg'}", (("PHO01", "P4", "the picture 'b\\\\a.jpg' lies outside the job folder",
      "Copy the picture itself into photos/ and write photos/ and its name"),)),
    ("  - {id: P5, file: photos/../a.jpg}", ()),
    ("changes:", (("KEY03", "", "'changes' stands in job.yml:2 too", "Keep it in one file: job.yml or photos.yml"),)),
    ("  - {id: C1, kind: nonsense}", ()),
)  # fmt: skip


def test_a_second_file_is_told_of_by_its_name_and_its_lines(tmp_path: Path) -> None:
    job = "job: Van\nchanges:\n  - {id: C1, kind: verify, onto: W1}\n"
    faults = read(
        tmp_path / "van", job=job, photos="\n".join(line for line, _ in PHOTOS) + "\n", jop="x: 1\n", xyzzy="x: 1\n"
    )
    kept = [fault for fault in faults if fault.at.file == "photos.yml"]
    assert {(f.at.line, f.code, f.entry, f.problem, f.mend) for f in kept} == {
        (number, *told) for number, (_, faults) in enumerate(PHOTOS, 1) for told in faults
    }
    others = [(f.code, f.at.file, f.at.line, f.mend) for f in faults if f.at.file != "photos.yml"]
    assert sorted(others) == [
        ("FIL03", "jop.yml", 0, "Rename it to job.yml"),
        ("FIL03", "xyzzy.yml", 0, "Put its keys into job.yml, and take the file out"),
        ("KND02", "job.yml", 3, "Take it out; it belongs to tap"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("files", "told"),
    [
        ({"job": "- a\n"}, ("VAL01", "job.yml", 1, "the file does not begin with a key",
                            "Write job: above it and a title behind it")),
        ({"job": "job: Van\n", "photos": "\n- a\n"}, ("VAL01", "photos.yml", 2, "the file does not begin with a key",
                                                      "Write photos: above it")),
        ({"job": "job: Van\nchanges: []\n"}, ("KEY02", "job.yml", 2, "the change list has no row",
                                              "Write the first row: - {id: C1, kind: remove, wire: W1}")),
        ({"job": "changes:\n  - {id: C1, kind: verify}\n"}, ("KEY02", "job.yml", 1, "the job has no 'job:'",
                                                             "Add 'job:', title (as in Trail truck)")),
        ({"job": "job: Van\nchanges:\n  - {id: C1, kind: verify}\nroute:\n  - {from: a, to: b, lenth: 1 m}\n"},
         ("KEY01", "job.yml", 5, "'lenth' is not a key of a leg of the route", "Did you mean length?")),
    ],
)  # fmt: skip
def test_a_file_that_is_no_job(files: dict[str, str], told: tuple[str, str, int, str, str], tmp_path: Path) -> None:
    found = [(f.code, f.at.file, f.at.line, f.problem, f.mend) for f in read(tmp_path / "van", **files)]
    assert told in found


GOOD = """job: Van
colour letters: {L: BU}
looms: {front: {donor: a}, rear: {donor: b, colour letters: {L: GN, X: WH}}}
donor colours: L, BN
usual: {joint: "lap, soldered", overlap: 10 mm}
wires:
  W1: {loom: front, colour: L, size: 1 mm2, from: F1, to: a.1}
  W2: {loom: rear, colour: L/X, size: 1 mm2, from: F1, to: a.2}
  W3: {colour: L, size: 1 mm2, from: F1, to: a.3}
  W4: L 18 AWG, F1 to a.4, 2 m
  W5: {colour: L, size: 1 mm2, from: F1, to: a.5, loom: rear, colour letters: x}
changes:
  - {id: C1, kind: join, ends: "W1 at a.1"}
  - {id: C2, kind: remove, wires: {W1: {F1: gone}, W2: {F1: pulled}}, loom: rear}
  - {id: C3, kind: shorten, wires: "W1, W2"}
  - {id: C4, kind: extend, wires: {W1: L 1 mm2, W2: GN 1 mm2}, cut: 400 mm, reach: 400 mm}
  - {id: C5, kind: extend, wire: W9, was: "L 1 mm2, F1 to a.9", loom: rear, piece: L 1 mm2}
  - {id: C6, kind: add, wire: W10, from: a.1, to: a.2, cut: 400 mm, reach: 400 mm}
  - {id: C7, kind: tap, wire: W11, onto: W1, to: a.2, cut: 400 mm, reach: 400 mm}
  - {id: C8, kind: tap, wire: W12, was: "L 1 mm2, F1 to a.9", onto: W1, cut: 400 mm, reach: 400 mm}
  - {id: C9, kind: add, wire: W13, from: a.1, to: a.2, cut: 401 mm, reach: 400 mm}
  - {id: C10, kind: add, wire: W14, from: a.1, to: a.2, cut: unknown, reach: unknown}
  - {id: C11, kind: add, wire: W15, from: a.1, to: a.2}
"""


def test_what_is_written_is_what_is_read(tmp_path: Path) -> None:
    folder = tmp_path / "van"
    (told,) = read(folder, job=GOOD)
    assert (told.at.line, told.problem) == (11, "'colour letters' is not a key of the wire W5")
    (folder / "job.yml").write_text(GOOD.replace(", colour letters: x", ""), encoding="utf-8")
    job = read_job(folder).job
    assert isinstance(job, Job)
    colours = {name: wire.colour.code for name, wire in job.wires.items()}
    # front has no letters of its own: the job's; rear has
    assert colours == {"W1": "BU", "W2": "GN/WH", "W3": "BU", "W4": "BU", "W5": "GN"}
    assert [colour.code for colour in job.donor_colours] == ["BU", "BN"]
    assert (job.wires["W4"].from_, job.wires["W4"].to, job.wires["W4"].length and job.wires["W4"].length.mm) == (
        "F1", "a.4", 2000,
    )  # fmt: skip
    row = {row.id: row for row in job.changes}
    assert row["C1"].ends == ("W1 at a.1",)
    assert {wire: {end: fate.word for end, fate in row["C2"].fates_of(wire).items()} for wire in ("W1", "W2")} == {
        "W1": {"F1": "gone"},
        "W2": {"F1": "pulled"},
    }
    assert row["C3"].wire_names == ("W1", "W2")
    pieces = [row["C4"].piece_of(wire) for wire in ("W1", "W2", "W3")]
    assert [piece and piece.colour.code for piece in pieces] == ["BU", "GN", None]
    assert row["C5"].was is not None
    # what a wire was is told in its donor's letters, a piece in those of the shop
    assert (row["C5"].was.colour.code, row["C5"].piece and row["C5"].piece.colour.code) == ("GN", "BU")
    assert [id for id, change in row.items() if kind_of(change).lead_measured(change)] == ["C6", "C7"]
    assert (row["C2"].line_of("wires").line, row["C11"].at.line) == (14, 23)


ENDS = "as any comma inside { } does"


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("{id: C1, kind: verify, note: a, b, c}", [
            ("YML05", 3, f"note: the comma in 'a, b, c' ends the value, {ENDS}",
             'Put the value in quotes: note: "a, b, c"')]),
        ("{id: C1, kind: verify, note: a, b, why: c, d}", [
            ("YML05", 3, f"note: the comma in 'a, b' ends the value, {ENDS}", 'Put the value in quotes: note: "a, b"'),
            ("YML05", 3, f"why: the comma in 'c, d' ends the value, {ENDS}", 'Put the value in quotes: why: "c, d"')]),
        ("{id: C1, kind: verify, note: a,\n      b, why: c}", [
            ("YML05", 3, f"note: the comma in 'a, b' ends the value, {ENDS}",
             'Put the value in quotes: note: "a, b"')]),
        ("{id: C1, kind: verify,\n      proves: C1, C2}", [
            ("YML05", 4, f"proves: the comma in 'C1, C2' ends the value, {ENDS}",
             "Put the list in brackets: proves: [C1, C2]")]),
        ("{id: C1, kind: shorten, wires: W1, W2}", [
            ("YML05", 3, f"wires: the comma in 'W1, W2' ends the value, {ENDS}",
             "Put the list in brackets: wires: [W1, W2]")]),
        # the form of wires: goes with the kind, wherever it stands
        ("{id: C1, wires: W1, W2, kind: remove}", [
            ("YML05", 3, f"wires: the comma in 'W1, W2' ends the value, {ENDS}",
             'Put the value in quotes: wires: "W1, W2"')]),
        ("{id: C1, kind: verify, note: 'a', xyzzy}", [
            ("KEY01", 3, "'xyzzy' is not a key of the change C1", NOTE)]),
        ("{id: C1, kind: verify, note: a, 'xyzzy'}", [
            ("KEY01", 3, "'xyzzy' is not a key of the change C1", NOTE)]),
        ("{id: C1, kind: verify, note: a, xyzzy: c}", [
            ("KEY01", 3, "'xyzzy' is not a key of the change C1", NOTE)]),
        ("{id: C1, kind: verify, note: a, xyzzy: }", [
            ("KEY01", 3, "'xyzzy' is not a key of the change C1", NOTE)]),
        ("{id: C1, kind: extend, wire: W1, gap: 1,500 mm}", [
            ("YML05", 3, f"gap: the comma in '1,500 mm' ends the value, {ENDS}",
             "Write gap: 1500 mm or 1.500 mm, whichever is meant")]),
        ("{id: C1, kind: verify, cavities: {1: 2, 3, 4: 5}}", [
            ("KND02", 3, "'cavities' has no meaning on a row of kind verify", "Take it out; it belongs to swap"),
            ("YML05", 3, f"1: the comma in '2, 3' ends the value, {ENDS}", 'Put the value in quotes: 1: "2, 3"')]),
    ],
)  # fmt: skip
def test_a_comma_inside_braces_is_told_as_one_value(
    row: str, told: list[tuple[str, int, str, str]], tmp_path: Path
) -> None:
    faults = read(tmp_path / "van", job=f"job: Van\nchanges:\n  - {row}\n")
    assert [(f.code, f.at.line, f.problem, f.mend) for f in faults] == told
    assert {f.entry for f in faults} == {"C1"}


def test_words_on_one_line_keep_their_commas_and_names_do_not(tmp_path: Path) -> None:
    folder = tmp_path / "van"
    text = "cautions: Mind the fan, it is hot\nmust work: horn, wipers\ndonor colours: BK, BN\n"
    rows = "changes:\n  - id: C1\n    kind: verify\n    proves: C1, C2\n    photos: P1\n    note: a, b\n"
    assert read(folder, job=f"job: Van\n{text}{rows}") == ()
    job = read_job(folder).job
    assert job is not None
    assert job.cautions == ("Mind the fan, it is hot",)
    assert job.must_work == ("horn, wipers",)
    assert [colour.code for colour in job.donor_colours] == ["BK", "BN"]
    (row,) = job.changes
    assert (row.proves, row.photos, row.note) == (("C1", "C2"), ("P1",), "a, b")


def test_what_may_stand_in_a_file_that_cannot_be_read_is_not_called_missing(tmp_path: Path) -> None:
    broken = read(tmp_path / "1", job="job: Van\n", changes="changes:\n  - {id: C1\n")
    assert [(f.code, f.at.file) for f in broken] == [("YML01", "changes.yml")]
    whole = read(tmp_path / "2", job="job: Van\n", harness="wires: {}\n")
    assert [(f.code, f.at.file, f.at.line, f.problem) for f in whole] == [
        ("KEY02", "job.yml", 1, "the job has no 'changes:'")
    ]
    # of a file that is there, nothing else is hidden by one that is not sound
    both = read(tmp_path / "3", job="job: Van\nfrobnicate: x\n", changes="- x\n", harness="wires:\n  W1: x\n")
    assert [(f.code, f.at.file, f.at.line) for f in both] == [
        ("VAL01", "changes.yml", 1),
        ("VAL04", "harness.yml", 2),
        ("KEY01", "job.yml", 2),
    ]

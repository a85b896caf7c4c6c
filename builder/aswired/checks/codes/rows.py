"""The change list: rows that cannot be so, that contradict each other, or that run against the calendar."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_ERROR = ("error",)
_WIRES = "wires:\n  W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}\n"
_CAP = "wire: W1, end: F1, stub: 40 mm, far: gone, cover: adhesive sleeve"


def _rows(*rows: str) -> str:
    return _WIRES + "changes:\n" + "\n".join(f"  - {{{row}}}" for row in rows)


CODES = (
    Code(
        "ROW01",
        _ERROR,
        "a row that cannot be so: it is left out",
        "What the row says does not fit the wire as the rows above left it: a cut beyond its end, a cavity that is "
        "taken, nothing left of a stretch, or a key that its kind needs. The row is left out; the others count.",
        "A row that cannot be so is a slip of the tape measure or of the pen, and the wire in the car is another one.",
        _rows("id: C1, kind: cap, wire: W1, end: F1, stub: 950 mm, far: gone"),
        _rows("id: C1, kind: cap, wire: W1, end: F1, stub: 95 mm, far: gone"),
    ),
    Code(
        "ROW02",
        _ERROR,
        "a row on a wire that is not listed",
        "The wire is neither under 'wires:' nor described by 'was:' on a row.",
        "Without its colour, size and two ends nobody can find the wire or prove it.",
        "changes:\n  - {id: C1, kind: cap, wire: W9, end: F1, stub: 40 mm, far: gone}",
        'changes:\n  - {id: C1, kind: cap, wire: W9, was: "GN 18 AWG, F1 to lamp.1", end: F1, stub: 40 mm, far: gone}',
    ),
    Code(
        "ROW03",
        _ERROR,
        "a row that names an end the wire does not have",
        "The end, plug or cut end is not where the rows above it left the wire.",
        "The wrong end cut is a good circuit lost.",
        _rows("id: C1, kind: cap, wire: W1, end: F2, stub: 40 mm, far: gone"),
        _rows("id: C1, kind: cap, wire: W1, end: F1, stub: 40 mm, far: gone"),
    ),
    Code(
        "ROW04",
        ("note",),
        "a row that rests on one that was left out",
        "It works on an end, splice or lead that a refused row would have made, so it is not judged.",
        "Mend the first row; this one then counts again by itself.",
        _rows("id: C1, kind: cap, wire: W1, end: F1, stub: 950 mm, far: gone", "id: C2, kind: verify, proves: [C1]"),
        _rows("id: C1, kind: cap, wire: W1, end: F1, stub: 95 mm, far: gone", "id: C2, kind: verify, proves: [C1]"),
    ),
    Code(
        "ROW05",
        _ERROR,
        "a row id that is used twice",
        "Two rows bear the same id; the second is left out.",
        "The id on the tape, on the photograph and in the list must mean one thing.",
        _rows(f"id: C1, kind: cap, {_CAP}", "id: C1, kind: verify, proves: [C1]"),
        _rows(f"id: C1, kind: cap, {_CAP}", "id: C2, kind: verify, proves: [C1]"),
    ),
    Code(
        "ROW06",
        _ERROR,
        "a row that is made, but is not for this car",
        "Its 'only if:' speaks of another option than this car has, and yet it has a date.",
        "Either the option is wrong, and other steps are missing, or the date stands on the wrong row.",
        "options: {heater: {is: diesel, could be: [electric]}}\n"
        + _rows(f"id: C1, kind: cap, {_CAP}, only if: heater is electric, made: 2031-05-03 AK"),
        "options: {heater: {is: electric, could be: [diesel]}}\n"
        + _rows(f"id: C1, kind: cap, {_CAP}, only if: heater is electric, made: 2031-05-03 AK"),
    ),
    Code(
        "ROW07",
        _ERROR,
        "a condition on an option or value that is not declared",
        "'only if:' names an option that the header does not have, or a value that it does not list.",
        "A misspelt value would drop the step from every car in silence.",
        _rows(f"id: C1, kind: cap, {_CAP}, only if: gearbox is manual"),
        "options: {gearbox: manual}\n" + _rows(f"id: C1, kind: cap, {_CAP}, only if: gearbox is manual"),
    ),
    Code(
        "ROW08",
        _ERROR,
        "sealed or tested before it was made",
        "A row is sealed or tested, but not made, or on an earlier day.",
        "A test of a joint that did not exist proves nothing.",
        _rows(f"id: C1, kind: cap, {_CAP}, made: 2031-05-03 AK, tested: 2031-05-02 AK"),
        _rows(f"id: C1, kind: cap, {_CAP}, made: 2031-05-03 AK, tested: 2031-05-04 AK"),
    ),
    Code(
        "ROW09",
        ("error", "note"),
        "rows whose dates run backwards",
        "A row stands below one that was made later: an error on the same wire, a note elsewhere.",
        "Rows are folded in the order of the file; two cuts in one wire in the wrong order give other lengths.",
        _rows(
            "id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, made: 2031-05-04 AK",
            f"id: C2, kind: cap, {_CAP}, made: 2031-05-03 AK",
        ),
        _rows(
            "id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, made: 2031-05-03 AK",
            f"id: C2, kind: cap, {_CAP}, made: 2031-05-04 AK",
        ),
    ),
    Code(
        "ROW10",
        _ERROR,
        "a wrong 'corrects:' or 'redoes:'",
        "The row points to itself, to no row, to one that another row stands for already, or in a ring of rows, also "
        "by both keys in turn; or it does again what only a row below it did.",
        "Which of the rows is true of the car cannot be told, so this one is left out.",
        _rows(f"id: C1, kind: cap, {_CAP}", f"id: C2, kind: cap, {_CAP}, corrects: C7"),
        _rows(f"id: C1, kind: cap, {_CAP}", f"id: C2, kind: cap, {_CAP}, corrects: C1"),
    ),
    Code(
        "ROW11",
        _ERROR,
        "a row that rests on work which was taken out again",
        "A later row does again ('redoes:') what this row was built on, so its cut end or splice is gone.",
        "The joint that this row speaks of is no longer in the car.",
        _WIRES
        + "  W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: FS40, length: 900 mm}\n"
        + "changes:\n"
        + "  - {id: C1, kind: cap, wire: W1, end: F1, stub: 40 mm, far: gone}\n"
        + "  - {id: C2, kind: join, ends: [C1-W1-F1, W2 at lamp.2]}\n"
        + "  - {id: C3, kind: cap, wire: W1, end: F1, stub: 90 mm, far: gone, redoes: C1}",
        _WIRES
        + "  W2: {colour: BN, size: 1.0 mm2, from: lamp.2, to: FS40, length: 900 mm}\n"
        + "changes:\n"
        + "  - {id: C1, kind: cap, wire: W1, end: F1, stub: 40 mm, far: gone}\n"
        + "  - {id: C3, kind: cap, wire: W1, end: F1, stub: 90 mm, far: gone, redoes: C1}\n"
        + "  - {id: C4, kind: join, ends: [C3-W1-F1, W2 at lamp.2]}",
    ),
    Code(
        "ROW12",
        ("warning",),
        "a row made on a day that is still to come",
        "Its date lies in the future, so the row does not count yet.",
        "A slip in the year takes the work out of the record until that day.",
        _rows(f"id: C1, kind: cap, {_CAP}, made: 2199-05-03 AK"),
        _rows(f"id: C1, kind: cap, {_CAP}, made: 2019-05-03 AK"),
    ),
    Code(
        "ROW13",
        ("warning",),
        "a correction that is only planned",
        "The row corrects a made row but has no date itself, so the wrong row still counts.",
        "The pages go on showing what is known to be wrong.",
        _rows(f"id: C1, kind: cap, {_CAP}, made: 2019-05-03 AK", f"id: C2, kind: cap, {_CAP}, corrects: C1"),
        _rows(
            f"id: C1, kind: cap, {_CAP}, made: 2019-05-03 AK",
            f"id: C2, kind: cap, {_CAP}, corrects: C1, made: 2019-05-03 AK",
        ),
    ),
    Code(
        "ROW14",
        ("warning",),
        "a day that cannot be: still to come, or before 1900",
        "A row sealed or tested on such a day does not count as sealed or tested; one made before 1900 counts, its day "
        "is not known. So it is for the hand-over, a revision, a visit, a day with the battery off, a painted stud. A "
        "row made on a day to come is ROW12, a reading RDG10.",
        "A test dated next year is a slip of the pen or no test at all, and nothing may rest on it.",
        _rows(f"id: C1, kind: cap, {_CAP}, made: 2019-05-03 AK, tested: 2199-05-04 AK"),
        _rows(f"id: C1, kind: cap, {_CAP}, made: 2019-05-03 AK, tested: 2019-05-04 AK"),
    ),
    Code(
        "ROW15",
        ("warning",),
        "a wire that is described twice, differently",
        "A row says by 'was:' what the wire was in the donor, and 'wires:' or a later row says something else of its "
        "colour, size, ends or length. What stands under 'wires:' counts, else the last row.",
        "Whoever looks for the wire has two to look for.",
        _rows(f'id: C1, kind: cap, was: "GN 1.5 mm2, F1 to lamp.1, 900 mm", {_CAP}'),
        _rows(f'id: C1, kind: cap, was: "GN 1.0 mm2, lamp.1 to F1, 900 mm", {_CAP}'),
    ),
)

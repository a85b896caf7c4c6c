"""The order of the work: wraps, tests and checks, the battery, readings."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_WIRES = "wires:\n  W1: GN 1.0 mm2, a.1 to FS1\n  W2: GN 1.0 mm2, b.1 to FS1\n"
_JOIN = "id: C1, kind: join, ends: [W1 at FS1, W2 at FS1], made: 2019-05-03 AK"
_WRAP = "id: C2, kind: cover, cover: cloth tape, over: [C1], made: 2019-05-10 AK"


_READ = (
    "supply: 12 V\nfuses: {{F1: {{rating: 5 A, fed: always}}}}\n"
    "loads: {{lamp: {{between: lamp.1 lamp.2, draws: 1 A}}}}\n"
    "wires: {{W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}, "
    "W2: {{size: 1.0 mm2, from: lamp.2, to: battery-, length: 900 mm}}}}\n"
    "readings: [{{id: R1, red: lamp.2, black: battery-, loads on: lamp, read: {}, on: 2019-05-30}}]"
)


def _rows(*rows: str) -> str:
    return _WIRES + "changes:\n" + "\n".join(f"  - {{{row}}}" for row in rows) + "\n"


CODES = (
    Code(
        "PRO01",
        ("warning",),
        "a splice wrapped before it was tested",
        "The wrap is dated before the first test of a row with splices that lies under it.",
        "What fails the test then has to be found through the wrap, and the wrap is cut.",
        _rows(f"{_JOIN}, sealed: 2019-05-03 AK, tested: 2019-05-20 AK", _WRAP),
        _rows(f"{_JOIN}, sealed: 2019-05-03 AK, tested: 2019-05-04 AK", _WRAP),
    ),
    Code(
        "PRO02",
        ("warning",),
        "a wrap over what was still open",
        "A row under it is planned, was made later, or has splices and is neither sealed nor tested.",
        "Unfinished work under a finished wrap is forgotten work.",
        _rows(_JOIN, _WRAP),
        _rows(f"{_JOIN}, sealed: 2019-05-03 AK", _WRAP),
    ),
    Code(
        "PRO03",
        ("warning",),
        "changed circuits with neither test nor reading",
        "Told once a job, when it is handed over or once any test is recorded. A circuit counts as tried when one row "
        "on it has a tested date or is proved by a verify row, or when a reading of it is written.",
        "A circuit that nobody tried is a fault that the owner finds.",
        "handed over: 2019-05-30\n" + _rows(_JOIN),
        "handed over: 2019-05-30\n" + _rows(f"{_JOIN}, tested: 2019-05-04 AK"),
    ),
    Code(
        "PRO04",
        ("note",),
        "days of cutting with no word of the battery",
        "Told once a job, when `battery off:` is used at all or the car is handed over.",
        "A cut through a live wire burns the cutter and the module at its other end.",
        "battery off: [2019-05-02 AK]\n" + _rows(_JOIN),
        "battery off: [2019-05-03 AK]\n" + _rows(_JOIN),
    ),
    Code(
        "RDG01",
        ("error", "note"),
        "a reading outside its own limit; a note when a later one there is inside",
        "It is above its `limit:` or below its `at least:`, both in the unit that was read. A later reading of the "
        "same two points that keeps both limits, or a row that was done again since, makes it a note.",
        "A meter that was read and not believed is the fault that comes back.",
        "readings: [{id: R1, red: L1, black: battery-, read: 0.4 V, limit: 0.2 V}]",
        "readings: [{id: R1, red: L1, black: battery-, read: 0.1 V, limit: 0.2 V}]",
    ),
    Code(
        "RDG02",
        ("warning",),
        "a reading outside the band that the network of the car expects",
        "The car as it stood on that day, at the battery's volts of that moment, with the loads under 'loads on:', or "
        "the load that the reading belongs to. Told of the last reading of two points, while nothing between them was "
        "changed since; a reading with a limit of its own is held to that, by RDG01.",
        "What reads higher than copper and contacts account for is a joint going bad before it fails.",
        _READ.format("0.16 V"),
        _READ.format("0.02 V"),
        limits=("band least", "band of wire", "band of allowances", "band of draws", "key-off draw"),
    ),
    Code(
        "RDG03",
        ("warning",),
        "a reading at a point that the car of that day did not have",
        "No wire end, fuse, ground point, or end of a load or switch has that name, on the day of the reading; where "
        "the day is not recorded, on any. Words with a blank between, as in 'negative clamp', are not looked for. Such "
        "a reading proves nothing, and the circuit counts as not measured.",
        "A reading that nobody can take again is no evidence.",
        "grounds: {L1: {back to: battery-}}\nreadings: [{id: R1, red: L7, black: battery-, read: 0.1 V}]",
        "grounds: {L1: {back to: battery-}}\nreadings: [{id: R1, red: L1, black: battery-, read: 0.1 V}]",
    ),
    Code(
        "RDG10",
        ("warning",),
        "a reading on a day that cannot be: still to come, or before 1900",
        "What was read is shown, but proves no row, mends no earlier reading and counts in no figure.",
        "A reading of tomorrow was not taken. With its true day it counts again.",
        _READ.format("0.02 V").replace("2019-05-30", "2199-05-30"),
        _READ.format("0.02 V"),
    ),
    Code(
        "RDG11",
        ("warning",),
        "a limit of a reading below zero: it judges nothing",
        "A drop is judged by its amount, since its sign only tells which lead was where. Nothing can stay below a "
        "limit under zero, and whatever is read reaches one. The reading is not judged by it.",
        "A limit that nothing can miss, or nothing keep, says nothing of the joint.",
        "readings: [{id: R1, red: L1, black: battery-, read: 0.1 V, limit: -0.2 V}]",
        "readings: [{id: R1, red: L1, black: battery-, read: 0.1 V, limit: 0.2 V}]",
    ),
    Code(
        "TST01",
        ("warning",),
        "a check that proves itself, or checks that prove each other",
        "A row of kind verify names itself under 'proves:', or another check that leads back to it. That much of it "
        "proves nothing; what else it names counts.",
        "A test is of the work, not of the note that says it was done.",
        _rows(_JOIN, "id: C2, kind: verify, proves: [C2], made: 2019-05-10 AK"),
        _rows(_JOIN, "id: C2, kind: verify, proves: [C1], made: 2019-05-10 AK"),
    ),
    Code(
        "TST02",
        ("warning",),
        "a check that was made and shows nothing",
        "All that is written of what it measures or should read is 'unknown' or 'not measured', or none of its "
        "readings has a value. The rows it names do not count as tested.",
        "A tick behind a test that was not carried out hides the joint that was never tried.",
        _rows(_JOIN, "id: C2, kind: verify, proves: [C1], test: not measured, made: 2019-05-10 AK"),
        _rows(_JOIN, "id: C2, kind: verify, proves: [C1], test: tug and 5 A for a minute, made: 2019-05-10 AK"),
    ),
    Code(
        "TST03",
        ("warning",),
        "a check made before the work it proves",
        "The row that it names was made on a later day, or is still planned. It does not count as tested by it.",
        "What was tried then was the harness as it was before.",
        _rows(_JOIN, "id: C2, kind: verify, proves: [C1], made: 2019-05-02 AK"),
        _rows(_JOIN, "id: C2, kind: verify, proves: [C1], made: 2019-05-03 AK"),
    ),
)

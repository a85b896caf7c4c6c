"""The taken-over car by somebody who cuts first: what must not be touched, a header, too many kinds of car."""

from __future__ import annotations

from tests.faulty.edits import Edit, before, edit

SLUG = "taken-over"
JOB = "job.yml"
ROWS = "accepted: []\n"  # new rows go in front of it
EXTRAS = ("beacon", "winch", "radio", "step", "heater", "fridge", "spot lamp")

EDITS: tuple[Edit, ...] = (
    edit(
        "a car with its positive side on the frame",
        JOB,
        "ground side: negative",
        "ground side: positive",
        "HDR01 error ",
    ),
    edit(
        "some of the airbag parts were taken out, some not",
        JOB,
        "units: cm\n",
        "units: cm\nsystems: {restraint: removed in part, high voltage: unknown, declared by: PV}\n",
        "SPC08 stop restraint",
    ),
    edit(
        "somebody ran a second bundle to the nose",
        JOB,
        "  - {from: fuse-box, to: tail, length: unknown}\n",
        "  - {from: fuse-box, to: tail, length: unknown}\n  - {from: fuse-box, to: nose, length: 2 m}\n",
        "PLC04 warning W1",
    ),
    edit("which wire was put in, nobody wrote", JOB, "    piece: YE 1.5 mm2\n", "", "COL01 error C6-W3"),
    edit(
        "seven extras, each on or off: more kinds of car than anybody reads through",
        JOB,
        "  heated seats: unknown\n",
        "  heated seats: unknown\n" + "".join(f"  {name}: {{is: none, could be: [fitted, none]}}\n" for name in EXTRAS),
        "OPT03 note ",
    ),
    before(
        "the leads of the seven extras, all off one wire",
        JOB,
        ROWS,
        "".join(
            f"  - {{id: C{number}, kind: tap, wire: W{number}, onto: W1, from: horn.1, tail: {100 - number} cm, "
            f"piece: GN 1.0 mm2, to: {name.replace(' ', '-')}.1, only if: {name} is fitted}}\n"
            for number, name in enumerate(EXTRAS, 30)
        ),
    ),
    before(
        "two wires of one plug cut in one row, and nobody wrote whether alike",
        JOB,
        ROWS,
        "  - {id: C41, kind: extend, plug: fan, pigtail: 10 cm, gap: 20 cm, wires: {W7: RD 2.5 mm2, W8: BK 2.5 mm2}, "
        "made: 2021-02-12 PV}\n",
        "LEN04 warning C41",
    ),
    before(
        "a wire let in that is far too thick, soldered, and lapped as long as a finger is wide",
        JOB,
        ROWS,
        "  - {id: C40, kind: extend, wire: W1, plug: horn, pigtail: 10 cm, gap: 20 cm, piece: RD 4 mm2, "
        'joint: "lap, soldered", overlap: 40 mm, made: 2021-02-12 PV}\n',
        "SPL07 note ",
        "SPL09 note C40",
    ),
)

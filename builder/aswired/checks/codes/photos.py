"""Photographs as evidence, and what must not be given out with them."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_WIRES = "wires:\n  W1: GN 1.0 mm2, a.1 to FS1\n  W2: GN 1.0 mm2, b.1 to FS1\n"
_JOIN = _WIRES + "changes: [{id: C1, kind: join, ends: [W1 at FS1, W2 at FS1], made: 2019-05-03 AK}]\n"

CODES = (
    Code(
        "PHO03",
        ("warning",),
        "splices without a photograph",
        "A made row with splices is named by no picture and names none.",
        "Under the wrap nothing can be photographed any more; a picture finds the splice again and proves it.",
        _JOIN,
        _JOIN + "photos: [{id: P1, file: photos/p1.jpg, shows: C1}]",
    ),
    Code(
        "PHO04",
        ("error",),
        "a picture that cannot be shown",
        "Its file is missing, cut short, or no picture.",
        "Evidence that cannot be opened is none. The page shows an empty frame in its place.",
        _JOIN + "photos: [{id: P1, file: photos/not-there.jpg, shows: C1}]",
        _JOIN + "photos: [{id: P1, file: photos/p1.jpg, shows: C1}]",
    ),
    Code(
        "PHO05",
        ("note",),
        "pictures that belong to nothing",
        "No row names them, and they say of nothing that they show it. Told once a job.",
        "In a year nobody knows what is on them.",
        _JOIN + "photos: [{id: P1, file: photos/p1.jpg}]",
        _JOIN + "photos: [{id: P1, file: photos/p1.jpg, shows: C1}]",
    ),
    Code(
        "PHO06",
        ("warning",),
        "a face or plate that would be given out",
        "The picture says `face or plate: yes`, is published, and nothing on it is hidden.",
        "The owner's edition is passed on, and with it who stood in the shop and whose car it was.",
        _JOIN + "photos: [{id: P1, file: photos/p1.jpg, shows: C1, face or plate: yes}]",
        _JOIN + "photos: [{id: P1, file: photos/p1.jpg, shows: C1, face or plate: yes, publish: no}]",
    ),
)

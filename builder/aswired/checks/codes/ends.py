"""Cut ends: covered, live, forgotten; parts and cavities of which the record says two things."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_LAMP = "fuses: {F1: {rating: 10 A, fed: always}}\nwires: {W1: {size: 1.0 mm2, from: F1, to: lamp.1}}\n"
_OUT = "changes:\n  - {{id: C1, kind: remove, wire: W1, ends: {{{}}}, made: 2019-05-03 AK}}"
_SPLICE = (
    "splices: {{FS1: {{}}}}\n"
    "wires: {{W1: {{from: {}, to: FS1}}, W2: {{from: FS1, to: lamp.1}}, W3: {{from: FS1, to: horn.1}}}}\n"
)
_PAIR = "plugs: {door-lock: {ways: 2}}\nwires: {W1: {from: F1, to: door-lock.1}, W2: {from: door-lock.2, to: FS3}}\n"

CODES: tuple[Code, ...] = (
    Code(
        "END01",
        ("stop",),
        "a cut end is left open and is fed",
        "The row leaves the end 'uncapped', and a fuse, battery+ or a module's feed is still joined to it.",
        "It sparks on the first metal it touches. A bare live stub is how a tidy rework burns years later.",
        _LAMP + _OUT.format("F1: uncapped, lamp.1: pulled"),
        _LAMP + _OUT.format("F1: capped 30 mm, lamp.1: pulled"),
    ),
    Code(
        "END02",
        ("error",),
        "a cut end is left open",
        "The row leaves the end 'uncapped'. Nothing recorded feeds it now.",
        "A dead end that is bare can become live by the next repair, and nobody will know what it was.",
        _LAMP + _OUT.format("F1: pulled, lamp.1: uncapped"),
        _LAMP + _OUT.format("F1: pulled, lamp.1: capped 30 mm"),
    ),
    Code(
        "END03",
        ("error",),
        "a row does not say how an end was left",
        "A wire was taken out and one of its ends is not written. 'unknown' is an answer; silence is none.",
        "The technician who finds a stub years later has to know whether it may be there.",
        _LAMP + _OUT.format("lamp.1: gone"),
        _LAMP + _OUT.format("F1: pulled, lamp.1: gone"),
    ),
    Code(
        "END04",
        ("error",),
        "a row does not say how an opened factory splice was left",
        "A wire came out of a splice in which others stay, and the row does not name the splice.",
        "A factory splice that was opened and not closed again is the usual hidden fault of a reworked loom.",
        _SPLICE.format("F1") + _OUT.format("horn.1: gone").replace("W1", "W3"),
        _SPLICE.format("F1") + _OUT.format("FS1: flush, horn.1: gone").replace("W1", "W3"),
    ),
    Code(
        "END05",
        ("stop",),
        "a capped end is joined to the battery with no fuse between",
        "Some way leads from the stub to battery+ past no fuse and no fusible link, be there another way or not.",
        "When the cap chafes through, nothing blows: the wire burns.",
        _SPLICE.format("battery+") + _OUT.format("FS1: capped 30 mm, horn.1: gone").replace("W1", "W3"),
        _SPLICE.format("F1") + _OUT.format("FS1: capped 30 mm, horn.1: gone").replace("W1", "W3"),
    ),
    Code(
        "END06",
        ("warning",),
        "a splice of which one wire is left: a dead end",
        "Rows took out all wires of a splice but one, and all its members are known.",
        "The wire that is left leads nowhere, and may be live.",
        _SPLICE.format("F1").replace(", W3: {from: FS1, to: horn.1}", "")
        + _OUT.format("FS1: flush, lamp.1: gone").replace("W1", "W2"),
        _SPLICE.format("F1") + _OUT.format("FS1: flush, lamp.1: gone").replace("W1", "W2"),
    ),
    Code(
        "END07",
        ("warning",),
        "a cut end under tape only",
        "The end was left 'taped', or a cap row's 'cover:' is tape.",
        "Tape unwinds and turns to gum; then the end is bare. A sleeve with adhesive stays.",
        _LAMP + _OUT.format("F1: taped 30 mm, lamp.1: gone"),
        _LAMP + _OUT.format("F1: capped 30 mm, lamp.1: gone"),
    ),
    Code(
        "END08",
        ("error",),
        "the record says two things of one part or cavity",
        "A part that is said to be gone or scrapped still holds wires; or a terminal was drawn out, no other wire sits "
        "in the cavity, and a module, a kept load or a switch that is wired on its other side still lists it. "
        "Planned rows mend it until the car is handed over.",
        "One of the two is wrong, and a person who looks for the plug or the wire will not find it.",
        _PAIR + _OUT.format("F1: pulled, door-lock.1: gone"),
        _PAIR + _OUT.format("F1: pulled, door-lock.1: pulled"),
    ),
)

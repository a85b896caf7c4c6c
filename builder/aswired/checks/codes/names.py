"""Names: ids that point to nothing, to two things, or to something else than is meant."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_ROW = "changes: [{id: C1, kind: cover, cover: cloth tape}]\n"

CODES = (
    Code(
        "REF01",
        ("note",),
        "a name made by its first use, close to one that is declared",
        "An end of a wire names a splice, plug or point that is declared nowhere, and that differs from a declared "
        "one by a letter, or in capitals only.",
        "One splice with two names is two half splices in the record.",
        "splices: {FS40: {}}\nwires:\n  W1: GN 18 AWG, F1 to FS40\n  W2: GN 18 AWG, lamp.1 to FS41",
        "splices: {FS40: {}}\nwires:\n  W1: GN 18 AWG, F1 to FS40\n  W2: GN 18 AWG, lamp.1 to FS40",
    ),
    Code(
        "REF02",
        ("error",),
        "an id that points to nothing",
        "A photograph, a mark, a reading, a row or an accepted finding names an id that stands nowhere in the job.",
        "Evidence that belongs to no joint proves none.",
        _ROW + "readings: [{id: R1, of: C7, read: 0.06 V}]",
        _ROW + "readings: [{id: R1, of: C1, read: 0.06 V}]",
    ),
    Code(
        "REF03",
        ("error",),
        "an id of a photograph, reading, visit or offcut that is used twice",
        "Two pictures, two readings or two visits bear one id, one of them bears that of a row, or two rows put a "
        "piece on the rack under one name.",
        "A row that names it may mean either.",
        _ROW + "readings:\n  - {id: R1, of: C1, read: 0.06 V}\n  - {id: R1, of: C1, read: 0.09 V}",
        _ROW + "readings:\n  - {id: R1, of: C1, read: 0.06 V}\n  - {id: R2, of: C1, read: 0.09 V}",
    ),
    Code(
        "REF04",
        ("warning",),
        "an end of a wire, load or switch that reaches no cavity of a declared plug",
        "A wire names a plug and no cavity of it; or a load or switch names a plug that is not declared, but one with "
        "nearly the same name is.",
        "The load would be traced to nowhere for a slip of the pen.",
        "plugs: {tail-right: {ways: 6}}\nloads: {tail lamp: {between: tail-rigth.1 tail-right.2}}",
        "plugs: {tail-right: {ways: 6}}\nloads: {tail lamp: {between: tail-right.1 tail-right.2}}",
    ),
    Code(
        "REF05",
        ("warning",),
        "a ground row to a point that is not declared",
        "The row moves a ground to a point of which nothing is written, so its way back to the battery is not known.",
        "A ground without a way back is no ground.",
        "wires:\n  W1: {colour: BN, size: 1.0 mm2, from: lamp.2, to: FS1, length: 1 m}\n"
        "changes:\n  - {id: C1, kind: ground, wire: W1, end: FS1, to: L4}",
        "grounds: {L4: {stud: M6, back to: battery-}}\n"
        "wires:\n  W1: {colour: BN, size: 1.0 mm2, from: lamp.2, to: FS1, length: 1 m}\n"
        "changes:\n  - {id: C1, kind: ground, wire: W1, end: FS1, to: L4}",
    ),
    Code(
        "REF06",
        ("error", "warning"),
        "an end that what it names has not: a side of a fuse, a cavity of a splice, a post of the battery",
        "A fuse F7 has two sides, F7 and F7.feed; ground points and factory splices have no cavities; the posts are "
        "battery+ and battery-. On the socket of a relay whose contacts are marked 30, 85, 86, 87 and 87a, a contact "
        "marked otherwise is a warning.",
        "Such a name is a point of its own, and all that hangs on it is traced to nowhere.",
        "fuses: {F7: {rating: 10 A}}\nwires:\n  W1: RD 18 AWG, B1 to F7.fed",
        "fuses: {F7: {rating: 10 A}}\nwires:\n  W1: RD 18 AWG, B1 to F7.feed",
    ),
    Code(
        "REF07",
        ("error",),
        "a cavity that the connector cannot have",
        "Its number is larger than 'ways:' of the plug, or below 1. Letters and words are cavities too, and so are "
        "marks such as 30 and 87 on a socket that is not numbered from 1.",
        "Whoever looks for the wire in that cavity does not find it; one of the two numbers was misread.",
        "plugs: {lamp: {ways: 4}}\nwires:\n  W1: GN 18 AWG, F1 to lamp.9",
        "plugs: {lamp: {ways: 4}}\nwires:\n  W1: GN 18 AWG, F1 to lamp.4",
    ),
    Code(
        "REF08",
        ("error",),
        "a wire, load or switch of which both ends are the same",
        "It comes out where it goes in: written so under 'wires:', in 'was:' or in 'between:', or brought about by a "
        "row.",
        "It joins nothing to nothing; where its other end is, nobody knows.",
        "wires:\n  W1: GN 18 AWG, lamp.1 to lamp.1",
        "wires:\n  W1: GN 18 AWG, lamp.1 to lamp.2",
    ),
    Code(
        "ACC01",
        ("warning",),
        "a finding let stand under a code that no finding has",
        "The code is misspelt, or it is one of a file that cannot be understood, which nobody can let stand.",
        "What was meant to be let stand is not, and who reads the record looks for a finding that does not exist.",
        _ROW + "accepted: [{finding: GND20, by: AK, why: seen}]",
        _ROW + "accepted: [{finding: REF02, of: R1, by: AK, why: seen}]\nreadings: [{id: R1, of: C7, read: 0.06 V}]",
    ),
    Code(
        "ACC02",
        ("note",),
        "a finding let stand that does not occur there",
        "It was mended since, or stands at another id. On the row, of that id or on the job no finding has this code.",
        "Left standing, it would let the same finding pass in silence if it came back.",
        _ROW + "accepted: [{finding: REF02, by: AK, why: reading of the old list}]",
        _ROW + "accepted: [{finding: REF02, by: AK, why: reading of the old list}]\n"
        "readings: [{id: R1, of: C7, read: 0.06 V}]",
    ),
)

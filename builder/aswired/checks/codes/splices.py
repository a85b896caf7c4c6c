"""Splices: where they lie, what covers them, how they are made."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_USUAL = 'usual: {joint: "lap, soldered", overlap: 10 mm, cover: adhesive sleeve 40 mm, slack: 50 mm}\n'
_WIRE = "wires:\n  W1: {colour: GN, size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}\n"
_FOUR = (
    "wires:\n  W1: GN 1.0 mm2, a.1 to FS1\n  W2: GN 1.0 mm2, b.1 to FS1\n"
    "  W3: RD 1.0 mm2, c.1 to FS2\n  W4: RD 1.0 mm2, d.1 to FS2\n"
)
_EXTEND = "kind: extend, wire: W1, plug: lamp, gap: 400 mm, piece: BU 1.0 mm2"
_JOIN = "id: C1, kind: join, ends: [W1 at FS1, W2 at FS1]"
_OTHER = "id: C2, kind: join, ends: [W3 at FS2, W4 at FS2]"


def _route(zone: str = "dry", bulkhead: str = "sheet metal") -> str:
    return (
        f"landmarks: {{bulkhead: {bulkhead}, nose: takeout}}\n"
        f"route: [{{from: bulkhead, to: nose, length: 1000 mm, zone: {zone}}}]\n"
    )


def _rows(*rows: str) -> str:
    return "changes:\n" + "\n".join(f"  - {{{row}}}" for row in rows)


def _at(place: str) -> str:
    return f"where: {place} from bulkhead towards nose"


CODES = (
    Code(
        "SPL01",
        ("error",),
        "a splice too near a connector, a branch or the next splice",
        "Between its centre and a connector, a branch of the bundle or the next splice is less room than the limit.",
        "Near a connector a splice is bent whenever the plug is pulled, and two splices side by side make a lump "
        "that chafes.",
        _USUAL + _WIRE + _rows(f"id: C1, {_EXTEND}, pigtail: 30 mm"),
        _USUAL + _WIRE + _rows(f"id: C1, {_EXTEND}, pigtail: 150 mm"),
        ("joint clear",),
    ),
    Code(
        "SPL02",
        ("warning",),
        "two splices in one bundle that are hardly staggered",
        "They are clear of each other, but their sleeves still lie side by side.",
        "A bulge in the bundle is where the wrap opens and where a clamp presses.",
        _USUAL + _route() + _FOUR + _rows(f"{_JOIN}, {_at('300 mm')}", f"{_OTHER}, {_at('345 mm')}"),
        _USUAL + _route() + _FOUR + _rows(f"{_JOIN}, {_at('300 mm')}", f"{_OTHER}, {_at('360 mm')}"),
        ("joint stagger",),
    ),
    Code(
        "SPL03",
        ("error",),
        "a splice where the bundle flexes, at a grommet, clip or hinge, or at the end of a conduit",
        "Its leg is marked flex, the landmark it lies at holds the bundle, or its sleeve reaches the mouth of a "
        "conduit. The last is told only of a splice whose place was measured.",
        "A wire bends where its stiff part ends: strand after strand breaks there, inside the sleeve.",
        _USUAL + _route("flex") + _FOUR + _rows(f"{_JOIN}, {_at('300 mm')}"),
        _USUAL + _route("dry") + _FOUR + _rows(f"{_JOIN}, {_at('300 mm')}"),
    ),
    Code(
        "SPL04",
        ("stop", "error"),
        "a bare splice; an error while its row is planned",
        "The row says that nothing covers the joint.",
        "A bare joint against steel is a short circuit behind the fuse, or before it.",
        _USUAL + _FOUR + _rows(f"{_JOIN}, cover: none, made: 2019-05-03 AK"),
        _USUAL + _FOUR + _rows(f"{_JOIN}, cover: adhesive sleeve 40 mm, made: 2019-05-03 AK"),
    ),
    Code(
        "SPL05",
        ("error",),
        "a splice in a wet zone without an adhesive-lined sleeve",
        "Its leg is marked wet and what covers it is not said to be adhesive.",
        "Water creeps along the strands for a metre and more, and the copper goes black inside sound insulation.",
        _USUAL + _route("wet") + _FOUR + _rows(f"{_JOIN}, {_at('300 mm')}, cover: plain sleeve 40 mm"),
        _USUAL + _route("wet") + _FOUR + _rows(f"{_JOIN}, {_at('300 mm')}, cover: adhesive sleeve 40 mm"),
    ),
    Code(
        "SPL06",
        ("warning",),
        "a sleeve too short for its overlap",
        "It should reach over the insulation at both ends of the joint by half of the limit each.",
        "A sleeve that ends on the strands seals nothing and lets the joint bend at its edge.",
        _USUAL + _FOUR + _rows(f"{_JOIN}, cover: adhesive sleeve 30 mm"),
        _USUAL + _FOUR + _rows(f"{_JOIN}, cover: adhesive sleeve 40 mm"),
        ("sleeve over overlap",),
    ),
    Code(
        "SPL07",
        ("note",),
        "soldered joints on thick wire",
        "One vehicle maker solders up to 16 AWG only and crimps what is thicker. Told once a job, with the joints.",
        "Thick copper draws the heat away: a joint that looks wetted outside may be dry inside.",
        _USUAL + _FOUR.replace("GN 1.0 mm2", "GN 4 mm2") + _rows(_JOIN),
        _USUAL + _FOUR.replace("GN 1.0 mm2", "GN 4 mm2") + _rows(f'{_JOIN}, joint: "butt, crimped"'),
        ("solder largest",),
    ),
    Code(
        "SPL08",
        ("error",),
        "a crimp over strands that were tinned first",
        "The joint is crimped and says `tinned first`.",
        "Solder gives way under the pressure of a crimp in weeks; the crimp goes loose and warm.",
        _USUAL + _FOUR + _rows(f'{_JOIN}, joint: "butt, crimped, tinned first"'),
        _USUAL + _FOUR + _rows(f'{_JOIN}, joint: "butt, crimped"'),
    ),
    Code(
        "SPL09",
        ("warning", "note"),
        "a lap under 3 conductor diameters; a note for one above 6",
        "The diameter is that of a solid wire with the copper of the thickest conductor in the joint. The note is told "
        "once a job, of laps that rows give: car makers ask for 10 to 13 mm on any wire, space work 3 to 6 diameters. "
        "A long lap under `usual:` is the way of the house, and no note.",
        "A short lap carries its load and its pull on too little solder. A long one makes a longer stiff piece.",
        _USUAL + _FOUR.replace("GN 1.0 mm2", "GN 16 mm2") + _rows(_JOIN),
        _USUAL + _FOUR.replace("GN 1.0 mm2", "GN 16 mm2") + _rows(f"{_JOIN}, overlap: 20 mm"),
        ("lap least", "lap most"),
    ),
    Code(
        "SPL10",
        ("warning",),
        "a joint whose copper does not fit its barrel, or where one thin wire feeds two larger ones",
        "The copper of all wires in the barrel counts; in a butt joint that of each side, however the wires are shared "
        "between the sides. A thin feed is told where the traced feed runs into the joint by one wire and on by two "
        "larger ones with no fuse between.",
        "Strands are cut off to make them fit, or the barrel does not close. Behind a thin feed people read the larger "
        "wires and fit a larger fuse.",
        _USUAL + _FOUR + _rows(f'{_JOIN}, joint: "closed-end, crimped, barrel 0.5-1.5 mm2"'),
        _USUAL + _FOUR + _rows(f'{_JOIN}, joint: "closed-end, crimped, barrel 1.5-2.5 mm2"'),
    ),
    Code(
        "SPL11",
        ("warning",),
        "many splices in one wire between two connectors",
        "Splices and taps of this job are counted, the maker's own are not. A plug that the wire passes parts it.",
        "Each splice is a place where the wire can fail and where somebody will have to look.",
        _USUAL
        + _WIRE
        + _rows(
            f"id: C1, {_EXTEND}, pigtail: 150 mm",
            "id: C2, kind: shorten, wire: W1, end: F1, pigtail: 200 mm, take out: 90 mm",
        ),
        _USUAL + _WIRE + _rows(f"id: C1, {_EXTEND}, pigtail: 150 mm"),
        ("joints in a wire",),
    ),
    Code(
        "SPL12",
        ("error",),
        "a twisted or snapped-on joint as the lasting method",
        "The joint is `snap-on`, or `twist` with the fixing `none`. A twisted joint that is soldered is not meant.",
        "Twisted wires come apart under the tape; a snap-on connector cuts strands and lets water in.",
        _USUAL + _FOUR + _rows(f'{_JOIN}, joint: "twist, none"'),
        _USUAL + _FOUR + _rows(f'{_JOIN}, joint: "lap, soldered"'),
    ),
)

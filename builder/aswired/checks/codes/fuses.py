"""Fuses and relays: above the wire, below the load, far from the source, feeding nothing, in no table, never drawn."""

from __future__ import annotations

from aswired.checks.codes.code import Code

_SIZE = "fuses: {{F1: {{rating: {}, fed: always}}}}\nwires: {{W1: {{size: 1.0 mm2, from: F1, to: lamp.1}}}}"
_OUT = (
    "fuses: {{F4: {{rating: 15 A, fed: always}}}}\nwires: {{W24: {{from: F4, to: door-lock.1}}}}\n"
    "changes:\n  - {{id: C1, kind: remove, wire: W24, ends: {{F4: pulled, door-lock.1: gone}}{}, made: 2019-05-03 AK}}"
)
_FAN = (
    "fuses: {{F9: {{rating: 30 A, fed: always}}}}\nloads: {{fan: {{between: fan.1 fan.2}}}}\n"
    "wires: {{W1: {{from: {}, to: fan.1}}, W2: {{from: fan.2, to: battery-}}}}"
)
_SHARE = (
    "fuses: {{F6: {{rating: {}, fed: ignition}}}}\n"
    "loads: {{fan: {{between: fan.1 fan.2, draws: 9 A, duty: continuous}}}}\n"
    "wires: {{W1: {{from: F6, to: fan.1}}, W2: {{from: fan.2, to: battery-}}}}"
)
_SHORT = (
    "fuses: {{F1: {{rating: 10 A, fed: always}}}}\nloads: {{lamp: {{between: lamp.1 lamp.2, draws: 2 A}}}}\n"
    "wires: {{W1: {{from: F1, to: lamp.1}}, W2: {{from: {}, to: battery-}}}}"
)
_OVER = (
    "fuses: {{F5: {{rating: 15 A, fed: always}}}}\nloads: {{horn: {{between: horn.1 horn.2, draws: {}}}}}\n"
    "wires: {{W1: {{from: F5, to: horn.1}}, W2: {{from: horn.2, to: battery-}}}}"
)
_FAR = "fuses: {{F12: {{rating: 10 A}}}}\nwires: {{W90: {{from: battery+, to: F12.feed, length: {}}}}}"
_NEW = "fuses: {}\nchanges:\n  - {{id: C1, kind: protect, fuse: F16, rating: 10 A, made: 2019-05-03 AK}}"
_DRAWN = (
    "fuses: {{F1: {{rating: 10 A, fed: always}}}}\nwires: {{W1: {{from: F1, to: lamp.1}}}}\n"
    "changes:\n"
    "  - {{id: C1, kind: terminate, wire: W1, end: lamp.1, into: lamp.3, made: 2019-05-03 AK}}\n"
    "  - {{id: C2, kind: verify, proves: [C1]{}, made: 2019-05-04 AK}}"
)

_BRANCH = (
    "fuses: {{MAIN: {{rating: 30 A, fed: always}}, F2: {{rating: {}}}}}\n"
    "wires: {{W1: {{from: MAIN, to: F2.feed}}, W2: {{from: F2, to: lamp.1}}}}"
)

CODES: tuple[Code, ...] = (
    Code(
        "FUS01",
        ("error",),
        "a fuse above the planning rating of the thinnest wire it protects",
        "The thinnest wire behind the fuse, pieces and leftover wire included, up to the next fuse. Planning ratings "
        "by copper area: 0.5 mm2 5 A, 0.75 mm2 7.5 A, 1 mm2 10 A, 1.5 and 2 mm2 15 A, 2.5 mm2 20 A, 4 mm2 30 A, 6 mm2 "
        "40 A; between two areas the smaller counts. No standard prints them: they are estimates for bundled wire, on "
        "the safe side, and vehicle makers go higher. A maker's own fuse on its own uncut wire is let stand by name.",
        "A fuse protects the wire. Where it is larger, the wire is the fuse.",
        _SIZE.format("15 A"),
        _SIZE.format("10 A"),
    ),
    Code(
        "FUS02",
        ("warning",),
        "a fuse in use that feeds nothing any more, or only cut ends",
        "Nothing of the record is left on its load side but cut ends that somebody looked at; or rows worked there and "
        "left nothing at all. A fuse of which no wire is recorded is not judged.",
        "Its slot is live for nothing, and the next person takes the label for the truth.",
        _OUT.format(""),
        _OUT.format(", spare: [F4]"),
    ),
    Code(
        "FUS03",
        ("stop", "note"),
        "a kept load is fed from the battery with no fuse on the way",
        "A way from battery+ leads to it past no fuse and no fusible link. Words under 'unfused:' make it a note that "
        "says them. Feeds that begin at a module are not judged.",
        "A short in that wire has the whole battery behind it. A starter's main feed is the usual exception.",
        _FAN.format("battery+"),
        _FAN.format("F9"),
    ),
    Code(
        "FUS04",
        ("warning",),
        "continuous loads take more of a fuse than their share",
        "Kept loads with 'duty: continuous' and a known current, all that the fuse feeds together.",
        "A fuse that always runs near its rating grows hot and blows for no fault.",
        _SHARE.format("10 A"),
        _SHARE.format("15 A"),
        ("fuse share",),
    ),
    Code(
        "FUS05",
        ("warning",),
        "a fuse far from its source",
        "Recorded wire between battery+, or a splice with 'bus: yes', and the fuse, with no fuse or fusible link on "
        "it. Wire whose length is not recorded does not count.",
        "That stretch is protected by nothing; the shorter it is, the less can happen to it.",
        _FAR.format("450 mm"),
        _FAR.format("200 mm"),
        ("fuse from source",),
    ),
    Code(
        "FUS06",
        ("error",),
        "a fuse or relay that stands in no table",
        "A row or a wire names it ('F16.feed' is the feed side of fuse F16), and it is not under 'fuses:' or "
        "'switches:'.",
        "An in-line holder that is on no page is the last thing a technician finds.",
        _NEW.format("{}"),
        _NEW.format("{F16: {in: battery}}"),
    ),
    Code(
        "FUS07",
        ("warning",),
        "fuses with changed circuits that were never drawn to prove them",
        "One line lists the fuses in use whose circuits rows changed and that no made verify row names under "
        "'dead without:'. Told once a verify row is made or the car is handed over.",
        "Holders that conduct with no fuse in them exist, and so do fuses in the wrong slot.",
        _DRAWN.format(""),
        _DRAWN.format(", dead without: [F1]"),
    ),
    Code(
        "FUS08",
        ("warning",),
        "a fuse that is not below the fuse it is fed through",
        "A wire on the load side of one fuse leads to the feed side of another ('F2.feed'), and both ratings are "
        "recorded. A fuse that the battery also reaches past the first is not judged.",
        "The fuse nearest the fault should blow. Where the feeder blows first, all that it feeds goes dark, and the "
        "fault is looked for in the wrong place.",
        _BRANCH.format("30 A"),
        _BRANCH.format("15 A"),
    ),
    Code(
        "FUS09",
        ("error", "warning"),
        "loads that take more than the rating of their fuse",
        "An error where one kept load alone takes more than is moulded on the fuse it hangs on; a warning where those "
        "that can be on together do. Loads whose current is not recorded add nothing, starters are left out; one "
        "that is on for a moment counts too.",
        "The fuse blows, or somebody puts in a larger one than the wire bears.",
        _OVER.format("25 A"),
        _OVER.format("12 A"),
    ),
    Code(
        "FUS10",
        ("stop",),
        "a feed that is joined to ground with no load between",
        "From battery+ or the load side of a fuse, recorded wires and switches that are closed at rest lead to a "
        "ground point or battery negative, and no load, open switch or further fuse lies on the way.",
        "It is a dead short the moment the battery goes on: the fuse blows, or where there is none the wire burns.",
        _SHORT.format("lamp.1"),
        _SHORT.format("lamp.2"),
    ),
)

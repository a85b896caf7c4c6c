"""Random harnesses as job text: ground points in chains, splices, loops, fuses, switches, relays, lamps and motors.

Only the text is made here; what it means electrically is read by the program and, apart from it, by `exporter`.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field

SIZES = ("0.5 mm2", "0.75 mm2", "1.0 mm2", "1.5 mm2", "2.5 mm2", "4 mm2", "18 AWG", "16 AWG", "14 AWG", "12 AWG")
CABLES = ("6 mm2", "10 mm2", "16 mm2", "25 mm2")
HEAD = """\
job: Chance
system: 12 V
supply: 13.5 V
temperature: 20 C
body returns: no
usual: {joint resistance: 0.7 mohm, cavity resistance: 2.5 mohm, ring resistance: 0.6 mohm, fuse resistance: 4 mohm,
  switch resistance: 9 mohm, contact resistance: 3 mohm}
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""


@dataclass
class Harness:
    """The sections of a job, and what its network has that makes it worth a test."""

    seed: int
    wires: list[str] = field(default_factory=list)
    fuses: list[str] = field(default_factory=list)
    switches: list[str] = field(default_factory=list)
    loads: list[str] = field(default_factory=list)
    grounds: list[str] = field(default_factory=list)
    splices: list[str] = field(default_factory=list)
    plugs: list[str] = field(default_factory=list)
    has: set[str] = field(default_factory=set)  # loop, relay, shared ground, chained ground, ...

    @property
    def all_on(self) -> str:
        """The job with every relay contact open at rest, so that all its loads can be on together."""
        return self.text.replace(", at rest: closed", "")

    @property
    def text(self) -> str:
        sections = [HEAD]
        for name in ("plugs", "fuses", "switches", "loads", "grounds", "splices", "wires"):
            lines: list[str] = getattr(self, name)
            if lines:
                sections.append(f"{name}:\n" + "".join(f"  {line}\n" for line in lines))
        return "".join(sections)


class _Maker:
    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.made = Harness(seed)
        self.cavities: list[str] = []  # those that returns leave loads by
        self.landed: list[str] = []  # where returns land

    def wire(self, a: str, b: str, via: str = "") -> None:
        ends = (a, b) if self.chance.random() < 0.5 else (b, a)
        number = len(self.made.wires) + 1
        passed = f", via: {via}" if via else ""
        length = self.chance.randrange(150, 5200)
        size = self.chance.choice(SIZES)
        self.made.wires.append(
            f"W{number}: {{size: {size}, from: {ends[0]}, to: {ends[1]}{passed}, length: {length} mm}}"
        )

    def run(self) -> Harness:
        self._returns()
        self._sources()
        for number in range(1, self.chance.randrange(3, 8)):
            self._load(number)
        return self.made

    def _returns(self) -> None:
        """Ground points, some of them lugs behind lugs, and ground splices, some with two ways to a lug."""
        chance, made = self.chance, self.made
        points: list[str] = []
        for number in range(1, chance.randrange(2, 6)):
            back = chance.choice(["battery-", *points])
            if back != "battery-":
                made.has.add("chained ground")
            made.grounds.append(
                f"L{number}: {{cable: {chance.choice(CABLES)}, cable length: {chance.randrange(200, 4000)} mm,"
                f" conducts: yes, back to: {back}}}"
            )
            points.append(f"L{number}")
        self.ways_back = list(points)
        for number in range(chance.randrange(0, 4)):
            name = f"FS{number + 20}"
            made.splices.append(f"{name}: {{}}")
            self.wire(name, chance.choice(self.ways_back))
            if chance.random() < 0.45:
                self.wire(name, chance.choice(self.ways_back))
                made.has.add("loop")
            self.ways_back.append(name)

    def _sources(self) -> None:
        """Fuses, some fed by wire from the battery, and splices behind them."""
        chance, made = self.chance, self.made
        self.feeds: list[str] = []
        bus = chance.random() < 0.4
        if bus:
            made.splices.append("BUS: {bus: yes}")
            self.wire("battery+", "BUS")
        for number in range(1, chance.randrange(2, 6)):
            made.fuses.append(f"F{number}: {{rating: {chance.choice((5, 7.5, 10, 15, 20))} A, fed: always}}")
            if bus and chance.random() < 0.6:
                self.wire("BUS", f"F{number}.feed")
                made.has.add("fused source")
            self.feeds.append(f"F{number}")
        for number in range(chance.randrange(0, 4)):
            name = f"FS{number + 1}"
            made.splices.append(f"{name}: {{}}")
            at = chance.choice(self.feeds)
            self.wire(at, name)
            if chance.random() < 0.3:
                self.wire(at, name)
                made.has.add("loop")
            self.feeds.append(name)

    def _load(self, number: int) -> None:
        chance, made = self.chance, self.made
        ways = [f"p{number}.{way}" for way in "12"]
        if self.cavities and chance.random() < 0.2:
            ways[1] = chance.choice(self.cavities)
            made.has.add("shared cavity")
        else:
            self._back(ways[1])
        kind = chance.random()
        if kind < 0.45:
            draws = chance.choice(("21 W at 12.8 V", "5 W at 12.8 V", "55 W at 12.8 V", "0.4 A"))
            made.loads.append(f"lamp {number}: {{between: {ways[0]} {ways[1]}, draws: {draws}, class: lamp}}")
        else:
            what = chance.choice(("motor", "heater", "fuel pump", "electronics"))
            draws = f"{chance.randrange(2, 90) / 10} A"
            made.loads.append(f"load {number}: {{between: {ways[0]} {ways[1]}, draws: {draws}, class: {what}}}")
        feed = chance.choice(self.feeds)
        by = chance.random()
        if by < 0.3:
            self._relay(number, feed, ways[0])
        elif by < 0.6:
            made.switches.append(f"switch {number}: {{between: s{number}.1 s{number}.2}}")
            self.wire(feed, f"s{number}.1")
            self.wire(f"s{number}.2", ways[0])
        else:
            via = ""
            if chance.random() < 0.3:
                via = f"half.{number}"
                if "half: {in line: yes}" not in made.plugs:
                    made.plugs.append("half: {in line: yes}")
            self.wire(feed, ways[0], via)
            if chance.random() < 0.15:
                self.wire(chance.choice(self.feeds), ways[0])
                made.has.add("loop")

    def _back(self, end: str) -> None:
        lands = self.chance.choice(self.ways_back)
        if lands in self.landed:
            self.made.has.add("shared ground")
        self.landed.append(lands)
        self.cavities.append(end)
        self.wire(end, lands)

    def _relay(self, number: int, feed: str, to: str) -> None:
        """A relay whose contact feeds a load and whose coil hangs on another fuse, or on a splice of another."""
        others = [f for f in self.feeds if f != feed] or [feed]
        self.made.has.add("relay")
        k = f"K{number}"
        rest = ", at rest: closed" if self.chance.random() < 0.25 else ""
        self.made.switches.append(f"{k} contact: {{between: {k}.30 {k}.87, worked by: {k} coil{rest}}}")
        self.made.loads.append(
            f"{k} coil: {{between: {k}.86 {k}.85, draws: {self.chance.choice((120, 150, 180))} mA, class: coil}}"
        )
        self.wire(feed, f"{k}.30")
        self.wire(f"{k}.87", to)
        self.wire(self.chance.choice(others), f"{k}.86")
        self._back(f"{k}.85")


def harness(seed: int) -> Harness:
    """The harness of a seed: one seed, one text."""
    return _Maker(seed).run()

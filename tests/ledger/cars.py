"""Random small cars as job text for the ledger: fuses in series, side by side and bridged, trees and rings of wire,
shared ways home. Sizes and ratings fit one another often, not always, so that some lines are proved and some are not.

Only the text is made here; what the ledger makes of it, and what a simulator does, is read by others.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field

# Copper [mm2] -> what it is planned for [A]: only to draw sizes that fit more often than chance would have it.
FITS = {0.35: 3, 0.5: 5, 0.75: 7.5, 1.0: 10, 1.5: 15, 2.5: 20, 4: 30, 6: 40, 10: 60, 16: 85}
RATINGS = (3, 5, 7.5, 10, 15, 20, 25, 30, 40)
HEAD = """\
job: Chance
system: 12 V
supply: 13.5 V
temperature: 20 C
body returns: no
usual: {joint resistance: 0 mohm, cavity resistance: 0 mohm, ring resistance: 0 mohm, fuse resistance: 0 mohm,
  switch resistance: 0 mohm, contact resistance: 0 mohm}
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""
SECTIONS = ("fuses", "switches", "loads", "grounds", "splices", "wires")


@dataclass
class Car:
    """The sections of a job, and what it has that makes it worth a test."""

    fuses: list[str] = field(default_factory=list)
    switches: list[str] = field(default_factory=list)
    loads: list[str] = field(default_factory=list)
    grounds: list[str] = field(default_factory=list)
    splices: list[str] = field(default_factory=list)
    wires: list[str] = field(default_factory=list)
    has: set[str] = field(default_factory=set)

    @property
    def text(self) -> str:
        lines = [HEAD]
        for name in SECTIONS:
            own: list[str] = getattr(self, name)
            if own:
                lines.append(f"{name}:\n" + "".join(f"  {line}\n" for line in own))
        return "".join(lines)


class _Maker:
    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.car = Car()
        self.sound = self.chance.choice((0.97, 0.9, 0.75))  # how often a size fits what comes
        self.feeds: dict[str, float] = {}  # node -> what its fuses let through, roughly [A]
        self.trunks: dict[str, list[str]] = {}  # ground splice -> where its wires home lead
        self.most: dict[str, float] = {}  # ground splice or point -> the largest fuse before one of its loads [A]
        self.drawn: dict[str, float] = {}  # and what its loads take together [A]

    def yes(self, share: float) -> bool:
        return self.chance.random() < share

    def size(self, amps: float, sizes: tuple[float, ...] = tuple(FITS)) -> str:
        fitting = [size for size in sizes if FITS[size] >= amps - 1e-9][:2]
        size = self.chance.choice(fitting) if fitting and self.yes(self.sound) else self.chance.choice(sizes)
        return f"{size:g} mm2"

    def wire(self, a: str, b: str, amps: float, longest: int = 4000) -> None:
        ends = (a, b) if self.yes(0.5) else (b, a)
        length = self.chance.randrange(100, longest)
        number = len(self.car.wires) + 1
        self.car.wires.append(
            f"W{number}: {{size: {self.size(amps)}, from: {ends[0]}, to: {ends[1]}, length: {length} mm}}"
        )

    def splice(self, name: str, more: str = "") -> str:
        self.car.splices.append(f"{name}: {{all members known: yes{more}}}")
        return name

    def run(self) -> Car:
        self._sources()
        self._further_fuses()
        self._homes()
        for number in range(1, self.chance.randrange(3, 8)):
            self._load(number)
        self._trunks()
        return self.car

    # ---- feeds ------------------------------------------------------------------------------------------------------
    def _fuse(self, amps: float) -> str:
        name = f"F{len(self.car.fuses) + 1}"
        self.car.fuses.append(f"{name}: {{rating: {amps:g} A, fed: always}}")
        self.feeds[name] = amps
        return name

    def _sources(self) -> None:
        """Fuses at a bus bar, straight at the battery, or where no wire is written before them."""
        bus = ""
        if self.yes(0.5):
            bus = self.splice("BUS", ", bus: yes")
            self.wire("battery+", bus, self.chance.choice((20, 30, 40, 60, 85)), 330)
        for _ in range(self.chance.randrange(1, 5)):
            amps = self.chance.choice(RATINGS)
            name = self._fuse(amps)
            before = self.chance.choice((bus or "battery+", "battery+", ""))
            if before:
                self.wire(before, f"{name}.feed", amps, 330)
                self.car.has.add("unfused lead")
            self._tree(name)

    def _tree(self, start: str) -> None:
        """Splices behind a fuse, one behind the other, some of them by two wires."""
        at = start
        for _ in range(self.chance.randrange(0, 3)):
            name = self.splice(f"FS{len(self.car.splices) + 1}")
            for _ in range(2 if self.yes(0.25) else 1):
                self.wire(at, name, self.feeds[start])
            self.feeds[name] = self.feeds[at]
            if self.car.wires[-1].count(name) and self.yes(0.15) and at != start:
                self.wire(start, name, self.feeds[start])
                self.car.has.add("ring")
            at = name if self.yes(0.6) else start

    def _further_fuses(self) -> None:
        """Fuses behind fuses, fuses side by side, and now and then a wire past a fuse."""
        for _ in range(self.chance.randrange(1, 5)):
            if self.yes(0.6):
                before = self.chance.choice(list(self.feeds))
                amps = self.chance.choice(RATINGS)
                name = self._fuse(amps)
                self.feeds[name] = min(amps, self.feeds[before])
                self.wire(before, f"{name}.feed", self.feeds[before])
                self._tree(name)
                self.car.has.add("in series")
            else:
                onto = self.chance.choice(list(self.feeds))
                amps = self.chance.choice(RATINGS[:6])
                name = self._fuse(amps)
                self.feeds[name] = self.feeds[onto] = self.feeds[onto] + amps
                self.wire(name, onto, self.feeds[onto])
                if self.yes(0.5):
                    self.wire("battery+", f"{name}.feed", amps, 330)
                self.car.has.add("side by side")
        if self.yes(0.15):
            name = self.chance.choice(self.car.fuses).partition(":")[0]
            self.wire(f"{name}.feed", name, self.feeds[name])
            self.car.has.add("bridged")

    # ---- loads and ways home ----------------------------------------------------------------------------------------
    def _homes(self) -> None:
        self.points = [f"L{number}" for number in range(1, self.chance.randrange(2, 5))]
        for number in range(self.chance.randrange(0, 3)):
            name = self.splice(f"FS{number + 51}")
            self.trunks[name] = [self.chance.choice(self.points) for _ in range(2 if self.yes(0.35) else 1)]
            if len(self.trunks[name]) > 1:
                self.car.has.add("two ways home")

    def _load(self, number: int) -> None:
        feed = self.chance.choice(list(self.feeds))
        amps = self.feeds[feed]
        draws = round(self.chance.uniform(0.1, 0.6) * min(amps, 30), 1)
        way = f"p{number}.1"
        what = self.chance.choice(("lamp", "motor", "heater", "electronics"))
        self.car.loads.append(f"load {number}: {{between: {way} p{number}.2, draws: {draws} A, class: {what}}}")
        if self.yes(0.25):
            self.car.switches.append(f"switch {number}: {{between: s{number}.1 s{number}.2}}")
            self.wire(feed, f"s{number}.1", amps)
            self.wire(f"s{number}.2", way, amps)
        else:
            self.wire(feed, way, amps)
        if self.yes(0.12):
            other = self.chance.choice(list(self.feeds))
            amps += 0 if other == feed else self.feeds[other]
            self.wire(other, way, amps)
            self.car.has.add("fed twice")
        home = self.chance.choice([*self.points, *self.trunks, *self.trunks])
        self.wire(f"p{number}.2", home, amps)
        if home in self.drawn:
            self.car.has.add("shared way home")
        self._takes(home, amps, draws)

    def _takes(self, home: str, amps: float, draws: float) -> None:
        self.most[home] = max(self.most.get(home, 0), amps)
        self.drawn[home] = self.drawn.get(home, 0) + draws

    def _trunks(self) -> None:
        """Ways home of several loads; of some cars they are made for the largest fuse and not for what all take."""
        all_take = self.yes(0.5)
        for name, points in self.trunks.items():
            most, drawn = self.most.get(name, 0), self.drawn.get(name, 0)
            for point in points:
                self.wire(name, point, max(most, drawn) if all_take else most)
                self._takes(point, most, drawn)
        for place, name in reversed(list(enumerate(self.points))):
            most, drawn = self.most.get(name, 0), self.drawn.get(name, 0)
            back = self.chance.choice(["battery-", *self.points[:place]])
            if back != "battery-":
                self._takes(back, most, drawn)
            cable = self.size(max(most, drawn) if all_take else most, (2.5, 4, 6, 10, 16))
            length = self.chance.randrange(200, 3000)
            self.car.grounds.append(
                f"{name}: {{cable: {cable}, cable length: {length} mm, conducts: yes, back to: {back}}}"
            )


def car(seed: int) -> Car:
    """The car of a seed: one seed, one text."""
    return _Maker(seed).run()

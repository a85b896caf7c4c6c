"""Fuses and fusible links of a view against the wires behind them."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.car.harness import Stretch
from aswired.physics.figure import Figure
from aswired.record import Fuse


@dataclass(frozen=True)
class Mend:
    """The smallest change that makes a fuse suit its wire: another blade fuse, else larger wires.

    `fuse_a` is None where no blade fuse suits the wire and bears the load; then `wires` are to be replaced by at least
    `area_mm2`, which is None where no row of the planning table suits the fuse. `load_a` are the loads behind it that
    can be on together, None where a current is not recorded; `needed_a` is the least rating that bears what is
    recorded.
    """

    fuse_a: float | None
    needed_a: float
    load_a: float | None
    area_mm2: float | None
    gauge: int | None  # the thinnest gauge that has that area
    wires: tuple[Stretch, ...]


@dataclass(frozen=True)
class FuseSummary:
    """One fuse in the shown view, judged by the planning table."""

    name: str
    fuse: Fuse | None
    loads: tuple[str, ...]  # kept loads fed through it
    total: Figure  # A, of its kept loads those that can be on together
    thinnest: Stretch | None  # thinnest wire that it alone protects
    rating: Figure  # A, planning rating of that wire
    ok: bool | None  # fuse <= rating; None = not judged
    spare: bool
    rows: tuple[str, ...] = ()  # rows that assigned it or left it spare
    in_wire: str = ""  # the wire it was let into
    share: Figure | None = None  # %, of its rating that the loads which stay on take together
    unprotected: Figure | None = None  # mm to its source; None where no wire of the record leads to one
    opinions: tuple[Figure, ...] = ()  # A, of published tables for the thinnest wire; none is the verdict
    feeders: tuple[str, ...] = ()  # fuses that it is fed through
    mend: Mend | None = None  # when it is above its wire
    dead_ends: tuple[str, ...] | None = None  # cut ends, where nothing else is behind it

    @property
    def figures(self) -> tuple[Figure, ...]:
        return (self.total, self.rating, *filter(None, (self.share, self.unprotected)), *self.opinions)


@dataclass(frozen=True)
class Behind:
    """A wire that a fusible link protects: its thinnest stretch in the car, and by how many gauge numbers the link is
    the thinner; None where a size was not read."""

    wire: str
    thinnest: Stretch | None
    steps: int | None


@dataclass(frozen=True)
class LinkSummary:
    """A fusible link in the shown view, with the wires that it is declared to protect."""

    name: str
    stretch: Stretch
    length_mm: float | None
    protects: tuple[Behind, ...]

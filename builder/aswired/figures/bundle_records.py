"""Bundles of the plan: the wires that lie together, what goes over them, and where their splices find room."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.car.harness import Stretch
from aswired.physics.bundle import Outside
from aswired.physics.figure import Figure
from aswired.record import Hole


@dataclass(frozen=True)
class InBundle:
    """A wire in a run of bundle: its stretches that may lie there, and the thickest of them; None = not recorded."""

    wire: str
    stretches: tuple[Stretch, ...]
    outside: Outside | None


@dataclass(frozen=True)
class Station:
    """A run of one leg in which the same wires lie.

    `start_mm` and `end_mm` count from the leg's `from`; `end_mm` is None for a leg of unknown length. `perhaps` are
    wires that may lie here too: their way is not recorded. `band` is between which diameters the bundle lies.
    """

    key: str
    leg: int
    start_mm: float
    end_mm: float | None
    wires: tuple[InBundle, ...]
    perhaps: tuple[str, ...]
    joints: tuple[str, ...]  # splices that lie in it, the maker's among them
    diameter: Figure  # mm, clear of splices
    at_joint: Figure | None  # mm, where it is thickest over a splice; None without one
    bore: Figure  # mm, that a conduit over it needs
    conduit: Figure  # mm, the next one on hand
    bend: Figure  # mm, least radius
    band: tuple[float, float] | None
    least_mm: float | None  # what the wires of known diameter make alone; None when none is known


@dataclass(frozen=True)
class HoleFit:
    """A hole and the bundle that passes it."""

    landmark: str
    hole: Hole
    wires: tuple[InBundle, ...]
    perhaps: tuple[str, ...]
    diameter: Figure
    band: tuple[float, float] | None
    least_mm: float | None


@dataclass(frozen=True)
class Wrap:
    """A cover row on the route. `runs` are (leg, from, to) with to = None on a leg of unknown length; empty when its
    way is not recorded. `stations` are the keys of what lies in it. `bore_mm` is that of a conduit, as written."""

    row: str
    cover: str
    runs: tuple[tuple[int, float, float | None], ...]
    stations: tuple[str, ...]
    bore_mm: float | None
    tape: Figure | None  # mm of tape; None for a cover that is not wound


@dataclass(frozen=True)
class Shift:
    """A splice on a leg, where its centre lies and where it would keep every limit (None: nowhere on this leg)."""

    joint: str
    state: str
    at_mm: float
    to_mm: float | None


@dataclass(frozen=True)
class Recut:
    """A planned row with its cuts placed so that all its splices keep the limits. `stagger_mm` is None for one wire."""

    row: str
    pigtail_mm: float
    stagger_mm: float | None


@dataclass(frozen=True)
class Stagger:
    """The splices of one leg that are planned or break a limit, with places that keep it.

    `apart_mm` is what was held from one to the next; `wants_mm` how long the leg would have to be, when it is too
    short; `why` says what no length mends.
    """

    leg: int
    shifts: tuple[Shift, ...]
    apart_mm: float
    wants_mm: float | None
    why: str
    recuts: tuple[Recut, ...]


@dataclass(frozen=True)
class Bundles:
    """The bundles of the plan: what the car is once every planned row is made."""

    stations: tuple[Station, ...] = ()
    holes: tuple[HoleFit, ...] = ()
    wraps: tuple[Wrap, ...] = ()
    staggers: tuple[Stagger, ...] = ()
    off_route: tuple[str, ...] = ()  # wires of which no part has a way on record

    @property
    def figures(self) -> tuple[Figure, ...]:
        found: list[Figure] = []
        for station in self.stations:
            found += [station.diameter, *([station.at_joint] if station.at_joint else [])]
            found += [station.bore, station.conduit, station.bend]
        found += [hole.diameter for hole in self.holes]
        found += [wrap.tape for wrap in self.wraps if wrap.tape]
        return tuple(found)

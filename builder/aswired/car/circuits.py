"""Circuits of a view and what is computed of them."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.car.harness import Node, Stretch
from aswired.physics.figure import Figure


@dataclass(frozen=True)
class PathStep:
    """One thing on a path, in the direction the current runs.

    `kind` is one of: source, fuse, switch, node, stretch, cable, load, ground, module, end. `stretch` is set for a
    stretch, `node` for what sits between stretches; `name` is what is written beside it. `fuse` is the fuse at which
    a feed begins whose own way from the battery is not recorded.
    """

    kind: str
    name: str
    node: Node | None = None
    stretch: Stretch | None = None
    fuse: str = ""


@dataclass(frozen=True)
class Path:
    """One side of a circuit. `state` is complete, open, not examined; `why` says it in words."""

    steps: tuple[PathStep, ...]
    state: str
    why: str = ""

    @property
    def stretches(self) -> tuple[Stretch, ...]:
        return tuple(step.stretch for step in self.steps if step.stretch is not None)


@dataclass(frozen=True)
class Circuit:
    """One load with its feed (source to load) and its return (load to battery negative)."""

    load: str
    feed_end: str  # end of the load that is fed; '' when it cannot be told
    return_end: str
    feed: Path
    back: Path
    fuses: tuple[str, ...]  # fuses on the feed, nearest the battery first
    ground: str  # first ground point on the return, '' when none
    feed_with: tuple[str, ...]  # other kept loads that share a part of the feed
    return_with: tuple[str, ...]  # other kept loads that share a part of the return


@dataclass(frozen=True)
class Drops:
    """Voltage lost in a stated state, figures in V."""

    feed: Figure
    back: Figure
    whole: Figure


@dataclass(frozen=True)
class Element:
    """One thing on a load's way, in the direction of its current, and what it costs; None = not recorded.

    `kind` is wire, fuse, switch, cable, body, or join for a splice, a cavity, a ring (`at` is its node). Volts are
    below nought where other loads push the current back.
    """

    name: str
    kind: str
    at: str
    stretch: Stretch | None  # of a wire
    mohm: float | None
    amps: float | None  # with every load on that can be on together
    alone_v: float | None
    together_v: float | None


@dataclass(frozen=True)
class Lamp:
    """A lamp with every load on: volts at its socket against the least it should have, and the light it has lost."""

    socket: Figure  # V
    least: Figure  # V
    ok: bool | None
    lost_alone: Figure | None  # %, of the light at the supply; None for what is no filament, `dark` says why
    lost_together: Figure | None
    dark: str = ""

    @property
    def figures(self) -> tuple[Figure, ...]:
        return (self.socket, self.least, *filter(None, (self.lost_alone, self.lost_together)))


@dataclass(frozen=True)
class CircuitFigures:
    """What is computed of one circuit in the shown view, and of the same load in the donor."""

    load: str
    current: Figure  # A
    feed_resistance: Figure  # mohm
    return_resistance: Figure  # mohm
    alone: Drops
    together: Drops  # with every load on that can be on together
    worst: Drops  # what costs it most on, wires as hot as they get, contacts at their worst
    limit: Figure  # V, of the rule that the job is held to
    ok: bool | None
    donor: Drops | None  # alone, in the donor; None when neither side of it is known there
    worse: Figure | None = None  # V, by how much the drop alone is above that in the donor
    worse_of: str = ""  # feed or return, where the donor's other side is not known; '' for the whole drop
    rules: tuple[Figure, ...] = ()  # V, what each rule allows, that of `limit` among them
    lamp: Lamp | None = None  # of a lamp or an indicator
    switched: Drops | None = None  # with what comes on with it; None where that costs it nothing
    never_with: frozenset[str] = frozenset()  # loads that are never on with it
    feed_elements: tuple[Element, ...] = ()  # along a complete feed
    return_elements: tuple[Element, ...] = ()

    @property
    def figures(self) -> tuple[Figure, ...]:
        found = [self.current, self.feed_resistance, self.return_resistance, self.limit, *self.rules]
        for drops in (self.alone, self.switched, self.together, self.worst, self.donor):
            if drops is not None:
                found += [drops.feed, drops.back, drops.whole]
        return (*found, *filter(None, (self.worse,)), *(self.lamp.figures if self.lamp is not None else ()))

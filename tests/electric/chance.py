"""Operating states of random harnesses."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from aswired.network.grid import Grid
from aswired.network.states import OperatingState, at_rest
from aswired.record import Job


@dataclass(frozen=True)
class Chance:
    """A state of a random harness: fuses whose feed is dead, switches that are open, ground cables that came off."""

    dead: frozenset[str]
    opened: frozenset[str]
    loose: frozenset[str]


def chance(seed: int, job: Job, grid: Grid) -> Chance:
    """The state of a seed; half of the harnesses keep all their grounds."""
    random = Random(seed)
    worked = [name for name, switch in job.switches.items() if not switch.worked_by]
    fed = [fuse for fuse in job.fuses if f"{fuse}.feed" in grid.sources]
    loosened = 0.4 if random.random() < 0.5 else 0.0
    return Chance(
        dead=frozenset(fuse for fuse in fed if random.random() < 0.3),
        opened=frozenset(name for name in worked if random.random() < 0.4),
        loose=frozenset(point for point in job.grounds if random.random() < loosened),
    )


def state_of(job: Job, grid: Grid, tried: Chance) -> tuple[OperatingState, frozenset[str]]:
    """The state as the program takes it, contacts at rest, and what has come loose in it."""
    by_hand = {name for name, switch in job.switches.items() if not switch.worked_by and name not in tried.opened}
    live = frozenset(source for source in grid.sources if source.removesuffix(".feed") not in tried.dead)
    cables = frozenset(f"cable {point} to {job.grounds[point].back_to}" for point in tried.loose)
    return OperatingState(frozenset(by_hand | set(at_rest(grid))), live), cables

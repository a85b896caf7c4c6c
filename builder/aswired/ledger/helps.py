"""What helps most: the few facts that, once they are written, may prove most wires for the least work.

It follows from what each wire that is not shown waits for, and from what will be asked of it next. Nothing is worked
out anew for it: what is found at the car may speak against a wire, so a step may settle wires and promises none.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import IntEnum

from aswired.ledger.record import Asked, Ledger, Why

MOST_THINGS = 6  # to find out in one step, unless one wire alone needs more


class Effort(IntEnum):
    """How much work it is to find a fact out, told in looks at a part; estimates of ours, which order the steps and
    judge nothing."""

    READ = 1  # read it on the part, measure it where it lies open, or look it up
    OPEN = 3  # open tape or a cover, or follow a cable that lies in the open
    TRACE = 6  # follow a wire through the harness


EFFORT: Mapping[Why, Effort] = {
    **dict.fromkeys((Why.SIZE, Why.RATING, Why.OUTPUT, Why.LENGTH, Why.LENGTH_OF_LINK, Why.CURRENT), Effort.READ),
    **dict.fromkeys((Why.POSITION, Why.INSULATION, Why.METAL, Why.LEG_HEAT, Why.CABLE, Why.NOT_LISTED), Effort.READ),
    **dict.fromkeys((Why.NOTHING_BEHIND, Why.NOT_SEALED, Why.NO_TABLE, Why.CALLED_SO, Why.OPTION), Effort.READ),
    **dict.fromkeys((Why.VOLTS, Why.POLE, Why.DECLARED_BY, Why.OTHER_VOLTS), Effort.READ),
    **dict.fromkeys((Why.MEMBERS, Why.NO_COVER, Why.NO_FATE, Why.WAY_BACK, Why.ROW), Effort.OPEN),
    **dict.fromkeys((Why.DECLARED, Why.BODY), Effort.OPEN),
    **dict.fromkeys((Why.NO_END, Why.FEED_OF, Why.DIVIDES), Effort.TRACE),
}


@dataclass(frozen=True)
class Step:
    """Facts to find out together, and the wires and ground points that wait for nothing else then."""

    asked: tuple[Asked, ...]
    wires: tuple[str, ...]

    @property
    def effort(self) -> int:
        return sum(EFFORT[asked.why] for asked in self.asked)

    @property
    def worth(self) -> tuple[float, int]:
        """The more wires for the work the better; of equals the one that is less work."""
        return len(self.wires) / self.effort, -self.effort


def steps(ledger: Ledger, most: int) -> tuple[Step, ...]:
    """The first steps, each chosen as if those before it were done; like things are looked at in one step."""
    needs = dict(ledger.needs)
    found: list[Step] = []
    while needs:
        last = found[-1:]
        best = max(_candidates(needs), key=lambda step: (step.worth, any(_is_more_of(step, one) for one in last)))
        if found and _is_more_of(best, found[-1]):
            found[-1] = Step((*found[-1].asked, *best.asked), (*found[-1].wires, *best.wires))
        elif len(found) < most:
            found.append(best)
        else:
            break
        needs = {
            name: tuple(asked for asked in need if asked not in best.asked)
            for name, need in needs.items()
            if name not in best.wires
        }
    return tuple(found)


def _is_more_of(step: Step, before: Step) -> bool:
    """Whether a step is the same kind of work as the one before it, worth as much, and both can be done in one go."""
    alike = {asked.why for asked in step.asked} == {asked.why for asked in before.asked}
    return alike and step.worth[0] == before.worth[0] and len(step.asked) + len(before.asked) <= MOST_THINGS


def _candidates(needs: Mapping[str, tuple[Asked, ...]]) -> Iterator[Step]:
    """What each wire needs by itself; and around each fact what the wires need that share it, the cheapest of them
    first, as long as that is no more than can be done in one go."""
    waiting: dict[Asked, list[str]] = {}
    for name, need in needs.items():
        for asked in need:
            waiting.setdefault(asked, []).append(name)
    for need in dict.fromkeys(needs.values()):
        yield _step(need, needs, waiting)
    for shared, names in waiting.items():
        gathered = dict.fromkeys([shared])
        for name in sorted(names, key=lambda name: Step(needs[name], ()).effort):
            gathered.update(dict.fromkeys(needs[name]))
            if len(gathered) > MOST_THINGS:
                break
            yield _step(gathered, needs, waiting)


def _step(asked: Iterable[Asked], needs: Mapping[str, tuple[Asked, ...]], waiting: Mapping[Asked, list[str]]) -> Step:
    """These facts with the wires that need no other."""
    together = dict.fromkeys(asked)
    near = dict.fromkeys(name for one in together for name in waiting[one])
    return Step(tuple(together), tuple(name for name in near if all(one in together for one in needs[name])))

"""What a fold works on: a stretch in work, everything a row may change, and the refusal of a row that cannot be so."""

from __future__ import annotations

from collections.abc import ItemsView, Iterator, MutableMapping, ValuesView
from dataclasses import dataclass, replace

from aswired.colours import Colour
from aswired.figure import Figure
from aswired.harness import (
    CutPiece,
    FuseState,
    Joint,
    LedgerLine,
    Node,
    OffcutUse,
    RelayState,
    StudRing,
    WireState,
)
from aswired.units import Size


class Refused(Exception):
    """A row that cannot be so. `key` is the key whose line is shown."""

    def __init__(self, problem: str, mend: str, key: str = "", code: str = "ROW01") -> None:
        super().__init__(problem)
        self.problem = problem
        self.mend = mend
        self.key = key
        self.code = code


@dataclass(frozen=True)
class Run:
    """A stretch while it is worked on. `barrel_mm`: conductor in a terminal's barrel, beyond its mouth."""

    wire: str
    a: str
    b: str
    colour: Colour
    size: Size
    length_mm: float | None
    origin: str = ""
    offcut: str = ""
    via: str = ""
    barrel_mm: tuple[float | None, float | None] = (0.0, 0.0)  # at a, at b; None = not recorded

    def other(self, node: str) -> str:
        return self.b if self.a == node else self.a

    @property
    def reach_mm(self) -> float | None:
        """Length between the two reference points or cut faces."""
        at_a, at_b = self.barrel_mm
        return None if self.length_mm is None or at_a is None or at_b is None else self.length_mm - at_a - at_b

    def barrel_at(self, node: str) -> float | None:
        return self.barrel_mm[0 if self.a == node else 1]

    def part(self, end: str, to: str, kept_mm: float | None) -> Run:
        """What stays at `end` when the run is cut `kept_mm` from its barrel mouth there, now reaching to `to`."""
        barrel = self.barrel_at(end)
        length = None if kept_mm is None or barrel is None else kept_mm + barrel
        return replace(self, a=end, b=to, length_mm=length, barrel_mm=(barrel, 0.0))

    def with_barrel(self, end: str, barrel_mm: float | None) -> Run:
        """The run with another terminal at `end`, `barrel_mm` of it inside the barrel."""
        at_a, at_b = self.barrel_mm
        return replace(self, barrel_mm=(barrel_mm, at_b) if self.a == end else (at_a, barrel_mm))

    def moved(self, node: str, to: str) -> Run:
        """The run with its end at `node` cut off behind the terminal and brought to `to`."""
        barrel = self.barrel_at(node)
        length = None if self.length_mm is None or barrel is None else self.length_mm - barrel
        if self.a == node:
            return replace(self, a=to, length_mm=length, barrel_mm=(0.0, self.barrel_mm[1]))
        return replace(self, b=to, length_mm=length, barrel_mm=(self.barrel_mm[0], 0.0))


class Runs(MutableMapping[int, Run]):
    """The runs in the car by their number, in the order in which they were put in; those of one wire at hand."""

    def __init__(self, runs: dict[int, Run] | None = None, of_wire: dict[str, tuple[int, ...]] | None = None) -> None:
        self._runs = {} if runs is None else runs
        self._of_wire = {} if of_wire is None else of_wire

    def of_wire(self, wire: str) -> dict[int, Run]:
        return {number: self._runs[number] for number in self._of_wire.get(wire, ())}

    def copy(self) -> Runs:
        return Runs(dict(self._runs), dict(self._of_wire))

    def __getitem__(self, number: int) -> Run:
        return self._runs[number]

    def __setitem__(self, number: int, run: Run) -> None:
        """Put a run in, or another part of the same wire in its place."""
        if number not in self._runs:
            self._of_wire[run.wire] = (*self._of_wire.get(run.wire, ()), number)
        self._runs[number] = run

    def __delitem__(self, number: int) -> None:
        wire = self._runs.pop(number).wire
        self._of_wire[wire] = tuple(other for other in self._of_wire[wire] if other != number)

    def __iter__(self) -> Iterator[int]:
        return iter(self._runs)

    def __len__(self) -> int:
        return len(self._runs)

    def items(self) -> ItemsView[int, Run]:
        return self._runs.items()

    def values(self) -> ValuesView[Run]:
        return self._runs.values()


@dataclass
class State:
    """Everything a row may change; copied before each row so that a refused row leaves no trace."""

    nodes: dict[str, Node]
    runs: Runs
    joints: dict[str, Joint]
    rings: list[StudRing]
    wires: dict[str, WireState]
    pieces: list[CutPiece]
    figures: list[Figure]
    ledger: list[LedgerLine]
    offcuts: dict[str, OffcutUse]
    fuses: dict[str, FuseState]
    relays: dict[str, RelayState]
    replaced: dict[str, str]
    next_run: int = 0

    def copy(self) -> State:
        return State(
            dict(self.nodes),
            self.runs.copy(),
            dict(self.joints),
            list(self.rings),
            dict(self.wires),
            list(self.pieces),
            list(self.figures),
            list(self.ledger),
            dict(self.offcuts),
            dict(self.fuses),
            dict(self.relays),
            dict(self.replaced),
            self.next_run,
        )

"""What a fold works on: a stretch in work, everything a row may change, and the refusal of a row that cannot be so."""

from __future__ import annotations

from collections.abc import ItemsView, Iterator, Mapping, MutableMapping, ValuesView
from dataclasses import dataclass, field, replace
from typing import Any, NamedTuple, TypeVar, overload

from aswired.car.harness import (
    ConductorAccount,
    CutPiece,
    FuseState,
    Joint,
    Node,
    OffcutUse,
    RelayState,
    StudRing,
    WireState,
)
from aswired.physics.figure import Figure
from aswired.text.colours import Colour
from aswired.text.diagnostics import Rule, Severity
from aswired.text.units import Size

ROW01 = Rule("ROW01", Severity.ERROR)


class Refused(Exception):
    """A row that cannot be so. `key` is the key whose line is shown, `about` the wires, ends and rows it speaks of."""

    def __init__(self, problem: str, mend: str, key: str = "", rule: Rule = ROW01, about: tuple[str, ...] = ()) -> None:
        super().__init__(problem)
        self.problem = problem
        self.mend = mend
        self.key = key
        self.rule = rule
        self.about = about


@dataclass(frozen=True)
class WorkingStretch:
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
    slack_mm: float | None = 0.0  # extra length left in a piece (L3); None = not recorded

    def other(self, node: str) -> str:
        return self.b if self.a == node else self.a

    @property
    def reach_mm(self) -> float | None:
        """Length between the two reference points or cut faces."""
        at_a, at_b = self.barrel_mm
        return None if self.length_mm is None or at_a is None or at_b is None else self.length_mm - at_a - at_b

    def barrel_at(self, node: str) -> float | None:
        return self.barrel_mm[0 if self.a == node else 1]

    def part(self, end: str, to: str, kept_mm: float | None) -> WorkingStretch:
        """What stays at `end` when the run is cut `kept_mm` from its barrel mouth there, now reaching to `to`."""
        barrel = self.barrel_at(end)
        length = None if kept_mm is None or barrel is None else kept_mm + barrel
        slack = 0.0 if self.slack_mm == 0 else None  # on which side of the cut it lies nobody knows
        return replace(self, a=end, b=to, length_mm=length, barrel_mm=(barrel, 0.0), slack_mm=slack)

    def with_barrel(self, end: str, barrel_mm: float | None) -> WorkingStretch:
        """The run with another terminal at `end`, `barrel_mm` of it inside the barrel."""
        at_a, at_b = self.barrel_mm
        return replace(self, barrel_mm=(barrel_mm, at_b) if self.a == end else (at_a, barrel_mm))

    def moved(self, node: str, to: str) -> WorkingStretch:
        """The run with its end at `node` cut off behind the terminal and brought to `to`."""
        barrel = self.barrel_at(node)
        length = None if self.length_mm is None or barrel is None else self.length_mm - barrel
        if self.a == node:
            return replace(self, a=to, length_mm=length, barrel_mm=(0.0, self.barrel_mm[1]))
        return replace(self, b=to, length_mm=length, barrel_mm=(self.barrel_mm[0], 0.0))


Note = tuple["Table[Any, Any]", Any, Any, int]  # table, key, what stood there before or ABSENT, its place in the order
ABSENT = object()
Key = TypeVar("Key")
Value = TypeVar("Value")
Other = TypeVar("Other")


class Table(MutableMapping[Key, Value]):
    """Things by their name in the order in which they came. Each write is noted, so that it can be taken back."""

    _indexed = False  # whether a kind of table has an index to keep

    def __init__(self, notes: list[Note], held: dict[Key, Value] | None = None) -> None:
        self._notes = notes
        self._held: dict[Key, Value] = {} if held is None else held

    def copy(self, notes: list[Note]) -> Table[Key, Value]:
        return Table(notes, dict(self._held))

    def __getitem__(self, key: Key) -> Value:
        return self._held[key]

    def __contains__(self, key: object) -> bool:
        return key in self._held

    def __iter__(self) -> Iterator[Key]:
        return iter(self._held)

    def __len__(self) -> int:
        return len(self._held)

    def items(self) -> ItemsView[Key, Value]:
        return self._held.items()

    def values(self) -> ValuesView[Value]:
        return self._held.values()

    @overload
    def get(self, key: Key, /) -> Value | None: ...
    @overload
    def get(self, key: Key, /, default: Value | Other) -> Value | Other: ...
    def get(self, key: Key, /, default: Any = None) -> Any:
        return self._held.get(key, default)

    def __setitem__(self, key: Key, value: Value) -> None:
        before = self._held.get(key, ABSENT)
        self._notes.append((self, key, before, 0))
        self._held[key] = value
        if self._indexed:
            self._index(key, before, value)

    def __delitem__(self, key: Key) -> None:
        before = self._held[key]
        self._notes.append((self, key, before, self._place(key)))
        del self._held[key]
        self._index(key, before, ABSENT)

    def take_back(self, key: Key, before: Any, place: int) -> None:
        """Undo the last write: what stood there stands there again, in its place in the order."""
        now = self._held.get(key, ABSENT)
        if before is ABSENT:
            del self._held[key]
        elif now is ABSENT:
            self._put_back(key, before, place)
        else:
            self._held[key] = before
        self._index(key, now, before)

    def _index(self, key: Key, before: Any, now: Any) -> None:
        """Keep what is looked up otherwise than by the key; `before` or `now` may be ABSENT."""

    def _place(self, key: Key) -> int:
        return list(self._held).index(key)

    def _put_back(self, key: Key, value: Value, place: int) -> None:
        in_order = list(self._held.items())
        in_order.insert(place, (key, value))
        self._held.clear()
        self._held.update(in_order)


class Nodes(Table[str, Node]):
    """The nodes by name, in no order; those with a dash whose names begin alike, up to the first dash, at hand."""

    _indexed = True

    def __init__(
        self,
        notes: list[Note],
        held: dict[str, Node] | None = None,
        alike: dict[str, tuple[str, ...]] | None = None,
    ) -> None:
        super().__init__(notes, held)
        self._alike = {} if alike is None else alike

    def longer(self, name: str) -> list[str]:
        """Names that are this one and a dash and more."""
        start = name + "-"
        return [other for other in self._alike.get(name.partition("-")[0], ()) if other.startswith(start)]

    def copy(self, notes: list[Note]) -> Nodes:
        return Nodes(notes, dict(self._held), dict(self._alike))

    def _index(self, key: str, before: Any, now: Any) -> None:
        if "-" not in key or (before is not ABSENT and now is not ABSENT):
            return
        first = key.partition("-")[0]
        if before is ABSENT:
            self._alike[first] = (*self._alike.get(first, ()), key)
        else:
            self._alike[first] = tuple([name for name in self._alike[first] if name != key])

    def _place(self, key: str) -> int:
        return 0

    def _put_back(self, key: str, value: Node, place: int) -> None:
        self._held[key] = value


class Runs(Table[int, WorkingStretch]):
    """The runs in the car by their number, which grows with each that is put in; those of a wire and at a node at hand.

    A number stands for parts of one wire only.
    """

    _indexed = True

    def __init__(
        self,
        notes: list[Note],
        held: dict[int, WorkingStretch] | None = None,
        of_wire: dict[str, tuple[int, ...]] | None = None,
        at: dict[str, tuple[int, ...]] | None = None,
    ) -> None:
        super().__init__(notes, held)
        self._of_wire = {} if of_wire is None else of_wire
        self._at = at  # None: nobody asked yet
        self._mixed = False

    def of_wire(self, wire: str) -> dict[int, WorkingStretch]:
        return {number: self._held[number] for number in self._of_wire.get(wire, ())}

    def at(self, node: str) -> dict[int, WorkingStretch]:
        if self._at is None:
            self._at = {}
            for number, run in self.items():
                for end in _ends(run):
                    self._at[end] = _with(self._at.get(end), number)
        return {number: self._held[number] for number in self._at.get(node, ())}

    def copy(self, notes: list[Note]) -> Runs:
        at = None if self._at is None else dict(self._at)
        return Runs(notes, dict(self.items()), dict(self._of_wire), at)

    def __iter__(self) -> Iterator[int]:
        self._sort()
        return super().__iter__()

    def items(self) -> ItemsView[int, WorkingStretch]:
        self._sort()
        return super().items()

    def values(self) -> ValuesView[WorkingStretch]:
        self._sort()
        return super().values()

    def _sort(self) -> None:
        """Bring runs that were put back into their place, once for all of them."""
        if self._mixed:
            self._held = dict(sorted(self._held.items()))
            self._mixed = False

    def _index(self, key: int, before: Any, now: Any) -> None:
        if before is ABSENT:
            self._of_wire[now.wire] = _with(self._of_wire.get(now.wire), key)
        elif now is ABSENT:
            self._of_wire[before.wire] = _without(self._of_wire[before.wire], key)
        elif before.a == now.a and before.b == now.b:
            return
        if self._at is None:
            return
        if before is not ABSENT:
            for node in _ends(before):
                self._at[node] = _without(self._at[node], key)
        if now is not ABSENT:
            for node in _ends(now):
                self._at[node] = _with(self._at.get(node), key)

    def _place(self, key: int) -> int:
        return key

    def _put_back(self, key: int, value: WorkingStretch, place: int) -> None:
        self._held[key] = value
        self._mixed = True


def _ends(run: WorkingStretch) -> tuple[str, ...]:
    return (run.a,) if run.a == run.b else (run.a, run.b)


def _with(numbers: tuple[int, ...] | None, number: int) -> tuple[int, ...]:
    """Numbers in their order and one more, which is the highest but where it is put back."""
    if not numbers:
        return (number,)
    return (*numbers, number) if numbers[-1] < number else tuple(sorted((*numbers, number)))


def _without(numbers: tuple[int, ...], number: int) -> tuple[int, ...]:
    return tuple([other for other in numbers if other != number])


class SavePoint(NamedTuple):
    """How far a state had come: what was noted until then, and what is written without a note."""

    notes: int
    rings: tuple[StudRing, ...]
    pieces: int
    figures: int
    conductor_account: int
    replaced: Mapping[str, str]
    next_run: int


@dataclass
class HarnessState:
    """Everything a row may change. What was written since a mark can be taken back, at the cost of having written it.

    To the lists only something is added; `rings` and `replaced` are put anew as a whole.
    """

    notes: list[Note]
    nodes: Nodes
    runs: Runs
    joints: Table[str, Joint]
    wires: Table[str, WireState]
    offcuts: Table[str, OffcutUse]
    fuses: Table[str, FuseState]
    relays: Table[str, RelayState]
    rings: tuple[StudRing, ...] = ()
    pieces: list[CutPiece] = field(default_factory=list)
    figures: list[Figure] = field(default_factory=list)
    conductor_account: list[ConductorAccount] = field(default_factory=list)
    replaced: Mapping[str, str] = field(default_factory=dict)
    next_run: int = 0

    @classmethod
    def empty(cls) -> HarnessState:
        notes: list[Note] = []
        nodes, runs = Nodes(notes), Runs(notes)
        return cls(notes, nodes, runs, Table(notes), Table(notes), Table(notes), Table(notes), Table(notes))

    def copy(self) -> HarnessState:
        """The same again, of which nothing can be taken back."""
        notes: list[Note] = []
        return HarnessState(
            notes,
            self.nodes.copy(notes),
            self.runs.copy(notes),
            self.joints.copy(notes),
            self.wires.copy(notes),
            self.offcuts.copy(notes),
            self.fuses.copy(notes),
            self.relays.copy(notes),
            self.rings,
            list(self.pieces),
            list(self.figures),
            list(self.conductor_account),
            self.replaced,
            self.next_run,
        )

    def mark(self) -> SavePoint:
        return SavePoint(
            len(self.notes),
            self.rings,
            len(self.pieces),
            len(self.figures),
            len(self.conductor_account),
            self.replaced,
            self.next_run,
        )

    def back_to(self, mark: SavePoint) -> None:
        """Take back everything since the mark."""
        while len(self.notes) > mark.notes:
            table, key, before, place = self.notes.pop()
            table.take_back(key, before, place)
        del self.pieces[mark.pieces :]
        del self.figures[mark.figures :]
        del self.conductor_account[mark.conductor_account :]
        self.rings, self.replaced, self.next_run = mark.rings, mark.replaced, mark.next_run

    def runs_since(self, mark: SavePoint) -> list[WorkingStretch]:
        """The runs that were put in or changed since the mark and are there, by number."""
        before: dict[int, Any] = {}
        for table, key, was, _ in self.notes[mark.notes :]:
            if table is self.runs:
                before.setdefault(key, was)
        there = ((number, self.runs[number]) for number in sorted(before) if number in self.runs)
        return [run for number, run in there if run is not before[number]]

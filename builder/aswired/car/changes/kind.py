"""What a kind of change consists of. Every part must be filled: a kind that lacks one cannot be imported."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from aswired.car.loom import WorkingHarness
from aswired.record import Change
from aswired.text.one_line import Fate, Piece
from aswired.text.units import Length, end_words

MOST_NAMED = 3  # wires named in a heading; more are counted, and named below it


@dataclass(frozen=True)
class Said:
    """What a kind says of a key of its rows, in its own words; a sheet writes lengths, fates and pieces its own way.

    `in_step`: whether a step of the work sheet says it too; it tells some things with the cut or the test.
    """

    key: str
    words: str
    value: str | Length | Fate | Piece
    in_step: bool = True


@dataclass(frozen=True)
class Kind:
    """A kind of change: its keys, what it does to the harness, and all that other rooms ask of it.

    alters: what is another behind a row of this kind: nothing (a check, a wrap), the way of its wires, the wires
    themselves; `dead` and `gone` leave wires that carry nothing, and no wire at all.
    concerns: which rows keep their order with it: those on its wires, on what its wires end in, or on whole parts.
    """

    name: str  # as written behind `kind:`
    means: str  # one line for people
    written: str  # which keys say it: its line in the manual, in Markdown
    keys: tuple[str, ...]  # keys that a row may have beside the common ones
    needs: tuple[tuple[str, ...], ...]  # groups of keys; one of each group must be written
    apply: Callable[[Change, WorkingHarness], None]  # does to the loom what the row says, or raises loom.Refused
    touches: Callable[
        [Change, WorkingHarness], Iterable[str]
    ]  # wires whose conductor the row may change, as they are named
    brings: Callable[[Change], str]  # the lead, connector or fuse that there was not before; '' for none
    lead: Callable[[Change], tuple[str, ...]]  # the two ends that a lead of its own is laid between; () for none
    moves_to: Callable[[Change], str]  # where the end of a wire goes that the row moves; '' for none
    terminals: Callable[[Change], tuple[str, ...]]  # ends that get a new terminal; `plug.` means those in a plug
    alters: Literal["nothing", "way", "wire", "dead", "gone"]
    does: str  # what it does to the wires it works on, in words; '' where no word fits all of its rows
    cuts: bool  # a wire is cut even where no joint is left
    joints: bool  # it always joins wires, so the house method holds where the row says nothing
    grounds: bool  # the end that it moves goes to a ground point
    turn: int  # of the planned rows at one place those with the lower number are done first
    visit: Literal["", "Tests", "Wraps and conduit"]  # '' is done at its place; the others when all is joined, in order
    concerns: Literal["wires", "ends", "parts"]
    heading: Callable[[Change], str]  # what a row is: the same words for a plan and for work that is done
    lengths: Mapping[str, str]  # lengths that are called otherwise than by the kinds in common
    facts: Callable[[Change], Iterable[Said]]  # what else it says in words of its own, in order
    ticks: Callable[[Change, bool], tuple[str, ...]]  # steps to tick off, by the row and whether it makes a joint

    @property
    def alters_harness(self) -> bool:
        return self.alters != "nothing"

    @property
    def to_test(self) -> bool:
        """Whether it leaves something that carries current and can be tried."""
        return self.alters in ("way", "wire")

    @property
    def proves(self) -> bool:
        """Whether its rows are checks of other rows."""
        return "proves" in self.keys

    @property
    def wraps(self) -> bool:
        """Whether its rows wrap a run of the bundle."""
        return "over" in self.keys

    @property
    def bridges(self) -> bool:
        return "interlock" in self.keys

    @property
    def staggers(self) -> bool:
        """Whether it cuts several wires in one row, each at its own place."""
        return "stagger" in self.keys

    @property
    def takes_out(self) -> bool:
        """Whether conductor comes out of a wire that stays."""
        return "take out" in self.keys

    @property
    def opens_shield(self) -> bool:
        return "shield" in self.keys

    @property
    def untwists(self) -> bool:
        """Whether the wires of a pair have another length behind it."""
        return "untwisted" in self.keys

    def new_terminals(self, row: Change, ends: Collection[str]) -> tuple[str, ...]:
        """Those of the ends of its wires at which a row puts a new terminal on, in the order of the row."""
        at = self.terminals(row)
        return tuple(end for name in at for end in ends if end == name or (name[-1:] == "." and end.startswith(name)))

    def lead_measured(self, row: Change) -> bool:
        """Whether the lead that a row lays was measured itself, and not the way it has to go."""
        return bool(self.lead(row)) and row.was is None and row.reach_is_cut

    def what(self, row: Change) -> str:
        """What a row is, as a heading."""
        return " ".join(self.heading(row).split())


# ---- parts that several kinds have alike -----------------------------------------------------------------------------
def named_wires(row: Change, loom: WorkingHarness) -> tuple[str, ...]:
    return row.wire_names


def touches_nothing(row: Change, loom: WorkingHarness) -> tuple[str, ...]:
    return ()


def no_ends(row: Change) -> tuple[str, ...]:
    return ()


def no_name(row: Change) -> str:
    return ""


def its_wire(row: Change) -> str:
    return row.wire


def no_facts(row: Change) -> tuple[Said, ...]:
    return ()


def done_and_tested(word: str) -> Callable[[Change, bool], tuple[str, ...]]:
    """The steps of work that is tested: a word for the work itself, then the sealing of a joint, then the test."""
    return lambda row, jointed: (word, "sealed", "tested") if jointed else (word, "tested")


def moved_and_tested(row: Change, jointed: bool) -> tuple[str, ...]:
    return done_and_tested("cut" if jointed else "moved")(row, jointed)


MOVED_LENGTHS = {
    "pigtail": "pigtail, what stays on its plug",
    "tail": "tail, what stays on the end that did not move",
    "gap": "gap, cut face to barrel mouth of the new terminal",  # L4
}


# ---- words of headings ----------------------------------------------------------------------------------------------
def wires_of(row: Change) -> str:
    """The wires of a row, of which a few are named and more are counted."""
    names = row.wire_names
    return ", ".join(names) if len(names) <= MOST_NAMED else f"{len(names)} wires"


def at_end(row: Change) -> str:
    return f" at {row.plug or end_words(row.end)}" if row.plug or row.end else ""

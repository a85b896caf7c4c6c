"""Where a reading that a step expects would mislead: a place may be live or dead for a reason no meter shows.

Told from what the record says and from what it does not say, never from words. `figures.tests` already takes out every
fuse that feeds a place, and names what may feed it all the same.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from aswired.car.circuits import Circuit
from aswired.car.harness import BATTERY_NEGATIVE, BATTERY_POSITIVE
from aswired.car.trace import Link
from aswired.figures.before_power import OhmTest
from aswired.figures.probes import Span, ways_of
from aswired.figures.tests import FuseOut, hanging_together
from aswired.figures.under_power import VoltTest
from aswired.ledger.record import Ledger, Weight, Why
from aswired.network.grid import Branch
from aswired.network.states import follows
from aswired.network.transfer import UnitSolutions


class Doubt(StrEnum):
    """Why a step may mislead."""

    CONTACT = "whether a relay contact is closed is not known"
    CONTACT_BETWEEN = "a relay contact between the leads, of which that is not known"
    CONTACT_BEHIND = "a relay contact behind the fuse, of which that is not known"
    MORE = "the record stops at what hangs together with it, so that more may be joined there, and feed"
    TWO_KEYS = "copper joins feeds of two positions of the key"
    BETWEEN_KEYS = "a load lies between feeds of two positions of the key"
    HOME_BY_BODY = "it goes home by the body"
    GROUND_OFF = "it goes home by the body, so that taking a ground off leaves it live"
    ISOLATOR = "a switch stands between ground and battery negative"


# What the ledger waits for where the record of copper stops.
_STOPS = (Why.NO_END, Why.MEMBERS, Why.NOTHING_BEHIND, Why.NO_TABLE, Why.ROW)


class Lacks(StrEnum):
    """What is not recorded of it."""

    NOTHING = ""
    COIL = "a load that closes the contact"
    COILS_WAY = "the way of the coil"
    COILS_CURRENT = "the current of the coil"
    STRAP = "the cable of the body"
    BODY = "whether the body carries returns"


@dataclass(frozen=True)
class Mislead:
    """One reason why a step may mislead. `names` are the contacts, fuses, loads, ground points or switches that it is
    about; `coil` that of a contact, as far as it is on record."""

    doubt: Doubt
    names: tuple[str, ...]
    lacks: Lacks = Lacks.NOTHING
    coil: str = ""


class Misleading:
    """What may mislead in the steps of one view."""

    def __init__(self, transfer: UnitSolutions, ledger: Ledger) -> None:
        self.circuits, self.grid, self.ledger = transfer.circuits, transfer.grid, ledger
        self.net, self.job = transfer.grid.net, transfer.grid.job

    def volts(self, load: str, test: VoltTest) -> tuple[Mislead, ...]:
        """Of a reading with power on."""
        found = [*self._contacts_of(load, test), *self._home(load, test.span)]
        if test.kind in ("fed", "load"):
            found += self._other_keys(load, test.span.red)
        if test.kind == "fed":
            found += self.isolated
        return tuple(found)

    def ohms(self, load: str, test: OhmTest) -> tuple[Mislead, ...]:
        """Of a way that is rung through."""
        return tuple(self._home(load, test.span))

    def out(self, load: str, out: FuseOut) -> tuple[Mislead, ...]:
        """Of a load that is read as dead with its fuses out."""
        found: list[Mislead] = []
        if out.dead:  # of a place that may be live no contact hides more
            ways = ways_of(self.circuits[load], self.grid)
            found += (self._contact(Doubt.CONTACT_BEHIND, name) for name in self._unfollowed(b for _, b in ways.feed))
            if names := self._stops(self.circuits[load].feed_end):
                found.append(Mislead(Doubt.MORE, names))
        if point := self._by_body(self.circuits[load]):
            lacks = Lacks.NOTHING if self.job.body_returns == "yes" else Lacks.BODY
            found.append(Mislead(Doubt.GROUND_OFF, (point,), lacks))
        return (*found, *self.isolated)

    def _stops(self, start: str) -> tuple[str, ...]:
        """At what the record stops of the copper that hangs together with a node: splices, plugs, wires, rows."""
        met = {node for node in hanging_together(self.net, [start]) if not self.net.is_ground(node)}
        stretches = self.net.view.stretches
        lines = (line for account in self.ledger.accounts.values() for line in account.lines)
        near = (line for line in lines if line.index is not None and met.intersection(stretches[line.index].ends))
        reasons = (reason for line in near for reason in line.reasons)
        return tuple(dict.fromkeys(r.of for r in reasons if r.weight is Weight.MISSING and r.why in _STOPS))

    # ---- relay contacts ---------------------------------------------------------------------------------------------
    def _unfollowed(self, branches: Iterable[Branch | None]) -> list[str]:
        """The relay contacts among some branches of which it is not known when they are closed."""
        names = [b.name for b in branches if b is not None and b.kind == "switch" and b.name in self.grid.contacts]
        return [name for name in names if not follows(self.grid.contacts[name], self.grid, self.circuits)]

    def _contacts_of(self, load: str, test: VoltTest) -> Iterator[Mislead]:
        ways = ways_of(self.circuits[load], self.grid)
        if test.kind == "drop":
            yield from (self._contact(Doubt.CONTACT_BETWEEN, name) for name in self._unfollowed(test.span.branches))
            return
        on_the_way = ways.feed if test.kind == "fed" else (*ways.feed, *ways.back)
        before: list[Branch | None] = []
        for node, branch in on_the_way:
            if test.kind == "fed" and node == test.span.red:
                break
            before.append(branch)
        yield from (self._contact(Doubt.CONTACT, name) for name in self._unfollowed(before))

    def _contact(self, doubt: Doubt, name: str) -> Mislead:
        coil = self.grid.contacts[name]
        if coil not in self.grid.loads:
            return Mislead(doubt, (name,), Lacks.COIL)
        circuit = self.circuits[coil]
        whole = circuit.feed.state == circuit.back.state == "complete"
        return Mislead(doubt, (name,), Lacks.COILS_CURRENT if whole else Lacks.COILS_WAY, coil)

    # ---- positions of the key ---------------------------------------------------------------------------------------
    def _other_keys(self, load: str, at: str) -> Iterator[Mislead]:
        """Feeds of another position of the key that may reach a place backwards. One that is live at any position is
        expected live, and misleads nobody."""
        fuses = self.circuits[load].fuses
        if fuses and self.position(fuses[-1]) == "always":
            return
        for mislead, reached in self._joined:
            if at in reached:
                yield mislead

    def position(self, fuse: str) -> str:
        """When a fuse is live, as written or as its wires show; '' or 'unknown' where neither tells."""
        written = self.net.view.fuses[fuse].facts.fed if fuse in self.net.view.fuses else ""
        if written in ("", "unknown") and BATTERY_POSITIVE in self._at_rest(f"{fuse}.feed"):
            return "always"
        return written

    @cached_property
    def _joined(self) -> tuple[tuple[Mislead, frozenset[str]], ...]:
        """What the ledger says of feeds of two positions that are joined, and every place that may be live by it."""
        found = []
        for reason in self.ledger.reasons:
            if reason.why is not Why.TWO_KEYS:
                continue
            pair = self.net.ends_now(self.job.loads[reason.of].between) if reason.of in self.job.loads else None
            doubt = Doubt.TWO_KEYS if pair is None else Doubt.BETWEEN_KEYS
            reached = self._backwards(reason.by if pair is None else pair)
            found.append((Mislead(doubt, reason.by), frozenset(reached)))
        return tuple(dict.fromkeys(found))

    def _backwards(self, starts: Collection[str]) -> set[str]:
        """What is joined to some nodes, the feed side of a fuse of the key among it, and what hangs on that side.

        Switches that are open at rest, as the key itself, stand open between one feed side and another."""
        reached = {*hanging_together(self.net, starts)}
        todo = [name for name in self.net.view.fuses if name in reached and self.position(name) != "always"]
        for fuse in todo:  # a fuse of the key lets through what comes from behind
            rail = self._at_rest(f"{fuse}.feed")
            reached |= rail
            for other in self.net.view.fuses:
                if f"{other}.feed" in rail and other not in todo:
                    reached |= {*hanging_together(self.net, [other])}
        return reached

    def _at_rest(self, start: str) -> set[str]:
        """What hangs together with a node while nothing is worked, fuses, ground points and sources not passed."""
        seen, todo = {start}, [start]
        for at in todo:
            if at != start and (self.net.is_ground(at) or self.net.is_source(at)):
                continue
            for link in self.net.links.get(at, ()):
                works = link.kind == "switch" and self.job.switches[link.name].at_rest != "closed"
                if link.kind != "fuse" and not works and link.other(at) not in seen:
                    seen.add(link.other(at))
                    todo.append(link.other(at))
        return seen

    # ---- the way home -----------------------------------------------------------------------------------------------
    def _by_body(self, circuit: Circuit) -> str:
        """The point from which a load goes home by the body, no wire of the record leading on from it; '' for none."""
        if circuit.back.state != "complete":
            return ""
        for _, branch in ways_of(circuit, self.grid).back:
            if branch is not None and branch.kind == "body":
                return "" if BATTERY_NEGATIVE in self._copper(branch.a) else branch.a
        return ""

    def _copper(self, start: str, open_: str = "") -> set[str]:
        """What wires and the cables of ground points join to a node, closed switches passed. With a switch that stands
        open, only what joins at rest, and no cable of a point that is said to go to the battery itself: where such a
        switch is on record, that cable is what leads through it."""
        cables = [(name, point.back_to) for name, point in self.job.grounds.items() if point.back_to]
        cables = [way for way in cables if not open_ or way[1] != BATTERY_NEGATIVE]
        seen, todo = {start}, [start]
        for at in todo:
            joined = [link.other(at) for link in self.net.links.get(at, ()) if self._conducts(link, open_)]
            joined += [one if at == other else other for one, other in cables if at in (one, other)]
            todo += dict.fromkeys(node for node in joined if node not in seen)
            seen.update(joined)
        return seen

    def _conducts(self, link: Link, open_: str) -> bool:
        if link.kind != "switch" or not open_:
            return link.kind != "fuse"
        return link.name != open_ and self.job.switches[link.name].at_rest == "closed"

    def _home(self, load: str, span: Span) -> Iterator[Mislead]:
        """Of a step over the way home by the body: it cannot tell what of it is poor."""
        point = self._by_body(self.circuits[load])
        if not point or not any(branch.kind == "body" for branch in span.branches):
            return
        strap = self.job.body_strap
        lacks = Lacks.STRAP if strap is None or strap.cable is None or not strap.cable.known else Lacks.NOTHING
        yield Mislead(Doubt.HOME_BY_BODY, (point,), lacks if self.job.body_returns == "yes" else Lacks.BODY)

    # ---- the battery's own lead -------------------------------------------------------------------------------------
    @property
    def isolated(self) -> tuple[Mislead, ...]:
        """Of every reading of volts against battery negative."""
        return (Mislead(Doubt.ISOLATOR, self.isolators),) if self.isolators else ()

    @cached_property
    def isolators(self) -> tuple[str, ...]:
        """The switches that stand between the ground points and battery negative."""
        found = []
        for name, switch in self.job.switches.items():
            ends = self.net.ends_now(switch.between)
            if ends is None:
                continue
            sides = [self._copper(end, name) for end in ends]
            home = [BATTERY_NEGATIVE in side for side in sides]
            far = sides[0] if home[1] else sides[1]
            if home[0] != home[1] and any(point in far for point in self.job.grounds):
                found.append(name)
        return tuple(found)

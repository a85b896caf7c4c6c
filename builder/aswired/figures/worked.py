"""A job worked out: its views, its circuits, and every summary that pages, print and JSON start from.

Plain frozen facts. They are made by `work.work_out`; nothing here computes.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from aswired.car.circuits import Circuit, CircuitFigures
from aswired.car.harness import CutPiece, View
from aswired.car.route import Route
from aswired.car.trace import circuits
from aswired.figures.backfeed import GroundStates, ground_states
from aswired.figures.bundles import Bundles
from aswired.figures.days import CarsOfTheirDays
from aswired.figures.electric import transfer_of
from aswired.figures.expected import Expected, expected
from aswired.figures.fuses import FuseSummary
from aswired.figures.grounds import GroundSummary
from aswired.figures.heat import celsius_of, hottest_of, unread_heat
from aswired.figures.links import LinkSummary
from aswired.figures.misleading import Misleading
from aswired.figures.places import PlacedJoint, placed_joints
from aswired.figures.proofs import Void, proofs_of, void_proofs
from aswired.figures.tests import JobSteps, steps_of_job
from aswired.ledger.book import ledger_of
from aswired.ledger.record import Ledger
from aswired.network.transfer import UnitSolutions
from aswired.physics.figure import Figure
from aswired.record import Change, Job, Load, MeterReading
from aswired.text.diagnostics import Finding, NotExamined
from aswired.text.one_line import Fate


@dataclass(frozen=True)
class JobResult:
    """A job, worked out."""

    job: Job
    route: Route
    donor: View
    now: View
    plan: View
    handed_over: View | None
    shown: View  # now, or plan while nothing is made
    circuits: Mapping[str, Circuit]  # kept and deleted loads of the shown view
    donor_circuits: Mapping[str, Circuit]
    loads: Mapping[str, Load]
    network: UnitSolutions  # of the shown view, solved once for each side of each load
    donor_network: UnitSolutions
    circuit_figures: Mapping[str, CircuitFigures]  # kept loads only
    joints: tuple[PlacedJoint, ...]  # of the plan view, in row order; state says which are made
    pieces: tuple[CutPiece, ...]  # of the plan view, in row order
    grounds: tuple[GroundSummary, ...]
    fuses: tuple[FuseSummary, ...]
    findings: tuple[Finding, ...]  # heaviest first, then in file order
    not_examined: tuple[NotExamined, ...]
    bundles: Bundles = field(default_factory=Bundles)
    links: tuple[LinkSummary, ...] = ()  # fusible links
    ledger: Ledger = field(default_factory=Ledger)  # of the shown view
    planned_ledger: Ledger = field(default_factory=Ledger)  # of the car once all that is planned is made
    revisions: tuple[View, ...] = ()  # the car on each day on which a revision was given out, oldest first
    # readings that prove nothing: their leads, by key, were at points that the car of their day did not have
    nowhere: tuple[tuple[MeterReading, tuple[str, ...]], ...] = ()

    def shows(self, reading: MeterReading) -> bool:
        """Whether a reading proves something: on a day that can be, a value, at points that were there."""
        return reading.shows and all(reading is not other for other, _ in self.nowhere)

    @property
    def views(self) -> tuple[View, ...]:
        """Every view, from the donor to the plan; revisions and hand-over by their day."""
        dated = sorted((*self.revisions, *([self.handed_over] if self.handed_over else [])), key=_day_of)
        return (self.donor, *dated, self.now, self.plan)

    @cached_property
    def handed_over_ledger(self) -> Ledger | None:
        """The ledger of the car as it was handed over, None where it was not; worked out on first use. What a person
        lets stand of the shown view counts there too."""
        then = self.handed_over
        if then is None:
            return None
        if then.counted == self.shown.counted and not self._sealed_since(then):
            return self.ledger
        return ledger_in(self, then).let_stand_as(self.ledger)

    def _sealed_since(self, then: View) -> bool:
        """Whether a row of a dated view was sealed on a later day: then the same rows show less."""
        days = (row.sealed.date for row in self.rows_of(then) if row.sealed is not None)
        return then.day is not None and any(day is not None and day > then.day for day in days)

    @cached_property
    def ground_states(self) -> GroundStates:
        """The ground points of the shown view in each state, and each of them opened; worked out on first use."""
        return ground_states(self.network, self.grounds)

    @cached_property
    def steps(self) -> JobSteps:
        """What a meter shows on the shown view, step by step; worked out on first use."""
        return steps_of_job(self.network)

    @cached_property
    def misleading(self) -> Misleading:
        """What may mislead in those steps."""
        return Misleading(self.network, self.ledger)

    @cached_property
    def cars_of_their_days(self) -> CarsOfTheirDays:
        """The car on the day of each reading."""
        return CarsOfTheirDays(self.job, self.route, self.views)

    @cached_property
    def expected(self) -> tuple[Expected, ...]:
        """What each reading of the job should have shown, in the order of the file; worked out on first use."""
        return tuple(expected(reading, self.cars_of_their_days) for reading in self.job.readings)

    @cached_property
    def proofs(self) -> Mapping[str, tuple[Change, ...]]:
        """Row -> the verify rows that prove it in the shown view."""
        return proofs_of(self.job, self.shown, self.void_proofs)

    @cached_property
    def void_proofs(self) -> Mapping[tuple[str, str], Void]:
        """(verify row, row it names) -> why the one does not prove the other."""
        return void_proofs(self.job, [reading for reading in self.job.readings if self.shows(reading)])

    def rows_of(self, view: View) -> tuple[Change, ...]:
        """The rows that are in force in a view, in the order of the file; of an id that is used twice the first."""
        return tuple(row for row in self.job.changes if row.id in view.counted and row is self.job.change(row.id))

    def fates_of(self, row: Change, wire: str) -> Mapping[str, Fate]:
        """How a row left the ends of a wire, by name: a removal says it of each, a cap of the rest by its far end."""
        state = self.donor.wires.get(wire)
        if row.far is None or state is None:
            return row.fates_of(wire)
        return {end: row.far for end in state.donor_ends if not self.donor.is_end(end, row.end)}

    def tested(self, row: Change) -> bool:
        """Whether a row was tried: by its own date, or by a verify row that proves it."""
        return row.tested is not None or row.id in self.proofs

    def state_of(self, row: Change) -> str:
        """planned, made, sealed or tested: the furthest step written on the row, and tested where a check proves it."""
        proved = row.id in self.proofs and row is self.job.change(row.id)
        return "tested" if proved else row.state

    def state_at(self, placed: PlacedJoint) -> str:
        """The state of the row that made a joint."""
        row = self.job.change(placed.joint.row)
        return self.state_of(row) if row is not None else placed.state

    @property
    def standing(self) -> tuple[Finding, ...]:
        """Stops and errors that nobody accepted."""
        return tuple(f for f in self.findings if f.severity <= 1 and not f.accepted_by)

    @property
    def may_power(self) -> bool:
        """Whether no stop stands against putting the battery on."""
        return not any(f.severity == 0 and not f.accepted_by for f in self.findings)

    @property
    def cleared(self) -> bool:
        """Whether every wire of the car is proved or let stand, and no stop or error of any check stands against it."""
        return self.ledger.clean and not self.standing

    @property
    def may_hand_over(self) -> bool:
        return not self.standing

    def all_figures(self) -> tuple[Figure, ...]:
        """Every computed figure of the job, in a stable order."""
        found: list[Figure] = list(self.plan.figures)
        found += [placed.centre for placed in self.joints]
        for circuit in self.circuit_figures.values():
            found += circuit.figures
        for ground in self.grounds:
            found += [ground.total, ground.rise]
        for fuse in self.fuses:
            found += fuse.figures
        found += self.bundles.figures
        return tuple(found)


def ledger_in(facts: JobResult, view: View) -> Ledger:
    """The ledger of another view of the job than the shown one."""
    traced = circuits(facts.job, view)
    joints = facts.joints if view is facts.plan else placed_joints(facts.job, view, facts.route)
    heat = hottest_of(facts.job, view, facts.route, joints)
    unread = unread_heat(facts.job, view, facts.route, joints)
    return ledger_of(
        facts.job, view, facts.donor, traced, transfer_of(facts.job, view, traced, celsius_of(heat)), heat, unread
    )


def _day_of(view: View) -> datetime.date:
    return view.day or datetime.date.min

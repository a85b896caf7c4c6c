"""A job worked out: every view folded, every circuit traced, every figure and finding told. The one way through."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import replace

from aswired.car.asbuilt import FoldCache, believed, fold
from aswired.car.changes import kind_of
from aswired.car.harness import View
from aswired.car.route import Route
from aswired.car.trace import circuits
from aswired.checks import find
from aswired.figures.bundles import bundles
from aswired.figures.electric import circuit_figures, transfer_of
from aswired.figures.fuses import fuse_summaries
from aswired.figures.grounds import ground_summaries
from aswired.figures.heat import celsius_of, hottest_of, unplaced, unread_heat
from aswired.figures.leads import at_no_point
from aswired.figures.links import link_summaries
from aswired.figures.opinions import surroundings
from aswired.figures.places import placed_joints
from aswired.figures.worked import JobResult, ledger_in
from aswired.ledger.book import ledger_of
from aswired.record import Job


def work_out(job: Job, today: datetime.date, photo_problems: Mapping[str, str] | None = None) -> JobResult:
    """Everything the pages, the print and the JSON are made from.

    `photo_problems` maps the id of a picture to what is wrong with its file.
    """
    job = believed(job, today)
    route = Route(job)
    shared = FoldCache(job)
    donor = fold(job, "donor", None, route)
    plan = fold(job, "plan", None, route, shared)
    now = fold(job, "now", today, route, shared)
    handed_over = fold(job, "handed over", job.handed_over, route, shared) if job.handed_over is not None else None
    given_out = sorted((done.date, name) for name, done in job.revisions.items() if done.date is not None)
    revisions = tuple(fold(job, f"revision {name}", day, route, shared) for day, name in given_out)
    made = any(row.made is not None for row in job.changes)
    shown = now if made else plan
    traced = circuits(job, shown)
    donor_traced = circuits(job, donor)
    joints = placed_joints(job, plan, route)
    here = joints if shown is plan else placed_joints(job, shown, route)  # a plan may take joints out that are there
    heat, nowhere = hottest_of(job, shown, route, here), unplaced(job, shown, route, here)
    transfer = transfer_of(job, shown, traced, celsius_of(heat), nowhere)
    donor_transfer = transfer_of(job, donor, donor_traced)
    lying = bundles(job, plan, joints, route)
    around = surroundings(job, shown, route, here, lying.stations, traced)
    facts = JobResult(
        job=job,
        route=route,
        donor=donor,
        now=now,
        plan=plan,
        handed_over=handed_over,
        revisions=revisions,
        shown=shown,
        circuits=traced,
        donor_circuits=donor_traced,
        loads=job.loads,
        network=transfer,
        donor_network=donor_transfer,
        circuit_figures=circuit_figures(job, transfer, donor_transfer),
        joints=joints,
        pieces=plan.pieces,
        grounds=ground_summaries(job, shown, traced, transfer),
        fuses=fuse_summaries(job, shown, traced, transfer, around),
        links=link_summaries(job, shown),
        ledger=ledger_of(job, shown, donor, traced, transfer, heat, unread_heat(job, shown, route, here)),
        findings=(),
        not_examined=(),
        bundles=lying,
    )
    planned = ledger_in(facts, plan) if _harness_differs(job, plan, shown) else facts.ledger
    facts = replace(facts, nowhere=tuple(at_no_point(job, facts.views, route)), planned_ledger=planned)
    return find(facts, photo_problems or {})


def _harness_differs(job: Job, plan: View, shown: View) -> bool:
    """Whether a row that is not made so far changes the harness."""
    rows = (job.change(id) for id in plan.counted ^ shown.counted)
    return any(row is None or kind_of(row).alters_harness for row in rows)

"""Photographs: joints without one, pictures that belong to nothing, faces and plates that would be given out."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.checks.lists import listed
from aswired.figures.worked import JobResult
from aswired.text.diagnostics import Finding, Rule, Severity

PHO03 = Rule("PHO03", Severity.WARNING)
PHO05 = Rule("PHO05", Severity.NOTE)
PHO06 = Rule("PHO06", Severity.WARNING)


def judge(facts: JobResult) -> Iterator[Finding]:
    photographed = _photographed(facts)
    joints_of: dict[str, list[str]] = {}
    for placed in facts.joints:
        joints_of.setdefault(placed.joint.row, []).append(placed.joint.id)
    for row in facts.rows_of(facts.plan):
        joints = joints_of.get(row.id, [])
        if joints and row.made is not None and row.id not in photographed:
            what = f"joint {joints[0]} has" if len(joints) == 1 else f"the {len(joints)} joints of {row.id} have"
            problem = f"{what} no photograph"
            mend = "Add one that shows it with a rule; once it is wrapped, let it stand with the reason"
            yield PHO03(row.at, row.id, problem, mend)
    yield from _of_nothing(facts)
    for photo in facts.job.photos:
        if photo.face_or_plate and photo.publish and not photo.hide:
            yield PHO06(
                photo.line_of("face or plate"),
                photo.id,
                f"a face or a plate can be told on {photo.id}, and nothing covers it in the owner's edition",
                "Cover it with hide: [[x, y, width, height]], or keep the picture back with publish: no",
            )


def _photographed(facts: JobResult) -> set[str]:
    shown = {id for photo in facts.job.photos for id in photo.shows}
    shown |= {id.partition("-")[0] for id in shown}
    return shown | {row.id for row in facts.job.changes if row.photos}


def _of_nothing(facts: JobResult) -> Iterator[Finding]:
    named = {id for row in facts.job.changes for id in row.photos}
    lost = [
        photo
        for photo in facts.job.photos
        if not photo.shows and photo.id not in named and not any(mark.of for mark in photo.marks)
    ]
    if lost:
        problem = f"no row names {listed([photo.id for photo in lost])}, and what is on the picture is not said"
        mend = "Write shows: and the ids on it, or take the picture out"
        yield PHO05(lost[0].at, lost[0].id if len(lost) == 1 else "", problem, mend)

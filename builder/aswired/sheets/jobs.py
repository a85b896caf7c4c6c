"""The pages above the jobs: all jobs, and jobs by donor. They are made from a light summary of each job, which can be
kept between builds, so that a job that did not change need not be worked out again."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from aswired.figures.worked import JobResult
from aswired.sheets.changes import STATES, state_counts, states_told
from aswired.sheets.frame import PageOut, ShopFacts, job_uri, places_of, shop_page
from aswired.sheets.ledger_head import head
from aswired.sheets.overview import last_day
from aswired.sheets.text import count, date, handed_over
from aswired.text.diagnostics import Finding
from aswired.text.unsaid import NOT_RECORDED

MOST_OPEN = 12  # open items shown on the jobs page; each job shows all of its own


@dataclass(frozen=True)
class OpenItem:
    """A stop or error that stands against a job: its rank, the entry, and where it is shown."""

    severity: int
    word: str
    entry: str
    problem: str
    uri: str
    anchor: str


@dataclass(frozen=True)
class JobSummary:
    """What the pages above the jobs say of one job. Plain values only, for it goes through JSON: what nobody
    told is '' here, since an `Unsaid` would come back as plain text."""

    slug: str
    title: str
    vehicle: str
    donor: str
    revision: str
    shown: str
    changes: int
    stands_at: str  # the state that every row in force has reached
    states: str  # '20 tested, 3 made'
    wires: str  # how many are proved, against, let stand, not shown
    leave_off: bool  # whether the power must stay off
    may_hand_over: bool
    standing: int  # stops and errors that nobody accepted
    not_examined: int
    handed_over: str
    last_day: str  # last day of work, in words; '' when no day is recorded
    last_day_iso: str  # '' when no day is recorded
    colours: tuple[str, ...]  # colour codes met in the donor
    open: tuple[OpenItem, ...]


@dataclass(frozen=True)
class Donor:
    """The jobs that came from one donor."""

    name: str
    anchor: str
    jobs: tuple[JobSummary, ...]
    colours: str


def summarise(worked: JobResult) -> JobSummary:
    """The summary of one job."""
    job, states, places = worked.job, state_counts(worked), places_of(worked)
    reached = [item.state for item in states]
    latest_day, told = last_day(worked), head(worked)

    def item(finding: Finding) -> OpenItem:
        uri, anchor = places.get(finding.entry, (job_uri(job.slug), ""))
        return OpenItem(int(finding.severity), finding.severity.word, finding.entry, finding.problem, uri, anchor)

    return JobSummary(
        slug=job.slug,
        title=job.job,
        vehicle=job.vehicle,
        donor=job.donor,
        revision=job.revision,
        shown=worked.shown.name,
        changes=sum(count.count for count in states),
        stands_at=next((state for state in STATES if state in reached), "planned"),
        states=states_told(worked),
        wires=told.wires,
        leave_off=told.leave_off,
        may_hand_over=worked.may_hand_over,
        standing=len(worked.standing),
        not_examined=len(worked.not_examined),
        handed_over=handed_over(job),
        last_day=date(latest_day) if latest_day else "",
        last_day_iso=latest_day.isoformat() if latest_day else "",
        colours=tuple(sorted({wire.colour.code for wire in worked.donor.wires.values() if wire.colour.known})),
        open=tuple(item(finding) for finding in worked.standing),
    )


def to_json(summary: JobSummary) -> dict[str, Any]:
    """The summary as plain JSON values."""
    return dataclasses.asdict(summary)


def from_json(data: Mapping[str, Any]) -> JobSummary:
    """The summary that `to_json` gave.

    Raises:
        TypeError: the data are of another version of the record.
    """
    items = tuple(OpenItem(**item) for item in data["open"])
    return JobSummary(**{**data, "open": items, "colours": tuple(data["colours"])})


def newest_first(summaries: Iterable[JobSummary]) -> tuple[JobSummary, ...]:
    """Jobs by their last day of work, newest first; jobs without a day last; then by name."""
    by_name = sorted(summaries, key=lambda summary: (summary.title.casefold(), summary.slug))
    return tuple(sorted(by_name, key=lambda summary: summary.last_day_iso, reverse=True))


def donors(summaries: Sequence[JobSummary]) -> tuple[Donor, ...]:
    """Jobs gathered by donor as written (case and blanks set aside), most jobs first; an unwritten donor last."""
    found: dict[str, list[JobSummary]] = {}
    for summary in newest_first(summaries):
        found.setdefault(" ".join(summary.donor.casefold().split()), []).append(summary)
    ordered = sorted(found.items(), key=lambda item: (not item[0], -len(item[1]), item[0]))
    return tuple(
        Donor(
            name=jobs[0].donor or NOT_RECORDED,
            anchor=f"d{number}",
            jobs=tuple(jobs),
            colours=", ".join(sorted({colour for job in jobs for colour in job.colours})),
        )
        for number, (_, jobs) in enumerate(ordered, 1)
    )


def pages(summaries: Sequence[JobSummary], shop: ShopFacts) -> Iterable[PageOut]:
    """All jobs, and jobs by donor."""
    jobs = newest_first(summaries)
    open_items = sorted(((item, job) for job in jobs for item in job.open), key=lambda pair: pair[0].severity)
    by_donor = donors(summaries)
    yield shop_page(
        "index.html",
        "jobs.html",
        shop,
        "",
        jobs=jobs,
        donors=by_donor,
        open=open_items[:MOST_OPEN],
        open_left=len(open_items) - len(open_items[:MOST_OPEN]),
        said=count(len(jobs), "job"),
    )
    yield shop_page("donors.html", "donors.html", shop, "By donor", donors=by_donor)

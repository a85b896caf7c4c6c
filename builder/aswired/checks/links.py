"""Fusible links: same gauge, same length, never ordinary wire."""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.changes import kind_of
from aswired.car.harness import NodeKind
from aswired.car.special import special_wires
from aswired.checks.lists import listed
from aswired.checks.special import rows_at_work
from aswired.figures.links import gauge_numbers, protects
from aswired.figures.worked import JobResult
from aswired.record import Change, Job
from aswired.text.diagnostics import Finding, Location, Rule, Severity

SPC05 = Rule("SPC05", Severity.ERROR)

AS_IT_WAS = "Put in a link of the maker's gauge and length"


def judge(facts: JobResult) -> Iterator[Finding]:
    links = [name for name, kind in special_wires(facts.job).items() if kind == "fusible link"]
    for row, wires in rows_at_work(facts):
        for link in links:
            if link in wires:
                yield from _altered(facts, row, link)
    for link in links:
        yield from _too_long(facts, link)
        yield from _too_thick(facts, link)
    yield from _plain_wire_instead(facts, links)


def _error(at: Location, entry: str, problem: str, mend: str = AS_IT_WAS) -> Finding:
    return SPC05(at, entry, problem, mend)


def _altered(facts: JobResult, row: Change, link: str) -> Iterator[Finding]:
    """A row that leaves the link shorter, longer, cut or gone. Moving or re-routing it whole leaves it as it was."""
    kind = kind_of(row)
    if kind.alters == "gone":
        bare = _unprotected(facts, link)
        if bare:
            yield _error(
                row.at, row.id, f"the fusible link {link} is gone; nothing stands in its place for {listed(bare)}"
            )
        return
    done = kind.does
    if kind.moves_to(row):
        pieces = any(piece.row == row.id and piece.wire == link for piece in facts.pieces)
        done = "made longer by ordinary wire" if pieces else "made shorter" if row.tail or row.pigtail else ""
    if done:
        yield _error(row.at, row.id, f"the fusible link {link} is {done}; its gauge and length are its rating")


def _unprotected(facts: JobResult, link: str) -> list[str]:
    """Wires the link is said to protect that are still in the car, behind no fuse and beside no link."""
    wire = facts.job.wires.get(link)
    kinds = special_wires(facts.job)
    bare = []
    for name in wire.protects if wire is not None else ():
        ends = {end for stretch in facts.plan.of_wire(name) for end in stretch.ends}
        fused = any(facts.plan.nodes[end].kind is NodeKind.FUSE for end in ends)  # its load side: the wire is behind it
        linked = any(
            kinds.get(other.wire) == "fusible link" for end in ends for other in facts.plan.at_node.get(end, ())
        )
        if ends and not fused and not linked:
            bare.append(name)
    return bare


def _plain_wire_instead(facts: JobResult, links: list[str]) -> Iterator[Finding]:
    """A new lead between the two ends of a link that was taken out, and not declared a link itself."""
    gone = {
        frozenset(state.donor_ends): name
        for name, state in facts.plan.wires.items()
        if name in links and state.removed_by and any(state.donor_ends)
    }
    for row, _ in rows_at_work(facts):
        ends = frozenset(end for stretch in facts.plan.of_wire(row.wire) for end in stretch.ends)
        if kind_of(row).lead(row) and row.special != "fusible link" and ends in gone:
            yield _error(
                row.at,
                row.id,
                f"{row.wire} stands in the place of the fusible link {gone[ends]} and is ordinary wire",
                "Put in a link of the same gauge and length; then write special: fusible link",
            )


def _place(job: Job, link: str, key: str) -> tuple[Location, str]:
    """Where a link's fact is written and whose entry it is: the wire's, or the row's that put it in."""
    wire = job.wires.get(link)
    if wire is not None:
        return wire.line_of(key), link
    row = next(row for row in job.changes if row.wire == link and row.special)
    return row.line_of("cut" if row.cut is not None else "id"), row.id


def _too_long(facts: JobResult, link: str) -> Iterator[Finding]:
    limit = facts.job.limits_in_force["link longest"].value
    lengths = [stretch.length_mm for stretch in facts.plan.of_wire(link)]
    longest = max((length for length in lengths if length is not None), default=0.0)
    if longest > limit:
        at, entry = _place(facts.job, link, "length")
        problem = f"the fusible link {link} is {longest:.0f} mm long; {limit:g} mm is the longest"
        yield _error(at, entry, problem, "Keep it short: the link burns, and what is beside it with it")


def _too_thick(facts: JobResult, link: str) -> Iterator[Finding]:
    """The link against the thinnest stretch of each wire it protects, as that is in the plan."""
    wire = facts.job.wires.get(link)
    row = next((row for row in facts.job.changes if row.wire == link and row.protects), None)
    own = facts.plan.of_wire(link)
    if not own or (wire is None and row is None):
        return
    size = own[0].size if wire is None else wire.size
    wanted = facts.job.limits_in_force["link steps"].value
    wrong = []
    for name in protects(facts.job, link):
        numbers = [gauge_numbers(size, stretch.size, facts.job) for stretch in facts.plan.of_wire(name)]
        known = [number for number in numbers if number is not None]
        if known and min(known) < wanted:
            wrong.append(f"{name} by {min(known)}")
    if wrong:
        problem = f"the fusible link {link} of {size.text} is thinner in gauge numbers than {listed(wrong)} only"
        mend = f"Fit a link {wanted:g} gauge numbers thinner than the thinnest wire it protects, or a fuse"
        at, entry = (row.line_of("protects"), row.id) if row is not None else _place(facts.job, link, "protects")
        yield _error(at, entry, problem, mend)

"""Cut ends of which nobody says how they were left, splices with one wire left (F7), plugs scrapped, cavities emptied.

Of open and live ends, and of parts said to be gone, the ledger tells.
"""

from __future__ import annotations

from collections.abc import Iterator

from aswired.car.harness import Node, NodeKind, View
from aswired.car.trace import Net
from aswired.checks.lists import listed
from aswired.figures.worked import JobResult
from aswired.record import Change, Job
from aswired.text.diagnostics import Finding, Location, Rule, Severity

END01 = Rule("END01", Severity.STOP, Severity.ERROR)
END02 = Rule("END02", Severity.ERROR)
END03 = Rule("END03", Severity.ERROR)
END04 = Rule("END04", Severity.ERROR)
END05 = Rule("END05", Severity.STOP, Severity.ERROR)
END06 = Rule("END06", Severity.WARNING)
END07 = Rule("END07", Severity.ERROR)
END08 = Rule("END08", Severity.STOP, Severity.ERROR)


def judge(facts: JobResult) -> Iterator[Finding]:
    yield from cut_ends(facts.job, facts.shown)
    view = as_intended(facts)
    undecided = _not_settled(facts, view)
    yield from _scrapped(facts, view, undecided)
    yield from _emptied(facts, view)


def as_intended(facts: JobResult) -> View:
    """The view a record is held to as a whole: what is still planned mends it, until the car is handed over."""
    return facts.plan if facts.job.handed_over is None else facts.shown


def cut_ends(job: Job, view: View) -> Iterator[Finding]:
    """What stands against the dead ends of one view."""
    net = Net(job, view)
    for node in view.nodes.values():
        if node.kind is NodeKind.STUB:
            yield from _stub(net, node)
        elif node.opened_by and node.kind in (NodeKind.SPLICE, NodeKind.JOINT):
            yield from _lone_member(job, view, node)


def _lone_member(job: Job, view: View, node: Node) -> Iterator[Finding]:
    """A splice of which one wire is left is a dead end that nobody may know of (F7)."""
    left = view.at_node[node.name]
    declared = job.splices.get(node.name)
    known = node.kind is NodeKind.JOINT or (declared is not None and declared.all_members_known)
    if len(left) != 1 or not known or view.nodes[left[0].other(node.name)].kind is NodeKind.STUB:
        return
    problem = f"only {left[0].wire} is left in '{node.name}', which {node.opened_by[-1]} opened: a dead end"
    mend = f"Take {left[0].wire} out too, or cap it and write a row of kind cap"
    yield END06(job.line_of_row(node.opened_by[-1]), node.name, problem, mend)


def _stub(net: Net, node: Node) -> Iterator[Finding]:
    """A cut end of which the row does not say how it was left; one that is left open is told by the ledger."""
    job, view = net.job, net.view
    if node.fate is not None and node.fate.word:
        return
    hangs_on = view.at_node[node.name][0].other(node.name)
    opened = view.nodes[hangs_on]
    others = len(view.at_node[hangs_on]) > 1
    rule = END04 if opened.kind is NodeKind.SPLICE and others else END03
    what = f"how the splice '{hangs_on}' was left" if rule is END04 else f"how the end at '{hangs_on}' was left"
    mend = f"Write {hangs_on}: flush, capped 30 mm, gone, pulled or unknown"
    yield rule(_told_at(job, view, node), node.name, f"the row does not say {what}", mend)


def left_open(job: Job, view: View) -> Iterator[Finding]:
    """The cut ends that a row left open, for a car that has no ledger: one of other options."""
    for node in view.nodes.values():
        if node.kind is NodeKind.STUB and node.fate is not None and node.fate.word == "uncapped":
            hangs_on = view.at_node[node.name][0].other(node.name)
            yield END02(_told_at(job, view, node), node.name, f"the cut end on '{hangs_on}' is left open", "Cap it")


def _told_at(job: Job, view: View, node: Node) -> Location:
    """The row that left a dead end; of one that was loose before, the last row on its wire, else the wire itself."""
    wire = view.at_node[node.name][0].wire
    rows = [node.made_by] if node.made_by else view.wires[wire].rows[-1:]
    return job.line_of_row(rows[0]) if rows else job.wires[wire].at if wire in job.wires else job.at


# ---- the record against itself --------------------------------------------------------------------------------------
def _not_settled(facts: JobResult, view: View) -> frozenset[str]:
    """Wires of rows that are undecided or left out: nobody can tell yet where those wires end."""
    still_open = [result.id for result in view.rows if result.status in ("undecided", "refused", "not judged")]
    rows = [row for id in still_open if (row := facts.job.change(id)) is not None]
    named = {wire for row in rows for wire in row.wire_names}
    # joins and bridges name wires with the end: "W70 at FS5"
    named |= {end.split(" at ")[0] for row in rows for end in row.ends if " at " in end}
    return frozenset(named)


def _wires_at(view: View, part: str) -> tuple[str, ...]:
    """Wires that end in a plug or module, or pass it (F11); not those whose cut end there is told of as unsaid."""
    stubs = (node for node in view.nodes.values() if node.kind is NodeKind.STUB)
    unsaid = {stub.name for stub in stubs if stub.fate is None or not stub.fate.word}
    left = (stretch for stretch in view.stretches if not unsaid.intersection(stretch.ends))
    points = ((stretch.wire, point) for stretch in left for point in (*stretch.ends, stretch.via))
    return tuple(dict.fromkeys(wire for wire, point in points if point.startswith(part + ".")))


def _removals(facts: JobResult, view: View, word: str) -> Iterator[tuple[Change, str, str]]:
    """Each end that a removal in force left with one fate: row, wire, end as written."""
    for row in facts.rows_of(view):
        for wire in row.wire_names:
            for end, fate in facts.fates_of(row, wire).items():
                if fate.word == word:
                    yield row, wire, end


def _scrapped(facts: JobResult, view: View, undecided: frozenset[str]) -> Iterator[Finding]:
    """A plug that was scrapped with one wire cannot hold another. In-line plugs are left out: each half goes alone."""
    told: set[str] = set()
    for row, _, end in _removals(facts, view, "gone"):
        name, dot, _ = end.partition(".")
        declared = facts.job.plugs.get(name) or facts.job.modules.get(name)
        one_half = name in facts.job.plugs and facts.job.plugs[name].in_line
        if not dot or name in told or name in facts.job.fuses or one_half or (declared is not None and declared.gone):
            continue
        left = [wire for wire in _wires_at(view, name) if wire not in undecided]
        if left:
            told.add(name)
            yield END08(
                row.at,
                row.id,
                f"{row.id} says that '{name}' was scrapped ({end}: gone), but {listed(left)} still {_ends(left)} in it",
                f"Write {end}: pulled if the part stayed, or write how the other wires were left",
                rank=Severity.ERROR,
            )


def _emptied(facts: JobResult, view: View) -> Iterator[Finding]:
    """A cavity whose terminal was drawn out, and which the record still relies on."""
    for row, wire, end in _removals(facts, view, "pulled"):
        if view.at_node.get(end) or any(stretch.via == end for stretch in view.stretches):
            continue
        for user, where in _relied_on(facts, view, end):
            problem = f"{row.id} drew {wire} out of '{end}' and no other wire sits there, but {user} still lists it"
            mend = f"Write the row of the wire that sits there now, or mend {where}"
            yield END08(row.at, row.id, problem, mend, rank=Severity.ERROR)


def _relied_on(facts: JobResult, view: View, end: str) -> Iterator[tuple[str, str]]:
    """What still lists a cavity, in words, and where to mend that."""
    job = facts.job
    name, _, cavity = end.partition(".")
    module = job.modules.get(name)
    if module is not None and not module.gone:
        fed = [load for load, circuit in facts.donor_circuits.items() if end in {s.name for s in circuit.feed.steps}]
        served_deleted = bool(fed) and all(job.loads[load].verdict == "deleted" for load in fed)
        if cavity in module.out and not served_deleted:
            yield f"the module '{name}' (out)", f"'out:' of {name}"
        told_open = any(end in (job.loads[load].between or ()) for load in _open(facts))
        if cavity in module.ground and not told_open:
            yield f"the module '{name}' (ground)", f"'ground:' of {name}"
    if name in job.plugs and job.plugs[name].gone:
        return
    for switch_name, switch in job.switches.items():
        if switch.between is not None and end in switch.between:
            other = switch.between[0] if switch.between[1] == end else switch.between[1]
            if view.at_node.get(other):  # with both sides empty the switch merely stayed in its hole
                yield f"the switch '{switch_name}', whose other side is wired,", f"'between:' of {switch_name}"
    for load_name, load in job.loads.items():
        looked_at = load.feed == load.return_ == "traced"
        if (
            end in (load.between or ())
            and load_name in job.loads_for_certain
            and looked_at
            and load_name not in _open(facts)
        ):
            yield f"the load '{load_name}', which is kept,", f"'between:' of {load_name}"


def _open(facts: JobResult) -> frozenset[str]:
    """Loads of which a side is told to be open already."""
    return frozenset(
        name for name, circuit in facts.circuits.items() if "open" in (circuit.feed.state, circuit.back.state)
    )


def _ends(wires: list[str]) -> str:
    return "ends" if len(wires) == 1 else "end"

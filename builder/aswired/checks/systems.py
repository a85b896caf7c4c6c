"""What a person declares of restraint, anti-lock, immobiliser, data and high voltage, against what the rows do.

The status is declared, never inferred: a system about which the header is silent is not examined.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from aswired.car.special import special_wires
from aswired.checks.lists import listed
from aswired.checks.special import rows_at_work
from aswired.figures.worked import JobResult
from aswired.ledger.declared import out_whole
from aswired.record import Change, Systems
from aswired.text.diagnostics import Finding, Rule, Severity

SPC09 = Rule("SPC09", Severity.WARNING)
SPC10 = Rule("SPC10", Severity.ERROR)


@dataclass(frozen=True)
class System:
    """One system of the header: its key, the wires that belong to it, and what a row on them has to prove.

    `proof` is what a verify row shows after work on it; '' where no work on it is allowed at all.
    """

    key: str
    attribute: str
    wires: tuple[str, ...]
    proof: str = ""

    def status(self, systems: Systems) -> str:
        return str(getattr(systems, self.attribute))


# What is stated and proved after work: makers' manuals on wheel-speed pairs and data pairs, and on the fuel cut-off
# (read); that each key is tried is common practice, no source.
SYSTEMS = (
    System("restraint", "restraint", ("restraint",)),
    System("high voltage", "high_voltage", ("high voltage",)),
    System(
        "anti-lock",
        "anti_lock",
        ("anti-lock",),
        "the warning lamp goes out, every wheel gives its signal, the speed reads",
    ),
    System("immobiliser", "immobiliser", ("immobiliser",), "the engine starts with each key and with no other"),
    System("data bus", "data_bus", ("data pair",), "the resistance between the two wires, battery off, is the donor's"),
)
FUEL_PROOF = "the pump stops when the cut-off opens"


def judge(facts: JobResult) -> Iterator[Finding]:
    yield from _contradicted(facts)
    for row, wires in rows_at_work(facts):
        yield from _state_and_prove(facts, row, wires)


def undeclared(facts: JobResult) -> tuple[str, ...]:
    """Systems of which nobody said what became of them."""
    return tuple(system.key for system in SYSTEMS if system.status(facts.job.systems) == "unknown")


def _contradicted(facts: JobResult) -> Iterator[Finding]:
    kinds = special_wires(facts.job)
    for system in SYSTEMS:
        if not system.proof:  # the ledger tells it of restraint and high voltage
            continue
        status, at = system.status(facts.job.systems), facts.job.systems.line_of(system.key)
        own = [name for name, kind in kinds.items() if kind in system.wires]
        left = [name for name in own if facts.shown.of_wire(name)]
        rows = [row.id for row, wires in rows_at_work(facts) if set(wires) & set(own)]
        problem = ""
        if status == "removed complete" and left:
            problem = (
                f"declared removed complete, but {listed(left)} {'is' if len(left) == 1 else 'are'} still in the car"
            )
        elif status == "never fitted" and own:
            problem = f"declared never fitted, but {listed(own)} belong{'s' if len(own) == 1 else ''} to it"
        elif status == "untouched" and rows:
            problem = f"declared untouched, but {listed(rows)} work{'s' if len(rows) == 1 else ''} on its wires"
        if problem:
            yield SPC10(at, "", f"{system.key}: {problem}", "Look at the car, and mend whichever is wrong")


def _state_and_prove(facts: JobResult, row: Change, wires: tuple[str, ...]) -> Iterator[Finding]:
    """One a row: what is still to be declared in the header, and what a verify row still has to show."""
    kinds = special_wires(facts.job)
    works_on: list[str] = []
    wanted: list[str] = []
    for system in SYSTEMS:
        own = [wire for wire in wires if kinds.get(wire) in system.wires]
        if not own or not system.proof:
            continue
        silent = system.status(facts.job.systems) == "unknown"
        say = f"write under systems: what became of the {system.key}" if silent else ""
        in_the_car = not all(out_whole(row, wire) for wire in own)
        prove = f"prove that {system.proof}" if in_the_car and not facts.tested(row) else ""
        if say or prove:
            works_on.append(f"{system.key} wires: {listed(own)}")
            wanted += filter(None, (say, prove))
    cut_off = [wire for wire in wires if kinds.get(wire) == "fuel cut-off"]
    if cut_off and not facts.tested(row):
        works_on.append(f"fuel cut-off wires: {listed(cut_off)}")
        wanted.append(f"prove that {FUEL_PROOF}")
    if wanted:
        mend = "; ".join(wanted)
        problem = f"the row works on {'; '.join(works_on)}"
        yield SPC09(row.at, row.id, problem, mend[0].upper() + mend[1:])

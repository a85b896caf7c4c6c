"""One sound circuit as a job, its parts exchanged as a test wants; and what the ledger says of each of its wires."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from aswired.figures.worked import JobResult
from aswired.ledger.record import Ledger, State, Weight, Why
from tests.findings.jobs import work

Table = Mapping[str, str | None]  # name -> what stands behind it in the file; None: the sound job's is left out

# 10 A through 1.0 mm2, planned for 10: to a lamp and back to L1. No wire leads to F1.feed, so that it counts as the
# battery.
HEAD = {
    "system": "12 V",
    "supply": "13.5 V",
    "ground side": "negative",
    "systems": "{restraint: never fitted, high voltage: never fitted, declared by: AK}",
}
ITSELF = "{id: V1, kind: verify, proves: [V1], made: 2031-05-03 AK}"
LISTS = ("route", "accepted")  # written one below the other, without a name
SOUND: Mapping[str, Mapping[str, str]] = {
    "fuses": {"F1": "{rating: 10 A, fed: always}"},
    "loads": {"lamp": "{between: lamp.1 lamp.2, draws: 2 A, class: lamp}"},
    "grounds": {"L1": "{cable: 16 mm2, back to: battery-}"},
    "wires": {
        "W1": "{size: 1.0 mm2, from: F1, to: lamp.1}",
        "W2": "{size: 1.0 mm2, from: lamp.2, to: L1}",
    },
}


def lead(mm2: float | str, one: str, other: str, *keys: str) -> str:
    """A wire between two ends; `keys` are further ones, as 'length: 250 mm'. A size in words stands as it is."""
    size = f"{mm2} mm2" if isinstance(mm2, float) else mm2
    return "{" + ", ".join((f"size: {size}", f"from: {one}", f"to: {other}", *keys)) + "}"


def fuse(rating_a: float, *keys: str) -> str:
    """A fuse that is always live."""
    return "{" + ", ".join((f"rating: {rating_a:g} A", "fed: always", *keys)) + "}"


def load(part: str, draws_a: float, *keys: str) -> str:
    """A load between cavities 1 and 2 of a plug."""
    return "{" + ", ".join((f"between: {part}.1 {part}.2", f"draws: {draws_a:g} A", *keys)) + "}"


def small(*rows: str, head: Table | None = None, **tables: Table) -> str:
    """The text of the sound job with the lines of its tables exchanged, new ones put in, and these rows.

    A name that stands for None is left out of its table; `head` are the keys that stand alone. Blanks of the name of a
    table are written as low lines. One row more proves itself and changes nothing, so that what is shown is the donor.
    """
    lines = ["job: Small", *(f"{key}: {words}" for key, words in {**HEAD, **(head or {})}.items() if words is not None)]
    for key in dict.fromkeys((*SOUND, *tables)):
        table = {**SOUND.get(key, {}), **tables.get(key, {})}
        told = [f"  - {words}" if key in LISTS else f"  {name}: {words}" for name, words in table.items() if words]
        lines += [f"{key.replace('_', ' ')}:", *told]
    lines += [
        "changes:",
        *(f"  - {row}" for row in rows),
        "  - {id: V1, kind: verify, proves: [V1], made: 2031-05-03 AK}",
    ]
    return "\n".join(lines) + "\n"


def worked(folder: Path, *rows: str, head: Table | None = None, **tables: Table) -> JobResult:
    """The job of `small`, worked out."""
    return work(folder, small(*rows, head=head, **tables))


def ledger(folder: Path, *rows: str, head: Table | None = None, **tables: Table) -> Ledger:
    """The ledger of the job of `small`."""
    return worked(folder, *rows, head=head, **tables).ledger


def states(of: Ledger) -> dict[str, str]:
    """Wire or ground point -> its state."""
    return {name: account.state.value for name, account in of.accounts.items()}


def not_proved(of: Ledger) -> dict[str, str]:
    """The same without those that are proved."""
    return {name: state for name, state in states(of).items() if state != State.PROVED}


def told(of: Ledger, wire: str) -> set[tuple[Why, Weight]]:
    """What is told of a wire."""
    return {(reason.why, reason.weight) for reason in of.accounts[wire].reasons}


def amps(of: Ledger, wire: str, why: Why) -> tuple[float | None, float | None]:
    """What may come and what the wire carries, as the one reason of this kind that is told of it says [A]."""
    (reason,) = {reason for reason in of.accounts[wire].reasons if reason.why is why}
    return reason.amps, reason.carries

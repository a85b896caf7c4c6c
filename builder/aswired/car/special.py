"""Wires that a person declared special."""

from __future__ import annotations

from collections.abc import Mapping

from aswired.record import Job


def special_wires(job: Job) -> Mapping[str, str]:
    """Wire -> what it is declared to be, of the donor's wires and of new leads."""
    found = {name: wire.special for name, wire in job.wires.items()}
    found.update({row.wire: row.special for row in job.changes if row.special})
    return {name: kind for name, kind in found.items() if kind not in ("", "none")}

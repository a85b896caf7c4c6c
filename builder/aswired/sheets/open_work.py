"""What was begun and is not finished: rows that are cut and not sealed, done and not tested, planned."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.car.changes import kind_of
from aswired.car.harness import NodeKind, View
from aswired.figures.worked import JobResult
from aswired.record import Change
from aswired.sheets.changes import what
from aswired.sheets.text import done
from aswired.sheets.work_order import planned_rows


@dataclass(frozen=True)
class WaitingRow:
    """A row that waits for its next step. `since`: when and by whom the last one was done."""

    id: str
    what: str
    since: str


@dataclass(frozen=True)
class OpenWork:
    """Open rows of the car as it is now, each once, and the planned ones."""

    unsealed: tuple[WaitingRow, ...]
    untested: tuple[WaitingRow, ...]
    planned: tuple[str, ...]

    @property
    def any_begun(self) -> bool:
        return bool(self.unsealed or self.untested)


def open_work(worked: JobResult) -> OpenWork:
    """Rows in force now that wait to be sealed or tested, in the order of the file."""
    now = worked.now
    rows = worked.rows_of(now)
    unsealed = [row for row in rows if row.sealed is None and row.tested is None and wants_seal(row, now)]
    open_ids = {row.id for row in unsealed}
    untested = [row for row in rows if row.id not in open_ids and kind_of(row).to_test and not worked.tested(row)]
    return OpenWork(
        tuple(WaitingRow(row.id, what(row), f"made {done(row.made)}") for row in unsealed),
        tuple(WaitingRow(row.id, what(row), _last(row)) for row in untested),
        tuple(row.id for row in planned_rows(worked)),
    )


def wants_seal(row: Change, view: View) -> bool:
    """Whether a row left a joint, a cut end that is not declared open, or an opened splice in the car."""
    if not kind_of(row).alters_harness:
        return False
    if any(joint.row == row.id for joint in view.joints.values()):
        return True
    if any(node.kind is NodeKind.STUB and node.made_by == row.id for node in view.nodes.values()):
        return True
    return any(fate.word == "flush" for wire in row.wire_names for fate in row.fates_of(wire).values())


def _last(row: Change) -> str:
    return f"sealed {done(row.sealed)}" if row.sealed is not None else f"made {done(row.made)}"

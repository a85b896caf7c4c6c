"""The harness while rows are folded over it: what a kind of change may do to it, in a few verbs."""

from aswired.car.loom.names import close_names, ends_named, was_of
from aswired.car.loom.state import HarnessState, Refused, SavePoint, WorkingStretch
from aswired.car.loom.working import WorkingHarness

__all__ = [
    "HarnessState",
    "Refused",
    "SavePoint",
    "WorkingHarness",
    "WorkingStretch",
    "close_names",
    "ends_named",
    "was_of",
]

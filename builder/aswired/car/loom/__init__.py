"""The harness while rows are folded over it: what a kind of change may do to it, in a few verbs."""

from aswired.car.loom.names import close_names, ends_named, was_of
from aswired.car.loom.state import Mark, Refused, Run, State
from aswired.car.loom.working import Loom

__all__ = ["Loom", "Mark", "Refused", "Run", "State", "close_names", "ends_named", "was_of"]

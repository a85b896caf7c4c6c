"""From the donor's wires and the rows in force to the harness as built, in one view (F1 to F19)."""

from aswired.asbuilt.beginnings import Beginnings
from aswired.asbuilt.believed import believed
from aswired.asbuilt.fold import fold

__all__ = ["Beginnings", "believed", "fold"]

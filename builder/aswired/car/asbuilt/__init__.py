"""From the donor's wires and the rows in force to the harness as built, in one view (F1 to F19)."""

from aswired.car.asbuilt.beginnings import FoldCache
from aswired.car.asbuilt.believed import believed
from aswired.car.asbuilt.fold import fold

__all__ = ["FoldCache", "believed", "fold"]

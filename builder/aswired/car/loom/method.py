"""How a row says that its work is done; the house method where the row is silent, and where either is written."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.physics.figure import Input
from aswired.physics.lengths import take_up
from aswired.record import Change, Usual, usual_line
from aswired.text.one_line import Cover, JointMethod


@dataclass(frozen=True)
class HouseMethod:
    """The `usual:` of a job, asked beside a row. Lengths in mm; None where neither of them says one."""

    usual: Usual

    def joint(self, row: Change) -> JointMethod | None:
        return row.joint or self.usual.joint

    def overlap_mm(self, row: Change) -> float | None:
        length = row.overlap or self.usual.overlap
        return length.mm if length else None

    def cover(self, row: Change) -> Cover | None:
        return row.cover or self.usual.cover

    @property
    def strip_mm(self) -> float | None:
        """Conductor that goes into a new terminal's barrel (L4)."""
        strip = self.usual.ring_strip
        return strip.mm if strip else None

    def slack(self, row: Change) -> tuple[float | None, Input]:
        own = row.slack or self.usual.slack
        mm = own.mm if own else None
        return mm, self.input("slack", row, "slack", mm)

    def strip(self, name: str, row: Change) -> Input:
        """The strip that goes into a new terminal of a row, as a term of a length."""
        return self.input(name, row, "ring strip", self.strip_mm)

    def joint_takes(self, name: str, row: Change, tap: bool = False) -> Input:
        """The take-up of one joint of a row, as a term of a length."""
        mm, (origin, line) = self.take_up(row, tap)
        says = "joint" if self.joint(row) is None and not tap else "overlap"
        write = "" if mm is not None or self.says(row, says) else usual_line(says)
        return Input(name, mm, "mm", origin, write, line)

    def input(self, name: str, row: Change, key: str, mm: float | None) -> Input:
        """A value that a row or the house method says, as a term of a length."""
        origin, line = self.source(row, key)
        return Input(name, mm, "mm", origin, "" if self.says(row, key) else usual_line(key), line)

    def said(self, name: str, row: Change, key: str, mm: float | None) -> Input:
        """A value that only a row can say, as a term of a length."""
        origin, line = self.source(row, key)
        return Input(name, mm, "mm", origin, line=line)

    def says(self, row: Change, key: str) -> bool:
        """Whether a row or the house method says something of a key, be it that it is not known."""
        return key in row.lines or key in self.usual.lines

    def take_up(self, row: Change, tap: bool = False) -> tuple[float | None, tuple[str, str]]:
        """Take-up of one joint of the row (L2), and where its overlap is written."""
        method = self.joint(row)
        form = "tap" if tap else (method.form if method else "")
        if form in ("", "unknown"):
            return None, ("not recorded", "")
        if form == "twist":
            form = "lap"  # twisted side by side, taken up as a lap (common practice, no source)
        source = ("butt joint: 0 by definition", "") if form == "butt" else self.source(row, "overlap")
        return take_up(form, self.overlap_mm(row)), source

    def source(self, row: Change, key: str) -> tuple[str, str]:
        """Where a value of a row stands: on the row, in the house method, or nowhere; and its file and line."""
        if key in row.lines:
            return row.id, str(row.lines[key])
        if key in self.usual.lines:
            return "usual", str(self.usual.lines[key])
        return "not recorded", ""

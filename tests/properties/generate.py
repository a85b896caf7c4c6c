"""Random jobs for the fold: a small donor harness and a change list that is legal by construction, but for a tenth.

One generator serves hypothesis (which shrinks what it finds) and the plain seeded sample behind the coverage table.
Rows are chosen against the naive fold of the rows before them.
"""

from __future__ import annotations

import datetime
import random
from collections.abc import Callable, Mapping

from hypothesis import strategies as st

from aswired.record import Change, Job
from aswired.text.one_line import Condition, Done, Piece, Ring
from properties import naive
from properties.chance import COLOURS, FIRST_DAY, KINDS, PLUGS, SIZES, length
from properties.rows import Row, Rows


class Maker(Rows):
    """Builds one job, row after row."""

    # ---- the change list -------------------------------------------------------------------------------------------
    def build(self) -> Job:
        count = self.rnd.randint(3, 9)
        made = self.rnd.randint(0, count)
        numbers = self.rnd.sample(range(1, 60), count)  # ids do not order the rows
        dated = False
        for place, number in enumerate(numbers):
            row = self._row(f"C{number}")
            if row is None:
                continue
            if place < made and "made" not in row and not self.chance(8):
                day = FIRST_DAY + datetime.timedelta(days=place)
                row["made"] = Done("yes", None, "") if self.chance(15) else Done("", day, "AK")
                dated = dated or row["made"].date is not None
            elif place >= made and row.get("corrects"):
                continue
            if any(not self.made(name) for name in (*row.get("over", ()), *row.get("proves", ()))):
                row.pop("made", None)  # what is not there yet was neither wrapped nor tested
            option = self.pick(("gearbox", "gearbox", "gearbox", "roof"))
            if self.chance(7) and not row.get("corrects"):
                value = self.pick(("manual", "auto") if option == "gearbox" else ("open", "closed"))
                row["only_if"] = Condition("", option, value, self.chance(30))
            self.rows.append(Change(id=f"C{number}", **row))
            self.job = self._job()
            self.car, self.status = naive.fold(self.job)
        return self.job

    def made(self, name: str) -> bool:
        row = self.job.change(name)
        return row is not None and row.made is not None

    def _row(self, name: str) -> Row | None:
        if self.chance(8):
            return self.illegal()
        if self.rows and self.chance(22):
            again = self.again()
            if again is not None:
                return again
        if self.hanging() and self.chance(30):  # what was cut off is led on
            kind = self.pick(("ground", "ground", "join"))
            row = self.do_ground() if kind == "ground" else self.do_join()
            if row is not None:
                return {"kind": kind, **row}
        kinds = [*KINDS, "extend", "extend", "extend", "tap", "join", "ground", "ground", "ground", "remove"]
        for _ in range(4):
            makers: Mapping[str, Callable[[], Row | None]] = {kind: getattr(self, f"do_{kind}") for kind in kinds}
            kind = self.pick(kinds)
            row = makers[kind]()
            if row is not None:
                return {"kind": kind, **self._was(row), **row}
        return None

    def _was(self, row: Row) -> Row:
        """`was:` stands on the first row of an unlisted wire."""
        was = self.donor.was.pop(row.get("wire", ""), None)
        return {} if was is None else {"was": was}

    # ---- corrects, redoes, and what cannot be ----------------------------------------------------------------------
    def again(self) -> Row | None:
        """A row that corrects or redoes the last row on its wires."""
        status = self.status
        names = {wire for row in self.rows for wire in row.wire_names}
        last = {}
        for row in self.rows:
            if status[row.id] == "in force":
                for text in (*row.wire_names, row.onto, *_joined(row), row.from_, row.to, *row.over, *row.proves):
                    last[text] = row
                last |= {wire: row for wire in names if any(word.startswith(f"{wire} at") for word in _joined(row))}
        used = [word for row in self.rows for word in (*_joined(row), row.from_, row.to, *row.over, *row.proves)]
        offcuts = {piece.offcut for row in self.rows for wire in row.wire_names if (piece := row.piece_of(wire))}
        choices = []
        for row in self.rows:
            on_top = any(word == row.id or word.startswith(f"{row.id}-") for word in used)
            shared = any(r.ring is not None and r.ring.shared_with == row.id for r in self.rows)
            own = all(last[wire] is row for wire in row.wire_names if wire in last)
            simple = (
                row.kind in ("extend", "ground", "shorten") and status[row.id] == "in force" and row.only_if is None
            )
            if simple and own and not on_top and not shared and row.was is None and not (offcuts & set(row.reclaimed)):
                choices.append(row)
        if not choices:
            return None
        row = self.pick(choices)
        redo = self.chance(55)
        pieces = {wire: row.piece_of(wire) for wire in row.wire_names}
        if redo and any(piece is not None and piece.offcut for piece in pieces.values()):
            return None
        same = [
            "wire",
            "wires",
            "end",
            "plug",
            "pigtail",
            "tail",
            "stagger",
            "reach",
            "new_reach",
            "piece",
            "to",
            "ring",
        ]
        if not redo:
            same.append("redoes")
        done = {key: getattr(row, key) for key in same if getattr(row, key)}
        done["kind"] = row.kind
        if redo:
            done["redoes"] = row.id
        else:
            done["corrects"] = row.id
            done["made"] = row.made
        if row.kind == "shorten":
            done |= {key: getattr(row, key) for key in ("terminal", "joint") if getattr(row, key)}
            done["take_out"] = length(8)
            done.pop("new_reach", None)
        elif row.gap is not None or row.cut is not None:
            done["gap"], done["cut"] = self.mm(150, 600), self.maybe(40, 200, 500)
        if row.kind == "ground" and done["to"] == "L1" and "L2" not in (done["end"], *self.ends_of(row.wire_names[0])):
            done["to"] = "L2"
            done["ring"] = Ring("new, M6", "", "M6", None)
        return done

    def illegal(self) -> Row | None:
        """A row that cannot be done, of one of several sorts."""
        wires = self.plain()
        if not wires:
            return None
        wire = self.pick(wires)
        end = self.pick(self.ends_of(wire))
        piece = Piece("", self.pick(COLOURS), self.pick(SIZES))
        edge = naive.edge_at(self.car, wire, end)
        made = {*self.car.splices, *self.car.stubs}
        no_splice = [row.id for row in self.rows if naive.resolved(self.car, row.id) not in made]
        sorts: list[Row] = [
            {"kind": "extend", "wire": "W99", "plug": "lamp", "gap": length(300), "piece": piece},
            {"kind": "extend", "wire": wire, "plug": "nowhere", "gap": length(300), "piece": piece},
            {"kind": "cap", "wire": wire, "end": "FS7", "stub": length(30)},
            {"kind": "add", "wire": wire, "piece": piece, "from_": "F3", "to": "L1", "cut": length(500)},
            {"kind": "tap", "wire": wire, "end": end, "onto": "W99"},
            {"kind": "join", "ends": (f"{wire} at FS7", f"{wire} at {end}")},
            {"kind": "reroute", "wire": wire, "by": ("attic",)},
            {"kind": "protect", "fuse": "F31", "wire": wire, "end": "FS7"},
            {"kind": "bridge", "ends": (f"{wire} at FS7", f"{wire} at {end}")},
            {"kind": "swap", "plug": "nowhere", "new_plug": "lamp-b", "cavities": {"1": "1"}, "seen_from": "wire side"},
        ]
        if no_splice:
            nowhere = {"from_": self.pick(no_splice), "to": "L1"}
            sorts.append({"kind": "add", "wire": "W98", "piece": piece, **nowhere, "cut": length(500)})
        if edge.length is not None and "unknown" not in end:
            too_far = length(edge.length + 100)
            sorts.append({"kind": "cap", "wire": wire, "end": end, "stub": too_far})
            sorts.append({"kind": "shorten", "wire": wire, "end": end, "take_out": too_far})
            if self._plug_of(end):
                where = {"plug": self._plug_of(end), "pigtail": too_far}
                sorts.append({"kind": "extend", "wire": wire, **where, "gap": length(300), "piece": piece})
        taken = [e for other in wires if other != wire for e in self.ends_of(other) if e.split(".")[0] in PLUGS]
        if taken and "unknown" not in end:
            sorts.append({"kind": "terminate", "wire": wire, "end": end, "into": self.pick(taken), "terminal": "new"})
        for name, account in self.car.rack.items():
            if account.length is not None:
                greedy = Piece("", self.pick(COLOURS), self.pick(SIZES), name)
                long = length(account.length + 500)
                over = {"kind": "add", "wire": "W97", "piece": greedy, "from_": "F3", "to": "L1", "cut": long}
                sorts.append(over)
        return dict(self.pick(sorts))


def _middle_out(job: Job, row: Change) -> bool:
    """Whether a row keeps less of a donor wire than its whole length, with a piece between."""
    kept = [naive.mm(part) for part in (row.tail, row.pigtail)]
    whole = [naive.mm(job.wires[wire].length) for wire in row.wire_names if wire in job.wires]
    both = None not in kept or row.kind == "ground"
    return both and any(mm is not None and 0 < sum(part or 0 for part in kept) < mm for mm in whole)


def _joined(row: Change) -> tuple[str, ...]:
    return tuple(row.ends) if row.kind in ("join", "bridge") else ()


def build(rnd: random.Random) -> Job:
    """One job."""
    return Maker(rnd).build()


def sample(count: int, first: int = 0) -> list[Job]:
    """The same jobs every time: one from each seed."""
    return [build(random.Random(seed)) for seed in range(first, first + count)]


def jobs() -> st.SearchStrategy[Job]:
    """Jobs for hypothesis: the same generator with its choices in hypothesis' hands."""
    return st.randoms(use_true_random=False).map(build)


def features(job: Job) -> set[str]:
    """What a job holds that the fold has a rule for; rows count only when the naive fold let them stand."""
    _, status = naive.fold(job)
    found = {row.kind for row in job.changes if status[row.id] == "in force"}
    rows = [row for row in job.changes if status[row.id] == "in force"]
    checks = {
        "redo": any(row.redoes for row in rows),
        "correction": any(row.corrects for row in rows),
        "only if": any(row.only_if for row in job.changes),
        "grouped row": any(len(row.wire_names) > 1 for row in rows),
        "illegal row": "refused" in status.values(),
        "offcut used": any((piece := row.piece_of(wire)) and piece.offcut for row in rows for wire in row.wire_names),
        "was": any(row.was for row in rows),
    }
    checks |= {
        "take-out recorded beside a computed one": any(row.take_out and (row.new_reach or row.gap) for row in rows),
        "middle taken out": any(_middle_out(job, row) for row in rows if row.kind in ("extend", "ground")),
        "lead without its piece": any(row.kind in ("add", "tap") and row.to and row.piece is None for row in rows),
        "cut end in a splice": any("-W" in end for row in rows if row.kind == "join" for end in row.ends),
        "tap at a distance": any(row.kind == "tap" and row.tail for row in rows),
        "tap of a new lead": any(row.kind == "tap" and row.to for row in rows),
        "grouped row with stagger": any(row.stagger and len(row.wire_names) > 1 for row in rows),
        "ground from a cut end": any(row.kind == "ground" and "-W" in row.end for row in rows),
    }
    car = naive.donor(job)
    ends = [end for edge in car.edges for end in (edge.a, edge.b)]
    checks["splice of four and more"] = any(ends.count(name) >= 4 for name in job.splices)
    checks["plug in line"] = any(end.startswith("bulkhead.") for end in ends) or any(edge.via for edge in car.edges)
    checks["unknown length"] = any(edge.length is None for edge in car.edges)
    checks["shared ring"] = any(row.ring is not None and row.ring.shared_with for row in rows)
    return found | {name for name, holds in checks.items() if holds}

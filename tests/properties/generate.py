"""Random jobs for the fold: a small donor harness and a change list that is legal by construction, but for a tenth.

One generator serves hypothesis (which shrinks what it finds) and the plain seeded sample behind the coverage table.
Rows are chosen against the naive fold of the rows before them.
"""

from __future__ import annotations

import datetime
import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from hypothesis import strategies as st

from aswired.colours import Colour
from aswired.model import Change, FactorySplice, Fuse, GroundPoint, Job, Module, Option, Plug, Usual, Wire
from aswired.units import Length, Size
from aswired.written import Condition, Done, Fate, JointMethod, Offcut, Piece, Ring, Was
from properties import naive

FIRST_DAY = datetime.date(2031, 5, 1)
KINDS = ("remove", "cap", "extend", "shorten", "join", "tap", "ground", "terminate", "add", "cover", "verify")
FORMS = ("lap", "lap", "butt", "lineman", "closed-end", "clip")
PLUGS = ("lamp", "pump", "horn", "wiper")
COLOURS = tuple(Colour(code, code) for code in ("BK", "RD", "GN", "BU"))
SIZES = (Size("18 AWG", "AWG", 18.0), Size("1.5 mm2", "mm2", 1.5), Size("unknown", None, None))
Row = dict[str, Any]


def length(value: float) -> Length:
    return Length(f"{value:g} mm", float(value))


@dataclass
class Donor:
    """The sections of a job before its change list."""

    plugs: dict[str, Plug]
    usual: Usual
    wires: dict[str, Wire] = field(default_factory=dict)
    was: dict[str, Was] = field(default_factory=dict)
    offcuts: dict[str, Offcut] = field(default_factory=dict)


class Maker:
    """Builds one job. `pick` and its like are the only places where chance comes in."""

    def __init__(self, rnd: random.Random) -> None:
        self.rnd = rnd
        self.rows: list[Change] = []
        self.fresh = 0
        self.donor = self._donor()
        self.job = self._job()
        self.car = naive.donor(self.job)

    def chance(self, percent: int) -> bool:
        return self.rnd.randint(1, 100) <= percent

    def pick(self, choices: Any) -> Any:
        return self.rnd.choice(list(choices))

    def mm(self, low: int, high: int) -> Length:
        return length(self.rnd.randint(low, high))

    def maybe(self, percent: int, low: int, high: int) -> Length | None:
        return self.mm(low, high) if self.chance(percent) else None

    # ---- the donor -------------------------------------------------------------------------------------------------
    def _donor(self) -> Donor:
        method = self.pick(FORMS)
        usual = Usual(
            joint=JointMethod(method, method, "soldered") if self.chance(85) else None,
            overlap=self.maybe(85, 5, 15),
            slack=self.maybe(85, 0, 60),
            stagger=self.maybe(70, 10, 40),
            ring_strip=self.maybe(80, 4, 8),
            cut_to_next=length(self.pick((1, 5, 10))) if self.chance(50) else None,
        )
        donor = Donor({name: Plug() for name in PLUGS}, usual)
        donor.plugs["bulkhead"] = Plug(in_line=True)
        ends: list[tuple[str, str]] = []
        if self.chance(50):  # a factory splice of four and more
            ends += [("FS1", self._far()) for _ in range(self.rnd.randint(4, 5))]
        ends += [(self._near(), self._far()) for _ in range(self.rnd.randint(3, 6))]
        if self.chance(40):  # one cavity of the plug in line, a wire to either side, maybe other colours
            ends += [("bulkhead.1", self._near()), ("bulkhead.1", "F3")]
        for number, pair in enumerate(ends):
            from_, to = pair if self.chance(50) else (pair[1], pair[0])
            name = f"W{number + 1}"
            if self.chance(12):  # defined on its first row; the reader of job files lists it among the wires too
                was = Was("", self.pick(COLOURS), self.pick(SIZES), (from_, to), self.maybe(60, 600, 3000))
                donor.was[name] = was
                donor.wires[name] = Wire(
                    colour=was.colour, size=was.size, from_=from_, to=to, length=was.length, inline=True
                )
                continue
            via = f"bulkhead.{number + 2}" if self.chance(10) and "bulkhead.1" not in pair else ""
            donor.wires[name] = Wire(
                colour=self.pick(COLOURS), size=self.pick(SIZES), from_=from_, to=to, via=via, length=self._known()
            )
            if via and self.chance(40):  # a second wire in the same cavity: the first is two ends there
                donor.wires[f"{name}b"] = Wire(from_=via, to=self._near(), length=self._known())
        donor.offcuts = {
            f"O{n}": Offcut("", self.pick(COLOURS), self.pick(SIZES), Length("", self.pick((None, 900.0, 2500.0))))
            for n in range(self.rnd.randint(0, 2))
        }
        return donor

    def _known(self) -> Length | None:
        return self.pick((None, Length("unknown", None))) if self.chance(25) else self.mm(600, 3000)

    def cavity(self, plug: str = "") -> str:
        self.fresh += 1
        return f"{plug or self.pick(PLUGS)}.{self.fresh}"

    def _near(self) -> str:
        return self.cavity() if self.chance(85) else f"unit.{self.fresh + 100}"

    def _far(self) -> str:
        return str(self.pick(("FS1", "FS2", "F1", "F2.feed", "G1", "G2", "unknown", "battery-", self.cavity())))

    def _job(self) -> Job:
        return Job(
            job="made by chance",
            options={
                "gearbox": Option(is_="manual", could_be=("auto",)),
                "roof": Option(is_="unknown", could_be=("open", "closed")),
            },
            usual=self.donor.usual,
            handed_over=self.pick((None, FIRST_DAY + datetime.timedelta(days=self.rnd.randint(0, 8)))),
            plugs=self.donor.plugs,
            fuses={"F1": Fuse(), "F2": Fuse(), "F3": Fuse()},
            modules={"unit": Module()},
            grounds={"G1": GroundPoint(), "G2": GroundPoint(), "L1": GroundPoint()},
            splices={"FS1": FactorySplice(), "FS2": FactorySplice(all_members_known=False)},
            wires=self.donor.wires,
            offcuts=self.donor.offcuts,
            changes=tuple(self.rows),
        )

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
            if row["kind"] in ("cover", "verify") and row.get("made"):
                for key in ("over", "proves"):
                    row[key] = tuple(name for name in row.get(key, ()) if self.job.change(name).made)
            option = self.pick(("gearbox", "gearbox", "gearbox", "roof"))
            if self.chance(7) and not row.get("corrects"):
                value = self.pick(("manual", "auto") if option == "gearbox" else ("open", "closed"))
                row["only_if"] = Condition("", option, value, self.chance(30))
            self.rows.append(Change(id=f"C{number}", **row))
            self.job = self._job()
            self.car, _ = naive.fold(self.job)
        return self.job

    def _row(self, name: str) -> Row | None:
        if self.chance(8):
            return self.illegal()
        if self.rows and self.chance(22):
            again = self.again()
            if again is not None:
                return again
        kinds = [*KINDS, "extend", "extend", "tap", "join", "ground", "ground", "ground", "remove"]
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

    def plain(self, *, only_one: bool = False, at: str = "") -> list[str]:
        """Wires in the car with two ends that nobody cut off; with `only_one`, of one stretch yet."""
        found = []
        for wire in sorted(self.car.wires):
            ends = self.car.loose_ends(wire)
            in_car = len(ends) == 2 and not any(end in self.car.stubs or end in self.car.splices for end in ends)
            if in_car and not (only_one and len(self.car.of(wire)) > 1) and (not at or at in ends):
                found.append(wire)
        return found

    def ends_of(self, wire: str) -> list[str]:
        return self.car.loose_ends(wire)

    def cut_in(self, wire: str, end: str, low: int = 40) -> int | None:
        """A distance from the end that lies in its stretch; None when the stretch is too short."""
        known = naive.edge_at(self.car, wire, end).length
        most = 400 if known is None else min(int(known) - 1, 700)
        return self.rnd.randint(low, most) if most > low else None

    def piece(self) -> Piece:
        offcut = ""
        if self.chance(20):
            roomy = [name for name, kept in self.car.rack.items() if kept.length is None or not kept.cuts]
            offcut = self.pick([*roomy, "O9"])
        return Piece("", self.pick(COLOURS), self.pick(SIZES), offcut)

    def joint(self) -> Row:
        form = self.pick(FORMS)
        row: Row = {"joint": JointMethod(form, form, "crimped")} if self.chance(20) else {}
        return row | ({"overlap": self.mm(4, 12)} if self.chance(20) else {})

    def sized(self, kept: int = 0) -> Row:
        """gap, or reach, or the cut alone."""
        row: Row = {}
        way = self.pick(("gap", "gap", "cut", "both", "nothing"))
        if way in ("gap", "both"):
            row["gap"] = self.mm(150, 600)
        if way in ("cut", "both"):
            row["cut"] = self.mm(250, 700)
        if self.chance(15):
            row["slack"] = self.mm(0, 80)
        return row

    def do_remove(self) -> Row | None:
        some = [wire for wire in self.plain() if not any("unknown" in end for end in self.ends_of(wire))]
        unsure = [wire for wire in self.plain() if wire not in some]
        if unsure and self.chance(20):
            wire = self.pick(unsure)
            return {"wires": {wire: {self._typed(end): Fate("gone", "gone", None) for end in self.ends_of(wire)}}}
        if not some:
            return None
        wires = self.rnd.sample(some, min(len(some), self.pick((1, 1, 2))))
        if len(wires) == 1 and self.chance(30):
            row: Row = {"wire": wires[0], "ends": self._fates(wires[0])}
        else:
            row = {"wires": {wire: self._fates(wire) for wire in wires}}
        known = self.car.length(wires[0])
        if len(wires) == 1 and known and known > 300 and self.chance(30):
            kept = Length("", self.pick((None, float(self.rnd.randint(50, int(known) - 200)))))
            row["reclaimed"] = {f"O{20 + len(self.rows)}": Offcut("", self.pick(COLOURS), self.pick(SIZES), kept)}
        return row

    @staticmethod
    def _typed(end: str) -> str:
        return "unknown" if end.startswith("unknown ") else end

    def _fates(self, wire: str) -> dict[str, Fate]:
        known = [edge.length for edge in self.car.of(wire) if edge.length is not None]
        fates = {}
        for end in self.car.loose_ends(wire):
            words = ["gone", "capped", "taped", "uncapped", "unknown"]
            words.append("flush" if end.startswith("FS") else "pulled")
            word = self.pick(words)
            most = int(min([60.0, *(edge / 3 for edge in known)]))
            stub = (
                self.mm(10, most) if word in ("capped", "taped", "uncapped") and most > 10 and self.chance(70) else None
            )
            fates[end] = Fate(word, word, stub)
        return fates

    def do_cap(self) -> Row | None:
        wires = [wire for wire in self.plain() if not any("unknown" in end for end in self.ends_of(wire))]
        if not wires:
            return None
        wire = self.pick(wires)
        end = self.pick(self.ends_of(wire))
        stub = self.cut_in(wire, end, 20)
        if stub is None:
            return None
        word = self.pick(("", "gone", "capped", "uncapped", "unknown"))
        row: Row = {"wire": wire, "end": end, "stub": length(stub) if self.chance(80) else None}
        return row | ({"far": Fate(word, word, None)} if word else {})

    def do_extend(self) -> Row | None:
        if self.chance(25):
            candidates = self.plain()
            return self._extend_one(self.pick(candidates)) if candidates else None
        ends = [(end, wire) for wire in self.plain() for end in self.ends_of(wire) if self._plug_of(end)]
        if not ends:
            return None
        plug = self._plug_of(self.pick(ends)[0])
        there = [wire for end, wire in ends if self._plug_of(end) == plug]
        wires = [wire for wire in dict.fromkeys(there) if there.count(wire) == 1]
        if not wires:
            return None
        wires = self.rnd.sample(wires, min(len(wires), self.pick((1, 2, 3, 4))))
        shortest = min((self.cut_in(w, e, 2) or 0) for e, w in ends if w in wires and self._plug_of(e) == plug)
        stagger = self.rnd.randint(5, 30)
        most = shortest - 40 * len(wires)  # the house stagger is 40 mm at most
        if most < 20:
            return None
        row: Row = {"plug": plug, "wires": {wire: self.piece() for wire in wires}, **self.joint(), **self.sized()}
        row["pigtail"] = self.mm(20, most) if self.chance(85) else None
        return row | ({"stagger": length(stagger)} if self.chance(40) else {})

    @staticmethod
    def _plug_of(end: str) -> str:
        owner = end.rpartition(".")[0]
        return owner if owner in PLUGS or owner == "bulkhead" else ""

    def _extend_one(self, wire: str) -> Row | None:
        end = self.pick(self.ends_of(wire))
        if "unknown" in end:
            return None
        row: Row = {"wire": wire, "piece": self.piece(), **self.joint(), **self.sized()}
        in_plug = [other for other in self.ends_of(wire) if self._plug_of(other) == self._plug_of(end)]
        if self._plug_of(end) and len(in_plug) == 1:
            row["plug"] = self._plug_of(end)
        elif any("unknown" in other for other in self.ends_of(wire)):
            return None
        else:
            row["end"] = end
        pigtail = self.cut_in(wire, end)
        if pigtail is None:
            return None
        row["pigtail"] = length(pigtail)
        known = self.car.length(wire)
        single = len(self.car.of(wire)) == 1
        if single and self.chance(40):
            tail = self.rnd.randint(30, 900) if known is None else int(known) - pigtail - self.pick((0, 0, 30))
            if tail > 10:
                row["tail"] = length(tail)
                if self.chance(50):
                    row.pop("gap", None)
                    row["reach"] = length(pigtail + tail + self.rnd.randint(120, 500))
        return row

    def do_shorten(self) -> Row | None:
        wires = self.plain()
        wires = [wire for wire in wires if not any("unknown" in end for end in self.ends_of(wire))]
        if not wires:
            return None
        wire = self.pick(wires)
        end = self.pick(self.ends_of(wire))
        row: Row = {"wires": (wire,)} if self.chance(30) else {"wire": wire}
        in_plug = [other for other in self.ends_of(wire) if self._plug_of(other) == self._plug_of(end)]
        row |= {"plug": self._plug_of(end)} if self._plug_of(end) and len(in_plug) == 1 else {"end": end}
        room = self.cut_in(wire, end, 60)
        if room is None:
            return None
        usual = self.donor.usual
        known = self.car.length(wire)
        complete = usual.joint and usual.overlap and usual.slack and usual.ring_strip
        if self.chance(35) and known is not None and complete and len(self.car.of(wire)) == 1 and known > 500:
            row["new_reach"] = self.mm(200, int(known) - 250)
        else:
            row["take_out"] = self.mm(10, room // 2)
            row |= self.joint()
        if self.chance(30):
            row["terminal"] = "new"
        elif self.chance(70):
            row["pigtail"] = self.mm(10, max(10, room // 3)) if "take_out" in row else self.mm(10, 100)
        return row

    def _for_join(self) -> list[str]:
        free = sorted(self.car.stubs)
        ends = [
            f"{wire} at {end}"
            for wire in self.plain()
            for end in self.ends_of(wire)
            if end.startswith(("FS", "G", "F"))
        ]
        return free + ends

    def do_join(self) -> Row | None:
        choices = self._for_join()
        stubs = [choice for choice in choices if " at " not in choice]
        if len(choices) < 2:
            return None
        some = self.rnd.sample(choices, min(len(choices), self.pick((2, 2, 3, 4))))
        if stubs and self.chance(60) and stubs[0] not in some:
            some[0] = stubs[0]
        wires = [choice.partition(" at ")[0] for choice in some if " at " in choice]
        wires += [self.car.at(choice)[0].wire for choice in some if " at " not in choice]
        if len(set(wires)) < len(wires):
            return None
        return {"ends": tuple(some), **self.joint()}

    def do_tap(self) -> Row | None:
        through = self.plain(only_one=True)
        wires = [wire for wire in self.plain() if len(through) > 1 or wire not in through]
        if not wires or not through:
            return None
        wire = self.pick(wires)
        through = [other for other in through if other != wire]
        if not through:
            return None
        ends = [end for end in self.ends_of(wire) if not end.startswith("unknown")]
        return {"wire": wire, "end": self.pick(ends), "onto": self.pick(through), **self.joint()} if ends else None

    def _moved(self, wires: list[str], to: str) -> Row | None:
        """A new end, with or without a piece."""
        if not wires:
            return None
        wire = self.pick(wires)
        ends = self.ends_of(wire)
        unsure = [end for end in ends if end.startswith("unknown") and len(ends) == 2]
        end = self.pick([end for end in ends if not end.startswith("unknown")])
        row: Row = {"to": to}
        if unsure and self.chance(70):
            end = unsure[0]
        else:
            row["end"] = end
        if self.chance(35):
            return row | {"wire": wire}
        row |= {"wires": {wire: self.piece()}} if self.chance(25) else {"wire": wire, "piece": self.piece()}
        row |= {**self.joint(), **self.sized()}
        known = self.car.length(wire)
        if len(self.car.of(wire)) == 1 and self.chance(60):
            kept = self.rnd.randint(100, 500 if known is None else max(101, int(known) - 20))
            row[self.pick(("pigtail", "tail"))] = length(kept)
            if self.chance(30):
                row.pop("gap", None)
                row["reach"] = length(kept + self.rnd.randint(200, 700))
        return row

    def do_ground(self) -> Row | None:
        fitted = [(ring.ground, ring.row) for ring in self.car.rings if ring.row]
        to, shared = self.pick(fitted) if fitted and self.chance(60) else (self.pick(("L1", "L1", "G2", "L2")), "")
        row = self._moved([wire for wire in self.plain() if to not in self.ends_of(wire)], to)
        if row is None:
            return None
        return row | {"ring": Ring("", shared, "", None) if shared else Ring("new, M6", "", "M6", None)}

    def do_terminate(self) -> Row | None:
        to = self.pick((self.cavity(), self.cavity(), "F3", ""))
        row = self._moved(self.plain(), to)
        if row is None or (not to and "end" not in row):
            return None
        wire = row.get("wire") or next(iter(row["wires"]))
        if to in self.ends_of(wire):
            return None
        row["into"] = row.pop("to")
        return row | {"terminal": "new"}

    def do_add(self) -> Row | None:
        self.fresh += 1
        joints = sorted(self.car.splices)
        from_ = self.pick(joints) if joints and self.chance(50) else self.pick(("F3", self.cavity(), "battery+"))
        row: Row = {"wire": f"W{100 + self.fresh}", "piece": self.piece(), "from_": from_}
        row["to"] = self.pick(("L1", "G1", self.cavity(), "F1"))
        row |= {"cut": self.mm(300, 900)} if self.chance(60) else {"reach": self.mm(300, 900)}
        return row

    def _earlier(self) -> tuple[str, ...]:
        _, status = naive.fold(self.job)
        names = [row.id for row in self.rows if status[row.id] == "in force" and row.only_if is None]
        return tuple(self.rnd.sample(names, min(len(names), 2)))

    def do_cover(self) -> Row | None:
        return {"over": self._earlier()} if self.rows else None

    def do_verify(self) -> Row | None:
        return {"proves": self._earlier()} if self.rows else None

    # ---- corrects, redoes, and what cannot be ----------------------------------------------------------------------
    def again(self) -> Row | None:
        """A row that corrects or redoes the last row on its wires."""
        _, status = naive.fold(self.job)
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
        redo = self.chance(65)
        pieces = {wire: row.piece_of(wire) for wire in row.wire_names}
        if redo and any(piece is not None and piece.offcut for piece in pieces.values()):
            return None
        same = (
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
        )
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
        if row.kind == "ground" and done["to"] == "L1" and "L2" not in self.ends_of(row.wire_names[0]):
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
        no_splice = [row.id for row in self.rows if row.id not in self.car.splices]
        sorts: list[Row] = [
            {"kind": "extend", "wire": "W99", "plug": "lamp", "gap": length(300), "piece": piece},
            {"kind": "extend", "wire": wire, "plug": "nowhere", "gap": length(300), "piece": piece},
            {"kind": "cap", "wire": wire, "end": "FS7", "stub": length(30)},
            {"kind": "add", "wire": wire, "piece": piece, "from_": "F3", "to": "L1", "cut": length(500)},
            {"kind": "tap", "wire": wire, "end": end, "onto": "W99"},
            {"kind": "join", "ends": (f"{wire} at FS7", f"{wire} at {end}")},
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


def _joined(row: Change) -> tuple[str, ...]:
    return tuple(row.ends) if row.kind == "join" else ()


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
    car = naive.donor(job)
    ends = [end for edge in car.edges for end in (edge.a, edge.b)]
    checks["splice of four and more"] = any(ends.count(name) >= 4 for name in job.splices)
    checks["plug in line"] = any(end.startswith("bulkhead.") for end in ends) or any(edge.via for edge in car.edges)
    checks["unknown length"] = any(edge.length is None for edge in car.edges)
    checks["shared ring"] = any(row.ring is not None and row.ring.shared_with for row in rows)
    return found | {name for name, holds in checks.items() if holds}

"""Random rows of each kind, chosen so that they can be done on the harness as it is."""

from __future__ import annotations

from typing import Any

from aswired.text.one_line import Cover, Fate, JointMethod, Offcut, Piece, Ring
from aswired.text.units import Length, Quantity
from properties import naive
from properties.chance import COLOURS, FORMS, PLUGS, SIZES, Chance, length
from properties.naive_acts import is_on_a_part

Row = dict[str, Any]


class Rows(Chance):
    """One method a kind: `do_extend` and its like give the fields of a row, or None where none can be done."""

    def plain(self, *, only_one: bool = False, at: str = "") -> list[str]:
        """Wires in the car with two ends that nobody cut off; with `only_one`, of one stretch yet."""
        found = []
        unsure = {wire for (wire, _), strip in self.car.barrels.items() if strip is None}  # distances lose their start
        for wire in sorted(self.car.wires - unsure):
            ends = self.car.loose_ends(wire)
            in_car = len(ends) == 2 and not any(end in self.car.stubs or end in self.car.splices for end in ends)
            if in_car and not (only_one and len(self.car.of(wire)) > 1) and (not at or at in ends):
                found.append(wire)
        return found

    def hanging(self) -> list[str]:
        """Wires with one cut end, of which a stretch is left on the other."""
        unsure = {wire for (wire, _), strip in self.car.barrels.items() if strip is None}
        return [
            wire
            for wire in sorted(self.car.wires - unsure)
            if len(ends := self.car.loose_ends(wire)) == 2
            and sum(end in self.car.stubs for end in ends) == 1
            and not any(end in self.car.splices for end in ends)
        ]

    def ends_of(self, wire: str) -> list[str]:
        return self.car.loose_ends(wire)

    def reach(self, wire: str) -> float | None:
        """Length between the wire's ends, what lies in joints and barrels taken off."""
        return naive.total(self.car.effective(edge) for edge in self.car.of(wire))

    def cut_in(self, wire: str, end: str, low: int = 40) -> int | None:
        """A distance from the end that lies in its stretch; None when the stretch is too short."""
        edge = naive.edge_at(self.car, wire, end)
        known = edge.length if self.car.effective(edge) is None else self.car.effective(edge)
        most = 400 if known is None else min(int(known) - 40, 700)
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
            return {"wires": {wire: {self.typed(end): Fate("gone", "gone", None) for end in self.ends_of(wire)}}}
        if not some:
            return None
        wires = self.rnd.sample(some, min(len(some), self.pick((1, 1, 2))))
        if len(wires) == 1 and self.chance(30):
            row: Row = {"wire": wires[0], "ends": self._fates(wires[0])}
        else:
            row = {"wires": {wire: self._fates(wire) for wire in wires}}
        known = self.car.length(wires[0])
        if self.chance(15):
            row["spare"] = (self.pick(("F1", "F2", "F3")),)
        if len(wires) == 1 and known and known > 300 and self.chance(30):
            kept = Length("", self.pick((None, float(self.rnd.randint(50, int(known) - 200)))))
            row["reclaimed"] = {f"O{20 + len(self.rows)}": Offcut("", self.pick(COLOURS), self.pick(SIZES), kept)}
        return row

    def typed(self, end: str) -> str:
        """An end as people write it: one that is not known has two names."""
        return "unknown" if end.startswith("unknown ") and self.chance(50) else end

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
        pieces = tuple(wires) if self.chance(8) else {wire: self.piece() for wire in wires}  # nobody wrote which wire
        row: Row = {"plug": plug, "wires": pieces, **self.joint(), **self.sized()}
        row["pigtail"] = self.mm(20, most) if self.chance(85) else None
        return row | ({"stagger": length(stagger)} if self.chance(40) else {})

    @staticmethod
    def _plug_of(end: str) -> str:
        owner = end.rpartition(".")[0]
        return owner if owner.partition("-")[0] in PLUGS or owner == "bulkhead" else ""

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
        known = self.reach(wire)
        single = len(self.car.of(wire)) == 1
        if single and self.chance(40):
            tail = self.rnd.randint(30, 900) if known is None else int(known) - pigtail - self.pick((0, 30, 120))
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
        known = self.reach(wire)
        complete = usual.joint and usual.overlap and usual.slack and usual.ring_strip
        if self.chance(35) and known is not None and complete and len(self.car.of(wire)) == 1 and known > 500:
            row["new_reach"] = self.mm(200, int(known) - 250)
            if self.chance(50):  # what was really taken out beside what the lengths ask for
                row["take_out"] = self.mm(10, room // 2)
        else:
            if complete and self.chance(50):  # the same, beside halves that were measured to overlap
                row["gap"] = length(-self.rnd.randint(100, 300))
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
        if stubs and self.chance(80) and stubs[0] not in some:
            some[0] = stubs[0]
        wires = [choice.partition(" at ")[0] for choice in some if " at " in choice]
        wires += [self.car.at(choice)[0].wire for choice in some if " at " not in choice]
        if len(set(wires)) < len(wires):
            return None
        return {"ends": tuple(some), **self.joint()}

    def do_tap(self) -> Row | None:
        through = self.plain(only_one=True)
        if through and self.chance(35):
            self.fresh += 1
            lead: Row = {"wire": f"W{100 + self.fresh}", "to": self.pick(("L1", "G1", self.cavity())), **self.joint()}
            lead |= {"piece": self.piece()} if self.chance(80) else {}
            lead |= {"cut": self.mm(300, 900)} if self.chance(60) else {"reach": self.mm(300, 900)}
            return lead | self._onto(self.pick(through))
        wires = [wire for wire in self.plain() if len(through) > 1 or wire not in through]
        if not wires or not through:
            return None
        wire = self.pick(wires)
        through = [other for other in through if other != wire]
        if not through:
            return None
        end = self.typed(self.pick(self.ends_of(wire)))
        return {"wire": wire, "end": end, **self._onto(self.pick(through)), **self.joint()}

    def _onto(self, through: str) -> Row:
        """The wire that is tapped, mostly with the place."""
        row: Row = {"onto": through}
        known = self.reach(through)
        if self.chance(60) and (known is None or known > 120):
            row["from_"] = self.pick(self.ends_of(through))
            row["tail"] = self.mm(50, 500 if known is None else int(known) - 50)
        return row

    def _moved(self, wires: list[str], to: str, may_group: bool) -> Row | None:
        """A new end, with or without a piece."""
        if not wires:
            return None
        wire = self.pick(wires)
        ends = [end for end in self.ends_of(wire) if end in self.car.stubs] or self.ends_of(wire)
        row: Row = {"to": to, "end": self.typed(self.pick(ends))}
        if self.chance(35):
            return row | {"wire": wire}
        grouped = may_group and self.chance(25)
        row |= {"wires": {wire: self.piece()}} if grouped else {"wire": wire, "piece": self.piece()}
        row |= {**self.joint(), **self.sized()}
        known = self.reach(wire)
        if len(self.car.of(wire)) == 1 and self.chance(60):
            kept = self.rnd.randint(100, 500 if known is None else max(101, int(known) - 20))
            # a pigtail stays on a plug; now and then it is written of an end that is none
            stays = [end for end in self.ends_of(wire) if self.typed(end) != row["end"]]
            on_plug = all(is_on_a_part(self.car, end) for end in stays) or self.chance(10)
            row[self.pick(("pigtail", "tail")) if on_plug else "tail"] = length(kept)
            if self.chance(30):
                row.pop("gap", None)
                row["reach"] = length(kept + self.rnd.randint(200, 700))
        return row

    def do_ground(self) -> Row | None:
        fitted = [(ring.ground, ring.row) for ring in self.car.rings if ring.row]
        to, shared = self.pick(fitted) if fitted and self.chance(60) else (self.pick(("L1", "L1", "G2", "L2")), "")
        hanging = self.hanging()
        wires = hanging if hanging and self.chance(75) else self.plain()
        row = self._moved([wire for wire in wires if to not in self.ends_of(wire)], to, may_group=True)
        if row is None:
            return None
        return row | {"ring": Ring("", shared, "", None) if shared else Ring("new, M6", "", "M6", None)}

    def do_terminate(self) -> Row | None:
        to = self.pick((self.cavity(), self.cavity(), "F3"))
        row = self._moved([wire for wire in self.plain() if to not in self.ends_of(wire)], to, may_group=False)
        if row is None:
            return None
        row["into"] = row.pop("to")
        return row | {"terminal": "new"}

    def do_add(self) -> Row | None:
        self.fresh += 1
        joints = sorted({*self.car.splices, *self.car.stubs})
        joints += [row.id for row in self.rows if naive.resolved(self.car, row.id) in joints]  # the shorter form
        from_ = self.pick(joints) if joints and self.chance(50) else self.pick(("F3", self.cavity(), "battery+"))
        row: Row = {"wire": f"W{100 + self.fresh}", "piece": self.piece(), "from_": from_}
        row["to"] = self.pick(("L1", "G1", self.cavity(), "F1"))
        row |= {"cut": self.mm(300, 900)} if self.chance(60) else {"reach": self.mm(300, 900)}
        if self.chance(20):
            row.pop("piece")
        return row

    def do_reroute(self) -> Row | None:
        wires = sorted({edge.wire for edge in self.car.edges})
        wires = self.rnd.sample(wires, min(len(wires), self.pick((1, 1, 2))))
        by = tuple(self.rnd.sample(("hinge", "rail", "sill"), self.pick((1, 1, 2))))
        if not wires:
            return None
        return {"by": by, **({"wire": wires[0]} if len(wires) == 1 and self.chance(50) else {"wires": tuple(wires)})}

    def do_protect(self) -> Row | None:
        if self.chance(10):
            return {"relay": "K1", "feeds": "fan"}
        self.fresh += 1
        row: Row = {"fuse": self.pick(("F1", "F3", "F3", f"F{30 + self.fresh}"))}
        if self.chance(50):
            row["rating"] = Quantity("10 A", 10.0, "A")
        wires = self.plain()
        if not wires or self.chance(20):
            return row | ({"use": "spare"} if self.chance(50) else {})
        wire = self.pick(wires)
        end = self.pick(self.ends_of(wire))
        row |= {"wire": wire, "end": self.typed(end)}
        if self.chance(60):
            tail = self.cut_in(wire, end)
            if tail is None:
                return None
            row["fuse"] = f"F{30 + self.fresh}"
            return row | {"tail": length(tail) if self.chance(90) else Length("unknown", None)}
        sides = {row["fuse"], f"{row['fuse']}.feed"}
        if sides & set(self.ends_of(wire)):
            return None
        return row | ({"terminal": "new"} if self.chance(40) else {})

    def do_bridge(self) -> Row | None:
        held = sorted({end for wire in self.plain() for end in self.ends_of(wire) if self._plug_of(end)})
        places = [*sorted(self.car.stubs), *sorted(self.car.splices), *held]
        row: Row = {"interlock": "park or neutral", "decided_by": "AK"}
        if self.chance(30):
            free = self._for_join()
            owner = {end: end.partition(" at ")[0] if " at " in end else self.car.at(end)[0].wire for end in free}
            some = [end for end in free if list(owner.values()).count(owner[end]) == 1]
            return row | {"ends": tuple(self.rnd.sample(some, 2)), **self.joint()} if len(some) > 1 else None
        if len(places) < 2:
            return None
        row |= {"ends": tuple(self.rnd.sample(places, 2)), "piece": self.piece(), **self.joint()}
        if self.chance(30):
            self.fresh += 1
            row["wire"] = f"W{100 + self.fresh}"
        return row | ({"cut": self.mm(60, 300)} if self.chance(60) else {"reach": self.mm(60, 300)})

    def do_swap(self) -> Row | None:
        seats = [place for edge in self.car.edges for place in (edge.a, edge.b, edge.via)]
        plugs = sorted({self._plug_of(place) for place in seats} - {""})
        if not plugs:
            return None
        plug = self.pick(plugs)
        self.fresh += 1
        old = sorted({place.rpartition(".")[2] for place in seats if place.rpartition(".")[0] == plug})
        new = [str(number) for number in self.rnd.sample(range(1, len(old) + 3), len(old))]
        cavities = dict(zip(old, new, strict=True))
        if self.chance(10):
            cavities[self.pick(old)] = "unknown"
        if self.chance(10):
            cavities.pop(self.pick(old))  # where that wire went is not said: refused
        if self.chance(10):
            cavities["77"] = "78"  # no wire of the record sits there
        row: Row = {"plug": plug, "new_plug": f"{plug.partition('-')[0]}-{self.fresh}", "cavities": cavities}
        row["seen_from"] = self.pick(("wire side", "mating side", "unknown"))
        return row | ({"terminal": "new"} if self.chance(30) else {})

    def _earlier(self) -> tuple[str, ...]:
        names = [row.id for row in self.rows if self.status[row.id] == "in force" and row.only_if is None]
        return tuple(self.rnd.sample(names, min(len(names), 2)))

    def do_cover(self) -> Row | None:
        over = self._earlier()
        return {"over": over, "cover": Cover("cloth tape", False, False, True, None)} if over else None

    def do_verify(self) -> Row | None:
        proves = self._earlier()
        return {"proves": proves, "test": "drop"} if proves else None

    def do_label(self) -> Row | None:
        wires = sorted(self.car.wires)
        if not wires:
            return None
        some = self.rnd.sample(wires, min(len(wires), self.pick((1, 1, 2))))
        if self.chance(5):
            some.append("W99")  # which nobody listed: refused
        return {"wires": tuple(some), "where": "rail", "reads": "horn"}

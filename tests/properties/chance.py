"""What random jobs are made of: the choices themselves and the donor harness of a job."""

from __future__ import annotations

import datetime
import random
from dataclasses import dataclass, field
from typing import Any

from aswired.record import Change, FactorySplice, Fuse, GroundPoint, Job, Leg, Module, Option, Plug, Usual, Wire
from aswired.text.colours import Colour
from aswired.text.one_line import JointMethod, Offcut, Was
from aswired.text.units import Length, Size
from properties import naive

FIRST_DAY = datetime.date(2031, 5, 1)
KINDS = (
    "remove", "cap", "extend", "shorten", "join", "tap", "ground", "terminate", "add", "cover", "verify", "reroute",
    "protect", "bridge", "swap", "label",
)  # fmt: skip
FORMS = ("lap", "lap", "butt", "lineman", "closed-end", "clip")
# a loop, so that by: tells something; no part has a place on it, so that it gives no length
ROUTE = tuple(Leg(from_=a, to=b, length=None) for a, b in (("hinge", "rail"), ("rail", "sill"), ("sill", "hinge")))
PLUGS = ("lamp", "pump", "horn", "wiper")
COLOURS = tuple(Colour(code, code) for code in ("BK", "RD", "GN", "BU"))
SIZES = (Size("18 AWG", "AWG", 18.0), Size("1.5 mm2", "mm2", 1.5), Size("unknown", None, None))


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


class Chance:
    """A job in the making. `pick` and its like are the only places where chance comes in."""

    def __init__(self, rnd: random.Random) -> None:
        self.rnd = rnd
        self.rows: list[Change] = []
        self.fresh = 0
        self.donor = self._donor()
        self.job = self._job()
        self.car = naive.donor(self.job)
        self.status: dict[str, str] = {}

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
                donor.wires[name] = Wire(colour=was.colour, size=was.size, from_=from_, to=to, length=was.length)
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
            route=ROUTE,
            changes=tuple(self.rows),
        )

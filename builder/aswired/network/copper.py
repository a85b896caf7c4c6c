"""Resistance of what a current passes: conductors by their own size system, and the allowances of what joins them.

Every part has a band: what a sound one may have at least and at most, and what it has at worst, in the hottest place.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from aswired.car.harness import NodeKind, Stretch, View
from aswired.network.unmeasured import lines_to_write
from aswired.physics.allowances import BY_KEY, Allowance, fuse_allowance
from aswired.physics.conductor import (
    ASTM_B258,
    ISO_6722_1,
    SAE_J1128,
    Conductor,
    at_temperature,
    conductor,
    length_resistance,
)
from aswired.physics.figure import Input, Missing
from aswired.physics.steps import steps_thicker
from aswired.record import Job
from aswired.text.units import Quantity, Size, half_a_digit

NOT_COPPER = ("aluminium", "copper-clad aluminium")
STEPS_APART = 1.0  # between a size as printed in gauges and in square millimetres: they never meet exactly


@dataclass(frozen=True)
class Part:
    """One resistance on a path, as an input line of a figure, in milliohms; None = not recorded, `missing` says why.

    `low` and `high` are the band of a sound part at the job's temperature, `worst` is its high where it gets hottest.
    `at` is the node of a joint, a cavity or a ring; '' for what lies between two nodes. `times` is a wire's length.
    """

    name: str
    mohm: float | None
    source: str
    low: float = 0.0
    high: float = 0.0
    worst: float = 0.0
    at: str = ""
    missing: Missing | None = None
    times: str = ""

    @classmethod
    def lacks(cls, missing: Missing) -> Part:
        """A part of which nothing is known, and why."""
        return cls(missing.part, None, missing.said, missing=missing)

    def as_input(self, carries: str = "", worst: bool = False) -> Input:
        """The part as counted, or at its worst, with the current through it in words."""
        mohm = self.worst if worst and self.mohm is not None else self.mohm
        return Input(self.name, mohm, "mohm", self.source, times=self.times, carries=carries)


def temperature_c(job: Job) -> float:
    """Conductor temperature of the figures: as stated, else 20 °C, the temperature of the tables themselves."""
    return job.temperature.value if job.temperature and job.temperature.value is not None else 20.0


def system_of(size: Size, job: Job) -> str:
    """The size system a size is read by. `AWG means` decides for gauges, ISO 6722-1 for square millimetres."""
    if size.system == "mm2":
        return ISO_6722_1
    return SAE_J1128 if job.awg_means == "SAE J1128" else ASTM_B258


def conductor_of(size: Size, job: Job) -> Conductor | None:
    """The conductor of a size at the job's temperature; None for a size that is not read or not in its table."""
    if size.number is None:
        return None
    number: float = int(size.number) if size.system == "AWG" else size.number
    try:
        return conductor(system_of(size, job), number, temp_c=temperature_c(job))
    except ValueError:
        return None


def steps_between(size: Size, other: Size, job: Job) -> float | None:
    """Steps of size by which the first is thicker; None for a size that was not read or stands in no table.

    Two gauges are counted by their numbers, everything else by its copper.
    """
    if size.number is None or other.number is None:
        return None
    if size.system == other.system == "AWG":
        return (other.number - size.number) / 2
    one, two = conductor_of(size, job), conductor_of(other, job)
    if one is None or two is None:
        return None
    return steps_thicker(one.area_mm2, two.area_mm2)


def is_copper(stretch: Stretch, job: Job) -> bool:
    """Whether figures of copper hold for a stretch; a conductor that is not recorded counts as copper."""
    return material_of(stretch, job) not in NOT_COPPER


def material_of(stretch: Stretch, job: Job) -> str:
    """What is recorded of the conductor of a stretch, of its own row or of its wire; '' for nothing."""
    row, wire = job.change(stretch.origin), job.wires.get(stretch.wire)
    return row.conductor if row is not None else wire.conductor if wire is not None else ""


def copper_of(stretch: Stretch, job: Job) -> Conductor | None:
    """The conductor of a stretch; None where its size is not read, and where it is said not to be of copper.

    Sizes stand for copper in every table here: nothing is computed with them for aluminium, clad or not.
    """
    return conductor_of(stretch.size, job) if is_copper(stretch, job) else None


def unread(stretch: Stretch, part: str, job: Job) -> Missing:
    """Why a stretch, called as stated, has no `copper_of`."""
    material = material_of(stretch, job)
    if material in NOT_COPPER:
        return Missing("", stretch.wire, part, f"its conductor is {material}, and only copper is computed")
    if stretch.size.known:
        return Missing("", stretch.wire, part, f"{stretch.size.text} is not in {system_of(stretch.size, job)}")
    return Missing("size", stretch.wire, part, "not read")


def wire_part(
    name: str,
    size: Size,
    length_mm: float | None,
    job: Job,
    hottest_c: float | None = None,
    wire: str = "",
    write: str = "",
) -> Part:
    """Resistance of a length of wire; `hottest_c` is how hot the hottest leg it runs through gets, where on record.

    `wire` is the name of a wire of the harness, `write` the line that would make its length known.
    """
    found = conductor_of(size, job)
    if found is None and not size.known:
        return Part.lacks(Missing("size", wire, name, size.text))
    if found is None:
        return Part.lacks(Missing("", wire, name, f"{size.text} is not in {system_of(size, job)}"))
    if length_mm is None:
        return Part.lacks(Missing("length", wire, name, write=write))
    if length_mm < 0:
        return Part.lacks(Missing("", wire, name, "shorter than what its joints take up"))
    mohm = length_resistance(found.resistance_mohm_per_m, length_mm)
    at_c = temperature_c(job)
    part = job.limits_in_force["band of wire"].value / 100
    warmer = max(1.0, at_temperature(1.0, hottest_c) / at_temperature(1.0, at_c)) if hottest_c is not None else 1.0
    return Part(
        name,
        mohm,
        f"{size.text} ({found.source}; {found.mark}) {found.resistance_mohm_per_m:.2f} mohm/m at {at_c:g} °C",
        mohm * (1 - part),
        mohm * (1 + part),
        mohm * (1 + part) * warmer,
        times=f"{length_mm:.0f} mm",
    )


def stretch_parts(
    stretch: Stretch, view: View, job: Job, hottest_c: float | None = None, pairs: Collection[str] = ()
) -> tuple[Part, ...]:
    """A stretch and the allowances at its ends: half a joint or a passed cavity, a whole ring or last cavity.

    `pairs` are the cavities whose contact is a part of its own, since wires meet in one half of it.
    """
    if not is_copper(stretch, job):
        parts = [Part.lacks(unread(stretch, stretch.name, job))]
    else:
        write = lines_to_write(stretch, view, job) if stretch.effective_mm is None else ""
        parts = [wire_part(stretch.name, stretch.size, stretch.effective_mm, job, hottest_c, stretch.wire, write)]
    for end in stretch.ends:
        node = view.nodes[end]
        if node.kind in (NodeKind.JOINT, NodeKind.SPLICE):
            parts.append(_allowed(f"half the joint {end}", "joint", job, 0.5, end))
        elif node.kind in (NodeKind.CAVITY, NodeKind.MODULE) and end not in pairs:
            whole = 0.5 if len(view.at_node[end]) > 1 else 1.0  # two stretches share one mated pair
            parts.append(cavity_part(end, job, whole))
        elif node.kind is NodeKind.GROUND:
            parts.append(_allowed(f"ring on {end}", "ring", job, at=end))
    if stretch.via:
        parts.append(cavity_part(stretch.via, job))
    return tuple(parts)


def cavity_part(cavity: str, job: Job, share: float = 1.0) -> Part:
    """One mated pair of terminals, or the share of it that falls to a wire."""
    return _allowed(f"cavity {cavity}", "cavity", job, share, cavity)


def switch_part(name: str, job: Job) -> Part:
    """A closed switch or relay contact: as measured, else its allowance."""
    switch = job.switches[name]
    if switch.resistance is not None and switch.resistance.value is not None:
        mohm, half = switch.resistance.value, half_a_digit(switch.resistance.text) * 1000
        return measured_part(f"switch {name}", mohm, f"measured: {switch.resistance.text}", mohm - half, mohm + half)
    return _allowed(f"switch {name}", "contact" if switch.worked_by else "switch", job)


def fuse_part(name: str, rating: Quantity | None, job: Job) -> Part:
    """A fuse in its holder: as the job allows for it, else by its rating."""
    stated = job.usual.fuse_resistance
    if stated is not None and stated.value is not None:
        return _stated(f"fuse {name}", stated, "fuse", job, 1.0)
    found = fuse_allowance(rating.value if rating is not None else None)
    if found is None:
        return Part.lacks(Missing("its rating", part=f"fuse {name}", state="is not recorded"))
    return _of(f"fuse {name}", found, 1.0)


def measured_part(name: str, mohm: float, source: str, least_mohm: float, most_mohm: float) -> Part:
    """What a meter showed: within its last digit, and a twentieth at least."""
    low, high = min(least_mohm, mohm * 0.95), max(most_mohm, mohm * 1.05)
    return Part(name, mohm, source, max(0.0, low), high, high)


def _allowed(name: str, key: str, job: Job, share: float = 1.0, at: str = "") -> Part:
    stated: Quantity | None = getattr(job.usual, f"{key}_resistance")
    if stated is not None and stated.value is not None:
        return _stated(name, stated, key, job, share, at)
    return _of(name, BY_KEY[key], share, at)


def _stated(name: str, stated: Quantity, key: str, job: Job, share: float, at: str = "") -> Part:
    mohm, part = (stated.value or 0.0) * share, job.limits_in_force["band of allowances"].value / 100
    high = mohm * (1 + part)
    return Part(name, mohm, f"allowance, usual: {key} resistance {stated.text}", mohm * (1 - part), high, high, at)


def _of(name: str, line: Allowance, share: float, at: str = "") -> Part:
    source = f"allowance {line.mohm:g} mohm for {line.what} ({', '.join(filter(None, (line.source, line.mark)))})"
    high = line.high_mohm * share
    return Part(name, line.mohm * share, source, line.low_mohm * share, high, high, at)


def cable_parts(ground: str, job: Job, view: View, hottest_c: float | None = None) -> tuple[Part, ...]:
    """The cable from a ground point back towards the battery, and its ring on each stud that it lies on.

    A battery post has no allowance, for a cable as for a wire.
    """
    point = job.grounds[ground]
    name = f"cable {ground} to {point.back_to}"
    if point.cable is None:
        cable = Part.lacks(Missing("cable size", part=name))
    else:
        cable = wire_part(name, point.cable, point.cable_length.mm if point.cable_length else None, job, hottest_c)
    return (cable, *(part for end in (ground, point.back_to) for part in _end_of_cable(end, job, view)))


def _end_of_cable(end: str, job: Job, view: View) -> Iterable[Part]:
    node = view.nodes.get(end)
    if end in job.grounds or (node is not None and node.kind is NodeKind.GROUND):
        yield _allowed(f"cable ring on {end}", "ring", job, at=end)
    elif node is not None and node.kind is NodeKind.MODULE:
        yield cavity_part(end, job)


def total_mohm(parts: tuple[Part, ...]) -> float | None:
    """Sum of resistances in series; None as soon as one is not recorded."""
    found = [part.mohm for part in parts if part.mohm is not None]
    return sum(found) if len(found) == len(parts) else None

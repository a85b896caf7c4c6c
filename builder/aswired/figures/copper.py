"""Resistance of what a current passes: conductors by their own size system, and the allowances the job states."""

from __future__ import annotations

from dataclasses import dataclass

from aswired.compute.conductor import ASTM_B258, ISO_6722_1, SAE_J1128, Conductor, conductor, length_resistance
from aswired.figure import Input
from aswired.harness import NodeKind, Stretch, View
from aswired.model import Job
from aswired.units import Quantity, Size


@dataclass(frozen=True)
class Part:
    """One resistance on a path: its figure as an input line, in milliohms; None = not recorded."""

    name: str
    mohm: float | None
    source: str

    def as_input(self) -> Input:
        return Input(self.name, self.mohm, "mohm", self.source)


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


def wire_part(name: str, size: Size, length_mm: float | None, job: Job) -> Part:
    """Resistance of a length of wire."""
    found = conductor_of(size, job)
    if found is None:
        return Part(
            name, None, f"size {size.text}" if not size.known else f"{size.text} is not in {system_of(size, job)}"
        )
    if length_mm is None:
        return Part(name, None, "length not recorded")
    if length_mm < 0:
        return Part(name, None, "shorter than what its joints take up")
    mohm = length_resistance(found.resistance_mohm_per_m, length_mm)
    heat = f" at {temperature_c(job):g} °C"
    return Part(
        name, mohm, f"{size.text} ({found.source}) {found.resistance_mohm_per_m:.2f} mohm/m{heat} x {length_mm:.0f} mm"
    )


def stretch_parts(stretch: Stretch, view: View, job: Job) -> tuple[Part, ...]:
    """A stretch and the allowances at its ends: half a joint or a passed cavity, a whole ring or last cavity."""
    parts = [wire_part(stretch.name, stretch.size, stretch.effective_mm, job)]
    usual = job.usual
    for end in stretch.ends:
        node = view.nodes[end]
        if node.kind in (NodeKind.JOINT, NodeKind.SPLICE):
            parts += _allowance(f"half the joint {end}", usual.joint_resistance, 0.5, "joint resistance")
        elif node.kind in (NodeKind.CAVITY, NodeKind.MODULE):
            whole = 0.5 if len(view.at_node[end]) > 1 else 1.0  # two stretches share one mated pair
            parts += _allowance(f"cavity {end}", usual.cavity_resistance, whole, "cavity resistance")
        elif node.kind is NodeKind.GROUND:
            parts += _allowance(f"ring on {end}", usual.ring_resistance, 1.0, "ring resistance")
    if stretch.via:
        parts += _allowance(f"cavity {stretch.via}", usual.cavity_resistance, 1.0, "cavity resistance")
    return tuple(parts)


def _allowance(name: str, stated: Quantity | None, share: float, key: str) -> list[Part]:
    """A stated allowance; nothing where the job states none (M14)."""
    if stated is None or stated.value is None:
        return []
    return [Part(name, stated.value * share, f"allowance, usual: {key} {stated.text}")]


def fuse_part(name: str, job: Job) -> tuple[Part, ...]:
    """The allowance of one fuse in its holder."""
    return tuple(_allowance(f"fuse {name}", job.usual.fuse_resistance, 1.0, "fuse resistance"))


def cable_part(ground: str, job: Job) -> Part:
    """The cable from a ground point back towards the battery."""
    point = job.grounds[ground]
    name = f"cable {ground} to {point.back_to}"
    if point.cable is None:
        return Part(name, None, "cable size not recorded")
    return wire_part(name, point.cable, point.cable_length.mm if point.cable_length else None, job)


def total_mohm(parts: tuple[Part, ...]) -> float | None:
    """Sum of resistances in series; None as soon as one is not recorded."""
    found = [part.mohm for part in parts if part.mohm is not None]
    return sum(found) if len(found) == len(parts) else None

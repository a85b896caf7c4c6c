"""The facts of a job as its files say them: frozen records, each key declared once with its form and its help.

Nothing is worked out here. What the car became is in `car`, what follows from it in `figures` and `checks`.
Ends are text (`siren-plug.1`, `FS4`, `F7`, `L1`, `battery-`); which thing an end sits in is told by `harness`.
"""

from aswired.record.car import (
    LOAD_CLASSES,
    SPECIAL,
    BodyStrap,
    FactorySplice,
    Fuse,
    GroundPoint,
    Hole,
    Leg,
    Load,
    Module,
    Plug,
    Source,
    Switch,
    Wire,
)
from aswired.record.house import Loom, Option, Systems, Usual, usual_line
from aswired.record.job import Job, Shop
from aswired.record.rows import Accepted, Change
from aswired.record.shots import Mark, MeterReading, Photo, Service

__all__ = [
    "LOAD_CLASSES", "SPECIAL", "Accepted", "BodyStrap", "Change", "FactorySplice", "Fuse", "GroundPoint", "Hole", "Job",
    "Leg", "Load", "Loom", "Mark", "MeterReading", "Module", "Option", "Photo", "Plug", "Service", "Shop", "Source",
    "Switch", "Systems", "Usual", "Wire", "usual_line",
]  # fmt: skip

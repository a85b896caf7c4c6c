"""Where a thing is, in the words of the record: splices by tape measure, the rest as declared."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from aswired.worked import Worked

Places = Callable[[str], str]
UNTOLD = "not recorded"


def places_of_nodes(worked: Worked) -> Places:
    """A function from the name of a node or part to its place in words; '' when none is recorded."""
    job = worked.job
    found: dict[str, str] = {}

    def declare(places: Mapping[str, str]) -> None:
        found.update({name: place for name, place in places.items() if place and place != UNTOLD})

    declare({name: plug.place for name, plug in job.plugs.items()})
    declare({name: module.place for name, module in job.modules.items()})
    declare({name: splice.place for name, splice in job.splices.items()})
    declare({name: fuse.in_ for name, fuse in job.fuses.items()})
    declare({name: switch.place for name, switch in job.switches.items()})
    declare({name: point.place for name, point in job.grounds.items()})
    declare({placed.joint.id: placed.place for placed in worked.joints})

    def where(name: str) -> str:
        place = found.get(name) or found.get(name.rpartition(".")[0], "")
        return f"{place}, {job.landmarks[place]}" if job.landmarks.get(place) else place

    return where

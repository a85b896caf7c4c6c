"""Where a thing is, in the words of the record: splices by tape measure, the rest as declared."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from aswired.figures.worked import JobResult
from aswired.text.units import is_unknown
from aswired.text.unsaid import NOT_RECORDED

Places = Callable[[str], str]


def places_of_nodes(worked: JobResult) -> Places:
    """A function from the name of a node or part to its place in words; '' when none is recorded."""
    job = worked.job
    found: dict[str, str] = {}

    def declare(places: Mapping[str, str]) -> None:
        found.update({name: place for name, place in places.items() if place and not is_unknown(place)})

    declare({name: plug.place for name, plug in job.plugs.items()})
    declare({name: module.place for name, module in job.modules.items()})
    declare({name: splice.place for name, splice in job.splices.items()})
    declare({name: fuse.facts.in_ for name, fuse in worked.shown.fuses.items()})
    declare({name: switch.place for name, switch in job.switches.items()})
    declare({name: point.place for name, point in job.grounds.items()})
    declare({placed.joint.id: placed.place for placed in worked.joints})
    for old, new in worked.shown.replaced.items():  # a connector that took another's place is where that one was
        found.setdefault(new.partition(".")[0], found.get(old.partition(".")[0], ""))

    def where(name: str) -> str:
        return landmark_words(found.get(name) or found.get(name.rpartition(".")[0], ""), job.landmarks)

    return where


def told(place: str) -> str:
    """A place as written; 'not recorded' when none is written or it is said to be unknown."""
    return NOT_RECORDED if not place or is_unknown(place) else place


def landmark_words(place: str, landmarks: Mapping[str, str]) -> str:
    """A place that is a landmark with the landmark's words behind it, unless they begin with its name.

    >>> landmark_words("lug", {"lug": "M6 stud, left rail"}), landmark_words("fuse-box", {"fuse-box": "fuse box, dash"})
    ('lug, M6 stud, left rail', 'fuse box, dash')
    """
    words = landmarks.get(place, "")
    if not words:
        return place
    return words if words.casefold().startswith(place.casefold().replace("-", " ")) else f"{place}, {words}"

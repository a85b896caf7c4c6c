"""What a reader is told does not hang on how the same car is written down, nor on what is only planned for it.

Which end of a wire, of a load or of a switch is written first says nothing, and where nothing is alike enough for the
first by file to count, neither does the order of the wires. All figures, steps, states and places are compared.
"""

from __future__ import annotations

import re
import textwrap
from pathlib import Path

import pytest
from tests.electric.test_grid import LINE
from tests.figures.test_bundle_details import TRUNK
from tests.figures.test_figures_backfeed import THREE
from tests.figures.test_figures_bundles import PLANNED
from tests.figures.test_figures_choices import RINGS
from tests.figures.test_figures_drops_along import PUSHED, WAY
from tests.figures.test_figures_protection import NOSE
from tests.figures.test_figures_ways_home import STAR
from tests.findings.jobs import proved, work

from aswired.figures.backfeed import Opened
from aswired.figures.tests import CircuitSteps, JobSteps
from aswired.figures.worked import JobResult

FROM_TO = re.compile(r"from: ([^,{}]+), to: ([^,{}]+?)(?=[,}])")
BETWEEN = re.compile(r"between: (\S+) ([^\s,{}]+)")
WIRES = re.compile(r"(?<=^wires:\n)(?:  W\d+: .*\n)+", re.MULTILINE)


def turned(text: str) -> str:
    """The job with the two ends of each wire, load and switch written the other way round."""
    wires = WIRES.search(text)
    assert wires is not None
    rest = BETWEEN.sub(r"between: \2 \1", text[wires.end() :])
    other = FROM_TO.sub(r"from: \2, to: \1", wires[0])
    assert len({*other.splitlines()} & {*wires[0].splitlines()}) == 0
    return BETWEEN.sub(r"between: \2 \1", text[: wires.start()]) + other + rest


def reordered(text: str) -> str:
    """The job with its wires from the last to the first."""
    return WIRES.sub(lambda found: "".join(reversed(found[0].splitlines(keepends=True))), text)


def to_the_millionth(value: object) -> object:
    return round(value, 6) if isinstance(value, float) else value


def steps(found: CircuitSteps) -> tuple[object, ...]:
    rung = [(t.span.red, t.span.black, t.span.suspects, t.close, t.unplug) for t in found.ohms]
    clear = [(t.at, t.close, t.unplug) for t in found.clear]
    powered = found.powered
    if powered is None:
        return rung, clear, found.start
    volts = [
        (t.kind, t.span.red, t.span.black, t.span.suspects, to_the_millionth(t.low_v), to_the_millionth(t.high_v))
        for t in powered.volts
    ]
    beside = [(t.red, t.by_hand, t.key, t.on, to_the_millionth(t.most_v)) for t in powered.steps]
    clamp = powered.current and (powered.current.at, powered.current.others)
    return rung, clear, found.start, found.out, found.skipped, volts, clamp, beside, powered.with_it


def opened(found: Opened) -> tuple[object, ...]:
    over = [(o.load, o.effect, *map(to_the_millionth, (o.sound_v, o.open_v, o.part))) for o in found.over]
    carrying = sorted((c.name, c.start, c.end, c.by_copper, str(to_the_millionth(c.amps))) for c in found.carrying)
    return over, carrying, found.way, to_the_millionth(found.rise_v), found.wanting, found.perhaps


def of_now(worked: JobResult) -> dict[object, object]:
    """What is told of the car as it stands."""
    told: dict[object, object] = {}
    test_sheet: JobSteps = worked.steps
    for name, circuit in test_sheet.circuits.items():
        told["steps", name] = steps(circuit)
        told.update({figure.key: to_the_millionth(figure.value) for figure in circuit.figures})
    for name, point in worked.ground_states.opened.items():
        told.update({("opened", name, one.switched.short): opened(one) for one in point.opened})
    for name, states in worked.ground_states.carried.items():
        told["carried", name] = [(one.words, one.on, to_the_millionth(one.amps.value)) for one in states]
    for name, of_load in worked.circuit_figures.items():
        along = (*of_load.feed_elements, *of_load.return_elements)
        told["along", name] = [(e.name, e.kind, e.at, to_the_millionth(e.together_v)) for e in along]
        told.update({figure.key: (to_the_millionth(figure.value), figure.missing) for figure in of_load.figures})
    for ground in worked.grounds:
        told["point", ground.name] = ground.state, ground.loads, ground.behind, sorted(ground.lands)
        told["total and rise", ground.name] = [to_the_millionth(f.value) for f in (ground.total, ground.rise)]
    for fuse in worked.fuses:
        rating = fuse.fuse.rating if fuse.fuse is not None else None
        told["fuse", fuse.name] = rating, fuse.loads, fuse.ok, fuse.spare, fuse.feeders, fuse.dead_ends
        told.update({f.key: to_the_millionth(f.value) for f in fuse.figures if not f.key.endswith(".bundled")})
    return told


def of_the_plan(worked: JobResult) -> dict[object, object]:
    """What is told of its bundles and splices."""
    found = worked.bundles
    told: dict[object, object] = {figure.key: to_the_millionth(figure.value) for figure in found.figures}
    for one in found.stations:
        held = sorted(wire.wire for wire in one.wires)
        told["run", one.key] = one.start_mm, one.end_mm, held, sorted(one.perhaps), sorted(one.joints)
    told["staggers"] = [(one.leg, one.shifts, one.recuts, one.wants_mm) for one in found.staggers]
    told["joints"] = [(p.joint.id, p.place, p.leg, to_the_millionth(p.offset_mm), p.zone) for p in worked.joints]
    return told


def told(folder: Path, text: str) -> dict[object, object]:
    worked = work(folder, text)
    found = sorted((f.code, f.severity.word, f.entry) for f in worked.findings)
    return of_now(worked) | of_the_plan(worked) | {"findings": found}


@pytest.mark.parametrize(
    "text",
    [proved(LINE), STAR, NOSE, THREE, WAY, PLANNED, RINGS],
    ids=["line", "star", "nose", "three", "way", "planned", "rings"],
)
def test_neither_the_ends_nor_the_order_of_the_wires_change_what_is_told(text: str, tmp_path: Path) -> None:
    text = textwrap.dedent(text).lstrip("\n")
    assert told(tmp_path / "other", reordered(turned(text))) == told(tmp_path / "one", text)


@pytest.mark.parametrize("text", [proved(TRUNK), PUSHED], ids=["trunk", "pushed"])
def test_where_the_first_by_file_counts_the_ends_still_change_nothing(text: str, tmp_path: Path) -> None:
    text = textwrap.dedent(text).lstrip("\n")
    assert told(tmp_path / "other", turned(text)) == told(tmp_path / "one", text)


def test_the_network_is_gathered_into_the_same_runs_however_its_wires_are_written(tmp_path: Path) -> None:
    """Wires joined in a splice of two are one run, whichever of them is written first."""
    text = textwrap.dedent(proved(LINE)).lstrip("\n")

    def runs(folder: str, written: str) -> set[tuple[frozenset[str], frozenset[str]]]:
        grid = work(tmp_path / folder, written).network.grid
        return {(frozenset((run.a, run.b)), frozenset(branch.name for branch in run.branches)) for run in grid.runs}

    one = runs("one", text)
    assert (frozenset(("F1", "s.1")), frozenset(("W1 from F1 to FS1", "W2 from FS1 to s.1"))) in one
    assert (
        runs("turned", turned(text))
        == runs("reordered", reordered(text))
        == runs("both", reordered(turned(text)))
        == one
    )


def test_what_is_planned_changes_nothing_of_the_car_as_it_stands(tmp_path: Path) -> None:
    planned = (
        "{id: C2, kind: protect, fuse: F1, rating: 5 A}, "
        "{id: C3, kind: extend, wire: W3, plug: a, pigtail: 100 mm, gap: 2 m, piece: RD 0.5 mm2}, "
        "{id: C4, kind: ground, wire: W5, end: L1, to: L2, ring: new M6}, "
        "{id: C5, kind: remove, wire: W7, ends: {FS2: gone, c.1: gone}}, "
    )
    rows = "changes: [{id: C1"
    assert THREE.count(rows) == 1
    now = of_now(work(tmp_path / "now", THREE))
    assert of_now(work(tmp_path / "planned", THREE.replace(rows, f"changes: [{planned}{{id: C1"))) == now
    # twin: once they are made, each of them does
    made = planned.replace("}, {", ", made: 2031-05-03 AK}, {").replace("gone}}, ", "gone}, made: 2031-05-03 AK}, ")
    done = of_now(work(tmp_path / "made", THREE.replace(rows, f"changes: [{made}{{id: C1")))
    assert {key for key in now if now[key] != done.get(key)} >= {
        ("fuse", "F1"), "a.return.resistance", ("point", "L1"), ("steps", "c"),
    }  # fmt: skip

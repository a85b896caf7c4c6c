"""What happens if a ground point opens, in plain sentences: lost, dim, fed though it is off, and by what way."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from aswired.figures.backfeed import DEAD, DIMLY_BELOW, FED, LESS, LESS_BELOW, Opened, Over, PointOpened
from aswired.figures.ground_states import TOGETHER
from aswired.figures.ways_home import divided, grounds_of
from aswired.figures.worked import JobResult
from aswired.record import Job
from aswired.sheets.text import FigureText, amount, figure_text, listing
from aswired.sheets.ways import WayRow, overloads, way_rows

TURNS = ("motor", "pump", "fuel pump")
LAMPS = ("lamp", "indicator")
_KEPT = "kept"


@dataclass(frozen=True)
class Said:
    """Loads of which the same is said: 'glow at 5.1 V, the wrong way round'."""

    loads: tuple[str, ...]
    words: str


@dataclass(frozen=True)
class OpenedStateRow:
    """One state with a point open. `fed` are off in the sound car; `kept` are on and lose less than a tenth of their
    volts; `way` is the largest current's, in words, `ways` the wires of another way home that passes no load."""

    state: str
    short: str
    fed: tuple[Said, ...]
    less: tuple[Said, ...]
    dead: tuple[str, ...]
    kept: tuple[str, ...]
    way: str
    ways: tuple[WayRow, ...]
    rise: str  # of the opened point above battery negative; '' where nothing goes another way
    overloaded: str
    unknown: str
    most_v: float  # the most that is fed to a load that is off; -1 where that is not recorded
    figure: FigureText


@dataclass(frozen=True)
class IfOpened:
    """If a point opens. `lost` are dead whatever else is on; `no_way` are those of them that nothing joins to the
    battery any more, and that nothing feeds; `others` are the rest of what is behind the point.

    `quiet` are the states of which there is no row, each with what it does; `same_as` names a point whose opening does
    the same. `untold` are loads behind it whose states could not be worked out, with the reason; `note` is the whole in
    one line, for paper.
    """

    point: str
    lost: tuple[str, ...]
    no_way: tuple[str, ...]
    others: tuple[str, ...]
    rows: tuple[OpenedStateRow, ...]
    quiet: tuple[tuple[str, str], ...]
    untold: tuple[tuple[str, str], ...]
    same_as: str
    why: str
    told: tuple[str, ...]  # the whole in few words: `dead: horn, siren`

    @property
    def note(self) -> str:
        """The same in one line."""
        return "; ".join(self.told)


def if_opened(point: str, worked: JobResult) -> IfOpened:
    """What a page says of one ground point."""
    found = worked.ground_states.opened[point]
    lost = _lost(found)
    joined = _joined(found)
    here = dict.fromkeys(load for opened in found.opened for load in opened.here)
    rows = tuple(_row(opened, lost, worked) for opened in found.opened if not _is_quiet(opened, lost))
    return IfOpened(
        point=point,
        lost=lost,
        no_way=tuple(load for load in lost if load not in joined),
        others=tuple(load for load in here if load not in lost),
        rows=rows,
        quiet=tuple((opened.switched.words, _quietly(opened)) for opened in found.opened if _is_quiet(opened, lost)),
        untold=found.untold,
        same_as=found.as_point,
        why=found.why,
        told=_in_short(found, lost),
    )


def _lost(found: PointOpened) -> tuple[str, ...]:
    """Loads that are dead in every state in which they would be on."""
    does: dict[str, set[str]] = {}
    for opened in found.opened:
        for over in opened.over:
            if over.effect != FED:
                does.setdefault(over.load, set()).add(over.effect)
        affected = {over.load for over in opened.over}
        for load in opened.on:
            if load not in affected:
                does.setdefault(load, set()).add(_KEPT)
    return tuple(load for load, effects in does.items() if effects == {DEAD})


def _is_quiet(opened: Opened, lost: Sequence[str]) -> bool:
    """Whether a state does no more than that what is lost is dead."""
    dead = {over.load for over in opened.having(DEAD)}
    return not (opened.having(FED) or opened.having(LESS) or dead - {*lost} or {*opened.here} - dead)


def _quietly(opened: Opened) -> str:
    dead = [over.load for over in opened.having(DEAD)]
    certain = " for certain" if opened.perhaps else ""
    done = f"{listing(dead)} dead" if dead else f"nothing behind {opened.point} is on{certain}"
    more = f"; {listing(opened.perhaps)} is not recorded" if opened.perhaps else ""
    return f"{done}, and nothing that is off is fed{more}"


def _row(opened: Opened, lost: tuple[str, ...], worked: JobResult) -> OpenedStateRow:
    job = worked.job
    affected = {over.load for over in opened.over if over.effect != FED}
    return OpenedStateRow(
        state=opened.switched.words,
        short=opened.switched.short,
        fed=tuple(_groups(opened.having(FED), job)),
        less=tuple(_groups(opened.having(LESS), job)),
        dead=tuple(over.load for over in opened.having(DEAD)),
        kept=tuple(load for load in opened.here if load not in affected),
        way=_way(opened),
        ways=way_rows([one for one in opened.carrying if one.by_copper], job.units),
        rise=amount(opened.rise_v, "V") if opened.carrying else "",
        overloaded=overloads(opened.carrying),
        unknown=" ".join(_unknown(opened)),
        most_v=opened.figure.value if opened.figure.value is not None else -1.0,
        figure=figure_text(opened.figure, job.units),
    )


def _unknown(opened: Opened) -> Iterator[str]:
    if opened.wanting:
        yield f"Volts not recorded: {listing(map(str, opened.wanting))}."
    if opened.perhaps:
        yield f"More may be on: {listing(opened.perhaps)} is not recorded."


# ---- words ----------------------------------------------------------------------------------------------------------
def _groups(found: Sequence[Over], job: Job) -> Iterator[Said]:
    """Loads that do the same, with their volts from the least to the most."""
    together: dict[tuple[str, str, bool, bool], list[Over]] = {}
    for over in found:
        draws = job.loads[over.load].draws
        known = over.open_v is not None
        key = (_verb(over, job), _remark(over, job), over.backwards, known and draws is not None)
        together.setdefault(key, []).append(over)
    for (verb, remark, backwards, _), group in together.items():
        many = len(group) > 1
        words = _plural(verb) if many else verb
        yield Said(tuple(over.load for over in group), words + _volts(group) + (_WRONG if backwards else "") + remark)


_WRONG = ", the wrong way round"


def _verb(over: Over, job: Job) -> str:
    """What a load does, said of one: 'glows dimly'. The steps are those of the rule that the figure names."""
    load = job.loads[over.load]
    if over.open_v is None:
        return "is fed" if over.effect == FED else "may get less"
    if over.light is not None and over.part is not None:
        if over.part < DIMLY_BELOW:
            return "glows dimly"
        if over.effect == LESS:
            return "is dim"
        return "glows" if over.part < LESS_BELOW else "lights"
    if over.effect == FED and load.class_ in TURNS:
        return "may turn backwards" if over.backwards else "may turn"
    return "gets no more than" if over.effect == LESS else "is fed"


def _plural(verb: str) -> str:
    first, _, rest = verb.partition(" ")
    many = {"is": "are", "glows": "glow", "gets": "get", "lights": "light", "loses": "lose", "may": "may"}[first]
    return f"{many} {rest}".strip()


def _remark(over: Over, job: Job) -> str:
    light = job.loads[over.load].light
    if job.loads[over.load].class_ in LAMPS and light != "filament" and over.open_v is not None:
        return f" (light: {light}, counted as a resistance)"
    return ""


def _volts(group: Sequence[Over]) -> str:
    """Volts of a group: ' at 2.4 to 2.5 V', and what they had before where they were on."""
    now = [abs(over.open_v) for over in group if over.open_v is not None]
    if len(now) < len(group):
        return ", volts not recorded"
    was = [abs(over.sound_v) for over in group if over.sound_v is not None]
    before = f" in place of {_range(was)}" if group[0].effect == LESS and len(was) == len(group) else ""
    at = "" if group[0].light is None and group[0].effect == LESS else " at"
    return f"{at} {_range(now)}{before}"


def _range(volts: Sequence[float]) -> str:
    low, high = f"{min(volts):.1f}", f"{max(volts):.1f}"
    return f"{low} V" if low == high else f"{low} to {high} V"


def _way(opened: Opened) -> str:
    """The largest current's way in words, where it passes a load that is not its own or another ground point."""
    if len(opened.way) < 3:
        return ""
    wrong = {over.load for over in opened.over if over.backwards}
    first, *others, last = opened.way
    passed = [f"{name} (the wrong way round)" if kind == "load" and name in wrong else name for name, kind in others]
    return f"The largest part of the current goes from {first[0]} by {listing(passed)} to {last[0]}."


def _in_short(found: PointOpened, lost: tuple[str, ...]) -> tuple[str, ...]:
    """All that is dead, that gets less and that is fed, in any of the states."""
    if found.why:
        return (found.why,)
    said: list[str] = []
    joined = _joined(found)
    for words, loads in (
        ("dead", [load for load in lost if load not in joined]),
        ("dead whenever switched on", [load for load in lost if load in joined]),
    ):
        said += [f"{words}: {listing(loads)}"] if loads else []
    unread = [f"not worked out: {listing(f'{load} ({why})' for load, why in found.untold)}"] if found.untold else []
    if found.as_point:
        return (*said, f"as with {found.as_point} open", *unread)
    for opened in found.opened:
        if dead := [over.load for over in opened.having(DEAD) if over.load not in lost]:
            said.append(f"dead with {_briefly(opened)}: {listing(dead)}")
    here = dict.fromkeys(load for opened in found.opened for load in opened.here)
    less = {over.load for opened in found.opened for over in opened.having(LESS)}
    said += _each(found, LESS, min, "gets less", "may get less")
    kept = [load for load in here if load not in less and load not in _dead(found)]
    said += [f"by another way home: {listing(kept)}"] if kept else []
    said += _each(found, FED, max, "fed though off", "fed though off")
    said += ["nothing that is off is fed"] if here and not _fed(found) else []
    over = {one.name: one for opened in found.opened for one in opened.carrying if one.overloaded}
    said += [f"overloaded then: {listing(over)}"] if over else []
    return (*said, *unread)


def _joined(found: PointOpened) -> set[str]:
    """Loads that something still joins to the rest of the car in some state: they have another way, if a poor one."""
    return _fed(found) | {over.load for opened in found.opened for over in opened.having(DEAD) if not over.no_way}


def _fed(found: PointOpened) -> set[str]:
    return {over.load for opened in found.opened for over in opened.having(FED)}


def _dead(found: PointOpened) -> set[str]:
    return {over.load for opened in found.opened for over in opened.having(DEAD)}


def _briefly(opened: Opened) -> str:
    return "all on together" if opened.switched.words == TOGETHER else opened.switched.short


def _each(
    found: PointOpened, effect: str, of: Callable[[list[float]], float], words: str, unread: str
) -> Iterator[str]:
    """Every load with the least or the most of its volts in any state, then those of which they are not recorded."""
    volts: dict[str, list[float | None]] = {}
    states = [opened for opened in found.opened if opened.having(effect)]
    for opened in states:
        for over in opened.having(effect):
            volts.setdefault(over.load, []).append(None if over.open_v is None else abs(over.open_v))
    where = f"with {_briefly(states[0])}" if len(states) == 1 else "in some states"
    known = {load: [one for one in all_of if one is not None] for load, all_of in volts.items()}
    if told := [f"{load} {of(those):.1f} V" for load, those in known.items() if len(those) == len(volts[load])]:
        yield f"{words} {where}: {listing(told)}"
    if untold := [load for load, those in known.items() if len(those) < len(volts[load])]:
        yield f"{unread} {where}, volts not recorded: {listing(untold)}"


@dataclass(frozen=True)
class GroundOfLoad:
    """If the ground of one load opens, in one sentence."""

    ground: str
    words: str


def grounds_of_load(load: str, worked: JobResult) -> tuple[GroundOfLoad, ...]:
    """The same of every ground point by which a part of its current goes home, behind that of its traced way."""
    circuit, solved = worked.circuits[load], worked.ground_states
    if load not in worked.job.kept_loads:
        return ()
    names = grounds_of(load, circuit.ground, solved.transfer) if divided(load, solved.transfer) else (circuit.ground,)
    return tuple(told for name in names if (told := ground_of_load(load, worked, name)) is not None)


def ground_of_load(load: str, worked: JobResult, ground: str = "") -> GroundOfLoad | None:
    """What becomes of one load if a ground point opens, and what comes on with it; '' = the first on its traced way."""
    ground = ground or worked.circuits[load].ground
    if load not in worked.job.kept_loads or ground not in worked.ground_states.opened:
        return None
    found = worked.ground_states.opened[ground]
    if found.why:
        return GroundOfLoad(ground, found.why)
    for opened in found.opened:
        if load not in opened.switched.loads:
            continue
        own = [over for over in opened.over if over.load == load]
        words = "it still has its volts by another way"
        if own and own[0].effect == DEAD:
            words = "it is dead"
        elif own:
            words = f"it {next(_groups(own, worked.job)).words}"
        fed = [over.load for over in opened.having(FED)]
        beside = f", and {listing(fed)} {'are' if len(fed) > 1 else 'is'} fed though off" if fed else ""
        over = overloads(opened.carrying)
        return GroundOfLoad(ground, words + beside + (f"; too much for its wire: {over}" if over else ""))
    why = dict(found.untold).get(load, "")
    return GroundOfLoad(ground, f"not worked out for this load: {why}") if why else None

"""What happens if a ground point opens, in plain sentences: lost, dim, fed though it is off, and by what way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from aswired.electric.behaviour import Behaviour
from aswired.electric.transfer import Transfer
from aswired.figures.backfeed import DEAD, DIMLY_BELOW, FED, LESS, LESS_BELOW, Opened, Openings, Over, PointOpened
from aswired.figures.ground_states import Carried, behind, carried_in, switched_states
from aswired.model import Job
from aswired.views.latest import latest, network_of
from aswired.views.text import FigureText, figure_text, listing
from aswired.worked import Worked

TURNS = ("motor", "pump", "fuel pump")
LAMPS = ("lamp", "indicator")


@dataclass(frozen=True)
class Said:
    """Loads of which the same is said: 'glow at 5.1 V, the wrong way round'."""

    loads: tuple[str, ...]
    words: str


@dataclass(frozen=True)
class OpenRow:
    """One state with a point open. `fed` are off in the sound car; `way` is the largest current's, in words."""

    state: str
    short: str
    fed: tuple[Said, ...]
    less: tuple[Said, ...]
    dead: tuple[str, ...]
    way: str
    unknown: str
    most_v: float  # the most that is fed to a load that is off; -1 where that is not recorded
    figure: FigureText


@dataclass(frozen=True)
class IfOpened:
    """If a point opens. `lost` are dead whatever else is on; `same_as` names a point whose opening does the same.

    `untold` are loads behind it whose states could not be looked at; `note` is the whole in one line, for paper.
    """

    point: str
    lost: tuple[str, ...]
    rows: tuple[OpenRow, ...]
    untold: tuple[str, ...]
    same_as: str
    why: str
    note: str


@dataclass(frozen=True)
class GroundStates:
    """All that the page of grounds needs solved: the network, each point in each state, each point opened."""

    transfer: Transfer
    carried: dict[str, tuple[Carried, ...]]
    opened: dict[str, PointOpened]


@latest
def ground_states(worked: Worked) -> GroundStates:
    """The ground points of the shown view, solved."""
    job, transfer = worked.job, network_of(worked)
    known = job.supply is not None and job.supply.value is not None
    openings = Openings(transfer, Behaviour(transfer.grid, transfer.circuits) if known else None)
    carried = {}
    for ground in worked.grounds:
        loads = behind(ground.name, ground.loads, transfer)
        states = switched_states(loads, transfer.grid, transfer.circuits)
        carried[ground.name] = carried_in(ground.name, states, transfer, openings.needs) if loads else ()
    return GroundStates(transfer, carried, openings.points(worked.grounds))


def if_opened(point: str, worked: Worked) -> IfOpened:
    """What a page says of one ground point."""
    found = ground_states(worked).opened[point]
    lost = _lost(found)
    rows = tuple(row for opened in found.opened if (row := _row(opened, lost, worked)) is not None)
    return IfOpened(point, lost, rows, found.untold, found.as_point, found.why, _note(found, lost, rows))


def _lost(found: PointOpened) -> tuple[str, ...]:
    """Loads that are dead in every state in which they would be on."""
    does: dict[str, set[str]] = {}
    for opened in found.opened:
        for over in opened.over:
            if over.effect != FED:
                does.setdefault(over.load, set()).add(over.effect)
    on = {load: {opened.switched.words for opened in found.opened if load in opened.switched.loads} for load in does}
    dead = {
        load: {opened.switched.words for opened in found.opened if any(_is_dead(over, load) for over in opened.over)}
        for load in does
    }
    return tuple(load for load, effects in does.items() if effects == {DEAD} and on[load] <= dead[load])


def _is_dead(over: Over, load: str) -> bool:
    return over.load == load and over.effect == DEAD


def _row(opened: Opened, lost: tuple[str, ...], worked: Worked) -> OpenRow | None:
    """A state in which more happens than that what is lost is dead."""
    job = worked.job
    fed, less = tuple(_groups(opened.having(FED), job)), tuple(_groups(opened.having(LESS), job))
    dead = tuple(over.load for over in opened.having(DEAD) if over.load not in lost)
    if not fed and not less and not dead:
        return None
    return OpenRow(
        state=opened.switched.words,
        short=opened.switched.short,
        fed=fed,
        less=less,
        dead=dead,
        way=_way(opened),
        unknown=f"Volts not recorded: {listing(opened.wanting)}." if opened.wanting else "",
        most_v=opened.figure.value if opened.figure.value is not None else -1.0,
        figure=figure_text(opened.figure, job.units),
    )


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
        return "is fed" if over.effect == FED else "loses a part"
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


def _note(found: PointOpened, lost: tuple[str, ...], rows: Sequence[OpenRow]) -> str:
    """The whole in one line: what is lost, and the state that feeds most to what is off."""
    said = [f"dead: {listing(lost)}"] if lost else []
    if found.as_point and rows:
        return "; ".join((*said, f"as with {found.as_point} open"))
    fed = [row for row in rows if row.fed]
    if fed:
        worst = max(fed, key=lambda row: row.most_v)
        said.append(f"with {worst.short} " + "; ".join(f"{listing(group.loads)} {group.words}" for group in worst.fed))
    elif rows:
        said.append("nothing that is off is fed")
    if found.why:
        said.append(found.why)
    return "; ".join(said)


@dataclass(frozen=True)
class GroundOfLoad:
    """If the ground of one load opens, in one sentence."""

    ground: str
    words: str


def ground_of_load(load: str, worked: Worked) -> GroundOfLoad | None:
    """What becomes of one load if the first ground point on its return opens, and what comes on with it."""
    circuit = worked.circuits[load]
    if load not in worked.job.kept or not circuit.ground or circuit.ground not in ground_states(worked).opened:
        return None
    found = ground_states(worked).opened[circuit.ground]
    if found.why:
        return GroundOfLoad(circuit.ground, found.why)
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
        return GroundOfLoad(circuit.ground, words + beside)
    return GroundOfLoad(circuit.ground, "not looked at, since what switches it on is not recorded")

"""The steps of one circuit as rows: what a meter shows, between which two points, and what is still sound."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.car.harness import BATTERY_NEGATIVE
from aswired.figures.before_power import LEAST_TO_GROUND_KOHM, ClearTest, OhmTest
from aswired.figures.misleading import Doubt, Lacks, Mislead
from aswired.figures.probes import Suspect, kind_of_point
from aswired.figures.tests import CircuitSteps, FuseOut
from aswired.figures.under_power import CurrentTest, Powered, StepTest, VoltTest
from aswired.figures.worked import JobResult
from aswired.physics.figure import Figure
from aswired.sheets.places import Places
from aswired.sheets.text import FigureText, Printed, amount, figure_text, listing, number, printed, unit_text
from aswired.text.unsaid import NOT_RECORDED

IN_MILLIVOLTS_V = 0.1  # a step whose band stays below this is told in millivolts
FED = "Feed, live"
FED_BAND = "as the battery"
ON_WITH_IT = "On with it"
_CLAMP = "the clamp that was taken off, not the post"
_SIDES = {"feed": "Feed", "return": "Return", "load": "At the load"}
_REFUSED = {
    "restraint": "It hangs on a restraint wire. No meter, no lamp and no step of these pages: leave it to people "
    "licensed for restraint systems.",
    "high voltage": "It hangs on a high-voltage wire. No meter, no lamp and no step of these pages: leave it to people "
    "trained and licensed for high voltage.",
}


@dataclass(frozen=True)
class Lead:
    """Where one lead goes: the point, what it is, where it is ('' = not recorded)."""

    id: str
    what: str
    where: str


@dataclass(frozen=True)
class Between:
    """Something between the two leads, and its place ('' = not recorded)."""

    id: str
    what: str
    where: str


@dataclass(frozen=True)
class StepRow:
    """One step. `band` is what is still sound, '' where there is none; `start` marks the first step on a dead circuit.

    `unknown` says what is not recorded; then nothing is expected. `only` says what else has to be so for the value,
    `misleads` where its reading shows less than it seems to.
    """

    what: str
    red: Lead
    black: Lead | None
    how: str
    expected: str
    band: str
    between: tuple[Between, ...] = ()
    unknown: str = ""
    start: bool = False
    only: str = ""
    misleads: tuple[str, ...] = ()


@dataclass(frozen=True)
class CircuitTests:
    """The steps of one load. `refused` stands in place of all of them; `why` in place of those with power on."""

    load: str
    refused: str
    before: tuple[StepRow, ...]
    state: tuple[tuple[str, str], ...]  # name and value of what has to be switched on
    why: str
    live: tuple[StepRow, ...]
    neighbours: tuple[StepRow, ...]
    alone: str  # said where no neighbour moves the ground side
    start: str  # where to begin on a dead circuit, in a sentence
    skipped: tuple[str, ...]
    figures: tuple[FigureText, ...]

    @property
    def misled(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """The steps whose reading may mislead, each sentence at the first step that it stands at."""
        told: dict[str, str] = {}
        for step in (*self.before, *self.live):
            for words in step.misleads:
                told.setdefault(words, step.what)
        steps = dict.fromkeys(told.values())
        return tuple((what, tuple(words for words, at in told.items() if at == what)) for what in steps)


# ---- one circuit ----------------------------------------------------------------------------------------------------
def rows_of(found: CircuitSteps, worked: JobResult, where: Places) -> CircuitTests:
    if found.barred:
        return CircuitTests(found.load, _REFUSED[found.barred], (), (), "", (), (), "", "", (), ())
    power = found.powered
    start = found.start.at if found.start is not None else ""
    live = [_volt_row(found.load, test, start, worked, where) for test in power.volts] if power else []
    if power and power.current is not None:
        live.append(_current_row(power.current, worked, where))
    if found.out is not None:
        live.append(_out_row(found.load, found.out, worked, where))
    on_record = power is not None and power.needs is not None
    moved = tuple(_neighbour_row(step, worked, where) for step in power.steps) if power else ()
    return CircuitTests(
        load=found.load,
        refused="",
        before=(
            *(_ohm_row(found.load, test, worked, where) for test in found.ohms),
            *(_clear_row(test, worked, where) for test in found.clear),
        ),
        state=tuple(_state(power, worked)) if power else (),
        why=power.why if power else "",
        live=tuple(live),
        neighbours=moved,
        alone="" if moved or not on_record else "No other load on record moves its ground side by a millivolt or more.",
        start=_start(found, worked),
        skipped=found.skipped,
        figures=tuple(figure_text(figure, worked.job.units) for figure in found.figures),
    )


def _lead_before_power(name: str, worked: JobResult, where: Places) -> Lead:
    """A point of one lead with the negative clamp off: the post then stands alone, and shows everything as open."""
    return Lead(name, _CLAMP, "") if name == BATTERY_NEGATIVE else lead(name, worked, where)


def lead(name: str, worked: JobResult, where: Places) -> Lead:
    """A point of one lead; of its place as much as tells it from others, the landmark's words left out."""
    part = name.partition(".")[0]
    place = where(name.removesuffix(".feed")).partition(",")[0]
    return Lead(name, _what(name, worked), "" if place.replace(" ", "-") in (name, part) else place)


def _what(name: str, worked: JobResult) -> str:
    return kind_of_point(name, worked.job, worked.shown)


def _between(suspects: Iterable[Suspect], where: Places) -> tuple[Between, ...]:
    return tuple(Between(suspect.name, suspect.what, where(suspect.name)) for suspect in suspects)


def unknown_words(figure: Figure) -> str:
    """What keeps a value from being known, each item with what is wrong with it; '' for a known one."""
    if figure.known:
        return ""
    return "; ".join(missing.told for missing in figure.missing) or NOT_RECORDED


def _range(low: float | None, high: float | None, unit: str) -> str:
    """A band with its unit once: `0.09 to 0.18 V`, `up to 52 mV`; with its sign where a meter shows one.

    >>> _range(0.094, 0.178, "V"), _range(0.0, 0.052, "V"), _range(3.7, 5.03, "A"), _range(-0.064, -0.004, "V")
    ('0.09 to 0.18 V', 'up to 52 mV', '3.7 to 5.0 A', '−64 to −4 mV')
    """
    if low is None or high is None:
        return ""
    if unit == "A" and high < 1:
        low, high, unit = low * 1000, high * 1000, "mA"
    least, most = number(low, unit), number(high, unit)
    if unit == "V" and _is_small(low, high):
        least, most, unit = _whole(low * 1000), _whole(high * 1000), "mV"
    nothing = not least.strip("0.")
    return f"up to {most} {unit_text(unit)}" if nothing else f"{least} to {most} {unit_text(unit)}"


def _volts(volts: float | None, low: float | None, high: float | None) -> str:
    """Volts in the unit of their band; below 10 mV with a tenth.

    >>> _volts(0.0168, 0.0, 0.047), _volts(0.0034, 0.0, 0.033), _volts(0.106, 0.08, 0.143)
    ('17 mV', '3.4 mV', '0.11 V')
    """
    if volts is None or low is None or high is None or not _is_small(low, high):
        return amount(volts, "V")
    return f"{_whole(volts * 1000) if abs(volts) >= 0.00995 else number(volts * 1000, 'mV')} mV"


def _is_small(low: float, high: float) -> bool:
    return max(abs(low), abs(high)) < IN_MILLIVOLTS_V


def _whole(millivolts: float) -> str:
    text = f"{abs(millivolts):.0f}"
    return f"−{text}" if millivolts < 0 and text != "0" else text


# ---- before power ---------------------------------------------------------------------------------------------------
def _ohm_row(load: str, test: OhmTest, worked: JobResult, where: Places) -> StepRow:
    span = test.span
    how = (
        f"close by hand: {listing(test.close)}" if test.close else "",
        f"unplug {listing(test.unplug)}" if test.unplug else "",
    )
    most = f"under {amount(test.most_ohm, 'ohm')}" if test.most_ohm is not None else ""
    return StepRow(
        what=f"{_SIDES[span.side]}, end to end",
        red=_lead_before_power(span.red, worked, where),
        black=_lead_before_power(span.black, worked, where),
        how="; ".join(filter(None, how)),
        expected=printed(test.own),
        band=most,
        between=_between(span.suspects, where),
        unknown=unknown_words(test.own),
        misleads=misled_words(worked.misleading.ohms(load, test), load),
    )


def _clear_row(test: ClearTest, worked: JobResult, where: Places) -> StepRow:
    module = test.at.partition(".")[0]
    unplug = (*([module] if module in worked.job.modules else []), *test.unplug)
    how = (
        f"close by hand: {listing(test.close)}" if test.close else "",
        f"unplug {listing(unplug)}" if unplug else "",
    )
    return StepRow(
        what="Feed, clear of ground",
        red=_lead_before_power(test.at, worked, where),
        black=_lead_before_power(BATTERY_NEGATIVE, worked, where),
        how="; ".join(filter(None, how)),
        expected="open",
        band=f"over {LEAST_TO_GROUND_KOHM} kΩ",
    )


# ---- with power on --------------------------------------------------------------------------------------------------
def _state(power: Powered, worked: JobResult) -> Iterable[tuple[str, str]]:
    needs, modules = power.needs, worked.job.modules
    if needs is None:
        return
    sources = worked.network.grid.sources
    untold = [node.removesuffix(".feed") for node in needs.sources if sources[node] == "unknown"]
    key = {"off": "any position"}.get(needs.key, needs.key)
    yield "Key", f"when {listing(untold)} is live is {NOT_RECORDED}" if untold else key
    if needs.by_hand:
        yield "By hand", listing(needs.by_hand)
    outs = [node for node in needs.sources if node.partition(".")[0] in modules]
    if outs:
        yield "Live", listing(f"{node} ({_puts_out(node, worked)}), counted at the supply" for node in outs)
    if needs.relays:
        yield "Closes with its coil", listing(needs.relays)
    if needs.assumed:
        yield "Taken as closed", listing(needs.assumed)
    if power.volts:
        yield ON_WITH_IT, listing(power.with_it, "nothing else on record")
    if not power.settles:
        yield "By the record", "its relay never comes to rest"
    elif power.comes_on is False:
        yield "By the record", "it does not come on in this state"


def _puts_out(node: str, worked: JobResult) -> str:
    part, _, cavity = node.partition(".")
    return worked.job.modules[part].out.get(cavity, "")


def _volt_row(load: str, test: VoltTest, start: str, worked: JobResult, where: Places) -> StepRow:
    span, found = test.span, worked.misleading.volts(load, test)
    what = {"fed": FED, "load": "Volts at the load"}.get(test.kind, _SIDES[span.side])
    band = FED_BAND if test.kind == "fed" else _range(test.low_v, test.high_v, "V")
    return StepRow(
        what=what,
        red=lead(span.red, worked, where),
        black=lead(span.black, worked, where),
        how="",
        expected=Printed(_volts(test.volts.value, test.low_v, test.high_v), test.volts.key),
        band=band if test.volts.known else "",
        between=_between(span.suspects, where),
        unknown=unknown_words(test.volts),
        start=bool(start) and test.kind != "fed" and span.red == start,
        only=_only(found),
        misleads=misled_words(found, load),
    )


def _current_row(test: CurrentTest, worked: JobResult, where: Places) -> StepRow:
    return StepRow(
        what="Current, by clamp",
        red=lead(test.at, worked, where),
        black=None,
        how=f"with {listing(test.others)}" if test.others else "",
        expected=printed(test.amps),
        band=_range(test.low_a, test.high_a, "A"),
        unknown=unknown_words(test.amps),
    )


def _out_row(load: str, out: FuseOut, worked: JobResult, where: Places) -> StepRow:
    found = worked.misleading.out(load, out)
    hidden = any(mislead.doubt is Doubt.CONTACT_BEHIND for mislead in found)
    stops = any(mislead.doubt is Doubt.MORE for mislead in found)
    dead = f"dead too: {listing(out.also_dead)}" if out.also_dead else "nothing else goes dead by the record"
    state = "" if hidden or stops else ": dead" if out.dead else ": may be live"
    return StepRow(
        what=f"{listing(out.fuses)} out{state}",
        red=lead(out.fuses[-1], worked, where),
        black=lead(BATTERY_NEGATIVE, worked, where),
        how=dead,
        expected="0 V" if out.dead else "may be live",
        band="",
        only=", ".join((*(["at the fuse alone"] if hidden else []), *(["by what is on record"] if stops else []))),
        misleads=(*_still_fed(out), *misled_words(found, load)),
    )


def _still_fed(out: FuseOut) -> Iterable[str]:
    """What may feed a place with its fuses out, and what of that is not recorded."""
    by = [*out.also_fed, *(f"the further source {name}" for name in out.further), *out.through]
    if by:
        yield f"May still be fed from {listing(by)}."
    if out.unlisted:
        yield f"What its module does with {listing(out.unlisted)} is not recorded: it may feed."
    if out.nowhere:
        yield f"Where the further source {listing(out.nowhere)} feeds in is not recorded: it may be here."


def _neighbour_row(step: StepTest, worked: JobResult, where: Places) -> StepRow:
    acts = (
        f"key to {step.key}" if step.key else "",
        f"close {listing(step.by_hand)}" if step.by_hand else "",
        f"make live {listing(f'{node} ({_puts_out(node, worked)})' for node in step.sources)}" if step.sources else "",
    )
    moved = step.moved.value
    moves = "" if moved is None else f"{'down' if moved < 0 else 'up'} by {_millivolts(moved)}"
    return StepRow(
        what=listing(step.on),
        red=lead(step.red, worked, where),
        black=lead(BATTERY_NEGATIVE, worked, where),
        how="; ".join(filter(None, acts)),
        expected=Printed(moves, step.moved.key),
        band=f"at most {_millivolts(step.most_v)}" if step.most_v is not None and step.most_v > 0 else "",
        unknown=unknown_words(step.moved),
    )


def _millivolts(volts: float) -> str:
    return f"{abs(volts) * 1000:.0f} mV"


# ---- what may mislead -----------------------------------------------------------------------------------------------
def _only(found: Iterable[Mislead]) -> str:
    """What a value with power on hangs on, beside the state that stands above."""
    contacts = [name for mislead in found if mislead.doubt is Doubt.CONTACT for name in mislead.names]
    return f"only if {listing(contacts)} is closed" if contacts else ""


def misled_words(found: Iterable[Mislead], load: str = "") -> tuple[str, ...]:
    """Each in one sentence."""
    return tuple(_SENTENCES[mislead.doubt].format(**_named(mislead, load)) for mislead in found)


def _named(mislead: Mislead, load: str) -> dict[str, str]:
    lacks = _LACKS[mislead.lacks].format(names=listing(mislead.names), coil=mislead.coil)
    return {"names": listing(mislead.names), "load": load, "lacks": lacks}


_LACKS = {  # the beginning of a sentence on a contact; of the body a sentence of its own
    Lacks.NOTHING: "",
    Lacks.COIL: "What closes {names} is not recorded",
    Lacks.COILS_WAY: "The way of {coil}, which closes {names}, is not recorded",
    Lacks.COILS_CURRENT: "The current of {coil}, which closes {names}, is not recorded",
    Lacks.STRAP: " The body's cable to battery- is not recorded.",
    Lacks.BODY: " Whether the body carries returns is not recorded.",
}
_SENTENCES = {
    Doubt.CONTACT: "{lacks}: live or dead here is not known, key on or off.",
    Doubt.CONTACT_BETWEEN: "{lacks}: with it open the meter shows battery volts here.",
    Doubt.CONTACT_BEHIND: "{lacks}: 0 V at the fuse does not show that {load} is dead.",
    Doubt.MORE: "The record stops at {names}: what else is joined there may still feed {load}.",
    Doubt.TWO_KEYS: "May be live with the key off: copper joins {names}, live in different positions of the key.",
    Doubt.BETWEEN_KEYS: "May be live with the key off, backwards through {names}: it lies between feeds of two "
    "positions of the key.",
    Doubt.HOME_BY_BODY: "Home from {names} by the body: a poor stud and a poor body cable read alike.{lacks}",
    Doubt.GROUND_OFF: "Home by the body: taking the ground {names} off does not make it dead.{lacks}",
    Doubt.ISOLATOR: "Black lead on the battery's minus post: with {names} open the body reads 0 V beside a live wire.",
}


def _start(found: CircuitSteps, worked: JobResult) -> str:
    """Where to begin when the circuit is dead, and what each answer says."""
    start = found.start
    if start is None or found.powered is None or found.powered.why:
        return ""
    at = f"{start.at}, {_what(start.at, worked)}, to battery-"
    if start.side == "feed":
        return f"{at}. Battery volts: all before it is whole, go on behind it. Nothing: it is open before."
    return f"{at}. Battery volts: the return is open behind it. Nothing: feed or load is open, go on before it."

"""What is said about a file that cannot be understood, and about a car: both are data here, printing is elsewhere."""

from __future__ import annotations

import difflib
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import IntEnum


@dataclass(frozen=True, order=True)
class Location:
    """A line of a job file. `file` is relative to the job folder, '/'-separated; `line` counts from 1 (0: the file)."""

    file: str
    line: int = 0
    text: str = field(default="", compare=False)

    def __str__(self) -> str:
        return f"{self.file}:{self.line}" if self.line else self.file


@dataclass(frozen=True)
class Fault:
    """A file fault: the text cannot be understood. It stops the build."""

    code: str
    at: Location
    problem: str
    mend: str
    entry: str = ""


class Severity(IntEnum):
    """Rank of a finding about the car; a smaller number is heavier."""

    STOP = 0
    ERROR = 1
    WARNING = 2
    NOTE = 3

    @property
    def word(self) -> str:
        return self.name.lower()


@dataclass(frozen=True)
class Finding:
    """A finding about the car, from recorded facts. It never stops a build."""

    code: str
    severity: Severity
    at: Location
    entry: str  # id of the row or thing it belongs to, e.g. C14
    problem: str
    mend: str
    accepted_by: str = ""
    accepted_why: str = ""
    never: bool = False  # nobody may let it stand, whatever else of its code stands at the same thing


RULES: dict[str, Rule] = {}  # every rule by its code, put in where it is made


class Rule:
    """What a check tells: its code with the ranks it can have, heaviest first. Called, it makes a finding."""

    def __init__(self, code: str, *ranks: Severity) -> None:
        if code in RULES:
            raise ValueError(f"{code} is a rule already: import it from where it stands")
        if not ranks or list(ranks) != sorted(set(ranks)):
            raise ValueError(f"{code} wants its ranks once each, heaviest first")
        self.code = code
        self.ranks = ranks
        RULES[code] = self

    def __call__(self, at: Location, entry: str, problem: str, mend: str, *, rank: Severity | None = None) -> Finding:
        """A finding of this code; of several ranks one has to be named."""
        if rank is None and len(self.ranks) > 1:
            raise ValueError(f"{self.code} has several ranks: name one")
        if rank is not None and rank not in self.ranks:
            raise ValueError(f"{self.code} has no rank {rank.word}")
        return Finding(self.code, self.ranks[0] if rank is None else rank, at, entry, problem, mend)


@dataclass(frozen=True)
class NotExamined:
    """Something the record does not say, counted apart from findings."""

    subject: str  # splices, loads, wires, cavities, ...
    entry: str
    what: str
    at: Location


class FaultList:
    """Collects the file faults of one run, so that all of them are told together."""

    def __init__(self) -> None:
        self._faults: list[Fault] = []

    def add(self, code: str, at: Location, problem: str, mend: str, entry: str = "") -> None:
        self._faults.append(Fault(code, at, problem, mend, entry))

    def __bool__(self) -> bool:
        return bool(self._faults)

    def sorted(self) -> tuple[Fault, ...]:
        """All faults in file order, then line order; a repeated fault is told once."""
        unique = dict.fromkeys(self._faults)
        return tuple(sorted(unique, key=lambda fault: (fault.at, fault.code, fault.problem)))


def near(name: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """Names that `name` may be a slip for, nearest first, then by alphabet (so that messages never waver).

    A name much further off than the nearest is left out: it would only make a person stop and think.

    >>> near("caped", ["capped", "taped", "uncapped"]), near("FS5", ["FS4", "FS9", "G2"])
    (('capped',), ('FS4', 'FS9'))
    """
    folded = name.casefold()
    choices = {known_name.casefold(): known_name for known_name in sorted(known)}
    found = difflib.get_close_matches(folded, sorted(choices), n=most, cutoff=0.6)
    likeness = {match: difflib.SequenceMatcher(None, match, folded).ratio() for match in found}
    found.sort(key=lambda match: (-likeness[match], match))
    return tuple(choices[match] for match in found if likeness[match] > likeness[found[0]] - 0.1)


def did_you_mean(name: str, known: Iterable[str], otherwise: str) -> str:
    """The mend line for a name that is not known: the near names, or `otherwise` when none is near."""
    found = near(name, known)
    if not found:
        return otherwise
    return "Did you mean " + " or ".join(found) + "?"


def visible(text: str, most: int = 400) -> str:
    """Text as it may stand in one line of a screen: a tab as an arrow, nothing unseen or that steers the terminal.

    >>> visible("\\tslack:\\x1b[31m 50 mm")
    '→slack:\N{REPLACEMENT CHARACTER}[31m 50 mm'
    """
    text = text[:most]
    if text.isprintable():
        return text
    text = text.replace("\t", "→").replace("\n", " ")
    return "".join("\N{REPLACEMENT CHARACTER}" if unicodedata.category(char) in _UNSEEN else char for char in text)


_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})  # categories of Unicode


def fault_text(fault: Fault) -> str:
    """One fault as the five parts a person reads: code and place, what is wrong, the line, how to mend it."""
    return _five_parts("fault", fault)


def finding_text(finding: Finding) -> str:
    """One finding in the same shape as a fault."""
    text = _five_parts(finding.severity.word, finding)
    if finding.accepted_by:
        text += "\n" + visible(f"  accepted by {finding.accepted_by}: {finding.accepted_why}")
    return text


def _five_parts(word: str, told: Fault | Finding) -> str:
    entry = f" ({told.entry})" if told.entry else ""
    lines = [f"{word} {told.code} {told.at}{entry}", f"  {told.problem}"]
    if told.at.line and told.at.text.strip():
        lines.append(f"  {told.at.line} | {told.at.text}")
    lines.append(f"  mend: {told.mend}")
    return "\n".join(visible(line) for line in lines)

"""A job written twice into one book, the second time under other names and with its tables the other way round."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest
import yaml

from tests.findings.jobs import Case
from tests.findings.test_findings_each_code import CASES

Doc = dict[str, Any]

DEMOS = sorted(path.parent for path in (Path(__file__).parents[2] / "jobs").glob("*/job.yml"))
EACH_DEMO = [  # the truck stands for 64 cars, and takes longer than the two others
    pytest.param(folder, id=folder.name, marks=[pytest.mark.slow] * (folder.name == "trail-truck")) for folder in DEMOS
]

# Twenty times as fast, where the library was built with it.
LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
DUMPER = getattr(yaml, "CSafeDumper", yaml.SafeDumper)

MARK = "Q"  # stands before every name of the second copy; no job here has a name that begins with it
NAMED = (
    *("wires", "fuses", "sources", "splices", "grounds", "loads", "switches", "modules", "plugs", "landmarks"),
    "offcuts",
)
WITH_IDS = ("changes", "photos", "readings", "service")
# What the cars of one book have in common.
SHARED = (
    *("usual", "options", "limits", "systems", "private", "revisions", "colour letters", "looms", "notes"),
    "body strap",
)
SHARED_LISTS = ("donor colours", "battery off", "cautions")
# The keys whose words are the format's own or free text; a name that is spelled like one of them stays as it is there.
WORDS = {
    *("kind", "class", "light", "duty", "verdict", "fed", "use", "joint", "cover", "colour", "size", "made"),
    *("sealed", "tested", "only if", "for", "special", "stage", "terminal", "read", "draws", "length", "says", "what"),
    *("carries", "interlock", "AWG means", "engine strap", "body returns", "conducts", "caption", "circuit"),
    "behind",
}
ENDS = {
    *("from", "to", "via", "between", "end", "ends", "into", "red", "black", "wire", "wires", "plug", "new plug"),
    *("fuse", "relay", "at", "shows", "of", "with", "loads on", "offcut", "offcuts", "rack"),
    *("fed from", "plus", "minus"),
}
WHOLE = {"wire", "wires", "fuse", "relay", "plug", "new plug", "worked by", "to", "into", "accepted"}
NO_NAMES = {"battery+", "battery-", "battery", "unknown", "loose", "open", "no", "yes", "mm", "in", "ft", "not", "a"}


def of_each_code(fits: Callable[[Case], bool], most: int = 1) -> list[Case]:
    """The first jobs of each finding that fit."""
    taken: Counter[str] = Counter()
    chosen = []
    for case in CASES:
        if taken[case.code] < most and fits(case):
            taken[case.code] += 1
            chosen.append(case)
    return chosen


def sampled(cases: Sequence[Case]) -> list[object]:
    """Every fifth job for the quick loop; the others are marked slow."""
    return [
        pytest.param(case, id=case.name, marks=[] if count % 5 == 0 else [pytest.mark.slow])
        for count, case in enumerate(cases)
    ]


def document(folder: Path) -> Doc:
    """All sections of a job folder, every value as the text that stands there."""
    found: Doc = {}
    for path in sorted(folder.glob("*.yml")):
        found |= parsed(path.read_text(encoding="utf-8"))
    return found


def parsed(text: str) -> Doc:
    """One file of a job, every value as the text that stands there."""
    # a cavity that was not read is written ".?", which the library takes for the start of a key
    read: Doc = yaml.load(text.replace(".?", ".nr"), Loader=LOADER)  # noqa: S506
    return read


def dumped(doc: Doc) -> str:
    """The file again."""
    return yaml.dump(doc, Dumper=DUMPER, sort_keys=False, allow_unicode=True, width=10_000)


def strings(value: object, key: str = "") -> Iterator[tuple[str, str]]:
    """Every text below a value with the key it stands under."""
    if isinstance(value, dict):
        for name, below in value.items():
            yield from strings(below, name)
    elif isinstance(value, list):
        for below in value:
            yield from strings(below, key)
    elif isinstance(value, str):
        yield key, value


def names(doc: Doc) -> set[str]:
    """What the job itself has given a name: listed, met as an end, or made by a row."""
    found: set[str] = set()
    for section in NAMED:
        found |= set(doc.get(section) or ())
    for section in WITH_IDS:
        found |= {row["id"] for row in doc.get(section) or () if "id" in row}
    for row in doc.get("changes") or ():
        for key in ("wires", "reclaimed"):
            if isinstance(row.get(key), dict):
                found |= set(row[key])
    for leg in doc.get("route") or ():
        found |= {leg.get("from", ""), leg.get("to", "")}
    for wire in (doc.get("wires") or {}).values():
        found |= {wire.get(side, "") for side in ("from", "to") if re.fullmatch(r"[A-Za-z][\w-]*", wire.get(side, ""))}
    for key, text in strings({name: doc.get(name) for name in (*NAMED, *WITH_IDS)}):
        if key in ENDS:
            found |= set(re.findall(r"([A-Za-z][\w-]*)\.[A-Za-z0-9]", text))
        if key in WHOLE and re.fullmatch(r"[A-Za-z][\w-]*", text):
            found.add(text)
    return {name for name in found if name not in NO_NAMES and re.search("[A-Za-z]", name)}


def before_each(name: str) -> str:
    return MARK


def renamed(doc: Doc, mark: Callable[[str], str] = before_each) -> Doc:
    """The same job with a mark before every name of its own."""
    own = sorted(names(doc), key=len, reverse=True)
    pattern = re.compile(r"(?<![\w.-])(" + "|".join(map(re.escape, own)) + r")(?![\w-])")
    rows = "|".join(re.escape(row["id"]) for row in doc.get("changes") or () if "id" in row)
    made = re.compile(rf"(?<![\w.-])(?:{rows})(?:-[\w.]+)+")  # a joint or a cut end: named by its row, wire and side

    def one(text: str) -> str:
        if rows:
            text = made.sub(lambda match: "-".join(pattern.sub(put, part) for part in match[0].split("-")), text)
        return pattern.sub(put, text) if own else text

    def put(match: re.Match[str]) -> str:
        return mark(match[1]) + match[1]

    def walk(value: object, key: str) -> object:
        if isinstance(value, dict):
            return {one(name): walk(below, name) for name, below in value.items()}
        if isinstance(value, list):
            return [walk(below, key) for below in value]
        return value if key in WORDS or not isinstance(value, str) else one(value)

    return {section: walk(value, section) for section, value in doc.items()}


def in_the_other_order(doc: Doc) -> Doc:
    """The same job with names that sort the other way round: the last one of it comes first."""
    last_first = sorted(names(doc), reverse=True)
    ranks = {name: divmod(rank, 26) for rank, name in enumerate(last_first)}
    return renamed(doc, lambda name: MARK + "".join(chr(ord("a") + digit) for digit in ranks[name]))


def in_this_order(text: str) -> str:
    """A key or a name of such a copy, as the job itself has it."""
    return re.sub(rf"(?<!\w){MARK}[a-z][a-z](?=[A-Za-z])", "", text)


def twice(doc: Doc, turned: bool = True) -> Doc:
    """Both copies in one job, the tables of the second below those of the first; `turned`, the other way round.

    Rows, photos and readings stay in their order, the copies in turn, so that the days of the work stay in order.
    """
    both = dict(doc)
    for section, copy in renamed(doc).items():
        if isinstance(copy, dict) and section not in SHARED:
            both[section] = {**doc[section], **dict(reversed(copy.items()) if turned else copy.items())}
        elif isinstance(copy, list) and section not in SHARED_LISTS:
            both[section] = [row for pair in zip(doc[section], copy, strict=True) for row in pair]
    return both


def unmarked(text: str) -> str:
    """A sentence, an entry or a key about the second copy, as it would read about the first."""
    return re.sub(rf"(?<!\w){MARK}(?=[A-Za-z])", "", text)


def mixed(text: str, own: set[str]) -> bool:
    """Whether a sentence names something of each copy. A name of small letters alone may be an ordinary word."""
    told = set(re.findall(r"[\w-]+", text))
    return unmarked(text) != text and bool(told & {name for name in own if not re.fullmatch("[a-z ]+", name)})


def numbered(text: str, own: set[str]) -> str:
    """A job text with the names of the second copy as those of the first and a nought behind: C10 beside C1."""
    return _each(own, MARK, "").sub(r"\g<1>0", text)


def marked(text: str, own: set[str]) -> str:
    """What is told of such a copy, with its names as `MARK` would make them."""
    return _each(own, "", "0").sub(rf"{MARK}\g<1>", text)


def _each(own: set[str], before: str, behind: str) -> re.Pattern[str]:
    among = "|".join(re.escape(name) for name in sorted(own, key=len, reverse=True))
    return re.compile(rf"(?<!\w){before}({among}){behind}(?!\w)")

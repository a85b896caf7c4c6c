"""What is told of a car does not hang on what else stands in the book: a second car, or the order of its lists.

Nothing is worked out by hand here. Every job of a finding and every demo job is written twice into one book, the second
time under other names: each copy says what it said alone, in its own names. A rule that takes the first of several, any
for all, or the greatest of the book for the greatest of the circuit, says something else. The battery posts are common
to both copies; they count nothing, so no current of one is felt in the other.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.text.diagnostics import Finding
from tests.findings.jobs import Case, work
from tests.findings.test_findings_each_code import CASES
from tests.properties.copies import (
    DEMOS,
    EACH_DEMO,
    Doc,
    document,
    dumped,
    marked,
    mixed,
    names,
    numbered,
    parsed,
    renamed,
    sampled,
    twice,
    unmarked,
)

# One finding for the whole book, which lists all that it is about.
OF_THE_BOOK = {"SPL07", "SPL09", "PHO05", "OPT02", "HDR01", "HDR02", "ROW09", "SPC08", "SPC10"}
# Codes that tell of a slip in a name or an id: the copy has the slip under the same name.
OF_A_SLIP = {"REF02", "REF03", "REF05", "ROW05", "RDG03", "PLC02", "PLC05", "LOD07", "REF06", "ROW02", "FUS06", "REF01"}
ONCE = {
    "FUS10 by a switch that is closed at rest": "joined between the two posts, which both copies share",
    "FUS10 by a switch that is open at rest": "joined between the two posts, which both copies share",
    "FUS11 body strap": "of the body's way to the battery, which both copies share",
    "REF04 source": "the end in no wire is likened to the nearest name in the book",
    "REF07 source": "the end in no wire is likened to the nearest name in the book",
    "REF04 fuse on bar.1": "the end in no wire is likened to the nearest name in the book",
    "OPT03 a row that cannot be so": "the ground in no table is likened to the nearest name in the book",
    "OPT03 more than 64": "of the options, which both copies share",
    "GND09 both sides": "left and right are told by the names of the lamps",
    "GND09 with indicators": "left and right are told by the names of the lamps",
    "PHO04": "the picture that cannot be shown is named to the test by its file",
    "OFF01": "the piece is cut from one length by both",
    "OFF02": "the piece that is on no rack has no name of its own",
    "SPL01 branch": "left and right, where the route ends, are words of the format",
    "SPC05 too long on one side of a fuse in it": "the fuse in no table is likened to the nearest name in the book",
    "SPC10 untouched": "one sentence for the whole book",
    "REL01 two that chase each other": "either of the two may be named",
    "LOD05 a row takes it over in the twin": "the load is named like a word of the format",
    "OPT01 no switch in its place": "the switch is named like a word of the format",
    "OPT01 nobody decided it": "the switch is named like a word of the format",
    "OPT01 not while it is planned": "the switch is named like a word of the format",
}
JOBS = [case for case in CASES if case.name not in ONCE and case.code not in OF_A_SLIP | OF_THE_BOOK]
NUMBERED = [case for case in JOBS if not names(parsed(case.text)) & {f"{name}0" for name in names(parsed(case.text))}]


def sentences(worked: JobResult) -> Counter[tuple[str, str, str, str, str]]:
    """Code, rank, entry, problem and mend of each finding that has an entry of its own."""
    return Counter((f.code, f.severity.word, f.entry, f.problem, f.mend) for f in worked.findings if own(f))


def own(finding: Finding) -> bool:
    """Not one for the whole book."""
    # what is called F1 is taken for a fuse, what is called QF1 is not
    return bool(finding.entry) and finding.code not in OF_THE_BOOK | {"REF01", "FUS06"}


def in_any_order(sentence: tuple[str, ...]) -> tuple[str, ...]:
    """A sentence as the words in it: of several names the order may follow the list."""
    return (*sentence[:3], *sorted(re.findall(r"[^\s,'():;]+", " ".join(sentence[3:]))))


def values(worked: JobResult) -> dict[str, float | None]:
    return {figure.key: figure.value for figure in worked.all_figures()}


def held_twice(alone: JobResult, both: JobResult, doc: Doc, back: Callable[[str], str] = str) -> int:
    """Each copy says what the job says alone. How many sentences and figures were compared.

    `back` gives the names of the second copy as `MARK` makes them.
    """
    told, first, second = sentences(alone), Counter[tuple[str, ...]](), Counter[tuple[str, ...]]()
    for written, count in sentences(both).items():
        sentence = tuple(map(back, written))
        assert not mixed(" ".join(sentence), names(doc)), sentence
        if sentence == (plain := tuple(map(unmarked, sentence))):
            first[sentence] += count
        else:
            second[in_any_order(plain)] += count
    assert first == told
    assert second == Counter({in_any_order(sentence): count for sentence, count in told.items()})
    figures, found = values(alone), {back(key): value for key, value in values(both).items()}
    mine = {key: value for key, value in found.items() if unmarked(key) == key}
    copies = {unmarked(key): value for key, value in found.items() if unmarked(key) != key}
    same(figures, mine)
    same(figures, copies)
    return 2 * len(told) + 2 * len(figures)


def same(one: Mapping[str, float | None], other: Mapping[str, float | None]) -> None:
    """Keys and values; sums taken in another order may differ in the last digits."""
    assert one.keys() == other.keys()
    pairs = {key: (one[key], other[key]) for key in one if one[key] != other[key]}
    assert {
        key: (a, b)
        for key, (a, b) in pairs.items()
        if a is None or b is None or not math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-9)
    } == {}


@pytest.mark.parametrize("case", sampled(JOBS))
def test_two_cars_in_one_book_say_what_each_says_alone(case: Case, tmp_path: Path) -> None:
    doc = parsed(case.text)
    alone = work(tmp_path / "alone", dumped(doc), case.today, case.photo_problems)
    both = work(tmp_path / "both", dumped(twice(doc)), case.today, case.photo_problems)
    assert held_twice(alone, both, doc)


@pytest.mark.parametrize("case", sampled(NUMBERED[::6]))
def test_a_car_whose_names_begin_like_those_of_the_other_is_another_car(case: Case, tmp_path: Path) -> None:
    # C10, W10 and lamp0 beside C1, W1 and lamp
    doc = parsed(case.text)
    own = names(doc)
    alone = work(tmp_path / "alone", dumped(doc), case.today, case.photo_problems)
    both = work(tmp_path / "both", numbered(dumped(twice(doc)), own), case.today, case.photo_problems)
    assert held_twice(alone, both, doc, lambda text: marked(text, own))


@pytest.mark.parametrize("folder", EACH_DEMO)
def test_two_demo_cars_in_one_book_say_what_each_says_alone(folder: Path, tmp_path: Path) -> None:
    doc = document(folder)
    alone, both = work(tmp_path / "alone", dumped(doc)), work(tmp_path / "both", dumped(twice(doc)))
    assert held_twice(alone, both, doc) > 200


def test_most_jobs_are_held_to_it_and_the_copy_has_names_of_its_own() -> None:
    assert len(JOBS) > 300
    assert len(DEMOS) == 3
    for case in JOBS:
        doc = parsed(case.text)
        assert names(doc)
        assert not names(doc) & names(renamed(doc)), case.name

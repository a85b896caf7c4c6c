"""What the search index holds stands on the page it leads to, in both editions; notes are indexed as they are shown."""

from __future__ import annotations

import dataclasses
import json
import re
from html.parser import HTMLParser
from itertools import accumulate

import pytest
from tests.site.filled import INDEX, demo, filled, outputs

from aswired.record import Job
from aswired.sheets.search import words_of

pytestmark = pytest.mark.slow  # whole builds

NOTES = """\
# Handover <!-- Ebbra asked not to tell -->

The **left** lamp, the `fuse-box` lid and [the splice list](changes.html#C14).
<!--
voskstrand hidden
-->
- *rattles* at 40 km/h
"""


class Shown(HTMLParser):
    """The texts of a page that a reader sees."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.silent = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.silent = tag if tag in ("script", "style") else self.silent

    def handle_endtag(self, tag: str) -> None:
        self.silent = "" if tag == self.silent else self.silent

    def handle_data(self, data: str) -> None:
        if not self.silent:
            self.texts.append(data)


def postings(outs: dict[str, bytes]) -> list[tuple[str, str, str]]:
    """Word, page, id of the row: everything that the index leads to."""
    text = outs[INDEX].decode().removeprefix("window.FIND=").removesuffix(";\n").replace("<\\/", "</")
    found = []
    for job in json.loads(text)["jobs"]:
        for word, steps in zip(job["words"].split(" "), job["hits"], strict=True):
            for row in accumulate(steps):
                page, _, id, _ = job["rows"][row]
                found.append((word, job["pages"][page][0], id))
    return found


def astray(outs: dict[str, bytes]) -> list[tuple[str, str, str]]:
    """Postings whose word is not on their page."""
    on_page = {uri: set(words_of(" ".join(Shown(page.decode()).texts))) for uri, page in outs.items() if uri != INDEX}
    return [posting for posting in postings(outs) if posting[0] not in on_page[posting[1]]]


def with_all_texts(job: Job) -> Job:
    count = iter(range(10_000))
    told: Job = filled(job, lambda path: f"zq{next(count)}x said-{next(count)} Größe’s 7 V/m")
    return dataclasses.replace(told, notes=NOTES)


@pytest.mark.parametrize("edition", ["shop", "owner"])
@pytest.mark.parametrize(
    "name",
    ["taken-over", *(pytest.param(name, marks=pytest.mark.slow) for name in ("flatbed", "trail-truck"))],
)  # fmt: skip
@pytest.mark.parametrize("full", [False, True], ids=["as written", "every text"])
def test_every_word_of_the_index_stands_on_the_page_it_leads_to(name: str, edition: str, full: bool) -> None:
    job = with_all_texts(demo(name)) if full else demo(name)
    outs = outputs(job, edition)
    assert len(postings(outs)) > 400
    assert not astray(outs)


def test_the_check_sees_a_word_that_stands_elsewhere() -> None:
    outs = outputs(demo("taken-over"), "shop")
    other = outs["jobs/taken-over/index.html"]
    word, uri, _ = next(
        found for found in postings(outs) if found[0].isalpha() and found[0] not in other.decode().lower()
    )
    outs[uri] = other
    assert word in {posting[0] for posting in astray(outs)}


def test_a_note_of_a_wire_is_told_with_the_connectors_and_nowhere_else() -> None:
    """The index leads a wire to another page, which does not show it."""
    job = demo("taken-over")
    name, wire = next(iter(job.wires.items()))
    job = dataclasses.replace(job, wires={**job.wires, name: dataclasses.replace(wire, note="voskstrand pulled it")})
    for edition in ("shop", "owner"):
        outs = outputs(job, edition)
        assert b"voskstrand" not in outs[INDEX]
        assert [uri for uri, page in outs.items() if b"voskstrand" in page] == ["jobs/taken-over/connectors.html"]


def test_colour_names_are_no_words_of_the_index() -> None:
    words = {word for word, _, _ in postings(outputs(demo("flatbed"), "shop"))}
    assert "gn/rd" in words
    assert not {"violet", "stripe", "green", "stripes"} & words


def test_notes_are_indexed_as_their_page_shows_them() -> None:
    job = dataclasses.replace(demo("taken-over"), notes=NOTES)
    told = {word for word, uri, id in postings(outputs(job, "shop")) if not id and uri.endswith("/index.html")}
    assert {"left", "lamp", "fuse-box", "splice", "rattles", "handover"} <= told
    assert not {"ebbra", "asked", "voskstrand", "hidden"} & told
    assert not [word for word in told if re.search(r"\*\*|`|\]\(|<!--|-->|#", word)]
    owners = {word for word, _, _ in postings(outputs(job, "owner"))}
    assert not {"rattles", "handover"} & owners


def test_a_batch_is_found_at_each_row_that_it_went_into() -> None:
    job = demo("taken-over")
    first, second, *rest = job.changes
    rows = (dataclasses.replace(first, batch=("sleeve 2107", "reel 9")), dataclasses.replace(second, batch=("reel 9",)))
    job = dataclasses.replace(job, changes=(*rows, *rest))
    for edition in ("shop", "owner"):
        found = {
            (word, uri, id) for word, uri, id in postings(outputs(job, edition)) if id in ("sleeve 2107", "reel 9")
        }
        assert ("2107", "jobs/taken-over/changes.html", "sleeve 2107") in found
        assert {first.id.lower(), second.id.lower()} <= {word for word, _, id in found if id == "reel 9"}

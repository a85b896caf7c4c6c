"""Every key of the format is shown on a page, or stands here with the reason why it never is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from aswired.car.changes import KINDS
from aswired.rack.shelf import Rack
from aswired.record import Change, Job, Shop
from aswired.text.schema import Depends, Key, Located, Many, Named, Record, Value, keys_of
from tests.shown.seen import Text, Wanted, each, pages, plain, read, stands_in, text_of, text_on, wanted

# The one place: record and key (of a row: its kind and the key) -> why no page shows it.
NEVER = {
    ("Photo", "file"): "the file stays in the job's folder; a reader is given the picture and its id",
    ("Mark", "ring"): "drawn on the picture; its numbered line in the list says what is marked",
    ("Mark", "arrow"): "drawn on the picture, as a ring",
    ("Mark", "box"): "drawn on the picture, as a ring",
    ("Mark", "label"): "drawn on the picture, as a ring",
    ("Rack", "rack"): "what lies on the rack is no fact of a car: `aswired rack` tells it, and a job that uses a piece "
    "lists it under its own offcuts",
}

Declared = tuple[str, str]
Asked = Mapping[Declared, list[Wanted]]
Built = tuple[dict[str, Text], dict[str, Text]]


def declared() -> dict[Declared, Key]:
    """Every key of the format: of each record, and of a row for each kind that may have it."""
    found: dict[Declared, Key] = {}
    seen: set[type[Located]] = set()
    waiting: list[type[Located]] = [Job, Shop, Rack]
    owned = {key for kind in KINDS for key in kind.keys}
    while waiting:
        record = waiting.pop()
        if record in seen:
            continue
        seen.add(record)
        for written, (_, key) in keys_of(record).items():
            waiting += records_in(key.value)
            if record is not Change or written not in owned:
                found[record.__name__, written] = key
    rows = keys_of(Change)
    found.update({(f"row {kind.name}", key): rows[key][1] for kind in KINDS for key in kind.keys})
    return found


def records_in(value: Value) -> list[type[Located]]:
    if isinstance(value, Record):
        return [value.of]
    if isinstance(value, Many | Named):
        return records_in(value.item)
    if isinstance(value, Depends):
        return [record for case in (*value.cases.values(), value.otherwise) for record in records_in(case)]
    return []


def holds_only_records(key: Key) -> bool:
    """Whether a key is shown when the keys of what it holds are."""
    return bool(records_in(key.value))


def written_keys(value: Any) -> Iterator[tuple[Declared, int]]:
    """Each key that stands in a record and in what it holds, with its line."""
    if isinstance(value, Located):
        owned = {key for kind in KINDS for key in kind.keys}
        for key, (attribute, _) in keys_of(type(value)).items():
            if key in value.lines:
                of_kind = isinstance(value, Change) and key in owned
                yield (f"row {value.kind}" if of_kind else type(value).__name__, key), value.lines[key].line
            yield from written_keys(getattr(value, attribute))
    elif isinstance(value, Mapping):
        for item in value.values():
            yield from written_keys(item)
    elif isinstance(value, tuple):
        for item in value:
            yield from written_keys(item)


@pytest.fixture(scope="module")
def jobs(tmp_path_factory: pytest.TempPathFactory) -> tuple[Job, Job]:
    folder = tmp_path_factory.mktemp("shown")
    return read(folder, 0), read(folder, 1)


@pytest.fixture(scope="module")
def built(jobs: tuple[Job, Job]) -> Built:
    first, second = ({name: text_on(html) for name, html in pages(job).items()} for job in jobs)
    return first, second


@pytest.fixture(scope="module")
def asked(jobs: tuple[Job, Job]) -> Asked:
    """Key -> what has to be seen for it."""
    found: dict[Declared, list[Wanted]] = {}
    for file, record in (("job.yml", jobs[0]), ("shop.yml", jobs[0].shop), ("job.yml", jobs[1])):
        at = wanted(text_of(file))
        for key, line in written_keys(record):
            found.setdefault(key, []).extend(item for item in at.get(line, ()) if item not in found.get(key, ()))
    return found


def test_each_key_is_asked_for_or_is_never_shown_for_a_reason(asked: Asked) -> None:
    keys = declared()
    assert len(keys) > 300
    missing = {key for key, told in keys.items() if not asked.get(key) and not holds_only_records(told)}
    assert not missing - set(NEVER), "write the key in job.yml and show it, or say here why it is never shown"
    assert not set(NEVER) - missing, "these are shown, or are no keys"
    assert all(reason.strip() for reason in NEVER.values())


def test_what_a_job_says_is_seen_where_a_reader_looks_for_it(asked: Asked, built: Built) -> None:
    wrong = []
    for key, items in asked.items():
        for item in items:
            assert item.words[0] != item.words[1], (key, item)
            place = f"{item.page}#{item.anchor}"
            told = tuple(side[item.page].told(item.anchor) if item.page in side else None for side in built)
            for words, here, there in zip(item.words, told, reversed(told), strict=True):
                if words and not stands_in(words, here):
                    wrong.append(f"{key}: '{words}' is not on {place}: {here}")
                elif words and stands_in(words, there):
                    wrong.append(f"{key}: '{words}' is on {place} of the other job too: {there}")
    assert not wrong, "\n".join(wrong)


def test_no_line_that_asks_for_something_is_passed_over(asked: Asked) -> None:
    heard = [item for items in asked.values() for item in items]
    for file in ("job.yml", "shop.yml"):
        assert not [(line, item) for line, item in each(wanted(text_of(file))) if item not in heard]


def test_the_shops_own_keys_are_not_on_the_owners_pages(jobs: tuple[Job, Job], asked: Asked) -> None:
    own = [item for key, told in declared().items() if told.private for item in asked[key]]
    assert len(own) >= 4
    owners = {name: text_on(html).told("") or "" for name, html in pages(jobs[0], "owner").items()}
    for item in own:
        assert plain(item.words[0]) not in owners[item.page], item


def test_the_notes_are_on_the_shops_overview_and_work_sheet(built: Built) -> None:
    for page in ("index", "worksheet"):
        told, other = (side[page].told("notes") for side in built)
        assert stands_in("Look under its seat.", told)
        assert stands_in("Look under her seat.", other)

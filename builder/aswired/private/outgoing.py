"""Private values that would go out with the owner's edition: which are looked for, and where they stand."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from aswired.private.outputs import Text, fold_text, of_address, plain_letters, texts_of
from aswired.private.spellings import LEAST_SIGNS, is_number_of_own, is_words, spellings
from aswired.record import Job
from aswired.text.colours import WORDS
from aswired.text.diagnostics import Location
from aswired.text.schema import Located, keys_of

_NO_LETTERS = bytes(sign for sign in range(128) if not chr(sign).isalnum())
_COLOUR_WORDS = {
    *(word.casefold() for pair in WORDS.items() for word in pair),
    "purple", "gray", "slate", "beige", "light", "dark", "stripe", "stripes", "striped", "and", "with",
}  # fmt: skip


@dataclass(frozen=True)
class Leak:
    """A private value found in an output: which value by its label, in which file, on which line (0: its name)."""

    label: str
    word: str
    file: str
    line: int


def forbidden_words(job: Job) -> Mapping[str, str]:
    """Label under `private:` -> its value, for the values that must not stand anywhere in the owner's edition."""
    return {label: value for label, value in job.private.items() if not _why_not_sought(value)}


def not_sought(job: Job) -> tuple[str, ...]:
    """What to tell a person of each private value that cannot be looked for, so that nobody takes it for guarded."""
    at = job.line_of("private")
    told = []
    for label, value in job.private.items():
        why = _why_not_sought(value)
        if why:
            told.append(
                f"warning {job.slug}/{at} ({label})\n  '{value}' is not looked for in the owner's edition: {why}\n"
                "  mend: Look through the pages for it before they go out"
            )
    return tuple(told)


def _why_not_sought(value: str) -> str:
    """'' for a value that is looked for."""
    words = re.findall(r"[^\W\d_]+", plain_letters(value).lower())
    if words and not any(map(str.isdigit, value)) and all(word in _COLOUR_WORDS for word in words):
        return "it is a colour, and pages of wires are full of colours"
    if is_words(value) or is_number_of_own(value):
        return ""
    if sum(map(str.isalnum, value)) >= LEAST_SIGNS:
        return "it is an amount, which may stand in any text by chance"
    return "it is so short that it may stand in any text by chance"


def written_at(words: Mapping[str, str], job: Job) -> dict[str, tuple[str, ...]]:
    """Label of a private value -> where the job says it in public: its folder, then lines of its files, in order.

    A label that is missing is said by no line: it is a word of the pages, or they put it together.
    """
    places: dict[str, dict[str, None]] = {}
    for text, place in [(job.slug, f"the folder {job.slug}"), *_public_texts(job, job.slug, job.at)]:
        for label, _ in _standing(words, Text(fold_text(text), lambda place: 0)):
            places.setdefault(label, {})[place] = None
    return {label: tuple(found) for label, found in places.items()}


def _public_texts(value: Any, slug: str, at: Location) -> Iterator[tuple[str, str]]:
    """Every text and name that somebody wrote into a public field, each with its line."""
    if isinstance(value, str):
        yield value, f"{slug}/{at}"
    elif isinstance(value, Located):
        for written, (name, key) in keys_of(type(value)).items():
            if not key.private:
                yield from _public_texts(getattr(value, name), slug, value.line_of(written))
    elif isinstance(value, Mapping):
        for name, item in value.items():
            here = item.at if isinstance(item, Located) else at
            yield from _public_texts((str(name), item), slug, here)
    elif isinstance(value, tuple):
        for item in value:
            yield from _public_texts(item, slug, item.at if isinstance(item, Located) else at)
    elif dataclasses.is_dataclass(value):
        for spec in dataclasses.fields(value):
            yield from _public_texts(getattr(value, spec.name), slug, at)


def leaks(words: Mapping[str, str], file: str, content: bytes) -> tuple[Leak, ...]:
    """Where private values stand in one output: in its address, or in what a reader or a program reads in it.

    Value and output are folded alike: case, accents, signs that are not seen, kinds of blank, dash and apostrophe,
    escapes of HTML, JSON, CSS and addresses. Then each value is looked for in every spelling it may have there, see
    `Sought`. Numbers of drawings and of the index are no text. A picture is asked by its name only: its bytes are
    compressed pixels, and its text was taken off when it was made.
    """
    found = [Leak(label, words[label], file, 0) for label in _labels_in_address(words, file)]
    if not file.endswith((".jpg", ".jpeg", ".png", ".webp", ".css")):
        lines: dict[str, int] = {}
        for text in texts_of(file, content.decode("utf-8", "replace")):
            for label, place in _standing(words, text):
                lines[label] = min(text.line(place), lines.get(label, 1 << 30))
        found += [Leak(label, words[label], file, lines[label]) for label in words if label in lines]
    return tuple(found)


def _labels_in_address(words: Mapping[str, str], file: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(label for text in of_address(file) for label, _ in _standing(words, text)))


def _standing(words: Mapping[str, str], text: Text) -> Iterator[tuple[str, int]]:
    """Label and first place of each value that stands in a folded text."""
    lower = text.folded.lower()
    squeezed = lower.encode("utf-8", "surrogatepass").translate(None, _NO_LETTERS)
    for label, value in words.items():
        places = [place for one in spellings(value) if (place := one.first(lower, text.folded, squeezed)) >= 0]
        if places:
            yield label, min(places)

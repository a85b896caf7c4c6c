"""Two editions of one job: the shop's with everything, the owner's without what is declared private.

What is private is told by the declarations in `model`; nothing here names a field.
"""

from __future__ import annotations

import dataclasses
import html
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from aswired.model import Job
from aswired.schema import NOWHERE, Located, keys_of

EDITIONS = ("shop", "owner")
LEAST_LETTERS = 4  # a shorter value (initials, a year, a bare price) would stand in any text by chance ...
LEAST_SIGNS = 6  # ... unless it has this many letters and digits together, as plates and telephone numbers have
_PRICE = re.compile(r"\D{0,4}\d+(?:[,.' ]\d{3})*[.,]\d{2}\D{0,4}")  # 1200.50, 12,500.00 EUR


@dataclass(frozen=True)
class Leak:
    """A private value found in an output: which value by its label, in which file, on which line (0: its name)."""

    label: str
    word: str
    file: str
    line: int


def for_edition(job: Job, edition: str) -> Job:
    """The job as an edition may know it; the owner's has no private field, no notes and no unpublished photograph."""
    return job if edition == "shop" else without_private(job)


def without_private(job: Job) -> Job:
    """The job with every private field as if it had not been written.

    The notes go too, since free text has no declaration, and so do the lines of the file kept for messages: a row
    written on one line holds its private keys as well. A row that names a photograph that is not published keeps
    its other photographs.
    """
    bare: Job = _bare(job)
    withheld = {photo.id for photo in job.photos if not photo.publish}
    return dataclasses.replace(
        bare,
        notes="",
        photos=tuple(photo for photo in bare.photos if photo.id not in withheld),
        changes=tuple(
            dataclasses.replace(row, photos=tuple(id for id in row.photos if id not in withheld))
            for row in bare.changes
        ),
    )


def _bare(value: Any) -> Any:
    """A value with the private fields of every record inside it taken back to what they are when not written."""
    if isinstance(value, Located):
        declared = keys_of(type(value))
        kept: dict[str, Any] = {}
        for name, key in declared.values():
            kept[name] = _absent(value, name) if key.private else _bare(getattr(value, name))
        private = {written for written, (_, key) in declared.items() if key.private}
        lines = {
            written: dataclasses.replace(at, text="") for written, at in value.lines.items() if written not in private
        }
        at = NOWHERE if value.at is NOWHERE else dataclasses.replace(value.at, text="")
        return dataclasses.replace(value, at=at, lines=lines, **kept)
    if isinstance(value, tuple):
        return tuple(_bare(item) for item in value)
    if isinstance(value, Mapping):
        return {name: _bare(item) for name, item in value.items()}
    return value


def _absent(record: Located, name: str) -> Any:
    spec = next(spec for spec in dataclasses.fields(record) if spec.name == name)
    return spec.default if spec.default_factory is dataclasses.MISSING else spec.default_factory()


def forbidden_words(job: Job) -> Mapping[str, str]:
    """Label under `private:` -> its value, for the values that must not stand anywhere in the owner's edition."""
    return {label: value for label, value in job.private.items() if _is_words(value) or _is_number_of_own(value)}


def _is_words(value: str) -> bool:
    return sum(map(str.isalpha, value)) >= LEAST_LETTERS


def _is_number_of_own(value: str) -> bool:
    """Whether a value is like a plate or a telephone number: enough signs to be no chance, and not an amount."""
    return sum(map(str.isalnum, value)) >= LEAST_SIGNS and not _PRICE.fullmatch(value.strip())


def leaks(words: Mapping[str, str], file: str, content: bytes) -> tuple[Leak, ...]:
    """Where private values stand in one output: in its address, or in its text in any case, blanks and escapes folded.

    A picture is asked by its name only: its bytes are compressed pixels, and its text was taken off when it was made.
    """
    found = [Leak(label, word, file, 0) for label, word in words.items() if _named(word, file)]
    if not file.endswith((".jpg", ".jpeg", ".png", ".webp")):
        text = content.decode("utf-8", "replace")
        for label, word in words.items():
            line = _line_of(word, text)
            if line:
                found.append(Leak(label, word, file, line))
    return tuple(found)


def _named(word: str, file: str) -> bool:
    """Whether an address holds the value, written with whatever an address puts for blanks and points."""
    return _plain(word) in _plain(file) if _plain(word) else False


def _plain(text: str) -> str:
    return re.sub(r"[\W_]+", "-", text.casefold()).strip("-")


def _line_of(word: str, text: str) -> int:
    """The line (from 1) where the value first stands, 0 when nowhere."""
    if any(map(str.isdigit, word)):  # a plate is the same plate with a dash for the blank, or with nothing
        pattern = re.compile(r"[\W_]*".join(re.findall(r"[^\W_]+", word.casefold())))
    else:
        pattern = re.compile(r"\s+".join(re.escape(part) for part in word.casefold().split()))
    for form in (_unescaped(text), _tags_off(text)):
        match = pattern.search(form)
        if match:
            return form.count("\n", 0, match.start()) + 1
    return 0


def _unescaped(text: str) -> str:
    """HTML and JSON escapes taken back; line ends are kept, so that a place can be named."""
    text = re.sub(r"\\u([0-9a-fA-F]{4})", lambda match: chr(int(match[1], 16)), text).replace('\\"', '"')
    text = re.sub(r"&#(?:10|13|x0*[ad]);", " ", text, flags=re.IGNORECASE)
    return html.unescape(text).casefold().replace("\u00a0", " ").replace("\u2009", " ").replace("\u202f", " ")


def _tags_off(text: str) -> str:
    """The same as a reader sees it: words that only a tag parts stand together."""
    return _unescaped(re.sub(r"<[^<>]*>", lambda match: "\n" * match[0].count("\n"), text))

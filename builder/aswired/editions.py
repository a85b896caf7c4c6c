"""Two editions of one job: the shop's with everything, the owner's without what is declared private.

What is private is told by the declarations in `model`; nothing here names a field.
"""

from __future__ import annotations

import dataclasses
import html
import re
import unicodedata
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial
from itertools import islice
from typing import Any
from urllib.parse import unquote

from aswired.colours import WORDS
from aswired.diagnostics import Location
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

    The notes go too, since free text has no declaration, and so do the files as they were read and the lines of them
    kept for messages: a row written on one line holds its private keys as well. A row that names a photograph that is
    not published keeps its other photographs.
    """
    bare: Job = _bare(job)
    withheld = {photo.id for photo in job.photos if not photo.publish}
    return dataclasses.replace(
        bare,
        notes="",
        texts={},
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
    words = re.findall(r"[^\W\d_]+", _letters(value).lower())
    if words and not any(map(str.isdigit, value)) and all(word in _COLOUR_WORDS for word in words):
        return "it is a colour, and pages of wires are full of colours"
    if _is_words(value) or _is_number_of_own(value):
        return ""
    if sum(map(str.isalnum, value)) >= LEAST_SIGNS:
        return "it is an amount, which may stand in any text by chance"
    return "it is so short that it may stand in any text by chance"


def _is_words(value: str) -> bool:
    return sum(map(str.isalpha, value)) >= LEAST_LETTERS


def _is_number_of_own(value: str) -> bool:
    """Whether a value is like a plate or a telephone number: enough signs to be no chance, and not an amount."""
    return sum(map(str.isalnum, value)) >= LEAST_SIGNS and not _PRICE.fullmatch(value.strip())


def written_at(words: Mapping[str, str], job: Job) -> dict[str, tuple[str, ...]]:
    """Label of a private value -> where the job says it in public: its folder, then lines of its files, in order.

    A label that is missing is said by no line: it is a word of the pages, or they put it together.
    """
    places: dict[str, dict[str, None]] = {}
    for text, place in [(job.slug, f"the folder {job.slug}"), *_public_texts(job, job.slug, job.at)]:
        for label, _ in _standing(words, _Text(_folded(text), lambda place: 0)):
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


# ---- looking for private values in what goes out --------------------------------------------------------------------
def leaks(words: Mapping[str, str], file: str, content: bytes) -> tuple[Leak, ...]:
    """Where private values stand in one output: in its address, or in what a reader or a program reads in it.

    Value and output are folded alike: case, accents, signs that are not seen, kinds of blank, dash and apostrophe,
    escapes of HTML, JSON, CSS and addresses. Then each value is looked for in every spelling it may have there, see
    `_Sought`. Numbers of drawings and of the index are no text. A picture is asked by its name only: its bytes are
    compressed pixels, and its text was taken off when it was made.
    """
    found = [Leak(label, words[label], file, 0) for label in _labels_in_address(words, file)]
    if not file.endswith((".jpg", ".jpeg", ".png", ".webp", ".css")):
        lines: dict[str, int] = {}
        for text in _texts_of(file, content.decode("utf-8", "replace")):
            for label, place in _standing(words, text):
                lines[label] = min(text.line(place), lines.get(label, 1 << 30))
        found += [Leak(label, words[label], file, lines[label]) for label in words if label in lines]
    return tuple(found)


def _labels_in_address(words: Mapping[str, str], file: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(label for text in _of_address(file) for label, _ in _standing(words, text)))


def _standing(words: Mapping[str, str], text: _Text) -> Iterator[tuple[str, int]]:
    """Label and first place of each value that stands in a folded text."""
    lower = text.folded.lower()
    squeezed = lower.encode("utf-8", "surrogatepass").translate(None, _NO_LETTERS)
    for label, value in words.items():
        places = [place for one in _spellings(value) if (place := one.first(lower, text.folded, squeezed)) >= 0]
        if places:
            yield label, min(places)


_NO_LETTERS = bytes(sign for sign in range(128) if not chr(sign).isalnum())
_INLINE, _BLOCK = "\x02", "\x03"  # where a tag stood: inside a line, and between blocks; neither is a blank for `re`
_STOP = " ꙮ "  # a letter of no word: what stands on its two sides is never one value
_COLOUR_WORDS = {
    *(word.casefold() for pair in WORDS.items() for word in pair),
    "purple", "gray", "slate", "beige", "light", "dark", "stripe", "stripes", "striped", "and", "with",
}  # fmt: skip


# ---- what a reader or a program reads in an output ------------------------------------------------------------------
@dataclass(frozen=True)
class _Text:
    """A folded text, case kept. `line` gives the line of the output (from 1) for a place in it."""

    folded: str
    line: Callable[[int], int]


_TAG = re.compile(r"<[^<>]*>")
_INLINE_TAG = re.compile(
    r"</?(?:a|abbr|b|bdi|bdo|br|cite|code|data|del|dfn|em|font|i|ins|kbd|mark|q|s|samp|small|span|strong|sub|sup|time|"
    r"tspan|u|var|wbr)(?=[\s/>])[^<>]*>",
    re.IGNORECASE,
)
# Attributes that hold the theme's own words or the geometry of a drawing; every other is read.
_SILENT = (
    "class|role|scope|type|rel|lang|charset|style|loading|sizes|aria-hidden|colspan|rowspan|width|height|x|y|x1|x2|y1|"
    "y2|dx|dy|cx|cy|r|rx|ry|d|points|viewBox|transform|fill|stroke|stroke-width|stroke-dasharray|text-anchor|"
    "font-size|font-weight"
)
_ATTRIBUTE = re.compile(rf"\s(?!(?:{_SILENT})\s*=)[A-Za-z_:][\w:.-]*\s*=\s*(\"[^\"]*\"|'[^']*'|[^\s\"'<>=]+)")
_TYPED = re.compile(rf"<[/!A-Za-z][^<>{_INLINE}{_BLOCK}]{{0,200}}>")
_STYLE = re.compile(r"(<style[^>]*>)(.*?)(</style>)", re.DOTALL | re.IGNORECASE)
_QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"')
_INDEXED = re.compile(r'("words":")((?:[^"\\]|\\.)*)')


def _of_address(file: str) -> Iterator[_Text]:
    for text in _readings(_decoded(file)):
        yield _Text(_folded(text), lambda place: 0)


def _texts_of(file: str, content: str) -> Iterator[_Text]:
    content = content.replace(_INLINE, " ").replace(_BLOCK, " ")
    if file.endswith((".js", ".json")):
        yield from _of_script(content)
        return
    page = re.sub(
        r"&#(?:10|13|x0*[ad]);", " ", content, flags=re.IGNORECASE
    )  # a line end of the text is not the file's
    page = page.replace("<!--", "<p>").replace("-->", "<p>")  # a comment goes out as well
    page = _STYLE.sub(lambda style: style[1] + _of_style(style[2]) + style[3], page)
    text = _decoded(_TAG.sub(_BLOCK, _INLINE_TAG.sub(_INLINE, page)))

    for told in map(_folded, _readings(text)):
        yield _Text(told, partial(_line_of_text, page, told))
    values: list[str] = _ATTRIBUTE.findall(page)
    for held in map(_folded, _readings(_decoded(_BLOCK.join(values)))):
        yield _Text(held, partial(_line_of_value, page, held))


def _line_of_text(page: str, seen: str, place: int) -> int:
    tags = seen.count(_INLINE, 0, place) + seen.count(_BLOCK, 0, place)
    after = max(seen.rfind(_INLINE, 0, place), seen.rfind(_BLOCK, 0, place))
    ends = next(islice(_TAG.finditer(page), tags - 1, None)).end() if tags else 0
    return page.count("\n", 0, ends) + seen.count("\n", after + 1, place) + 1


def _line_of_value(page: str, held: str, place: int) -> int:
    number = held.count(_BLOCK, 0, place)
    return page.count("\n", 0, next(islice(_ATTRIBUTE.finditer(page), number, None)).start(1)) + 1


def _of_script(content: str) -> Iterator[_Text]:
    """The strings of a script that is data, such as the search index; the theme's own scripts hold no word of a job.

    The index's list of words is in the order of the alphabet: two that stand side by side there say nothing.
    """
    if not content.lstrip().startswith(("{", "[", "window.")):
        return
    content = _INDEXED.sub(lambda words: words[1] + words[2].replace(" ", _STOP), content)
    strings = "".join(text if text == "\n" else text + _BLOCK for text in re.findall(_QUOTED.pattern + r"|\n", content))
    for told in map(_folded, _readings(_decoded(strings))):
        yield _Text(told, partial(_line_of_string, told))


def _line_of_string(told: str, place: int) -> int:
    return told.count("\n", 0, place) + 1


def _of_style(rules: str) -> str:
    """The quoted texts of a style sheet, its escapes taken back."""
    texts = (
        re.sub(r"\\([0-9a-fA-F]{1,6})\s?", lambda sign: _sign(int(sign[1], 16)), text)
        for text in _QUOTED.findall(rules)
    )
    return " ; ".join(html.escape(text, quote=False) for text in texts) + "\n" * rules.count("\n")


def _sign(number: int) -> str:
    return chr(number) if 31 < number < 0x110000 else " "


def _readings(text: str) -> tuple[str, ...]:
    """The text, and once more each: with the signs that an anchor or a file name writes as numbers (`O_27_Hara`), and
    without markup that somebody typed, which a page shows as it was typed. The number of lines stays."""
    plain = re.sub(r"_([0-9a-f]{2,6})_", lambda sign: _sign(int(sign[1], 16)), text)
    read = _TYPED.sub(lambda tag: "\n" * tag[0].count("\n"), text) if "<" in text else text
    return tuple(dict.fromkeys((text, plain, read)))


def _decoded(text: str) -> str:
    """Escapes of JSON, HTML and addresses taken back; the number of lines stays."""
    if "\\" in text:
        text = re.sub(r"\\u([0-9a-fA-F]{4})|\\x([0-9a-fA-F]{2})", lambda sign: _sign(int(sign[1] or sign[2], 16)), text)
        text = re.sub(r"\\[bfnrt]", " ", text).replace('\\"', '"').replace("\\/", "/")
        if re.search("[\ud800-\udfff]", text):
            text = text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    for _ in range(2):  # an escape may have been escaped
        if "&" in text:
            text = re.sub(r"&[#\w]+;?", lambda sign: html.unescape(sign[0]).replace("\n", " "), text)
        if "%" in text:
            text = re.sub(
                r"(?:%[0-9a-fA-F]{2})+", lambda run: unquote(run[0], errors="replace").replace("\n", " "), text
            )
    return text


def _folded(text: str) -> str:
    """Letters and digits as they are compared, case kept: without accents, wide forms and signs that are not seen;
    every blank, dash and apostrophe one of its kind."""
    return _NOT_ASCII.sub(lambda run: _letters(run[0]), text).replace("`", "'")


_NOT_ASCII = re.compile(r"[^\x00-\x7f]+")
_OWN_LETTERS = {
    "ß": "ss", "ẞ": "SS", "ø": "o", "Ø": "O", "æ": "ae", "Æ": "AE", "œ": "oe", "Œ": "OE", "ł": "l", "Ł": "L", "đ": "d",
    "Đ": "D", "ð": "d", "Ð": "D", "þ": "th", "Þ": "Th", "ı": "i", "ς": "σ", "Σ": "σ",
}  # fmt: skip
_APOSTROPHES = "'’‘‛ʼʹ′´＇ʻ"


@lru_cache(maxsize=4096)
def _letters(run: str) -> str:
    told = []
    for sign in run:
        if sign in _APOSTROPHES:
            told.append("'")
            continue
        for part in unicodedata.normalize("NFKD", sign):
            kind = unicodedata.category(part)
            if kind in ("Mn", "Me", "Cf"):  # accents, soft hyphens, signs without width
                continue
            if part in _OWN_LETTERS:
                told.append(_OWN_LETTERS[part])
            elif part.isascii() or part.isalnum():
                told.append(str(unicodedata.decimal(part, part)))  # digits of every script
            else:
                told.append("-" if kind == "Pd" or part == "−" else " ")
    return "".join(told)


# ---- a value in every spelling --------------------------------------------------------------------------------------
# Between two signs of a number: up to five blanks, dashes, points, slashes, brackets, stars (`**020** **7946**`), and
# any number of inline tags.
_BETWEEN_DIGITS = rf"{_INLINE}*(?:(?:\s++|[-./()\[\]{{}}_'*~])" rf"{_INLINE}*){{0,5}}"
_BETWEEN_SIGNS = rf"{_INLINE}*(?:(?:\s++|[^\w\s{_INLINE}{_BLOCK}]|_){_INLINE}*){{0,5}}"
_BETWEEN_NAMES = rf"{_INLINE}*[\s,_-]{{0,3}}{_INLINE}*"  # between a surname and the name behind it
_IN_A_WORD = rf"[{_INLINE}']{{0,2}}"
_BETWEEN_WORDS = r"[\W_]{0,80}"  # anything but letters and digits, or nothing
LONG_LETTERS = 8  # so many letters together are no chance: found inside a longer word, and parted inside
UNMISTAKABLE_LETTERS = 12  # so many may also be parted by the blocks of a page
_TOKEN = re.compile(r"[A-Z]+(?![a-z])|[A-Z]?[a-z]+|\d+|[^\W\d_A-Za-z]+")  # words of `QuillhollowLookoutCrew`, `AB123CD`
_CALLED = re.compile(r"\+?\(?\d[\d\s().\-/]{4,}\d")
_DATE = re.compile(r"\d{4}[-./]\d\d?[-./]\d\d?|\d\d?[-./]\d\d?[-./]\d{4}")
_EXTENSION = re.compile(r"\s*(?:ext(?:ension|n)?|x)\.?\s*\d{1,5}\s*$", re.IGNORECASE)
_PARTICLES = {"and", "of", "the", "de", "da", "di", "du", "la", "le", "van", "von", "der", "den", "ter"}


@dataclass(frozen=True)
class _Sought:
    """One spelling of a private value: `key` are its letters and digits with nothing between, `found` the pattern.

    Words: the words in their order with anything but letters and digits, or nothing, between them; also as one word of
    an id. Two words of twelve letters and more: also the second first, as names are filed. Of eight letters and more:
    also inside a longer word, or parted inside. A plate: up to five other signs
    between any two. No letter and no digit adjoins either, but where an id begins a new word (`vanAB123CD`).
    """

    key: str
    found: re.Pattern[str]

    def first(self, lower: str, cased: str, squeezed: bytes) -> int:
        """Place of the first that fits, -1 when none does."""
        if self.key.encode() not in squeezed:
            return -1
        match = self.found.search(lower)
        while match:
            if self.fits(match, cased):
                return match.start()
            match = self.found.search(lower, match.start() + 1)
        return -1

    def fits(self, match: re.Match[str], cased: str) -> bool:
        start, end = match.span()
        long = sum(map(str.isalpha, self.key)) >= LONG_LETTERS
        if long and match[0].replace(_INLINE, "") == self.key:
            return True
        numbered = any(map(str.isdigit, self.key))
        if not _parted(cased, start, numbered):
            return False
        if numbered and cased[end - 1].isupper() and cased[end : end + 1].islower() and _parted(cased, start, True):
            return True  # a word of the trade stuck to a plate: `QX123ZJfront`
        plural = long and cased[end : end + 1] in ("s", "S") and _parted(cased, end + 1, numbered)
        return plural or _parted(cased, end, numbered)


def _parted(cased: str, place: int, numbered: bool) -> bool:
    """Whether a word ends and another begins at a place of the text. `numbered`: the value holds digits itself."""
    before, after = cased[place - 1 : place] if place else "", cased[place : place + 1]
    if not before.isalnum() or not after.isalnum():
        return True
    if before.isdigit() or after.isdigit():
        return not numbered and before.isdigit() != after.isdigit()
    return after.isupper() and (before.islower() or cased[place + 1 : place + 2].islower())


@dataclass(frozen=True)
class _Called(_Sought):
    """A telephone number: `key` is the part without country code and without the 0 dialled inside a country.

    Digits that stand before it without a blank must be just that: a 0, or a country code (`country`, '' for any).
    Letters stuck to it are allowed where it has nine digits and more.
    """

    country: str

    def fits(self, match: re.Match[str], cased: str) -> bool:
        start, end = match.span()
        if len(re.findall(r"\d+", match[0])) - 1 > len(self.key) // 2:  # a row of single figures
            return False
        after = cased[end : end + 1]
        unmistakable = len(self.key) > LONG_LETTERS  # so many digits are no wire, whatever letters are stuck to them
        if after.isdigit() or (after.isalpha() and not unmistakable):
            return False
        head = re.search(r"[^\W_]*\Z", cased[max(0, start - 16) : start])
        before = head[0] if head else ""
        if unmistakable:
            before = re.sub(r"\A.*[^\W\d_]", "", before)
        if before in ("", "0"):
            return True
        code = re.sub(r"^(?:00|011)", "", before)
        if len(self.key) < LONG_LETTERS or not code.isdigit():
            return False
        code = code[:-1] if code[-1] == "0" and code != self.country and not _is_country(code) else code
        return code == self.country if self.country else _is_country(code)


@lru_cache(maxsize=256)
def _spellings(value: str) -> tuple[_Sought, ...]:
    """Every way in which a private value is looked for: as a whole, and the names and numbers that it holds.

    A single word of it (a surname alone) is not looked for: it may be any word of the trade. Who wants that writes it
    as a value of its own.
    """
    found: dict[tuple[str, str], _Sought] = {}
    read = _TYPED.sub("", value)
    for part in dict.fromkeys((read, *_named_in(value), *_named_in(read))):
        for text in _writings(part):
            for one in _of_words(text):
                found[one.key, ""] = one
    for number in (*_numbers(value), *_numbers(read)):
        found[number.key, number.country] = number
    return (_as_written(value), *found.values())


# What parts a name from other words of a value: `Ebbra Voskstrand (neighbour) 020 7946 0123`, `contact: ...`
_APART = re.compile(r"[,;|\n()<>\[\]:]|\s[-–—/]+\s|\sor\s")
_TITLE = re.compile(r"\A(?:(?:mrs?|ms|miss|dr|prof|sir|herr|frau|the|family|c/o|attn)\b\.?\s*)+", re.IGNORECASE)
_FIRM = re.compile(
    r"\s(?:(?:&|and)\s+(?:sons?|daughters?|co|company|partners)|ltd|limited|inc|llc|llp|plc|gmbh|co)\b\.?\s*\Z",
    re.IGNORECASE,
)
_MAIL = re.compile(r"[\w.+-]+@[\w-]+(?:\.[\w-]+)+")
_SIGNS = re.compile(r"(?<![^\W_])[A-Z0-9]+(?:[ -][A-Z0-9]+)*(?![^\W_])")  # a plate, a postal code, a serial number


def _named_in(value: str) -> Iterator[str]:
    """The names and addresses inside a value, without title and kind of firm; its plates."""
    for part in (*re.split(r"[,;|\n]", value), *_APART.split(_CALLED.sub("|", value))):
        for name in (part, _FIRM.sub("", _TITLE.sub("", part.strip()))):
            if _is_name(name) or _is_address(name):
                yield name
    yield from _MAIL.findall(value)
    for run in _SIGNS.findall(_folded(_decoded(value))):
        for signs in (run, *run.split()):
            letters = sum(map(str.isalpha, signs))
            if 0 < letters < sum(map(str.isalnum, signs)) and _is_number_of_own(signs) and "AWG" not in signs:
                yield signs


def _is_address(text: str) -> bool:
    """Whether a text is a number and words that no text holds by chance, as `12 tolmgenth lane` typed in haste."""
    return text.strip()[:1].isdigit() and " " in text.strip() and sum(map(str.isalpha, text)) >= UNMISTAKABLE_LETTERS


def _as_written(value: str) -> _Sought:
    folded = _folded(_decoded(value)).lower()
    signs = r"\s+".join(map(re.escape, re.sub(r"^[\W_]+|[\W_]+$", "", folded).split()))
    return _Sought("".join(filter(str.isalnum, folded)), re.compile(signs))


def _is_name(text: str) -> bool:
    """Two words or more that all begin with a capital or a digit, as names and addresses do (`of` and such apart)."""
    words = [word for word in re.findall(r"[^\W_][\w'’-]*", text) if word not in _PARTICLES]
    return len(words) > 1 and _is_words(text) and all(word[0].isupper() or word[0].isdigit() for word in words)


def _writings(text: str) -> Iterator[str]:
    """The text with accents left out, written out (ü as ue) and taken back (ue as u); & as `and`."""
    whole = unicodedata.normalize("NFC", text)
    out = whole
    for accent, letters in (("ä", "ae"), ("ö", "oe"), ("ü", "ue"), ("ø", "oe"), ("å", "aa")):
        out = out.replace(accent, letters).replace(accent.upper(), letters.capitalize())
    back = re.sub(r"([aou])e", r"\1", whole, flags=re.IGNORECASE)
    name, at, host = whole.partition("@")
    spoken = (f"{name} at {host}", f"{name} at {host.replace('.', ' dot ')}") if at else ()
    for spelt in (whole, out, back, *spoken):
        yield re.sub(r"\s*[&+]\s*(?=\D)", " and ", spelt)


def _of_words(text: str) -> Iterator[_Sought]:
    """The words in their order, where `and` may be left out; a name of two words the other way round as well."""
    words = [word.lower() for word in _TOKEN.findall(_folded(_decoded(text)))]
    if len(words) == 2 and sum(map(len, words)) >= UNMISTAKABLE_LETTERS and all(map(str.isalpha, words)):
        surname_first = _BETWEEN_NAMES.join(map(re.escape, reversed(words)))
        yield _Sought("".join(reversed(words)), re.compile(surname_first))
    for tokens in (words, [word for word in words if word != "and"]):
        key = "".join(tokens)
        if not key.isdigit() and (_is_words(key) or _is_number_of_own(key)):
            yield _Sought(key, re.compile(_pattern(tokens, key)))


def _pattern(tokens: Sequence[str], key: str) -> str:
    letters = sum(map(str.isalpha, key))
    numbered = letters < len(key)
    plate = numbered and not any(token.isalpha() and _is_words(token) for token in tokens)
    within = _BETWEEN_SIGNS if numbered or letters >= LONG_LETTERS else _IN_A_WORD
    if letters >= UNMISTAKABLE_LETTERS and not numbered:
        within = _BETWEEN_WORDS  # a name written as one word stands elsewhere as its words
    between = _BETWEEN_SIGNS if plate else _BETWEEN_WORDS
    return between.join(within.join(map(re.escape, token)) for token in tokens)


def _numbers(value: str) -> Iterator[_Called]:
    """The telephone numbers in a value."""
    folded = _EXTENSION.sub("", _folded(_decoded(value)))
    alone = not any(map(str.isalpha, folded))
    for run in _CALLED.finditer(folded):
        adjoined = folded[run.start() - 1 : run.start()].isalnum() or folded[run.end() : run.end() + 1].isalnum()
        each = run[0].split("/")
        several = each if any(sum(map(str.isdigit, one)) > LONG_LETTERS for one in each[:-1]) else []
        for written in (run[0], *several):
            digits = re.sub(r"\D", "", written)
            if alone or (not adjoined and len(digits) > LEAST_SIGNS and not _DATE.fullmatch(written)):
                for key, country in _dialled(digits, written):
                    if len(key) >= LEAST_SIGNS:
                        yield _Called(key, re.compile(_BETWEEN_DIGITS.join(key)), country)


def _dialled(digits: str, written: str) -> Iterator[tuple[str, str]]:
    """The number as dialled inside its country, without the 0 before it, and its country code; '' when not written."""
    abroad = re.match(r"(?:00|011)(?=\d{8})", digits) if "+" not in written else None
    if "+" in written or abroad:
        rest = digits[abroad.end() :] if abroad else digits
        code = next((rest[:size] for size in (1, 2, 3) if _is_country(rest[:size])), "")
        inside = rest[len(code) :]
        inside = inside[1:] if inside.startswith("0") and "(0)" in re.sub(r"\s", "", written) else inside
        yield (inside, code) if len(inside) >= LEAST_SIGNS else (rest, "")
        return
    if digits.startswith("0") and len(digits) > LEAST_SIGNS:
        yield digits[1:], ""
        return
    yield digits, ""
    if len(digits) > 10:  # perhaps with the country code before it, or the 1 of North America
        code = next((digits[:size] for size in (1, 2, 3) if _is_country(digits[:size])), "")
        if code and len(digits) - len(code) > LONG_LETTERS:
            yield digits[len(code) :], code


def _is_country(code: str) -> bool:
    """Whether digits are a country code: ITU-T E.164, list of assigned codes; the short ones tell the rest's length."""
    if len(code) < 3:
        return code in _SHORT_CODES
    return len(code) == 3 and code[0] != "0" and code[:1] not in _SHORT_CODES and code[:2] not in _SHORT_CODES


_SHORT_CODES = {
    "1", "7", "20", "27", "30", "31", "32", "33", "34", "36", "39", "40", "41", "43", "44", "45", "46", "47", "48",
    "49", "51", "52", "53", "54", "55", "56", "57", "58", "60", "61", "62", "63", "64", "65", "66", "81", "82", "84",
    "86", "90", "91", "92", "93", "94", "95", "98",
}  # fmt: skip

"""A private value in every spelling in which it may stand in a folded text."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from aswired.private.outputs import BLOCK, INLINE, TYPED, decoded, fold_text

LEAST_LETTERS = 4  # a shorter value (initials, a year, a bare price) would stand in any text by chance ...
LEAST_SIGNS = 6  # ... unless it has this many letters and digits together, as plates and telephone numbers have
_PRICE = re.compile(r"\D{0,4}\d+(?:[,.' ]\d{3})*[.,]\d{2}\D{0,4}")  # 1200.50, 12,500.00 EUR
# Between two signs of a number: up to five blanks, dashes, points, slashes, brackets, stars (`**020** **7946**`), and
# any number of inline tags.
_BETWEEN_DIGITS = rf"{INLINE}*(?:(?:\s++|[-./()\[\]{{}}_'*~])" rf"{INLINE}*){{0,5}}"
_BETWEEN_SIGNS = rf"{INLINE}*(?:(?:\s++|[^\w\s{INLINE}{BLOCK}]|_){INLINE}*){{0,5}}"
# Between two letters of one long word: no comma and the like, which part words that stand in a list.
_BETWEEN_LETTERS = rf"{INLINE}*(?:(?:\s++|[^\w\s,;:{INLINE}{BLOCK}]|_){INLINE}*){{0,5}}"
_BETWEEN_NAMES = rf"{INLINE}*[\s,_-]{{0,3}}{INLINE}*"  # between a surname and the name behind it
_IN_A_WORD = rf"[{INLINE}']{{0,2}}"
_BETWEEN_WORDS = r"[\W_]{0,80}"  # anything but letters and digits, or nothing
LONG_LETTERS = 8  # so many letters together are no chance: found inside a longer word, and parted inside
UNMISTAKABLE_LETTERS = 12  # so many may also be parted by the blocks of a page
_TOKEN = re.compile(r"[A-Z]+(?![a-z])|[A-Z]?[a-z]+|\d+|[^\W\d_A-Za-z]+")  # words of `QuillhollowLookoutCrew`, `AB123CD`
_CALLED = re.compile(r"\+?\(?\d[\d\s().\-/]{4,}\d")
_DATE = re.compile(r"\d{4}[-./]\d\d?[-./]\d\d?|\d\d?[-./]\d\d?[-./]\d{4}")
_EXTENSION = re.compile(r"\s*(?:ext(?:ension|n)?|x)\.?\s*\d{1,5}\s*$", re.IGNORECASE)
_PARTICLES = {"and", "of", "the", "de", "da", "di", "du", "la", "le", "van", "von", "der", "den", "ter"}


@dataclass(frozen=True)
class Sought:
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
        if long and match[0].replace(INLINE, "") == self.key:
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
class _Called(Sought):
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
def spellings(value: str) -> tuple[Sought, ...]:
    """Every way in which a private value is looked for: as a whole, and the names and numbers that it holds.

    A single word of it (a surname alone) is not looked for: it may be any word of the trade. Who wants that writes it
    as a value of its own.
    """
    found: dict[tuple[str, str], Sought] = {}
    read = TYPED.sub("", value)
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
    for run in _SIGNS.findall(fold_text(decoded(value))):
        for signs in (run, *run.split()):
            letters = sum(map(str.isalpha, signs))
            if 0 < letters < sum(map(str.isalnum, signs)) and is_number_of_own(signs) and "AWG" not in signs:
                yield signs


def _is_address(text: str) -> bool:
    """Whether a text is a number and words that no text holds by chance, as `12 tolmgenth lane` typed in haste."""
    return text.strip()[:1].isdigit() and " " in text.strip() and sum(map(str.isalpha, text)) >= UNMISTAKABLE_LETTERS


def _as_written(value: str) -> Sought:
    folded = fold_text(decoded(value)).lower()
    signs = r"\s+".join(map(re.escape, re.sub(r"^[\W_]+|[\W_]+$", "", folded).split()))
    return Sought("".join(filter(str.isalnum, folded)), re.compile(signs))


def _is_name(text: str) -> bool:
    """Two words or more that all begin with a capital or a digit, as names and addresses do (`of` and such apart)."""
    words = [word for word in re.findall(r"[^\W_][\w'’-]*", text) if word not in _PARTICLES]
    return len(words) > 1 and is_words(text) and all(word[0].isupper() or word[0].isdigit() for word in words)


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


def _of_words(text: str) -> Iterator[Sought]:
    """The words in their order, where `and` may be left out; a name of two words the other way round as well."""
    words = [word.lower() for word in _TOKEN.findall(fold_text(decoded(text)))]
    if len(words) == 2 and sum(map(len, words)) >= UNMISTAKABLE_LETTERS and all(map(str.isalpha, words)):
        surname_first = _BETWEEN_NAMES.join(map(re.escape, reversed(words)))
        yield Sought("".join(reversed(words)), re.compile(surname_first))
    for tokens in (words, [word for word in words if word != "and"]):
        key = "".join(tokens)
        if not key.isdigit() and (is_words(key) or is_number_of_own(key)):
            yield Sought(key, re.compile(_pattern(tokens, key)))


def _pattern(tokens: Sequence[str], key: str) -> str:
    letters = sum(map(str.isalpha, key))
    numbered = letters < len(key)
    plate = numbered and not any(token.isalpha() and is_words(token) for token in tokens)
    within = _BETWEEN_SIGNS if numbered else _BETWEEN_LETTERS if letters >= LONG_LETTERS else _IN_A_WORD
    if letters >= UNMISTAKABLE_LETTERS and not numbered:
        within = _BETWEEN_WORDS  # a name written as one word stands elsewhere as its words
    between = _BETWEEN_SIGNS if plate else _BETWEEN_WORDS
    return between.join(within.join(map(re.escape, token)) for token in tokens)


def _numbers(value: str) -> Iterator[_Called]:
    """The telephone numbers in a value."""
    folded = _EXTENSION.sub("", fold_text(decoded(value)))
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


def is_words(value: str) -> bool:
    return sum(map(str.isalpha, value)) >= LEAST_LETTERS


def is_number_of_own(value: str) -> bool:
    """Whether a value is like a plate or a telephone number: enough signs to be no chance, and not an amount."""
    return sum(map(str.isalnum, value)) >= LEAST_SIGNS and not _PRICE.fullmatch(value.strip())

"""Insulation colours as read: base, stripes, light or dark; letters of IEC 60757, words, or the donor's own letters.

IEC 60757 lists letter codes; which of two colours is the stripe is not in its combined form (RDBU), so the trade's
base/stripe writing is kept (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from aswired.text.diagnostics import did_you_mean
from aswired.text.units import QuantityError, is_unknown

# IEC 60757:2021 letter codes in the order of the standard's table (read); TN is not in it (common practice, no source).
WORDS = {
    "BK": "black",
    "BN": "brown",
    "RD": "red",
    "OG": "orange",
    "YE": "yellow",
    "GN": "green",
    "BU": "blue",
    "VT": "violet",
    "GY": "grey",
    "WH": "white",
    "PK": "pink",
    "GD": "gold",
    "TQ": "turquoise",
    "SR": "silver",
    "TN": "tan",
}
_OTHER_WORDS = {"purple": "VT", "gray": "GY", "slate": "GY", "beige": "TN"}
_BY_WORD = {word: code for code, word in WORDS.items()} | _OTHER_WORDS
_SHADES = ("light", "dark")


@dataclass(frozen=True)
class Colour:
    """A colour as read. `base` is a code of WORDS or None when it is said to be unknown; stripes in order."""

    text: str
    base: str | None
    stripes: tuple[str, ...] = ()
    shade: str = ""

    @property
    def known(self) -> bool:
        return self.base is not None

    @cached_property
    def code(self) -> str:
        """`VT/WH`, `light GN`; 'unknown' when not read."""
        if self.base is None:
            return "unknown"
        return " ".join(filter(None, [self.shade, "/".join((self.base, *self.stripes))]))

    @property
    def words(self) -> str:
        """`violet, white stripe`, `light green`; 'colour not read' when unknown."""
        if self.base is None:
            return "colour not read"
        base = " ".join(filter(None, [self.shade, WORDS[self.base]]))
        if not self.stripes:
            return base
        stripes = " and ".join(WORDS[stripe] for stripe in self.stripes)
        return f"{base}, {stripes} stripe" + ("s" if len(self.stripes) > 1 else "")


UNKNOWN = Colour("unknown", None)


def read_colour(text: str, letters: Mapping[str, str] | None = None) -> Colour:
    """A colour: `GN/WH`, `light GN`, `green/white`, the donor's letters through `letters`, or `unknown`.

    `letters` maps the donor's own code to a code or word of this module.
    """
    stripped = " ".join(text.split())
    if is_unknown(stripped):
        return Colour(text, None)
    shade = ""
    for word in _SHADES:
        if stripped.casefold().startswith(word + " "):
            shade, stripped = word, stripped[len(word) + 1 :]
    own = letters or {}
    if stripped.upper() == "GNYE":  # IEC 60757: green-and-yellow is one mark
        return Colour(text, "GN", ("YE",), shade)
    codes = [_code(part.strip(), own, text) for part in stripped.split("/")]
    if len(codes) > 3:
        raise QuantityError(
            f"the colour '{text}' has more than two stripes", "Write base/stripe or base/stripe/second stripe"
        )
    return Colour(text, codes[0], tuple(codes[1:]), shade)


def _code(part: str, letters: Mapping[str, str], whole: str) -> str:
    if part in letters:
        part = letters[part].strip()
    if part.upper() in WORDS:
        return part.upper()
    if part.casefold() in _BY_WORD:
        return _BY_WORD[part.casefold()]
    known = (*WORDS, *_BY_WORD) if len(part) > 1 else ()  # one letter alone is a donor's: no slip for a code
    raise QuantityError(
        f"'{part or whole}' is not a colour",
        did_you_mean(
            part,
            known,
            "Write a code such as GN/WH, a word such as green, or add the donor's letter to 'colour letters:'",
        ),
    )

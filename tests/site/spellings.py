"""Invented private values, and the spellings and places in which they can go out: what the privacy tests plant."""

from __future__ import annotations

import html
import json
import random
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple
from urllib.parse import quote

HEADS = ("Quill", "Dunmar", "Vosk", "Ebbra", "Tolm", "Zubb", "Orlin", "Kesk", "Mumfa", "Yarb")
TAILS = ("hollow", "strand", "trow", "genth", "moth", "fennix", "gallow", "brackle", "pellow", "dunnet")
WHAT = ("lookout crew", "orchard", "fire watch", "rope works", "water mill", "survey party")
Words = list[str]
Write = Callable[[Words], str]


def _camel(words: Words) -> str:
    return "".join(word.capitalize() for word in words)


def _inside(sign: str) -> Write:
    """The sign stands inside the first word."""
    return lambda words: " ".join([words[0][:3].capitalize() + sign + words[0][3:], *words[1:]])


def _between(sign: str) -> Write:
    return lambda words: sign.join(word.capitalize() for word in words)


def _wide(words: Words) -> str:
    return " ".join(words).translate({code: code + 0xFEE0 for code in range(0x21, 0x7F)})


def _bold(words: Words) -> str:
    """Mathematical bold letters, which some keyboards offer as a style."""
    return "".join(chr(ord(sign) - ord("a") + 0x1D41A) if sign.isalpha() else sign for sign in " ".join(words))


# A name as text, before it is put anywhere.
NAMES: Mapping[str, Write] = {
    "as told": lambda words: " ".join([words[0].capitalize(), *words[1:]]),
    "lower": " ".join,
    "upper": lambda words: " ".join(words).upper(),
    "capitals": _between(" "),
    "mixed case": lambda words: " ".join(words).swapcase().title().swapcase(),
    "hyphens": "-".join,
    "upper hyphens": lambda words: "-".join(words).upper(),
    "underscores": "_".join,
    "camel": _camel,
    "small camel": lambda words: words[0] + _camel(words[1:]),
    "one word": "".join,
    "points": ".".join,
    "slashes": "/".join,
    "commas": ", ".join,
    "colon": ": ".join,
    "ampersand between": "; ".join,
    "two blanks": "  ".join,
    "line break": "\n".join,
    "line break and indent": "\n      ".join,
    "tab": "\t".join,
    "no-break blank": _between("\u00a0"),
    "narrow no-break blank": _between("\u202f"),
    "thin blank": _between("\u2009"),
    "wide blank": _between("\u3000"),
    "en dash": _between("–"),
    "em dash": _between("—"),
    "minus": _between("−"),
    "no-break hyphen": _between("\u2011"),
    "middle dot": _between(" · "),
    "soft hyphen": _inside("\u00ad"),
    "zero-width blank": _inside("\u200b"),
    "zero-width joiner": _inside("\u200d"),
    "word joiner": _inside("\u2060"),
    "byte order mark": _inside("\ufeff"),
    "wide letters": _wide,
    "bold letters": _bold,
    "possessive": lambda words: " ".join(words) + "'s",
    "possessive, typographic": lambda words: _camel(words[:1]) + " " + " ".join(words[1:]) + "’s",
    "in brackets": lambda words: "(" + " ".join(words) + ")",
    "in quotes": lambda words: "“" + " ".join(words) + "”",
    "id of a row": lambda words: "C14-" + "-".join(words) + "-plug",
    "id with a number": lambda words: "_".join(words) + "2",
    "camel in an id": lambda words: "van" + _camel(words) + "Loom",
}
# How a shop may have written the same name under `private:`.
PRIVATE_NAMES = (
    "as told", "lower", "upper", "capitals", "hyphens", "underscores", "camel", "one word", "points", "no-break blank",
)  # fmt: skip


class Place(NamedTuple):
    """Where a text stands in an output: the file, and its content around the text; `line` of the text, 0 for a name."""

    file: str
    content: Callable[[str], str]
    line: int = 3


def _page(before: str, after: str, write: Callable[[str], str] = html.escape) -> Place:
    head = '<!doctype html>\n<p class="lead">Circuits, fuses and grounds; 12.5 V, 1.5 mm².</p>\n'
    return Place("jobs/van/changes.html", lambda text: f"{head}{before}{write(text)}{after}\n<p>C14 is made.</p>\n")


def _index(row: Callable[[str], str]) -> Place:
    return Place(
        "assets/js/find-index.js",
        lambda text: (
            'window.FIND={"same":[["ground","earth"]],"jobs":[\n{"job":"Van","hits":[[1,2]]},\n' + row(text) + "]};\n"
        ),
    )


def _numbers(sign: str) -> str:
    return f"&#{ord(sign)};"


def _css(text: str) -> str:
    return "".join(sign if sign.isascii() and (sign.isalnum() or sign == " ") else f"\\{ord(sign):x} " for sign in text)


def _json(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


PLACES: Mapping[str, Place] = {
    "text": _page("<p>", "</p>"),
    "a cell": _page("<table><tr><td>", "</td><td>12.5</td></tr></table>"),
    "behind a number": _page("<td><b>14</b>", "</td>"),
    "text without escapes": _page("<p>", "</p>", lambda text: text),
    "every sign a number": _page("<p>", "</p>", lambda text: "".join(map(_numbers, text))),
    "every sign in hexadecimal": _page("<p>", "</p>", lambda text: "".join(f"&#x{ord(sign):X};" for sign in text)),
    "escaped twice": _page("<p>", "</p>", lambda text: html.escape("".join(map(_numbers, text)))),
    "a comment": _page("<!-- ", " -->"),
    "picture text": _page('<img class="thumb" width="90" alt="', '" src="a.jpg">'),
    "a tool tip": _page('<abbr title="', '">x</abbr>'),
    "a label": _page('<nav aria-label="', '"></nav>'),
    "an address": _page('<a class="ref" href="../x.html#', '">see</a>', lambda text: quote(text)),
    "an anchor": _page('<tr role="row" id="', '"></tr>'),
    "data": _page('<i data-figure="', '"></i>'),
    "single quotes": _page("<i title='", "'></i>"),
    "meta": _page('<meta name="description" content="', '">'),
    "a drawing": _page('<svg viewBox="0 0 10 10"><text x="1" y="2"><tspan>', "</tspan></text></svg>"),
    "the title": _page("<title>Splices, ", "</title>"),
    "printed at the top": _page('<style>@page { @top-left { content: "', '"; } }</style>', _css),
    "a row of the index": _index(lambda text: '{"rows":[[0,"C14","C14",' + _json(text) + "]]}"),
    "index with numbered signs": _index(lambda text: '{"job":' + json.dumps(text) + "}"),
    "a page of the index": _index(
        lambda text: '{"pages":[[' + _json(f"jobs/van/circuits/{text}.html") + ',"Circuits"]]}'
    ),
    "name of a page": Place("jobs/van/circuits/{}.html", lambda text: "<p>siren</p>", 0),
    "name of a picture": Place("jobs/van/photos/P1-{}-1600.jpg", lambda text: "\x00", 0),
    "name of a folder": Place("jobs/{}/index.html", lambda text: "<p>siren</p>", 0),
}


def _as_file(text: str) -> str:
    return "".join(sign if sign.isalnum() or sign in "-_.() '’" or not sign.isascii() else "-" for sign in text)


def planted(place: Place, text: str) -> tuple[str, bytes]:
    """The output's name and content with the text in it."""
    return place.file.format(_as_file(text)), place.content(text).encode()


# A name parted by tags: HTML that is written as it stands.
TAGGED: Mapping[str, Write] = {
    "each word in a tag": lambda words: " ".join(f"<b>{word}</b>" for word in words),
    "tags and no-break blanks": lambda words: "&nbsp;".join(f"<i>{word}</i>" for word in words),
    "a tag inside a word": lambda words: f"{words[0][:3]}<b>{words[0][3:]}</b> " + " ".join(words[1:]),
    "a place to break": lambda words: f"{words[0][:3]}<wbr>{words[0][3:]} " + " ".join(words[1:]),
    "a hyphen that shows at a break": lambda words: f"{words[0][:3]}&shy;{words[0][3:]} " + " ".join(words[1:]),
    "lines": "<br>".join,
    "lines in the file": "<br>\n".join,
    "cells": lambda words: "<table><tr><td>" + "</td><td>".join(words) + "</td></tr></table>",
    "list": lambda words: "<ul><li>" + "</li> <li>".join(words) + "</li></ul>",
    "a link": lambda words: f'<a href="#C14">{words[0]}</a> ' + " ".join(words[1:]),
    "small beside": lambda words: f"<b>{words[0]}</b><small>{' '.join(words[1:])}</small>",
    "nested": lambda words: f"<p><span><b>{words[0]}</b></span>\n  <span>{' '.join(words[1:])}</span></p>",
}


def people(number: int, seed: int = 7) -> Iterator[Words]:
    """Names of two or three words, none of them of anybody."""
    chance = random.Random(seed)
    for at in range(number):
        head = (chance.choice(HEADS) + chance.choice(TAILS)).lower()
        more = WHAT[at % len(WHAT)].split() if at % 3 else [(chance.choice(HEADS) + chance.choice(TAILS)).lower()]
        yield [head, *more]


# ---- plates ---------------------------------------------------------------------------------------------------------
PLATES: Mapping[str, Write] = {
    "one word": "".join,
    "blanks": " ".join,
    "hyphens": "-".join,
    "lower": lambda parts: "".join(parts).lower(),
    "lower, hyphen and point": lambda parts: f"{parts[0]}-{parts[1]}.{parts[2]}".lower(),
    "points": ".".join,
    "middle dots": "·".join,
    "slashes": "/".join,
    "brackets": lambda parts: f"{parts[0]} ({parts[1]}) {parts[2]}",
    "dash and blanks": " – ".join,
    "no-break blanks": "\u00a0".join,
    "underscores": "_".join,
    "every sign apart": lambda parts: " ".join("".join(parts)),
    "line break": "\n".join,
    "wide": lambda parts: "".join(parts).translate({code: code + 0xFEE0 for code in range(0x21, 0x7F)}),
    "soft hyphens": "\u00ad".join,
    "other parts": lambda parts: f"{parts[0]}{parts[1][0]} {parts[1][1:]}{parts[2]}",
    "in an id": lambda parts: "van" + "".join(parts),
}  # fmt: skip
TAGGED_PLATES: Mapping[str, Write] = {
    "tags": lambda parts: "".join(f"<b>{part}</b>" for part in parts),
    "tags and blanks": lambda parts: "&nbsp;".join(f"<b><i>{part}</i></b>" for part in parts),
    "behind a tag": lambda parts: f"<small>C14</small>{''.join(parts)}<b>7</b>",
    "lines": lambda parts: "<br>".join(parts),
}


def plates(number: int, seed: int = 11) -> Iterator[Words]:
    chance = random.Random(seed)

    def letters(many: int) -> str:
        return "".join(chance.choice("QXZJKVW") for _ in range(many))

    for at in range(number):
        yield [letters(2), str(chance.randrange(10 ** (2 + at % 3))).zfill(2 + at % 3), letters(2 + at % 2)]


# ---- telephone numbers: ranges that are kept free for drama, of Ofcom and of the North American plan ----------------
BRITISH: Mapping[str, Callable[[str, str], str]] = {
    "national": lambda area, rest: f"0{area} {rest[:-4]} {rest[-4:]}",
    "brackets": lambda area, rest: f"(0{area}) {rest}",
    "one word": lambda area, rest: f"0{area}{rest}",
    "hyphens": lambda area, rest: f"0{area}-{rest[:-4]}-{rest[-4:]}",
    "points": lambda area, rest: f"0{area}.{rest[:-4]}.{rest[-4:]}",
    "slash": lambda area, rest: f"0{area}/{rest}",
    "no-break blanks": lambda area, rest: f"0{area}\u00a0{rest[:-4]}\u00a0{rest[-4:]}",
    "no-break hyphens": lambda area, rest: f"0{area}\u2011{rest[:-4]}\u2011{rest[-4:]}",
    "international": lambda area, rest: f"+44 {area} {rest[:-4]} {rest[-4:]}",
    "with the 0": lambda area, rest: f"+44 (0){area} {rest[:-4]} {rest[-4:]}",
    "with 00": lambda area, rest: f"0044 {area} {rest}",
    "international, one word": lambda area, rest: f"+44{area}{rest}",
    "with 00, one word": lambda area, rest: f"0044{area}{rest}",
    "from America, one word": lambda area, rest: f"01144{area}{rest}",
    "without a plus": lambda area, rest: f"44 {area} {rest}",
    "a link": lambda area, rest: f"tel:+44-{area}-{rest[:-4]}-{rest[-4:]}",
}  # fmt: skip
AMERICAN: Mapping[str, Callable[[str, str], str]] = {
    "brackets": lambda area, rest: f"({area}) {rest[:3]}-{rest[3:]}",
    "hyphens": lambda area, rest: f"{area}-{rest[:3]}-{rest[3:]}",
    "points": lambda area, rest: f"{area}.{rest[:3]}.{rest[3:]}",
    "one word": lambda area, rest: f"{area}{rest}",
    "with 1": lambda area, rest: f"1-{area}-{rest[:3]}-{rest[3:]}",
    "international": lambda area, rest: f"+1 {area} {rest[:3]} {rest[3:]}",
    "from abroad": lambda area, rest: f"001 {area} {rest}",
    "international, one word": lambda area, rest: f"+1{area}{rest}",
    "from abroad, one word": lambda area, rest: f"001{area}{rest}",
}


def calls(number: int, seed: int = 13) -> Iterator[tuple[Mapping[str, Callable[[str, str], str]], str, str]]:
    """The ways to write it, area and rest of each number."""
    chance = random.Random(seed)
    for at in range(number):
        if at % 3 == 2:
            yield AMERICAN, "202", f"55501{chance.randrange(100):02d}"
        else:
            area, begin = (("20", "7946 0"), ("161", "496 0"), ("1632", "960"))[at % 2 if at % 4 else 2]
            yield BRITISH, area, begin.replace(" ", "") + f"{chance.randrange(1000):03d}"

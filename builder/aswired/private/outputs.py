"""What a reader or a program reads in an output, folded so that every spelling of a sign is one sign."""

from __future__ import annotations

import html
import re
import unicodedata
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache, partial
from itertools import islice
from urllib.parse import unquote

INLINE, BLOCK = "\x02", "\x03"  # where a tag stood: inside a line, and between blocks; neither is a blank for `re`
_STOP = " ꙮ "  # a letter of no word: what stands on its two sides is never one value


@dataclass(frozen=True)
class Text:
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
TYPED = re.compile(rf"<[/!A-Za-z][^<>{INLINE}{BLOCK}]{{0,200}}>")
_STYLE = re.compile(r"(<style[^>]*>)(.*?)(</style>)", re.DOTALL | re.IGNORECASE)
_QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"')
_INDEXED = re.compile(r'("words":")((?:[^"\\]|\\.)*)')


def of_address(file: str) -> Iterator[Text]:
    for text in _readings(decoded(file)):
        yield Text(fold_text(text), lambda place: 0)


def texts_of(file: str, content: str) -> Iterator[Text]:
    content = content.replace(INLINE, " ").replace(BLOCK, " ")
    if file.endswith((".js", ".json")):
        yield from _of_script(content)
        return
    page = re.sub(
        r"&#(?:10|13|x0*[ad]);", " ", content, flags=re.IGNORECASE
    )  # a line end of the text is not the file's
    page = page.replace("<!--", "<p>").replace("-->", "<p>")  # a comment goes out as well
    page = _STYLE.sub(lambda style: style[1] + _of_style(style[2]) + style[3], page)
    text = decoded(_TAG.sub(BLOCK, _INLINE_TAG.sub(INLINE, page)))

    for told in map(fold_text, _readings(text)):
        yield Text(told, partial(_line_of_text, page, told))
    values: list[str] = _ATTRIBUTE.findall(page)
    for held in map(fold_text, _readings(decoded(BLOCK.join(values)))):
        yield Text(held, partial(_line_of_value, page, held))


def _line_of_text(page: str, seen: str, place: int) -> int:
    tags = seen.count(INLINE, 0, place) + seen.count(BLOCK, 0, place)
    after = max(seen.rfind(INLINE, 0, place), seen.rfind(BLOCK, 0, place))
    ends = next(islice(_TAG.finditer(page), tags - 1, None)).end() if tags else 0
    return page.count("\n", 0, ends) + seen.count("\n", after + 1, place) + 1


def _line_of_value(page: str, held: str, place: int) -> int:
    number = held.count(BLOCK, 0, place)
    return page.count("\n", 0, next(islice(_ATTRIBUTE.finditer(page), number, None)).start(1)) + 1


def _of_script(content: str) -> Iterator[Text]:
    """The strings of a script that is data, such as the search index; the theme's own scripts hold no word of a job.

    The index's list of words is in the order of the alphabet: two that stand side by side there say nothing.
    """
    if not content.lstrip().startswith(("{", "[", "window.")):
        return
    content = _INDEXED.sub(lambda words: words[1] + words[2].replace(" ", _STOP), content)
    strings = "".join(text if text == "\n" else text + BLOCK for text in re.findall(_QUOTED.pattern + r"|\n", content))
    for told in map(fold_text, _readings(decoded(strings))):
        yield Text(told, partial(_line_of_string, told))


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
    read = TYPED.sub(lambda tag: "\n" * tag[0].count("\n"), text) if "<" in text else text
    return tuple(dict.fromkeys((text, plain, read)))


def decoded(text: str) -> str:
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


def fold_text(text: str) -> str:
    """Letters and digits as they are compared, case kept: without accents, wide forms and signs that are not seen;
    every blank, dash and apostrophe one of its kind."""
    return _NOT_ASCII.sub(lambda run: plain_letters(run[0]), text).replace("`", "'")


_NOT_ASCII = re.compile(r"[^\x00-\x7f]+")
_OWN_LETTERS = {
    "ß": "ss", "ẞ": "SS", "ø": "o", "Ø": "O", "æ": "ae", "Æ": "AE", "œ": "oe", "Œ": "OE", "ł": "l", "Ł": "L", "đ": "d",
    "Đ": "D", "ð": "d", "Ð": "D", "þ": "th", "Þ": "Th", "ı": "i", "ς": "σ", "Σ": "σ",
}  # fmt: skip
_APOSTROPHES = "'’‘‛ʼʹ′´＇ʻ"


@lru_cache(maxsize=4096)
def plain_letters(run: str) -> str:
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

"""A page as a tree of elements, read strictly: a tag that is closed in the wrong place is an error."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

VOID = frozenset(["area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"])


@dataclass(eq=False)
class Element:
    """A tag with its attributes; `inside` holds texts and elements in their order."""

    name: str
    attributes: dict[str, str] = field(default_factory=dict)
    inside: list[str | Element] = field(default_factory=list)

    def all(self, name: str = "", **attributes: str) -> Iterator[Element]:
        """This element and those within it that have the name and the attributes (class_ holds one class)."""
        class_ = attributes.pop("class_", "")
        for element in self._walk():
            own = element.attributes
            if (
                name in ("", element.name)
                and (not class_ or class_ in own.get("class", "").split())
                and all(own.get(key) == value for key, value in attributes.items())
            ):
                yield element

    def first(self, name: str = "", **attributes: str) -> Element:
        found = next(self.all(name, **attributes), None)
        assert found is not None, f"no {name} {attributes} in <{self.name} {self.attributes}>"
        return found

    def _walk(self) -> Iterator[Element]:
        ahead = [self]
        while ahead:
            element = ahead.pop()
            yield element
            ahead += [child for child in reversed(element.inside) if isinstance(child, Element)]

    @property
    def text(self) -> str:
        """All text within, blanks of every kind run together."""
        return " ".join(re.sub(r"\s+", " ", "".join(self._texts())).split())

    def _texts(self) -> Iterator[str]:
        for child in self.inside:
            if isinstance(child, str):
                yield child
            elif child.name not in ("script", "style"):
                yield " " if child.name == "br" else ""
                yield from child._texts()
                yield "" if child.name in ("a", "b", "i", "span", "small", "code") else " "


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open = [Element("")]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len({name for name, _ in attrs}) == len(attrs), f"<{tag}> has an attribute twice: {attrs}"
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].inside.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1].name == tag, f"</{tag}> closes <{self.open[-1].name}>, line {self.getpos()[0]}"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].inside.append(data)


@cache
def read(path: Path) -> Element:
    """The page in the file; kept, since several tests look at the same pages."""
    return parse(path.read_text(encoding="utf-8"), path.name)


def parse(text: str, name: str = "the page") -> Element:
    """A page as a tree."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    assert len(reader.open) == 1, f"{name}: <{reader.open[-1].name}> is never closed"
    return reader.open[0]

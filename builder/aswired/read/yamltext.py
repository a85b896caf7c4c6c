"""YAML as text: every scalar stays as typed, every key keeps its line, nothing is shared, tagged or repeated."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from aswired.diagnostics import FaultList, Location

_Loader: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)  # the C parser is 8 times faster where it is built in
_PLAIN_TAGS = {"tag:yaml.org,2002:str", "tag:yaml.org,2002:map", "tag:yaml.org,2002:seq"}
_DEEPEST = 40
_LARGEST_BYTES = 4_000_000


@dataclass(frozen=True)
class Source:
    """The lines of one file, for messages. `name` is relative to the job folder."""

    name: str
    lines: tuple[str, ...]

    def at(self, line: int) -> Location:
        """The place of a line counted from 1."""
        text = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Location(self.name, line, text.rstrip()[:160])

    def of(self, node: yaml.Node) -> Location:
        return self.at(node.start_mark.line + 1)


def read_source(path: Path, name: str, faults: FaultList) -> tuple[Source, str] | None:
    """The text of a file, or None and a fault when it is missing, empty, too large or not UTF-8."""
    whole = Location(name)
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        faults.add("FIL01", whole, "the file is missing", f"Write {name} in the job folder")
        return None
    except OSError as error:
        faults.add(
            "FIL01", whole, f"the file cannot be opened ({error.strerror})", "Check that it is a file you may read"
        )
        return None
    if len(data) > _LARGEST_BYTES:
        faults.add("FIL01", whole, "the file is larger than 4 MB", "A job file is text; keep pictures in photos/")
        return None
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        faults.add("FIL02", whole, "the file is saved as UTF-16", "Save it again with the encoding UTF-8")
        return None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        shown = data.splitlines()[line - 1].decode("utf-8", "replace")
        faults.add(
            "FIL02",
            Location(name, line, shown.rstrip()[:160]),
            "this line holds a letter that is not UTF-8",
            "Save the file again with the encoding UTF-8",
        )
        return None
    if not text.strip():
        faults.add("FIL01", whole, "the file is empty", "Write something in it, or take the file out")
        return None
    return Source(name, tuple(text.splitlines())), text


def compose(source: Source, text: str, faults: FaultList) -> yaml.Node | None:
    """The document as nodes with line marks, or None and a fault."""
    if not _shallow(source, text, faults) or not _unshared(source, text, faults):
        return None
    try:
        node: yaml.Node | None = yaml.compose(text, Loader=_Loader)
    except yaml.YAMLError as error:
        _yaml_fault(source, text, error, faults)
        return None
    if node is None:
        faults.add(
            "FIL01", Location(source.name), "the file holds only comments", "Write something in it, or take it out"
        )
        return None
    return node if _untagged(source, node, faults) else None


def _shallow(source: Source, text: str, faults: FaultList) -> bool:
    depth = 0
    for match in re.finditer(r"[\[\]{}]|(?:-[ \t]+){40,}", text):
        depth += {"[": 1, "{": 1, "]": -1, "}": -1}.get(match[0], _DEEPEST + 1)
        if depth > _DEEPEST:
            line = text.count("\n", 0, match.start()) + 1
            faults.add(
                "YML02",
                source.at(line),
                "brackets or lists are nested too deep",
                "Close the brackets; a job needs four levels at most",
            )
            return False
    return True


def _unshared(source: Source, text: str, faults: FaultList) -> bool:
    """Refuse anchors and aliases; the events are only looked at when the text holds & or *."""
    if "&" not in text and "*" not in text:
        return True
    try:
        for event in yaml.parse(text, Loader=_Loader):
            anchor = getattr(event, "anchor", None)
            if anchor:
                mark = "*" if isinstance(event, yaml.AliasEvent) else "&"
                faults.add(
                    "YML02",
                    source.at((event.start_mark.line if event.start_mark else 0) + 1),
                    f"'{mark}{anchor}' is read by YAML as a reference to another place of the file",
                    f"Write the value out; if it is text, put it in quotes: '{mark}{anchor}'",
                )
                return False
    except yaml.YAMLError:
        return True  # compose tells the same error with its place
    return True


def _untagged(source: Source, root: yaml.Node, faults: FaultList) -> bool:
    clean, todo = True, [root]
    while todo:
        node = todo.pop()
        if node.tag not in _PLAIN_TAGS:
            faults.add(
                "YML02",
                source.of(node),
                f"the tag '{node.tag}' is not used in job files",
                "Take out the word that begins with '!', or put it in quotes",
            )
            clean = False
        if isinstance(node, yaml.MappingNode):
            for key, value in node.value:
                todo += (key, value)
        elif isinstance(node, yaml.SequenceNode):
            todo += node.value
    return clean


_KNOWN_ERRORS = (
    (
        "expected a single document",
        "the file holds more than one YAML document",
        "Take out the line '---' and keep one document",
    ),
    (
        "cannot start any token",
        "a tab or a sign stands where YAML wants text",
        "Use blanks, not tabs, and put text that begins with @, ` or % in quotes",
    ),
    (
        "mapping values are not allowed",
        "a second ': ' stands in the line",
        "Put the text in quotes, or leave no blank behind the inner colon",
    ),
    ("could not find expected ':'", "the line has no ': ' after its key", "Write the key, a colon, a blank, the value"),
    (
        "did not find expected key",
        "the lines do not line up, or a quote or bracket is not closed above",
        "Line keys up under each other and close what was opened",
    ),
    ("did not find expected '-' indicator", "the list does not line up", "Begin each row with '- ' in the same column"),
    (
        "did not find expected ',' or",
        "a bracket is not closed, or a comma is missing",
        "Close the bracket and put commas between the values",
    ),
    ("found unexpected end of stream", "a quote is opened and never closed", "Close the quote"),
    ("while scanning a quoted scalar", "a quote is opened and never closed", "Close the quote"),
    (
        "control characters are not allowed",
        "the file holds a control character",
        "Take the invisible character out, or type the line again",
    ),
    (
        "special characters are not allowed",
        "the file holds a control character",
        "Take the invisible character out, or type the line again",
    ),
    ("undefined alias", "a value begins with '*'", "Put the value in quotes"),
)


def _yaml_fault(source: Source, text: str, error: yaml.YAMLError, faults: FaultList) -> None:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    said = str(getattr(error, "problem", "") or getattr(error, "reason", "") or error)
    context = str(getattr(error, "context", "") or "")
    if mark is not None:
        line = min(mark.line + 1, len(source.lines))
    else:
        position = getattr(error, "position", 0) or 0
        line = text.encode()[:position].count(b"\n") + 1
    for part, problem, mend in _KNOWN_ERRORS:
        if part in said or part in context:
            faults.add("YML01", source.at(line), problem, mend)
            return
    faults.add(
        "YML01",
        source.at(line),
        f"the file cannot be read as YAML here ({said})",
        "Compare the line with the one above it",
    )

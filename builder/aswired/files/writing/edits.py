"""Text put at the place of a node, in the style of what stands beside it; every other character stays as it is."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import yaml

from aswired.files.writing.document import Document

_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9 ./+_-]*")  # needs no quotes anywhere in YAML
_NAME = re.compile(r"[A-Za-z0-9_.-]*[A-Za-z0-9_]")


@dataclass(frozen=True)
class Edit:
    """Text put in place of the characters from `start` to `end` of a file."""

    file: str
    start: int
    end: int
    text: str


def applied(files: Iterable[Document], edits: Sequence[Edit]) -> dict[str, bytes]:
    """File -> its new bytes, of the files in which something changes; of edits at one place the first stands first."""
    changed = {}
    for file in files:
        parts, at = [file.bom], 0
        for edit in sorted((edit for edit in edits if edit.file == file.name), key=lambda edit: edit.start):
            parts += [file.text[at : edit.start], edit.text]
            at = edit.end
        text = "".join([*parts, file.text[at:]])
        if text != file.bom + file.text:
            changed[file.name] = text.encode("utf-8")
    return changed


def in_place(file: Document, node: yaml.ScalarNode, text: str) -> Edit:
    """A value exchanged for another in the same quotes; one that is the same already stays as it was typed."""
    start, end = node.start_mark.index, node.end_mark.index
    if " ".join(node.value.split()) == text:
        return Edit(file.name, start, end, file.text[start:end])
    if node.style == "'":
        return Edit(file.name, start, end, "'" + text.replace("'", "''") + "'")
    if node.style == '"':
        return Edit(file.name, start, end, quoted(text))
    if node.style in ("|", ">"):
        comment = re.match(r"[|>+\-0-9]*([ \t]+#[^\r\n\x85\u2028\u2029]*)?", file.text[start:end])
        return Edit(file.name, start, file.behind(node), plain_or_quoted(text) + ((comment and comment[1]) or ""))
    return Edit(file.name, start, end, plain_or_quoted(text))


def beside(
    file: Document, node: yaml.MappingNode, pair: tuple[yaml.Node, yaml.Node], values: Mapping[str, str]
) -> Edit:
    """Keys with their values added to a mapping, behind another of its keys, each as that one stands."""
    value = pair[1]
    both = [f"{name_as_key(name)}: {plain_or_quoted(text)}" for name, text in values.items()]
    if node.flow_style:
        at = value.end_mark.index
        return Edit(file.name, at, at, "".join(f", {one}" for one in both))
    at = file.behind(value)
    blank = file.line_end(at) + " " * node.start_mark.column
    return Edit(file.name, at, at, "".join(blank + one for one in both))


def in_braces(values: Mapping[str, str]) -> str:
    """Names with their values on one line."""
    return "{" + ", ".join(f"{name_as_key(name)}: {quoted(text)}" for name, text in values.items()) + "}"


def name_as_key(name: str) -> str:
    return name if _NAME.fullmatch(name) else quoted(name)


def plain_or_quoted(text: str) -> str:
    return text if _PLAIN.fullmatch(text) and not text.endswith(" ") else quoted(text)


def quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'

"""One file of a job as text and as the nodes the reader made of it, and where in the text a node stands."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import yaml

from aswired.files import HEADER, SHOP
from aswired.record import Job
from aswired.text.diagnostics import FaultList
from aswired.text.source import Source
from aswired.text.yamltext import compose

_BOM = "\ufeff"
_BREAKS = "\r\n\x85\u2028\u2029"  # what ends a line in YAML; Python's own line ends are others
_BREAK = re.compile(f"\r\n|[{_BREAKS}]")
_BREAK_BEFORE = re.compile(f"(?:\r\n|[{_BREAKS}])\\Z")
_KEPT = re.compile(r"[|>][0-9]?\+")  # a value whose blank lines count


class NotWritten(Exception):
    """Nothing was written; the words say why."""


@dataclass(frozen=True)
class Document:
    """A job file: its text without byte order mark, line ends as they are, and its root. Marks count its characters."""

    name: str
    text: str
    bom: str
    root: yaml.MappingNode

    def line_end(self, at: int) -> str:
        """How the line ends that holds a character; in the last line as the first one does."""
        found = _BREAK.search(self.text, at) or _BREAK.search(self.text)
        return found.group() if found else "\n"

    def behind(self, node: yaml.Node) -> int:
        """Where the line ends on which a node's last value ends, its comment included.

        Never where the parser says that a list or a mapping ends: that is behind the comments of what follows.
        """
        leaf = _last_leaf(node)
        at = leaf.end_mark.index
        if isinstance(leaf, yaml.ScalarNode) and leaf.style in ("|", ">"):  # such a value ends behind its line end
            if _KEPT.match(self.text, leaf.start_mark.index):
                ending = _BREAK_BEFORE.search(self.text, max(at - 2, 0), at)
                return ending.start() if ending else at
            at = len(self.text[:at].rstrip(_BREAKS + " "))
        found = _BREAK.search(self.text, at)
        return found.start() if found else len(self.text)

    def end(self) -> int:
        """Where a key can be added to the root: at the end of the text, or in front of the mark that ends it."""
        last = self.behind(self.root)
        written = len(self.text.rstrip(_BREAKS + " \t"))
        return max(last, written) if self.root.end_mark.index >= written else last


def document(name: str, data: bytes) -> Document:
    """A job file as it was read.

    Raises:
        NotWritten: it has no keys that a place could be found by.
    """
    whole = data.decode("utf-8")
    text = whole.removeprefix(_BOM).removeprefix(_BOM)  # the reader drops one, the parser another
    root = compose(Source(name, tuple(text.splitlines())), text, FaultList())
    if not isinstance(root, yaml.MappingNode) or not root.value:
        raise NotWritten(f"{name} does not begin with a key.")
    return Document(name, text, whole[: len(whole) - len(text)], root)


def documents(job: Job) -> tuple[Document, ...]:
    """Every YAML file of a job's folder, as it stood when the job was read; the header comes first."""
    names = sorted((name for name in job.texts if name.endswith(".yml") and name != SHOP), key=HEADER.__ne__)
    return tuple(document(name, job.texts[name]) for name in names)


def value_of(node: yaml.MappingNode, key: str) -> yaml.Node | None:
    """The value of a key; None where the key is not written."""
    return next((value for name, value in node.value if name.value == key), None)


def row_node(files: Sequence[Document], file: str, line: int, row: str) -> tuple[Document, yaml.MappingNode] | None:
    """A row of the change list by its place and its id: rows in brackets may share a line."""
    for found in files:
        rows = value_of(found.root, "changes") if found.name == file else None
        for node in rows.value if isinstance(rows, yaml.SequenceNode) else [rows]:
            if isinstance(node, yaml.MappingNode) and node.start_mark.line + 1 == line:
                name = value_of(node, "id")
                if isinstance(name, yaml.ScalarNode) and " ".join(name.value.split()) == row:
                    return found, node
    return None


def _last_leaf(node: yaml.Node) -> yaml.Node:
    """The last value of a block; brackets and braces end where they are closed."""
    while isinstance(node, yaml.CollectionNode) and node.value and not node.flow_style:
        last = node.value[-1]
        if isinstance(node, yaml.MappingNode):
            last = last[1]
        node = last
    return node

"""Texts of several lines, quotes, types and lists: read in Python as the C part of the YAML parser reads them."""

from __future__ import annotations

import itertools
from typing import Any

import pytest
import yaml

from aswired.text import yamltext
from aswired.text.diagnostics import Fault, FaultList
from aswired.text.inpython import PythonLoader
from aswired.text.source import Source

pytestmark = pytest.mark.skipif(not hasattr(yaml, "CBaseLoader"), reason="PyYAML was built without its C part here")

HEADS = ("|", ">", "|-", ">-", "|+", ">+", "|2", ">1", "|3-", ">+1", "|-2", "|0", "|10", "|--", "|+-", "|22", "| # c",
         "|# c", "> x", "|\t# c", "|9", ">2 ")  # fmt: skip
BODIES = (
    "  a\n  b\n",
    "  a\n\n  b\n\n\nz: 1\n",
    "\n\n  a\n",
    "    a\n  b\n",
    "  a\n    b\n  c\n",
    "  a\n\n    b\n\n  c\n  d\n",
    "  a\n   \n  b\n",
    "   \n  a\n",
    "  a\n\tb\n",
    "  \ta\n  b\n  \tc\n  d\n",
    "\ta\n",
    "  a\n  b",
    "",
    "\n\n",
    "z: 1\n",
    " a\n  b\n c\n",
    "  a\n # c\n",
    "   a\nz: 1\n",
    "  a\n\n",
    "  # a\n  b: c\n",
    "  a\u0085  b\n",
    "  a\u2028  b\n",
    "  a\r\n  b\r\n",
)
LINES = (
    "a: b\n  c\n\n  d\n",
    "a: b c\td\n",
    "a: b\n\n\n   c\nz: 1\n",
    "a: b # c\n",
    "a: b#c\n",
    "a: b\n # c\n d\n",
    "a: 'b\n  c'\n",
    "a: 'b\n\n  c '\n",
    "a: 'b''c'\n",
    "a: 'b\n---\nc'\n",
    "a: 'b\n--- c\n",
    "a: 'b\n...\n",
    "a: '---'\n",
    "a: 'b\n ---\n'\n",
    "a: 'b\n---c'\n",
    'a: "b\\\n  c"\n',
    'a: "b\n\n  c"\n',
    'a: "b  \n  \n\n  c"\n',
    'a: "\\x41\\u0042\\U00000043\\n\\t\\"\\/"\n',
    'a: "\\q"\n',
    'a: "\\x4"\n',
    'a: "\\xg1"\n',
    'a: "b\n',
    "a: [b, c,, d]\n",
    "a: [b, c: d, {e: f}, [g]]\n",
    "a: [b, ? c : d, : e]\n",
    "a: [b\n, c\n]\n",
    "a: {b: c, d, e: , f: }\n",
    "a: {? b, ? c : d, ?e: f}\n",
    "a: {b: c:d, e: f:, g: h}\n",
    "a: {b: [c]d}\n",
    "a: {'b':c, \"d\":e}\n",
    "a: {b\n c: d}\n",
    "a: [\tb,\tc]\n",
    "a: {b: c\t}\n",
    "a:\n- b\n- c\n",
    "a:\n  - b\n  -\n  - c\n",
    "- a\n-\n- - b\n  - c\n",
    "? a\n: b\n? c\n",
    "? - a\n: - b\n",
    "? a\n? b\n: c\n",
    "a:\nb: \n",
    "a : b\n",
    "a:b\n",
    ": a\n",
    "a: -b\na2: ?b\na3: :b\n",
    "a: - b\n",
    "a: -\n",
    "a: %b\n",
    "a: @b\n",
    "a: `b\n",
    "a: |b\n",
    "a: !x b\n",
    "a: ! b\n",
    "a: ! 12\n",
    "a: !!str b\n",
    "a: !<tag:x> b\n",
    "a: !<tag:x b\n",
    "a: !<> b\n",
    "a: !x!y b\n",
    "a: !x! b\n",
    "a: !x,y b\n",
    "a: [!x,y]\n",
    "a: [!x, y]\n",
    "a: !%41 b\n",
    "a: !a%4 b\n",
    "a: !a%zz b\n",
    "a: !a[b] c\n",
    "a: !<a[b],c> d\n",
    "%YAML 1.1\n---\na: b\n",
    "%YAML 1.1\n%YAML 1.1\n---\na: b\n",
    "%YAML 2.0\n---\na: b\n",
    "%TAG !x! tag:y:\n---\na: !x!z b\n",
    "%TAG !x! tag:y:\na: b\n",
    "%YAML 1.1\na: b\n",
    "--- a: b\n",
    "---\na: b\n...\n",
    "---\na: b\n---\nc: d\n",
    "a: b\n...\nc: d\n",
    "a: b\n--- # c\n",
    "a: b\n---c\n",
    "a: b\n ---\n",
    "a: b\n...c\n",
    "\ufeffa: b\n",
    "a: b\n\ufeff\n",
    "\ta: b\n",
    "a: b\n\tc: d\n",
    "a:\n\t- b\n",
    "a: b\n  c: d\n",
    "a:\n   b: c\n  d: e\n",
    "a: b\n- c\n",
    "[a, b]: c\n",
    "{a: b}: c\n",
    "a: &x b\nc: d\n",
    "a: *x\n",
    "a: & b\n",
    "a: 'b'c\n",
    "a: [b]c\n",
    "a: b: c\n",
    "a: ]\n",
    "a: }\n",
    "a: ,b\n",
    "a: [\n",
    "a: {b: [c}\n",
    f"{'k' * 1100}: b\n",
    f"? {'k' * 1100}\n: b\n",
    "a\nb: c\n",
)


def composed(text: str, loader: Any, monkeypatch: pytest.MonkeyPatch) -> tuple[list[object], tuple[Fault, ...]]:
    """Every node with its value, its style and where it stands; and the faults."""
    monkeypatch.setattr(yamltext, "_Loader", loader)
    faults = FaultList()
    todo: list[Any] = [yamltext.compose(Source("job.yml", tuple(text.splitlines())), text, faults)]
    found: list[object] = []
    while todo:
        node = todo.pop()
        if node is None:
            continue
        scalar = isinstance(node, yaml.ScalarNode)
        marks = [(mark.line, mark.column, mark.index) for mark in (node.start_mark, node.end_mark)]
        found.append((node.tag, node.value if scalar else type(node), scalar and (node.style or ""), marks))
        if isinstance(node, yaml.MappingNode):
            todo += [part for pair in node.value for part in pair]
        elif isinstance(node, yaml.SequenceNode):
            todo += node.value
    return found, faults.sorted()


def apart(texts: list[str], monkeypatch: pytest.MonkeyPatch) -> tuple[list[str], int]:
    """The texts that the two read apart, and how many of all were read."""
    found, read = [], 0
    for text in texts:
        in_c = composed(text, yaml.CBaseLoader, monkeypatch)
        read += not in_c[1]
        if composed(text, PythonLoader, monkeypatch) != in_c:
            found.append(text)
    return found, read


def test_a_text_of_several_lines_reads_the_same_whatever_its_sign_says(monkeypatch: pytest.MonkeyPatch) -> None:
    texts = [before + head + "\n" + body for before, head, body in itertools.product(("a: ", "- "), HEADS, BODIES)]
    texts += [f"a:\n  b: {head}\n" + "".join("  " + line for line in body.splitlines(keepends=True)) + "  c: d\n"
              for head, body in itertools.product(HEADS, BODIES)]  # fmt: skip
    found, read = apart(texts, monkeypatch)
    assert found == []
    assert read > len(texts) / 4


def test_quotes_types_lists_and_instructions_read_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    found, read = apart([*LINES, *(line.rstrip("\n") for line in LINES)], monkeypatch)
    assert found == []
    assert read > len(LINES) / 4

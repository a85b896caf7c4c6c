"""A job reads the same, and its faults are told in the same words, with and without the C part of the YAML parser."""

from __future__ import annotations

import random
import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import yaml

from aswired.files import JobRead, read_job
from aswired.text import yamltext
from aswired.text.diagnostics import Fault, FaultList
from aswired.text.inpython import PythonLoader
from aswired.text.source import Source
from writing.mutate import mutated, some_lines

ROOT = Path(__file__).parents[2]
DEMO = sorted(path.parent for path in (ROOT / "jobs").glob("*/job.yml"))
EACH_DEMO = [  # the truck takes longest, and is read so in the whole run
    pytest.param(folder, id=folder.name, marks=[pytest.mark.slow] * (folder.name == "trail-truck")) for folder in DEMO
]
BAD = sorted(path for path in (ROOT / "tests" / "bad_jobs").iterdir() if (path / "expected.txt").exists())

C_PART = pytest.mark.skipif(not hasattr(yaml, "CBaseLoader"), reason="PyYAML was built without its C part here")


def composed(text: str, loader: Any, monkeypatch: pytest.MonkeyPatch) -> tuple[list[object], tuple[Fault, ...]]:
    """Every node with kind, value, style and where it begins and ends; and the faults."""
    monkeypatch.setattr(yamltext, "_Loader", loader)
    faults = FaultList()
    root = yamltext.compose(Source("job.yml", tuple(text.splitlines())), text, faults)
    found: list[object] = []
    todo = [root] if root is not None else []
    while todo:
        node = todo.pop()
        scalar = isinstance(node, yaml.ScalarNode)
        marks = [(mark.line, mark.column, mark.index) for mark in (node.start_mark, node.end_mark)]
        found.append(
            (type(node), node.tag, scalar and node.value, (node.style or "") if scalar else bool(node.flow_style))
        )
        found.append(marks)
        if isinstance(node, yaml.MappingNode):
            todo += [part for pair in node.value for part in pair]
        elif isinstance(node, yaml.SequenceNode):
            todo += node.value
    return found, faults.sorted()


def read_with(folder: Path, loader: Any, monkeypatch: pytest.MonkeyPatch) -> JobRead:
    monkeypatch.setattr(yamltext, "_Loader", loader)
    return read_job(folder)


@C_PART
@pytest.mark.parametrize("folder", [*EACH_DEMO, *BAD], ids=lambda folder: folder.name)
def test_a_folder_reads_the_same(folder, monkeypatch):
    in_c = read_with(folder, yaml.CBaseLoader, monkeypatch)
    in_python = read_with(folder, PythonLoader, monkeypatch)
    assert in_python == in_c
    assert (in_c.job is None) == bool(in_c.faults)
    if folder in DEMO:
        assert in_c.job is not None


# where the two disagreed as they come, a text each: what stands in the value behind the key `a`, or None for a fault
DISAGREED = {
    "? inside words in braces": ("{x: 1, a: b.? c}", "b.? c"),
    "? behind a name in braces": ("{a?: b, a: c}", "c"),
    "tab behind the colon": ("a:\tb", "b"),
    "tab before a comment": ("a: b\t# c", "b"),
    "tab in a value of two lines": ("a: b\n \tc", "b c"),
    "tab that indents": ("x:\n\ta: b", None),
    "tab under | ": ("a: |\n \tx", None),
    "tab behind a dash": ("-\ta: b", None),
    "colon and comma": ("{a: b:, c: d}", None),
    "half a character": ('a: "\\ud800"', None),
    "beyond the last character": ('a: "\\U00110000"', None),
    "unknown instruction": ("%FOO\n---\na: b", None),
    "byte order mark at a line's start": ("a: b\n\ufeffc: d", None),
    "byte order mark in a value": ("a: b\ufeffc\nd: e", "b\ufeffc"),
    "no value in braces": ("{a:   , b: c}", ""),
    "open brace at the end": ("-\n{", None),
    "half a type": ("a: !,", None),
    "deep": ("a: " + "[" * 1200, None),
    "deep, in block": ("".join(" " * depth + "a:\n" for depth in range(1100)), None),
}


@C_PART
@pytest.mark.parametrize("case", DISAGREED)
def test_where_the_two_parsers_disagreed_they_agree(case, monkeypatch):
    text, value = DISAGREED[case]
    nodes, faults = composed(text, PythonLoader, monkeypatch)
    assert (nodes, faults) == composed(text, yaml.CBaseLoader, monkeypatch)
    assert (value is None) == bool(faults)
    if value is not None:
        values = [node[2] for node in nodes[::2] if node[0] is yaml.ScalarNode]
        assert value in values


@C_PART
@pytest.mark.parametrize(
    ("seed", "rounds"), [(1, 300), pytest.param(2, 12_000, marks=pytest.mark.slow)], ids=["few", "many"]
)
def test_mutated_texts_read_the_same_and_every_mark_counts_characters(seed, rounds, monkeypatch, tell):
    chance = random.Random(seed)
    paths = [path for folder in (*DEMO, *BAD) for path in folder.glob("*.yml")]
    texts = [text for path in paths if (text := path.read_bytes().decode("utf-8-sig", "ignore")).strip()]
    read: Counter[bool] = Counter()
    for _ in range(rounds):
        text = mutated(chance, some_lines(chance, chance.choice(texts)), chance.randrange(1, 5)).removeprefix("\ufeff")
        in_c = composed(text, yaml.CBaseLoader, monkeypatch)
        assert composed(text, PythonLoader, monkeypatch) == in_c, repr(text)
        read[not in_c[1]] += 1
        begins = [0, *(found.end() for found in re.finditer("\r\n|[\r\n\x85\u2028\u2029]", text)), len(text)]
        for marks in in_c[0][1::2]:
            for line, column, index in marks:  # a mark behind the last line stands at the text's end
                assert min(begins[min(line, len(begins) - 1)] + column, len(text)) == index, repr(text)
    assert min(read[True], read[False]) > rounds / 10
    tell(f"{read[True]} of {rounds} mutated texts were read, the others had the same faults")


def test_without_the_c_part_the_parser_in_python_reads(monkeypatch):
    """What the module chooses when it is loaded where PyYAML has no C part."""
    import importlib

    monkeypatch.delattr(yaml, "CBaseLoader", raising=False)
    try:
        assert importlib.reload(yamltext)._Loader is PythonLoader
    finally:
        monkeypatch.undo()
        importlib.reload(yamltext)

"""YAML as text: every scalar stays as typed, every key keeps its line, nothing is shared, tagged or repeated."""

from __future__ import annotations

import re
from collections.abc import MutableMapping
from pathlib import Path
from typing import Any

import yaml

from aswired.text.diagnostics import FaultList, Location
from aswired.text.inpython import PythonLoader
from aswired.text.ordinary import NotOrdinary, TooLarge, link_trouble, read_ordinary
from aswired.text.source import Source, shown
from aswired.text.yamlerror import yaml_fault

_Loader: Any = getattr(yaml, "CBaseLoader", PythonLoader)  # the C parser is 8 times faster where it is built in
_PLAIN_TAGS = {"tag:yaml.org,2002:str", "tag:yaml.org,2002:map", "tag:yaml.org,2002:seq"}
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f]")
_LARGEST_BYTES = 4_000_000


def first_key(name: str) -> str:
    """The key that a job file usually begins with."""
    return {"harness.yml": "wires"}.get(name, name.removesuffix(".yml"))


def _begin_or_take_out(name: str) -> str:
    if name == "job.yml":
        return "Write job: and a title, then changes: and the first row"
    return f"Write {first_key(name)}: and what belongs there, or take the file out"


def read_source(
    path: Path, name: str, faults: FaultList, texts: MutableMapping[str, bytes] | None = None
) -> tuple[Source, str] | None:
    """The text of a file, or None and a fault when it is missing, too large, not UTF-8 or no ordinary file of its
    folder.

    `texts`: name -> what stands in the file; one that is there is taken as it is, one that is not is put in as read.
    """
    texts = {} if texts is None else texts
    whole = Location(name)
    try:
        if name not in texts and (trouble := link_trouble(path)):
            faults.add("FIL01", whole, f"the file {trouble}", "Put the file itself in the link's place")
            return None
        data = texts[name] if name in texts else read_ordinary(path, _LARGEST_BYTES)
    except FileNotFoundError:
        faults.add("FIL01", whole, "the file is missing", f"Write {name} in the job folder")
        return None
    except NotOrdinary as thing:
        mend = f"Take it out, and write {name} as a file of text"
        faults.add("FIL01", whole, f"it cannot be read: it is {thing.what}, not a file", mend)
        return None
    except TooLarge:
        faults.add("FIL01", whole, "the file is larger than 4 MB", "A job file is text; keep pictures in photos/")
        return None
    except OSError as error:
        faults.add(
            "FIL01", whole, f"the file cannot be opened ({error.strerror})", "Check that it is a file you may read"
        )
        return None
    texts[name] = data
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        faults.add("FIL02", whole, "the file is saved as UTF-16", "Save it again with the encoding UTF-8")
        return None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = len((data[: error.start] + b"x").splitlines())
        typed = data.splitlines()[line - 1].decode("utf-8", "replace")
        faults.add(
            "FIL02",
            Location(name, line, shown(typed)),
            "the line holds a letter that is not UTF-8, shown here as \ufffd",
            "Save the file again with the encoding UTF-8",
        )
        return None
    return Source(name, tuple(text.splitlines())), text


def compose(source: Source, text: str, faults: FaultList) -> yaml.Node | None:
    """The document as nodes with line marks, or None and a fault."""
    if not text.strip():
        faults.add("FIL01", Location(source.name), "the file is empty", _begin_or_take_out(source.name))
        return None
    if not _unshared(source, text, faults):
        return None
    try:
        node: yaml.Node | None = yaml.compose(text, Loader=_Loader)
    except yaml.YAMLError as error:
        yaml_fault(source, text, error, faults)
        return None
    if node is None:
        faults.add("FIL01", Location(source.name), "the file holds only comments", _begin_or_take_out(source.name))
        return None
    return node if _plain(source, node, faults) else None


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
                    f"a value that begins with '{mark}' is read as a reference to another place of the file",
                    f'Write the value out in each place; if it is text, put it in quotes: "{mark}{anchor} ..."',
                )
                return False
    except yaml.YAMLError:
        return True  # compose tells the same error with its place
    return True


def _plain(source: Source, root: yaml.Node, faults: FaultList) -> bool:
    """Refuse tags, and control characters that came in as codes inside double quotes."""
    clean, todo = True, [root]
    while todo:
        node = todo.pop()
        if node.tag not in _PLAIN_TAGS:
            tag = node.tag.replace("tag:yaml.org,2002:", "!!")
            faults.add(
                "YML02",
                source.of(node),
                f"a value that begins with '{tag}' is read as a type, which job files do not have",
                f"Take '{tag}' out; if it is text, put the whole value in quotes",
            )
            clean = False
        if isinstance(node, yaml.MappingNode):
            for key, value in node.value:
                todo += (key, value)
        elif isinstance(node, yaml.SequenceNode):
            todo += node.value
        elif _CONTROL.search(node.value):
            faults.add(
                "YML02",
                source.of(node),
                "a code behind a '\\' puts a control character into the text",
                "Take the code out, or use single quotes if the '\\' itself is meant",
            )
            clean = False
    return clean

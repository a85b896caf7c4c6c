"""The format reference for people, made from the declarations in `record` and from the kinds of change."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from aswired.car.changes import KINDS
from aswired.rack.shelf import Rack
from aswired.record import Change, Job, Shop
from aswired.text.colours import WORDS
from aswired.text.schema import Choice, Depends, Key, Located, Many, Named, Record, Scalar, Value, keys_of

INTRODUCTION = """# The job format

A job is a folder below `jobs/`. A small job is one file, `job.yml`; a bigger one may put its sections into
`route.yml`, `harness.yml`, `changes.yml`, `photos.yml` and `readings.yml`, each key in one file only. `notes.md` is
free text for the shop's edition. What holds for every job of a shop stands in `jobs/shop.yml`; its offcuts in
`jobs/rack.yml`.

Every value is text: write it as you would on the tape. `unknown` is a value: it is shown, and never guessed.
*Needed* marks a key that must be there. *Shop only* marks a key that is left out of the owner's edition.
"""


def reference() -> str:
    """The whole reference as Markdown."""
    parts = [INTRODUCTION]
    parts += [_section(title, record) for title, record in _records()]
    parts.append(_kinds())
    parts.append(_forms())
    return "\n".join(parts)


def _records() -> Iterator[tuple[str, type[Located]]]:
    """Job first, then every record it holds, in the order met; the rows of the change list are told by kind."""
    seen: dict[type[Located], str] = {
        Job: "The job (top level)",
        Shop: "The shop (`shop.yml`)",
        Rack: "The rack (`rack.yml`)",
    }
    waiting: list[type[Located]] = [Job, Shop, Rack]
    while waiting:
        record = waiting.pop(0)
        if record is not Change:
            yield seen[record], record
        for written, (_, key) in keys_of(record).items():
            for inner in _inner(key.value):
                if inner not in seen:
                    seen[inner] = f"`{written}`"
                    waiting.append(inner)


def _inner(value: Value) -> Iterator[type[Located]]:
    if isinstance(value, Record):
        yield value.of
    elif isinstance(value, Many | Named):
        yield from _inner(value.item)
    elif isinstance(value, Depends):
        for case in (*value.cases.values(), value.otherwise):
            yield from _inner(case)


def _section(title: str, record: type[Located]) -> str:
    told = (record.__doc__ or "").strip()
    lines = [f"## {title}", "", told, "", _HEAD]
    lines += [_line(written, key) for written, (_, key) in keys_of(record).items()]
    return "\n".join(lines) + "\n"


_HEAD = "| key | how it is written | what it says |\n|---|---|---|"


def _line(written: str, key: Key) -> str:
    marks = "".join([" *Needed.*" if key.required else "", " *Shop only.*" if key.private else ""])
    example = f" Example: `{key.example}`." if key.example else ""
    return f"| `{written}` | {_cell(how(key.value))} | {_cell(key.help)}.{marks}{_cell(example)} |"


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def how(value: Value) -> str:
    """How a value is written, in words."""
    if isinstance(value, Scalar):
        return value.how
    if isinstance(value, Choice):
        return "one of: " + ", ".join(value.words)
    if isinstance(value, Many):
        return f"a list, or one alone: {how(value.item)}"
    if isinstance(value, Named):
        return f"each {value.what} with: {how(value.item)}"
    if isinstance(value, Record):
        keys = "its own keys, see " + _record_name(value.of)
        return f"{value.short.how}; or {keys}" if value.short else keys
    raise TypeError(f"the form hangs on {value.on}: see each kind")


def _record_name(record: type[Located]) -> str:
    return next((title for title, found in _records() if found is record), "the kinds of change").replace("`", "")


def _kinds() -> str:
    """The change list: keys of every row, then each kind with its own keys and an example."""
    keys = keys_of(Change)
    owned = {name for kind in KINDS for name in kind.keys}
    lines = ["## `changes`", "", "Keys that any row may have:", "", _HEAD]
    lines += [_line(written, key) for written, (_, key) in keys.items() if written not in owned]
    for kind in KINDS:
        needs = [" or ".join(f"`{name}`" for name in group) for group in kind.needs]
        told = f"{kind.means[:1].upper()}{kind.means[1:]}." + (f" Needs {', '.join(needs)}." if needs else "")
        lines += ["", f"### kind: {kind.name}", "", told, "", _HEAD]
        lines += [_line(name, _of_kind(keys[name][1], kind.name)) for name in kind.keys]
    return "\n".join(lines) + "\n"


def _of_kind(key: Key, kind: str) -> Key:
    """The key with the form that it has on rows of this kind."""
    value = key.value
    return replace(key, value=value.cases.get(kind, value.otherwise)) if isinstance(value, Depends) else key


def _forms() -> str:
    lines = ["## Colours", "", "Base, then stripes: `GN/WH`; `light` or `dark` may stand in front; words may be used."]
    lines += ["", "| code | word |", "|---|---|"]
    lines += [f"| {code} | {word} |" for code, word in WORDS.items()]
    return "\n".join(lines) + "\n"

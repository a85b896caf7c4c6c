"""From YAML nodes to the records of the model, by their declarations. Every value that cannot be read is one fault."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import yaml

from aswired.text.commas import Pair, put_together
from aswired.text.diagnostics import FaultList, Location, did_you_mean, near
from aswired.text.schema import Choice, Depends, Key, Located, Many, Named, Record, Scalar, Value, keys_of
from aswired.text.source import Source
from aswired.text.units import QuantityError

Pairs = tuple[Pair, ...]


@dataclass(frozen=True)
class Bad:
    """A value that could not be read; its fault is told. `rest` is what could be read of it, for further checks."""

    rest: Any = None


@dataclass
class Binder:
    """What one run of reading carries along: the faults, the donor's colour letters, those of each loom by its name."""

    faults: FaultList
    letters: Mapping[str, str] = field(default_factory=dict)
    looms: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    met: list[Located] = field(default_factory=list)  # every record met, also those that have a fault
    loom_letters: Mapping[str, str] = field(default_factory=dict)  # those of the record that is being read

    def record(
        self, kind: type[Located], pairs: Pairs, at: Location, entry: str, what: str, partial: bool = False
    ) -> Any:
        """A record from its key/value pairs; `Bad` when a required key is missing or a value is bad.

        `partial`: some of its keys could not be reached, so that none is called missing.
        """
        declared = keys_of(kind)
        values: dict[str, Any] = {}
        lines: dict[str, Location] = {}
        pairs, torn = put_together(pairs)
        texts = {str(key.value): node for _, key, node in pairs if isinstance(node, yaml.ScalarNode)}
        good = not torn
        around, of_loom = self.loom_letters, self._letters_of(declared, pairs, texts)
        for piece in torn:
            key, place = str(piece.key.value), piece.source.of(piece.key)
            lines.setdefault(key, place)
            is_list = key in declared and isinstance(self._resolve(declared[key][1].value, texts), Many)
            self.faults.add("YML05", place, piece.problem, piece.mend(is_list), entry)
        for source, key_node, node in pairs:
            key, place = str(key_node.value), source.of(key_node)
            if not isinstance(key_node, yaml.ScalarNode):
                self.faults.add("VAL01", place, f"a key of {what} is a list, not a word", KEY_VALUE, entry)
                good = False
                continue
            if key in lines:
                self.faults.add(
                    "YML04",
                    place,
                    f"'{key}' is written twice",
                    f"Keep one; the other is in line {lines[key].line}",
                    entry,
                )
                good = False
                continue
            lines[key] = place
            if key not in declared:
                self._unknown_key(key, place, declared, entry, what)
                good = False
                continue
            attribute, spec = declared[key]
            if key == "loom":
                good = self._loom_is_declared(source, node, entry) and good
            self.loom_letters = of_loom
            value = self.value(self._resolve(spec.value, texts), source, node, place, spec, entry)
            self.loom_letters = around
            if isinstance(value, Bad):
                good, value = False, value.rest
            if value is not None:
                values[attribute] = value
        for key, (_, spec) in declared.items():
            if spec.required and not partial and key not in lines:
                form = f"as in {spec.example}" if spec.example else _form(spec.value)
                mend = f"Add '{key}:', {spec.help}" + (f" ({form})" if form else "")
                self.faults.add("KEY02", at, f"{what} has no '{key}:'", mend, entry)
                good = False
        made = kind(at=at, lines=lines, **values)
        self.met.append(made)
        return made if good else Bad(made)

    def _letters_of(
        self, declared: Mapping[str, Any], pairs: Pairs, texts: Mapping[str, yaml.ScalarNode]
    ) -> Mapping[str, str]:
        """The colour letters of the loom that a record is, or belongs to; else the job's."""
        own = next((letters_in(node) for _, key, node in pairs if key.value == "colour letters"), None)
        if "colour letters" in declared:
            return own or self.letters
        named = texts.get("loom") if "loom" in declared else None
        return self.looms.get(_name(named), self.letters) if named is not None else self.letters

    def _loom_is_declared(self, source: Source, node: yaml.Node, entry: str) -> bool:
        if not isinstance(node, yaml.ScalarNode) or not node.value.strip() or _name(node) in self.looms:
            return True  # a value of the wrong shape is told by its own reader
        name = _name(node)
        mend = did_you_mean(name, self.looms, f"Declare it: looms: {{{name}: {{donor: ...}}}}")
        self.faults.add("VAL03", source.of(node), f"'{name}' is not a loom of this job", mend, entry)
        return False

    @staticmethod
    def _resolve(value: Value, texts: Mapping[str, yaml.ScalarNode]) -> Value:
        if isinstance(value, Depends):
            chosen = texts.get(value.on)
            return value.cases.get(chosen.value, value.otherwise) if chosen is not None else value.otherwise
        return value

    def _unknown_key(
        self,
        key: str,
        place: Location,
        declared: Mapping[str, tuple[str, Key]],
        entry: str,
        what: str,
    ) -> None:
        known = ", ".join(near(key, declared)) or ""
        mend = f"Did you mean {known.replace(', ', ' or ')}?" if known else "Take it out, or put the words in 'note:'"
        if "note" not in declared and not known:
            mend = "Take it out; the reference lists the keys that belong here"
        self.faults.add("KEY01", place, f"'{key}' is not a key of {what}", mend, entry)

    def value(self, value: Value, source: Source, node: yaml.Node, place: Location, spec: Key, entry: str) -> Any:
        """One value by its declaration; None for an empty list, `Bad` after a fault."""
        if isinstance(value, Scalar | Choice):
            return self._scalar(value, source, node, place, spec, entry)
        if isinstance(value, Many):
            return self._many(value, source, node, place, spec, entry)
        if isinstance(value, Named):
            return self._named(value, source, node, place, spec, entry)
        if isinstance(value, Record):
            return self._record(value, source, node, spec, entry)
        raise TypeError(f"no way to read {value!r}")

    def _scalar(
        self, value: Scalar | Choice, source: Source, node: yaml.Node, place: Location, spec: Key, entry: str
    ) -> Any:
        if not isinstance(node, yaml.ScalarNode):
            found = "a list" if isinstance(node, yaml.SequenceNode) else "keys"
            self.faults.add(
                "VAL01",
                place,
                f"'{spec.key}' wants one value, not {found}",
                f"Write one value: {_form(value) or spec.help}",
                entry,
            )
            return Bad()
        text = node.value
        if not text.strip():
            self.faults.add(
                "VAL02",
                place,
                f"'{spec.key}' is empty",
                f"Write a value: {_form(value) or spec.help}; or take '{spec.key}:' out",
                entry,
            )
            return Bad()
        if isinstance(value, Choice):
            word = " ".join(text.split())
            if word not in value.words:
                mend = did_you_mean(word, value.words, "Write one of: " + ", ".join(value.words))
                self.faults.add("VAL03", source.of(node), f"'{word}' is not a word for '{spec.key}'", mend, entry)
                return Bad()
            return word
        try:
            return value.read(text, self.loom_letters if value.by_loom else self.letters)
        except QuantityError as error:
            self.faults.add("VAL04", source.of(node), f"{spec.key}: {error.problem}", error.mend, entry)
            return Bad()

    def _many(self, value: Many, source: Source, node: yaml.Node, place: Location, spec: Key, entry: str) -> Any:
        if isinstance(node, yaml.ScalarNode) and not node.value.strip():
            return None
        items = node.value if isinstance(node, yaml.SequenceNode) else [node]
        if isinstance(node, yaml.ScalarNode) and "," in node.value and not isinstance(value.item, Record):
            return self._comma_list(value, source, node, place, spec, entry)
        found = [self._item(value.item, source, item, spec, entry) for item in items]
        return _together(found)

    def _comma_list(
        self, value: Many, source: Source, node: yaml.ScalarNode, place: Location, spec: Key, entry: str
    ) -> Any:
        """`donor colours: BK, BN`: a list written on one line without brackets."""
        if value.item is not None and isinstance(value.item, Scalar) and value.item.name == "words":
            return (self._scalar(value.item, source, node, place, spec, entry),)
        found = []
        for part in node.value.split(","):
            single = yaml.ScalarNode(node.tag, part.strip(), node.start_mark, node.end_mark)
            found.append(self._item(value.item, source, single, spec, entry))
        return _together(found)

    def _item(self, value: Value, source: Source, node: yaml.Node, spec: Key, entry: str) -> Any:
        if isinstance(value, Record):
            return self._record(value, source, node, spec, entry)
        return self.value(value, source, node, source.of(node), spec, entry)

    def _named(self, value: Named, source: Source, node: yaml.Node, place: Location, spec: Key, entry: str) -> Any:
        if isinstance(node, yaml.ScalarNode) and not node.value.strip():
            return None
        if not isinstance(node, yaml.MappingNode):
            self.faults.add(
                "VAL01",
                place,
                f"'{spec.key}' wants names, each with a value of its own",
                f"Write one {value.what} to a line: its name, a colon, its value",
                entry,
            )
            return Bad()
        found: dict[str, Any] = {}
        seen: dict[str, int] = {}
        pairs, torn = put_together(tuple((source, key, item) for key, item in node.value))
        good = not torn
        for piece in torn:
            seen[piece.key.value] = piece.key.start_mark.line + 1
            mend = piece.mend(isinstance(value.item, Many))
            self.faults.add("YML05", source.of(piece.key), piece.problem, mend, entry or piece.key.value)
        for _, key_node, item in pairs:
            if not isinstance(key_node, yaml.ScalarNode) or not key_node.value.strip():
                self.faults.add(
                    "VAL01",
                    source.of(key_node),
                    f"a {value.what} in '{spec.key}' has no name",
                    "Write a name, a colon, the value",
                    entry,
                )
                good = False
                continue
            name = " ".join(key_node.value.split())
            line = source.of(key_node)
            if name in seen:
                self.faults.add(
                    "YML04",
                    line,
                    f"'{name}' is written twice in '{spec.key}'",
                    f"Keep one; the other is in line {seen[name]}",
                    entry or name,
                )
                good = False
                continue
            seen[name] = line.line
            named_spec = Key(name, value.item, spec.help, "", False, spec.private)
            result = self._named_item(value.item, source, item, line, named_spec, entry or name, value.what)
            if isinstance(result, Bad):
                good = False
            else:
                found[name] = result
        return found if good else Bad()

    def _named_item(
        self, value: Value, source: Source, node: yaml.Node, line: Location, spec: Key, entry: str, what: str
    ) -> Any:
        if isinstance(value, Record) and isinstance(node, yaml.MappingNode):
            pairs = tuple((source, key, item) for key, item in node.value)
            return self.record(value.of, pairs, line, entry, f"the {what} {spec.key}")
        if (
            isinstance(value, Record)
            and value.short is None
            and isinstance(node, yaml.ScalarNode)
            and not node.value.strip()
        ):
            return self.record(value.of, (), line, entry, f"the {what} {spec.key}")
        if isinstance(value, Record):
            return self._record(value, source, node, spec, entry)
        return self.value(value, source, node, line, spec, entry)

    def _record(self, value: Record, source: Source, node: yaml.Node, spec: Key, entry: str) -> Any:
        at = source.of(node)
        if isinstance(node, yaml.ScalarNode) and value.short is not None and value.expand is not None:
            short = self._scalar(value.short, source, node, at, spec, entry)
            return short if isinstance(short, Bad) else value.of(at=at, **value.expand(short))
        what = _WHAT.get(value.of.__name__, f"'{spec.key}'")
        if not isinstance(node, yaml.MappingNode):
            self.faults.add(
                "VAL01",
                at,
                f"{what} wants keys with values, not '{_shown(node)}'",
                f"Write its keys, each with a colon and a value: {', '.join(list(keys_of(value.of))[:3])} ...",
                entry,
            )
            return Bad()
        pairs = tuple((source, key, item) for key, item in node.value)
        ids = [item.value for key, item in node.value if key.value == "id" and isinstance(item, yaml.ScalarNode)]
        return self.record(value.of, pairs, at, entry or "".join(ids[:1]), f"{what} {ids[0]}" if ids else what)


def letters_in(node: yaml.Node) -> dict[str, str]:
    """`{L: BU}` as letter -> word; what has another shape is left out here and told by its reader."""
    pairs = node.value if isinstance(node, yaml.MappingNode) else []
    both = [(a, b) for a, b in pairs if isinstance(a, yaml.ScalarNode) and isinstance(b, yaml.ScalarNode)]
    return {letter.value: word.value for letter, word in both}


def _name(node: yaml.ScalarNode) -> str:
    return " ".join(node.value.split())


KEY_VALUE = "Write a word, a colon, a value"
_WHAT = {
    "Change": "the change",
    "Photo": "the photo",
    "MeterReading": "the reading",
    "Leg": "a leg of the route",
    "Mark": "a mark",
    "Accepted": "an accepted finding",
    "Usual": "the house method",
}


def _together(items: list[Any]) -> Any:
    """The items of a list; what could be read of them when one is bad, unless a part is wholly missing."""
    if not any(isinstance(item, Bad) for item in items):
        return tuple(items)
    rest = [item.rest if isinstance(item, Bad) else item for item in items]
    return Bad(None if any(item is None for item in rest) else tuple(rest))


def _shown(node: yaml.Node) -> str:
    return str(node.value)[:40] if isinstance(node, yaml.ScalarNode) else "a list"


def _form(value: Value) -> str:
    """How a value is written, for the end of a mend line; '' for any words."""
    if isinstance(value, Scalar):
        return "" if value.name == "words" else value.how
    if isinstance(value, Choice):
        return " or ".join(value.words)
    if isinstance(value, Many) and isinstance(value.item, Record):
        told = [f"{key}: {spec.example}" for key, (_, spec) in keys_of(value.item.of).items() if spec.example]
        return "one row: - {" + ", ".join(told[:3]) + "}"
    return ""

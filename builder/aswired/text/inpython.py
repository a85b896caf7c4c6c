"""The YAML parser in Python, made to read as the one in C does; it serves where PyYAML was built without its C part.

As they come the two disagree: the one in C lets a `?` stand inside words in braces, takes tabs behind values and
refuses them where they would indent, and says what is wrong in other words. A job must not depend on how a library
was built on a machine, so the parser in Python gives way at each of these places.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import yaml
from yaml.composer import ComposerError
from yaml.parser import ParserError
from yaml.scanner import ScannerError

_BREAKS = "\r\n\x85\u2028\u2029"
_BREAKZ = "\0" + _BREAKS
_BLANKZ = "\0 \t" + _BREAKS
_TAG_SIGNS = "-;/?:@&=+$_.!~*'()%"
_BOM = "\ufeff"
_DEEPEST = 1000  # levels that the parser in C takes

_PLAIN = "while scanning a plain scalar"
_BLOCK = "while scanning a block scalar"
_QUOTED = "while scanning a quoted scalar"
_ESCAPE = "while parsing a quoted scalar"

# what the parser in Python says -> what the one in C says
_SAYINGS = (
    (r"expected the node content, but found .*", "did not find expected node content"),
    (r"expected ('?<document start>'?), but found .*", "did not find expected <document start>"),
    (r"expected ',' or '(.)', but got .*", r"did not find expected ',' or '\1'"),
    (r"(sequence entries) are not allowed here", r"block \1 are not allowed in this context"),
    (r"(mapping \w+) are not allowed here", r"\1 are not allowed in this context"),
    (r"found character .* that cannot start any token", "found character that cannot start any token"),
    (r"expected alphabetic or numeric character, .*", "did not find expected alphabetic or numeric character"),
    (r"found undefined tag handle .*", "found undefined tag handle"),
    (r"found incompatible YAML document .*", "found incompatible YAML document"),
)
_BLOCK_END = {
    "while parsing a block mapping": "did not find expected key",
    "while parsing a block collection": "did not find expected '-' indicator",
}
_KINDS: dict[Any, tuple[Any, str]] = {
    yaml.ScalarEvent: (yaml.ScalarNode, "tag:yaml.org,2002:str"),
    yaml.SequenceStartEvent: (yaml.SequenceNode, "tag:yaml.org,2002:seq"),
    yaml.MappingStartEvent: (yaml.MappingNode, "tag:yaml.org,2002:map"),
}
_Base: Any = yaml.BaseLoader  # its methods have no types


class PythonLoader(_Base):  # type: ignore[misc]
    """As `yaml.CBaseLoader`: the same nodes, styles and marks of a text, or an error that says the same."""

    column: int
    line: int
    allow_simple_key: bool

    def __init__(self, stream: str) -> None:
        super().__init__(stream.removeprefix(_BOM))

    def get_single_node(self) -> Any:
        """The document's root.

        Raises:
            yaml.YAMLError: in the words of the parser in C.
        """
        try:
            return super().get_single_node()
        except (ScannerError, ParserError, ComposerError) as error:
            problem = str(error.problem)  # a sentence is all there is: see `yamlerror`
            if problem.startswith("expected <block end>"):
                problem = _BLOCK_END[str(error.context)]
            for said, as_in_c in _SAYINGS:
                problem = re.sub(said, as_in_c, problem, flags=re.DOTALL)
            error.problem = problem
            raise

    # ---- levels ----
    def compose_node(self, parent: yaml.Node | None, index: Any) -> yaml.Node | None:
        """A node and all below it, level by level. There are no aliases: `compose` refuses them."""
        root: yaml.Node | None = None
        open_ones: list[tuple[yaml.CollectionNode, list[yaml.Node]]] = []  # collections begun, what stands in them
        while True:
            event = self.get_event()
            if isinstance(event, yaml.CollectionEndEvent):
                node, found = open_ones.pop()
                node.end_mark = event.end_mark
                in_pairs = isinstance(node, yaml.MappingNode)
                node.value = list(zip(found[::2], found[1::2], strict=True)) if in_pairs else found
            else:
                made = self._begun(event)
                root = root or made
                if open_ones:
                    open_ones[-1][1].append(made)
                if isinstance(made, yaml.CollectionNode):
                    open_ones.append((made, []))
            if not open_ones:
                return root

    @staticmethod
    def _begun(event: Any) -> Any:
        """The node of an event, of a collection without what stands in it."""
        kind, default = next(kind for of, kind in _KINDS.items() if isinstance(event, of))
        tag = default if event.tag in (None, "!") else event.tag
        if isinstance(event, yaml.ScalarEvent):
            return kind(tag, event.value, event.start_mark, event.end_mark, style=event.style)
        return kind(tag, [], event.start_mark, event.end_mark, flow_style=event.flow_style)

    def add_indent(self, column: int) -> Any:
        """Go a level in, if the column is further in."""
        if column > self.indent:
            self._deeper("block", 1)
        return super().add_indent(column)

    def fetch_flow_collection_start(self, token_class: Any) -> None:
        """A bracket or brace opens."""
        self._deeper("flow", 0)
        super().fetch_flow_collection_start(token_class)

    def _deeper(self, what: str, more: int) -> None:
        if self.flow_level + len(self.indents) + more >= _DEEPEST:
            here = self.get_mark()
            raise ScannerError(f"while increasing {what} level", here, "exceeded maximum nesting depth", here)

    # ---- empty values in braces: they stand in front of what follows ----
    def parse_flow_mapping_value(self) -> Any:
        """The value of a key in braces."""
        return self._value_or_empty(self.parse_flow_mapping_key, (yaml.FlowEntryToken, yaml.FlowMappingEndToken))

    def parse_flow_sequence_entry_mapping_value(self) -> Any:
        """The value of a key in brackets."""
        then = self.parse_flow_sequence_entry_mapping_end
        return self._value_or_empty(then, (yaml.FlowEntryToken, yaml.FlowSequenceEndToken))

    def _value_or_empty(self, then: Callable[[], Any], ends: tuple[type[yaml.Token], ...]) -> Any:
        if self.check_token(yaml.ValueToken):
            self.get_token()
            if not self.check_token(*ends):
                self.states.append(then)
                return self.parse_flow_node()
        self.state = then
        return self.process_empty_scalar(self.peek_token().start_mark)

    # ---- characters and lines ----
    def scan_directive_name(self, start_mark: Any) -> str:
        """The word behind a % that begins a line."""
        name: str = super().scan_directive_name(start_mark)
        if name not in ("YAML", "TAG"):
            raise ScannerError("while scanning a directive", start_mark, "found unknown directive name", start_mark)
        return name

    def forward(self, length: int = 1) -> None:
        """Go on; a byte order mark inside a text is a character like any other."""
        for _ in range(length):
            marked = self.peek() == _BOM
            super().forward()
            self.column += marked

    def scan_to_next_token(self) -> None:
        """Pass blanks, comments and line breaks; tabs too, but where they would indent."""
        while True:
            if self.column == 0 and self.peek() == _BOM:
                self.forward()
            while self.peek() == " " or ((self.flow_level or not self.allow_simple_key) and self.peek() == "\t"):
                self.forward()
            self._pass_comment()
            if not self.scan_line_break():
                return
            if not self.flow_level:
                self.allow_simple_key = True

    def _pass_comment(self) -> None:
        if self.peek() == "#":
            while self.peek() not in _BREAKZ:
                self.forward()

    def fetch_stream_end(self) -> None:
        """End; a last line without a line break counts as ended."""
        if self.column:
            self.column, self.line = 0, self.line + 1
            self.stale_possible_simple_keys()
        super().fetch_stream_end()

    def _at_document_mark(self) -> bool:
        return self.column == 0 and self.prefix(3) in ("---", "...") and self.peek(3) in _BLANKZ

    def scan_tag(self) -> Any:
        """A type that is written in front of a value; a comma in braces ends it."""
        start = self.get_mark()
        self.forward()
        whole = self.peek() == "<"
        if whole:
            self.forward()
        text = ""
        while (sign := self.peek()).isascii() and (sign.isalnum() or sign in _TAG_SIGNS + (",[]" if whole else "")):
            if sign == "%":
                text += self.scan_uri_escapes("tag", start)
                continue
            text += sign
            self.forward()
        handle, suffix = re.fullmatch(r"([A-Za-z0-9_-]*!)?(.*)", text, re.DOTALL).groups("")  # type: ignore[union-attr]
        closed = not whole or self.peek() == ">"
        if whole and closed:
            self.forward()
        ended = self.peek() in _BLANKZ or (self.flow_level and self.peek() == ",")
        if not closed or not ended or ((handle or whole) and not suffix):
            raise ScannerError("while scanning a tag", start, "did not find expected tag URI", self.get_mark())
        value = (None, text or "!") if whole or not text else (f"!{handle}", suffix)
        return yaml.TagToken(value, start, self.get_mark())

    # ---- values ----
    def scan_plain(self) -> Any:
        """A value without quotes; in braces a `?` may stand inside it."""
        start = end = self.get_mark()
        indent = self.indent + 1
        chunks: list[str] = []
        spaces, breaks = "", list[str]()  # what stands between two words: blanks, or line breaks
        while not self._at_document_mark() and self.peek() != "#":
            while (sign := self.peek()) not in _BLANKZ:
                if self.flow_level and sign == ":" and self.peek(1) in ",?[]{}":
                    raise ScannerError(_PLAIN, start, "found unexpected ':'", self.get_mark())
                if (sign == ":" and self.peek(1) in _BLANKZ) or (self.flow_level and sign in ",[]{}"):
                    break
                chunks += [_folded(breaks) if breaks else spaces, sign]
                spaces, breaks = "", []
                self.allow_simple_key = False
                self.forward()
                end = self.get_mark()
            if self.peek() not in " \t" + _BREAKS:
                break
            while self.peek() in " \t" + _BREAKS:
                if self.peek() in _BREAKS:
                    breaks.append(self.scan_line_break())
                    continue
                if breaks and self.column < indent and self.peek() == "\t":
                    problem = "found a tab character that violates indentation"
                    raise ScannerError(_PLAIN, start, problem, self.get_mark())
                spaces += self.peek()
                self.forward()
            if not self.flow_level and self.column < indent:
                break
        if breaks:
            self.allow_simple_key = True
        return yaml.ScalarToken("".join(chunks), True, start, end)

    def scan_flow_scalar_non_spaces(self, double: bool, start_mark: Any) -> list[str]:
        """Part of a value in quotes; a code that is no character is refused."""
        try:
            found: list[str] = super().scan_flow_scalar_non_spaces(double, start_mark)
        except ValueError:  # beyond the last character there is
            found = ["\ud800"]
        except ScannerError as error:
            error.context = _ESCAPE
            error.problem = (
                "found unknown escape character"
                if "unknown escape" in str(error.problem)
                else "did not find expected hexdecimal number"
            )
            raise
        if any("\ud800" <= sign <= "\udfff" for chunk in found for sign in chunk):
            raise ScannerError(_ESCAPE, start_mark, "found invalid Unicode character escape code", self.get_mark())
        return found

    def scan_flow_scalar_breaks(self, double: bool, start_mark: Any) -> Any:
        """Line breaks in a value in quotes."""
        try:
            return super().scan_flow_scalar_breaks(double, start_mark)
        except ScannerError:
            raise ScannerError(_QUOTED, start_mark, "found unexpected document indicator", self.get_mark()) from None

    def scan_block_scalar(self, style: str) -> Any:
        """A value behind | or >; a tab never indents it."""
        start = self.get_mark()
        self.forward()
        chomping, increment = self._block_header(start)
        least = max(self.indent + 1, 1)
        indent = increment and (self.indent + increment if self.indent >= 0 else increment)
        breaks, end, indent = self._block_breaks(indent, least, start)
        chunks: list[str] = []
        last, led_by_blank = "", False
        while self.column == indent and self.peek() != "\0":
            blank = self.peek() in " \t"
            if style == ">" and last == "\n" and not led_by_blank and not blank:
                chunks.append("" if breaks else " ")
            else:
                chunks.append(last)
            chunks += breaks
            led_by_blank = blank
            while self.peek() not in _BREAKZ:
                chunks.append(self.peek())
                self.forward()
            last = self.scan_line_break()
            breaks, end, indent = self._block_breaks(indent, least, start)
        if chomping != "-":
            chunks.append(last)
        if chomping == "+":
            chunks += breaks
        return yaml.ScalarToken("".join(chunks), False, start, end, style)

    def _block_header(self, start: Any) -> tuple[str, int]:
        """What stands behind the | or >: the sign that says what becomes of line breaks, and how far in it stands."""
        chomping, increment = "", 0
        for _ in range(2):
            sign = self.peek()
            if sign in "+-" and not chomping:
                chomping = sign
            elif sign in "0123456789" and not increment:
                increment = int(sign)
                if not increment:
                    raise ScannerError(_BLOCK, start, "found an indentation indicator equal to 0", self.get_mark())
            else:
                break
            self.forward()
        while self.peek() in " \t":
            self.forward()
        self._pass_comment()
        if self.peek() not in _BREAKZ:
            raise ScannerError(_BLOCK, start, "did not find expected comment or line break", self.get_mark())
        self.scan_line_break()
        return chomping, increment

    def _block_breaks(self, indent: int, least: int, start: Any) -> tuple[list[str], Any, int]:
        """Indentation and empty lines; `indent` 0 is found out here: as far in as the furthest of them."""
        breaks: list[str] = []
        furthest, end = 0, self.get_mark()
        while True:
            while (not indent or self.column < indent) and self.peek() == " ":
                self.forward()
            furthest = max(furthest, self.column)
            if (not indent or self.column < indent) and self.peek() == "\t":
                problem = "found a tab character where an indentation space is expected"
                raise ScannerError(_BLOCK, start, problem, self.get_mark())
            if self.peek() not in _BREAKS:
                return breaks, end, indent or max(furthest, least)
            breaks.append(self.scan_line_break())
            end = self.get_mark()


def _folded(breaks: list[str]) -> str:
    """Line breaks between two words as the value holds them: one is a blank, of several the first goes."""
    first, rest = breaks[0], "".join(breaks[1:])
    if first != "\n":
        return first + rest
    return rest or " "

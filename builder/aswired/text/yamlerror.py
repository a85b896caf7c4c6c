"""What the YAML parser says, in the words of the bench: where it began to go wrong, and what to type instead."""

from __future__ import annotations

import re

import yaml

from aswired.text.diagnostics import FaultList
from aswired.text.source import Source

# The parser has no codes: a place and an exception class are all that it gives beside its sentences, and each class
# stands for many causes. So its sentences are read here and in `inpython`, as versions 6 of the library say them, and a
# sentence that is not known is shown as it is.
_TOO_DEEP = ("brackets or lists are nested too deep", "Take brackets out; a job needs four levels at most")
_INSTRUCTION = (
    "a line that begins with '%' is read as an instruction to the parser, which job files do not have",
    "Take the line out; if it is text, put the whole value in quotes",
)
_TYPE = (
    "a value that begins with '!' is read as a type, which job files do not have",
    "Put the whole value in quotes if it is text",
)
_QUOTE = ("a quote is opened in this line and never closed", "Close the quote")
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")

# what the parser says -> what is wrong, how to mend it; the place is where the parser stopped
_WORDS = (
    (
        "expected a single document",
        "the file holds more than one YAML document",
        "Take out the line '---' and keep one document",
    ),
    (
        "did not find expected key",
        "the line does not fit under the ones above: not lined up, or a quote or bracket closed too early",
        "Line keys up under each other, and look for the quote or bracket",
    ),
    (
        "did not find expected '-' indicator",
        "the line lines up with neither the rows of the list nor the keys of the row above",
        "Begin each row with '- ' in the same column, and line its keys up under the first one",
    ),
    (
        "block sequence entries are not allowed",
        "a list cannot begin behind a key in the same line",
        "Begin the list in the next line, each item with '- '",
    ),
    (
        "unknown escape character",
        "a '\\' inside double quotes begins a code, and this one is not known",
        "Use single quotes: '...'",
    ),
    ("nesting depth", *_TOO_DEEP),
)


def yaml_fault(source: Source, text: str, error: yaml.YAMLError, faults: FaultList) -> None:
    """Tell one error of the parser as a fault."""
    said = str(getattr(error, "problem", "") or getattr(error, "reason", "") or error)
    context = str(getattr(error, "context", "") or "")
    stopped = _line(source, getattr(error, "problem_mark", None))
    began = _line(source, getattr(error, "context_mark", None)) or stopped
    if "characters are not allowed" in said:
        line, problem, mend = _control(source, text)
    elif "quoted scalar" in context and ("end of stream" in said or "document indicator" in said):
        line, (problem, mend) = began, _QUOTE
    elif "flow mapping" in context or "flow sequence" in context:
        line, mend = began, "Close the bracket, and put a comma between the values"
        problem = "a bracket of this line is not closed, or a comma is missing in it"
        if stopped > began:
            problem = (
                f"the bracket opened in this line is not closed where line {stopped} begins, or a comma is missing"
            )
    elif any(part in words for part in ("tag", "directive", "incompatible") for words in (said, context)):
        line = began
        problem, mend = _INSTRUCTION if source.lines[began - 1].startswith("%") else _TYPE
    elif "expected ':'" in said:
        line, (problem, mend) = began, _no_colon(source.lines[began - 1] if began else "")
    elif "mapping values are not allowed" in said:
        line, problem, mend = _colon(source, error)
    elif "tab" in said or "cannot start any token" in said:
        line, (problem, mend) = stopped, _sign(source, error)
    else:
        known = [(words, how) for part, words, how in _WORDS if part in said or part in context]
        line = stopped or began
        problem, mend = (
            known[0]
            if known
            else (f"the file cannot be read as YAML here ({said})", "Compare the line with the one above it")
        )
    faults.add("YML01", source.at(line), problem, mend)


def _line(source: Source, mark: yaml.Mark | None) -> int:
    """The line of a mark, counted from 1; 0 without a mark. The end of the file counts to its last line."""
    return 0 if mark is None else min(mark.line + 1, len(source.lines))


def _control(source: Source, text: str) -> tuple[int, str, str]:
    found = _CONTROL.search(text)
    line = text.count("\n", 0, found.start()) + 1 if found else 1
    return (
        line,
        "the line holds a control character, shown here as \ufffd",
        "Take that character out, or type the line again",
    )


def _no_colon(line: str) -> tuple[str, str]:
    if "\u00a0" in line:
        return (
            "the line holds a no-break blank, which does not count as a blank behind the colon",
            "Type the blanks of this line again",
        )
    if re.match(r"\s*(- )?[^\s:]+:\S", line):
        return "no blank stands behind the colon of the key", "Write the key, a colon, a blank, the value"
    return "the line has no ': ' behind its key", "Write the key, a colon, a blank, the value"


def _colon(source: Source, error: yaml.YAMLError) -> tuple[int, str, str]:
    """The line, counted from 1, with what is wrong and its mend: a key may be one only by the line above it."""
    mark = error.problem_mark  # type: ignore[attr-defined]
    here = source.lines[mark.line]
    if re.search(r":\s", here[: mark.column]):
        mend = "Put the text in quotes, or leave no blank behind the inner colon"
        return mark.line + 1, "a second ': ' stands in the line", mend
    above = mark.line
    while above > 0 and _column(source.lines[above - 1]) == _column(here) and not _KEY.search(source.lines[above - 1]):
        above -= 1
    if above < mark.line:  # words that were meant as a key, and this line as their next
        return above + 1, *_no_colon(source.lines[above])
    return (
        mark.line + 1,
        "the line stands further in than the one above it, which has a value already",
        "Line its key up with the key above, or take the value of the line above out",
    )


_KEY = re.compile(r":(?:\s|$)")


def _column(line: str) -> int:
    """Where a line's words begin, behind the dash of a row."""
    return len(line) - len(re.sub(r"^(?:\s|- )*", "", line))


def _sign(source: Source, error: yaml.YAMLError) -> tuple[str, str]:
    mark = error.problem_mark  # type: ignore[attr-defined]
    line = source.lines[mark.line] if mark.line < len(source.lines) else ""
    if "\t" in line[: mark.column + 1]:
        return "a tab, shown here as →, stands where only blanks may stand", "Use blanks instead of the tab"
    sign = line[mark.column : mark.column + 1]
    return f"a value cannot begin with '{sign}'", "Put the value in quotes"

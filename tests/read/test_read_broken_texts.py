"""A text that cannot be read as YAML: the one line that has to be mended, what is wrong with it, what to write."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.files import read_job

QUOTE = ("a quote is opened in this line and never closed", "Close the quote")
BRACKET = "Close the bracket, and put a comma between the values"
SECOND = ("a second ': ' stands in the line", "Put the text in quotes, or leave no blank behind the inner colon")
FURTHER = (
    "the line stands further in than the one above it, which has a value already",
    "Line its key up with the key above, or take the value of the line above out",
)
KEY = "Write the key, a colon, a blank, the value"
NO_BLANK = ("no blank stands behind the colon of the key", KEY)
NO_COLON = ("the line has no ': ' behind its key", KEY)
NOT_UNDER = (
    "the line does not fit under the ones above: not lined up, or a quote or bracket closed too early",
    "Line keys up under each other, and look for the quote or bracket",
)
NO_ROW = (
    "the line lines up with neither the rows of the list nor the keys of the row above",
    "Begin each row with '- ' in the same column, and line its keys up under the first one",
)
ORDER = (
    "a line that begins with '%' is read as an instruction to the parser, which job files do not have",
    "Take the line out; if it is text, put the whole value in quotes",
)
BEGIN = "Write job: and a title, then changes: and the first row"


def as_type(sign: str) -> tuple[str, str]:
    return (
        f"a value that begins with '{sign}' is read as a type, which job files do not have",
        f"Take '{sign}' out; if it is text, put the whole value in quotes",
    )


def as_reference(sign: str) -> tuple[str, str]:
    return (
        f"a value that begins with '{sign[0]}' is read as a reference to another place of the file",
        f'Write the value out in each place; if it is text, put it in quotes: "{sign} ..."',
    )


@pytest.mark.parametrize(
    ("text", "line", "told"),
    [
        ('wires:\n  W1: "RD 1 mm2\n  W2: b\nplugs: {}', 3, QUOTE),
        ("wires:\n  W1: 'RD 1 mm2\n  W2: b", 3, QUOTE),
        ("wires: {W1: RD,\n  W2: b\nplugs: x\nfuses: y", 2, (
            "the bracket opened in this line is not closed where line 4 begins, or a comma is missing", BRACKET)),
        ("a: b\nwires: [a, b\nplugs: x", 3, (
            "the bracket opened in this line is not closed where line 4 begins, or a comma is missing", BRACKET)),
        ("wires: {a: b c: d}\nplugs: x", 2, (
            "a bracket of this line is not closed, or a comma is missing in it", BRACKET)),
        # the file ends there: no line behind the bracket's own is spoken of
        ("plugs: [P1, P2", 2, ("a bracket of this line is not closed, or a comma is missing in it", BRACKET)),
        ("plugs: lamp: x\nfuses: y", 2, SECOND),
        ("plugs: lamp\n  horn: x\nfuses: y", 3, FURTHER),
        ("  plugs: x\nfuses: y", 2, FURTHER),
        # a key that is none makes one of the next line that is sound: it is told itself, the first of several
        ("plugs:\n  lamp:x\n  horn: y", 3, NO_BLANK),
        ("plugs:\n  ring: x\n  lamp:x\n  horn:z\n  door: y", 4, NO_BLANK),
        ("changes:\n  - id:C1\n    kind: remove\n  - id: C2", 3, NO_BLANK),
        ("plugs:\n  lamp\n  horn: y", 3, NO_COLON),
        ("plugs:x\nfuses: y", 2, NO_BLANK),
        ("plugs\nfuses: y", 2, NO_COLON),
        ("plugs\n  lamp: x", 2, NO_COLON),
        ("plugs: x\nlamp:\u00a0y\nz: a", 3, (
            "the line holds a no-break blank, which does not count as a blank behind the colon",
            "Type the blanks of this line again")),
        ("plugs:\n\tlamp: x\nfuses: y", 3, (
            "a tab, shown here as →, stands where only blanks may stand", "Use blanks instead of the tab")),
        ("plugs:\n  lamp: \tx\n  a: @b\nfuses: y", 4, ("a value cannot begin with '@'", "Put the value in quotes")),
        ("plugs: `x\nfuses: y", 2, ("a value cannot begin with '`'", "Put the value in quotes")),
        ("plugs: %x\nfuses: y", 2, ("a value cannot begin with '%'", "Put the value in quotes")),
        ("plugs: - lamp\nfuses: y", 2, (
            "a list cannot begin behind a key in the same line",
            "Begin the list in the next line, each item with '- '")),
        ('plugs: "a\\qb"\nfuses: y', 2, (
            "a '\\' inside double quotes begins a code, and this one is not known", "Use single quotes: '...'")),
        ('plugs: "a\\x07b"\nfuses: y', 2, (
            "a code behind a '\\' puts a control character into the text",
            "Take the code out, or use single quotes if the '\\' itself is meant")),
        ("a: b\x07c\nd: e", 2, ("the line holds a control character, shown here as \ufffd",
                                "Take that character out, or type the line again")),
        ("plugs: !x y\nfuses: y", 2, as_type("!x")),
        ("wires: {a: [b, !x y]}\nfuses: y", 2, as_type("!x")),
        ("plugs: !!int 3\nfuses: y", 2, as_type("!!int")),
        ("a: b\nplugs: &a x\nlamp: *a", 3, as_reference("&a")),
        ("plugs: *a\nlamp: *a", 2, as_reference("*a")),
        ("%FOO\n---\nx: y", 2, ORDER),
        ("---\njob: Bus\nx: y", 2, ("the file holds more than one YAML document",
                                    "Take out the line '---' and keep one document")),
        ("wires:\n  W1: a\n W2: b\nfuses: y", 4, NOT_UNDER),
        ("- a\nfuses: y", 2, NOT_UNDER),
        ("plugs: [a]]\nfuses: y", 2, NOT_UNDER),
        ('plugs: "a" b\nfuses: y', 2, NOT_UNDER),
        ("changes:\n  - {id: C1}\n  -id: C2\n    kind: x", 4, NO_ROW),
        ("plugs: }\nfuses: y", 2, ("the file cannot be read as YAML here (did not find expected node content)",
                                   "Compare the line with the one above it")),
    ],
)  # fmt: skip
def test_the_line_that_is_broken_is_told_with_its_mend(
    text: str, line: int, told: tuple[str, str], tmp_path: Path
) -> None:
    (tmp_path / "job.yml").write_text(f"job: Van\n{text}\n", encoding="utf-8")
    (fault,) = read_job(tmp_path).faults
    assert (fault.at.file, fault.at.line, fault.problem, fault.mend) == ("job.yml", line, *told)
    refused = ("a value that begins with", "a code behind")  # YAML as it may be, which job files do not have
    assert fault.code == ("YML02" if told[0].startswith(refused) else "YML01")


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("# only\n", "the file holds only comments"),
        ("", "the file is empty"),
        ("  \n\n", "the file is empty"),
    ],
)
def test_a_file_with_nothing_in_it_says_how_to_begin(text: str, problem: str, tmp_path: Path) -> None:
    (tmp_path / "job.yml").write_text(text, encoding="utf-8")
    (fault,) = read_job(tmp_path).faults
    assert (fault.code, fault.at.file, fault.problem, fault.mend) == ("FIL01", "job.yml", problem, BEGIN)


def test_each_file_of_a_folder_is_told_by_itself(tmp_path: Path) -> None:
    (tmp_path / "job.yml").write_text("job: Van\nplugs: [a\n", encoding="utf-8")
    (tmp_path / "harness.yml").write_text("wires:\n  W1:RD\n  W2: b\n", encoding="utf-8")
    (tmp_path / "photos.yml").write_text("", encoding="utf-8")
    found = {fault.at.file: (fault.at.line, fault.code) for fault in read_job(tmp_path).faults}
    assert found["job.yml"] == (2, "YML01")
    assert found["photos.yml"][1] == "FIL01"
    assert found["harness.yml"] == (2, "YML01")

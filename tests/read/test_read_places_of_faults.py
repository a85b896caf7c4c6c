"""A fault names the line that has to be mended: a letter that begins its line, a quote that runs to the next mark."""

from __future__ import annotations

from pathlib import Path

from aswired.files import read_job
from aswired.text.diagnostics import Fault


def fault(folder: Path, typed: bytes) -> Fault:
    (folder / "job.yml").write_bytes(typed)
    (found,) = read_job(folder).faults
    return found


def test_a_bad_letter_at_the_beginning_of_a_line_is_told_of_that_line(tmp_path: Path) -> None:
    found = fault(tmp_path, b"job: Van\n\xf6l: 3\n")  # 0xf6 is an o with two dots in Latin-1, and no UTF-8
    assert (found.code, found.at.line, found.at.text) == ("FIL02", 2, "\ufffdl: 3")


def test_a_quote_that_is_open_where_a_new_document_begins_is_told_where_it_was_opened(tmp_path: Path) -> None:
    found = fault(tmp_path, b'job: "Van\n---\n')
    assert (found.at.line, found.problem) == (1, "a quote is opened in this line and never closed")

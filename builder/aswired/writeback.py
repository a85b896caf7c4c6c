"""Writing what was decided back into a job's own files, in place: everything that is not meant stays as it was typed.

Only text at the position of a YAML value is exchanged, so comments, order, quotes and line ends are kept. Before a file
is touched the new text is read back; it has to give the same job but for what was written.
"""

from __future__ import annotations

import dataclasses
import os
import re
import shutil
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import yaml

from aswired.colours import WORDS, Colour, read_colour
from aswired.model import Change, Job
from aswired.read import SHOP, job_files, read_job
from aswired.units import QuantityError
from aswired.written import read_offcut, read_piece

HEADER = "job.yml"
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9 ./+_-]*")  # needs no quotes anywhere in YAML
_BOM = "\ufeff"


class NotWritten(Exception):
    """Nothing was written; the words say why."""


@dataclass(frozen=True)
class NewPiece:
    """The piece of one wire of a row, as it shall stand in the file: `BU 18 AWG from R3`."""

    row: str
    wire: str
    text: str


@dataclass(frozen=True)
class _Edit:
    """Text put in place of the characters from `start` to `end`."""

    start: int
    end: int
    text: str


@dataclass(frozen=True)
class _File:
    """One file of a job: its text without byte order mark, line ends as they are, and its YAML nodes."""

    path: Path
    text: str
    mark: str
    root: yaml.MappingNode

    @property
    def line_end(self) -> str:
        return "\r\n" if "\r\n" in self.text else "\n"


def colour_as_written(colour: Colour, letters: Mapping[str, str]) -> str:
    """A colour so that a job with these letters of its own reads it back the same: in codes, else in words.

    Raises:
        NotWritten: neither reads back.

    >>> colour_as_written(Colour("", "BU", ("WH",)), {}), colour_as_written(Colour("", "BU", ("WH",)), {"BU": "BK"})
    ('BU/WH', 'blue/white')
    """
    parts = [colour.base or "", *colour.stripes]
    for spelled in ("/".join(parts), "/".join(WORDS.get(part, part) for part in parts)):
        text = f"{colour.shade} {spelled}".strip()
        try:
            read = read_colour(text, letters)
        except QuantityError:
            continue
        if (read.base, read.stripes, read.shade) == (colour.base, colour.stripes, colour.shade):
            return text
    raise NotWritten(f"'{colour.code}' cannot be written with the letters this job declares under 'colour letters:'.")


def write_pieces(job: Job, pieces: Sequence[NewPiece], offcuts: Mapping[str, str]) -> tuple[Path, ...]:
    """Set pieces on rows, and list offcuts that the job does not list yet.

    Args:
        job: as read from its folder just now.
        offcuts: name -> `RD 18 AWG 1900 mm, cross-linked`, for those that are not under `offcuts:`.

    Returns:
        The files that were changed; none when all of it stood there already.

    Raises:
        NotWritten: the folder has no place for it, or what was written would not read back. Nothing was changed.
        OSError: a file could not be written; each file is either as before or wholly written.
    """
    if job.folder is None:
        raise NotWritten("The job was not read from a folder.")
    missing = {name: text for name, text in offcuts.items() if name not in job.offcuts}
    files = [_open(path) for path in job_files(job.folder) if path.suffix == ".yml"]
    edits: dict[Path, list[_Edit]] = {file.path: [] for file in files}
    for piece in pieces:
        file, edit = _piece_edit(files, job, piece)
        edits[file.path].append(edit)
    first: Path | None = None
    if missing:
        file, found = _offcut_edits(files, missing)
        edits[file.path] += found
        first = file.path
    texts = {file.path: file.mark + _applied(file.text, edits[file.path]) for file in files if edits[file.path]}
    before = {file.path: file.mark + file.text for file in files}
    changed = {path: text for path, text in texts.items() if text != before[path]}
    try:
        _read_back(job, changed, _expected(job, pieces, missing))
    except QuantityError as error:
        raise NotWritten(f"The new text would have a fault: {error.problem}.") from None
    # what rows cut from is listed first: cut off between two files, the job has an offcut too many and no fault
    for path in sorted(changed, key=lambda path: path != first):
        _replace(path, changed[path])
    return tuple(changed)


def _open(path: Path) -> _File:
    text = path.read_bytes().decode("utf-8")
    mark = _BOM if text.startswith(_BOM) else ""
    text = text.removeprefix(_BOM)
    root = yaml.compose(text, Loader=yaml.BaseLoader)  # its marks count characters, which the parser in C need not
    if not isinstance(root, yaml.MappingNode):
        raise NotWritten(f"{path.name} does not begin with a key.")
    return _File(path, text, mark, root)


# ---- where things stand ---------------------------------------------------------------------------------------------
def _value(node: yaml.MappingNode, key: str) -> yaml.Node | None:
    return next((value for name, value in node.value if name.value == key), None)


def _row_node(files: Sequence[_File], row: Change) -> tuple[_File, yaml.MappingNode]:
    for file in files:
        rows = _value(file.root, "changes") if file.path.name == row.at.file else None
        for node in rows.value if isinstance(rows, yaml.SequenceNode) else [rows]:
            if isinstance(node, yaml.MappingNode) and node.start_mark.line + 1 == row.at.line:
                return file, node
    raise NotWritten(f"Row {row.id} was not found at {row.at}; the file was changed meanwhile. Run it again.")


def _piece_edit(files: Sequence[_File], job: Job, piece: NewPiece) -> tuple[_File, _Edit]:
    row = job.change(piece.row)
    if row is None:
        raise NotWritten(f"There is no row {piece.row}.")
    file, node = _row_node(files, row)
    wires = _value(node, "wires")
    if isinstance(wires, yaml.MappingNode):
        for name, value in wires.value:
            if " ".join(name.value.split()) == piece.wire and isinstance(value, yaml.ScalarNode):
                return file, _in_place(value, piece.text, file)
        raise NotWritten(f"Row {row.id} has no line for {piece.wire} under 'wires:'.")
    there = _value(node, "piece")
    if isinstance(there, yaml.ScalarNode):
        return file, _in_place(there, piece.text, file)
    beside = next((pair for pair in node.value if pair[0].value == "wire"), node.value[-1])
    return file, _beside(node, beside, "piece", piece.text, file)


def _offcut_edits(files: Sequence[_File], offcuts: Mapping[str, str]) -> tuple[_File, list[_Edit]]:
    for file in files:
        there = _value(file.root, "offcuts")
        if isinstance(there, yaml.MappingNode) and there.value:
            return file, [_beside(there, there.value[-1], name, text, file) for name, text in offcuts.items()]
        if there is not None:  # `offcuts:` with nothing behind it, or { }
            start, end = there.start_mark.index, there.end_mark.index
            inside = ", ".join(f"{_key(name)}: {_quoted(text)}" for name, text in offcuts.items())
            blank = " " if start == end and file.text[start - 1 : start] == ":" else ""
            return file, [_Edit(start, end, f"{blank}{{{inside}}}")]
    header = next((file for file in files if file.path.name == HEADER), files[0])
    if header.root.flow_style:
        inside = ", ".join(f"{_key(name)}: {_quoted(text)}" for name, text in offcuts.items())
        at = header.root.value[-1][1].end_mark.index
        return header, [_Edit(at, at, f", offcuts: {{{inside}}}")]
    end = header.line_end
    at = len(header.text.rstrip()) if header.root.end_mark.index >= len(header.text.rstrip()) else _last(header)
    lines = ["", "offcuts:", *(f"  {_key(name)}: {_plain_or_quoted(text)}" for name, text in offcuts.items())]
    return header, [_Edit(at, at, end.join(lines))]


def _last(file: _File) -> int:
    """The end of the last line of the document's last value, before `...` or what else may follow."""
    return _line_end_at(file.text, file.root.value[-1][1])


def _line_end_at(text: str, node: yaml.Node) -> int:
    """Where the line ends on which a value ends, its comment included."""
    at = node.end_mark.index
    if text[at - 1 : at] in ("\n", "\r") and at > node.start_mark.index:  # a value of several lines ends behind them
        return len(text[:at].rstrip("\r\n"))
    found = re.compile(r"\r?\n").search(text, at)
    return found.start() if found else len(text)


# ---- the text -------------------------------------------------------------------------------------------------------
def _in_place(node: yaml.ScalarNode, text: str, file: _File) -> _Edit:
    """A value exchanged for another in the same quotes."""
    start, end = node.start_mark.index, node.end_mark.index
    if " ".join(node.value.split()) == text:
        return _Edit(start, end, file.text[start:end])
    if node.style == "'":
        return _Edit(start, end, "'" + text.replace("'", "''") + "'")
    if node.style == '"':
        return _Edit(start, end, _quoted(text))
    if node.style in ("|", ">"):
        return _Edit(start, len(file.text[:end].rstrip()), _plain_or_quoted(text))
    return _Edit(start, end, _plain_or_quoted(text))


def _beside(node: yaml.MappingNode, pair: tuple[yaml.Node, yaml.Node], key: str, text: str, file: _File) -> _Edit:
    """A key with its value added to a mapping, behind another of its keys."""
    name, value = pair
    if node.flow_style:
        at = value.end_mark.index
        return _Edit(at, at, f", {_key(key)}: {_plain_or_quoted(text)}")
    at = _line_end_at(file.text, value)
    return _Edit(at, at, f"{file.line_end}{' ' * name.start_mark.column}{_key(key)}: {_plain_or_quoted(text)}")


def _key(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_.-]*[A-Za-z0-9_]", name) else _quoted(name)


def _plain_or_quoted(text: str) -> str:
    return text if _PLAIN.fullmatch(text) and not text.endswith(" ") else _quoted(text)


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _applied(text: str, edits: Sequence[_Edit]) -> str:
    """The text with every edit; of several at one place the first stands first."""
    parts, at = [], 0
    for edit in sorted(edits, key=lambda edit: edit.start):
        parts += [text[at : edit.start], edit.text]
        at = edit.end
    return "".join([*parts, text[at:]])


# ---- reading back and writing ---------------------------------------------------------------------------------------
def _expected(job: Job, pieces: Sequence[NewPiece], offcuts: Mapping[str, str]) -> Job:
    rows = {row.id: row for row in reversed(job.changes)}
    for piece in pieces:
        row, there = rows[piece.row], rows[piece.row].piece_of(piece.wire)
        if there is not None and " ".join(there.text.split()) == piece.text:
            continue  # left as typed
        read = read_piece(piece.text, job.colour_letters)
        if isinstance(row.wires, Mapping) and row.wires:
            rows[row.id] = dataclasses.replace(row, wires={**row.wires, piece.wire: read})
        else:
            rows[row.id] = dataclasses.replace(row, piece=read)
    changes = tuple(rows.get(row.id, row) if row is job.change(row.id) else row for row in job.changes)
    listed = {name: read_offcut(text, job.colour_letters) for name, text in offcuts.items()}
    return dataclasses.replace(job, changes=changes, offcuts={**job.offcuts, **listed})


def _read_back(job: Job, changed: Mapping[Path, str], expected: Job) -> None:
    """Read the folder as it would be, aside.

    Raises:
        NotWritten: it has a fault, or it is another job than meant.
    """
    if job.folder is None or not changed:
        return
    with tempfile.TemporaryDirectory() as aside:
        folder = Path(aside) / "job"
        folder.mkdir()
        for path in job_files(job.folder):
            text = changed.get(path)
            copy = folder / path.name
            copy.write_bytes(path.read_bytes() if text is None else text.encode("utf-8"))
        if (job.folder.parent / SHOP).is_file():
            shutil.copy(job.folder.parent / SHOP, Path(aside) / SHOP)
        got = read_job(folder)
    if got.job is None:
        raise NotWritten(f"The new text would have a fault: {got.faults[0].problem} ({got.faults[0].at}).")
    found = dataclasses.replace(got.job, slug=expected.slug, folder=expected.folder)
    if found != expected:
        raise NotWritten(
            "The new text would not read back as the same job; a file was changed meanwhile. Run it again."
        )


def _replace(path: Path, text: str) -> None:
    """Write a file so that it is at every moment either the old one or the new one."""
    path = path.resolve()  # a link stays a link
    handle, aside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(text.encode("utf-8"))
            stream.flush()
            os.fsync(stream.fileno())
        shutil.copymode(path, aside)
        os.replace(aside, path)
    except BaseException:
        Path(aside).unlink(missing_ok=True)
        raise

"""However a file is laid out: what is written reads back as meant and stands in one place, or nothing is written."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest

from aswired.files.writing import NewPiece, NotWritten, write_pieces
from aswired.text import yamltext
from aswired.text.inpython import PythonLoader
from writing.texts import HEAD, NEW, OFFCUT, OLD, PIECE, folder_of, laid_out, meant, one_place, plain, read, write

ROW = "  - {id: C1, kind: extend, wire: W1,⟦ piece: GN 18 AWG,⟧ gap: 1 m}\n"
BLOCK = """\
  - id: C1
    kind: extend
    wire: W1
⟦    piece: GN 18 AWG
⟧    gap: 1 m
"""
BRACES = ROW.strip(" -\n")
BEGUN = HEAD + "changes:\n"


def blocks(piece: str) -> str:
    """A job with one row in block style, the piece typed in this way."""
    return BEGUN + BLOCK.replace("    piece: GN 18 AWG\n", piece)


LAYOUTS = {
    "rows in braces": BEGUN + ROW,
    "rows in blocks": BEGUN + BLOCK + "  - {id: C2, kind: remove, wire: W2}\n",
    "no last line end": (BEGUN + ROW).rstrip("\n"),
    "dash in column 0": BEGUN + BLOCK.replace("⟦    piece", "⟦  piece").replace("⟧    gap", "⟧  gap")
    .replace("  - id", "- id").replace("\n    ", "\n  "),
    "dash in column 6": BEGUN + BLOCK.replace("  -", "      -").replace("\n    ", "\n        ")
    .replace("⟦    ", "⟦        ").replace("⟧    ", "⟧        "),
    "dash alone": BEGUN + BLOCK.replace("- id", "-\n    id"),
    "list in brackets": HEAD + f"changes: [{BRACES}]\n",
    "rows that share a line": HEAD + f"changes: [{{id: C2, kind: remove, wire: W2}}, {BRACES}]\n",
    "a single row without a list": HEAD + f"changes: {BRACES}\n",
    "the whole file in braces": '{job: Van, wires: {W1: "GN 18 AWG, F1 to lamp.1, 2 m"},'
    "⟪ offcuts: {O3: BU 18 AWG 2 m},⟫"
    f" changes: [{BRACES}]}}\n",
    "braces over lines": BEGUN + """\
  - {id: C1, kind: extend,
     wire: W1,   # the green one
⟦     piece: GN 18 AWG,
⟧     gap: 1 m,
    }
""",
    "comma behind the last": BEGUN + "  - {id: C1, kind: extend, gap: 1 m, wire: W1,⟦ piece: GN 18 AWG,⟧}\n",
    "no blanks": BEGUN + '  - {"id":C1,"kind":extend,"wire":W1,⟦"piece":GN 18 AWG,⟧"gap":1 m}\n',
    "keys in quotes": BEGUN + """\
  - 'id': C1
    "kind": extend
    'wire': W1
⟦    'piece': GN 18 AWG
⟧    gap: 1 m
""",
    "keys with question marks": BEGUN + """\
  - ? id
    : C1
    ? kind
    : extend
    ? wire
    : W1
⟦    ? piece
    : GN 18 AWG
⟧    ? gap
    : 1 m
""",
    "columns": BEGUN + """\
  - id:    C1
    kind:  extend      # made longer
    wire:  W1          # tape 7
⟦    piece: GN 18 AWG   # of his
⟧    gap:   1 m
""",
    "tabs behind values": BEGUN + "  - id:\tC1\n    kind:\textend\t# longer\n    wire:\tW1\n"
    "⟦    piece:\tGN 18 AWG\t\n⟧    gap: 1 m\n",
    "comments between": BEGUN + """\
  # the first
  - id: C1
    # longer
    kind: extend
    wire: W1

    # piece: BK
⟦    piece: GN 18 AWG
⟧    gap: 1 m
  # the next

# the end
""",
    "under a bar": blocks("    piece: |\n      GN 18 AWG\n"),
    "blank lines that count": BEGUN + BLOCK.replace("⟦", "    note: |+\n      two\n\n\n⟦"),
    "wire under a bar, blank lines kept": BEGUN + BLOCK.replace("wire: W1\n", "wire: |+\n      W1\n\n\n"),
    "folded, with a comment": blocks("    piece: >-  # of his\n      GN 18\n      AWG\n\n"),
    "in single quotes": blocks("    piece: 'GN 18 AWG'\n"),
    "in double quotes": blocks('    piece: "GN 18 AWG"\n'),
    "over two lines": blocks("    piece: GN\n      18 AWG\n"),
    "by wire": BEGUN + """\
  - id: C1
    kind: extend
    plug: lamp
    gap: 1 m
    wires:
      W1: GN 18 AWG
      # red
      W2: RD 18 AWG
""",
    "start mark and end mark": f"---\n{BEGUN}{ROW}# done\n...\n# behind the end\n",
    "signs of four bytes": "# \U0001f697 \U0001f50c\n" + BEGUN.replace("Van", "Van \U0001f600")
    + ROW.replace("kind", "note: \U0001f600 é, kind"),
    "byte order mark in a comment": "# \ufeff\n" + BEGUN + ROW,
    "old line ends": (BEGUN + BLOCK).replace("\n", "\r"),
    "mixed line ends": HEAD.replace("\n", "\r\n") + "changes:\n" + BLOCK,
    "line ends of other alphabets": BEGUN.replace("\n", "\x85") + BLOCK.replace("\n", "\u2028"),
    "empty lines and blanks at the end": BEGUN + ROW + "\n   \n\n",
    "no-break blanks": BEGUN.replace("Van", "Van\u00a0") + ROW + "# end\u00a0",
    "indented as a whole": "".join("  " + line for line in (BEGUN + BLOCK).splitlines(keepends=True))
    .replace("  ⟦", "⟦  ").replace("  ⟧", "⟧  ").replace("  ⟪", "⟪  ").replace("  ⟫", "⟫  "),
}  # fmt: skip
WAYS = {"": ("", "\n"), "crlf": ("", "\r\n"), "bom": ("\ufeff", "\n"), "two boms": ("\ufeff\ufeff", "\n")}
each_layout = pytest.mark.parametrize(  # the quick tests take one way for each layout, in turn
    ("layout", "way"),
    [
        pytest.param(layout, way, marks=() if number % len(WAYS) == turn else pytest.mark.slow)
        for number, layout in enumerate(LAYOUTS)
        for turn, way in enumerate(WAYS)
    ],
)
TYPED = (
    OLD, f"'{OLD}'", f'"{OLD}"', "GN\n      18 AWG", "GN\r\n      18 AWG", "|\n      GN 18 AWG", "|\r\n      GN 18 AWG",
    ">-  # of his\n      GN 18\n      AWG", ">-  # of his\r\n      GN 18\r\n      AWG",
)  # fmt: skip


def encoded(layout: str, way: str, piece: bool = True, offcuts: bool = True) -> bytes:
    mark, line_end = WAYS[way]
    text = laid_out(LAYOUTS[layout], piece, offcuts)
    return (mark + (text if line_end == "\n" else re.sub("\r?\n", line_end, text))).encode("utf-8")


def test_there_are_33_layouts_and_each_is_a_job(tmp_path):
    assert len(LAYOUTS) >= 33
    for number, layout in enumerate(LAYOUTS):
        read(folder_of(tmp_path, {"job.yml": encoded(layout, "")}, f"van-{number}"))


@each_layout
def test_a_piece_is_exchanged_and_nothing_else(tmp_path, layout, way):
    before = encoded(layout, way)
    folder = folder_of(tmp_path, {"job.yml": before})
    assert write(folder) == (folder / "job.yml",)
    after = (folder / "job.yml").read_bytes()
    there = one_place(before.decode(), after.decode(), TYPED)
    assert there is not None
    assert there.strip("'\"") == PIECE + ("  # of his" if layout == "folded, with a comment" else "")
    assert plain(after) == meant(plain(before), piece=True, offcut=False)
    assert [path.name for path in folder.iterdir()] == ["job.yml"]


@pytest.mark.parametrize(
    each_layout.args[0],
    [each for each in each_layout.args[1] if each.values[0] != "by wire"],  # there it stands behind its wire's name
)
def test_a_piece_is_added_beside_the_wire(tmp_path, layout, way):
    before = encoded(layout, way, piece=False)
    folder = folder_of(tmp_path, {"job.yml": before})
    write(folder)
    after = (folder / "job.yml").read_bytes()
    there = one_place(before.decode(), after.decode(), ("",))
    assert there is not None
    assert PIECE in there
    assert len(there) < len(PIECE) + 24
    assert plain(after) == meant(plain(before), piece=True, offcut=False)


@pytest.mark.parametrize("listed", ["listed", "not listed"])
@each_layout
def test_an_offcut_is_listed(tmp_path, layout, way, listed):
    before = encoded(layout, way, offcuts=listed == "listed")
    folder = folder_of(tmp_path, {"job.yml": before})
    write(folder, piece=False, offcut=True)
    after = (folder / "job.yml").read_bytes()
    there = one_place(before.decode(), after.decode(), ("",))
    assert there is not None
    assert OFFCUT in there
    assert plain(after) == meant(plain(before), piece=False, offcut=True)
    assert list(read(folder).offcuts) == [*(["O3"] if listed == "listed" else []), "R1"]


def test_behind_a_list_a_key_is_added_in_front_of_the_comment_of_the_next_row(tmp_path):
    row = "  - id: C1\n    kind: extend\n    plug: lamp\n    gap: 1 m\n    photos:\n      - P1  # with rule\n"
    rest = "\n  # the next one\n  - id: C2\n    kind: remove\n    wire: W2\nphotos: [{id: P1, file: photos/1.jpg}]\n"
    folder = folder_of(tmp_path, {"job.yml": (laid_out(BEGUN) + row + rest).encode()})
    write(folder)
    assert (folder / "job.yml").read_text() == laid_out(BEGUN) + row + f"    piece: {PIECE}\n" + rest


REFUSED = {
    "a value with a line break": (laid_out(BEGUN + ROW), "BU 18 AWG\n\n from O3"),
    "a value that is no piece": (laid_out(BEGUN + ROW), "blue"),
}  # fmt: skip


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_written_right_is_refused_and_nothing_is_changed(tmp_path, case):
    text, piece = REFUSED[case]
    folder = folder_of(tmp_path, {"job.yml": text.encode()})
    with pytest.raises(NotWritten):
        write_pieces(read(folder), [NewPiece("C1", "W1", piece)], {})
    assert (folder / "job.yml").read_text() == text


def test_without_the_c_part_the_same_is_written(tmp_path, monkeypatch):
    written = []
    for number, loader in enumerate((yamltext._Loader, PythonLoader)):
        monkeypatch.setattr(yamltext, "_Loader", loader)
        for layout in LAYOUTS:
            folder = folder_of(tmp_path, {"job.yml": encoded(layout, "crlf")}, f"{layout} {number}")
            write(folder, offcut=True)
            written.append((folder / "job.yml").read_bytes())
    assert written[: len(LAYOUTS)] == written[len(LAYOUTS) :]
    assert all(PIECE.encode() in data and OFFCUT.encode() in data for data in written)


@pytest.mark.parametrize("loader", [yamltext._Loader, PythonLoader], ids=["usual", "in Python"])
def test_the_demo_job_with_question_marks_in_braces_is_written(tmp_path, monkeypatch, loader):
    monkeypatch.setattr(yamltext, "_Loader", loader)
    demo = Path(__file__).parents[2] / "jobs" / "taken-over"
    files = {path.name: path.read_bytes() for path in demo.iterdir() if path.is_file()}
    folder = folder_of(tmp_path, files, "taken-over")
    piece = NewPiece("C10", "W9", "GY 1.0 mm2 from R1")
    assert b"tail-left.? " in files["job.yml"]
    write_pieces(read(folder), [piece], {"R1": "GY 1.0 mm2 2 m"})
    before, after = files["job.yml"].decode(), (folder / "job.yml").read_text(encoding="utf-8")
    new = [line for line in after.splitlines() if line not in before.splitlines()]
    gone = [line for line in before.splitlines() if line not in after.splitlines()]
    assert [line.replace("piece: GY 1.0 mm2 from R1", "piece: GY 1.0 mm2") for line in new if "C10" in line] == gone
    assert new[1:] == ["offcuts:", "  R1: GY 1.0 mm2 2 m"]
    assert read(folder).offcuts["R1"].length.mm == 2000


def test_a_link_stays_a_link_and_a_mode_stays(tmp_path):
    text = laid_out(BEGUN + ROW)
    folder = folder_of(tmp_path, {})
    kept = folder / "kept.text"
    kept.write_text(text)
    kept.chmod(0o640)
    (folder / "job.yml").symlink_to(kept)
    write(folder)
    assert (folder / "job.yml").is_symlink()
    assert PIECE in kept.read_text()
    assert kept.stat().st_mode & 0o777 == 0o640


def test_a_file_that_is_read_only_is_refused_in_plain_words(tmp_path):
    text = laid_out(BEGUN + ROW)
    folder = folder_of(tmp_path, {"job.yml": text.encode()})
    (folder / "job.yml").chmod(0o444)
    with pytest.raises(NotWritten, match=r"job\.yml is read-only"):
        write_pieces(read(folder), NEW, {})
    assert (folder / "job.yml").read_text() == text


def test_a_folder_that_is_read_only_is_refused_in_plain_words(tmp_path, monkeypatch):
    text = laid_out(BEGUN + ROW).encode()
    folder = folder_of(tmp_path, {"job.yml": text})
    real = os.access  # asked in the system's place, since for its administrator nothing is read-only
    monkeypatch.setattr(os, "access", lambda path, mode: Path(path) != folder.resolve() and real(path, mode))
    with pytest.raises(NotWritten, match=f"The folder {folder.resolve()} is read-only"):
        write(folder)
    assert (folder / "job.yml").read_bytes() == text

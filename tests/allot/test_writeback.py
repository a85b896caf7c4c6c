"""Writing a piece into a job's files exchanges that text and nothing else, and reads back as meant."""

from __future__ import annotations

import dataclasses
import difflib
import os
import textwrap
from pathlib import Path

import pytest

from allot.shop import HEAD, proposal, read, written
from aswired.cli import run as cli
from aswired.files.writing import NewPiece, NotWritten, colour_as_written, together, write_pieces
from aswired.rack import record
from aswired.record import Job
from aswired.text.colours import read_colour

pytestmark = pytest.mark.slow  # whole runs of the command

FORMS = {
    "flow row": ("- {id: C1, kind: extend, wire: W1, plug: lamp, piece: GN 18 AWG, gap: 1 m}  # why", "GN 18 AWG"),
    "block row": ("- id: C1\n    kind: extend\n    wire: W1\n    piece: GN 18 AWG  # green", "GN 18 AWG"),
    "single quotes": ("- {id: C1, kind: extend, wire: W1, piece: 'GN 18 AWG', gap: 1 m}", "GN 18 AWG"),
    "double quotes": ('- {id: C1, kind: extend, wire: W1, piece: "GN 18 AWG", gap: 1 m}', "GN 18 AWG"),
    "odd blanks": ("- {id: C1, kind: extend, wire: W1, piece:   GN   18 AWG  , gap: 1 m}", "GN   18 AWG"),
    "two lines": ("- id: C1\n    kind: extend\n    wire: W1\n    piece: GN\n      18 AWG", "GN\n      18 AWG"),
    "unknown": ("- {id: C1, kind: extend, wire: W1, piece: unknown, gap: 1 m}", "unknown"),
    "wires": ("- {id: C1, kind: extend, plug: lamp, wires: {W2: RD 18 AWG, W1: GN 18 AWG}, gap: 1 m}", "GN 18 AWG"),
    "wires in block": (
        "- id: C1\n    kind: extend\n    wires:\n      # the green one\n      W1: GN 18 AWG\n      W2: RD 18 AWG",
        "GN 18 AWG",
    ),
}  # fmt: skip
JOB = """\
# häuptling, and a long dash — so that bytes and letters differ
job: Van
wires:
  W1: GN 18 AWG, F1 to lamp.1, 2 m
  W2: RD 18 AWG, F2 to lamp.2, 2 m
offcuts:
  O3: BU 18 AWG 2 m
changes:
  {row}
# the end
"""


def changed_lines(before: str, after: str) -> tuple[list[str], list[str]]:
    lines = list(difflib.ndiff(before.splitlines(), after.splitlines()))
    return [line[2:] for line in lines if line[0] == "-"], [line[2:] for line in lines if line[0] == "+"]


@pytest.mark.parametrize("line_end", ["\n", "\r\n"], ids=["lf", "crlf"])
@pytest.mark.parametrize("mark", ["", "\ufeff"], ids=["", "bom"])
@pytest.mark.parametrize("form", FORMS)
def test_only_the_text_of_the_piece_changes(tmp_path, form, mark, line_end):
    row, old = FORMS[form]
    text = mark + JOB.replace("{row}", row).replace("\n", line_end)
    folder = tmp_path / "van"
    folder.mkdir()
    path = folder / "job.yml"
    path.write_bytes(text.encode())
    assert write_pieces(read(folder), [NewPiece("C1", "W1", "BU 18 AWG from O3")], {}) == (path,)
    start = text.rindex(old.replace("\n", line_end))
    after = text[:start] + "BU 18 AWG from O3" + text[start + len(old.replace("\n", line_end)) :]
    assert path.read_bytes().decode() == after


def test_a_row_without_a_piece_gets_one_beside_its_wire(tmp_path):
    for name, row, new in (
        ("flow", "- {id: C1, kind: extend, wire: W1, gap: 1 m}", "wire: W1, piece: BU 18 AWG from O3, gap: 1 m}"),
        (
            "block",
            "- id: C1\n    wire: W1    # tape 7\n    kind: extend",
            "# tape 7\n    piece: BU 18 AWG from O3\n    kind",
        ),
    ):
        folder = written(tmp_path, name, JOB.replace("{row}", row))
        write_pieces(read(folder), [NewPiece("C1", "W1", "BU 18 AWG from O3")], {})
        assert new in (folder / "job.yml").read_text()
        assert len(changed_lines(JOB.replace("{row}", row), (folder / "job.yml").read_text())[1]) == 1


ROW = FORMS["flow row"][0]
OFFCUTS = {
    "block": (
        "offcuts:\n  O3: BU 18 AWG 2 m   # good one\n",
        'O3: BU 18 AWG 2 m   # good one\n  R1: "GN 18 AWG 900 mm, PVC"\n',
    ),
    "flow": (
        "offcuts: {O3: BU 18 AWG 2 m}  # on hand\n",
        '{O3: BU 18 AWG 2 m, R1: "GN 18 AWG 900 mm, PVC"}  # on hand\n',
    ),
    "empty": ("offcuts:   # none yet\n", 'offcuts: {R1: "GN 18 AWG 900 mm, PVC"}   # none yet\n'),
    "braces": ("offcuts: {}\n", 'offcuts: {R1: "GN 18 AWG 900 mm, PVC"}\n'),
    "none": ("", '# the end\noffcuts:\n  R1: "GN 18 AWG 900 mm, PVC"\n'),
}


@pytest.mark.parametrize("line_end", ["\n", "\r\n"], ids=["lf", "crlf"])
@pytest.mark.parametrize("form", OFFCUTS)
def test_an_offcut_is_listed_where_offcuts_stand_or_at_the_end(tmp_path, form, line_end):
    there, new = OFFCUTS[form]
    text = JOB.replace("{row}", ROW).replace("offcuts:\n  O3: BU 18 AWG 2 m\n", there).replace("\n", line_end)
    folder = tmp_path / "van"
    folder.mkdir()
    (folder / "job.yml").write_bytes(text.encode())
    job = read(folder)
    write_pieces(job, [], {"R1": "GN 18 AWG 900 mm, PVC"})
    after = (folder / "job.yml").read_bytes().decode()
    assert new.replace("\n", line_end) in after
    assert [line for line in text.splitlines() if line not in after.splitlines()] in ([], [there.rstrip()])
    assert {name: cut.text for name, cut in read(folder).offcuts.items()} == {
        **{name: cut.text for name, cut in job.offcuts.items()},
        "R1": "GN 18 AWG 900 mm, PVC",
    }


def test_a_file_in_braces_and_one_with_an_end_mark_take_a_list_of_offcuts(tmp_path):
    whole = "{job: Van, changes: [{id: C1, kind: extend, wire: W1, was: 'GN 18 AWG, F1 to p.1'}]}\n"
    ended = (
        "job: Van\nchanges:\n  - {id: C1, kind: extend, wire: W1, was: 'GN 18 AWG, F1 to p.1'}\n...\n# after the end\n"
    )
    for name, text in (("whole", whole), ("ended", ended)):
        folder = written(tmp_path, name, text)
        write_pieces(read(folder), [], {"R1": "GN 18 AWG 900 mm", "R2": "BU 18 AWG 1 m"})
        assert list(read(folder).offcuts) == ["R1", "R2"]


def test_twice_is_once(tmp_path):
    folder = written(tmp_path, "van", JOB.replace("{row}", ROW))
    pieces, offcuts = [NewPiece("C1", "W1", "BU 18 AWG from R1")], {"R1": "BU 18 AWG 900 mm"}
    assert write_pieces(read(folder), pieces, offcuts) != ()
    text, stamp = (folder / "job.yml").read_bytes(), (folder / "job.yml").stat().st_mtime_ns
    assert write_pieces(read(folder), pieces, offcuts) == ()
    assert ((folder / "job.yml").read_bytes(), (folder / "job.yml").stat().st_mtime_ns) == (text, stamp)
    assert [path.name for path in folder.iterdir()] == ["job.yml"]  # nothing is left beside it


def test_a_file_changed_meanwhile_is_not_written(tmp_path):
    folder = written(tmp_path, "van", JOB.replace("{row}", ROW))
    job = read(folder)
    for other in ("job: Van\n\n", "job: Bus\n"):
        meanwhile = JOB.replace("{row}", ROW).replace("job: Van\n", other)
        (folder / "job.yml").write_text(meanwhile, encoding="utf-8")
        with pytest.raises(NotWritten, match="Run it again"):
            write_pieces(job, [NewPiece("C1", "W1", "BU 18 AWG from O3")], {})
        assert (folder / "job.yml").read_text(encoding="utf-8") == meanwhile


def test_what_would_not_read_back_is_not_written(tmp_path):
    folder = written(tmp_path, "van", JOB.replace("{row}", ROW))
    before = (folder / "job.yml").read_bytes()
    with pytest.raises(NotWritten, match="fault"):
        write_pieces(read(folder), [], {"R1": "GN 18"})
    assert (folder / "job.yml").read_bytes() == before


def test_a_failure_while_writing_leaves_the_old_file(tmp_path, monkeypatch):
    folder = written(tmp_path, "van", JOB.replace("{row}", ROW))
    before = (folder / "job.yml").read_bytes()

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(together.os, "replace", full)
    with pytest.raises(OSError, match="No space"):
        write_pieces(read(folder), [NewPiece("C1", "W1", "BU 18 AWG from O3")], {})
    assert (folder / "job.yml").read_bytes() == before
    assert [path.name for path in folder.iterdir()] == ["job.yml"]


def test_a_colour_is_written_so_that_the_jobs_own_letters_read_it_back():
    blue = read_colour("light BU/WH")
    assert colour_as_written(blue, {}) == "light BU/WH"
    letters = {"BU": "BK", "L": "BU"}  # a donor that writes BU for black
    assert colour_as_written(blue, letters) == "light blue/white"
    assert read_colour("light blue/white", letters).code == blue.code
    with pytest.raises(NotWritten):
        colour_as_written(blue, {"BU": "BK", "blue": "BK"})


DEMO = Path(__file__).parents[2] / "jobs"


def test_of_the_demo_truck_two_lines_change_and_it_stays_the_same_job(tmp_path):
    shop = tmp_path / "jobs"
    shop.mkdir()
    truck = shop / "trail-truck"
    truck.mkdir()
    for path in (DEMO / "trail-truck").glob("*.yml"):
        (truck / path.name).write_bytes(path.read_bytes())
    (shop / "rack.yml").write_text("rack:\n  R7: GN/WH 16 AWG 3 m, cross-linked, good\n")
    before = {path.name: path.read_text(encoding="utf-8") for path in truck.iterdir()}
    job, found = read(truck), proposal(truck)
    told = {
        cut.wanted.piece.row: f"{cut.offcut.colour.code} {cut.offcut.size.text} from {cut.offcut.name}"
        for cut in found.cuts
    }
    assert told  # the truck has planned rows
    assert len(record(found, job)) == 2
    after = read(truck)
    changes = tuple(
        row if row.id not in told else dataclasses.replace(row, piece=after.change(row.id).piece) for row in job.changes
    )
    assert {row: after.change(row).piece.text for row in told} == told
    assert _without_offcuts(dataclasses.replace(job, changes=changes)) == _without_offcuts(after)
    assert {name for name in after.offcuts if name not in job.offcuts} == {"R7"}
    gone, new = [], []
    for path in truck.iterdir():
        lines = changed_lines(before[path.name], path.read_text(encoding="utf-8"))
        gone, new = gone + lines[0], new + lines[1]
    assert len(gone) == len(told)
    assert len(new) == len(told) + 1  # the offcut's line
    assert proposal(truck).cuts == ()


def _without_offcuts(job: Job) -> Job:
    return dataclasses.replace(job, offcuts={})


RACK = "rack:\n  R7: BU 18 AWG 2 m, good\n"
PLANNED = HEAD + "changes:\n  - {id: C1, kind: extend, wire: W1, plug: lamp, piece: GN 18 AWG, gap: 430 mm}\n"


def test_a_piece_that_another_job_took_off_the_rack_meanwhile_is_not_written(tmp_path):
    for name, meanwhile in (
        ("van", lambda shop: written(shop, "bus", PLANNED.replace("piece: GN 18 AWG", "piece: BU 18 AWG from R7"))),
        ("bus", lambda shop: (shop / "rack.yml").write_text(RACK.replace("2 m", "1.9 m"))),
        ("car", lambda shop: (shop / "rack.yml").write_text(RACK.replace("R7", "R8"))),
    ):
        shop = tmp_path / f"shop of the {name}" / "jobs"
        folder = written(shop, "van", PLANNED, RACK)
        job, found = read(folder), proposal(folder)
        assert [cut.offcut.name for cut in found.cuts] == ["R7"]
        meanwhile(shop)
        before = (folder / "job.yml").read_bytes()
        with pytest.raises(NotWritten, match=r"R7 of the rack was changed or cut from meanwhile. Run it again"):
            record(found, job)
        assert (folder / "job.yml").read_bytes() == before


def test_a_job_that_somebody_changed_while_it_was_thought_over_is_not_written(tmp_path):
    folder = written(tmp_path / "jobs", "van", PLANNED, RACK)
    job, found = read(folder), proposal(folder)
    path = folder / "job.yml"
    path.write_text(path.read_text() + "  # two more to come\n")
    before = path.read_bytes()
    with pytest.raises(NotWritten, match=r"job\.yml was changed meanwhile"):
        record(found, job)
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    "record_says",
    [
        "  - {id: C2, kind: remove, wire: W2, made: 2199-05-03 AK}\n",
        "  - {id: C2, kind: remove, wire: W2, made: 2031-05-03 AK, tested: 2031-05-02 AK}\n",
        "revisions: {A: 1019-05-03 AK}\n",
    ],
)
def test_a_date_that_cannot_be_is_no_reason_not_to_write(tmp_path, monkeypatch, record_says):
    folder = written(tmp_path / "jobs", "van", PLANNED + record_says, RACK)
    monkeypatch.chdir(tmp_path)
    assert proposal(folder).worked.job != read(folder)  # the date was set aside
    assert cli.main(["allot", "van", "--write"]) == 0
    after = read(folder)
    assert after.change("C1").piece.text == "BU 18 AWG from R7"
    assert (folder / "job.yml").read_text().count(record_says) == 1


def test_allot_says_what_it_wrote_or_why_not_and_ends_with_0_1_or_2(tmp_path, monkeypatch, capsys):
    folder = written(tmp_path / "jobs", "van", PLANNED, RACK)
    monkeypatch.chdir(tmp_path)
    real = os.replace

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    (folder / "job.yml").chmod(0o444)
    assert cli.main(["allot", "van", "--write"]) == cli.FAULTY
    assert capsys.readouterr().err == "Not written. job.yml is read-only.\n"
    (folder / "job.yml").chmod(0o644)
    other = written(tmp_path / "others" / "jobs", "van", PLANNED, RACK)
    assert cli.main(["allot", str(other), "--write"]) == cli.FINE
    assert capsys.readouterr().out.endswith("\nWrote job.yml.\n")
    monkeypatch.setattr(os, "replace", full)
    assert cli.main(["allot", "van", "--write"]) == cli.BROKEN
    told = capsys.readouterr().err
    assert told.startswith("Not written: No space left on device")
    assert "Nothing was changed" in told
    assert (folder / "job.yml").read_text() == textwrap.dedent(PLANNED)
    calls = []

    def once(source: Path, target: Path) -> None:
        calls.append(target)
        if len(calls) > 1:
            full()
        real(source, target)

    monkeypatch.setattr(os, "replace", once)
    assert cli.main(["allot", "van", "--write"]) == cli.BROKEN
    assert capsys.readouterr().err.startswith("Cut off while writing (No space left on device).")
    monkeypatch.setattr(os, "replace", real)
    assert (folder / "job.yml").read_text() == textwrap.dedent(PLANNED)
    assert cli.main(["allot", "van"]) == cli.FINE  # who only asks settles nothing
    assert (folder / "job.yml").read_text() == textwrap.dedent(PLANNED)
    capsys.readouterr()
    assert cli.main(["allot", "van", "--write"]) == cli.FINE
    assert "piece: BU 18 AWG from R7" in (folder / "job.yml").read_text()
    assert capsys.readouterr().out == "No planned piece waits for wire.\nNothing to write.\n"

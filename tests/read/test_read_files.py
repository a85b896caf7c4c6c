"""Files as text: every scalar stays as typed, every key keeps its line, and no file can make the reader stumble."""

import dataclasses
import time
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from aswired.files import find_jobs, read_job
from aswired.record import Job
from aswired.text.schema import Located
from aswired.text.source import shown

DEMO = Path(__file__).parents[2] / "jobs"
TYPED = ("NO", "no", "Yes", "on", "010", "0x1F", "1:30", "1_000", "1e3", ".inf", "2031-05-03", "~", "null", "true", "=")


def write(folder: Path, **files: str | bytes) -> Path:
    for name, text in files.items():
        (folder / f"{name}.yml").write_bytes(text if isinstance(text, bytes) else text.encode())
    return folder


def good(folder: Path) -> Job:
    got = read_job(folder)
    assert got.faults == ()
    assert got.job is not None
    return got.job


def records(thing: object) -> Iterator[Located]:
    """Every record of a job, itself first."""
    if isinstance(thing, Located):
        yield thing
        for spec in dataclasses.fields(thing):
            if spec.name not in ("at", "lines"):
                yield from records(getattr(thing, spec.name))
    elif isinstance(thing, Mapping):
        for item in thing.values():
            yield from records(item)
    elif isinstance(thing, tuple):
        for item in thing:
            yield from records(item)


@pytest.mark.parametrize("typed", TYPED)
def test_every_scalar_stays_as_typed(typed: str, tmp_path: Path) -> None:
    row = typed.replace("-", "")  # a row's id may not hold a dash: it is told apart from the wire in C14-W31 by it
    text = (
        f"job: {typed}\nvehicle: {typed}\nprivate: {{{typed}: {typed}}}\noptions: {{heater: {typed}}}\n"
        f"plugs: {{{typed}: {{ways: {typed}}}}}\nwires: {{{typed}: {{from: {typed}.{typed}, to: {typed}}}}}\n"
        f"changes:\n  - {{id: {row}, kind: cover, over: [{typed}], note: {typed}}}\n"
    )
    job = good(write(tmp_path, job=text))
    assert (job.job, job.vehicle, job.options["heater"].is_) == (typed, typed, typed)
    assert dict(job.private) == {typed: typed}
    assert job.plugs[typed].ways == typed
    assert (job.wires[typed].from_, job.wires[typed].to) == (f"{typed}.{typed}", typed)
    assert (job.changes[0].id, job.changes[0].over, job.changes[0].note) == (row, (typed,), typed)


def test_every_key_keeps_its_line(tmp_path: Path) -> None:
    text = (
        "# yard van\n\njob: Yard van\nusual:\n\n  slack: 50 mm   # two inches\n"
        "wires:\n  W1: {colour: GN,\n       from: F7,\n\n       to: lamp.1}\n"
        "changes:\n  # the first\n  - id: C1\n    kind: remove\n    wire: W1\n    why: |\n      broken\n      twice\n"
        "    made: yes\n"
    )
    job = good(write(tmp_path, job=text))
    usual, wire, row = job.usual, job.wires["W1"], job.changes[0]
    assert [str(job.line_of(key)) for key in ("job", "usual", "changes")] == ["job.yml:3", "job.yml:4", "job.yml:12"]
    assert (usual.line_of("slack").line, usual.line_of("slack").text) == (6, "  slack: 50 mm   # two inches")
    assert [wire.line_of(key).line for key in ("colour", "from", "to", "length")] == [8, 9, 11, 8]
    assert [row.line_of(key).line for key in ("id", "kind", "wire", "why", "made", "gap")] == [14, 15, 16, 17, 20, 14]
    assert row.why == "broken twice"


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_line_endings_and_a_byte_order_mark_move_no_line(ending: str, mark: bytes, tmp_path: Path) -> None:
    text = "job: Yard van\n\nunits: inch\nchanges:\n  - {id: C1, kind: cover, cover: tape}\n".replace("\n", ending)
    job = good(write(tmp_path, job=mark + text.encode()))
    assert (job.line_of("units").line, job.line_of("units").text) == (3, "units: inch")
    assert job.changes[0].at.line == 5


@pytest.mark.parametrize("folder", find_jobs(DEMO), ids=lambda folder: folder.name)
def test_each_key_of_the_demo_stands_in_the_line_it_is_said_to_stand_in(folder: Path) -> None:
    near = (*folder.glob("*.yml"), *DEMO.glob("*.yml"))  # shop.yml stands beside the job folders
    files = {path.name: path.read_text().splitlines() for path in near}
    found = 0
    for record in records(good(folder)):
        for key, at in record.lines.items():
            line = files[at.file][at.line - 1]
            assert f"{key}:" in line
            assert at.text == shown(line)
            found += 1
    assert found > 100


def test_a_job_may_be_spread_over_its_files(tmp_path: Path) -> None:
    header, wires = "job: Yard van\n", "wires: {W1: {from: F7, to: lamp.1}}\n"
    rows = "changes:\n  - {id: C1, kind: cover, cover: tape}\n"
    one, many = tmp_path / "one", tmp_path / "many"
    one.mkdir()
    many.mkdir()
    alone = good(write(one, job=header + wires + rows))
    spread = good(write(many, job=header, harness=wires, changes=rows))
    assert (alone.job, alone.wires, alone.changes) == (spread.job, spread.wires, spread.changes)
    assert spread.changes[0].at.file == "changes.yml"
    assert (alone.slug, spread.slug) == ("one", "many")


def test_a_job_without_its_job_file_is_still_found(tmp_path: Path) -> None:
    for name, file in (("a", "job"), ("b", "changes"), ("c", "notes")):
        (tmp_path / name).mkdir()
        write(tmp_path / name, **{file: "job: x\n"})
    (tmp_path / "d").mkdir()
    (tmp_path / "d" / "job.yml.txt").write_text("job: x\n")
    assert [folder.name for folder in find_jobs(tmp_path)] == ["a", "b", "d"]


def test_notes_are_read_and_may_be_empty(tmp_path: Path) -> None:
    write(tmp_path, job="job: x\nchanges: [{id: C1, kind: cover, cover: tape}]\n")
    (tmp_path / "notes.md").write_text("")
    assert good(tmp_path).notes == ""
    (tmp_path / "notes.md").write_text("# Radio\n")
    assert good(tmp_path).notes == "# Radio\n"
    (tmp_path / "notes.md").write_bytes(b"caf\xe9\n")
    assert [str(fault.at) for fault in read_job(tmp_path).faults] == ["notes.md:1"]


def test_a_bomb_of_references_is_refused_before_it_goes_off(tmp_path: Path) -> None:
    lines = ["job: x", "private:", "  a0: &a0 [relay, relay]"]
    lines += [f"  a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 7)]
    started = time.perf_counter()
    faults = read_job(write(tmp_path, job="\n".join(lines))).faults
    assert [(fault.code, fault.at.line) for fault in faults] == [("YML02", 3)]
    assert time.perf_counter() - started < 1


@pytest.mark.parametrize(
    "text",
    [
        "a: " + "[" * 100_000,
        "? " * 50_000 + "a",
        "- " * 50_000 + "a",
        "".join(" " * n + "a:\n" for n in range(1500)),
        "# " + "]" * 50_000 + "\na: " + "{" * 50_000,
        "a: " + "x" * 3_000_000,
    ],
    ids=["brackets", "question marks", "dashes", "indentation", "closed before opened", "long line"],
)
def test_depth_and_length_have_their_limits(text: str, tmp_path: Path) -> None:
    faults = read_job(write(tmp_path, job=text)).faults
    assert faults
    assert all(len(fault.at.text) <= 164 for fault in faults)


def test_what_is_not_a_file_is_one_fault(tmp_path: Path) -> None:
    (tmp_path / "job.yml").mkdir()
    assert [(fault.code, str(fault.at)) for fault in read_job(tmp_path).faults] == [("FIL01", "job.yml")]
    assert [fault.code for fault in read_job(tmp_path / "nowhere").faults] == ["FIL01"]


def test_a_picture_inside_the_folder_may_be_a_link(tmp_path: Path) -> None:
    text = "job: x\nchanges: [{id: C1, kind: cover, cover: tape}]\nphotos: [{id: P1, file: photos/a.jpg}]\n"
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "b.jpg").write_bytes(b"")
    (tmp_path / "photos" / "a.jpg").symlink_to("b.jpg")
    assert good(write(tmp_path, job=text)).photos[0].file == "photos/a.jpg"


@pytest.mark.parametrize("links", [{"a.jpg": "a.jpg"}, {"a.jpg": "b.jpg", "b.jpg": "a.jpg"}], ids=["itself", "round"])
def test_a_picture_that_is_a_link_to_itself_is_a_fault(links: dict[str, str], tmp_path: Path) -> None:
    text = "job: x\nchanges: [{id: C1, kind: cover, cover: tape}]\nphotos: [{id: P1, file: photos/a.jpg}]\n"
    (tmp_path / "photos").mkdir()
    for name, to in links.items():
        (tmp_path / "photos" / name).symlink_to(to)
    (fault,) = read_job(write(tmp_path, job=text)).faults
    assert (fault.code, fault.at.line, fault.entry) == ("PHO01", 3, "P1")
    assert "leads back to itself" in fault.problem

"""A job folder: which files it may have, how they are put together, and what must hold before a job can be read."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from pathlib import Path

import yaml

from aswired.changes import KINDS
from aswired.diagnostics import Fault, FaultList, Location, did_you_mean
from aswired.model import Change, Job
from aswired.read.bind import Binder, Pairs
from aswired.read.yamltext import Source, compose, read_source

HEADER = "job.yml"
PARTS = ("route.yml", "harness.yml", "changes.yml", "photos.yml", "readings.yml")


@dataclass(frozen=True)
class JobRead:
    """What came of reading one folder: a job, or every fault in file order."""

    job: Job | None
    faults: tuple[Fault, ...]


def find_jobs(jobs_dir: Path) -> tuple[Path, ...]:
    """The job folders below `jobs_dir` (those that hold a job.yml), by name."""
    return tuple(sorted(path.parent for path in jobs_dir.glob(f"*/{HEADER}")))


def job_files(folder: Path) -> tuple[Path, ...]:
    """The files of a job folder that are read: job.yml, its parts, notes.md. Only those that exist."""
    return tuple(path for name in (HEADER, *PARTS, "notes.md") if (path := folder / name).is_file())


def read_job(folder: Path) -> JobRead:
    """The job in a folder, or all faults of its files together."""
    faults = FaultList()
    pairs: Pairs = ()
    for name in (HEADER, *PARTS):
        if name == HEADER or (folder / name).exists():
            pairs += _top_keys(folder, name, faults)
    pairs = _one_file_a_key(pairs, faults)
    job: Job | None = None
    if pairs:
        binder = Binder(faults, _letters(pairs))
        job = binder.record(Job, pairs, Location(HEADER, 1, pairs[0][0].lines[0]), "", "the job")
    notes = _notes(folder, faults)
    if job is not None:
        _check_rows(job, faults)
        _check_photos(job, folder, faults)
    if faults or job is None:
        return JobRead(None, faults.sorted())
    return JobRead(dataclasses.replace(job, slug=folder.name, folder=folder, notes=notes), ())


def _top_keys(folder: Path, name: str, faults: FaultList) -> Pairs:
    got = read_source(folder / name, name, faults)
    if got is None:
        return ()
    source, text = got
    node = compose(source, text, faults)
    if node is None:
        return ()
    if not isinstance(node, yaml.MappingNode):
        faults.add("VAL01", source.of(node), "the file does not begin with a key", "Begin with: job: and a title")
        return ()
    found: list[tuple[Source, yaml.ScalarNode, yaml.Node]] = []
    for key, value in node.value:
        if isinstance(key, yaml.ScalarNode):
            found.append((source, key, value))
        else:
            faults.add("VAL01", source.of(key), "a key of the job is a list, not a word", "Write key: value")
    return tuple(found)


def _one_file_a_key(pairs: Pairs, faults: FaultList) -> Pairs:
    """A key may stand in one file only; a repeat inside one file is left for the binder to tell."""
    first: dict[str, Source] = {}
    kept: list[tuple[Source, yaml.ScalarNode, yaml.Node]] = []
    for source, key, value in pairs:
        owner = first.setdefault(key.value, source)
        if owner.name == source.name:
            kept.append((source, key, value))
        else:
            faults.add(
                "KEY03",
                source.of(key),
                f"'{key.value}' stands in {owner.name} too",
                f"Keep it in one file: {owner.name} or {source.name}",
            )
    return tuple(kept)


def _letters(pairs: Pairs) -> dict[str, str]:
    for _, key, value in pairs:
        if key.value == "colour letters" and isinstance(value, yaml.MappingNode):
            return {letter.value: word.value for letter, word in value.value if isinstance(word, yaml.ScalarNode)}
    return {}


def _notes(folder: Path, faults: FaultList) -> str:
    path = folder / "notes.md"
    if not path.exists():
        return ""
    got = read_source(path, "notes.md", faults)
    return got[1] if got else ""


def _check_rows(job: Job, faults: FaultList) -> None:
    if not job.changes:
        faults.add(
            "KEY02",
            job.line_of("changes"),
            "the change list has no row",
            "Write one row: - {id: C1, kind: remove, wire: W1}",
        )
    by_name = {kind.NAME: kind for kind in KINDS}
    for row in job.changes:
        if not row.id:
            faults.add("KEY02", row.at, "the change has no 'id:'", f"Write id: {next_id(job)}", "")
        if row.kind not in by_name:
            mend = did_you_mean(row.kind, by_name, "Write one of: " + ", ".join(sorted(by_name)))
            faults.add("KND01", row.line_of("kind"), f"'{row.kind}' is not a kind of change", mend, row.id)
            continue
        _check_keys(row, by_name[row.kind].KEYS, faults)


def next_id(job: Job) -> str:
    """The next free number behind C."""
    taken = [int(row.id[1:]) for row in job.changes if row.id[:1] == "C" and row.id[1:].isdigit()]
    return f"C{max(taken, default=0) + 1}"


def _check_keys(row: Change, kind_keys: tuple[str, ...], faults: FaultList) -> None:
    allowed = set(kind_keys) | COMMON_KEYS
    for key, place in row.lines.items():
        if key not in allowed:
            mend = did_you_mean(key, kind_keys, f"A row of kind {row.kind} takes: " + ", ".join(kind_keys))
            faults.add("KND02", place, f"'{key}' has no meaning on a row of kind {row.kind}", mend, row.id)


COMMON_KEYS = frozenset(
    {
        "id", "kind", "photos", "why", "note", "only if", "corrects", "redoes", "made", "sealed", "tested",
        "accepted", "minutes", "shop note", "reclaimed", "scrap", "spare",
    }
)  # fmt: skip


def _check_photos(job: Job, folder: Path, faults: FaultList) -> None:
    """A picture's path never leaves the job folder, not by '..', not by an absolute path, not by a link."""
    root = folder.resolve()
    for photo in job.photos:
        path = Path(photo.file)
        inside = not path.is_absolute() and ":" not in photo.file and "\\" not in photo.file
        if not inside or not (root / path).resolve().is_relative_to(root):
            faults.add(
                "PHO01", photo.line_of("file"), f"the picture '{photo.file}' lies outside the job folder",
                "Copy it into photos/ and write photos/ and its name", photo.id,
            )  # fmt: skip
        for mark in photo.marks:
            shapes = [name for name in _SHAPES if getattr(mark, name)]
            if len(shapes) != 1:
                mend = "Write one of ring, arrow, box, label with its fractions"
                faults.add("PHO02", mark.at, "a mark wants one shape", mend, photo.id)
                continue
            wanted, example = _SHAPES[shapes[0]]
            found = len(getattr(mark, shapes[0]))
            if found != wanted:
                problem = f"a {shapes[0]} wants {wanted} fractions, not {found}"
                faults.add("PHO02", mark.line_of(shapes[0]), problem, f"Write them as in {example}", photo.id)
        for hidden in photo.hide:
            if len(hidden) != 4:
                faults.add(
                    "PHO02",
                    photo.line_of("hide"),
                    f"a hidden box wants 4 fractions, not {len(hidden)}",
                    "Write x, y, width, height: [0.70, 0.10, 0.20, 0.08]",
                    photo.id,
                )


_SHAPES = {
    "ring": (3, "[0.42, 0.31, 0.05]"),
    "arrow": (4, "[0.10, 0.90, 0.30, 0.60]"),
    "box": (4, "[0.70, 0.10, 0.20, 0.08]"),
    "label": (2, "[0.5, 0.5]"),
}

"""A job folder: which files it may have, how they are put together, and what must hold before a job can be read."""

from __future__ import annotations

import dataclasses
import errno
import os
import re
from collections.abc import Mapping, MutableMapping
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

import yaml

from aswired.car.changes import BY_NAME, KINDS
from aswired.record import Change, Job, Photo, Shop
from aswired.text.bind import Binder, Pairs, letters_in
from aswired.text.commas import Pair
from aswired.text.diagnostics import Fault, FaultList, Location, did_you_mean, near
from aswired.text.schema import Located, keys_of
from aswired.text.yamltext import compose, first_key, read_source

Beside = TypeVar("Beside", bound=Located)
Texts = MutableMapping[str, bytes] | None  # file name -> its bytes, as `read_source` takes them and leaves them
HEADER = "job.yml"
SHOP = "shop.yml"
PARTS = ("route.yml", "harness.yml", "changes.yml", "photos.yml", "readings.yml")


@dataclass(frozen=True)
class JobRead:
    """What came of reading one folder: a job, or every fault in file order."""

    job: Job | None
    faults: tuple[Fault, ...]


def find_jobs(jobs_dir: Path) -> tuple[Path, ...]:
    """The job folders below `jobs_dir`, by name: those with a job.yml, and those that lack it but hold a part of a job.

    The latter are found so that reading them tells the fault; else a misnamed job would be missing in silence. So are
    links that lead to nothing: a folder may be linked in from another disk, which may not be there.
    """
    try:
        there = sorted(os.listdir(jobs_dir))
    except (FileNotFoundError, NotADirectoryError):
        return ()
    return tuple(path for name in there if _may_be_a_job(path := jobs_dir / name))


def _may_be_a_job(folder: Path) -> bool:
    names = (HEADER, *PARTS, *(HEADER.removesuffix(".yml") + end for end in _ENDINGS))
    return any(os.path.lexists(folder / name) for name in names) or _leads_nowhere(folder)


def _leads_nowhere(folder: Path) -> bool:
    """Whether this may be a job on another disk that is not there just now; hidden names are an editor's own, and those
    of files, such as the shop's, name no folder."""
    if folder.name.startswith(".") or folder.name.endswith(_ENDINGS):
        return False
    return folder.is_symlink() and not os.path.exists(folder)


def job_files(folder: Path) -> tuple[Path, ...]:
    """The files of a job folder that are read: job.yml, its parts, notes.md. Only those that exist."""
    return tuple(path for name in (HEADER, *PARTS, "notes.md") if (path := folder / name).is_file())


def read_shop(jobs_dir: Path, faults: FaultList, texts: Texts = None) -> Shop:
    """What shop.yml beside the job folders says; nothing of it has to be there."""
    return read_beside(jobs_dir, SHOP, Shop, "the shop", faults, texts)


def read_beside(
    jobs_dir: Path, name: str, record: type[Beside], what: str, faults: FaultList, texts: Texts = None
) -> Beside:
    """A record from a file beside the job folders; an empty one where there is no file or it has a fault."""
    if not os.path.lexists(jobs_dir / name):
        return record()
    made = Binder(faults).record(record, _top_keys(jobs_dir, name, faults, texts), Location(name), "", what)
    return made if isinstance(made, record) else record()


def read_job(folder: Path, texts: Mapping[str, bytes] | None = None) -> JobRead:
    """The job in a folder, or all faults of its files together; those of the shop's file stand among them.

    `texts`: file name -> what is taken to stand in it, in place of what does.
    """
    faults = FaultList()
    taken = dict(texts or {})
    if _leads_nowhere(folder):
        problem = "the job's folder is a link that leads to nothing"
        faults.add(
            "FIL01", Location(HEADER), problem, "Bring back the disk or folder it leads to, or take the link out"
        )
        return JobRead(None, faults.sorted())
    pairs: Pairs = ()
    misnamed = _check_names(folder, faults)
    for name in (HEADER, *PARTS):
        if (name == HEADER and HEADER not in misnamed) or os.path.lexists(folder / name):
            pairs += _top_keys(folder, name, faults, taken)
    unread = bool(faults)  # a key that seems to be missing may stand in what could not be read
    pairs = _one_file_a_key(pairs, faults)
    letters = _letters(pairs)
    binder = Binder(faults, letters, _looms(pairs, letters))
    top = next((source.at(1) for source, _, _ in pairs if source.name == HEADER), Location(HEADER))
    made = binder.record(Job, pairs, top, "", "the job", partial=unread)
    job = made if isinstance(made, Job) else None
    notes = _notes(folder, faults, taken)
    if job is not None and not job.changes and "changes" in job.lines:
        mend = "Write the first row: - {id: C1, kind: remove, wire: W1}"
        faults.add("KEY02", job.line_of("changes"), "the change list has no row", mend)
    _check_rows([row for row in binder.met if isinstance(row, Change)], faults)
    _check_photos([photo for photo in binder.met if isinstance(photo, Photo)], folder, faults)
    shop = read_shop(folder.parent, faults, taken)
    if faults or job is None:
        return JobRead(None, faults.sorted())
    whole = dataclasses.replace(job, shop=shop, slug=folder.name, folder=folder, notes=notes, texts=taken)
    return JobRead(whole, ())


def _top_keys(folder: Path, name: str, faults: FaultList, texts: Texts) -> Pairs:
    got = read_source(folder / name, name, faults, texts)
    if got is None:
        return ()
    source, text = got
    node = compose(source, text, faults)
    if node is None:
        return ()
    if not isinstance(node, yaml.MappingNode):
        mend = f"Write {first_key(name)}: above it" + (" and a title behind it" if name == HEADER else "")
        faults.add("VAL01", source.of(node), "the file does not begin with a key", mend)
        return ()
    return tuple((source, key, value) for key, value in node.value)


def _one_file_a_key(pairs: Pairs, faults: FaultList) -> Pairs:
    """A key may stand in one file only; a repeat inside one file is left for the binder to tell."""
    first: dict[str, Location] = {}
    kept: list[Pair] = []
    for source, key, value in pairs:
        owner = first.setdefault(str(key.value), source.of(key))
        if owner.file == source.name:
            kept.append((source, key, value))
        else:
            faults.add(
                "KEY03",
                source.of(key),
                f"'{key.value}' stands in {owner} too",
                f"Keep it in one file: {owner.file} or {source.name}",
            )
    return tuple(kept)


def _letters(pairs: Pairs) -> dict[str, str]:
    for _, key, value in pairs:
        if key.value == "colour letters":
            return letters_in(value)
    return {}


def _looms(pairs: Pairs, letters: dict[str, str]) -> dict[str, dict[str, str]]:
    """Loom -> its own colour letters, the job's where it has none."""
    found: dict[str, dict[str, str]] = {}
    for _, key, value in pairs:
        if key.value == "looms" and isinstance(value, yaml.MappingNode):
            for name, loom in value.value:
                parts = loom.value if isinstance(loom, yaml.MappingNode) else []
                own = next((letters_in(node) for part, node in parts if part.value == "colour letters"), {})
                found[" ".join(str(name.value).split())] = own or letters
    return found


def _notes(folder: Path, faults: FaultList, texts: Texts) -> str:
    path = folder / "notes.md"
    if not os.path.lexists(path):
        return ""
    got = read_source(path, "notes.md", faults, texts)
    return got[1] if got else ""


def _check_names(folder: Path, faults: FaultList) -> set[str]:
    """Tell files that are meant as parts of the job but are not called so: they would be left out in silence.

    Returns:
        The names that were meant.
    """
    misnamed: set[str] = set()
    for path in sorted(folder.iterdir() if folder.is_dir() else ()):
        name = path.name.casefold()
        meant = next((end for end in _ENDINGS if name.endswith(end)), "")
        if not meant or (name in (HEADER, *PARTS) and (path.name == name or (folder / name).exists())):
            continue
        stems = [known.removesuffix(".yml") for known in (HEADER, *PARTS)]
        like = [f"{stem}.yml" for stem in near(name.removesuffix(meant), stems, 1)]
        misnamed.update(like)
        mend = f"Rename it to {like[0]}" if like else "Put its keys into job.yml, and take the file out"
        faults.add("FIL03", Location(path.name), "the file is not read: no job file has this name", mend)
    return misnamed


_ENDINGS = (".yml", ".yaml", ".yml.txt", ".yaml.txt")


def _check_rows(rows: list[Change], faults: FaultList) -> None:
    for row in rows:
        if "id" not in row.lines:
            faults.add("KEY02", row.at, "the change has no 'id:'", f"Add id: {next_id(rows)}, the next free one")
        elif re.search(r"[\s-]", row.id):
            _refuse_id(row, rows, faults)
        if "kind" not in row.lines or not row.kind:
            continue  # told by the binder
        if row.kind not in BY_NAME:
            mend = did_you_mean(row.kind, BY_NAME, "Write one of: " + ", ".join(sorted(BY_NAME)))
            faults.add("KND01", row.line_of("kind"), f"'{row.kind}' is not a kind of change", mend, row.id)
            continue
        _check_keys(row, BY_NAME[row.kind].keys, faults)


def _refuse_id(row: Change, rows: list[Change], faults: FaultList) -> None:
    """An id with a blank or a dash: it would stand in the ids of splices and cut ends, which are parted by dashes."""
    what = "a dash, which parts the id from the wire in C14-W31" if "-" in row.id else "a blank"
    short = re.sub(r"[\s-]+", "", row.id)
    free = short and short not in {other.id for other in rows}
    mend = f"Write it as one word: {short if free else next_id(rows)}; the same goes on the tape"
    faults.add("VAL04", row.line_of("id"), f"the id '{row.id}' has {what}", mend, row.id)


def next_id(rows: list[Change]) -> str:
    """The next free number behind C."""
    taken = [int(row.id[1:]) for row in rows if re.fullmatch("C[0-9]{1,6}", row.id)]
    return f"C{max(taken, default=0) + 1}"


def _check_keys(row: Change, kind_keys: tuple[str, ...], faults: FaultList) -> None:
    allowed = set(kind_keys) | COMMON_KEYS
    for key, place in row.lines.items():
        if key not in allowed and key in keys_of(Change):
            kinds = ", ".join(kind.name for kind in KINDS if key in kind.keys)
            where = f"it belongs to {kinds}" if kinds else f"{row.kind} takes {', '.join(kind_keys)}"
            mend = did_you_mean(key, kind_keys, f"Take it out; {where}")
            faults.add("KND02", place, f"'{key}' has no meaning on a row of kind {row.kind}", mend, row.id)
    if {"wire", "wires"} <= allowed & row.lines.keys():
        mend = "Keep one: name each wire under 'wires:' and take 'wire:' out, or the other way round"
        faults.add("KND02", row.line_of("wires"), "'wire' and 'wires' stand on the same row", mend, row.id)


COMMON_KEYS = frozenset(
    {
        "id", "kind", "photos", "why", "note", "only if", "corrects", "redoes", "made", "sealed", "tested",
        "accepted", "minutes", "shop note", "reclaimed", "scrap", "spare", "batch", "takes over", "warning",
        "loom",
    }
)  # fmt: skip


def _check_photos(photos: list[Photo], folder: Path, faults: FaultList) -> None:
    """A picture's path never leaves the job folder, not by '..', not by an absolute path, not by a link."""
    root = folder.resolve()
    for photo in photos:
        if trouble := _leads_out(photo.file, root):
            faults.add(
                "PHO01", photo.line_of("file"), f"the picture '{photo.file}' {trouble}",
                "Copy the picture itself into photos/ and write photos/ and its name", photo.id,
            )  # fmt: skip
        for mark in photo.marks:
            shapes = [name for name in _SHAPES if name in mark.lines]
            if len(shapes) != 1:
                has = "has " + " and ".join(shapes) if shapes else "has none"
                mend = "Write a mark for each" if shapes else "Add ring:, arrow:, box: or label: with its fractions"
                faults.add("PHO02", mark.at, f"a mark wants one shape; this one {has}", mend, photo.id)
                continue
            if not getattr(mark, shapes[0]):
                continue  # told by the binder
            wanted, example = _SHAPES[shapes[0]]
            found = len(getattr(mark, shapes[0]))
            if found != wanted:
                problem = f"{shapes[0]} wants {wanted} fractions, not {found}"
                mend = f"Write them as in {shapes[0]}: {example}"
                faults.add("PHO02", mark.line_of(shapes[0]), problem, mend, photo.id)
        for hidden in photo.hide:
            if len(hidden) != 4:
                faults.add(
                    "PHO02",
                    photo.line_of("hide"),
                    f"a hidden box wants 4 fractions, not {len(hidden)}",
                    "Write x, y, width, height: [0.70, 0.10, 0.20, 0.08]",
                    photo.id,
                )


def _leads_out(file: str, root: Path) -> str:
    """What is wrong with where a written path leads; '' when it stays in the job folder."""
    path = Path(file)
    if path.is_absolute() or ":" in file or "\\" in file:
        return "lies outside the job folder"
    try:
        (root / path).stat()
    except OSError as error:
        if error.errno == errno.ELOOP:
            return "is a link that leads back to itself"
    except ValueError:  # a character that no path may hold
        return ""
    if (root / path).resolve().is_relative_to(root):
        return ""
    return f"{'lies' if '..' in path.parts else 'is a link that leads'} outside the job folder"


_SHAPES = {
    "ring": (3, "[0.42, 0.31, 0.05]"),
    "arrow": (4, "[0.10, 0.90, 0.30, 0.60]"),
    "box": (4, "[0.70, 0.10, 0.20, 0.08]"),
    "label": (2, "[0.5, 0.5]"),
}

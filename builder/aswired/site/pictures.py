"""The publishable files of a job's photographs, and what to say of those that cannot be used."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from aswired.files.disknames import file_stems
from aswired.photos.derive import Derived, Task, derive_all
from aswired.photos.files import CachedFile
from aswired.photos.index import PhotoError, PhotoInfo
from aswired.photos.marks import DrawnMark, Kind, overlay_svg
from aswired.photos.of_job import info_of, original
from aswired.photos.printed import print_copy
from aswired.record import Job, Photo
from aswired.sheets.frame import PhotoFiles, anchor, job_uri, mark_anchor

SHAPES: tuple[Kind, ...] = ("ring", "arrow", "box", "label")


@dataclass(frozen=True)
class Pictures:
    """What the pages show of each photograph by id, what is wrong with each that cannot be shown, and every file of the
    cache that the pages need, by name; each goes to `photos/` of the job."""

    files: Mapping[str, PhotoFiles]
    problems: Mapping[str, PhotoError]
    made: tuple[CachedFile, ...]


def make(job: Job, cache_dir: Path) -> Pictures:
    """Make the files of the job's photographs in the cache.

    Originals are only read. A photograph that cannot be used gives a place-holder.
    """
    photos = {photo.id: photo for photo in job.photos}.values()  # an id used twice is told elsewhere
    found = {photo.id: info_of(job, photo) for photo in photos}
    stems = file_stems((photo.id, _wish(photo)) for photo in photos)
    tasks = {
        photo.id: _task(job, photo, info, stems[photo.id])
        for photo in photos
        if isinstance(info := found[photo.id], PhotoInfo)
    }
    derived: dict[str, Derived | PhotoError] = {id: info for id, info in found.items() if isinstance(info, PhotoError)}
    derived |= zip(tasks, derive_all(list(tasks.values()), cache_dir), strict=True)
    files: dict[str, PhotoFiles] = {}
    problems: dict[str, PhotoError] = {}
    made: list[CachedFile] = []
    for photo in photos:
        try:
            files[photo.id], own = _files(job, photo, derived[photo.id], cache_dir)
            made += own
        except PhotoError as error:
            files[photo.id] = PhotoFiles(0, 0, (), broken=f"{photo.file} {error.reason}")
            problems[photo.id] = error
    return Pictures(files, problems, tuple(sorted(made, key=lambda file: file.name)))


def marks_of(photo: Photo) -> tuple[DrawnMark, ...]:
    """The marks with their numbers, 1 for the first written."""
    found = []
    for number, mark in enumerate(photo.marks, start=1):
        kind, at = next((shape, getattr(mark, shape)) for shape in SHAPES if getattr(mark, shape))
        found.append(DrawnMark(number, kind, at, mark.says or mark.of))
    return tuple(found)


def _task(job: Job, photo: Photo, info: PhotoInfo, name: str) -> Task:
    boxes = tuple((box[0], box[1], box[2], box[3]) for box in photo.hide)
    return Task(original(job, photo), info, name, boxes)


def _wish(photo: Photo) -> str:
    name = anchor(photo.id)
    return name if name[:1].isalnum() or name.startswith("_") else f"p{name}"


def _files(
    job: Job, photo: Photo, derived: Derived | PhotoError, cache_dir: Path
) -> tuple[PhotoFiles, tuple[CachedFile, ...]]:
    """What the pages show of one photograph, and its files.

    Raises:
        PhotoError: it cannot be shown.
    """
    if isinstance(derived, PhotoError):
        raise derived
    info = derived.info
    sizes = tuple((width, height, job_uri(job.slug, f"photos/{name}")) for width, height, name in derived.files)
    marks: Sequence[DrawnMark] = marks_of(photo)
    printed = print_copy(derived.kept[0].path, marks, cache_dir) if marks else derived.kept[0]
    links = {mark.number: "#" + mark_anchor(photo.id, mark.number) for mark in marks}
    overlay = overlay_svg(marks, info.width, info.height, links)
    shown = PhotoFiles(info.width, info.height, sizes, job_uri(job.slug, f"photos/{printed.name}"), overlay)
    return shown, (*derived.kept, printed) if marks else derived.kept

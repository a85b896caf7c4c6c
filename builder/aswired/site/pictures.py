"""The publishable files of a job's photographs, and what to say of those that cannot be used."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from aswired.model import Job, Photo
from aswired.pages.frame import PhotoFiles, anchor, job_uri, mark_anchor
from aswired.photos.derive import Derived, Task, derive_all
from aswired.photos.files import publish
from aswired.photos.index import PhotoError, PhotoInfo
from aswired.photos.marks import Kind, Mark, overlay_svg
from aswired.photos.of_job import info_of, original
from aswired.photos.printed import print_copy

SHAPES: tuple[Kind, ...] = ("ring", "arrow", "box", "label")


@dataclass(frozen=True)
class Pictures:
    """The files of each photograph by id, and what is wrong with each that cannot be shown."""

    files: Mapping[str, PhotoFiles]
    problems: Mapping[str, PhotoError]


def make(job: Job, out_dir: Path, cache_dir: Path) -> Pictures:
    """Make the files of the job's photographs in `out_dir`, which is `photos/` of the job in the site.

    Originals are only read. A photograph that cannot be used gives a place-holder.
    """
    infos = {photo.id: info_of(job, photo) for photo in job.photos}
    good = [photo for photo in job.photos if isinstance(infos[photo.id], PhotoInfo)]
    tasks = [_task(job, photo, info) for photo in good if isinstance(info := infos[photo.id], PhotoInfo)]
    made = dict(zip((photo.id for photo in good), derive_all(tasks, out_dir, cache_dir=cache_dir), strict=True))
    files: dict[str, PhotoFiles] = {}
    problems: dict[str, PhotoError] = {}
    for photo in job.photos:
        info, derived = infos[photo.id], made.get(photo.id)
        if isinstance(info, PhotoInfo) and isinstance(derived, Derived):
            files[photo.id] = _files(job, photo, info, derived, out_dir, cache_dir)
            continue
        error = next(found for found in (info, derived) if isinstance(found, PhotoError))
        files[photo.id] = PhotoFiles(0, 0, (), broken=f"{photo.file} {error.reason}")
        problems[photo.id] = error
    return Pictures(files, problems)


def marks_of(photo: Photo) -> tuple[Mark, ...]:
    """The marks with their numbers, 1 for the first written."""
    found = []
    for number, mark in enumerate(photo.marks, start=1):
        kind, at = next((shape, getattr(mark, shape)) for shape in SHAPES if getattr(mark, shape))
        found.append(Mark(number, kind, at, mark.says or mark.of))
    return tuple(found)


def _task(job: Job, photo: Photo, info: PhotoInfo) -> Task:
    boxes = tuple((box[0], box[1], box[2], box[3]) for box in photo.hide)
    return Task(original(job, photo), info, _name(photo), boxes)


def _name(photo: Photo) -> str:
    name = anchor(photo.id)
    return name if name[:1].isalnum() or name.startswith("_") else f"p{name}"


def _files(job: Job, photo: Photo, info: PhotoInfo, derived: Derived, out_dir: Path, cache_dir: Path) -> PhotoFiles:
    sizes = tuple((width, height, job_uri(job.slug, f"photos/{name}")) for width, height, name in derived.files)
    marks: Sequence[Mark] = marks_of(photo)
    printed = cache_dir / derived.files[0][2]
    if marks:
        printed = print_copy(printed, marks, cache_dir)
        publish(printed, out_dir / printed.name)
    links = {mark.number: "#" + mark_anchor(photo.id, mark.number) for mark in marks}
    overlay = overlay_svg(marks, info.width, info.height, links)
    return PhotoFiles(info.width, info.height, sizes, job_uri(job.slug, f"photos/{printed.name}"), overlay)

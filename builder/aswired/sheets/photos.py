"""Photographs and their marks as rows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from aswired.record import Change, Mark, Photo
from aswired.sheets.findings import standing_at
from aswired.sheets.frame import Frame, PageOut, mark_anchor


@dataclass(frozen=True)
class MarkRow:
    """One mark of a photograph: the number on its disc, what it is of, what it says."""

    number: int
    of: str
    says: str


@dataclass(frozen=True)
class PhotoRow:
    """A photograph, ready to print. `alt` says the picture in words."""

    id: str
    caption: str
    stage: str
    shows: tuple[str, ...]
    marks: tuple[MarkRow, ...]
    alt: str
    belongs_to: tuple[str, ...]  # what it is said to show, and the rows that name it
    shop_only: bool
    told_by: bool  # a person or a plate can be told on it
    covered: int  # parts hidden by a solid box


def photo_rows(photos: Iterable[Photo], changes: Iterable[Change]) -> tuple[PhotoRow, ...]:
    """Photographs in the order given. `changes` are the rows of the job, which may name photographs too."""
    rows = tuple(changes)
    return tuple(_row(photo, [row.id for row in rows if photo.id in row.photos]) for photo in photos)


def _row(photo: Photo, named_by: Iterable[str]) -> PhotoRow:
    return PhotoRow(
        id=photo.id,
        caption=photo.caption,
        stage="" if photo.stage == "other" else photo.stage,
        shows=photo.shows,
        marks=tuple(MarkRow(number, mark.of, mark.says) for number, mark in enumerate(photo.marks, 1)),
        alt=_alt(photo),
        belongs_to=tuple(dict.fromkeys((*photo.shows, *named_by))),
        shop_only=not photo.publish,
        told_by=photo.face_or_plate,
        covered=len(photo.hide),
    )


def _alt(photo: Photo) -> str:
    """The caption, the stage and what is marked: what a person who cannot see the picture is told."""
    marked = [mark_words(number, mark) for number, mark in enumerate(photo.marks, 1)]
    parts = [photo.caption or f"Photograph {photo.id}"]
    if photo.stage != "other":
        parts.append(f"stage: {photo.stage}")
    if photo.shows and not photo.caption:
        parts.append("shows " + ", ".join(photo.shows))
    if marked:
        parts.append("marked: " + "; ".join(marked))
    return ". ".join(part[:1].upper() + part[1:] for part in parts) + "."


def mark_words(number: int, mark: Mark) -> str:
    """`1 C14-W31-plug, first joint`."""
    return f"{number} " + ", ".join(filter(None, [mark.of, mark.says]))


def pages(frame: Frame) -> Iterable[PageOut]:
    """The photographs."""
    photos = frame.photos
    yield frame.page(
        "photos",
        "photos.html",
        photos=photo_rows(photos, frame.worked.job.changes),
        findings=standing_at(frame.worked.findings, (photo.id for photo in photos)),
        mark_anchor=mark_anchor,
    )

"""Two editions of one job: the shop's with everything, the owner's without what is declared private.

What is private is told by the declarations in `model`; nothing here names a field.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from aswired.record import Job
from aswired.text.schema import NOWHERE, Located, keys_of

EDITIONS = ("shop", "owner")


def for_edition(job: Job, edition: str) -> Job:
    """The job as an edition may know it; the owner's has no private field, no notes and no unpublished photograph."""
    return job if edition == "shop" else without_private(job)


def without_private(job: Job) -> Job:
    """The job with every private field as if it had not been written.

    The notes go too, since free text has no declaration, and so do the files as they were read and the lines of them
    kept for messages: a row written on one line holds its private keys as well. A row that names a photograph that is
    not published keeps its other photographs.
    """
    bare: Job = _bare(job)
    withheld = {photo.id for photo in job.photos if not photo.publish}
    return dataclasses.replace(
        bare,
        notes="",
        texts={},
        photos=tuple(photo for photo in bare.photos if photo.id not in withheld),
        changes=tuple(
            dataclasses.replace(row, photos=tuple(id for id in row.photos if id not in withheld))
            for row in bare.changes
        ),
    )


def _bare(value: Any) -> Any:
    """A value with the private fields of every record inside it taken back to what they are when not written."""
    if isinstance(value, Located):
        declared = keys_of(type(value))
        kept: dict[str, Any] = {}
        for name, key in declared.values():
            kept[name] = _absent(value, name) if key.private else _bare(getattr(value, name))
        private = {written for written, (_, key) in declared.items() if key.private}
        lines = {
            written: dataclasses.replace(at, text="") for written, at in value.lines.items() if written not in private
        }
        at = NOWHERE if value.at is NOWHERE else dataclasses.replace(value.at, text="")
        return dataclasses.replace(value, at=at, lines=lines, **kept)
    if isinstance(value, tuple):
        return tuple(_bare(item) for item in value)
    if isinstance(value, Mapping):
        return {name: _bare(item) for name, item in value.items()}
    return value


def _absent(record: Located, name: str) -> Any:
    spec = next(spec for spec in dataclasses.fields(record) if spec.name == name)
    return spec.default if spec.default_factory is dataclasses.MISSING else spec.default_factory()

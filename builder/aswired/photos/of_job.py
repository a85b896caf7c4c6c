"""The photographs of a job as its files say them: where each is, and what is wrong with those that cannot be shown.

Nothing is made here, and no page is known, so that `check` starts up quickly.
"""

from collections.abc import Mapping
from pathlib import Path

from aswired.photos.index import PhotoError, PhotoInfo, read_photo
from aswired.record import Job, Photo


def look_at(job: Job) -> Mapping[str, PhotoError]:
    """What is wrong with each photograph that cannot be shown, without making anything."""
    seen = {photo.id: info_of(job, photo) for photo in job.photos}
    return {id: found for id, found in seen.items() if isinstance(found, PhotoError)}


def reasons(problems: Mapping[str, PhotoError]) -> dict[str, str]:
    """The problems as `work_out` takes them."""
    return {id: f"it {error.reason}" for id, error in problems.items()}


def info_of(job: Job, photo: Photo) -> PhotoInfo | PhotoError:
    """What a photograph's file is, or why it cannot be shown."""
    if any(len(box) != 4 or box[2] <= 0 or box[3] <= 0 for box in photo.hide):
        return PhotoError("has a 'hide:' box without area", "Write x, y, width, height, the last two above 0.")
    try:
        return read_photo(original(job, photo))
    except PhotoError as error:
        return error


def original(job: Job, photo: Photo) -> Path:
    """The file as it came from the camera."""
    return (job.folder or Path()) / photo.file

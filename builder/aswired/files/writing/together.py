"""Several files replaced all or none, though the machine may stop at any moment, and by one writer at a time.

What a writer needs meanwhile lies beside the jobs' folder, in .cache/aswired/writing, never in a job's own: the lock,
the new and the old texts, and the plan. Once the plan is there the change counts as made: whoever writes next carries
out what is still open of it, or takes it back if somebody changed one of its files since. Before that nothing counts,
and what lies there is thrown away. Who only reads settles nothing: no command but one that writes touches a job.
"""

from __future__ import annotations

import contextlib
import errno
import hashlib
import json
import os
import stat
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from aswired.files.locking import Held, held
from aswired.files.writing.document import NotWritten

_PLAN = "plan.json"
_BACK = "taken-back.json"  # the plan's name once it is being taken back
_LOCK = "lock"
_WAIT_S = 10.0
_ASIDE = ".aswired-writing"  # ends the name of a file that lies for a moment beside one on another disk


class Unfinished(Exception):
    """Some files were replaced and some were not, and it could not be taken back; the next writer does that."""


@dataclass(frozen=True)
class Swap:
    """A file with what stands in it and what shall stand in it."""

    path: Path
    before: bytes
    after: bytes


# ---- one writer at a time -------------------------------------------------------------------------------------------
@contextlib.contextmanager
def alone(jobs_dir: Path) -> Iterator[Path]:
    """Be the only writer of a shop, and get the folder for what a writer needs; what a dead one left is settled first.

    The lock is the system's own: it ends with the process that holds it.

    Raises:
        NotWritten: another writer does not come to an end.
        OSError: there can be no such folder.
    """
    desk = _desk_of(jobs_dir)
    desk.mkdir(parents=True, exist_ok=True)
    with contextlib.ExitStack() as stack:
        try:
            stack.enter_context(held(desk / _LOCK, longest_s=_WAIT_S))
        except Held:
            raise NotWritten("Another aswired is writing in this shop. Run it again when that has ended.") from None
        _settled(desk)
        _clear(desk)
        yield desk


# ---- all or none ----------------------------------------------------------------------------------------------------
def replace_together(desk: Path, swaps: Sequence[Swap]) -> bool:
    """Replace files in their order; False when one of them is not what it was, and then none is replaced.

    One whose text stays the same is only watched: it is not written, and the others rest on it.

    Raises:
        OSError: the disk or a right is wanting; none is replaced.
        Unfinished: so it is, and what was replaced could not be taken back.
    """
    try:
        _plan(desk, swaps)
        made = _settled(desk)
    except BaseException:  # also when a person stops it
        try:
            _take_back(desk)
        except OSError as error:
            if _planned(desk):
                raise Unfinished(str(error.strerror or error)) from error
        with contextlib.suppress(OSError):
            _clear(desk)
        raise
    with contextlib.suppress(OSError):  # all is done; what is left here the next writer clears away
        _clear(desk)
    return made


def settle(jobs_dir: Path) -> None:
    """Carry out, or take back, what a writer that was stopped left of a change; without such nothing is touched.

    Raises:
        NotWritten: another writer does not come to an end.
        Unfinished: it cannot be done now either.
    """
    try:
        desk = _desk_of(jobs_dir)
        if desk.is_dir() and any(left.name != _LOCK for left in desk.iterdir()):
            with alone(jobs_dir):
                pass
    except OSError as error:
        raise Unfinished(str(error.strerror or error)) from error


def _settled(desk: Path) -> bool:
    """Carry out the plan that lies there, or take it back when somebody changed a file that it rests on; False then."""
    if not (desk / _BACK).exists() and _carry_out(desk):
        return True
    _take_back(desk)
    return False


@dataclass(frozen=True)
class _Step:
    """A file of a plan: its old and its new text, while they lie there, and the sums of both."""

    path: Path
    old: Path
    new: Path
    before: str
    after: str

    @property
    def open(self) -> bool:
        """Whether the file was not replaced yet: its new text becomes the file, and is gone from the desk then."""
        return self.new.exists()

    def found(self) -> str:
        """The sum of what stands in the file now; '' when it is gone."""
        try:
            return _sum(self.path.read_bytes())
        except FileNotFoundError:
            return ""


def _plan(desk: Path, swaps: Sequence[Swap]) -> None:
    """Lay texts and plan down; the change counts as made when the plan has its name."""
    shop = _shop_of(desk)
    plan = []
    for number, swap in enumerate(swaps):
        if swap.before != swap.after:
            _put_like(swap.path, desk / f"{number}.old", swap.before)
            _put_like(swap.path, desk / f"{number}.new", swap.after)
        plan.append([swap.path.relative_to(shop).as_posix(), _sum(swap.before), _sum(swap.after)])
    put(desk / "plan.new", json.dumps(plan).encode("utf-8"), 0o666)
    _keep(desk)
    os.replace(desk / "plan.new", desk / _PLAN)
    _keep(desk)


def _planned(desk: Path) -> tuple[_Step, ...]:
    """What the plan says; nothing when there is none. Only files of a job's folder in this shop are ever meant."""
    told: Any = []
    for name in (_PLAN, _BACK):
        with contextlib.suppress(FileNotFoundError, ValueError):
            told = json.loads((desk / name).read_bytes())
    if not isinstance(told, list) or not all(map(_is_meant, told)):
        return ()
    shop = _shop_of(desk)
    return tuple(
        _Step(shop / path, desk / f"{number}.old", desk / f"{number}.new", before, after)
        for number, (path, before, after) in enumerate(told)
    )


def _is_meant(entry: Any) -> bool:
    """Whether this is a line of a plan, about a file that lies in a job's folder of this shop."""
    if not (isinstance(entry, list) and len(entry) == 3 and all(isinstance(part, str) for part in entry)):
        return False
    path = Path(entry[0])
    return len(path.parts) == 3 and not path.is_absolute() and ".." not in path.parts and "\0" not in entry[0]


def _carry_out(desk: Path) -> bool:
    """Put in the new texts that are not in yet; False, perhaps halfway, when one of those files was changed, or one
    that is only watched. With all of them in, nothing that was changed since matters."""
    plan = _planned(desk)
    steps = [step for step in plan if step.open]
    watched = [step for step in plan if step.before == step.after] if steps else []
    if any(step.found() not in (step.before, step.after) for step in (*steps, *watched)):
        return False
    for step in steps:
        now = step.found()  # looked at again: the last moment before it is replaced
        if now == step.before:
            _move_in(step.new, step.path)
        elif now != step.after:
            return False
        step.new.unlink(missing_ok=True)
    return True


def _take_back(desk: Path) -> None:
    """Put the old texts back where the new ones stand, last file first; what somebody else wrote stays.

    From the first moment on the plan cannot be carried out any more: it has the name of one that is taken back.
    """
    if (desk / _PLAN).exists():
        os.replace(desk / _PLAN, desk / _BACK)
        _keep(desk)
    for step in reversed(_planned(desk)):
        if step.found() == step.after and step.old.exists():
            _move_in(step.old, step.path)


def _clear(desk: Path) -> None:
    """Take the plan away, then the texts: in this order nothing is left that could be carried out by halves."""
    for step in _planned(desk):
        _aside(step.path).unlink(missing_ok=True)
    (desk / _PLAN).unlink(missing_ok=True)
    (desk / _BACK).unlink(missing_ok=True)
    _keep(desk)
    for left in desk.iterdir():
        if left.suffix in (".old", ".new"):
            left.unlink()


# ---- single files ---------------------------------------------------------------------------------------------------
def put(path: Path, data: bytes, mode: int) -> None:
    """Write a file that lies on the disk when this is done; `mode` as the user's own settings narrow it."""
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | getattr(os, "O_BINARY", 0), mode)
    try:
        rest = memoryview(data)
        while rest:
            rest = rest[os.write(handle, rest) :]
        os.fsync(handle)
    finally:
        os.close(handle)


def _put_like(other: Path, path: Path, data: bytes) -> None:
    """Write a file that those may read who may read another; nobody but the writer before it is whole."""
    put(path, data, 0o600)
    os.chmod(path, stat.S_IMODE(other.stat().st_mode))


def _move_in(text: Path, path: Path) -> None:
    """Let a file take the place of another at one moment; a link stays a link."""
    whole = path.resolve()
    try:
        os.replace(text, whole)
    except OSError as error:
        if error.errno != errno.EXDEV:
            raise
        beside = _aside(path)
        _put_like(whole, beside, text.read_bytes())
        os.replace(beside, whole)
    _keep(whole.parent)


def _aside(path: Path) -> Path:
    whole = path.resolve()
    return whole.with_name(f".{whole.name}{_ASIDE}")


def _keep(folder: Path) -> None:
    """Have the names in a folder lie on the disk, where a folder can be opened at all."""
    if sys.platform == "win32":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _sum(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _desk_of(jobs_dir: Path) -> Path:
    return jobs_dir.resolve().parent / ".cache" / "aswired" / "writing"


def _shop_of(desk: Path) -> Path:
    """The folder in which the jobs' folder lies."""
    return desk.parents[2]

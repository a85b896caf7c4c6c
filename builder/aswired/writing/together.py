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
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from aswired.writing.document import NotWritten

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

_PLAN = "plan.json"
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
    desk = jobs_dir.resolve().parent / ".cache" / "aswired" / "writing"
    desk.mkdir(parents=True, exist_ok=True)
    handle = os.open(desk / _LOCK, os.O_RDWR | os.O_CREAT, 0o666)
    try:
        until = time.monotonic() + _WAIT_S
        while not _locked(handle):
            if time.monotonic() > until:
                raise NotWritten("Another aswired is writing in this shop. Run it again when that has ended.")
            time.sleep(0.02)
        settle(desk)
        yield desk
    finally:
        os.close(handle)


def _locked(handle: int) -> bool:
    try:
        if sys.platform == "win32":
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        if error.errno in (errno.EACCES, errno.EAGAIN, errno.EDEADLK):
            return False
        raise
    return True


# ---- all or none ----------------------------------------------------------------------------------------------------
def replace_together(desk: Path, swaps: Sequence[Swap]) -> bool:
    """Replace files in their order; False when one of them is not what it was, and then none is replaced.

    Raises:
        OSError: the disk or a right is wanting; none is replaced.
        Unfinished: so it is, and what was replaced could not be taken back.
    """
    try:
        _plan(desk, swaps)
        return settle(desk)
    except BaseException:  # also when a person stops it
        try:
            _take_back(desk, _planned(desk))
            _clear(desk)
        except OSError as error:
            if (desk / _PLAN).exists():
                raise Unfinished(str(error.strerror or error)) from error
        raise


def _plan(desk: Path, swaps: Sequence[Swap]) -> None:
    """Lay texts and plan down; the change counts as made when the plan has its name."""
    shop = _shop_of(desk)
    plan = []
    for number, swap in enumerate(swaps):
        mode = stat.S_IMODE(swap.path.stat().st_mode)
        for name, data in ((f"{number}.before", swap.before), (f"{number}.after", swap.after)):
            _put(desk / name, data, mode)
        plan.append([swap.path.relative_to(shop).as_posix(), _sum(swap.before), _sum(swap.after)])
    _put(desk / "plan.new", json.dumps(plan).encode("utf-8"), 0o644)
    _keep(desk)
    os.replace(desk / "plan.new", desk / _PLAN)
    _keep(desk)


def settle(desk: Path) -> bool:
    """Carry out the plan that lies there, or take it back when a file of it was changed by somebody; clear the desk.

    False when it was taken back.
    """
    plan = _planned(desk)
    carried_out = _carry_out(desk, plan)
    if not carried_out:
        _take_back(desk, plan)
    _clear(desk)
    return carried_out


@dataclass(frozen=True)
class _Step:
    """A file of a plan, with the sums of what stood in it and of what shall."""

    number: int
    path: Path
    before: str
    after: str

    def found(self) -> str:
        """The sum of what stands in it now; '' when it is gone."""
        try:
            return _sum(self.path.read_bytes())
        except FileNotFoundError:
            return ""


def _planned(desk: Path) -> tuple[_Step, ...]:
    """What the plan says; nothing when there is none. Only files of a job's folder in this shop are ever meant."""
    try:
        told = json.loads((desk / _PLAN).read_bytes())
    except (FileNotFoundError, ValueError):
        return ()
    shop = _shop_of(desk)
    steps = tuple(_Step(number, shop / path, before, after) for number, (path, before, after) in enumerate(told))
    ours = all(len(path.parts) == 3 and ".." not in path.parts for path in (Path(path) for path, *_ in told))
    return steps if ours else ()


def _carry_out(desk: Path, plan: Sequence[_Step]) -> bool:
    """Put the new texts in; False, perhaps halfway, when a file is neither as it was nor as it shall be."""
    if not all(_can_become(step, desk) for step in plan):
        return False
    for step in plan:
        if not _can_become(step, desk):  # looked at again: the last moment before it is replaced
            return False
        if step.found() != step.after:
            _move_in(desk / f"{step.number}.after", step.path)
    return True


def _can_become(step: _Step, desk: Path) -> bool:
    """Whether a file is as it shall be, or as it was with its new text at hand."""
    now = step.found()
    return now == step.after or (now == step.before and _is(desk / f"{step.number}.after", step.after))


def _take_back(desk: Path, plan: Sequence[_Step]) -> None:
    """Put the old texts back where the new ones stand, last file first; what somebody else wrote stays."""
    for step in reversed(plan):
        if step.found() == step.after and _is(desk / f"{step.number}.before", step.before):
            _move_in(desk / f"{step.number}.before", step.path)


def _clear(desk: Path) -> None:
    """Take the plan away, then the texts: in this order nothing is left that could be carried out by halves."""
    for step in _planned(desk):
        _aside(step.path).unlink(missing_ok=True)
    if (desk / _PLAN).exists():
        os.unlink(desk / _PLAN)
        _keep(desk)
    for left in desk.iterdir():
        if left.suffix in (".before", ".after", ".new"):
            os.unlink(left)


# ---- single files ---------------------------------------------------------------------------------------------------
def _put(path: Path, data: bytes, mode: int) -> None:
    """Write a file that lies on the disk when this is done. Nobody else can read it while it is written."""
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | getattr(os, "O_BINARY", 0), 0o600)
    try:
        rest = memoryview(data)
        while rest:
            rest = rest[os.write(handle, rest) :]
        os.fsync(handle)
    finally:
        os.close(handle)
    os.chmod(path, mode)


def _move_in(text: Path, path: Path) -> None:
    """Let a file take the place of another at one moment; a link stays a link."""
    whole = path.resolve()
    try:
        os.replace(text, whole)
    except OSError as error:
        if error.errno != errno.EXDEV:
            raise
        beside = _aside(path)
        _put(beside, text.read_bytes(), stat.S_IMODE(whole.stat().st_mode))
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


def _is(path: Path, wanted: str) -> bool:
    return path.is_file() and _sum(path.read_bytes()) == wanted


def _sum(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _shop_of(desk: Path) -> Path:
    """The folder in which the jobs' folder lies."""
    return desk.parents[2]

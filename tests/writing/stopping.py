"""A machine that stops at the n-th thing it does to the disk, or whose disk refuses it."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest

DOINGS = ("open", "write", "fsync", "chmod", "replace", "rename", "unlink", "mkdir", "rmdir", "link")


class Stopped(BaseException):
    """The machine stopped: from here on nothing is done to the disk, whatever the program tries."""


@contextmanager
def stopping_at(step: int, error: OSError | None = None, lasting: bool = True) -> Iterator[list[str]]:
    """Stop at the `step`-th doing, counted from 0; with `error` that doing, and each after it if it lasts, fails.

    A write that is stopped has put half of its bytes down. Gives the names of what was done or tried.
    """
    done: list[str] = []

    def around(name: str, real: Callable[..., Any]) -> Callable[..., Any]:
        def doing(*given: Any, **named: Any) -> Any:
            reads = name == "open" and not given[1] & (os.O_WRONLY | os.O_RDWR)
            if reads:
                return real(*given, **named)
            done.append(name)
            now = len(done) - 1
            if now == step and name == "write":
                real(given[0], bytes(given[1])[: len(given[1]) // 2])
            if now == step or (now > step and lasting):
                raise error if error is not None else Stopped
            return real(*given, **named)

        return doing

    with pytest.MonkeyPatch.context() as patch:
        for name in DOINGS:
            patch.setattr(os, name, around(name, getattr(os, name)))
        yield done

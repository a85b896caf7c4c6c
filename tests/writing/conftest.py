"""The tests of writing do not wait for the disk: what fsync does cannot be seen without pulling the plug."""

from __future__ import annotations

import os

import pytest


@pytest.fixture(autouse=True)
def _no_waiting_for_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "fsync", lambda handle: None)

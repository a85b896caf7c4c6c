"""A shop of two jobs, and a program that counts as the same one however its files change meanwhile."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.site import stage
from tests.publish.shop import add_job


@pytest.fixture(autouse=True)
def mark(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(stage, "makers_mark", lambda folder: "this")


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("green-van", "red-van"):
        add_job(tmp_path, name)
    monkeypatch.chdir(tmp_path)
    return tmp_path

"""The demo site for the tests of this folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.browser import built


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built.demo_site(tmp_path_factory.getbasetemp())

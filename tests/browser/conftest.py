"""The demo site and a browser for the tests of this folder."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from tests.browser import built


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built.demo_site(tmp_path_factory.getbasetemp())


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with built.chromium() as browser:
        yield browser


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A phone-sized window of its own: what one test chose (day, night) does not reach the next."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    yield context
    context.close()


@pytest.fixture
def page(context: BrowserContext) -> Page:
    return context.new_page()

"""What every test run shares: the settings of hypothesis, and notes printed at the end of the run."""

from __future__ import annotations

import gc
import os
import signal
from collections.abc import Callable, Generator, Iterator
from contextlib import contextmanager
from typing import Any

import jinja2
import pytest
from hypothesis import HealthCheck, settings

SLOW_TO_DRAW = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example]
settings.register_profile("brief", max_examples=15, derandomize=True, deadline=None, suppress_health_check=SLOW_TO_DRAW)
settings.register_profile("quick", max_examples=25, derandomize=True, deadline=None, suppress_health_check=SLOW_TO_DRAW)
settings.register_profile("long", max_examples=500, deadline=None, suppress_health_check=SLOW_TO_DRAW)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "quick"))


@pytest.fixture
def tell(request: pytest.FixtureRequest) -> Callable[[str], None]:
    """Have a line printed in the summary of the run."""
    return lambda line: request.node.user_properties.append(("note", line))


@pytest.fixture
def no_waiting() -> Iterator[None]:
    """A test that waits for a pipe fails here instead of holding up all others."""
    with not_longer_than(60):
        yield


@contextmanager
def not_longer_than(seconds: int) -> Iterator[None]:
    """End what waits; where the system has no such signal, nothing does."""
    if not hasattr(signal, "SIGALRM"):
        yield
        return

    def over(number: int, frame: object) -> None:
        raise TimeoutError("this test waits for something that never comes")

    before = signal.signal(signal.SIGALRM, over)
    signal.alarm(seconds)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    reports = [report for key in ("passed", "failed") for report in terminalreporter.stats.get(key, [])]
    for report in reports:
        lines = [line for name, line in report.user_properties if name == "note"]
        if lines:
            terminalreporter.write_sep("-", report.nodeid.rpartition("::")[2])
            terminalreporter.write_line("\n".join(lines))


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Generator[None, object, object]:
    """What is collected stays to the end: the collector of the interpreter need not walk over it, then or later."""
    gc.disable()
    try:
        return (yield)
    finally:
        gc.freeze()
        gc.set_threshold(400_000, 50, 20)
        gc.enable()


@pytest.fixture(autouse=True, scope="session")
def templates_compiled_once() -> Iterator[None]:
    """Every build of a test has a folder of its own for compiled templates; the same text gives the same code."""
    compiled, kept = jinja2.Environment.compile, {}

    def compile_once(env: jinja2.Environment, source: Any, *rest: Any, **named: Any) -> Any:
        key = (source, rest, *named.items())
        if key not in kept:
            kept[key] = compiled(env, source, *rest, **named)
        return kept[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(jinja2.Environment, "compile", compile_once)
        yield

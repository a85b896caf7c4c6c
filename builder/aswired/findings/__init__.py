"""Findings about the car, from recorded facts only, and the count of what was not examined."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from aswired.route import Route
from aswired.worked import Worked


def find(facts: Worked, route: Route, photo_problems: Mapping[str, str]) -> Worked:
    return replace(facts, findings=facts.shown.findings)

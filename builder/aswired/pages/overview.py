"""Sheet 1: what a person must know first."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.sheets import cautions, overview
from aswired.sheets.recorded import own_limits, usual_facts


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The overview."""
    yield frame_of(worked, shop).page(
        "index.html",
        "overview.html",
        verdicts=overview.verdicts(worked),
        against=overview.against(worked),
        findings=overview.ranked(worked),
        let_stand=overview.let_stand(worked),
        let_stand_told=overview.let_stand_told(worked),
        answers=overview.answers(worked),
        cautions=cautions.cautions(worked),
        standing=cautions.standing(worked),
        numbers=overview.numbers(worked),
        conditions=overview.conditions(worked),
        latest=overview.latest(worked),
        usual=usual_facts(worked.job),
        limits=own_limits(worked.job),
    )

"""A rule makes findings of its own code and of no rank but its own."""

from __future__ import annotations

import pytest

from aswired.text.diagnostics import RULES, Finding, Location, Rule, Severity

AT = Location("job.yml", 3)


@pytest.fixture(autouse=True)
def _no_rule_is_left_over(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("aswired.text.diagnostics.RULES", {})


def test_a_rule_of_one_rank_needs_no_word_of_it() -> None:
    one = Rule("XYZ01", Severity.ERROR)
    told = Finding("XYZ01", Severity.ERROR, AT, "C1", "wrong", "mend it")
    assert one(AT, "C1", "wrong", "mend it") == told
    assert one(AT, "C1", "wrong", "mend it", rank=Severity.ERROR) == told


def test_of_several_ranks_one_is_named() -> None:
    two = Rule("XYZ02", Severity.STOP, Severity.NOTE)
    assert two(AT, "C1", "wrong", "mend it", rank=Severity.STOP).severity is Severity.STOP
    assert two(AT, "C1", "wrong", "mend it", rank=Severity.NOTE).severity is Severity.NOTE
    with pytest.raises(ValueError, match="XYZ02 has several ranks"):
        two(AT, "C1", "wrong", "mend it")


@pytest.mark.parametrize("rank", [Severity.ERROR, Severity.WARNING])
def test_a_rank_that_a_rule_does_not_have_is_refused(rank: Severity) -> None:
    with pytest.raises(ValueError, match=f"XYZ03 has no rank {rank.word}"):
        Rule("XYZ03", Severity.STOP, Severity.NOTE)(AT, "C1", "wrong", "mend it", rank=rank)


@pytest.mark.parametrize("ranks", [(), (Severity.NOTE, Severity.STOP), (Severity.NOTE, Severity.NOTE)])
def test_ranks_are_written_once_each_the_heaviest_first(ranks: tuple[Severity, ...]) -> None:
    with pytest.raises(ValueError, match="XYZ04 wants its ranks once each, heaviest first"):
        Rule("XYZ04", *ranks)


def test_a_code_is_a_rule_once() -> None:
    Rule("XYZ05", Severity.NOTE)
    with pytest.raises(ValueError, match="XYZ05 is a rule already"):
        Rule("XYZ05", Severity.NOTE)
    assert "XYZ05" not in RULES  # those of the program are kept apart from those of this test

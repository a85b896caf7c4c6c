"""The head of the ledger: what it says in each state, of ledgers made by hand."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

import pytest

from aswired.figures.worked import JobResult
from aswired.ledger.record import Account, Amperes, FuseLine, Ledger, Line, MayGoIn, Reason, Weight, Why
from aswired.sheets.jobs import from_json, summarise, to_json
from aswired.sheets.ledger_head import Head, Says, fact_groups, head
from aswired.text.diagnostics import Finding, Location, Severity
from tests.findings.jobs import work

AT = Location("job.yml", 4)
FIRST = "First power still through a low fuse, one circuit at a time."


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> JobResult:
    """A job of which nothing is said; its own findings are set aside."""
    text = "job: Head\nchanges: [{id: C1, kind: verify, proves: [C1]}]\n"
    return replace(work(tmp_path_factory.mktemp("head"), text), findings=(), not_examined=())


def never(of: str, why: Why = Why.BARE) -> Reason:
    return Reason(why, Weight.NEVER, of, AT)


def by_name(of: str, by: str = "") -> Reason:
    return Reason(Why.TAPED, Weight.BY_NAME, of, AT, let_stand_by=by, let_stand_why="spring" if by else "")


def missing(of: str, why: Why = Why.SIZE) -> Reason:
    return Reason(why, Weight.MISSING, of, AT, "size")


def account(name: str, *reasons: Reason, unfused: bool = False) -> Account:
    push = Amperes(math.inf, math.inf) if unfused else Amperes(10.0, 10.0, ("F1",))
    line = Line(name, f"{name} whole", 0, 15.0, 18.0, push, Amperes(), Amperes(), None, True, reasons)
    return Account(name, (line,))


def ledger(*accounts: Account, car: Iterable[Reason] = (), fuses: Iterable[FuseLine] = ()) -> Ledger:
    return Ledger({a.name: a for a in accounts}, {fuse.name: fuse for fuse in fuses}, tuple(car))


def told(bare: JobResult, of: Ledger, *findings: Finding) -> Head:
    return head(replace(bare, ledger=of, findings=findings))


def says(found: Head) -> list[Says]:
    return [sentence.says for sentence in found.sentences]


def finding(severity: Severity) -> Finding:
    return Finding("XXX01", severity, AT, "W9", "something is wrong", "mend it")


def test_what_nobody_may_let_stand_comes_first_and_the_power_stays_off(bare: JobResult) -> None:
    found = told(
        bare,
        ledger(account("W4", never("C1-W4-horn")), account("W5", never("C2-W5-horn")), account("W6", by_name("e6"))),
    )
    assert says(found) == [Says.NEVER, Says.BY_NAME]
    assert found.leave_off
    assert [sentence.text for sentence in found.sentences] == [
        "Leave the power off. W4: the cut end C1-W4-horn is left bare, and is live. And 1 more.",
        "What is written also speaks against W6. The battery stays off: no fuse on record cuts off W6.",
    ]
    assert found.wires_line == "Wires: 0 of 3 proved, 3 against, 0 let stand, 0 not shown"


def test_a_stop_of_another_check_keeps_the_power_off_too(bare: JobResult) -> None:
    found = told(bare, ledger(account("W1")), finding(Severity.STOP))
    assert says(found) == [Says.NEVER]
    assert found.sentences[0].text == "Leave the power off. Something is wrong."


def test_what_is_against_by_name_keeps_its_fuses_out(bare: JobResult) -> None:
    wires = (*(account(f"W{n}", by_name(f"e{n}")) for n in range(3)), account("W9"))
    fuses = (FuseLine("F2", MayGoIn.NO, ("W0",), ("W1",), ("W9",)), FuseLine("F3", MayGoIn.YES, ("W9",), (), ("W2",)))
    found = told(bare, ledger(*wires, fuses=fuses))
    assert [sentence.text for sentence in found.sentences] == [
        "What is written speaks against W0, W1 and W2. Leave out F2. The battery stays off: no fuse on record cuts off "
        "W2."
    ]
    assert not found.leave_off
    lamp = Reason(Why.OTHER_VOLTS, Weight.BY_NAME, "lamp", AT, by=("21 W at 24 V",))
    found = told(bare, ledger(account("W9"), car=(lamp,)))
    assert [sentence.text for sentence in found.sentences] == [
        "lamp is made for other volts than the car has (21 W at 24 V)."
    ]


def test_what_is_not_shown_is_told_with_its_number(bare: JobResult) -> None:
    fuse = FuseLine("F1", MayGoIn.OPEN, ("W1", "W3"), (), ())
    found = told(bare, ledger(account("W1"), account("W2"), account("W3", missing("W3")), fuses=(fuse,)))
    assert [sentence.text for sentence in found.sentences] == [
        "1 of 3 wires is not proved by what is written. Leave out F1."
    ]
    assert found.helps == ("Read or measure the size of W3 (size:). May settle W3.",)
    most = told(bare, ledger(account("W1"), account("W2", missing("W2")), account("W3", missing("W3"))))
    assert most.sentences[0].text.startswith(
        "Nothing written speaks against this car, but too little is written to judge it. 2 of 3 wires are not proved"
    )
    both = told(bare, ledger(account("W1", by_name("e1")), account("W2", missing("W2"))))
    assert says(both) == [Says.BY_NAME, Says.NOT_SHOWN]
    assert "Nothing written speaks against" not in both.sentences[1].text
    error = told(bare, ledger(account("W2", missing("W2"))), finding(Severity.ERROR))
    assert "Nothing written speaks against" not in error.sentences[0].text


def test_a_car_of_which_nothing_is_known_is_never_clean(bare: JobResult) -> None:
    found = told(bare, ledger())
    assert [sentence.text for sentence in found.sentences] == [
        "No wire is on record, so nothing is shown. Leave the battery off."
    ]
    volts = Reason(Why.VOLTS, Weight.MISSING, "system", AT, "system")
    found = told(bare, ledger(account("W1"), car=(volts,)))
    assert [sentence.text for sentence in found.sentences] == [
        "Not written of the car as a whole: the volts of the system."
    ]


def test_the_clean_sentence_names_what_has_no_fuse_and_what_is_let_stand(bare: JobResult) -> None:
    found = told(bare, ledger(account("W1"), account("W2")))
    assert [sentence.text for sentence in found.sentences] == [
        f"Every wire on record is fused within its rating and closed at both ends. {FIRST}"
    ]
    found = told(
        bare,
        ledger(
            account("W1", unfused=True),
            account("W2"),
            account("W10", by_name("e1", "AK")),
            account("W12", by_name("e2", "JT")),
        ),
    )
    assert [sentence.text for sentence in found.sentences] == [
        "Every wire on record is fused within its rating, or needs none (W1), and closed at both ends, but for 2 let "
        f"stand by AK and JT: W10, W12. {FIRST}"
    ]
    assert found.wires == "2 of 4 proved, 0 against, 2 let stand, 0 not shown"


def test_a_plan_is_never_clean(bare: JobResult) -> None:
    found = told(bare, replace(ledger(account("W1")), planned=("C1", "C2")))
    assert [(sentence.says, sentence.text) for sentence in found.sentences] == [
        (Says.PLANNED, "Of the plan, not of a car: 2 rows not made so far.")
    ]


@pytest.mark.parametrize("severity", [Severity.STOP, Severity.ERROR])
def test_it_is_said_only_while_no_other_check_speaks(bare: JobResult, severity: Severity) -> None:
    clean = ledger(account("W1"))
    assert says(told(bare, clean)) == [Says.CLEAN]
    assert Says.CLEAN not in says(told(bare, clean, finding(severity)))
    assert says(told(bare, clean, finding(Severity.WARNING))) == [Says.CLEAN]


def test_fuses_are_told_by_what_may_be_done_with_them(bare: JobResult) -> None:
    def fuse(name: str, may: MayGoIn, *feeds: str, by: tuple[str, ...] = ()) -> FuseLine:
        return FuseLine(name, may, feeds, (), (), by)

    fuses = (
        fuse("F10", MayGoIn.YES, "W1"), fuse("F2", MayGoIn.YES, "W1"), fuse("F3", MayGoIn.NO, "W2"),
        fuse("F4", MayGoIn.BY_NAME, "W3", by=("AK", "JT")), fuse("F5", MayGoIn.OPEN, "W4"), fuse("F6", MayGoIn.YES),
    )  # fmt: skip
    found = told(bare, ledger(account("W1"), fuses=fuses))
    assert found.fuses_line == (
        "Fuses: F2, F10 may go in; F3 stays out; F4 on the word of AK and JT; F5 not yet; F6 feeds nothing on record"
    )
    assert told(bare, ledger(fuses=fuses[4:5])).fuses == "none may go in yet; F5 not yet"
    assert told(bare, ledger(account("W1"))).fuses == "none on record"


def test_facts_of_one_kind_stand_together_those_that_settle_most_wires_first() -> None:
    of = ledger(
        account("W1", missing("W1")),
        account("W2", missing("W2"), missing("F4", Why.RATING)),
        account("W3", missing("F4", Why.RATING), missing("W3")),
        account("W4", missing("seat", Why.NOTHING_BEHIND)),
        account("W5", missing("seat", Why.NOTHING_BEHIND), missing("door", Why.NOTHING_BEHIND)),
        account("W6", missing("W6"), by_name("e6")),
        car=(missing("supply", Why.VOLTS),),
    )
    assert [(group.words, group.wires, group.frees) for group in fact_groups(of)] == [
        ("what is behind door, seat", ("W4", "W5"), ("W4", "W5")),
        ("size of W1, W2, W3, W6", ("W1", "W2", "W3", "W6"), ("W1",)),
        ("rating of F4", ("W2", "W3"), ()),
        ("the volts that figures are for", (), ()),
    ]


def test_wires_that_no_fuse_cuts_off_keep_the_battery_off(bare: JobResult) -> None:
    """W1 hangs on F1. W2 comes home for F1 and for an output of which nothing is known, W3 has nothing before it, W4
    hangs on no fuse, and L1 is a ground cable that no fuse's loads come home by."""
    cable = replace(account("L1", missing("L1", Why.CABLE)), ground=True)
    of = ledger(
        account("W1", missing("W1")),
        account("W2", missing("unit.7", Why.OUTPUT)),
        account("W3", missing("W3"), unfused=True),
        account("W4", missing("W4")),
        cable,
        fuses=(FuseLine("F1", MayGoIn.OPEN, ("W1", "W3"), ("W2",), ()),),
    )
    (said,) = told(bare, of).sentences
    assert said.text.endswith(
        "None of its wires and ground cables is proved by what is written. Leave out F1. The battery stays off: no "
        "fuse on record cuts off W2, W3, W4 and L1."
    )


def test_more_than_six_fuses_to_leave_out_are_counted(bare: JobResult) -> None:
    def text(number: int) -> str:
        wires = [account(f"W{n}", missing(f"W{n}")) for n in range(number)]
        fuses = [FuseLine(f"F{n}", MayGoIn.OPEN, (f"W{n}",), (), ()) for n in range(number)]
        return told(bare, ledger(*wires, fuses=fuses)).sentences[0].text

    assert text(6).endswith("written. Leave out F0, F1, F2, F3, F4, F5.")
    assert text(7).endswith("written. Leave out their 7 fuses.")


def test_the_car_as_a_whole_is_asked_for_once_a_kind(bare: JobResult) -> None:
    asks = [missing(of, Why.DECLARED) for of in ("restraint", "high voltage")]
    found = told(bare, ledger(account("W1"), car=(*asks, missing("supply", Why.VOLTS))))
    assert [sentence.text for sentence in found.sentences] == [
        "Not written of the car as a whole: whether there is a high-voltage system or a restraint system, and what "
        "became of it; the volts that figures are for."
    ]


def test_a_page_says_that_ground_cables_are_counted_and_what_may_go_in_means(bare: JobResult) -> None:
    fuse = FuseLine("F1", MayGoIn.YES, ("W1",), (), ())
    both = told(bare, ledger(account("W1"), replace(account("L1"), ground=True), fuses=(fuse,)))
    assert both.counted_line == "Wires and ground cables: 2 of 2 proved, 0 against, 0 let stand, 0 not shown"
    assert both.wires_line == "Wires: 2 of 2 proved, 0 against, 0 let stand, 0 not shown"
    assert "It is no leave to skip a step of first power." in both.means
    alone = told(bare, ledger(account("W1")))
    assert alone.counted_line == "Wires: 1 of 1 proved, 0 against, 0 let stand, 0 not shown"
    assert "May go in" not in alone.means


def test_the_summary_of_a_job_keeps_it_through_json(bare: JobResult) -> None:
    found = summarise(replace(bare, ledger=ledger(account("W4", never("C1-W4-horn")), account("W5"))))
    assert (found.wires, found.leave_off) == ("1 of 2 proved, 1 against, 0 let stand, 0 not shown", True)
    assert from_json(to_json(found)) == found

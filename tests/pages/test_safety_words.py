"""Words that keep a hand or a car whole: what is barred, drawn, waited for, declared, let stand, and not counted."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets import changes as change_pages
from aswired.sheets import record as record_pages
from aswired.sheets import worksheet as worksheet_pages
from aswired.sheets.cautions import Caution, cautions
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.jobs import summarise
from aswired.sheets.overview import against
from aswired.sheets.recorded import found_dead
from aswired.sheets.steps import WorkStep
from aswired.sheets.templates import environment, render
from aswired.sheets.worksheet import work_sheet
from aswired.site.theme import theme_dir
from pages.small import TEXT, work
from tests.crawl.tree import Element, parse

UNMADE = re.sub(r",\s+made: \S+ AK", "", TEXT.replace("FROM_TO_31", "from: F7, to: siren-plug.1"))


def wired(lines: str) -> str:
    """The small job, nothing of it made, with more wires."""
    return UNMADE.replace("changes:\n", f"{lines}\nchanges:\n")


def step(of: JobResult, id: str) -> WorkStep:
    (found,) = [step for step in work_sheet(of).steps if step.id == id]
    return found


def printed(module: object, of: JobResult) -> Element:
    """The first page of a sheet."""
    out = next(iter(module.pages(frame_of(of, ShopFacts("shop")))))  # type: ignore[attr-defined]
    return parse(render(environment(theme_dir()), out))


def article(of: JobResult, id: str) -> str:
    """The step of a row as the work sheet prints it."""
    return printed(worksheet_pages, of).first("article", id=id).text


def the_one(of: JobResult, begins: str) -> Caution:
    (found,) = [caution for caution in cautions(of) if caution.title.startswith(begins)]
    return found


# ---- the work sheet -------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("special", ["restraint", "high voltage"])
def test_a_tap_onto_a_barred_wire_is_no_work_for_this_sheet(special: str, tmp_path: Path) -> None:
    """The lead W9 is ordinary wire; the one that it is tapped onto is not."""
    text = wired(f"  W80: {{from: air.1, to: unit.1, length: 900 mm, special: {special}}}")
    tap = "  - {id: C70, kind: tap, wire: W9, onto: W80, from: air.1, tail: 90 mm, to: bell.1, reach: 300 mm}\n"
    barred = work(tmp_path, text + tap)
    told = step(barred, "C70")
    assert told.barred == f"W80 is declared {special}"
    assert (told.wires, told.ticks) == ((), ())
    words = article(barred, "C70")
    assert "Not by this sheet" in words
    assert "90 mm" not in words


def test_the_fuses_to_draw_are_those_of_the_car_as_it_is(tmp_path: Path) -> None:
    """A fuse that is planned protects nobody yet: F7 is the live one."""
    text = UNMADE.replace("fuses:\n", "fuses:\n  F10: {rating: 10 A, fed: always}\n")
    planned = "  - {id: C80, kind: protect, fuse: F10, rating: 10 A, wire: W31, end: F7, tail: 40 mm}\n"
    of = work(tmp_path, text + planned)
    assert "C80" in {step.id for step in work_sheet(of).steps}
    assert step(of, "C14").fuses == ("F7",)
    drawn = article(of, "C14")
    assert "F10" not in drawn[drawn.index("Fuses to draw") :]


@pytest.mark.parametrize(
    ("declared", "waits"),
    [
        ("present", True),
        ("untouched", True),
        ("changed", True),
        ("removed in part", True),
        ("unknown", True),
        ("removed complete", False),
        ("never fitted", False),
    ],
)
def test_the_restraint_system_is_waited_for_unless_none_is_in_the_car(
    declared: str, waits: bool, tmp_path: Path
) -> None:
    of = work(tmp_path, f"systems: {{restraint: {declared}}}\n{UNMADE}")
    waited = [item for item in work_sheet(of).before if item.title == "Restraint system"]
    assert [item.write for item in waited] == ([("waited from", "to")] if waits else [])
    for item in waited:
        assert "Wait as long as the vehicle maker's manual says" in item.text
        assert ("Not declared" in item.text) == (declared == "unknown")


def test_what_is_wrong_with_a_step_stands_in_it(tmp_path: Path) -> None:
    thin = work(tmp_path, UNMADE.replace("piece: BU 1.5 mm2", "piece: BU 0.5 mm2"))
    assert "smaller than W31" in article(thin, "C14")
    assert "smaller than W31" not in article(thin, "C21")


def test_a_drop_above_its_limit_is_marked_in_the_step(tmp_path: Path) -> None:
    """A horn may lose 10 % of 13.5 V, 1.35 V. The copper of the feed alone takes more at 40 A: 1.99 m of 1.5 mm2 and
    0.46 m of 0.5 mm2 at 0.01724 ohm mm2/m (annealed copper, 20 C, from memory) are 22.9 + 15.9 = 38.8 mohm, 1.55 V.
    At 5 A the whole way stays far below: with 1.1 m of 1.5, 0.36 m of 2.5 and 2 m of 10 mm2 behind it, 18.5 mohm, and
    under 15 mohm for joints, cavities, rings and the fuse as the job allows them, 73 mohm make 0.37 V."""
    thin = UNMADE.replace("piece: BU 1.5 mm2", "piece: BU 0.5 mm2")
    much = article(work(tmp_path / "much", thin.replace("draws: 5 A", "draws: 40 A")), "C14")
    little = article(work(tmp_path / "little", thin), "C14")
    assert "1.35 V" in much
    assert "1.35 V" in little
    assert "above the limit" in much
    assert "above the limit" not in little


@pytest.mark.parametrize(
    ("check", "proves"),
    [
        ("test: siren on, expect: loud", True),
        ("test: siren on, expect: loud, made: 2031-05-01 AK", False),  # before the work, which is still planned
        ("test: not measured, made: 2031-05-01 AK", False),
    ],
)
def test_a_check_that_proves_nothing_of_a_step_is_no_test_of_it(check: str, proves: bool, tmp_path: Path) -> None:
    of = work(tmp_path, f"{UNMADE}  - {{id: C52, kind: verify, proves: [C14], {check}}}\n")
    assert (("C52", "C14") in of.void_proofs) is not proves
    assert [test.row for test in step(of, "C14").tests] == (["C52"] if proves else [])
    assert ("C52" in article(of, "C14")) is proves


@pytest.mark.parametrize(
    ("known", "other", "holds"),
    [
        ("no", "", ((), False)),  # one wire is recorded, and it is the one to be taken out
        ("yes", "", None),
        ("no", "  W71: {from: FS9, to: F8.feed}\n", (("W71",), False)),
        ("yes", "  W71: {from: FS9, to: F8.feed}\n", (("W71",), True)),
    ],
)
def test_a_splice_with_wires_that_were_not_traced_says_so_before_it_is_opened(
    known: str, other: str, holds: tuple[tuple[str, ...], bool] | None, tmp_path: Path
) -> None:
    text = wired(f"  W70: {{colour: GY, size: 1.5 mm2, from: old-plug.2, to: FS9, length: 800 mm}}\n{other}")
    text = text.replace("wires:\n", f"splices: {{FS9: {{all members known: {known}}}}}\nwires:\n")
    row = "  - {id: C60, kind: remove, wire: W70, ends: {old-plug.2: pulled, FS9: capped 30 mm}}\n"
    of = work(tmp_path, text + row)
    hanging = step(of, "C60").hanging
    assert [(each.wires, each.all_known) for each in hanging] == ([holds] if holds is not None else [])
    told = article(of, "C60")
    assert ("FS9 also holds" in told) is (holds is not None)
    assert ("wires that were not traced" in told) is (known == "no")


def test_the_own_cautions_of_a_car_stand_in_the_record_and_on_the_work_sheet(tmp_path: Path) -> None:
    of = work(tmp_path, f"cautions: [Isolator behind the cab]\n{UNMADE}")
    assert "Isolator behind the cab" in printed(record_pages, of).first("ul", class_="cautions").text
    boxes = [box.text for box in printed(worksheet_pages, of).all("div", class_="warn")]
    (box,) = [box for box in boxes if box.startswith("This car")]
    assert "Isolator behind the cab" in box


# ---- what was declared ----------------------------------------------------------------------------------------------
@pytest.mark.parametrize("status", ["never fitted", "removed complete"])
@pytest.mark.parametrize(
    ("key", "title", "rank"),
    [
        ("restraint", "Restraint system", "stop"),
        ("high voltage", "High voltage", "stop"),
        ("anti-lock", "Anti-lock brakes", "warning"),
        ("immobiliser", "Immobiliser", "warning"),
    ],
)
def test_a_system_declared_gone_or_never_fitted_with_wires_in_the_car_is_contradicted(
    status: str, key: str, title: str, rank: str, tmp_path: Path
) -> None:
    text = wired(f"  W1: {{from: u.1, to: lamp.1, special: {key}}}")
    told = the_one(work(tmp_path, f"systems: {{{key}: {status}}}\n{text}"), title)
    assert told.title == f"{title}: declared {status}, but wires of it are in the car"
    assert (told.rank, told.ids) == (rank, ("W1",))
    assert told.text.startswith("Treat it as in the car and live")


@pytest.mark.parametrize(
    ("written", "said", "unsaid"),
    [
        (
            "decided by: JT",
            ("Decided by JT.", "What stands in its place is not recorded."),
            ("Who decided it", "In its place:"),
        ),
        (
            "instead: clutch switch",
            ("In its place: clutch switch.", "Who decided it is not recorded."),
            ("Decided by", "What stands in its place"),
        ),
        (
            "decided by: unknown, instead: unknown",
            ("Who decided it is not recorded.", "What stands in its place is not recorded."),
            ("Decided by", "In its place:"),
        ),
    ],
)
def test_a_bridge_says_who_decided_it_and_what_stands_in_its_place_each_by_itself(
    written: str, said: tuple[str, ...], unsaid: tuple[str, ...], tmp_path: Path
) -> None:
    row = (
        "  - {id: C43, kind: bridge, ends: [clutch.1, clutch.2], piece: YE 1.5 mm2, cut: 80 mm, "
        f"interlock: park or neutral, made: 2031-05-06 AK, {written}}}\n"
    )
    text = the_one(work(tmp_path, UNMADE + row), "Interlock bridged: park or neutral").text
    assert [words for words in said if words not in text] == []
    assert [words for words in unsaid if words in text] == []


# ---- what counts ----------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("made", "found"), [("", {}), (", made: 2031-05-06 AK", {"F7": ("C1",)})])
def test_a_planned_check_found_nothing_dead(made: str, found: dict[str, tuple[str, ...]], tmp_path: Path) -> None:
    of = work(tmp_path, f"{UNMADE}  - {{id: C1, kind: verify, proves: [C14], dead without: [F7]{made}}}\n")
    assert "C1" in {row.id for row in of.rows_of(of.plan)}
    assert found_dead(of) == found


def test_a_job_stands_at_the_step_of_its_hindmost_row(tmp_path: Path) -> None:
    """C14 is tested, C21 made, C30 planned; without C30 it is the made one, without both the tested one."""
    text = TEXT.replace("FROM_TO_31", "from: F7, to: siren-plug.1")
    text = text.replace("made: 2031-05-04 AK", "made: 2031-05-04 AK, sealed: 2031-05-04 AK, tested: 2031-05-04 AK")
    made, tested = text[: text.index("  - {id: C30")], text[: text.index("  - {id: C21")]
    stands = [summarise(work(tmp_path / str(n), each)).stands_at for n, each in enumerate((text, made, tested))]
    assert stands == ["planned", "made", "tested"]


# ---- what is let stand ----------------------------------------------------------------------------------------------
# 13.5 V do not belong to a system of 24 V (HDR02); a check that proves itself shows nothing (TST01). Both are warnings.
TWO_WARNINGS = """\
job: Nothing
system: 24 V
supply: 13.5 V
ACCEPTED
changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]
"""


def test_an_accepted_warning_is_not_counted_among_the_open_ones(tmp_path: Path) -> None:
    accepted = "accepted: [{finding: HDR02, by: JT, why: the battery is split}]"
    both = work(tmp_path / "both", TWO_WARNINGS.replace("ACCEPTED", ""))
    assert [(found.code, found.severity.word) for found in both.findings] == [
        ("HDR02", "warning"),
        ("TST01", "warning"),
    ]
    assert against(both).lighter == "2 warnings"
    assert against(work(tmp_path / "one", TWO_WARNINGS.replace("ACCEPTED", accepted))).lighter == "1 warning"


def test_an_accepted_finding_shows_its_why_on_the_page_where_it_stands(tmp_path: Path) -> None:
    accepted = "piece: BU 0.5 mm2, accepted: [{finding: SIZ01, by: JT, why: nothing thicker fits the cavity}]"
    of = work(tmp_path, UNMADE.replace("piece: BU 1.5 mm2", accepted))
    assert [found.accepted_by for found in of.findings if found.code == "SIZ01"] == ["JT"]
    for module in (worksheet_pages, change_pages):
        (let,) = [let.text for let in printed(module, of).all("p", class_="let") if "smaller than W31" in let.text]
        assert "accepted by JT" in let
        assert "nothing thicker fits the cavity" in let

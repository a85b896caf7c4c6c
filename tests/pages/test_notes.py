"""Figures as notes on paper: nothing is lost by telling parts, sources and rules once."""

from __future__ import annotations

import re

import pytest

from aswired.figures.worked import JobResult
from aswired.sheets.circuits import circuit_sheet
from aswired.sheets.notes import Notes, PartRow, notes_of
from aswired.sheets.tests import circuit_tests
from aswired.sheets.text import FigureText, InputText, Printed
from tests.demos import demo


def figure(key: str, *inputs: tuple[str, str, str], value: str = "1.00 V", rule: str = "sum") -> FigureText:
    told = tuple(made(*given) for given in inputs)
    return FigureText(key, key, Printed(value, key), True, rule, "U = sum", told, "", "")


def made(name: str, text: str, source: str) -> InputText:
    way, _, carries = source.partition("; carries ")
    origin, _, times = way.partition(" × ")
    return InputText(name, text, source, "mohm" if text.endswith("mΩ") else "", origin, times, carries)


WIRE = "1 mm² (a table; read) 18.50 mΩ/m at 20 °C × 1000 mm"
WAY = (("fuse F1", "5.0 mΩ", "usual"), ("W1 from F1 to S", "18.5 mΩ", WIRE), ("half S", "0.5 mΩ", "usual"))


def carrying(way: tuple[tuple[str, str, str], ...], *amps: str) -> tuple[tuple[str, str, str], ...]:
    return tuple((*part[:2], f"{part[2]}; carries {a}") for part, a in zip(way, amps, strict=True))


def test_a_part_is_told_once_and_each_figure_points_to_it_with_the_current_through_it() -> None:
    told = notes_of(
        [
            figure("R", *WAY, ("half S", "0.5 mΩ", "usual")),
            figure("alone", *carrying(WAY, "6.00 A", "6.00 A", "6.00 A")),
            figure("together", *carrying(WAY, "9.00 A", "6.00 A", "6.00 A")),
        ]
    )
    assert told.parts == (
        PartRow(1, "fuse F1", "5.0", "", "", "a"),
        PartRow(2, "W1 from F1 to S", "18.5", "", "1000 mm", "b"),
        PartRow(3, "half S", "0.5", "", "", "a"),
        PartRow(4, "half S", "0.5", "", "", "a"),  # a splice passed twice in one way is two halves
    )
    assert told.sources == (("a", "usual"), ("b", "1 mm² (a table; read) 18.50 mΩ/m at 20 °C"))
    assert [note.inputs for note in told.notes] == [
        "parts 1 to 4",
        "parts 1 to 3 at 6.00 A",
        "part 1 at 9.00 A; parts 2, 3 at 6.00 A",
    ]
    assert (told.rules, {note.rule for note in told.notes}) == ((("A", "sum"),), {"A"})


def test_what_a_part_has_at_worst_stands_beside_what_is_counted() -> None:
    hot = (("fuse F1", "7.5 mΩ", "usual; carries 6.00 A"), ("W1 from F1 to S", "20.4 mΩ", f"{WIRE}; carries 6.00 A"))
    told = notes_of([figure("feed.worst", *hot), figure("feed.alone", *carrying(WAY[:2], "6.00 A", "6.00 A"))])
    assert [(row.number, row.mohm, row.worst) for row in told.parts] == [(1, "5.0", "7.5"), (2, "18.5", "20.4")]
    assert [note.inputs for note in told.notes] == ["parts 1, 2 at 6.00 A (worst)", "parts 1, 2 at 6.00 A"]


def test_a_wire_that_was_longer_in_the_donor_is_another_part() -> None:
    longer = ("W1 from F1 to S", "37.0 mΩ", WIRE.replace("1000", "2000"))
    told = notes_of([figure("feed.alone", *WAY[:2]), figure("feed.alone.donor", WAY[0], longer)])
    assert [(row.name, row.mohm, row.length) for row in told.parts][2:] == [("W1 from F1 to S", "37.0", "2000 mm")]
    assert told.notes[1].inputs == "parts 1, 3"


def test_inputs_told_before_are_pointed_at_and_so_are_figures() -> None:
    on = tuple((f"lamp {number}", f"{number}.0 A", "as it behaves") for number in range(1, 7))
    told = notes_of([figure("fed", *on), figure("load", *on), figure("sum", ("fed", "1.00 V", "fed"), ("k", "2", ""))])
    assert [note.inputs for note in told.notes] == [
        "lamp 1 1.0 A, lamp 2 2.0 A, lamp 3 3.0 A, lamp 4 4.0 A, lamp 5 5.0 A, lamp 6 6.0 A (as it behaves)",
        "inputs as in 1",
        "fed 1.00 V (note 1); k 2",
    ]


def test_a_resistance_that_is_not_recorded_keeps_its_words() -> None:
    unread = FigureText(
        "R", "R", "not recorded", False, "sum", "R = sum", (InputText("W1", "not recorded", "size not read", "mohm"),),
        "Not computed: W1: size not read", "",
    )  # fmt: skip
    told = notes_of([unread])
    assert [(row.mohm, row.worst) for row in told.parts] == [("not recorded", "")]
    assert (told.notes[0].value, told.notes[0].missing) == ("not recorded", "Not computed: W1: size not read")


def test_what_is_wanting_is_told_once() -> None:
    why = "Not computed: current of horn not recorded; W1 from F2 to horn.1: length not recorded"
    all_of = [FigureText(key, key, "not recorded", False, "", "", (), why, "") for key in ("alone", "together")]
    assert [note.missing for note in notes_of(all_of).notes] == [why, "Not computed, as 1"]


# ---- the demo jobs: what is printed is enough to compute the drop anew ----------------------------------------------
def notes_of_load(load: str, job: JobResult) -> tuple[Notes, int]:
    tests = circuit_tests(load, job)
    figures = (*circuit_sheet(load, job).figures, *(tests.figures if tests else ()))
    return notes_of(figures), len({figure.key for figure in figures})


def numbers(text: str) -> list[int]:
    found: list[int] = []
    for first, last in re.findall(r"(\d+)(?: to (\d+))?", text):
        found += range(int(first), int(last or first) + 1)
    return found


@pytest.mark.parametrize("slug", ["trail-truck", "flatbed"])
def test_volts_computed_by_hand_from_the_printed_notes_are_those_printed(slug: str) -> None:
    job, checked = demo(slug), 0
    for load in job.circuits:
        told, figures = notes_of_load(load, job)
        assert [note.number for note in told.notes] == list(range(1, figures + 1))
        mohm = {row.number: (row.mohm, row.worst) for row in told.parts}
        for note in told.notes:
            volts = re.fullmatch(r"([−\d.]+) (m?)V", note.value)
            if "sum of I x R" not in note.formula or volts is None or "not determined" in note.inputs:
                continue
            unit, last_digit = (0.001, 0.1) if volts[2] else (1.0, 0.01)
            hand, slack = 0.0, 0.51 * last_digit * unit
            pointed_at = re.fullmatch(r"inputs as in (\d+)", note.inputs)
            inputs = told.notes[int(pointed_at[1]) - 1].inputs if pointed_at else note.inputs
            for part in inputs.split("; "):
                words = re.fullmatch(r"parts? ([\d, to]+) at ([−\d.]+) A( \(worst\))?", part)
                assert words is not None, note.inputs
                amps = float(words[2].replace("−", "-"))
                for number in numbers(words[1]):
                    part_ohm = float(mohm[number][bool(words[3])]) / 1000
                    hand += amps * part_ohm
                    slack += 0.051 / 1000 * abs(amps) + 0.005 * part_ohm  # as far as both are rounded
            assert abs(hand - unit * float(volts[1].replace("−", "-"))) <= slack, (load, note)
            checked += 1
    assert checked > 40

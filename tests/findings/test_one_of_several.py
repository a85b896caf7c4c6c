"""One of several: the wire, ring, row or picture that is meant stands beside others of its kind and is the one told."""

from __future__ import annotations

from itertools import permutations
from pathlib import Path

import pytest

from aswired.diagnostics import Finding
from tests.findings.cases_splices import ROUTE, USUAL, joined, three
from tests.findings.jobs import work

MADE = "made: 2031-05-03 AK"


def told(folder: Path, text: str, code: str) -> list[Finding]:
    """The findings of one code, in the order told."""
    return [finding for finding in work(folder, text).findings if finding.code == code]


def line_with(text: str, words: str) -> int:
    """The line of a job text in which the words stand, counted from 1."""
    (found,) = [number for number, line in enumerate(text.lstrip("\n").splitlines(), 1) if words in line]
    return found


# ---- joints ---------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("sizes", ["16 mm2 1.0 mm2", "1.0 mm2 16 mm2"])
def test_a_lap_is_held_to_the_thickest_conductor_in_it(sizes: str, tmp_path: Path) -> None:
    # 16 mm2 as a solid wire: d = sqrt(4 x 16 / pi) = 4.51 mm, three of them 13.5 mm; of 1 mm2 1.13 mm, three 3.4 mm
    one, _, other, _ = sizes.split()
    text = f"""{USUAL}
    wires:
      W1: {{size: {one} mm2, from: a.1, to: FS1}}
      W2: {{size: {other} mm2, from: b.1, to: FS1}}
    changes:
      - {{id: C1, kind: join, ends: [W1 at FS1, W2 at FS1], overlap: 10 mm, {MADE}}}
    """
    found = [(f.severity.word, f.entry) for f in told(tmp_path, text, "SPL09")]
    assert ("warning", "C1") in found
    assert ("note", "C1") not in found


@pytest.mark.parametrize("sizes", [*permutations(("0.5", "1.0", "1.5"))])
def test_a_butt_is_filled_alike_whichever_wire_is_written_first(sizes: tuple[str, ...], tmp_path: Path) -> None:
    # 0.5 + 1.0 = 1.5 mm2 on one side, 1.5 mm2 on the other; every other sharing puts at least 2.0 mm2 on one side
    text = three("butt, crimped, barrel 1.5-1.5 mm2", " ".join(sizes))
    assert told(tmp_path, text, "SPL10") == []


# ---- pictures -------------------------------------------------------------------------------------------------------
def test_a_picture_of_one_joint_is_a_picture_of_its_row_and_of_no_other(tmp_path: Path) -> None:
    text = (
        USUAL
        + ROUTE
        + f"""
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: lamp.1, length: 900 mm}}
      W2: {{size: 1.0 mm2, from: F2, to: horn.1, length: 900 mm}}
    changes:
      - {{id: C1, kind: extend, wire: W1, plug: lamp, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}}
      - {{id: C2, kind: extend, wire: W2, plug: horn, pigtail: 200 mm, gap: 400 mm, piece: BU 1.0 mm2, {MADE}}}
    photos: [{{id: P1, file: photos/p1.jpg, shows: [C1-W1-plug], stage: bare joint}}]
    """
    )
    assert [f.entry for f in told(tmp_path, text, "PHO03")] == ["C2"]


def test_pictures_of_nothing_are_told_at_the_first_of_them(tmp_path: Path) -> None:
    text = (
        joined("300 mm from bulkhead towards nose | 500 mm from bulkhead towards nose").replace(" # <", "")
        + """
    photos:
      - {id: P1, file: photos/p1.jpg, shows: [C1], stage: bare joint}
      - {id: P2, file: photos/p2.jpg, stage: sealed}
      - {id: P3, file: photos/p3.jpg, stage: sealed}
    """
    )
    (finding,) = told(tmp_path, text, "PHO05")
    assert (finding.entry, finding.at.line) == ("", line_with(text, "id: P2"))
    assert "P2, P3" in finding.problem


# ---- ends -----------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("between", ["button.1 button.2", "button.2 button.1"])
def test_a_switch_half_emptied_is_told_on_either_side(between: str, tmp_path: Path) -> None:
    text = f"""
    job: Button
    switches: {{button: {{between: {between}}}}}
    fuses: {{F1: {{rating: 10 A, fed: always}}}}
    wires:
      W1: {{size: 1.0 mm2, from: F1, to: button.1}}
      W2: {{size: 1.0 mm2, from: button.2, to: horn.1}}
    changes:
      - {{id: C1, kind: remove, wire: W1, ends: {{F1: pulled, button.1: pulled}}, {MADE}}}
    """
    (finding,) = told(tmp_path / "half", text, "END08")
    assert finding.entry == "C1"
    assert "whose other side is wired" in finding.problem
    emptied = f"      - {{id: C2, kind: remove, wire: W2, ends: {{button.2: pulled, horn.1: pulled}}, {MADE}}}\n"
    both = f"{text.rstrip()}\n{emptied}"
    assert told(tmp_path / "both", both, "END08") == []


@pytest.mark.parametrize(("lamp", "horn", "entries"), [
    ("deleted", "deleted", []), ("deleted", "kept", ["C1"]), ("kept", "deleted", ["C1"]),
])  # fmt: skip
def test_an_output_is_let_go_only_with_every_load_on_it(
    lamp: str, horn: str, entries: list[str], tmp_path: Path
) -> None:
    text = f"""
    job: Unit
    modules: {{unit: {{out: {{7: lamp and horn}}}}}}
    splices: {{FS1: {{}}}}
    loads:
      lamp: {{between: lamp.1 lamp.2, verdict: {lamp}}}
      horn: {{between: horn.1 horn.2, verdict: {horn}}}
    wires:
      W1: {{size: 1.0 mm2, from: unit.7, to: FS1}}
      W2: {{size: 1.0 mm2, from: FS1, to: lamp.1}}
      W3: {{size: 1.0 mm2, from: FS1, to: horn.1}}
      W4: {{size: 1.0 mm2, from: lamp.2, to: battery-}}
      W5: {{size: 1.0 mm2, from: horn.2, to: battery-}}
      W6: {{size: 1.0 mm2, from: F1, to: unit.1}}
    changes:
      - {{id: C1, kind: remove, wire: W1, ends: {{unit.7: pulled, FS1: flush}}, {MADE}}}
    """
    found = [f.entry for f in told(tmp_path, text, "END08") if "(out)" in f.problem]
    assert found == entries

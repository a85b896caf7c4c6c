"""README and the manual are held to the program: commands, codes, kinds, keys, links, and the lengths they promise."""

from __future__ import annotations

import datetime
import re
from pathlib import Path

import pytest

from aswired.car.changes import KINDS
from aswired.checks.codes import all_codes
from aswired.cli.run import COMMANDS
from aswired.figures.worked import JobResult
from aswired.files import read_job
from aswired.physics.carrying import PLANNED_A, short_time_a
from aswired.rack.shelf import read_rack
from aswired.record.limits import TABLE
from aswired.sheets.registry import SHEETS
from aswired.work import work_out
from tests.docs.write_reference import BLOCKS, MANUAL, ROOT, between

PAGES = {path.name: path.read_text(encoding="utf-8") for path in sorted(MANUAL.glob("*.md"))}
README = (ROOT / "README.md").read_text(encoding="utf-8")
PEOPLE = {"README.md": README, **PAGES}


def yaml_blocks(name: str) -> list[str]:
    return re.findall(r"```yaml\n(.*?)```", PEOPLE[name], re.DOTALL)


EXAMPLES = [(name, number, block) for name in PEOPLE for number, block in enumerate(yaml_blocks(name))]


# ---- what the program says of itself --------------------------------------------------------------------------------
def test_no_code_is_named_that_is_not_registered() -> None:
    named = {code for text in PEOPLE.values() for code in re.findall(r"\b[A-Z]{3}\d\d\b", text)}
    assert named - {entry.code for entry in all_codes()} == set()


@pytest.mark.parametrize("name", PEOPLE)
def test_headings_and_rows_of_tables_have_lines_of_their_own(name: str) -> None:
    """Where an editor fills lines anew, they end up within a sentence, and a reader sees marks in place of a table."""
    prose = re.sub(r"```.*?```|`[^`]*`", "", PEOPLE[name], flags=re.DOTALL).splitlines()
    assert [line for line in prose if re.search(r"\S.* #{2,} |^[^|].* \| ", line)] == []


@pytest.mark.parametrize("name", BLOCKS)
def test_codes_and_keys_are_the_programs_own(name: str) -> None:
    page_name, block = BLOCKS[name]
    page = PAGES[f"{page_name}.md"]
    assert between(page, name) == block()
    assert len(between(page, name).splitlines()) >= 2 + min(len(KINDS), len(SHEETS))


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_every_kind_of_change_is_explained(kind: object) -> None:
    assert f"| `{kind.name}` |" in PAGES["writing.md"]


def test_every_command_named_is_one_and_every_one_is_named() -> None:
    told = {word for text in PEOPLE.values() for word in re.findall(r"`(?:\.venv/bin/)?aswired ([a-z]+)", text)}
    assert told == set(COMMANDS)


def test_no_place_of_this_machine_is_named() -> None:
    for name in ("DEVELOPERS.md", "CHANGELOG.md", *PEOPLE):
        text = PEOPLE.get(name) or (ROOT / name).read_text(encoding="utf-8")
        assert not re.search(r"\.\./shared|/work/|/tmp/|https?://(?!localhost)", text), name


def test_the_page_of_the_ledger_has_the_planning_table_in_force() -> None:
    told: dict[float, float] = {}
    for areas, amps in re.findall(r"^\| ([\d., ]+) \| ([\d., ]+) \|", PAGES["ledger.md"], re.MULTILINE):
        told.update(zip(map(float, areas.split(", ")), map(float, amps.split(", ")), strict=True))
    assert told == {area: row.amps for area, row in PLANNED_A.items()}


def test_the_sums_on_the_page_of_the_ledger_are_right() -> None:
    page = " ".join(PAGES["ledger.md"].split())
    assert "15 A/mm2 for 30 s, 10.6 for 60 s" in page
    assert (round(short_time_a(1, 30), 1), round(short_time_a(1, 60), 1)) == (15.0, 10.6)
    assert "With fuses of 30 A a return of 1.5 mm2 is too thin" in page
    assert PLANNED_A[1.5].amps < 30
    limits = {limit.key: limit.value for limit in TABLE}
    assert "at most 300 mm from the battery" in page
    assert "230 mm long at most" in page
    assert (limits["fuse from source"], limits["link longest"]) == (300, 230)


# ---- links ----------------------------------------------------------------------------------------------------------
def headings(text: str) -> set[str]:
    """Headings as anchors, as pages of Markdown make them."""
    found = re.findall(r"^#+ (.+)$", re.sub(r"```.*?```", "", text, flags=re.DOTALL), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", heading).lower().replace(" ", "-") for heading in found}


@pytest.mark.parametrize("name", PEOPLE)
def test_every_link_leads_to_a_file_and_to_a_heading(name: str) -> None:
    here = ROOT if name == "README.md" else MANUAL
    for to in re.findall(r"\]\(([^)]+)\)", PEOPLE[name]):
        file, _, at = to.partition("#")
        path = here / file if file else here / name
        assert path.exists(), to
        assert not at or at in headings(path.read_text(encoding="utf-8")), to


def test_every_page_of_the_manual_stands_in_its_list_and_readme_leads_there() -> None:
    listed = re.findall(r"^\| \[[^]]+\]\(([^)]+)\)", PAGES["index.md"], re.MULTILINE)
    assert sorted([*listed, "index.md"]) == sorted(PAGES)
    assert "(builder/aswired/manual/index.md)" in README


def test_the_pictures_are_small() -> None:
    pictures = re.findall(r"!\[[^]]+\]\(([^)]+)\)", README)
    assert len(pictures) == 2
    assert all((ROOT / picture).stat().st_size < 150_000 for picture in pictures)


# ---- examples -------------------------------------------------------------------------------------------------------
def built(tmp_path: Path, text: str) -> JobResult:
    folder = tmp_path / "job"
    folder.mkdir(parents=True)
    (folder / "job.yml").write_text(text, encoding="utf-8")
    read = read_job(folder)
    assert read.faults == ()
    assert read.job is not None
    return work_out(read.job, datetime.date(2030, 1, 1))


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: f"{example[0]}-{example[1]}")
def test_every_example_can_be_read(example: tuple[str, int, str], tmp_path: Path) -> None:
    _, _, text = example
    if text.startswith("rack:"):
        (tmp_path / "rack.yml").write_text(text, encoding="utf-8")
        rack, faults = read_rack(tmp_path)
        assert faults == ()
        assert set(rack.rack) == {"R3", "R4"}
        return
    if text.startswith("  - "):
        text = f"changes:\n{text}"
    head = "" if text.startswith("job:") else "job: Example\n"
    rows = "" if "changes:" in text else "changes: [{id: C1, kind: verify, proves: [C1]}]\n"
    built(tmp_path, head + text + rows)


def test_the_smallest_job_raises_no_stop_and_no_error(tmp_path: Path) -> None:
    (job, *_) = yaml_blocks("writing.md")
    inches = ("0.75 mm2", "18 AWG"), ("610 mm", "24 in"), ("200 mm", "8 in"), ("1.5 mm2", "16 AWG")
    for number, text in enumerate((job, changed(job, "writing.md", inches))):
        work = built(tmp_path / str(number), text)
        assert [finding.code for finding in work.findings if finding.severity <= 1] == []
        assert set(work.plan.joints) == {"C1-W12-plug", "C1-W12-loom"}


def changed(block: str, page: str, pairs: tuple[tuple[str, str], ...]) -> str:
    """The example in inches and AWG, as the text beside it says."""
    for metric, other in pairs:
        assert metric in block
        assert other.split()[0] in PAGES[page]
        block = block.replace(metric, other)
    return block


HEADER = """job: Van
options: {heater: diesel}
plugs: {worklamp-left: {ways: 5}, roof-wiper: {gone: yes}}
grounds: {L1: {back to: battery-}, G2: {}}
splices: {FS4: {}, FS9: {}}
wires:
  W31: VT/WH 18 AWG, FS4 to worklamp-left.3
  W32: GN/RD 18 AWG, FS5 to worklamp-left.2
  W33: GY/WH 18 AWG, FS6 to worklamp-left.4
  W34: BN 16 AWG, worklamp-left.5 to FS9
  W50: BN 1.5 mm2, FS9 to G2, 4 ft 2 in
  W60: BU/WH unknown, FS4 to roof-wiper.1
  W61: BN unknown, roof-wiper.2 to FS9
photos: [{id: P2, file: photos/p.jpg, shows: [C14]}]
"""
INCHES = (("457 mm", "18 in"), ("150 mm", "6 in"), (" 50 mm", " 2 in"), ("580 mm", "23 in"), ("2.5 mm2", "14 AWG"))


@pytest.mark.parametrize(
    ("units", "plug", "ground"),
    # 457 + 50 + 10 + 10 = 527, next 5 mm 530; 580 + 50 + 10 + 6 = 646, next 5 mm 650
    # 18 in = 457.2: 527.2, next 530; 23 in = 584.2: 650.2, next 655
    [("mm", (527, 530), (646, 650)), ("inch", (527.2, 530), (650.2, 655))],
)
def test_the_three_weekly_jobs_come_to_the_lengths_the_page_says(
    units: str, plug: tuple[float, float], ground: tuple[float, float], tmp_path: Path
) -> None:
    usual, *blocks = yaml_blocks("weekly.md")
    rows = "".join(blocks)
    if units == "inch":
        rows = changed(rows, "weekly.md", INCHES)
    work = built(tmp_path, f"{HEADER}{usual}changes:\n{rows}")
    told = {piece.id: piece.computed for piece in work.pieces}
    for exact, cut in (plug, ground):
        assert f"{exact:g} mm" in PAGES["weekly.md"]
        assert f"cut {cut} mm" in PAGES["weekly.md"]
    for name in ("C14-W31", "C14-W32", "C14-W33", "C14-W34"):
        assert told[name].value == plug[1]
    assert told["C14-W31"].note.startswith(f"exact {plug[0]:.1f} mm")
    assert told["C21-W50"].value == ground[1]
    assert told["C21-W50"].note.startswith(f"exact {ground[0]:.1f} mm")
    assert "C30-W61-FS9" in work.plan.nodes
    assert set(work.plan.row("C21").moved_with) == {"W34", "W61"}  # the lamp return, and the stub C30 left on FS9


def test_the_four_other_rows_are_in_force(tmp_path: Path) -> None:
    (rows,) = [block for block in yaml_blocks("writing.md") if "kind: swap" in block]
    wires = (
        "wires: {W3: 'RD 2.5 mm2, battery+ to FB.feed, 1 m', W31: 'VT 18 AWG, FS4 to tail-left.1', "
        "W34: 'BN 18 AWG, FS9 to tail-left.2', W35: 'GY 18 AWG, FS9 to tail-left.3', "
        "W20: 'YE 18 AWG, neutral-switch.1 to S1', W21: 'YE 18 AWG, neutral-switch.2 to S2'}\n"
    )
    head = "job: Van\nlandmarks: {dash: d, sill: s}\nroute: [{from: dash, to: sill, length: 1 m}]\n" + wires
    worked = built(tmp_path, f"{head}changes:\n{rows}")
    in_force = dict.fromkeys(("C40", "C41", "C42", "C43"), "in force")
    assert {result.id: result.status for result in worked.plan.rows} == in_force


@pytest.mark.parametrize(("wire", "link", "told"), [
    ("2.5 mm2", "0.75 mm2", False), ("14 AWG", "18 AWG", False), ("2.5 mm2", "1.5 mm2", True),
])  # fmt: skip
def test_the_fusible_link_of_the_example_is_thin_enough(wire: str, link: str, told: bool, tmp_path: Path) -> None:
    (rows,) = [block for block in yaml_blocks("systems.md") if "C61" in block]
    head = f"job: Van\nfuses: {{F1: {{rating: 15 A}}}}\nwires: {{W5: 'RD {wire}, battery+ to F1.feed, 1 m'}}\n"
    worked = built(tmp_path, f"{head}changes:\n{rows.replace('0.75 mm2', link)}")
    assert {result.status for result in worked.plan.rows} == {"in force"}
    assert ("SPC05" in {finding.code for finding in worked.findings}) is told


@pytest.mark.parametrize("name", ["README.md", "index.md"])
def test_whoever_begins_to_read_meets_the_cautions(name: str) -> None:
    said = " ".join(PEOPLE[name].split())
    for caution in (
        r"Local rules, the vehicle maker's procedure and licensed practice come (first|before anything that)",
        r"Battery off before you cut\.",
        r"Restraint \(airbag\) wiring and high-voltage \(orange\) cables are not work for this record: it stops there",
    ):
        assert re.search(caution, said), caution

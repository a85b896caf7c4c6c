"""README is held to the program: commands, codes, kinds, keys, and the lengths it promises."""

from __future__ import annotations

import datetime
import re
from pathlib import Path

import pytest

from aswired.car.changes import KINDS
from aswired.checks.codes import ALL
from aswired.files import read_job
from aswired.work import work_out
from tests.docs.reference_in_readme import BLOCKS, between

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_readme_names_no_code_that_is_not_registered():
    assert set(re.findall(r"\b[A-Z]{3}\d\d\b", README)) - {entry.code for entry in ALL} == set()


@pytest.mark.parametrize("name", BLOCKS)
def test_codes_and_format_reference_are_the_programs_own(name):
    assert between(README, name) == BLOCKS[name]()
    assert len(between(README, name).splitlines()) > 60


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_every_kind_of_change_is_explained(kind):
    assert f"| `{kind.name}` |" in README


def yaml_blocks() -> list[str]:
    return re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)


def built(tmp_path: Path, text: str):
    folder = tmp_path / "job"
    folder.mkdir()
    (folder / "job.yml").write_text(text, encoding="utf-8")
    read = read_job(folder)
    assert read.faults == ()
    return work_out(read.job, datetime.date(2030, 1, 1))


def test_the_smallest_job_of_the_readme_raises_no_stop_and_no_error(tmp_path):
    work = built(tmp_path, yaml_blocks()[0])
    assert [finding.code for finding in work.findings if finding.severity <= 1] == []
    assert set(work.plan.joints) == {"C1-W12-plug", "C1-W12-loom"}


HEADER = """job: README
usual: {joint: "lap, soldered", overlap: 10 mm, slack: 50 mm, ring strip: 6 mm, cut to next: 5 mm}
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
changes:
"""


def test_the_three_weekly_jobs_come_to_the_lengths_the_readme_says(tmp_path):
    rows = "".join(block for block in yaml_blocks() if block.lstrip().startswith("- id:"))
    work = built(tmp_path, HEADER + rows)
    cut = {piece.id: (piece.computed.value, piece.computed.note) for piece in work.pieces}
    # 18 in = 457.2; + 50 + 10 + 10 = 527.2; next 5 mm: 530.  23 in = 584.2; + 50 + 10 + 6 = 650.2; next 5 mm: 655.
    assert {cut[f"C14-W{number}"][0] for number in (31, 32, 33, 34)} == {530.0}
    assert cut["C14-W31"][1].startswith("exact 527.2 mm")
    assert cut["C21-W50"][0] == 655.0
    assert cut["C21-W50"][1].startswith("exact 650.2 mm")
    assert "C30-W61-FS9" in work.plan.nodes
    assert set(work.plan.row("C21").moved_with) == {"W34", "W61"}  # the lamp return, and the stub C30 left on FS9


def test_readme_and_developers_name_no_place_of_this_machine():
    for name in ("README.md", "DEVELOPERS.md", "CHANGELOG.md"):
        text = (ROOT / name).read_text(encoding="utf-8")
        assert not re.search(r"\.\./shared|/work/|/tmp/|https?://(?!localhost)", text), name

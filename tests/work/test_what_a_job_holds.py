"""Where a term of a length is written, or how to write it; what is for this car; whose harness a wire belongs to."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.car.asbuilt import fold
from aswired.files import read_job
from aswired.record import Job
from aswired.text.one_line import read_condition

WIRES = """fuses: {F1: {rating: 5 A}}
grounds: {G1: {}}
wires:
  W1: {colour: RD, size: 1.5 mm2, from: F1, to: lamp.1, length: 1000 mm}
  W2: {colour: BK, size: 1.5 mm2, from: lamp.2, to: G1, length: 900 mm}
"""


def job_of(folder: Path, text: str) -> Job:
    (folder / "job.yml").write_text(text, encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    return read.job


EXTEND = "id: C1, kind: extend, wire: W1, end: lamp.1, pigtail: 300 mm, gap: 400 mm"
GROUND = "id: C1, kind: ground, wire: W2, end: G1, to: L1, tail: 300 mm, gap: 400 mm"
TAP = "id: C1, kind: tap, wire: W9, onto: W1, from: F1, tail: 90 mm, to: G1, reach: 400 mm"
ADD = "id: C1, kind: add, wire: W9, from: box.1, to: FS1, reach: 400 mm"
SHORT = "id: C1, kind: shorten, wire: W1, end: lamp.1, new reach: 700 mm, pigtail: 300 mm"
HOUSE, ROW, NOBODY = "usual, job.yml:2", "C1, job.yml:8", "not recorded"
ALL = 'usual: {joint: "lap, soldered", overlap: 10 mm, slack: 50 mm, ring strip: 6 mm}'
SLACK, JOINT = "usual: {slack: 50 mm}", 'usual: {joint: "lap, soldered"}'
OVERLAP, STRIP = "usual: {overlap: 10 mm}", "usual: {ring strip: 6 mm}"


@pytest.mark.parametrize(
    ("usual", "row", "terms"),
    [
        (ALL, EXTEND, [(50, HOUSE, ""), (10, HOUSE, ""), (10, HOUSE, "")]),
        (ALL, EXTEND + ", slack: 20 mm, overlap: 12 mm", [(20, ROW, ""), (12, ROW, ""), (12, ROW, "")]),
        (ALL, EXTEND + ', joint: "butt, crimped"', [(50, HOUSE, "")] + [(0, "butt joint: 0 by definition", "")] * 2),
        (ALL, EXTEND + ", joint: twist", [(50, HOUSE, ""), (10, HOUSE, ""), (10, HOUSE, "")]),
        (ALL, EXTEND + ", joint: unknown, slack: unknown", [(None, ROW, ""), (None, NOBODY, ""), (None, NOBODY, "")]),
        (ALL, EXTEND + ", overlap: unknown", [(50, HOUSE, ""), (None, ROW, ""), (None, ROW, "")]),
        ("vehicle: x", EXTEND, [(None, NOBODY, SLACK), (None, NOBODY, JOINT), (None, NOBODY, JOINT)]),
        ("vehicle: x", EXTEND + ", joint: lap", [(None, NOBODY, SLACK), (None, NOBODY, OVERLAP),
                                                (None, NOBODY, OVERLAP)]),
        ("usual: {overlap: 10 mm}", EXTEND, [(None, NOBODY, SLACK), (None, NOBODY, JOINT), (None, NOBODY, JOINT)]),
        (ALL, GROUND, [(50, HOUSE, ""), (10, HOUSE, ""), (6, HOUSE, "")]),
        ("vehicle: x", GROUND, [(None, NOBODY, SLACK), (None, NOBODY, JOINT), (None, NOBODY, STRIP)]),
        # a tap is a tap, whatever the house method says of joints
        (ALL, TAP, [(50, HOUSE, ""), (10, HOUSE, ""), (6, HOUSE, "")]),
        ('usual: {joint: "butt, crimped", overlap: 10 mm}', TAP, [(None, NOBODY, SLACK), (10, HOUSE, ""),
                                                                 (None, NOBODY, STRIP)]),
        ("vehicle: x", TAP, [(None, NOBODY, SLACK), (None, NOBODY, OVERLAP), (None, NOBODY, STRIP)]),
        # a lead into a splice of the maker's has a joint there
        (ALL, ADD, [(50, HOUSE, ""), (6, HOUSE, ""), (10, HOUSE, "")]),
        (ALL, SHORT, [(50, HOUSE, ""), (10, HOUSE, "")]),
        (ALL, SHORT.replace(", pigtail: 300 mm", ", terminal: new"), [(50, HOUSE, ""), (6, HOUSE, "")]),
        ("vehicle: x", SHORT, [(None, NOBODY, SLACK), (None, NOBODY, JOINT)]),
    ],
)  # fmt: skip
def test_each_term_of_a_length_says_where_it_is_written_or_how_to_write_it(
    usual: str, row: str, terms: list[tuple[float | None, str, str]], tmp_path: Path
) -> None:
    view = fold(job_of(tmp_path, f"job: Van\n{usual}\n{WIRES}changes: [{{{row}}}]\n"), "plan")  # in line 8
    assert [found.status for found in view.rows] == ["in force"]
    figure = view.figures[-1]
    of_house = [given for given in figure.inputs if given.name == "slack" or given.name[0] in "ko"]
    told = [(given.value, given.source, given.write) for given in of_house]
    assert told == terms
    assert len(figure.missing_words) == sum(value is None for value, _, _ in terms)
    for (_, _, write), missing in zip([term for term in terms if term[0] is None], figure.missing_words, strict=True):
        assert write in missing


CAR = """job: Van
options: {heater: {is: diesel, could be: [petrol]}, gearbox: {is: unknown, could be: [manual]}, hook: {is: "yes"}}
donor colours: [BK]
looms: {front: {donor: a, donor colours: [BN]}, rear: {donor: b}}
fuses: {F1: {rating: 5 A}}
loads:
  a: {between: a.1 a.2, draws: 1 A}
  b: {between: b.1 b.2, draws: 1 A, verdict: deleted}
  c: {between: c.1 c.2, draws: 1 A, for: heater is diesel}
  d: {between: d.1 d.2, draws: 1 A, for: heater is petrol}
  e: {between: e.1 e.2, draws: 1 A, for: gearbox is manual}
  f: {between: f.1 f.2, draws: 1 A, for: radio is new}
wires:
  W1: {colour: RD, size: 1 mm2, from: F1, to: a.1, loom: front}
  W2: {colour: RD, size: 1 mm2, from: F1, to: a.2, loom: rear}
  W3: {colour: RD, size: 1 mm2, from: F1, to: a.3}
changes:
  - {id: C1, kind: cap, wire: W4, was: "RD 1 mm2, F1 to a.4", end: a.4, loom: front}
  - {id: C2, kind: cap, wire: W4, end: F1, loom: rear}
  - {id: C3, kind: cap, wire: W5, was: "RD 1 mm2, F1 to a.5", end: a.5}
  - {id: C1, kind: cap, wire: W1, end: a.1}
"""


def test_what_is_for_this_car(tmp_path: Path) -> None:
    job = job_of(tmp_path, CAR)
    asked = {
        "heater is diesel": "yes", "heater is petrol": "no", "heater is not petrol": "yes",
        "heater is not diesel": "no",
        "heater is wood": "unreadable", "gearbox is manual": "undecided", "gearbox is not manual": "undecided",
        "gearbox is wood": "undecided", "hook is yes": "yes", "hook is no": "no", "hook is not no": "yes",
        "radio is new": "unreadable",
    }  # fmt: skip
    assert {words: job.holds(read_condition(words, {})) for words in asked} == asked
    assert job.holds(None) == "yes"
    assert job.kept_loads == ("a", "c", "e", "f")
    assert job.loads_for_certain == ("a", "c")


def test_whose_wire_it_is_and_where_a_row_stands(tmp_path: Path) -> None:
    job = job_of(tmp_path, CAR)
    looms = {wire: job.loom_of(wire) for wire in ("W1", "W2", "W3", "W4", "W5", "W9")}
    assert looms == {"W1": "front", "W2": "rear", "W3": "", "W4": "front", "W5": "", "W9": ""}
    ground = {wire: [colour.code for colour in job.ground_colours_of(wire)] for wire in looms}
    # rear has none of its own
    assert ground == {"W1": ["BN"], "W2": ["BK"], "W3": ["BK"], "W4": ["BN"], "W5": ["BK"], "W9": ["BK"]}
    first = job.changes[0]
    assert job.change("C1") is first  # of an id that is used twice the first
    assert (job.place("C1"), job.place("C3"), job.place("C9")) == (0, 2, None)
    assert (job.line_of_row("C1").line, job.line_of_row("C2").line, job.line_of_row("C9")) == (18, 19, job.at)

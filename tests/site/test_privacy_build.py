"""Secrets in every text field and every name of a job: the owner's edition is refused at each, or does not hold it."""

from __future__ import annotations

import dataclasses
import html
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image
from tests.site import spellings
from tests.site.filled import demo, filled, outputs
from tests.site.spellings import NAMES, PRIVATE_NAMES

from aswired.private import outgoing as private_values
from aswired.site import run

pytestmark = pytest.mark.slow  # whole builds

PLAIN = ("as told", "lower", "upper", "capitals", "hyphens", "underscores", "camel", "one word", "two blanks")


def bare(content: bytes) -> str:
    """Letters and digits of an output, tags and everything else left out: what the check is held to, found apart.

    Neighbours in the index's list of words are no text: the list is in the order of the alphabet.
    """
    text = re.sub(r'"words":"[^"]*"', lambda words: words[0].replace(" ", " ꙮ "), content.decode())
    return re.sub(r"[^a-z0-9ꙮ]", "", html.unescape(re.sub(r"<[^<>]*>", "", text)).lower())


@pytest.mark.parametrize(
    ("name", "turn"),
    [
        ("flatbed", 0),
        pytest.param("flatbed", 3, marks=pytest.mark.slow),
        pytest.param("trail-truck", 5, marks=pytest.mark.slow),
    ],
)
def test_a_secret_in_any_text_field_is_refused_or_does_not_go_out(name: str, turn: int) -> None:
    names = {}

    def write(path: str) -> str:
        words = next(people)
        names[f"{len(names)} {path}"] = words
        return list(NAMES.values())[(len(names) + turn) % len(NAMES)](words)

    people = spellings.people(2000)
    chosen: dict[str, list[str]] = {}
    job = filled(demo(name), write)
    for at, words in enumerate(names.values()):
        chosen[NAMES[PRIVATE_NAMES[(at + turn) % len(PRIVATE_NAMES)]](words)] = words
    assert len(names) > (100 if name == "flatbed" else 500)
    outs = outputs(job, "owner")
    private = {str(at): value for at, value in enumerate(chosen)}
    private = dict(private_values.forbidden_words(dataclasses.replace(job, private=private)))
    found = {leak.word for uri, content in outs.items() for leak in private_values.leaks(private, uri, content)}
    assert len(found) > 60
    told = "\n".join(bare(content) for content in outs.values())
    assert not [words for value, words in chosen.items() if value not in found and "".join(words) in told]


JOB = """\
job: {title}
vehicle: van
revision: 1
private: {{{private}}}
cautions: [{caution}]
options: {{gearbox: {option}}}
left and right: {left}
supply: 13.5 V
landmarks: {{fuse-box: {landmark}, nose: back of the plug}}
route:
  - {{from: fuse-box, to: nose, length: 1500 mm, name: {leg}}}
plugs:
  {plug}: {{ways: 2, at: nose, note: {plug_note}}}
fuses:
  F7: {{rating: 15 A, in: fuse-box, feeds: {feeds}}}
modules:
  {module}: {{out: {{7: {out}}}}}
loads:
  {load}: {{between: {plug}.1 {plug}.2, draws: 5 A, class: horn}}
grounds:
  L1: {{what: {ground}, at: nose, stud: {stud}, bolted to: {bolted}}}
splices:
  FS1: {{at: nose, note: {splice}}}
wires:
  W1: {{colour: VT/WH, size: 1.5 mm2, from: F7, to: {plug}.1, length: 2000 mm, circuit: {circuit}}}
  W2: {{colour: BN, size: 1.5 mm2, from: {plug}.2, to: L1, length: 1200 mm}}
changes:
  - {{id: C1, kind: extend, wire: W1, plug: {plug}, gap: 400 mm, pigtail: 150 mm, piece: BU 1.5 mm2, why: {why},
     note: {note}, photos: [{photo}]}}
  - {{id: C2, kind: verify, proves: C1, test: {test}, expect: {expect}}}
photos:
  - {{id: {photo}, file: photos/a.jpg, shows: C1, caption: {caption}, marks: [{{ring: [0.4, 0.3, 0.1], says: {says}}}]}}
readings:
  - {{id: R1, of: C1, red: L1, black: battery-, with: {with_}, read: 60 mV, by: {by}}}
service:
  - {{id: S1, on: 2031-05-09, complaint: {complaint}, measured: [{measured}], found: {found}, note: {service_note}}}
"""
FIELDS = re.findall(r"(?<!\{)\{(\w+)\}(?!\})|\{(\w+)\}(?=\}\})", JOB)
AS_NAMES = {"plug": "hyphens", "module": "underscores", "load": "lower", "photo": "camel"}  # what ids may be made of


def fields() -> Iterator[str]:
    yield from dict.fromkeys(name for pair in FIELDS for name in pair if name and name != "private")


@pytest.mark.parametrize("turn", [0, pytest.param(1, marks=pytest.mark.slow), pytest.param(4, marks=pytest.mark.slow)])
def test_a_build_is_refused_at_every_field_and_name(tmp_path: Path, turn: int) -> None:
    people = dict(zip(fields(), spellings.people(100, seed=turn), strict=False))
    people["folder"] = ["voskgallow", "fire", "watch"]
    assert len(people) >= 30
    public, private = {}, {}
    for at, (field, words) in enumerate(people.items()):
        public[field] = NAMES[AS_NAMES.get(field, PLAIN[(at + turn) % len(PLAIN)])](words)
        private[field] = NAMES[PLAIN[(at + turn + 4) % len(PLAIN)]](words)
    folder = tmp_path / "jobs" / "-".join(people["folder"])
    (folder / "photos").mkdir(parents=True)
    Image.new("RGB", (400, 300), (90, 90, 90)).save(folder / "photos" / "a.jpg")
    told = ", ".join(f"{label}: {value}" for label, value in private.items())
    (folder / "job.yml").write_text(JOB.format(private=told, **public))
    order = run.order_for(tmp_path / "jobs", tmp_path / "owner", "owner", folder.name)
    staged = run.build(order, lambda done, total, name: None)
    assert not staged.faults
    places: dict[str, set[str]] = {}
    for leak in staged.leaks:
        places.setdefault(leak.label, set()).add(f"{leak.file}:{leak.line}")
    assert not (tmp_path / "owner").exists()
    never_shown = set(people) - set(places)
    assert any(place.endswith(":0") for place in places["folder"])
    assert any("/circuits/" in place and place.endswith(":0") for place in places["load"])
    assert any("/photos/" in place and place.endswith(":0") for place in places["photo"])
    assert any("find-index.js" in place for place in places["plug"])
    # what is not refused is on no page: the same job without private values
    (folder / "job.yml").write_text(JOB.format(private="", **public))
    assert run.build(order, lambda done, total, name: None).good
    outs = "\n".join(
        bare(path.read_bytes()) for path in (tmp_path / "owner").rglob("*") if path.suffix in (".html", ".js")
    )
    assert not [field for field in never_shown if "".join(people[field]) in outs]
    assert len(never_shown) < 6, never_shown


def test_what_is_not_looked_for_is_told_by_the_build(tmp_path: Path) -> None:
    folder = tmp_path / "jobs" / "van"
    folder.mkdir(parents=True)
    public = dict.fromkeys(fields(), "lamp") | {"photo": "P1", "plug": "lamp-plug", "load": "horn", "module": "unit"}
    text = JOB.format(private="plate: XQ 7, customer: Ebbra Voskstrand", **public)
    (folder / "job.yml").write_text(re.sub(r"(?s)photos:\n.*?readings", "readings", text).replace(", photos: [P1]", ""))
    for edition, number in (("owner", 1), ("shop", 0)):
        order = run.order_for(tmp_path / "jobs", tmp_path / edition, edition, "van")
        staged = run.build(order, lambda done, total, name: None)
        assert staged.good, (staged.faults, staged.leaks)
        told = [notice for notice in staged.notices if "'XQ 7' is not looked for in the owner's edition" in notice]
        assert len(told) == number
        assert "Voskstrand" not in "".join(staged.notices)

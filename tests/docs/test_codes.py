"""Every code that is told has one help text, every help text is of a code that is told, and its examples are true."""

from __future__ import annotations

import ast
import datetime
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from aswired.checks.codes import FAULT, FILES, Code, all_codes, code, near_codes, subjects, unjudged
from aswired.files import read_job
from aswired.physics.protection import PLANNING_RATING_A
from aswired.record.limits import TABLE
from aswired.text.diagnostics import RULES, Severity
from aswired.work import work_out

PACKAGE = Path(__file__).resolve().parents[2] / "builder" / "aswired"
HELP = PACKAGE / "checks" / "codes"
CODE = re.compile(r"[A-Z]{3}\d\d")
RANKS = (*(severity.word for severity in Severity), FAULT)
TODAY = datetime.date(2031, 6, 1)

NOT_IN_ONE_FILE = {"FIL01", "FIL02", "FIL03", "FIL04", "KEY03", "PHO04"}  # files and folders as they lie
BY_THE_BUILD = {"PRV01", "OUT01", "OUT02", "OUT03"}  # of what is built and where to, see tests/site and tests/publish

each_code = pytest.mark.parametrize("told", all_codes(), ids=lambda told: told.code)


def constants(path: Path) -> Iterator[str]:
    """Every string of a module that is a whole code; a doc string or an example of a key is none."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    examples = {
        id(word.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        for word in node.keywords
        if word.arg == "example"
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in examples:
            if CODE.fullmatch(node.value):
                yield node.value
            elif node.value.startswith("private PRV01 "):  # the words before the place in the message
                yield "PRV01"


def told_by_the_program() -> dict[str, set[str]]:
    """Code -> the modules that tell it."""
    found: dict[str, set[str]] = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        if path.parent.name != "codes":
            for name in constants(path):
                found.setdefault(name, set()).add(str(path.relative_to(PACKAGE)))
    return found


def rules_in(source: str) -> list[str]:
    """The codes of the rules that a module makes."""
    return [
        node.args[0].value
        for node in (ast.walk(ast.parse(source)) if "Rule(" in source else ())
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Rule" and node.args
        if isinstance(node.args[0], ast.Constant) and isinstance(node.args[0].value, str)
    ]


def test_every_rule_has_its_help_and_only_a_file_fault_has_help_without_a_rule() -> None:
    made = [name for path in sorted(PACKAGE.rglob("*.py")) for name in rules_in(path.read_text(encoding="utf-8"))]
    assert len(made) > 100
    assert sorted(made) == sorted(RULES)  # each made once, and known as soon as the help can be asked for
    helped = {entry.code: entry.ranks for entry in all_codes()}
    assert RULES.keys() - helped.keys() == set()
    assert {name for name, ranks in helped.items() if ranks == (FAULT,)} == helped.keys() - RULES.keys()
    for name, rule in RULES.items():
        assert helped[name] == tuple(rank.word for rank in rule.ranks)
    begin = {name[:3] for name in helped.keys() - RULES.keys()}
    assert begin == {"FIL", "YML", "KEY", "VAL", "KND", "PRV", "OUT", "PHO"}  # told by `text`, `files` and `site`


def test_no_finding_is_made_without_a_rule() -> None:
    made = {
        path.name: line
        for path in sorted(PACKAGE.rglob("*.py"))
        for line in path.read_text(encoding="utf-8").splitlines()
        if re.search(r"(?<!class )\bFinding\(", line)
    }
    assert list(made) == ["diagnostics.py"]


@pytest.mark.slow
def test_every_code_told_has_its_help_and_every_help_its_code() -> None:
    told = told_by_the_program()
    assert len(told) > 60
    registered = {entry.code for entry in all_codes()}
    assert {name: where for name, where in told.items() if name not in registered} == {}
    assert registered - told.keys() == set()


def test_a_code_is_registered_once() -> None:
    assert sorted(entry.code for entry in all_codes()) == sorted({entry.code for entry in all_codes()})
    titles = [title for title, _ in subjects()]
    assert len(titles) == len(set(titles))


TEXTS = {"code", "says", "means", "why", "example", "instead"}


def slips(entry: yaml.MappingNode, wanted: set[str], listed: str = "") -> list[str]:
    """What is wrong with the keys of one help text as it is written; `listed` may be left out, and holds words."""
    keys = [key.value for key, _ in entry.value]
    found = [f"{key} is written twice" for key in sorted(set(keys)) if keys.count(key) > 1]
    found += [f"{key} is no key of it" for key in sorted(set(keys) - wanted - {listed})]
    found += [f"{key} is missing" for key in sorted(wanted - set(keys))]
    for key, value in entry.value:
        words = value.value if key.value == listed and isinstance(value, yaml.SequenceNode) else [value]
        if key.value == listed and not isinstance(value, yaml.SequenceNode):
            found.append(f"{listed} is no list")
        found += [
            f"{key.value} is not words" for word in words if word.tag != "tag:yaml.org,2002:str" or not word.value
        ]
    return found


def composed(text: str) -> yaml.Node:
    return yaml.compose(text, Loader=yaml.SafeLoader)


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("{code: X, says: a, means: b, why: c, example: d, instead: e}", []),
        ("{code: X, says: a, means: b, why: c, example: d, instead: e, limits: [f]}", []),
        ("{code: X, says: a, means: b, why: c, example: d}", ["instead is missing"]),
        ("{code: X, says: a, means: b, why: c, example: d, instead: e, ranks: f}", ["ranks is no key of it"]),
        ("{code: X, says: a, says: a, means: b, why: c, example: d, instead: e}", ["says is written twice"]),
        (
            "{code: X, says: no, means: b, why: c, example: d, instead: ''}",
            ["says is not words", "instead is not words"],
        ),
        ("{code: X, says: a, means: b, why: c, example: d, instead: e, limits: f}", ["limits is no list"]),
        ("{code: X, says: a, means: b, why: c, example: d, instead: e, limits: [12]}", ["limits is not words"]),
    ],
)
def test_a_slip_in_a_help_text_is_found(text: str, wrong: list[str]) -> None:
    assert slips(composed(text), TEXTS, "limits") == wrong


@pytest.mark.parametrize("name", FILES)
def test_a_file_of_help_has_each_key_once_and_no_other(name: str) -> None:
    subject = composed((HELP / f"{name}.yml").read_text(encoding="utf-8"))
    assert [key.value for key, _ in subject.value] == ["subject", "codes"]
    title, entries = (value for _, value in subject.value)
    assert title.tag == "tag:yaml.org,2002:str"
    assert entries.value
    assert {entry.value[0][1].value: found for entry in entries.value if (found := slips(entry, TEXTS, "limits"))} == {}


def test_every_file_of_help_is_read() -> None:
    assert sorted(path.stem for path in HELP.iterdir() if path.suffix != ".py" and path.is_file()) == sorted(
        (*FILES, "unjudged")
    )
    items = composed((HELP / "unjudged.yml").read_text(encoding="utf-8")).value
    assert [found for item in items if (found := slips(item, {"what", "why"}))] == []


@each_code
def test_a_help_text_is_whole(told: Code) -> None:
    assert CODE.fullmatch(told.code)
    assert told.ranks
    assert set(told.ranks) <= set(RANKS)
    heaviest_first = sorted(told.ranks, key=RANKS.index)
    assert list(told.ranks) == heaviest_first
    assert told.says[0].islower() or told.says.split()[0].isupper()
    assert not told.says.endswith(".")
    assert "\n" not in told.says
    for words in (told.means, told.why):
        assert words.endswith(".")
        assert not words[0].islower()
        assert "!" not in words
    assert told.example.strip()
    assert told.instead.strip()
    assert told.example != told.instead


def test_the_help_of_the_fuse_check_has_the_planning_ratings_in_force() -> None:
    (told,) = (entry for entry in all_codes() if entry.code == "FUS01")
    pairs = re.findall(r"([\d.]+(?: and [\d.]+)?) mm2 ([\d.]+) A", told.means)
    in_words = {float(area): float(amps) for areas, amps in pairs for area in areas.split(" and ")}
    assert in_words == PLANNING_RATING_A


@each_code
def test_examples_are_yaml(told: Code) -> None:
    yaml.compose(told.instead, Loader=yaml.SafeLoader)
    if told.code in ("YML01",):  # it says of a file that it is not YAML
        with pytest.raises(yaml.YAMLError):
            yaml.compose(told.example, Loader=yaml.SafeLoader)
    else:
        yaml.compose(told.example, Loader=yaml.SafeLoader)


OWN = [told for told in all_codes() if told.code not in NOT_IN_ONE_FILE | BY_THE_BUILD]


def raised(folder: Path, text: str) -> set[str]:
    """The codes that a job made of an example tells; what a job needs beside the example is put around it."""
    folder.mkdir(parents=True)
    lines = ["job: Example", text]
    if "changes:" not in text:
        lines.append("changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]")
    (folder / "job.yml").write_text("\n".join(lines) + "\n", encoding="utf-8")
    got = read_job(folder)
    if got.job is None:
        return {fault.code for fault in got.faults}
    return {finding.code for finding in work_out(got.job, TODAY).findings}


@pytest.mark.parametrize("told", OWN, ids=lambda told: told.code)
def test_the_example_raises_its_code_and_the_other_lines_do_not(told: Code, tmp_path: Path) -> None:
    assert told.code in raised(tmp_path / "example", told.example)
    instead = raised(tmp_path / "instead", told.instead)
    assert told.code not in instead
    assert not {name for name in instead if code(name) is not None and code(name).ranks == (FAULT,)}


def held_to(path: Path) -> set[str]:
    """Keys of the table of limits that a module reads: `limits_in_force["joint clear"]`."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value in KEYS:
            found.add(node.value)
    return found


KEYS = {line.key for line in TABLE}


@pytest.mark.slow
def test_every_limit_named_is_in_the_table_and_every_limit_is_read() -> None:
    named = {key for entry in all_codes() for key in entry.limits}
    assert named - KEYS == set()
    paths = [path for path in PACKAGE.rglob("*.py") if path.name != "limits.py" and path.parent.name != "codes"]
    read = {key for path in paths for key in held_to(path)}
    assert KEYS - read == set()
    findings = {key for path in paths if path.parent.name == "checks" for key in held_to(path)}
    assert findings
    assert findings - named == set()


def test_a_slip_in_a_code_finds_the_codes_near_it() -> None:
    assert code("row01") is code("ROW01") is not None
    assert code("ROW99") is None
    assert near_codes("ROW99") == ("ROW09",)
    assert near_codes("fil") == ("FIL01", "FIL02", "FIL03", "FIL04")
    assert near_codes("???") == ()


def test_what_is_not_judged_is_said_with_the_reason() -> None:
    assert len(unjudged()) >= 10
    for item in unjudged():
        assert item.what
        assert item.why.endswith(".")
    assert len({item.what for item in unjudged()}) == len(unjudged())

"""Job folders that a stick cannot hold, alone or beside another, are told before anything is written."""

import os
from pathlib import Path

import pytest

from aswired.cli import run as cli
from aswired.files.disknames import check_job_names, file_stems, trouble_with

JOB = "job: Yard van\nchanges: [{id: C1, kind: cover, cover: tape}]\n"


def told(*names: str) -> list[tuple[str, str]]:
    return [(fault.at.file, fault.problem) for fault in check_job_names([Path("jobs") / name for name in names])]


@pytest.mark.parametrize(
    "name",
    [
        "CON", "con", "Nul", "aux.2", "COM1", "com9.old", "LPT3", "COM¹", "prn .x", "CONIN$", "a:b", "a<b", "a|b",
        'a"b', "a?b", "a*b", "a\\b", "van.", "van ", "van. .", "a\nb", "a\x07b", "caf\udce9", "ж" * 121, "x" * 241,
    ],
)  # fmt: skip
def test_a_name_that_no_stick_can_hold_is_told(name: str) -> None:
    (fault,) = check_job_names([Path("jobs") / name])
    assert fault.code == "FIL04"
    assert fault.problem.startswith("no stick can hold this folder: ")
    better = fault.mend.removeprefix("Rename it, such as to ")
    assert trouble_with(better) == ""
    assert better.isascii()
    assert str(fault.at).isprintable()


@pytest.mark.parametrize(
    "name",
    ["green-van", "Grüner Bus", "ж" * 60, "配" * 60, "🔧" * 60, "console", "com", "com10", "nullify", "a.b", ".x",
     "x" * 240, "van (2)", "O'Hara", "100 %", "#7"],
)  # fmt: skip
def test_any_other_name_is_left_alone(name: str) -> None:
    assert told(name) == []


@pytest.mark.parametrize(
    "names",
    [("Van", "VAN"), ("van", "Van"), ("b\u00e4r", "ba\u0308r"), ("B\u00c4R", "ba\u0308r"), ("STRASSE", "straße")],
)
def test_two_names_that_are_one_on_some_disk_are_told_once(names: tuple[str, str]) -> None:
    (fault,) = check_job_names([Path("jobs") / name for name in ("other", *names)])
    assert fault.code == "FIL04"
    assert fault.at.file == names[1]
    assert f"this folder and {names[0]} are one" in fault.problem
    assert fault.mend == f"Rename one of the two, such as to {names[1]}-2"


def test_names_that_only_look_alike_are_two() -> None:
    assert told("bar", "bär", "ba-r", "bar-2", "b ar", "вar") == []


def test_three_of_one_name_are_told_twice_and_a_free_name_is_proposed() -> None:
    faults = check_job_names([Path(name) for name in ("VAN", "Van", "van", "van-2")])
    assert [fault.at.file for fault in faults] == ["Van", "van"]
    assert [fault.mend.rpartition(" ")[2] for fault in faults] == ["Van-3", "van-3"]


WHOLE = """\
fault FIL04 Van
  this folder and VAN are one to disks that do not tell capitals apart
  mend: Rename one of the two, such as to Van-2
fault FIL04 nul
  no stick can hold this folder: 'nul' is a device on Windows, and no folder can have its name
  mend: Rename it, such as to job-nul
2 file faults; nothing was written.
"""


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="such folders cannot be made there")
def test_check_and_build_tell_it_and_write_nothing_until_it_is_mended(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("Van", "VAN", "nul"):
        (tmp_path / "jobs" / name).mkdir(parents=True, exist_ok=True)
        (tmp_path / "jobs" / name / "job.yml").write_text(JOB)
    if len(list((tmp_path / "jobs").iterdir())) < 3:
        pytest.skip("this disk does not tell capitals apart")
    for command in (["check"], ["build"]):
        assert cli.main(command) == cli.FAULTY
        assert capsys.readouterr().out == WHOLE
    assert not (tmp_path / "site").exists()
    (tmp_path / "jobs" / "Van").rename(tmp_path / "jobs" / "Van-2")
    (tmp_path / "jobs" / "nul").rename(tmp_path / "jobs" / "job-nul")
    assert cli.main(["check"]) != cli.FAULTY
    assert cli.main(["build"]) == cli.FINE


@pytest.mark.parametrize("name", ["VAN", "con", "nul.2"])
def test_new_begins_no_job_that_would_be_told(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert cli.main(["new", "van"]) == cli.FINE
    assert cli.main(["new", name]) == cli.FAULTY
    assert f"'{name}' was not begun: " in capsys.readouterr().err
    assert [path.name for path in (tmp_path / "jobs").iterdir()] == ["van"]
    assert cli.main(["new", f"{name}-x".replace(".", "-")]) == cli.FINE


def test_stems_are_short_and_apart_on_every_disk_and_do_not_depend_on_what_else_there_is() -> None:
    names = ["ж" * 60, "ж" * 59 + "z", "Van", "VAN", "nul", "NUL", "con.2", ".x", "x" * 101, "x" * 100, "x"]
    wishes = {name: "".join(c if c.isascii() else f"_{ord(c):x}_" for c in name) for name in names}
    stems = file_stems(wishes.items())
    assert list(stems) == names
    assert len({stem.casefold() for stem in stems.values()}) == len(names)
    for name, stem in stems.items():
        assert len(stem) <= 103  # and a number behind it
        assert trouble_with(stem) == ""
        assert not stem.startswith(".")
        if name not in ("VAN", "NUL"):
            assert file_stems([(name, wishes[name])]) == {name: stem}
    assert stems["Van"] == "Van"
    assert stems["x" * 100] == "x" * 100

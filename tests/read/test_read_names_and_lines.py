"""Why a name cannot lie on a stick, what to call it instead, and how a line of a file is shown in a message."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from aswired.files import read_job
from aswired.files.disknames import check_job_names, file_stems, trouble_with
from aswired.text.ordinary import NotOrdinary, TooLarge, link_trouble, open_ordinary, read_ordinary, stays_in
from aswired.text.source import Source, shown


@pytest.mark.parametrize(
    ("name", "why", "better"),
    [
        ("con.2", "'con' is a device on Windows, and no folder can have its name", "job-con-2"),
        ("COM1", "'COM1' is a device on Windows, and no folder can have its name", "job-com1"),
        ("prn .x", "'prn' is a device on Windows, and no folder can have its name", "prn-.x"),
        ("a:b|c", "the sign : may not stand in a name", "a-b-c"),
        ("a\tb", "a control character may not stand in a name", "a-b"),
        ("van.", "a name may not end with a point or a blank", "van"),
        ("Grüner Bus ", "a name may not end with a point or a blank", "gruner-bus"),
        ("ж" * 121, "the name is 242 bytes long, and at most 240 can be used", "job"),
        ("x" * 241, "the name is 241 bytes long, and at most 240 can be used", "x" * 40),
        ("x" * 240, "", ""),
        ("caf\udce9", "the name is not UTF-8", "caf"),
    ],
)
def test_a_name_that_a_stick_cannot_hold_has_a_reason_and_another_name(name: str, why: str, better: str) -> None:
    assert trouble_with(name) == why
    faults = check_job_names([Path("jobs") / name])
    told = [(fault.problem, fault.mend) for fault in faults]
    wanted = [(f"no stick can hold this folder: {why}", f"Rename it, such as to {better}")] if why else []
    assert told == wanted


@pytest.mark.parametrize(
    ("names", "how"),
    [(("Van", "VAN"), "capitals"), (("van", "VAN"), "capitals"), (("VAN", "van"), "capitals"),
     (("b\u00e4r", "ba\u0308r"), "the same letters")],
)  # fmt: skip
def test_what_a_disk_does_not_tell_apart_is_said(names: tuple[str, str], how: str) -> None:
    (fault,) = check_job_names([Path(name) for name in names])
    assert fault.problem == f"this folder and {names[0]} are one to disks that do not tell {how} apart"


def test_a_stem_is_kept_or_cut_and_told_apart_by_its_name() -> None:
    long = "y" * 101
    stems = file_stems([("a", "a"), ("...", "..."), (long, long), ("b", "b.c"), ("x" * 100, "x" * 100), ("A", "A"),
                        ("a ", "a")])  # fmt: skip
    assert (stems["a"], stems["b"], stems["x" * 100], stems["A"], stems["a "]) == ("a", "b.c", "x" * 100, "A-2", "a-3")
    assert re.fullmatch("x-[0-9a-f]{8}", stems["..."])
    assert re.fullmatch("y{80}-[0-9a-f]{8}", stems[long])


def test_a_line_is_shown_up_to_its_160th_character() -> None:
    assert shown("x" * 160 + "  ") == "x" * 160
    assert shown("x" * 161) == "x" * 160 + " ..."
    source = Source("job.yml", ("first", "second", "third\t"))
    told = {number: (source.at(number).line, source.at(number).text) for number in (0, 1, 2, 3, 4)}
    assert {number: text for number, (_, text) in told.items()} == {0: "", 1: "first", 2: "second", 3: "third", 4: ""}
    assert [line for line, _ in told.values()] == [0, 1, 2, 3, 4]


def test_a_file_is_read_up_to_its_last_byte_and_a_folder_is_none(tmp_path: Path) -> None:
    path = tmp_path / "a"
    path.write_bytes(b"12345")
    assert read_ordinary(path, 5) == b"12345"
    with pytest.raises(TooLarge):
        read_ordinary(path, 4)
    with pytest.raises(NotOrdinary) as caught:
        open_ordinary(tmp_path)
    assert "folder" in caught.value.what


def test_where_a_link_leads(tmp_path: Path) -> None:
    inside, outside = tmp_path / "van", tmp_path / "van-2"
    for folder in (inside, outside):
        folder.mkdir()
        (folder / "a.jpg").write_bytes(b"x")
    (inside / "here").symlink_to(inside / "a.jpg")
    (inside / "there").symlink_to(outside / "a.jpg")
    (inside / "nowhere").symlink_to(inside / "b.jpg")
    (inside / "round").symlink_to(inside / "round")
    assert {name: link_trouble(inside / name) for name in ("a.jpg", "here", "there", "nowhere", "round")} == {
        "a.jpg": "",
        "here": "",
        "there": "is a link that leads outside its folder",
        "nowhere": "is a link that leads to nothing",
        "round": "is a link that leads back to itself, or where nothing may be read",
    }
    assert (stays_in(inside / "a.jpg", inside), stays_in(outside / "a.jpg", inside)) == (True, False)


def test_a_job_on_another_disk_that_is_linked_in_may_hold_links_of_its_own(tmp_path: Path) -> None:
    there = tmp_path / "disk" / "van"
    there.mkdir(parents=True)
    (there / "job.yml").write_text("job: Van\n", encoding="utf-8")
    (there / "changes-2031.txt").write_text("changes: [{id: C1, kind: verify, proves: [C1]}]\n", encoding="utf-8")
    (there / "changes.yml").symlink_to("changes-2031.txt")
    (tmp_path / "van").symlink_to(there)
    read = read_job(tmp_path / "van")
    assert not any("link" in fault.problem for fault in read.faults)
    assert read.job is not None
    assert [row.id for row in read.job.changes] == ["C1"]

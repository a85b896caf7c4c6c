"""What a build keeps for itself may be damaged, edited or exchanged by anybody: nothing outside the site's folder is
ever written or removed for it, no build waits for ever, and what is said is true."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from aswired.cli import run as cli
from aswired.files.locking import held
from aswired.site import manifest, publish, stage
from aswired.site.publish import HOME
from aswired.site.theme import theme_dir
from tests.conftest import not_longer_than
from tests.publish.shop import add_job, broken_links, edit, everything, site_files

pytestmark = pytest.mark.slow  # whole builds on disk

OWNER = ["build", "--edition", "owner", "--job", "green-van", "--out", "site"]
CONTENT = b"nobody's but mine"


@pytest.fixture(autouse=True)
def mark(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(stage, "makers_mark", lambda folder: "this")


@pytest.fixture(autouse=True)
def not_for_ever() -> Iterator[None]:
    with not_longer_than(20):
        yield


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("green-van", "red-van"):
        add_job(tmp_path, name)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def claim(shop: Path, *addresses: str) -> None:
    """Write addresses into the account as if a build had written there what stands there now."""
    with (shop / "site" / HOME / "written.txt").open("a") as stream:
        stream.writelines(f"{hashlib.sha256(CONTENT).hexdigest()}  {address}\n" for address in addresses)


@pytest.mark.parametrize(
    "address",
    [
        "../mine.txt",
        "jobs/../../mine.txt",
        "./../mine.txt",
        "{shop}/mine.txt",
        "//{shop}/mine.txt",
        ".aswired/mine.txt",
    ],
)
def test_an_address_that_can_be_no_page_is_nobodys(shop: Path, address: str) -> None:
    assert cli.main(["build"]) == 0
    mine = shop / ("site/.aswired/mine.txt" if HOME in address else "mine.txt")
    mine.write_bytes(CONTENT)
    claim(shop, address.format(shop=shop))
    edit(shop, "green-van", "18 in", "30 in")
    assert cli.main(["build"]) == 0
    assert mine.read_bytes() == CONTENT
    assert address.format(shop=shop) not in (shop / "site" / HOME / "written.txt").read_text()


def test_an_edition_that_is_taken_away_takes_nothing_from_outside(shop: Path) -> None:
    edit(shop, "green-van", "the lamp sits", "Quentin Abernathy says it sits")
    assert cli.main(OWNER) == 0
    (shop / "mine.txt").write_bytes(CONTENT)
    claim(shop, "../mine.txt")
    with (shop / "jobs" / "green-van" / "job.yml").open("a") as stream:
        stream.write("\nprivate: {customer: Quentin Abernathy}\n")
    assert cli.main(OWNER) == 1
    assert not (shop / "site").exists()
    assert (shop / "mine.txt").read_bytes() == CONTENT


@pytest.mark.parametrize(
    "line", [b"\xff\xfe", b"0" * 64 + b"  a\0b", b"0" * 64 + b"  " + b"a" * 5000, b"0" * 64 + b"  "]
)
@pytest.mark.slow
def test_a_line_of_nonsense_stops_nothing(shop: Path, line: bytes) -> None:
    assert cli.main(["build"]) == 0
    before = site_files(shop / "site")
    with (shop / "site" / HOME / "written.txt").open("ab") as stream:
        stream.write(line + b"\n")
    assert cli.main(["build"]) == 0
    assert site_files(shop / "site") == before


def a_link_to_a_folder(place: Path, outside: Path) -> None:
    place.symlink_to(outside)


def a_link_to_a_file(place: Path, outside: Path) -> None:
    place.symlink_to(outside / "index.html")


def a_link_to_a_new_file(place: Path, outside: Path) -> None:
    place.symlink_to(outside / "new")


def a_link_that_leads_nowhere(place: Path, outside: Path) -> None:
    place.symlink_to(outside / "none" / "none")


def a_pipe(place: Path, outside: Path) -> None:
    os.mkfifo(place)


def a_folder(place: Path, outside: Path) -> None:
    place.mkdir()


ODD = [a_link_to_a_folder, a_link_to_a_file, a_link_to_a_new_file, a_link_that_leads_nowhere, a_pipe, a_folder]
PUT = [(name, put) for name in ("staging", "lock", "written.txt", "written.txt.new") for put in ODD]
PUT.remove(("staging", a_folder))  # that is what it should be
QUICK = [("staging", a_link_to_a_folder), ("written.txt", a_pipe), ("lock", a_link_that_leads_nowhere)]


@pytest.mark.parametrize(
    ("name", "put"), [pytest.param(*one, marks=[] if one in QUICK else pytest.mark.slow) for one in PUT]
)
def test_what_is_no_file_or_folder_of_a_build_is_told_and_not_used(
    shop: Path, name: str, put: Callable[[Path, Path], None], capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["build"]) == 0
    outside = shop / "outside"
    outside.mkdir()
    for at in ("index.html", "jobs", "unfinished.html"):
        (outside / at).write_bytes(CONTENT)
    place = shop / "site" / HOME / name
    place.unlink(missing_ok=True)
    put(place, outside)
    edit(shop, "green-van", "18 in", "30 in")
    before, site = everything(outside), site_files(shop / "site")
    capsys.readouterr()
    code = cli.main(["build"])
    told = "".join(capsys.readouterr())
    assert everything(outside) == before
    assert site_files(shop / "site") == site
    assert place.is_symlink() or not place.is_file()
    assert code in (1, 2), told
    assert "defect" not in told
    if code == 2:
        assert f"site/{HOME}/{name}" in told
        assert "take it away" in told
        assert "The site in site is as it was." in told


@pytest.mark.parametrize("target", ["mine", "none/none"])
def test_a_lock_is_never_a_link(tmp_path: Path, target: str) -> None:
    (tmp_path / "mine").write_bytes(CONTENT)
    (tmp_path / "lock").symlink_to(tmp_path / target)
    with pytest.raises(OSError, match="symbolic links"), held(tmp_path / "lock", longest_s=0):
        pass
    assert (tmp_path / "mine").read_bytes() == CONTENT
    assert sorted(os.listdir(tmp_path)) == ["lock", "mine"]


@pytest.mark.parametrize("inside", ["site/.aswired/staging", "site/.aswired/mine", ".cache/aswired/writing/begun"])
@pytest.mark.slow
def test_a_site_is_not_built_where_a_build_keeps_what_it_needs(
    shop: Path, inside: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["build"]) == 0
    assert cli.main(["build", "--out", inside]) == 1
    assert "OUT01" in capsys.readouterr().out
    assert not (shop / inside).exists()


# ---- words that are true --------------------------------------------------------------------------------------------
def failing(monkeypatch: pytest.MonkeyPatch, owner: object, name: str, from_call: int) -> None:
    """From its `from_call`-th call on (from 1) a function fails as on a full disk."""
    real, calls = getattr(owner, name), 0

    def fails(*arguments: object) -> object:
        nonlocal calls
        calls += 1
        if calls >= from_call:
            raise OSError(28, "No space left on device", "somewhere")
        return real(*arguments)

    monkeypatch.setattr(owner, name, fails)


@pytest.mark.parametrize(
    ("owner", "name", "from_call"), [(manifest, "save", 1), (publish.SiteFolder, "_note", 2)], ids=["save", "note"]
)
@pytest.mark.slow
def test_a_disk_that_fails_after_the_pages_were_exchanged(
    shop: Path, capsys: pytest.CaptureFixture[str], owner: object, name: str, from_call: int
) -> None:
    assert cli.main(["build"]) == 0
    before = site_files(shop / "site")
    edit(shop, "green-van", "18 in", "30 in")
    with pytest.MonkeyPatch.context() as patch:
        failing(patch, owner, name, from_call)
        assert cli.main(["build"]) == 2
    told = "".join(capsys.readouterr())
    assert site_files(shop / "site") != before
    assert "as it was" not in told
    assert "No space left on device" in told
    assert "are in their new state" in told
    assert cli.main(["build"]) == 0
    assert broken_links(shop / "site") == []


def test_the_account_of_a_build_that_changes_no_page_cannot_be_kept(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["build"]) == 0
    before = site_files(shop / "site")
    with (shop / "jobs" / "green-van" / "job.yml").open("a") as stream:
        stream.write("# no page shows this\n")
    with pytest.MonkeyPatch.context() as patch:
        failing(patch, manifest, "save", 1)
        assert cli.main(["build"]) == 2
    assert site_files(shop / "site") == before
    assert "The site in site is as it was." in "".join(capsys.readouterr())


def test_an_edition_that_cannot_be_taken_away_is_told_with_the_reason(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    edit(shop, "green-van", "the lamp sits", "Quentin Abernathy says it sits")
    assert cli.main(OWNER) == 0
    with (shop / "jobs" / "green-van" / "job.yml").open("a") as stream:
        stream.write("\nprivate: {customer: Quentin Abernathy}\n")
    with pytest.MonkeyPatch.context() as patch:
        failing(patch, os, "rmdir", 1)  # folders stay
        real = os.unlink

        def unlink(path: str, **options: int) -> None:
            if str(path).endswith("changes.html"):
                raise PermissionError(13, "Permission denied", path)
            real(path, **options)

        patch.setattr(os, "unlink", unlink)
        assert cli.main(OWNER) == 1
    told = capsys.readouterr().out
    assert "PRV01" in told
    assert "jobs/green-van/changes.html" in told.partition("stay")[2]
    assert list(site_files(shop / "site")) == ["jobs/green-van/changes.html"]
    assert cli.main(OWNER) == 1  # the disk is mended: what stayed is known as a build's and goes
    assert not (shop / "site" / "jobs").exists()


@pytest.mark.parametrize("out", ["a" * 300, "ring"])
def test_a_folder_that_cannot_be_is_told_in_words(shop: Path, out: str, capsys: pytest.CaptureFixture[str]) -> None:
    (shop / "ring").symlink_to("ring")
    assert cli.main(["build", "--out", out]) in (1, 2)
    told = "".join(capsys.readouterr())
    assert "defect" not in told
    assert out[:100] in told


def test_folders_made_for_nothing_go_again(shop: Path) -> None:
    (shop / "jobs" / "green-van" / "job.yml").write_text("a: [\n")
    assert cli.main(["build", "--out", "deep/er/site"]) == 1
    assert not (shop / "deep").exists()
    shutil.rmtree(shop / "jobs" / "green-van")
    assert cli.main(["build", "--out", "deep/er/site"]) == 0
    assert broken_links(shop / "deep" / "er" / "site") == []


@pytest.mark.parametrize("after", [1, 12, 20])
def test_an_edition_of_which_the_taking_away_was_broken_off_is_taken_away_by_the_next_build(
    shop: Path, after: int
) -> None:
    edit(shop, "green-van", "the lamp sits", "Quentin Abernathy says it sits")
    assert cli.main(OWNER) == 0
    with (shop / "jobs" / "green-van" / "job.yml").open("a") as stream:
        stream.write("\nprivate: {customer: Quentin Abernathy}\n")
    real, calls = os.unlink, 0

    def unlink(path: str, **options: int) -> None:
        nonlocal calls
        calls += "assets" in str(path) or str(path).endswith(".html")
        if calls > after:
            raise KeyboardInterrupt
        real(path, **options)

    before = len(site_files(shop / "site"))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "unlink", unlink)
        assert cli.main(OWNER) == 2
    assert 0 < len(site_files(shop / "site")) < before
    assert cli.main(OWNER) == 1
    assert not (shop / "site").exists()


def test_mkdocs_tells_a_disk_that_fails_in_the_same_words(shop: Path) -> None:
    theme = theme_dir()
    (shop / "mkdocs.yml").write_text(
        f"site_name: Jobs\ndocs_dir: jobs\nuse_directory_urls: false\ntheme: {{name: null, custom_dir: '{theme}'}}\n"
        "plugins: [aswired]\n"
    )
    (shop / "site" / HOME / "lock").mkdir(parents=True)
    done = subprocess.run([sys.executable, "-m", "mkdocs", "build"], cwd=shop, capture_output=True, text=True)
    assert done.returncode == 1
    assert "The site could not be made" in done.stderr
    assert "take it away" in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("out", ["job.yml/sheets.html", "l.html"])
def test_sheets_that_cannot_be_written_are_told_and_a_link_to_sheets_stays_one(
    shop: Path, out: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop / "job.yml").write_text("mine")
    assert cli.main(["sheets", "--out", "sheets.html"]) == 0
    (shop / "l.html").symlink_to("sheets.html")
    code = cli.main(["sheets", "--out", out])
    assert (code, "defect" in capsys.readouterr().err) == (0 if out == "l.html" else 2, False)
    assert (shop / "l.html").is_symlink()
    assert (shop / "job.yml").read_text() == "mine"


@pytest.mark.parametrize("cut", ["jobs/red-van", "red-van/deep"])
@pytest.mark.slow
def test_a_folder_that_a_broken_off_build_left_empty_goes_with_the_next(shop: Path, cut: str) -> None:
    real = os.rmdir

    def rmdir(path: str, **options: int) -> None:
        if str(path).endswith(cut) and not os.listdir(path):
            raise KeyboardInterrupt
        real(path, **options)

    assert cli.main(["build"]) == 0
    linked = shop / "linked"
    linked.mkdir()
    (linked / "photos").mkdir()
    (shop / "site" / "jobs" / "red-van" / "deep" / "er").mkdir(parents=True)
    (shop / "site" / "jobs" / "red-van" / "deep" / "er" / "photo.jpg").write_bytes(CONTENT)
    claim(shop, "jobs/red-van/deep/er/photo.jpg")  # the folder above its own goes in a second step
    shutil.rmtree(shop / "jobs" / "red-van")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "rmdir", rmdir)
        assert cli.main(["build"]) == 2
    assert list((shop / "site" / "jobs" / cut.removeprefix("jobs/")).iterdir()) == []
    (shop / "site" / "jobs" / "mine").symlink_to(linked)
    claim(shop, "jobs/mine/photos/none.jpg")
    assert cli.main(["build"]) == 0
    assert not (shop / "site" / "jobs" / "red-van").exists()
    assert (linked / "photos").is_dir()


@pytest.mark.parametrize("target", ["nowhere", "rack.yml"])
@pytest.mark.slow
def test_the_shops_own_file_that_leads_nowhere_is_no_job(
    shop: Path, target: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop / "jobs" / "rack.yml").symlink_to(target)
    assert cli.main(["build"]) == 0  # no page depends on the rack
    (shop / "jobs" / "shop.yml").symlink_to("nowhere")
    capsys.readouterr()
    assert cli.main(["build"]) == 1
    told = capsys.readouterr().out
    assert "shop.yml\n  the file is a link that leads to nothing" in told
    assert "job.yml" not in told


@pytest.mark.parametrize("put", [a_link_to_a_file, a_link_that_leads_nowhere, a_pipe, a_folder])
@pytest.mark.parametrize("name", ["green-van/readings.yml", "green-van/notes.md", "shop.yml"])
@pytest.mark.slow
def test_what_a_build_from_nothing_refuses_a_later_build_refuses_too(
    shop: Path, name: str, put: Callable[[Path, Path], None], capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["build"]) == 0
    (shop / "index.html").write_bytes(CONTENT)
    put(shop / "jobs" / name, shop)
    capsys.readouterr()
    assert cli.main(["build"]) == 1
    assert f"fault FIL01 {name}" in capsys.readouterr().out


@pytest.mark.parametrize(
    "plan", ["[1]", '{"a": 1}', '[["a"]]', "null", "5", "[[1, 2, 3]]", '[["a/b/\\u0000", "", ""]]', "absolute", "[[[[["]
)
def test_a_plan_of_writing_that_is_nonsense_or_leads_out_of_the_shop_is_thrown_away(shop: Path, plan: str) -> None:
    before, after = (hashlib.sha256(data).hexdigest() for data in (CONTENT, b"exchanged"))
    desk = shop / ".cache" / "aswired" / "writing"
    desk.mkdir(parents=True)
    (desk / "0.new").write_bytes(b"exchanged")
    near = Path(os.path.realpath("/tmp")) / f"{os.getpid()}-aswired-plan"  # noqa: S108  a path of three parts
    near.write_bytes(CONTENT)
    try:
        (desk / "plan.json").write_text(json.dumps([[str(near), before, after]]) if plan == "absolute" else plan)
        assert cli.main(["new", "blue-van"]) == 0
        assert near.read_bytes() == CONTENT
    finally:
        near.unlink()
    assert os.listdir(desk) == []

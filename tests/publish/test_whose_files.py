"""What lies in a site's folder and was not built stays as it is, whatever is built, refused or taken away."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from aswired.cli import run as cli
from aswired.site.publish import HOME, SiteFolder, at_work
from tests.publish.shop import add_job, broken_links, build, edit, everything, site_files

pytestmark = pytest.mark.slow  # whole builds on disk

PRIVATE = "\nprivate: {customer: Quentin Abernathy}\n"


def plant(site: Path) -> dict[str, bytes]:
    """Files of the user in and about a site: of a publishing host, of git, notes, in folders of the site and beside."""
    files = {
        "CNAME": b"wires.example", ".git/HEAD": b"ref: refs/heads/main\n", ".git/objects/ab/cdef": b"\0\1",
        ".nojekyll": b"", "notes.txt": b"call back", "jobs/green-van/plan.pdf": b"%PDF",
        "jobs/other/page.html": b"<p>mine", "assets/js/own.js": b"1",
    }  # fmt: skip
    for name, content in files.items():
        path = site / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return files


def holds(site: Path, files: dict[str, bytes]) -> bool:
    return all((site / name).read_bytes() == content for name, content in files.items())


def change_nothing(shop: Path) -> None:
    pass


def edit_a_job(shop: Path) -> None:
    edit(shop, "green-van", "the lamp sits", "today the lamp sits")


def remove_a_job(shop: Path) -> None:
    shutil.rmtree(shop / "jobs" / "green-van")


def break_a_job(shop: Path) -> None:
    edit(shop, "green-van", "gap: 18 in", "gap: 18")


@pytest.mark.parametrize(
    "then",
    [remove_a_job, *(pytest.param(then, marks=pytest.mark.slow) for then in (change_nothing, edit_a_job, break_a_job))],
)
def test_files_beside_the_pages_stay(shop: Path, then: Callable[[Path], None]) -> None:
    assert build(shop).good
    files = plant(shop / "site")
    then(shop)
    build(shop)
    assert holds(shop / "site", files)
    assert broken_links(shop / "site") == []
    if then is remove_a_job:
        assert os.listdir(shop / "site" / "jobs" / "green-van") == ["plan.pdf"]
        assert "green-van" not in (shop / "site" / "index.html").read_text()


def test_a_folder_that_held_a_site_and_holds_other_files_now_is_refused(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["build"]) == 0
    shutil.rmtree(shop / "site")
    (shop / "site").mkdir()
    (shop / "site" / "thesis.txt").write_text("years of work")
    before = everything(shop / "site")
    capsys.readouterr()
    assert cli.main(["build"]) == 1
    assert "fault OUT01 site\n  the folder holds files, and no site that was built here\n" in capsys.readouterr().out
    assert everything(shop / "site") == before


@pytest.mark.parametrize("where", ["jobs", "jobs/green-van/site", ".", "file"])
def test_a_site_is_not_built_among_the_jobs_or_over_a_file(
    shop: Path, where: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop / "file").write_text("dear")
    before = everything(shop)
    assert cli.main(["build", "--out", where]) == 1
    assert f"fault OUT01 {where}\n" in capsys.readouterr().out
    assert everything(shop) == before


def test_a_folder_with_nothing_but_hidden_things_is_built_into(shop: Path) -> None:
    (shop / "site" / ".git").mkdir(parents=True)
    (shop / "site" / ".git" / "HEAD").write_text("ref: refs/heads/main\n")
    assert build(shop).good
    assert (shop / "site" / ".git" / "HEAD").read_text() == "ref: refs/heads/main\n"
    assert (shop / "site" / "index.html").exists()


def test_a_page_that_somebody_changed_is_not_written_over(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["build"]) == 0
    capsys.readouterr()
    for name in ("index.html", "changes.html"):
        page = shop / "site" / "jobs" / "green-van" / name
        page.write_text(page.read_text().replace("</main>", "<p>My own note.</p></main>"))
    edit_a_job(shop)
    before = everything(shop / "site")
    assert cli.main(["build"]) == 1
    told = capsys.readouterr().out
    for name in ("changes.html", "index.html"):
        assert (
            f"fault OUT02 site/jobs/green-van/{name}\n"
            "  the file was changed after it was built; building would write over the change\n"
            "  mend: Move it out of the site's folder, or delete it\n"
        ) in told
    assert "2 file faults; nothing was written." in told
    assert everything(shop / "site") == before
    for name in ("index.html", "changes.html"):
        (shop / "site" / "jobs" / "green-van" / name).rename(shop / name)
    assert cli.main(["build"]) == 0
    assert "My own note" in (shop / "changes.html").read_text()
    assert "today the lamp" in (shop / "site" / "jobs" / "green-van" / "changes.html").read_text()


def test_a_changed_page_that_is_no_longer_part_of_the_site_stays_and_is_told(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["build"]) == 0
    capsys.readouterr()
    page = shop / "site" / "jobs" / "green-van" / "changes.html"
    page.write_text("my own copy")
    remove_a_job(shop)
    assert cli.main(["build"]) == 0
    assert "Not removed, since changed after it was built: site/jobs/green-van/changes.html" in capsys.readouterr().out
    assert page.read_text() == "my own copy"
    assert os.listdir(page.parent) == ["changes.html"]


@pytest.mark.parametrize(
    "what",
    [
        "file",
        "a link for a folder",
        *(pytest.param(what, marks=pytest.mark.slow) for what in ["link", "folder", "pipe", "a file for a folder"]),
    ],
)
def test_something_else_where_a_page_has_to_go_is_told_and_stays(
    shop: Path, what: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["build"]) == 0
    add_job(shop, "blue-van")
    (shop / "mine").mkdir()
    (shop / "mine" / "letter.txt").write_text("dear")
    place = "jobs/blue-van" if "for a folder" in what else "jobs/blue-van/changes.html"
    path = shop / "site" / place
    path.parent.mkdir(exist_ok=True)
    if what in ("file", "a file for a folder"):
        path.write_text("dear")
    elif what == "folder":
        path.mkdir()
    elif what == "pipe":
        os.mkfifo(path)
    else:
        path.symlink_to(shop / "mine" if "for a folder" in what else shop / "mine" / "letter.txt")
    before = everything(shop / "site"), everything(shop / "mine")
    capsys.readouterr()
    assert cli.main(["build"]) == 1
    assert f"fault OUT02 site/{place}\n" in capsys.readouterr().out
    assert (everything(shop / "site"), everything(shop / "mine")) == before


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="this system has no links")
def test_what_the_disk_refuses_is_told_in_words_by_the_command_and_by_mkdocs(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop / "mine").mkdir()
    (shop / "site").mkdir()
    (shop / "site" / HOME).symlink_to(shop / "mine")
    (shop / "mkdocs.yml").write_text("site_name: Shop\ndocs_dir: jobs\nplugins: [aswired]\n")
    assert cli.main(["build"]) == cli.BROKEN
    assert "The site could not be made: site/.aswired is a link; take it away." in capsys.readouterr().err
    done = subprocess.run([sys.executable, "-m", "mkdocs", "build"], cwd=shop, capture_output=True, text=True)
    assert done.returncode == 1
    assert f"The site could not be made: {shop}/site/.aswired is a link; take it away." in done.stderr
    assert "Traceback" not in done.stderr
    assert everything(shop / "mine") == {}


@pytest.mark.slow
def test_mkdocs_is_told_of_a_job_that_is_not_there(shop: Path) -> None:
    (shop / "mkdocs.yml").write_text("site_name: Shop\ndocs_dir: jobs\nplugins: [aswired: {job: grene-van}]\n")
    done = subprocess.run([sys.executable, "-m", "mkdocs", "build"], cwd=shop, capture_output=True, text=True)
    assert done.returncode == 1
    assert "mkdocs.yml names the job 'grene-van', and there is none below" in done.stderr
    assert not (shop / "site").exists()


def test_two_editions_do_not_go_into_one_folder(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["build"]) == 0
    before = everything(shop / "site")
    assert cli.main(["build", "--edition", "owner", "--job", "green-van", "--out", "site"]) == 1
    assert cli.main(["build", "--job", "green-van", "--out", "site"]) == 1
    told = capsys.readouterr().out
    assert told.count("fault OUT03 site\n  the folder holds the shop's edition of all jobs\n") == 2
    assert "mend: Name another folder" in told
    assert "delete" not in told  # a person's own files may lie in there
    assert everything(shop / "site") == before
    assert cli.main(["build", "--edition", "owner", "--job", "green-van", "--out", "given"]) == 0
    before = everything(shop / "given")
    assert cli.main(["build", "--edition", "owner", "--job", "red-van", "--out", "given"]) == 1
    assert "the folder holds the owner's edition of 'green-van'" in capsys.readouterr().out
    assert everything(shop / "given") == before


def test_a_refused_edition_takes_away_its_own_pages_and_nothing_else(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ["build", "--edition", "owner", "--job", "green-van", "--out", "given"]
    edit(shop, "green-van", "the lamp sits", "Quentin Abernathy says it sits")
    assert cli.main(asked) == 0
    files = plant(shop / "given")
    (shop / "given" / "jobs" / "green-van" / "splices.html").write_text("mine now")
    with (shop / "jobs" / "green-van" / "job.yml").open("a") as stream:
        stream.write(PRIVATE)
    assert cli.main(asked) == 1
    told = capsys.readouterr().out
    assert "The edition made before was taken away from given" in told
    assert "look at them: jobs/green-van/splices.html." in told
    assert holds(shop / "given", files)
    assert set(site_files(shop / "given")) == {*files, "jobs/green-van/splices.html"}
    # mended, the edition goes into the same folder again: the page that was written into is named, then all is there
    edit(shop, "green-van", "Quentin Abernathy says it sits", "the lamp sits")
    assert cli.main(asked) == 1
    told = capsys.readouterr().out
    assert "fault OUT02 given/jobs/green-van/splices.html\n  the file was changed after it was built" in told
    assert told.count("fault ") == 1
    (shop / "given" / "jobs" / "green-van" / "splices.html").unlink()
    assert cli.main(asked) == 0
    assert holds(shop / "given", files)


def test_after_a_refused_edition_a_note_beside_it_is_in_nobody_s_way(shop: Path) -> None:
    asked = ["build", "--edition", "owner", "--job", "green-van", "--out", "given"]
    edit(shop, "green-van", "the lamp sits", "Quentin Abernathy says it sits")
    assert cli.main(asked) == 0
    (shop / "given" / "note.txt").write_text("mine")
    with (shop / "jobs" / "green-van" / "job.yml").open("a") as stream:
        stream.write(PRIVATE)
    assert cli.main(asked) == 1
    assert set(site_files(shop / "given")) == {"note.txt"}
    assert "green-van" not in "".join(path.read_text() for path in (shop / "given").rglob("*") if path.is_file())
    edit(shop, "green-van", "Quentin Abernathy says it sits", "the lamp sits")
    assert cli.main(asked) == 0
    assert (shop / "given" / "note.txt").read_text() == "mine"


def test_a_private_value_is_told_although_the_account_of_the_edition_cannot_be_written(
    shop: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = ["build", "--edition", "owner", "--job", "green-van", "--out", "given"]
    edit(shop, "green-van", "the lamp sits", "Quentin Abernathy says it sits")
    assert cli.main(asked) == 0
    files = plant(shop / "given")
    with (shop / "jobs" / "green-van" / "job.yml").open("a") as stream:
        stream.write(PRIVATE)

    def refuse(*_: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(SiteFolder, "_note", refuse)
        assert cli.main(asked) == 1
    told = "".join(capsys.readouterr())
    assert "The edition made before was taken away from given" in told
    assert "as it was" not in told
    assert set(site_files(shop / "given")) == set(files)
    edit(shop, "green-van", "Quentin Abernathy says it sits", "the lamp sits")
    assert cli.main(asked) == 0
    assert holds(shop / "given", files)
    assert broken_links(shop / "given") == []


def test_a_refused_edition_leaves_one_that_holds_nothing_private(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ["build", "--edition", "owner", "--job", "green-van", "--out", "given"]
    assert cli.main(asked) == 0
    before = everything(shop / "given")
    edit(shop, "green-van", "the lamp sits", "Quentin Abernathy says it sits")
    with (shop / "jobs" / "green-van" / "job.yml").open("a") as stream:
        stream.write(PRIVATE)
    assert cli.main(asked) == 1
    assert "taken away" not in capsys.readouterr().out
    assert everything(shop / "given") == before


def test_nothing_to_change_touches_nothing(shop: Path) -> None:
    assert build(shop).good
    before, cache = everything(shop / "site"), everything(shop / ".cache")
    folders = {
        path: path.stat().st_mtime_ns for path in (shop / "site").rglob("*") if path.is_dir() and path.name != HOME
    }
    assert build(shop).made == ()
    assert {name: seen for name, seen in everything(shop / "site").items() if name != HOME} == {
        name: seen for name, seen in before.items() if name != HOME
    }
    assert {path: path.stat().st_mtime_ns for path in folders} == folders
    assert everything(shop / ".cache") == cache


def test_what_the_build_keeps_in_a_customers_folder_is_names_and_sums(shop: Path) -> None:
    with (shop / "jobs" / "green-van" / "job.yml").open("a") as stream:
        stream.write(PRIVATE)
    assert build(shop, "given", "owner", "green-van").good
    (kept,) = (shop / "given" / HOME).iterdir()
    lines = kept.read_text().splitlines()
    assert lines[:3] == ["# edition: owner", "# job: green-van", "# folder made by the build"]
    uris = {line[66:] for line in lines[3:]}
    assert uris == set(site_files(shop / "given"))
    assert all(len(line.split()[0]) == 64 for line in lines[3:])


# ---- sheets ---------------------------------------------------------------------------------------------------------
def test_sheets_are_written_over_sheets_only(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["sheets", "--out", "new/sheets.html"]) == 0
    sheets = shop / "new" / "sheets.html"
    blank = sheets.read_bytes()
    assert cli.main(["sheets", "--out", "new/sheets.html"]) == 0
    filled = blank.replace(b"</section>", b"C14</section>", 1)
    for content in (filled, b"", b"dear", blank + b" "):
        sheets.write_bytes(content)
        assert cli.main(["sheets", "--out", "new/sheets.html"]) == 1
        assert sheets.read_bytes() == content
    told = capsys.readouterr().out
    assert told.count("fault OUT02 new/sheets.html\n") == 4
    assert cli.main(["sheets", "--out", "jobs"]) == 1
    assert os.listdir(sheets.parent) == ["sheets.html"]


# ---- the order of a change ------------------------------------------------------------------------------------------
def test_new_addresses_come_first_the_start_page_last_and_removals_after(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So an index never speaks of a page before it is there, and no page is gone while another leads to it."""
    both = [
        "index.html",
        "find.html",
        "assets/css/a.css",
        "assets/js/find-index.js",
        "jobs/a/index.html",
        "jobs/a/x.html",
    ]

    def put(uris: list[str], content: bytes) -> None:
        with at_work(tmp_path, "site") as site:
            for uri in uris:
                site.put(uri, content)
            assert site.change_over("shop", "", b"not finished") == ()

    put([*both, "jobs/gone/x.html"], b"old")
    told: list[str] = []
    replace, unlink = os.replace, os.unlink

    def tell(word: str, path: str) -> None:
        uri = Path(path).relative_to(tmp_path).as_posix()
        if not uri.startswith(HOME):
            told.append(f"{word} {uri}")

    def replaced(source: str, target: str) -> None:
        replace(source, target)
        tell("put", target)

    def unlinked(path: str) -> None:
        unlink(path)
        tell("remove", path)

    monkeypatch.setattr(os, "replace", replaced)
    monkeypatch.setattr(os, "unlink", unlinked)
    put([*both, "jobs/new/x.html", "jobs/new/p.jpg"], b"new")
    assert told == [
        "put jobs/new/p.jpg",
        "put jobs/new/x.html",
        "put assets/css/a.css",
        "put jobs/a/x.html",
        "put jobs/a/index.html",
        "put assets/js/find-index.js",
        "put find.html",
        "put index.html",
        "remove jobs/gone/x.html",
    ]

"""What reaches the site, what stays as it was, and what stops a build before anything is touched."""

import datetime
import json
import os
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from aswired.files.skeleton import job_yml
from aswired.site import run, stage
from aswired.site.publish import HOME, at_work
from aswired.site.stage import BuildOrder, Staged
from aswired.site.telling import trouble_text
from aswired.site.theme import makers_mark, theme_dir

pytestmark = pytest.mark.slow  # whole builds; the short loop has those of test_cli

Shop = Callable[..., BuildOrder]


def add_job(jobs: Path, name: str, extra: str = "") -> Path:
    """A job like the one `aswired new` writes, its files old enough to be trusted by their time."""
    folder = jobs / name
    (folder / "photos").mkdir(parents=True)
    (folder / "job.yml").write_text(job_yml(name) + extra)
    age(folder)
    return folder


def age(folder: Path, seconds: int = 60) -> None:
    for path in folder.rglob("*"):
        then = path.stat().st_mtime - seconds
        os.utime(path, (then, then))


@pytest.fixture(autouse=True)
def mark(monkeypatch: pytest.MonkeyPatch) -> None:
    """The program does not change under a test, also while somebody is working on it."""
    monkeypatch.setattr(stage, "makers_mark", lambda folder: "this")


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    """An order for the jobs in tmp_path/jobs; two jobs are there."""
    for name in ("green-van", "red-van"):
        add_job(tmp_path / "jobs", name)
    return lambda edition="shop", job="": run.order_for(tmp_path / "jobs", tmp_path / "site", edition, job)


def build(order: BuildOrder) -> Staged:
    return run.build(order, lambda done, total, name: None)


def state(site: Path) -> dict[str, tuple[int, bytes]]:
    """The files of a site, without what the build keeps for itself."""
    return {
        path.relative_to(site).as_posix(): (path.stat().st_mtime_ns, path.read_bytes())
        for path in site.rglob("*")
        if path.is_file() and HOME not in path.relative_to(site).parts
    }


# ---- the allow list -------------------------------------------------------------------------------------------------
def test_nothing_that_lies_about_in_a_job_folder_reaches_the_site(shop: Shop, tmp_path: Path) -> None:
    folder = tmp_path / "jobs" / "green-van"
    secret = b"PLANTED-7f3a"
    names = ["list.xlsx", "IMG_1.heic", "todo.txt", "photos/raw.jpg", "page.html", "look.css", "extra.md", ".hidden"]
    for name in names:
        (folder / name).write_bytes(secret)
    (tmp_path / "jobs" / "stray.html").write_bytes(secret)
    picture = Image.new("RGB", (400, 300), (90, 90, 90))
    exif = Image.Exif()
    exif[0x9C9C] = "PLANTED-7f3a".encode("utf-16-le")
    picture.save(folder / "photos" / "0001.jpg", exif=exif, comment=secret)
    with (folder / "job.yml").open("a") as stream:
        stream.write("\nphotos:\n  - {id: P1, file: photos/0001.jpg, shows: [C1], caption: first joint}\n")
    assert build(shop()).good
    outputs = state(tmp_path / "site")
    stems = {Path(name).name for name in [*names, "0001.jpg", "job.yml", "stray.html"]}
    assert not stems & {Path(uri).name for uri in outputs}
    assert not any(secret in content for _, content in outputs.values())
    assert [uri for uri in outputs if re.fullmatch(r"jobs/green-van/photos/P1-[0-9a-f]{16}-400\.jpg", uri)]
    kinds = {Path(uri).suffix for uri in outputs}
    assert kinds <= {".html", ".css", ".js", ".jpg"}


def test_notes_are_cleaned_markdown_and_lead_to_no_other_host(shop: Shop, tmp_path: Path) -> None:
    (tmp_path / "jobs" / "green-van" / "notes.md").write_text(
        "# Found\n\n*loose* [row](changes.html#C1) [x](https://h.example/) <script>alert(1)</script>"
        " <img src=//h.example/a.png onerror=alert(1)>\n"
    )
    assert build(shop()).good
    page = (tmp_path / "site" / "jobs" / "green-van" / "index.html").read_text()
    assert "<em>loose</em>" in page
    assert '<a href="changes.html#C1">row</a>' in page
    assert "h.example" not in page
    assert "alert(1)" not in page


# ---- in proportion to what changed ----------------------------------------------------------------------------------
def test_unchanged_outputs_keep_their_time(shop: Shop, tmp_path: Path) -> None:
    first = build(shop())
    assert set(first.made) == {"green-van", "red-van"}
    before = state(tmp_path / "site")
    again = build(shop())
    assert again.made == ()
    assert state(tmp_path / "site") == before


def test_only_the_changed_job_and_the_pages_above_are_made_again(shop: Shop, tmp_path: Path) -> None:
    build(shop())
    before = state(tmp_path / "site")
    source = tmp_path / "jobs" / "red-van" / "job.yml"
    source.write_text(source.read_text().replace("job: Red van", "job: Crimson van"))
    again = build(shop())
    assert again.made == ("red-van",)
    after = state(tmp_path / "site")
    changed = {uri for uri in after if after[uri] != before.get(uri)}
    assert {"index.html", "assets/js/find-index.js", "jobs/red-van/index.html"} <= changed
    assert not [uri for uri in changed if uri.startswith("jobs/green-van/")]
    assert "Crimson van" in (tmp_path / "site" / "index.html").read_text()


def test_an_edit_in_the_same_instant_and_of_the_same_length_is_seen(shop: Shop, tmp_path: Path) -> None:
    build(shop())
    source = tmp_path / "jobs" / "red-van" / "job.yml"
    source.write_text(source.read_text().replace("job: Red van", "job: Tan van"))
    build(shop())
    stat = source.stat()
    source.write_text(source.read_text().replace("job: Tan van", "job: Big van"))
    os.utime(source, ns=(stat.st_atime_ns, stat.st_mtime_ns))
    assert build(shop()).made == ("red-van",)


def test_a_rebuild_after_changes_is_the_same_as_a_build_from_nothing(shop: Shop, tmp_path: Path) -> None:
    build(shop())
    source = tmp_path / "jobs" / "red-van" / "job.yml"
    source.write_text(source.read_text().replace("18 in", "30 in"))
    add_job(tmp_path / "jobs", "blue-van")
    build(shop())
    grown = {uri: content for uri, (_, content) in state(tmp_path / "site").items()}
    order = run.order_for(tmp_path / "jobs", tmp_path / "other", "shop", "")
    build(order)
    assert {uri: content for uri, (_, content) in state(tmp_path / "other").items()} == grown


def test_a_removed_job_disappears(shop: Shop, tmp_path: Path) -> None:
    build(shop())
    (tmp_path / "jobs" / "red-van").rename(tmp_path / "gone")
    build(shop())
    assert not (tmp_path / "site" / "jobs" / "red-van").exists()
    assert "red-van" not in (tmp_path / "site" / "index.html").read_text()
    assert "red-van" not in (tmp_path / "site" / "assets/js/find-index.js").read_text()


def test_an_output_that_was_lost_or_emptied_is_made_again(shop: Shop, tmp_path: Path) -> None:
    build(shop())
    lost, emptied = (tmp_path / "site" / "jobs" / name / "changes.html" for name in ("green-van", "red-van"))
    good = lost.read_bytes(), emptied.read_bytes()
    lost.unlink()
    emptied.write_bytes(b"")
    assert build(shop()).good
    assert (lost.read_bytes(), emptied.read_bytes()) == good


def test_a_damaged_manifest_only_costs_time(shop: Shop, tmp_path: Path) -> None:
    order = shop()
    build(order)
    order.keep.write_text(order.keep.read_text()[:200])
    assert set(build(order).made) == {"green-van", "red-van"}


def test_another_version_of_program_or_theme_makes_all_again(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    build(shop())
    monkeypatch.setattr(stage, "makers_mark", lambda folder: "another")
    assert set(build(shop()).made) == {"green-van", "red-van"}


def test_the_mark_changes_with_every_file_of_the_theme(tmp_path: Path) -> None:
    shutil.copytree(theme_dir(), tmp_path / "theme")
    marks = {makers_mark(tmp_path / "theme")}
    for name in ("base.html", "css/base.css", "js/find.js"):
        with (tmp_path / "theme" / name).open("a") as stream:
            stream.write("\n")
        marks.add(makers_mark(tmp_path / "theme"))
    assert len(marks) == 4
    assert makers_mark(tmp_path / "theme") in marks


def test_a_job_is_made_again_on_the_day_that_a_date_in_it_comes(shop: Shop, tmp_path: Path) -> None:
    source = tmp_path / "jobs" / "red-van" / "job.yml"
    text = re.sub(r"# made: \S+ AK", "made: 2031-05-04 AK", source.read_text())
    assert "\n    made: 2031-05-04 AK" in text
    source.write_text(text)
    order, day = shop(), datetime.date(2031, 5, 1)

    def made_on(day: datetime.date) -> tuple[str, ...]:
        with at_work(order.site_dir, order.shown) as site:
            staged = stage.stage(order, site, day)
            assert staged.good
            return stage.finish(order, site, staged).made

    assert made_on(day) == ("green-van", "red-van")
    assert made_on(day + datetime.timedelta(days=2)) == ()
    assert made_on(day + datetime.timedelta(days=3)) == ("red-van",)
    assert made_on(day + datetime.timedelta(days=9)) == ()


# ---- what stops a build ---------------------------------------------------------------------------------------------
def test_every_fault_is_told_and_the_last_good_site_stays(shop: Shop, tmp_path: Path) -> None:
    build(shop())
    before = state(tmp_path / "site")
    for name in ("green-van", "red-van"):
        source = tmp_path / "jobs" / name / "job.yml"
        source.write_text(source.read_text().replace("gap: 18 in", "gap: 18"))
    staged = build(shop())
    assert not staged.good
    told = trouble_text(staged.faults, staged.leaks, staged.written)
    assert re.findall(r"^fault \S+ (\S+)\.yml:\d+ \(C1\)$", told, re.MULTILINE) == ["green-van/job", "red-van/job"]
    assert told.endswith("2 file faults; nothing was written.")
    assert state(tmp_path / "site") == before


def test_a_failure_while_rendering_leaves_the_last_good_site(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    build(shop())
    before = state(tmp_path / "site")
    source = tmp_path / "jobs" / "red-van" / "job.yml"
    source.write_text(source.read_text().replace("18 in", "30 in"))

    def fail(*_: object) -> str:
        raise OSError("no space left on device")

    monkeypatch.setattr(stage, "render", fail)
    with pytest.raises(OSError, match="no space left"):
        build(shop())
    assert state(tmp_path / "site") == before
    assert [path.name for path in (tmp_path / "site" / HOME).iterdir()] == ["written.txt"]


def test_a_damaged_photograph_is_told_and_the_site_is_built(shop: Shop, tmp_path: Path) -> None:
    folder = tmp_path / "jobs" / "green-van"
    (folder / "photos" / "1.jpg").write_bytes(b"\xff\xd8\xff\xe0 cut off")
    with (folder / "job.yml").open("a") as stream:
        stream.write("\nphotos:\n  - {id: P1, file: photos/1.jpg}\n")
    staged = build(shop())
    assert staged.good
    line = len((folder / "job.yml").read_text().splitlines())
    assert [notice.split("\n")[0] for notice in staged.notices] == [f"warning green-van/job.yml:{line} (P1)"]
    assert "cut off" in staged.notices[0]
    assert build(shop()).notices == staged.notices  # told again although nothing was made


# ---- the owner's edition --------------------------------------------------------------------------------------------
PRIVATE = """
private: {customer: Quentin Abernathy, price: twelve hundred, plate: XQ 7}
"""


def make_private(folder: Path, **swaps: str) -> None:
    source = folder / "job.yml"
    text = source.read_text() + PRIVATE
    text = text.replace("    why: the lamp", "    shop note: smelled burnt\n    minutes: 12\n    why: the lamp")
    for before, after in swaps.items():
        text = text.replace(before.replace("_", " "), after)
    source.write_text(text)


def test_the_owner_gets_one_job_without_anything_private(shop: Shop, tmp_path: Path) -> None:
    folder = tmp_path / "jobs" / "green-van"
    make_private(folder)
    (folder / "notes.md").write_text("smelled burnt too")
    assert build(shop()).good
    everything = b"".join(content for _, content in state(tmp_path / "site").values())
    assert b"smelled burnt" in everything  # the shop's own has it, else the next lines would say nothing
    order = run.order_for(tmp_path / "jobs", tmp_path / "owner", "owner", "green-van")
    assert build(order).good
    outputs = state(tmp_path / "owner")
    for word in (b"Abernathy", b"twelve hundred", b"XQ 7", b"smelled burnt", b"red-van", b"Red van"):
        assert not [uri for uri, (_, content) in outputs.items() if word in content], word
    assert "jobs/green-van/changes.html" in outputs
    assert not [uri for uri in outputs if "red-van" in uri]


def test_the_owners_edition_is_refused_when_a_private_value_stands_in_a_public_field(
    shop: Shop, tmp_path: Path
) -> None:
    make_private(tmp_path / "jobs" / "green-van", the_lamp_sits="quentin ABERNATHY wants it; the lamp sits")
    order = run.order_for(tmp_path / "jobs", tmp_path / "owner", "owner", "green-van")
    staged = build(order)
    assert {leak.label for leak in staged.leaks} == {"customer"}
    assert "jobs/green-van/changes.html" in {leak.file for leak in staged.leaks}
    for leak in staged.leaks:
        assert leak.line > 0
    assert not (tmp_path / "owner").exists()


def test_an_earlier_owners_edition_goes_when_a_word_in_it_becomes_private(shop: Shop, tmp_path: Path) -> None:
    source = tmp_path / "jobs" / "green-van" / "job.yml"
    source.write_text(source.read_text().replace("the lamp sits", "Quentin Abernathy says it sits"))
    order = run.order_for(tmp_path / "jobs", tmp_path / "owner", "owner", "green-van")
    assert build(order).good
    source.write_text(source.read_text() + PRIVATE)
    assert build(run.order_for(tmp_path / "jobs", tmp_path / "owner", "owner", "green-van")).leaks
    assert not (tmp_path / "owner").exists()


def test_the_owners_edition_is_refused_when_the_folder_bears_the_name(shop: Shop, tmp_path: Path) -> None:
    folder = add_job(tmp_path / "jobs", "quentin-abernathy", PRIVATE)
    source = folder / "job.yml"
    source.write_text(re.sub(r"^job: .*$", "job: Van", source.read_text(), flags=re.MULTILINE))
    order = run.order_for(tmp_path / "jobs", tmp_path / "owner", "owner", "quentin-abernathy")
    assert 0 in {leak.line for leak in build(order).leaks}


# ---- the index of a built site --------------------------------------------------------------------------------------
def test_every_row_of_the_index_leads_to_a_thing_on_a_page(shop: Shop, tmp_path: Path) -> None:
    build(shop())
    site = tmp_path / "site"
    text = (site / stage.FIND_DATA).read_text().removeprefix("window.FIND=").removesuffix(";\n").replace("<\\/", "</")
    jobs = json.loads(text)["jobs"]
    assert [job["job"] for job in jobs] == ["Green van", "Red van", "Manual", "What the codes mean"]
    rows = [(job["pages"][page][0], mark) for job in jobs for page, mark, _, _ in job["rows"]]
    assert len(rows) > 8
    for uri, mark in rows:
        page = (site / uri).read_text()
        assert not mark or f'id="{mark}"' in page, (uri, mark)


def test_the_owners_edition_has_neither_codes_nor_manual_and_its_search_knows_none(shop: Shop, tmp_path: Path) -> None:
    order = run.order_for(tmp_path / "jobs", tmp_path / "owner", "owner", "green-van")
    assert build(order).good
    assert not (tmp_path / "owner" / "codes.html").exists()
    assert not (tmp_path / "owner" / "manual").exists()
    found = (tmp_path / "owner" / stage.FIND_DATA).read_text()
    assert "What the codes mean" not in found
    assert "manual/" not in found
    pages = [page.read_text() for page in (tmp_path / "owner").rglob("*.html")]
    assert not [page for page in pages if "codes.html" in page or "manual/" in page]

"""A build that is killed at any moment leaves a whole site, and the next one gives what a build from nothing gives.

Every opening for writing, renaming, linking, making and removing of a file or folder below the shop is a moment: the
interpreter tells of each before it is done (`sys.addaudithook`), and the process ends there without any tidying up.
Whole builds are killed at a share of their moments. At every single moment killed is the part that touches the site's
folder, given the pages of the same builds.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from aswired.site.publish import HOME, at_work
from aswired.site.theme import theme_dir
from tests.publish.shop import add_job, at_change, broken_links, build, edit, in_a_process, site_files

pytestmark = pytest.mark.slow  # whole builds, killed

KILLED, DONE = 9, 0


def killed_at(moment: int, shop: Path, work: Callable[[], object]) -> bool:
    """Do `work` in a process that ends before its `moment`-th change of the disk (from 1). Whether it came so far."""

    def until_killed() -> int:
        at_change(moment, shop, lambda: os._exit(KILLED))
        work()
        return DONE

    code = in_a_process(until_killed)
    assert code in (KILLED, DONE), code
    return code == KILLED


def two_jobs(shop: Path) -> None:
    add_job(shop, "green-van")
    add_job(shop, "red-van", "\nloads:\n  horn: {between: lamp-left.1 lamp-left.2, draws: 5 W at 12 V}\n")


def cold(shop: Path) -> None:
    two_jobs(shop)


def edited(shop: Path) -> None:
    two_jobs(shop)
    assert build(shop).good
    edit(shop, "red-van", "  horn:", "  bell:")  # one address goes, another comes
    edit(shop, "green-van", "18 in", "30 in")


def added(shop: Path) -> None:
    two_jobs(shop)
    assert build(shop).good
    add_job(shop, "blue-van")


def removed(shop: Path) -> None:
    two_jobs(shop)
    assert build(shop).good
    shutil.rmtree(shop / "jobs" / "red-van")


def swapped(shop: Path) -> None:
    added(shop)
    shutil.rmtree(shop / "jobs" / "red-van")
    edit(shop, "green-van", "job: Green van", "job: Olive van")


def unchanged(shop: Path) -> None:
    two_jobs(shop)
    assert build(shop).good


def owners(shop: Path) -> None:
    two_jobs(shop)
    assert build(shop, "given", "owner", "green-van").good
    edit(shop, "green-van", "18 in", "30 in")


CASES: dict[str, tuple[Callable[[Path], None], tuple[str, str, str]]] = {
    "cold": (cold, ("site", "shop", "")),
    "edited": (edited, ("site", "shop", "")),
    "added": (added, ("site", "shop", "")),
    "removed": (removed, ("site", "shop", "")),
    "swapped": (swapped, ("site", "shop", "")),
    "unchanged": (unchanged, ("site", "shop", "")),
    "owners": (owners, ("given", "owner", "green-van")),
}


def kill_it(case: str, tmp_path: Path, step: int, first: int, replayed: bool) -> tuple[int, list[str]]:
    """Kill at every `step`-th moment: how many there were, and what was wrong at any of them."""
    prepare, (out, edition, job) = CASES[case]
    prepare(tmp_path / "ready")
    shutil.copytree(tmp_path / "ready", tmp_path / "clean")
    shutil.rmtree(tmp_path / "clean" / out, ignore_errors=True)
    assert build(tmp_path / "clean", out, edition, job).good
    wanted = site_files(tmp_path / "clean" / out)

    def work(shop: Path) -> None:
        if not replayed:
            assert build(shop, out, edition, job).good
            return
        with at_work(shop / out, out) as site:
            for uri, content in wanted.items():
                site.put(uri, content)
            assert not site.obstacles()
            site.change_over(edition, job, UNFINISHED.encode())

    wrong: list[str] = []
    moment, shop = first, tmp_path / "shop"
    while True:
        shutil.rmtree(shop, ignore_errors=True)
        shutil.copytree(tmp_path / "ready", shop)
        started = (shop / out / "index.html").exists()
        if not killed_at(moment, shop, lambda: work(shop)):
            assert site_files(shop / out) == wanted
            return (moment - first) // step, wrong
        if started or (shop / out / "index.html").exists():
            wrong += [f"moment {moment}: {trouble}" for trouble in broken_links(shop / out)]
        else:  # a first build that came to nothing leaves no page at all
            wrong += [f"moment {moment}: {uri} without a start page" for uri in site_files(shop / out)]
        work(shop)
        if site_files(shop / out) != wanted:
            wrong.append(f"moment {moment}: the next build gives another site")
        left = [path.name for path in (shop / out / HOME).iterdir()]
        wrong += [f"moment {moment}: {name} was left" for name in left if name != "written.txt"]
        moment += step


@pytest.mark.parametrize("case", ["swapped"])
def test_killed_at_some_changes_of_the_sites_folder(case: str, tmp_path: Path) -> None:
    moments, wrong = kill_it(case, tmp_path, 19, first=4, replayed=True)
    assert wrong == []
    assert moments >= LEAST[case] // 19


@pytest.mark.slow
@pytest.mark.parametrize("case", CASES)
def test_killed_at_every_change_of_the_sites_folder(case: str, tmp_path: Path) -> None:
    moments, wrong = kill_it(case, tmp_path, 1, first=1, replayed=True)
    print(f"{case}: killed at {moments} moments")
    assert wrong == []
    assert moments >= LEAST[case]


@pytest.mark.slow
@pytest.mark.parametrize("case", CASES)
def test_whole_builds_killed_at_some_moments(case: str, tmp_path: Path) -> None:
    moments, wrong = kill_it(case, tmp_path, 17, first=5, replayed=False)
    print(f"{case}: killed at {moments} moments")
    assert wrong == []
    assert moments >= LEAST[case] // 20


UNFINISHED = (theme_dir() / "unfinished.html").read_text()
# moments that there are at the least: two a file that is written, one a file that is removed
LEAST = {"cold": 100, "edited": 40, "added": 40, "removed": 20, "swapped": 60, "unchanged": 1, "owners": 20}


def test_the_harness_sees_a_site_that_is_not_whole(tmp_path: Path) -> None:
    two_jobs(tmp_path)
    assert build(tmp_path).good
    site = tmp_path / "site"
    assert broken_links(site) == []
    (site / "jobs" / "red-van" / "splices.html").unlink()
    assert [trouble for trouble in broken_links(site) if trouble.endswith("leads to jobs/red-van/splices.html")]
    (site / "index.html").unlink()
    assert broken_links(site) == ["there is no start page"]

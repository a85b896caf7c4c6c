"""Whatever a shop calls its jobs and circuits, the site can lie on any disk and every page is reached."""

import os
import re
from pathlib import Path
from urllib.parse import unquote

import pytest

from aswired.site import run

LOADS = [
    "horn", "work lamp left", "Van", "VAN", "van", "van-2", "nul", "NUL", "con.x", "COM1", ".hidden", "..", "a.",
    "ж" * 60, "ж" * 59 + "з", "配" * 60, "🔧" * 60, "x" * 60, "ä", "Ä", "a\u0308", "A\u0308", "left/right?", "a*b",
]  # fmt: skip
RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10))}


def site_of(jobs: Path, name: str) -> Path:
    lines = [f'  "{load}": {{between: lamp.1 lamp.2, draws: 5 W at 13.2 V, class: lamp}}' for load in LOADS]
    (jobs / name).mkdir(parents=True)
    text = "\n".join(["job: Yard van", "loads:", *lines, "changes: [{id: C1, kind: cover, cover: tape}]\n"])
    (jobs / name / "job.yml").write_text(text, encoding="utf-8")
    site = jobs.parent / "site"
    assert run.build(run.order_for(jobs, site, "shop", ""), lambda done, total, name: None).good
    return site


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The pages of circuits of a job with such loads."""
    return site_of(tmp_path_factory.mktemp("shop") / "jobs", "van") / "jobs" / "van" / "circuits"


def test_every_circuit_has_a_page_of_its_own_under_a_name_that_every_disk_holds(pages: Path) -> None:
    names = sorted(path.name for path in pages.iterdir())
    assert len(names) == len(LOADS)
    assert len({name.casefold() for name in names}) == len(names)
    for name in names:
        assert re.fullmatch(r"[a-z0-9_-][a-z0-9_.-]{0,110}\.html", name)
        assert name.partition(".")[0] not in RESERVED


def test_the_sheet_of_circuits_leads_to_each_of_them(pages: Path) -> None:
    sheet = (pages.parent / "circuits.html").read_text(encoding="utf-8")
    links = {unquote(found) for found in re.findall(r'href="circuits/([^"#]+)', sheet)}
    assert links == {path.name for path in pages.iterdir()}


PLAIN = {"horn": "horn", "work lamp left": "work-lamp-left", "Van": "van", "x" * 60: "x" * 60}


@pytest.mark.parametrize(("load", "name"), PLAIN.items())
def test_plain_names_keep_their_address(load: str, name: str, pages: Path) -> None:
    title = (pages / f"{name}.html").read_text(encoding="utf-8").partition("</title>")[0].partition("<title>")[2]
    assert re.search(rf"\b{load}\b", title)


@pytest.mark.slow
@pytest.mark.parametrize("name", ["🔧" * 60, "ж" * 60, "Grüner Bus (2) #7 100 %"])
def test_a_job_of_any_letters_is_built_and_reached(name: str, tmp_path: Path) -> None:
    site = site_of(tmp_path / "jobs", name)
    listed = (site / "index.html").read_text(encoding="utf-8")
    targets = {unquote(found) for found in re.findall(r'href="([^"#]+)', listed)}
    assert f"jobs/{name}/index.html" in targets
    assert (site / "jobs" / name / "index.html").is_file()
    longest = max(len(os.fsencode(part)) for path in site.rglob("*") for part in path.parts)
    assert longest <= 240

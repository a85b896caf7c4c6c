"""What is written of a mark on a photograph is text wherever it is shown: on the picture, beside it, in the record."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from types import ModuleType

from aswired.photos.marks import overlay_svg
from aswired.sheets import photos as pictures
from aswired.sheets import record
from aswired.sheets.frame import PhotoFiles, ShopFacts, frame_of, mark_anchor
from aswired.sheets.templates import environment, render
from aswired.site.pictures import marks_of
from pages.handmade import TODAY, job, worked
from tests.crawl.tree import parse

THEME = Path(__file__).parents[2] / "site_theme"
NASTY = "<b>x</b>&\"'"
ESCAPED = "&lt;b&gt;x&lt;/b&gt;&amp;"  # then the two quotes, which may be written in more ways than one


def shown(module: ModuleType) -> str:
    """A page of the job whose first photograph has one mark that says something nasty, of something nasty."""
    base = job()
    first = base.photos[0]
    marked = replace(first, marks=(replace(first.marks[0], says=NASTY, of=NASTY), replace(first.marks[1], of=NASTY)))
    nasty = worked(replace(base, photos=(marked, *base.photos[1:])))
    links = {number: "#" + mark_anchor("P2", number) for number in (1, 2)}
    overlay = overlay_svg(marks_of(marked), 1200, 900, links)
    files = {"P2": PhotoFiles(1200, 900, ((1200, 900, "jobs/trail-truck/photos/P2.jpg"),), "", overlay)}
    (page,) = module.pages(frame_of(nasty, ShopFacts("shop", files, "3", TODAY, "Harness bench")))
    return render(environment(THEME), page)


def test_on_the_picture() -> None:
    html = shown(pictures)
    drawing = parse(html).first("svg", **{"aria-label": "Marks on the photograph"})
    assert [link.attributes["aria-label"] for link in drawing.all("a")] == [f"Mark 1: {NASTY}", f"Mark 2: {NASTY}"]
    assert [link.text for link in drawing.all("a")] == ["1", "2"]
    assert html.count(f'aria-label="Mark 1: {ESCAPED}') == 1


def test_in_the_list_beside_it_and_in_the_words_for_who_cannot_see_it() -> None:
    html = shown(pictures)
    page = parse(html)
    first, second = page.first("ol", class_="marks").all("li")
    assert (first.text.count(NASTY), second.text.count(NASTY)) == (2, 1)
    assert page.first("img", width="1200").attributes["alt"].count(NASTY) == 3
    assert "<b>x" not in html


def test_in_the_record() -> None:
    html = shown(record)
    assert "<b>x" not in html
    (caption,) = [one for one in parse(html).all("figcaption") if "First joint with rule" in one.text]
    assert caption.text.count(NASTY) == 3

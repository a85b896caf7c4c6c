"""The frame of every page: addresses, links, escaping, and what makes a page usable without a mouse or sight."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path
from urllib.parse import unquote, urldefrag, urljoin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aswired.photos.marks import DrawnMark, overlay_svg
from aswired.sheets import codes, find, jobs
from aswired.sheets.frame import (
    PageOut,
    PhotoFiles,
    ShopFacts,
    anchor,
    circuit_uris,
    frame_of,
    link,
    mark_anchor,
    places_of,
)
from aswired.sheets.pages import pages_of
from aswired.sheets.registry import SHEETS
from aswired.sheets.templates import css_string, environment, render
from aswired.sheets.text import amount, count, number
from aswired.site import manual
from pages.handmade import NASTY, TODAY, job, worked

THEME = Path(__file__).parents[2] / "site_theme"
OVERLAY = overlay_svg(
    [DrawnMark(1, "ring", (0.4, 0.3, 0.1), "first joint")], 1200, 900, {1: f"#{mark_anchor('P2', 1)}"}
)
PHOTOS = {
    "P2": PhotoFiles(1200, 900, ((1200, 900, "jobs/trail-truck/photos/P2.jpg"),), "", OVERLAY),
    "P9": PhotoFiles(0, 0, (), broken="The file is cut short."),
}


def shop(edition: str = "shop") -> ShopFacts:
    return ShopFacts(edition, PHOTOS, "3", TODAY, "Harness bench")


@dataclass
class Seen(HTMLParser):
    """What stands in a page."""

    tags: list[tuple[str, dict[str, str]]] = field(default_factory=list)
    text: str = ""

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, {name: value or "" for name, value in attrs}))

    def handle_data(self, data: str) -> None:
        self.text += data

    def all(self, *names: str) -> list[dict[str, str]]:
        return [attrs for tag, attrs in self.tags if tag in names]


def seen(html: str) -> Seen:
    parser = Seen()
    parser.feed(html)
    return parser


def every_page(of_shop: ShopFacts, nothing_made: bool = False) -> Iterator[PageOut]:
    made = worked(nothing_made=nothing_made)
    yield from pages_of(frame_of(made, of_shop))
    yield from jobs.pages([jobs.summarise(made)], of_shop)
    yield from find.pages(of_shop)
    yield from codes.pages(of_shop)
    yield from manual.pages(of_shop)


@pytest.fixture(scope="module")
def site() -> dict[str, Seen]:
    env = environment(THEME)
    found = {page.uri: seen(render(env, page)) for page in every_page(shop())}
    assert sum(uri.startswith("jobs/") for uri in found) >= 15  # each test of it walks over all of these
    return found


# ---- addresses ------------------------------------------------------------------------------------------------------
plain = st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Zs", "Cc")), min_size=1)


@given(plain, plain)
def test_two_ids_never_share_an_anchor(one: str, other: str) -> None:
    assert (anchor(one) == anchor(other)) == (one == other)


@given(plain)
def test_an_anchor_needs_no_quoting(id: str) -> None:
    assert re.fullmatch(r"[A-Za-z0-9._-]+", anchor(id))


segment = st.text(st.sampled_from("abAB01-_ é%#?"), min_size=1).filter(lambda text: text.strip("."))
address = st.lists(segment, min_size=1, max_size=4).map(lambda parts: "/".join(parts) + ".html")


@given(address, address)
def test_a_link_resolved_from_its_page_is_the_page_it_names(here: str, there: str) -> None:
    base = "file:///site/"
    from urllib.parse import quote

    resolved = urljoin(base + quote(here), link(here, there))
    assert unquote(resolved) == base + there


def test_circuits_whose_names_differ_only_in_case_get_pages_of_their_own() -> None:
    made = worked()
    siren = made.circuits["siren"]
    made = replace(made, circuits={"siren": siren, "Siren": siren, "SIREN": siren})
    uris = list(circuit_uris(made).values())
    assert len({uri.lower() for uri in uris}) == 3
    assert uris[0] == "jobs/trail-truck/circuits/siren.html"


def test_ids_lead_to_the_sheet_where_the_thing_is_shown() -> None:
    where = places_of(worked())
    assert where["C14"] == ("jobs/trail-truck/changes.html", "C14")
    assert where["C14-W31-loom"] == ("jobs/trail-truck/splices.html", "C14-W31-loom")
    assert where["L1"] == ("jobs/trail-truck/grounds.html", "L1")
    assert where["F7"] == ("jobs/trail-truck/fuses.html", "F7")
    assert where["worklamp-left.3"] == ("jobs/trail-truck/connectors.html", "worklamp-left")
    assert where["P2"] == ("jobs/trail-truck/photos.html", "P2")
    assert where["R3"] == ("jobs/trail-truck/readings.html", "R3")
    assert where["siren"] == ("jobs/trail-truck/circuits/siren.html", "")
    assert where["W31"] == ("jobs/trail-truck/circuits/work-lamp-left.html", "")
    assert where["W60"] == ("jobs/trail-truck/changes.html", "C30")
    assert "Z99" not in where


def test_a_row_keeps_its_id_against_the_splice_of_the_same_name() -> None:
    made = worked()
    joint = replace(made.joints[0], joint=replace(made.joints[0].joint, id="C21", row="C21"))
    assert places_of(replace(made, joints=(joint,)))["C21"] == ("jobs/trail-truck/changes.html", "C21")


# ---- the pages as they come out -------------------------------------------------------------------------------------
def test_every_link_leads_to_a_page_and_an_anchor_that_exist(site: dict[str, Seen]) -> None:
    files = {"assets/js/find-index.js"} | {f"jobs/trail-truck/photos/{name}" for name in ("P2.jpg",)}
    files |= {f"assets/{path.relative_to(THEME).as_posix()}" for path in THEME.rglob("*.[cj]s*")}
    ids = {uri: {attrs["id"] for _, attrs in page.tags if "id" in attrs} for uri, page in site.items()}
    checked = 0
    for uri, page in site.items():
        for _, attrs in page.tags:
            for name in ("href", "src", "action"):
                if name not in attrs:
                    continue
                target, fragment = urldefrag(urljoin(f"file:///{uri}", attrs[name]))
                to = unquote(target.removeprefix("file:///"))
                assert to in site or to in files, f"{uri}: {attrs[name]}"
                if fragment and to in site:
                    assert unquote(fragment) in ids[to], f"{uri}: {attrs[name]}"
                checked += 1
    assert checked > 300


def test_nothing_comes_from_another_host_and_no_address_is_absolute(site: dict[str, Seen]) -> None:
    for uri, page in site.items():
        for _, attrs in page.tags:
            for name in ("href", "src", "action", "srcset"):
                assert not re.match(r"\s*(//|/|[a-z]+:)", attrs.get(name, "")), (uri, attrs)


def test_ids_on_a_page_are_told_apart(site: dict[str, Seen]) -> None:
    for uri, page in site.items():
        ids = [attrs["id"] for _, attrs in page.tags if "id" in attrs]
        assert len(ids) == len(set(ids)), (uri, sorted(id for id in ids if ids.count(id) > 1))


def test_headings_begin_with_one_h1_and_skip_no_rank(site: dict[str, Seen]) -> None:
    for uri, page in site.items():
        ranks = [int(tag[1]) for tag, _ in page.tags if re.fullmatch(r"h[1-6]", tag)]
        assert ranks[0] == 1, uri
        assert ranks.count(1) == 1, uri
        assert all(later <= earlier + 1 for earlier, later in pairwise(ranks)), (uri, ranks)


def test_every_page_has_a_way_past_the_navigation_and_says_where_it_is(site: dict[str, Seen]) -> None:
    for uri, page in site.items():
        links = page.all("a")
        assert links[0]["class"] == "skip", uri
        assert links[0]["href"] == "#main", uri
        assert page.all("main") == [{"id": "main"}], uri
        if uri.startswith("jobs/"):
            assert [attrs for attrs in links if "aria-current" in attrs], uri
            navs = [attrs["aria-label"] for attrs in page.all("nav")]
            assert len(navs) == len(set(navs)), uri


def test_the_sheets_are_numbered_in_order_on_every_page_of_a_job(site: dict[str, Seen]) -> None:
    assert [sheet.number for sheet in SHEETS] == list(range(1, len(SHEETS) + 1))
    for uri, page in site.items():
        if uri.startswith("jobs/"):
            for sheet in SHEETS:
                assert f"{sheet.number} {sheet.title}" in page.text, (uri, sheet)


def test_tables_keep_their_roles_when_style_takes_their_display_away(site: dict[str, Seen]) -> None:
    wanted = {"table": {"table"}, "thead": {"rowgroup"}, "tbody": {"rowgroup"}, "tr": {"row"}, "td": {"cell"}}
    tables = 0
    for uri, page in site.items():
        if uri.startswith("manual/"):
            continue  # its tables are tables on a phone too, and scroll
        for tag, attrs in page.tags:
            if tag in wanted:
                assert attrs.get("role") in wanted[tag], (uri, tag, attrs)
                tables += tag == "table"
            if tag == "th":
                assert attrs.get("role") in {"columnheader", "rowheader"}, (uri, attrs)
                assert attrs.get("scope") in {"col", "row"}, (uri, attrs)
    assert tables > 8


def test_pictures_and_fields_have_words(site: dict[str, Seen]) -> None:
    for uri, page in site.items():
        for attrs in page.all("img"):
            assert "alt" in attrs, uri
            assert attrs["width"], uri
        named = {attrs["for"] for attrs in page.all("label")}
        for attrs in page.all("input"):
            assert attrs["id"] in named, (uri, attrs)
    picture = next(attrs for attrs in site["jobs/trail-truck/photos.html"].all("img"))
    assert picture["alt"].startswith("First joint with rule. Stage: bare joint. Marked: 1 C14-W31-plug, first joint")


def test_marks_and_list_lead_to_each_other(site: dict[str, Seen]) -> None:
    page = site["jobs/trail-truck/photos.html"]
    hrefs = [attrs.get("href") for attrs in page.all("a")]
    ids = [attrs.get("id") for _, attrs in page.tags]
    assert "#P2-m1" in hrefs
    assert "P2-m1" in ids
    assert hrefs.count("#P2") == 3  # jump list, and each of the two marks back to the picture


def test_every_page_of_a_job_says_which_moment_it_shows() -> None:
    env = environment(THEME)
    for nothing_made, words in ((False, "as of 12 Jun 2031"), (True, "plan: nothing is made yet")):
        for page in every_page(shop(), nothing_made):
            if page.uri.startswith("jobs/"):
                assert words in render(env, page), page.uri


def test_each_page_says_once_that_figures_are_aids(site: dict[str, Seen]) -> None:
    for uri, page in site.items():
        wanted = 2 if uri.endswith("record.html") else 1  # the record prints it, and the foot is not printed
        assert page.text.count("Computed figures are aids.") == wanted, uri


# ---- escaping -------------------------------------------------------------------------------------------------------
def test_text_of_a_job_cannot_become_markup() -> None:
    base = job()
    changes = tuple(
        replace(change, why=NASTY, note=NASTY, test=NASTY, where=NASTY, terminal=NASTY, shop_note=NASTY)
        for change in base.changes
    )
    nasty = replace(
        base,
        job=NASTY,
        vehicle=NASTY,
        donor=NASTY,
        revision=NASTY,
        left_and_right=NASTY,
        cautions=(NASTY,),
        changes=changes,
        photos=tuple(replace(photo, caption=NASTY, marks=()) for photo in base.photos),
        readings=tuple(replace(reading, with_=NASTY, by=NASTY) for reading in base.readings),
        plugs={name: replace(plug, note=NASTY, place=NASTY) for name, plug in base.plugs.items()},
        wires={name: replace(wire, circuit=NASTY) for name, wire in base.wires.items()},
    )
    made = worked(nasty)
    made = replace(
        made,
        findings=tuple(replace(finding, problem=NASTY, mend=NASTY) for finding in made.findings),
        not_examined=tuple(replace(item, what=NASTY) for item in made.not_examined),
    )
    env = environment(THEME)
    shown = 0
    pages = [*(page for page in pages_of(frame_of(made, shop())))]
    for page in [*pages, *jobs.pages([jobs.summarise(made)], shop())]:
        html = render(env, page)
        found = seen(html)
        assert "<script>alert" not in html, page.uri
        assert all("src" in attrs for attrs in found.all("script")), page.uri
        assert html.count("</style>") == len(found.all("style")), page.uri
        shown += found.text.count('alert("x")')
    assert shown > 40  # it is shown as text


@given(st.text())
def test_a_css_string_gives_back_the_text_and_holds_no_sign_that_could_end_it(text: str) -> None:
    written = str(css_string(text))[1:-1]
    assert re.fullmatch(r"[A-Za-z0-9 \\]*", written)
    assert re.sub(r"\\([0-9a-f]+) ", lambda match: chr(int(match[1], 16)), written) == text


# ---- editions -------------------------------------------------------------------------------------------------------
def test_the_owners_pages_leave_out_private_fields_and_unpublished_pictures() -> None:
    env = environment(THEME)
    by_edition = {
        edition: "".join(render(env, page) for page in every_page(shop(edition))) for edition in ("shop", "owner")
    }
    for private in ("customer wanted chrome bolt", "12 min", "plate in the frame", "shop, all fields"):
        assert private in by_edition["shop"]
        assert private not in by_edition["owner"]
    assert ">Jobs</a>" not in "".join(render(env, page) for page in pages_of(frame_of(worked(), shop("owner"))))


# ---- numbers --------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (0.2083333, "V", "0.21 V"),
        (1140.0, "mm", "1\u202f140 mm"),
        (4.3, "A", "4.3 A"),
        (0.014, "A", "14 mA"),
        (-0.5, "V", "−0.50 V"),
        (0.0038, "V", "3.8 mV"),
        (-0.00001, "V", "0.0 mV"),
        (0.0, "V", "0.00 V"),
        (0.01, "V", "0.01 V"),
        (41.94, "mohm", "41.9 mΩ"),
        (None, "V", "not recorded"),
    ],
)
def test_a_number_is_printed_with_the_digits_of_its_unit(value: float | None, unit: str, text: str) -> None:
    assert amount(value, unit) == text


def test_lengths_are_printed_in_the_jobs_unit_with_millimetres_behind() -> None:
    assert amount(457.2, "mm", "inch") == "18 in (457\u00a0mm)"
    assert number(12345.0, "mm") == "12\u202f345"


def test_none_of_a_thing_is_said_in_words() -> None:
    assert [count(n, "splice") for n in (0, 1, 2)] == ["no splices", "1 splice", "2 splices"]


def test_a_summary_survives_json_and_jobs_stand_newest_first() -> None:
    import json

    one = jobs.summarise(worked())
    assert jobs.from_json(json.loads(json.dumps(jobs.to_json(one)))) == one
    assert one.last_day_iso == datetime.date(2031, 5, 9).isoformat()
    older, never = replace(one, slug="a", last_day_iso="2030-01-01"), replace(one, slug="b", last_day_iso="")
    assert [item.slug for item in jobs.newest_first([never, older, one])] == ["trail-truck", "a", "b"]


def test_jobs_of_one_donor_stand_together_and_an_unwritten_donor_last() -> None:
    one = jobs.summarise(worked())
    all_ = [replace(one, slug="x", donor=""), one, replace(one, slug="y", donor="2000s  Estate car")]
    groups = jobs.donors(all_)
    assert [(group.name, len(group.jobs)) for group in groups] == [("2000s estate car", 2), ("not recorded", 1)]

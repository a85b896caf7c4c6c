"""The owner's edition: private fields are gone, and a private value anywhere in an output is found."""

from dataclasses import replace
from pathlib import Path

import pytest

from aswired import record as model
from aswired.files import read_job
from aswired.private import editions
from aswired.private import outgoing as private_values
from aswired.text.schema import keys_of

JOB = """\
job: Flatbed
private: {customer: Quentin Abernathy, plate: XQ 7, price: twelve hundred, phone: 5550123}
changes:
  - {id: C1, kind: cap, wire: W1, was: "GN 18 AWG, F1 to lamp.1", end: F1, why: no lamp, photos: [P1, P2],
     shop note: smelled burnt, minutes: 12}
photos:
  - {id: P1, file: photos/1.jpg}
  - {id: P2, file: photos/2.jpg, publish: no}
"""


@pytest.fixture
def job(tmp_path: Path) -> model.Job:
    folder = tmp_path / "flatbed"
    folder.mkdir()
    (folder / "job.yml").write_text(JOB)
    (folder / "notes.md").write_text("call Quentin before noon")
    got = read_job(folder)
    assert got.job is not None, got.faults
    return got.job


def test_every_private_field_is_gone_and_every_public_one_stays(job: model.Job) -> None:
    bare = editions.for_edition(job, "owner")
    assert bare.private == {}
    assert (bare.changes[0].shop_note, bare.changes[0].minutes) == ("", None)
    public = [name for name, key in keys_of(model.Change).values() if not key.private and name != "photos"]
    assert len(public) >= 50
    for name in public:
        assert getattr(bare.changes[0], name) == getattr(job.changes[0], name), name
    assert job.changes[0].shop_note == "smelled burnt"  # the shop's own is untouched


def test_nothing_private_is_left_in_any_corner_of_the_record(job: model.Job) -> None:
    # repr leaves out the places of lines and the files on purpose, so they are walked by hand
    bare = editions.without_private(job)
    places = [bare.at, *bare.lines.values(), bare.changes[0].at, *bare.changes[0].lines.values()]
    corners = repr(bare) + " ".join(place.text for place in places)
    corners += "".join(text.decode() for text in bare.texts.values())
    for word in ("Abernathy", "twelve", "burnt", "noon", "XQ"):
        assert word not in corners
    assert "shop note" not in bare.changes[0].lines


def test_an_unpublished_photograph_is_left_out_with_every_mention(job: model.Job) -> None:
    bare = editions.without_private(job)
    assert [photo.id for photo in bare.photos] == ["P1"]
    assert bare.changes[0].photos == ("P1",)


def test_the_shop_has_the_job_as_it_is(job: model.Job) -> None:
    assert editions.for_edition(job, "shop") is job


def test_forbidden_words_are_words_and_numbers_that_no_text_holds_by_chance(job: model.Job) -> None:
    assert private_values.forbidden_words(job) == {
        "customer": "Quentin Abernathy", "price": "twelve hundred", "phone": "5550123",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("value", "looked_for"),
    [
        ("XQ 7", False),
        ("AB-CD 123", True),  # two times two letters
        ("XQ 71 KTB", True),
        ("X 12345", True),
        ("555 01 23", True),
        ("+00 (555) 0123-44", True),
        ("1200", False),
        ("12 500", False),
        ("1200.50", False),
        ("12,500.00 EUR", False),
        ("AK", False),
    ],
)
def test_a_plate_or_telephone_number_is_looked_for_and_a_price_is_not(
    job: model.Job, value: str, looked_for: bool
) -> None:
    words = private_values.forbidden_words(replace(job, private={"it": value}))
    assert words == ({"it": value} if looked_for else {})


@pytest.mark.parametrize(
    ("value", "why"),
    [
        ("XQ 7", "it is so short that it may stand in any text by chance"),
        ("AK", "it is so short that it may stand in any text by chance"),
        ("12,500.00 EUR", "it is an amount, which may stand in any text by chance"),
        ("Brown", "it is a colour, and pages of wires are full of colours"),
        ("GN/WH", "it is a colour, and pages of wires are full of colours"),
        ("green and white", "it is a colour, and pages of wires are full of colours"),
        ("Mr Brown", ""),
        ("Quentin Abernathy", ""),
        ("XQ 71 KTB", ""),
    ],
)
def test_a_value_that_is_not_looked_for_is_told_with_its_reason(job: model.Job, value: str, why: str) -> None:
    job = replace(job, private={"it": value})
    assert ("it" in private_values.forbidden_words(job)) == (not why)
    told = private_values.not_sought(job)
    assert told == (
        (
            f"warning flatbed/job.yml:2 (it)\n  '{value}' is not looked for in the owner's edition: {why}\n"
            "  mend: Look through the pages for it before they go out",
        )
        if why
        else ()
    )


@pytest.mark.parametrize("text", ["plate xq 71 ktb", "plate XQ-71-KTB", "plate XQ71KTB", "<b>XQ</b> 71&nbsp;KTB"])
def test_a_plate_is_found_with_other_signs_between_its_parts(text: str) -> None:
    assert private_values.leaks({"plate": "XQ 71 KTB"}, "a.html", text.encode())
    assert not private_values.leaks({"plate": "XQ 71 KTB"}, "a.html", text.replace("71", "72").encode())


@pytest.mark.parametrize(
    ("file", "content", "line"),
    [
        ("a.html", "<p>\nfor Quentin Abernathy</p>", 2),
        ("a.html", "<p>for QUENTIN\n   abernathy", 1),
        ("a.html", "<b>Quentin</b>&nbsp;<i>Abernathy</i>", 1),
        ("a.html", "Quentin&#32;&#65;bernathy", 1),
        ("a.js", '\n\n{"a":"\\u0051uentin Abernathy"}', 3),
        ("a.html", "quentinabernathy", 1),
        ("jobs/quentin-abernathy/index.html", "", 0),
        ("jobs/x/photos/P1-Quentin_Abernathy.jpg", "", 0),
    ],
)
def test_a_private_value_is_found_in_any_dress(file: str, content: str, line: int) -> None:
    found = private_values.leaks({"customer": "Quentin  Abernathy"}, file, content.encode())
    assert [(leak.label, leak.file, leak.line) for leak in found] == [("customer", file, line)]


@pytest.mark.parametrize("content", ["Quentin and Abernathy", "", "<p>Quentin</p><p>B. Abernathy"])
def test_other_words_are_let_through(content: str) -> None:
    assert not private_values.leaks({"customer": "Quentin Abernathy"}, "a.html", content.encode())


def test_special_signs_in_a_value_are_compared_as_html_writes_them() -> None:
    assert private_values.leaks({"customer": "Abernathy & <Sons>"}, "a.html", b"Abernathy &amp; &lt;Sons&gt;")

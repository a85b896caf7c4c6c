"""The search index: one entry a row or thing, its words as they are written at the bench, ready to be a script.

It is read by `js/find.js` through a plain <script>, which works from a USB stick. A word is kept whole, with its
dashes, points and slashes (`GN/WH`, `C14-W31-plug`, `siren-plug.1`); a number is joined to its unit (`18awg`). The
script folds what is typed in the same way.

A word is indexed only where the page that it leads to shows it: what no page says cannot go out with the index, and
nobody is led to a page that lacks what was asked for. Names of colours and words that mean the same are no words of a
job: they are the script's own tables.
"""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from html import unescape

from markupsafe import escape as markup_escape

from aswired.checks.codes import all_codes
from aswired.figures.worked import JobResult
from aswired.record import Change
from aswired.sheets.frame import anchor, places_of, sheet_uri
from aswired.sheets.registry import CODES, SHEETS
from aswired.sheets.text import date
from aswired.text.colours import WORDS, Colour
from aswired.text.one_line import Condition, Done, Ring
from aswired.text.schema import keys_of
from aswired.text.units import Size
from aswired.text.unsaid import NOT_RECORDED

# Words of the trade that mean one thing; whoever types one finds the others. Both sides of the water.
SAME = (
    ("ground", "earth"),
    ("harness", "loom"),
    ("lamp", "light", "bulb"),
    ("stripe", "tracer"),
    ("splice", "join", "joint"),
    ("tap", "tee"),
    ("cap", "insulate", "blank"),
    ("connector", "plug", "housing"),
    ("cavity", "way", "pin"),
    ("ring", "eyelet"),
    ("stud", "lug"),
    ("feed", "supply", "live", "hot"),
    ("load", "consumer"),
    ("branch", "breakout", "takeout"),
    ("bulkhead", "firewall"),
    ("isolator", "kill"),
    ("bridge", "jumper", "bypass"),
    ("indicator", "turn"),
    ("shield", "screen"),
    ("sleeve", "heat-shrink", "heatshrink"),
    ("wing", "fender"),
    ("bonnet", "hood"),
    ("windscreen", "windshield"),
    ("petrol", "gasoline"),
    ("grey", "gray"),
    ("violet", "purple"),
    ("reading", "measurement"),
    ("circuit", "path"),
)

_UNIT = re.compile(r"(?<![\w.])(\d[\d./]*)\s+(awg|mm2|mm|cm|m|in|ft|a|ma|v|mv|w|ohm|mohm)(?![\w])")
_EDGE = "\"'`.,:;!?()[]{}<>=*–—·|"


@dataclass(frozen=True)
class Entry:
    """One thing that can be found: its id, a line that says what it is, where it is shown, and its words."""

    id: str
    title: str
    uri: str  # page, from the site's root
    anchor: str
    text: str


def words_of(text: str) -> list[str]:
    """The words of a text as they are indexed.

    >>> words_of("BU 18 AWG from O3, (C14-W31-plug) 1.5 mm²")
    ['bu', '18awg', 'from', 'o3', 'c14-w31-plug', '1.5mm2']
    """
    folded = _UNIT.sub(r"\1\2", text.casefold().replace("²", "2").replace("ω", "ohm"))
    return [word for part in re.split(r"[\s,;()]+", folded) if (word := part.strip(_EDGE))]


def fragment(
    title: str, entries: Sequence[Entry], pages: Mapping[str, bytes], names: Mapping[str, str] | None = None
) -> str:
    """A job's part of the index as JSON: pages, rows, sorted words, and for each word its rows (as steps).

    Args:
        pages: address -> the finished page, of every page that an entry leads to.
        names: address -> what a hit calls that page, where it is no sheet of a job.
    """
    numbers: dict[str, int] = {}
    rows: list[tuple[int, str, str, str]] = []
    posts: dict[str, list[int]] = {}
    anchors: dict[str, set[str]] = {}
    for entry in entries:
        anchors.setdefault(entry.uri, set()).add(entry.anchor)
    shown = {uri: _Page(pages[uri], wanted) for uri, wanted in anchors.items()}
    for number, entry in enumerate(entries):
        rows.append((numbers.setdefault(entry.uri, len(numbers)), entry.anchor, entry.id, entry.title))
        page = shown[entry.uri]
        _, _, said = entry.title.partition(" ")  # its first word, what sort of thing it is, the script reads off it
        for word in dict.fromkeys(words_of(f"{entry.id} {said} {entry.text}")):
            if page.shows(word, entry.anchor):
                posts.setdefault(word, []).append(number)
    words = sorted(posts)
    steps = [[now - before for before, now in zip([0, *posts[w]], posts[w], strict=False)] for w in words]
    told = {
        "job": title,
        "pages": [[uri, names[uri] if names else _page_name(uri)] for uri in numbers],
        "rows": rows,
        "words": " ".join(words),
        "hits": steps,
    }
    return json.dumps(told, ensure_ascii=False, separators=(",", ":"))


class _Page:
    """A finished page, asked for words.

    Folding and splitting all of its text would take ten times as long as all the rest of the index, so a word is looked
    for in the page as it is, from the row's own place on, and what stands around it there is held to `words_of`.
    """

    def __init__(self, content: bytes, anchors: Collection[str]) -> None:
        self.content = content
        self.lower = content.lower()
        self.known: dict[str, bool] = {}
        places = [(at[1].decode(), at.start()) for at in _ID.finditer(content)] if any(anchors) else []
        places = [(anchor, start) for anchor, start in places if anchor in anchors]
        ends = [*(start for _, start in places[1:]), len(content)]
        self.rows = {anchor: (start, end) for (anchor, start), end in zip(places, ends, strict=False)}

    def shows(self, word: str, anchor: str) -> bool:
        """Whether the word stands on the page, for a reader; looked for in the row at the anchor first."""
        if word not in self.known:
            plain = word.isascii() and ("ss" not in word or "ß".encode() not in self.lower)
            self.known[word] = (
                (anchor in self.rows and self._stands(word, *self.rows[anchor]))
                or self._stands(word, 0, len(self.lower))
                or (not plain and word in self._words())
            )
        return self.known[word]

    def _stands(self, word: str, start: int, end: int) -> bool:
        lower = self.lower
        for form in _forms(word):
            at = lower.find(form, start, end)
            while at >= 0:
                behind = at + len(form)
                if lower[at - 1] == _TAG_ENDS and lower[behind] == _TAG_BEGINS:  # a tag's whole text
                    return True
                around = _AFTER.match(lower, behind) and _BEFORE.search(lower[max(0, at - 16) : at])
                if around and lower.rfind(b"<", 0, at) < lower.rfind(b">", 0, at):  # not inside a tag
                    return True
                at = lower.find(form, at + 1, end)
        return False

    def _words(self) -> Collection[str]:
        """Every word of the page, for a word whose letters folding makes of others."""
        return words_of(page_text(self.content.decode()))


def page_text(page: str) -> str:
    """What stands on a page, its tags as blanks."""
    return unescape(re.sub(r"<[^<>]*>", " ", re.sub(r"(?s)<(style|script)\b.*?</\1>", " ", page)))


# The edge of a word in a page's bytes: signs that `words_of` takes off, then what it parts words by, or a tag.
_SIGNS = rb"(?:[\"'`.,:;!?()\[\]{}=*|]|&#3[49];|&[lg]t;|\xe2\x80[\x93\x94]|\xc2\xb7)*"
_BLANK = rb"[\s,;()]|\xc2\xa0|\xe2\x80[\x80-\x8a\xaf]"
_BEFORE = re.compile(rb"(?<!&amp;)(?:" + _BLANK + rb"|>)" + _SIGNS + rb"\Z")
_AFTER = re.compile(_SIGNS + rb"(?:" + _BLANK + rb"|<)")
_TAG_BEGINS, _TAG_ENDS = b"<>"
_ID = re.compile(rb' id="([^"]*)"')
_MEASURE = re.compile(r"(\d[\d./]*)([a-z]+2?)")


@lru_cache(maxsize=16384)
def _forms(word: str) -> tuple[bytes, ...]:
    """The word as a page may write it: escaped, a number apart from its unit, the signs ² and Ω."""
    forms = [word]
    measure = _MEASURE.fullmatch(word)
    if measure and _UNIT.fullmatch(f"{measure[1]} {measure[2]}"):  # the likeliest first
        forms = [f"{measure[1]}{blank}{measure[2]}" for blank in (" ", "\u00a0", "\u202f", "")]
    forms = [form.replace("mm2", "mm²") for form in forms if "mm2" in form] + forms
    forms += [form.replace("ohm", "Ω") for form in forms if "ohm" in form]
    written = [str(markup_escape(form)) for form in forms]
    quoted = [form.replace("&#39;", "'").replace("&#34;", '"') for form in written]  # as the notes are written
    return tuple(form.encode() for form in dict.fromkeys(written + quoted))


def script(fragments: Iterable[str]) -> str:
    """The index of a whole site as a script; `</` is broken up so that it may stand in any page."""
    colours = {word: code.casefold() for code, word in WORDS.items()}
    head = json.dumps({"same": SAME, "colours": colours}, separators=(",", ":"))
    return (f'window.FIND={head[:-1]},"jobs":[' + ",\n".join(fragments) + "]};\n").replace("</", "<\\/")


def _page_name(uri: str) -> str:
    """The sheet's title for an address within a job."""
    _, _, file = uri.split("/", 2)
    own = file.split("/")[0].removesuffix(".html") + ".html"  # a circuit's page is one of the sheet of circuits
    return next((sheet.title for sheet in SHEETS if sheet.file == own), file)


def entries_of(worked: JobResult, notes: str = "") -> tuple[Entry, ...]:
    """Everything of one job that can be found, rows of the change list first; a thing shown nowhere is left out.

    Args:
        notes: the job's notes as their page shows them, without Markdown's signs.
    """
    places = places_of(worked)
    overview = (sheet_uri(worked.job.slug, "overview"), "")
    found = []
    for id, title, at, text in _things(worked, notes):
        where = at if isinstance(at, tuple) else places.get(at) or (overview if at == "" else None)
        if where is not None:
            found.append(Entry(id, title, where[0], where[1], " ".join(text.split())))
    return tuple(found)


def code_entries() -> tuple[Entry, ...]:
    """What each code means, on the one page of the shop that says so."""
    return tuple(
        Entry(c.code, c.says, CODES.uri, c.code, f"{', '.join(c.ranks)} {c.means} {c.why}") for c in all_codes()
    )


# id, title, place: page and anchor, or the id whose place it is ('' = the overview); words
Thing = tuple[str, str, str | tuple[str, str], str]


def _things(worked: JobResult, notes: str) -> Iterator[Thing]:
    job = worked.job
    header = (job.vehicle, job.donor, *(f"{name} {option.is_}" for name, option in job.options.items()), *job.cautions)
    yield "", job.job, "", _join(*header, notes)
    yield from _rows(worked)
    yield from _made(worked)
    yield from _car(worked)
    for photo in job.photos:
        said = (mark.says for mark in photo.marks)
        yield photo.id, f"photograph, {photo.stage}", photo.id, _join(photo.caption, *photo.shows, *said)
    for reading in job.readings:
        text = _join(reading.of, reading.red, reading.black, reading.with_, reading.read.text if reading.read else "")
        yield reading.id, f"reading {reading.of}", reading.id, text
    for visit in job.service:
        told = _join(visit.complaint, *visit.measured, visit.found, visit.note, *visit.rows, *visit.readings)
        yield visit.id, _join("visit", date(visit.on.date) if visit.on and visit.on.date else ""), visit.id, told
    for finding in worked.findings:
        title = f"{finding.severity.word} {finding.code}"
        yield finding.code, _join(title, finding.entry), finding.entry, finding.problem


def _rows(worked: JobResult) -> Iterator[Thing]:
    """The change list: everything a row says that is not a bare length."""
    job = worked.job
    for row in job.changes:
        pieces = [piece for wire in row.wire_names or ("",) if (piece := row.piece_of(wire))]
        wires = [worked.plan.wires[name] for name in row.wire_names if name in worked.plan.wires]
        colours = [_colour(piece.colour) for piece in pieces] + [_colour(wire.colour) for wire in wires]
        sizes = [_size(piece.size) for piece in pieces] + [_size(wire.size) for wire in wires]
        done = [_step(step) for step in (row.made, row.sealed, row.tested, *row.set_aside.values()) if step]
        moved = (
            f"{plug}.{cavity}"
            for old, new in row.cavities.items()
            for plug, cavity in ((row.plug, old), (row.new_plug, new))
        )
        offcuts = (piece.offcut for piece in pieces)
        written = (text for attribute, _ in keys_of(Change).values() for text in _texts(getattr(row, attribute)))
        text = _join(worked.state_of(row), *written, *moved, *offcuts, *colours, *sizes, *done)
        title = _join(row.kind, *row.wire_names, row.plug or row.to or row.fuse or row.relay or row.interlock)
        yield row.id, title, row.id, text
        for number in row.batch:
            yield number, _join("batch,", title), row.id, row.id


def _texts(value: object) -> Iterator[str]:
    """The names and words of a value; a ring or a condition as it is written. Lengths are nothing to look for."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Ring | Condition):
        yield value.text
    elif isinstance(value, Mapping):
        yield from (*value, *(text for inner in value.values() for text in _texts(inner)))
    elif isinstance(value, tuple):
        yield from (text for inner in value for text in _texts(inner))


def _step(step: Done) -> str:
    """Day and initials as the pages write them."""
    day = step.day_as_written if step.doubt is not None else date(step.date) if step.date else ""
    return _join(day, step.by)


def _made(worked: JobResult) -> Iterator[Thing]:
    """What the rows made: joints and pieces."""
    for placed in worked.joints:
        joint = placed.joint
        ends = [_join(s.wire, _colour(s.colour), _size(s.size)) for s in placed.arrives]
        method = joint.method.text if joint.method else ""
        text = _join(joint.row, worked.state_at(placed), placed.place or NOT_RECORDED, method, *placed.zone, *ends)
        # a row that made one joint is called as the joint is, so the id alone would lead to the row
        where = (sheet_uri(worked.job.slug, "splices"), anchor(joint.id))
        yield joint.id, _join("splice", *joint.wires), where, text
    for piece in worked.pieces:
        text = _join(piece.row, piece.wire, _colour(piece.colour), _size(piece.size), piece.offcut)
        yield piece.id, _join("piece", piece.wire, piece.colour.code, piece.size.text), piece.id, text
    for name, offcut in worked.plan.offcuts.items():
        cuts = [piece for piece, _ in offcut.cuts]
        at = cuts[0] if cuts else offcut.source
        if at:
            yield name, "offcut", at, _join(_colour(offcut.colour), _size(offcut.size), offcut.source, *cuts)


def _car(worked: JobResult) -> Iterator[Thing]:
    """What is in the car: wires, circuits, fuses, sources, grounds, connectors, modules, factory splices."""
    job = worked.job
    for name, circuit in worked.circuits.items():
        load = worked.loads[name]
        stretches = (*circuit.feed.stretches, *circuit.back.stretches)
        colours = dict.fromkeys(_join(_colour(stretch.colour), stretch.wire) for stretch in stretches)
        ends = load.between or ()
        yield name, f"circuit, {load.verdict}", name, _join(*circuit.fuses, circuit.ground, *ends, *colours)
    for name, wire in worked.plan.wires.items():
        declared = job.wires.get(name)
        said: tuple[str, ...] = (declared.circuit, declared.via) if declared else ()
        said = (*said, job.loom_of(name))
        title = _join("wire", wire.colour.code, wire.size.text)
        yield name, title, name, _join(_colour(wire.colour), _size(wire.size), *wire.donor_ends, *wire.rows, *said)
    for fuse in worked.fuses:
        declared_fuse = fuse.fuse
        said = (
            (declared_fuse.feeds, declared_fuse.in_, declared_fuse.fed, declared_fuse.fed_from) if declared_fuse else ()
        )
        rating = declared_fuse.rating.text if declared_fuse and declared_fuse.rating else ""
        yield fuse.name, _join("fuse", rating), fuse.name, _join(*said, *fuse.loads)
    for name, source in job.sources.items():
        yield name, "source of current", name, _join(source.plus, source.minus)
    for ground in worked.grounds:
        point = ground.point
        where = (point.what, point.place, point.stud, point.bolted_to) if point else ()
        yield ground.name, f"ground point, {ground.state}", ground.name, _join(*where, *ground.lands, *ground.loads)
    for name, plug in job.plugs.items():
        ways = f"connector, {plug.ways} ways" if plug.ways else "connector"
        yield name, ways, name, _join(plug.place, plug.note, plug.behind, "in line" if plug.in_line else "")
    for name, module in job.modules.items():
        yield name, "module", name, _join(module.place, *module.out.values())
    for name, splice in job.splices.items():
        yield name, "factory splice", name, _join(splice.place, splice.note)


def _join(*parts: str) -> str:
    return " ".join(part for part in parts if part)


def _colour(colour: Colour) -> str:
    return colour.code if colour.known else ""


def _size(size: Size) -> str:
    return size.text if size.known else ""

"""Private values in every spelling: none goes out of the owner's edition unseen, and what only resembles one does."""

from __future__ import annotations

import html
import json
import random
from collections.abc import Iterator

import pytest
from tests.site import spellings
from tests.site.spellings import NAMES, PLACES, PLATES, PRIVATE_NAMES, TAGGED, TAGGED_PLATES, Place, planted

from aswired.private import outgoing as private_values

pytestmark = pytest.mark.slow  # hundreds of spellings

RAW = PLACES["text without escapes"]


def unseen(private: str, place: Place, text: str) -> str:
    """What is wrong with the finding of a value; '' when it is refused at its very place."""
    file, content = planted(place, text)
    found = [(leak.label, leak.file, leak.line) for leak in private_values.leaks({"it": private}, file, content)]
    return "" if ("it", file, place.line) in found else f"{private!r} as {text!r} in {file}: {found}"


def test_a_name_is_found_in_every_spelling_at_every_place_in_both_directions() -> None:
    """A name of three words, one of two, one whose letters are few: written privately in ten ways."""
    for words in (["quillhollow", "lookout", "crew"], ["ebbra", "voskstrand"]):
        privates = [NAMES[way](words) for way in PRIVATE_NAMES]
        missed = [
            told
            for private in privates
            for write in NAMES.values()
            for place in PLACES.values()
            if (told := unseen(private, place, write(words)))
        ]
        missed += [told for p in privates for write in TAGGED.values() if (told := unseen(p, RAW, write(words)))]
        assert not missed, (len(missed), missed[:12])


def test_there_are_spellings_enough() -> None:
    assert len(NAMES) + len(TAGGED) + len(PLATES) + len(TAGGED_PLATES) >= 60
    assert len(spellings.BRITISH) + len(spellings.AMERICAN) >= 20


def secrets() -> Iterator[tuple[str, Place, str]]:
    """Private value, place and public text, each spelling and place in its turn."""
    places, tagged = list(PLACES.values()), list(TAGGED.values())
    for at, words in enumerate(spellings.people(300)):
        private = NAMES[PRIVATE_NAMES[at % len(PRIVATE_NAMES)]](words)
        yield private, places[at % len(places)], list(NAMES.values())[at % len(NAMES)](words)
        yield private, RAW, tagged[at % len(tagged)](words)
    ways = list(PLATES.values())
    for at, parts in enumerate(spellings.plates(150)):
        private = ways[at % 6](parts)
        yield private, places[at % len(places)], ways[at // 6 % len(ways)](parts)
        yield private, RAW, list(TAGGED_PLATES.values())[at % len(TAGGED_PLATES)](parts)
    for at, (forms, area, rest) in enumerate(spellings.calls(150)):
        written = [form(area, rest) for form in forms.values()]
        yield written[at % len(written)], places[at % len(places)], written[(at // 3) % len(written)]


def test_of_a_thousand_secrets_none_goes_out() -> None:
    planted_ones = list(secrets())
    assert len({private for private, _, _ in planted_ones}) >= 500
    missed = [told for private, place, text in planted_ones if (told := unseen(private, place, text))]
    assert not missed, (len(missed), missed[:12])


@pytest.mark.parametrize("parts", [["QX", "123", "ZJ"], ["M", "QX", "1234"], ["KV21", "XZQ"]], ids=" ".join)
def test_a_plate_is_found_however_it_is_parted(parts: list[str]) -> None:
    ways = PLATES if len(parts) == 3 else {name: PLATES[name] for name in ("one word", "blanks", "hyphens", "lower")}
    texts = [write(parts) for write in ways.values()]
    missed = [
        told
        for private in texts[:4]
        for text in texts
        for place in PLACES.values()
        if (told := unseen(private, place, text))
    ]
    if len(parts) == 3:
        missed += [
            told for p in texts[:4] for write in TAGGED_PLATES.values() if (told := unseen(p, RAW, write(parts)))
        ]
    assert not missed, (len(missed), missed[:12])


@pytest.mark.parametrize(
    ("forms", "area", "rest"),
    [
        (spellings.BRITISH, "20", "79460123"),
        (spellings.BRITISH, "1632", "960123"),
        (spellings.AMERICAN, "202", "5550143"),
    ],
)
def test_a_telephone_number_is_found_in_national_and_international_form(forms, area: str, rest: str) -> None:  # type: ignore[no-untyped-def]
    texts = [form(area, rest) for form in forms.values()]
    missed = [
        told for p in texts for text in texts for place in PLACES.values() if (told := unseen(p, place, text))
    ]  # fmt: skip
    assert not missed, (len(missed), missed[:12])


@pytest.mark.parametrize(
    ("privates", "others"),
    [
        (
            ["O'Voskra", "O’Voskra", "OVoskra", "O Voskra", "O`Voskra", "o-voskra"],
            ["Oʼvoskra", "ovoskra", "O_27_Voskra", "O&#39;Voskra", "O&rsquo;Voskra", "O%27Voskra", "O\u2019VOSKRA"],
        ),
        (
            ["Zoë Vöskgall", "Zoe\u0308 Vo\u0308skgall", "ZOË VÖSKGALL"],
            ["Zoe Voskgall", "zoe-voskgall", "Zoe Voeskgall", "Zo&euml; V&#246;skgall", "Zo%C3%AB-V%C3%B6skgall"],
        ),
        (["Müftrow", "Mueftrow"], ["Muftrow", "M&uuml;ftrow", "M%C3%BCftrow", "M_fc_ftrow", r"m\u00fcftrow"]),
        (["Voskstraße", "Voskstrasse", "VOSKSTRASSE"], ["VOSKSTRAẞE", "Vosk&shy;stra&szlig;e"]),
        (
            ["Vosk & Ebbra", "Vosk and Ebbra", "Vosk + Ebbra", "VoskAndEbbra"],
            ["Vosk &amp; Ebbra", "vosk-ebbra", "vosk_and_ebbra"],
        ),
        (
            ["ebbra@quillhollow.example", "Ebbra@Quillhollow.example"],
            ["mailto:ebbra@quillhollow.example?x", "ebbra%40quillhollow.example"],
        ),
        (
            ["Voska", "VOSKA"],
            ["vo\u00adska", "Vo\u200bska", "Vo&shy;ska", "Vo&#8203;ska", "V%6Fska", "Voska’s", "Voska2"],
        ),
        (["12 Tolmgenth Lane", "12, Tolmgenth lane"], ["12-tolmgenth-lane", "12&nbsp;TOLMGENTH<br>LANE"]),
        (["Tolmgenth III", "tolmgenth iii"], ["Tolmgenth Ⅲ", "TolmgenthIII"]),
    ],
    ids=lambda texts: texts[0],
)
def test_one_writing_is_the_other(privates: list[str], others: list[str]) -> None:
    """Each private writing against all of them, as text and as an attribute."""
    for private in privates:
        for text in privates + others:
            page = f'<p>\n{text}</p><i id="{text}"></i>'
            for content in (page, page.partition("</p>")[0], "\n" + page.partition("</p>")[2]):
                found = private_values.leaks({"it": private}, "a.html", content.encode())
                if "<br>" not in text or content != "\n" + page.partition("</p>")[2]:
                    assert [leak.line for leak in found] == [2], (private, text, content)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("Ebbra Voskstrand, 020 7946 0123", "ask Ebbra Voskstrand"),
        ("Ebbra Voskstrand, 020 7946 0123", "call +44 20 7946 0123"),
        ("Ebbra Voskstrand; 12 Tolmgenth Lane", "12 Tolmgenth Lane"),
        ("phone 020 7946 0123 after six", "02079460123"),
        ("020 7946 0123 ext. 7", "020 7946 0123"),
        # a name beside other words
        ("Mr Quentin Abernathy", "Quentin Abernathy"),
        ("Mrs. Ebbra Voskstrand", "Voskstrand, Ebbra"),
        ("Dr Ebbra Voskstrand", "ebbra-voskstrand"),
        ("Voskstrand Timber Ltd", "Voskstrand Timber"),
        ("Ebbra Voskstrand & Sons", "Ebbra Voskstrand"),
        ("The Voskstrand Works", "Voskstrand Works"),
        ("Ebbra Voskstrand (neighbour)", "Ebbra Voskstrand"),
        ("Ebbra Voskstrand / Tolmgenth Timber", "Tolmgenth Timber"),
        ("Ebbra Voskstrand - evenings", "Ebbra Voskstrand"),
        ("Ebbra Voskstrand 01632 960123", "Ebbra Voskstrand"),
        ("contact: Ebbra Voskstrand", "Ebbra Voskstrand"),
        ("ebbra voskstrand, 12 tolmgenth lane", "12 Tolmgenth Lane"),
        # an address of post or mail, a plate, one of several numbers
        ("Ebbra Voskstrand <e.v@quill.example>", "e.v@quill.example"),
        ("e.v@quill.example, 01632 960123", "e.v@quill.example"),
        ("12 Tolmgenth Lane, Quillburgh QX1 2ZJ", "QX1 2ZJ"),
        ("plate KV21 XZQ", "kv21-xzq"),
        ("KV21 XZQ (blue)", "KV21XZQ"),
        ("KV21 XZQ, before QX 123 ZJ", "QX 123 ZJ"),
        ("VIN 1QXZZ99ZXTS392124", "1QXZZ99ZXTS392124"),
        ("01632 960123/01632 960124", "01632 960124"),
        ("01632 960123 / 960124", "+44 1632 960123"),
    ],
)
def test_names_and_numbers_in_a_list_are_found_apart(value: str, text: str) -> None:
    assert private_values.leaks({"contact": value}, "a.html", f"<p>{text}</p>".encode())


@pytest.mark.parametrize(
    ("private", "typed"),
    [
        # markup that somebody typed into a field: a page shows its signs, and the name is read over them
        ("Ebbra Voskstrand", ["<i>Ebbra</i> Voskstrand", "Eb<b>br</b>a Voskstrand", "Ebbra<br>Voskstrand"]),
        ("Ebbra Voskstrand", ["Eb<!-- x -->bra Voskstrand", "Ebbra <span class='a b'>Voskstrand</span>"]),
        ("QX 123 ZJ", ["QX<br>123<br>ZJ", "Q<b>X 12</b>3 ZJ", "<i>QX</i> 123 ZJ", "**QX** **123** **ZJ**"]),
        ("020 7946 0123", ["020 <b>7946</b> 0123", "020 <br> 7946 0123", "**020** **7946** **0123**"]),
        ("020 <b>7946</b> 0123", ["020 7946 0123", "[020] 7946 0123"]),
        # digits of other scripts
        ("QX 123 ZJ", ["QX ١٢٣ ZJ", "QX १२३ ZJ"]),
        ("12 Tolmgenth Lane", ["١٢ Tolmgenth Lane"]),
        ("020 7946 0123", ["٠٢٠ ٧٩٤٦ ٠١٢٣"]),
        # a word of the trade stuck to it
        ("QX 123 ZJ", ["QX123ZJfront", "loomQX123ZJfront"]),
        ("020 7946 0123", ["phone02079460123", "02079460123ext7", "call+442079460123JT"]),
        ("+1 202 555 0143", ["phone2025550143", "call12025550143now"]),
        # the surname first, as names are filed
        ("Ebbra Voskstrand", ["Voskstrand, Ebbra", "VOSKSTRAND EBBRA", "voskstrand-ebbra", "VoskstrandEbbra"]),
        ("Voskstrand, Ebbra", ["Ebbra Voskstrand", "ebbra_voskstrand"]),
        # an address written so that programs do not read it
        ("ebbra@quillhollow.example", ["ebbra (at) quillhollow.example", "ebbra at quillhollow dot example"]),
        ("e.voskstrand@quill.example", ["e.voskstrand at quill dot example"]),
    ],
    ids=lambda told: told if isinstance(told, str) else "",
)  # fmt: skip
def test_what_somebody_typed_hides_nothing(private: str, typed: list[str]) -> None:
    """As the text of a page, as a value of it, and in the index; each at its line."""
    for text in typed:
        shown = html.escape(text)
        for file, content in (
            ("a.html", f"<p>\n{shown}</p>"),
            ("a.html", f'<p>\n<i title="{shown}">'),
            ("assets/js/find-index.js", "window.FIND={\n" + json.dumps(text, ensure_ascii=False) + "}"),
        ):
            found = private_values.leaks({"it": private}, file, content.encode())
            assert [leak.line for leak in found] == [2], (private, content, found)


SIGNS = "abcdeQXZjk0123456789 -./()'’&+,;äöüéßøÆłŞжЛλΣς中ﬁ½²Ⅳ①_%#@*\u00a0\u200b\u00ad\u0301"


def test_whatever_is_looked_for_is_found_where_it_stands_as_it_was_written() -> None:
    """Any string of letters, digits and signs; what is not looked for is told (see test_editions)."""
    chance, looked_for, missed = random.Random(3), 0, []
    for _ in range(4000):
        value = "".join(chance.choice(SIGNS) for _ in range(chance.randrange(3, 16))).strip()
        if private_values._why_not_sought(value):
            continue
        looked_for += 1
        page = f'<p>\n{html.escape(value)}</p>\n<i title="{html.escape(value)}">'
        for content, line in ((page.partition("</p>")[0], 2), ("\n\n" + page.rpartition("\n")[2], 3)):
            found = private_values.leaks({"it": value}, "a.html", content.encode())
            if [leak.line for leak in found] != [line]:
                missed.append((value, content, found))
    assert looked_for > 2000
    assert not missed, missed[:5]


DRAWING = '<svg viewBox="0 0 555 123"><path d="M555 0123 L12.5 5550123" transform="translate(555,0123)"/></svg>'
NEAR = [
    # a short word inside others
    ("Hara", "<p>charades, Harad, sahara</p>"),
    ("Vosk", "<p>invosked voskade</p>"),
    ("Tolm", '<a href="../tolmen.html">Tolmen</a>'),
    ("Ward", "<p>towards the seat, wards, forward</p>"),
    ("Lane", "<p>planed, lanes, Laneway</p>"),
    ("Bend", "<p>bends bended unbend</p>"),
    ("Wasin", "<p>the plug was in the lamp</p>"),
    ("Plugis", "<p>where the plug is</p>"),
    ("Lampon", "<p>the lamp on, lamp-on</p>"),
    # other words
    ("Quentin Abernathy", "<p>Quentin and Abernathy</p>"),
    ("Quentin Abernathy", "<p>Quentin</p><p>B. Abernathy</p>"),
    ("Quentin Abernathy", "<p>Abernathy for Quentin, B. Abernathy</p><p>Quentin</p>"),
    ("Rear Lamp", "<p>lamp, rear</p>"),
    ("Quillhollow lookout crew", "<p>lookout crew of Quillhollow</p>"),
    ("Quillhollow lookout crew", "<p>crew &lt;lookout&gt; Quillhollow</p>"),
    ("Quillhollow lookout crew", "<p>lookout lamp, crew cab, hollow quill</p>"),
    ("Quillhollow lookout crew", "<p>Quillhollow lookout</p><p>for the crew</p>"),
    ("An old man", "<p>than old manual</p>"),
    ("Vosk & Ebbra", "<p>Vosk; the Ebbra</p>"),
    # what stands beside a name in a value
    ("Mr Brown", "<p>brown, RD</p>"),
    ("Kesk Ltd", "<p>Kesk</p>"),
    ("Mr Lamp, Kesk & Co", "<p>lamp, kesk</p>"),
    ("RD 18 AWG from the customer", "<p>RD 18 AWG</p>"),
    ("pays in May, lamp left", "<p>lamp left</p>"),
    ("Voskstrand - paid 2024-05-03 14:30", "<p>2024-05-03, 14:30</p>"),
    ("W31 for Ebbra", "<p>W31 for C14</p>"),
    ("left tail lamp, trailer socket", "<p>trailer socket</p>"),
    ("order 9 of O27, C14", "<p>order 9, C14, O27</p>"),
    # words of the theme that no reader sees
    ("Block Header", '<div class="block header" role="row"></div>'),
    ("Stack", '<table class="stack" role="table"><tr role="row"></tr></table>'),
    ("Button", '<button type="button" class="button">Print</button>'),
    ("Section", "<section></section>"),
    ("Viewport", "<svg></svg><p>view</p>"),
    ("Preserve", '<style>@page { preserve: aspect }</style>'),
    # drawings
    ("5550123", DRAWING),
    ("555 0123", DRAWING),
    ("+1 202 555 0143", '<path d="M202 555 0143 l 2 0"/><rect x="202" y="555" width="0143"/>'),
    ("020 7946 0123", '<circle cx="020" cy="7946" r="0123"/><polyline points="020 7946 0123"/>'),
    ("QX 123 ZJ", '<i class="QX 123 ZJ"></i>'),
    # ordinary figures, ids
    ("5550123", "<p>W5550123 55501234 15550123 5550123b 5550123mm</p>"),
    ("5550123", "<p>555, 0123; 555 V 0123</p>"),
    ("5550123", "<p>555 &lt; 0123; 555 &lt;b 0123</p>"),
    ("020 7946 0123", "<p>W2079460, 20794601b, 946 0123 V</p>"),
    ("5550123", "<table><tr><td>555</td><td>0123</td></tr></table>"),
    ("123456", "<p>cavities 1 2 3 4 5 6</p>"),
    ("123456", "<p>1, 2, 3, 4, 5, 6</p>"),
    ("020 7946 0123", "<p>20794601234, 120794601239, 1020794601230</p>"),
    ("+44 20 7946 0123", "<p>+49 2079460124, 4920794601239</p>"),
    ("+44 20 7946 0123", "<p>+492079460123</p>"),
    ("QX 123 ZJ", "<p>QX 123 ZJA, AQX 123 ZJ, QX 1234 ZJ, QX 123 Z</p>"),
    ("QX 123 ZJ", "<p>QX, wire 123, ZJ</p>"),
    ("QX 123 ZJ", "<p>QX 123 Zjump, AQX123ZJfront, qx123zja</p>"),
    ("QX 123 ZJ", "<table><tr><td>QX</td><td>123</td><td>ZJ</td></tr></table>"),
    ("KV21 XZQ", '<a href="#C14-KV21-plug">KV21</a> <b>XZQ1</b>'),
    ("W31 C14 F7", '<p>W31, F7</p><i id="C14-W31-loom"></i>'),
    # colours and sizes of wires beside names of colours
    ("Redbrook", "<p>RD red, brook side</p>"),
    ("Brownridge", "<p>brown, ridge; brown: ridge</p>"),
    ("Greenhall", "<p>GN/WH green white</p>"),
    ("Redwhite", "<p>RD red, WH white stripe</p>"),
    ("Brownlug", "<p>brown wire, lug side</p>"),
    ("Whitestrand", "<p>white, 7 strands</p>"),
    ("16 Gauge Lane", "<p>16 AWG, gauge, lane</p>"),
]  # fmt: skip


@pytest.mark.parametrize(("value", "content"), NEAR, ids=lambda text: text[:24])
def test_what_only_resembles_a_private_value_goes_out(value: str, content: str) -> None:
    assert not private_values.leaks({"it": value}, "jobs/van/changes.html", f"<!doctype html>\n{content}\n".encode())


@pytest.mark.parametrize(
    ("value", "script"),
    [
        ("5550123", '{"hits":[[555,0123],[5550123]],"rows":[[5550123,"C14"]]}'),
        ("555 0123", '{"words":"0123 555 0123"}'),
        ("lookout quillhollow", '{"words":"crew lookout quillhollow"}'),  # neighbours in the alphabet
        ("020 7946 0123", '{"rows":[[0,"020"],[1,"7946"],[2,"0123"]]}'),
    ],
)
def test_numbers_and_order_of_the_index_are_no_text(value: str, script: str) -> None:
    assert not private_values.leaks({"it": value}, "assets/js/find-index.js", b"window.FIND=" + script.encode())


def test_the_theme_s_own_files_hold_no_word_of_a_job() -> None:
    assert not private_values.leaks({"it": "Block"}, "assets/css/base.css", b".a { display: block }")
    assert not private_values.leaks({"it": "Focus"}, "assets/js/find.js", b'/* Focus */ (function () { "focus"; })();')
    assert len(NEAR) >= 40

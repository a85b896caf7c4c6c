"""Which options have to be tried together: those whose rows touch one part of the harness. One that is left out of a
pair by mistake is a car nobody looks at."""

from __future__ import annotations

import textwrap
from pathlib import Path

import pytest

from aswired.checks.options_apart import parts_touched
from aswired.files import read_job
from aswired.record import Job

HARNESS = """
    job: Two options
    options: {one: {is: no, could be: [yes]}, two: {is: no, could be: [yes]}}
    usual: {joint: "lap, soldered", overlap: 10 mm}
    offcuts: {O1: BU 1.0 mm2 5 m}
    fuses: {F1: {}, F2: {}, F3: {}, F4: {}, F9: {}}
    grounds: {G1: {back to: battery-}}
    splices: {FS1: {}}
    plugs: {mid: {in line: yes}}
    switches: {button: {between: s.1 s.2}}
    loads: {lamp: {between: p.1 p.2}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: a.1, length: 900 mm}
      W2: {size: 1.0 mm2, from: F2, to: b.1, length: 900 mm}
      W3: {size: 1.0 mm2, from: FS1, to: c.1}
      W4: {size: 1.0 mm2, from: FS1, to: d.1}
      W5: {size: 1.0 mm2, from: e.1, to: G1}
      W6: {size: 1.0 mm2, from: f.1, to: G1}
      W7: {size: 1.0 mm2, from: x.7, to: p.1}
      W8: {size: 1.0 mm2, from: p.2, to: x.8}
      W9: {size: 1.0 mm2, from: x.9, to: s.1}
      W10: {size: 1.0 mm2, from: s.2, to: x.10}
      W11: {size: 1.0 mm2, from: battery+, to: F3.feed}
      W12: {size: 1.0 mm2, from: F3, to: x.12}
      W13: {size: 1.0 mm2, from: battery+, to: x.13}
      W14: {size: 1.0 mm2, from: g.1, to: h.1, via: mid.4}
      W15: {size: 1.0 mm2, from: mid.4, to: i.1}
      W16: {size: 1.0 mm2, from: unknown, to: x.16}
      W17: {size: 1.0 mm2, from: unknown, to: x.17}
    changes:
"""


def gone(wire: str, fates: str = "") -> str:
    return f"kind: remove, wire: {wire}{f', ends: {{{fates}}}' if fates else ''}"


def longer(wire: str, piece: str) -> str:
    return f"kind: extend, wire: {wire}, end: {'a.1' if wire == 'W1' else 'b.1'}, pigtail: 100 mm, gap: 200 mm, " \
        f"piece: {piece}"  # fmt: skip


TOGETHER = {
    "one wire": (gone("W1"), longer("W1", "BU 1.0 mm2")),
    "two wires of a splice": (gone("W3"), gone("W4")),
    "both sides of a load": (gone("W7"), gone("W8")),
    "both sides of a switch": (gone("W9"), gone("W10")),
    "both sides of a fuse": (gone("W11"), gone("W12")),
    "a plug that one of them passes": (gone("W14"), gone("W15")),
    "one offcut": (longer("W1", "BU 1.0 mm2 from O1"), longer("W2", "BU 1.0 mm2 from O1")),
    "an offcut that the other puts down": (
        gone("W3") + ", reclaimed: {O7: BU 1.0 mm2 500 mm}", longer("W2", "BU 1.0 mm2 from O7"),
    ),
    "a cavity that both fill": (
        "kind: terminate, wire: W1, end: a.1, into: n.1", "kind: terminate, wire: W2, end: b.1, into: n.1",
    ),
    "an end of a new wire": (gone("W1"), "kind: add, wire: W90, from: F1, to: z.1"),
    "the other end of a new wire": (gone("W1"), "kind: add, wire: W90, from: z.1, to: a.1"),
    "two new wires at one place": (
        "kind: add, wire: W90, from: z.1, to: z.2", "kind: add, wire: W91, from: z.2, to: z.3",
    ),
    "a wire that is tapped": (gone("W1"), "kind: tap, wire: W3, end: c.1, onto: W1"),
    "a wire that is joined": (
        gone("W1"), "kind: join, ends: [W3 at FS1, W1 at F1]",
    ),
    "a ring that is shared": (
        "kind: ground, wire: W5, end: G1, to: L1, ring: new", "kind: ground, wire: W6, end: G1, to: L1, ring: with C1",
    ),
    "a fuse that one of them drew": (gone("W1") + ", spare: [F4]", "kind: add, wire: W90, from: F4, to: z.1"),
    "the feed of a fuse that one of them put in": (
        "kind: protect, fuse: F9, rating: 5 A", "kind: add, wire: W90, from: z.1, to: F9.feed",
    ),
    "a row that the other does again": (
        longer("W1", "BU 1.0 mm2"), "kind: terminate, wire: W2, end: b.1, into: n.2, redoes: C1",
    ),
    "a row that the other corrects": (gone("W1"), gone("W2") + ", corrects: C1"),
    "a splice that the other makes": (
        "kind: join, ends: [W3 at FS1, W4 at FS1]", "kind: add, wire: W90, from: C1, to: z.1",
    ),
    "a plug whose cavities the other swaps": (
        gone("W1"), "kind: swap, plug: a, new plug: n, cavities: {1: 5}",
    ),
    "a cavity of the new plug": (
        "kind: add, wire: W90, from: z.1, to: n.5", "kind: swap, plug: a, new plug: n, cavities: {1: 5}",
    ),
}  # fmt: skip
APART = {
    "two wires of two fuses": (gone("W1"), gone("W2")),
    "two wires on one ground point": (gone("W5"), gone("W6")),
    "two wires on the battery": (gone("W11"), gone("W13")),
    "two ends that are not known": (gone("W16"), gone("W17")),
    "two wires put on one new ground point": (
        "kind: ground, wire: W5, end: G1, to: L1, ring: new", "kind: ground, wire: W6, end: G1, to: L1, ring: new",
    ),
    "two new pieces": (longer("W1", "BU 1.0 mm2"), longer("W2", "BU 1.0 mm2")),
    "one that changes no wire": (gone("W1"), "kind: verify, proves: [C1]"),
    "a wire and a plug that it does not end in": (gone("W1"), "kind: swap, plug: b, new plug: n, cavities: {1: 5}"),
}  # fmt: skip


def job(folder: Path, rows: str) -> Job:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "job.yml").write_text(textwrap.dedent(HARNESS + rows).lstrip("\n"), encoding="utf-8")
    read = read_job(folder)
    assert read.job is not None, read.faults
    return read.job


def parts(folder: Path, one: str, two: str) -> tuple[frozenset[str], frozenset[str]]:
    rows = (
        f"      - {{id: C1, {one}, only if: one is yes}}\n      - {{id: C2, {two}, only if: two is yes}}\n"
        "      - {id: C3, kind: verify, proves: [C1]}\n"
    )
    found = parts_touched(job(folder, rows))
    return found.get("one", frozenset()), found.get("two", frozenset())


@pytest.mark.parametrize("name", TOGETHER)
def test_options_whose_rows_touch_one_part_are_tried_together(name: str, tmp_path: Path) -> None:
    one, two = TOGETHER[name]
    orders = ((one, two),) if "C1" in two else ((one, two), (two, one))
    for number, (first, second) in enumerate(orders):
        mine, others = parts(tmp_path / str(number), first, second)
        assert len(mine) == len(others) == 1
        assert mine == others


@pytest.mark.parametrize("name", APART)
def test_options_whose_rows_have_nothing_in_common_are_not(name: str, tmp_path: Path) -> None:
    mine, others = parts(tmp_path, *APART[name])
    assert mine
    assert not mine & others


def test_what_is_joined_by_a_row_for_every_car_is_one_part(tmp_path: Path) -> None:
    rows = "".join(
        f"      - {{id: C{n}, {gone(f'W{n}')}, only if: {name} is yes}}\n" for n, name in ((1, "one"), (2, "two"))
    )
    bridge = "      - {id: C3, kind: add, wire: W90, from: a.1, to: b.1}\n"
    apart = parts_touched(job(tmp_path / "apart", rows))
    assert not apart["one"] & apart["two"]
    joined = parts_touched(job(tmp_path / "joined", rows + bridge))
    assert joined["one"] == joined["two"]
    alone = "      - {id: C1, kind: remove, wire: W1}\n"
    assert parts_touched(job(tmp_path / "none", alone)) == {}

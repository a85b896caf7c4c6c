"""Circuits by chance as tables of a small job: fuses, splices, switches, loads, one main feed, one way home."""

from __future__ import annotations

import random

from tests.ledger.small import lead, load

Tables = dict[str, dict[str, str]]

SIZES = (0.35, 0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0)
RATINGS = (2, 5, 7.5, 10, 15, 20, 30)


def circuits(seed: int) -> Tables:
    """Tables that take the place of those of the sound job, whose own names are left out."""
    rnd = random.Random(seed)
    found: Tables = {
        "fuses": {"F1": ""},
        "splices": {"B1": "{all members known: yes, bus: yes}", "RS": "{all members known: yes}"},
        "switches": {},
        "loads": {"lamp": ""},
        "wires": {"W1": "", "W2": ""},
    }
    wires: list[tuple[str, str]] = []
    lengths: dict[tuple[str, str], int] = {}
    fuses = [f"F{number}" for number in range(2, rnd.randint(3, 5))]
    for name in fuses:
        found["fuses"][name] = f"{{rating: {_rating(rnd)}, fed: always}}"
        if rnd.random() < 0.6:
            wires.append(("B1", f"{name}.feed"))
            lengths[wires[-1]] = rnd.choice((50, 200, 290, 400))
    wires.append(("battery+", "B1"))
    lengths[wires[-1]] = rnd.choice((100, 290, 600))
    feeds = list(fuses)
    for number in range(rnd.randint(0, 2)):
        splice = f"FS{number}"
        found["splices"][splice] = "{all members known: yes}"
        wires += [(feed, splice) for feed in rnd.sample(feeds, rnd.randint(1, min(2, len(feeds))))]
        feeds.append(splice)
    for number in range(rnd.randint(0, 2)):
        plug = f"s{number}"
        found["switches"][f"switch {number}"] = f"{{between: {plug}.1 {plug}.2}}"
        wires.append((rnd.choice(feeds), f"{plug}.1"))
        feeds.append(f"{plug}.2")
    for number in range(rnd.randint(1, 4)):
        part = f"part{number}"
        amps = rnd.choice((0.5, 2, 5, 9, 14))
        known = load(part, amps) if rnd.random() < 0.8 else f"{{between: {part}.1 {part}.2, draws: unknown}}"
        found["loads"][f"load {number}"] = known
        wires += [(rnd.choice(feeds), f"{part}.1"), (f"{part}.2", rnd.choice(("RS", "L1")))]
    wires.append(("RS", "L1"))
    for number, ends in enumerate(wires):
        size = rnd.choice(SIZES) if rnd.random() < 0.9 else "unknown"
        found["wires"][f"W{number + 10}"] = lead(size, *ends, *(f"length: {mm} mm" for mm in _of(lengths, ends)))
    return found


def _rating(rnd: random.Random) -> str:
    return f"{rnd.choice(RATINGS)} A" if rnd.random() < 0.85 else "unknown"


def _of(lengths: dict[tuple[str, str], int], ends: tuple[str, str]) -> list[int]:
    return [lengths[ends]] if ends in lengths else []

"""What the ledger proves, against an independent circuit simulator: random small cars with one fault each.

Once all is on and nothing fails; then one load fails, dead or so that its fuse just holds, or one wire touches battery
negative. Fuses that carry more than their rating open, the worst first. In the end no line that is proved carries more
than its bound for good. A line with nothing before it is left out where the fault lies on such copper itself: nothing
guards it there, and only its length is judged. In these cars all facts are written.

What the ledger does not exclude yet stands in `OPEN`, each with the smallest job that shows it.
"""

from __future__ import annotations

import math
import random
import textwrap
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from aswired.ledger.record import Line, State
from tests.electric import spice
from tests.findings.jobs import work
from tests.ledger.cars import HEAD, car
from tests.ledger.faults import AT_MOST, Circuit, Copy, Fault, circuit_of, settled

CARS, QUICK = 100, 10
TOUCHED = 6  # ends of wire in each car that touch battery negative, one at a time
HAVE = {  # of a hundred cars at least so many, not to prove little
    "in series": 60,
    "side by side": 50,
    "bridged": 8,
    "ring": 10,
    "fed twice": 20,
    "two ways home": 20,
    "shared way home": 50,
    "unfused lead": 60,
}
HOME = "a way home touches ground"
OPEN = (HOME,)


@dataclass(frozen=True)
class Beyond:
    """A proved line that carries more than its bound."""

    line: Line
    amps: float
    copy: Copy

    @property
    def kind(self) -> str:
        """Which of what is open it is; '' where it is none of it."""
        fault = self.copy.fault
        if self.copy.ohm is None:
            return ""
        if self.line.push.least > 0:
            return ""
        if fault.load:
            return ""
        return HOME if fault.a in _ways_home(self.copy.circuit) else ""

    def __str__(self) -> str:
        fault = "no fault"
        if self.copy.ohm is not None:
            fault = f"{self.copy.fault.load or self.copy.fault.a} by {self.copy.ohm:.3g} ohm"
        opened = ", ".join(self.copy.opened) or "none"
        return f"{self.line.name}: {self.amps:.2f} A, bound {self.line.bound:g} A; {fault}; open: {opened}; {self.kind}"


@dataclass
class Looked:
    """What was looked at."""

    lines: Counter[str] = field(default_factory=Counter)
    has: Counter[str] = field(default_factory=Counter)
    faults: int = 0
    opening: int = 0  # faults at which a fuse opens
    judged: int = 0  # proved lines, once for each fault
    full: int = 0  # proved lines that carry nine tenths of their bound at some fault
    unfused: int = 0  # of those judged with nothing before them
    left_out: int = 0  # not judged, because the fault lies before the first fuse
    beyond: list[Beyond] = field(default_factory=list)
    not_proved: list[str] = field(default_factory=list)  # wires and ground points

    def look(self, text: str, seed: int, folder: Path) -> None:
        worked = work(folder / "job", text)
        circuit = circuit_of(worked.job)
        chance = random.Random(seed)
        copies = settled(circuit, list(_faults(circuit, chance)), chance, folder)
        lines = [line for account in worked.ledger.accounts.values() for line in account.lines]
        self.lines.update(line.state.value for line in lines)
        self.faults += len(copies) - 1  # the first is without
        self.opening += sum(bool(copy.opened) for copy in copies)
        self.not_proved += [line.wire for line in lines if line.state is not State.PROVED]
        for line in lines:
            if line.state is State.PROVED:
                self._judge(line, copies)

    def _judge(self, line: Line, copies: list[Copy]) -> None:
        assert line.bound is not None
        part = ("cable" if line.index is None else "wire", line.wire)
        unfused = line.push.least == math.inf
        most = 0.0
        for copy in copies:
            if copy.ohm is not None and unfused and {copy.fault.a, copy.fault.b} & copy.circuit.unfused:
                self.left_out += 1
                continue
            self.judged += 1
            self.unfused += unfused
            amps = abs(copy.amps[part])
            most = max(most, amps)
            if amps > line.bound * AT_MOST:
                self.beyond.append(Beyond(line, amps, copy))
        self.full += most > 0.9 * line.bound

    def tell(self) -> None:
        print(f"\nlines: {dict(self.lines)}; cars have: {dict(self.has)}")
        print(
            f"{self.faults} faults, {self.opening} with fuses open at the end; proved lines judged {self.judged} times"
        )
        print(f"of these {self.unfused} with nothing before them, {self.left_out} more left out: the fault is there")
        print(f"{self.full} proved lines come to nine tenths of their bound")
        print(f"beyond their bound: {dict(Counter(one.kind for one in self.beyond))}")


def _faults(circuit: Circuit, chance: random.Random) -> Iterator[Fault]:
    for part in circuit.parts:
        if part.kind == "load":
            yield Fault(part.a, part.b, part.name)
            yield Fault(part.a, part.b, part.name, alone=True)
    wired = dict.fromkeys(end for part in circuit.parts if part.kind == "wire" for end in (part.a, part.b))
    ends = [end for end in wired if end not in ("battery+", "battery-")]
    for end in chance.sample(ends, min(TOUCHED, len(ends))):
        yield Fault(end, "battery-", alone=chance.random() < 0.3)


def _ways_home(circuit: Circuit) -> set[str]:
    """What copper joins to battery negative."""
    seen = {"battery-"}
    for _ in circuit.parts:
        seen |= {
            end
            for part in circuit.parts
            if part.kind in ("wire", "cable", "switch") and {part.a, part.b} & seen
            for end in (part.a, part.b)
        }
    return seen


def looked_at(seeds: range, folder: Path) -> Looked:
    found = Looked()
    for seed in seeds:
        made = car(seed)
        found.has.update(made.has)
        before = len(found.beyond)
        found.look(made.text, seed, folder)
        for one in found.beyond[before:]:
            print(f"car {seed}: {one}")
    found.tell()
    return found


@pytest.fixture(autouse=True)
def _simulator() -> None:
    spice.needed()


def test_what_is_proved_holds_in_a_few_cars(tmp_path: Path) -> None:
    found = looked_at(range(QUICK), tmp_path)
    assert not [str(one) for one in found.beyond if one.kind not in OPEN]
    assert found.lines["proved"] >= 100
    assert found.lines["against"] >= 40
    assert found.faults >= 300
    assert found.opening >= 100


@pytest.mark.slow
def test_what_is_proved_holds_in_a_hundred_cars(tmp_path: Path) -> None:
    found = looked_at(range(CARS), tmp_path)
    assert not [str(one) for one in found.beyond if one.kind not in OPEN]
    assert found.lines["proved"] >= 1000
    assert found.lines["against"] >= 400
    assert found.faults >= 3000
    assert found.opening >= 1000
    assert found.full >= 150
    assert found.unfused >= 1000
    assert found.left_out >= 50
    assert all(found.has[what] >= least for what, least in HAVE.items()), found.has


# ---- what is open: the smallest job of each -------------------------------------------------------------------------
_GROUND = "grounds: {L1: {cable: 10 mm2, cable length: 3 m, conducts: yes, back to: battery-}}\n"
SMALLEST = {
    HOME: f"""
        fuses: {{F1: {{rating: 30 A, fed: always}}, F2: {{rating: 3 A, fed: always}}}}
        loads:
          heater: {{between: p1.1 p1.2, draws: 25 A, class: heater}}
          lamp: {{between: p2.1 p2.2, draws: 1 A, class: lamp}}
        {_GROUND}
        wires:
          W1: {{size: 4 mm2, from: F1, to: p1.1, length: 1 m}}
          W2: {{size: 0.5 mm2, from: F2, to: p2.1, length: 1 m}}
          W3: {{size: 4 mm2, from: p1.2, to: L1, length: 1 m}}
          W4: {{size: 0.35 mm2, from: p2.2, to: L1, length: 150 mm}}
        """,
}


@pytest.mark.parametrize("kind", OPEN)
def test_the_smallest_job_of_what_is_open(kind: str, tmp_path: Path) -> None:
    # once the ledger excludes a kind this fails: the kind then leaves OPEN, and its job is to have nothing beyond
    found = Looked()
    found.look(HEAD + textwrap.dedent(SMALLEST[kind]), 1, tmp_path)
    assert {one.kind for one in found.beyond} == {kind}


# ---- jobs of lines that more comes through than any one fuse lets in: none of these lines may be called proved ------
TOGETHER = {
    "a fault behind one fuse while loads behind others are on, on the unfused line before both": (
        "W1",
        f"""
        fuses: {{F1: {{rating: 20 A, fed: always}}, F2: {{rating: 20 A, fed: always}}}}
        loads:
          heater 1: {{between: p1.1 p1.2, draws: 5 A, class: heater}}
          heater 2: {{between: p2.1 p2.2, draws: 14 A, class: heater}}
        {_GROUND}
        splices: {{BUS: {{all members known: yes, bus: yes}}}}
        wires:
          W1: {{size: 2.5 mm2, from: battery+, to: BUS, length: 250 mm}}
          W2: {{size: 4 mm2, from: BUS, to: F1.feed, length: 250 mm}}
          W3: {{size: 4 mm2, from: BUS, to: F2.feed, length: 250 mm}}
          W4: {{size: 4 mm2, from: F1, to: p1.1, length: 1 m}}
          W5: {{size: 4 mm2, from: F2, to: p2.1, length: 1 m}}
          W6: {{size: 4 mm2, from: p1.2, to: L1, length: 1 m}}
          W7: {{size: 4 mm2, from: p2.2, to: L1, length: 1 m}}
        """,
    ),
    "a load fails while others on the same way home are on": (
        "W5",
        f"""
        fuses: {{F1: {{rating: 15 A, fed: always}}, F2: {{rating: 15 A, fed: always}}}}
        loads:
          heater 1: {{between: p1.1 p1.2, draws: 5 A, class: heater}}
          heater 2: {{between: p2.1 p2.2, draws: 9 A, class: heater}}
        {_GROUND}
        splices: {{FS51: {{all members known: yes}}}}
        wires:
          W1: {{size: 2.5 mm2, from: F1, to: p1.1, length: 1 m}}
          W2: {{size: 2.5 mm2, from: F2, to: p2.1, length: 1 m}}
          W3: {{size: 2.5 mm2, from: p1.2, to: FS51, length: 1 m}}
          W4: {{size: 2.5 mm2, from: p2.2, to: FS51, length: 1 m}}
          W5: {{size: 1.5 mm2, from: FS51, to: L1, length: 1 m}}
        """,
    ),
    "fuses that meet again behind a line with nothing before it": (
        "W1",
        f"""
        fuses: {{F1: {{rating: 20 A, fed: always}}, F2: {{rating: 20 A, fed: always}}}}
        loads: {{heater: {{between: p1.1 p1.2, draws: 5 A, class: heater}}}}
        {_GROUND}
        splices: {{BUS: {{all members known: yes, bus: yes}}}}
        wires:
          W1: {{size: 2.5 mm2, from: battery+, to: BUS, length: 250 mm}}
          W2: {{size: 4 mm2, from: BUS, to: F1.feed, length: 250 mm}}
          W3: {{size: 4 mm2, from: BUS, to: F2.feed, length: 250 mm}}
          W4: {{size: 6 mm2, from: F1, to: p1.1, length: 1 m}}
          W5: {{size: 6 mm2, from: F2, to: p1.1, length: 1 m}}
          W6: {{size: 6 mm2, from: p1.2, to: L1, length: 1 m}}
        """,
    ),
}


@pytest.mark.parametrize("name", TOGETHER)
def test_what_comes_together(name: str, tmp_path: Path) -> None:
    wire, job = TOGETHER[name]
    found = Looked()
    found.look(HEAD + textwrap.dedent(job), 1, tmp_path)
    assert found.judged > 0
    assert not [str(one) for one in found.beyond]
    assert wire in found.not_proved

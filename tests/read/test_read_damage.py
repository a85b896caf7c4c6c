"""Damaged files: whatever happens to the bytes of a job, reading it gives a job or faults with a place."""

import datetime
import random
import re
import shutil
import unicodedata
from collections.abc import Callable
from pathlib import Path

import pytest

from aswired.files import read_job
from aswired.text.diagnostics import fault_text
from aswired.work import work_out

DEMO = Path(__file__).parents[2] / "jobs"
QUICK, LONG = 10, 60  # copies per demo job of one file and kind of damage; a third for the job of many files
SIGNS = [
    *"{}[],:#&*!|>'\"%@`?-~\t\n\r\x00\x1b\x7f\\",
    "\ufeff",
    "\u2028",
    "\u00a0",
    "\u202e",
    "é",
    "🚗",
    ": ",
    "- ",
    "---\n",
]
VALUES = (
    "",
    "[]",
    "{}",
    "[a, b]",
    "{a: b}",
    "unknown",
    "0",
    "-1 mm",
    "9" * 400,
    "1,5 mm",
    "''",
    '"\\e"',
    "yes",
    "C1",
    "gone",
)


def bytes_altered(data: bytes, chance: random.Random) -> bytes:
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(data))
        data = data[:at] + bytes([chance.randrange(256)]) + data[at + chance.randint(0, 1) :]
    return data


def signs_put_in(data: bytes, chance: random.Random) -> bytes:
    text = data.decode()
    for _ in range(chance.randint(1, 3)):
        at = chance.randrange(len(text))
        text = text[:at] + chance.choice(SIGNS) + text[at + chance.randint(0, 2) :]
    return text.encode()


def spans_moved(data: bytes, chance: random.Random) -> bytes:
    start = chance.randrange(len(data))
    span = data[start : start + chance.randint(1, 200)]
    rest = data[:start] + data[start + len(span) :]
    to = chance.randrange(len(rest) + 1)
    return chance.choice([rest, data[:to] + span + data[to:], rest[:to] + span + rest[to:], data[:start]])


def lines_moved(data: bytes, chance: random.Random) -> bytes:
    lines = data.splitlines(keepends=True)
    for _ in range(chance.randint(1, 3)):
        line = lines.pop(chance.randrange(len(lines)))
        for _ in range(chance.randint(0, 2)):
            lines.insert(chance.randrange(len(lines) + 1), line)
    return b"".join(lines)


def values_swapped(data: bytes, chance: random.Random) -> bytes:
    text = data.decode()
    for _ in range(chance.randint(1, 3)):
        spot = chance.choice(list(re.finditer(r"(?<=: )[^\s{\[|,}][^,}\n]*", text)))
        text = text[: spot.start()] + chance.choice(VALUES) + text[spot.end() :]
    return text.encode()


DAMAGE: tuple[Callable[[bytes, random.Random], bytes], ...] = (
    bytes_altered, signs_put_in, spans_moved, lines_moved, values_swapped,
)  # fmt: skip


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo jobs without their pictures, to be damaged."""
    folder = tmp_path_factory.mktemp("jobs")
    shutil.copytree(DEMO, folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns("photos"))
    return folder


@pytest.mark.parametrize("copies", [QUICK, pytest.param(LONG, marks=pytest.mark.slow)])
@pytest.mark.parametrize("damage", DAMAGE, ids=lambda damage: damage.__name__)
@pytest.mark.parametrize("job", ["flatbed", "taken-over", pytest.param("trail-truck", marks=pytest.mark.slow)])
def test_a_damaged_job_gives_faults_or_a_job_that_can_be_worked_out(
    shop: Path, job: str, damage: Callable[[bytes, random.Random], bytes], copies: int, tell: Callable[[str], None]
) -> None:
    chance = random.Random(f"{job} {damage.__name__} {copies}")
    names = sorted(path.name for path in (shop / job).glob("*.yml"))
    rounds = copies if len(names) == 1 else copies // 3
    faulty = 0
    for _ in range(rounds):
        path = shop / job / chance.choice(names)
        whole = path.read_bytes()
        path.write_bytes(damage(whole, chance))
        try:
            got = read_job(shop / job)
            assert (got.job is None) == bool(got.faults)
            for fault in got.faults:
                lines = fault_text(fault).encode().decode().split("\n")
                assert len(lines) in (3, 4), lines
                assert not any(unicodedata.category(char) in ("Cc", "Cf", "Cs") for line in lines for char in line), (
                    lines
                )
                assert fault.at.file in names
            if got.job is not None:
                work_out(got.job, datetime.date(2024, 6, 1))
            faulty += got.job is None
        finally:
            path.write_bytes(whole)
    tell(f"{faulty} of {rounds} damaged copies of {job} had faults")
    assert faulty > 0

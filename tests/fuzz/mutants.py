"""Jobs with slips in them, made from the demo jobs by chance, and what must hold of each whatever the slip.

A longer run than the tests take, from the repository's root:

    python -m tests.fuzz.mutants 5000 [seed]
"""

from __future__ import annotations

import datetime
import random
import re
import shutil
import signal
import sys
import tempfile
import time
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import FrameType

from markupsafe import Markup

from aswired.checks.codes import code
from aswired.files import read_job
from aswired.photos.of_job import look_at, reasons
from aswired.sheets import jobs
from aswired.sheets.frame import ShopFacts, frame_of
from aswired.sheets.pages import pages_of
from aswired.sheets.search import entries_of, fragment
from aswired.sheets.templates import environment, render
from aswired.site.notes import notes_html
from aswired.site.theme import theme_dir
from aswired.text.diagnostics import Fault, Finding, fault_text, finding_text
from aswired.work import work_out

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "jobs"
TODAY = datetime.date(2031, 6, 1)
LONGEST_S = 30  # of computing: what hangs, on the slowest machine
ODD = (
    "", "unknown", "none", "yes", "no", "-5", "--5", "+5 mm", "0", "-0", "1e999", "nan", "inf", "5", "5 mm",
    "-5 mm", "1,5 mm", "99999999999999999999 m", "0.0000001 mm", "5 kg", "5 parsec", "½ in", "٣ mm", "~", "null",
    "[]", "{}", "[[]]", "{a: }", "- x", "2031-02-30", "2031-13-01 AK", "1899-12-31 AK", "9999-12-31 AK",
    "0000-00-00", "GN/WH", "GN/WH/BK/RD", "ZZ", "light", "/", "18 AWG", "0 AWG", "99 AWG", "4/0 AWG", "-1 AWG",
    "F7.fed", "F7.feed", "battery+", "battery", "plug.0", "plug.-1", "plug.999", "a.b.c", ".", "..", "../x",
    "/etc/hosts", "C1", "C1-W1-F1", "C1 C2", "C1-", "-", "—", "C1, C1, C1", "capped", "capped 0 mm", "capped -3 mm",
    "gone 5 mm", "lap, soldered, soldered", "F1 to F1", "GN 18 AWG, F1 to F1", "x" * 300, "ß" * 90, "\\u0000",
    "\u202eabc", "a\u00adb", "\u200b", "\ufeff", "e\u0301", "<script>", "'", '"', "&", "*x", "&x", "!!int 5", "%",
    "@", "`", "|", ">", "? x", "key: value", ": ", "#", " #", "300 mm past nose-branch", "nose", "from nose",
    "10 mm from nose towards nose",
)  # fmt: skip


@dataclass(frozen=True)
class Mutant:
    """A job folder with slips, and how it was made."""

    name: str
    files: dict[str, str]
    told: tuple[str, ...]


def mutant(number: int, seed: int) -> Mutant:
    """The same for the same two numbers."""
    chance = random.Random(f"{seed}-{number}")
    folder = chance.choice([DEMO / "taken-over", DEMO / "flatbed", DEMO / "flatbed", DEMO / "trail-truck"])
    files = {path.name: path.read_text(encoding="utf-8") for path in sorted(folder.iterdir()) if path.is_file()}
    told = []
    for _ in range(chance.choice([1, 1, 1, 1, 1, 2, 3, 6])):
        name = chance.choice([name for name in files if name.endswith(".yml")])
        slip = chance.choice(SLIPS)
        files[name] = slip(files[name], chance)
        told.append(f"{slip.__name__} in {name}")
    return Mutant(folder.name, files, tuple(told))


# ---- slips ----------------------------------------------------------------------------------------------------------
_VALUE = re.compile(r"(?<=: )[^\s{}\[\],#][^{}\[\],#\n]*|(?<=[\[,] )?\b[A-Z]+\d+\b")


def _values(text: str) -> list[re.Match[str]]:
    return list(_VALUE.finditer(text)) or list(re.finditer(r"\S+", text))


def _with(text: str, found: re.Match[str], new: str) -> str:
    return text[: found.start()] + new + text[found.end() :]


def odd_value(text: str, chance: random.Random) -> str:
    return _with(text, chance.choice(_values(text)), chance.choice(ODD)) if text.strip() else text


def value_of_elsewhere(text: str, chance: random.Random) -> str:
    if not text.strip():
        return text
    one, other = chance.choice(_values(text)), chance.choice(_values(text))
    return _with(text, one, other[0])


def line_gone(text: str, chance: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    if lines:
        del lines[chance.randrange(len(lines))]
    return "".join(lines)


def line_twice(text: str, chance: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    if lines:
        at = chance.randrange(len(lines))
        lines.insert(chance.randrange(len(lines) + 1), lines[at])
    return "".join(lines)


def lines_swapped(text: str, chance: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    if len(lines) > 1:
        one, other = chance.sample(range(len(lines)), 2)
        lines[one], lines[other] = lines[other], lines[one]
    return "".join(lines)


def key_renamed(text: str, chance: random.Random) -> str:
    keys = list(re.finditer(r"[a-zA-Z][a-zA-Z _]*(?=:)", text))
    if not keys:
        return text
    return _with(text, chance.choice(keys), chance.choice([*(key[0] for key in keys), "foo", "", "on", "made"]))


def sign_gone(text: str, chance: random.Random) -> str:
    if not text:
        return text
    at = chance.randrange(len(text))
    return text[:at] + text[at + 1 :]


def sign_put_in(text: str, chance: random.Random) -> str:
    at = chance.randrange(len(text) + 1)
    return text[:at] + chance.choice("{}[]:,#-'\"\t\n\\ &*!|>%@`?\x00\x07\u2028é🚗") + text[at:]


def further_in(text: str, chance: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    if lines:
        at = chance.randrange(len(lines))
        lines[at] = chance.choice([" ", "  ", "\t"]) + lines[at] if chance.random() < 0.5 else lines[at].lstrip(" ")
    return "".join(lines)


def cut_off(text: str, chance: random.Random) -> str:
    return text[: chance.randrange(len(text) + 1)]


def number_changed(text: str, chance: random.Random) -> str:
    numbers = list(re.finditer(r"\d+(?:\.\d+)?", text))
    if not numbers:
        return text
    found = chance.choice(numbers)
    return _with(
        text, found, chance.choice(["0", "1", "7", "-" + found[0], found[0] + "0" * 9, "0." + found[0], found[0] * 2])
    )


SLIPS: tuple[Callable[[str, random.Random], str], ...] = (
    odd_value, odd_value, odd_value, value_of_elsewhere, value_of_elsewhere, line_gone, line_twice, lines_swapped,
    key_renamed, sign_gone, sign_put_in, further_in, cut_off, number_changed, number_changed,
)  # fmt: skip


# ---- what must hold -------------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Outcome:
    """What came of one mutant: how it ended, what is wrong with that, and the seconds it took."""

    ended: str  # 'refused', 'built'
    wrong: tuple[str, ...]
    seconds: float


def judged(made: Mutant, folder: Path) -> Outcome:
    """Read the mutant, work it out and render its pages, or take its faults; and hold that to what is promised."""
    shop = folder / made.name
    if not shop.exists():  # the pictures stay from mutant to mutant
        shop.mkdir(parents=True)
        shutil.copytree(DEMO / made.name / "photos", shop / "photos")
    for path in shop.glob("*.*"):
        path.unlink()
    for name, text in made.files.items():
        (shop / name).write_bytes(text.encode("utf-8", "surrogatepass"))
    before = time.process_time()
    wrong: list[str] = []
    ended = "built"
    try:
        with _at_most(LONGEST_S):
            got = read_job(shop)
            if got.job is None:
                ended = "refused"
                wrong += [trouble for fault in got.faults for trouble in _badly_told(fault, made)]
                wrong += [] if got.faults else ["refused without a fault"]
            else:
                wrong += _pages(shop)
    except BaseException as error:
        if isinstance(error, KeyboardInterrupt):
            raise
        wrong.append("".join(traceback.format_exception(error)[-4:]))
    return Outcome(ended, tuple(wrong), time.process_time() - before)


def _pages(folder: Path) -> list[str]:
    job = read_job(folder).job
    assert job is not None
    worked = work_out(job, TODAY, reasons(look_at(job)))
    wrong = []
    pages: dict[str, bytes] = {}
    for finding in worked.findings:
        if code(finding.code) is None:
            wrong.append(f"a finding without help: {finding.code}")
        finding_text(finding)
    for edition in ("shop", "owner"):
        shop = ShopFacts(edition, {}, job.revision, TODAY, "Jobs")
        for page in pages_of(frame_of(worked, shop)):
            notes = notes_html(job.notes) if job.notes else Markup()
            page.context["notes_html"] = notes  # type: ignore[index]
            text = render(_ENV, page)
            pages[page.uri] = text.encode()
            if "Traceback" in text or "Undefined" in text:
                wrong.append(f"{page.uri} shows what is not for people")
        fragment(job.job, entries_of(worked), pages)
    jobs.to_json(jobs.summarise(worked))
    return wrong


_ENV = environment(theme_dir())


def _badly_told(fault: Fault | Finding, made: Mutant) -> Iterator[str]:
    """What a fault lacks of code, place, problem and mend."""
    told = fault_text(fault) if isinstance(fault, Fault) else finding_text(fault)
    if code(fault.code) is None:
        yield f"no help for {fault.code}"
    if not fault.problem.strip() or not fault.mend.strip():
        yield f"says too little: {told}"
    text = made.files.get(fault.at.file)
    if text is None and fault.code not in ("FIL01", "FIL03"):
        yield f"is of no file of the job: {told}"
    if text is not None and not 0 <= fault.at.line <= len(text.splitlines()) + 1:
        yield f"is behind the end of the file: {told}"
    if text is not None and fault.at.line == 0 and not fault.code.startswith("FIL"):
        yield f"names no line: {told}"


@contextmanager
def _at_most(seconds: int) -> Iterator[None]:
    def late(number: int, frame: FrameType | None) -> None:
        raise TimeoutError(f"not done in {seconds} s")

    before = {kind: signal.signal(kind, late) for kind in (signal.SIGPROF, signal.SIGALRM)}
    signal.setitimer(signal.ITIMER_PROF, seconds)  # of computing; waiting is given longer, for a machine that is busy
    signal.alarm(12 * seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.alarm(0)
        for kind, handler in before.items():
            signal.signal(kind, handler)


def main(count: int, seed: int) -> int:
    bad = 0
    ends = {"refused": 0, "built": 0}
    slowest = 0.0
    with tempfile.TemporaryDirectory() as folder:
        for number in range(count):
            made = mutant(number, seed)
            outcome = judged(made, Path(folder))
            ends[outcome.ended] += 1
            slowest = max(slowest, outcome.seconds)
            if outcome.wrong:
                bad += 1
                print(f"-- {number} of seed {seed}, {made.name}: {'; '.join(made.told)}")
                print("\n".join(outcome.wrong))
    print(
        f"{count} mutants of seed {seed}: {ends['refused']} refused, {ends['built']} built, {bad} wrong; "
        f"slowest {slowest:.1f} s"
    )
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1))

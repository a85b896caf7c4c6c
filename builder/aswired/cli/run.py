"""The command `aswired`: the only place that prints or ends the program."""

from __future__ import annotations

import argparse
import contextlib
import dataclasses
import datetime
import json
import os
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rich.console import Console
from rich.text import Text

from aswired.cli.asking import parser
from aswired.files import check_job_names, find_jobs, read_job, read_shop
from aswired.physics.figure import Figure
from aswired.record import Job
from aswired.record.limits import Limit, in_force
from aswired.site.telling import (
    against_text,
    count,
    counted,
    cut_short_text,
    faults_text,
    group_text,
    leaks_text,
    left_text,
    not_made_text,
    reason,
    within,
)
from aswired.text.diagnostics import Fault, FaultList, Location, Severity, fault_text

if TYPE_CHECKING:
    from aswired.site.stage import Staged

FINE, FAULTY, BROKEN, STANDING = 0, 1, 2, 3
JOBS = Path("jobs")
HEAVY = {Severity.STOP: "bold red", Severity.ERROR: "red", Severity.WARNING: "yellow", Severity.NOTE: ""}


class Refusal(Exception):
    """What a person asked for cannot be done; the words say why and what to do. Ends with `code`."""

    def __init__(self, words: str, code: int = FAULTY) -> None:
        super().__init__(words)
        self.code = code


def main(arguments: Sequence[str]) -> int:
    """Run one command and give its exit code: 0 fine, 1 something to mend, 2 the machine failed, 3 see `check`."""
    asked = parser(COMMANDS).parse_args(arguments)
    try:
        code: int = asked.run(asked)
        sys.stdout.flush()
        return code
    except Refusal as refusal:
        _err().print(str(refusal), markup=False, highlight=False, soft_wrap=True)
        return refusal.code
    except KeyboardInterrupt:
        _err().print("Stopped before it was done.")
        return BROKEN
    except BrokenPipeError:  # the reader (less, head) went away
        sys.stderr.close()
        return FINE
    except Exception as error:
        name = type(error).__name__
        _err().print(
            f"aswired failed: {error} ({name}).\n"
            "If it was the disk or another program, mend that and run it again; otherwise this is a defect of aswired.",
            markup=False, highlight=False, soft_wrap=True,
        )  # fmt: skip
        return BROKEN


def _out() -> Console:
    return Console(file=sys.stdout, highlight=False)


def _err() -> Console:
    return Console(file=sys.stderr, highlight=False)


# ---- the commands ---------------------------------------------------------------------------------------------------
def check(asked: argparse.Namespace) -> int:
    """Faults of the files if there are any, else what is found about each car."""
    folders = _folders(asked.job)
    faults: list[Fault] = [*check_job_names(folders)]
    jobs: list[Job] = []
    for folder in folders:
        got = read_job(folder)
        faults += got.faults if asked.job else [within(folder.name, fault) for fault in got.faults]
        jobs += [got.job] if got.job else []
    if faults:
        return _tell_faults(tuple(dict.fromkeys(faults)))  # one in shop.yml is met by every job
    stands = [_tell_findings(job) for job in jobs]
    return STANDING if any(stands) else FINE


def _figure(figure: Figure) -> dict[str, object]:
    """A figure as JSON: what it lacks and where its inputs come from in words."""
    inputs = [
        {"name": given.name, "value": given.value, "unit": given.unit, "source": given.source, "write": given.write}
        for given in figure.inputs
    ]
    return {**dataclasses.asdict(figure), "inputs": inputs, "missing": figure.missing_words}


def figures(asked: argparse.Namespace) -> int:
    """Every computed figure of one job."""
    from aswired.work import work_out

    worked = work_out(_one_job(asked.job), _today())
    found = worked.all_figures()
    if asked.json:
        told = {
            "job": worked.job.slug,
            "view": worked.shown.name,
            "figures": [_figure(figure) for figure in found],
        }
        print(json.dumps(told, indent=2, ensure_ascii=False))
        return FINE
    for figure in found:
        value = "not recorded" if figure.value is None else f"{figure.value:.6g} {figure.unit}"
        print(f"{figure.key}: {value}  ({figure.name}; {figure.rule}: {figure.formula})")
        for given in figure.inputs:
            amount = "not recorded" if given.value is None else f"{given.value} {given.unit}".strip()
            print(f"    {given.name} = {amount}" + (f"  [{given.source}]" if given.source else ""))
        if figure.missing:
            print(f"    missing: {', '.join(figure.missing_words)}")
        if figure.note:
            print(f"    {figure.note}")
    return FINE


def build(asked: argparse.Namespace) -> int:
    """Make the site."""
    from aswired.site import run
    from aswired.site.publish import START, CutShort

    folders = _folders(asked.job)
    if asked.edition == "owner" and len(folders) > 1:
        raise Refusal("An owner's edition is for one car. Say which: aswired build --edition owner --job NAME")
    job = folders[0].name if asked.job or asked.edition == "owner" else ""
    out = Path(asked.out) if asked.out else _usual_out(asked.edition, job)
    order = run.order_for(folders[0].parent, out, asked.edition, job)
    there = os.path.exists(order.site_dir / START)

    def waiting() -> None:
        _say(f"Another build is at work in {out}; this one begins when it is done. Ctrl+C gives up.")

    try:
        staged = _with_progress(lambda tell: run.build(order, tell, waiting))
    except CutShort as error:
        raise Refusal(cut_short_text(error.reason, error.done, error.all), BROKEN) from None
    except OSError as error:
        raise Refusal(not_made_text(error, str(out) if there else ""), BROKEN) from None
    if staged.faults:
        return _tell_faults(staged.faults)
    if staged.leaks:
        told, number = leaks_text(staged.leaks, staged.written, staged.gone, staged.left)
        for text in told:
            _say(text, "red")
        _say(number)
        return FAULTY
    for notice in staged.notices:
        _say(notice, "yellow")
    if staged.left:
        _say(left_text(str(out), staged.left), "yellow")
    same = len(staged.manifest.jobs) - len(staged.made)
    _say(f"{count(len(staged.made), 'job')} made, {same} as before. Open {out / START}")
    return FINE


def serve(asked: argparse.Namespace) -> int:
    """Show the site on this machine and make it again as files change."""
    from aswired.site import serving

    folders = _folders("")

    def tell(staged: Staged | Exception) -> None:
        clock = datetime.datetime.now().strftime("%H:%M:%S")
        if isinstance(staged, Exception):
            _say(f"{clock}  not made: {staged}; the pages stay as they were")
            return
        for notice in staged.notices:
            _say(notice, "yellow")
        if staged.faults:
            _tell_faults(staged.faults, "the pages stay as they were")
        else:
            _say(f"{clock}  {count(len(staged.made), 'job')} made")

    _say(f"Open http://{serving.HOST}:{asked.port}/ in a browser; end with Ctrl+C.")
    try:
        serving.serve(folders[0].parent, asked.port, tell)
    except KeyboardInterrupt:  # while the first pages were made; later it is how serving ends
        return FINE
    except serving.PortTaken as taken:
        words = f"Port {asked.port} cannot be used ({taken}). Try: aswired serve --port 8001"
        raise Refusal(words, BROKEN) from None
    return FINE


def new(asked: argparse.Namespace) -> int:
    """Write a job to begin with."""
    from aswired.files.skeleton import fit_name, job_yml
    from aswired.files.writing import begin_job

    if not fit_name(asked.name):
        raise Refusal(f"'{asked.name}' cannot name a folder everywhere. Use letters, digits and dashes: green-van")
    path = JOBS / asked.name / "job.yml"
    others = (folder for folder in find_jobs(JOBS) if folder != path.parent)
    if fault := next((f for f in check_job_names((*others, path.parent)) if f.at.file == asked.name), None):
        raise Refusal(f"'{asked.name}' was not begun: {fault.problem}. {fault.mend}.")
    with _writing():
        made = begin_job(path.parent, job_yml(asked.name))
    if not made:
        raise Refusal(f"{path.parent} is there already. Take another name, or write on in it.")
    _say(f"Wrote {path}. Next: aswired check {asked.name}")
    return FINE


def allot(asked: argparse.Namespace) -> int:
    """Propose which offcut each planned piece is cut from; with --write, record it."""
    from aswired.files.writing import settle
    from aswired.rack import proposal_text, propose, record
    from aswired.rack.shelf import pieces_left, read_rack
    from aswired.work import work_out

    if asked.write:
        with _writing():
            settle(_folders(asked.job)[0].parent)
    job = _one_job(asked.job)
    jobs_dir = (job.folder or JOBS).parent
    rack, faults = read_rack(jobs_dir)
    if faults:
        return _tell_faults(faults)
    proposal = propose(work_out(job, _today()), pieces_left(jobs_dir, rack), asked.seconds)
    _say(proposal_text(proposal))
    if not asked.write:
        return FINE
    with _writing():
        written = record(proposal, job)
    _say(f"Wrote {' and '.join(path.name for path in written)}." if written else "Nothing to write.")
    return FINE


def sheets(asked: argparse.Namespace) -> int:
    """Write blank sheets to print and fill in by hand."""
    from aswired.photos.files import write_whole
    from aswired.site.blank import bench_sheets, is_untouched

    path = Path(asked.out)
    if os.path.lexists(path) and not (path.is_file() and is_untouched(path.read_bytes())):
        words = "what has this name is no page of blank sheets, or was changed since it was written"
        fault = Fault("OUT02", Location(asked.out), words, "Name another file: aswired sheets --out FILE")
        return _tell_faults((fault,))
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole(Path(os.path.realpath(path)), bench_sheets().encode())  # a link stays a link
    except OSError as error:
        raise Refusal(f"Not written: {reason(error)}.", BROKEN) from None
    _say(f"Wrote {path}. Open it in a browser and print it.")
    return FINE


def compare(asked: argparse.Namespace) -> int:
    """What differs between two moments of a car."""
    from aswired.car.differences import differences
    from aswired.sheets.differences import pair_of, pair_text, view_called
    from aswired.work import work_out

    worked = work_out(_one_job(asked.job), _today())
    found = [view_called(worked, name) for name in (asked.before, asked.after)]
    for name, view in zip((asked.before, asked.after), found, strict=True):
        if view is None:
            there = ", ".join(f"'{view.name}'" if " " in view.name else view.name for view in worked.views)
            raise Refusal(f"The job has no view '{name}'. It has: {there}.")
    before, after = [view for view in found if view is not None]
    print(pair_text(pair_of(differences(before, after), worked.job.units)))
    return FINE


def explain(asked: argparse.Namespace) -> int:
    """Say what a code means, which limits count, or what is not judged."""
    from aswired.checks.codes import code, near_codes
    from aswired.cli import explaining

    what = asked.what.strip()
    if asked.job and what != "limits":
        raise Refusal(f"Only limits differ from job to job: aswired explain limits {asked.job}")
    if what == "":
        print(explaining.list_text())
    elif what == "not-judged":
        print(explaining.unjudged_text())
    elif what == "limits":
        print(explaining.limits_text(_limits(asked.job)))
    elif found := code(what):
        print(explaining.code_text(found, _limits("")))
    else:
        near = " or ".join(near_codes(what))
        raise Refusal(f"'{what}' is no code. " + (f"Did you mean {near}?" if near else "All of them: aswired explain"))
    return FINE


def reference(asked: argparse.Namespace) -> int:
    """Print the format reference."""
    from aswired.cli.reference import reference as text

    print(text(), end="")
    return FINE


# ---- telling --------------------------------------------------------------------------------------------------------
def _say(words: str, style: str = "") -> None:
    _out().print(Text(words, style=style), soft_wrap=True)


@contextlib.contextmanager
def _writing() -> Iterator[None]:
    """Tell in plain words why something was not written."""
    from aswired.files.writing import NotWritten, Unfinished

    try:
        yield
    except NotWritten as error:
        raise Refusal(f"Not written. {error}") from None
    except Unfinished as error:
        words = f"Cut off while writing ({error}). What is half done is put right by the next aswired allot --write."
        raise Refusal(words, BROKEN) from None
    except OSError as error:
        words = f"Not written: {reason(error)}. Nothing was changed; mend that and run it again."
        raise Refusal(words, BROKEN) from None


def _tell_faults(faults: Sequence[Fault], then: str = "nothing was written") -> int:
    for fault in faults:
        head, _, rest = fault_text(fault).partition("\n")
        _say(head, "bold red")
        _say(rest)
    _say(faults_text(faults, then))
    return FAULTY


def _tell_findings(job: Job) -> bool:
    """One car: findings by severity, what was not examined, what the ledger says. True when something stands."""
    from aswired.photos.of_job import look_at, reasons
    from aswired.sheets.findings import grouped
    from aswired.sheets.ledger_head import head
    from aswired.sheets.overview import against, hand_over, let_stand
    from aswired.work import work_out

    worked = work_out(job, _today(), reasons(look_at(job)))
    _say(f"{job.job} ({job.slug}), {worked.shown.name}", "bold")
    for severity in Severity:
        open_ones = [found for found in worked.findings if found.severity == severity and not found.accepted_by]
        if open_ones:
            _say(count(len(open_ones), severity.word), HEAVY[severity])
            for group in grouped(open_ones):
                _say(group_text(group))
    accepted = let_stand(worked)
    if accepted:
        _say(f"let stand by a named person: {counted([found for group in accepted for found in group.findings])}")
        for group in accepted:
            _say(group_text(group))
    subjects = [thing.subject for thing in worked.not_examined]
    parts = ", ".join(f"{subject} {subjects.count(subject)}" for subject in dict.fromkeys(subjects))
    _say(f"not examined: {len(subjects)}" + (f" ({parts})" if parts else ""))
    told = head(worked)
    for sentence in told.sentences:
        _say(sentence.text, "bold")
    _say(told.wires_line)
    _say(told.fuses_line)
    verdict = hand_over(worked)
    answer = ": ".join(filter(None, [verdict.answer.casefold(), verdict.beside]))
    _say(f"{verdict.question.casefold():<24}{answer}")
    if worked.standing:
        _say(f"{'what stands against it?':<24}{against_text(against(worked))}")
    return bool(worked.standing)


def _with_progress(work: Callable[[Callable[[int, int, str], None]], Any]) -> Any:
    """Run `work`, showing which job is being made; on a terminal only."""
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    console = _err()
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
    with Progress(*columns, console=console, transient=True, disable=not console.is_terminal) as progress:
        task = progress.add_task("reading", total=None)
        return work(lambda done, total, name: progress.update(task, completed=done, total=total, description=name))


# ---- finding jobs ---------------------------------------------------------------------------------------------------
def _folders(name: str) -> tuple[Path, ...]:
    """The job folder with a name or path, or every job below `jobs/`.

    Raises:
        Refusal: there is none.
    """
    found = [_full(path) for path in find_jobs(JOBS)]
    if name:
        for folder in map(_full, (JOBS / name, Path(name))):
            if os.path.lexists(folder / "job.yml") or folder in found:
                return (folder,)
        there = ", ".join(path.name for path in found) or "none"
        raise Refusal(f"There is no job '{name}': no file {JOBS / name / 'job.yml'}. Jobs here: {there}.")
    if not found:
        raise Refusal("No folder below 'jobs' holds a job.yml. Begin a job with: aswired new NAME")
    return tuple(found)


def _full(folder: Path) -> Path:
    """A job folder by its full path. One that is linked into jobs/ from another disk keeps its name and its shop there;
    one that is named from elsewhere is where it really lies."""
    full = Path(os.path.abspath(folder))
    return full if full.parent == Path(os.path.abspath(JOBS)) else full.resolve()


def _one_job(name: str) -> Job:
    got = read_job(_folders(name)[0])
    if got.job is None:
        _tell_faults(got.faults)
        raise Refusal("Nothing is worked out while the files have faults.")
    return got.job


def _limits(job: str) -> Mapping[str, Limit]:
    """The thresholds that count for a job, or for the shop in whose folder this runs."""
    if job:
        return _one_job(job).limits_in_force
    faults = FaultList()
    shop = read_shop(JOBS, faults)
    if faults:
        _tell_faults(faults.sorted())
        raise Refusal("No limits while shop.yml has faults.")
    return in_force(shop.limits, None)


def _usual_out(edition: str, job: str) -> Path:
    """site/ for the whole shop, out/ for a single job: one build never takes away what the other made."""
    return Path("out") / f"{job}-{edition}" if job else Path("site")


def _today() -> datetime.date:
    return datetime.date.today()


COMMANDS: Mapping[str, Callable[[argparse.Namespace], int]] = {
    "new": new,
    "check": check,
    "build": build,
    "serve": serve,
    "figures": figures,
    "allot": allot,
    "compare": compare,
    "sheets": sheets,
    "explain": explain,
    "reference": reference,
}

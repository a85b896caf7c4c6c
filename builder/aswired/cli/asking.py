"""What can be asked on the command line, and the words of its help."""

from __future__ import annotations

import argparse
import re
from collections.abc import Callable, Mapping

from aswired import __version__
from aswired.private.editions import EDITIONS

LAST_PORT = 65535
Run = Callable[[argparse.Namespace], int]


def parser(runs: Mapping[str, Run]) -> argparse.ArgumentParser:
    """The parser of the whole command line. `runs`: name of a command -> what it runs, which gives the exit code."""
    whole = argparse.ArgumentParser(
        prog="aswired",
        description="Keeps the record of a rewired car: what was changed, where each splice lies, what to measure. "
        "Jobs are folders below 'jobs'; run it from the folder that holds 'jobs'.",
        epilog="Ends with 0 when all is well, 1 when something you wrote needs mending, 2 when the machine failed, "
        "3 from 'check' when a stop or an error stands against a car.",
    )
    whole.add_argument("--version", action="version", version=f"aswired {__version__}")
    commands = whole.add_subparsers(title="commands", metavar="COMMAND", required=True)

    def command(name: str, help: str) -> argparse.ArgumentParser:
        made = commands.add_parser(name, help=help, description=help[:1].upper() + help[1:] + ".")
        made.set_defaults(run=runs[name])
        return made

    one = command("new", "begin a job: writes a folder with a commented job.yml")
    one.add_argument("name", metavar="NAME", help="name of the folder, such as green-van")
    one = command("check", "read the jobs and say what is wrong: first in the files, then about the cars")
    one.add_argument("job", metavar="JOB", nargs="?", default="", help="one job's name or folder; without it, all")
    one = command("build", "make the site: pages to open from disk, on a phone, from a stick")
    one.add_argument("--edition", choices=EDITIONS, default="shop", help="owner leaves out all that is private")
    one.add_argument("--job", metavar="JOB", default="", help="this job alone")
    one.add_argument("--out", metavar="FOLDER", default="", help="where to (usually site, or out/JOB-EDITION for one)")
    one = command("serve", "show the site in the browser and make it again whenever a file is saved")
    one.add_argument("--port", type=_port, metavar="NUMBER", default=8000, help="another number when 8000 is taken")
    one = command("figures", "list every computed figure of a job with what it was computed from")
    one.add_argument("job", metavar="JOB", help="the job's name or folder")
    one.add_argument("--json", action="store_true", help="for other programs to read")
    one = command("allot", "propose which leftover wire each planned piece of a job is cut from")
    one.add_argument("job", metavar="JOB", help="the job's name or folder")
    one.add_argument("--write", action="store_true", help="record the proposal in the job's files")
    one.add_argument("--seconds", type=_seconds, metavar="NUMBER", default=60, help="when to stop (usually 60)")
    one = command("compare", "say what differs between two moments of a car")
    one.add_argument("job", metavar="JOB", help="the job's name or folder")
    one.add_argument("before", metavar="FROM", help="donor, 'revision 1', 'handed over', now or plan")
    one.add_argument("after", metavar="TO", help="another of them")
    one = command("sheets", "write blank sheets for the bench, one for each kind of change, to print")
    one.add_argument("--out", metavar="FILE", default="bench-sheets.html", help="usually bench-sheets.html")
    one = command("explain", "say what a code means and what to write instead; without a code, list all")
    one.add_argument("what", metavar="CODE", nargs="?", default="", help="a code such as END01; or limits, not-judged")
    one.add_argument("job", metavar="JOB", nargs="?", default="", help="behind limits: those of this job")
    command("reference", "print what a job file may hold: every key, how it is written, what it says")
    return whole


def _port(text: str) -> int:
    if not re.fullmatch("[0-9]{1,5}", text) or not 1 <= int(text) <= LAST_PORT:
        raise argparse.ArgumentTypeError(f"'{text}' is not a number from 1 to {LAST_PORT}; try 8001")
    return int(text)


def _seconds(text: str) -> float:
    if not re.fullmatch(r"[0-9]{1,6}(\.[0-9]{1,6})?", text):
        raise argparse.ArgumentTypeError(f"'{text}' is not a number of seconds; try 60")
    return float(text)

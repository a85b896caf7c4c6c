"""A small job with its views filled out by hand: what pages are tested on, apart from the fold and the figures."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from aswired.car.circuits import Circuit, CircuitFigures, Drops, Path, PathStep
from aswired.car.harness import CutPiece, FuseState, Joint, Node, NodeKind, RowResult, Stretch, View, WireState
from aswired.car.route import Route
from aswired.figures.fuses import FuseSummary
from aswired.figures.grounds import GroundSummary
from aswired.figures.places import PlacedJoint
from aswired.figures.worked import JobResult
from aswired.network.grid import Grid
from aswired.network.transfer import UnitSolutions
from aswired.physics.figure import Figure, Input, Missing
from aswired.record import Accepted, Change, Fuse, Job, Leg, Load, Mark, MeterReading, Module, Photo, Plug, Usual, Wire
from aswired.text.colours import read_colour
from aswired.text.diagnostics import Finding, Location, NotExamined, Severity
from aswired.text.one_line import read_done, read_fate, read_joint, read_offcut, read_piece
from aswired.text.units import read_length, read_quantity, read_reading, read_size

NASTY = "<script>alert(\"x\")</script> & 'quote' </style>"
TODAY = datetime.date(2031, 6, 12)
NO_LETTERS: Mapping[str, str] = {}


def done(text: str) -> Any:
    return read_done(text, NO_LETTERS)


def change(id: str, kind: str, **fields: Any) -> Change:
    return Change(id=id, kind=kind, **fields)


def wire(colour: str, size: str, from_: str, to: str, **fields: Any) -> Wire:
    return Wire(colour=read_colour(colour), size=read_size(size), from_=from_, to=to, **fields)


def job() -> Job:
    """Eight rows: every kind of fate that a row can have, and every field that a page shows."""
    piece = {
        "W31": read_piece("BU 18 AWG", NO_LETTERS),
        "W34": read_piece("BK 16 AWG from O3", NO_LETTERS),
    }
    return Job(
        job="Trail truck",
        vehicle="ladder-frame light truck, composite cab, for a mountain fire-watch crew",
        donor="2000s estate car",
        revision="3",
        units="inch",
        supply=read_quantity("13.5 V", "V"),
        temperature=read_quantity("20 C", "C"),
        ground_side="negative",
        left_and_right="as seated, looking forward",
        usual=Usual(joint=read_joint("lap, soldered", NO_LETTERS), overlap=read_length("10 mm")),
        private={"customer": "A. Example"},
        cautions=("Isolator Q1 is behind the cab; take its key before any work.",),
        landmarks={"bulkhead": "rubber grommet", "nose-split": "takeout behind the left inner wing"},
        route=(Leg(from_="bulkhead", to="nose-split", length=read_length("34 in")),),
        plugs={
            "worklamp-left": Plug(
                ways="9",
                seen_from="wire side",
                place="nose-split",
                cavities_not_examined=("1", "2"),
                note="Lock broken.",
            ),
            "siren-plug": Plug(ways="2", seen_from="wire side"),
            "roof-wiper": Plug(ways="2", gone=True),
        },
        fuses={"F7": Fuse(rating=read_quantity("15 A", "A"), fed="ignition")},
        modules={
            "cab-unit": Module(out={"14": "switched feed from F9"}, ground=("31",), cavities_not_examined=("others",))
        },
        loads={
            "work lamp left": Load(between=("worklamp-left.3", "worklamp-left.5")),
            "siren": Load(between=("siren-plug.1", "siren-plug.2")),
            "roof wiper": Load(between=("roof-wiper.1", "roof-wiper.2"), verdict="deleted"),
        },
        wires={
            "W31": wire("VT/WH", "18 AWG", "FS4", "worklamp-left.3", circuit="work lamp feed"),
            "W34": wire("BN", "16 AWG", "worklamp-left.5", "FS9"),
            "W50": wire("BN", "1.5 mm2", "FS9", "G2"),
            "W60": wire("BU/WH", "unknown", "FS4", "roof-wiper.1"),
            "W71": wire("GN/YE", "0.5 mm2", "unknown", "unknown", special="anti-lock"),
            "W80": wire("unknown", "unknown", "unknown", "cab-unit.14"),
        },
        changes=(
            change(
                "C30",
                "remove",
                wires={
                    "W60": {"roof-wiper.1": read_fate("gone", NO_LETTERS), "FS4": read_fate("capped 30 mm", NO_LETTERS)}
                },
                reclaimed={"O12": read_offcut("BU/WH 6 ft 2 in", NO_LETTERS)},
                why="no roof wiper on this body",
                made=done("2031-05-03 AK"),
                sealed=done("2031-05-03 AK"),
                minutes=read_quantity("12", "min"),
            ),
            change(
                "C14",
                "extend",
                plug="worklamp-left",
                gap=read_length("18 in"),
                pigtail=read_length("6 in"),
                stagger=read_length("2 in"),
                wires=piece,
                photos=("P2", "P9"),
                made=done("2031-05-04 AK"),
            ),
            change(
                "C21",
                "ground",
                wire="W50",
                end="G2",
                to="L1",
                gap=read_length("23 in"),
                piece=read_piece("BK 14 AWG", NO_LETTERS),
                made=done("2031-05-04 AK"),
                tested=done("2031-05-09 MB"),
                shop_note="customer wanted chrome bolt",
                accepted=(Accepted(finding="GND02", by="AK", why="fifth ring is a sensor"),),
            ),
            change("C22", "shorten", wire="W34", made=done("2031-05-05 AK")),
            change("C23", "shorten", wire="W34", corrects="C22", made=done("yes"), take_out=read_length("3 in")),
            change("C24", "extend", wire="W50", gap=read_length("40 mm")),
            change(
                "C33",
                "bridge",
                wire="W80",
                why="gearbox is manual now",
                made=done("2031-05-06 MB"),
                tested=done("2031-05-09 MB"),
            ),
            change(
                "C35", "verify", proves=("C14", "C21"), test="drop, L1 to battery-, work lamp on", expect="under 0.1 V"
            ),
        ),
        photos=(
            Photo(
                id="P2",
                file="photos/0143.jpg",
                shows=("C14",),
                stage="bare joint",
                caption="First joint with rule",
                hide=((0.7, 0.1, 0.2, 0.08),),
                marks=(
                    Mark(ring=(0.42, 0.31, 0.05), of="C14-W31-plug", says="first joint"),
                    Mark(arrow=(0.1, 0.9, 0.3, 0.6), of="worklamp-left"),
                ),
            ),
            Photo(id="P9", file="photos/0150.jpg", publish=False, caption="Customer's plate in the frame"),
        ),
        readings=(
            MeterReading(
                id="R3",
                of="C21",
                red="L1",
                black="battery-",
                with_="work lamp and siren on",
                read=read_reading("60 mV"),
                limit=read_reading("0.1 V"),
                supply=read_quantity("12.6 V", "V"),
                on=done("2031-05-09"),
                by="AK",
            ),
            MeterReading(id="R4", of="C14", read=read_reading("0.6 V"), limit=read_reading("0.3 V")),
            MeterReading(id="R5", read=read_reading("not measured")),
            MeterReading(id="R6", red="F7", black="battery-", read=read_reading("12.4 V")),
        ),
        slug="trail-truck",
    )


def stretch(name: str, a: str, b: str, colour: str, size: str, origin: str = "") -> Stretch:
    ends = (min(a, b), max(a, b))
    return Stretch(name, ends, read_colour(colour), read_size(size), 500.0, 495.0, origin)


def view(
    name: str, day: datetime.date | None, stretches: tuple[Stretch, ...], rows: tuple[RowResult, ...], job: Job
) -> View:
    kinds = {"FS": NodeKind.SPLICE, "F7": NodeKind.FUSE, "L1": NodeKind.GROUND, "G2": NodeKind.GROUND}
    names = dict.fromkeys(end for item in stretches for end in item.ends)
    nodes = {
        node: Node(
            node,
            NodeKind.MODULE
            if node.startswith("cab-unit")
            else NodeKind.CAVITY
            if "." in node
            else NodeKind.JOINT
            if node.startswith("C")
            else kinds.get(node[:2], NodeKind.UNKNOWN),
            made_by=node.split("-")[0] if node.startswith("C") else "",
        )
        for node in names
    }
    states = {
        wire: WireState(
            wire,
            item.colour,
            item.size,
            (item.from_, item.to),
            removed_by="C30" if wire == "W60" and name != "donor" else "",
        )
        for wire, item in job.wires.items()
    }
    for item in stretches:
        states.setdefault(item.wire, WireState(item.wire, item.colour, item.size, item.ends))
    fuses = {fuse: FuseState(fuse, facts, True) for fuse, facts in job.fuses.items()}
    return View(name, day, nodes, stretches, {}, (), rows, (), {}, states, (), (), (), fuses)


def figure(key: str, name: str, value: float | None, unit: str, missing: tuple[str, ...] = ()) -> Figure:
    return Figure(
        key,
        name,
        value,
        unit,
        "extend, two joints (L3)",
        "e = gap + slack + o1 + o2",
        (
            Input("gap", 457.2, "mm", "C14 gap"),
            Input("slack", None, "mm", "usual slack"),
            Input("o1", 10.0, "mm", "usual overlap"),
        ),
        tuple(map(Missing, missing)),
    )


def worked(job: Job | None = None, nothing_made: bool = False) -> JobResult:
    """The job worked out by hand."""
    job = job or globals()["job"]()
    donor_wires = (
        stretch("W30", "F7", "FS4", "GN", "14 AWG"),
        stretch("W31", "FS4", "worklamp-left.3", "VT/WH", "18 AWG"),
        stretch("W34", "FS9", "worklamp-left.5", "BN", "16 AWG"),
        stretch("W50", "FS9", "G2", "BN", "1.5 mm2"),
        stretch("W60", "FS4", "roof-wiper.1", "BU/WH", "unknown"),
        stretch("W80", "cab-unit.14", "unknown", "unknown", "unknown"),
    )
    now_wires = (
        donor_wires[0],
        stretch("W31", "FS4", "C14-W31-loom", "VT/WH", "18 AWG"),
        stretch("W31", "C14-W31-loom", "C14-W31-plug", "BU", "18 AWG", "C14"),
        stretch("W31", "C14-W31-plug", "worklamp-left.3", "VT/WH", "18 AWG"),
        stretch("W34", "FS9", "worklamp-left.5", "BN", "16 AWG"),
        stretch("W50", "FS9", "L1", "BK", "14 AWG", "C21"),
        donor_wires[5],
    )
    rows = (
        RowResult("C30", "in force", touched_wires=("W60",)),
        RowResult("C14", "in force", touched_wires=("W31", "W34")),
        RowResult("C21", "in force", touched_wires=("W50",), moved_with=("W34",)),
        RowResult("C22", "corrected", by="C23"),
        RowResult("C23", "in force", touched_wires=("W34",)),
        RowResult("C24", "not yet"),
        RowResult("C33", "in force", touched_wires=("W80",)),
        RowResult("C35", "not yet"),
    )
    planned = tuple(
        replace(row, status="refused", why="W50 has no end G2 any more")
        if row.id == "C24"
        else replace(row, status="in force")
        if row.status == "not yet"
        else row
        for row in rows
    )
    cut = figure("C14-W31.cut", "cut length of the piece in W31", 527.2, "mm")
    unknown = figure("C14-W34.cut", "cut length of the piece in W34", None, "mm", ("slack",))
    donor, now = view("donor", None, donor_wires, (), job), view("now", TODAY, now_wires, rows, job)
    plan = replace(view("plan", None, now_wires, planned, job), figures=(cut, unknown))
    at = Location("changes.yml", 14, "  wire: W31")
    joint = Joint("C14-W31-loom", "C14", ("W31",), None, 10.0, None, "FS4", 300.0)
    volt = figure("siren.drop", "lost on the way", 0.42, "V")
    drops = Drops(volt, volt, volt)
    path = Path(tuple(PathStep("stretch", item.name, stretch=item) for item in now_wires[:3]), "complete")
    none = Path((), "open", "removed")
    circuits = {
        "work lamp left": Circuit(
            "work lamp left", "worklamp-left.3", "worklamp-left.5", path, none, ("F7",), "L1", (), ()
        ),
        "siren": Circuit("siren", "", "", none, none, (), "", (), ()),
    }
    known = figure("x", "amperes", 4.3, "A")
    return JobResult(
        job=job,
        route=Route(job),
        network=UnitSolutions(
            Grid(job, plan if nothing_made else now), {name: circuits[name] for name in job.kept_loads}
        ),
        donor_network=UnitSolutions(Grid(job, donor), {name: circuits[name] for name in job.kept_loads}),
        donor=donor,
        now=now,
        plan=plan,
        handed_over=None,
        shown=plan if nothing_made else now,
        circuits=circuits,
        donor_circuits=circuits,
        loads=job.loads,
        circuit_figures={
            name: CircuitFigures(name, known, volt, volt, drops, drops, drops, volt, True, None) for name in circuits
        },
        joints=(
            PlacedJoint(
                joint,
                "made",
                "5 in from bulkhead towards nose-split",
                0,
                127.0,
                ("wet",),
                figure("C14-W31-loom.centre", "centre of the splice from FS4", 300.0, "mm"),
                (),
            ),
        ),
        pieces=(
            CutPiece(
                "C14-W31",
                "C14",
                "W31",
                read_colour("BU"),
                read_size("18 AWG"),
                "",
                cut,
                530.0,
                507.2,
                read_colour("VT/WH"),
                530.0,
            ),
            CutPiece(
                "C14-W34",
                "C14",
                "W34",
                read_colour("BK"),
                read_size("16 AWG"),
                "O3",
                unknown,
                None,
                None,
                read_colour("BN"),
                None,
            ),
        ),
        grounds=(
            GroundSummary("L1", None, "in use", (), 4, ("W50",), ("work lamp left",), (), "battery-", known, volt),
        ),
        fuses=(FuseSummary("F7", job.fuses["F7"], ("work lamp left",), known, None, known, True, False),),
        findings=(
            Finding(
                "END01",
                Severity.STOP,
                at,
                "C30-W60-FS4",
                "W60 is cut and its feed-side end has no cap.",
                "Cap the end, or write how it was closed.",
            ),
            Finding(
                "PLC02",
                Severity.ERROR,
                at,
                "C14-W31-loom",
                "The splice has a distance but no landmark.",
                "Add the landmark to where:.",
            ),
            Finding(
                "SPL03",
                Severity.WARNING,
                at,
                "C14",
                "Two splices lie 45 mm apart; 50 mm is wanted.",
                "None needed if the sleeves do not touch; say so.",
            ),
            Finding(
                "GND02",
                Severity.ERROR,
                at,
                "C21",
                "L1 carries five rings.",
                "Move one ring.",
                "AK",
                "fifth ring is a sensor",
            ),
            Finding("GND11", Severity.NOTE, at, "C21", "The torque is not recorded.", "Write it, or leave it."),
        ),
        not_examined=(
            NotExamined("cavities", "worklamp-left", "cavities 1 and 2 were not looked at", Location("harness.yml", 5)),
            NotExamined("wires", "W80", "its colour and size were not read", Location("harness.yml", 9)),
            NotExamined("cavities", "cab-unit", "all other cavities", Location("harness.yml", 7)),
        ),
    )

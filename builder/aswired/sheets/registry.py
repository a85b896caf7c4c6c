"""The sheets of a job: number, name, purpose and edition of each, in one table. Every link names a sheet by its name.

A sheet is the module of the same name in this room: its rows, and `pages(frame)`, which gives them to its template.
Below them stand the pages above the jobs that are looked up.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Sheet:
    """One of the numbered sheets of a job. The number is the same in every job. `shop_only`: no owner's edition."""

    number: int
    name: str  # of its module, and in links
    title: str
    file: str  # its address within the job
    purpose: str
    shop_only: bool = False


SHEETS = (
    Sheet(1, "overview", "Overview", "index.html", "what a person must know first"),
    Sheet(2, "changes", "Changes", "changes.html", "one entry for each row of the change list"),
    Sheet(
        3,
        "circuits",
        "Circuits",
        "circuits.html",
        "all circuits, and each from its feed to battery negative",
    ),
    Sheet(4, "splices", "Splices", "splices.html", "the splices by tape measure, and the route they lie on"),
    Sheet(5, "extensions", "Extensions", "extensions.html", "the pieces of wire put in, their sums, and the offcuts"),
    Sheet(6, "grounds", "Grounds", "grounds.html", "the ground points, and how the current comes home"),
    Sheet(7, "fuses", "Fuses", "fuses.html", "the fuses, what each feeds, and whether it suits its wires"),
    Sheet(8, "connectors", "Connectors", "connectors.html", "connectors and modules, cavity by cavity"),
    Sheet(9, "photos", "Photos", "photos.html", "the photographs with their marks"),
    Sheet(10, "readings", "Readings", "readings.html", "meter readings, and the checks that ask for them"),
    Sheet(11, "not_examined", "Not examined", "not-examined.html", "what nobody looked at or wrote down"),
    Sheet(12, "record", "Service record", "record.html", "what a stranger must know years later, to print"),
    Sheet(
        13,
        "worksheet",
        "Work sheet",
        "worksheet.html",
        "planned rows as steps, and wire flags to print",
        shop_only=True,
    ),
    Sheet(14, "bundles", "Bundles", "bundles.html", "how thick the harness is along its route, and what goes over it"),
    Sheet(15, "differences", "Differences", "differences.html", "what differs between any two moments of the car"),
    Sheet(16, "materials", "Material", "material.html", "what is to buy, what was used, batch numbers", shop_only=True),
    Sheet(17, "tests", "Tests", "tests.html", "what a meter shows, in the order in which the car is put under power"),
    Sheet(18, "wires", "Wires", "wires.html", "is every wire accounted for: against, not shown, proved"),
)
SHEET = {sheet.name: sheet for sheet in SHEETS}


@dataclass(frozen=True)
class Help:
    """What stands above the jobs to be looked up, in the shop's edition only: its title and its address in the site."""

    title: str
    uri: str


MANUAL = Help("Manual", "manual/index.html")
CODES = Help("What the codes mean", "codes.html")
HELP = (MANUAL, CODES)  # at the foot of every page

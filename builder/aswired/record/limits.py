"""The thresholds that checks are held to: one table with its sources, and what a shop or a job sets in their place.

A `Limit` is a number with a unit. The table below holds what counts when nobody says otherwise; `limits:` in
`shop.yml` or in a job overrides single lines of it, and the figure then says so.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, cast

from aswired.text.one_line import read_count
from aswired.text.schema import Located, Scalar, keyed
from aswired.text.units import QuantityError, read_length, read_quantity, read_size

MANUALS = "vehicle makers' repair manuals, several"
FAA = "AC 43.13-1B"
NASA = "NASA-STD-8739.4"
READ, MEMORY, PRACTICE, HOUSE = "read", "from memory", "common practice, no source", "house value"


@dataclass(frozen=True)
class Limit:
    """One threshold. `unit` is mm, V, A, C, mm2, %, or '' for a plain count; `mark` says how the number was had."""

    key: str
    value: float
    unit: str
    what: str
    source: str
    mark: str


TABLE: tuple[Limit, ...] = (
    Limit("joint clear", 40, "mm", "splice to connector, branch or next splice", MANUALS, READ),
    Limit("joint stagger", 50, "mm", "between neighbouring splices", MANUALS + " (2 in)", READ),
    Limit("sleeve over overlap", 25, "mm", "sleeve longer than the overlap by", MANUALS + " (12 mm a side)", READ),
    Limit("lap least", 3, "", "shortest lap, in conductor diameters", NASA, READ),
    Limit("lap most", 6, "", "longest lap, in conductor diameters", NASA, READ),
    Limit("solder largest", 1.5, "mm2", "largest wire that is soldered", "one vehicle maker: 16 AWG", READ),
    Limit("joints in a wire", 2, "", "most made splices in one wire between connectors", MANUALS, PRACTICE),
    Limit("place apart", 20, "mm", "recorded and computed place may differ by", "", HOUSE),
    Limit("length apart", 20, "mm", "recorded and computed length may differ by", "", HOUSE),
    Limit("pair pieces apart", 5, "mm", "pieces of a twisted pair may differ by", "", PRACTICE),
    Limit("pair joints clear", 20, "mm", "joints of a pair nearer than this lie side by side", MANUALS, PRACTICE),
    Limit("untwisted", 50, "mm", "longest untwisted run of a twisted pair", MANUALS, READ),
    Limit("terminal steps", 2, "", "piece above what terminal or seal takes, in steps of size", MANUALS, PRACTICE),
    Limit("size unread above", 5, "A", "load above which a size that was not read is told", "", HOUSE),
    Limit("rings per stud", 4, "", "most rings on one stud", FAA + " para 11-174", READ),
    Limit("stack apart", 1, "A", "current by which a ring may lie under a larger one", "", HOUSE),
    Limit("rise warning", 0.10, "V", "rise of a ground point that is told", "teaching: ground connection", PRACTICE),
    Limit("rise error", 0.20, "V", "rise of a ground point that is an error", "teaching: cable run", PRACTICE),
    Limit("fuse share", 80, "%", "of a fuse, for a continuous load", "body-builder guides: load x 1.25", READ),
    Limit("fuse from source", 300, "mm", "unprotected wire between source and fuse", "", PRACTICE),
    Limit("link longest", 230, "mm", "longest fusible link", MANUALS + " (9 in)", READ),
    Limit("link steps", 4, "", "gauge numbers a fusible link is smaller than the wire it protects", MANUALS, READ),
    Limit("hot zone", 105, "C", "a zone marked hot with no temperature of its own", "", HOUSE),
    Limit("heat of PVC", 85, "C", "hottest place for PVC insulation", MANUALS + " (80 to 85 C)", READ),
    Limit("heat of cross-linked", 125, "C", "hottest place for cross-linked insulation", MANUALS, READ),
    Limit(
        "heat of silicone", 180, "C", "hottest place for silicone insulation", "silicone cable, usual rating", MEMORY
    ),
    Limit("heat of fluoropolymer", 150, "C", "hottest place for fluoropolymer", "ETFE, the lowest of them", MEMORY),
    Limit("vinyl tape", 80, "C", "vinyl tape is kept below", MANUALS, READ),
    Limit("conduit over bundle", 10, "%", "bore of a conduit above the bundle's diameter", "", PRACTICE),
    Limit("worse by", 0.1, "V", "drop above that of the donor that is told", "", HOUSE),
    Limit("lamp volts", 85, "%", "of its design voltage, at the socket of a lamp", "California 13 CCR 1249(c)", READ),
    Limit("fed backwards", 1.0, "V", "over a load that is off, when a ground has opened", "", PRACTICE),
    Limit("relay pulls in", 65, "%", "of the system's voltage at which a coil closes", "relay data sheets", MEMORY),
    Limit("relay lets go", 10, "%", "of the system's voltage below which a coil opens", "relay data sheets", MEMORY),
    Limit("band of wire", 10, "%", "a real wire's resistance against its table's", "", HOUSE),
    Limit("band of allowances", 50, "%", "a stated allowance against the real contact", "", HOUSE),
    Limit("band of draws", 15, "%", "a load's current against what is recorded", "", HOUSE),
    Limit("band least", 0.03, "V", "least band of an expected drop, either way", "", HOUSE),
    Limit("key-off draw", 0.05, "A", "most current with everything off", "teaching: parasitic draw, 25 to 50 mA", READ),
    Limit("keep offcut", 150, "mm", "shortest rest worth keeping on the rack", "", HOUSE),
    Limit("trim", 30, "mm", "added to a piece when it is cut from an offcut", "", PRACTICE),
)


def _length(text: str) -> float:
    return _not_below_zero(text, read_length(text).mm)


def _degrees(text: str) -> float:
    return _not_below_zero(text, read_quantity(text, "C").value)


def _not_below_zero(text: str, value: float | None) -> float:
    """The number of a limit that nothing could keep, or nothing miss, if it were below zero."""
    if value is not None and value < 0:
        raise QuantityError(f"'{text}' is below zero", "Write it without the minus, or take the line out")
    return _known(text, value)


def _known(text: str, value: float | None) -> float:
    if value is None:
        raise QuantityError(f"'{text}' is no limit", "Write a number, or take the line out: then the table counts")
    return value


def read_share(text: str) -> float:
    """`80 %`, `80`: a share in percent."""
    number = text.strip().removesuffix("%").strip()
    if not re.fullmatch(r"[0-9]{1,9}(?:\.[0-9]{1,9})?", number):
        raise QuantityError(f"'{text}' is not a share", "Write it like 80 %")
    return float(number)


_READERS: Mapping[str, tuple[str, Callable[[str], float]]] = {
    "mm": ("50 mm, 2 in", _length),
    "V": ("0.1 V", lambda text: _known(text, read_quantity(text, "V").value)),
    "A": ("5 A", lambda text: _known(text, read_quantity(text, "A").value)),
    "C": ("105 C", _degrees),
    "mm2": ("1.5 mm2", lambda text: _known(text, read_size(text).number if "mm" in text else None)),
    "%": ("80 %", read_share),
    "": ("4", lambda text: float(read_count(text, {}))),
}


def value_text(limit: Limit) -> str:
    """The number as people write it: `40 mm`, `80 %`, `4`."""
    return f"{limit.value:g} {limit.unit}".strip()


def _attribute(key: str) -> str:
    return key.replace(" ", "_").replace("-", "_")


def _scalar(unit: str) -> Scalar:
    how, read = _READERS[unit]
    return Scalar("limit", how, lambda text, _: read(text))


Limits = cast(
    type[Located],
    dataclasses.make_dataclass(
        "Limits",
        [
            (
                _attribute(line.key),
                Any,
                keyed(_scalar(line.unit), line.what, example=value_text(line), key=line.key),
            )
            for line in TABLE
        ],
        bases=(Located,),
        frozen=True,
        namespace={"__doc__": "Thresholds set in place of the table's. `aswired explain limits` shows the table."},
    ),
)


def in_force(shop: Located | None, job: Located | None) -> Mapping[str, Limit]:
    """Key -> the limit that counts: the job's, else the shop's, else the table's."""
    found = {line.key: line for line in TABLE}
    for record, whose in ((shop, "set for this shop"), (job, "set for this job")):
        for key, line in list(found.items()):
            value = getattr(record, _attribute(key), None)
            if record is not None and value is not None:
                found[key] = dataclasses.replace(line, value=value, source=str(record.line_of(key)), mark=whose)
    return found

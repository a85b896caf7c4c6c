"""Sheet 8: connectors and modules, cavity by cavity."""

from __future__ import annotations

from collections.abc import Iterable

from aswired.figures.worked import Worked
from aswired.pages.frame import PageOut, ShopFacts, frame_of
from aswired.sheets.connectors import connector_views, module_views
from aswired.sheets.findings import standing_at
from aswired.sheets.looms import loom_rows
from aswired.sheets.recorded import wire_notes


def pages(worked: Worked, shop: ShopFacts) -> Iterable[PageOut]:
    """The connectors."""
    yield frame_of(worked, shop).page(
        "connectors.html",
        "connectors.html",
        connectors=connector_views(worked),
        modules=module_views(worked),
        looms=loom_rows(worked),
        findings=standing_at(worked.findings, (*worked.job.plugs, *worked.job.modules)),
        wires=wire_notes(worked),
        drawn={name: wire.by_diagram for name, wire in worked.job.wires.items() if wire.by_diagram},
        loom_of=worked.job.loom_of,
    )

"""The pages of a job and of the shop: rows in, templates filled out; nothing is computed here.

Each module of `PAGES` offers `pages(worked, shop)`; they stand in the order of the sheets. The pages above the jobs
(`jobs`, `find`) take summaries instead.
"""

from __future__ import annotations

from aswired.pages import (
    bundles,
    changes,
    circuits,
    connectors,
    differences,
    extensions,
    fuses,
    grounds,
    materials,
    not_examined,
    overview,
    pictures,
    readings,
    record,
    splices,
    tests,
    worksheet,
)

PAGES = (
    overview,
    changes,
    circuits,
    splices,
    extensions,
    grounds,
    fuses,
    connectors,
    pictures,
    readings,
    not_examined,
    record,
    worksheet,
    bundles,
    differences,
    materials,
    tests,
)

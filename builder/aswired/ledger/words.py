"""Words for what the ledger says."""

from __future__ import annotations

from aswired.ledger.record import Reason
from aswired.record import Job


def reason_words(reason: Reason, job: Job) -> tuple[str, str]:
    """What is so, and what to write or do."""
    return f"{reason.of}: {reason.why}", "Mend it"

"""Leftover wire for one job: which piece is cut from which offcut, what has to be bought, and its writing back."""

from aswired.rack.propose import Proposal, propose
from aswired.rack.record import record
from aswired.rack.words import proposal_text

__all__ = ["Proposal", "proposal_text", "propose", "record"]

"""Texts as no person writes them, by chance: what a reader and a writer of files have to stand."""

from __future__ import annotations

import random

SIGNS = [
    "?", "? ", ":", ": ", "- ", "-", "\t", "\n", "\r\n", "\r", "\x85", "\u2028", "\ufeff", "\U0001f600", "{", "}", "[",
    "]", ",", "'", '"', "|", "|+\n", ">", "#", " #", "  ", "%", "@", "`", "!", "!x ", "&", "&a ", "*", "*a", "\n...\n",
    "\n---\n", "\\", "\\x", "\\ud800", "~", "é", "\u00a0", "\x07", "|2", "\n\n", "%YAML 1.1\n", "|-\t", "\n\t", "''",
    "? a\n:", "!!str ", "!x!y ", "!<x> ", "{a: !b,c}", "%20", "[!x, y]",
]  # fmt: skip


def some_lines(chance: random.Random, text: str) -> str:
    """A few lines of a text, now and then its first thousands of characters."""
    lines = text.splitlines(keepends=True)
    start = chance.randrange(len(lines))
    return "".join(lines[start : start + chance.randrange(1, 15)]) if chance.random() < 0.8 else text[:4000]


def mutated(chance: random.Random, text: str, hits: int) -> str:
    """A text, hit some times: signs put in, taken out, moved, other line ends."""
    for _ in range(hits):
        at, what = chance.randrange(len(text) + 1), chance.random()
        if what < 0.6:
            text = text[:at] + chance.choice(SIGNS) + text[at:]
        elif what < 0.8:
            text = text[:at] + text[at + chance.randrange(1, 4) :]
        elif what < 0.9:
            end = min(len(text), at + chance.randrange(1, 30))
            text = text[:at] + text[end:] + text[at:end]
        else:
            text = text.replace("\n", chance.choice(["\r\n", "\r", "\u2028", "\n\n", "\n "]), chance.choice([1, -1]))
    return text

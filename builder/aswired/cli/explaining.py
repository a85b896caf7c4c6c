"""What `aswired explain` prints: one code, all codes by subject, the limits in force, what is not judged.

The texts are those of `codes` and `limits`; the site shows the same ones.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping

from aswired.checks.codes import FAULT, Code, all_codes, subjects, unjudged
from aswired.record.limits import Limit, told

WIDTH = 100


def code_text(code: Code, limits: Mapping[str, Limit]) -> str:
    """One code: what it says, what that means, why it matters, and lines that raise it and lines that do not."""
    lines = [f"{code.code}  {', '.join(code.ranks)}", *_wrapped(_sentence(code.says), ""), ""]
    lines += [*_wrapped(code.means, ""), *_wrapped(f"Why it matters: {code.why}", "")]
    if code.limits:
        lines += ["", "Held to:", *(f"  {limit_text(limits[key])}" for key in code.limits)]
    lines += ["", "Raises it:", *_indented(code.example), "", "Does not:", *_indented(code.instead)]
    if FAULT not in code.ranks:
        by_name = f"accepted: {{finding: {code.code}, of: C1, by: AK, why: the reason}}"
        lines += ["", "Let stand by a named person, in the header, or without of: on its row:", f"    {by_name}"]
    return "\n".join(lines)


def list_text() -> str:
    """Every code with its ranks and its line, by subject."""
    lines: list[str] = []
    wide = max(len(", ".join(code.ranks)) for code in all_codes())
    for title, codes in subjects():
        lines += ["", title]
        lines += [f"  {code.code}  {', '.join(code.ranks):<{wide}}  {code.says}" for code in codes]
    lines += ["", "More on one: aswired explain CODE. Also: aswired explain limits, aswired explain not-judged"]
    return "\n".join(lines[1:])


def limit_text(limit: Limit) -> str:
    """`joint clear: 40 mm. Splice to connector, ... [vehicle makers' repair manuals, several; read]`"""
    source = "; ".join(filter(None, [limit.source, limit.mark]))
    return f"{limit.key}: {told(limit)}, {limit.what} [{source}]"


def limits_text(limits: Mapping[str, Limit]) -> str:
    """The table of thresholds as it counts."""
    wide = max(len(key) for key in limits)
    lines = []
    for limit in limits.values():
        source = "; ".join(filter(None, [limit.source, limit.mark]))
        lines.append(f"{limit.key:<{wide}}  {told(limit):>8}  {limit.what}  [{source}]")
    lines += ["", "Set one in place of the table's: limits: {joint clear: 50 mm}, in jobs/shop.yml or in a job"]
    return "\n".join(lines)


def unjudged_text() -> str:
    """What a person has to look at, and why."""
    lines = ["What no written record can carry, so that the program does not judge it:"]
    for item in unjudged():
        lines += ["", *_wrapped(item.what, ""), *_wrapped(item.why, "  ")]
    return "\n".join(lines)


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:] + "."


def _wrapped(text: str, indent: str) -> Iterator[str]:
    yield from textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent)


def _indented(text: str) -> Iterator[str]:
    for line in text.splitlines():
        yield f"    {line}"

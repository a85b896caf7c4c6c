"""The words for a run as a whole: whose file a fault is in, how many there are, what private value would go out."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from typing import TypeVar

from aswired.private import Leak
from aswired.sheets.findings import Group
from aswired.sheets.overview import Against
from aswired.text.diagnostics import Fault, Finding, Severity, fault_text, finding_text, visible

MOST_LINES = 5  # places named in one message

Told = TypeVar("Told", Fault, Finding)


def within(slug: str, told: Told) -> Told:
    """A fault or finding with its job's folder before the file, for a run over several jobs; shop.yml is no job's."""
    if told.at.file == "shop.yml":
        return told
    return dataclasses.replace(told, at=dataclasses.replace(told.at, file=f"{slug}/{told.at.file}"))


def count(number: int, word: str) -> str:
    """
    >>> count(1, "fault"), count(2, "fault")
    ('1 fault', '2 faults')
    """
    return f"{number} {word}" + ("" if number == 1 else "s")


def group_text(group: Group) -> str:
    """A finding in its five parts; of several that are mended alike the places, each with what is wrong, and one mend
    line."""
    if group.single:
        return finding_text(group.findings[0])
    lines = [": ".join(filter(None, [f"{group.severity.word} {group.code}, {len(group.findings)} places", group.says]))]
    for finding in group.findings:
        entry = f" ({finding.entry})" if finding.entry else ""
        lines.append(f"  {finding.at}{entry}  {finding.problem}")
    lines.append(f"  mend: {group.mend}")
    if group.accepted_by:
        lines.append(f"  accepted by {group.accepted_by}: {group.accepted_why}")
    return "\n".join(map(visible, lines))


def counted(findings: Sequence[Finding]) -> str:
    """`1 error, 14 warnings`"""
    ranks = [finding.severity for finding in findings]
    return ", ".join(count(ranks.count(rank), rank.word) for rank in Severity if rank in ranks)


def against_text(against: Against) -> str:
    """`END01 C1-W1-F1; LOD01 horn, siren and 2 more; and 3 more`"""
    told = []
    for reason in against.reasons:
        more = f" and {reason.more} more" if reason.more else ""
        told.append(f"{reason.code} {', '.join(reason.entries)}{more}")
    return "; ".join(told + ([f"and {against.more} more"] if against.more else []))


def leak_texts(leaks: Sequence[Leak], written: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    """Each private value found, in the shape of a fault: which lines say it, where it would have gone out, what to do.

    `written`: label of a value -> the places of the job that say it.
    """
    found: dict[str, list[Leak]] = {}
    for leak in leaks:
        found.setdefault(leak.label, []).append(leak)
    return tuple(_leak_text(each, written.get(label, ())) for label, each in found.items())


def _leak_text(leaks: Sequence[Leak], written: Sequence[str]) -> str:
    first = leaks[0]
    out = f"{first.file}:{first.line}" if first.line else f"the name of {first.file}"
    also = f" and {count(len(leaks) - 1, 'more place')}" if len(leaks) > 1 else ""
    value = f"'{first.word}' (private: {first.label})"
    if not written:
        return (
            f"private PRV01 {out}\n  {value} would go out with the owner's edition here{also}; no line of the job says "
            "it: the pages say it themselves, or put it together\n"
            "  mend: Write it longer under 'private:', first and last name; or take it out of there"
        )
    more = f" and {len(written) - MOST_LINES} more" if len(written) > MOST_LINES else ""
    longer = "" if " " in first.word.strip() else "or write it longer under 'private:', first and last name; "
    lines = "this line" if len(written) == 1 else "these lines"
    return (
        f"private PRV01 {', '.join(written[:MOST_LINES])}{more}\n"
        f"  {value} would go out with the owner's edition: {out}{also}\n"
        f"  mend: Take it out of {lines}; {longer}or from under 'private:', if the owner may read it"
    )


def leaks_text(
    leaks: Sequence[Leak], written: Mapping[str, Sequence[str]], gone: str, left: Sequence[str]
) -> tuple[tuple[str, ...], str]:
    """Each private value that was found; then their number, and what became of the edition that stood there before.

    `gone`: its folder, when it was taken away since it holds one of them; `left`: files of it that stay.
    """
    texts = leak_texts(leaks, written)
    said = f"{count(len(texts), 'private value')} found in the owner's edition; nothing was written."
    if gone:
        said += f" The edition made before was taken away from {gone}: it holds such a value too."
    if left:
        why = "they were changed after it was built, or cannot be removed"
        said += f" These files of it stay, since {why}; look at them: {', '.join(left)}."
    return texts, said


def left_text(shown: str, left: Sequence[str]) -> str:
    """Files of an earlier build that are no longer part of the site and that nobody but their changer may remove."""
    return f"Not removed, since changed after it was built: {', '.join(f'{shown}/{uri}' for uri in left)}"


def reason(error: OSError) -> str:
    """The system's words, and the file they are about."""
    return f"{error.strerror or error}" + (f" ({error.filename})" if error.filename else "")


def not_made_text(error: OSError, as_it_was: str) -> str:
    """The disk failed before anything of the site was changed. `as_it_was`: the site that stood there, '' for none."""
    said = f"The site could not be made: {reason(error)}."
    return said + (f" The site in {as_it_was} is as it was." if as_it_was else "")


def cut_short_text(reason: str, done: int, all: int) -> str:
    """The disk failed while files were put in their places."""
    return (
        f"The site is not finished: {reason}. {done} of {count(all, 'file')} are in their new state, the others as "
        "they were; every page still leads to pages that are there. Mend that, and build again."
    )


def trouble_text(
    faults: Sequence[Fault],
    leaks: Sequence[Leak],
    written: Mapping[str, Sequence[str]],
    gone: str = "",
    left: Sequence[str] = (),
) -> str:
    """All faults and their count, or all private values and theirs."""
    if faults:
        return "\n".join([*map(fault_text, faults), faults_text(faults)])
    told, number = leaks_text(leaks, written, gone, left)
    return "\n".join([*told, number])


def faults_text(faults: Sequence[Fault], then: str = "nothing was written") -> str:
    """`3 file faults; nothing was written.`"""
    return f"{count(len(faults), 'file fault')}; {then}."

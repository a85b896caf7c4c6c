"""Names that every disk can hold: a site or a job goes from the shop's machine to a stick, and from there anywhere.

Rules of Windows and FAT: Microsoft, "Naming Files, Paths, and Namespaces" (from memory); 255 bytes a name: Linux.
"""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections.abc import Iterable, Sequence
from pathlib import Path

from aswired.text.diagnostics import Fault, Location, visible

LONGEST = 240  # bytes of a job folder's name; 255 is what a disk holds, and '-owner' is put behind it
LONGEST_STEM = 100  # bytes of a page's or a picture's own part of a file name
_CUT = 80
_RESERVED = frozenset(
    ["con", "prn", "aux", "nul", "conin$", "conout$"]
    + [device + number for device in ("com", "lpt") for number in "0123456789¹²³"]
)
_SIGNS = re.compile(r'[<>:"/\\|?*]')
_CONTROL = re.compile(r"[\x00-\x1f]")


def trouble_with(name: str) -> str:
    """Why a stick cannot hold a folder or file of this name, '' when it can.

    >>> trouble_with("green-van"), trouble_with("nul.old"), trouble_with("van.")
    ('', "'nul' is a device on Windows, and no folder can have its name", 'a name may not end with a point or a blank')
    """
    stem = name.partition(".")[0].rstrip(" ")
    if stem.casefold() in _RESERVED:
        return f"'{stem}' is a device on Windows, and no folder can have its name"
    if found := _SIGNS.search(name):
        return f"the sign {found[0]} may not stand in a name"
    if _CONTROL.search(name):
        return "a control character may not stand in a name"
    if name.endswith((".", " ")):
        return "a name may not end with a point or a blank"
    try:
        length = len(name.encode())
    except UnicodeEncodeError:
        return "the name is not UTF-8"
    if length > LONGEST:
        return f"the name is {length} bytes long, and at most {LONGEST} can be used"
    return ""


def same_on_disk(name: str) -> str:
    """What two names have in common when some disk takes them for one: case and composed letters do not count."""
    return unicodedata.normalize("NFD", name.casefold())


def check_job_names(folders: Sequence[Path]) -> tuple[Fault, ...]:
    """A fault for each job folder of one run that cannot lie on a stick, by its name or beside another."""
    first: dict[str, Path] = {}
    faults = []
    for folder in folders:
        name, at = folder.name, Location(visible(folder.name))
        if trouble := trouble_with(name):
            faults.append(Fault("FIL04", at, f"no stick can hold this folder: {trouble}", _mend(name)))
        other = first.setdefault(same_on_disk(name), folder)
        if other is not folder:
            how = "capitals" if other.name.casefold() != other.name or name.casefold() != name else "the same letters"
            faults.append(
                Fault(
                    "FIL04",
                    at,
                    f"this folder and {visible(other.name)} are one to disks that do not tell {how} apart",
                    "Rename one of the two, such as to " + _free(name, folders),
                )
            )
    return tuple(faults)


def _mend(name: str) -> str:
    plain = unicodedata.normalize("NFKD", name.encode("utf-8", "ignore").decode()).encode("ascii", "ignore").decode()
    plain = re.sub(r"[^A-Za-z0-9._-]+", "-", plain)[:40].strip("-. ").lower()
    plain = plain if plain and not trouble_with(plain) else f"job-{plain}".strip("-").replace(".", "-")
    return f"Rename it, such as to {plain}"


def _free(name: str, folders: Sequence[Path]) -> str:
    taken = {same_on_disk(folder.name) for folder in folders}
    number = 2
    while same_on_disk(f"{name}-{number}") in taken:
        number += 1
    return f"{visible(name)}-{number}"


def file_stems(names: Iterable[tuple[str, str]]) -> dict[str, str]:
    """Name -> the part of a file name before its ending, no two alike on any disk.

    Args:
        names: each name, as a person wrote it, and the stem it would like: ASCII, as `anchor` gives it.

    A stem that is short and no device of Windows stays as it is; any other is cut and gets a part of the hash of its
    name. Of several that clash the first keeps its stem, the others get a number.

    >>> file_stems([("Van", "van"), ("VAN", "van"), ("nul", "nul")])
    {'Van': 'van', 'VAN': 'van-2', 'nul': 'nul-99e62427'}
    """
    found: dict[str, str] = {}
    taken: set[str] = set()
    for name, wish in names:
        fit = len(wish) <= LONGEST_STEM and not wish.startswith(".") and not trouble_with(wish)
        stem = own = wish if fit else f"{_stump(wish)}-{hashlib.sha256(name.encode()).hexdigest()[:8]}"
        number = 2
        while same_on_disk(stem) in taken:
            stem, number = f"{own}-{number}", number + 1
        taken.add(same_on_disk(stem))
        found[name] = stem
    return found


def _stump(wish: str) -> str:
    """The beginning of a stem that something is put to: short, and with no point that would part off a device."""
    return wish[:_CUT].replace(".", "-").strip("-") or "x"

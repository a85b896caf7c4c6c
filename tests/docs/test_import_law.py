"""A room imports only from rooms below it, and DEVELOPERS names every room."""

from __future__ import annotations

import ast
import tomllib
from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[2] / "builder" / "aswired"
LEVELS = (
    ("diagnostics", "units", "figure", "locking"),
    ("colours", "schema"),
    ("written", "codes", "allowances"),
    ("limits",),
    ("model", "compute"),
    ("harness",),
    ("route", "worked"),
    ("loom",),
    ("changes",),
    ("read", "asbuilt"),
    ("trace", "rack", "writing", "differences"),
    ("electric",),
    ("figures",),
    ("findings", "editions", "private"),
    ("work", "allotting"),
    ("photos",),
    ("views",),
    ("pages",),
    ("search", "reference", "skeleton", "telling", "explaining"),
    ("site",),
    ("sheets", "asking"),
    ("cli",),
    ("__main__",),
)
LEVEL = {room: level for level, rooms in enumerate(LEVELS) for room in rooms}


def room_of(module: str) -> str:
    return module.split(".")[1] if module.startswith("aswired.") else ""


def imports() -> list[tuple[str, str, str]]:
    found = []
    for path in sorted(PACKAGE.rglob("*.py")):
        own = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
        if own == "__init__":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module:
                names = [f"aswired.{alias.name}" for alias in node.names] if node.module == "aswired" else [node.module]
                found += [(own, room_of(name), str(path.relative_to(PACKAGE))) for name in names if room_of(name)]
    return found


def test_every_room_has_a_level():
    rooms = {path.name.removesuffix(".py") for path in PACKAGE.iterdir() if not path.name.startswith(("__", "py"))}
    assert rooms - set(LEVEL) == set()


def test_a_room_imports_only_from_rooms_below_it():
    seen = imports()
    assert len(seen) > 100
    wrong = [
        f"{path} imports {other}"
        for own, other, path in seen
        if other in LEVEL and own != other and LEVEL[other] >= LEVEL[own]
    ]
    assert wrong == []


def test_developers_names_every_room():
    developers = (PACKAGE.parents[1] / "DEVELOPERS.md").read_text(encoding="utf-8")
    rooms = {path.name for path in PACKAGE.iterdir() if not path.name.startswith("_") and path.name != "py.typed"}
    assert {room for room in rooms if f"`{room}`" not in developers and f"`{room}/`" not in developers} == set()


def test_the_wheel_holds_every_room_that_is_a_folder():
    project = tomllib.loads((PACKAGE.parents[1] / "pyproject.toml").read_text(encoding="utf-8"))
    folders = {f"aswired.{path.parent.name}" for path in PACKAGE.glob("*/__init__.py")}
    assert folders <= set(project["tool"]["setuptools"]["packages"])

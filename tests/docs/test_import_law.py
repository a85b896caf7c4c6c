"""A room imports only from rooms before it, and DEVELOPERS names every room."""

from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

from aswired.car.changes import KINDS

PACKAGE = Path(__file__).resolve().parents[2] / "builder" / "aswired"
# In this order, and so are the parts of a room that has some.
ROOMS = (
    ("text",),
    ("record",),
    ("physics",),
    ("car",),
    ("files",),
    ("network",),
    ("ledger",),
    ("figures",),
    ("checks",),
    ("work",),
    ("rack",),
    ("private",),
    ("photos",),
    ("sheets",),
    ("pages",),
    ("site",),
    ("cli",),
    ("__main__",),
)
PARTS = {
    "car": (
        "harness",
        "special",
        "insulation",
        "route",
        "circuits",
        "loom",
        "changes",
        "asbuilt",
        "trace",
        "differences",
    ),
    "checks": ("codes", ""),
    "files": ("", "writing"),
    "sheets": ("text", "drawings", ""),
}
LEVEL = {room: level for level, rooms in enumerate(ROOMS) for room in rooms}


def place(module: str) -> tuple[int, int]:
    """Where a module stands: its room and, in a room of parts, its part."""
    room, _, rest = module.partition(".")
    parts = PARTS.get(room, ("",))
    part = rest.split(".")[0]
    return LEVEL[room], parts.index(part) if part in parts else parts.index("")


def statements(tree: ast.Module) -> Iterator[ast.AST]:
    """Every statement of a module, also those inside others. What is imported stands in no expression."""
    todo: list[ast.AST] = [tree]
    for node in todo:
        yield node
        todo += (
            below
            for below in ast.iter_child_nodes(node)
            if isinstance(below, ast.stmt | ast.excepthandler | ast.match_case)
        )


def imports() -> list[tuple[str, str]]:
    """Which module takes something from which, without the name of the package."""
    modules = {".".join(path.relative_to(PACKAGE).with_suffix("").parts): path for path in PACKAGE.rglob("*.py")}
    found = []
    for own, path in sorted(modules.items()):
        for node in statements(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("aswired"):
                base = node.module.removeprefix("aswired").removeprefix(".")
                for alias in node.names:
                    full = f"{base}.{alias.name}".removeprefix(".")
                    found.append((own, full if full in modules or not base else base))
    return found


def test_every_room_has_its_place():
    rooms = {path.name.removesuffix(".py") for path in PACKAGE.iterdir() if not path.name.startswith(("__", "py"))}
    assert rooms - set(LEVEL) == {"manual"}  # pages of text alone


def test_a_room_imports_only_from_rooms_before_it():
    seen = [(own, other) for own, other in imports() if own != "__init__" and other.split(".")[0] in LEVEL]
    assert len(seen) > 1000
    wrong = [f"{own} imports {other}" for own, other in seen if place(other) > place(own)]
    assert wrong == []


def test_developers_names_every_room():
    developers = (PACKAGE.parents[1] / "DEVELOPERS.md").read_text(encoding="utf-8")
    rooms = {path.name for path in PACKAGE.iterdir() if not path.name.startswith("_") and path.name != "py.typed"}
    assert {room for room in rooms if f"`{room}`" not in developers and f"`{room}/`" not in developers} == set()


def test_the_wheel_holds_every_room_that_is_a_folder_and_no_other():
    project = tomllib.loads((PACKAGE.parents[1] / "pyproject.toml").read_text(encoding="utf-8"))
    folders = {".".join(("aswired", *path.parent.relative_to(PACKAGE).parts)) for path in PACKAGE.rglob("__init__.py")}
    assert set(project["tool"]["setuptools"]["packages"]) == folders | {"aswired.theme"}


def test_no_room_compares_the_kind_of_a_row_with_a_word():
    """What differs by kind is asked of the kind (`kind_of(row)`), so that a new kind is one module."""
    names = "|".join(kind.name for kind in KINDS)
    row = r"\b(row|change|check|wrap|other)\.kind"
    compared = re.compile(rf"""{row} (==|!=|in|not in) \(?['"]({names})\b|get\({row}\b|match {row}:""")
    assert all(map(compared.search, ("row.kind == 'cap'", 'row.kind not in ("cap", "tap")', "WORDS.get(row.kind, '')")))
    lines = [(path, line) for path in PACKAGE.rglob("*.py") for line in path.read_text(encoding="utf-8").splitlines()]
    assert [f"{path.name}: {line.strip()}" for path, line in lines if compared.search(line)] == []

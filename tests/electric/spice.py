"""Runs a netlist through ngspice, which shares no code with the program, and reads back its node voltages."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from collections.abc import Collection
from pathlib import Path

import pytest

NETLISTS = Path(__file__).parent / "netlists"
OPTIONS = ".options reltol=1e-6 abstol=1e-12 vntol=1e-9"


class NoRest(Exception):
    """The simulator found no state in which the circuit stays, as with a relay that cuts off its own coil."""


def needed() -> None:
    """Skip where ngspice is not installed; in CI the cross-check may not be left out."""
    if shutil.which("ngspice") is None:
        if os.environ.get("CI"):
            pytest.fail("ngspice is not installed; the cross-check may not be left out here")
        pytest.skip("ngspice is not installed: nothing is cross-checked against it")


def volts(deck: Path) -> dict[str, float]:
    """Voltage of every node that the netlist prints [V].

    Raises:
        NoRest: as it says.
    """
    done = subprocess.run(
        ["ngspice", "-b", deck.name], capture_output=True, text=True, timeout=60, check=False, cwd=deck.parent
    )
    told = done.stdout + done.stderr
    if "simulation(s) aborted" in told:
        raise NoRest(told)
    found = {node: float(text) for node, text in re.findall(r"^v\((\w+)\) = (\S+)", done.stdout, re.MULTILINE)}
    assert found, told
    assert "rror" not in told, told
    assert "singular" not in told, told
    return found


def changed(name: str, *, behaving: bool, dead: Collection[str] = (), opened: Collection[str] = ()) -> str:
    """A netlist drawn by hand, in another state.

    Args:
        behaving: loads as resistances and filaments, and what only stands in for loads drawn elsewhere at 0 A.
        dead: elements that are left out: sources that are not live, cables that have come loose.
        opened: parameters of switches that are open.
    """
    lines = (NETLISTS / f"{name}.cir").read_text(encoding="utf-8").splitlines()
    left = [line for line in lines if line.partition(" ")[0] not in dead]
    assert len(lines) - len(left) == len(dead)
    text = "\n".join(left) + "\n"
    for parameter in opened:
        assert f"{parameter}=2m" in text
        text = text.replace(f"{parameter}=2m", f"{parameter}=1e12")
    if behaving:
        text = text.replace(".include stated.inc", ".include behaving.inc").replace("others=1", "others=0")
    return re.sub(r"^\.include (\S+)", rf'.include "{NETLISTS}/\1"', text, flags=re.MULTILINE)


def run(text: str, folder: Path) -> dict[str, float]:
    """Voltages that a netlist given as text prints [V]."""
    deck = folder / "circuit.cir"
    deck.write_text(text, encoding="utf-8")
    return volts(deck)


def all_volts(lines: list[str], folder: Path) -> dict[str, float]:
    """Voltages of every node of a circuit given as lines, read from a file: printing thousands takes long [V]."""
    text = [
        "* circuit",
        OPTIONS,
        *lines,
        ".control",
        "set filetype=ascii",
        "op",
        "write all.raw",
        "quit",
        ".endc",
        ".end",
    ]
    (folder / "circuit.cir").write_text("\n".join(text) + "\n", encoding="utf-8")
    (folder / "all.raw").unlink(missing_ok=True)
    done = subprocess.run(
        ["ngspice", "-b", "circuit.cir"], capture_output=True, text=True, timeout=60, check=False, cwd=folder
    )
    told = done.stdout + done.stderr
    assert "rror" not in told, told
    assert "singular" not in told, told
    heads, _, values = (folder / "all.raw").read_text(encoding="utf-8").partition("Values:\n")
    names = re.findall(r"^\t\d+\t(\S+)\t", heads, re.MULTILINE)
    numbers = [float(line.split()[-1]) for line in values.split("\n") if line.strip()]
    assert names
    found = {name[2:-1]: value for name, value in zip(names, numbers, strict=True) if name.startswith("v(")}
    return {"0": 0.0, **found}


def solved(lines: list[str], wanted: list[str], folder: Path) -> dict[str, float]:
    """Voltages of the wanted nodes of a circuit given as lines [V]."""
    asked = [f"print v({node})" for node in wanted if node != "0"]
    text = ["* circuit", OPTIONS, *lines, ".control", "set numdgt=12", "op", *asked, "quit", ".endc", ".end"]
    return {"0": 0.0, **run("\n".join(text) + "\n", folder)}

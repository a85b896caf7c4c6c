"""Runs a netlist through ngspice, which shares no code with the program, and reads back its node voltages."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

NETLISTS = Path(__file__).parent / "netlists"
OPTIONS = ".options reltol=1e-6 abstol=1e-12 vntol=1e-9"


def needed() -> None:
    """Skip where ngspice is not installed; in CI the cross-check may not be left out."""
    if shutil.which("ngspice") is None:
        if os.environ.get("CI"):
            pytest.fail("ngspice is not installed; the cross-check may not be left out here")
        pytest.skip("ngspice is not installed: nothing is cross-checked against it")


def volts(deck: Path) -> dict[str, float]:
    """Voltage of every node that the netlist prints [V]."""
    done = subprocess.run(
        ["ngspice", "-b", deck.name], capture_output=True, text=True, timeout=60, check=False, cwd=deck.parent
    )
    told = done.stdout + done.stderr
    found = {node: float(text) for node, text in re.findall(r"^v\((\w+)\) = (\S+)", done.stdout, re.MULTILINE)}
    assert found, told
    assert "rror" not in told, told
    assert "singular" not in told, told
    return found


def solved(lines: list[str], wanted: list[str], folder: Path) -> dict[str, float]:
    """Voltages of the wanted nodes of a circuit given as lines [V]."""
    deck = folder / "circuit.cir"
    asked = [f"print v({node})" for node in wanted if node != "0"]
    text = ["* circuit", OPTIONS, *lines, ".control", "set numdgt=12", "op", *asked, "quit", ".endc", ".end"]
    deck.write_text("\n".join(text) + "\n", encoding="utf-8")
    return {"0": 0.0, **volts(deck)}

"""What the checks on ends, loads, fuses and options leave alone, and how a recipe's faults are told."""

from __future__ import annotations

import random
from collections.abc import Mapping
from pathlib import Path

import pytest

from aswired.checks import recipes as recipes_module
from aswired.figures.worked import JobResult
from tests.findings.cases_circuits import CARRIED, FUEL, LAMP, removed
from tests.findings.jobs import work

DONE = "changes: [{id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}]"


def told(worked: JobResult, *codes: str) -> list[tuple[str, str, str]]:
    return [(f.code, f.severity.word, f.entry) for f in worked.findings if f.code in codes]


def unseen(worked: JobResult, entry: str) -> list[str]:
    return [seen.what for seen in worked.not_examined if seen.entry == entry]


# ---- fuel cut-off ---------------------------------------------------------------------------------------------------
NOT_SEEN = "fuel cut-off: what opens its way is not recorded"


@pytest.mark.parametrize(
    "text",
    [
        FUEL.replace("CUTS", "unknown"),
        FUEL.replace("CUTS", "no").replace("fed: always", "fed: unknown"),
        FUEL.replace("CUTS", "no").replace("from: F1,", "from: unit.4,").replace("fuses:", "modules: {unit: {out: "
        "{4: pump feed}}}\n    fuses:"),
        FUEL.replace("CUTS", "no").replace("from: pump.2, to: battery-", "from: pump.2, to: unknown"),
        FUEL.replace("CUTS", "no").replace("from: pump.2, to: battery-", "from: pump.2, to: unit.31").replace(
            "fuses:", "modules: {unit: {ground: [31]}}\n    fuses:"
        ),
    ],
    ids=["the switch", "what feeds the fuse", "the feed of a module", "the return", "the return inside a module"],
)  # fmt: skip
def test_a_fuel_cut_off_that_is_not_recorded_is_counted_and_never_a_stop(text: str, tmp_path: Path) -> None:
    worked = work(tmp_path, text)
    assert told(worked, "LOD04") == []
    assert NOT_SEEN in unseen(worked, "pump")


@pytest.mark.parametrize(
    "text",
    [
        FUEL.replace("CUTS", "yes"),
        FUEL.replace("CUTS", "no").replace("class: fuel pump", "class: pump"),
        FUEL.replace("CUTS", "no").replace("class: fuel pump", "class: fuel pump, verdict: deleted"),
        # a switch in the return opens the circuit as well
        FUEL.replace("CUTS", "no").replace("from: pump.2, to: battery-", "from: pump.2, to: oil.1")
        .replace("inertia.2,", "inertia.2,").replace("switches: {", "switches: {oil switch: {between: oil.1 oil.2, "
        "cuts fuel: yes}, ").replace("    loads:", "      W4: {size: 1.5 mm2, from: oil.2, to: battery-}\n    loads:"),
    ],
    ids=["declared", "another pump", "deleted", "in the return"],
)  # fmt: skip
def test_a_pump_that_is_cut_off_or_carries_no_fuel_is_left_alone(text: str, tmp_path: Path) -> None:
    worked = work(tmp_path, text)
    assert told(worked, "LOD04") == []
    assert NOT_SEEN not in unseen(worked, "pump")


# ---- must work, roles, loads of other cars --------------------------------------------------------------------------
def test_the_shops_list_counts_and_a_name_of_it_that_is_no_load_is_not_examined(tmp_path: Path) -> None:
    (tmp_path / "shop.yml").write_text("must work: [lamp, stop lamp]\n", encoding="utf-8")
    text = LAMP + "    loads: {lamp: {between: lamp.1 lamp.2}}" + removed("W1", "F1: pulled, lamp.1: pulled")
    worked = work(tmp_path / "job", text)
    assert told(worked, "LOD01", "LOD03", "LOD07") == [("LOD03", "stop", "lamp")]
    assert unseen(worked, "stop lamp") == ["must work, says the shop; no load here has that name"]


def test_a_jobs_own_list_stands_beside_that_of_the_shop(tmp_path: Path) -> None:
    (tmp_path / "shop.yml").write_text("must work: [lamp]\n", encoding="utf-8")
    text = """
    job: Both lists
    must work: [horn]
    fuses: {F1: {rating: 10 A, fed: always}}
    loads: {lamp: {between: lamp.1 battery-}, horn: {between: horn.1 battery-}, bell: {between: bell.1 battery-}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1}
      W2: {size: 1.0 mm2, from: F1, to: horn.1}
      W3: {size: 1.0 mm2, from: F1, to: bell.1}
    changes:
      - {id: C1, kind: remove, wires: {W1: {F1: pulled, lamp.1: pulled}, W2: {F1: pulled, horn.1: pulled},
         W3: {F1: pulled, bell.1: pulled}}, made: 2031-05-03 AK}
    """
    found = told(work(tmp_path / "job", text), "LOD03")
    assert sorted(found) == [("LOD03", "stop", "horn"), ("LOD03", "stop", "lamp")]


def test_a_way_that_is_not_recorded_is_no_stop_for_a_load_that_must_work(tmp_path: Path) -> None:
    text = LAMP.replace("from: F1,", "from: unknown,") + "    must work: [lamp]\n    loads: {lamp: {between: lamp.1 " \
        "lamp.2}}\n    " + DONE  # fmt: skip
    worked = work(tmp_path, text)
    assert told(worked, "LOD01", "LOD03") == []
    assert any(what.startswith("feed: ") for what in unseen(worked, "lamp"))


def test_a_role_that_an_undecided_row_may_take_over_is_no_error(tmp_path: Path) -> None:
    text = CARRIED.replace("ROLE", "gateway").replace("cut: 300 mm", "only if: dash is new, takes over: [gateway]")
    worked = work(tmp_path, text.replace("job: No cluster", "job: No cluster\n    options: {dash: unknown}"))
    assert told(worked, "LOD05", "LOD06") == []


@pytest.mark.parametrize("value", ["manual", "unknown"])
def test_a_load_that_is_not_of_this_car_is_not_orphaned(value: str, tmp_path: Path) -> None:
    text = LAMP + f"""
    options: {{gearbox: {{is: {value}, could be: [manual, automatic]}}}}
    loads: {{lamp: {{between: lamp.1 lamp.2, for: gearbox is automatic}}}}
    """ + removed("W1", "F1: pulled, lamp.1: pulled")  # fmt: skip
    assert told(work(tmp_path, text), "LOD01", "LOD03", "FUS03", "END08") == []


# ---- the record against itself --------------------------------------------------------------------------------------
def test_one_half_of_an_in_line_plug_may_be_scrapped(tmp_path: Path) -> None:
    text = """
    job: Bulkhead
    plugs: {bulkhead: {in line: yes}}
    fuses: {F1: {rating: 10 A, fed: always}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: bulkhead.1}
      W2: {size: 1.0 mm2, from: bulkhead.1, to: lamp.1}
    """ + removed("W2", "bulkhead.1: gone, lamp.1: gone")
    assert told(work(tmp_path, text), "END08") == []


def test_a_switch_that_merely_stayed_in_its_hole_is_no_contradiction(tmp_path: Path) -> None:
    text = """
    job: Fog lamps gone
    switches: {fog switch: {between: fog.1 fog.2}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: fog.1}
      W2: {size: 1.0 mm2, from: fog.2, to: lamp.1}
    changes:
      - {id: C1, kind: remove, wires: {W1: {F1: pulled, fog.1: pulled}, W2: {fog.2: pulled, lamp.1: gone}}}
    """
    assert told(work(tmp_path, text), "END08") == []


def test_a_module_whose_feed_served_only_what_was_deleted_is_no_contradiction(tmp_path: Path) -> None:
    text = """
    job: Fog lamp gone
    modules: {unit: {out: {7: fog lamp}}}
    loads: {fog lamp: {between: lamp.1 lamp.2, verdict: deleted}}
    wires:
      W1: {size: 1.0 mm2, from: unit.7, to: lamp.1}
      W2: {size: 1.0 mm2, from: lamp.2, to: battery-}
    changes:
      - {id: C1, kind: remove, wires: {W1: {unit.7: pulled, lamp.1: gone}, W2: {lamp.2: gone, battery-: gone}}}
    """
    assert told(work(tmp_path, text), "END08") == []


def test_a_capped_end_behind_a_fusible_link_is_protected(tmp_path: Path) -> None:
    text = """
    job: Link
    splices: {FS1: {}}
    wires:
      W1: {special: SAYS, from: battery+, to: FS1}
      W2: {size: 1.0 mm2, from: FS1, to: lamp.1}
      W3: {size: 1.0 mm2, from: FS1, to: horn.1}
    """ + removed("W2", "FS1: capped 30 mm, lamp.1: gone")
    assert told(work(tmp_path / "link", text.replace("SAYS", "fusible link")), "END05") == []
    assert told(work(tmp_path / "wire", text.replace("SAYS", "none")), "END05") == [("END05", "stop", "C1-W2-FS1")]


def test_a_new_fusible_link_protects_and_a_new_wire_does_not(tmp_path: Path) -> None:
    text = """
    job: Link
    splices: {FS1: {}}
    wires:
      W2: {size: 1.0 mm2, from: FS1, to: lamp.1}
      W3: {size: 1.0 mm2, from: FS1, to: horn.1}
    changes:
      - {id: C1, kind: remove, wire: W2, ends: {FS1: capped 30 mm, lamp.1: gone}, made: 2031-05-03 AK}
      - {id: C2, kind: add, wire: W9, from: battery+, to: FS1, piece: BK 0.5 mm2, special: SAYS, made: 2031-05-03 AK}
    """
    assert told(work(tmp_path / "link", text.replace("SAYS", "fusible link")), "END05") == []
    assert told(work(tmp_path / "wire", text.replace("SAYS", "none")), "END05") == [("END05", "stop", "C1-W2-FS1")]


# ---- recipes --------------------------------------------------------------------------------------------------------
TWO_OPTIONS = """
    job: Two options
    options:
      heater: {is: diesel, could be: [electric]}
      steering: {is: left, could be: [right]}
    fuses: {F1: {rating: 20 A, fed: always}, F2: {rating: 10 A, fed: always}}
    wires:
      W1: {size: 1.5 mm2, from: F1, to: heater.1}
      W2: {size: 1.5 mm2, from: F2, to: lamp.1}
    loads:
      heater: {between: heater.1 heater.2, verdict: deleted}
      lamp: {between: lamp.1 lamp.2, verdict: deleted}
    changes:
"""


def recipes(worked: JobResult) -> list[str]:
    return [f.problem for f in worked.findings if f.code == "OPT03"]


def test_a_cause_that_hangs_on_one_option_is_told_once_and_names_only_that_option(tmp_path: Path) -> None:
    # heater and steering make four cars; the open end is there in both with an electric heater
    text = (
        TWO_OPTIONS
        + """
      - {id: C1, kind: remove, wire: W1, ends: {F1: uncapped, heater.1: pulled}, only if: heater is electric}
      - {id: C2, kind: terminate, wire: W2, end: lamp.1, into: lamp.3, only if: steering is right}
    """
    )
    (problem,) = recipes(work(tmp_path, text))
    assert problem.startswith("on a car whose heater is electric: the cut end on 'F1' is left open")


def test_a_cause_that_hangs_on_two_options_names_both(tmp_path: Path) -> None:
    # either row alone takes W1 out; only where both count does the second find nothing
    text = (
        TWO_OPTIONS
        + """
      - {id: C1, kind: remove, wire: W1, ends: {F1: pulled, heater.1: pulled}, only if: heater is electric}
      - {id: C2, kind: remove, wire: W1, ends: {F1: pulled, heater.1: pulled}, only if: steering is right}
    """
    )
    (problem,) = recipes(work(tmp_path, text))
    assert problem.startswith("on a car whose heater is electric and steering is right: wire 'W1' is not in the car")


def test_a_cause_that_hangs_on_either_of_two_options_names_both_cars(tmp_path: Path) -> None:
    # W1 is out where the heater is electric, and where the steering is right: C3 finds it on no such car
    text = (
        TWO_OPTIONS
        + """
      - {id: C0, kind: remove, wire: W1, ends: {F1: pulled, heater.1: pulled}, only if: heater is electric}
      - {id: C1, kind: remove, wire: W1, ends: {F1: pulled, heater.1: pulled}, only if: steering is right}
      - {id: C3, kind: terminate, wire: W1, end: heater.1, into: heater.5}
    """
    )
    worked = work(tmp_path, text)
    (problem,) = [f.problem for f in worked.findings if f.code == "OPT03" and f.entry == "C3"]
    assert problem.startswith("on a car whose heater is electric; or steering is right: wire 'W1'")


def test_a_row_that_was_made_for_this_car_is_no_fault_of_another(tmp_path: Path) -> None:
    text = (
        TWO_OPTIONS
        + """
      - {id: C1, kind: terminate, wire: W1, end: heater.1, into: heater.3, only if: heater is diesel,
         made: 2031-05-03 AK}
    """
    )
    assert recipes(work(tmp_path, text)) == []


def test_what_this_car_suffers_from_as_well_is_not_told_again(tmp_path: Path) -> None:
    text = (
        TWO_OPTIONS
        + """
      - {id: C1, kind: remove, wire: W1, ends: {F1: uncapped, heater.1: pulled}}
      - {id: C2, kind: terminate, wire: W2, end: lamp.1, into: lamp.3, only if: heater is electric}
    """
    )
    worked = work(tmp_path, text)
    assert told(worked, "END01", "OPT03") == [("END01", "stop", "C1-W1-F1")]


def chance_job(chance: random.Random) -> str:
    """Eight wires in pairs on four splices, six loads, and seven rows for cars of three options."""
    wires = [f"      W{n}: {{from: F{n // 2}, to: FS{n // 2}}}" for n in range(8)]
    wires += [f"      V{n}: {{from: FS{n % 4}, to: load{n}.1}}" for n in range(6)]
    wires += [f"      G{n}: {{from: load{n}.2, to: G1}}" for n in range(6)]
    loads = [f"      load{n}: {{between: load{n}.1 load{n}.2}}" for n in range(6)]
    rows = []
    for n in range(7):
        wire, end = chance.choice(
            [(f"W{i}", f"FS{i // 2}") for i in range(8)]
            + [(f"V{i}", f"load{i}.1") for i in range(6)]
            + [(f"G{i}", f"load{i}.2") for i in range(6)]
        )
        kind = chance.choice(
            [
                f"kind: remove, wire: {wire}, ends: {{{end}: {chance.choice(['pulled', 'flush', 'uncapped'])}}}",
                f"kind: terminate, wire: {wire}, end: {end}, into: new{chance.randrange(20)}.1",
                f"kind: cap, wire: {wire}, end: {end}, stub: 30 mm, far: gone",
                f"kind: join, ends: [{wire} at {end}, V{(other := chance.randrange(6))} at load{other}.1]",
            ]
        )
        option, value = chance.choice([("a", "two"), ("b", "two"), ("c", "two"), ("a", "one"), ("b", "one"), ("", "")])
        rows.append(f"      - {{id: C{n}, {kind}{f', only if: {option} is {value}' if option else ''}}}")
    head = """
    job: Chance
    options: {a: {is: one, could be: [two]}, b: {is: one, could be: [two]}, c: {is: one, could be: [two]}}
    fuses: {F0: {fed: always}, F1: {fed: always}, F2: {fed: always}, F3: {fed: always}}
    grounds: {G1: {back to: battery-}}
    splices: {FS0: {}, FS1: {}, FS2: {}, FS3: {}}
    """.rstrip()
    return "\n".join([head, "    wires:", *wires, "    loads:", *loads, "    changes:", *rows])


@pytest.mark.slow
def test_leaving_out_cars_whose_options_have_nothing_in_common_loses_no_cause(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    chance = random.Random(7)
    texts = [chance_job(chance) for _ in range(80)]

    def causes(name: str) -> list[set[tuple[str, str]]]:
        worked = [work(tmp_path / name / str(n), text) for n, text in enumerate(texts)]
        return [{(f.entry, f.problem) for f in one.findings if f.code == "OPT03"} for one in worked]

    left_out = []

    def knot(chosen: tuple[str, ...], touches: Mapping[str, frozenset[str]]) -> bool:
        left_out.append(not one_knot(chosen, touches))
        return True

    quick = causes("quick")
    one_knot = recipes_module._hang_together
    monkeypatch.setattr(recipes_module, "_hang_together", knot)
    whole = causes("whole")
    assert sum(left_out) > 20
    assert sum(map(len, whole)) > 100
    assert quick == whole

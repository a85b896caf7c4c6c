"""One car with many loads: of each the ends, every step by its kind, the fuses, the ground, who shares, and why not."""

from __future__ import annotations

from pathlib import Path

import pytest

from aswired.car.circuits import Circuit
from aswired.car.harness import View
from aswired.car.trace import Net
from aswired.figures.worked import JobResult
from findings.jobs import work

CAR = """
    job: Many
    fuses:
      F1: {rating: 10 A, fed: ignition}
      F2: {rating: 10 A}
      F3: {rating: 10 A, fed: always}
      F4: {rating: 10 A, fed: always}
    grounds:
      G1: {back to: G2, cable: 4 mm2, cable length: 1 m}
      G2: {back to: battery-, cable: 10 mm2, cable length: 1 m}
      G3: {gone: yes}
      G4: {bolted to: plastic bumper, conducts: no}
      G5: {back to: G6}
      G6: {back to: G5}
      G7: {back to: box.9}
      G8: {}
      G9: {back to: G9}
    modules: {unit: {out: {3: fan feed, 4: DATA line}, ground: [31, 32]}}
    splices: {S1: {}, S2: {}, S3: {}, S4: {all members known: no}}
    switches: {door: {between: door.1 door.2}}
    plugs: {inline: {in line: yes}}
    wires:
      A1: {from: F1, to: S1, length: 1 m}
      A2: {from: S1, to: a.1, length: 1 m}
      A3: {from: a.2, to: G1, length: 1 m}
      B1: {from: S1, to: door.1, length: 1 m}
      B2: {from: door.2, to: b.1, length: 1 m}
      B3: {from: b.2, to: unit.31, length: 1 m}
      C1: {from: unit.3, to: c.2, length: 1 m}
      C2: {from: c.1, to: battery-, length: 1 m}
      D1: {from: battery+, to: F3.feed, length: 1 m}
      D2: {from: F3, to: d.1, length: 1 m}
      D3: {from: d.2, to: G3, length: 1 m}
      E1: {from: F2, to: e.1, length: 1 m}
      E2: {from: e.2, to: G4, length: 1 m}
      H1: {from: F2, to: h.1, length: 1 m}
      H2: {from: h.2, to: G5, length: 1 m}
      I1: {from: F2, to: i.1, length: 1 m}
      I2: {from: i.2, to: G7, length: 1 m}
      J1: {from: F2, to: j.1, length: 1 m}
      J2: {from: j.2, to: G8, length: 1 m}
      J3: {from: S2, to: j.2, length: 1 m}
      J4: {from: S2, to: G1, length: 1 m}
      K1: {from: F2, to: k.1, length: 1 m}
      K2: {from: F1, to: k.1, length: 1 m}
      K3: {from: k.2, to: G3, length: 1 m}
      K4: {from: k.2, to: G2, length: 1 m}
      L1: {from: F2, to: l.1, length: 1 m}
      L2: {from: l.2, to: unit.4, length: 1 m}
      M1: {from: unit.7, to: m.1, length: 1 m}
      M2: {from: m.2, to: S4, length: 1 m}
      N1: {from: G2, to: n.1, length: 1 m}
      N2: {from: n.2, to: S3, length: 1 m}
      O1: {from: F2, to: o.1, length: 1 m}
      O2: {from: o.2, to: inline.1, length: 1 m}
      P1: {from: F2, to: p.1, length: 1 m}
      P2: {from: p.2, to: unit.32, length: 1 m}
      P3: {from: unit.32, to: G1, length: 1 m}
      Q1: {from: battery+, to: q.1, length: 1 m}
      Q2: {from: q.2, to: G9, length: 1 m}
      R1: {from: F2, to: r.1, length: 1 m}
      R2: {from: F1, to: r.2, length: 1 m}
      T1: {from: F4, to: t.1, length: 1 m}
      T2: {from: t.2, to: G2, length: 1 m}
      U1: {from: u.1, to: S5, length: 1 m}
      U2: {from: u.2, to: G2, length: 1 m}
      V1: {from: box.9, to: v.1, length: 1 m}
      V2: {from: v.2, to: G1, length: 1 m}
    loads:
      a: {between: a.2 a.1, draws: 1 A}
      b: {between: b.1 b.2, draws: 1 A}
      c: {between: c.1 c.2, draws: 1 A}
      d: {between: d.1 d.2, draws: 1 A}
      e: {between: e.1 e.2, draws: 1 A}
      h: {between: h.1 h.2, draws: 1 A}
      i: {between: i.1 i.2, draws: 1 A}
      j: {between: j.1 j.2, draws: 1 A}
      k: {between: k.1 k.2, draws: 1 A}
      l: {between: l.1 l.2, draws: 1 A}
      m: {between: m.1 m.2, draws: 1 A}
      n: {between: n.1 n.2, draws: 1 A}
      o: {between: o.1 o.2, draws: 1 A}
      p: {between: p.1 p.2, draws: 1 A}
      q: {between: q.1 q.2, draws: 1 A}
      r: {between: r.1 r.2, draws: 1 A}
      s: {between: battery+ battery-, draws: 1 A}
      t: {between: t.1 t.2, draws: 1 A}
      u: {between: u.1 u.2, draws: 1 A}
      v: {between: v.1 v.2, draws: 1 A}
      x: {between: a.1 a.2, draws: 1 A, feed: not examined, return: not examined}
      y: {between: a.1 a.2, draws: 1 A, verdict: deleted}
    changes:
      - {id: X1, kind: remove, wire: T1, ends: {F4: pulled, t.1: pulled}, made: 2031-05-03 AK}
"""


@pytest.fixture(scope="module")
def car(tmp_path_factory: pytest.TempPathFactory) -> JobResult:
    return work(tmp_path_factory.mktemp("many"), CAR)


def steps(circuit: Circuit, side: str) -> str:
    path = circuit.feed if side == "feed" else circuit.back
    return ", ".join(f"{s.kind} {s.stretch.wire if s.stretch is not None else s.name}" for s in path.steps)


@pytest.mark.parametrize(
    ("load", "feed", "back"),
    [
        ("a", "source feed of F1: ignition, fuse F1, stretch A1, node S1, stretch A2, end a.1",
         "end a.2, stretch A3, ground G1, cable G1 to G2, ground G2, cable G2 to battery-, source battery-"),
        ("b", "source feed of F1: ignition, fuse F1, stretch A1, node S1, stretch B1, node door.1, switch door, "
              "node door.2, stretch B2, end b.1",
         "end b.2, stretch B3, module unit.31"),
        ("c", "source fan feed, module unit.3, stretch C1, end c.2", "end c.1, stretch C2, source battery-"),
        # its feed side is recorded: back to the battery, and the fuse is passed
        ("d", "source battery+, stretch D1, fuse F3, stretch D2, end d.1", "end d.2, stretch D3, ground G3"),
        ("e", "source feed of F2: unknown, fuse F2, stretch E1, end e.1", "end e.2, stretch E2, ground G4"),
        ("h", "source feed of F2: unknown, fuse F2, stretch H1, end h.1",
         "end h.2, stretch H2, ground G5, cable G5 to G6, ground G6, cable G6 to G5"),
        ("i", "source feed of F2: unknown, fuse F2, stretch I1, end i.1",
         "end i.2, stretch I2, ground G7, cable G7 to box.9"),
        # the nearest ground that conducts, be its way back recorded or not
        ("j", "source feed of F2: unknown, fuse F2, stretch J1, end j.1", "end j.2, stretch J2, ground G8"),
        # the nearer one is not on this car
        ("k", "source feed of F2: unknown, fuse F2, stretch K1, end k.1",
         "end k.2, stretch K4, ground G2, cable G2 to battery-, source battery-"),
        # a module's ground from which a wire leads on is where that wire ends
        ("p", "source feed of F2: unknown, fuse F2, stretch P1, end p.1",
         "end p.2, stretch P2, node unit.32, stretch P3, ground G1, cable G1 to G2, ground G2, cable G2 to battery-, "
         "source battery-"),
        ("q", "source battery+, stretch Q1, end q.1", "end q.2, stretch Q2, ground G9, cable G9 to G9"),
        ("s", "source battery+, end battery+", "end battery-, source battery-"),
        ("t", "end t.1", "end t.2, stretch T2, ground G2, cable G2 to battery-, source battery-"),
    ],
)  # fmt: skip
def test_every_step_of_a_circuit(car: JobResult, load: str, feed: str, back: str) -> None:
    circuit = car.circuits[load]
    assert steps(circuit, "feed") == feed
    assert steps(circuit, "return") == back


WHOLE = ("complete", "")
NO_FEED_END = ("not examined", "which end is fed cannot be told")
NO_GROUND_END = ("not examined", "which end is ground cannot be told")


def test_of_a_load_that_lost_one_wire_and_from_which_the_other_was_moved_no_end_is_told(tmp_path: Path) -> None:
    text = """
    job: Moved
    fuses: {F1: {rating: 10 A, fed: always}}
    plugs: {lamp: {ways: 2}, spare: {ways: 2}}
    grounds: {L1: {back to: battery-}}
    loads: {lamp: {between: lamp.1 lamp.2}}
    wires:
      W1: {size: 1.0 mm2, from: F1, to: lamp.1}
      W2: {size: 1.0 mm2, from: lamp.2, to: L1}
    changes:
      - {id: C1, kind: remove, wire: W1, ends: {F1: pulled, lamp.1: pulled}, made: 2031-05-03 AK}
      - {id: C2, kind: terminate, wire: W2, end: lamp.2, into: spare.1, made: 2031-05-03 AK}
    """
    circuit = work(tmp_path, text).circuits["lamp"]
    assert [(path.state, path.why) for path in (circuit.feed, circuit.back)] == [NO_FEED_END, NO_GROUND_END]


@pytest.mark.parametrize(
    ("load", "ends", "feed", "back", "fuses", "ground"),
    [
        ("a", ("a.1", "a.2"), WHOLE, WHOLE, ("F1",), "G1"),
        ("b", ("b.1", "b.2"), WHOLE, ("complete", "ground inside unit"), ("F1",), ""),
        ("c", ("c.2", "c.1"), WHOLE, WHOLE, (), ""),
        ("d", ("d.1", "d.2"), WHOLE, ("open", "ground point G3 is not on this car"), ("F3",), "G3"),
        ("e", ("e.1", "e.2"), WHOLE, ("open", "plastic bumper does not conduct"), ("F2",), "G4"),
        ("h", ("h.1", "h.2"), WHOLE,
         ("not examined", "G5 and G6 are said to lead back only to each other"), ("F2",), "G5"),
        ("i", ("i.1", "i.2"), WHOLE,
         ("not examined", "it is said to lead back to box.9, which is no ground point"), ("F2",), "G7"),
        ("j", ("j.1", "j.2"), WHOLE, ("complete", "the way back from G8 is not recorded"), ("F2",), "G8"),
        ("k", ("k.1", "k.2"), ("complete", "also fed from F1"), WHOLE, ("F2",), "G2"),
        ("l", ("l.1", "l.2"), WHOLE, ("not examined", "unit.4 carries data"), ("F2",), ""),
        ("m", ("", ""), NO_FEED_END, NO_GROUND_END, (), ""),
        ("n", ("n.2", "n.1"), ("open", "nothing leads on from n.2"), WHOLE, (), "G2"),
        ("o", ("o.1", "o.2"), WHOLE, ("not examined", "what sits behind inline.1 is not recorded"), ("F2",), ""),
        ("q", ("q.1", "q.2"), WHOLE, ("not examined", "G9 is said to lead back to itself"), (), "G9"),
        ("r", ("", ""), NO_FEED_END, NO_GROUND_END, (), ""),
        ("s", ("battery+", "battery-"), WHOLE, WHOLE, (), ""),
        ("t", ("t.1", "t.2"), ("open", "T1 was taken out by X1"), WHOLE, (), "G2"),
        ("u", ("u.1", "u.2"),
         ("not examined", "S5 is not declared; its other members are not recorded"), WHOLE, (), "G2"),
        ("v", ("v.1", "v.2"), ("not examined", "what sits behind box.9 is not recorded"), WHOLE, (), "G1"),
        ("x", ("a.1", "a.2"), ("not examined", "said to be not examined"),
         ("not examined", "said to be not examined"), (), ""),
    ],
)  # fmt: skip
def test_the_ends_the_verdicts_the_fuses_and_the_ground(
    car: JobResult,
    load: str,
    ends: tuple[str, str],
    feed: tuple[str, str],
    back: tuple[str, str],
    fuses: tuple[str, ...],
    ground: str,
) -> None:
    circuit = car.circuits[load]
    assert (circuit.feed_end, circuit.return_end) == ends
    assert (circuit.feed.state, circuit.feed.why) == feed
    assert (circuit.back.state, circuit.back.why) == back
    assert (circuit.fuses, circuit.ground) == (fuses, ground)


@pytest.mark.parametrize(
    ("load", "feed_with", "return_with"),
    [
        # F1 and A1 are b's too; y is deleted and x was not walked; of k the way by the wire listed first counts
        ("a", ("b",), ("k", "n", "p", "t", "u", "v")),
        ("b", ("a",), ()),
        ("c", (), ()),
        ("d", (), ()),
        ("e", ("h", "i", "j", "k", "l", "o", "p"), ()),
        ("y", ("a", "b"), ("a", "k", "n", "p", "t", "u", "v")),
        ("x", (), ()),
        ("q", (), ()),
    ],
)
def test_which_kept_loads_share_a_part_of_the_way(
    car: JobResult, load: str, feed_with: tuple[str, ...], return_with: tuple[str, ...]
) -> None:
    circuit = car.circuits[load]
    assert (circuit.feed_with, circuit.return_with) == (feed_with, return_with)


def test_what_is_a_source_what_is_a_ground_and_what_carries_data(car: JobResult) -> None:
    net = Net(car.job, car.shown)
    asked = ("battery+", "battery-", "F1", "F3", "F4", "unit.3", "unit.4", "unit.31", "unit.7", "G1", "S1", "a.1")
    assert {name for name in asked if net.is_source(name)} == {"battery+", "F1", "F4", "unit.3"}
    assert {name for name in asked if net.is_ground(name)} == {"battery-", "unit.31", "G1"}
    assert {name for name in asked if net.is_data(name)} == {"unit.4"}
    reach = net.reach("k.1")
    assert (reach.sources, reach.grounds) == (("F2", "F1"), ())


# ---- what rows changed ----------------------------------------------------------------------------------------------
LAMP = """
    job: Lamp
    fuses: {F1: {rating: 10 A, fed: ignition}}
    plugs: {mid: {in line: yes}, lamp: {}}
    splices: {S1: {}, S2: {}}
    wires:
      W1: {from: F1, to: S1, length: 1 m}
      W2: {from: S1, to: mid.1, length: 1 m}
      W3: {from: mid.1, to: S2, length: 1 m}
      W4: {from: S2, to: lamp.1, length: 1 m}
      W5: {from: lamp.2, to: battery-, length: 1 m}
    loads: {lamp: {between: lamp.1 lamp.2, draws: 1 A}}
    changes:
"""


@pytest.mark.parametrize(
    ("row", "why"),
    [
        ("kind: remove, wire: W4, ends: {S2: flush, lamp.1: pulled}", "W4 was taken out by C1"),
        ("kind: remove, wire: W4, ends: {S2: flush, lamp.1: capped}", "it ends at the cut end C1-W4-lamp.1"),
        ("kind: remove, wire: W3, ends: {S2: flush, mid.1: pulled}", "W3 was taken out by C1"),
        ("kind: remove, wire: W2, ends: {S1: flush, mid.1: pulled}", "W2 was taken out by C1"),
        ("kind: remove, wire: W2, ends: {S1: flush, mid.1: capped}", "it ends at the cut end C1-W2-mid.1"),
        ("kind: remove, wire: W1, ends: {S1: flush, F1: pulled}", "W1 was taken out by C1"),
        ("kind: cap, wire: W4, end: lamp.1, stub: 90 mm, cover: adhesive cap", "it ends at the cut end C1-W4-lamp.1"),
        ("kind: terminate, wire: W4, end: lamp.1, into: other.1, terminal: new", "nothing leads on from lamp.1"),
    ],
)
def test_a_side_that_is_open_says_what_opened_it(row: str, why: str, tmp_path: Path) -> None:
    worked = work(tmp_path, LAMP + f"      - {{id: C1, {row}, made: 2031-05-03 AK}}\n")
    circuit = worked.circuits["lamp"]
    assert (circuit.feed.state, circuit.feed.why) == ("open", why)
    assert (circuit.feed_end, circuit.return_end, circuit.back.state) == ("lamp.1", "lamp.2", "complete")
    before = worked.donor_circuits["lamp"]
    assert (before.feed.state, before.fuses) == ("complete", ("F1",))


@pytest.mark.parametrize(
    ("said", "instead", "row", "why"),
    [
        ("", "", "kind: remove, wire: W4, ends: {S2: flush, lamp.1: unknown}",
         "how C1-W4-lamp.1 was left is not recorded"),
        ("", "", "kind: cap, wire: W4, end: S2", "how C1-W4-lamp.1 was left is not recorded"),
        ("from: F1, to: S1", "from: unknown, to: S1", "kind: verify, proves: [C1]", "where W1 ends is not known"),
        ("from: F1, to: S1", "from: box.1, to: S1", "kind: verify, proves: [C1]",
         "what sits behind box.1 is not recorded"),
        ("from: S2, to: lamp.1", "from: S2, to: lump.1", "kind: verify, proves: [C1]",
         "no wire of the record ends in lamp.1"),
        ("S1: {}, S2", "S1: {all members known: no}, S2", "kind: remove, wire: W1, ends: {S1: flush, F1: pulled}",
         "other members of S1 not examined"),
        ("S1: {}, S2: {}", "S1: {all members known: no}, S2: {all members known: no}",
         "kind: remove, wire: W1, ends: {S1: flush, F1: pulled}",
         "other members of S2 not examined; other members of S1 not examined"),
        # the other half of the in-line plug: nobody recorded what was there, or a row took it out (above)
        ("      W2: {from: S1, to: mid.1, length: 1 m}\n", "", "kind: verify, proves: [C1]",
         "what sits behind mid.1 is not recorded"),
    ],
)  # fmt: skip
def test_a_side_of_which_the_record_stops_says_where(
    said: str, instead: str, row: str, why: str, tmp_path: Path
) -> None:
    assert said in LAMP
    text = LAMP.replace(said, instead) if said else LAMP
    circuit = work(tmp_path, text + f"      - {{id: C1, {row}, made: 2031-05-03 AK}}\n").circuits["lamp"]
    assert (circuit.feed.state, circuit.feed.why) == ("not examined", why)


def test_a_side_joined_to_the_wrong_one_is_open_and_says_to_what(tmp_path: Path) -> None:
    text = LAMP.replace("from: F1, to: S1", "from: battery-, to: S1")
    text += "      - {id: C1, kind: verify, proves: [C1], made: 2031-05-03 AK}\n"
    circuit = work(tmp_path, text).circuits["lamp"]
    # both sides reach battery negative: which is fed cannot be told
    assert (circuit.feed.state, circuit.back.state) == ("not examined", "not examined")
    text = text.replace("from: lamp.2, to: battery-", "from: lamp.2, to: S9").replace("S2: {}", "S2: {}, S9: {}")
    circuit = work(tmp_path / "2", text).circuits["lamp"]
    # the only ground is behind lamp.1; lamp.2 has nothing
    assert (circuit.feed_end, circuit.feed.why) == ("lamp.2", "nothing leads on from lamp.2")
    text = text.replace("from: battery-, to: S1", "from: battery+, to: S1")
    circuit = work(tmp_path / "3", text).circuits["lamp"]
    assert (circuit.return_end, circuit.back.state, circuit.back.why) == (
        "lamp.2",
        "open",
        "nothing leads on from lamp.2",
    )
    assert view_of(circuit) == ("lamp.1", "complete")


def view_of(circuit: Circuit) -> tuple[str, str]:
    return circuit.feed_end, circuit.feed.state


def test_a_load_and_a_switch_go_with_the_connector_that_took_the_place_of_theirs(tmp_path: Path) -> None:
    text = LAMP.replace("loads:", "switches: {door: {between: lamp.1 lamp.5}}\n    loads:").replace(
        "between: lamp.1 lamp.2", "between: lamp.5 lamp.2"
    )
    row = "{id: C1, kind: swap, plug: lamp, new plug: box, cavities: {1: 7, 2: 8}, seen from: wire side, made: yes}"
    worked = work(tmp_path, text + f"      - {row}\n")

    def far(view: View) -> tuple[str, ...]:
        return Net(worked.job, view).reach("S2").sources

    net = Net(worked.job, worked.shown)
    assert net.ends_now(("lamp.1", "lamp.5")) == ("box.7", "lamp.5")
    assert net.ends_now(None) is None
    assert [link.name for link in net.links["box.7"]][-1] == "door"
    assert net.load_at == {"lamp.5": ["lamp"], "box.8": ["lamp"]}
    assert far(worked.shown) == far(worked.donor) == ("F1",)
    own = work(tmp_path / "own", text.replace("loads: {", "loads: {bell: {between: box.7 box.8, draws: 1 A}, ")
               + f"      - {row}\n")  # fmt: skip
    # something else is declared behind the new one: the lamp stays behind the old one
    assert Net(own.job, own.shown).ends_now(("lamp.1", "lamp.2")) == ("lamp.1", "lamp.2")

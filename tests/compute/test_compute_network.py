"""The resistive network against hand sums, a published exercise and a dense solver."""

import time

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import splu

from aswired.physics.network import Edge, Solution, solve


def volts(solution: Solution[str], node: str) -> float:
    value = solution.voltage_v[node]
    assert value is not None
    return value


def test_three_parallel_returns_of_army_course_od1633() -> None:
    # US Army Ordnance course OD1633, parallel circuits: 20, 30 and 40 ohm (inputs read); 1/(1/20+1/30+1/40) = 120/13
    returns = [Edge("case", "battery-", ohm * 1000) for ohm in (20, 30, 40)]
    solution = solve(returns, {"case": -1.0}, "battery-")
    assert volts(solution, "case") == pytest.approx(120 / 13, rel=1e-12)
    # shares 6 : 4 : 3 of 13, by hand
    assert solution.current_a == pytest.approx((6 / 13, 4 / 13, 3 / 13), rel=1e-12)


def test_short_circuit_of_lessons_in_electric_circuits() -> None:
    # Lessons In Electric Circuits vol. 1: 5.651 ohm out, 5.651 ohm back, 230 V -> 20.352 A (read), within 0.02 %
    loop = [Edge("source", "short", 5651.0), Edge("short", "return", 5651.0)]
    solution = solve(loop, {"return": 20.352}, "source")
    assert -volts(solution, "return") == pytest.approx(230, rel=2e-4)


def test_a_shared_ground_carries_the_sum() -> None:
    # By hand: lamp 4 A over 100 mΩ and pump 7 A over 50 mΩ meet at a splice, 20 mΩ from there to the lug.
    # Shared run 11 A x 20 mΩ = 0.22 V; lamp ground 0.22 + 0.40 = 0.62 V; pump ground 0.22 + 0.35 = 0.57 V.
    edges = [Edge("lamp", "splice", 100.0), Edge("pump", "splice", 50.0), Edge("splice", "lug", 20.0)]
    solution = solve(edges, {"lamp": -4.0, "pump": -7.0}, "lug")
    assert [volts(solution, node) for node in ("lug", "splice", "lamp", "pump")] == pytest.approx([0, 0.22, 0.62, 0.57])
    assert solution.current_a == pytest.approx((4, 7, 11))


def test_a_feed_lies_below_the_battery_and_current_runs_from_a_to_b() -> None:
    # By hand: 8 A through 30 mΩ then 5 A on through 40 mΩ, the second edge written the other way round
    solution = solve([Edge("battery", "fuse", 30.0), Edge("lamp", "fuse", 40.0)], {"lamp": 5.0, "fuse": 3.0}, "battery")
    assert volts(solution, "fuse") == pytest.approx(-0.24)
    assert volts(solution, "lamp") == pytest.approx(-0.44)
    assert solution.current_a == pytest.approx((8, -5))


def test_no_current_no_drop() -> None:
    solution = solve([Edge("a", "b", 10.0), Edge("b", "c", 10.0), Edge("c", "a", 10.0)], {}, "a")
    assert dict(solution.voltage_v) == {"a": 0, "b": 0, "c": 0}
    assert solution.current_a == (0, 0, 0)


def test_what_is_not_connected_to_the_reference_has_no_voltage() -> None:
    edges = [Edge("a", "b", 10.0), Edge("x", "y", 10.0), Edge("y", "z", 0.0)]
    solution = solve(edges, {"b": 1.0, "x": 1.0, "alone": 2.0}, "a")
    assert {node for node, value in solution.voltage_v.items() if value is None} == {"x", "y", "z", "alone"}
    assert solution.current_a[0] == pytest.approx(1.0)
    assert solution.current_a[1:] == (None, None)


def test_a_reference_without_wires_is_at_zero() -> None:
    assert solve([], {}, "a") == Solution({"a": 0.0}, ())


def test_a_branch_without_resistance_joins_its_ends_and_still_tells_its_current() -> None:
    # a -0- b -10 mΩ- c -0- d, 3 A out at d and 2 A out at b: a-b carries 5 A, the rest 3 A
    edges = [Edge("a", "b", 0.0), Edge("b", "c", 10.0), Edge("d", "c", 0.0)]
    solution = solve(edges, {"d": 3.0, "b": 2.0}, "a")
    assert [volts(solution, node) for node in "abcd"] == pytest.approx([0, 0, -0.03, -0.03])
    assert solution.current_a == pytest.approx((5, 3, -3))


def test_the_share_round_a_ring_without_resistance_is_not_determined() -> None:
    # ring a-b-c-a without resistance, a tail c-d without: only the tail is known
    edges = [Edge("a", "b", 0.0), Edge("b", "c", 0.0), Edge("c", "a", 0.0), Edge("c", "d", 0.0)]
    solution = solve(edges, {"d": 2.0}, "a")
    assert dict(solution.voltage_v) == {"a": 0, "b": 0, "c": 0, "d": 0}
    assert solution.current_a == (None, None, None, 2.0)


def test_a_bridge_between_two_rings_without_resistance_is_determined() -> None:
    rings = [("a", "b"), ("a", "b"), ("b", "c"), ("c", "d"), ("c", "d")]
    solution = solve([Edge(a, b, 0.0) for a, b in rings], {"d": 2.0}, "a")
    assert solution.current_a == (None, None, 2.0, None, None)


def test_a_resistance_bridged_by_none_carries_nothing() -> None:
    solution = solve([Edge("a", "b", 0.0), Edge("a", "b", 5.0), Edge("b", "b", 5.0)], {"b": 4.0}, "a")
    assert solution.current_a == (4.0, 0.0, 0.0)


def test_a_ring_end_on_itself_without_resistance_is_not_determined() -> None:
    assert solve([Edge("a", "a", 0.0)], {}, "a").current_a == (None,)


def test_small_and_large_resistances_stand_side_by_side() -> None:
    # 1 A through 1 µΩ and on through 1 GΩ would need 1 GV: 1 nA instead, by hand
    solution = solve([Edge("a", "b", 0.001), Edge("b", "c", 1e12)], {"c": 1e-9}, "a")
    assert volts(solution, "c") == pytest.approx(-1.0, rel=1e-9)
    assert solution.current_a == pytest.approx((1e-9, 1e-9), rel=1e-6)


@pytest.mark.parametrize("resistance_mohm", [-1.0, float("nan"), float("inf")])
def test_a_resistance_that_is_none_is_refused(resistance_mohm: float) -> None:
    with pytest.raises(ValueError, match="resistance_mohm must be a number not below zero, got"):
        solve([Edge("a", "b", resistance_mohm)], {}, "a")


def test_a_current_that_is_no_number_is_refused() -> None:
    with pytest.raises(ValueError, match="currents_a must be numbers, got nan"):
        solve([Edge("a", "b", 1.0)], {"b": float("nan")}, "a")


@st.composite
def trees(draw: st.DrawFn) -> tuple[list[tuple[int, int]], list[float], list[float]]:
    """Parent of each node from 1 on, resistance of that branch, current drawn at each node."""
    size = draw(st.integers(1, 12))
    branches = [(draw(st.integers(0, node - 1)), node) for node in range(1, size + 1)]
    resistances = draw(st.lists(st.floats(0.1, 5000), min_size=size, max_size=size))
    drawn = draw(st.lists(st.floats(-40, 40), min_size=size + 1, max_size=size + 1))
    return branches, resistances, drawn


@given(trees())
def test_a_tree_is_the_sum_of_what_lies_behind_each_branch(
    tree: tuple[list[tuple[int, int]], list[float], list[float]],
) -> None:
    branches, resistances, drawn = tree
    behind = list(drawn)
    for parent, node in reversed(branches):
        behind[parent] += behind[node]
    expected_v = [0.0] * len(drawn)
    for (parent, node), resistance in zip(branches, resistances, strict=True):
        expected_v[node] = expected_v[parent] - behind[node] * resistance / 1000
    edges = [Edge(parent, node, r) for (parent, node), r in zip(branches, resistances, strict=True)]
    solution = solve(edges, dict(enumerate(drawn)), 0)
    assert [solution.voltage_v[node] for node in range(len(drawn))] == pytest.approx(expected_v, abs=1e-8)
    assert solution.current_a == pytest.approx(tuple(behind[node] for _, node in branches), abs=1e-6)


Network = tuple[int, list[tuple[int, int, float]], list[float]]


@st.composite
def networks(draw: st.DrawFn, least_mohm: float) -> Network:
    """Size, branches and currents of a connected network with loops and parallel branches."""
    size = draw(st.integers(2, 9))
    resistance = st.floats(0.5, 2000) if least_mohm else st.one_of(st.just(0.0), st.floats(0.5, 2000))
    spanning = [(draw(st.integers(0, node - 1)), node, draw(resistance)) for node in range(1, size)]
    node = st.integers(0, size - 1)
    more = draw(st.lists(st.tuples(node, node, resistance), max_size=12))
    drawn = draw(st.lists(st.floats(-40, 40), min_size=size, max_size=size))
    return size, spanning + more, drawn


@given(networks(0.5))
def test_any_network_agrees_with_a_dense_solver(network: Network) -> None:
    size, branches, drawn = network
    matrix = np.zeros((size, size))
    for a, b, resistance in branches:
        siemens = 1000 / resistance
        if a != b:
            matrix[a, a] += siemens
            matrix[b, b] += siemens
            matrix[a, b] -= siemens
            matrix[b, a] -= siemens
    expected = np.linalg.solve(matrix[1:, 1:], -np.array(drawn[1:]))
    solution = solve([Edge(*branch) for branch in branches], dict(enumerate(drawn)), 0)
    found = [solution.voltage_v[node] for node in range(1, size)]
    assert found == pytest.approx(expected.tolist(), rel=1e-8, abs=1e-8)


@given(networks(0.5), st.data())
def test_a_network_with_held_nodes_agrees_with_a_dense_solver(network: Network, data: st.DataObject) -> None:
    size, branches, drawn = network
    places = data.draw(st.sets(st.integers(1, size - 1), min_size=1))
    held = {0: 0.0, **{node: data.draw(st.floats(-20, 20)) for node in sorted(places)}}
    matrix = np.zeros((size, size))
    for a, b, resistance in branches:
        if a != b:
            matrix[[a, b], [a, b]] += 1000 / resistance
            matrix[[a, b], [b, a]] -= 1000 / resistance
    known = np.array(sorted(held))
    free = np.setdiff1d(np.arange(size), known)
    volts = np.array([held[int(node)] for node in known])
    amps = -np.array(drawn)[free] - matrix[np.ix_(free, known)] @ volts
    expected = dict(held) | dict(zip(free.tolist(), np.linalg.solve(matrix[np.ix_(free, free)], amps), strict=True))
    solution = solve([Edge(*branch) for branch in branches], dict(enumerate(drawn)), 0, held)
    assert [solution.voltage_v[n] for n in range(size)] == pytest.approx([expected[n] for n in range(size)], abs=1e-8)


def test_two_thousand_nodes_agree_with_a_sparse_solver() -> None:
    # a tree with one branch in ten more, as a large harness has; conductances over four decades
    chance = np.random.default_rng(2031)
    size = 2000
    a = np.concatenate(
        (np.maximum(0, np.arange(1, size) - chance.integers(1, 30, size - 1)), chance.integers(0, size, 200))
    )
    b = np.concatenate((np.arange(1, size), chance.integers(0, size, 200)))
    ohm = 10 ** chance.uniform(-4, 0, len(a))
    drawn = chance.uniform(0, 2, size)
    plus, siemens = size - 1, 1 / ohm
    rows, columns = np.concatenate((a, b, a, b)), np.concatenate((a, b, b, a))
    matrix = csc_matrix((np.concatenate((siemens, siemens, -siemens, -siemens)), (rows, columns)), shape=(size, size))
    free = np.arange(1, size - 1)
    expected = splu(matrix[free][:, free]).solve(-drawn[free] - matrix[free][:, [plus]] @ np.array([13.5]))
    edges = [Edge(int(i), int(j), 1000 * float(r)) for i, j, r in zip(a, b, ohm, strict=True)]
    solution = solve(edges, dict(enumerate(drawn.tolist())), 0, {plus: 13.5})
    found = np.array([solution.voltage_v[node] for node in range(1, size - 1)], dtype=float)
    assert np.abs(found - expected).max() < 1e-9 * np.abs(expected).max()


@settings(max_examples=200)
@given(networks(0.0))
def test_what_flows_into_a_node_flows_out(network: Network) -> None:
    _, branches, drawn = network
    solution = solve([Edge(*branch) for branch in branches], dict(enumerate(drawn)), 0)
    out_a: list[float | None] = list(drawn)
    for (a, b, resistance), current in zip(branches, solution.current_a, strict=True):
        if current is None:
            assert resistance == 0
        for node, sign in ((a, 1), (b, -1)):
            so_far = out_a[node]
            out_a[node] = None if so_far is None or current is None else so_far + sign * current
    assert all(balance is None or abs(balance) < 1e-6 for balance in out_a[1:])
    if out_a[0] is not None:
        assert out_a[0] == pytest.approx(sum(drawn), abs=1e-6)  # what the reference supplies


@given(networks(0.0))
def test_a_branch_without_resistance_has_one_voltage(network: Network) -> None:
    _, branches, drawn = network
    joined = [(a, b) for a, b, resistance in branches if resistance == 0]
    assume(joined)
    solution = solve([Edge(*branch) for branch in branches], dict(enumerate(drawn)), 0)
    for a, b in joined:
        assert solution.voltage_v[a] == solution.voltage_v[b]


def test_a_tree_of_ten_thousand_wires_and_a_bus_with_as_many_cost_no_more_than_their_size() -> None:
    # A dense elimination of 10 000 nodes takes minutes and 800 MB; the bound is loose for a slow machine
    chain = [Edge(node, node + 1, 1.0) for node in range(10_000)]
    bus = [Edge(0, node, 1.0) for node in range(1, 10_000)]
    start = time.perf_counter()
    end_v = solve(chain, {10_000: 1.0}, 0).voltage_v[10_000]
    spoke_v = solve(bus, {5: 2.0}, 7).voltage_v[5]
    assert time.perf_counter() - start < 5
    assert end_v == pytest.approx(-10.0)  # 10 000 mΩ x 1 A
    assert spoke_v == pytest.approx(-0.004)  # 2 mΩ x 2 A


def test_two_nodes_held_at_their_volts_divide_what_lies_between() -> None:
    # By hand: 12 V over 1 ohm, 2 ohm, 3 ohm in series is 2 A: 10 V and 6 V at the joints
    edges = [Edge("+", "a", 1000.0), Edge("a", "b", 2000.0), Edge("b", "-", 3000.0)]
    solution = solve(edges, {}, "-", {"+": 12.0})
    assert [volts(solution, node) for node in "+ab-"] == pytest.approx([12, 10, 6, 0])
    assert solution.current_a == pytest.approx((2, 2, 2))


def test_two_batteries_of_unlike_volts_feed_one_load() -> None:
    # By hand (node equation): (12-V)/1 + (10-V)/2 = V/4 -> 17 = 1.75 V -> V = 68/7
    edges = [Edge("one", "n", 1000.0), Edge("two", "n", 2000.0), Edge("n", "-", 4000.0)]
    solution = solve(edges, {}, "-", {"one": 12.0, "two": 10.0})
    assert volts(solution, "n") == pytest.approx(68 / 7)
    assert solution.current_a == pytest.approx((12 - 68 / 7, (10 - 68 / 7) / 2, 17 / 7))


def test_an_edge_without_resistance_passes_on_what_a_held_node_supplies() -> None:
    edges = [Edge("+", "fuse", 0.0), Edge("fuse", "-", 6000.0), Edge("fuse", "-", 3000.0)]
    solution = solve(edges, {}, "-", {"+": 12.0})
    assert solution.current_a == pytest.approx((6, 2, 4))


def test_a_dead_short_is_left_out_and_not_told() -> None:
    edges = [Edge("+", "x", 0.0), Edge("x", "-", 0.0), Edge("+", "lamp", 1000.0), Edge("lamp", "-", 1000.0)]
    solution = solve(edges, {}, "-", {"+": 12.0})
    assert solution.current_a[1] is None
    assert volts(solution, "lamp") == pytest.approx(6)


def test_a_held_voltage_that_is_no_number_is_refused() -> None:
    with pytest.raises(ValueError, match="held_v must be numbers, got nan"):
        solve([Edge("a", "b", 1.0)], {}, "a", {"b": float("nan")})

"""The greatest flow through fuses: worked by hand, and against every cut there is on small networks by chance."""

from __future__ import annotations

import math
import random
from itertools import combinations, pairwise, permutations

import pytest

from aswired.ledger.flow import Flow, greatest_flow

COPPER = math.inf
Links = list[tuple[str, str, float]]


# ---- by hand --------------------------------------------------------------------------------------------------------
def test_fuses_in_series_give_the_smallest() -> None:
    links = [("bat", "a", 30.0), ("a", "b", 10.0), ("b", "c", 20.0)]
    assert greatest_flow(links, {"bat"}, {"c"}) == Flow(10.0, (1,))
    # a fuse opens whichever way the current goes
    assert greatest_flow(links, {"c"}, {"bat"}) == Flow(10.0, (1,))


def test_fuses_side_by_side_add_up() -> None:
    links = [("bat", "a", 10.0), ("bat", "b", 7.5), ("a", "wire", COPPER), ("b", "wire", COPPER)]
    assert greatest_flow(links, {"bat"}, {"wire"}) == Flow(17.5, (0, 1))


def test_a_bridged_fuse_counts_for_nothing() -> None:
    links = [("bat", "a", 10.0), ("a", "b", 5.0), ("a", "x", COPPER), ("x", "b", COPPER)]
    assert greatest_flow(links, {"bat"}, {"b"}) == Flow(10.0, (0,))
    assert greatest_flow(links[1:], {"a"}, {"b"}) == Flow(math.inf, ())


def test_a_ring_is_taken_as_a_whole() -> None:
    # 15 A feeds a ring of a, b, c; 4 A guards one side of it, 6 A the other, 5 A lies between b and c
    links = [("bat", "a", 15.0), ("a", "b", 4.0), ("a", "c", 6.0), ("b", "c", 5.0)]
    assert greatest_flow(links, {"bat"}, {"b"}) == Flow(9.0, (1, 3))  # 4 straight, 5 by way of c
    assert greatest_flow(links, {"bat"}, {"c"}) == Flow(10.0, (1, 2))
    # closed by copper, the fuse before the ring is all that limits it
    copper = [("bat", "a", 15.0), ("a", "b", COPPER), ("b", "c", COPPER), ("c", "a", COPPER)]
    assert greatest_flow(copper, {"bat"}, {"b"}) == Flow(15.0, (0,))


def test_a_bridge_between_two_ways_is_used_against_its_first_sense() -> None:
    # the shortest way, bat-a-d-load, must be taken back in part: 10 A by a, 10 A by b, of which 10 leave by c and d
    links = [("bat", "a", 10.0), ("bat", "b", 10.0), ("a", "d", 10.0), ("a", "c", 10.0), ("b", "d", 10.0)]
    links += [("d", "load", 10.0), ("c", "load", 10.0)]
    assert greatest_flow(links, {"bat"}, {"load"}) == Flow(20.0, (0, 1))


def test_two_sources_give_together() -> None:
    links = [("bat", "a", 10.0), ("aux", "a", 5.0), ("a", "b", 30.0)]
    assert greatest_flow(links, {"bat", "aux"}, {"b"}) == Flow(15.0, (0, 1))
    assert greatest_flow(links, {"bat", "aux"}, {"b", "a"}) == Flow(15.0, (0, 1))
    assert greatest_flow([*links, ("bat", "aux", 1.0)], {"bat", "aux"}, {"b"}) == Flow(15.0, (0, 1))
    links[2] = ("a", "b", 12.0)
    assert greatest_flow(links, {"bat", "aux"}, {"b"}) == Flow(12.0, (2,))


def test_two_goals_share_what_arrives() -> None:
    links = [("bat", "a", 20.0), ("a", "b", 7.5), ("a", "c", 5.0)]
    assert greatest_flow(links, ["bat"], ["b", "c"]) == Flow(12.5, (1, 2))


def test_of_equal_smallest_cuts_the_one_nearest_the_sources_is_told() -> None:
    links = [("c", "goal", 10.0), ("b", "c", 20.0), ("a", "b", 10.0), ("bat", "a", COPPER)]
    assert greatest_flow(links, {"bat"}, {"goal"}) == Flow(10.0, (2,))
    both = [("bat", "a", 4.0), ("bat", "a", 6.0), ("a", "b", 10.0)]
    assert greatest_flow(both, {"bat"}, {"b"}) == Flow(10.0, (0, 1))


def test_where_nothing_leads_or_nothing_is_let_through_nothing_arrives() -> None:
    links = [("bat", "a", 10.0), ("b", "c", 10.0)]
    assert greatest_flow(links, {"bat"}, {"c"}) == Flow(0.0, ())
    assert greatest_flow([("bat", "a", 0.0)], {"bat"}, {"a"}) == Flow(0.0, ())
    assert greatest_flow([("bat", "a", 0.0), ("bat", "a", 5.0)], {"bat"}, {"a"}) == Flow(5.0, (1,))
    assert greatest_flow([], {"bat"}, {"a"}) == Flow(0.0, ())
    assert greatest_flow(links, set(), {"a"}) == greatest_flow(links, {"bat"}, set()) == Flow(0.0, ())


def test_a_goal_that_is_a_source_is_reached_without_limit() -> None:
    assert greatest_flow([], {"bat"}, {"bat", "far"}) == Flow(math.inf, ())
    assert greatest_flow([("bat", "a", 5.0), ("a", "a", 3.0)], {"bat", "a"}, {"a"}) == Flow(math.inf, ())


def test_a_link_from_a_node_to_itself_says_nothing() -> None:
    assert greatest_flow([("bat", "bat", 2.0), ("bat", "a", 5.0), ("a", "a", 1.0)], {"bat"}, {"a"}) == Flow(5.0, (1,))


def test_decimals_are_summed_as_they_were_written() -> None:
    # 0.1 + 0.2 is 0.30000000000000004 in floats: the 0.3 behind would then be the smaller, and be told instead
    links = [("bat", "a", 0.1), ("bat", "a", 0.2), ("a", "b", 0.3)]
    assert greatest_flow(links, {"bat"}, {"b"}) == Flow(0.3, (0, 1))


@pytest.mark.parametrize("amps", [-1.0, math.nan, -math.inf])
def test_a_capacity_that_is_none_is_refused(amps: float) -> None:
    with pytest.raises(ValueError, match="capacity of a to b must not be below zero"):
        greatest_flow([("bat", "a", 5.0), ("a", "b", amps)], {"bat"}, {"b"})


def test_a_long_chain_and_a_wide_mesh_are_no_matter() -> None:
    chain = [(f"n{index}", f"n{index + 1}", 10.0 + index % 7) for index in range(1, 3000)]
    assert greatest_flow(chain, {"n1"}, {"n3000"}) == Flow(10.0, (6,))
    copper = [(f"n{index}", f"n{index + 1}", COPPER) for index in range(3000)]
    assert greatest_flow([*copper, ("n3000", "end", 3.0)], {"n0"}, {"end"}) == Flow(3.0, (3000,))
    # a mesh of 22 by 22, 924 links of 5 A: a corner has two links, and no cut is smaller
    across = [(f"{x},{y}", f"{x + 1},{y}", 5.0) for x in range(21) for y in range(22)]
    mesh = across + [(f"{x},{y}", f"{x},{y + 1}", 5.0) for x in range(22) for y in range(21)]
    first, second = (index for index, link in enumerate(mesh) if link[0] == "0,0")
    assert greatest_flow(mesh, {"0,0"}, {"21,21"}) == Flow(10.0, (first, second))
    # from one edge to the other every row carries 5 A, and every link that leaves the first edge is told
    edges = ({f"0,{y}" for y in range(22)}, {f"21,{y}" for y in range(22)})
    found = greatest_flow(mesh, *edges)
    assert (found.amps, len(found.through)) == (110.0, 22)
    assert all(mesh[index][0].startswith("0,") and mesh[index][1].startswith("1,") for index in found.through)


# ---- against every cut ----------------------------------------------------------------------------------------------
RATINGS = (0.0, 1.0, 2.0, 3.0, 5.0, 7.5, 10.0, 15.0, 20.0)  # sums of these are exact in floats


def network(dice: random.Random) -> tuple[Links, set[str], set[str]]:
    """Up to nine nodes: fuses by chance, some in series, some side by side, some bridged, and rings."""
    nodes = [f"n{index}" for index in range(dice.randint(2, 9))]
    links: Links = []
    for _ in range(dice.randint(0, 12)):
        one, other = dice.choice(nodes), dice.choice(nodes)
        links.append((one, other, COPPER if dice.random() < 0.2 else dice.choice(RATINGS)))
    shapes = {"series", "side by side", "bridged", "ring"}
    for shape in sorted(shapes):
        if dice.random() < 0.35:
            way = dice.sample(nodes, min(len(nodes), dice.randint(2, 4)))
            along = [(a, b, dice.choice(RATINGS)) for a, b in pairwise(way)]
            if shape == "side by side":
                along += [(b, a, dice.choice(RATINGS)) for a, b, _ in along]
            elif shape == "bridged":
                along.append((*along[0][:2], COPPER))
            elif shape == "ring":
                along.append((way[-1], way[0], dice.choice(RATINGS)))
            links += along
    dice.shuffle(links)
    sources = set(dice.sample(nodes, dice.choice((1, 1, 1, min(2, len(nodes))))))
    others = [node for node in nodes if node not in sources] or nodes
    goals = set(
        dice.sample(nodes if dice.random() < 0.03 else others, 1 if dice.random() < 0.7 else min(2, len(others)))
    )
    return links, sources, goals


def smallest_cut(links: Links, sources: set[str], goals: set[str]) -> Flow:
    """By every set of nodes that holds all sources and no goal; of those that let least out the common part."""
    if sources & goals:
        return Flow(math.inf, ())
    free = sorted({node for link in links for node in link[:2]} - sources - goals)
    sides = [sources.union(some) for count in range(len(free) + 1) for some in combinations(free, count)]
    leaving = [sum(amps for one, other, amps in links if (one in side) != (other in side)) for side in sides]
    amps = min(leaving)
    if amps in (0, math.inf):
        return Flow(float(amps), ())
    nearest = set.intersection(*(side for side, out in zip(sides, leaving, strict=True) if out == amps))
    out = [index for index, (a, b, most) in enumerate(links) if most > 0 and (a in nearest) != (b in nearest)]
    assert sum(links[index][2] for index in out) == amps  # the common part of smallest cuts is a smallest cut
    return Flow(amps, tuple(out))


def hold_against_cuts(seed: int, rounds: int) -> None:
    dice = random.Random(seed)
    kinds = {"nothing": 0, "without limit": 0, "one": 0, "several": 0}
    for number in range(rounds):
        links, sources, goals = network(dice)
        wanted = smallest_cut(links, sources, goals)
        assert greatest_flow(links, sources, goals) == wanted, (number, links, sources, goals)
        many = len(wanted.through)
        kinds[
            ("nothing" if wanted.amps == 0 else "without limit") if not many else "one" if many == 1 else "several"
        ] += 1
    assert min(kinds.values()) > rounds / 20, kinds  # each kind of answer was asked for


def test_no_network_of_2000_differs_from_the_smallest_of_all_cuts() -> None:
    hold_against_cuts(seed=12, rounds=2000)


def test_the_order_of_ends_and_links_changes_nothing() -> None:
    dice = random.Random(13)
    for _ in range(60):
        links, sources, goals = network(dice)
        wanted = greatest_flow(links, sources, goals)
        for some in permutations(sorted(sources)):
            for others in permutations(sorted(goals)):
                assert greatest_flow(links, some, others) == wanted
        order = list(range(len(links)))
        dice.shuffle(order)
        mixed = greatest_flow([(links[i][1], links[i][0], links[i][2]) for i in order], sources, goals)
        assert (mixed.amps, sorted(order[i] for i in mixed.through)) == (wanted.amps, sorted(wanted.through))

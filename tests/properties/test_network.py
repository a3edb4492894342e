"""The network against an independent nodal analysis, and against Kirchhoff's rules."""

import random

import numpy as np
import pytest

from logic.physics.network import CHASSIS, OWN, SUPPLY, NoClosedCircuit, Tree, solve, ways
from logic.physics.network_parts import parts_of, seen_from_head, slopes_seen_from_head


def random_tree(rng: random.Random, runs: int, *, borrow: float = 0.25, chassis: float = 0.2) -> Tree:
    """A tree whose every run has a way back: lenders are runs that stand already and are no borrowers."""
    while True:
        parents, backs = [], []
        for run in range(runs):
            parents.append(rng.randrange(-1, run))
            draw = rng.random()
            lenders = [other for other in range(run) if backs[other] < 0]
            if draw < borrow and lenders:
                backs.append(rng.choice(lenders))
            else:
                backs.append(CHASSIS if draw < borrow + chassis else OWN)
        loads = [rng.randrange(runs) for _ in range(rng.randrange(1, runs + 2))]
        tree = Tree(tuple(parents), tuple(backs), tuple(loads))
        try:
            ways(tree)
        except NoClosedCircuit:
            continue
        return tree


def nodal(tree, positives, returns, loads):
    """Volts over each load by a dense nodal analysis; wires without resistance as constraints (a saddle
    system).
    """
    runs = len(tree.parents)
    ground, source = 2 * runs, 2 * runs + 1
    branches = []  # (node, node, ohms)
    for run in range(runs):
        start = source if tree.parents[run] == SUPPLY else tree.parents[run]
        branches.append((start, run, positives[run]))
        if tree.backs[run] >= 0:
            branches.append((runs + run, runs + tree.backs[run], 0.0))
        elif tree.backs[run] == CHASSIS or tree.parents[run] == SUPPLY:
            branches.append((runs + run, ground, returns[run]))
        else:
            branches.append((runs + run, runs + tree.parents[run], returns[run]))
    for load, run in enumerate(tree.loads):
        branches.append((run, runs + run, loads[load]))
    nodes, unknown = 2 * runs + 2, 2 * runs + 2 + len(branches) + 2
    a, b = np.zeros((unknown, unknown)), np.zeros(unknown)
    for index, (one, other, ohms) in enumerate(branches):  # v₁ − v₂ − R·i = 0, and i into the nodes' sums
        row = nodes + index
        a[row, one], a[row, other], a[row, row] = 1, -1, -ohms
        a[one, row] += 1
        a[other, row] -= 1
    for row, node, volts in ((unknown - 2, ground, 0.0), (unknown - 1, source, 1.0)):
        a[row, node], b[row] = 1, volts
        a[node, row] = 1
    x = np.linalg.solve(a, b)
    return [x[run] - x[runs + run] for run in tree.loads], -x[unknown - 1]


def resistances(rng, tree, *, zeros=True):
    runs = len(tree.parents)
    wires = [0.0 if zeros and rng.random() < 0.15 else rng.uniform(0.001, 0.5) for _ in range(2 * runs)]
    returns = [
        rng.uniform(0.001, 0.05) if tree.backs[run] == CHASSIS else wires[runs + run] for run in range(runs)
    ]
    return wires[:runs], returns, [rng.uniform(0.5, 8) for _ in tree.loads]


@pytest.mark.parametrize("seed", range(150))
def test_network_equals_a_dense_nodal_analysis(seed):
    rng = random.Random(seed)
    tree = random_tree(rng, rng.randrange(1, 13))
    positives, returns, loads = resistances(rng, tree)
    volts, amps = nodal(tree, positives, returns, loads)
    mine = solve(tree, positives, returns=returns, loads=loads)
    # property · independent nodal analysis (numpy) · 1e-9: both exact but for rounding
    assert mine.load_volts == pytest.approx(volts, rel=1e-9)
    assert mine.supply_amps == pytest.approx(amps, rel=1e-9)


@pytest.mark.parametrize("seed", range(60))
def test_power_of_the_supply_is_that_of_heaters_and_conductors(seed):
    rng = random.Random(1000 + seed)
    tree = random_tree(rng, rng.randrange(1, 20))
    positives, returns, loads = resistances(rng, tree)
    s = solve(tree, positives, returns=returns, loads=loads)
    heat = sum(v * i for v, i in zip(s.load_volts, s.load_amps, strict=True))
    wires = sum(r * i * i for r, i in zip(positives, s.run_amps, strict=True))
    wires += sum(r * i * i for r, i in zip(returns, s.return_amps, strict=True))
    # N6 · property · 1e-9: arithmetic (volts come from the nodes, currents from sums of the heaters')
    assert s.supply_amps == pytest.approx(heat + wires, rel=1e-9)


@pytest.mark.parametrize("seed", range(60))
def test_volts_along_each_wire_are_its_current_times_its_resistance(seed):
    rng = random.Random(2000 + seed)
    tree = random_tree(rng, rng.randrange(1, 20))
    positives, returns, loads = resistances(rng, tree)
    s = solve(tree, positives, returns=returns, loads=loads)
    way = ways(tree)
    for run, parent in enumerate(tree.parents):
        head = 1.0 if parent == SUPPLY else s.positives[parent]
        # N6 · Kirchhoff and Ohm · 1e-12 of the supply's 1 V: differences of volts near each other
        assert head - s.positives[run] == pytest.approx(positives[run] * s.run_amps[run], abs=1e-12)
        if tree.backs[run] < 0:
            end = 0.0 if way.back_to[run] == SUPPLY else s.negatives[way.back_to[run]]
            assert s.negatives[run] - end == pytest.approx(returns[run] * s.return_amps[run], abs=1e-12)


def test_sixty_runs_in_a_chain_equal_one_run_of_their_length():
    chain = Tree(tuple(range(-1, 59)), (OWN,) * 60, (59,))
    s = solve(chain, [0.01] * 60, returns=[0.01] * 60, loads=[2.4])
    # hand · 2.4/(2.4 + 1.2) · 1e-12: arithmetic
    assert s.load_volts[0] == pytest.approx(2.4 / 3.6, rel=1e-12)
    assert s.run_amps == pytest.approx([1 / 3.6] * 60, rel=1e-12)


def test_runs_without_length_lose_nothing():
    chain = Tree((SUPPLY, 0, 1), (OWN, OWN, CHASSIS), (2, 1))
    s = solve(chain, [0.0] * 3, returns=[0.0, 0.0, 0.005], loads=[2.4, 2.4])
    # hand · 2.4/2.405 and the supply's own volts · 1e-12: arithmetic
    assert s.load_volts == pytest.approx((2.4 / 2.405, 1.0), rel=1e-12)
    assert s.run_amps[0] == pytest.approx(1 / 2.405 + 1 / 2.4, rel=1e-12)


def test_a_return_that_leads_back_to_itself_is_no_circuit():
    # child's own return goes to the negative of its parent, which has borrowed the child's
    with pytest.raises(NoClosedCircuit):
        ways(Tree((SUPPLY, 0), (1, OWN), (1,)))


def test_a_parent_may_borrow_its_childs_chassis():
    s = solve(Tree((SUPPLY, 0), (1, CHASSIS), (0,)), [0.1, 0.1], returns=[0.0, 0.005], loads=[2.0])
    # hand · 2/(0.1 + 2 + 0.005) · 1e-12: arithmetic
    assert s.load_volts[0] == pytest.approx(2 / 2.105, rel=1e-12)


def test_a_meter_at_the_fuse_holder_sees_nothing_of_the_way_before_it():
    tree = Tree((SUPPLY, 0), (OWN, OWN), (1, 0))
    ohms = seen_from_head(tree, 1, positives=[0.3, 0.2], returns=[0.3, 0.2], loads=[2.0, 3.0])
    # hand · 0.2 + 2 + 0.2 + 0.3 (back through the feed's return; its heater is off) · 1e-12
    assert ohms == pytest.approx(2.7, rel=1e-12)


@pytest.mark.parametrize("seed", range(80))
def test_a_part_solved_by_itself_is_as_in_the_whole_to_the_bit(seed):
    rng = random.Random(7000 + seed)
    tree = random_tree(rng, rng.randrange(1, 25), borrow=rng.choice([0.0, 0.1, 0.3]))
    positives, returns, loads = resistances(rng, tree)
    whole = solve(tree, positives, returns=returns, loads=loads)
    parts = parts_of(tree)
    assert sorted(run for part in parts for run in part.runs) == list(range(len(tree.parents)))
    assert sorted(load for part in parts for load in part.loads) == list(range(len(tree.loads)))
    for part in parts:
        alone = solve(
            part.tree,
            [positives[run] for run in part.runs],
            returns=[returns[run] for run in part.runs],
            loads=[loads[load] for load in part.loads],
        )
        assert alone.load_volts == tuple(whole.load_volts[load] for load in part.loads)
        assert alone.run_amps == tuple(whole.run_amps[run] for run in part.runs)
        assert alone.return_amps == tuple(whole.return_amps[run] for run in part.runs)


@pytest.mark.parametrize("seed", range(80))
def test_a_meter_sees_the_same_whether_runs_without_current_are_there_or_not(seed):
    rng = random.Random(8000 + seed)
    tree = random_tree(rng, rng.randrange(1, 25))
    positives, returns, loads = resistances(rng, tree)
    for run in range(len(tree.parents)):
        behind = frozenset(load for load, at in enumerate(tree.loads) if run in ways(tree).out[at])
        found = seen_from_head(tree, run, positives=positives, returns=returns, loads=loads)
        if not behind:
            assert found is None
            continue
        before = set(ways(tree).out[run]) - {run}
        bridged = [0.0 if each in before else ohms for each, ohms in enumerate(positives)]
        assert found == 1.0 / solve(tree, bridged, returns=returns, loads=loads, only=behind).supply_amps


@pytest.mark.parametrize("seed", range(60))
def test_what_a_meter_sees_grows_with_each_wire_as_its_slope_says(seed):
    rng = random.Random(9000 + seed)
    tree = random_tree(rng, rng.randrange(1, 15))
    count = len(tree.parents)
    positives, returns = ([rng.uniform(0.05, 0.5) for _ in range(count)] for _ in range(2))
    loads = [rng.uniform(0.5, 5.0) for _ in tree.loads]

    def seen(run, changed=None, by=0.0, *, back=False):
        moved = [[*positives], [*returns]]
        if changed is not None:
            moved[back][changed] += by
        return seen_from_head(tree, run, positives=moved[0], returns=moved[1], loads=loads)

    for run in range(count):
        slopes = slopes_seen_from_head(tree, run, positives=positives, returns=returns, loads=loads)
        assert bool(slopes) == (seen(run) is not None)
        for each in range(count) if slopes else ():
            for back in (False, True):
                lent = back and tree.backs[each] >= 0  # what stands there for a borrower is no wire
                step = 1e-4
                central = (seen(run, each, step, back=back) - seen(run, each, -step, back=back)) / (2 * step)
                # property · 1e-6: a central difference of 0.1 mOhm, out of 50 and more
                assert (0.0 if lent else slopes.get(each, (0.0, 0.0))[back]) == pytest.approx(
                    central, abs=1e-6
                )

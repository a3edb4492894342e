"""Spools against brute force over every way to part the cuts, and the plan's own bounds."""

import random
from itertools import product

import pytest

from logic.physics.cutting import spools_for

FOOT = 0.3048


def partitions(items):
    """Every way to part items into groups."""
    if not items:
        yield []
        return
    first, rest = items[0], items[1:]
    for parts in partitions(rest):
        yield [[first], *parts]
        for number in range(len(parts)):
            yield [*parts[:number], [first, *parts[number]], *parts[number + 1 :]]


def by_brute_force(cuts, sizes):
    """(fewest spools, least length bought with so many)."""
    best = None
    for groups in partitions(list(range(len(cuts)))):
        bought = 0.0
        for group in groups:
            content = sum(cuts[each] for each in group)
            size = next((size for size in sorted(sizes) if size >= content - 1e-9), None)
            if size is None:
                break
            bought += size
        else:
            if best is None or (len(groups), bought) < (best[0], best[1] - 1e-9):
                best = (len(groups), bought)
    return best


@pytest.mark.parametrize("seed", range(60))
def test_plan_is_that_of_brute_force(seed):
    rng = random.Random(seed)
    sizes = rng.choice([[25.0], [25.0, 100.0], [10.0, 25.0], [20.0, 35.0, 50.0], [25.0, 30.0]])
    whole = seed % 2 == 0  # whole feet meet a spool's length exactly, and tie
    cuts = [float(rng.randrange(1, 22)) if whole else rng.uniform(1, 22) for _ in range(rng.randrange(1, 8))]
    cuts = [cut for cut in cuts if cut <= max(sizes)]
    plan = spools_for(cuts, sizes)
    if not cuts:
        assert plan.spools == ()
        return
    # property · every partition of the cuts · 1e-9: arithmetic
    assert plan.proven
    assert (len(plan.spools), plan.bought) == pytest.approx(by_brute_force(cuts, sizes), abs=1e-9)


@pytest.mark.parametrize("seed", range(20))
def test_every_cut_lies_on_one_spool_that_holds_it(seed):
    rng = random.Random(900 + seed)
    cuts = [rng.uniform(0.5, 40) for _ in range(rng.randrange(1, 30))]
    plan = spools_for(cuts, [7.62, 30.48])
    placed = sorted([each for _, group in plan.spools for each in group] + list(plan.too_long))
    assert placed == list(range(len(cuts)))
    for size, group in plan.spools:
        assert sum(cuts[each] for each in group) <= size + 1e-9
    assert all(cuts[each] > 30.48 for each in plan.too_long)
    assert plan.waste >= -1e-9
    assert plan.least_spools <= len(plan.spools)
    assert plan.least_bought <= plan.bought + 1e-9


@pytest.mark.parametrize(("seed", "largest"), list(product(range(12), (16.0, 24.0))))
def test_twenty_cuts_are_proven(seed, largest):
    rng = random.Random(40 + seed)
    cuts = [rng.uniform(1.0, largest) for _ in range(20)]
    # job, Parts: exact for up to 20 cuts
    assert spools_for(cuts, [25.0]).proven
    assert spools_for(cuts, [25.0, 100.0]).proven


def test_a_cut_longer_than_any_spool_is_bought_by_itself():
    plan = spools_for([10.0, 31.0], [7.62, 30.48])
    assert plan.too_long == (1,)
    assert plan.spools == ((30.48, (0,)),)


def test_a_cut_as_long_as_a_spool_takes_all_of_it():
    plan = spools_for([25 * FOOT, 25 * FOOT], [25 * FOOT])
    assert len(plan.spools) == 2
    assert plan.waste == pytest.approx(0.0, abs=1e-12)


def test_no_cuts_want_no_spools():
    assert spools_for([], [25.0]).spools == ()

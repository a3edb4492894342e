"""The choice of gauges against brute force on random trees, its bound, its ties and its edges."""

import random
from itertools import product

import pytest

from logic.data.wiring_constants import AMPACITY, CONTINUOUS_LOAD, FUSE_RATINGS, GAUGES
from logic.physics import gauge_walk
from logic.physics.conductors import area
from logic.physics.gauge_choice import choose_gauges
from logic.physics.harness import Harness, copper
from logic.physics.network import CHASSIS, OWN, SUPPLY, Tree, ways
from tests.properties.test_network import nodal, random_tree

R30 = 1.7241e-8 * (1 + 0.00393 * 10) * 1.02


def random_harness(rng, runs, *, given=0.1, plain=False, lengths=None):
    """A wiring of small heaters, most at the tree's ends; mostly automatic fuses and gauges."""
    tree = random_tree(rng, runs, borrow=0 if plain else 0.2, chassis=0 if plain else 0.15)
    ends = [run for run in range(runs) if run not in tree.parents]
    loads = (*ends, *(rng.randrange(runs) for _ in range(rng.randrange(runs // 3 + 1))))
    fuses = ["auto" if parent == SUPPLY or rng.random() < 0.15 else "none" for parent in tree.parents]
    if rng.random() < 0.15:
        fuses = [rng.choice([fuse, "none", 15.0]) for fuse in fuses]
    share = max(1.0, runs / 8)
    return Harness(
        tree=Tree(tree.parents, tree.backs, loads),
        lengths=tuple(
            0.0 if rng.random() < 0.05 else rng.choice(lengths) if lengths else rng.uniform(0.3, 6)
            for _ in range(runs)
        ),
        gauges=tuple(rng.choice(GAUGES) if rng.random() < given else None for _ in range(runs)),
        chassis=(0.005,) * runs,
        fuses=tuple(fuses),
        heaters=tuple(144 / rng.choice([15, 25, 40, 50, 60, 70]) * share for _ in loads),
        table=rng.choice(["sae", "awg"]),
        temperature=30.0,
        drop_limit=rng.choice([0.03, 0.05, 0.08]),
        charging=rng.choice([13.6, 14.6]),
    )


def rule_book(harness):
    """The format's rules of a choice, written out anew on the dense nodal analysis: gauges → whether they
    hold.
    """
    tree, way = harness.tree, ways(harness.tree)
    runs = range(len(harness.lengths))
    automatic = {run for run in runs if harness.gauges[run] is None}
    with_length = {run for run in automatic if harness.lengths[run] > 0}

    def on_the_way(run):
        return with_length & ({*way.out[run]} | {each for each in way.back[run] if tree.backs[each] == OWN})

    judged = [load for load, at in enumerate(tree.loads) if on_the_way(at)]

    def wanted(gauges):
        ohms = [
            R30 / area(gauge, harness.table) * length
            for gauge, length in zip(gauges, harness.lengths, strict=True)
        ]
        returns = [
            harness.chassis[run] if tree.backs[run] == CHASSIS else 0.0 if tree.backs[run] >= 0 else ohms[run]
            for run in runs
        ]
        shares, _ = nodal(tree, ohms, returns, harness.heaters)
        amps = [harness.charging * share / ohm for share, ohm in zip(shares, harness.heaters, strict=True)]
        out = [sum(amps[load] for load, at in enumerate(tree.loads) if run in way.out[at]) for run in runs]
        back = [sum(amps[load] for load, at in enumerate(tree.loads) if run in way.back[at]) for run in runs]
        fuses = []
        for run in runs:
            asked = harness.fuses[run]
            if asked == "auto":
                least = CONTINUOUS_LOAD * out[run] * (1 - 1e-9)
                asked = next((rating for rating in FUSE_RATINGS if rating >= least), "none")
            fuses.append(None if asked == "none" else asked)

        def nearest(run):
            return next((each for each in reversed(way.out[run]) if fuses[each] is not None), None)

        carries = []
        for run in runs:
            fuse = nearest(run)
            own = tree.backs[run] == OWN
            carry = (
                fuses[fuse]
                if fuse is not None
                else CONTINUOUS_LOAD * max(out[run], back[run] if own else 0) * (1 - 1e-9)
            )
            through = [each for each in runs if run in way.back[each]]
            lent = own and any(tree.backs[each] == run or run not in way.out[each] for each in through)
            if lent:
                distinct = {nearest(each) for each in through} - {None}
                behind = {a for a in distinct for b in distinct if a != b and b in way.out[a]}
                carry = max(carry, sum(fuses[each] for each in distinct - behind))
            carries.append(carry)
        return shares, carries

    def most(gauges, run):
        return AMPACITY[4 if run in automatic and harness.lengths[run] == 0 else gauges[run]]

    _, thin = wanted([gauge or 18 for gauge in harness.gauges])
    wires = [
        run
        for run in runs
        if run in automatic or (on_the_way(run) and thin[run] <= AMPACITY[harness.gauges[run]])
    ]

    def keeps(gauges):
        shares, carries = wanted(gauges)
        return all(1 - shares[load] <= harness.drop_limit * (1 + 1e-9) for load in judged) and all(
            carries[run] <= most(gauges, run) for run in wires
        )

    return keeps


def by_brute_force(harness):
    """(least copper, gauges) over every choice, ties to the thicker in the first run; (None, None): none
    holds.
    """
    keeps = rule_book(harness)
    options = [
        (gauge,) if gauge is not None else (18,) if length == 0 else GAUGES
        for gauge, length in zip(harness.gauges, harness.lengths, strict=True)
    ]
    ranked = sorted((copper(harness, gauges), gauges) for gauges in product(*options))
    least, best = None, None
    for weight, gauges in ranked:
        if least is not None and weight > least + 1e-9:
            break
        if keeps(gauges):
            least = weight if least is None else least
            best = gauges if best is None else min(best, gauges)
    return least, best


def of_lengths(harness, gauges):
    """Gauges of the runs that have a length: the others' may be any that carries."""
    return [gauge for gauge, length in zip(gauges, harness.lengths, strict=True) if length > 0]


@pytest.mark.parametrize("seed", range(60))
def test_choice_is_that_of_brute_force(seed):
    rng = random.Random(seed)
    harness = random_harness(rng, rng.randrange(1, 5), lengths=[1, 2, 3, 4] if seed % 3 == 0 else None)
    choice = choose_gauges(harness)
    least, best = by_brute_force(harness)
    assert choice.proven
    assert (choice.gauges is None) == (best is None)
    if best is not None:
        # property · every choice tried, on a dense nodal analysis · ties within 1e-9 kg as the format has it
        assert choice.copper == pytest.approx(least, abs=1e-9)
        assert of_lengths(harness, choice.gauges) == of_lengths(harness, best)


@pytest.mark.parametrize("seed", [100, 101, 103, 104, 109])
def test_choice_of_six_runs_is_that_of_brute_force(seed):
    rng = random.Random(seed)
    harness = random_harness(rng, 6, given=0.15)
    choice = choose_gauges(harness)
    least, best = by_brute_force(harness)
    assert choice.proven
    assert (choice.gauges is None) == (best is None)
    if best is not None:
        assert choice.copper == pytest.approx(least, abs=1e-9)
        assert of_lengths(harness, choice.gauges) == of_lengths(harness, best)


@pytest.mark.parametrize("seed", range(12))
def test_sixteen_runs_with_returns_of_their_own_are_proven(seed):
    choice = choose_gauges(random_harness(random.Random(500 + seed), 16, given=0, plain=True))
    assert choice.proven
    assert choice.gauges is None or choice.least == pytest.approx(choice.copper, abs=1e-9)


@pytest.mark.parametrize("seed", range(6))
def test_a_search_that_is_cut_off_still_bounds_the_copper(seed, monkeypatch):
    harness = random_harness(random.Random(300 + seed), 10, given=0, plain=True)
    whole = choose_gauges(harness)
    monkeypatch.setattr(gauge_walk, "MOST_STEPS", 3)
    short = choose_gauges(harness)
    if short.gauges is None:
        return
    assert whole.proven
    # the bound is under the true least, and what was found is over it
    assert short.least <= whole.copper + 1e-9
    assert short.copper >= whole.copper - 1e-9
    assert not short.proven or short.copper == pytest.approx(whole.copper, abs=1e-9)


@pytest.mark.parametrize("count", [16, 40, 60])
def test_a_chain_of_equal_runs_is_thick_first_and_thin_behind(count):
    chain = Harness(
        tree=Tree(tuple(range(-1, count - 1)), (OWN,) * count, (count - 1,)),
        lengths=(3.6 / count,) * count,
        gauges=(None,) * count,
        chassis=(0.005,) * count,
        fuses=("auto", *["none"] * (count - 1)),
        heaters=(4.8,),
        table="awg",
        temperature=30.0,
        drop_limit=0.02,
        charging=13.6,
    )
    choice = choose_gauges(chain)
    assert choice.proven
    # a tie of very many choices: the thicker wires stand in the runs that come first
    assert list(choice.gauges) == sorted(choice.gauges)
    assert len(set(choice.gauges)) <= 2


def test_the_profiles_order_may_name_a_run_before_the_one_it_comes_from():
    outwards = Harness(
        tree=Tree((SUPPLY, 0), (OWN, OWN), (1,)),
        lengths=(2.7432, 2.7432),
        gauges=(None, None),
        chassis=(0.005, 0.005),
        fuses=("auto", "none"),
        heaters=(2.4,),
        table="awg",
        temperature=30.0,
        drop_limit=0.035,
        charging=13.6,
    )
    inwards = Harness(
        tree=Tree((1, SUPPLY), (OWN, OWN), (0,)),
        lengths=outwards.lengths,
        gauges=outwards.gauges,
        chassis=outwards.chassis,
        fuses=("none", "auto"),
        heaters=outwards.heaters,
        table="awg",
        temperature=30.0,
        drop_limit=0.035,
        charging=13.6,
    )
    # F5, and F5 with its runs named the other way round: thick in whichever comes first in the profile
    assert choose_gauges(outwards).gauges == (12, 14)
    assert choose_gauges(inwards).gauges == (12, 14)

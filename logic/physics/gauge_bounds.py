"""An easier problem than the choice of gauges, which every feasible choice solves too: bounds from below.

Heaters within the drop limit have between (1 − limit) and 1 of the supply's volts, so every current lies in a
narrow interval (`currents`). With the least currents, the drops along a way are a plain sum over its runs.
Fuses follow the currents and may step within those intervals: each combination of ratings is a case by itself
(`cases`). Under a case each run has its thinnest gauge, and the least copper of every subtree is a staircase
over what of the limit is used before it, worked out from the tree's ends (`_stairs`).
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import product

import msgspec

from logic.data.wiring_constants import AMPACITY, CONTINUOUS_LOAD, FUSE_RATINGS, GAUGES
from logic.physics.conductors import resistance_per_metre
from logic.physics.gauge_currents import Currents, currents, widest
from logic.physics.gauge_rules import asked, chassis_paths, thinnest, wire_weights
from logic.physics.harness import Harness, copper_of
from logic.physics.network import OWN, SUPPLY, ways
from logic.physics.protection import AUTO, ROUNDING, fuse_of, protection, summed_fuses

NEVER = float("inf")

MOST_STAIRS = 4000
"""Points kept of a staircase; more are thinned towards less copper, so the bound stays a bound."""

SLACK = 5e-9
"""What rounding and ties may add to copper [kg] and to shares, so that no tie is left out."""

MOST_CASES = 64
"""Combinations of ratings looked at one by one; with more, the lowest of each stand for all, which allows
more.
"""


class Option(msgspec.Struct, frozen=True):
    """A gauge that a run may have."""

    gauge: int  # AWG
    copper: float  # kg; 0 where the gauge is given
    drop: float  # of the supply's volts, with the least current


class Stairs(msgspec.Struct, frozen=True):
    """Least copper of a subtree, by what of the limit is used before it: for used ≤ limits[i], costs[i]."""

    limits: tuple[float, ...]  # rising
    costs: tuple[float, ...]  # rising with them

    def at(self, used: float) -> float:
        index = bisect_left(self.limits, used)
        return self.costs[index] if index < len(self.costs) else NEVER


class EasierCase(msgspec.Struct, frozen=True):
    """One combination of fuse ratings, and the easier problem under it."""

    fuses: tuple[float | None, ...] | None  # None: several combinations at once
    options: tuple[tuple[Option, ...], ...]  # of each run, thinnest first
    stairs: tuple[Stairs, ...]  # of each run
    limits: tuple[float, ...]  # what may be used at each run's far end by a heater that stands there
    # of each run: what runs that need not lie before it add to every way through it, by their gauge, over
    # what is
    # taken off the limits for them: (run, ((gauge, share of the supply's volts), …))
    extras: tuple[tuple[tuple[int, tuple[tuple[int, float], ...]], ...], ...]
    shares: tuple[float, ...]  # least share of the supply's volts of each heater
    floor: float  # kg: least copper of the easier problem, all runs together


def cases(harness: Harness, most: float = NEVER) -> Iterator[EasierCase]:
    """The easier problem under each combination of ratings that may occur; none where nothing is feasible.

    most : copper of a feasible choice that is known; the staircases leave out what has more. [kg]
    """
    flows = widest(harness)
    ratings: list[tuple[float | None, ...]] = []
    several = 1
    for run, fuse in enumerate(harness.fuses):
        if fuse != AUTO:
            ratings.append((fuse_of(fuse, 0.0),))
            continue
        low, high = _between(harness, flows, run)
        found = tuple(
            rating
            for rating, before in zip(FUSE_RATINGS, (0.0, *FUSE_RATINGS), strict=False)
            if rating >= low and before < high
        )
        ratings.append((*found, None) if high > FUSE_RATINGS[-1] else found or (FUSE_RATINGS[0],))
        several *= len(ratings[-1])
    if several > MOST_CASES:
        lowest = tuple(each[0] for each in ratings)
        if (one := _case(harness, flows, lowest, alone=False, most=most)) is not None:
            yield one
        return
    for fuses in product(*ratings):
        if (one := _case(harness, flows, fuses, alone=True, most=most)) is not None:
            yield one


def _between(harness: Harness, flows: Currents, run: int) -> tuple[float, float]:
    """The least and the greatest that a run's automatic fuse must be rated. [A]"""
    share = CONTINUOUS_LOAD * harness.charging
    return share * flows.out_least[run] * (1 - ROUNDING), share * flows.out_most[run]


def _case(
    harness: Harness, flows: Currents, fuses: tuple[float | None, ...], *, alone: bool, most: float
) -> EasierCase | None:
    """None: nothing feasible has these ratings.

    alone : every choice of the case has just these ratings; else they stand for higher ones as well. Gauges
    that no feasible choice of the case can have are left out, which narrows its currents, which may leave out
    more.
    """
    gauges = _carrying(harness, flows, fuses)
    while gauges is not None:
        flows = currents(harness, [several[0] for several in gauges], [several[-1] for several in gauges])
        if alone and not _ratings_hold(harness, flows, fuses):
            return None
        eased = _eased(harness, flows, gauges)
        narrower = _within_limits(harness, eased, gauges)
        if narrower is None:
            return None
        if narrower == gauges:
            return _with_stairs(harness, flows, fuses if alone else None, eased, most=most)
        gauges = narrower
    return None


def _carrying(
    harness: Harness, flows: Currents, fuses: tuple[float | None, ...]
) -> list[tuple[int, ...]] | None:
    """The gauges that carry what these fuses let pass, thinnest first. None: a run has none."""
    facts = protection(harness.tree, tuple(fuse is not None for fuse in fuses))
    gauges: list[tuple[int, ...]] = []
    for run, given in enumerate(harness.gauges):
        nearest = facts.nearest[run]
        if nearest is not None:
            amps = fuses[nearest] or 0.0
        else:
            own = harness.tree.backs[run] == OWN
            flow = max(flows.out_least[run], flows.back_least[run] if own else 0.0)
            amps = CONTINUOUS_LOAD * harness.charging * flow * (1 - ROUNDING)
        if facts.lent[run]:
            amps = max(amps, summed_fuses(facts, run, fuses))
        thin = thinnest(amps)
        if given is not None:
            if run in asked(harness).wires and AMPACITY[given] < amps:
                return None
            gauges.append((given,))
        elif thin is None:
            return None
        else:
            gauges.append((thin,) if harness.lengths[run] == 0 else GAUGES[GAUGES.index(thin) :])
    return gauges


def _ratings_hold(harness: Harness, flows: Currents, fuses: tuple[float | None, ...]) -> bool:
    """Whether automatic fuses can have these ratings with these currents."""
    for run, fuse in enumerate(fuses):
        if harness.fuses[run] != AUTO:
            continue
        low, high = _between(harness, flows, run)
        before = FUSE_RATINGS[-1] if fuse is None else max((r for r in FUSE_RATINGS if r < fuse), default=0.0)
        if (fuse is not None and low > fuse) or high * (1 + ROUNDING) < before:
            return False
    return True


def _within_limits(
    harness: Harness, eased: "_Eased", gauges: list[tuple[int, ...]]
) -> list[tuple[int, ...]] | None:
    """The gauges with which each way could still be within its limit, all others at their thickest."""
    way = ways(harness.tree)
    room = [NEVER] * len(gauges)
    for end, limit in eased.limits.items():
        left = limit - sum(eased.options[run][-1].drop for run in way.out[end])
        if left < 0:
            return None
        for run in way.out[end]:
            room[run] = min(room[run], left)
    return [
        tuple(option.gauge for option in options if option.drop - options[-1].drop <= room[run])
        for run, options in enumerate(eased.options)
    ]


class _Eased(msgspec.Struct, frozen=True):
    options: tuple[tuple[Option, ...], ...]
    limits: dict[int, float]  # what the positives' tree may use before each judged run's end
    extras: tuple[tuple[tuple[int, tuple[tuple[int, float], ...]], ...], ...]


def _eased(harness: Harness, flows: Currents, gauges: Sequence[tuple[int, ...]]) -> _Eased:
    """Options with the drop that counts along the positives' tree, and what each judged run's end may use of
    them.

    A return that isn't under its own positive, a chassis path, and what a way carries beyond the least of all
    ways over that run, are counted at the thickest wire and taken off the limit beforehand. What a thinner
    one would add stands in `extras`.
    """
    tree, way = harness.tree, ways(harness.tree)
    per_metre = {gauge: resistance_per_metre(gauge, harness.table, harness.temperature) for gauge in GAUGES}
    ohms = [per_metre[several[-1]] * length for several, length in zip(gauges, harness.lengths, strict=True)]
    judged = {tree.loads[load]: wire_weights(harness, tree.loads[load]) for load in asked(harness).loads}

    weights = [NEVER] * len(ohms)
    for end, wires in judged.items():
        for run in way.out[end]:
            weights[run] = min(
                weights[run], flows.out_least[run] + (flows.back_least[run] if wires[run][1] else 0.0)
            )
    weights = [
        0.0 if weight == NEVER or len(several) == 1 else weight
        for weight, several in zip(weights, gauges, strict=True)
    ]
    limits = {}
    over: list[dict[int, float] | None] = [None] * len(
        ohms
    )  # of each run: what all ways through it carry besides
    for end, wires in judged.items():
        left = harness.drop_limit * (1 + ROUNDING)
        besides = {}
        for run, (out, back) in wires.items():
            whole = (flows.out_least[run] if out else 0.0) + (flows.back_least[run] if back else 0.0)
            beyond = whole - (weights[run] if out else 0.0)
            left -= beyond * ohms[run]
            if beyond > 1e-15 and len(gauges[run]) > 1:
                besides[run] = beyond
        for run in way.out[end]:
            held = over[run]
            over[run] = (
                besides
                if held is None
                else {each: min(held[each], besides[each]) for each in held if each in besides}
            )
        for run in chassis_paths(harness, end):
            left -= harness.chassis[run] * flows.back_least[run]
        limits[end] = left
    options = tuple(
        tuple(
            Option(
                gauge=gauge,
                copper=copper_of(harness, run, gauge) if harness.gauges[run] is None else 0.0,
                drop=weights[run] * per_metre[gauge] * harness.lengths[run],
            )
            for gauge in several
        )
        for run, several in enumerate(gauges)
    )
    extras = tuple(
        tuple(
            (
                each,
                tuple(
                    (gauge, beyond * (per_metre[gauge] * harness.lengths[each] - ohms[each]))
                    for gauge in gauges[each]
                ),
            )
            for each, beyond in (besides or {}).items()
        )
        for besides in over
    )
    return _Eased(options, limits, extras)


def _with_stairs(
    harness: Harness,
    flows: Currents,
    fuses: tuple[float | None, ...] | None,
    eased: _Eased,
    *,
    most: float,
) -> EasierCase | None:
    tree, options, limits, order = harness.tree, eased.options, eased.limits, ways(harness.tree).order
    given = sum(
        copper_of(harness, run, gauge) for run, gauge in enumerate(harness.gauges) if gauge is not None
    )
    before = [0.0] * len(options)  # what the way before each run uses at least
    for run in order:
        if tree.parents[run] != SUPPLY:
            before[run] = before[tree.parents[run]] + options[tree.parents[run]][-1].drop
    lightest = [several[0].copper for several in options]  # of each subtree, at least
    for run in reversed(order):
        if tree.parents[run] != SUPPLY:
            lightest[tree.parents[run]] += lightest[run]
    spare = most - given - sum(lightest[run] for run in order if tree.parents[run] == SUPPLY) + SLACK

    below: list[list[Stairs]] = [[] for _ in options]
    done: list[Stairs] = [Stairs((), ())] * len(options)
    floor = given
    for run in reversed(order):
        done[run] = _stairs(
            below[run], options[run], limits.get(run, NEVER), before=before[run], most=lightest[run] + spare
        )
        if not done[run].limits:
            return None
        if tree.parents[run] == SUPPLY:
            floor += done[run].at(0.0)
        else:
            below[tree.parents[run]].append(done[run])
    if floor == NEVER:
        return None
    return EasierCase(
        fuses=fuses,
        options=options,
        stairs=tuple(done),
        limits=tuple(limits.get(run, NEVER) for run in range(len(options))),
        extras=eased.extras,
        shares=flows.shares,
        floor=floor,
    )


def _stairs(
    below: Sequence[Stairs], options: Sequence[Option], limit: float, *, before: float, most: float
) -> Stairs:
    """The staircase of a run with its subtree from those of its children.

    limit : of what may be used at its far end, where a heater stands that must keep it. before : used in
    any case before it. most : copper beyond which nothing in the subtree is looked for.
    """
    ends = {end for one in below for end in one.limits if end < limit} | {limit}
    sums = [(end, sum(one.at(end) for one in below)) for end in ends]
    points = [
        (end - option.drop, cost + option.copper)
        for option in options
        for end, cost in sums
        if cost + option.copper <= most and end - option.drop >= before - SLACK
    ]
    points.sort(key=lambda point: (point[1], -point[0]))
    limits: list[float] = []
    costs: list[float] = []
    for end, cost in points:  # with more copper only where more may be used before it
        if not limits or end > limits[-1]:
            limits.append(end)
            costs.append(cost)
    if len(limits) > MOST_STAIRS:
        stride = -(-len(limits) // MOST_STAIRS)
        groups = range(0, len(limits), stride)
        costs = [costs[group] for group in groups]
        limits = [limits[min(group + stride, len(limits)) - 1] for group in groups]
    return Stairs(tuple(limits), tuple(costs))

"""The least copper with which every rule is kept, for all automatic runs at once. Exact, and proven so.

How. Heaters within the drop limit have between (1 − limit) and 1 of the supply's volts, so every current lies in
a narrow interval. With the least currents the drops along a way are a sum over its runs: an easier problem that
allows every real choice and a few more. Its least copper, for every subtree and every part of the limit that may
still be used there, is a staircase worked out from the tree's ends (`_stairs`). The search then walks the tree
outwards; what it has spent and what the staircases still ask for is a bound from below on the copper of anything
it can reach. Each full choice is judged by the real network with its own currents and fuses. What can't beat the
best is left out, so what is found is the least; where the walk is cut off (`MOST_STEPS`), the first staircase
still says how far from the least it can be at most.

Fuses follow the currents and could step within those intervals: each combination of ratings is searched by
itself (`_cases`). Ties within 1e-9 kg go to the thicker gauge in the run that comes first.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import product

import msgspec

from logic.data.wiring_constants import AMPACITY, CONTINUOUS_LOAD, FUSE_RATINGS, GAUGES
from logic.physics.conductors import resistance_per_metre
from logic.physics.gauge_rules import (
    Fault,
    allowed,
    asked,
    chassis_paths,
    faults,
    keeps_drop,
    thinnest,
    wire_weights,
    with_free_runs,
)
from logic.physics.harness import Harness, copper, copper_of, resistances, stand
from logic.physics.network import CHASSIS, OWN, SUPPLY, solve, ways
from logic.physics.protection import AUTO, ROUNDING, fuse_of, protection, summed_fuses

TIE = 1e-9
"""Copper that counts as equal. [kg] The format's convention."""

MOST_STEPS = 150_000
"""Steps of the search, a judged choice counting as `JUDGED` of them, after which it ends with a bound."""

JUDGED = 10
MOST_STAIRS = 1500
"""Points kept of a staircase; more are thinned towards less copper, so the bound stays a bound."""

MOST_CASES = 64
_NOISE = 1e-12  # kg: what rounding may do to a sum of copper
_NEVER = float("inf")


class Choice(msgspec.Struct, frozen=True):
    """Gauges for every run, and what is known of them."""

    gauges: tuple[int, ...] | None  # AWG, given ones included; None: none is feasible, or none was found
    copper: float | None  # kg, of all runs
    least: float | None  # kg: no feasible choice has less; equal to `copper` where proven
    proven: bool  # nothing has less copper (or: nothing is feasible)
    faults: tuple[Fault, ...] = ()  # where there are no gauges: what even the thickest break
    steps: int = 0  # of the search


def choose_gauges(harness: Harness) -> Choice:
    """The least copper over all automatic runs for which every rule of `gauge_rules` holds.

    Exact, ties included, up to `MOST_STEPS`; beyond, `proven` is False and `least` the bound from below.
    """
    automatic = [run for run, gauge in enumerate(harness.gauges) if gauge is None]
    if not automatic:
        weight = copper(harness, _gauges(harness, ()))
        return Choice(_gauges(harness, ()), weight, weight, True)
    search = _Search(harness)
    search.find_least()
    if search.best is None:
        thickest = [gauge or GAUGES[-1] for gauge in harness.gauges]
        why = tuple(faults(harness, stand(harness, thickest)))
        return Choice(None, None, None, not search.cut_off, why, search.steps)
    search.settle_ties()
    chosen = with_free_runs(harness, search.best)
    weight = copper(harness, chosen)
    least = weight if not search.cut_off else min(weight, search.floor)
    return Choice(chosen, weight, least, least >= weight - TIE, (), search.steps)


def _gauges(harness: Harness, chosen: Sequence[int]) -> tuple[int, ...]:
    rest = iter(chosen)
    return tuple(next(rest) if gauge is None else gauge for gauge in harness.gauges)


class _Currents(msgspec.Struct, frozen=True):
    """Least and greatest current of each positive and return, per volt of the supply, in any feasible choice."""

    out_least: tuple[float, ...]
    out_most: tuple[float, ...]
    back_least: tuple[float, ...]
    back_most: tuple[float, ...]


class _Case(msgspec.Struct, frozen=True):
    """One combination of fuse ratings, and the easier problem under it."""

    options: tuple[
        tuple[tuple[int, float, float], ...], ...
    ]  # of each run: (gauge, copper, drop), thinnest first
    stairs: tuple["_Stairs", ...]  # of each run
    floor: float  # least copper of the easier problem


class _Stairs(msgspec.Struct, frozen=True):
    """Least copper of a subtree, by what of the limit is used before it: for used ≤ limits[i], costs[i]."""

    limits: tuple[float, ...]  # rising
    costs: tuple[float, ...]  # rising with them

    def at(self, used: float) -> float:
        index = bisect_left(self.limits, used)
        return self.costs[index] if index < len(self.costs) else _NEVER


class _Search:
    def __init__(self, harness: Harness) -> None:
        self.harness = harness
        self.rules = asked(harness)
        self.way = ways(harness.tree)
        self.order = self._order()
        self.children: list[list[int]] = [[] for _ in harness.lengths]
        self.roots: list[int] = []
        for run, parent in enumerate(harness.tree.parents):
            (self.roots if parent == SUPPLY else self.children[parent]).append(run)
        self.best: tuple[int, ...] | None = None
        self.copper = _NEVER
        self.floor = _NEVER
        self.steps = 0
        self.cut_off = False
        self.limit = _NEVER
        self.cases: list[_Case] = []

    def _order(self) -> tuple[int, ...]:
        """The profile's order, where no run comes before the one that it comes from; otherwise outwards."""
        parents = self.harness.tree.parents
        if all(parent < run for run, parent in enumerate(parents)):
            return tuple(range(len(parents)))
        return self.way.order

    # --- the two stages ---

    def find_least(self) -> None:
        if any(not self._reachable(load) for load in self.rules.loads):
            return
        currents = _currents(self.harness, self.rules.loads)
        self.cases = sorted(self._cases(currents), key=lambda case: case.floor)
        self.floor = min((case.floor for case in self.cases), default=_NEVER)
        for case in self.cases:
            self._walk(case, first=False)

    def settle_ties(self) -> None:
        """The thickest in the first run, then in the next …, of all choices within `TIE` of the least copper."""
        if self.cut_off or self.best is None:
            return
        self.limit = self.copper + TIE
        found = [one for case in self.cases if (one := self._walk(case, first=True)) is not None]
        if found:
            self.best = min(found, key=self._by_thickness)

    def _by_thickness(self, gauges: tuple[int, ...]) -> list[int]:
        """Gauges of the runs that have a length, in the profile's order: a lower number is a thicker wire."""
        return [gauge for gauge, length in zip(gauges, self.harness.lengths, strict=True) if length > 0]

    def _reachable(self, load: int) -> bool:
        """Whether a heater could keep the limit with its own way at its thickest and all others at their thinnest."""
        own = wire_weights(self.harness, self.harness.tree.loads[load])
        gauges = [
            gauge or (GAUGES[-1] if run in own else GAUGES[0])
            for run, gauge in enumerate(self.harness.gauges)
        ]
        positives, returns = resistances(self.harness, gauges)
        shares = solve(self.harness.tree, positives, returns=returns, loads=self.harness.heaters).load_volts
        return keeps_drop(shares[load], self.harness.drop_limit)

    # --- the easier problem ---

    def _cases(self, currents: _Currents) -> Iterator[_Case]:
        harness = self.harness
        ratings: list[tuple[float | None, ...]] = []
        for run, fuse in enumerate(harness.fuses):
            if fuse != AUTO:
                ratings.append((fuse_of(fuse, 0.0),))
                continue
            least = CONTINUOUS_LOAD * harness.charging * currents.out_least[run] * (1 - ROUNDING)
            most = CONTINUOUS_LOAD * harness.charging * currents.out_most[run]
            between = [
                rating
                for rating, before in zip(FUSE_RATINGS, (0.0, *FUSE_RATINGS), strict=False)
                if rating >= least and before < most
            ]
            ratings.append((*between, None) if most > FUSE_RATINGS[-1] else tuple(between))
        count = 1
        for several in ratings:
            count *= len(several)
        if count > MOST_CASES:  # judged at the end only: the lowest ratings allow the most
            ratings = [several[:1] for several in ratings]
        for fuses in product(*ratings):
            case = self._case(fuses, currents)
            if case is not None:
                yield case

    def _case(self, fuses: tuple[float | None, ...], currents: _Currents) -> _Case | None:
        harness = self.harness
        facts = protection(harness.tree, tuple(fuse is not None for fuse in fuses))
        least = []
        for run, nearest in enumerate(facts.nearest):
            if nearest is not None:
                amps = fuses[nearest] or 0.0
            else:
                own = harness.tree.backs[run] == OWN
                flow = max(currents.out_least[run], currents.back_least[run] if own else 0.0)
                amps = CONTINUOUS_LOAD * harness.charging * flow * (1 - ROUNDING)
            if facts.lent[run]:
                amps = max(amps, summed_fuses(facts, run, fuses))
            least.append(amps)
        if any(
            harness.gauges[run] is not None and least[run] > AMPACITY[harness.gauges[run] or 0]
            for run in self.rules.wires
        ):
            return None
        return self._eased(least, currents)

    def _eased(self, least: list[float], currents: _Currents) -> _Case | None:
        """Options and staircases with the least currents; None: not even this is feasible."""
        harness = self.harness
        per_metre = {
            gauge: resistance_per_metre(gauge, harness.table, harness.temperature) for gauge in GAUGES
        }
        gauges: list[tuple[int, ...]] = []
        for run, given in enumerate(harness.gauges):
            if given is not None:
                gauges.append((given,))
                continue
            thin = thinnest(least[run])
            if thin is None:
                return None
            gauges.append((thin,) if harness.lengths[run] == 0 else GAUGES[GAUGES.index(thin) :])
        ohms = [
            per_metre[options[-1]] * length for options, length in zip(gauges, harness.lengths, strict=True)
        ]

        # the heaters that must keep the limit, by the run at whose far end they stand
        judged = {
            harness.tree.loads[load]: wire_weights(harness, harness.tree.loads[load])
            for load in self.rules.loads
        }
        weights = [_NEVER] * len(ohms)  # of a run's positive and return, the least of all ways over it
        for end, wires in judged.items():
            for run in self.way.out[end]:
                _, back = wires[run]
                weight = currents.out_least[run] + (currents.back_least[run] if back else 0.0)
                weights[run] = min(weights[run], weight)
        limits = {}
        for end, wires in judged.items():
            left = harness.drop_limit * (1 + ROUNDING)
            for run, (out, back) in wires.items():
                whole = (currents.out_least[run] if out else 0.0) + (
                    currents.back_least[run] if back else 0.0
                )
                counted = weights[run] if out and len(gauges[run]) > 1 else 0.0
                left -= (whole - counted) * ohms[run]
            for run in chassis_paths(harness, end):
                left -= harness.chassis[run] * currents.back_least[run]
            limits[end] = left

        options = []
        for run, several in enumerate(gauges):
            weight = 0.0 if weights[run] == _NEVER or len(several) == 1 else weights[run]
            free = harness.gauges[run] is not None
            options.append(
                tuple(
                    (
                        gauge,
                        0.0 if free else copper_of(harness, run, gauge),
                        weight * per_metre[gauge] * harness.lengths[run],
                    )
                    for gauge in several
                )
            )
        stairs: list[_Stairs | None] = [None] * len(gauges)
        for run in reversed(self.way.order):
            below = [one for child in self.children[run] if (one := stairs[child]) is not None]
            stairs[run] = _stairs(below, options[run], limits.get(run, _NEVER))
            if not stairs[run].limits:  # type: ignore[union-attr]
                return None
        done = tuple(one for one in stairs if one is not None)
        floor = sum(done[run].at(0.0) for run in self.roots) + self._given_copper()
        return _Case(tuple(options), done, floor) if floor < _NEVER else None

    def _given_copper(self) -> float:
        return sum(
            copper_of(self.harness, run, gauge)
            for run, gauge in enumerate(self.harness.gauges)
            if gauge is not None
        )

    # --- the walk ---

    def _walk(self, case: _Case, *, first: bool) -> tuple[int, ...] | None:
        """Depth first over one case. first: the first feasible one within `limit`, thickest first."""
        harness, order = self.harness, self.order
        used = [0.0] * len(order)  # before each run
        chosen = [0] * len(order)
        found: tuple[int, ...] | None = None

        def visit(depth: int, bound: float) -> bool:
            """Whether the walk is over."""
            nonlocal found
            if depth == len(order):
                return judge(bound)
            run = order[depth]
            here = case.stairs[run].at(used[run])
            steps = []
            for gauge, weight, drop in case.options[run]:
                after = used[run] + drop
                total = bound - here + weight
                for child in self.children[run]:
                    total += case.stairs[child].at(after)
                if total < _NEVER:
                    steps.append((total, gauge, after))
            steps.sort(key=(lambda step: step[1]) if first else (lambda step: step[0]))
            for total, gauge, after in steps:
                if total > self.limit if first else total >= self.copper - _NOISE:
                    continue
                self.steps += 1
                if self.steps > MOST_STEPS:
                    self.cut_off = True
                    return True
                chosen[run] = gauge
                for child in self.children[run]:
                    used[child] = after
                if visit(depth + 1, total):
                    return True
            return False

        def judge(bound: float) -> bool:
            nonlocal found
            self.steps += JUDGED
            gauges = tuple(chosen)
            if not allowed(harness, gauges):
                return False
            if first:
                found = gauges
                return True
            weight = copper(harness, gauges)
            if weight < self.copper - _NOISE:
                self.best, self.copper = gauges, weight
            return False

        visit(0, case.floor)
        return found


def _currents(harness: Harness, judged: Sequence[int]) -> _Currents:
    """Intervals of every current that hold in any feasible choice, per volt of the supply."""
    tree = harness.tree
    thick, _ = resistances(harness, [gauge or GAUGES[-1] for gauge in harness.gauges])
    thin, _ = resistances(harness, [gauge or GAUGES[0] for gauge in harness.gauges])
    within = set(judged)
    low = [
        1 - harness.drop_limit * (1 + ROUNDING) if load in within else 0.0 for load in range(len(tree.loads))
    ]
    high = [1.0] * len(low)
    wires = {run: wire_weights(harness, run) for run in set(tree.loads)}
    for _ in range(3):  # each time a little narrower, and always an interval that holds
        out_least, back_least = _flows(harness, low)
        out_most, back_most = _flows(harness, high)
        for load, run in enumerate(tree.loads):
            least_drop = most_drop = 0.0
            for each, (out, back) in wires[run].items():
                least = (out_least[each] if out else 0.0) + (back_least[each] if back else 0.0)
                most = (out_most[each] if out else 0.0) + (back_most[each] if back else 0.0)
                least_drop += thick[each] * least
                most_drop += thin[each] * most
            for each in chassis_paths(harness, run):
                least_drop += harness.chassis[each] * back_least[each]
                most_drop += harness.chassis[each] * back_most[each]
            high[load] = min(high[load], 1 - least_drop)
            low[load] = max(low[load], 1 - most_drop)
            high[load] = max(high[load], low[load])
    out_least, back_least = _flows(harness, low)
    out_most, back_most = _flows(harness, high)
    return _Currents(tuple(out_least), tuple(out_most), tuple(back_least), tuple(back_most))


def _flows(harness: Harness, shares: Sequence[float]) -> tuple[list[float], list[float]]:
    """Currents of positives and returns where each heater has this share of the supply's volts."""
    way, loads = ways(harness.tree), harness.heaters
    out = [0.0] * len(harness.lengths)
    back = [0.0] * len(harness.lengths)
    for load, run in enumerate(harness.tree.loads):
        amps = shares[load] / loads[load]
        for each in way.out[run]:
            out[each] += amps
        for each in way.back[run]:
            back[each] += amps
    return out, back


def _stairs(below: Sequence[_Stairs], options: Sequence[tuple[int, float, float]], limit: float) -> _Stairs:
    """The staircase of a run with its subtree from those of its children.

    limit : of what may be used at its far end, where a heater stands there that must keep it.
    """
    ends = {end for one in below for end in one.limits if end < limit} | {limit}
    sums = [(end, sum(one.at(end) for one in below)) for end in ends]
    capped = [(end, cost) for end, cost in sums if cost < _NEVER]
    points = [
        (end - drop, cost + weight)
        for _gauge, weight, drop in options
        for end, cost in capped
        if end - drop >= 0.0
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
    return _Stairs(tuple(limits), tuple(costs))

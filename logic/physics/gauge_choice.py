"""The least copper with which every rule is kept, for all automatic runs at once. Exact, and proven so.

How. `gauge_bounds.py` gives an easier problem that every feasible choice solves too, and with it a bound from
below on the copper of any part of the tree. The search walks the tree outwards in depth, in each case of fuse
ratings: what it has spent and what the staircases still ask for bounds everything that it can reach, and what
can't beat the best is left out. On the way, the real network with all open runs at their thinnest says
whether the heaters that are wired already can still keep the limit, and the fuses their ratings. A full
choice is judged by the real network with its own currents and fuses. So what is found is the least; where the
walk is cut off (`MOST_STEPS`), the least floor still says how far from the least it can be at most.

The check on the way rests on this: where every return is the run's own, resistance taken off somewhere else
can't give a heater more volts. With lent returns and chassis paths it rests on less: no current falls below
what its heaters draw within their limits, so no drop below that share of what it is now
(`_Search.drop_left`).

Ties within 1e-9 kg go to the thicker gauge in the run that comes first.
"""

from collections.abc import Sequence

import msgspec

from logic.data.wiring_constants import CONTINUOUS_LOAD, GAUGES
from logic.physics.conductors import resistance_per_metre
from logic.physics.gauge_bounds import NEVER, EasierCase, cases
from logic.physics.gauge_currents import widest
from logic.physics.gauge_rules import (
    Fault,
    allowed,
    asked,
    faults,
    keeps_drop,
    wire_weights,
    with_free_runs,
)
from logic.physics.gauge_start import feasible_start
from logic.physics.harness import Harness, copper, stand
from logic.physics.network import CHASSIS, OWN, SUPPLY, solve, ways
from logic.physics.protection import AUTO

TIE = 1e-9
"""Copper that counts as equal. [kg] The format's convention."""

MOST_STEPS = 60_000
"""Steps of the search, one with a network solved counting as `SOLVED` of them, after which it ends with a
bound.
"""

SOLVED = 6
_NOISE = 1e-12  # kg: what rounding may do to a sum of copper


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
    if None not in harness.gauges:
        given = tuple(gauge for gauge in harness.gauges if gauge is not None)
        weight = copper(harness, given)
        return Choice(given, weight, weight, True)
    search = _Search(harness)
    search.find_least()
    if search.best is None:
        thickest = [gauge or GAUGES[-1] for gauge in harness.gauges]
        why = tuple(faults(harness, stand(harness, thickest)))
        return Choice(None, None, None, not search.cut_off, why, search.steps)
    least = search.copper if not search.cut_off else min(search.copper, search.floor)
    search.settle_ties()
    chosen = with_free_runs(harness, search.best)
    weight = copper(harness, chosen)
    return Choice(chosen, weight, min(least, weight), least >= weight - TIE, (), search.steps)


class _Search:
    def __init__(self, harness: Harness) -> None:
        self.harness = harness
        self.rules = asked(harness)
        self.way = ways(harness.tree)
        parents = harness.tree.parents
        # the profile's order, where no run comes before the one that it comes from; otherwise outwards
        in_order = all(parent < run for run, parent in enumerate(parents))
        self.order = tuple(range(len(parents))) if in_order else self.way.order
        self.children: list[list[int]] = [[] for _ in parents]
        for run, parent in enumerate(parents):
            if parent != SUPPLY:
                self.children[parent].append(run)
        self.plain = all(back == OWN for back in harness.tree.backs)
        self.place = {run: depth for depth, run in enumerate(self.order)}
        self.wired = self._wired_at()
        self.ohms = [
            {
                gauge: resistance_per_metre(gauge, harness.table, harness.temperature) * length
                for gauge in GAUGES
            }
            for length in harness.lengths
        ]
        self.best: tuple[int, ...] | None = None
        self.copper = NEVER
        self.limit = NEVER  # of the second walk
        self.floor = NEVER
        self.steps = 0
        self.cut_off = False
        self.cases: list[EasierCase] = []

    def _wired_at(self) -> list[tuple[int, ...]]:
        """Of each depth: the judged heaters whose whole way out and back is chosen from there on."""
        at: list[list[int]] = [[] for _ in self.order]
        for load in self.rules.loads:
            runs = wire_weights(self.harness, self.harness.tree.loads[load])
            at[max(self.place[run] for run in runs)].append(load)
        return [tuple(loads) for loads in at]

    # --- the two walks ---

    def find_least(self) -> None:
        if any(not self._reachable(load) for load in self.rules.loads):
            return
        self.cases = sorted(cases(self.harness), key=lambda case: case.floor)
        self.floor = min((case.floor for case in self.cases), default=NEVER)
        for case in self.cases[:2]:
            self._take(feasible_start(self.harness, [options[0].gauge for options in case.options]))
        for case in self.cases:
            _Walk(self, case, first=False).go()

    def settle_ties(self) -> None:
        """The thickest in the first run, then in the next, of all choices within `TIE` of the least."""
        if self.cut_off or self.best is None:
            return
        self.limit = self.copper + TIE
        found = [one for case in self.cases if (one := _Walk(self, case, first=True).go()) is not None]
        if found and not self.cut_off:
            self.best = min(found, key=self._by_thickness)
        self.cut_off = False  # the least copper is proven, whatever became of the tie

    def _take(self, gauges: tuple[int, ...] | None) -> None:
        if gauges is not None and (weight := copper(self.harness, gauges)) < self.copper - _NOISE:
            self.best, self.copper = gauges, weight

    def _by_thickness(self, gauges: tuple[int, ...]) -> list[int]:
        """Gauges of the runs that have a length, in the profile's order: a lower number is a thicker wire."""
        return [gauge for gauge, length in zip(gauges, self.harness.lengths, strict=True) if length > 0]

    def _reachable(self, load: int) -> bool:
        """Whether a heater could keep the limit with its own way at its thickest and all else at its
        thinnest.
        """
        own = wire_weights(self.harness, self.harness.tree.loads[load])
        gauges = [
            gauge or (GAUGES[-1] if run in own else GAUGES[0])
            for run, gauge in enumerate(self.harness.gauges)
        ]
        shares = self.shares(gauges)
        return keeps_drop(
            1 - (1 - shares[load]) * self.drop_left(shares, widest(self.harness).shares),
            self.harness.drop_limit,
        )

    def drop_left(self, shares: Sequence[float], least: Sequence[float]) -> float:
        """The share of a drop over wires that stay as they are that no other choice elsewhere can take away.

        shares : the heaters' shares of the supply's volts now; least : those in any feasible choice.
        """
        if self.plain:
            return 1.0
        return min(1.0, *(low / share for low, share in zip(least, shares, strict=True)))

    def shares(self, gauges: Sequence[int]) -> tuple[float, ...]:
        """Each heater's share of the supply's volts."""
        tree = self.harness.tree
        positives = [ohms[gauge] for ohms, gauge in zip(self.ohms, gauges, strict=True)]
        returns = [
            chassis if back == CHASSIS else positive
            for positive, back, chassis in zip(positives, tree.backs, self.harness.chassis, strict=True)
        ]
        return solve(tree, positives, returns=returns, loads=self.harness.heaters).load_volts


class _Walk:
    """One walk over one case, depth first. first: for the first feasible choice within the limit, thickest
    first.
    """

    def __init__(self, search: _Search, case: EasierCase, *, first: bool) -> None:
        self.search, self.case, self.first = search, case, first
        self.harness = search.harness
        self.chosen = [options[0].gauge for options in case.options]  # open runs at their thinnest
        self.used = [0.0] * len(self.chosen)  # along the way before each run, of the easier problem
        self.counted = [
            stairs.at(0.0) for stairs in case.stairs
        ]  # what the bound holds for each open subtree
        self.found: tuple[int, ...] | None = None
        self.fuses = self._fuses_to_watch()

    def _fuses_to_watch(self) -> list[tuple[float, tuple[int, ...]]]:
        """(most current per volt, heaters behind) of each automatic fuse that must keep its case's rating."""
        fuses = self.case.fuses or ()
        out = self.search.way.out
        return [
            (
                fuse / (CONTINUOUS_LOAD * self.harness.charging),
                tuple(load for load, at in enumerate(self.harness.tree.loads) if run in out[at]),
            )
            for run, fuse in enumerate(fuses)
            if fuse is not None and self.harness.fuses[run] == AUTO
        ]

    def go(self) -> tuple[int, ...] | None:
        self._visit(0, self.case.floor, frozenset())
        return self.found

    def _visit(self, depth: int, bound: float, wired: frozenset[int]) -> bool:
        """Whether the walk is over."""
        search, order = self.search, self.search.order
        if depth == len(order):
            return self._judge()
        run = order[depth]
        here = bound - self.counted[run]
        children = search.children[run]
        extra = self._extra(run, depth)
        stairs = self.case.stairs
        steps = []
        for option in self.case.options[run]:
            after = self.used[run] + option.drop
            if after + extra > self.case.limits[run]:
                continue
            total = here + option.copper
            for child in children:
                total += stairs[child].at(after + extra)
            if total < NEVER:
                steps.append((total, option.gauge, after))
        steps.sort(key=(lambda step: step[1]) if self.first else (lambda step: step[0]))
        thinnest = self.chosen[run]
        now = search.wired[depth]
        joined = wired.union(now) if now else wired
        for total, gauge, after in steps:
            if total > search.limit if self.first else total >= search.copper - _NOISE:
                continue
            self.chosen[run] = gauge
            search.steps += SOLVED if now else 1
            if search.steps > MOST_STEPS:
                search.cut_off = True
                return True
            if now and not self._possible(joined):
                continue
            for child in children:
                self.used[child] = after
                self.counted[child] = stairs[child].at(after + extra)
            if self._visit(depth + 1, total, joined):
                return True
        self.chosen[run] = thinnest
        return False

    def _extra(self, run: int, depth: int) -> float:
        """What runs chosen already add to every way through a run, besides the way before it."""
        return sum(
            drop
            for each, drops in self.case.extras[run]
            if self.search.place[each] < depth
            for gauge, drop in drops
            if gauge == self.chosen[each]
        )

    def _possible(self, wired: frozenset[int]) -> bool:
        """Whether heaters wired so far can keep the limit, and fuses their ratings, whatever follows."""
        shares = self.search.shares(self.chosen)
        limit = self.harness.drop_limit
        least = self.case.shares
        left = self.search.drop_left(shares, least)
        if not all(keeps_drop(1 - (1 - shares[load]) * left, limit) for load in wired):
            return False
        if not self.fuses:
            return True
        # a wired heater's drop grows at most as the currents of the others can: up to those at the supply's
        # volts
        growth = 1 / min(shares)
        for most, behind in self.fuses:
            amps = 0.0
            for load in behind:
                share = max(least[load], 1 - (1 - shares[load]) * growth) if load in wired else least[load]
                amps += share / self.harness.heaters[load]
            if amps * (1 - 1e-9) > most:
                return False
        return True

    def _judge(self) -> bool:
        self.search.steps += SOLVED
        gauges = tuple(self.chosen)
        if not allowed(self.harness, gauges):
            return False
        if self.first:
            self.found = gauges
            return True
        self.search._take(gauges)
        return False

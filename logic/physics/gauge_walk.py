"""One walk over one case of the choice of gauges, depth first, and what it stands on.

What the walk may leave out, and why, is said in `gauge_choice.py`.
"""

from collections.abc import Mapping, Sequence

from logic.data.wiring_constants import CONTINUOUS_LOAD, GAUGES
from logic.physics.conductors import resistance_per_metre
from logic.physics.gauge_bounds import NEVER, EasierCase
from logic.physics.gauge_rules import allowed, asked, keeps_drop, wire_weights
from logic.physics.harness import Harness, copper
from logic.physics.network import CHASSIS, OWN, SUPPLY, solve, ways
from logic.physics.network_parts import Part, parts_of
from logic.physics.protection import AUTO

MOST_STEPS = 60_000
"""Steps of the search, one with a network solved counting as `SOLVED` of them, after which it ends with a
bound.
"""

SOLVED = 6
AS_MANY_RUNS = 40
"""Beyond so many runs a solved network counts as more steps, by the square of their number: the answer may not
take longer for being larger.
"""

MOST_KNOWN = 2000
"""Choices of gauges of one part of the network whose shares are kept in mind."""

NOISE = 1e-12
"""What rounding may do to a sum of copper. [kg]"""


class Ground:
    """What every walk over a harness stands on."""

    def __init__(self, harness: Harness) -> None:
        self.harness = harness
        self.rules = asked(harness)
        self.way = ways(harness.tree)
        parents = harness.tree.parents
        # the profile's order, where no run comes before the one that it comes from; otherwise outwards
        self.in_order = all(parent < run for run, parent in enumerate(parents))
        self.order = tuple(range(len(parents))) if self.in_order else self.way.order
        self.children: list[list[int]] = [[] for _ in parents]
        for run, parent in enumerate(parents):
            if parent != SUPPLY:
                self.children[parent].append(run)
        self.plain = all(back == OWN for back in harness.tree.backs)
        self.place = {run: depth for depth, run in enumerate(self.order)}
        self.solved = round(SOLVED * max(1.0, (len(parents) / AS_MANY_RUNS) ** 2))
        self.wired = self._wired_at()
        self.ohms = [
            {
                gauge: resistance_per_metre(gauge, harness.table, harness.temperature) * length
                for gauge in GAUGES
            }
            for length in harness.lengths
        ]
        self._parts = parts_of(harness.tree)
        self._part = {run: number for number, part in enumerate(self._parts) for run in part.runs}
        self._known: list[dict[tuple[int, ...], tuple[float, ...]]] = [{} for _ in self._parts]
        self._gauges: list[int] = [0] * len(parents)  # with which `_shares` were worked out
        self._shares = [0.0] * len(harness.heaters)

    def _wired_at(self) -> list[tuple[int, ...]]:
        """Of each depth: the judged heaters whose whole way out and back is chosen from there on."""
        at: list[list[int]] = [[] for _ in self.order]
        for load in self.rules.loads:
            runs = wire_weights(self.harness, self.harness.tree.loads[load])
            at[max(self.place[run] for run in runs)].append(load)
        return [tuple(loads) for loads in at]

    def drop_left(self, shares: Sequence[float], least: Sequence[float]) -> float:
        """The share of a drop over wires that stay as they are that no other choice elsewhere can take away.

        shares : the heaters' shares of the supply's volts now; least : those in any feasible choice.
        """
        if self.plain:
            return 1.0
        return min(1.0, *(low / share for low, share in zip(least, shares, strict=True)))

    def shares(self, gauges: Sequence[int]) -> tuple[float, ...]:
        """Each heater's share of the supply's volts. What has changed since the last time is solved anew."""
        changed = {
            self._part[run]
            for run, (gauge, before) in enumerate(zip(gauges, self._gauges, strict=True))
            if gauge != before
        }
        self._gauges = list(gauges)
        for number in changed:
            part, known = self._parts[number], self._known[number]
            its_own = tuple([gauges[run] for run in part.runs])
            found = known.get(its_own)
            if found is None:
                if len(known) >= MOST_KNOWN:
                    known.clear()
                found = known[its_own] = self._solved(part, its_own)
            for load, share in zip(part.loads, found, strict=True):
                self._shares[load] = share
        return tuple(self._shares)

    def _solved(self, part: Part, gauges: tuple[int, ...]) -> tuple[float, ...]:
        """The shares of a part's heaters with these gauges of its runs."""
        chassis = self.harness.chassis
        positives = [self.ohms[run][gauge] for run, gauge in zip(part.runs, gauges, strict=True)]
        returns = [
            chassis[run] if back == CHASSIS else positive
            for run, positive, back in zip(part.runs, positives, part.tree.backs, strict=True)
        ]
        heaters = [self.harness.heaters[load] for load in part.loads]
        return solve(part.tree, positives, returns=returns, loads=heaters).load_volts


class Progress:
    """The best choice so far, and how much of the search is spent."""

    def __init__(self) -> None:
        self.best: tuple[int, ...] | None = None
        self.copper = NEVER
        self.limit = NEVER  # of copper, in the second walk
        self.steps = 0
        self.cut_off = False

    def take(self, gauges: tuple[int, ...], weight: float) -> None:
        if weight < self.copper - NOISE:
            self.best, self.copper = gauges, weight


class Walk:
    """One walk over one case, depth first. first: for the first feasible choice within the limit, thickest
    first.
    """

    def __init__(
        self,
        ground: Ground,
        progress: Progress,
        case: EasierCase,
        *,
        first: bool,
        held: Mapping[int, int] | None = None,
    ) -> None:
        self.ground, self.progress = ground, progress
        self.case, self.first, self.held = case, first, held or {}
        self.harness = ground.harness
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
        out = self.ground.way.out
        return [
            (
                fuse / (CONTINUOUS_LOAD * self.harness.charging),
                tuple(load for load, at in enumerate(self.harness.tree.loads) if run in out[at]),
            )
            for run, fuse in enumerate(fuses)
            if fuse is not None and self.harness.fuses[run] == AUTO
        ]

    def go(self) -> tuple[int, ...] | None:
        if self.ground.plain and not self._ratings_possible():
            return None
        self._visit(0, self.case.floor, frozenset())
        return self.found

    def _ratings_possible(self) -> bool:
        """Whether each watched fuse can stay at its rating: its heaters' ways at their thinnest, others
        thickest.

        Where every return is the run's own no choice of the case has less current there.
        """
        wires = self.harness.tree.loads
        for most, behind in self.fuses:
            way = {run for load in behind for run in self.ground.way.out[wires[load]]}
            gauges = [
                options[0].gauge if run in way else options[-1].gauge
                for run, options in enumerate(self.case.options)
            ]
            shares = self.ground.shares(gauges)
            if sum(shares[load] / self.harness.heaters[load] for load in behind) * (1 - 1e-9) > most:
                return False
        return True

    def _visit(self, depth: int, bound: float, wired: frozenset[int]) -> bool:
        """Whether the walk is over."""
        ground, progress, order = self.ground, self.progress, self.ground.order
        if depth == len(order):
            return self._judge()
        run = order[depth]
        here = bound - self.counted[run]
        children = ground.children[run]
        extra = self._extra(run, depth)
        stairs = self.case.stairs
        steps = []
        for option in self.case.options[run]:
            after = self.used[run] + option.drop
            if after + extra > self.case.limits[run] or self.held.get(run, option.gauge) != option.gauge:
                continue
            total = here + option.copper
            for child in children:
                total += stairs[child].at(after + extra)
            if total < NEVER:
                steps.append((total, option.gauge, after))
        steps.sort(key=(lambda step: step[1]) if self.first else (lambda step: step[0]))
        thinnest = self.chosen[run]
        now = ground.wired[depth]
        joined = wired.union(now) if now else wired
        for total, gauge, after in steps:
            if total > progress.limit if self.first else total >= progress.copper - NOISE:
                continue
            self.chosen[run] = gauge
            progress.steps += ground.solved if now else 1
            if progress.steps > MOST_STEPS:
                progress.cut_off = True
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
            if self.ground.place[each] < depth
            for gauge, drop in drops
            if gauge == self.chosen[each]
        )

    def _possible(self, wired: frozenset[int]) -> bool:
        """Whether heaters wired so far can keep the limit, and fuses their ratings, whatever follows."""
        shares = self.ground.shares(self.chosen)
        limit = self.harness.drop_limit
        least = self.case.shares
        left = self.ground.drop_left(shares, least)
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
        self.progress.steps += self.ground.solved
        gauges = tuple(self.chosen)
        if not allowed(self.harness, gauges):
            return False
        if self.first:
            self.found = gauges
            return True
        self.progress.take(gauges, copper(self.harness, gauges))
        return False

"""The least copper with which every rule is kept, for all automatic runs at once. Exact, and proven so.

How. `gauge_bounds.py` gives an easier problem that every feasible choice solves too, and with it a bound from
below on the copper of any part of the tree. The search walks the tree outwards in depth, in each case of fuse
ratings: what it has spent and what the staircases still ask for bounds everything that it can reach, and what
can't beat the best is left out. On the way, the real network with all open runs at their thinnest says
whether the heaters that are wired already can still keep the limit, and the fuses their ratings. A full
choice is judged by the real network with its own currents and fuses. So what is found is the least; where the
walk is cut off (`gauge_walk.MOST_STEPS`), the least floor still says how far from the least it can be at
most.

The check on the way rests on this: where every return is the run's own, resistance taken off somewhere else
can't give a heater more volts. With lent returns and chassis paths it rests on less: no current falls below
what its heaters draw within their limits, so no drop below that share of what it is now
(`Ground.drop_left`).

Ties within 1e-9 kg go to the thicker gauge in the run that comes first.
"""

from collections.abc import Sequence

import msgspec

from logic.data.wiring_constants import GAUGES
from logic.physics.gauge_bounds import NEVER, EasierCase, cases
from logic.physics.gauge_currents import widest
from logic.physics.gauge_rules import Fault, faults, keeps_drop, wire_weights, with_free_runs
from logic.physics.gauge_start import feasible_start
from logic.physics.gauge_walk import Ground, Progress, Walk
from logic.physics.harness import Harness, copper, stand

TIE = 1e-9
"""Copper that counts as equal. [kg] The format's convention."""


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
    if search.progress.best is None:
        thickest = [gauge or GAUGES[-1] for gauge in harness.gauges]
        why = tuple(faults(harness, stand(harness, thickest)))
        return Choice(None, None, None, not search.progress.cut_off, why, search.progress.steps)
    progress = search.progress
    least = progress.copper if not progress.cut_off else min(progress.copper, search.floor)
    search.settle_ties()
    chosen = with_free_runs(harness, search.progress.best)
    weight = copper(harness, chosen)
    return Choice(chosen, weight, min(least, weight), least >= weight - TIE, (), progress.steps)


class _Search:
    def __init__(self, harness: Harness) -> None:
        self.harness = harness
        self.ground = Ground(harness)
        self.progress = Progress()
        self.floor = NEVER
        self.cases: list[EasierCase] = []

    def find_least(self) -> None:
        least = widest(self.harness).shares
        if any(not self._reachable(load, least) for load in self.ground.rules.loads):
            return
        thinnest = [gauge or GAUGES[0] for gauge in self.harness.gauges]
        start = feasible_start(self.harness, thinnest)
        if start is not None:
            self.progress.take(start, copper(self.harness, start))
        self.cases = sorted(cases(self.harness, self.progress.copper), key=lambda case: case.floor)
        self.floor = min((case.floor for case in self.cases), default=NEVER)
        for case in self.cases:
            Walk(self.ground, self.progress, case, first=False).go()

    def settle_ties(self) -> None:
        """The thickest in the first run, then in the next, of all choices within `TIE` of the least."""
        if self.progress.cut_off or self.progress.best is None:
            return
        self.progress.limit = self.progress.copper + TIE
        if self.ground.in_order:
            self._settle({})
        else:  # the walk's order isn't the profile's: run by run, the thickest with which there is a choice
            held: dict[int, int] = {}
            for run, length in enumerate(self.harness.lengths):
                if self.harness.gauges[run] is None and length > 0:
                    for gauge in reversed(GAUGES):
                        if gauge == self.progress.best[run] or self._settle({**held, run: gauge}):
                            held[run] = gauge
                            break
        self.progress.cut_off = False  # the least copper is proven, whatever became of the tie

    def _settle(self, held: dict[int, int]) -> bool:
        """Whether any choice is within the limit with these gauges held; the thickest is then the best."""
        found = [
            one
            for case in self.cases
            if (one := Walk(self.ground, self.progress, case, first=True, held=held).go()) is not None
        ]
        if not found or self.progress.cut_off:
            return False
        self.progress.best = min(found, key=self._by_thickness)
        return True

    def _by_thickness(self, gauges: tuple[int, ...]) -> list[int]:
        """Gauges of the runs that have a length, in the profile's order: a lower number is a thicker wire."""
        return [gauge for gauge, length in zip(gauges, self.harness.lengths, strict=True) if length > 0]

    def _reachable(self, load: int, least: Sequence[float]) -> bool:
        """Whether a heater could keep the limit with its own way at its thickest and all else at its
        thinnest.

        least : the least share of the supply's volts that each heater has in any feasible choice.
        """
        own = wire_weights(self.harness, self.harness.tree.loads[load])
        gauges = [
            gauge or (GAUGES[-1] if run in own else GAUGES[0])
            for run, gauge in enumerate(self.harness.gauges)
        ]
        shares = self.ground.shares(gauges)
        return keeps_drop(
            1 - (1 - shares[load]) * self.ground.drop_left(shares, least),
            self.harness.drop_limit,
        )

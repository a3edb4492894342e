"""The rig's network as it lies on the bench for tests: by index, with the gauges in use and the fuses."""

from functools import lru_cache

import msgspec

from logic.assessment.circuit_case import wired
from logic.data.profile import Profile
from logic.physics.network import Solution, Tree, solve, ways
from logic.physics.network_parts import part_with


class Bench(msgspec.Struct, frozen=True, cache_hash=True):
    """The rig's network by index, and what of it stands where."""

    tree: Tree
    runs: tuple[str, ...]
    loads: tuple[str, ...]  # heaters
    positives: tuple[float, ...]  # Ω
    returns: tuple[float, ...]  # Ω
    ohms: tuple[float, ...]  # of the heaters, rated
    fuses: tuple[float | None, ...]  # A, at each run's head
    fused: tuple[bool, ...]  # by the profile, whether or not a rating was found
    switched: tuple[bool, ...]
    gauges: tuple[int, ...]

    def behind(self, run: int) -> frozenset[int]:
        """The loads behind a run."""
        way = ways(self.tree)
        return frozenset(load for load, at in enumerate(self.tree.loads) if run in way.out[at])

    def circuit_of(self, load: int) -> int | None:
        """The nearest fused run before a load."""
        out = ways(self.tree).out[self.tree.loads[load]]
        return next((run for run in reversed(out) if self.fused[run]), None)


def bench_of(profile: Profile) -> Bench:
    """The network under test, with the gauges in use."""
    whole = wired(profile)
    return Bench(
        tree=whole.harness.tree,
        runs=tuple(run.id for run in profile.runs),
        loads=tuple(heater for run in profile.runs for heater in run.feeds),
        positives=whole.standing.positives,
        returns=whole.standing.returns,
        ohms=whole.harness.heaters,
        fuses=whole.standing.fuses,
        fused=tuple(run.fuse != "none" for run in profile.runs),
        switched=tuple(run.switch is not None for run in profile.runs),
        gauges=whole.standing.gauges,
    )


@lru_cache(maxsize=128)
def alone(bench: Bench, run: int) -> Solution:
    """A circuit alone energised, later fuses in: volts and amperes for each volt of the supply.

    Only the part of the network that it belongs to is solved: in the others nothing flows.
    """
    tree, only = bench.tree, bench.behind(run)
    part = part_with(tree, run)
    solution = solve(
        part.tree,
        [bench.positives[each] for each in part.runs],
        returns=[bench.returns[each] for each in part.runs],
        loads=[bench.ohms[load] for load in part.loads],
        only=frozenset(at for at, load in enumerate(part.loads) if load in only),
    )
    runs, loads = range(len(tree.parents)), range(len(tree.loads))
    return Solution(
        load_volts=_spread(part.loads, solution.load_volts, loads, elsewhere=1.0),
        load_amps=_spread(part.loads, solution.load_amps, loads, elsewhere=0.0),
        run_amps=_spread(part.runs, solution.run_amps, runs, elsewhere=0.0),
        return_amps=_spread(part.runs, solution.return_amps, runs, elsewhere=0.0),
        positives=_spread(part.runs, solution.positives, runs, elsewhere=1.0),
        negatives=_spread(part.runs, solution.negatives, runs, elsewhere=0.0),
    )


def _spread(
    places: tuple[int, ...], values: tuple[float, ...], all_places: range, *, elsewhere: float
) -> tuple[float, ...]:
    """A part's values at their places in the whole."""
    known = dict(zip(places, values, strict=True))
    return tuple(known.get(place, elsewhere) for place in all_places)

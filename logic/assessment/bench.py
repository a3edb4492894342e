"""The rig's network as it lies on the bench for tests: by index, with the gauges in use and the fuses."""

from functools import lru_cache

import msgspec

from logic.assessment.circuit_case import wired
from logic.data.profile import Profile
from logic.physics.network import Solution, Tree, solve, ways


class Bench(msgspec.Struct, frozen=True):
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
    """A circuit alone energised, later fuses in: volts and amperes for each volt of the supply."""
    return solve(bench.tree, bench.positives, returns=bench.returns, loads=bench.ohms, only=bench.behind(run))

"""Which runs' lengths a result of the circuits hangs on, and how: slots and slopes for its uncertainty."""

from collections.abc import Callable, Iterable
from functools import lru_cache

from logic.assessment.case import Case
from logic.assessment.circuit_case import Wired, beside, wired
from logic.assessment.circuit_inputs import inputs_of
from logic.physics.network import Tree, ways


def connected(case: Case, run: str) -> tuple[str, ...]:
    """The runs whose lengths can move what flows in a run: a shared positive or return joins them to it."""
    whole = wired(case.profile)
    groups = _groups(whole.harness.tree)
    at = groups[whole.harness.names.index(run)]
    return tuple(name for name, group in zip(whole.harness.names, groups, strict=True) if group == at)


@lru_cache(maxsize=16)
def _groups(tree: Tree) -> tuple[int, ...]:
    """Of each run, a number that it shares with all runs joined to it."""
    group = list(range(len(tree.parents)))

    def root(member: int) -> int:
        while group[member] != member:
            member = group[member]
        return member

    for member, (parent, back) in enumerate(zip(tree.parents, tree.backs, strict=True)):
        for other in (parent, back):
            if other >= 0:
                group[root(member)] = root(other)
    return tuple(root(member) for member in range(len(group)))


def on_the_way(case: Case, run: str) -> tuple[str, ...]:
    """The runs out to a run's far end and back, in the profile's order."""
    whole = wired(case.profile)
    way, names = ways(whole.harness.tree), whole.harness.names
    at = names.index(run)
    return tuple(name for each, name in enumerate(names) if each in way.out[at] or each in way.back[at])


def wiring_key(case: Case) -> tuple[object, ...]:
    """All that the figures of the wiring hang on: what it is made of, and how well its lengths are known."""
    profile = case.profile
    us = tuple(case.u(f"run.{run.id}.length") for run in profile.runs)
    return (inputs_of(profile), profile.runs, profile.heaters, profile.parts, us)


def length_slots(runs: Iterable[str]) -> tuple[str, ...]:
    return tuple(f"run.{run}.length" for run in runs)


def slopes(
    case: Case, runs: Iterable[str], result: Callable[[Wired], float | None]
) -> tuple[tuple[str, float], ...]:
    """(slot, d result / d length) of every run whose length has been read, gauges held."""
    found = []
    for run in runs:
        slot = f"run.{run}.length"
        if case.u(slot) is None:
            continue
        less, more, step = beside(case.profile, run)
        low, high = result(less), result(more)
        if low is not None and high is not None:
            found.append((slot, (high - low) / step))
    return tuple(found)

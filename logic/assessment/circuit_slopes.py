"""Which runs' lengths a result of the circuits hangs on, and how: slots and slopes for its uncertainty."""

from collections.abc import Callable, Iterable

from logic.assessment.case import Case
from logic.assessment.circuit_beside import Beside, joined_to
from logic.assessment.circuit_case import besides, wired
from logic.assessment.circuit_inputs import inputs_of
from logic.physics.network import ways


def connected(case: Case, run: str) -> tuple[str, ...]:
    """The runs whose lengths can move what flows in a run: a shared positive or return joins them to it."""
    harness = wired(case.profile).harness
    return tuple(harness.names[each] for each in joined_to(harness.tree, harness.names.index(run)))


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
    return (inputs_of(profile), profile.runs, profile.heaters, profile.parts, us, case.without_u)


def length_slots(runs: Iterable[str]) -> tuple[str, ...]:
    return tuple(f"run.{run}.length" for run in runs)


def slopes(
    case: Case, runs: Iterable[str], result: Callable[[Beside], float | None]
) -> tuple[tuple[str, float], ...]:
    """(slot, d result / d length) of every run whose length has been read, gauges held."""
    read = [run for run in runs if case.u(f"run.{run}.length") is not None]
    found = []
    for run, (less, more, step) in zip(read, besides(case.profile, read), strict=True):
        low, high = result(less), result(more)
        if low is not None and high is not None:
            found.append((f"run.{run}.length", (high - low) / step))
    return tuple(found)

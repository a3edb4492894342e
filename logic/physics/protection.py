"""Fuses and what they must protect: ratings, sections, and the sum that comes back through a lent return."""

from collections.abc import Sequence
from functools import lru_cache

import msgspec

from logic.data.wiring_constants import (
    BOATS_AMPACITY,
    BUNDLE_FACTORS,
    CONTINUOUS_LOAD,
    FUSE_RATINGS,
    SWITCH_LOAD,
)
from logic.physics.network import OWN, SUPPLY, Tree, ways

AUTO, NONE = "auto", "none"
ROUNDING = 1e-9  # relative; what arithmetic may add to a current without moving a rating


def standard_fuse(current: float) -> float | None:
    """The smallest standard rating that is at least 1.25 × a continuous current. [A]

    None: none is large enough (over 100 A). Sources `nec-2023-427.4`, `iso-8820-3`.
    """
    least = CONTINUOUS_LOAD * current * (1 - ROUNDING)
    return next((rating for rating in FUSE_RATINGS if rating >= least), None)


def fuse_of(asked: float | str, current: float) -> float | None:
    """A run's fuse as the profile asks for it: "auto", "none" or a rating. [A] None: there is none."""
    if asked == AUTO:
        return standard_fuse(current)
    return None if asked == NONE else float(asked)


def least_switch(current: float) -> float:
    """The d.c. rating that a switch wants for the current that it breaks. [A] `practice-switch-125`"""
    return SWITCH_LOAD * current


def bundle_limit(gauge: int, conductors: int) -> float:
    """What 33 CFR 183.425 Table 5 leaves a conductor, 60 °C column, among so many in a bundle. [A]

    The factor binds from 50 V up; at 12 V it is cautious practice. Sources `33-cfr-183.425`,
    `33-cfr-183.435`.
    """
    factor = next(share for least, share in reversed(BUNDLE_FACTORS) if conductors >= least)
    return BOATS_AMPACITY[gauge] * factor


class Protection(msgspec.Struct, frozen=True):
    """What follows from a tree and from which of its runs have a fuse at their head."""

    nearest: tuple[int | None, ...]  # of each run: the run with the nearest fuse at or before it
    returning: tuple[tuple[int, ...], ...]  # of each run: whose far end comes back through its return
    summed: tuple[tuple[int, ...], ...]  # of each run: fuses to be summed for its return, none behind another
    lent: tuple[
        bool, ...
    ]  # own returns that a run borrows, or through which one comes back that isn't behind them
    exposed: tuple[int, ...]  # runs that start an unfused part: the first without a fuse before it


@lru_cache(maxsize=256)
def protection(tree: Tree, fused: tuple[bool, ...]) -> Protection:
    """Sections, and who comes back where. `fused` : whether each run has a fuse at its head."""
    way = ways(tree)
    count = len(tree.parents)
    nearest: list[int | None] = [None] * count
    for run in way.order:
        parent = tree.parents[run]
        nearest[run] = run if fused[run] else None if parent == SUPPLY else nearest[parent]
    returning: list[list[int]] = [[] for _ in range(count)]
    for run in range(count):
        for each in way.back[run]:
            returning[each].append(run)
    summed = []
    for run in range(count):
        fuses = {fuse for each in returning[run] if (fuse := nearest[each]) is not None}
        summed.append(tuple(sorted(fuse for fuse in fuses if not fuses & (set(way.out[fuse]) - {fuse}))))
    return Protection(
        nearest=tuple(nearest),
        returning=tuple(tuple(runs) for runs in returning),
        summed=tuple(summed),
        lent=tuple(
            tree.backs[run] == OWN
            and any(run not in way.out[each] or tree.backs[each] == run for each in returning[run])
            for run in range(count)
        ),
        exposed=tuple(run for run in range(count) if tree.parents[run] == SUPPLY and not fused[run]),
    )


def wire_loads(
    tree: Tree,
    fuses: Sequence[float | None],
    *,
    run_amps: Sequence[float],
    return_amps: Sequence[float],
) -> list[float]:
    """The ampacity that each run's wires must have. [A]

    The rating of the nearest fuse at or before it; with none, 1.25 × its current (its return's too, where
    that is a wire of its own); and where its own return is lent, the sum of the fuses that come back through
    it.
    """
    facts = protection(tree, tuple(fuse is not None for fuse in fuses))
    loads = []
    for run, nearest in enumerate(facts.nearest):
        if nearest is not None:
            least = fuses[nearest] or 0.0
        else:
            amps = max(run_amps[run], return_amps[run]) if tree.backs[run] == OWN else run_amps[run]
            least = CONTINUOUS_LOAD * amps * (1 - ROUNDING)
        if facts.lent[run]:
            least = max(least, summed_fuses(facts, run, fuses))
        loads.append(least)
    return loads


def summed_fuses(facts: Protection, run: int, fuses: Sequence[float | None]) -> float:
    """Sum of the distinct nearest fuses whose circuits come back through a run's return. [A]"""
    return sum(fuses[fuse] or 0.0 for fuse in facts.summed[run])

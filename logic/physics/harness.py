"""A harness: the tree of runs with lengths, fuses and heaters, and how it stands with given gauges.

The same for a gauge that is given and for one that is tried: network, fuses, what each wire must carry,
copper.
"""

from collections.abc import Sequence

import msgspec

from logic.physics.conductors import copper_per_metre, resistance_per_metre
from logic.physics.network import CHASSIS, OWN, Solution, Tree, solve
from logic.physics.protection import fuse_of


class Harness(msgspec.Struct, frozen=True, cache_hash=True):
    """Everything of a rig's wiring that the network and the choice of gauges hang on. SI."""

    tree: Tree
    lengths: tuple[float, ...]  # one way
    gauges: tuple[int | None, ...]  # AWG number; None: to be chosen
    chassis: tuple[float, ...]  # Ω of each run's chassis path, where it has one
    fuses: tuple[float | str, ...]  # auto | none | a rating
    heaters: tuple[float, ...]  # Ω
    table: str
    temperature: float  # of the conductors, °C
    drop_limit: float
    charging: float  # V
    names: tuple[str, ...] = ()  # of the runs, for messages


class Stand(msgspec.Struct, frozen=True):
    """A harness with every gauge known. Volts and amperes of `solution` are per volt of the supply."""

    gauges: tuple[int, ...]
    positives: tuple[float, ...]  # Ω
    returns: tuple[float, ...]  # Ω of an own return or a chassis path; 0 for a borrower
    solution: Solution
    fuses: tuple[float | None, ...]  # A
    copper: float  # kg


def stand(harness: Harness, gauges: Sequence[int]) -> Stand:
    """The harness with these gauges: solved, fused by its currents at `charging`, weighed."""
    positives, returns = resistances(harness, gauges)
    solution = solve(harness.tree, positives, returns=returns, loads=harness.heaters)
    return Stand(
        gauges=tuple(gauges),
        positives=positives,
        returns=returns,
        solution=solution,
        fuses=fuses_of(harness, solution),
        copper=copper(harness, gauges),
    )


def fuses_of(harness: Harness, solution: Solution) -> tuple[float | None, ...]:
    """The fuse at each run's head, by the currents at `charging`. [A]"""
    return tuple(
        fuse_of(asked, harness.charging * amps)
        for asked, amps in zip(harness.fuses, solution.run_amps, strict=True)
    )


def resistances(harness: Harness, gauges: Sequence[int]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Of the positives, and of the returns (own or chassis; 0 for a borrower). [Ω]"""
    positives = tuple(
        resistance_per_metre(gauge, harness.table, harness.temperature) * length
        for gauge, length in zip(gauges, harness.lengths, strict=True)
    )
    returns = tuple(
        positive if back == OWN else chassis if back == CHASSIS else 0.0
        for positive, back, chassis in zip(positives, harness.tree.backs, harness.chassis, strict=True)
    )
    return positives, returns


def conductors_of(harness: Harness, run: int) -> int:
    """Wires in a run: its positive, and its own return."""
    return 2 if harness.tree.backs[run] == OWN else 1


def copper_of(harness: Harness, run: int, gauge: int) -> float:
    """Copper in a run's positive and own return over its route. [kg]"""
    return copper_per_metre(gauge, harness.table) * harness.lengths[run] * conductors_of(harness, run)


def copper(harness: Harness, gauges: Sequence[int]) -> float:
    """Copper in all runs. [kg]"""
    return sum(copper_of(harness, run, gauge) for run, gauge in enumerate(gauges))

"""What a choice of gauges must keep: fuses over every wire, lent returns, and each heater's drop.

Stated once, for the search, for its checks and for the words of the findings.
"""

from collections.abc import Sequence
from functools import lru_cache

import msgspec

from logic.data.wiring_constants import AMPACITY, GAUGES
from logic.physics.harness import Harness, Stand, fuses_of, resistances, stand
from logic.physics.network import CHASSIS, OWN, Solution, solve, ways
from logic.physics.protection import ROUNDING, wire_loads


class Asked(msgspec.Struct, frozen=True):
    """Which rules an automatic gauge can do anything about."""

    wires: tuple[int, ...]  # runs whose wires must be within what protects them
    loads: tuple[int, ...]  # heaters whose drop must be within the limit


class Fault(msgspec.Struct, frozen=True):
    """One rule that a choice breaks."""

    kind: str  # wire | drop
    index: int  # of the run; of the heater
    found: float  # the ampacity wanted [A]; the drop as a share
    most: float  # the wire's ampacity [A]; the limit as a share


@lru_cache(maxsize=64)
def asked(harness: Harness) -> Asked:
    """The rules that count in the choice: of every automatic run, and those of others that an automatic
    conductor with a length on their way out or back can change.

    A heater counts where there is one. A given gauge counts where there is one and its rule holds with every
    automatic run at its thinnest (the least current): otherwise no choice mends it. What doesn't count is
    left to its own finding.
    """
    way = ways(harness.tree)
    automatic = {
        run for run, gauge in enumerate(harness.gauges) if gauge is None and harness.lengths[run] > 0
    }
    moved = [
        not automatic.isdisjoint({*out, *(each for each in back if harness.tree.backs[each] == OWN)})
        for out, back in zip(way.out, way.back, strict=True)
    ]
    thin = stand(harness, [gauge or GAUGES[0] for gauge in harness.gauges])
    loads = loads_of(harness, thin)
    wires = tuple(
        run
        for run, gauge in enumerate(harness.gauges)
        if gauge is None or (moved[run] and loads[run] <= AMPACITY[gauge])
    )
    return Asked(wires=wires, loads=tuple(load for load, run in enumerate(harness.tree.loads) if moved[run]))


def loads_of(harness: Harness, standing: Stand) -> list[float]:
    """The ampacity that each run's wires must have as it stands. [A]"""
    return _loads(harness, standing.solution, standing.fuses)


def _loads(harness: Harness, solution: Solution, fuses: Sequence[float | None]) -> list[float]:
    charging = harness.charging
    return wire_loads(
        harness.tree,
        fuses,
        run_amps=[charging * amps for amps in solution.run_amps],
        return_amps=[charging * amps for amps in solution.return_amps],
    )


def keeps_drop(share: float, limit: float) -> bool:
    """Whether a heater with this share of the supply's volts is within the drop limit."""
    return 1.0 - share <= limit * (1 + ROUNDING)


def faults(harness: Harness, standing: Stand) -> list[Fault]:
    """Every rule of the choice that these gauges break. A run without length may have any gauge: it is judged
    by the thickest.
    """
    rules = asked(harness)
    loads = loads_of(harness, standing)
    broken = [
        Fault("wire", run, loads[run], most)
        for run in rules.wires
        if loads[run] > (most := _most(harness, run, standing.gauges))
    ]
    for load in rules.loads:
        share = standing.solution.load_volts[load]
        if not keeps_drop(share, harness.drop_limit):
            broken.append(Fault("drop", load, 1.0 - share, harness.drop_limit))
    return broken


def allowed(harness: Harness, gauges: Sequence[int]) -> bool:
    """Whether a choice keeps every rule, with its own currents and fuses."""
    rules = asked(harness)
    positives, returns = resistances(harness, gauges)
    solution = solve(harness.tree, positives, returns=returns, loads=harness.heaters)
    limit = harness.drop_limit
    if not all(keeps_drop(solution.load_volts[load], limit) for load in rules.loads):
        return False
    loads = _loads(harness, solution, fuses_of(harness, solution))
    return all(loads[run] <= _most(harness, run, gauges) for run in rules.wires)


def _most(harness: Harness, run: int, gauges: Sequence[int]) -> float:
    """What a run's wire may carry; a run without length will have whatever gauge it needs. [A]"""
    return AMPACITY[GAUGES[-1] if is_free(harness, run) else gauges[run]]


def with_free_runs(harness: Harness, gauges: Sequence[int]) -> tuple[int, ...]:
    """The choice, its automatic runs without length at the thinnest gauge that the rules allow."""
    loads = loads_of(harness, stand(harness, gauges))
    return tuple(
        thinnest(loads[run]) or GAUGES[-1] if is_free(harness, run) else gauge
        for run, gauge in enumerate(gauges)
    )


def thinnest(amps: float) -> int | None:
    """The thinnest gauge with at least this ampacity. [AWG] None: there is none."""
    return next((gauge for gauge in GAUGES if AMPACITY[gauge] >= amps), None)


def is_free(harness: Harness, run: int) -> bool:
    """Whether a run is automatic and without length: its gauge moves nothing."""
    return harness.gauges[run] is None and harness.lengths[run] == 0


def wire_weights(harness: Harness, load_run: int) -> dict[int, tuple[bool, bool]]:
    """(positive, own return) of each run that stands on the way of what hangs on a run's far end."""
    way, backs = ways(harness.tree), harness.tree.backs
    back = {run for run in way.back[load_run] if backs[run] == OWN}
    return {run: (run in way.out[load_run], run in back) for run in {*way.out[load_run], *back}}


def chassis_paths(harness: Harness, load_run: int) -> list[int]:
    """The runs whose chassis path carries what hangs on a run's far end back."""
    return [run for run in ways(harness.tree).back[load_run] if harness.tree.backs[run] == CHASSIS]

"""A first feasible choice of gauges, near the least: what the exact search has to beat.

Not exact and never reported by itself. From the thinnest that a case allows, the run that brings most for its
copper is made thicker until every rule is kept; then whatever can be thinner again is made thinner.
"""

from collections.abc import Sequence

from logic.data.wiring_constants import GAUGES
from logic.physics.conductors import resistance_per_metre
from logic.physics.gauge_rules import allowed, faults, is_free, wire_weights
from logic.physics.harness import Harness, Stand, copper, copper_of, stand

MOST_SWAPPED = 40
"""Automatic runs up to which pairs of runs are tried as well."""


def feasible_start(harness: Harness, gauges: Sequence[int]) -> tuple[int, ...] | None:
    """A choice that keeps every rule, from one that may not. None: this way none was found."""
    chosen = list(gauges)
    for _ in range(len(chosen) * len(GAUGES)):
        standing = stand(harness, chosen)
        broken = faults(harness, standing)
        if not broken:
            return tuple(_thinned(harness, chosen))
        wires = [fault.index for fault in broken if fault.kind == "wire"]
        worst = max(
            (fault for fault in broken if fault.kind == "drop"), key=lambda fault: fault.found, default=None
        )
        if wires:
            runs = [run for run in wires if _can_grow(harness, chosen, run)]
            if len(runs) < len(wires):
                return None
            for run in runs:
                chosen[run] = _thicker(chosen[run])
        elif worst is not None:
            best = _best_to_grow(harness, chosen, standing, worst.index)
            if best is None:
                return None
            chosen[best] = _thicker(chosen[best])
    return None


def _thicker(gauge: int) -> int:
    return GAUGES[GAUGES.index(gauge) + 1]


def _can_grow(harness: Harness, chosen: Sequence[int], run: int) -> bool:
    return harness.gauges[run] is None and chosen[run] != GAUGES[-1] and not is_free(harness, run)


def _best_to_grow(harness: Harness, chosen: Sequence[int], standing: Stand, load: int) -> int | None:
    """The run on a heater's way whose next gauge takes most volts off the drop for its copper."""
    best, most = None, 0.0
    for run, (out, back) in wire_weights(harness, harness.tree.loads[load]).items():
        if not _can_grow(harness, chosen, run):
            continue
        thick = _thicker(chosen[run])
        amps = (standing.solution.run_amps[run] if out else 0.0) + (
            standing.solution.return_amps[run] if back else 0.0
        )
        saved = (
            amps
            * harness.lengths[run]
            * (
                resistance_per_metre(chosen[run], harness.table, harness.temperature)
                - resistance_per_metre(thick, harness.table, harness.temperature)
            )
        )
        rate = saved / (copper_of(harness, run, thick) - copper_of(harness, run, chosen[run]))
        if rate > most:
            best, most = run, rate
    return best


def _thinned(harness: Harness, chosen: list[int]) -> list[int]:
    """Single runs thinner, and one thinner while another is thicker, as long as copper is saved."""
    grow = [run for run, gauge in enumerate(harness.gauges) if gauge is None and harness.lengths[run] > 0]
    better = True
    while better:
        better = False
        for run in sorted(grow, key=lambda run: -copper_of(harness, run, chosen[run])):
            while chosen[run] != GAUGES[0]:
                chosen[run] = GAUGES[GAUGES.index(chosen[run]) - 1]
                if not allowed(harness, chosen):
                    chosen[run] = _thicker(chosen[run])
                    break
                better = True
        if not better and len(grow) <= MOST_SWAPPED:
            better = _swapped(harness, chosen, grow)
    return chosen


def _swapped(harness: Harness, chosen: list[int], grow: Sequence[int]) -> bool:
    """Whether one run a gauge thinner and another a gauge thicker saved copper; the first pair is taken."""
    now = copper(harness, chosen)
    for thin in grow:
        for thick in grow:
            if thin == thick or chosen[thin] == GAUGES[0] or chosen[thick] == GAUGES[-1]:
                continue
            tried = list(chosen)
            tried[thin] = GAUGES[GAUGES.index(chosen[thin]) - 1]
            tried[thick] = _thicker(chosen[thick])
            if copper(harness, tried) < now - 1e-9 and allowed(harness, tried):
                chosen[:] = tried
                return True
    return False

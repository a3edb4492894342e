"""Between what every current of a harness lies, whatever gauges a feasible choice has.

Heaters that a choice must keep within the drop limit have between (1 − limit) and 1 of the supply's volts. So
their currents lie in a narrow interval, and with them the drops, which narrows the volts again.
"""

from collections.abc import Sequence

import msgspec

from logic.data.wiring_constants import GAUGES
from logic.physics.gauge_rules import asked, chassis_paths, wire_weights
from logic.physics.harness import Harness, resistances
from logic.physics.network import ways
from logic.physics.protection import ROUNDING


class Currents(msgspec.Struct, frozen=True):
    """Least and greatest current of each run in any feasible choice, per volt of the supply."""

    out_least: tuple[float, ...]
    out_most: tuple[float, ...]
    back_least: tuple[float, ...]
    back_most: tuple[float, ...]
    shares: tuple[float, ...]  # least share of the supply's volts of each heater


def currents(harness: Harness, thin: Sequence[int], thick: Sequence[int]) -> Currents:
    """Intervals of every current that hold in any feasible choice between two, per volt of the supply.

    thin, thick : the thinnest and the thickest gauge that each run may have.
    """
    tree, limit = harness.tree, harness.drop_limit * (1 + ROUNDING)
    most_ohms, _ = resistances(harness, thin)
    least_ohms, _ = resistances(harness, thick)
    judged = set(asked(harness).loads)
    low = [1 - limit if load in judged else 0.0 for load in range(len(tree.loads))]
    high = [1.0] * len(low)
    wires = {run: wire_weights(harness, run) for run in set(tree.loads)}
    for _ in range(3):  # each time a little narrower, and always an interval that holds
        out_least, back_least = _flows(harness, low)
        out_most, back_most = _flows(harness, high)
        for load, run in enumerate(tree.loads):
            least_drop = most_drop = 0.0
            for each, (out, back) in wires[run].items():
                least_drop += least_ohms[each] * (
                    (out_least[each] if out else 0.0) + (back_least[each] if back else 0.0)
                )
                most_drop += most_ohms[each] * (
                    (out_most[each] if out else 0.0) + (back_most[each] if back else 0.0)
                )
            for each in chassis_paths(harness, run):
                least_drop += harness.chassis[each] * back_least[each]
                most_drop += harness.chassis[each] * back_most[each]
            low[load] = max(low[load], 1 - most_drop)
            high[load] = max(low[load], min(high[load], 1 - least_drop))
    out_least, back_least = _flows(harness, low)
    out_most, back_most = _flows(harness, high)
    return Currents(tuple(out_least), tuple(out_most), tuple(back_least), tuple(back_most), tuple(low))


def _flows(harness: Harness, shares: Sequence[float]) -> tuple[list[float], list[float]]:
    """Currents of positives and returns where each heater has this share of the supply's volts."""
    way = ways(harness.tree)
    out = [0.0] * len(harness.lengths)
    back = [0.0] * len(harness.lengths)
    for load, run in enumerate(harness.tree.loads):
        amps = shares[load] / harness.heaters[load]
        for each in way.out[run]:
            out[each] += amps
        for each in way.back[run]:
            back[each] += amps
    return out, back


def widest(harness: Harness) -> Currents:
    """Intervals that hold in any feasible choice at all."""
    return currents(
        harness,
        [gauge or GAUGES[0] for gauge in harness.gauges],
        [gauge or GAUGES[-1] for gauge in harness.gauges],
    )

"""Uncertainty of figures from readings: to first order, by small differences of this reckoning's own figures.

Held while a slot moves: gauges, and the places that the program chose. Nobody measured those.
"""

import copy
import math
from dataclasses import dataclass, field
from types import SimpleNamespace

from tests.independent.circuit import solved
from tests.independent.measured import with_values
from tests.independent.reckoning import COARSE, FINE, reckon

# How far a slot is moved. [m] What is lost in noise wants a longer difference: a wire's length moves the resistance of
# its way by little, and a spell is counted in steps, the longer the coarser.
SMALL, OF_WIRES = 2e-6, 3e-4
NO_SLOPE = 0.05  # from one step to two, of what was gained
OF_SPELLS = {COARSE: 2e-4, FINE: 2e-5}


@dataclass
class Gains:
    """figure → slot → what it gains for one u of the slot, on either side; None where it comes or goes there."""

    below: dict[str, dict[str, float | None]] = field(default_factory=dict)
    above: dict[str, dict[str, float | None]] = field(default_factory=dict)

    def of(self, name, slots):
        """(least, greatest) u by the slopes of both sides and all between them; None where there is no slope."""
        pairs = [(self.below[name].get(slot, 0.0), self.above[name].get(slot, 0.0)) for slot in slots]
        if any(one is None for pair in pairs for one in pair):
            return None
        least = math.hypot(*(0.0 if a * b < 0 else min(abs(a), abs(b)) for a, b in pairs))
        return least, math.hypot(*(max(abs(a), abs(b)) for a, b in pairs))


def gains(held, values, known, *, spells=None):
    """Of every figure, by every slot that is read. `spells`: how finely they are counted, None for none.

    held : the measured rig, its free pads held (see `with_places_held`).
    """
    base = solved(held)
    middle = reckon(held, step=spells, circuit=base).figures
    middle = {name: one for name, one in middle.items() if not name.endswith(".band")}
    found = Gains({name: {} for name in middle}, {name: {} for name in middle})
    for slot, value in values.items():
        u, step = known[slot].u, SMALL if spells is None else OF_SPELLS[spells]
        step = OF_WIRES if slot.startswith("run.") else step
        at_zero = value < step
        changes = []
        for shift in (step, 2 * step) if at_zero else (-step, step):
            rig = with_values(held, {slot: value + shift})
            circuit = with_fixed_gauges(rig, base) if slot.startswith("run.") else base
            changes.append(changed(middle, reckon(rig, step=spells, circuit=circuit).figures))
        for name in middle:
            one, other = changes[0][name], changes[1][name]
            if one is None or other is None or (at_zero and abs(2 * one - other) > NO_SLOPE * abs(other)):
                found.below[name][slot] = found.above[name][slot] = None
            elif at_zero:  # there is no length below: the slope of a parabola through three values
                found.below[name][slot] = found.above[name][slot] = (4 * one - other) * u / (2 * step)
            else:
                found.below[name][slot], found.above[name][slot] = -one * u / step, other * u / step
    return found


def changed(before, after):
    """By how much each figure is another; None where it comes or goes."""
    return {
        name: None if one is None or after[name] is None else after[name] - one
        for name, one in before.items()
    }


def with_fixed_gauges(rig, circuit):
    """The circuit once more, with gauges chosen before."""
    for run in rig.runs.values():
        run.gauge = circuit.gauges[run.id]
    return solved(rig)


def with_places_held(rig, places):
    """The rig with each bottom pad at its place, by pad: (x, y, turned)."""
    held = copy.deepcopy(rig)
    for pad_id, (x, y, turned) in places.items():
        held.heaters[pad_id].at = SimpleNamespace(x=x, y=y)
        held.heaters[pad_id].turned = bool(turned)
    return held

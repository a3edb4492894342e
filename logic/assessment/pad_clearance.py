"""How clear a bottom pad lies in one case, what that hangs on, and how sure it is.

The geometry stands in `physics/clearance.py`; here its sides and coordinates get the names of slots.
"""

from math import sqrt

import msgspec

from logic.assessment.case import Case
from logic.assessment.fit_case import area_of, bottom_with_others
from logic.assessment.shared import Place
from logic.data.profile import Heater, Tank
from logic.physics.clearance import Gap, least_gaps, outlet_gap
from logic.physics.placement import SAME
from logic.physics.rectangles import Bottom


class PadClearance(msgspec.Struct, frozen=True):
    """In m; what the least gap is against, in words; slots in the order of the gap's own parts."""

    value: float
    against: str  # an edge | the outlet | rib | pad galley-b
    slopes: tuple[tuple[str, float], ...]  # (slot, d clearance / d slot)
    u: float | None  # one standard uncertainty; None unless both sides of the pad are read
    to_outlet: float | None  # edge to edge; None: no outlet
    outlet_slopes: tuple[tuple[str, float], ...]
    bottom: Bottom  # as this pad sees it


def pad_clearance(case: Case, heater: Heater) -> PadClearance | None:
    """The clearance of a bottom pad that has a place; None for any other heater."""
    place = case.places.get(heater.id)
    if not isinstance(place, Place):
        return None
    tank = case.tanks[place.tank]
    bottom, others = bottom_with_others(tank, case.places, heater)
    pad = area_of(place)
    found = [
        (gap, _slot_slopes(case, gap, tank, place, others)) for gap in least_gaps(pad, bottom, same=SAME)
    ]
    least = min(gap.value for gap, _ in found)
    # of gaps that are equal the least certain one speaks: on the safe side
    gap, slopes = max(found, key=lambda gap_and_slopes: _u(case, gap_and_slopes[1]))
    sides_read = all(case.u_read(f"heater.{heater.id}.{side}") is not None for side in ("length", "width"))
    to_outlet = None if bottom.outlet is None else outlet_gap(pad, bottom.outlet)
    return PadClearance(
        value=least,
        against=_against(gap, tank, others),
        slopes=slopes,
        u=_u(case, slopes) if sides_read else None,
        to_outlet=None if to_outlet is None else to_outlet.value,
        outlet_slopes=() if to_outlet is None else _slot_slopes(case, to_outlet, tank, place, others),
        bottom=bottom,
    )


def slots_of_fit(case: Case, heater: Heater) -> tuple[str, ...]:
    """The slots that a bottom pad's place and clearance hang on."""
    tank = case.tanks[heater.on]
    slots = [f"heater.{heater.id}.{name}" for name in ("length", "width", "x", "y")]
    slots += [_bottom_slot(tank, side) for side in ("length", "width")]
    if tank.outlet is not None:
        slots += [f"tank.{tank.id}.outlet.{axis}" for axis in ("x", "y")]
    for number in range(1, len(tank.keepout) + 1):
        slots += [f"tank.{tank.id}.keepout.{number}.{name}" for name in ("x", "y", "length", "width")]
    for other in case.heaters_on(tank.id):
        if other.face == "bottom" and other.id != heater.id:
            slots += [f"heater.{other.id}.{name}" for name in ("length", "width", "x", "y")]
    return tuple(slots)


def _bottom_slot(tank: Tank, side: str) -> str:
    if tank.shape == "taper":
        return f"tank.{tank.id}.bottom_{side}"
    if tank.shape == "cylinder" and side == "width":
        return f"tank.{tank.id}.height"
    return f"tank.{tank.id}.{side}"


def _slot_slopes(
    case: Case, gap: Gap, tank: Tank, place: Place, others: tuple[str, ...]
) -> tuple[tuple[str, float], ...]:
    """A gap's slopes by slot, those of one slot together."""
    by_slot: dict[str, float] = {}
    for whose, side, slope in gap.slopes:
        if whose == "pad":
            slot = _pad_slot(place, side)
        elif whose == "bottom":
            slot = _bottom_slot(tank, side)
        elif whose == "outlet":
            slot = f"tank.{tank.id}.outlet.{side}"
        elif gap.place < len(tank.keepout):
            named = {"along": "length", "across": "width"}.get(side, side)
            slot = f"tank.{tank.id}.keepout.{gap.place + 1}.{named}"
        else:
            other = case.places[others[gap.place - len(tank.keepout)]]
            assert isinstance(other, Place)
            slot = _pad_slot(other, side)
        by_slot[slot] = by_slot.get(slot, 0.0) + slope
    return tuple(by_slot.items())


def _pad_slot(place: Place, side: str) -> str:
    sides = {"along": "width", "across": "length"} if place.turned else {"along": "length", "across": "width"}
    return f"heater.{place.heater}.{sides.get(side, side)}"


def _u(case: Case, slopes: tuple[tuple[str, float], ...]) -> float:
    """First order, independent parts; planned slots count as exact (JCGM 100, 5.1.2)."""
    return sqrt(sum((slope * (case.u_read(slot) or 0.0)) ** 2 for slot, slope in slopes))


def _against(gap: Gap, tank: Tank, others: tuple[str, ...]) -> str:
    if gap.against == "edge":
        return "an edge of the bottom"
    if gap.against == "outlet":
        return "the outlet"
    if gap.place < len(tank.keepout):
        return tank.keepout[gap.place].why or f"keep-out {gap.place + 1}"
    return f"pad {others[gap.place - len(tank.keepout)]}"

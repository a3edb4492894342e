"""A case with one slot moved by a little: for first-order uncertainty, by central differences.

Gauges and automatic places are held; a run's length reaches heat through the volts at its heaters.
"""

import msgspec

from logic.assessment.case import Case
from logic.assessment.shared import NoPlace, Place
from logic.data.profile import Profile

replace = msgspec.structs.replace

STEP = 1e-6
"""How far a slot is moved either way. [m] Sizes are of the order of 1 m: differences keep ten digits."""


class Variant(msgspec.Struct, frozen=True):
    """What heat is computed from: a profile, the volts at each heater, the places of bottom pads."""

    profile: Profile
    volts: dict[str, float | None]  # at the supply's `volts`; None: unfed
    places: dict[str, Place | NoPlace]


def as_it_stands(case: Case) -> Variant:
    """The case itself."""
    return Variant(
        profile=case.profile,
        volts={name: circuit.volts for name, circuit in case.circuits.heaters},
        places=case.places,
    )


def nudged(case: Case, slot: str, step: float) -> Variant:
    """The case with a slot's value moved by `step`, in m. A slot that heat doesn't know moves nothing."""
    base = as_it_stands(case)
    kind, part, name = (*slot.split(".", 2), "", "")[:3]
    if kind == "run":
        return replace(base, volts=_moved_volts(case, slot, step))
    if kind == "heater" and name in ("x", "y"):
        place = base.places.get(part)
        if not isinstance(place, Place):
            return base
        moved = replace(place, **{name: getattr(place, name) + step})
        return replace(base, places={**base.places, part: moved})
    field = {"tank": "tanks", "drain": "drains", "heater": "heaters"}.get(kind)
    if field is None:
        return base
    parts = tuple(
        _moved(each, name, step) if each.id == part else each for each in getattr(base.profile, field)
    )
    variant = replace(base, profile=replace(base.profile, **{field: parts}))
    if kind == "heater":
        return replace(variant, places=_resized_places(base, part, name, step))
    return variant


def _moved(part, name: str, step: float):
    value = getattr(part, name, None)
    if not isinstance(value, float):
        return part
    changes = {name: value + step}
    if name == "height" and getattr(part, "shape", "") == "cylinder":
        changes["width"] = part.width + step
    return replace(part, **changes)


def _resized_places(base: Variant, heater: str, name: str, step: float) -> dict[str, Place | NoPlace]:
    """A pad that is longer or wider lies from the same corner."""
    place = base.places.get(heater)
    if not isinstance(place, Place) or name not in ("length", "width"):
        return base.places
    side = "along" if (name == "length") != place.turned else "across"
    return {**base.places, heater: replace(place, **{side: getattr(place, side) + step})}


def _moved_volts(case: Case, slot: str, step: float) -> dict[str, float | None]:
    volts: dict[str, float | None] = {}
    for name, circuit in case.circuits.heaters:
        slope = dict(circuit.volts_by_length).get(slot, 0.0)
        volts[name] = None if circuit.volts is None else circuit.volts + slope * step
    return volts


def run_slots(case: Case, heaters: tuple[str, ...]) -> tuple[str, ...]:
    """The lengths of runs on which the volts at some heaters hang."""
    found: dict[str, None] = {}
    for name, circuit in case.circuits.heaters:
        if name in heaters:
            for slot, _ in circuit.volts_by_length:
                found[slot] = None
    return tuple(found)


def why_impossible(case: Case, slots: tuple[str, ...]) -> str:
    """Why a reading of one of these slots contradicts another value; empty where none does."""
    return next((reason for slot in slots if (reason := case.impossible(slot))), "")

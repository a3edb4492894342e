"""A case with one slot moved by a little: for first-order uncertainty, by central differences.

Gauges and automatic places are held; a run's length reaches heat through the volts at its heaters.
"""

from functools import lru_cache
from weakref import WeakKeyDictionary

import msgspec

from logic.assessment.case import Case
from logic.assessment.shared import NoPlace, Place
from logic.data.profile import Profile, Run

replace = msgspec.structs.replace

STEP = 1e-6
"""How far a slot is moved either way. [m] Sizes are of the order of 1 m: differences keep ten digits."""


class Variant(msgspec.Struct, frozen=True):
    """What heat is computed from: a profile, the volts at each heater, the places of bottom pads."""

    profile: Profile
    volts: dict[str, float | None]  # at the supply's `volts`; None: unfed
    places: dict[str, Place | NoPlace]


class Nudges:
    """A case's variants, each made once for all the figures that ask for it."""

    def __init__(self, case: Case) -> None:
        self.circuits = case.circuits
        self.base = Variant(
            profile=case.profile,
            volts={name: circuit.volts for name, circuit in case.circuits.heaters},
            places=case.places,
        )
        self.made: dict[tuple[str, float], Variant] = {}

    def variant(self, slot: str, step: float) -> Variant:
        """The case with a slot moved."""
        key = (slot, step)
        if key not in self.made:
            self.made[key] = self._moved(slot, step)
        return self.made[key]

    def _moved(self, slot: str, step: float) -> Variant:
        kind, part, name = (*slot.split(".", 2), "", "")[:3]
        if kind == "run":
            return replace(self.base, volts=self._moved_volts(slot, step))
        if kind == "heater" and name in ("x", "y"):
            place = self.base.places.get(part)
            if not isinstance(place, Place):
                return self.base
            moved = replace(place, **{name: getattr(place, name) + step})
            return replace(self.base, places={**self.base.places, part: moved})
        return _resized(self.base, kind, part, name, step)

    def _moved_volts(self, slot: str, step: float) -> dict[str, float | None]:
        volts: dict[str, float | None] = {}
        for name, circuit in self.circuits.heaters:
            slope = dict(circuit.volts_by_length).get(slot, 0.0)
            volts[name] = None if circuit.volts is None else circuit.volts + slope * step
        return volts


_nudges: WeakKeyDictionary[Case, Nudges] = WeakKeyDictionary()


def _nudges_of(case: Case) -> Nudges:
    if case not in _nudges:
        _nudges[case] = Nudges(case)
    return _nudges[case]


def as_it_stands(case: Case) -> Variant:
    """The case itself."""
    return _nudges_of(case).base


def nudged(case: Case, slot: str, step: float) -> Variant:
    """The case with a slot's value moved by `step`, in m. A slot that heat doesn't know moves nothing."""
    return _nudges_of(case).variant(slot, step)


def _resized(base: Variant, kind: str, part: str, name: str, step: float) -> Variant:
    """With one size of a tank, a drain or a heater changed."""
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


def run_slots(case: Case, heaters: tuple[str, ...]) -> tuple[str, ...]:
    """The lengths of runs on which the volts at some heaters hang: of every run joined to theirs by wire."""
    fed = {run.id for run in case.profile.runs if any(heater in run.feeds for heater in heaters)}
    return tuple(
        f"run.{run.id}.length"
        for joined in _joined_runs(case.profile.runs)
        if fed & joined
        for run in case.profile.runs
        if run.id in joined
    )


@lru_cache(maxsize=64)
def _joined_runs(runs: tuple[Run, ...]) -> tuple[frozenset[str], ...]:
    """Runs in groups: one from another, or on another's return. Between groups there is only the supply."""
    groups = {run.id: {run.id} for run in runs}
    for run in runs:
        for other in (run.from_, run.back):
            if other in groups and groups[other] is not groups[run.id]:
                groups[other] |= groups[run.id]
                for member in groups[run.id]:
                    groups[member] = groups[other]
    distinct = {id(group): frozenset(group) for group in groups.values()}
    return tuple(distinct.values())


def why_impossible(case: Case, slots: tuple[str, ...]) -> str:
    """Why a reading of one of these slots contradicts another value; empty where none does."""
    if not case.slots:
        return ""
    return next((reason for slot in slots if (reason := case.impossible(slot))), "")

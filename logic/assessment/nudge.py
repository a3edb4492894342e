"""A case with one thing moved by a little: for first-order uncertainty, by central differences.

What a slot moves is its own part, and what reaches further does so through a lever: the floor that tanks take
from their bay, the volts at a heater. A lever is moved once for all the slots behind it, by the chain rule.
Gauges and automatic places are held.
"""

from functools import cached_property, lru_cache
from weakref import WeakKeyDictionary

import msgspec

from logic.assessment.case import Case
from logic.assessment.shared import NoPlace, Place
from logic.assessment.surroundings import INSIDE, OPEN, UNDER_CABIN, tops_in
from logic.data.profile import Profile, Run

replace = msgspec.structs.replace

STEP = 1e-6
"""How far a slot or a lever is moved either way. [m, m² or V] They are of the order of 1 or more: differences
keep nine digits.
"""

Pull = tuple[str, float]
"""A lever, and by how much it moves with a slot. [m²/m or V/m]"""


class Variant(msgspec.Struct, frozen=True):
    """What heat is computed from: a profile, the volts at each heater, the places of bottom pads, what tanks
    take of their bay's floor.
    """

    profile: Profile
    volts: dict[str, float | None]  # at the supply's `volts`; None: unfed
    places: dict[str, Place | NoPlace]
    tops: dict[str, float]  # m², of each bay
    moved: str = ""  # the part of which something is moved: tank.gray; empty: the case as it stands


def tops_lever(bay: str) -> str:
    """The floor that its tanks take from a bay."""
    return f"bay.{bay}.tops"


def volts_lever(heater: str) -> str:
    """The volts at a heater, at the supply's `volts`."""
    return f"heater.{heater}.volts"


def levers_of(place: str, heaters: tuple[str, ...]) -> tuple[str, ...]:
    """What reaches a part from outside: at a place, with these heaters."""
    bay = () if place in (OPEN, INSIDE) else (tops_lever(place),)
    return (*bay, *(volts_lever(heater) for heater in heaters))


class Nudges:
    """A case's variants, each made once for all the figures that ask for it."""

    def __init__(self, case: Case) -> None:
        self.case = case
        profile = case.profile
        self.base = Variant(
            profile=profile,
            volts={name: circuit.volts for name, circuit in case.circuits.heaters},
            places=case.places,
            tops={bay.id: tops_in(profile, bay.id) for bay in profile.bays},
        )
        self.made: dict[tuple[str, float], Variant] = {}

    def variant(self, slot: str, step: float) -> Variant:
        """The case with a slot or a lever moved."""
        key = (slot, step)
        if key not in self.made:
            part = ".".join(slot.split(".", 2)[:2])
            self.made[key] = replace(self._moved(slot, step), moved=part)
        return self.made[key]

    def room_below(self, slot: str) -> float:
        """How far a slot or a lever can be moved down: a floor can't fall by less than nothing. [m, m² or V]"""
        kind, part, name = (*slot.split(".", 2), "", "")[:3]
        if kind == "tank" and name == "fall":
            return min([STEP, *(tank.fall or 0.0 for tank in self.case.profile.tanks if tank.id == part)])
        return STEP

    def _moved(self, slot: str, step: float) -> Variant:
        kind, part, name = (*slot.split(".", 2), "", "")[:3]
        if kind == "bay":
            return replace(self.base, tops={**self.base.tops, part: self.base.tops[part] + step})
        if kind == "heater" and name == "volts":
            volts = self.base.volts[part]
            moved_volts = None if volts is None else volts + step
            return replace(self.base, volts={**self.base.volts, part: moved_volts})
        if kind == "heater" and name in ("x", "y"):
            place = self.base.places.get(part)
            if not isinstance(place, Place):
                return self.base
            moved = replace(place, **{name: getattr(place, name) + step})
            return replace(self.base, places={**self.base.places, part: moved})
        return _resized(self.base, kind, part, name, step)

    def pulls(self, slot: str, levers: tuple[str, ...]) -> tuple[Pull, ...]:
        """Those of some levers that a slot moves."""
        found = (self._volts_pulls if slot.startswith("run.") else self._tops_pulls).get(slot)
        if not found:
            return ()
        return tuple((lever, found[lever]) for lever in levers if lever in found)

    @cached_property
    def _volts_pulls(self) -> dict[str, dict[str, float]]:
        found: dict[str, dict[str, float]] = {}
        for name, circuit in self.case.circuits.heaters:
            lever = volts_lever(name)
            for slot, slope in circuit.volts_by_length:
                found.setdefault(slot, {})[lever] = slope
        return found

    @cached_property
    def _tops_pulls(self) -> dict[str, dict[str, float]]:
        found: dict[str, dict[str, float]] = {}
        for tank in self.case.profile.tanks:
            if tank.place in self.base.tops and tank.above == UNDER_CABIN:
                across = "height" if tank.shape == "cylinder" else "width"
                lever = tops_lever(tank.place)
                found[f"tank.{tank.id}.length"] = {lever: tank.width}
                found[f"tank.{tank.id}.{across}"] = {lever: tank.length}
        return found

    def stands_at(self, moved: str) -> tuple[object, ...]:
        """Where a lever stands, and all that its effect on a part hangs on besides that part; a slot: ()."""
        kind, part, name = moved.split(".", 2)
        if kind == "bay":
            return (self.case.bays[part], self.base.tops[part], self.case.profile.design)
        if kind == "heater" and name == "volts":
            return (self.case.heaters[part], self.base.volts[part])
        return ()


_nudges: WeakKeyDictionary[Case, Nudges] = WeakKeyDictionary()


def nudges_of(case: Case) -> Nudges:
    """A case's variants."""
    found = _nudges.get(case)
    if found is None:
        found = _nudges[case] = Nudges(case)
    return found


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
    if not case.contradicted:
        return ""
    return next((reason for slot in slots if (reason := case.impossible(slot))), "")

"""What the spell takes from the battery: charge by days, at G as it stands and at the edges of its band."""

from collections.abc import Sequence
from functools import lru_cache

import msgspec

from logic.assessment.nudge import Variant
from logic.assessment.surroundings import around, course_of
from logic.assessment.tank_case import fed_pads, tank_results
from logic.assessment.tank_inputs import TankInputs, tank_inputs
from logic.assessment.tank_spell_case import tank_spell
from logic.data.constants import HOUR
from logic.data.profile import Heater, Profile, Tank
from logic.physics import battery
from logic.physics.tank_heat import Around
from logic.physics.weather import Course, mean, seconds_below

MOST_KEPT = 4096  # enough for every reading of the largest rig to be moved either way


class SupplyInputs(msgspec.Struct, frozen=True, cache_hash=True):
    """All that the account hangs on."""

    tanks: tuple[TankInputs, ...]
    heater_amps: tuple[tuple[str, float], ...]  # at `volts`, of each fed heater
    drain_hours: tuple[tuple[str, tuple[float, ...]], ...]  # of each fed drain heater, hours on in each day
    course: Course


class Night(msgspec.Struct, frozen=True):
    """The worst day, from 18:00 to 18:00."""

    which: int  # counted from 0
    heat_ah: float
    other_ah: float

    @property
    def whole_ah(self) -> float:
        """[Ah]"""
        return self.heat_ah + self.other_ah


def supply_inputs(variant: Variant, *, base: SupplyInputs | None = None) -> SupplyInputs:
    """What the account hangs on, in a variant of the case.

    base : that of the case as it stands. Tanks that the moved part doesn't reach are taken from there.
    """
    profile = variant.profile
    course = course_of(profile.design)
    amps = []
    drain_hours = []
    drains = {drain.id: drain for drain in profile.drains}
    for heater in profile.heaters:
        volts = variant.volts.get(heater.id)
        if volts is None:
            continue
        amps.append((heater.id, heater_amps(heater, volts)))
        if heater.on in drains:
            surroundings = around(profile, drains[heater.on].place, tops=variant.tops)
            drain_hours.append((heater.id, _drain_hours(heater, surroundings, course)))
    heaters_on: dict[str, list[Heater]] = {}
    for heater in profile.heaters:
        heaters_on.setdefault(heater.on, []).append(heater)
    return SupplyInputs(
        tanks=tuple(
            tank_inputs(variant, tank, heaters=tuple(heaters_on.get(tank.id, ())))
            if base is None or variant.moved in reached_from(tank, heaters_on.get(tank.id, ()))
            else base.tanks[number]
            for number, tank in enumerate(profile.tanks)
        ),
        heater_amps=tuple(amps),
        drain_hours=tuple(drain_hours),
        course=course,
    )


def reached_from(tank: Tank, heaters: Sequence[Heater]) -> tuple[str, ...]:
    """The parts of which something may move a tank's heat."""
    return (f"tank.{tank.id}", f"bay.{tank.place}", *(f"heater.{heater.id}" for heater in heaters))


def heater_amps(heater: Heater, volts: float) -> float:
    """Current of a heater, a resistor of V²/P. [A]"""
    return volts * heater.watts / heater.volts**2


def _drain_hours(heater: Heater, surroundings: Around, course: Course) -> tuple[float, ...]:
    """Hours on in each day: always, or while the air of its place is below its thermostat's `on`."""
    if heater.thermostat is None:
        return tuple((end - start) / HOUR for start, end in course.days())
    on = heater.thermostat.on_degc
    if surroundings.share <= 0:
        always = surroundings.base_degc < on
        return tuple((end - start) / HOUR if always else 0.0 for start, end in course.days())
    return _hours_below(course, (on - surroundings.base_degc) / surroundings.share)


@lru_cache(maxsize=64)
def _hours_below(course: Course, degc: float) -> tuple[float, ...]:
    """Hours in each day with the air outdoors under a temperature."""
    return tuple(seconds_below(course, degc, start=start, end=end) / HOUR for start, end in course.days())


@lru_cache(maxsize=MOST_KEPT)
def days_ah(inputs: SupplyInputs, edge: float = 1.0) -> tuple[float, ...]:
    """Charge that the heaters take in each day of the spell, with every tank's G × `edge`. [Ah]

    An empty tank's are off. Where there is no spell (thermostats that would switch for ever, weather too long for so
    many tanks) they count as on: the safe side.
    """
    amps = dict(inputs.heater_amps)
    total = [0.0] * max(len(inputs.course.days()), 1)
    for tank in inputs.tanks:
        for heater, days in _pad_hours(tank, edge):
            for day, hours_on in enumerate(days):
                total[day] += amps[heater] * hours_on
    for heater, hours in inputs.drain_hours:
        for day, hours_on in enumerate(hours):
            total[day] += amps[heater] * hours_on
    return tuple(total)


@lru_cache(maxsize=MOST_KEPT)
def _pad_hours(tank: TankInputs, edge: float) -> tuple[tuple[str, tuple[float, ...]], ...]:
    """Hours on in each day of each fed pad of a tank."""
    if not tank.pads or tank_results(tank).contents <= 0:
        return ()
    days = tank.course.days()
    spell = tank_spell(tank, edge)
    always = tuple(end - start for start, end in days)
    return tuple(
        (pad.id, tuple(on / HOUR for on in (spell.seconds_on_between(which, days) if spell else always)))
        for which, (pad, _) in enumerate(fed_pads(tank))
    )


def worst_night(inputs: SupplyInputs, *, other: float, edge: float = 1.0) -> Night:
    """The greatest of the spell's days, with the other load for all of its 24 hours. [Ah]"""
    days = days_ah(inputs, edge)
    which = max(range(len(days)), key=lambda day: days[day])
    return Night(which=which, heat_ah=days[which], other_ah=other * 24)


def battery_degc(profile: Profile) -> float:
    """The battery's temperature: as given, or the spell's mean outdoors. [°C]"""
    given = profile.supply.battery_degc
    return _mean(course_of(profile.design)) if given is None else given


_mean = lru_cache(maxsize=16)(mean)


def usable_ah(profile: Profile) -> float:
    """What may be drawn at the battery's temperature. [Ah]"""
    supply = profile.supply
    return battery.usable_ah(
        supply.capacity_ah, supply.usable, chemistry=supply.chemistry, degc=battery_degc(profile)
    )


def hours(profile: Profile, night_ah: float) -> float | None:
    """Hours until the battery is at its floor, by a night's mean current; None: nothing is drawn. [h]"""
    supply = profile.supply
    return battery.hours_at(
        night_ah / 24,
        capacity_ah=supply.capacity_ah,
        usable=supply.usable,
        peukert=supply.peukert,
        factor=battery.temperature_factor(supply.chemistry, battery_degc(profile)),
    )

"""What the spell takes from the battery: charge by days, at G as it stands and at the edges of its band."""

from collections.abc import Iterable, Iterator, Sequence
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
        return _whole_days(course)
    on = heater.thermostat.on_degc
    if surroundings.share <= 0:
        always = surroundings.base_degc < on
        return tuple(length if always else 0.0 for length in _whole_days(course))
    return _hours_below(course, (on - surroundings.base_degc) / surroundings.share)


@lru_cache(maxsize=64)
def _hours_below(course: Course, degc: float) -> tuple[float, ...]:
    """Hours in each day with the air outdoors under a temperature."""
    return tuple(seconds_below(course, degc, start=start, end=end) / HOUR for start, end in course.days())


@lru_cache(maxsize=16)
def _whole_days(course: Course) -> tuple[float, ...]:
    """Hours of each day."""
    return tuple((end - start) / HOUR for start, end in course.days())


class Together(msgspec.Struct, frozen=True):
    """Heaters that are on at the same times."""

    heaters: tuple[str, ...]
    hours: tuple[float, ...]  # on in each day


@lru_cache(maxsize=16)
def days_ah(inputs: SupplyInputs, edge: float = 1.0) -> tuple[float, ...]:
    """Charge that the heaters take in each day of the spell, with every tank's G × `edge`. [Ah]

    An empty tank's are off. Where there is no spell (thermostats that would switch for ever, weather too long for so
    many tanks) they count as on: the safe side.
    """
    amps = dict(inputs.heater_amps)
    total = [0.0] * max(len(inputs.course.days()), 1)
    for tank in inputs.tanks:
        _add(total, _pad_hours(tank, edge), amps)
    _add(total, _of_drains(inputs), amps)
    return tuple(total)


def _days_beside(inputs: SupplyInputs, edge: float, beside: SupplyInputs) -> list[float]:
    """The same from another account that differs in little: what differs taken out of it and put in. [Ah]"""
    total = list(days_ah(beside, edge))
    amps, were = dict(inputs.heater_amps), dict(beside.heater_amps)
    other_amps = {heater for heater, flow in inputs.heater_amps if were.get(heater) != flow}
    for tank, was in zip(inputs.tanks, beside.tanks, strict=True):
        if tank is not was or (other_amps and any(pad.id in other_amps for pad in tank.pads)):
            _add(total, _pad_hours(was, edge), were, sign=-1.0)
            _add(total, _pad_hours(tank, edge), amps)
    if inputs.drain_hours != beside.drain_hours or any(name in other_amps for name, _ in inputs.drain_hours):
        _add(total, _of_drains(beside), were, sign=-1.0)
        _add(total, _of_drains(inputs), amps)
    return total


def _add(
    total: list[float], groups: Iterable[Together], amps: dict[str, float], *, sign: float = 1.0
) -> None:
    """To the charge of each day that of some heaters, from their hours on."""
    for together in groups:
        flow = sign * sum(amps[heater] for heater in together.heaters)
        for day, hours_on in enumerate(together.hours):
            total[day] += flow * hours_on


def _of_drains(inputs: SupplyInputs) -> Iterator[Together]:
    return (Together((heater,), hours_on) for heater, hours_on in inputs.drain_hours)


@lru_cache(maxsize=MOST_KEPT)
def _pad_hours(tank: TankInputs, edge: float) -> tuple[Together, ...]:
    """Hours on in each day of a tank's fed pads; those with one thermostat switch together."""
    if not tank.pads or tank_results(tank).contents <= 0:
        return ()
    spell = tank_spell(tank, edge)
    pads = fed_pads(tank)
    if spell is None:
        return (Together(tuple(pad.id for pad, _ in pads), _whole_days(tank.course)),)
    alike: dict[tuple[tuple[float, float], ...], list[int]] = {}
    for which in range(len(pads)):
        alike.setdefault(spell.on_times[which], []).append(which)
    days = tank.course.days()
    return tuple(
        Together(
            tuple(pads[which][0].id for which in group),
            tuple(on / HOUR for on in spell.seconds_on_between(group[0], days)),
        )
        for group in alike.values()
    )


@lru_cache(maxsize=MOST_KEPT)
def worst_night(
    inputs: SupplyInputs, *, other: float, edge: float = 1.0, beside: SupplyInputs | None = None
) -> Night:
    """The greatest of the spell's days, with the other load for all of its 24 hours. [Ah]

    beside : an account that differs in little, from which this one is quickly found.
    """
    days = days_ah(inputs, edge) if beside is None else _days_beside(inputs, edge, beside)
    which = max(range(len(days)), key=days.__getitem__)
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

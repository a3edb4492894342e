"""The worst night, what the battery holds and how long it lasts."""

from tests.independent.heat import outdoors_where, surroundings
from tests.independent.numbers import LEAD, LITHIUM, between


def drain_hours(rig, drain, pad):
    """Hours on of a drain's heater, day by day."""
    if pad.thermostat is None:
        return [(until - since) / 3600 for since, until in rig.weather.days]
    limit = outdoors_where(lambda outdoors: surroundings(rig, drain.place, outdoors), pad.thermostat.on)
    if limit is None:
        below = surroundings(rig, drain.place, 0.0) < pad.thermostat.on
        return [below * (until - since) / 3600 for since, until in rig.weather.days]
    return [rig.weather.seconds_below(limit, since, until) / 3600 for since, until in rig.weather.days]


def night(rig, volts, spells, n):
    """The greatest of the days, with the spells' n-th run. [Ah]"""
    ah = [24 * (rig.supply.other or 0.0)] * len(rig.weather.days)
    for heater in rig.heaters.values():
        if heater.id not in volts:
            continue
        amps = volts[heater.id] * heater.watts / heater.volts**2
        if heater.on in rig.drains:
            hours = drain_hours(rig, rig.drains[heater.on], heater)
        else:
            runs = spells[heater.on]
            hours = [0.0] * len(ah) if runs is None else runs[n].hours[heater.id]
        ah = [one + amps * on for one, on in zip(ah, hours, strict=True)]
    return max(ah)


def capacity(rig):
    """At the battery's temperature. [Ah]"""
    celsius = rig.weather.mean if rig.supply.battery is None else rig.supply.battery
    return rig.supply.capacity * between(LITHIUM if rig.supply.chemistry == "lithium" else LEAD, celsius)


def hours(rig, ah):
    """Until the battery is at its floor. [h]"""
    mean, power = ah / 24, rig.supply.peukert
    if mean == 0:
        return None
    flat = rig.supply.usable * capacity(rig) / mean
    if power <= 1:
        return flat
    return min(flat, rig.supply.usable * 20 * (capacity(rig) / (20 * mean)) ** power)


def supply_figures(rig, circuit, current):
    """What hangs on no spell."""
    figures = {"usable": capacity(rig) * rig.supply.usable, "converter": None}
    if rig.supply.converter is not None:
        figures["converter"] = (current + (rig.supply.other or 0.0)) / rig.supply.converter
    return {f"supply.{name}": value for name, value in figures.items()}


def lasting(rig, circuit, spells):
    """The worst night, and how long the battery gives it."""
    nights = [night(rig, circuit.volts, spells, n) for n in range(3)]
    lasts = [hours(rig, ah) for ah in nights]
    figures = {
        "night": nights[0],
        "night.band": nights[1:],
        "hours": lasts[0],
        "hours.band": lasts[1:],
        "nights": None if lasts[0] is None else lasts[0] / 24,
        "nights.band": [None if one is None else one / 24 for one in lasts[1:]],
    }
    return {f"supply.{name}": value for name, value in figures.items()}

"""Findings of the design alone, from the figures: `rule:place` and its weight."""

import math

from tests.independent import circuit_findings, drains, volumes
from tests.independent.heat import surroundings
from tests.independent.numbers import WALL_LIMIT
from tests.independent.quantities import INCH

NEAR = 1e-9


def findings_of(rig, circuit, figures, spots, runs):
    found: dict[str, str] = {}
    for tank in rig.tanks.values():
        found |= of_tank(rig, tank, figures, spots, runs[tank.id] or ())
    for drain in rig.drains.values():
        found |= of_drain(rig, drain, figures)
    for heater in rig.heaters.values():
        found |= of_heater(rig, heater, figures)
    for bay in rig.bays.values():
        if bay.water and figures[f"bay.{bay.id}.low"] <= 0:
            found[f"bay-freezes:bay.{bay.id}"] = "use"
    found |= of_supply(rig, figures)
    return found | circuit_findings.findings_of(rig, circuit, figures)


def of_tank(rig, tank, figures, spots, runs):
    def value(name):
        return figures.get(f"tank.{tank.id}.{name}")

    found: dict[str, str] = {}
    if value("delivered") < value("needed"):
        found["cold"] = "use"
    elif value("delivered") < value("needed.band")[1]:
        found["cold-band"] = "note"
    if value("holds_to_towing") is not None and value("holds_to_towing") > rig.weather.steady_low:
        found["cold-towing"] = "note"
    if value("spell.ice_hours"):
        found["spell-ice"] = "use"
    elif value("spell.ice_hours") is not None and any(run.ice_hours for run in runs):
        found["spell-ice-band"] = "note"
    least = volumes.least_level(rig, tank, spots)
    if least is not None:
        over = least > volumes.inside_height(tank) + 1e-12
        if over or value("least") > value("contents") * (1 + NEAR):
            found["low-liquid"] = "use"
    return {f"{rule}:tank.{tank.id}": weight for rule, weight in found.items()}


def of_drain(rig, drain, figures):
    found: dict[str, str] = {}
    if rig.on(drain.id):
        at_low = surroundings(rig, drain.place, rig.weather.steady_low)
        heat = rig.design.hold - at_low - drain_rise(rig, drain, figures)
        if heat > NEAR:
            found["cold"] = "use"
        elif rig.design.hold - at_low - drain_rise(rig, drain, figures) * 0.75 > NEAR:
            found["cold-band"] = "note"
    else:
        own = figures[f"drain.{drain.id}.hours_to_ice"]
        tank = figures[f"tank.{drain.tank}.hours_to_ice"]
        if own is not None and (tank is None or own < tank):
            found["drain-first"] = "use"
    return {f"{rule}:drain.{drain.id}": weight for rule, weight in found.items()}


def drain_rise(rig, drain, figures):
    """What its heaters lift it above its surroundings. [K]"""
    watts = sum((figures[f"heater.{one.id}.watts"] or 0.0) for one in rig.on(drain.id))
    return watts * drains.share(rig, drain) * sum(drains.resistances(rig, drain)) / drain.length


def of_heater(rig, heater, figures):
    def value(name):
        return figures.get(f"heater.{heater.id}.{name}")

    found: dict[str, str] = {}
    wrap = heater.face == "wrap"
    over = rig.drains[heater.on].insulation if wrap else heater.insulation
    if over > 0 and not heater.covered:
        found["foam-over"] = "stop"
    if heater.id not in rig.fed():
        found["unfed"] = "stop"
    if not_fitting(rig, heater, value):
        found["pad-fit"] = "stop"
    if value("to_outlet") is not None and value("to_outlet") > 12 * INCH + NEAR:
        found["pad-far"] = "note"
    limit = WALL_LIMIT if wrap else rig.tanks[heater.on].wall_limit
    if value("dry") is not None and value("dry") > limit:
        found["dry-hot"] = "note" if heater.thermostat else "use"
    if heater.thermostat and not wrap:
        if heater.thermostat.on < rig.design.hold - NEAR:
            found["thermostat-low"] = "use"
        if value("wall") is not None and value("wall") > heater.thermostat.off:
            found["thermostat-wall"] = "note"
    if wrap and heater.length < 0.9 * rig.drains[heater.on].length - NEAR:
        found["wrap-short"] = "use"
    return {f"{rule}:heater.{heater.id}": weight for rule, weight in found.items()}


def not_fitting(rig, heater, value):
    if heater.face == "bottom":
        return value("clearance") is None or value("clearance") < -NEAR
    if heater.face == "side":
        tank = rig.tanks[heater.on]
        upright, along = heater.width, heater.length
        if heater.turned:
            upright, along = along, upright
        return heater.foot + upright > tank.height + NEAR or along > max(tank.length, tank.width) + NEAR
    drain = rig.drains[heater.on]
    return heater.length > drain.length + NEAR or heater.width > math.pi * drain.outside + NEAR


def of_supply(rig, figures):
    found: dict[str, str] = {}
    supply = rig.supply
    nights, share = figures.get("supply.nights"), figures.get("supply.converter")
    if nights is not None and nights < rig.nights:
        found["battery"] = "use"
    if share is not None and share > 0.8 + NEAR:
        found["converter"] = "use"
    celsius = rig.weather.mean if supply.battery is None else supply.battery
    if supply.chemistry == "lithium" and celsius < 0:
        found["lithium-cold"] = "note" if supply.battery is None else "use"
    if supply.cutoff is not None and supply.volts <= supply.cutoff + 0.2 + NEAR:
        found["cutoff"] = "use"
    if supply.other is None:
        found["other-none"] = "note"
    return {f"{rule}:supply": weight for rule, weight in found.items()}

"""Drain legs: a full pipe in air, its own heater, how far the tank's warmth reaches into it."""

import math

from tests.independent.heat import EDGES, outdoors_where, surroundings
from tests.independent.numbers import AIR, DENSITY, HEAT, LATENT, WATER_CONDUCTIVITY, between


def outer_diameter(drain):
    return drain.outside + 2 * drain.insulation


def pipe_film(rig, drain):
    """At the design low. [W/m²K]"""
    wind, across = rig.design.wind, outer_diameter(drain)
    if drain.place != "open":
        return 8.0
    if wind < 0.5:
        return 9.0
    mean = (rig.design.hold + rig.weather.steady_low) / 2
    viscosity, conductivity, prandtl = (between([(row[0], row[n]) for row in AIR], mean) for n in (1, 2, 3))
    reynolds = wind * across / viscosity
    bracket = (1 + (0.4 / prandtl) ** (2 / 3)) ** 0.25
    nusselt = (
        0.3
        + 0.62
        * math.sqrt(reynolds)
        * prandtl ** (1 / 3)
        / bracket
        * (1 + (reynolds / 282000) ** (5 / 8)) ** 0.8
    )
    return nusselt * conductivity / across + 4


def resistances(rig, drain):
    """(pipe, insulation and film) of one metre. [m·K/W]"""
    pipe = math.log(drain.outside / drain.inside) / (2 * math.pi * drain.wall_conductivity)
    foam = math.log(outer_diameter(drain) / drain.outside) / (2 * math.pi * drain.conductivity)
    return pipe, foam + 1 / (math.pi * outer_diameter(drain) * pipe_film(rig, drain))


def share(rig, drain):
    """η of a wrap."""
    pipe, outward = resistances(rig, drain)
    return outward / (0.003 / (math.pi * drain.inside) + pipe + outward)


def holds_to(rig, drain, watts, scale=1.0):
    heat = sum(share(rig, drain) * watts[one.id] for one in rig.on(drain.id))
    wanted = rig.design.hold - heat * sum(resistances(rig, drain)) * scale / drain.length
    return outdoors_where(lambda outdoors: surroundings(rig, drain.place, outdoors), wanted)


def needed(rig, drain, scale=1.0):
    """Heat that holds it at the design low. [W]"""
    air = surroundings(rig, drain.place, rig.weather.steady_low)
    return (rig.design.hold - air) * drain.length / (sum(resistances(rig, drain)) * scale)


def hours(rig, drain, scale=1.0):
    """(to ice, from there to solid), None where there is none. [h]"""
    air = surroundings(rig, drain.place, rig.weather.steady_low)
    if air >= 0:
        return None, None
    per_kelvin = DENSITY * math.pi / 4 * drain.inside**2 * sum(resistances(rig, drain)) * scale / 3600
    return per_kelvin * HEAT * math.log((rig.design.hold - air) / -air), per_kelvin * LATENT / -air


def reach(rig, drain):
    """Depth at which one tenth of the excess is left, by halving; None beyond its length. [m]"""
    area = math.pi / 4 * drain.inside**2
    m = 1 / math.sqrt(sum(resistances(rig, drain)) * WATER_CONDUCTIVITY * area)

    def left(x):
        return math.cosh(m * (drain.length - x)) / math.cosh(m * drain.length)

    if left(drain.length) > 0.1:
        return None
    low, high = 0.0, drain.length
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if left(middle) > 0.1 else (low, middle)
    return high


def drain_figures(rig, drain, watts):
    to_ice, to_solid = hours(rig, drain)
    edges = [hours(rig, drain, scale) for scale in EDGES]
    figures = {
        "holds_to": holds_to(rig, drain, watts),
        "holds_to.band": [holds_to(rig, drain, watts, scale) for scale in EDGES],
        "hours_to_ice": to_ice,
        "hours_to_ice.band": [edge[0] for edge in edges],
        "hours_to_solid": to_solid,
        "hours_to_solid.band": [edge[1] for edge in edges],
        "reach": reach(rig, drain),
    }
    return {f"drain.{drain.id}.{name}": value for name, value in figures.items()}

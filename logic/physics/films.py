"""Films of air on walls and pipes, still and in wind. [W/m²K]

What a layer of a wall resists stands with the wall (`tank_heat.py`, `drain_leg.py`); here is only the air
outside.
"""

from functools import lru_cache
from math import isfinite, sqrt

import msgspec

from logic.data.constants import (
    CROSSFLOW_FACTOR,
    CROSSFLOW_LEAST,
    CROSSFLOW_PRANDTL,
    CROSSFLOW_REYNOLDS,
    PIPE_RADIATION,
    PIPE_STILL_FILM,
    PIPE_STILL_TO,
    WIND_CALM,
    WIND_LINEAR_TO,
    WIND_POWER,
    WIND_POWER_FACTOR,
    WIND_SLOPE,
)
from logic.data.tables import course


class Air(msgspec.Struct, frozen=True):
    """Air at 1 atm."""

    viscosity: float  # kinematic, m²/s
    conductivity: float  # W/m/K
    prandtl: float


@lru_cache(maxsize=64)
def outer_film_in_wind(wind: float) -> float:
    """Outer film of a face in moving air, convection and radiation together. [W/m²K]

    wind : air speed past the face, ≥ 0. [m/s]      Raises ValueError: negative, not finite.
    Valid 0–45 m/s. The greater of the source's two branches: as printed the second falls 8 % below the first
    at 5 m/s, which would make more wind warm; so the film stands still from 5 to 5.57 m/s.
    Source `mcadams-1954` (MEMORY), 3rd ed., forms given in SI. Uncertainty: in the caller's band on G.
    """
    _check_speed(wind)
    linear = WIND_CALM + WIND_SLOPE * min(wind, WIND_LINEAR_TO)
    return float(max(linear, WIND_POWER_FACTOR * wind**WIND_POWER))


def air_at(degc: float) -> Air:
    """Air's properties, linear between the rows of the table and held constant beyond its ends.

    degc : the film's temperature. [°C]
    Table −40…20 °C, within 0.2 % between its rows. Source `coolprop-air` (COMPUTED).
    """
    return Air(
        viscosity=interpolated("air", "viscosity", degc),
        conductivity=interpolated("air", "conductivity", degc),
        prandtl=interpolated("air", "prandtl", degc),
    )


def interpolated(table: str, key: str, degc: float) -> float:
    """A series at a temperature, linear between its rows and held constant beyond its ends. [its own unit]"""
    at, values = course(table, key)
    if degc <= at[0]:
        return values[0]
    for left in range(len(at) - 1):
        if degc < at[left + 1]:
            share = (degc - at[left]) / (at[left + 1] - at[left])
            return values[left] + share * (values[left + 1] - values[left])
    return values[-1]


def crossflow_nusselt(reynolds: float, prandtl: float) -> float:
    """Mean Nusselt number of a cylinder across the flow. [1]

    reynolds, prandtl : at the film's temperature, on the outside diameter, > 0; their product over 0.2.
    Source `churchill-bernstein-1977`, properties at film temperature. Uncertainty 20 % by the authors: in
    the band.
    """
    pe_term = CROSSFLOW_FACTOR * sqrt(reynolds) * prandtl ** (1 / 3)
    pe_term /= (1 + (CROSSFLOW_PRANDTL / prandtl) ** (2 / 3)) ** 0.25
    return float(CROSSFLOW_LEAST + pe_term * (1 + (reynolds / CROSSFLOW_REYNOLDS) ** (5 / 8)) ** (4 / 5))


def pipe_film_in_wind(wind: float, *, diameter: float, film_degc: float) -> float:
    """Film on a pipe lying across the wind, convection and radiation. [W/m²K]

    wind : ≥ 0 [m/s]; under 0.5 m/s the still film, 9 W/m²K in all, stands. diameter : of the outside, the
    insulation's where there is some [m]. film_degc : mean of the pipe's and the air's temperature [°C].
    Raises ValueError: a wind that is negative or not finite.
    Sources `churchill-bernstein-1977`, `practice-pipe-film`.
    """
    _check_speed(wind)
    if wind < PIPE_STILL_TO:
        return PIPE_STILL_FILM
    air = air_at(film_degc)
    nusselt = crossflow_nusselt(wind * diameter / air.viscosity, air.prandtl)
    return nusselt * air.conductivity / diameter + PIPE_RADIATION


def _check_speed(wind: float) -> None:
    if not isfinite(wind) or wind < 0:
        raise ValueError(f"an air speed of {wind} m/s")

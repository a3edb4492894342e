"""A drain leg: a full pipe in air, a heater round it or none, and the reach of the tank's warmth."""

from math import acosh, cosh, log, pi, sqrt

import msgspec

from logic.data.constants import (
    LATENT_HEAT,
    LIQUID_FILM,
    REACH_SHARE,
    WATER_CONDUCTIVITY,
    WATER_DENSITY,
    WATER_HEAT,
)
from logic.physics.tank_heat import NEARLY_FREEZING

LONG_FIN = 300.0
"""Where m·L is more, cosh would overflow and a fin is as good as endless. [1]"""


class Leg(msgspec.Struct, frozen=True):
    """A pipe full of water. SI"""

    outside: float
    inside: float  # > 0, < outside
    wall_conductivity: float
    insulation: float  # thickness
    conductivity: float  # of the insulation
    film: float  # on its outside, W/m²K

    @property
    def across(self) -> float:
        """Outside diameter with its insulation. [m]"""
        return self.outside + 2 * self.insulation

    @property
    def bore(self) -> float:
        """Area of the water. [m²]"""
        return pi / 4 * self.inside**2


def wall_resistance(leg: Leg) -> float:
    """Of the pipe's wall, for a metre of it. [m·K/W]"""
    return log(leg.outside / leg.inside) / (2 * pi * leg.wall_conductivity)


def outward_resistance(leg: Leg) -> float:
    """From the pipe's outside to the air: insulation and film, for a metre. [m·K/W]"""
    lagging = log(leg.across / leg.outside) / (2 * pi * leg.conductivity) if leg.insulation > 0 else 0.0
    return lagging + 1 / (pi * leg.across * leg.film)


def inward_resistance(leg: Leg) -> float:
    """From the pipe's outside to the water: wall and liquid film, for a metre. [m·K/W]"""
    return LIQUID_FILM / (pi * leg.inside) + wall_resistance(leg)


def resistance(leg: Leg) -> float:
    """From the water's edge to the air, for a metre: R' of the freezing times. [m·K/W]

    Wall, insulation and film; the liquid's own film is left out, which errs on the cold side by under 2 %.
    Source `ashrae-pipe-insulation` (there with insulation alone).
    """
    return wall_resistance(leg) + outward_resistance(leg)


def share_inward(leg: Leg) -> float:
    """Share of a wrapped heater's power that reaches the water. [1]"""
    return outward_resistance(leg) / (inward_resistance(leg) + outward_resistance(leg))


def seconds_to_ice(leg: Leg, per_metre: float, *, from_degc: float, air_degc: float) -> float | None:
    """Until the water reaches 0 °C, still and without heat; None: it never does. [s]

    per_metre : R', which a band may have scaled [m·K/W]. Source `ashrae-pipe-insulation`, eq. 1, with R' as
    above.
    """
    if air_degc > -NEARLY_FREEZING:
        return None
    return WATER_DENSITY * WATER_HEAT * leg.bore * per_metre * log((from_degc - air_degc) / -air_degc)


def seconds_to_solid(leg: Leg, per_metre: float, *, air_degc: float) -> float | None:
    """From 0 °C until all is ice; None: never. [s]

    The growing ice's own resistance is left out, which errs on the cold side; small beside insulation.
    """
    if air_degc > -NEARLY_FREEZING:
        return None
    return WATER_DENSITY * LATENT_HEAT * leg.bore * per_metre / -air_degc


def holds_to(per_metre: float, *, delivered: float, length: float, hold_degc: float) -> float:
    """The air round the leg down to which a heat holds it. [°C]

    Solves delivered = (hold − T) · length / R'. delivered : reaching the water of the whole leg [W].
    """
    return hold_degc - delivered * per_metre / length


def fin_rate(leg: Leg) -> float:
    """m of the fin: how fast the excess over the surroundings fades along the stub. [1/m]"""
    return sqrt(1 / (resistance(leg) * WATER_CONDUCTIVITY * leg.bore))


def reach(leg: Leg, length: float) -> float | None:
    """Depth at which the excess is down to one tenth, in a stub closed at its end; None: not within it. [m]

    Solves cosh(m(L − x)) = cosh(mL)/10 exactly. Stirring in the stub is left out: the advice that hangs on
    it is safe, the number an estimate. Source `textbook-fin`.
    """
    rate = fin_rate(leg)
    whole = rate * length
    if whole > LONG_FIN:
        return -log(REACH_SHARE) / rate
    left = REACH_SHARE * cosh(whole)
    if left < 1:
        return None
    return length - acosh(left) / rate

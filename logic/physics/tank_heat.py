"""What a tank loses and what its pads give: conductances by face, effective temperature, shares, hours.

The lumped balance is C dT/dt = −G (T − T_eff) + Σ η P. Its course in time is `cold_spell.py`'s; here are the
steady answers and those with closed forms. Shapes and levels come from `tank_shapes.py`.
"""

from math import log

import msgspec

from logic.data.constants import (
    HEAD_SPACE,
    INDOOR_FLOOR_FILM,
    LATENT_HEAT,
    LIQUID_FILM,
    WATER_DENSITY,
    WATER_HEAT,
)
from logic.physics.tank_shapes import Shape, faces

NEARLY_FREEZING = 1e-9
"""Surroundings above minus this count as not freezing: below it only rounding speaks. [K]"""


class PadCover(msgspec.Struct, frozen=True):
    """What a pad does to the face that it lies on."""

    face: str  # bottom | side
    area: float  # m²
    insulation: float  # over its back, m²K/W


class Build(msgspec.Struct, frozen=True):
    """What a tank is made of and packed in."""

    wall: float  # resistance of the wall, m²K/W
    insulation: float  # on sides and bottom, m²K/W
    top_insulation: float
    floor: float  # between the top and the cabin, m²K/W
    under_cabin: bool  # the top looks at the cabin; else at what the sides look at
    pads: tuple[PadCover, ...] = ()


class Conductances(msgspec.Struct, frozen=True):
    """Of a tank, by face. W/K"""

    bottom: float
    wet: float
    dry: float
    top: float

    @property
    def whole(self) -> float:
        """All faces together. [W/K]"""
        return self.bottom + self.wet + self.dry + self.top


class Around(msgspec.Struct, frozen=True):
    """What a tank's sides look at, as it follows the air outside: base + share × T_out. °C, 1"""

    base_degc: float
    share: float

    def at(self, out_degc: float) -> float:
        """At a temperature outdoors. [°C]"""
        return self.base_degc + self.share * out_degc


def conductances(shape: Shape, level: float, *, build: Build, outer_film: float) -> Conductances:
    """Conductances of a tank's faces at an inside level. [W/K]

    level : inside level of the liquid [m]. outer_film : on all faces but a top under the cabin [W/m²K].
    Bottom, wet and dry sides and top of `tank_shapes.faces`, each A/R with R = inner + wall + insulation +
    outer. A pad's own insulation takes the place of the face's, up to the area that there is, in the order
    of `pads`. A full tank keeps the resistance of its head space. Source `job-heat` (the model's own),
    films by their ids.
    """
    area = faces(shape, level)
    outer = 1 / outer_film
    inner = LIQUID_FILM + build.wall + outer
    bottom_left, wet_left = area.bottom, area.wet
    shell_left = area.wet_shell
    bottom = wet = 0.0
    for pad in build.pads:
        if pad.face == "side":
            covered = min(pad.area, wet_left)
            wet_left -= covered
            wet += covered / (inner + pad.insulation)
        elif shape.kind == "cylinder":
            covered = min(pad.area, shell_left, wet_left)
            shell_left -= covered
            wet_left -= covered
            wet += covered / (inner + pad.insulation)
        else:
            covered = min(pad.area, bottom_left)
            bottom_left -= covered
            bottom += covered / (inner + pad.insulation)
    above = build.floor + INDOOR_FLOOR_FILM if build.under_cabin else outer
    return Conductances(
        bottom=bottom + bottom_left / (inner + build.insulation),
        wet=wet + wet_left / (inner + build.insulation),
        dry=area.dry / (HEAD_SPACE + build.wall + build.insulation + outer),
        top=area.top / (HEAD_SPACE + build.wall + build.top_insulation + above),
    )


def effective(part: Conductances, *, under_cabin: bool, cabin_degc: float, around: Around) -> Around:
    """The temperature that the contents drift to without heat, as it follows the air outside. [°C]

    T_eff = Σ G_i T_i / G: the top at the cabin's temperature where it lies under it, all else at `around`.
    """
    whole = part.whole
    indoors = part.top / whole if under_cabin else 0.0
    outdoors = (part.bottom + part.wet + part.dry + (0.0 if under_cabin else part.top)) / whole
    return Around(indoors * cabin_degc + outdoors * around.base_degc, outdoors * around.share)


def share_inward(inward: float, outward: float) -> float:
    """Share of a bonded heater's power that reaches the liquid, R_out/(R_in + R_out): 0 to 1. [1]"""
    return outward / (inward + outward)


def inward_resistance(wall: float) -> float:
    """From a pad to the liquid: wall and liquid film. [m²K/W]"""
    return LIQUID_FILM + wall


def outward_resistance(insulation: float, outer_film: float) -> float:
    """From a pad to its surroundings. [m²K/W]"""
    return insulation + 1 / outer_film


def needed(conductance: float, *, hold_degc: float, effective_degc: float) -> float:
    """Heat into the liquid that holds it, never below 0. [W]"""
    return max(conductance * (hold_degc - effective_degc), 0.0)


def holds_to(conductance: float, *, delivered: float, hold_degc: float, follows: Around) -> float | None:
    """The air outside down to which a heat holds the contents; None where they don't follow it. [°C]

    Solves delivered = G (hold − T_eff(T_out)) exactly; `follows` is T_eff's course. [W, °C]
    """
    if follows.share <= 0:
        return None
    return (hold_degc - delivered / conductance - follows.base_degc) / follows.share


def seconds_to_ice(
    conductance: float, *, mass: float, from_degc: float, effective_degc: float
) -> float | None:
    """Until the contents reach 0 °C without heat; None: they never do, or there are none. [s]

    conductance [W/K], mass [kg], from_degc > 0 [°C]. Exact: C/G ln((T − T_eff)/(0 − T_eff)).
    """
    if mass <= 0 or effective_degc > -NEARLY_FREEZING:
        return None
    return mass * WATER_HEAT / conductance * log((from_degc - effective_degc) / -effective_degc)


def seconds_to_solid(conductance: float, *, mass: float, effective_degc: float) -> float | None:
    """From 0 °C, all liquid, until all is ice, without heat; None: never, or no contents. [s]"""
    if mass <= 0 or effective_degc > -NEARLY_FREEZING:
        return None
    return mass * LATENT_HEAT / (conductance * -effective_degc)


def seconds_to_thaw(
    conductance: float, *, mass: float, delivered: float, effective_degc: float
) -> float | None:
    """From all ice at 0 °C until all is liquid, heaters on; None: no heat left for it, or no contents. [s]"""
    left = delivered - conductance * (0.0 - effective_degc)
    if mass <= 0 or left <= 0:
        return None
    return mass * LATENT_HEAT / left


def mass_of(volume: float) -> float:
    """Of contents taken as water. [kg]  volume [m³]"""
    return WATER_DENSITY * volume

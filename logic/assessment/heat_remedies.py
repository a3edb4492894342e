"""What would mend a lack of heat, in numbers: watts, foam, a lower limit of use.

Remedies are first answers for the person who reads them, not a design: each changes one thing alone.
"""

from collections.abc import Callable

import msgspec

from logic.assessment.drain_case import DrainInputs
from logic.assessment.tank_case import losses
from logic.assessment.tank_inputs import TankInputs
from logic.data.constants import FOAM_CONDUCTIVITY
from logic.data.wording import Quantity, Words, at_least, quantity, words
from logic.physics import drain_leg, tank_heat
from logic.physics.films import pipe_film_in_wind

replace = msgspec.structs.replace

MOST_FOAM = 0.1524
"""The thickest foam that is worth naming: 6 in. [m]"""

FOAM_STEP = 0.003175
"""Thicknesses are named in steps of 1/8 in, rounded up. [m]"""


def pad_share(inputs: TankInputs) -> float:
    """Share of a further pad's power: as the first pad's; without one, of a pad with nothing over it. [1]"""
    over = inputs.pads[0].insulation if inputs.pads else 0.0
    outward = tank_heat.outward_resistance(over, inputs.film)
    return tank_heat.share_inward(tank_heat.inward_resistance(inputs.wall), outward)


def watts_more(inputs: TankInputs, heat_lacking: float) -> float:
    """Electrical watts at the pads that bring a heat into the liquid. [W]"""
    return heat_lacking / pad_share(inputs)


def foam_to_hold(inputs: TankInputs, *, level: float, delivered: float) -> float | None:
    """Foam on sides and bottom, pads left uncovered, with which the heat holds; None: none does. [m]"""

    def lacking(thickness: float) -> float:
        padded = replace(inputs, insulation=inputs.insulation + thickness / FOAM_CONDUCTIVITY)
        parts, follows = losses(padded, level, padded.film)
        effective = follows.at(padded.low_degc)
        return tank_heat.needed(parts.whole, hold_degc=padded.hold_degc, effective_degc=effective) - delivered

    return _least_thickness(lacking)


def lag_to_outlast(inputs: DrainInputs, *, wind: float | None, seconds: float) -> float | None:
    """Foam round a drain with which it freezes no sooner than after a time; None: none does. [m]

    wind : at the drain in the open, where the film hangs on the lagged diameter; None in still air. [m/s]
    """

    def lacking(thickness: float) -> float:
        insulation = max(thickness, inputs.leg.insulation)
        film = inputs.leg.film
        if wind is not None:
            across = inputs.leg.outside + 2 * insulation
            film = pipe_film_in_wind(
                wind, diameter=across, film_degc=(inputs.hold_degc + inputs.low_degc) / 2
            )
        leg = replace(inputs.leg, insulation=insulation, film=film)
        air = inputs.surroundings.at(inputs.low_degc)
        held = drain_leg.seconds_to_ice(
            leg, drain_leg.resistance(leg), from_degc=inputs.hold_degc, air_degc=air
        )
        return 0.0 if held is None else seconds - held

    return _least_thickness(lacking)


def drain_watts(inputs: DrainInputs) -> float:
    """Watts round a drain that hold it at the design low, the share that goes outward included. [W]"""
    air = inputs.surroundings.at(inputs.low_degc)
    lost = max(inputs.hold_degc - air, 0.0) * inputs.length / drain_leg.resistance(inputs.leg)
    return lost / drain_leg.share_inward(inputs.leg)


def _least_thickness(lacking: Callable[[float], float]) -> float | None:
    """The least thickness, in whole steps, at which nothing lacks, for a lack that falls with it. [m]"""
    none, enough = 0, round(MOST_FOAM / FOAM_STEP)
    if lacking(enough * FOAM_STEP) > 0:
        return None
    while enough - none > 1:
        middle = (none + enough) // 2
        if lacking(middle * FOAM_STEP) > 0:
            none = middle
        else:
            enough = middle
    return enough * FOAM_STEP


def more_heat_words(inputs: TankInputs, *, level: float, delivered: float, lacking: float) -> Words:
    """Watts more, or foam, or a limit of use for a tank that its heaters don't hold."""
    parts: dict[str, Quantity | str] = {"watts": at_least(watts_more(inputs, lacking), "power")}
    template = "{watts} more at its pads"
    foam = foam_to_hold(inputs, level=level, delivered=delivered)
    if foam is not None:
        template += ", or {foam} of foam board on sides and bottom, off the pads unless their sheet allows it"
        parts["foam"] = at_least(foam, "length")
    else:
        template += ", for no foam up to {most} is enough by itself"
        parts["most"] = quantity(MOST_FOAM, "length")
    return Words(template, tuple(parts.items()))


def limit_of_use_words(holds_to_degc: float | None) -> Words:
    """Down to where it may be used as it is."""
    if holds_to_degc is None:
        return words("or empty in the cold")
    return words("or not below {low} outdoors", low=at_least(holds_to_degc, "temperature"))


def joined(*several: Words) -> Words:
    """Sentences one after the other; their parts are renamed where two have one name."""
    template, parts = "", []
    for number, each in enumerate(several):
        text = each.template
        for name, value in each.parts:
            text = text.replace(f"{{{name}}}", f"{{{name}{number}}}")
            parts.append((f"{name}{number}", value))
        template += (", " if template else "") + text
    return Words(template, tuple(parts))

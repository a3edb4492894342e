"""One heater's heat from a profile: its share into the liquid, and how hot its wall becomes."""

import msgspec

from logic.assessment.drain_case import drain_inputs
from logic.assessment.nudge import Variant
from logic.assessment.surroundings import around, film_of
from logic.data.profile import Drain, Heater, Tank
from logic.physics import drain_leg, pad_contact, tank_heat


class HeaterHeat(msgspec.Struct, frozen=True):
    """A heater's heat. SI and °C; None where there is no such figure."""

    density: float  # rated
    testing: float  # density at `charging`, no drop in the wires
    serving: float | None  # density at its real volts; None: unfed
    inward: float  # resistance to the liquid: of an area for a pad, of a metre for a wrap
    outward: float
    share: float
    wall: float | None  # None: a wrap, or unfed
    bare: float | None  # None: unfed
    dry: float | None
    wall_alone: float  # resistance of the wall, m²K/W
    over: float  # insulation over it, m²K/W
    around_degc: float  # its place at the design low


def heater_heat(variant: Variant, heater_id: str) -> HeaterHeat:
    """A heater's heat in a variant of the case."""
    profile = variant.profile
    heater = next(each for each in profile.heaters if each.id == heater_id)
    for tank in profile.tanks:
        if tank.id == heater.on:
            return _on_tank(variant, heater, tank)
    return _on_drain(variant, heater, next(drain for drain in profile.drains if drain.id == heater.on))


def _density(heater: Heater, volts: float) -> float:
    return pad_contact.density(
        heater.watts, volts=volts, rated_volts=heater.volts, length=heater.length, width=heater.width
    )


def _on_tank(variant: Variant, heater: Heater, tank: Tank) -> HeaterHeat:
    design, supply = variant.profile.design, variant.profile.supply
    wall = tank.wall / tank.wall_conductivity
    inward = tank_heat.inward_resistance(wall)
    outward = tank_heat.outward_resistance(heater.insulation, film_of(tank.place, design.wind))
    around_degc = around(variant.profile, tank.place, tops=variant.tops).at(design.low_degc)
    volts = variant.volts.get(heater.id)
    testing = _density(heater, supply.charging)
    serving = None if volts is None else _density(heater, volts)
    return HeaterHeat(
        density=_density(heater, heater.volts),
        testing=testing,
        serving=serving,
        inward=inward,
        outward=outward,
        share=tank_heat.share_inward(inward, outward),
        wall=None
        if serving is None
        else pad_contact.wall_degc(
            serving, contents_degc=design.hold_degc, around_degc=around_degc, inward=inward, outward=outward
        ),
        bare=None if volts is None else pad_contact.bare_degc(testing, design.warm_degc),
        dry=None
        if volts is None
        else pad_contact.dry_degc(testing, design.warm_degc, wall=wall, insulation=heater.insulation),
        wall_alone=wall,
        over=heater.insulation,
        around_degc=around_degc,
    )


def _on_drain(variant: Variant, heater: Heater, drain: Drain) -> HeaterHeat:
    design, supply = variant.profile.design, variant.profile.supply
    inputs = drain_inputs(variant, drain)
    wall = (drain.outside - drain.inside) / 2 / drain.wall_conductivity
    over = drain.insulation / drain.conductivity
    volts = variant.volts.get(heater.id)
    testing = _density(heater, supply.charging)
    return HeaterHeat(
        density=_density(heater, heater.volts),
        testing=testing,
        serving=None if volts is None else _density(heater, volts),
        inward=drain_leg.inward_resistance(inputs.leg),
        outward=drain_leg.outward_resistance(inputs.leg),
        share=drain_leg.share_inward(inputs.leg),
        wall=None,
        bare=None if volts is None else pad_contact.bare_degc(testing, design.warm_degc),
        dry=None
        if volts is None
        else pad_contact.dry_degc(testing, design.warm_degc, wall=wall, insulation=over),
        wall_alone=wall,
        over=over,
        around_degc=inputs.surroundings.at(design.low_degc),
    )

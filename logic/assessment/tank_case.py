"""One tank's heat: every steady result with the edges of its band.

Memoised by its inputs alone, so that a reading recomputes only the tank that it belongs to. Figures,
findings and the supply's account read from here; none of them computes heat by itself.
"""

from functools import lru_cache

import msgspec

from logic.assessment.tank_inputs import TankInputs, TankPad
from logic.data.constants import CONDUCTANCE_BAND, LEAST_COVER
from logic.physics import tank_heat, tank_shapes
from logic.physics.tank_heat import Around, Build, Conductances, PadCover

EDGES = (1.0, 1.0 - CONDUCTANCE_BAND, 1.0 + CONDUCTANCE_BAND)
"""By what G is multiplied: as it stands, and at the two edges of the band."""


SAME_LEVEL = 1e-9
"""Levels closer than this are one: only rounding tells them apart. [m]"""


class Banded(msgspec.Struct, frozen=True):
    """A result, and what it is with G at the edges of its band; None: never, or nothing to tell."""

    value: float | None
    weak: float | None  # G × 0.75
    strong: float | None  # G × 1.25


class TankHeat(msgspec.Struct, frozen=True):
    """Every steady result of a tank. SI and °C."""

    volume: float
    volume_outside: float
    contents: float  # m³
    contents_level: float
    conductance: Conductances
    follows: Around  # T_eff as the air outdoors goes
    effective_degc: float  # at the design low
    shares: tuple[float, ...]  # η of each pad
    delivered: float
    needed: Banded
    holds_to: Banded
    to_ice: Banded  # s
    to_solid: Banded
    to_thaw: Banded
    least_level: float | None
    least: float | None  # m³
    least_fault: str  # pads | place | brim: why there is none; empty: there is one
    least_asked: float | None  # the level that it would take, brim or not
    to_ice_least: Banded
    towing: Banded
    towing_share: float | None  # η of the first pad on the road


def build_of(inputs: TankInputs) -> Build:
    """The tank's layers, and its pads as cover."""
    return Build(
        wall=inputs.wall,
        insulation=inputs.insulation,
        top_insulation=inputs.top_insulation,
        floor=inputs.floor,
        under_cabin=inputs.under_cabin,
        pads=tuple(PadCover(pad.face, pad.area, pad.insulation) for pad in inputs.pads),
    )


def losses(inputs: TankInputs, level: float, film: float) -> tuple[Conductances, Around]:
    """Conductances at a level and in a film, and what the contents drift to as the air outdoors goes."""
    parts = tank_heat.conductances(inputs.shape, level, build=build_of(inputs), outer_film=film)
    follows = tank_heat.effective(
        parts, under_cabin=inputs.under_cabin, cabin_degc=inputs.cabin_degc, around=inputs.surroundings
    )
    return parts, follows


def _delivered(inputs: TankInputs, film: float) -> tuple[tuple[float, ...], float]:
    inward = tank_heat.inward_resistance(inputs.wall)
    shares = tuple(
        tank_heat.share_inward(inward, tank_heat.outward_resistance(pad.insulation, film))
        for pad in inputs.pads
    )
    return shares, sum(share * (pad.watts or 0.0) for share, pad in zip(shares, inputs.pads, strict=True))


def _over_band(conductance: float, result) -> Banded:
    return Banded(*(result(conductance * edge) for edge in EDGES))


@lru_cache(maxsize=1024)
def tank_results(inputs: TankInputs) -> TankHeat:
    """Every steady result of a tank whose shape is possible."""
    shape = inputs.shape
    hold, low = inputs.hold_degc, inputs.low_degc
    volume = tank_shapes.inside_volume(shape)
    contents = inputs.fill * volume
    level = tank_shapes.level_of(shape, contents)
    parts, follows = losses(inputs, level, inputs.film)
    shares, delivered = _delivered(inputs, inputs.film)
    effective = follows.at(low)
    mass = tank_heat.mass_of(contents)
    least_asked, fault = _least_level(inputs)
    least_level = least_asked if not fault else None
    towing, towing_share = _on_the_road(inputs, level)
    return TankHeat(
        volume=volume,
        volume_outside=tank_shapes.outside_rule(shape),
        contents=contents,
        contents_level=level,
        conductance=parts,
        follows=follows,
        effective_degc=effective,
        shares=shares,
        delivered=delivered,
        needed=_over_band(
            parts.whole, lambda g: tank_heat.needed(g, hold_degc=hold, effective_degc=effective)
        ),
        holds_to=_over_band(
            parts.whole,
            lambda g: tank_heat.holds_to(g, delivered=delivered, hold_degc=hold, follows=follows),
        ),
        to_ice=_to_ice(parts.whole, mass=mass, hold_degc=hold, effective_degc=effective),
        to_solid=_over_band(
            parts.whole, lambda g: tank_heat.seconds_to_solid(g, mass=mass, effective_degc=effective)
        ),
        to_thaw=_over_band(parts.whole, lambda g: _to_thaw(inputs, g, mass, delivered, effective)),
        least_level=least_level,
        least=None if least_level is None else tank_shapes.volume_at(shape, least_level),
        least_fault=fault,
        least_asked=least_asked,
        to_ice_least=_to_ice_least(inputs, least_level),
        towing=towing,
        towing_share=towing_share,
    )


def _to_ice(conductance: float, *, mass: float, hold_degc: float, effective_degc: float) -> Banded:
    return _over_band(
        conductance,
        lambda g: tank_heat.seconds_to_ice(g, mass=mass, from_degc=hold_degc, effective_degc=effective_degc),
    )


def _to_thaw(
    inputs: TankInputs, conductance: float, mass: float, delivered: float, effective_degc: float
) -> float | None:
    if not inputs.pads:  # one that no run feeds counts as 0 W
        return None
    return tank_heat.seconds_to_thaw(
        conductance, mass=mass, delivered=delivered, effective_degc=effective_degc
    )


def _to_ice_least(inputs: TankInputs, level: float | None) -> Banded:
    """Little water freezes first: G and mass at the least level."""
    if level is None:
        return Banded(None, None, None)
    parts, follows = losses(inputs, level, inputs.film)
    mass = tank_heat.mass_of(tank_shapes.volume_at(inputs.shape, level))
    effective = follows.at(inputs.low_degc)
    return _to_ice(parts.whole, mass=mass, hold_degc=inputs.hold_degc, effective_degc=effective)


def _least_level(inputs: TankInputs) -> tuple[float | None, str]:
    """The least inside level before the heaters may be on, and why there is none."""
    if not inputs.pads:
        return None, "pads"
    levels = []
    for pad in inputs.pads:
        if pad.face == "side":
            levels.append(pad.foot + pad.upright + LEAST_COVER)
        elif pad.place is None:
            return None, "place"
        else:
            place = pad.place
            under = tank_shapes.floor_under(inputs.shape, x=place.x, y=place.y, width=place.across)
            levels.append(under + LEAST_COVER)
    asked = max(levels)
    return asked, "brim" if asked > inputs.shape.inside().height + SAME_LEVEL else ""


def _on_the_road(inputs: TankInputs, level: float) -> tuple[Banded, float | None]:
    film = inputs.towing_film
    if film is None:
        return Banded(None, None, None), None
    parts, follows = losses(inputs, level, film)
    shares, delivered = _delivered(inputs, film)
    return _over_band(
        parts.whole,
        lambda g: tank_heat.holds_to(g, delivered=delivered, hold_degc=inputs.hold_degc, follows=follows),
    ), (shares[0] if shares else None)


# --- the spell ---


def fed_pads(inputs: TankInputs) -> tuple[tuple[TankPad, float], ...]:
    """The pads that a run feeds, each with its share: those that the spell knows, in the profile's order."""
    shares = tank_results(inputs).shares
    return tuple(
        (pad, share) for pad, share in zip(inputs.pads, shares, strict=True) if pad.watts is not None
    )

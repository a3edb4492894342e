"""One drain leg's heat from a profile: what goes into it, and every result with the edges of its band."""

from functools import lru_cache

import msgspec

from logic.assessment.nudge import Variant
from logic.assessment.surroundings import OPEN, around
from logic.assessment.tank_case import Banded
from logic.data.constants import CONDUCTANCE_BAND, STILL_FILM
from logic.data.profile import Drain
from logic.physics import drain_leg
from logic.physics.drain_leg import Leg
from logic.physics.films import pipe_film_in_wind
from logic.physics.tank_heat import Around

EDGES = (1.0, 1.0 - CONDUCTANCE_BAND, 1.0 + CONDUCTANCE_BAND)
"""By what R' is multiplied: as it stands, and at the two edges of the band."""


class DrainInputs(msgspec.Struct, frozen=True, cache_hash=True):
    """All that a drain's heat hangs on."""

    leg: Leg
    length: float
    surroundings: Around
    low_degc: float  # outdoors
    hold_degc: float
    watts: tuple[float, ...]  # electrical, of each heater round it; 0 where unfed


class DrainHeat(msgspec.Struct, frozen=True):
    """Every result of a drain. SI and °C."""

    per_metre: float  # R'
    air_degc: float  # of its place, at the design low
    share: float  # η of a heater round it
    delivered: float
    holds_air: Banded  # air of its place that its heat holds down to
    holds_to: Banded  # the same, carried back outdoors
    to_ice: Banded
    to_solid: Banded
    reach: float | None


def leg_of(drain: Drain, *, film: float) -> Leg:
    """A drain as physics takes it."""
    return Leg(
        outside=drain.outside,
        inside=drain.inside,
        wall_conductivity=drain.wall_conductivity,
        insulation=drain.insulation,
        conductivity=drain.conductivity,
        film=film,
    )


def drain_inputs(variant: Variant, drain: Drain) -> DrainInputs:
    """What a drain's heat hangs on. Its film in wind is the design low's, at the mean of hold and air."""
    design = variant.profile.design
    surroundings = around(variant.profile, drain.place, tops=variant.tops)
    film = STILL_FILM
    if drain.place == OPEN:
        film = pipe_film_in_wind(
            design.wind,
            diameter=drain.outside + 2 * drain.insulation,
            film_degc=(design.hold_degc + design.low_degc) / 2,
        )
    watts = []
    for heater in variant.profile.heaters:
        if heater.on == drain.id:
            volts = variant.volts.get(heater.id)
            watts.append(0.0 if volts is None else heater.watts * (volts / heater.volts) ** 2)
    return DrainInputs(
        leg=leg_of(drain, film=film),
        length=drain.length,
        surroundings=surroundings,
        low_degc=design.low_degc,
        hold_degc=design.hold_degc,
        watts=tuple(watts),
    )


@lru_cache(maxsize=256)
def drain_results(inputs: DrainInputs) -> DrainHeat:
    """Every result of a drain whose sizes are possible."""
    leg, hold = inputs.leg, inputs.hold_degc
    per_metre = drain_leg.resistance(leg)
    share = drain_leg.share_inward(leg)
    delivered = share * sum(inputs.watts)
    air = inputs.surroundings.at(inputs.low_degc)
    rs = [per_metre * edge for edge in EDGES]
    holds = [drain_leg.holds_to(r, delivered=delivered, length=inputs.length, hold_degc=hold) for r in rs]
    return DrainHeat(
        per_metre=per_metre,
        air_degc=air,
        share=share,
        delivered=delivered,
        holds_air=Banded(*holds),
        holds_to=Banded(*(_outdoors(inputs.surroundings, degc) for degc in holds)),
        to_ice=Banded(*(drain_leg.seconds_to_ice(leg, r, from_degc=hold, air_degc=air) for r in rs)),
        to_solid=Banded(*(drain_leg.seconds_to_solid(leg, r, air_degc=air) for r in rs)),
        reach=drain_leg.reach(leg, inputs.length),
    )


def _outdoors(surroundings: Around, degc: float) -> float | None:
    """The air outdoors at which a place has a temperature; None where it doesn't follow."""
    if surroundings.share <= 0:
        return None
    return (degc - surroundings.base_degc) / surroundings.share

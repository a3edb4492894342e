"""One tank's heat from a profile: what goes into it, and every steady result with the edges of its band.

Memoised by its inputs alone, so that a reading recomputes only the tank that it belongs to. Figures,
findings and the supply's account read from here; none of them computes heat by itself.
"""

from functools import lru_cache

import msgspec

from logic.assessment.nudge import Variant
from logic.assessment.shared import NoPlace, Place
from logic.assessment.surroundings import OPEN, UNDER_CABIN, around, course_of, film_of
from logic.data.constants import CONDUCTANCE_BAND, LEAST_COVER
from logic.data.profile import Design, Heater, Tank
from logic.physics import tank_heat, tank_shapes
from logic.physics.cold_spell import TooManyEvents, cold_spell, start_state
from logic.physics.films import outer_film_in_wind
from logic.physics.spell_parts import Spell, SpellHeater, SpellState
from logic.physics.tank_heat import Around, Build, Conductances, PadCover
from logic.physics.tank_shapes import Shape
from logic.physics.weather import Course, scaled

EDGES = (1.0, 1.0 - CONDUCTANCE_BAND, 1.0 + CONDUCTANCE_BAND)
"""By what G is multiplied: as it stands, and at the two edges of the band."""


SAME_LEVEL = 1e-9
"""Levels closer than this are one: only rounding tells them apart. [m]"""


class Banded(msgspec.Struct, frozen=True):
    """A result, and what it is with G at the edges of its band; None: never, or nothing to tell."""

    value: float | None
    weak: float | None  # G × 0.75
    strong: float | None  # G × 1.25


class TankPad(msgspec.Struct, frozen=True):
    """A heater on a tank."""

    id: str
    face: str  # bottom | side
    length: float
    width: float
    upright: float  # side: extent upwards
    foot: float
    insulation: float
    watts: float | None  # electrical, at its real volts; None: unfed
    place: Place | None  # bottom pads
    on_degc: float | None
    off_degc: float | None

    @property
    def area(self) -> float:
        """[m²]"""
        return self.length * self.width


class TankInputs(msgspec.Struct, frozen=True, cache_hash=True):
    """All that a tank's heat hangs on."""

    shape: Shape
    wall: float  # resistance
    insulation: float
    top_insulation: float
    floor: float
    under_cabin: bool
    film: float
    towing_film: float | None
    surroundings: Around
    pads: tuple[TankPad, ...]
    fill: float
    hold_degc: float
    low_degc: float
    cabin_degc: float
    start_degc: float
    course: Course


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


def shape_of(tank: Tank) -> Shape:
    """A tank's outside as physics takes it."""
    return Shape(
        kind=tank.shape,
        length=tank.length,
        width=tank.width,
        height=tank.height,
        wall=tank.wall,
        bottom_length=tank.bottom_length or 0.0,
        bottom_width=tank.bottom_width or 0.0,
        fall=tank.fall or 0.0,
    )


def tank_inputs(variant: Variant, tank: Tank, *, heaters: tuple[Heater, ...] | None = None) -> TankInputs:
    """What a tank's heat hangs on, from a profile, the volts at its heaters and the places of its pads.

    heaters : those on it; left out: they are looked for.
    """
    if heaters is None:
        heaters = tuple(heater for heater in variant.profile.heaters if heater.on == tank.id)
    return _tank_inputs(
        tank,
        heaters,
        tuple(variant.volts.get(heater.id) for heater in heaters),
        tuple(variant.places.get(heater.id) for heater in heaters),
        variant.profile.design,
        around(variant.profile, tank.place, tops=variant.tops),
    )


@lru_cache(maxsize=2048)  # the same object for the same tank: a key that is quick to compare
def _tank_inputs(
    tank: Tank,
    heaters: tuple[Heater, ...],
    volts: tuple[float | None, ...],
    places: tuple[Place | NoPlace | None, ...],
    design: Design,
    surroundings: Around,
) -> TankInputs:
    towing = design.towing if tank.place == OPEN else None
    return TankInputs(
        shape=shape_of(tank),
        wall=tank.wall / tank.wall_conductivity,
        insulation=tank.insulation,
        top_insulation=tank.top_insulation,
        floor=tank.floor,
        under_cabin=tank.above == UNDER_CABIN,
        film=film_of(tank.place, design.wind),
        towing_film=None if towing is None else outer_film_in_wind(towing),
        surroundings=surroundings,
        pads=tuple(_pad(*each) for each in zip(heaters, volts, places, strict=True)),
        fill=tank.fill,
        hold_degc=design.hold_degc,
        low_degc=design.low_degc,
        cabin_degc=design.cabin_degc,
        start_degc=design.start_degc,
        course=course_of(design),
    )


def _pad(heater: Heater, volts: float | None, place: Place | NoPlace | None) -> TankPad:
    thermostat = heater.thermostat
    return TankPad(
        id=heater.id,
        face=heater.face,
        length=heater.length,
        width=heater.width,
        upright=heater.length if heater.turned else heater.width,
        foot=heater.foot,
        insulation=heater.insulation,
        watts=None if volts is None else heater.watts * (volts / heater.volts) ** 2,
        place=place if isinstance(place, Place) and heater.face == "bottom" else None,
        on_degc=thermostat.on_degc if thermostat else None,
        off_degc=thermostat.off_degc if thermostat else None,
    )


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


def tank_spell(inputs: TankInputs, edge: float = 1.0, *, trace: bool = False) -> Spell | None:
    """The tank through the spell with G × `edge`, a heater for each fed pad.

    None: it holds nothing, or so little that its thermostats would switch for ever.
    """
    return _solved(inputs, edge, trace=True) if trace else _spell(inputs, edge)


def _solved(inputs: TankInputs, edge: float, *, trace: bool = False) -> Spell | None:
    heat = tank_results(inputs)
    if heat.contents <= 0:
        return None
    heaters = tuple(
        SpellHeater(heat=share * (pad.watts or 0.0), on_degc=pad.on_degc, off_degc=pad.off_degc)
        for pad, share in fed_pads(inputs)
    )
    through = _through.__wrapped__ if trace else _through
    return through(
        inputs.course,
        heat.follows,
        mass=tank_heat.mass_of(heat.contents),
        conductance=heat.conductance.whole * edge,
        heaters=heaters,
        start=start_state(inputs.start_degc, heaters),
        trace=trace,
    )


@lru_cache(maxsize=256)  # tanks that are alike but for their names and places go through it once
def _through(
    course: Course,
    follows: Around,
    *,
    mass: float,
    conductance: float,
    heaters: tuple[SpellHeater, ...],
    start: SpellState,
    trace: bool,
) -> Spell | None:
    try:
        return cold_spell(
            course.seconds,
            _effective_course(course, follows),
            mass=mass,
            conductance=conductance,
            heaters=heaters,
            start=start,
            trace=trace,
        )
    except TooManyEvents:
        return None


MOST_SPELLS = 4096  # of a tank with each of its sizes moved either way, of the largest rig


@lru_cache(maxsize=32)
def _effective_course(course: Course, follows: Around) -> tuple[float, ...]:
    """What the contents drift to as the air outdoors goes its way: the same for all edges of the band."""
    return scaled(course, base_degc=follows.base_degc, share=follows.share)


_spell = lru_cache(maxsize=MOST_SPELLS)(_solved)  # without pieces: those are kept by whoever asked for them

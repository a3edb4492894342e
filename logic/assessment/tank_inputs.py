"""All that one tank's heat hangs on, from a profile, the volts at its heaters and the places of its pads."""

from functools import lru_cache

import msgspec

from logic.assessment.nudge import Variant
from logic.assessment.shared import NoPlace, Place
from logic.assessment.surroundings import OPEN, UNDER_CABIN, around, course_of, film_of
from logic.data.constants import MOST_ROWS_OF_TANKS
from logic.data.profile import Design, Heater, Tank
from logic.physics.films import outer_film_in_wind
from logic.physics.tank_heat import Around
from logic.physics.tank_shapes import Shape
from logic.physics.weather import Course


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
    beyond: bool  # the course has more rows, for so many tanks, than are worked out at once


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
        len(variant.profile.tanks),
    )


@lru_cache(maxsize=2048)  # the same object for the same tank: a key that is quick to compare
def _tank_inputs(
    tank: Tank,
    heaters: tuple[Heater, ...],
    volts: tuple[float | None, ...],
    places: tuple[Place | NoPlace | None, ...],
    design: Design,
    surroundings: Around,
    tanks: int,
) -> TankInputs:
    course = course_of(design)
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
        course=course,
        beyond=tanks * len(course.seconds) > MOST_ROWS_OF_TANKS,
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

"""What tanks and drains stand in: the spell's air, films by place, bays in balance.

Made from a profile, used by every figure of heat. SI and °C.
"""

from collections.abc import Mapping
from functools import lru_cache

from logic.data.constants import STILL_FILM
from logic.data.profile import Bay, Design, Hourly, Profile
from logic.physics.bay import Balance, balance, bay_degc, share_of_outdoors
from logic.physics.films import outer_film_in_wind
from logic.physics.tank_heat import Around
from logic.physics.weather import Course, diurnal_course, hourly_course

OPEN, INSIDE, UNDER_CABIN = "open", "inside", "cabin"

_courses: list[tuple[Hourly, Course]] = []
_KEPT_COURSES = 4


def course_of(design: Design) -> Course:
    """The air outdoors over the spell: the same object for the same design, a key for results."""
    if design.hourly is None:
        return _diurnal(design.low_degc, design.high_degc, design.nights)
    for hourly, course in _courses:
        if hourly is design.hourly:
            return course
    rows = design.hourly
    course = hourly_course(rows.seconds, rows.degc, rows.clock)
    _courses.append((rows, course))
    del _courses[:-_KEPT_COURSES]
    return course


@lru_cache(maxsize=16)
def _diurnal(low_degc: float, high_degc: float, nights: int) -> Course:
    return diurnal_course(low_degc=low_degc, high_degc=high_degc, nights=nights)


def film_of(place: str, wind: float) -> float:
    """The film outside a face or a pad at a place: wind, or the still air of bay and cabin. [W/m²K]"""
    return outer_film_in_wind(wind) if place == OPEN else STILL_FILM


def tops_in(profile: Profile, bay: str) -> float:
    """Floor of a bay that the tops of its tanks take, those under the cabin's floor. [m²]"""
    return sum(
        tank.length * tank.width for tank in profile.tanks if tank.place == bay and tank.above == UNDER_CABIN
    )


def bay_balance(profile: Profile, bay: Bay, *, heated: bool = True, tops: float | None = None) -> Balance:
    """A bay's balance in the wind of the design, with the heat that is put into it or without.

    tops : what its tanks take of its floor; left out: what they do as they are. [m²]
    """
    return _balance(
        bay,
        tops=tops_in(profile, bay.id) if tops is None else tops,
        heat=bay.heat if heated else 0.0,
        wind=profile.design.wind,
    )


def _balance(bay: Bay, *, tops: float, heat: float, wind: float) -> Balance:
    return balance(
        area=bay.area,
        tops=tops,
        floor=bay.floor,
        pan=bay.pan,
        leak=bay.leak,
        heat=heat,
        outer_film=outer_film_in_wind(wind),
    )


def around(profile: Profile, place: str, *, tops: Mapping[str, float]) -> Around:
    """The temperature at a place as it follows the air outdoors: outside, in the cabin, or in a bay. [°C]

    tops : of each bay, what its tanks take of its floor. [m²]
    """
    if place == OPEN:
        return Around(0.0, 1.0)
    if place == INSIDE:
        return Around(profile.design.cabin_degc, 0.0)
    for bay in profile.bays:
        if bay.id == place:
            return _in_bay(bay, tops[place], profile.design.wind, profile.design.cabin_degc)
    raise KeyError(place)


@lru_cache(maxsize=256)
def _in_bay(bay: Bay, tops: float, wind: float, cabin_degc: float) -> Around:
    node = _balance(bay, tops=tops, heat=bay.heat, wind=wind)
    return Around(bay_degc(node, cabin_degc=cabin_degc, out_degc=0.0), share_of_outdoors(node))


def bay_slots(profile: Profile, place: str) -> tuple[str, ...]:
    """The slots that a place's temperature hangs on: of the tanks whose tops take floor from their bay."""
    if place in (OPEN, INSIDE):
        return ()
    return tuple(
        f"tank.{tank.id}.{side}"
        for tank in profile.tanks
        if tank.place == place and tank.above == UNDER_CABIN
        for side in ("length", "height" if tank.shape == "cylinder" else "width")
    )

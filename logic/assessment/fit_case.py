"""Where each bottom pad of a rig lies: as given, as marked out, or as the program places it.

Hangs on tanks and heaters only, and tank by tank: a change on one tank leaves the places on all others.
"""

from functools import lru_cache

import msgspec

from logic.assessment.shared import NoPlace, Place
from logic.data.profile import Heater, Profile, Tank
from logic.physics.pad_sizes import largest_pad_like
from logic.physics.placement import best_spot
from logic.physics.rectangles import Bottom, Circle, Rectangle


class _Pad(msgspec.Struct, frozen=True):
    """What a pad's place hangs on, and nothing else, so that other changes find it already worked out."""

    id: str
    length: float
    width: float
    at: tuple[float, float] | None
    turned: bool


def places(profile: Profile) -> dict[str, Place | NoPlace]:
    """The place of each bottom pad, by heater id, in the profile's order; NoPlace where none fits.

    Pads with `at` (or marked out) stand where they are; then the others are placed one by one in the
    profile's order, each clear of all that have a place.
    """
    found: dict[str, Place | NoPlace] = {}
    for tank in profile.tanks:
        pads = _pads_on(tank, profile.heaters)
        if pads:
            for place in _places_on(bare_bottom(tank), pads, tank.id):
                found[place.heater] = place
    return {heater.id: found[heater.id] for heater in profile.heaters if heater.id in found}


def bare_bottom(tank: Tank) -> Bottom:
    """The outside bottom of a tank with outlet and keep-outs, without pads; a cylinder's plan from below."""
    taper = tank.shape == "taper"
    return Bottom(
        length=tank.bottom_length if taper and tank.bottom_length is not None else tank.length,
        width=tank.bottom_width if taper and tank.bottom_width is not None else tank.width,
        outlet=None
        if tank.outlet is None
        else Circle(tank.outlet.x, tank.outlet.y, tank.outlet.diameter / 2.0),
        taken=tuple(Rectangle(area.x, area.y, area.length, area.width) for area in tank.keepout),
    )


def area_of(place: Place) -> Rectangle:
    """The rectangle that a pad covers."""
    return Rectangle(place.x, place.y, place.along, place.across)


def bottom_with_others(
    tank: Tank, found: dict[str, Place | NoPlace], heater: Heater
) -> tuple[Bottom, tuple[str, ...]]:
    """A tank's bottom as one of its pads sees it, and the ids of the other pads, in the order they are taken.

    The keep-outs come first among what is taken, then the other pads that have a place.
    """
    bare = bare_bottom(tank)
    others = [
        place
        for place in found.values()
        if isinstance(place, Place) and place.heater != heater.id and place.tank == tank.id
    ]
    bottom = msgspec.structs.replace(bare, taken=bare.taken + tuple(area_of(place) for place in others))
    return bottom, tuple(place.heater for place in others)


def _pads_on(tank: Tank, heaters: tuple[Heater, ...]) -> tuple[_Pad, ...]:
    return tuple(
        _Pad(
            id=heater.id,
            length=heater.length,
            width=heater.width,
            at=None if heater.at is None else (heater.at.x, heater.at.y),
            turned=heater.turned,
        )
        for heater in heaters
        if heater.on == tank.id and heater.face == "bottom"
    )


@lru_cache(maxsize=128)
def _places_on(bare: Bottom, pads: tuple[_Pad, ...], tank: str) -> tuple[Place | NoPlace, ...]:
    given = [pad for pad in pads if pad.at is not None]
    free = [pad for pad in pads if pad.at is None]
    found: list[Place | NoPlace] = [_given(pad, tank=tank) for pad in given]
    bottom = msgspec.structs.replace(
        bare, taken=bare.taken + tuple(area_of(place) for place in found if isinstance(place, Place))
    )
    for pad in free:
        spot = best_spot(bottom, length=pad.length, width=pad.width)
        if spot is None:
            found.append(_no_place(bottom, pad))
            continue
        found.append(
            Place(
                pad.id,
                spot.x,
                spot.y,
                along=spot.along,
                across=spot.across,
                turned=spot.turned,
                given=False,
                tank=tank,
            )
        )
        bottom = msgspec.structs.replace(bottom, taken=(*bottom.taken, spot.area))
    return tuple(found)


def _given(pad: _Pad, *, tank: str) -> Place:
    assert pad.at is not None
    along, across = (pad.width, pad.length) if pad.turned else (pad.length, pad.width)
    return Place(pad.id, *pad.at, along=along, across=across, turned=pad.turned, given=True, tank=tank)


def _no_place(bottom: Bottom, pad: _Pad) -> NoPlace:
    fits = largest_pad_like(bottom, length=pad.length, width=pad.width)
    return NoPlace(
        heater=pad.id,
        over=None if fits is None else max(pad.length - fits[0], pad.width - fits[1]),
        text="no place on the bottom keeps the margins",
        fits=fits,
    )

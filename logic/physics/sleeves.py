"""Wires drawn together: a bundle's diameter, its sleeve, the clamps along it and the hole that it goes
through.
"""

from math import ceil

import msgspec

from logic.data.wiring_constants import (
    CLAMP_CLEAR,
    CLAMP_END,
    CLAMP_GAP,
    DRILL_STEP,
    GROMMET_WALL,
    PACKING,
    SLEEVE_SHARE,
    SLEEVE_WALL,
    SLEEVES,
    SPLICE_FROM_END,
    SPLICE_STAGGER,
)

ROUNDING = 1e-9  # relative: a size or a gap reached exactly counts as reached


def bundle_diameter(conductors: int, *, outside: float) -> float | None:
    """The least circle round equal wires. [m]

    conductors : how many. outside : of the largest of them, taken for all. [m]
    None: over 20 conductors, for which there is no row. Source `circle-packing`; errs on the large side.
    """
    ratio = PACKING.get(conductors)
    return None if ratio is None else ratio * outside


def sleeve_bore(diameter: float, *, share: float = SLEEVE_SHARE) -> float | None:
    """The smallest nominal bore that is at least 1.25 × the bundle. [m] None: none is large enough.

    Source `ac-43.13-1b-11-249`; 1.1 is the least that can be pulled through (PRACTICE).
    """
    least = share * diameter * (1 - ROUNDING)
    return next((bore for bore in SLEEVES if bore >= least), None)


def clamps(route: float) -> int:
    """Clamps along a route: 6 in from each end, at most 18 in between; one on a route up to 12 in.

    route : one way. [m] Sources `iso-10133-7.3`, `practice-clamp-ends`.
    """
    between = route - 2 * CLAMP_END
    if between <= ROUNDING:
        return 1
    return ceil(between / CLAMP_GAP - ROUNDING) + 1


def clamp_places(route: float) -> tuple[float, ...]:
    """Where those clamps sit, evenly between the first and the last. [m from the end of the route]"""
    count = clamps(route)
    if count == 1:
        return (route / 2,)
    gap = (route - 2 * CLAMP_END) / (count - 1)
    return tuple(CLAMP_END + each * gap for each in range(count))


def splice_places(count: int, route: float) -> tuple[float, ...]:
    """Places of joints back from the end of a route: each a stagger from the next, none under a clamp. [m]

    On a route too short for them all the last ones lie beyond its other end: the joints need a longer tail
    there.
    Source `practice-parts`.
    """
    held = clamp_places(route)
    places: list[float] = []
    place = SPLICE_FROM_END
    while len(places) < count:
        if all(abs(place - clamp) > CLAMP_CLEAR - ROUNDING for clamp in held):
            places.append(place)
            place += SPLICE_STAGGER
        else:
            place += CLAMP_CLEAR / 4
    return tuple(places)


class Hole(msgspec.Struct, frozen=True):
    """A hole with its edge lined, for a sleeve."""

    sleeve_outside: float  # m
    drill: float  # m, a whole number of sixteenths of an inch


def hole_for(bore: float) -> Hole:
    """The drill for a sleeve of this bore: its outside and a grommet's wall on both sides, up to the next
    1/16 in.

    Walls are `practice-hole`: measure the grommet that you have.
    """
    outside = bore + 2 * SLEEVE_WALL
    return Hole(outside, ceil((outside + 2 * GROMMET_WALL) / DRILL_STEP - ROUNDING) * DRILL_STEP)

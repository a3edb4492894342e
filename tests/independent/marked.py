"""Pads marked out without a place in the profile: what a tape doesn't tell is as the program would place them."""

import copy

from tests.independent.places import TIE, distance
from tests.independent.reckoning import free_spots

AT_FLAT = 1e-3  # m, as in compare.py: what is as near lies within


def with_marks_completed(measured, profile, theirs, hidden):
    """(rig, lines that differ): pads without `at` have the way round of their free place, and its other coordinate
    where only one was read. The coordinate is then the program's, as a free place is one of many to a hair.

    hidden : figures without a value, as a reading can't be. First those read both ways, beside the pads that the
    profile places; then the others, beside them all.
    """
    done, lines = copy.deepcopy(measured), []
    marked = [
        heater
        for heater in done.heaters.values()
        if heater.at is not None and profile.heaters[heater.id].at is None
    ]
    whole = [heater for heater in marked if None not in (heater.at.x, heater.at.y)]
    half = [heater for heater in marked if heater not in whole]
    places = free_places(done, marked)
    for heater in whole:
        place = places[heater.id]
        heater.turned = heater.turned if place is None else place.turned
    places = free_places(done, half)
    for heater in half:
        lines += [
            line
            for line in complete(heater, places[heater.id], done.tanks[heater.on], theirs)
            if line.split(",")[0] not in hidden
        ]
    return done, lines


def free_places(rig, heaters):
    """Where these would lie if they weren't marked out, all others as they are; with all pads of their tanks."""
    free = copy.deepcopy(rig)
    for heater in heaters:
        free.heaters[heater.id].at = None
    places = {}
    for tank in {heater.on for heater in heaters}:
        places |= free_spots(free, free.tanks[tank], {})
    return places


def complete(pad, place, tank, theirs):
    """The coordinate that wasn't read; without a free place there is none, and the mark says nothing."""
    if place is None:
        pad.at = None
        return
    pad.turned = place.turned
    for n, name in enumerate(("x", "y")):
        if getattr(pad.at, name) is None:
            given = theirs[f"heater.{pad.id}.{name}"]["value"]
            if given is None or not as_near(tank, place, n, given):
                yield f"heater.{pad.id}.{name}, not marked out: {place.wanted[n]} / {given}"
            setattr(pad.at, name, place.wanted[n] if given is None else given)


def as_near(tank, place, n, given):
    """Whether a coordinate is the free place's, or that of another just as near: opposite the aim, say."""
    other = list(place.wanted)
    other[n] = given
    return abs(given - place.wanted[n]) <= AT_FLAT or distance(tank, other) <= place.distance + 2 * TIE

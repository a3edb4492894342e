"""The profile with the values of its readings in place of the planned ones.

Parts that no reading touches stay the very same structs, so that what hangs on them need not be computed
again. A reading that contradicts another value is left out: what hangs on it has no value, and nothing falls
over it.
"""

from collections.abc import Callable

import msgspec

from logic.assessment import fit_case
from logic.assessment.shared import NoPlace, Place
from logic.data.profile import Drain, Heater, Position, Profile, Run, Tank
from logic.data.state import SlotView

replace = msgspec.structs.replace
TANK_SIZES = ("length", "width", "height", "wall", "bottom_length", "bottom_width", "fall")


def with_readings(profile: Profile, views: tuple[SlotView, ...]) -> Profile:
    """A profile with the lengths as read; meters and the day's weather change nothing in it.

    A cylinder's width follows its height. A pad's x and y as marked out take the place of `at`; where only
    one of them is read, the other stays as given or as the program would place it, and so does the way round.
    """
    read = {
        view.slot: view.value
        for view in views
        if view.readings and view.u is not None and view.value is not None and not view.impossible
    }
    if not read:
        return profile
    tanks = tuple(_tank(tank, read) for tank in profile.tanks)
    drains = tuple(_drain(drain, read) for drain in profile.drains)
    heaters = tuple(_sized(heater, read) for heater in profile.heaters)
    runs = tuple(_run(run, read) for run in profile.runs)
    measured = replace(profile, tanks=tanks, drains=drains, heaters=heaters, runs=runs)
    return _with_marked_places(measured, read)


def _changed(part, changes: dict):
    return replace(part, **changes) if changes else part


def _tank(tank: Tank, read: dict[str, float]) -> Tank:
    place = f"tank.{tank.id}"
    changes: dict = {name: read[slot] for name in TANK_SIZES if (slot := f"{place}.{name}") in read}
    if tank.shape == "cylinder" and "height" in changes:
        changes["width"] = changes["height"]
    if tank.outlet is not None:
        outlet = _read_of(read, f"{place}.outlet", ("x", "y"))
        if outlet:
            changes["outlet"] = replace(tank.outlet, **outlet)
    keepout = tuple(
        _changed(area, _read_of(read, f"{place}.keepout.{number}", ("x", "y", "length", "width")))
        for number, area in enumerate(tank.keepout, start=1)
    )
    if any(new is not old for new, old in zip(keepout, tank.keepout, strict=True)):
        changes["keepout"] = keepout
    return _changed(tank, changes)


def _read_of(read: dict[str, float], place: str, names: tuple[str, ...]) -> dict[str, float]:
    return {name: read[slot] for name in names if (slot := f"{place}.{name}") in read}


def _drain(drain: Drain, read: dict[str, float]) -> Drain:
    return _changed(drain, _read_of(read, f"drain.{drain.id}", ("length", "outside")))


def _sized(heater: Heater, read: dict[str, float]) -> Heater:
    return _changed(heater, _read_of(read, f"heater.{heater.id}", ("length", "width")))


def _run(run: Run, read: dict[str, float]) -> Run:
    return _changed(run, _read_of(read, f"run.{run.id}", ("length", "fuse_at")))


def _with_marked_places(profile: Profile, read: dict[str, float]) -> Profile:
    """Pads at the places that were marked out for them.

    Those of which more is known stand first, so that what a tape doesn't tell of the others is as the program
    would place them beside these: pads with a place in the profile, then those marked out both ways.
    """
    marked = {
        heater.id: corner
        for heater in profile.heaters
        if (corner := _read_of(read, f"heater.{heater.id}", ("x", "y")))
    }
    if not marked:
        return profile
    profile = _each(profile, marked, lambda heater, corner: _moved(heater, corner))
    if any(heater.id in marked and heater.at is None for heater in profile.heaters):
        placed = fit_case.places(profile)
        profile = _each(profile, marked, lambda heater, corner: _whole(heater, corner, placed[heater.id]))
    if any(heater.id in marked and heater.at is None for heater in profile.heaters):
        beside = fit_case.places(profile)
        profile = _each(profile, marked, lambda heater, corner: _half(heater, corner, beside[heater.id]))
    return profile


def _each(
    profile: Profile,
    marked: dict[str, dict[str, float]],
    change: Callable[[Heater, dict[str, float]], Heater],
) -> Profile:
    heaters = tuple(
        change(heater, marked[heater.id]) if heater.id in marked else heater for heater in profile.heaters
    )
    return replace(profile, heaters=heaters)


def _moved(heater: Heater, corner: dict[str, float]) -> Heater:
    """A pad with a place in the profile."""
    return heater if heater.at is None else replace(heater, at=replace(heater.at, **corner))


def _whole(heater: Heater, corner: dict[str, float], placed: Place | NoPlace) -> Heater:
    """A pad without one, marked out both ways: the way round is that of its free place."""
    if heater.at is not None or len(corner) < 2:
        return heater
    turned = placed.turned if isinstance(placed, Place) else heater.turned
    return replace(heater, at=Position(**corner), turned=turned)


def _half(heater: Heater, corner: dict[str, float], placed: Place | NoPlace) -> Heater:
    """A pad without one, marked out one way; without a free place nothing says where the other is."""
    if heater.at is not None or not isinstance(placed, Place):
        return heater
    return replace(heater, at=replace(Position(placed.x, placed.y), **corner), turned=placed.turned)

"""Readings that can't be true together with another value of the rig.

Such a reading is taken, shown and kept; what hangs on it has no value until it is settled. The same claims,
made by a profile's file, are errors of that file.
"""

from collections.abc import Iterable

import msgspec

from logic.data.profile import Drain, Profile, Tank
from logic.data.reading_constants import SAME_WITHIN


class Contradiction(msgspec.Struct, frozen=True):
    slots: tuple[str, ...]  # those that can't all be true
    text: str


def contradictions(profile: Profile) -> Iterable[Contradiction]:
    """Every claim of a profile that contradicts another one of it."""
    for tank in profile.tanks:
        yield from _of_tank(tank)
    for drain in profile.drains:
        yield from _of_drain(drain)
    yield from _of_bays(profile)


def level_above_tank(tank: Tank, level: float) -> bool:
    """Whether a depth poured is more than the tank is deep inside."""
    return level > tank.height - 2.0 * tank.wall + SAME_WITHIN


def _of_tank(tank: Tank) -> Iterable[Contradiction]:
    place = f"tank.{tank.id}"
    edges = [("length", tank.length), ("height", tank.height)]
    if tank.shape != "cylinder":
        edges.append(("width", tank.width))
    edges += [
        (name, edge)
        for name, edge in (("bottom_length", tank.bottom_length), ("bottom_width", tank.bottom_width))
        if edge is not None
    ]
    for name, edge in edges:
        if 2.0 * tank.wall >= edge - SAME_WITHIN:
            named = name.replace("_", " ")
            yield Contradiction((f"{place}.wall", f"{place}.{name}"), f"two walls take up the whole {named}")
    if tank.fall is not None and tank.fall >= tank.height - 2.0 * tank.wall - SAME_WITHIN:
        slots = (f"{place}.fall", f"{place}.height", f"{place}.wall")
        yield Contradiction(slots, "the floor falls by the whole inside height or more")


def _of_drain(drain: Drain) -> Iterable[Contradiction]:
    if drain.inside >= drain.outside - SAME_WITHIN:
        yield Contradiction(
            (f"drain.{drain.id}.outside",), "the pipe's inside is as wide as its outside or wider"
        )


def _of_bays(profile: Profile) -> Iterable[Contradiction]:
    """Tanks under the cabin's floor cover no more than their bay has."""
    for bay in profile.bays:
        tanks = [tank for tank in profile.tanks if tank.place == bay.id and tank.above == "cabin"]
        if sum(tank.length * tank.width for tank in tanks) > bay.area:
            slots = tuple(
                f"tank.{tank.id}.{side}"
                for tank in tanks
                for side in ("length", "height" if tank.shape == "cylinder" else "width")
            )
            yield Contradiction(slots, "the tanks' tops are more than their bay's area")

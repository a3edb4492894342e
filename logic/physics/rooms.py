"""The rooms of a tank's bottom: rectangles, one of which holds a pad wherever the pad may lie. Quick to find, and
never too small.

A pad's place is found exactly in `corner_search.py`, from the outlines of all that it keeps clear of; the rooms
say beforehand where there is no need to look. What a pad keeps clear of counts here as two rectangles, grown by
the margin along one axis each, without the corners: so a room may hold a pad that has no place in it, but no pad
has a place outside of all the rooms that are as large as it.
"""

from functools import lru_cache
from math import floor, log2
from typing import NamedTuple

from logic.physics.rectangles import Bottom, Circle, Rectangle

Room = tuple[float, float, float, float]  # x0, y0, x1, y1

SMALLEST = 0.025
"""No room with a side under this is kept; a pad as small as that is looked for everywhere. [m]"""

MOST = 4000
"""From so many rooms nothing more is taken: they stay too large, which is safe."""


def rooms_for(bottom: Bottom, *, along: float, across: float, edge: float, clear: float) -> list[Room]:
    """The rooms of a bottom, with all that is taken on it, that are as large as a pad of these sides. [m]

    along, across : `SMALLEST` or more. edge : kept from the edges. clear : kept from the outlet and from what
    is taken. Both a little under what a pad keeps, so that rounding takes no place away.
    """
    bare = _Bare(bottom.length, bottom.width, bottom.outlet, edge, clear)
    memory = _memory_of(bare, _least(along), _least(across))
    if not bottom.taken:
        return _as_large(memory.bare, along, across)
    # The last that was taken changes most often: what is too small goes first, and nothing need be kept.
    before = _as_large(memory.rooms(bottom.taken[:-1]), along, across)
    return _as_large(memory.without(before, bottom.taken[-1]), along, across)


def _least(side: float) -> float:
    """The least side of the rooms that are kept for a pad's side: pads of about the same size share them."""
    return SMALLEST * 2.0 ** floor(log2(side / SMALLEST))


def _as_large(rooms: list[Room], along: float, across: float) -> list[Room]:
    return [room for room in rooms if room[2] - room[0] >= along and room[3] - room[1] >= across]


class _Bare(NamedTuple):
    """A bottom without anything on it, and the margins."""

    length: float
    width: float
    outlet: Circle | None
    edge: float
    clear: float


class _Memory:
    """The rooms of one bare bottom that are no smaller than told, and those with more and more of what was taken
    on it when it was last asked for.

    The next question is nearly always about the same bottom with one thing more, or less, at the end.
    """

    def __init__(self, bare: _Bare, least_along: float, least_across: float) -> None:
        self.clear = bare.clear
        self.least_along, self.least_across = least_along, least_across
        edge, far_x, far_y = bare.edge, bare.length - bare.edge, bare.width - bare.edge
        rooms = [(edge, edge, far_x, far_y)]
        if bare.outlet is not None:
            x, y, margin = bare.outlet.x, bare.outlet.y, bare.outlet.radius + bare.clear
            rooms = self._less(self._less(rooms, x - margin, y, x + margin, y), x, y - margin, x, y + margin)
        self.bare = rooms
        # What was taken, and the rooms less the first of it, the first two …; replaced as a whole, never changed.
        self.last: tuple[tuple[Rectangle, ...], tuple[list[Room], ...]] = ((), ())

    def rooms(self, taken: tuple[Rectangle, ...]) -> list[Room]:
        """The rooms; not to be changed."""
        before, steps = self.last
        same = len(taken)
        if before[:same] != taken:
            pairs = enumerate(zip(before, taken, strict=False))
            same = next((place for place, (one, other) in pairs if one != other), min(len(before), same))
            added = []
            rooms = steps[same - 1] if same else self.bare
            for area in taken[same:]:
                rooms = self.without(rooms, area)
                added.append(rooms)
            steps = (*steps[:same], *added)
            self.last = (taken, steps)
        return steps[len(taken) - 1] if taken else self.bare

    def without(self, rooms: list[Room], area: Rectangle) -> list[Room]:
        """The rooms less what lies nearer than the margin to an area, its corners apart."""
        x0, y0, x1, y1, clear = area.x, area.y, area.x + area.along, area.y + area.across, self.clear
        left, low, right, high = x0 - clear, y0 - clear, x1 + clear, y1 + clear
        if len(rooms) > MOST:
            return rooms
        kept: list[Room] = []
        near: list[Room] = []
        for room in rooms:
            if room[2] <= left or room[0] >= right or room[3] <= low or room[1] >= high:
                kept.append(room)
            else:
                near.append(room)
        return kept + self._less(self._less(near, left, y0, right, y1), x0, low, x1, high)

    def _less(
        self, rooms: list[Room], gone_x0: float, gone_y0: float, gone_x1: float, gone_y1: float
    ) -> list[Room]:
        """The rooms less an open rectangle, or a line; of those that lie in another most are left out."""
        least_along, least_across = self.least_along, self.least_across
        kept: list[Room] = []
        left: list[Room] = []
        right: list[Room] = []
        below: list[Room] = []
        above: list[Room] = []
        for room in rooms:
            x0, y0, x1, y1 = room
            if x1 <= gone_x0 or x0 >= gone_x1 or y1 <= gone_y0 or y0 >= gone_y1:
                kept.append(room)
                continue
            if gone_x0 - x0 >= least_along:
                left.append((x0, y0, gone_x0, y1))
            if x1 - gone_x1 >= least_along:
                right.append((gone_x1, y0, x1, y1))
            if gone_y0 - y0 >= least_across:
                below.append((x0, y0, x1, gone_y0))
            if y1 - gone_y1 >= least_across:
                above.append((x0, gone_y1, x1, y1))
        for pieces in (left, right, below, above):
            kept += _outermost(pieces) if len(pieces) > 1 else pieces
        return kept


@lru_cache(maxsize=128)
def _memory_of(bare: _Bare, least_along: float, least_across: float) -> _Memory:
    return _Memory(bare, least_along, least_across)


def _outermost(rooms: list[Room]) -> list[Room]:
    """Leaves out each room that lies in another one of them."""
    rooms.sort(key=_narrowness)  # one that holds another is as wide or wider
    kept: list[Room] = []
    for room in rooms:
        x0, y0, x1, y1 = room
        for outer_x0, outer_y0, outer_x1, outer_y1 in kept:
            if outer_x0 <= x0 and outer_y0 <= y0 and outer_x1 >= x1 and outer_y1 >= y1:
                break
        else:
            kept.append(room)
    return kept


def _narrowness(room: Room) -> float:
    return room[0] - room[2]

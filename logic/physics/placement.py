"""Where a pad lies best on a tank's bottom: as near the outlet as its margins allow. Exact, no grid.

The corner is searched for in `corner_search.py`; here is where to search. On a bottom with few things in the way
that is everywhere. With many, its rooms (`rooms.py`) tell how near a pad of this size could come at the best, and
the search goes no further out than it has to.
"""

from functools import lru_cache
from math import hypot, inf

import msgspec

from logic.physics.corner_search import CLEAR_MARGIN, EDGE_MARGIN, SAME, CornerSearch, box_of
from logic.physics.outlines import TOUCH, Box, Point
from logic.physics.rectangles import Bottom, Rectangle
from logic.physics.rooms import SMALLEST, rooms_for

__all__ = ["CLEAR_MARGIN", "EDGE_MARGIN", "SAME", "TOUCH", "Spot", "best_spot", "has_spot"]

FEW = 8
"""With fewer things in the way than this to look everywhere is quicker; the place found is the same."""

DOUBT = 1e-6
"""The margins are taken less by this where the rooms are asked, so that rounding takes no place away. [m]"""


class Spot(msgspec.Struct, frozen=True):
    """A place for a pad: its corner nearest the origin, its sides as they lie."""

    x: float
    y: float
    along: float  # extent along x
    across: float  # extent along y
    turned: bool  # the pad's length lies across

    @property
    def area(self) -> Rectangle:
        return Rectangle(self.x, self.y, self.along, self.across)


@lru_cache(maxsize=1024)
def best_spot(bottom: Bottom, *, length: float, width: float) -> Spot | None:
    """The place of a pad of these sides, either way round, nearest to the outlet edge to edge. [m]

    Without an outlet: the pad's middle nearest to the bottom's. Ties go to unturned, then smaller x, then
    smaller y. Everything that a pad keeps clear of is in `bottom`; length, width : over 0. A place that fits
    exactly counts as one. None: there is none.
    """
    found: list[tuple[float, Spot]] = []
    for along, across, turned in _ways(length, width):
        nearest = nearest_corner(bottom, along=along, across=across)
        if nearest is not None:
            distance, x, y = nearest
            found.append((distance, Spot(x, y, along, across, turned)))
    if not found:
        return None
    least = min(distance for distance, _ in found)
    return next(spot for distance, spot in found if distance <= least + SAME)


def has_spot(bottom: Bottom, *, length: float, width: float) -> bool:
    """Whether a pad of these sides has a place at all, either way round."""
    for along, across, _ in _ways(length, width):
        search = _search(bottom, along=along, across=across)
        if search is not None and (search.at_target() is not None or _allowed(search)):
            return True
    return False


def _ways(length: float, width: float) -> list[tuple[float, float, bool]]:
    """How a pad may lie: its extents along x and y, and whether it is turned."""
    unturned = (length, width, False)
    return [unturned] if abs(length - width) <= TOUCH else [unturned, (width, length, True)]


def nearest_corner(bottom: Bottom, *, along: float, across: float, everywhere: bool = False) -> Point | None:
    """(distance of the pad from the outlet's centre, x, y) of the best corner, lying this way round. [m]

    everywhere : look everywhere, as on a bottom with few things in the way.
    """
    search = _search(bottom, along=along, across=across)
    if search is None:
        return None
    at_target = search.at_target()
    if at_target is not None:
        return at_target
    allowed = search.allowed(search.box) if everywhere else _allowed(search)
    return search.first_of_ties(allowed) if allowed else None


def _search(bottom: Bottom, *, along: float, across: float) -> CornerSearch | None:
    box = box_of(bottom, along=along, across=across)
    return None if box is None else CornerSearch(bottom, box, along=along, across=across)


def _allowed(search: CornerSearch) -> list[Point]:
    """Allowed corners: the nearest to the target, the same that a search everywhere finds, and some others.

    Nearly always the nearest corner lies where the nearest room begins; where a thing's rounded corner keeps
    the pad off, a little beyond; else anywhere.
    """
    if len(search.bottom.taken) < FEW or min(search.along, search.across) < SMALLEST:
        return search.allowed(search.box)
    windows = _windows(search)
    if not windows:
        return []
    nearest = min(distance for distance, _ in windows)
    searched = None
    for beyond in (3.0 * DOUBT, CLEAR_MARGIN, inf):
        reach = nearest + beyond
        part = _part_within(reach, windows, search)
        if part is None or part == searched:
            continue
        allowed = search.allowed(part)
        if allowed:
            surely = min(distance for distance, _, _ in allowed) + 2.0 * SAME
            if surely > reach:  # what is nearer, or ties with it, may lie further out
                allowed = search.allowed(_part_within(surely, windows, search) or part)
            return allowed
        searched = part
    return []


def _windows(search: CornerSearch) -> list[tuple[float, Box]]:
    """For each room that is large enough: how near it comes to the target, and where the corner may lie in it."""
    along, across, target = search.along, search.across, search.target
    left, right, low, high = target.x0, target.x1, target.y0, target.y1
    return [
        (
            hypot(max(left - (x1 - along), x0 - right, 0.0), max(low - (y1 - across), y0 - high, 0.0)),
            Box(x0, y0, x1 - along, y1 - across),
        )
        for x0, y0, x1, y1 in rooms_for(
            search.bottom,
            along=along,
            across=across,
            edge=EDGE_MARGIN - DOUBT,
            clear=CLEAR_MARGIN - DOUBT,
        )
    ]


def _part_within(reach: float, windows: list[tuple[float, Box]], search: CornerSearch) -> Box | None:
    """The part of the box with all that lies in a window and no further from the target than `reach`."""
    near = [window for distance, window in windows if distance <= reach]
    box, target = search.box, search.target
    if not near:
        return None
    part = Box(
        max(min(window.x0 for window in near), target.x0 - reach, box.x0),
        max(min(window.y0 for window in near), target.y0 - reach, box.y0),
        min(max(window.x1 for window in near), target.x1 + reach, box.x1),
        min(max(window.y1 for window in near), target.y1 + reach, box.y1),
    )
    return part if part.x0 <= part.x1 and part.y0 <= part.y1 else None

"""Where a pad lies best on a tank's bottom: as near the outlet as its margins allow. Exact, no grid.

The corner of a pad of given sides may lie anywhere in a box (the bottom less margins and sides), except where
the pad would come too near to something: for each keep-out, pad or outlet that is a rectangle, grown by the
pad's sides, with rounded corners. The nearest allowed corner lies on the outline of the box or of one of
these shapes. Each outline is cut into straight sides and quarter arcs; what the other shapes cover is taken
off; the nearest point of what is left is found in closed form. Pieces are taken in order of the nearest they
could come, so that most are never looked at.
"""

from functools import lru_cache

import msgspec

from logic.physics.outlines import (
    TOUCH,
    Box,
    Corners,
    Lanes,
    Point,
    Rounded,
    Side,
    in_box,
    nearest_on_arc,
    nearest_on_side,
    pieces_of,
)
from logic.physics.rectangles import Bottom, Rectangle

EDGE_MARGIN = 0.0254
"""Kept from the bottom's edges: 1 in. [m] The program's convention."""

CLEAR_MARGIN = 0.0127
"""Kept from the outlet, keep-outs and other pads, straight line: 1/2 in. [m] The program's convention."""

SAME = 1e-7
"""Places no further apart than this count as the same in a tie. [m] The program's convention."""


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
    return _best(bottom, length=length, width=width)


def has_spot(bottom: Bottom, *, length: float, width: float) -> bool:
    """Whether a pad of these sides has a place at all, either way round."""
    return _best(bottom, length=length, width=width) is not None


def _best(bottom: Bottom, *, length: float, width: float) -> Spot | None:
    found: list[tuple[float, Spot]] = []
    for turned in (False, True):
        along, across = (width, length) if turned else (length, width)
        if turned and abs(length - width) <= TOUCH:
            continue
        nearest = _nearest_corner(bottom, along=along, across=across)
        if nearest is not None:
            distance, x, y = nearest
            found.append((distance, Spot(x, y, along, across, turned)))
    if not found:
        return None
    least = min(distance for distance, _ in found)
    return next(spot for distance, spot in found if distance <= least + SAME)


def _nearest_corner(bottom: Bottom, *, along: float, across: float) -> Point | None:
    """(distance of the pad from the outlet's centre, x, y) of the best corner, lying this way round."""
    box = _box(bottom, along=along, across=across)
    if box is None:
        return None
    target = _target(bottom, along=along, across=across)
    shapes = _shapes(bottom, box, along=along, across=across)
    if shapes is None:
        return None
    points: list[Point] = []
    least = float("inf")
    if target.radius == 0.0:
        x, y = target.x0, target.y0
        if in_box(box, x, y) and not any(shape.nearness(x, y) < shape.radius - TOUCH for shape in shapes):
            return 0.0, x, y
    along_x, along_y, corners = Lanes(shapes, level=True), Lanes(shapes, level=False), Corners(shapes)
    for bound, piece in sorted(
        pieces_of(box, shapes, target), key=lambda bound_and_piece: bound_and_piece[0]
    ):
        if bound > least + SAME:
            break
        if isinstance(piece, Side):
            found = nearest_on_side(piece, box, along_x if piece.level else along_y, target)
        else:
            found = nearest_on_arc(piece, box, corners, target)
        points += found
        for distance, _, _ in found:
            least = min(least, distance)
    if not points:
        return None
    # what only touches may stand out of the box by TOUCH
    points = [
        (distance, min(max(x, box.x0), box.x1), min(max(y, box.y0), box.y1)) for distance, x, y in points
    ]
    tied = [point for point in points if point[0] <= least + SAME]
    leftmost = min(x for _, x, _ in tied)
    return min((point for point in tied if point[1] <= leftmost + SAME), key=lambda point: point[2])


def _box(bottom: Bottom, *, along: float, across: float) -> Box | None:
    """Where the pad's corner may lie for the margins from the edges alone."""
    far_x = bottom.length - EDGE_MARGIN - along
    far_y = bottom.width - EDGE_MARGIN - across
    if far_x < EDGE_MARGIN - TOUCH or far_y < EDGE_MARGIN - TOUCH:
        return None
    return Box(EDGE_MARGIN, EDGE_MARGIN, max(far_x, EDGE_MARGIN), max(far_y, EDGE_MARGIN))


def _target(bottom: Bottom, *, along: float, across: float) -> Rounded:
    """What the corner is to come near: where the pad would hold the outlet's centre; or have its middle in
    the bottom's: one point."""
    if bottom.outlet is None:
        x, y = (bottom.length - along) / 2.0, (bottom.width - across) / 2.0
        return Rounded(x, y, x, y, 0.0)
    outlet = bottom.outlet
    return Rounded(outlet.x - along, outlet.y - across, outlet.x, outlet.y, outlet.radius + CLEAR_MARGIN)


def _shapes(bottom: Bottom, box: Box, *, along: float, across: float) -> list[Rounded] | None:
    """The shapes that reach into the box, none inside another; None where one covers the box."""
    shapes = [
        Rounded(area.x - along, area.y - across, area.far_x, area.far_y, CLEAR_MARGIN)
        for area in bottom.taken
    ]
    if bottom.outlet is not None:
        shapes.append(_target(bottom, along=along, across=across))
    reaching = []
    for shape in shapes:
        radius = shape.radius - TOUCH
        if (
            shape.x0 - radius >= box.x1
            or shape.x1 + radius <= box.x0
            or shape.y0 - radius >= box.y1
            or shape.y1 + radius <= box.y0
        ):
            continue
        corners = ((box.x0, box.y0), (box.x0, box.y1), (box.x1, box.y0), (box.x1, box.y1))
        if all(shape.nearness(x, y) < radius for x, y in corners):
            return None
        reaching.append(shape)
    return _without_inner(reaching)


def _without_inner(shapes: list[Rounded]) -> list[Rounded]:
    """Leaves out each shape that lies in another one of them."""
    kept: list[Rounded] = []
    for shape in sorted(set(shapes), key=lambda shape: (shape.x0 - shape.x1) * (shape.y1 - shape.y0)):
        x0, y0, x1, y1, radius = shape.x0, shape.y0, shape.x1, shape.y1, shape.radius
        for outer in kept:
            if (
                outer.x0 <= x0
                and outer.x1 >= x1
                and outer.y0 <= y0
                and outer.y1 >= y1
                and outer.radius >= radius
            ):
                break
        else:
            kept.append(shape)
    return kept

"""The nearest allowed corner of a pad, lying one way round, in a part of where its margins from the edges let it
be. Exact, no grid.

Except where the pad would come too near to something, its corner may lie anywhere in a box: for each keep-out,
pad or outlet that is a rectangle, grown by the pad's sides, with rounded corners. The nearest allowed corner lies
on the outline of the box or of one of these shapes. Each outline is cut into straight sides and quarter arcs;
what the other shapes cover is taken off; the nearest point of what is left is found in closed form. Pieces are
taken in order of the nearest they could come, so that most are never looked at.
"""

from math import inf

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
from logic.physics.rectangles import Bottom

EDGE_MARGIN = 0.0254
"""Kept from the bottom's edges: 1 in. [m] The program's convention."""

CLEAR_MARGIN = 0.0127
"""Kept from the outlet, keep-outs and other pads, straight line: 1/2 in. [m] The program's convention."""

SAME = 1e-7
"""Places no further apart than this count as the same in a tie. [m] The program's convention."""


class CornerSearch:
    """Where the corner of a pad of these sides may lie on a bottom, and what it is to come near."""

    def __init__(self, bottom: Bottom, box: Box, *, along: float, across: float) -> None:
        self.bottom = bottom
        self.box = box
        self.along = along
        self.across = across
        self.target = _target(bottom, along=along, across=across)

    def at_target(self) -> Point | None:
        """The target itself, where it is one point and allowed."""
        x, y = self.target.x0, self.target.y0
        if self.target.radius > 0.0 or not in_box(self.box, x, y):
            return None
        shapes = self._shapes(Box(x, y, x, y))
        if shapes is None or any(shape.nearness(x, y) < shape.radius - TOUCH for shape in shapes):
            return None
        return 0.0, x, y

    def allowed(self, part: Box) -> list[Point]:
        """Allowed corners in a part of the box: those nearest to the target, and some others."""
        shapes = self._shapes(part)
        if shapes is None:
            return []
        allowed: list[Point] = []
        least = inf
        target = self.target
        along_x, along_y, corners = Lanes(shapes, level=True), Lanes(shapes, level=False), Corners(shapes)
        for bound, piece in sorted(
            pieces_of(self.box, part, shapes, target), key=lambda bound_and_piece: bound_and_piece[0]
        ):
            if bound > least + SAME:
                break
            if isinstance(piece, Side):
                found = nearest_on_side(piece, part, along_x if piece.level else along_y, target)
            else:
                found = nearest_on_arc(piece, part, corners, target)
            allowed += found
            for distance, _, _ in found:
                least = min(least, distance)
        return allowed

    def first_of_ties(self, allowed: list[Point]) -> Point:
        """The nearest corner; of those as near the one of the smallest x, then of the smallest y."""
        box = self.box
        least = min(distance for distance, _, _ in allowed)
        # what only touches may stand out of the box by TOUCH
        tied = [
            (distance, min(max(x, box.x0), box.x1), min(max(y, box.y0), box.y1))
            for distance, x, y in allowed
            if distance <= least + SAME
        ]
        leftmost = min(x for _, x, _ in tied)
        return min((point for point in tied if point[1] <= leftmost + SAME), key=lambda point: point[2])

    def _shapes(self, part: Box) -> list[Rounded] | None:
        """The shapes that come into a part of the box, none inside another; None: one covers the whole box."""
        along, across, box = self.along, self.across, self.box
        margin = CLEAR_MARGIN + TOUCH
        left, right = part.x0 - margin, part.x1 + margin + along
        low, high = part.y0 - margin, part.y1 + margin + across
        shapes = [
            Rounded(area.x - along, area.y - across, area.far_x, area.far_y, CLEAR_MARGIN)
            for area in self.bottom.taken
            if area.x <= right
            and area.y <= high
            and area.x + area.along >= left
            and area.y + area.across >= low
        ]
        if self.bottom.outlet is not None:
            shapes.append(self.target)
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
        return without_inner(reaching)


def box_of(bottom: Bottom, *, along: float, across: float) -> Box | None:
    """Where the pad's corner may lie for the margins from the edges alone. None: nowhere."""
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


def without_inner(shapes: list[Rounded]) -> list[Rounded]:
    """Leaves out each shape that lies in another one of them.

    Shapes of one size keep their order, so that of places that only rounding tells apart the same one is taken.
    """
    kept: list[Rounded] = []
    for shape in sorted(
        dict.fromkeys(shapes), key=lambda shape: (shape.x0 - shape.x1) * (shape.y1 - shape.y0)
    ):
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

"""Where a pad lies best on a tank's bottom: as near the outlet as its margins allow. Exact, no grid.

The corner of a pad of given sides may lie anywhere in a box (the bottom less margins and sides), except where
the pad would come too near to something: for each keep-out, pad or outlet that is a rectangle, grown by the
pad's sides, with rounded corners. The nearest allowed corner lies on the outline of the box or of one of
these shapes. Each outline is cut into straight sides and quarter arcs; what the other shapes cover is taken
off; the nearest point of what is left is found in closed form. Pieces are taken in order of the nearest they
could come, so that most are never looked at.
"""

from functools import lru_cache
from math import acos, asin, cos, hypot, pi, sin, sqrt

import msgspec

from logic.physics.rectangles import Bottom, Rectangle

EDGE_MARGIN = 0.0254
"""Kept from the bottom's edges: 1 in. [m] The program's convention."""

CLEAR_MARGIN = 0.0127
"""Kept from the outlet, keep-outs and other pads, straight line: 1/2 in. [m] The program's convention."""

SAME = 1e-7
"""Places no further apart than this count as the same in a tie. [m] The program's convention."""

TOUCH = 1e-9
"""Shapes that overlap by less only touch: arithmetic, below any tolerance of ours. [m]"""


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


class _Rounded(msgspec.Struct, frozen=True):
    """Corners not allowed: nearer than `radius` to a core rectangle."""

    x0: float
    y0: float
    x1: float
    y1: float
    radius: float

    def nearness(self, x: float, y: float) -> float:
        """Distance of a point from the core."""
        return hypot(max(self.x0 - x, 0.0, x - self.x1), max(self.y0 - y, 0.0, y - self.y1))


class _Box(msgspec.Struct, frozen=True):
    x0: float
    y0: float
    x1: float
    y1: float


class _Side(msgspec.Struct, frozen=True):
    """A straight piece of an outline: `fixed` on one axis, `start` to `end` on the other."""

    level: bool  # along x at y = fixed; otherwise along y at x = fixed
    fixed: float
    start: float
    end: float


class _Arc(msgspec.Struct, frozen=True):
    """A quarter of a circle, from `quarter`·90° to 90° more."""

    x: float
    y: float
    radius: float
    quarter: int


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


def _nearest_corner(bottom: Bottom, *, along: float, across: float) -> tuple[float, float, float] | None:
    """(distance of the pad from the outlet's centre, x, y) of the best corner, lying this way round."""
    box = _box(bottom, along=along, across=across)
    if box is None:
        return None
    target = _target(bottom, along=along, across=across)
    shapes = _shapes(bottom, box, along=along, across=across)
    if shapes is None:
        return None
    points: list[tuple[float, float, float]] = []
    least = float("inf")
    if target.radius == 0.0:
        x, y = target.x0, target.y0
        if _in_box(box, x, y) and not any(shape.nearness(x, y) < shape.radius - TOUCH for shape in shapes):
            return 0.0, x, y
    pieces = sorted(_pieces(box, shapes, target), key=lambda bound_and_piece: bound_and_piece[0])
    for bound, piece in pieces:
        if bound > least + SAME:
            break
        if isinstance(piece, _Side):
            found = _on_side(piece, box, shapes, target)
        else:
            found = _on_arc(piece, box, shapes, target)
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


def _box(bottom: Bottom, *, along: float, across: float) -> _Box | None:
    """Where the pad's corner may lie for the margins from the edges alone."""
    far_x = bottom.length - EDGE_MARGIN - along
    far_y = bottom.width - EDGE_MARGIN - across
    if far_x < EDGE_MARGIN - TOUCH or far_y < EDGE_MARGIN - TOUCH:
        return None
    return _Box(EDGE_MARGIN, EDGE_MARGIN, max(far_x, EDGE_MARGIN), max(far_y, EDGE_MARGIN))


def _target(bottom: Bottom, *, along: float, across: float) -> _Rounded:
    """What the corner is to come near: where the pad would hold the outlet's centre; or have its middle in
    the bottom's: one point."""
    if bottom.outlet is None:
        x, y = (bottom.length - along) / 2.0, (bottom.width - across) / 2.0
        return _Rounded(x, y, x, y, 0.0)
    outlet = bottom.outlet
    return _Rounded(outlet.x - along, outlet.y - across, outlet.x, outlet.y, outlet.radius + CLEAR_MARGIN)


def _shapes(bottom: Bottom, box: _Box, *, along: float, across: float) -> list[_Rounded] | None:
    """The shapes that reach into the box, none inside another; None where one covers the box."""
    shapes = [
        _Rounded(area.x - along, area.y - across, area.far_x, area.far_y, CLEAR_MARGIN)
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


def _without_inner(shapes: list[_Rounded]) -> list[_Rounded]:
    """Leaves out each shape that lies in another one of them."""
    kept: list[_Rounded] = []
    for shape in sorted(set(shapes), key=lambda shape: (shape.x0 - shape.x1) * (shape.y1 - shape.y0)):
        if not any(
            outer.x0 <= shape.x0
            and outer.y0 <= shape.y0
            and outer.x1 >= shape.x1
            and outer.y1 >= shape.y1
            and outer.radius >= shape.radius
            for outer in kept
        ):
            kept.append(shape)
    return kept


def _pieces(box: _Box, shapes: list[_Rounded], target: _Rounded) -> list[tuple[float, _Side | _Arc]]:
    """The outlines of the box and of all shapes, each piece with the nearest it could come to the target."""
    sides = [
        _Side(True, box.y0, box.x0, box.x1),
        _Side(True, box.y1, box.x0, box.x1),
        _Side(False, box.x0, box.y0, box.y1),
        _Side(False, box.x1, box.y0, box.y1),
    ]
    arcs = []
    pieces: list[tuple[float, _Side | _Arc]] = []
    for shape in shapes:
        r = shape.radius
        own = (
            _Side(True, shape.y0 - r, shape.x0, shape.x1),
            _Side(True, shape.y1 + r, shape.x0, shape.x1),
            _Side(False, shape.x0 - r, shape.y0, shape.y1),
            _Side(False, shape.x1 + r, shape.y0, shape.y1),
        )
        sides += [side for side in own if _side_in_box(side, box)]
        for quarter, (x, y) in enumerate(
            ((shape.x1, shape.y1), (shape.x0, shape.y1), (shape.x0, shape.y0), (shape.x1, shape.y0))
        ):
            across_x = (x, x + r) if quarter in (0, 3) else (x - r, x)
            across_y = (y, y + r) if quarter in (0, 1) else (y - r, y)
            if (
                across_x[0] <= box.x1 + TOUCH
                and across_x[1] >= box.x0 - TOUCH
                and across_y[0] <= box.y1 + TOUCH
                and across_y[1] >= box.y0 - TOUCH
            ):
                arcs.append(_Arc(x, y, r, quarter))
    for side in sides:
        gap = max(_gap(side.start, side.end, *_span(target, level=side.level)), 0.0)
        low, high = _span(target, level=not side.level)
        pieces.append((hypot(gap, max(low - side.fixed, 0.0, side.fixed - high)), side))
    pieces += [(max(target.nearness(arc.x, arc.y) - arc.radius, 0.0), arc) for arc in arcs]
    return pieces


def _span(shape: _Rounded, *, level: bool) -> tuple[float, float]:
    return (shape.x0, shape.x1) if level else (shape.y0, shape.y1)


def _gap(start: float, end: float, low: float, high: float) -> float:
    """How far an interval lies from another one; negative where they overlap."""
    return max(low - end, start - high)


def _side_in_box(side: _Side, box: _Box) -> bool:
    low, high = (box.y0, box.y1) if side.level else (box.x0, box.x1)
    start, end = (box.x0, box.x1) if side.level else (box.y0, box.y1)
    return (
        low - TOUCH <= side.fixed <= high + TOUCH and side.start <= end + TOUCH and side.end >= start - TOUCH
    )


def _in_box(box: _Box, x: float, y: float) -> bool:
    return box.x0 - TOUCH <= x <= box.x1 + TOUCH and box.y0 - TOUCH <= y <= box.y1 + TOUCH


def _on_side(
    side: _Side, box: _Box, shapes: list[_Rounded], target: _Rounded
) -> list[tuple[float, float, float]]:
    """The nearest allowed points of a straight piece, one for each stretch of it that is not covered."""
    low, high = (box.x0, box.x1) if side.level else (box.y0, box.y1)
    free = [(max(side.start, low - TOUCH), min(side.end, high + TOUCH))]
    for place, shape in enumerate(shapes):
        start, end = _span(shape, level=side.level)
        under, over = _span(shape, level=not side.level)
        radius = shape.radius - TOUCH
        off = max(under - side.fixed, 0.0, side.fixed - over)
        if off >= radius:
            continue
        reach = sqrt(radius * radius - off * off)
        free = _less(free, start - reach, end + reach)
        if not free:
            # the shape that covered this piece is likely to cover the next one
            shapes.insert(0, shapes.pop(place))
            return []
    low, high = _span(target, level=side.level)
    points = []
    for start, end in free:
        at = min(max(start, low), end)
        x, y = (at, side.fixed) if side.level else (side.fixed, at)
        points.append((target.nearness(x, y), x, y))
    return points


def _less(free: list[tuple[float, float]], start: float, end: float) -> list[tuple[float, float]]:
    """Intervals less an open one."""
    left = []
    for low, high in free:
        if end <= low or start >= high:
            left.append((low, high))
            continue
        if start >= low:
            left.append((low, start))
        if end <= high:
            left.append((end, high))
    return left


def _on_arc(
    arc: _Arc, box: _Box, shapes: list[_Rounded], target: _Rounded
) -> list[tuple[float, float, float]]:
    """The nearest allowed points of a quarter arc.

    Between the angles at which it crosses another outline it is covered or free as a whole; there the nearest
    point is an end, or lies on the line through a corner of the target.
    """
    first, last = arc.quarter * pi / 2.0, (arc.quarter + 1) * pi / 2.0
    angles = [first, last]
    near = []
    for shape in shapes:
        covers = _covers_arc(shape, arc)
        if covers is True:
            return []
        if covers is None:
            near.append(shape)
            angles += _crossings(arc, shape)
    angles += _line_crossings(arc, box)
    for x in {target.x0, target.x1}:
        for y in {target.y0, target.y1}:
            angles += _towards(arc, x, y)
    angles = sorted({angle for angle in angles if first <= angle <= last})
    points = []
    for angle in angles:
        x, y = arc.x + arc.radius * cos(angle), arc.y + arc.radius * sin(angle)
        if _in_box(box, x, y) and not any(
            shape.nearness(x, y) < shape.radius - 2.0 * TOUCH for shape in near
        ):
            points.append((target.nearness(x, y), x, y))
    return points


def _covers_arc(shape: _Rounded, arc: _Arc) -> bool | None:
    """Whether a shape covers a whole quarter arc, or nothing of it; None: it wants a closer look."""
    right, upper = arc.quarter in (0, 3), arc.quarter in (0, 1)
    x0, x1 = (arc.x, arc.x + arc.radius) if right else (arc.x - arc.radius, arc.x)
    y0, y1 = (arc.y, arc.y + arc.radius) if upper else (arc.y - arc.radius, arc.y)
    gap_x, gap_y = max(shape.x0 - x1, 0.0, x0 - shape.x1), max(shape.y0 - y1, 0.0, y0 - shape.y1)
    radius = shape.radius - TOUCH
    if hypot(gap_x, gap_y) >= radius:
        return False
    if all(shape.nearness(x, y) < radius for x in (x0, x1) for y in (y0, y1)):
        return True
    return None


def _crossings(arc: _Arc, shape: _Rounded) -> list[float]:
    """Angles at which a circle may cross a shape's outline: its four lines and the circles of its corners."""
    r = shape.radius
    angles = _line_crossings(arc, _Box(shape.x0 - r, shape.y0 - r, shape.x1 + r, shape.y1 + r))
    for x in (shape.x0, shape.x1):
        for y in (shape.y0, shape.y1):
            angles += _circle_crossings(arc, x, y, r)
    return angles


def _line_crossings(arc: _Arc, box: _Box) -> list[float]:
    """Angles at which a circle crosses the lines of a box."""
    angles = []
    for x in (box.x0, box.x1):
        share = (x - arc.x) / arc.radius
        if -1.0 <= share <= 1.0:
            angle = acos(share)
            angles += [angle, 2.0 * pi - angle]
    for y in (box.y0, box.y1):
        share = (y - arc.y) / arc.radius
        if -1.0 <= share <= 1.0:
            angle = asin(share)
            angles += [angle % (2.0 * pi), pi - angle]
    return angles


def _circle_crossings(arc: _Arc, x: float, y: float, radius: float) -> list[float]:
    """Angles at which the arc's circle crosses another one."""
    apart = hypot(x - arc.x, y - arc.y)
    if apart == 0.0 or not abs(arc.radius - radius) <= apart <= arc.radius + radius:
        return []
    share = (apart * apart + arc.radius**2 - radius**2) / (2.0 * apart * arc.radius)
    spread = acos(min(max(share, -1.0), 1.0))
    middle = _angle(x - arc.x, y - arc.y)
    return [(middle + spread) % (2.0 * pi), (middle - spread) % (2.0 * pi)]


def _towards(arc: _Arc, x: float, y: float) -> list[float]:
    """The angles at which an arc is nearest to and furthest from a point."""
    if x == arc.x and y == arc.y:
        return []
    angle = _angle(x - arc.x, y - arc.y)
    return [angle, (angle + pi) % (2.0 * pi)]


def _angle(x: float, y: float) -> float:
    """Angle of a direction, from 0 to 2π."""
    angle = acos(min(max(x / hypot(x, y), -1.0), 1.0))
    return angle if y >= 0.0 else 2.0 * pi - angle

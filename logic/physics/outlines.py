"""Outlines of rectangles with rounded corners, and the points of them that no other such shape covers.

What `placement.py` searches on. Sides and quarter arcs are exact: no grid, no step. All in m.
"""

from math import acos, asin, cos, hypot, pi, sin, sqrt

import msgspec

TOUCH = 1e-9
"""Shapes that overlap by less only touch: arithmetic, below any tolerance of ours. [m]"""

Point = tuple[float, float, float]  # (distance from the target, x, y)


class Rounded(msgspec.Struct, frozen=True):
    """Corners not allowed: nearer than `radius` to a core rectangle."""

    x0: float
    y0: float
    x1: float
    y1: float
    radius: float

    def nearness(self, x: float, y: float) -> float:
        """Distance of a point from the core."""
        return hypot(max(self.x0 - x, 0.0, x - self.x1), max(self.y0 - y, 0.0, y - self.y1))


class Box(msgspec.Struct, frozen=True):
    x0: float
    y0: float
    x1: float
    y1: float


class Side(msgspec.Struct, frozen=True):
    """A straight piece of an outline: `fixed` on one axis, `start` to `end` on the other."""

    level: bool  # along x at y = fixed; otherwise along y at x = fixed
    fixed: float
    start: float
    end: float


class Arc(msgspec.Struct, frozen=True):
    """A quarter of a circle, from `quarter`·90° to 90° more."""

    x: float
    y: float
    radius: float
    quarter: int


def pieces_of(box: Box, part: Box, shapes: list[Rounded], target: Rounded) -> list[tuple[float, Side | Arc]]:
    """The outlines of the box and of all shapes, each piece with the nearest it could come to the target.

    Those pieces alone that come into `part` of the box.
    """
    left, right, bottom, top = part.x0 - TOUCH, part.x1 + TOUCH, part.y0 - TOUCH, part.y1 + TOUCH
    sides = [Side(True, y, box.x0, box.x1) for y in (box.y0, box.y1) if bottom <= y <= top]
    sides += [Side(False, x, box.y0, box.y1) for x in (box.x0, box.x1) if left <= x <= right]
    arcs = []
    for shape in shapes:
        x0, y0, x1, y1, r = shape.x0, shape.y0, shape.x1, shape.y1, shape.radius
        if x0 <= right and x1 >= left:
            sides += [Side(True, y, x0, x1) for y in (y0 - r, y1 + r) if bottom <= y <= top]
        if y0 <= top and y1 >= bottom:
            sides += [Side(False, x, y0, y1) for x in (x0 - r, x1 + r) if left <= x <= right]
        for quarter, x, y in ((0, x1, y1), (1, x0, y1), (2, x0, y0), (3, x1, y0)):
            in_x = x <= right and x + r >= left if quarter in (0, 3) else x - r <= right and x >= left
            in_y = y <= top and y + r >= bottom if quarter in (0, 1) else y - r <= top and y >= bottom
            if in_x and in_y:
                arcs.append(Arc(x, y, r, quarter))
    pieces: list[tuple[float, Side | Arc]] = []
    for side in sides:
        low, high, under, over = (
            (target.x0, target.x1, target.y0, target.y1)
            if side.level
            else (target.y0, target.y1, target.x0, target.x1)
        )
        beside = max(low - side.end, side.start - high, 0.0)
        pieces.append((hypot(beside, max(under - side.fixed, side.fixed - over, 0.0)), side))
    pieces += [(max(target.nearness(arc.x, arc.y) - arc.radius, 0.0), arc) for arc in arcs]
    return pieces


def in_box(box: Box, x: float, y: float) -> bool:
    return box.x0 - TOUCH <= x <= box.x1 + TOUCH and box.y0 - TOUCH <= y <= box.y1 + TOUCH


class Lanes:
    """The shapes as sides of one direction meet them: (start, end, under, over, radius), along it first."""

    def __init__(self, shapes: list[Rounded], *, level: bool) -> None:
        self._lanes = [
            (shape.x0, shape.x1, shape.y0, shape.y1, shape.radius - TOUCH)
            if level
            else (shape.y0, shape.y1, shape.x0, shape.x1, shape.radius - TOUCH)
            for shape in shapes
        ]

    def free(self, fixed: float, low: float, high: float) -> list[tuple[float, float]]:
        """What of a side, from `low` to `high` at `fixed`, no shape covers."""
        free = [(low, high)]
        for place, (start, end, under, over, radius) in enumerate(self._lanes):
            off = under - fixed if fixed < under else fixed - over
            if off >= radius:
                continue
            reach = radius if off <= 0.0 else sqrt(radius * radius - off * off)
            if start - reach >= high or end + reach <= low:
                continue
            free = _less(free, start - reach, end + reach)
            if not free:
                # the shape that covered this side is likely to cover the next one
                self._lanes.insert(0, self._lanes.pop(place))
                break
        return free


def nearest_on_side(side: Side, box: Box, lanes: Lanes, target: Rounded) -> list[Point]:
    """The nearest allowed points of a straight piece, one for each stretch of it that is not covered."""
    low, high = (box.x0, box.x1) if side.level else (box.y0, box.y1)
    free = lanes.free(side.fixed, max(side.start, low - TOUCH), min(side.end, high + TOUCH))
    low, high = (target.x0, target.x1) if side.level else (target.y0, target.y1)
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


class Corners:
    """The shapes as arcs meet them: those that cover one, and those that want a closer look."""

    def __init__(self, shapes: list[Rounded]) -> None:
        self._shapes = [
            (shape.x0, shape.y0, shape.x1, shape.y1, shape.radius - TOUCH, shape) for shape in shapes
        ]

    def near(self, arc: Arc) -> list[Rounded] | None:
        """The shapes that may cover a part of a quarter arc; None: one covers the whole of its square."""
        right, upper = arc.quarter in (0, 3), arc.quarter in (0, 1)
        left, low = (arc.x if right else arc.x - arc.radius), (arc.y if upper else arc.y - arc.radius)
        size = arc.radius
        near = []
        for place, (x0, y0, x1, y1, radius, shape) in enumerate(self._shapes):
            # how far the square stands out of the core on each axis; less its size, how far it lies off
            out_x = x0 - left if x0 - left > left + size - x1 else left + size - x1
            out_y = y0 - low if y0 - low > low + size - y1 else low + size - y1
            if out_x - size >= radius or out_y - size >= radius:
                continue
            if out_x < radius and out_y < radius and hypot(max(out_x, 0.0), max(out_y, 0.0)) < radius:
                # the shape that covered this arc is likely to cover the next one
                self._shapes.insert(0, self._shapes.pop(place))
                return None
            if hypot(max(out_x - size, 0.0), max(out_y - size, 0.0)) < radius:
                near.append(shape)
        return near


def nearest_on_arc(arc: Arc, box: Box, corners: Corners, target: Rounded) -> list[Point]:
    """The nearest allowed points of a quarter arc.

    Between the angles at which it crosses another outline it is covered or free as a whole; there the nearest
    point is an end, or lies on the line through a corner of the target.
    """
    first, last = arc.quarter * pi / 2.0, (arc.quarter + 1) * pi / 2.0
    angles = [first, last]
    near = corners.near(arc)
    if near is None:
        return []
    for shape in near:
        angles += _crossings(arc, shape)
    angles += _line_crossings(arc, box)
    for x in {target.x0, target.x1}:
        for y in {target.y0, target.y1}:
            angles += _towards(arc, x, y)
    angles = sorted({angle for angle in angles if first <= angle <= last})
    points = []
    for angle in angles:
        x, y = arc.x + arc.radius * cos(angle), arc.y + arc.radius * sin(angle)
        if in_box(box, x, y) and not any(shape.nearness(x, y) < shape.radius - 2.0 * TOUCH for shape in near):
            points.append((target.nearness(x, y), x, y))
    return points


def _crossings(arc: Arc, shape: Rounded) -> list[float]:
    """Angles at which a circle may cross a shape's outline: its four lines and the circles of its corners."""
    r = shape.radius
    angles = _line_crossings(arc, Box(shape.x0 - r, shape.y0 - r, shape.x1 + r, shape.y1 + r))
    for x in (shape.x0, shape.x1):
        for y in (shape.y0, shape.y1):
            angles += _circle_crossings(arc, x, y, r)
    return angles


def _line_crossings(arc: Arc, box: Box) -> list[float]:
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


def _circle_crossings(arc: Arc, x: float, y: float, radius: float) -> list[float]:
    """Angles at which the arc's circle crosses another one."""
    apart = hypot(x - arc.x, y - arc.y)
    if apart == 0.0 or not abs(arc.radius - radius) <= apart <= arc.radius + radius:
        return []
    share = (apart * apart + arc.radius**2 - radius**2) / (2.0 * apart * arc.radius)
    spread = acos(min(max(share, -1.0), 1.0))
    middle = _angle(x - arc.x, y - arc.y)
    return [(middle + spread) % (2.0 * pi), (middle - spread) % (2.0 * pi)]


def _towards(arc: Arc, x: float, y: float) -> list[float]:
    """The angles at which an arc is nearest to and furthest from a point."""
    if x == arc.x and y == arc.y:
        return []
    angle = _angle(x - arc.x, y - arc.y)
    return [angle, (angle + pi) % (2.0 * pi)]


def _angle(x: float, y: float) -> float:
    """Angle of a direction, from 0 to 2π."""
    angle = acos(min(max(x / hypot(x, y), -1.0), 1.0))
    return angle if y >= 0.0 else 2.0 * pi - angle

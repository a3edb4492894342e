"""Plane shapes on the bottom of a tank: rectangles with sides along x and y, the outlet's circle. In m."""

from math import hypot

import msgspec


class Rectangle(msgspec.Struct, frozen=True):
    """Its corner nearest the origin, and its sides along x and y; no side below 0."""

    x: float
    y: float
    along: float
    across: float

    @property
    def far_x(self) -> float:
        return self.x + self.along

    @property
    def far_y(self) -> float:
        return self.y + self.across


class Circle(msgspec.Struct, frozen=True):
    x: float
    y: float
    radius: float


class Bottom(msgspec.Struct, frozen=True):
    """The outside bottom of a tank from its corner at 0, 0; what a pad keeps clear of on it."""

    length: float  # along x
    width: float
    outlet: Circle | None = None
    taken: tuple[Rectangle, ...] = ()  # keep-outs, and pads that have a place


def distance_to_point(area: Rectangle, x: float, y: float) -> float:
    """Straight-line distance of a point from a rectangle; 0 inside. [m]"""
    return hypot(max(area.x - x, 0.0, x - area.far_x), max(area.y - y, 0.0, y - area.far_y))

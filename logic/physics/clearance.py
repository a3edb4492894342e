"""How far a pad on a tank's bottom is from what it should keep clear of, and what each distance hangs on.

Each gap comes with its slopes, so that the uncertainty of a clearance follows from those of the readings
(JCGM 100, 5.1.2). Margins are not here: a clearance counts from the thing itself. All lengths in m.
"""

from math import hypot

import msgspec

from logic.physics.rectangles import Bottom, Circle, Rectangle, distance_to_point

PAD, BOTTOM, OUTLET = "pad", "bottom", "outlet"


class Gap(msgspec.Struct, frozen=True):
    """One distance; below 0 the pad lies over the thing by so much."""

    value: float
    against: str  # edge | outlet | area
    place: int = 0  # which of the taken areas
    # (whose, which side or coordinate, d value / d it); whose: pad | bottom | outlet | area
    slopes: tuple[tuple[str, str, float], ...] = ()


def gaps(pad: Rectangle, bottom: Bottom) -> tuple[Gap, ...]:
    """Every distance of a pad on a bottom: to the four edges, the outlet, each taken area, in order."""
    return (
        *_edge_and_outlet_gaps(pad, bottom),
        *(area_gap(pad, area, place=place) for place, area in enumerate(bottom.taken)),
    )


def least_gaps(pad: Rectangle, bottom: Bottom, *, same: float) -> tuple[Gap, ...]:
    """Of all gaps those that are the least, or by no more than `same` wider, in order. [m]"""
    found = _edge_and_outlet_gaps(pad, bottom)
    values = [_area_distance(pad, area) for area in bottom.taken]
    most = min([*(gap.value for gap in found), *values]) + same
    return (
        *(gap for gap in found if gap.value <= most),
        *(
            area_gap(pad, area, place=place)
            for place, (area, value) in enumerate(zip(bottom.taken, values, strict=True))
            if value <= most
        ),
    )


def _edge_and_outlet_gaps(pad: Rectangle, bottom: Bottom) -> list[Gap]:
    found = [
        Gap(pad.x, "edge", slopes=((PAD, "x", 1.0),)),
        Gap(
            bottom.length - pad.far_x,
            "edge",
            slopes=((BOTTOM, "length", 1.0), (PAD, "x", -1.0), (PAD, "along", -1.0)),
        ),
        Gap(pad.y, "edge", slopes=((PAD, "y", 1.0),)),
        Gap(
            bottom.width - pad.far_y,
            "edge",
            slopes=((BOTTOM, "width", 1.0), (PAD, "y", -1.0), (PAD, "across", -1.0)),
        ),
    ]
    if bottom.outlet is not None:
        found.append(outlet_gap(pad, bottom.outlet))
    return found


def _area_distance(pad: Rectangle, area: Rectangle) -> float:
    """The value of `area_gap` alone."""
    apart_x = max(area.x - pad.far_x, pad.x - area.far_x)
    apart_y = max(area.y - pad.far_y, pad.y - area.far_y)
    if apart_x <= 0.0 and apart_y <= 0.0:
        return max(apart_x, apart_y)
    return hypot(max(apart_x, 0.0), max(apart_y, 0.0))


def outlet_gap(pad: Rectangle, outlet: Circle) -> Gap:
    """Edge of pad to edge of outlet; with the outlet's centre under the pad, its radius below 0."""
    distance = distance_to_point(pad, outlet.x, outlet.y)
    slopes: list[tuple[str, str, float]] = []
    if distance > 0.0:
        for axis, side, near, far, at in (
            ("x", "along", pad.x, pad.far_x, outlet.x),
            ("y", "across", pad.y, pad.far_y, outlet.y),
        ):
            if at < near:
                share = (near - at) / distance
                slopes += [(PAD, axis, share), (OUTLET, axis, -share)]
            elif at > far:
                share = (at - far) / distance
                slopes += [(OUTLET, axis, share), (PAD, axis, -share), (PAD, side, -share)]
    return Gap(distance - outlet.radius, "outlet", slopes=tuple(slopes))


def area_gap(pad: Rectangle, area: Rectangle, *, place: int = 0) -> Gap:
    """Distance of two rectangles; the least shift that parts them, below 0, where they overlap."""
    below_x, above_x = area.x - pad.far_x, pad.x - area.far_x
    below_y, above_y = area.y - pad.far_y, pad.y - area.far_y
    apart_x, apart_y = max(below_x, above_x), max(below_y, above_y)
    along_x = _axis_slopes("x", "along", pad_is_below=below_x >= above_x)
    along_y = _axis_slopes("y", "across", pad_is_below=below_y >= above_y)
    if apart_x <= 0.0 and apart_y <= 0.0:
        nearer_x = apart_x >= apart_y
        slopes = along_x if nearer_x else along_y
        return Gap(apart_x if nearer_x else apart_y, "area", place, slopes)
    distance = hypot(max(apart_x, 0.0), max(apart_y, 0.0))
    share_x, share_y = max(apart_x, 0.0) / distance, max(apart_y, 0.0) / distance
    slopes = tuple((whose, side, slope * share_x) for whose, side, slope in along_x if share_x) + tuple(
        (whose, side, slope * share_y) for whose, side, slope in along_y if share_y
    )
    return Gap(distance, "area", place, slopes)


def _axis_slopes(axis: str, side: str, *, pad_is_below: bool) -> tuple[tuple[str, str, float], ...]:
    """Slopes of the gap along one axis: the pad lies below the area on it, or above."""
    if pad_is_below:
        return (("area", axis, 1.0), (PAD, axis, -1.0), (PAD, side, -1.0))
    return ((PAD, axis, 1.0), ("area", axis, -1.0), ("area", side, -1.0))

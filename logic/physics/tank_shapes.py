"""Volumes of tanks and their levels, both ways, for each shape; and the areas that a level wets.

Sizes are the outside's, as a tape reads them; what they hold goes by the inside, two walls less. Heat is
not here.
"""

from math import atan2, isfinite, pi, sin, sqrt

import msgspec

SHAPES = ("box", "taper", "cylinder", "slope")

SMALL_ANGLE = 0.5
"""Below this angle its difference from its sine is taken by the series, good to 1e-16 there. [rad]"""


class Shape(msgspec.Struct, frozen=True):
    """A tank's outside. m."""

    kind: str  # box | taper | cylinder | slope
    length: float  # taper: at the top; cylinder: along its axis
    width: float  # taper: at the top; cylinder: its diameter
    height: float  # slope: the greatest, at the low end of the floor; cylinder: its diameter
    wall: float
    bottom_length: float = 0.0  # taper
    bottom_width: float = 0.0  # taper
    fall: float = 0.0  # slope: how far the floor drops along the length

    def inside(self) -> "Shape":
        """The space within the walls: each size less two walls; the fall of a slope is the same inside."""
        two = 2 * self.wall
        return Shape(
            kind=self.kind,
            length=self.length - two,
            width=self.width - two,
            height=self.height - two,
            wall=0.0,
            bottom_length=self.bottom_length - two if self.kind == "taper" else 0.0,
            bottom_width=self.bottom_width - two if self.kind == "taper" else 0.0,
            fall=self.fall,
        )


class Faces(msgspec.Struct, frozen=True):
    """Areas of the outside at one level. m²"""

    bottom: float  # none on a cylinder: its shell is all side
    wet: float
    dry: float
    top: float
    wet_shell: float = 0.0  # of `wet`, what a cylinder's bottom pads can lie on


def impossible(shape: Shape) -> bool:
    """Whether no such tank can be: no room within its walls, or a floor that falls by its height."""
    within = shape.inside()
    sizes = [within.length, within.width, within.height]
    if shape.kind == "taper":
        sizes += [within.bottom_length, within.bottom_width]
    if shape.kind == "slope" and not 0 <= shape.fall < within.height:
        return True
    return not all(isfinite(size) and size > 0 for size in sizes) or shape.wall < 0


def outside_rule(shape: Shape) -> float:
    """The trade's product of the outside sizes, for every shape. [m³]  Source `practice-outside-rule`."""
    return shape.length * shape.width * shape.height


def inside_volume(shape: Shape) -> float:
    """What the tank holds to the brim. [m³]  Source `nist-hb44` for the gallon that it is shown in."""
    within = shape.inside()
    return volume_below(within, within.height)


def volume_at(shape: Shape, level: float) -> float:
    """Liquid in a tank at an inside level, from the inside's lowest point. [m³]

    level : clamped to 0…inside height by geometry: there is nothing below the floor or above the brim. [m]
    """
    return volume_below(shape.inside(), level)


def volume_below(within: Shape, level: float) -> float:
    """Volume of an inside (a `Shape` without walls) below a level from its lowest point. [m³]

    Taper: prismoidal rule, `prismoidal-rule`; lying cylinder: circular segment; slope: box less the wedge.
    """
    height = within.height
    level = min(max(level, 0.0), height)
    if level == 0:  # also where a fall of 0 is moved below it, for a slope of what hangs on it
        return 0.0
    if within.kind == "box":
        return within.length * within.width * level
    if within.kind == "taper":
        lower = within.bottom_length * within.bottom_width
        half = _taper_length(within, level / 2) * _taper_width(within, level / 2)
        upper = _taper_length(within, level) * _taper_width(within, level)
        return level / 6 * (lower + 4 * half + upper)
    if within.kind == "slope":
        floor = within.length * within.width
        if level < within.fall:
            return floor * level**2 / (2 * within.fall)
        return floor * (level - within.fall / 2)
    return within.length * segment_area(height / 2, level)


def level_of(shape: Shape, volume: float) -> float:
    """Inside level at which a tank holds a volume: the inverse of `volume_at`, to 1e-12 of the height. [m]

    volume : 0…inside volume; beyond, the level at that end. [m³]
    """
    within = shape.inside()
    height = within.height
    if volume <= 0:
        return 0.0
    if volume >= volume_below(within, height):
        return height
    if within.kind == "box":
        return volume / (within.length * within.width)
    if within.kind == "slope":
        floor = within.length * within.width
        wedge = floor * within.fall / 2
        if volume < wedge:
            return sqrt(2 * within.fall * volume / floor)
        return volume / floor + within.fall / 2
    return _level_by_search(within, volume)


def surface_area(within: Shape, level: float) -> float:
    """Free surface of the liquid in an inside: the slope of volume on level. [m²]"""
    if within.kind == "box":
        return within.length * within.width
    if within.kind == "taper":
        return _taper_length(within, level) * _taper_width(within, level)
    if within.kind == "slope":
        share = 1.0 if level >= within.fall else level / within.fall
        return within.length * within.width * share
    return within.length * 2 * sqrt(max(level * (within.height - level), 0.0))


def _level_by_search(within: Shape, volume: float) -> float:
    """Newton's steps kept in a shrinking bracket, for shapes without a plain inverse."""
    low, high = 0.0, within.height
    level = high * volume / volume_below(within, high)
    for _ in range(200):
        error = volume_below(within, level) - volume
        if error > 0:
            high = level
        else:
            low = level
        surface = surface_area(within, level)
        step = error / surface if surface > 0 else high - low
        if abs(step) < 1e-15 * within.height or high - low < 1e-15 * within.height:
            break
        level -= step
        if not low < level < high:
            level = (low + high) / 2
    return level


def mean_level(shape: Shape, level: float) -> float:
    """Level over the floor, in the mean: the contents over the inside's floor area; for a slope only. [m]"""
    within = shape.inside()
    if shape.kind != "slope":
        return level
    return volume_below(within, level) / (within.length * within.width)


def faces(shape: Shape, level: float) -> Faces:
    """Outside areas of bottom, wet sides, dry sides and top at an inside level. [m²]

    Sides are the outside perimeter over the inside level (a slope's: over the mean level), the rest of the
    outside height is dry; a taper has no slant; a lying cylinder wets shell and ends and has no separate
    bottom.
    """
    if shape.kind == "cylinder":
        return _cylinder_faces(shape, level)
    if shape.kind == "taper":
        return _taper_faces(shape, level)
    footprint = shape.length * shape.width
    perimeter = 2 * (shape.length + shape.width)
    wet_height = mean_level(shape, level)
    return Faces(
        bottom=footprint,
        wet=perimeter * wet_height,
        dry=perimeter * max(shape.height - wet_height, 0.0),
        top=footprint,
    )


def top_area(shape: Shape) -> float:
    """Outside footprint of the top: a taper's top, a cylinder's length × diameter. [m²]"""
    return shape.length * shape.width


def _taper_faces(shape: Shape, level: float) -> Faces:
    at_bottom = 2 * (shape.bottom_length + shape.bottom_width)
    at_level = 2 * (_taper_length(shape, level) + _taper_width(shape, level))
    at_top = 2 * (shape.length + shape.width)
    return Faces(
        bottom=shape.bottom_length * shape.bottom_width,
        wet=(at_bottom + at_level) / 2 * level,
        dry=(at_level + at_top) / 2 * max(shape.height - level, 0.0),
        top=top_area(shape),
    )


def _cylinder_faces(shape: Shape, level: float) -> Faces:
    radius = shape.height / 2
    whole = pi * shape.height * shape.length + 2 * pi * radius**2
    wet_shell = 2 * radius * half_angle(radius, level) * shape.length
    wet = wet_shell + 2 * segment_area(radius, level)
    return Faces(bottom=0.0, wet=wet, dry=max(whole - wet, 0.0), top=top_area(shape), wet_shell=wet_shell)


def half_angle(radius: float, level: float) -> float:
    """Half the angle that a level cuts off in a circle, seen from its middle: 0…π. [rad]"""
    return atan2(sqrt(max(level * (2 * radius - level), 0.0)), radius - level)


def segment_area(radius: float, level: float) -> float:
    """Area of a circle below a level from its lowest point. [m²]  Source `circular-segment`.

    R²/2·(x − sin x) with x the whole angle; by its series where the difference would lose its digits.
    """
    level = min(max(level, 0.0), 2 * radius)
    angle = 2 * half_angle(radius, level)
    if angle > SMALL_ANGLE:
        return radius**2 / 2 * (angle - sin(angle))
    square = angle**2
    tail = 1 - square / 20 * (1 - square / 42 * (1 - square / 72 * (1 - square / 110)))
    return radius**2 / 2 * angle**3 / 6 * tail


def _taper_length(shape: Shape, level: float) -> float:
    return shape.bottom_length + (shape.length - shape.bottom_length) * level / shape.height


def _taper_width(shape: Shape, level: float) -> float:
    return shape.bottom_width + (shape.width - shape.bottom_width) * level / shape.height


def floor_under(shape: Shape, *, x: float, y: float, width: float) -> float:
    """Height of the floor's highest point under a bottom pad, above its lowest. [m]

    x : the pad's edge nearer the origin; y, width : its nearer edge and its extent across. [m]
    Slope: fall·(1 − x/length); cylinder: the outside circle at the farther edge, the plan being length ×
    diameter. A pad past the plan's edge counts as at it (`pad-fit` tells of that). Source
    `practice-least-liquid`.
    """
    if shape.kind == "slope":
        return shape.fall * min(max(1 - x / shape.length, 0.0), 1.0)
    if shape.kind == "cylinder":
        radius = shape.height / 2
        farther = min(max(abs(y - radius), abs(y + width - radius)), radius)
        return radius - sqrt(radius**2 - farther**2)
    return 0.0

"""Levels, contents and wetted sides of the four shapes: by integration's plain rules and by halving."""

import math


def inside_height(tank):
    return tank.height - 2 * tank.wall


def section(tank, level):
    """Area of the liquid's surface at an inside level. [m²]"""
    length, width = tank.length - 2 * tank.wall, tank.width - 2 * tank.wall
    if tank.shape == "taper":
        share = level / inside_height(tank)
        low_length, low_width = tank.bottom_length - 2 * tank.wall, tank.bottom_width - 2 * tank.wall
        return (low_length + (length - low_length) * share) * (low_width + (width - low_width) * share)
    if tank.shape == "cylinder":
        return length * 2 * math.sqrt(max(0.0, level * (inside_height(tank) - level)))
    if tank.shape == "slope" and level < tank.fall:
        return length * width * level / tank.fall
    return length * width


def segment(radius, depth):
    """Area of a circle's part below a depth. [m²]"""
    across = max(-1.0, min(1.0, (radius - depth) / radius))
    half_chord = math.sqrt(max(0.0, depth * (2 * radius - depth)))
    return radius**2 * math.acos(across) - (radius - depth) * half_chord


def volume(tank, level):
    """Contents at an inside level. [m³]"""
    if tank.shape == "cylinder":
        return (tank.length - 2 * tank.wall) * segment(inside_height(tank) / 2, level)
    knee = min(level, tank.fall) if tank.shape == "slope" else level
    by_simpson = (
        knee / 6 * (section(tank, 0.0) + 4 * section(tank, knee / 2) + section(tank, knee)) if knee else 0.0
    )
    return by_simpson + (level - knee) * section(tank, level)


def full(tank):
    return volume(tank, inside_height(tank))


def level(tank, contents):
    """Inside level at which the tank holds so much. [m]"""
    low, high = 0.0, inside_height(tank)
    if contents >= full(tank):
        return high
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if volume(tank, middle) < contents else (low, middle)
    return (low + high) / 2


def sides(tank, depth):
    """(wet, dry) areas of the outside at an inside level, by the format's rule for each shape. [m²]"""
    around = 2 * (tank.length + tank.width)
    if tank.shape == "cylinder":
        radius = tank.height / 2
        wet = wet_shell(tank, depth) + 2 * segment(radius, depth)
        return wet, 2 * math.pi * radius * (tank.length + radius) - wet
    if tank.shape == "slope":
        floor = (tank.length - 2 * tank.wall) * (tank.width - 2 * tank.wall)
        depth = volume(tank, depth) / floor
    if tank.shape == "taper":
        at_bottom, share = 2 * (tank.bottom_length + tank.bottom_width), depth / tank.height
        at_level = at_bottom + (around - at_bottom) * share
        return (at_bottom + at_level) / 2 * depth, (at_level + around) / 2 * (tank.height - depth)
    return around * depth, around * (tank.height - depth)


def wet_shell(tank, depth):
    """Of a cylinder, without its ends. [m²]"""
    radius = tank.height / 2
    return 2 * radius * math.acos(max(-1.0, min(1.0, (radius - depth) / radius))) * tank.length


def footprint(tank):
    """Of the bottom; a cylinder has none. [m²]"""
    return 0.0 if tank.shape == "cylinder" else tank.bottom_length * tank.bottom_width


def least_level(rig, tank, places):
    """Inside level that must stand before the tank's heaters may be on; None where the format has none. [m]"""
    levels = []
    for pad in rig.on(tank.id):
        if pad.face == "side":
            top = pad.foot + (pad.length if pad.turned else pad.width)
        else:
            spot = places[pad.id]
            if spot is None:
                return None
            top = highest_under(tank, spot)
        levels.append(top + 0.0254)
    if not levels:
        return None
    return max(levels)


def highest_under(tank, spot):
    """Height of the floor at its highest point under a bottom pad. [m]"""
    x, y, _, across = spot
    if tank.shape == "slope":
        return tank.fall * (1 - x / tank.length)
    if tank.shape == "cylinder":
        radius = tank.height / 2
        off = min(radius, max(abs(y - radius), abs(y + across - radius)))
        return radius - math.sqrt(radius**2 - off**2)
    return 0.0

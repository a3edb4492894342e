"""The numbers of the model, typed from the documents once more: constants, tables of wire, air and the day."""

import itertools
import math

# water, films, walls
DENSITY, HEAT, HEAT_OF_ICE, LATENT = 999.9, 4190.0, 2050.0, 333430.0
R_LIQUID, R_HEAD, R_INDOORS = 0.003, 0.16, 0.16
STILL = 8.0
CONDUCTIVITY = {"polyethylene": 0.40, "abs": 0.19, "pvc": 0.16}
WALL_LIMIT = 60.0
WATER_CONDUCTIVITY = 0.57
AIR = (  # °C, ν, k, Pr
    (-40, 9.995e-6, 0.02122, 0.718),
    (-20, 11.608e-6, 0.02281, 0.714),
    (0, 13.316e-6, 0.02436, 0.711),
    (20, 15.114e-6, 0.02587, 0.708),
)
# share of the daily range below the high, by the clock from hour 0
SHARES = (
    0.82, 0.88, 0.92, 0.95, 0.98, 1.00, 0.98, 0.91, 0.74, 0.55, 0.38, 0.23,
    0.13, 0.05, 0.00, 0.00, 0.06, 0.14, 0.24, 0.39, 0.50, 0.59, 0.68, 0.75,
)  # fmt: skip

# wire
GAUGES = (18, 16, 14, 12, 10, 8, 6, 4)
SAE_CIRCULAR_MILS = dict(zip(GAUGES, (1537, 2336, 3702, 5833, 9343, 14810, 24538, 37360), strict=True))
AMPACITY = dict(zip(GAUGES, (6, 8, 15, 20, 30, 40, 55, 70), strict=True))
BOATS = dict(zip(GAUGES, (10, 15, 20, 25, 40, 55, 80, 105), strict=True))
OUTSIDE_IN = dict(zip(GAUGES, (0.093, 0.102, 0.116, 0.141, 0.174, 0.214, 0.30, 0.34), strict=True))
RATINGS = (1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100)
RESISTIVITY_20, PER_KELVIN, LAY, COPPER = 1.7241e-8, 0.00393, 1.02, 8890.0
CONTINUOUS = 1.25

# bundles
PACKING = (
    1, 2, 1 + 2 / math.sqrt(3), 1 + math.sqrt(2), 1 + math.sqrt(2 + 2 / math.sqrt(5)), 3, 3, 3.3048, 3.6131,
    3.8130, 3.9238, 4.0296, 4.2361, 4.3284, 4.5214, 4.6154, 4.7920, 4.8637, 4.8637, 5.1223,
)  # fmt: skip
SLEEVES_IN = (1 / 4, 3 / 8, 1 / 2, 5 / 8, 3 / 4, 1, 1.25, 1.5, 2)

# battery: °C and share
LEAD = ((-18, 0.40), (0, 0.75), (25, 1.0))
LITHIUM = ((-20, 0.70), (0, 0.80), (25, 1.0))


def bundling(conductors):
    """Factor of 33 CFR 183.425 for so many conductors together."""
    for most, factor in ((2, 1.0), (3, 0.7), (6, 0.6), (24, 0.5)):
        if conductors <= most:
            return factor
    return 0.4


def wire_area(gauge, table):
    """[m²]"""
    if table == "sae":
        return SAE_CIRCULAR_MILS[gauge] * math.pi / 4 * (0.0254e-3) ** 2
    return math.pi / 4 * (0.127e-3 * 92 ** ((36 - gauge) / 39)) ** 2


def wire_resistance(gauge, table, celsius):
    """[Ω/m]"""
    return RESISTIVITY_20 * (1 + PER_KELVIN * (celsius - 20)) * LAY / wire_area(gauge, table)


def between(points, at):
    """Linear between the points (x, y), held beyond their ends."""
    if at <= points[0][0]:
        return points[0][1]
    for (x0, y0), (x1, y1) in itertools.pairwise(points):
        if at <= x1:
            return y0 + (y1 - y0) * (at - x0) / (x1 - x0)
    return points[-1][1]


def film_in_wind(speed):
    """[W/m²K]"""
    return max(5.7 + 3.8 * min(speed, 5), 6.47 * speed**0.78)

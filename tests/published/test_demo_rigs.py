"""The demo rigs worked by hand: figures again from the profile's own numbers, without the program's physics.

Sources of the formulas and constants are those of the checks beside them: the exact inch (NIST Handbook 44,
appendix C), McAdams' film in wind, ASHRAE's still air, SAE copper at 30 °C. The hand's arithmetic is the same
formula written out once more, so that it agrees to rounding: rel 1e-9.
"""

from math import log, pi, sqrt

import pytest

from logic.assessment.assess import assess
from logic.data.profile_file import load_profile
from tests.contract.headless import RIGS

IN, FT, GAL_L = 0.0254, 0.3048, 231 * 0.254**3
R = 0.09290304 * (5 / 9) * 3600 / 1055.05585262  # R in US units, m²K/W
PE, ABS, RHO, C, LATENT = 0.40, 0.19, 999.9, 4190.0, 333_430.0
R_IN, R_HEAD, R_FLOOR_FILM, R_STILL = 0.003, 0.16, 0.16, 1 / 8


def degc(fahrenheit):
    return (fahrenheit - 32) / 1.8


def film(mph):
    """McAdams, the branch below 5 m/s. [W/m²K]"""
    return 5.7 + 3.8 * mph * 0.44704


def copper(cmil):
    """Resistance of a metre of stranded copper of so many circular mils at 30 °C. [Ω/m]"""
    area = cmil * pi / 4 * (0.001 * IN) ** 2
    return 1.7241e-8 * (1 + 0.00393 * 10) * 1.02 / area


def figures_of(name):
    assessment = assess(load_profile(RIGS / f"{name}.toml").profile)
    return {figure.id: figure.value for figure in assessment.figures}, {one.id for one in assessment.findings}


@pytest.fixture(scope="module")
def two_tanks():
    return figures_of("two-tanks")[0]


@pytest.fixture(scope="module")
def full_belly():
    return figures_of("full-belly")[0]


@pytest.fixture(scope="module")
def mistakes():
    return figures_of("with-mistakes")[0]


# --- volumes ---


def test_volumes_of_a_box_and_a_slope(two_tanks):
    # V1's rule, 231 in³ to the gallon · COMPUTED · rel 1e-9
    assert two_tanks["tank.gray.volume"] == pytest.approx(38 * 20.5 * 8.25 / 231 * GAL_L, rel=1e-9)
    assert two_tanks["tank.gray.volume_outside"] == pytest.approx(38.5 * 21 * 8.75 / 231 * GAL_L, rel=1e-9)
    # V5's rule: the box less the wedge under the slope
    black = 28.5 * 23.5 * 9.75 - 0.5 * 28.5 * 23.5 * 0.75
    assert two_tanks["tank.black.volume"] == pytest.approx(black / 231 * GAL_L, rel=1e-9)
    # half full: mean level over the floor seen from above, told from the lowest point
    level = black / 2 / (28.5 * 23.5) + 0.75 / 2
    assert two_tanks["tank.black.contents_level"] == pytest.approx(level * IN, rel=1e-9)


def test_the_volume_of_a_taper(full_belly):
    # V3, prismoidal rule, the middle from the mean sides · COMPUTED · rel 1e-9
    bottom, top, middle = 37.5 * 22.5, 41.5 * 25.5, 39.5 * 24
    volume = 9 / 6 * (bottom + 4 * middle + top)
    assert full_belly["tank.gray.volume"] == pytest.approx(volume / 231 * GAL_L, rel=1e-9)


def test_v1_s_box_is_one_of_the_mistakes_rig_s(mistakes):
    # V1 · checks, Volumes · COMPUTED · rel 1e-6: the digits printed there
    assert mistakes["tank.gray.volume"] == pytest.approx(133.7968, rel=1e-6)
    assert mistakes["tank.gray.volume_outside"] == pytest.approx(146.4512, rel=1e-6)


# --- heat ---


def faces_in_the_open(wind, insulation, floor, top):
    """Of a square metre of bottom or wet side, of dry side, and of top; 1/4 in of polyethylene. [W/m²K]"""
    wall = 0.25 * IN / PE
    outside = 1 / film(wind)
    below = 1 / (R_IN + wall + insulation * R + outside)
    dry = 1 / (R_HEAD + wall + insulation * R + outside)
    above = 1 / (R_HEAD + wall + top * R + floor * R + R_FLOOR_FILM)
    return below, dry, above


def test_heat_of_a_tank_in_the_open(two_tanks):
    # H4's way with this rig's numbers: footprint and perimeter outside, inside level; the pad has the tank's
    # R 5 over it · job, Heat · COMPUTED · rel 1e-9: the same formula
    below, dry, above = faces_in_the_open(5, 5, 7, 5)
    footprint, perimeter = 38.5 * 21 * IN**2, 2 * (38.5 + 21) * IN
    level, height = 8.25 / 2 * IN, 8.75 * IN
    to_outside = footprint * below + perimeter * level * below + perimeter * (height - level) * dry
    to_cabin = footprint * above
    g = to_outside + to_cabin
    low, cabin, hold = degc(5), degc(65), degc(38)
    drift = (to_outside * low + to_cabin * cabin) / g
    assert two_tanks["tank.gray.conductance"] == pytest.approx(g, rel=1e-9)
    assert two_tanks["tank.gray.effective"] == pytest.approx(drift, rel=1e-9)
    assert two_tanks["tank.gray.needed"] == pytest.approx(g * (hold - drift), rel=1e-9)
    # what the pad gives at its real volts, the share that reaches the liquid
    within, without = R_IN + 0.25 * IN / PE, 5 * R + 1 / film(5)
    share = without / (within + without)
    given = share * two_tanks["heater.gray-pad.volts"] ** 2 / (12**2 / 40)
    assert two_tanks["heater.gray-pad.share"] == pytest.approx(share, rel=1e-9)
    assert two_tanks["tank.gray.delivered"] == pytest.approx(given, rel=1e-9)
    # holds to: where what is given equals what is lost
    t_eff = hold - given / g
    outdoors = (t_eff * g - to_cabin * cabin) / to_outside
    assert two_tanks["tank.gray.holds_to"] == pytest.approx(outdoors, rel=1e-9)
    # and without power, from hold to 0 °C, then to all ice
    mass = RHO * two_tanks["tank.gray.contents"] / 1000
    to_ice = mass * C / g * log((hold - drift) / (0 - drift)) / 3600
    to_solid = mass * LATENT / (g * (0 - drift)) / 3600
    assert two_tanks["tank.gray.hours_to_ice"] == pytest.approx(to_ice, rel=1e-9)
    assert two_tanks["tank.gray.hours_to_solid"] == pytest.approx(to_solid, rel=1e-9)


def test_the_air_in_the_closed_bay(full_belly):
    # H5's balance: the floor less the tops of the three tanks under the cabin · job, Heat · COMPUTED ·
    # rel 1e-9: the same formula
    area = 120 * FT**2
    tops = (48 * 30 + 42 * 26 + 34 * 24) * IN**2
    floor = (area - tops) / (9 * R + R_FLOOR_FILM + R_STILL)
    pan = area / (R_STILL + 13 * R + 1 / film(8))
    bay = (floor * degc(66) + (pan + 2) * degc(-11)) / (floor + pan + 2)
    assert full_belly["bay.belly.low"] == pytest.approx(bay, rel=1e-9)
    assert full_belly["bay.belly.low_unheated"] == pytest.approx(bay, rel=1e-9)


def test_a_drain_leg_in_the_bay(full_belly):
    # Z2's way, h 8 in a bay, 1 in of foam · ASHRAE Fundamentals, mechanical insulation · rel 1e-9
    bay, hold = full_belly["bay.belly.low"], degc(38)
    inside, outside, over = 3.07 * IN, 3.5 * IN, 5.5 * IN
    wall = log(outside / inside) / (2 * pi * ABS)
    foam = log(over / outside) / (2 * pi * 0.035)
    r = wall + foam + 1 / (pi * over * 8)
    water = RHO * pi / 4 * inside**2
    hours = water * C * r * log((hold - bay) / (0 - bay)) / 3600
    assert full_belly["drain.gray-leg.hours_to_ice"] == pytest.approx(hours, rel=1e-9)
    solid = water * LATENT * r / (0 - bay) / 3600
    assert full_belly["drain.gray-leg.hours_to_solid"] == pytest.approx(solid, rel=1e-9)
    # the wrap lies on the pipe, under the foam
    within = R_IN / (pi * inside) + wall
    without = foam + 1 / (pi * over * 8)
    assert full_belly["heater.gray-wrap.share"] == pytest.approx(without / (within + without), rel=1e-9)


# --- circuit ---


def test_two_pads_on_a_shared_return(two_tanks):
    # N5's way, by two equations in two currents; 14 AWG of SAE J1128, 3702 circular mils · COMPUTED ·
    # rel 1e-9: the same laws
    assert two_tanks["run.gray-feed.gauge"] == two_tanks["run.black-feed.gauge"] == 14
    metre, pad = copper(3702), 12**2 / 40
    out_gray, out_black, back = 11 * FT * metre, 14.5 * FT * metre, 11 * FT * metre
    gray, black = both(12.8, pad + out_gray, pad + out_black, back)
    assert two_tanks["heater.gray-pad.volts"] == pytest.approx(gray * pad, rel=1e-9)
    assert two_tanks["heater.black-pad.volts"] == pytest.approx(black * pad, rel=1e-9)
    assert two_tanks["heater.black-pad.drop"] == pytest.approx((12.8 - black * pad) / 12.8, rel=1e-9)
    # fuse, wire and return are judged at the charging volts
    gray, black = both(14.4, pad + out_gray, pad + out_black, back)
    assert two_tanks["run.gray-feed.current"] == pytest.approx(gray, rel=1e-9)
    assert two_tanks["run.gray-feed.return_current"] == pytest.approx(gray + black, rel=1e-9)
    assert two_tanks["supply.current"] == pytest.approx(gray + black, rel=1e-9)
    # F3's rule: the smallest rating from 1.25 × the current; 14 AWG carries the two together, 15 A
    assert 4 < 1.25 * gray <= 5
    assert two_tanks["run.gray-feed.fuse"] == two_tanks["run.black-feed.fuse"] == 5
    assert two_tanks["run.gray-feed.fuse"] + two_tanks["run.black-feed.fuse"] <= 15


def both(volts, first, second, shared):
    """The currents of two branches with a resistance that carries both."""
    whole = (first + shared) * (second + shared) - shared**2
    return volts * second / whole, volts * first / whole


def test_one_pad_alone_on_a_long_thin_wire(mistakes):
    # N7's way: out and back on 14 AWG, what a second pad returns through it besides · SAE J1128 · rel 1e-9
    gray_wire, black_wire = 22 * FT * copper(3702), 25 * FT * copper(2336)
    gray, black = both(12.1, 12**2 / 60 + gray_wire, 12**2 / 100 + black_wire, gray_wire)
    assert mistakes["heater.gray-pad.current"] == pytest.approx(gray * 14.7 / 12.1, rel=1e-9)
    assert mistakes["heater.black-pad.volts"] == pytest.approx(black * 1.44, rel=1e-9)
    assert mistakes["heater.black-pad.drop"] == pytest.approx((12.1 - black * 1.44) / 12.1, rel=1e-9)


def test_a_pad_on_a_dry_wall(mistakes):
    # H17's way, by the charging volts of an AGM battery and no drop in the wires · COMPUTED · rel 1e-9
    flux = 100 * (14.7 / 12) ** 2 / (18 * 12 * IN**2)
    within, without = 0.25 * IN / PE + R_HEAD, R_STILL
    dry = degc(77) + flux * within * without / (within + without)
    assert mistakes["heater.black-pad.dry"] == pytest.approx(dry, rel=1e-9)
    assert mistakes["heater.black-pad.bare"] == pytest.approx(degc(77) + flux / 16, rel=1e-9)


# --- energy ---


def test_what_the_batteries_give(two_tanks, full_belly, mistakes):
    # P5's way: lithium 1.0 at 25 °C, 0.80 at 0 °C; lead 1.0, 0.75, 0.40 at −18 °C · reference, Battery ·
    # rel 1e-9: the same line between two points
    assert two_tanks["supply.usable"] == pytest.approx(300 * 0.8 * (0.8 + 0.2 * degc(60) / 25), rel=1e-9)
    assert full_belly["supply.usable"] == pytest.approx(1000 * 0.8 * (0.8 + 0.2 * degc(55) / 25), rel=1e-9)
    # left out: the spell's mean outdoors, high − 12.87/24 of the range: under −18 °C
    assert degc(12 - 12.87 / 24 * 24) < -18 < degc(0)
    assert mistakes["supply.usable"] == pytest.approx(100 * 0.5 * 0.40, rel=1e-9)


def test_the_length_to_cut(two_tanks):
    # B5's way: two runs in a bundle, the lender's return with them: three conductors of .116 in, lay 2 in,
    # on a radius of d/√3 · COMPUTED · rel 1e-9: the same helix
    take_up = sqrt(1 + (2 * pi * 0.116 / sqrt(3) / 2) ** 2)
    assert two_tanks["run.gray-feed.cut"] == pytest.approx((11 * 1.15 * take_up + 2) * FT, rel=1e-9)

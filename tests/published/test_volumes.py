"""Volumes and levels against the prismoidal rule, the circular segment, NIST's gallon and an open library."""

from math import pi

import fluids.geometry
import pytest

from logic.data.profile import Position
from logic.physics.tank_shapes import Shape, inside_volume, level_of, outside_rule, volume_at
from tests.heat_case import heat_figures, heated, pad, v10_cylinder, v10_slope, v10_taper
from tests.rig_builder import INCH, tank

GALLON = 231 * INCH**3
CUBIC_INCH = INCH**3


def inside(kind: str, **sizes: float) -> Shape:
    """A shape by its inside sizes in inches: no walls."""
    return Shape(kind=kind, wall=0.0, **{name: size * INCH for name, size in sizes.items()})


BOX = Shape(kind="box", length=41.375 * INCH, width=24 * INCH, height=9 * INCH, wall=0.25 * INCH)
LYING = inside("cylinder", length=30, width=16, height=16)
SLOPE = inside("slope", length=36, width=20, height=12, fall=2)


def test_box_inside_and_by_the_outside_rule():
    # V1 · NIST Handbook 44, app. C (231 in³ a gallon) · COMPUTED · rel 1e-6: the row's printed digits
    assert inside_volume(BOX) / CUBIC_INCH == pytest.approx(8164.781, rel=1e-6)
    assert inside_volume(BOX) / GALLON == pytest.approx(35.3454, rel=2e-6)
    assert outside_rule(BOX) / GALLON == pytest.approx(38.6883, rel=2e-6)
    found = heat_figures(heated())
    # V1 · the same · COMPUTED · rel 1e-6
    assert found["tank.galley.volume"].value == pytest.approx(133.7968, rel=1e-6)
    assert found["tank.galley.volume_outside"].value == pytest.approx(146.4512, rel=1e-6)


def test_a_gallon_is_231_cubic_inches():
    # V2 · NIST Handbook 44, app. C · FOUND · exact but for the last bit of a float
    assert pytest.approx(3.785411784, rel=1e-15) == GALLON * 1000


def test_taper_by_the_prismoidal_rule_not_by_the_mean_of_its_ends():
    shape = inside("taper", length=40, width=24, height=10, bottom_length=34, bottom_width=20)
    # V3 · prismoidal rule, surveying texts · COMPUTED · rel 1e-9
    assert inside_volume(shape) / CUBIC_INCH == pytest.approx(8160, rel=1e-9)
    assert inside_volume(shape) / GALLON == pytest.approx(35.32468, rel=1e-6)


def test_frustum_agrees_with_the_rule_for_similar_ends():
    shape = inside("taper", length=6, width=6, height=8, bottom_length=3, bottom_width=3)
    by_ends = 8 / 3 * (36 + 9 + (36 * 9) ** 0.5)
    # V4 · old mensuration rule H/3(A1 + A2 + √(A1 A2)) · COMPUTED · rel 1e-12: both are exact
    assert inside_volume(shape) / CUBIC_INCH == pytest.approx(by_ends, rel=1e-12)
    assert by_ends == pytest.approx(168, rel=1e-12)


def test_slope_is_a_box_less_its_wedge():
    # V5 · box less ½·L·W·fall · COMPUTED · rel 1e-9
    assert inside_volume(SLOPE) / CUBIC_INCH == pytest.approx(7920, rel=1e-9)
    assert inside_volume(SLOPE) / GALLON == pytest.approx(34.28571, rel=1e-6)
    assert volume_at(SLOPE, 2 * INCH) / CUBIC_INCH == pytest.approx(720, rel=1e-9)
    assert volume_at(SLOPE, 1 * INCH) / CUBIC_INCH == pytest.approx(180, rel=1e-9)


@pytest.mark.parametrize(("level", "volume"), [(4, 1179.2349), (8, 3015.9289), (12, 4852.6230)])
def test_lying_cylinder_by_its_segment(level, volume):
    # V6 · circular segment · COMPUTED · rel 1e-7: the row's printed digits
    assert volume_at(LYING, level * INCH) / CUBIC_INCH == pytest.approx(volume, rel=1e-7)
    by_library = fluids.geometry.V_from_h(level, D=16, L=30, horizontal=True)
    # V6 · fluids 1.3.1, V_from_h · rel 1e-9: both are exact
    assert volume_at(LYING, level * INCH) / CUBIC_INCH == pytest.approx(by_library, rel=1e-9)


def test_two_segments_make_a_whole_cylinder():
    both = volume_at(LYING, 4 * INCH) + volume_at(LYING, 12 * INCH)
    # V6 · area of a circle · COMPUTED · rel 1e-12
    assert both / CUBIC_INCH == pytest.approx(pi * 64 * 30, rel=1e-12)


def test_a_large_lying_cylinder():
    shape = inside("cylinder", length=156, width=108, height=108)
    # V7 · circular segment · COMPUTED · rel 1e-6
    assert volume_at(shape, 36 * INCH) / GALLON == pytest.approx(1805.1883, rel=1e-6)
    assert inside_volume(shape) / GALLON == pytest.approx(6186.571, rel=1e-6)


@pytest.mark.parametrize(
    ("part", "fill", "level", "litres"),
    [
        (v10_taper, 0.5, 0.137842, 66.85922),
        (v10_slope, 0.5, 0.1651, None),
        (v10_slope, 0.03, 0.0291824, 3.893566),
        (v10_cylinder, 0.3, 0.138239, 29.65333),
    ],
)
def test_level_of_the_contents_of_each_shape(part, fill, level, litres):
    found = heat_figures(heated(tanks=(part(fill=fill),)))
    # V10 · job · COMPUTED · rel 1e-5: the row's printed digits
    assert found["tank.galley.contents_level"].value == pytest.approx(level, rel=1e-5)
    if litres is not None:
        assert found["tank.galley.contents"].value == pytest.approx(litres, rel=1e-6)


def least(*heaters, **values):
    found = heat_figures(heated(*heaters, **values))
    return found["tank.galley.least_level"], found["tank.galley.least"]


def test_least_liquid_over_a_side_pad_and_over_its_turned_twin():
    side = {"watts": 25.0, "face": "side", "length": 18 * INCH, "width": 4 * INCH}
    level, litres = least(pad(**side, foot=1 * INCH))
    # V11 · job · COMPUTED · rel 1e-6
    assert level.value == pytest.approx(0.1524, rel=1e-6)
    assert litres.value == pytest.approx(94.44480, rel=1e-6)
    level, litres = least(pad(**side, foot=1 * INCH, turned=True))
    # V11 · 20 in is above the brim · exact
    assert level.value is None
    assert litres.value is None
    assert level.why_not is not None


def test_least_liquid_over_a_bottom_pad_of_each_shape():
    level, litres = least(pad(watts=25.0))
    # V11 · job · COMPUTED · rel 1e-6
    assert level.value == pytest.approx(0.0254, rel=1e-6)
    assert litres.value == pytest.approx(15.74080, rel=1e-6)
    at = Position(6 * INCH, 4 * INCH)
    level, litres = least(pad(watts=25.0, at=at), tanks=(v10_slope(),))
    # V11 · floor at 2 in × (1 − 6/36.5) under the pad's smaller x · COMPUTED · rel 1e-6
    assert level.value == pytest.approx(0.0678493, rel=1e-6)
    assert litres.value == pytest.approx(19.71835, rel=1e-6)
    at = Position(6 * INCH, 5.25 * INCH)
    level, litres = least(pad(watts=25.0, at=at, width=6 * INCH), tanks=(v10_cylinder(),))
    # V11 · the outside circle at the pad's farther edge · COMPUTED · rel 1e-6
    assert level.value == pytest.approx(0.0397456, rel=1e-6)
    assert litres.value == pytest.approx(4.978892, rel=1e-6)


def test_the_trades_rule():
    shape = Shape(kind="box", length=40 * INCH, width=20 * INCH, height=20 * INCH, wall=0.25 * INCH)
    # V12 · common practice, no source (it prints 69) · rel 1e-4: the row's digits
    assert outside_rule(shape) / CUBIC_INCH == pytest.approx(16_000, rel=1e-9)
    assert outside_rule(shape) / GALLON == pytest.approx(69.264, rel=1e-4)


def test_levels_beyond_the_ends_stay_at_them():
    assert level_of(BOX, -1.0) == 0.0
    assert level_of(BOX, 10.0) == pytest.approx(8.5 * INCH, rel=1e-12)
    assert volume_at(BOX, 1.0) == pytest.approx(inside_volume(BOX), rel=1e-12)


def test_a_tank_filled_to_the_brim_and_an_empty_one():
    full = heat_figures(heated(tanks=(tank(fill=1.0),)))
    assert full["tank.galley.contents_level"].value == pytest.approx(8.5 * INCH, rel=1e-12)
    empty = heat_figures(heated(tanks=(tank(fill=0.0),)))
    assert empty["tank.galley.contents"].value == 0.0
    assert empty["tank.galley.contents_level"].value == 0.0

"""Volume and level of every shape, there and back; areas that add up."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logic.physics.tank_shapes import Shape, faces, impossible, inside_volume, level_of, mean_level, volume_at

STEADY = settings(derandomize=True, database=None, deadline=None, max_examples=250)
SIZE = st.floats(0.05, 3.0)


@st.composite
def shapes(draw, kind: str) -> Shape:
    height, length, width = draw(SIZE), draw(SIZE), draw(SIZE)
    wall = draw(st.sampled_from([0.0, 0.00635, 0.01]))
    if kind == "cylinder":
        width = height
    return Shape(
        kind=kind,
        length=length,
        width=width,
        height=height,
        wall=wall,
        bottom_length=draw(SIZE) if kind == "taper" else 0.0,
        bottom_width=draw(SIZE) if kind == "taper" else 0.0,
        fall=draw(st.floats(0, 0.9)) * (height - 2 * wall) if kind == "slope" else 0.0,
    )


# V9 · 1 000 random boxes, tapers, slopes, cylinders: level → volume → level · property · 1e-9 of the height
@pytest.mark.parametrize("kind", ["box", "taper", "cylinder", "slope"])
def test_level_to_volume_to_level(kind):
    @STEADY
    @given(shapes(kind), st.floats(0, 1))
    def there_and_back(shape, share):
        assert not impossible(shape)
        height = shape.inside().height
        level = share * height
        volume = volume_at(shape, level)
        assert level_of(shape, volume) == pytest.approx(level, abs=1e-9 * height)

    there_and_back()


@pytest.mark.parametrize("kind", ["box", "taper", "cylinder", "slope"])
def test_volume_rises_with_level_from_nothing_to_all(kind):
    @STEADY
    @given(shapes(kind), st.floats(0, 1), st.floats(0, 1))
    def rising(shape, one, other):
        height = shape.inside().height
        low, high = sorted((one, other))
        assert volume_at(shape, low * height) <= volume_at(shape, high * height) * (1 + 1e-12)
        assert volume_at(shape, 0.0) == 0.0
        assert volume_at(shape, height) == pytest.approx(inside_volume(shape), rel=1e-12)

    rising()


@pytest.mark.parametrize("kind", ["box", "taper", "cylinder", "slope"])
def test_wet_sides_grow_and_dry_ones_shrink_with_the_level(kind):
    @STEADY
    @given(shapes(kind), st.floats(0, 1), st.floats(0, 1))
    def growing(shape, one, other):
        height = shape.inside().height
        low, high = (faces(shape, share * height) for share in sorted((one, other)))
        assert low.wet <= high.wet * (1 + 1e-12)
        assert min(low.wet, low.dry, low.bottom, low.top) >= 0
        assert mean_level(shape, height) <= height * (1 + 1e-12)
        if kind != "taper":  # its perimeters are means, taken at the level
            assert low.dry >= high.dry * (1 - 1e-12)
            assert low.wet + low.dry == pytest.approx(high.wet + high.dry, rel=1e-9)

    growing()

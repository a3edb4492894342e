"""Placement against an exhaustive grid with its own geometry, and against places worked out by hand."""

from itertools import pairwise
from math import hypot, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logic.physics.clearance import area_gap, gaps, least_gaps, outlet_gap
from logic.physics.pad_sizes import largest_pad_like, two_smaller
from logic.physics.placement import Spot, best_spot, has_spot
from logic.physics.rectangles import Bottom, Circle, Rectangle

INCH = 0.0254
NEAR = 1e-7  # the convention's own tolerance
TOUCH = 1e-8  # arithmetic, and the program's own slack of 1e-9 m for what only touches


def inches(bottom: Bottom, length: float, width: float) -> tuple[float, ...] | None:
    """The best place in inches: x, y, extent along x and y, turned."""
    spot = best_spot(bottom, length=length * INCH, width=width * INCH)
    if spot is None:
        return None
    return spot.x / INCH, spot.y / INCH, spot.along / INCH, spot.across / INCH, float(spot.turned)


def bottom(
    length: float,
    width: float,
    outlet: tuple[float, float, float] | None = None,
    taken: tuple[tuple[float, float, float, float], ...] = (),
) -> Bottom:
    """In inches; the outlet by its centre and diameter."""
    return Bottom(
        length * INCH,
        width * INCH,
        None if outlet is None else Circle(outlet[0] * INCH, outlet[1] * INCH, outlet[2] / 2 * INCH),
        tuple(Rectangle(*(side * INCH for side in area)) for area in taken),
    )


# --- by hand ---


def test_pad_lies_half_an_inch_from_the_outlet_with_the_smallest_x_and_y() -> None:
    # rig-format, Places · by hand · abs 1e-6 in: arithmetic. Outlet 38, 12, radius 1.5: x = 38 − 2 − 18, y 1
    assert inches(bottom(41.375, 24, (38, 12, 3)), 18, 12) == pytest.approx((18, 1, 18, 12, 0), abs=1e-6)


def test_pad_goes_to_the_middle_without_an_outlet() -> None:
    assert inches(bottom(41, 24), 18, 12) == pytest.approx((11.5, 6, 18, 12, 0), abs=1e-6)


def test_rib_in_the_middle_moves_the_pad_to_the_side_of_smaller_x() -> None:
    # too narrow to turn; rib from 20 to 22 across: 20 − 1/2 − 18 = 1.5
    found = inches(bottom(42, 18, None, ((20, 0, 2, 18),)), 18, 12)
    assert found == pytest.approx((1.5, 3, 18, 12, 0), abs=1e-6)


def test_pad_that_only_fits_across_is_turned() -> None:
    assert inches(bottom(16, 30), 18, 12) == pytest.approx((2, 6, 12, 18, 1), abs=1e-6)


def test_pad_that_fits_exactly_has_a_place() -> None:
    assert inches(bottom(20, 14), 18, 12) == pytest.approx((1, 1, 18, 12, 0), abs=1e-6)
    assert inches(bottom(20, 13.9), 18, 12) is None
    # between two ribs, 19 in apart
    ribs = ((10, 0, 1, 18), (30, 0, 1, 18))
    assert inches(bottom(42, 18, None, ribs), 18, 12) == pytest.approx((11.5, 3, 18, 12, 0), abs=1e-6)


def test_corner_distance_is_straight_line() -> None:
    # a fitting in the corner lets the pad come nearer diagonally than 1/2 in along either axis
    fitting = (20.0, 13.0, 1.0, 1.0)
    found = inches(bottom(20 + 1 / 4, 13.5, (30, 30, 1), (fitting,)), 18, 11)
    assert found is not None
    x, y = found[0] + 18, found[1] + 11
    assert x == pytest.approx(19.25, abs=1e-6)
    # the bottom's edge holds x; the fitting's corner at 20, 13 is more than 1/2 in off: y goes to the edge
    assert y == pytest.approx(12.5, abs=1e-6)
    assert hypot(20 - x, 13 - y) > 0.5


def test_round_of_the_outlet_lets_the_pads_corner_in_beside_it() -> None:
    # what is left and above keeps x at 21 and more, the upper edge at 18 1/2 and less; the outlet's centre is
    # at 20, 20, 1 1/2 + 1/2 to keep: the pad's corner lies on that round, at the smallest x: 2² = 1² + 3
    around = ((0, 0, 20.5, 30), (20.5, 19, 19.5, 11))
    found = inches(bottom(40, 30, (20, 20, 3), around), 10, 8)
    assert found == pytest.approx((21, 20 - sqrt(3) - 8, 10, 8, 0), abs=1e-6)


def test_ties_go_to_unturned_then_smaller_x_then_smaller_y() -> None:
    # outlet in the middle of a square: eight equal sides to lie at
    found = inches(bottom(60, 60, (30, 30, 3)), 18, 12)
    assert found is not None
    # the left side: x = 30 − 2 − 18; smallest y that still faces the outlet's centre: 30 − 12
    assert found == pytest.approx((10, 18, 18, 12, 0), abs=1e-6)


def test_outlet_outside_the_bottom_pulls_the_pad_to_the_edge() -> None:
    # outlet at 50, 12, the bottom ends at 41: x = 41 − 1 − 18, y smallest with 12 still beside it
    assert inches(bottom(41, 24, (50, 12, 3)), 18, 12) == pytest.approx((22, 1, 18, 12, 0), abs=1e-6)
    # off a corner: the corner nearest to it
    assert inches(bottom(41, 24, (50, 40, 3)), 18, 12) == pytest.approx((22, 11, 18, 12, 0), abs=1e-6)


def test_keepouts_that_overlap_or_cover_everything() -> None:
    twice = ((10, 0, 6, 24), (12, 0, 6, 24), (12, 0, 6, 24))
    assert inches(bottom(41, 18, None, twice), 18, 12) == pytest.approx((18.5, 3, 18, 12, 0), abs=1e-6)
    assert inches(bottom(41, 24, None, ((0, 0, 41, 24),)), 18, 12) is None
    assert inches(bottom(41, 24, None, ((-5, -5, 80, 80),)), 1, 1) is None
    halves = ((0, 0, 21, 24), (20, 0, 21, 24))
    assert largest_pad_like(bottom(41, 24, None, halves), length=18 * INCH, width=12 * INCH) is None
    assert two_smaller(bottom(41, 24, None, halves), length=18 * INCH, width=12 * INCH) is None


def test_pad_larger_than_the_tank() -> None:
    floor = bottom(41.375, 24, (38, 12, 3))
    assert not has_spot(floor, length=60 * INCH, width=12 * INCH)
    found = largest_pad_like(floor, length=60 * INCH, width=12 * INCH)
    assert found is not None
    # by hand: 12 in wide and left of the outlet, from 1 to 38 − 2; below it there are only 12 − 2 − 1
    assert [side / INCH for side in found] == pytest.approx([35, 12], abs=1e-6)
    assert has_spot(floor, length=found[0], width=found[1])


def test_two_halves_in_parallel_where_a_rib_parts_the_bottom() -> None:
    floor = bottom(41, 24, None, ((20, 0, 1, 24),))
    assert not has_spot(floor, length=36 * INCH, width=12 * INCH)
    pads = two_smaller(floor, length=36 * INCH, width=12 * INCH)
    assert pads is not None
    # two of 18 × 12 lie on either side: all of the watts
    assert (pads.length / INCH, pads.width / INCH, pads.share) == pytest.approx((18, 12, 1.0), abs=1e-6)


# --- against an exhaustive grid ---


def apart(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> float:
    """Distance of two rectangles given by their edges x0, y0, x1, y1; 0 where they meet."""
    return hypot(
        max(other[0] - one[2], one[0] - other[2], 0.0), max(other[1] - one[3], one[1] - other[3], 0.0)
    )


def allowed(floor: Bottom, x: float, y: float, a: float, b: float, slack: float = 0.0) -> bool:
    pad = (x, y, x + a, y + b)
    if x < INCH - slack or y < INCH - slack:
        return False
    if pad[2] > floor.length - INCH + slack or pad[3] > floor.width - INCH + slack:
        return False
    if floor.outlet is not None:
        centre = (floor.outlet.x, floor.outlet.y) * 2
        if apart(pad, centre) - floor.outlet.radius < INCH / 2 - slack:
            return False
    return all(
        apart(pad, (area.x, area.y, area.x + area.along, area.y + area.across)) >= INCH / 2 - slack
        for area in floor.taken
    )


def distance(floor: Bottom, x: float, y: float, a: float, b: float) -> float:
    if floor.outlet is None:
        return hypot(x + a / 2 - floor.length / 2, y + b / 2 - floor.width / 2)
    return apart((x, y, x + a, y + b), (floor.outlet.x, floor.outlet.y) * 2)


GRID = 0.25

eighths = st.integers(0, 160).map(lambda marks: marks / 8)
boxes = st.tuples(
    eighths, eighths, st.integers(1, 40).map(lambda m: m / 8), st.integers(1, 40).map(lambda m: m / 8)
)
floors = st.builds(
    bottom,
    st.integers(60, 150).map(lambda marks: marks / 8),
    st.integers(40, 100).map(lambda marks: marks / 8),
    st.one_of(
        st.none(),
        st.tuples(eighths, st.integers(0, 100).map(lambda m: m / 8), st.sampled_from([1.0, 1.5, 3.0])),
    ),
    st.lists(boxes, max_size=5).map(tuple),
)
pads = st.tuples(st.integers(8, 60).map(lambda m: m / 8), st.integers(8, 40).map(lambda m: m / 8))


@settings(max_examples=120, deadline=None, derandomize=True, database=None)
@given(floors, pads)
def test_no_point_of_an_exhaustive_grid_is_better(floor: Bottom, pad: tuple[float, float]) -> None:
    length, width = pad[0] * INCH, pad[1] * INCH
    spot = best_spot(floor, length=length, width=width)
    if spot is not None:
        assert allowed(floor, spot.x, spot.y, spot.along, spot.across, slack=TOUCH)
        assert (spot.along, spot.across) == ((width, length) if spot.turned else (length, width))
    for turned in (False, True):
        a, b = (width, length) if turned else (length, width)
        for i in range(int(floor.length / INCH / GRID) + 1):
            for j in range(int(floor.width / INCH / GRID) + 1):
                x, y = i * GRID * INCH, j * GRID * INCH
                if allowed(floor, x, y, a, b):
                    assert spot is not None
                    assert_not_worse(floor, spot, x, y, a, b, turned=turned)


def assert_not_worse(
    floor: Bottom, spot: Spot, x: float, y: float, a: float, b: float, *, turned: bool
) -> None:
    found, other = distance(floor, spot.x, spot.y, spot.along, spot.across), distance(floor, x, y, a, b)
    assert found <= other + NEAR
    if other <= found - NEAR or abs(other - found) > 1e-9:
        return
    # a tie: unturned, then smaller x, then smaller y
    assert (spot.turned, turned) != (True, False)
    if spot.turned == turned:
        assert spot.x <= x + NEAR
        if abs(spot.x - x) <= 1e-9:
            assert spot.y <= y + NEAR


@settings(max_examples=150, deadline=None, derandomize=True, database=None)
@given(floors, pads)
def test_no_place_just_beside_the_best_is_better(floor: Bottom, pad: tuple[float, float]) -> None:
    spot = best_spot(floor, length=pad[0] * INCH, width=pad[1] * INCH)
    if spot is None:
        return
    least = distance(floor, spot.x, spot.y, spot.along, spot.across)
    for step in (1e-5, 1e-4, 1e-3, 5e-3):
        for i in range(-6, 7):
            for j in range(-6, 7):
                x, y = spot.x + i * step / 6, spot.y + j * step / 6
                if allowed(floor, x, y, spot.along, spot.across):
                    assert distance(floor, x, y, spot.along, spot.across) >= least - NEAR


@settings(max_examples=40, deadline=None, derandomize=True, database=None)
@given(floors, pads)
def test_what_is_offered_instead_fits_and_is_no_larger(floor: Bottom, pad: tuple[float, float]) -> None:
    length, width = pad[0] * INCH, pad[1] * INCH
    if has_spot(floor, length=length, width=width):
        return
    found = largest_pad_like(floor, length=length, width=width)
    if found is not None:
        assert has_spot(floor, length=found[0], width=found[1])
        assert found[0] <= length + TOUCH
        assert found[1] <= width + TOUCH
    two = two_smaller(floor, length=length, width=width)
    if two is not None:
        assert 0 < two.share <= 1 + 1e-9
        first = best_spot(floor, length=two.length, width=two.width)
        assert first is not None
        rest = Bottom(floor.length, floor.width, floor.outlet, (*floor.taken, first.area))
        assert has_spot(rest, length=two.length, width=two.width)


# --- clearances ---


def test_gaps_of_two_rectangles() -> None:
    pad = Rectangle(0.0, 0.0, 2.0, 1.0)
    # rig-format, Places · by hand · rel 1e-12: straight line apart, least shift where they overlap
    assert area_gap(pad, Rectangle(5.0, 5.0, 1.0, 1.0)).value == pytest.approx(5.0, rel=1e-12)
    assert area_gap(pad, Rectangle(3.0, 0.0, 1.0, 1.0)).value == pytest.approx(1.0, rel=1e-12)
    assert area_gap(pad, Rectangle(1.5, 0.25, 1.0, 0.5)).value == pytest.approx(-0.5, rel=1e-12)
    assert area_gap(pad, Rectangle(2.0, 0.0, 1.0, 1.0)).value == 0.0
    # one inside the other: the nearest way out
    assert area_gap(pad, Rectangle(1.0, 0.4, 0.1, 0.1)).value == pytest.approx(-0.5, rel=1e-12)


def test_gap_to_the_outlet() -> None:
    pad = Rectangle(0.0, 0.0, 2.0, 1.0)
    assert outlet_gap(pad, Circle(2.3, 1.4, 0.1)).value == pytest.approx(0.4, rel=1e-12)
    assert outlet_gap(pad, Circle(1.0, 0.5, 0.1)).value == pytest.approx(-0.1, rel=1e-12)
    assert outlet_gap(pad, Circle(2.05, 0.5, 0.1)).value == pytest.approx(-0.05, rel=1e-12)


@settings(max_examples=200, deadline=None, derandomize=True, database=None)
@given(floors, eighths, eighths, pads, st.sampled_from([0.0, 1e-7, 0.01]))
def test_the_least_gaps_are_those_of_all_gaps(
    floor: Bottom, x: float, y: float, pad: tuple[float, float], same: float
) -> None:
    where = Rectangle(x * INCH, y * INCH, pad[0] * INCH, pad[1] * INCH)
    every = gaps(where, floor)
    least = min(gap.value for gap in every)
    assert least_gaps(where, floor, same=same) == tuple(gap for gap in every if gap.value <= least + same)


lengths = st.lists(st.floats(0.05, 1.0), min_size=10, max_size=10)


@settings(max_examples=300, deadline=None, derandomize=True, database=None)
@given(lengths)
def test_slopes_of_every_gap_are_its_derivatives(sides: list[float]) -> None:
    def all_gaps(values: dict[tuple[str, str], float]):
        def get(whose: str, *names: str) -> list[float]:
            return [values[whose, name] for name in names]

        pad = Rectangle(*get("pad", "x", "y", "along", "across"))
        floor = Bottom(
            *get("bottom", "length", "width"),
            outlet=Circle(*get("outlet", "x", "y"), 0.04),
            taken=(Rectangle(*get("area", "x", "y", "along", "across")),),
        )
        return gaps(pad, floor)

    names = [("pad", name) for name in ("x", "y", "along", "across")]
    names += [("area", name) for name in ("x", "y", "along", "across")]
    names += [("outlet", "x"), ("outlet", "y")]
    values = dict(zip(names, sides, strict=True)) | {("bottom", "length"): 1.5, ("bottom", "width"): 1.2}
    step = 1e-6
    for place, gap in enumerate(all_gaps(values)):
        for name in values:
            low, high = (all_gaps(values | {name: values[name] + by})[place].value for by in (-step, step))
            ahead, behind = (high - gap.value) / step, (gap.value - low) / step
            if abs(ahead - behind) > 1e-4:
                continue  # a kink: two things are equally near
            told = sum(slope for whose, side, slope in gap.slopes if (whose, side) == name)
            assert told == pytest.approx((high - low) / (2 * step), abs=1e-4)


def test_thirty_pads_fill_a_bottom_without_touching() -> None:
    floor = bottom(60, 30, (50, 15, 3))
    placed: list[Rectangle] = []
    for _ in range(30):
        spot = best_spot(floor, length=4 * INCH, width=3 * INCH)
        assert spot is not None
        assert allowed(floor, spot.x, spot.y, spot.along, spot.across, slack=TOUCH)
        placed.append(spot.area)
        floor = Bottom(floor.length, floor.width, floor.outlet, (*floor.taken, spot.area))
    # each further from the outlet than the one before, or as far
    outlet = floor.outlet
    assert outlet is not None
    away = [outlet_gap(area, outlet).value for area in placed]
    assert all(later >= earlier - NEAR for earlier, later in pairwise(away))
    assert away[0] == pytest.approx(0.5 * INCH, abs=TOUCH)

"""A crowded bottom's rooms leave no place out: a search in them finds what a search everywhere finds, to the bit."""

from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logic.physics.corner_search import without_inner
from logic.physics.outlines import Rounded
from logic.physics.placement import CLEAR_MARGIN, DOUBT, EDGE_MARGIN, FEW, best_spot, nearest_corner
from logic.physics.rectangles import Bottom, Circle, Rectangle
from logic.physics.rooms import SMALLEST, rooms_for

INCH = 0.0254

eighths = st.integers(-16, 400).map(lambda marks: marks / 8 * INCH)
decimals = st.integers(-2000, 50_000).map(lambda number: number / 1000 * INCH)
sides = st.one_of(st.integers(1, 24).map(lambda marks: marks / 8 * INCH), st.floats(0.002, 0.3))
places = st.one_of(eighths, decimals)
areas = st.builds(Rectangle, places, places, sides, sides)
crowded = st.builds(
    Bottom,
    st.integers(160, 400).map(lambda marks: marks / 8 * INCH),
    st.integers(100, 320).map(lambda marks: marks / 8 * INCH),
    st.one_of(st.none(), st.builds(Circle, places, places, st.sampled_from([0.0127, 0.02, 0.0381]))),
    st.lists(areas, min_size=FEW, max_size=40).map(tuple),
)
pads = st.one_of(st.integers(6, 120).map(lambda marks: marks / 8 * INCH), st.floats(0.02, 0.5))


@settings(max_examples=400, deadline=None, derandomize=True, database=None)
@given(crowded, pads, pads)
def test_the_place_is_the_one_that_a_search_everywhere_finds(
    floor: Bottom, along: float, across: float
) -> None:
    everywhere = nearest_corner(floor, along=along, across=across, everywhere=True)
    assert nearest_corner(floor, along=along, across=across) == everywhere


@settings(max_examples=40, deadline=None, derandomize=True, database=None)
@given(crowded, pads, pads)
def test_pads_put_down_one_after_another_lie_where_a_search_everywhere_puts_them(
    floor: Bottom, length: float, width: float
) -> None:
    for _ in range(6):
        spot = best_spot(floor, length=length, width=width)
        ways = [(length, width), (width, length)]
        found = [nearest_corner(floor, along=a, across=b, everywhere=True) for a, b in ways]
        if spot is None:
            assert found == [None, None]
            return
        assert (spot.x, spot.y) == found[spot.turned][1:]
        floor = Bottom(floor.length, floor.width, floor.outlet, (*floor.taken, spot.area))


def allowed(floor: Bottom, x: float, y: float, along: float, across: float) -> bool:
    """Whether a pad keeps its margins: rig-format, Places, worked out anew."""
    if min(x, y, floor.length - x - along, floor.width - y - across) < EDGE_MARGIN:
        return False
    keep = [(area.x, area.y, area.x + area.along, area.y + area.across, CLEAR_MARGIN) for area in floor.taken]
    if floor.outlet is not None:
        at = (floor.outlet.x, floor.outlet.y)
        keep.append((*at, *at, floor.outlet.radius + CLEAR_MARGIN))
    return all(
        hypot(max(x0 - x - along, x - x1, 0.0), max(y0 - y - across, y - y1, 0.0)) >= margin
        for x0, y0, x1, y1, margin in keep
    )


@settings(max_examples=60, deadline=None, derandomize=True, database=None)
@given(crowded, st.floats(SMALLEST, 0.15), st.floats(SMALLEST, 0.15))
def test_a_pad_that_keeps_its_margins_lies_in_a_room(floor: Bottom, along: float, across: float) -> None:
    rooms = rooms_for(floor, along=along, across=across, edge=EDGE_MARGIN - DOUBT, clear=CLEAR_MARGIN - DOUBT)
    for i in range(40):
        for j in range(30):
            x, y = i / 40 * floor.length, j / 30 * floor.width
            if allowed(floor, x, y, along, across):
                assert any(
                    x0 <= x and y0 <= y and x + along <= x1 and y + across <= y1 for x0, y0, x1, y1 in rooms
                )


def test_rooms_beside_one_thing_are_four_strips_and_four_corners() -> None:
    # by hand: 2 m by 1 m, 0.1 m to the edges, 0.05 m to a thing of 0.2 by 0.1 m at 0.9, 0.4; a pad's corner may
    # come nearer to the thing's corner on both axes, for the distance counts straight
    floor = Bottom(2.0, 1.0, None, (Rectangle(0.9, 0.4, 0.2, 0.1),))
    rooms = rooms_for(floor, along=0.1, across=0.1, edge=0.1, clear=0.05)
    strips = [(0.1, 0.1, 0.85, 0.9), (0.1, 0.1, 1.9, 0.35), (0.1, 0.55, 1.9, 0.9), (1.15, 0.1, 1.9, 0.9)]
    corners = [(0.1, 0.1, 0.9, 0.4), (0.1, 0.5, 0.9, 0.9), (1.1, 0.1, 1.9, 0.4), (1.1, 0.5, 1.9, 0.9)]
    found = sorted(rooms)
    assert found == [pytest.approx(one) for one in sorted(strips + corners)]


def test_shapes_of_one_size_are_looked_at_in_the_order_they_were_put_down() -> None:
    # Of places that only rounding tells apart the first that is found counts: it must be the same in every process.
    alike = [
        Rounded(0.25 * n, 0.25, 0.25 * n + 0.5, 0.75, CLEAR_MARGIN) for n in (3, 1, 4, 15, 9, 2, 6, 5, 35, 8)
    ]
    assert without_inner([*alike, alike[0]]) == alike

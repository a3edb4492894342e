"""The places guessed for several new pads: inside the bottom and apart from each other, read as they are written."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logic.data.tape import written_length
from tui.show.pad_grid import corners

INCH = 0.0254  # m, exact by definition
# The format's own distances: 1 in from the edges, 1/2 in from another pad.
MARGIN, APART = 1.0, 0.5

inches = st.integers(16, 800).map(lambda sixteenths: sixteenths / 16)


def rectangles(count, tank, pad):
    """(x0, y0, x1, y1) of each pad in inches, from the corners as written."""
    found = []
    for corner in corners(count, *(tuple(f"{each} in" for each in sizes) for sizes in (tank, pad))):
        x, y = written_length(corner.x) / INCH, written_length(corner.y) / INCH
        one, other = pad[::-1] if corner.turned else pad
        found.append((x, y, x + one, y + other))
    return found


@given(st.integers(2, 6), st.tuples(inches, inches), st.tuples(inches, inches))
def test_pads_keep_their_margins_or_have_no_guessed_place(count, tank, pad):
    placed = rectangles(count, tank, pad)
    assert len(placed) in (0, count)
    for x0, y0, x1, y1 in placed:
        assert min(x0, y0, tank[0] - x1, tank[1] - y1) >= MARGIN - 1e-6
    for (a0, b0, a1, b1), (c0, d0, c1, d1) in combinations(placed, 2):
        assert max(c0 - a1, a0 - c1, d0 - b1, b0 - d1) >= APART - 1e-6


def test_two_pads_that_fit_only_turned_are_turned():
    placed = rectangles(2, (38, 24), (18, 12))
    # By hand: 38 in less twice 12 in leaves three gaps of 4 2/3 in, down to the eighth; 24 in less 18 in two of 3 in.
    assert [(x0, y0) for x0, y0, *_ in placed] == [
        (pytest.approx(4.625), pytest.approx(3.0)),
        (pytest.approx(21.25), pytest.approx(3.0)),
    ]


def test_one_pad_is_left_to_the_program_and_so_are_sizes_that_are_none():
    assert corners(1, ("40 in", "24 in"), ("18 in", "12 in")) == []
    assert corners(2, ("wide", "24 in"), ("18 in", "12 in")) == []

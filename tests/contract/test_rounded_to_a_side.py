"""A number that somebody is to reach or to stay under is never rounded to the wrong side of it."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logic.data.figure import Figure
from logic.data.number_text import show, show_parts
from logic.data.quantities import fill, show_figure
from logic.data.wording import DOWN, NEAREST, UP, at_least, at_most, quantity, words

INCH, FOOT = 0.0254, 0.3048
METRES = {"in": INCH, "ft": FOOT, "mm": 1e-3, "m": 1.0}


def read_back(value, kind, units, side):
    """What a shown number says, in SI."""
    shown = show_parts(value, kind, units, side)
    return float(sum(Fraction(part) for part in shown.number.split())) * METRES.get(shown.unit, 1.0)


@pytest.mark.parametrize(
    ("value", "kind", "units", "least", "nearest", "most"),
    [
        (7.334, "amps", "us", "7.34 A", "7.33 A", "7.33 A"),
        (7.33, "amps", "us", "7.33 A", "7.33 A", "7.33 A"),
        (106.2, "amps", "us", "107 A", "106 A", "106 A"),
        (8.8 * INCH, "length", "us", "8 13/16 in", "8 13/16 in", "8 3/4 in"),
        (0.2 * INCH, "length", "us", "0.2 in", "0.2 in", "0.2 in"),
        (0.1234, "length", "metric", "124 mm", "123 mm", "123 mm"),
        (0.0953, "length", "metric", "95.3 mm", "95.3 mm", "95.3 mm"),
        (-8.24, "temperature", "metric", "−8.2 °C", "−8.2 °C", "−8.3 °C"),
        (0.011, "volume", "us", "3 gal", "2.9 gal", "2.9 gal"),
        (53.84, "power", "us", "53.9 W", "53.8 W", "53.8 W"),
        (1425.4, "charge", "us", "1426 Ah", "1425 Ah", "1425 Ah"),
    ],
)
def test_each_side_of_a_number(value, kind, units, least, nearest, most):
    # design rule · exact: the digits that are shown
    shown = [show(value, kind, units, side) for side in (UP, NEAREST, DOWN)]
    assert shown == [least, nearest, most]


@pytest.mark.parametrize("kind", ["length", "route", "small_length", "amps", "charge", "number"])
@given(value=st.floats(0.001, 90), metric=st.booleans())
def test_what_is_shown_lies_on_its_side(kind, value, metric):
    units = "metric" if metric else "us"
    up, down = (read_back(value, kind, units, side) for side in (UP, DOWN))
    assert down <= value * (1 + 2e-9) + 1e-12
    assert up >= value * (1 - 2e-9) - 1e-12


@pytest.mark.parametrize(
    ("figure", "shown"), [("least", "3 gal"), ("contents", "2.9 gal"), ("least_level", "1 1/16 in")]
)
def test_the_least_liquid_is_never_told_as_less_than_it_is(figure, shown):
    # 11 L are 2.906 gal; 26 mm are 1.024 in
    value, unit = (0.026, "m") if figure == "least_level" else (11.0, "L")
    made = Figure(f"tank.gray.{figure}", "tank.gray", figure, unit, value, words(""))
    assert show_figure(made, "us").value == shown


def test_words_are_filled_in_by_the_side_of_their_quantities():
    parts = {"a": at_least(7.334, "amps"), "b": at_most(7.339, "amps"), "c": quantity(7.339, "amps")}
    assert fill(words("{a} {b} {c}", **parts), "us") == "7.34 A 7.33 A 7.34 A"

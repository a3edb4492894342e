"""A number that somebody is to reach or to stay under is never rounded to the wrong side of it."""

from fractions import Fraction

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logic.data.figure import Figure
from logic.data.number_text import MINUS, show, show_parts
from logic.data.quantities import fill, show_figure
from logic.data.safe_sides import SIDES, as_told
from logic.data.wording import DOWN, NEAREST, UP, at_least, at_most, quantity, words
from tests.contract.figure_rows import ROWS

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


# --- each figure on the side on which nobody is promised too much ---

BANDED = [
    name
    for name in ROWS
    if name.split(".")[-1].startswith(
        ("needed", "holds_to", "hours", "night", "lowest", "ice_", "duty", "energy")
    )
]


def figure(figure_id, unit, value, **band):
    return Figure(figure_id, "", "", unit, value, words(""), banded=bool(band), **band)


@pytest.mark.parametrize(
    ("name", "unit", "value", "us", "metric"),
    [
        ("tank.gray.holds_to", "degC", -20.02, "−4 °F", "−20 °C"),  # −4.04 °F
        ("tank.gray.hours_to_ice", "h", 12.49, "12.4 h", "12.4 h"),
        ("tank.gray.hours_to_thaw", "h", 12.41, "12.5 h", "12.5 h"),
        ("tank.gray.spell.lowest", "degC", 3.36, "38 °F", "3.3 °C"),  # 38.05 °F
        ("tank.gray.spell.ice_share", "1", 0.00001, "0.1 %", "0.1 %"),
        ("drain.valve.hours_to_ice", "h", 0.999, "0.99 h", "0.99 h"),
        ("supply.night", "Ah", 53.31, "53.4 Ah", "53.4 Ah"),
        ("supply.hours", "h", 71.98, "71.9 h", "71.9 h"),
        ("supply.nights", "1", 2.9991, "2.99", "2.99"),
        ("bay.belly.low", "degC", 0.06, "32.1 °F", "0 °C"),
        ("heater.pad.dry", "degC", 60.01, "140.1 °F", "60.1 °C"),
        ("heater.pad.drop", "1", 0.03001, "3.1 %", "3.1 %"),
        ("run.feed.short", "A", 74.99, "74.9 A", "74.9 A"),
        ("run.feed.current", "A", 7.339, "7.34 A", "7.34 A"),
    ],
)
def test_a_figure_is_rounded_to_its_safe_side(name, unit, value, us, metric):
    # design rule, conservative in doubt · exact: the digits that are shown
    made = figure(name, unit, value)
    if name.endswith("holds_to"):
        made = figure(name, unit, value, low=value - 9, high=value + 9)  # in whole degrees beside a band
    assert (show_figure(made, "us").value, show_figure(made, "metric").value) == (us, metric)


def number(text):
    """What a shown number says, in whatever unit stands beside it."""
    return float(text.split()[0].replace(MINUS, "-"))


@pytest.mark.parametrize("row", BANDED)
@given(data=st.data())
def test_value_and_band_are_shown_in_their_order(row, data):
    kind, _, name = row.partition(".")
    numbers = st.floats(-40, 90) if ROWS[row] == "degC" else st.floats(0, 300)
    low, value, high = sorted(data.draw(st.tuples(numbers, numbers, numbers)))
    made = figure(row if kind == "supply" else f"{kind}.one.{name}", ROWS[row], value, low=low, high=high)
    for units in ("us", "metric"):
        shown = show_figure(made, units)
        least, most = (number(edge) for edge in (shown.band.split(" … ") * 2)[:2])
        assert least <= number(shown.value) <= most
        # both edges stand as the value would there
        ends = [
            show_figure(msgspec.structs.replace(made, value=end, low=end, high=end), units)
            for end in (low, high)
        ]
        assert [number(end.value) for end in ends] == [least, most]


def test_a_figure_in_a_sentence_reads_as_the_figure_does():
    told = as_told("supply.night", 53.31, "charge")
    assert (
        fill(words("{night}", night=told), "us")
        == show_figure(figure("supply.night", "Ah", 53.31), "us").value
    )


def test_each_side_is_of_a_figure_that_there_is():
    told = {f"{family}.{name}" for family, names in SIDES.items() for name in names}
    assert told <= ROWS.keys()

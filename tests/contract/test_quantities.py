"""How numbers look: the one place that prints them, in US units and in metric."""

import pytest

from logic.data.figure import Figure
from logic.data.quantities import (
    KINDS,
    below_zero,
    figure_kind,
    fill,
    show,
    show_figure,
    show_parts,
    uncertainty,
)
from logic.data.wording import quantity, words
from tests.contract.figure_rows import ROWS

INCH = 0.0254
GALLON = 231 * INCH**3

SHOWN = [
    ("length", 41.375 * INCH, "41 3/8 in", "1051 mm"),
    ("length", 24 * INCH, "24 in", "610 mm"),
    ("length", 0.25 * INCH, "1/4 in", "6.3 mm"),
    ("length", -0.5 * INCH, "−1/2 in", "−12.7 mm"),
    ("length", 0.28 * INCH, "0.28 in", "7.1 mm"),
    ("length", 0.0, "0 in", "0 mm"),
    ("length", 11.99 * INCH, "12 in", "305 mm"),
    ("small_length", 0.0919975 * INCH, "0.09 in", "2.3 mm"),
    ("route", 14.5 * 0.3048, "14.5 ft", "4.42 m"),
    ("route", 6 * 0.3048, "6 ft", "1.83 m"),
    ("area", 80 * 0.3048**2, "80 ft²", "7.43 m²"),
    ("volume", 35.34537 * GALLON, "35.3 gal", "134 L"),
    ("volume", 4 * GALLON, "4 gal", "15.1 L"),
    ("mass", 133.8, "295 lb", "134 kg"),
    ("mass_of_copper", 0.975619, "2.15 lb", "0.98 kg"),
    ("temperature", (-12 - 32) / 1.8, "−12 °F", "−24.4 °C"),
    ("temperature", 0.0, "32 °F", "0 °C"),
    ("temperature", -0.01, "32 °F", "0 °C"),
    ("whole_temperature", -27.4, "−17 °F", "−27 °C"),
    ("difference", 3.0, "5.4 °F", "3 °C"),
    ("power", 21.54, "21.5 W", "21.5 W"),
    ("power", 483.581, "484 W", "484 W"),
    ("density", 430.5564, "0.28 W/in²", "431 W/m²"),
    ("conductance", 18.21996, "18.2 W/K", "18.2 W/K"),
    ("conductance", 1.949734, "1.95 W/K", "1.95 W/K"),
    ("insulation", 0.88055, "R 5", "0.881 m²K/W"),
    ("insulation", 0.018875, "R 0.107", "0.0189 m²K/W"),
    ("for_a_metre", 0.31693, "0.317 m·K/W", "0.317 m·K/W"),
    ("bore", 0.00159043, "0.00159 m²", "0.00159 m²"),
    ("conductivity", 0.035, "0.035 W/m/K", "0.035 W/m/K"),
    ("film", 22.68752, "22.7 W/m²K", "22.7 W/m²K"),
    ("speed", 26.8224, "60 mph", "96.6 km/h"),
    ("volts", 12.305839, "12.31 V", "12.31 V"),
    ("volts", 12.8, "12.8 V", "12.8 V"),
    ("volts", 0.012, "12 mV", "12 mV"),
    ("amps", 5.127433, "5.13 A", "5.13 A"),
    ("amps", 10.195566, "10.2 A", "10.2 A"),
    ("ohms", 2.4, "2.4 Ω", "2.4 Ω"),
    ("ohms", 0.005, "5 mΩ", "5 mΩ"),
    ("ohms", 2e7, "20 MΩ", "20 MΩ"),
    ("ohms", 4700.0, "4.7 kΩ", "4.7 kΩ"),
    ("watt_hours", 1316.101 * 3600, "1316 Wh", "1316 Wh"),
    ("charge", 154.1372, "154 Ah", "154 Ah"),
    ("hours", 9.184465 * 3600, "9.2 h", "9.2 h"),
    ("hours", 0.573469 * 3600, "0.57 h", "0.57 h"),
    ("minutes", 25 * 60.0, "25 min", "25 min"),
    ("share", 0.0386063, "3.9 %", "3.9 %"),
    ("share", 1.0, "100 %", "100 %"),
    ("fraction", 0.700169, "0.7", "0.7"),
    ("gauge", 14.0, "14 AWG", "14 AWG"),
    ("rating", 7.5, "7.5 A", "7.5 A"),
    ("count", 10.0, "10", "10"),
    ("number", 2.5301, "2.53", "2.53"),
    ("flag", 1.0, "yes", "yes"),
]


@pytest.mark.parametrize(("kind", "value", "us", "metric"), SHOWN)
def test_a_quantity_is_shown_as_a_person_reads_it(kind, value, us, metric):
    assert show(value, kind, "us") == us
    assert show(value, kind, "metric") == metric


def test_every_kind_is_shown_in_both_systems():
    assert {kind for kind, *_ in SHOWN} == set(KINDS)


def test_number_and_unit_can_be_had_apart():
    parts = show_parts(41.375 * INCH, "length", "us")
    assert (parts.number, parts.unit) == ("41 3/8", "in")


def test_a_temperature_below_zero_is_also_told_in_words():
    assert below_zero((-12 - 32) / 1.8, "us") == "12 below"
    assert below_zero(-3.5, "metric") == "3.5 below"
    assert below_zero(-3.5, "us") == ""
    assert below_zero(0.0, "metric") == ""
    assert below_zero(-0.01, "metric") == ""


def test_a_sentence_is_filled_in_by_the_units_of_the_moment():
    said = words(
        "{what} loses {watts} at {low}, {what} is full",
        what="the tank",
        watts=quantity(21.54, "power"),
        low=quantity((-12 - 32) / 1.8, "temperature"),
    )
    assert fill(said, "us") == "the tank loses 21.5 W at −12 °F, the tank is full"
    assert fill(said, "metric") == "the tank loses 21.5 W at −24.4 °C, the tank is full"


def test_texts_within_a_sentence_are_never_templates_or_markup():
    said = words("{name}: {why}", name="{why} [bold]", why="%s {0}")
    assert fill(said, "us") == "{why} [bold]: %s {0}"


def test_a_sentence_that_names_a_part_it_has_not_is_a_fault_of_ours():
    with pytest.raises(KeyError):
        fill(words("{nothing}"), "us")


@pytest.mark.parametrize(
    ("u", "kind", "us", "metric"),
    [
        (0.293104 * GALLON, "volume", "0.29", "1.1"),
        (0.0650521 * INCH, "length", "0.065", "1.7"),
        (0.5, "temperature", "0.90", "0.50"),
        (0.0, "power", "0", "0"),
        (12.0, "power", "12", "12"),
    ],
)
def test_an_uncertainty_has_two_digits_in_its_quantity_s_unit(u, kind, us, metric):
    assert uncertainty(u, kind, "us") == us
    assert uncertainty(u, kind, "metric") == metric


def figure(figure_id, value, unit, **more):
    return Figure(figure_id, "tank.galley", "title", unit, value, words("a · b"), **more)


def test_a_figure_is_shown_with_its_band_and_its_uncertainty():
    shown = show_figure(figure("tank.galley.volume", 133.7968, "L", u=1.109520), "us")
    assert (shown.value, shown.uncertainty, shown.band) == ("35.3 gal", "± 0.29", "")
    shown = show_figure(figure("tank.galley.needed", 31.63, "W", low=23.72, high=39.54, banded=True), "us")
    assert (shown.value, shown.band) == ("31.6 W", "23.7 … 39.5")
    assert shown.line() == "31.6 W  23.7 … 39.5"


def test_a_banded_temperature_is_told_in_whole_degrees():
    banded = figure("tank.galley.holds_to", -19.43415, "degC", low=-25.17287, high=-15.99091, banded=True)
    assert show_figure(banded, "us").line() == "−2 °F  −13 … 4"


def test_an_edge_that_is_none_is_never():
    hours = figure("tank.galley.hours_to_ice", 9.2, "h", low=7.3, high=None, banded=True)
    assert show_figure(hours, "us").band == "7.3 … never"


@pytest.mark.parametrize(
    ("value", "band"), [(2.73, "1.94 … 2.73"), (1.5, "1.5 … 2.04"), (2.0, "1.94 … 2.04")]
)
def test_the_band_that_is_shown_holds_the_value(value, band):
    nights = figure("supply.nights", value, "1", low=1.94, high=2.04, banded=True)
    assert show_figure(nights, "us").band == band


def test_a_figure_without_a_value_says_why():
    shown = show_figure(figure("tank.galley.least", None, "L", why_not=words("no pad")), "us")
    assert (shown.value, shown.why_not, shown.band) == ("–", "no pad", "")


def test_every_row_of_the_table_of_figures_has_a_kind_and_no_unit_goes_astray():
    units = {"L": "gal", "m": "in", "h": "h", "Wh": "Wh", "degC": "°F", "W/K": "W/K", "W": "W", "V": "V"}
    for row, unit in ROWS.items():
        kind_of_part, _, rest = row.partition(".")
        figure_id = row if kind_of_part in ("supply", "wiring") else f"{kind_of_part}.galley.{rest}"
        kind = figure_kind(figure_id)
        assert kind != "number" or row == "supply.nights", row
        shown = show_figure(figure(figure_id, 2.0, unit), "us").value
        if unit in units and not row.endswith(".cut"):
            assert shown.endswith(units[unit]), (row, shown)

"""What a unit is worth: the program's definitions against exact ones, and against pint's own registry."""

import math
from fractions import Fraction

import pint
import pytest

from logic.data.units import EXACT, SI_UNITS, SPELLINGS, quantity_text, read_quantity, registry, worth


@pytest.fixture(scope="module")
def pints_own():
    return pint.UnitRegistry(cache_folder=None)


# Our name → what pint's own registry calls it, and what it is turned into there.
IN_PINT = {
    "millimeter": ("millimeter", "meter"),
    "centimeter": ("centimeter", "meter"),
    "inch": ("inch", "meter"),
    "foot": ("foot", "meter"),
    "square_foot": ("foot ** 2", "meter ** 2"),
    "liter": ("liter", "meter ** 3"),
    "us_gallon": ("US_liquid_gallon", "meter ** 3"),
    "pound": ("pound", "kilogram"),
    "hour": ("hour", "second"),
    "mile_per_hour": ("mile / hour", "meter / second"),
    "kilometer_per_hour": ("kilometer / hour", "meter / second"),
    "fahrenheit_difference": ("delta_degree_Fahrenheit", "kelvin"),
    "watt_hour": ("watt_hour", "joule"),
    "watt_per_square_inch": ("watt / inch ** 2", "watt / meter ** 2"),
    "us_insulation": (
        "hour * foot ** 2 * delta_degree_Fahrenheit / international_british_thermal_unit",
        "meter ** 2 * kelvin / watt",
    ),
    "percent": ("percent", "dimensionless"),
}
OUR_SI = {
    "meter": "meter", "meter ** 2": "square_meter", "second": "second", "meter / second": "meter_per_second",
    "kelvin": "kelvin_difference", "joule": "joule", "kilogram": "kilogram", "dimensionless": "",
    "watt / meter ** 2": "watt_per_square_meter", "meter ** 2 * kelvin / watt": "si_insulation",
}  # fmt: skip


@pytest.mark.parametrize("unit", IN_PINT)
def test_our_definitions_agree_with_pint_s_own(pints_own, unit):
    theirs, si = IN_PINT[unit]
    expected = float(pints_own.Quantity(1.0, pints_own.parse_units(theirs)).to(si).magnitude)
    if si in OUR_SI:
        # pint's default registry · COMPUTED · rel 1e-12: floats there, fractions here
        assert float(worth(unit, OUR_SI[si])[0]) == pytest.approx(expected, rel=1e-12)
    if unit in EXACT:
        # the same, against the table that the screen prints by
        assert float(EXACT[unit][0]) == pytest.approx(expected, rel=1e-12)


def test_the_screen_s_factors_are_pint_s_to_the_last_digit():
    units = registry()
    for unit, (factor, zero) in EXACT.items():
        if unit == "degree_Fahrenheit":
            assert worth(unit, "degree_Celsius") == (factor, zero)
        elif unit == "percent":
            assert worth(unit, "")[0] == factor
        else:
            base = units.Quantity(Fraction(1), unit).to_base_units().magnitude
            assert Fraction(base) == factor, unit
            assert zero == 0


def test_exact_definitions():
    # NIST Handbook 44, appendix C, and NIST SP 811, appendix B · FOUND · exact
    assert worth("inch", "meter")[0] == Fraction(254, 10000)
    assert worth("foot", "meter")[0] == Fraction(3048, 10000)
    assert float(EXACT["us_gallon"][0] * 1000) == 3.785411784
    assert worth("pound", "kilogram")[0] == Fraction(45359237, 100000000)
    # reference, Units: R in US units · COMPUTED · the six digits printed there
    assert float(EXACT["us_insulation"][0]) == pytest.approx(0.176110, abs=5e-7)
    # reference, Units: W/in² · COMPUTED · the five digits printed there
    assert float(EXACT["watt_per_square_inch"][0]) == pytest.approx(1550.0, abs=0.05)


def test_a_difference_in_fahrenheit_has_no_thirty_two():
    # NIST SP 811: 20 °F of range is 11.11 K · FOUND · the digits printed
    assert float(20 * EXACT["fahrenheit_difference"][0]) == pytest.approx(11.11, abs=0.005)
    assert read_quantity("20 degF", "temperature") == pytest.approx(-20 / 3, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("32 degF", "temperature", 0.0),
        ("212 degF", "temperature", 100.0),
        ("-40 degF", "temperature", -40.0),
        ("60 mph", "speed", 26.8224),
        ("1 ft²", "area", 0.09290304),
        ("72 h", "hours", 259200.0),
        ("0.3 MΩ", "ohms", 300000.0),
        ("3 %", "share", 0.03),
        ("200 Ah", "charge", 200.0),
    ],
)
def test_quantities_are_exact_to_the_last_digit_of_a_float(text, kind, value):
    # NIST SP 811, appendix B · exact: fractions all the way, one rounding at the end
    assert read_quantity(text, kind) == value


def test_every_spelling_is_a_unit_of_its_kind():
    for kind, spellings in SPELLINGS.items():
        for unit in spellings.values():
            factor, _ = worth(unit, SI_UNITS[kind])
            assert factor > 0


@pytest.mark.parametrize("kind", [kind for kind in SI_UNITS if kind != "length"])
@pytest.mark.parametrize("metric", [False, True])
def test_what_is_written_reads_back(kind, metric):
    for value in (0.0, 1.0, 0.123456789, 17.0 / 3, 1234.5):
        text = quantity_text(value, kind, metric=metric)
        assert math.isclose(read_quantity(text, kind), value, rel_tol=1e-9, abs_tol=1e-9), text


def test_definitions_are_our_own_few_and_not_the_default_thousand():
    # What makes them load in milliseconds; the default registry takes 140. The time itself is not asserted.
    assert len(registry()._units) < 100

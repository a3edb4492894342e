"""ASHRAE's day, and typical years that come with an open package."""

import csv
from importlib import resources

import pytest

from logic.data.constants import SHARE_BELOW_HIGH
from logic.physics.weather import clock_degc, diurnal_course, hourly_course, mean
from tests.rig_builder import degc

HOUR = 3600.0
YEARS = {
    # heat.md, Weather: file, hours below 0 °C, at or below, longest run below, lowest, degree-hours, highest
    "723170TYA.CSV": (792, 849, 156, -16.7, 3724.6, 35.6),
    "703165TY.csv": (1640, 1827, 225, -10.6, 5862.4, 19.4),
}


@pytest.mark.parametrize(
    ("clock", "fahrenheit"), [(18, 6.24), (21, -2.16), (6.5, -10.68), (11.25, 7.08), (14.5, 12)]
)
def test_the_air_through_a_day(clock, fahrenheit):
    found = clock_degc(clock * HOUR, low_degc=degc(-12), high_degc=degc(12))
    # H21 · ASHRAE Fundamentals 2021, ch. 14, table 6 · FOUND shares · abs 1e-9
    assert found * 1.8 + 32 == pytest.approx(fahrenheit, abs=1e-9)


def test_the_shares_of_a_day():
    # H21 · the hourly shares of a day add to 12.87 · abs 1e-9
    assert sum(SHARE_BELOW_HIGH) == pytest.approx(12.87, abs=1e-9)
    assert SHARE_BELOW_HIGH.index(1.0) == 4
    assert SHARE_BELOW_HIGH[13] == SHARE_BELOW_HIGH[14] == 0.0


def test_the_mean_of_a_spell_of_whole_days():
    course = diurnal_course(low_degc=-10.0, high_degc=10.0, nights=3)
    # P7 · high − 12.87/24 of the range · rel 1e-9
    assert mean(course) == pytest.approx(10 - 12.87 / 24 * 20, rel=1e-9)
    assert len(course.days()) == 3
    assert course.degc[0] == pytest.approx(10 - 0.24 * 20, rel=1e-12)


def year(file):
    """Hourly dry bulb of a year, by the csv module alone."""
    pvlib = pytest.importorskip("pvlib")
    with (resources.files(pvlib) / "data" / file).open(newline="") as text:
        lines = csv.reader(text)
        next(lines)
        header = next(lines)
        column = header.index("Dry-bulb (C)")
        return [float(row[column]) for row in lines]


@pytest.mark.parametrize("file", list(YEARS))
def test_a_typical_years_counts(file):
    degrees = year(file)
    below, at_or_below, longest, lowest, degree_hours, highest = YEARS[file]
    runs = [0]
    for each in degrees:
        runs.append(runs[-1] + 1 if each < 0 else 0)
    # Y1 · TMY3 data in pvlib 0.16.1 · COMPUTED · exact: counts; the sum to its printed digit
    assert len(degrees) == 8760
    assert sum(each < 0 for each in degrees) == below
    assert sum(each <= 0 for each in degrees) == at_or_below
    assert max(runs) == longest
    assert (min(degrees), max(degrees)) == (lowest, highest)
    assert sum(-each for each in degrees if each < 0) == pytest.approx(degree_hours, abs=0.05)


def test_a_course_of_one_row_has_its_temperature_as_mean():
    course = hourly_course((0.0,), (-3.0,), (0.0,))
    assert mean(course) == -3.0
    assert course.days() == ()
    assert course.length == 0.0


def test_knots_that_do_not_rise_are_refused():
    with pytest.raises(ValueError):
        hourly_course((0.0, 0.0), (1.0, 1.0), (0.0, 0.0))

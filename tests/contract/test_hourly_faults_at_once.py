"""Faults of an hourly file are told together: those of its times beside those of its values."""

import pytest

from logic.data.faults import ProfileFaults
from logic.data.hourly_file import parse_hourly

HEADER = "time,temperature_degC\n"


def told(*rows):
    with pytest.raises(ProfileFaults) as caught:
        parse_hourly(HEADER + "\n".join(rows) + "\n", file="week.csv")
    return [fault.found for fault in caught.value.faults]


def test_a_long_step_is_told_beside_a_value_that_is_none():
    found = told("2026-01-01T00:00,-5", "2026-01-01T02:00,-6", "2026-01-01T03:00,cold", "2026-01-01T02:30,-6")
    assert found == ['line 4: "cold"', "line 3: a step of 2 h"]


def test_a_row_is_held_against_the_one_right_before_it_only():
    # beside a row that can't be read nobody knows whether the step is too long
    assert told("2026-01-01T00:00,-5", "noon,-6", "2026-01-01T02:00,-6") == ['line 3: "noon"']


def test_an_offset_among_times_without_is_told_beside_a_value_that_is_none():
    found = told("2026-01-01T00:00,?", "2026-01-01T01:00,-5", "2026-01-01T02:00+01:00,-6")
    assert found == ['line 2: "?"', "line 4: a time with an offset among times without, or the reverse"]

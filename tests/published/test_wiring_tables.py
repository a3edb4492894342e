"""Every row of the wiring's tables within its plausible range, with mark, unit and source; series of their
shape.
"""

from itertools import pairwise

import pytest

from logic.data.tables import MARKS, SHAPES, WIRING_TABLES, column, tables
from logic.data.wiring_constants import AMPACITY, BOATS_AMPACITY, GAUGES

ALL = [series for table in WIRING_TABLES for series in tables(table).values()]
ROWS = [row for series in ALL for row in series.rows]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.table}.{row.series}.{row.key}")
def test_each_row_lies_in_its_range(row):
    # reference, README: plausible range of each row
    assert row.low <= row.value <= row.high, (
        f"{row.table}.{row.series}.{row.key} is {row.value}, not {row.low} to {row.high}"
    )
    assert row.mark in MARKS, f"{row.table}.{row.series}.{row.key} has the mark {row.mark!r}"
    assert row.source, f"{row.table}.{row.series}.{row.key} has no source"
    assert row.unit, f"{row.table}.{row.series}.{row.key} has no unit"


@pytest.mark.parametrize("series", ALL, ids=lambda series: f"{series.table}.{series.name}")
def test_each_series_has_its_shape(series):
    assert series.shape in SHAPES
    values = [row.value for row in series.rows]
    fits = {
        "rises": lambda a, b: a < b,
        "falls": lambda a, b: a > b,
        "never falls": lambda a, b: a <= b,
        "any": lambda a, b: True,
    }[series.shape]
    for (before, after), row in zip(pairwise(values), series.rows[1:], strict=True):
        assert fits(before, after), f"{series.table}.{series.name}.{row.key}: {after} after {before}"
    assert len({row.key for row in series.rows}) == len(series.rows)


def test_a_row_lies_between_its_neighbours_and_not_in_their_place():
    """A list one row out of step passes every range that is wide enough: each area is 1.59 times the one
    before.
    """
    areas = column("conductors", "sae-area")
    for thin, thick in pairwise(GAUGES):
        # reference `wiring.md`, conductors · 1.590 less or more by what SAE/AWG spans, 0.88–0.95
        assert 1.590 * 0.88 / 0.95 <= areas[thick] / areas[thin] <= 1.590 * 0.95 / 0.88


def test_the_programs_ampacity_is_never_above_that_of_boats():
    for gauge in GAUGES:
        # reference `wiring.md`, ampacity · its own test
        assert AMPACITY[gauge] <= BOATS_AMPACITY[gauge] <= column("ampacity", "boats-105")[gauge]
        assert AMPACITY[gauge] <= column("ampacity", "nec-60").get(gauge, BOATS_AMPACITY[gauge])
        assert AMPACITY[gauge] <= column("ampacity", "nec-small").get(gauge, BOATS_AMPACITY[gauge])


def test_a_continuous_load_stays_within_what_the_code_allows_small_wires():
    # reference `wiring.md`, NEC small conductor · FOUND: 18 AWG continuous ≤ 5.6 A, 16 AWG ≤ 8 A
    assert AMPACITY[18] / 1.25 <= 5.6
    assert AMPACITY[16] / 1.25 <= 8

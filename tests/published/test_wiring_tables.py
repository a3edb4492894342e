"""The wiring's tables against each other: what no range alone would catch."""

from itertools import pairwise

from logic.data.tables import column
from logic.data.wiring_constants import AMPACITY, BOATS_AMPACITY, GAUGES


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

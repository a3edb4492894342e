"""Bundles, sleeves, clamps and cuts against worked values: B1 to B8 of the checks."""

import itertools
from math import pi, sin, sqrt

import pytest

from logic.data.wiring_constants import PACKING
from logic.physics.cutting import cut_length, spools_for, take_up
from logic.physics.protection import bundle_limit
from logic.physics.sleeves import (
    bundle_diameter,
    clamp_places,
    clamps,
    hole_for,
    sleeve_bore,
    splice_places,
)
from tests.circuit_case_builder import feet, rig, values_of

INCH = 0.0254
FOOT = 0.3048


@pytest.mark.parametrize(
    ("count", "ratio"),
    [
        (3, 1 + 2 / sqrt(3)),
        (5, 1 + sqrt(2 + 2 / sqrt(5))),
        (8, 1 + 1 / sin(pi / 7)),
        (9, 1 + sqrt(4 + 2 * sqrt(2))),
        (11, 1 + 1 / sin(pi / 9)),
        (13, 2 + sqrt(5)),
        (18, 1 + sqrt(2) + sqrt(6)),
        (19, 1 + sqrt(2) + sqrt(6)),
    ],
)
def test_circles_packed_in_a_circle(count, ratio):
    # B1 · circle-packing tables · FOUND · abs 5e-5: four printed decimals
    assert PACKING[count] == pytest.approx(ratio, abs=5e-5)


def test_no_packing_is_denser_than_can_be():
    for count, ratio in PACKING.items():
        # reference `wiring.md`, bundles · plausible: n/(D/d)² ≤ 0.81 for n > 1
        assert count == 1 or count / ratio**2 <= 0.81
    assert sorted(PACKING) == list(range(1, 21))


def test_four_wires_in_a_sleeve():
    wide = bundle_diameter(4, outside=0.116 * INCH)
    # B2 · COMPUTED · rel 1e-4; the sleeve exact
    assert wide / INCH == pytest.approx(0.28005, rel=1e-4)
    assert sleeve_bore(wide, share=1.1) == sleeve_bore(wide) == 0.375 * INCH


def test_three_wires_for_which_the_rule_matters():
    wide = bundle_diameter(3, outside=0.102 * INCH)
    # B3 · COMPUTED · rel 1e-4; the sleeves exact
    assert wide / INCH == pytest.approx(0.21978, rel=1e-4)
    assert sleeve_bore(wide, share=1.1) == 0.25 * INCH
    assert sleeve_bore(wide) == 0.375 * INCH


def test_take_up_of_a_twist():
    # B4 · helix · COMPUTED · rel 1e-6: printed digits
    assert take_up(2, outside=0.116 * INCH, lay=2 * INCH) == pytest.approx(1.016465, rel=1e-6)
    assert take_up(3, outside=0.141 * INCH, lay=2 * INCH) == pytest.approx(1.032185, rel=1e-6)
    assert take_up(1, outside=0.1, lay=0.1) == take_up(4, outside=0.1, lay=0.1) == 1.0


def test_a_cut_with_slack_twist_and_ends():
    twist = take_up(2, outside=0.116 * INCH, lay=2 * INCH)
    # B5 · job · COMPUTED · rel 1e-6
    assert cut_length(14 * FOOT, 0.15, twist=twist, ends=12 * INCH) / FOOT == pytest.approx(
        18.36509, rel=1e-6
    )
    assert cut_length(14 * FOOT, 0.15, twist=1.0, ends=12 * INCH) / FOOT == pytest.approx(18.1, rel=1e-12)
    twisted = values_of(rig({"a": 60.0}, feet("r", 14, 14, feeds=("a",), bundle="m")))
    assert twisted["run.r.cut"] / FOOT == pytest.approx(18.36509, rel=1e-6)
    alone = values_of(rig({"a": 60.0}, feet("r", 14, 14, feeds=("a",))))
    assert alone["run.r.cut"] / FOOT == pytest.approx(18.1, rel=1e-12)


def test_spools_where_the_longest_first_rule_needs_one_more():
    plan = spools_for([length * FOOT for length in (12, 11, 9, 8, 6, 4)], [25 * FOOT])
    # B6 · COMPUTED · exact: 12 + 9 + 4, 11 + 8 + 6
    assert len(plan.spools) == 2
    assert plan.proven
    assert plan.waste == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("route", "count"),
    [
        (1 * FOOT, 1),
        (3 * FOOT, 3),
        (4 * FOOT, 3),
        (4 * FOOT + INCH / 16, 4),
        (5.5 * FOOT, 4),
        (14 * FOOT, 10),
        (0, 1),
    ],
)
def test_clamps_along_a_route(route, count):
    # B7 · COMPUTED · exact: whole gaps of 18 in want no clamp more from rounding
    assert clamps(route) == count


@pytest.mark.parametrize(
    ("gauge", "together", "amps"), [(14, 6, 12), (16, 8, 7.5), (12, 3, 17.5), (10, 25, 16), (18, 2, 10)]
)
def test_what_table_5_leaves_in_a_bundle(gauge, together, amps):
    # B8 · 33 CFR 183.425 table 5, 60 °C, factors of 183.435 · FOUND · 1e-12: arithmetic
    assert bundle_limit(gauge, together) == pytest.approx(amps, rel=1e-12)


def test_a_bundles_figures():
    found = values_of(
        rig(
            {"a": 60.0, "b": 60.0},
            feet("a", 14, 14, feeds=("a",), bundle="m"),
            feet("b", 9, 16, feeds=("b",), bundle="m"),
        )
    )
    # B2's four wires: the largest, 14 AWG, taken for all; B7's 14 ft
    assert found["bundle.m.diameter"] / INCH == pytest.approx(0.28005, rel=1e-4)
    assert found["bundle.m.sleeve"] == 0.375 * INCH
    assert found["bundle.m.clamps"] == 10


def test_more_than_twenty_conductors_have_no_diameter():
    names = [f"r{number}" for number in range(11)]
    found = values_of(
        rig(
            dict.fromkeys(names, 10.0),
            *(feet(name, 5, 18, feeds=(name,), bundle="m") for name in names),
        )
    )
    # rig-format, conventions of parts: over 20 conductors null; no take-up
    assert found["bundle.m.diameter"] is None
    assert found["bundle.m.sleeve"] is None
    assert found["run.r0.cut"] / FOOT == pytest.approx(5 * 1.15 + 2, rel=1e-12)


def test_no_sleeve_is_large_enough():
    names = [f"r{number}" for number in range(9)]
    found = values_of(
        rig(
            dict.fromkeys(names, 10.0),
            *(feet(name, 5, 4, feeds=(name,), bundle="m", outside=0.4 * INCH) for name in names),
        )
    )
    assert found["bundle.m.diameter"] / INCH == pytest.approx(4.8637 * 0.4, rel=1e-4)
    assert found["bundle.m.sleeve"] is None


def test_a_hole_is_drilled_in_sixteenths_and_holds_sleeve_and_grommet():
    for bore in (0.25, 0.375, 0.5, 0.625, 0.75, 1.0, 1.25, 1.5, 2.0):
        hole = hole_for(bore * INCH)
        sixteenths = hole.drill / INCH * 16
        # job, Parts · standard 1/16 in steps; grommet 1/8 in a side, PRACTICE
        assert sixteenths == pytest.approx(round(sixteenths), abs=1e-9)
        assert hole.drill >= hole.sleeve_outside + 0.25 * INCH - 1e-12
        assert hole.drill < hole.sleeve_outside + 0.25 * INCH + INCH / 16


@pytest.mark.parametrize("route", [0.0, 0.2, 0.5, 1.0, 3.0, 20.0])
@pytest.mark.parametrize("count", [1, 6, 20])
def test_joints_lie_apart_and_under_no_clamp(route, count):
    places = splice_places(count, route)
    assert len(places) == count
    assert all(after - before >= 1.5 * INCH - 1e-9 for before, after in itertools.pairwise(places))
    assert all(abs(place - held) >= INCH - 1e-6 for place in places for held in clamp_places(route))


def test_clamps_are_within_6_in_of_each_end_and_18_in_of_each_other():
    for route in (0.35, 1.0, 2.3, 14 * FOOT, 90.0):
        places = clamp_places(route)
        assert len(places) == clamps(route)
        assert places[0] == pytest.approx(6 * INCH)
        assert places[-1] == pytest.approx(route - 6 * INCH)
        assert all(b - a <= 18 * INCH + 1e-9 for a, b in itertools.pairwise(places))

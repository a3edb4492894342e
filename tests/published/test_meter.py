"""What a meter shows and how far to trust it: M1 to M4 and S1 of the checks."""

from math import sqrt

import pytest

from logic.data.tables import value
from logic.physics.conductors import resistance_per_metre
from logic.physics.meter import (
    allowance,
    clamp,
    handheld,
    joint_by_difference,
    joint_by_drops,
    pad_resistance,
)
from logic.physics.protection import least_switch

FOOT = 0.3048
N1 = 2 * 18 * FOOT * resistance_per_metre(14, "awg", 30.0)


def test_a_cold_pad():
    expected = pad_resistance(60.0, 12.0, tolerance=(-0.05, 0.10))
    # M1 · design, tolerance PRACTICE · exact
    assert (expected.value, expected.low, expected.high) == pytest.approx((2.4, 2.28, 2.64), rel=1e-12)
    assert expected.holds(2.285)
    assert not expected.holds(2.27)
    assert not expected.holds(2.65)


@pytest.mark.parametrize(("switches", "extra", "watts"), [(0, 48.624e-3, 1.2156), (1, 38.624e-3, 0.96560)])
def test_a_joint_by_the_difference_of_two_readings(switches, extra, watts):
    assert pytest.approx(96.3758e-3, rel=1e-5) == N1
    joint = joint_by_difference(
        (12.8, 5e-3), (12.0, 5e-3), 5.0, u_current=50e-3, computed=N1, allowed=allowance(1, switches)
    )
    # M2 · (0.8 V/5 A) less computed, 15 mΩ, 10 mΩ · COMPUTED, allowances PRACTICE · rel 1e-3: printed digits
    assert joint.extra == pytest.approx(extra, rel=1e-3)
    assert joint.watts == pytest.approx(watts, rel=1e-3)
    assert joint.u == pytest.approx(2.1354e-3, rel=1e-3)
    assert joint.bad


@pytest.mark.parametrize(
    ("out", "back", "extra", "u", "bad"),
    [
        (0.310, 0.255, -8.376e-3, None, False),
        (0.450, 0.255, 19.624e-3, 1.438e-3, False),
        (0.520, 0.255, 33.624e-3, 1.576e-3, True),
    ],
)
def test_a_joint_by_drops(out, back, extra, u, bad):
    joint = joint_by_drops(
        ((out, 1e-3), (back, 1e-3)), 5.0, u_current=50e-3, computed=N1, allowed=allowance(1, 1)
    )
    # M3 · design · COMPUTED · rel 1e-3: printed digits
    assert joint.extra == pytest.approx(extra, rel=1e-3)
    assert u is None or joint.u == pytest.approx(u, rel=1e-3)
    assert joint.bad is bad
    if bad:
        assert joint.watts == pytest.approx(0.84060, rel=1e-3)


def test_a_joint_bad_by_its_watts_alone():
    wires = 2 * 6 * FOOT * resistance_per_metre(10, "awg", 30.0)
    assert wires == pytest.approx(12.7063e-3, rel=1e-5)
    joint = joint_by_drops(((0.455, 1e-3),), 12.0, u_current=50e-3, computed=wires, allowed=allowance(1, 0))
    # M4 · design · COMPUTED · rel 1e-3
    assert joint.extra == pytest.approx(10.210e-3, rel=1e-3)
    assert joint.watts == pytest.approx(1.4703, rel=1e-3)
    assert joint.bad


def test_no_joint_without_a_current():
    with pytest.raises(ValueError, match="without a current"):
        joint_by_drops(((0.1, 1e-3),), 0.0, u_current=0.05, computed=0.0, allowed=0.0)


def test_a_handheld_meters_uncertainty():
    # job, `Proving` · PRACTICE · (0.5 % + one digit)/√3, (2 % + three digits)/√3 · 1e-12: arithmetic
    assert handheld(12.8, 0.01) == pytest.approx((0.064 + 0.01) / sqrt(3), rel=1e-12)
    assert clamp(5.0, 0.01) == pytest.approx((0.1 + 0.03) / sqrt(3), rel=1e-12)


def test_a_switch_for_a_heater_at_12_volts():
    # S1 · AC 43.13-1B table 11-4, factor 1 at 12 V d.c. (2 is for 28 V) · FOUND · exact
    assert value("wiring_rules", "circuit", "switch-circular") * 8 == 8
    # S1 · the program's own, PRACTICE · exact
    assert least_switch(8.0) == 10.0

"""Batteries, nights and the converter against Peukert and against the checks' own accounts."""

from math import log

import pytest
from msgspec.structs import replace

from logic.assessment.nudge import nudges_of
from logic.assessment.supply_case import battery_degc, supply_inputs, worst_night
from logic.data.profile import Hourly
from logic.data.profile_file import load_profile
from logic.data.rigs_folder import rigs_folder
from logic.physics import battery
from logic.physics.weather import hourly_course, mean, seconds_below
from tests.heat_case import case_of, h23_tank, heat_figures, heated
from tests.rig_builder import (
    INCH,
    R_US,
    degc,
    design,
    drain,
    heater,
    profile,
    run,
    supply,
    tank,
    thermostat,
)

HOUR = 3600.0


@pytest.mark.parametrize(("amps", "hours"), [(5, 20), (10, 8.705506), (20, 3.789291)])
def test_peukerts_rule_alone(amps, hours):
    # P1 · Peukert · COMPUTED · rel 1e-6
    assert battery.peukert_hours(amps, capacity_ah=100, peukert=1.2) == pytest.approx(hours, rel=1e-6)


def test_peukerts_exponent_from_two_rates():
    k = log(20 * 60 / 140) / log(25 / 5)
    # P2 · 5 A for 20 h and 25 A for 140 min · COMPUTED · rel 1e-6
    assert k == pytest.approx(1.334897, rel=1e-6)
    assert battery.peukert_hours(25, capacity_ah=100, peukert=k) == pytest.approx(140 / 60, rel=1e-9)


@pytest.mark.parametrize(("amps", "hours"), [(3, 13.33333), (6, 6.147386)])
def test_lead_in_the_cold_with_the_cap(amps, hours):
    found = battery.hours_at(amps, capacity_ah=100, usable=0.5, peukert=1.2, factor=0.8)
    # P3 · job: 80 Ah stands in the power, usable outside it · COMPUTED · rel 1e-6
    assert found == pytest.approx(hours, rel=1e-6)


def test_the_cap_is_what_binds_at_a_small_current():
    alone = 0.5 * battery.peukert_hours(3, capacity_ah=80, peukert=1.2)
    # P3 · the formula alone · COMPUTED · rel 1e-6
    assert alone == pytest.approx(14.12298, rel=1e-6)


def with_other(amps, **values):
    return profile(supply=supply(other=amps, **values))


def test_lithium_warm_as_figures():
    found = heat_figures(with_other(6.5, battery_degc=degc(77)))
    # P4 · job · COMPUTED · rel 1e-6
    assert found["supply.night"].value == pytest.approx(6.5 * 24, rel=1e-12)
    assert found["supply.hours"].value == pytest.approx(24.61538, rel=1e-6)
    assert found["supply.nights"].value == pytest.approx(1.02564, rel=1e-5)


def lead(**values):
    return {"chemistry": "agm", "capacity_ah": 100.0, "usable": 0.5, "peukert": 1.2, **values}


@pytest.mark.parametrize(("cells", "usable"), [(lead(), 33.71914), ({}, 124.8889)])
def test_usable_at_25_degrees_fahrenheit(cells, usable):
    found = heat_figures(with_other(1.0, battery_degc=degc(25), **cells))
    # P5 · job, linear between the rows · COMPUTED · rel 1e-6
    assert found["supply.usable"].value == pytest.approx(usable, rel=1e-6)


@pytest.mark.parametrize(
    ("chemistry", "factors"), [("agm", (0.85, 0.404321, 0.40)), ("lithium", (0.88, 0.711111, 0.70))]
)
def test_temperature_factors(chemistry, factors):
    found = [battery.temperature_factor(chemistry, degc(t)) for t in (50, 0, -10)]
    # P5 · the same, held constant beyond the ends · COMPUTED · rel 1e-6
    assert found == pytest.approx(factors, rel=1e-5)
    assert battery.temperature_factor("flooded", 25.0) == 1.0
    assert battery.temperature_factor("lithium", 90.0) == 1.0


def p6(**cells):
    """H23's tank with both pads at 12.4 V."""
    over = {"insulation": 3 * R_US, "covered": True, "volts": 12.4}
    pads = (
        heater("galley-a", watts=30.0, thermostat=thermostat(40, 46), **over),
        heater("galley-b", watts=25.0, thermostat=thermostat(45, 55), **over),
    )
    return heated(
        *pads,
        tanks=(h23_tank(),),
        design=design(nights=3),
        supply=supply(volts=12.4, other=2.0, battery_degc=degc(25), **cells),
    )


@pytest.mark.parametrize(("cells", "hours"), [({}, 19.44588), ({**lead(), "capacity_ah": 200.0}, 10.50050)])
def test_the_worst_night_and_how_long_it_lasts(cells, hours):
    found = heat_figures(p6(**cells))
    # P6 · 1316.101 Wh / 12.4 V + 48 Ah · COMPUTED · rel 1e-4
    assert found["supply.night"].value == pytest.approx(154.1372, rel=1e-4)
    assert found["supply.hours"].value == pytest.approx(hours, rel=1e-4)
    assert found["supply.nights"].value == pytest.approx(hours / 24, rel=1e-4)
    night = found["supply.night"]
    assert night.low <= night.value <= night.high
    hours_figure = found["supply.hours"]
    assert hours_figure.low <= hours_figure.value <= hours_figure.high


def hourly_rows(seconds, degc_, first_clock=18 * HOUR):
    return Hourly(seconds=seconds, degc=degc_, clock=tuple(first_clock + each for each in seconds))


P7 = hourly_rows((0.0, HOUR, 1.5 * HOUR, 2.5 * HOUR), (-2.0, -6.0, -4.0, -3.0))


COLD = {"low_degc": degc(-12), "high_degc": degc(12)}
COOL = {"low_degc": degc(20), "high_degc": degc(40)}
BY_ROWS = {"low_degc": -6.0, "high_degc": -2.0, "hourly": P7}


@pytest.mark.parametrize(
    ("weather", "degrees"),
    [(COLD, -18.26111), (COOL, -1.513889), (BY_ROWS, -4.0)],
    ids=["cold", "cool", "rows"],
)
def test_a_battery_whose_place_is_not_given_is_as_cold_as_the_spell(weather, degrees):
    # P7 · high − 12.87/24 of the range; trapezoids for hourly rows, by their times · COMPUTED · rel 1e-6
    assert battery_degc(profile(design=design(**weather))) == pytest.approx(degrees, rel=1e-6)


@pytest.mark.parametrize(
    ("weather", "in_lead", "in_lithium"), [(COLD, 20.0, 113.3911), (COOL, 36.02816, 126.7889)]
)
def test_usable_at_the_spells_mean(weather, in_lead, in_lithium):
    for cells, usable in ((lead(), in_lead), ({}, in_lithium)):
        rig = profile(design=design(**weather), supply=supply(other=1.0, **cells))
        # P7 · factor at the spell's mean · COMPUTED · rel 1e-6
        assert heat_figures(rig)["supply.usable"].value == pytest.approx(usable, rel=1e-6)


def test_days_go_by_each_rows_own_clock():
    seconds = tuple(hour * HOUR for hour in range(31))
    rows = hourly_rows(seconds, tuple(float(hour) for hour in range(31)), first_clock=15 * HOUR)
    course = hourly_course(rows.seconds, rows.degc, rows.clock)
    # rig-format, Energy: days from 18:00 to 18:00, the first and the last in part
    assert course.days() == ((0.0, 3 * HOUR), (3 * HOUR, 27 * HOUR), (27 * HOUR, 30 * HOUR))
    # where the clock is put forward by an hour between two rows, the day is an hour shorter
    forward = tuple(clock + (HOUR if clock >= 26 * HOUR else 0.0) for clock in rows.clock)
    shifted = hourly_course(rows.seconds, rows.degc, forward)
    assert shifted.days()[1] == (3 * HOUR, 26 * HOUR)


def test_a_part_of_a_day_counts_what_its_heaters_used():
    rows = hourly_rows((0.0, HOUR, 2 * HOUR, 3 * HOUR), (-5.0,) * 4, first_clock=17 * HOUR)
    rig = heated(
        heater(watts=60.0),
        design=design(hourly=rows, low_degc=-5.0, high_degc=-5.0),
        supply=supply(other=1.0),
    )
    amps = 60.0 * 12.8 / 144
    # rig-format, Energy: two hours on in the longer day, and the other load for 24 h · rel 1e-12
    assert heat_figures(rig)["supply.night"].value == pytest.approx(2 * amps + 24, rel=1e-12)


def test_a_drains_heater_is_on_always_or_by_the_air_of_its_place():
    wrap = heater("wrap", on="galley-valve", face="wrap", watts=20.0, length=18 * INCH, width=2 * INCH)
    rows = hourly_rows(tuple(hour * HOUR for hour in range(25)), tuple(12.0 - hour for hour in range(25)))

    def night(one):
        return heat_figures(
            profile(
                tanks=(tank(),),
                drains=(drain(),),
                heaters=(one,),
                runs=(run(length=0.0, feeds=("wrap",)),),
                design=design(hourly=rows, low_degc=-12.0, high_degc=12.0),
            )
        )["supply.night"].value

    amps = 20.0 * 12.8 / 144
    # rig-format, Energy: without a thermostat always on; with one, while the air is below its `on`
    assert night(wrap) == pytest.approx(24 * amps, rel=1e-12)
    by_air = night(replace(wrap, thermostat=thermostat(41, 50)))
    assert by_air == pytest.approx((24 - 7) * amps, rel=1e-12)


def test_the_converters_share():
    rig = heated(heater(watts=60.0), supply=supply(converter=45.0, other=3.0))
    amps = 60.0 * 13.6 / 144
    found = heat_figures(rig)
    # rig-format, Energy: (supply.current + other)/rating, the current at `charging` · rel 1e-12
    assert found["supply.current"].value == pytest.approx(amps, rel=1e-12)
    assert found["supply.converter"].value == pytest.approx((amps + 3) / 45, rel=1e-12)
    assert heat_figures(heated())["supply.converter"].value is None


def test_nothing_drawn_lasts_for_ever():
    found = heat_figures(heated())
    assert found["supply.night"].value == 0.0
    assert found["supply.hours"].value is None
    assert found["supply.nights"].why_not is not None


def test_time_below_a_temperature_is_exact_on_straight_lines():
    course = hourly_course((0.0, HOUR, 2 * HOUR), (1.0, -1.0, 3.0), (0.0, HOUR, 2 * HOUR))
    assert seconds_below(course, 0.0, start=0.0, end=2 * HOUR) == pytest.approx(0.75 * HOUR, rel=1e-12)
    assert seconds_below(course, 0.0, start=0.75 * HOUR, end=1.5 * HOUR) == pytest.approx(
        0.5 * HOUR, rel=1e-12
    )
    assert mean(course) == pytest.approx(0.5, rel=1e-12)


@pytest.mark.parametrize("rig", ["full-belly.toml", "two-tanks.toml"])
@pytest.mark.parametrize("edge", [0.75, 1.0, 1.25])
def test_an_account_is_the_same_from_nothing_and_from_one_beside_it(rig, edge):
    """A part that is moved is taken out of the days' sums and put in again; every size and every voltage tried."""
    nudges = nudges_of(case_of(load_profile(rigs_folder() / rig).profile))
    base = supply_inputs(nudges.base)
    rig_profile = nudges.case.profile
    moves = [f"tank.{each.id}.{size}" for each in rig_profile.tanks for size in ("length", "width", "height")]
    moves += [f"bay.{bay.id}.tops" for bay in rig_profile.bays]
    moves += [f"heater.{each.id}.volts" for each in rig_profile.heaters]
    for move in moves:
        moved = supply_inputs(nudges.variant(move, 0.01), base=base)
        assert moved != base, move
        alone = worst_night(moved, other=1.0, edge=edge)
        beside = worst_night(moved, other=1.0, edge=edge, beside=base)
        # one sum against another of the same parts · rel 1e-9: arithmetic
        assert beside.whole_ah == pytest.approx(alone.whole_ah, rel=1e-9), move

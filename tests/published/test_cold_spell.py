"""Cold spells against closed forms, and against the checks' own exact runs."""

from itertools import pairwise
from math import log

import pytest

from logic.assessment.tank_view import spell_of, tank_view
from logic.data.profile import Hourly
from logic.physics.cold_spell import TooManyEvents, cold_spell, start_state
from logic.physics.spell_parts import ICE, LIQUID, MUSH, SpellHeater, SpellState
from logic.physics.tank_heat import mass_of
from tests.heat_case import case_of, h3, h4, h23_tank, heat_figures, heated, pad
from tests.rig_builder import INCH, R_US, degc, design, profile, tank, thermostat

HOUR = 3600.0
MASS = mass_of(40 * 231 * INCH**3)  # H6's contents
G = 6.0  # and its conductance, W/K


def steady(hours, *, start, heaters=(), first=-10.0, last=None, trace=False):
    """H6's tank with surroundings that go in a straight line."""
    last = first if last is None else last
    return cold_spell(
        (0.0, hours * HOUR),
        (first, last),
        mass=MASS,
        conductance=G,
        heaters=heaters,
        start=start if isinstance(start, SpellState) else start_state(start, heaters),
        trace=trace,
    )


def value(found, name):
    return found[f"tank.galley.spell.{name}"].value


def test_cooling_plateau_and_solid():
    pieces = steady(400, start=10.0, trace=True).pieces
    liquid, mush, ice = pieces
    assert (liquid.phase, mush.phase, ice.phase) == (LIQUID, MUSH, ICE)
    # H6 · C/G ln 2; ρVL over 60 W · COMPUTED · rel 1e-5
    assert liquid.length / HOUR == pytest.approx(20.35708, rel=1e-5)
    assert mush.length / HOUR == pytest.approx(233.7118, rel=1e-5)


def test_a_thermostat_cycles_by_the_closed_form():
    heaters = (SpellHeater(150.0, degc(45), degc(50)),)
    spell = steady(400, start=10.0, heaters=heaters)
    times = spell.on_times[0]
    on = [(end - begin) / HOUR for begin, end in times[1:-1]]
    off = [(after[0] - before[1]) / HOUR for before, after in pairwise(times[1:-1])]
    tau = MASS * 4190 / G / HOUR
    # H9 · closed form · COMPUTED · rel 1e-5
    assert on == pytest.approx([12.97621] * len(on), rel=1e-5)
    assert off == pytest.approx([4.39161] * len(off), rel=1e-5)
    # H9 · τ ln((T_high − T_eff)/(T_low − T_eff)), T_eff −10 and 15 °C · rel 1e-9: both are exact
    assert off == pytest.approx([tau * log((degc(50) + 10) / (degc(45) + 10))] * len(off), rel=1e-9)
    assert on == pytest.approx([tau * log((degc(45) - 15) / (degc(50) - 15))] * len(on), rel=1e-9)
    duty = on[0] / (on[0] + off[0])
    # H9 · COMPUTED · rel 1e-5
    assert duty == pytest.approx(0.747141, rel=1e-5)


@pytest.mark.parametrize(("hours", "contents"), [(6, 6.235164), (12, 4.242094)])
def test_contents_follow_a_falling_line(hours, contents):
    spell = steady(hours, start=8.0, first=0.0, last=-0.5 * hours)
    # H10 · T = a + b(t−τ) + (T₀−a+bτ)e^(−t/τ) · COMPUTED · abs 1e-5
    assert spell.end.degc == pytest.approx(contents, abs=1e-5)


def test_what_the_line_would_bring_below_freezing_freezes():
    spell = steady(24, start=8.0, first=0.0, last=-12.0, trace=True)
    liquid = spell.pieces[0]
    # H10 · the formula gives −0.267845 °C after 24 h, as if it could not freeze · COMPUTED · abs 1e-5
    assert liquid.degc_at(24 * HOUR) == pytest.approx(-0.267845, abs=1e-5)
    assert spell.end.phase == MUSH
    assert spell.lowest_degc == 0.0


def test_the_mush_is_a_parabola():
    spell = steady(10, start=SpellState(LIQUID, 0.0), first=-2.0, last=-5.0)
    # H11 · G(2 + 0.15 t) t over ρVL · COMPUTED · rel 1e-5
    assert spell.ice_share == pytest.approx(0.0149757, rel=1e-5)
    assert spell.ice_seconds == pytest.approx(10 * HOUR, rel=1e-12)


def test_two_nights_with_a_thermostat():
    rig = h4()
    found = heat_figures(rig)
    # H12 · exact events; 2 s steps agree to 1e-5 · COMPUTED · rel 1e-4
    assert value(found, "lowest") == pytest.approx(4.929876, rel=1e-4)
    assert value(found, "duty") == pytest.approx(0.868079, rel=1e-4)
    assert value(found, "energy") == pytest.approx(1041.695, rel=1e-4)
    assert value(found, "ice_hours") == 0.0
    view = tank_view(case_of(rig), rig.tanks[0])
    spell = spell_of(view.inputs)
    assert [time / HOUR for time in spell.on_times[0][0]] == pytest.approx([6.33222, 48.0], rel=1e-4)
    by_day = spell.seconds_on_between(0, view.inputs.course.days())
    assert [seconds / HOUR * 25 for seconds in by_day] == pytest.approx([441.695, 600.0], rel=1e-4)


def test_a_plain_switch_that_is_far_too_small():
    found = heat_figures(heated(pad(watts=300.0)))
    # H13 · the same · COMPUTED · rel 1e-4
    assert value(found, "lowest") == 0.0
    assert value(found, "ice_hours") == pytest.approx(43.6680, rel=1e-4)
    assert value(found, "ice_share") == pytest.approx(0.740660, rel=1e-4)
    assert value(found, "energy") == pytest.approx(14_400, rel=1e-4)
    assert value(found, "duty") == pytest.approx(1.0, rel=1e-12)


def h23():
    over = {"insulation": 3 * R_US}
    pads = (
        pad("galley-a", watts=30.0, thermostat=thermostat(40, 46), **over),
        pad("galley-b", watts=25.0, thermostat=thermostat(45, 55), **over),
    )
    return heated(*pads, tanks=(h23_tank(),), design=design(nights=3))


def test_two_pads_with_thermostats_of_their_own():
    rig = h23()
    found = heat_figures(rig)
    # H23 · exact events; 1 s steps agree to 2e-5 · COMPUTED · rel 1e-4
    assert found["tank.galley.conductance"].value == pytest.approx(2.751936, rel=1e-4)
    assert found["heater.galley-a.share"].value == pytest.approx(0.968078, rel=1e-4)
    assert value(found, "lowest") == pytest.approx(4.307516, rel=1e-4)
    assert value(found, "duty") == pytest.approx(0.823788, rel=1e-4)
    view = tank_view(case_of(rig), rig.tanks[0])
    spell = spell_of(view.inputs)
    first, second = spell.on_times
    assert [time / HOUR for times in second for time in times] == pytest.approx([4.05742, 72.0], rel=1e-4)
    switched = [time / HOUR for times in first for time in times]
    assert switched == pytest.approx([10.64417, 47.87005, 57.10473, 72.0], rel=1e-4)
    days = view.inputs.course.days()
    by_day = [
        a * 30 / HOUR + b * 25 / HOUR
        for a, b in zip(spell.seconds_on_between(0, days), spell.seconds_on_between(1, days), strict=True)
    ]
    assert by_day == pytest.approx([899.239, 1316.101, 1046.858], rel=1e-4)
    by_pad = [spell.seconds_on(0) * 30 / HOUR, spell.seconds_on(1) * 25 / HOUR]
    assert by_pad == pytest.approx([1563.634, 1698.565], rel=1e-4)


def test_three_runs_make_the_band_of_a_spell():
    over = {"insulation": 3 * R_US}
    rig = heated(
        pad(watts=25.0, thermostat=thermostat(45, 65), **over), tanks=(h23_tank(),), design=design(nights=3)
    )
    found = heat_figures(rig)
    names = ("lowest", "ice_hours", "ice_share", "energy")
    middle = [value(found, name) for name in names]
    # H24 · G × 1, and the least and greatest of G × 0.75, 1, 1.25 · COMPUTED · rel 1e-4
    assert middle == pytest.approx([0.0, 36.16354, 0.0347664, 1698.565], rel=1e-4)
    low = [found[f"tank.galley.spell.{name}"].low for name in names]
    high = [found[f"tank.galley.spell.{name}"].high for name in names]
    assert low == pytest.approx([0.0, 0.0, 0.0, 1668.765], rel=1e-4)
    assert high == pytest.approx([1.271377, 43.70900, 0.106022, 1717.127], rel=1e-4)


def test_a_thermocouples_junction():
    diameter = 6 * 400 * 1.0 / (8500 * 400)
    # H8 · Incropera & DeWitt, ex. 5.1, via an open worked companion · FOUND · rel 2e-3: it prints 0.706 mm
    assert diameter == pytest.approx(0.706e-3, rel=2e-3)
    heaters = (SpellHeater(0.0, 30.0, 199.0),)
    spell = cold_spell(
        (0.0, 100.0),
        (200.0, 200.0),
        mass=1.0,
        conductance=4190.0,  # a time constant of 1 s
        heaters=heaters,
        start=start_state(25.0, heaters),
    )
    # H8 · the same: 25 → 199 °C in 200 °C takes 5.16 s · FOUND · rel 2e-3
    assert spell.on_times[0][0][1] == pytest.approx(5.165, rel=2e-3)
    assert spell.on_times[0][0][1] == pytest.approx(log(175), rel=1e-12)


# --- edges ---


def test_no_heater_has_no_duty_and_no_energy():
    found = heat_figures(h3())
    # rig-format, Heat: no heaters: duty null, energy 0
    assert value(found, "duty") is None
    assert value(found, "energy") == 0.0
    assert value(found, "ice_share") == 1.0


def test_contents_below_freezing_begin_as_ice_and_at_zero_as_liquid():
    frozen = heat_figures(h3(start_degc=-5.0))
    assert value(frozen, "ice_hours") == pytest.approx(48.0, rel=1e-12)
    assert value(frozen, "ice_share") == 1.0
    # rig-format, Heat: contents at exactly 0 °C begin liquid, below it as ice
    assert start_state(0.0, ()).phase == LIQUID
    assert start_state(-0.001, ()).phase == ICE


def test_ice_thaws_and_its_thermostat_is_on_from_the_beginning():
    heaters = (SpellHeater(2000.0, 5.0, 8.0),)
    spell = steady(100, start=-5.0, heaters=heaters, trace=True)
    phases = [piece.phase for piece in spell.pieces[:3]]
    assert phases == [ICE, MUSH, LIQUID]
    ice, mush, _ = spell.pieces[:3]
    tau = MASS * 2050 / G
    # closed form: ice warms towards −10 + 2000/6 °C, then ρVL over what is left at 0 °C · rel 1e-9
    drive = -10.0 + 2000.0 / G
    assert ice.length == pytest.approx(tau * log((drive + 5) / drive), rel=1e-9)
    assert mush.length == pytest.approx(MASS * 333_430 / (G * drive), rel=1e-9)
    assert spell.ice_seconds == pytest.approx(ice.length + mush.length, rel=1e-12)
    assert spell.on_times[0][0][0] == 0.0


def test_a_thermostat_that_is_never_reached_is_never_on():
    heaters = (SpellHeater(100.0, 2.0, 4.0),)
    spell = steady(1, start=10.0, heaters=heaters)
    assert spell.on_times == ((),)
    assert spell.switchings == 0


def test_a_spell_of_one_hour_and_of_none():
    heaters = (SpellHeater(100.0),)
    hour = steady(1, start=10.0, heaters=heaters)
    assert hour.length == HOUR
    assert hour.seconds_on(0) == HOUR
    none = cold_spell(
        (0.0,), (-10.0,), mass=MASS, conductance=G, heaters=heaters, start=start_state(10.0, heaters)
    )
    assert none.length == 0.0
    assert none.lowest_degc == 10.0
    assert none.on_times == ((),)


def test_surroundings_at_exactly_zero_are_approached_and_never_passed():
    spell = steady(100_000, start=5.0, first=0.0)
    assert spell.ice_seconds == 0.0
    assert 0.0 <= spell.end.degc < 1e-12


def test_a_heat_that_just_balances_the_mush_leaves_it_alone():
    heaters = (SpellHeater(60.0),)
    state = SpellState(MUSH, 0.0, heat_left=1e6, on=(True,))
    spell = steady(50, start=state, heaters=heaters)
    assert spell.end.phase == MUSH
    assert spell.end.heat_left == pytest.approx(1e6, rel=1e-12)


def test_a_dip_between_two_knots_is_seen():
    """The contents fall below a threshold within one hour and come back before its end."""
    heaters = (SpellHeater(0.0, 4.0, 6.0),)
    spell = cold_spell(
        (0.0, HOUR),
        (-30.0, 45.0),
        mass=5.0,
        conductance=G,
        heaters=heaters,
        start=start_state(4.5, heaters),
    )
    assert spell.switchings == 2
    assert spell.lowest_degc < 4.0 < spell.end.degc


@pytest.mark.parametrize("bad", [{"mass": 0.0}, {"conductance": 0.0}, {"mass": float("nan")}])
def test_contents_that_are_none_are_refused(bad):
    given = {"mass": MASS, "conductance": G, **bad}
    with pytest.raises(ValueError):
        cold_spell((0.0, HOUR), (0.0, 0.0), heaters=(), start=start_state(5.0, ()), **given)


def test_a_thermostat_that_would_chatter_is_refused():
    with pytest.raises(ValueError):
        steady(1, start=5.0, heaters=(SpellHeater(10.0, 5.0, 5.0),))


def test_constant_weather_is_the_same_by_one_piece_and_by_many():
    heaters = (SpellHeater(150.0, 7.0, 10.0),)
    hours = 300
    whole = steady(hours, start=10.0, heaters=heaters)
    parts = cold_spell(
        tuple(hour * HOUR for hour in range(hours + 1)),
        (-10.0,) * (hours + 1),
        mass=MASS,
        conductance=G,
        heaters=heaters,
        start=start_state(10.0, heaters),
    )
    assert parts.switchings == whole.switchings
    assert parts.end.degc == pytest.approx(whole.end.degc, abs=1e-9)
    assert parts.seconds_on(0) == pytest.approx(whole.seconds_on(0), rel=1e-9)


def test_an_hourly_series_of_a_single_hour_and_of_one_row():
    def spell(seconds, degc_):
        hourly = Hourly(seconds=seconds, degc=degc_, clock=tuple(18 * HOUR + each for each in seconds))
        return heat_figures(
            profile(tanks=(tank(),), design=design(hourly=hourly, low_degc=min(degc_), high_degc=max(degc_)))
        )

    hour = spell((0.0, HOUR), (-5.0, -6.0))
    assert value(hour, "lowest") < degc(50)
    row = spell((0.0,), (-5.0,))
    assert value(row, "lowest") == degc(50)
    assert value(row, "duty") is None
    assert row["supply.night"].value == 0.0
    assert row["supply.hours"].value is None


def test_a_few_drops_under_a_strong_heater_are_refused_with_a_reason():
    heaters = (SpellHeater(2000.0, 4.0, 4.1),)
    with pytest.raises(TooManyEvents):
        cold_spell(
            (0.0, 48 * HOUR),
            (-20.0, -20.0),
            mass=1e-3,
            conductance=G,
            heaters=heaters,
            start=start_state(10.0, heaters),
        )
    drops = pad(watts=2000.0, thermostat=thermostat(39.2, 39.4))
    found = heat_figures(heated(drops, tanks=(tank(fill=1e-6),)))
    for name in ("lowest", "ice_hours", "ice_share", "duty", "energy"):
        assert value(found, name) is None
        assert found[f"tank.galley.spell.{name}"].why_not is not None
    # the battery's account takes it as on all the time: the safe side
    assert found["supply.night"].value == pytest.approx(24 * 2000 / 12.8, rel=1e-9)

"""A season over an hourly series."""

import math

import pytest
from msgspec.structs import replace

from logic.assessment.season import season_figures, season_profile
from logic.assessment.tank_view import tank_view
from logic.data.profile import Hourly
from tests.heat_case import case_of, h23_tank, heat_figures, heated, pad
from tests.rig_builder import R_US, thermostat

HOUR = 3600.0


def winter(days: int) -> Hourly:
    """Hourly rows from 18:00: a day's swing within slow fronts."""
    hours = range(days * 24 + 1)
    seconds = tuple(HOUR * hour for hour in hours)
    degrees = tuple(
        -9 + 5 * math.sin(math.pi * hour / 12) + 8 * math.sin(math.pi * hour / 150) for hour in hours
    )
    return Hourly(seconds=seconds, degc=degrees, clock=tuple(18 * HOUR + each for each in seconds))


def three_tanks():
    pads = tuple(
        pad(f"{name}-pad", on=name, watts=watts, insulation=3 * R_US, thermostat=thermostat(40, 44))
        for name, watts in (("galley", 60.0), ("bath", 80.0), ("fresh", 100.0))
    )
    tanks = tuple(replace(h23_tank(), id=name) for name in ("galley", "bath", "fresh"))
    return heated(*pads, tanks=tanks)


def test_a_season_is_the_spell_over_its_rows():
    rig, rows = three_tanks(), winter(90)
    found = {figure.id: figure for figure in season_figures(rig, rows)}
    same = heat_figures(season_profile(rig, rows))
    for figure_id, figure in found.items():
        assert figure.value == same[figure_id].value, figure_id
    assert {figure_id for figure_id in same if ".spell." in figure_id} <= set(found)
    lowest = found["tank.galley.spell.lowest"]
    assert lowest.low <= lowest.value <= lowest.high
    view = tank_view(case_of(season_profile(rig, rows)), season_profile(rig, rows).tanks[0])
    assert view.inputs.course.length == 90 * 24 * HOUR
    assert len(view.inputs.course.days()) == 90


def test_the_steady_low_of_a_season_is_its_coldest_row():
    rows = winter(10)
    rig = season_profile(three_tanks(), rows)
    # rig-format, Heat: with `hourly` the steady design low is its least temperature
    assert rig.design.low_degc == min(rows.degc)
    assert rig.design.high_degc == max(rows.degc)


def test_a_season_without_a_row_is_refused():
    with pytest.raises(ValueError):
        season_figures(three_tanks(), Hourly(seconds=(), degc=(), clock=()))


def test_the_energy_of_a_season_is_that_of_its_days():
    rig = season_profile(three_tanks(), winter(30))
    found = heat_figures(rig)
    whole = sum(found[f"tank.{each.id}.spell.energy"].value for each in rig.tanks)
    worst = found["supply.night"].value
    # energy in Wh at 12.8 V: no day takes more than the worst, and the worst no more than all · exact
    assert whole / 12.8 / 30 <= worst <= whole / 12.8

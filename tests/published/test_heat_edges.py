"""Edges of a rig: each gives an answer or a reason, never a number that is none."""

from math import isfinite

import pytest

from logic.assessment import case, spell_budget, tank_inputs
from logic.assessment.assess import assess
from logic.data.profile import Hourly
from logic.data.quantities import fill
from logic.data.state import Instant, Reading, State
from tests.heat_case import heat_figures, heated, pad
from tests.rig_builder import bay, design, drain, heater, profile, tank, thermostat

HOUR = 3600.0
SWITCHED = thermostat(45, 65)


def hourly(*degrees: float, switched=SWITCHED, **values):
    """A rig whose weather is a few hourly rows from 18:00. `switched`: its pad's thermostat."""
    seconds = tuple(HOUR * row for row in range(len(degrees)))
    rows = Hourly(seconds=seconds, degc=degrees, clock=tuple(18 * HOUR + each for each in seconds))
    return heated(
        pad(watts=60.0, thermostat=switched),
        design=design(hourly=rows, low_degc=min(degrees), high_degc=max(degrees), **values),
    )


EDGES = {
    "no heater": heated(),
    "a heater too small by far": heated(pad(watts=0.01, thermostat=SWITCHED)),
    "a heater too large by far": heated(pad(watts=5000.0, thermostat=SWITCHED)),
    "off before the hold is reached": heated(pad(watts=60.0, thermostat=thermostat(34, 36))),
    "start frozen": heated(pad(watts=60.0), design=design(start_degc=-10.0)),
    "start at freezing": heated(design=design(start_degc=0.0)),
    "empty": heated(pad(watts=60.0, thermostat=SWITCHED), tanks=(tank(fill=0.0),)),
    "brimful": heated(pad(watts=60.0, thermostat=SWITCHED), tanks=(tank(fill=1.0),)),
    "no wind": heated(pad(watts=60.0), drains=(drain(),), design=design(wind=0.0)),
    "inside": profile(tanks=(tank(place="inside"),), drains=(drain(place="inside"),)),
    "inside, top to the air": profile(tanks=(tank(place="inside", above="air"),)),
    "in a bay": profile(bays=(bay(),), tanks=(tank(place="belly"),), drains=(drain(place="belly"),)),
    "drifts to exactly 0 °C": heated(design=design(low_degc=0.0, high_degc=0.0, cabin_degc=0.0)),
    "weather constant": heated(pad(watts=60.0), design=design(low_degc=-10.0, high_degc=-10.0)),
    "a single hour": hourly(-5.0, -6.0),
    "a single row": hourly(-5.0),
    "a summer": heated(pad(watts=60.0), design=design(low_degc=20.0, high_degc=35.0)),
    "sixty nights": heated(pad(watts=60.0, thermostat=SWITCHED), design=design(nights=60)),
    "the coldest": heated(pad(watts=60.0), drains=(drain(),), design=design(low_degc=-80.0, high_degc=-79.0)),
}


@pytest.mark.parametrize("name", EDGES)
def test_an_answer_or_a_reason(name):
    found = heat_figures(EDGES[name])
    assert found
    for figure in found.values():
        numbers = [each for each in (figure.value, figure.low, figure.high) if each is not None]
        assert all(isfinite(each) for each in numbers), figure.id
        assert (figure.value is None) == (figure.why_not is not None), figure.id
        if figure.low is not None and figure.high is not None:
            assert figure.low <= figure.high, figure.id
        assert figure.sources, figure.id


BANDED = ("needed", "holds_to", "hours_to_ice", "hours_to_solid", "hours_to_ice_least")


def test_bands_hold_their_values():
    found = heat_figures(heated(pad(watts=60.0, thermostat=SWITCHED)))
    for name in BANDED:
        figure = found[f"tank.galley.{name}"]
        assert figure.low <= figure.value <= figure.high, name
    for name in ("lowest", "ice_hours", "ice_share", "duty", "energy"):
        figure = found[f"tank.galley.spell.{name}"]
        assert figure.low <= figure.value <= figure.high, name


def test_a_band_of_three_runs_of_which_one_has_no_value_is_none():
    # rig-format, Bands: the least and greatest of the three runs. With a quarter less loss these few drops would switch
    # for ever (their thermostat's duty there is near 0.98, see the second of the two), so nobody knows the third.
    def duty(fill):
        few = heated(pad(watts=300.0, thermostat=thermostat(44, 46)), tanks=(tank(fill=fill),))
        return heat_figures(few)["tank.galley.spell.duty"]

    known, unknown = duty(4e-4), duty(2e-4)
    assert 0.97 < known.low < 0.99 < known.value <= known.high
    assert unknown.value > 0.99
    assert not unknown.banded
    assert (unknown.low, unknown.high) == (None, None)


def test_figures_are_rows_of_the_format_with_its_units():
    rig = profile(bays=(bay(),), tanks=(tank(place="belly"),), drains=(drain(place="belly"),))
    rows = {
        "tank.galley.volume": "L",
        "tank.galley.contents_level": "m",
        "tank.galley.conductance": "W/K",
        "tank.galley.effective": "degC",
        "tank.galley.needed": "W",
        "tank.galley.hours_to_ice": "h",
        "tank.galley.spell.ice_share": "1",
        "tank.galley.spell.energy": "Wh",
        "bay.belly.low": "degC",
        "drain.galley-valve.reach": "m",
        "drain.galley-valve.hours_to_solid": "h",
        "supply.current": "A",
        "supply.usable": "Ah",
        "supply.night": "Ah",
        "supply.hours": "h",
        "supply.nights": "1",
        "supply.converter": "1",
    }
    found = heat_figures(rig)
    # rig-format, Figures: the unit of each row · exact
    assert {figure_id: found[figure_id].unit for figure_id in rows} == rows


def test_a_heater_that_no_run_feeds_counts_as_none_of_the_heat_and_still_as_a_heater():
    # What thaws a tank in a warm place is the place: mass × latent heat over G × T_eff · by hand · rel 1e-9
    figures = values_of(profile(tanks=(tank(place="inside"),), heaters=(heater(),)))
    thaw, loss, warm = (
        figures[f"tank.galley.{row}"] for row in ("hours_to_thaw", "conductance", "effective")
    )
    mass = 999.9 * figures["tank.galley.contents"] / 1000
    assert thaw == pytest.approx(mass * 333_430 / (loss * warm) / 3600, rel=1e-9)
    assert values_of(profile(tanks=(tank(place="inside"),)))["tank.galley.hours_to_thaw"] is None


def values_of(rig) -> dict[str, float | None]:
    return {figure.id: figure.value for figure in assess(rig).figures}


@pytest.mark.parametrize(("most", "worked_out"), [(4, True), (3, False)])
def test_weather_too_long_for_so_many_tanks_says_so_and_its_heaters_count_as_on(
    monkeypatch, most, worked_out
):
    """A row more than is worked out at once: other figures stand, the battery's account is on the safe side."""
    monkeypatch.setattr(tank_inputs, "MOST_ROWS_OF_TANKS", most)
    tank_inputs._tank_inputs.cache_clear()
    figures = heat_figures(hourly(-5.0, -6.0, -7.0, -6.0))
    always = heat_figures(hourly(-5.0, -6.0, -7.0, -6.0, switched=None))
    tank_inputs._tank_inputs.cache_clear()
    lowest, night = figures["tank.galley.spell.lowest"], figures["supply.night"].value
    assert (lowest.value is not None) == worked_out
    assert figures["tank.galley.holds_to"].value is not None
    if not worked_out:
        assert "4 rows of weather for every tank" in fill(lowest.why_not, "us")
        assert night == always["supply.night"].value > 0


@pytest.mark.parametrize(("most", "worked_out"), [(1_000_000, True), (100, False)])
def test_weather_too_long_for_every_reading_says_so_and_the_figures_stand(monkeypatch, most, worked_out):
    monkeypatch.setattr(spell_budget, "MOST_ROWS_MOVED", most)
    rig = hourly(*(-4.0 - hour % 3 for hour in range(100)))
    reading = Reading(
        "1", "tank.galley.length", "1 m", rig.tanks[0].length, Instant(0.0), resolution=0.001, unit="m"
    )
    figures = {figure.id: figure for figure in assess(rig, State(readings=(reading,))).figures}
    planned = values_of(rig)
    assert figures["tank.galley.volume"].u is not None
    for name in ("tank.galley.spell.lowest", "supply.night", "supply.hours"):
        figure = figures[name]
        assert figure.value == planned[name]
        assert (figure.u is not None) == worked_out, name
        assert ("leave uncertain isn't worked out" in fill(figure.working, "us")) != worked_out, name


@pytest.mark.parametrize(("most", "worked_out"), [(1_000_000, True), (3, False)])
def test_too_many_pads_for_every_reading_say_so_and_the_figures_stand(monkeypatch, most, worked_out):
    monkeypatch.setattr(spell_budget, "MOST_PADS_MOVED", most)
    rig = heated(pad(watts=60.0, thermostat=SWITCHED), pad("b", watts=40.0, thermostat=SWITCHED))
    reading = Reading(
        "1", "tank.galley.length", "1 m", rig.tanks[0].length, Instant(0.0), resolution=0.001, unit="m"
    )
    assessment = assess(rig, State(readings=(reading,)))
    bare = assess(rig)
    figures = {figure.id: figure for figure in assessment.figures}
    for planned in bare.figures:
        figure = figures[planned.id]
        assert (figure.value, figure.low, figure.high) == (planned.value, planned.low, planned.high)
    assert {finding.id for finding in bare.findings} <= {finding.id for finding in assessment.findings}
    assert figures["tank.galley.volume"].u is not None
    assert figures["tank.galley.needed"].u is not None
    for name in ("tank.galley.spell.lowest", "supply.night", "supply.hours"):
        assert (figures[name].u is not None) == worked_out, name
        assert ("moved up and down, are more than 3" in fill(figures[name].working, "us")) != worked_out, name
    assert (assessment.left_out is None) == worked_out


def test_with_more_sizes_read_than_the_limit_no_figure_has_an_uncertainty_and_all_else_stands(monkeypatch):
    """What keeps a pad clear of its neighbours counts the readings' uncertainty in any case: on the safe side."""
    rig = hourly(-5.0, -6.0)
    read = ("tank.galley.length", "tank.galley.wall", "heater.galley-pad.length", "heater.galley-pad.width")
    views = {view.slot: view.planned for view in assess(rig, State()).slots}
    readings = tuple(
        Reading(str(number), slot, "1 m", views[slot], Instant(0.0), resolution=0.001, unit="m")
        for number, slot in enumerate(slot for slot in read if views.get(slot) is not None)
    )
    assert len(readings) > 1
    monkeypatch.setattr(case, "MOST_SIZES_READ", len(readings))
    within = assess(rig, State(readings=readings))
    monkeypatch.setattr(case, "MOST_SIZES_READ", len(readings) - 1)
    beyond = assess(rig, State(readings=readings))
    assert any(figure.u for figure in within.figures)
    for one, other in zip(within.figures, beyond.figures, strict=True):
        assert (one.id, one.value, one.low, one.high, one.holds) == (
            other.id, other.value, other.low, other.high, other.holds,
        )  # fmt: skip
        assert other.u is None
        said = "isn't worked out" in fill(other.working, "us")
        assert said == (one.u is not None and one.value is not None), one.id
    assert [(each.rule, each.place, each.weight) for each in within.findings] == [
        (each.rule, each.place, each.weight) for each in beyond.findings
    ]

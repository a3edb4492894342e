"""Drain legs: ASHRAE's pipe examples, films against a library, the fin, wraps, places."""

from math import acosh, cosh, log, pi

import ht
import pytest
from msgspec.structs import replace

from logic.data.constants import ICE_HEAT, LATENT_HEAT, WATER_DENSITY
from logic.physics import drain_leg
from logic.physics.drain_leg import Leg
from logic.physics.films import air_at, crossflow_nusselt, pipe_film_in_wind
from tests.heat_case import heat_figures
from tests.rig_builder import FOOT, INCH, bay, degc, design, drain, heater, profile, run, tank

HOUR = 3600.0


def leg(film=30.0, insulation=0.0):
    """Z2's drain."""
    return Leg(
        outside=3.5 * INCH,
        inside=3.07 * INCH,
        wall_conductivity=0.19,
        insulation=insulation * INCH,
        conductivity=0.035,
        film=film,
    )


@pytest.mark.parametrize(("air", "ours", "printed"), [(-18, 1.3785, 1.4), (20, 4.5829, 4.6)])
def test_ashraes_pipe(air, ours, printed):
    # the page's units: in, Btu·in/h·ft²·°F, lb/ft³, Btu/lb·°F
    k, d1, d2, d3 = 0.30, 2.067 / 12, 2.375, 5.375
    resistance = 12 * log(d3 / d2) / (2 * pi * k)
    hours = 62.4 * 1.0 * pi * (d1 / 2) ** 2 * resistance * log((42 - air) / (32 - air))
    # Z1 · ASHRAE Fundamentals, "Insulation for mechanical systems", eq. 1, via a public page · FOUND · 2 %
    assert hours == pytest.approx(printed, rel=0.02)
    # the same pipe through the program's formula: wall and film made nothing, water as the example has it
    pipe = Leg(
        outside=2.375 * INCH,
        inside=2.067 * INCH,
        wall_conductivity=1e9,
        insulation=1.5 * INCH,
        conductivity=0.30 * 0.14422789,  # Btu·in/h·ft²·°F in W/m·K
        film=1e9,
    )
    seconds = drain_leg.seconds_to_ice(
        pipe, drain_leg.resistance(pipe), from_degc=degc(42), air_degc=degc(air)
    )
    ours_water = 62.4 * 16.01846 * 4186.8 / (WATER_DENSITY * 4190)
    assert hours == pytest.approx(ours, rel=1e-4)
    # Z1 · our formula with the example's ρc · rel 1e-4: the row's digits
    assert seconds / HOUR * ours_water == pytest.approx(ours, rel=1e-4)


@pytest.mark.parametrize(
    ("insulation", "per_metre", "ice", "solid"),
    [(0.0, 0.229156, 0.196326, 5.067503), (1.0, 2.241060, 1.920000, 49.558294)],
)
def test_a_bare_and_a_lagged_drain(insulation, per_metre, ice, solid):
    pipe = leg(insulation=insulation)
    resistance = drain_leg.resistance(pipe)
    # Z2 · job, h given · COMPUTED · rel 1e-5
    assert resistance == pytest.approx(per_metre, rel=1e-5)
    to_ice = drain_leg.seconds_to_ice(pipe, resistance, from_degc=degc(38), air_degc=-20.0)
    assert to_ice / HOUR == pytest.approx(ice, rel=1e-5)
    assert drain_leg.seconds_to_solid(pipe, resistance, air_degc=-20.0) / HOUR == pytest.approx(
        solid, rel=1e-5
    )


def test_reach_of_the_tanks_warmth():
    pipe = leg()
    # Z3 · cosh fin, k of water 0.57 · COMPUTED · rel 1e-4
    assert drain_leg.fin_rate(pipe) == pytest.approx(40.0387, rel=1e-4)
    assert drain_leg.reach(pipe, 18 * INCH) == pytest.approx(0.0575090, rel=1e-4)


def test_reach_is_where_the_fin_says_and_null_where_it_never_is():
    pipe = leg()
    rate = drain_leg.fin_rate(pipe)
    length = 0.1
    depth = drain_leg.reach(pipe, length)
    assert cosh(rate * (length - depth)) / cosh(rate * length) == pytest.approx(0.1, rel=1e-9)
    # null from the length at which the closed end stands at just one tenth
    limit = acosh(10) / rate
    assert drain_leg.reach(pipe, limit * 1.001) is not None
    assert drain_leg.reach(pipe, limit * 0.999) is None
    # a pipe as long as the format allows: no overflow, an endless fin
    assert drain_leg.reach(pipe, 300 * FOOT) == pytest.approx(log(10) / rate, rel=1e-6)


def test_the_growing_ices_own_resistance_is_small_beside_insulation():
    radius, k_ice = 0.03899, 2.2
    stefan = WATER_DENSITY * LATENT_HEAT * radius**2 / (4 * k_ice * 20.0)
    # Z4 · Stefan in a cylinder · COMPUTED · rel 1e-3
    assert stefan == pytest.approx(2879.75, rel=1e-3)
    lagged = leg(insulation=1.0)
    ours = drain_leg.seconds_to_solid(lagged, drain_leg.resistance(lagged), air_degc=-20.0)
    assert stefan < 0.02 * ours
    assert ICE_HEAT < 4190


def test_film_on_a_pipe_in_wind():
    film_degc = (degc(38) + degc(-12)) / 2
    across = 3.5 * INCH
    wind = 10 * 0.44704
    air = air_at(film_degc)
    reynolds = wind * across / air.viscosity
    # Z6 · Churchill & Bernstein, air of the table at −10.56 °C · COMPUTED · rel 1 % for h
    assert film_degc == pytest.approx(-10.56, abs=0.005)
    assert reynolds == pytest.approx(32_041, rel=0.005)
    assert crossflow_nusselt(reynolds, air.prandtl) == pytest.approx(104.83, rel=0.01)
    assert pipe_film_in_wind(wind, diameter=across, film_degc=film_degc) == pytest.approx(31.77, rel=0.01)
    lagged = pipe_film_in_wind(wind, diameter=across + 2 * INCH, film_degc=film_degc)
    assert lagged == pytest.approx(27.31, rel=0.01)
    assert pipe_film_in_wind(0.4, diameter=across, film_degc=film_degc) == 9.0


@pytest.mark.parametrize("reynolds", [50.0, 1e3, 3.2e4, 2e5, 1e6])
def test_crossflow_against_a_library(reynolds):
    # Churchill & Bernstein 1977 · ht 1.2.0 Nu_cylinder_Churchill_Bernstein · rel 1e-9: the same equation
    assert crossflow_nusselt(reynolds, 0.712) == pytest.approx(
        ht.conv_external.Nu_cylinder_Churchill_Bernstein(reynolds, 0.712), rel=1e-9
    )


def test_crossflow_of_the_textbooks_manifold():
    reynolds = 23 * 0.11 / 14.56e-6
    nusselt = crossflow_nusselt(reynolds, 0.712)
    film = nusselt * 0.0252 / 0.11
    # H7 · Incropera & DeWitt, ex. 7.5, via an open worked companion · COMPUTED steps · rel 1e-3
    assert nusselt == pytest.approx(315.82, rel=1e-3)
    assert film == pytest.approx(72.35, rel=1e-3)
    # its tube of steel: inner 0.1 m, k 13.4, 0.8 m long, in air of 296 K; the reaction takes 3982.5 W
    wall = -3550 / (log(1.01) - 12.9)
    resistance = log(0.11 / 0.1) / (2 * pi * 13.4 * 0.8) + 1 / (film * pi * 0.11 * 0.8)
    # H7 · the same · FOUND (3581 W) · rel 1e-3
    assert 3982.5 - (296 - wall) / resistance == pytest.approx(3581, rel=1e-3)


def rig(*heaters, place="open", **values):
    runs = (run(length=0.0, feeds=tuple(each.id for each in heaters)),) if heaters else ()
    made = drain(place=place, **values)
    return profile(tanks=(tank(),), drains=(made,), heaters=heaters, runs=runs, bays=(bay(heat=150.0),))


def figure(found, name):
    return found[f"drain.galley-valve.{name}"]


def test_a_drain_in_wind_as_a_figure():
    found = heat_figures(rig())
    # Z6 · job · COMPUTED · rel 0.5 %
    assert figure(found, "hours_to_ice").value == pytest.approx(0.15809, rel=0.005)
    assert figure(found, "hours_to_solid").value == pytest.approx(4.0260, rel=0.005)
    # rig-format, Heat: R' × 0.75 and × 1.25, all else alike · exact
    assert figure(found, "hours_to_ice").low == pytest.approx(figure(found, "hours_to_ice").value * 0.75)
    assert figure(found, "hours_to_ice").high == pytest.approx(figure(found, "hours_to_ice").value * 1.25)
    # no heater: it holds where the air is at `hold`
    assert figure(found, "holds_to").value == pytest.approx(degc(38))


def test_drains_in_a_bay_and_in_the_cabin():
    sheltered = heat_figures(rig(place="belly"))
    pipe = leg(film=8.0)
    bay_degc = sheltered["bay.belly.low"].value
    seconds = drain_leg.seconds_to_ice(
        pipe, drain_leg.resistance(pipe), from_degc=degc(38), air_degc=bay_degc
    )
    # job, Drain leg: in a bay the bay's temperature and 8 W/m²K · rel 1e-9
    assert figure(sheltered, "hours_to_ice").value == pytest.approx(seconds / HOUR, rel=1e-9)
    indoors = heat_figures(rig(place="inside"))
    assert figure(indoors, "hours_to_ice").value is None
    assert figure(indoors, "holds_to").value is None
    assert figure(indoors, "holds_to").why_not is not None


def wrap(**values):
    size = {"on": "galley-valve", "face": "wrap", "watts": 20.0, "volts": 12.8}
    return heater("valve-wrap", **{**size, "length": 18 * INCH, "width": 2 * INCH, **values})


def test_a_wrap_by_the_figures():
    found = heat_figures(rig(wrap(), place="belly", insulation=1 * INCH))
    d_i, d_o, across = 3.07 * INCH, 3.5 * INCH, 5.5 * INCH
    inward = 0.003 / (pi * d_i) + log(d_o / d_i) / (2 * pi * 0.19)
    outward = log(across / d_o) / (2 * pi * 0.035) + 1 / (pi * across * 8.0)
    share = outward / (inward + outward)
    # job, Drain leg: η = R'_b/(R'_a + R'_b) · rel 1e-9
    assert found["heater.valve-wrap.share"].value == pytest.approx(share, rel=1e-9)
    per_metre = log(d_o / d_i) / (2 * pi * 0.19) + outward
    held = degc(38) - share * 20.0 * per_metre / (18 * INCH)
    slope = found["bay.belly.low"].value - heat_figures_of_colder_bay()
    outdoors = degc(-12) + (held - found["bay.belly.low"].value) / slope
    # rig-format, Heat: ηP = (hold − T)·length/R', carried back to T_out · rel 1e-9
    assert figure(found, "holds_to").value == pytest.approx(outdoors, rel=1e-9)
    assert found["heater.valve-wrap.wall"].value is None
    q = 20.0 * (13.6 / 12.8) ** 2 / (18 * INCH * 2 * INCH)
    wall_r, over = (d_o - d_i) / 2 / 0.19 + 0.16, INCH / 0.035 + 1 / 8
    # rig-format, Heat: `.dry` of a wrap: half of outside less inside, k of the pipe, its drain's insulation
    assert found["heater.valve-wrap.bare"].value == pytest.approx(25 + q / 16, rel=1e-9)
    assert found["heater.valve-wrap.dry"].value == pytest.approx(
        25 + q * wall_r * over / (wall_r + over), rel=1e-9
    )


def heat_figures_of_colder_bay():
    """The bay's temperature with the design low one degree lower."""
    colder = rig(place="belly")
    return heat_figures(replace(colder, design=design(low_degc=degc(-12) - 1)))["bay.belly.low"].value


def test_a_full_pipe_in_the_cabins_warmth_has_a_reach_all_the_same():
    found = heat_figures(rig(length=1 * INCH))
    assert figure(found, "reach").value is None
    assert figure(found, "reach").why_not is not None

"""Losses, shares, what holds and how long, each by the numbers of its check.

`job` means the model's own conventions run by independent code.
"""

from itertools import pairwise
from math import log

import pytest

from logic.assessment.tank_case import build_of
from logic.assessment.tank_view import tank_view
from logic.data import tables
from logic.physics.films import outer_film_in_wind
from logic.physics.tank_heat import conductances, mass_of, seconds_to_ice, seconds_to_solid
from tests.heat_case import (
    MPH,
    case_of,
    h3,
    h4,
    h23_tank,
    heat_figures,
    heated,
    pad,
    v10_cylinder,
    v10_slope,
    v10_taper,
)
from tests.rig_builder import FOOT, INCH, R_US, bay, degc, design, heater, profile, run, supply, tank

GALLON = 231 * INCH**3
LOW = degc(-12)


def by_face(rig):
    """Conductances by face of the first tank."""
    case = case_of(rig)
    parts = tank_view(case, case.profile.tanks[0]).heat.conductance
    return parts.bottom, parts.wet, parts.dry, parts.top, parts.whole


def value(found, name):
    return found[f"tank.galley.{name}"].value


def band(found, name):
    figure = found[f"tank.galley.{name}"]
    return figure.low, figure.high


@pytest.mark.parametrize(
    ("key", "resistance"),
    [
        ("moving-air-15-mph", 0.029939),
        ("still-heat-up", 0.107427),
        ("still-upright", 0.119755),
        ("still-heat-down", 0.162021),
    ],
)
def test_films_of_the_code_in_si(key, resistance):
    # H1 · WAC 51-11-0526 · FOUND, unit COMPUTED · rel 1e-4: two printed digits converted exactly
    assert tables.value("films", "film", key) * R_US == pytest.approx(resistance, rel=1e-4)


@pytest.mark.parametrize(("wind", "film"), [(0, 5.7), (4.4704, 22.68752), (6.7056, 28.5447)])
def test_film_in_wind(wind, film):
    # H2 · McAdams, Heat Transmission, 3rd ed. · MEMORY · rel 1e-5
    assert outer_film_in_wind(wind) == pytest.approx(film, rel=1e-5)


def test_more_wind_never_warms():
    films = [outer_film_in_wind(speed / 100) for speed in range(4500)]
    # H2 · the greater of McAdams's two branches · direction
    assert all(after >= before for before, after in pairwise(films))


def test_a_bare_tank_in_the_open():
    found = heat_figures(h3())
    faces = (10.17669, 5.69492, 1.82169, 0.52666, 18.21996)
    # H3 · job · COMPUTED · rel 1e-4
    assert by_face(h3()) == pytest.approx(faces, rel=1e-4)
    assert value(found, "conductance") == pytest.approx(18.21996, rel=1e-4)
    assert value(found, "effective") == pytest.approx(-23.20792, rel=1e-4)
    assert value(found, "needed") == pytest.approx(483.581, rel=1e-4)
    assert value(found, "delivered") == 0.0
    assert value(found, "holds_to") == pytest.approx(2.88684, rel=1e-4)
    assert value(found, "hours_to_ice") == pytest.approx(0.573469, rel=1e-4)
    assert value(found, "hours_to_solid") == pytest.approx(14.65179, rel=1e-4)
    assert value(found, "hours_to_thaw") is None
    share = heat_figures(heated(pad(watts=25.0)))["heater.galley-a.share"].value
    # H3 · a bare pad's share · COMPUTED · rel 1e-4
    assert share == pytest.approx(0.700169, rel=1e-4)


def test_an_insulated_tank_with_a_pad():
    found = heat_figures(h4())
    # H4 · job · COMPUTED · rel 1e-4
    assert by_face(h4()) == pytest.approx((0.679006, 0.379975, 0.364092, 0.526661, 1.949734), rel=1e-4)
    assert value(found, "effective") == pytest.approx(-12.88934, rel=1e-4)
    assert value(found, "needed") == pytest.approx(31.6299, rel=1e-4)
    assert found["heater.galley-a.share"].value == pytest.approx(0.979995, rel=1e-4)
    assert value(found, "holds_to") == pytest.approx(-19.43415, rel=1e-4)
    assert value(found, "hours_to_ice") == pytest.approx(9.184465, rel=1e-4)
    assert value(found, "hours_to_solid") == pytest.approx(246.5293, rel=1e-4)


def test_bands_scale_every_face_alike():
    found = heat_figures(h4())
    # H16 · job, G × 1.25 and × 0.75, T_eff stands · COMPUTED · rel 1e-4
    assert band(found, "needed") == pytest.approx((23.7224, 39.5374), rel=1e-4)
    assert band(found, "holds_to") == pytest.approx((-25.17287, -15.99091), rel=1e-4)
    assert band(found, "hours_to_ice") == pytest.approx((7.34757, 12.24595), rel=1e-4)
    for name in ("conductance", "effective", "delivered"):
        assert band(found, name) == (None, None)


def bay_rig(*tanks, heat=150.0, **values):
    closed = bay(heat=heat, **values)
    return profile(bays=(closed,), tanks=tanks)


def test_a_bay_in_balance():
    empty = heat_figures(bay_rig())
    # H5 · job · COMPUTED · abs 1e-4
    assert empty["bay.belly.low_unheated"].value == pytest.approx(-12.40927, abs=1e-4)
    assert empty["bay.belly.low"].value == pytest.approx(-3.79117, abs=1e-4)
    under = heat_figures(bay_rig(tank(place="belly")))
    assert under["bay.belly.low_unheated"].value == pytest.approx(-13.17334, abs=1e-4)
    assert under["bay.belly.low"].value == pytest.approx(-4.34104, abs=1e-4)
    beside = heat_figures(bay_rig(tank(place="belly", above="air")))
    assert beside["bay.belly.low"].value == pytest.approx(-3.79117, abs=1e-4)


@pytest.mark.parametrize(("tanks", "watts"), [((), 215.9861), ((tank(place="belly"),), 223.7245)])
def test_heat_that_brings_a_bay_to_freezing(tanks, watts):
    found = heat_figures(bay_rig(*tanks, heat=watts, water=True))
    # H5 · job · COMPUTED · abs 1e-4: 0 °C takes this heat
    assert found["bay.belly.low"].value == pytest.approx(0.0, abs=1e-4)


def test_lumped_cooling_and_freezing_in_closed_form():
    mass = mass_of(40 * GALLON)
    assert mass * 4190 / 6 / 3600 == pytest.approx(29.36905, rel=1e-5)
    ice = seconds_to_ice(6.0, mass=mass, from_degc=10.0, effective_degc=-10.0)
    solid = seconds_to_solid(6.0, mass=mass, effective_degc=-10.0)
    # H6 · C/G ln 2, and ρVL over 60 W · COMPUTED · rel 1e-5
    assert ice / 3600 == pytest.approx(20.35708, rel=1e-5)
    assert ice / 3600 == pytest.approx(29.36905 * log(2), rel=1e-6)
    assert solid / 3600 == pytest.approx(233.7118, rel=1e-5)


def test_a_dry_and_a_hanging_pad():
    def at(charging):
        fed = heater(watts=60.0)
        return heat_figures(heated(fed, supply=supply(charging=charging)))

    for charging, heat, bare, dry in (
        (13.6, 553.026, 59.5641, 65.4086),
        (14.6, 637.343, 64.8339, 71.5695),
        (14.8, 654.924, 65.9328, 72.8541),
    ):
        found = at(charging)
        # H17 · job · COMPUTED · rel 1e-5: the row's printed digits
        assert 60 * (charging / 12) ** 2 / (18 * 12 * INCH**2) == pytest.approx(heat, rel=1e-5)
        assert found["heater.galley-a.bare"].value == pytest.approx(bare, rel=1e-5)
        assert found["heater.galley-a.dry"].value == pytest.approx(dry, rel=1e-5)


def test_the_pads_own_insulation_takes_the_faces_place():
    bare = heated(pad(watts=60.0), tanks=(tank(insulation=5 * R_US),))
    lagged = heated(pad(watts=60.0, insulation=5 * R_US), tanks=(tank(insulation=5 * R_US),))
    found = heat_figures(bare)
    # H18 · job · COMPUTED · rel 1e-4
    assert by_face(bare)[0] == pytest.approx(2.744967, rel=1e-4)
    assert value(found, "conductance") == pytest.approx(4.015695, rel=1e-4)
    assert value(found, "effective") == pytest.approx(-18.83411, rel=1e-4)
    assert value(found, "needed") == pytest.approx(89.0177, rel=1e-4)
    assert value(found, "holds_to") == pytest.approx(-10.97150, rel=1e-4)
    assert value(found, "hours_to_ice") == pytest.approx(3.159301, rel=1e-4)
    assert by_face(lagged)[0] == pytest.approx(0.679006, rel=1e-4)


def test_a_side_pad_covers_wet_sides_as_far_as_there_are_any():
    side = pad(watts=60.0, face="side", length=9 * INCH, width=18 * INCH, insulation=2 * R_US)
    half = by_face(heated(side))
    # H19 · job · COMPUTED · rel 1e-5
    assert (half[1], half[4]) == pytest.approx((4.286419, 16.81146), rel=1e-5)
    low = by_face(heated(side, tanks=(tank(fill=0.1),)))
    # H19 · at fill 0.1 all of the wet side is under the pad · COMPUTED · rel 1e-5
    assert (low[1], low[2], low[4]) == pytest.approx((0.172703, 3.125638, 14.00169), rel=1e-5)


@pytest.mark.parametrize(
    ("made", "faces"),
    [
        (v10_taper(place="belly"), (3.171429, 2.802606, 1.361617, 0.526263, 7.861916)),
        (v10_slope(place="belly"), (3.355280, 2.811575, 1.711135, 0.396852, 8.274842)),
        (v10_cylinder(place="belly", fill=0.3), (0.0, 3.312680, 2.723033, 0.266910, 6.302623)),
    ],
)
def test_faces_of_each_shape_in_a_bay(made, faces):
    # H20 · job · COMPUTED · rel 1e-5
    assert by_face(bay_rig(made)) == pytest.approx(faces, rel=1e-5)


def test_hours_to_thaw_and_the_heat_that_never_does():
    found = heat_figures(h4(pad(watts=60.0, insulation=5 * R_US)))
    # H22 · ρVL/(ηP − G(0 − T_eff)) · COMPUTED · rel 1e-4
    assert value(found, "hours_to_thaw") == pytest.approx(184.0117, rel=1e-4)
    assert band(found, "hours_to_thaw") == pytest.approx((155.0744, 226.2259), rel=1e-4)
    never = heat_figures(h4())["tank.galley.hours_to_thaw"]
    # H22 · 24.50 W in, 25.13 W lost · null with a reason
    assert never.value is None
    assert never.why_not is not None


def test_an_edge_of_the_band_that_never_thaws():
    found = heat_figures(h4(pad(watts=27.0, insulation=5 * R_US)))["tank.galley.hours_to_thaw"]
    # H22 · 26.46 W in, 25.13 W lost, 31.41 W at the worse edge: that edge is never · exact
    assert found.value is not None
    assert (found.low is None, found.high is None) == (False, True)
    assert found.low < found.value


def test_density_and_the_wall_in_service():
    def wall(insulation=0.0, place="open", low=LOW):
        made = heated(
            heater(watts=60.0, insulation=insulation, covered=True),
            tanks=(tank(place=place),),
            bays=(bay(floor=1e9, pan=1e-9, leak=1e9, area=2.0),) if place != "open" else (),
            design=design(low_degc=low),
        )
        return heat_figures(made)["heater.galley-a.wall"].value

    found = heat_figures(heated(heater(watts=60.0)))
    # H25 · job · COMPUTED · rel 1e-5: 12.8 V at the pad itself
    assert found["heater.galley-a.density"].value == pytest.approx(430.5564, rel=1e-5)
    assert wall() == pytest.approx(1.478758, rel=1e-5)
    assert wall(5 * R_US) == pytest.approx(11.83909, rel=1e-5)
    # H25 · a bay that leaks so much that it stands at the air outdoors, −4 °C · rel 1e-5
    assert wall(place="belly", low=-4.0) == pytest.approx(10.40467, rel=1e-5)


def test_hours_to_ice_at_the_least_level():
    lagged = heat_figures(h4(pad(watts=60.0, insulation=5 * R_US)))
    # H26 · job, G and mass at 0.0254 m · COMPUTED · rel 1e-4
    assert value(lagged, "least_level") == pytest.approx(0.0254, rel=1e-9)
    assert value(lagged, "hours_to_ice_least") == pytest.approx(2.247090, rel=1e-4)
    assert band(lagged, "hours_to_ice_least") == pytest.approx((1.797672, 2.996120), rel=1e-4)
    bare = heat_figures(h4(pad(watts=60.0)))
    assert value(bare, "hours_to_ice_least") == pytest.approx(0.753278, rel=1e-4)
    assert band(bare, "hours_to_ice_least") == pytest.approx((0.602623, 1.004371), rel=1e-4)


@pytest.mark.parametrize(
    ("rig", "whole"), [(h4(pad(watts=60.0, insulation=5 * R_US)), 1.908280), (h4(pad(watts=60.0)), 3.974242)]
)
def test_conductance_at_the_least_level(rig, whole):
    case = case_of(rig)
    inputs = tank_view(case, rig.tanks[0]).inputs
    parts = conductances(inputs.shape, 0.0254, build=build_of(inputs), outer_film=inputs.film)
    # H26 · job · COMPUTED · rel 1e-4
    assert parts.whole == pytest.approx(whole, rel=1e-4)


def test_on_the_road():
    road = {"towing": 60 * MPH}
    # H27 · McAdams at 60 mph · COMPUTED · h rel 1e-6
    assert outer_film_in_wind(60 * MPH) == pytest.approx(84.16518, rel=1e-6)
    # H27 · job, η at that film too · COMPUTED · rel 1e-4
    assert value(heat_figures(h3(**road)), "holds_to_towing") == pytest.approx(3.105144, rel=1e-4)
    sixty = heat_figures(heated(pad(watts=60.0), design=design(**road)))
    assert value(sixty, "holds_to_towing") == pytest.approx(2.435636, rel=1e-4)
    assert value(heat_figures(h4(**road)), "holds_to_towing") == pytest.approx(-18.67348, rel=1e-4)
    bare = heat_figures(h4(pad(watts=60.0), **road))
    assert value(bare, "holds_to_towing") == pytest.approx(-1.979694, rel=1e-4)
    assert band(bare, "holds_to_towing") == pytest.approx((-3.30052, -1.18720), rel=1e-4)


@pytest.mark.parametrize("place", ["inside", "belly"])
def test_no_figure_on_the_road_but_in_the_open(place):
    rig = profile(tanks=(tank(place=place),), bays=(bay(),), design=design(towing=60 * MPH))
    # H27 · place a bay, or inside: null · exact
    assert value(heat_figures(rig), "holds_to_towing") is None


def test_a_tank_in_the_cabin_does_not_follow_the_air_outdoors():
    found = heat_figures(heated(tanks=(tank(place="inside"),)))
    # rig-format, Heat: no dependence on T_out (inside): null
    assert value(found, "holds_to") is None
    assert value(found, "hours_to_ice") is None
    assert value(found, "needed") == 0.0
    assert value(found, "effective") == pytest.approx(degc(65), rel=1e-12)


def test_surroundings_at_exactly_freezing_never_freeze():
    rig = heated(design=design(low_degc=0.0, high_degc=0.0, cabin_degc=0.0))
    found = heat_figures(rig)
    # edge: T_eff exactly 0 °C: null with a reason, and a spell without ice
    assert value(found, "effective") == 0.0
    assert found["tank.galley.hours_to_ice"].why_not is not None
    assert value(found, "hours_to_solid") is None
    assert value(found, "spell.ice_hours") == 0.0
    assert value(found, "spell.lowest") >= 0.0


def test_an_unfed_heater_counts_as_nothing():
    rig = profile(tanks=(h23_tank(),), heaters=(heater(),))
    found = heat_figures(rig)
    # rig-format, Circuit: a heater that no run feeds: wall, bare, dry null, counted as 0; duty null
    assert value(found, "delivered") == 0.0
    assert value(found, "spell.duty") is None
    assert value(found, "spell.energy") == 0.0
    for name in ("wall", "bare", "dry"):
        assert found[f"heater.galley-a.{name}"].value is None
    assert found["heater.galley-a.share"].value is not None


def test_no_contents_no_hours():
    found = heat_figures(heated(pad(watts=60.0), tanks=(tank(fill=0.0),)))
    # rig-format, Heat: fill 0: spell and hours null; needed stands
    for name in (
        "hours_to_ice",
        "hours_to_solid",
        "hours_to_thaw",
        "spell.lowest",
        "spell.energy",
        "spell.duty",
    ):
        assert value(found, name) is None, name
        assert found[f"tank.galley.{name}"].why_not is not None
    assert value(found, "needed") > 0
    assert value(found, "hours_to_ice_least") is not None


def test_wire_in_between_takes_heat_from_the_tank():
    short = profile(
        tanks=(tank(),), heaters=(heater(),), runs=(run(length=0.0, gauge=14, feeds=("galley-a",)),)
    )
    long = profile(
        tanks=(tank(),), heaters=(heater(),), runs=(run(length=18 * FOOT, gauge=14, feeds=("galley-a",)),)
    )
    ratio = value(heat_figures(long), "delivered") / value(heat_figures(short), "delivered")
    # N1 · 3.86063 % of drop costs heat twice · COMPUTED · rel 1e-5
    assert ratio == pytest.approx((1 - 0.0386063) ** 2, rel=1e-5)

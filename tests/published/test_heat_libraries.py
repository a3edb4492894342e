"""Films, water, ice and dew points against general libraries and published correlations."""

import CoolProp.CoolProp as coolprop
import iapws
import psychrolib
import pytest

from logic.data import constants
from logic.data.tables import tables, value
from logic.physics.bonding import dew_point
from logic.physics.films import air_at

ZERO = 273.15
ATMOSPHERE = 101_325


@pytest.mark.parametrize("degc", [-40.0, -20.0, 0.0, 20.0])
def test_air_of_the_table(degc):
    def of(what):
        return coolprop.PropsSI(what, "T", degc + ZERO, "P", ATMOSPHERE, "Air")

    air = air_at(degc)
    # heat.md, Films · CoolProp 8.0.0 at 1 atm · COMPUTED · rel 1e-3: the table's printed digits
    assert air.viscosity == pytest.approx(of("V") / of("D"), rel=1e-3)
    assert air.conductivity == pytest.approx(of("L"), rel=1e-3)
    assert air.prandtl == pytest.approx(of("Prandtl"), rel=1e-3)


@pytest.mark.parametrize("degc", [-33.0, -30.0, -10.56, 7.0, 10.0])
def test_air_between_the_rows(degc):
    air = air_at(degc)
    viscosity = coolprop.PropsSI("V", "T", degc + ZERO, "P", ATMOSPHERE, "Air") / coolprop.PropsSI(
        "D", "T", degc + ZERO, "P", ATMOSPHERE, "Air"
    )
    # heat.md, Films · linear between the rows is within 0.2 % · CoolProp 8.0.0
    assert air.viscosity == pytest.approx(viscosity, rel=2e-3)


def test_air_is_held_constant_beyond_the_ends():
    assert air_at(-70.0) == air_at(-40.0)
    assert air_at(50.0) == air_at(20.0)
    assert tables("air")["prandtl"].shape == "falls"


def test_latent_heat_between_two_releases():
    liquid = iapws.IAPWS95(T=273.1525, P=0.101325)
    ice = iapws._iapws._Ice(273.1525, 0.101325)
    # H15 · IAPWS-95 less IAPWS-06 at the melting point, iapws 1.5.5 · COMPUTED · 0.1 %
    assert (liquid.h - ice["h"]) * 1000 == pytest.approx(constants.LATENT_HEAT, rel=1e-3)
    assert (liquid.h - ice["h"]) * 1000 == pytest.approx(333_426, rel=1e-4)


@pytest.mark.parametrize(
    ("degc", "density", "heat"), [(0.01, 999.84, 4219), (4, 999.97, None), (10, 999.70, 4195)]
)
def test_liquid_water(degc, density, heat):
    water = iapws.IAPWS95(T=degc + ZERO, P=0.101325)
    # H15 · IAPWS-95 · COMPUTED · ρ 0.02 %, c 0.8 % of the program's
    assert water.rho == pytest.approx(density, rel=2e-5)
    assert pytest.approx(water.rho, rel=2e-4) == constants.WATER_DENSITY
    assert pytest.approx(water.cp * 1000, rel=8e-3) == constants.WATER_HEAT
    if heat is not None:
        assert water.cp * 1000 == pytest.approx(heat, rel=5e-4)


@pytest.mark.parametrize(("degc", "heat"), [(-0.001, 2097), (-20.0, 1950)])
def test_ice(degc, heat):
    ice = iapws._iapws._Ice(degc + ZERO, 0.101325)
    # heat.md, Water · IAPWS-06 · COMPUTED · rel 1e-3: printed digits; the program's is the mean for −10 °C
    assert ice["cp"] * 1000 == pytest.approx(heat, rel=1e-3)
    between = iapws._iapws._Ice(263.15, 0.101325)["cp"] * 1000
    # rel 2 %: a mean of the range
    assert pytest.approx(between, rel=0.02) == constants.ICE_HEAT


def test_conductivity_of_water_near_freezing():
    low = coolprop.PropsSI("L", "T", ZERO + 0.01, "P", ATMOSPHERE, "Water")
    high = coolprop.PropsSI("L", "T", ZERO + 10, "P", ATMOSPHERE, "Water")
    # heat.md, Materials · CoolProp 8.0.0: 0.556–0.579 at 0–10 °C · COMPUTED
    assert low == pytest.approx(0.556, rel=2e-3)
    assert high == pytest.approx(0.579, rel=2e-3)
    assert low < value("materials", "conductivity", "water") < high


DEW = [
    (20, 0.50, 9.2552, 9.2724),
    (15, 0.80, 11.5755, 11.5816),
    (25, 0.60, 16.6931, 16.7011),
    (10, 0.90, 8.4339, 8.4372),
]


@pytest.mark.parametrize(("degc", "humidity", "magnus", "ashrae"), DEW)
def test_dew_points(degc, humidity, magnus, ashrae):
    # D1 · WMO-No. 8, annex 4.B, Magnus · COMPUTED · abs 1e-4
    assert dew_point(degc, humidity) == pytest.approx(magnus, abs=1e-4)
    psychrolib.SetUnitSystem(psychrolib.SI)
    by_library = psychrolib.GetTDewPointFromRelHum(degc, humidity)
    # D2 · ASHRAE's formulation, psychrolib 2.5.0 · COMPUTED · abs 1e-3 on its print, 0.03 K between the two
    assert by_library == pytest.approx(ashrae, abs=1e-3)
    assert dew_point(degc, humidity) == pytest.approx(by_library, abs=0.03)


def test_a_surface_too_near_the_dew_point():
    # D3 · COMPUTED; a public table prints 7 °C · abs 0.01
    assert dew_point(24, 0.35) == pytest.approx(7.588, abs=0.01)
    assert 10 - dew_point(24, 0.35) == pytest.approx(2.41, abs=0.01)
    assert 10 - dew_point(24, 0.35) < constants.DEW_MARGIN


def test_dew_points_of_the_bonding_check():
    sixty = (60 - 32) / 1.8
    # K4 · Magnus · COMPUTED · abs 0.01
    assert dew_point(sixty, 0.70) == pytest.approx(10.102, abs=0.01)
    assert dew_point(sixty, 0.60) == pytest.approx(7.815, abs=0.01)


@pytest.mark.parametrize("humidity", [0.0, -0.1, 1.01, float("nan")])
def test_a_humidity_that_cannot_be_is_refused(humidity):
    with pytest.raises(ValueError):
        dew_point(20.0, humidity)


@pytest.mark.parametrize(("watts", "printed"), [(0.25, 60.8), (0.5, 91.0), (1.0, 137.9)])
def test_a_pad_facing_down_by_natural_convection(watts, printed):
    """A physical check beside the program's simpler rule."""
    heat = watts / 0.0254**2
    area, perimeter = 12 * 18 * 0.0254**2, 2 * (12 + 18) * 0.0254
    scale = area / perimeter
    low, high = 20.0, 400.0
    while high - low > 1e-6:
        surface = (low + high) / 2
        film = (surface + 20) / 2
        air = {what: coolprop.PropsSI(what, "T", film + ZERO, "P", ATMOSPHERE, "Air") for what in "DVLC"}
        viscosity = air["V"] / air["D"]
        diffusivity = air["L"] / air["D"] / air["C"]
        rayleigh = 9.81 / (film + ZERO) * (surface - 20) * scale**3 / viscosity / diffusivity
        convected = 0.27 * rayleigh**0.25 * air["L"] / scale * (surface - 20)
        radiated = 0.9 * 5.670374e-8 * ((surface + ZERO) ** 4 - (20 + ZERO) ** 4)
        low, high = (surface, high) if convected + radiated < heat else (low, surface)
    # H14 · Nu 0.27 Ra^¼ on A/P, ε 0.9 · COMPUTED · abs 4 K: ε and size of the pad
    assert surface == pytest.approx(printed, abs=4.0)

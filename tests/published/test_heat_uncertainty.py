"""How uncertain readings make figures of heat uncertain: first order, JCGM 100, 5.1.2."""

from math import sqrt

import pytest
from msgspec.structs import replace

from logic.assessment.case import Case
from logic.assessment.figures import drains, heater_heat, supply, tank_spell, tanks
from logic.data.profile import Outlet, Position, Profile
from logic.data.state import Instant, Reading, SlotView, State
from tests.heat_case import heat_figures, heated, pad, v10_cylinder
from tests.rig_builder import FOOT, INCH, R_US, design, drain, heater, profile, run, tank, thermostat

GALLON = 231 * INCH**3 * 1000  # L
U = 0.0650521 * INCH
MODULES = (tanks, tank_spell, drains, heater_heat, supply)


def view(slot: str, u: float) -> SlotView:
    reading = Reading(id="1", slot=slot, typed="", value=0.0, when=Instant(0.0))
    return SlotView(
        slot=slot,
        place=slot.rpartition(".")[0],
        title="",
        kind="length",
        own_unit="in",
        value=0.0,
        state="single",
        u=u,
        readings=(reading,),
    )


def with_readings(rig: Profile, **slots: float) -> dict:
    """Figures of a rig whose slots were read as planned, each with a standard uncertainty. [m]"""
    case = Case(
        rig,
        slots={slot.replace("__", "."): view(slot.replace("__", "."), u) for slot, u in slots.items()},
        state=State(),
    )
    return {figure.id: figure for module in MODULES for figure in module.figures(case)}


def read(rig: Profile, slots: dict[str, float]) -> dict:
    return with_readings(rig, **{slot.replace(".", "__"): u for slot, u in slots.items()})


EDGES = {f"tank.galley.{name}": U for name in ("length", "width", "height")}


def test_uncertainty_of_a_boxs_volume():
    found = read(heated(), EDGES)
    # G4 · JCGM 100, 5.1.2; planned has no u · COMPUTED · rel 1e-5
    assert found["tank.galley.volume"].u / GALLON == pytest.approx(0.293104, rel=1e-5)
    both = read(heated(), {**EDGES, "tank.galley.wall": 0.0238676 * INCH})
    assert both["tank.galley.volume"].u / GALLON == pytest.approx(0.427769, rel=1e-5)


def test_a_cylinders_diameter_counts_twice():
    rig = heated(tanks=(v10_cylinder(),))
    found = read(rig, {"tank.galley.length": U, "tank.galley.height": U})
    # G7 · V√((2u/16)² + (u/30)²), inside sizes · COMPUTED · rel 1e-5
    assert found["tank.galley.volume"].value / GALLON == pytest.approx(26.11194, rel=1e-6)
    assert found["tank.galley.volume"].u / GALLON == pytest.approx(0.219749, rel=1e-5)


def test_no_reading_no_uncertainty():
    found = read(heated(pad(watts=60.0)), {})
    assert all(figure.u is None for figure in found.values())
    assert all(figure.u is None for figure in heat_figures(heated()).values())


def test_a_figure_that_does_not_hang_on_what_was_read_has_none():
    found = read(heated(), {"tank.galley.wall": U})
    assert found["tank.galley.volume_outside"].u is None
    assert found["tank.galley.volume"].u is not None


def big(runs_length: float = 18 * FOOT, **values) -> Profile:
    return profile(
        tanks=(tank(insulation=3 * R_US, **values),),
        heaters=(heater(watts=60.0, covered=True, insulation=3 * R_US, thermostat=thermostat(40, 46)),),
        drains=(drain(),),
        runs=(run(length=runs_length, feeds=("galley-a",)),),
        design=design(nights=3),
    )


WATCHED = (
    "tank.galley.conductance",
    "tank.galley.effective",
    "tank.galley.needed",
    "tank.galley.delivered",
    "tank.galley.holds_to",
    "tank.galley.hours_to_ice",
    "tank.galley.hours_to_solid",
    "tank.galley.spell.duty",
    "tank.galley.spell.energy",
    "heater.galley-a.wall",
    "supply.night",
    "supply.hours",
    "supply.current",
)


@pytest.mark.parametrize(
    ("slot", "moved"),
    [
        ("tank.galley.length", lambda step: big(length=41.375 * INCH + step)),
        ("tank.galley.wall", lambda step: big(wall=0.25 * INCH + step)),
        ("run.feed.length", lambda step: big(18 * FOOT + step)),
    ],
)
def test_slopes_are_those_of_the_whole_assessment(slot, moved):
    """Against differences of whole profiles, network included, with a step a hundred times larger."""
    step = 1e-4
    found = read(big(), {slot: 1.0})
    less, more = heat_figures(moved(-step)), heat_figures(moved(step))
    seen = 0
    for figure_id in WATCHED:
        slope = (more[figure_id].value - less[figure_id].value) / (2 * step)
        u = found[figure_id].u
        if u is None:
            assert slope == pytest.approx(0.0, abs=1e-9), figure_id
            continue
        seen += 1
        # first order against second-order differences · rel 1e-4: the step's square
        assert u == pytest.approx(abs(slope), rel=1e-4, abs=1e-6), figure_id
    assert seen >= 5


def test_parts_add_as_squares():
    one = read(big(), {"tank.galley.length": U})["tank.galley.conductance"].u
    other = read(big(), {"tank.galley.height": U})["tank.galley.conductance"].u
    both = read(big(), {"tank.galley.length": U, "tank.galley.height": U})["tank.galley.conductance"].u
    assert both == pytest.approx(sqrt(one**2 + other**2), rel=1e-9)


def test_a_contradicted_reading_leaves_what_hangs_on_it_without_a_value():
    rig = big()
    wall = replace(view("tank.galley.wall", U), impossible="two walls take up the whole height")
    case = Case(rig, slots={"tank.galley.wall": wall}, state=State())
    found = {figure.id: figure for module in MODULES for figure in module.figures(case)}
    for figure_id in ("tank.galley.volume", "tank.galley.needed", "tank.galley.spell.lowest", "supply.night"):
        assert found[figure_id].value is None, figure_id
        assert found[figure_id].why_not is not None
    assert found["tank.galley.volume_outside"].value is not None
    assert found["supply.usable"].value is not None


OF_THE_LEAST = ("tank.galley.least", "tank.galley.least_level", "tank.galley.hours_to_ice_least")


def sloped(outlet_x: float, **values) -> Profile:
    """A sloped floor with a pad that the program lays beside the outlet, unless `at` is given."""
    floor = tank(shape="slope", fall=INCH, outlet=Outlet(outlet_x * INCH, 12 * INCH, 3 * INCH))
    return heated(heater(length=12 * INCH, width=12 * INCH, **values), tanks=(floor,))


def test_least_over_a_sloped_floor_hangs_on_the_outlet_where_the_program_lays_the_pad():
    here, further = heat_figures(sloped(34.0)), heat_figures(sloped(28.0))
    for name in OF_THE_LEAST:
        # rig-format: `slots` are those that a figure hangs on · exact
        assert here[name].value != further[name].value
        assert {"tank.galley.outlet.x", "tank.galley.outlet.y"} <= set(here[name].slots)


def test_least_over_a_sloped_floor_does_not_hang_on_the_outlet_where_the_pad_has_its_place():
    at = Position(10 * INCH, 6 * INCH)
    here, further = heat_figures(sloped(34.0, at=at)), heat_figures(sloped(28.0, at=at))
    for name in OF_THE_LEAST:
        assert here[name].value == further[name].value
        assert "tank.galley.outlet.x" not in here[name].slots
        assert "heater.galley-a.x" in here[name].slots


def test_an_outlet_that_is_read_where_the_program_lays_the_pad_adds_no_uncertainty():
    """The pad is bonded where the program says, whatever the outlet's true place: places are held."""
    found = read(sloped(34.0), {"tank.galley.outlet.x": U})
    # rig-format: u is null only where none of a figure's slots is read · exact
    assert found["tank.galley.least"].u == 0.0
    assert found["tank.galley.contents"].u is None

"""Figures of heat of a profile built from the structs, and the rigs that several checks of heat share."""

from typing import Any

from logic.assessment.case import Case
from logic.assessment.figures import bays, drains, heater_heat, supply, tank_spell, tanks
from logic.data.figure import Figure
from logic.data.profile import Heater, Profile, Tank
from tests.rig_builder import INCH, R_US, design, heater, profile, run, tank, thermostat

HEAT = (tanks, tank_spell, bays, drains, heater_heat, supply)
MPH = 0.44704


def case_of(rig: Profile) -> Case:
    """A case with every figure of heat computed."""
    case = Case(rig)
    for module in HEAT:
        for figure in module.figures(case):
            case.figures[figure.id] = figure
    return case


def heat_figures(rig: Profile) -> dict[str, Figure]:
    """Every figure of heat, by id."""
    return case_of(rig).figures


def pad(id: str = "galley-a", *, watts: float, **values: Any) -> Heater:
    """A pad that gives `watts` at its real volts: rated at the supply's, on a run without length."""
    return heater(id, watts=watts, volts=12.8, **{"covered": True, **values})


def heated(*heaters: Heater, tanks: tuple[Tank, ...] = (), **values: Any) -> Profile:
    """A rig whose heaters are all fed without a drop."""
    runs = (run(length=0.0, feeds=tuple(each.id for each in heaters)),) if heaters else ()
    return profile(tanks=tanks or (tank(),), heaters=heaters, **{"runs": runs, **values})


def h3(**values: Any) -> Profile:
    """H3: V1's box, half full, bare, in the open, 10 mph, −12 °F, no heater."""
    return heated(design=design(**values))


def h4(*heaters: Heater, insulated: float = 5 * R_US, **values: Any) -> Profile:
    """H4: the same with R 5 on sides and bottom; a pad of 25 W under as much, or the heaters given."""
    pads = heaters or (pad(watts=25.0, insulation=5 * R_US, thermostat=thermostat(45, 65)),)
    return heated(*pads, tanks=(tank(insulation=insulated),), design=design(**values))


def h23_tank() -> Tank:
    """H23's tank: H3's with R 3 on sides and bottom."""
    return tank(insulation=3 * R_US)


def v10_taper(**values: Any) -> Tank:
    sizes = {"length": 40.5 * INCH, "width": 24.5 * INCH, "height": 10.5 * INCH}
    return tank(shape="taper", bottom_length=34.5 * INCH, bottom_width=20.5 * INCH, **{**sizes, **values})


def v10_slope(**values: Any) -> Tank:
    sizes = {"length": 36.5 * INCH, "width": 20.5 * INCH, "height": 12.5 * INCH}
    return tank(shape="slope", fall=2 * INCH, **{**sizes, **values})


def v10_cylinder(**values: Any) -> Tank:
    sizes = {"length": 30.5 * INCH, "width": 16.5 * INCH, "height": 16.5 * INCH}
    return tank(shape="cylinder", **{**sizes, **values})

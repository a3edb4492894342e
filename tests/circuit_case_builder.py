"""Rigs that are all wiring, for the checks of the circuits: heaters by their watts, runs by their lengths in
feet.
"""

from typing import Any

from logic.assessment.case import Case
from logic.assessment.figures import bundles, heater_circuit, runs, wiring
from logic.data.figure import Figure
from logic.data.profile import Profile, Run, Wiring
from tests.rig_builder import FOOT, heater, profile, run, supply, tank


def feet(id: str, length: float, gauge: int | None, **values: Any) -> Run:
    """A run by its route in feet. Fused where it comes from the supply, unless told otherwise."""
    fuse = "none" if "from_" in values else "auto"
    return run(id, **{"length": length * FOOT, "gauge": gauge, "fuse": fuse, **values})


def rig(
    watts: dict[str, float],
    *wires: Run,
    volts: float = 12.8,
    charging: float = 13.6,
    table: str = "awg",
    limit: float = 0.03,
    **values: Any,
) -> Profile:
    """A rig with these heaters at 12 V and these runs."""
    return profile(
        tanks=(tank(),),
        heaters=tuple(heater(id, watts=power) for id, power in watts.items()),
        runs=wires,
        supply=supply(volts=volts, charging=charging),
        wiring=Wiring(table=table, conductor_degc=30.0, drop_limit=limit),
        **values,
    )


def figures_of(of: Profile, **case: Any) -> dict[str, Figure]:
    """Every figure of the circuits, by id."""
    made = Case(of, **case)
    return {
        figure.id: figure
        for module in (heater_circuit, runs, bundles, wiring)
        for figure in module.figures(made)
    }


def values_of(of: Profile) -> dict[str, float | None]:
    return {id: figure.value for id, figure in figures_of(of).items()}

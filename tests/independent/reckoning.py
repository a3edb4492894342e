"""All figures and findings of a rig, put together from the modules beside this one."""

from types import SimpleNamespace
from typing import Any

from tests.independent.circuit import circuit_figures, solved
from tests.independent.drains import drain_figures
from tests.independent.findings import findings_of
from tests.independent.heat import bay_figures, tank_figures
from tests.independent.pads import pad_figures
from tests.independent.parts import parts_figures
from tests.independent.places import bottom_pads, fit_figures, search
from tests.independent.spell import Steps, spell_figures, spells_of
from tests.independent.supply import lasting, supply_figures

COARSE, FINE = Steps(longest=60.0, shortest=1e-2), Steps(longest=4.0, shortest=1e-4)


def free_spots(rig, tank, found):
    """The tank's bottom pads, placed one after the other: where it is `wanted`, and the `spot` that counts.

    `found` are places of somebody else's: of two that are equally good to a hair, what follows is reckoned from
    that one.
    """
    spots: dict[str, Any] = {}
    for pad in bottom_pads(rig, tank):
        if pad.at:
            size = (pad.width, pad.length) if pad.turned else (pad.length, pad.width)
            place = SimpleNamespace(turned=bool(pad.turned), wanted=(pad.at.x, pad.at.y, *size))
        else:
            place = search(
                tank, pad.length, pad.width, [one.spot for one in spots.values() if one is not None]
            )
        if place is not None:
            place.after = list(spots)
            place.spot = place.wanted if pad.at else found.get(pad.id, place.wanted)
        spots[pad.id] = place
    return spots


def reckon(rig, *, found=None, step=COARSE, circuit=None):
    """(figures by id, bands by `<id>.band`; findings by id with their weight; free places by pad).

    step None: without a spell and what hangs on it, and without findings. circuit: solved already.
    """
    circuit = circuit or solved(rig)
    figures = circuit_figures(rig, circuit)
    figures |= pad_figures(rig, circuit) | parts_figures(rig, circuit.gauges)
    runs: dict[str, Any] = {}
    free: dict[str, Any] = {}
    spots: dict[str, Any] = {}
    for tank in rig.tanks.values():
        placed = free_spots(rig, tank, found or {})
        here = {pad_id: place and place.spot for pad_id, place in placed.items()}
        free |= placed
        spots |= here
        figures |= fit_figures(tank, bottom_pads(rig, tank), here)
        figures |= tank_figures(rig, tank, spots, circuit.watts)
        if step is not None:
            runs[tank.id] = spells_of(rig, tank, circuit.watts, step)
            figures |= spell_figures(tank, runs[tank.id])
    for pad in rig.heaters.values():
        place = free.get(pad.id)
        where = (None, None, None) if place is None else (*place.spot[:2], int(place.turned))
        figures |= {
            f"heater.{pad.id}.{name}": value for name, value in zip(("x", "y", "turned"), where, strict=True)
        }
        if place is None:
            figures |= {f"heater.{pad.id}.{name}": None for name in ("clearance", "to_outlet")}
    for bay in rig.bays.values():
        figures |= bay_figures(rig, bay)
    for drain in rig.drains.values():
        figures |= drain_figures(rig, drain, circuit.watts)
    figures |= supply_figures(rig, circuit, figures["supply.current"])
    if step is None:
        return SimpleNamespace(figures=figures, findings=None, free=free, circuit=circuit)
    figures |= lasting(rig, circuit, runs)
    findings = findings_of(rig, circuit, figures, spots, runs)
    return SimpleNamespace(figures=figures, findings=findings, free=free, circuit=circuit)

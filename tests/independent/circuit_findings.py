"""Findings of the wiring, from its figures."""

from tests.independent.gauges import lent, sum_of_fuses
from tests.independent.network import coming_back_through
from tests.independent.numbers import AMPACITY, BOATS, CONTINUOUS, bundling
from tests.independent.parts import bundles, conductors
from tests.independent.quantities import INCH

NEAR = 1e-9


def findings_of(rig, circuit, figures):
    found: dict[str, str] = {}
    if not circuit.feasible:
        found["no-gauge:wiring"] = "stop"
    through = coming_back_through(rig)
    count = {name: conductors(runs) for name, runs in bundles(rig).items()}
    for run in rig.runs.values():
        own = of_run(rig, run, circuit, figures, count) | of_lent(rig, run, circuit, through)
        found |= {f"{rule}:run.{run.id}": weight for rule, weight in own.items()}
    for heater in rig.heaters:
        drop = figures[f"heater.{heater}.drop"]
        if drop is not None and drop > rig.wiring.drop_limit + NEAR:
            found[f"drop:heater.{heater}"] = "use"
    return found


def of_run(rig, run, circuit, figures, count):
    found: dict[str, str] = {}
    out, back = circuit.amps[run.id]
    fuse, nearest = circuit.fuses[run.id], circuit.nearest[run.id]
    if run.from_ == "supply" and fuse is None:
        found["no-fuse"] = "stop"
    if fuse is not None:
        if fuse < CONTINUOUS * out - NEAR:
            found["fuse-small"] = "stop"
        section = [one for one in rig.runs if circuit.nearest[one] is run]
        if any(AMPACITY[circuit.gauges[one]] < fuse for one in section):
            found["fuse-above-wire"] = "stop"
    if run.from_ == "supply" and run.fuse_at is not None and run.fuse_at > 18 * INCH + NEAR:
        found["fuse-far"] = "stop"
    if run.switch is not None and run.switch < CONTINUOUS * out - NEAR:
        found["switch"] = "stop"
    short = figures[f"run.{run.id}.short"]
    if nearest is not None and short is not None and short < 5 * circuit.fuses[nearest.id]:
        found["slow-fuse"] = "note"
    together = count.get(run.bundle, 1)
    if max(out, back or 0.0) > BOATS[circuit.gauges[run.id]] * bundling(together) + NEAR:
        found["bundle-hot"] = "use"
    return found


def of_lent(rig, run, circuit, through):
    if (
        lent(rig, run, through)
        and sum_of_fuses(rig, run, through, circuit.fuses) > AMPACITY[circuit.gauges[run.id]]
    ):
        return {"return-above-wire": "stop"}
    return {}

"""Figures of heaters, runs and the supply's current, from the gauges as chosen."""

from types import SimpleNamespace

from tests.independent.gauges import chosen_gauges, copper, fuse_of, nearest_fused
from tests.independent.network import MINUS, Network, currents, load, near, way_back, way_out, with_all_behind
from tests.independent.numbers import wire_resistance


def solved(rig):
    """Gauges, fuses, currents at `charging`, volts and watts at `volts`; heaters that no run feeds count as 0."""
    gauges, feasible = chosen_gauges(rig)
    columns = {run_id: [gauge] for run_id, gauge in gauges.items()}
    charged, asleep = Network(rig, columns, rig.supply.charging), Network(rig, columns, rig.supply.volts)
    amps = {
        run_id: (float(out[0]), None if back is None else float(back[0]))
        for run_id, (out, back) in currents(rig, charged).items()
    }
    fuses = {run.id: fuse_of(run, amps[run.id][0]) for run in rig.runs.values()}
    fed = rig.fed()
    volts = {heater: float(asleep.across(heater, run)[0]) for heater, run in fed.items()}
    return SimpleNamespace(
        gauges=gauges,
        feasible=feasible,
        amps=amps,
        fuses=fuses,
        nearest={run.id: nearest_fused(rig, run, fuses) for run in rig.runs.values()},
        volts=volts,
        watts={
            one.id: volts[one.id] ** 2 / load(one) if one.id in fed else 0.0 for one in rig.heaters.values()
        },
        asleep=asleep,
        heater_amps={
            heater: float(charged.across(heater, run)[0]) / load(rig.heaters[heater])
            for heater, run in fed.items()
        },
    )


def ohms(rig, run, gauges):
    return run.length * wire_resistance(gauges[run.id], rig.wiring.table, rig.wiring.conductor)


def short(rig, run, gauges):
    """Current of a dead short at a run's far end; None without any resistance on the way. [A]"""
    total = sum(ohms(rig, one, gauges) for one in way_out(rig, run))
    for one in way_back(rig, run):
        total += one.chassis if one.back == "chassis" else ohms(rig, one, gauges)
    return rig.supply.volts / total if total else None


def seen(rig, run, gauges):
    """What a meter shows at a run's fuse holder. [Ω]"""
    columns = {run_id: [gauge] for run_id, gauge in gauges.items()}
    network = Network(rig, columns, 1.0, seen_from=run.id)
    drawn = sum(
        network.across(heater, one)[0] / load(rig.heaters[heater])
        for heater, one in rig.fed().items()
        if one.id in with_all_behind(rig, run.id)
    )
    return 1.0 / float(drawn)


def run_drop(rig, run, network):
    """Volts along the positive and, of the negative, over the far end of the run before (the supply: 0)."""
    out = network.at(near(run)) - network.at((run.id, "far"))
    before = MINUS if run.from_ == "supply" or run.back == "chassis" else (run.from_, "back")
    return float((out + network.at((run.id, "back")) - network.at(before))[0])


def circuit_figures(rig, circuit):
    figures = {"wiring.copper": copper(rig, circuit.gauges)}
    for run in rig.runs.values():
        out, back = circuit.amps[run.id]
        unknown = run.gauge is None and not circuit.feasible
        own = {
            "current": out,
            "return_current": back,
            "gauge": None if unknown else circuit.gauges[run.id],
            "fuse": circuit.fuses[run.id],
            "drop": run_drop(rig, run, circuit.asleep),
            "short": short(rig, run, circuit.gauges),
            "resistance": None if circuit.fuses[run.id] is None else seen(rig, run, circuit.gauges),
        }
        figures |= {f"run.{run.id}.{name}": value for name, value in own.items()}
    for heater in rig.heaters.values():
        volts = circuit.volts.get(heater.id)
        own = {
            "resistance": load(heater),
            "volts": volts,
            "watts": None if volts is None else circuit.watts[heater.id],
            "drop": None if volts is None else 1 - volts / rig.supply.volts,
            "current": circuit.heater_amps.get(heater.id),
        }
        figures |= {f"heater.{heater.id}.{name}": value for name, value in own.items()}
    figures["supply.current"] = sum(
        circuit.amps[run.id][0] for run in rig.runs.values() if run.from_ == "supply"
    )
    return figures

"""Fuses, what they protect, and the gauges: every choice tried."""

import numpy as np

from tests.independent.network import (
    Network,
    coming_back_through,
    currents,
    way_back,
    way_out,
    with_all_behind,
)
from tests.independent.numbers import AMPACITY, CONTINUOUS, COPPER, GAUGES, LAY, RATINGS, wire_area

NEAR = 1e-9
AT_ONCE = 64  # networks solved together


def fuse_of(run, current):
    """Rating at the head of a run, or None. [A]"""
    if run.fuse != "auto":
        return run.fuse
    return next((rating for rating in RATINGS if rating >= CONTINUOUS * current - NEAR), None)


def nearest_fused(rig, run, fuses):
    """The run whose fuse is the nearest before this run's wire; None without one."""
    return next((one for one in way_out(rig, run) if fuses[one.id] is not None), None)


def lent(rig, run, through):
    """An own return that another run names as its own, or through which one comes back that isn't behind it."""
    named = any(other.back == run.id for other in rig.runs.values())
    return run.back == "own" and (named or bool(through[run.id] - with_all_behind(rig, run.id)))


def sum_of_fuses(rig, run, through, fuses):
    """What may come back through a lent return before anything blows. [A]"""
    nearest = {one.id for other in through[run.id] if (one := nearest_fused(rig, rig.runs[other], fuses))}
    return sum(
        fuses[one]
        for one in nearest
        if not any(one != other and one in with_all_behind(rig, other) for other in nearest)
    )


def copper(rig, gauges):
    """[kg]"""
    return sum(
        COPPER
        * LAY
        * wire_area(gauges[run.id], rig.wiring.table)
        * run.length
        * (2 if run.back == "own" else 1)
        for run in rig.runs.values()
    )


def within_limit(drop, limit):
    return drop <= limit + 1e-9


class Rules:
    """Every rule of a choice as (key, kept?), those that an automatic run can change and those of its own wires."""

    def __init__(self, rig):
        self.rig = rig
        self.through = coming_back_through(rig)
        self.auto = {run.id for run in rig.runs.values() if run.gauge is None}
        self.lent = [run for run in rig.runs.values() if lent(rig, run, self.through)]

    def of_drops(self, network):
        """Those of the heaters, for each of the network's choices. The share that is lost is the same at any volts."""
        limit, fed = self.rig.wiring.drop_limit, self.rig.fed()
        return {
            ("drop", heater): within_limit(1 - network.across(heater, run) / self.rig.supply.charging, limit)
            for heater, run in fed.items()
        }

    def of_wires(self, gauges, amps):
        """Those of one choice's wires. amps: run's id → (out, back) at charging."""
        fuses = {run.id: fuse_of(run, amps[run.id][0]) for run in self.rig.runs.values()}
        kept = {}
        for run in self.rig.runs.values():
            near, ampacity = nearest_fused(self.rig, run, fuses), AMPACITY[gauges[run.id]]
            if near is None:
                most = max(amps[run.id]) if run.back == "own" else amps[run.id][0]
                kept["wire", run.id] = ampacity >= CONTINUOUS * most - NEAR
            else:
                kept["wire", run.id] = ampacity >= fuses[near.id]
        for run in self.lent:
            kept["lent", run.id] = AMPACITY[gauges[run.id]] >= sum_of_fuses(
                self.rig, run, self.through, fuses
            )
        return kept

    def kept_by(self, columns, counts):
        """Which of some choices keep every rule that counts."""
        network = Network(self.rig, columns, self.rig.supply.charging)
        drops = [kept for key, kept in self.of_drops(network).items() if key in counts]
        wires = [key for key in counts if key[0] != "drop"]
        left = [n for n in range(network.choices) if all(kept[n] for kept in drops)]
        if not left:
            return []
        amps = currents(self.rig, network)
        return [n for n in left if all(map(self.of_wires(*alone(columns, amps, n)).__getitem__, wires))]

    def counted(self, thinnest):
        """The rules that bind the choice, by `thinnest`, every automatic run at its thinnest.

        One on a wire of given gauge that fails even then is left to its own finding.
        """
        network = Network(self.rig, thinnest, self.rig.supply.charging)
        wires = self.of_wires(*alone(thinnest, currents(self.rig, network), 0))
        mended = {key for key, kept in wires.items() if kept or key[1] in self.auto}
        return {key for key in mended.union(self.of_drops(network)) if self.changeable(key)}

    def changeable(self, key):
        """Whether a rule is an automatic run's own, or an automatic wire on its way out or back can change it."""
        kind, place = key
        if kind != "drop" and place in self.auto:
            return True
        run = self.rig.fed()[place] if kind == "drop" else self.rig.runs[place]
        way = [*way_out(self.rig, run), *(one for one in way_back(self.rig, run) if one.back == "own")]
        return any(one.id in self.auto and one.length > 0 for one in way)


def alone(columns, amps, n):
    """One of the choices: its gauges and its currents, by run's id."""
    return (
        {run_id: column[n] for run_id, column in columns.items()},
        {run_id: (out[n], back if back is None else back[n]) for run_id, (out, back) in amps.items()},
    )


def chosen_gauges(rig):
    """(run's id → gauge, feasible?): the least copper of all choices that keep every rule; 4 AWG without one.

    All choices are tried, those with the least copper first, until one keeps every rule that counts.
    """
    auto = [run for run in rig.runs.values() if run.gauge is None]
    given = {run.id: run.gauge for run in rig.runs.values() if run.gauge is not None}
    if not auto:
        return given, True
    choices, weights = by_copper(rig, auto)
    rules, found, least = Rules(rig), [], np.inf
    counts = rules.counted(
        columns_of(given, auto, choices[:1])
    )  # the first choice is the thinnest throughout
    for start in range(0, len(choices), AT_ONCE):
        if weights[start] > least + NEAR:
            break
        columns = columns_of(given, auto, choices[start : start + AT_ONCE])
        found += [start + n for n in rules.kept_by(columns, counts)]
        least = weights[found[0]] if found else np.inf
    if not found:
        return given | {run.id: 4 for run in auto}, False
    tied = [choices[n].tolist() for n in found if weights[n] <= least + NEAR]
    best = min(tied, key=lambda choice: preference(auto, choice))
    return given | {run.id: gauge for run, gauge in zip(auto, best, strict=True)}, True


def by_copper(rig, auto):
    """All choices of the automatic runs' gauges and their copper (of given gauges: as if 18 AWG), the least first."""
    places = np.indices((len(GAUGES),) * len(auto), dtype=np.int8).reshape(len(auto), -1)
    weights = np.zeros(places.shape[1])
    thinnest = dict.fromkeys(rig.runs, GAUGES[0])
    for run, column in zip(auto, places, strict=True):
        weights += np.array([copper(rig, thinnest | {run.id: gauge}) for gauge in GAUGES])[column]
    order = np.argsort(weights, kind="stable")
    return np.array(GAUGES)[places.T[order]], weights[order] - (len(auto) - 1) * copper(rig, thinnest)


def columns_of(given, auto, choices):
    """run's id → its gauge in each of some choices."""
    fixed = {run_id: [gauge] * len(choices) for run_id, gauge in given.items()}
    return fixed | {run.id: column.tolist() for run, column in zip(auto, choices.T, strict=True)}


def preference(auto, choice):
    """Of equal copper: thicker in the run that comes first; without length, the thinnest."""
    return [-gauge if run.length == 0 else gauge for gauge, run in zip(choice, auto, strict=True)]

"""The circuit by nodal analysis: every conductor a conductance between two nodes, solved as one matrix.

Many choices of gauges are solved at once, as a stack of matrices. A conductor without resistance joins its nodes
into one. Nodes: "+" and "-" of the supply, (run, "far") of its positive, (run, "back") of its negative.
"""

from typing import Any

import numpy as np

from tests.independent.numbers import wire_resistance

PLUS, MINUS = "+", "-"


def load(heater):
    """[Ω]"""
    return heater.volts**2 / heater.watts


def near(run):
    """The node where a run's positive begins."""
    return PLUS if run.from_ == "supply" else (run.from_, "far")


def return_node(rig, run):
    """The node where a run's own return or chassis path ends; None for a borrower."""
    if run.back == "own":
        return MINUS if run.from_ == "supply" else (run.from_, "back")
    return MINUS if run.back == "chassis" else None


def wire(rig, run, gauges):
    """Resistance of one conductor over its length, for each choice. [Ω, (n,)]"""
    table, celsius = rig.wiring.table, rig.wiring.conductor
    return np.array([run.length * wire_resistance(gauge, table, celsius) for gauge in gauges[run.id]])


class Network:
    """Voltages at all nodes for each choice of gauges; `gauges` is run's id → the choices' gauges.

    seen_from : a run with nothing but what is behind it, fed at its head. alone : a run, all heaters but those behind
    it off.
    """

    def __init__(self, rig, gauges, volts, *, seen_from=None, alone=None):
        self.rig = rig
        self.on = rig.runs.keys() if alone is None else with_all_behind(rig, alone)
        self.joined: dict[Any, Any] = {}
        self.edges: list[tuple[Any, ...]] = []
        self.choices = len(next(iter(gauges.values()))) if gauges else 1
        behind = None if seen_from is None else with_all_behind(rig, seen_from)
        for run in rig.runs.values():
            self.add(run, wire(rig, run, gauges), seen_from=seen_from, behind=behind)
        self.nodes = sorted(
            {self.root(node) for _, a, b, _ in self.edges for node in (a, b)} | {PLUS, MINUS}, key=str
        )
        self.volts = self.solved(volts)

    def add(self, run, ohms, *, seen_from, behind):
        if behind is None or run.id in behind:
            self.connect((run.id, "out"), PLUS if run.id == seen_from else near(run), (run.id, "far"), ohms)
            for heater_id in run.feeds if run.id in self.on else ():
                heater = self.rig.heaters[heater_id]
                self.connect(
                    heater_id, (run.id, "far"), (run.id, "back"), np.full(self.choices, load(heater))
                )
        if run.back == "chassis":
            self.connect((run.id, "home"), (run.id, "back"), MINUS, np.full(self.choices, run.chassis))
        elif run.back == "own":
            self.connect((run.id, "home"), (run.id, "back"), return_node(self.rig, run), ohms)
        else:
            self.join((run.id, "back"), (run.back, "back"))

    def connect(self, name, a, b, ohms):
        if np.all(ohms == 0):
            self.join(a, b)
        else:
            self.edges.append((name, a, b, ohms))

    def join(self, a, b):
        a, b = self.root(a), self.root(b)
        if a != b:
            # the supply's poles stay the names of what they are joined with
            a, b = (b, a) if a in (PLUS, MINUS) else (a, b)
            self.joined[a] = b

    def root(self, node):
        while node in self.joined:
            node = self.joined[node]
        return node

    def solved(self, volts):
        """Voltages, (choices, nodes)."""
        place = {node: n for n, node in enumerate(self.nodes)}
        matrix = np.zeros((self.choices, len(place), len(place)))
        for _, a, b, ohms in self.edges:
            u, v = place[self.root(a)], place[self.root(b)]
            matrix[:, u, u] += 1 / ohms
            matrix[:, v, v] += 1 / ohms
            matrix[:, u, v] -= 1 / ohms
            matrix[:, v, u] -= 1 / ohms
        right = np.zeros((self.choices, len(place), 1))
        for node, value in ((PLUS, volts), (MINUS, 0.0)):
            matrix[:, place[node], :] = 0.0
            matrix[:, place[node], place[node]] = 1.0
            right[:, place[node], 0] = value
        found = np.linalg.solve(matrix, right)[:, :, 0]
        return {node: found[:, n] for node, n in place.items()}

    def at(self, node):
        return self.volts[self.root(node)]

    def current(self, name):
        """In a conductor with resistance. [A, (n,)]"""
        for edge, a, b, ohms in self.edges:
            if edge == name:
                return (self.at(a) - self.at(b)) / ohms
        raise KeyError(name)

    def across(self, heater_id, run):
        return self.at((run.id, "far")) - self.at((run.id, "back"))


def with_all_behind(rig, run_id):
    """A run and those fed through it."""
    found = {run_id}
    while more := {run.id for run in rig.runs.values() if run.from_ in found} - found:
        found |= more
    return found


def currents(rig, network):
    """run's id → (in its positive, in its return or chassis path; None for a borrower), by adding up heaters.

    What a conductor without resistance carries no voltage tells, so currents are summed: out, all heaters behind;
    back, all whose way back leads through.
    """
    drawn = {
        run.id: sum(
            (network.across(heater, run) / load(rig.heaters[heater]) for heater in run.feeds),
            start=np.zeros(network.choices),
        )
        for run in rig.runs.values()
    }
    through = coming_back_through(rig)
    result = {}
    for run in rig.runs.values():
        out = sum(drawn[one] for one in with_all_behind(rig, run.id))
        back = None
        if run.back in ("own", "chassis"):
            back = sum(drawn[one] for one in through[run.id])
        result[run.id] = (out, back)
    return result


def way_back(rig, run):
    """The runs whose return or chassis path a run's current takes, nearest first."""
    way = []
    while run is not None:
        while run.back not in ("own", "chassis"):
            run = rig.runs[run.back]
        way.append(run)
        run = None if run.back == "chassis" or run.from_ == "supply" else rig.runs[run.from_]
    return way


def way_out(rig, run):
    """A run and those before it, nearest first."""
    way = [run]
    while way[-1].from_ != "supply":
        way.append(rig.runs[way[-1].from_])
    return way


def coming_back_through(rig):
    """run's id → all runs whose far end comes back through its return."""
    through: dict[str, set[str]] = {run_id: set() for run_id in rig.runs}
    for run in rig.runs.values():
        for carrier in way_back(rig, run):
            through[carrier.id].add(run.id)
    return through

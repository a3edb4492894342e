"""What a meter should show on the finished wiring, and what stands in series with a pad beside its wires.

Each test is made with one circuit alone energised: a fused run and all behind it. A pad is tested with the circuit of
the nearest fuse before it. Readings are taken as they were typed; their uncertainty by small differences of it all.

Where the documents leave it open: volts at a pad are judged by 3 % of the supply's on either side of what is expected;
the supply's volts are those read between a circuit's last energising and its fuse out, the newest of all where nobody
said that it was energised; what is allowed for a fuse or a switch is seen by the pad's own current, as its wires are.
"""

import copy
import math
from dataclasses import dataclass, replace
from typing import NamedTuple

from tests.independent.circuit import seen
from tests.independent.network import (
    MINUS,
    PLUS,
    Network,
    load,
    way_out,
    with_all_behind,
)

AMPS_OFF, VOLTS_OFF, LEAST_ISOLATION = 0.1, 0.03, 1e6
OF_FUSE, OF_SWITCH = 0.015, 0.010  # allowed for contacts [Ω]
MOST_EXTRA, MOST_BURNT = 0.020, 1.0  # [Ω], [W]
NEAR = 1e-9
MOVED = 1e-5  # of a reading, for its slope
DAY = 86400.0  # s; every clock here is at UTC


class Metered(NamedTuple):
    """A meter's reading, SI; `value` None: over range. `digit`: one unit of its last digit."""

    value: float | None
    digit: float
    at: float


@dataclass
class Judged:
    """Expected beside what is accepted and what was read; `state` as it is judged."""

    expected: float | None
    low: float | None
    high: float | None
    state: str = "untested"
    value: float | None = None  # leads taken off
    u: float | None = None


class Extra(NamedTuple):
    """In series with a pad beside its wires, fuses and switches. [Ω, W, Ω]"""

    ohms: float
    watts: float
    u: float
    by: str

    @property
    def bad(self):
        return self.ohms - 2 * self.u > MOST_EXTRA or self.watts > MOST_BURNT


def u_of(metered, *, clamp=False):
    share, digits = (0.02, 3) if clamp else (0.005, 1)
    return (share * abs(metered.value) + digits * metered.digit) / math.sqrt(3)


class Proving:
    """Tests and joints of a rig as measured.

    circuit : as solved. meters : slot → its readings, oldest first. live : circuit → (since when its fuse was in,
    when it was out again), of those that were energised.
    """

    def __init__(self, rig, circuit, meters, live):
        self.rig, self.circuit, self.meters, self.live = rig, circuit, meters, live
        self.gauges = {run_id: [gauge] for run_id, gauge in circuit.gauges.items()}
        self.fused = [run for run in rig.runs.values() if run.fuse is not None]

    def newest(self, slot, since=-math.inf, until=math.inf):
        readings = reversed(self.meters.get(slot, ()))
        return next((one for one in readings if since <= one.at < until), None)

    def supply(self, run_id):
        """The reading of the supply that counts for a circuit; None: as planned."""
        return self.newest("supply.volts", *self.live.get(run_id, ()))

    def supply_volts(self, run_id):
        read = self.supply(run_id)
        return self.rig.supply.volts if read is None else read.value

    def alone(self, run_id, volts=None):
        return Network(
            self.rig, self.gauges, self.supply_volts(run_id) if volts is None else volts, alone=run_id
        )

    def circuit_of(self, run):
        return next((one for one in way_out(self.rig, run) if one.fuse is not None), None)

    def behind(self, run_id):
        """(heater, the run that feeds it) of a circuit."""
        return [
            (self.rig.heaters[heater], run)
            for heater, run in self.rig.fed().items()
            if run.id in with_all_behind(self.rig, run_id)
        ]

    # --- tests ---

    def tests(self):
        """slot → Judged"""
        found = {}
        for heater in self.rig.heaters.values():
            found[f"heater.{heater.id}.resistance"] = self.cold_pad(heater)
        for run in self.fused:
            found[f"run.{run.id}.resistance"] = self.cold_circuit(run)
            found[f"run.{run.id}.isolation"] = self.judged(
                f"run.{run.id}.isolation", None, LEAST_ISOLATION, None, over="good"
            )
            amps = self.amps(run)
            found[f"run.{run.id}.current"] = self.judged(
                f"run.{run.id}.current", amps, amps * (1 - AMPS_OFF), amps * (1 + AMPS_OFF)
            )
        for heater_id, run in self.rig.fed().items():
            circuit = self.circuit_of(run)
            if circuit is not None:
                found |= self.at_pad(heater_id, run, circuit)
        return found

    def judged(self, slot, expected, low, high, *, over="off"):
        """Its newest reading against what is accepted. The last bits of a limit count for nothing."""
        one, value = self.newest(slot), self.value(slot)
        if one is None:
            state = "untested"
        elif value is None:
            state = over
        else:
            above = low is None or value >= low - NEAR * abs(low)
            state = "good" if above and (high is None or value <= high + NEAR * abs(high)) else "off"
        return Judged(expected, low, high, state, value, self.u(slot))

    def leads(self, slot):
        """What is taken off a reading: of a resistance, the meter's leads as read on its day, the newest."""
        one = self.newest(slot)
        if one is None or not slot.endswith(".resistance"):
            return None
        began = one.at // DAY * DAY
        return self.newest("meter.leads", began, began + DAY)

    def value(self, slot):
        one, leads = self.newest(slot), self.leads(slot)
        if one is None or one.value is None:
            return None
        return one.value - (0.0 if leads is None else leads.value)

    def u(self, slot):
        one, leads = self.newest(slot), self.leads(slot)
        if one is None or one.value is None:
            return None
        own = u_of(one, clamp=slot.endswith(".current"))
        return own if leads is None else math.hypot(own, u_of(leads))

    def cold_pad(self, heater):
        slot, own = f"heater.{heater.id}.resistance", load(heater)
        low, high = heater.tolerance
        test = self.judged(slot, own, own * (1 + low), own * (1 + high))
        return unjudged(test) if heater.element == "self-regulating" else test

    def cold_circuit(self, run):
        """At its fuse holder; what is accepted: every pad of it at one edge of its tolerance or the other."""
        values = [seen(rig, rig.runs[run.id], self.circuit.gauges) for rig in self.with_edges()]
        test = self.judged(f"run.{run.id}.resistance", *values)
        soft = any(heater.element == "self-regulating" for heater, _ in self.behind(run.id))
        return unjudged(test) if soft else test

    def with_edges(self):
        yield self.rig
        for edge in (0, 1):
            changed = copy.deepcopy(self.rig)
            for heater in changed.heaters.values():
                heater.watts /= 1 + heater.tolerance[edge]
            yield changed

    def amps(self, run):
        network = self.alone(run.id)
        return float(sum(network.across(one.id, by)[0] / load(one) for one, by in self.behind(run.id)))

    def at_pad(self, heater_id, run, circuit):
        network, supply = self.alone(circuit.id), self.supply_volts(circuit.id)
        name = f"heater.{heater_id}"
        out = float((network.at(PLUS) - network.at((run.id, "far")))[0])
        back = float((network.at((run.id, "back")) - network.at(MINUS))[0])
        expected, off = supply - out - back, VOLTS_OFF * supply
        volts = self.judged(f"{name}.volts", expected, expected - off, expected + off)
        return {
            f"{name}.volts": volts,
            f"{name}.drop_out": unjudged(self.judged(f"{name}.drop_out", out, None, None)),
            f"{name}.drop_back": unjudged(self.judged(f"{name}.drop_back", back, None, None)),
        }

    # --- joints ---

    def joints(self):
        """heater → Extra, of each whose readings tell."""
        found = {}
        for heater_id, run in self.rig.fed().items():
            circuit = self.circuit_of(run)
            joint = None if circuit is None else self.joint(heater_id, run, circuit)
            if joint is not None:
                found[heater_id] = joint
        return found

    def joint(self, heater_id, run, circuit):
        """By drops where both are read, else by the volts at both ends; None where a reading is wanting."""
        name = f"heater.{heater_id}"
        drops = [self.newest(f"{name}.{one}") for one in ("drop_out", "drop_back")]
        pad, supply = self.newest(f"{name}.volts"), self.supply(circuit.id)
        by, along, sign = ("drops", drops, 1) if all(drops) else ("volts", [supply, pad], -1)
        sole = len(self.behind(circuit.id)) == 1
        if sole:
            through = [self.newest(f"run.{circuit.id}.current")]
        else:
            through = [pad, self.newest(f"{name}.resistance")]
        if any(one is None or one.value is None for one in (*along, *through)):
            return None
        if through[0].value <= 0:
            return None
        through += [] if sole else [one for one in [self.leads(f"{name}.resistance")] if one]
        known = self.own(heater_id, run, circuit) + self.allowed(heater_id, run, circuit)

        def amps(first, *cold):
            return first / (cold[0] - sum(cold[1:])) if cold else first

        def extra(values):
            return (values[0] + sign * values[1]) / amps(*values[2:]) - known

        read = [*along, *through]
        values = [one.value for one in read]
        parts = []
        for one in dict.fromkeys(read):  # the pad's volts may stand in both
            ends = [
                extra([value + shift * (other is one) for value, other in zip(values, read, strict=True)])
                for shift in (MOVED, -MOVED)
            ]
            u = u_of(one, clamp=sole and one is through[0])
            parts.append((ends[0] - ends[1]) / (2 * MOVED) * u)
        ohms = extra(values)
        return Extra(ohms, ohms * amps(*values[2:]) ** 2, math.hypot(*parts), by)

    def own(self, heater_id, run, circuit):
        """What the wires account for: the volts lost over the pad's own current. [Ω]"""
        network = self.alone(circuit.id, 1.0)
        at_pad = float(network.across(heater_id, run)[0])
        return (1.0 - at_pad) / at_pad * load(self.rig.heaters[heater_id])

    def allowed(self, heater_id, run, circuit):
        """For the fuses and switches on the way: what they take at all that flows there, over the pad's current."""
        network = self.alone(circuit.id, 1.0)
        drawn = {
            one.id: float(network.across(one.id, by)[0]) / load(one) for one, by in self.behind(circuit.id)
        }
        volts = 0.0
        for one in way_out(self.rig, run):
            amps = sum(drawn.get(heater.id, 0.0) for heater, _ in self.behind(one.id))
            volts += amps * OF_FUSE * (self.circuit.fuses[one.id] is not None)
            volts += amps * OF_SWITCH * (one.switch is not None)
        return volts / drawn[heater_id]

    # --- findings ---

    def findings(self):
        """id → weight"""
        found = {}
        for slot, test in self.tests().items():
            place, _, quantity = slot.rpartition(".")
            if test.state == "off" and quantity in ("resistance", "current", "volts", "isolation"):
                found[f"{quantity}:{place}"] = "stop"
        for heater_id, joint in self.joints().items():
            if joint.bad:
                found[f"joint:heater.{heater_id}"] = "stop"
        return found


def unjudged(test):
    """Read or not, nothing is accepted or refused."""
    state = "untested" if test.state == "untested" else "not judged"
    return replace(test, low=None, high=None, state=state)

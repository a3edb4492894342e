"""The wiring with one run a little shorter or longer, gauges held: what lengths that were read leave uncertain.

Only the part of the network that the run belongs to is solved again: nothing in another one moves. What is asked
of a run or a heater is worked out when it is asked.
"""

from collections.abc import Callable
from functools import lru_cache
from typing import TypeVar

import msgspec

from logic.assessment.circuit_inputs import Inputs, Load
from logic.assessment.shared import HeaterCircuit
from logic.physics.conductors import resistance_per_metre
from logic.physics.harness import Harness, Stand, copper
from logic.physics.network import CHASSIS, OWN, SUPPLY, Solution, Tree, solve
from logic.physics.network_parts import Part, part_with

LENGTH_STEP = 1e-5
"""Step of a run's length for slopes, as a share of it (of 1 m where it is 0): arithmetic, no source. Central,
so its own error is of second order; the wiring is the same but for this length, gauges held.
"""

One = TypeVar("One")


class RunFlow:
    """What of a run hangs on the lengths. SI."""

    __slots__ = ("amps", "drop", "return_amps")

    def __init__(self, beside: "Beside", run: int) -> None:
        """`run` : its place in the part that is solved."""
        tree, now, inputs = beside.part.tree, beside.solution, beside.inputs
        self.amps = inputs.charging * now.run_amps[run]  # at `charging`
        own = tree.backs[run] < 0
        self.return_amps = inputs.charging * now.return_amps[run] if own else None  # None: it borrows one
        self.drop = inputs.volts * drop_along(tree, run, now)  # V, at `volts`, out and back


class _Asked(dict[str, One]):
    """Results by name, each made when it is first asked for."""

    def __init__(self, make: Callable[[str], One]) -> None:
        super().__init__()
        self.make = make

    def __missing__(self, name: str) -> One:
        made = self[name] = self.make(name)
        return made


class Beside:
    """The wiring with one length changed: its runs and heaters by id, those of the part that the run belongs to."""

    def __init__(self, inputs: Inputs, harness: Harness, standing: Stand, *, run: int, length: float) -> None:
        self.inputs = inputs
        self._harness = msgspec.structs.replace(
            harness, lengths=(*harness.lengths[:run], length, *harness.lengths[run + 1 :])
        )
        self.gauges = standing.gauges
        self.part = part = part_with(harness.tree, run)
        ohms = resistance_per_metre(standing.gauges[run], harness.table, harness.temperature) * length
        own = harness.tree.backs[run] == OWN
        positives = [ohms if each == run else standing.positives[each] for each in part.runs]
        returns = [ohms if each == run and own else standing.returns[each] for each in part.runs]
        self.solution = solve(
            part.tree,
            positives,
            returns=returns,
            loads=[harness.heaters[load] for load in part.loads],
        )
        self.runs: dict[str, RunFlow] = _Asked(self._run)
        self.heaters: dict[str, HeaterCircuit] = _Asked(self._heater)

    def _run(self, name: str) -> RunFlow:
        return RunFlow(self, _names_of(self.inputs, self.part).runs[name])

    def _heater(self, name: str) -> HeaterCircuit:
        load, heater = _names_of(self.inputs, self.part).heaters[name]
        return heater_circuit(self.inputs, heater, self.solution.load_volts[load])

    @property
    def copper(self) -> float:
        """Of all runs. [kg]"""
        return copper(self._harness, self.gauges)


def beside_of(inputs: Inputs, harness: Harness, standing: Stand, run: int) -> tuple[Beside, Beside, float]:
    """The wiring with a run a little shorter and a little longer, gauges held; and the length between the two. [m]"""
    length = harness.lengths[run]
    half = LENGTH_STEP * (length or 1.0)
    shorter, longer = max(0.0, length - half), length + half
    return (
        Beside(inputs, harness, standing, run=run, length=shorter),
        Beside(inputs, harness, standing, run=run, length=longer),
        longer - shorter,
    )


def joined_to(tree: Tree, run: int) -> tuple[int, ...]:
    """The runs of the part that a run belongs to: no other length moves what flows in it."""
    return part_with(tree, run).runs


class _Names(msgspec.Struct, frozen=True):
    """Where in a part runs and heaters stand, by their ids."""

    runs: dict[str, int]
    heaters: dict[str, tuple[int, Load]]


@lru_cache(maxsize=256)
def _names_of(inputs: Inputs, part: Part) -> _Names:
    fed = fed_heaters(inputs)
    heaters = {heater.id: heater for heater in inputs.heaters}
    return _Names(
        runs={inputs.runs[run][0]: at for at, run in enumerate(part.runs)},
        heaters={fed[load]: (at, heaters[fed[load]]) for at, load in enumerate(part.loads)},
    )


def fed_heaters(inputs: Inputs) -> list[str]:
    """The heaters that a run feeds, run by run: those of the network's loads."""
    return [heater for run in inputs.runs for heater in run[7]]


def drop_along(tree: Tree, run: int, solution: Solution) -> float:
    """What is lost along a run's positive and what its return adds, per volt of the supply."""
    parent = tree.parents[run]
    head = 1.0 if parent == SUPPLY else solution.positives[parent]
    start = 0.0 if parent == SUPPLY or tree.backs[run] == CHASSIS else solution.negatives[parent]
    return head - solution.positives[run] + solution.negatives[run] - start


def heater_circuit(
    inputs: Inputs,
    heater: Load,
    share: float,
    *,
    lengthwise: Callable[[], tuple[tuple[str, float], ...]] | None = None,
) -> HeaterCircuit:
    """A fed heater that gets a share of the supply's volts."""
    ohms = heater.volts**2 / heater.watts
    volts, charging = inputs.volts * share, inputs.charging * share
    return HeaterCircuit(
        resistance=ohms,
        fed=True,
        volts=volts,
        watts=volts**2 / ohms,
        amps=volts / ohms,
        charging_volts=charging,
        charging_amps=charging / ohms,
        lengthwise=lengthwise,
    )

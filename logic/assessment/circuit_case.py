"""The rig's wiring solved once: what flows in each run and heater, with which gauge and behind which fuse.

Memoised by what it hangs on and by nothing else, so that a reading of a tank costs no network. Figures,
findings and the parts list of the circuits read their results from here.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from functools import lru_cache

import msgspec

from logic.assessment.circuit_beside import (
    Beside,
    beside_of,
    drop_along,
    fed_heaters,
    heater_circuit,
    joined_to,
)
from logic.assessment.circuit_inputs import Inputs, harness_from, inputs_of
from logic.assessment.shared import Circuits, HeaterCircuit
from logic.data.profile import Profile
from logic.data.wiring_constants import THICKEST
from logic.physics.conductors import resistance_per_metre
from logic.physics.gauge_choice import Choice, choose_gauges
from logic.physics.harness import Harness, Stand, copper_of, stand
from logic.physics.network import OWN, Tree, way_resistance, ways
from logic.physics.network_parts import seen_from_head, slopes_seen_from_head
from logic.physics.protection import protection, summed_fuses


class RunCircuit(msgspec.Struct, frozen=True):
    """One run of the solved network, every heater on. SI."""

    id: str
    gauge: int  # in use: chosen, given, or 4 AWG where no choice is feasible
    chosen: bool  # by the program
    amps: float  # at `charging`
    return_amps: float | None  # None: it borrows another run's return
    fuse: float | None  # at its head
    nearest_fuse: str | None  # the run with the nearest fuse at or before it
    drop: float  # V, at `volts`, out and back as the format's convention has it
    short: float | None  # A, at `volts`; None: nothing but the supply itself limits it
    copper: float  # kg, of its positive and its own return
    ohms: float  # Ω of its positive
    heaters: tuple[str, ...]  # behind it, in the profile's order


class Section(msgspec.Struct, frozen=True):
    """What one fuse protects: the run at whose head it stands, and those behind it up to the next fuses."""

    fuse_run: str
    rating: float
    amps: float  # at `charging`, of the run with the fuse
    runs: tuple[str, ...]


class LentReturn(msgspec.Struct, frozen=True):
    """An own return through which other circuits come back too."""

    run: str
    fuses: tuple[tuple[str, float], ...]  # (run, rating) of the distinct nearest fuses, none behind another
    total: float
    amps: float  # at `charging`, in the return
    users: tuple[tuple[str, float], ...]  # (run that starts a branch of what comes back, its part of `amps`)


class Wired(msgspec.Struct, frozen=True):
    """The whole wiring as it stands."""

    harness: Harness
    standing: Stand
    choice: Choice
    runs: dict[str, RunCircuit]
    heaters: dict[str, HeaterCircuit]
    heater_runs: dict[str, str]  # the run that feeds each fed heater
    sections: tuple[Section, ...]
    lent: tuple[LentReturn, ...]
    exposed: tuple[str, ...]  # runs from the supply without a fuse
    copper: float
    volts: float  # of the supply
    supply_amps: float
    supply_charging_amps: float

    def meter(self, run: str) -> float | None:
        """What a meter shows at a run's fuse holder, cold. [Ω] None: no fuse, or no heater behind it."""
        at = self.harness.names.index(run)
        if self.standing.fuses[at] is None:
            return None
        return seen_from_head(
            self.harness.tree,
            at,
            positives=self.standing.positives,
            returns=self.standing.returns,
            loads=self.harness.heaters,
        )

    def meter_slopes(self, run: str) -> dict[str, float]:
        """How that grows with the length of each run that it hangs on. [Ω/m]"""
        harness = self.harness
        found = slopes_seen_from_head(
            harness.tree,
            harness.names.index(run),
            positives=self.standing.positives,
            returns=self.standing.returns,
            loads=harness.heaters,
        )
        return {
            harness.names[each]: self._ohms_per_metre(each) * (out + (back if self._is_own(each) else 0.0))
            for each, (out, back) in found.items()
        }

    def short_slopes(self, run: str) -> dict[str, float]:
        """How a short at a run's far end, V/R, changes with the length of each run out to it and back: −(V/R²)·r.
        [A/m]
        """
        short, way, at = self.runs[run].short, ways(self.harness.tree), self.harness.names.index(run)
        if short is None:
            return {}
        ways_through = Counter([*way.out[at], *(each for each in way.back[at] if self._is_own(each))])
        return {
            self.harness.names[each]: -(short**2) / self.volts * self._ohms_per_metre(each) * times
            for each, times in ways_through.items()
        }

    def _is_own(self, run: int) -> bool:
        """Whether a run's return is a wire as long as itself."""
        return self.harness.tree.backs[run] == OWN

    def _ohms_per_metre(self, run: int) -> float:
        return resistance_per_metre(self.standing.gauges[run], self.harness.table, self.harness.temperature)


def circuits(profile: Profile) -> Circuits:
    """What the figures of heat need of the wiring: each heater's volts and watts, the supply's current."""
    return _circuits(inputs_of(profile))


def wired(profile: Profile) -> Wired:
    """The whole wiring as it stands. Its dicts are not to be changed by whoever asks."""
    return _wired(inputs_of(profile), None)


def wired_with(profile: Profile, gauges: dict[str, int] | None = None, **changes: float) -> Wired:
    """The wiring with some gauges replaced and all others held as they stand: what a remedy would bring.

    changes : `volts`, `charging` of the supply instead of the profile's.
    """
    inputs = inputs_of(profile)
    held = dict(zip((run[0] for run in inputs.runs), _wired(inputs, None).standing.gauges, strict=True))
    held.update(gauges or {})
    if changes:
        inputs = msgspec.structs.replace(inputs, **changes)
    return _wired(inputs, tuple(held[run[0]] for run in inputs.runs))


@lru_cache(maxsize=32)
def _circuits(inputs: Inputs) -> Circuits:
    whole = _wired(inputs, None)
    return Circuits(
        heaters=tuple(whole.heaters.items()),
        supply_amps=whole.supply_amps,
        supply_charging_amps=whole.supply_charging_amps,
    )


@lru_cache(maxsize=64)
def _choice(harness: Harness) -> Choice:
    return choose_gauges(harness)


@lru_cache(maxsize=128)
def _wired(inputs: Inputs, gauges: tuple[int, ...] | None) -> Wired:
    harness = harness_from(inputs)
    if gauges is None:
        choice = _choice(harness)
        gauges = choice.gauges or tuple(gauge or THICKEST for gauge in harness.gauges)
    else:
        choice = Choice(gauges, None, None, False)
    standing = stand(harness, gauges)
    tree, now, names = harness.tree, standing.solution, harness.names
    fed = fed_heaters(inputs)
    facts = protection(tree, tuple(fuse is not None for fuse in standing.fuses))
    runs = _run_circuits(inputs, harness, standing, facts.nearest)

    sections = tuple(
        Section(
            fuse_run=names[run],
            rating=fuse,
            amps=runs[names[run]].amps,
            runs=tuple(names[each] for each in range(len(names)) if facts.nearest[each] == run),
        )
        for run, fuse in enumerate(standing.fuses)
        if fuse is not None
    )
    lent = tuple(
        LentReturn(
            run=names[run],
            fuses=tuple((names[fuse], standing.fuses[fuse] or 0.0) for fuse in facts.summed[run]),
            total=summed_fuses(facts, run, standing.fuses),
            amps=inputs.charging * now.return_amps[run],
            users=tuple(
                (names[each], inputs.charging * amps)
                for each, amps in _users(tree, facts.returning[run], now.load_amps).items()
            ),
        )
        for run in range(len(names))
        if facts.lent[run]
    )
    return Wired(
        harness=harness,
        standing=standing,
        choice=choice,
        runs=runs,
        heaters=_heaters(inputs, harness, standing),
        heater_runs={heater: names[run] for heater, run in zip(fed, tree.loads, strict=True)},
        sections=sections,
        lent=lent,
        exposed=tuple(names[run] for run in facts.exposed),
        copper=standing.copper,
        volts=inputs.volts,
        supply_amps=inputs.volts * now.supply_amps,
        supply_charging_amps=inputs.charging * now.supply_amps,
    )


def _behind(inputs: Inputs, tree: Tree) -> list[tuple[str, ...]]:
    """Of each run, the heaters behind it, in the profile's order."""
    fed, out = fed_heaters(inputs), ways(tree).out
    behind: list[list[str]] = [[] for _ in inputs.runs]
    for load, run in enumerate(tree.loads):
        for each in out[run]:
            behind[each].append(fed[load])
    order = {load.id: place for place, load in enumerate(inputs.heaters)}
    return [tuple(sorted(heaters, key=order.__getitem__)) for heaters in behind]


def _run_circuits(
    inputs: Inputs, harness: Harness, standing: Stand, nearest: Sequence[int | None]
) -> dict[str, RunCircuit]:
    tree, now, names = harness.tree, standing.solution, harness.names
    behind = _behind(inputs, tree)
    runs = {}
    for run, name in enumerate(names):
        fuse = nearest[run]
        around = way_resistance(tree, run, positives=standing.positives, returns=standing.returns)
        runs[name] = RunCircuit(
            id=name,
            gauge=standing.gauges[run],
            chosen=harness.gauges[run] is None,
            amps=inputs.charging * now.run_amps[run],
            return_amps=inputs.charging * now.return_amps[run] if tree.backs[run] < 0 else None,
            fuse=standing.fuses[run],
            nearest_fuse=names[fuse] if fuse is not None else None,
            drop=inputs.volts * drop_along(tree, run, now),
            short=inputs.volts / around if around > 0 else None,
            copper=copper_of(harness, run, standing.gauges[run]),
            ohms=standing.positives[run],
            heaters=behind[run],
        )
    return runs


def _users(tree: Tree, returning: tuple[int, ...], load_amps: tuple[float, ...]) -> dict[int, float]:
    """Of the runs that come back one way, those that start a branch: no other of them lies right before them.

    With each the current that it and those behind it send back that way; what goes back by another isn't in it.
    """
    out = ways(tree).out
    users = {run: 0.0 for run in returning if tree.parents[run] not in returning}
    for load, run in enumerate(tree.loads):
        if run in returning:
            users[next(each for each in reversed(out[run]) if each in users)] += load_amps[load]
    return users


def _heaters(inputs: Inputs, harness: Harness, standing: Stand) -> dict[str, HeaterCircuit]:
    fed = [heater for run in inputs.runs for heater in run[7]]
    at = {heater: load for load, heater in enumerate(fed)}
    heaters = {}
    for heater in inputs.heaters:
        if heater.id in at:
            share = standing.solution.load_volts[at[heater.id]]
            heaters[heater.id] = heater_circuit(
                inputs, heater, share, lengthwise=_Lengthwise(inputs, heater.id)
            )
        else:
            ohms = heater.volts**2 / heater.watts
            heaters[heater.id] = HeaterCircuit(ohms, False, None, None, None, None, None)
    return heaters


class _Lengthwise(msgspec.Struct, frozen=True):
    """How a heater's volts hang on the runs' lengths: worked out only when somebody asks."""

    inputs: Inputs
    heater: str

    def __call__(self) -> tuple[tuple[str, float], ...]:
        whole = _wired(self.inputs, None)
        names = whole.harness.names
        found = []
        for run in joined_to(whole.harness.tree, names.index(whole.heater_runs[self.heater])):
            less, more, step = _beside(self.inputs, names[run])
            low, high = less.heaters[self.heater].volts, more.heaters[self.heater].volts
            if low is not None and high is not None:
                found.append((f"run.{names[run]}.length", (high - low) / step))
        return tuple(found)


@lru_cache(maxsize=512)
def _beside(inputs: Inputs, run: str) -> tuple[Beside, Beside, float]:
    whole = _wired(inputs, None)
    return beside_of(inputs, whole.harness, whole.standing, whole.harness.names.index(run))


def besides(profile: Profile, runs: Iterable[str]) -> list[tuple[Beside, Beside, float]]:
    """Of each of some runs: the wiring with its length a little less and a little more, gauges held, and the
    difference in m.

    For first-order uncertainty (JCGM 100, 5.1.2): the slope of any result is its difference over that length.
    """
    inputs = inputs_of(profile)
    return [_beside(inputs, run) for run in runs]

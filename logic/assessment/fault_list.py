"""The faults that a wiring may have, each as a change of the same network, and how common they are.

How common is common practice without a source; it only decides between faults that the readings can't tell
apart.
"""

from collections import Counter
from collections.abc import Iterator
from functools import partial

import msgspec

from logic.assessment.bench import Bench
from logic.assessment.case import Case
from logic.assessment.work_facts import WorkFacts
from logic.data.wiring_constants import GAUGES
from logic.data.wording import Words, words
from logic.physics.conductors import resistance_per_metre
from logic.physics.fault_network import Change
from logic.physics.network import ways

# Share of each kind among faults found on such a harness; PRACTICE, no source.
COMMON = {
    "sound": 0.30,
    "thermostat-open": 0.20,
    "joint": 0.20,
    "shared-return": 0.10,
    "blown-fuse": 0.10,
    "leads": 0.10,
    "open-pad": 0.04,
    "other-pad": 0.03,
    "gauge": 0.05,
    "short": 0.03,
    "chassis": 0.04,
    "swapped": 0.05,
}
CHILLED_CLOSED = 0.02  # what is left of a thermostat's chance to be open once it was seen closed; PRACTICE
LEAST_DIFFERENCE = 0.03  # two pads nearer alike than this can't be told apart when swapped

JOINT_RANGE = (0.005, 100.0)  # Ω: below, no meter sees it; above, it is open
CHASSIS_RANGE = (0.1, 2e6)  # Ω
OTHER_PAD = (0.2, 5.0)  # of what the label gives
LEADS_RANGE = (0.03, 1.0)  # Ω; a handheld meter's are 0.1–0.3
SHORTS = (0.003, 0.02, 0.1, 0.5)  # Ω


class Sized(msgspec.Struct, frozen=True):
    """A change with one number left open: where it is, and which of a change's fields takes it."""

    field: str  # run_out | run_back | load_out | load_back | ohms | to_chassis | leads
    at: int = 0
    where: float = 0.0

    def change(self, size: float) -> Change:
        if self.field == "leads":
            return Change(leads=size)
        if self.field == "to_chassis":
            return Change(to_chassis=(self.at, self.where, size))
        return Change(**{self.field: ((self.at, size),)})  # type: ignore[arg-type]


class Fault(msgspec.Struct, frozen=True):
    """One thing that may be wrong, somewhere."""

    kind: str
    place: str  # heater.… | run.… | meter | rig
    title: Words
    affects: frozenset[int]  # the circuits whose readings it moves
    chance: float = 1.0  # within its kind, then of all faults
    # the size that isn't known: its range [Ω], and the change for a size; or a few changes to try
    span: tuple[float, float] | None = None
    tries: tuple[Change, ...] = ()
    sizes: tuple[Sized, ...] = ()


def faults_of(case: Case, facts: WorkFacts, bench: Bench, suspects: frozenset[int]) -> list[Fault]:
    """Every fault that could move a reading of the suspected circuits, and none at all."""
    found = [
        fault
        for make in (
            _thermostats,
            _open_pads,
            _other_pads,
            _joints,
            _shared_returns,
            _blown,
            _gauges,
            _shorts,
            _chassis,
            _swapped,
        )
        for fault in make(case, facts, bench, suspects)
    ]
    if facts.newest("meter.leads") is None:
        found.append(
            Fault(
                kind="leads",
                place="meter",
                title=words("the meter's leads, not taken off"),
                affects=frozenset(circuits_of(bench)),
                span=LEADS_RANGE,
                sizes=(Sized("leads"),),
            )
        )
    found.append(
        Fault(kind="sound", place="rig", title=words("nothing wrong"), affects=frozenset(), tries=(Change(),))
    )
    counts = Counter(fault.kind for fault in found)
    return [
        msgspec.structs.replace(fault, chance=fault.chance * COMMON[fault.kind] / counts[fault.kind])
        for fault in found
    ]


def circuits_of(bench: Bench) -> list[int]:
    """Fused runs with a heater behind them."""
    return [run for run in range(len(bench.runs)) if bench.fused[run] and bench.behind(run)]


def _through(bench: Bench, run: int, *, back: bool = False) -> frozenset[int]:
    """The circuits whose current passes a run's positive, or its return."""
    way = ways(bench.tree)
    path = way.back if back else way.out
    return frozenset(
        circuit
        for circuit in circuits_of(bench)
        if any(run in path[bench.tree.loads[load]] for load in bench.behind(circuit))
    )


def _served(bench: Bench, run: int) -> frozenset[int]:
    """The circuits, each heater's nearest, that come back through a run's own return."""
    way = ways(bench.tree)
    nearest = (bench.circuit_of(load) for load, at in enumerate(bench.tree.loads) if run in way.back[at])
    return frozenset(circuit for circuit in nearest if circuit is not None)


def _around(bench: Bench, load: int) -> frozenset[int]:
    return frozenset(circuit for circuit in circuits_of(bench) if load in bench.behind(circuit))


def _loads(bench: Bench, suspects: frozenset[int]) -> list[int]:
    return [load for load in range(len(bench.loads)) if _around(bench, load) & suspects]


def _runs(bench: Bench, suspects: frozenset[int]) -> list[int]:
    return [run for run in range(len(bench.runs)) if _through(bench, run) & suspects]


def _thermostats(case: Case, facts: WorkFacts, bench: Bench, suspects: frozenset[int]) -> Iterator[Fault]:
    for load in _loads(bench, suspects):
        heater = bench.loads[load]
        if case.heaters[heater].thermostat is None:
            continue
        chill = facts.history(f"chill:heater.{heater}")
        closed = chill.status == "done" and dict(chill.recorded).get("closed", "yes").lower() not in (
            "no",
            "open",
        )
        yield Fault(
            kind="thermostat-open",
            place=f"heater.{heater}",
            title=words("thermostat of {heater} open", heater=heater),
            chance=CHILLED_CLOSED if closed else 1.0,
            affects=_around(bench, load),
            tries=(Change(open_loads=(load,)),),
        )


def _open_pads(case: Case, facts: WorkFacts, bench: Bench, suspects: frozenset[int]) -> Iterator[Fault]:
    for load in _loads(bench, suspects):
        yield Fault(
            kind="open-pad",
            place=f"heater.{bench.loads[load]}",
            title=words("{heater} open inside", heater=bench.loads[load]),
            affects=_around(bench, load),
            tries=(Change(open_loads=(load,)),),
        )


def _other_pads(case: Case, facts: WorkFacts, bench: Bench, suspects: frozenset[int]) -> Iterator[Fault]:
    """A pad whose own resistance isn't what its label gives: another one, or a part of its element is broken."""
    for load in _loads(bench, suspects):
        own = bench.ohms[load]
        yield Fault(
            kind="other-pad",
            place=f"heater.{bench.loads[load]}",
            title=words("{heater} isn't what its label says, or is broken in part", heater=bench.loads[load]),
            affects=_around(bench, load),
            span=(own * OTHER_PAD[0], own * OTHER_PAD[1]),
            sizes=(Sized("ohms", load),),
        )


def _joints(case: Case, facts: WorkFacts, bench: Bench, suspects: frozenset[int]) -> Iterator[Fault]:
    """A bad joint on the way out or back: of a run, or at a heater that shares its run with others."""
    at = bench.tree.loads
    make = partial(Fault, kind="joint", span=JOINT_RANGE)
    for run in _runs(bench, suspects):
        name = bench.runs[run]
        yield make(
            place=f"run.{name}",
            title=words("bad joint on the way out in {run}", run=name),
            affects=_through(bench, run),
            sizes=(Sized("run_out", run),),
        )
        if bench.tree.backs[run] < 0 and len(_served(bench, run)) < 2:
            yield make(
                place=f"run.{name}",
                title=words("bad joint on the way back in {run}", run=name),
                affects=_through(bench, run, back=True),
                sizes=(Sized("run_back", run),),
            )
    for load in _loads(bench, suspects):
        others = at.count(at[load]) > 1
        for field, way in (("load_out", "out"), ("load_back", "back")):
            if not others and (way == "out" or bench.tree.backs[at[load]] < 0):
                continue  # the same as in its run
            yield make(
                place=f"heater.{bench.loads[load]}",
                title=words("bad joint on the way {way} at {heater}", way=way, heater=bench.loads[load]),
                affects=_around(bench, load),
                sizes=(Sized(field, load),),
            )


def _shared_returns(case: Case, facts: WorkFacts, bench: Bench, suspects: frozenset[int]) -> Iterator[Fault]:
    for run in range(len(bench.runs)):
        served = _served(bench, run)
        if bench.tree.backs[run] >= 0 or len(served) < 2 or not served & suspects:
            continue
        yield Fault(
            kind="shared-return",
            place=f"run.{bench.runs[run]}",
            title=words(
                "poor return in {run}, shared by {count} circuits",
                run=bench.runs[run],
                count=str(len(served)),
            ),
            affects=_through(bench, run, back=True),
            span=JOINT_RANGE,
            sizes=(Sized("run_back", run),),
        )


def _blown(case: Case, facts: WorkFacts, bench: Bench, suspects: frozenset[int]) -> Iterator[Fault]:
    for run in _runs(bench, suspects):
        if bench.fused[run]:
            yield Fault(
                kind="blown-fuse",
                place=f"run.{bench.runs[run]}",
                title=words("fuse of {run} blown", run=bench.runs[run]),
                affects=_through(bench, run),
                tries=(Change(blown=(run,)),),
            )


def _gauges(case: Case, facts: WorkFacts, bench: Bench, suspects: frozenset[int]) -> Iterator[Fault]:
    table, degc = case.profile.wiring.table, case.profile.wiring.conductor_degc
    for run in _runs(bench, suspects):
        own = resistance_per_metre(bench.gauges[run], table, degc)
        for gauge in GAUGES:
            if gauge == bench.gauges[run] or bench.positives[run] == 0.0:
                continue
            factor = resistance_per_metre(gauge, table, degc) / own
            yield Fault(
                kind="gauge",
                place=f"run.{bench.runs[run]}",
                title=words("{run} is {gauge} AWG wire", run=bench.runs[run], gauge=str(gauge)),
                affects=_through(bench, run) | _through(bench, run, back=True),
                tries=(Change(wire=((run, factor),)),),
            )


def _shorts(case: Case, facts: WorkFacts, bench: Bench, suspects: frozenset[int]) -> Iterator[Fault]:
    for run in _runs(bench, suspects):
        yield Fault(
            kind="short",
            place=f"run.{bench.runs[run]}",
            title=words("short between the conductors at the far end of {run}", run=bench.runs[run]),
            affects=_through(bench, run),
            tries=tuple(Change(short=(run, ohms)) for ohms in SHORTS),
        )


def _chassis(case: Case, facts: WorkFacts, bench: Bench, suspects: frozenset[int]) -> Iterator[Fault]:
    for load in _loads(bench, suspects):
        yield Fault(
            kind="chassis",
            place=f"heater.{bench.loads[load]}",
            title=words("{heater} or its lead touches the chassis", heater=bench.loads[load]),
            affects=_around(bench, load),
            span=CHASSIS_RANGE,
            sizes=tuple(Sized("to_chassis", load, where) for where in (0.02, 0.5, 0.98)),
        )


def _swapped(case: Case, facts: WorkFacts, bench: Bench, suspects: frozenset[int]) -> Iterator[Fault]:
    for one in range(len(bench.loads)):
        for other in range(one + 1, len(bench.loads)):
            first, second = bench.ohms[one], bench.ohms[other]
            around = _around(bench, one) | _around(bench, other)
            if abs(first / second - 1.0) < LEAST_DIFFERENCE or not around & suspects:
                continue
            yield Fault(
                kind="swapped",
                place=f"heater.{bench.loads[one]}",
                title=words("{one} and {other} swapped", one=bench.loads[one], other=bench.loads[other]),
                affects=around,
                tries=(Change(ohms=((one, second), (other, first))),),
            )

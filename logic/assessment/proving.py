"""Every test of the finished wiring: what the meter should show, what it shows, and what the joints add.

Expected values are those of the circuit under test alone, later fuses in, thermostats closed, at the supply's
volts measured then. The network is the same that the figures are computed with.
"""

from functools import lru_cache
from math import hypot

import msgspec

from logic.assessment.case import Case
from logic.assessment.circuit_case import wired
from logic.assessment.work import facts_of
from logic.assessment.work_facts import FUSE_OUT, WorkFacts
from logic.data.profile import Heater, Profile
from logic.data.state import Reading
from logic.data.wiring_constants import (
    CURRENT_SHARE,
    FUSE_ALLOWANCE,
    LEAST_ISOLATION,
    SWITCH_ALLOWANCE,
    VOLTS_SHARE,
)
from logic.physics.joint import Extra, clamp_uncertainty, extra_resistance, meter_uncertainty
from logic.physics.network import Solution, Tree, seen_from_head, solve, ways

UNTESTED, GOOD, OFF, UNJUDGED = "untested", "good", "off", "not judged"


class Trial(msgspec.Struct, frozen=True):
    """One test: expected beside measured. SI."""

    slot: str
    place: str
    circuit: str  # the run whose circuit it is made in; empty: none
    quantity: str  # resistance | isolation | current | volts | drop_out | drop_back
    kind: str  # ohms | amps | volts
    state: str  # untested | good | off | not judged
    expected: float | None = None
    low: float | None = None  # of what is accepted
    high: float | None = None
    measured: float | None = None  # as the meter showed it
    corrected: float | None = None  # leads taken off; None: nothing to take off, or no leads read
    u: float | None = None  # one standard uncertainty of the reading
    over: bool = False  # over range
    supply: float | None = None  # at which it is expected
    supply_read: bool = False  # that voltage was measured, with this circuit energised

    @property
    def value(self) -> float | None:
        """The reading that counts: corrected where it is."""
        return self.corrected if self.corrected is not None else self.measured


class JointTrial(msgspec.Struct, frozen=True):
    """The resistance found in series with a heater beyond what its wires, fuses and switches account for."""

    heater: str
    circuit: str
    by: str  # drops | volts
    amps: float
    computed: float  # Ω
    allowed: float  # Ω
    extra: Extra


class Proof(msgspec.Struct, frozen=True):
    trials: tuple[Trial, ...]
    joints: tuple[JointTrial, ...]

    def trial(self, slot: str, circuit: str = "") -> Trial | None:
        return next((one for one in self.trials if one.slot == slot and circuit in ("", one.circuit)), None)


class Bench(msgspec.Struct, frozen=True):
    """The rig's network by index, and what of it stands where."""

    tree: Tree
    runs: tuple[str, ...]
    loads: tuple[str, ...]  # heaters
    positives: tuple[float, ...]  # Ω
    returns: tuple[float, ...]  # Ω
    ohms: tuple[float, ...]  # of the heaters, rated
    fuses: tuple[float | None, ...]  # A, at each run's head
    fused: tuple[bool, ...]  # by the profile, whether or not a rating was found
    switched: tuple[bool, ...]
    gauges: tuple[int, ...]

    def behind(self, run: int) -> frozenset[int]:
        """The loads behind a run."""
        way = ways(self.tree)
        return frozenset(load for load, at in enumerate(self.tree.loads) if run in way.out[at])

    def circuit_of(self, load: int) -> int | None:
        """The nearest fused run before a load."""
        out = ways(self.tree).out[self.tree.loads[load]]
        return next((run for run in reversed(out) if self.fused[run]), None)


def bench_of(profile: Profile) -> Bench:
    """The network under test, with the gauges in use."""
    whole = wired(profile)
    return Bench(
        tree=whole.harness.tree,
        runs=tuple(run.id for run in profile.runs),
        loads=tuple(heater for run in profile.runs for heater in run.feeds),
        positives=whole.standing.positives,
        returns=whole.standing.returns,
        ohms=whole.harness.heaters,
        fuses=whole.standing.fuses,
        fused=tuple(run.fuse != "none" for run in profile.runs),
        switched=tuple(run.switch is not None for run in profile.runs),
        gauges=whole.standing.gauges,
    )


@lru_cache(maxsize=128)
def alone(bench: Bench, run: int) -> Solution:
    """A circuit alone energised, later fuses in: volts and amperes for each volt of the supply."""
    return solve(bench.tree, bench.positives, returns=bench.returns, loads=bench.ohms, only=bench.behind(run))


def proof_of(case: Case) -> Proof:
    """Every test of a case, made once for all who ask."""
    known = case.__dict__.get("_proof")
    if known is None:
        known = case.__dict__["_proof"] = _proof(case)
    return known


def _proof(case: Case) -> Proof:
    facts = facts_of(case)
    bench = bench_of(case.profile)
    tests: list[Trial] = []
    joints: list[JointTrial] = []
    circuits = [run for run in range(len(bench.runs)) if bench.fused[run] and bench.behind(run)]
    for heater in case.profile.heaters:
        tests.append(_pad_resistance(facts, heater))
    for run in circuits:
        tests.append(_circuit_resistance(facts, bench, run, case))
        tests.append(_isolation(facts, bench, run))
    for run in circuits:
        tests.append(_current(facts, bench, run))
        for load in sorted(bench.behind(run)):
            if bench.circuit_of(load) != run:
                continue
            tests += _at_pad(facts, bench, load=load, run=run)
            joint = _joint(facts, bench, load=load, run=run)
            if joint is not None:
                joints.append(joint)
    return Proof(trials=tuple(tests), joints=tuple(joints))


# --- cold ---


def leads_of(facts: WorkFacts, reading: Reading) -> Reading | None:
    """The meter's leads as touched together on the day of a reading; None: not that day."""
    for one in reversed(facts.state.readings):
        if (
            one.slot == "meter.leads"
            and not one.struck
            and not one.over
            and one.when.day() == reading.when.day()
        ):
            return one
    return None


def _ohms(facts: WorkFacts, slot: str) -> tuple[Reading | None, float | None, float | None]:
    """A resistance's newest reading, what is left of it without the leads, and its uncertainty. [Ω]"""
    reading = facts.newest(slot)
    if reading is None or reading.over:
        return reading, None, None
    u = meter_uncertainty(reading.value, reading.resolution or 0.0)
    leads = leads_of(facts, reading)
    if leads is None:
        return reading, None, u
    u = hypot(u, meter_uncertainty(leads.value, leads.resolution or 0.0))
    return reading, reading.value - leads.value, u


def _judged(reading: Reading | None, value: float | None, *, low: float, high: float) -> str:
    if reading is None:
        return UNTESTED
    if reading.over or value is None:
        return OFF
    return GOOD if low - ARITHMETIC * abs(low) <= value <= high + ARITHMETIC * abs(high) else OFF


ARITHMETIC = 1e-9  # a limit that is met exactly is met


def _pad_resistance(facts: WorkFacts, heater: Heater) -> Trial:
    slot = f"heater.{heater.id}.resistance"
    reading, corrected, u = _ohms(facts, slot)
    expected = heater.volts**2 / heater.watts
    low, high = (expected * (1.0 + part) for part in heater.tolerance)
    value = corrected if corrected is not None else (reading.value if reading is not None else None)
    state = _judged(reading, value, low=low, high=high)
    regulating = heater.element == "self-regulating"
    if regulating and reading is not None:
        state = UNJUDGED
    circuit = facts.relations.circuit_of_heater(heater.id)
    return Trial(
        slot=slot,
        place=f"heater.{heater.id}",
        circuit=circuit or "",
        quantity="resistance",
        kind="ohms",
        state=state,
        expected=expected,
        low=None if regulating else low,
        high=None if regulating else high,
        measured=reading.value if reading is not None else None,
        corrected=corrected,
        u=u,
        over=reading is not None and reading.over,
    )


def _circuit_resistance(facts: WorkFacts, bench: Bench, run: int, case: Case) -> Trial:
    slot = f"run.{bench.runs[run]}.resistance"
    reading, corrected, u = _ohms(facts, slot)
    heaters = case.heaters
    tolerances = [heaters[name].tolerance for name in bench.loads]

    def seen(edge: int | None) -> float | None:
        loads = tuple(
            ohms * (1.0 + tolerance[edge]) if edge is not None else ohms
            for ohms, tolerance in zip(bench.ohms, tolerances, strict=True)
        )
        return seen_from_head(bench.tree, run, positives=bench.positives, returns=bench.returns, loads=loads)

    expected, low, high = seen(None), seen(0), seen(1)
    assert expected is not None
    assert low is not None
    assert high is not None
    value = corrected if corrected is not None else (reading.value if reading is not None else None)
    state = _judged(reading, value, low=low, high=high)
    regulating = any(heaters[bench.loads[load]].element == "self-regulating" for load in bench.behind(run))
    if regulating and reading is not None:
        state = UNJUDGED
    return Trial(
        slot=slot,
        place=f"run.{bench.runs[run]}",
        circuit=bench.runs[run],
        quantity="resistance",
        kind="ohms",
        state=state,
        expected=expected,
        low=None if regulating else low,
        high=None if regulating else high,
        measured=reading.value if reading is not None else None,
        corrected=corrected,
        u=u,
        over=reading is not None and reading.over,
    )


def _isolation(facts: WorkFacts, bench: Bench, run: int) -> Trial:
    slot = f"run.{bench.runs[run]}.isolation"
    reading = facts.newest(slot)
    if reading is None:
        state = UNTESTED
    else:
        state = GOOD if reading.over or reading.value >= LEAST_ISOLATION else OFF
    return Trial(
        slot=slot,
        place=f"run.{bench.runs[run]}",
        circuit=bench.runs[run],
        quantity="isolation",
        kind="ohms",
        state=state,
        low=LEAST_ISOLATION,
        measured=reading.value if reading is not None else None,
        u=meter_uncertainty(reading.value, reading.resolution or 0.0)
        if reading and not reading.over
        else None,
        over=reading is not None and reading.over,
    )


# --- loaded ---


def supply_at(facts: WorkFacts, run: str) -> Reading | None:
    """The supply's volts as read while this circuit was energised, the newest; None: not read.

    Where it was never said that the circuit was energised, the newest reading of all.
    """
    since = facts.energised_since(run)
    if since is None:
        return facts.newest("supply.volts")
    out = [
        facts.steady.of(event.id)
        for event in facts.events.get(f"{FUSE_OUT}run.{run}", ())
        if event.kind == "done" and facts.steady.of(event.id) >= since
    ]
    return facts.newest("supply.volts", since=since, until=min(out, default=None))


def _supply_volts(facts: WorkFacts, run: str) -> tuple[float, bool]:
    """The volts a loaded test is judged at, and whether they were measured then; else the design's."""
    reading = supply_at(facts, run)
    return (reading.value, True) if reading is not None else (facts.case.profile.supply.volts, False)


def _current(facts: WorkFacts, bench: Bench, run: int) -> Trial:
    name = bench.runs[run]
    volts, read = _supply_volts(facts, name)
    expected = volts * alone(bench, run).run_amps[run]
    low, high = expected * (1.0 - CURRENT_SHARE), expected * (1.0 + CURRENT_SHARE)
    reading = facts.newest(f"run.{name}.current")
    value = reading.value if reading is not None else None
    return Trial(
        slot=f"run.{name}.current",
        place=f"run.{name}",
        circuit=name,
        quantity="current",
        kind="amps",
        state=_judged(reading, value, low=low, high=high),
        expected=expected,
        low=low,
        high=high,
        measured=value,
        u=clamp_uncertainty(reading.value, reading.resolution or 0.0) if reading is not None else None,
        supply=volts,
        supply_read=read,
    )


def _at_pad(facts: WorkFacts, bench: Bench, *, load: int, run: int) -> list[Trial]:
    """Volts at a pad, and the drops out and back; the drops are judged together, as a joint."""
    solution = alone(bench, run)
    at = bench.tree.loads[load]
    supply, read = _supply_volts(facts, bench.runs[run])
    expected = {
        "volts": supply * solution.load_volts[load],
        "drop_out": supply * (1.0 - solution.positives[at]),
        "drop_back": supply * solution.negatives[at],
    }
    found = []
    for quantity, volts in expected.items():
        slot = f"heater.{bench.loads[load]}.{quantity}"
        reading = facts.newest(slot)
        value = reading.value if reading is not None else None
        low = high = None
        state = UNTESTED if reading is None else UNJUDGED
        if quantity == "volts":
            low, high = volts - VOLTS_SHARE * supply, volts + VOLTS_SHARE * supply
            state = _judged(reading, value, low=low, high=high)
        found.append(
            Trial(
                slot=slot,
                place=f"heater.{bench.loads[load]}",
                circuit=bench.runs[run],
                quantity=quantity,
                kind="volts",
                state=state,
                expected=volts,
                low=low,
                high=high,
                measured=value,
                u=meter_uncertainty(reading.value, reading.resolution or 0.0)
                if reading is not None
                else None,
                supply=supply,
                supply_read=read,
            )
        )
    return found


def _joint(facts: WorkFacts, bench: Bench, *, load: int, run: int) -> JointTrial | None:
    """What the joints on the way to a heater add, by its drops where both were read, else by the volts."""
    heater = bench.loads[load]
    amps = _amps_of(facts, bench, load=load, run=run)
    if amps is None:
        return None
    out, back = facts.newest(f"heater.{heater}.drop_out"), facts.newest(f"heater.{heater}.drop_back")
    at_pad, at_supply = facts.newest(f"heater.{heater}.volts"), supply_at(facts, bench.runs[run])
    if out is not None and back is not None:
        by, dropped, readings = "drops", out.value + back.value, (out, back)
    elif at_pad is not None and at_supply is not None:
        by, dropped, readings = "volts", at_supply.value - at_pad.value, (at_supply, at_pad)
    else:
        return None
    u_dropped = hypot(*(meter_uncertainty(one.value, one.resolution or 0.0) for one in readings))
    solution = alone(bench, run)
    share, current = solution.load_volts[load], solution.load_amps[load]
    computed = (1.0 - share) / current
    allowed = 0.0
    for each in ways(bench.tree).out[bench.tree.loads[load]]:
        here = (FUSE_ALLOWANCE if bench.fuses[each] is not None else 0.0) + (
            SWITCH_ALLOWANCE if bench.switched[each] else 0.0
        )
        allowed += here * solution.run_amps[each] / current
    extra = extra_resistance(
        dropped, u_dropped=u_dropped, amps=amps[0], u_amps=amps[1], computed=computed, allowed=allowed
    )
    if extra is None:
        return None
    return JointTrial(
        heater=heater,
        circuit=bench.runs[run],
        by=by,
        amps=amps[0],
        computed=computed,
        allowed=allowed,
        extra=extra,
    )


def _amps_of(facts: WorkFacts, bench: Bench, *, load: int, run: int) -> tuple[float, float] | None:
    """What a heater draws, and its uncertainty: as read where it is alone in its circuit, else from its volts. [A]"""
    current = facts.newest(f"run.{bench.runs[run]}.current")
    if len(bench.behind(run)) == 1:
        if current is None or current.value <= 0.0:
            return None
        return current.value, clamp_uncertainty(current.value, current.resolution or 0.0)
    volts = facts.newest(f"heater.{bench.loads[load]}.volts")
    reading, corrected, u_ohms = _ohms(facts, f"heater.{bench.loads[load]}.resistance")
    ohms = corrected if corrected is not None else (reading.value if reading is not None else None)
    if volts is None or reading is None or reading.over or ohms is None or ohms <= 0.0 or volts.value <= 0.0:
        return None
    u_volts = meter_uncertainty(volts.value, volts.resolution or 0.0)
    amps = volts.value / ohms
    return amps, amps * hypot(u_volts / volts.value, (u_ohms or 0.0) / ohms)

"""Every test of the finished wiring: what the meter should show, what it shows, and what the joints add.

Expected values are those of the circuit under test alone, later fuses in, thermostats closed, at the supply's
volts measured then. The network is the same that the figures are computed with.
"""

from math import hypot

import msgspec

from logic.assessment.bench import Bench, alone, bench_of
from logic.assessment.case import Case
from logic.assessment.proving_cold import circuit_resistance, isolation, ohms_of, pad_resistance
from logic.assessment.trial import UNJUDGED, UNTESTED, JointTrial, Trial, judged
from logic.assessment.work_facts import FUSE_OUT, WorkFacts, facts_of
from logic.data.state import Reading
from logic.data.wiring_constants import CURRENT_SHARE, FUSE_ALLOWANCE, SWITCH_ALLOWANCE, VOLTS_SHARE
from logic.physics.joint import clamp_uncertainty, extra_resistance, meter_uncertainty
from logic.physics.network import ways


class Proof(msgspec.Struct, frozen=True):
    trials: tuple[Trial, ...]
    joints: tuple[JointTrial, ...]

    def trial(self, slot: str, circuit: str = "") -> Trial | None:
        return next((one for one in self.trials if one.slot == slot and circuit in ("", one.circuit)), None)


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
    tests += [pad_resistance(facts, heater) for heater in case.profile.heaters]
    for run in circuits:
        tests.append(circuit_resistance(facts, bench, run, case))
        tests.append(isolation(facts, bench, run))
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
        state=judged(reading, value, low=low, high=high),
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
            state = judged(reading, value, low=low, high=high)
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
    covariance = 0.0
    if out is not None and back is not None:
        by, dropped, readings = "drops", out.value + back.value, (out, back)
    elif at_pad is not None and at_supply is not None:
        by, dropped, readings = "volts", at_supply.value - at_pad.value, (at_supply, at_pad)
        if len(bench.behind(run)) > 1:  # the current follows from the same reading at the pad
            u_pad = meter_uncertainty(at_pad.value, at_pad.resolution or 0.0)
            covariance = -(u_pad**2) * amps[0] / at_pad.value
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
        dropped,
        u_dropped=u_dropped,
        amps=amps[0],
        u_amps=amps[1],
        computed=computed,
        allowed=allowed,
        covariance=covariance,
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
    """What a heater draws, and its uncertainty: as read where it is alone, else from its volts. [A]"""
    current = facts.newest(f"run.{bench.runs[run]}.current")
    if len(bench.behind(run)) == 1:
        if current is None or current.value <= 0.0:
            return None
        return current.value, clamp_uncertainty(current.value, current.resolution or 0.0)
    volts = facts.newest(f"heater.{bench.loads[load]}.volts")
    reading, corrected, u_ohms = ohms_of(facts, f"heater.{bench.loads[load]}.resistance")
    ohms = corrected if corrected is not None else (reading.value if reading is not None else None)
    if volts is None or reading is None or reading.over or ohms is None or ohms <= 0.0 or volts.value <= 0.0:
        return None
    u_volts = meter_uncertainty(volts.value, volts.resolution or 0.0)
    amps = volts.value / ohms
    return amps, amps * hypot(u_volts / volts.value, (u_ohms or 0.0) / ohms)

"""Tests of the cold wiring, fuse out: resistances with the meter's leads taken off, and isolation."""

from math import hypot

from logic.assessment.bench import Bench
from logic.assessment.case import Case
from logic.assessment.trial import GOOD, OFF, UNJUDGED, UNTESTED, Trial, judged
from logic.assessment.work_facts import WorkFacts
from logic.data.profile import Heater
from logic.data.state import Reading
from logic.data.wiring_constants import LEAST_ISOLATION
from logic.physics.joint import meter_uncertainty
from logic.physics.network_parts import seen_from_head


def leads_of(facts: WorkFacts, reading: Reading) -> Reading | None:
    """The meter's leads as touched together on the day of a reading; None: not that day."""
    day = reading.when.day()
    return next(
        (one for one in reversed(facts.standing("meter.leads")) if not one.over and one.when.day() == day),
        None,
    )


def ohms_of(facts: WorkFacts, slot: str) -> tuple[Reading | None, float | None, float | None]:
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


def pad_resistance(facts: WorkFacts, heater: Heater) -> Trial:
    slot = f"heater.{heater.id}.resistance"
    reading, corrected, u = ohms_of(facts, slot)
    expected = heater.volts**2 / heater.watts
    low, high = (expected * (1.0 + part) for part in heater.tolerance)
    value = corrected if corrected is not None else (reading.value if reading is not None else None)
    state = judged(reading, value, low=low, high=high)
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


def circuit_resistance(facts: WorkFacts, bench: Bench, run: int, case: Case) -> Trial:
    slot = f"run.{bench.runs[run]}.resistance"
    reading, corrected, u = ohms_of(facts, slot)
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
    state = judged(reading, value, low=low, high=high)
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


def isolation(facts: WorkFacts, bench: Bench, run: int) -> Trial:
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

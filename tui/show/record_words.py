"""What a step asks to have written down: what each answer may be, and which answers make no rig safe.

A rig counts as proven dead, its gas pipe as found, only with something written down: an empty answer proves nothing,
and where the circuit still shows volts it is live. This errs on the side of asking once too often.
"""

import re
from collections.abc import Mapping

from logic.data.step import Step

MAKE_SAFE = "make safe"
SOURCES = ("known source before", "known source after")
CIRCUIT = "circuit"
DEAD = (
    0.5  # V, the most that a dead circuit may show; common practice, no source: a meter's leads pick up some
)

ABOUT = {
    "known source before": "what the meter shows on a source that you know is live, as 12.6 V",
    "circuit": "what it shows on the circuit that you will touch: 0 V where it is dead",
    "known source after": "what it shows on the known source again: a meter that failed in between reads 0 V too",
    "gas pipe": "seen, and where it runs; or: not seen, which holds all drilling",
    "120 V cable": "seen, and where it runs; or: not seen, which holds all drilling",
    "held by": "what holds it up, and how many: straps, bolts, hangers",
    "floor falls to the outlet": "yes or no",
    "dry": "yes or no; no holds the bonding",
    "touches all the way": "yes or no: where it does not touch the wall, it overheats",
    "pressed": "yes or no",
    "rolled": "yes or no",
    "clamps": "how many",
    "closed": "yes or no: an open thermostat reads as a broken pad",
    "return lifted": "yes or no: with the return on, the meter reads through it",
    "before": "how the wall feels beside the pad: cold, cool, warm",
    "after 5 min": "how the wall feels beside the pad: cold, cool, warm",
    "after 10 min": "how the wall feels beside the pad: cold, cool, warm",
    "even": "yes or no: warm alike over the whole pad",
    "opened warm": "yes or no",
    "paper": "dry or wet",
}


def record_faults(step: Step, answers: Mapping[str, str]) -> tuple[str, ...]:
    """Why a step that makes safe can't be called done with these answers; nothing where it can."""
    if step.group != MAKE_SAFE:
        return ()
    empty = [name for name in step.record if not answers.get(name)]
    if empty:
        return (f"write down what you found: {', '.join(empty)}",)
    told = []
    volts = volts_in(answers.get(CIRCUIT, ""))
    if volts is not None and volts > DEAD:
        told.append(f"the circuit shows {answers[CIRCUIT]}: it is live; find what feeds it")
    for name in SOURCES:
        seen = volts_in(answers.get(name, ""))
        if seen is not None and seen <= DEAD:
            told.append(f"{name} shows {answers[name]}: the meter sees nothing; try another, begin again")
    return tuple(told)


def volts_in(text: str) -> float | None:
    """The first number of an answer, in volts and without its sign; None where it has none."""
    found = re.search(r"(\d+(?:[.,]\d+)?|[.,]\d+)\s*(mV|mv|kV|kv)?", text)
    if found is None:
        return None
    factor = {"mv": 1e-3, "kv": 1e3}.get((found[2] or "").lower(), 1.0)
    return float(found[1].replace(",", ".")) * factor

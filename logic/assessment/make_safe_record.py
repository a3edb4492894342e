"""What a step that makes safe must have written down before it counts as done, and which answers make no rig safe.

A rig is proven dead, its gas pipe found, only with something written down: an empty answer proves nothing, and a
circuit that still shows volts is live. Only what is said with *done* counts, not what was written before: a
meter's reading of yesterday says nothing of today. This errs on the side of asking once too often. A script may give
a person's word alone for it; that nothing was written down is then said, and stands so on the record.
"""

import re
from collections.abc import Mapping
from typing import NamedTuple

from logic.data.step import Step
from logic.data.wording import Words, words

MAKE_SAFE = "make safe"
KNOWN_LIVE = ("known source before", "known source after")
CIRCUIT = "circuit"
# The most that a dead circuit may show. [V]  Common practice, no source: a meter's leads pick up some.
DEAD = 0.5
METER = words("the meter on a source that you know is live, on the circuit, on the known source again")
LOOK = words("find it and mark where it runs; not seen is an answer too, and holds all drilling")


class RecordFault(NamedTuple):
    """What is not written down, or one answer with which the rig isn't safe."""

    names: tuple[str, ...]  # what is to be written down
    text: Words


def record_faults(step: Step, answers: Mapping[str, str]) -> tuple[RecordFault, ...]:
    """Why a step that makes safe can't be called done with these answers; nothing where it can."""
    if step.group != MAKE_SAFE:
        return ()
    given = {name: answers.get(name, "").strip() for name in step.record}
    missing = tuple(name for name, answer in given.items() if not answer)
    wrong = tuple(
        RecordFault((name,), said)
        for name, answer in given.items()
        if answer and (said := _why_not_safe(name, answer))
    )
    if not missing:
        return wrong
    owed = words("write down what you found: {names}", names=", ".join(missing))
    return (RecordFault(missing, owed), *wrong)


def what_to_do(step: Step) -> Words:
    """How one comes by what such a step must have written down."""
    return METER if CIRCUIT in step.record else LOOK


def _why_not_safe(name: str, answer: str) -> Words | None:
    """What one answer says against it; None where it says nothing."""
    if name != CIRCUIT and name not in KNOWN_LIVE:
        return None
    volts = volts_in(answer)
    if volts is None:
        return words("{name}: {answer} is no reading of a meter, as 12.6 V or 0 V", name=name, answer=answer)
    if name == CIRCUIT and shows_live(answer):
        return words("the circuit shows {answer}: it is live; find what feeds it", answer=answer)
    if name in KNOWN_LIVE and volts <= DEAD:
        return words(
            "{name} shows {answer}: the meter sees nothing; try another, begin again",
            name=name,
            answer=answer,
        )
    return None


def shows_live(answer: str) -> bool:
    """Whether what is written down of a circuit says that it is live."""
    volts = volts_in(answer)
    return volts is not None and volts > DEAD


def volts_in(text: str) -> float | None:
    """The greatest voltage that an answer names, without its sign; a number alone is in volts. None: no number."""
    found = re.findall(r"(\d+(?:[.,]\d+)?|[.,]\d+)\s*([mk]?v\b|volts?\b)?", text.lower())
    if not found:
        return None
    factors = {"mv": 1e-3, "kv": 1e3}
    volts = [float(number.replace(",", ".")) * factors.get(unit, 1.0) for number, unit in found if unit]
    return max(volts) if volts else float(found[0][0].replace(",", "."))

"""How long the work takes: the trade's minutes, what slows them, and what this session teaches."""

from collections.abc import Iterable

FIRST_TIMER = 1.8  # × a technician's minutes; PRACTICE
IN_GLOVES = 1.3  # × in the cold; PRACTICE
GLOVES_BELOW_DEGC = (40.0 - 32.0) / 1.8  # 40 °F; PRACTICE


def slowed(minutes: float, *, first_timer: bool, gloves: bool) -> float:
    """A technician's minutes above freezing, for a first-timer or in gloves. [min] Source `practice-minutes`."""
    return minutes * (FIRST_TIMER if first_timer else 1.0) * (IN_GLOVES if gloves else 1.0)


def learned(spent: Iterable[float]) -> float | None:
    """Minutes that a step of a kind took so far in this session, their mean; None: none was timed. [min]"""
    known = tuple(spent)
    return sum(known) / len(known) if known else None

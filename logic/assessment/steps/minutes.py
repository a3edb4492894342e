"""How long the work takes: the trade's minutes, what slows them, and what this session teaches."""

from collections.abc import Iterable

from logic.data.work_constants import FIRST_TIMER, IN_GLOVES


def slowed(minutes: float, *, first_timer: bool, gloves: bool) -> float:
    """A technician's minutes, for a first-timer or in gloves. [min] Source `practice-minutes`."""
    return minutes * (FIRST_TIMER if first_timer else 1.0) * (IN_GLOVES if gloves else 1.0)


def learned(spent: Iterable[float]) -> float | None:
    """Minutes that a step of a kind took so far in this session, their mean; None: none was timed. [min]"""
    known = tuple(spent)
    return sum(known) / len(known) if known else None

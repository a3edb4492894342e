"""Moments and faults of the system in words, the same wherever a session speaks of them."""

from datetime import datetime, timedelta, timezone


def said_time(at: float, offset: int) -> str:
    """A moment by its own clock, to the minute: `2026-01-05 14:10`."""
    moment = datetime.fromtimestamp(at, tz=timezone(timedelta(seconds=offset)))
    return moment.strftime("%Y-%m-%d %H:%M")


def in_words(fault: OSError) -> str:
    """What the system said, without the path and the number; names in what this program says stay as they are."""
    return fault.strerror.lower() if fault.strerror else str(fault) or type(fault).__name__

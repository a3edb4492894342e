"""Moments as text, by the clock that wrote them."""

from datetime import date, timedelta
from functools import lru_cache
from math import modf

from logic.data.state import Instant


def clock_text(when: Instant) -> str:
    """`2026-01-31 14:05`."""
    day, hour = day_and_hour(when)
    return f"{day} {hour}"


def day_text(when: Instant) -> str:
    """`2026-01-31`."""
    return _day(_seconds(when) // 86400)


def day_and_hour(when: Instant) -> tuple[str, str]:
    """`2026-01-31` and `14:05`."""
    minutes = _seconds(when) // 60
    return _day(minutes // 1440), f"{minutes // 60 % 24:02}:{minutes % 60:02}"


def _seconds(when: Instant) -> int:
    """Whole seconds since 1970 on the local clock; what is less than a microsecond short of one counts as it."""
    fraction, whole = modf(when.at)
    return int(whole) + round(fraction * 1e6) // 1_000_000 + when.offset


@lru_cache(maxsize=256)  # a session has few days and many moments
def _day(number: int) -> str:
    return (date(1970, 1, 1) + timedelta(days=number)).isoformat()

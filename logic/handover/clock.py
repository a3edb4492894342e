"""Moments as text, by the clock that wrote them."""

from datetime import datetime, timedelta, timezone

from logic.data.state import Instant


def clock_text(when: Instant) -> str:
    """`2026-01-31 14:05`."""
    return f"{day_text(when)} {hour_text(when)}"


def day_text(when: Instant) -> str:
    """`2026-01-31`."""
    return _local(when).strftime("%Y-%m-%d")


def hour_text(when: Instant) -> str:
    """`14:05`."""
    return _local(when).strftime("%H:%M")


def _local(when: Instant) -> datetime:
    return datetime.fromtimestamp(when.at, timezone(timedelta(seconds=when.offset)))

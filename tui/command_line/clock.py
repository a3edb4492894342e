"""The one place of the command line that asks what time it is."""

import time

from logic.data.state import Instant


def now() -> Instant:
    """This moment, with the offset of this machine's clock."""
    at = time.time()
    return Instant(at, time.localtime(at).tm_gmtoff)


def clock_text(at: float, *, today: Instant) -> str:
    """A moment in local time: `14:10` today, `Wed 14:10` within a week, else `2026-11-25 14:10`."""
    local = time.localtime(at)
    days_away = Instant(at, local.tm_gmtoff).day() - today.day()
    if days_away == 0:
        return time.strftime("%H:%M", local)
    return time.strftime("%a %H:%M" if abs(days_away) < 7 else "%Y-%m-%d %H:%M", local)


def stamp(at: float) -> str:
    """A moment for machines: ISO 8601 with its offset, to the second."""
    local = time.localtime(at)
    text = time.strftime("%Y-%m-%dT%H:%M:%S%z", local)
    return f"{text[:-2]}:{text[-2:]}"

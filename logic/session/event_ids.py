"""Ids of events: they sort by time, never repeat, and never run backwards within a session.

An id is `milliseconds-counter-writer` in hexadecimal, each part of fixed width, so that ids sort as text.
The counter goes on where the clock stands still or went back; the writer is drawn anew each time a session
is opened, so that two copies of one session never make the same id.
"""

import os
import re
from collections.abc import Sequence

_ID = re.compile(r"([0-9a-f]{12})-([0-9a-f]{3})-([0-9a-f]{8})")
_LAST_COUNT = 0xFFF
_MILLISECONDS = 12  # digits
# The end of the year 9999: what a calendar can still show.
LATEST = 253_402_300_799.0
# Room is left above, so that a next id can always be made.
_LATEST_ID = f"{int(LATEST * 1000) + 1_000_000:0{_MILLISECONDS}x}"


def next_id(after: str, at: float, writer: str) -> str:
    """An id for an event at `at` (epoch seconds) that sorts behind the id `after` (empty: the first one)."""
    milliseconds = int(min(max(at, 0.0), LATEST) * 1000)
    count = 0
    match = _ID.fullmatch(after)
    if match:
        last, last_count = int(match[1], 16), int(match[2], 16)
        if last >= milliseconds:
            milliseconds, count = last, last_count + 1
        if count > _LAST_COUNT:
            milliseconds, count = milliseconds + 1, 0
    return f"{milliseconds:012x}-{count:03x}-{writer}"


def are_ids(texts: Sequence[str]) -> bool:
    """Whether these texts, one at least, are ids of this form, at moments before the year 10000."""
    return all(map(_ID.fullmatch, texts)) and max(texts)[:_MILLISECONDS] <= _LATEST_ID


def new_writer() -> str:
    """A writer's mark for ids: eight hexadecimal digits, by chance."""
    return os.urandom(4).hex()

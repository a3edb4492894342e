"""Moments as the screen says them, by the offset that came with them; nothing here asks for the time."""

from logic.data.state import Instant

DAYS = ("Thu", "Fri", "Sat", "Sun", "Mon", "Tue", "Wed")  # 1970-01-01 was a Thursday
DAY, HOUR, MINUTE = 86400, 3600, 60
TIMES_TO_COME = "a time of day still to come, as 16:30, 1630 or 4:30 pm"


def local_seconds(at: float, offset: int) -> int:
    return int((at + offset) // 1)


def time_of_day(at: float, offset: int) -> str:
    """`14:10`"""
    seconds = local_seconds(at, offset) % DAY
    return f"{seconds // HOUR:02d}:{seconds % HOUR // MINUTE:02d}"


def weekday(at: float, offset: int) -> str:
    return DAYS[local_seconds(at, offset) // DAY % 7]


def moment(at: float, now: Instant) -> str:
    """`14:10` today, `Fri 09:20` within a week, else with the date."""
    day, today = local_seconds(at, now.offset) // DAY, now.day()
    clock = time_of_day(at, now.offset)
    if day == today:
        return clock
    if abs(day - today) < 7:
        return f"{weekday(at, now.offset)} {clock}"
    return f"{date(at, now.offset)} {clock}"


def date(at: float, offset: int) -> str:
    """`2026-11-25`, by the civil calendar."""
    # Days to a civil date, in eras of 400 years that begin on 1 March.
    days = local_seconds(at, offset) // DAY + 719_468
    era, day_of_era = divmod(days, 146_097)
    year_of_era = (day_of_era - day_of_era // 1460 + day_of_era // 36_524 - day_of_era // 146_096) // 365
    day_of_year = day_of_era - (365 * year_of_era + year_of_era // 4 - year_of_era // 100)
    month = (5 * day_of_year + 2) // 153
    day = day_of_year - (153 * month + 2) // 5 + 1
    month = month + 3 if month < 10 else month - 9
    return f"{year_of_era + era * 400 + (month <= 2):04d}-{month:02d}-{day:02d}"


def time_to_come(typed: str, now: Instant) -> float | None:
    """A time of day within the next 24 hours, `16:30` or `4:30 pm`, in epoch seconds; None where the text is none.

    `4:30` said after half past four in the morning is none either, while 16:30 is still to come: whether it means
    that, or tomorrow, is asked and not guessed.
    """
    told, half = half_of_day(typed.strip().lower())
    digits = told.replace(":", "").replace(".", "")
    if not digits.isascii() or not digits.isdigit() or len(digits) > 4:
        return None
    number = int(digits) if len(digits) > 2 else int(digits) * 100
    hours, minutes = divmod(number, 100)
    if hours > 23 or minutes > 59 or (half and not 1 <= hours <= 12):
        return None
    if half:
        hours = hours % 12 + (12 if half == "pm" else 0)
    midnight = now.day() * DAY - now.offset
    at = float(midnight + hours * HOUR + minutes * MINUTE)
    if at > now.at:
        return at
    if not half and 1 <= hours < 12 and at + DAY / 2 > now.at:
        return None
    return at + DAY


def half_of_day(text: str) -> tuple[str, str]:
    """What stands before `am` or `pm`, and which of them; a text without either is whole."""
    for half in ("am", "pm"):
        for ending in (half, f"{half[0]}.m."):
            if text.endswith(ending):
                return text.removesuffix(ending).rstrip(), half
    return text, ""


def span(seconds: float) -> str:
    """A stretch of time on the clock: `41 h`, `2 h 20`, `20 min`, `under 1 min`."""
    minutes = int(abs(seconds) // MINUTE)
    if minutes < 1:
        return "under 1 min"
    hours, rest = divmod(minutes, 60)
    if hours == 0:
        return f"{rest} min"
    if hours >= 24 or rest == 0:
        return f"{hours} h"
    return f"{hours} h {rest:02d}"

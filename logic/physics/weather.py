"""Outdoor air over a spell, knots with straight lines between: by a day's high and low, or by the hour.

A course begins at its first knot; days are parted at 18:00 by the clock that each knot has.
"""

from bisect import bisect_right
from itertools import pairwise
from math import floor

from logic.data.constants import DAY, HOUR, SHARE_BELOW_HIGH, SPELL_STARTS


class Course:
    """A piecewise linear temperature. Two courses are the same only when they are one object: cheap as a key.

    seconds : knots, rising, the first 0. [s]      degc : at the knots. [°C]
    evenings : the instants at which a day ends by the clock, within the course. [s]
    Raises ValueError: no knot, knots that don't rise, lengths that differ.
    """

    __slots__ = ("degc", "evenings", "seconds")

    def __init__(
        self, seconds: tuple[float, ...], degc: tuple[float, ...], *, evenings: tuple[float, ...] = ()
    ) -> None:
        if not seconds or len(seconds) != len(degc):
            raise ValueError(f"{len(seconds)} knots with {len(degc)} temperatures")
        if any(later <= earlier for earlier, later in pairwise(seconds)):
            raise ValueError("the knots of a course must rise")
        self.seconds = seconds
        self.degc = degc
        self.evenings = evenings

    @property
    def length(self) -> float:
        """From the first knot to the last. [s]"""
        return self.seconds[-1] - self.seconds[0]

    def days(self) -> tuple[tuple[float, float], ...]:
        """Beginning and end of each day, from 18:00 to 18:00; the first and last may be parts of one. [s]"""
        marks = (self.seconds[0], *self.evenings, self.seconds[-1])
        return tuple((start, end) for start, end in pairwise(marks) if end > start)

    def at(self, seconds: float) -> float:
        """The temperature at an instant; held constant beyond the ends. [°C]"""
        if seconds <= self.seconds[0]:
            return self.degc[0]
        if seconds >= self.seconds[-1]:
            return self.degc[-1]
        left = bisect_right(self.seconds, seconds) - 1
        share = (seconds - self.seconds[left]) / (self.seconds[left + 1] - self.seconds[left])
        return self.degc[left] + share * (self.degc[left + 1] - self.degc[left])


def mean(course: Course) -> float:
    """Mean of a course, by trapezoids over its times; of a single knot, its temperature. [°C]"""
    if course.length == 0:
        return course.degc[0]
    at, degc = course.seconds, course.degc
    area = sum((at[i + 1] - at[i]) * (degc[i + 1] + degc[i]) / 2 for i in range(len(at) - 1))
    return area / course.length


def clock_degc(clock: float, *, low_degc: float, high_degc: float) -> float:
    """Air at a time of day: high − share · (high − low), linear between the clock's hours. [°C]

    clock : since midnight, any number of days. [s]
    Source `ashrae-diurnal` (FOUND). Lowest at 5:00, highest at 14:00 and 15:00.
    """
    hours = (clock % DAY) / HOUR
    hour = floor(hours)
    share = _share(hour) + (hours - hour) * (_share(hour + 1) - _share(hour))
    return high_degc - share * (high_degc - low_degc)


def diurnal_course(*, low_degc: float, high_degc: float, nights: int) -> Course:
    """A spell of whole days from 18:00, each with the same high and low, a knot each hour."""
    hours = range(24 * nights + 1)
    return Course(
        tuple(hour * HOUR for hour in hours),
        tuple(
            clock_degc(SPELL_STARTS + hour * HOUR, low_degc=low_degc, high_degc=high_degc) for hour in hours
        ),
        evenings=tuple(night * DAY for night in range(1, nights)),
    )


def hourly_course(seconds: tuple[float, ...], degc: tuple[float, ...], clock: tuple[float, ...]) -> Course:
    """A course by a series' own rows, its days parted at 18:00 by each row's own clock.

    seconds : since the first row, rising [s]. clock : of each row, since the midnight that began the first
    row's day [s]; it may jump where summer time begins or ends.
    """
    evenings: list[float] = []
    evening = _evenings_before(clock[0]) + 1
    for row in range(1, len(seconds)):
        while _evenings_before(clock[row]) >= evening:
            ahead = SPELL_STARTS + evening * DAY - clock[row - 1]
            at = min(max(seconds[row - 1] + ahead, seconds[row - 1]), seconds[row])
            if seconds[0] < at < seconds[-1] and (not evenings or at > evenings[-1]):
                evenings.append(at)
            evening += 1
    return Course(seconds, degc, evenings=tuple(evenings))


def scaled(course: Course, *, base_degc: float, share: float) -> tuple[float, ...]:
    """base + share × the course, at its knots: what the contents drift to as the air goes its way. [°C]"""
    return tuple([base_degc + share * degc for degc in course.degc])


def seconds_below(course: Course, degc: float, *, start: float, end: float) -> float:
    """How long a course lies under a temperature between two instants. [s]"""
    total = 0.0
    first = max(bisect_right(course.seconds, start) - 1, 0)
    for left in range(first, len(course.seconds) - 1):
        knot, next_knot = course.seconds[left], course.seconds[left + 1]
        if knot >= end:
            break
        begin, stop = max(knot, start), min(next_knot, end)
        if stop > begin:
            total += _below(course.at(begin), course.at(stop), degc) * (stop - begin)
    return total


def _below(first: float, last: float, degc: float) -> float:
    """Share of a straight line that lies under a value."""
    if first < degc and last < degc:
        return 1.0
    if first >= degc and last >= degc:
        return 0.0
    crossing = (degc - first) / (last - first)
    return crossing if first < degc else 1 - crossing


def _share(hour: int) -> float:
    return SHARE_BELOW_HIGH[(hour - 1) % 24]


def _evenings_before(clock: float) -> int:
    """Number of the day, from 18:00 to 18:00, that a clock lies in."""
    return floor((clock - SPELL_STARTS) / DAY)

"""The outdoor temperature over the spell, linear between its knots, and the spell's days from 18:00."""

import csv
import datetime
import itertools
from bisect import bisect_right

from tests.independent.numbers import SHARES

HOUR, DAY = 3600.0, 86400.0


class Course:
    """Knots (seconds from the spell's beginning, °C) and the days (from, to) in those seconds."""

    def __init__(self, knots, days, steady_low):
        self.times = [time for time, _ in knots]
        self.values = [value for _, value in knots]
        self.days = days
        self.steady_low = steady_low

    @property
    def seconds(self):
        return self.times[-1]

    @property
    def mean(self):
        pairs = zip(self.times, self.times[1:], self.values, self.values[1:], strict=False)
        return sum((b - a) * (u + v) / 2 for a, b, u, v in pairs) / self.seconds

    def at(self, time):
        n = min(max(bisect_right(self.times, time), 1), len(self.times) - 1)
        a, b, u, v = self.times[n - 1], self.times[n], self.values[n - 1], self.values[n]
        return u + (v - u) * (time - a) / (b - a)

    def seconds_below(self, limit, since, until):
        """How long within (since, until) the course stands below a limit, exactly, piece by piece."""
        total = 0.0
        inner = [time for time in self.times if since < time < until]
        edges = [since, *inner, until]
        for a, b in itertools.pairwise(edges):
            u, v = self.at(a), self.at(b)
            if u < limit and v < limit:
                total += b - a
            elif u < limit or v < limit:
                total += (b - a) * (limit - min(u, v)) / abs(v - u)
        return total


def daily_course(low, high, nights):
    """Nights by the diurnal shares, from 18:00."""
    knots = [(h * HOUR, high - SHARES[(18 + h) % 24] * (high - low)) for h in range(24 * nights + 1)]
    return Course(knots, [(n * DAY, (n + 1) * DAY) for n in range(nights)], low)


def hourly_course(path):
    """Rows of a file; days end where the rows' own clock passes 18:00, once for each date."""
    with open(path, newline="") as file:
        rows = list(csv.reader(file))
    header = [name.strip() for name in rows[0]]
    column = next(n for n, name in enumerate(header) if name.startswith("temperature"))
    clocks = [datetime.datetime.fromisoformat(row[header.index("time")].strip()) for row in rows[1:]]
    values = [float(row[column]) for row in rows[1:]]
    if header[column].endswith("degF"):
        values = [(value - 32) / 1.8 for value in values]
    times = [(clock - clocks[0]).total_seconds() for clock in clocks]
    edges = [0.0, *(time for time in evenings(clocks, times) if 0.0 < time < times[-1])]
    edges.append(times[-1])
    return Course(list(zip(times, values, strict=True)), list(itertools.pairwise(edges)), min(values))


def evenings(clocks, times):
    """When each date's 18:00 is first reached: by the clock of the row before, or by the jump at the next row."""
    told = [clock.replace(tzinfo=None) for clock in clocks]
    ahead = told[0].replace(hour=18, minute=0, second=0, microsecond=0)
    while ahead < told[0]:
        ahead += datetime.timedelta(days=1)
    for n, clock in enumerate(told):
        while clock >= ahead:
            by_clock_before = times[n - 1] + (ahead - told[n - 1]).total_seconds() if n else times[0]
            yield min(by_clock_before, times[n])
            ahead += datetime.timedelta(days=1)

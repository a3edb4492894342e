"""What a slot's readings amount to: which agree, the value that stands, how sure it is, what is still owed.

Lengths are exact fractions of an inch, so that two readings an eighth apart are exactly that.
"""

import itertools
import math
from fractions import Fraction
from typing import NamedTuple

INCH = 0.0254
WANTED = 2  # readings of a slot that decides
EIGHTH = Fraction(1, 8)


class Taken(NamedTuple):
    """One reading that stands, in the slot where it counts."""

    value: Fraction  # [in]
    resolution: Fraction  # [in]
    order: int  # when it was taken, among all


class Known(NamedTuple):
    """A slot as its readings leave it. Lengths in m."""

    state: str
    value: float | None
    u: float | None
    owed: int


def u_of(resolution, *, wall):
    """Standard uncertainty of one reading: rounding, together with the reader's own scatter. [in]"""
    scatter = 1 / 64 if wall else 1 / 16
    return math.sqrt(float(resolution) ** 2 / 12 + scatter**2)


def agree(one, other, *, wall):
    limit = 2 * math.hypot(u_of(one.resolution, wall=wall), u_of(other.resolution, wall=wall))
    gap = abs(one.value - other.value)
    return gap <= EIGHTH or float(gap) <= limit


def agreeing(taken, *, wall):
    """The largest set of which any two agree; of equal ones the newest, read from its newest reading backwards."""
    best: tuple[Taken, ...] = ()
    for size in range(len(taken), 0, -1):
        sets = [
            some
            for some in itertools.combinations(taken, size)
            if all(agree(a, b, wall=wall) for a, b in itertools.combinations(some, 2))
        ]
        if sets:
            return max(sets, key=lambda some: sorted((one.order for one in some), reverse=True))
    return best


def known(taken, planned, *, wall=False, decides=False):
    """The slot's standing from the readings that count, in any order."""
    wanted = WANTED if decides else 0
    if not taken:
        return Known("planned", planned, None, wanted)
    best = agreeing(taken, wall=wall)
    newest = max(taken, key=lambda one: one.order)
    value, u = (
        sum(one.value for one in best) / len(best),
        max(u_of(one.resolution, wall=wall) for one in best),
    )
    state, owed = "agreed", 0
    if len(taken) == 1:
        state, owed = "single", max(0, wanted - 1)
    elif len(best) == 1 or newest not in best:
        values = [one.value for one in taken]
        state, u, owed = "in dispute", max(u, float(max(values) - min(values)) / 2), min(1, wanted)
    return Known(state, float(value) * INCH, u * INCH, owed)

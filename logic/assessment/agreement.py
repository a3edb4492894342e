"""When repeated readings of one length agree, and what value they make together.

The value is the mean of the largest set in which every two agree; the newest such set where there are
several. Nothing is weighted and nothing is thrown away: what stands outside the set still shows, and a newest
reading outside it is a dispute.
"""

from functools import lru_cache

import msgspec

from logic.data.reading_constants import AGREE_K, AGREE_LEAST, SAME_WITHIN
from logic.physics.uncertainty import combined

SINGLE, AGREED, IN_DISPUTE = "single", "agreed", "in dispute"

MOST_COUNTED = 100
"""The newest readings of a slot that make its value; nobody takes so many, a file may hold any number."""

MOST_APART = 24
"""So many that differ in value or tape are searched for the largest set; of more, by the strictest limit of all."""


class Agreed(msgspec.Struct, frozen=True):
    value: float  # m
    u: float  # one standard uncertainty, m
    state: str  # single | agreed | in dispute
    members: tuple[int, ...]  # places of the readings that make the value, oldest first


@lru_cache(maxsize=1024)  # tapes are few, pairs of readings many
def agreement_limit(first_u: float, second_u: float) -> float:
    """How far two readings with these standard uncertainties may lie apart and still agree. [m]

    2·√(u₁² + u₂²), or 1/8 in if that is more. Source `practice-agreement`, after JCGM 100, 6.2 with k = 2.
    """
    return max(AGREE_K * combined(first_u, second_u), AGREE_LEAST)


@lru_cache(maxsize=4096)
def agreement(values: tuple[float, ...], uncertainties: tuple[float, ...]) -> Agreed:
    """What readings of one slot make together; at least one, oldest first, the newest `MOST_COUNTED` at most. [m]

    The u of the value is the largest of the set's, not u/√n: repeats by one hand, from one zero, on one tape
    share their error. In dispute it is half the spread of all that stand, if that is more.
    Raises ValueError: no readings, or too many.
    """
    if not 1 <= len(values) <= MOST_COUNTED:
        raise ValueError("no readings to agree" if not values else f"over {MOST_COUNTED} readings to agree")
    members = _largest_set(values, uncertainties)
    value = sum(values[place] for place in members) / len(members)
    u = max(uncertainties[place] for place in members)
    if len(values) == 1:
        return Agreed(value, u, SINGLE, members)
    if len(members) == 1 or members[-1] != len(values) - 1:
        spread = max(values) - min(values)
        return Agreed(value, max(u, spread / 2.0), IN_DISPUTE, members)
    return Agreed(value, u, AGREED, members)


def _largest_set(values: tuple[float, ...], uncertainties: tuple[float, ...]) -> tuple[int, ...]:
    """Places of the largest set that agrees pairwise, the newest on a tie, in the order of taking."""
    least = min(uncertainties)
    if least != max(uncertainties) and len(set(zip(values, uncertainties, strict=True))) <= MOST_APART:
        return _largest_clique(values, uncertainties)
    # Of very many on different tapes the set may come out smaller than it is: rather a dispute than none.
    return _largest_window(values, agreement_limit(least, least))


def _largest_window(values: tuple[float, ...], limit: float) -> tuple[int, ...]:
    """With one limit for all, sets that agree pairwise are windows over the sorted values."""
    order = sorted(range(len(values)), key=lambda place: values[place])
    best = chosen = end = 0  # sets are bits of an integer, as below
    most = 0
    for start, lowest in enumerate(order):
        while end < len(order) and values[order[end]] - values[lowest] <= limit + SAME_WITHIN:
            chosen |= 1 << order[end]
            end += 1
        if (end - start, chosen) > (most, best):
            most, best = end - start, chosen
        chosen &= ~(1 << lowest)
    return tuple(_bits(best))


def _largest_clique(values: tuple[float, ...], uncertainties: tuple[float, ...]) -> tuple[int, ...]:
    """With different tapes each pair has its own limit: the largest clique (Bron and Kerbosch, with pivot).

    Sets of readings are bits of an integer. Readings alike in value and uncertainty agree with the same
    others, so that they are one node of the search. A branch that can't reach the best size so far is left.
    """
    alike: dict[tuple[float, float], int] = {}
    for place, node in enumerate(zip(values, uncertainties, strict=True)):
        alike[node] = alike.get(node, 0) | 1 << place
    nodes, places = list(alike), list(alike.values())
    agrees = [0] * len(nodes)
    for one, (value, u) in enumerate(nodes):
        for other in range(one):
            off = abs(value - nodes[other][0])
            if off <= agreement_limit(u, nodes[other][1]) + SAME_WITHIN:
                agrees[one] |= 1 << other
                agrees[other] |= 1 << one
    best = 0

    def grow(chosen: int, candidates: int, excluded: int) -> None:
        """chosen : bits of readings. candidates, excluded : bits of nodes."""
        nonlocal best
        if not candidates:
            # a set with a newer reading is the greater integer: newest bits stand highest
            if not excluded and (chosen.bit_count(), chosen) > (best.bit_count(), best):
                best = chosen
            return
        left = _bits(candidates)
        if chosen.bit_count() + sum(places[node].bit_count() for node in left) < best.bit_count():
            return
        pivot = max(_bits(candidates | excluded), key=lambda node: (candidates & agrees[node]).bit_count())
        for node in _bits(candidates & ~agrees[pivot]):
            bit = 1 << node
            grow(chosen | places[node], candidates & agrees[node], excluded & agrees[node])
            candidates &= ~bit
            excluded |= bit

    grow(0, (1 << len(nodes)) - 1, 0)
    return tuple(_bits(best))


def _bits(number: int) -> list[int]:
    places = []
    while number:
        lowest = number & -number
        places.append(lowest.bit_length() - 1)
        number ^= lowest
    return places

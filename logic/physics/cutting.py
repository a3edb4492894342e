"""What is cut from a spool: the length of a cut with slack and twist, and the fewest spools for all cuts."""

from bisect import bisect_left
from collections.abc import Sequence
from math import ceil, hypot, pi, sqrt

import msgspec

from logic.physics.spool_search import least_spools

EXACT_CUTS = 20  # up to so many, the spools are the least there can be


def take_up(conductors: int, *, outside: float, lay: float) -> float:
    """Length of wire in a twist over the length of the twist.

    conductors : two or three are twisted; any other number is not, and gives 1. outside : of the largest
    wire.
    lay : of one turn along the twist. [m] A helix of radius d/2 for two, d/√3 for three: √(1 + (2πa/p)²).
    """
    if conductors not in (2, 3):
        return 1.0
    radius = outside / 2 if conductors == 2 else outside / sqrt(3)
    return hypot(1.0, 2 * pi * radius / lay)


def cut_length(route: float, slack: float, *, twist: float, ends: float) -> float:
    """Of one conductor: route × (1 + slack) × take-up and both ends. [m]"""
    return route * (1 + slack) * twist + 2 * ends


class SpoolPlan(msgspec.Struct, frozen=True):
    """Which cuts come from which spools, all of one wire."""

    spools: tuple[tuple[float, tuple[int, ...]], ...]  # (length bought, the cuts' places), the longest first
    too_long: tuple[int, ...]  # cuts longer than any spool on offer: bought by themselves
    bought: float  # m, without those
    waste: float  # m left over
    least_spools: int  # no plan needs fewer
    least_bought: float  # m: no plan with so many spools buys less
    proven: bool  # this plan is the least


def spools_for(cuts: Sequence[float], on_offer: Sequence[float]) -> SpoolPlan:
    """The fewest spools, then the least length bought, for cuts none of which is joined. [m]

    on_offer : the spools' lengths. Exact up to 20 cuts (and where the bound is met, beyond).
    """
    sizes = sorted(set(on_offer))
    too_long = tuple(place for place, cut in enumerate(cuts) if not sizes or cut > sizes[-1] + 1e-9)
    places = sorted(
        (place for place in range(len(cuts)) if place not in too_long), key=lambda p: (-cuts[p], p)
    )
    lengths = [cuts[place] for place in places]
    if not lengths:
        return SpoolPlan((), too_long, 0.0, 0.0, 0, 0.0, True)
    groups, floor, proven = least_spools(lengths, sizes)
    spools = []
    for group in groups:
        content = sum(lengths[each] for each in group)
        spools.append(
            (sizes[bisect_left(sizes, content - 1e-9)], tuple(sorted(places[each] for each in group)))
        )
    spools.sort(key=lambda spool: (-spool[0], spool[1]))
    bought = sum(spool[0] for spool in spools)
    return SpoolPlan(
        spools=tuple(spools),
        too_long=too_long,
        bought=bought,
        waste=bought - sum(lengths),
        least_spools=len(spools) if proven else max(floor, ceil(sum(lengths) / sizes[-1] - 1e-9)),
        least_bought=bought if proven else sum(lengths),
        proven=proven,
    )

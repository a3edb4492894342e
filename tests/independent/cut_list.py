"""Wires to be cut, and the fewest spools for them: every way of filling a spool tried, one spool after the other.

A wire without a colour of its own is told apart from all that have one; returns are alike.
"""

from collections import Counter
from functools import cache

FITS = 1e-9  # m


def cuts(rig, gauges, figures):
    """(run, conductor) → (gauge, colour, length to cut) of every wire. [m]"""
    found = {}
    for run in rig.runs.values():
        length = figures[f"run.{run.id}.cut"]
        found[run.id, "positive"] = (gauges[run.id], ("positive", run.colour), length)
        if run.back == "own":
            found[run.id, "return"] = (gauges[run.id], "return", length)
    return found


def wires(whole):
    """The cuts of each wire: sets of (run, conductor)."""
    groups: dict[tuple[int, object], set[tuple[str, str]]] = {}
    for cut, (gauge, colour, _) in whole.items():
        groups.setdefault((gauge, colour), set()).add(cut)
    return groups


def least_spools(lengths, on_offer):
    """(how many, length bought) of the fewest spools, then the least bought; each cut must fit one. [m]"""
    counted = Counter(lengths)
    kinds = sorted(counted, reverse=True)
    sizes = sorted(on_offer)

    @cache
    def best(left):
        if not any(left):
            return 0, 0.0
        first = next(n for n, count in enumerate(left) if count)  # the longest left lies in some spool
        answers = []
        for taken in fillings(left, first, sizes[-1] + FITS):
            content = sum(kinds[n] * count for n, count in enumerate(taken))
            spool = next(size for size in sizes if content <= size + FITS)
            count, bought = best(tuple(a - b for a, b in zip(left, taken, strict=True)))
            answers.append((count + 1, bought + spool))
        return min(answers, key=lambda one: (one[0], round(one[1], 9)))

    def fillings(left, first, room):
        """All contents of a spool with at least one of the first."""

        def go(n, room):
            if n == len(left):
                yield ()
                return
            for count in range(1 if n == first else 0, left[n] + 1):
                if count * kinds[n] > room:
                    break
                for rest in go(n + 1, room - count * kinds[n]):
                    yield (count, *rest)

        return go(0, room)

    return best(tuple(counted[kind] for kind in kinds))

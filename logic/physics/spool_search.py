"""The fewest spools for a set of cuts, and with so many the least length bought: exact, by depth-first
search.

Cuts come longest first. Each goes onto a spool begun (no two spools with the same rest are tried) or begins
the next one. With the number of spools held, the last search picks the plan whose spools, each as short as
its cuts allow, are the least together.
"""

from bisect import bisect_left
from collections.abc import Sequence
from math import ceil

ROOM = 1e-9  # m: a cut that fits exactly fits
MOST_STEPS = 60_000


def least_spools(
    lengths: Sequence[float], largest: float, *, sizes: Sequence[float]
) -> tuple[list[list[int]], int, bool]:
    """(cuts of each spool by place, least number of spools, whether the plan is proven the least).

    lengths : falling, none over `largest`. sizes : on offer, rising.
    """
    search = _Search(list(lengths), largest, list(sizes))
    floor = _fewest(lengths, largest)
    best = search.first_fit()
    while len(best) > floor:
        fewer = search.fit_into(len(best) - 1)
        if fewer is None:
            if not search.cut_off:
                floor = len(best)
            break
        best = fewer
    counted = len(best) == floor
    cheapest = search.cheapest(best)
    return cheapest, floor, counted and not search.cut_off


def _fewest(lengths: Sequence[float], largest: float) -> int:
    """A bound from below: by the sum, and by cuts of which no two share a spool (Martello and Toth's L2)."""
    most = ceil(sum(lengths) / largest - ROOM)
    for small in {length for length in lengths if length <= largest / 2}:
        alone = [length for length in lengths if length > largest - small]
        halves = [length for length in lengths if largest / 2 < length <= largest - small]
        rest = sum(length for length in lengths if small <= length <= largest / 2)
        room = len(halves) * largest - sum(halves)
        most = max(most, len(alone) + len(halves) + max(0, ceil((rest - room) / largest - ROOM)))
    return max(most, sum(length > largest / 2 for length in lengths))


class _Search:
    def __init__(self, lengths: list[float], largest: float, sizes: list[float]) -> None:
        self.lengths, self.largest, self.sizes = lengths, largest, sizes
        self.after = [0.0] * (len(lengths) + 1)  # what is still to be cut
        for place in range(len(lengths) - 1, -1, -1):
            self.after[place] = self.after[place + 1] + lengths[place]
        self.cut_off = False

    def first_fit(self) -> list[list[int]]:
        """Longest first, each on the first spool with room."""
        groups: list[list[int]] = []
        rests: list[float] = []
        for place, length in enumerate(self.lengths):
            at = next((n for n, rest in enumerate(rests) if length <= rest + ROOM), None)
            if at is None:
                groups.append([place])
                rests.append(self.largest - length)
            else:
                groups[at].append(place)
                rests[at] -= length
        return groups

    def price(self, rests: Sequence[float]) -> float:
        """Length bought where each spool is as short as its cuts allow."""
        return sum(self.sizes[bisect_left(self.sizes, self.largest - rest - ROOM)] for rest in rests)

    def fit_into(self, count: int) -> list[list[int]] | None:
        """The cuts on so many of the largest spools; None: they don't fit (or the search was cut off)."""
        groups: list[list[int]] = [[] for _ in range(count)]
        rests = [self.largest] * count
        steps = 0

        def place(cut: int) -> bool:
            nonlocal steps
            if cut == len(self.lengths):
                return True
            if self.after[cut] > sum(rests) + ROOM:
                return False
            steps += 1
            if steps > MOST_STEPS:
                self.cut_off = True
                return False
            tried: list[float] = []
            for n in sorted(range(count), key=lambda n: rests[n]):
                if self.lengths[cut] > rests[n] + ROOM or any(abs(rests[n] - rest) <= ROOM for rest in tried):
                    continue
                tried.append(rests[n])
                rests[n] -= self.lengths[cut]
                groups[n].append(cut)
                if place(cut + 1):
                    return True
                groups[n].pop()
                rests[n] += self.lengths[cut]
            return False

        return groups if place(0) else None

    def cheapest(self, start: list[list[int]]) -> list[list[int]]:
        """With the number of spools of `start`, the plan that buys least."""
        count = len(start)
        best = [list(group) for group in start]
        least = self.price([self.largest - sum(self.lengths[cut] for cut in group) for group in start])
        floor = max(sum(self.lengths), count * self.sizes[0])
        groups: list[list[int]] = []
        rests: list[float] = []
        steps = 0

        def place(cut: int) -> None:
            nonlocal best, least, steps
            if (
                self.cut_off
                or least <= floor + ROOM
                or max(self._least(rests, count, cut), floor) >= least - ROOM
            ):
                return
            if cut == len(self.lengths):
                best, least = [list(group) for group in groups], self.price(rests)
                return
            steps += 1
            if steps > MOST_STEPS:
                self.cut_off = True
                return
            tried: list[float] = []
            for n in sorted(range(len(rests)), key=lambda n: rests[n]):
                if self.lengths[cut] > rests[n] + ROOM or any(abs(rests[n] - rest) <= ROOM for rest in tried):
                    continue
                tried.append(rests[n])
                rests[n] -= self.lengths[cut]
                groups[n].append(cut)
                place(cut + 1)
                groups[n].pop()
                rests[n] += self.lengths[cut]
            if len(rests) < count:
                rests.append(self.largest - self.lengths[cut])
                groups.append([cut])
                place(cut + 1)
                groups.pop()
                rests.pop()

        place(0)
        return best

    def _least(self, rests: Sequence[float], count: int, cut: int) -> float:
        """What the spools begun cost at least, with what is still to be cut: a bound from below."""
        begun = self.price(rests)
        room = sum(
            self.sizes[bisect_left(self.sizes, self.largest - rest - ROOM)] - (self.largest - rest)
            for rest in rests
        )
        unplaced = max(0.0, self.after[cut] - room)
        return begun + max(unplaced, (count - len(rests)) * self.sizes[0] if unplaced > ROOM else 0.0)

"""The fewest spools for a set of cuts, and with so many the least length bought.

The number of spools is raised from a bound until the cuts fit on so many of the largest; then every set of so
many spools is tried, the least length first. Whether cuts fit on given spools is searched cut by cut, longest
first (no two spools with the same rest are tried); where that takes long, as it does when little may be left
over, spool by spool: each is filled in every way that leaves no more than may be left over in all.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations_with_replacement
from math import ceil

ROOM = 1e-9  # m: a cut that fits exactly fits

MOST_STEPS = 4_000
"""Cuts placed on given spools one by one, after which they are filled spool by spool."""

MOST_FILLED = 200_000
"""Steps of filling spool by spool in one plan's search, after which it ends without a proof."""


def least_spools(lengths: Sequence[float], sizes: Sequence[float]) -> tuple[list[list[int]], int, bool]:
    """(cuts of each spool by place, least number of spools, whether the plan is proven the least).

    lengths : falling, none over the largest size. sizes : on offer, rising.
    """
    search = _Search(list(lengths))
    best = _first_fit(lengths, sizes[-1])
    floor = _fewest(lengths, sizes[-1])
    for count in range(floor, len(best)):
        found = search.fit([sizes[-1]] * count)
        if found is not None:
            best = found
            break
        if search.cut_off:
            return best, count, False
        floor = count + 1
    for spools in _cheaper_first(sizes, len(best), sum(lengths)):
        found = search.fit(spools)
        if found is not None:
            return found, floor, not search.cut_off
    return best, floor, not search.cut_off


def _cheaper_first(sizes: Sequence[float], count: int, least: float) -> Iterator[list[float]]:
    """Every set of so many spools with at least this length together, the shortest together first."""
    several = [
        sorted(spools, reverse=True)
        for spools in combinations_with_replacement(sizes, count)
        if sum(spools) >= least - ROOM
    ]
    return iter(sorted(several, key=lambda spools: (sum(spools), spools)))


def _first_fit(lengths: Sequence[float], largest: float) -> list[list[int]]:
    """Longest first, each on the first spool with room."""
    groups: list[list[int]] = []
    rests: list[float] = []
    for place, length in enumerate(lengths):
        at = next((n for n, rest in enumerate(rests) if length <= rest + ROOM), None)
        if at is None:
            groups.append([place])
            rests.append(largest - length)
        else:
            groups[at].append(place)
            rests[at] -= length
    return groups


def _fewest(lengths: Sequence[float], largest: float) -> int:
    """A bound from below: by the sum, and by cuts of which no two share a spool (Martello and Toth's L2)."""
    most = max(ceil(sum(lengths) / largest - ROOM), sum(length > largest / 2 for length in lengths), 1)
    for small in {length for length in lengths if length <= largest / 2}:
        alone = [length for length in lengths if length > largest - small]
        halves = [length for length in lengths if largest / 2 < length <= largest - small]
        rest = sum(length for length in lengths if small <= length <= largest / 2)
        room = len(halves) * largest - sum(halves)
        most = max(most, len(alone) + len(halves) + max(0, ceil((rest - room) / largest - ROOM)))
    return most


class _Search:
    def __init__(self, lengths: list[float]) -> None:
        self.lengths = lengths
        self.after = [0.0] * (len(lengths) + 1)  # what is still to be cut
        for place in range(len(lengths) - 1, -1, -1):
            self.after[place] = self.after[place + 1] + lengths[place]
        self.shortest = lengths[-1] if lengths else 0.0
        self.filled = 0
        self.cut_off = False

    def fit(self, spools: Sequence[float]) -> list[list[int]] | None:
        """The cuts on these spools. None: they don't fit, or the search was cut off."""
        if sum(spools) < self.after[0] - ROOM:
            return None
        found, sure = self._cut_by_cut(spools)
        return found if sure else self._spool_by_spool(spools)

    def _cut_by_cut(self, spools: Sequence[float]) -> tuple[list[list[int]] | None, bool]:
        """(the cuts of each spool, or None; whether None says that they don't fit)."""
        steps = 0
        groups: list[list[int]] = [[] for _ in spools]
        rests = list(spools)
        failed: set[tuple[int, tuple[float, ...]]] = set()

        def place(cut: int) -> bool:
            nonlocal steps
            if cut == len(self.lengths):
                return True
            usable = [rest for rest in rests if rest > self.shortest - ROOM]
            if self.after[cut] > sum(usable) + ROOM:
                return False
            state = (cut, tuple(sorted(round(rest, 9) for rest in usable)))
            if state in failed:
                return False
            steps += 1
            if steps > MOST_STEPS:
                return False
            tried: list[float] = []
            for n in sorted(range(len(rests)), key=rests.__getitem__):
                if self.lengths[cut] > rests[n] + ROOM or any(abs(rests[n] - rest) <= ROOM for rest in tried):
                    continue
                tried.append(rests[n])
                rests[n] -= self.lengths[cut]
                groups[n].append(cut)
                if place(cut + 1):
                    return True
                groups[n].pop()
                rests[n] += self.lengths[cut]
                if steps > MOST_STEPS:
                    return False
                if abs(rests[n] - self.lengths[cut]) <= ROOM:
                    break  # it filled a spool exactly: no other place for it is better
            failed.add(state)
            return False

        if place(0):
            return groups, True
        return None, steps <= MOST_STEPS

    def _spool_by_spool(self, spools: Sequence[float]) -> list[list[int]] | None:
        """The longest cut left goes onto a spool of each size, with every set of others that fills it."""
        lengths = self.lengths
        failed: set[tuple[frozenset[int], tuple[float, ...]]] = set()

        def go(left: tuple[int, ...], over: tuple[float, ...]) -> list[list[int]] | None:
            if not left:
                return []
            waste = sum(over) - sum(lengths[cut] for cut in left)
            state = (frozenset(left), over)
            if waste < -ROOM or state in failed:
                return None
            first, rest = left[0], left[1:]
            for n, size in enumerate(over):
                if size in over[:n] or size < lengths[first] - ROOM:
                    continue
                room = size - lengths[first]
                for others in self._filling(rest, room - waste, room):
                    if self.cut_off:
                        return None
                    taken = set(others)
                    found = go(tuple(cut for cut in rest if cut not in taken), (*over[:n], *over[n + 1 :]))
                    if found is not None:
                        return [[first, *others], *found]
            failed.add(state)
            return None

        return go(tuple(range(len(lengths))), tuple(spools))

    def _filling(self, cuts: tuple[int, ...], least: float, most: float) -> Iterator[tuple[int, ...]]:
        """Every set of these cuts with between `least` and `most` together."""
        after = [0.0] * (len(cuts) + 1)
        for place in range(len(cuts) - 1, -1, -1):
            after[place] = after[place + 1] + self.lengths[cuts[place]]

        def go(place: int, taken: tuple[int, ...], content: float) -> Iterator[tuple[int, ...]]:
            self.filled += 1
            if self.filled > MOST_FILLED:
                self.cut_off = True
            if self.cut_off or content + after[place] < least - ROOM:
                return
            if place == len(cuts):
                yield taken
                return
            if content + self.lengths[cuts[place]] <= most + ROOM:
                yield from go(place + 1, (*taken, cuts[place]), content + self.lengths[cuts[place]])
            yield from go(place + 1, taken, content)

        return go(0, (), 0.0)

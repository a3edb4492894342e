"""A network of runs in parts that have nothing in common but the supply's two poles, which hold their volts.

What changes in one part moves nothing in another: so a part is solved by itself, and the others need not be.
"""

from collections.abc import Collection, Sequence
from functools import lru_cache

import msgspec

from logic.physics.network import SUPPLY, Solution, Tree, solve, ways


class Part(msgspec.Struct, frozen=True, cache_hash=True):
    """Some of a tree's runs and heaters, as a tree of their own."""

    tree: Tree
    runs: tuple[int, ...]  # of the whole tree, in its order
    loads: tuple[int, ...]


@lru_cache(maxsize=64)
def parts_of(tree: Tree) -> tuple[Part, ...]:
    """The parts of a tree, by their first runs. A run belongs with the one it comes from, and with its lender."""
    first = list(range(len(tree.parents)))  # a run of the same part, nearer to its first; the first: itself

    def first_of(run: int) -> int:
        while first[run] != run:
            first[run] = run = first[first[run]]
        return run

    for run, (parent, lender) in enumerate(zip(tree.parents, tree.backs, strict=True)):
        for other in (parent, lender):
            if other >= 0:
                one, another = sorted((first_of(run), first_of(other)))
                first[another] = one
    together: dict[int, list[int]] = {}
    for run in range(len(first)):
        together.setdefault(first_of(run), []).append(run)
    loads: dict[int, list[int]] = {}
    for load, run in enumerate(tree.loads):
        loads.setdefault(first_of(run), []).append(load)
    return tuple(part_of(tree, runs, loads.get(one, ())) for one, runs in together.items())


def part_with(tree: Tree, run: int) -> Part:
    """The part of a tree that a run belongs to."""
    return next(part for part in parts_of(tree) if run in part.runs)


def part_of(tree: Tree, runs: Collection[int], loads: Collection[int]) -> Part:
    """Some runs and heaters of a tree by themselves; with each run those it comes from and its lender must be."""
    kept = tuple(sorted(runs))
    number = {run: place for place, run in enumerate(kept)}
    return Part(
        tree=Tree(
            parents=tuple(SUPPLY if tree.parents[run] < 0 else number[tree.parents[run]] for run in kept),
            backs=tuple(tree.backs[run] if tree.backs[run] < 0 else number[tree.backs[run]] for run in kept),
            loads=tuple(number[tree.loads[load]] for load in sorted(loads)),
        ),
        runs=kept,
        loads=tuple(sorted(loads)),
    )


def seen_from_head(
    tree: Tree,
    run: int,
    *,
    positives: Sequence[float],
    returns: Sequence[float],
    loads: Sequence[float],
) -> float | None:
    """What a meter shows between a run's head, parted from what lies before it, and the supply's negative.
    [Ω]

    Every heater behind the run is joined, every other one and the supply are off. None: no heater lies behind
    it.
    """
    seen = _seen(tree, run, positives=positives, returns=returns, loads=loads)
    return None if seen is None else 1.0 / seen[1].supply_amps


def slopes_seen_from_head(
    tree: Tree,
    run: int,
    *,
    positives: Sequence[float],
    returns: Sequence[float],
    loads: Sequence[float],
) -> dict[int, tuple[float, float]]:
    """Of each run that what a meter shows at a run's head hangs on: its slope on the positive's and on the
    return's resistance. [1]

    A network of resistors under fixed volts takes i² less for each ohm more of a conductor that carries i
    (Tellegen's theorem), so that the resistance seen grows by (i/I)². Empty: no heater lies behind the run.
    """
    seen = _seen(tree, run, positives=positives, returns=returns, loads=loads)
    if seen is None:
        return {}
    part, now, before = seen
    whole = now.supply_amps
    return {
        each: (
            0.0 if each in before else (now.run_amps[at] / whole) ** 2,
            (now.return_amps[at] / whole) ** 2,
        )
        for at, each in enumerate(part.runs)
    }


def _seen(
    tree: Tree,
    run: int,
    *,
    positives: Sequence[float],
    returns: Sequence[float],
    loads: Sequence[float],
) -> tuple[Part, Solution, set[int]] | None:
    """What a meter at a run's head has before it, solved under 1 V, and the runs that it bridges."""
    way = ways(tree)
    behind = frozenset(load for load, at in enumerate(tree.loads) if run in way.out[at])
    if not behind:
        return None
    before = set(way.out[run]) - {run}
    part = _ways_of(tree, behind)
    solution = solve(
        part.tree,
        [0.0 if each in before else positives[each] for each in part.runs],
        returns=[returns[each] for each in part.runs],
        loads=[loads[load] for load in part.loads],
    )
    return part, solution, before


@lru_cache(maxsize=512)
def _ways_of(tree: Tree, loads: frozenset[int]) -> Part:
    """The runs on the ways of some heaters, out and back, and what those hang on: no other carries current."""
    way = ways(tree)
    runs: set[int] = set()
    wanted = [run for load in loads for run in (tree.loads[load], *way.back[tree.loads[load]])]
    while wanted:
        run = wanted.pop()
        if run not in runs:
            runs.add(run)
            wanted += [other for other in (tree.parents[run], tree.backs[run]) if other >= 0]
    return part_of(tree, runs, loads)

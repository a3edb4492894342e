"""The wiring as a network of resistors, solved exactly.

Runs are a tree from the supply's positive; each has a return of its own, goes back by the chassis, or borrows
another run's return. So the positives are a tree, the returns are another, and the heaters join them: with
borrowed returns and the chassis there are loops, and no ladder rule would do.

All nodes but the supply's two are taken out one by one (star to mesh): sums of positive conductances, so no
digits are lost, and what each step does can be noted once and repeated for other resistances. A length of 0
is no resistor: its two ends are one node. The currents in the wires are sums of the heaters' currents, never
a difference of volts. The network is linear, so all is stated for a supply of 1 V.
"""

from collections.abc import Mapping, Sequence
from functools import lru_cache

import msgspec

SUPPLY = -1  # in `Tree.parents`: comes from the supply
OWN, CHASSIS = -1, -2  # in `Tree.backs`


class NoClosedCircuit(ValueError):
    """A run whose current would find no way back; `run` is its index."""

    def __init__(self, run: int) -> None:
        super().__init__(f"run {run}: its return leads back to itself")
        self.run = run


class Tree(msgspec.Struct, frozen=True, cache_hash=True):
    """How runs hang together, by index."""

    parents: tuple[int, ...]  # SUPPLY, or the run at whose far end this one starts
    backs: tuple[int, ...]  # OWN, CHASSIS, or the run whose negative its far end shares
    loads: tuple[int, ...]  # the run at whose far end each heater stands


class Ways(msgspec.Struct, frozen=True):
    """What follows from a tree alone."""

    order: tuple[int, ...]  # every run after the one it comes from
    negatives: tuple[int, ...]  # the run at whose far end each run's negative is: itself, or its lender
    back_to: tuple[int, ...]  # of each run with a return: the run to whose negative it leads, or SUPPLY
    back_order: tuple[int, ...]  # runs with a return, every one after that to which it leads
    out: tuple[tuple[int, ...], ...]  # of each run: positives from the supply to its far end, first to last
    back: tuple[tuple[int, ...], ...]  # of each run: returns from its negative to the supply's, first to last


@lru_cache(maxsize=64)
def ways(tree: Tree) -> Ways:
    """The orders and paths of a tree.

    Raises NoClosedCircuit: a return that leads back to itself; ValueError: a run that comes from itself, or
    that borrows from a borrower.
    """
    count = len(tree.parents)
    out: dict[int, tuple[int, ...]] = {SUPPLY: ()}
    for run in range(count):
        fresh = _up_to_known(run, tree.parents, out)
        if fresh is None:
            raise ValueError(f"run {run} comes from itself")
        for each in reversed(fresh):
            out[each] = (*out[tree.parents[each]], each)
    for run, lender in enumerate(tree.backs):
        if lender >= 0 and tree.backs[lender] >= 0:
            raise ValueError(f"run {run} borrows from a borrower")
    negatives = tuple(run if tree.backs[run] < 0 else tree.backs[run] for run in range(count))
    back_to = tuple(
        negatives[tree.parents[run]] if tree.backs[run] == OWN and tree.parents[run] != SUPPLY else SUPPLY
        for run in range(count)
    )
    back: dict[int, tuple[int, ...]] = {SUPPLY: ()}  # from each negative
    for run in range(count):
        fresh = _up_to_known(negatives[run], back_to, back)
        if fresh is None:
            raise NoClosedCircuit(run)
        for each in reversed(fresh):
            back[each] = (each, *back[back_to[each]])
    with_return = [run for run in range(count) if tree.backs[run] < 0]
    return Ways(
        order=tuple(sorted(range(count), key=lambda run: len(out[run]))),
        negatives=negatives,
        back_to=back_to,
        back_order=tuple(sorted(with_return, key=lambda run: len(back[negatives[run]]))),
        out=tuple(out[run] for run in range(count)),
        back=tuple(back[negatives[run]] for run in range(count)),
    )


def _up_to_known(run: int, parents: Sequence[int], known: Mapping[int, tuple[int, ...]]) -> list[int] | None:
    """A run, the one before it, and so on, up to one whose way is known, that one left out. None: a ring."""
    fresh: list[int] = []
    while run not in known:
        fresh.append(run)
        run = parents[run]
        if len(fresh) > len(parents):
            return None
    return fresh


class Solution(msgspec.Struct, frozen=True):
    """A network under 1 V. Volts per volt; amperes per volt."""

    load_volts: tuple[float, ...]
    load_amps: tuple[float, ...]
    run_amps: tuple[float, ...]  # in the positive of each run
    return_amps: tuple[float, ...]  # in its own return or chassis path, borrowers included; 0 for a borrower
    positives: tuple[float, ...]  # volts at each run's far end, over the supply's negative
    negatives: tuple[float, ...]  # volts of its negative there

    @property
    def supply_amps(self) -> float:
        return sum(self.load_amps)


def solve(
    tree: Tree,
    positives: Sequence[float],
    *,
    returns: Sequence[float],
    loads: Sequence[float],
    only: frozenset[int] | None = None,
) -> Solution:
    """The network with these resistances [Ω], under 1 V.

    positives : of each run's positive conductor, ≥ 0. returns : of its own return or its chassis path, ≥ 0;
    what stands there for a borrower is not looked at. loads : of each heater, > 0. only : the heaters that
    are joined; None: all. Raises what `ways` raises. Exact but for rounding: relative error of a few 1e-15 in
    each volt.
    """
    plan = _plan(
        tree,
        tuple(resistance == 0 for resistance in positives),
        tuple(resistance == 0 for resistance in returns),
        only,
    )
    volts = plan.volts(positives, returns, loads)
    return _solution(tree, plan, volts, loads)


def _solution(tree: Tree, plan: "_Plan", volts: list[float], loads: Sequence[float]) -> Solution:
    way = ways(tree)
    load_volts = [volts[plan.positive[run]] - volts[plan.negative[run]] for run in tree.loads]
    load_amps = [
        load_volts[load] / loads[load] if plan.only is None or load in plan.only else 0.0
        for load in range(len(loads))
    ]
    run_amps = [0.0] * len(tree.parents)
    return_amps = [0.0] * len(tree.parents)
    for run, amps in zip(tree.loads, load_amps, strict=True):
        run_amps[run] += amps
        return_amps[way.negatives[run]] += amps
    for run in reversed(way.order):
        if tree.parents[run] != SUPPLY:
            run_amps[tree.parents[run]] += run_amps[run]
    for run in reversed(way.back_order):
        if way.back_to[run] != SUPPLY:
            return_amps[way.back_to[run]] += return_amps[run]
    return Solution(
        load_volts=tuple(load_volts),
        load_amps=tuple(load_amps),
        run_amps=tuple(run_amps),
        return_amps=tuple(return_amps),
        positives=tuple(volts[node] for node in plan.positive),
        negatives=tuple(volts[node] for node in plan.negative),
    )


# A node's number: 0 the supply's negative, 1 its positive, the others from 2.
_GROUND, _SOURCE = 0, 1


class _Plan:
    """The steps by which a network's nodes are taken out: made once for a tree, repeated for resistances."""

    def __init__(
        self,
        tree: Tree,
        short_positive: tuple[bool, ...],
        short_return: tuple[bool, ...],
        only: frozenset[int] | None,
    ) -> None:
        way = ways(tree)
        self.only = only
        count = len(tree.parents)
        self.positive = [_SOURCE] * count
        self.negative = [_GROUND] * count
        nodes = 2
        self._edges: dict[tuple[int, int], int] = {}  # (lesser node, greater node) → its place
        self._fill: list[tuple[int, int, int]] = []  # (edge, kind: 0 positive, 1 return, 2 load; index)
        for run in way.order:
            start = _SOURCE if tree.parents[run] == SUPPLY else self.positive[tree.parents[run]]
            if short_positive[run]:
                self.positive[run] = start
                continue
            self.positive[run] = nodes
            self._fill.append((self._edge(start, nodes), 0, run))
            nodes += 1
        for run in way.back_order:
            end = _GROUND if way.back_to[run] == SUPPLY else self.negative[way.back_to[run]]
            if short_return[run]:
                self.negative[run] = end
                continue
            self.negative[run] = nodes
            self._fill.append((self._edge(end, nodes), 1, run))
            nodes += 1
        for run, lender in enumerate(tree.backs):
            if lender >= 0:
                self.negative[run] = self.negative[lender]
        for load, run in enumerate(tree.loads):
            if only is None or load in only:
                self._fill.append((self._edge(self.positive[run], self.negative[run]), 2, load))
        self.nodes = nodes
        self._steps = self._eliminate()

    def _edge(self, one: int, other: int) -> int:
        pair = (one, other) if one < other else (other, one)
        return self._edges.setdefault(pair, len(self._edges))

    def _eliminate(self) -> list[tuple[int, list[tuple[int, int]], list[tuple[int, int, int]]]]:
        """(node, its (neighbour, edge)s, (edge, edge, edge to fill) of each pair of them), fewest neighbours
        first.
        """
        neighbours: list[set[int]] = [set() for _ in range(self.nodes)]
        for one, other in self._edges:
            neighbours[one].add(other)
            neighbours[other].add(one)
        left = set(range(2, self.nodes))
        by_degree: dict[int, set[int]] = {}
        for node in left:
            by_degree.setdefault(len(neighbours[node]), set()).add(node)
        steps = []
        while left:
            degree = min(key for key, group in by_degree.items() if group)
            node = max(by_degree[degree])  # the deepest first, and always the same
            by_degree[degree].remove(node)
            left.remove(node)
            around = sorted(neighbours[node])
            pairs = []
            for other in around:
                if other in left:
                    by_degree[len(neighbours[other])].discard(other)
                neighbours[other].discard(node)
            for index, one in enumerate(around):
                for other in around[index + 1 :]:
                    if one == _GROUND and other == _SOURCE:
                        continue  # between the supply's own two, which nothing hangs on
                    pairs.append((self._edge(node, one), self._edge(node, other), self._edge(one, other)))
                    neighbours[one].add(other)
                    neighbours[other].add(one)
            for other in around:
                if other in left:
                    by_degree.setdefault(len(neighbours[other]), set()).add(other)
            steps.append((node, [(other, self._edge(node, other)) for other in around], pairs))
        return steps

    def volts(
        self, positives: Sequence[float], returns: Sequence[float], loads: Sequence[float]
    ) -> list[float]:
        """Volts of every node, the supply's positive at 1."""
        kinds = (positives, returns, loads)
        conductances = [0.0] * len(self._edges)
        for edge, kind, index in self._fill:
            conductances[edge] += 1.0 / kinds[kind][index]
        sums = []
        for _node, around, pairs in self._steps:
            total = 0.0
            for _other, edge in around:
                total += conductances[edge]
            sums.append(total)
            for one, other, filled in pairs:
                conductances[filled] += conductances[one] * conductances[other] / total
        volts = [0.0] * self.nodes
        volts[_SOURCE] = 1.0
        for index in range(len(self._steps) - 1, -1, -1):
            node, around, _pairs = self._steps[index]
            held = 0.0
            for other, edge in around:
                held += conductances[edge] * volts[other]
            volts[node] = held / sums[index]
        return volts


@lru_cache(maxsize=256)
def _plan(
    tree: Tree,
    short_positive: tuple[bool, ...],
    short_return: tuple[bool, ...],
    only: frozenset[int] | None,
) -> _Plan:
    return _Plan(tree, short_positive, short_return, only)


def way_resistance(tree: Tree, run: int, *, positives: Sequence[float], returns: Sequence[float]) -> float:
    """Out to a run's far end and back, no heater joined: what limits the current of a short there. [Ω]"""
    way = ways(tree)
    return sum(positives[each] for each in way.out[run]) + sum(returns[each] for each in way.back[run])

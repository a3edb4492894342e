"""The network with something wrong in it, solved by the same exact solver: what would a meter then show?

Each fault is a change of resistances, of what is joined, or one branch more. No rule says what a fault looks
like.
"""

from collections.abc import Callable
from math import inf
from operator import add, mul

import msgspec

from logic.physics.network import CHASSIS, Solution, Tree, solve, ways

BLOWS_AT = 1.35
"""Times its rating at which a blade fuse opens in the end, within half an hour. `iso-8820-3`, MEMORY."""

OPEN_ISOLATION = inf  # what a sound circuit shows to the chassis: over range


Numbers = tuple[tuple[int, float], ...]


class Change(msgspec.Struct, frozen=True):
    """What is wrong. Everything left out is sound. Ω."""

    run_out: Numbers = ()  # in series with a run's positive
    run_back: Numbers = ()  # in series with a run's own return or chassis path
    load_out: Numbers = ()  # in series with a heater, on its positive lead
    load_back: Numbers = ()
    wire: Numbers = ()  # a run's conductors, × so much
    ohms: Numbers = ()  # a heater's resistance instead of its own
    open_loads: tuple[int, ...] = ()
    blown: tuple[int, ...] = ()  # runs whose fuse is open
    short: tuple[int, float] | None = None  # between a run's conductors at its far end
    to_chassis: tuple[int, float, float] | None = (
        None  # a heater, where along it (0 at its positive), through what
    )
    leads: float = 0.0  # of the meter, not taken off

    def and_also(self, other: "Change") -> "Change":
        """Both at once: what is in series adds up, wire is multiplied; of two heaters in one's place, the other's."""
        return Change(
            run_out=_both(add, self.run_out, other.run_out),
            run_back=_both(add, self.run_back, other.run_back),
            load_out=_both(add, self.load_out, other.load_out),
            load_back=_both(add, self.load_back, other.load_back),
            wire=_both(mul, self.wire, other.wire),
            ohms=self.ohms + other.ohms,
            open_loads=self.open_loads + other.open_loads,
            blown=self.blown + other.blown,
            short=other.short or self.short,
            to_chassis=other.to_chassis or self.to_chassis,
            leads=self.leads + other.leads,
        )


def _both(of_two: Callable[[float, float], float], some: Numbers, others: Numbers) -> Numbers:
    """Numbers by place, of both; where both have one, what comes of the two."""
    found = dict(some)
    for at, number in others:
        found[at] = of_two(found[at], number) if at in found else number
    return tuple(found.items())


class Wires(msgspec.Struct, frozen=True):
    """A rig's network as it should be. Ω and A."""

    tree: Tree
    positives: tuple[float, ...]
    returns: tuple[float, ...]
    ohms: tuple[float, ...]
    contacts: tuple[float, ...]  # of the fuse and the switch in each run, in series with its positive
    fuses: tuple[float | None, ...]  # A; None: no fuse at this run's head


class Faulty:
    """One network with one change, asked for what a meter shows at the supply's own volts."""

    def __init__(self, wires: Wires, change: Change) -> None:
        self.wires = wires
        self.change = change
        tree = wires.tree
        factor = dict(change.wire)
        run_out, run_back = dict(change.run_out), dict(change.run_back)
        self.positives = [
            ohms * factor.get(run, 1.0) + contact + run_out.get(run, 0.0)
            for run, (ohms, contact) in enumerate(zip(wires.positives, wires.contacts, strict=True))
        ]
        self.returns = [
            ohms * (factor.get(run, 1.0) if tree.backs[run] != CHASSIS else 1.0) + run_back.get(run, 0.0)
            for run, ohms in enumerate(wires.returns)
        ]
        instead = dict(change.ohms)
        self.own = [instead.get(load, ohms) for load, ohms in enumerate(wires.ohms)]
        self.load_out, self.load_back = dict(change.load_out), dict(change.load_back)
        self.loads = [
            ohms + self.load_out.get(load, 0.0) + self.load_back.get(load, 0.0)
            for load, ohms in enumerate(self.own)
        ]
        self.count = len(self.loads)
        self.tree = tree
        self._extra: list[int] = []  # branches that a fault adds, joined whenever their run is
        self._grow()
        self._known: dict[int, tuple[Solution, frozenset[int]]] = {}

    def _grow(self) -> None:
        """Add the branches of a short, or of a heater that touches the chassis."""
        change, tree = self.change, self.tree
        parents, backs, at = list(tree.parents), list(tree.backs), list(tree.loads)
        if change.short is not None:
            run, ohms = change.short
            at.append(run)
            self.loads.append(ohms)
            self._extra.append(len(at) - 1)
        if change.to_chassis is not None:
            load, where, through = change.to_chassis
            run = at[load]
            lender = run if backs[run] < 0 else backs[run]
            whole = self.loads[load]
            middle = len(parents)
            # from the run's positive through the heater's first part to the point that touches …
            parents += [run, middle]
            backs += [CHASSIS, lender]
            self.positives += [whole * where, 0.0]
            self.returns += [0.0, 0.0]
            # … and on from there to the chassis, and through its second part to its own return
            at += [middle, middle + 1]
            self.loads += [through, whole * (1.0 - where)]
            self._extra += [len(at) - 2, len(at) - 1]
        self.tree = Tree(parents=tuple(parents), backs=tuple(backs), loads=tuple(at))

    def _split(self) -> int | None:
        """The heater that touches the chassis: its two parts stand for it."""
        return self.change.to_chassis[0] if self.change.to_chassis is not None else None

    def joined(self, circuit: int) -> frozenset[int]:
        """What is joined when a circuit alone is energised: the loads behind it, but for what is open."""
        way = ways(self.tree)
        blown = self.change.blown
        split = self._split()
        return frozenset(
            load
            for load, run in enumerate(self.tree.loads)
            if circuit in way.out[run]
            and load not in self.change.open_loads
            and load != split
            and not any(one in way.out[run] for one in blown)
        )

    def _solved(self, circuit: int, volts: float) -> tuple[Solution, frozenset[int]]:
        known = self._known.get(circuit)
        if known is None:
            only = self.joined(circuit)
            solution = self._solve(only)
            hit = self._blows(solution, circuit, volts)
            if hit is not None:
                way = ways(self.tree)
                only = frozenset(load for load in only if hit not in way.out[self.tree.loads[load]])
                solution = self._solve(only)
            known = self._known[circuit] = (solution, only)
        return known

    def _solve(self, only: frozenset[int]) -> Solution:
        return solve(self.tree, self.positives, returns=self.returns, loads=self.loads, only=only)

    def _blows(self, solution: Solution, circuit: int, volts: float) -> int | None:
        """The run whose fuse would open first, by how far it is over its rating."""
        worst: tuple[float, int] | None = None
        for run, rating in enumerate(self.wires.fuses):
            if rating is None:
                continue
            over = solution.run_amps[run] * volts / rating
            if over > BLOWS_AT and (worst is None or over > worst[0]):
                worst = (over, run)
        return worst[1] if worst is not None else None

    # --- loaded, that circuit alone energised ---

    def current(self, circuit: int, *, volts: float) -> float:
        """In the circuit's own positive. [A]"""
        return self._solved(circuit, volts)[0].run_amps[circuit] * volts

    def at_pad(self, load: int, *, circuit: int, volts: float) -> tuple[float, float, float]:
        """Volts across a heater, lost on the way out, lost on the way back. [V]"""
        solution, only = self._solved(circuit, volts)
        run = self.tree.loads[load]
        if any(one in ways(self.tree).out[run] for one in self.change.blown) or not self._reaches(load, only):
            # nothing drives it: its positive hangs on its own resistance, at its negative's level
            low = solution.negatives[run] * volts
            return 0.0, volts - low, low
        amps = solution.load_amps[load] if load in only else 0.0
        high = solution.positives[run] - amps * self.load_out.get(load, 0.0)
        low = solution.negatives[run] + amps * self.load_back.get(load, 0.0)
        if load not in only and load != self._split():
            high, low = solution.positives[run], solution.negatives[run]
        return (high - low) * volts, (1.0 - high) * volts, low * volts

    def _reaches(self, load: int, only: frozenset[int]) -> bool:
        """Whether the supply's positive reaches a heater's lead: no fuse blew on the way."""
        return load in only or load in self.change.open_loads or load == self._split()

    # --- cold, fuse out ---

    def pad_ohms(self, load: int) -> float:
        """Across a heater's own leads, parted from the rest. [Ω] Infinite: open."""
        if load in self.change.open_loads:
            return inf
        return self.own[load] + self.change.leads

    def circuit_ohms(self, circuit: int) -> float:
        """At the circuit's fuse holder, everything behind it joined, its own fuse out. [Ω]"""
        way = ways(self.tree)
        split = self._split()
        later = [one for one in self.change.blown if one != circuit]
        only = frozenset(
            load
            for load, run in enumerate(self.tree.loads)
            if circuit in way.out[run]
            and load not in self.change.open_loads
            and load != split
            and not any(one in way.out[run] and circuit in way.out[one] for one in later)
        )
        if not only:
            return inf
        before = set(way.out[circuit]) - {circuit}
        bridged = [0.0 if run in before else ohms for run, ohms in enumerate(self.positives)]
        solution = solve(self.tree, bridged, returns=self.returns, loads=self.loads, only=only)
        return 1.0 / solution.supply_amps + self.change.leads

    def isolation(self, circuit: int) -> float:
        """From the circuit's positive to the chassis, its return lifted. [Ω] Infinite: nothing touches."""
        if self.change.to_chassis is None:
            return OPEN_ISOLATION
        load, where, through = self.change.to_chassis
        run = self.wires.tree.loads[load]
        if circuit not in ways(self.wires.tree).out[run]:
            return OPEN_ISOLATION
        return through + where * self.own[load] + self.change.leads

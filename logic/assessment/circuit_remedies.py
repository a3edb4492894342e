"""What would mend a fault of the circuits, in numbers: the gauge, the shorter route, the fuse.

Everything else is held as it stands; each remedy is tried on the real network, not scaled from it.
"""

from collections.abc import Callable
from functools import lru_cache

import msgspec

from logic.data.wiring_constants import AMPACITY, GAUGES, SHORT_SHARE
from logic.physics.conductors import resistance_per_metre
from logic.physics.gauge_rules import keeps_drop
from logic.physics.harness import Harness, Stand, conductors_of, copper_of, resistances, stand
from logic.physics.network import OWN, Solution, solve, way_resistance, ways
from logic.physics.protection import ROUNDING, bundle_limit, protection, summed_fuses

# With less than this part of what is to be saved lost in it, a run isn't tried by itself: the rest is slack for
# currents that change a little.
WORTH_TRYING = 0.8


class Thicker(msgspec.Struct, frozen=True):
    """Runs made thicker, and the copper that it takes."""

    runs: tuple[str, ...]
    gauges: tuple[int, ...]
    drop: float  # of the heater then, as a share
    added: float  # kg


@lru_cache(maxsize=256)
def thicker_for_drop(harness: Harness, gauges: tuple[int, ...], load: int) -> Thicker | None:
    """The least added copper that brings a heater within the drop limit: one run thicker, or the whole way.

    None: not even 4 AWG all the way would do.
    """
    on_the_way = _wires_on_the_way(harness, load)
    now, positives, returns = _as_it_stands(harness, gauges)
    over = 1 - now.load_volts[load] - harness.drop_limit
    best = None
    for run in on_the_way:
        its_own = positives[run] * now.run_amps[run] + returns[run] * now.return_amps[run]
        if its_own < WORTH_TRYING * over:
            continue  # thicker wire saves at most what is lost in it
        tried = _thinnest_that_does(harness, gauges, load, runs=(run,))
        if tried is not None and (best is None or tried.added < best.added - 1e-12):
            best = tried
    return best or _thinnest_that_does(harness, gauges, load, runs=tuple(on_the_way))


@lru_cache(maxsize=16)
def _as_it_stands(
    harness: Harness, gauges: tuple[int, ...]
) -> tuple[Solution, tuple[float, ...], tuple[float, ...]]:
    """The network with these gauges, every heater on, and the resistances that it has."""
    positives, returns = resistances(harness, gauges)
    solved = solve(harness.tree, positives, returns=returns, loads=harness.heaters)
    return solved, tuple(positives), tuple(returns)


def _wires_on_the_way(harness: Harness, load: int) -> list[int]:
    way, at = ways(harness.tree), harness.tree.loads[load]
    back = {run for run in way.back[at] if harness.tree.backs[run] == OWN}
    return [run for run in range(len(harness.lengths)) if run in way.out[at] or run in back]


def _thinnest_that_does(
    harness: Harness, gauges: tuple[int, ...], load: int, *, runs: tuple[int, ...]
) -> Thicker | None:
    """Each of `runs` at least as thick as the thinnest gauge that brings the heater within the limit."""
    for gauge in GAUGES:
        changed = list(gauges)
        for run in runs:
            changed[run] = min(changed[run], gauge)  # a lower number is a thicker wire
        if tuple(changed) == gauges:
            continue
        positives, returns = resistances(harness, changed)
        share = solve(harness.tree, positives, returns=returns, loads=harness.heaters).load_volts[load]
        if keeps_drop(share, harness.drop_limit):
            moved = [run for run in runs if changed[run] != gauges[run]]
            return Thicker(
                runs=tuple(harness.names[run] for run in moved),
                gauges=tuple(changed[run] for run in moved),
                drop=1 - share,
                added=sum(
                    copper_of(harness, run, changed[run]) - copper_of(harness, run, gauges[run])
                    for run in moved
                ),
            )
    return None


def route_for_drop(harness: Harness, drop: float, load: int) -> tuple[float, float]:
    """(route out to a heater as it stands, the longest that would keep the limit with the same wires). [m]

    Scaled by the drop over what is left, which is exact for a heater alone on its way; for others an
    estimate.
    """
    way = ways(harness.tree)
    route = sum(harness.lengths[run] for run in way.out[harness.tree.loads[load]])
    limit = harness.drop_limit
    return route, route * (limit / (1 - limit)) / (drop / (1 - drop))


@lru_cache(maxsize=256)
def gauge_for_fuse(
    harness: Harness, gauges: tuple[int, ...], fuse_run: int, *, section: tuple[int, ...]
) -> tuple[int, float] | None:
    """(thinnest gauge of a section's wires, the rating then) with which a fuse is within every one of them.

    Thicker wire draws more, and may ask for a greater fuse. [AWG, A] None: no gauge on offer does.
    """

    def protects(tried: Stand) -> bool:
        rating = tried.fuses[fuse_run]
        return rating is not None and all(AMPACITY[tried.gauges[each]] >= rating for each in section)

    found = _thinnest(harness, gauges, section, protects)
    return None if found is None else (found[0], found[1].fuses[fuse_run] or 0.0)


@lru_cache(maxsize=256)
def gauge_for_return(harness: Harness, gauges: tuple[int, ...], run: int) -> int | None:
    """The thinnest gauge of a lender with which its return carries the sum of the fuses behind it. [AWG]"""

    def carries(tried: Stand) -> bool:
        facts = protection(harness.tree, tuple(fuse is not None for fuse in tried.fuses))
        return AMPACITY[tried.gauges[run]] >= summed_fuses(facts, run, tried.fuses)

    found = _thinnest(harness, gauges, (run,), carries)
    return None if found is None else found[0]


@lru_cache(maxsize=256)
def gauge_for_bundle(harness: Harness, gauges: tuple[int, ...], run: int, *, together: int) -> int | None:
    """The thinnest gauge of a run that keeps to its bundle's limit with what then flows. [AWG]"""

    def keeps(tried: Stand) -> bool:
        share = max(tried.solution.run_amps[run], tried.solution.return_amps[run])
        return harness.charging * share <= bundle_limit(tried.gauges[run], together) * (1 + ROUNDING)

    found = _thinnest(harness, gauges, (run,), keeps)
    return None if found is None else found[0]


def _thinnest(
    harness: Harness, gauges: tuple[int, ...], runs: tuple[int, ...], does: Callable[[Stand], bool]
) -> tuple[int, Stand] | None:
    """The thinnest gauge that does in each of some runs that is thinner now, with its own currents and fuses."""
    for gauge in GAUGES:
        changed = tuple(min(held, gauge) if run in runs else held for run, held in enumerate(gauges))
        if changed != gauges and does(tried := stand(harness, changed)):
            return gauge, tried
    return None


@lru_cache(maxsize=256)
def gauge_for_short(
    harness: Harness, gauges: tuple[int, ...], run: int, *, volts: float, fuse_run: int
) -> int | None:
    """The thinnest gauge of a run with which a short at its far end draws 5 × its fuse, as that is then.

    [AWG] None: none does.
    """

    def opens(tried: Stand) -> bool:
        fuse = tried.fuses[fuse_run]
        around = way_resistance(harness.tree, run, positives=tried.positives, returns=tried.returns)
        return fuse is not None and volts >= SHORT_SHARE * fuse * around

    found = _thinnest(harness, gauges, (run,), opens)
    return None if found is None else found[0]


@lru_cache(maxsize=256)
def route_for_short(
    harness: Harness, gauges: tuple[int, ...], run: int, *, volts: float, fuse_run: int
) -> float | None:
    """The longest route of a run with which a short at its far end draws 5 × its fuse, as that is then.

    [m] None: not even none.
    """
    now = stand(harness, gauges)
    around = way_resistance(harness.tree, run, positives=now.positives, returns=now.returns)
    per_metre = resistance_per_metre(gauges[run], harness.table, harness.temperature) * conductors_of(
        harness, run
    )
    fuse = now.fuses[fuse_run]
    while fuse is not None:  # a shorter way draws more, and may ask for a greater fuse
        length = harness.lengths[run] - (around - volts / (SHORT_SHARE * fuse)) / per_metre
        if length <= 0:
            return None
        lengths = tuple(length if each == run else held for each, held in enumerate(harness.lengths))
        then = stand(msgspec.structs.replace(harness, lengths=lengths), gauges).fuses[fuse_run]
        if then is not None and then <= fuse:
            return length
        fuse = then
    return None


def gauge_for(amps: float) -> int | None:
    """The thinnest gauge that carries this. [AWG] None: not even 4 AWG."""
    return next((gauge for gauge in GAUGES if AMPACITY[gauge] >= amps), None)

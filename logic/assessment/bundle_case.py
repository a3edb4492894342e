"""The bundles of a rig: which wires share a sleeve, how thick they are together, how they are twisted and
held.
"""

from functools import lru_cache

import msgspec

from logic.assessment.circuit_case import wired
from logic.assessment.circuit_inputs import Same
from logic.data.profile import Profile, Run
from logic.data.wiring_constants import WIRE_OUTSIDE
from logic.physics.cutting import take_up
from logic.physics.sleeves import bundle_diameter, clamps, sleeve_bore


class Bundle(msgspec.Struct, frozen=True):
    """Runs that share a sleeve. SI."""

    name: str
    runs: tuple[str, ...]
    conductors: int  # a positive for each run, and each own return
    outside: float  # of the largest wire
    diameter: float | None  # None: over 20 conductors
    sleeve: float | None  # nominal bore; None: none is large enough
    route: float  # the longest of its runs
    clamps: int


def bundles(profile: Profile) -> tuple[Bundle, ...]:
    """Every bundle, in the order in which the runs name them."""
    names = dict.fromkeys(run.bundle for run in profile.runs if run.bundle)
    return tuple(_bundle(Same(profile), name) for name in names)


def bundle_of(profile: Profile, run: Run) -> Bundle | None:
    """The bundle in which a run lies. None: it lies alone."""
    return _bundle(Same(profile), run.bundle) if run.bundle else None


def conductors_together(profile: Profile, run: Run) -> int:
    """How many conductors lie together where a run lies; its own where it lies alone."""
    bundle = bundle_of(profile, run)
    return bundle.conductors if bundle else _conductors(run)


def outside_of(profile: Profile, run: Run) -> float:
    """Outside diameter of a run's wire: as given, or the table's for its gauge. [m]"""
    return run.outside or WIRE_OUTSIDE[wired(profile).runs[run.id].gauge]


def twist_of(profile: Profile, run: Run) -> float:
    """Take-up of a run's wires: over 1 where its bundle holds two or three, twisted."""
    bundle = bundle_of(profile, run)
    if bundle is None:
        return 1.0
    return take_up(bundle.conductors, outside=bundle.outside, lay=profile.parts.lay)


@lru_cache(maxsize=64)
def _bundle(same: Same, name: str) -> Bundle:
    profile = same.profile
    runs = [run for run in profile.runs if run.bundle == name]
    conductors = sum(_conductors(run) for run in runs)
    outside = max(outside_of(profile, run) for run in runs)
    diameter = bundle_diameter(conductors, outside=outside)
    route = max(run.length for run in runs)
    return Bundle(
        name=name,
        runs=tuple(run.id for run in runs),
        conductors=conductors,
        outside=outside,
        diameter=diameter,
        sleeve=None if diameter is None else sleeve_bore(diameter),
        route=route,
        clamps=clamps(route),
    )


def _conductors(run: Run) -> int:
    return 2 if run.back == "own" else 1

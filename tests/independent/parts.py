"""Cut lengths and bundles."""

import math
from typing import Any

from tests.independent.numbers import OUTSIDE_IN, PACKING, SLEEVES_IN
from tests.independent.quantities import INCH


def bundles(rig):
    """bundle's id → its runs"""
    groups: dict[str, list[Any]] = {}
    for run in rig.runs.values():
        if run.bundle is not None:
            groups.setdefault(run.bundle, []).append(run)
    return groups


def conductors(runs):
    return sum(2 if run.back == "own" else 1 for run in runs)


def largest(runs, gauges):
    """Outside diameter of the thickest wire among runs. [m]"""
    return max(run.outside or OUTSIDE_IN[gauges[run.id]] * INCH for run in runs)


def take_up(rig, runs, gauges):
    count, diameter = conductors(runs), largest(runs, gauges)
    if count not in (2, 3):
        return 1.0
    radius = diameter / 2 if count == 2 else diameter / math.sqrt(3)
    return math.hypot(1.0, 2 * math.pi * radius / rig.parts.lay)


def clamps(route):
    """First and last 6 in from the ends, no gap over 18 in: counted one by one."""
    count, at = 1, 6 * INCH
    last = route - 6 * INCH
    while at < last - 1e-9:
        at = min(last, at + 18 * INCH)
        count += 1
    return count


def parts_figures(rig, gauges):
    figures: dict[str, float | None] = {}
    groups = bundles(rig)
    for run in rig.runs.values():
        twist = take_up(rig, groups[run.bundle], gauges) if run.bundle is not None else 1.0
        figures[f"run.{run.id}.cut"] = run.length * (1 + rig.parts.slack) * twist + 2 * rig.parts.ends
    for name, runs in groups.items():
        count = conductors(runs)
        diameter = largest(runs, gauges) * PACKING[count - 1] if count <= 20 else None
        bores = [
            bore * INCH
            for bore in SLEEVES_IN
            if diameter is not None and bore * INCH >= 1.25 * diameter - 1e-12
        ]
        figures[f"bundle.{name}.diameter"] = diameter
        figures[f"bundle.{name}.sleeve"] = min(bores, default=None)
        figures[f"bundle.{name}.clamps"] = clamps(max(run.length for run in runs))
    return figures

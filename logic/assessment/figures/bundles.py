"""Figures of a bundle: its diameter, the sleeve over it, the clamps along it."""

from collections.abc import Iterator

from logic.assessment.bundle_case import Bundle, bundles
from logic.assessment.case import Case
from logic.assessment.circuit_slopes import length_slots, wiring_key
from logic.assessment.figure_builder import build_figure
from logic.assessment.kept import KeptFigures
from logic.data.figure import Figure
from logic.data.wiring_constants import CLAMP_END, CLAMP_GAP, PACKING, SLEEVE_SHARE, SLEEVES
from logic.data.wording import Words, quantity, words

_kept = KeptFigures(16)


def figures(case: Case) -> Iterator[Figure]:
    """Every figure of every bundle, in the order in which the runs name them."""
    return _kept.figures(
        wiring_key(case), lambda: (row(case, bundle) for bundle in bundles(case.profile) for row in ROWS)
    )


def diameter(case: Case, bundle: Bundle) -> Figure:
    """The least circle round its wires, all taken as the largest."""
    return build_figure(
        case,
        f"bundle.{bundle.name}.diameter",
        title="diameter",
        unit="m",
        value=bundle.diameter,
        working=words(
            "{ratio} for {count} wires × {outside}",
            ratio=quantity(PACKING.get(bundle.conductors, 0.0), "number"),
            count=quantity(bundle.conductors, "count"),
            outside=quantity(bundle.outside, "small_length"),
        ),
        sources=("circle-packing", "memory-wire-walls"),
        why_not=_too_many(bundle),
    )


def sleeve(case: Case, bundle: Bundle) -> Figure:
    """Nominal bore of the sleeve over it."""
    wide = bundle.diameter or 0.0
    return build_figure(
        case,
        f"bundle.{bundle.name}.sleeve",
        title="sleeve, nominal bore",
        unit="m",
        value=bundle.sleeve,
        working=words(
            "smallest size of at least {share} × {diameter}",
            share=quantity(SLEEVE_SHARE, "number"),
            diameter=quantity(wide, "small_length"),
        ),
        sources=("ac-43.13-1b-11-249", "practice-sleeve-sizes", "circle-packing"),
        why_not=_too_many(bundle)
        if bundle.diameter is None
        else words(
            "no size up to {largest} is at least {share} × {diameter}",
            largest=quantity(SLEEVES[-1], "length"),
            share=quantity(SLEEVE_SHARE, "number"),
            diameter=quantity(wide, "small_length"),
        ),
    )


def clamps(case: Case, bundle: Bundle) -> Figure:
    """Clamps along its longest route."""
    longest = [
        run.id for run in case.profile.runs if run.bundle == bundle.name and run.length == bundle.route
    ]
    return build_figure(
        case,
        f"bundle.{bundle.name}.clamps",
        title="clamps",
        unit="1",
        value=float(bundle.clamps),
        working=words(
            "over {route}: {end} from each end, at most {gap} between",
            route=quantity(bundle.route, "route"),
            end=quantity(CLAMP_END, "length"),
            gap=quantity(CLAMP_GAP, "length"),
        ),
        sources=("iso-10133-7.3", "practice-clamp-ends"),
        slots=length_slots(longest),
    )


ROWS = (diameter, sleeve, clamps)


def _too_many(bundle: Bundle) -> Words:
    return words(
        "{count} wires in one bundle: over {most} there is no row; split it",
        count=quantity(bundle.conductors, "count"),
        most=quantity(max(PACKING), "count"),
    )

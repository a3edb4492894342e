"""Figures of heat from SI: values, bands and slopes scaled to the unit that the format gives the figure.

Litres, hours and watt-hours begin here; everything before it is m³, s and J.
"""

from collections.abc import Callable, Iterable
from typing import Generic, TypeVar

import msgspec

from logic.assessment.case import Case
from logic.assessment.figure_builder import build_figure
from logic.assessment.nudge import STEP, Variant, as_it_stands, nudged, why_impossible
from logic.assessment.tank_case import Banded
from logic.data.figure import Figure
from logic.data.wording import Words, words

SCALE = {"L": 1000.0, "h": 1 / 3600, "Wh": 1 / 3600}
"""The figure's unit over SI, where they differ."""

Result = TypeVar("Result")


class Moved(msgspec.Struct, Generic[Result], frozen=True):
    """A result with one slot moved either way."""

    slot: str
    step: float  # m, either way
    less: Result
    more: Result


class Results(Generic[Result]):
    """A part's result as it stands, and with each slot that has been read moved a little.

    slots : all that the result may hang on. compute : the result from a variant of the case.
    """

    def __init__(self, case: Case, slots: tuple[str, ...], compute: Callable[[Variant], Result]) -> None:
        self.case = case
        self.slots = slots
        self.now = compute(as_it_stands(case))
        self.moved = tuple(
            Moved(slot, STEP, compute(nudged(case, slot, -STEP)), compute(nudged(case, slot, STEP)))
            for slot in slots
            if case.u(slot) is not None
        )

    def key(self) -> tuple[object, ...]:
        """All that figures read from these results hang on, but for the words of their workings."""
        us = tuple((moved.slot, self.case.u(moved.slot)) for moved in self.moved)
        reasons = tuple(self.case.impossible(slot) for slot in self.slots) if self.case.slots else ()
        return (self.now, self.moved, us, self.slots, reasons)

    def slopes(
        self, of: Callable[[Result], float | None], slots: tuple[str, ...]
    ) -> tuple[tuple[str, float], ...]:
        """Slope of one of the result's numbers on each of `slots` that has been read: central differences."""
        found = []
        for moved in self.moved:
            if moved.slot not in slots:
                continue
            less, more = of(moved.less), of(moved.more)
            if less is not None and more is not None:
                found.append((moved.slot, (more - less) / (2 * moved.step)))
        return tuple(found)


def si_figure(
    results: Results[Result],
    figure_id: str,
    of: Callable[[Result], float | None],
    *,
    title: str,
    unit: str,
    working: Callable[[], Words],
    why_not: Callable[[], Words],
    sources: tuple[str, ...],
    slots: Iterable[str] | None = None,
    band: Callable[[Result], Banded] | None = None,
    never_is_high: bool = True,
    holds: bool | None = None,
    limit: Words | None = None,
) -> Figure:
    """A figure that reads one number out of a part's results.

    of : the number in SI, or None. working : asked for only where there is a value. why_not : where there
    is none. slots : those that it hangs on; left out: all of the part's. band : its edges. never_is_high :
    an edge that is never stands on the high side.
    """
    scale = SCALE.get(unit, 1.0)
    hanging = results.slots if slots is None else tuple(slots)
    contradicted = why_impossible(results.case, hanging)
    value = None if contradicted else of(results.now)
    if value is None:
        reason = words("what it hangs on can't all be true: {reason}", reason=contradicted)
        return build_figure(
            results.case,
            figure_id,
            title=title,
            unit=unit,
            value=None,
            working=words(""),
            sources=sources,
            slots=hanging,
            why_not=reason if contradicted else why_not(),
        )
    return build_figure(
        results.case,
        figure_id,
        title=title,
        unit=unit,
        value=value * scale,
        working=working(),
        sources=sources,
        slots=hanging,
        slopes=[(slot, slope * scale) for slot, slope in results.slopes(of, hanging)]
        if results.moved
        else (),
        band=None if band is None else _edges(band(results.now), scale, never_is_high=never_is_high),
        holds=holds,
        limit=limit,
    )


def _edges(banded: Banded, scale: float, *, never_is_high: bool) -> tuple[float | None, float | None]:
    """Both edges, the lesser first; one that is never on the side where never lies."""
    edges = [edge * scale for edge in (banded.weak, banded.strong) if edge is not None]
    if len(edges) == 2:
        return min(edges), max(edges)
    if len(edges) == 1:
        return (edges[0], None) if never_is_high else (None, edges[0])
    return None, None

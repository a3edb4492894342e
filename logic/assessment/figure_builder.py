"""Every figure is built here, in one way: value, band, uncertainty, working, sources, slots."""

from collections.abc import Iterable
from math import isfinite, sqrt

from logic.assessment.case import Case
from logic.data.figure import Figure
from logic.data.wording import Words, joined


class FigureFault(ValueError):
    """A figure came out as no number: a fault of the program's, never of the profile's."""


def build_figure(
    case: Case,
    figure_id: str,
    *,
    title: str,
    unit: str,
    value: float | None,
    working: Words,
    sources: tuple[str, ...] = (),
    slots: Iterable[str] = (),
    slopes: Iterable[tuple[str, float]] = (),
    spreads: Iterable[float] | None = (),
    band: tuple[float | None, float | None] | None = None,
    why_not: Words | None = None,
    holds: bool | None = None,
    limit: Words | None = None,
) -> Figure:
    """A figure of `case`, in the unit that the format gives it.

    slots : the slots that the value hangs on, read or not; each is listed once.
    slopes : (slot, d value / d slot), the value in `unit`, the slot in SI, for first-order uncertainty
        (JCGM 100, 5.1.2). A slot that hasn't been read counts as exact.
    spreads : slope × uncertainty of further slots, where the two are known together. None: no uncertainty is given.
    band : its two edges in any order; an edge of None is *never* and stands on the side it came on.
    Raises FigureFault where a number is not finite: such a case wants a `why_not`.
    """
    hanging = tuple(dict.fromkeys(slots))
    edges = [] if band is None else [edge for edge in band if edge is not None]
    for number in (value, *edges):
        if number is not None and not isfinite(number):
            raise FigureFault(f"{figure_id} is {number}")
    if value is None:
        band = None
    elif (
        case.without_u is not None
        and spreads is not None
        and any(case.u_read(slot) is not None for slot in hanging)
    ):
        working = joined(working, case.without_u)
    low, high = band if band is not None else (None, None)
    if low is not None and high is not None and low > high:
        low, high = high, low
    return Figure(
        id=figure_id,
        place=place_of(figure_id),
        title=title,
        unit=unit,
        value=value,
        working=working,
        sources=sources,
        slots=hanging,
        low=low,
        high=high,
        banded=band is not None,
        u=_uncertainty(case, hanging, slopes, spreads) if value is not None and spreads is not None else None,
        why_not=why_not if value is None else None,
        holds=holds,
        limit=limit,
    )


def _uncertainty(
    case: Case, slots: Iterable[str], slopes: Iterable[tuple[str, float]], spreads: Iterable[float]
) -> float | None:
    """One standard uncertainty from readings, first order, independent parts; None where no slot is read."""
    if not case.slots or not any(case.u(slot) is not None for slot in slots):
        return None
    total = 0.0
    for slot, slope in slopes:
        u = case.u(slot)
        if u is not None:
            total += (slope * u) ** 2
    return sqrt(total + sum(spread * spread for spread in spreads))


def place_of(figure_id: str) -> str:
    """`tank.galley.spell.lowest` → `tank.galley`; `supply.hours` → `supply`."""
    kind, _, rest = figure_id.partition(".")
    if kind in ("supply", "wiring"):
        return kind
    return f"{kind}.{rest.partition('.')[0]}"

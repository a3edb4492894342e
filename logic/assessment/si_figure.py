"""Figures of heat from SI: values, bands and slopes scaled to the unit that the format gives the figure.

Litres, hours and watt-hours begin here; everything before it is m³, s and J.
"""

from collections.abc import Callable, Iterable
from typing import Generic, TypeVar

import msgspec

from logic.assessment.case import Case
from logic.assessment.figure_builder import build_figure
from logic.assessment.nudge import STEP, Pull, Variant, nudges_of, why_impossible
from logic.assessment.tank_case import Banded
from logic.data.figure import Figure
from logic.data.wording import Words, joined, words
from logic.physics.uncertainty import combined

SCALE = {"L": 1000.0, "h": 1 / 3600, "Wh": 1 / 3600}
"""The figure's unit over SI, where they differ."""

Result = TypeVar("Result")


class Moved(msgspec.Struct, Generic[Result], frozen=True):
    """A result with one slot or lever moved either way."""

    less: Result
    more: Result
    apart: float  # the way from one to the other [m, m² or V]


class Reach(msgspec.Struct, frozen=True):
    """How a slot that has been read moves a result."""

    slot: str
    parts: tuple[Pull, ...]  # itself, where it is the part's own size, and levers


class Bundle(msgspec.Struct, frozen=True):
    """Slots that reach a part through one lever and nothing else: the runs on whose lengths the volts at a pad hang."""

    lever: str
    slots: frozenset[str]
    u: float  # of the lever, from the readings of all of them


def _bundles(case: Case, reaches: tuple[Reach, ...]) -> tuple[Bundle, ...]:
    alone: dict[str, list[Reach]] = {}
    for reach in reaches:
        if len(reach.parts) == 1 and reach.parts[0][0] != reach.slot:
            alone.setdefault(reach.parts[0][0], []).append(reach)
    return tuple(
        Bundle(
            lever,
            frozenset(reach.slot for reach in those),
            combined(*(reach.parts[0][1] * (case.u(reach.slot) or 0.0) for reach in those)),
        )
        for lever, those in alone.items()
    )


class Results(Generic[Result]):
    """A part's result as it stands, and with each slot that has been read moved a little.

    slots : all that the result may hang on. compute : the result from a variant of the case. own : those of
    the slots that are sizes of the part itself. levers : through which others reach it (see `nudge.py`).
    What readings move is worked out when a slope is asked for, and no sooner.
    """

    def __init__(
        self,
        case: Case,
        slots: tuple[str, ...],
        compute: Callable[[Variant], Result],
        *,
        own: tuple[str, ...] = (),
        levers: tuple[str, ...] = (),
    ) -> None:
        self.case = case
        self.slots = slots
        self.compute = compute
        self.nudges = nudges_of(case)
        self.now = compute(self.nudges.base)
        sizes = frozenset(own)
        self.reaches = tuple(self._reach(slot, sizes, levers) for slot in slots if case.u(slot) is not None)
        self._bundles = _bundles(case, self.reaches)
        self._moved: dict[str, Moved[Result]] = {}

    def _reach(self, slot: str, own: frozenset[str], levers: tuple[str, ...]) -> Reach:
        itself: tuple[Pull, ...] = ((slot, 1.0),) if slot in own else ()
        return Reach(slot, (*itself, *self.nudges.pulls(slot, levers)))

    def moves(self, slots: tuple[str, ...]) -> int:
        """How many slots and levers are moved for the slopes on `slots`."""
        asked = frozenset(slots)
        return len({moved for reach in self.reaches if reach.slot in asked for moved, _ in reach.parts})

    def key(self) -> tuple[object, ...]:
        """What figures read from these results hang on, but for the part's own make and their words."""
        us = tuple(self.case.u(reach.slot) for reach in self.reaches)
        levers = dict.fromkeys(moved for reach in self.reaches for moved, _ in reach.parts)
        stand = tuple(self.nudges.stands_at(lever) for lever in levers)
        why = self.case.contradicted
        reasons = tuple((slot, why[slot]) for slot in self.slots if slot in why) if why else ()
        return (self.now, self.reaches, us, stand, self.slots, reasons, self.case.without_u)

    def spreads(self, of: Callable[[Result], float | None], slots: tuple[str, ...]) -> list[float]:
        """How far one of the result's numbers moves with each of `slots` that has been read, by its uncertainty:
        slope × u, by central differences. Slots that reach it through one lever alone are one of them together.
        """
        asked = frozenset(slots)
        known: dict[str, float | None] = {}
        found = []
        together: set[str] = set()
        for bundle in self._bundles:
            if bundle.slots <= asked:
                together |= bundle.slots
                slope = known[bundle.lever] = self._slope(of, bundle.lever)
                if slope is not None:
                    found.append(slope * bundle.u)
        for reach in self.reaches:
            if reach.slot not in asked or reach.slot in together:
                continue
            whole = 0.0
            for moved, by in reach.parts:
                if moved not in known:
                    known[moved] = self._slope(of, moved)
                part = known[moved]
                if part is None:
                    break
                whole += part * by
            else:
                found.append(whole * (self.case.u(reach.slot) or 0.0))
        return found

    def _slope(self, of: Callable[[Result], float | None], moved: str) -> float | None:
        either = self._moved.get(moved)
        if either is None:
            variant, below = self.nudges.variant, self.nudges.room_below(moved)
            either = self._moved[moved] = Moved(
                self.compute(variant(moved, -below)), self.compute(variant(moved, STEP)), below + STEP
            )
        less, more = of(either.less), of(either.more)
        return None if less is None or more is None else (more - less) / either.apart


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
    band: Callable[[Result], Banded | None] | None = None,
    never_is_high: bool = True,
    holds: bool | None = None,
    limit: Words | None = None,
    without_u: Words | None = None,
) -> Figure:
    """A figure that reads one number out of a part's results.

    of : the number in SI, or None. working : asked for only where there is a value. why_not : where there
    is none. slots : those that it hangs on; left out: all of the part's. band : its edges, or None where
    they aren't all known. never_is_high : an edge that is never stands on the high side.
    without_u : why the uncertainty that readings leave isn't worked out.
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
    edges = None if band is None else band(results.now)
    return build_figure(
        results.case,
        figure_id,
        title=title,
        unit=unit,
        value=value * scale,
        working=working() if without_u is None else joined(working(), without_u),
        sources=sources,
        slots=hanging,
        spreads=None if without_u is not None else [each * scale for each in results.spreads(of, hanging)],
        band=None if edges is None else _edges(edges, scale, never_is_high=never_is_high),
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

"""Numbers on the screen: every one of them comes out of `quantities.py`; here is only what a pane asks for
at once."""

from functools import lru_cache
from typing import NamedTuple

import msgspec

from logic.data import quantities
from logic.data.figure import Figure
from logic.data.state import Reading
from logic.data.wording import NEAREST, Words, words
from tui.show.cells import plain

NO_WORKING = words("")
MINUTE = 60.0
BAND = "band "  # before what was the band of a figure that moved, where its value didn't


class FigureText(NamedTuple):
    """A figure as a row shows it."""

    value: str
    u: str  # ± of its readings
    band: str  # of the model
    seen: bool = True  # whether ±u moves the value as it is shown; where not, only the working says it

    @property
    def spread(self) -> str:
        """Both, one after the other: what can be seen in the value."""
        return "  ".join(part for part in (self.u if self.seen else "", self.band) if part)


def figure_text(figure: Figure, units: str) -> FigureText:
    """Value, ±u and band; the working is not filled in here, it costs as much as all the rest."""
    return _figure_text(
        figure.id, figure.unit, figure.value, figure.u, figure.banded, figure.low, figure.high, units
    )


@lru_cache(maxsize=4096)  # most figures are the same after a reading as before it
def _figure_text(
    figure_id: str,
    unit: str,
    value: float | None,
    u: float | None,
    banded: bool,
    low: float | None,
    high: float | None,
    units: str,
) -> FigureText:
    figure = Figure(
        id=figure_id,
        place="",
        title="",
        unit=unit,
        value=value,
        working=NO_WORKING,
        low=low,
        high=high,
        banded=banded,
        u=u,
    )
    shown = quantities.show_figure(figure, units)
    band = shown.band if "…" in shown.band or not shown.value.startswith(shown.band) else ""
    seen = (
        u is not None
        and value is not None
        and any(
            quantities.show_figure(msgspec.structs.replace(figure, value=value + by), units).value
            != shown.value
            for by in (-u, u)
        )
    )
    return FigureText(shown.value, shown.uncertainty, band, seen)


def value_text(value: float, kind: str, units: str, side: int = NEAREST) -> str:
    """A slot's value with its unit, or a figure's, rounded to its side."""
    return quantities.show(value, kind, units, side)


def reading_text(reading: Reading, kind: str, units: str) -> str:
    """A reading's value; one over the meter's range as it was typed."""
    return plain(reading.typed) if reading.over else quantities.show(reading.value, kind, units)


def in_words(reading: Reading, kind: str, units: str) -> str:
    """A negative temperature in words, `12 below`; nothing for anything else."""
    return quantities.below_zero(reading.value, units) if kind == "temperature" and not reading.over else ""


@lru_cache(maxsize=4096)
def fill(template: Words, units: str) -> str:
    """A sentence with its numbers, as text that can be shown."""
    return plain(quantities.fill(template, units))


def minutes_text(minutes: float) -> str:
    """Minutes of a step, without their unit: the column says it."""
    return f"{max(0.0, minutes):.0f}"


def minutes_span(minutes: float) -> str:
    """Minutes of a day: `2 h 20`, `35 min`."""
    whole = int(max(0.0, minutes))
    hours, rest = divmod(whole, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest:02d}" if rest else f"{hours} h"


PLURALS = {"entry": "entries"}


def count_text(count: int, of: str) -> str:
    """How many of something: `3 readings`, `1 entry`, `none`."""
    if not count:
        return "none"
    return f"{count} {of if count == 1 else PLURALS.get(of, of + 's')}"


def working(figure: Figure, units: str) -> str:
    """The formula with this case's numbers."""
    return fill(figure.working, units)


def source_text(source_id: str) -> str:
    """What a source's id stands for, and its mark; empty for one that the list doesn't have."""
    from logic.data.sources import source

    try:
        found = source(source_id)
    except KeyError:
        return ""
    return plain(f"{found.text} ({found.mark.lower()})")

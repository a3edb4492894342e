"""Numbers on the screen: every one of them comes out of `quantities.py`; here is only what a pane asks for
at once."""

from typing import NamedTuple

import msgspec

from logic.data import quantities
from logic.data.figure import Figure
from logic.data.state import Reading
from logic.data.wording import Words, words
from tui.show.cells import plain

NO_WORKING = words("")
MINUTE = 60.0


class FigureText(NamedTuple):
    """A figure as a row shows it."""

    value: str
    spread: str  # ± of its readings, and its band


def figure_text(figure: Figure, units: str) -> FigureText:
    """Value, ±u and band; the working is not filled in here, it costs as much as all the rest."""
    shown = quantities.show_figure(msgspec.structs.replace(figure, working=NO_WORKING), units)
    return FigureText(shown.value, "  ".join(part for part in (shown.uncertainty, shown.band) if part))


def value_text(value: float, kind: str, units: str) -> str:
    """A slot's value with its unit."""
    return quantities.show(value, kind, units)


def reading_text(reading: Reading, kind: str, units: str) -> str:
    """A reading's value; one over the meter's range as it was typed."""
    return plain(reading.typed) if reading.over else quantities.show(reading.value, kind, units)


def in_words(reading: Reading, kind: str, units: str) -> str:
    """A negative temperature in words, `12 below`; nothing for anything else."""
    return quantities.below_zero(reading.value, units) if kind == "temperature" and not reading.over else ""


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


def working(figure: Figure, units: str) -> str:
    """The formula with this case's numbers."""
    return fill(figure.working, units)


def source_text(source: str) -> str:
    """What a source's id stands for; empty for one that the list doesn't have."""
    from logic.data.sources import source_named

    found = source_named(source)
    return plain(found.line()) if found is not None else ""

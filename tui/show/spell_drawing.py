"""The cold spell as a plot in terminal cells: outside and contents over the nights, heaters on, ice.

Takes series sampled once for each column; what the numbers are is the assessment's business.
"""

from collections.abc import Sequence
from typing import NamedTuple

from tui.show import numbers
from tui.show.cells import pad_left, shorten, width_of
from tui.show.marks import LETTERS, Marks
from tui.show.rows import BAD, FAINT, HEAD, PLAIN, STRONG, Line, Span, line, wrapped

SIGNS, SIGNS_ASCII = ("·", "●", "│", "┈"), (".", "*", "|", "-")  # outside, contents, its band, freezing
LEVELS, LEVELS_ASCII = " ▁▂▃▄▅▆▇█", " .:-=+*#@"
NAME_MOST = 16
QUARTER_DAY = 6 * 3600.0
DAY = 24 * 3600.0


class SpellSeries(NamedTuple):
    """One value for each column of the plot."""

    seconds: tuple[float, ...]  # since the spell began, the middle of each column
    outside: tuple[float, ...]  # °C
    contents: tuple[float, ...]  # °C
    least: tuple[float, ...]  # °C, of the band of the contents
    most: tuple[float, ...]  # °C
    ice: tuple[float, ...]  # share by mass, 0 to 1
    heaters: tuple[tuple[str, tuple[float, ...]], ...]  # name, share of the column's time that it is on
    clock: float  # seconds since midnight when the spell begins
    hold: float  # °C


def axis_width(series: SpellSeries, units: str) -> int:
    """Cells for the labels at the left."""
    names = [width_of(name) for name, _ in series.heaters]
    return min(max(*(width_of(label) for _, label in axis(series, units, 3)), *names, 3), NAME_MOST) + 1


def bounds(series: SpellSeries) -> tuple[float, float]:
    """Lowest and highest temperature of the plot, with the freezing point in."""
    every = (*series.outside, *series.least, *series.most, series.hold, 0.0)
    low, high = min(every), max(every)
    return (low - 1.0, high + 1.0) if high - low < 2.0 else (low, high)


def axis(series: SpellSeries, units: str, count: int) -> list[tuple[float, str]]:
    """(temperature, label) of some heights, highest first."""
    low, high = bounds(series)
    steps = max(count - 1, 1)
    values = [high - (high - low) * number / steps for number in range(count)]
    return [(value, numbers.value_text(value, "whole_temperature", units)) for value in values]


def row_at(degc: float, low: float, high: float, height: int) -> int:
    """The row of a temperature, 0 at the top."""
    return round((high - degc) / (high - low) * (height - 1))


def spell_drawing(series: SpellSeries, height: int, units: str, marks: Marks) -> list[Line]:
    """The plot, `height` rows for the temperatures, then heaters, ice and hours."""
    plain = marks == LETTERS
    outside, contents, band, ice_line = SIGNS_ASCII if plain else SIGNS
    low, high = bounds(series)
    label_at = {row_at(value, low, high, height): label for value, label in axis(series, units, 3)}
    margin = axis_width(series, units)
    freezing, hold = row_at(0.0, low, high, height), row_at(series.hold, low, high, height)
    lines: list[Line] = []
    for row in range(height):
        spans = [Span(pad_left(label_at.get(row, ""), margin - 1) + " ", FAINT)]
        for column in range(len(series.seconds)):
            if row_at(series.contents[column], low, high, height) == row:
                spans.append(Span(contents, BAD if series.ice[column] > 0 else STRONG))
            elif in_band(series, column, low, high, height, row):
                spans.append(Span(band, FAINT))
            elif row_at(series.outside[column], low, high, height) == row:
                spans.append(Span(outside, PLAIN))
            elif row in (freezing, hold):
                spans.append(Span(ice_line, FAINT))
            else:
                spans.append(Span(" "))
        lines.append(merged(spans))
    levels = LEVELS_ASCII if plain else LEVELS
    for name, shares in series.heaters:
        lines.append(strip_line(name, shares, levels, margin, PLAIN))
    lines.append(strip_line("ice", series.ice, levels, margin, BAD))
    lines.append(hour_line(series, margin))
    return [*lines, *legend(marks, margin + len(series.seconds))]


def legend(marks: Marks, width: int) -> tuple[Line, ...]:
    """What the signs of the plot mean, over as many lines as that takes."""
    outside, contents, band, ice_line = SIGNS_ASCII if marks == LETTERS else SIGNS
    said = (
        f"{contents} contents; {band} where they may lie with losses a quarter less or more; {outside} outside; "
        f"{ice_line} freezing point, and what is to be held"
    )
    return wrapped(said, width, FAINT, indent="  ")


def in_band(series: SpellSeries, column: int, low: float, high: float, height: int, row: int) -> bool:
    """Whether a row lies between the band's edges in a column."""
    top, foot = (row_at(edge[column], low, high, height) for edge in (series.most, series.least))
    return top <= row <= foot


def strip_line(name: str, shares: Sequence[float], levels: str, margin: int, role: str) -> Line:
    """A row of bars for a share of each column; what is little is shown, not rounded away."""
    signs = []
    for share in shares:
        level = round(min(max(share, 0.0), 1.0) * (len(levels) - 1))
        signs.append(levels[max(level, 1) if share > 0 else 0])
    return line(Span(pad_left(shorten(name, margin - 1), margin - 1) + " ", HEAD), Span("".join(signs), role))


def hour_line(series: SpellSeries, margin: int) -> Line:
    """The hours of the clock, every six where there is room."""
    cells = [" "] * len(series.seconds)
    free = 0
    for column, seconds in enumerate(series.seconds):
        before = series.seconds[column - 1] if column else seconds - 1.0
        clock, clock_before = series.clock + seconds, series.clock + before
        if clock // QUARTER_DAY == clock_before // QUARTER_DAY and column:
            continue
        label = f"{int(clock // QUARTER_DAY * 6 % 24):02d}h"
        if column >= free and column + len(label) <= len(cells):
            cells[column : column + len(label)] = label
            free = column + len(label) + 1
    return line(Span(" " * margin), Span("".join(cells), FAINT))


def merged(spans: list[Span]) -> Line:
    """Neighbours of one role as one span."""
    kept: list[Span] = []
    for span in spans:
        if kept and kept[-1].role == span.role:
            kept[-1] = Span(kept[-1].text + span.text, span.role)
        else:
            kept.append(span)
    return tuple(kept)

"""The cold spell of a tank as a plot in SVG: outside air, contents with their band, heat, ice; no colour."""

from math import ceil, floor

from logic.assessment.spell_plan import SpellPlan
from logic.data.quantities import show
from logic.data.units import EXACT
from logic.data.wording import DOWN, UP
from logic.handover.blocks import Drawing
from logic.handover.svg import HATCH, INK, area, box, label, path, rule, svg

WIDTH, HEIGHT, LEFT, RIGHT, TOP, FOOT = 640.0, 250.0, 54.0, 10.0, 10.0, 66.0
COLUMNS = 288
FREEZING = 0.0
MOST_MARKS = 7  # on the scale of temperatures


def spell_drawing(plan: SpellPlan, units: str) -> Drawing:
    """Outside dashed, contents drawn through in their grey band, a bar where heat is on, ice hatched."""
    columns = plan.columns
    coldest = min(min(column.outside, column.least) for column in columns)
    warmest = max(max(column.outside, column.most, plan.hold) for column in columns)
    span = max(warmest - coldest, 1.0)
    plot_width, plot_height = WIDTH - LEFT - RIGHT, HEIGHT - TOP - FOOT

    def x(hour: float) -> float:
        return LEFT + hour / plan.hours * plot_width

    def y(degc: float) -> float:
        return TOP + (warmest - degc) / span * plot_height

    upper = [(x(column.hour), y(column.most)) for column in columns]
    lower = [(x(column.hour), y(column.least)) for column in reversed(columns)]
    body = [area(upper + lower, fill="#ddd")]
    for degc, name in ((FREEZING, "freezing"), (plan.hold, "to be held")):
        if coldest <= degc <= warmest:
            body.append(rule(LEFT, y(degc), WIDTH - RIGHT, y(degc), dash="1 3", ink=HATCH))
            body.append(label(WIDTH - RIGHT - 2, y(degc) - 3, name, size=8, anchor="end"))
    body.append(path([(x(column.hour), y(column.outside)) for column in columns], dash="6 3", line=1.1))
    body.append(path([(x(column.hour), y(column.contents)) for column in columns], line=2))
    body.append(box(LEFT, TOP, plot_width, plot_height))
    for degc in _scale(coldest, warmest, units):
        body.append(rule(LEFT - 3, y(degc), LEFT, y(degc)))
        body.append(
            label(LEFT - 6, y(degc) + 3, show(degc, "whole_temperature", units), size=9, anchor="end")
        )
    heat_top, ice_top = HEIGHT - FOOT + 24, HEIGHT - FOOT + 40
    step = plot_width / len(columns)
    for column in columns:
        left = x(column.hour) - step / 2
        if column.heat > 0:
            body.append(rule(left, heat_top, left + step * column.heat, heat_top, line=7))
        if column.ice_most > 0:
            high = 12 * max(column.ice_most, 0.06)
            body.append(rule(left, ice_top + 6 - high / 2, left, ice_top + 6 + high / 2, line=0.8, ink=HATCH))
        if column.ice > 0:
            high = 12 * max(column.ice, 0.06)
            body.append(rule(left, ice_top + 6 - high / 2, left, ice_top + 6 + high / 2, line=1.2, ink=INK))
    body.append(label(LEFT - 6, heat_top + 3, "heat on", size=9, anchor="end"))
    body.append(label(LEFT - 6, ice_top + 9, "ice", size=9, anchor="end"))
    if not any(column.ice_most > 0 for column in columns):
        body.append(label(LEFT, ice_top + 9, "none", size=9))
    body += _clock(plan, x)
    caption = _caption(plan, units)
    return Drawing(svg(WIDTH, HEIGHT, body, f"cold spell of {plan.tank}"), caption, caption)


def _scale(coldest: float, warmest: float, units: str) -> list[float]:
    """Round degrees of the scale that is shown, so many that they stand apart. [°C]"""
    degree, zero = (1.0, 0.0) if units == "metric" else (float(part) for part in EXACT["degree_Fahrenheit"])
    low, high = (coldest - zero) / degree, (warmest - zero) / degree
    step = next((step for step in (1, 2, 5, 10, 20, 50) if (high - low) / step <= MOST_MARKS), 100)
    return [mark * step * degree + zero for mark in range(ceil(low / step), floor(high / step) + 1)]


def _clock(plan: SpellPlan, x) -> list[str]:
    """Marks at each midnight and noon by the clock; on a long series, at so many that they stay apart."""
    every = 12.0
    while plan.hours / every > 12:
        every *= 2
    marks = []
    hour = -plan.start_hour % every if every < 24 else -plan.start_hour % 24
    while hour <= plan.hours:
        marks.append(rule(x(hour), HEIGHT - FOOT, x(hour), HEIGHT - FOOT + 5))
        day, clock = divmod(hour + plan.start_hour, 24)
        name = f"{round(clock):02d}:00" if every < 24 else f"day {round(day) + 1}"
        marks.append(label(x(hour), HEIGHT - FOOT + 15, name, size=8, anchor="middle"))
        hour += every
    return marks


def _caption(plan: SpellPlan, units: str) -> str:
    coldest = min(plan.columns, key=lambda column: column.contents)
    icy = max(column.ice for column in plan.columns)
    icy_most = max(column.ice_most for column in plan.columns)
    lowest = show(coldest.contents, "temperature", units, DOWN)
    after = show(coldest.hour * 3600, "hours", units)
    ice, ice_most = (show(share, "share", units, UP) for share in (icy, icy_most))
    return (
        f"{plan.tank}: outside air dashed, contents drawn through, grey where they may lie with losses a "
        f"quarter less or more. Coldest contents {lowest} after {after}; most ice {ice}, at the worse edge "
        f"{ice_most}."
    )

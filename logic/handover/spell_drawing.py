"""The cold spell of a tank as a plot in SVG: outside air, contents with their band, heat, ice; no colour."""

from logic.assessment.spell_plan import SpellPlan
from logic.data.quantities import show
from logic.handover.blocks import Drawing
from logic.handover.svg import HATCH, INK, area, box, label, path, rule, svg

WIDTH, HEIGHT, LEFT, RIGHT, TOP, FOOT = 640.0, 300.0, 54.0, 10.0, 16.0, 72.0
COLUMNS = 288
FREEZING = 0.0


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
    body += [
        label(LEFT - 4, y(degc) + 3, show(degc, "whole_temperature", units), size=9, anchor="end")
        for degc in (warmest, (warmest + coldest) / 2, coldest)
    ]
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
    body.append(label(LEFT - 4, heat_top + 3, "heat on", size=9, anchor="end"))
    body.append(label(LEFT - 4, ice_top + 9, "ice", size=9, anchor="end"))
    body += _clock(plan, x)
    return Drawing(svg(WIDTH, HEIGHT, body, f"cold spell of {plan.tank}"), _caption(plan, units))


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
    lowest, after = show(coldest.contents, "temperature", units), show(coldest.hour * 3600, "hours", units)
    ice, ice_most = show(icy, "share", units), show(icy_most, "share", units)
    return (
        f"{plan.tank}: outside air dashed, contents drawn through, grey where they may lie with losses a "
        f"quarter less or more. Coldest contents {lowest} after {after}; most ice {ice}, at the worse edge "
        f"{ice_most}."
    )

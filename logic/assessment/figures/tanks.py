"""Figures of tanks: what they hold, what they lose, what they are given.

How cold and how long stands in `tank_holding.py`, the spell in `tank_spell.py`. One function for each row of
the format's table, named after it.
"""

from collections.abc import Iterator
from functools import partial

from logic.assessment.case import Case
from logic.assessment.figures import tank_holding
from logic.assessment.figures.tank_holding import BAND, FACE_SOURCES, holds_design_low
from logic.assessment.figures.tank_words import (
    conductance_working,
    delivered_working,
    effective_working,
    least_why_not,
    least_working,
    level_working,
    volume_working,
)
from logic.assessment.kept import KeptFigures
from logic.assessment.si_figure import si_figure
from logic.assessment.tank_view import TankView, band, of, tank_view
from logic.data.figure import Figure
from logic.data.wording import Words, quantity, words

VOLUME_SOURCES = {
    "box": ("nist-hb44",),
    "taper": ("prismoidal-rule", "nist-hb44"),
    "slope": ("nist-hb44",),
    "cylinder": ("circular-segment", "nist-hb44"),
}

_kept = KeptFigures(64)


def figures(case: Case) -> Iterator[Figure]:
    """Every figure of every tank but the spell's."""
    for tank in case.profile.tanks:
        view = tank_view(case, tank)
        yield from _kept.figures(view.key(), partial(_rows, case, view))


def _rows(case: Case, view: TankView) -> Iterator[Figure]:
    return (row(case, view) for row in ROWS)


def _no_reason() -> Words:
    return words("it can't be computed")


# --- what it holds ---


def volume(case: Case, view: TankView) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.volume",
        of(lambda heat: heat.volume),
        title="volume, inside",
        unit="L",
        working=lambda: volume_working(view),
        why_not=_no_reason,
        sources=VOLUME_SOURCES[view.tank.shape],
        slots=view.sizes,
    )


def volume_outside(case: Case, view: TankView) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.volume_outside",
        of(lambda heat: heat.volume_outside),
        title="outside rule",
        unit="L",
        working=lambda: words(
            "outside {length} × {width} × {height}; more than it holds",
            length=quantity(view.tank.length, "length"),
            width=quantity(view.tank.width, "length"),
            height=quantity(view.tank.height, "length"),
        ),
        why_not=_no_reason,
        sources=("practice-outside-rule", "nist-hb44"),
        slots=view.outside,
    )


def contents(case: Case, view: TankView) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.contents",
        of(lambda heat: heat.contents),
        title="contents planned",
        unit="L",
        working=lambda: words(
            "{fill} of {volume}",
            fill=quantity(view.tank.fill, "share"),
            volume=quantity(view.heat.volume, "volume"),
        ),
        why_not=_no_reason,
        sources=VOLUME_SOURCES[view.tank.shape],
        slots=view.sizes,
    )


def contents_level(case: Case, view: TankView) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.contents_level",
        of(lambda heat: heat.contents_level),
        title="level of contents",
        unit="m",
        working=lambda: level_working(view),
        why_not=_no_reason,
        sources=VOLUME_SOURCES[view.tank.shape],
        slots=view.slots("height", "wall") if view.tank.shape == "box" else view.sizes,
    )


def least(case: Case, view: TankView) -> Figure:
    low_enough = (view.heat.least or 0.0) <= view.heat.contents * (1 + 1e-9)
    return si_figure(
        view.results,
        f"{view.place}.least",
        of(lambda heat: heat.least),
        title="least liquid",
        unit="L",
        working=lambda: least_working(view),
        why_not=lambda: least_why_not(view),
        sources=("practice-least-liquid", *VOLUME_SOURCES[view.tank.shape]),
        slots=(*view.sizes, *view.pads, *view.marks),
        holds=low_enough,
        limit=words("planned contents {contents}", contents=quantity(view.heat.contents, "volume")),
    )


def least_level(case: Case, view: TankView) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.least_level",
        of(lambda heat: heat.least_level),
        title="least level",
        unit="m",
        working=lambda: least_working(view),
        why_not=lambda: least_why_not(view),
        sources=("practice-least-liquid",),
        slots=(*view.sizes, *view.pads, *view.marks),
    )


# --- what it loses and is given ---


def conductance(case: Case, view: TankView) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.conductance",
        of(lambda heat: heat.conductance.whole),
        title="loses for each degree",
        unit="W/K",
        working=lambda: conductance_working(view.heat.conductance),
        why_not=_no_reason,
        sources=FACE_SOURCES,
        slots=view.faces,
    )


def effective(case: Case, view: TankView) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.effective",
        of(lambda heat: heat.effective_degc),
        title="drifts to, design low",
        unit="degC",
        working=lambda: effective_working(case, view),
        why_not=_no_reason,
        sources=FACE_SOURCES,
        slots=view.losses,
    )


def needed(case: Case, view: TankView) -> Figure:
    heat = view.heat
    return si_figure(
        view.results,
        f"{view.place}.needed",
        of(lambda heat: heat.needed.value),
        title="needs, design low",
        unit="W",
        working=lambda: words(
            "{conductance} × ({hold} − {effective})",
            conductance=quantity(heat.conductance.whole, "conductance"),
            hold=quantity(view.inputs.hold_degc, "temperature"),
            effective=quantity(heat.effective_degc, "temperature"),
        ),
        why_not=_no_reason,
        sources=(*FACE_SOURCES, BAND),
        slots=view.losses,
        band=band(lambda heat: heat.needed),
        holds=holds_design_low(heat),
        limit=words("given {delivered}", delivered=quantity(heat.delivered, "power")),
    )


def delivered(case: Case, view: TankView) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.delivered",
        of(lambda heat: heat.delivered),
        title="gets, pads on",
        unit="W",
        working=lambda: delivered_working(view),
        why_not=_no_reason,
        sources=("job-heat", "practice-liquid-film", "mcadams-1954", "ashrae-still-air"),
        slots=(*view.slots("wall"), *view.runs),
    )


ROWS = (
    volume, volume_outside, contents, least, contents_level, least_level, conductance, effective, needed,
    delivered, *tank_holding.ROWS,
)  # fmt: skip

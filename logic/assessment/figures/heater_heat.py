"""Figures of a heater's heat: its share into the liquid, its wall in service and dry, its density.

Its volts, watts and current stand in `heater_circuit.py`, its place in `heater_fit.py`.
"""

from collections.abc import Callable, Iterator
from functools import partial

from logic.assessment.case import Case
from logic.assessment.heater_case import HeaterHeat
from logic.assessment.heater_view import HeaterView, heater_view
from logic.assessment.kept import KeptFigures
from logic.assessment.si_figure import si_figure
from logic.data.constants import HEAD_SPACE, STILL_FILM
from logic.data.figure import Figure
from logic.data.wording import Words, quantity, words

CONTACT_SOURCES = ("practice-pad-contact", "ashrae-still-air", "practice-wall-limit")


_kept = KeptFigures(128)


def figures(case: Case) -> Iterator[Figure]:
    """Every figure of heat of every heater."""
    for heater in case.profile.heaters:
        view = heater_view(case, heater)
        yield from _kept.figures(view.key(), partial(_rows, case, view))


def _rows(case: Case, view: HeaterView) -> Iterator[Figure]:
    return (row(case, view) for row in ROWS)


def _figure(
    view: HeaterView,
    name: str,
    of: Callable[[HeaterHeat], float | None],
    *,
    title: str,
    unit: str,
    working: Callable[[], Words],
    sources: tuple[str, ...],
    slots: tuple[str, ...],
    why_not: Callable[[], Words] = lambda: words("no run feeds it"),
    holds: bool | None = None,
    limit: Words | None = None,
) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.{name}",
        of,
        title=title,
        unit=unit,
        working=working,
        why_not=why_not,
        sources=sources,
        slots=slots,
        holds=holds,
        limit=limit,
    )


def share(case: Case, view: HeaterView) -> Figure:
    kind = "insulation" if view.tank else "for_a_metre"
    return _figure(
        view,
        "share",
        lambda heat: heat.share,
        title="share into the liquid",
        unit="1",
        working=lambda: words(
            "{outward} / ({inward} + {outward})",
            inward=quantity(view.heat.inward, kind),
            outward=quantity(view.heat.outward, kind),
        ),
        sources=("job-heat", "practice-liquid-film", "mcadams-1954", "ashrae-still-air"),
        slots=view.wall,
    )


def wall(case: Case, view: HeaterView) -> Figure:
    design = case.profile.design
    return _figure(
        view,
        "wall",
        lambda heat: heat.wall,
        title="wall in service",
        unit="degC",
        working=lambda: words(
            "({density} + {hold} / {inward} + {around} / {outward}) / (1 / {inward} + 1 / {outward})",
            density=quantity(view.heat.serving or 0.0, "density"),
            hold=quantity(design.hold_degc, "temperature"),
            inward=quantity(view.heat.inward, "insulation"),
            around=quantity(view.heat.around_degc, "temperature"),
            outward=quantity(view.heat.outward, "insulation"),
        ),
        sources=("practice-pad-contact", "practice-liquid-film", "mcadams-1954", "ashrae-still-air"),
        slots=view.whole,
        why_not=lambda: words("no run feeds it") if view.tank else words("not told for a wrap"),
    )


def bare(case: Case, view: HeaterView) -> Figure:
    return _figure(
        view,
        "bare",
        lambda heat: heat.bare,
        title="hanging free",
        unit="degC",
        working=lambda: words(
            "{warm} + {density} / (2 × {film}), both faces to still air",
            warm=quantity(case.profile.design.warm_degc, "temperature"),
            density=quantity(view.heat.testing, "density"),
            film=quantity(STILL_FILM, "film"),
        ),
        sources=CONTACT_SOURCES,
        slots=view.area,
    )


def dry(case: Case, view: HeaterView) -> Figure:
    heat = view.heat
    return _figure(
        view,
        "dry",
        lambda heat: heat.dry,
        title="on a dry wall",
        unit="degC",
        working=lambda: words(
            "{warm} + {density} × {inward} × {outward} / ({inward} + {outward})",
            warm=quantity(case.profile.design.warm_degc, "temperature"),
            density=quantity(heat.testing, "density"),
            inward=quantity(heat.wall_alone + HEAD_SPACE, "insulation"),
            outward=quantity(heat.over + 1 / STILL_FILM, "insulation"),
        ),
        sources=(*CONTACT_SOURCES, "ashrae-air-space"),
        slots=(*view.area, *view.wall),
        holds=heat.dry is not None and heat.dry <= view.limit,
        limit=words("its wall's limit {limit}", limit=quantity(view.limit, "temperature")),
    )


def density(case: Case, view: HeaterView) -> Figure:
    heater = view.heater
    return _figure(
        view,
        "density",
        lambda heat: heat.density,
        title="watts for its area",
        unit="W/m²",
        working=lambda: words(
            "{watts} / ({length} × {width})",
            watts=quantity(heater.watts, "power"),
            length=quantity(heater.length, "length"),
            width=quantity(heater.width, "length"),
        ),
        sources=("job-heat",),
        slots=view.area,
    )


ROWS = (share, wall, bare, dry, density)

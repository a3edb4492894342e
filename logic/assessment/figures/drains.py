"""Figures of drain legs: what their heat holds, when they freeze, how far the tank's warmth reaches in."""

from collections.abc import Iterator
from functools import partial

from logic.assessment.case import Case
from logic.assessment.drain_case import DrainInputs, drain_results
from logic.assessment.drain_view import DrainView, drain_view
from logic.assessment.kept import KeptFigures
from logic.assessment.si_figure import si_figure
from logic.assessment.tank_case import Banded
from logic.data.constants import LATENT_HEAT, WATER_CONDUCTIVITY, WATER_DENSITY, WATER_HEAT
from logic.data.figure import Figure
from logic.data.safe_sides import as_told
from logic.data.wording import Words, quantity, words
from logic.physics.drain_leg import fin_rate

FILM_SOURCES = ("churchill-bernstein-1977", "coolprop-air", "practice-pipe-film", "ashrae-still-air")
ICE_SOURCES = ("ashrae-pipe-insulation", *FILM_SOURCES, "iapws-95", "iapws-06", "practice-g-band")
ZERO = quantity(0.0, "temperature")

_kept = KeptFigures(64)


def figures(case: Case) -> Iterator[Figure]:
    """Every figure of every drain."""
    for drain in case.profile.drains:
        view = drain_view(case, drain)
        yield from _kept.figures(view.key(), partial(_rows, case, view))


def _rows(case: Case, view: DrainView) -> Iterator[Figure]:
    return (row(case, view) for row in ROWS)


def holds_to(case: Case, view: DrainView) -> Figure:
    heat, inputs = view.heat, view.inputs
    return si_figure(
        view.results,
        f"{view.place}.holds_to",
        lambda inputs: drain_results(inputs).holds_to.value,
        title="holds to",
        unit="degC",
        working=lambda: words(
            "{hold} − {delivered} × {per_metre} / {length} = {air} round it",
            hold=quantity(inputs.hold_degc, "temperature"),
            delivered=quantity(heat.delivered, "power"),
            per_metre=quantity(heat.per_metre, "for_a_metre"),
            length=quantity(inputs.length, "length"),
            air=as_told(f"{view.place}.holds_to", heat.holds_air.value or 0.0, "temperature"),
        ),
        why_not=lambda: words("inside the cabin it doesn't follow the air outdoors"),
        sources=("job-heat", *FILM_SOURCES, "practice-g-band"),
        slots=view.whole,
        band=lambda inputs: drain_results(inputs).holds_to,
        holds=heat.holds_to.value is not None and heat.holds_to.value <= inputs.low_degc
        if view.heaters
        else None,
        limit=words("design low {low}", low=quantity(inputs.low_degc, "temperature")),
    )


def hours_to_ice(case: Case, view: DrainView) -> Figure:
    return _hours(
        view,
        "hours_to_ice",
        lambda inputs: drain_results(inputs).to_ice,
        title="ice, power off",
        working=lambda: words(
            "{density} kg/m³ × {heat} J/kg/K × {bore} × {per_metre}"
            " × ln(({hold} − {air}) / ({zero} − {air}))",
            density=f"{WATER_DENSITY:g}",
            heat=quantity(WATER_HEAT, "count"),
            bore=quantity(view.inputs.leg.bore, "bore"),
            per_metre=quantity(view.heat.per_metre, "for_a_metre"),
            hold=quantity(view.inputs.hold_degc, "temperature"),
            air=quantity(view.heat.air_degc, "temperature"),
            zero=ZERO,
        ),
    )


def hours_to_solid(case: Case, view: DrainView) -> Figure:
    return _hours(
        view,
        "hours_to_solid",
        lambda inputs: drain_results(inputs).to_solid,
        title="then solid after",
        working=lambda: words(
            "{density} kg/m³ × {latent} J/kg × {bore} × {per_metre} / ({zero} − {air})",
            density=f"{WATER_DENSITY:g}",
            latent=quantity(LATENT_HEAT, "count"),
            bore=quantity(view.inputs.leg.bore, "bore"),
            per_metre=quantity(view.heat.per_metre, "for_a_metre"),
            air=quantity(view.heat.air_degc, "temperature"),
            zero=ZERO,
        ),
    )


def _hours(view: DrainView, name: str, banded, *, title: str, working) -> Figure:
    def of(inputs: DrainInputs) -> float | None:
        return banded(inputs).value

    def edges(inputs: DrainInputs) -> Banded:
        return banded(inputs)

    return si_figure(
        view.results,
        f"{view.place}.{name}",
        of,
        title=title,
        unit="h",
        working=working,
        why_not=lambda: _no_ice(view),
        sources=ICE_SOURCES,
        slots=view.losses,
        band=edges,
    )


def reach(case: Case, view: DrainView) -> Figure:
    rate = fin_rate(view.inputs.leg)
    return si_figure(
        view.results,
        f"{view.place}.reach",
        lambda inputs: drain_results(inputs).reach,
        title="tank's warmth reaches",
        unit="m",
        working=lambda: words(
            "where cosh(m (L − x)) = cosh(m L) / 10, m = 1 / √({per_metre} × {water} W/m/K × {bore})"
            " = {rate} per m, L = {length}; still water",
            per_metre=quantity(view.heat.per_metre, "for_a_metre"),
            water=quantity(WATER_CONDUCTIVITY, "number"),
            bore=quantity(view.inputs.leg.bore, "bore"),
            rate=quantity(rate, "number"),
            length=quantity(view.inputs.length, "length"),
        ),
        why_not=lambda: words(
            "a tenth isn't reached within {length}", length=quantity(view.inputs.length, "length")
        ),
        sources=("textbook-fin", "coolprop-water", *FILM_SOURCES),
        slots=(*view.losses, f"{view.place}.length"),
    )


def _no_ice(view: DrainView) -> Words:
    return words("never: the air round it is at {air}", air=quantity(view.heat.air_degc, "temperature"))


ROWS = (holds_to, hours_to_ice, hours_to_solid, reach)

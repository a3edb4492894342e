"""Figures of tanks: what holds, parked and on the road; hours to ice, to solid, to thaw.

What a tank holds, loses and is given stands in `tanks.py`, which lists these after its own.
"""

from logic.assessment.case import Case
from logic.assessment.figures.tank_words import least_why_not, no_ice
from logic.assessment.si_figure import si_figure
from logic.assessment.tank_case import TankHeat
from logic.assessment.tank_view import TankView, band, of
from logic.data.constants import LATENT_HEAT, WATER_HEAT
from logic.data.figure import Figure
from logic.data.wording import Words, quantity, words
from logic.physics.tank_heat import mass_of

FACE_SOURCES = (
    "job-heat", "practice-liquid-film", "ashrae-air-space", "wac-51-11-0526", "ashrae-still-air",
    "mcadams-1954",
)  # fmt: skip
BAND = "practice-g-band"
ZERO = quantity(0.0, "temperature")
ICE_SOURCES = ("iapws-95", "iapws-06", *FACE_SOURCES, BAND)


def holds_design_low(heat: TankHeat) -> bool:
    """Whether what is delivered is what is needed; a difference of rounding alone counts as held."""
    return heat.delivered >= (heat.needed.value or 0.0) * (1 - 1e-12)


def holds_to(case: Case, view: TankView) -> Figure:
    heat, inputs = view.heat, view.inputs
    return si_figure(
        view.results,
        f"{view.place}.holds_to",
        of(lambda heat: heat.holds_to.value),
        title="holds to",
        unit="degC",
        working=lambda: words(
            "outdoors at which {delivered} = {conductance} × ({hold} − what it drifts to)",
            delivered=quantity(heat.delivered, "power"),
            conductance=quantity(heat.conductance.whole, "conductance"),
            hold=quantity(inputs.hold_degc, "temperature"),
        ),
        why_not=lambda: words("inside the cabin it doesn't follow the air outdoors"),
        sources=(*FACE_SOURCES, BAND),
        slots=view.whole,
        band=band(lambda heat: heat.holds_to),
        holds=holds_design_low(heat),
        limit=words("design low {low}", low=quantity(inputs.low_degc, "temperature")),
    )


def hours_to_ice(case: Case, view: TankView) -> Figure:
    heat, inputs = view.heat, view.inputs
    return si_figure(
        view.results,
        f"{view.place}.hours_to_ice",
        of(lambda heat: heat.to_ice.value),
        title="ice, power off",
        unit="h",
        working=lambda: words(
            "{mass} × {heat} J/kg/K / {conductance} × ln(({hold} − {effective}) / ({zero} − {effective}))",
            zero=ZERO,
            mass=quantity(mass_of(heat.contents), "mass"),
            heat=quantity(WATER_HEAT, "count"),
            conductance=quantity(heat.conductance.whole, "conductance"),
            hold=quantity(inputs.hold_degc, "temperature"),
            effective=quantity(heat.effective_degc, "temperature"),
        ),
        why_not=lambda: no_ice(view),
        sources=ICE_SOURCES,
        slots=view.losses,
        band=band(lambda heat: heat.to_ice),
    )


def hours_to_solid(case: Case, view: TankView) -> Figure:
    heat = view.heat
    return si_figure(
        view.results,
        f"{view.place}.hours_to_solid",
        of(lambda heat: heat.to_solid.value),
        title="then solid after",
        unit="h",
        working=lambda: words(
            "{mass} × {latent} J/kg / ({conductance} × ({zero} − {effective}))",
            zero=ZERO,
            mass=quantity(mass_of(heat.contents), "mass"),
            latent=quantity(LATENT_HEAT, "count"),
            conductance=quantity(heat.conductance.whole, "conductance"),
            effective=quantity(heat.effective_degc, "temperature"),
        ),
        why_not=lambda: no_ice(view),
        sources=ICE_SOURCES,
        slots=view.losses,
        band=band(lambda heat: heat.to_solid),
    )


def hours_to_thaw(case: Case, view: TankView) -> Figure:
    heat = view.heat
    lost = -heat.conductance.whole * heat.effective_degc

    def why_not() -> Words:
        if heat.contents <= 0:
            return words("no contents")
        if not view.inputs.pads:
            return words("no heater gives it heat")
        return words(
            "never: {delivered} in, {lost} lost at {zero}",
            zero=ZERO,
            delivered=quantity(heat.delivered, "power"),
            lost=quantity(lost, "power"),
        )

    return si_figure(
        view.results,
        f"{view.place}.hours_to_thaw",
        of(lambda heat: heat.to_thaw.value),
        title="thaws within",
        unit="h",
        working=lambda: words(
            "{mass} × {latent} J/kg / ({delivered} − {lost})",
            mass=quantity(mass_of(heat.contents), "mass"),
            latent=quantity(LATENT_HEAT, "count"),
            delivered=quantity(heat.delivered, "power"),
            lost=quantity(lost, "power"),
        ),
        why_not=why_not,
        sources=ICE_SOURCES,
        slots=view.whole,
        band=band(lambda heat: heat.to_thaw),
    )


def hours_to_ice_least(case: Case, view: TankView) -> Figure:
    heat = view.heat
    return si_figure(
        view.results,
        f"{view.place}.hours_to_ice_least",
        of(lambda heat: heat.to_ice_least.value),
        title="ice, at least liquid",
        unit="h",
        working=lambda: words(
            "as for the planned contents, with {least} at a level of {level}",
            least=quantity(heat.least or 0.0, "volume"),
            level=quantity(heat.least_level or 0.0, "length"),
        ),
        why_not=lambda: least_why_not(view) if heat.least is None else no_ice(view, empty=False),
        sources=(*ICE_SOURCES, "practice-least-liquid"),
        slots=(*view.losses, *view.marks),
        band=band(lambda heat: heat.to_ice_least),
    )


def holds_to_towing(case: Case, view: TankView) -> Figure:
    heat, inputs = view.heat, view.inputs
    value = heat.towing.value
    return si_figure(
        view.results,
        f"{view.place}.holds_to_towing",
        of(lambda heat: heat.towing.value),
        title="holds to, on the road",
        unit="degC",
        working=lambda: words(
            "as when parked, in air at {speed}: film {film}",
            speed=quantity(case.profile.design.towing or 0.0, "speed"),
            film=quantity(inputs.towing_film or 0.0, "film"),
        ),
        why_not=lambda: (
            words("no speed on the road is given")
            if case.profile.design.towing is None
            else words("it isn't in the open")
        ),
        sources=(*FACE_SOURCES, BAND),
        slots=view.whole,
        band=band(lambda heat: heat.towing),
        holds=value is not None and value <= inputs.low_degc,
        limit=words("design low {low}", low=quantity(inputs.low_degc, "temperature")),
    )


ROWS = (holds_to, hours_to_ice, hours_to_solid, hours_to_thaw, hours_to_ice_least, holds_to_towing)

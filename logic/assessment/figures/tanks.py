"""Figures of tanks: what they hold, what they lose, what they are given, how cold and how long.

The spell's figures stand in `tank_spell.py`. One function for each row of the format's table, named after it.
"""

from collections.abc import Callable
from functools import partial

from logic.assessment.case import Case
from logic.assessment.figures.tank_words import (
    conductance_working,
    delivered_working,
    effective_working,
    least_why_not,
    least_working,
    level_working,
    no_ice,
    volume_working,
)
from logic.assessment.kept import KeptFigures
from logic.assessment.si_figure import si_figure
from logic.assessment.tank_case import Banded, TankHeat, TankInputs, tank_results
from logic.assessment.tank_view import TankView, tank_view
from logic.data.constants import LATENT_HEAT, WATER_HEAT
from logic.data.figure import Figure
from logic.data.wording import Words, quantity, words
from logic.physics.tank_heat import mass_of

VOLUME_SOURCES = {
    "box": ("nist-hb44",),
    "taper": ("prismoidal-rule", "nist-hb44"),
    "slope": ("nist-hb44",),
    "cylinder": ("circular-segment", "nist-hb44"),
}
FACE_SOURCES = (
    "job-heat", "practice-liquid-film", "ashrae-air-space", "wac-51-11-0526", "ashrae-still-air",
    "mcadams-1954",
)  # fmt: skip
BAND = "practice-g-band"
ZERO = quantity(0.0, "temperature")
ICE_SOURCES = ("iapws-95", "iapws-06", *FACE_SOURCES, BAND)

_kept = KeptFigures(64)


def figures(case: Case) -> list[Figure]:
    """Every figure of every tank but the spell's."""
    found: list[Figure] = []
    for tank in case.profile.tanks:
        view = tank_view(case, tank)
        found += _kept.figures(view.key(), partial(_rows, case, view))
    return found


def _rows(case: Case, view: TankView) -> list[Figure]:
    return [row(case, view) for row in ROWS]


def of(field: Callable[[TankHeat], float | None]) -> Callable[[TankInputs], float | None]:
    """A number of a tank's results, asked of its inputs."""
    return lambda inputs: field(tank_results(inputs))


def band(field: Callable[[TankHeat], Banded]) -> Callable[[TankInputs], Banded]:
    return lambda inputs: field(tank_results(inputs))


def _no_reason() -> Words:
    return words("it can't be computed")


# --- what it holds ---


def volume(case: Case, view: TankView) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.volume",
        of(lambda heat: heat.volume),
        title="inside volume",
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
        title="contents in the spell",
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
        title="level of the contents",
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
        title="least liquid before its heaters may be on",
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
        title="least level before its heaters may be on",
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
        title="heat loss for each degree",
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
        title="what it drifts to at the design low",
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
        title="heat needed at the design low",
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


def holds_design_low(heat: TankHeat) -> bool:
    """Whether what is delivered is what is needed; a difference of rounding alone counts as held."""
    return heat.delivered >= (heat.needed.value or 0.0) * (1 - 1e-12)


def delivered(case: Case, view: TankView) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.delivered",
        of(lambda heat: heat.delivered),
        title="heat into the liquid",
        unit="W",
        working=lambda: delivered_working(view),
        why_not=_no_reason,
        sources=("job-heat", "practice-liquid-film", "mcadams-1954", "ashrae-still-air"),
        slots=(*view.slots("wall"), *view.runs),
    )


# --- how cold, how long ---


def holds_to(case: Case, view: TankView) -> Figure:
    heat, inputs = view.heat, view.inputs
    return si_figure(
        view.results,
        f"{view.place}.holds_to",
        of(lambda heat: heat.holds_to.value),
        title="its heaters hold down to",
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
        title="to first ice without power",
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
        title="from first ice to solid without power",
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
        if not any(pad.watts for pad in view.inputs.pads):
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
        title="to thaw all of it, heaters on, at the design low",
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
        title="to first ice without power, filled to the least",
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
        title="on the road its heaters hold down to",
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


ROWS = (
    volume, volume_outside, contents, least, contents_level, least_level, conductance, effective, needed,
    delivered, holds_to, hours_to_ice, hours_to_solid, hours_to_thaw, hours_to_ice_least, holds_to_towing,
)  # fmt: skip

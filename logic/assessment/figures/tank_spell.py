"""Figures of a tank over the cold spell: how cold it gets, what freezes, what the pads use.

Over any weather that the design has, a forecast's day or an hourly series. Bands are the least and the
greatest of three spells: G as it stands, and at the edges of its band.
"""

from collections.abc import Callable, Iterator
from functools import partial

from logic.assessment.case import Case
from logic.assessment.kept import KeptFigures
from logic.assessment.si_figure import si_figure
from logic.assessment.spell_budget import too_long_for_readings
from logic.assessment.tank_case import EDGES, Banded, fed_pads
from logic.assessment.tank_inputs import TankInputs
from logic.assessment.tank_view import TankView, spell_duty, spell_joules, spell_of, tank_view
from logic.data.constants import MOST_ROWS_OF_TANKS
from logic.data.figure import Figure
from logic.data.safe_sides import as_told
from logic.data.wording import Words, quantity, words
from logic.physics.spell_parts import Spell

SOURCES = (
    "job-heat", "ashrae-diurnal", "iapws-95", "iapws-06", "practice-liquid-film", "ashrae-air-space",
    "mcadams-1954", "practice-g-band",
)  # fmt: skip
HOURLY_SOURCES = (
    "job-heat",
    "iapws-95",
    "iapws-06",
    "practice-liquid-film",
    "ashrae-air-space",
    "practice-g-band",
)

_kept = KeptFigures(64)


def figures(case: Case) -> Iterator[Figure]:
    """Every figure of every tank's spell."""
    for tank in case.profile.tanks:
        view = tank_view(case, tank)
        yield from _kept.figures((view.key(), too_long_for_readings(case)), partial(_rows, case, view))


def _rows(case: Case, view: TankView) -> Iterator[Figure]:
    return (row(case, view) for row in ROWS)


def _banded(number: Callable[[TankInputs, float], float | None]) -> Callable[[TankInputs], Banded | None]:
    """The least and the greatest of the three runs, in the place of the band's edges; None: one has no value."""

    def edges(inputs: TankInputs) -> Banded | None:
        runs = [run for edge in EDGES if (run := number(inputs, edge)) is not None]
        return Banded(runs[0], min(runs), max(runs)) if len(runs) == len(EDGES) else None

    return edges


def _of_spell(field: Callable[[Spell], float]) -> Callable[[TankInputs, float], float | None]:
    def number(inputs: TankInputs, edge: float) -> float | None:
        spell = spell_of(inputs, edge)
        return None if spell is None else field(spell)

    return number


def _figure(
    case: Case,
    view: TankView,
    name: str,
    number: Callable[[TankInputs, float], float | None],
    *,
    title: str,
    unit: str,
    working: Callable[[], Words],
    why_not: Callable[[], Words] | None = None,
    holds: bool | None = None,
    limit: Words | None = None,
) -> Figure:
    return si_figure(
        view.results,
        f"{view.place}.spell.{name}",
        lambda inputs: number(inputs, 1.0),
        title=title,
        unit=unit,
        working=working,
        why_not=why_not or (lambda: _no_spell(view)),
        sources=HOURLY_SOURCES if case.profile.design.hourly is not None else SOURCES,
        slots=view.whole,
        band=_banded(number),
        holds=holds,
        limit=limit,
        without_u=too_long_for_readings(case),
    )


def _no_spell(view: TankView) -> Words:
    if view.heat.contents <= 0:
        return words("no contents")
    if view.inputs.beyond:
        return words(
            "{rows} rows of weather for every tank are more than is worked out at once, {most} in all: a shorter "
            "series, or a season a part at a time",
            rows=quantity(len(view.inputs.course.seconds), "count"),
            most=quantity(MOST_ROWS_OF_TANKS, "count"),
        )
    return words(
        "{contents} is too little for its heaters: their thermostats would switch for ever",
        contents=quantity(view.heat.contents, "volume"),
    )


def _course_words(case: Case, view: TankView) -> Words:
    course = view.inputs.course
    spell = spell_of(view.inputs)
    return words(
        "{hours} from {start}, outdoors {low} to {high}; solved from event to event, {switchings} switchings",
        hours=quantity(course.length, "hours"),
        start=quantity(view.inputs.start_degc, "temperature"),
        low=quantity(min(course.degc), "temperature"),
        high=quantity(max(course.degc), "temperature"),
        switchings=quantity(spell.switchings if spell else 0, "count"),
    )


def lowest(case: Case, view: TankView) -> Figure:
    spell = spell_of(view.inputs)
    return _figure(
        case,
        view,
        "lowest",
        _of_spell(lambda spell: spell.lowest_degc),
        title="coldest in the spell",
        unit="degC",
        working=lambda: _course_words(case, view),
        holds=spell is not None and spell.ice_seconds == 0,
        limit=words("no ice"),
    )


def ice_hours(case: Case, view: TankView) -> Figure:
    return _figure(
        case,
        view,
        "ice_hours",
        _of_spell(lambda spell: spell.ice_seconds),
        title="ice in the spell",
        unit="h",
        working=lambda: _course_words(case, view),
    )


def ice_share(case: Case, view: TankView) -> Figure:
    return _figure(
        case,
        view,
        "ice_share",
        _of_spell(lambda spell: spell.ice_share),
        title="most ice, by mass",
        unit="1",
        working=lambda: _course_words(case, view),
    )


def duty(case: Case, view: TankView) -> Figure:
    def why_not() -> Words:
        if not view.inputs.pads:
            return words("no heater")
        if not fed_pads(view.inputs):
            return words("no run feeds its heaters")
        if spell_of(view.inputs) is None:
            return _no_spell(view)
        return words("the spell has no length")

    return _figure(
        case,
        view,
        "duty",
        spell_duty,
        title="pads on, of the time",
        unit="1",
        working=lambda: words(
            "{used} of {most} with every pad on all the time",
            used=as_told(f"{view.place}.spell.energy", spell_joules(view.inputs) or 0.0, "watt_hours"),
            most=quantity(
                sum(pad.watts or 0.0 for pad, _ in fed_pads(view.inputs)) * view.inputs.course.length,
                "watt_hours",
            ),
        ),
        why_not=why_not,
    )


def energy(case: Case, view: TankView) -> Figure:
    def working() -> Words:
        pads = fed_pads(view.inputs)
        spell = spell_of(view.inputs)
        if not pads or spell is None:
            return words("no heater: {none}", none=quantity(0.0, "watt_hours"))
        parts = {}
        terms = []
        for number, (pad, _) in enumerate(pads):
            terms.append(f"{{watts{number}}} × {{hours{number}}}")
            parts[f"watts{number}"] = quantity(pad.watts or 0.0, "power")
            parts[f"hours{number}"] = quantity(spell.seconds_on(number), "hours")
        return words(" + ".join(terms), **parts)

    return _figure(
        case,
        view,
        "energy",
        spell_joules,
        title="energy of the spell",
        unit="Wh",
        working=working,
    )


ROWS = (lowest, ice_hours, ice_share, duty, energy)

"""Rules of a heater's heat: foam over it, a dry wall, its thermostat, a wrap that is too short."""

from logic.assessment.case import Case
from logic.assessment.findings.rule import Find, find, rule
from logic.assessment.heater_view import heater_view
from logic.data.constants import FOAM_LIMIT_DEGC, HEAD_SPACE, STILL_FILM, WRAP_COVER
from logic.data.profile import Heater
from logic.data.safe_sides import as_told
from logic.data.wording import at_least, at_most, quantity, words

SAME = 1e-9
"""Numbers closer than this are one. [K, or relative]"""


@rule("foam-over", weight="stop", per="heater", source="cpsc-5045", open=True, acceptable=False)
def insulation_over_a_heater(case: Case, heater: Heater) -> Find | None:
    """Insulation over a heater whose own sheet doesn't allow it. A wrap: its drain's."""
    if heater.covered:
        return None
    if heater.face == "wrap":
        thickness = case.drains[heater.on].insulation
        if thickness <= 0:
            return None
        return find(
            text=words(
                "{thickness} of insulation over a wrap whose sheet isn't said to allow it",
                thickness=quantity(thickness, "length"),
            ),
            remedy=words("none of it over the wrap, or `covered` if the wrap's own sheet allows it"),
        )
    if heater.insulation <= 0:
        return None
    return find(
        text=words(
            "{insulation} over a pad whose sheet isn't said to allow it",
            insulation=quantity(heater.insulation, "insulation"),
        ),
        remedy=words(
            "none of it over the pad, or `covered` if its own sheet allows it; polystyrene bears {foam}",
            foam=quantity(FOAM_LIMIT_DEGC, "temperature"),
        ),
    )


@rule("dry-hot", weight="use", per="heater", source="practice-wall-limit", open=True)
def wall_too_hot_if_dry(case: Case, heater: Heater) -> Find | None:
    """The wall passes its limit with no liquid behind it; milder where a thermostat stands between."""
    dry = case.value(f"heater.{heater.id}.dry")
    view = heater_view(case, heater)
    if dry is None or dry <= view.limit + SAME:
        return None
    heat = view.heat
    inward, outward = heat.wall_alone + HEAD_SPACE, heat.over + 1 / STILL_FILM
    room = view.limit - case.profile.design.warm_degc
    remedy = words("never on without the least liquid behind it, and the label says so")
    if room > 0:
        density = room * (inward + outward) / (inward * outward)
        share = density / heat.testing
        remedy = words(
            "never on without the least liquid behind it, and the label says so; {watts} on this area, or"
            " these watts on {area}, would stay under it",
            watts=at_most(heater.watts * share, "power"),
            area=at_least(heater.length * heater.width / share, "area"),
        )
    return find(
        text=words(
            "its wall comes to {dry} if dry, an estimate; its limit is {limit}",
            dry=as_told(f"heater.{heater.id}.dry", dry, "temperature"),
            limit=quantity(view.limit, "temperature"),
        ),
        remedy=remedy,
        weight="note" if heater.thermostat is not None else None,
    )


@rule("thermostat-low", weight="use", per="heater", source="job-heat", open=True)
def thermostat_comes_on_too_late(case: Case, heater: Heater) -> Find | None:
    """A tank heater's thermostat comes on below what is to be held."""
    hold = case.profile.design.hold_degc
    thermostat = heater.thermostat
    if thermostat is None or heater.face == "wrap" or thermostat.on_degc >= hold - SAME:
        return None
    return find(
        text=words(
            "it comes on below {on}; {hold} is to be held",
            on=quantity(thermostat.on_degc, "temperature"),
            hold=quantity(hold, "temperature"),
        ),
        remedy=words(
            "one that comes on at {hold} or above, or {on} as what is held",
            hold=at_least(hold, "temperature"),
            on=at_most(thermostat.on_degc, "temperature"),
        ),
    )


@rule("thermostat-wall", weight="note", per="heater", source="practice-pad-contact", open=True)
def thermostat_goes_off_too_soon_by_the_wall(case: Case, heater: Heater) -> Find | None:
    """The wall under a heating pad is over `off`: a thermostat that feels the wall goes off too soon."""
    wall = case.value(f"heater.{heater.id}.wall")
    thermostat = heater.thermostat
    if thermostat is None or wall is None or wall <= thermostat.off_degc + SAME:
        return None
    hold = case.profile.design.hold_degc
    return find(
        text=words(
            "while it heats, the wall stands at {wall} with the contents at {hold}; it goes off at {off}",
            wall=as_told(f"heater.{heater.id}.wall", wall, "temperature"),
            hold=quantity(hold, "temperature"),
            off=quantity(thermostat.off_degc, "temperature"),
        ),
        remedy=words(
            "its sensor on the wall away from the pad, or one that goes off above {wall}",
            wall=at_least(wall, "temperature"),
        ),
    )


@rule("wrap-short", weight="use", per="heater", source="practice-wrap-cover", open=True)
def wrap_leaves_part_of_its_drain(case: Case, heater: Heater) -> Find | None:
    """A wrap covers less than nine tenths of its drain's length."""
    if heater.face != "wrap":
        return None
    drain = case.drains[heater.on]
    if heater.length >= WRAP_COVER * drain.length * (1 - SAME):
        return None
    return find(
        text=words(
            "it covers {length} of a drain of {drain}",
            length=quantity(heater.length, "length"),
            drain=quantity(drain.length, "length"),
        ),
        remedy=words(
            "a wrap of at least {least}, or a second one on the rest",
            least=at_least(WRAP_COVER * drain.length, "length"),
        ),
    )

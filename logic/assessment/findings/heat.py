"""Rules of heat: what isn't held, what freezes first, least liquid, ice in the spell, bays, the road."""

from collections.abc import Iterator

from logic.assessment.case import Case
from logic.assessment.drain_view import drain_view
from logic.assessment.figures.tank_holding import holds_design_low
from logic.assessment.findings.rule import Find, find, rule
from logic.assessment.heat_remedies import (
    drain_watts,
    joined,
    lag_to_outlast,
    limit_of_use_words,
    more_heat_words,
    watts_more,
)
from logic.assessment.nudge import why_impossible
from logic.assessment.surroundings import OPEN, bay_balance, bay_slots
from logic.assessment.tank_case import EDGES
from logic.assessment.tank_view import TankView, spell_of, tank_view
from logic.data.constants import STILL_FILM
from logic.data.profile import Bay, Drain, Profile, Tank
from logic.data.safe_sides import as_told
from logic.data.wording import Words, at_least, quantity, words
from logic.physics.bay import heat_to_reach
from logic.physics.films import outer_film_in_wind

SAME = 1e-9
"""Relative: numbers closer than this are one."""


@rule("cold", weight="use", per="rig", source="job-heat", open=True)
def heaters_do_not_hold(case: Case, profile: Profile) -> Iterator[Find]:
    """The heaters (none is also an answer, for a tank) give less than is needed at the design low."""
    for tank in profile.tanks:
        view = _known(case, tank)
        if view is not None and not holds_design_low(view.heat):
            yield _cold_tank(view)
    for drain in profile.drains:
        heat, inputs = _drain_heat(case, drain)
        if heat is None or heat.holds_air.value <= heat.air_degc + SAME:
            continue
        yield find(
            place=f"drain.{drain.id}",
            text=words(
                "its heater holds {hold} down to {air} round it; at the design low it is {low} there",
                hold=quantity(inputs.hold_degc, "temperature"),
                air=as_told(f"drain.{drain.id}.holds_to", heat.holds_air.value, "temperature"),
                low=quantity(heat.air_degc, "temperature"),
            ),
            remedy=joined(
                words(
                    "{watts} round it in place of {given}",
                    watts=at_least(drain_watts(inputs), "power"),
                    given=quantity(sum(inputs.watts), "power"),
                ),
                limit_of_use_words(heat.holds_to.value),
            ),
        )


@rule("cold-band", weight="note", per="rig", source="practice-g-band", open=True)
def heaters_hold_not_at_the_worse_edge(case: Case, profile: Profile) -> Iterator[Find]:
    """The heaters hold the design low as the losses stand, but not with those a quarter worse."""
    for tank in profile.tanks:
        view = _known(case, tank)
        if view is None or not holds_design_low(view.heat):
            continue
        heat, inputs = view.heat, view.inputs
        worst = heat.needed.strong or 0.0
        if heat.delivered >= worst * (1 - SAME):
            continue
        yield find(
            place=view.place,
            text=words(
                "its heaters give {delivered}; it may need up to {worst} at {low}",
                delivered=quantity(heat.delivered, "power"),
                worst=quantity(worst, "power"),
                low=quantity(inputs.low_degc, "temperature"),
            ),
            remedy=joined(
                words(
                    "{watts} more at its pads to be sure",
                    watts=at_least(watts_more(inputs, worst - heat.delivered), "power"),
                ),
                limit_of_use_words(heat.holds_to.strong),
            ),
        )
    for drain in profile.drains:
        heat, inputs = _drain_heat(case, drain)
        if heat is None or heat.holds_air.value > heat.air_degc + SAME:
            continue
        if heat.holds_air.weak <= heat.air_degc + SAME:
            continue
        yield find(
            place=f"drain.{drain.id}",
            text=words(
                "its heater may hold only down to {air} round it; at the design low it is {low} there",
                air=as_told(f"drain.{drain.id}.holds_to", heat.holds_air.weak, "temperature"),
                low=quantity(heat.air_degc, "temperature"),
            ),
            remedy=joined(
                words(
                    "{watts} round it to be sure",
                    watts=at_least(drain_watts(inputs) / EDGES[1], "power"),
                ),
                limit_of_use_words(heat.holds_to.weak),
            ),
        )


@rule("drain-first", weight="use", per="drain", source="ashrae-pipe-insulation", open=True)
def drain_freezes_before_its_tank(case: Case, drain: Drain) -> Find | None:
    """A drain without a heater has ice before its tank does, all heaters off, at the steady low."""
    if case.heaters_on(drain.id):
        return None
    view = drain_view(case, drain)
    tank = tank_view(case, case.tanks[drain.tank])
    if why_impossible(case, view.losses) or why_impossible(case, tank.losses):
        return None
    heat, inputs = view.heat, view.inputs
    seconds, of_tank = heat.to_ice.value, tank.heat.to_ice.value
    if seconds is None or (of_tank is not None and seconds >= of_tank):
        return None
    leg = f"{view.place}.hours_to_ice"
    reach = (
        words(
            "the tank's warmth reaches only {reach} into it",
            reach=as_told(f"{view.place}.reach", heat.reach, "length"),
        )
        if heat.reach is not None
        else words("the tank's warmth fades along it")
    )
    if of_tank is None:
        text = words("the leg has ice after {leg}, its tank never", leg=as_told(leg, seconds, "hours"))
        if tank.heat.contents <= 0:
            text = words("full, the leg has ice after {leg}", leg=as_told(leg, seconds, "hours"))
        lag = None
    else:
        text = words(
            "the leg has ice after {leg}, its tank after {tank}",
            leg=as_told(leg, seconds, "hours"),
            tank=as_told(f"{tank.place}.hours_to_ice", of_tank, "hours"),
        )
        wind = case.profile.design.wind if drain.place == OPEN else None
        lag = lag_to_outlast(inputs, wind=wind, seconds=of_tank)
    remedy = words(
        "{watts} round it holds it at the design low", watts=at_least(drain_watts(inputs), "power")
    )
    if lag is not None:
        more = words("or {lag} of foam round it lets it last as long", lag=at_least(lag, "length"))
        remedy = joined(remedy, more)
    return find(text=joined(text, reach), remedy=remedy)


@rule("low-liquid", weight="use", per="tank", source="practice-least-liquid")
def heaters_want_more_liquid(case: Case, tank: Tank) -> Find | None:
    """The least liquid for a tank's heaters is over the contents planned, or above its brim."""
    view = _known(case, tank)
    if view is None:
        return None
    heat, asked = view.heat, view.heat.least_asked
    if asked is None or heat.least_fault == "place":
        return None
    if heat.least is None:
        brim = view.inputs.shape.inside().height
        return find(
            text=words(
                "its pads want liquid to {level}; its brim is at {brim}",
                level=quantity(asked, "length"),
                brim=quantity(brim, "length"),
            ),
            remedy=words(
                "its highest pad lower by {over}, or off for good",
                over=at_least(asked - brim, "length"),
            ),
            open=True,
        )
    if heat.least <= heat.contents * (1 + SAME):
        return None
    return find(
        text=words(
            "{contents} are planned; its heaters may be on from {least}",
            contents=quantity(heat.contents, "volume"),
            least=quantity(heat.least, "volume"),
        ),
        remedy=words(
            "{more} more, to a level of {level}, before they are on",
            more=at_least(heat.least - heat.contents, "volume"),
            level=at_least(heat.least_level or 0.0, "length"),
        ),
    )


@rule("spell-ice", weight="use", per="tank", source="job-heat", open=True)
def ice_in_the_spell(case: Case, tank: Tank) -> Find | None:
    """The contents have ice in the spell, as the losses stand."""
    view = _known(case, tank)
    spell = spell_of(view.inputs) if view is not None else None
    if view is None or spell is None or spell.ice_seconds <= 0:
        return None
    return find(
        text=words(
            "ice for {hours} of the spell, {share} of it at the most",
            hours=as_told(f"{view.place}.spell.ice_hours", spell.ice_seconds, "hours"),
            share=as_told(f"{view.place}.spell.ice_share", spell.ice_share, "share"),
        ),
        remedy=_against_ice(view, 1.0),
    )


@rule("spell-ice-band", weight="note", per="tank", source="practice-g-band", open=True)
def ice_in_the_spell_at_the_worse_edge(case: Case, tank: Tank) -> Find | None:
    """The contents have ice in the spell only where the losses are other than they stand."""
    view = _known(case, tank)
    if view is None:
        return None
    now = spell_of(view.inputs)
    if now is None or now.ice_seconds > 0:
        return None
    worst = max(
        (spell for edge in EDGES[1:] if (spell := spell_of(view.inputs, edge)) is not None),
        key=lambda spell: spell.ice_seconds,
        default=None,
    )
    if worst is None or worst.ice_seconds <= 0:
        return None
    return find(
        text=words(
            "with losses a quarter worse, ice for {hours} of the spell, {share} of it at the most",
            hours=as_told(f"{view.place}.spell.ice_hours", worst.ice_seconds, "hours"),
            share=as_told(f"{view.place}.spell.ice_share", worst.ice_share, "share"),
        ),
        remedy=_against_ice(view, EDGES[2]),
    )


@rule("bay-freezes", weight="use", per="bay", source="job-bay", open=True)
def water_in_a_bay_freezes(case: Case, bay: Bay) -> Find | None:
    """A bay with water pipes in it is at 0 °C or below at the design low."""
    low = case.value(f"bay.{bay.id}.low")
    if not bay.water or low is None or low > 0 or why_impossible(case, bay_slots(case.profile, bay.id)):
        return None
    design = case.profile.design
    node = bay_balance(case.profile, bay)
    watts = heat_to_reach(node, 0.0, cabin_degc=design.cabin_degc, out_degc=design.low_degc)
    remedy = words(
        "more than {watts} of heat into it in all, {more} over what is put in",
        watts=at_least(watts, "power"),
        more=at_least(watts - bay.heat, "power"),
    )
    lost = node.floor * design.cabin_degc + node.heat
    pan = lost / -design.low_degc - node.leak if design.low_degc < 0 else 0.0
    if pan > 0:
        insulation = bay.area / pan - 1 / STILL_FILM - 1 / outer_film_in_wind(design.wind)
        remedy = joined(
            remedy, words("or more than {pan} in its pan", pan=at_least(insulation, "insulation"))
        )
    remedy = joined(remedy, words("or its pipes drained"))
    return find(
        text=words(
            "water in it, and {low} at the design low", low=as_told(f"bay.{bay.id}.low", low, "temperature")
        ),
        remedy=remedy,
    )


@rule("cold-towing", weight="note", per="tank", source="job-heat")
def heaters_do_not_hold_on_the_road(case: Case, tank: Tank) -> Find | None:
    """On the road the heaters hold a tank in the open only above the design low."""
    view = _known(case, tank)
    value = view.heat.towing.value if view is not None else None
    if view is None or value is None or value <= view.inputs.low_degc + SAME:
        return None
    return find(
        text=words(
            "on the road it is held only down to {road}; the design low is {low}",
            road=as_told(f"{view.place}.holds_to_towing", value, "temperature"),
            low=quantity(view.inputs.low_degc, "temperature"),
        ),
        remedy=words(
            "empty on the road below {road}, or with antifreeze in it, its trap and its drain",
            road=at_least(value, "temperature"),
        ),
    )


def _known(case: Case, tank: Tank) -> TankView | None:
    """The tank's view, or None where its readings contradict each other."""
    view = tank_view(case, tank)
    return None if why_impossible(case, view.whole) else view


def _drain_heat(case: Case, drain: Drain):
    """A heated drain's results, None where it has no heater or its readings contradict; and its inputs."""
    view = drain_view(case, drain)
    if not view.heaters or why_impossible(case, view.whole):
        return None, view.inputs
    return view.heat, view.inputs


def _cold_tank(view: TankView) -> Find:
    heat, inputs = view.heat, view.inputs
    needed = heat.needed.value or 0.0
    given = (
        words(
            "its heaters give {delivered} of the {needed} that it needs at {low}",
            delivered=quantity(heat.delivered, "power"),
            needed=quantity(needed, "power"),
            low=quantity(inputs.low_degc, "temperature"),
        )
        if inputs.pads
        else words(
            "it has no heater and needs {needed} at {low}",
            needed=quantity(needed, "power"),
            low=quantity(inputs.low_degc, "temperature"),
        )
    )
    more = more_heat_words(
        inputs, level=heat.contents_level, delivered=heat.delivered, lacking=needed - heat.delivered
    )
    return find(place=view.place, text=given, remedy=joined(more, limit_of_use_words(heat.holds_to.value)))


def _against_ice(view: TankView, edge: float) -> Words:
    """Heat that keeps the spell's coldest hour from freezing, steadily: more than just enough."""
    heat, inputs = view.heat, view.inputs
    coldest = heat.follows.at(min(inputs.course.degc))
    lacking = heat.conductance.whole * edge * -coldest - heat.delivered
    if lacking <= 0:
        return words("it begins too cold, or its thermostats come on too late: warmer contents at the start")
    return words(
        "{watts} more at its pads keep its coldest hour from freezing, or empty in such a spell",
        watts=at_least(watts_more(inputs, lacking), "power"),
    )

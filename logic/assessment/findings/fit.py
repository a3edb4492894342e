"""Rules about how a heater lies: whether it fits, by how much, and how far from the outlet."""

from math import pi

from logic.assessment.case import Case
from logic.assessment.findings.rule import Find, find, rule
from logic.assessment.fit_remedies import better_place, nearer_place, smaller_pads
from logic.assessment.pad_clearance import pad_clearance, slots_of_fit
from logic.assessment.shared import NoPlace
from logic.data.profile import Drain, Heater, Tank
from logic.data.reading_constants import FAR_FROM_OUTLET, TIGHT_K
from logic.data.wording import Words, at_most, quantity, words
from logic.physics.placement import TOUCH
from logic.physics.uncertainty import chance_above_zero


@rule("pad-fit", weight="stop", per="heater", source="practice-placing", open=True)
def heater_does_not_fit(case: Case, heater: Heater) -> Find | None:
    """A pad with no place or a clearance below 0; a side pad over its wall; a wrap over its pipe."""
    if heater.face == "wrap":
        drain = case.drains.get(heater.on)
        return None if drain is None else _wrap_over_pipe(heater, drain)
    tank = case.tanks.get(heater.on)
    if tank is None:
        return None
    if heater.face == "side":
        return _side_pad_over_wall(heater, tank)
    return _bottom_pad_over(case, heater)


def _bottom_pad_over(case: Case, heater: Heater) -> Find | None:
    if _unknown(case, heater):
        return None
    place = case.places[heater.id]
    if isinstance(place, NoPlace):
        return find(
            text=_no_place(heater, place),
            remedy=smaller_pads(case, heater),
        )
    clearance = pad_clearance(case, heater)
    if clearance is None or clearance.value >= -TOUCH:
        return None
    return find(
        text=words(
            "pad {pad} lies over {against} by {over}",
            pad=heater.id,
            against=clearance.against,
            over=quantity(-clearance.value, "length"),
        ),
        remedy=better_place(case, heater),
    )


def _no_place(heater: Heater, place: NoPlace) -> Words:
    if place.over is None:
        return words("pad {pad} has no place, nor has any other", pad=heater.id)
    return words(
        "pad {pad} has no place: over by {over} at the best",
        pad=heater.id,
        over=quantity(place.over, "length"),
    )


def _side_pad_over_wall(heater: Heater, tank: Tank) -> Find | None:
    upright, level = (heater.length, heater.width) if heater.turned else (heater.width, heater.length)
    wall = max(tank.length, tank.width)
    over_top, over_end = heater.foot + upright - tank.height, level - wall
    if over_top <= TOUCH and over_end <= TOUCH:
        return None
    if over_top > TOUCH:
        text = words(
            "pad {pad} passes its tank's height by {over}", pad=heater.id, over=quantity(over_top, "length")
        )
    else:
        text = words(
            "pad {pad} is longer than the longer wall by {over}",
            pad=heater.id,
            over=quantity(over_end, "length"),
        )
    turned_fits = heater.foot + level <= tank.height + TOUCH and upright <= wall + TOUCH
    lower_fits = over_end <= TOUCH and upright <= tank.height + TOUCH
    if turned_fits:
        remedy = words("turned, it fits")
    elif lower_fits:
        remedy = words("its foot at {foot} or lower", foot=at_most(tank.height - upright, "length"))
    else:
        remedy = words(
            "one of at most {level} along the wall and {upright} upright",
            level=at_most(min(level, wall), "length"),
            upright=at_most(max(min(upright, tank.height - heater.foot), 0.0), "length"),
        )
    return find(text=text, remedy=remedy)


def _wrap_over_pipe(heater: Heater, drain: Drain) -> Find | None:
    around = pi * drain.outside
    if heater.length > drain.length + TOUCH:
        return find(
            text=words(
                "wrap {wrap} is longer than its drain by {over}",
                wrap=heater.id,
                over=quantity(heater.length - drain.length, "length"),
            ),
            remedy=words("one of at most {length}", length=at_most(drain.length, "length")),
        )
    if heater.width > around + TOUCH:
        return find(
            text=words(
                "wrap {wrap} overlaps itself by {over} around its pipe",
                wrap=heater.id,
                over=quantity(heater.width - around, "length"),
            ),
            remedy=words("one of at most {around} in width", around=at_most(around, "length")),
        )
    return None


@rule("pad-far", weight="note", per="heater", source="practice-placing", open=True)
def pad_far_from_outlet(case: Case, heater: Heater) -> Find | None:
    """The pad's edge is over 12 in from the outlet's: the outlet freezes first."""
    to_outlet = case.value(f"heater.{heater.id}.to_outlet")
    if to_outlet is None or to_outlet <= FAR_FROM_OUTLET + TOUCH:
        return None
    return find(
        text=words(
            "pad {pad} lies {distance} from the outlet", pad=heater.id, distance=quantity(to_outlet, "length")
        ),
        remedy=nearer_place(case, heater, to_outlet=to_outlet),
    )


@rule("pad-tight", weight="use", per="heater", source="practice-tight", session=True, open=True)
def pad_fits_by_little(case: Case, heater: Heater) -> Find | None:
    """The pad clears, but by less than twice what its clearance is uncertain by."""
    if heater.face != "bottom" or _unknown(case, heater):
        return None
    place, clearance = case.places[heater.id], pad_clearance(case, heater)
    if isinstance(place, NoPlace) or clearance is None or clearance.u is None:
        return None
    if clearance.value < -TOUCH or clearance.value >= TIGHT_K * clearance.u:
        return None
    return find(
        text=words(
            "pad {pad} clears {against} by {clearance}, known to {u}: it fits with {chance}",
            pad=heater.id,
            against=clearance.against,
            clearance=quantity(clearance.value, "length"),
            u=quantity(clearance.u, "small_length"),
            chance=quantity(chance_above_zero(clearance.value, u=clearance.u), "share"),
        ),
        remedy=better_place(case, heater)
        if place.given
        else words("read again, to finer marks, what its place hangs on"),
    )


def _unknown(case: Case, heater: Heater) -> bool:
    """Whether a reading that contradicts another value leaves nothing to be said on the fit."""
    return any(case.impossible(slot) for slot in slots_of_fit(case, heater))

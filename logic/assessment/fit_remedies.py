"""What would mend a pad that doesn't lie right: another place, turned, a smaller pad, or two in parallel.

Two smaller pads in parallel add their watts; at the same watts for each area, as the pad at hand has them.
"""

from logic.assessment.case import Case
from logic.assessment.fit_case import bottom_with_others
from logic.assessment.shared import Place
from logic.data.constants import MOST_PADS_BESIDE
from logic.data.profile import Heater
from logic.data.reading_constants import FAR_FROM_OUTLET
from logic.data.wording import Words, at_most, quantity, words
from logic.physics.clearance import outlet_gap
from logic.physics.pad_sizes import largest_pad_like, two_smaller
from logic.physics.placement import SAME, best_spot

NO_NEARER = words("no nearer place keeps its margins: a smaller pad may, or heat on the outlet's own pipe")


def better_place(case: Case, heater: Heater) -> Words:
    """Where this pad would lie clear of everything, or what would fit in its stead."""
    bottom, _ = bottom_with_others(case.tanks[heater.on], case.places, heater)
    spot = best_spot(bottom, length=heater.length, width=heater.width)
    if spot is None:
        return smaller_pads(case, heater)
    return words(
        "its corner at x {x}, y {y}, {way}, is clear",
        x=quantity(spot.x, "length"),
        y=quantity(spot.y, "length"),
        way="turned" if spot.turned else "unturned",
    )


def nearer_place(case: Case, heater: Heater, *, to_outlet: float) -> Words:
    """Where this pad would lie nearer to the outlet than `to_outlet` [m], and clear of everything."""
    place = case.places[heater.id]
    if isinstance(place, Place) and not place.given:
        return NO_NEARER  # the program put it where it lies nearest, and pads put there after it leave no more room
    bottom, others = bottom_with_others(case.tanks[heater.on], case.places, heater)
    if len(others) >= MOST_PADS_BESIDE:
        return words(
            "a nearer place isn't looked for among more than {most} pads on one bottom",
            most=quantity(MOST_PADS_BESIDE, "count"),
        )
    spot = best_spot(bottom, length=heater.length, width=heater.width)
    if spot is None or bottom.outlet is None:
        return NO_NEARER
    gap = outlet_gap(spot.area, bottom.outlet).value
    if gap >= to_outlet - SAME:
        return NO_NEARER
    better = better_place(case, heater)
    if gap <= FAR_FROM_OUTLET:
        return better
    return Words(
        f"{better.template}, and as near as it can lie: {{gap}} off",
        (*better.parts, ("gap", quantity(gap, "length"))),
    )


def smaller_pads(case: Case, heater: Heater) -> Words:
    """The largest pad like this one that fits, or two in parallel, their watts beside the watts needed."""
    bottom, _ = bottom_with_others(case.tanks[heater.on], case.places, heater)
    one = largest_pad_like(bottom, length=heater.length, width=heater.width)
    two = two_smaller(bottom, length=heater.length, width=heater.width)
    if one is None:
        return words("no pad fits beside what is there: another face, or another tank's bottom")
    share = one[0] * one[1] / (heater.length * heater.width)
    parts = {
        "length": at_most(one[0], "length"),
        "width": at_most(one[1], "length"),
        "watts": quantity(share * heater.watts, "power"),
    }
    text = "one of {length} by {width} would fit, {watts} at the same watts for each area"
    if two is not None and two.share > share:
        text = (
            "two in parallel of {two_length} by {two_width} would fit, {two_watts} together; "
            "or one of {length} by {width}, {watts}"
        )
        parts |= {
            "two_length": at_most(two.length, "length"),
            "two_width": at_most(two.width, "length"),
            "two_watts": quantity(two.share * heater.watts, "power"),
        }
    needed = case.value(f"tank.{heater.on}.needed")
    if needed is not None:
        text += "; {needed} are needed in the tank"
        parts["needed"] = quantity(needed, "power")
    return words(text, **parts)

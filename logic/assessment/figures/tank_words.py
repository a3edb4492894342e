"""How a tank's figures are worked, with this tank's numbers, and why there is none where there is none."""

from logic.assessment.case import Case
from logic.assessment.tank_view import TankView
from logic.data.constants import LEAST_COVER
from logic.data.wording import Quantity, Words, quantity, words
from logic.physics.tank_heat import Conductances


def volume_working(view: TankView) -> Words:
    """Inside volume by the tank's shape."""
    inside = view.inputs.shape.inside()
    sizes: dict[str, Quantity | str] = {
        "length": quantity(inside.length, "length"),
        "width": quantity(inside.width, "length"),
        "height": quantity(inside.height, "length"),
    }
    if inside.kind == "box":
        return words("inside {length} × {width} × {height}", **sizes)
    if inside.kind == "slope":
        return words(
            "inside {length} × {width} × ({height} − {fall} / 2)",
            fall=quantity(inside.fall, "length"),
            **sizes,
        )
    if inside.kind == "cylinder":
        return words("π/4 × {height}² × {length} inside", **sizes)
    middle = (inside.length + inside.bottom_length) / 2 * (inside.width + inside.bottom_width) / 2
    return words(
        "{height} / 6 × ({bottom} + 4 × {middle} + {top}), inside, the middle from the mean sides",
        height=sizes["height"],
        bottom=quantity(inside.bottom_length * inside.bottom_width, "area"),
        middle=quantity(middle, "area"),
        top=quantity(inside.length * inside.width, "area"),
    )


def level_working(view: TankView) -> Words:
    """Level of the contents by the tank's shape."""
    heat, inside = view.heat, view.inputs.shape.inside()
    contents = quantity(heat.contents, "volume")
    if inside.kind == "box":
        return words(
            "{contents} over {area} of floor",
            contents=contents,
            area=quantity(inside.length * inside.width, "area"),
        )
    by = {
        "taper": "the prismoidal rule",
        "slope": "the box over the wedge of its sloped floor",
        "cylinder": "the segment of its circle",
    }
    return words(
        "the level, from the lowest point inside, that {contents} take by {rule}",
        contents=contents,
        rule=by[inside.kind],
    )


def least_working(view: TankView) -> Words:
    """Which pad asks for the most, how high it reaches, and where the tank's own gauge would mark it."""
    heat = view.heat
    asked = heat.least_asked or 0.0
    brim = view.inputs.shape.inside().height
    return words(
        "{cover} above the highest wall under its pads, at {wall}: level {level}, {share} on a gauge of its height",
        cover=quantity(LEAST_COVER, "length"),
        wall=quantity(asked - LEAST_COVER, "length"),
        level=quantity(asked, "length"),
        share=quantity(asked / brim if brim > 0 else 0.0, "share"),
    )


def least_why_not(view: TankView) -> Words:
    """Why there is no least liquid."""
    heat = view.heat
    if heat.least_fault == "pads":
        return words("it has no pads")
    if heat.least_fault == "place":
        return words("one of its pads has no place")
    return words(
        "its pads want a level of {level}; the brim is at {brim}",
        level=quantity(heat.least_asked or 0.0, "length"),
        brim=quantity(view.inputs.shape.inside().height, "length"),
    )


def conductance_working(parts: Conductances) -> Words:
    """By face."""
    return words(
        "bottom {bottom} + wet sides {wet} + dry sides {dry} + top {top}",
        bottom=quantity(parts.bottom, "conductance"),
        wet=quantity(parts.wet, "conductance"),
        dry=quantity(parts.dry, "conductance"),
        top=quantity(parts.top, "conductance"),
    )


def effective_working(case: Case, view: TankView) -> Words:
    """The mean of what its faces look at, weighted by them."""
    parts, inputs = view.heat.conductance, view.inputs
    top = parts.top if inputs.under_cabin else 0.0
    return words(
        "({rest} × {around} + {top} × {cabin}) / {whole}",
        rest=quantity(parts.whole - top, "conductance"),
        around=quantity(inputs.surroundings.at(inputs.low_degc), "temperature"),
        top=quantity(top, "conductance"),
        cabin=quantity(inputs.cabin_degc, "temperature"),
        whole=quantity(parts.whole, "conductance"),
    )


def delivered_working(view: TankView) -> Words:
    """Each pad's share of its watts, up to three of them."""
    pads, shares = view.inputs.pads, view.heat.shares
    if not pads:
        return words("no heater: {none}", none=quantity(0.0, "power"))
    parts: dict[str, Quantity | str] = {}
    terms = []
    for number, (pad, share) in enumerate(zip(pads, shares, strict=True)):
        terms.append(f"{{share{number}}} of {{watts{number}}}")
        parts[f"share{number}"] = quantity(share, "share")
        parts[f"watts{number}"] = quantity(pad.watts or 0.0, "power")
    return words(" + ".join(terms), **parts)


def no_ice(view: TankView, *, empty: bool = True) -> Words:
    """Why the contents never freeze."""
    if empty and view.heat.contents <= 0:
        return words("no contents")
    return words(
        "never: at the design low it drifts to {effective}",
        effective=quantity(view.heat.effective_degc, "temperature"),
    )

"""Figures of where a bottom pad lies: x, y, turned, clearance, to_outlet, u_clearance.

Side pads and wraps have none of these; whether they fit is a matter of the finding `pad-fit`.
"""

from collections.abc import Iterator

from logic.assessment.case import Case
from logic.assessment.figure_builder import build_figure
from logic.assessment.pad_clearance import PadClearance, pad_clearance, slots_of_fit
from logic.assessment.shared import NoPlace, Place
from logic.data.figure import Figure
from logic.data.profile import Heater
from logic.data.reading_constants import FAR_FROM_OUTLET
from logic.data.wording import Words, quantity, words
from logic.physics.pad_sizes import LEAST_SIDE
from logic.physics.placement import CLEAR_MARGIN, EDGE_MARGIN, TOUCH

PLACING = ("practice-placing",)
GAPS = ("practice-placing",)
FIRST_ORDER = ("jcgm-100",)

NOT_PLACED = words("only a pad on the bottom is given a place")


def figures(case: Case) -> Iterator[Figure]:
    """The rows of fit of every heater, in the profile's order."""
    for heater in case.profile.heaters:
        yield from _of_heater(case, heater)


def _of_heater(case: Case, heater: Heater) -> list[Figure]:
    if heater.face != "bottom" or heater.on not in case.tanks:
        return _without(case, heater, NOT_PLACED)
    slots = slots_of_fit(case, heater)
    impossible = next((why for slot in slots if (why := case.impossible(slot))), "")
    if impossible:
        return _without(
            case, heater, words("its readings contradict each other: {why}", why=impossible), slots
        )
    place = case.places[heater.id]
    if isinstance(place, NoPlace):
        return _without(case, heater, why_no_place(place), slots)
    clearance = pad_clearance(case, heater)
    assert clearance is not None
    return [
        *_corner(case, heater, place, slots),
        _clearance(case, heater, clearance, slots),
        _to_outlet(case, heater, clearance, slots),
        _u_clearance(case, heater, clearance, slots),
    ]


TITLES = {
    "x": "pad's corner, along",
    "y": "pad's corner, across",
    "turned": "length lies across",
    "clearance": "pad clears by",
    "to_outlet": "pad to outlet",
    "u_clearance": "uncertainty of clearance",
}
UNITS = {"turned": "1"}


def _without(case: Case, heater: Heater, why_not: Words, slots: tuple[str, ...] = ()) -> list[Figure]:
    return [
        build_figure(
            case,
            f"heater.{heater.id}.{name}",
            title=title,
            unit=UNITS.get(name, "m"),
            value=None,
            working=words("no place on a bottom"),
            sources=PLACING,
            slots=slots,
            why_not=why_not,
        )
        for name, title in TITLES.items()
    ]


def why_no_place(place: NoPlace) -> Words:
    """Why a pad has no place: by how much the best try is over, and what would fit."""
    if place.fits is None or place.over is None:
        return words(
            "nothing of {least} and more has a place beside what is there",
            least=quantity(LEAST_SIDE, "length"),
        )
    return words(
        "no place keeps its margins: the best try is over by {over}; {length} by {width} would fit",
        over=quantity(place.over, "length"),
        length=quantity(place.fits[0], "length"),
        width=quantity(place.fits[1], "length"),
    )


def _corner(case: Case, heater: Heater, place: Place, slots: tuple[str, ...]) -> list[Figure]:
    margins = {"edge": quantity(EDGE_MARGIN, "length"), "clear": quantity(CLEAR_MARGIN, "length")}
    how = (
        words("as given or marked out, from the bottom's corner at 0, 0")
        if place.given
        else words("nearest to the outlet with {edge} to the edges and {clear} to all else", **margins)
    )
    found = []
    for name, value in (("x", place.x), ("y", place.y)):
        slot = f"heater.{heater.id}.{name}"
        found.append(
            build_figure(
                case,
                slot,
                title=TITLES[name],
                unit="m",
                value=value,
                working=how,
                sources=PLACING,
                slots=(slot,) if place.given else slots,
                slopes=((slot, 1.0),) if place.given else (),
            )
        )
    found.append(
        build_figure(
            case,
            f"heater.{heater.id}.turned",
            title=TITLES["turned"],
            unit="1",
            value=1.0 if place.turned else 0.0,
            working=how,
            sources=PLACING,
            slots=() if place.given else slots,
        )
    )
    return found


def _clearance(case: Case, heater: Heater, clearance: PadClearance, slots: tuple[str, ...]) -> Figure:
    return build_figure(
        case,
        f"heater.{heater.id}.clearance",
        title=TITLES["clearance"],
        unit="m",
        value=clearance.value,
        working=words(
            "the least distance, {value}, is to {against}",
            value=quantity(clearance.value, "length"),
            against=clearance.against,
        ),
        sources=GAPS,
        slots=slots,
        slopes=clearance.slopes,
        holds=clearance.value >= -TOUCH,
        limit=words("0 or more"),
    )


def _to_outlet(case: Case, heater: Heater, clearance: PadClearance, slots: tuple[str, ...]) -> Figure:
    value = clearance.to_outlet
    return build_figure(
        case,
        f"heater.{heater.id}.to_outlet",
        title=TITLES["to_outlet"],
        unit="m",
        value=value,
        working=words("edge of pad to edge of outlet, straight line"),
        sources=GAPS,
        slots=slots,
        slopes=clearance.outlet_slopes,
        why_not=words("the tank has no outlet on its bottom"),
        holds=None if value is None else value <= FAR_FROM_OUTLET + TOUCH,
        limit=words("at most {far}", far=quantity(FAR_FROM_OUTLET, "length")),
    )


def _u_clearance(case: Case, heater: Heater, clearance: PadClearance, slots: tuple[str, ...]) -> Figure:
    read = tuple(slot for slot, _ in clearance.slopes if case.u_read(slot) is not None)
    return build_figure(
        case,
        f"heater.{heater.id}.u_clearance",
        title=TITLES["u_clearance"],
        unit="m",
        value=clearance.u,
        working=words("first order, from {count} readings of it", count=quantity(len(read), "count")),
        sources=FIRST_ORDER,
        slots=slots,
        why_not=words("both sides of the pad want reading first"),
    )

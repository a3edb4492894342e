"""A tank's bottom as it is seen from below: what lies where, for the drawing on the screen and on the sheet.

Plain rectangles and circles in metres. Seen from below, with the front of the vehicle to the left, the street
side is at the top, whichever corner the rig measures from: what a person sees who lies under it.
"""

import msgspec

from logic.data.figure import Figure
from logic.data.profile import Tank
from logic.data.state import Assessment


class Box(msgspec.Struct, frozen=True):
    """A rectangle on the drawing, by its top left corner. m"""

    kind: str  # pad | keepout
    id: str  # the heater's id; the keep-out's number
    label: str
    x: float
    y: float
    length: float
    width: float
    clearance: float | None = None  # a pad's least distance, as its figure has it. m
    to_outlet: float | None = None  # m


class Circle(msgspec.Struct, frozen=True):
    """The outlet. m"""

    x: float
    y: float
    radius: float


class BottomPlan(msgspec.Struct, frozen=True):
    tank: str
    length: float  # of the bottom, along the vehicle
    width: float  # across
    boxes: tuple[Box, ...]
    outlet: Circle | None
    origin: tuple[float, float]  # where the corner of x = 0, y = 0 lies on the drawing
    homeless: tuple[str, ...]  # bottom pads that have no place


def bottom_size(tank: Tank) -> tuple[float, float]:
    """Length and width of the outside bottom. m"""
    if tank.shape == "taper" and tank.bottom_length is not None and tank.bottom_width is not None:
        return tank.bottom_length, tank.bottom_width
    return tank.length, tank.width


def bottom_plan(assessment: Assessment, tank_id: str) -> BottomPlan:
    """The plan of a tank's bottom, with the pads where the assessment has them. KeyError: no such tank."""
    tank = next((each for each in assessment.profile.tanks if each.id == tank_id), None)
    if tank is None:
        raise KeyError(tank_id)
    values = {figure.id: figure for figure in assessment.figures}
    length, width = bottom_size(tank)
    mirror_x, mirror_y = tank.origin.startswith("rear"), tank.origin.endswith("curb")

    def placed(x: float, y: float, along: float, across: float) -> tuple[float, float]:
        return (length - x - along if mirror_x else x, width - y - across if mirror_y else y)

    boxes = []
    for number, keepout in enumerate(tank.keepout, start=1):
        x, y = placed(keepout.x, keepout.y, keepout.length, keepout.width)
        label = keepout.why or "keep out"
        boxes.append(Box("keepout", str(number), label, x, y, keepout.length, keepout.width))
    homeless = []
    for heater in assessment.profile.heaters:
        if heater.on != tank_id or heater.face != "bottom":
            continue
        at = [_value(values, f"heater.{heater.id}.{row}") for row in ("x", "y", "turned")]
        if at[0] is None or at[1] is None:
            homeless.append(heater.id)
            continue
        along, across = (heater.width, heater.length) if at[2] else (heater.length, heater.width)
        x, y = placed(at[0], at[1], along, across)
        boxes.append(
            Box(
                "pad",
                heater.id,
                heater.id,
                x,
                y,
                along,
                across,
                clearance=_value(values, f"heater.{heater.id}.clearance"),
                to_outlet=_value(values, f"heater.{heater.id}.to_outlet"),
            )
        )
    outlet = None
    if tank.outlet is not None:
        x, y = placed(tank.outlet.x, tank.outlet.y, 0.0, 0.0)
        outlet = Circle(x, y, tank.outlet.diameter / 2)
    return BottomPlan(
        tank=tank_id,
        length=length,
        width=width,
        boxes=tuple(boxes),
        outlet=outlet,
        origin=placed(0.0, 0.0, 0.0, 0.0),
        homeless=tuple(homeless),
    )


def _value(figures: dict[str, Figure], figure_id: str) -> float | None:
    figure = figures.get(figure_id)
    return figure.value if figure is not None else None

"""A rig with values of its slots in place of the profile's, and which of them can't be true together."""

import copy
from types import SimpleNamespace

from tests.independent.volumes import inside_height

MOST_OFF = 1e-12  # of a length, where floats of equal ones differ
OF_SHAPE = {"taper": ("bottom_length", "bottom_width"), "slope": ("fall",)}


def tape_slots(rig):
    """slot → the profile's value in m (None: it has none), for all that a tape reads."""
    slots: dict[str, float | None] = {}
    for tank in rig.tanks.values():
        place, own = (
            f"tank.{tank.id}",
            ["length", across(tank), "height", "wall", *OF_SHAPE.get(tank.shape, ())],
        )
        slots |= {f"{place}.{name}": getattr(tank, name) for name in own}
        slots[f"{place}.level"] = None
        if tank.outlet:
            slots |= {f"{place}.outlet.{name}": getattr(tank.outlet, name) for name in ("x", "y")}
        for n, keepout in enumerate(tank.keepout, 1):
            names = ("x", "y", "length", "width")
            slots |= {f"{place}.keepout.{n}.{name}": getattr(keepout, name) for name in names}
    for drain in rig.drains.values():
        slots |= {f"drain.{drain.id}.{name}": getattr(drain, name) for name in ("length", "outside")}
    for heater in rig.heaters.values():
        slots |= {f"heater.{heater.id}.{name}": getattr(heater, name) for name in ("length", "width")}
        if heater.face == "bottom":
            slots |= {
                f"heater.{heater.id}.{name}": getattr(heater.at, name) if heater.at else None for name in "xy"
            }
    for run in rig.runs.values():
        slots |= {f"run.{run.id}.{name}": getattr(run, name) for name in ("length", "fuse_at")}
    return slots


def decides(rig, slot):
    """Whether it wants two readings."""
    kind, place, name = slot.split(".", 2)
    if kind == "run":
        return name == "length" and rig.runs[place].length > 0
    if kind == "heater":
        return name in ("length", "width") and rig.heaters[place].face != "wrap"
    own = ("length", "width", "height", "outlet.x", "outlet.y")
    return kind == "tank" and name in own + OF_SHAPE.get(rig.tanks[place].shape, ())


def with_values(rig, values):
    """The rig with these values of its slots, in m; `x` and `y` of a pad only both together or over its `at`."""
    changed = copy.deepcopy(rig)
    for slot, value in values.items():
        kind, place, name = slot.split(".", 2)
        if kind == "tank":
            set_tank(changed.tanks[place], name, value)
        elif kind == "drain":
            setattr(changed.drains[place], name, value)
        elif kind == "run":
            setattr(changed.runs[place], name, value)
        elif name in ("x", "y"):
            heater = changed.heaters[place]
            if heater.at is None:
                heater.at = SimpleNamespace(x=None, y=None)
            setattr(heater.at, name, value)
        else:
            setattr(changed.heaters[place], name, value)
    return changed


def set_tank(tank, name, value):
    part, _, inner = name.partition(".")
    if part == "outlet":
        setattr(tank.outlet, inner, value)
    elif part == "keepout":
        n, _, side = inner.partition(".")
        setattr(tank.keepout[int(n) - 1], side, value)
    elif part != "level":
        setattr(tank, name, value)
        if tank.shape == "cylinder" and name == "height":
            tank.width = value
        if tank.shape != "taper" and name in ("length", "width", "height"):
            tank.bottom_length, tank.bottom_width = tank.length, tank.width


def contradictions(rig):
    """Sets of slots that can't be true together as they stand, as the format's errors of a profile have them.

    rig : with every value in place.
    """
    for tank in rig.tanks.values():
        yield from in_tank(tank)
    for drain in rig.drains.values():
        if drain.inside >= drain.outside:
            yield {f"drain.{drain.id}.outside"}
    for bay in rig.bays.values():
        under = [one for one in rig.tanks.values() if one.place == bay.id and one.above == "cabin"]
        if sum(one.length * one.width for one in under) > bay.area + MOST_OFF:
            yield {f"tank.{one.id}.{side}" for one in under for side in ("length", across(one))}


def across(tank):
    return "height" if tank.shape == "cylinder" else "width"


def in_tank(tank):
    place = f"tank.{tank.id}"
    edges = {"length", "height", across(tank)}
    edges |= {"bottom_length", "bottom_width"} if tank.shape == "taper" else set()
    for edge in edges:
        if 2 * tank.wall >= getattr(tank, edge) - MOST_OFF:
            yield {f"{place}.wall", f"{place}.{edge}"}
    if tank.shape == "slope" and tank.fall >= tank.height - 2 * tank.wall - MOST_OFF:
        yield {f"{place}.fall", f"{place}.height", f"{place}.wall"}


def too_high(rig, values):
    """Slots of levels over the inside height."""
    return {
        slot
        for slot, value in values.items()
        if slot.endswith(".level") and value > inside_height(rig.tanks[slot.split(".")[1]]) + MOST_OFF
    }

"""Checks of bays, tanks, drains and heaters: what hangs on more than one key, or on another part."""

from collections.abc import Iterable

from logic.data.constants import WALL_CONDUCTIVITY
from logic.data.faults import FaultList, shown
from logic.data.profile import Bay, Drain, Heater, Keepout, Outlet, Position, Tank, Thermostat
from logic.data.profile_keys import BAY, DRAIN, HEATER, TANK, Section
from logic.data.profile_reading import Part, Values

# Two lengths that are to be the same, one in inches and one in millimetres, may differ by a rounding. [m]
SAME_LENGTH = 1e-9


def _complete(values: Values, section: Section) -> bool:
    return all(key.name in values for key in section.keys)


def ids_of(parts: Iterable[Part]) -> list[str]:
    """What a reference may say; an id that is itself at fault is found once, not again at each reference."""
    return [part.stated for part in parts]


def check_reference(
    found: str, known: list[str], faults: FaultList, *, path: str, what: str, words: tuple[str, ...] = ()
) -> bool:
    """Whether a reference leads to a part, or is a word that may stand in its place; else a fault."""
    if found in words or found in known:
        return True
    listed = ", ".join([*words, *known][:20])
    near = faults.near(found, [*words, *known])
    faults.add(
        path, found=f"{shown(found)}, which is nowhere", expected=f"{what}: {listed or 'there is none'}{near}"
    )
    return False


def check_bays(parts: Iterable[Part]) -> tuple[Bay, ...]:
    """The bays that are complete; a single key's faults are in the list already."""
    return tuple(
        Bay(**{key.name: part.values[key.name] for key in BAY.keys})
        for part in parts
        if _complete(part.values, BAY)
    )


# --- tanks ---


def check_tanks(parts: list[Part], bays: list[Part], faults: FaultList) -> tuple[Tank, ...]:
    """The tanks that are complete; faults of shape, place and room in a bay go to `faults`."""
    tanks = []
    for part in parts:
        _check_shape(part, faults)
        if part.values.have("place"):
            check_reference(
                part.values["place"], ids_of(bays), faults,
                path=f"{part.path}.place", what="open, inside, or a bay", words=("open", "inside"),
            )  # fmt: skip
        tank = _tank(part.values)
        if tank is not None:
            tanks.append(tank)
    _check_room_in_bays(parts, bays, faults)
    return tuple(tanks)


def _check_shape(part: Part, faults: FaultList) -> None:
    values, path = part.values, part.path
    shape = values.get("shape")
    edges = [values[name] for name in ("length", "width", "height") if values.have(name)]
    if shape == "taper":
        edges += [values[name] for name in ("bottom_length", "bottom_width") if values.have(name)]
    if values.have("wall") and edges and values["wall"] >= min(edges) / 2 - 1e-12:
        faults.add(
            f"{path}.wall",
            found="half an edge of the tank or more",
            expected="a wall under half of each edge",
        )
    is_cylinder = shape == "cylinder" and values.have("width", "height")
    if is_cylinder and abs(values["width"] - values["height"]) > SAME_LENGTH:
        wanted_height = "height = width, a cylinder's diameter"
        faults.add(f"{path}.height", found="another length than width", expected=wanted_height)
    is_slope = shape == "slope" and values.have("fall", "height", "wall")
    if is_slope and values["fall"] >= values["height"] - 2 * values["wall"] - 1e-12:
        faults.add(
            f"{path}.fall", found="the inside height or more", expected="a fall under the inside height"
        )


def _check_room_in_bays(parts: list[Part], bays: list[Part], faults: FaultList) -> None:
    for bay in bays:
        if not bay.id or not bay.values.have("area"):
            continue
        tops = [
            part.values["length"] * part.values["width"]
            for part in parts
            if part.values.get("place") == bay.id
            and part.values.get("above") == "cabin"
            and part.values.have("length", "width")
        ]
        if sum(tops) > bay.values["area"] * (1 + 1e-12):
            faults.add(
                f"{bay.path}.area",
                found="less than the tops of its tanks under the cabin's floor",
                expected="the area of the floor, its tanks' tops included",
            )


def _tank(values: Values) -> Tank | None:
    if not _complete(values, TANK):
        return None
    outlet = values["outlet"]
    if outlet is not None and not outlet.have("x", "y", "diameter"):
        return None
    keepouts = values["keepout"]
    if not all(keepout.have("x", "y", "length", "width", "why") for keepout in keepouts):
        return None
    own = ("outlet", "keepout", "wall_conductivity", "wall_limit")
    fields = {key.name: values[key.name] for key in TANK.keys if key.name not in own}
    conductivity = values["wall_conductivity"]
    return Tank(
        **fields,
        wall_conductivity=WALL_CONDUCTIVITY[values["material"]] if conductivity is None else conductivity,
        wall_limit_degc=values["wall_limit"],
        outlet=None if outlet is None else Outlet(**outlet),
        keepout=tuple(Keepout(**keepout) for keepout in keepouts),
    )


# --- drains ---


def check_drains(
    parts: list[Part], tanks: list[Part], bays: list[Part], faults: FaultList
) -> tuple[Drain, ...]:
    """The drains that are complete; faults of size and reference go to `faults`."""
    by_id = {tank.id: tank for tank in tanks if tank.id}
    drains = []
    for part in parts:
        values, path = part.values, part.path
        if values.have("tank"):
            check_reference(values["tank"], ids_of(tanks), faults, path=f"{path}.tank", what="a tank")
        if values.have("place"):
            check_reference(
                values["place"], ids_of(bays), faults,
                path=f"{path}.place", what="open, inside, or a bay", words=("open", "inside"),
            )  # fmt: skip
        if values.have("inside", "outside") and values["inside"] >= values["outside"]:
            faults.add(f"{path}.inside", found="the outside diameter or more", expected="less than outside")
        tank = by_id.get(values.get("tank", ""))
        place = values.get("place") or (tank.values.get("place") if tank else None)
        if not _complete(values, DRAIN) or place is None:
            continue
        fields = {key.name: values[key.name] for key in DRAIN.keys if key.name != "place"}
        drains.append(Drain(**fields, place=place, wall_conductivity=WALL_CONDUCTIVITY[values["material"]]))
    return tuple(drains)


# --- heaters ---


def check_heaters(
    parts: list[Part], tanks: list[Part], drains: list[Part], faults: FaultList
) -> tuple[Heater, ...]:
    """The heaters that are complete; faults of place and thermostat go to `faults`."""
    heaters = []
    for part in parts:
        _check_seat(part, ids_of(tanks), ids_of(drains), faults)
        _check_thermostat(part, faults)
        heater = _heater(part.values)
        if heater is not None:
            heaters.append(heater)
    return tuple(heaters)


def _check_seat(part: Part, tanks: list[str], drains: list[str], faults: FaultList) -> None:
    values, path = part.values, part.path
    if not values.have("on"):
        return
    seat = values["on"]
    if not check_reference(seat, [*tanks, *drains], faults, path=f"{path}.on", what="a tank or a drain"):
        return
    if seat in tanks and seat in drains:
        both = "an id that a tank or a drain has, not both"
        faults.add(f"{path}.on", found=f"{shown(seat)}, the id of a tank and of a drain", expected=both)
        return
    face = values.get("face")
    if face == "wrap" and seat not in drains:
        faults.add(
            f"{path}.face", found="a wrap on a tank", expected='"bottom" or "side": a wrap goes round a drain'
        )
    if face in ("bottom", "side") and seat not in tanks:
        faults.add(
            f"{path}.face", found=f"a {face} pad on a drain", expected='"wrap": a drain has no such face'
        )


def _check_thermostat(part: Part, faults: FaultList) -> None:
    thermostat = part.values.get("thermostat")
    if thermostat is None:
        return
    path = f"{part.path}.thermostat"
    if thermostat.have("on") and thermostat["on"] <= 0.0:
        faults.add(
            f"{path}.on", found="0 degC (32 degF) or below", expected="a temperature over 0 degC (32 degF)"
        )
    if thermostat.have("on", "off") and thermostat["off"] <= thermostat["on"]:
        faults.add(f"{path}.off", found="a temperature not over on", expected="a temperature over on")


def _heater(values: Values) -> Heater | None:
    if not _complete(values, HEATER):
        return None
    at, thermostat = values["at"], values["thermostat"]
    if at is not None and not at.have("x", "y"):
        return None
    if thermostat is not None and not thermostat.have("on", "off"):
        return None
    own = ("at", "thermostat", "least_surface")
    fields = {key.name: values[key.name] for key in HEATER.keys if key.name not in own}
    return Heater(
        **fields,
        least_surface_degc=values["least_surface"],
        at=None if at is None else Position(at["x"], at["y"]),
        thermostat=None if thermostat is None else Thermostat(thermostat["on"], thermostat["off"]),
    )

"""Every slot of a profile: what a reading may fill, in what unit a bare number is, and whether it decides.

A slot's id stands as in the program's format (`tank.galley.outlet.x`). Nothing here knows a reading.
"""

from functools import lru_cache

import msgspec

from logic.data.profile import Drain, Heater, Profile, Run, Tank

TAPE, METER, WEATHER = "tape", "meter", "weather"
SIZE, POSITION, SIGNED = "over 0", "0 or more", "any"


class Slot(msgspec.Struct, frozen=True):
    id: str
    place: str  # tank.galley | supply | meter | work
    title: str  # outlet x
    kind: str  # length | route | temperature | volts | amps | ohms | share: how it is printed
    family: str  # tape | meter | weather
    bounds: str  # over 0 | 0 or more | any
    us_unit: str  # what a bare number means in a session in US units
    metric_unit: str  # and in a metric one
    deciding: bool = False  # it wants two readings
    planned: float | None = None  # SI; None: the profile says nothing
    wall: bool = False  # read by a gauge or at a cut edge

    def own_unit(self, *, metric: bool) -> str:
        """The unit of a bare number."""
        return self.metric_unit if metric else self.us_unit


def slots_of(profile: Profile) -> tuple[Slot, ...]:
    """Every slot, by place: each tank, its drains, its pads; then the runs; then meters and the day."""
    return _slots(profile.tanks, profile.drains, profile.heaters, profile.runs, profile.supply.volts)


def slots_by_id(profile: Profile) -> dict[str, Slot]:
    """The same, by id. Not to be changed by whoever asks."""
    return _by_id(profile.tanks, profile.drains, profile.heaters, profile.runs, profile.supply.volts)


Parts = tuple[tuple[Tank, ...], tuple[Drain, ...], tuple[Heater, ...], tuple[Run, ...], float]


@lru_cache(maxsize=8)
def _by_id(*parts: *Parts) -> dict[str, Slot]:
    return {slot.id: slot for slot in _slots(*parts)}


@lru_cache(maxsize=8)
def _slots(
    tanks: tuple[Tank, ...],
    drains: tuple[Drain, ...],
    heaters: tuple[Heater, ...],
    runs: tuple[Run, ...],
    supply_volts: float,
) -> tuple[Slot, ...]:
    slots: list[Slot] = []
    for tank in tanks:
        slots += _of_tank(tank)
        of_tank = [drain for drain in drains if drain.tank == tank.id]
        for drain in of_tank:
            slots += _of_drain(drain)
        homes = {tank.id} | {drain.id for drain in of_tank}
        for heater in heaters:
            if heater.on in homes:
                slots += _of_heater(heater)
    for run in runs:
        slots += _of_run(run)
    slots += [
        _meter("supply", "volts", kind="volts", unit="V", planned=supply_volts),
        _meter("meter", "leads", kind="ohms", unit="Ω", bounds=POSITION),
        _weather("surface", kind="temperature", us="°F", metric="°C", bounds=SIGNED),
        _weather("humidity", kind="share", us="%", metric="%", bounds=POSITION),
        _weather("air", kind="temperature", us="°F", metric="°C", bounds=SIGNED),
    ]
    return tuple(slots)


def _tape(
    place: str,
    name: str,
    *,
    planned: float | None,
    bounds: str = SIZE,
    deciding: bool = False,
    title: str = "",
) -> Slot:
    return Slot(
        id=f"{place}.{name}",
        place=place,
        title=title or name.replace("_", " ").replace(".", " "),
        kind="length",
        family=TAPE,
        bounds=bounds,
        us_unit="in",
        metric_unit="mm",
        deciding=deciding,
        planned=planned,
        wall=name == "wall",
    )


def _meter(
    place: str, name: str, *, kind: str, unit: str, planned: float | None = None, bounds: str = SIGNED
) -> Slot:
    return Slot(
        id=f"{place}.{name}",
        place=place,
        title=name.replace("_", " "),
        kind=kind,
        family=METER,
        bounds=bounds,
        us_unit=unit,
        metric_unit=unit,
        planned=planned,
    )


def _weather(name: str, *, kind: str, us: str, metric: str, bounds: str) -> Slot:
    return Slot(
        id=f"work.{name}",
        place="work",
        title=name,
        kind=kind,
        family=WEATHER,
        bounds=bounds,
        us_unit=us,
        metric_unit=metric,
    )


def _of_tank(tank: Tank) -> list[Slot]:
    place = f"tank.{tank.id}"
    slots = [_tape(place, "length", planned=tank.length, deciding=True)]
    if tank.shape == "cylinder":
        slots.append(_tape(place, "height", planned=tank.height, deciding=True, title="height (diameter)"))
    else:
        slots.append(_tape(place, "width", planned=tank.width, deciding=True))
        slots.append(_tape(place, "height", planned=tank.height, deciding=True))
    if tank.shape == "taper":
        slots.append(_tape(place, "bottom_length", planned=tank.bottom_length, deciding=True))
        slots.append(_tape(place, "bottom_width", planned=tank.bottom_width, deciding=True))
    if tank.shape == "slope":
        slots.append(_tape(place, "fall", planned=tank.fall, bounds=POSITION, deciding=True))
    slots.append(_tape(place, "wall", planned=tank.wall))
    if tank.outlet is not None:
        slots.append(_tape(place, "outlet.x", planned=tank.outlet.x, bounds=POSITION, deciding=True))
        slots.append(_tape(place, "outlet.y", planned=tank.outlet.y, bounds=POSITION, deciding=True))
    for number, keepout in enumerate(tank.keepout, start=1):
        called = f" ({keepout.why})" if keepout.why else ""
        for name, planned, bounds in (
            ("x", keepout.x, POSITION),
            ("y", keepout.y, POSITION),
            ("length", keepout.length, SIZE),
            ("width", keepout.width, SIZE),
        ):
            title = f"keep-out {number}{called} {name}"
            slots.append(
                _tape(place, f"keepout.{number}.{name}", planned=planned, bounds=bounds, title=title)
            )
    slots.append(_tape(place, "level", planned=None, bounds=POSITION, title="level (depth poured)"))
    return slots


def _of_drain(drain: Drain) -> list[Slot]:
    place = f"drain.{drain.id}"
    return [_tape(place, "length", planned=drain.length), _tape(place, "outside", planned=drain.outside)]


def _of_heater(heater: Heater) -> list[Slot]:
    place = f"heater.{heater.id}"
    is_pad = heater.face != "wrap"
    slots = [
        _tape(place, "length", planned=heater.length, deciding=is_pad),
        _tape(place, "width", planned=heater.width, deciding=is_pad),
    ]
    if heater.face == "bottom":
        for name in ("x", "y"):
            planned = getattr(heater.at, name) if heater.at is not None else None
            slots.append(_tape(place, name, planned=planned, bounds=POSITION, title=f"{name} as marked out"))
    slots += [
        _meter(place, "resistance", kind="ohms", unit="Ω", bounds=POSITION),
        _meter(place, "volts", kind="volts", unit="V"),
        _meter(place, "drop_out", kind="volts", unit="mV"),
        _meter(place, "drop_back", kind="volts", unit="mV"),
    ]
    return slots


def is_fused(run: Run) -> bool:
    """Whether a run has a fuse of its own, given or to be chosen."""
    return run.fuse != "none"


def _of_run(run: Run) -> list[Slot]:
    place = f"run.{run.id}"
    route = msgspec.structs.replace(
        _tape(place, "length", planned=run.length, bounds=POSITION, deciding=run.length > 0),
        kind="route",
        us_unit="ft",
        metric_unit="m",
    )
    slots = [route, _tape(place, "fuse_at", planned=run.fuse_at, bounds=POSITION)]
    if is_fused(run):
        slots += [
            _meter(place, "resistance", kind="ohms", unit="Ω", bounds=POSITION),
            _meter(place, "current", kind="amps", unit="A"),
            _meter(place, "isolation", kind="ohms", unit="MΩ", bounds=POSITION),
        ]
    return slots

"""The shape of a rig profile, format 1, in SI units and degrees Celsius.

What a file says in text becomes these frozen structs in `profile_check.py`; nothing here reads or checks.
Lengths in m, areas in m², powers in W, resistances in Ω, R-values in m²K/W, times in s, speeds in m/s,
shares from 0 to 1. A unit stands in a name only where it isn't SI-coherent.
"""

import msgspec


class Rig(msgspec.Struct, frozen=True):
    name: str
    kind: str = ""
    units: str = "us"  # us | metric
    note: str = ""


class Hourly(msgspec.Struct, frozen=True, cache_hash=True):
    """A series of outdoor temperatures, as read from a CSV."""

    seconds: tuple[float, ...]  # since the first row
    degc: tuple[float, ...]
    clock: tuple[float, ...]  # by each row's own clock, s since the midnight that began the first row's day
    first: str = ""  # the first row's time, ISO 8601


class Design(msgspec.Struct, frozen=True, cache_hash=True):
    low_degc: float  # with `hourly`: its least temperature
    high_degc: float  # with `hourly`: its greatest
    nights: int
    hold_degc: float
    wind: float
    cabin_degc: float
    start_degc: float
    warm_degc: float
    towing: float | None = None
    hourly_file: str | None = None
    hourly: Hourly | None = None


class Supply(msgspec.Struct, frozen=True, cache_hash=True):
    volts: float
    charging: float
    chemistry: str  # lithium | agm | flooded
    capacity_ah: float
    usable: float
    peukert: float
    battery_degc: float | None = None  # None: the spell's mean outdoor temperature
    cutoff: float | None = None
    converter: float | None = None
    other: float | None = None  # None: left out, counted as 0 and noted


class Wiring(msgspec.Struct, frozen=True):
    table: str  # sae | awg
    conductor_degc: float
    drop_limit: float


class Parts(msgspec.Struct, frozen=True):
    slack: float
    ends: float
    lay: float
    spools: tuple[float, ...]


class Bay(msgspec.Struct, frozen=True, cache_hash=True):
    id: str
    area: float
    floor: float
    pan: float
    leak: float  # W/K
    heat: float
    water: bool


class Outlet(msgspec.Struct, frozen=True):
    x: float
    y: float
    diameter: float


class Keepout(msgspec.Struct, frozen=True):
    x: float
    y: float
    length: float  # along x
    width: float  # along y
    why: str


class Tank(msgspec.Struct, frozen=True, cache_hash=True):
    id: str
    holds: str  # fresh | gray | black
    shape: str  # box | taper | cylinder | slope
    length: float
    width: float
    height: float
    wall: float
    material: str
    wall_conductivity: float
    wall_limit_degc: float
    origin: str
    place: str  # open | inside | a bay's id
    above: str  # cabin | air
    floor: float
    insulation: float
    top_insulation: float
    fill: float
    bottom_length: float | None = None  # taper
    bottom_width: float | None = None  # taper
    fall: float | None = None  # slope
    outlet: Outlet | None = None
    keepout: tuple[Keepout, ...] = ()


class Drain(msgspec.Struct, frozen=True, cache_hash=True):
    id: str
    tank: str
    outside: float
    inside: float
    material: str  # abs | pvc | polyethylene
    wall_conductivity: float
    length: float
    insulation: float  # thickness
    conductivity: float  # of the insulation
    place: str


class Position(msgspec.Struct, frozen=True):
    x: float
    y: float


class Thermostat(msgspec.Struct, frozen=True):
    on_degc: float
    off_degc: float


class Heater(msgspec.Struct, frozen=True, cache_hash=True):
    id: str
    on: str  # a tank's or a drain's id
    watts: float
    volts: float
    length: float
    width: float
    face: str  # bottom | side | wrap
    turned: bool
    foot: float
    insulation: float
    covered: bool
    over_rib: bool
    least_surface_degc: float
    dwell: float  # s
    before_filling: float  # s
    tolerance: tuple[float, float]
    element: str  # resistive | self-regulating
    at: Position | None = None
    thermostat: Thermostat | None = None


class Run(msgspec.Struct, frozen=True, cache_hash=True):
    id: str
    from_: str = msgspec.field(name="from")  # supply | a run's id
    length: float = 0.0
    gauge: int | None = None  # AWG number; None: auto
    back: str = "own"  # own | chassis | a run's id
    chassis: float = 0.005  # Ω
    fuse: float | str = "none"  # a rating in A, or auto | none
    feeds: tuple[str, ...] = ()
    fuse_at: float | None = None
    switch: float | None = None
    bundle: str | None = None
    colour: str | None = None
    outside: float | None = None


class Profile(msgspec.Struct, frozen=True):
    rig: Rig
    design: Design
    supply: Supply
    wiring: Wiring
    parts: Parts
    bays: tuple[Bay, ...] = ()
    tanks: tuple[Tank, ...] = ()
    drains: tuple[Drain, ...] = ()
    heaters: tuple[Heater, ...] = ()
    runs: tuple[Run, ...] = ()

"""The keys of a rig profile, format 1, declared one by one: kind, limits, default, and what each means.

One list for all that must agree on it: the check, the schema, the writing of files, the changing of values.
What hangs on several keys at once (high below low, a loop of runs) stands with the checks.
"""

from typing import Any

import msgspec

from logic.data.units import EXACT
from logic.data.wiring_constants import FUSE_RATINGS

FORMAT = 1
MOST_PARTS = 100
MOST_KEEPOUTS = 50
MOST_SPOOLS = 10
ID_LIMIT = 24

FOOT = 0.3048  # m, exact
RATINGS = FUSE_RATINGS


class Span(msgspec.Struct, frozen=True):
    """The values that a key may have, in the check's own units (SI, °C, Ah, shares from 0 to 1)."""

    low: float
    high: float
    says: str
    over: bool = False  # `low` itself is out


class Key(msgspec.Struct, frozen=True):
    """One key of a table."""

    name: str
    kind: (
        str  # a kind of quantity, or text, id, reference, choice, flag, number, count, gauge, fuse, table, …
    )
    says: str
    required: bool = False
    default: Any = None  # as a file would state it
    span: Span | None = None
    choices: tuple[str, ...] = ()
    limit: int = 0  # characters of a text
    only: tuple[str, tuple[str, ...]] | None = None  # (other key, its values) with which it may stand
    wanted: bool = False  # with those values it must stand
    keys: tuple["Key", ...] = ()  # of an inner table


class Section(msgspec.Struct, frozen=True):
    """A table of the file, or, where `many`, a list of parts with an id each."""

    name: str
    says: str
    keys: tuple[Key, ...]
    many: bool = False

    def key(self, name: str) -> Key | None:
        return next((key for key in self.keys if key.name == name), None)


LENGTH = Span(0.0, 300 * FOOT, "over 0 and up to 300 ft", over=True)
LENGTH_OR_NONE = Span(0.0, 300 * FOOT, "from 0 to 300 ft")
TEMPERATURE = Span(-80.0, 150.0, "from -80 to 150 degC (-112 to 302 degF)")
SPEED = Span(0.0, 44.704, "from 0 to 100 mph")
HOURS = Span(0.0, 336 * 3600.0, "from 0 to 336 h")
INSULATION = Span(0.0, 100 * float(EXACT["us_insulation"][0]), "from R 0 to R 100")
POWER = Span(0.0, 5000.0, "over 0 and up to 5000 W", over=True)
POWER_OR_NONE = Span(0.0, 5000.0, "from 0 to 5000 W")
VOLTS = Span(0.0, 60.0, "over 0 and up to 60 V", over=True)
AMPS = Span(0.0, 1000.0, "over 0 and up to 1000 A", over=True)
AMPS_OR_NONE = Span(0.0, 1000.0, "from 0 to 1000 A")
CHARGE = Span(0.0, 10000.0, "over 0 and up to 10000 Ah", over=True)
SHARE = Span(0.0, 1.0, "from 0 to 1")
SHARE_OVER_NONE = Span(0.0, 1.0, "over 0 and up to 1", over=True)
AREA = Span(0.0, 1000 * FOOT**2, "over 0 and up to 1000 ft²", over=True)
CONDUCTANCE = Span(0.0, 1000.0, "from 0 to 1000 W/K")
CONDUCTIVITY = Span(0.0, 10.0, "over 0 and up to 10 W/m/K", over=True)

RIG = Section(
    "rig",
    "The vehicle",
    (
        Key("name", "text", "Name of the rig", required=True, limit=60),
        Key("kind", "text", "Kind of vehicle", default="", limit=60),
        Key("units", "choice", "Units that are shown", default="us", choices=("us", "metric")),
        Key("note", "text", "Note", default="", limit=500),
    ),
)

DESIGN = Section(
    "design",
    "The cold that it must stand",
    (
        Key(
            "low", "temperature", "Forecast low, outdoors; required unless hourly is given", span=TEMPERATURE
        ),
        Key("high", "temperature", "Forecast high; left out: low + 20 degF", span=TEMPERATURE),
        Key(
            "nights",
            "count",
            "Nights of the spell",
            default=2,
            span=Span(1, 60, "a whole number from 1 to 60"),
        ),
        Key("hold", "temperature", "Lowest contents temperature wanted", default="38 degF", span=TEMPERATURE),
        Key("wind", "speed", "Air speed at the tanks, under a parked rig", default="5 mph", span=SPEED),
        Key("cabin", "temperature", "Temperature of the cabin", default="65 degF", span=TEMPERATURE),
        Key("start", "temperature", "Contents when the spell begins", default="50 degF", span=TEMPERATURE),
        Key("towing", "speed", "Air speed on the road", span=SPEED),
        Key("warm", "temperature", "Air on the day of the test", default="77 degF", span=TEMPERATURE),
        Key("hourly", "text", "A CSV of temperatures beside the profile; replaces low and high", limit=60),
    ),
)

SUPPLY = Section(
    "supply",
    "What feeds the heaters",
    (
        Key("volts", "volts", "At the supply's terminals, in the night; left out: by chemistry", span=VOLTS),
        Key("charging", "volts", "The most it is held at; left out: by chemistry", span=VOLTS),
        Key("chemistry", "choice", "Kind of battery", required=True, choices=("lithium", "agm", "flooded")),
        Key("capacity", "charge", "Capacity at the 20 h rate", required=True, span=CHARGE),
        Key("usable", "number", "Usable share; left out: by chemistry", span=SHARE_OVER_NONE),
        Key(
            "peukert",
            "number",
            "Peukert's exponent; left out: by chemistry",
            span=Span(1.0, 2.0, "from 1 to 2"),
        ),
        Key(
            "battery",
            "temperature",
            "Temperature of the battery; left out: mean of the spell",
            span=TEMPERATURE,
        ),
        Key("cutoff", "volts", "Cut-off of the battery's own protection", span=VOLTS),
        Key("converter", "amps", "Rating of the converter, d.c.", span=AMPS),
        Key("other", "amps", "Mean of all other load; left out: 0, and noted", span=AMPS_OR_NONE),
    ),
)

WIRING = Section(
    "wiring",
    "How conductors are reckoned",
    (
        Key("table", "choice", "Areas of the conductors", default="sae", choices=("sae", "awg")),
        Key("conductor", "temperature", "Temperature of the conductors", default="30 degC", span=TEMPERATURE),
        Key("drop_limit", "share", "Largest drop", default="3 %", span=Span(0.001, 0.2, "from 0.1 to 20 %")),
    ),
)

PARTS = Section(
    "parts",
    "How wire is cut and bought",
    (
        Key("slack", "share", "Slack on each route", default="15 %", span=Span(0.0, 1.0, "from 0 to 100 %")),
        Key("ends", "length", "For each end of a cut", default="12 in", span=LENGTH),
        Key("lay", "length", "Lay of twisted wires", default="2 in", span=LENGTH),
        Key("spools", "lengths", "Lengths of spool on offer", default=["25 ft", "100 ft"], span=LENGTH),
    ),
)

_ID = Key("id", "id", "Its name in the profile", required=True)

BAY = Section(
    "bay",
    "A closed underside",
    (
        _ID,
        Key("area", "area", "Of the pan, and of the floor over it", required=True, span=AREA),
        Key("floor", "insulation", "Insulation of the floor over it", required=True, span=INSULATION),
        Key("pan", "insulation", "Insulation of the pan", required=True, span=INSULATION),
        Key("leak", "conductance", "Air exchange with outdoors", default="0 W/K", span=CONDUCTANCE),
        Key("heat", "power", "Heat put in on purpose", default="0 W", span=POWER_OR_NONE),
        Key("water", "flag", "Water pipes in it that must not freeze", default=False),
    ),
    many=True,
)

TANK = Section(
    "tank",
    "A holding tank",
    (
        _ID,
        Key("holds", "choice", "What it holds", required=True, choices=("fresh", "gray", "black")),
        Key("shape", "choice", "Its shape", required=True, choices=("box", "taper", "cylinder", "slope")),
        Key("length", "length", "Outside, along the vehicle", required=True, span=LENGTH),
        Key("width", "length", "Outside, across", required=True, span=LENGTH),
        Key("height", "length", "Outside; of a slope the greatest", required=True, span=LENGTH),
        Key("bottom_length", "length", "Of a taper's bottom", span=LENGTH, only=("shape", ("taper",)),
            wanted=True),
        Key("bottom_width", "length", "Of a taper's bottom", span=LENGTH, only=("shape", ("taper",)),
            wanted=True),
        Key("fall", "length", "Drop of a slope's floor along the length", span=LENGTH_OR_NONE,
            only=("shape", ("slope",)), wanted=True),
        Key("wall", "length", "Thickness of the wall", default="0.25 in", span=LENGTH),
        Key("material", "choice", "Of the wall", default="polyethylene", choices=("polyethylene", "abs")),
        Key("wall_conductivity", "conductivity", "Of the wall; left out: by material", span=CONDUCTIVITY),
        Key("wall_limit", "temperature", "The wall's limit of service", default="60 degC", span=TEMPERATURE),
        Key("origin", "choice", "Corner of the bottom where x and y are 0", default="front street",
            choices=("front street", "front curb", "rear street", "rear curb")),
        Key("place", "reference", "open, inside, or a bay's id", required=True),
        Key("above", "choice", "What lies over it", default="cabin", choices=("cabin", "air")),
        Key("floor", "insulation", "Between its top and the cabin", default="R 5", span=INSULATION),
        Key("insulation", "insulation", "On sides and bottom", default="R 0", span=INSULATION),
        Key("top_insulation", "insulation", "On its top", default="R 0", span=INSULATION),
        Key("fill", "number", "Share of the inside volume in the spell", default=0.5, span=SHARE),
        Key("outlet", "table", "The outlet on its bottom", keys=(
            Key("x", "length", "Its centre along the length", required=True, span=LENGTH),
            Key("y", "length", "Its centre across", required=True, span=LENGTH),
            Key("diameter", "length", "Its diameter", required=True, span=LENGTH),
        )),
        Key("keepout", "tables", "Where no pad may lie", keys=(
            Key("x", "length", "Its corner along the length", required=True, span=LENGTH_OR_NONE),
            Key("y", "length", "Its corner across", required=True, span=LENGTH_OR_NONE),
            Key("length", "length", "Its size along the length", required=True, span=LENGTH),
            Key("width", "length", "Its size across", required=True, span=LENGTH),
            Key("why", "text", "What is there", default="", limit=60),
        )),
    ),
    many=True,
)  # fmt: skip

DRAIN = Section(
    "drain",
    "Outlet pipe, elbow and valve of a tank",
    (
        _ID,
        Key("tank", "reference", "The tank that it drains", required=True),
        Key("outside", "length", "Outside diameter", required=True, span=LENGTH),
        Key("inside", "length", "Inside diameter", required=True, span=LENGTH),
        Key("material", "choice", "Of the pipe", default="abs", choices=("abs", "pvc", "polyethylene")),
        Key("length", "length", "Length of the leg", required=True, span=LENGTH),
        Key("insulation", "length", "Thickness of its insulation", default="0 in", span=LENGTH_OR_NONE),
        Key("conductivity", "conductivity", "Of the insulation", default="0.035 W/m/K", span=CONDUCTIVITY),
        Key("place", "reference", "open, inside, or a bay's id; left out: its tank's"),
    ),
    many=True,
)

HEATER = Section(
    "heater",
    "A pad, or a wrap round a drain",
    (
        _ID,
        Key("on", "reference", "A tank or a drain", required=True),
        Key("watts", "power", "Rated power", required=True, span=POWER),
        Key("volts", "volts", "At which that power is stated", default="12 V", span=VOLTS),
        Key("length", "length", "Of the pad, or along the pipe", required=True, span=LENGTH),
        Key("width", "length", "Of the pad, or round the pipe", required=True, span=LENGTH),
        Key("face", "choice", "Where it is bonded", required=True, choices=("bottom", "side", "wrap")),
        Key("at", "table", "Its corner nearest the origin; left out: the program places it",
            only=("face", ("bottom",)), keys=(
                Key("x", "length", "Along the tank's length", required=True, span=LENGTH_OR_NONE),
                Key("y", "length", "Across", required=True, span=LENGTH_OR_NONE),
            )),
        Key("turned", "flag", "Its length lies across", default=False, only=("face", ("bottom", "side"))),
        Key("foot", "length", "Its lower edge above the tank's bottom", default="0 in", span=LENGTH_OR_NONE,
            only=("face", ("side",))),
        Key("insulation", "insulation", "Over its back", default="R 0", span=INSULATION,
            only=("face", ("bottom", "side"))),
        Key("covered", "flag", "Its sheet allows insulation over it", default=False),
        Key("over_rib", "flag", "Its sheet lets it follow a rib", default=False),
        Key("least_surface", "temperature", "Least surface for bonding", default="50 degF", span=TEMPERATURE),
        Key("dwell", "hours", "To the full bond", default="72 h", span=HOURS),
        Key("before_filling", "hours", "Before filling and energising", default="24 h", span=HOURS),
        Key("tolerance", "pair", "Of its resistance", default=[-0.05, 0.10],
            span=Span(-1.0, 1.0, "from -1 to 1")),
        Key("element", "choice", "Its element", default="resistive",
            choices=("resistive", "self-regulating")),
        Key("thermostat", "table", "Left out: a plain switch, always on", keys=(
            Key("on", "temperature", "Switches on below", required=True, span=TEMPERATURE),
            Key("off", "temperature", "Switches off above", required=True, span=TEMPERATURE),
        )),
    ),
    many=True,
)  # fmt: skip

RUN = Section(
    "run",
    "One length of wiring, towards the heaters",
    (
        _ID,
        Key("from", "reference", "supply, or another run's id", required=True),
        Key("length", "length", "Route, one way", required=True, span=LENGTH_OR_NONE),
        Key("gauge", "gauge", "auto, or a gauge", default="auto"),
        Key("back", "reference", "own, chassis, or the run whose return carries it", default="own"),
        Key("chassis", "ohms", "Frame and two bonds, with back = chassis", default="5 mΩ",
            span=Span(0.0, 1.0, "over 0 and up to 1 Ω", over=True)),
        Key("fuse", "fuse", "auto, none, or a rating; left out: auto from the supply, none otherwise"),
        Key("fuse_at", "length", "Distance from the point of supply", span=LENGTH_OR_NONE),
        Key("switch", "amps", "Rating of a switch in it, d.c.", span=AMPS),
        Key("feeds", "references", "Heaters at its far end", default=[]),
        Key("bundle", "id", "Runs that share a sleeve"),
        Key("colour", "text", "Of the positive conductor", limit=60),
        Key("outside", "length", "Outside diameter of its wire; left out: the table's", span=LENGTH),
    ),
    many=True,
)  # fmt: skip

SECTIONS = (RIG, DESIGN, SUPPLY, WIRING, PARTS, BAY, TANK, DRAIN, HEATER, RUN)
BY_NAME = {section.name: section for section in SECTIONS}

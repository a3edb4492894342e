"""A profile's document with the format's defaults in it and its quantities as numbers."""

import tomllib
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from tests.independent.numbers import CONDUCTIVITY, WALL_LIMIT
from tests.independent.quantities import si
from tests.independent.weather import daily_course, hourly_course

# Keys whose texts are words. All others are quantities.
WORDS = {
    "id", "name", "kind", "units", "note", "chemistry", "table", "holds", "shape", "material", "origin", "place",
    "above", "why", "tank", "on", "face", "element", "from", "gauge", "back", "feeds", "bundle", "colour", "hourly",
}  # fmt: skip

BY_CHEMISTRY = {
    "lithium": {"volts": "12.8 V", "charging": "14.6 V", "usable": 0.8, "peukert": 1.0},
    "agm": {"volts": "12.1 V", "charging": "14.7 V", "usable": 0.5, "peukert": 1.2},
    "flooded": {"volts": "12.1 V", "charging": "14.8 V", "usable": 0.5, "peukert": 1.2},
}
DESIGN = {
    "low": None, "high": None, "nights": 2, "hold": "38 degF", "wind": "5 mph", "cabin": "65 degF",
    "start": "50 degF", "towing": None, "warm": "77 degF", "hourly": None,
}  # fmt: skip
SUPPLY = {"battery": None, "cutoff": None, "converter": None, "other": None}
WIRING = {"table": "sae", "conductor": "30 degC", "drop_limit": "3 %"}
PARTS = {"slack": "15 %", "ends": "12 in", "lay": "2 in", "spools": ["25 ft", "100 ft"]}
BAY = {"leak": 0, "heat": 0, "water": False}
TANK = {
    "wall": "0.25 in", "material": "polyethylene", "wall_limit": WALL_LIMIT, "above": "cabin", "floor": "R 5",
    "insulation": 0, "top_insulation": 0, "fill": 0.5, "outlet": None, "keepout": [], "fall": 0,
    "bottom_length": None, "bottom_width": None,
}  # fmt: skip
DRAIN = {"material": "abs", "insulation": 0, "conductivity": 0.035, "place": None}
HEATER = {
    "volts": "12 V", "at": None, "turned": False, "foot": 0, "insulation": 0, "covered": False,
    "thermostat": None, "tolerance": [-0.05, 0.10], "element": "resistive",
}  # fmt: skip
RUN: dict[str, Any] = {
    "gauge": "auto", "back": "own", "chassis": "5 mΩ", "fuse_at": None, "switch": None, "feeds": [],
    "bundle": None, "outside": None, "colour": None,
}  # fmt: skip


def numbers(value, words=WORDS):
    """The same table as a namespace, every quantity in it as a number."""
    if isinstance(value, dict):
        return SimpleNamespace(
            **{key: one if key in words else numbers(one, words={"why"}) for key, one in value.items()}
        )
    if isinstance(value, list):
        return [numbers(one, words) for one in value]
    if value is None or isinstance(value, bool):
        return value
    return si(value)


class Rig:
    """What a profile says. Parts by id; lengths in m, temperatures in °C, SI throughout."""

    def __init__(self, document, folder=None):
        chemistry = BY_CHEMISTRY[document["supply"]["chemistry"]]
        self.design = numbers(DESIGN | document.get("design", {}))
        self.supply = numbers(SUPPLY | chemistry | document["supply"])
        self.wiring = numbers(WIRING | document.get("wiring", {}))
        self.parts = numbers(PARTS | document.get("parts", {}))
        self.bays = {one["id"]: numbers(BAY | one) for one in document.get("bay", [])}
        self.tanks = {one["id"]: tank(one) for one in document.get("tank", [])}
        self.drains = {one["id"]: self.drain(one) for one in document.get("drain", [])}
        self.heaters = {one["id"]: numbers(HEATER | one) for one in document.get("heater", [])}
        self.runs = {one["id"]: run(one) for one in document.get("run", [])}
        self.nights = int(self.design.nights)
        if self.design.hourly is not None:
            self.weather = hourly_course(folder / self.design.hourly)
        else:
            high = self.design.low + 20 / 1.8 if self.design.high is None else self.design.high
            self.weather = daily_course(self.design.low, high, self.nights)

    @classmethod
    def of_file(cls, path):
        path = Path(path)
        return cls(tomllib.loads(path.read_text()), path.parent)

    def drain(self, given):
        drain = numbers(DRAIN | given)
        drain.place = drain.place or self.tanks[drain.tank].place
        drain.wall_conductivity = CONDUCTIVITY[drain.material]
        return drain

    def on(self, part_id, *faces):
        """The heaters on a tank or drain, in the profile's order."""
        return [
            one for one in self.heaters.values() if one.on == part_id and (not faces or one.face in faces)
        ]

    def fed(self):
        """heater's id → the run that feeds it"""
        return {heater: run for run in self.runs.values() for heater in run.feeds}


def tank(given):
    tank = numbers(TANK | given)
    if not hasattr(tank, "wall_conductivity"):
        tank.wall_conductivity = CONDUCTIVITY[tank.material]
    if tank.shape != "taper":
        tank.bottom_length, tank.bottom_width = tank.length, tank.width
    return tank


def run(given):
    """`from_` for `from`; gauge a number, or None for auto; fuse a number, None or "auto"."""
    run = numbers(RUN | {key: value for key, value in given.items() if key != "fuse"})
    run.from_ = given["from"]
    run.gauge = None if run.gauge == "auto" else int(run.gauge.split()[0])
    fuse = given.get("fuse", "auto" if run.from_ == "supply" else "none")
    run.fuse = {"auto": "auto", "none": None}.get(fuse, fuse)
    if run.fuse not in ("auto", None):
        run.fuse = si(run.fuse)
    return run

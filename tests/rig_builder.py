"""Profiles built from the structs, for tests that start below the profile file.

Every part has plain values of its own here; a test names only what it is about.
"""

from typing import Any

from logic.data.profile import (
    Bay,
    Design,
    Drain,
    Heater,
    Parts,
    Profile,
    Rig,
    Run,
    Supply,
    Tank,
    Thermostat,
    Wiring,
)

INCH = 0.0254
FOOT = 0.3048
R_US = 0.1761101838  # 1 h·ft²·°F/Btu in m²K/W


def degc(fahrenheit: float) -> float:
    return (fahrenheit - 32.0) / 1.8


def tank(id: str = "galley", **values: Any) -> Tank:
    """V1's box of the published checks, in the open, bare, half full."""
    plain: dict[str, Any] = {
        "holds": "gray",
        "shape": "box",
        "length": 41.375 * INCH,
        "width": 24 * INCH,
        "height": 9 * INCH,
        "wall": 0.25 * INCH,
        "material": "polyethylene",
        "wall_conductivity": 0.40,
        "wall_limit_degc": 60.0,
        "origin": "front street",
        "place": "open",
        "above": "cabin",
        "floor": 5 * R_US,
        "insulation": 0.0,
        "top_insulation": 0.0,
        "fill": 0.5,
    }
    return Tank(id=id, **{**plain, **values})


def drain(id: str = "galley-valve", **values: Any) -> Drain:
    plain: dict[str, Any] = {
        "tank": "galley",
        "outside": 3.5 * INCH,
        "inside": 3.07 * INCH,
        "material": "abs",
        "wall_conductivity": 0.19,
        "length": 18 * INCH,
        "insulation": 0.0,
        "conductivity": 0.035,
        "place": "open",
    }
    return Drain(id=id, **{**plain, **values})


def heater(id: str = "galley-a", **values: Any) -> Heater:
    plain: dict[str, Any] = {
        "on": "galley",
        "watts": 60.0,
        "volts": 12.0,
        "length": 18 * INCH,
        "width": 12 * INCH,
        "face": "bottom",
        "turned": False,
        "foot": 0.0,
        "insulation": 0.0,
        "covered": False,
        "over_rib": False,
        "least_surface_degc": 10.0,
        "dwell": 72 * 3600.0,
        "before_filling": 24 * 3600.0,
        "tolerance": (-0.05, 0.10),
        "element": "resistive",
    }
    return Heater(id=id, **{**plain, **values})


def run(id: str = "feed", **values: Any) -> Run:
    plain: dict[str, Any] = {"from_": "supply", "length": 6 * FOOT, "gauge": 14, "fuse": "auto"}
    return Run(id=id, **{**plain, **values})


def bay(id: str = "belly", **values: Any) -> Bay:
    plain: dict[str, Any] = {
        "area": 80 * FOOT**2,
        "floor": 7 * R_US,
        "pan": 4 * R_US,
        "leak": 4.0,
        "heat": 0.0,
        "water": False,
    }
    return Bay(id=id, **{**plain, **values})


def design(**values: Any) -> Design:
    plain: dict[str, Any] = {
        "low_degc": degc(-12),
        "high_degc": degc(12),
        "nights": 2,
        "hold_degc": degc(38),
        "wind": 10 * 0.44704,
        "cabin_degc": degc(65),
        "start_degc": degc(50),
        "warm_degc": degc(77),
    }
    return Design(**{**plain, **values})


def supply(**values: Any) -> Supply:
    plain: dict[str, Any] = {
        "volts": 12.8,
        "charging": 13.6,
        "chemistry": "lithium",
        "capacity_ah": 200.0,
        "usable": 0.8,
        "peukert": 1.0,
    }
    return Supply(**{**plain, **values})


def profile(**values: Any) -> Profile:
    """A profile with whatever parts the test gives: `tanks=(tank(),)`, `runs=(run(feeds=("galley-a",)),)` …"""
    plain: dict[str, Any] = {
        "rig": Rig(name="built for a test"),
        "design": design(),
        "supply": supply(),
        "wiring": Wiring(table="awg", conductor_degc=30.0, drop_limit=0.03),
        "parts": Parts(slack=0.15, ends=12 * INCH, lay=2 * INCH, spools=(25 * FOOT, 100 * FOOT)),
    }
    return Profile(**{**plain, **values})


def thermostat(on: float, off: float) -> Thermostat:
    """A thermostat by its settings in °F."""
    return Thermostat(on_degc=degc(on), off_degc=degc(off))

"""How one number looks, kind by kind, in US units and in metric.

By the exact factors of `units.py`: tape fractions for lengths, feet for routes, gallons, °F with a true minus
sign, R in US units, W/in²; as many digits as a person at the work can use, and no more. A number that somebody is to
keep to is rounded to the side on which it is kept: a least one up, a most one down.
"""

from collections.abc import Callable
from fractions import Fraction
from functools import cache
from math import ceil, floor, log10

import msgspec

from logic.data.tape_text import mixed_number
from logic.data.units import EXACT
from logic.data.wording import NEAREST, UP

MINUS = "\u2212"
NEVER = "never"
NOTHING = "–"
SIXTEENTHS = 16
# Under this many inches a length is told in decimals where no sixteenth is near.
_SMALL_INCHES = 0.5


Formatter = Callable[[float, bool, int], "Shown"]
"""Value, whether in metric, and the side it is rounded to (see `wording.py`)."""


class Shown(msgspec.Struct, frozen=True):
    """A number as text and its unit beside it; for what is large on the screen, or stands in columns."""

    number: str
    unit: str = ""

    def text(self) -> str:
        return f"{self.number} {self.unit}" if self.unit else self.number


def show(value: float, kind: str, units: str, side: int = NEAREST) -> str:
    """A quantity with its unit: `41 3/8 in`, `−12 °F`, `R 5`.

    kind, side : see `Quantity`. units : us | metric.
    """
    return show_parts(value, kind, units, side).text()


def show_parts(value: float, kind: str, units: str, side: int = NEAREST) -> Shown:
    """A quantity as number and unit."""
    return _KINDS[kind](value, units == "metric", side)


def _rounded(number: float, side: int) -> float:
    """To a whole number; what arithmetic may have added to one that is whole counts for nothing."""
    if side == NEAREST:
        return round(number)
    slack = 1e-9 * max(abs(number), 1.0)
    return ceil(number - slack) if side == UP else floor(number + slack)


def uncertainty(u: float, kind: str, units: str) -> str:
    """An uncertainty in the unit of its quantity, to two digits, without the unit.

    u : SI. Kinds as of the quantity itself.
    """
    factor = _FACTORS.get((kind, units == "metric"), 1.0)
    number = u / factor
    places = 0 if number <= 0 else max(0, 1 - floor(log10(number)))
    return _fixed(number, min(places, 6))


def _fixed(number: float, places: int, side: int = NEAREST) -> str:
    """A decimal with a true minus sign; never a negative zero."""
    if side != NEAREST:
        number = _rounded(number * 10**places, side) / 10**places
    text = f"{number:.{places}f}"
    if text.startswith("-"):
        text = text[1:] if not text.strip("-0.") else f"{MINUS}{text[1:]}"
    return text


def _trimmed(number: float, places: int, side: int = NEAREST) -> str:
    """As `_fixed`, without zeros at the end of its decimals."""
    text = _fixed(number, places, side)
    return text.rstrip("0").rstrip(".") if "." in text else text


def _to_three(number: float, most: int, side: int = NEAREST) -> str:
    """To three digits, with at most so many decimals, and none that is zero."""
    size = abs(number)
    digits = 0 if size == 0 else floor(log10(size)) + 1
    return _trimmed(number, max(0, min(most, 3 - digits)), side)


def _three(number: float, most: int, side: int = NEAREST) -> str:
    """As `_to_three`, and three digits of what is under 1 too: a resistance in a working is to be reckoned with."""
    size = abs(number)
    return _to_three(number, most if size >= 1 or size == 0 else 2 - floor(log10(size)), side)


@cache  # a table of exact fractions, some dozens of them
def _factor(unit: str) -> float:
    return float(EXACT[unit][0])


def _scaled(us_unit: str, metric_unit: str, us: str, metric: str, places: int) -> Formatter:
    """A kind with one factor in each system; an empty unit of the table is SI itself."""
    us_factor = _factor(us_unit) if us_unit else 1.0
    metric_factor = _factor(metric_unit) if metric_unit else 1.0

    def shown(value: float, in_metric: bool, side: int) -> Shown:
        if in_metric:
            return Shown(_to_three(value / metric_factor, places, side), metric)
        return Shown(_to_three(value / us_factor, places, side), us)

    return shown


def _same(unit: str, places: int) -> Formatter:
    """A kind that reads alike in both systems."""
    return lambda value, _, side: Shown(_to_three(value, places, side), unit)


def _length(value: float, in_metric: bool, side: int) -> Shown:
    if in_metric:
        millimetres = value / _factor("millimeter")
        return Shown(_trimmed(millimetres, 0 if abs(millimetres) >= 100 else 1, side), "mm")
    inches = value / _factor("inch")
    sixteenths = int(_rounded(inches * SIXTEENTHS, side))
    if abs(inches) < _SMALL_INCHES and abs(inches * SIXTEENTHS - sixteenths) > 0.1:
        return Shown(_trimmed(inches, 2, side), "in")
    return Shown(mixed_number(Fraction(sixteenths, SIXTEENTHS)).replace("-", MINUS), "in")


def _small_length(value: float, in_metric: bool, side: int) -> Shown:
    if in_metric:
        return Shown(_trimmed(value / _factor("millimeter"), 1, side), "mm")
    return Shown(_trimmed(value / _factor("inch"), 2, side), "in")


def _route(value: float, in_metric: bool, side: int) -> Shown:
    return (
        Shown(_trimmed(value, 2, side), "m")
        if in_metric
        else Shown(_trimmed(value / _factor("foot"), 1, side), "ft")
    )


def _temperature_to(places: int) -> Formatter:
    factor, zero = (float(part) for part in EXACT["degree_Fahrenheit"])

    def shown(value: float, in_metric: bool, side: int) -> Shown:
        if in_metric:
            return Shown(_trimmed(value, places, side), "°C")
        return Shown(_trimmed((value - zero) / factor, places, side), "°F")

    return shown


def _difference(value: float, in_metric: bool, side: int) -> Shown:
    if in_metric:
        return Shown(_trimmed(value, 1, side), "°C")
    return Shown(_trimmed(value / _factor("fahrenheit_difference"), 1, side), "°F")


def _insulation(value: float, in_metric: bool, side: int) -> Shown:
    if in_metric:
        return Shown(_three(value, 2, side), "m²K/W")
    return Shown(f"R {_three(value / _factor('us_insulation'), 1, side)}")


def _density(value: float, in_metric: bool, side: int) -> Shown:
    if in_metric:
        return Shown(_trimmed(value, 0, side), "W/m²")
    return Shown(_trimmed(value / _factor("watt_per_square_inch"), 2, side), "W/in²")


def _power(value: float, _: bool, side: int) -> Shown:
    return Shown(_trimmed(value, 1 if abs(value) < 100 else 0, side), "W")


def _volts(value: float, _: bool, side: int) -> Shown:
    if 0 < abs(value) < 0.1:
        return Shown(_to_three(value * 1000, 1, side), "mV")
    return Shown(_trimmed(value, 2, side), "V")


def _amps(value: float, _: bool, side: int) -> Shown:
    return Shown(_to_three(value, 2, side), "A")


def _ohms(value: float, _: bool, side: int) -> Shown:
    size = abs(value)
    if 0 < size < 0.1:
        return Shown(_to_three(value * 1000, 1, side), "mΩ")
    for factor, unit in ((1e6, "MΩ"), (1e3, "kΩ")):
        if size >= factor:
            return Shown(_to_three(value / factor, 2, side), unit)
    return Shown(_trimmed(value, 3 if size < 10 else 1, side), "Ω")


def _hours(value: float, _: bool, side: int) -> Shown:
    return Shown(_to_three(value / _factor("hour"), 2 if abs(value) < 3600 else 1, side), "h")


def _minutes(value: float, _: bool, side: int) -> Shown:
    return Shown(_trimmed(value / 60, 0, side), "min")


def _energy(value: float, _: bool, side: int) -> Shown:
    watt_hours = value / _factor("watt_hour")
    return Shown(_trimmed(watt_hours, 1 if abs(watt_hours) < 100 else 0, side), "Wh")


def _share(value: float, _: bool, side: int) -> Shown:
    return Shown(_trimmed(value / _factor("percent"), 1, side), "%")


def _flag(value: float, _: bool, side: int) -> Shown:
    return Shown("yes" if value else "no")


def _gauge(value: float, _: bool, side: int) -> Shown:
    return Shown(_trimmed(value, 0, side), "AWG")


def _rating(value: float, _: bool, side: int) -> Shown:
    return Shown(_trimmed(value, 1, side), "A")


_KINDS: dict[str, Formatter] = {
    "length": _length,
    "small_length": _small_length,
    "route": _route,
    "area": _scaled("square_foot", "", "ft²", "m²", 2),
    "volume": _scaled("us_gallon", "liter", "gal", "L", 1),
    "mass": _scaled("pound", "", "lb", "kg", 1),
    "mass_of_copper": _scaled("pound", "", "lb", "kg", 2),
    "temperature": _temperature_to(1),
    "whole_temperature": _temperature_to(0),
    "difference": _difference,
    "power": _power,
    "density": _density,
    "conductance": _same("W/K", 2),
    "insulation": _insulation,
    "conductivity": _same("W/m/K", 3),
    "film": _same("W/m²K", 1),
    "speed": _scaled("mile_per_hour", "kilometer_per_hour", "mph", "km/h", 1),
    "volts": _volts,
    "amps": _amps,
    "ohms": _ohms,
    "watt_hours": _energy,
    "charge": _same("Ah", 1),
    "hours": _hours,
    "minutes": _minutes,
    "share": _share,
    "fraction": _same("", 3),
    "bore": lambda value, _, side: Shown(_three(value, 2, side), "m²"),
    "for_a_metre": lambda value, _, side: Shown(_three(value, 2, side), "m·K/W"),
    "gauge": _gauge,
    "rating": _rating,
    "number": _same("", 2),
    "count": lambda value, _, side: Shown(_trimmed(value, 0, side)),
    "flag": _flag,
}
KINDS = tuple(_KINDS)

# What an uncertainty is divided by, kind by kind and system by system; 1 for all others.
_FACTORS: dict[tuple[str, bool], float] = {
    ("length", False): _factor("inch"),
    ("length", True): _factor("millimeter"),
    ("small_length", False): _factor("inch"),
    ("small_length", True): _factor("millimeter"),
    ("route", False): _factor("foot"),
    ("area", False): _factor("square_foot"),
    ("volume", False): _factor("us_gallon"),
    ("volume", True): _factor("liter"),
    ("mass", False): _factor("pound"),
    ("mass_of_copper", False): _factor("pound"),
    ("temperature", False): _factor("fahrenheit_difference"),
    ("whole_temperature", False): _factor("fahrenheit_difference"),
    ("difference", False): _factor("fahrenheit_difference"),
    ("density", False): _factor("watt_per_square_inch"),
    ("insulation", False): _factor("us_insulation"),
    ("speed", False): _factor("mile_per_hour"),
    ("speed", True): _factor("kilometer_per_hour"),
    ("watt_hours", False): _factor("watt_hour"),
    ("watt_hours", True): _factor("watt_hour"),
    ("hours", False): _factor("hour"),
    ("hours", True): _factor("hour"),
    ("minutes", False): 60.0,
    ("minutes", True): 60.0,
    ("share", False): _factor("percent"),
    ("share", True): _factor("percent"),
}

"""Quantities of a profile, "with a unit": the text of a file to SI (temperatures to °C), and back to text.

The grammar of the text is our own and strict: one decimal number and one unit, or, for lengths, the tape
grammar. Pint says what a unit is worth, from a small definitions file with exact fractions; it is imported
when the first quantity is read, and never sees what a person typed. The screen needs no pint: it prints by
`EXACT`, the same factors written out, which a test compares with pint's.
"""

import re
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import Any

from logic.data.reading_constants import INCH
from logic.data.tape import written_length
from logic.data.tape_fault import TapeFault
from logic.data.tape_text import feet_text, inches_text, nearest_mark

DEFINITIONS = Path(__file__).parent / "tables" / "units.txt"

# kind → spelling in a file → name in the definitions. The first spelling is the one that is written.
SPELLINGS: dict[str, dict[str, str]] = {
    "area": {"ft²": "square_foot", "ft2": "square_foot", "m²": "square_meter", "m2": "square_meter"},
    "temperature": {
        "degF": "degree_Fahrenheit",
        "°F": "degree_Fahrenheit",
        "degC": "degree_Celsius",
        "°C": "degree_Celsius",
    },
    "speed": {"mph": "mile_per_hour", "km/h": "kilometer_per_hour", "m/s": "meter_per_second"},
    "hours": {"h": "hour"},
    "power": {"W": "watt"},
    "volts": {"V": "volt"},
    "amps": {"A": "ampere"},
    "charge": {"Ah": "ampere_hour"},
    "ohms": {
        "Ω": "ohm",
        "ohm": "ohm",
        "mΩ": "milliohm",
        "mohm": "milliohm",
        "kΩ": "kiloohm",
        "MΩ": "megaohm",
    },
    "insulation": {"R": "us_insulation", "m²K/W": "si_insulation", "m2K/W": "si_insulation"},
    "conductance": {"W/K": "watt_per_kelvin"},
    "conductivity": {"W/m/K": "watt_per_meter_kelvin"},
    "share": {"%": "percent"},
}

# What each kind is turned into: SI, but for charge, which stays in Ah, and temperatures in °C.
SI_UNITS: dict[str, str] = {
    "length": "meter",
    "area": "square_meter",
    "temperature": "degree_Celsius",
    "speed": "meter_per_second",
    "hours": "second",
    "power": "watt",
    "volts": "volt",
    "amps": "ampere",
    "charge": "ampere_hour",
    "ohms": "ohm",
    "insulation": "si_insulation",
    "conductance": "watt_per_kelvin",
    "conductivity": "watt_per_meter_kelvin",
    "share": "",
}

# How an error says what is expected, with examples.
EXPECTED: dict[str, str] = {
    "length": 'a length with its unit, such as "41 3/8 in", "14 ft 6 in" or "1051 mm"',
    "area": 'an area in ft² or m², such as "80 ft²"',
    "temperature": 'a temperature in degF or degC, such as "-12 degF"',
    "speed": 'a speed in mph, km/h or m/s, such as "10 mph"',
    "hours": 'a time in h, such as "72 h"',
    "power": 'a power in W, such as "60 W"',
    "volts": 'a voltage in V, such as "12.8 V"',
    "amps": 'a current in A, such as "20 A"',
    "charge": 'a charge in Ah, such as "200 Ah"',
    "ohms": 'a resistance in Ω, mΩ, kΩ or MΩ, such as "5 mΩ"',
    "insulation": 'an insulation in R (US) or m²K/W, such as "R 5"',
    "conductance": 'a conductance in W/K, such as "4 W/K"',
    "conductivity": 'a conductivity in W/m/K, such as "0.4 W/m/K"',
    "share": 'a share in %, such as "3 %"',
}

# Exact factors from SI to what the screen shows: unit → (what one of it is in SI, where its zero lies in SI).
EXACT: dict[str, tuple[Fraction, Fraction]] = {
    "millimeter": (Fraction(1, 1000), Fraction(0)),
    "inch": (Fraction(254, 10000), Fraction(0)),
    "foot": (Fraction(3048, 10000), Fraction(0)),
    "square_foot": (Fraction(3048, 10000) ** 2, Fraction(0)),
    "liter": (Fraction(1, 1000), Fraction(0)),
    "us_gallon": (231 * Fraction(254, 10000) ** 3, Fraction(0)),
    "pound": (Fraction(45359237, 100000000), Fraction(0)),
    "hour": (Fraction(3600), Fraction(0)),
    "mile_per_hour": (5280 * Fraction(3048, 10000) / 3600, Fraction(0)),
    "kilometer_per_hour": (Fraction(1000, 3600), Fraction(0)),
    "degree_Fahrenheit": (Fraction(5, 9), Fraction(-160, 9)),
    "fahrenheit_difference": (Fraction(5, 9), Fraction(0)),
    "watt_hour": (Fraction(3600), Fraction(0)),
    "watt_per_square_inch": (1 / Fraction(254, 10000) ** 2, Fraction(0)),
    "us_insulation": (
        3600 * Fraction(3048, 10000) ** 2 * Fraction(5, 9) / Fraction(105505585262, 100000000),
        Fraction(0),
    ),
    "percent": (Fraction(1, 100), Fraction(0)),
}

# A script writes a double out with up to 17 digits that count, and zeros before them.
_NUMBER = r"[-−]?(?:[0-9]{1,15}(?:\.[0-9]{0,25})?|\.[0-9]{1,25})"
_AFTER = re.compile(rf"({_NUMBER})\s{{0,8}}(\S{{1,8}})")
_BEFORE = re.compile(rf"R\s{{0,8}}({_NUMBER})")
_LONGEST = 60


class UnitFault(ValueError):
    """A text that is no quantity of its kind; the message says what is expected."""

    def __init__(self, expected: str) -> None:
        super().__init__(expected)
        self.expected = expected


def read_quantity(text: str, kind: str) -> float:
    """The quantity in SI (charge in Ah, temperature in °C) that `text` states.

    kind : a key of `SI_UNITS`. Raises UnitFault: another unit, none, or no number.
    """
    trimmed = text.strip()
    if len(trimmed) > _LONGEST:
        raise UnitFault(EXPECTED[kind])
    if kind == "length":
        try:
            return written_length(trimmed)
        except TapeFault as fault:
            meant = fault.normal_forms or fault.question
            hint = f" (meant {' or '.join(meant)}?)" if meant else ""
            raise UnitFault(EXPECTED[kind] + hint) from None
    number, unit = _parts(trimmed, kind)
    factor, zero = worth(unit, SI_UNITS[kind])
    return float(number * factor + zero)


def _parts(text: str, kind: str) -> tuple[Fraction, str]:
    before = _BEFORE.fullmatch(text) if kind == "insulation" else None
    if before is not None:
        return _fraction(before[1]), "us_insulation"
    after = _AFTER.fullmatch(text)
    if after is None:
        raise UnitFault(EXPECTED[kind])
    # The ohm sign and the Greek letter look alike, and a file may hold either.
    spelling = after[2].replace("\u2126", "Ω")
    unit = SPELLINGS[kind].get(spelling)
    if unit is None or spelling == "R":
        raise UnitFault(EXPECTED[kind])
    return _fraction(after[1]), unit


def _fraction(number: str) -> Fraction:
    return Fraction(number.replace("−", "-"))


@lru_cache(maxsize=1)
def registry() -> Any:
    """Pint's registry of our own units, exact fractions throughout."""
    import pint

    return pint.UnitRegistry(str(DEFINITIONS), non_int_type=Fraction, cache_folder=None)


@lru_cache(maxsize=256)
def worth(unit: str, si_unit: str) -> tuple[Fraction, Fraction]:
    """What one of `unit` is worth in `si_unit`, and where its zero lies: exact. Names of `units.txt`."""
    units = registry()
    if not si_unit:
        return Fraction(units.Quantity(Fraction(1), unit).to("").magnitude), Fraction(0)
    zero = Fraction(units.Quantity(Fraction(0), unit).to(si_unit).magnitude)
    one = Fraction(units.Quantity(Fraction(1), unit).to(si_unit).magnitude)
    return one - zero, zero


def plain_number(value: float) -> str:
    """A decimal of up to 12 digits, without exponent and without zeros at its end, as a file states it."""
    text = f"{Decimal(f'{value:.12g}'):f}"
    return "0" if text == "-0" else text


def quantity_text(value: float, kind: str, *, metric: bool = False) -> str:
    """The text of a quantity in SI, in the file's own unit; `read_quantity` gives it back within 1e-9."""
    if kind == "length":
        return length_text(value, metric=metric)
    spelling = _written_unit(kind, metric=metric)
    factor, zero = worth(SPELLINGS[kind][spelling], SI_UNITS[kind])
    number = plain_number(float((Fraction(value) - zero) / factor))
    return f"R {number}" if spelling == "R" else f"{number} {spelling}"


@lru_cache(maxsize=1024)  # of a rig's many sizes most are some other's as well
def length_text(value: float, *, metric: bool = False) -> str:
    """The text of a length: `41 3/8 in`, `41.37 in` where it is no 64th, `1051 mm`. value : m."""
    if metric:
        return f"{_to_places(Fraction(value) * 1000, 8)} mm"
    return inches_text(value) if _on_a_mark(value) else f"{_to_places(Fraction(value) / INCH, 9)} in"


def route_text(value: float, *, metric: bool = False) -> str:
    """The text of a route, a long length: `14 ft 6 in`, `4.42 m`. value : m."""
    if metric:
        return f"{_to_places(Fraction(value), 11)} m"
    return feet_text(value) if _on_a_mark(value) else length_text(value)


_A_64TH = float(INCH / 64)


def _on_a_mark(value: float) -> bool:
    """Whether a length is some 64th of an inch, roundings apart."""
    marks = value / _A_64TH
    if abs(marks - round(marks)) > 1e-5:  # far from one: no need to look exactly
        return False
    return abs(Fraction(value) / INCH - nearest_mark(value)) < Fraction(1, 10**8)


def _to_places(number: Fraction, places: int) -> str:
    text = f"{float(number):.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("", "-0") else text


def _written_unit(kind: str, *, metric: bool) -> str:
    in_metric = {"area": "m²", "temperature": "degC", "speed": "m/s", "insulation": "m²K/W"}
    if metric and kind in in_metric:
        return in_metric[kind]
    if kind == "ohms":
        return "mΩ"
    return next(iter(SPELLINGS[kind]))

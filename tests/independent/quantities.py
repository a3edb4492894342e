"""A profile's texts as numbers in SI and °C, split by regular expressions: part of the second reckoning.

For texts that are known to be valid; whatever they are not meant for ends in a KeyError or a ValueError.
"""

import re
from fractions import Fraction

INCH = 0.0254
FOOT = 12 * INCH
BTU = 1055.05585262  # the international table's
R_US = FOOT**2 * (5 / 9) * 3600 / BTU  # 1 h·ft²·°F/Btu in m²K/W

FACTORS = {
    "mm": 1e-3, "cm": 1e-2, "m": 1.0, "ft²": FOOT**2, "ft2": FOOT**2, "m²": 1.0, "m2": 1.0,
    "mph": 0.44704, "km/h": 1 / 3.6, "m/s": 1.0, "W": 1.0, "V": 1.0, "A": 1.0, "Ah": 1.0,
    "Ω": 1.0, "ohm": 1.0, "mΩ": 1e-3, "mohm": 1e-3, "kΩ": 1e3, "MΩ": 1e6,
    "m²K/W": 1.0, "m2K/W": 1.0, "W/K": 1.0, "W/m/K": 1.0, "%": 0.01, "h": 3600.0,
}  # fmt: skip

NUMBER = r"([+-]?[\d.]+)"


def si(text):
    """One quantity: a number as it is, a text by its unit. [SI, °C]"""
    if isinstance(text, int | float):
        return float(text)
    if found := re.fullmatch(rf"R\s*{NUMBER}", text):
        return float(found[1]) * R_US
    if found := re.fullmatch(rf"{NUMBER}\s*(?:degF|°F)", text):
        return (float(found[1]) - 32) / 1.8
    if found := re.fullmatch(rf"{NUMBER}\s*(?:degC|°C)", text):
        return float(found[1])
    if re.search(r"(in|ft|['\"])$", text):
        return tape(text)
    number, unit = re.split(r"(?<=[\d.])\s*(?=[^\d.])", text, maxsplit=1)
    return float(number) * FACTORS[unit]


def tape(text):
    """Feet, inches and fractions of inches. [m]"""
    feet, _, rest = text.replace("'", "ft").replace('"', "in").rpartition("ft")
    inches = 12 * Fraction(feet.strip()) if feet else Fraction(0)
    for part in re.split(r"[\s+-]+", rest.replace("in", "").strip()):
        inches += Fraction(part) if part else 0
    return float(inches * Fraction(254, 10000))

"""Lengths of a profile in the grammar of a tape, the unit written out: exact, on fractions.

Read: `41 3/8 in`, `41-3/8"`, `41+3/8 in`, `3' 5 3/8"`, `3 ft 5-3/8 in`, `3' 5 3/8`, `1051 mm`, `105.1 cm`, `1.051 m`,
with Unicode fractions and primes as well. A bare number has no unit and is refused.
"""

import re
from fractions import Fraction

INCH = Fraction(254, 10000)  # m, exact
FOOT = 12 * INCH
_METRIC = {"mm": Fraction(1, 1000), "cm": Fraction(1, 100), "m": Fraction(1)}
_GLYPHS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_DENOMINATORS = (2, 4, 8, 16, 32, 64)
_DECIMAL = r"(?:[0-9]{1,9}(?:\.[0-9]{0,12})?|\.[0-9]{1,12})"
_METRIC_FORM = re.compile(rf"(-?)({_DECIMAL})\s*(mm|cm|m)")
_FRACTION = r"(?:(?P<whole>[0-9]{1,6})(?:\s+|\s*[-+]\s*))?(?P<over>[0-9]{1,4})\s*/\s*(?P<under>[0-9]{1,4})"
_INCHES = rf"(?:{_FRACTION}|(?P<inches>{_DECIMAL}))"
_INCH_FORM = re.compile(rf"(?P<sign>-?)\s*{_INCHES}\s*(?:in|\")")
_FEET_FORM = re.compile(rf"(?P<sign>-?)\s*(?P<feet>{_DECIMAL})\s*(?:ft|')(?:\s*-?\s*{_INCHES}\s*(?:in|\")?)?")


class LengthFault(ValueError):
    """No length with a unit; `hint` says what is odd about it, where that is known."""

    def __init__(self, hint: str = "") -> None:
        super().__init__(hint)
        self.hint = hint


def read_length(text: str) -> Fraction:
    """The length that `text` states. [m]    Raises LengthFault."""
    plain = _plain(text)
    metric = _METRIC_FORM.fullmatch(plain)
    if metric is not None:
        return _signed(metric[1], Fraction(metric[2]) * _METRIC[metric[3]])
    inches = _INCH_FORM.fullmatch(plain)
    if inches is not None:
        return _signed(inches["sign"], _inches(inches) * INCH)
    feet = _FEET_FORM.fullmatch(plain)
    if feet is not None:
        return _signed(feet["sign"], _feet(feet))
    raise LengthFault()


def _plain(text: str) -> str:
    for glyph, fraction in _GLYPHS.items():
        text = re.sub(rf"(?<=[0-9])\s*{glyph}", f" {fraction}", text).replace(glyph, fraction)
    for odd, usual in (("⁄", "/"), ("″", '"'), ("”", '"'), ("′", "'"), ("’", "'"), ("−", "-")):
        text = text.replace(odd, usual)
    return text.strip()


def _signed(sign: str, length: Fraction) -> Fraction:
    return -length if sign else length


def _inches(match: re.Match[str]) -> Fraction:
    if match["inches"] is not None:
        return Fraction(match["inches"])
    over, under = int(match["over"]), int(match["under"])
    if under not in _DENOMINATORS:
        raise LengthFault("a tape has halves, quarters, 8ths, 16ths, 32nds and 64ths")
    if over >= under:
        raise LengthFault(f"{over}/{under} is no part of an inch")
    return Fraction(match["whole"] or 0) + Fraction(over, under)


def _feet(match: re.Match[str]) -> Fraction:
    feet = Fraction(match["feet"])
    if match["inches"] is None and match["over"] is None:
        return feet * FOOT
    if feet.denominator != 1:
        raise LengthFault("feet with inches are whole")
    inches = _inches(match)
    if inches >= 12:
        raise LengthFault(f"{float(inches):g} inches are a foot or more")
    return feet * FOOT + inches * INCH


def length_text(value: float, *, metric: bool = False) -> str:
    """The text of a length: `41 3/8 in` where it is a 64th, `41.37 in` where not, `1051 mm` in metric.

    value : m. Reads back within 1e-9 m.
    """
    if metric:
        return f"{_decimal(Fraction(value) * 1000)} mm"
    inches = Fraction(value) / INCH
    parts = round(inches * 64)
    if abs(inches - Fraction(parts, 64)) > Fraction(1, 10**8):
        return f"{_decimal(inches)} in"
    sign = "-" if parts < 0 else ""
    whole, rest = divmod(abs(parts), 64)
    if not rest:
        return f"{sign}{whole} in"
    fraction = Fraction(rest, 64)
    return f"{sign}{f'{whole} ' if whole else ''}{fraction.numerator}/{fraction.denominator} in"


def _decimal(number: Fraction) -> str:
    text = f"{float(number):.8f}".rstrip("0").rstrip(".")
    return "0" if text in ("", "-0") else text

"""A length back to the text of a tape: fractions of an inch where they are such."""

from fractions import Fraction

INCH = Fraction(254, 10000)  # m, exact
FINEST = 64  # parts of an inch that a tape may have
_SAME = Fraction(1, 10**8)  # in: nearer than this to a 64th is that 64th


def length_text(value: float, *, metric: bool = False) -> str:
    """The text of a length as a file has it: `41 3/8 in`, `41.37 in` where it is no 64th, `1051 mm`.

    value : m. The text reads back within 1e-9 m.
    """
    if metric:
        return f"{_decimal(Fraction(value) * 1000)} mm"
    inches = Fraction(value) / INCH
    parts = round(inches * FINEST)
    if abs(inches - Fraction(parts, FINEST)) > _SAME:
        return f"{_decimal(inches)} in"
    return f"{tape_fraction(parts, FINEST)} in"


def tape_fraction(parts: int, of: int) -> str:
    """`parts` of 1/`of` inch as a tape shows it, in lowest terms: 331 of 8 is `41 3/8`."""
    sign = "-" if parts < 0 else ""
    whole, rest = divmod(abs(parts), of)
    if not rest:
        return f"{sign}{whole}"
    fraction = Fraction(rest, of)
    return f"{sign}{f'{whole} ' if whole else ''}{fraction.numerator}/{fraction.denominator}"


def _decimal(number: Fraction) -> str:
    text = f"{float(number):.8f}".rstrip("0").rstrip(".")
    return "0" if text in ("", "-0") else text

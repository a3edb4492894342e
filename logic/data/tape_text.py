"""A length as a tape shows it: whole feet, inches below 12, a fraction in lowest terms.

The only printer of tape fractions. What it prints, `tape.py` reads back to the same length.
"""

from fractions import Fraction

from logic.data.reading_constants import INCH

INCHES_IN_A_FOOT = 12


def nearest_mark(metres: float | Fraction, *, smallest: int = 64) -> Fraction:
    """The mark nearest to a length on a tape divided into 1/`smallest` in. [in]

    smallest : a power of two, 1 to 64. Raises ValueError: otherwise.
    """
    if smallest not in (1, 2, 4, 8, 16, 32, 64):
        raise ValueError(f"no tape is divided into 1/{smallest} in")
    return Fraction(round(Fraction(metres) / INCH * smallest), smallest)


def mixed_number(value: Fraction) -> str:
    """`41 3/8`, `3/8`, `41`, `0`, `-1/4`: a whole number and a proper fraction in lowest terms."""
    sign = "-" if value < 0 else ""
    whole, rest = divmod(abs(value.numerator), value.denominator)
    if rest == 0:
        return f"{sign}{whole}"
    fraction = f"{rest}/{value.denominator}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"


def inches_text(metres: float | Fraction, *, smallest: int = 64, mark: str = " in") -> str:
    """A length in inches, to the nearest 1/`smallest`: `41 3/8 in`; with mark `"`: `41 3/8"`."""
    return f"{mixed_number(nearest_mark(metres, smallest=smallest))}{mark}"


def feet_text(
    metres: float | Fraction, *, smallest: int = 64, foot_mark: str = " ft", inch_mark: str = " in"
) -> str:
    """A length in feet and inches, to the nearest 1/`smallest` in: `3 ft 5 3/8 in`; below a foot, inches.

    With the marks `'` and `"`: `3' 5 3/8"`. Whole feet stand alone: `14 ft`.
    """
    total = nearest_mark(metres, smallest=smallest)
    sign = "-" if total < 0 else ""
    feet, inches = divmod(abs(total), INCHES_IN_A_FOOT)
    if feet == 0:
        return f"{sign}{mixed_number(inches)}{inch_mark}"
    if inches == 0:
        return f"{sign}{feet}{foot_mark}"
    return f"{sign}{feet}{foot_mark} {mixed_number(inches)}{inch_mark}"

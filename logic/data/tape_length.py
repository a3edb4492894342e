"""The grammar of a length as it is read off a tape, on exact fractions.

    length     = ["-"] measure [("±" | "+-") resolution]
    measure    = feet [inches] | amount [unit]
    feet       = whole ("'" | "ft")        inches = [space | "-"] amount under 12 ["″" | "in"]
    amount     = whole (space | "-" | "+") fraction | whole glyph | fraction | decimal
    fraction   = digits "/" (2 | 4 | 8 | 16 | 32 | 64), below one
    unit       = "in" | "″" | "ft" | "'" | "mm" | "cm" | "m"

What isn't in it is a GrammarFault, with the normal forms where what was meant can be told: nothing is summed.
"""

from fractions import Fraction

import msgspec

from logic.data.reading_constants import FOOT, INCH
from logic.data.tape_fault import GrammarFault
from logic.data.tape_scan import LONGEST_NUMBER, LONGEST_WRITTEN_NUMBER, Cursor, Token, tokens_of
from logic.data.tape_text import INCHES_IN_A_FOOT, mixed_number

SCALE = {"in": INCH, "ft": FOOT, "mm": Fraction(1, 1000), "cm": Fraction(1, 100), "m": Fraction(1)}
METRIC = ("mm", "cm", "m")
DENOMINATORS = (2, 4, 8, 16, 32, 64)
MARK_UNITS = {"'": "ft", '"': "in"}


class Length(msgspec.Struct, frozen=True):
    metres: Fraction
    unit: str  # the last one that was used: in | ft | mm | cm | m
    unit_written: bool
    resolution: Fraction | None = None  # m, where it was typed


class _Amount(msgspec.Struct, frozen=True):
    """A number as typed; `split` holds what a fraction typed without its space may have meant."""

    value: Fraction
    fraction: bool = False
    improper: bool = False
    split: tuple[Fraction, ...] = ()


def read_length(typed: str, *, own_unit: str) -> Length:
    """A typed length; a bare number is in `own_unit` (in, ft, mm, cm or m; empty: a unit must be written).

    Without a unit of its own it stands in a file, where a script may have put all the digits that it had.
    Raises GrammarFault: not in the grammar. Linear in the number of characters, and they are bounded.
    """
    cursor = Cursor(tokens_of(typed, longest_number=LONGEST_NUMBER if own_unit else LONGEST_WRITTEN_NUMBER))
    if cursor.ended:
        raise GrammarFault("nothing was typed")
    negative = cursor.take_if("-") is not None
    if negative and cursor.peek().spaced:
        raise GrammarFault("a minus stands right before its number")
    measured = _measure(cursor, own_unit=own_unit)
    metres = -measured.metres if negative else measured.metres
    resolution = None
    if cursor.take_if("±") is not None:
        resolution = _resolution(cursor, last_unit=measured.unit)
    if not cursor.ended:
        raise GrammarFault(_left_over(cursor.peek()))
    return Length(metres, measured.unit, measured.unit_written, resolution)


def _left_over(token: Token) -> str:
    if token.kind == "number":
        return "one number too many: a fraction needs its stroke, several readings are parted by semicolons"
    if token.kind == "word":
        return f"{token.text} is no unit of length here"
    return f"{token.text} has no meaning there"


def _measure(cursor: Cursor, *, own_unit: str) -> Length:
    amount = _amount(cursor)
    unit = _unit(cursor)
    if unit == "ft":
        return _feet(cursor, amount)
    if unit in METRIC and amount.fraction:
        raise GrammarFault("a fraction is inches; metric wants a decimal", _forms_of_inches(amount))
    if amount.improper:
        raise GrammarFault(
            "a fraction on a tape is below one",
            tuple(f"{mixed_number(value)}{_mark(unit, own_unit)}" for value in _meanings(amount)),
        )
    if unit is not None:
        return Length(amount.value * SCALE[unit], unit, True)
    if not own_unit:
        raise GrammarFault("a unit must be written: in, ft, mm, cm or m")
    if amount.fraction and own_unit != "in":
        raise GrammarFault(
            f"a bare number is {own_unit} here, and a fraction is inches", _forms_of_bare(amount, own_unit)
        )
    return Length(amount.value * SCALE[own_unit], own_unit, False)


def _feet(cursor: Cursor, feet: _Amount) -> Length:
    inches = _inches(cursor)
    if inches is None and not feet.fraction:
        return Length(feet.value * FOOT, "ft", True)
    total = feet.value * INCHES_IN_A_FOOT
    over = Fraction(0) if inches is None else inches.value
    if feet.fraction or feet.value.denominator != 1:
        raise GrammarFault("feet are whole, inches follow", (feet_form(total + over),))
    assert inches is not None
    if inches.improper:
        raise GrammarFault(
            "a fraction on a tape is below one",
            tuple(feet_form(total + value) for value in _meanings(inches)),
        )
    if inches.value >= INCHES_IN_A_FOOT:
        raise GrammarFault("after feet, inches are below 12", (feet_form(total + inches.value),))
    return Length((total + inches.value) * INCH, "in", True)


def _inches(cursor: Cursor) -> _Amount | None:
    """The inches after feet, with or without their mark; None where none follow."""
    joined = cursor.peek().kind == "-" and not cursor.peek().spaced and not cursor.peek(1).spaced
    if joined and cursor.peek(1).kind in ("number", "glyph"):
        cursor.take()
    elif cursor.peek().kind not in ("number", "glyph"):
        return None
    amount = _amount(cursor)
    unit = _unit(cursor)
    if unit not in (None, "in"):
        raise GrammarFault("after feet come inches")
    return amount


def _amount(cursor: Cursor) -> _Amount:
    first = cursor.take()
    if first.kind == "glyph":
        return _fraction(first.numerator, first.denominator)
    if first.kind != "number":
        raise GrammarFault("a number comes first")
    if cursor.peek().kind == "/":
        return _stroke(cursor, first)
    if first.whole and (fraction := _joined_fraction(cursor)) is not None:
        return msgspec.structs.replace(
            fraction,
            value=first.value + fraction.value,
            split=tuple(first.value + value for value in fraction.split),
        )
    return _Amount(first.value)


def _joined_fraction(cursor: Cursor) -> _Amount | None:
    """The fraction after a whole number: by a space, `-` or `+`, or a glyph; None where there is none."""
    after = cursor.peek()
    if after.kind == "glyph":
        cursor.take()
        return _fraction(after.numerator, after.denominator)
    if after.kind in ("-", "+") and not after.spaced and not cursor.peek(1).spaced:
        if cursor.peek(1).kind == "glyph":
            cursor.take()
            glyph = cursor.take()
            return _fraction(glyph.numerator, glyph.denominator)
        if cursor.peek(1).kind == "number" and cursor.peek(2).kind == "/":
            cursor.take()
            return _stroke(cursor, cursor.take())
        return None
    if after.kind == "number" and after.spaced and cursor.peek(1).kind == "/":
        return _stroke(cursor, cursor.take())
    return None


def _stroke(cursor: Cursor, numerator: Token) -> _Amount:
    stroke, denominator = cursor.take(), cursor.take()
    if denominator.kind != "number":
        raise GrammarFault("a fraction wants a number under its stroke")
    if stroke.spaced or denominator.spaced:
        raise GrammarFault("a fraction is written without spaces")
    if not (numerator.whole and denominator.whole):
        raise GrammarFault("a fraction has whole numbers above and below its stroke")
    fraction = _fraction(int(numerator.text), int(denominator.text))
    if not fraction.improper:
        return fraction
    return msgspec.structs.replace(fraction, split=_splits(numerator.text, int(denominator.text)))


def _fraction(numerator: int, denominator: int) -> _Amount:
    if denominator not in DENOMINATORS:
        raise GrammarFault("a tape has halves, 4ths, 8ths, 16ths, 32nds and 64ths")
    return _Amount(Fraction(numerator, denominator), fraction=True, improper=numerator >= denominator)


def _splits(digits: str, denominator: int) -> tuple[Fraction, ...]:
    """What `413/8` may have meant where a space was missed: 41 3/8."""
    return tuple(
        int(digits[:at]) + Fraction(int(digits[at:]), denominator)
        for at in range(1, len(digits))
        if digits[at] != "0" and int(digits[at:]) < denominator
    )


def _unit(cursor: Cursor) -> str | None:
    token = cursor.peek()
    if token.kind in MARK_UNITS:
        cursor.take()
        return MARK_UNITS[token.kind]
    if token.kind == "word" and token.text.lower() in SCALE:
        cursor.take()
        return token.text.lower()
    return None


def _resolution(cursor: Cursor, *, last_unit: str) -> Fraction:
    amount = _amount(cursor)
    unit = _unit(cursor) or last_unit
    if amount.improper:
        raise GrammarFault("a fraction on a tape is below one")
    if amount.fraction and unit != "in":
        raise GrammarFault(
            f"the resolution is {unit} here, and a fraction is inches", (f'± {mixed_number(amount.value)}"',)
        )
    if amount.value == 0:
        raise GrammarFault("a resolution is over 0")
    return amount.value * SCALE[unit]


def _meanings(amount: _Amount) -> tuple[Fraction, ...]:
    """What an improper fraction may have meant: first with its missed space, then its sum."""
    return (*amount.split, amount.value)


def _mark(unit: str | None, own_unit: str) -> str:
    return "" if unit is None and own_unit == "in" else '"'


def _forms_of_inches(amount: _Amount) -> tuple[str, ...]:
    return (f'{mixed_number(amount.value)}"',) if not amount.improper else ()


def _forms_of_bare(amount: _Amount, own_unit: str) -> tuple[str, ...]:
    """A bare fraction in a slot in feet or metric: as feet where it may be feet, as inches, as a decimal."""
    inches = f'{mixed_number(amount.value)}"'
    feet = feet_form(amount.value * INCHES_IN_A_FOOT)
    if own_unit == "ft":
        return (feet, inches)
    decimal = f"{_decimal(amount.value)} {own_unit}"
    return (feet, inches, decimal) if own_unit == "m" else (inches, decimal)


def _decimal(value: Fraction) -> str:
    """A dyadic fraction in full: 1/64 has six places."""
    return f"{float(value):.6f}".rstrip("0").rstrip(".")


def feet_form(inches: Fraction) -> str:
    """Inches as the normal form in feet, exact: `4' 2"`; below a foot, inches alone."""
    feet, rest = divmod(inches, INCHES_IN_A_FOOT)
    if feet == 0:
        return f'{mixed_number(rest)}"'
    return f"{feet}'" if rest == 0 else f"{feet}' {mixed_number(rest)}\""

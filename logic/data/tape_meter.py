"""What a meter or a thermometer shows, as it is typed: volts, amps, ohms, temperatures, humidity.

    value = ["-"] decimal [unit] [("±" | "+-") decimal [unit]]
    over  = "OL" | "open" | ">" decimal [unit]            (resistance and isolation only)

The unit's letters keep their case where it matters: mΩ and MΩ are a thousand million apart.
"""

from fractions import Fraction

import msgspec

from logic.data.reading_constants import OVER_RANGE_OHMS
from logic.data.tape_fault import GrammarFault
from logic.data.tape_scan import Cursor, Token, tokens_of

MILLI, KILO, MEGA = Fraction(1, 1000), Fraction(1000), Fraction(1_000_000)
KELVIN_PER_F = Fraction(5, 9)

# unit as it is named → scale to SI, by the kind of the slot
UNITS: dict[str, dict[str, Fraction]] = {
    "volts": {"V": Fraction(1), "mV": MILLI},
    "amps": {"A": Fraction(1), "mA": MILLI},
    "ohms": {"Ω": Fraction(1), "mΩ": MILLI, "kΩ": KILO, "MΩ": MEGA},
    "share": {"%": Fraction(1, 100)},
    "temperature": {"°F": KELVIN_PER_F, "°C": Fraction(1)},
}
OVER_WORDS = ("ol", "open")
# what people type on a plain keyboard
SPELLINGS = {
    "v": "V", "mv": "mV", "a": "A", "ma": "mA", "°f": "°F", "°c": "°C", "f": "°F", "c": "°C", "degf": "°F",
    "degc": "°C",
}  # fmt: skip
OHM_WORDS = ("ohm", "ohms")
ZERO_F = Fraction(32)


class MeterValue(msgspec.Struct, frozen=True):
    value: Fraction  # SI; °C; a share from 0 to 1
    unit: str
    resolution: Fraction | None  # SI: as typed after ±, otherwise one unit of the last digit; None: OL, open
    over: bool = False


def read_meter(typed: str, *, kind: str, own_unit: str) -> MeterValue:
    """A typed value of a slot of `kind` (volts, amps, ohms, share, temperature); bare, in `own_unit`.

    Raises GrammarFault: not in the grammar, or over range where that says nothing.
    """
    cursor = Cursor(tokens_of(typed))
    if cursor.ended:
        raise GrammarFault("nothing was typed")
    first = cursor.peek()
    if first.kind == ">" or (first.kind == "word" and first.text.lower() in OVER_WORDS):
        return _over(cursor, kind=kind, own_unit=own_unit)
    negative = cursor.take_if("-") is not None
    if negative and cursor.peek().spaced:
        raise GrammarFault("a minus stands right before its number")
    number = _decimal(cursor)
    unit = _unit(cursor, kind) or own_unit
    scale = UNITS[kind][unit]
    resolution = _last_digit(number) * scale
    if cursor.take_if("±") is not None:
        width = _decimal(cursor)
        resolution = width.value * UNITS[kind][_unit(cursor, kind) or unit]
        if resolution == 0:
            raise GrammarFault("a resolution is over 0")
    if not cursor.ended:
        raise GrammarFault(_left_over(cursor.peek()))
    value = -number.value if negative else number.value
    if unit == "°F":
        value -= ZERO_F
    return MeterValue(value * scale, unit, resolution)


def _over(cursor: Cursor, *, kind: str, own_unit: str) -> MeterValue:
    if kind != "ohms":
        raise GrammarFault("over range is a reading of resistance or isolation only")
    value, unit = OVER_RANGE_OHMS, own_unit
    resolution = None
    if cursor.take().kind == ">":
        number = _decimal(cursor)
        unit = _unit(cursor, kind) or own_unit
        value = number.value * UNITS[kind][unit]
        resolution = _last_digit(number) * UNITS[kind][unit]
    if not cursor.ended:
        raise GrammarFault(_left_over(cursor.peek()))
    return MeterValue(value, unit, resolution, over=True)


def _decimal(cursor: Cursor) -> Token:
    number = cursor.take()
    if number.kind != "number":
        raise GrammarFault(
            "a number comes first" if number.kind != "glyph" else "no fraction: a decimal number"
        )
    if cursor.peek().kind in ("/", "glyph"):
        raise GrammarFault("no fraction: a decimal number")
    return number


def _last_digit(number: Token) -> Fraction:
    """One unit of the last digit that was typed: 12.80 has hundredths."""
    _, point, places = number.text.partition(".")
    return Fraction(1, 10 ** len(places)) if point else Fraction(1)


def _unit(cursor: Cursor, kind: str) -> str | None:
    token = cursor.peek()
    if token.kind != "word":
        return None
    cursor.take()
    unit = _spelled(token.text)
    if unit not in UNITS[kind]:
        raise GrammarFault(f"{token.text} is no unit here: {', '.join(UNITS[kind])}")
    return unit


def _spelled(text: str) -> str:
    lower = text.lower()
    for word in OHM_WORDS:
        if lower.endswith(word):
            prefix = text[: -len(word)]
            return {"": "Ω", "m": "mΩ", "k": "kΩ", "K": "kΩ", "M": "MΩ"}.get(prefix, text)
    if text == "KΩ":
        return "kΩ"
    # MV and MA would be megavolts: only the small m is thousandths
    return SPELLINGS.get(lower, text) if text[:1] != "M" else text


def _left_over(token: Token) -> str:
    if token.kind == "number":
        return "one number too many: several readings are parted by semicolons"
    return f"{token.text} has no meaning there"

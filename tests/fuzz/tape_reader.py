"""A second reader of typed values, for comparison: every derivation that the grammar allows, and none preferred.

Written from the grammar in words, without the program's tokens: a phrase is a function from a text and a place in
it to all the meanings that may begin there, each with the place where it ends. A text means something where all
its derivations to the end say the same; with none, or with two that differ, it has to be refused. The program
itself walks along tokens once and never back, and the reader in `tests/properties/test_tape.py` is one regular
expression: three techniques, which fail in different ways.
"""

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import product
from typing import NamedTuple

Meaning = tuple[object, int]
Phrase = Callable[[str, int], Iterator[Meaning]]

INCH, FOOT = Fraction(254, 10_000), Fraction(3048, 10_000)
SCALES = {"in": INCH, "ft": FOOT, "mm": Fraction(1, 1000), "cm": Fraction(1, 100), "m": Fraction(1)}
UNIT_SIGNS = {"in": ("in", '"', "″"), "ft": ("ft", "'", "′"), "mm": ("mm",), "cm": ("cm",), "m": ("m",)}
GLYPHS = {"½": (1, 2), "¼": (1, 4), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)}
ON_A_TAPE = (2, 4, 8, 16, 32, 64)
MINUS, PLUS_MINUS, STROKE = ("-", "−"), ("±", "+-"), ("/", "⁄", "∕")


def _any_case(word: str) -> tuple[str, ...]:
    return tuple("".join(signs) for signs in product(*({sign.lower(), sign.upper()} for sign in word)))


_OHM = ("Ω", "\u2126", *_any_case("ohm"), *_any_case("ohms"))
_DEGREES = ("", "°", "º", *_any_case("deg"))
# kind → unit → scale, and every spelling: only where no thousand or million hangs on it is the case free
METER_UNITS: dict[str, dict[str, tuple[Fraction, tuple[str, ...]]]] = {
    "volts": {"V": (Fraction(1), ("V", "v")), "mV": (Fraction(1, 1000), ("mV", "mv"))},
    "amps": {"A": (Fraction(1), ("A", "a")), "mA": (Fraction(1, 1000), ("mA", "ma"))},
    "ohms": {
        "Ω": (Fraction(1), _OHM),
        "mΩ": (Fraction(1, 1000), tuple(f"m{sign}" for sign in _OHM)),
        "kΩ": (Fraction(1000), tuple(f"{kilo}{sign}" for kilo in "kK" for sign in _OHM)),
        "MΩ": (Fraction(10**6), tuple(f"M{sign}" for sign in _OHM)),
    },
    "share": {"%": (Fraction(1, 100), ("%",))},
    "temperature": {
        "°F": (Fraction(5, 9), tuple(f"{degree}{sign}" for degree in _DEGREES for sign in "Ff")),
        "°C": (Fraction(1), tuple(f"{degree}{sign}" for degree in _DEGREES for sign in "Cc")),
    },
}


class Said(NamedTuple):
    """SI value, resolution as typed (None: not typed), and the unit that it was last said in."""

    value: Fraction
    unit: str
    resolution: Fraction | None = None
    over: bool = False


def meanings(text: str, phrase: Phrase) -> set[object]:
    """All that a whole text may mean."""
    if len(text) > 100:
        return set()
    return {
        meaning
        for start in _spaces(text, 0)
        for meaning, end in phrase(text, start)
        if not text[end:].strip()
    }


# --- what numbers are made of ---


def _spaces(text: str, at: int) -> tuple[int]:
    """Where the next sign stands: spaces between words mean nothing."""
    while at < len(text) and text[at].isspace():
        at += 1
    return (at,)


def _digits(text: str, at: int) -> int:
    while at < len(text) and text[at] in "0123456789":
        at += 1
    return at


def _signs(text: str, at: int, signs: tuple[str, ...], *, any_case: bool = False) -> Iterator[int]:
    """Where one of these signs ends. A word is not cut short: no letter may follow one that is made of letters."""
    for sign in signs:
        there = text[at : at + len(sign)]
        if there == sign or (any_case and there.lower() == sign.lower()):
            end = at + len(sign)
            letters = sign[-1].isalpha() or sign[-1] in "%°º"
            if not (letters and end < len(text) and _in_word(text[end])):
                yield end


def _in_word(sign: str) -> bool:
    return sign in "%°º" or (sign.isalpha() and sign not in GLYPHS)


def decimal(text: str, at: int) -> Iterator[tuple[tuple[Fraction, int, bool], int]]:
    """Value, places behind the point, and whether it is written without one."""
    end = _digits(text, at)
    point = end
    if text[end : end + 1] == "." and _digits(text, end + 1) > end + 1:
        end = _digits(text, end + 1)
    if at < end and end - at <= 15:
        yield (Fraction(text[at:end]), max(0, end - point - 1), end == point), end


def fraction(text: str, at: int) -> Iterator[tuple[Fraction, int]]:
    """Below one, of halves to 64ths, by a glyph or by a stroke with nothing between."""
    if text[at : at + 1] in GLYPHS and at < len(text):
        yield Fraction(*GLYPHS[text[at]]), at + 1
    above = _digits(text, at)
    if at < above <= at + 15 and above < len(text) and text[above] in STROKE:
        below = _digits(text, above + 1)
        if above + 1 < below <= above + 16 and text[below : below + 1] != ".":
            over, under = int(text[at:above]), int(text[above + 1 : below])
            if under in ON_A_TAPE and over < under:
                yield Fraction(over, under), below


def amount(text: str, at: int) -> Iterator[tuple[tuple[Fraction, bool], int]]:
    """Value, and whether a fraction is in it."""
    for (value, _, whole), end in decimal(text, at):
        yield (value, False), end
        if whole:
            for begin in _joints(text, end):
                for part, over in fraction(text, begin):
                    yield (value + part, True), over
    for part, end in fraction(text, at):
        yield (part, True), end


def _joints(text: str, at: int) -> Iterator[int]:
    """Where a fraction may begin behind its whole number: a space, one of `-` `+` alone, a glyph at once."""
    if text[at : at + 1] in GLYPHS and at < len(text):
        yield at
    for begin in _spaces(text, at):
        if begin > at:
            yield begin
    if text[at : at + 1] in (*MINUS, "+") and at + 1 < len(text):
        yield at + 1


# --- lengths ---


def _unit(text: str, at: int) -> Iterator[tuple[str, int]]:
    for begin in _spaces(text, at):
        for unit, signs in UNIT_SIGNS.items():
            for end in _signs(text, begin, signs, any_case=True):
                yield unit, end


def measure(own_unit: str) -> Phrase:
    """A length without sign and resolution: metres and the unit last used."""

    def phrase(text: str, at: int) -> Iterator[tuple[tuple[Fraction, str], int]]:
        for (value, fractional), end in amount(text, at):
            if not fractional or own_unit == "in":
                yield (value * SCALES[own_unit], own_unit), end
            for unit, after in _unit(text, end):
                if not fractional or unit == "in":
                    yield (value * SCALES[unit], unit), after
                if unit == "ft" and not fractional and value.denominator == 1:
                    yield from _inches(text, after, value * FOOT)

    return phrase


def _inches(text: str, at: int, feet: Fraction) -> Iterator[tuple[tuple[Fraction, str], int]]:
    begins = [*_spaces(text, at)]
    if text[at : at + 1] in MINUS and at + 1 < len(text):
        begins.append(at + 1)
    for begin in begins:
        for (value, _), end in amount(text, begin):
            if value < 12:
                yield (feet + value * INCH, "in"), end
                for unit, after in _unit(text, end):
                    if unit == "in":
                        yield (feet + value * INCH, "in"), after


def length(own_unit: str) -> Phrase:
    """A length as it may be typed, sign and resolution too; a bare number is in `own_unit`."""

    def phrase(text: str, at: int) -> Iterator[tuple[Said, int]]:
        for negative, begin in _sign(text, at):
            for (metres, unit), end in measure(own_unit)(text, begin):
                value = -metres if negative else metres
                yield Said(value, unit), end
                for place in _spaces(text, end):
                    for behind in _signs(text, place, PLUS_MINUS):
                        for width, last in _width(text, _spaces(text, behind)[0], unit):
                            yield Said(value, unit, width), last

    return phrase


def _sign(text: str, at: int) -> Iterator[tuple[bool, int]]:
    yield False, at
    if text[at : at + 1] in MINUS and at < len(text):
        yield True, at + 1


def _width(text: str, at: int, unit: str) -> Iterator[tuple[Fraction, int]]:
    for (value, fractional), end in amount(text, at):
        for said, after in [(unit, end), *_unit(text, end)]:
            if value > 0 and (not fractional or said == "in"):
                yield value * SCALES[said], after


# --- meters ---


def meter(kind: str, own_unit: str) -> Phrase:
    """What a meter shows, as it may be typed."""
    units = METER_UNITS[kind]

    def unit_at(text: str, at: int) -> Iterator[tuple[str, int]]:
        for begin in _spaces(text, at):
            for unit, (_, spellings) in units.items():
                for end in _signs(text, begin, spellings):
                    yield unit, end

    def number(text: str, at: int, bare: str) -> Iterator[tuple[tuple[Fraction, Fraction, str], int]]:
        """Digits as they are, one unit of the last of them in SI, and the unit."""
        for (value, places, _), end in decimal(text, at):
            for unit, after in [(bare, end), *unit_at(text, end)]:
                yield (value, Fraction(1, 10**places) * units[unit][0], unit), after

    def over(text: str, at: int) -> Iterator[tuple[Said, int]]:
        for end in _signs(text, at, (*_any_case("ol"), *_any_case("open"))):
            yield Said(Fraction(20_000_000), own_unit, None, over=True), end
        for end in _signs(text, at, (">",)):
            for (value, last, unit), after in number(text, _spaces(text, end)[0], own_unit):
                yield Said(value * units[unit][0], unit, last, over=True), after

    def phrase(text: str, at: int) -> Iterator[tuple[Said, int]]:
        if kind == "ohms":
            yield from over(text, at)
        for negative, begin in _sign(text, at):
            for (digits, last, unit), end in number(text, begin, own_unit):
                shown = -digits if negative else digits
                value = (shown - 32 if unit == "°F" else shown) * units[unit][0]
                yield Said(value, unit, last), end
                for place in _spaces(text, end):
                    for behind in _signs(text, place, PLUS_MINUS):
                        for (width, _, of), after in number(text, _spaces(text, behind)[0], unit):
                            if width > 0:
                                yield Said(value, unit, width * units[of][0]), after

    return phrase

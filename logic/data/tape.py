"""The edge where what a person types becomes a reading: a typed value, for one slot, to SI.

A parser of our own on exact fractions, never a general parser of units: what isn't in the grammar is refused
with what was typed, two examples, and the normal forms of what may have been meant. The grammars stand in
`tape_length.py` and `tape_meter.py`; here are the slot's own unit, the limits, the comma, and lists.
"""

from fractions import Fraction

import msgspec

from logic.data.reading_constants import (
    COLDEST_DEGC,
    HOTTEST_DEGC,
    LONGEST,
    MOST_AMPS,
    MOST_OHMS,
    MOST_VOLTS,
    TAPE_METRIC,
    TAPE_US,
)
from logic.data.slots import POSITION, SIZE, TAPE, Slot
from logic.data.tape_fault import GrammarFault, TapeFault
from logic.data.tape_length import METRIC, Length, read_length
from logic.data.tape_meter import read_meter
from logic.data.tape_scan import DIGITS, LONGEST_TYPED

__all__ = ["TapeFault", "TypedReading", "read_resolution", "read_value", "split_values", "written_length"]

MOST_VALUES = 20
"""Values in one line, parted by `;`."""

EXAMPLES = {
    "in": ("41 3/8", "3' 5 3/8\""),
    "ft": ("14' 6", '174"'),
    "mm": ("1051", "105.1 cm"),
    "m": ("4.42", "14' 6\""),
    "": ("41 3/8 in", "1051 mm"),
    "V": ("12.80", "12.8 V"),
    "mV": ("255", "0.255 V"),
    "A": ("5.13", "5130 mA"),
    "Ω": ("2.40", "OL"),
    "MΩ": ("20", "> 20 MΩ"),
    "°F": ("55", "13 °C"),
    "°C": ("13", "55 °F"),
    "%": ("70", "70 %"),
}
# Leads that are touched together and show open are broken: no example there.
EXAMPLES_OF_SLOT = {"meter.leads": ("0.20", "200 mΩ")}


class TypedReading(msgspec.Struct, frozen=True):
    """A value as typed, in SI (temperatures in °C, shares from 0 to 1)."""

    value: float
    unit: str  # the unit it was read in, the last one where there were two
    resolution: float | None  # SI: typed after ±, otherwise the tape's, or one unit of a meter's last digit
    over: bool = False  # over the meter's range: at least `value`


def read_value(typed: str, slot: Slot, *, metric: bool, tape_resolution: float | None = None) -> TypedReading:
    """What was typed for one slot.

    metric : the session's units; a bare number is in the slot's own unit.
    tape_resolution : what was said of the session's tape [m]; it holds for what is typed in the session's own
        units. None, and for what is typed in the other ones: 1/16 in, 1 mm in metric.
    Raises TapeFault: not in the grammar, or outside what a slot takes.
    """
    own_unit = slot.own_unit(metric=metric)
    examples = EXAMPLES_OF_SLOT.get(slot.id) or EXAMPLES[own_unit]
    _ask_about_comma(typed, examples)
    try:
        if slot.family == TAPE:
            return _tape_value(typed, slot, own_unit=own_unit, metric=metric, tape_resolution=tape_resolution)
        return _meter_value(typed, slot, own_unit=own_unit)
    except GrammarFault as fault:
        raise _bound(fault, typed, examples) from None


def read_resolution(typed: str, *, metric: bool) -> float:
    """What a tape resolves, as typed (`1/16`, `1/32"`, `0.5 mm`); bare, in inches or mm. [m]

    Raises TapeFault: not in the grammar, zero, or no tape's at all.
    """
    examples = ("1 mm", "1/16 in") if metric else ("1/16", "1 mm")
    _ask_about_comma(typed, examples)
    try:
        length = read_length(typed, own_unit="mm" if metric else "in")
        if length.resolution is not None:
            raise GrammarFault("a resolution is one length")
        if not 0 < length.metres <= COARSEST_TAPE:
            raise GrammarFault("a resolution is over 0 and at most 1 in")
    except GrammarFault as fault:
        raise _bound(fault, typed, examples) from None
    return float(length.metres)


COARSEST_TAPE = 16 * TAPE_US
"""No tape is divided into more than an inch. [m]"""


def written_length(typed: str) -> float:
    """A length whose unit is written out, as in a profile's file; a leading minus is let through. [m]

    Raises TapeFault: not in the grammar, without a unit, or with a resolution.
    """
    examples = EXAMPLES[""]
    _ask_about_comma(typed, examples)
    try:
        length = read_length(typed, own_unit="")
        if length.resolution is not None:
            raise GrammarFault("a length without ±")
    except GrammarFault as fault:
        raise _bound(fault, typed, examples) from None
    return float(length.metres)


def split_values(typed: str) -> tuple[str, ...]:
    """A typed line into its values, parted by `;`, each to fill the next slot in order.

    Raises TapeFault: nothing between two of them, or more than 20.
    """
    if len(typed) > MOST_VALUES * LONGEST_TYPED:
        raise TapeFault(typed, "too long for readings", examples=EXAMPLES["in"])
    values = tuple(part.strip() for part in typed.split(";"))
    if len(values) > MOST_VALUES:
        raise TapeFault(typed, f"at most {MOST_VALUES} readings in a line", examples=EXAMPLES["in"])
    if len(values) > 1 and not all(values):
        raise TapeFault(
            typed, "nothing stands beside a semicolon", examples=("41 3/8; 24", "41 3/8; 24; 9 1/2")
        )
    return values


def _tape_value(
    typed: str, slot: Slot, *, own_unit: str, metric: bool, tape_resolution: float | None
) -> TypedReading:
    length = read_length(typed, own_unit=own_unit)
    _check_bounds(length.metres, slot)
    if length.metres > LONGEST:
        raise GrammarFault("over 300 ft")
    return TypedReading(
        value=float(length.metres),
        unit=length.unit,
        resolution=_resolution(length, metric=metric, tape_resolution=tape_resolution),
    )


def _resolution(length: Length, *, metric: bool, tape_resolution: float | None) -> float:
    if length.resolution is not None:
        return float(length.resolution)
    in_metric = length.unit in METRIC
    if tape_resolution is not None and in_metric == metric:
        return tape_resolution
    return float(TAPE_METRIC if in_metric else TAPE_US)


def _meter_value(typed: str, slot: Slot, *, own_unit: str) -> TypedReading:
    read = read_meter(typed, kind=slot.kind, own_unit=own_unit)
    _check_bounds(read.value, slot)
    if slot.kind == "share" and read.value > 1:
        raise GrammarFault("over 100 %")
    if slot.kind == "temperature" and not COLDEST_DEGC <= read.value <= HOTTEST_DEGC:
        raise GrammarFault("outside -80 to 150 °C")
    if slot.kind in MOST and abs(read.value) > MOST[slot.kind][0]:
        raise GrammarFault(f"over {MOST[slot.kind][1]}")
    return TypedReading(
        value=float(read.value),
        unit=read.unit,
        resolution=None if read.resolution is None else float(read.resolution),
        over=read.over,
    )


MOST = {"volts": (MOST_VOLTS, "60 V"), "amps": (MOST_AMPS, "1 kA"), "ohms": (MOST_OHMS, "what a meter shows")}


def _check_bounds(value: Fraction, slot: Slot) -> None:
    if slot.bounds == SIZE and value <= 0:
        raise GrammarFault(f"{slot.title} is over 0")
    if slot.bounds == POSITION and value < 0:
        raise GrammarFault(f"{slot.title} is 0 or more")


def _bound(fault: GrammarFault, typed: str, examples: tuple[str, str]) -> TapeFault:
    return TapeFault(typed.strip(), fault.expected, examples=examples, normal_forms=fault.normal_forms)


def _ask_about_comma(typed: str, examples: tuple[str, str]) -> None:
    """A comma is never guessed: with one, between digits, both meanings are given to choose from."""
    if "," not in typed or len(typed) > LONGEST_TYPED:
        return
    before, _, after = typed.partition(",")
    question: tuple[str, ...] = ()
    if "," not in after and before[-1:] in tuple(DIGITS) and after[:1] in tuple(DIGITS):
        digits = len(after) - len(after.lstrip(DIGITS))
        grouped = digits == 3
        other = f"{before}{after}" if grouped else f"{before}; {after}"
        question = (f"{before}.{after}".strip(), other.strip())
    raise TapeFault(typed.strip(), "a comma may mean two things", examples=examples, question=question)

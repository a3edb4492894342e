"""Typed values at every kind of slot, against a second reader that knows all meanings: never silently wrong.

Texts are signs by chance, phrases put together from pieces of the grammar with a sign put in, left out or
exchanged, and lengths that were decided on first and then written down in one of many ways.
"""

import random
from fractions import Fraction
from functools import cache

from logic.data.slots import POSITION, SIZE, TAPE, Slot, slots_of
from logic.data.tape import TypedReading, read_value
from logic.data.tape_fault import TapeFault
from tests.fuzz.hostile import obeyed
from tests.fuzz.tape_reader import FOOT, GLYPHS, INCH, METER_UNITS, Said, length, meanings, meter
from tests.rig_builder import drain, heater, profile, run, tank

SIGNS = "0123456789  //..,-+'\"½¼⅜′″±inftmcΩVA%°FCkMOL;>\x1b[]\u202e\xa0−⁄∕⅓ohmdegOPENpen\u2126º\t×eE_ٕ٣"
JOINTS = ("", "", " ", " ", "-", "+", " - ", "  ", "-  ", "−")
UNITS = ("", "", "", " in", '"', "″", "in", "IN", "'", "′", "ft", " ft ", "mm", " cm", "m", "lb", "i n")
METER_UNIT_TEXTS = (
    "", "", "V", " mV", "v", "MV", "A", "mA", "Ω", " ohm", "mohm", "Mohm", "MΩ", "mΩ", "kΩ", "KΩ", "kohms", "%", " °F",
    "F", "c", "degC", "DEGF", "ºF", "°", "Ohm", "mω",
)  # fmt: skip
LONGEST = 300 * FOOT
MOST = {"volts": Fraction(60), "amps": Fraction(1000), "ohms": Fraction(10) ** 12}


@cache
def slots() -> tuple[Slot, ...]:
    rig = profile(tanks=(tank(),), drains=(drain(),), heaters=(heater(),), runs=(run(),))
    return slots_of(rig)


def try_tape(chance: random.Random) -> str:
    """One text at one slot: both readers take it as the same value, or both refuse it."""
    slot, metric = chance.choice(slots()), chance.random() < 0.5
    tape = chance.choice((None, None, 0.0005, float(INCH / 32)))
    typed = _typed(chance, slot)
    agree(typed, slot, metric=metric, tape=tape)
    written, metres = _written_down(chance)
    _must_be(written, metres, chance)
    return f"tape {slot.kind} {'taken' if _taken(typed, slot, metric, tape) else 'refused'}"


def agree(typed: str, slot: Slot, *, metric: bool, tape: float | None = None) -> None:
    """Raises AssertionError where the two readers differ in anything."""
    wanted = expected(typed, slot, metric=metric, tape=tape)
    read = _taken(typed, slot, metric, tape)
    got = None if read is None else (read.value, read.resolution, read.over)
    assert got == wanted, (typed, slot.id, metric, got, wanted)


def expected(
    typed: str, slot: Slot, *, metric: bool, tape: float | None
) -> tuple[float, float | None, bool] | None:
    """What the second reader makes of it, within the limits of the format; None: to be refused."""
    own = slot.own_unit(metric=metric)
    found = meanings(typed, length(own) if slot.family == TAPE else meter(slot.kind, own))
    if len(found) != 1:
        return None
    (said,) = found
    assert isinstance(said, Said)
    if _beyond(said, slot):
        return None
    resolution: float | None
    if said.resolution is not None:
        resolution = float(said.resolution)
    elif slot.family != TAPE:
        resolution = None
    else:
        in_metric = said.unit in ("mm", "cm", "m")
        resolution = tape if tape and in_metric == metric else 0.001 if in_metric else float(INCH / 16)
    return float(said.value), resolution, said.over


def _beyond(said: Said, slot: Slot) -> bool:
    value = said.value
    return (
        (slot.bounds == SIZE and value <= 0)
        or (slot.bounds == POSITION and value < 0)
        or (slot.family == TAPE and value > LONGEST)
        or (slot.kind == "share" and value > 1)
        or (slot.kind == "temperature" and not -80 <= value <= 150)
        or (slot.kind in MOST and abs(value) > MOST[slot.kind])
    )


def _taken(typed: str, slot: Slot, metric: bool, tape: float | None) -> TypedReading | None:
    try:
        return read_value(typed, slot, metric=metric, tape_resolution=tape)
    except TapeFault as refused:
        fault = refused
    assert len(fault.examples) == 2
    assert not obeyed(str(fault)), typed
    return None


# --- texts ---


def _typed(chance: random.Random, slot: Slot) -> str:
    draw = chance.random()
    if draw < 0.25:
        return "".join(chance.choice(SIGNS) for _ in range(chance.randint(0, 12)))
    text = _length_phrase(chance) if slot.family == TAPE else _meter_phrase(chance, slot)
    if draw < 0.6 and text:
        at = chance.randrange(len(text))
        text = chance.choice(
            (
                text[:at] + text[at + 1 :],
                text[:at] + chance.choice(SIGNS) + text[at:],
                text[:at] + text[at:] * 2,
            )
        )
    return text


def _number(chance: random.Random) -> str:
    whole = str(chance.choice((0, 1, 5, 11, 12, 41, 99, chance.randint(0, 4000))))
    decimals = f"{whole}.{chance.randint(0, 999)}", f".{chance.randint(0, 99)}"
    return chance.choice((whole, whole, *decimals, f"0{whole}"))


def _fraction(chance: random.Random) -> str:
    if chance.random() < 0.3:
        return chance.choice(tuple(GLYPHS))
    below = chance.choice((2, 4, 8, 16, 32, 64, 64, 3, 10, 128, 0))
    above = chance.randint(0, 70 if chance.random() < 0.2 else max(1, below - 1))
    return f"{above}{chance.choice('////⁄∕')}{below}"


def _amount(chance: random.Random) -> str:
    draw = chance.random()
    if draw < 0.4:
        return _number(chance)
    if draw < 0.55:
        return _fraction(chance)
    return f"{chance.randint(0, 60)}{chance.choice(JOINTS)}{_fraction(chance)}"


def _length_phrase(chance: random.Random) -> str:
    text = chance.choice(("", "", "", "", "-", "−", " ", "- ", "+")) + _amount(chance) + chance.choice(UNITS)
    if chance.random() < 0.4:
        text += chance.choice(JOINTS) + _amount(chance) + chance.choice(UNITS)
    if chance.random() < 0.3:
        text += chance.choice((" ± ", "±", "+-", " +- ", "+ -")) + _amount(chance) + chance.choice(UNITS)
    return text


def _meter_phrase(chance: random.Random, slot: Slot) -> str:
    units: tuple[str, ...] = METER_UNIT_TEXTS
    if chance.random() < 0.7:
        units = (
            "",
            *(spelling for _, spellings in METER_UNITS[slot.kind].values() for spelling in spellings),
        )
    head = chance.choice(("", "", "", "", "-", "> ", ">", "OL", "open", "− ", "ol "))
    over = head.strip().lower() in ("ol", "open")
    text = head if over else head + _number(chance) + chance.choice(("", " ")) + chance.choice(units)
    if chance.random() < 0.25:
        text += chance.choice((" ± ", "+-")) + _number(chance) + chance.choice(units)
    return text


# --- lengths decided on first ---


def _written_down(chance: random.Random) -> tuple[str, Fraction]:
    """A length on a tape, to a 64th or a tenth of a millimetre, in one of the ways in which it is written."""
    if chance.random() < 0.3:
        tenths = chance.randint(1, 900_000)
        unit, of_it = chance.choice((("mm", 10), ("cm", 100), ("m", 10_000)))
        number = f"{tenths // of_it}.{tenths % of_it:0{len(str(of_it)) - 1}d}"
        return f"{number}{chance.choice(('', ' '))}{unit}", Fraction(tenths, 10_000)
    sixty_fourths = chance.randint(1, 64 * 12 * 299)
    whole, rest = divmod(sixty_fourths, 64)
    feet, inches = divmod(whole, 12)
    mark = chance.choice(("in", '"', "″", " in", " IN"))
    if chance.random() < 0.5:
        text = _mixed(whole, Fraction(rest, 64), chance) + mark
    else:
        foot = chance.choice(("ft ", " ft ", "' ", "'", "′", "'-", "ft-"))
        text = f"{feet}{foot}{_mixed(inches, Fraction(rest, 64), chance)}{chance.choice((mark, ''))}"
    return text, sixty_fourths * INCH / 64


def _mixed(whole: int, part: Fraction, chance: random.Random) -> str:
    """A whole number of inches and a part of one."""
    if part == 0:
        return str(whole)
    glyphs = [sign for sign, of in GLYPHS.items() if Fraction(*of) == part]
    fraction = chance.choice([f"{part.numerator}/{part.denominator}", *glyphs])
    if whole == 0 and chance.random() < 0.5:
        return fraction
    joints = (" ", "-", "+", "  ", "") if fraction in GLYPHS else (" ", "-", "+", "  ")
    return f"{whole}{chance.choice(joints)}{fraction}"


def _must_be(typed: str, metres: Fraction, chance: random.Random) -> None:
    """A length written down as people write it is taken, and as what it is."""
    slot = next(slot for slot in slots() if slot.family == TAPE and slot.bounds == SIZE)
    read = _taken(typed, slot, chance.random() < 0.5, None)
    assert read is not None, f"{typed!r} was refused"
    assert read.value == float(metres), (typed, read.value, float(metres))

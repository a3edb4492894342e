"""Readings by chance: texts as people type them, each with the exact value it means; what is done to them later.

A deed is a tuple of its kind and what it needs: `read`, `strike`, `move`, `swap`, `back`, `again`, `tape`,
`meter`; those of `random_tests.py`.
"""

from fractions import Fraction
from typing import NamedTuple

from tests.independent.measured import tape_slots
from tests.independent.random_tests import loaded_deeds, ohms_read
from tests.independent.readings import INCH

MM = Fraction(10, 254)  # [in]
SIXTEENTH = Fraction(1, 16)
GLYPHS = {
    Fraction(1, 2): "½", Fraction(1, 4): "¼", Fraction(3, 4): "¾", Fraction(1, 8): "⅛",
    Fraction(3, 8): "⅜", Fraction(5, 8): "⅝", Fraction(7, 8): "⅞",
}  # fmt: skip
TAPES = (('1/32"', Fraction(1, 32)), ("1/8 in", Fraction(1, 8)), ("2 mm", 2 * MM), ("0.5 mm", MM / 2))
OWN = (("1/8 in", Fraction(1, 8)), ('3/32"', Fraction(3, 32)), ("2 mm", 2 * MM), ("0 mm", Fraction(0)))
ISOLATION = (
    ("OL", None, 0), ("> 20 MΩ", None, 0), ("1", 1e6, 1e6), ("0.99 MΩ", 0.99e6, 1e4), ("1000 kΩ", 1e6, 1e3),
    ("999 kΩ", 0.999e6, 1e3), ("5.2", 5.2e6, 1e5), ("0", 0.0, 1e6),
)  # fmt: skip
MOST_READ = 24  # slots of one rig: a difference of each is reckoned for its uncertainty
NOT_AT_ZERO = {"x", "y", "fall", "level", "fuse_at"}


class Text(NamedTuple):
    """What is typed and what it means. [in]"""

    typed: str
    value: Fraction
    metric: bool
    resolution: Fraction | None = None  # its own, by ±


def random_deeds(dice, rig):
    """Readings of some slots in turns, then a few corrections, all in the order in which they are done."""
    planned = tape_slots(rig)
    slots = dice.sample(sorted(planned), min(len(planned), dice.randint(1, MOST_READ)))
    true = {slot: truth(dice, slot, planned[slot]) for slot in slots}
    deeds = []
    for _ in range(dice.choice([1, 1, 2, 2, 3, 4])):
        for slot in slots:
            if dice.maybe(0.75):
                deeds.append(("read", slot, text(dice, slot, near(dice, true[slot]))))
            if dice.maybe(0.08):
                deeds.append(
                    dice.choice(
                        [("strike",), ("move",), ("swap",), ("back",), ("again", 5.0), ("again", 30.0)]
                    )
                )
    if dice.maybe(0.3):
        deeds.insert(dice.randint(0, len(deeds) // 2), ("tape", *dice.choice(TAPES)))
    return [*deeds, *meter_deeds(dice, rig), *loaded_deeds(dice, rig)]


def meter_deeds(dice, rig):
    """Resistances of heaters, about right or off, the leads now and then, and isolation; [Ω] or None: over range."""
    deeds = []
    for heater in rig.heaters.values():
        if dice.maybe(0.4):
            ohms = heater.volts**2 / heater.watts * dice.choice([0.8, 0.94, 0.96, 1, 1, 1.09, 1.11, 1.5])
            deeds.append(ohms_read(dice, f"heater.{heater.id}.resistance", ohms))
        if dice.maybe(0.15):
            deeds.append(("meter", f"heater.{heater.id}.resistance", dice.choice(["OL", "open"]), None, 0))
    deeds += [
        ("meter", f"run.{run.id}.isolation", *dice.choice(ISOLATION))
        for run in rig.runs.values()
        if run.fuse is not None and dice.maybe(0.4)
    ]
    dice.shuffle(deeds)
    if dice.maybe(0.6):
        deeds.insert(dice.randint(0, len(deeds)), ohms_read(dice, "meter.leads", dice.uniform(0, 0.4)))
    return deeds


def truth(dice, slot, planned):
    """What is there: about as planned, seldom far off, more seldom what can't be. [in]"""
    name = slot.rpartition(".")[2]
    if planned is None:
        return Fraction(dice.randint(0, 180), 16)
    inches = planned / INCH
    if dice.maybe(0.04):
        inches *= dice.choice([0.3, 0.6, 2, 6])
    elif dice.maybe(0.1):
        inches += dice.uniform(-3, 3)
    else:
        inches += dice.choice([0, 0, dice.gauss(0, 0.2)])
    if slot.startswith("run.") and name == "length" and inches < 6:
        return Fraction(0)
    least = 0 if name in NOT_AT_ZERO else 1
    return Fraction(max(least, round(inches * 64)), 64)


def near(dice, true):
    """One reading of it: right, a mark or an eighth off, or a slip. [in]"""
    slip = dice.choice([1, -1, 2])
    off = dice.choice([0, 0, *(n * SIXTEENTH for n in (1, -1, 2, -2, 3)), slip])
    return true + off if true + off > 0 else true


def text(dice, slot, inches):
    """A text for about so much: in sixteenths, millimetres or a decimal, rounded to what can be written."""
    fine = slot.endswith((".wall", ".outside")) and dice.maybe(0.5)
    if dice.maybe(0.35):
        made = millimetres(dice, slot, inches)
    elif dice.maybe(0.2):
        made = decimal(dice, slot, inches)
    else:
        made = marks(dice, slot, inches, 64 if fine else 16)
    if dice.maybe(0.15):
        typed, own = dice.choice(OWN)
        return made._replace(typed=made.typed + dice.choice([" ± ", "±", " +- "]) + typed, resolution=own)
    return made


def millimetres(dice, slot, inches):
    count = max(1, round(inches / MM)) if inches else 0
    if dice.metric and dice.maybe(0.5):  # a bare number in the slot's own unit
        typed = f"{count / 1000:.3f}" if own_unit(slot, metric=True) == "m" else f"{count}"
    else:
        typed = dice.choice([f"{count}mm", f"{count} mm", f"{count / 10:.1f} cm", f"{count / 1000:.3f} m"])
    return Text(typed, count * MM, metric=True)


def decimal(dice, slot, inches):
    thousandths = max(1, round(inches * 1000)) if inches else 0
    bare = not dice.metric and own_unit(slot, metric=False) == "in" and dice.maybe(0.6)
    return Text(
        f"{thousandths / 1000:.3f}" + ("" if bare else " in"), Fraction(thousandths, 1000), metric=False
    )


def marks(dice, slot, inches, parts):
    """Feet, inches and a fraction."""
    value = Fraction(max(1, round(inches * parts)) if inches else 0, parts)
    whole, rest = divmod(value, 1)
    whole, feet = int(whole), 0
    if whole >= 12 and dice.maybe(0.4):
        feet, whole = divmod(whole, 12)
    bare = not dice.metric and own_unit(slot, metric=False) == "in" and dice.maybe(0.6)
    unit = "" if bare else dice.choice([" in", "in", '"', "″"])
    if feet:
        unit = dice.choice(["", unit])
        head = dice.choice([f"{feet}' ", f"{feet}ft ", f"{feet} ft ", f"{feet}′ ", f"{feet}'"])
        return Text(head + mixed(dice, whole, rest) + unit, value, metric=False)
    return Text(mixed(dice, whole, rest) + unit, value, metric=False)


def mixed(dice, whole, rest):
    if not rest:
        return str(whole)
    fraction = f"{rest.numerator}/{rest.denominator}"
    if rest in GLYPHS and dice.maybe(0.3):
        return f"{whole or ''}{GLYPHS[rest]}"
    return f"{whole}{dice.choice([' ', '-', '+'])}{fraction}" if whole else fraction


def own_unit(slot, *, metric):
    route = slot.startswith("run.") and slot.endswith(".length")
    return ("m" if route else "mm") if metric else ("ft" if route else "in")

"""Sentences with quantities in them, kept apart from units until someone reads them.

A key switches units, so a working, a text or a remedy is a template whose numbers are still SI.
`fill` is the one place where such a template becomes a string; it lives in `quantities.py`.
"""

import msgspec

NEAREST, UP, DOWN = 0, 1, -1
"""How a number is rounded for those who read it."""


class Quantity(msgspec.Struct, frozen=True):
    """A number in SI (temperatures in °C) and the kind that says how it is printed.

    Kinds: length, small_length (in decimals), route, area, bore (m² in both systems), volume, mass,
    mass_of_copper (kg), temperature, difference (of temperature), power, density (W/m²), conductance (W/K),
    insulation (m²K/W), for_a_metre (m·K/W), conductivity, film (W/m²K), speed, volts, amps, ohms, watt_hours (J),
    charge (Ah), hours (s), minutes (s), share (0 to 1, printed as %), fraction (0 to 1, printed as a number), gauge
    (AWG number), rating (A, of a fuse or a switch), flag (yes or no), number, count.
    """

    value: float
    kind: str
    side: int = NEAREST  # UP: at least so much is wanted; DOWN: at most


class Words(msgspec.Struct, frozen=True):
    """A template with `{name}` places, and what stands in them: a quantity, or text as it is."""

    template: str
    parts: tuple[tuple[str, Quantity | str], ...] = ()


def words(template: str, **parts: Quantity | str) -> Words:
    """A template with its parts; literal braces are not allowed in a template."""
    return Words(template, tuple(parts.items()))


def joined(first: Words, second: Words) -> Words:
    """Two clauses as one sentence; their parts have names of their own."""
    return Words(f"{first.template}; {second.template}", (*first.parts, *second.parts))


def quantity(value: float, kind: str) -> Quantity:
    """A number in SI and its kind (see `Quantity`)."""
    return Quantity(value, kind)


def at_least(value: float, kind: str) -> Quantity:
    """A number that somebody is to reach: as it is shown it is never less."""
    return Quantity(value, kind, UP)


def at_most(value: float, kind: str) -> Quantity:
    """A number that somebody is to stay under: as it is shown it is never more."""
    return Quantity(value, kind, DOWN)

"""Copper conductors: their areas by AWG number, the resistance of a length, the copper in it."""

from functools import lru_cache
from math import pi

from logic.data.wiring_constants import (
    AWG_BASE,
    AWG_ORIGIN,
    AWG_STEPS,
    AWG_UNIT,
    COPPER_DENSITY,
    COPPER_REFERENCE_DEGC,
    COPPER_RESISTIVITY,
    COPPER_SLOPE,
    SAE_AREA,
    STRAND_LAY,
)


def awg_diameter(gauge: int) -> float:
    """Diameter of the solid wire of an AWG number. [m]

    gauge : 36 to 1, by the number. Source `astm-b258` (COMPUTED): d = 0.127 mm × 92^((36 − n)/39).
    """
    return AWG_UNIT * AWG_BASE ** ((AWG_ORIGIN - gauge) / AWG_STEPS)


@lru_cache(maxsize=64)
def area(gauge: int, table: str) -> float:
    """Copper of a conductor. [m²]

    table : "sae", the least copper of vehicle wire, about a tenth less than its AWG name; or "awg".
    Raises ValueError: a table or, in "sae", a gauge that there is not.
    Sources `sae-j1128`, `astm-b258`. "sae" errs on the side of more resistance.
    """
    if table == "awg":
        return pi / 4 * awg_diameter(gauge) ** 2
    if table == "sae" and gauge in SAE_AREA:
        return SAE_AREA[gauge]
    raise ValueError(f"no conductor of {gauge} AWG in table {table!r}")


def resistivity(temperature: float) -> float:
    """Of annealed copper. [Ωm]

    temperature : of the conductor, −50 to 150 °C; linear beyond. Sources `iec-60028`, `ac-43.13-1b-11-66`.
    """
    return COPPER_RESISTIVITY * (1 + COPPER_SLOPE * (temperature - COPPER_REFERENCE_DEGC))


@lru_cache(maxsize=256)
def resistance_per_metre(gauge: int, table: str, temperature: float) -> float:
    """Of one stranded conductor. [Ω/m]

    The lay of the strands adds 2 % to the way of the current. Sources as in `area` and `resistivity`.
    """
    return resistivity(temperature) * STRAND_LAY / area(gauge, table)


@lru_cache(maxsize=64)
def copper_per_metre(gauge: int, table: str) -> float:
    """Mass of the copper in one stranded conductor. [kg/m] Sources `iec-60028`, `memory-strand-lay`."""
    return COPPER_DENSITY * area(gauge, table) * STRAND_LAY


def length_at(length: float, allowed_at: float, *, conductor: float) -> float:
    """The run with the same drop, where the conductor is hotter than a length was allowed for. [m]

    length : allowed with the conductor at `allowed_at` [°C]; `conductor` : its real temperature. [°C]
    Source `ac-43.13-1b-11-66`, with this program's own slope.
    """
    return length * resistivity(allowed_at) / resistivity(conductor)

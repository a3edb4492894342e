"""What a battery gives in the cold, and for how long."""

from math import isfinite

from logic.data.constants import DISCHARGE_HOURS
from logic.physics.films import interpolated


def temperature_factor(chemistry: str, degc: float) -> float:
    """Share of the capacity that is left at a temperature. [1]

    chemistry : lithium | agm | flooded (the last two are lead). degc : the battery's. [°C]
    Linear between the rows, held constant beyond: −18…25 °C for lead, −20…25 °C for lithium.
    Source `practice-battery-cold` (PRACTICE).
    """
    return interpolated("batteries", "lithium" if chemistry == "lithium" else "lead", degc)


def usable_ah(capacity_ah: float, usable: float, *, chemistry: str, degc: float) -> float:
    """Charge that may be drawn: capacity × usable share × temperature factor. [Ah]"""
    return capacity_ah * usable * temperature_factor(chemistry, degc)


def hours_at(
    mean_amps: float, *, capacity_ah: float, usable: float, peukert: float, factor: float
) -> float | None:
    """Hours until the usable charge is drawn by a steady current; None where nothing is drawn. [h]

    mean_amps : ≥ 0 [A]. capacity_ah : at the 20 h rate, warm [Ah]. usable : share [1]. factor : of
    temperature [1]. Peukert's t = usable × H (C/(I H))^k with C the capacity × factor, and never more than
    usable × C/I: the rule gives more than the capacity below the 20 h current, which is not counted on.
    Source `peukert-1897`. Raises ValueError: a current that is negative or not finite.
    """
    if not isfinite(mean_amps) or mean_amps < 0:
        raise ValueError(f"a mean current of {mean_amps} A")
    if mean_amps == 0:
        return None
    cold_ah = capacity_ah * factor
    plain = usable * cold_ah / mean_amps
    if peukert <= 1:
        return plain
    return min(plain, usable * peukert_hours(mean_amps, capacity_ah=cold_ah, peukert=peukert))


def peukert_hours(amps: float, *, capacity_ah: float, peukert: float) -> float:
    """Hours to empty by Peukert's rule alone, t = H (C/(I H))^k. [h]  Source `peukert-1897`; amps > 0."""
    return float(DISCHARGE_HOURS * (capacity_ah / (amps * DISCHARGE_HOURS)) ** peukert)

"""What a handheld meter's reading is worth, and the resistance that a joint adds to a circuit.

Readings in, numbers out; which readings belong together is decided with the tests.
"""

from math import sqrt

import msgspec

from logic.data.wiring_constants import (
    CLAMP_DIGITS,
    CLAMP_SHARE,
    JOINT_OHMS,
    JOINT_WATTS,
    METER_DIGITS,
    METER_SHARE,
)


def meter_uncertainty(reading: float, digit: float) -> float:
    """One standard uncertainty of a handheld meter's reading, in its unit.

    reading, digit : what it shows and one unit of its last digit, in one unit; digit ≥ 0.
    Source `practice-meter`: its limits of error taken as a rectangle (JCGM 100, 4.3.7).
    """
    return (METER_SHARE * abs(reading) + METER_DIGITS * digit) / sqrt(3.0)


def clamp_uncertainty(amps: float, digit: float) -> float:
    """One standard uncertainty of a clamp's current. [A] Otherwise as `meter_uncertainty`."""
    return (CLAMP_SHARE * abs(amps) + CLAMP_DIGITS * digit) / sqrt(3.0)


class Extra(msgspec.Struct, frozen=True):
    """Resistance over what is computed and allowed."""

    ohms: float
    u: float  # Ω
    watts: float  # burnt in it
    bad: bool  # make that joint again


def extra_resistance(
    dropped: float,
    *,
    u_dropped: float,
    amps: float,
    u_amps: float,
    computed: float,
    allowed: float,
    covariance: float = 0.0,
) -> Extra | None:
    """What a circuit's joints add. None: no current, so nothing can be said.

    dropped : volts lost between the supply and the pad, both legs. [V]
    amps : the current that this heater draws. [A]
    computed : what its wires account for, seen by that current. [Ω]
    allowed : fuses and switches on the way. [Ω]
    covariance : of the volts lost and the current, where one reading stands in both. [VA]
    First order (JCGM 100, 5.1.2 and 5.2.2), wires and allowances exact. Source `practice-joint`.
    """
    if amps <= 0.0:
        return None
    seen = dropped / amps
    ohms = seen - computed - allowed
    apart = (u_dropped / amps) ** 2 + (seen * u_amps / amps) ** 2
    u = sqrt(max(0.0, apart - 2.0 * seen * covariance / amps**2))
    watts = ohms * amps**2
    return Extra(ohms=ohms, u=u, watts=watts, bad=ohms - 2.0 * u > JOINT_OHMS or watts > JOINT_WATTS)

"""What a meter should show on a circuit, how far it can be trusted, and how bad a joint is by it."""

from math import hypot, sqrt

import msgspec

from logic.data.wiring_constants import (
    CLAMP_DIGITS,
    CLAMP_SHARE,
    FUSE_ALLOWANCE,
    JOINT_OHMS,
    JOINT_WATTS,
    METER_DIGITS,
    METER_SHARE,
    SWITCH_ALLOWANCE,
)


class Between(msgspec.Struct, frozen=True):
    """What is expected of a reading, and between what it is accepted."""

    value: float
    low: float
    high: float

    def holds(self, reading: float) -> bool:
        return self.low <= reading <= self.high


def pad_resistance(watts: float, volts: float, *, tolerance: tuple[float, float]) -> Between:
    """Of a cold pad, V²/P, within its tolerance. [Ω] Default −5/+10 %: PRACTICE; its own sheet overrules."""
    ohms = volts**2 / watts
    return Between(ohms, ohms * (1 + tolerance[0]), ohms * (1 + tolerance[1]))


def handheld(reading: float, digit: float) -> float:
    """Standard uncertainty of a handheld meter's reading, in its own unit.

    digit : one unit of its last digit. (0.5 % + one digit)/√3, a rectangular distribution. `practice-meter`
    """
    return (METER_SHARE * abs(reading) + METER_DIGITS * digit) / sqrt(3)


def clamp(reading: float, digit: float) -> float:
    """Standard uncertainty of a clamp's current. [A] (2 % + three digits)/√3. `practice-meter`"""
    return (CLAMP_SHARE * abs(reading) + CLAMP_DIGITS * digit) / sqrt(3)


def allowance(fuses: int, switches: int) -> float:
    """What fuses with their holders and switches on the way may add. [Ω] `practice-joint`"""
    return fuses * FUSE_ALLOWANCE + switches * SWITCH_ALLOWANCE


class Joint(msgspec.Struct, frozen=True):
    """Resistance on a way beyond what wires, fuses and switches account for."""

    extra: float  # Ω; negative: less than was allowed for
    u: float  # Ω
    watts: float  # burnt in it; 0 where `extra` is negative

    @property
    def bad(self) -> bool:
        """To be made again: over 20 mΩ beyond doubt, or over 1 W burnt. `practice-joint`"""
        return self.extra - 2 * self.u > JOINT_OHMS or self.watts > JOINT_WATTS


def joint_by_drops(
    drops: tuple[tuple[float, float], ...],
    current: float,
    *,
    u_current: float,
    computed: float,
    allowed: float,
) -> Joint:
    """From drops read along the way. `drops` : (V, its u) out and back. `current` : that flowed. [A]

    computed : resistance of the conductors of the way; allowed : of its fuses and switches, both exact. [Ω]
    u is of first order (JCGM 100, 5.1.2). Raises ValueError: no current.
    """
    if current <= 0:
        raise ValueError("a drop says nothing without a current")
    drop = sum(volts for volts, _ in drops)
    u_drop = hypot(*(u for _, u in drops))
    extra = drop / current - computed - allowed
    return Joint(
        extra=extra,
        u=hypot(u_drop / current, drop / current**2 * u_current),
        watts=max(0.0, extra) * current**2,
    )


def joint_by_difference(
    supply: tuple[float, float],
    pad: tuple[float, float],
    current: float,
    *,
    u_current: float,
    computed: float,
    allowed: float,
) -> Joint:
    """From the volts at the supply and at the pad, each (V, its u): less exact than by drops."""
    return joint_by_drops(
        ((supply[0], supply[1]), (-pad[0], pad[1])),
        current,
        u_current=u_current,
        computed=computed,
        allowed=allowed,
    )

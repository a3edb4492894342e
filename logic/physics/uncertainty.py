"""Standard uncertainty of a reading, its combination, and the chance that a clearance is really there.

After JCGM 100:2008 (the "GUM"). The rules of agreement between readings are not here: they are practice, and
live with the readings.
"""

from math import erf, isfinite, sqrt


def from_half_width(half_width: float) -> float:
    """Standard uncertainty of a value anywhere within ± `half_width`, all as likely. [unit of the input]

    half_width : ≥ 0. Raises ValueError: negative or not finite.
    Source `jcgm-100` (MEMORY), 4.3.7: u = a/√3.
    """
    return _not_negative(half_width) / sqrt(3.0)


def from_resolution(resolution: float) -> float:
    """Standard uncertainty of rounding to a mark or a digit of width `resolution`. [unit of the input]

    resolution : ≥ 0. Raises ValueError: negative or not finite.
    Source `jcgm-100` (MEMORY), F.2.2.1 with 4.3.7: u = δ/√12, half the width either way.
    """
    return from_half_width(_not_negative(resolution) / 2.0)


def combined(*parts: float) -> float:
    """Standard uncertainty of a sum of independent parts. [unit of the inputs]

    Source `jcgm-100` (MEMORY), 5.1.2: u² = Σ u_i², each part already times its slope.
    """
    return sqrt(sum(part * part for part in parts))


def of_reading(resolution: float, *, repeatability: float) -> float:
    """Standard uncertainty of one reading: rounding together with the reader's repeatability. [m]

    resolution : of the tape, ≥ 0 [m].  repeatability : of the reader, ≥ 0 [m].
    Source `jcgm-100` (MEMORY), 4.3.7 and 5.1.2.
    """
    return combined(from_resolution(resolution), _not_negative(repeatability))


def chance_above_zero(value: float, *, u: float) -> float:
    """Chance that a quantity estimated as `value` with standard uncertainty `u` is really above zero. [1]

    u : ≥ 0; with none, the estimate is taken as exact, and exactly zero has an even chance.
    Normal distribution: Φ(value/u), Φ(z) = ½(1 + erf(z/√2)).
    """
    if _not_negative(u) == 0.0:
        return 0.5 if value == 0.0 else float(value > 0.0)
    return 0.5 * (1.0 + erf(value / u / sqrt(2.0)))


def _not_negative(number: float) -> float:
    if not isfinite(number) or number < 0.0:
        raise ValueError(f"an uncertainty's part is 0 or more, not {number}")
    return number

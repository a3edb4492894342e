"""Dew point of the air, for bonding. Whether a bond may start is decided with the steps, not here."""

from math import isfinite, log

from logic.data.constants import MAGNUS_A, MAGNUS_B_DEGC


def dew_point(degc: float, humidity: float) -> float:
    """Dew point of air over water. [°C]

    degc : the air's temperature, −45…60 [°C]. humidity : relative, over 0 to 1 [1].
    Raises ValueError: humidity not in that range, temperature not finite or at or below −243 °C.
    Source `wmo-8-4b` (FOUND), Magnus form; within 0.03 K of ASHRAE's from 5 to 30 °C.
    """
    if not 0 < humidity <= 1 or not isfinite(degc) or degc <= -MAGNUS_B_DEGC:
        raise ValueError(f"no dew point at {degc} °C and a relative humidity of {humidity}")
    gamma = log(humidity) + MAGNUS_A * degc / (MAGNUS_B_DEGC + degc)
    return MAGNUS_B_DEGC * gamma / (MAGNUS_A - gamma)

"""Small pieces of the circuits' sentences: a rating, a gauge, a number of circuits."""

from logic.data.wiring_constants import AMPACITY, GAUGES
from logic.data.wording import Quantity, quantity


def circuits_for(amps: float) -> int:
    """How many circuits bring each within the thickest wire."""
    return int(-(-amps // AMPACITY[GAUGES[-1]]))


def rating_of(amps: float | None) -> Quantity | str:
    return "none that is large enough" if amps is None else quantity(amps, "rating")


def gauge_of(number: int | None) -> Quantity | str:
    return "more than 4 AWG" if number is None else quantity(number, "gauge")

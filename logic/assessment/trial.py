"""One test of the finished wiring, and one joint: expected beside measured."""

import msgspec

from logic.data.state import Reading
from logic.physics.joint import Extra

UNTESTED, GOOD, OFF, UNJUDGED = "untested", "good", "off", "not judged"


class Trial(msgspec.Struct, frozen=True):
    """One test: expected beside measured. SI."""

    slot: str
    place: str
    circuit: str  # the run whose circuit it is made in; empty: none
    quantity: str  # resistance | isolation | current | volts | drop_out | drop_back
    kind: str  # ohms | amps | volts
    state: str  # untested | good | off | not judged
    expected: float | None = None
    low: float | None = None  # of what is accepted
    high: float | None = None
    measured: float | None = None  # as the meter showed it
    corrected: float | None = None  # leads taken off; None: nothing to take off, or no leads read
    u: float | None = None  # one standard uncertainty of the reading
    over: bool = False  # over range
    supply: float | None = None  # at which it is expected
    supply_read: bool = False  # that voltage was measured, with this circuit energised

    @property
    def value(self) -> float | None:
        """The reading that counts: corrected where it is."""
        return self.corrected if self.corrected is not None else self.measured


class JointTrial(msgspec.Struct, frozen=True):
    """The resistance found in series with a heater beyond what its wires, fuses and switches account for."""

    heater: str
    circuit: str
    by: str  # drops | volts
    amps: float
    computed: float  # Ω
    allowed: float  # Ω
    extra: Extra


ARITHMETIC = 1e-9  # a limit that is met exactly is met


def judged(reading: Reading | None, value: float | None, *, low: float, high: float) -> str:
    """Untested, good or off. Over range is off."""
    if reading is None:
        return UNTESTED
    if reading.over or value is None:
        return OFF
    return GOOD if low - ARITHMETIC * abs(low) <= value <= high + ARITHMETIC * abs(high) else OFF

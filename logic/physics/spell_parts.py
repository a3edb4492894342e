"""What a cold spell takes and gives: heaters, the state it begins and ends in, its result, its pieces.

Kept apart from the solver (`cold_spell.py`), whose one concern is to be exact and fast.
"""

from math import exp

import msgspec

LIQUID, MUSH, ICE = 0, 1, 2
PHASES = ("liquid", "mush", "ice")


class SpellHeater(msgspec.Struct, frozen=True):
    """A heater as the contents know it."""

    heat: float  # that reaches them while it is on, W
    on_degc: float | None = None  # it comes on below; None: a plain switch, always on
    off_degc: float | None = None  # and goes off above


class SpellState(msgspec.Struct, frozen=True):
    """Where a spell begins, or has got to."""

    phase: int  # LIQUID, MUSH or ICE
    degc: float  # 0 in the mush
    heat_left: float = 0.0  # in the mush: above all ice at 0 °C, J
    on: tuple[bool, ...] = ()  # each heater


class Piece(msgspec.Struct, frozen=True):
    """A stretch between two events, on which the solution is one formula.

    liquid, ice: T(t) = base + slope·t + fade·e^(−rate·t); mush: H(t) = heat_left + conductance·(drive·t +
    slope·t²/2). t from the piece's beginning.
    """

    start: float  # s
    length: float  # s
    phase: int
    degc: float  # contents at its beginning
    heat_left: float  # mush: J above all ice
    drive: float  # T_eff + W/G at its beginning, °C: what the contents make for
    slope: float  # of T_eff, K/s
    rate: float  # G/C, 1/s; 0 in the mush
    conductance: float  # W/K
    heat: float  # from heaters, W
    on: tuple[bool, ...]

    def degc_at(self, seconds: float) -> float:
        """Temperature of the contents at a time into the piece. [°C]"""
        if self.phase == MUSH:
            return 0.0
        base = self.drive - self.slope / self.rate
        return base + self.slope * seconds + (self.degc - base) * exp(-self.rate * seconds)

    def heat_left_at(self, seconds: float) -> float:
        """Heat above all ice at 0 °C at a time into a piece of mush. [J]"""
        return self.heat_left + self.conductance * (self.drive * seconds + self.slope * seconds**2 / 2)


class Spell(msgspec.Struct, frozen=True):
    """What came of a spell."""

    length: float  # s
    lowest_degc: float
    ice_seconds: float  # with any ice
    ice_share: float  # greatest, by mass
    on_times: tuple[tuple[tuple[float, float], ...], ...]  # of each heater: (on, off) instants, s
    switchings: int
    end: SpellState
    pieces: tuple[Piece, ...] = ()  # on request

    def seconds_on(self, heater: int) -> float:
        """How long a heater was on. [s]"""
        return sum(off - on for on, off in self.on_times[heater])

    def seconds_on_between(self, heater: int, days: tuple[tuple[float, float], ...]) -> tuple[float, ...]:
        """How long a heater was on within each of some stretches that follow each other. [s]"""
        times = self.on_times[heater]
        result = []
        first = 0
        for start, end in days:
            while first < len(times) and times[first][1] <= start:
                first += 1
            total = 0.0
            at = first
            while at < len(times) and times[at][0] < end:
                total += min(times[at][1], end) - max(times[at][0], start)
                at += 1
            result.append(total)
        return tuple(result)

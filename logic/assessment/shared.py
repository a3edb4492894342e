"""What one part of the assessment hands to another: plain structs, made in one place and read in several.

They stand here so that figures of heat, circuit and fit can be made side by side without reading each other.
"""

from collections.abc import Callable

import msgspec


class HeaterCircuit(msgspec.Struct, frozen=True):
    """One heater in the solved network, every heater on. SI."""

    resistance: float
    fed: bool
    volts: float | None  # at the supply's `volts`; None: no run feeds it
    watts: float | None
    amps: float | None
    charging_volts: float | None  # at `charging`
    charging_amps: float | None
    lengthwise: Callable[[], tuple[tuple[str, float], ...]] | None = None  # behind `volts_by_length`

    @property
    def volts_by_length(self) -> tuple[tuple[str, float], ...]:
        """(slot of a run's length, d volts / d length [V/m]), gauges held: for first-order uncertainty.

        Worked out when it is asked for: ask only where a slot of a run's length has been read.
        """
        return self.lengthwise() if self.lengthwise is not None else ()


class Circuits(msgspec.Struct, frozen=True):
    heaters: tuple[tuple[str, HeaterCircuit], ...]
    supply_amps: float  # at `volts`
    supply_charging_amps: float

    def heater(self, heater_id: str) -> HeaterCircuit:
        """The heater's circuit; KeyError where there is no such heater."""
        for name, circuit in self.heaters:
            if name == heater_id:
                return circuit
        raise KeyError(heater_id)


class Place(msgspec.Struct, frozen=True):
    """Where a bottom pad lies: its corner nearest the origin, and its sides along x and y. m."""

    heater: str
    x: float
    y: float
    along: float  # extent along x
    across: float  # extent along y
    turned: bool
    given: bool  # by the profile, or marked out; False: the program placed it
    tank: str = ""  # on whose bottom


class NoPlace(msgspec.Struct, frozen=True):
    """Why a bottom pad has no place: by how much the best try is over, and what would fit."""

    heater: str
    over: float | None  # by how much a side is longer than that of `fits`, m; None: nothing fits
    text: str  # a template is not needed: see `over` and `fits`
    fits: tuple[float, float] | None = None  # sides of the largest pad like it that would fit, m

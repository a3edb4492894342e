"""The shape of a figure: a number that carries its reasons."""

import msgspec

from logic.data.wording import Words


class Figure(msgspec.Struct, frozen=True):
    """One row of the table of figures in the program's format, for one place."""

    id: str  # tank.galley.volume
    place: str  # tank.galley | supply | wiring
    title: str
    unit: str  # of value, low, high and u, as the format has it
    value: float | None
    working: Words
    sources: tuple[str, ...] = ()
    slots: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    banded: bool = False  # it has a band, though an edge of it may be None
    u: float | None = None  # one standard uncertainty from readings
    why_not: Words | None = None  # stands where value is None
    holds: bool | None = None  # whether its limit is kept; None: no limit
    limit: Words | None = None

"""The readings of a session that stand, slot by slot: laid out once for each state, for all who ask."""

from logic.data.state import Reading, State

_newest: list[tuple[State, dict[str, tuple[Reading, ...]]]] = []


def standing_readings(state: State) -> dict[str, tuple[Reading, ...]]:
    """The readings of each slot that are not struck, oldest first. Not to be changed by whoever asks."""
    if _newest and _newest[0][0] is state:
        return _newest[0][1]
    found: dict[str, list[Reading]] = {}
    for reading in state.readings:
        if not reading.struck:
            found.setdefault(reading.slot, []).append(reading)
    by_slot = {slot: tuple(readings) for slot, readings in found.items()}
    _newest[:] = [(state, by_slot)]
    return by_slot

"""Whether every spell is gone through once more for each size that was read, or that would take too long: the weather
has too many rows, or tanks have too many pads.
"""

from weakref import WeakKeyDictionary

from logic.assessment.case import Case
from logic.assessment.tank_view import tank_view
from logic.data.constants import MOST_PADS_MOVED, MOST_ROWS_MOVED
from logic.data.wording import Words, quantity, words

_known: WeakKeyDictionary[Case, Words | None] = WeakKeyDictionary()


def too_long_for_readings(case: Case) -> Words | None:
    """Why the readings' part in what hangs on the spells, or in all figures, isn't worked out; None: it is.

    The figures themselves and their bands are, in any case.
    """
    if case not in _known:
        _known[case] = _too_long(case)
    return _known[case]


def _too_long(case: Case) -> Words | None:
    if case.without_u is not None:
        return case.without_u
    views = [tank_view(case, tank) for tank in case.profile.tanks] if case.slots else []
    moved = [(2 * view.results.moves(view.whole), view.inputs) for view in views]
    rows = sum(times * len(inputs.course.seconds) for times, inputs in moved)
    if rows > MOST_ROWS_MOVED:
        return words(
            "in cold spells and the battery's nights, what the readings leave uncertain isn't worked out: {moved_rows} "
            "rows of weather in all, each size that was read moved up and down, are more than {most_rows}",
            moved_rows=quantity(rows, "count"),
            most_rows=quantity(MOST_ROWS_MOVED, "count"),
        )
    pads = sum(times * len(inputs.pads) for times, inputs in moved)
    if pads > MOST_PADS_MOVED:
        return words(
            "in cold spells and the battery's nights, what the readings leave uncertain isn't worked out: {moved_pads} "
            "pads in all, each size that was read moved up and down, are more than {most_pads}",
            moved_pads=quantity(pads, "count"),
            most_pads=quantity(MOST_PADS_MOVED, "count"),
        )
    return None

"""Words for numbers in order; what places are called is one with the sheet's, in `logic/data/place_names.py`."""

from typing import TYPE_CHECKING

from logic.data.place_names import name_of, place_name, place_of_slot

if TYPE_CHECKING:
    from tui.show.snapshot import Snapshot

__all__ = ["live_names", "name_of", "ordinal", "place_name", "place_of_slot"]


def live_names(snapshot: "Snapshot") -> str:
    """The circuits that are live, by the names of their runs."""
    return ", ".join(place_name(f"run.{run}", snapshot.profile) for run in snapshot.assessment.live)


def ordinal(number: int) -> str:
    """`1st`, `2nd`, `3rd`, `4th`; of ten and a few as well."""
    if number % 100 in (11, 12, 13):
        return f"{number}th"
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th') }"

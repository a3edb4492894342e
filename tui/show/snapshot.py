"""What the panes are shown: one frozen picture of a session, made in `wiring.py` after every event."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from logic.data.profile import Profile
from logic.data.state import Assessment, Instant, Reading, SlotView, State
from tui.show.marks import Marks

HIDDEN = "hidden"  # a first value, until the second reading is taken


class Snapshot(NamedTuple):
    assessment: Assessment
    state: State
    document: Mapping[str, Any]  # the profile as its file would have it
    units: str  # us | metric: what is shown
    marks: Marks
    now: Instant
    target: str | None = None  # the slot that the reading line asks for
    after: tuple[str, ...] = ()  # the slots that come after it
    moved: Mapping[str, str] = {}  # figure id → what it was before the last event, as shown
    held_by: str = ""  # why nothing can be recorded here: who else holds the session
    unsaved: int = 0  # how many events could not be put on the disk yet
    session: str = ""
    holder_gone: bool = False  # whoever held it doesn't any more: it may be taken over

    @property
    def profile(self) -> Profile:
        return self.assessment.profile

    def slot(self, slot_id: str | None) -> SlotView | None:
        """The slot as it stands; None where there is none of that name."""
        for view in self.assessment.slots:
            if view.slot == slot_id:
                return view
        return None

    def reading(self, reading_id: str) -> Reading | None:
        for reading in reversed(self.state.readings):  # the newest is asked for most
            if reading.id == reading_id:
                return reading
        return None

    @property
    def owed(self) -> int:
        """How many readings are still owed."""
        return sum(view.owed for view in self.assessment.slots)


def blind(view: SlotView) -> bool:
    """Whether a slot's first value is kept out of sight, so that the second reading is worth something."""
    return view.deciding and view.state == "single" and view.owed > 0

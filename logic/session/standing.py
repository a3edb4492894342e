"""What a check may look at before it lets an intent become an event."""

from collections.abc import Sequence
from typing import Any, Protocol

from logic.data.events import Event
from logic.data.profile import Profile
from logic.data.state import Assessment, Instant, State

# The id under which an event is tried out before it is one; it sorts behind every event's.
TRIAL = "~"


class Standing(Protocol):
    """A session as it stands, seen by the checks; `Session` is one."""

    @property
    def state(self) -> State: ...

    @property
    def events(self) -> Sequence[Event]: ...

    @property
    def profile(self) -> Profile: ...

    @property
    def document(self) -> dict[str, Any]: ...

    def assess(self, now: Instant) -> Assessment: ...

    def check_edits(self, edits: Sequence[Event]) -> None:
        """Raises ProfileFaults where one of these edits can't stand that isn't left out already."""
        ...

    def edits(self) -> tuple[Event, ...]:
        """The edits of the profile that stand."""
        ...

"""What a session would come to if what is being typed were recorded: worked out before it is.

A number takes longer to type than to assess. What was worked out meanwhile is taken up where exactly that is
recorded next; whatever else happens first, it is forgotten.
"""

from collections.abc import Generator

import msgspec

from logic.data.events import Event, ReadingTaken
from logic.data.profile import Profile
from logic.data.state import Assessment, Instant, State
from logic.session.event_log import reading_of
from logic.session.intents import Decided, Intent

# A record has the time at which it was foreseen, if Enter comes within this. [s]  Far less than readings are apart,
# and than the time within which a bounced key is asked about.
FORESEEN_FOR = 5.0


class Foreseen(msgspec.Struct, frozen=True):
    """An event that isn't one yet, and the session as if it were."""

    intent: Intent
    decided: Decided
    event: Event
    state: State
    assessment: Assessment

    def is_of(self, intent: Intent, now: Instant) -> bool:
        """Whether this is what an intent comes to now, with nothing recorded in between."""
        return (
            self.intent == intent
            and self.event.offset == now.offset
            and 0.0 <= now.at - self.event.at <= FORESEEN_FOR
        )


def foresee(
    intent: Intent, decided: Decided, event: Event, profile: Profile, state: State
) -> Generator[None, None, Foreseen]:
    """The session as it would stand with one more reading, piece by piece.

    profile, state : as they stand.  event : what the intent comes to, a `ReadingTaken` after every other event.
    """
    from logic.assessment.assess import assess_in_pieces  # opening a session does without

    now = Instant(event.at, event.offset)
    assert isinstance(event.payload, ReadingTaken)
    reading = reading_of(event, event.payload)
    state = msgspec.structs.replace(state, readings=(*state.readings, reading), last=now)
    return Foreseen(intent, decided, event, state, (yield from assess_in_pieces(profile, state, now)))

"""What a person may want recorded, and what becomes of it.

An intent is a wish in the imperative; it is checked (`check_*.py`) and becomes one event or a refusal that
changes nothing. Screen, command line and tests send the same ones.
"""

from typing import Any

import msgspec

from logic.data.events import AnyPayload, Event
from logic.data.faults import ProfileFault
from logic.data.wording import Words


class Intent(msgspec.Struct, frozen=True):
    """Base of all intents."""


# --- readings ---


class RecordReading(Intent, frozen=True):
    slot: str
    typed: str
    confirmed: bool = False  # the same value again within seconds is meant
    saw_first: bool = False  # the slot's earlier value was on show


class StrikeReading(Intent, frozen=True):
    """By its id, or as the slot's Nth reading, counted from 1 over all ever taken there."""

    reading: str = ""
    slot: str = ""
    number: int = 0


class MoveReading(Intent, frozen=True):
    reading: str
    to: str


class SwapLastTwo(Intent, frozen=True):
    """The last two readings were typed in each other's slots."""


class TakeBackReading(Intent, frozen=True):
    """Strike the reading taken last that still stands."""


class SetTape(Intent, frozen=True):
    typed: str  # the tape's resolution: 1/16, 1 mm


# --- work ---


class StartStep(Intent, frozen=True):
    step: str


class FinishStep(Intent, frozen=True):
    step: str
    note: str = ""
    recorded: dict[str, str] = {}
    on_word: bool = False  # a person's word for it, from a script: with nothing written down, and said so


class HoldStep(Intent, frozen=True):
    step: str
    note: str = ""


class SkipStep(Intent, frozen=True):
    step: str
    note: str = ""
    name: str = ""


class OverruleStep(Intent, frozen=True):
    step: str
    gate: str  # id of the block
    reason: str
    name: str


class RecordInStep(Intent, frozen=True):
    step: str
    recorded: dict[str, str]


class BeginDay(Intent, frozen=True):
    stop_at: float | None = None  # epoch seconds


class EndDay(Intent, frozen=True):
    pass


class SetPace(Intent, frozen=True):
    """Minutes are planned for one who does this for the first time, or for a technician."""

    first_timer: bool


# --- punch list, notes, parts ---


class WriteItem(Intent, frozen=True):
    text: str
    weight: str = "stop"
    place: str = ""


class FinishItem(Intent, frozen=True):
    item: str


class AcceptItem(Intent, frozen=True):
    """Accept an item written by hand, or a finding, by its id."""

    item: str
    reason: str
    name: str


class WriteNote(Intent, frozen=True):
    text: str
    place: str = ""


class TickPart(Intent, frozen=True):
    part: str
    ticked: bool = True
    length: float | None = None  # m, as cut


class MarkSheetMade(Intent, frozen=True):
    pass


# --- profile ---


class ChangeProfile(Intent, frozen=True):
    """A value as it would stand in a profile's file; None leaves the key out, so that its default holds."""

    path: str
    value: Any = None


class AddPart(Intent, frozen=True):
    part_kind: str
    part: dict[str, Any]
    place: int = -1  # position among its kind; −1: last


class RemovePart(Intent, frozen=True):
    part_kind: str
    id: str


# --- all ---


class UndoLast(Intent, frozen=True):
    pass


class RedoLast(Intent, frozen=True):
    pass


# --- what becomes of an intent ---


class Decided(msgspec.Struct, frozen=True):
    """An intent that may stand: what is to be recorded, and how it is said once it is."""

    payload: AnyPayload
    said: Words


class Taken(msgspec.Struct, frozen=True):
    """Recorded: it is on disk."""

    event: Event
    said: Words
    beside: tuple[Words, ...] = ()  # what is said with it, once: a clock that went back


CONFIRM, MEANING = "confirm", "meaning"


class Refused(msgspec.Struct, frozen=True):
    """Nothing was recorded, and why."""

    reason: Words
    ask: str = ""  # confirm: the same again with confirmed=True · meaning: one of `examples` is meant
    examples: tuple[str, ...] = ()
    more: tuple[Words, ...] = ()  # further reasons, and what would release it
    overrulable: tuple[str, ...] = ()  # gates that a person may set aside, with a reason and a name
    written_down: tuple[str, ...] = ()  # what must be written down with the step
    faults: tuple[ProfileFault, ...] = ()  # of a change to the profile


class NotSaved(msgspec.Struct, frozen=True):
    """The event could not be put on disk. It isn't in the state; it waits in `Session.unsaved`."""

    event: Event
    said: Words
    reason: Words

"""What can happen in a session: one frozen struct for each kind of event, and their envelope.

Events are facts: past tense, never changed, never removed. An undo is an event that names another.
A kind or a field that this version doesn't know is kept as it came (see `session/store.py`).
"""

import msgspec


class Payload(msgspec.Struct, frozen=True, omit_defaults=True, tag_field="kind", gc=False):
    """Base of all payloads; `kind` is the tag that stands in the file. None of them can lead back to itself."""


class SessionBegun(Payload, frozen=True, tag="session-begun"):
    rig: str


class TapeSet(Payload, frozen=True, tag="tape-set"):
    resolution: float  # m


class ReadingTaken(Payload, frozen=True, tag="reading-taken"):
    slot: str
    typed: str
    value: float  # SI; °C for temperatures
    unit: str = ""
    resolution: float | None = None
    over: bool = False
    saw_first: bool = False


class ReadingStruck(Payload, frozen=True, tag="reading-struck"):
    reading: str  # id of the event that took it


class ReadingMoved(Payload, frozen=True, tag="reading-moved"):
    reading: str
    to: str


class ReadingsSwapped(Payload, frozen=True, tag="readings-swapped"):
    """Two readings that were typed in each other's slots."""

    first: str
    second: str


class StepStarted(Payload, frozen=True, tag="step-started"):
    step: str
    note: str = ""


class StepDone(Payload, frozen=True, tag="step-done"):
    step: str
    note: str = ""
    recorded: dict[str, str] = {}


class StepHeld(Payload, frozen=True, tag="step-held"):
    step: str
    note: str = ""


class StepSkipped(Payload, frozen=True, tag="step-skipped"):
    step: str
    note: str = ""
    name: str = ""


class StepOverruled(Payload, frozen=True, tag="step-overruled"):
    step: str
    gate: str
    reason: str
    name: str


class StepRecorded(Payload, frozen=True, tag="step-recorded"):
    """Something written down within a step: seen or not seen, pressed, rolled."""

    step: str
    recorded: dict[str, str]


class ItemWritten(Payload, frozen=True, tag="item-written"):
    text: str
    weight: str = "stop"
    place: str = ""


class ItemDone(Payload, frozen=True, tag="item-done"):
    item: str


class ItemAccepted(Payload, frozen=True, tag="item-accepted"):
    item: str
    reason: str
    name: str


class FindingAccepted(Payload, frozen=True, tag="finding-accepted"):
    finding: str
    reason: str
    name: str


class DayBegun(Payload, frozen=True, tag="day-begun"):
    stop_at: float | None = None  # epoch seconds


class DayEnded(Payload, frozen=True, tag="day-ended"):
    pass


class PaceSet(Payload, frozen=True, tag="pace-set"):
    """For whom minutes are planned from here on: a first-timer, or a technician."""

    first_timer: bool = False


class NoteWritten(Payload, frozen=True, tag="note-written"):
    text: str
    place: str = ""


class PartTicked(Payload, frozen=True, tag="part-ticked"):
    part: str
    ticked: bool = True
    length: float | None = None


class SheetMade(Payload, frozen=True, tag="sheet-made"):
    pass


class ProfileChanged(Payload, frozen=True, tag="profile-changed"):
    """A value of the profile: its path as in a file, and its text (None: left out, the default holds)."""

    path: str
    value: msgspec.Raw = msgspec.Raw(b"null")


class PartAdded(Payload, frozen=True, tag="part-added"):
    part_kind: str  # as in the file: tank, drain, heater, run, bay
    part: msgspec.Raw
    place: int = -1  # position among its kind; −1: last


class PartRemoved(Payload, frozen=True, tag="part-removed"):
    part_kind: str
    id: str


class Undone(Payload, frozen=True, tag="undone"):
    event: str  # may itself be an Undone: that is a redo
    also: tuple[str, ...] = ()  # further events undone with it: two copies may have undone the same one


PROFILE_EDITS = (ProfileChanged, PartAdded, PartRemoved)

AnyPayload = (
    SessionBegun
    | TapeSet
    | ReadingTaken
    | ReadingStruck
    | ReadingMoved
    | ReadingsSwapped
    | StepStarted
    | StepDone
    | StepHeld
    | StepSkipped
    | StepOverruled
    | StepRecorded
    | ItemWritten
    | ItemDone
    | ItemAccepted
    | FindingAccepted
    | DayBegun
    | DayEnded
    | PaceSet
    | NoteWritten
    | PartTicked
    | SheetMade
    | ProfileChanged
    | PartAdded
    | PartRemoved
    | Undone
)


class Event(msgspec.Struct, frozen=True, gc=False):
    """One event in memory: its id sorts by time; `payload` None: a kind unknown to this version."""

    id: str
    at: float  # epoch seconds
    offset: int  # seconds east of UTC of the clock that wrote it
    by: str
    payload: AnyPayload | None
    raw: bytes = b""  # its line, where that is not just as this program would write it

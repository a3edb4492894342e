"""The state of a session, folded from its events, and the assessment made from it: plain data.

Times are epoch seconds with the offset of the clock that wrote them, so that nothing above asks a calendar.
"""

import msgspec

from logic.data.figure import Figure
from logic.data.finding import Acceptance, Finding, Verdict
from logic.data.profile import Profile
from logic.data.step import DayPlan, Step
from logic.data.wording import Words


class Instant(msgspec.Struct, frozen=True, gc=False):
    """A moment: epoch seconds, and the offset of local time from UTC in seconds, east positive."""

    at: float
    offset: int = 0

    def day(self) -> int:
        """The local calendar day, counted from 1970-01-01."""
        return int((self.at + self.offset) // 86400)


class Reading(msgspec.Struct, frozen=True, gc=False):
    id: str  # of its event
    slot: str  # where it counts now
    typed: str
    value: float  # SI; volts, amps, ohms, °C, share
    when: Instant
    resolution: float | None = None  # SI, where it is the reading's own (±) or the tape's
    unit: str = ""  # the unit it was read in
    over: bool = False  # over range (OL)
    by: str = ""
    struck: bool = False
    moved_from: str | None = None
    saw_first: bool = False  # the earlier value was on show when this one was taken


class StepEvent(msgspec.Struct, frozen=True, gc=False):
    """One thing that happened to a step, in order."""

    id: str
    step: str
    kind: str  # started | done | held | skipped | overruled | recorded
    when: Instant
    note: str = ""
    name: str = ""
    gate: str = ""  # overruled: which block
    recorded: tuple[tuple[str, str], ...] = ()


class Item(msgspec.Struct, frozen=True, gc=False):
    """A punch item written by hand."""

    id: str
    weight: str
    place: str
    text: str
    when: Instant
    state: str = "open"  # open | done | accepted
    accepted: Acceptance | None = None


class Day(msgspec.Struct, frozen=True):
    began: Instant
    stop_at: float | None = None  # epoch seconds
    ended: Instant | None = None


class Note(msgspec.Struct, frozen=True, gc=False):
    id: str
    place: str
    text: str
    when: Instant


class Tick(msgspec.Struct, frozen=True, gc=False):
    """A part bought or a wire cut: ticked, with the length it was cut to where it is a wire."""

    part: str  # cut:run.feed | buy:…
    when: Instant
    length: float | None = None  # m


class State(msgspec.Struct, frozen=True):
    readings: tuple[Reading, ...] = ()  # every one ever taken, oldest first
    steps: tuple[StepEvent, ...] = ()
    items: tuple[Item, ...] = ()
    accepted: tuple[tuple[str, Acceptance], ...] = ()  # finding id → acceptance
    days: tuple[Day, ...] = ()
    notes: tuple[Note, ...] = ()
    ticks: tuple[Tick, ...] = ()
    tape: float | None = None  # resolution of the tape, m; None: 1/16 in (1 mm in metric)
    first_timer: bool = False  # minutes are planned for one who does this for the first time
    sheet_made: Instant | None = None
    last: Instant | None = None  # when the last event happened


class SlotView(msgspec.Struct, frozen=True):
    """A slot as it stands: its value, how it is known, and what is still owed."""

    slot: str
    place: str
    title: str  # length
    kind: str  # length | route | volts | …: how it is printed and typed
    own_unit: str  # what a bare number means
    value: float | None
    state: str  # planned | single | agreed | in dispute
    u: float | None = None
    planned: float | None = None
    deciding: bool = False
    owed: int = 0
    readings: tuple[Reading, ...] = ()  # that stand
    impossible: str = ""  # why it contradicts another value


class Assessment(msgspec.Struct, frozen=True):
    """Everything the program knows about a session at one moment."""

    profile: Profile  # with the values of the readings in place
    planned: Profile  # as the profile stands, without readings
    figures: tuple[Figure, ...]
    findings: tuple[Finding, ...]
    verdict: Verdict
    now: Instant
    slots: tuple[SlotView, ...] = ()
    wanted: tuple[str, ...] = ()  # slots in walking order, next first
    steps: tuple[Step, ...] = ()
    minutes_left: float | None = None
    under_left: float = 0.0  # minutes planned under the vehicle, and beside it
    beside_left: float = 0.0
    live: tuple[str, ...] = ()  # what is energised, in words
    moment: str = "planning"  # which figures stand first (see `figures/order.py`)
    left_out: Words | None = None  # what readings leave uncertain and isn't worked out, and why
    day: DayPlan | None = None  # what fits into today, what is offered first; None: no session

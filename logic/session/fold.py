"""Events → State: what stands, worked out from everything that happened.

Taken in one by one while they come in order; an undo, or an event that sorts before another, wants all of
them folded anew. An event that names another (struck, done) names one before it; one that names nothing known
has no effect. Events of unknown kind are passed over: they stay in the list and in the file.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import Any

import msgspec

from logic.data import events as happened
from logic.data.events import Event
from logic.data.finding import WEIGHTS, Acceptance
from logic.data.state import Day, Instant, Item, Note, Reading, State, StepEvent, Tick
from logic.session.undo import undone_ids

replace = msgspec.structs.replace


class Fold:
    """A state in the making. `add` says whether the event could be taken in; if not, begin a new fold."""

    def __init__(self, events: Sequence[Event] = ()) -> None:
        """`events` in the order of their ids, each once."""
        self.readings: dict[str, Reading] = {}
        self.typed_in: dict[str, str] = {}  # the slot in which each reading was typed
        self.steps: list[StepEvent] = []
        self.items: dict[str, Item] = {}
        self.accepted: dict[str, Acceptance] = {}
        self.days: list[Day] = []
        self.notes: list[Note] = []
        self.ticks: dict[str, Tick] = {}
        self.edits: list[Event] = []  # of the profile, that stand
        self.rig = ""
        self.first_timer = False
        self.tape: float | None = None
        self.sheet_made: Instant | None = None
        self.last: Instant | None = None
        self._newest = ""
        self._state: State | None = None
        gone = undone_ids(events)
        for event in events:
            if event.id not in gone:
                self._take(event)
        if events:
            self._newest = events[-1].id

    def add(self, event: Event) -> bool:
        """Take in one more event; False: it is an undo, or sorts before one that is in."""
        if event.id <= self._newest or isinstance(event.payload, happened.Undone):
            return False
        self._take(event)
        self._newest = event.id
        return True

    def state(self) -> State:
        """The state as it stands, made once until the next event."""
        if self._state is None:
            self._state = State(
                readings=tuple(self.readings.values()),
                steps=tuple(self.steps),
                items=tuple(self.items.values()),
                accepted=tuple(self.accepted.items()),
                days=tuple(self.days),
                notes=tuple(self.notes),
                ticks=tuple(self.ticks.values()),
                tape=self.tape,
                first_timer=self.first_timer,
                sheet_made=self.sheet_made,
                last=self.last,
            )
        return self._state

    def _take(self, event: Event) -> None:
        payload = event.payload
        taker = None if payload is None else _TAKERS.get(type(payload))
        if taker is None:
            return
        when = Instant(event.at, event.offset)
        taker(self, event, payload, when)
        self.last = when
        self._state = None


def fold(events: Iterable[Event]) -> State:
    """The state of events in the order of their ids, each once."""
    return Fold(tuple(events)).state()


# --- one function for each kind of event ---


def _begun(fold: Fold, event: Event, payload: happened.SessionBegun, when: Instant) -> None:
    fold.rig = payload.rig


def _tape(fold: Fold, event: Event, payload: happened.TapeSet, when: Instant) -> None:
    fold.tape = payload.resolution


def _reading(fold: Fold, event: Event, payload: happened.ReadingTaken, when: Instant) -> None:
    fold.typed_in[event.id] = payload.slot
    fold.readings[event.id] = reading_of(event, payload)


def reading_of(event: Event, payload: happened.ReadingTaken) -> Reading:
    """A reading as it stands where nothing has happened to it since."""
    return Reading(
        id=event.id,
        slot=payload.slot,
        typed=payload.typed,
        value=payload.value,
        when=Instant(event.at, event.offset),
        resolution=payload.resolution,
        unit=payload.unit,
        over=payload.over,
        by=event.by,
        saw_first=payload.saw_first,
    )


def _struck(fold: Fold, event: Event, payload: happened.ReadingStruck, when: Instant) -> None:
    reading = fold.readings.get(payload.reading)
    if reading is not None:
        fold.readings[reading.id] = replace(reading, struck=True)


def _moved(fold: Fold, event: Event, payload: happened.ReadingMoved, when: Instant) -> None:
    _move(fold, payload.reading, payload.to)


def _swapped(fold: Fold, event: Event, payload: happened.ReadingsSwapped, when: Instant) -> None:
    first, second = fold.readings.get(payload.first), fold.readings.get(payload.second)
    if first is not None and second is not None:
        _move(fold, first.id, second.slot)
        _move(fold, second.id, first.slot)


def _move(fold: Fold, reading_id: str, slot: str) -> None:
    reading = fold.readings.get(reading_id)
    if reading is not None:
        typed_in = fold.typed_in[reading_id]
        moved_from = typed_in if typed_in != slot else None
        fold.readings[reading_id] = replace(reading, slot=slot, moved_from=moved_from)


def _step_event(fold: Fold, event: Event, payload: Any, when: Instant) -> None:
    fold.steps.append(
        StepEvent(
            id=event.id,
            step=payload.step,
            kind=_STEP_KINDS[type(payload)],
            when=when,
            note=getattr(payload, "note", "") or getattr(payload, "reason", ""),
            name=getattr(payload, "name", ""),
            gate=getattr(payload, "gate", ""),
            recorded=tuple(getattr(payload, "recorded", {}).items()),
        )
    )


_STEP_KINDS: dict[type, str] = {
    happened.StepStarted: "started",
    happened.StepDone: "done",
    happened.StepHeld: "held",
    happened.StepSkipped: "skipped",
    happened.StepOverruled: "overruled",
    happened.StepRecorded: "recorded",
}


def _item(fold: Fold, event: Event, payload: happened.ItemWritten, when: Instant) -> None:
    weight = (
        payload.weight if payload.weight in WEIGHTS else WEIGHTS[0]
    )  # one of a newer version stops closing
    fold.items[event.id] = Item(event.id, weight, payload.place, payload.text, when)


def _item_done(fold: Fold, event: Event, payload: happened.ItemDone, when: Instant) -> None:
    item = fold.items.get(payload.item)
    if item is not None:
        fold.items[item.id] = replace(item, state="done")


def _item_accepted(fold: Fold, event: Event, payload: happened.ItemAccepted, when: Instant) -> None:
    item = fold.items.get(payload.item)
    if item is not None:
        acceptance = Acceptance(payload.reason, payload.name, when.at)
        fold.items[item.id] = replace(item, state="accepted", accepted=acceptance)


def _finding_accepted(fold: Fold, event: Event, payload: happened.FindingAccepted, when: Instant) -> None:
    fold.accepted[payload.finding] = Acceptance(payload.reason, payload.name, when.at)


def _day_begun(fold: Fold, event: Event, payload: happened.DayBegun, when: Instant) -> None:
    """A day begun twice is one day with another stop; one left open ends where the next begins."""
    open_day = fold.days[-1] if fold.days and fold.days[-1].ended is None else None
    if open_day is not None and open_day.began.day() == when.day():
        fold.days[-1] = replace(open_day, stop_at=payload.stop_at)
    else:
        fold.days.append(Day(when, payload.stop_at))


def _day_ended(fold: Fold, event: Event, payload: happened.DayEnded, when: Instant) -> None:
    if fold.days and fold.days[-1].ended is None:
        fold.days[-1] = replace(fold.days[-1], ended=when)


def _pace(fold: Fold, event: Event, payload: happened.PaceSet, when: Instant) -> None:
    fold.first_timer = payload.first_timer


def _note(fold: Fold, event: Event, payload: happened.NoteWritten, when: Instant) -> None:
    fold.notes.append(Note(event.id, payload.place, payload.text, when))


def _tick(fold: Fold, event: Event, payload: happened.PartTicked, when: Instant) -> None:
    if payload.ticked:
        fold.ticks[payload.part] = Tick(payload.part, when, payload.length)
    else:
        fold.ticks.pop(payload.part, None)


def _sheet(fold: Fold, event: Event, payload: happened.SheetMade, when: Instant) -> None:
    fold.sheet_made = when


def _edit(fold: Fold, event: Event, payload: Any, when: Instant) -> None:
    fold.edits.append(event)


_TAKERS: dict[type, Callable[..., None]] = {
    happened.SessionBegun: _begun,
    happened.TapeSet: _tape,
    happened.ReadingTaken: _reading,
    happened.ReadingStruck: _struck,
    happened.ReadingMoved: _moved,
    happened.ReadingsSwapped: _swapped,
    **dict.fromkeys(_STEP_KINDS, _step_event),
    happened.ItemWritten: _item,
    happened.ItemDone: _item_done,
    happened.ItemAccepted: _item_accepted,
    happened.FindingAccepted: _finding_accepted,
    happened.DayBegun: _day_begun,
    happened.DayEnded: _day_ended,
    happened.PaceSet: _pace,
    happened.NoteWritten: _note,
    happened.PartTicked: _tick,
    happened.SheetMade: _sheet,
    **dict.fromkeys(happened.PROFILE_EDITS, _edit),
}

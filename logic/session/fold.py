"""Events → State: what stands, worked out from everything that happened.

Taken in one by one while they come in order; an undo, or an event that sorts before another, wants all of
them folded anew. An event that names another (struck, done) names one before it; one that names nothing known
has no effect. Events of unknown kind are passed over: they stay in the list and in the file.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterable, Sequence
from operator import attrgetter
from typing import Any

import msgspec

from logic.data import events as happened
from logic.data.events import Event
from logic.data.finding import WEIGHTS, Acceptance
from logic.data.state import Day, Instant, Item, Note, Reading, State, StepEvent, Tick
from logic.session.event_log import Entry, entries_of, reading_of
from logic.session.undo import undone_ids

replace = msgspec.structs.replace
_by_id = attrgetter("id")


class Fold:
    """A state in the making. `add` says whether the event could be taken in; if not, begin a new fold."""

    def __init__(self, events: Sequence[Event] = ()) -> None:
        """`events` in the order of their ids, each once."""
        self.readings: list[Reading] = []  # in the order of their ids, as the events come
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
        for entry in entries_of(events):
            if gone and entry.id in gone:
                continue
            if isinstance(entry, Reading):  # by far the most
                self.readings.append(entry)
                self.last = entry.when
            else:
                self._take(entry)
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
                readings=tuple(self.readings),
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

    def place_of(self, reading_id: str) -> int | None:
        """Where a reading stands among `readings`; None: there is none of that id."""
        place = bisect_left(self.readings, reading_id, key=_by_id)
        return place if place < len(self.readings) and self.readings[place].id == reading_id else None

    def _take(self, entry: Entry) -> None:
        if isinstance(entry, Reading):
            self.readings.append(entry)
            self.last = entry.when
        else:
            payload = entry.payload
            taker = None if payload is None else _TAKERS.get(type(payload))
            if taker is None:
                return
            when = Instant(entry.at, entry.offset)
            taker(self, entry, payload, when)
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
    fold.readings.append(reading_of(event, payload))


def _struck(fold: Fold, event: Event, payload: happened.ReadingStruck, when: Instant) -> None:
    place = fold.place_of(payload.reading)
    if place is not None:
        fold.readings[place] = replace(fold.readings[place], struck=True)


def _moved(fold: Fold, event: Event, payload: happened.ReadingMoved, when: Instant) -> None:
    place = fold.place_of(payload.reading)
    if place is not None:
        _move(fold, place, payload.to)


def _swapped(fold: Fold, event: Event, payload: happened.ReadingsSwapped, when: Instant) -> None:
    first, second = fold.place_of(payload.first), fold.place_of(payload.second)
    if first is not None and second is not None:
        firsts, seconds = fold.readings[first].slot, fold.readings[second].slot
        _move(fold, first, seconds)
        _move(fold, second, firsts)


def _move(fold: Fold, place: int, slot: str) -> None:
    reading = fold.readings[place]
    typed_in = reading.slot if reading.moved_from is None else reading.moved_from
    moved_from = typed_in if typed_in != slot else None
    fold.readings[place] = replace(reading, slot=slot, moved_from=moved_from)


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

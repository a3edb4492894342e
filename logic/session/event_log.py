"""The events of a session in memory.

A reading says all that its event says. So the thousands of events that took one are held as the readings that
they become in the state, and are made events again for whoever asks.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Self, overload

from logic.data.events import Event, ReadingTaken
from logic.data.state import Instant, Reading

Entry = Event | Reading


class EventLog(Sequence[Event]):
    """Events in their order; they can be added, and never change."""

    __slots__ = ("entries",)

    def __init__(self, events: Iterable[Event] = ()) -> None:
        self.entries: list[Entry] = [entry_of(event) for event in events]

    @classmethod
    def of(cls, entries: list[Entry]) -> Self:
        """A log that holds this list."""
        log = cls()
        log.entries = entries
        return log

    def __len__(self) -> int:
        return len(self.entries)

    def __iter__(self) -> Iterator[Event]:
        return map(event_of, self.entries)

    def __reversed__(self) -> Iterator[Event]:
        return map(event_of, reversed(self.entries))

    @overload
    def __getitem__(self, place: int) -> Event: ...
    @overload
    def __getitem__(self, place: slice) -> "EventLog": ...
    def __getitem__(self, place: int | slice) -> "Event | EventLog":
        if isinstance(place, slice):
            return EventLog.of(self.entries[place])
        return event_of(self.entries[place])

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and len(self) == len(other) and list(self) == list(other)

    __hash__ = None  # type: ignore[assignment]

    def append(self, event: Event) -> None:
        self.entries.append(entry_of(event))

    def extend(self, events: Iterable[Event]) -> None:
        self.entries += map(entry_of, events)

    def __iadd__(self, events: Iterable[Event]) -> Self:
        self.extend(events)
        return self


def entries_of(events: Iterable[Event]) -> Sequence[Entry]:
    """What a log holds, readings as readings; any other events as they are."""
    if isinstance(events, EventLog):
        return events.entries
    return events if isinstance(events, Sequence) else list(events)


def of_kinds(events: Iterable[Event], *kinds: type) -> list[Event]:
    """The events of some kinds, none of which takes a reading, in their order."""
    return [
        entry for entry in entries_of(events) if isinstance(entry, Event) and isinstance(entry.payload, kinds)
    ]


def entry_of(event: Event) -> Entry:
    """What stands for an event: its reading, where that says all."""
    payload = event.payload
    return reading_of(event, payload) if isinstance(payload, ReadingTaken) and not event.raw else event


def event_of(entry: Entry) -> Event:
    """The event for which an entry stands."""
    if isinstance(entry, Event):
        return entry
    payload = ReadingTaken(
        entry.slot, entry.typed, entry.value, entry.unit, entry.resolution, entry.over, entry.saw_first
    )
    return Event(entry.id, entry.when.at, entry.when.offset, entry.by, payload)


def reading_of(event: Event, payload: ReadingTaken) -> Reading:
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

"""Which events stand, which one an undo takes back next, and which one a redo brings again.

An undo is an event that names another; a redo is an undo of that undo. An event names only events that sort
before it (ids never run backwards, see `event_ids.py`); one that names a later event, itself or nothing has
no effect. So the answer hangs on the set of events alone.
"""

from bisect import bisect_left
from collections.abc import Sequence

from logic.data.events import Event, SessionBegun, SheetMade, Undone
from logic.session.event_log import of_kinds

# What is no doing of the person's within the session: it can't be undone.
_LASTING = (SessionBegun, SheetMade)


def undone_ids(events: Sequence[Event], tried: Undone | None = None) -> frozenset[str]:
    """Ids of the events that are taken back; `events` in the order of their ids, each once.

    tried : an undo as if it came behind them all.
    """
    gone = set(named_by(tried)) if tried is not None else set()
    for event in reversed(of_kinds(events, Undone)):
        assert isinstance(event.payload, Undone)
        if event.id not in gone:
            gone.update(named for named in named_by(event.payload) if named < event.id)
    return frozenset(gone)


def named_by(payload: Undone) -> tuple[str, ...]:
    """All events that an undo takes back."""
    return (payload.event, *payload.also)


def is_undoable(event: Event) -> bool:
    """Whether an undo may take back this event, as far as its kind goes."""
    return event.payload is not None and not isinstance(event.payload, (*_LASTING, Undone))


def next_undo(events: Sequence[Event]) -> Event | None:
    """The event that an undo takes back next: the newest that stands."""
    gone = undone_ids(events)
    return next((event for event in reversed(events) if is_undoable(event) and event.id not in gone), None)


def next_redo(events: Sequence[Event]) -> tuple[str, ...]:
    """Ids of the undos to take back, so that the event undone last stands again; none: ().

    Anything new that was recorded ends what can be redone, as everywhere.
    """
    gone = undone_ids(events)
    for event in reversed(events):
        payload = event.payload
        if not isinstance(payload, Undone):
            if is_undoable(event) or payload is None:
                return ()
        elif event.id not in gone and not _is_redo(payload, events):
            return (event.id, *_others_naming(payload.event, event.id, events=events, gone=gone))
    return ()


def _is_redo(payload: Undone, events: Sequence[Event]) -> bool:
    named = find_event(payload.event, events)
    return named is None or isinstance(named.payload, Undone)


def _others_naming(
    target: str, undo: str, *, events: Sequence[Event], gone: frozenset[str]
) -> tuple[str, ...]:
    """Two copies may have undone the same event: it stands again when all its undos are taken back."""
    return tuple(
        event.id
        for event in of_kinds(events, Undone)
        if isinstance(event.payload, Undone)
        and event.id not in gone
        and event.id != undo
        and target in named_by(event.payload)
    )


def find_event(event_id: str, events: Sequence[Event]) -> Event | None:
    """The event of that id among events in the order of their ids."""
    place = bisect_left(events, event_id, key=lambda event: event.id)
    found = events[place] if place < len(events) else None
    return found if found is not None and found.id == event_id else None

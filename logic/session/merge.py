"""The union of events: how two copies of one session become one, and how a damaged one is put together again.

A set by id, in the order of the ids: taken in any order, doubled or split, the result is the same.
"""

from collections.abc import Iterable
from operator import attrgetter

from logic.data.events import Event
from logic.session.event_lines import event_line

by_id = attrgetter("id")


def union(*several: Iterable[Event]) -> list[Event]:
    """Every event of all of them, each id once, in the order of the ids.

    The same id with two contents is never written by this program; where it is found, the line that sorts
    last counts, so that the choice doesn't hang on the order.
    """
    found: dict[str, Event] = {}
    for events in several:
        for event in events:
            other = found.setdefault(event.id, event)
            if other is not event and event_line(event) > event_line(other):
                found[event.id] = event
    return sorted(found.values(), key=by_id)


def missing_from(events: Iterable[Event], others: Iterable[Event]) -> list[Event]:
    """Those of `others` that `events` lacks, in the order of the ids.

    What is there under the same id stays as it is: a copy from elsewhere adds, and changes nothing.
    """
    known = {event.id for event in events}
    return union(event for event in others if event.id not in known)

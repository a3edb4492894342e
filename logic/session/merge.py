"""The union of events: how two copies of one session become one, and how a damaged one is put together again.

A set by id, in the order of the ids: taken in any order, doubled or split, the result is the same.
"""

from collections.abc import Iterable
from itertools import chain, islice
from operator import attrgetter, lt

from logic.data.events import Event
from logic.session.event_lines import event_line
from logic.session.event_log import Entry, EventLog, entries_of, event_of

by_id = attrgetter("id")


def union(*several: Iterable[Event]) -> EventLog:
    """Every event of all of them, each id once, in the order of the ids.

    The same id with two contents is never written by this program; where it is found, the line that sorts
    last counts, so that the choice doesn't hang on the order.
    """
    logs = (events if isinstance(events, EventLog) else EventLog(events) for events in several)
    entries = list(chain.from_iterable(log.entries for log in logs))
    if all(map(lt, map(by_id, entries), map(by_id, islice(entries, 1, None)))):
        return EventLog.of(entries)  # as a session is left, and goes on
    found: dict[str, Entry] = {}
    for entry in entries:
        other = found.setdefault(entry.id, entry)
        if other is not entry and event_line(event_of(entry)) > event_line(event_of(other)):
            found[entry.id] = entry
    return EventLog.of(sorted(found.values(), key=by_id))


def missing_from(events: Iterable[Event], others: Iterable[Event]) -> EventLog:
    """Those of `others` that `events` lacks, in the order of the ids.

    What is there under the same id stays as it is: a copy from elsewhere adds, and changes nothing.
    """
    known = {entry.id for entry in entries_of(events)}
    return union(EventLog.of([entry for entry in entries_of(others) if entry.id not in known]))

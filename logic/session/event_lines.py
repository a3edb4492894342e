"""Events as they stand in a file: one sealed JSON object each, in the journal as in the session's document.

What this version doesn't know (a kind, a field) stays in the event's `raw` and is written back as it came.
"""

import re
import sys
from collections.abc import Iterable, Sequence
from math import isfinite
from typing import Any, Protocol

import msgspec

from logic.data.clean_text import clean_text
from logic.data.events import AnyPayload, Event, ReadingTaken, StepDone, StepStarted
from logic.session.event_ids import LATEST, are_ids
from logic.session.event_log import EventLog
from logic.session.seal import is_object, is_sealed, seal_holds, sealed

# One event, however long its free text, is far below this; more is no event of ours.
LONGEST_LINE = 1 << 20
_MOST_OFFSET = 18 * 3600
# What may have to be cleaned shows as an escape or as a byte beyond ASCII.
_PLAIN = re.compile(rb"[\x20-\x5b\x5d-\x7e]*")


class _Envelope(msgspec.Struct):
    id: str
    at: float
    offset: int = 0
    by: str = ""
    what: msgspec.Raw = msgspec.Raw(b"null")


class _Line(msgspec.Struct, gc=False):
    """In this order the fields are written."""

    id: str
    at: float
    offset: int
    by: str
    what: AnyPayload


class _Full(msgspec.Struct):
    id: str
    at: float
    what: AnyPayload
    offset: int = 0
    by: str = ""


# Fields of a payload that hold one of a few names.
_NAMES: dict[type, tuple[str, ...]] = {
    ReadingTaken: ("slot", "unit"),
    StepStarted: ("step",),
    StepDone: ("step",),
}
_encode = msgspec.json.Encoder().encode
_full = msgspec.json.Decoder(_Full)
_envelope = msgspec.json.Decoder(_Envelope)
UNREADABLE = (msgspec.MsgspecError, UnicodeDecodeError, RecursionError)


class LineFault(ValueError):
    """A line that holds no event: torn, damaged, or never one."""


def event_line(event: Event) -> bytes:
    """The event as one sealed line, without the line's end; as it came, where it isn't written so here."""
    if event.raw:
        return event.raw
    if event.payload is None:
        raise ValueError("an event of unknown kind has its raw line")
    return sealed(_encode(_Line(event.id, event.at, event.offset, event.by, event.payload)))


def read_line(line: bytes, *, must_be_sealed: bool = False) -> Event:
    """The event on a line. `payload` None: its kind, or what it says, is not known to this version.

    must_be_sealed : where only this program writes, a line without a seal has lost it.

    Raises LineFault: the line is damaged, has no envelope, or an id or a time that no event can have.
    """
    if len(line) > LONGEST_LINE:
        raise LineFault("longer than any event")
    if not seal_holds(line) or (must_be_sealed and not is_sealed(line)):
        raise LineFault("its check doesn't hold")
    payload: AnyPayload | None
    envelope: _Full | _Envelope
    try:
        envelope = _full.decode(line)
        payload = envelope.what if _is_finite(envelope.what) else None
    except UNREADABLE:
        payload = None
        try:
            envelope = _envelope.decode(line)
        except UNREADABLE as fault:
            raise LineFault(str(fault)) from None
    if not may_be_events([envelope]):
        raise LineFault("its id or its time is not one of an event")
    by = sys.intern(envelope.by)
    _share_names(payload)
    if not is_plain(line):
        by = clean_text(by)
        payload = None if payload is None else _cleaned(payload)
    event = Event(envelope.id, envelope.at, envelope.offset, by, payload)
    # As this program writes it, it need not be held beside what it says: of ten thousand, that is megabytes.
    same = payload is not None and event_line(event) == line
    return event if same else msgspec.structs.replace(event, raw=line)


class RecordsRead(msgspec.Struct):
    """What records hold."""

    events: EventLog
    strangers: list[bytes]  # whole records that are no events to this version
    broken: int  # how many are damaged


def read_records(records: Iterable[bytes], read: RecordsRead | None = None) -> RecordsRead:
    """Records one by one, added to what was read before."""
    read = read or RecordsRead(EventLog(), [], 0)
    for record in records:
        try:
            read.events.append(read_line(record))
        except LineFault:
            if seal_holds(record) and is_object(record):
                read.strangers.append(record)
            else:
                read.broken += 1
    return read


class Stamped(Protocol):
    """What has an event's id, its time [epoch s] and that clock's offset [s]."""

    id: str
    at: float
    offset: int


def may_be_events(lines: Sequence[Stamped]) -> bool:
    """Whether events can have these ids, times and offsets; one line at least."""
    times, offsets = [line.at for line in lines], [line.offset for line in lines]
    return (
        min(times) >= 0
        and max(times) <= LATEST
        and min(offsets) >= -_MOST_OFFSET
        and max(offsets) <= _MOST_OFFSET
        and are_ids([line.id for line in lines])
    )


def is_plain(line: bytes) -> bool:
    """Whether there is nothing in it that may have to be cleaned."""
    return _PLAIN.fullmatch(line) is not None


def is_clean(payload: AnyPayload) -> bool:
    """Whether cleaning its free text would change nothing."""
    values = [getattr(payload, field) for field in payload.__struct_fields__]
    texts = [value for value in values if isinstance(value, str)]
    for value in values:
        if isinstance(value, dict):
            texts += [*value, *value.values()]
    return all(clean_text(text) == text for text in texts)


def _share_names(payload: AnyPayload | None) -> None:
    """Names of slots, units and steps that thousands of events repeat: each held once, not once an event."""
    if payload is None:
        return
    for field in _NAMES.get(type(payload), ()):
        msgspec.structs.force_setattr(payload, field, sys.intern(getattr(payload, field)))


def _is_finite(payload: AnyPayload) -> bool:
    return all(
        isfinite(value)
        for value in (getattr(payload, field) for field in payload.__struct_fields__)
        if isinstance(value, float)
    )


def _cleaned(payload: AnyPayload) -> AnyPayload:
    """The payload with its free text cleaned; values of a profile are cleaned where they are checked."""
    changes: dict[str, Any] = {}
    for field in payload.__struct_fields__:
        value = getattr(payload, field)
        if isinstance(value, str):
            changes[field] = clean_text(value)
        elif isinstance(value, dict):
            changes[field] = {clean_text(name): clean_text(text) for name, text in value.items()}
    return msgspec.structs.replace(payload, **changes)

"""Events as they stand in a file: one sealed JSON object each, in the journal as in the session's document.

What this version doesn't know (a kind, a field) stays in the event's `raw` and is written back as it came.
"""

import re
import sys
from math import isfinite
from typing import Any

import msgspec

from logic.data.clean_text import clean_text
from logic.data.events import AnyPayload, Event, ReadingTaken, StepDone, StepStarted
from logic.session.event_ids import LATEST, is_id
from logic.session.seal import is_sealed, seal_holds, sealed

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
_full = msgspec.json.Decoder(_Full)
_envelope = msgspec.json.Decoder(_Envelope)
_UNREADABLE = (msgspec.MsgspecError, UnicodeDecodeError, RecursionError)


class LineFault(ValueError):
    """A line that holds no event: torn, damaged, or never one."""


def event_line(event: Event) -> bytes:
    """The event as one sealed line, without the line's end; as it came, where it isn't written so here."""
    if event.raw:
        return event.raw
    if event.payload is None:
        raise ValueError("an event of unknown kind has its raw line")
    what = event.payload
    return sealed(
        msgspec.json.encode(
            {"id": event.id, "at": event.at, "offset": event.offset, "by": event.by, "what": what}
        )
    )


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
    except _UNREADABLE:
        payload = None
        try:
            envelope = _envelope.decode(line)
        except _UNREADABLE as fault:
            raise LineFault(str(fault)) from None
    if not is_id(envelope.id):
        raise LineFault("its id is not one of an event")
    if not (0 <= envelope.at <= LATEST and abs(envelope.offset) <= _MOST_OFFSET):
        raise LineFault("its time is none")
    by = sys.intern(envelope.by)
    _share_names(payload)
    if not _PLAIN.fullmatch(line):
        by = clean_text(by)
        payload = None if payload is None else _cleaned(payload)
    event = Event(envelope.id, envelope.at, envelope.offset, by, payload)
    # As this program writes it, it need not be held beside what it says: of ten thousand, that is megabytes.
    same = payload is not None and event_line(event) == line
    return event if same else msgspec.structs.replace(event, raw=line)


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

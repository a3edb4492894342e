"""A session's document: the text of `session.json`, which TinyDB reads as its own.

Three tables: `meta` (one record), `profile` (the profile as it stood at the start, and as it stands now),
`events`. One sealed record on each line, so that of a damaged file what is whole can still be told from what
is not. Tables, records and fields that this version doesn't know are kept and written back.
"""

import re
from collections.abc import Iterable, Mapping
from typing import Any

import msgspec

from logic.session.event_block import read_table
from logic.session.event_lines import LineFault, RecordsRead, event_line, read_line, read_records
from logic.session.event_log import EventLog
from logic.session.merge import union
from logic.session.seal import is_object, is_sealed, seal_holds, sealed

FORMAT = 1
META, PROFILE, EVENTS = "meta", "profile", "events"
_OWN = (META, PROFILE, EVENTS)
# A file of more would cost seconds and fill the memory; a session of so many events takes nothing more in.
MOST_RECORDS, MOST_EVENTS = 120_000, 101_000
_RECORD = re.compile(rb'"([0-9]+)":(\{.*\}),?')
_RECORD_LINE = re.compile(rb'^"([0-9]+)":(\{.*\}),?$', re.MULTILINE)
_EVENTS_BEGIN = b'\n"%s":{\n' % EVENTS.encode()
_OPENING = re.compile(rb'"([A-Za-z0-9_-]+)":\{')
_LARGEST_OTHERWISE, _MOST_FIELDS = 32 * 1024 * 1024, 1_000_000
_tables = msgspec.json.Decoder(dict[str, dict[str, msgspec.Raw]])
_UNREADABLE = (msgspec.MsgspecError, UnicodeDecodeError, RecursionError)


class Damaged(ValueError):
    """A text that is no whole document; its message says in a few words what is wrong with it."""


class Document(msgspec.Struct):
    """What a session's file holds."""

    meta: dict[str, Any]
    begun: bytes  # record of the profile at the start: document and SI
    now: bytes  # record of the profile as it stands, or empty
    events: EventLog
    strangers: list[bytes]  # whole records among the events that this version can't read as events
    others: dict[str, dict[str, bytes]]  # tables that this version doesn't know

    @property
    def format(self) -> int:
        """The number of the format that wrote it."""
        number = self.meta.get("format", 0)
        return number if isinstance(number, int) else 0

    @property
    def is_newer(self) -> bool:
        return self.format > FORMAT


def document_text(document: Document, meta: dict[str, Any] | None = None) -> bytes:
    """The document as it is written: readable JSON, one record a line; with `meta` in place of its own."""
    lines = [event_line(event) for event in document.events] + document.strangers
    meta = document.meta if meta is None else meta
    meta = {key: value for key, value in meta.items() if key != "sum"} | {"events": len(lines)}
    profiles = [record for record in (document.begun, document.now) if record]
    tables: dict[str, Mapping[str, bytes]] = {
        META: {"1": sealed(msgspec.json.encode(meta))},
        PROFILE: numbered(profiles),
        EVENTS: numbered(lines),
        **document.others,
    }
    return tables_text(tables)


def tables_text(tables: Mapping[str, Mapping[str, bytes]]) -> bytes:
    """Tables of ready records as TinyDB's JSON, one record a line."""
    return b"{" + b",\n".join(_table_text(name, records) for name, records in tables.items()) + b"}\n"


def numbered(records: Iterable[bytes]) -> dict[str, bytes]:
    """Records under the numbers that TinyDB gives them."""
    return {str(number): record for number, record in enumerate(records, start=1)}


def _table_text(name: str, records: Mapping[str, bytes]) -> bytes:
    lines = b",\n".join(b"%s:%s" % (msgspec.json.encode(key), record) for key, record in records.items())
    return b"%s:{\n%s\n}" % (msgspec.json.encode(name), lines)


def read_document(text: bytes) -> Document:
    """The document of a whole text. Raises Damaged: no JSON, a table missing, a broken seal."""
    if not text or text.isspace():
        raise Damaged("it is empty")
    tables, read = _laid_out(text)
    if any(not tables.get(name) for name in (META, PROFILE)) or EVENTS not in tables:
        raise Damaged("a table is missing")
    meta = _meta_of(next(iter(tables[META].values())))
    if meta is None:
        raise Damaged("what it says of itself is damaged")
    begun, now = _profiles(tables[PROFILE].values())
    if not begun:
        raise Damaged("its profile is missing")
    if read.broken:
        raise Damaged("a record in it is damaged")
    said = meta.get("events")
    if isinstance(said, int) and len(read.events) + len(read.strangers) < said:
        raise Damaged("records are missing in it")
    others = {name: records for name, records in tables.items() if name not in _OWN}
    if not all(is_object(record) for records in others.values() for record in records.values()):
        raise Damaged("a record in it is damaged")
    return Document(meta, begun, now, union(read.events), read.strangers, others)


Tables = dict[str, dict[str, bytes]]


def _laid_out(text: bytes) -> tuple[Tables, RecordsRead]:
    """The tables of a text, and what its events are. Raises Damaged: it isn't whole, or too much."""
    if text.count(b"\n") > MOST_RECORDS:
        raise Damaged(f"it has over {MOST_RECORDS} records")  # they would fill the memory
    start = text.find(_EVENTS_BEGIN) + len(_EVENTS_BEGIN)
    end = text.find(b"\n}", start - 1)
    if len(_EVENTS_BEGIN) <= start <= end:
        # The table of events alone is long: what stands around it is laid out without it.
        around = _tables_by_line(text[:start] + text[end:])
        read = read_table(text, start, end) if around is not None and around.get(EVENTS) == {} else None
        if around is not None and read is not None:
            return around, read
    tables = _tables_by_line(text) or _tables_of_json(text)
    return tables, read_records(tables.get(EVENTS, {}).values())


def _tables_by_line(text: bytes) -> Tables | None:
    """The tables of a text that this program wrote, a record a line; None where it is laid out otherwise."""
    tables: Tables = {}
    records: dict[str, bytes] | None = None
    lines = text.split(b"\n")
    if lines[-1] or len(lines) < 3 or lines[-2] != b"}}":
        return None
    lines[0] = lines[0].removeprefix(b"{")
    for line in lines[:-2]:
        if records is None:
            opening = _OPENING.fullmatch(line)
            if opening is None:
                return None
            records = tables.setdefault(opening[1].decode(), {})
        elif line == b"},":
            records = None
        elif line:
            match = _RECORD.fullmatch(line)
            if match is None:
                return None
            records[_free_number(match[1].decode(), match[2], records)] = match[2]
    return tables


def _free_number(number: str, record: bytes, records: dict[str, bytes]) -> str:
    """The record's own number, or another one where a different record has it: lines put in by hand count."""
    while records.get(number, record) != record:
        number += "0"
    return number


def _tables_of_json(text: bytes) -> Tables:
    """The tables of a text that TinyDB, or anyone else, laid out in its own way. Raises Damaged."""
    if len(text) > _LARGEST_OTHERWISE or text.count(b'":') > _MOST_FIELDS:
        raise Damaged("it is not whole, or larger than a session")
    try:
        tables = _tables.decode(text)
    except _UNREADABLE:
        raise Damaged("it is not whole, or not a session's") from None
    return {
        name: {key: _on_one_line(bytes(record)) for key, record in records.items()}
        for name, records in tables.items()
    }


def _on_one_line(record: bytes) -> bytes:
    """A record without the line ends of whoever laid it out, so that it can be written one on a line again."""
    if b"\n" not in record and b"\r" not in record:
        return record
    try:
        return msgspec.json.format(record, indent=-1)
    except _UNREADABLE:
        return record  # found to be damaged where it is read


def _meta_of(record: bytes) -> dict[str, Any] | None:
    if not seal_holds(record):
        return None
    try:
        meta = msgspec.json.decode(record, type=dict[str, Any])
    except _UNREADABLE:
        return None
    return meta if isinstance(meta.get("format"), int) and isinstance(meta.get("id", ""), str) else None


class ProfileRecord(msgspec.Struct, omit_defaults=True):
    """A record of the table `profile`."""

    of: str  # begun | now
    document: msgspec.Raw = msgspec.Raw(b"{}")
    si: msgspec.Raw = msgspec.Raw(b"null")
    edits: tuple[str, ...] = ()  # ids of the edits that `now` was made with


def read_profile_record(record: bytes) -> ProfileRecord | None:
    """A record of the table `profile`; None where it is none."""
    if not seal_holds(record):
        return None
    try:
        return msgspec.json.decode(record, type=ProfileRecord)
    except _UNREADABLE:
        return None


def _profiles(records: Iterable[bytes]) -> tuple[bytes, bytes]:
    """The profile at the start, and the one now: a damaged second one can be made again from the first."""
    found: dict[str, bytes] = {}
    for record in records:
        read = read_profile_record(record)
        if read is not None:
            found.setdefault(read.of, record)
    return found.get("begun", b""), found.get("now", b"")


class Salvage(msgspec.Struct):
    """What is whole in a text that isn't."""

    meta: dict[str, Any] | None
    begun: bytes
    events: EventLog


def salvage(text: bytes) -> Salvage:
    """The records in a damaged text whose seals hold. Raises nothing."""
    found = Salvage(None, b"", EventLog())
    for match in _RECORD_LINE.finditer(text):
        if not (is_sealed(match[2]) and seal_holds(match[2])):
            continue
        try:
            found.events.append(read_line(match[2]))
            continue
        except LineFault:
            pass
        profile = read_profile_record(match[2])
        if profile is not None and profile.of == "begun":
            found.begun = match[2]
        elif profile is None:
            found.meta = _meta_of(match[2]) or found.meta
    found.events = union(found.events)
    return found

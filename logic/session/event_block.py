"""Events of a document read many at a time: what this program wrote itself, which is nearly all that it reads.

A block of records is decoded at once and encoded again at once. Where both texts are the same byte for byte,
every line is just as this program writes it, and what is left to look at is its seal, its id, its time and its
free text. A block of which that can't be said is read line by line (`event_lines.py`), with the same result.
"""

import re

import msgspec

from logic.data.clean_text import clean_text
from logic.data.events import (
    AnyPayload,
    Event,
    PartAdded,
    ProfileChanged,
    ReadingStruck,
    ReadingTaken,
    StepDone,
    StepStarted,
)
from logic.data.state import Instant, Reading
from logic.session.event_lines import (
    LONGEST_LINE,
    UNREADABLE,
    RecordsRead,
    is_clean,
    is_plain,
    may_be_events,
    read_records,
)
from logic.session.event_log import Entry, EventLog
from logic.session.seal import SEAL_LENGTH, sum_of

# Large enough for few calls, small enough that one with a line of another kind is soon read line by line.
_BLOCK = 16 * 1024  # bytes
_BETWEEN = b",\n"
_RECORD = re.compile(rb'"([0-9]{1,18})":(\{.*\})')
_MOST_SHARED = 4096


class _Written(msgspec.Struct, gc=False):
    """A record with all that this program writes into it, in that order."""

    id: str
    at: float
    offset: int
    by: str
    what: AnyPayload
    sum: str


_block = msgspec.json.Decoder(dict[int, _Written])
_encoder = msgspec.json.Encoder()


def read_table(text: bytes, start: int, end: int) -> RecordsRead | None:
    """The events of a document's table between two places in its text: numbered records, one on a line.

    None: its lines are none, or their numbers don't rise, so that one might stand for another.
    """
    read, blocks = RecordsRead(EventLog(), [], 0), _BlockReader()
    while start < end:
        stop = _block_end(text, start, end)
        block = text[start:stop]
        entries = blocks.entries(block)
        if entries is None:
            records = blocks.records(block)
            if records is None:
                return None
            read_records(records, read)
        else:
            read.events.entries += entries
        start = stop + len(_BETWEEN)
    return read


def _block_end(text: bytes, start: int, end: int) -> int:
    """Where the block of whole lines ends that begins at `start`, its last comma left out."""
    if end - start <= _BLOCK:
        return end
    stop = text.rfind(_BETWEEN, start, start + _BLOCK)
    if stop < 0:
        stop = text.find(_BETWEEN, start, end)
    return end if stop < 0 else stop


class _BlockReader:
    """Reads blocks one after the other. What thousands of events repeat is held once, not once an event."""

    def __init__(self) -> None:
        self._number = 0  # of the last record
        self._texts: dict[str, str] = {}
        self._numbers: dict[float, float] = {}

    def entries(self, block: bytes) -> list[Entry] | None:
        """The events on the lines of a block; None: not all of them are just as this program writes them."""
        lines = block.split(_BETWEEN)
        if len(block) > LONGEST_LINE:
            return None
        try:
            written = _block.decode(b"{%s}" % block)
        except UNREADABLE:
            return None
        encoded = _encoder.encode(written)
        if encoded != b"{%s}" % b",".join(lines):
            return None
        numbers = [self._number, *written]
        if numbers != sorted(numbers) or numbers[0] == numbers[1]:
            return None
        found = list(written.values())
        sums = [sum_of(line[line.index(b":") + 1 : -SEAL_LENGTH]) for line in lines]
        if [each.sum for each in found] != sums or not may_be_events(found):
            return None
        if not is_plain(encoded) and not all(
            is_plain(line) or (clean_text(each.by) == each.by and is_clean(each.what))
            for line, each in zip(lines, found, strict=True)
        ):
            return None
        if len(self._texts) + len(self._numbers) > _MOST_SHARED:
            self._texts, self._numbers = {}, {}
        self._number = numbers[-1]
        ids = {each.id: each.id for each in found}
        return [self._entry(each, ids) for each in found]

    def records(self, block: bytes) -> list[bytes] | None:
        """The records on the lines of a block, whatever they hold; None: a line is none, or its number doesn't rise."""
        records = []
        for line in block.split(_BETWEEN):
            match = _RECORD.fullmatch(line)
            if match is None or int(match[1]) <= self._number:
                return None
            self._number = int(match[1])
            records.append(match[2])
        return records

    def _entry(self, found: _Written, ids: dict[str, str]) -> Entry:
        share, payload = self._texts.setdefault, found.what
        by = share(found.by, found.by)
        if isinstance(payload, ReadingTaken):
            value, resolution = payload.value, payload.resolution
            return Reading(
                found.id,
                share(payload.slot, payload.slot),
                share(payload.typed, payload.typed),
                self._numbers.setdefault(value, value) if value else value,  # −0.0 is no 0.0
                Instant(found.at, found.offset),
                self._numbers.setdefault(resolution, resolution) if resolution else resolution,
                share(payload.unit, payload.unit),
                payload.over,
                by,
                saw_first=payload.saw_first,
            )
        if isinstance(payload, ProfileChanged):  # what is kept raw would keep the whole block in memory
            payload = msgspec.structs.replace(payload, value=payload.value.copy())
        elif isinstance(payload, PartAdded):
            payload = msgspec.structs.replace(payload, part=payload.part.copy())
        elif isinstance(payload, ReadingStruck):  # most often the last one, which has the same id
            msgspec.structs.force_setattr(payload, "reading", ids.get(payload.reading, payload.reading))
        elif isinstance(payload, StepStarted | StepDone):
            msgspec.structs.force_setattr(payload, "step", share(payload.step, payload.step))
        return Event(found.id, found.at, found.offset, by, payload)

"""The journal beside a session's document: a line for each event, on the disk before it counts as taken.

Appending a line costs the same however long the session is. Each line is sealed, so that one which was being
written when the power went is told from the others. Leaving the session folds the journal into the document,
unless that is large and the journal short (see `store.py`).
"""

import contextlib
import os
import re
from pathlib import Path

import msgspec

from logic.data.events import Event
from logic.session.event_lines import LineFault, read_line
from logic.session.files import Files, read_plain, replace_file, write_all
from logic.session.seal import is_object, is_sealed, seal_holds, sealed

JOURNAL, JOURNAL_BEFORE = "journal.jsonl", "journal.before.jsonl"
JOURNAL_FORMAT = 1
# A journal is folded in long before it is so large (see `store.py`); more would not be read back.
LARGEST_JOURNAL = 32 * 1024 * 1024
# Found by patterns, not line by line: a journal of millions of lines of nothing costs no minutes.
_SEALED_LINE = re.compile(rb'^\{[^\n]*"sum":"[0-9a-f]{8}"\}$', re.MULTILINE)
_LINE_WITH_SOMETHING = re.compile(rb"[^\n]\n")


class JournalRead(msgspec.Struct):
    """What a journal holds."""

    there: bool = False  # the file exists
    session: str = ""  # id of the session it belongs to; empty: its first line is gone
    newer: bool = False
    events: list[Event] = []
    strangers: list[bytes] = []  # whole lines that this version can't read as events
    damaged: int = 0  # lines that are not whole, save the last
    torn: bool = False  # the last line is not whole: it was never said to be taken
    length: int = 0  # bytes up to which it is good
    ended: bool = True  # its last good line has its end


class _Header(msgspec.Struct):
    journal: int
    session: str


def header_line(session: str) -> bytes:
    """The first line of a session's journal."""
    return sealed(msgspec.json.encode({"journal": JOURNAL_FORMAT, "session": session})) + b"\n"


def read_journal(path: Path) -> JournalRead:
    """What stands in a journal, damaged or not. Raises OSError where it is there and can't be read."""
    try:
        text = read_plain(path, most=LARGEST_JOURNAL)
    except FileNotFoundError:
        return JournalRead()
    return read_lines(text, there=True)


def read_lines(text: bytes, *, there: bool = True) -> JournalRead:
    """The lines of a journal's text, or of what was added to it."""
    read = JournalRead(there=there, events=[], strangers=[])
    read.length = text.rfind(b"\n") + 1
    whole, tail = text[: read.length], text[read.length :]
    good = sum(_take(match[0], read) for match in _SEALED_LINE.finditer(whole))
    if good < whole.count(b"\n"):
        read.damaged = sum(1 for _ in _LINE_WITH_SOMETHING.finditer(whole)) - good
    if tail:
        if _take(tail, read):
            read.length, read.ended = len(text), False
        else:
            read.torn = True
    return read


def _take(line: bytes, read: JournalRead) -> bool:
    try:
        read.events.append(read_line(line, must_be_sealed=True))
        return True
    except LineFault:
        if not (is_sealed(line) and seal_holds(line)):
            return False
    try:
        header = msgspec.json.decode(line, type=_Header)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        if not is_object(line):
            return False
        read.strangers.append(line)
        return True
    read.session = header.session
    read.newer = header.journal > JOURNAL_FORMAT
    return True


class Journal:
    """A journal open for writing. After a fault of `fsync` it is `spoiled`: what it holds can't be known."""

    def __init__(self, path: Path, files: Files, *, length: int, ended: bool = True) -> None:
        """The file is there and good up to `length` bytes. Raises OSError."""
        self.path, self.files = path, files
        self.length, self.ended = length, ended
        self.count = 0  # of lines appended here
        self.spoiled = False
        self._descriptor: int | None = files.open_to_write(path)
        self._dirty = True

    @classmethod
    def begin(cls, path: Path, files: Files, *, session: str) -> "Journal":
        """An empty journal in the place of the one that may be there. Raises OSError."""
        header = header_line(session)
        replace_file(files, path, header)
        return cls(path, files, length=len(header))

    def append(self, lines: list[bytes]) -> None:
        """The lines are on the disk when this returns.

        Raises OSError: none of them counts then. What may have been written of them is cut off, if the system
        lets us.
        """
        if self._descriptor is None or self.spoiled:
            raise OSError("the journal has to be begun anew")
        data = b"".join(line + b"\n" for line in lines)
        if not self.ended:
            data = b"\n" + data
        if self.length + len(data) > LARGEST_JOURNAL:
            raise OSError("the journal is full and can't be folded in")
        try:
            self._to_end()
            self._dirty = True
            write_all(self.files, self._descriptor, data)
            self._sync()
            self._check_name()
        except OSError:
            self._cut()
            raise
        self._dirty = False
        self.ended = True
        self.length += len(data)
        self.count += len(lines)

    def _to_end(self) -> None:
        """Behind the last good line, with nothing after it."""
        assert self._descriptor is not None
        if self._dirty:
            self.files.truncate(self._descriptor, self.length)
            self.files.seek(self._descriptor, self.length)

    def _sync(self) -> None:
        assert self._descriptor is not None
        try:
            self.files.fsync(self._descriptor)
        except OSError:
            # After a failed sync the system may call the same pages clean: only a new file can be trusted.
            self.spoiled = True
            raise

    def _check_name(self) -> None:
        """What is written to a file that was removed is lost: ours must still have its name."""
        assert self._descriptor is not None
        ours = os.fstat(self._descriptor)
        try:
            named = os.lstat(self.path)
        except OSError:
            self.spoiled = True
            raise
        if (ours.st_dev, ours.st_ino) != (named.st_dev, named.st_ino):
            self.spoiled = True
            raise OSError("another file has the journal's name")

    def _cut(self) -> None:
        if self._descriptor is None:
            return
        with contextlib.suppress(OSError):
            self.files.truncate(self._descriptor, self.length)

    def close(self) -> None:
        if self._descriptor is not None:
            with contextlib.suppress(OSError):
                self.files.close(self._descriptor)
            self._descriptor = None

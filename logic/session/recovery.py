"""Opening a session's folder, whatever happened to it. Only reads.

The newest good generation, the journals, and what is whole in a damaged file are put together again; what is
missing is said in words.

A session is a set of events, so several sources can't contradict each other, and none of them has to be
complete.
"""

from pathlib import Path

import msgspec

from logic.data.clean_text import short_text
from logic.data.wording import Words, words
from logic.session.document import Damaged, Document, Salvage, read_document, salvage
from logic.session.event_log import EventLog
from logic.session.files import read_plain
from logic.session.journal import JOURNAL, JOURNAL_BEFORE, JournalRead, read_journal
from logic.session.merge import union
from logic.session.saying import in_words, said_time

SESSION, SESSION_BEFORE = "session.json", "session.before.json"


class SessionFault(Exception):
    """A session that can't be opened at all; `words` says why."""

    def __init__(self, said: Words) -> None:
        self.words = said
        super().__init__(said.template.format(**dict(said.parts)))


class Opened(msgspec.Struct):
    """A session as found in its folder."""

    document: Document
    notices: tuple[Words, ...]
    journal: JournalRead
    to_set_aside: tuple[str, ...]  # names of damaged files
    unfolded: bool  # events outside the document: folding them in is owed
    newer: bool
    because: Words | None = None  # why it may only be looked at
    seen: tuple[object, ...] = ()  # the files' signature before they were read


def open_folder(folder: Path, *, name: str = SESSION) -> Opened:
    """The session in a folder. Raises SessionFault: nothing in it can be opened."""
    because: Words | None = None
    seen = signature(folder, name)
    # The journal before the document: were it folded in meanwhile, its events are found twice, not never.
    try:
        journal = read_journal(folder / JOURNAL) if name == SESSION else JournalRead()
    except OSError as fault:
        journal = JournalRead(there=True)
        because = words(
            "its journal can't be read ({fault}): what that holds isn't here", fault=in_words(fault)
        )
    opened = _opened(folder, name, journal)
    opened.because, opened.seen = because, seen
    return opened


def signature(folder: Path, name: str = SESSION) -> tuple[object, ...]:
    """What changes when a file of the session does."""
    found: list[object] = []
    for each in (name, JOURNAL):
        try:
            there = (folder / each).stat()
            found += [there.st_mtime_ns, there.st_size, there.st_ino]
        except OSError:
            found.append(None)
    return tuple(found)


def _opened(folder: Path, name: str, journal: JournalRead) -> Opened:
    text: bytes | None = None
    try:
        text = read_plain(folder / name)
        document = read_document(text)
    except FileNotFoundError:
        return _put_together(folder, name, there=False, text=None, why="it isn't there", journal=journal)
    except OSError as fault:
        return _put_together(folder, name, there=True, text=None, why=in_words(fault), journal=journal)
    except Damaged as fault:
        return _put_together(folder, name, there=True, text=text, why=str(fault), journal=journal)
    return _with_journal(document, journal, name=name)


def _with_journal(document: Document, journal: JournalRead, *, name: str) -> Opened:
    notices: list[Words] = []
    aside: list[str] = []
    session = document.meta.get("id")
    if journal.session and journal.session != session:
        notices.append(
            words(
                "the journal beside it belongs to another session, {id}: it was left out",
                id=short_text(journal.session, limit=80),
            )
        )
        aside.append(JOURNAL)
        journal = JournalRead(there=True)
    known = len(document.events)
    document.events = union(document.events, journal.events)
    _add_strangers(document, journal)
    if document.meta.get("journal") and not journal.there:
        notices.append(
            words(
                "the journal of {name} is missing: what was recorded after {when} may not be here",
                name=name,
                when=_when_last(document.events),
            )
        )
    notices += _of_journal(journal)
    if journal.damaged:
        aside.append(JOURNAL)
    if document.strangers:
        notices.append(
            words(
                "{count} records can't be read by this version; they are kept",
                count=str(len(document.strangers)),
            )
        )
    return Opened(
        document=document,
        notices=tuple(notices),
        journal=journal,
        to_set_aside=tuple(aside),
        unfolded=len(document.events) > known,
        newer=document.is_newer or journal.newer,
    )


def _of_journal(journal: JournalRead) -> list[Words]:
    said = []
    if journal.damaged:
        said.append(
            words(
                "{count} lines of the journal are damaged: what they held is missing",
                count=str(journal.damaged),
            )
        )
    if journal.torn:
        said.append(words("the journal's last line is not whole: what was being written then is not here"))
    return said


def _put_together(
    folder: Path, name: str, *, there: bool, text: bytes | None, why: str, journal: JournalRead
) -> Opened:
    """From the generation before, both journals, and what is whole in the damaged file."""
    whole = salvage(text) if text is not None else Salvage(None, b"", EventLog())
    before, whole_before = _before(folder) if name == SESSION else (None, Salvage(None, b"", EventLog()))
    older = _journal_or_none(folder / JOURNAL_BEFORE) if name == SESSION else JournalRead()
    document = before
    if document is None:
        begun = whole.begun or whole_before.begun
        if not begun:
            raise SessionFault(_nothing_left(folder, name, why=why, there=there))
        document = Document(whole_before.meta or {}, begun, b"", EventLog(), [], {})
    meta = {**document.meta, **(whole.meta or {})}
    meta.setdefault("format", 1)
    meta.setdefault("id", journal.session or older.session or folder.name)
    ours = [read for read in (older, journal) if read.session in ("", meta["id"])]
    if journal.session not in ("", meta["id"]):
        journal = JournalRead(there=True)
    document.meta = meta
    found = (read.events for read in ours)
    document.events = union(document.events, whole.events, whole_before.events, *found)
    for read in ours:
        _add_strangers(document, read)
    said = whole.meta.get("events") if whole.meta else None
    notices = [_said_of_damage(name, why, said=said, document=document), *_of_journal(journal)]
    aside = ([name] if there else []) + ([JOURNAL] if journal.damaged else [])
    if before is None and name == SESSION and (folder / SESSION_BEFORE).is_file():
        aside.append(SESSION_BEFORE)  # the next generation would take its place
    return Opened(
        document=document,
        notices=tuple(notices),
        journal=journal,
        to_set_aside=tuple(aside),
        unfolded=True,
        newer=document.is_newer or journal.newer,
    )


def _said_of_damage(name: str, why: str, *, said: object, document: Document) -> Words:
    start = (
        "{name} could not be opened: {why}. The generation before it, the journal and what is whole in it "
        "were put together: "
    )
    found = len(document.events) + len(document.strangers)
    parts = {"name": name, "why": why}
    if isinstance(said, int) and found >= said:
        return words(start + "every record it held is here", **parts)
    if isinstance(said, int):
        return words(start + "{count} of its records are missing", count=str(said - found), **parts)
    when = _when_last(document.events)
    return words(start + "what was recorded after {when} may be missing", when=when, **parts)


def _nothing_left(folder: Path, name: str, *, why: str, there: bool) -> Words:
    if not there:
        return words("no session in {folder}", folder=str(folder))
    return words(
        "{file} can't be opened: {why}; nothing beside it can stand in for it. It was left as it is",
        file=str(folder / name),
        why=why,
    )


def _before(folder: Path) -> tuple[Document | None, Salvage]:
    """The generation before; where that is damaged as well, what is whole in it."""
    text = b""
    try:
        text = read_plain(folder / SESSION_BEFORE)
        return read_document(text), Salvage(None, b"", EventLog())
    except (OSError, Damaged):
        return None, salvage(text)


def _journal_or_none(path: Path) -> JournalRead:
    try:
        return read_journal(path)
    except OSError:
        return JournalRead()


def _add_strangers(document: Document, journal: JournalRead) -> None:
    document.strangers = list(dict.fromkeys([*document.strangers, *journal.strangers]))


def _when_last(events: EventLog) -> str:
    return said_time(events[-1].at, events[-1].offset) if events else "the start"

"""Small sessions for tests of keeping them: a profile of a few lines, and what lies in a folder."""

from collections.abc import Sequence
from functools import cache
from pathlib import Path

from logic.data.events import Event
from logic.data.profile_check import check_document
from logic.data.profile_file import LoadedProfile
from logic.data.state import Instant
from logic.session.files import Files
from logic.session.intents import NotSaved, RecordReading, Refused, Taken, UndoLast, WriteNote
from logic.session.recovery import open_folder
from logic.session.session import Session, new_session, open_session
from tests.crash.faulty_files import QuickFiles

START = 1_767_600_000.0  # 2026-01-05 08:00 UTC

# What may lie in a session's folder that nobody damaged.
KNOWN_NAMES = {
    "session.json",
    "session.before.json",
    "journal.jsonl",
    "journal.before.jsonl",
    "lock",
    "holder.json",
}
# A crash may leave one file half written beside each of them; the next who writes clears them away.
HALF_WRITTEN = {f"{name}.new" for name in KNOWN_NAMES}


@cache
def small_profile() -> LoadedProfile:
    """A rig with nothing in it: quick to check, a file of two kilobytes."""
    document = {
        "format": 1,
        "rig": {"name": "Small"},
        "design": {"low": "-12 degF"},
        "supply": {"chemistry": "agm", "capacity": "100 Ah"},
    }
    return LoadedProfile(check_document(document), document)


def at(seconds: float) -> Instant:
    """A moment after the start."""
    return Instant(START + seconds, -3600)


def begin(home: Path, files: Files | None = None) -> Session:
    return new_session(small_profile(), at(0), home=home, by="Ann", files=files)


def opened(session_id: str, home: Path, *, seconds: float = 1e6, files: Files | None = None) -> Session:
    return open_session(session_id, at(seconds), home=home, by="Ann", files=files or QuickFiles())


def record(session: Session, number: int) -> Taken | Refused | NotSaved:
    """The nth thing of a day: readings, notes long and short, now and then an undo."""
    if number % 7 == 6:
        return session.act(UndoLast(), at(60 * number))
    if number % 3 == 2:
        return session.act(WriteNote("x" * (1 + (number * 37) % 400)), at(60 * number))
    return session.act(RecordReading("work.surface", f"{40 + number % 30}"), at(60 * number))


def filled(home: Path, count: int, *, closed: bool = True) -> Session:
    """A session of `count` records, made without waiting for the disk."""
    session = begin(home, QuickFiles())
    for number in range(count):
        assert isinstance(record(session, number), Taken)
    if closed:
        session.close()
    return session


def ids(events) -> list[str]:
    return [event.id for event in events]


def found_in(folder: Path) -> Sequence[Event]:
    """The events that a folder gives, whatever its state; nothing in it is touched."""
    return open_folder(folder).document.events


def stray_names(folder: Path, *, also: set[str] = frozenset()) -> set[str]:  # type: ignore[assignment]
    """What lies in a folder and shouldn't."""
    return {path.name for path in folder.iterdir()} - KNOWN_NAMES - also


def end_abruptly(session: Session) -> None:
    """Let go of a session as a killed process does: its descriptors close, nothing else happens."""
    store, lock = session._store, session._access.lock
    session._store = None
    if store is not None and store._journal is not None and store._journal._descriptor is not None:
        Files().close(store._journal._descriptor)
        store._journal._descriptor = None
    if lock is not None and lock.is_held:
        lock._lock.release()

"""The door to sessions: find them, open one, begin one. What one then does: `kept_session.py`."""

from pathlib import Path
from typing import TYPE_CHECKING

from logic.data.events import Event, SessionBegun
from logic.data.state import Instant
from logic.data.wording import words
from logic.session.document import FORMAT, Document, document_text
from logic.session.event_ids import new_writer, next_id
from logic.session.event_log import EventLog
from logic.session.files import Files, remove_if_there, write_beside
from logic.session.folder import find_session, find_sessions, new_session_id, sessions_folder
from logic.session.kept_session import Session
from logic.session.lock import SessionLock, user_name
from logic.session.profile_standing import begun_record
from logic.session.recovery import SESSION, SessionFault, open_folder
from logic.session.saying import in_words
from logic.session.system_lock import SystemLock
from logic.session.viewed_session import Access

if TYPE_CHECKING:  # reading profile files is a load that opening a session does without
    from logic.data.profile_file import LoadedProfile

__all__ = ["Session", "SessionFault", "find_sessions", "new_session", "open_session", "sessions_folder"]

_IN_THE_MAKING = ".new-session"
_HOME_LOCK = ".lock"
_HOME_PATIENCE = 10.0  # s


def open_session(
    wanted: str | Path,
    now: Instant,
    *,
    home: Path | None = None,
    by: str = "",
    read_only: bool = False,
    files: Files | None = None,
) -> Session:
    """The session of an id, of the unique beginning of one, or in a file.

    It is held until `close`, unless another program holds it, it can't be written to, or `read_only`.
    Raises SessionFault: there is none, several, or it can't be read.
    """
    home = home or sessions_folder()
    path = find_session(str(wanted), home)
    folder, name = (path.parent, path.name) if path.is_file() else (path, SESSION)
    access = Access(
        folder=folder,
        by=by or user_name(),
        files=files or Files(),
        name=name,
        trusted=folder.parent.resolve() == home.resolve(),
    )
    if name != SESSION:
        access.because = words("{name} is a copy: it is only looked at; take it in to work on it", name=name)
    elif read_only:
        access.because = words("opened to be looked at only")
    else:
        _lock(access, now)
    try:
        return Session(access, open_folder(folder, name=name))
    except BaseException:
        if access.lock is not None:
            access.lock.release()
        raise


def _lock(access: Access, now: Instant) -> None:
    lock = SessionLock(access.folder, access.files)
    try:
        # A lock's file may be writable in a folder that isn't.
        access.files.must_be_writable(access.folder)
        lock.take(now)
    except OSError as fault:
        access.because = words(
            "its folder can't be written to ({fault}): it is only looked at", fault=in_words(fault)
        )
        return
    access.lock = lock


def new_session(
    loaded: "LoadedProfile",
    now: Instant,
    *,
    home: Path | None = None,
    by: str = "",
    files: Files | None = None,
) -> Session:
    """A session begun with a profile, on the disk and held. Raises SessionFault: it can't be written."""
    home, files, by = home or sessions_folder(), files or Files(), by or user_name()
    session_id = new_session_id(loaded.profile.rig.name, now)
    while (home / session_id).exists():
        session_id = new_session_id(loaded.profile.rig.name, now)
    payload = SessionBegun(loaded.profile.rig.name)
    begun = Event(next_id("", now.at, new_writer()), now.at, now.offset, by, payload)
    meta = {
        "format": FORMAT,
        "id": session_id,
        "rig": loaded.profile.rig.name,
        "begun": now.at,
        "offset": now.offset,
        "last": now.at,
        "journal": False,
    }
    record = begun_record(loaded.document, loaded.profile)
    place_document(home, session_id, Document(meta, record, b"", EventLog([begun]), [], {}), files)
    return open_session(session_id, now, home=home, by=by, files=files)


def place_document(home: Path, session_id: str, document: Document, files: Files) -> Path:
    """A new session's folder with its document, whole or not there at all. Raises SessionFault.

    It is made under a name of its own, always the same, so that what a crash leaves of one is gone with the
    next.
    """
    made, folder = home / _IN_THE_MAKING, home / session_id
    lock = SystemLock(home / _HOME_LOCK)
    try:
        files.make_folder(home)
        if not lock.take(patience=_HOME_PATIENCE):
            raise SessionFault(words("another program is beginning a session"))
        files.make_folder(made)
        for name in (SESSION, f"{SESSION}.new"):
            remove_if_there(files, made / name)
        beside = write_beside(files, made / SESSION, document_text(document))
        files.rename(beside, made / SESSION)
        files.sync_folder(made)
        files.rename(made, folder)
        files.sync_folder(home)
    except OSError as fault:
        raise SessionFault(
            words("a session can't be begun in {home}: {fault}", home=str(home), fault=in_words(fault))
        ) from None
    finally:
        lock.release()
    return folder

"""A session as one file to carry away, and a copy taken in again: two people work on two copies and merge.

A copy holds everything, the journal folded in, and beside it a table of readings for whoever reads the file
with other means: as typed, and in SI. What comes in from a copy is a stranger's file: its profile is checked
anew.
"""

from pathlib import Path
from typing import Any

import msgspec

from logic.data.clean_text import short_text
from logic.data.faults import ProfileFaults
from logic.data.state import Instant, Reading
from logic.data.wording import Words, words
from logic.session.document import Document, document_text, numbered
from logic.session.files import LARGEST_FILE, Files, place_new
from logic.session.folder import find_session, is_session_id, sessions_folder
from logic.session.merge import union
from logic.session.profile_standing import Profiles, begun_record
from logic.session.recovery import Opened, SessionFault, open_folder
from logic.session.saying import in_words, said_time
from logic.session.seal import sealed
from logic.session.session import Session, open_session, place_document

READINGS = "readings"
LEFT_OUT = sealed(
    msgspec.json.encode(
        {"left_out": "too many for a file that is to be taken in again; they are among the events"}
    )
)
NUMBERING = 16  # bytes at most around a record, besides itself


class TakenIn(msgspec.Struct, frozen=True):
    """What became of a copy: which session it belongs to, and what was new in it."""

    id: str
    rig: str
    new: int  # events that weren't here before
    added: bool  # the session wasn't here before
    notices: tuple[Words, ...] = ()


def copy_session(session: Session, path: Path, *, files: Files | None = None) -> None:
    """The whole session, what isn't saved yet too, in one new file. Raises SessionFault. Overwrites none.

    Where the file would be too large to be taken in again, its table of readings says so instead: they are among the
    events as well.
    """
    try:
        place_new(files or Files(), path, _copy_text(session))
    except FileExistsError:
        raise SessionFault(
            words("{path} is there already: a copy overwrites nothing", path=str(path))
        ) from None
    except OSError as fault:
        raise SessionFault(
            words("{path} can't be written: {fault}", path=str(path), fault=in_words(fault))
        ) from None


def _copy_text(session: Session) -> bytes:
    document = session.whole_document()
    meta = {**document.meta, "journal": False}
    records = [_reading_record(reading) for reading in session.state.readings]
    size = sum(map(len, records))
    if size > LARGEST_FILE // 8:  # the rest may be as large
        document.others = {**document.others, READINGS: numbered([LEFT_OUT])}
        text = document_text(document, meta)
        if len(text) + size + NUMBERING * len(records) > LARGEST_FILE:
            return text
    document.others = {**document.others, READINGS: numbered(records)}
    return document_text(document, meta)


def _reading_record(reading: Reading) -> bytes:
    record = {
        "slot": reading.slot,
        "typed": reading.typed,
        "read_in": reading.unit,
        "si": reading.value,
        "resolution_si": reading.resolution,
        "over_range": reading.over,
        "at": said_time(reading.when.at, reading.when.offset),
        "by": reading.by,
        "struck": reading.struck,
        "moved_from": reading.moved_from,
    }
    return sealed(msgspec.json.encode(record))


def take_in_copy(
    path: Path,
    now: Instant,
    *,
    wanted: str | None = None,
    home: Path | None = None,
    by: str = "",
    files: Files | None = None,
) -> TakenIn:
    """The union of a copy with the session of the same id; one that isn't here yet is added.

    wanted : the session that it must belong to. Raises SessionFault: no session's file, the profile in it is
    none, it belongs to another session, or that one is held by another program or can't be written.
    """
    home = home or sessions_folder()
    opened = open_folder(path.absolute().parent, name=path.name)
    session_id = _id_of(opened, path)
    if wanted is not None:
        _must_be(session_id, wanted, home)
    document = opened.document
    if is_there(home, session_id):
        session = open_session(session_id, now, home=home, by=by, files=files)
        try:
            new = _taken_in(session, document)
        finally:
            session.close()
        return TakenIn(session_id, session.profile.rig.name, new, False, opened.notices)
    profiles = _checked(document, path)
    clean = Document(
        {**document.meta, "id": session_id, "journal": False},
        begun_record(profiles.begun.document, profiles.begun.profile),
        b"",
        union(document.events),
        document.strangers,
        {name: table for name, table in document.others.items() if name != READINGS},
    )
    place_document(home, session_id, clean, files or Files())
    return TakenIn(session_id, profiles.begun.profile.rig.name, len(clean.events), True, opened.notices)


def is_there(home: Path, session_id: str) -> bool:
    """Whether a session of exactly that id lies in `home`."""
    return (home / session_id).exists()


def _id_of(opened: Opened, path: Path) -> str:
    found: Any = opened.document.meta.get("id")
    if opened.newer:
        raise SessionFault(words("{path} was written by a newer version of the program", path=str(path)))
    if not isinstance(found, str) or not is_session_id(found):
        raise SessionFault(words("{path} doesn't say which session it is", path=str(path)))
    return found


def _must_be(session_id: str, wanted: str, home: Path) -> None:
    folder = find_session(wanted, home)
    if folder.name != session_id:
        raise SessionFault(
            words("the copy is of {id}, not of {wanted}", id=session_id, wanted=short_text(folder.name))
        )


def _taken_in(session: Session, document: Document) -> int:
    if session.read_only:
        raise SessionFault(session.because or words("the session can't be written"))
    try:
        return session.take_in(document.events, document.strangers)
    except OSError as fault:
        raise SessionFault(words("nothing was taken in: {fault}", fault=in_words(fault))) from None


def _checked(document: Document, path: Path) -> Profiles:
    try:
        return Profiles(document.begun, trusted=False)
    except ProfileFaults as faults:
        first = faults.faults[0].line()
        raise SessionFault(
            words("the profile in {path} is none: {fault}", path=str(path), fault=first)
        ) from None
    except ValueError as fault:
        raise SessionFault(
            words("the profile in {path} can't be read: {fault}", path=str(path), fault=str(fault))
        ) from None

"""Where sessions lie, which there are, and which one a person means.

A folder each, in the platform's data directory or in `$BELLYPAN_HOME`. Listing reads the head of each file
and the end of its journal, never a whole session.
"""

import os
import re
import unicodedata
from pathlib import Path

import msgspec

from logic.data.clean_text import short_text
from logic.data.state import Instant
from logic.data.wording import words
from logic.session.document import META, Damaged, read_document
from logic.session.event_lines import LineFault, read_line
from logic.session.files import read_plain
from logic.session.home import sessions_folder
from logic.session.journal import JOURNAL
from logic.session.recovery import SESSION, SESSION_BEFORE, SessionFault
from logic.session.saying import said_time

_HEAD, _TAIL = 16 * 1024, 64 * 1024
_ID = re.compile(r"[a-z0-9][a-z0-9-]{0,79}")
_META_LINE = re.compile(rb'\s*\{"%s":\s*\{\s*"[0-9]+":\s*(\{.*?\})\s*\}' % META.encode(), re.DOTALL)
_SLUG_LENGTH = 24
_RANDOM_SIGNS = "abcdefghjkmnpqrstuvwxyz23456789"


class SessionEntry(msgspec.Struct, frozen=True):
    """A session in the list."""

    id: str
    folder: Path
    rig: str
    started: float  # epoch seconds
    last: float  # of its last event, epoch seconds
    offset: int
    readable: bool = True

    @property
    def file(self) -> Path:
        return self.folder / SESSION


def find_sessions(home: Path | None = None) -> tuple[SessionEntry, ...]:
    """All sessions, the one worked on last first."""
    home = home or sessions_folder()
    try:
        with os.scandir(home) as found:
            folders = [Path(entry.path) for entry in found if entry.is_dir(follow_symlinks=False)]
    except OSError:
        return ()
    entries = [entry for folder in folders if (entry := _entry(folder)) is not None]
    return tuple(sorted(entries, key=lambda entry: (entry.last, entry.id), reverse=True))


def _entry(folder: Path) -> SessionEntry | None:
    if folder.name.startswith("."):
        return None
    for name in (SESSION, SESSION_BEFORE):
        head = _part(folder / name, head=True)
        if head is None:
            continue
        meta = _meta(head) or _meta_of_whole(folder / name)
        if meta is None:
            continue
        last = _last_in_journal(folder / JOURNAL) or meta.last or meta.begun
        return SessionEntry(folder.name, folder, short_text(meta.rig), meta.begun, last, meta.offset)
    if (folder / SESSION).exists():
        changed = (folder / SESSION).stat().st_mtime
        return SessionEntry(folder.name, folder, "", changed, changed, 0, readable=False)
    return None


class _Meta(msgspec.Struct):
    format: int
    id: str = ""
    rig: str = ""
    begun: float = 0.0
    offset: int = 0
    last: float = 0.0


def _meta(head: bytes) -> _Meta | None:
    match = _META_LINE.match(head)
    if match is None:
        return None
    try:
        return msgspec.json.decode(match[1], type=_Meta)
    except (msgspec.MsgspecError, UnicodeDecodeError):
        return None


def _meta_of_whole(path: Path) -> _Meta | None:
    """The same of a file that another program wrote in its own way."""
    try:
        return msgspec.convert(read_document(read_plain(path)).meta, _Meta)
    except (OSError, Damaged, msgspec.ValidationError):
        return None


def _last_in_journal(path: Path) -> float | None:
    tail = _part(path, head=False)
    for line in reversed((tail or b"").split(b"\n")):
        try:
            return read_line(line).at
        except LineFault:
            continue
    return None


def _part(path: Path, *, head: bool) -> bytes | None:
    """The first or the last bytes of a plain file; None where it isn't one."""
    flags = (
        os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    )
    try:
        descriptor = os.open(path, flags)
    except OSError:
        return None
    try:
        if not head:
            size = os.fstat(descriptor).st_size
            os.lseek(descriptor, max(0, size - _TAIL), os.SEEK_SET)
        return os.read(descriptor, _HEAD if head else _TAIL)
    except OSError:
        return None
    finally:
        os.close(descriptor)


def find_session(wanted: str, home: Path | None = None) -> Path:
    """The folder, or the file, that a person means: an id, its unique beginning, or a path.

    Raises SessionFault: none, or several.
    """
    home = home or sessions_folder()
    if _ID.fullmatch(wanted):
        folder = home / wanted
        if not folder.is_symlink() and _holds_session(folder):
            return folder
        beginning = [entry for entry in find_sessions(home) if entry.id.startswith(wanted)]
        if len(beginning) == 1:
            return beginning[0].folder
        if beginning:
            several = ", ".join(entry.id for entry in beginning[:5])
            raise SessionFault(
                words(
                    "{wanted} begins {count} sessions: {several}",
                    wanted=wanted,
                    count=str(len(beginning)),
                    several=several,
                )
            )
    path = Path(wanted)
    try:
        if path.is_file():
            return path.absolute()
        if path.is_dir() and _holds_session(path):
            return path.absolute()
    except (OSError, ValueError):
        pass
    raise SessionFault(words("no session {wanted}", wanted=short_text(wanted)))


def _holds_session(folder: Path) -> bool:
    return (folder / SESSION).is_file() or (folder / SESSION_BEFORE).is_file()


def is_session_id(text: str) -> bool:
    """Whether a text may be a session's id, and so the name of a folder."""
    return _ID.fullmatch(text) is not None


def new_session_id(rig: str, now: Instant) -> str:
    """An id that says the rig and the day: `two-tanks-2026-01-05-k3f9`."""
    plain = unicodedata.normalize("NFKD", rig).encode("ascii", "ignore").decode().lower()
    slug = re.sub("[^a-z0-9]+", "-", plain)[:_SLUG_LENGTH].strip("-") or "rig"
    chance = "".join(_RANDOM_SIGNS[byte % len(_RANDOM_SIGNS)] for byte in os.urandom(4))
    return f"{slug}-{said_time(now.at, now.offset)[:10]}-{chance}"

"""Who holds a session. One program writes to it; others look on.

The lock is the system's own, so it ends with the process that has it, however that ended; what says who holds
it stands in a file beside. A file that says so without the lock stops nobody: its program was killed. But a
shared folder may carry no locks between two machines. So whoever takes the lock writes itself into that file,
and a holder that finds another there no longer is one (`taken_by`): the newest holds the session, and the one
before is told before it writes again.
"""

import contextlib
import os
import socket
from pathlib import Path

import msgspec

from logic.data.clean_text import short_text
from logic.data.state import Instant
from logic.data.wording import Words, words
from logic.session.files import Files, read_plain, write_all
from logic.session.saying import said_time
from logic.session.system_lock import SystemLock

LOCK, HOLDER = "lock", "holder.json"
# So long it is tried: someone else may only have looked whether it is free. [s]
LOOKED_FOR = 0.02
_LARGEST_HOLDER = 64 * 1024


class Holder(msgspec.Struct, frozen=True):
    """Who holds a session, where, and since when by that machine's clock."""

    name: str
    host: str
    pid: int
    since: float  # epoch seconds
    offset: int = 0


def this_holder(now: Instant) -> Holder:
    """This program's own record."""
    return Holder(
        user_name(), short_text(socket.gethostname()) or "this machine", os.getpid(), now.at, now.offset
    )


def user_name() -> str:
    """The name under which this program runs, as the system has it."""
    name = os.environ.get("LOGNAME") or os.environ.get("USER") or os.environ.get("USERNAME") or ""
    if not name:
        try:
            import pwd

            name = pwd.getpwuid(os.getuid()).pw_name
        except (ImportError, KeyError):
            name = "someone"
    return short_text(name) or "someone"


class SessionLock:
    """The lock of one session's folder."""

    def __init__(self, folder: Path, files: Files) -> None:
        self.folder, self.files = folder, files
        self._lock = SystemLock(folder / LOCK)
        self._ours: Holder | None = None  # what we wrote into the file
        self.left_by: Holder | None = None  # who held it on another machine, and never said that it left

    @property
    def is_held(self) -> bool:
        return self._lock.is_held

    def take(self, now: Instant) -> bool:
        """Whether the session is ours now. Raises OSError: the folder can't be locked."""
        if not self._lock.take(patience=LOOKED_FOR):
            return False
        left, ours = read_holder(self.folder), this_holder(now)
        self.left_by = left if left is not None and left.host != ours.host else None
        self._ours = ours if self._write_holder(ours) else None
        return True

    def is_free(self) -> bool:
        """Whether nobody holds it now; it isn't taken."""
        if self.is_held:
            return False
        try:
            free = self._lock.take()
        except OSError:
            return False
        if free:
            self._lock.release()
        return free

    def taken_by(self) -> Holder | None:
        """Who wrote themselves in after us; None where we hold it still, as far as the folder says."""
        if self._ours is None:
            return None
        found = read_holder(self.folder)
        return found if found is not None and found != self._ours else None

    def still_stands(self) -> bool:
        """Whether the lock's file is still the one in the folder: it may have been removed with it."""
        return self.is_held and (self.folder / LOCK).exists()

    def release(self) -> None:
        if self.is_held:
            if self.taken_by() is None:
                for name in (HOLDER, f"{HOLDER}.new"):
                    with contextlib.suppress(OSError):
                        self.files.unlink(self.folder / name)
            self._lock.release()

    def _write_holder(self, holder: Holder) -> bool:
        """Whether it could be written: a disk too full for it doesn't stop a session from being opened."""
        beside = self.folder / f"{HOLDER}.new"
        try:
            descriptor = self.files.create(beside)
            try:
                write_all(self.files, descriptor, msgspec.json.encode(holder))
            finally:
                self.files.close(descriptor)
            self.files.rename(beside, self.folder / HOLDER)
        except OSError:
            return False
        return True


def read_holder(folder: Path) -> Holder | None:
    """Who says that they hold the session; None where nobody does."""
    try:
        found = msgspec.json.decode(read_plain(folder / HOLDER, most=_LARGEST_HOLDER), type=Holder)
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        return None
    return Holder(short_text(found.name), short_text(found.host), found.pid, found.since, found.offset)


def held_words(holder: Holder | None) -> Words:
    """`held by NAME on HOST since TIME`."""
    if holder is None:
        return words("held by another program")
    return words("held by {name} on {host} since {since}", **_parts(holder))


def gone_words(holder: Holder | None) -> Words:
    """That it may be taken over: `NAME on HOST, who held it since TIME, has gone`."""
    if holder is None:
        return words("the program that held it has gone")
    return words("{name} on {host}, who held it since {since}, has gone", **_parts(holder))


def left_words(holder: Holder) -> Words:
    """That whoever held it on another machine never left: it was killed, or the folder carries no locks."""
    return words(
        "{name} on {host} held this session since {since} and did not leave it. If it still runs there, it is told "
        "now that this program holds the session",
        **_parts(holder),
    )


def _parts(holder: Holder) -> dict[str, str]:
    since = said_time(min(max(holder.since, 0.0), 4e9), min(max(holder.offset, -86399), 86399))
    return {"name": holder.name, "host": holder.host, "since": since}

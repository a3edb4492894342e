"""Who holds a session. One program writes to it; others look on.

The lock is the system's own, so it ends with the process that has it, however that ended; what says who holds
it stands in a file beside, for people. A file that says so without the lock means nothing.
"""

import contextlib
import os
import socket
from pathlib import Path

import msgspec

from logic.data.clean_text import short_text
from logic.data.state import Instant
from logic.data.wording import Words, words
from logic.session.files import Files, read_plain
from logic.session.saying import said_time

LOCK, HOLDER = "lock", "holder.json"
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
        from filelock import FileLock  # 40 ms, and a profile alone needs no lock

        self.folder, self.files = folder, files
        self._lock = FileLock(folder / LOCK, timeout=0, mode=0o600, thread_local=False)

    @property
    def is_held(self) -> bool:
        return self._lock.is_locked

    def take(self, now: Instant) -> bool:
        """Whether the session is ours now. Raises OSError: the folder can't be locked."""
        from filelock import Timeout

        try:
            self._lock.acquire(blocking=False)
        except Timeout:
            return False
        except NotImplementedError as fault:
            raise OSError(str(fault)) from None
        self._write_holder(now)
        return True

    def still_stands(self) -> bool:
        """Whether the lock's file is still the one in the folder: it may have been removed with it."""
        return self._lock.is_locked and (self.folder / LOCK).exists()

    def release(self) -> None:
        if self._lock.is_locked:
            for name in (HOLDER, f"{HOLDER}.new"):
                with contextlib.suppress(OSError):
                    self.files.unlink(self.folder / name)
            self._lock.release()

    def _write_holder(self, now: Instant) -> None:
        """For people only: a disk too full for it doesn't stop a session from being opened."""
        beside = self.folder / f"{HOLDER}.new"
        try:
            descriptor = self.files.create(beside)
            try:
                self.files.write(descriptor, msgspec.json.encode(this_holder(now)))
            finally:
                self.files.close(descriptor)
            self.files.rename(beside, self.folder / HOLDER)
        except OSError:
            return


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
    return words(
        "held by {name} on {host} since {since}",
        name=holder.name,
        host=holder.host,
        since=said_time(min(max(holder.since, 0.0), 4e9), min(max(holder.offset, -86399), 86399)),
    )

"""The system's own lock on a file: one program has it at a time, and it ends with that program, however that ends.

Where the system has `flock`, it is asked directly. Elsewhere, and on a file system without it, a library does
the same; it isn't loaded before, since that takes 40 ms and more memory than three thousand events.
"""

import errno
import os
import time
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from filelock import BaseFileLock

try:
    from fcntl import LOCK_EX, LOCK_NB, flock
except ImportError:  # no such call on this system
    flock = None  # type: ignore[assignment]

_MODE = 0o600
_AGAIN = 0.02  # s, between two tries
_HELD = (errno.EACCES, errno.EAGAIN, errno.EWOULDBLOCK)


class SystemLock:
    """A lock that is named by a file; the file stays when it is released."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._descriptor: int | None = None
        self._other: BaseFileLock | None = None  # the library's, where flock isn't there

    @property
    def is_held(self) -> bool:
        """Whether this object has it."""
        return self._descriptor is not None or (self._other is not None and self._other.is_locked)

    def take(self, *, patience: float = 0.0) -> bool:
        """Whether it is ours now.

        patience : how long to try [s]. Raises OSError: the file can't be locked.
        """
        until = time.monotonic() + patience
        while not (self.is_held or self._taken()):
            if time.monotonic() >= until:
                return False
            time.sleep(_AGAIN)
        return True

    def release(self) -> None:
        descriptor, self._descriptor = self._descriptor, None
        if descriptor is not None:
            os.close(descriptor)  # and with it the lock
        if self._other is not None:
            self._other.release()

    def __del__(self) -> None:
        self.release()

    def _taken(self) -> bool:
        if flock is None or self._other is not None:
            return self._taken_otherwise()
        descriptor = os.open(self.path, os.O_RDWR | os.O_CREAT | os.O_NOFOLLOW | os.O_CLOEXEC, _MODE)
        try:
            flock(descriptor, LOCK_EX | LOCK_NB)
            ours, named = os.fstat(descriptor), os.lstat(self.path)
        except OSError as fault:
            os.close(descriptor)
            if fault.errno == errno.ENOSYS:
                return self._taken_otherwise()
            if fault.errno in (*_HELD, errno.ENOENT):
                return False
            raise
        if (ours.st_dev, ours.st_ino) != (named.st_dev, named.st_ino):
            os.close(descriptor)  # the file was removed meanwhile: another one names the lock
            return False
        self._descriptor = descriptor
        return True

    def _taken_otherwise(self) -> bool:
        from filelock import FileLock, Timeout

        try:
            if self._other is None:
                self._other = FileLock(self.path, timeout=0, mode=_MODE, thread_local=False)
            self._other.acquire(blocking=False)
        except Timeout:
            return False
        except NotImplementedError as fault:
            raise OSError(str(fault)) from None
        return True

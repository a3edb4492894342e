"""The calls to the disk with a fault at one of them, counted: an error, a short write, or death."""

import errno
import os
from pathlib import Path

from logic.session.files import Files

# The calls that change the disk, by the names of their methods.
CALLS = ("create", "create_only", "open_to_write", "write", "truncate", "fsync", "rename", "link", "unlink",
         "make_folder", "sync_folder")  # fmt: skip
ERRORS = ("ENOSPC", "EIO", "EROFS", "EACCES")
FAULTS = (*ERRORS, "short", "dies before", "dies after", "dies within")


class Died(BaseException):
    """The process ended here. From then on nothing reaches the disk."""


class QuickFiles(Files):
    """The disk without waiting for it: a test that pulls no plug needs no sync."""

    def fsync(self, descriptor: int) -> None:
        os.fstat(descriptor)

    def sync_folder(self, folder: Path) -> None:
        folder.stat()


class FaultyFiles(QuickFiles):
    """Counts the calls, and lets the one numbered `failing` go wrong in the given way.

    lasting : an error stays, as a full disk does, until `mended` is set. Deaths are for good.
    """

    def __init__(self, fault: str = "", failing: int = -1, *, lasting: bool = False) -> None:
        self.fault, self.failing, self.lasting = fault, failing, lasting
        self.count = 0
        self.names: list[str] = []
        self.dead = self.mended = self.happened = False

    def _goes_wrong(self, name: str) -> bool:
        if self.dead:
            raise Died
        number = self.count
        self.count += 1
        self.names.append(name)
        if self.mended:
            return False
        wrong = number == self.failing or (self.lasting and self.failing <= number and self.fault in ERRORS)
        self.happened = self.happened or wrong
        return wrong

    def _fail(self, name: str) -> None:
        """The fault, where it isn't one of a write that is partly done."""
        if self.fault == "dies before":
            self.dead = True
            raise Died
        if self.fault in ERRORS:
            number = getattr(errno, self.fault)
            raise OSError(number, os.strerror(number))

    def _call(self, name: str, *given: object) -> object:
        wrong = self._goes_wrong(name)
        if wrong:
            self._fail(name)
        try:
            return getattr(QuickFiles, name)(self, *given)
        finally:
            if wrong and self.fault in ("dies after", "dies within"):
                self.dead = True
                raise Died

    def create(self, path: Path) -> int:
        return self._call("create", path)  # type: ignore[return-value]

    def create_only(self, path: Path) -> int:
        return self._call("create_only", path)  # type: ignore[return-value]

    def open_to_write(self, path: Path) -> int:
        return self._call("open_to_write", path)  # type: ignore[return-value]

    def write(self, descriptor: int, data: bytes | memoryview) -> int:
        if not self._goes_wrong("write"):
            return super().write(descriptor, data)
        self._fail("write")
        if self.fault == "short":
            return super().write(descriptor, data[: max(1, len(data) // 2)])
        super().write(descriptor, data if self.fault == "dies after" else data[: len(data) // 2])
        self.dead = True
        raise Died

    def seek(self, descriptor: int, position: int) -> None:
        if self.dead:
            raise Died
        super().seek(descriptor, position)

    def truncate(self, descriptor: int, length: int) -> None:
        self._call("truncate", descriptor, length)

    def fsync(self, descriptor: int) -> None:
        self._call("fsync", descriptor)

    def rename(self, path: Path, to: Path) -> None:
        self._call("rename", path, to)

    def link(self, path: Path, to: Path) -> None:
        self._call("link", path, to)

    def unlink(self, path: Path) -> None:
        self._call("unlink", path)

    def make_folder(self, path: Path) -> None:
        self._call("make_folder", path)

    def sync_folder(self, folder: Path) -> None:
        self._call("sync_folder", folder)

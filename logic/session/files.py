"""The calls by which a session reaches the disk, a method for each, so that a test can make any of them fail.

Nothing else in the session's modules writes, syncs, renames or removes a file.
"""

import errno
import os
import stat
from pathlib import Path

FILE_MODE, FOLDER_MODE = 0o600, 0o700
# A pipe under a session's name would hang the program, a link would lead out of its folder.
_CAREFUL = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0)
_BINARY = getattr(os, "O_BINARY", 0)
# A hundred thousand events are about 20 MB; a sheet of 32 MiB of them takes what memory the program may have.
LARGEST_FILE = 32 * 1024 * 1024  # bytes


class Files:
    """The disk as it is. Every method raises OSError where the system refuses."""

    def create(self, path: Path) -> int:
        """A descriptor of an empty file, ours alone to read and write."""
        return os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | _CAREFUL | _BINARY, FILE_MODE)

    def create_only(self, path: Path) -> int:
        """The same for a file that wasn't there. Raises FileExistsError."""
        return os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _CAREFUL | _BINARY, FILE_MODE)

    def open_to_write(self, path: Path) -> int:
        """A descriptor of a file that is there, its contents untouched."""
        return os.open(path, os.O_WRONLY | _CAREFUL | _BINARY)

    def write(self, descriptor: int, data: bytes | memoryview) -> int:
        """How many bytes were written: not always all of them."""
        return os.write(descriptor, data)

    def seek(self, descriptor: int, position: int) -> None:
        os.lseek(descriptor, position, os.SEEK_SET)

    def truncate(self, descriptor: int, length: int) -> None:
        os.ftruncate(descriptor, length)

    def fsync(self, descriptor: int) -> None:
        """What was written is on the disk, not only on its way to it."""
        full = _FULL_SYNC
        if full is not None:  # the system's own fsync stops at the drive's cache
            try:
                full(descriptor)
                return
            except OSError:
                pass
        os.fsync(descriptor)

    def close(self, descriptor: int) -> None:
        os.close(descriptor)

    def rename(self, path: Path, to: Path) -> None:
        """`to` is what `path` was, at once; what it was before is gone."""
        os.replace(path, to)

    def link(self, path: Path, to: Path) -> None:
        """A second name for a file; not every file system has them."""
        os.link(path, to, follow_symlinks=False)

    def unlink(self, path: Path) -> None:
        os.unlink(path)

    def make_folder(self, path: Path) -> None:
        """A folder of our own and what leads to it, as far as it isn't there."""
        path.mkdir(mode=FOLDER_MODE, parents=True, exist_ok=True)

    def must_be_writable(self, folder: Path) -> None:
        """Raises OSError: no file can be made in it."""
        if not os.access(folder, os.W_OK | os.X_OK):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    def sync_folder(self, folder: Path) -> None:
        """The names in a folder are on the disk."""
        if os.name != "posix":
            return
        descriptor = os.open(folder, os.O_RDONLY | getattr(os, "O_DIRECTORY", 0))
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


def _full_sync():
    try:
        import fcntl
    except ImportError:
        return None
    command = getattr(fcntl, "F_FULLFSYNC", None)
    return None if command is None else lambda descriptor: fcntl.fcntl(descriptor, command)


_FULL_SYNC = _full_sync()


def read_plain(path: Path, *, most: int = LARGEST_FILE) -> bytes:
    """The bytes of a plain file. Raises OSError: not there, no plain file, or larger than `most`."""
    descriptor = os.open(path, os.O_RDONLY | _CAREFUL | _BINARY)
    try:
        found = os.fstat(descriptor)
        if not stat.S_ISREG(found.st_mode):
            raise OSError(f"{path.name} is no plain file")
        if found.st_size > most:
            raise OSError(f"{path.name} is larger than {most} bytes")
        return _all_of(descriptor, most)
    finally:
        os.close(descriptor)


def _all_of(descriptor: int, most: int) -> bytes:
    parts: list[bytes] = []
    left = most
    while left > 0 and (part := os.read(descriptor, min(left, 1 << 20))):
        parts.append(part)
        left -= len(part)
    return b"".join(parts)


def write_all(files: Files, descriptor: int, data: bytes) -> None:
    """All of `data`, in as many calls as the system needs."""
    view = memoryview(data)
    while view:
        written = files.write(descriptor, view)
        if written <= 0:
            raise OSError("nothing more could be written")
        view = view[written:]


def write_beside(files: Files, path: Path, data: bytes) -> Path:
    """`data` in a file beside `path`, on the disk; it takes the name of `path` by a rename.

    The name beside is always the same, so that what a crash leaves behind is written over the next time.
    Raises OSError; what was written of it is then removed, if the system lets us.
    """
    beside = path.with_name(f"{path.name}.new")
    try:
        descriptor = files.create(beside)
        try:
            write_all(files, descriptor, data)
            files.fsync(descriptor)
        finally:
            files.close(descriptor)
    except OSError:
        remove_if_there(files, beside)
        raise
    return beside


def replace_file(files: Files, path: Path, data: bytes) -> None:
    """`path` holds `data`, or, if anything fails, what it held before. Raises OSError."""
    beside = write_beside(files, path, data)
    files.rename(beside, path)
    files.sync_folder(path.parent)


def keep_as(files: Files, path: Path, kept: Path) -> None:
    """A second name, or where there are none a copy, of `path`; it stays where it is. Raises OSError."""
    beside = kept.with_name(f"{kept.name}.new")
    remove_if_there(files, beside)
    try:
        files.link(path, beside)
    except OSError:
        beside = write_beside(files, kept, read_plain(path))
    files.rename(beside, kept)
    # Two names of one file stay two: a rename of one onto the other does nothing.
    remove_if_there(files, beside)


def remove_if_there(files: Files, path: Path) -> None:
    """The file is gone, if the system lets us; what can't be removed is no fault."""
    try:
        files.unlink(path)
    except OSError:
        return


def place_new(files: Files, path: Path, data: bytes) -> None:
    """A whole file where there was none. Raises OSError; FileExistsError: something has that name."""
    if os.path.lexists(path):
        raise FileExistsError(f"{path.name} is there already")
    beside = path.with_name(f".{path.name}.{os.urandom(4).hex()}.new")
    descriptor = files.create_only(beside)
    try:
        try:
            write_all(files, descriptor, data)
            files.fsync(descriptor)
        finally:
            files.close(descriptor)
        _take_name(files, beside, path)
        files.sync_folder(path.parent)
    finally:
        remove_if_there(files, beside)


def _take_name(files: Files, beside: Path, path: Path) -> None:
    """`beside` becomes `path`, if nothing has that name."""
    try:
        files.link(beside, path)
        return
    except FileExistsError:
        raise
    except OSError:  # no second names on this file system: the name is taken first, then the contents
        files.close(files.create_only(path))
    files.rename(beside, path)

"""The program with its screen, and a disk that fails where the environment says so.

    python -m tests.crash.screen_program open SESSION

`FAULT` goes wrong at the call numbered `FAILING`, of those that change the disk; `LASTING` lets an error stay until
the file `MENDED` is there; with `READ_ONLY` no file may be made in a session's folder. The clock is `BEHIND` by so
many seconds. `JOURNAL` lines are folded in at once; how many calls there were goes to the file `COUNT`.
Deaths are `kill -9` of this very process, within the call.
"""

import errno
import os
import signal
import sys
from collections.abc import Mapping
from pathlib import Path

from logic.data.state import Instant
from logic.session import kept_session, session, store
from tests.crash.faulty_files import FaultyFiles
from tui import wiring
from tui.command_line.main import main

PREFIX = "BELLYPAN_TEST_"


class KillingFiles(FaultyFiles):
    """Where the others raise, this one ends the process for good."""

    mended_by: Path | None = None

    @property
    def dead(self) -> bool:
        return False

    @dead.setter
    def dead(self, dead: bool) -> None:
        if dead:
            os.kill(os.getpid(), signal.SIGKILL)

    def _goes_wrong(self, name: str) -> bool:
        self.mended = self.mended or (self.mended_by is not None and self.mended_by.exists())
        return super()._goes_wrong(name)


def files_from(environment: Mapping[str, str]) -> KillingFiles:
    """The disk that the environment describes."""

    def of(name: str) -> str:
        return environment.get(f"{PREFIX}{name}", "")

    files = KillingFiles(of("FAULT"), int(of("FAILING") or -1), lasting=bool(of("LASTING")))
    files.mended_by = Path(of("MENDED")) if of("MENDED") else None
    return files


def refuse(folder: Path) -> None:
    """What a folder says in which no file may be made."""
    raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))


def run() -> int:
    """The program's own entry, on that disk."""
    files = files_from(os.environ)
    session.Files = lambda: files  # type: ignore[misc, assignment]
    if os.environ.get(f"{PREFIX}READ_ONLY"):
        files.must_be_writable = refuse  # type: ignore[method-assign]
    behind = float(os.environ.get(f"{PREFIX}BEHIND") or 0.0)
    if behind:
        moment = wiring.this_moment
        wiring.this_moment = lambda: Instant(moment().at - behind, moment().offset)
    lines = os.environ.get(f"{PREFIX}JOURNAL")
    if lines:
        store.LONGEST_JOURNAL = int(lines)
    assert kept_session.Store is store.Store
    code = main(sys.argv[1:])
    count = os.environ.get(f"{PREFIX}COUNT")
    if count:
        Path(count).write_text("\n".join(files.names))
    return code


if __name__ == "__main__":
    sys.exit(run())

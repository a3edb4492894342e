"""A program in a pseudo-terminal with a clock beside it: what it writes, when, and what it costs.

Nothing is drawn here; cells are counted in what the program writes. Compiled modules go to a folder of the
benchmark's own, so that every start but the first is one of an installed program.
"""

import fcntl
import os
import pty
import re
import select
import signal
import struct
import sys
import termios
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
ROWS, COLUMNS = 30, 100
PATIENCE = 30.0  # s
QUIET = 0.06  # s without a byte after which a repaint counts as over; far over any gap within one
SEQUENCE = re.compile(rb"\x1b(?:\[[0-9;:<=>?]*[ -/]*[@-~]|[PX^_\]].*?(?:\x1b\\|\x07)|[ -/]*[0-~])", re.DOTALL)
ANSWERS = {b"\x1b[?2026$p": b"\x1b[?2026;2$y", b"\x1b[?2048$p": b"\x1b[?2048;0$y"}


class NotSeen(AssertionError):
    """What was waited for did not come."""


def environment(scratch: Path, home: Path | None = None) -> dict[str, str]:
    """That of an installed program at home in `home`, its compiled modules under `scratch`."""
    kept = {name: text for name, text in os.environ.items() if not name.startswith("PYTHON")}
    return kept | {
        "BELLYPAN_HOME": str(home or scratch / "home"),
        "PYTHONPATH": str(ROOT),
        "PYTHONPYCACHEPREFIX": str(scratch / "compiled"),
        "TERM": "xterm-256color",
        "COLORTERM": "truecolor",
    }


class TimedTerminal:
    """A Python program started in a terminal of its own."""

    def __init__(self, *words: str, env: dict[str, str]) -> None:
        self.begun = time.perf_counter()
        self.pid, self.file = pty.fork()
        if self.pid == 0:
            os.chdir(ROOT)
            os.execve(sys.executable, [sys.executable, *words], env)
        fcntl.ioctl(self.file, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
        self.written = bytearray()
        self.last = self.begun

    def __enter__(self) -> "TimedTerminal":
        return self

    def __exit__(self, *_: object) -> None:
        self.end()

    def _read(self, seconds: float) -> bool:
        """Take in what is written within a time; whether anything was."""
        ready, _, _ = select.select([self.file], [], [], seconds)
        if not ready:
            return False
        try:
            piece = os.read(self.file, 1 << 16)
        except OSError:
            raise NotSeen(f"the program ended: {bytes(self.written[-2000:])!r}") from None
        self.last = time.perf_counter()
        self.written += piece
        for asked, answer in ANSWERS.items():
            if asked in piece:
                os.write(self.file, answer)
        return True

    def until(self, sight: bytes, *, since: float) -> float:
        """Wait until a text is written; the time from `since` to it. [s]  Raises NotSeen."""
        end = time.perf_counter() + PATIENCE
        while sight not in self.written:
            if not self._read(0.5) and time.perf_counter() > end:
                raise NotSeen(f"never written: {sight!r}; {bytes(self.written[-2000:])!r}")
        return self.last - since

    def echoed(self, sign: str, *, since: float) -> float:
        """Wait until a sign stands among what is written as text; the time from `since` to it. [s]"""
        end = time.perf_counter() + PATIENCE
        while sign not in self.text():
            if not self._read(0.5) and time.perf_counter() > end:
                raise NotSeen(f"never echoed: {sign!r}; {bytes(self.written[-2000:])!r}")
        return self.last - since

    def quiet(self, *, since: float) -> float:
        """Wait until nothing more is written; the time from `since` to the last of it. [s]"""
        end = time.perf_counter() + PATIENCE
        while not self._read(0.5) or self.last <= since:
            if time.perf_counter() > end:
                raise NotSeen("nothing was written")
        self.settle()
        return self.last - since

    def settle(self) -> None:
        """Let it come to rest."""
        while self._read(QUIET):
            pass

    def rest(self, seconds: float) -> None:
        """Let it be for at most so long, and take in what it writes."""
        self._read(seconds)

    def started(self, sight: bytes) -> float:
        """From the start of the process to the first sight of a text. [s]"""
        return self.until(sight, since=self.begun)

    def send(self, keys: str) -> float:
        """Press keys; when. What was written before is forgotten."""
        while self._read(0.0):
            pass
        self.written.clear()
        now = time.perf_counter()
        os.write(self.file, keys.encode())
        return now

    def text(self) -> str:
        """What was written since the last keys were sent, without control sequences."""
        return SEQUENCE.sub(b"", bytes(self.written)).partition(b"\x1b")[0].decode("utf-8", "replace")

    def cells(self) -> int:
        """Cells written since the last keys were sent."""
        return sum(sign >= " " for sign in self.text())

    def cpu(self) -> float:
        """Processor time that it has taken so far. [s]"""
        fields = Path(f"/proc/{self.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def memory(self) -> float:
        """What it holds in memory. [MiB]"""
        status = Path(f"/proc/{self.pid}/status").read_text()
        return int(re.search(r"VmRSS:\s+(\d+)", status)[1]) / 1024  # type: ignore[index]

    def end(self) -> None:
        try:
            os.kill(self.pid, signal.SIGKILL)
            os.waitpid(self.pid, 0)
            os.close(self.file)
        except OSError:
            return

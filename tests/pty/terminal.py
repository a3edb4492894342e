"""A real terminal for tests: pexpect drives the program in a pty, pyte holds the screen that it draws."""

import os
import re
import termios
import time
from collections.abc import Callable
from pathlib import Path

import pexpect
import pyte

from tests.contract.headless import ROOT, clean_environment, command

DEADLINE = 20.0  # s: far beyond what anything takes; only a failure waits so long
# Private sequences (keyboard protocols, mode queries) that pyte would print as text.
NOT_FOR_PYTE = re.compile(r"\x1b\[[<>=][0-9;]*[a-zA-Z]|\x1b\[\?[0-9;]*(?:\$p|u)|\x1bP.*?\x1b\\", re.DOTALL)
UNFINISHED = re.compile(r"\x1b(?:\[[<>=?0-9;$]*|P[^\x1b]*)?$")
CTRL_Q = "\x11"
CTRL_C = "\x03"


class Terminal:
    """The program in a terminal of its own."""

    def __init__(
        self,
        *words: str | Path,
        home: Path,
        rows: int = 30,
        columns: int = 100,
        environment: dict[str, str] | None = None,
        module: str = "tui.command_line.main",
    ) -> None:
        """module : what is run; another than the program's own entry wraps it."""
        self.screen = pyte.Screen(columns, rows)
        self.stream = pyte.Stream(self.screen)
        self.raw = ""
        self._rest = ""
        program, *arguments = command(*words)
        self.child = pexpect.spawn(
            program,
            [module if argument == "tui.command_line.main" else argument for argument in arguments],
            cwd=str(ROOT),
            env=clean_environment(home)
            | {"TERM": "xterm-256color", "PYTHONWARNINGS": "default"}
            | (environment or {}),
            dimensions=(rows, columns),
            encoding="utf-8",
            codec_errors="replace",
            timeout=DEADLINE,
        )
        self.modes_before = termios.tcgetattr(self.child.fileno())

    def __enter__(self) -> "Terminal":
        return self

    def __exit__(self, *_: object) -> None:
        self.child.close(force=True)

    @property
    def text(self) -> str:
        """The screen as text, a line for each row."""
        return "\n".join(line.rstrip() for line in self.screen.display)

    def gather(self, seconds: float = 0.05) -> bool:
        """Read what the program wrote within a moment; whether it still runs."""
        try:
            piece = self.child.read_nonblocking(65536, timeout=seconds)
        except pexpect.TIMEOUT:
            return True
        except pexpect.EOF:
            return False
        self.raw += piece
        piece = self._rest + piece
        unfinished = UNFINISHED.search(piece)
        end = unfinished.start() if unfinished else len(piece)
        self._rest = piece[end:]
        self.stream.feed(NOT_FOR_PYTE.sub("", piece[:end]))
        return True

    def until(self, condition: Callable[[str], bool], what: str, *, deadline: float = DEADLINE) -> str:
        """Wait until the screen fulfils `condition`; its text. Fails with what was seen last."""
        end = time.monotonic() + deadline
        while not condition(self.text):
            if not self.gather() and not condition(self.text):
                raise AssertionError(f"the program ended before {what}:\n{self.text}\n{self.raw[-2000:]!r}")
            if time.monotonic() > end:
                raise AssertionError(f"never seen: {what}. The screen:\n{self.text}")
        return self.text

    def shows(self, *words: str) -> str:
        """Wait until all of `words` stand on the screen."""
        return self.until(lambda text: all(word in text for word in words), " and ".join(words))

    def send(self, keys: str) -> None:
        self.child.send(keys)

    def resize(self, *, rows: int, columns: int) -> None:
        self.screen.resize(rows, columns)
        self.child.setwinsize(rows, columns)

    def kill(self) -> None:
        """The end without a warning."""
        os.kill(self.child.pid, 9)
        while self.gather():
            pass
        self.child.wait()

    def left(self) -> int:
        """Wait until the program has ended by itself; its exit code."""
        end = time.monotonic() + DEADLINE
        while self.gather():
            if time.monotonic() > end:
                raise AssertionError(f"the program goes on:\n{self.text}")
        self.child.wait()
        return self.child.exitstatus if self.child.exitstatus is not None else -(self.child.signalstatus or 0)

    def modes_now(self) -> list:
        """The terminal's own settings (echo, canonical input, signals)."""
        return termios.tcgetattr(self.child.fileno())

    def mode_is_on(self, mode: str) -> bool:
        """Whether a private mode, `?1049` or `?25`, was last set rather than reset."""
        return self.raw.rfind(f"\x1b[{mode}h") > self.raw.rfind(f"\x1b[{mode}l")

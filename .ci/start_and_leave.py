"""Run a command that installs and starts the program, in a pseudo-terminal; use it a little; leave it.

Standard library only: it runs before anything is installed. Exit code 0 where the program showed its screen,
took a key, ended by itself with 0 and gave the terminal back.
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
from collections.abc import Callable

ROWS, COLUMNS = 30, 100
INSTALLED_WITHIN = 600.0  # s: until the first frame, the install before it included
LEFT_WITHIN = 20.0
SCREEN_ON, SCREEN_OFF = b"\x1b[?1049h", b"\x1b[?1049l"
LEAVE = b"\x11"  # Ctrl+Q
SEQUENCE = re.compile(rb"\x1b\[[0-9;?>=<]*[ -/]*[@-~]|\x1b[()][A-Z0-9]|\x1b[=>]")


def main(command: str) -> int:
    child, terminal = pty.fork()
    if child == 0:
        os.environ |= {"TERM": "xterm-256color", "COLUMNS": str(COLUMNS), "LINES": str(ROWS)}
        os.execvp("bash", ["bash", "-c", command])
    fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
    seen = bytearray()
    try:
        shown = read_until(terminal, seen, lambda: has_frame(bytes(seen)), INSTALLED_WITHIN)
        if not shown:
            return failed("the program never showed its screen", seen)
        os.write(terminal, b"4")
        read_until(terminal, seen, lambda: False, 1.0)
        os.write(terminal, LEAVE)
        read_until(terminal, seen, lambda: False, LEFT_WITHIN)
        ended, status = reaped(child, LEFT_WITHIN)
        if not ended:
            return failed("the program did not leave on Ctrl+Q", seen)
        child = 0
    finally:
        if child:
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
    code = os.waitstatus_to_exitcode(status)
    if code:
        return failed(f"the program ended with {code}", seen)
    if bytes(seen).rfind(SCREEN_OFF) < bytes(seen).rfind(SCREEN_ON):
        return failed("the terminal was not given back", seen)
    if b"Traceback" in seen:
        return failed("there was a traceback", seen)
    print("started, used and left")
    return 0


def reaped(child: int, seconds: float) -> tuple[bool, int]:
    """Whether the child has ended within so many seconds, and its status."""
    end = time.monotonic() + seconds
    while True:
        ended, status = os.waitpid(child, os.WNOHANG)
        if ended or time.monotonic() > end:
            return bool(ended), status
        time.sleep(0.1)


def has_frame(seen: bytes) -> bool:
    """Whether the four panes stand on the screen."""
    start = seen.rfind(SCREEN_ON)
    text = SEQUENCE.sub(b"", seen[start:]) if start >= 0 else b""
    return all(word in text for word in (b"Rig", b"Figures", b"Steps", b"Punch list"))


def read_until(terminal: int, seen: bytearray, done: Callable[[], bool], seconds: float) -> bool:
    """Gather what the terminal gets until `done`, the end of the program or the time."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        ready, _, _ = select.select([terminal], [], [], 0.2)
        if ready:
            try:
                piece = os.read(terminal, 65536)
            except OSError:  # the other side is closed
                return done()
            if not piece:
                return done()
            seen += piece
        if done():
            return True
    return done()


def failed(why: str, seen: bytearray) -> int:
    text = SEQUENCE.sub(b"", bytes(seen[-6000:])).decode("utf-8", "replace")
    print(f"{text}\n\n{why}", file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))

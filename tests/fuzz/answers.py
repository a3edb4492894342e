"""Calls of the program in this process, and what is asked of every answer.

An exit code of ours; words and no traceback; nothing that a terminal would obey; JSON where JSON was asked for;
and an answer at all: a call that waits for a pipe is stopped by an alarm and counts as found.
"""

import io
import json
import os
import signal
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from pathlib import Path
from typing import NamedTuple
from unittest import mock

from tests.fuzz.hostile import obeyed
from tui.command_line.main import main

HANG = 20  # s of waiting, by the clock: longer than any answer takes on a busy machine


class Answered(NamedTuple):
    code: int
    output: str
    errors: str


class Hung(BaseException):
    """Nothing was answered. No `Exception`, so that nothing in between takes it for one of its own."""


@contextmanager
def alarmed(seconds: float = HANG) -> Iterator[None]:
    """Raises Hung where what stands in it doesn't end."""

    def ring(*_: object) -> None:
        raise Hung(f"no answer within {seconds} s")

    before = signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def called(words: Sequence[str | Path], *, home: Path, given: bytes = b"") -> Answered:
    """One call, its sessions in `home`; Ctrl+C and our own alarm go through."""
    output, errors = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8", newline="\n") for _ in range(2))
    stdin = io.TextIOWrapper(io.BytesIO(given), encoding="utf-8")
    with (
        mock.patch.dict(os.environ, {"BELLYPAN_HOME": str(home)}),
        mock.patch("sys.stdin", stdin),
        mock.patch("os.isatty", return_value=False),
        redirect_stdout(output),
        redirect_stderr(errors),
        alarmed(),
    ):
        os.environ.pop("BELLYPAN_TRACE", None)
        try:
            code = main([str(word) for word in words])
        except SystemExit as left:
            code = left.code if isinstance(left.code, int) else 2
    return Answered(code, _written(output), _written(errors))


def _written(stream: io.TextIOWrapper) -> str:
    stream.flush()
    return stream.buffer.getvalue().decode("utf-8")  # type: ignore[attr-defined]


def sound(words: Sequence[str | Path], *, home: Path, given: bytes = b"") -> Answered:
    """The same, with all that is asked of an answer asserted."""
    answer = called(words, home=home, given=given)
    said = [str(word)[:100] for word in words]
    assert answer.code in (0, 1, 2), (said, answer)
    for text in (answer.output, answer.errors):
        assert "Traceback" not in text, (said, text)
        assert "fault of this program" not in text, (said, text[:500])
        assert not obeyed(text), (said, obeyed(text)[:5])
    assert answer.code != 2 or answer.errors or "--json" in said, (said, answer)
    helped = "--help" in said or "-h" in said
    if "--json" in said and not helped and answer.output.strip() and said[0] != "read":
        json.loads(answer.output, parse_constant=_no_number)
    return answer


def _no_number(name: str) -> float:
    raise AssertionError(f"{name} is no JSON")

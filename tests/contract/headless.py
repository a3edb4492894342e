"""Calls of the program without a screen: words in, two streams and an exit code out.

Most calls are made in this process, through the same entry; where the streams themselves matter, `spawned`
makes one in a process of its own.
"""

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any, NamedTuple
from unittest import mock

from tui.command_line.main import main

ROOT = Path(__file__).parents[2]
RIGS = ROOT / "rigs"
NOWHERE = ROOT / "no-such-folder"  # where sessions lie unless a test says so: none are found, none are begun


class Done(NamedTuple):
    """What a call left behind."""

    code: int
    output: str
    errors: str

    @property
    def json(self) -> Any:
        """Standard output as JSON, as the standard has it: NaN and Infinity are none."""
        return json.loads(self.output, parse_constant=no_number)


def no_number(name: str) -> float:
    raise AssertionError(f"{name} is no JSON")


def bellypan(*words: str | Path, home: Path = NOWHERE, given: str = "") -> Done:
    """One call in this process, with streams of its own; sessions lie in `home`."""
    output, errors = stream(), stream()
    stdin = stream(given)
    with (
        mock.patch.dict(os.environ, {"BELLYPAN_HOME": str(home), "BELLYPAN_TRACE": "1"}),
        mock.patch.multiple(sys, stdin=stdin, stdout=output, stderr=errors),
        mock.patch("os.isatty", return_value=False),
    ):
        code = main([str(word) for word in words])
    return Done(code, text_of(output), text_of(errors))


def stream(content: str = "") -> io.TextIOWrapper:
    return io.TextIOWrapper(io.BytesIO(content.encode()), encoding="utf-8", newline="\n")


def text_of(written: io.TextIOWrapper) -> str:
    written.flush()
    raw = written.buffer
    assert isinstance(raw, io.BytesIO)
    return raw.getvalue().decode()


def spawned(*words: str | Path, home: Path = NOWHERE, given: str = "", **environment: str) -> Done:
    """One call in an interpreter of its own."""
    done = subprocess.run(
        command(*words),
        input=given.encode(),
        capture_output=True,
        cwd=ROOT,
        env=clean_environment(home) | environment,
        timeout=60,
        check=False,
    )
    assert b"Traceback" not in done.stderr, done.stderr.decode()
    return Done(done.returncode, done.stdout.decode(), done.stderr.decode())


def command(*words: str | Path) -> list[str]:
    """The program as the words of a process."""
    return [sys.executable, "-m", "tui.command_line.main", *map(str, words)]


def clean_environment(home: Path) -> dict[str, str]:
    """An environment that knows nothing of this machine's own sessions."""
    kept = {name: os.environ[name] for name in ("PATH", "SYSTEMROOT", "TMPDIR") if name in os.environ}
    return kept | {
        "BELLYPAN_HOME": str(home),
        "PYTHONPATH": str(ROOT),
        "PYTHONWARNINGS": "error",
        "PYTHONDONTWRITEBYTECODE": "1",
        "LC_ALL": "C.UTF-8",
    }

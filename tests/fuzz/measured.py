"""The program as a child process: its exit code, its processor time, the most memory that it had, its words."""

import os
import subprocess
import tempfile
from pathlib import Path
from typing import NamedTuple

from tests.contract.headless import ROOT, clean_environment, command


class Measured(NamedTuple):
    code: int
    seconds: float  # of the processor
    mebibytes: float  # the most that it had at once
    output: bytes
    errors: bytes


def measured(*words: str | Path, home: Path, given: bytes = b"") -> Measured:
    """One call, measured by the system when it has ended."""
    environment = clean_environment(home)
    del environment["PYTHONDONTWRITEBYTECODE"]  # a program that is installed has its modules compiled
    environment["PYTHONPYCACHEPREFIX"] = str(Path(tempfile.gettempdir()) / "bellypan-compiled")
    with (
        tempfile.TemporaryFile() as output,
        tempfile.TemporaryFile() as errors,
        tempfile.TemporaryFile() as stdin,
    ):
        stdin.write(given)
        stdin.seek(0)
        child = subprocess.Popen(
            command(*words), stdin=stdin, stdout=output, stderr=errors, cwd=ROOT, env=environment
        )
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        output.seek(0)
        errors.seek(0)
        return Measured(
            child.returncode,
            used.ru_utime + used.ru_stime,
            used.ru_maxrss / 1024,
            output.read(),
            errors.read(),
        )

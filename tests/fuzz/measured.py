"""The program as a child process: its exit code, its processor time, the most memory that it had, its words.

A small process stands between: what a child had before it became the program counts as its own, and would be the
memory of all the tests.
"""

import json
import subprocess
import tempfile
from pathlib import Path
from typing import NamedTuple

from tests.contract.headless import ROOT, clean_environment, command

BETWEEN = """
import json, os, subprocess, sys
child = subprocess.Popen(sys.argv[2:])
_, status, used = os.wait4(child.pid, 0)
child.returncode = os.waitstatus_to_exitcode(status)
with open(sys.argv[1], "w") as told:
    json.dump([child.returncode, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024], told)
"""


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
    with tempfile.TemporaryDirectory() as folder:
        told = Path(folder) / "told"
        program = command(*words)
        done = subprocess.run(
            [program[0], "-S", "-c", BETWEEN, str(told), *program],
            input=given,
            capture_output=True,
            cwd=ROOT,
            env=environment,
            check=True,
        )
        code, seconds, mebibytes = json.loads(told.read_text())
    return Measured(code, seconds, mebibytes, done.stdout, done.stderr)

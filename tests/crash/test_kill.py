"""Kill -9 at random moments, the short version; the long one is `python -m tests.crash.long_run`."""

import subprocess
import sys

import pytest

from tests.crash.long_run import ROOT


@pytest.mark.parametrize(("through", "kills"), [("core", 40), ("command", 3)])
def test_what_was_said_to_be_taken_is_there_after_a_kill(through, kills):
    done = subprocess.run(
        [
            sys.executable,
            "-m",
            "tests.crash.long_run",
            "--kills",
            str(kills),
            "--seed",
            "3",
            "--through",
            through,
        ],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=120,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert f"{kills} kills" in done.stdout
    assert ", 0 lost," in done.stdout

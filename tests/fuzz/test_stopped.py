"""Stopped in the middle: Ctrl+C, a terminal that is closed, an end asked for, a reader that goes away.

No traceback, nothing lost that was said to be taken, and the session opens for the next one at once.
"""

import os
import signal
import subprocess
import time

import pytest

from logic.data.rigs_folder import rigs_folder
from logic.data.state import Instant
from logic.session.session import open_session
from tests.contract.headless import ROOT, clean_environment, command
from tests.fuzz.answers import sound
from tests.pty.terminal import Terminal

DEADLINE = 20.0  # s: far beyond what it takes; only a failure waits so long


@pytest.fixture
def home(tmp_path):
    return tmp_path / "home"


@pytest.fixture
def session(home) -> str:
    return sound(["open", rigs_folder() / "two-tanks.toml", "--new"], home=home).output.strip()


def started(*words, home, **more) -> subprocess.Popen:
    return subprocess.Popen(
        command(*words), stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=ROOT,
        env=clean_environment(home), **more,
    )  # fmt: skip


def typed_in(session, home) -> list[str]:
    with open_session(session, Instant(4e9), home=home) as opened:
        assert not opened.read_only
        assert not opened.notices
        return [reading.typed for reading in opened.state.readings]


@pytest.mark.parametrize("sent", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP], ids=lambda sent: sent.name)
def test_reading_from_standard_input_stopped_loses_nothing_that_was_taken(session, home, sent):
    child = started("read", session, "-", home=home)
    child.stdin.write(b"tank.gray.length 38 1/2\ntank.gray.width 21\n")
    child.stdin.flush()
    answers = [child.stdout.readline() for _ in range(2)]
    assert [answer.split()[0] for answer in answers] == [b"taken", b"taken"]
    child.send_signal(sent)
    _, errors = child.communicate(timeout=DEADLINE)
    assert child.returncode == (130 if sent == signal.SIGINT else -sent)
    assert b"Traceback" not in errors
    assert typed_in(session, home) == ["38 1/2", "21"]


COMMANDS = (
    ["check", "RIG"], ["check", "--session", "ID", "--json"], ["status", "ID"], ["step", "ID"], ["punch", "ID"],
    ["profile", "ID"], ["sessions"], ["sources"], ["schema"], ["sheet", "ID", "-o", "OUT.html"], ["copy", "ID", "COPY"],
    ["season", "RIG", "--hourly", "ROWS"],
)  # fmt: skip
WHILE_IT_WORKS = """
import importlib, os, signal, sys
from tui.command_line import main
command = importlib.import_module("tui.command_line." + sys.argv[1])
run = command.run
def stopped(given):
    os.kill(os.getpid(), signal.SIGINT)
    return run(given)
command.run = stopped
main.run()
"""


@pytest.mark.parametrize("words", COMMANDS, ids=lambda words: words[0])
def test_ctrl_c_in_any_command_ends_it_with_130_and_one_word(session, home, tmp_path, words):
    rows = tmp_path / "rows.csv"
    rows.write_text("time,temperature_degC\n2026-01-01T00:00,1\n2026-01-01T01:00,1\n")
    places = {
        "RIG": str(rigs_folder() / "two-tanks.toml"), "ID": session, "OUT.html": str(tmp_path / "out.html"),
        "COPY": str(tmp_path / "copy.json"), "ROWS": str(rows),
    }  # fmt: skip
    program = [command()[0], "-c", WHILE_IT_WORKS, *(places.get(word, word) for word in words)]
    child = subprocess.run(
        program, capture_output=True, cwd=ROOT, env=clean_environment(home), timeout=60, check=False
    )
    assert child.returncode == 130, child.stderr
    assert child.stderr == b"stopped\n"
    assert not (tmp_path / "out.html").exists()
    assert not (tmp_path / "copy.json").exists()
    assert typed_in(session, home) == []


@pytest.mark.parametrize("words", COMMANDS[:9], ids=lambda words: " ".join(words))
def test_a_reader_that_goes_away_is_no_fault_and_nothing_is_said(session, home, words):
    places = {"RIG": str(rigs_folder() / "two-tanks.toml"), "ID": session}
    child = started(*(places.get(word, word) for word in words), home=home)
    child.stdout.close()
    child.stdin.close()
    with child.stderr:
        errors = child.stderr.read()
    child.wait(timeout=DEADLINE)
    assert errors == b""
    assert child.returncode == 2


@pytest.mark.filterwarnings("ignore:.*forkpty.*:DeprecationWarning")
@pytest.mark.parametrize("sent", [signal.SIGHUP, signal.SIGTERM], ids=lambda sent: sent.name)
def test_a_terminal_closed_while_typing_loses_nothing_that_was_taken(session, home, sent):
    with Terminal("open", session, home=home) as terminal:
        terminal.shows("DO NOT CLOSE", "owed")
        terminal.send("38 5/8\r")
        terminal.until(lambda text: " single " in text, "a reading taken")
        terminal.send("21 1")
        terminal.shows("21 1")
        os.kill(terminal.child.pid, sent)
        end = time.monotonic() + DEADLINE
        while terminal.gather() and time.monotonic() < end:
            pass
        terminal.child.wait()
        assert "Traceback" not in terminal.raw
    assert typed_in(session, home) == ["38 5/8"]

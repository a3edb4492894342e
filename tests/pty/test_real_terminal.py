"""The program in a real terminal: started, typed into, resized, left, killed, and opened again."""

import pytest

from logic.data.state import Instant
from logic.session.session import open_session
from tests.contract.headless import RIGS, bellypan
from tests.pty.terminal import CTRL_Q, Terminal

pytestmark = pytest.mark.filterwarnings("ignore:.*forkpty.*:DeprecationWarning")

PANES = ("Rig", "Figures", "Steps", "Punch list")
VERDICT = "DO NOT CLOSE"


@pytest.fixture
def home(tmp_path):
    return tmp_path / "home"


@pytest.fixture
def session(home):
    """A session of the small demo rig, seen once, so that no first greeting stands over the panes."""
    done = bellypan("open", RIGS / "two-tanks.toml", "--new", home=home)
    assert done.code == 0, done.errors
    return done.output.strip()


def opened(session, home, **more) -> Terminal:
    """The session on the screen, with the reading line ready."""
    terminal = Terminal("open", session, home=home, **more)
    terminal.shows(VERDICT, "owed")
    return terminal


def readings(session, home) -> dict[str, str]:
    """The readings that are on disk, as typed; the newest of each slot."""
    with open_session(session, Instant(0.0), home=home, read_only=True) as opened:
        return {reading.slot: reading.typed for reading in opened.state.readings}


def taken(terminal, count: int) -> None:
    """Wait until the screen shows so many readings taken."""
    terminal.until(lambda text: text.count(" single ") >= count, f"{count} readings taken")


def test_a_profile_opens_with_its_four_panes_and_the_verdict(home):
    with Terminal("open", RIGS / "two-tanks.toml", home=home) as terminal:
        terminal.shows(*PANES, VERDICT)
        terminal.send(CTRL_Q)
        assert terminal.left() == 0
    [listed] = bellypan("sessions", "--json", home=home).json["sessions"]
    assert listed["rig"] == "Two tanks in the open"


def test_a_reading_typed_stands_on_the_screen_and_on_disk(session, home):
    with opened(session, home) as terminal:
        terminal.send("38 5/8\r")
        terminal.shows("38 5/8")
        taken(terminal, 1)
        terminal.send(CTRL_Q)
        assert terminal.left() == 0
    assert readings(session, home) == {"tank.gray.length": "38 5/8"}


def test_typing_goes_on_through_a_change_of_size(session, home):
    with opened(session, home) as terminal:
        terminal.send("38 7")
        terminal.shows("38 7")
        for rows, columns in ((24, 80), (40, 140), (30, 100)):
            terminal.resize(rows=rows, columns=columns)
            terminal.shows("38 7", VERDICT)
        terminal.send("/8\r")
        taken(terminal, 1)
    assert readings(session, home) == {"tank.gray.length": "38 7/8"}


@pytest.mark.parametrize(("rows", "columns"), [(24, 80), (30, 100), (50, 160)])
def test_leaving_gives_the_terminal_back(session, home, rows, columns):
    with opened(session, home, rows=rows, columns=columns) as terminal:
        terminal.send("38")
        terminal.send(CTRL_Q)
        assert terminal.left() == 0
        assert not terminal.mode_is_on("?1049"), "the alternate screen is still on"
        assert terminal.mode_is_on("?25"), "the cursor is still hidden"
        for mode in ("?1000", "?1002", "?1003", "?1006", "?2004"):
            assert not terminal.mode_is_on(mode), f"mode {mode} is still on"
        assert terminal.modes_now() == terminal.modes_before
        assert "Traceback" not in terminal.raw


def test_killed_while_typing_every_acknowledged_reading_is_there(session, home):
    with opened(session, home) as terminal:
        for number, value in enumerate(("38 1/2", "21", "8 3/4"), start=1):
            terminal.send(f"{value}\r")
            taken(terminal, number)
        terminal.send("3/16")
        terminal.shows("3/16")
        terminal.kill()
    acknowledged = {"tank.gray.length": "38 1/2", "tank.gray.width": "21", "tank.gray.height": "8 3/4"}
    assert readings(session, home) == acknowledged
    with opened(session, home) as again:
        again.shows("You are back")  # the desk below it may be covered before it was looked at
        again.send("1/4")
        again.shows("1/4")
        again.send("\r")
        taken(again, 4)
        again.send(CTRL_Q)
        assert again.left() == 0
    found = readings(session, home)
    assert found == acknowledged | dict.fromkeys(found.keys() - acknowledged.keys(), "1/4")
    assert len(found) == 4


def test_bellypan_alone_opens_the_session_last_worked_on(session, home):
    with Terminal(home=home) as terminal:
        terminal.shows(VERDICT, "Two tanks in the open")
        terminal.send(CTRL_Q)
        assert terminal.left() == 0


def test_while_the_screen_holds_a_session_scripts_are_refused_and_a_second_screen_only_looks(session, home):
    with opened(session, home) as first:
        refused = bellypan("read", session, "tank.gray.length", "38", home=home)
        assert refused.code == 1
        assert "held by" in refused.output
        with Terminal("open", session, home=home) as second:
            second.shows("held by")
            second.send(CTRL_Q)
            assert second.left() == 0
        first.send(CTRL_Q)
        assert first.left() == 0
    assert bellypan("read", session, "tank.gray.length", "38", home=home).code == 0


def test_a_wrong_profile_is_said_before_any_screen(tmp_path, home):
    wrong = tmp_path / "wrong.toml"
    wrong.write_text("format = 1\n[rig]\n")
    with Terminal("open", wrong, home=home) as terminal:
        assert terminal.left() == 2
        assert "?1049h" not in terminal.raw
        assert "wrong.toml" in terminal.raw


def test_tables_fold_to_the_width_of_the_terminal(home):
    with Terminal("check", RIGS / "two-tanks.toml", home=home, columns=60, rows=400) as terminal:
        terminal.left()
        lines = [line.rstrip() for line in terminal.screen.display if line.strip()]
        assert lines
        assert "\x1b" not in terminal.raw
        assert terminal.raw.count("\r\n") == len(terminal.raw.splitlines())
        assert max(len(line) for line in terminal.raw.splitlines()) <= 60


def test_ctrl_c_ends_a_command_in_words(session, home):
    with Terminal("read", session, "-", home=home) as terminal:
        terminal.send("tank.gray.length 38 1/2\r")
        terminal.shows("taken tank.gray.length 38 1/2")
        terminal.send("\x03")
        assert terminal.left() == 130
        assert "Traceback" not in terminal.raw
    assert readings(session, home) == {"tank.gray.length": "38 1/2"}


def test_no_terminal_for_the_screen_is_one_line(home):
    done = bellypan("open", RIGS / "two-tanks.toml", home=home)
    assert done.code == 2
    assert done.errors.count("\n") == 1

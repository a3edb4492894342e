"""What the disk, the folder, the clock and another program do to a session on a real terminal, and what is said."""

import shutil
import signal

import pytest

from logic.data.state import Instant
from logic.session.session import open_session
from tests.contract.headless import bellypan
from tests.crash.screen_session import at_the_screen, begun_session, come_in
from tests.pty.terminal import CTRL_Q, Terminal

pytestmark = pytest.mark.filterwarnings("ignore:.*forkpty.*:DeprecationWarning")

F4, CTRL_S = "\x1bOS", "\x13"
SIZES = [(30, 100), (24, 80)]
DAY = 86400.0


@pytest.fixture
def home(tmp_path):
    return tmp_path / "home"


@pytest.fixture
def session(home):
    return begun_session(home)


def typed_in(session, home, path=None) -> list[str]:
    """The readings on the disk, or in a file, as typed."""
    with open_session(str(path or session), Instant(0.0), home=home, read_only=True) as opened:
        return [reading.typed for reading in opened.state.readings]


@pytest.mark.parametrize(("rows", "columns"), SIZES)
@pytest.mark.parametrize(
    ("fault", "said"),
    [
        ("ENOSPC", "no space left on device"),
        ("EROFS", "read-only file system"),
        ("EACCES", "permission denied"),
        ("EIO", "input/output error"),
    ],
)
def test_what_can_not_be_saved_is_said_copied_elsewhere_and_saved_in_the_end(
    session, home, tmp_path, fault, said, rows, columns
):
    mended, copy = tmp_path / "mended", tmp_path / "copy.json"
    bellypan("read", session, "tank.gray.length", "38", home=home)
    with at_the_screen(
        session, home, fault=fault, failing=3, lasting=1, mended=mended, rows=rows, columns=columns
    ) as terminal:
        come_in(terminal)
        terminal.send("gray tank width 21\r")
        terminal.shows("NOT SAVED: 1", "F4 copies elsewhere", f"NOT SAVED: gray tank, width 21 in: {said}")
        assert typed_in(session, home) == ["38"]
        terminal.send(F4)
        terminal.shows("1 copy the session")
        terminal.send("\r")
        terminal.shows("a new file on another disk")
        terminal.send(f"{copy}\r")
        terminal.shows("copied to", "1 of them not saved here yet")
        assert typed_in(session, home, copy) == ["38", "21"]
        terminal.send(CTRL_Q)
        terminal.shows("1 record is not saved", "leave, and lose")
        terminal.send("\x1b")
        terminal.until(lambda text: "leave, and lose" not in text, "the desk")
        mended.touch()
        terminal.shows("saved now: the record that waited is on the disk")
        assert "NOT SAVED" not in terminal.text
        assert typed_in(session, home) == ["38", "21"]
        terminal.send(CTRL_Q)
        assert terminal.left() == 0
    assert typed_in(session, home) == ["38", "21"]


def test_folder_that_can_not_be_written_to_is_said_at_once_and_nothing_is_taken(session, home):
    with at_the_screen(session, home, read_only=1) as terminal:
        terminal.shows("only looked at: its folder can't be written to (permission denied)")
        terminal.send("38\r")
        terminal.until(lambda text: text.count("its folder can't be written to") == 2, "the refusal")
        terminal.send(CTRL_Q)
        assert terminal.left() == 0
    assert typed_in(session, home) == []


def test_home_that_can_not_be_written_to_is_said_before_any_screen(tmp_path):
    home = tmp_path / "home"
    home.write_text("a file where the folder should be")
    with Terminal("open", "rigs/two-tanks.toml", home=home) as terminal:
        assert terminal.left() == 2
        assert "?1049h" not in terminal.raw
        assert "a session can't be begun in" in terminal.raw


def test_home_that_can_not_be_written_to_is_said_in_the_list_of_rigs(tmp_path):
    home = tmp_path / "home"
    home.write_text("a file where the folder should be")
    with Terminal(home=home) as terminal:
        terminal.shows("Which rig?", "demo rig two tanks")
        terminal.send("two tanks")
        terminal.until(lambda text: "a new rig" not in text, "the list narrowed")
        terminal.send("\r")
        terminal.shows("a session can't be begun in", "Which rig?")
        terminal.send("\x1b")
        assert terminal.left() == 0


def test_folder_that_vanishes_loses_nothing_and_comes_back_with_everything_in_it(session, home):
    with at_the_screen(session, home) as terminal:
        come_in(terminal)
        terminal.send("gray tank length 38\r")
        terminal.shows("taken", "length 38 in")
        shutil.rmtree(home / session)
        terminal.send("gray tank width 21\r")
        terminal.until(
            lambda text: "width 21 in" in text or "saved now" in text, "the reading taken or saved"
        )
        assert typed_in(session, home) == ["38", "21"]
        terminal.send(CTRL_Q)
        assert terminal.left() == 0
    assert typed_in(session, home) == ["38", "21"]


def test_clock_that_is_a_day_behind_is_said_at_once_and_the_order_stays(session, home):
    bellypan("read", session, "tank.gray.length", "38", home=home)
    with at_the_screen(session, home, behind=DAY) as terminal:
        terminal.shows("went back; records stay in the order", "by the clock as it went then")
        terminal.send(" ")
        terminal.until(lambda text: "any key" not in text, "the desk")
        terminal.send("gray tank width 21\r")
        terminal.shows("taken", "width 21 in")
        terminal.send(CTRL_Q)
        assert terminal.left() == 0
    assert typed_in(session, home) == ["38", "21"]


@pytest.mark.parametrize("killed", [False, True])
def test_second_screen_names_the_holder_follows_it_and_takes_over_when_it_has_gone(session, home, killed):
    with at_the_screen(session, home) as first:
        come_in(first)
        with at_the_screen(session, home, rows=24, columns=80) as second:
            second.shows("only looked at: held by", "since")
            first.send("gray tank length 38\r")
            first.shows("length 38 in")
            second.until(lambda text: "single" in text, "what the first one took")
            second.send("gray tank width 21\r")
            second.until(lambda text: text.count("held by") == 2, "the refusal")
            assert typed_in(session, home) == ["38"]
            for words in (
                ("read", session, "tank.gray.width", "22"),
                ("step", session, "chocks:rig", "start"),
                ("punch", session, "add", "a strap"),
            ):
                refused = bellypan(*words, home=home)
                assert refused.code == 1
                assert "held by" in refused.output
            if killed:
                first.child.kill(signal.SIGKILL)
            else:
                first.send(CTRL_Q)
            first.left()
            second.shows(
                "has gone: F4 takes over" if killed else "the program that held it has gone: F4 takes over"
            )
            second.send(F4)
            second.shows("1 take the session over")
            second.send("\r")
            second.shows("taken over: what is typed here is recorded now")
            second.send("\r")
            second.shows("taken", "width 21 in")
            second.send(CTRL_Q)
            assert second.left() == 0
    assert typed_in(session, home) == ["38", "21"]

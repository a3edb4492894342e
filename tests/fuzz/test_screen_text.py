"""The same texts on the screen: in a real terminal not one sequence of theirs is sent, and nothing is shifted."""

import pytest

from logic.data.clean_text import clean_text
from logic.data.state import Instant
from logic.session.intents import WriteItem
from tests.fuzz.answers import sound
from tests.fuzz.hostile import FORMULAS, INVISIBLE, MARKUP, TERMINAL, WIDE, obeyed
from tests.fuzz.test_every_output import profile_with
from tests.pty.terminal import CTRL_Q, Terminal
from tests.screens.driver import SMALL, driven
from tests.screens.fake import WEDNESDAY, FakeSession
from tui.show.cells import width_of

TEXTS = (*MARKUP, *FORMULAS, *TERMINAL, *INVISIBLE, *WIDE, "x" * 500)
SENT = (
    "\x1b]52;",
    "\x1b]0;title",
    "\x1b]8;;http://example.com",
    "\x1b_payload",
    "\x1bP+q",
    "\x9b",
    "\x9d",
    "\u202e",
)


async def test_each_text_is_shown_as_text_and_shifts_nothing():
    session = FakeSession()
    for text in TEXTS:
        session.act(WriteItem(clean_text(text), "note"), Instant(WEDNESDAY))
    async with driven(SMALL, session=session) as driver:
        await driver.press("f8")
        await driver.until(lambda: driver.app.focused.id == "punch")
        pane = driver.app.desk.pane("punch")
        for item in session.state.items:
            pane.choose(f"entry:{item.id}")
            first = item.text.split()[0][:16] if item.text.split() else ""
            await driver.until(
                lambda first=first: first in "".join(driver.text.split()) or first in driver.text
            )
            assert not obeyed(driver.text)
            framed = [line for line in driver.lines if line.startswith(("│", "┃"))]
            assert framed
            assert all(width_of(line) == SMALL[0] for line in framed)


@pytest.mark.filterwarnings("ignore:.*forkpty.*:DeprecationWarning")
def test_no_sequence_of_theirs_is_sent_to_a_real_terminal(tmp_path):
    home = tmp_path / "home"
    hostile = "\x1b]52;c;cm0=\x07\x1b]0;title\x07\x9b31m\u202eN"
    rig = profile_with(hostile, tmp_path / "rig.toml")
    session = sound(["open", rig, "--new"], home=home).output.strip()
    for text in (*TERMINAL, *INVISIBLE[:5]):
        sound(["punch", session, "add", text.replace("\0", ""), "--weight", "stop"], home=home)
    with Terminal("open", session, home=home) as terminal:
        terminal.shows(clean_text(hostile)[:12], "DO NOT CLOSE")
        # BEL is Ctrl+G here: it opens the wiring, and what was typed before it waits in the line.
        terminal.send("\x1b]52;c;cm0= nonsense\x07")
        terminal.shows("wiring, every heater on")
        terminal.send("\x1b")
        terminal.shows("nonsense")
        terminal.send("\x1b")
        terminal.send(CTRL_Q)
        terminal.left()
        assert not [each for each in SENT if each in terminal.raw]

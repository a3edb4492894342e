"""`bellypan open`, and `bellypan` alone: which session is meant, and then the screen.

The only module of the command line that ever loads the screen, and only once it is sure to be shown.
"""

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from logic.session.home import any_session
from tui import garbage
from tui.command_line.arguments import Given
from tui.command_line.exit_codes import DONE, IN_ERROR, CommandFault, fault

if TYPE_CHECKING:
    from logic.session.session import Session

PROFILE_ENDING = ".toml"


def run(given: Given) -> int:
    word = given.operands[0] if given.operands else None
    if given.has("--new"):
        return begin(word)
    if not on_a_terminal():
        raise no_terminal()
    if word is None:
        return shown(last_session if any_session() else None)
    if is_profile(word):
        return shown(session_of(word))  # a fault in the profile is said before any screen
    return shown(lambda: opened(word))


def begin(word: str | None) -> int:
    """A new session of a profile: on the screen, or its id alone where there is no terminal."""
    if word is None:
        raise fault("--new stands without a profile", expected="PROFILE.toml --new")
    session = begun(word)
    if on_a_terminal():
        return shown(session)
    from tui.command_line.printing import say

    session.close()
    say(session.id)
    return DONE


# What opens a session is loaded when it is called: after the first frame, where there is a screen.


def begun(path: str) -> "Session":
    """A new session of the profile in a file."""
    from logic.session.session import SessionFault, new_session
    from tui.command_line.clock import now
    from tui.command_line.profiles import loaded
    from tui.command_line.sessions_held import session_fault

    try:
        return new_session(loaded(path), now())
    except SessionFault as wrong:
        raise session_fault(wrong) from None


def opened(word: str) -> "Session":
    """The session that a word names; what its store has to say about it, the screen says."""
    from logic.session.session import SessionFault, open_session
    from tui.command_line.clock import now
    from tui.command_line.sessions_held import session_fault

    garbage.tidy()
    try:
        return open_session(word, now())
    except SessionFault as wrong:
        raise session_fault(wrong) from None


def last_session() -> "Session | None":
    """The session last worked on; None where none of the folders is one."""
    from logic.session.session import find_sessions

    found = find_sessions()
    return opened(found[0].id) if found else None


def session_of(path: str) -> "Session":
    """The newest session of a profile's rig, or a new one where there is none."""
    from logic.session.session import find_sessions
    from tui.command_line.profiles import loaded

    rig = loaded(path).profile.rig.name
    same = [one for one in find_sessions() if one.rig == rig]
    return opened(same[0].id) if same else begun(path)


def is_profile(word: str) -> bool:
    """Whether a word names a profile's file rather than a session."""
    return word.endswith(PROFILE_ENDING) or (Path(word).is_file() and not word.endswith(".json"))


def shown(session: "Session | Callable[[], Session | None] | None") -> int:
    """The screen, until it is left. Without a session it asks which rig to start with."""
    garbage.hold_off()
    from tui.app import run_screen

    garbage.keep()
    answer = run_screen(session)
    return IN_ERROR if isinstance(answer, int) and answer else DONE


def on_a_terminal() -> bool:
    """Whether a screen can be drawn and keys can be read."""
    try:
        return os.isatty(0) and sys.stdout is not None and sys.stdout.isatty()
    except ValueError:
        return False


def no_terminal() -> CommandFault:
    return fault(
        "there is no terminal here to show the screen on",
        expected="a terminal, or a command that needs none: bellypan --help names them",
    )

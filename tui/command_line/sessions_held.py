"""A session for the length of one command: watched, or held so that events can be added.

What the store has to say about it (a file set aside, a journal missing) goes to standard error.
"""

from collections.abc import Iterator
from contextlib import contextmanager

from logic.data.quantities import fill
from logic.session.session import Session, SessionFault, open_session
from tui.command_line.clock import now
from tui.command_line.exit_codes import CommandFault, fault
from tui.command_line.printing import complain


@contextmanager
def watched(word: str) -> Iterator[Session]:
    """The session that `word` names, to look at only: whoever holds it goes on undisturbed."""
    with opened(word, read_only=True) as session:
        yield session


@contextmanager
def held(word: str) -> Iterator[Session]:
    """The session that `word` names, held; where another program holds it, `read_only` is true."""
    with opened(word, read_only=False) as session:
        yield session


def opened(word: str, *, read_only: bool = False) -> Session:
    """The session that `word` names. Raises CommandFault: none, several, or one that can't be opened."""
    try:
        session = open_session(word, now(), read_only=read_only)
    except SessionFault as wrong:
        raise session_fault(wrong) from None
    for notice in session.notices:
        complain(fill(notice, session.profile.rig.units))
    return session


def session_fault(wrong: SessionFault) -> CommandFault:
    """Why a session can't be opened, as a command's fault."""
    return fault(in_words(wrong), expected="a session: bellypan sessions lists them")


def in_words(wrong: SessionFault) -> str:
    return fill(wrong.words, "us")


def is_held(wrong: SessionFault) -> bool:
    """Whether nothing else stands in the way than another program that holds the session."""
    return wrong.words.template.startswith("held by")


def why_read_only(session: Session) -> str:
    """Why nothing can be recorded now: who holds it, or what else stands in the way."""
    return fill(session.because, "us") if session.because is not None else ""

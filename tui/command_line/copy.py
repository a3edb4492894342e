"""`bellypan copy`: a whole session in one new file, to carry away."""

from pathlib import Path

from logic.session.copy import copy_session
from logic.session.session import SessionFault
from tui.command_line.arguments import Given
from tui.command_line.exit_codes import DONE, fault
from tui.command_line.printing import say
from tui.command_line.sessions_held import in_words, watched


def run(given: Given) -> int:
    if len(given.operands) != 2:
        raise fault("copy lacks words", expected="SESSION FILE")
    word, path = given.operands
    with watched(word) as session:
        try:
            copy_session(session, Path(path))
        except SessionFault as wrong:
            raise fault(in_words(wrong), expected="the name of a new file") from None
        say(f"copied {session.id} to {path}, {len(session.events)} events")
    return DONE

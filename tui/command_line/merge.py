"""`bellypan merge`: a copy of a session taken in."""

from pathlib import Path

from logic.data.quantities import fill
from logic.session.copy import take_in_copy
from logic.session.session import SessionFault
from tui.command_line.arguments import Given
from tui.command_line.clock import now
from tui.command_line.exit_codes import DONE, fault
from tui.command_line.printing import complain, say
from tui.command_line.recording import refused
from tui.command_line.sessions_held import in_words, is_held


def run(given: Given) -> int:
    if not given.operands:
        raise fault("merge lacks a file", expected="FILE [SESSION]")
    path, *wanted = given.operands
    try:
        taken = take_in_copy(Path(path), now(), wanted=wanted[0] if wanted else None)
    except SessionFault as wrong:
        if is_held(wrong):
            return refused(in_words(wrong), as_json=False)
        raise fault(in_words(wrong), expected="the copy of a session") from None
    for notice in taken.notices:
        complain(fill(notice, "us"))
    said = "added" if taken.added else "taken in"
    say(f"{said} {taken.id}, {taken.new} new event{'' if taken.new == 1 else 's'}")
    return DONE

"""`bellypan profile`: a session's profile as it stands now, in a file that people like to read."""

from pathlib import Path

from logic.data.faults import ProfileFaults
from logic.session.as_built_file import as_built_of, as_built_text, write_as_built
from tui.command_line.arguments import Given
from tui.command_line.clock import now
from tui.command_line.exit_codes import DONE, CommandFault, fault
from tui.command_line.printing import complain, say_text
from tui.command_line.sessions_held import watched


def run(given: Given) -> int:
    if not given.operands:
        raise fault("profile lacks a session", expected="SESSION -o FILE.toml")
    out = given.option("--out")
    with watched(given.operands[0]) as session:
        try:
            built = as_built_of(session, now())
        except ProfileFaults as wrong:
            raise CommandFault(*wrong.faults) from None
        if out is None:
            say_text(as_built_text(session, built))
        else:
            try:
                write_as_built(session, built, Path(out))
            except FileExistsError:
                raise fault("a file is there already", file=out, expected="the name of a new file") from None
    if built.left_planned:
        complain(f"left as planned, not yet agreed: {', '.join(built.left_planned)}")
    if built.unfit:
        complain(f"left as planned, no profile has it so beside the rest: {', '.join(built.unfit)}")
    return DONE

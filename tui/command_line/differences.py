"""In what a session's profile differs from a profile's file, told on standard error."""

from logic.data.profile_difference import differences
from logic.session.session import Session
from tui.command_line.printing import complain
from tui.command_line.profiles import loaded


def complain_of_differences(session: Session, path: str) -> None:
    """One line for each difference. Raises CommandFault where the file is no profile."""
    theirs = loaded(path)
    found = differences(
        session.profile,
        theirs.profile,
        my_document=session.document,
        their_document=theirs.document,
    )
    for one in found:
        complain(f"{one.path}: {one.mine} in the session, {one.theirs} in {path}")

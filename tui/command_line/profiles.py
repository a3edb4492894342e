"""A profile file for a command: read, or every fault of it at once."""

from logic.data.faults import ProfileFaults
from logic.data.profile_file import LoadedProfile, load_profile
from tui.command_line.exit_codes import CommandFault


def loaded(path: str) -> LoadedProfile:
    """The profile in a file. Raises CommandFault with all faults of the file."""
    try:
        return load_profile(path)
    except ProfileFaults as wrong:
        raise CommandFault(*wrong.faults) from None

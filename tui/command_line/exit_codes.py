"""What a command hands back to its caller, and the one exception by which it gives up.

0 done, and nothing stops closing · 1 refused, or something stops closing · 2 the call or a file is in error.
A command stopped by Ctrl+C ends with 130, as shells expect, so that a loop around it stops as well.
"""

from typing import TYPE_CHECKING, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from logic.data.faults import ProfileFault

DONE = 0
REFUSED = 1
IN_ERROR = 2
STOPPED = 130


class Fault(NamedTuple):
    """One thing that is wrong: what was found, what is expected, and in which file and key, if any."""

    found: str
    expected: str = ""
    file: str = ""
    path: str = ""

    def line(self) -> str:
        """The fault as one line of plain text."""
        place = ": ".join(part for part in (self.file, self.path) if part)
        said = f"{place}: {self.found}" if place else self.found
        return f"{said}; expected {self.expected}" if self.expected else said


AnyFault: TypeAlias = "Fault | ProfileFault"  # a profile's have the same fields, and a `line` of their own


class CommandFault(Exception):
    """The command can't be carried out; its faults are shown, one a line, and the exit code is 2."""

    def __init__(self, *faults: AnyFault) -> None:
        super().__init__("; ".join(fault.line() for fault in faults))
        self.faults = faults


def fault(found: str, *, expected: str = "", file: str = "") -> CommandFault:
    """A CommandFault with one fault, ready to be raised."""
    return CommandFault(Fault(found, expected, file))

"""What is wrong with a profile, in the words of the person's file, and the collector of all of it.

A fault names the file, the key's path, what was found and what is expected. It is theirs, never ours:
a fault of the program's own is another type of error and is never shown as one of these.
"""

import difflib
import math
from collections.abc import Iterable
from typing import Any

import msgspec

from logic.data.clean_text import clean_text, short_text

# A file with more faults than this is no profile; the rest is counted.
MOST_FAULTS = 1000
# Beyond so many unknown keys no near one is looked for: it would cost seconds.
MOST_SUGGESTIONS = 100
_LARGEST_SHOWN = 10**15


class ProfileFault(msgspec.Struct, frozen=True):
    """One thing wrong with a profile; `path` is empty where no key is at fault."""

    file: str
    path: str
    found: str
    expected: str

    def line(self) -> str:
        """The fault as one line of plain text."""
        where = ": ".join(part for part in (self.file, self.path) if part)
        said = f"found {self.found}; expected {self.expected}"
        return f"{where}: {said}" if where else said


class ProfileFaults(ValueError):
    """Everything wrong with one profile."""

    def __init__(self, faults: Iterable[ProfileFault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(fault.line() for fault in self.faults))


class FaultList:
    """Collects the faults of one file."""

    def __init__(self, file: str) -> None:
        self.file = short_text(file, limit=300)
        self.faults: list[ProfileFault] = []
        self.left_out = 0
        self._suggestions = 0

    def add(self, path: str, *, found: str, expected: str) -> None:
        """A fault at `path`, told once: the same path with the same expectation isn't repeated."""
        fault = ProfileFault(self.file, path, found, clean_text(expected))  # ids of the file stand in it
        if fault in self.faults[-20:]:
            return
        if len(self.faults) >= MOST_FAULTS:
            self.left_out += 1
            return
        self.faults.append(fault)

    def near(self, word: str, known: Iterable[str]) -> str:
        """`, the nearest is length` where a known word is near; else nothing."""
        self._suggestions += 1
        if self._suggestions > MOST_SUGGESTIONS:
            return ""
        nearest = nearest_word(word, known)
        return f"; the nearest is {nearest}" if nearest else ""

    def raise_if_any(self) -> None:
        """Raises ProfileFaults with all that was collected."""
        if not self.faults:
            return
        faults = list(self.faults)
        if self.left_out:
            faults.append(ProfileFault(self.file, "", f"{self.left_out} faults more", "a rig profile"))
        raise ProfileFaults(faults)


def nearest_word(word: str, known: Iterable[str]) -> str:
    """The known word nearest to `word`, or nothing where none is near."""
    if len(word) > 40:
        return ""
    candidates = sorted(set(known))
    lowered = word.lower().replace("_", "-")
    by_look = {name.lower().replace("_", "-"): name for name in candidates}
    close = difflib.get_close_matches(lowered, by_look, n=1, cutoff=0.6)
    return by_look[close[0]] if close else ""


def shown(value: Any) -> str:
    """A value of a file as an error message shows it: short, clean, on one line."""
    if isinstance(value, str):
        return f'"{short_text(value)}"'
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value) if abs(value) < _LARGEST_SHOWN else "a very large number"
    if isinstance(value, float):
        return repr(value) if math.isfinite(value) else f"{value}, no finite number"
    if isinstance(value, list):
        return "an empty list" if not value else f"a list of {len(value)}"
    if isinstance(value, dict):
        return "a table"
    if value is None:
        return "nothing"
    return short_text(str(value))

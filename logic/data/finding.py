"""The shape of a finding of the punch list, and of the verdict on closing."""

import msgspec

from logic.data.wording import Words

STOP, USE, NOTE = "stop", "use", "note"
WEIGHTS = (STOP, USE, NOTE)


class Acceptance(msgspec.Struct, frozen=True):
    reason: str
    name: str
    at: float = 0.0  # epoch seconds


class Finding(msgspec.Struct, frozen=True):
    """Something found by a rule, with its numbers and what would mend it."""

    id: str  # rule:place
    rule: str
    weight: str  # stop | use | note
    place: str
    text: Words
    remedy: Words
    open: bool = False  # mending it needs the belly open
    source: str = ""
    acceptable: bool = True  # False: a person can't accept it away
    accepted: Acceptance | None = None


class Verdict(msgspec.Struct, frozen=True):
    """Computed from what stands, never typed."""

    closable: bool
    stop: int
    use: int
    note: int
    needs_open: int = 0  # of weight use, to be mended or accepted before the last walk

"""The shape of a step as the work stands now; templates are declared in logic/assessment/steps."""

import msgspec

from logic.data.wording import Words

WAITING, READY, RUNNING, HELD, DONE, SKIPPED = "waiting", "ready", "running", "held", "done", "skipped"


class Block(msgspec.Struct, frozen=True):
    """One thing that must be true first, and is not."""

    id: str  # surface | dew | dwell | step:… | reading:… | lapsed | level | fuse-last | dead …
    text: Words
    release: Words  # what would release it
    overrulable: bool = False
    due: float | None = None  # epoch seconds, where time alone releases it


class Step(msgspec.Struct, frozen=True):
    id: str  # template:place
    template: str
    place: str
    group: str
    title: str
    state: str
    minutes: float  # planned now, learned within the session
    under: bool  # under the vehicle, or beside it
    caution: str = ""
    blocks: tuple[Block, ...] = ()
    held_note: str = ""
    lapsed: bool = False
    started: float | None = None  # epoch seconds
    ended: float | None = None
    due: float | None = None  # a timer's end, epoch seconds
    counted: float = 0.0  # seconds of a dwell that count so far
    spent: float = 0.0  # minutes
    record: tuple[str, ...] = ()  # what it wants recorded
    live: bool = False  # works on an energised circuit
    meanwhile: bool = False  # can go on while adhesive cures
    source: str = ""

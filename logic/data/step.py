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
    after: tuple[str, ...] = ()  # ids of the steps that come first
    finishing: tuple[Block, ...] = ()  # what must be true before it may be called done, and is not
    skippable: bool = True
    repeats: int = 0  # how often it was done
    wants: tuple[str, ...] = ()  # slots that are read for it or in it
    recorded: tuple[tuple[str, str], ...] = ()  # what was written down in it, the newest of each
    overruled: tuple[str, ...] = ()  # gates that a person overruled
    clock: Words | None = None  # a word about a clock that was changed while its timer ran


class DayPlan(msgspec.Struct, frozen=True):
    """What is left of the work, and what of it fits into today."""

    minutes_left: float | None  # until today's stop; None: no stop was given
    under_left: float  # minutes planned under the vehicle, and beside it
    beside_left: float
    spent: float  # minutes, today
    fits: tuple[str, ...]  # steps that fit into what is left of today, in order
    tomorrow: tuple[str, ...]  # what then comes first, make safe before all
    offered: tuple[str, ...]  # what may start now, best first
    live: tuple[str, ...]  # what is energised
    moment: str  # which figures stand first
    pace: Words = Words("")  # for whom, and in what, minutes are planned

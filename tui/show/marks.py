"""The marks of the screen, each beside the word that it stands for, and their forms in plain ASCII.

A mark never stands alone: the word says the same. Which table is used is decided once, from the terminal.
"""

from typing import NamedTuple


class Marks(NamedTuple):
    """One set of marks. Each is as wide in both sets, so that nothing shifts between them."""

    open: str  # a place whose slots are shown
    shut: str  # a place whose slots are folded away
    cursor: str  # the row that keys act on
    planned: str
    single: str
    agreed: str
    dispute: str
    impossible: str
    holds: str
    fails: str
    done: str
    now: str  # a step at work
    ready: str
    held: str
    waiting: str
    skipped: str
    lapsed: str
    timer: str
    stop: str
    use: str
    note: str
    accepted: str
    live: str
    bar: str  # before what is typed
    then: str  # between things of one line
    pair: str  # between the edges of a band
    moved: str  # beside a figure that the last event moved


SIGNS = Marks(
    open="▾", shut="▸", cursor="›", planned="··", single="•·", agreed="••", dispute="•≠", impossible="!!",
    holds="✓", fails="✗", done="✓", now="▶", ready="○", held="▪", waiting="·", skipped="↷", lapsed="!",
    timer="◷", stop="■", use="□", note="·", accepted="✓", live="↯", bar="▏", then="·", pair="…", moved="←",
)  # fmt: skip

LETTERS = Marks(
    open="v", shut=">", cursor=">", planned="..", single="*.", agreed="**", dispute="*#", impossible="!!",
    holds="+", fails="x", done="+", now=">", ready="o", held="#", waiting=".", skipped="~", lapsed="!",
    timer="@", stop="#", use="=", note=".", accepted="+", live="!", bar="|", then="-", pair="~", moved="<",
)  # fmt: skip

SLOT_MARKS = {
    "planned": "planned",
    "not read": "planned",
    "single": "single",
    "agreed": "agreed",
    "read": "agreed",
    "in dispute": "dispute",
    "impossible": "impossible",
}

STEP_WORDS = {
    "waiting": "waiting",
    "ready": "may start",
    "running": "now",
    "held": "held",
    "done": "done",
    "skipped": "skipped",
}


def marks_for(encoding: str | None, *, terminal: str = "") -> Marks:
    """The marks that a terminal can show: its encoding has all of them, and its font is no console's of 512 signs."""
    if terminal in ("linux", "dumb"):
        return LETTERS
    try:
        "".join(SIGNS).encode(encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return LETTERS
    return SIGNS


def slot_mark(marks: Marks, state: str) -> str:
    """The mark of a slot's state."""
    return str(getattr(marks, SLOT_MARKS.get(state, "planned")))


def step_mark(marks: Marks, state: str, *, lapsed: bool = False, timed: bool = False) -> str:
    """The mark of a step: lapsed goes before all, a timer before running."""
    if lapsed:
        return marks.lapsed
    if timed:
        return marks.timer
    return str(getattr(marks, {"running": "now"}.get(state, state)))


def weight_mark(marks: Marks, weight: str) -> str:
    """The mark of a finding's or an item's weight."""
    return str(getattr(marks, weight if weight in ("stop", "use", "note") else "note"))

"""Events as hypothesis draws them: any history of a session, with answers to events that are there or not.

A history is drawn as plain numbers and built from them: drawing each field by itself would take minutes.
"""

from collections.abc import Callable

from hypothesis import strategies as st

from logic.data import events as happened
from logic.data.events import AnyPayload, Event
from logic.session.event_ids import next_id

START = 1_767_600_000.0
SLOTS = ("tank.gray.length", "tank.gray.width", "supply.volts")
STEPS = ("chocks:rig", "bond-pad:heater.gray-a")
TEXTS = ("", "a", "long words", "Übergröße ±")

# From a small number and the id of another event to what happened.
MADE: tuple[Callable[[int, str], AnyPayload], ...] = (
    lambda n, of: happened.ReadingTaken(SLOTS[n % 3], str(n), n / 7, "in", None if n % 2 else 0.001),
    lambda n, of: happened.ReadingTaken(SLOTS[n % 2], str(n), n / 3, over=n % 5 == 0, saw_first=n % 2 == 0),
    lambda n, of: happened.ReadingStruck(of),
    lambda n, of: happened.ReadingMoved(of, SLOTS[n % 3]),
    lambda n, of: happened.TapeSet(0.001 * (1 + n % 3)),
    lambda n, of: happened.StepStarted(STEPS[n % 2], TEXTS[n % 4]),
    lambda n, of: happened.StepDone(STEPS[n % 2], TEXTS[n % 4], {TEXTS[n % 3]: TEXTS[n % 4]}),
    lambda n, of: happened.StepHeld(STEPS[n % 2], TEXTS[n % 4]),
    lambda n, of: happened.StepSkipped(STEPS[n % 2], TEXTS[n % 4], "Ann"),
    lambda n, of: happened.StepOverruled(STEPS[n % 2], "surface", TEXTS[n % 4], "Ann"),
    lambda n, of: happened.ItemWritten(TEXTS[n % 4], ("stop", "use", "note")[n % 3]),
    lambda n, of: happened.ItemDone(of),
    lambda n, of: happened.ItemAccepted(of, TEXTS[n % 4], "Ann"),
    lambda n, of: happened.FindingAccepted(("a:b", "c:d")[n % 2], TEXTS[n % 4], "Ann"),
    lambda n, of: happened.DayBegun(None if n % 3 else START + n * 1000),
    lambda n, of: happened.DayEnded(),
    lambda n, of: happened.PaceSet(n % 2 == 0),
    lambda n, of: happened.NoteWritten(TEXTS[n % 4]),
    lambda n, of: happened.PartTicked(("cut:a", "buy:b")[n % 2], n % 3 > 0, n / 2 if n % 2 else None),
    lambda n, of: happened.SheetMade(),
    lambda n, of: happened.Undone(of),
    lambda n, of: happened.Undone(of),
    lambda n, of: happened.Undone(of),
)  # fmt: skip

_drawn = st.tuples(
    st.integers(0, len(MADE) - 1),  # what happened
    st.integers(0, 60),  # its number
    st.integers(0, 6),  # which event it answers, counted from the last
    st.integers(-90_000, 90_000),  # seconds by its clock, which may go back
    st.booleans(),  # by whom
)


def build(drawn: list[tuple[int, int, int, int, bool]], writers: tuple[str, str]) -> list[Event]:
    """The history that the numbers describe."""
    events: list[Event] = []
    last = ""
    for kind, number, back, seconds, by_second in drawn:
        writer = writers[by_second]
        last = next_id(last, START + seconds, writer)
        other = events[-1 - back].id if back < len(events) else "no such event"
        payload = MADE[kind](number, other)
        if isinstance(payload, happened.Undone) and number % 4 == 0 and len(events) > 1:
            payload = happened.Undone(other, (events[-2].id,))
        events.append(Event(last, START + seconds, 3600, writer[:3], payload))
    return events


def histories(
    *, most: int = 25, writers: tuple[str, str] = ("aaaaaaaa", "bbbbbbbb")
) -> st.SearchStrategy[list[Event]]:
    """Events in the order of their ids, from two writers."""
    return st.lists(_drawn, max_size=most).map(lambda drawn: build(drawn, writers))

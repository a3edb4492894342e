"""A session well under way for the benchmarks: everything that decides is read, many steps are done.

Events are made whole, not acted one by one, so that ten thousand of them take no time to prepare.
"""

from pathlib import Path

import msgspec

from logic.assessment.fit_case import places
from logic.assessment.shared import Place
from logic.assessment.steps.layout import layout_of, planned_steps
from logic.data.events import AnyPayload, Event, ReadingStruck, ReadingTaken, StepDone, StepStarted
from logic.data.profile import Profile
from logic.data.profile_file import load_profile
from logic.data.rigs_folder import rigs_folder
from logic.data.slots import TAPE, Slot, slots_of
from logic.data.state import Instant
from logic.session.event_ids import next_id
from logic.session.session import Session, new_session

replace = msgspec.structs.replace

RIG = "full-belly.toml"
START = 1_767_600_000.0
MINUTE = 60.0
RESOLUTION = 0.0015875  # 1/16 in
STEPS_DONE = 30


class Record:
    """Writes events down as they would have come, one a minute."""

    def __init__(self, last: str, begun: float) -> None:
        self.last = last
        self.at = begun + MINUTE
        self.events: list[Event] = []

    def add(self, payload: AnyPayload) -> str:
        self.last = next_id(self.last, self.at, "00000000")
        self.events.append(Event(self.last, self.at, 0, "bench", payload))
        self.at += MINUTE
        return self.last

    def read(self, slot: Slot, off: float = 0.0) -> str:
        """A reading beside the slot's plan, by `off` sixteenths of an inch."""
        value = (slot.planned or 0.0) + off * RESOLUTION
        return self.add(ReadingTaken(slot.id, f"{value:.6f} m", value, "m", RESOLUTION))


def taped(profile: Profile) -> list[Slot]:
    """Slots read by tape that have a plan or, for pads, a place, so that a reading beside it is possible."""
    slots = []
    for slot in slots_of(profile):
        if slot.family != TAPE:
            continue
        if slot.planned is None and slot.title.endswith("as marked out"):
            place = places(profile).get(slot.place.partition(".")[2])
            if isinstance(place, Place):
                slot = replace(slot, planned=getattr(place, slot.title[0]))
        if slot.planned is not None:
            slots.append(slot)
    return slots


def record(profile: Profile, size: int, last: str, begun: float = START) -> list[Event]:
    """`size` events: each slot read twice, steps done in their order, then more readings, some struck."""
    made = Record(last, begun)
    slots = taped(profile)
    for off in (0.0, 0.5):
        for slot in slots:
            made.read(slot, off)
    for planned in planned_steps(layout_of(profile))[:STEPS_DONE]:
        made.add(StepStarted(planned.id))
        made.add(StepDone(planned.id))
    turn = 0
    while len(made.events) < size:
        reading = made.read(slots[turn % len(slots)], (0.0, 0.5, 0.25)[turn % 3])
        if turn % 5 == 0:
            made.add(ReadingStruck(reading))
        turn += 1
    return made.events


def worked_session(
    home: Path, size: int, *, rig: str = RIG, ended: float | None = None
) -> tuple[Session, Instant]:
    """A session of `size` events at least, open to be recorded in, and the moment after its last.

    ended : that moment, about; left out: some day. [epoch s]
    """
    begun = START if ended is None else ended - (size + 1) * MINUTE
    session = new_session(load_profile(rigs_folder() / rig), Instant(begun), home=home)
    events = record(session.profile, size - 1, session.events[-1].id, begun)
    session.take_in(events)
    return session, Instant(events[-1].at + MINUTE)

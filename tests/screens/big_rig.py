"""A rig far larger than any that is built: thirty tanks, sixty heaters, two thousand readings. Invented.

Its document goes through the project's own checker, as a file's would. The readings are made whole, as events, so
that they take no time to prepare.
"""

from pathlib import Path
from typing import Any

from logic.data.profile_check import check_document
from logic.data.profile_file import LoadedProfile, clean_document
from logic.data.slots import Slot, slots_of
from logic.data.state import Instant
from logic.session.session import Session, new_session
from tests.benchmarks.worked_session import Record
from tests.screens.fake import WEDNESDAY

TANKS, READINGS = 30, 2000
NAMES_LIMIT = 60  # letters, of the format
LONG_NAME = "A coach for a whole band with its crew, kitchen, and laundry"


LONG_WHY = "a rib with the old strap's bolts through it, ground off flat"
LONG_COLOUR = "red with a yellow tracer, blue tape wound about the far ends"


def tank(number: int) -> dict[str, Any]:
    return {
        "id": f"tank-{number:02}", "holds": ("fresh", "gray", "black")[number % 3], "shape": "box",
        "length": "41 in", "width": "24 in", "height": "9 in", "place": "open", "fill": 0.5,
        "outlet": {"x": "38 in", "y": "12 in", "diameter": "3 in"},
        "keepout": [{"x": "20 in", "y": "0 in", "length": "1 in", "width": "24 in", "why": LONG_WHY}],
    }  # fmt: skip


def heaters_of(number: int) -> list[dict[str, Any]]:
    return [
        {
            "id": f"pad-{number:02}-{letter}", "on": f"tank-{number:02}", "watts": "30 W", "volts": "12 V",
            "length": "12 in", "width": "8 in", "face": "bottom",
        }
        for letter in "ab"
    ]  # fmt: skip


def document() -> dict[str, Any]:
    numbers = range(1, TANKS + 1)
    return {
        "format": 1,
        "rig": {"name": LONG_NAME, "kind": "travel trailer"},
        "design": {"low": "5 degF", "high": "24 degF"},
        "supply": {"chemistry": "lithium", "capacity": "900 Ah"},
        "tank": [tank(number) for number in numbers],
        "heater": [pad for number in numbers for pad in heaters_of(number)],
        "run": [
            {
                "id": f"run-{number:02}", "from": "supply", "length": f"{8 + number} ft", "fuse": "auto",
                "feeds": [f"pad-{number:02}-a", f"pad-{number:02}-b"],
                "colour": LONG_COLOUR,
            }
            for number in numbers
        ],
    }  # fmt: skip


def loaded(raw: dict[str, Any]) -> LoadedProfile:
    """A document as a file's is taken in: checked, its texts cleaned. Raises ProfileFaults."""
    return LoadedProfile(check_document(raw), clean_document(raw))


def tape_slots(session: Session) -> list[Slot]:
    return [slot for slot in slots_of(session.profile) if slot.planned is not None and slot.family == "tape"]


def big_session(home: Path, readings: int = READINGS) -> tuple[Session, Instant]:
    """The rig with its readings, each slot several times; and the moment after the last. The first is still owed."""
    began = WEDNESDAY - (readings + 60) * 60.0
    session = new_session(loaded(document()), Instant(began), home=home, by="R. Tester")
    made = Record(session.events[-1].id, began)
    slots = tape_slots(session)[1:]
    for number in range(readings):
        made.read(slots[number % len(slots)], (0.0, 0.5, 0.25)[number // len(slots) % 3])
    session.take_in(made.events)
    return session, Instant(made.at)

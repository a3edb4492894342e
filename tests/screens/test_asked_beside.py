"""What is asked beside a reading that was taken: a figure far from the plan, two that differ."""

import pytest

from logic.data.profile_file import load_profile
from logic.data.rigs_folder import rigs_folder
from logic.data.state import Instant
from logic.session.intents import RecordReading, StrikeReading, TakeBackReading, Taken
from logic.session.session import new_session
from tui.show.desk_words import asked_beside
from tui.show.marks import SIGNS
from tui.wiring import Wiring

START = 1_767_600_000.0
LENGTH = "tank.gray.length"


class Day:
    """A session on a demo rig, and a clock that goes on by a minute with each intent."""

    def __init__(self, home) -> None:
        self.at = START
        loaded = load_profile(rigs_folder() / "two-tanks.toml")
        self.session = new_session(loaded, Instant(START), home=home)
        self.wiring = Wiring(self.session, marks=SIGNS, now=lambda: Instant(self.at))

    def send(self, intent):
        self.at += 60.0
        return self.wiring.send(intent)

    def asked_after(self, typed: str) -> list[str]:
        taken = self.send(RecordReading(LENGTH, typed))
        assert isinstance(taken, Taken)
        return asked_beside(self.wiring.snapshot(), (taken.event.id,))


@pytest.fixture
def day(tmp_path):
    made = Day(tmp_path)
    yield made
    made.session.close()


def test_reading_far_from_the_plan_is_taken_and_asked_about(day):
    (said,) = day.asked_after("412")
    assert "the plan says" in said
    assert "412 in" in said
    assert "move it" in said


def test_reading_near_the_plan_is_not_asked_about(day):
    assert day.asked_after("38 1/4") == []


def test_second_reading_that_differs_is_asked_about(day):
    day.asked_after("38")
    (said,) = day.asked_after("39")
    assert "2 readings differ" in said
    assert "read it once more" in said


def test_what_is_said_of_readings_calls_slots_by_their_names(day):
    day.asked_after("38")
    again = day.send(RecordReading(LENGTH, "38"))
    assert isinstance(again, Taken)
    told = [
        day.wiring.send(RecordReading(LENGTH, "38")).reason,  # at once: a bounced key
        day.send(TakeBackReading()).said,
        day.send(StrikeReading(slot=LENGTH, number=2)).reason,
        day.send(RecordReading(LENGTH, "38")).said,
    ]
    for words in told:
        text = words.template.format(**dict(words.parts))
        assert "gray tank, length" in text
        assert LENGTH not in text

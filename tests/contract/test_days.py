"""Days and the pace that minutes are planned by: recorded, undone, told on the command line.

Factor of a first-timer: common practice, no source (× 1.8).
"""

import pytest

from logic.assessment.steps.minutes import slowed
from logic.data.quantities import fill
from logic.session.intents import (
    BeginDay,
    EndDay,
    FinishStep,
    RedoLast,
    Refused,
    SetPace,
    StartStep,
    UndoLast,
)
from tests.technician import MINUTE, RIGS, Technician


@pytest.fixture
def technician(tmp_path):
    one = Technician(RIGS / "two-tanks.toml", tmp_path)
    yield one
    one.session.close()


def test_minutes_are_a_technicians_until_a_first_timer_is_recorded_and_undo_brings_them_back(technician):
    before = technician.look()
    assert not technician.session.state.first_timer
    assert "a technician's minutes" in fill(before.day.pace, "us")
    technician.act(SetPace(first_timer=True))
    after = technician.look()
    for was, now in zip(before.steps, after.steps, strict=True):
        assert now.minutes == pytest.approx(slowed(was.minutes, first_timer=True, gloves=False))
    assert after.under_left == pytest.approx(1.8 * before.under_left)
    assert "first-timer, a technician's × 1.8 (common practice, no source)" in fill(after.day.pace, "us")
    technician.act(UndoLast())
    assert technician.look().steps == before.steps
    technician.act(RedoLast())
    assert technician.look().under_left == after.under_left


def test_a_step_that_was_timed_is_planned_by_what_it_took_whoever_works(technician):
    for step in ("profile-complete:rig", "drain-flush:tank.gray"):
        technician.act(StartStep(step))
        technician.at += 7 * MINUTE
        technician.act(FinishStep(step))
    technician.act(SetPace(first_timer=True))
    steps = {step.id: step for step in technician.look().steps}
    assert steps["drain-flush:tank.black"].minutes == pytest.approx(7.0, abs=0.1)


def test_the_same_pace_again_is_refused(technician):
    assert isinstance(technician.session.act(SetPace(first_timer=False), technician.now), Refused)


def test_a_day_that_ended_says_what_comes_first_tomorrow_make_safe_before_all(technician):
    technician.act(BeginDay(technician.at + 3600))
    assert technician.look().day.fits
    technician.act(EndDay())
    day = technician.look().day
    assert day.fits == ()
    assert technician.look().minutes_left is None
    assert day.tomorrow[0] == "chocks:rig"


def test_day_is_begun_told_and_ended_on_the_command_line(session):
    assert "none begun yet" in session.call("day", session.id).output
    assert session.call("day", session.id, "begin").code == 0
    told = session.call("day", session.id, "--json").json
    assert told["days"][0]["ended"] is None
    assert told["first_timer"] is False
    before = told["under_left"]
    assert session.call("day", session.id, "--first-timer", "yes").code == 0
    told = session.call("day", session.id, "--json").json
    assert told["first_timer"] is True
    assert told["under_left"] == pytest.approx(1.8 * before)
    again = session.call("day", session.id, "--first-timer", "yes")
    assert (again.code, again.output.split()[0]) == (1, "refused")
    assert session.call("day", session.id, "end").code == 0
    assert "first tomorrow: level ground" in session.call("day", session.id).output
    assert session.call("day", session.id, "end").code == 1


@pytest.mark.parametrize(
    "words", [("begin", "--stop", "99"), ("walk",), ("--stop", "1200"), ("--first-timer", "perhaps")]
)
def test_a_call_that_makes_no_sense_records_nothing(session, words):
    assert session.call("day", session.id, *words).code == 2
    assert session.call("day", session.id, "--json").json["days"] == []

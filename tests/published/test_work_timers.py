"""Timers as facts: dwell, alcohol, leak check, a clock that is changed, and what is offered meanwhile."""

import pytest

from logic.assessment.findings import work as _rules  # noqa: F401 (declares)
from logic.assessment.steps.order import MAKE_SAFE
from logic.assessment.timers import dwell
from logic.assessment.work import day_of
from logic.data.step import DONE, RUNNING
from tests.work_log import HOUR, MINUTE, TWO, Log, found

LEAST, WANTED = 10.0, 24 * HOUR


def dwelt(points: list[tuple[float, float]], now: float):
    return dwell(
        bonded=0.0, wanted=WANTED, least=LEAST, surface=[(h * HOUR, t) for h, t in points], now=now * HOUR
    )


@pytest.mark.parametrize(
    ("points", "now", "counted", "reached"),
    [
        ([(0, 15.0), (24, 12.0)], 24, 24.0, True),
        ([(0, 15.0), (23.9, 12.0)], 23.9, 23.9, False),
        ([(0, 15.0)], 40, 0.0, False),  # not read at its end: nothing is known of the night
        (
            [(0, 15.0), (10, 9.9), (20, 15.0), (40, 15.0)],
            40,
            20.0,
            False,
        ),  # cold at 10 h: both hours beside it lost
        ([(0, 15.0), (10, 10.0), (24, 10.0)], 24, 24.0, True),
        ([(0, 9.0), (1, 15.0), (25, 15.0)], 25, 24.0, True),  # from when it was warm
        ([], 30, 0.0, False),
        ([(-0.5, 15.0), (24, 12.0)], 24, 24.0, True),  # read within the hour before
        ([(-1.5, 15.0), (24, 12.0)], 24, 0.0, False),  # older ones don't count
    ],
)
def test_hours_count_between_two_warm_readings(points, now, counted, reached):
    facts = dwelt(points, now)
    # bonding-and-work.md, dwell counts: surface at start and end, none below the least · PRACTICE · 1e-9 h
    assert facts.counted / HOUR == pytest.approx(counted, abs=1e-9)
    assert facts.reached is reached


def test_a_dwell_is_due_when_its_hours_are_full_if_the_wall_stays_warm():
    facts = dwelt([(0, 15.0), (6, 9.0), (8, 12.0), (10, 12.0)], 11)
    # 2 h counted of 24 at hour 10: due at 32 h · by hand · 1e-9 h
    assert facts.due / HOUR == pytest.approx(32.0, abs=1e-9)
    assert facts.uncounted / HOUR == pytest.approx(8.0, abs=1e-9)
    assert dwelt([(0, 15.0), (6, 9.0)], 7).due is None


def bonded() -> Log:
    return Log(TWO).read("work.surface", 15.0).done("bond-pad:heater.galley-a")


def test_the_dwell_runs_on_its_own_and_is_done_when_its_hours_are_full():
    log = bonded()
    due = log.at - 1.0 + 72 * HOUR
    assert log.step("dwell:heater.galley-a").state == RUNNING
    # bonding-and-work.md: full strength after 72 h, the default · FOUND · abs 2 s: the log's own seconds
    assert log.step("dwell:heater.galley-a").due == pytest.approx(due, abs=2.0)
    assert found(log, "dwell") == ["dwell:heater.galley-a"]
    log.wait(72 * HOUR).read("work.surface", 12.0)
    assert log.step("dwell:heater.galley-a").state == DONE
    assert found(log, "dwell") == []


def test_a_dwell_can_not_be_called_done_before_its_time():
    log = bonded().event("dwell:heater.galley-a", "done")
    assert log.step("dwell:heater.galley-a").state == RUNNING
    assert [block.id for block in log.step("dwell:heater.galley-a").finishing] == ["dwell"]


def test_a_clock_put_back_loses_no_hour_and_gets_a_word():
    log = bonded()
    log.at += 2 * HOUR
    log.read("work.surface", 14.0)
    log.at -= 9 * HOUR  # someone set the laptop's clock
    log.read("work.surface", 14.0)
    log.wait(1 * HOUR).read("work.surface", 14.0)
    step = log.step("dwell:heater.galley-a")
    # by hand: 2 h, then the clock steps back, then 1 h: 3 h counted · abs 5 s: the log's own seconds
    assert step.counted == pytest.approx(3 * HOUR, abs=5.0)
    assert step.due - log.at == pytest.approx(69 * HOUR, abs=5.0)
    assert step.clock is not None
    assert "put back" in step.clock.template


def test_another_time_zone_moves_no_timer_and_gets_a_word():
    log = bonded()
    before = log.step("dwell:heater.galley-a")
    assert before.clock is None
    log.offset = -3600
    after = log.step("dwell:heater.galley-a")
    assert after.due == before.due
    assert after.clock is not None
    assert "zone" in after.clock.template


@pytest.mark.parametrize(("minutes", "again"), [(14.9, False), (15.1, True)])
def test_alcohol_is_wiped_again_after_a_quarter_of_an_hour(minutes, again):
    log = Log(TWO).done("alcohol:heater.galley-a").wait(minutes * MINUTE - 1.0)
    # bonding-and-work.md: from dry alcohol to the bond at most 15 min · PRACTICE · on either side
    assert ("step:alcohol:heater.galley-a" in log.blocks("bond-pad:heater.galley-a")) is again
    assert log.step("alcohol:heater.galley-a").lapsed is again
    assert log.step("alcohol:heater.galley-a").due is not None
    log.done("bond-pad:heater.galley-a")
    assert bool([one for one in found(log, "open-step") if "alcohol:heater.galley-a" in one]) is again


@pytest.mark.parametrize(("minutes", "state"), [(29.0, RUNNING), (30.1, DONE)])
def test_a_leak_check_lasts_half_an_hour(minutes, state):
    log = Log(TWO).start("leak-check:tank.galley").wait(minutes * MINUTE)
    assert bool(log.step("leak-check:tank.galley").finishing) is (state == RUNNING)
    log.event("leak-check:tank.galley", "done")
    # bonding-and-work.md: filled, wait 30 min, dry paper · PRACTICE · on either side
    assert log.step("leak-check:tank.galley").state == state


def test_what_can_go_on_while_adhesive_cures_is_offered_first():
    log = Log(TWO).all_of("profile-complete", "parts-bought", "drain-flush").make_safe()
    log.all_of("supports", "look-round", "corner-zero", "read-tank", "read-routes", "seen-or-not", "drill")
    assert day_of(log.case()).offered[0] == "floor-falls:tank.galley"
    log.read("work.surface", 15.0).done("bond-pad:heater.galley-a")
    offered = day_of(log.case()).offered
    assert offered[:3] == ("cut:run.front", "cut:run.rear", "switch-plate:rig")
    assert log.step("cut:run.front").meanwhile
    lapsed = log.wait(2 * HOUR)
    assert day_of(lapsed.case()).offered[0] in MAKE_SAFE

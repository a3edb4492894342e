"""The work: minutes, make safe that lapses, gates of weather, timers, and what the punch list says of it."""

import psychrolib
import pytest

from logic.assessment.findings import work as _rules  # noqa: F401 (declares)
from logic.assessment.findings.rule import findings_of
from logic.assessment.steps.layout import layout_of, planned_steps
from logic.assessment.steps.minutes import slowed
from logic.assessment.steps.order import MAKE_SAFE
from logic.assessment.timers import dwell
from logic.assessment.verdict import verdict_of
from logic.assessment.work import day_of, with_verdict
from logic.data.finding import Acceptance, Finding
from logic.data.state import Instant, Item
from logic.data.step import DONE, HELD, READY, RUNNING
from logic.physics.bonding import dew_point
from tests import rig_builder as rb
from tests.work_log import DAY, HOUR, MINUTE, MORNING, Log, changed

TWO = rb.profile(
    tanks=(rb.tank(), rb.tank("black", holds="black")),
    heaters=(rb.heater(), rb.heater("black-a", on="black")),
    runs=(rb.run("front", feeds=("galley-a",)), rb.run("rear", feeds=("black-a",))),
)


def found(log: Log, rule: str) -> list[str]:
    case = log.case()
    return [one.id for one in findings_of(case, dict(case.state.accepted)) if one.rule == rule]


WORK = ("surface", "dew", "open-step", "held-step", "confirm", "dwell", "lapsed", "no-sheet")


def of_the_work(log: Log) -> list[Finding]:
    """Findings of this module's subject alone, whatever else is declared."""
    case = log.case()
    return [one for one in findings_of(case, dict(case.state.accepted)) if one.rule in WORK]


# --- K1 ---


@pytest.mark.parametrize(
    "profile",
    [
        TWO,
        changed(
            TWO,
            runs=(rb.run("feed", gauge=10), *(changed(run, from_="feed", fuse="none") for run in TWO.runs)),
        ),
        changed(TWO, runs=(TWO.runs[0], changed(TWO.runs[1], back="front"))),
        changed(TWO, heaters=(rb.heater(thermostat=rb.thermostat(45, 65)), TWO.heaters[1])),
    ],
    ids=["two circuits", "one feed", "a shared return", "a thermostat"],
)
def test_two_tanks_with_a_pad_each_take_the_trades_minutes(profile):
    case = Log(profile).case()
    day = day_of(case)
    # K1 · job.md, minutes of a technician, open belly · COMPUTED on PRACTICE · exact but for adding floats
    assert day.under_left == pytest.approx(255.0, abs=1e-9)
    assert day.beside_left == pytest.approx(170.0, abs=1e-9)
    # K1 · first-timer 459, in gloves 331.5, both 596.7 under the vehicle · COMPUTED · the same
    assert slowed(day.under_left, first_timer=True, gloves=False) == pytest.approx(459.0, abs=1e-9)
    assert slowed(day.under_left, first_timer=False, gloves=True) == pytest.approx(331.5, abs=1e-9)
    assert slowed(day.under_left, first_timer=True, gloves=True) == pytest.approx(596.7, abs=1e-9)


def test_a_closed_pan_takes_forty_minutes_to_drop_and_sixty_to_refit():
    closed = changed(TWO, bays=(rb.bay(),), tanks=tuple(changed(tank, place="belly") for tank in TWO.tanks))
    # job.md, minutes: a closed pan 40 and 60 · PRACTICE · exact
    assert day_of(Log(closed).case()).under_left == pytest.approx(255.0 + 100.0, abs=1e-9)


def test_in_the_cold_the_minutes_are_those_in_gloves():
    cold = Log(TWO).read("work.air", rb.degc(39.9))
    # K1 · below 40 °F × 1.3: 331.5 · COMPUTED on PRACTICE · exact
    assert day_of(cold.case()).under_left == pytest.approx(331.5, abs=1e-9)
    assert day_of(Log(TWO).read("work.air", rb.degc(40.1)).case()).under_left == pytest.approx(
        255.0, abs=1e-9
    )


def test_pad_two_is_planned_by_pad_one():
    log = Log(TWO).done("dry-fit:heater.galley-a", minutes=11)
    # 11 min, and the second that the log takes for each event · abs 0.02 min
    assert log.step("dry-fit:heater.black-a").minutes == pytest.approx(11.0, abs=0.02)
    assert log.step("mark-out:heater.black-a").minutes == pytest.approx(3.5, abs=1e-9)
    overnight = Log(TWO).start("dry-fit:heater.galley-a").wait(20 * HOUR)
    overnight.event("dry-fit:heater.galley-a", "done")
    assert overnight.step("dry-fit:heater.black-a").minutes == pytest.approx(4.0, abs=1e-9)


# --- K3 ---


def worked_from_eight_to_ten() -> Log:
    """Make safe at 08:00, then readings and steps until 10:00."""
    log = Log(TWO, at=MORNING - 60.0).make_safe()
    log.at = MORNING + 60.0
    while log.at < MORNING + 2 * HOUR:
        log.done("supports:tank.galley").wait(20 * MINUTE)
    log.at = MORNING + 2 * HOUR
    return log.done("supports:tank.black")


@pytest.mark.parametrize(("minutes", "offset_days", "lapsed"), [(55, 0, False), (61, 0, True), (0, 1, True)])
def test_make_safe_lapses_after_a_break_and_on_a_new_day(minutes, offset_days, lapsed):
    log = worked_from_eight_to_ten()
    log.at = MORNING + 2 * HOUR + minutes * MINUTE + offset_days * DAY
    step = log.step("chocks:rig")
    # K3 · done 08:00, work until 10:00; 10:55 holds, 11:01 and the next day lapse · design rule · exact
    assert step.lapsed is lapsed
    assert step.state == (READY if lapsed else DONE)
    assert ("lapsed" in log.blocks("corner-zero:tank.galley")) is lapsed
    assert bool(found(log, "lapsed")) is lapsed


def test_a_break_lapses_make_safe_even_when_work_went_on_afterwards():
    log = worked_from_eight_to_ten().wait(61 * MINUTE)
    log.read("tank.galley.length", 1.0)
    # K3 · again at 11:01 · design rule · exact
    assert log.step("chocks:rig").lapsed
    log.make_safe()
    assert log.step("chocks:rig").state == DONE
    assert log.step("chocks:rig").repeats == 2


def test_one_step_that_was_worked_through_is_no_break():
    log = Log(TWO).make_safe().start("supports:tank.galley").wait(115 * MINUTE)
    log.event("supports:tank.galley", "done")
    assert not log.step("chocks:rig").lapsed
    longer = Log(TWO).make_safe().start("supports:tank.galley").wait(125 * MINUTE)
    longer.event("supports:tank.galley", "done")
    assert longer.step("chocks:rig").lapsed


def test_make_safe_lapses_once_anything_was_energised():
    log = worked_from_eight_to_ten()
    assert not log.step("proven-dead:rig").lapsed
    log.start("energise:run.front")
    # K3 · a circuit energised · design rule · exact
    assert log.step("proven-dead:rig").lapsed
    assert {"dead", "lapsed"} <= log.blocks("splice:run.rear")
    assert "lapsed" not in log.blocks("volts:heater.galley-a")  # made live, and says so
    log.done("fuse-out:run.front")
    assert log.step("proven-dead:rig").lapsed
    assert not log.make_safe().step("proven-dead:rig").lapsed


def test_a_zone_to_the_west_makes_no_new_day_of_the_same_hour():
    log = worked_from_eight_to_ten().wait(30 * MINUTE)
    log.offset = -5 * 3600
    assert not log.step("chocks:rig").lapsed
    log.offset = 14 * 3600
    assert log.step("chocks:rig").lapsed  # the local day is another one


def test_what_is_live_is_said_until_its_fuse_is_out():
    log = Log(TWO).start("energise:run.front")
    assert day_of(log.case()).live == ("front",)
    assert day_of(log.done("fuse-out:run.front").case()).live == ()


# --- K4 and the dew point ---


@pytest.mark.parametrize(
    ("humidity", "dew", "margin", "held"), [(0.70, 10.102, 2.676, True), (0.60, 7.815, 4.963, False)]
)
def test_a_wall_near_the_dew_point_holds_the_bond(humidity, dew, margin, held):
    surface, air = rb.degc(55), rb.degc(60)
    # K4 · surface 55 °F, air 60 °F, 70 % and 60 % · COMPUTED, Magnus · abs 0.01
    assert dew_point(air, humidity) == pytest.approx(dew, abs=0.01)
    assert surface - dew_point(air, humidity) == pytest.approx(margin, abs=0.01)
    psychrolib.SetUnitSystem(psychrolib.SI)
    # D2 · ASHRAE's formulation, psychrolib · COMPUTED · abs 0.03: how far the two formulas differ
    assert psychrolib.GetTDewPointFromRelHum(air, humidity) == pytest.approx(dew, abs=0.03)
    log = Log(TWO).weather(surface=surface, air=air, humidity=humidity)
    assert ("dew" in log.blocks("bond-pad:heater.galley-a")) is held


def test_a_wall_at_50_f_stands_too_near_the_dew_point_of_a_mild_dry_day():
    log = Log(TWO).weather(surface=10.0, air=24.0, humidity=0.35)
    # D3 · 24 °C 35 %: 7.588 °C, 2.41 K above, held · COMPUTED · abs 0.01
    assert dew_point(24.0, 0.35) == pytest.approx(7.588, abs=0.01)
    assert "dew" in log.blocks("bond-pad:heater.galley-a")
    assert "surface" not in log.blocks("bond-pad:heater.galley-a")


def test_a_bond_that_was_overruled_stays_on_the_punch_list():
    bond = "bond-pad:heater.galley-a"
    log = Log(TWO).weather(surface=rb.degc(55), air=rb.degc(60), humidity=0.70)
    log.event(bond, "overruled", gate="dew", note="warm front", name="R. Tester").done(bond)
    # K4 · `dew` if overruled · design rule
    assert found(log, "dew") == ["dew:heater.galley-a"]
    assert found(log, "surface") == []
    dry = Log(TWO).weather(surface=rb.degc(55), air=rb.degc(60), humidity=0.60).done(bond)
    assert found(dry, "dew") == []


@pytest.mark.parametrize(("surface", "expected"), [(10.0, []), (9.9, ["surface:heater.galley-a"])])
def test_a_bond_on_a_cold_wall_stops_closing(surface, expected):
    log = Log(TWO).weather(surface=surface, air=5.0, humidity=0.3).done("bond-pad:heater.galley-a")
    assert found(log, "surface") == expected


def test_a_surface_read_after_the_bond_began_does_not_count_for_it():
    log = Log(TWO).weather(surface=8.0, air=5.0, humidity=0.3).start("bond-pad:heater.galley-a")
    log.read("work.surface", 15.0).event("bond-pad:heater.galley-a", "done")
    assert found(log, "surface") == ["surface:heater.galley-a"]


# --- timers ---

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


# --- the day ---


def test_what_fits_into_the_time_left_and_what_comes_first_tomorrow():
    log = Log(TWO).all_of("profile-complete", "parts-bought", "drain-flush").make_safe()
    log.begin_day(stop_in=20 * MINUTE)
    day = day_of(log.case())
    assert day.minutes_left == pytest.approx(20.0, abs=0.1)
    # 6 + 6 + 3 min fit, then 2 + 2 of chalk: 19; the next wants 6 · by hand, job.md's minutes shared out
    assert day.fits[:3] == ("supports:tank.galley", "supports:tank.black", "look-round:rig")
    planned = {step.id: step for step in log.case().steps}
    assert sum(planned[step].minutes for step in day.fits) <= 20.0
    assert day.tomorrow[0] == "chocks:rig"
    assert day.tomorrow[1] not in day.fits
    assert day_of(Log(TWO).case()).minutes_left is None


def test_the_moment_follows_the_step_that_runs():
    log = Log(TWO)
    assert day_of(log.case()).moment == "planning"
    assert day_of(log.start("read-tank:tank.galley").case()).moment == "survey"
    log.event("read-tank:tank.galley", "done")
    assert day_of(log.start("bond-pad:heater.galley-a").case()).moment == "bonding"
    assert day_of(Log(TWO).done("close:rig").case()).moment == "a night, later"


# --- the punch list of the work ---


def test_an_open_step_stops_closing_and_goes_when_it_is_done():
    log = Log(TWO)
    assert "open-step:read-routes:rig" in found(log, "open-step")
    assert "open-step:read-routes:rig" not in found(log.done("read-routes:rig"), "open-step")
    assert not [
        one for one in found(log, "open-step") if one.startswith(("open-step:close", "open-step:dwell"))
    ]
    assert not [one for one in found(log, "open-step") if "confirm" in one]


def test_a_held_step_stops_closing_with_its_note():
    log = Log(TWO).event("cut:run.front", "held", note="no blue wire")
    assert found(log, "held-step") == ["held-step:cut:run.front"]
    assert "open-step:cut:run.front" not in found(log, "open-step")
    assert found(log.done("cut:run.front"), "held-step") == []


def test_a_step_held_by_its_gate_says_why():
    log = Log(TWO).all_of("profile-complete", "parts-bought", "drain-flush").make_safe()
    log.all_of("supports", "look-round", "seen-or-not", "read-routes")
    log.event("seen-or-not:rig", "recorded", recorded={"gas pipe": "not seen"})
    assert log.step("drill:run.front").state == HELD
    assert "held-step:drill:run.front" in found(log, "held-step")


def test_an_unconfirmed_thing_stops_closing_until_it_is_seen():
    log = Log(TWO)
    assert "confirm:confirm-clamps:rig" in found(log, "confirm")
    assert "confirm:confirm-clamps:rig" not in found(log.done("confirm-clamps:rig"), "confirm")


def test_closed_without_a_sheet_is_noted():
    log = Log(TWO).done("close:rig")
    assert found(log, "no-sheet") == ["no-sheet:rig"]
    assert found(log.done("sheet-made:rig"), "no-sheet") == []
    assert found(Log(TWO), "no-sheet") == []


def everything_done() -> Log:
    """A clean run over several days, every step in its order, with all that its gates ask for."""
    log = Log(TWO).begin_day()
    for planned in planned_steps(layout_of(TWO)):
        step, template = planned.id, planned.template
        if template.timer == "dwell" or template.group == "hand over":
            continue
        if template.id == "fuse-out":
            log.event(step, "done")
            continue
        if template.id == "alcohol":
            log.weather(surface=15.0)
        if template.id == "fill" and step == "fill:tank.galley":
            log.wait(24 * HOUR).read("work.surface", 14.0).make_safe()
        if template.timer == "leak":
            log.start(step).wait(31 * MINUTE).event(step, "done")
            continue
        if template.id in ("last-walk", "close", "refit-pan"):
            continue
        log.done(step)
    log.wait(72 * HOUR).read("work.surface", 14.0).make_safe()
    return log


def test_a_clean_run_leaves_nothing_of_the_work_open_but_the_last_walk():
    log = everything_done()
    left = [
        one for rule in ("open-step", "held-step", "confirm", "dwell", "lapsed") for one in found(log, rule)
    ]
    assert left == ["open-step:last-walk:rig"]
    assert log.step("last-walk:rig").state == READY
    log.done("last-walk:rig")
    assert [one for rule in ("open-step", "held-step") for one in found(log, rule)] == []
    assert log.step("close:rig").state == READY


@pytest.mark.parametrize(
    "missing", ["isolation-wet:run.front", "leak-check:tank.black", "confirm-loose:rig", "label:rig"]
)
def test_the_last_walk_waits_for_everything_before_it(missing):
    log = everything_done()
    log.steps = [event for event in log.steps if event.step != missing]
    assert f"step:{missing}" in log.blocks("last-walk:rig")


# --- the verdict ---


def test_the_verdict_counts_what_stands_and_an_accepted_skip_counts_as_done():
    log = everything_done().done("last-walk:rig")
    assert verdict_of(of_the_work(log)).closable
    log.event("photographs:rig", "skipped", note="camera drowned", name="R. Tester")
    assert not verdict_of(of_the_work(log)).closable
    log.accept("open-step:photographs:rig")
    assert verdict_of(of_the_work(log)).closable


def test_written_items_count_until_they_are_done_or_accepted():
    def item(state: str, weight: str = "stop") -> Item:
        accepted = Acceptance("late", "R. Tester") if state == "accepted" else None
        return Item("i", weight, "", "loose rail", Instant(0.0), state=state, accepted=accepted)

    assert not verdict_of((), (item("open"),)).closable
    assert verdict_of((), (item("done"),)).closable
    assert verdict_of((), (item("accepted"),)).closable
    assert verdict_of((), (item("open", "use"),)).closable
    assert verdict_of((), (item("open", "use"),)).use == 1


def test_closing_is_held_while_the_verdict_says_so():
    case = everything_done().done("last-walk:rig").case()
    stops = verdict_of((), (Item("i", "stop", "", "loose rail", Instant(0.0)),))
    held = {step.id: step for step in with_verdict(case.steps, stops)}
    assert held["close:rig"].state == HELD
    assert [block.id for block in held["close:rig"].blocks] == ["verdict"]
    free = {step.id: step for step in with_verdict(case.steps, verdict_of(()))}
    assert free["close:rig"].state == READY

"""Mistakes that must not even begin: the program refuses, says what must be true first, changes nothing."""

import pytest

from logic.data.state import Instant
from logic.session.intents import AcceptItem, OverruleStep, RecordReading, Refused, SkipStep, StartStep
from tests.technician import HOUR, MINUTE, RIGS, Technician

BOND, ENERGISE, FILL = "bond-pad:heater.gray-pad", "energise:run.gray-feed", "fill:tank.gray"


@pytest.fixture
def fresh(tmp_path):
    technician = Technician(RIGS / "two-tanks.toml", tmp_path)
    yield technician
    technician.session.close()


def worked_until(technician: Technician, step_id: str) -> None:
    """Work by the program's own list until a step is the next one to be done; it is not begun."""
    for _ in range(2000):
        step = technician.next_step()
        if step == step_id:
            return
        if step is None:
            technician.sleep_until_warm()
        else:
            technician.do(step)
    pytest.fail(f"{step_id} never came")


def refused(technician: Technician, intent) -> str:
    """The ids of what blocks it; the state must be as it was."""
    before = technician.session.state
    technician.at += 1.0
    answer = technician.session.act(intent, technician.now)
    assert isinstance(answer, Refused), answer
    assert technician.session.state is before
    assert answer.reason.template
    return answer.reason.template


def blocks(technician: Technician, step_id: str) -> set[str]:
    step = next(step for step in technician.look().steps if step.id == step_id)
    return {block.id for block in step.blocks}


@pytest.mark.parametrize(
    "step",
    [
        BOND,
        ENERGISE,
        FILL,
        "drill:run.gray-feed",
        "pull:run.gray-feed",
        "cold-pad:heater.gray-pad",
        "close:rig",
    ],
)
def test_nothing_under_the_vehicle_or_on_wire_begins_on_the_first_morning(fresh, step):
    refused(fresh, StartStep(step))


@pytest.mark.parametrize("step", ["chocks:rig", "stands:rig", "battery-negative:rig", "proven-dead:rig"])
def test_make_safe_is_not_skipped(fresh, step):
    refused(fresh, SkipStep(step, "in a hurry", "R. Tester"))


@pytest.mark.parametrize(
    ("step", "gate"), [("pull:run.gray-feed", "dead"), (ENERGISE, "fuse-last"), (ENERGISE, "level")]
)
def test_proven_dead_fuse_last_and_least_liquid_are_not_overruled(fresh, step, gate):
    refused(fresh, OverruleStep(step, gate, "it will be all right", "R. Tester"))


def test_bonding_waits_for_readings_of_the_weather_and_for_a_warm_dry_wall(fresh):
    worked_until(fresh, "alcohol:heater.gray-pad")
    fresh.do("alcohol:heater.gray-pad")
    for slot, typed in (("work.surface", "46 °F"), ("work.air", "60 °F"), ("work.humidity", "40 %")):
        fresh.read(slot, typed)
    assert "surface" in blocks(fresh, BOND)
    refused(fresh, StartStep(BOND))
    for slot, typed in (("work.surface", "55 °F"), ("work.air", "60 °F"), ("work.humidity", "70 %")):
        fresh.read(slot, typed)
    assert "dew" in blocks(fresh, BOND)
    refused(fresh, StartStep(BOND))
    fresh.read("work.humidity", "60 %")
    assert not {"surface", "dew"} & blocks(fresh, BOND)


def test_a_pad_is_not_wetted_from_behind_before_its_hours(fresh):
    worked_until(fresh, BOND)
    fresh.do(BOND)
    fresh.at += HOUR
    assert "dwell" in blocks(fresh, FILL)
    refused(fresh, StartStep(FILL))


def test_a_circuit_is_not_energised_over_a_dry_wall(fresh):
    worked_until(fresh, ENERGISE)
    fresh.read("tank.gray.level", "10 mm")
    assert "level" in blocks(fresh, ENERGISE)
    refused(fresh, StartStep(ENERGISE))


def test_make_safe_lapses_after_a_long_dinner_and_over_night(fresh):
    worked_until(fresh, "wash:tank.gray")
    fresh.at += 61 * MINUTE
    refused(fresh, StartStep("wash:tank.gray"))
    assert "lapsed" in {finding.rule for finding in fresh.look().findings}
    fresh.sleep_until_warm()
    refused(fresh, StartStep("wash:tank.gray"))


def test_a_bare_wire_at_the_supply_is_not_accepted_away(tmp_path):
    technician = Technician(RIGS / "with-mistakes.toml", tmp_path)
    try:
        stops = [finding for finding in technician.look().findings if not finding.acceptable]
        assert {"no-fuse", "fuse-above-wire", "return-above-wire", "foam-over"} <= {
            stop.rule for stop in stops
        }
        for stop in stops:
            refused(technician, AcceptItem(stop.id, "it will be all right", "R. Tester"))
    finally:
        technician.session.close()


def test_a_key_that_bounced_is_no_second_reading(fresh):
    fresh.act(RecordReading("tank.gray.length", "38 1/2"))
    answer = fresh.session.act(RecordReading("tank.gray.length", "38 1/2"), Instant(fresh.at + 5.0))
    assert isinstance(answer, Refused)
    assert answer.ask

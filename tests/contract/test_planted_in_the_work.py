"""Mistakes planted in a job that was otherwise done without one: each must stop closing, or be told, at its place.

The whole job on the small demo rig is worked once; each mistake changes what was recorded of it.
"""

from collections.abc import Callable
from typing import NamedTuple

import msgspec
import pytest

from logic.assessment.assess import assess
from logic.data.profile import Profile
from logic.data.state import Instant, Reading, State, StepEvent, Tick
from tests.technician import RIGS, Technician

INCH = 0.0254
Change = Callable[[State], State]


class Job(NamedTuple):
    profile: Profile
    state: State
    now: Instant


@pytest.fixture(scope="module")
def job(tmp_path_factory) -> Job:
    technician = Technician(RIGS / "two-tanks.toml", tmp_path_factory.mktemp("job"))
    try:
        technician.work()
        return Job(technician.session.profile, technician.session.state, technician.now)
    finally:
        technician.session.close()


def found(job: Job, state: State) -> set[str]:
    return {finding.id for finding in assess(job.profile, state, job.now).findings}


# --- what may go wrong ---


def unread(*slots: str) -> Change:
    """Readings that were never taken."""
    return lambda state: msgspec.structs.replace(
        state, readings=tuple(reading for reading in state.readings if reading.slot not in slots)
    )


def last_read(
    slot: str, value: Callable[[float], float], *, over: bool = False, all_of: bool = False
) -> Change:
    """The last reading of a slot (or all of them) read as something else."""

    def change(state: State) -> State:
        those = [number for number, reading in enumerate(state.readings) if reading.slot == slot]
        those = those if all_of else those[-1:]
        readings = list(state.readings)
        for number in those:
            readings[number] = msgspec.structs.replace(
                readings[number], value=value(readings[number].value), over=over
            )
        return msgspec.structs.replace(state, readings=tuple(readings))

    return change


def once(slot: str) -> Change:
    """A slot read only once."""

    def change(state: State) -> State:
        last = max(number for number, reading in enumerate(state.readings) if reading.slot == slot)
        return msgspec.structs.replace(
            state, readings=tuple(each for number, each in enumerate(state.readings) if number != last)
        )

    return change


def reads(**slots: float) -> Change:
    """More readings at the end, twice each; a name's `__` is the slot's dot."""

    def change(state: State) -> State:
        assert state.last is not None
        readings = list(state.readings)
        for turn in range(2):
            for number, (name, value) in enumerate(slots.items()):
                readings.append(
                    Reading(
                        id=f"zz-{turn}-{number}",
                        slot=name.replace("__", ".").replace("_pad", "-pad"),
                        typed=str(value),
                        value=value,
                        when=Instant(state.last.at + 60.0 * (1 + turn), state.last.offset),
                    )
                )
        return msgspec.structs.replace(state, readings=tuple(readings))

    return change


def undone(step: str) -> Change:
    """A step that was never done."""
    return lambda state: msgspec.structs.replace(
        state, steps=tuple(event for event in state.steps if event.step != step)
    )


def ended(step: str, kind: str) -> Change:
    """A step that was held, or skipped, in place of being done."""

    def change(state: State) -> State:
        kept = [event for event in state.steps if event.step != step]
        at = next(event.when for event in state.steps if event.step == step)
        event = StepEvent(
            id="zz-held", step=step, kind=kind, when=at, note="too dark to see", name="R. Tester"
        )
        return msgspec.structs.replace(
            state, steps=tuple(sorted([*kept, event], key=lambda each: each.when.at))
        )

    return change


def cut_short(part: str, length: float) -> Change:
    def change(state: State) -> State:
        assert state.last is not None
        return msgspec.structs.replace(state, ticks=(Tick(part=part, when=state.last, length=length),))

    return change


def is_now(value: float) -> Callable[[float], float]:
    return lambda _: value


def off_by(value: float) -> Callable[[float], float]:
    return lambda read: read + value


# What went wrong · how · what must be found
MISTAKES: list[tuple[str, Change, str]] = [
    # readings
    ("a length read once only", once("tank.gray.length"), "single:tank.gray.length"),
    ("a height never read", unread("tank.gray.height"), "planned:tank.gray.height"),
    ("a route never measured", unread("run.gray-feed.length"), "planned:run.gray-feed.length"),
    ("a length an inch off", last_read("tank.gray.length", off_by(INCH)), "dispute:tank.gray.length"),
    ("a pad's width an inch off", last_read("heater.gray-pad.width", off_by(-INCH)), "dispute:heater.gray-pad.width"),
    ("an outlet measured from the wrong corner", last_read("tank.gray.outlet.x", is_now(0.1), all_of=True),
     "far-from-plan:tank.gray.outlet.x"),
    ("a width typed into the slot of the height", last_read("tank.gray.height", is_now(21 * INCH), all_of=True),
     "far-from-plan:tank.gray.height"),
    ("a wall as thick as half the tank", reads(tank__gray__wall=0.2), "impossible:tank.gray.wall"),
    ("a fall deeper than the tank", last_read("tank.black.fall", is_now(0.4), all_of=True),
     "impossible:tank.black.fall"),
    ("a pad marked out over the rib", reads(heater__gray_pad__x=8 * INCH, heater__gray_pad__y=2 * INCH),
     "pad-fit:heater.gray-pad"),
    ("a pad marked out closer to the rib than the tape can tell",
     reads(heater__gray_pad__x=15.54 * INCH, heater__gray_pad__y=1 * INCH), "pad-tight:heater.gray-pad"),
    ("a rib that turns out to lie under the pad",
     reads(tank__gray__keepout__1__x=24 * INCH, heater__gray_pad__x=18 * INCH, heater__gray_pad__y=1 * INCH),
     "pad-fit:heater.gray-pad"),
    # tests
    ("a pad's resistance never measured", unread("heater.gray-pad.resistance"), "untested:heater.gray-pad.resistance"),
    ("volts at a pad never measured", unread("heater.black-pad.volts"), "untested:heater.black-pad.volts"),
    ("isolation never measured", unread("run.gray-feed.isolation"), "untested:run.gray-feed.isolation"),
    ("current never measured", unread("run.black-feed.current"), "untested:run.black-feed.current"),
    ("an open pad", last_read("heater.gray-pad.resistance", is_now(20e6), over=True, all_of=True),
     "resistance:heater.gray-pad"),
    ("a pad of the wrong watts", last_read("heater.gray-pad.resistance", is_now(2.4), all_of=True),
     "resistance:heater.gray-pad"),
    ("a pad with half its element dead", last_read("run.gray-feed.current", lambda amps: amps / 2),
     "current:run.gray-feed"),
    ("another heater on the same circuit", last_read("run.gray-feed.current", lambda amps: amps * 1.6),
     "current:run.gray-feed"),
    ("a volt lost on the way to a pad", last_read("heater.gray-pad.volts", off_by(-1.0)), "volts:heater.gray-pad"),
    ("a harness chafed through to the chassis", last_read("run.gray-feed.isolation", is_now(2e5)),
     "isolation:run.gray-feed"),
    ("wet edges that leak to the chassis", last_read("run.black-feed.isolation", is_now(4e5)),
     "isolation:run.black-feed"),
    ("a splice of 200 mΩ on the way out", last_read("heater.gray-pad.drop_out", off_by(0.7)), "joint:heater.gray-pad"),
    ("a poor return", last_read("heater.black-pad.drop_back", off_by(0.5)), "joint:heater.black-pad"),
    # bonding
    ("a pad bonded to a wall of 5 °C", last_read("work.surface", is_now(5.0), all_of=True),
     "surface:heater.gray-pad"),
    ("a pad bonded near the dew point", last_read("work.humidity", is_now(0.95), all_of=True),
     "dew:heater.black-pad"),
    # wire
    ("a route that turned out longer than the wire cut for it", cut_short("cut:run.gray-feed", 3.0),
     "recut:run.gray-feed"),
    # the work
    ("a step left held", ended("photographs:rig", "held"), "held-step:photographs:rig"),
    ("a step skipped and not accepted", ended("photographs:rig", "skipped"), "open-step:photographs:rig"),
]  # fmt: skip

# Steps of the job that are left out, one at a time: their rule is `open-step`, and `confirm` for what is confirmed.
LEFT_OUT = (
    "drain-flush:tank.gray", "seen-or-not:rig", "corner-zero:tank.gray", "dry:tank.gray", "mark-out:heater.gray-pad",
    "dry-fit:heater.gray-pad", "alcohol:heater.black-pad", "seal-edges:heater.gray-pad", "clamp:run.gray-feed",
    "splice:run.gray-feed", "fuse-holder:run.gray-feed", "chill:heater.gray-pad", "warm:heater.black-pad",
    "thermostat:heater.gray-pad", "leak-check:tank.gray", "isolation-wet:run.gray-feed", "photographs:rig", "label:rig",
    "last-walk:rig",
)  # fmt: skip


def test_the_job_itself_has_no_stop(job):
    end = assess(job.profile, job.state, job.now)
    assert end.verdict.closable
    assert not {finding for _, _, finding in MISTAKES} & {finding.id for finding in end.findings}


@pytest.mark.parametrize(
    ("plant", "expected"), [row[1:] for row in MISTAKES], ids=[row[0] for row in MISTAKES]
)
def test_a_mistake_in_the_work_is_found(job, plant, expected):
    end = assess(job.profile, plant(job.state), job.now)
    told = {finding.id: finding.weight for finding in end.findings}
    assert expected in told
    if told[expected] == "stop":
        assert not end.verdict.closable


@pytest.mark.parametrize("step", LEFT_OUT)
def test_a_step_left_out_stops_closing(job, step):
    end = assess(job.profile, undone(step)(job.state), job.now)
    assert f"open-step:{step}" in {finding.id for finding in end.findings}
    assert not end.verdict.closable


def test_each_thing_to_be_confirmed_stops_closing_until_it_is(job):
    steps = [step.id for step in assess(job.profile, job.state, job.now).steps if step.group == "confirm"]
    assert len(steps) >= 8
    for step in steps:
        end = assess(job.profile, undone(step)(job.state), job.now)
        assert f"confirm:{step}" in {finding.id for finding in end.findings}, step
        assert not end.verdict.closable

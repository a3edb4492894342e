"""A session's record for tests, written down as it would happen: readings, steps, the clock."""

from __future__ import annotations

from typing import Any

import msgspec

from logic.assessment.case import Case
from logic.assessment.findings.rule import findings_of
from logic.assessment.steps.layout import layout_of, planned_steps
from logic.assessment.steps.order import MAKE_SAFE
from logic.assessment.work import steps_of
from logic.data.figure import Figure
from logic.data.finding import Acceptance
from logic.data.profile import Profile
from logic.data.state import Day, Instant, Reading, State, StepEvent
from logic.data.step import Step
from logic.data.wording import words
from tests import rig_builder as rb
from tests.technician import MADE_SAFE

HOUR = 3600.0
MINUTE = 60.0
DAY = 24 * HOUR
MORNING = 20_000 * DAY + 8 * HOUR  # 08:00 of some day, UTC


TWO = rb.profile(
    tanks=(rb.tank(), rb.tank("black", holds="black")),
    heaters=(rb.heater(), rb.heater("black-a", on="black")),
    runs=(rb.run("front", feeds=("galley-a",)), rb.run("rear", feeds=("black-a",))),
)


class Log:
    """Writes a state event by event. `at` is the time of the next one; each takes a second."""

    def __init__(self, profile: Profile, *, at: float = MORNING, offset: int = 0) -> None:
        self.profile = profile
        self.at = at
        self.offset = offset
        self.count = 0
        self.readings: list[Reading] = []
        self.steps: list[StepEvent] = []
        self.accepted: list[tuple[str, Acceptance]] = []
        self.days: list[Day] = []

    def _next(self) -> tuple[str, Instant]:
        self.count += 1
        when = Instant(self.at, self.offset)
        self.at += 1.0
        return f"event-{self.count:08d}", when

    def wait(self, seconds: float) -> Log:
        self.at += seconds
        return self

    def read(self, slot: str, value: float, *, resolution: float | None = None, over: bool = False) -> Log:
        name, when = self._next()
        self.readings.append(
            Reading(
                id=name, slot=slot, typed=str(value), value=value, when=when, resolution=resolution, over=over
            )
        )
        return self

    def weather(self, *, surface: float, air: float = 20.0, humidity: float = 0.4) -> Log:
        """Readings for a bond. [°C, °C, share]"""
        return self.read("work.surface", surface).read("work.air", air).read("work.humidity", humidity)

    def event(self, step: str, kind: str, **fields: Any) -> Log:
        name, when = self._next()
        recorded = tuple(fields.pop("recorded", {}).items())
        self.steps.append(StepEvent(id=name, step=step, kind=kind, when=when, recorded=recorded, **fields))
        return self

    def start(self, step: str) -> Log:
        return self.event(step, "started")

    def done(self, *steps: str, minutes: float = 0.0) -> Log:
        """Each started and done, with what it must have written down; `minutes` between the two."""
        for step in steps:
            written_down = MADE_SAFE.get(step.partition(":")[0], {})
            self.start(step).wait(minutes * MINUTE).event(step, "done", recorded=written_down)
        return self

    def make_safe(self) -> Log:
        return self.done(*MAKE_SAFE)

    def all_of(self, *templates: str) -> Log:
        """Every step of these templates, started and done."""
        for planned in planned_steps(layout_of(self.profile)):
            if planned.template.id in templates:
                self.done(planned.id)
        return self

    def accept(self, finding: str) -> Log:
        self.accepted.append((finding, Acceptance(reason="seen by two", name="R. Tester", at=self.at)))
        return self

    def begin_day(self, *, stop_in: float | None = None) -> Log:
        _, when = self._next()
        self.days.append(Day(began=when, stop_at=None if stop_in is None else when.at + stop_in))
        return self

    def state(self) -> State:
        return State(
            readings=tuple(self.readings),
            steps=tuple(self.steps),
            accepted=tuple(self.accepted),
            days=tuple(self.days),
        )

    def case(self, *, values: dict[str, float] | None = None, now: float | None = None) -> Case:
        """The case at this moment, steps worked out; `values` are figures that the steps ask for."""
        case = Case(
            self.profile, state=self.state(), now=Instant(self.at if now is None else now, self.offset)
        )
        for name, value in (values or {}).items():
            case.figures[name] = _figure(name, value)
        case.steps = steps_of(case)
        return case

    def step(self, step: str, **how: Any) -> Step:
        return next(one for one in self.case(**how).steps if one.id == step)

    def blocks(self, step: str, **how: Any) -> set[str]:
        return {block.id for block in self.step(step, **how).blocks}

    def copy(self) -> Log:
        other = Log(self.profile, at=self.at, offset=self.offset)
        other.count = self.count
        other.readings, other.steps = list(self.readings), list(self.steps)
        other.accepted, other.days = list(self.accepted), list(self.days)
        return other


def _figure(name: str, value: float) -> Figure:
    return Figure(id=name, place="", title=name, unit="", value=value, working=words(""))


def changed(part: Any, **fields: Any) -> Any:
    """A struct with some fields replaced."""
    return msgspec.structs.replace(part, **fields)


def found(log: Log, rule: str) -> list[str]:
    """Ids of what one rule finds."""
    case = log.case()
    return [one.id for one in findings_of(case, dict(case.state.accepted)) if one.rule == rule]

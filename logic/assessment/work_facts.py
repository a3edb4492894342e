"""What happened to the work so far, laid out once: each step's history, what is live, what lapsed.

Nothing here decides what may start; that is `gates.py` and `work.py`.
"""

import itertools
from functools import cached_property

import msgspec

from logic.assessment.case import Case
from logic.assessment.make_safe_record import CIRCUIT, shows_live
from logic.assessment.standing_readings import standing_readings
from logic.assessment.steps.layout import PlannedStep, Relations, layout_of, planned_steps, relations_of
from logic.assessment.steps.order import BY_ID, MAKE_SAFE
from logic.assessment.timers import Dwell, SteadyTime, dwell, happenings_of
from logic.data.state import Instant, Reading, State, StepEvent
from logic.data.work_constants import ALCOHOL_TO_BOND, BREAK, FRESH, LEAK_CHECK, LONGEST_UNSEEN_WORK

# Circuits, and what ends it that one of them is live.
ENERGISE, FUSE_OUT, PROVEN_DEAD = "energise:", "fuse-out:", "proven-dead:rig"


class History(msgspec.Struct, frozen=True):
    """What was recorded of one step. Times are steady ones, in seconds."""

    status: str = ""  # "" | running | held | done | skipped
    started: float | None = None
    ended: float | None = None
    began: Instant | None = None  # `started`, as the clock had it
    finished: Instant | None = None  # `ended`, as the clock had it
    note: str = ""
    times_done: int = 0
    spent: float = 0.0  # s
    timed: bool = False  # `spent` was begun and ended on one day, so it teaches something
    recorded: tuple[tuple[str, str], ...] = ()
    overruled: tuple[str, ...] = ()


UNTOUCHED = History()


class WorkFacts:
    """Everything that steps, gates and findings ask about the work, from one case with a session."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.state = case.state or State()
        layout = layout_of(case.profile)
        self.relations: Relations = relations_of(layout)
        self.planned: tuple[PlannedStep, ...] = planned_steps(layout)
        self.steady = SteadyTime(happenings_of(self.state), case.now)
        self.now = self.steady.now
        self._readings = standing_readings(self.state)
        events: dict[str, list[StepEvent]] = {}
        for event in sorted(self.state.steps, key=lambda event: event.id):
            events.setdefault(event.step, []).append(event)
        self.events = events
        self._groups: dict[str, tuple[PlannedStep, ...]] = {}
        self._histories: dict[str, History] = {}
        self._whys: dict[str, str] = {}
        self._done: dict[str, bool] = {}

    def planned_in(self, group: str) -> tuple[PlannedStep, ...]:
        """The steps of a group, in their order."""
        found = self._groups.get(group)
        if found is None:
            found = tuple(step for step in self.planned if step.template.group == group)
            self._groups[group] = found
        return found

    # --- readings ---

    def standing(self, slot: str) -> tuple[Reading, ...]:
        """The readings of a slot that are not struck, oldest first."""
        return self._readings.get(slot, ())

    def newest(self, slot: str, *, since: float | None = None, until: float | None = None) -> Reading | None:
        """The newest reading of a slot that stands, within steady times; None where there is none. [s]"""
        for reading in reversed(self.standing(slot)):
            at = self.steady.of(reading.id)
            if (since is None or at >= since) and (until is None or at <= until):
                return reading
        return None

    def fresh(self, slot: str, start: float) -> Reading | None:
        """The newest reading of the day in the hour before a start. [s]"""
        return self.newest(slot, since=start - FRESH, until=start)

    def taken_at(self, reading: Reading) -> float:
        return self.steady.of(reading.id)

    # --- steps ---

    def history(self, step: str) -> History:
        found = self._histories.get(step)
        if found is None:
            found = self._histories[step] = self._told(step)
        return found

    def _told(self, step: str) -> History:
        events = self.events.get(step)
        if not events:
            return UNTOUCHED
        template = BY_ID.get(step.partition(":")[0])
        status, note = "", ""
        started = ended = None
        began: Instant | None = None
        finished: Instant | None = None
        running_since: Instant | None = None
        spent, timed, times = 0.0, False, 0
        recorded: dict[str, str] = {}
        overruled: dict[str, None] = {}
        for event in events:
            at = self.steady.of(event.id)
            recorded.update(event.recorded)
            if event.note and template is not None:
                recorded.update(records_in_note(event.note, template.record))
            if event.kind == "overruled":
                overruled[event.gate] = None
            elif event.kind == "started":
                if status != "held" or started is None:
                    started, began, spent, timed = at, event.when, 0.0, True
                status, ended, finished, running_since, note = "running", None, None, event.when, event.note
            elif event.kind == "skipped":
                if template is None or template.skippable:
                    status, note, ended, finished = "skipped", event.note, at, event.when
            elif event.kind in ("held", "done"):
                if running_since is not None:
                    timed = timed and running_since.day() == event.when.day()
                    spent += max(0.0, event.when.at - running_since.at)
                    running_since = None
                elif event.kind == "done" and status != "held":
                    timed = False
                status, note, ended, finished = event.kind, event.note, at, event.when
                times += event.kind == "done"
        if running_since is not None:
            spent += max(0.0, self.case.now.at - running_since.at)
        return History(
            status=status,
            started=started,
            ended=None if status == "running" else ended,
            began=began,
            finished=finished,
            note=note,
            times_done=times,
            spent=spent,
            timed=timed and status == "done",
            recorded=tuple(recorded.items()),
            overruled=tuple(overruled),
        )

    def recorded(self, step: str, key: str) -> str:
        """What was written down under a key, lower case; empty where nothing was."""
        return dict(self.history(step).recorded).get(key, "").strip().lower()

    def is_done(self, step: str) -> bool:
        """Whether a step counts as done: done and not lapsed, a timer's time over, or an accepted skip."""
        found = self._done.get(step)
        if found is None:
            found = self._done[step] = self._is_done(step)
        return found

    def _is_done(self, step: str) -> bool:
        template, _, place = step.partition(":")
        history = self.history(step)
        if history.status == "skipped":
            return self.skip_accepted(step)
        timer = BY_ID[template].timer
        if timer == "dwell":
            facts = self.dwell_of(place.partition(".")[2])
            return facts is not None and facts.reached
        if history.status != "done":
            return False
        if BY_ID[template].make_safe:
            return not self.lapsed(step)
        if timer == "alcohol":
            return not self.alcohol_dried_too_long(step)
        if timer == "leak":
            return self.leak_waited(history)
        return True

    def skip_accepted(self, step: str) -> bool:
        accepted = self.accepted
        return f"open-step:{step}" in accepted or f"confirm:{step}" in accepted

    @cached_property
    def accepted(self) -> frozenset[str]:
        return frozenset(finding for finding, _ in self.state.accepted)

    def leak_waited(self, history: History) -> bool:
        """Whether the half hour lay between a leak check's start and its end."""
        end = history.ended if history.ended is not None else self.now
        return history.started is not None and end - history.started >= LEAK_CHECK - 1e-3

    def alcohol_dried_too_long(self, step: str) -> bool:
        """Whether no bond began within the quarter of an hour after the wipe, and none can any more."""
        wiped = self.history(step).ended
        if wiped is None:
            return False
        bond = self.history("bond-pad:" + step.partition(":")[2])
        begun = bond.started if bond.started is not None else bond.ended
        until = begun if begun is not None and begun >= wiped else self.now
        return until - wiped > ALCOHOL_TO_BOND + 1e-3

    # --- make safe ---

    @cached_property
    def breaks(self) -> tuple[float, ...]:
        """The ends of all breaks of over an hour, the last one perhaps now. [steady s]"""
        done = {
            event.id: self.history_before(event)
            for events in self.events.values()
            for event in events
            if event.kind == "done"
        }
        ends = []
        times = self.steady.times
        gaps = [place for place, (one, next_) in enumerate(itertools.pairwise(times)) if next_ - one > BREAK]
        for before in gaps:
            begun = done.get(self.steady.ids[before + 1])
            gap = times[before + 1] - times[before]
            worked = begun is not None and begun <= times[before] and gap <= LONGEST_UNSEEN_WORK
            if not worked:
                ends.append(times[before + 1])
        if times and self.now - times[-1] > BREAK:
            ends.append(self.now)
        return tuple(ends)

    def history_before(self, done: StepEvent) -> float | None:
        """When the step that ends here was last started, not held since; None: it wasn't. [steady s]"""
        begun = None
        for event in self.events[done.step]:
            if event.id >= done.id:
                break
            if event.kind == "started":
                begun = self.steady.of(event.id)
            elif event.kind in ("held", "done", "skipped"):
                begun = None
        return begun

    def lapsed(self, step: str) -> bool:
        """Whether a make-safe step that was done must be done again."""
        return self.why_lapsed(step) != ""

    def why_lapsed(self, step: str) -> str:
        """`live`, `day`, `break` or `energised`; empty where it holds, or was never done."""
        if step not in self._whys:
            self._whys[step] = self._why_lapsed(step)
        return self._whys[step]

    def _why_lapsed(self, step: str) -> str:
        history = self.history(step)
        done = self._last_done(step)
        if done is None or history.times_done == 0:
            return ""
        at = self.steady.of(done.id)
        if step == PROVEN_DEAD and self._shown_live_since(done):
            return "live"
        if any(when > at for when in self.energised_at):
            return "energised"
        if done.when.day() != self.case.now.day():
            return "day"
        if any(end > at for end in self.breaks):
            return "break"
        return ""

    def _shown_live_since(self, done: StepEvent) -> bool:
        """Whether it was written down after it was proven dead that the circuit shows volts."""
        return any(
            shows_live(dict(event.recorded).get(CIRCUIT, ""))
            for event in self.events[done.step]
            if event.id > done.id
        )

    def _last_done(self, step: str) -> StepEvent | None:
        return next((event for event in reversed(self.events.get(step, ())) if event.kind == "done"), None)

    @cached_property
    def make_safe_holds(self) -> bool:
        return all(self.is_done(step) for step in MAKE_SAFE)

    @cached_property
    def whys_of_make_safe(self) -> frozenset[str]:
        """Why its steps have lapsed, as far as any has: `live`, `day`, `break`, `energised`."""
        return frozenset(why for step in MAKE_SAFE if (why := self.why_lapsed(step)))

    @property
    def make_safe_lapsed(self) -> bool:
        """Whether any of it was done once and must be done again."""
        return bool(self.whys_of_make_safe)

    # --- live ---

    @cached_property
    def energised_at(self) -> tuple[float, ...]:
        """When any circuit was energised. [steady s]"""
        return tuple(
            self.steady.of(event.id)
            for step, events in self.events.items()
            if step.startswith(ENERGISE)
            for event in events
            if event.kind in ("started", "done")
        )

    @cached_property
    def live(self) -> dict[str, float]:
        """The circuits that are live now, by run, and since when. [steady s]"""
        switched: list[tuple[str, StepEvent]] = [
            (step, event)
            for step, events in self.events.items()
            if step.startswith((ENERGISE, FUSE_OUT)) or step == PROVEN_DEAD
            for event in events
        ]
        live: dict[str, float] = {}
        for step, event in sorted(switched, key=lambda one: one[1].id):
            run = step.partition(":run.")[2]
            if step.startswith(ENERGISE) and event.kind in ("started", "done"):
                live.setdefault(run, self.steady.of(event.id))
            elif step.startswith(FUSE_OUT) and event.kind == "done":
                live.pop(run, None)
            elif step == PROVEN_DEAD and event.kind == "done":
                live.clear()
        return live

    def energised_since(self, run: str) -> float | None:
        """When a circuit was last energised, live still or not; None: never. [steady s]"""
        times = [
            self.steady.of(e.id) for e in self.events.get(f"{ENERGISE}run.{run}", ()) if e.kind == "started"
        ]
        times += [
            self.steady.of(e.id)
            for e in self.events.get(f"{ENERGISE}run.{run}", ())
            if e.kind == "done" and self.history_before(e) is None
        ]
        return max(times) if times else None

    # --- adhesive ---

    @cached_property
    def _dwells(self) -> dict[tuple[str, bool], Dwell | None]:
        return {}

    def dwell_of(self, heater: str, *, filling: bool = False) -> Dwell | None:
        """The dwell of a heater's bond: to the full bond, or to filling and energising; None: not bonded."""
        key = (heater, filling)
        if key not in self._dwells:
            self._dwells[key] = self._dwell(heater, filling=filling)
        return self._dwells[key]

    def _dwell(self, heater: str, *, filling: bool) -> Dwell | None:
        bond = self.history(f"bond-pad:heater.{heater}")
        if bond.status != "done" or bond.ended is None:
            return None
        part = self.case.heaters[heater]
        begun = bond.started if bond.started is not None else bond.ended
        surface = [
            (
                max(self.taken_at(one), bond.ended)
                if begun - FRESH <= self.taken_at(one)
                else self.taken_at(one),
                one.value,
            )
            for one in self._readings.get("work.surface", ())
        ]
        return dwell(
            bonded=bond.ended,
            wanted=part.before_filling if filling else part.dwell,
            least=part.least_surface_degc,
            surface=surface,
            now=self.now,
        )

    @cached_property
    def curing(self) -> bool:
        """Whether any adhesive is still inside its time before filling or energising."""
        for heater in self.case.heaters:
            facts = self.dwell_of(heater, filling=True)
            if facts is not None and not facts.reached:
                return True
        return False


def records_in_note(note: str, keys: tuple[str, ...]) -> dict[str, str]:
    """What a note says under a step's own headings: `gas pipe: seen; 120 V cable: not seen`."""
    found = {}
    for part in note.split(";"):
        key, colon, value = part.partition(":")
        if colon and key.strip() in keys:
            found[key.strip()] = value.strip()
    return found


def facts_of(case: Case) -> WorkFacts:
    """The work's facts of a case, laid out once for all who ask."""
    known = case.__dict__.get("_work_facts")
    if known is None:
        known = case.__dict__["_work_facts"] = WorkFacts(case)
    return known

"""A session without a disk and with few, simple figures: what the screen's tests are driven with.

Readings, events, undo and the profile are the real ones; figures, findings and steps are made up, so that a golden
screen changes when the screen does and not when a formula does.
"""

import itertools
from collections.abc import Iterator, Sequence
from typing import Any

import msgspec

from logic.assessment.readings import slot_views, walking_order, with_readings
from logic.assessment.verdict import verdict_of
from logic.data import events as happened
from logic.data.events import Event
from logic.data.figure import Figure
from logic.data.finding import Finding
from logic.data.profile import Profile
from logic.data.profile_check import check_document
from logic.data.profile_edit import added, changed, removed
from logic.data.state import Assessment, Instant, SlotView, State
from logic.data.step import Block, Step
from logic.data.wording import quantity, words
from logic.session.decide import decide
from logic.session.fold import Fold
from logic.session.intents import Intent, NotSaved, Refused, Taken

WEDNESDAY = 1_764_165_000.0  # 2025-11-26 13:50 UTC
HOUR = 3600.0

DOCUMENT: dict[str, Any] = {
    "format": 1,
    "rig": {"name": "two tanks, one day of frost", "kind": "travel trailer"},
    "design": {"low": "-12 degF"},
    "supply": {"chemistry": "lithium", "capacity": "200 Ah"},
    "tank": [
        {
            "id": "gray", "holds": "gray", "shape": "box", "length": "41 in", "width": "24 in", "height": "9 in",
            "place": "open", "outlet": {"x": "38 in", "y": "12 in", "diameter": "3 in"},
        },
        {
            "id": "black", "holds": "black", "shape": "box", "length": "30 in", "width": "20 in", "height": "10 in",
            "place": "open",
        },
    ],
    "drain": [
        {"id": "gray-drain", "tank": "gray", "outside": "3.5 in", "inside": "3.07 in", "length": "18 in"},
    ],
    "heater": [
        {"id": "gray-a", "on": "gray", "watts": "60 W", "length": "18 in", "width": "12 in", "face": "bottom"},
        {"id": "black-a", "on": "black", "watts": "60 W", "length": "18 in", "width": "12 in", "face": "bottom"},
    ],
    "run": [
        {"id": "feed", "from": "supply", "length": "6 ft"},
        {"id": "gray-run", "from": "feed", "length": "9 ft", "feeds": ["gray-a"]},
        {"id": "black-run", "from": "feed", "length": "14 ft", "feeds": ["black-a"]},
    ],
}  # fmt: skip


class FakeClock:
    """A clock that a test sets; each look at it is a second later."""

    def __init__(self, at: float = WEDNESDAY) -> None:
        self.at = at

    def __call__(self) -> Instant:
        return Instant(self.at, 0)

    def on(self, seconds: float) -> None:
        self.at += seconds


class FakeSession:
    """The façade of a session, in memory."""

    def __init__(self, document: dict[str, Any] | None = None, *, at: float = WEDNESDAY) -> None:
        document = document or DOCUMENT
        self._begun = document
        self.id = "fake-1"
        self.notices: tuple[Any, ...] = ()
        self.because = None
        self.unsaved: tuple[Event, ...] = ()
        self.holder_gone = False
        self.fail = ""  # a reason: the next events can't be saved
        self.sent: list[Intent] = []
        self.events: list[Event] = []
        self._ids = (f"e{number:05d}" for number in itertools.count(1))
        self._add(happened.SessionBegun(document["rig"]["name"]), Instant(at))

    # --- what stands ---

    @property
    def read_only(self) -> bool:
        return self.because is not None

    @property
    def state(self) -> State:
        return self._fold.state()

    def edits(self) -> tuple[Event, ...]:
        return tuple(self._fold.edits)

    def check_edits(self, edits: Sequence[Event]) -> None:
        self._with(edits)

    def _with(self, edits: Sequence[Event]) -> tuple[dict[str, Any], Profile]:
        """Document and profile with some edits; raises ProfileFaults."""
        document = self._begun
        for edit in edits:
            payload = edit.payload
            if isinstance(payload, happened.ProfileChanged):
                document = changed(document, payload.path, msgspec.json.decode(payload.value))
            elif isinstance(payload, happened.PartAdded):
                part = msgspec.json.decode(payload.part)
                document = added(document, payload.part_kind, part, place=payload.place)
            elif isinstance(payload, happened.PartRemoved):
                document = removed(document, payload.part_kind, payload.id)
        return document, check_document(document, file="fake")

    def assess(self, now: Instant) -> Assessment:
        return fake_assessment(self.profile, self.state, now)

    # --- recording ---

    foreseen = None

    def foresee(self, intent: Intent, now: Instant) -> Iterator[None]:
        """This one foresees nothing."""
        return iter(())

    def act(self, intent: Intent, now: Instant) -> Taken | Refused | NotSaved:
        self.sent.append(intent)
        if self.because is not None:
            return Refused(self.because)
        decided = decide(intent, self, now)
        if isinstance(decided, Refused):
            return decided
        if self.fail:
            event = Event(next(self._ids), now.at, now.offset, "tester", decided.payload)
            self.unsaved = (*self.unsaved, event)
            return NotSaved(event, decided.said, words(self.fail))
        return Taken(self._add(decided.payload, now), decided.said)

    def save_again(self, now: Instant) -> tuple[Taken, ...] | NotSaved:
        if self.fail:
            return NotSaved(self.unsaved[-1], words("waits"), words(self.fail))
        self.unsaved = ()
        return ()

    def follow(self) -> bool:
        return False

    def may_take_over(self) -> bool:
        return self.holder_gone

    def take_over(self, now: Instant) -> bool:
        if self.holder_gone:
            self.because = None
        return self.because is None

    def gone_words(self) -> Any:
        return words("Ann on tailgate has gone")

    def clock_words(self, now: Instant) -> tuple[Any, ...]:
        return ()

    def close(self) -> None:
        pass

    def _add(self, payload: Any, now: Instant) -> Event:
        event = Event(next(self._ids), now.at, now.offset, "tester", payload)
        self.events.append(event)
        self._fold = Fold(self.events)
        if isinstance(payload, (*happened.PROFILE_EDITS, happened.Undone, happened.SessionBegun)):
            self.document, self.profile = self._with(self._fold.edits)
        return event


# --- an assessment that is made up ---


def fake_assessment(profile: Profile, state: State, now: Instant) -> Assessment:
    """Volumes by plain multiplication, watts that fall with them; a finding for each slot that owes; six steps."""
    views = slot_views(profile, state, now)
    measured = with_readings(profile, views)
    figures = tuple(figure for tank in measured.tanks for figure in tank_figures(measured, tank, views))
    accepted = dict(state.accepted)
    findings = tuple(
        msgspec.structs.replace(finding, accepted=accepted.get(finding.id))
        for finding in fake_findings(views)
    )
    return Assessment(
        profile=measured,
        planned=profile,
        figures=(*figures, nights(measured)),
        findings=findings,
        verdict=verdict_of(findings, state.items),
        now=now,
        slots=views,
        wanted=walking_order(views, state),
        steps=fake_steps(state, now),
        minutes_left=140.0,
        under_left=115.0,
        beside_left=40.0,
        moment="survey",
    )


def tank_figures(profile: Profile, tank: Any, views: Sequence[SlotView]) -> list[Figure]:
    place = f"tank.{tank.id}"
    slots = tuple(f"{place}.{name}" for name in ("length", "width", "height"))
    read = any(view.readings for view in views if view.slot in slots)
    volume = tank.length * tank.width * tank.height * 1000.0
    watts = volume / 4.0
    return [
        Figure(
            f"{place}.volume", place, "volume, inside", "L", volume,
            words("{l} × {w} × {h} = {v}", l=quantity(tank.length, "length"), w=quantity(tank.width, "length"),
                  h=quantity(tank.height, "length"), v=quantity(volume / 1000, "volume")),
            sources=("nist-44",), slots=slots, u=volume * 0.004 if read else None,
        ),
        Figure(
            f"{place}.needed", place, "loses at the design low", "W", watts,
            words("made up: a quarter of the litres, {w}", w=quantity(watts, "power")), slots=slots,
            low=watts * 0.75, high=watts * 1.25, banded=True, holds=watts < 40, limit=words("at most 40 W"),
        ),
        Figure(
            f"{place}.holds_to", place, "holds to", "degC", -27.0 if watts < 40 else -11.0, words("made up"),
            slots=slots, low=-34.0, high=-22.0, banded=True,
        ),
        Figure(
            f"{place}.hours_to_thaw", place, "hours to thaw", "h", None, words("made up"),
            why_not=words("nothing is left to thaw with"),
        ),
    ]  # fmt: skip


def nights(profile: Profile) -> Figure:
    return Figure(
        "supply.nights", "supply", "nights", "1", 2.5, words("made up"), holds=False,
        limit=words("{asked} asked", asked=str(profile.design.nights)), low=1.9, high=3.1, banded=True,
    )  # fmt: skip


def fake_findings(views: Sequence[SlotView]) -> list[Finding]:
    found = [
        Finding(
            f"{'dispute' if view.state == 'in dispute' else view.state}:{view.slot}",
            view.state,
            "stop",
            view.slot,
            words("{title} is {state}", title=view.title, state=view.state),
            words("read it {owed} times more", owed=str(view.owed)),
        )
        for view in views
        if view.owed
    ]
    return [
        *found[:3],
        Finding(
            "drain-first:drain.gray-drain", "drain-first", "use", "drain.gray-drain",
            words("ice in the drain before its tank, after {hours}", hours=quantity(2.9 * HOUR, "hours")),
            words("a wrap on it, or {thick} of insulation", thick=quantity(0.0254, "length")), open=True,
        ),
        Finding(
            "battery:supply", "battery", "use", "supply", words("2.5 nights of the 3 asked"),
            words("{more} more", more=quantity(40.0, "charge")),
        ),
        Finding(
            "pad-far:heater.gray-a", "pad-far", "note", "heater.gray-a",
            words("{far} from the outlet", far=quantity(13 * 0.0254, "length")), words("nearer, if it fits"),
        ),
        Finding(
            "no-fuse:run.feed", "no-fuse", "stop", "run.feed", words("no fuse"), words("a fuse of 10 A"),
            acceptable=False,
        ),
    ]  # fmt: skip


STEPS = (
    (
        "dead:rig",
        "make safe",
        "every source off, proven dead",
        15.0,
        False,
        "Shore cord out before the battery.",
        (),
    ),
    ("flush:tank.gray", "plan", "drain and flush", 25.0, False, "", ()),
    ("survey:tank.gray", "survey", "readings, twice", 25.0, True, "", ()),
    ("dry-fit:heater.gray-a", "bond", "dry fit pad gray-a", 10.0, True, "", ()),
    (
        "bond-pad:heater.gray-a",
        "bond",
        "bond pad gray-a",
        25.0,
        True,
        "Solvent vapour away from sparks.",
        ("surface",),
    ),
    ("splice:run.feed", "wire", "splice and seal", 25.0, True, "", ()),
)


def fake_steps(state: State, now: Instant) -> tuple[Step, ...]:
    steps = []
    for step_id, group, title, minutes, under, caution, gates in STEPS:
        template, _, place = step_id.partition(":")
        happened = [event for event in state.steps if event.step == step_id]
        overruled = {event.gate for event in happened if event.kind == "overruled"}
        last = next((event for event in reversed(happened) if event.kind in KINDS), None)
        stands = KINDS[last.kind] if last is not None else "ready"
        blocks = tuple(
            Block(gate, words("wall {t}, wants {w}", t=quantity(7.8, "temperature"), w=quantity(10.0, "temperature")),
                  words("warm water in the tank"), overrulable=True)
            for gate in gates
            if gate not in overruled
        )  # fmt: skip
        if blocks and stands == "ready":
            stands = "waiting"
        started = next((event.when.at for event in reversed(happened) if event.kind == "started"), None)
        steps.append(
            Step(
                id=step_id, template=template, place=place, group=group, title=title, state=stands, minutes=minutes,
                under=under, caution=caution, blocks=blocks, started=started,
                held_note=last.note if last is not None and stands == "held" else "",
                due=started + 2 * HOUR if template == "survey" and started is not None else None,
                record=("pressed", "rolled") if template == "bond-pad" else (),
                skippable=group != "make safe",
            )
        )  # fmt: skip
    return tuple(steps)


KINDS = {"started": "running", "done": "done", "held": "held", "skipped": "skipped"}

"""A session under anything that a person, a copy, a full disk or a killed process may do to it, in any order.

    python -m tests.properties.session_machine SECONDS [SEED]

runs it for long and says how many sessions and deeds it tried; `test_session_machine.py` runs it shortly.
"""

import random
import sys
import tempfile
import time
from math import isfinite
from pathlib import Path

from hypothesis import HealthCheck, seed, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule, run_state_machine_as_test

from logic.data.profile_file import load_profile
from logic.data.rigs_folder import rigs_folder
from logic.data.state import Instant
from logic.session import intents
from logic.session.copy import copy_session, take_in_copy
from logic.session.fold import fold
from logic.session.intents import NotSaved, Refused, Taken
from logic.session.kept_session import Session
from logic.session.session import new_session, open_session
from tests.crash.faulty_files import FaultyFiles, QuickFiles
from tests.crash.kept_sessions import START, end_abruptly, found_in, ids, stray_names
from tests.technician import finished

MEMORY = Path("/dev/shm")
SLOTS = (
    "tank.gray.length", "tank.gray.width", "tank.black.fall", "supply.volts", "run.gray-feed.length",
    "heater.gray-pad.resistance", "work.surface", "tank.none.length",
)  # fmt: skip
TYPED = (
    "41 3/8", "24", "9 1/4", "1051 mm", "-3", "3' 14\"", "12,5", "OL", "2.4", "55", "", "1e9",
    "41 3/8 ± 1/32", "\x1b[2J",
)  # fmt: skip
EDITS = (
    ("design.low", "-20 degF"), ("design.low", "40 parsecs"), ("rig.note", "n" * 300), ("rig.note", None),
    ("tank.gray.length", "40 in"), ("tank.gray.fill", 0.9), ("run.gray-feed.fuse", "none"),
    ("rig.units", "metric"), ("heater.gray-pad.watts", "900 W"), ("tank.black.fall", "30 in"),
    ("supply.capacity", "0 Ah"), ("no.such", 1),
)  # fmt: skip
small = st.integers(0, 60)


class SessionMachine(RuleBasedStateMachine):
    """Two homes with a copy of one session each; `here` is the one worked on."""

    begun, looked = 0, 0  # sessions, and looks at what always holds: one after each deed

    @initialize()
    def begin(self) -> None:
        SessionMachine.begun += 1
        self.folder = tempfile.TemporaryDirectory(
            dir=MEMORY if MEMORY.is_dir() else None, prefix="bellypan-test-"
        )
        self.homes = [Path(self.folder.name) / "a", Path(self.folder.name) / "b"]
        self.seconds = 0.0
        self.files = FaultyFiles()
        loaded = load_profile(rigs_folder() / "two-tanks.toml")
        self.here: Session = new_session(loaded, self.now, home=self.homes[0], by="Ann", files=self.files)
        self.id = self.here.id
        self.taken: list[set[str]] = [{event.id for event in self.here.events}, set()]
        self.at_home = 0
        self.carried = 0

    @property
    def now(self) -> Instant:
        return Instant(START + self.seconds, -3600)

    def send(self, intent: intents.Intent) -> None:
        before, waiting = ids(self.here.events), ids(self.here.unsaved)
        answer = self.here.act(intent, self.now)
        if isinstance(answer, Taken):
            self.taken[self.at_home] |= {answer.event.id, *waiting}
            assert ids(self.here.events) == [*before, *waiting, answer.event.id]
        else:
            saved = set(waiting) - set(ids(self.here.unsaved))  # what waited may have gone through meanwhile
            assert ids(self.here.events) == before + [each for each in waiting if each in saved]
            self.taken[self.at_home] |= saved
            if isinstance(answer, Refused):
                assert answer.reason.template

    # --- what a person does ---

    @rule(slot=st.sampled_from(SLOTS), typed=st.sampled_from(TYPED), confirmed=st.booleans())
    def read(self, slot: str, typed: str, confirmed: bool) -> None:
        self.send(intents.RecordReading(slot, typed, confirmed=confirmed))

    @rule(slot=st.sampled_from(SLOTS), number=st.integers(-1, 4))
    def strike(self, slot: str, number: int) -> None:
        self.send(intents.StrikeReading(slot=slot, number=number))

    @rule(which=small, to=st.sampled_from(SLOTS))
    def move(self, which: int, to: str) -> None:
        readings = self.here.state.readings
        self.send(intents.MoveReading(readings[which % len(readings)].id if readings else "none", to))

    @rule(
        intent=st.sampled_from(
            [
                intents.TakeBackReading(),
                intents.SwapLastTwo(),
                intents.SetTape("1/32"),
                intents.EndDay(),
                intents.BeginDay(),
                intents.MarkSheetMade(),
                intents.TickPart("cut:run.gray-feed", length=4.0),
                intents.TickPart("cut:run.gray-feed", ticked=False),
                intents.WriteNote("n" * 400),
                intents.WriteItem("look again", weight="stop"),
            ]
        )
    )
    def do(self, intent: intents.Intent) -> None:
        self.send(intent)

    @rule(times=st.integers(1, 4), back=st.booleans())
    def undo(self, times: int, back: bool) -> None:
        state = self.here.state
        undone = 0
        for _ in range(times):
            event_count = len(self.here.events)
            self.send(intents.UndoLast())
            undone += len(self.here.events) - event_count
        if back and not self.here.unsaved and self.files.mended:
            for _ in range(undone):
                self.send(intents.RedoLast())
            assert self.here.state == state

    @rule()
    def redo(self) -> None:
        self.send(intents.RedoLast())

    @rule(which=small, what=st.sampled_from(["start", "done", "hold", "skip", "overrule", "record"]))
    def work(self, which: int, what: str) -> None:
        steps = self.here.assess(self.now).steps
        offered = [step for step in steps if not step.blocks] if which % 3 else list(steps)
        step = offered[which % len(offered)]
        self.send(
            {
                "start": intents.StartStep(step.id),
                "done": finished(step.id, "so"),
                "hold": intents.HoldStep(step.id, "rain"),
                "skip": intents.SkipStep(step.id, "no need", "Ann"),
                "overrule": intents.OverruleStep(
                    step.id, step.blocks[0].id if step.blocks else "x", "late", "Ann"
                ),
                "record": intents.RecordInStep(step.id, {"seen": "yes"}),
            }[what]
        )

    @rule(which=small, done=st.booleans())
    def settle(self, which: int, done: bool) -> None:
        items = self.here.state.items
        item = items[which % len(items)].id if items else "none"
        self.send(intents.FinishItem(item) if done else intents.AcceptItem(item, "as it is", "Ann"))

    @rule(which=small)
    def accept(self, which: int) -> None:
        findings = self.here.assess(self.now).findings
        self.send(intents.AcceptItem(findings[which % len(findings)].id, "as it is", "Ann"))

    @rule(edit=st.sampled_from(EDITS))
    def edit(self, edit: tuple[str, object]) -> None:
        self.send(intents.ChangeProfile(*edit))

    @rule(name=st.sampled_from(["valve", "other-valve"]), remove=st.booleans())
    def build(self, name: str, remove: bool) -> None:
        part = {"id": name, "tank": "gray", "outside": "3.5 in", "inside": "3 in", "length": "18 in"}
        self.send(intents.RemovePart("drain", name) if remove else intents.AddPart("drain", part))

    # --- what time, disk and others do ---

    @rule(seconds=st.sampled_from([1.0, 30.0, 700.0, 90_000.0, -3000.0]))
    def wait(self, seconds: float) -> None:
        self.seconds += seconds

    @rule()
    def leave_and_come_back(self) -> None:
        self.mend()
        before = self.here.state, self.here.profile, self.here.document, ids(self.here.events)
        self.here.close()
        self.open()
        assert (self.here.state, self.here.profile, self.here.document, ids(self.here.events)) == before

    @rule()
    def be_killed_and_come_back(self) -> None:
        waiting = bool(self.here.unsaved)
        before = self.here.state, self.here.profile, ids(self.here.events)
        end_abruptly(self.here)
        self.open()
        if not waiting:
            assert (self.here.state, self.here.profile, ids(self.here.events)) == before

    @rule(
        in_calls=st.integers(0, 30), fault=st.sampled_from(["ENOSPC", "EIO", "EROFS"]), lasting=st.booleans()
    )
    def fail(self, in_calls: int, fault: str, lasting: bool) -> None:
        self.files.mended = False
        self.files.fault, self.files.failing, self.files.lasting = fault, self.files.count + in_calls, lasting

    @rule()
    def mend(self) -> None:
        self.files.mended = True
        waiting = {event.id for event in self.here.unsaved}
        assert not isinstance(self.here.save_again(self.now), NotSaved)
        self.taken[self.at_home] |= waiting

    @rule()
    def carry_over(self) -> None:
        """The session's copy in the other home takes this one in, and is worked on from now on."""
        self.mend()
        self.carried += 1
        path = Path(self.folder.name) / f"carried-{self.carried}.json"
        copy_session(self.here, path)
        state, events = self.here.state, ids(self.here.events)
        self.here.close()
        other = 1 - self.at_home
        was_there = bool(self.taken[other])
        take_in_copy(path, self.now, home=self.homes[other], by="Bo", files=QuickFiles())
        self.taken[other] |= self.taken[self.at_home]
        self.at_home = other
        self.open()
        if not was_there or ids(self.here.events) == events:
            assert self.here.state == state

    @rule()
    def change_over(self) -> None:
        """The other copy is worked on, as it is."""
        other = 1 - self.at_home
        if not self.taken[other]:
            return
        self.mend()
        self.here.close()
        self.at_home = other
        self.open()

    def open(self) -> None:
        self.files = FaultyFiles()
        self.files.mended = True
        self.here = open_session(self.id, self.now, home=self.homes[self.at_home], by="Ann", files=self.files)
        assert not self.here.read_only

    # --- what always holds ---

    @invariant()
    def state_is_the_fold_of_its_events(self) -> None:
        SessionMachine.looked += 1
        events = self.here.events
        assert self.here.state == fold(events)
        assert ids(events) == sorted(set(ids(events)))

    @invariant()
    def what_was_taken_is_on_the_disk(self) -> None:
        on_disk = found_in(self.here.folder)
        assert self.taken[self.at_home] <= {event.id for event in on_disk}
        assert set(ids(self.here.events)) <= {event.id for event in on_disk}
        assert {name for name in stray_names(self.here.folder) if not name.endswith(".new")} == set()

    @rule()
    def look(self) -> None:
        """The assessment is sound whatever was recorded."""
        assessment = self.here.assess(self.now)
        for figure in assessment.figures:
            assert figure.value is None or isfinite(figure.value)
            assert (figure.value is None) <= (figure.why_not is not None), figure.id
        open_stops = [
            item for item in self.here.state.items if item.weight == "stop" and item.state == "open"
        ]
        stops = [each for each in assessment.findings if each.weight == "stop" and each.accepted is None]
        assert assessment.verdict.closable == (not open_stops and not stops)

    def teardown(self) -> None:
        if hasattr(self, "here"):
            self.files.mended = True
            self.here.close()
            self.folder.cleanup()


def main(seconds: float, chance: int) -> int:
    """Handfuls of sessions, each with a seed of its own, until the time is up."""
    end = time.monotonic() + seconds
    chosen = settings(
        max_examples=HANDFUL,
        stateful_step_count=60,
        deadline=None,
        database=None,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )
    while time.monotonic() < end:
        print(f"seed {chance}", flush=True)
        seed(chance)(SessionMachine)
        run_state_machine_as_test(SessionMachine, settings=chosen)
        chance += 1
    print(f"{SessionMachine.begun} sessions, {SessionMachine.looked} deeds: nothing found")
    return 0


HANDFUL = 50

if __name__ == "__main__":
    drawn = random.SystemRandom().randrange(1 << 30)
    sys.exit(main(float(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else drawn))

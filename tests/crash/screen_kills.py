"""Kill -9 while someone works at the screen: at random moments, and within each call of a save; then the comparison.

`python -m tests.crash.long_run --screen N` runs it; a few kills are in `test_screen_kill.py`.
"""

import random
import tempfile
import time
from contextlib import suppress
from pathlib import Path

from logic.data.state import Instant
from logic.session.fold import fold
from logic.session.intents import ChangeProfile, Taken
from logic.session.session import open_session
from tests.crash.faulty_files import CALLS, FAULTS
from tests.crash.kept_sessions import HALF_WRITTEN, end_abruptly, stray_names
from tests.crash.screen_session import (
    Deed,
    Killed,
    Person,
    at_the_screen,
    begun_session,
    check_record,
    come_in,
    what_of,
)
from tests.pty.terminal import CTRL_Q

LONGEST_LIFE = 2.5  # s from the session's being ready to the kill
KILLS_OF_ONE_SESSION = 25


class ScreenTally:
    """What was done, and what was found."""

    def __init__(self) -> None:
        self.kills = self.sessions = self.acknowledged = self.beyond = self.torn = self.leaving = 0

    def __str__(self) -> str:
        return (
            f"{self.kills} kills at the screen, {self.leaving} of them while leaving, of {self.sessions} sessions: "
            f"{self.acknowledged} events acknowledged on the screen, 0 lost, "
            f"{self.beyond} on the disk before the screen said so, {self.torn} torn lines"
        )


class Watched:
    """A session as it stood before the screen was opened on it."""

    def __init__(self, home: Path, session_id: str) -> None:
        self.home, self.session_id = home, session_id
        self.before: list[bytes] = []

    def prepare(self, chance: random.Random) -> None:
        """The profile's note gets longer or shorter: so does the file, and again when it is undone at the screen."""
        now = Instant(time.time())
        with open_session(self.session_id, now, home=self.home, by="Ann") as session:
            answer = session.act(ChangeProfile("rig.note", "y" * chance.choice((1, 40, 500))), now)
            assert isinstance(answer, Taken), answer
            self.before = [event.raw for event in session.events]
        assert stray_names(session.folder) == set()

    def check(self, deeds: list[Deed]) -> tuple[int, bool]:
        """How many events are new, and whether a line was torn. Raises AssertionError: something is lost."""
        session = open_session(self.session_id, Instant(time.time()), home=self.home, by="Ann")
        assert not session.read_only, session.because
        raws = [event.raw for event in session.events]
        assert raws[: len(self.before)] == self.before, "earlier events changed"
        assert session.state == fold(session.events)
        new = [what_of(event) for event in session.events[len(self.before) :]]
        check_record(new, deeds)
        strays = stray_names(session.folder, also=HALF_WRITTEN)
        assert strays == set(), strays
        torn = [notice.template for notice in session.notices]
        assert all("last line" in each for each in torn), torn
        end_abruptly(session)  # the next who opens it finds what the kill left
        return len(new), bool(torn)


def kill_at_random(kills: int, seed: int, *, longest_life: float = LONGEST_LIFE) -> ScreenTally:
    """So many kills at random moments. Raises AssertionError at the first loss."""
    tally, chance, number = ScreenTally(), random.Random(seed), 0
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder) / "home"
        while tally.kills < kills:
            if tally.kills % KILLS_OF_ONE_SESSION == 0:
                watched = Watched(home, begun_session(home))
                watched.before = events_of(watched)
                tally.sessions += 1
            if chance.random() < 0.5:
                watched.prepare(chance)  # else the screen itself opens what the last kill left
            leaving = chance.random() < 0.2
            with at_the_screen(watched.session_id, home, journal=chance.randrange(2, 12)) as terminal:
                come_in(terminal)
                life = chance.random() * longest_life
                person = Person(terminal, chance, killed_at=time.monotonic() + life, number=number)
                with suppress(Killed):
                    person.work()
                if leaving:
                    terminal.send(CTRL_Q)
                    time.sleep(chance.random() * 0.1)
                person.end()
            number = person.number
            try:
                new, torn = watched.check(person.deeds)
            except AssertionError as wrong:
                typed = [(*deed.what, deed.acknowledged) for deed in person.deeds]
                raise AssertionError(f"{wrong}\ntyped: {typed}\n{terminal.text}") from None
            acknowledged = sum(deed.acknowledged for deed in person.deeds)
            watched.before = events_of(watched)
            tally.kills += 1
            tally.leaving += leaving
            tally.torn += torn
            tally.acknowledged += acknowledged
            tally.beyond += new - acknowledged
            if tally.kills % 25 == 0:
                print(tally, flush=True)
    return tally


def events_of(watched: Watched) -> list[bytes]:
    """The events on the disk; nothing is touched."""
    now = Instant(time.time())
    with open_session(watched.session_id, now, home=watched.home, read_only=True) as session:
        return [event.raw for event in session.events]


def short_work(person: Person) -> None:
    """The same few things each time: readings, a long text and its undo, a short one, enough to fold in twice."""
    person.take_reading()
    person.take_reading()
    person.write_item()
    person.undo()
    person.take_reading()
    person.strike()
    person.take_reading()


def work_at_a_fault(folder: Path, fault: str = "", failing: int = -1) -> list[str]:
    """The short work at the screen with one call going wrong; the calls that there were, none where it was killed.

    Raises AssertionError: something acknowledged is lost; or, where the program ended by itself, anything typed.
    """
    home, count = folder / "home", folder / "count"
    count.unlink(missing_ok=True)
    watched = Watched(home, begun_session(home))
    watched.before = events_of(watched)
    given = {"fault": fault, "failing": failing} if fault else {}
    with at_the_screen(watched.session_id, home, journal=2, count=count, **given) as terminal:
        person = Person(terminal, random.Random(1))
        try:
            come_in(terminal)
            short_work(person)
            person.leave()
        except Killed:
            pass
        except AssertionError as ended:
            if "the program ended" not in str(ended):
                raise
        person.end()
    watched.check(person.deeds)
    if not count.exists():
        return []
    recorded = set(readings_of(watched))
    assert {deed.what for deed in person.deeds if deed.what[0] == "reading"} <= recorded
    return count.read_text().split("\n")


def readings_of(watched: Watched) -> list[tuple[str, ...]]:
    """The readings on the disk, as typed."""
    now = Instant(time.time())
    with open_session(watched.session_id, now, home=watched.home, read_only=True) as session:
        return [what_of(event) for event in session.events]


def fail_everywhere(every: int) -> str:
    """Each fault at every Nth call. Raises AssertionError at the first loss."""
    with tempfile.TemporaryDirectory() as folder:
        names = work_at_a_fault(Path(folder))
        assert set(names) <= set(CALLS)
        done = killed = 0
        for fault in FAULTS:
            for failing in range(done % every, len(names), every):
                killed += not work_at_a_fault(Path(folder), fault, failing)
                done += 1
            print(f"{fault}: {done} so far, {killed} killed", flush=True)
    return f"{done} faults at {len(names)} calls while the screen ran, {killed} of them deaths: 0 lost"

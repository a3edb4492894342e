"""Kill -9 at random moments, again and again, and compare what is found with what was said to be taken.

    python -m tests.crash.long_run [--kills 1000] [--seed N] [--through core|command]
    python -m tests.crash.long_run --screen 150 [--seed N]
    python -m tests.crash.long_run --screen-faults [--every N]

`core`: a process records readings, notes long and short, undo and redo, changes of the profile, leaves (its journal
folded in, or left beside) and comes back, and folds its journal in every few events, so that the file grows and
shrinks under the kill.
`command`: lines are fed to `bellypan read SESSION -`. `--screen`: someone types at the screen in a terminal, and
counts as taken what the screen says is (`screen_kills.py`); `--screen-faults`: a fault of each kind at every Nth call
that changes the disk, while the screen runs. Exits 1 at the first event that is lost.
"""

import argparse
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from logic.data.state import Instant
from logic.session import store
from logic.session.event_lines import event_line
from logic.session.files import Files
from logic.session.fold import fold
from logic.session.intents import ChangeProfile, RecordReading, RedoLast, Taken, UndoLast, WriteNote
from logic.session.kept_session import Session
from logic.session.session import open_session
from tests.crash.kept_sessions import START, begin, stray_names

KILLS = 1000
LONGEST_WAIT = 0.05  # s from the first word of a process to its end
KILLS_OF_ONE_SESSION = 40
ROOT = Path(__file__).parents[2]


class Tally:
    """What was done, and what was found."""

    def __init__(self) -> None:
        self.kills = self.taken = self.beyond = self.torn = self.sessions = 0

    def __str__(self) -> str:
        return (
            f"{self.kills} kills of {self.sessions} sessions, {self.taken} events said to be taken, 0 lost, "
            f"{self.beyond} on the disk before they were said, {self.torn} torn lines"
        )


def intent_of(chance: random.Random, number: int):  # type: ignore[no-untyped-def]
    """The next thing to record."""
    kind = chance.randrange(10)
    if kind < 4:
        return RecordReading("work.surface", f"{40 + chance.randrange(400) / 10}", confirmed=True)
    if kind < 6:
        return WriteNote("x" * chance.randrange(1, 500))
    if kind < 8:
        return UndoLast()
    if kind == 8:
        return RedoLast()
    return ChangeProfile("rig.note", "y" * chance.randrange(1, 500))


def record_until_killed(session_id: str, home: Path, seed: int, pipe: int) -> None:
    """The child: records, and says so after each, until the end comes."""
    chance = random.Random(seed)
    store.LONGEST_JOURNAL = chance.randrange(2, 30)
    store.LARGE_DOCUMENT = chance.choice((0, 1 << 30))  # the journal stays on leaving, or is folded in
    session = opened(session_id, home)
    for number in range(1_000_000):
        if chance.random() < 0.02:
            session.close()
            session = opened(session_id, home)
        moment = Instant(START + 3600 + number)
        answer = session.act(intent_of(chance, number), moment)
        if isinstance(answer, Taken):
            os.write(pipe, f"taken {answer.event.id}\n".encode())


def opened(session_id: str, home: Path) -> Session:
    return open_session(session_id, Instant(START + 3600), home=home, by="Ann", files=Files())


def through_core(session_id: str, home: Path, chance: random.Random) -> list[str]:
    """One child, killed; the ids that it said were taken."""
    reading, writing = os.pipe()
    seed = chance.randrange(1 << 30)
    child = os.fork()
    if child == 0:
        os.close(reading)
        try:
            record_until_killed(session_id, home, seed, writing)
        finally:
            os._exit(1)
    os.close(writing)
    said = os.read(reading, 1 << 16)  # its first word: it is at work
    time.sleep(chance.random() * LONGEST_WAIT)
    os.kill(child, signal.SIGKILL)
    while part := os.read(reading, 1 << 16):
        said += part
    os.close(reading)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status), "the process ended by itself"
    return [line.split()[1] for line in said.decode().splitlines() if line.startswith("taken ")]


def through_command(session_id: str, home: Path, chance: random.Random) -> list[str]:
    """`bellypan read SESSION -`, killed; the values that it said were taken."""
    child = subprocess.Popen(
        [sys.executable, "-m", "tui.command_line.main", "read", session_id, "-"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        cwd=ROOT,
        env={**os.environ, "BELLYPAN_HOME": str(home)},
    )
    assert child.stdin is not None
    assert child.stdout is not None
    for _ in range(2000):
        child.stdin.write(f"work.surface {chance.randrange(10**6) / 10**4}\n".encode())
    child.stdin.flush()
    said = child.stdout.readline()
    time.sleep(chance.random() * LONGEST_WAIT)
    child.kill()
    said += child.stdout.read()
    child.stdin.close()
    child.stdout.close()
    child.wait()
    return [line.split()[2] for line in said.decode().split("\n")[:-1] if line.startswith("taken ")]


def check(session: Session, said: list[str], before: list[bytes], through: str) -> None:
    """Raises AssertionError: something that was acknowledged isn't there as it was."""
    raws = [event_line(event) for event in session.events]
    assert not session.read_only
    assert raws[: len(before)] == before, "earlier events changed"
    assert session.state == fold(session.events)
    if through == "core":
        assert set(said) <= {event.id for event in session.events}, "an event is lost"
    else:
        typed = [reading.typed for reading in session.state.readings]
        assert typed[-len(said) - 1 :][: len(said)] == said or typed[-len(said) :] == said, (
            "a reading is lost"
        )
    assert stray_names(session.folder) == set() or all(
        name.endswith(".new") for name in stray_names(session.folder)
    ), stray_names(session.folder)


def run(kills: int, seed: int, through: str) -> Tally:
    """So many kills. Raises AssertionError at the first loss."""
    tally, chance = Tally(), random.Random(seed)
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        session_id, before = "", []
        while tally.kills < kills:
            if tally.kills % KILLS_OF_ONE_SESSION == 0:
                session = begin(home)
                session.close()
                session_id, before = session.id, [event_line(event) for event in session.events]
                tally.sessions += 1
            said = (through_core if through == "core" else through_command)(session_id, home, chance)
            session = opened(session_id, home)
            check(session, said, before, through)
            tally.torn += any("last line" in notice.template for notice in session.notices)
            tally.kills += 1
            tally.taken += len(said)
            tally.beyond += len(session.events) - len(before) - len(said)
            before = [event_line(event) for event in session.events]
            if chance.random() < 0.5:
                session.close()
            else:  # the journal that a killed process left goes on
                session._access.lock.release()  # type: ignore[union-attr]
            if tally.kills % 100 == 0:
                print(tally, flush=True)
    return tally


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--kills", type=int, default=KILLS)
    parser.add_argument("--seed", type=int, default=int.from_bytes(os.urandom(4)))
    parser.add_argument("--through", choices=("core", "command"), default="core")
    parser.add_argument("--screen", type=int, metavar="KILLS")
    parser.add_argument("--screen-faults", action="store_true")
    parser.add_argument("--every", type=int, default=1)
    given = parser.parse_args()
    print(f"seed {given.seed}", flush=True)
    if given.screen is not None or given.screen_faults:
        from tests.crash import screen_kills  # pexpect and pyte: only here

        if given.screen is not None:
            print(screen_kills.kill_at_random(given.screen, given.seed))
        if given.screen_faults:
            print(screen_kills.fail_everywhere(given.every))
        return 0
    print(run(given.kills, given.seed, given.through))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())

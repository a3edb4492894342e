"""What the program costs while nobody presses a key: processor time and memory, beside a bare app with one Input.

    python -m tests.benchmarks.idle_cost [seconds]

Both are alive in pseudo-terminals at once, compiled before, after the same key; ours with a session of 10,000
events. Then a session that holds as many as one can is opened. Exit code 1: it takes more than 1.1 × the
processor time or 1.5 × the memory, or more than a second to open; the full one more than 2 s or 300 MiB.
"""

import sys
import tempfile
import time
from pathlib import Path

from logic.session import document
from tests.benchmarks.bare_apps import READY
from tests.benchmarks.timed_terminal import TimedTerminal, environment
from tests.benchmarks.worked_session import worked_session

SECONDS = 60.0
MOST_EVENTS = document.MOST_EVENTS - 10  # a few more may come of it than are asked for
EVENTS = 10_000
MOST_CPU, MOST_MEMORY, MOST_OPENING = 1.1, 1.5, 1.0
MOST_OPENING_FULL, MOST_MEMORY_FULL = 2.0, 300.0  # s, MiB
TICK = 0.01  # s, the grain of the processor's account
BARE = ("-m", "tests.benchmarks.bare_apps", "line")
OPEN = ("-m", "tui.command_line.main", "open")
SHOWN = b"DO NOT CLOSE"


def left_session(scratch: Path, size: int) -> str:
    """The id of a session of so many events, left as it is found the next day."""
    session, _ = worked_session(scratch / "home", size, ended=time.time())
    session.close()
    return session.id


def main(seconds: float = SECONDS) -> int:
    with tempfile.TemporaryDirectory() as folder:
        scratch = Path(folder)
        session, full = left_session(scratch, EVENTS), left_session(scratch, MOST_EVENTS)
        env = environment(scratch)
        for words, sight in (((*OPEN, session), SHOWN), (BARE, READY.encode())):
            with TimedTerminal(*words, env=env) as first:  # compiles
                first.started(sight)
        with TimedTerminal(*OPEN, session, env=env) as ours, TimedTerminal(*BARE, env=env) as bare:
            opening = ours.started(SHOWN)
            ours.quiet(since=ours.begun)
            ours.quiet(since=ours.send("\x1b"))
            bare.started(READY.encode())
            bare.settle()
            bare.send("\x1b")
            bare.settle()
            begun = {ours: ours.cpu(), bare: bare.cpu()}
            end = time.perf_counter() + seconds
            while time.perf_counter() < end:
                for app in (ours, bare):
                    app.rest(0.2)
            spent = {app: app.cpu() - before for app, before in begun.items()}
            memory = {app: app.memory() for app in (ours, bare)}
        with TimedTerminal(*OPEN, full, env=env) as fullest:
            opening_full = fullest.started(SHOWN)
            fullest.quiet(since=fullest.begun)
            memory_full = fullest.memory()
    ratio = memory[ours] / memory[bare]
    print(f"opens {EVENTS} events in {opening * 1e3:.0f} ms, its start included")
    print(
        f"idle for {seconds:.0f} s: ours {spent[ours]:.2f} s, bare line {spent[bare]:.2f} s of processor time"
    )
    print(f"memory: ours {memory[ours]:.0f} MiB, bare line {memory[bare]:.0f} MiB, ratio {ratio:.2f}")
    print(f"opens {MOST_EVENTS} events in {opening_full * 1e3:.0f} ms, then holds {memory_full:.0f} MiB")
    within = (
        spent[ours] <= MOST_CPU * spent[bare] + TICK,
        ratio <= MOST_MEMORY,
        opening <= MOST_OPENING,
        opening_full <= MOST_OPENING_FULL,
        memory_full <= MOST_MEMORY_FULL,
    )
    return 0 if all(within) else 1


if __name__ == "__main__":
    raise SystemExit(main(float(sys.argv[1]) if len(sys.argv) > 1 else SECONDS))

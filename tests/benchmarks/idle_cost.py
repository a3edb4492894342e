"""What the program costs while nobody presses a key: processor time and memory, beside a bare app with one Input.

    python -m tests.benchmarks.idle_cost [seconds]

Both are alive in pseudo-terminals at once, ours with a session of 10,000 events. Exit code 1: it takes more than
1.2 × the processor time or 1.5 × the memory, or more than a second to open.
"""

import sys
import tempfile
import time
from pathlib import Path

from tests.benchmarks.bare_apps import READY
from tests.benchmarks.timed_terminal import TimedTerminal, environment
from tests.benchmarks.worked_session import worked_session

SECONDS = 60.0
EVENTS = 10_000
MOST_CPU, MOST_MEMORY, MOST_OPENING = 1.2, 1.5, 1.0
TICK = 0.01  # s, the grain of the processor's account


def main(seconds: float = SECONDS) -> int:
    with tempfile.TemporaryDirectory() as folder:
        scratch = Path(folder)
        session, _ = worked_session(scratch / "home", EVENTS, ended=time.time())
        session.close()
        env = environment(scratch)
        ours_words = ("-m", "tui.command_line.main", "open", session.id)
        bare_words = ("-m", "tests.benchmarks.bare_apps", "line")
        with TimedTerminal(*ours_words, env=env) as first:  # compiles
            first.started(b"DO NOT CLOSE")
        with TimedTerminal(*ours_words, env=env) as ours, TimedTerminal(*bare_words, env=env) as bare:
            opening = ours.started(b"DO NOT CLOSE")
            ours.quiet(since=ours.begun)
            ours.quiet(since=ours.send("\x1b"))
            bare.started(READY.encode())
            bare.settle()
            begun = {ours: ours.cpu(), bare: bare.cpu()}
            end = time.perf_counter() + seconds
            while time.perf_counter() < end:
                for app in (ours, bare):
                    app.rest(0.2)
            spent = {app: app.cpu() - before for app, before in begun.items()}
            memory = {app: app.memory() for app in (ours, bare)}
    print(f"opens {EVENTS} events in {opening * 1e3:.0f} ms, its start included")
    print(
        f"idle for {seconds:.0f} s: ours {spent[ours]:.2f} s, bare line {spent[bare]:.2f} s of processor time"
    )
    ratio = memory[ours] / memory[bare]
    print(f"memory: ours {memory[ours]:.0f} MiB, bare line {memory[bare]:.0f} MiB, ratio {ratio:.2f}")
    within = spent[ours] <= MOST_CPU * spent[bare] + TICK
    return 0 if within and ratio <= MOST_MEMORY and opening <= MOST_OPENING else 1


if __name__ == "__main__":
    raise SystemExit(main(float(sys.argv[1]) if len(sys.argv) > 1 else SECONDS))

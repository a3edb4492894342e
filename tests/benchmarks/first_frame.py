"""How late the first frame stands, beside a plain four-pane app. By hand:

    python -m tests.benchmarks.first_frame [pairs]

All are started in a pseudo-terminal, in turn, in one run; the clock runs from the start of the process to the
first sight of what only that frame has. Exit code 1: the line is ready later than is allowed.
"""

import sys
import tempfile
import time
from pathlib import Path
from statistics import median

from tests.benchmarks.bare_apps import READY
from tests.benchmarks.timed_terminal import TimedTerminal, environment
from tests.benchmarks.worked_session import worked_session

PAIRS = 25
MOST_RATIO = 1.25
EVENTS = 1_000
LINE_READY = b"opening the session"
SESSION_SHOWN = b"DO NOT CLOSE"
BARE = ("-m", "tests.benchmarks.bare_apps", "panes")


def main(pairs: int = PAIRS) -> int:
    kept: dict[str, list[float]] = {"bare panes": [], "ours, line ready": [], "ours, session shown": []}
    with tempfile.TemporaryDirectory() as folder:
        scratch = Path(folder)
        session, _ = worked_session(scratch / "home", EVENTS, ended=time.time())
        session.close()
        env = environment(scratch)
        ours = ("-m", "tui.command_line.main", "open", session.id)
        for pair in range(pairs + 1):
            with TimedTerminal(*BARE, env=env) as bare:
                bare_ready = bare.started(READY.encode())
            with TimedTerminal(*ours, env=env) as program:
                ready = program.started(LINE_READY)
                shown = program.started(SESSION_SHOWN)
            if pair:  # the first start compiles
                for name, taken in zip(kept, (bare_ready, ready, shown), strict=True):
                    kept[name].append(taken)
    base = median(kept["bare panes"])
    for name, times in kept.items():
        print(
            f"{name:22} {median(times) * 1e3:7.1f} ms  {median(times) / base:5.2f} ×  ({len(times)} starts)"
        )
    return 0 if median(kept["ours, line ready"]) <= MOST_RATIO * base else 1


if __name__ == "__main__":
    raise SystemExit(main(int(sys.argv[1]) if len(sys.argv) > 1 else PAIRS))

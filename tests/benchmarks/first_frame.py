"""How late the first frame stands, beside a plain four-pane app: run by hand, `python -m tests.benchmarks.first_frame`.

Both are started in a pseudo-terminal, in turn, in one run; the clock runs from the start of the process to the first
sight of what only a frame has. Printed are medians and the ratio of the medians; nothing is asserted.
"""

import os
import statistics
import sys
import tempfile
import time
from pathlib import Path

import pexpect

from tests.benchmarks.bare_apps import READY

ROOT = Path(__file__).parents[2]
PAIRS = 25
SIZE = (30, 100)


def seconds_until(arguments: list[str], sight: str, environment: dict[str, str]) -> float:
    """From the start of a program to the first sight of a text on its terminal; the program is then ended. [s]"""
    begin = time.perf_counter()
    child = pexpect.spawn(
        sys.executable, arguments, dimensions=SIZE, env=environment, cwd=str(ROOT), encoding="utf-8", timeout=30
    )
    child.expect_exact(sight)
    taken = time.perf_counter() - begin
    child.sendcontrol("q")
    child.expect(pexpect.EOF)
    child.close()
    return taken


def main(pairs: int = PAIRS) -> None:
    with tempfile.TemporaryDirectory() as home:
        environment = {**os.environ, "BELLYPAN_HOME": home, "TERM": "xterm-256color"}
        ours = ["-m", "tui.command_line.main", "open"]
        bare = ["-m", "tests.benchmarks.bare_apps", "panes"]
        sights = {"ours, the line ready": "Enter", "ours, the session shown": "owed"}
        kept: dict[str, list[float]] = {name: [] for name in (*sights, "bare panes")}
        seconds_until([*ours, "rigs/full-belly.toml"], "owed", environment)
        for _ in range(pairs):
            kept["bare panes"].append(seconds_until(bare, READY, environment))
            for name, sight in sights.items():
                kept[name].append(seconds_until(ours, sight, environment))
    base = statistics.median(kept["bare panes"])
    for name, times in kept.items():
        middle = statistics.median(times)
        print(f"{name:26} {middle * 1e3:7.1f} ms   {middle / base:5.2f} × bare panes   ({len(times)} runs)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else PAIRS)

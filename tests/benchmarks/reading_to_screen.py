"""From a key to its echo, and from Enter to the new figures on the disk and on the screen, beside bare apps.

    python -m tests.benchmarks.reading_to_screen [pairs]

Ours runs on the full demo rig with a session of 1,000 and of 10,000 events, in a pseudo-terminal, and so do the
bare apps: a single Input for the echo, four panes that repaint as many cells for Enter. All are alive at once and
get their keys in turn. A repaint lasts to the last byte of it; an event is on the disk before ours paints.
Enter comes a moment after the last digit, as from a hand, so that what it shows may have been worked out by then; how
long it takes where it comes in one burst with the digits is printed beside it, and has no limit.
Exit code 1: one of the ratios of medians is over its limit.
"""

import sys
import tempfile
import time
from pathlib import Path
from statistics import median, quantiles

from tests.benchmarks.bare_apps import LINES, READY
from tests.benchmarks.timed_terminal import TimedTerminal, environment
from tests.benchmarks.worked_session import worked_session

PAIRS = 40
SIZES = (1_000, 10_000)
MOST_ECHO = {1_000: 1.3, 10_000: 1.3}
MOST_ENTER = {1_000: 1.3, 10_000: 1.5}
SESSION_SHOWN = b"DO NOT CLOSE"
HAND = 0.15  # s from the last digit to Enter, at the least
SLOT = "fresh len"  # a tank's length, in few keys: figures of three tanks move with it


def echo(app: TimedTerminal, key: str) -> float:
    """[s]"""
    return app.echoed(key, since=app.send(key))


def enter(app: TimedTerminal) -> tuple[float, int]:
    """Seconds to the end of the repaint, and its cells."""
    taken = app.quiet(since=app.send("\r"))
    return taken, app.cells()


def lines_for(cells: int, env: dict[str, str]) -> int:
    """How many lines of each pane the bare app changes to write at least as many cells."""
    for lines in range(LINES + 1):
        with TimedTerminal("-m", "tests.benchmarks.bare_apps", "panes", str(lines), env=env) as bare:
            bare.started(READY.encode())
            bare.quiet(since=bare.send("1"))
            if median(enter(bare)[1] for _ in range(3)) >= cells:
                return lines
    return LINES


class Kept:
    """What was measured for one size of session."""

    def __init__(self) -> None:
        self.echo: dict[str, list[float]] = {"ours": [], "bare line": []}
        self.enter: dict[str, list[float]] = {"ours": [], "bare panes": []}
        self.burst: list[float] = []  # ours, digits and Enter at once
        self.cells: dict[str, list[int]] = {"ours": [], "bare panes": []}


def measure(size: int, pairs: int, scratch: Path) -> Kept:
    kept = Kept()
    home = scratch / f"home-{size}"
    session, _ = worked_session(home, size, ended=time.time())
    session.close()
    env = environment(scratch, home)
    with TimedTerminal("-m", "tui.command_line.main", "open", session.id, env=env) as ours:
        ours.started(SESSION_SHOWN)
        ours.quiet(since=ours.begun)
        ours.quiet(since=ours.send("\x1b"))  # leaves what is said on coming back
        cells = []
        for turn in range(4):
            record(ours, -1 - turn)
            cells.append(enter(ours)[1])
        lines = lines_for(int(median(cells[1:])), env)
        with (
            TimedTerminal("-m", "tests.benchmarks.bare_apps", "line", env=env) as line,
            TimedTerminal("-m", "tests.benchmarks.bare_apps", "panes", str(lines), env=env) as panes,
        ):
            for bare in (line, panes):
                bare.started(READY.encode())
                bare.quiet(since=bare.begun)
            for turn in range(pairs):
                kept.echo["bare line"].append(echo(line, "48"[turn % 2]))
                kept.echo["ours"].append(record(ours, turn))
                panes.quiet(since=panes.send("1"))
                time.sleep(HAND)
                for name, app in (("bare panes", panes), ("ours", ours)):
                    taken, written = enter(app)
                    kept.enter[name].append(taken)
                    kept.cells[name].append(written)
                kept.burst.append(ours.quiet(since=ours.send(f"{typed_reading(turn + 0.5)}\r")))
    return kept


def typed_reading(turn: float) -> str:
    """[in] Never the same twice, which would be asked about."""
    return f"{SLOT} {48 + turn / 100:.3f}"


def record(ours: TimedTerminal, turn: int) -> float:
    """Type a reading, all but Enter; how long its last key's echo took. [s]"""
    typed = typed_reading(turn)
    ours.quiet(since=ours.send(typed[:-1]))
    taken = echo(ours, typed[-1])
    ours.settle()
    return taken


def told(name: str, times: dict[str, list[float]], most: float) -> bool:
    """Print both medians and their ratio; whether it is within its limit."""
    ours, bare = (median(times[key]) for key in (next(iter(times)), list(times)[1]))
    worst = quantiles(times["ours"], n=20)[-1]
    ratio = ours / bare
    print(
        f"  {name:6} ours {ours * 1e3:6.1f} ms (95 %: {worst * 1e3:.1f})  {list(times)[1]} {bare * 1e3:6.1f} ms  "
        f"ratio {ratio:.2f}, at most {most}"
    )
    return ratio <= most


def main(pairs: int = PAIRS) -> int:
    within = True
    with tempfile.TemporaryDirectory() as folder:
        for size in SIZES:
            kept = measure(size, pairs, Path(folder))
            cells = {name: int(median(many)) for name, many in kept.cells.items()}
            print(f"{size} events, {pairs} pairs, cells written at Enter {cells}")
            within &= told("echo", kept.echo, MOST_ECHO[size])
            within &= told("enter", kept.enter, MOST_ENTER[size])
            print(f"  enter in one burst with the digits {median(kept.burst) * 1e3:.1f} ms")
    return 0 if within else 1


if __name__ == "__main__":
    raise SystemExit(main(int(sys.argv[1]) if len(sys.argv) > 1 else PAIRS))

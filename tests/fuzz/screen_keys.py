"""Random keys, clicks, pastes and sizes on the screen: it stays whole, and shows what the events come to.

    python -m tests.fuzz.screen_keys SECONDS [SEED]

One case is one session: some hundred keys in bursts, as from a hand, a glove on the keyboard, or a scanner. After
each burst the screen is painted whole, the terminal shows what is painted, and the session's state is the fold of its
events; at the end the session is opened again from the disk. Cases are numbered from the seed on, so that each can be
tried again by itself.
"""

import asyncio
import os
import random
import sys
import tempfile
import time
from collections import Counter
from contextlib import chdir
from pathlib import Path

from textual import events

from logic.session.fold import fold
from logic.session.session import open_session
from tests.screens.driver import Driven
from tests.screens.fake import FakeClock
from tests.screens.real import FULL, MISTAKES, TWO_TANKS, assert_painted_whole, at_work
from tests.screens.terminal_beside import Beside, terminal_beside
from tui.bindings import KEYED
from tui.screens.start import Start
from tui.show.marks import SIGNS

BURSTS, MOST_KEYS = 40, 12
SIZES = ((80, 24), (100, 30), (160, 50), (60, 15), (99, 29), (200, 24))
MOVES = (
    "enter", "enter", "escape", "escape", "tab", "shift+tab", "up", "down", "left", "right", "pageup", "pagedown",
    "home", "end", "backspace", "delete", "shift+left", "shift+right", "ctrl+a", "ctrl+u", "ctrl+p",
)  # fmt: skip
LETTERS_AND_DIGITS = "0123456789 0123456789 /.-'\";?,½abglnowxyzΩ界é"
TEXTS = (
    "41 3/8", "24", "9 1/2", "12.6", "OL", "gray len 41", "black h 9", "feed 6 ft", "1; 2; 3", "41,375", "413/8", "yes",
    "J. Doe", "because", "proven", "0 V", "16:30", "[red]x[/]", "\x1b[2J", "=1+1", "\u202e123", "x" * 300,
)  # fmt: skip
KINDS = ("keys", "keys", "keys", "text", "reading", "act", "mouse", "size", "time", "paste")
PAUSES = (0.0, 0.0, 0.0, 0.02, 0.1)  # s between keys: now and then long enough for a look ahead
STEPS_OF_TIME = (0.5, 7.0, 60.0, 700.0, 3 * 3600.0, 20 * 3600.0, -30.0)  # s


async def burst(driver: Driven, chance: random.Random) -> str:
    """Do one thing, or press some keys; what was done."""
    kind = chance.choice(KINDS)
    app = driver.app
    if kind == "keys":
        for _ in range(chance.randint(1, MOST_KEYS)):
            await driver.press(
                chance.choice(MOVES) if chance.random() < 0.5 else chance.choice(LETTERS_AND_DIGITS)
            )
            await asyncio.sleep(chance.choice(PAUSES))
    elif kind == "text":
        text = "".join(sign for sign in chance.choice(TEXTS) if sign.isprintable())
        await driver.type(f"{text}\n" if chance.random() < 0.8 else text)
    elif kind == "reading":
        await driver.press("escape", "escape", "escape")
        await driver.type(f"{chance.randint(4, 60)} {chance.choice(('', '1/2', '3/8'))}\n")
    elif kind == "act":
        await driver.press(chance.choice(KEYED).key)
        await driver.press(*chance.choices((*MOVES, *LETTERS_AND_DIGITS), k=chance.randint(0, 4)))
    elif kind == "mouse":
        x, y = chance.randrange(app.size.width), chance.randrange(app.size.height)
        await driver.pilot.click(offset=(x, y))
    elif kind == "size":
        await driver.pilot.resize_terminal(*chance.choice(SIZES))
    elif kind == "time":
        driver.clock.on(chance.choice(STEPS_OF_TIME))
        if getattr(app, "_wiring", None) is not None:
            app.tick()
    else:
        app._driver.send_message(events.Paste(chance.choice(TEXTS)))
    return kind


async def check(driver: Driven, terminal: Beside) -> None:
    """What holds whatever was pressed."""
    session = driver.session
    assert session.state == fold(session.events)
    verdict = driver.app.wiring.snapshot().assessment.verdict
    assert not (verdict.closable and verdict.stop)
    assert_painted_whole(driver)
    await terminal.shows_what_is_painted(driver)


async def case(number: int, home: Path, terminal: Beside, bursts: int = BURSTS) -> Counter[str]:
    """One session of random keys; what was done how often. Raises what went wrong."""
    chance = random.Random(number)
    done: Counter[str] = Counter()
    rig, size = chance.choice((TWO_TANKS, TWO_TANKS, MISTAKES, FULL)), chance.choice(SIZES)
    async with at_work(rig, home, size) as driver:
        for _ in range(bursts):
            done[await burst(driver, chance)] += 1
            await driver.settle()
            if driver.app._exit:  # another rig was asked for, or to leave
                done["left"] += 1
                break
            await check(driver, terminal)
        session, now = driver.session, driver.clock()
        kept = list(session.events)
        done["events"] += len(kept)
    again = open_session(session.folder, now, home=home, read_only=True)
    assert list(again.events) == kept
    assert again.state == fold(kept)
    return done


async def start_case(number: int, home: Path, terminal: Beside, bursts: int = BURSTS) -> Counter[str]:
    """Random keys in the list of the first start, and in the questions of a new rig."""
    chance = random.Random(number)
    done: Counter[str] = Counter()
    os.environ["BELLYPAN_HOME"] = str(home)
    app = Start(SIGNS)
    async with app.run_test(size=chance.choice(SIZES)) as pilot:
        driver = Driven(app, pilot, None, FakeClock())  # type: ignore[arg-type]
        await driver.until(lambda: app.screen_stack and app.screen.is_mounted)
        if chance.random() < 0.7:
            await driver.press("1")  # a new rig
        for _ in range(bursts):
            done[await burst(driver, chance)] += 1
            await driver.settle()
            if app._exit:
                break
            assert_painted_whole(driver)
            await terminal.shows_what_is_painted(driver)
    if app.return_value is not None:
        app.return_value.close()
        done["sessions begun"] += 1
    return done


def tried(number: int, home: Path) -> Counter[str]:
    """A case by its number: one in five begins before there is a session."""
    with chdir(home), terminal_beside() as terminal:  # a copy may be asked for under any name
        return asyncio.run((start_case if number % 5 == 0 else case)(number, home / "kept", terminal))


def main(seconds: float, seed: int) -> int:
    counts: Counter[str] = Counter()
    end, number = time.monotonic() + seconds, seed * 1_000_000
    while time.monotonic() < end:
        number += 1
        with tempfile.TemporaryDirectory() as home:
            try:
                counts += tried(number, Path(home))
                counts["cases"] += 1
            except (Exception, SystemExit) as wrong:
                counts["FOUND"] += 1
                print(f"case {number}: {type(wrong).__name__}: {wrong}"[:1500], flush=True)
    print("\n".join(f"{count:>9} {name}" for name, count in sorted(counts.items())))
    return 1 if counts["FOUND"] else 0


if __name__ == "__main__":
    sys.exit(main(float(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1))

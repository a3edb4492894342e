"""A burst of keys comes to the same as the same keys one after the other, whatever they open and leave.

Random keys, each case by its number: forms, lists, screens and panes are opened, typed into and left within one burst.
"""

import random

import pytest

from tests.screens.driver import LARGE, SMALL
from tests.screens.real import TWO_TANKS, at_work

WORDS = ("41 3/8", "gray wall 1/4", "strap bent", "3", "hold", "24; 9 1/8", "black", "x")
LEAVING = ("enter", "enter", "enter", "escape", "escape")
OPENING = ("f4", "f9", "ctrl+s", "ctrl+p", "ctrl+t", "ctrl+l", "ctrl+r", "ctrl+f", "ctrl+o", "f1")
MOVING = (
    "f5",
    "f6",
    "f7",
    "f8",
    "tab",
    "up",
    "down",
    "pagedown",
    "home",
    "end",
    "backspace",
    "f2",
    "f3",
    "ctrl+z",
)
BURSTS, MOST_KEYS = 4, 10


def keys_of(number: int) -> list[list[str]]:
    chance = random.Random(f"in turn {number}")
    bursts = []
    for _ in range(BURSTS):
        keys: list[str] = []
        for _ in range(chance.randint(2, MOST_KEYS)):
            kind = chance.choice((WORDS, LEAVING, LEAVING, OPENING, MOVING))
            key = chance.choice(kind)
            keys.extend(key if kind is WORDS else [key])
        bursts.append(keys)
    return bursts


async def outcome(home, bursts: list[list[str]], size: tuple[int, int], *, in_bursts: bool):
    """What was recorded and what stands on the screen after each burst."""
    seen = []
    async with at_work(TWO_TANKS, home, size) as driver:
        for keys in bursts:
            for part in [keys] if in_bursts else [[key] for key in keys]:
                await driver.press(*part)
                await driver.settle()
            focused = driver.app.focused
            recorded = [type(event.payload).__name__ for event in driver.session.events]
            typed = [
                (reading.slot, reading.typed, reading.struck) for reading in driver.session.state.readings
            ]
            seen.append(
                (
                    recorded,
                    typed,
                    type(driver.app.screen).__name__,
                    focused and focused.id,
                    driver.app.desk.line.value,
                )
            )
    return seen


@pytest.mark.parametrize("number", range(6))
async def test_a_burst_is_its_keys_one_by_one(tmp_path, number):
    bursts, size = keys_of(number), (LARGE, SMALL)[number % 2]
    slow = await outcome(tmp_path / "slow", bursts, size, in_bursts=False)
    fast = await outcome(tmp_path / "fast", bursts, size, in_bursts=True)
    assert fast == slow, bursts

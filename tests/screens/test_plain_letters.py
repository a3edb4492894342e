"""A terminal that has plain letters only: no sign of ours is left on any screen that it may lack."""

import pytest

from tests.screens.driver import SMALL, Driven, driven
from tests.screens.fake import FakeClock
from tests.screens.real import MISTAKES, session_of, shown
from tui.screens.start import Start
from tui.show.marks import LETTERS

# Beside ISO 8859-1 only the ohm, which consoles' fonts have.
KNOWN = "Ω"
KEYS = (
    "f5",
    "f6",
    "f7",
    "f8",
    "f1",
    "f4",
    "f9",
    "f10",
    "ctrl+n",
    "ctrl+g",
    "ctrl+t",
    "ctrl+l",
    "ctrl+o",
    "ctrl+r",
)


def strange(text: str) -> set[str]:
    return {sign for sign in text if ord(sign) > 255 and sign not in KNOWN}


@pytest.mark.parametrize("size", [SMALL, (100, 30)], ids=["80x24", "100x30"])
async def test_no_screen_has_a_sign_that_the_terminal_may_lack(tmp_path, size):
    clock = FakeClock()
    session = session_of(MISTAKES, tmp_path, clock)
    async with driven(size, session=session, clock=clock, marks=LETTERS) as driver:
        await driver.take("41 3/8")
        for key in KEYS:
            await driver.press(key)
            await driver.settle()
            assert strange(driver.text) == set(), (key, driver.text)
            while driver.app.screen is not driver.app.desk:
                over = driver.app.screen
                await driver.press("escape")
                await driver.until(lambda over=over: driver.app.screen is not over)
    session.close()


async def test_minus_is_there(tmp_path):
    clock = FakeClock()
    session = session_of(MISTAKES, tmp_path, clock)
    async with driven((100, 60), session=session, clock=clock, marks=LETTERS) as driver:
        before = shown(driver, "tank.gray.effective")
        assert before.startswith("−")
        await driver.sees(f" {before.replace('−', '-')} ")
    session.close()


async def test_list_of_the_start_has_plain_marks(tmp_path, monkeypatch):
    monkeypatch.setenv("BELLYPAN_HOME", str(tmp_path))
    app = Start(LETTERS)
    async with app.run_test(size=SMALL) as pilot:
        driver = Driven(app, pilot, None, None)
        await driver.sees("> 1 a new rig")

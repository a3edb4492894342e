"""What Enter shows is worked out while the number is being typed: it shows the same as without, and sooner."""

import asyncio

import pytest

from logic.session.foreseen import FORESEEN_FOR
from logic.session.kept_session import Session
from tests.screens.real import FULL, TWO_TANKS, at_work
from tui import foresight
from tui.foresight import Foresight

READINGS = (
    "gray len 38 5/8", "21", "8 3/4", "34-1/8", "10.5", "gray len 39 3/8", "gray len 38 9/16", "gray len 12",
    "black height 40", "supply volts 12.6", "black height 10 1/4", "gray-feed 11'", "len 3", "41,375", "-5",
)  # fmt: skip


async def typed(driver, text: str, *, foreseen: bool) -> None:
    """Type a text, let it be looked at ahead, press Enter."""
    await driver.type(text)
    await driver.until(lambda: driver.app.desk.line.value == text)
    if foreseen:
        await looked_ahead(driver)
    await driver.press("enter")
    await driver.settle()
    line = driver.app.desk.line
    if line.value:  # refused, or asked about: leave it at that
        line.put("")
        await driver.settle()
    driver.clock.on(30.0)


async def looked_ahead(driver) -> None:
    """Wait until what stands in the line was worked out."""
    await driver.settle()
    await driver.until(lambda: not driver.app.foresight.at_work)


async def day_shown(rig, home, *, foreseen: bool) -> list[str]:
    """The screen after each of some readings."""
    shown = []
    async with at_work(rig, home) as driver:
        for text in READINGS:
            await typed(driver, text, foreseen=foreseen)
            shown.append(driver.text)
    return shown


async def test_the_screen_is_the_same_with_and_without_looking_ahead(tmp_path, monkeypatch):
    ahead = await day_shown(TWO_TANKS, tmp_path / "ahead", foreseen=True)
    monkeypatch.setattr(Foresight, "look", Foresight.halt)
    assert await day_shown(TWO_TANKS, tmp_path / "not", foreseen=False) == ahead


async def test_what_was_foreseen_is_neither_assessed_nor_laid_out_again(tmp_path, monkeypatch):
    async with at_work(FULL, tmp_path) as driver:
        await driver.type("41 3/8")
        await driver.until(lambda: driver.app.desk.line.value == "41 3/8")
        await looked_ahead(driver)
        foreseen = driver.session.foreseen
        again = []
        for pane in driver.app.desk.panes:
            monkeypatch.setattr(pane, "rows_of", lambda *_, pane=pane: again.append(pane.id) or ())
        await driver.press("enter")
        await driver.until(lambda: len(driver.session.state.readings) == 1)
        assert again == []
        assert driver.app.wiring.snapshot().assessment is foreseen.assessment
        monkeypatch.undo()
        await driver.sees("41 3/8 in")


async def test_a_key_stops_it_and_the_whole_text_is_what_counts(tmp_path):
    async with at_work(FULL, tmp_path) as driver:
        for text in ("4", "1", " ", "3", "/", "8"):
            await driver.type(text)
            await asyncio.sleep(foresight.PAUSE * 1.2)
        await driver.press("enter")
        await driver.until(lambda: driver.session.state.readings)
        (reading,) = driver.session.state.readings
        assert reading.typed == "41 3/8"
        await driver.sees("41 3/8 in")


async def test_nothing_is_looked_at_in_an_empty_line(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.type("4")
        await driver.until(lambda: driver.app.foresight.at_work)
        await driver.press("backspace")
        await driver.until(lambda: not driver.app.desk.line.value)
        await driver.settle()
        assert not driver.app.foresight.at_work


async def test_a_minute_that_passes_meanwhile_makes_it_new(tmp_path):
    """The screen never goes back in time: what is shown then is of the newer moment."""
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.type("41 3/8")
        await driver.until(lambda: driver.session.foreseen is not None)
        before = driver.session.foreseen
        driver.clock.on(FORESEEN_FOR / 2)
        driver.app.tick()
        await driver.until(lambda: driver.session.foreseen is not before and not driver.app.foresight.at_work)
        await driver.press("enter")
        await driver.until(lambda: driver.session.state.readings)
        assert driver.app.wiring.snapshot().now.at >= before.event.at + FORESEEN_FOR / 2


async def test_what_cannot_be_worked_out_ahead_is_worked_out_at_enter(tmp_path, monkeypatch):
    def broken(*_):
        raise ValueError

    monkeypatch.setattr(Session, "foresee", broken)
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.take("41 3/8")
        assert len(driver.session.state.readings) == 1


@pytest.mark.parametrize("text", ["gray", "1; 2", "zzz 4", "   "])
async def test_what_is_no_single_reading_is_left_alone(tmp_path, text):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        driver.app.desk.line.put(text)
        await looked_ahead(driver)
        assert driver.session.foreseen is None

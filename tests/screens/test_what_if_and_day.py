"""*What if* and the day's record: what would move beside today's, nothing recorded until kept; every event."""

import pytest

from tests.screens.driver import LARGE, SMALL
from tests.screens.real import TWO_TANKS, assert_rows_fit, at_work, leave, open_by, opened, shown
from tui.show import numbers
from tui.show.rows import text_of

SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "100x30"])


def flat(text: str) -> str:
    return " ".join(text.split())


# --- what if ---


@SIZES
async def test_what_if_shows_what_would_move_beside_today_and_records_nothing_until_kept(tmp_path, size):
    async with at_work(TWO_TANKS, tmp_path, size) as driver:
        await open_by(driver, "ctrl+o", "nothing is recorded until you keep it")
        await driver.until(lambda: opened(driver).row_of("value:tank.gray.length"))
        opened(driver).choose("value:tank.gray.length")
        await driver.press("enter")
        await driver.sees("What if gray tank, length were")
        await driver.press("end", *["backspace"] * 9)
        await driver.type("44 in\n")
        await driver.sees(
            "figures would move", "what if: 1 change,", "gray tank, length: 44 in, today 38 1/2 in"
        )
        trial, faults = driver.app.wiring.what_if([("tank.gray.length", "44 in")])
        assert not faults
        then = next(each for each in trial.figures if each.id == "tank.gray.volume")
        row = opened(driver).row_of("moved:tank.gray.volume")
        told = flat(" ".join(text_of(line) for line in row.lines))
        assert numbers.figure_text(then, "us").value in told
        assert f"today {shown(driver, 'tank.gray.volume')}" in told
        assert_rows_fit(opened(driver))
        assert len(driver.session.events) == 1
        await leave(driver)
        assert len(driver.session.events) == 1


async def test_what_if_kept_is_an_event_with_undo(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        before = shown(driver, "tank.gray.volume")
        await open_by(driver, "ctrl+o", "nothing is recorded until you keep it")
        opened(driver).choose("value:tank.gray.length")
        await driver.press("enter")
        await driver.sees("What if")
        await driver.press("end", *["backspace"] * 9)
        await driver.type("44 in\n")
        await driver.sees("figures would move")
        await driver.press("ctrl+s")
        await driver.until(lambda: driver.app.screen is driver.app.desk)
        assert driver.session.document["tank"][0]["length"] == "44 in"
        assert shown(driver, "tank.gray.volume") != before
        await driver.press("ctrl+z")
        await driver.until(lambda: driver.session.document["tank"][0]["length"] == "38 1/2 in")
        assert shown(driver, "tank.gray.volume") == before


async def test_what_if_says_what_is_wrong_with_a_value_and_keeps_it_typed(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await open_by(driver, "ctrl+o", "nothing is recorded until you keep it")
        opened(driver).choose("value:tank.gray.length")
        await driver.press("enter")
        await driver.sees("What if")
        await driver.press("end", *["backspace"] * 9)
        await driver.type("44 gallons\n")
        await driver.sees("expected", "44 gallons")
        await driver.press("escape")
        await driver.sees("what if: 0 changes")


# --- the day's record ---


async def test_days_record_has_every_event_and_marks_what_was_undone(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.take("38 1/2")
        await driver.take("21 1/4")
        await driver.press("f2")
        await driver.until(lambda: len(driver.session.events) == 4)
        await open_by(driver, "ctrl+r", "session begun", "gray tank, length: hidden", "21 1/4")
        rows = [row for row in opened(driver).rows if row.key.startswith("event:")]
        assert {row.key for row in rows} == {f"event:{event.id}" for event in driver.session.events}
        assert_rows_fit(opened(driver))
        await leave(driver)


async def test_day_is_begun_from_the_record_and_stands_in_it(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await open_by(driver, "ctrl+r", "begin a day")
        opened(driver).choose("deed:begin-day")
        await driver.press("enter")
        await driver.sees("The day begins")
        await driver.type("1630\n")
        await driver.sees("stop at 16:30", "end the day")
        assert driver.session.state.days[-1].stop_at == 1_764_165_000.0 + 2 * 3600 + 40 * 60
        await leave(driver)
        await driver.sees("stop at 16:30")


async def test_days_record_keeps_a_first_value_out_of_sight_until_the_second_is_taken(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.take("gray tank len 38 7/16")
        await driver.press("ctrl+r")
        await driver.sees("gray tank, length: hidden")
        assert "38 7/16" not in driver.text
        await leave(driver)
        await driver.take("gray tank len 38 1/2")
        await driver.press("ctrl+r")
        await driver.sees("gray tank, length: 38 7/16 in", "gray tank, length: 38 1/2 in")

"""Without colour everything is still said: no hue is left, and every state has its word."""

import pytest

from tests.screens.driver import driven


@pytest.mark.parametrize("theme", ["sun", "dim"])
async def test_no_hue_is_left_with_no_color(theme, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with driven() as driver:
        driver.app.theme = theme
        await driver.take("41 3/8")
        await driver.take("24")
        await driver.settle()
        for strip in driver.app.screen._compositor.render_strips():
            for segment in strip.apply_filter(driver.app._filters[0], driver.app.styles.background):
                for colour in (segment.style.color, segment.style.bgcolor) if segment.style else ():
                    if colour is None or colour.triplet is None:
                        continue
                    red, green, blue = colour.triplet
                    assert red == green == blue


async def test_states_are_words_and_marks():
    async with driven() as driver:
        for typed in ("41", "24", "9", "38", "12", "gray tank len 42"):
            await driver.take(typed)
        await driver.sees("in dispute", "•≠", "single", "planned", "two differ: read it once more")


async def test_row_of_the_cursor_has_a_mark_beside_its_look():
    async with driven() as driver:
        await driver.press("f7")
        await driver.until(lambda: driver.app.focused.id == "steps")
        assert any(line.startswith("┃› ") for line in driver.lines)

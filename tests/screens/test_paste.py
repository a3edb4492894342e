"""What is pasted comes to the line whole, whatever has the focus, and as text only."""

import pytest
from textual import events

from tests.screens.driver import driven
from tests.screens.test_reading_line import slots_read


async def paste(driver, text: str) -> None:
    driver.app._driver.send_message(events.Paste(text))
    await driver.settle()


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("41 3/8", "41 3/8"),
        ("41 3/8\n24\r\n\n9 1/2\n", "41 3/8; 24; 9 1/2"),
        ("\x1b[2J41", "[2J41"),
        ("\u202e123\u200b", "123"),
        ("\n", ""),
        ("[red]x[/]", "[red]x[/]"),
    ],
)
@pytest.mark.parametrize("focus", ["line", "f5"])
async def test_it_stands_in_the_line_in_one_row_and_nothing_of_it_is_obeyed(text, line, focus):
    async with driven() as driver:
        if focus != "line":
            await driver.press(focus)
        await paste(driver, text)
        assert driver.app.desk.line.value == line
        assert driver.app.focused is driver.app.desk.line


async def test_lines_of_a_paste_are_readings_in_walking_order():
    async with driven() as driver:
        await paste(driver, "41 3/8\n24\n9 1/2\n")
        await driver.take("")
        assert slots_read(driver) == [
            ("tank.gray.length", "41 3/8"), ("tank.gray.width", "24"), ("tank.gray.height", "9 1/2"),
        ]  # fmt: skip


async def test_a_paste_goes_where_the_cursor_is_and_takes_the_place_of_what_is_selected():
    async with driven() as driver:
        await driver.type("x41")
        await driver.settle()
        await paste(driver, " 3/8")
        assert driver.app.desk.line.value == "x41 3/8"
        await driver.type("\n")  # refused: all of it stays, selected
        await driver.until(lambda: driver.app.desk.refused)
        await paste(driver, "24")
        assert driver.app.desk.line.value == "24"

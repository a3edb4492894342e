"""F1 in a list to choose from, in a form, before what can hurt, and in the palette: what is asked, what the keys do."""

import pytest
from textual.widgets import Input

from tests.screens.driver import LARGE, SMALL, Driven
from tests.screens.fake import FakeClock
from tests.screens.real import TWO_TANKS, assert_painted_whole, at_work
from tests.screens.test_steps_and_punch import in_pane
from tui.screens.caution import Caution
from tui.screens.choose import Choose
from tui.screens.dialog_help import DialogHelp
from tui.screens.form import FieldInput, Form
from tui.screens.start import Start, StartList
from tui.show.marks import SIGNS

SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "100x30"])


async def on_top(driver, kind) -> None:
    await driver.until(lambda: isinstance(driver.app.screen, kind))


async def helped(driver, *texts: str, key: str = "f1") -> None:
    """Help is there, says how each key leaves, and is whole on the screen."""
    await driver.press(key)
    await on_top(driver, DialogHelp)
    await driver.sees("Asked here:", "Enter:", "Esc:", "Esc back to what was asked", *texts)
    assert_painted_whole(driver)
    box = driver.app.screen.query_one("#box").region
    assert box.bottom <= driver.app.size.height
    assert driver.app.screen.query_one("#hint").region.bottom < box.bottom


@SIZES
async def test_help_in_a_list_goes_back_to_what_it_was_narrowed_to(tmp_path, size):
    async with at_work(TWO_TANKS, tmp_path, size) as driver:
        await in_pane(driver, "f7", "steps", "step:parts-bought:rig")
        await driver.press("f4")
        await on_top(driver, Choose)
        await driver.type("hold")
        await driver.settle()
        await helped(driver, "Up and down", "Letters", "1 to 9")
        await driver.press("escape")
        await on_top(driver, Choose)
        assert driver.app.screen.choices.typed == "hold"
        await driver.press("enter")
        await on_top(driver, Form)
        assert not driver.session.state.steps


@SIZES
async def test_help_in_a_form_says_the_field_and_keeps_what_was_typed(tmp_path, size):
    async with at_work(TWO_TANKS, tmp_path, size) as driver:
        await driver.press("f9")
        await on_top(driver, Form)
        form = driver.app.screen
        await driver.type("strap?")
        await driver.press("enter", "right")
        await driver.settle()
        before, field = form.answers(), form.focused.field
        assert before["text"] == "strap?", "? is text in a field"
        await helped(driver, f"2 of {len(form.fields)}: {field.label}", "Up and down", "left and right")
        await driver.press("f1")  # the same key closes it
        await on_top(driver, Form)
        assert form.answers() == before
        assert isinstance(driver.app.focused, FieldInput)
        assert driver.app.focused.field == field


async def test_keys_after_help_in_a_burst_go_to_the_form(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press("f9", *"strap", "f1", "escape", *" by the axle")
        await on_top(driver, Form)
        await driver.settle()
        assert driver.app.screen.answers()["text"] == "strap by the axle"
        assert driver.app.desk.line.value == ""


@SIZES
@pytest.mark.parametrize("key", ["f1", "question_mark"])
async def test_help_before_what_can_hurt_starts_nothing(tmp_path, size, key):
    async with at_work(TWO_TANKS, tmp_path, size) as driver:
        await in_pane(driver, "f7", "steps", "step:chocks:rig")
        await driver.press("ctrl+s")
        await on_top(driver, Caution)
        await helped(driver, "what can hurt", "start the step", key=key)
        await driver.press("enter")
        await on_top(driver, Caution)
        assert not driver.session.state.steps
        await driver.press("enter")
        await driver.until(lambda: driver.session.state.steps)


async def test_help_in_the_palette_keeps_what_was_typed(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press("ctrl+p", *"swap")
        await driver.until(lambda: driver.app.screen is not driver.app.desk)
        await driver.until(lambda: driver.app.screen.query_one(Input).value == "swap")
        palette = driver.app.screen
        await driver.press("f1")
        await on_top(driver, DialogHelp)
        await driver.sees("everything that can be done", "Esc:")
        await driver.press("escape")
        await driver.until(lambda: driver.app.screen is palette)
        assert palette.query_one(Input).value == "swap"


async def test_help_in_the_questions_of_a_new_rig_says_that_they_keep_what_was_typed(tmp_path, monkeypatch):
    monkeypatch.setenv("BELLYPAN_HOME", str(tmp_path))
    app = Start(SIGNS)
    async with app.run_test(size=SMALL) as pilot:
        driver = Driven(app, pilot, None, FakeClock())
        await driver.until(lambda: isinstance(app.screen, StartList))
        await driver.type("1")
        await driver.sees("A new rig")
        await helped(driver, "what was typed is kept")
        await driver.press("escape")
        await on_top(driver, Form)
        await driver.sees("A new rig")

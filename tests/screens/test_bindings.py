"""Every declared key fires, from the line and from each pane; the footer is short; help and palette have all of it."""

import pytest

from tests.screens.driver import SMALL, driven
from tui.app import Bellypan, deed
from tui.bindings import ACTS, BY_ID, FOOTERS, KEYED, key_text
from tui.show.cells import width_of
from tui.show.help_rows import help_rows
from tui.show.marks import SIGNS
from tui.show.rows import text_of

# Ctrl+F is none of them: Textual's input names it in its description and binds Ctrl+Backspace instead.
SWALLOWED = ("ctrl+a", "ctrl+e", "ctrl+u", "ctrl+w", "ctrl+k", "ctrl+d", "ctrl+x", "ctrl+c", "ctrl+v",
             "ctrl+h", "ctrl+i", "ctrl+m", "ctrl+j", "home", "end", "enter")  # fmt: skip


@pytest.mark.parametrize("place", ["escape", "f5", "f6", "f7", "f8"])
async def test_every_key_fires_from_the_line_and_from_each_pane(place, monkeypatch):
    fired: list[str] = []
    monkeypatch.setattr(Bellypan, "action_deed", lambda self, name: fired.append(name))
    async with driven() as driver:
        if place != "escape":
            driver.app.desk.go({"f5": "rig", "f6": "figures", "f7": "steps", "f8": "punch"}[place])
            await driver.until(lambda: driver.app.focused is not driver.app.desk.line)
        for act in KEYED:
            await driver.press(act.key)
            await driver.until(lambda act=act: fired and fired[-1] == act.id)
    assert fired == [act.id for act in KEYED]


@pytest.mark.parametrize("act", ACTS, ids=lambda act: act.id)
def test_every_action_leads_to_a_function(act):
    module, _, function = act.deed.partition(":")
    assert callable(deed(module, function))


def test_no_key_stands_twice_and_none_is_one_that_a_line_swallows():
    keys = [act.key for act in KEYED]
    assert len(keys) == len(set(keys))
    assert not set(keys) & set(SWALLOWED)
    assert all(key.startswith(("f", "ctrl+")) for key in keys)


@pytest.mark.parametrize("name", FOOTERS)
def test_footer_has_at_most_five_keys_and_fits_80_columns(name):
    assert len(FOOTERS[name]) <= 5
    assert width_of("   ".join(f"{key_text(key)} {said}" for key, said in FOOTERS[name])) < 80


def test_help_names_every_action():
    told = " ".join(text_of(line) for row in help_rows("line", SIGNS, 200) for line in row.lines)
    assert all(act.about in told for act in ACTS)


async def test_palette_lists_every_action_and_leaving():
    async with driven() as driver:
        titles = [command.title for command in driver.app.get_system_commands(driver.app.screen)]
        assert len(titles) == len(ACTS) + 1
        await driver.press("ctrl+p")
        await driver.until(lambda: driver.app.screen is not driver.app.desk)
        await driver.type("take the last")
        await driver.sees("Take the last reading back")
        await driver.press("escape")


async def test_tab_goes_round_the_panes_and_back_to_the_line():
    async with driven() as driver:
        seen = []
        for _ in range(5):
            await driver.press("tab")
            await driver.settle()
            seen.append(driver.app.focused.id)
        assert seen == ["rig", "figures", "steps", "punch", "line"]


async def test_one_pane_at_a_time_in_a_small_window():
    async with driven(SMALL) as driver:
        for key, title in (("f6", "Figures"), ("f7", "Steps"), ("f8", "Punch list"), ("f5", "Rig")):
            await driver.press(key)
            await driver.sees(f"━ {title}")
            assert sum(pane.display for pane in driver.app.desk.panes) == 1
            assert "DO NOT CLOSE" in driver.lines[0]


async def test_escape_goes_from_a_pane_to_the_line():
    async with driven() as driver:
        await driver.press("f7")
        await driver.until(lambda: driver.app.focused.id == "steps")
        await driver.press("escape")
        await driver.until(lambda: driver.app.focused.id == "line")


def test_ids_are_unique():
    assert len(BY_ID) == len(ACTS)

"""The rig without a text editor: values changed, parts added, copied and taken away, with the file's own check."""

from logic.session.intents import AddPart, ChangeProfile, RemovePart
from tests.screens.driver import driven


def sent(driver, kind):
    return [intent for intent in driver.sent if isinstance(intent, kind)]


async def rig(driver, row: str):
    await driver.press("f5")
    await driver.until(lambda: driver.app.focused.id == "rig")
    pane = driver.app.desk.pane("rig")
    pane.choose(row)
    await driver.until(lambda: pane.cursor == row)
    return pane


async def test_value_is_changed_and_the_file_s_check_has_the_last_word():
    async with driven() as driver:
        pane = await rig(driver, "values:tank.gray")
        await driver.press("enter")
        await driver.until(lambda: pane.row_of("value:tank.gray.wall") is not None)
        pane.choose("value:tank.gray.wall")
        await driver.press("enter")
        await driver.sees("Change gray tank, wall")
        await driver.type("7 degF\n")
        await driver.sees("tank.gray.wall: found", "expected")
        assert driver.session.document["tank"][0].get("wall") is None
        await driver.press(*["backspace"] * 8)
        await driver.type("3/8 in\n")
        await driver.until(lambda: driver.session.document["tank"][0].get("wall") == "3/8 in")
        assert sent(driver, ChangeProfile)[-1] == ChangeProfile("tank.gray.wall", "3/8 in")
        await driver.press("escape", "ctrl+z")
        await driver.until(lambda: driver.session.document["tank"][0].get("wall") is None)


async def test_defaults_are_called_defaults():
    async with driven((100, 60)) as driver:
        await rig(driver, "values:tank.gray")
        await driver.press("enter")
        await driver.sees("polyethylene  default", "R 5  default")


async def test_outlet_that_is_not_there_is_asked_for_whole():
    async with driven() as driver:
        pane = await rig(driver, "tank.black")
        await driver.press("enter")
        await driver.until(lambda: pane.row_of("values:tank.black") is not None)
        pane.choose("values:tank.black")
        await driver.press("enter")
        await driver.until(lambda: pane.row_of("value:tank.black.outlet") is not None)
        pane.choose("value:tank.black.outlet")
        await driver.press("enter")
        await driver.sees("The outlet on its bottom", "diameter")
        await driver.type("25 in\n10 in\n3 in\n")
        await driver.until(lambda: driver.session.document["tank"][1].get("outlet"))
        assert driver.session.document["tank"][1]["outlet"] == {
            "x": "25 in",
            "y": "10 in",
            "diameter": "3 in",
        }


async def test_part_is_added_with_guesses_that_make_it_valid():
    async with driven() as driver:
        await rig(driver, "tank.gray")
        driver.app.action_deed("add-part")
        await driver.sees("Add a part")
        await driver.press("3")
        await driver.sees("Add a heater")
        for _ in range(6):
            await driver.press("enter")
        await driver.until(lambda: sent(driver, AddPart))
        added = driver.session.profile.heaters[-1]
        assert (added.id, added.on, added.watts) == ("gray-pad", "gray", 60.0)


async def test_part_is_copied_under_another_id():
    async with driven() as driver:
        await rig(driver, "tank.black")
        driver.app.action_deed("copy-part")
        await driver.sees("Copy black tank", "black-2")
        for _ in range(8):
            await driver.press("enter")
        await driver.until(lambda: sent(driver, AddPart))
        tanks = {tank.id: tank for tank in driver.session.profile.tanks}
        assert tanks["black-2"].length == tanks["black"].length


async def test_part_that_others_need_is_not_taken_away_and_it_is_said_why():
    async with driven() as driver:
        await rig(driver, "tank.black")
        driver.app.action_deed("remove-part")
        await driver.sees("heater.black-a.on")
        assert len(driver.session.profile.tanks) == 2


async def test_part_is_taken_away_and_brought_back():
    async with driven() as driver:
        pane = driver.app.desk.pane("rig")
        pane.opened.add("drain.gray-drain")
        await rig(driver, "drain.gray-drain")
        driver.app.action_deed("remove-part")
        await driver.until(lambda: sent(driver, RemovePart))
        assert driver.session.profile.drains == ()
        await driver.sees("Ctrl+Z brings it back")
        await driver.press("ctrl+z")
        await driver.until(lambda: driver.session.profile.drains)


async def test_keepout_is_added_to_a_tank():
    async with driven() as driver:
        await rig(driver, "tank.gray")
        await driver.press("f4")
        await driver.sees("add a keep-out")
        await driver.press("4")
        await driver.sees("A keep-out on gray tank")
        await driver.type("10 in\n0 in\n2 in\n24 in\nrib\n")
        await driver.until(lambda: driver.session.profile.tanks[0].keepout)
        assert driver.session.profile.tanks[0].keepout[0].why == "rib"


async def test_units_are_switched_by_a_key_and_numbers_with_them():
    async with driven() as driver:
        await driver.sees("41 in")
        await driver.press("f12")
        await driver.sees("1041 mm", "145 L")
        await driver.press("f12")
        await driver.sees("41 in", "38.3 gal")


async def test_what_if_shows_what_would_move_and_records_nothing_until_it_is_kept():
    async with driven((100, 40)) as driver:
        await driver.press("ctrl+o")
        await driver.sees("nothing is recorded until you keep it")
        screen = driver.app.screen
        screen.list.choose("value:tank.gray.width")
        await driver.press("enter")
        await driver.sees("What if gray tank, width were")
        await driver.press("backspace")
        await driver.type("30 in\n")
        await driver.until(lambda: driver.app.screen is screen)
        await driver.sees("gray tank, width: 30 in, today 24 in")
        assert any(row.key == "moved:tank.gray.volume" for row in screen.list.rows)
        assert not sent(driver, ChangeProfile)
        await driver.press("ctrl+s")
        await driver.until(lambda: sent(driver, ChangeProfile))
        assert driver.session.document["tank"][0]["width"] == "30 in"

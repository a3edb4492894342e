"""The Rig pane, by keys alone on a real session: each kind of part added, copied, taken away, changed; each undone.

What stands after an undo is compared with the whole document as it stood before.
"""

import pytest

from logic.data.profile_edit import value_at
from tests.contract.headless import bellypan
from tests.screens.driver import LARGE
from tests.screens.real import TWO_TANKS, at_work
from tui.screens.choose import Choose
from tui.screens.form import Form
from tui.show.names import place_name
from tui.show.profile_values import table_of

SIZE = (LARGE[0], 60)
PARTS = ("tank", "drain", "heater", "run", "bay")


def document(driver):
    return dict(driver.app.wiring.snapshot().document)


def names(driver, kind):
    return [part["id"] for part in document(driver).get(kind, ())]


async def to_row(driver, key: str) -> None:
    """Go to a row of the Rig pane by the keys that a person has."""
    await driver.press("f5")
    await driver.until(lambda: driver.app.focused is not None and driver.app.focused.id == "rig")
    pane = driver.app.desk.pane("rig")
    await driver.press("home")
    await driver.settle()
    for _ in range(200):
        if pane.cursor == key:
            return
        await driver.press("down")
        await driver.settle()
    raise AssertionError(f"no row {key} among {[row.key for row in pane.rows]}")


async def unfold(driver, key: str) -> None:
    await to_row(driver, key)
    pane = driver.app.desk.pane("rig")
    if key not in pane.opened:
        await driver.press("enter")
        await driver.until(lambda: key in pane.opened)


async def pick(driver, text: str) -> None:
    """F4, then the number of what begins so."""
    await driver.press("f4")
    await driver.until(lambda: isinstance(driver.app.screen, Choose) and driver.app.screen.choices.rows)
    offered = driver.app.screen.choices.offered()
    number = next(n for n, each in enumerate(offered, start=1) if each.text.startswith(text))
    await driver.press(str(number))


async def through(driver, **answers: str) -> None:
    """Enter through the form that is shown; a named field is typed anew."""
    await driver.until(lambda: isinstance(driver.app.screen, Form) and driver.app.focused is not None)
    asked = driver.app.screen
    for field in asked.fields:
        if field.id in answers:
            await driver.press("end", *["backspace"] * len(field.text), *answers[field.id])
        await driver.press("enter")
    await driver.until(lambda: driver.app.screen is driver.app.desk)


async def undone(driver, before) -> None:
    """Ctrl+Z from the pane brings the whole document back; Ctrl+Y brings the change back, and once more."""
    after = document(driver)
    assert after != before
    await driver.press("ctrl+z")
    await driver.until(lambda: document(driver) == before)
    await driver.press("ctrl+y")
    await driver.until(lambda: document(driver) == after)
    await driver.press("ctrl+z")
    await driver.until(lambda: document(driver) == before)


async def begin_adding(driver, kind: str) -> Form:
    """F4 and the number of the kind: the form of a new part."""
    await to_row(driver, "tank.gray")
    await pick(driver, "add a tank")
    await driver.sees("Add a part", "1 tank", "5 bay")
    await driver.press(str(PARTS.index(kind) + 1))
    await driver.sees(f"Add a {kind}")
    await driver.until(lambda: isinstance(driver.app.screen, Form) and driver.app.focused is not None)
    return driver.app.screen


async def add(driver, kind: str, **answers: str) -> str:
    """Add a part; its id."""
    had = names(driver, kind)
    await begin_adding(driver, kind)
    await through(driver, **answers)
    (new,) = set(names(driver, kind)) - set(had)
    return new


@pytest.mark.parametrize("kind", PARTS)
async def test_part_is_added_copied_and_taken_away_each_with_undo(tmp_path, kind):
    async with at_work(TWO_TANKS, tmp_path, SIZE) as driver:
        if kind == "run":  # each wants a heater that none feeds yet, and is given one
            await add(driver, "heater")
            await add(driver, "heater")
        start = document(driver)
        await add(driver, kind)
        await undone(driver, start)
        new = await add(driver, kind)
        added = document(driver)
        name = place_name(f"{kind}.{new}", driver.app.wiring.snapshot().profile)
        await to_row(driver, f"{kind}.{new}")
        await pick(driver, f"copy {name}")
        await driver.sees(f"Copy {name}")
        await through(driver)
        (copied,) = set(names(driver, kind)) - {part["id"] for part in added[kind]}
        original, twin = (dict(table_of(document(driver), f"{kind}.{each}")) for each in (new, copied))
        assert original.pop("id") != twin.pop("id")
        if kind == "run":
            assert set(original.pop("feeds")).isdisjoint(twin.pop("feeds"))
        assert original == twin
        await undone(driver, added)
        await to_row(driver, f"{kind}.{new}")
        await pick(driver, f"take {name} away")
        await driver.until(lambda: new not in names(driver, kind))
        assert {key: value for key, value in document(driver).items() if value} == start
        await undone(driver, added)


async def test_value_is_changed_left_out_and_undone(tmp_path):
    async with at_work(TWO_TANKS, tmp_path, SIZE) as driver:
        before = document(driver)
        await unfold(driver, "tank.gray")
        await unfold(driver, "values:tank.gray")
        await to_row(driver, "value:tank.gray.fill")
        await driver.press("enter")
        await through(driver, value="0.75")
        assert value_at(document(driver), "tank.gray.fill") == 0.75
        assert driver.session.profile.tanks[0].fill == 0.75
        await undone(driver, before)
        await driver.press("ctrl+y")
        await driver.until(lambda: value_at(document(driver), "tank.gray.fill") == 0.75)
        await to_row(driver, "value:tank.gray.fill")
        await pick(driver, "leave it out")
        await driver.until(lambda: value_at(document(driver), "tank.gray.fill") is None)


async def test_wrong_value_of_a_new_part_says_what_is_expected_as_the_file_s_check_does_and_keeps_the_rest(
    tmp_path,
):
    async with at_work(TWO_TANKS, tmp_path, SIZE) as driver:
        before = document(driver)
        asked = await begin_adding(driver, "tank")
        for field in asked.fields:
            typed = {"id": "galley", "length": "forty"}.get(field.id, "")
            await driver.press(*typed, "enter")
        await driver.sees("found", "expected a length with its unit")
        assert driver.app.screen is asked
        assert (asked.answers()["id"], asked.answers()["length"]) == ("galley", "forty")
        assert document(driver) == before
        wrong = tmp_path / "wrong.toml"
        wrong.write_text(
            TWO_TANKS.read_text(encoding="utf-8")
            + '\n[[tank]]\nid = "galley"\nholds = "gray"\nshape = "box"\n'
            + 'length = "forty"\nwidth = "24 in"\nheight = "9 in"\nplace = "open"\n',
            encoding="utf-8",
        )
        told = bellypan("check", wrong)
        assert told.code == 2
        reason = 'found "forty"; expected a length with its unit'
        assert reason in told.errors
        await driver.sees(reason)


async def test_what_was_changed_on_the_screen_is_written_and_check_reads_it_back(tmp_path):
    out = tmp_path / "as-built.toml"
    async with at_work(TWO_TANKS, tmp_path / "home", SIZE) as driver:
        await add(driver, "tank", id="galley", length="1051 mm")
        await add(driver, "bay")
        name = driver.session.id
        expected = document(driver)
    written = bellypan("profile", name, "-o", out, home=tmp_path / "home")
    assert written.code == 0, written.errors
    read_back = bellypan("check", out)
    assert read_back.code == bellypan("check", TWO_TANKS).code, read_back.output
    assert "galley" in [tank["id"] for tank in expected["tank"]]
    assert 'id = "galley"' in out.read_text(encoding="utf-8")

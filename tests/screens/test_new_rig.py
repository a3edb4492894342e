"""A rig without a text editor, from nothing, by keys alone: questions, patterns of wiring, what `profile` writes.

Parts changed, added, copied and taken away later stand in test_rig_changes.py.
"""

import tomllib
from contextlib import asynccontextmanager

import pytest

from logic.data.profile_edit import value_at
from tests.contract.headless import bellypan
from tests.screens.driver import LARGE, SMALL, Driven, driven
from tests.screens.fake import FakeClock
from tests.screens.real import assert_painted_whole, assert_rows_fit
from tui.screens.form import FieldInput, Form
from tui.screens.new_rig import Assumed
from tui.screens.start import Start
from tui.show.marks import SIGNS
from tui.show.rig_questions import PATTERNS, RIG, WIRING, tank_questions

TANK = tank_questions(1)
PADS = [ask.id for ask in TANK].index("pads")
MOST_KEYS = 45  # of our own choosing: an Enter for each question, and a handful of digits


class Counted(Driven):
    """Counts the keys that a person presses."""

    keys = 0

    async def press(self, *keys: str) -> None:
        self.keys += len(keys)
        await super().press(*keys)


@asynccontextmanager
async def started(home, monkeypatch, size=LARGE):
    """The list of the first start, with no session there yet."""
    clock = FakeClock()
    monkeypatch.setenv("BELLYPAN_HOME", str(home))
    monkeypatch.setattr("tui.screens.start.this_moment", clock)
    app = Start(SIGNS)
    async with app.run_test(size=size) as pilot:
        driver = Counted(app, pilot, None, clock)
        await driver.sees("Which rig?", "1 a new rig")
        yield driver
        if app.return_value is not None:
            app.return_value.close()


async def form(driver, title: str) -> Form:
    """The form of this title, ready for typing in its first field."""
    await driver.until(
        lambda: isinstance(driver.app.screen, Form) and driver.app.screen.said_title.startswith(title)
    )
    await driver.until(lambda: isinstance(driver.app.focused, FieldInput))
    return driver.app.screen


async def take_all(driver, asks, **answers: str) -> None:
    """Enter through a form; where an answer is given, it is typed in the place of what stands there."""
    for ask in asks:
        if ask.id in answers:
            await driver.press(*(["backspace"] if not answers[ask.id] else answers[ask.id]))
        await driver.press("enter")


async def two_tanks_three_pads(driver, pattern: str = PATTERNS[0]) -> None:
    """All the questions, up to the list of what was assumed."""
    await driver.press("1")
    await form(driver, "A new rig")
    await take_all(driver, RIG)
    await form(driver, "Tank 1 of 2")
    await take_all(driver, TANK, pads="2")
    await form(driver, "Tank 2 of 2")
    await take_all(driver, TANK)
    await form(driver, "Wiring")
    await driver.press(*["right"] * PATTERNS.index(pattern))
    await take_all(driver, WIRING)
    await assumed(driver)


async def assumed(driver) -> Assumed:
    """The list of what was assumed, laid out."""
    await driver.until(
        lambda: (
            isinstance(driver.app.screen, Assumed)
            and driver.app.screen.query("#full-rows")
            and driver.app.screen.list.rows
        )
    )
    return driver.app.screen


async def begun(driver):
    """Begin with the rig; the session that it became."""
    await driver.press("ctrl+s")
    await driver.until(lambda: driver.app.return_value is not None)
    return driver.app.return_value


# --- from nothing ---


@pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "100x30"])
async def test_rig_of_two_tanks_three_pads_and_a_switch_each_stands_within_few_keys(
    tmp_path, monkeypatch, size
):
    async with started(tmp_path, monkeypatch, size) as driver:
        await two_tanks_three_pads(driver)
        assert_rows_fit(driver.app.screen.list)
        assert_painted_whole(driver)
        session = await begun(driver)
        profile = session.profile
        assert [tank.id for tank in profile.tanks] == ["gray", "black"]
        assert [(heater.id, heater.on) for heater in profile.heaters] == [
            ("gray-a", "gray"),
            ("gray-b", "gray"),
            ("black-a", "black"),
        ]
        assert {tuple(run.feeds) for run in profile.runs} == {("gray-a", "gray-b"), ("black-a",)}
        assert all(run.switch for run in profile.runs)
        assert driver.keys == 1 + len(RIG) + 2 * len(TANK) + 1 + len(WIRING) + 1
        assert driver.keys <= MOST_KEYS


@pytest.mark.parametrize("pattern", PATTERNS)
async def test_profile_of_each_pattern_is_written_and_check_accepts_it(tmp_path, monkeypatch, pattern):
    home, out = tmp_path / "home", tmp_path / "as-built.toml"
    async with started(home, monkeypatch) as driver:
        await two_tanks_three_pads(driver, pattern)
        session = await begun(driver)
        runs = {run.id: run for run in session.profile.runs}
        ways = {name: (run.from_, run.back) for name, run in runs.items()}
        assert (
            ways
            == {
                "each its own": {"gray-run": ("supply", "own"), "black-run": ("supply", "own")},
                "one feed": {
                    "feed": ("supply", "own"),
                    "gray-run": ("feed", "own"),
                    "black-run": ("feed", "own"),
                },
                "shared return": {"gray-run": ("supply", "own"), "black-run": ("supply", "gray-run")},
            }[pattern]
        )
        name = session.id
    written = bellypan("profile", name, "-o", out, home=home)
    assert written.code == 0, written.errors
    checked = bellypan("check", out)
    assert checked.code == 0, checked.output
    document = tomllib.loads(out.read_text(encoding="utf-8"))
    assert [tank["id"] for tank in document["tank"]] == ["gray", "black"]
    assert len(document["heater"]) == 3
    assert len([run for run in document["run"] if run.get("switch") == "20 A"]) == 2


async def test_closed_belly_cold_battery_and_no_furnace_are_in_the_profile(tmp_path, monkeypatch):
    async with started(tmp_path, monkeypatch) as driver:
        await driver.press("1")
        await form(driver, "A new rig")
        await take_all(
            driver, RIG, name="my winter van", tanks="1", belly="closed", low="-12 degC", nights="3",
            capacity="100 Ah", inside="no", charging="14.4 V", furnace="no",
        )  # fmt: skip
        await form(driver, "Tank 1 of 1")
        await take_all(driver, TANK, id="galley", length="1 m", pads="0")
        await form(driver, "Wiring")
        await take_all(driver, WIRING, switch="")
        await assumed(driver)
        session = await begun(driver)
        profile = session.profile
        assert (profile.rig.name, len(profile.bays), profile.tanks[0].place) == ("my winter van", 1, "belly")
        # By the definitions of the kelvin and the metre: −12 °C and 1 m are themselves.
        assert profile.design.low_degc == pytest.approx(-12.0)
        assert profile.tanks[0].length == pytest.approx(1.0)
        assert (profile.supply.other, profile.supply.charging) == (0.0, 14.4)
        assert value_at(dict(session.document), "supply.battery") is None
        assert profile.heaters == ()
        assert profile.runs == ()


# --- wrong answers ---


async def test_wrong_answers_say_what_is_expected_and_keep_all_that_was_typed(tmp_path, monkeypatch):
    async with started(tmp_path, monkeypatch) as driver:
        await driver.press("1")
        asked = await form(driver, "A new rig")
        await take_all(driver, RIG, name="the old bus", tanks="9", low="12 gal")
        await driver.sees("found 9; expected a number of tanks from 1 to 6")
        assert asked.answers()["name"] == "the old bus"
        assert asked.answers()["low"] == "12 gal"
        await driver.press(*["up"] * 8)
        await driver.press("backspace", "1")
        await driver.press(*["enter"] * 9)
        await driver.sees("design.low: found", "expected")
        assert asked.answers()["tanks"] == "1"
        assert asked.answers()["name"] == "the old bus"
        await driver.press(*["up"] * 6)
        await driver.until(lambda: driver.app.focused.field.id == "low")
        await driver.press(*["backspace"] * 7)
        await driver.type("-5 degF")
        await driver.press(*["enter"] * 7)
        tank = await form(driver, "Tank 1 of 1")
        await take_all(driver, TANK, id="two words", width="wide", pads="7")
        await driver.sees("found 7; expected a number of pads from 0 to 6")
        assert tank.answers()["width"] == "wide"
        await driver.press(*["up"] * 4)
        await driver.press("backspace", "1", *["enter"] * 5)
        await driver.sees('width: found "wide"; expected a length with its unit')
        assert tank.answers()["id"] == "two words"


async def test_tank_of_the_same_name_is_refused_in_its_own_form(tmp_path, monkeypatch):
    async with started(tmp_path, monkeypatch) as driver:
        await driver.press("1")
        await form(driver, "A new rig")
        await take_all(driver, RIG)
        await form(driver, "Tank 1 of 2")
        await take_all(driver, TANK)
        tank = await form(driver, "Tank 2 of 2")
        await take_all(driver, TANK, id="gray")
        await driver.sees('found "gray", used before; expected another id')
        assert driver.app.screen is tank


async def test_esc_steps_back_to_the_form_before_with_its_answers(tmp_path, monkeypatch):
    async with started(tmp_path, monkeypatch) as driver:
        await driver.press("1")
        await form(driver, "A new rig")
        await take_all(driver, RIG, name="the old bus")
        await form(driver, "Tank 1 of 2")
        await take_all(driver, TANK, pads="3")
        await form(driver, "Tank 2 of 2")
        await driver.type("galley")
        await driver.press("escape")
        first = await form(driver, "Tank 1 of 2")
        assert first.answers()["pads"] == "3"
        await driver.press("escape")
        rig = await form(driver, "A new rig")
        assert rig.answers()["name"] == "the old bus"
        await take_all(driver, RIG)
        first = await form(driver, "Tank 1 of 2")
        assert first.answers()["pads"] == "3"
        await take_all(driver, TANK)
        second = await form(driver, "Tank 2 of 2")
        assert second.answers()["id"] == "galley"
        await take_all(driver, TANK)
        await form(driver, "Wiring")
        await take_all(driver, WIRING)
        await assumed(driver)
        await driver.press("escape")
        await form(driver, "Wiring")
        await take_all(driver, WIRING)
        await assumed(driver)
        session = await begun(driver)
        assert [tank.id for tank in session.profile.tanks] == ["gray", "galley"]
        assert len(session.profile.heaters) == 4


async def test_esc_in_the_first_form_goes_back_to_the_list(tmp_path, monkeypatch):
    async with started(tmp_path, monkeypatch) as driver:
        await driver.press("1")
        await form(driver, "A new rig")
        await driver.press("escape")
        await driver.sees("Which rig?", "1 a new rig")
        assert driver.app.return_value is None


# --- what was assumed ---


async def chosen(driver, path: str) -> None:
    """The cursor on a value of the list, by arrows."""
    rows = driver.app.screen.list
    await driver.press("home")
    for _ in range(len(rows.rows)):
        if rows.cursor == f"value:{path}":
            return
        await driver.press("down")
        await driver.settle()
    raise AssertionError(f"no row for {path}")


async def test_all_that_was_assumed_is_listed_once_and_each_is_an_enter_away(tmp_path, monkeypatch):
    async with started(tmp_path, monkeypatch) as driver:
        await two_tanks_three_pads(driver)
        screen = driver.app.screen
        keys = [row.key for row in screen.list.rows]
        assert len(keys) == len(set(keys))
        for path in ("rig.units", "design.wind", "tank.gray.wall", "run.black-run.gauge", "parts.slack"):
            assert f"value:{path}" in keys
        await chosen(driver, "tank.gray.wall")
        await driver.press("enter")
        await form(driver, "Change gray tank, wall")
        await driver.type("a thick one\n")
        await driver.sees("tank.gray.wall: found", "expected")
        assert driver.app.screen.answers()["value"] == "a thick one"
        await driver.press(*["backspace"] * 11)
        await driver.type("3/8 in\n")
        await driver.until(lambda: driver.app.screen is screen)
        assert screen.list.cursor == "value:tank.gray.wall"
        await driver.sees("3/8 in  answered")
        await driver.press("escape")
        await form(driver, "Wiring")
        await take_all(driver, WIRING)
        await assumed(driver)
        await driver.press("ctrl+s")
        await driver.until(lambda: driver.app.return_value is not None)
        # 3/8 in is 9.525 mm by the definition of the inch.
        assert driver.app.return_value.profile.tanks[0].wall == pytest.approx(0.009525, abs=1e-12)


async def test_metric_is_chosen_before_the_rig_is_begun_and_by_the_key_afterwards(tmp_path, monkeypatch):
    async with started(tmp_path, monkeypatch) as driver:
        await two_tanks_three_pads(driver)
        await chosen(driver, "rig.units")
        await driver.press("enter")
        asked = await form(driver, "Change rig, units")
        await driver.press("right")
        if asked.answers()["value"] != "metric":
            await driver.press("right")
        await driver.press("enter")
        await assumed(driver)
        session = await begun(driver)
        assert session.profile.rig.units == "metric"
        async with driven(session=session, clock=driver.clock) as desk:
            # 40 in and 24 in are 1016 mm and 610 mm to the whole, by the definition of the inch.
            await desk.sees("1016 mm", "610 mm")
            await desk.press("f12")
            await desk.sees("40 in", "24 in")
            await desk.press("f12")
            await desk.sees("1016 mm")


@pytest.mark.parametrize("key", ["f1", "?"])
@pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "100x30"])
async def test_the_first_list_has_help_and_goes_on_after_it(tmp_path, monkeypatch, key, size):
    async with started(tmp_path, monkeypatch, size) as driver:
        await driver.sees("Which rig?", "F1 or ? help")
        await driver.press(key)
        await driver.sees("Which rig to begin with", "A demo rig is invented")
        assert_painted_whole(driver)
        assert_rows_fit(driver.app.screen.list)
        await driver.press("escape")
        await driver.sees("Which rig?", "a new rig: a few questions")
        await driver.type("new rig\n")
        await form(driver, "A new rig")

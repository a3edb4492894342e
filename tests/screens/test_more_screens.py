"""The screens a key away from the desk: opened by their key, they say what the assessment says, and Esc goes back.

What they should show is asked of the assessment and put into text by the project's one formatter; nothing is pasted.
"""

import pytest

from logic.assessment.bottom_plan import bottom_plan
from logic.assessment.parts_list import parts_list
from logic.assessment.proving import proof_of
from logic.assessment.wiring_plan import wiring_plan
from logic.data.sources import source
from logic.data.state import Instant
from logic.session.intents import TickPart
from tests.screens.driver import LARGE, SMALL, same_as_golden
from tests.screens.real import (
    FULL,
    MISTAKES,
    TWO_TANKS,
    assert_painted_whole,
    assert_rows_fit,
    assessed,
    at_work,
    leave,
    open_by,
    opened,
    said_in,
    shown,
)
from tui.show import numbers
from tui.show.marks import LETTERS, SIGNS
from tui.show.names import place_name
from tui.show.rows import text_of
from tui.show.spell_drawing import axis_width, bounds, row_at, spell_drawing
from tui.show.spell_series import spell_series
from tui.show.test_rows import chance_text

SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "100x30"])
RIGS = pytest.mark.parametrize("rig", [TWO_TANKS, MISTAKES, FULL], ids=lambda path: path.stem)
SCREENS = {
    "tests": "ctrl+t", "cut list": "ctrl+l", "bottom": "f10", "nights": "ctrl+n", "wiring": "ctrl+g",
    "what if": "ctrl+o", "day": "ctrl+r",
}  # fmt: skip


def flat(text: str) -> str:
    return " ".join(text.split())


@SIZES
@RIGS
async def test_no_row_is_cut_and_esc_gives_the_focus_back(tmp_path, rig, size):
    async with at_work(rig, tmp_path, size) as driver:
        for key in SCREENS.values():
            await open_by(driver, key)
            assert_rows_fit(opened(driver))
            assert_painted_whole(driver)
            await leave(driver, "line")
        await driver.press("f6")
        await driver.until(lambda: driver.app.focused.id == "figures" and driver.app.focused.cursor)
        for key in SCREENS.values():
            await open_by(driver, key)
            await leave(driver, "figures")


async def test_other_units_and_another_size_cut_nothing_either(tmp_path):
    async with at_work(FULL, tmp_path, LARGE) as driver:
        await driver.press("f12")
        await driver.until(lambda: driver.app.wiring.units == "metric")
        for key in SCREENS.values():
            await open_by(driver, key)
            for size in (SMALL, (160, 50), (81, 25), LARGE):
                await driver.pilot.resize_terminal(*size)
                await driver.until(lambda size=size: driver.app.screen.size == size)
                await driver.settle()
                assert_rows_fit(opened(driver))
                assert_painted_whole(driver)
            await leave(driver)


# --- the tests ---


@SIZES
async def test_tests_stand_as_expected_beside_measured(tmp_path, size):
    async with at_work(TWO_TANKS, tmp_path, size) as driver:
        await driver.take("meter leads 0.2")
        await driver.take("gray-pad res 3.9")
        await driver.take("gray-feed isol OL")
        await open_by(driver, "ctrl+t", "expected")
        proof, units = proof_of(driver.app.wiring.case()), "us"
        assert len(proof.trials) == 14
        said = said_in(driver)
        for trial in proof.trials:
            assert f"{place_name(trial.place)} {trial.quantity.replace('_', ' ')}" in said
            measured = () if trial.over else (trial.measured, trial.corrected)
            for value in (trial.expected, trial.low, trial.high, *measured):
                assert value is None or numbers.value_text(value, trial.kind, units) in said
        trial = proof.trial("heater.gray-pad.resistance")
        assert trial.state == "good"
        corrected = numbers.value_text(trial.corrected, "ohms", units)
        row = next(
            row for row in opened(driver).rows if row.key.startswith("trial:heater.gray-pad.resistance")
        )
        told = flat(" ".join(text_of(line) for line in row.lines))
        assert f"{corrected} ({numbers.value_text(3.9, 'ohms', units)} with leads)" in told
        assert "good ✓" in told
        assert "over range" in said


async def test_a_test_that_is_off_says_so_and_names_what_is_likely_first(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.take("meter leads 0.2")
        await driver.take("gray-pad res 9")
        await open_by(driver, "ctrl+t", "Likely, most likely first")
        assert "OFF ✗" in said_in(driver)
        assert opened(driver).rows[0].key == "faults:0"
        assert "gray-pad isn't what its label says" in flat(text_of(opened(driver).rows[1].lines[0]))
        assert_rows_fit(opened(driver))


@pytest.mark.parametrize(
    ("share", "said"),
    [(0.05, "5 %"), (0.714, "71.4 %"), (0.99, "99 %"), (0.996, "over 99 %"), (1.0, "over 99 %")],
)
def test_no_likely_fault_is_said_to_be_certain(share, said):
    assert chance_text(share, "us") == said


async def test_enter_on_a_test_makes_the_line_ask_for_its_reading(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await open_by(driver, "ctrl+t", "expected")
        opened(driver).choose("trial:run.black-feed.current:black-feed")
        await driver.press("enter")
        await driver.until(lambda: driver.app.screen is driver.app.desk)
        assert driver.app.wiring.snapshot().target == "run.black-feed.current"
        await driver.sees("run black-feed · current")


# --- cut list ---


@SIZES
async def test_cut_list_has_every_cut_hole_splice_and_purchase(tmp_path, size):
    async with at_work(FULL, tmp_path, size) as driver:
        await open_by(driver, "ctrl+l", "Cut, each from one length")
        profile = driver.app.wiring.snapshot().profile
        parts = parts_list(profile)
        said = said_in(driver)
        assert all((parts.cuts, parts.holes, parts.splices, parts.shopping))
        for cut in parts.cuts:
            length = numbers.value_text(cut.length, "route", "us")
            gauge = numbers.value_text(float(cut.gauge), "gauge", "us")
            assert f"{length} {gauge} {cut.colour} run {cut.run} {cut.conductor}" in said
        for splice in parts.splices:
            assert f"{splice.run}, {splice.conductor}, to {place_name(splice.joins, profile)}: " in said
        for hole in parts.holes:
            assert f"drill {numbers.value_text(hole.hole.drill, 'length', 'us')}" in said
        for each in parts.shopping:
            assert flat(numbers.fill(each.what, "us")) in said


async def test_enter_ticks_a_cut_and_once_more_unticks_it(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await open_by(driver, "ctrl+l", "not yet")
        first = opened(driver).cursor
        await driver.press("enter")
        await driver.sees("✓ cut")
        assert [tick.part for tick in driver.session.state.ticks] == [first]
        assert opened(driver).cursor == first
        await driver.press("enter")
        await driver.until(lambda: not driver.session.state.ticks)
        await driver.until(lambda: "✓ cut" not in driver.text)


async def test_what_is_ticked_stays_ticked_when_it_is_opened_again(tmp_path):
    def before(session):
        part = parts_list(session.profile).cuts[1].id
        session.act(TickPart(part, True), Instant(1_764_165_000.0))

    async with at_work(TWO_TANKS, tmp_path, before=before) as driver:
        await driver.press("space")  # the screen on coming back goes
        await open_by(driver, "ctrl+l", "✓ cut")
        assert driver.text.count("✓ cut") == 1


# --- bottom of a tank ---


@SIZES
async def test_bottom_says_each_pads_place_and_clearance_and_goes_from_tank_to_tank(tmp_path, size):
    async with at_work(FULL, tmp_path, size) as driver:
        await open_by(driver, "f10", "bottom of ")
        profile = driver.app.wiring.snapshot().profile
        for number, tank in enumerate(profile.tanks, start=1):
            await driver.sees(f"bottom of {tank.id} tank, {number} of {len(profile.tanks)}")
            said = said_in(driver)
            plan = bottom_plan(assessed(driver), tank.id)
            pads = [box for box in plan.boxes if box.kind == "pad"]
            assert pads
            for box in pads:
                for name in ("x", "y", "clearance", "to_outlet"):
                    assert shown(driver, f"heater.{box.id}.{name}") in said
                assert box.label in said
            assert numbers.value_text(plan.length, "length", "us") in said
            assert_rows_fit(opened(driver))
            await driver.press("right")
        await driver.sees("1 of 3")
        await driver.press("left")
        await driver.sees("3 of 3")


async def test_bottom_opens_on_the_tank_of_the_highlighted_row(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press("f5")
        await driver.until(lambda: driver.app.focused.id == "rig" and driver.app.focused.rows)
        driver.app.desk.pane("rig").choose("heater.black-pad")
        await open_by(driver, "f10", "bottom of black tank")


# --- nights ---


@SIZES
async def test_nights_say_the_figures_of_the_spell(tmp_path, size):
    async with at_work(TWO_TANKS, tmp_path, size) as driver:
        await open_by(driver, "ctrl+n", "2 nights of gray tank")
        for name in ("lowest", "ice_hours", "ice_share", "duty", "energy"):
            assert shown(driver, f"tank.gray.spell.{name}") in said_in(driver)
        await driver.sees("gray-pad", "ice", "06h")
        await driver.press("right")
        await driver.sees("2 nights of black tank")


@pytest.mark.parametrize("marks", [SIGNS, LETTERS], ids=["signs", "ascii"])
async def test_contents_are_drawn_at_their_temperature(tmp_path, marks):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        profile = driver.app.wiring.snapshot().profile
        series = spell_series(profile, "gray", 60)
        height = 15
        drawing = [text_of(line) for line in spell_drawing(series, height, "us", marks)]
        margin = axis_width(series, "us")
        low, high = bounds(series)
        sign = "*" if marks is LETTERS else "●"
        for column, degc in enumerate(series.contents):
            assert drawing[row_at(degc, low, high, height)][margin + column] == sign
        for label, row in ((high, 0), (low, height - 1)):
            assert numbers.value_text(label, "whole_temperature", "us") in drawing[row]
        if marks is LETTERS:
            "".join(drawing).replace("°", "").encode("ascii")


# --- wiring ---


@SIZES
@RIGS
async def test_wiring_tree_has_current_volts_gauge_and_fuse_of_each_point(tmp_path, rig, size):
    async with at_work(rig, tmp_path, size) as driver:
        await open_by(driver, "ctrl+g", "supply")
        said = {row.key: flat(" ".join(text_of(line) for line in row.lines)) for row in opened(driver).rows}
        plan = wiring_plan(assessed(driver))
        assert len(said) == len(plan) + 1
        for row in plan:
            told = said[f"{row.kind}:{row.id}"]
            names = (
                ("current", "drop", "gauge", "fuse") if row.kind == "run" else ("current", "volts", "drop")
            )
            for name in names:
                if getattr(row, {"current": "amps"}.get(name, name)) is not None:
                    assert shown(driver, f"{row.kind}.{row.id}.{name}") in told


async def test_enter_in_the_wiring_tree_opens_the_working(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await open_by(driver, "ctrl+g", "supply")
        opened(driver).choose("heater:gray-pad")
        await driver.press("enter")
        await driver.sees("working: pad gray-pad, volts", shown(driver, "heater.gray-pad.volts"))
        await driver.press("escape")
        await driver.sees("wiring, every heater on")
        await leave(driver)


# --- working ---


@SIZES
@RIGS
async def test_every_working_fits_and_says_value_formula_and_sources(tmp_path, rig, size):
    from tui.show.cells import plain, width_of
    from tui.show.rows import line_width
    from tui.show.working_rows import working_rows

    async with at_work(rig, tmp_path, size) as driver:
        snapshot = driver.app.wiring.snapshot()
        figures = snapshot.assessment.figures
        assert len(figures) >= 100
        width = size[0] - 4
        for units in ("us", "metric"):
            seen = snapshot._replace(units=units)
            for figure in figures:
                rows = working_rows(seen, figure.id, width)
                told = flat(" ".join(text_of(line) for row in rows for line in row.lines))
                assert all(line_width(line) <= width for row in rows for line in row.lines)
                assert numbers.figure_text(figure, units).value in told
                assert flat(numbers.working(figure, units)) in told or width_of(told) == 0
                for named in figure.sources:
                    assert flat(plain(source(named).title)) in told
                    assert named not in told


async def test_working_opens_by_enter_from_the_figures_and_esc_goes_back_to_them(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press("f6")
        await driver.until(lambda: driver.app.focused.id == "figures" and driver.app.focused.cursor)
        pane = driver.app.desk.pane("figures")
        pane.choose("tank.gray.holds_to")
        await driver.press("enter")
        await driver.sees("working: gray tank, holds to", shown(driver, "tank.gray.holds_to"))
        assert_rows_fit(opened(driver))
        await leave(driver, "figures")
        assert pane.cursor == "tank.gray.holds_to"


# --- how they look ---

LOOKS = {"tests": "ctrl+t", "cuts": "ctrl+l", "bottom": "f10", "nights": "ctrl+n", "wiring": "ctrl+g"}


@SIZES
@pytest.mark.parametrize("name", LOOKS)
async def test_screen_of_the_full_rig_is_as_reviewed(tmp_path, name, size):
    """The real figures of a demo rig: where one is meant to move, that is reviewed here too."""
    async with at_work(FULL, tmp_path, size) as driver:
        await open_by(driver, LOOKS[name])
        await driver.settle()
        same_as_golden(f"{name}-{size[0]}x{size[1]}", driver.text)

"""A step, and what holds it, call each part what it is called everywhere: `gray tank`, `run gray-feed`; no bare id."""

import re

import pytest
from msgspec import structs

from logic.data.place_names import place_name
from logic.data.quantities import fill
from tests.screens.fake import FakeClock
from tests.screens.real import FULL, MISTAKES, TWO_TANKS, at_work, session_of
from tui.show.coming_back import coming_back_lines
from tui.show.desk_lines import alarm_line
from tui.show.rows import text_of


def parts_of(profile) -> list[tuple[str, str]]:
    """(place, id) of every part."""
    kinds = {"tank": profile.tanks, "drain": profile.drains, "heater": profile.heaters, "run": profile.runs}
    kinds["bay"] = profile.bays
    return [(f"{kind}.{part.id}", part.id) for kind, parts in kinds.items() for part in parts]


def bare(text: str, parts: list[tuple[str, str]], profile) -> list[str]:
    """The ids that still stand in a text once every part that it calls by name is taken out of it."""
    text = text.replace("the belly", "")  # of the rig, not a bay of that name
    for name in sorted((place_name(place, profile) for place, _ in parts), key=len, reverse=True):
        text = text.replace(name, "")
    return [id for _, id in parts if re.search(rf"(?<![\w-]){re.escape(id)}(?![\w-])", text)]


@pytest.mark.parametrize("rig", [TWO_TANKS, FULL, MISTAKES], ids=["two-tanks", "full-belly", "mistakes"])
def test_no_step_and_nothing_that_holds_one_says_a_bare_id(tmp_path, rig):
    clock = FakeClock()
    session = session_of(rig, tmp_path, clock)
    assessment = session.assess(clock())
    profile = assessment.planned
    parts = parts_of(profile)
    said = [step.title for step in assessment.steps]
    for step in assessment.steps:
        for block in step.blocks:
            said += [fill(block.text, "us"), fill(block.release, "us")]
    session.close()
    assert any("tank" in each for each in said)
    assert [(each, ids) for each in said if (ids := bare(each, parts, profile))] == []


async def test_what_is_changed_is_called_by_its_name(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        await driver.press("f5")
        await driver.until(lambda: driver.app.focused.id == "rig")
        pane = driver.app.desk.pane("rig")
        pane.choose("slot:tank.gray.length")
        await driver.press("f4", *"change", "enter")
        await driver.sees("Change gray tank, length")


async def test_what_is_live_is_called_by_its_name(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        snapshot = driver.app.wiring.snapshot()
        runs = tuple(run.id for run in snapshot.profile.runs)
        live = snapshot._replace(assessment=structs.replace(snapshot.assessment, live=runs))
        names = ", ".join(f"run {run}" for run in runs)
        assert names in text_of(alarm_line(live, 100))
        assert any(names in text_of(each) for each in coming_back_lines(live, [], 90, 30))

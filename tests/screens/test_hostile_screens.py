"""Hostile text on a real session, in every pane and on every screen: shown as text, and nothing is shifted by it.

A terminal that counts cells letter by letter and one that counts what is drawn as one sign must agree on every line
that is painted. What a single letter takes is taken from the wcwidth package, which isn't what the program counts by.
"""

import re
from typing import Any

import pytest
from wcwidth import wcwidth

from logic.data.clean_text import clean_text
from logic.data.profile_check import check_document
from logic.data.profile_file import LoadedProfile, clean_document, read_document
from logic.session.intents import (
    AcceptItem,
    ChangeProfile,
    HoldStep,
    RecordInStep,
    Refused,
    WriteItem,
    WriteNote,
)
from logic.session.session import Session, new_session
from tests.screens.driver import LARGE, SMALL, Driven, driven
from tests.screens.fake import FakeClock
from tests.screens.real import TWO_TANKS, assert_painted_whole, leave, open_by, opened, whole
from tui.show.cells import steady, width_of

HOSTILE = (
    "see [red]the[/red] strap", "[/x] ends it", "[link=x]y[/link] [@click=quit]z[/]", "\\[escaped] twice",
    "水槽タンク 검은 탱크", "e\u0301\u0301\u0301 combining", "שלום עולם", "مرحبا ١٢", "\u202eevil\u202c turned",
    "👨\u200d👩\u200d👧 family", "❤\ufe0f ⚠\ufe0f 1\ufe0f\u20e3 signs", "🇩🇪🇫🇷 flags", "👍🏽 thumb",
    "a\x1b[31mred\x1b[0m", "b\x1b]0;title\x07c", "d\x1b]8;;http://x.invalid\x1b\\e", "\x9b2Jgone \x90q\x9c",
    "tab\tand\nline\rback", "zero\u200bwidth\ufeff", "{braces} %s {0}", "W" * 60,
)  # fmt: skip
SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "100x30"])
PANES = (("f5", "rig"), ("f6", "figures"), ("f7", "steps"), ("f8", "punch"))
SCREENS = ("f10", "ctrl+n", "ctrl+g", "ctrl+t", "ctrl+l", "ctrl+r", "ctrl+f", "ctrl+o")
OBEYED = re.compile("[\x00-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]")


def held_up(home: Any, clock: FakeClock) -> Session:
    """A session with every hostile text as an item, a note, a step's note, a reason and a name, a keep-out, a wire."""
    raw = read_document(TWO_TANKS)
    raw["rig"] |= {"name": HOSTILE[0], "kind": HOSTILE[4], "note": " ".join(HOSTILE)}
    raw["tank"][0]["keepout"] = [
        {"x": "14 in", "y": "0 in", "length": "1 in", "width": "2 in", "why": text} for text in HOSTILE
    ]
    for run, text in zip(raw["run"], (HOSTILE[13], HOSTILE[10]), strict=True):
        run["colour"] = text
    session = new_session(
        LoadedProfile(check_document(raw), clean_document(raw)), clock(), home=home, by=HOSTILE[0]
    )
    steps = [step.id for step in session.assess(clock()).steps]
    for text, step in zip(HOSTILE, steps, strict=False):
        weight = "use" if text in HOSTILE[::2] else "note"
        for intent in (
            WriteItem(text, weight, "tank.gray"), WriteNote(text), HoldStep(step, text),
            RecordInStep(step, {"seen": text}),
        ):  # fmt: skip
            clock.on(5.0)
            assert not isinstance(session.act(intent, clock()), Refused), intent
        clock.on(5.0)
        accepted = AcceptItem(session.state.items[-1].id, text, text)
        if text in HOSTILE[::3]:
            assert not isinstance(session.act(accepted, clock()), Refused)
    return session


def assert_steady(driver: Driven) -> None:
    """No letter that a terminal obeys; every line as wide letter by letter as it is on the whole."""
    width, _ = driver.app.size
    assert_painted_whole(driver)
    for strip in driver.app.screen._compositor.render_strips():
        text = "".join(segment.text for segment in strip if not segment.control)
        assert not OBEYED.search(text), repr(text)
        assert sum(wcwidth(letter) for letter in text) == width_of(text) == width, repr(text)


async def through(driver: Driven, rows: Any) -> None:
    """Page after page to the end, each looked at."""
    await driver.press("home")
    for _ in range(len(rows.rows)):
        await driver.settle()
        assert_steady(driver)
        before = (rows.cursor, rows.scroll_offset.y)
        await driver.press("pagedown")
        await driver.settle()
        if (rows.cursor, rows.scroll_offset.y) == before:
            return


def said(text: str) -> str:
    return " ".join(clean_text(text).split())


@SIZES
async def test_hostile_text_stands_as_text_in_every_pane_and_on_every_screen(tmp_path, size):
    clock = FakeClock()
    session = held_up(tmp_path, clock)
    try:
        async with driven(size, session=session, clock=clock) as driver:
            await driver.until(lambda: driver.app.screen is not driver.app.desk)
            assert_steady(driver)
            await leave(driver)
            for key, name in PANES:
                await driver.press(key)
                await driver.until(lambda name=name: driver.app.focused.id == name)
                pane = driver.app.desk.pane(name)
                await driver.until(lambda pane=pane: pane.rows)
                await through(driver, pane)
            shown = whole(driver.app.desk.pane("punch"))
            for item in session.state.items:
                assert said(item.text)[:24] in shown
            for key in SCREENS:
                await open_by(driver, key)
                await through(driver, opened(driver))
                if key == "ctrl+r":
                    record = whole(opened(driver))
                    assert all(said(text)[:24] in record for text in HOSTILE)
                await leave(driver, "punch")
    finally:
        session.close()


@SIZES
async def test_hostile_name_of_the_rig_shifts_nothing_on_the_desk_and_in_its_dialogs(tmp_path, size):
    clock = FakeClock()
    session = held_up(tmp_path, clock)
    try:
        async with driven(size, session=session, clock=clock) as driver:
            await driver.until(lambda: driver.app.screen is not driver.app.desk)
            await leave(driver)
            for text, item in zip(HOSTILE, session.state.items, strict=True):
                name = clean_text(text)
                driver.app.send(ChangeProfile("rig.name", name))
                await driver.settle()
                assert driver.app.wiring.snapshot().profile.rig.name == name
                assert_steady(driver)
                await driver.press("f8")
                await driver.until(lambda: driver.app.focused.id == "punch")
                await driver.until(lambda: driver.app.desk.pane("punch").rows)
                driver.app.desk.pane("punch").choose(f"entry:{item.id}")
                await driver.press("f4")
                await driver.sees("write an item")
                assert_steady(driver)
                await leave(driver, "punch")
    finally:
        session.close()


@pytest.mark.parametrize(
    ("text", "painted"),
    [
        ("❤\ufe0f x", "❤  x"), ("1\ufe0f\u20e3.", "1 ."), ("🇩🇪", "DE"), ("👍🏽", "👍"), ("水槽", "水槽"),
        ("e\u0301", "e\u0301"), ("plain", "plain"),
    ],
)  # fmt: skip
def test_sign_that_terminals_count_differently_is_painted_as_one_that_they_do_not(text, painted):
    assert steady(text) == painted
    assert width_of(painted) == width_of(text) == sum(wcwidth(letter) for letter in painted)

"""A whole day under the rig, worked by keys alone, from the first step to the end of the day.

Nothing is sent to the session but what a key brings there. What was typed is then looked for in the events, and in
the session as it is opened again from the disk. The readings are invented, as the rig is.
"""

from collections import Counter
from typing import Any

from logic.data import events as happened
from logic.session.session import open_session
from tests.screens.driver import Driven
from tests.screens.real import TWO_TANKS, assessed, at_work, leave, open_by, opened
from tests.technician import MADE_SAFE

STOP_TYPED, STOP_AFTER = "1630", 2 * 3600 + 40 * 60.0  # the clock of these tests begins at 13:50
BEFORE_THE_SURVEY = (
    "profile-complete:rig", "parts-bought:rig", "drain-flush:tank.gray", "drain-flush:tank.black", "chocks:rig",
    "stands:rig", "tow-plug:rig", "solar:rig", "shore-cord:rig", "generator:rig", "alternator:rig",
    "battery-negative:rig", "proven-dead:rig", "gas-located:rig", "mains-located:rig", "supports:tank.gray",
    "supports:tank.black", "look-round:rig", "corner-zero:tank.gray", "corner-zero:tank.black",
)  # fmt: skip
SURVEY = ("read-tank:tank.gray", "read-tank:tank.black", "read-routes:rig")
ANSWERED = {"held by": "two straps", **MADE_SAFE["proven-dead"]}
FIRST_PASS = {  # in walking order: what a person types for each slot
    "tank.gray.length": "38 5/8",
    "tank.gray.width": "21",
    "tank.gray.height": "8 3/4",
    "tank.gray.outlet.x": "34-1/8",
    "tank.gray.outlet.y": "10.5",
    "heater.gray-pad.length": "18",
    "heater.gray-pad.width": "12",
    "tank.black.length": "29 1/16",
    "tank.black.width": "24",
    "tank.black.height": "10 1/4",
    "tank.black.fall": "3/4",
    "tank.black.outlet.x": "25",
    "tank.black.outlet.y": "12+1/8",
    "heater.black-pad.length": "18",
    "heater.black-pad.width": "12",
    "run.gray-feed.length": "11",
    "run.black-feed.length": "14' 6",
}
SECOND_PASS = {**FIRST_PASS, "tank.gray.length": "39 3/8"}  # a slip of the tape: the two differ by 3/4 in
THIRD = "38 9/16"
SLIP = "12 1/2"
KEYS_OF_A_READING = set("0123456789 -+/.'\"") | {"enter"}


class ByHand:
    """One who has only the keys, and remembers which were pressed for readings."""

    def __init__(self, driver: Driven) -> None:
        self.driver = driver
        self.keys_of_readings: set[str] = set()
        self.readings: list[tuple[str, str]] = []  # slot, typed

    @property
    def kinds(self) -> list[str]:
        return [type(event.payload).__name__ for event in self.driver.session.events]

    async def read(self, typed: str) -> None:
        slot = assessed(self.driver).wanted[0]
        assert self.driver.app.wiring.snapshot().target == slot
        self.keys_of_readings |= {*typed, "enter"}
        self.readings.append((slot, typed))
        await self.driver.take(typed)

    async def cursor_to(self, rows: Any, key: str) -> None:
        """Go down a list by its arrow, from its beginning."""
        await self.driver.press("home")
        await self.driver.until(lambda: rows.cursor == next(row.key for row in rows.rows if row.choosable))
        for _ in range(len(rows.rows)):
            before = rows.cursor
            if before == key:
                return
            await self.driver.press("down")
            await self.driver.until(lambda before=before: rows.cursor != before)
        raise AssertionError(f"{key} is not in the list")

    async def in_pane(self, key: str, name: str, row: str) -> None:
        await self.driver.press(key)
        await self.driver.until(lambda: self.driver.app.focused.id == name)
        await self.cursor_to(self.driver.app.desk.pane(name), row)

    async def choose(self, *, part_of_its_words: str) -> None:
        """F4, and the deed of which these are some words."""
        await self.driver.press("f4")
        await self.driver.sees("letters narrow", part_of_its_words)
        await self.driver.type(f"{part_of_its_words}\n")

    async def until_there_is_one_more(self, kind: str, before: int) -> None:
        await self.driver.until(lambda: self.kinds.count(kind) == before + 1)
        await self.driver.until(lambda: self.driver.app.screen is self.driver.app.desk)

    async def start(self, step_id: str) -> None:
        await self.in_pane("f7", "steps", f"step:{step_id}")
        step = next(each for each in assessed(self.driver).steps if each.id == step_id)
        before = self.kinds.count("StepStarted")
        await self.driver.press("ctrl+s")
        if step.caution:
            await self.driver.sees("Enter start")
            await self.driver.press("enter")
        await self.until_there_is_one_more("StepStarted", before)
        self.driver.clock.on(20.0)

    async def finish(self, step_id: str) -> None:
        """Finish it with the same key; what it wants written down is asked for, a line each and a note."""
        await self.in_pane("f7", "steps", f"step:{step_id}")
        step = next(each for each in assessed(self.driver).steps if each.id == step_id)
        before = self.kinds.count("StepDone")
        await self.driver.press("ctrl+s")
        if step.record:
            await self.driver.sees("Done:", step.record[0])
            for asked in step.record:
                await self.driver.type(f"{ANSWERED.get(asked, 'seen')}\n")
            await self.driver.press("enter")
        await self.until_there_is_one_more("StepDone", before)
        self.driver.clock.on(20.0)

    async def of_the_day(self, deed: str, then: str = "") -> None:
        """Begin or end the day from its record."""
        await open_by(self.driver, "ctrl+r", "the day's record")
        await self.cursor_to(opened(self.driver), f"deed:{deed}")
        await self.driver.press("enter")
        if then:
            await self.driver.sees("The day begins")
            await self.driver.type(f"{then}\n")


async def test_whole_day_is_worked_by_keys_alone_and_stands_on_the_disk_as_it_was_typed(tmp_path):
    async with at_work(TWO_TANKS, tmp_path) as driver:
        hand, session, state_of = ByHand(driver), driver.session, lambda: driver.session.state
        began = driver.clock.at

        # The day begins with its stop.
        await hand.of_the_day("begin-day", STOP_TYPED)
        await driver.until(lambda: state_of().days)
        await leave(driver)
        await driver.sees("stop at 16:30")

        # Made safe, step by step, then the list of what was seen.
        for step_id in BEFORE_THE_SURVEY:
            await hand.start(step_id)
            await hand.finish(step_id)
        await hand.start("seen-or-not:rig")
        await hand.finish("seen-or-not:rig")
        for step_id in SURVEY:
            await hand.start(step_id)
        await driver.press("escape")
        await driver.until(lambda: driver.app.focused.id == "line")

        # The first pass, with a slip that is taken back.
        assert list(dict.fromkeys(assessed(driver).wanted)) == list(FIRST_PASS)
        for number, typed in enumerate(FIRST_PASS.values()):
            if number == 4:
                await hand.read(SLIP)
                await driver.press("f2")
                await driver.until(lambda: state_of().readings[-1].struck)
                driver.clock.on(30.0)
            await hand.read(typed)
        slip = hand.readings[4]
        assert slip == ("tank.gray.outlet.y", SLIP)

        # The second pass is blind: the first reading of the slot that is asked for is nowhere to be seen.
        assert assessed(driver).wanted == tuple(FIRST_PASS)
        await driver.sees("gray tank · length")
        assert FIRST_PASS["tank.gray.length"] not in driver.text
        await hand.read(SECOND_PASS["tank.gray.length"])

        # The two differ: the third is asked for at once.
        await driver.sees("gray tank · length", "in dispute", "read it once more")
        assert assessed(driver).wanted[0] == "tank.gray.length"
        await hand.read(THIRD)
        view = driver.app.wiring.snapshot().slot("tank.gray.length")
        assert (view.state, view.owed, len(view.readings)) == ("agreed", 0, 3)

        # The last reading taken is undone and redone: it counts as before.
        await driver.press("ctrl+z")
        await driver.until(lambda: len(state_of().readings) == len(hand.readings) - 1)
        assert driver.app.wiring.snapshot().slot("tank.gray.length").state == "in dispute"
        await driver.press("ctrl+y")
        await driver.until(lambda: len(state_of().readings) == len(hand.readings))
        driver.clock.on(30.0)

        for slot in list(FIRST_PASS)[1:]:
            assert driver.app.wiring.snapshot().target == slot
            await hand.read(SECOND_PASS[slot])
        assert assessed(driver).wanted == ()
        assert hand.keys_of_readings <= KEYS_OF_A_READING
        for step_id in SURVEY:
            await hand.finish(step_id)

        # A punch item is written and done, a step is held.
        await driver.press("f9")
        await driver.sees("what is to be done")
        await driver.type("Tighten the front strap\n\n\n")
        await driver.until(lambda: state_of().items)
        await driver.sees("Tighten the front strap")
        await hand.in_pane("f8", "punch", f"entry:{state_of().items[0].id}")
        await hand.choose(part_of_its_words="done")
        await driver.until(lambda: state_of().items[0].state == "done")
        await hand.in_pane("f7", "steps", "step:wash:tank.gray")
        await hand.choose(part_of_its_words="hold it")
        await driver.sees("held because")
        await driver.type("dark\n")
        await driver.until(lambda: state_of().steps[-1].kind == "held")

        await hand.of_the_day("end-day")
        await driver.until(lambda: state_of().days[-1].ended)
        await leave(driver, "steps")

        assert_events_say_what_was_typed(hand, session.events)
        assert_state_says_what_was_typed(hand, state_of(), began)
        session_id, state, events = session.id, session.state, tuple(session.events)
        profile, at = session.profile, driver.clock()
        figures = session.assess(at).figures
    again = open_session(session_id, at, home=tmp_path, by="R. Tester")
    try:
        assert tuple(again.events) == events
        assert again.state == state
        assert again.profile == profile
        assert again.assess(at).figures == figures
    finally:
        again.close()


def assert_events_say_what_was_typed(hand: ByHand, events: Any) -> None:
    """Each key did one thing, and nothing but that."""
    steps = len(BEFORE_THE_SURVEY) + 1 + len(SURVEY)
    assert Counter(hand.kinds) == {
        "SessionBegun": 1, "DayBegun": 1, "StepStarted": steps, "StepDone": steps,
        "ReadingTaken": 2 * len(FIRST_PASS) + 2, "ReadingStruck": 1, "Undone": 2,  # a redo undoes the undo
        "ItemWritten": 1, "ItemDone": 1, "StepHeld": 1, "DayEnded": 1,
    }  # fmt: skip
    taken = [event.payload for event in events if isinstance(event.payload, happened.ReadingTaken)]
    assert [(each.slot, each.typed) for each in taken] == hand.readings


def assert_state_says_what_was_typed(hand: ByHand, state: Any, began: float) -> None:
    standing = [(each.slot, each.typed) for each in state.readings if not each.struck]
    assert standing == [each for each in hand.readings if each != ("tank.gray.outlet.y", SLIP)]
    assert not any(each.saw_first for each in state.readings)
    inches = {(each.slot, each.typed): each.value for each in state.readings}
    # 1 in = 25.4 mm and 1 ft = 0.3048 m exactly: NIST SP 811, appendix B.
    assert abs(inches["tank.gray.length", THIRD] - 38.5625 * 0.0254) < 1e-12
    assert abs(inches["tank.gray.outlet.x", "34-1/8"] - 34.125 * 0.0254) < 1e-12
    assert abs(inches["tank.black.outlet.y", "12+1/8"] - 12.125 * 0.0254) < 1e-12
    assert abs(inches["run.black-feed.length", "14' 6"] - 14.5 * 0.3048) < 1e-12
    done = [each.step for each in state.steps if each.kind == "done"]
    assert done == [*BEFORE_THE_SURVEY, "seen-or-not:rig", *SURVEY]
    held = state.steps[-1]
    assert (held.step, held.kind, held.note) == ("wash:tank.gray", "held", "dark")
    seen = next(each for each in state.steps if each.step == "seen-or-not:rig" and each.kind == "done")
    assert len(seen.recorded) == 16
    assert {answer for _, answer in seen.recorded} == {"seen"}
    item = state.items[0]
    assert (item.text, item.weight, item.state) == ("Tighten the front strap", "stop", "done")
    (day,) = state.days
    assert day.stop_at == began + STOP_AFTER
    assert day.ended is not None

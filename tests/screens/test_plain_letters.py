"""A terminal that has plain letters only: no sign of ours is left on any screen that it may lack."""

from types import SimpleNamespace

import pytest

from tests.screens.driver import SMALL, Driven, driven
from tests.screens.fake import FakeClock
from tests.screens.real import MISTAKES, session_of
from tests.screens.real import shown as value_shown
from tui.screens.start import Start
from tui.show.letters import in_letters, shown
from tui.show.marks import LETTERS
from tui.show.rows import Span, text_of

KEYS = (
    "f5",
    "f6",
    "f7",
    "f8",
    "f1",
    "f4",
    "f9",
    "f10",
    "ctrl+n",
    "ctrl+g",
    "ctrl+t",
    "ctrl+l",
    "ctrl+o",
    "ctrl+r",
)


def strange(text: str) -> set[str]:
    """What is beyond ISO 8859-1."""
    return {sign for sign in text if ord(sign) > 255}


@pytest.mark.parametrize("size", [SMALL, (100, 30)], ids=["80x24", "100x30"])
async def test_no_screen_has_a_sign_that_the_terminal_may_lack(tmp_path, size):
    clock = FakeClock()
    session = session_of(MISTAKES, tmp_path, clock)
    async with driven(size, session=session, clock=clock, marks=LETTERS) as driver:
        await driver.take("41 3/8")
        for key in KEYS:
            await driver.press(key)
            await driver.settle()
            assert strange(driver.text) == set(), (key, driver.text)
            while driver.app.screen is not driver.app.desk:
                over = driver.app.screen
                await driver.press("escape")
                await driver.until(lambda over=over: driver.app.screen is not over)
    session.close()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2.40 Ω", "2.40 ohm"),
        ("2.40 Ω    read", "2.40 ohm  read"),
        ("2.40 Ω  2.36 … 2.44 Ω   good", "2.40 ohm 2.36 ~ 2.44 ohm good"),
        ("clear by ≥ 1/2 in   ok", "clear by >= 1/2 in  ok"),
        ("−17 °F … ½", "-17 °F ~ ½"),
    ],
)
def test_a_longer_form_takes_its_room_from_the_blanks_behind_it(text, said):
    assert text_of(in_letters((Span(text),))) == said


def test_what_stands_in_the_next_column_stays_there():
    told = in_letters((Span("isolation 20 MΩ   ", "strong"), Span("  good", "good")))
    assert text_of(told) == "isolation 20 Mohm   good"
    assert [span.role for span in told] == ["strong", "good"]


def test_a_letter_that_the_terminal_lacks_takes_as_many_cells(monkeypatch):
    shown.cache_clear()
    monkeypatch.setattr("sys.__stderr__", SimpleNamespace(encoding="latin-1"))
    assert text_of(in_letters((Span("Ж 貨 ü 17 °F"),))) == "? ?? ü 17 °F"
    shown.cache_clear()
    monkeypatch.setattr("sys.__stderr__", SimpleNamespace(encoding="ascii"))
    assert text_of(in_letters((Span("ü ±2 °F"),))) == "? +-2  F"
    shown.cache_clear()


async def test_minus_is_there(tmp_path):
    clock = FakeClock()
    session = session_of(MISTAKES, tmp_path, clock)
    async with driven((100, 60), session=session, clock=clock, marks=LETTERS) as driver:
        before = value_shown(driver, "tank.gray.effective")
        assert before.startswith("−")
        await driver.sees(f" {before.replace('−', '-')} ")
    session.close()


async def test_list_of_the_start_has_plain_marks(tmp_path, monkeypatch):
    monkeypatch.setenv("BELLYPAN_HOME", str(tmp_path))
    app = Start(LETTERS)
    async with app.run_test(size=SMALL) as pilot:
        driver = Driven(app, pilot, None, None)
        await driver.sees("> 1 a new rig")

"""Which figures a reading moved: those that show another value, and those whose band decides and shows another edge."""

import msgspec
import pytest

from logic.data.figure import Figure
from logic.data.state import Assessment
from logic.data.wording import words
from tests.screens.fake import FakeClock, FakeSession
from tui.show.desk_words import moved_text
from tui.show.marks import SIGNS
from tui.wiring import Wiring, moved_between

HOLDS_TO = Figure(
    "tank.gray.holds_to", "tank.gray", "holds to", "degC", -27.0, words("made up"),
    low=-34.0, high=-22.0, banded=True, holds=True,
)  # fmt: skip


def assessed(figure: Figure) -> Assessment:
    session = FakeSession()
    whole = session.assess(FakeClock()())
    return msgspec.structs.replace(whole, figures=(figure,))


def changed(**fields) -> Figure:
    return msgspec.structs.replace(HOLDS_TO, **fields)


def test_another_value_moved_and_says_the_value_before():
    moved = moved_between(assessed(HOLDS_TO), assessed(changed(value=-30.0)), "metric")
    assert moved == {"tank.gray.holds_to": "−27 °C"}


@pytest.mark.parametrize("edge", [{"high": -18.0}, {"low": -40.0}])
def test_another_edge_of_a_band_that_decides_moved_and_says_the_band_before(edge):
    moved = moved_between(assessed(HOLDS_TO), assessed(changed(**edge)), "metric")
    assert moved == {"tank.gray.holds_to": "band −34 … −22"}


def test_an_edge_that_decides_nothing_or_shows_the_same_did_not_move():
    loose = changed(holds=None)
    assert not moved_between(assessed(loose), assessed(msgspec.structs.replace(loose, high=-18.0)), "metric")
    assert not moved_between(assessed(HOLDS_TO), assessed(changed(high=-22.04)), "metric")
    assert not moved_between(assessed(HOLDS_TO), assessed(changed()), "metric")


def test_what_moved_is_said_with_the_band_now_and_before():
    snapshot = Wiring(FakeSession(), marks=SIGNS, now=FakeClock()).snapshot()
    now = snapshot._replace(
        assessment=assessed(changed(high=-18.0)),
        units="metric",
        moved={"tank.gray.holds_to": "band −34 … −22"},
    )
    assert moved_text(now) == "holds to band −34 … −18 (was band −34 … −22)"

"""A slot by typed parts of its name."""

import pytest

from tests.screens.fake import FakeClock, FakeSession
from tui.show.slot_names import matching, parted


@pytest.mark.parametrize(
    ("typed", "name", "value"),
    [
        ("41 3/8", "", "41 3/8"), ("gray len 41 3/8", "gray len", "41 3/8"), ("gray-a res OL", "gray-a res", "OL"),
        ("OL", "", "OL"), ("open", "", "open"), ("3ft 5in", "", "3ft 5in"), ("> 20 MΩ", "", "> 20 MΩ"),
        ("gray keepout 1 x 10", "gray keepout 1 x", "10"), ("feed 6 ft", "feed", "6 ft"), ("-12", "", "-12"),
        ("gray len", "gray len", ""), ("", "", ""), ("½", "", "½"),
    ],
)  # fmt: skip
def test_name_and_value_are_parted(typed, name, value):
    assert parted(typed) == (name, value)


@pytest.mark.parametrize(
    ("name", "slots"),
    [
        ("gray tank len", ["tank.gray.length"]), ("black h", ["tank.black.height"]),
        ("gray out x", ["tank.gray.outlet.x"]), ("pad gray-a len", ["heater.gray-a.length"]),
        ("tank.gray.length", ["tank.gray.length"]), ("run feed len", ["run.feed.length"]),
        ("gray-a res", ["heater.gray-a.resistance"]), ("humidity", ["work.humidity"]), ("nothing", []),
    ],
)  # fmt: skip
def test_parts_of_a_name_find_the_slot(name, slots):
    session = FakeSession()
    views = session.assess(FakeClock()()).slots
    assert [view.slot for view in matching(name, views, session.profile)] == slots


def test_name_of_several_gives_them_all():
    session = FakeSession()
    views = session.assess(FakeClock()()).slots
    assert len(matching("gray", views, session.profile)) > 1

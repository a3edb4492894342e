"""A slot by typed parts of its name."""

import msgspec
import pytest

from logic.assessment.assess import assess
from logic.data.profile_file import load_profile
from logic.data.rigs_folder import rigs_folder
from logic.data.state import State
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


def test_name_typed_in_full_means_that_slot_though_longer_names_hold_it():
    profile = load_profile(rigs_folder() / "full-belly.toml").profile
    views = assess(profile, State(), FakeClock()()).slots
    longer = [view.slot for view in views if view.slot.startswith("tank.fresh.") and "length" in view.slot]
    assert len(longer) > 1
    assert [view.slot for view in matching("fresh tank length", views, profile)] == ["tank.fresh.length"]


def test_slot_of_a_tank_goes_before_one_of_its_keepouts_that_was_not_named_though_nothing_is_owed():
    profile = load_profile(rigs_folder() / "two-tanks.toml").profile
    views = [
        msgspec.structs.replace(view, owed=0, state="agreed")
        for view in assess(profile, State(), FakeClock()()).slots
    ]
    assert any(view.slot == "tank.gray.keepout.1.width" for view in views)
    for typed, slot in (
        ("gray tank wid", "tank.gray.width"),
        ("gray tank len", "tank.gray.length"),
        ("gray tank keep wid", "tank.gray.keepout.1.width"),
    ):
        assert [view.slot for view in matching(typed, views, profile)] == [slot]
    assert len(matching("gray tank x", views, profile)) > 1  # of the outlet, or of the keep-out


@pytest.mark.parametrize(
    ("name", "slot"),
    [
        ("gray len", "tank.gray.length"), ("gray tank len", "tank.gray.length"),
        ("gray tank length", "tank.gray.length"), ("gray bot len", "tank.gray.bottom_length"),
        ("gray tank bottom length", "tank.gray.bottom_length"), ("gray wid", "tank.gray.width"),
    ],
)  # fmt: skip
def test_a_tank_that_narrows_to_its_bottom_is_asked_for_by_its_own_length(name, slot):
    loaded = load_profile(rigs_folder() / "full-belly.toml")
    views = assess(loaded.profile, State()).slots
    assert [view.slot for view in matching(name, views, loaded.profile)] == [slot]

"""The interpreter looks for garbage again once the screen stands, and nobody who embeds it is touched."""

import gc

import pytest

from tui import garbage


@pytest.fixture
def collector():
    """The collector as it was, whatever the test did to it."""
    was = gc.isenabled()
    yield
    garbage.resume()
    gc.unfreeze()
    if was:
        gc.enable()
    else:
        gc.disable()


def test_a_start_puts_the_search_off_until_the_screen_stands(collector):
    gc.enable()
    garbage.hold_off()
    assert not gc.isenabled()
    garbage.resume()
    assert gc.isenabled()
    assert gc.get_freeze_count() > 0


def test_what_was_off_already_stays_off(collector):
    gc.disable()
    garbage.hold_off()
    garbage.resume()
    assert not gc.isenabled()
    assert gc.get_freeze_count() == 0


def test_without_a_start_nothing_is_changed(collector):
    gc.enable()
    garbage.resume()
    assert gc.isenabled()
    assert gc.get_freeze_count() == 0

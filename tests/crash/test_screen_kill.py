"""Killed while someone works at the screen, the short version; the long one is `python -m tests.crash.long_run`."""

import pytest

from tests.crash.screen_kills import kill_at_random, work_at_a_fault

pytestmark = pytest.mark.filterwarnings("ignore:.*forkpty.*:DeprecationWarning")


def test_what_the_screen_said_to_be_taken_is_there_after_a_kill():
    tally = kill_at_random(3, seed=4, longest_life=1.0)
    assert tally.kills == 3
    assert tally.acknowledged > 0


@pytest.mark.parametrize(("fault", "failing"), [("dies within", 12), ("ENOSPC", 16)])
def test_a_fault_of_the_disk_while_the_screen_runs_loses_nothing_it_acknowledged(fault, failing, tmp_path):
    names = work_at_a_fault(tmp_path, fault, failing)
    assert bool(names) == (fault == "ENOSPC")

"""Who holds a session: a second one looks on, follows, takes over when the first has gone."""

import errno
import os
import signal
import subprocess
import sys

import pytest

from logic.session import system_lock
from logic.session.intents import Refused, Taken, WriteNote
from logic.session.lock import read_holder
from logic.session.session import open_session
from logic.session.system_lock import SystemLock
from tests.crash.kept_sessions import at, begin, end_abruptly, filled, ids, opened
from tests.crash.long_run import ROOT

HOLD_AND_WAIT = """
import sys, time
from pathlib import Path
from tests.crash.kept_sessions import opened, record
session = opened(sys.argv[2], Path(sys.argv[1]))
record(session, 5)
print("held", flush=True)
time.sleep(60)
"""


def holding_process(home, session_id: str) -> subprocess.Popen:
    child = subprocess.Popen(
        [sys.executable, "-c", HOLD_AND_WAIT, str(home), session_id], stdout=subprocess.PIPE, cwd=ROOT
    )
    assert child.stdout is not None
    assert child.stdout.readline() == b"held\n"
    return child


def test_a_second_one_is_told_who_holds_it_and_may_only_look(tmp_path):
    first = begin(tmp_path)
    second = opened(first.id, tmp_path)
    assert second.read_only
    assert second.holder is not None
    assert second.holder.pid == os.getpid()
    assert second.because is not None
    assert "held by" in second.because.template
    answer = second.act(WriteNote("mine"), at(10))
    assert isinstance(answer, Refused)
    assert "held by" in answer.reason.template
    second.close()
    assert isinstance(first.act(WriteNote("ours"), at(20)), Taken)
    first.close()


def test_one_who_looks_on_follows_what_the_first_records(tmp_path):
    first = begin(tmp_path)
    second = opened(first.id, tmp_path)
    assert not second.follow()
    for number in range(3):
        assert isinstance(first.act(WriteNote(f"note {number}"), at(10 + number)), Taken)
        assert second.follow()
        assert second.state == first.state
        assert not second.follow()
    first._store.fold_in()
    second.follow()
    assert ids(second.events) == ids(first.events)
    first.close()
    second.follow()
    assert ids(second.events) == ids(first.events)
    assert second.notices == ()
    second.close()


def test_it_can_be_taken_over_once_the_holder_has_left_and_not_before(tmp_path):
    first = begin(tmp_path)
    second = opened(first.id, tmp_path)
    assert not second.take_over(at(10))
    assert isinstance(first.act(WriteNote("last"), at(11)), Taken)
    first.close()
    assert second.take_over(at(20))
    assert not second.read_only
    assert second.holder is None
    assert [note.text for note in second.state.notes] == ["last"]
    assert isinstance(second.act(WriteNote("on"), at(21)), Taken)
    second.close()


def test_a_lock_whose_holder_was_killed_blocks_nobody(tmp_path):
    session = filled(tmp_path, 2)
    child = holding_process(tmp_path, session.id)
    looking = opened(session.id, tmp_path)
    assert looking.read_only
    assert looking.holder is not None
    assert looking.holder.pid == child.pid
    child.send_signal(signal.SIGKILL)
    child.communicate()
    assert read_holder(session.folder) is not None
    assert looking.take_over(at(9000))
    assert len(looking.events) == len(session.events) + 1
    assert looking.notices == ()
    looking.close()
    again = opened(session.id, tmp_path)
    assert not again.read_only
    again.close()


def test_looking_takes_no_lock(tmp_path):
    session = filled(tmp_path, 2)
    looking = open_session(session.id, at(9000), home=tmp_path, read_only=True)
    working = opened(session.id, tmp_path)
    assert not working.read_only
    assert looking.read_only
    assert looking.holder is None
    assert isinstance(working.act(WriteNote("x"), at(9001)), Taken)
    assert looking.follow()
    assert looking.state == working.state
    working.close()
    looking.close()


def test_a_record_of_a_holder_without_the_lock_means_nothing(tmp_path):
    session = filled(tmp_path, 2)
    (session.folder / "holder.json").write_text('{"name":"Bo","host":"far","pid":1,"since":1e18}')
    again = opened(session.id, tmp_path)
    assert not again.read_only
    again.close()
    (session.folder / "holder.json").write_text("[[[")
    assert read_holder(session.folder) is None


def test_two_openings_of_a_killed_session_find_its_journal(tmp_path):
    session = filled(tmp_path, 5, closed=False)
    end_abruptly(session)
    for _ in range(3):
        looking = open_session(session.id, at(9000), home=tmp_path, read_only=True)
        assert ids(looking.events) == ids(session.events)
        assert looking.notices == ()
        looking.close()


# --- the lock itself ---


def without_flock(*_: object) -> None:
    raise OSError(errno.ENOSYS, "no such call")


@pytest.mark.parametrize("flock", [None, without_flock], ids=["no flock", "a file system without it"])
def test_where_the_system_has_no_flock_one_holds_it_all_the_same(tmp_path, monkeypatch, flock):
    monkeypatch.setattr(system_lock, "flock", flock)
    first, second = SystemLock(tmp_path / "lock"), SystemLock(tmp_path / "lock")
    assert first.take()
    assert first.is_held
    assert not second.take()
    first.release()
    assert not first.is_held
    assert second.take()
    second.release()


def test_a_lock_of_which_the_file_was_removed_is_not_the_one_that_the_next_takes(tmp_path):
    first, second = SystemLock(tmp_path / "lock"), SystemLock(tmp_path / "lock")
    assert first.take()
    (tmp_path / "lock").unlink()
    assert second.take()
    third = SystemLock(tmp_path / "lock")
    assert not third.take(patience=0.05)
    first.release()
    assert not third.take()
    second.release()
    assert third.take()
    third.release()


def test_a_lock_of_a_folder_that_is_not_there_raises(tmp_path):
    with pytest.raises(FileNotFoundError):
        SystemLock(tmp_path / "gone" / "lock").take()


def test_a_link_is_no_lock(tmp_path):
    (tmp_path / "elsewhere").write_text("mine")
    (tmp_path / "lock").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(OSError):
        SystemLock(tmp_path / "lock").take()
    assert (tmp_path / "elsewhere").read_text() == "mine"

"""A fault at every single call that changes the disk: nothing that was taken is lost, and it goes on."""

from contextlib import suppress

import pytest

from logic.session.event_lines import event_line
from logic.session.intents import NotSaved, Taken, WriteNote
from logic.session.kept_session import Session
from logic.session.session import SessionFault, new_session, open_session
from tests.crash.faulty_files import ERRORS, FAULTS, Died, FaultyFiles, QuickFiles
from tests.crash.kept_sessions import (
    HALF_WRITTEN,
    at,
    end_abruptly,
    filled,
    found_in,
    opened,
    record,
    small_profile,
    stray_names,
)

RECORDED_BEFORE = 5


class Outcome:
    """What a run was told: which events are taken, and the session if it was opened at all."""

    def __init__(self) -> None:
        self.taken: list[str] = []
        self.session: Session | None = None
        self.died = False


def a_days_work(session_id: str, home, files: FaultyFiles) -> Outcome:
    """Open, record, fold in, record, leave: every call to the disk that there is."""
    out = Outcome()
    try:
        session = out.session = open_session(session_id, at(5000), home=home, by="Ann", files=files)
        for number in range(100, 105):
            answer = record(session, number)
            if isinstance(answer, Taken):
                out.taken.append(answer.event.id)
        if session._store is not None:
            with suppress(OSError):
                session._store.fold_in()
        for number in range(105, 108):
            answer = record(session, number)
            if isinstance(answer, Taken):
                out.taken.append(answer.event.id)
        session.close()
    except Died:
        out.died = True
        assert out.session is not None or files.dead
    if out.session is not None:
        end_abruptly(out.session)
    return out


def calls_of_a_days_work(folder) -> int:
    home = folder / "counting"
    begun = filled(home, RECORDED_BEFORE)
    files = FaultyFiles()
    a_days_work(begun.id, home, files)
    return files.count


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_at_any_call_loses_nothing_that_was_taken(fault, quick_folder):
    for failing in range(calls_of_a_days_work(quick_folder)):
        home = quick_folder / str(failing)
        begun = filled(home, RECORDED_BEFORE)
        before = [event_line(event) for event in begun.events]
        files = FaultyFiles(fault, failing)
        out = a_days_work(begun.id, home, files)
        assert files.happened, (fault, failing)
        where = (fault, failing, files.names[failing])
        assert out.died == fault.startswith("dies"), where

        again = opened(begun.id, home)
        raws = {event_line(event) for event in again.events}
        assert not again.read_only, where
        assert set(before) <= raws, where
        assert set(out.taken) <= {event.id for event in again.events}, where
        assert isinstance(again.act(WriteNote("and on"), at(9000)), Taken), where
        again.close()
        assert stray_names(begun.folder) == set(), where
        assert found_in(begun.folder) == list(again.events), where


@pytest.mark.parametrize("fault", ERRORS)
def test_a_fault_that_lasts_is_said_and_what_waits_is_saved_once_it_is_mended(fault, quick_folder):
    for failing in range(calls_of_a_days_work(quick_folder)):
        home = quick_folder / str(failing)
        begun = filled(home, RECORDED_BEFORE)
        files = FaultyFiles(fault, failing, lasting=True)
        session = open_session(begun.id, at(5000), home=home, by="Ann", files=files)
        answers = [record(session, number) for number in range(100, 108) if number % 7 != 6]
        taken = {answer.event.id for answer in answers if isinstance(answer, Taken)}
        waiting = {answer.event.id for answer in answers if isinstance(answer, NotSaved)}
        assert {event.id for event in session.unsaved} == waiting
        assert taken.isdisjoint(waiting)
        assert taken <= {event.id for event in found_in(begun.folder)}

        files.mended = True
        assert not isinstance(session.save_again(at(6000)), NotSaved), (fault, failing)
        assert session.unsaved == ()
        assert taken | waiting <= {event.id for event in found_in(begun.folder)}, (fault, failing)
        session.close()
        assert stray_names(begun.folder) == set()


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_while_a_session_is_begun_leaves_a_whole_one_or_none(fault, quick_folder):
    counting = FaultyFiles()
    new_session(small_profile(), at(0), home=quick_folder / "counting", files=counting).close()
    for failing in range(counting.count):
        home = quick_folder / str(failing)
        files = FaultyFiles(fault, failing)
        session = None
        with suppress(SessionFault, Died):
            session = new_session(small_profile(), at(0), home=home, files=files)
        if session is not None:
            end_abruptly(session)
        begun = list(home.glob("[!.]*"))
        assert len(begun) <= 1
        for folder in begun:
            assert len(found_in(folder)) == 1
            assert stray_names(folder, also=HALF_WRITTEN) == set()
        new_session(small_profile(), at(0), home=home, files=QuickFiles()).close()
        assert not (home / ".new-session").exists()


def test_what_failed_to_be_synced_is_not_trusted_to_a_second_sync(tmp_path):
    """After a failed fsync the system may call the same pages clean: the retry goes to a new file."""
    begun = filled(tmp_path, RECORDED_BEFORE)
    files = FaultyFiles()
    session = open_session(begun.id, at(5000), home=tmp_path, files=files)
    assert isinstance(record(session, 100), Taken)
    files.fault, files.failing = "EIO", files.count + 1  # the write, then the sync that fails
    assert isinstance(record(session, 101), NotSaved)
    assert files.names[files.failing] == "fsync"
    inode = (begun.folder / "journal.jsonl").stat().st_ino
    assert not isinstance(session.save_again(at(6000)), NotSaved)
    assert (begun.folder / "journal.jsonl").stat().st_ino != inode
    session.close()


def test_a_folder_that_vanished_is_made_again_with_everything_in_it(tmp_path):
    begun = filled(tmp_path, RECORDED_BEFORE)
    session = opened(begun.id, tmp_path, seconds=5000)
    assert isinstance(record(session, 100), Taken)
    elsewhere = tmp_path / "elsewhere"
    begun.folder.rename(elsewhere)
    answer = record(session, 101)
    if isinstance(answer, NotSaved):
        assert not isinstance(session.save_again(at(6000)), NotSaved)
    assert isinstance(record(session, 102), Taken)
    assert found_in(begun.folder) == list(session.events)
    other = opened(begun.id, tmp_path)
    assert other.read_only
    other.close()
    session.close()

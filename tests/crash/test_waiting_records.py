"""What waits to be saved and what is done meanwhile; a holder on a machine that the lock doesn't reach."""

import msgspec

from logic.session.intents import (
    NotSaved,
    RecordReading,
    Refused,
    SwapLastTwo,
    TakeBackReading,
    Taken,
    UndoLast,
    WriteNote,
)
from logic.session.kept_session import Session
from logic.session.lock import HOLDER, Holder, read_holder
from logic.session.session import open_session
from tests.crash.faulty_files import FaultyFiles
from tests.crash.kept_sessions import at, end_abruptly, filled, found_in, ids, opened

SLOT = "work.surface"
FAR = Holder("Bo", "another-machine", 4711, at(8000).at)


def on_a_full_disk(home) -> tuple[Session, FaultyFiles]:
    """A session with a reading on the disk, which is full from then on."""
    begun, files = filled(home, 0), FaultyFiles()
    session = open_session(begun.id, at(5000), home=home, by="Ann", files=files)
    assert isinstance(session.act(RecordReading(SLOT, "40"), at(5001)), Taken)
    files.fault, files.failing, files.lasting = "ENOSPC", files.count, True
    return session, files


def test_no_undo_goes_past_a_record_that_waits(tmp_path):
    session, files = on_a_full_disk(tmp_path)
    assert isinstance(session.act(RecordReading(SLOT, "41"), at(5100)), NotSaved)
    for intent in (UndoLast(), TakeBackReading(), SwapLastTwo()):
        answer = session.act(intent, at(5101))
        assert isinstance(answer, Refused)
        assert dict(answer.reason.parts)
    files.mended = True
    assert isinstance(session.act(TakeBackReading(), at(5102)), Taken)
    assert [(reading.typed, reading.struck) for reading in session.state.readings] == [
        ("40", False),
        ("41", True),
    ]
    session.close()


def test_a_reading_typed_again_while_it_waits_is_one_reading(tmp_path):
    session, files = on_a_full_disk(tmp_path)
    first = session.act(RecordReading(SLOT, "41"), at(5100))
    again = session.act(RecordReading(SLOT, "41"), at(5105))
    assert isinstance(first, NotSaved)
    assert isinstance(again, NotSaved)
    assert again.event.id == first.event.id
    assert len(session.unsaved) == 1
    files.mended = True
    session.save_again(at(5110))
    assert [reading.typed for reading in session.state.readings] == ["40", "41"]
    session.close()


def test_what_waits_is_on_the_disk_before_what_is_recorded_next(tmp_path):
    session, files = on_a_full_disk(tmp_path)
    assert isinstance(session.act(RecordReading(SLOT, "41"), at(5100)), NotSaved)
    files.mended = True
    assert isinstance(session.act(RecordReading(SLOT, "42"), at(5101)), Taken)
    assert [reading.typed for reading in session.state.readings] == ["40", "41", "42"]
    assert ids(found_in(session.folder)) == ids(session.events)
    session.close()


def write_holder(session: Session, holder: Holder) -> None:
    """As a program on another machine writes itself in, through a folder that carries no locks."""
    (session.folder / HOLDER).write_bytes(msgspec.json.encode(holder))


def test_a_holder_killed_on_another_machine_blocks_nobody_and_is_named(tmp_path):
    session = filled(tmp_path, 2)
    write_holder(session, FAR)
    again = opened(session.id, tmp_path)
    assert not again.read_only
    [notice] = again.notices
    assert dict(notice.parts)["name"] == "Bo"
    assert dict(notice.parts)["host"] == "another-machine"
    assert isinstance(again.act(WriteNote("on"), at(9000)), Taken)
    again.close()
    assert read_holder(session.folder) is None


def test_a_holder_that_another_machine_took_the_session_from_writes_nothing_more(tmp_path):
    begun = filled(tmp_path, 2)
    session = opened(begun.id, tmp_path, seconds=5000)
    assert isinstance(session.act(WriteNote("mine"), at(5001)), Taken)
    write_holder(session, FAR)
    before = {path.name: path.read_bytes() for path in session.folder.iterdir()}
    answer = session.act(WriteNote("too late"), at(5002))
    assert isinstance(answer, NotSaved)
    assert "Bo on another-machine has taken the session over" in str(dict(answer.reason.parts))
    session.close()
    assert {path.name: path.read_bytes() for path in session.folder.iterdir()} == before
    assert read_holder(begun.folder) == FAR


def test_looking_whether_it_is_free_takes_nothing(tmp_path):
    first = opened(filled(tmp_path, 2).id, tmp_path)
    second = opened(first.id, tmp_path)
    assert not second.may_take_over()
    end_abruptly(first)
    for _ in range(3):
        assert second.may_take_over()
        assert second.read_only
    third = opened(first.id, tmp_path)
    assert not third.read_only
    assert not second.may_take_over()
    assert not second.take_over(at(9000))
    third.close()
    second.close()

"""Copies carried away and taken in again, and a disk that refuses."""

import os
import stat

import msgspec
import pytest
from tinydb import TinyDB

from logic.data.events import Event, ItemDone, ProfileChanged
from logic.session import copy as copies
from logic.session.copy import copy_session, take_in_copy
from logic.session.document import document_text, read_document
from logic.session.event_ids import next_id
from logic.session.intents import (
    AddPart,
    ChangeProfile,
    FinishItem,
    NotSaved,
    RecordReading,
    RedoLast,
    Refused,
    Taken,
    UndoLast,
    WriteItem,
    WriteNote,
)
from logic.session.profile_standing import Profiles
from logic.session.seal import sealed
from logic.session.session import SessionFault, new_session, open_session
from tests.crash.faulty_files import FaultyFiles, QuickFiles
from tests.crash.kept_sessions import at, begin, filled, ids, opened, small_profile

ROOT_USER = hasattr(os, "geteuid") and os.geteuid() == 0


# --- copies ---


def test_a_copy_is_one_whole_file_with_readings_as_typed_and_in_si(tmp_path):
    session = begin(tmp_path / "a", QuickFiles())
    session.act(RecordReading("work.surface", "50"), at(60))
    copy_session(session, tmp_path / "carried.json")
    session.act(WriteNote("later"), at(120))
    session.close()
    with TinyDB(tmp_path / "carried.json", access_mode="r") as database:
        (reading,) = database.table("readings").all()
    assert (reading["slot"], reading["typed"]) == ("work.surface", "50")
    # 50 °F = 10 °C exactly.
    assert reading["si"] == pytest.approx(10.0, abs=1e-12)
    assert stat.S_IMODE((tmp_path / "carried.json").stat().st_mode) == 0o600
    looked_at = open_session(tmp_path / "carried.json", at(200), home=tmp_path / "a")
    assert looked_at.read_only
    assert looked_at.notices == ()
    assert len(looked_at.events) == 2
    looked_at.close()


def test_a_copy_too_large_to_be_taken_in_again_leaves_its_table_of_readings_out_and_says_so(
    tmp_path, monkeypatch
):
    session = begin(tmp_path / "a", QuickFiles())
    for number in range(20):
        session.act(RecordReading("work.surface", str(50 + number)), at(60 * number))
    kept = len(session.state.readings)
    copy_session(session, tmp_path / "whole.json")
    most = (tmp_path / "whole.json").stat().st_size - 1
    monkeypatch.setattr(copies, "LARGEST_FILE", most)
    copy_session(session, tmp_path / "carried.json")
    session.close()
    assert (tmp_path / "carried.json").stat().st_size <= most
    with TinyDB(tmp_path / "carried.json", access_mode="r") as database:
        (said,) = database.table("readings").all()
    assert "they are among the events" in said["left_out"]
    answer = take_in_copy(tmp_path / "carried.json", at(9000), home=tmp_path / "b")
    taken = open_session(answer.id, at(9000), home=tmp_path / "b")
    assert len(taken.state.readings) == kept == 20
    taken.close()


def test_a_copy_overwrites_nothing_and_leaves_nothing_half_written(tmp_path):
    session = filled(tmp_path / "a", 3, closed=False)
    target = tmp_path / "carried.json"
    target.write_text("mine")
    with pytest.raises(SessionFault, match="overwrites nothing"):
        copy_session(session, target)
    assert target.read_text() == "mine"
    with pytest.raises(SessionFault):
        copy_session(session, tmp_path / "no" / "such" / "folder.json")
    counting = FaultyFiles()
    copy_session(session, tmp_path / "counted.json", files=counting)
    for failing in range(counting.count):
        target = tmp_path / f"out-{failing}" / "copy.json"
        target.parent.mkdir()
        try:
            copy_session(session, target, files=FaultyFiles("ENOSPC", failing))
        except SessionFault:
            assert [path.name for path in target.parent.iterdir()] in ([], ["copy.json"])
        if target.exists():
            assert ids(read_document(target.read_bytes()).events) == ids(session.events)
    session.close()


def test_a_copy_carries_what_could_not_be_saved(tmp_path):
    files = FaultyFiles()
    session = begin(tmp_path / "a", files)
    files.fault, files.failing, files.lasting = "ENOSPC", files.count, True
    answer = session.act(WriteNote("on a full disk"), at(60))
    assert isinstance(answer, NotSaved)
    assert session.state.notes == ()
    copy_session(session, tmp_path / "elsewhere.json")
    taken = take_in_copy(tmp_path / "elsewhere.json", at(120), home=tmp_path / "b")
    other = opened(taken.id, tmp_path / "b")
    assert [note.text for note in other.state.notes] == ["on a full disk"]
    other.close()
    session.drop_unsaved()
    assert session.unsaved == ()
    files.mended = True
    session.close()


def two_copies(tmp_path):
    """One session in two homes."""
    session = begin(tmp_path / "a", QuickFiles())
    item = session.act(WriteItem("seal the entry"), at(60)).event.id
    copy_session(session, tmp_path / "to-b.json")
    session.close()
    taken = take_in_copy(tmp_path / "to-b.json", at(100), home=tmp_path / "b")
    assert (taken.added, taken.new, taken.id) == (True, 2, session.id)
    return session.id, item


def test_two_work_on_two_copies_and_merge_both_ways_to_the_same(tmp_path):
    session_id, item = two_copies(tmp_path)
    one, two = opened(session_id, tmp_path / "a"), opened(session_id, tmp_path / "b")
    one.act(RecordReading("work.surface", "50"), at(200))
    two.act(FinishItem(item), at(150))
    two.act(ChangeProfile("design.low", "-20 degF"), at(210))
    copy_session(one, tmp_path / "from-a.json")
    copy_session(two, tmp_path / "from-b.json")
    one.close()
    two.close()
    to_a = take_in_copy(tmp_path / "from-b.json", at(300), home=tmp_path / "a", wanted=session_id[:8])
    to_b = take_in_copy(tmp_path / "from-a.json", at(300), home=tmp_path / "b")
    assert (to_a.new, to_a.added, to_b.new) == (2, False, 1)
    one, two = opened(session_id, tmp_path / "a"), opened(session_id, tmp_path / "b")
    assert ids(one.events) == ids(two.events)
    assert one.state == two.state
    assert one.profile == two.profile
    assert one.state.items[0].state == "done"
    one.close()
    two.close()
    assert take_in_copy(tmp_path / "from-b.json", at(400), home=tmp_path / "a").new == 0


def test_an_answer_from_a_slow_clock_still_finds_what_it_answers(tmp_path):
    session_id, item = two_copies(tmp_path)
    two = opened(session_id, tmp_path / "b")
    answer = two.act(FinishItem(item), at(-86_400))
    assert isinstance(answer, Taken)
    assert isinstance(answer.event.payload, ItemDone)
    assert answer.event.id > item
    assert two.state.items[0].state == "done"
    two.close()


def test_edits_that_contradict_are_kept_and_the_later_left_out(tmp_path):
    session_id, _ = two_copies(tmp_path)
    bay = {"id": "belly", "area": "80 ft2", "floor": "R 7", "pan": "R 4"}
    for home, seconds in (("a", 200), ("b", 210)):
        session = opened(session_id, tmp_path / home)
        assert isinstance(session.act(AddPart("bay", bay), at(seconds)), Taken)
        session.close()
    take_in_copy(tmp_path / "b" / session_id / "session.json", at(300), home=tmp_path / "a")
    session = opened(session_id, tmp_path / "a")
    assert [each.id for each in session.profile.bays] == ["belly"]
    assert any("contradict" in notice.template for notice in session.notices)
    assert len(session.edits()) == 2
    # Work goes on: what contradicts stays left out, and isn't held against what comes.
    assert isinstance(session.act(ChangeProfile("design.low", "-20 degF"), at(400)), Taken)
    assert isinstance(session.act(AddPart("bay", bay), at(410)), Refused)
    assert isinstance(session.act(UndoLast(), at(420)), Taken)
    assert session.profile.design.low_degc == session.begun.profile.design.low_degc
    assert isinstance(session.act(RedoLast(), at(430)), Taken)
    profile = session.profile
    session.close()
    again = opened(session_id, tmp_path / "a")
    assert again.profile == profile
    again.close()


def test_thousands_of_edits_that_are_none_cost_few_checks(tmp_path, monkeypatch):
    session = filled(tmp_path, 0)
    path = session.folder / "session.json"
    document = read_document(path.read_bytes())
    last = document.events[-1].id
    for number in range(5000):
        last = next_id(last, at(number).at, "eeeeeeee")
        value = msgspec.Raw(b'"nonsense"' if number % 2 else b'"-3 degF"')
        payload = ProfileChanged("design.low", value)
        document.events.append(Event(last, at(number).at, 0, "Bo", payload))
    path.write_bytes(document_text(document))
    checks = []
    check = Profiles._checked
    monkeypatch.setattr(Profiles, "_checked", lambda self, given: checks.append(1) or check(self, given))
    again = opened(session.id, tmp_path)
    assert len(checks) <= 401
    # (-3 − 32)/1.8; one sum and one quotient.
    assert again.profile.design.low_degc == pytest.approx((-3 - 32) / 1.8, rel=1e-12)
    assert any("contradict" in notice.template for notice in again.notices)
    again.close()


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("tank", b'["x"]'),
        ("heater", b"[3, []]"),
        ("tank.galley.keepout", b'["x", 3]'),
        ("design", b"[1]"),
        ("rig", b'"x"'),
    ],
)
def test_an_edit_that_leaves_no_table_of_a_profile_is_left_out(tmp_path, path, value):
    session = filled(tmp_path, 0)
    document = read_document((session.folder / "session.json").read_bytes())
    last = next_id(document.events[-1].id, at(1).at, "eeeeeeee")
    document.events.append(Event(last, at(1).at, 0, "Bo", ProfileChanged(path, msgspec.Raw(value))))
    (session.folder / "session.json").write_bytes(document_text(document))
    again = opened(session.id, tmp_path)
    assert again.profile == session.profile
    assert any("contradict" in notice.template for notice in again.notices)
    again.close()


def test_a_start_that_is_no_profile_any_more_takes_no_edit_and_still_opens(tmp_path):
    session = begin(tmp_path)
    assert isinstance(session.act(ChangeProfile("design.low", "-3 degF"), at(60)), Taken)
    session.close()
    document = read_document((session.folder / "session.json").read_bytes())
    record = msgspec.json.decode(document.begun)
    del record["sum"]
    record["document"]["tank"] = ["x"]  # and its check made anew, as only this program does
    document.begun, document.now = sealed(msgspec.json.encode(record)), b""
    (session.folder / "session.json").write_bytes(document_text(document))
    again = opened(session.id, tmp_path)
    assert any("contradict" in notice.template for notice in again.notices)
    again.close()


def test_leaving_tries_once_more_to_save_what_waits(tmp_path):
    files = FaultyFiles()
    session = begin(tmp_path, files)
    files.fault, files.failing, files.lasting = "ENOSPC", files.count, True
    assert isinstance(session.act(WriteNote("late"), at(60)), NotSaved)
    files.mended = True
    session.close()
    again = opened(session.id, tmp_path)
    assert [note.text for note in again.state.notes] == ["late"]
    again.close()


def test_a_copy_of_another_session_is_refused_where_one_is_named(tmp_path):
    one, two = filled(tmp_path / "a", 1), filled(tmp_path / "b", 1)
    with pytest.raises(SessionFault, match="not of"):
        take_in_copy(two.folder / "session.json", at(300), home=tmp_path / "a", wanted=one.id)


def test_a_held_session_takes_nothing_in(tmp_path):
    session_id, _ = two_copies(tmp_path)
    holding = opened(session_id, tmp_path / "a")
    with pytest.raises(SessionFault, match="held by"):
        take_in_copy(tmp_path / "to-b.json", at(300), home=tmp_path / "a")
    holding.close()


@pytest.mark.parametrize(
    "meta",
    [{"id": "../../escaped"}, {"id": ""}, {"id": 7}, {"id": "."}, {"id": "a" * 200}, {"format": 9}],
)
def test_a_copy_can_not_choose_a_folder_outside_or_a_format_beyond(tmp_path, meta):
    session = filled(tmp_path / "a", 1)
    document = read_document((session.folder / "session.json").read_bytes())
    stranger = tmp_path / "stranger.json"
    stranger.write_bytes(document_text(document, {**document.meta, **meta}))
    with pytest.raises(SessionFault):
        take_in_copy(stranger, at(300), home=tmp_path / "b")
    assert not (tmp_path / "b").exists()


def test_a_copys_profile_is_checked_anew_and_its_si_not_believed(tmp_path):
    session = filled(tmp_path / "a", 1)
    path = tmp_path / "stranger.json"
    text = (session.folder / "session.json").read_bytes()
    document = read_document(text)
    begun = document.begun.rpartition(b',"sum"')[0] + b"}"
    assert b'"volts":12.1' in begun
    document.begun = sealed(begun.replace(b'"volts":12.1', b'"volts":99.9'))
    path.write_bytes(document_text(document))
    taken = take_in_copy(path, at(300), home=tmp_path / "b")
    there = opened(taken.id, tmp_path / "b")
    assert there.profile == session.profile
    there.close()
    document.begun = sealed(begun.replace(b'"-12 degF"', b'"-12 parsecs"'))
    path.write_bytes(document_text(document))
    with pytest.raises(SessionFault, match="the profile in"):
        take_in_copy(path, at(300), home=tmp_path / "c")


# --- a disk that refuses, a clock that goes back ---


@pytest.mark.skipif(ROOT_USER, reason="root may write anywhere")
def test_a_read_only_folder_is_only_looked_at(tmp_path):
    session = filled(tmp_path, 2)
    session.folder.chmod(0o500)
    try:
        looking = opened(session.id, tmp_path)
        assert looking.read_only
        assert "can't be written" in looking.because.template
        looking.close()
    finally:
        session.folder.chmod(0o700)


def test_a_home_that_can_not_be_made_is_said(tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(SessionFault, match="can't be begun"):
        new_session(small_profile(), at(0), home=tmp_path / "file" / "home")


def test_a_clock_that_goes_back_is_said_once_and_order_is_kept(tmp_path):
    session = begin(tmp_path, QuickFiles())
    assert session.act(WriteNote("first"), at(1000)).beside == ()
    back = session.act(WriteNote("second"), at(1000 - 86_400))
    assert "clock" in back.beside[0].template
    assert session.act(WriteNote("third"), at(1010 - 86_400)).beside == ()
    assert [note.text for note in session.state.notes] == ["first", "second", "third"]
    assert ids(session.events) == sorted(set(ids(session.events)))
    assert session.state.notes[1].when == at(1000 - 86_400)
    session.close()


def test_ids_go_on_when_thousands_fall_into_one_millisecond(tmp_path):
    session = begin(tmp_path, QuickFiles())
    for number in range(4200):
        assert isinstance(session.act(WriteNote(f"{number}"), at(5)), Taken)
    assert ids(session.events) == sorted(set(ids(session.events)))
    session.close()
    assert len(opened(session.id, tmp_path).events) == 4201


def test_opening_needs_no_unit_registry(tmp_path):
    """A session keeps its profile in SI beside its text."""
    import subprocess
    import sys

    session = begin(tmp_path, QuickFiles())
    assert isinstance(session.act(ChangeProfile("design.low", "-20 degF"), at(60)), Taken)
    session.close()
    program = (
        "import sys; from pathlib import Path\n"
        "from tests.crash.kept_sessions import at\nfrom logic.session.session import open_session\n"
        f"s = open_session({session.id!r}, at(1e6), home=Path({str(tmp_path)!r}))\n"
        "print(s.profile.design.low_degc, 'pint' in sys.modules)\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    # (-20 − 32)/1.8 = −28.888…; as a float prints.
    assert done.stdout.split() == [str((-20 - 32) / 1.8), "False"]


def test_an_edit_that_waited_and_the_next_one_both_stand_once_saved(tmp_path):
    """What was tried for the second was tried without the first."""
    files = FaultyFiles()
    session = begin(tmp_path, files)
    files.fault, files.failing = "ENOSPC", files.count
    assert isinstance(session.act(ChangeProfile("rig.kind", "trailer"), at(60)), NotSaved)
    assert isinstance(session.act(ChangeProfile("design.low", "-20 degF"), at(120)), Taken)
    assert (session.profile.rig.kind, session.document["design"]["low"]) == ("trailer", "-20 degF")
    profile = session.profile
    session.close()
    again = opened(session.id, tmp_path)
    assert again.profile == profile
    again.close()


def test_an_edit_that_waited_is_not_taken_for_one_that_was_refused_meanwhile(tmp_path):
    files = FaultyFiles()
    session = begin(tmp_path, files)
    files.fault, files.failing, files.lasting = "ENOSPC", files.count, True
    assert isinstance(session.act(ChangeProfile("rig.kind", "trailer"), at(60)), NotSaved)
    assert isinstance(session.act(ChangeProfile("design.low", "warm"), at(120)), Refused)
    files.mended = True
    assert not isinstance(session.save_again(at(180)), NotSaved)
    assert session.profile.rig.kind == "trailer"
    session.close()

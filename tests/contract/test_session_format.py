"""A session's file: readable by TinyDB, private, with what a newer version wrote kept and written back."""

import json
import stat

import msgspec
import pytest
from tinydb import TinyDB
from tinydb.table import Document as Record

from logic.session import kept_session, store
from logic.session.atomic_storage import AtomicStorage
from logic.session.document import MOST_RECORDS, document_text, read_document
from logic.session.event_lines import event_line, read_line
from logic.session.fold import fold
from logic.session.intents import Refused, Taken, UndoLast, WriteNote
from logic.session.journal import read_journal
from logic.session.seal import sealed
from logic.session.session import open_session
from tests.benchmarks.save_cost import events_from
from tests.crash.kept_sessions import at, end_abruptly, filled, found_in, ids, opened


@pytest.fixture
def left(tmp_path):
    return filled(tmp_path, 8)


def test_tinydb_reads_the_file_as_its_own(left):
    database = TinyDB(left.folder / "session.json", access_mode="r")
    assert database.tables() == {"meta", "profile", "events"}
    assert [record["id"] for record in database.table("events")] == ids(left.events)
    assert database.table("meta").all()[0]["format"] == 1
    database.close()


def test_through_our_storage_tinydb_writes_what_opens_again(left):
    path = left.folder / "session.json"
    database = TinyDB(path, storage=AtomicStorage)
    begun = database.table("events").all()[0]
    assert begun["what"]["kind"] == "session-begun"
    database.table("events").update({"by": "Bo"}, doc_ids=[begun.doc_id])
    database.table("notes of ours").insert(Record({"a": 1}, doc_id=7))
    database.close()
    again = opened(left.id, left.folder.parent)
    assert again.notices == ()
    assert again.events[0].by == "Bo"
    assert ids(again.events) == ids(left.events)
    assert isinstance(again.act(WriteNote("on"), at(9000)), Taken)
    again.close()
    with TinyDB(path, access_mode="r") as database:
        assert database.table("notes of ours").get(doc_id=7)["a"] == 1


def test_what_plain_tinydb_laid_out_anew_opens(left):
    database = TinyDB(left.folder / "session.json")
    database.table("meta").update({"a field of its own": 1})
    database.close()
    text = (left.folder / "session.json").read_text()
    assert "\n" not in text
    # TinyDB knows no seal: one that doesn't fit any more is taken out by whoever edits.
    tables = json.loads(text)
    del tables["meta"]["1"]["sum"]
    (left.folder / "session.json").write_text(json.dumps(tables))
    again = opened(left.id, left.folder.parent)
    assert ids(again.events) == ids(left.events)
    assert again.notices == ()
    again.close()


def test_files_are_private(tmp_path):
    session = filled(tmp_path / "home", 3, closed=False)
    session._store.fold_in()
    for path in session.folder.iterdir():
        assert stat.S_IMODE(path.stat().st_mode) == 0o600, path.name
    assert stat.S_IMODE(session.folder.stat().st_mode) == 0o700
    assert stat.S_IMODE((tmp_path / "home").stat().st_mode) == 0o700
    session.close()


def test_a_newer_format_is_only_looked_at_and_left_as_it_is(left):
    path = left.folder / "session.json"
    document = read_document(path.read_bytes())
    path.write_bytes(document_text(document, {**document.meta, "format": 2, "journal": False}))
    before = path.read_bytes()
    session = opened(left.id, left.folder.parent)
    assert session.read_only
    assert "newer version" in session.because.template
    assert ids(session.events) == ids(left.events)
    session.close()
    assert path.read_bytes() == before


def from_a_newer_version(last_id: str) -> bytes:
    """An event of a kind that isn't known, at a field of its own, and one more field in the envelope."""
    prefix, _, writer = last_id.rpartition("-")
    milliseconds = int(prefix[:12], 16) + 1
    record = {
        "id": f"{milliseconds:012x}-000-{writer}",
        "at": 1_767_700_000.0,
        "offset": 0,
        "by": "Bo",
        "what": {"kind": "drone-flown", "height": 1e3, "path": [1, 2.50, None]},
        "weather": "fog",
    }
    return sealed(msgspec.json.encode(record))


def test_unknown_kinds_and_fields_are_kept_and_written_back(left):
    path = left.folder / "session.json"
    line = from_a_newer_version(left.events[-1].id)
    known = left.events[2]
    more = msgspec.json.decode(event_line(known))
    del more["sum"]
    more["what"]["height"] = 7
    extended = sealed(msgspec.json.encode(more))
    stranger = sealed(b'{"gone":"fishing"}')
    document = read_document(path.read_bytes())
    document.events = [event for event in document.events if event.id != known.id]
    document.events += [read_line(line), read_line(extended)]
    document.strangers = [stranger]
    document.others = {"maps": {"1": b'{"of":"the yard"}'}}
    document.meta["colour"] = "green"
    path.write_bytes(document_text(document))

    session = opened(left.id, left.folder.parent)
    assert session.state == fold(session.events)
    assert len(session.events) == len(left.events) + 1
    assert session.events[-1].payload is None
    assert session.events[2].payload == known.payload
    assert isinstance(session.act(WriteNote("on"), at(9e6)), Taken)
    session.close()
    kept = read_document(path.read_bytes())
    assert line in [event.raw for event in kept.events]
    assert extended in [event.raw for event in kept.events]
    assert kept.strangers == [stranger]
    assert kept.others == {"maps": {"1": b'{"of":"the yard"}'}}
    assert kept.meta["colour"] == "green"


def test_an_unknown_kind_is_nothing_to_undo(left):
    path = left.folder / "journal.jsonl"
    session = opened(left.id, left.folder.parent)
    assert isinstance(session.act(WriteNote("mine"), at(5000)), Taken)
    end_abruptly(session)
    with path.open("ab") as journal:
        journal.write(from_a_newer_version(session.events[-1].id) + b"\n")
    again = opened(left.id, left.folder.parent)
    assert again.events[-1].payload is None
    assert isinstance(again.act(UndoLast(), at(9e6)), Taken)
    assert "mine" not in [note.text for note in again.state.notes]
    again.close()


def test_doubled_and_shuffled_events_come_to_the_same(left):
    path = left.folder / "session.json"
    document = read_document(path.read_bytes())
    state = left.state
    document.events = [*reversed(document.events), *document.events[:3]]
    path.write_bytes(document_text(document))
    assert ids(found_in(left.folder)) == ids(left.events)
    again = opened(left.id, left.folder.parent)
    assert again.state == state
    again.close()


@pytest.mark.parametrize(
    "line",
    [
        b'{"id":"x","at":1,"what":{}}',
        b'{"id":"ffffffffffff-000-00000000","at":1,"what":{}}',
        b'{"id":"019b8d2b8c00-000-c73f45cd","at":1e300,"what":{}}',
        b'{"id":"019b8d2b8c00-000-c73f45cd","at":-1,"what":{}}',
        b'{"id":"019b8d2b8c00-000-c73f45cd","at":1,"offset":9999999,"what":{}}',
        b'{"id":"019b8d2b8c00-000-c73f45cd","at":1e999,"what":{}}',
        b'{"at":1}',
        b"[]",
        b"{" * 50_000,
    ],
)
def test_what_can_be_no_event_is_none(line):
    with pytest.raises(ValueError):
        read_line(line)


def test_control_characters_of_a_stranger_are_taken_out_and_the_line_kept():
    line = sealed(
        b'{"id":"019b8d2b8c00-000-c73f45cd","at":1.0,"by":"A\\u001b[2J",'
        b'"what":{"kind":"note-written","text":"a\\u001b]0;x\\u0007b\xe2\x80\x8bc [/x]"}}'
    )
    event = read_line(line)
    assert event.by == "A[2J"
    assert event.payload.text == "a]0;xbc [/x]"
    assert event_line(event) == line


def test_a_hundred_thousand_events_open(tmp_path):
    session = filled(tmp_path, 0)
    path = session.folder / "session.json"
    document = read_document(path.read_bytes())
    document.events += events_from(document.events[-1].id, 100_000)
    path.write_bytes(document_text(document))
    again = opened(session.id, tmp_path)
    assert len(again.events) == 100_001
    assert len(again.state.readings) == 100_000
    assert isinstance(again.act(WriteNote("on"), at(9e6)), Taken)
    again.close()
    assert open_session(session.id, at(9e6), home=tmp_path, read_only=True).state.notes[0].text == "on"


def test_a_file_with_too_many_records_is_refused_before_it_fills_the_memory(tmp_path):
    session = filled(tmp_path, 2)
    path = session.folder / "session.json"
    path.write_bytes(b'{"meta":{\n' + b'"1":{},\n' * 400_000 + b"}}\n")
    again = opened(session.id, tmp_path)
    assert any(f"{MOST_RECORDS} records" in str(dict(notice.parts).get("why")) for notice in again.notices)
    assert ids(again.events) == ids(session.events)
    again.close()


@pytest.mark.parametrize(("name", "most"), [("LONGEST_JOURNAL", 4), ("LARGE_JOURNAL", 900)])
def test_a_journal_grown_long_is_folded_in_between_two_events(tmp_path, monkeypatch, name, most):
    monkeypatch.setattr(store, name, most)
    session = filled(tmp_path, 12, closed=False)
    in_document = read_document((session.folder / "session.json").read_bytes()).events
    assert len(in_document) > 4
    assert (session.folder / "journal.jsonl").stat().st_size < 2000
    assert ids(found_in(session.folder)) == ids(session.events)
    session.close()


def test_a_journal_of_nothing_or_of_rubbish_is_passed_over(left):
    path = left.folder / "journal.jsonl"
    path.write_bytes(b"\n" * 3_000_000)
    assert ids(found_in(left.folder)) == ids(left.events)
    path.write_bytes(b'{"a":1}\n\n' * 100_000 + event_line(left.events[-1]) + b"\n")
    again = opened(left.id, left.folder.parent)
    assert ids(again.events) == ids(left.events)
    assert dict(again.notices[0].parts)["count"] == "100000"
    again.close()


def test_a_session_that_is_full_takes_nothing_more(left, monkeypatch):
    monkeypatch.setattr(kept_session, "MOST_EVENTS", len(left.events))
    again = opened(left.id, left.folder.parent)
    assert isinstance(again.act(WriteNote("one more"), at(9000)), Refused)
    again.close()


def test_beside_a_large_document_the_journal_stays_when_one_leaves(left, monkeypatch):
    """Of thousands of records none is written again for one more; all of them open, and another goes on."""
    home, folder = left.folder.parent, left.folder
    monkeypatch.setattr(store, "LARGE_DOCUMENT", 1000)
    taken, document = [], b""
    for turn in range(3):
        session = opened(left.id, home)
        assert session.notices == ()
        taken.append(session.act(WriteNote(f"left {turn} times"), at(9000 + 60 * turn)).event.id)
        if turn:
            assert (folder / "session.json").read_bytes() == document
        session.close()
        document = (folder / "session.json").read_bytes()
        assert len(read_journal(folder / "journal.jsonl").events) == turn + 1
    again = opened(left.id, home)
    assert again.notices == ()
    assert ids(again.events) == [*ids(left.events), *taken]
    again.close()
    assert (folder / "session.json").read_bytes() == document, "looking on writes nothing"
    monkeypatch.undo()
    opened(left.id, home).close()
    assert not (folder / "journal.jsonl").exists()
    assert ids(read_document((folder / "session.json").read_bytes()).events) == ids(again.events)


def test_a_journal_torn_beside_a_large_document_is_mended_when_one_leaves(left, monkeypatch):
    monkeypatch.setattr(store, "LARGE_DOCUMENT", 1000)
    session = opened(left.id, left.folder.parent)
    session.act(WriteNote("whole"), at(9000))
    session.close()
    with (left.folder / "journal.jsonl").open("ab") as journal:
        journal.write(b'{"id":"half of a li')
    for notices in (1, 0):
        session = opened(left.id, left.folder.parent)
        assert len(session.notices) == notices
        assert session.events[-1].payload.text == "whole"
        session.close()

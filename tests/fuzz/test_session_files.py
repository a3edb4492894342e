"""A few of the cases of `session_files.py`, and each thing that the long run found, by itself."""

import json
import random

import pytest

from logic.session.intents import Taken, WriteNote
from logic.session.seal import sealed
from logic.session.session import open_session
from tests.crash.faulty_files import QuickFiles
from tests.fuzz.kept import LATER, kept_session, memory_folder
from tests.fuzz.session_files import try_session_file


@pytest.fixture
def home(tmp_path):
    return tmp_path / "home"


def opened(home, session_id):
    return open_session(session_id, LATER, home=home, by="Cleo", files=QuickFiles())


@pytest.mark.parametrize("part", range(2))
def test_a_damaged_folder_opens_with_words_or_is_refused_with_words(part):
    for number in range(30):
        case = 33_000 + 30 * part + number
        try:
            try_session_file(random.Random(case))
        except BaseException as wrong:
            raise AssertionError(f"case {case}") from wrong


def test_where_both_generations_are_damaged_what_is_whole_in_either_is_there(home):
    kept = kept_session()
    folder = kept.place(home)
    lines = kept.files["session.json"].split(b"\n")
    (folder / "session.json").write_bytes(b"\n".join(lines[:9] + lines[11:]))  # two events gone
    before = kept.files["session.before.json"].replace(b'"Ann"', b'"Anm"', 1)
    (folder / "session.before.json").write_bytes(before)
    session = opened(home, kept.id)
    assert [event.id for event in session.events] == [event.id for event in kept.events]
    assert isinstance(session.act(WriteNote("on"), LATER), Taken)
    session.close()
    assert (folder / "session.damaged-1.before.json").read_bytes() == before


def test_a_profile_that_is_left_in_the_generation_before_alone_opens_though_that_is_damaged(home):
    kept = kept_session()
    folder = kept.place(home)
    (folder / "session.json").write_bytes(b"")
    (folder / "session.before.json").write_bytes(kept.files["session.before.json"][:-40])
    session = opened(home, kept.id)
    assert {event.id for event in session.events} >= {event.id for event in kept.events[-10:]}
    assert session.profile.rig.name == "Two tanks in the open"
    session.close()


def test_records_put_in_by_hand_under_a_number_that_is_taken_count(home):
    kept = kept_session()
    folder = kept.place(home)
    line = b'{"id":"019b8d2f0000-000-0000abcd","at":1767600200.0,"offset":0,"by":"Dee","what":{"kind":"note-written","text":"by hand"}}'  # noqa: E501
    text = kept.files["session.json"].replace(b'"events":{\n', b'"events":{\n"3":' + line + b",\n")
    (folder / "session.json").write_bytes(text)
    session = opened(home, kept.id)
    assert len(session.events) == len(kept.events) + 1
    assert "by hand" in [note.text for note in session.state.notes]
    session.close()


def test_a_record_on_several_lines_is_written_back_on_one(home):
    kept = kept_session()
    folder = kept.place(home)
    tables = json.loads(kept.files["session.json"])
    tables["more"] = {"1": {"kept": [1, {"deep": "é"}]}}
    (folder / "session.json").write_text(json.dumps(tables, indent=2), encoding="utf-8")
    session = opened(home, kept.id)
    assert isinstance(session.act(WriteNote("on"), LATER), Taken)
    session.close()
    text = (folder / "session.json").read_bytes()
    assert all(line[:1] in (b'"', b"{", b"}", b"") for line in text.split(b"\n"))
    written = json.loads(text)
    assert written["more"]["1"]["kept"] == [1, {"deep": "é"}]
    assert set(kept.lines) <= {record["id"] for record in written["events"].values()}


def test_a_sealed_line_that_is_no_json_is_set_aside_and_never_written_into_the_document(home):
    kept = kept_session()
    folder = kept.place(home)
    journal = kept.files["journal.jsonl"] + sealed(b'{"id":"x","by":"\\ud800"}') + b"\n"
    (folder / "journal.jsonl").write_bytes(journal)
    session = opened(home, kept.id)
    assert len(session.events) == len(kept.events)
    session.close()
    json.loads((folder / "session.json").read_bytes())
    assert (folder / "journal.damaged-1.jsonl").read_bytes() == journal
    opened(home, kept.id).close()


def test_a_profile_without_its_seal_is_checked_anew_and_its_old_figures_are_not_believed(home):
    kept = kept_session()
    folder = kept.place(home)
    tables = json.loads(kept.files["session.before.json"])
    del tables["profile"]["2"], tables["profile"]["1"]["sum"], tables["events"]
    tables["events"] = {}
    tables["meta"]["1"].pop("sum")
    tables["meta"]["1"]["events"] = 0
    tables["profile"]["1"]["document"]["tank"][0]["length"] = "40 in"
    for path in folder.iterdir():
        path.unlink()
    (folder / "session.json").write_text(json.dumps(tables), encoding="utf-8")
    session = opened(home, kept.id)
    assert session.profile.tanks[0].length == pytest.approx(40 * 0.0254)
    session.close()


@pytest.mark.parametrize("size", [50_000_000, 70_000_000])
def test_a_text_of_fifty_or_seventy_megabytes_in_a_note_is_no_event_of_ours(home, size):
    kept = kept_session()
    folder = kept.place(home)
    note = {
        "id": "019b8d2f0000-000-0000abcd",
        "at": 1.7676002e9,
        "what": {"kind": "note-written", "text": "x" * size},
    }
    (folder / "journal.jsonl").write_bytes(kept.files["journal.jsonl"] + json.dumps(note).encode() + b"\n")
    with memory_folder():
        session = opened(home, kept.id)
        # So large a journal isn't read at all, and the session is only looked at.
        assert session.read_only
        session.close()


def test_a_copy_with_which_the_file_could_not_be_read_again_is_not_taken_in(home, monkeypatch):
    from logic.session import store
    from logic.session.event_lines import read_line

    kept = kept_session()
    kept.place(home)
    session = opened(home, kept.id)
    before = [event.id for event in session.events]
    monkeypatch.setattr(store, "LARGEST_FILE", len(kept.files["session.json"]) + 5000)
    line = b'{"id":"019b8d4f0000-000-0000abcd","at":1767602000.0,"what":{"kind":"note-written","text":"%s"}}'
    with pytest.raises(OSError, match="holds up to"):
        session.take_in([read_line(line % (b"x" * 20_000))])
    assert [event.id for event in session.events] == before
    assert isinstance(session.act(WriteNote("and on"), LATER), Taken)
    session.close()
    again = opened(home, kept.id)
    assert [note.text for note in again.state.notes][-1] == "and on"
    again.close()

"""Damaged files: cut at every byte, a bit turned in every byte, empty, missing: what is whole opens.

A damaged file is set aside untouched, and nothing that isn't what was recorded is ever shown as if it were.
"""

import random
import shutil

import pytest

from logic.session.intents import Taken, WriteNote
from logic.session.session import SessionFault, open_session
from tests.crash.faulty_files import QuickFiles
from tests.crash.kept_sessions import at, end_abruptly, filled, found_in, ids, opened, stray_names

RECORDED = 9


@pytest.fixture
def left(quick_folder):
    """A session that was left, and came to its file by a journal and two generations."""
    session = filled(quick_folder, RECORDED)
    again = opened(session.id, quick_folder, seconds=4000)
    assert isinstance(again.act(WriteNote("later"), at(4000)), Taken)
    again.close()
    return again


@pytest.fixture
def killed(quick_folder):
    """A session whose program ended without leaving it: a document, and a journal beside it."""
    session = filled(quick_folder, RECORDED, closed=False)
    end_abruptly(session)
    return session


def contents(events) -> list[tuple[object, ...]]:
    """Everything that an event says; the seal alone is left out."""
    return [(event.id, event.at, event.offset, event.by, event.payload) for event in events]


def contents_or_none(folder) -> list[tuple[object, ...]] | None:
    """None where nothing in the folder can be opened."""
    try:
        return contents(found_in(folder))
    except SessionFault:
        return None


def test_a_file_cut_at_any_byte_gives_every_event_from_what_stands_beside_it(left):
    path, whole = left.folder / "session.json", contents(left.events)
    text = path.read_bytes()
    for length in range(len(text)):
        path.write_bytes(text[:length])
        assert contents(found_in(left.folder)) == whole, length


def test_a_bit_turned_in_any_byte_of_the_file_changes_no_event(left):
    path, whole = left.folder / "session.json", contents(left.events)
    text = path.read_bytes()
    chance = random.Random(33)
    for place in range(len(text)):
        flipped = bytearray(text)
        flipped[place] ^= 1 << chance.randrange(8)
        path.write_bytes(flipped)
        assert contents(found_in(left.folder)) == whole, place


@pytest.mark.parametrize("share", [0.0, 0.02, 0.3, 0.6, 0.9, 0.999])
def test_a_damaged_file_is_set_aside_untouched_and_said(left, share):
    path, whole = left.folder / "session.json", ids(left.events)
    text = path.read_bytes()
    damaged = text[: int(len(text) * share)]
    path.write_bytes(damaged)
    again = opened(left.id, left.folder.parent)
    assert ids(again.events) == whole
    assert any("could not be opened" in notice.template for notice in again.notices)
    assert (left.folder / "session.damaged-1.json").read_bytes() == damaged
    assert isinstance(again.act(WriteNote("and on"), at(9000)), Taken)
    again.close()
    third = opened(left.id, left.folder.parent)
    assert third.notices == ()
    assert len(third.events) == len(whole) + 1
    third.close()
    assert stray_names(left.folder) == {"session.damaged-1.json"}


def test_only_looking_sets_nothing_aside(left):
    path = left.folder / "session.json"
    path.write_bytes(path.read_bytes()[:-5])
    before = {each.name: each.read_bytes() for each in left.folder.iterdir()}
    looking = open_session(left.id, at(9000), home=left.folder.parent, read_only=True)
    assert looking.notices
    looking.close()
    assert {each.name: each.read_bytes() for each in left.folder.iterdir()} == before


def test_a_lone_file_cut_anywhere_opens_with_what_is_whole_or_says_why_not(left, quick_folder):
    alone = quick_folder / "alone"
    alone.mkdir()
    text, whole = (left.folder / "session.json").read_bytes(), contents(left.events)
    most = 0
    for length in range(len(text)):
        (alone / "session.json").write_bytes(text[:length])
        found = contents_or_none(alone)
        assert (alone / "session.json").read_bytes() == text[:length]
        if found is None:
            continue
        assert found == whole[: len(found)], length
        assert len(found) >= most
        most = len(found)
    assert most == len(whole)


def test_a_journal_cut_at_any_byte_loses_only_the_lines_that_are_gone(killed):
    path, whole = killed.folder / "journal.jsonl", contents(killed.events)
    text = path.read_bytes()
    for length in range(len(text)):
        path.write_bytes(text[:length])
        found = contents(found_in(killed.folder))
        complete = max(0, text[: length + 1].count(b"\n") - 1)  # its first line is no event
        assert found == whole[: 1 + complete], length


def test_a_bit_turned_in_any_byte_of_the_journal_loses_that_line_at_most(killed):
    path, whole = killed.folder / "journal.jsonl", contents(killed.events)
    text = path.read_bytes()
    chance = random.Random(33)
    for place in range(len(text)):
        flipped = bytearray(text)
        flipped[place] ^= 1 << chance.randrange(8)
        path.write_bytes(flipped)
        found = contents(found_in(killed.folder))
        assert set(found) <= set(whole), place
        # A line's end that is gone joins two lines, which then both are.
        assert len(found) >= len(whole) - (2 if text[place] == ord("\n") else 1), place


def test_a_damaged_line_of_the_journal_is_said_and_the_journal_set_aside(killed):
    path = killed.folder / "journal.jsonl"
    lines = path.read_bytes().split(b"\n")
    lines[3] = lines[3].replace(b'"note-written"', b'"note-mritten"')
    damaged = b"\n".join(lines)
    path.write_bytes(damaged)
    again = opened(killed.id, killed.folder.parent)
    assert len(again.events) == len(killed.events) - 1
    assert any("lines of the journal are damaged" in notice.template for notice in again.notices)
    assert isinstance(again.act(WriteNote("and on"), at(9000)), Taken)
    again.close()
    assert (killed.folder / "journal.damaged-1.jsonl").read_bytes() == damaged


def test_a_torn_last_line_is_written_over_by_the_next_event(killed):
    path = killed.folder / "journal.jsonl"
    path.write_bytes(path.read_bytes()[:-20])
    again = opened(killed.id, killed.folder.parent)
    assert len(again.events) == len(killed.events) - 1
    assert isinstance(again.act(WriteNote("next"), at(9000)), Taken)
    end_abruptly(again)
    assert contents(found_in(killed.folder)) == contents(again.events)
    assert stray_names(killed.folder) == set()


def test_a_last_line_without_its_end_counts_and_the_next_one_stands_apart(killed):
    path = killed.folder / "journal.jsonl"
    path.write_bytes(path.read_bytes().rstrip(b"\n"))
    again = opened(killed.id, killed.folder.parent)
    assert contents(again.events) == contents(killed.events)
    assert isinstance(again.act(WriteNote("next"), at(9000)), Taken)
    end_abruptly(again)
    assert contents(found_in(killed.folder)) == contents(again.events)


def test_a_journal_that_is_known_to_be_missing_is_said(killed, quick_folder):
    alone = quick_folder / "lone"
    alone.mkdir()
    shutil.copy(killed.folder / "session.json", alone / "session.json")
    session = open_session(alone / "session.json", at(9000), home=quick_folder, files=QuickFiles())
    assert len(session.events) == 1
    assert any("is missing" in notice.template for notice in session.notices)
    session.close()


def test_the_journal_of_another_session_is_left_out_and_kept(killed, left):
    foreign = (left.folder / "journal.before.jsonl").read_bytes()
    (killed.folder / "journal.jsonl").write_bytes(foreign)
    again = opened(killed.id, killed.folder.parent)
    assert len(again.events) == 1
    assert any("belongs to another session" in notice.template for notice in again.notices)
    assert isinstance(again.act(WriteNote("on"), at(9000)), Taken)
    again.close()
    assert (killed.folder / "journal.damaged-1.jsonl").read_bytes() == foreign


def test_without_its_file_a_session_opens_from_the_generation_before(left):
    (left.folder / "session.json").unlink()
    again = opened(left.id, left.folder.parent)
    assert ids(again.events) == ids(left.events)
    again.close()
    assert (left.folder / "session.json").exists()


def test_a_folder_without_anything_to_open_is_no_session(tmp_path):
    (tmp_path / "empty").mkdir()
    (tmp_path / "odd").mkdir()
    (tmp_path / "odd" / "session.json").write_text('{"_default": {"1": {"a": 1}}}')
    for name in ("empty", "odd", "no-such-thing"):
        with pytest.raises(SessionFault):
            open_session(name, at(0), home=tmp_path)


def test_a_pipe_and_a_link_in_the_files_place_are_not_followed(left, quick_folder):
    import os

    path, whole = left.folder / "session.json", ids(left.events)
    elsewhere = quick_folder / "elsewhere.json"
    path.rename(elsewhere)
    path.symlink_to(elsewhere)
    assert ids(found_in(left.folder)) == whole
    path.unlink()
    os.mkfifo(path)
    assert ids(found_in(left.folder)) == whole
    again = opened(left.id, left.folder.parent)
    assert ids(again.events) == whole
    again.close()
    assert path.is_file()

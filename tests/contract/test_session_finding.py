"""Where sessions lie, which is meant by a word, and what they are called."""

import os

import pytest

from logic.session.folder import find_session, find_sessions, new_session_id, sessions_folder
from logic.session.intents import (
    Taken,
    WriteNote,
)
from logic.session.session import SessionFault, new_session
from tests.crash.faulty_files import QuickFiles
from tests.crash.kept_sessions import at, end_abruptly, filled, opened, small_profile

ROOT_USER = hasattr(os, "geteuid") and os.geteuid() == 0


def test_sessions_lie_where_the_variable_says(monkeypatch, tmp_path):
    monkeypatch.setenv("BELLYPAN_HOME", str(tmp_path / "mine"))
    assert sessions_folder() == tmp_path / "mine"
    assert find_sessions() == ()
    session = new_session(small_profile(), at(0), files=QuickFiles())
    session.close()
    assert (tmp_path / "mine" / session.id / "session.json").is_file()
    assert [entry.id for entry in find_sessions()] == [session.id]


def test_without_the_variable_they_lie_in_the_platforms_folder(monkeypatch, tmp_path):
    monkeypatch.delenv("BELLYPAN_HOME", raising=False)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.setenv("HOME", str(tmp_path))
    assert sessions_folder().name == "bellypan"
    assert tmp_path in sessions_folder().parents


def test_the_one_worked_on_last_comes_first_its_journal_counting(tmp_path):
    older, newer = filled(tmp_path, 2), filled(tmp_path, 3)
    assert [entry.id for entry in find_sessions(tmp_path)] == [newer.id, older.id]
    again = opened(older.id, tmp_path)
    assert isinstance(again.act(WriteNote("x"), at(9e5)), Taken)
    end_abruptly(again)
    first, second = find_sessions(tmp_path)
    assert (first.id, second.id) == (older.id, newer.id)
    assert first.last == at(9e5).at
    assert first.rig == "Small"
    assert first.started == at(0).at
    assert first.file.is_file()


def test_listing_passes_over_what_is_no_session_and_names_what_is_damaged(tmp_path):
    good, bad = filled(tmp_path, 1), filled(tmp_path, 2)
    (bad.folder / "session.json").write_bytes(b"")
    (bad.folder / "session.before.json").unlink()
    (tmp_path / "empty").mkdir()
    (tmp_path / "file").write_text("x")
    (tmp_path / "link").symlink_to(good.folder)
    entries = {entry.id: entry.readable for entry in find_sessions(tmp_path)}
    assert entries == {good.id: True, bad.id: False}


def test_a_session_is_meant_by_its_id_its_unique_beginning_or_a_path(tmp_path):
    first, second = filled(tmp_path, 1), filled(tmp_path, 1)
    assert find_session(first.id, tmp_path) == first.folder
    assert find_session(first.id[:-1], tmp_path) == first.folder or first.id[:-1] == second.id[:-1]
    with pytest.raises(SessionFault, match="begins 2 sessions"):
        find_session("small", tmp_path)
    assert find_session(str(first.folder / "session.json"), tmp_path) == first.folder / "session.json"
    assert find_session(str(first.folder), tmp_path) == first.folder


@pytest.mark.parametrize("wanted", ["", "none", "../..", "/etc/passwd\0", "a" * 10_000, "\x1b[2J", "small\n"])
def test_no_other_word_means_a_session(tmp_path, wanted):
    filled(tmp_path / "home", 1)
    with pytest.raises(SessionFault):
        find_session(wanted, tmp_path / "home")


@pytest.mark.parametrize(
    ("rig", "beginning"),
    [
        ("Two tanks, one day of frost", "two-tanks-one-day-of-fro-2026-01-05-"),
        ("Übergröße", "ubergroe-2026-01-05-"),
        ("../../etc", "etc-2026-01-05-"),
        ("雪", "rig-2026-01-05-"),
        ("", "rig-2026-01-05-"),
    ],
)
def test_an_id_says_rig_and_day_in_safe_characters(rig, beginning):
    made = new_session_id(rig, at(0))
    assert made.startswith(beginning)
    assert set(made) <= set("abcdefghijklmnopqrstuvwxyz0123456789-")

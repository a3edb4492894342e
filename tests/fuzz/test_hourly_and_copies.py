"""A few of the cases of hourly files and of copies that are merged; for long: `long_run.py`."""

import random

import pytest

from logic.session.fold import fold
from logic.session.session import open_session
from tests.crash.faulty_files import QuickFiles
from tests.fuzz.answers import sound
from tests.fuzz.hourly_files import try_hourly_file, try_hourly_text
from tests.fuzz.kept import LATER, kept_session
from tests.fuzz.merges import try_bad_copy, try_merge


@pytest.mark.parametrize(
    ("door", "count"),
    [(try_hourly_text, 600), (try_hourly_file, 40), (try_merge, 12), (try_bad_copy, 50)],
    ids=lambda each: getattr(each, "__name__", ""),
)
def test_what_is_asked_of_every_case_holds(door, count):
    for case in range(count):
        try:
            door(random.Random(case))
        except BaseException as wrong:
            raise AssertionError(f"case {case}") from wrong


def with_journal_line(home, line: bytes):
    kept = kept_session()
    folder = kept.place(home)
    (folder / "journal.jsonl").write_bytes(kept.files["journal.jsonl"] + line + b"\n")
    return kept.id


def test_an_item_of_a_weight_that_is_none_stops_closing(tmp_path):
    from logic.session.seal import sealed

    line = sealed(
        b'{"id":"019b8d4f0000-000-0000abcd","at":1767602000.0,"what":{"kind":"item-written","text":"odd","weight":"=x"}}'
    )
    session_id = with_journal_line(tmp_path, line)
    session = open_session(session_id, LATER, home=tmp_path, files=QuickFiles())
    assert [item.weight for item in session.state.items if item.text == "odd"] == ["stop"]
    assert session.state == fold(session.events)
    session.close()
    assert "odd" in sound(["punch", session_id], home=tmp_path).output


def test_the_name_of_a_journals_session_is_said_without_what_a_terminal_obeys(tmp_path):
    from logic.session.seal import sealed

    kept = kept_session()
    folder = kept.place(tmp_path)
    (folder / "journal.jsonl").write_bytes(
        sealed(b'{"journal":1,"session":"\xc2\x9b31mred\xe2\x80\xae"}') + b"\n"
    )
    session = open_session(kept.id, LATER, home=tmp_path, files=QuickFiles())
    (said,) = [dict(notice.parts)["id"] for notice in session.notices if "another session" in notice.template]
    assert said == "31mred"
    session.close()

"""`bellypan copy` and `bellypan merge`: two people work on two copies, and nothing of either is lost."""

import json

import pytest

from tests.contract.headless import bellypan


@pytest.fixture
def copied(session, tmp_path):
    """A copy of a session with one reading in it."""
    session.call("read", session.id, "tank.gray.length", "38 1/2")
    path = tmp_path / "carried.json"
    done = session.call("copy", session.id, path)
    assert (done.code, done.errors) == (0, "")
    assert str(path) in done.output
    return path


def readings(session) -> str:
    return session.call("status", session.id).output


def test_a_copy_is_one_file_with_the_readings_as_typed_and_in_si(copied):
    text = copied.read_text()
    assert json.loads(text)
    assert '"typed":"38 1/2"' in text.replace(": ", ":")
    assert "0.9779" in text


def test_a_copy_overwrites_nothing(session, copied):
    before = copied.read_bytes()
    done = session.call("copy", session.id, copied)
    assert done.code == 2
    assert copied.read_bytes() == before


def test_a_copy_that_is_not_known_is_added(session, copied, tmp_path):
    elsewhere = tmp_path / "another-machine"
    done = bellypan("merge", copied, home=elsewhere)
    assert (done.code, done.errors) == (0, "")
    assert done.output.startswith(f"added {session.id}, ")
    assert "38 1/2" in bellypan("status", session.id, home=elsewhere).output


def test_two_copies_come_together_whatever_the_order(session, copied, tmp_path):
    elsewhere = tmp_path / "another-machine"
    bellypan("merge", copied, home=elsewhere)
    bellypan("read", session.id, "tank.gray.width", "21", home=elsewhere)
    session.call("read", session.id, "tank.gray.height", "8 3/4")
    theirs = tmp_path / "theirs.json"
    mine = tmp_path / "mine.json"
    bellypan("copy", session.id, theirs, home=elsewhere)
    session.call("copy", session.id, mine)
    assert session.call("merge", theirs).output == f"taken in {session.id}, 1 new event\n"
    assert (
        bellypan("merge", mine, session.id, home=elsewhere).output == f"taken in {session.id}, 1 new event\n"
    )
    here = session.call("check", "--session", session.id, "--json")
    there = bellypan("check", "--session", session.id, "--json", home=elsewhere)
    assert here.json["figures"] == there.json["figures"]
    assert session.call("merge", theirs).output == f"taken in {session.id}, 0 new events\n"


def test_a_copy_of_another_session_is_refused_for_this_one(begin, tmp_path):
    first, second = begin(), begin()
    path = tmp_path / "first.json"
    first.call("copy", first.id, path)
    done = first.call("merge", path, second.id)
    assert done.code == 2
    assert first.id in done.errors


@pytest.mark.parametrize("content", [b"", b"{}", b"\x00\xff", b"[]", b'{"meta": {}}'], ids=repr)
def test_what_is_no_copy_is_said_to_be_none(tmp_path, content):
    path = tmp_path / "odd.json"
    path.write_bytes(content)
    done = bellypan("merge", path, home=tmp_path / "home")
    assert done.code == 2
    assert done.output == ""
    assert done.errors.count("\n") == 1
    assert bellypan("sessions", "--json", home=tmp_path / "home").json == {"sessions": []}


@pytest.mark.parametrize("words", [("merge",), ("copy",), ("copy", "x")])
def test_a_wrong_call_is_exit_2(words, tmp_path):
    done = bellypan(*words, home=tmp_path)
    assert done.code == 2
    assert done.errors.count("\n") == 1

"""Sessions from the command line: begun, listed, named by a beginning or a file, and never half opened."""

import pytest

from tests.contract.headless import RIGS, bellypan, spawned


def test_a_new_session_prints_its_id_alone(tmp_path):
    done = bellypan("open", RIGS / "two-tanks.toml", "--new", home=tmp_path)
    assert done.code == 0
    assert done.errors == ""
    assert done.output.count("\n") == 1
    assert done.output.split() == [done.output.strip()]


def test_sessions_are_listed_newest_first(begin):
    first, second = begin(), begin()
    first.call("read", first.id, "tank.gray.length", "38 1/2")
    listed = first.call("sessions", "--json").json["sessions"]
    assert [one["id"] for one in listed] == [first.id, second.id]
    for one in listed:
        assert set(one) == {"id", "rig", "started", "last", "file"}
        assert one["rig"] == "Two tanks in the open"
    plain = first.call("sessions").output
    assert first.id in plain
    assert second.id in plain


def test_no_session_yet_is_said(tmp_path):
    done = bellypan("sessions", home=tmp_path)
    assert done.code == 0
    assert "no session yet" in done.output
    assert bellypan("sessions", "--json", home=tmp_path).json == {"sessions": []}


def test_a_session_is_named_by_its_id_its_beginning_and_its_file(session):
    [listed] = session.call("sessions", "--json").json["sessions"]
    for word in (session.id, session.id[:-1], listed["file"]):
        assert session.call("status", word).code == 0, word


def test_a_beginning_that_fits_two_sessions_is_asked_about(begin):
    first, second = begin(), begin()
    common = ""
    for one, other in zip(first.id, second.id, strict=False):
        if one != other:
            break
        common += one
    assert common
    done = first.call("status", common)
    assert done.code == 2
    assert done.errors.count("\n") == 1


@pytest.mark.parametrize("word", ["no-such-session", "../..", "", "/etc/passwd", "\x1b[31m", "a" * 5000])
@pytest.mark.parametrize("command", [("status",), ("check", "--session"), ("read",), ("step",), ("punch",)])
def test_a_session_that_is_not_there_is_exit_2(session, command, word):
    more = ("tank.gray.length", "4") if command == ("read",) else ()
    done = session.call(*command, word, *more)
    assert done.code == 2
    assert done.output == ""
    assert done.errors.count("\n") == 1
    assert "\x1b" not in done.errors


def test_status_says_what_matters_in_plain_lines(session):
    session.call("read", session.id, "tank.gray.length", "38 1/2")
    done = session.call("status", session.id)
    assert done.code == 0
    heads = [line.partition(":")[0] for line in done.output.splitlines()]
    for head in ("rig", "last reading", "next", "owed", "may start", "live", "verdict"):
        assert head in heads, done.output
    assert "last reading: gray tank, length: 38 1/2 in (tank.gray.length), " in done.output
    assert "verdict: DO NOT CLOSE" in done.output


def test_a_session_checked_beside_its_changed_profile_tells_the_difference(session, tmp_path):
    text = (RIGS / "two-tanks.toml").read_text()
    changed = tmp_path / "changed.toml"
    assert 'chemistry = "lithium"' in text
    changed.write_text(text.replace('chemistry = "lithium"', 'chemistry = "flooded"'))
    done = session.call("check", "--session", session.id, changed, "--json")
    assert done.code == 1
    assert done.errors == f"supply.chemistry: lithium in the session, flooded in {changed}\n"
    same = session.call("check", "--session", session.id, RIGS / "two-tanks.toml", "--json")
    assert same.errors == ""
    assert same.json["figures"] == done.json["figures"]


def test_findings_of_a_session_are_more_than_those_of_its_design(session):
    design = bellypan("check", RIGS / "two-tanks.toml", "--json").json
    begun = session.call("check", "--session", session.id, "--json")
    assert {finding["id"] for finding in design["findings"]} <= {one["id"] for one in begun.json["findings"]}
    assert "planned:tank.gray.length" in {finding["id"] for finding in begun.json["findings"]}
    assert begun.code == 1


def values_of(done) -> dict[str, float | None]:
    return {figure["id"]: figure["value"] for figure in done.json["figures"]}


def test_the_written_profile_has_the_agreed_readings_and_is_one_that_check_accepts(session, tmp_path):
    for value in ("39", "39 1/16"):
        session.call("read", session.id, "tank.gray.length", value)
    out = tmp_path / "as-built.toml"
    done = session.call("profile", session.id, "-o", out)
    assert (done.code, done.output, done.errors) == (0, "", "")
    measured = values_of(session.call("check", "--session", session.id, "--json"))
    written = values_of(bellypan("check", out, "--json"))
    planned = values_of(bellypan("check", RIGS / "two-tanks.toml", "--json"))
    assert written["tank.gray.volume"] == pytest.approx(measured["tank.gray.volume"], rel=1e-7)
    assert written["tank.gray.volume"] > planned["tank.gray.volume"]
    assert session.call("profile", session.id).output == out.read_text()


def test_a_reading_that_wants_a_second_one_stays_out_of_the_written_profile_and_is_named(session, tmp_path):
    session.call("read", session.id, "tank.gray.length", "39")
    session.call("read", session.id, "tank.gray.wall", "3/16")
    out = tmp_path / "as-built.toml"
    done = session.call("profile", session.id, "-o", out)
    assert done.code == 0
    assert done.errors == "left as planned, not yet agreed: tank.gray.length\n"
    assert 'length = "38 1/2 in"' in out.read_text()
    assert 'wall = "3/16 in"' in out.read_text()


def test_a_profile_is_never_written_over_another_file(session, tmp_path):
    out = tmp_path / "there.toml"
    out.write_text("mine")
    done = session.call("profile", session.id, "-o", out)
    assert done.code == 2
    assert out.read_text() == "mine"


def test_what_is_said_is_said_in_ascii_where_the_terminal_knows_no_more():
    done = spawned("check", RIGS / "two-tanks.toml", PYTHONIOENCODING="ascii")
    assert done.code in (0, 1)
    assert done.errors == ""
    assert done.output.isascii()
    assert "gal" in done.output


def test_processes_of_their_own_hand_a_session_on(tmp_path):
    begun = spawned("open", RIGS / "two-tanks.toml", "--new", home=tmp_path)
    session = begun.output.strip()
    assert spawned("read", session, "tank.gray.length", "38 1/2", home=tmp_path).code == 0
    assert (
        "gray tank, length: 38 1/2 in (tank.gray.length)" in spawned("status", session, home=tmp_path).output
    )

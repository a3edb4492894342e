"""`bellypan read`: readings without the screen, acknowledged one by one, never a wrong one unsaid."""

import json
import subprocess

import pytest

from tests.contract.headless import ROOT, clean_environment, command


def test_a_reading_is_taken_and_said_as_typed(session):
    done = session.call("read", session.id, "tank.gray.length", "38", "1/2")
    assert (done.code, done.output, done.errors) == (0, "taken tank.gray.length 38 1/2\n", "")


def test_a_reading_moves_the_figures_of_the_session(session):
    before = session.call("check", "--session", session.id, "--json").json
    session.call("read", session.id, "tank.gray.height", "9")
    after = session.call("check", "--session", session.id, "--json").json
    [was] = [figure for figure in before["figures"] if figure["id"] == "tank.gray.volume"]
    [now] = [figure for figure in after["figures"] if figure["id"] == "tank.gray.volume"]
    assert now["value"] > was["value"]
    assert was["u"] is None
    assert now["u"] > 0
    assert "tank.gray.height" in now["slots"]


def test_a_minus_is_part_of_the_value(session):
    for value in (["-12"], ["- 12"], ["-12", "degF"]):
        done = session.call("read", session.id, "work.air", *value)
        assert done.output.startswith(("taken work.air -", "refused work.air ")), done
    assert session.call("read", session.id, "work.air", "-12").output.startswith(("taken", "refused"))
    assert session.call("read", session.id, "work.surface", "-3").output == "taken work.surface -3\n"


@pytest.mark.parametrize(
    "typed", ["5 9/8", "413/8", "3' 14\"", "nan", "inf", "12,5", "41 3/8 kg", "", "1e9", "-4", "0"]
)
def test_what_is_no_length_is_refused_with_the_reason(session, typed):
    done = session.call("read", session.id, "tank.gray.length", typed)
    if not typed:
        assert done.code == 2
        assert "no value for tank.gray.length" in done.errors
        return
    assert done.code == 1
    assert done.output.startswith("refused tank.gray.length ")
    assert done.output.count("\n") == 1


def test_a_slot_that_is_not_there_is_refused(session):
    done = session.call("read", session.id, "tank.gray.lenght", "41")
    assert done.code == 1
    assert done.output.startswith("refused tank.gray.lenght ")
    assert "tank.gray.length" in done.output


def test_lines_of_standard_input_are_answered_in_order(session):
    given = (
        "tank.gray.length 38 1/2\n\n  tank.gray.width   21  \ntank.gray.height\nno.such.slot 4\nwork.air -5\n"
    )
    done = session.call("read", session.id, "-", given=given)
    lines = done.output.splitlines()
    assert [line.split()[:2] for line in lines] == [
        ["taken", "tank.gray.length"],
        ["taken", "tank.gray.width"],
        ["refused", "tank.gray.height"],
        ["refused", "no.such.slot"],
        ["taken", "work.air"],
    ]
    assert done.code == 1
    assert done.errors == ""


def test_a_line_without_end_is_refused_and_the_next_one_taken(session):
    given = "tank.gray.length " + "9" * 100_000 + "\ntank.gray.width 21\n"
    done = session.call("read", session.id, "-", given=given)
    refused, taken = done.output.splitlines()
    assert refused.startswith("refused tank.gray.length the line is over 1000 characters")
    assert taken == "taken tank.gray.width 21"


def test_all_taken_is_exit_0(session):
    assert session.call("read", session.id, "-", given="tank.gray.length 38 1/2\n").code == 0
    assert session.call("read", session.id, "-", given="").code == 0


def test_json_is_one_object_a_line(session):
    done = session.call(
        "read", session.id, "-", "--json", given="tank.gray.length 38 1/2\ntank.gray.width x\n"
    )
    taken, refused = (json.loads(line) for line in done.output.splitlines())
    assert taken == {"slot": "tank.gray.length", "taken": "38 1/2"}
    assert set(refused) == {"slot", "refused"}
    assert refused["slot"] == "tank.gray.width"
    assert session.call("read", session.id, "--json", "tank.gray.width", "21").json == {
        "slot": "tank.gray.width",
        "taken": "21",
    }


def test_each_line_is_answered_before_the_next_one_is_read(session):
    with subprocess.Popen(
        command("read", session.id, "-"),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        cwd=ROOT,
        env=clean_environment(session.home),
        text=True,
    ) as child:
        assert child.stdin is not None
        assert child.stdout is not None
        for value in ("38 1/2", "38 5/8"):
            child.stdin.write(f"tank.gray.length {value}\n")
            child.stdin.flush()
            assert child.stdout.readline() == f"taken tank.gray.length {value}\n"
        child.kill()
    listed = session.call("status", session.id)
    assert "38 5/8" in listed.output


def test_a_reading_is_struck_by_its_number(session):
    session.call("read", session.id, "tank.gray.length", "38 1/2")
    done = session.call("read", session.id, "tank.gray.length", "--strike", "1")
    assert done.code == 0
    figures = session.call("check", "--session", session.id, "--json").json["figures"]
    assert all(figure["u"] is None for figure in figures)
    again = session.call("read", session.id, "tank.gray.length", "--strike", "2")
    assert again.code == 1
    assert again.output.startswith("refused tank.gray.length ")


def test_the_same_value_at_once_is_a_bounced_key_unless_confirmed(session):
    words = ("read", session.id, "tank.gray.length", "38 1/2")
    assert session.call(*words).code == 0
    bounced = session.call(*words)
    assert bounced.code == 1
    assert "--again" in bounced.output
    assert session.call(*words, "--again").code == 0


def test_while_another_program_holds_the_session_nothing_is_taken(session):
    with subprocess.Popen(
        command("read", session.id, "-"),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        cwd=ROOT,
        env=clean_environment(session.home),
        text=True,
    ) as holder:
        assert holder.stdin is not None
        assert holder.stdout is not None
        holder.stdin.write("tank.gray.length 38 1/2\n")
        holder.stdin.flush()
        holder.stdout.readline()
        refused = session.call("read", session.id, "tank.gray.width", "21")
        status = session.call("status", session.id)
        step = session.call("step", session.id, "chocks:rig", "start")
        punch = session.call("punch", session.id, "add", "look at the strap")
        holder.stdin.close()
        holder.wait()
    for done in (refused, step, punch):
        assert done.code == 1, done
        assert done.output.startswith("refused ")
        assert "held by" in done.output
    assert status.code == 0
    assert session.call("read", session.id, "tank.gray.width", "21").code == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "read lacks words"),
        (("tank.gray.length",), "read lacks words"),
        (("tank.gray.length", "--strike", "x"), "--strike x"),
        (("tank.gray.length", "--strike", "0"), "--strike 0"),
        (("tank.gray.length", "41", "--strike", "1"), "--strike stands with a value: 41"),
    ],
)
def test_a_wrong_call_is_exit_2(session, words, said):
    done = session.call("read", *([session.id] if len(words) > 1 else []), *words)
    assert done.code == 2
    assert said in done.errors

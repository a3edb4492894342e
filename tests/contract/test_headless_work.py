"""`bellypan step` and `bellypan punch`: the work and the punch list from a script, by the screen's rules."""

import pytest

STATES = {"waiting", "ready", "running", "held", "done", "skipped"}


def steps(session) -> dict[str, dict]:
    return {step["id"]: step for step in session.call("step", session.id, "--json").json["steps"]}


def items(session) -> dict[str, dict]:
    return {item["id"]: item for item in session.call("punch", session.id, "--json").json["items"]}


def first_ready(session) -> str:
    return next(id for id, step in steps(session).items() if step["state"] == "ready")


def test_steps_have_their_ids_states_and_minutes(session):
    found = steps(session)
    assert found
    for id, step in found.items():
        assert set(step) == {"id", "title", "state", "held_by", "due", "minutes"}
        template, _, place = id.partition(":")
        assert template
        assert place
        assert step["state"] in STATES
        assert step["title"]
        assert step["minutes"] >= 0
        assert (step["state"] == "waiting") <= bool(step["held_by"])
    plain = session.call("step", session.id).output
    assert all(id in plain for id in found)


def test_a_step_is_started_and_done(session):
    step = first_ready(session)
    assert session.call("step", session.id, step, "start").code == 0
    assert steps(session)[step]["state"] == "running"
    done = session.call("step", session.id, step, "done", "--note", "looked at twice")
    assert (done.code, done.errors) == (0, "")
    assert steps(session)[step]["state"] == "done"


BEFORE_THE_METER = (
    "profile-complete:rig", "drain-flush:tank.gray", "drain-flush:tank.black", "chocks:rig", "stands:rig",
    "tow-plug:rig", "solar:rig", "shore-cord:rig", "generator:rig", "alternator:rig", "battery-negative:rig",
)  # fmt: skip


def do(session, steps_in_order):
    for step in steps_in_order:
        assert session.call("step", session.id, step, "done").code == 0, step


def test_proven_dead_wants_its_three_readings_and_says_how_they_are_given(session):
    do(session, BEFORE_THE_METER)
    refused = session.call("step", session.id, "proven-dead:rig", "done", "--record", "circuit=0 V")
    assert refused.code == 1
    assert refused.output.startswith(
        "refused write down what you found: known source before, known source after"
    )
    assert '--record "known source before=TEXT" --record "known source after=TEXT"' in refused.output
    assert "the meter on a source that you know is live" in refused.output
    given = ("--record", "known source before=12.6 V", "--record", "circuit=0 V", "--record")
    live = session.call(
        "step", session.id, "proven-dead:rig", "done", *given, "known source after=0", "--json"
    )
    assert live.code == 1
    assert "the meter sees nothing" in live.json["refused"]
    assert steps(session)["proven-dead:rig"]["state"] == "ready"
    assert (
        session.call("step", session.id, "proven-dead:rig", "done", *given, "known source after=12.6 V").code
        == 0
    )
    assert steps(session)["proven-dead:rig"]["state"] == "done"


def test_a_person_may_give_a_word_for_it_from_a_script_and_that_is_said(session):
    do(session, BEFORE_THE_METER)
    refused = session.call("step", session.id, "gas-located:rig", "done", "--record", "gas pipe=")
    assert refused.code == 1
    done = session.call("step", session.id, "gas-located:rig", "done", "--note", "as last year")
    assert done.code == 0
    assert "on your word: nothing is written down of gas pipe" in done.output
    assert steps(session)["gas-located:rig"]["state"] == "done"


def test_steps_say_what_is_to_be_written_down_with_them(session):
    listed = session.call("step", session.id).output.splitlines()
    [dead] = [line for line in listed if " proven-dead:rig " in line]
    assert "to write down: known source before, circuit, known source after" in dead


def test_a_step_is_held_with_a_note(session):
    step = first_ready(session)
    assert session.call("step", session.id, step, "hold", "--note", "no light").code == 0
    held = steps(session)[step]
    assert held["state"] == "held"
    assert any("no light" in reason for reason in held["held_by"])


def test_a_step_that_may_not_start_says_what_must_be_true_first(session):
    waiting = next(id for id, step in steps(session).items() if step["state"] == "waiting")
    done = session.call("step", session.id, waiting, "start")
    assert done.code == 1
    assert done.output.startswith("refused ")
    assert len(done.output) > len("refused \n") + 10
    assert steps(session)[waiting]["state"] == "waiting"


def test_a_refused_step_says_what_a_person_may_set_aside(session):
    """Surface, dew point, dry and dwell may be overruled with a reason and a name; nothing else is offered."""
    bond = next(id for id in steps(session) if id.startswith("bond-pad:"))
    refused = session.call("step", session.id, bond, "start").output
    assert "a person may set aside dry: --overrule REASON --name NAME" in refused
    assert "for example" not in refused
    assert "set aside" not in session.call("step", session.id, "proven-dead:rig", "start").output


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("no-such-step:rig", "start"), 1),
        (("chocks:rig",), 2),
        (("chocks:rig", "begin"), 2),
        (("chocks:rig", "start", "--overrule", "in a hurry"), 2),
        (("chocks:rig", "done", "--record", "no sign of equals"), 2),
    ],
)
def test_a_wrong_call_of_a_step_changes_nothing(session, words, code):
    before = steps(session)
    done = session.call("step", session.id, *words)
    assert done.code == code, done
    assert steps(session) == before


def test_an_item_is_written_done_and_counted(session):
    before = session.call("check", "--session", session.id, "--json").json["verdict"]
    done = session.call("punch", session.id, "add", "strap", "at the rear is loose", "--place", "tank.gray")
    assert (done.code, done.errors) == (0, "")
    [item] = [item for item in items(session).values() if item["text"] == "strap at the rear is loose"]
    assert (item["weight"], item["place"], item["state"]) == ("stop", "tank.gray", "open")
    after = session.call("check", "--session", session.id, "--json").json["verdict"]
    assert after["stop"] == before["stop"] + 1
    assert session.call("punch", session.id, "done", item["id"]).code == 0
    assert items(session)[item["id"]]["state"] == "done"
    assert session.call("check", "--session", session.id, "--json").json["verdict"] == before


def test_found_and_written_items_stand_in_one_list(session):
    session.call("punch", session.id, "add", "grease the valve", "--weight", "note")
    found = items(session)
    for item in found.values():
        assert set(item) == {"id", "weight", "place", "text", "state"}
        assert item["weight"] in ("stop", "use", "note")
    assert any(item["text"] == "grease the valve" for item in found.values())
    assert any(":" in id for id in found)


def test_a_finding_is_accepted_with_a_reason_and_a_name(session):
    finding = next(id for id, item in items(session).items() if id.startswith("planned:"))
    assert session.call("punch", session.id, "accept", finding, "--reason", "seen last year").code == 2
    done = session.call("punch", session.id, "accept", finding, "--reason", "seen last year", "--name", "J.")
    assert (done.code, done.errors) == (0, "")
    assert items(session)[finding]["state"] == "accepted"
    [listed] = [
        one
        for one in session.call("check", "--session", session.id, "--json").json["findings"]
        if one["id"] == finding
    ]
    assert listed["accepted"] == {"reason": "seen last year", "name": "J."}


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("done", "no-such-item"), 1),
        (("accept", "no-such:finding", "--reason", "x", "--name", "y"), 1),
        (("add",), 2),
        (("add", "text", "--weight", "urgent"), 2),
        (("remove", "x"), 2),
    ],
)
def test_a_wrong_call_of_the_punch_list_changes_nothing(session, words, code):
    before = items(session)
    assert session.call("punch", session.id, *words).code == code
    assert items(session) == before


def test_text_of_a_person_comes_out_as_text(session):
    session.call("punch", session.id, "add", "see [gray] \x1b[31mred\x1b[0m and <b>")
    assert any(item["text"] == "see [gray] [31mred[0m and <b>" for item in items(session).values())
    assert "\x1b" not in session.call("punch", session.id).output


def test_nothing_is_overruled_for_a_step_that_something_else_holds(session):
    """Make safe can't be overruled: the gates of a bond stay as they are until it is done."""
    bond = next(id for id in steps(session) if id.startswith("bond-pad:"))
    before = steps(session)[bond]["held_by"]
    refused = session.call("step", session.id, bond, "start", "--overrule", "in a hurry", "--name", "Ann")
    assert (refused.code, refused.output.split()[0]) == (1, "refused")
    assert steps(session)[bond]["held_by"] == before

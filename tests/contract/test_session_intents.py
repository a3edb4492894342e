"""Each intent becomes one event or a refusal in words that changes nothing; readings stand in a file of their own."""

import msgspec
import pytest

from logic.data.quantities import fill
from logic.session import intents
from logic.session.decide import CHECKS
from logic.session.event_lines import event_line
from logic.session.intents import (
    AcceptItem,
    AddPart,
    BeginDay,
    ChangeProfile,
    EndDay,
    FinishItem,
    FinishStep,
    HoldStep,
    MarkSheetMade,
    OverruleStep,
    RecordInStep,
    RecordReading,
    RedoLast,
    RemovePart,
    SkipStep,
    StartStep,
    TickPart,
    UndoLast,
    WriteItem,
    WriteNote,
)
from tests.contract.session_day import LENGTH, words_of
from tests.crash.kept_sessions import START


def test_every_intent_has_its_check():
    declared = {
        kind for kind in vars(intents).values() if isinstance(kind, type) and issubclass(kind, intents.Intent)
    }
    assert declared - {intents.Intent} == set(CHECKS)


# --- steps and days ---


def test_a_step_starts_when_nothing_holds_it_and_says_what_does(day):
    answer = day.refuse(StartStep("stands:rig"))
    assert words_of(answer)
    assert "step:chocks:rig" in [block.id for block in day.step("stands:rig").blocks]
    day.take(StartStep("chocks:rig"))
    day.refuse(StartStep("chocks:rig"))
    day.take(FinishStep("chocks:rig"))
    day.refuse(FinishStep("chocks:rig"))
    day.take(FinishStep("stands:rig", note="rated, both sides", recorded={"rating": "3 t"}))
    assert day.step("stands:rig").state == "done"


def test_make_safe_can_not_be_skipped_and_is_held_at_most(day):
    for step in day.session.assess(day.now).steps:
        if step.group == "make safe":
            assert "can't be skipped" in words_of(day.refuse(SkipStep(step.id, name="Ann")))
    day.take(HoldStep("chocks:rig", "no chocks here"))
    day.refuse(HoldStep("chocks:rig"))
    assert day.step("chocks:rig").state == "held"


def test_another_step_may_be_skipped_and_stays_a_stop(day):
    day.take(SkipStep("parts-bought:rig", "bought as we go", "Ann"))
    day.refuse(SkipStep("parts-bought:rig"))
    findings = {finding.id: finding for finding in day.session.assess(day.now).findings}
    assert findings["open-step:parts-bought:rig"].weight == "stop"


def test_only_what_may_be_overruled_is_and_with_a_reason_and_a_name(day):
    bond = next(step for step in day.session.assess(day.now).steps if step.template == "bond-pad")
    firm = next(block for block in bond.blocks if not block.overrulable)
    assert "can't be overruled" in words_of(day.refuse(OverruleStep(bond.id, firm.id, "late", "Ann")))
    day.refuse(OverruleStep(bond.id, "no-such-gate", "late", "Ann"))


def test_a_cold_surface_may_be_overruled_with_a_reason_and_a_name(day, monkeypatch):
    """The gate itself is the assessment's; here it is given, so that the check alone is looked at."""
    assessment = day.session.assess(day.now)
    step = next(step for step in assessment.steps if step.template == "bond-pad")
    block = msgspec.structs.replace(step.blocks[0], id="surface", overrulable=True)
    given = msgspec.structs.replace(step, blocks=(block,))
    monkeypatch.setattr(
        day.session, "assess", lambda now: msgspec.structs.replace(assessment, steps=(given,))
    )
    assert day.refuse(StartStep(step.id)).overrulable == ("surface",)
    assert "a reason" in words_of(day.refuse(OverruleStep(step.id, "surface", " ", "Ann")))
    assert "a name" in words_of(day.refuse(OverruleStep(step.id, "surface", "sheet allows it", "")))
    day.take(OverruleStep(step.id, "surface", "sheet allows 45 °F", "Ann"))
    event = day.session.state.steps[-1]
    assert (event.kind, event.gate, event.name, event.note) == (
        "overruled",
        "surface",
        "Ann",
        "sheet allows 45 °F",
    )


def test_what_is_seen_is_recorded_in_a_step_of_any_state(day):
    day.take(RecordInStep("seen-or-not:rig", {"gas pipe": "not seen"}))
    assert day.session.state.steps[-1].recorded == (("gas pipe", "not seen"),)
    day.refuse(RecordInStep("seen-or-not:rig", {}))
    day.refuse(RecordInStep("no-such:step", {"a": "b"}))
    day.refuse(RecordInStep("seen-or-not:rig", {str(number): "x" for number in range(21)}))


def test_a_day_begins_with_a_stop_ahead_and_ends_once(day):
    day.refuse(EndDay())
    day.refuse(BeginDay(stop_at=START - 1))
    day.take(BeginDay(stop_at=START + 8 * 3600))
    day.take(BeginDay(stop_at=START + 7 * 3600))
    assert len(day.session.state.days) == 1
    assert day.session.state.days[0].stop_at == START + 7 * 3600
    day.take(EndDay())
    day.refuse(EndDay())


# --- punch list ---


def test_an_item_is_written_accepted_or_done(day):
    first = day.take(WriteItem("grommet missing", place="run.gray-feed")).event.id
    second = day.take(WriteItem("look again", weight="note")).event.id
    day.take(AcceptItem(first, "none to be had", "Ann"))
    day.refuse(AcceptItem(first, "again", "Ann"))
    day.take(FinishItem(first))
    day.take(FinishItem(second))
    day.refuse(FinishItem(second))
    assert [item.state for item in day.session.state.items] == ["done", "done"]


@pytest.mark.parametrize(
    "intent",
    [
        WriteItem("x", weight="grave"),
        WriteItem(" \u200b\x07 "),
        WriteItem("x" * 501),
        WriteNote(""),
        WriteNote("y" * 501),
        FinishItem("none"),
        AcceptItem("none", "because", "Ann"),
        AcceptItem("planned:tank.gray.length", "", "Ann"),
        AcceptItem("planned:tank.gray.length", "because", ""),
        TickPart(""),
        TickPart("cut:run.gray-feed", length=-1.0),
        TickPart("cut:run.gray-feed", length=float("nan")),
    ],
)
def test_what_lacks_something_is_refused(day, intent):
    assert words_of(day.refuse(intent))


def test_a_finding_is_accepted_unless_it_has_to_be_mended(day):
    findings = day.session.assess(day.now).findings
    soft = next(finding for finding in findings if finding.acceptable)
    firm = next(finding for finding in findings if not finding.acceptable)
    day.take(AcceptItem(soft.id, "as it is", "Ann"))
    day.refuse(AcceptItem(soft.id, "as it is", "Ann"))
    assert "can't be accepted" in words_of(day.refuse(AcceptItem(firm.id, "as it is", "Ann")))
    accepted = {finding.id: finding.accepted for finding in day.session.assess(day.now).findings}
    assert accepted[soft.id].name == "Ann"
    assert accepted[firm.id] is None


def test_control_characters_never_reach_an_event(day):
    event = day.take(WriteNote("a\x1b[2J\u202eb\u0007 [/x]")).event
    assert event.payload.text == "a[2Jb [/x]"
    assert b"\\u001b" not in event_line(event)


def test_parts_are_ticked_and_unticked_and_the_sheet_is_marked(day):
    day.take(TickPart("cut:run.gray-feed", length=4.2))
    assert day.session.state.ticks[0].length == 4.2
    day.take(TickPart("cut:run.gray-feed", ticked=False))
    assert day.session.state.ticks == ()
    day.take(MarkSheetMade())
    assert day.session.state.sheet_made == day.now


# --- profile ---


def test_a_change_of_the_profile_goes_through_the_files_own_check(day):
    answer = day.refuse(ChangeProfile("design.low", "20"))
    assert answer.faults[0].path == "design.low"
    day.refuse(ChangeProfile("design.lwo", "20 degF"))
    day.refuse(ChangeProfile("nowhere.at.all", 1))
    day.take(ChangeProfile("design.low", "-20 degF"))
    # (-20 − 32)/1.8; one sum and one quotient.
    assert day.session.profile.design.low_degc == pytest.approx((-20 - 32) / 1.8, rel=1e-12)
    assert day.session.document["design"]["low"] == "-20 degF"
    day.take(UndoLast())
    assert day.session.profile == day.session.begun.profile


def test_parts_are_added_and_taken_away_with_the_files_own_check(day):
    drain = {"id": "gray-valve", "tank": "gray", "outside": "3.5 in", "inside": "3 in", "length": "18 in"}
    day.refuse(AddPart("drain", {**drain, "tank": "none"}))
    count = len(day.session.profile.drains)
    day.take(AddPart("drain", {**drain, "id": "second-valve"}))
    assert len(day.session.profile.drains) == count + 1
    day.take(RecordReading("drain.second-valve.length", "18"))
    assert "tank" in words_of(day.refuse(RemovePart("tank", "gray")))
    day.take(RemovePart("drain", "second-valve"))
    assert len(day.session.profile.drains) == count
    day.take(UndoLast())
    assert len(day.session.profile.drains) == count + 1


def test_an_undo_that_would_leave_no_profile_is_refused(day):
    """Copies may have been merged: what is newest by its id need not be what was built last."""
    tank = {
        "id": "extra", "holds": "gray", "shape": "box", "length": "30 in", "width": "20 in", "height": "8 in",
        "place": "open",
    }  # fmt: skip
    drain = {"id": "extra-valve", "tank": "extra", "outside": "3.5 in", "inside": "3 in", "length": "18 in"}
    added = day.take(AddPart("tank", tank)).event
    day.take(AddPart("drain", drain))
    day.take(UndoLast())
    day.take(RedoLast())
    assert "extra" in [each.id for each in day.session.profile.tanks]
    from logic.data.events import Undone
    from logic.session.check_profile import _undo_breaks_profile

    assert _undo_breaks_profile(Undone(added.id), day.session) is not None


# --- undo ---


def test_undo_and_redo_walk_back_and_forth_and_something_new_ends_redo(day):
    for number in range(3):
        day.take(WriteNote(f"note {number}"))
    day.take(UndoLast())
    day.take(UndoLast())
    assert [note.text for note in day.session.state.notes] == ["note 0"]
    day.take(RedoLast())
    assert [note.text for note in day.session.state.notes] == ["note 0", "note 1"]
    day.take(WriteNote("new"))
    day.refuse(RedoLast())
    day.take(UndoLast())
    day.take(UndoLast())
    assert [note.text for note in day.session.state.notes] == ["note 0"]
    day.take(RedoLast())
    day.take(RedoLast())
    assert [note.text for note in day.session.state.notes] == ["note 0", "note 1", "new"]
    day.refuse(RedoLast())


def test_undo_ends_at_the_beginning_of_the_session(day):
    day.take(MarkSheetMade())
    answer = day.refuse(UndoLast())
    assert "nothing to undo" in words_of(answer)


def test_an_undo_says_what_it_took_back(day):
    day.take(RecordReading(LENGTH, "41 3/8"))
    assert fill(day.take(UndoLast()).said, "us") == "undone: reading taken: gray tank, length 41 3/8 in"

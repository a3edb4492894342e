"""Each intent becomes one event or a refusal in words that changes nothing."""

import msgspec
import pytest

from logic.data.profile_file import load_profile
from logic.data.quantities import fill
from logic.data.rigs_folder import rigs_folder
from logic.data.state import Instant
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
    MoveReading,
    OverruleStep,
    RecordInStep,
    RecordReading,
    RedoLast,
    Refused,
    RemovePart,
    SetTape,
    SkipStep,
    StartStep,
    StrikeReading,
    SwapLastTwo,
    TakeBackReading,
    Taken,
    TickPart,
    UndoLast,
    WriteItem,
    WriteNote,
)
from logic.session.kept_session import Session
from logic.session.session import new_session
from tests.crash.faulty_files import QuickFiles
from tests.crash.kept_sessions import START

LENGTH, WIDTH = "tank.gray.length", "tank.gray.width"


class Day:
    """A session and a clock that goes on a minute with each intent, unless said otherwise."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.seconds = 0.0

    @property
    def now(self) -> Instant:
        return Instant(START + self.seconds, -3600)

    def send(self, intent: intents.Intent, *, after: float = 60.0):
        self.seconds += after
        return self.session.act(intent, self.now)

    def take(self, intent: intents.Intent, *, after: float = 60.0) -> Taken:
        answer = self.send(intent, after=after)
        assert isinstance(answer, Taken), words_of(answer)
        return answer

    def refuse(self, intent: intents.Intent, *, after: float = 60.0) -> Refused:
        before = self.session.events[-1].id, self.session.state
        answer = self.send(intent, after=after)
        assert isinstance(answer, Refused), answer
        assert (self.session.events[-1].id, self.session.state) == before
        return answer

    def readings(self, slot: str) -> list[str]:
        return [
            reading.typed
            for reading in self.session.state.readings
            if reading.slot == slot and not reading.struck
        ]

    def step(self, step_id: str):
        return next(step for step in self.session.assess(self.now).steps if step.id == step_id)


def words_of(answer) -> str:
    return " ".join(fill(reason, "us") for reason in (answer.reason, *answer.more))


@pytest.fixture
def day(tmp_path):
    loaded = load_profile(rigs_folder() / "two-tanks.toml")
    session = new_session(loaded, Instant(START, -3600), home=tmp_path, by="Ann", files=QuickFiles())
    yield Day(session)
    session.close()


def test_every_intent_has_its_check():
    declared = {
        kind for kind in vars(intents).values() if isinstance(kind, type) and issubclass(kind, intents.Intent)
    }
    assert declared - {intents.Intent} == set(CHECKS)


# --- readings ---


def test_a_reading_is_kept_as_typed_and_in_si(day):
    event = day.take(RecordReading(LENGTH, " 41 3/8 ")).event
    reading = day.session.state.readings[-1]
    assert (reading.typed, reading.unit, reading.slot, reading.by) == ("41 3/8", "in", LENGTH, "Ann")
    # NIST Handbook 44, app. C: 1 in = 0.0254 m exactly; rounding of one product only.
    assert reading.value == pytest.approx(41.375 * 0.0254, rel=1e-15)
    assert reading.id == event.id
    assert reading.when == day.now


def test_the_same_value_at_once_is_asked_about_as_a_bounced_key(day):
    day.take(RecordReading(LENGTH, "41 3/8"))
    answer = day.refuse(RecordReading(LENGTH, "41.375"), after=5)
    assert answer.ask == intents.CONFIRM
    day.take(RecordReading(LENGTH, "41 1/2"), after=5)
    day.take(RecordReading(LENGTH, "41 3/8"), after=21)
    day.take(RecordReading(LENGTH, "41 3/8", confirmed=True), after=1)
    assert len(day.readings(LENGTH)) == 4


def test_the_same_value_elsewhere_or_after_striking_is_no_bounced_key(day):
    day.take(RecordReading(LENGTH, "24"))
    day.take(RecordReading(WIDTH, "24"), after=1)
    day.take(TakeBackReading(), after=1)
    day.take(RecordReading(WIDTH, "24"), after=1)


@pytest.mark.parametrize("seconds", [20.0, -20.0, -3600.0])
def test_a_bounced_key_is_within_twenty_seconds_either_way(day, seconds):
    day.take(RecordReading(LENGTH, "41 3/8"))
    answer = day.send(RecordReading(LENGTH, "41 3/8"), after=seconds)
    assert isinstance(answer, Refused) == (abs(seconds) <= 20)


def test_a_comma_is_asked_about_with_both_meanings(day):
    answer = day.refuse(RecordReading(LENGTH, "41,375"))
    assert answer.ask == intents.MEANING
    assert answer.examples == ("41.375", "41375")


@pytest.mark.parametrize("typed", ["3' 14\"", "5 9/8", "413/8", "0", "-3", "400 ft", "", "x"])
def test_what_is_no_reading_is_refused_with_examples(day, typed):
    answer = day.refuse(RecordReading(LENGTH, typed))
    assert answer.examples
    assert answer.ask == ""


def test_an_unknown_slot_names_the_nearest(day):
    assert day.refuse(RecordReading("tank.gray.lenght", "41")).examples == (LENGTH,)


def test_a_reading_is_struck_by_its_number_and_stays_in_the_list(day):
    day.take(RecordReading(LENGTH, "41 3/8"))
    day.take(RecordReading(LENGTH, "42"))
    day.take(StrikeReading(slot=LENGTH, number=1))
    assert day.readings(LENGTH) == ["42"]
    assert [reading.struck for reading in day.session.state.readings] == [True, False]
    day.refuse(StrikeReading(slot=LENGTH, number=1))
    day.refuse(StrikeReading(slot=LENGTH, number=3))
    day.refuse(StrikeReading(slot=LENGTH, number=0))
    day.refuse(StrikeReading("no-such-id"))


def test_f2_takes_back_the_last_that_stands_and_undo_brings_it_again(day):
    day.take(RecordReading(LENGTH, "41 3/8"))
    day.take(RecordReading(WIDTH, "24"))
    day.take(TakeBackReading())
    day.take(TakeBackReading())
    assert day.readings(LENGTH) == day.readings(WIDTH) == []
    day.refuse(TakeBackReading())
    day.take(UndoLast())
    assert day.readings(LENGTH) == ["41 3/8"]


def test_a_reading_is_moved_to_where_it_belongs(day):
    taken = day.take(RecordReading(LENGTH, "24")).event
    day.take(MoveReading(taken.id, WIDTH))
    moved = day.session.state.readings[-1]
    assert (moved.slot, moved.moved_from) == (WIDTH, LENGTH)
    day.refuse(MoveReading(taken.id, WIDTH))
    day.refuse(MoveReading(taken.id, "supply.volts"))
    day.refuse(MoveReading(taken.id, "tank.nowhere.length"))
    day.take(MoveReading(taken.id, LENGTH))
    assert day.session.state.readings[-1].moved_from is None


def test_a_reading_that_a_slot_would_refuse_can_not_be_moved_there(day):
    taken = day.take(RecordReading("tank.gray.outlet.x", "0")).event
    assert "over 0" in words_of(day.refuse(MoveReading(taken.id, LENGTH)))


def test_the_last_two_are_swapped_by_one_event(day):
    day.take(RecordReading(LENGTH, "24"))
    day.refuse(SwapLastTwo())
    day.take(RecordReading(WIDTH, "41 3/8"))
    day.take(SwapLastTwo())
    assert (day.readings(LENGTH), day.readings(WIDTH)) == (["41 3/8"], ["24"])
    day.take(UndoLast())
    assert (day.readings(LENGTH), day.readings(WIDTH)) == (["24"], ["41 3/8"])


def test_readings_of_other_kinds_are_not_swapped(day):
    day.take(RecordReading(LENGTH, "41 3/8"))
    day.take(RecordReading("supply.volts", "12.8"))
    day.refuse(SwapLastTwo())


def test_the_tapes_resolution_is_taken_in_its_own_grammar(day):
    day.take(SetTape("1/32"))
    # 1/32 in, exact.
    assert day.session.state.tape == pytest.approx(0.0254 / 32, rel=1e-15)
    day.take(RecordReading(LENGTH, "41 3/8"))
    assert day.session.state.readings[-1].resolution == pytest.approx(0.0254 / 32, rel=1e-15)
    for typed in ("0", "3 ft", "about", "1/16 ± 1/32"):
        assert day.refuse(SetTape(typed)).examples


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
    assert LENGTH in fill(day.take(UndoLast()).said, "us")

"""What is worked out while a reading is still being typed: the same as if it weren't, and never more than that."""

import msgspec
import pytest

from logic.data.state import Instant
from logic.session.foreseen import FORESEEN_FOR
from logic.session.intents import NotSaved, RecordReading, SetTape, StartStep, Taken, UndoLast, WriteNote
from logic.session.session import open_session
from tests.contract.session_day import LENGTH, WIDTH

READ = RecordReading(LENGTH, "41 3/8")


def foresee(day, intent=READ, *, pieces: int | None = None):
    """Have something worked out ahead, to its end or for so many pieces."""
    for number, _ in enumerate(day.session.foresee(intent, day.now), start=1):
        if number == pieces:
            break
    return day.session.foreseen


def test_what_came_true_is_what_is_assessed_without_it(day):
    """Worked out ahead, and worked out by the session as it is opened again: every figure, finding and step alike."""
    day.take(RecordReading(WIDTH, "24"))
    foreseen = foresee(day)
    taken = day.take(READ, after=3.0)
    moment = Instant(taken.event.at, taken.event.offset)
    assert day.session.assess(moment) is foreseen.assessment
    assert day.session.state == foreseen.state
    day.session.close()
    again = open_session(day.session.folder, day.now, home=day.session.folder.parent, read_only=True)
    assert again.events[-1] == foreseen.event
    assert again.assess(moment) == foreseen.assessment


def test_nothing_is_recorded_by_looking_ahead(day):
    events, state = list(day.session.events), day.session.state
    files = {path: path.read_bytes() for path in day.session.folder.iterdir()}
    assert foresee(day) is not None
    assert (list(day.session.events), day.session.state) == (events, state)
    assert {path: path.read_bytes() for path in day.session.folder.iterdir()} == files


def test_a_reading_has_the_time_at_which_it_was_typed_in_full(day):
    foresee(day)
    typed = day.now
    taken = day.take(READ, after=FORESEEN_FOR)
    assert taken.event.at == typed.at


def test_after_some_seconds_it_has_the_time_of_enter(day):
    foresee(day)
    taken = day.take(READ, after=FORESEEN_FOR + 0.1)
    assert taken.event.at == day.now.at
    assert day.session.assess(day.now).now == day.now


def test_a_clock_that_went_back_meanwhile_takes_up_nothing(day):
    foresee(day)
    taken = day.take(READ, after=-1.0)
    assert taken.event.at == day.now.at


def test_another_reading_than_foreseen_is_taken_as_it_is(day):
    foreseen = foresee(day)
    taken = day.take(RecordReading(LENGTH, "41 1/2"), after=1.0)
    assert taken.event.id != foreseen.event.id
    assert day.session.state.readings[-1].typed == "41 1/2"
    views = {view.slot: view for view in day.session.assess(day.now).slots}
    assert views[LENGTH].value == pytest.approx(41.5 * 0.0254, rel=1e-15)


@pytest.mark.parametrize(
    "between",
    [RecordReading(WIDTH, "24"), WriteNote("a stone"), SetTape("1 mm"), StartStep("chocks:rig")],
    ids=lambda intent: type(intent).__name__,
)
def test_whatever_is_recorded_in_between_makes_it_void(day, between):
    foreseen = foresee(day)
    before = day.take(between, after=1.0)
    assert day.session.foreseen is None
    taken = day.take(READ, after=1.0)
    assert taken.event.id not in (foreseen.event.id, before.event.id)
    assert taken.event.id > before.event.id
    assert day.session.assess(day.now).now == day.now


def test_an_undo_in_between_makes_it_void(day):
    day.take(RecordReading(LENGTH, "40"))
    foreseen = foresee(day)
    day.take(UndoLast(), after=1.0)
    day.take(READ, after=1.0)
    assert [reading.typed for reading in day.session.state.readings] == ["41 3/8"]
    assert day.session.assess(day.now) is not foreseen.assessment


def test_events_of_a_copy_taken_in_between_make_it_void(day):
    """Even where they come before the last event, so that this one stays the last."""
    note = day.take(WriteNote("a stone")).event
    day.take(RecordReading(WIDTH, "24"))
    foreseen = foresee(day)
    older = msgspec.structs.replace(note, id=f"{note.id[:-1]}~")
    assert day.session.take_in([older]) == 1
    assert day.session.foreseen is None
    day.take(READ, after=1.0)
    assert day.session.assess(day.now) is not foreseen.assessment
    assert len(day.session.state.notes) == 2


def test_looking_ahead_that_was_left_half_way_leaves_nothing(day):
    foresee(day, pieces=40)
    assert day.session.foreseen is None
    assert day.take(READ, after=1.0).event.at == day.now.at


def test_looking_ahead_during_which_something_is_recorded_leaves_nothing(day):
    pieces = day.session.foresee(READ, day.now)
    for _ in range(40):
        next(pieces)
    day.take(RecordReading(WIDTH, "24"), after=1.0)
    assert list(pieces)
    assert day.session.foreseen is None


@pytest.mark.parametrize(
    "intent",
    [RecordReading(LENGTH, "41,375"), RecordReading("tank.none.length", "3"), WriteNote("a stone")],
    ids=["unclear", "no slot", "no reading"],
)
def test_what_is_no_reading_is_not_looked_at_ahead(day, intent):
    assert foresee(day, intent) is None


def test_one_who_looks_on_foresees_nothing(day):
    onlooker = open_session(day.session.folder, day.now, home=day.session.folder.parent)
    assert list(onlooker.foresee(READ, day.now)) == []
    assert onlooker.foreseen is None


def test_what_cannot_be_saved_is_not_in_the_session_however_well_foreseen(day, monkeypatch):
    stood = day.session.state
    foreseen = foresee(day)
    monkeypatch.setattr(day.session._store, "append", _full)
    answer = day.send(READ, after=1.0)
    assert isinstance(answer, NotSaved)
    assert day.session.state == stood
    assert day.session.assess(day.now) is not foreseen.assessment
    monkeypatch.undo()
    (saved,) = day.session.save_again(day.now)
    assert isinstance(saved, Taken)
    assert saved.event == foreseen.event
    assert day.session.state.readings[-1].id == foreseen.event.id


def _full(events):
    raise OSError(28, "No space left on device")

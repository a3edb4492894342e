"""Readings: what is taken, struck, moved and swapped, and what is refused with words."""

import pytest

from logic.data.quantities import fill
from logic.data.typed_text import typed_with_unit
from logic.session import intents
from logic.session.intents import (
    MoveReading,
    RecordReading,
    RedoLast,
    Refused,
    SetTape,
    StrikeReading,
    SwapLastTwo,
    TakeBackReading,
    UndoLast,
)
from tests.contract.session_day import LENGTH, WIDTH, words_of


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


@pytest.mark.parametrize(
    ("typed", "forms"),
    [("413/8", "41 3/8 or 51 5/8"), ("3' 14\"", "4' 2\""), ("5 9/8", "6 1/8")],
)
def test_what_was_probably_meant_is_asked_and_is_no_example(day, typed, forms):
    answer = day.refuse(RecordReading(LENGTH, typed))
    assert words_of(answer).endswith(f"was {forms} meant? Type it so")
    assert (answer.examples, answer.ask) == ((), "")


@pytest.mark.parametrize("typed", ["0", "-3", "400 ft", "", "x"])
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


@pytest.mark.parametrize("typed", ["OL", "open", "> 20 MΩ"])
def test_leads_that_show_open_when_touched_together_are_refused(day, typed):
    said = words_of(day.refuse(RecordReading("meter.leads", typed)))
    assert said.startswith(f"leads touched together that show {typed}: the leads or the meter are broken")
    assert "nothing measured with them counts" in said
    assert day.refuse(RecordReading("meter.leads", "none")).examples == ("0.20", "200 mΩ")
    day.take(RecordReading("meter.leads", "200 mΩ"))
    day.take(RecordReading("run.gray-feed.isolation", typed))


def test_an_open_circuit_is_not_moved_or_swapped_into_the_leads(day):
    day.take(RecordReading("meter.leads", "0.2"))
    isolation = day.take(RecordReading("run.gray-feed.isolation", "OL")).event.id
    assert "broken" in words_of(day.refuse(MoveReading(isolation, "meter.leads")))
    assert "broken" in words_of(day.refuse(SwapLastTwo()))


def test_what_is_struck_moved_undone_and_done_again_is_said_with_its_unit(day):
    taken = day.take(RecordReading(LENGTH, "38 1/2"))
    assert fill(taken.said, "us") == "gray tank, length 38 1/2 in"
    assert fill(day.take(MoveReading(taken.event.id, WIDTH)).said, "us") == (
        "moved: 38 1/2 in from gray tank, length to gray tank, width"
    )
    assert fill(day.take(UndoLast()).said, "us") == "undone: reading moved: gray tank, width 38 1/2 in"
    assert fill(day.take(TakeBackReading()).said, "us") == "struck: gray tank, length 38 1/2 in"
    assert fill(day.take(UndoLast()).said, "us") == "undone: reading struck: gray tank, length 38 1/2 in"
    assert fill(day.take(RedoLast()).said, "us") == "done again: reading struck: gray tank, length 38 1/2 in"
    day.take(RecordReading("run.gray-feed.length", "11"))
    day.take(RecordReading("heater.gray-pad.resistance", "2.40"))
    assert fill(day.take(UndoLast()).said, "us") == "undone: reading taken: pad gray-pad, resistance 2.40 Ω"
    assert fill(day.take(UndoLast()).said, "us") == "undone: reading taken: run gray-feed, length 11 ft"


@pytest.mark.parametrize(
    ("typed", "unit", "said"),
    [
        ("41 3/8", "in", "41 3/8 in"), ("41⅜", "in", "41⅜ in"), ("41 3/8\"", "in", "41 3/8\""), ("OL", "Ω", "OL"),
        ("> 20", "MΩ", "> 20 MΩ"), ("105.1 cm", "cm", "105.1 cm"), ("55", "°F", "55 °F"), ("40 %", "%", "40 %"),
        ("41 3/8 ± 1/32", "in", "41 3/8 ± 1/32 in"), ("24", "", "24"),
    ],
)  # fmt: skip
def test_a_bare_number_is_said_with_the_unit_in_which_it_was_read(typed, unit, said):
    assert typed_with_unit(typed, unit) == said

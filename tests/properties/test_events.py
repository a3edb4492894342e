"""Events as a set: read back as written, folded to the same state in any order, undone and done again."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logic.data.events import Event, Undone
from logic.session.event_ids import are_ids, next_id
from logic.session.event_lines import LineFault, event_line, read_line
from logic.session.fold import Fold, fold
from logic.session.merge import missing_from, union
from logic.session.seal import seal_holds, sealed
from logic.session.undo import is_undoable, next_redo, next_undo, undone_ids
from tests.properties.event_strategies import START, histories


def stored(events: list[Event]) -> list[bytes]:
    return [event_line(event) for event in events]


@given(histories())
def test_an_event_is_read_back_as_it_was_written(events):
    for event in events:
        assert read_line(event_line(event)) == event


@given(histories(), st.data())
def test_the_union_hangs_on_no_order_and_counts_nothing_twice(events, data):
    shuffled = data.draw(st.permutations(events + events[: len(events) // 2]))
    assert stored(union(shuffled)) == stored(events)


@given(histories(), st.data())
def test_parts_in_any_order_come_to_the_same_state(events, data):
    parts = data.draw(st.lists(st.sets(st.sampled_from(range(len(events) or 1))), min_size=1, max_size=4))
    several = [[events[place] for place in part if place < len(events)] for part in parts]
    several.append(events)
    several = data.draw(st.permutations(several))
    assert fold(union(*several)) == fold(events)


@given(histories(), histories(writers=("cccccccc", "dddddddd")))
def test_a_merge_is_the_same_from_either_side(ours, theirs):
    assert stored(union(ours, theirs)) == stored(union(theirs, ours))
    assert stored(union(ours, missing_from(ours, theirs))) == stored(union(ours, theirs))
    assert stored(union(union(ours, theirs), ours)) == stored(union(ours, theirs))


@given(histories())
def test_one_by_one_comes_to_the_same_as_all_at_once(events):
    taken = Fold()
    for number, event in enumerate(events):
        if not taken.add(event):
            assert isinstance(event.payload, Undone)
            taken = Fold(events[: number + 1])
        assert taken.state() == fold(events[: number + 1])


@given(histories())
def test_an_event_that_was_undone_is_as_if_it_had_never_been(events):
    gone = undone_ids(events)
    kept = [event for event in events if event.id not in gone and not isinstance(event.payload, Undone)]
    assert fold(events) == fold(kept)


def followed_by(events: list[Event], payload: Undone) -> list[Event]:
    event_id = next_id(events[-1].id if events else "", START, "cccccccc")
    return [*events, Event(event_id, START, 0, "c", payload)]


@given(histories())
def test_undo_then_redo_is_the_identity_on_state(events):
    target = next_undo(events)
    if target is None:
        return
    undone = followed_by(events, Undone(target.id))
    assert target.id in undone_ids(undone)
    redo = next_redo(undone)
    assert redo
    again = followed_by(undone, Undone(redo[0], tuple(redo[1:])))
    assert fold(again) == fold(events)
    assert next_undo(again) == target


@given(histories())
def test_undo_walks_back_over_everything_that_stands_and_redo_forth(events):
    before = fold(events)
    gone = undone_ids(events)
    standing = [event.id for event in events if is_undoable(event) and event.id not in gone]
    walked, steps = list(events), len(standing)
    while (target := next_undo(walked)) is not None:
        assert target.id == standing.pop()
        walked = followed_by(walked, Undone(target.id))
    assert standing == []
    assert fold(walked).readings == ()
    for _ in range(steps):
        redo = next_redo(walked)
        walked = followed_by(walked, Undone(redo[0], tuple(redo[1:])))
    assert fold(walked) == before


@given(histories())
def test_what_is_undone_next_stands_and_what_is_redone_is_an_undo(events):
    target, redo, gone = next_undo(events), next_redo(events), undone_ids(events)
    by_id = {event.id: event for event in events}
    if target is not None:
        assert target.id not in gone
    for undo in redo:
        assert isinstance(by_id[undo].payload, Undone)
        assert undo not in gone


@given(st.lists(st.tuples(st.floats(-1e12, 1e13), st.sampled_from(["aaaaaaaa", "ffffffff"])), max_size=60))
def test_ids_never_run_backwards_whatever_the_clock_says(moments):
    last = ""
    for at, writer in moments:
        made = next_id(last, at, writer)
        assert made > last
        assert are_ids([made])
        last = made


@given(st.binary(max_size=60), st.data())
def test_a_seal_finds_every_changed_byte(extra, data):
    record = sealed(b'{"text":"%s"}' % extra.hex().encode())
    assert seal_holds(record)
    place = data.draw(st.integers(0, len(record) - 1))
    other = data.draw(st.integers(0, 255).filter(lambda value: value != record[place]))
    changed = record[:place] + bytes([other]) + record[place + 1 :]
    # A changed name of the field `sum` leaves a record without a seal, its contents untouched.
    in_name = record.rindex(b'"sum":') <= place < record.rindex(b'"sum":') + 5
    assert not seal_holds(changed) or in_name


@given(st.binary(max_size=300))
def test_any_bytes_are_refused_in_words(line):
    with pytest.raises(LineFault, match=r"\w"):
        read_line(line)

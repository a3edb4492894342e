"""Agreement of readings against every subset tried, and what must hold of any readings."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logic.assessment.agreement import (
    AGREED,
    IN_DISPUTE,
    MOST_APART,
    MOST_COUNTED,
    SINGLE,
    agreement,
    agreement_limit,
)
from logic.assessment.readings import slot_views, walking_order, with_readings
from logic.data.state import Instant, Reading, State
from tests.rig_builder import INCH, heater, profile, run, tank

SLACK = 1e-9

# sixteenths of an inch around 41 in, by up to three tapes
reading = st.tuples(
    st.integers(0, 12).map(lambda marks: (41 + marks / 16) * INCH), st.sampled_from([0.065, 0.0955, 0.3])
)
one_tape = st.lists(st.integers(0, 12), min_size=1, max_size=9).map(
    lambda marks: [((41 + mark / 16) * INCH, 0.065) for mark in marks]
)
several = st.one_of(one_tape, st.lists(reading, min_size=1, max_size=9))


def split(taken: list[tuple[float, float]]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    return tuple(value for value, _ in taken), tuple(u * INCH for _, u in taken)


def agree(values: tuple[float, ...], us: tuple[float, ...], places: tuple[int, ...]) -> bool:
    return all(
        abs(values[one] - values[other]) <= agreement_limit(us[one], us[other]) + SLACK
        for one, other in combinations(places, 2)
    )


def tried(values: tuple[float, ...], us: tuple[float, ...]) -> tuple[int, ...]:
    """The largest set that agrees pairwise, the newest on a tie: every subset looked at."""
    everything = range(len(values))
    for size in range(len(values), 0, -1):
        sets = [places for places in combinations(everything, size) if agree(values, us, places)]
        if sets:
            return max(sets, key=lambda places: places[::-1])
    raise AssertionError("a single reading always agrees")


@settings(max_examples=400, deadline=None, derandomize=True, database=None)
@given(several)
def test_largest_agreeing_set_is_that_of_every_subset_tried(taken: list[tuple[float, float]]) -> None:
    values, us = split(taken)
    found = agreement(values, us)
    members = tried(values, us)
    assert found.members == members
    # design rule · mean of the set, the largest u of the set · rel 1e-12: arithmetic
    assert abs(found.value - sum(values[place] for place in members) / len(members)) < 1e-12
    largest = max(us[place] for place in members)
    if len(values) == 1:
        assert found.state == SINGLE
    elif len(members) == 1 or members[-1] != len(values) - 1:
        assert found.state == IN_DISPUTE
        assert found.u == max(largest, (max(values) - min(values)) / 2)
    else:
        assert found.state == AGREED
        assert found.u == largest


@settings(max_examples=200, deadline=None, derandomize=True, database=None)
@given(several)
def test_the_same_reading_by_the_same_tape_never_begins_a_dispute(taken: list[tuple[float, float]]) -> None:
    values, us = split(taken)
    before = agreement(values, us)
    again = before.members[-1]
    after = agreement((*values, values[again]), (*us, us[again]))
    if before.state != IN_DISPUTE:
        assert after.state == AGREED
        assert len(after.members) == len(before.members) + 1


@settings(max_examples=200, deadline=None, derandomize=True, database=None)
@given(several)
def test_value_lies_among_its_readings_and_u_is_never_less_than_one_readings(
    taken: list[tuple[float, float]],
) -> None:
    values, us = split(taken)
    found = agreement(values, us)
    assert min(values) - 1e-12 <= found.value <= max(values) + 1e-12
    assert found.u >= min(us)


def full_rig() -> tuple:
    tanks = tuple(tank(f"t{number}") for number in range(4))
    heaters = tuple(heater(f"h{number}", on=f"t{number % 4}") for number in range(6))
    return profile(tanks=tanks, heaters=heaters, runs=tuple(run(f"r{number}") for number in range(6)))


def test_thousands_of_readings_are_all_laid_out() -> None:
    rig = full_rig()
    slots = [view.slot for view in slot_views(rig, State()) if view.own_unit == "in"][:60]
    taken = tuple(
        Reading(
            f"r{number:05}",
            slots[number % len(slots)],
            "",
            (10 + number % 7 / 16) * INCH,
            Instant(number),
            resolution=(INCH / 16, 0.001)[number % 2],
        )
        for number in range(2000)
    )
    state = State(readings=taken)
    slot_views(rig, state)
    more = State(
        readings=(*taken, Reading("r9", slots[0], "", 10 * INCH, Instant(1e4), resolution=INCH / 16))
    )
    views = slot_views(rig, more)
    walking_order(views, more)
    with_readings(rig, views)
    assert sum(len(view.readings) for view in views) == len(more.readings)


def test_of_very_many_readings_of_a_slot_the_newest_make_its_value() -> None:
    rig = full_rig()
    slot = next(view.slot for view in slot_views(rig, State()) if view.own_unit == "in")
    taken = tuple(
        Reading(
            f"r{number:05}", slot, "", (41 + number // 4900) * INCH, Instant(number), resolution=INCH / 16
        )
        for number in range(5000)
    )
    (view,) = (view for view in slot_views(rig, State(readings=taken)) if view.readings)
    assert len(view.readings) == 5000
    assert view.state == AGREED
    assert view.value == pytest.approx(42 * INCH)


def test_more_readings_than_count_are_refused() -> None:
    with pytest.raises(ValueError, match="over 100 readings"):
        agreement((1.0,) * (MOST_COUNTED + 1), (0.001,) * (MOST_COUNTED + 1))


@settings(max_examples=50, deadline=None, derandomize=True, database=None)
@given(st.data())
def test_as_many_as_count_on_as_many_tapes_make_a_set_that_agrees(data: st.DataObject) -> None:
    """The largest set isn't searched for among so many; one that agrees pairwise is found all the same."""
    number = st.floats(0.0, 1.0)
    taken = data.draw(st.lists(st.tuples(number, number), min_size=MOST_COUNTED, max_size=MOST_COUNTED))
    values = tuple(41 * INCH + 0.02 * value for value, _ in taken)
    us = tuple(0.0005 + 0.01 * u for _, u in taken)
    found = agreement(values, us)
    assert agree(values, us, found.members)
    assert found.members == tried_windows(values, min(us)) or len(set(taken)) <= MOST_APART


def tried_windows(values: tuple[float, ...], u: float) -> tuple[int, ...]:
    """The largest set within the limit of one tape, the newest on a tie: from every reading up."""
    limit = agreement_limit(u, u) + SLACK
    sets = [
        tuple(place for place, value in enumerate(values) if 0.0 <= value - lowest <= limit)
        for lowest in values
    ]
    return max(sets, key=lambda places: (len(places), places[::-1]))

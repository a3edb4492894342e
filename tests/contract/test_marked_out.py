"""A pad marked out by one coordinate only: the other is as the program would place it beside all that is known."""

import pytest

from logic.assessment.fit_case import places
from logic.assessment.measured import with_readings
from logic.assessment.readings import slot_views
from logic.data.profile import Position
from logic.data.state import Instant, Reading, State
from tests.rig_builder import INCH, heater, profile, run, tank

WIDE = tank(length=48 * INCH, width=30 * INCH)


def measured(rig, **marks):
    """The rig with pads marked out, in inches: `a_x=10` is heater.a.x."""
    taken = tuple(
        Reading(
            name, f"heater.{name.replace('_', '.')}", f"{value}", value * INCH, Instant(60.0 * place),
            resolution=INCH / 16, unit="in",
        )
        for place, (name, value) in enumerate(marks.items())
    )  # fmt: skip
    return with_readings(rig, slot_views(rig, State(readings=taken)))


def pad(rig, name):
    return next(one for one in rig.heaters if one.id == name)


def test_the_other_coordinate_is_beside_a_pad_that_was_marked_out_both_ways():
    rig = profile(tanks=(WIDE,), heaters=(heater("a"), heater("b")), runs=(run(feeds=("a", "b")),))
    planned = places(rig)
    a = measured(rig, a_x=planned["b"].x / INCH, a_y=planned["b"].y / INCH)  # where b was meant to lie
    free = places(a)["b"]
    assert (free.x, free.y) != (planned["b"].x, planned["b"].y)
    corner = {"a_x": planned["b"].x / INCH, "a_y": planned["b"].y / INCH}
    b = pad(measured(rig, **corner, b_y=free.y / INCH + 0.5), "b")
    assert b.at.y == pytest.approx(free.y + 0.5 * INCH, rel=1e-12)
    assert (b.at.x, b.turned) == (free.x, free.turned)


def test_a_mark_counts_where_a_pad_with_a_place_in_the_profile_was_bonded_elsewhere():
    # as planned the first pad leaves no room for the second; where it was marked out it does
    narrow = tank(length=48 * INCH, width=16 * INCH)
    first = heater("a", length=20 * INCH, at=Position(14 * INCH, 2 * INCH))
    rig = profile(
        tanks=(narrow,), heaters=(first, heater("b", length=20 * INCH)), runs=(run(feeds=("a", "b")),)
    )
    assert pad(measured(rig, b_x=24.0), "b").at is None
    b = pad(measured(rig, a_x=1.0, b_x=24.0), "b")
    assert b.at.x == pytest.approx(24 * INCH, rel=1e-12)
    assert b.at.y == places(measured(rig, a_x=1.0))["b"].y

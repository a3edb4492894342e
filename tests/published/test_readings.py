"""Uncertainty and agreement of readings, what is owed, and what contradicts."""

from collections.abc import Iterable

import msgspec
import pytest

from logic.assessment.agreement import agreement, agreement_limit
from logic.assessment.readings import (
    is_bounce,
    is_far_from_plan,
    slot_views,
    uncertainty_of,
    walking_order,
    with_readings,
)
from logic.data.profile import Keepout, Outlet, Position, Profile, Rig
from logic.data.state import Instant, Reading, SlotView, State
from logic.physics.uncertainty import (
    chance_above_zero,
    combined,
    from_half_width,
    from_resolution,
    of_reading,
)
from tests.rig_builder import INCH, bay, drain, heater, profile, run, tank

SIXTEENTH = INCH / 16


def readings(*taken: tuple[str, float], resolution: float = SIXTEENTH, unit: str = "in") -> State:
    """A state with readings one minute apart, lengths in inches."""
    return State(
        readings=tuple(
            Reading(
                id=f"r{place:04}",
                slot=slot,
                typed=f"{value}",
                value=value * INCH,
                when=Instant(60.0 * place),
                resolution=resolution,
                unit=unit,
            )
            for place, (slot, value) in enumerate(taken)
        )
    )


def views_of(rig: Profile, state: State | None) -> dict[str, SlotView]:
    return {view.slot: view for view in slot_views(rig, state, Instant(0.0))}


BOX = profile(tanks=(tank(),))
CYLINDER = profile(tanks=(tank(shape="cylinder", length=30.5 * INCH, width=16.5 * INCH, height=16.5 * INCH),))
SLOPE = profile(
    tanks=(tank(shape="slope", length=36.5 * INCH, width=20.5 * INCH, height=12.5 * INCH, fall=2 * INCH),)
)
LENGTH = "tank.galley.length"


def test_uncertainty_of_one_reading() -> None:
    # G1 · JCGM 100, 4.3.7, 5.1.2 · MEMORY, COMPUTED · rel 1e-6: printed digits
    assert from_resolution(1 / 16) == pytest.approx(0.0180422, rel=1e-5)
    assert of_reading(1 / 16, repeatability=1 / 16) == pytest.approx(0.0650521, rel=1e-6)
    u = of_reading(SIXTEENTH, repeatability=SIXTEENTH)
    assert agreement_limit(u, u) == pytest.approx(0.1839950 * INCH, rel=1e-6)


@pytest.mark.parametrize(
    ("resolution", "unit", "wall", "metres"),
    [
        (0.001, "mm", False, 1.613533e-3),
        (None, "mm", False, 1.613533e-3),
        (0.002, "mm", False, 1.689228e-3),
        (INCH / 4, "in", False, 0.0954703 * INCH),
        (SIXTEENTH, "in", True, 0.0238676 * INCH),
        (None, "in", True, 0.0238676 * INCH),
        (0.001, "mm", True, 0.4907577e-3),
    ],
)
def test_uncertainty_by_tape_and_by_slot(
    resolution: float | None, unit: str, wall: bool, metres: float
) -> None:
    reading = Reading("r", LENGTH, "", 1.0, Instant(0.0), resolution=resolution, unit=unit)
    # G2 · JCGM 100, 4.3.7, 5.1.2 · MEMORY, COMPUTED · rel 1e-6: printed digits
    assert uncertainty_of(reading, wall=wall) == pytest.approx(metres, rel=2e-6)


def test_the_guides_own_example() -> None:
    # G3 · JCGM 100, 4.3.7 example 1 · MEMORY · rel 5e-3: the Guide prints two digits
    assert from_half_width(0.40e-6) == pytest.approx(0.2309e-6, rel=5e-3)


def test_first_order_uncertainty_of_a_volume() -> None:
    u, u_wall = 0.0650521, 0.0238676
    inside = (40.875, 23.5, 8.5)
    volume = inside[0] * inside[1] * inside[2]
    slopes = [volume / side / 231 for side in inside]
    # G4 · JCGM 100, 5.1.2 · COMPUTED · rel 1e-5: printed digits
    assert combined(*(slope * u for slope in slopes)) == pytest.approx(0.293104, rel=1e-5)
    wall = 2 * sum(slopes) * u_wall
    assert combined(*(slope * u for slope in slopes), wall) == pytest.approx(0.427769, rel=1e-5)


def test_third_reading_settles_a_dispute() -> None:
    two = views_of(BOX, readings((LENGTH, 41.375), (LENGTH, 41.75)))[LENGTH]
    # G5 · design rule · exact; u 1e-6
    assert two.state == "in dispute"
    assert two.value == pytest.approx(41.75 * INCH, rel=1e-12)
    assert two.u == pytest.approx(0.1875 * INCH, rel=1e-6)
    assert two.owed == 1
    three = views_of(BOX, readings((LENGTH, 41.375), (LENGTH, 41.75), (LENGTH, 41.3125)))[LENGTH]
    assert three.state == "agreed"
    assert three.value == pytest.approx(41.34375 * INCH, rel=1e-12)
    assert three.u == pytest.approx(0.0650521 * INCH, rel=1e-6)
    assert three.owed == 0


def test_repeats_by_one_hand_share_their_error() -> None:
    view = views_of(BOX, readings((LENGTH, 41.375), (LENGTH, 41.4375)))[LENGTH]
    # G6 · design rule · rel 1e-6: printed digits; not u/√2
    assert view.state == "agreed"
    assert view.value == pytest.approx(41.40625 * INCH, rel=1e-12)
    assert view.u == pytest.approx(0.0650521 * INCH, rel=1e-6)


def test_newest_reading_outside_the_set_is_a_dispute() -> None:
    view = views_of(BOX, readings((LENGTH, 41.0), (LENGTH, 41.0), (LENGTH, 42.0)))[LENGTH]
    # design rule · exact: largest set, but it lacks the newest; u is half the spread
    assert view.state == "in dispute"
    assert view.value == pytest.approx(41.0 * INCH, rel=1e-12)
    assert view.u == pytest.approx(0.5 * INCH, rel=1e-12)


def test_readings_an_eighth_apart_agree_on_any_tape() -> None:
    fine = readings(("tank.galley.wall", 0.25), ("tank.galley.wall", 0.375), resolution=INCH / 64)
    # design rule · exact: 2·√2·u is under 1/8 in here
    assert views_of(BOX, fine)["tank.galley.wall"].state == "agreed"


def test_cylinder_has_one_slot_for_its_diameter() -> None:
    height = "tank.galley.height"
    state = readings((LENGTH, 30.5), (height, 16.375))
    views = slot_views(CYLINDER, state, Instant(0.0))
    by_id = {view.slot: view for view in views}
    # G7 · design rule · exact
    assert "tank.galley.width" not in by_id
    assert by_id[LENGTH].owed == by_id[height].owed == 1
    measured = with_readings(CYLINDER, views).tanks[0]
    assert measured.width == measured.height == pytest.approx(16.375 * INCH, rel=1e-12)


def test_what_never_owes() -> None:
    rig = profile(
        tanks=(
            tank(
                shape="slope",
                fall=INCH,
                outlet=Outlet(0.9, 0.3, 0.076),
                keepout=(Keepout(0.1, 0.0, 0.05, 0.3, "rib"),),
            ),
        ),
        drains=(drain(),),
        heaters=(heater(), heater("warm", on="galley-valve", face="wrap")),
        runs=(run(), run("short", length=0.0)),
    )
    owed = {view.slot: view.owed for view in slot_views(rig, State(), Instant(0.0)) if view.owed}
    # G7 and design rule · exact: what decides wants two; wall, level and keep-outs never owe
    assert owed == dict.fromkeys(
        [
            LENGTH, "tank.galley.width", "tank.galley.height", "tank.galley.fall", "tank.galley.outlet.x",
            "tank.galley.outlet.y", "heater.galley-a.length", "heater.galley-a.width", "run.feed.length",
        ],
        2,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("planned", "value", "far"),
    [(24.0, 26.5, True), (24.0, 26.25, False), (9.0, 9.95, False), (9.0, 10.1, True), (0.0, 1.5, True)],
)
def test_far_from_plan(planned: float, value: float, far: bool) -> None:
    # G8 · design rule · exact: over 10 % and over 1 in
    assert is_far_from_plan(value * INCH, planned * INCH) is far


def test_far_from_plan_by_its_sign() -> None:
    assert is_far_from_plan(-12.8, 12.8, kind="volts")
    assert not is_far_from_plan(10.0, 12.8, kind="volts")
    assert not is_far_from_plan(10.0, None)


def test_chance_that_a_clearance_is_there() -> None:
    chances = [chance_above_zero(z, u=1.0) for z in (0.0, 0.5, 1.0, 1.5, 2.0)]
    # U1 · Φ, COMPUTED · abs 5e-7: printed digits
    assert chances == pytest.approx([0.5, 0.691462, 0.841345, 0.933193, 0.977250], abs=5e-7)
    assert chance_above_zero(1e-9, u=0.0) == 1.0
    assert chance_above_zero(-1e-9, u=0.0) == 0.0


# --- what counts ---


def test_struck_readings_do_not_count_and_moved_ones_count_where_they_are() -> None:
    state = readings((LENGTH, 24.0), (LENGTH, 41.375))
    wrong, right = state.readings
    moved = msgspec.structs.replace(wrong, slot="tank.galley.width", moved_from=LENGTH)
    views = views_of(BOX, State(readings=(moved, right)))
    assert views[LENGTH].state == views["tank.galley.width"].state == "single"
    struck = msgspec.structs.replace(wrong, struck=True)
    assert views_of(BOX, State(readings=(struck, right)))[LENGTH].readings == (right,)
    # a slot that the profile no longer has
    gone = msgspec.structs.replace(wrong, slot="tank.gone.length")
    assert "tank.gone.length" not in views_of(BOX, State(readings=(gone,)))


def test_of_a_meter_the_newest_counts_and_nothing_is_disputed() -> None:
    def volts(*values: float) -> SlotView:
        taken = tuple(
            Reading(f"r{place}", "supply.volts", "", value, Instant(place))
            for place, value in enumerate(values)
        )
        return views_of(BOX, State(readings=taken))["supply.volts"]

    assert volts().state == "planned"
    assert volts().value == 12.8
    assert (volts(12.1, 13.9).state, volts(12.1, 13.9).value, volts(12.1).u) == ("read", 13.9, None)
    state = State(readings=(Reading("r", "supply.volts", "", 11.0, Instant(0.0)),))
    assert with_readings(BOX, slot_views(BOX, state)) is BOX


def test_planned_slots_without_a_session() -> None:
    views = slot_views(BOX, None)
    assert {view.state for view in views} == {"planned", "not read"}
    assert all(view.u is None for view in views)
    assert (
        views_of(profile(rig=Rig(name="m", units="metric"), tanks=(tank(),)), None)[LENGTH].own_unit == "mm"
    )


def test_profile_with_readings_in_place() -> None:
    rig = profile(
        tanks=(
            tank(outlet=Outlet(38 * INCH, 12 * INCH, 3 * INCH), keepout=(Keepout(0.1, 0, 0.05, 0.3, "rib"),)),
        ),
        drains=(drain(),),
        heaters=(heater(at=Position(20 * INCH, 6 * INCH)), heater("b")),
        runs=(run(), run("other")),
    )
    taken = {
        LENGTH: 41.0, "tank.galley.wall": 0.2, "tank.galley.outlet.y": 11.0,
        "tank.galley.keepout.1.width": 13.0,
        "drain.galley-valve.outside": 3.6, "heater.galley-a.width": 11.5, "heater.galley-a.x": 21.0,
        "run.feed.length": 80.0, "run.feed.fuse_at": 7.0,
    }  # fmt: skip
    measured = with_readings(rig, slot_views(rig, readings(*taken.items())))
    one = measured.tanks[0]
    assert one.outlet is not None
    found = (
        one.length, one.wall, one.outlet.y, one.keepout[0].width, measured.drains[0].outside,
        measured.heaters[0].width, measured.heaters[0].at.x,
        measured.runs[0].length, measured.runs[0].fuse_at,
    )  # fmt: skip
    assert found == pytest.approx([value * INCH for value in taken.values()], rel=1e-12)
    assert measured.heaters[0].at.y == 6 * INCH
    assert one.outlet.x == 38 * INCH
    # what no reading touches stays the same struct
    assert measured.runs[1] is rig.runs[1]
    assert measured.heaters[1] is rig.heaters[1]
    assert measured.design is rig.design


def test_marked_out_place_keeps_the_way_round_of_the_program() -> None:
    # 12 in wide between its margins only if it lies across
    rig = profile(tanks=(tank(length=16 * INCH, width=30 * INCH),), heaters=(heater(),))
    state = readings(("heater.galley-a.x", 2.0))
    marked = with_readings(rig, slot_views(rig, state)).heaters[0]
    assert marked.turned
    assert marked.at is not None
    assert marked.at.x == pytest.approx(2 * INCH, rel=1e-12)


# --- contradictions ---


def impossible(rig: Profile, taken: Iterable[tuple[str, float]]) -> set[str]:
    views = slot_views(rig, readings(*taken))
    measured = with_readings(rig, views)
    assert measured.rig == rig.rig
    return {view.slot for view in views if view.impossible}


def test_readings_that_contradict_another_value_are_named() -> None:
    rig = profile(tanks=(tank(),), drains=(drain(),))
    assert impossible(rig, [("drain.galley-valve.outside", 3.0)]) == {"drain.galley-valve.outside"}
    assert impossible(rig, [("drain.galley-valve.outside", 3.1)]) == set()
    assert impossible(rig, [("tank.galley.wall", 4.5)]) == {"tank.galley.wall"}
    assert impossible(rig, [("tank.galley.height", 0.5)]) == {"tank.galley.height"}
    assert impossible(rig, [("tank.galley.height", 8.0), ("tank.galley.wall", 4.0)]) == {
        "tank.galley.height",
        "tank.galley.wall",
    }
    assert impossible(SLOPE, [("tank.galley.fall", 12.0)]) == {"tank.galley.fall"}
    assert impossible(rig, [("tank.galley.level", 8.6)]) == {"tank.galley.level"}
    assert impossible(rig, [("tank.galley.level", 8.5)]) == set()


def test_tanks_too_large_for_their_bay_are_named() -> None:
    rig = profile(bays=(bay(area=0.7),), tanks=(tank(place="belly"),))
    assert impossible(rig, [("tank.galley.width", 24.0)]) == set()
    assert impossible(rig, [("tank.galley.width", 30.0)]) == {"tank.galley.width"}


def test_impossible_reading_stays_out_of_the_measured_profile() -> None:
    rig = profile(tanks=(tank(),), drains=(drain(),))
    views = slot_views(rig, readings(("drain.galley-valve.outside", 2.0), (LENGTH, 41.0)))
    measured = with_readings(rig, views)
    assert measured.drains[0] == rig.drains[0]
    assert measured.tanks[0].length == pytest.approx(41 * INCH, rel=1e-12)
    view = next(view for view in views if view.slot == "drain.galley-valve.outside")
    assert view.value == pytest.approx(2 * INCH, rel=1e-12)


# --- the walk ---


def test_walk_goes_by_place_then_again_blind() -> None:
    rig = profile(
        tanks=(tank(), tank("black")), heaters=(heater("b", on="black"), heater("a")), runs=(run(),)
    )
    first = [
        LENGTH, "tank.galley.width", "tank.galley.height", "heater.a.length", "heater.a.width",
        "tank.black.length",
        "tank.black.width", "tank.black.height", "heater.b.length", "heater.b.width", "run.feed.length",
    ]  # fmt: skip
    state = State()
    assert walking_order(slot_views(rig, state), state) == (*first, *first)
    once = readings(*((slot, 20.0) for slot in first[:3]))
    assert walking_order(slot_views(rig, once), once) == (*first[3:], *first)
    assert sum(view.owed for view in slot_views(rig, once)) == len(first[3:] + first)


def test_dispute_is_asked_at_once_the_newest_first() -> None:
    wall = "tank.galley.wall"
    state = readings((LENGTH, 41.0), (LENGTH, 42.0), (wall, 0.25), (wall, 0.75))
    order = walking_order(slot_views(BOX, state), state)
    assert order[:2] == (wall, LENGTH)
    assert order[2:] == ("tank.galley.width", "tank.galley.height") * 2


def test_bounced_key() -> None:
    state = readings((LENGTH, 41.375))
    view = views_of(BOX, state)[LENGTH]
    # design rule · exact: the same value within 20 s
    assert is_bounce(view, 41.375 * INCH, now=Instant(19.9))
    assert not is_bounce(view, 41.375 * INCH, now=Instant(20.0))
    assert not is_bounce(view, 41.4375 * INCH, now=Instant(1.0))
    assert not is_bounce(views_of(BOX, State())[LENGTH], 41.375 * INCH, now=Instant(1.0))


def test_no_readings_make_no_value() -> None:
    with pytest.raises(ValueError, match="no readings"):
        agreement((), ())
    for bad in (-1.0, float("nan"), float("inf")):
        with pytest.raises(ValueError, match="0 or more"):
            from_resolution(bad)

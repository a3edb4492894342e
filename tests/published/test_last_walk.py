"""The last walk: every place once, in the order in which one crawls, with all that will be out of sight."""

from logic.assessment.last_walk import (
    ACCEPTED,
    OPEN,
    SEEN,
    closing_is_near,
    last_walk,
    last_walk_of,
    outwards,
    part_of,
    way_round,
)
from logic.data.finding import Acceptance, Finding
from logic.data.wording import words
from logic.session.intents import WriteItem
from tests import rig_builder as rb
from tests.technician import RIGS, Technician
from tests.work_log import Log

RIG = rb.profile(
    tanks=(rb.tank(), rb.tank("black", holds="black")),
    drains=(rb.drain(),),
    heaters=(
        rb.heater(),
        rb.heater("black-a", on="black"),
        rb.heater("valve", on="galley-valve", face="wrap", watts=15.0),
    ),
    runs=(
        rb.run("rear", from_="feed", feeds=("black-a",)),
        rb.run("feed"),
        rb.run("front", from_="feed", feeds=("galley-a", "valve"), bundle="main"),
    ),
)


def standing(place: str, rule: str, *, weight: str = "use", accepted: bool = False) -> Finding:
    return Finding(
        id=f"{rule}:{place}",
        rule=rule,
        weight=weight,
        place=place,
        text=words(rule),
        remedy=words(""),
        open=True,
        accepted=Acceptance("late", "R. Tester") if accepted else None,
    )


def test_one_crawls_from_tank_to_drain_and_then_along_the_wires():
    places = [place for place, _ in way_round(Log(RIG).case())]
    assert places == [
        "tank.galley",
        "heater.galley-a",
        "drain.galley-valve",
        "heater.valve",
        "tank.black",
        "heater.black-a",
        "run.feed",
        "run.rear",
        "run.front",
        "bundle.main",
        "wiring",
        "supply",
        "rig",
    ]
    assert outwards(Log(RIG).case()) == ("feed", "rear", "front")


def test_every_step_that_will_be_out_of_sight_is_looked_at_once():
    log = Log(RIG)
    looks = [look.id for halt in last_walk(log.case(), ()) for look in halt.looks]
    assert len(looks) == len(set(looks))
    assert {
        "bond-pad:heater.valve",
        "clamp:run.front",
        "confirm-drip-loops:rig",
        "confirm-valve:tank.galley",
    } <= set(looks)
    assert not [look for look in looks if look.startswith(("chocks", "cut", "energise", "label"))]


def test_what_is_not_done_is_open_and_what_is_done_is_seen():
    log = (
        Log(RIG)
        .done("clamp:run.front")
        .event("clamp:run.rear", "skipped", note="factory clamps", name="R. Tester")
    )
    looks = {look.id: look.state for halt in last_walk(log.case(), ()) for look in halt.looks}
    assert looks["clamp:run.front"] == SEEN
    assert looks["clamp:run.rear"] == ACCEPTED
    assert looks["clamp:run.feed"] == OPEN


def test_findings_stand_at_the_part_that_they_belong_to():
    findings = (
        standing("heater.galley-a", "foam-over", weight="stop"),
        standing("run.feed.current", "untested", weight="stop"),
        standing("drain.galley-valve", "drain-first", accepted=True),
        standing("tank.black", "pad-far", weight="note"),
        standing("clamp:run.rear", "open-step", weight="stop"),
    )
    halts = {halt.place: halt for halt in last_walk(Log(RIG).case(), findings)}
    assert "foam-over:heater.galley-a" in {look.id for look in halts["heater.galley-a"].looks}
    assert "untested:run.feed.current" in {look.id for look in halts["run.feed"].looks}
    assert [look.state for look in halts["drain.galley-valve"].looks] == [ACCEPTED]
    assert "pad-far:tank.black" not in {look.id for look in halts["tank.black"].looks}
    assert [look.id for look in halts["run.rear"].looks].count("clamp:run.rear") == 1
    assert halts["run.feed"].open == sum(look.state == OPEN for look in halts["run.feed"].looks)


def test_a_place_is_found_in_every_kind_of_finding():
    assert part_of("heater.a.resistance") == "heater.a"
    assert part_of("clamp:run.b") == "run.b"
    assert part_of("supply") == "supply"
    assert part_of("chocks:rig") == "rig"


def test_a_skip_that_nobody_accepted_is_open_and_stops():
    log = Log(RIG).event("clamp:run.rear", "skipped", note="factory clamps", name="R. Tester")
    skipped = standing("clamp:run.rear", "open-step", weight="stop")
    halts = {halt.place: halt for halt in last_walk(log.case(), (skipped,))}
    look = next(look for look in halts["run.rear"].looks if look.id == "clamp:run.rear")
    assert look.state == OPEN
    assert look.stops
    assert halts["run.rear"].stops == 1


def test_every_stop_of_the_punch_list_stands_at_one_place_of_the_walk(tmp_path):
    """Of each demo rig on its first morning, one item written by hand with them."""
    for name in ("two-tanks", "full-belly", "with-mistakes"):
        technician = Technician(RIGS / f"{name}.toml", tmp_path / name)
        try:
            technician.act(WriteItem("a bolt is missing by the axle"))
            end = technician.look()
            halts = last_walk_of(end, technician.session.state)
        finally:
            technician.session.close()
        standing_at = [look.id for halt in halts for look in halt.looks if look.stops]
        assert len(standing_at) == len(set(standing_at)) == end.verdict.stop > 0


def test_a_place_says_what_lies_there_what_was_read_and_what_was_proven(tmp_path):
    """After a whole job: its record is the walk's, and nothing stops on it."""
    technician = Technician(RIGS / "two-tanks.toml", tmp_path)
    try:
        assert not closing_is_near(technician.look().steps)
        technician.work()
        end = technician.look()
        halts = last_walk_of(end, technician.session.state)
    finally:
        technician.session.close()
    assert closing_is_near(end.steps)
    assert not any(halt.stops for halt in halts)
    for heater in end.profile.heaters:
        halt = next(halt for halt in halts if halt.place == f"heater.{heater.id}")
        assert halt.there is not None
        assert dict(halt.there.parts)["watts"].value == heater.watts
        proven = {look.id: dict(look.text.parts) for look in halt.looks if look.kind == "proven"}
        reading = next(
            one
            for one in reversed(technician.session.state.readings)
            if one.slot == f"heater.{heater.id}.volts"
        )
        assert proven[f"proven:heater.{heater.id}.volts"]["value"].value == reading.value
    tank = next(halt for halt in halts if halt.place.startswith("tank."))
    deciding = [view for view in end.slots if view.deciding and view.place == tank.place]
    read = next(dict(look.text.parts) for look in tank.looks if look.kind == "read")
    assert read["agreed"].value == read["all"].value == len(deciding)

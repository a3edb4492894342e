"""The last walk: every place once, in the order in which one crawls, with all that will be out of sight."""

from logic.assessment.last_walk import ACCEPTED, OPEN, SEEN, last_walk, outwards, part_of, way_round
from logic.data.finding import Acceptance, Finding
from logic.data.wording import words
from tests import rig_builder as rb
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

"""The cut list and the shopping list, counted by hand on small rigs: common practice, unless said."""

import itertools

import pytest

from logic.assessment.cut_list import cuts, splices
from logic.assessment.parts_list import parts_list
from logic.data.quantities import fill, show
from logic.data.state import Instant, Tick
from tests.circuit_case_builder import feet, rig, values_of
from tests.rig_builder import FOOT, INCH, Parts

SOUND = (
    feet("feed", 6, 10, bundle="main", colour="blue", switch=20.0),
    feet("a", 12, 14, from_="feed", feeds=("a",), bundle="main"),
    feet("b", 12, 14, from_="feed", back="a", feeds=("b",), fuse="auto", bundle="main"),
    feet("c", 15, 14, back="chassis", feeds=("c",)),
)
WATTS = {"a": 60.0, "b": 40.0, "c": 25.0}


def lines(of, *ticks):
    return {line.id: line for line in parts_list(of, ticks).shopping}


def test_a_wire_for_each_positive_and_each_return_of_its_own():
    of = rig(WATTS, *SOUND)
    found = {cut.id: cut for cut in cuts(of)}
    assert list(found) == [
        "cut:run.feed",
        "cut:run.feed.return",
        "cut:run.a",
        "cut:run.a.return",
        "cut:run.b",
        "cut:run.c",
    ]
    for cut in found.values():
        # the figure of the same name: rig-format, `.cut`
        assert cut.length == values_of(of)[f"run.{cut.run}.cut"]
    assert (found["cut:run.feed"].colour, found["cut:run.a"].colour) == ("blue", "red")
    assert found["cut:run.feed.return"].colour == "black"
    assert found["cut:run.feed"].twisted == 0  # five conductors in the bundle: not twisted


def test_two_wires_of_one_bundle_are_twisted():
    (out, back) = cuts(rig({"a": 60.0}, feet("r", 14, 14, feeds=("a",), bundle="m")))
    assert (out.twisted, back.twisted) == (2, 2)
    # B5 · COMPUTED · rel 1e-6
    assert out.length / FOOT == pytest.approx(18.36509, rel=1e-6)


def test_what_is_cut_is_ticked_with_its_length():
    found = {cut.id: cut for cut in cuts(rig(WATTS, *SOUND), (Tick("cut:run.a", Instant(0.0), 4.9),))}
    assert (found["cut:run.a"].ticked, found["cut:run.a"].cut_to) == (True, 4.9)
    assert not found["cut:run.a.return"].ticked


def test_spools_by_gauge_and_colour():
    spools = {each.id: each for each in parts_list(rig(WATTS, *SOUND)).spools}
    assert list(spools) == ["buy:wire-10-black", "buy:wire-10-blue", "buy:wire-14-black", "buy:wire-14-red"]
    # 14 AWG red: a and b 15.8 ft, c 19.25 ft of 25 and 100 ft: one spool of 100 rather than three of 25
    red = spools["buy:wire-14-red"]
    assert red.cuts == ("cut:run.a", "cut:run.b", "cut:run.c")
    assert [length / FOOT for length, _ in red.plan.spools] == [pytest.approx(100)]
    assert red.plan.waste / FOOT == pytest.approx(100 - 15.8 - 15.8 - 19.25)
    assert red.plan.proven


def test_joints_at_each_far_end():
    found = splices(rig(WATTS, *SOUND))
    assert [(joint.run, joint.conductor, joint.joins) for joint in found] == [
        ("feed", "positive", "run.a"),
        ("feed", "return", "run.a"),
        ("feed", "positive", "run.b"),
        ("a", "positive", "heater.a"),
        ("a", "return", "heater.a"),
        ("b", "positive", "heater.b"),
        ("b", "return", "heater.b"),
        ("c", "positive", "heater.c"),
        ("c", "return", "heater.c"),
    ]
    # splice sleeves: red 22–18, blue 16–14, yellow 12–10 AWG · FOUND, general tables
    assert [joint.colour for joint in found] == ["yellow"] * 3 + ["blue"] * 6
    assert found[0].steps == 2  # 10 onto 14 AWG: two sizes apart
    in_the_sleeve = [joint.from_end for joint in found[:7]]
    assert all(b - a >= 1.5 * INCH - 1e-9 for a, b in itertools.pairwise(in_the_sleeve))


def test_shopping_counts():
    found = lines(rig(WATTS, *SOUND))

    def amount(id):
        return found[id].amount.value

    # 3 and 6 joints, a spare in ten, whole ones
    assert (amount("buy:splice-yellow"), amount("buy:splice-blue")) == (4, 7)
    # five wires of 10 AWG and thinner: 2.7013 × 0.174 = 0.470 in, × 1.25 = 0.588: 5/8 in, over 12 ft
    assert amount("buy:sleeve-10-16") == pytest.approx(12 * FOOT)
    assert amount("buy:clamp-10-16") == 9  # (144 − 12)/18 in: 8 gaps
    assert amount("buy:clamp-wire") == 11  # 15 ft: (180 − 12)/18 in: 10 gaps
    # supply: positive and return of the feed; c's positive and its end on the chassis
    assert (amount("buy:ring-10"), amount("buy:ring-14")) == (2, 2)
    values = values_of(rig(WATTS, *SOUND))
    assert [values[f"run.{run}.fuse"] for run in ("feed", "b", "c")] == [15, 5, 3]
    assert [amount(f"buy:fuse-{rating}") for rating in (15, 5, 3)] == [2, 2, 2]  # one spare of each
    assert (amount("buy:holder-10"), amount("buy:holder-14")) == (1, 2)
    assert amount("buy:switch-feed") == 1
    assert {"buy:cleaner", "buy:wipes", "buy:sealant", "buy:label"} <= set(found)


def test_a_hole_for_the_bundle_and_for_the_lone_run():
    holes = {hole.id: hole for hole in parts_list(rig(WATTS, *SOUND)).holes}
    assert list(holes) == ["hole:bundle.main", "hole:run.c"]
    # 5/8 in bore + 2 × 1/16 wall + 2 × 1/8 grommet = 1 in
    assert holes["hole:bundle.main"].hole.drill == pytest.approx(1.0 * INCH)


def test_a_cut_longer_than_any_spool_is_bought_in_one_length():
    found = lines(rig({"a": 60.0}, feet("r", 120, 14, feeds=("a",))))
    # 120 ft × 1.15 + 2 ft = 140 ft
    assert found["buy:wire-14-red-run-r"].amount.value == pytest.approx(140 * FOOT)
    assert "longer than any spool" in fill(found["buy:wire-14-red-run-r"].what, "us")


def test_what_is_bought_is_ticked():
    found = lines(rig(WATTS, *SOUND), Tick("buy:fuse-15", Instant(0.0)))
    assert found["buy:fuse-15"].ticked
    assert not found["buy:fuse-5"].ticked


def test_every_line_can_be_read_and_has_an_id_of_its_own():
    of = rig(WATTS, *SOUND, parts=Parts(slack=0.0, ends=0.0, lay=0.1, spools=(1.0,)))
    whole = parts_list(of)
    ids = [line.id for line in whole.shopping]
    assert len(set(ids)) == len(ids)
    for line in whole.shopping:
        for units in ("us", "metric"):
            assert "{" not in fill(line.what, units)
            assert show(line.amount.value, line.amount.kind, units)


def test_a_list_without_feasible_gauges_says_so():
    assert not parts_list(rig({"a": 60.0}, feet("r", 300, None, feeds=("a",)))).feasible
    assert parts_list(rig(WATTS, *SOUND)).feasible


def test_a_rig_without_wires_buys_none():
    whole = parts_list(rig({}))
    assert (whole.cuts, whole.spools, whole.splices, whole.holes, whole.shopping) == ((), (), (), (), ())

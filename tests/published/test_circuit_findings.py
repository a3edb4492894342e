"""The circuits' rules: each with a case that fires and one just beside it that doesn't, and its remedy in
numbers.
"""

import pytest

from logic.assessment.case import Case
from logic.assessment.cut_list import cut_id, needed_length
from logic.assessment.findings import circuit, circuit_fuses, parts  # noqa: F401 (they declare)
from logic.assessment.findings.rule import findings_of
from logic.data.quantities import fill
from logic.data.state import Instant, State, Tick
from tests.circuit_case_builder import feet, rig, values_of
from tests.rig_builder import FOOT, INCH

OURS = (
    "unfed",
    "no-fuse",
    "fuse-small",
    "fuse-above-wire",
    "return-above-wire",
    "fuse-far",
    "slow-fuse",
    "no-gauge",
    "drop",
    "switch",
    "bundle-hot",
    "recut",
)


def found_in(of, **case):
    made = Case(of, **case)
    made.steps = ()
    return {found.id: found for found in findings_of(made, {}) if found.rule in OURS}


def said(found):
    return fill(found.text, "us"), fill(found.remedy, "us")


def test_nothing_is_wrong_with_a_sound_rig():
    assert found_in(rig({"a": 60.0}, feet("r", 18, 12, feeds=("a",), switch=10.0, fuse_at=18 * INCH))) == {}


def test_a_heater_in_no_run():
    found = found_in(rig({"a": 60.0, "b": 60.0}, feet("r", 18, 12, feeds=("a",))))
    assert list(found) == ["unfed:heater.b"]
    assert found["unfed:heater.b"].weight == "stop"
    # 60 W at 12 V, at 13.6 V: 5.667 A, fuse 7.5 A, 16 AWG carries 8 A
    assert "5.67 A" in said(found["unfed:heater.b"])[1]
    assert "7.5 A" in said(found["unfed:heater.b"])[1]


def test_a_run_from_the_supply_without_a_fuse():
    wires = (
        feet("r", 2, 12, fuse="none"),
        feet("a", 2, 12, from_="r", feeds=("a",)),
        feet("b", 2, 12, from_="r", feeds=("b",), fuse="auto"),
    )
    found = found_in(rig({"a": 60.0, "b": 60.0}, *wires))
    # the first run of the part, once; not a, that only comes from it
    assert list(found) == ["no-fuse:run.r"]
    assert (found["no-fuse:run.r"].weight, found["no-fuse:run.r"].acceptable) == ("stop", False)
    assert "15 A" in said(found["no-fuse:run.r"])[1]


def test_a_fuse_under_its_load():
    # 60 W behind 18 ft of 12 AWG: 5.527082 A at 13.6 V (F1), 1.25 × that 6.909
    for fuse, fires in ((5.0, True), (7.5, False)):
        found = found_in(rig({"a": 60.0}, feet("r", 18, 12, feeds=("a",), fuse=fuse)))
        assert ("fuse-small:run.r" in found) is fires
    assert (
        "7.5 A"
        in said(found_in(rig({"a": 60.0}, feet("r", 18, 12, feeds=("a",), fuse=5.0)))["fuse-small:run.r"])[1]
    )


@pytest.mark.parametrize(("fuse", "fires"), [(15.0, False), (20.0, True)])
def test_a_fuse_above_a_wire_of_its_section(fuse, fires):
    wires = (feet("r", 2, 10, fuse=fuse), feet("a", 2, 14, from_="r", feeds=("a",)))
    found = found_in(rig({"a": 60.0}, *wires))
    # 14 AWG carries 15 A (NEC 240.4(D)); the place is the run with the fuse
    assert ("fuse-above-wire:run.r" in found) is fires
    if fires:
        one = found["fuse-above-wire:run.r"]
        assert not one.acceptable
        assert not one.open  # a smaller fuse mends it: nothing underneath
        assert "7.5 A" in said(one)[1]


def test_a_fuse_further_on_protects_the_thin_wire():
    wires = (feet("r", 2, 10, fuse=20.0), feet("a", 2, 16, from_="r", feeds=("a",), fuse=7.5))
    assert found_in(rig({"a": 60.0}, *wires)) == {}


def test_one_return_for_two_fused_pads():
    wires = (feet("a", 10, 14, feeds=("a",)), feet("b", 10, 14, back="a", feeds=("b",)))
    found = found_in(rig({"a": 50.0, "b": 70.0}, *wires, limit=0.2))
    # F6's mistake: fuses 7.5 and 10 A over a return of 14 AWG, 15 A
    one = found["return-above-wire:run.a"]
    values = values_of(rig({"a": 50.0, "b": 70.0}, *wires, limit=0.2))
    assert (values["run.a.fuse"], values["run.b.fuse"]) == (7.5, 10)
    assert (one.weight, one.acceptable, one.open) == ("stop", False, True)
    text, remedy = said(one)
    for amps in ("run.a.current", "run.b.current", "run.a.return_current"):
        assert f"{values[amps]:.3g}" in text
    assert "7.5 A (a) + 10 A (b) = 17.5 A" in text
    assert "12 AWG" in remedy


def test_a_lent_return_just_thick_enough():
    wires = (feet("a", 10, 12, feeds=("a",)), feet("b", 10, 14, back="a", feeds=("b",)))
    assert found_in(rig({"a": 50.0, "b": 70.0}, *wires, limit=0.2)) == {}


def test_a_lent_chassis_has_no_ampacity():
    wires = (feet("a", 10, 14, back="chassis", feeds=("a",)), feet("b", 10, 14, back="a", feeds=("b",)))
    assert found_in(rig({"a": 50.0, "b": 70.0}, *wires, limit=0.2)) == {}


def test_fuses_behind_one_another_are_not_summed():
    wires = (
        feet("feed", 2, 10, fuse=20.0),
        feet("a", 5, 14, from_="feed", feeds=("a",), fuse=7.5),
        feet("b", 5, 14, from_="feed", back="a", feeds=("b",), fuse=7.5),
    )
    # the nearest fuses of what comes back through a's return are those of a and b: 15 A, which 14 AWG carries
    assert found_in(rig({"a": 50.0, "b": 50.0}, *wires, limit=0.2)) == {}
    unfused = (*wires[:2], feet("b", 5, 14, from_="feed", back="a", feeds=("b",)))
    found = found_in(rig({"a": 50.0, "b": 50.0}, *unfused, limit=0.2))
    # now b's nearest is the feed's 20 A, and a's own lies behind it: 20 A
    assert "20 A (feed) = 20 A" in said(found["return-above-wire:run.a"])[0]


def test_a_foreign_return_further_on_is_summed_as_well():
    wires = (
        feet("feed", 2, 14, fuse=15.0),
        feet("a", 5, 10, from_="feed", feeds=("a",)),
        feet("b", 5, 14, back="a", feeds=("b",), fuse=7.5),
    )
    found = found_in(rig({"a": 50.0, "b": 50.0}, *wires, limit=0.2))
    # b comes back through a's return and then through the feed's, which nobody borrows by name: 22.5 A in 15
    # A
    assert "return-above-wire:run.feed" in found
    assert "return-above-wire:run.a" not in found


@pytest.mark.parametrize(("far", "fires"), [(18 * INCH, False), (18.125 * INCH, True)])
def test_a_fuse_far_from_the_supply(far, fires):
    found = found_in(rig({"a": 60.0}, feet("r", 18, 12, feeds=("a",), fuse_at=far)))
    assert ("fuse-far:run.r" in found) is fires
    tail = (feet("r", 9, 12), feet("t", 9, 12, from_="r", feeds=("a",), fuse_at=far))
    assert "fuse-far:run.t" not in found_in(rig({"a": 60.0}, *tail))


@pytest.mark.parametrize(("length", "fires"), [(30, False), (45, True)])
def test_a_fuse_slow_on_a_short(length, fires):
    found = found_in(rig({"a": 40.0}, feet("r", length, 18, feeds=("a",)), limit=0.2))
    # N11: 6.3037 and 4.2024 × its 5 A
    assert ("slow-fuse:run.r" in found) is fires
    if fires:
        assert found["slow-fuse:run.r"].weight == "note"
        text, remedy = said(found["slow-fuse:run.r"])
        assert "4.2" in text
        assert "16 AWG" in remedy
        # 45 ft × 4.2024/5: 37.8 ft
        assert "37.8 ft" in remedy


@pytest.mark.parametrize(("gauge", "fires"), [(14, True), (12, False)])
def test_a_drop_over_the_limit(gauge, fires):
    found = found_in(rig({"a": 60.0}, feet("r", 18, gauge, feeds=("a",))))
    # N1: 3.86063 %, F1: 2.46326 %
    assert ("drop:heater.a" in found) is fires
    if fires:
        text, remedy = said(found["drop:heater.a"])
        assert found["drop:heater.a"].weight == "use"
        assert "3.9 %" in text
        assert "12 AWG in r: 2.5 %" in remedy


@pytest.mark.parametrize(("rating", "fires"), [(6.9, True), (7.0, False)])
def test_a_switch_under_its_load(rating, fires):
    found = found_in(rig({"a": 60.0}, feet("r", 18, 12, feeds=("a",), switch=rating)))
    # F1: 5.527082 A × 1.25 = 6.908852 A
    assert ("switch:run.r" in found) is fires


@pytest.mark.parametrize(
    ("together", "gauge", "most"), [(6, 14, 12.0), (8, 16, 7.5), (3, 12, 17.5), (2, 18, 10.0)]
)
@pytest.mark.parametrize("share", [0.999, 1.001])
def test_a_wire_hot_in_its_bundle(together, gauge, most, share):
    # B8; each run is 0 ft, so that its current is 13.6/R: the run under test and idle ones beside it
    watts = most * share * 144 / 13.6
    chassis = 13.6 / (most * share) * 1e-6
    back = "chassis" if together % 2 else "own"
    first = feet("r", 0, gauge, feeds=("a",), bundle="m", back=back, chassis=chassis, fuse=40.0)
    idle = [
        feet(f"i{number}", 0, gauge, feeds=(f"i{number}",), bundle="m", fuse=40.0)
        for number in range((together - (1 if together % 2 else 2)) // 2)
    ]
    found = found_in(rig({"a": watts, **{one.id: 0.1 for one in idle}}, first, *idle))
    assert ("bundle-hot:run.r" in found) is (share > 1)
    if share > 1:
        assert found["bundle-hot:run.r"].weight == "use"
        assert "from 50 V up" in said(found["bundle-hot:run.r"])[0]


def test_no_gauge_by_the_drop_says_how_long_a_route_would_do():
    found = found_in(rig({"a": 60.0}, feet("r", 300, None, feeds=("a",))))
    one = found["no-gauge:wiring"]
    assert one.weight == "stop"
    text, remedy = said(one)
    assert "4 AWG" in text
    # hand: r = 0.8641 mΩ/m × 2 over 2.4 Ω, y = 0.03/0.97 · 42.95 m = 140.9 ft
    assert "140.9 ft" in remedy
    assert found_in(rig({"a": 60.0}, feet("r", 140.5, None, feeds=("a",)), limit=0.03)) == {}


def test_no_gauge_by_a_fuse_above_every_wire():
    found = found_in(rig({"a": 60.0}, feet("r", 10, None, feeds=("a",), fuse=80.0)))
    assert "80 A" in said(found["no-gauge:wiring"])[0]
    assert "2 fused circuits" in said(found["no-gauge:wiring"])[1]


def session(of, *ticks):
    return {"state": State(ticks=ticks), "now": Instant(0.0)}


def test_a_route_longer_than_its_wire_was_cut():
    plan = rig({"a": 60.0}, feet("r", 18, 12, feeds=("a",)))
    cut_to = needed_length(plan, plan.runs[0])
    tick = Tick(cut_id("r"), Instant(0.0), cut_to)
    # 18 ft cut for 15 % slack reaches up to 20.7 ft: then the slack is eaten, beyond it the wire is too short
    for length, weight in ((18, None), (20, "note"), (21, "use")):
        measured = rig({"a": 60.0}, feet("r", length, 12, feeds=("a",)))
        found = found_in(measured, planned=plan, **session(plan, tick))
        assert (found["recut:run.r"].weight if found else None) == weight
    # a wire that nobody has cut yet has nothing to be cut anew
    assert found_in(rig({"a": 60.0}, feet("r", 21, 12, feeds=("a",))), planned=plan, **session(plan)) == {}


def test_a_wire_ticked_without_a_length_was_cut_as_planned():
    plan = rig({"a": 60.0}, feet("r", 18, 12, feeds=("a",)))
    measured = rig({"a": 60.0}, feet("r", 21, 12, feeds=("a",)))
    tick = Tick(cut_id("r", "return"), Instant(0.0))
    found = found_in(measured, planned=plan, **session(plan, tick))
    assert found["recut:run.r"].weight == "use"
    # 21 ft + 2 ft of ends in 22.7 ft: 0.3 ft = 3.6 in short
    assert "3 5/8 in short" in said(found["recut:run.r"])[1]


def test_every_remedy_of_a_wrong_rig_can_be_read_in_both_systems():
    wires = (
        feet("feed", 6, 18, fuse_at=2 * FOOT),
        feet("a", 12, 18, from_="feed", feeds=("a",), switch=1.0, bundle="m"),
        feet("b", 60, 18, from_="feed", back="a", feeds=("b",), fuse="auto", bundle="m"),
        feet("c", 60, 18, fuse="none", feeds=("c",), bundle="m"),
        feet("d", 60, 18, fuse=2.0, feeds=("d",)),
    )
    found = found_in(rig({"a": 60.0, "b": 300.0, "c": 60.0, "d": 60.0, "e": 5.0}, *wires))
    assert {one.rule for one in found.values()} == set(OURS) - {"no-gauge", "recut"}
    for one in found.values():
        for units in ("us", "metric"):
            assert "{" not in fill(one.text, units) + fill(one.remedy, units)

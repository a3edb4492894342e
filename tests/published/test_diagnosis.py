"""Planted faults, measured on an independent network, and the diagnosis that must name them first."""

import pytest

from logic.assessment.diagnosis import diagnose
from logic.physics.likelihood import SharedErrors
from tests import rig_builder as rb
from tests.nodal import Bench
from tests.work_log import Log

FOOT = rb.FOOT

# a shared return between two fused circuits, and one back by the chassis
SHARED = rb.profile(
    tanks=(rb.tank(), rb.tank("black", holds="black")),
    heaters=(
        rb.heater("a", thermostat=rb.thermostat(45, 65)),
        rb.heater("b", on="black", watts=40.0),
        rb.heater("c", on="black", watts=25.0),
    ),
    runs=(
        rb.run("to-a", length=16 * FOOT, gauge=14, feeds=("a",)),
        rb.run("to-b", length=20 * FOOT, gauge=14, back="to-a", feeds=("b",)),
        rb.run("to-c", length=15 * FOOT, gauge=16, back="chassis", feeds=("c",)),
    ),
)

# one feed, fused, with branches: two pads on one run, one on another with a fuse of its own
TREE = rb.profile(
    tanks=(rb.tank(), rb.tank("black", holds="black")),
    heaters=(
        rb.heater("a", watts=60.0),
        rb.heater("b", watts=30.0, thermostat=rb.thermostat(45, 65)),
        rb.heater("c", on="black", watts=50.0, thermostat=rb.thermostat(45, 65)),
    ),
    runs=(
        rb.run("feed", length=8 * FOOT, gauge=10),
        rb.run("front", from_="feed", length=12 * FOOT, gauge=14, fuse="none", feeds=("a", "b")),
        rb.run("rear", from_="feed", length=22 * FOOT, gauge=14, fuse="auto", feeds=("c",)),
    ),
)


def measured(bench: Bench, *, leads_read: bool = True, chilled: bool = True) -> Log:
    """All readings of a day, as a handheld meter of two decimals shows them; drops to the millivolt."""
    log = Log(bench.profile)
    if leads_read:
        log.read("meter.leads", bench.leads, resolution=0.01)
    circuits = dict.fromkeys(bench.circuit_of(heater.id) for heater in bench.profile.heaters)
    for heater in bench.profile.heaters:
        if heater.thermostat is not None and chilled:
            log.start(f"chill:heater.{heater.id}")
            log.event(f"chill:heater.{heater.id}", "done", recorded={"closed": "yes"})
        _ohms(log, f"heater.{heater.id}.resistance", bench.pad(heater.id), 0.01)
    for circuit in circuits:
        _ohms(log, f"run.{circuit}.resistance", bench.cold(circuit), 0.01)
        _ohms(log, f"run.{circuit}.isolation", bench.isolation(circuit), 0.1)
        log.read("supply.volts", bench.volts, resolution=0.01)
        for slot, value in bench.loaded(circuit).items():
            digits = 3 if "drop" in slot else 2
            log.read(slot, round(value, digits), resolution=10.0**-digits)
    return log


def _ohms(log: Log, slot: str, value: float | None, digit: float) -> None:
    if value is None:
        log.read(slot, 0.0, over=True)
    else:
        log.read(slot, round(value / digit) * digit, resolution=digit)


def planted(profile, **faults) -> Bench:
    bench = Bench(profile)
    bench.leads = 0.2
    for name, value in faults.items():
        setattr(bench, name, value)
    return bench


FAULTS = [
    # (rig, what is broken, the fault that must be named, where)
    *[(SHARED, {"more": {("to-a", "out"): ohms}}, "joint", "run.to-a") for ohms in (0.06, 0.3, 2.0)],
    *[(SHARED, {"more": {("to-c", "back"): ohms}}, "joint", "run.to-c") for ohms in (0.06, 0.3, 2.0)],
    (SHARED, {"more": {("to-b", "out"): 0.2}}, "joint", "run.to-b"),
    (SHARED, {"more": {("b", "back"): 0.2}}, "joint", "heater.b"),
    (SHARED, {"more": {("to-c", "out"): 0.15}}, "joint", "run.to-c"),
    *[(SHARED, {"more": {("to-a", "back"): ohms}}, "shared-return", "run.to-a") for ohms in (0.06, 0.3, 2.0)],
    (SHARED, {"ohms": {"a": 3.9, "b": 3.6, "c": 5.76}}, "other-pad", "heater.a"),
    (SHARED, {"ohms": {"a": 2.4, "b": 3.6, "c": 2.9}}, "other-pad", "heater.c"),
    (SHARED, {"open": {"b"}}, "open-pad", "heater.b"),
    (SHARED, {"open": {"c"}}, "open-pad", "heater.c"),
    *[(SHARED, {"blown": {run}}, "blown-fuse", f"run.{run}") for run in ("to-a", "to-b", "to-c")],
    *[(SHARED, {"short": {run: 0.02}}, "short", f"run.{run}") for run in ("to-a", "to-b", "to-c")],
    *[(SHARED, {"chassis": {"b": (0.5, ohms)}}, "chassis", "heater.b") for ohms in (1.0, 50.0, 5e4)],
    (SHARED, {"chassis": {"c": (0.98, 20.0)}}, "chassis", "heater.c"),
    (SHARED, {"ohms": {"a": 3.6, "b": 2.4, "c": 5.76}}, "swapped", "heater.a"),
    (SHARED, {"ohms": {"a": 2.4, "b": 5.76, "c": 3.6}}, "swapped", "heater.b"),
    (SHARED, {"gauge": {"to-a": 18, "to-b": 14, "to-c": 16}}, "gauge", "run.to-a"),
    (SHARED, {"gauge": {"to-a": 14, "to-b": 18, "to-c": 16}}, "gauge", "run.to-b"),
    *[(TREE, {"more": {("feed", "out"): ohms}}, "joint", "run.feed") for ohms in (0.06, 0.5)],
    (TREE, {"more": {("feed", "back"): 0.1}}, "shared-return", "run.feed"),
    *[(TREE, {"more": {("front", way): 0.1}}, "joint", "run.front") for way in ("out", "back")],
    *[(TREE, {"more": {("rear", way): 0.1}}, "joint", "run.rear") for way in ("out", "back")],
    *[
        (TREE, {"more": {(heater, way): 0.3}}, "joint", f"heater.{heater}")
        for heater in "ab"
        for way in ("out", "back")
    ],
    (TREE, {"ohms": {"a": 2.4, "b": 8.5, "c": 2.88}}, "other-pad", "heater.b"),
    (TREE, {"open": {"a"}}, "open-pad", "heater.a"),
    (TREE, {"blown": {"feed"}}, "blown-fuse", "run.feed"),
    (TREE, {"blown": {"rear"}}, "blown-fuse", "run.rear"),
    (TREE, {"short": {"front": 0.02}}, "short", "run.front"),
    (TREE, {"short": {"rear": 0.1}}, "short", "run.rear"),
    (TREE, {"chassis": {"a": (0.5, 3.0)}}, "chassis", "heater.a"),
    (TREE, {"ohms": {"a": 4.8, "b": 2.4, "c": 2.88}}, "swapped", "heater.a"),
    (TREE, {"ohms": {"a": 2.4, "b": 2.88, "c": 4.8}}, "swapped", "heater.b"),
    (TREE, {"gauge": {"feed": 10, "front": 18, "rear": 14}}, "gauge", "run.front"),
    (TREE, {"gauge": {"feed": 16, "front": 14, "rear": 14}}, "gauge", "run.feed"),
]


@pytest.mark.parametrize(("profile", "broken", "kind", "place"), FAULTS)
@pytest.mark.parametrize("fuse", [0.0, 0.012])
def test_a_planted_fault_is_ranked_first(profile, broken, kind, place, fuse):
    log = measured(planted(profile, fuse=fuse, **broken))
    likely = diagnose(log.case()).likely
    # tests/nodal.py, nodal analysis by numpy, shares nothing with the program · COMPUTED · rank, no tolerance
    assert (likely[0].kind, likely[0].place) == (kind, place), [
        (one.kind, one.place, one.share) for one in likely
    ]
    assert likely[0].why, "a fault without a reading that speaks for it"


def test_a_pad_that_shows_a_value_is_not_called_open():
    log = Log(SHARED)
    log.read("meter.leads", 0.2, resolution=0.01)
    log.read("heater.a.resistance", 8.2, resolution=0.01)
    likely = diagnose(log.case()).likely
    # ohm's law: an open thermostat or pad shows no value at all; 8 Ω is none of the rig's other pads · by hand
    assert (likely[0].kind, likely[0].place) == ("other-pad", "heater.a")
    assert likely[0].ohms == pytest.approx(8.0, abs=0.2)  # the meter's own uncertainty
    assert not {"thermostat-open", "open-pad"} & {one.kind for one in likely}


@pytest.mark.parametrize(
    ("profile", "broken", "named"),
    [
        (SHARED, {"more": {("to-a", "out"): 0.3}, "open": {"c"}},
         {("joint", "run.to-a"), ("open-pad", "heater.c")}),
        (SHARED, {"blown": {"to-c"}, "more": {("to-b", "out"): 0.2}},
         {("blown-fuse", "run.to-c"), ("joint", "run.to-b")}),
        (TREE, {"more": {("rear", "back"): 0.1}, "ohms": {"a": 4.8, "b": 4.8, "c": 2.88}},
         {("joint", "run.rear"), ("other-pad", "heater.a")}),
    ],
)  # fmt: skip
def test_two_faults_at_once_are_both_named(profile, broken, named):
    found = diagnose(measured(planted(profile, **broken)).case())
    first = [one.likely[0] for one in (found, *found.besides)]
    # tests/nodal.py, nodal analysis by numpy · COMPUTED · rank, no tolerance
    assert {(one.kind, one.place) for one in first} == named, first


@pytest.mark.parametrize("profile", [SHARED, TREE])
@pytest.mark.parametrize("off", [0.97, 1.0, 1.05])
@pytest.mark.parametrize("fuse", [0.0, 0.015])
def test_a_sound_wiring_is_not_suspected(profile, off, fuse):
    bench = planted(profile, fuse=fuse)
    bench.ohms = {heater: ohms * off for heater, ohms in bench.ohms.items()}
    # design, tolerance of a pad +10/−5 % and of a fuse 0 to 15 mΩ · PRACTICE · no suspicion at all
    assert diagnose(measured(bench).case()).suspected == ()


def test_an_open_thermostat_comes_before_an_open_pad_until_it_was_chilled():
    bench = planted(SHARED, open={"a"})
    first = diagnose(measured(bench, chilled=False).case())
    assert [one.kind for one in first.likely] == ["thermostat-open", "open-pad"]
    assert first.next is not None
    assert first.next.slot == "heater.a.resistance"
    assert "chill" in first.next.text.template
    chilled = diagnose(measured(bench, chilled=True).case())
    assert chilled.likely[0].kind == "open-pad"


def test_leads_that_were_not_taken_off_are_named_and_their_ohms_found():
    bench = planted(SHARED, leads=0.35)
    likely = diagnose(measured(bench, leads_read=False).case()).likely
    assert likely[0].kind == "leads"
    # planted 0.35 Ω · COMPUTED · abs 0.05: three pads' own 4 % of 2.4 to 5.8 Ω, shared out
    assert likely[0].ohms == pytest.approx(0.35, abs=0.05)


@pytest.mark.parametrize("ohms", [0.06, 0.3, 2.0])
def test_the_size_of_a_bad_joint_is_found(ohms):
    bench = planted(SHARED, more={("to-c", "back"): ohms})
    likely = diagnose(measured(bench).case()).likely
    # planted · COMPUTED · rel 3 %: drops of 1 mV and 0.5 %, a wire of 4 %
    assert likely[0].ohms == pytest.approx(ohms, rel=0.03)


def test_the_next_measurement_tells_the_two_legs_apart():
    bench = planted(SHARED, more={("to-c", "back"): 0.3})
    log = Log(SHARED).read("meter.leads", 0.2, resolution=0.01)
    log.read("supply.volts", 12.8, resolution=0.01)
    for slot, value in bench.loaded("to-c").items():
        if slot.endswith(("volts", "current")):
            log.read(slot, round(value, 2), resolution=0.01)
    before = diagnose(log.case())
    assert {one.title.template for one in before.likely[:2]} == {
        "bad joint on the way out in {run}",
        "bad joint on the way back in {run}",
    }
    assert before.next is not None
    assert before.next.slot in ("heater.c.drop_out", "heater.c.drop_back")
    leg = bench.loaded("to-c")[before.next.slot]
    after = diagnose(log.read(before.next.slot, round(leg, 3), resolution=0.001).case())
    assert after.likely[0].title.template == "bad joint on the way back in {run}"
    assert after.likely[0].share > 0.95


def test_shares_add_up_and_the_first_is_the_greatest():
    found = diagnose(measured(planted(TREE, more={("front", "out"): 0.1})).case()).likely
    shares = [one.share for one in found]
    assert shares == sorted(shares, reverse=True)
    assert 0.9 < sum(shares) <= 1.0 + 1e-9


def test_the_wires_between_fault_and_meter_share_their_errors():
    # two readings, one unknown: Σ = [[2, 1], [1, 2]], dᵀΣ⁻¹d for (1, 1) is 2/3 · by hand · rel 1e-12
    assert SharedErrors([1.0, 1.0], [[1.0, 1.0]]).distance([1.0, 1.0]) == pytest.approx(2 / 3, rel=1e-12)
    assert SharedErrors([1.0, 1.0], []).distance([1.0, 1.0]) == pytest.approx(2.0, rel=1e-12)

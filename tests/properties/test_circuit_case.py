"""The circuits of a profile: scaling, slopes of its figures, memory, and the edges of lengths and trees."""

import pytest

from logic.assessment import circuit_case
from logic.assessment.circuit_case import besides, circuits, wired
from logic.data.state import Instant, Reading, SlotView
from logic.physics.conductors import resistance_per_metre
from tests.circuit_case_builder import feet, figures_of, rig, values_of
from tests.rig_builder import FOOT

TREE = (
    feet("feed", 6, 10),
    feet("a", 12, 14, from_="feed", feeds=("a",)),
    feet("b", 12, 14, from_="feed", back="a", feeds=("b",), fuse="auto"),
    feet("c", 15, 14, from_="feed", back="chassis", feeds=("c",), fuse="auto"),
)
LOADS = {"a": 60.0, "b": 40.0, "c": 25.0}
R14 = resistance_per_metre(14, "awg", 30.0)


def view(slot, value, u):
    reading = Reading(id="1", slot=slot, typed="", value=value, when=Instant(0.0))
    return {
        slot: SlotView(
            slot=slot,
            place="run.r",
            title="length",
            kind="route",
            own_unit="ft",
            value=value,
            state="agreed",
            u=u,
            readings=(reading,),
        )
    }


def test_all_volts_scale_with_the_supply():
    low, high = values_of(rig(LOADS, *TREE, volts=10.0)), values_of(rig(LOADS, *TREE, volts=15.0))
    for pad in LOADS:
        # N6 · property · 1e-9: arithmetic
        assert high[f"heater.{pad}.volts"] == pytest.approx(1.5 * low[f"heater.{pad}.volts"], rel=1e-9)
        assert high[f"heater.{pad}.watts"] == pytest.approx(2.25 * low[f"heater.{pad}.watts"], rel=1e-9)
        assert high[f"heater.{pad}.drop"] == pytest.approx(low[f"heater.{pad}.drop"], rel=1e-9)


def test_the_supplys_current_is_that_of_all_heaters():
    whole = circuits(rig(LOADS, *TREE))
    # N6 · property · 1e-12: arithmetic
    assert whole.supply_charging_amps == pytest.approx(
        sum(one.charging_amps for _, one in whole.heaters), rel=1e-12
    )
    assert whole.supply_amps == pytest.approx(sum(one.amps for _, one in whole.heaters), rel=1e-12)


def test_slope_of_volts_by_length_is_the_derivative():
    of = rig({"a": 60.0}, feet("r", 18, 14, feeds=("a",)))
    ohms, length = 2.4, 18 * FOOT
    # hand · V = 12.8·R/(R + 2rL), dV/dL = −12.8·R·2r/(R + 2rL)² · rel 1e-6: a central difference of step 1e-5
    slope = -12.8 * ohms * 2 * R14 / (ohms + 2 * R14 * length) ** 2
    assert circuits(of).heater("a").volts_by_length == (("run.r.length", pytest.approx(slope, rel=1e-6)),)


def test_slope_at_no_length_is_taken_from_one_side():
    of = rig({"a": 60.0}, feet("r", 0, 14, feeds=("a",)))
    ((_, slope),) = circuits(of).heater("a").volts_by_length
    # hand · as above at L = 0 · rel 1e-4: a one-sided difference over 10 µm
    assert slope == pytest.approx(-12.8 * 2 * R14 / 2.4, rel=1e-4)
    ((less, more, step),) = besides(of, ("r",))
    assert step > 0
    assert less.heaters["a"].volts > more.heaters["a"].volts


def test_uncertainty_of_a_read_route_is_carried_on():
    of = rig({"a": 60.0}, feet("r", 18, 14, feeds=("a",)))
    u = 0.0016523
    read = figures_of(of, slots=view("run.r.length", 18 * FOOT, u))
    way = 2.4 + 2 * R14 * 18 * FOOT
    # JCGM 100, 5.1.2 · hand derivatives · rel 1e-5
    assert read["heater.a.volts"].u == pytest.approx(12.8 * 2.4 * 2 * R14 / way**2 * u, rel=1e-5)
    assert read["run.r.resistance"].u == pytest.approx(2 * R14 * u, rel=1e-5)
    assert read["run.r.short"].u == pytest.approx(12.8 / (2 * R14 * (18 * FOOT) ** 2) * u, rel=1e-5)
    assert read["run.r.cut"].u == pytest.approx(1.15 * u, rel=1e-9)
    assert read["wiring.copper"].u == pytest.approx(read["wiring.copper"].value / (18 * FOOT) * u, rel=1e-5)
    # nothing read: no uncertainty; and a resistance hangs on no route
    assert figures_of(of)["heater.a.volts"].u is None
    assert read["heater.a.resistance"].u is None
    assert read["heater.a.volts"].slots == ("run.r.length",)


def test_a_route_elsewhere_moves_nothing():
    of = rig({"a": 60.0, "b": 60.0}, feet("r", 18, 14, feeds=("a",)), feet("s", 18, 14, feeds=("b",)))
    read = figures_of(of, slots=view("run.s.length", 18 * FOOT, 0.01))
    assert read["heater.a.volts"].u is None
    assert read["heater.b.volts"].u > 0


def test_only_what_the_wiring_hangs_on_is_worked_out_again():
    of = rig(LOADS, *TREE)
    before = wired(of)
    other = type(of)(**{**{name: getattr(of, name) for name in of.__struct_fields__}, "tanks": ()})
    assert wired(other) is before


def test_gauges_are_held_beside_a_length():
    of = rig({"a": 60.0}, feet("r", 18, None, feeds=("a",)))
    ((less, more, _),) = besides(of, ("r",))
    assert less.gauges == more.gauges == wired(of).standing.gauges


def test_a_chain_of_sixty_runs_is_one_run_of_their_length():
    chain = [feet("r0", 0.3, 14)] + [
        feet(f"r{number}", 0.3, 14, from_=f"r{number - 1}", feeds=("a",) if number == 59 else ())
        for number in range(1, 60)
    ]
    found = values_of(rig({"a": 60.0}, *chain))
    # N1: 18 ft in one piece · rel 1e-9
    one = values_of(rig({"a": 60.0}, feet("r", 18, 14, feeds=("a",))))
    assert found["heater.a.volts"] == pytest.approx(one["heater.a.volts"], rel=1e-9)
    assert found["run.r59.short"] == pytest.approx(one["run.r.short"], rel=1e-9)


def test_three_hundred_feet():
    found = values_of(rig({"a": 60.0}, feet("r", 300, 14, feeds=("a",))))
    # hand · 2.4/(2.4 + 2 r 91.44) · rel 1e-12
    assert found["heater.a.volts"] == pytest.approx(12.8 * 2.4 / (2.4 + 2 * R14 * 91.44), rel=1e-12)


def test_a_rig_without_runs_or_heaters_has_its_figures():
    assert values_of(rig({})) == {"wiring.copper": 0}
    found = values_of(rig({}, feet("r", 10, 14)))
    assert found["run.r.current"] == 0
    assert found["run.r.resistance"] is None
    assert found["run.r.fuse"] == 1  # the smallest there is


def test_a_thicker_wire_never_leaves_a_heater_fewer_volts_behind_own_returns():
    wires = {gauge: feet("r", 18, gauge, feeds=("a",)) for gauge in (18, 16, 14, 12, 10, 8, 6, 4)}
    volts = [values_of(rig({"a": 60.0}, wire))["heater.a.volts"] for wire in wires.values()]
    assert volts == sorted(volts)


def test_wired_with_tries_gauges_and_volts_and_holds_the_rest():
    of = rig({"a": 60.0}, feet("r", 18, 14, feeds=("a",)))
    thicker = circuit_case.wired_with(of, {"r": 10})
    assert thicker.runs["r"].gauge == 10
    assert circuit_case.wired_with(of, volts=6.4).heaters["a"].volts == pytest.approx(
        wired(of).heaters["a"].volts / 2, rel=1e-12
    )

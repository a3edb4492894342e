"""The circuits' figures against worked networks: N1 to N11 and E1 of the checks."""

import pytest

from tests.circuit_case_builder import feet, rig, values_of

N3 = (
    feet("feed", 6, 10),
    feet("a", 12, 14, from_="feed", feeds=("a",)),
    feet("b", 20, 14, from_="feed", feeds=("b",)),
)
N9 = (
    feet("feed", 6, 10),
    feet("a", 12, 14, from_="feed", feeds=("a",)),
    feet("b", 12, 14, from_="feed", back="a", feeds=("b",), fuse="auto"),
    feet("c", 15, 14, from_="feed", back="chassis", feeds=("c",), fuse="auto"),
)
LOADS = {"a": 60.0, "b": 40.0, "c": 25.0}


def at(amps, charging, volts):
    """A current as the figure has it, at the charging volts, from one stated at the night's."""
    return amps * charging / volts


@pytest.mark.parametrize(
    ("table", "amps", "volts", "watts", "drop"),
    [("awg", 5.127433, 12.305839, 63.0974, 0.0386063), ("sae", 5.105883, 12.254119, 62.5681, 0.0426469)],
)
def test_one_pad_on_one_run(table, amps, volts, watts, drop):
    found = values_of(rig({"a": 60.0}, feet("r", 18, 14, feeds=("a",)), table=table))
    # N1, N7 · job · COMPUTED by independent code · rel 1e-5: its printed digits
    assert found["heater.a.volts"] == pytest.approx(volts, rel=1e-5)
    assert found["heater.a.watts"] == pytest.approx(watts, rel=1e-5)
    assert found["heater.a.drop"] == pytest.approx(drop, rel=1e-5)
    assert found["heater.a.current"] == pytest.approx(at(amps, 13.6, 12.8), rel=1e-5)


def test_the_share_of_drop_does_not_hang_on_the_supply():
    found = values_of(rig({"a": 60.0}, feet("r", 18, 14, feeds=("a",)), volts=13.6))
    # N2 · job · COMPUTED · rel 1e-5
    assert found["heater.a.current"] == pytest.approx(5.447898, rel=1e-5)
    assert found["run.r.current"] == pytest.approx(5.447898, rel=1e-5)
    assert found["heater.a.volts"] == pytest.approx(13.074954, rel=1e-5)
    assert found["heater.a.watts"] == pytest.approx(71.2310, rel=1e-5)
    assert found["heater.a.drop"] == pytest.approx(0.0386063, rel=1e-5)


@pytest.mark.parametrize(
    ("table", "amps", "volts", "drops"),
    [
        ("awg", (10.195566, 5.141706, 5.053860), (12.340095, 12.129263), (0.035930, 0.052401)),
        ("sae", (10.146457, 5.121537, 5.024920), (12.291688, 12.059808), (0.0397118, 0.0578275)),
    ],
)
def test_two_pads_behind_one_feed(table, amps, volts, drops):
    found = values_of(rig({"a": 60.0, "b": 60.0}, *N3, table=table))
    # N3, N8 · job · COMPUTED · rel 1e-5; drops of N3 are printed to four decimals of a per cent
    for run, current in zip(("feed", "a", "b"), amps, strict=True):
        assert found[f"run.{run}.current"] == pytest.approx(at(current, 13.6, 12.8), rel=1e-5)
        assert found[f"run.{run}.return_current"] == pytest.approx(at(current, 13.6, 12.8), rel=1e-5)
    for pad, each, drop in zip(("a", "b"), volts, drops, strict=True):
        assert found[f"heater.{pad}.volts"] == pytest.approx(each, rel=1e-5)
        assert found[f"heater.{pad}.drop"] == pytest.approx(drop, abs=5e-7)
    if table == "awg":
        assert found["heater.a.watts"] == pytest.approx(63.4491, rel=1e-5)
        assert found["heater.b.watts"] == pytest.approx(61.2996, rel=1e-5)
    # own returns: drops add up along the path to the heater's · 1e-12: arithmetic
    assert found["run.feed.drop"] + found["run.a.drop"] == pytest.approx(
        12.8 - found["heater.a.volts"], abs=1e-12
    )


def test_back_by_the_chassis():
    found = values_of(rig({"a": 60.0}, feet("r", 15, 14, back="chassis", feeds=("a",))))
    # N4 · job · COMPUTED · rel 1e-5
    assert found["run.r.current"] == pytest.approx(at(5.234839, 13.6, 12.8), rel=1e-5)
    assert found["heater.a.volts"] == pytest.approx(12.563612, rel=1e-5)
    assert found["heater.a.drop"] == pytest.approx(0.0184678, rel=1e-5)
    assert found["run.r.drop"] == pytest.approx(0.236388, rel=1e-5)


def test_one_return_lent_to_another_run():
    found = values_of(
        rig(
            {"a": 50.0, "b": 70.0},
            feet("a", 16, 14, feeds=("a",)),
            feet("b", 16, 14, back="a", feeds=("b",)),
            volts=13.2,
            charging=13.2,
        )
    )
    # N5 · job · COMPUTED · rel 1e-5
    assert found["run.a.current"] == pytest.approx(4.363225, rel=1e-5)
    assert found["run.b.current"] == pytest.approx(6.072916, rel=1e-5)
    assert found["run.a.return_current"] == pytest.approx(10.436141, rel=1e-5)
    assert found["run.b.return_current"] is None
    assert found["heater.a.volts"] == pytest.approx(12.566088, rel=1e-5)
    assert found["heater.b.volts"] == pytest.approx(12.492856, rel=1e-5)
    assert found["run.a.drop"] == pytest.approx(0.633912, rel=1e-5)
    assert found["run.b.drop"] == pytest.approx(0.707144, rel=1e-5)


@pytest.mark.parametrize(
    ("table", "feed", "far", "chassis"),
    [("awg", 1007.375, 166.327, 248.4967), ("sae", 906.471, 149.8908, 226.1201)],
)
def test_a_short_at_each_far_end(table, feed, far, chassis):
    found = values_of(rig(LOADS, *N9, table=table))
    # N9 · job · COMPUTED, c by hand 12.8/(0.006353 + 0.040157 + 0.005) · rel 1e-5
    assert found["run.feed.short"] == pytest.approx(feed, rel=1e-5)
    assert found["run.a.short"] == pytest.approx(far, rel=1e-5)
    assert found["run.b.short"] == pytest.approx(far, rel=1e-5)
    assert found["run.c.short"] == pytest.approx(chassis, rel=1e-5)


def test_a_short_and_a_meter_at_one_pad():
    found = values_of(rig({"a": 60.0}, feet("r", 18, 14, feeds=("a",))))
    # N9, N10 in brackets: N1 · job · COMPUTED · rel 1e-6
    assert found["run.r.short"] == pytest.approx(132.8134, rel=1e-6)
    assert found["run.r.resistance"] == pytest.approx(2.496376, rel=1e-6)


@pytest.mark.parametrize(
    ("table", "feed", "b", "c"),
    [("awg", 1.195304, 3.670604, 5.805157), ("sae", 1.200015, 3.678335, 5.809547)],
)
def test_a_meter_at_each_fuse_holder(table, feed, b, c):
    found = values_of(rig(LOADS, *N9, table=table))
    # N10 · job · COMPUTED, b = its wire + 3.6 + a's return + feed's return · rel 1e-6
    assert found["run.feed.resistance"] == pytest.approx(feed, rel=1e-6)
    assert found["run.b.resistance"] == pytest.approx(b, rel=1e-6)
    assert found["run.c.resistance"] == pytest.approx(c, rel=1e-6)
    assert found["run.a.resistance"] is None


@pytest.mark.parametrize(
    ("gauge", "length", "times"), [(16, 25, 12.0280), (18, 30, 6.3037), (18, 45, 4.2024)]
)
def test_a_short_over_the_fuse(gauge, length, times):
    found = values_of(rig({"a": 40.0}, feet("r", length, gauge, feeds=("a",))))
    assert found["run.r.fuse"] == 5.0
    # N11 · job · COMPUTED · rel 1e-4: printed digits; the last is `slow-fuse` (test_circuit_findings)
    assert found["run.r.short"] / found["run.r.fuse"] == pytest.approx(times, rel=1e-4)


@pytest.mark.parametrize(
    ("volts", "charging", "amps", "fuse", "pad"),
    [
        (12.8, 14.6, 8.039370, 15.0, 12.68679),
        (12.1, 14.7, 8.094434, 15.0, 11.99298),
        (12.1, 14.8, 8.149499, 15.0, 11.99298),
        (12.8, 13.6, 7.488728, 10.0, None),
    ],
)
def test_fuse_by_the_charging_volts_pad_by_the_nights(volts, charging, amps, fuse, pad):
    found = values_of(rig({"a": 80.0}, feet("r", 3, 14, feeds=("a",)), volts=volts, charging=charging))
    # E1 · job; the volts are the defaults of lithium, agm and flooded, PRACTICE · rel 1e-5
    assert found["run.r.current"] == pytest.approx(amps, rel=1e-5)
    assert found["run.r.fuse"] == fuse
    if pad is not None:
        assert found["heater.a.volts"] == pytest.approx(pad, rel=1e-5)


def test_a_heater_in_no_run_has_its_resistance_and_nothing_else():
    found = values_of(rig({"a": 60.0, "b": 60.0}, feet("r", 18, 14, feeds=("a",))))
    assert found["heater.b.resistance"] == 2.4
    for name in ("volts", "watts", "drop", "current"):
        assert found[f"heater.b.{name}"] is None


def test_a_run_without_length_shorts_without_limit():
    found = values_of(rig({"a": 60.0}, feet("r", 0, 14, feeds=("a",))))
    assert found["run.r.short"] is None
    assert found["heater.a.volts"] == 12.8
    # hand · V²/P alone · exact
    assert found["run.r.resistance"] == pytest.approx(2.4, rel=1e-12)

"""Automatic gauges and fuses against worked choices: F1 to F6 of the checks."""

import pytest

from logic.physics.protection import standard_fuse
from tests.circuit_case_builder import feet, rig, values_of


def gauges(found, *runs):
    return tuple(found[f"run.{run}.gauge"] for run in runs)


@pytest.mark.parametrize(("table", "drop"), [("awg", 0.0246326), ("sae", 0.0274949)])
def test_one_run_by_its_drop(table, drop):
    found = values_of(rig({"a": 60.0}, feet("r", 18, None, feeds=("a",)), table=table))
    # F1 · job · COMPUTED · exact; rel 1e-5
    assert found["run.r.gauge"] == 12
    assert found["heater.a.drop"] == pytest.approx(drop, rel=1e-5)
    assert found["run.r.fuse"] == 7.5
    if table == "awg":
        assert found["run.r.current"] == pytest.approx(5.527082, rel=1e-5)


def test_one_run_by_its_ampacity():
    found = values_of(rig({"a": 100.0}, feet("r", 3, None, feeds=("a",))))
    # F2 · job · COMPUTED; 16 AWG has 8 A · exact; rel 1e-5
    assert found["run.r.gauge"] == 14
    assert found["run.r.current"] == pytest.approx(9.340258, rel=1e-5)
    assert 1.25 * found["run.r.current"] == pytest.approx(11.675, rel=1e-4)
    assert found["run.r.fuse"] == 15
    assert found["heater.a.drop"] == pytest.approx(0.0110316, rel=1e-5)


@pytest.mark.parametrize(
    ("amps", "fuse"),
    [
        (4.0, 5),
        (4.01, 7.5),
        (6, 7.5),
        (6.01, 10),
        (8, 10),
        (12, 15),
        (12.01, 20),
        (24, 30),
        (28, 35),
        (32, 40),
        (32.01, 50),
    ],
)
def test_the_smallest_standard_rating(amps, fuse):
    # F3 · NEC 427.4 and 424.4(B), ISO 8820-3 · COMPUTED · exact
    assert standard_fuse(amps) == fuse


def test_no_standard_rating_over_100_amperes():
    assert standard_fuse(80.0) == 100
    assert standard_fuse(80.01) is None


@pytest.mark.parametrize(
    ("table", "limit", "chosen", "copper"),
    [
        ("awg", 0.03, (10, 12, 10), 0.975619),
        ("awg", 0.05, (12, 14, 12), 0.613573),
        ("sae", 0.03, (8, 12, 10), 0.968331),
        ("sae", 0.05, (12, 14, 12), 0.549214),
    ],
)
def test_three_runs_behind_one_fuse(table, limit, chosen, copper):
    found = values_of(
        rig(
            {"a": 60.0, "b": 60.0},
            feet("feed", 6, None),
            feet("a", 12, None, from_="feed", feeds=("a",)),
            feet("b", 20, None, from_="feed", feeds=("b",)),
            table=table,
            limit=limit,
        )
    )
    # F4 · all 512 choices tried · COMPUTED · exact; 1e-5
    assert gauges(found, "feed", "a", "b") == chosen
    assert found["wiring.copper"] == pytest.approx(copper, abs=5e-7)
    assert found["run.feed.fuse"] == 15


@pytest.mark.parametrize(
    ("table", "limit", "copper", "drop"),
    [("awg", 0.035, 0.268134, 0.0316699), ("sae", 0.04, 0.240363, 0.0351304)],
)
def test_a_tie_goes_to_the_thicker_wire_in_the_first_run(table, limit, copper, drop):
    found = values_of(
        rig(
            {"a": 60.0},
            feet("feed", 9, None),
            feet("tail", 9, None, from_="feed", feeds=("a",)),
            table=table,
            limit=limit,
        )
    )
    # F5 · all 64 choices tried · COMPUTED · exact; 1e-5
    assert gauges(found, "feed", "tail") == (12, 14)
    assert found["wiring.copper"] == pytest.approx(copper, abs=5e-7)
    assert found["heater.a.drop"] == pytest.approx(drop, rel=1e-5)
    assert found["run.feed.fuse"] == 7.5


@pytest.mark.parametrize(
    ("table", "limit", "chosen", "copper"),
    [
        ("awg", 0.05, (12, 14), 0.384662),
        ("awg", 0.03, (10, 12), 0.611636),
        ("sae", 0.05, (12, 14), 0.344359),
        ("sae", 0.03, (10, 12), 0.549410),
    ],
)
def test_a_lent_return_carries_the_sum_of_the_fuses(table, limit, chosen, copper):
    found = values_of(
        rig(
            {"a": 50.0, "b": 70.0},
            feet("a", 16, None, feeds=("a",)),
            feet("b", 16, None, back="a", feeds=("b",)),
            table=table,
            limit=limit,
        )
    )
    # F6 · all 64 choices tried · COMPUTED · exact; 1e-5
    assert (found["run.a.fuse"], found["run.b.fuse"]) == (7.5, 10)
    assert gauges(found, "a", "b") == chosen
    assert found["wiring.copper"] == pytest.approx(copper, abs=5e-7)


def test_a_run_without_length_takes_the_thinnest_that_its_fuse_allows():
    found = values_of(rig({"a": 100.0}, feet("r", 0, None, feeds=("a",))))
    # rig-format, conventions of `gauge` · 100 W at 13.6 V: 9.44 A, fuse 15 A, 14 AWG · exact
    assert gauges(found, "r") == (14,)
    assert found["wiring.copper"] == 0


def test_nothing_feasible_leaves_the_gauges_open_and_the_rest_at_4_awg():
    found = values_of(rig({"a": 60.0}, feet("r", 300, None, feeds=("a",))))
    thick = values_of(rig({"a": 60.0}, feet("r", 300, 4, feeds=("a",))))
    assert found["run.r.gauge"] is None
    assert found["heater.a.volts"] == thick["heater.a.volts"]
    assert found["wiring.copper"] == thick["wiring.copper"]


def test_a_given_gauge_that_no_choice_can_mend_is_left_to_its_own_finding():
    found = values_of(
        rig(
            {"a": 100.0, "b": 60.0},
            feet("thin", 2, 18, feeds=("a",)),
            feet("r", 18, None, feeds=("b",)),
        )
    )
    # 11.7 A behind 18 AWG is wrong, and wrong whatever r has: r is chosen all the same
    assert gauges(found, "thin", "r") == (18, 12)


def test_a_given_feed_answers_for_its_own_fuse_whatever_lies_behind_it():
    found = values_of(
        rig({"a": 180.0}, feet("feed", 1, 12), feet("branch", 20, None, from_="feed", feeds=("a",)))
    )
    # rig-format: rules that no automatic run on the way out or back can change are left to their own findings.
    # 16.6 A × 1.25 wants 25 A over 12 AWG; a branch too thin for its drop would draw less, but lies behind
    assert found["run.feed.fuse"] == 25
    assert gauges(found, "feed", "branch") == (12, 6)
    assert found["heater.a.drop"] < 0.03


def test_a_given_branch_binds_the_feed_before_it():
    def choice(branch):
        wires = feet("feed", 12, None), feet("thin", 1, branch, from_="feed", feeds=("a", "b"))
        return gauges(values_of(rig({"a": 60.0, "b": 114.3}, *wires)), "feed", "thin")

    # the same convention: 10 AWG drops 3.4 %; from 8 AWG on 1.25 × 16.03 A asks for 25 A, over 12 AWG behind
    assert choice(12) == (None, 12)
    assert choice(10) == (8, 10)


def test_an_automatic_run_without_length_answers_for_no_drop():
    wires = (feet("tap", 0, None), feet("r", 60, 14, from_="tap", feeds=("a",)))
    found = values_of(rig({"a": 60.0}, *wires))
    # rig-format: rules that no automatic run can change are left to their own findings; 5.0 A × 1.25: fuse
    # 7.5, 16 AWG
    assert found["heater.a.drop"] > 0.03
    assert gauges(found, "tap", "r") == (16, 14)

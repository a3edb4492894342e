"""The program's account of random readings against the second reckoning; more of them by `long_run`."""

import copy

import msgspec
import pytest

from tests.independent.random_sessions import recorded

SEEDS = range(3, 12)


@pytest.mark.parametrize("seed", SEEDS)
def test_random_readings_amount_to_the_same(seed, tmp_path):
    # job "Readings", rig-format · COMPUTED by a second reckoning · tolerances: in readings_compare.py, with reasons
    lines = recorded(seed, tmp_path).differences
    assert not lines, f"seed {seed}, second reckoning / program:\n" + "\n".join(lines)


# --- what the comparison must see: each kind of difference, put into a true answer by hand ---


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    return recorded(29, tmp_path_factory.mktemp("readings"))


def starting_with(lines, name):
    return [line for line in lines if line.startswith(name)]


@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("tank.tank-0.volume", {"value": 1.0}),
        ("tank.tank-0.volume", {"u": 1.0}),
        ("tank.tank-0.volume", {"u": None}),
        ("tank.tank-0.volume", {"slots": ["tank.tank-0.wall"]}),
        ("tank.tank-0.holds_to", {"low": -99.0}),
    ],
)
def test_a_wrong_figure_of_readings_is_seen_and_named(sound, name, values):
    assert not sound.differences
    answer = copy.deepcopy(sound.answer)
    next(figure for figure in answer["figures"] if figure["id"] == name).update(values)
    assert starting_with(sound._replace(answer=answer).differences, name)


@pytest.mark.parametrize(
    "rule",
    [
        "planned",
        "single",
        "dispute",
        "far-from-plan",
        "untested",
        "resistance",
        "isolation",
        "volts",
        "joint",
    ],
)
def test_a_finding_too_few_is_seen(sound, rule):
    answer = copy.deepcopy(sound.answer)
    gone = next(one for one in answer["findings"] if one["id"].startswith(f"{rule}:"))
    answer["findings"].remove(gone)
    assert starting_with(sound._replace(answer=answer).differences, gone["id"])


@pytest.mark.parametrize(
    "changes", [{"value": 9.0}, {"u": None}, {"state": "agreed"}, {"owed": 2}, {"impossible": "too long"}]
)
def test_a_slot_that_stands_otherwise_is_seen(sound, changes):
    name = next(slot for slot, view in sound.views.items() if view.state == "in dispute")
    views = sound.views | {name: msgspec.structs.replace(sound.views[name], **changes)}
    assert starting_with(sound._replace(views=views).differences, name)


def test_a_reading_that_was_answered_otherwise_is_told(sound):
    sound.account.wrong.append("a reading: taken / refused")
    try:
        assert "a reading: taken / refused" in sound.differences
    finally:
        sound.account.wrong.clear()


# --- the same of tests of the wiring and of joints ---


def with_proof(one, **changes):
    proof, findings = one.tests
    return one._replace(tests=(msgspec.structs.replace(proof, **changes), findings))


@pytest.mark.parametrize(
    "changes", [{"expected": 99.0}, {"low": None}, {"high": 99.0}, {"state": "good"}, {"u": 99.0}]
)
def test_a_wrong_test_of_the_wiring_is_seen_and_named(sound, changes):
    trials = sound.tests[0].trials
    off = next(one for one in trials if one.state == "off" and one.quantity == "volts")
    wrong = [msgspec.structs.replace(one, **changes) if one is off else one for one in trials]
    assert starting_with(with_proof(sound, trials=tuple(wrong)).differences, off.slot)


@pytest.mark.parametrize("changes", [{"u": 99.0}, {"ohms": 9.0}, {"watts": 9.0}, {"bad": None}])
def test_a_wrong_joint_is_seen_and_named(sound, changes):
    first, *others = sound.tests[0].joints
    wrong = msgspec.structs.replace(first, extra=msgspec.structs.replace(first.extra, **changes))
    lines = with_proof(sound, joints=(wrong, *others)).differences
    assert starting_with(lines, f"joint of {first.heater}")


def test_a_test_and_a_joint_too_few_are_seen(sound):
    proof = sound.tests[0]
    lines = with_proof(sound, trials=proof.trials[1:], joints=proof.joints[1:]).differences
    assert starting_with(lines, proof.trials[0].slot)
    assert starting_with(lines, f"joint of {proof.joints[0].heater}")

"""What make safe must have written down: the same rule behind every face, and what a refusal says of it."""

import pytest

from logic.assessment.make_safe_record import volts_in
from logic.data.quantities import fill
from logic.session.intents import FinishStep, RecordInStep, StartStep
from tests.contract.session_day import words_of
from tests.technician import MADE_SAFE, finished

DEAD, THREE = "proven-dead:rig", MADE_SAFE["proven-dead"]


@pytest.fixture
def sources_off(day):
    """All of make safe that comes before the meter is done."""
    for step in ("profile-complete:rig", "drain-flush:tank.gray", "drain-flush:tank.black"):
        day.take(FinishStep(step))
    for step in day.session.assess(day.now).steps:
        if step.group == "make safe" and step.template not in MADE_SAFE:
            day.take(FinishStep(step.id))
    day.take(StartStep(DEAD))
    return day


def test_nothing_is_proven_dead_with_nothing_written_down(sources_off):
    answer = sources_off.refuse(FinishStep(DEAD))
    assert answer.written_down == tuple(THREE)
    assert all(name in words_of(answer) for name in THREE)
    assert "the meter on a source that you know is live" in words_of(answer)


def test_a_word_alone_counts_only_where_nothing_is_said_and_is_said_to_be_one(sources_off):
    """From a script; what is said partly, or shows that the circuit is live, is refused there too."""
    sources_off.refuse(FinishStep(DEAD, "", {"circuit": "0 V"}, on_word=True))
    sources_off.refuse(FinishStep(DEAD, "", {**THREE, "circuit": "12 V"}, on_word=True))
    taken = sources_off.take(FinishStep(DEAD, on_word=True))
    assert "on your word: nothing is written down of known source before" in fill(taken.said, "us")


@pytest.mark.parametrize("left_out", THREE)
def test_each_of_the_three_readings_is_wanted(sources_off, left_out):
    answer = sources_off.refuse(FinishStep(DEAD, "", {**THREE, left_out: " "}))
    assert answer.written_down == (left_out,)


@pytest.mark.parametrize(
    ("what", "answer", "said"),
    [
        ("circuit", "12.4 V", "it is live"), ("circuit", "0 V red, 11.9 V black", "it is live"),
        ("circuit", "OL", "no reading of a meter"), ("circuit", "dead", "no reading of a meter"),
        ("circuit", "0,51", "it is live"), ("known source before", "0.0 V", "the meter sees nothing"),
        ("known source after", "0.2", "the meter sees nothing"), ("known source after", "ok", "no reading"),
    ],
)  # fmt: skip
def test_an_answer_that_proves_nothing_is_refused(sources_off, what, answer, said):
    assert said in words_of(sources_off.refuse(FinishStep(DEAD, "", {**THREE, what: answer})))


@pytest.mark.parametrize("circuit", ["0 V", "0.5 V", "-0.02", "40 mV", "0 V on 3 wires"])
def test_three_readings_of_the_meter_prove_a_circuit_dead(sources_off, circuit):
    sources_off.take(FinishStep(DEAD, "", {**THREE, "circuit": circuit}))
    assert sources_off.step(DEAD).state == "done"


def test_three_readings_in_the_note_count_as_well(sources_off):
    sources_off.take(FinishStep(DEAD, "; ".join(f"{name}: {answer}" for name, answer in THREE.items())))


def test_what_was_written_before_does_not_count(sources_off):
    """A reading of this morning, or of yesterday, says nothing of the circuit as it is called dead."""
    sources_off.take(RecordInStep(DEAD, THREE))
    sources_off.refuse(FinishStep(DEAD))
    sources_off.take(finished(DEAD))
    sources_off.seconds += 24 * 3600
    sources_off.take(RecordInStep(DEAD, THREE))
    assert sources_off.step(DEAD).lapsed
    for step in sources_off.session.assess(sources_off.now).steps:
        if step.group == "make safe" and step.template not in MADE_SAFE:
            sources_off.take(FinishStep(step.id))
    sources_off.refuse(FinishStep(DEAD))


def test_a_circuit_that_is_found_live_afterwards_is_no_longer_proven_dead(sources_off):
    sources_off.take(finished(DEAD))
    sources_off.take(RecordInStep(DEAD, {"circuit": "0.1 V"}))
    assert not sources_off.step(DEAD).lapsed
    sources_off.take(RecordInStep(DEAD, {"circuit": "12.4 V"}))
    assert sources_off.step(DEAD).lapsed
    [block] = [one for one in sources_off.step("supports:tank.gray").blocks if one.id == "lapsed"]
    assert "the circuit shows volts; find what feeds it" in fill(block.text, "us")
    sources_off.take(finished(DEAD))
    assert sources_off.step(DEAD).state == "done"


@pytest.mark.parametrize("step", ["gas-located:rig", "mains-located:rig"])
def test_a_pipe_and_a_cable_are_found_only_with_something_written_down(sources_off, step):
    assert "not seen is an answer too" in words_of(sources_off.refuse(FinishStep(step)))
    sources_off.take(finished(step))


@pytest.mark.parametrize(
    ("text", "volts"),
    [
        ("12.6 V", 12.6), ("0,3", 0.3), ("-12 V", 12.0), ("40 mV", 0.04), ("0 V, then 2 V", 2.0),
        ("3 wires, 0.1 V", 0.1), (".4 volts", 0.4), ("dead", None), ("", None),
    ],
)  # fmt: skip
def test_volts_are_found_in_an_answer(text, volts):
    assert volts_in(text) == pytest.approx(volts)

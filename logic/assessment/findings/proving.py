"""Rules about the tests of the finished wiring: what was not measured, what reads as it should not."""

from collections.abc import Iterator

from logic.assessment.case import Case
from logic.assessment.findings.rule import Find, find, rule
from logic.assessment.proving import proof_of
from logic.assessment.trial import OFF, UNTESTED, Trial
from logic.assessment.work_facts import facts_of
from logic.data.place_names import name_of
from logic.data.profile import Heater, Run
from logic.data.wiring_constants import JOINT_OHMS, JOINT_WATTS, LEAST_ISOLATION
from logic.data.wording import Quantity, at_least, quantity, words

MUST_BE_READ = ("resistance", "volts", "isolation", "current")


def _of(case: Case, place: str) -> Iterator[Trial]:
    return (test for test in proof_of(case).trials if test.place == place)


def _read(test: Trial) -> Quantity | str:
    if test.over or test.value is None:
        return "over range"
    return quantity(test.value, test.kind)


def _untested(case: Case, place: str, names: tuple[str, ...]) -> Iterator[Find]:
    tested = {test.quantity: test for test in _of(case, place)}
    for name in names:
        test = tested.get(name)
        if test is not None and test.state != UNTESTED:
            continue
        if test is None and (
            place.startswith("run.")  # not a circuit, or nothing behind it
            or facts_of(case).newest(f"{place}.{name}") is not None  # of a pad in no circuit
        ):
            continue
        yield find(
            place=f"{place}.{name}",
            text=words("{slot}: not measured", slot=name_of(f"{place}.{name}", case.profile)),
            remedy=words("measure it and read it in")
            if test is None or test.expected is None
            else words("measure it: {expected} is expected", expected=quantity(test.expected, test.kind)),
        )


@rule("untested", weight="stop", per="heater", source="practice-meter", session=True, open=True)
def heater_untested(case: Case, heater: Heater) -> Iterator[Find]:
    """A heater's resistance or volts has no reading."""
    yield from _untested(case, f"heater.{heater.id}", ("resistance", "volts"))


@rule("untested", weight="stop", per="run", source="practice-meter", session=True, acceptable=False)
def circuit_untested(case: Case, run: Run) -> Iterator[Find]:
    """A circuit's isolation or current has no reading."""
    yield from _untested(case, f"run.{run.id}", ("isolation", "current"))


@rule("resistance", weight="stop", per="heater", source="practice-meter", session=True, open=True)
def heater_resistance_off(case: Case, heater: Heater) -> Iterator[Find]:
    """A heater's resistance, leads taken off, is outside its tolerance."""
    yield from _resistance(case, f"heater.{heater.id}")


@rule("resistance", weight="stop", per="run", source="practice-meter", session=True, open=True)
def circuit_resistance_off(case: Case, run: Run) -> Iterator[Find]:
    """A circuit's resistance at its fuse holder is outside what its heaters' tolerances allow."""
    yield from _resistance(case, f"run.{run.id}")


def _resistance(case: Case, place: str) -> Iterator[Find]:
    for test in _of(case, place):
        if test.quantity != "resistance" or test.state != OFF or test.low is None or test.high is None:
            continue
        bare = test.measured is not None and test.corrected is None and not test.over
        yield find(
            text=words(
                "{part} reads {measured}, {low} to {high} is expected",
                part=place.partition(".")[2],
                measured=_read(test),
                low=quantity(test.low, "ohms"),
                high=quantity(test.high, "ohms"),
            ),
            remedy=words("touch the meter's leads together, read them in, and measure again")
            if bare
            else words(
                "see what the diagnosis ranks first; chill a thermostat's sensor before you call a pad dead"
            ),
        )


@rule("current", weight="stop", per="run", source="practice-loaded-tests", session=True, open=True)
def current_off(case: Case, run: Run) -> Iterator[Find]:
    """A circuit draws other than it should."""
    for test in _of(case, f"run.{run.id}"):
        if test.quantity != "current" or test.state != OFF or test.expected is None or test.supply is None:
            continue
        yield find(
            text=words(
                "{run} draws {measured}, {expected} is expected at {supply}"
                + ("" if test.supply_read else ", not read"),
                run=run.id,
                measured=_read(test),
                expected=quantity(test.expected, "amps"),
                supply=quantity(test.supply, "volts"),
            ),
            remedy=words("see what the diagnosis ranks first")
            if test.supply_read
            else words("read the supply's volts with the circuit energised, then its current again"),
        )


@rule("volts", weight="stop", per="heater", source="practice-loaded-tests", session=True, open=True)
def volts_off(case: Case, heater: Heater) -> Iterator[Find]:
    """A pad's volts are off what its circuit should give it by more than 3 % of the supply's."""
    for test in _of(case, f"heater.{heater.id}"):
        if test.quantity != "volts" or test.state != OFF or test.expected is None or test.supply is None:
            continue
        yield find(
            text=words(
                "{heater} has {measured}, {expected} is expected at {supply}"
                + ("" if test.supply_read else ", not read"),
                heater=heater.id,
                measured=_read(test),
                expected=quantity(test.expected, "volts"),
                supply=quantity(test.supply, "volts"),
            ),
            remedy=words("read its drops out and back in mV: the leg that loses too much has the bad joint"),
        )


@rule(
    "isolation",
    weight="stop",
    per="run",
    source="practice-isolation",
    session=True,
    open=True,
    acceptable=False,
)
def leaks_to_chassis(case: Case, run: Run) -> Iterator[Find]:
    """A circuit's conductors are not isolated from the chassis."""
    for test in _of(case, f"run.{run.id}"):
        if test.quantity != "isolation" or test.state != OFF or test.measured is None:
            continue
        yield find(
            text=words(
                "{run} leaks to the chassis: {measured}, the least is {least}",
                run=run.id,
                measured=quantity(test.measured, "ohms"),
                least=quantity(LEAST_ISOLATION, "ohms"),
            ),
            remedy=words("find where its harness chafes or a pad's edge is wet, then measure again"),
        )


@rule("joint", weight="stop", per="heater", source="practice-joint", session=True, open=True)
def bad_joint(case: Case, heater: Heater) -> Iterator[Find]:
    """Joints on the way to a heater add too much resistance, or burn too much."""
    for joint in proof_of(case).joints:
        if joint.heater != heater.id or not joint.extra.bad:
            continue
        yield find(
            text=words(
                "joints on the way to {heater} add {extra}, burn {watts}; the most is {most} or {most_watts}",
                heater=heater.id,
                extra=at_least(joint.extra.ohms, "ohms"),
                watts=at_least(joint.extra.watts, "power"),
                most=quantity(JOINT_OHMS, "ohms"),
                most_watts=quantity(JOINT_WATTS, "power"),
            ),
            remedy=words("make the worst joint of that way again, out or back, and measure again"),
        )

"""The program's tests of the wiring beside the second reckoning: expected, accepted, judged, and the joints.

Both sides are closed formulas (EXACT). An uncertainty is a difference here (DIFFERENCED of it), and what stands in
series is one of two numbers that are nearly equal: as close as those are (EXACT of them).
"""

from tests.independent.circuit import solved
from tests.independent.compare import EXACT
from tests.independent.proving import Proving
from tests.independent.standing import standing

DIFFERENCED = 1e-6
OF_TESTS = ("resistance", "isolation", "current", "volts", "joint")


def differences(rig, account, proof, findings):
    """Lines `what: mine / the program's`, fuses put in and taken out as the account has it."""
    measured = standing(rig, account.standing()).measured
    mine = Proving(measured, solved(measured), account.meters, account.live)
    lines = [*test_differences(mine.tests(), proof.trials), *joint_differences(mine.joints(), proof.joints)]
    found = {one.id for one in findings if one.id.partition(":")[0] in OF_TESTS}
    wanted = mine.findings().keys()
    return [*lines, *(f"{name}, energised: {name in wanted} / {name in found}" for name in wanted ^ found)]


def test_differences(mine, trials):
    theirs = {trial.slot: trial for trial in trials}
    if len(theirs) != len(trials):
        yield f"tests: each once / {sorted(trial.slot for trial in trials)}"
    for slot in mine.keys() | theirs.keys():
        own, trial = mine.get(slot), theirs.get(slot)
        if (
            own is None
            or trial is None
            or standing_of(own) != (trial.state, trial.over or trial.value is None)
        ):
            yield f"{slot}: {own} / {trial}"
            continue
        # over range, the program keeps what it is over as its value
        for name in ("expected", "low", "high", "u", *(() if trial.over else ("value",))):
            if not alike(getattr(own, name), getattr(trial, name)):
                yield f"{slot} {name}: {getattr(own, name)} / {getattr(trial, name)}"


def standing_of(own):
    return own.state, own.value is None


def joint_differences(mine, joints):
    theirs = {joint.heater: joint for joint in joints}
    for heater in mine.keys() | theirs.keys():
        own, joint = mine.get(heater), theirs.get(heater)
        if own is None or joint is None:
            yield f"joint of {heater}: {own} / {joint}"
            continue
        extra, seen = joint.extra, joint.extra.ohms + joint.computed + joint.allowed
        off = EXACT * abs(seen)
        told = (own.by, own.bad) == (joint.by, extra.bad)
        ohms, watts = abs(own.ohms - extra.ohms), abs(own.watts - extra.watts)
        if (
            not told
            or ohms > off
            or watts > off * joint.amps**2
            or abs(own.u - extra.u) > DIFFERENCED * own.u
        ):
            yield f"joint of {heater}: {own}, bad {own.bad} / {joint.by}, {extra}"


def alike(mine, theirs):
    if mine is None or theirs is None:
        return mine is theirs
    return abs(mine - theirs) <= EXACT * max(abs(mine), 0.02)

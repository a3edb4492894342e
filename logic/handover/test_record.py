"""The record of the tests: expected beside measured, circuit by circuit, and what the joints add."""

from logic.assessment.proving import JointTrial, Proof, Trial
from logic.data.wording import UP
from logic.handover.blocks import Block, Paragraph, Section, Table, without_empty_columns
from logic.handover.shown import Shown

HEADS = ("circuit", "at", "what", "expected", "accepted", "measured", "less leads", "state")
WHAT = {"drop_out": "drop, way out", "drop_back": "drop, way back"}
STATES = {"untested": "NOT MEASURED", "off": "OFF", "not judged": "in the joint"}


def tests_record(shown: Shown, proof: Proof) -> Section:
    """Every test that this rig wants, made or not."""
    blocks: list[Block] = []
    if proof.trials:
        runs = [run.id for run in shown.assessment.profile.runs]
        trials = sorted(
            proof.trials, key=lambda trial: runs.index(trial.circuit) if trial.circuit in runs else -1
        )
        rows = tuple(_trial(shown, trial) for trial in trials)
        blocks.append(without_empty_columns(Table(HEADS, rows, numbers=(3, 4, 5, 6))))
        blocks.append(Paragraph(_how(shown, proof)))
    if proof.joints:
        joints = tuple(_joint(shown, joint) for joint in proof.joints)
        joint_heads = (
            "joints to",
            "circuit",
            "found by",
            "current",
            "over computed",
            "± u",
            "burns",
            "state",
        )
        blocks.append(Table(joint_heads, joints, numbers=(3, 4, 5, 6)))
    if not blocks:
        blocks.append(Paragraph("Nothing in this rig is wired, so nothing was tested."))
    return Section("Test record", tuple(blocks))


def _how(shown: Shown, proof: Proof) -> str:
    """At which volts of the supply the loaded tests are told."""
    volts = {
        trial.circuit: f"{trial.circuit} {shown.quantity(trial.supply, 'volts')}"
        + ("" if trial.supply_read else " as planned, not read")
        for trial in proof.trials
        if trial.circuit and trial.supply is not None
    }
    at = f" Supply: {'; '.join(volts.values())}." if volts else ""
    return (
        f"Cold tests with the fuse out; loaded ones with their circuit alone energised, at the supply's volts "
        f"read then.{at} Less leads: what the meter's own leads show is taken off."
    )


def _trial(shown: Shown, trial: Trial) -> tuple[str, ...]:
    measured = "over range" if trial.over else shown.quantity(trial.measured, trial.kind)
    return (
        trial.circuit,
        "fuse holder" if trial.place == f"run.{trial.circuit}" else shown.place(trial.place),
        WHAT.get(trial.quantity, trial.quantity),
        "" if trial.expected is None else shown.quantity(trial.expected, trial.kind),
        _accepted(shown, trial),
        measured,
        "" if trial.corrected is None else shown.quantity(trial.corrected, trial.kind),
        STATES.get(trial.state, trial.state),
    )


def _accepted(shown: Shown, trial: Trial) -> str:
    low, high = trial.low, trial.high
    if low is not None and high is not None:
        return f"{shown.quantity(low, trial.kind)} … {shown.quantity(high, trial.kind)}"
    if low is not None:
        return f"at least {shown.quantity(low, trial.kind)}"
    return "" if high is None else f"at most {shown.quantity(high, trial.kind)}"


def _joint(shown: Shown, joint: JointTrial) -> tuple[str, ...]:
    return (
        joint.heater,
        joint.circuit,
        joint.by,
        shown.quantity(joint.amps, "amps"),
        shown.quantity(joint.extra.ohms, "ohms", UP),
        shown.quantity(joint.extra.u, "ohms", UP),
        shown.quantity(max(joint.extra.watts, 0.0), "power", UP),
        "MAKE AGAIN" if joint.extra.bad else "good",
    )

"""The record of the tests: expected beside measured, and what the joints add."""

from logic.assessment.proving import JointTrial, Proof, Trial
from logic.handover.blocks import Block, Paragraph, Section, Table
from logic.handover.shown import Shown


def tests_record(shown: Shown, proof: Proof) -> Section:
    """Every test that this rig wants, made or not."""
    blocks: list[Block] = []
    if proof.trials:
        rows = tuple(_trial(shown, trial) for trial in proof.trials)
        heads = ("place", "what", "circuit", "expected", "accepted", "measured", "leads off", "state")
        blocks.append(Table(heads, rows, numbers=(3, 4, 5, 6)))
        blocks.append(
            Paragraph(
                "Each test is made with its circuit alone energised, at the supply's volts measured then."
            )
        )
    if proof.joints:
        joints = tuple(_joint(shown, joint) for joint in proof.joints)
        joint_heads = ("heater", "circuit", "found by", "at", "more than computed", "u", "burns")
        blocks.append(Table(joint_heads, joints, numbers=(3, 4, 5, 6)))
    if not blocks:
        blocks.append(Paragraph("Nothing in this rig is wired, so nothing was tested."))
    return Section("Test record", tuple(blocks), page=True)


def _trial(shown: Shown, trial: Trial) -> tuple[str, ...]:
    measured = "over range" if trial.over else shown.quantity(trial.measured, trial.kind)
    return (
        trial.place,
        trial.quantity.replace("_", " "),
        trial.circuit,
        shown.quantity(trial.expected, trial.kind),
        _accepted(shown, trial),
        measured,
        "" if trial.corrected is None else shown.quantity(trial.corrected, trial.kind),
        trial.state,
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
        shown.quantity(joint.extra.ohms, "ohms"),
        shown.quantity(joint.extra.u, "ohms"),
        shown.quantity(joint.extra.watts, "power"),
    )

"""The tests as rows: by circuit, expected beside measured, what the joints add, and the likely faults with reasons."""

from collections.abc import Sequence

from logic.assessment.diagnosis import Diagnosis
from logic.assessment.proving import JointTrial, Proof, Trial
from tui.show import numbers
from tui.show.cells import pad, width_of
from tui.show.marks import Marks
from tui.show.names import place_name
from tui.show.rows import BAD, FAINT, GOOD, HEAD, PLAIN, STRONG, WARN, Line, Row, Span, beside, line, wrapped

STATES = {
    "untested": ("not measured", WARN),
    "good": ("good", GOOD),
    "off": ("OFF", BAD),
    "not judged": ("not judged", FAINT),
}
NAME_COLUMN = 34


def trial_name(trial: Trial) -> str:
    """What is measured where."""
    return f"{place_name(trial.place)} {trial.quantity.replace('_', ' ')}"


def expected_text(trial: Trial, units: str) -> str:
    """What the meter should show, and between what."""
    if trial.expected is None:
        if trial.low is not None:
            return f"at least {numbers.value_text(trial.low, trial.kind, units)}"
        return "–"
    said = numbers.value_text(trial.expected, trial.kind, units)
    if trial.low is not None and trial.high is not None:
        low, high = (numbers.value_text(edge, trial.kind, units) for edge in (trial.low, trial.high))
        return f"{said}, {low} … {high}"
    return said


def measured_text(trial: Trial, units: str) -> str:
    """What it shows, raw and with the leads taken off."""
    if trial.over:
        return "over range"
    if trial.measured is None:
        return "–"
    raw = numbers.value_text(trial.measured, trial.kind, units)
    if trial.corrected is None:
        return raw
    return f"{numbers.value_text(trial.corrected, trial.kind, units)} ({raw} with leads)"


def trial_row(trial: Trial, width: int, units: str, marks: Marks) -> Row:
    """One test: name, expected, measured, and in a word whether that is good."""
    word, role = STATES.get(trial.state, (trial.state, PLAIN))
    mark = {"good": marks.holds, "off": marks.fails}.get(trial.state, marks.waiting)
    told = (
        Span(f"expected {expected_text(trial, units)}", PLAIN),
        Span(
            f"   measured {measured_text(trial, units)}",
            STRONG if trial.measured is not None or trial.over else FAINT,
        ),
        Span(f"   {word} {mark}", role),
    )
    name = trial_name(trial)
    size = sum(width_of(span.text) for span in told)
    if NAME_COLUMN + size <= width and width_of(name) < NAME_COLUMN - 2:
        lines: tuple[Line, ...] = (line(Span(pad(f"  {name}", NAME_COLUMN)), *told),)
    else:
        tail = line(Span(f"{word} {mark}", role))
        first = beside(name, tail, width, column=width - width_of(f"{word} {mark}"), indent="  ")
        second = f"expected {expected_text(trial, units)}, measured {measured_text(trial, units)}"
        lines = (*first, *wrapped(second, width, indent="      "))
    return Row(f"trial:{trial.slot}:{trial.circuit}", lines)


def joint_row(joint: JointTrial, width: int, units: str) -> Row:
    """What the joints on the way to a pad add."""
    extra = joint.extra
    ohms, u = (numbers.value_text(value, "ohms", units) for value in (extra.ohms, extra.u))
    watts = numbers.value_text(extra.watts, "power", units)
    said = f"joints on the way to {joint.heater}, by {joint.by}: {ohms} extra, u {u}, {watts} burnt in them"
    verdict = ": make that joint again" if extra.bad else ""
    return Row(
        f"joint:{joint.heater}", wrapped(said + verdict, width, BAD if extra.bad else PLAIN, indent="  ")
    )


def test_rows(
    proof: Proof,
    diagnosis: Diagnosis | None,
    width: int,
    units: str,
    marks: Marks,
    *,
    circuits: Sequence[str],
) -> list[Row]:
    """All tests: the likely faults first where something is off, then by circuit."""
    rows = diagnosis_rows(diagnosis, width, units)
    loose = [trial for trial in proof.trials if not trial.circuit]
    groups: list[tuple[str, list[Trial]]] = [("each pad, cold", loose)] if loose else []
    for circuit in circuits:
        mine = [trial for trial in proof.trials if trial.circuit == circuit]
        if mine:
            volts = next((trial.supply for trial in mine if trial.supply is not None), None)
            read = any(trial.supply_read for trial in mine)
            at = f", at {numbers.value_text(volts, 'volts', units)}" if volts is not None else ""
            how = " as read" if read else " as planned: read supply volts while it is energised"
            groups.append((f"circuit {circuit}{at}{how if at else ''}", mine))
    for head, trials in groups:
        rows.append(Row(f"head:{head}", wrapped(head, width, HEAD), choosable=False))
        rows.extend(trial_row(trial, width, units, marks) for trial in trials)
        names = {trial.circuit for trial in trials}
        rows.extend(joint_row(joint, width, units) for joint in proof.joints if joint.circuit in names)
    if not groups:
        rows.append(Row("none", wrapped("this rig has no fused run and no heater to test", width, FAINT)))
    return rows


def diagnosis_rows(diagnosis: Diagnosis | None, width: int, units: str) -> list[Row]:
    """The likely faults, most likely first, and the next measurement that would tell them apart."""
    if diagnosis is None or not diagnosis.likely:
        return []
    rows = [Row("faults", (line(Span("Likely, most likely first", HEAD)),), choosable=False)]
    for number, likely in enumerate(diagnosis.likely, start=1):
        share = numbers.value_text(likely.share, "share", units)
        lines = list(wrapped(f"{number}. {numbers.fill(likely.title, units)}, {share}", width, STRONG))
        for why in likely.why:
            lines.extend(wrapped(numbers.fill(why.text, units), width, FAINT, indent="     "))
        rows.append(Row(f"likely:{number}", tuple(lines)))
    if diagnosis.next is not None:
        said = f"measure next: {numbers.fill(diagnosis.next.text, units)}"
        rows.append(Row("next", (*wrapped(said, width, WARN), ())))
    return rows

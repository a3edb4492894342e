"""The tests as rows: by circuit, expected beside measured, what the joints add, and the likely faults with reasons."""

from collections.abc import Sequence
from typing import NamedTuple

from logic.assessment.diagnosis import Diagnosis
from logic.assessment.proving import JointTrial, Proof, Trial
from logic.data.profile import Profile
from logic.data.wording import UP
from tui.show import numbers
from tui.show.cells import pad, width_of
from tui.show.marks import Marks
from tui.show.names import place_name
from tui.show.rows import (
    BAD,
    FAINT,
    GOOD,
    HEAD,
    PLAIN,
    STRONG,
    WARN,
    Line,
    Row,
    Span,
    beside,
    folded,
    line,
    wrapped,
)

MOST_SAID = 0.99  # a fault that is likelier still isn't said to be certain
STATES = {
    "untested": ("not measured", WARN),
    "good": ("good", GOOD),
    "off": ("OFF", BAD),
    "not judged": ("not judged", FAINT),
}
INDENT, GAP = "  ", 3
EXPECTED = "expected "


def trial_name(trial: Trial, profile: Profile) -> str:
    """What is measured where."""
    return f"{place_name(trial.place, profile)} {trial.quantity.replace('_', ' ')}"


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


class Columns(NamedTuple):
    """How wide each column is, over all tests, so that expected stands beside measured all the way down."""

    name: int
    expected: int
    measured: int
    state: int

    def fit(self, width: int) -> bool:
        """Whether all of a test stands in one line."""
        return sum(self) + len(INDENT) <= width


def columns_of(trials: Sequence[Trial], profile: Profile, units: str) -> Columns:
    widest = [
        (trial_name(trial, profile), expected_text(trial, units), measured_text(trial, units))
        for trial in trials
    ]
    name, expected, measured = (
        max((width_of(each) for each in column), default=0) for column in zip(*widest, strict=True)
    )
    state = max(width_of(word) for word, _ in STATES.values()) + 2
    return Columns(name + GAP, expected + GAP, measured + GAP, state)


def trial_row(trial: Trial, columns: Columns, profile: Profile, width: int, units: str, marks: Marks) -> Row:
    """One test: name, expected, measured, and in a word whether that is good."""
    word, role = STATES.get(trial.state, (trial.state, PLAIN))
    mark = {"good": marks.holds, "off": marks.fails}.get(trial.state, marks.waiting)
    name, expected, measured = (
        trial_name(trial, profile),
        expected_text(trial, units),
        measured_text(trial, units),
    )
    read = STRONG if trial.measured is not None or trial.over else FAINT
    state = Span(f"{word} {mark}", role)
    if columns.fit(width):
        told = (Span(pad(expected, columns.expected)), Span(pad(measured, columns.measured), read), state)
        lines: tuple[Line, ...] = (line(Span(pad(f"{INDENT}{name}", columns.name + len(INDENT))), *told),)
    else:
        first = beside(name, line(state), width, column=width - columns.state, indent=INDENT)
        both = (
            Span(pad(f"{EXPECTED}{expected}", len(EXPECTED) + columns.expected)),
            Span(f"measured {measured}", read),
        )
        lines = (*first, *folded(both, width, indent=f"{INDENT}    "))
    return Row(f"trial:{trial.slot}:{trial.circuit}", lines)


def column_heads(columns: Columns) -> Line:
    told = (pad("", columns.name + len(INDENT)), pad("expected", columns.expected), "measured")
    return line(*(Span(each, FAINT) for each in told))


def joint_row(joint: JointTrial, profile: Profile, width: int, units: str) -> Row:
    """What the joints on the way to a pad add."""
    extra = joint.extra
    ohms, u = (numbers.value_text(value, "ohms", units, UP) for value in (extra.ohms, extra.u))
    watts = numbers.value_text(extra.watts, "power", units, UP)
    where = place_name(f"heater.{joint.heater}", profile)
    said = f"joints on the way to {where}, by {joint.by}: {ohms} extra, u {u}, {watts} burnt in them"
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
    profile: Profile,
) -> list[Row]:
    """All tests: the likely faults first where something is off, then by circuit."""
    rows = diagnosis_rows(diagnosis, width, units)
    loose = [trial for trial in proof.trials if not trial.circuit]
    groups: list[tuple[str, list[Trial]]] = [("each pad, cold", loose)] if loose else []
    for circuit in [run.id for run in profile.runs]:
        mine = [trial for trial in proof.trials if trial.circuit == circuit]
        if mine:
            volts = next((trial.supply for trial in mine if trial.supply is not None), None)
            read = any(trial.supply_read for trial in mine)
            at = f", at {numbers.value_text(volts, 'volts', units)}" if volts is not None else ""
            how = " as read" if read else " as planned: read supply volts while it is energised"
            groups.append((f"circuit {circuit}{at}{how if at else ''}", mine))
    columns = (
        columns_of([trial for _, trials in groups for trial in trials], profile, units) if groups else None
    )
    if columns is not None and columns.fit(width):
        rows.append(Row("columns", (column_heads(columns),), choosable=False))
    for head, trials in groups:
        rows.append(Row(f"head:{head}", wrapped(head, width, HEAD), choosable=False))
        assert columns is not None
        rows.extend(trial_row(trial, columns, profile, width, units, marks) for trial in trials)
        names = {trial.circuit for trial in trials}
        rows.extend(
            joint_row(joint, profile, width, units) for joint in proof.joints if joint.circuit in names
        )
    if not groups:
        rows.append(Row("none", wrapped("this rig has no fused run and no heater to test", width, FAINT)))
    return rows


def chance_text(share: float, units: str) -> str:
    """How likely a fault is among those that were considered: others may be, so that none is certain."""
    return "over 99 %" if share > MOST_SAID else numbers.value_text(share, "share", units)


def diagnosis_rows(diagnosis: Diagnosis | None, width: int, units: str) -> list[Row]:
    """The likely faults, most likely first, and the next measurement that would tell them apart; then what is
    likely besides the first of them."""
    if diagnosis is None:
        return []
    rows: list[Row] = []
    for turn, one in enumerate((diagnosis, *diagnosis.besides)):
        if not one.likely:
            continue
        head = "And besides, most likely first" if turn else "Likely, most likely first"
        rows.append(Row(f"faults:{turn}", (line(Span(head, HEAD)),), choosable=False))
        for number, likely in enumerate(one.likely, start=1):
            said = f"{number}. {numbers.fill(likely.title, units)}, {chance_text(likely.share, units)}"
            lines = list(wrapped(said, width, STRONG))
            for why in likely.why:
                lines.extend(wrapped(numbers.fill(why.text, units), width, FAINT, indent="     "))
            rows.append(Row(f"likely:{turn}:{number}", tuple(lines)))
        if one.next is not None:
            said = f"measure next: {numbers.fill(one.next.text, units)}"
            rows.append(Row(f"next:{turn}", (*wrapped(said, width, WARN), ())))
    return rows

"""The record of the work: steps with their moments and minutes, what was recorded in them, overruled or skipped."""

from logic.data.state import Instant, State, StepEvent
from logic.data.step import DONE, READY, WAITING, Step
from logic.handover.blocks import Block, Bullets, Columns, Group, Paragraph, Section, Table
from logic.handover.clock import clock_text
from logic.handover.room import last_of
from logic.handover.shown import Shown

HEADS = ("step", "ended", "min")


def work_record(shown: Shown, state: State) -> Section:
    """Every step that was touched, group by group, with what people wrote and decided in it."""
    ends = {event.step: event for event in state.steps if event.kind in ("done", "skipped", "held")}
    groups: dict[str, list[tuple[str, ...]]] = {}
    for step in shown.assessment.steps:
        if step.state not in (WAITING, READY) or step.started is not None:
            groups.setdefault(step.group, []).append(_row(shown, step, ends.get(step.id)))
    blocks: list[Block] = []
    if groups:
        blocks.append(
            Columns(
                tuple(Group(name, Table(HEADS, tuple(rows), numbers=(2,))) for name, rows in groups.items())
            )
        )
    recorded = tuple(
        f"{step.title}: " + "; ".join(f"{key} {value}".strip() for key, value in step.recorded) + "."
        for step in shown.assessment.steps
        if step.recorded
    )
    if recorded:
        blocks += [Paragraph("Recorded in the steps:", strong=True), Bullets(recorded, small=True)]
    notes = tuple(
        f"{shown.place(event.step)}, {event.kind}: {event.note}"
        for event in state.steps
        if event.note and event.kind not in ("overruled", "skipped")
    )
    notes += tuple(
        f"{shown.place(note.place) + ': ' if note.place else ''}{note.text}" for note in state.notes
    )
    decided = [
        (
            shown.place(event.step),
            "skipped" if event.kind == "skipped" else f"overruled: {event.gate}",
            event.note,
            event.name,
            clock_text(event.when),
        )
        for event in state.steps
        if event.kind in ("overruled", "skipped")
    ]
    if decided:
        listed, more = last_of(decided, what="that were overruled or skipped")
        blocks.append(Paragraph("Overruled or skipped by a person:", strong=True))
        blocks += [Table(("step", "what", "reason", "name", "when"), listed), *more]
    if notes:
        told, more = last_of(notes, what="notes")
        blocks += [Paragraph("Notes:", strong=True), Bullets(told), *more]
    if not blocks:
        blocks.append(Paragraph("No step has been worked on yet."))
    return Section("Work done", tuple(blocks))


def _row(shown: Shown, step: Step, end: StepEvent | None) -> tuple[str, ...]:
    """The moment it ended; what is not plainly done says so."""
    ended = "" if end is None or step.ended is None else clock_text(end.when)
    state = "" if step.state == DONE else step.state
    if step.due is not None and step.state != DONE:
        state = f"{state} until {clock_text(Instant(step.due, shown.assessment.now.offset))}"
    said = ", ".join(part for part in (state, "lapsed" if step.lapsed else "", ended) if part)
    return (step.title, said, f"{step.spent:.0f}" if step.spent >= 0.5 else "")

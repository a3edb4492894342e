"""The record of the work: readings with their states, what was accepted, overruled or skipped, notes."""

from datetime import datetime, timedelta, timezone

from logic.data.finding import Finding
from logic.data.number_text import show
from logic.data.quantities import NOTHING, fill
from logic.data.state import Assessment, Instant, SlotView, State
from logic.data.step import DONE, SKIPPED
from logic.handover.blocks import Block, Bullets, Paragraph, Section, Table
from logic.handover.shown import Shown

MOST_ROWS_OF_A_RULE = 4
"""Findings of one rule that still stand row by row."""

MOST_PLACES_NAMED = 12


def readings_record(shown: Shown) -> Section:
    """Every slot that was read or is owed, and each reading as it was typed, the struck ones too."""
    assessment = shown.assessment
    rows = tuple(
        (
            slot.slot,
            _slot_value(slot, shown.units),
            slot.state + (f", {slot.owed} owed" if slot.owed else ""),
            "; ".join(f"{reading.typed} {clock_text(reading.when)}" for reading in slot.readings) or NOTHING,
        )
        for slot in assessment.slots
        if slot.readings or slot.owed
    )
    return Section("Readings", (Table(("slot", "value", "state", "as typed, and when"), rows, numbers=(1,)),))


def struck_readings(state: State) -> Section | None:
    """Readings that don't count any more; they are kept, and shown as what they are."""
    rows = tuple(
        (
            reading.slot,
            reading.typed,
            clock_text(reading.when),
            "struck" if reading.struck else f"moved here from {reading.moved_from}",
        )
        for reading in state.readings
        if reading.struck or reading.moved_from
    )
    return (
        Section("Readings struck or moved", (Table(("slot", "typed", "when", "what became of it"), rows),))
        if rows
        else None
    )


def standing_findings(assessment: Assessment, state: State, units: str) -> Section:
    """The verdict, what is still open, and what a person accepted, with the reason and the name."""
    verdict = assessment.verdict
    said = "Nothing known stops closing." if verdict.closable else f"DO NOT CLOSE: {verdict.stop} stop."
    blocks: list[Block] = [Paragraph(said, strong=True)]
    open_rows = _open_rows(assessment, units)
    open_rows += [(item.weight, item.place, item.text, "") for item in state.items if item.state == "open"]
    if open_rows:
        blocks.append(
            Table(("weight", "place", "what", "what would mend it"), tuple(open_rows), widths=(8, 18, 40, 34))
        )
    accepted = [
        (
            finding.weight,
            finding.place,
            fill(finding.text, units),
            finding.accepted.reason,
            finding.accepted.name,
        )
        for finding in assessment.findings
        if finding.accepted is not None
    ]
    accepted += [
        (item.weight, item.place, item.text, item.accepted.reason, item.accepted.name)
        for item in state.items
        if item.accepted is not None
    ]
    if accepted:
        blocks.append(Paragraph("Accepted, and by whom:", strong=True))
        blocks.append(Table(("weight", "place", "what", "reason", "name"), tuple(accepted)))
    return Section("What stands", tuple(blocks))


def _open_rows(assessment: Assessment, units: str) -> list[tuple[str, str, str, str]]:
    """One row for each open finding; a rule that finds many places of one kind has them in one row."""
    by_rule: dict[tuple[str, str], list[Finding]] = {}
    for finding in assessment.findings:
        if finding.accepted is None:
            by_rule.setdefault((finding.rule, finding.weight), []).append(finding)
    rows = []
    for (_, weight), found in by_rule.items():
        if len(found) <= MOST_ROWS_OF_A_RULE:
            rows += [(weight, each.place, fill(each.text, units), fill(each.remedy, units)) for each in found]
            continue
        first = found[0]
        places = ", ".join(each.place for each in found[:MOST_PLACES_NAMED])
        more = len(found) - MOST_PLACES_NAMED
        named = f"{places} and {more} more" if more > 0 else places
        said = f"{len(found)} of this kind, the first: {fill(first.text, units)}. At {named}"
        rows.append((weight, f"{len(found)} places", said, fill(first.remedy, units)))
    return rows


def work_record(assessment: Assessment, state: State) -> Section:
    """Steps with their days and minutes, overruled gates, skipped steps, notes."""
    rows = tuple(
        (
            step.title,
            step.place,
            step.state + (", lapsed" if step.lapsed else ""),
            "" if step.ended is None else clock_text(Instant(step.ended, assessment.now.offset)),
            f"{step.spent:.0f} min" if step.spent else "",
            step.held_note,
        )
        for step in assessment.steps
        if step.state in (DONE, SKIPPED) or step.started is not None
    )
    blocks: list[Block] = []
    if rows:
        blocks.append(Table(("step", "place", "state", "ended", "spent", "note"), rows, numbers=(4,)))
    overruled = [event for event in state.steps if event.kind == "overruled"]
    if overruled:
        blocks.append(Paragraph("Overruled by a person:", strong=True))
        blocks.append(
            Table(
                ("step", "what", "reason", "name", "when"),
                tuple(
                    (event.step, event.gate, event.note, event.name, clock_text(event.when))
                    for event in overruled
                ),
            )
        )
    if state.notes:
        blocks.append(Paragraph("Notes:", strong=True))
        blocks.append(
            Bullets(tuple(f"{note.place + ': ' if note.place else ''}{note.text}" for note in state.notes))
        )
    if not blocks:
        blocks.append(Paragraph("No step has been worked on yet."))
    return Section("Work done", tuple(blocks))


def clock_text(when: Instant) -> str:
    """A moment by the clock that wrote it: 2026-01-31 14:05."""
    local = timezone(timedelta(seconds=when.offset))
    return datetime.fromtimestamp(when.at, local).strftime("%Y-%m-%d %H:%M")


def _slot_value(slot: SlotView, units: str) -> str:
    if slot.value is None:
        return NOTHING
    return show(slot.value, slot.kind, units)

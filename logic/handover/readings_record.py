"""Readings on the sheet: each slot's value and state, every reading as it was typed, the struck ones too."""

from logic.data.quantities import NOTHING
from logic.data.state import Reading, SlotView, State
from logic.data.typed_text import typed_with_unit
from logic.handover.blocks import Block, Columns, Group, Paragraph, Section, Table, without_empty_columns
from logic.handover.clock import clock_text, day_and_hour
from logic.handover.shown import Shown

HEADS = ("slot", "value", "state", "as typed, and when")


def readings_record(shown: Shown, state: State) -> Section:
    """Every slot that was read or is owed, place by place, and what doesn't count any more."""
    hands = {reading.by for reading in state.readings if reading.by}
    groups: dict[str, list[tuple[str, ...]]] = {}
    for slot in shown.assessment.slots:
        if slot.readings or slot.owed:
            groups.setdefault(slot.place, []).append(_row(shown, slot, named=len(hands) > 1))
    blocks: list[Block] = []
    if len(hands) == 1:
        blocks.append(Paragraph(f"All read by {next(iter(hands))}."))
    if groups:
        blocks.append(
            Columns(
                tuple(
                    Group(shown.place(place), without_empty_columns(Table(HEADS, tuple(rows), numbers=(1,))))
                    for place, rows in groups.items()
                )
            )
        )
    else:
        blocks.append(Paragraph("Nothing was read, and nothing is owed."))
    fallen = tuple(
        (
            shown.place(reading.slot),
            typed_with_unit(reading.typed, reading.unit),
            clock_text(reading.when),
            _fate(shown, reading),
        )
        for reading in state.readings
        if reading.struck or reading.moved_from
    )
    if fallen:
        blocks.append(Paragraph("Struck or moved:", strong=True))
        blocks.append(Table(("slot", "typed", "when", "what became of it"), fallen))
    return Section("Readings", tuple(blocks))


def _row(shown: Shown, slot: SlotView, *, named: bool) -> tuple[str, ...]:
    over = bool(slot.readings) and slot.readings[-1].over
    value = "over range" if over else shown.quantity(slot.value, slot.kind)
    owed = f", {slot.owed} owed" if slot.owed else ""
    impossible = f"; impossible: {slot.impossible}" if slot.impossible else ""
    typed = _typed(slot.readings, named=named)
    return (slot.title, value, f"{slot.state}{owed}{impossible}", typed or NOTHING)


def _typed(readings: tuple[Reading, ...], *, named: bool) -> str:
    """Each as it was typed; the day where it is another one than that of the reading before."""
    said, day = [], ""
    for reading in readings:
        today, hour = day_and_hour(reading.when)
        when = hour if today == day else f"{today} {hour}"
        by = f" {reading.by}" if named and reading.by else ""
        said.append(f"{reading.typed} ({when}{by})")
        day = today
    return ", ".join(said)


def _fate(shown: Shown, reading: Reading) -> str:
    moved = f"moved here from {shown.place(reading.moved_from)}" if reading.moved_from else ""
    return ", ".join(part for part in (moved, "struck" if reading.struck else "") if part)

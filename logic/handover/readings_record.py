"""Readings on the sheet: each slot's value and state, every reading as it was typed, the struck ones too."""

from logic.data.quantities import NOTHING
from logic.data.state import Reading, SlotView, State
from logic.data.typed_text import typed_with_unit
from logic.handover.blocks import Block, Columns, Group, Paragraph, Section, Table, without_empty_columns
from logic.handover.clock import clock_text, day_and_hour
from logic.handover.room import MANY_READINGS, MOST_LINES, MOST_OF_A_SLOT, last_of
from logic.handover.shown import Shown

HEADS = ("slot", "value", "state", "as typed, and when")


def readings_record(shown: Shown, state: State) -> Section:
    """Every slot that was read or is owed, place by place, and what doesn't count any more."""
    hands = {reading.by for reading in state.readings if reading.by}
    slots = [slot for slot in shown.assessment.slots if slot.readings or slot.owed]
    many = sum(len(slot.readings) for slot in slots) > MANY_READINGS
    groups: dict[str, list[tuple[str, ...]]] = {}
    for slot in _with_room(slots) if many else slots:
        groups.setdefault(slot.place, []).append(_row(shown, slot, named=len(hands) > 1, many=many))
    blocks: list[Block] = []
    if len(hands) == 1:
        blocks.append(Paragraph(f"All read by {next(iter(hands))}."))
    if many:
        blocks.append(Paragraph(_said_of_many(slots)))
    if groups:
        blocks.append(
            Columns(
                tuple(
                    Group(shown.place(place), without_empty_columns(Table(HEADS, tuple(rows), numbers=(1,))))
                    for place, rows in groups.items()
                )
            )
        )
    elif not many:
        blocks.append(Paragraph("Nothing was read, and nothing is owed."))
    fallen, more = last_of(
        [reading for reading in state.readings if reading.struck or reading.moved_from],
        what="readings that were struck or moved",
    )
    if fallen:
        rows = tuple(
            (
                shown.place(reading.slot),
                typed_with_unit(reading.typed, reading.unit),
                clock_text(reading.when),
                _fate(shown, reading),
            )
            for reading in fallen
        )
        blocks.append(Paragraph("Struck or moved:", strong=True))
        blocks += [Table(("slot", "typed", "when", "what became of it"), rows), *more]
    return Section("Readings", tuple(blocks))


def _is_listed(slot: SlotView) -> bool:
    """Whether a slot stands on a sheet that has no room for all of them."""
    return (
        slot.deciding
        or slot.owed > 0
        or bool(slot.impossible)
        or slot.state not in ("agreed", "read", "single")
    )


def _with_room(slots: list[SlotView]) -> list[SlotView]:
    """Those that are listed, what decides before the rest where even they are too many; in their order."""
    listed = [slot for slot in slots if _is_listed(slot)]
    if len(listed) <= MOST_LINES:
        return listed
    stand = {slot.slot for slot in sorted(listed, key=lambda slot: not slot.deciding)[:MOST_LINES]}
    return [slot for slot in listed if slot.slot in stand]


def _said_of_many(slots: list[SlotView]) -> str:
    apart = [slot for slot in slots if not _is_listed(slot)]
    count = sum(len(slot.readings) for slot in slots)
    most = max(len(slot.readings) for slot in slots)
    listed = len(slots) - len(apart)
    first = (
        f" Of {listed:,} of them {MOST_LINES:,} stand here, what decides before the rest."
        if listed > MOST_LINES
        else ""
    )
    newest = f" Of each the newest {MOST_OF_A_SLOT} stand here." if most > MOST_OF_A_SLOT else ""
    return (
        f"{count:,} readings are more than a sheet has room for: listed are the sizes that decide something, and those "
        f"that are owed, in dispute or impossible.{first}{newest} {len(apart):,} others were read, and nothing speaks "
        f"against them. All of them stand in the session's own record."
    )


def _row(shown: Shown, slot: SlotView, *, named: bool, many: bool) -> tuple[str, ...]:
    over = bool(slot.readings) and slot.readings[-1].over
    value = "over range" if over else shown.quantity(slot.value, slot.kind)
    owed = f", {slot.owed} owed" if slot.owed else ""
    impossible = f"; impossible: {slot.impossible}" if slot.impossible else ""
    typed = _typed(slot.readings[-MOST_OF_A_SLOT:] if many else slot.readings, named=named)
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

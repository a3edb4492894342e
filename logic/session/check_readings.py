"""Readings: what may be taken, struck, moved and swapped."""

from logic.data import events as happened
from logic.data.faults import nearest_word
from logic.data.place_names import name_of
from logic.data.profile import Profile
from logic.data.slots import POSITION, SIZE, Slot, slots_by_id
from logic.data.state import Instant, Reading
from logic.data.tape import TapeFault, TypedReading, read_resolution, read_value
from logic.data.typed_text import typed_with_unit
from logic.data.wording import words
from logic.session.intents import (
    CONFIRM,
    MEANING,
    Decided,
    MoveReading,
    RecordReading,
    Refused,
    SetTape,
    StrikeReading,
    SwapLastTwo,
    TakeBackReading,
)
from logic.session.standing import Standing

# The same value in the same slot within this time is a bounced key. [s]  Common practice, no source.
BOUNCED_WITHIN = 20.0
LEADS = "meter.leads"


def record_reading(intent: RecordReading, standing: Standing, now: Instant) -> Decided | Refused:
    """A reading as typed, in its slot."""
    slot = _slot(intent.slot, standing.profile)
    if isinstance(slot, Refused):
        return slot
    typed = _typed(intent.typed, slot, standing)
    if isinstance(typed, Refused):
        return typed
    if typed.over and slot.id == LEADS:
        return _open_leads(intent.typed.strip())
    if not intent.confirmed and any(
        reading.value == typed.value
        and reading.over == typed.over
        and abs(now.at - reading.when.at) <= BOUNCED_WITHIN
        for reading in standing_in(slot.id, standing)
    ):
        return Refused(
            words(
                "{slot} was read as {typed} less than {seconds} s ago: is this a second reading?",
                slot=_named(slot.id, standing),
                typed=typed_with_unit(intent.typed.strip(), typed.unit),
                seconds=f"{BOUNCED_WITHIN:.0f}",
            ),
            ask=CONFIRM,
        )
    payload = happened.ReadingTaken(
        slot=slot.id,
        typed=intent.typed.strip(),
        value=typed.value,
        unit=typed.unit,
        resolution=typed.resolution,
        over=typed.over,
        saw_first=intent.saw_first,
    )
    said = typed_with_unit(payload.typed, payload.unit)
    return Decided(payload, words("{slot} {typed}", slot=_named(slot.id, standing), typed=said))


def strike_reading(intent: StrikeReading, standing: Standing, now: Instant) -> Decided | Refused:
    """A reading that doesn't count any more; it stays in the list."""
    if intent.reading:
        reading = _reading(intent.reading, standing)
    else:
        in_slot = [reading for reading in standing.state.readings if reading.slot == intent.slot]
        if not 1 <= intent.number <= len(in_slot):
            return Refused(
                words(
                    "{slot} has no reading {number}: it has {count}",
                    slot=_named(intent.slot, standing),
                    number=str(intent.number),
                    count=str(len(in_slot)),
                )
            )
        reading = in_slot[intent.number - 1]
    if isinstance(reading, Refused):
        return reading
    return _strike(reading, standing)


def take_back_reading(intent: TakeBackReading, standing: Standing, now: Instant) -> Decided | Refused:
    """The reading taken last that still stands is struck."""
    last = next((reading for reading in reversed(standing.state.readings) if not reading.struck), None)
    return (
        Refused(words("no reading stands that could be taken back"))
        if last is None
        else _strike(last, standing)
    )


def _strike(reading: Reading, standing: Standing) -> Decided | Refused:
    slot = _named(reading.slot, standing)
    if reading.struck:
        return Refused(words("{slot} {typed} is struck already", slot=slot, typed=_said(reading)))
    said = words("struck: {slot} {typed}", slot=slot, typed=_said(reading))
    return Decided(happened.ReadingStruck(reading.id), said)


def move_reading(intent: MoveReading, standing: Standing, now: Instant) -> Decided | Refused:
    """A reading that belongs to another slot."""
    reading = _reading(intent.reading, standing)
    if isinstance(reading, Refused):
        return reading
    if reading.slot == intent.to:
        slot = _named(reading.slot, standing)
        return Refused(words("{slot} {typed} is there already", slot=slot, typed=_said(reading)))
    refusal = _unfit(reading, intent.to, standing)
    if refusal is not None:
        return refusal
    said = words(
        "moved: {typed} from {slot} to {to}",
        typed=_said(reading),
        slot=_named(reading.slot, standing),
        to=_named(intent.to, standing),
    )
    return Decided(happened.ReadingMoved(reading.id, intent.to), said)


def swap_last_two(intent: SwapLastTwo, standing: Standing, now: Instant) -> Decided | Refused:
    """The last two readings that stand change their slots."""
    last = [reading for reading in standing.state.readings if not reading.struck][-2:]
    if len(last) < 2:
        return Refused(words("two readings have to stand to be swapped"))
    first, second = last
    if first.slot == second.slot:
        return Refused(words("the last two readings are both of {slot}", slot=_named(first.slot, standing)))
    refusal = _unfit(first, second.slot, standing) or _unfit(second, first.slot, standing)
    if refusal is not None:
        return refusal
    said = words(
        "swapped: {to} {typed}, {slot} {other}",
        to=_named(second.slot, standing),
        typed=_said(first),
        slot=_named(first.slot, standing),
        other=_said(second),
    )
    return Decided(happened.ReadingsSwapped(first.id, second.id), said)


def set_tape(intent: SetTape, standing: Standing, now: Instant) -> Decided | Refused:
    """The resolution of the tape in use."""
    try:
        resolution = read_resolution(intent.typed, metric=is_metric(standing))
    except TapeFault as fault:
        return _refused(fault)
    return Decided(happened.TapeSet(resolution), words("tape read to {typed}", typed=intent.typed.strip()))


def standing_in(slot: str, standing: Standing) -> list[Reading]:
    """The readings of a slot that count, oldest first."""
    return [reading for reading in standing.state.readings if reading.slot == slot and not reading.struck]


def _typed(text: str, slot: Slot, standing: Standing) -> TypedReading | Refused:
    """What the tape's grammar makes of a text, or its fault as a refusal."""
    try:
        return read_value(text, slot, metric=is_metric(standing), tape_resolution=standing.state.tape)
    except TapeFault as fault:
        return _refused(fault)


def _refused(fault: TapeFault) -> Refused:
    """A fault of the tape's grammar as a refusal: with what was probably meant where that can be told."""
    reason = words("{found}: {expected}", found=fault.found, expected=fault.expected)
    if fault.question:
        return Refused(reason, ask=MEANING, examples=fault.question)
    if fault.normal_forms:
        meant = words("was {forms} meant? Type it so", forms=" or ".join(fault.normal_forms))
        return Refused(reason, more=(meant,))
    return Refused(reason, examples=fault.examples)


def is_metric(standing: Standing) -> bool:
    """Whether a bare number is metric in this session."""
    return standing.profile.rig.units == "metric"


def _named(slot: str, standing: Standing) -> str:
    """A slot as a person calls it: `gray tank, length`."""
    return name_of(slot, standing.profile)


def _slot(slot: str, profile: Profile) -> Slot | Refused:
    slots = slots_by_id(profile)
    if slot in slots:
        return slots[slot]
    nearest = nearest_word(slot, slots)
    return Refused(
        words("no slot {slot} in this rig", slot=slot[:80]),
        examples=(nearest,) if nearest else (),
    )


def _reading(reading_id: str, standing: Standing) -> Reading | Refused:
    for reading in standing.state.readings:
        if reading.id == reading_id:
            return reading
    return Refused(words("no such reading"))


def _unfit(reading: Reading, slot_id: str, standing: Standing) -> Refused | None:
    """Why a reading can't stand in that slot; None where it can."""
    slot = _slot(slot_id, standing.profile)
    if isinstance(slot, Refused):
        return slot
    was = slots_by_id(standing.profile).get(reading.slot)
    if was is not None and _quantity_of(was) != _quantity_of(slot):
        return Refused(words("{typed} is no {kind}", typed=_said(reading), kind=slot.kind))
    if reading.over and slot.id == LEADS:
        return _open_leads(_said(reading))
    if (slot.bounds == SIZE and reading.value <= 0) or (slot.bounds == POSITION and reading.value < 0):
        return Refused(
            words(
                "{slot} is {bounds}, {typed} is not",
                slot=_named(slot.id, standing),
                bounds=slot.bounds,
                typed=_said(reading),
            )
        )
    return None


def _open_leads(typed: str) -> Refused:
    """Touched together and showing open: what was measured with them, isolation above all, says nothing."""
    return Refused(
        words("leads touched together that show {typed}: the leads or the meter are broken", typed=typed),
        more=(
            words("nothing measured with them counts, a good isolation least of all"),
            words("take others, touch them together, and read again what was read with these"),
        ),
    )


def _said(reading: Reading) -> str:
    return typed_with_unit(reading.typed, reading.unit)


def _quantity_of(slot: Slot) -> str:
    return "length" if slot.kind == "route" else slot.kind

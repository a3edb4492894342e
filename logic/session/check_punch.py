"""Punch items, acceptances, notes, ticked parts, the sheet: what may be written down beside the work."""

from math import isfinite

from logic.data import events as happened
from logic.data.clean_text import NAME_LIMIT, NOTE_LIMIT
from logic.data.finding import WEIGHTS
from logic.data.state import Instant, Item
from logic.data.wording import words
from logic.session.check_text import free_text, needed_text
from logic.session.intents import (
    AcceptItem,
    Decided,
    FinishItem,
    MarkSheetMade,
    Refused,
    TickPart,
    WriteItem,
    WriteNote,
)
from logic.session.standing import Standing

LONGEST_CUT = 300 * 0.3048 * 3  # m; a route of 300 ft with its slack, its twist and its ends


def write_item(intent: WriteItem, standing: Standing, now: Instant) -> Decided | Refused:
    """An item written by hand."""
    if intent.weight not in WEIGHTS:
        return Refused(words("no weight {weight}", weight=intent.weight[:NAME_LIMIT]), examples=WEIGHTS)
    text = needed_text(intent.text, limit=NOTE_LIMIT, what="a text")
    if isinstance(text, Refused):
        return text
    place = free_text(intent.place, limit=NAME_LIMIT)
    if isinstance(place, Refused):
        return place
    return Decided(happened.ItemWritten(text, intent.weight, place), words("written: {text}", text=text))


def finish_item(intent: FinishItem, standing: Standing, now: Instant) -> Decided | Refused:
    """An item written by hand is done."""
    item = _item(intent.item, standing)
    if item is None:
        return Refused(words("no item {item} written by hand", item=intent.item[:NAME_LIMIT]))
    if item.state == "done":
        return Refused(words("{text}: done already", text=item.text))
    return Decided(happened.ItemDone(item.id), words("done: {text}", text=item.text))


def accept_item(intent: AcceptItem, standing: Standing, now: Instant) -> Decided | Refused:
    """An item or a finding is taken as it is, with a reason and a name; some findings can't be."""
    reason = needed_text(intent.reason, limit=NOTE_LIMIT, what="a reason")
    if isinstance(reason, Refused):
        return reason
    name = needed_text(intent.name, limit=NAME_LIMIT, what="a name")
    if isinstance(name, Refused):
        return name
    item = _item(intent.item, standing)
    if item is not None:
        if item.state != "open":
            return Refused(words("{text}: {state} already", text=item.text, state=item.state))
        return Decided(
            happened.ItemAccepted(item.id, reason, name),
            words("accepted by {name}: {text}", name=name, text=item.text),
        )
    finding = next((found for found in standing.assess(now).findings if found.id == intent.item), None)
    if finding is None:
        return Refused(words("no item and no finding {item} now", item=intent.item[:80]))
    if not finding.acceptable:
        return Refused(
            words("{finding} can't be accepted: it has to be mended", finding=finding.id),
            more=(finding.remedy,),
        )
    if finding.accepted is not None:
        return Refused(words("{finding} is accepted already", finding=finding.id))
    return Decided(
        happened.FindingAccepted(finding.id, reason, name),
        words("accepted by {name}: {finding}", name=name, finding=finding.id),
    )


def write_note(intent: WriteNote, standing: Standing, now: Instant) -> Decided | Refused:
    """A note for the record."""
    text = needed_text(intent.text, limit=NOTE_LIMIT, what="a text")
    if isinstance(text, Refused):
        return text
    place = free_text(intent.place, limit=NAME_LIMIT)
    if isinstance(place, Refused):
        return place
    return Decided(happened.NoteWritten(text, place), words("noted: {text}", text=text))


def tick_part(intent: TickPart, standing: Standing, now: Instant) -> Decided | Refused:
    """A part is bought or a wire cut, or it isn't after all."""
    part = needed_text(intent.part, limit=NAME_LIMIT * 2, what="a part")
    if isinstance(part, Refused):
        return part
    length = intent.length
    if length is not None and not (isfinite(length) and 0 < length <= LONGEST_CUT):
        return Refused(words("a cut has a length over 0"))
    said = words("ticked: {part}" if intent.ticked else "not ticked: {part}", part=part)
    return Decided(happened.PartTicked(part, intent.ticked, length), said)


def mark_sheet_made(intent: MarkSheetMade, standing: Standing, now: Instant) -> Decided | Refused:
    """The hand-over sheet was made."""
    return Decided(happened.SheetMade(), words("hand-over sheet made"))


def _item(item_id: str, standing: Standing) -> Item | None:
    return next((item for item in standing.state.items if item.id == item_id), None)

"""Edits of the profile, undo and redo: each is tried on the profile, by the check of a file."""

from collections.abc import Sequence

import msgspec

from logic.data import events as happened
from logic.data.events import AnyPayload, Event
from logic.data.faults import ProfileFault, ProfileFaults
from logic.data.place_names import name_of
from logic.data.state import Instant
from logic.data.typed_text import typed_with_unit
from logic.data.wording import Words, words
from logic.session.event_log import of_kinds
from logic.session.intents import AddPart, ChangeProfile, Decided, RedoLast, Refused, RemovePart, UndoLast
from logic.session.standing import TRIAL, Standing
from logic.session.undo import find_event, named_by, next_redo, next_undo, undone_ids

# The longest value that an edit may hold, as JSON: a part with all its keep-outs is far below it.
LONGEST_VALUE = 64 * 1024


def change_profile(intent: ChangeProfile, standing: Standing, now: Instant) -> Decided | Refused:
    """A value of the profile."""
    value = _json(intent.value)
    if isinstance(value, Refused):
        return value
    payload = happened.ProfileChanged(intent.path, msgspec.Raw(value))
    if intent.value is None:
        said = words("{path} left out: its default holds", path=intent.path)
    else:
        said = words("{path} = {value}", path=intent.path, value=_shown(intent.value))
    return _tried(payload, said, standing)


def add_part(intent: AddPart, standing: Standing, now: Instant) -> Decided | Refused:
    """A part of the rig."""
    part = _json(intent.part)
    if isinstance(part, Refused):
        return part
    payload = happened.PartAdded(intent.part_kind, msgspec.Raw(part), intent.place)
    name = _shown(intent.part.get("id", ""))
    return _tried(payload, words("added: {kind} {name}", kind=intent.part_kind, name=name), standing)


def remove_part(intent: RemovePart, standing: Standing, now: Instant) -> Decided | Refused:
    """A part of the rig goes; what refers to it must have gone before."""
    payload = happened.PartRemoved(intent.part_kind, intent.id)
    return _tried(payload, words("removed: {kind} {name}", kind=intent.part_kind, name=intent.id), standing)


def undo_last(intent: UndoLast, standing: Standing, now: Instant) -> Decided | Refused:
    """The newest event that stands is taken back."""
    event = next_undo(standing.events)
    if event is None or event.payload is None:
        return Refused(words("nothing to undo"))
    payload = happened.Undone(event.id)
    refusal = _undo_breaks_profile(payload, standing)
    return refusal or Decided(payload, words("undone: {what}", what=_what(event.payload, standing)))


def redo_last(intent: RedoLast, standing: Standing, now: Instant) -> Decided | Refused:
    """The event undone last stands again."""
    undos = next_redo(standing.events)
    if not undos:
        return Refused(words("nothing to redo"))
    # What stood before may stand again; nothing that it could contradict was recorded since.
    payload = happened.Undone(undos[0], tuple(undos[1:]))
    return Decided(payload, words("done again: {what}", what=_brought(undos[0], standing)))


def _tried(payload: AnyPayload, said: Words, standing: Standing) -> Decided | Refused:
    """The edit, if the profile with it is one."""
    return _refused_by_check((*standing.edits(), Event(TRIAL, 0.0, 0, "", payload)), standing) or Decided(
        payload, said
    )


def _undo_breaks_profile(payload: happened.Undone, standing: Standing) -> Refused | None:
    """Why the profile wouldn't be one any more; None where it would, and where no edit is concerned."""
    gone = undone_ids(standing.events, payload)
    edits = tuple(
        event for event in of_kinds(standing.events, *happened.PROFILE_EDITS) if event.id not in gone
    )
    if edits == standing.edits():
        return None
    return _refused_by_check(edits, standing)


def _refused_by_check(edits: Sequence[Event], standing: Standing) -> Refused | None:
    try:
        standing.check_edits(edits)
    except ProfileFaults as found:
        return Refused(_said(found.faults[0]), more=tuple(map(_said, found.faults[1:])), faults=found.faults)
    return None


def _said(fault: ProfileFault) -> Words:
    return words(
        "{path}: found {found}; expected {expected}" if fault.path else "found {found}; expected {expected}",
        path=fault.path,
        found=fault.found,
        expected=fault.expected,
    )


def _json(value: object) -> bytes | Refused:
    try:
        text = msgspec.json.encode(value)
    except (TypeError, ValueError, OverflowError, RecursionError):
        return Refused(words("this is no value of a profile"))
    if len(text) > LONGEST_VALUE:
        return Refused(words("this is too long for a value of a profile"))
    return text


def _shown(value: object) -> str:
    text = value if isinstance(value, str) else msgspec.json.encode(value).decode()
    return text if len(text) <= 60 else text[:59] + "…"


def _what(payload: AnyPayload, standing: Standing) -> str:
    """The event in a few words of its own: `reading struck: gray tank, length 24 in`."""
    named = str(payload.__struct_config__.tag).replace("-", " ")
    of = getattr(payload, "reading", "")
    about = next((reading for reading in standing.state.readings if of and reading.id == of), payload)
    told = [(field, getattr(about, field, None)) for field in _TELLING]
    unit = str(getattr(about, "unit", ""))
    telling = [
        name_of(text, standing.profile)
        if field in _NAMED
        else typed_with_unit(text, unit)
        if field == "typed"
        else text
        for field, text in told
        if isinstance(text, str)
    ]
    return f"{named}: {' '.join(telling)}" if telling else named


# The fields by which an event is told from others of its kind.
_TELLING = ("slot", "typed", "step", "path", "part_kind", "text", "part", "finding")
_NAMED = ("slot", "step", "path", "finding")  # said by their names; the rest stands as it was written


def _brought(undo: str, standing: Standing) -> str:
    event = find_event(undo, standing.events)
    if event is not None and isinstance(event.payload, happened.Undone):
        again = find_event(named_by(event.payload)[0], standing.events)
        if again is not None and again.payload is not None:
            return _what(again.payload, standing)
    return "what was undone"

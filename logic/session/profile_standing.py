"""The profile as a session has it: as it stood at the start, and with the edits that stand.

It is kept in SI beside its document, so that opening a session needs neither pint nor the check; the edited
one too, with the ids of its edits. Where those aren't the ones that stand, the document is edited and checked
anew.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import msgspec

from logic.data.events import Event, PartAdded, PartRemoved, ProfileChanged
from logic.data.faults import ProfileFault, ProfileFaults
from logic.data.profile import Hourly, Profile
from logic.data.wording import Words, words
from logic.session.document import ProfileRecord, read_profile_record
from logic.session.seal import is_sealed, sealed

# Edits in one session, and checks of a profile to find those that don't: beyond, a file made to cost
# minutes would.
MOST_EDITS, _MOST_CHECKS = 2000, 400
_MOST_REMEMBERED = 16
_DAY = 86400.0
_profile = msgspec.json.Decoder(Profile)


class LeftOut(msgspec.Struct, frozen=True):
    """An edit with which the profile would be none, and why."""

    edit: str
    faults: tuple[ProfileFault, ...]


class Standing(msgspec.Struct, frozen=True):
    """A profile, the document it comes from, and the edits that could not be made."""

    document: dict[str, Any]
    profile: Profile
    left_out: tuple[LeftOut, ...] = ()


class Profiles:
    """The profile at the start, and what edits make of it."""

    def __init__(self, begun: bytes, now: bytes = b"", *, trusted: bool) -> None:
        """Records of the table `profile`.

        trusted : the SI is this program's own; otherwise, and where the record has no seal of its own, it is
        made anew.

        Raises ProfileFaults: the profile at the start is none. ValueError: its record is none.
        """
        record = read_profile_record(begun)
        if record is None:
            raise ValueError("no record of a profile")
        trusted = trusted and is_sealed(begun)
        document = msgspec.json.decode(record.document, type=dict[str, Any])
        profile = _decoded(record.si)
        if profile is not None and not trusted:
            _check_hourly(profile.design.hourly)
        self._hourly: Hourly | None = profile.design.hourly if profile is not None else None
        if profile is None or not trusted:
            profile = self._checked(document)
        self._known: dict[tuple[str, ...], Standing] = {(): Standing(document, profile)}
        if now and trusted:
            self._remember_now(now)

    @property
    def begun(self) -> Standing:
        """The profile as it stood at the start."""
        return self._known[()]

    def with_edits(self, edits: Sequence[Event]) -> Standing:
        """The profile with edits, in the order of their ids; an edit that contradicts others is left out.

        Two copies may contradict each other, a single one doesn't. Where all edits together give a profile,
        all stand; otherwise, handful by handful, what does on top of those before. So it hangs on the set of
        edits alone.
        """
        key = tuple(edit.id for edit in edits)
        known = self._known.get(key)
        if known is not None:
            return known
        try:
            return self._remember(key, self._with_all(edits, key))
        except ProfileFaults:
            return self._remember(key, self._with_most(edits))

    def _with_all(self, edits: Sequence[Event], key: tuple[str, ...]) -> Standing:
        """Raises ProfileFaults: with all of them it is none."""
        if len(edits) > MOST_EDITS:
            raise ProfileFaults([_too_many()])
        before = self._known.get(key[:-1])
        if before is not None and not before.left_out:
            document = _edited(before.document, edits[-1:])
        else:
            document = _edited(self.begun.document, edits)
        return Standing(document, self._checked(document))

    def _with_most(self, edits: Sequence[Event]) -> Standing:
        """Edits taken in by growing and shrinking handfuls: a few bad ones among many cost few checks."""
        standing, left_out, checks = self.begun, list[LeftOut](), 0
        place, width = 0, max(1, min(len(edits), MOST_EDITS) // 2)
        while place < len(edits):
            handful = edits[place : place + width]
            if checks >= _MOST_CHECKS or place + len(handful) > MOST_EDITS:
                left_out += [LeftOut(edit.id, (_too_many(),)) for edit in edits[place:]]
                break
            checks += 1
            try:
                document = _edited(standing.document, handful)
                standing = Standing(document, self._checked(document))
            except ProfileFaults as found:
                if len(handful) == 1:
                    left_out.append(LeftOut(handful[0].id, found.faults))
                    place += 1
                width = max(1, len(handful) // 2)
                continue
            place += len(handful)
            width = 2 * len(handful)
        return msgspec.structs.replace(standing, left_out=tuple(left_out))

    def forget(self, edit_id: str) -> None:
        """What was tried under an id that is to be used again."""
        for key in [key for key in self._known if edit_id in key]:
            del self._known[key]

    def adopt(self, tried: Sequence[str], as_ids: Sequence[str]) -> None:
        """What was tried under one set of ids stands under another now, so that it isn't checked twice."""
        known = self._known.get(tuple(tried))
        if known is not None:
            self._remember(tuple(as_ids), known)

    def _remember(self, key: tuple[str, ...], standing: Standing) -> Standing:
        if len(self._known) >= _MOST_REMEMBERED:
            oldest = next(known for known in self._known if known != ())
            del self._known[oldest]
        self._known[key] = standing
        return standing

    def _remember_now(self, now: bytes) -> None:
        record = read_profile_record(now)
        if record is None or not record.edits or not is_sealed(now):
            return
        profile = _decoded(record.si)
        if profile is None:
            return
        try:
            document = msgspec.json.decode(record.document, type=dict[str, Any])
        except msgspec.MsgspecError:
            return
        if profile.design.hourly_file is not None:
            design = msgspec.structs.replace(profile.design, hourly=self._hourly)
            profile = msgspec.structs.replace(profile, design=design)
        self._remember(record.edits, Standing(document, profile))

    def _checked(self, document: dict[str, Any]) -> Profile:
        from logic.data.profile_check import check_document  # the check, and pint behind it: seldom needed

        return check_document(document, file="", hourly=self._hourly)


def _check_hourly(rows: Hourly | None) -> None:
    """Hourly rows from elsewhere: what reading a CSV would have made sure of. Raises ProfileFaults."""
    from logic.data.hourly_file import COLDEST, LONGEST_STEP, MOST_ROWS, WARMEST

    if rows is None:
        return
    count = len(rows.seconds)
    steps = [later - earlier for earlier, later in pairwise(rows.seconds)]
    sound = (
        1 <= count <= MOST_ROWS
        and len(rows.degc) == len(rows.clock) == count
        and all(0 < step <= LONGEST_STEP for step in steps)
        and all(COLDEST <= degc <= WARMEST for degc in rows.degc)
        and all(abs(clock) <= count * LONGEST_STEP + _DAY for clock in rows.clock)
    )
    if not sound:
        raise ProfileFaults(
            [
                ProfileFault(
                    "",
                    "design.hourly",
                    "rows that no hourly file gives",
                    "times that rise, with temperatures",
                )
            ]
        )


def _edited(document: dict[str, Any], edits: Sequence[Event]) -> dict[str, Any]:
    """A document with edits, its free texts cleaned. Raises ProfileFaults: an edit leads nowhere."""
    from logic.data import profile_edit
    from logic.data.profile_file import clean_document

    for edit in edits:
        payload = edit.payload
        if isinstance(payload, ProfileChanged):
            document = profile_edit.changed(document, payload.path, _plain(payload.value))
        elif isinstance(payload, PartAdded):
            part = _plain(payload.part)
            if not isinstance(part, dict):
                raise _no_part(payload.part_kind)
            document = profile_edit.added(document, payload.part_kind, part, place=payload.place)
        elif isinstance(payload, PartRemoved):
            document = profile_edit.removed(document, payload.part_kind, payload.id)
    return clean_document(document)


def _plain(value: msgspec.Raw) -> Any:
    try:
        return msgspec.json.decode(value)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        raise _no_part("") from None


def _no_part(kind: str) -> ProfileFaults:
    return ProfileFaults(
        [ProfileFault("", kind, "no value of a profile", "a value, or a part with its keys")]
    )


def _decoded(si: msgspec.Raw) -> Profile | None:
    try:
        return _profile.decode(si)
    except (msgspec.MsgspecError, RecursionError):
        return None


def begun_record(document: dict[str, Any], profile: Profile) -> bytes:
    """The record of a profile as it stands at the start of a session."""
    return _record(ProfileRecord("begun", _raw(document), _raw(profile)))


def now_record(standing: Standing, edits: Sequence[Event]) -> bytes:
    """The record of an edited profile, without hourly rows: they stand with the first. Empty: no edits."""
    if not edits or standing.left_out:
        return b""
    design = msgspec.structs.replace(standing.profile.design, hourly=None)
    profile = msgspec.structs.replace(standing.profile, design=design)
    ids = tuple(edit.id for edit in edits)
    return _record(ProfileRecord("now", _raw(standing.document), _raw(profile), ids))


def _too_many() -> ProfileFault:
    return ProfileFault("", "", "more changes than a session can hold", f"up to {MOST_EDITS} that agree")


def said_of_left_out(count: int) -> Words:
    """Why edits don't count."""
    return words(
        "{count} changes of the profile contradict others: they are kept, and don't count", count=str(count)
    )


def _raw(value: Any) -> msgspec.Raw:
    return msgspec.Raw(msgspec.json.encode(value))


def _record(record: ProfileRecord) -> bytes:
    return sealed(msgspec.json.encode(record))

"""A session as it stands: what was recorded, the profile with its edits, and what it all comes to.

Here it is only looked at, and followed where another program records in it; recording stands in
`kept_session.py`.
"""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import msgspec

from logic.data.events import Event
from logic.data.faults import ProfileFaults
from logic.data.profile import Profile
from logic.data.state import Assessment, Instant, State
from logic.data.wording import Words, words
from logic.session.document import Document
from logic.session.files import Files
from logic.session.fold import Fold
from logic.session.lock import Holder, SessionLock, gone_words, held_words, read_holder
from logic.session.profile_standing import Profiles, Standing, now_record, said_of_left_out
from logic.session.recovery import SESSION, Opened, SessionFault, open_folder, signature
from logic.session.standing import TRIAL

# Two assessments within this time are the same, if nothing was recorded between them. [s]
SAME_MOMENT = 1.0


class Access(msgspec.Struct):
    """How a session was opened: what for, by whom, and with what right to write."""

    folder: Path
    by: str
    files: Files
    name: str = SESSION
    trusted: bool = True  # in the sessions' own folder: its SI needs no check
    lock: SessionLock | None = None  # None: read-only for another reason than a holder
    because: Words | None = None  # why it is read-only


class ViewedSession:
    """One session, looked at."""

    def __init__(self, access: Access, opened: Opened) -> None:
        """Raises SessionFault: its profile is none."""
        self._access = access
        self._assessed: Assessment | None = None
        self._seen: tuple[object, ...] = ()
        self._fold = Fold()
        self.notices: tuple[Words, ...] = ()
        self._load(opened)

    # --- what stands ---

    @property
    def id(self) -> str:
        return str(self._document.meta.get("id", self.folder.name))

    @property
    def folder(self) -> Path:
        return self._access.folder

    @property
    def profile(self) -> Profile:
        """The profile as it stands, with its edits and without readings."""
        return self._standing.profile

    @property
    def document(self) -> dict[str, Any]:
        """The profile's raw document as it stands. Not to be changed by whoever asks."""
        return self._standing.document

    @property
    def begun(self) -> Standing:
        """The profile as it stood at the start."""
        return self._profiles.begun

    @property
    def state(self) -> State:
        return self._fold.state()

    @property
    def events(self) -> Sequence[Event]:
        """All events, in the order of their ids. Not to be changed by whoever asks."""
        return self._document.events

    @property
    def read_only(self) -> bool:
        return True

    @property
    def because(self) -> Words | None:
        """Why it is read-only."""
        if not self.read_only:
            return None
        return self._access.because or held_words(self.holder)

    def gone_words(self) -> Words:
        """That whoever held it has gone."""
        return gone_words(self.holder)

    @property
    def holder(self) -> Holder | None:
        """Who else holds it; None where nobody does, or says so."""
        return read_holder(self.folder) if self.read_only and self._access.lock is not None else None

    def edits(self) -> tuple[Event, ...]:
        """The edits of the profile that stand."""
        return tuple(self._fold.edits)

    def check_edits(self, edits: Sequence[Event]) -> None:
        """Raises ProfileFaults where one of these edits can't stand that isn't left out already."""
        self._profiles.forget(TRIAL)
        known = {left.edit for left in self._standing.left_out}
        for left in self._profiles.with_edits(edits).left_out:
            if left.edit not in known:
                raise ProfileFaults(left.faults)

    def assess(self, now: Instant) -> Assessment:
        """What the session comes to at a moment; the same as before where nothing was recorded since."""
        last = self._assessed
        if last is None or abs(last.now.at - now.at) >= SAME_MOMENT or last.now.offset != now.offset:
            from logic.assessment.assess import assess  # a list of sessions, or a copy, needs no figures

            last = self._assessed = assess(self.profile, self.state, now)
        return last

    def whole_document(self) -> Document:
        """Everything that there is to carry away."""
        return msgspec.structs.replace(self._document, events=self._document.events[:])

    def follow(self) -> bool:
        """For one who looks on: whether something changed on the disk; it is then taken up."""
        if not self.read_only or signature(self.folder, self._access.name) == self._seen:
            return False
        try:
            self._load(open_folder(self.folder, name=self._access.name))
        except SessionFault as fault:
            self.notices = (fault.words,)
            return False
        return True

    def _load(self, opened: Opened) -> None:
        """Take up what was found on the disk. Raises SessionFault: its profile is none."""
        access = self._access
        try:
            profiles = Profiles(opened.document.begun, opened.document.now, trusted=access.trusted)
        except ValueError as fault:
            raise SessionFault(
                words("the session's profile can't be read: {fault}", fault=str(fault))
            ) from None
        self._seen, self._document, self._profiles = opened.seen, opened.document, profiles
        self.notices = opened.notices
        if opened.newer:
            access.because = words(
                "a newer version of the program wrote this session: "
                "it is only looked at, as far as this one understands it"
            )
        if opened.because is not None:
            access.because = opened.because
        self._refold()

    def _refold(self) -> None:
        self._fold = Fold(self.events)
        self._stand()
        self._assessed = None
        if self._standing.left_out:
            self.notices += (said_of_left_out(len(self._standing.left_out)),)

    def _stand(self) -> None:
        """The profile with the edits that stand now."""
        self._standing = self._profiles.with_edits(self._fold.edits)
        self._document.now = now_record(self._standing, self._fold.edits)
        self._document.meta["rig"] = self._standing.profile.rig.name

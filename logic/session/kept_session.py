"""A session as the screen and the command line have it: act, see what it comes to, leave it.

Every way of recording goes through `act`: an intent is checked, put on the disk, and only then folded in.
Nothing here asks a clock: the moment comes with each call. Sessions are opened and begun in `session.py`.
"""

import contextlib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import msgspec

from logic.data.events import PROFILE_EDITS, Event, Undone
from logic.data.faults import ProfileFaults
from logic.data.profile import Profile
from logic.data.state import Assessment, Instant, State
from logic.data.wording import Words, words
from logic.session.decide import decide
from logic.session.document import Document
from logic.session.event_ids import new_writer, next_id
from logic.session.event_lines import with_line
from logic.session.files import Files
from logic.session.fold import Fold
from logic.session.intents import Decided, Intent, NotSaved, Refused, Taken
from logic.session.journal import JOURNAL
from logic.session.lock import Holder, SessionLock, read_holder
from logic.session.merge import missing_from
from logic.session.profile_standing import Profiles, Standing, now_record, said_of_left_out
from logic.session.recovery import SESSION, Opened, SessionFault, in_words, open_folder, said_time
from logic.session.store import Store

# A clock may jitter; further back than this, it was set. [s]
CLOCK_JITTER = 5.0
# Two assessments within this time are the same, if nothing was recorded between them. [s]
SAME_MOMENT = 1.0
_TRIAL = "~"


class Access(msgspec.Struct):
    """How a session was opened: what for, by whom, and with what right to write."""

    folder: Path
    by: str
    files: Files
    name: str = SESSION
    trusted: bool = True  # in the sessions' own folder: its SI needs no check
    lock: SessionLock | None = None  # None: read-only for another reason than a holder
    because: Words | None = None  # why it is read-only


class Session:
    """One session. Made by `open_session` or `new_session`."""

    def __init__(self, access: Access, opened: Opened) -> None:
        """Raises SessionFault: its profile is none."""
        self._access = access
        self._writer = new_writer()
        self._store: Store | None = None
        self._unsaved: list[tuple[Event, Words]] = []
        self._clock_said = False
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
    def unsaved(self) -> tuple[Event, ...]:
        """Events that could not be put on the disk yet; they aren't in the state."""
        return tuple(event for event, _ in self._unsaved)

    @property
    def read_only(self) -> bool:
        return self._store is None

    @property
    def because(self) -> Words | None:
        """Why it is read-only."""
        if not self.read_only:
            return None
        return self._access.because or held_words(self.holder)

    @property
    def holder(self) -> Holder | None:
        """Who else holds it; None where nobody does, or says so."""
        return read_holder(self.folder) if self.read_only and self._access.lock is not None else None

    def edits(self) -> tuple[Event, ...]:
        """The edits of the profile that stand."""
        return tuple(self._fold.edits)

    def check_edits(self, edits: Sequence[Event]) -> None:
        """Raises ProfileFaults where one of these edits can't stand that isn't left out already."""
        self._profiles.forget(_TRIAL)
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

    # --- recording ---

    def act(self, intent: Intent, now: Instant) -> Taken | Refused | NotSaved:
        """Check an intent and record it: on the disk where `Taken` returns; nothing changed otherwise."""
        if self._store is None:
            return Refused(self.because or words("this session is read-only"))
        decided = decide(intent, self, now)
        if isinstance(decided, Refused):
            return decided
        beside = self._clock_words(now)
        event = self._event(decided, now)
        self._unsaved.append((event, decided.said))
        reason = self._save(now)
        if reason is not None:
            return NotSaved(event, decided.said, reason)
        return Taken(event, decided.said, beside)

    def save_again(self, now: Instant) -> tuple[Taken, ...] | NotSaved:
        """Try once more to put on the disk what could not be; nothing waiting: ()."""
        waiting = tuple(self._unsaved)
        reason = self._save(now) if waiting else None
        if reason is not None:
            event, said = waiting[-1]
            return NotSaved(event, said, reason)
        return tuple(Taken(event, said) for event, said in waiting)

    def drop_unsaved(self) -> None:
        """Give up what could not be put on the disk."""
        self._unsaved.clear()

    def _event(self, decided: Decided, now: Instant) -> Event:
        newest = self._unsaved[-1][0] if self._unsaved else (self.events[-1] if self.events else None)
        event_id = next_id(newest.id if newest else "", now.at, self._writer)
        return with_line(Event(event_id, now.at, now.offset, self._access.by, decided.payload))

    def _save(self, now: Instant) -> Words | None:
        """Put on the disk what waits; why not, in words, where that fails."""
        assert self._store is not None
        events = [event for event, _ in self._unsaved]
        try:
            self._keep_lock(now)
            self._store.append(events)
        except OSError as fault:
            return words("not saved: {fault}", fault=in_words(fault))
        self._unsaved.clear()
        for event in events:
            self._take_in(event)
        if self._store.is_long:
            self._fold_in()
        return None

    def _take_in(self, event: Event) -> None:
        """An event that is on the disk counts from now on."""
        tried = (*(edit.id for edit in self._fold.edits), _TRIAL)
        if not self._fold.add(event):
            self._fold = Fold(self.events)
        if isinstance(event.payload, PROFILE_EDITS):
            self._profiles.adopt(tried, [edit.id for edit in self._fold.edits])
        if isinstance(event.payload, (*PROFILE_EDITS, Undone)):
            self._stand()
        self._assessed = None

    def _stand(self) -> None:
        """The profile with the edits that stand now."""
        self._standing = self._profiles.with_edits(self._fold.edits)
        self._document.now = now_record(self._standing, self._fold.edits)
        self._document.meta["rig"] = self._standing.profile.rig.name

    def _fold_in(self) -> None:
        """A journal that has grown long; where it can't be folded in now, it can later."""
        assert self._store is not None
        try:
            self._store.fold_in()
        except OSError:
            return

    def _keep_lock(self, now: Instant) -> None:
        """A lock whose file was removed with its folder is taken anew. Raises OSError."""
        lock = self._access.lock
        if lock is None or lock.still_stands():
            return
        lock.release()
        self._access.files.make_folder(self.folder)
        self._access.lock = SessionLock(self.folder, self._access.files)
        if not self._access.lock.take(now):
            raise OSError("another program holds the session's folder")

    def _clock_words(self, now: Instant) -> tuple[Words, ...]:
        """That the clock went back, once."""
        last = self.state.last
        if self._clock_said or last is None or now.at >= last.at - CLOCK_JITTER:
            return ()
        self._clock_said = True
        said = words(
            "the clock reads {now}, the last record was at {then}: the clock went back; "
            "records stay in the order in which they are taken",
            now=said_time(now.at, now.offset),
            then=said_time(last.at, last.offset),
        )
        self.notices += (said,)
        return (said,)

    # --- copies, followers, leaving ---

    def take_in(self, events: Sequence[Event], strangers: Sequence[bytes] = ()) -> int:
        """The union with another copy's events; how many were new. Raises OSError: nothing was taken in."""
        if self._store is None:
            raise OSError("this session is read-only")
        new = missing_from(self.events, events)
        if new or set(strangers) - set(self._document.strangers):
            self._store.take_in(new, strangers)
            self._refold()
        return len(new)

    def whole_document(self) -> Document:
        """Everything that there is to carry away, events included that could not be saved yet."""
        return msgspec.structs.replace(self._document, events=[*self.events, *self.unsaved])

    def follow(self) -> bool:
        """For one who looks on: whether something changed on the disk; it is then taken up."""
        if self._store is not None:
            return False
        seen = self._signature()
        if seen == self._seen:
            return False
        try:
            self._load(open_folder(self.folder, name=self._access.name))
        except SessionFault as fault:
            self.notices = (fault.words,)
            return False
        return True

    def take_over(self, now: Instant) -> bool:
        """Whether a session that another program held is ours now: it has ended, or died."""
        lock = self._access.lock
        if self._store is not None or lock is None or self._access.because is not None:
            return False
        try:
            if not lock.take(now):
                return False
        except OSError:
            return False
        self._load(open_folder(self.folder))
        return True

    def close(self) -> None:
        """Leave: fold the journal in and give the lock back. Where that fails, the disk is complete still.

        What could not be saved is tried once more; what then can't is gone with this object.
        """
        if self._store is not None:
            with contextlib.suppress(OSError):
                if self._unsaved:
                    self._store.append(list(self.unsaved))
            try:
                self._store.close()
            except OSError as fault:
                self.notices += (
                    words("the journal stays beside the session: {fault}", fault=in_words(fault)),
                )
            self._store = None
        if self._access.lock is not None:
            self._access.lock.release()

    def __enter__(self) -> "Session":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _load(self, opened: Opened) -> None:
        access = self._access
        self._seen = self._signature()
        self._document = opened.document
        try:
            self._profiles = Profiles(opened.document.begun, opened.document.now, trusted=access.trusted)
        except ValueError as fault:
            raise SessionFault(
                words("the session's profile can't be read: {fault}", fault=str(fault))
            ) from None
        self.notices = opened.notices
        if opened.newer:
            access.because = words(
                "a newer version of the program wrote this session: "
                "it is only looked at, as far as this one understands it"
            )
        if opened.because is not None:
            access.because = opened.because
        self._refold()
        if access.lock is None or not access.lock.is_held:
            return
        if access.because is not None:
            access.lock.release()  # for one who may write
            return
        self._store = Store(self.folder, opened, access.files)
        self._heal()

    def _refold(self) -> None:
        self._fold = Fold(self.events)
        self._stand()
        self._assessed = None
        if self._standing.left_out:
            self.notices += (said_of_left_out(len(self._standing.left_out)),)

    def _heal(self) -> None:
        assert self._store is not None
        try:
            self._store.heal()
        except OSError as fault:
            self.notices += (
                words("what was put together isn't written yet: {fault}", fault=in_words(fault)),
            )

    def _signature(self) -> tuple[object, ...]:
        """What changes when a file of the session does."""
        found: list[object] = []
        for name in (self._access.name, JOURNAL):
            try:
                there = (self.folder / name).stat()
                found += [there.st_mtime_ns, there.st_size, there.st_ino]
            except OSError:
                found.append(None)
        return tuple(found)


def held_words(holder: Holder | None) -> Words:
    """`held by NAME on HOST since TIME`."""
    if holder is None:
        return words("held by another program")
    return words(
        "held by {name} on {host} since {since}",
        name=holder.name,
        host=holder.host,
        since=said_time(min(max(holder.since, 0.0), 4e9), min(max(holder.offset, -86399), 86399)),
    )

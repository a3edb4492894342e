"""A session in which things are recorded: check an intent, put the event on the disk, only then let it count.

Every way of recording goes through `act`. Nothing here asks a clock: the moment comes with each call.
Sessions are opened and begun in `session.py`; what only looks at one stands in `viewed_session.py`.
"""

import contextlib
from collections.abc import Iterator, Sequence
from typing import Self

import msgspec

from logic.data.events import PROFILE_EDITS, AnyPayload, Event, ReadingTaken, Undone
from logic.data.state import Instant
from logic.data.wording import Words, words
from logic.session.decide import decide
from logic.session.document import MOST_EVENTS, Document
from logic.session.event_ids import new_writer, next_id
from logic.session.event_log import EventLog
from logic.session.fold import Fold
from logic.session.foreseen import Foreseen, foresee
from logic.session.intents import (
    Decided,
    Intent,
    NotSaved,
    RedoLast,
    Refused,
    SwapLastTwo,
    TakeBackReading,
    Taken,
    UndoLast,
)
from logic.session.lock import SessionLock, left_words
from logic.session.merge import missing_from
from logic.session.recovery import Opened, open_folder
from logic.session.saying import in_words, said_time
from logic.session.standing import TRIAL
from logic.session.store import Store
from logic.session.viewed_session import Access, ViewedSession

# A clock may jitter; further back than this, it was set. [s]
CLOCK_JITTER = 5.0
# What these are about is the last record: with some that aren't saved, the person and the session mean another one.
OF_THE_LAST = (UndoLast, RedoLast, TakeBackReading, SwapLastTwo)


class Session(ViewedSession):
    """One session. Made by `open_session` or `new_session`."""

    def __init__(self, access: Access, opened: Opened) -> None:
        """Raises SessionFault: its profile is none."""
        self._writer = new_writer()
        self._store: Store | None = None
        self._unsaved: list[tuple[Event, Words]] = []
        self._clock_said = False
        self.foreseen: Foreseen | None = None  # what `foresee` worked out, until something is recorded
        super().__init__(access, opened)

    @property
    def read_only(self) -> bool:
        return self._store is None

    @property
    def unsaved(self) -> tuple[Event, ...]:
        """Events that could not be put on the disk yet; they aren't in the state."""
        return tuple(event for event, _ in self._unsaved)

    def act(self, intent: Intent, now: Instant) -> Taken | Refused | NotSaved:
        """Check an intent and record it: on the disk where `Taken` returns; nothing changed otherwise."""
        if self._store is None:
            because = self.gone_words() if self.may_take_over() else self.because
            return Refused(because or words("this session is read-only"))
        if len(self.events) >= MOST_EVENTS:
            return Refused(
                words("this session holds {most} records, as many as one can", most=str(MOST_EVENTS))
            )
        waits = self._save(now, just_tried=False) if self._unsaved else None
        if waits is not None and isinstance(intent, OF_THE_LAST):
            return Refused(
                words(
                    "{count} records wait to be saved: which is the last isn't known before",
                    count=self._waiting(),
                ),
                more=(waits,),
            )
        foreseen, self.foreseen = self.foreseen, None
        if foreseen is not None and (self._unsaved or not foreseen.is_of(intent, now)):
            foreseen = None
        decided = foreseen.decided if foreseen is not None else decide(intent, self, now)
        if isinstance(decided, Refused):
            return decided
        again = next((event for event, _ in self._unsaved if _is_retyped(event, decided.payload)), None)
        if waits is not None and again is not None:
            return NotSaved(again, decided.said, waits)
        beside = self.clock_words(now)
        event = foreseen.event if foreseen is not None else self._event(decided, now)
        self._unsaved.append((event, decided.said))
        reason = self._save(now, just_tried=True)
        if reason is not None:
            return NotSaved(event, decided.said, reason)
        if foreseen is not None:
            self._assessed = foreseen.assessment
        return Taken(event, decided.said, beside)

    def foresee(self, intent: Intent, now: Instant) -> Iterator[None]:
        """Work out ahead, piece by piece, what recording a reading would come to; nothing is recorded.

        `foreseen` has it at the end, where it is a reading that may be taken; `act` takes it up.
        """
        self.foreseen = None
        if self._store is None or self._unsaved or len(self.events) >= MOST_EVENTS:
            return
        decided = decide(intent, self, now)
        if isinstance(decided, Refused) or not isinstance(decided.payload, ReadingTaken):
            return
        event = self._event(decided, now)
        stood = self.state
        foreseen = yield from foresee(intent, decided, event, self.profile, stood)
        if self.state is stood:
            self.foreseen = foreseen

    def save_again(self, now: Instant) -> tuple[Taken, ...] | NotSaved:
        """Try once more to put on the disk what could not be; nothing waiting: ()."""
        waiting = tuple(self._unsaved)
        reason = self._save(now, just_tried=False) if waiting else None
        if reason is not None:
            event, said = waiting[-1]
            return NotSaved(event, said, reason)
        return tuple(Taken(event, said) for event, said in waiting)

    def drop_unsaved(self) -> None:
        """Give up what could not be put on the disk."""
        self._unsaved.clear()

    def _waiting(self) -> str:
        count = len(self._unsaved)
        return "1 record waits" if count == 1 else f"{count} records wait"

    def _event(self, decided: Decided, now: Instant) -> Event:
        newest = self._unsaved[-1][0] if self._unsaved else (self.events[-1] if self.events else None)
        event_id = next_id(newest.id if newest else "", now.at, self._writer)
        return Event(event_id, now.at, now.offset, self._access.by, decided.payload)

    def _save(self, now: Instant, *, just_tried: bool) -> Words | None:
        """Put on the disk what waits; why not, in words, where that fails.

        just_tried : the newest of it is what the profile was last tried with.
        """
        assert self._store is not None
        events = [event for event, _ in self._unsaved]
        try:
            self._keep_lock(now)
            self._store.append(events)
        except OSError as fault:
            return words("not saved: {fault}", fault=in_words(fault))
        self._unsaved.clear()
        if not just_tried or len(events) > 1:
            # What was tried last was another edit, or this one without those that waited before it.
            self._profiles.forget(TRIAL)
        for event in events:
            self._take_in(event)
        if self._store.is_long:
            self._fold_in()
        return None

    def _take_in(self, event: Event) -> None:
        """An event that is on the disk counts from now on."""
        self.foreseen = None
        tried = (*(edit.id for edit in self._fold.edits), TRIAL)
        if not self._fold.add(event):
            self._fold = Fold(self.events)
        if isinstance(event.payload, PROFILE_EDITS):
            self._profiles.adopt(tried, [edit.id for edit in self._fold.edits])
        if isinstance(event.payload, (*PROFILE_EDITS, Undone)):
            self._stand()
        self._assessed = None

    def _fold_in(self) -> None:
        """A journal that has grown long; where it can't be folded in now, it can later."""
        assert self._store is not None
        try:
            self._store.fold_in()
        except OSError:
            return

    def _keep_lock(self, now: Instant) -> None:
        """A lock whose file was removed with its folder is taken anew. Raises OSError."""
        self._must_hold()
        lock = self._access.lock
        if lock is None or lock.still_stands():
            return
        lock.release()
        self._access.files.make_folder(self.folder)
        self._access.lock = SessionLock(self.folder, self._access.files)
        if not self._access.lock.take(now):
            raise OSError("another program holds the session's folder")

    def _must_hold(self) -> None:
        """Raises OSError: a program on another machine, whose locks don't reach here, writes to it now."""
        lock = self._access.lock
        other = lock.taken_by() if lock is not None else None
        if other is not None:
            raise OSError(f"{other.name} on {other.host} has taken the session over")

    def clock_words(self, now: Instant) -> tuple[Words, ...]:
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

    # --- copies, taking over, leaving ---

    def take_in(self, events: Sequence[Event], strangers: Sequence[bytes] = ()) -> int:
        """The union with another copy's events; how many were new. Raises OSError: nothing was taken in."""
        if self._store is None:
            raise OSError("this session is read-only")
        new = missing_from(self.events, events)
        if len(self.events) + len(new) > MOST_EVENTS:
            raise OSError(f"a session holds up to {MOST_EVENTS} records")
        self._must_hold()
        if new or set(strangers) - set(self._document.strangers):
            self._store.take_in(new, strangers)
            self._refold()
        return len(new)

    def whole_document(self) -> Document:
        """Everything that there is to carry away, events included that could not be saved yet."""
        return msgspec.structs.replace(self._document, events=EventLog([*self.events, *self.unsaved]))

    def may_take_over(self) -> bool:
        """For one who looks on: whether nobody holds the session any more."""
        lock = self._access.lock
        return self._store is None and lock is not None and self._access.because is None and lock.is_free()

    def take_over(self, now: Instant) -> bool:
        """Whether a session that another program held is ours now: it has ended, or died.

        Raises SessionFault: what it left can't be read.
        """
        lock = self._access.lock
        if self._store is not None or lock is None or self._access.because is not None:
            return False
        try:
            if not lock.take(now):
                return False
        except OSError:
            return False
        try:
            self._load(open_folder(self.folder))
        except BaseException:
            lock.release()
            raise
        return True

    def close(self) -> None:
        """Leave: fold the journal in and give the lock back. Where that fails, the disk is complete still.

        What could not be saved is tried once more; what then can't is gone with this object.
        """
        if self._store is not None:
            try:
                self._must_hold()
                with contextlib.suppress(OSError):
                    if self._unsaved:
                        self._store.append(list(self.unsaved))
                self._store.close()
            except OSError as fault:
                self.notices += (
                    words("the journal stays beside the session: {fault}", fault=in_words(fault)),
                )
            self._store = None
        if self._access.lock is not None:
            self._access.lock.release()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _refold(self) -> None:
        self.foreseen = None
        super()._refold()

    def _load(self, opened: Opened) -> None:
        """And where the session is held, make it ready to be recorded in."""
        super()._load(opened)
        lock = self._access.lock
        if lock is None or not lock.is_held:
            return
        if lock.left_by is not None:
            self.notices += (left_words(lock.left_by),)
        if self._access.because is not None:
            lock.release()  # for one who may write
            return
        self._store = Store(self.folder, opened, self._access.files)
        try:
            self._store.heal()
        except OSError as fault:
            self.notices += (
                words("what was put together isn't written yet: {fault}", fault=in_words(fault)),
            )


def _is_retyped(event: Event, payload: AnyPayload) -> bool:
    """Whether it is a reading that waits already: typed once more because it wasn't saved, not read once more."""
    was = event.payload
    return (
        isinstance(was, ReadingTaken)
        and isinstance(payload, ReadingTaken)
        and (was.slot, was.typed, was.value) == (payload.slot, payload.typed, payload.value)
    )

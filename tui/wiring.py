"""Between session and screen, alone: intents go in, snapshots come out, and the time is asked here.

What the last event moved is found here, by comparing what the figures show before and after it.
"""

import time
from collections.abc import Callable, Generator, Sequence
from typing import TYPE_CHECKING, Any

from logic.data.state import Assessment, Instant
from logic.session.intents import Intent, NotSaved, Refused, Taken
from tui.show import numbers
from tui.show.marks import Marks
from tui.show.snapshot import Snapshot

if TYPE_CHECKING:
    from logic.assessment.case import Case
    from logic.session.session import Session


def this_moment() -> Instant:
    """Now, with the offset of this machine's clock."""
    at = time.time()
    return Instant(at, time.localtime(at).tm_gmtoff)


class Wiring:
    """One session as the screen sees it."""

    def __init__(self, session: "Session", *, marks: Marks, now: Callable[[], Instant] = this_moment) -> None:
        self.session = session
        self.marks = marks
        self.now = now
        self.target: str | None = None  # the slot that a person chose; None: the next in walking order
        self.units: str | None = None  # the units chosen by key; None: the profile's
        self.moved: dict[str, str] = {}
        self.touched = now().at  # when a key was last pressed
        self.late = 0  # how many records were saved after they could not be, and it wasn't said yet
        self.holder_gone = False  # another program held the session, and doesn't any more
        self._snapshot: Snapshot | None = None
        # What `snapshot` will be, if what was foreseen is recorded next.
        self._foreseen: Snapshot | None = None

    def send(self, intent: Intent) -> Taken | Refused | NotSaved:
        """Have an intent recorded. What it moved is in the next snapshot."""
        before = self.snapshot().assessment  # what is on the screen, perhaps minutes old
        units = self.shown_units(before)
        waiting = len(self.session.unsaved)
        result = self.session.act(intent, self.now())
        self.late += waiting if not self.session.unsaved else 0
        foreseen, self._foreseen = self._foreseen, None
        if foreseen is not None and isinstance(result, Taken) and self.came_true(foreseen, result):
            self._snapshot, self.moved = foreseen, dict(foreseen.moved)
        elif not isinstance(result, Refused):
            self._snapshot = None
            after = self.session.assess(self.now())
            self.moved = moved_between(before, after, units) if self.shown_units(after) == units else {}
        return result

    def came_true(self, foreseen: Snapshot, taken: Taken) -> bool:
        """Whether the session is now what was foreseen."""
        return self.session.assess(Instant(taken.event.at, taken.event.offset)) is foreseen.assessment

    def foresee(self, intent: Intent) -> Generator[None, None, Snapshot | None]:
        """What the panes would be shown if this were recorded now, worked out piece by piece; None: it may not be.

        `send` takes it up where it is the next that is recorded. Nothing that is shown changes.
        """
        self._foreseen = None
        before = self.snapshot()
        yield from self.session.foresee(intent, self.now())
        foreseen = self.session.foreseen
        if foreseen is None or self._snapshot is None or self._snapshot.assessment is not before.assessment:
            return None
        after = foreseen.assessment
        moved = moved_between(before.assessment, after, before.units)
        if self.shown_units(after) != before.units:
            moved = {}
        yield
        made = self._made(after)._replace(state=foreseen.state, now=after.now, moved=moved)
        self._foreseen = self._aimed(made, self._next(made))
        return self._foreseen

    def snapshot(self) -> Snapshot:
        """The session as it stands, for the panes. The same one until something changes or time passes."""
        if self._snapshot is None:
            self._snapshot = self._made(self.session.assess(self.now()))
        wanted = self.target or self._next(self._snapshot)
        if self._snapshot.target != wanted:
            self._snapshot = self._aimed(self._snapshot, wanted)
        return self._snapshot

    def tick(self) -> Snapshot:
        """The snapshot of this moment: timers run, make-safe lapses."""
        self._snapshot = self._foreseen = None
        return self.snapshot()

    def case(self) -> "Case":
        """The case under assessment with its figures and steps: for screens that ask more than an assessment says."""
        from logic.assessment.case import assessed_case

        return assessed_case(self.session.assess(self.now()), self.session.state)

    def what_if(self, changes: Sequence[tuple[str, Any]]) -> tuple[Assessment | None, tuple[str, ...]]:
        """The assessment with other values in the profile, nothing recorded; or why there is none."""
        from logic.assessment.assess import assess
        from logic.data.faults import ProfileFaults
        from logic.data.profile_check import check_document
        from logic.data.profile_edit import changed

        document = self.session.document
        try:
            for path, value in changes:
                document = changed(document, path, value)
            profile = check_document(document, file="", hourly=self.session.profile.design.hourly)
        except ProfileFaults as found:
            return None, tuple(fault.line() for fault in found.faults)
        return assess(profile, self.session.state, self.now()), ()

    def switch_units(self) -> str:
        """Show the other units; nothing is recorded."""
        self.units = "us" if self.shown_units(self.session.assess(self.now())) == "metric" else "metric"
        self._snapshot = self._foreseen = None
        self.moved = {}
        return self.units

    def shown_units(self, assessment: Assessment) -> str:
        return self.units or assessment.profile.rig.units

    def _made(self, assessment: Assessment) -> Snapshot:
        session = self.session
        return Snapshot(
            assessment=assessment,
            state=session.state,
            document=session.document,
            units=self.shown_units(assessment),
            marks=self.marks,
            now=self.now(),
            moved=dict(self.moved),
            held_by=self._why_read_only(),
            unsaved=len(session.unsaved),
            session=session.id,
            holder_gone=self.holder_gone,
        )

    def _why_read_only(self) -> str:
        because = self.session.gone_words() if self.holder_gone else self.session.because
        return numbers.fill(because, "us") if because is not None else ""

    def follow(self) -> bool:
        """Where another program holds the session: whether it recorded something or went, which is then shown."""
        gone = self.session.read_only and self.session.may_take_over()
        if not self.session.follow() and gone == self.holder_gone:
            return False
        self.holder_gone = gone
        self._snapshot = None
        return True

    def take_over(self) -> bool:
        """Whether the session is this program's now. Raises SessionFault: what the other left can't be read."""
        ours = self.session.take_over(self.now())
        self.holder_gone = not ours and self.session.may_take_over()
        self._snapshot = None
        return ours

    def clock_went_back(self) -> tuple[str, ...]:
        """That the clock stands before the last record, in words; said once."""
        if self.session.read_only:
            return ()
        return tuple(numbers.fill(each, "us") for each in self.session.clock_words(self.now()))

    def save_again(self) -> bool:
        """Try once more to put on the disk what could not be; whether all is on it now."""
        waiting = len(self.session.unsaved)
        if not waiting:
            return True
        result = self.session.save_again(self.now())
        self._snapshot = None
        if isinstance(result, NotSaved):
            return False
        self.late += waiting
        return True

    @staticmethod
    def _next(snapshot: Snapshot) -> str | None:
        return next(iter(snapshot.assessment.wanted), None)

    @staticmethod
    def _aimed(snapshot: Snapshot, target: str | None) -> Snapshot:
        order = list(dict.fromkeys(snapshot.assessment.wanted))
        begin = order.index(target) + 1 if target in order else 0
        after = tuple(name for name in [*order[begin:], *order[:begin]] if name != target)
        return snapshot._replace(target=target, after=after[:2])


def moved_between(before: Assessment, after: Assessment, units: str) -> dict[str, str]:
    """Figure id → what it showed before, for those that show something else now.

    That is the value; where it is the same and the band decides whether a limit holds, the band.
    """
    old = {figure.id: figure for figure in before.figures}
    moved = {}
    for figure in after.figures:
        was = old.get(figure.id)
        if was is None or was is figure:
            continue
        decides = figure.banded and figure.holds is not None
        if was.value == figure.value and (not decides or (was.low, was.high) == (figure.low, figure.high)):
            continue
        said, now = numbers.figure_text(was, units), numbers.figure_text(figure, units)
        if said.value != now.value:
            moved[figure.id] = said.value
        elif decides and said.band != now.band:
            moved[figure.id] = f"{numbers.BAND}{said.band}"
    return moved

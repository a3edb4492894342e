"""Timers as facts: when they began, which hours count, when they are due, the program open or closed.

A clock that is put back would shorten or stretch what is timed, so times are first laid on one line that
never runs backwards (`SteadyTime`). A change of zone moves no timer: times are epoch seconds, only the day is
local. A clock put forward can't be told from time that passed, and isn't.
"""

import itertools
from bisect import bisect_left
from collections.abc import Iterable
from operator import attrgetter, gt

import msgspec

from logic.data.state import Instant, Item, Note, Reading, State, StepEvent
from logic.data.wording import Words, quantity, words
from logic.data.work_constants import CHILL, FRESH, LEAK_CHECK, WARM_TEST

WARM_ENOUGH = 1e-6  # K: a least typed in °F and a reading typed in °F meet exactly
SORTING_ID = 12  # characters: shorter ids aren't those of events
JITTER = 60.0  # s: a clock corrected by less is not worth a word

TIMER_LENGTHS = {"leak": LEAK_CHECK, "chill": CHILL, "warm": WARM_TEST}


Happening = Reading | StepEvent | Item | Note


class SteadyTime:
    """The session's happenings on one line of time, in the order they were recorded.

    Event ids, all of one length, sort by the order of recording even where a clock went back; each drop is
    added to all that follows. Other ids say nothing of order: then the times alone do.
    """

    def __init__(self, happenings: Iterable[Happening], now: Instant) -> None:
        listed = list(happenings)
        lengths = {len(one.id) for one in listed}
        sortable = len(lengths) <= 1 and min(lengths, default=SORTING_ID) >= SORTING_ID
        listed.sort(key=attrgetter("id") if sortable else attrgetter("when.at"))
        self.put_back: list[tuple[Instant, float]] = []  # when, by how much
        self.zones: list[tuple[Instant, int]] = []  # when, seconds eastwards
        self.ids = [one.id for one in listed]
        self.times = [one.when.at for one in listed]  # steady, of each of `ids`
        self._back = 0.0
        if self._drops(listed, now):
            self._lay([one.when for one in listed], now)
        # Ids in their order are looked up where they stand: of thousands, an index is half a megabyte.
        self._places = None if sortable else {name: place for place, name in enumerate(self.ids)}
        self.now = now.at + self._back

    def _drops(self, listed: list[Happening], now: Instant) -> bool:
        """Whether the clock, or its zone, ever moved: most often neither did."""
        return (
            any(map(gt, self.times, itertools.islice(self.times, 1, None)))
            or any(at > now.at for at in self.times[-1:])
            or any(one.when.offset != now.offset for one in listed)
        )

    def _lay(self, whens: list[Instant], now: Instant) -> None:
        last: Instant | None = None
        times = []
        for when in (*whens, now):
            if last is not None:
                if when.at < last.at:
                    self._back += last.at - when.at
                    if last.at - when.at > JITTER:
                        self.put_back.append((when, last.at - when.at))
                if when.offset != last.offset:
                    self.zones.append((when, when.offset - last.offset))
            times.append(when.at + self._back)
            last = when
        self.times = times[:-1]

    def of(self, happening: str) -> float:
        """The steady time of a happening, by its id. [s]  Raises KeyError: there is none of that id."""
        if self._places is not None:
            return self.times[self._places[happening]]
        place = bisect_left(self.ids, happening)
        if place == len(self.ids) or self.ids[place] != happening:
            raise KeyError(happening)
        return self.times[place]

    def shown(self, steady: float) -> float:
        """A steady time as today's clock would show it. [epoch s]"""
        return steady - self._back

    def word_since(self, at: float) -> Words | None:
        """What a person should know of the clock since a moment [epoch s]; None where it ran on."""
        back = sum(by for when, by in self.put_back if when.at + by >= at)
        if back > 0.0:
            return words(
                "the clock was put back by {by}; hours are counted on from there, so none is counted twice",
                by=quantity(back, "hours"),
            )
        zone = sum(by for when, by in self.zones if when.at >= at)
        if zone:
            return words(
                "the clock's zone moved by {by} {way}; hours count on, times of day are the new zone's",
                by=quantity(abs(zone), "hours"),
                way="eastwards" if zone > 0 else "westwards",
            )
        return None


def happenings_of(state: State) -> list[Happening]:
    """All that was recorded, for the line of time and for the breaks in it."""
    return [*state.readings, *state.steps, *state.items, *state.notes]


class Dwell(msgspec.Struct, frozen=True):
    """How far adhesive has come. Seconds, and steady times."""

    started: float
    counted: float  # between two readings of the surface, both warm enough
    open_tail: float  # since the last reading, warm enough then: counts once the surface is read again
    uncounted: float  # hours below the least, or not known
    due: (
        float | None
    )  # when it is reached if the wall stays warm; None: the last reading is too cold, or there is none
    reached: bool


def dwell(
    *, bonded: float, wanted: float, least: float, surface: Iterable[tuple[float, float]], now: float
) -> Dwell:
    """Dwell of a bond, from the surface readings at its start, at its end and in between.

    bonded : when the bond was done. [s] wanted : the sheet's time. [s]
    least : the sheet's least surface. [°C]
    surface : (time, surface) in order; the last one before the bond is its start's. [s, °C]
    An interval counts where the readings at both of its ends are warm enough; what follows the last reading
    doesn't count until the surface is read again. That errs on the long side. Source `practice-dwell`.
    """
    readings = [(max(at, bonded), degc) for at, degc in surface if bonded - FRESH <= at <= now]
    before = [one for one in readings if one[0] <= bonded]
    points = before[-1:] + [one for one in readings if one[0] > bonded]
    counted = 0.0
    due: float | None = None
    for (begin, at_begin), (end, at_end) in itertools.pairwise(points):
        if min(at_begin, at_end) >= least - WARM_ENOUGH:
            if counted < wanted <= counted + end - begin:
                due = begin + wanted - counted
            counted += end - begin
    reached = counted >= wanted
    tail = 0.0
    if points and points[-1][1] >= least - WARM_ENOUGH:
        tail = now - points[-1][0]
        if not reached:
            due = points[-1][0] + wanted - counted
    return Dwell(
        started=bonded,
        counted=counted,
        open_tail=tail,
        uncounted=max(0.0, now - bonded - counted - tail),
        due=due,
        reached=reached,
    )

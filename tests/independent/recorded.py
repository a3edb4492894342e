"""Deeds done to a session through the program's own door, and kept account of beside it."""

import math
from dataclasses import dataclass
from fractions import Fraction

import msgspec

from logic.assessment.assess import assess, case_of
from logic.assessment.proving import proof_of
from logic.data.profile_file import load_profile
from logic.data.state import Instant, StepEvent
from logic.session.intents import (
    MoveReading,
    RecordReading,
    Refused,
    SetTape,
    StrikeReading,
    SwapLastTwo,
    TakeBackReading,
)
from logic.session.session import new_session
from tests.contract.headless import bellypan
from tests.independent.measured import tape_slots
from tests.independent.proving import Metered
from tests.independent.random_readings import MM, SIXTEENTH
from tests.independent.readings import Taken

BEGUN = 1_770_000_000.0
BETWEEN, BOUNCED, NIGHT = 60.0, 20.0, 14 * 3600.0  # s
MOST = 300 * 12  # [in]
OR_ZERO = {"x", "y", "fall", "level", "fuse_at"}


@dataclass
class Entry:
    """One reading ever taken, where it counts now."""

    reading: str
    slot: str
    value: Fraction
    resolution: Fraction
    at: float
    struck: bool = False


def may_hold(slot, inches):
    """Whether a slot takes such a length: sizes over 0, positions 0 or more, nothing over 300 ft."""
    name = slot.rpartition(".")[2]
    zero = name in OR_ZERO or (slot.startswith("run.") and name == "length")
    return (inches >= 0 if zero else inches > 0) and inches <= MOST


class Account:
    """A session on the disk and the same deeds written down beside it; `wrong` lists what was answered otherwise."""

    def __init__(self, path, home, rig, dice):
        self.rig, self.dice, self.home = rig, dice, home
        self.at = BEGUN
        self.last_id = "0"
        self.session = new_session(load_profile(path), self.now, home=home, by="R. Tester")
        self.entries: list[Entry] = []
        self.meters: dict[str, list[Metered]] = {}  # oldest first
        self.switched: list[StepEvent] = []  # fuses in and out, which no session here comes to
        self.live: dict[str, tuple[float, float]] = {}  # circuit → its fuse in and out, the last time
        self.tape: Fraction | None = None
        self.wrong: list[str] = []

    @property
    def now(self):
        return Instant(self.at)

    def act(self, intent, *, expected=True, after=BETWEEN):
        self.at += after
        answer = self.session.act(intent, self.now)
        taken = not isinstance(answer, Refused)
        if taken != expected:
            self.wrong.append(f"{intent}: {'taken' if expected else 'refused'} / {answer}")
        if taken:
            self.last_id = answer.event.id
        return answer if taken else None

    def do(self, deed):
        getattr(self, f"do_{deed[0]}")(*deed[1:])

    def do_read(self, slot, text, *, after=BETWEEN, expected=None):
        expected = (may_hold(slot, text.value) and text.resolution != 0) if expected is None else expected
        answer = self.act(RecordReading(slot, text.typed), expected=expected, after=after)
        if answer is not None:
            self.entries.append(Entry(answer.event.id, slot, text.value, self.resolution(text), self.at))
            self.last = (slot, text)

    def do_again(self, after):
        """The last reading's text once more: refused as a bounced key within 20 s of one that still stands."""
        if self.entries:
            slot, text = self.last
            now = self.at + after
            bounced = any(
                one.slot == slot and one.value == text.value and now - one.at <= BOUNCED
                for one in self.entries
                if not one.struck
            )
            self.do_read(slot, text, after=after, expected=not bounced)

    def do_tape(self, typed, inches):
        self.act(SetTape(typed))
        self.tape = inches

    def do_meter(self, slot, typed, value, digit):
        self.act(RecordReading(slot, typed, confirmed=True))
        self.meters.setdefault(slot, []).append(Metered(value, digit, self.at))

    def do_night(self):
        self.at += NIGHT

    def do_energise(self, circuit):
        self.live[circuit] = (self.switch("energise", circuit), math.inf)

    def do_fuse_out(self, circuit):
        since, until = self.live[circuit]
        self.live[circuit] = (since, min(until, self.switch("fuse-out", circuit)))

    def switch(self, template, circuit):
        """A step started and done, between the last reading and the next; its time."""
        self.at += BETWEEN
        for kind in ("started", "done"):
            name = f"{self.last_id}~{len(self.switched):04d}"  # sorts after that reading
            self.switched.append(StepEvent(name, f"{template}:run.{circuit}", kind, self.now))
        return self.at

    def resolution(self, text):
        """What was typed with it; else the tape's, for what is typed in the rig's own units. [in]"""
        if text.resolution is not None:
            return text.resolution
        if self.tape is not None and text.metric == self.dice.metric:
            return self.tape
        return MM if text.metric else SIXTEENTH

    def do_strike(self):
        """Any reading of a slot, by its number."""
        if not self.entries:
            return
        one = self.dice.choice(self.entries)
        number = [other for other in self.entries if other.slot == one.slot].index(one) + 1
        self.act(StrikeReading(slot=one.slot, number=number), expected=not one.struck)
        one.struck = True

    def do_back(self):
        standing = [one for one in self.entries if not one.struck]
        self.act(TakeBackReading(), expected=bool(standing))
        if standing:
            standing[-1].struck = True

    def do_move(self):
        if not self.entries:
            return
        one, to = self.dice.choice(self.entries), self.dice.choice(sorted(tape_slots(self.rig)))
        expected = to != one.slot and may_hold(to, one.value)
        if self.act(MoveReading(one.reading, to), expected=expected) is not None:
            one.slot = to

    def do_swap(self):
        standing = [one for one in self.entries if not one.struck][-2:]
        expected = len(standing) == 2 and standing[0].slot != standing[1].slot
        expected = expected and all(may_hold(b.slot, a.value) for a, b in (standing, standing[::-1]))
        if self.act(SwapLastTwo(), expected=expected) is not None:
            a, b = standing
            a.slot, b.slot = b.slot, a.slot

    def standing(self):
        """slot → the readings that count there, oldest first."""
        slots: dict[str, list[Taken]] = {}
        for order, one in enumerate(self.entries):
            if not one.struck:
                slots.setdefault(one.slot, []).append(Taken(one.value, one.resolution, order))
        return slots

    def answered(self):
        """(its slots by id, what `check --session --json` says once it is on the disk alone, its tests).

        The tests, and the findings from them, as they stand with the fuses put in and taken out.
        """
        state = msgspec.structs.replace(self.session.state, steps=tuple(self.switched))
        proven = proof_of(case_of(self.session.profile, state, self.now))
        found = assess(self.session.profile, state, self.now).findings
        views = {view.slot: view for view in self.session.assess(self.now).slots}
        session_id = self.session.id
        self.session.close()
        return (
            views,
            bellypan("check", "--session", session_id, "--json", home=self.home).json,
            (proven, found),
        )

"""Someone at the screen, for tests that kill the program under them: what they typed, and what the screen said of it.

Each thing typed is one event. It counts as acknowledged when the screen says what it says once that event is on the
disk, and not a moment before. After the end, the session on the disk is compared with that.
"""

import random
import time
from collections.abc import Sequence
from pathlib import Path

from logic.data import events as happened
from logic.data.events import Event
from tests.contract.headless import RIGS, bellypan
from tests.pty.terminal import CTRL_Q, Terminal

NOT_SAVED = "NOT SAVED: "  # beside the line, instead of an acknowledgement
PROGRAM = "tests.crash.screen_program"
CTRL_Z, F2, F9, CTRL_S = "\x1a", "\x1bOQ", "\x1b[20~", "\x13"
SLOTS = ("length", "width", "height")


class Deed:
    """One thing done at the screen: the event that it is to be, and whether the screen said that it is."""

    def __init__(self, what: tuple[str, ...], *says: str, optional: bool = False) -> None:
        """says : one of these stands on the screen once it is recorded. optional : it may be refused."""
        self.what, self.says, self.optional = what, says, optional
        self.acknowledged = False

    def is_said(self, said: str) -> bool:
        return any(each in said for each in self.says)


def what_of(event: Event) -> tuple[str, ...]:
    """An event in the words in which a deed says what it is to be."""
    payload = event.payload
    match payload:
        case happened.ReadingTaken():
            return ("reading", payload.slot, payload.typed)
        case happened.ItemWritten():
            return ("item", payload.text)
        case happened.NoteWritten():
            return ("note", payload.text)
        case happened.StepStarted() | happened.StepDone():
            return ("step",)
    return (type(payload).__name__,)


class Killed(Exception):
    """The time had come."""


class Person:
    """Types at a screen until the program is killed; `deeds` is the record."""

    def __init__(
        self, terminal: Terminal, chance: random.Random, *, killed_at: float = float("inf"), number: int = 0
    ) -> None:
        """killed_at : by the monotonic clock; beyond it, the next look at the screen raises Killed.

        number : where the counting of values goes on, so that none comes twice.
        """
        self.terminal, self.chance, self.killed_at = terminal, chance, killed_at
        self.deeds: list[Deed] = []
        self.number = number

    @property
    def screen(self) -> str:
        return " ".join(self.terminal.text.split())

    @property
    def said(self) -> str:
        """What stands beside the reading line."""
        return " ".join(" ".join(self.terminal.text.split("\n")[-4:-1]).split())

    def look(self) -> None:
        """Read what the program wrote; which deeds the screen acknowledges now."""
        if time.monotonic() >= self.killed_at:
            raise Killed
        if not self.terminal.gather(min(0.05, max(0.0, self.killed_at - time.monotonic()))):
            raise Killed
        self.note_acknowledged()

    def note_acknowledged(self) -> None:
        said = self.said
        for deed in self.deeds:
            deed.acknowledged = deed.acknowledged or deed.is_said(said)

    def until(self, *words: str) -> None:
        """Look until one of these stands on the screen."""
        end = time.monotonic() + 20.0
        while not any(word in self.screen for word in words):
            self.look()
            assert time.monotonic() < end, f"never seen: {words}\n{self.terminal.text}"

    # --- what is done ---

    def do(self, keys: str, *deeds: Deed, wait: bool = True) -> None:
        """Send keys, and wait for the acknowledgement of the last deed that they are, or for what was said instead."""
        if any(deed.is_said(self.said) for deed in deeds):
            return  # it would be taken for acknowledged by what stands there already
        before = self.said
        self.deeds += deeds
        self.terminal.send(keys)
        end = time.monotonic() + 20.0
        while wait and not deeds[-1].acknowledged and not (NOT_SAVED in self.said != before):
            self.look()
            assert time.monotonic() < end, f"never seen: {deeds[-1].says}\n{self.terminal.text}"

    def reading(self) -> tuple[str, Deed]:
        """A reading that no other is like, as typed, and what the screen says of it."""
        self.number += 1
        slot = SLOTS[self.number % len(SLOTS)]
        value = f"{10 + self.number % 80} {1 + 2 * (self.number // 80 % 8)}/16"
        deed = Deed(("reading", f"tank.gray.{slot}", value), f": gray tank, {slot} {value} in")
        return f"gray tank {slot} {value}", deed

    def take_reading(self) -> None:
        typed, deed = self.reading()
        self.do(f"{typed}\r", deed)

    def take_list(self) -> None:
        pairs = [self.reading() for _ in range(2)]
        self.do(f"{'; '.join(typed for typed, _ in pairs)}\r", *(deed for _, deed in pairs))

    def type_ahead(self) -> None:
        """Faster than the program answers."""
        for _ in range(3):
            typed, deed = self.reading()
            self.do(f"{typed}\r", deed, wait=False)
        self.take_reading()

    def write_item(self) -> None:
        """Long or short, so that the session grows and shrinks."""
        self.number += 1
        text = f"item-{self.number}-{self.chance.randrange(10**6)} {'x' * self.chance.choice((1, 20, 400))}"
        self.terminal.send(F9)
        self.until("what is to be done")
        self.do(f"{text}\r\r\r", Deed(("item", text), f"written: {text.split()[0]}"))

    def step(self) -> None:
        """Start or finish a step: through its caution, or the form that asks what it records."""
        deed = Deed(("step",), " started: ", " done: ", optional=True)
        before = self.said
        if deed.is_said(before) or "no step may start" in before:
            return  # what is said next could not be told from it
        self.deeds.append(deed)
        self.terminal.send(CTRL_S)
        end = time.monotonic() + 20.0
        # Said beside the line, and nowhere else: the punch list, too, speaks of steps not done.
        while not (asked := self.asks_for_enter()) and self.said == before:
            self.look()
            assert time.monotonic() < end, f"no step starts, and nothing says why\n{self.terminal.text}"
        while asked and not deed.acknowledged:
            self.terminal.send("\r")
            self.look()
            asked = self.asks_for_enter()

    def asks_for_enter(self) -> bool:
        """Whether a caution or a form stands there."""
        return "Enter start" in self.screen or "Enter next" in self.screen

    def undo(self) -> None:
        self.do(CTRL_Z, Deed(("Undone",), "undone", optional=True))

    def strike(self) -> None:
        if any(deed.what[0] == "reading" and deed.acknowledged for deed in self.deeds[-1:]):
            slot, value = self.deeds[-1].what[1:]
            named = slot.replace("tank.gray.", "gray tank, ")
            self.do(F2, Deed(("ReadingStruck",), f"struck: {slot} {value}", f"struck: {named} {value}"))

    def leave(self) -> None:
        """Ctrl+Q: the journal is folded in, whatever the kill makes of it."""
        self.terminal.send(CTRL_Q)
        while self.terminal.child.isalive():
            self.look()

    def work(self) -> None:
        """Anything of it, until the program is gone."""
        deeds = (
            *(self.take_reading,) * 8, *(self.take_list,) * 3, *(self.type_ahead,) * 3, *(self.write_item,) * 6,
            *(self.undo,) * 4, *(self.strike,) * 3, *(self.step,) * 2,
        )  # fmt: skip
        while True:
            self.chance.choice(deeds)()

    def end(self) -> None:
        """Kill, and see what was on the screen by then."""
        if self.terminal.child.isalive():  # it may have left, or died, by itself
            self.terminal.kill()
        else:
            self.terminal.left()
        self.note_acknowledged()


def check_record(found: Sequence[tuple[str, ...]], deeds: Sequence[Deed]) -> None:
    """Raises AssertionError: what was acknowledged isn't there, in its order, or something else is.

    What was typed and not acknowledged before the end may be there.
    """
    left = list(found)
    for deed in deeds:
        if left and left[0] == deed.what:
            left.pop(0)
        else:
            assert not deed.acknowledged, f"lost: {deed.what}; found {found}"
            assert deed.optional or not left, f"left out before others: {deed.what}; found {found}"
    assert not left, f"nobody typed {left}"


def begun_session(home: Path) -> str:
    """A session of the small demo rig; its id."""
    done = bellypan("open", RIGS / "two-tanks.toml", "--new", home=home)
    assert done.code == 0, done.errors
    return done.output.strip()


def at_the_screen(
    session_id: str, home: Path, *, rows: int = 30, columns: int = 100, **faults: object
) -> Terminal:
    """The session on a screen, ready for typing; `faults`: what `screen_program.py` reads."""
    said = {f"BELLYPAN_TEST_{name.upper()}": str(value) for name, value in faults.items()}
    # Compiled modules are kept, beside the sessions: a start takes a third of the time.
    kept = {"PYTHONDONTWRITEBYTECODE": "", "PYTHONPYCACHEPREFIX": str(home.parent / "compiled")}
    terminal = Terminal(
        "open", session_id, home=home, rows=rows, columns=columns, environment=kept | said, module=PROGRAM
    )
    terminal.child.delaybeforesend = None
    return terminal


def come_in(terminal: Terminal) -> None:
    """Wait for the session; leave the screen that says where things stand, once something has been recorded."""
    back = "any key goes on"
    terminal.until(lambda text: back in text or "Read on the tape" in text, f"the first words, or {back}")
    if back in terminal.text:
        terminal.send(" ")
        terminal.until(lambda text: back not in text and "owed" in text, "the desk")
